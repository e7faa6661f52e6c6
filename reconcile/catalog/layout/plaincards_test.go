package layout

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// plainly is what the cards of a sheet say, each cell of a line behind a bar; tables stand behind each other.
func plainly(lines []string) string {
	var rows [][]string
	for _, line := range lines {
		rows = append(rows, strings.Split(line, "|"))
	}
	var cards []string
	for _, r := range plainCards(grid.New(sheettest.Texts("cards", rows, false)), lexicon.New(nil)) {
		for line := r.Body; line <= r.To; line++ {
			if part := r.Grid.At(line, 1); part != "" {
				var all []string
				for _, h := range r.Columns[1:] {
					if text := r.Grid.At(line, h.Col); text != "" {
						all = append(all, h.Text+"="+text)
					}
				}
				cards = append(cards, fmt.Sprintf("%d %s: %s", line, part, strings.Join(all, " ")))
			}
		}
	}
	return strings.Join(cards, "; ")
}

// TestPlainCards looks at what cards without colons say.
func TestPlainCards(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"German, several pairs a line": {
			[]string{"Karte DA-1|Loch 9,25|für Schaft .370", "unten 13,6|oben 10,2|lang 25,4", "schwarz, 140 Stück da, 0,85 Euro das Stück", "",
				"Karte DA-2|Loch 92,5|für Schaft .370", "unten 13,6|oben 10,2|lang 19", "matt"},
			"1 DA-1: Loch=9,25 für Schaft=.370 unten=13,6 oben=10,2 lang=25,4 Stück da=140 price=0,85 Euro das Stück description=schwarz; " +
				"5 DA-2: Loch=92,5 für Schaft=.370 unten=13,6 oben=10,2 lang=19 description=matt",
		},
		"English, blanks only": {
			[]string{"Rings, sizes in mm", "Card HT-1 bore 9.25 base 13.6 long 25", "Card HT-2 bore 9.25 base 13.6 long 19"},
			"2 HT-1: bore=9.25 base=13.6 long=25; 3 HT-2: bore=9.25 base=13.6 long=19",
		},
		"Spanish, a word for fits that is money in another language": {
			[]string{"FM-20: negra lisa, para .370, base 13,5, punta 10,6, largo 20, 0,55 €, quedan 80", "FM-30: negra lisa, para .355 cónica, base 12,0, punta 9,6, largo 16, 0,50 €, quedan 60"},
			"1 FM-20: fits tip=.370 base=13,5 punta=10,6 largo=20 price=0,55 € quedan=80 description=negra lisa; " +
				"2 FM-30: fits tip=.355 cónica base=12,0 punta=9,6 largo=16 price=0,50 € quedan=60 description=negra lisa",
		},
		"Portuguese, the same with blanks between": {
			[]string{"Ficha VT-1  para .370  base 13,5  topo 10,6", "0,55 €", "", "Ficha VT-2  para .335  base 12,0  topo 9,6", "0,50 €"},
			"1 VT-1: fits tip=.370 base=13,5 topo=10,6 price=0,55 €; 4 VT-2: fits tip=.335 base=12,0 topo=9,6 price=0,50 €",
		},
		"French, for tips": {
			[]string{"Fiche TV-1, pour .370, bas 13,5, haut 10,1, 0,55 €", "Fiche TV-2, pour .335, bas 12,0, haut 9,6, 0,50 €"},
			"1 TV-1: pour=.370 bas=13,5 haut=10,1 price=0,55 €; 2 TV-2: pour=.335 bas=12,0 haut=9,6 price=0,50 €",
		},
		"English, prices below one without their nought": {
			[]string{"HT-1, for .370, base 13.6, long 25, price .85", "HT-2, for .335, base 12.0, long 19, price .80"},
			"1 HT-1: for=.370 base=13.6 long=25 price=.85; 2 HT-2: for=.335 base=12.0 long=19 price=.80",
		},
		"Italian, a head above a base is the thin end": {
			[]string{"ZV-1: nera, base 13,5, testa 10,8, foro 9,3, 0,44 euro", "ZV-2: nera, base 13,5, testa 10,8, foro 9,3, 0,48 euro", "ZV-3: avorio, base 13,2, testa 1,04, foro 8,9, 0,55 euro"},
			"1 ZV-1: base=13,5 top OD=10,8 foro=9,3 price=0,44 euro description=nera; 2 ZV-2: base=13,5 top OD=10,8 foro=9,3 price=0,48 euro description=nera; " +
				"3 ZV-3: base=13,2 top OD=1,04 foro=8,9 price=0,55 euro description=avorio",
		},
		"German, the same": {
			[]string{"ZV-1: Basis 13,5 mm, Kopf 10,8 mm, Bohrung 9,3 mm, Länge 18 mm, 0,44 €", "ZV-2: Basis 13,5 mm, Kopf 10,8 mm, Bohrung 9,3 mm, Länge 25 mm, 0,48 €"},
			"1 ZV-1: Basis=13,5 mm top OD=10,8 mm Bohrung=9,3 mm Länge=18 mm price=0,44 €; 2 ZV-2: Basis=13,5 mm top OD=10,8 mm Bohrung=9,3 mm Länge=25 mm price=0,48 €",
		},
		"Dutch, a head that is wider than the base": {
			[]string{"ZV-1: voet 13,5 mm, kop 13,8 mm, gat 9,3 mm, lengte 18 mm, 0,44 €", "ZV-2: voet 13,5 mm, kop 13,8 mm, gat 9,3 mm, lengte 25 mm, 0,48 €"},
			"1 ZV-1: voet=13,5 mm kop=13,8 mm gat=9,3 mm lengte=18 mm price=0,44 €; 2 ZV-2: voet=13,5 mm kop=13,8 mm gat=9,3 mm lengte=25 mm price=0,48 €",
		},
		"French, two blanks": {
			[]string{"Fiche TV-1   trou 9,35", "bas 13,5  haut 10,1", "", "Fiche TV-2   trou 9,35", "bas 13,5  haut 10,1"},
			"1 TV-1: trou=9,35 bas=13,5 haut=10,1; 4 TV-2: trou=9,35 bas=13,5 haut=10,1",
		},
		"Italian, numbers of digits": {
			[]string{"Scheda 12", "foro 9,35, base 13,5", "Scheda 13", "foro 8,95, base 13,2"},
			"1 12: foro=9,35 base=13,5; 3 13: foro=8,95 base=13,2",
		},
		"Spanish, three beside each other": {
			[]string{"Ref. TC-1||Ref. TC-2||Ref. TC-3", "Base 13,5||Base 13,6||Base 13,7", "Agujero 9,25||Agujero 9,3||Agujero 9,35", "Largo 19||Largo 20||Largo 21"},
			"1 TC-1: Base=13,5 Agujero=9,25 Largo=19; 2 TC-2: Base=13,6 Agujero=9,3 Largo=20; 3 TC-3: Base=13,7 Agujero=9,35 Largo=21",
		},
		"Polish, label and number in cells of their own": {
			[]string{"Karta|PK-1", "otwór 9,25", "dół 13,5", "", "Karta|PK-2", "otwór 8,85", "dół 13,2"},
			"1 PK-1: otwór=9,25 dół=13,5; 5 PK-2: otwór=8,85 dół=13,2",
		},
		"Japanese without blanks": {
			[]string{"カードFK-1　内径9.25　外径13.6", "カードFK-2　内径8.85　外径13.2"},
			"1 FK-1: 内径=9.25 外径=13.6; 2 FK-2: 内径=8.85 外径=13.2",
		},
		"labels behind": {
			[]string{"Karte DA-1", "13,6 unten, 9,25 Loch, 25 lang", "Karte DA-2", "13,6 unten 9,25 Loch 19 lang"},
			"1 DA-1: unten=13,6 Loch=9,25 lang=25; 3 DA-2: unten=13,6 Loch=9,25 lang=19",
		},
		"units in labels and values, limits": {
			[]string{"No. 118", "Base (mm) 13.5", "Bore in mm 9.25 ±0.05", "No. 119", "Base (mm) 13.5", "Bore in mm 9.25-9.35"},
			"1 118: Base (mm)=13.5 Bore in mm=9.25 ±0.05; 4 119: Base (mm)=13.5 Bore in mm=9.25-9.35",
		},
		"a box with its number above labels and values": {
			[]string{"HT-1", "", "Base OD|13.6 mm", "Bore|9.25 mm", "", "HT-2", "", "Base OD|13.2 mm", "Bore|8.85 mm"},
			"1 HT-1: Base OD=13.6 mm Bore=9.25 mm; 6 HT-2: Base OD=13.2 mm Bore=8.85 mm",
		},
		"one card": {
			[]string{"Karte DA-1", "Bohrung 9,25 mm", "Länge 25 mm", "AD unten 13,6 mm", "Farbe schwarz"},
			"1 DA-1: Bohrung=9,25 mm Länge=25 mm AD unten=13,6 mm Farbe=schwarz",
		},
		"a name with a number behind the part number": {
			[]string{"Card QH-1|Blade 6", "hosel OD 13.4 bore 9.5", "Card QH-2|Wedge 52", "hosel OD 13.6 bore 9.5"},
			"1 QH-1: description=Blade 6 hosel OD=13.4 bore=9.5; 3 QH-2: description=Wedge 52 hosel OD=13.6 bore=9.5",
		},
		"several part numbers of one card": {
			[]string{"Card HT-1 and HT-2", "bore 9.25 base 13.6", "Card HT-3 / HT-4", "bore 8.85 base 13.2"},
			"1 HT-1 and HT-2: bore=9.25 base=13.6; 3 HT-3 / HT-4: bore=8.85 base=13.2",
		},
		"a title above the first, a note below the last": {
			[]string{"Rings, mm", "Card HT-1", "bore 9.25 base 13.6", "Card HT-2", "bore 8.85 base 13.2", "Order 50 at least"},
			"2 HT-1: bore=9.25 base=13.6; 4 HT-2: bore=8.85 base=13.2",
		},
		"a note below a last card that is short": {
			[]string{"Card HT-1", "bore 9.25", "base 13.6", "Card HT-2", "base 13.2 long 20", "All sizes mm"},
			"1 HT-1: bore=9.25 base=13.6; 4 HT-2: base=13.2 long=20",
		},
		"terms below the last": {
			[]string{"Card HT-1", "bore 9.25 base 13.6", "Card HT-2", "bore 8.85 base 13.2", "Minimum order 50 pieces", "Prices valid until 31.12.2026"},
			"1 HT-1: bore=9.25 base=13.6; 3 HT-2: bore=8.85 base=13.2",
		},
		"the number at the end of its line": {
			[]string{"bore 9.25|base 13.6|Card HT-1", "black", "bore 8.85|base 13.2|Card HT-2", "red"},
			"1 HT-1: bore=9.25 base=13.6 description=black; 3 HT-2: bore=8.85 base=13.2 description=red",
		},
		"cards that are counted": {
			[]string{"Tarjeta 7: FX-1, agujero 9,35, base 13,5", "Tarjeta 8: FX-2, agujero 8,95, base 13,2"},
			"1 FX-1: agujero=9,35 base=13,5; 2 FX-2: agujero=8,95 base=13,2",
		},
		"about so, and at most": {
			[]string{"Karte DA-1", "Loch ca. 9 unten 13,6", "Karte DA-2", "Loch max. 9,3", "unten 13,6", "Karte DA-3", "Loch 9 unten 13"},
			"1 DA-1: Loch=ca. 9 unten=13,6; 3 DA-2: Loch=max. 9,3 unten=13,6; 6 DA-3: Loch=9 unten=13",
		},
		"a number too many, in its place for a person to see": {
			[]string{"Karte DA-1", "Loch 9,25 unten 13,6 10,2", "Karte DA-2", "Loch 9,25 unten 13,6", "Karte DA-3", "Loch 8,85 unten 13,2"},
			"1 DA-1: Loch=9,25 unten 13,6 10,2; 3 DA-2: Loch=9,25 unten=13,6; 5 DA-3: Loch=8,85 unten=13,2",
		},
		"labels that look like part numbers": {
			[]string{"HT-1 black", "bore 9.25 D1 13.6", "HT-2 red", "bore 8.85 D1 13.2", "base 13.2"},
			"",
		},
		"a list with prices of their own": {
			[]string{"HT-1|bore 9.25 base 13.6|0.40", "HT-2|bore 9.25 base 13.6|0.42", "HT-3|bore 8.85 base 13.2|0.45"},
			"",
		},
		"below a heading": {
			[]string{"Part|Bore|Base OD", "HT-1|bore 9.25|base 13.6", "HT-2|bore 9.25|base 13.6"},
			"",
		},
		"a letter": {
			[]string{"We have card HT-1 bore 9.25 mm, and HT-2 bore 8.85 mm.", "The base of HT-1 is 13.6 mm, that of HT-2 13.2 mm."},
			"",
		},
	} {
		if got := plainly(c.lines); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
}

