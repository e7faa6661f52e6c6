package spoken

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestSpokenClauses looks at where what is said of a part is divided.
func TestSpokenClauses(t *testing.T) {
	for text, want := range map[string]string{
		"is black, bore 9.5, 25 long":             "is black|bore 9.5|25 long",
		"25 tall - 0.42 each":                     "25 tall|0.42 each",
		"OD 13.4 - 13.6, bore 9.5":                "OD 13.4 - 13.6|bore 9.5", // a range
		"35 deep. One only":                       "35 deep|One only",
		"Ø ext. 13,6, prof. 32":                   "Ø ext. 13,6|prof. 32", // short forms
		"0,55 € l'una. il fuori non lo so":        "0,55 € l'una|il fuori non lo so",
		"fuori 13,6, anzi no, 13,8, foro 9,3":     "fuori 13,6, anzi no, 13,8|foro 9,3",
		"außen 13,6, ach nein, 13,8, Bohrung 9,3": "außen 13,6, ach nein, 13,8|Bohrung 9,3",
		"the 7 iron: 13.5 across (new)":           "the 7 iron|13.5 across|new|",
	} {
		if got := strings.Join(Clauses(lexicon.New(nil), text), "|"); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestSpeak looks at what sentences give, in several languages, and that what can be meant in several ways gives nothing.
func TestSpeak(t *testing.T) {
	for text, want := range map[string]string{
		// English
		"is the 7 iron: 13.5 across the top of the hosel, hole 9.5 and 32 deep, so it wants a .370 shaft. Four of them, £11.50 each.": "description=is the 7 iron hosel_od=13.5 bore=9.5 bore_depth=32 tip=.370 stock=4 price=£11.50 each",
		"hosel 13.5, hole 9.5, but only 30 deep. Six left, £11.50 each as well.":                                                      "hosel_od=13.5 bore=9.5 bore_depth=30 description=but only stock=6 price=£11.50 each",
		"13.8 across the hosel, hole 9.1 again, .355 taper. Three at £14.00.":                                                         "hosel_od=13.8 bore=9.1 tip=.355 taper price=£14.00 stock=3",
		"that one is for the .355 taper. Just the two":                                                                                "tip=.355 taper description=that one is stock=2",
		"fits .370, 13.5 mm base, 19 mm tall - 0.42 each, 1200 on hand":                                                               "tip=.370 base_od=13.5 mm length=19 mm price=0.42 each stock=1200",
		"fits .370 13.5 mm base 19 mm tall":                                                                                           "tip=.370 base_od=13.5 mm length=19 mm",
		"13.6 at the base and 10.2 at the top, 22 long and 75 in stock":                                                               "base_od=13.6 top_od=10.2 length=22 stock=75",
		"the hosel is 13.5 across":                                                                                                    "hosel_od=13.5",
		"length 25, twenty left":                                                                                                      "length=25 stock=20",
		"tooling 20 EUR, engraving 2 EUR each":                                                                                        "description=tooling 20 EUR",
		"0.42 each, 0.38 each from 500, same as X-1 but 0.44 each":                                                                    "price=0.42 each description=0.38 each from 500",
		"13.8 across the base - no wait, sorry, 13.7, 25 tall":                                                                        "base_od=13.8, no wait, sorry 13.7 length=25",
		"13.8 across the base, no, I mean 13.7, 25 tall":                                                                              "base_od=13.8, no, I mean 13.7 length=25",
		"top 9.8 hole 8.85 length 25.4 Rs 38":                                                                                         "price=38 top_od=9.8 bore=8.85 length=25.4",
		"25 long. They are 42p each.":                                                                                                 "length=25 price=42p each",
		"length 22, and 45p each like all the odd ones.":                                                                              "length=22 price=45p each",
		"14.0 over the foot, I have 60 of them put by and want £1.15 apiece":                                                          "base_od=14.0 price=£1.15 apiece stock=60 of them put by and want",
		"rate Rs 1150, only 6 pcs in godown":                                                                                          "price=1150 stock=6",
		"hosel OD .545, bore .373 and 1.38 deep, 22.50 each, 20 of them":                                                              "hosel_od=.545 bore=.373 bore_depth=1.38 price=22.50 each stock=20",
		"bore .373, 33.00 each, only 3.":                                                                                              "bore=.373 price=33.00 each stock=3",
		"Bohrung 9,5, 24,50 € pro Stück, davon 12":                                                                                    "bore=9,5 price=24,50 € pro Stück stock=12",
		"hosel 13.4, bore 95, 32 deep":                                                                                                "hosel_od=13.4 bore=95 bore_depth=32",
		"base 31.2, nose 10.7, 19 long":                                                                                               "base_od=31.2 top_od=10.7 length=19", // the digits exchanged
		"Basis 31,2, Bohrung 9,3":                                                                                                     "base_od=31,2 bore=9,3",
		"base 31 of them":                                                                                                             "description=base 31 of them",
		"135 mm outside, 9.5 mm bore":                                                                                                 "hosel_od=135 mm bore=9.5 mm",
		"13.5 mm base 93.5 mm bore 25 mm long":                                                                                        "base_od=13.5 mm bore=93.5 mm length=25 mm",
		"13,5 mm außen und 95 mm Bohrung, 320 mm tief":                                                                                "hosel_od=13,5 mm bore=95 mm bore_depth=320 mm",
		"Bohrung 5 mm, 32 mm tief":                                                                                                    "bore=5 mm bore_depth=32 mm",
		"virole, 135 mm à la base, 93,5 mm d'alésage":                                                                                 "description=virole base_od=135 mm bore=93,5 mm",
		"hierro 7, 13,5 mm por fuera, 95 mm de agujero":                                                                               "description=hierro 7 hosel_od=13,5 mm bore=95 mm",
		"hosel com 13,5 mm por fora, furo 95 mm":                                                                                      "hosel_od=13,5 mm bore=95 mm",
		"95 left, bore 9.5 mm":                                                                                                        "stock=95 bore=9.5 mm",
		"Bohrung 95, 32 tief":                                                                                                         "bore=95 bore_depth=32",
		"bore .0366 and length 1.0":                                                                                                   "bore=.0366 length=1.0",
		"hosel 13.4, bore 3, 32 deep":                                                                                                 "hosel_od=13.4 description=bore 3 bore_depth=32",
		"two for £14.00":                                                                                                              "description=two for £14.00",
		"ready in 3 weeks, minimum 100":                                                                                               "description=ready in 3 weeks",
		"hosel 13.5 bore 9.5, 32 deep, R410 each, 14 left":                                                                            "hosel_od=13.5 bore=9.5 bore_depth=32 price=R410 each stock=14",
		"hosel 13.5, R 410 each":                                                                                                      "hosel_od=13.5 price=R 410 each",
		"hosel 13.5, R410":                                                                                                            "hosel_od=13.5 description=R410",
		"hosel 13.5, Rs410 each":                                                                                                      "hosel_od=13.5 price=Rs410 each",
		"hole 9.5, in steel M8 each":                                                                                                  "bore=9.5 description=in steel M8 each",
		"13.6 over the neck (not 13.2 over the neck as I wrote), hole 9.5":                                                            "hosel_od=13.6 bore=9.5",
		"hole 9.5, which we can let you have at £31.25.":                                                                              "bore=9.5 price=£31.25",
		"hole 9.5, and I should want £18.50 apiece.":                                                                                  "bore=9.5 price=£18.50 apiece",
		"is sold off at £9.00 while the remaining 40 last.":                                                                           "price=£9.00 stock=40",
		"hole 9.5 while the others are 9.3":                                                                                           "bore=9.5",
		// German
		"Bohrung 9,5, den wir Ihnen für 31,25 € überlassen können":                          "bore=9,5 price=31,25 €",
		"Bohrung 9,5, im Abverkauf für 9,00 €, solange die restlichen 40 reichen":           "bore=9,5 price=9,00 € stock=40",
		"außen 13,6 (nicht 13,2 außen wie im Februar), Bohrung 9,5":                         "hosel_od=13,6 bore=9,5",
		"ist das 7er Eisen: Hosel 13,5 außen, Loch 9,5 und 32 tief. Vier Stück, je 11,50 €": "description=ist das 7er Eisen hosel_od=13,5 bore=9,5 bore_depth=32 stock=4 price=11,50 €",
		"Loch 9,35, 80 Cent pro Stück":                                                      "bore=9,35 price=80 Cent pro Stück",
		"für den .355 Taper. Nur zwei, 14,00 € pro Stück.":                                  "tip=.355 Taper stock=2 price=14,00 € pro Stück",
		// French
		"base de 13,6 mm, petit bout de 10,2 mm, bout .370, 80 centimes pièce":        "base_od=13,6 mm top_od=10,2 mm tip=.370 price=80 centimes pièce",
		"noire, 13,6 à la base, trou 9,35, longue de 25, 0,55 € pièce, plus que deux": "description=noire base_od=13,6 bore=9,35 length=25 price=0,55 € pièce stock=2",
		"perçage 9,5, que nous pouvons vous laisser à 31,25 €":                        "bore=9,5 price=31,25 €",
		"perçage 9,5, soldé à 9,00 €, tant qu'il en reste 40":                         "bore=9,5 price=9,00 € stock=40",
		"col de 13,6 mm (et non 13,2 mm de col comme je l'ai écrit), perçage 9,5":     "hosel_od=13,6 mm bore=9,5",
		// Italian
		"foro 9,5, che possiamo lasciarle a 31,25 €, finché ne restano 40": "bore=9,5 price=31,25 € stock=40",
		"fuori 13,5 foro 9,3 lunga 25, nera, 0,55 € l'una":                 "hosel_od=13,5 bore=9,3 length=25 description=nera price=0,55 € l'una",
		"foro 9,5 e profondo 32, ce ne sono quattro":                       "bore=9,5 bore_depth=32 stock=4",
		"fuori 13,6 anzi no scusa 13,8, foro 9,3":                          "hosel_od=13,6 anzi no scusa 13,8 bore=9,3",
		"fuori 13,6, no scusa, 13,8, foro 9,3 o 9,4":                       "hosel_od=13,6, no scusa, 13,8 bore=9,3 o 9,4",
		"fuori 13,0 foro 8,9 19 lunga, grigia 0,50 € l'una, nuova":         "hosel_od=13,0 bore=8,9 length=19 description=grigia 0,50 € l'una",
		"invece ha il collo di 13,6, foro 9,5 profondo 31":                 "hosel_od=13,6 description=invece ha il bore=9,5 bore_depth=31",
		// Spanish
		"13,2 de base, mejor dicho 13,4, 9,35 de agujero y 25 de largo, a 0,60 €": "base_od=13,2, mejor dicho 13,4 bore=9,35 length=25 price=0,60 €",
		"por fuera 13,5, agujero 9,3 y 32 de hondo, quedan 30":                    "hosel_od=13,5 bore=9,3 bore_depth=32 stock=30",
		"agujero 9,3, que podemos dejarle en 31,25 €, mientras queden 40":         "bore=9,3 price=31,25 € stock=40",
		// Swedish and Polish
		"hål 9,3, som vi kan lämna för 31,25 €, så länge de återstående 40 räcker": "bore=9,3 price=31,25 € stock=40",
		"otwór 9,3, który możemy oddać za 31,25 €, póki starczy 40":                "bore=9,3 price=31,25 € stock=40",
		"hals 13,5 hål 9,3, 41 kr per styck, 14 kvar":                              "hosel_od=13,5 bore=9,3 price=41 kr per styck stock=14",
		"hål 9,3, 41 kr i frakt": "bore=9,3 description=41 kr i frakt",
		// Dutch
		"gat 9,3, die we u kunnen laten voor 31,25 €, zolang de resterende 40 strekken": "bore=9,3 price=31,25 € stock=40",
		"buiten 13,5 gat 9,3 lang 25, zwart, € 0,55 per stuk":                           "hosel_od=13,5 bore=9,3 length=25 description=zwart price=€ 0,55 per stuk",
		"13,5 buiten, gat 9,5 en 32 diep, nog drie over":                                "hosel_od=13,5 bore=9,5 bore_depth=32 stock=3",
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
