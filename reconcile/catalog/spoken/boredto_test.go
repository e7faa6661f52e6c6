package spoken

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestSpokenOnceMore looks at the turns of letters in several languages: how wide and how deep a bore is, a size behind a colon, and what leads to a
// price. What is not sure gives nothing.
func TestSpokenOnceMore(t *testing.T) {
	for text, want := range map[string]string{
		"is bored 9.5 mm, 32 mm deep; you can have it at 27.00":                          "bore=9.5 mm bore_depth=32 mm price=27.00",
		"drilled 9.5 mm x 32 mm. I can let you have it for £27.00":                       "bore=9.5 mm bore_depth=32 mm price=£27.00",
		"the bore is 9.5 over 32 mm, and I ask £27.00 for it":                            "bore=9.5 bore_depth=32 mm price=£27.00",
		"is stouter at the hosel: 13.8 mm, bored 9.5 by 30":                              "hosel_od=13.8 mm description=is stouter at the bore=9.5 bore_depth=30",
		"col de 13,7 mm percé à 9,52 mm sur 35 mm ; comptez 27,00 €":                     "hosel_od=13,7 mm bore=9,52 mm bore_depth=35 mm price=27,00 €",
		"plus fort au col : 13,8 mm, percé à 9,5 mm sur 30 mm, à 42,00 € la tête":        "hosel_od=13,8 mm description=plus fort au bore=9,5 mm bore_depth=30 mm price=42,00 € la tête",
		"gebohrt 9,52 mm auf 35 mm; rechnen Sie mit 27,00 €":                             "bore=9,52 mm bore_depth=35 mm price=27,00 €",
		"mit 9,5 mm auf 32 mm gebohrt, Sie können ihn für 42,00 € haben":                 "bore=9,5 mm bore_depth=32 mm price=42,00 €",
		"am Hals dicker: 13,8 mm, ebenfalls 31,00 € das Stück":                           "hosel_od=13,8 mm price=31,00 € das Stück",
		"più grosso al collo: 13,8 mm, forato 9,5 mm per 30 mm; glielo lascio a 24,50 €": "hosel_od=13,8 mm description=più grosso al bore=9,5 mm bore_depth=30 mm price=24,50 €",
		"cuello de 13,5 mm, taladrado a 9,5 mm en 32 mm; se lo dejo en 27,00 €":          "hosel_od=13,5 mm bore=9,5 mm bore_depth=32 mm price=27,00 €",
		"furado a 9,5 mm por 32 mm; fica a 29,00 €":                                      "bore=9,5 mm bore_depth=32 mm price=29,00 €",
		"geboord op 9,5 mm over 32 mm; reken op € 27,00":                                 "bore=9,5 mm bore_depth=32 mm price=€ 27,00",
		"borrad 9,5 mm på 32 mm; räkna med 270 kronor":                                   "bore=9,5 mm bore_depth=32 mm price=270 kronor",
		"otwór 9,5 mm na 30 mm, mogę oddać za 124,50 zł, mam jeszcze 4 sztuki":           "bore=9,5 mm bore_depth=30 mm price=124,50 zł stock=4",
		// not sure
		"bore 9.5 by 9.6":             "bore=9.5", // as well a second bore
		"bored 9.5 by 32 swingweight": "bore=9.5",
		"hosel 13.5 by 32":            "hosel_od=13.5",
		"hosel and bore: 13.5":        "description=hosel and bore",
		"at the hosel: 13.5, 13.8":    "description=at the hosel",
		"for the hosel: £27.00":       "description=for the hosel price=£27.00",
		"you can have two for £14.00": "description=you can have two for £14.00",
	} {
		var all []string
		for _, e := range Values(lexicon.New(nil), text) {
			all = append(all, fmt.Sprintf("%s=%s", e.Role, e.Text))
		}
		if got := strings.Join(all, " "); got != want {
			t.Errorf("%q:\n got %s\nwant %s", text, got, want)
		}
	}
}