func TestPairsIn(t *testing.T) {
	for text, want := range map[string]string{
		"Loch 9,25":                  "Loch=9,25",
		"OD13.6":                     "OD=13.6",
		"Bore: 9.25":                 "Bore=9.25",
		"bore .370 base .540\"":      "bore=.370 base=.540\"",
		"Bore: 9.25 Base: 13.6":      "Bore=9.25 Base=13.6",
		"25,4 lang":                  "lang=25,4",
		"13,6 unten 10,2 oben":       "unten=13,6 oben=10,2",
		"bore 9.25 / 9.30":           "bore=9.25 / 9.30",
		"bore 9.25 or so, base":      "bore=9.25 or so, base",
		"140 in stock":               "in stock=140",
		"none in stock":              "in stock=none",
		"two dozen in stock":         "in stock=24",
		"50 pcs per bag":             "pcs per bag=50",
		"$0.42":                      "price=$0.42",
		"Colour black":               "Colour=black",
		"glossy black":               "",
		"HT-122":                     "",
		"zugehörig 7":                "zugehörig=7",
		"9,25":                       "?=9,25",
		"Base Ø 13.6":                "Base Ø=13.6",
		"bore 9.25 base 13.6 10.2":   "bore=9.25 base 13.6 10.2",
		"9.25 bore 13.6 base 10.2":   "?=9.25 bore 13.6 base 10.2",
		"length 1 inch (25.4 mm)":    "length=1 inch (25.4 mm)",
		"Bohrung ca. 9,3 mm":         "Bohrung=ca. 9,3 mm",
		"外径13.6mm":                   "外径=13.6mm",
		"largo 25,4 agujero 9,35 mm": "largo=25,4 agujero=9,35 mm",
	} {
		var all []string
		for _, e := range pairsIn(lexicon.New(nil), text) {
			all = append(all, e.label+"="+e.value)
		}
		if got := strings.Join(all, " "); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

// TestArrangeBeside: where more cards stand beside each other than each has lines, there are several tables, each with its columns.
func TestArrangeBeside(t *testing.T) {
	lines := []string{"Card HT-1|Card HT-2|Card HT-3|Card HT-4|Card HT-5", "bore 9.25|bore 9.25|bore 9.25|bore 9.25|bore 9.25", "base 13.6|base 13.6|base 13.6|base 13.6|base 13.6"}
	var rows [][]string
	for _, line := range lines {
		rows = append(rows, strings.Split(line, "|"))
	}
	var areas []string
	for _, r := range Tables(grid.New(sheettest.Texts("cards", rows, false)), lexicon.New(nil), catalog.SheetRules{}) {
		areas = append(areas, fmt.Sprint(r.RangeOf(), " ", r.Second))
	}
	if want := []string{"A1:C3 false", "D1:E3 true"}; !slices.Equal(areas, want) {
		t.Errorf("%q, want %q", areas, want)
	}
}
