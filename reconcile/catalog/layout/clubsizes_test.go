package layout

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestClubSizes(t *testing.T) {
	lex := lexicon.New(nil)
	const both = "bore_depth=32 mm iron; bore_depth=36 mm fairway"
	for text, want := range map[string]string{
		"Bores are 1.25 deep on all irons and 1.38 on the wedges.":         "bore_depth=31.75 mm iron; bore_depth=35.052 mm wedge",
		"All irons bored 32 deep, woods 36":                                both,
		"Irons are bored 32 mm deep. Woods 36 mm.":                         both,
		"All sizes in mm; bore depth 32 (irons), 36 (woods)":               both,
		"Bohrungstiefe Eisen 32, Hölzer 36":                                both,
		"Die Eisen sind 32 tief gebohrt, die Hölzer 36.":                   both,
		"Profondeur de perçage : fers 32, bois 36":                         both,
		"Profundidade do furo: ferros 32, madeiras 36":                     both,
		"Taladro de 32 mm de profundidad en hierros y de 36 mm en maderas": both,
		"寸法はすべてmm。シャフト穴の深さはアイアン32、ウッド36です。":                                both,
		"孔深：铁杆32，木杆36":                                                     both,
		"구멍 깊이 아이언 32, 우드 36":                                              both,
		"Hosel OD irons 13.5, woods 12.0":                                  "hosel_od=13.5 mm iron; hosel_od=12 mm fairway",
		"All irons bored 32 deep":                                          "", // a title says that for all
		"All irons bored 32 deep, woods 36?":                               "",
		"Irons at most 32 deep, woods at most 36":                          "",
		"Bores irons .370, woods .335":                                     "", // tips
		"Price irons 32, woods 36":                                         "",
		"Irons 32, woods 36":                                               "",
		"Bore depth irons 32, irons 35, woods 36":                          "",
		"Irons 5-9 bored 32 deep, woods 36":                                "",
		"Irons 32 deep or 33, woods 36":                                    "",
	} {
		var got []string
		for _, one := range ClubSizes(lex, catalog.Heads, text, func(catalog.Role) string { return "mm" }) {
			got = append(got, fmt.Sprintf("%s=%s %s", one.Role, one.Size, strings.Join(one.Clubs, " ")))
		}
		if diff := cmp.Diff(want, strings.Join(got, "; ")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
	}
}
