package layout

import (
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestIntroduced looks at parts that sentences come to after other words, and at numbers in sentences that are none.
func TestIntroduced(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"English": {
			[]string{"The QF-11 is the plain one: 13.6 at the foot, hole 9.3, 25 long.", "", "For woods I turn the QF-20. It is 12.2 at the foot, hole 8.4, and", "19 long. 38p each.", "",
				"Last the QF-41 for old heads: foot 12.7, hole 9.3, length 22.", "", "The glue is EP-9, 7.5 long, hole 9.3.", "Under PO-77 we sent base 13.6, hole 9.3."},
			"QF-11: description=is the plain one base_od=13.6 bore=9.3 length=25; QF-20: description=It is base_od=12.2 bore=8.4 length=19 price=38p each; " +
				"QF-41: description=for old heads base_od=12.7 bore=9.3 length=22",
		},
		"French, cut at commas": {
			[]string{"La RX-210|noire|a une base de 13,6 mm|un petit bout de 10,2 mm|un alésage de 9,3 mm", "Pour les pointes .355|prenez la RX-305 : base 13,2 mm|petit bout 9,8 mm|alésage 8,9 mm",
				"Il y a enfin la RX-402|avec une bague : base 12,5 mm|alésage 8,4 mm|0,61 €", "La série RX-100 n'est plus fabriquée|inutile de la commander."},
			"RX-210: description=noire base_od=13,6 mm top=10,2 mm bore=9,3 mm; RX-305: base_od=13,2 mm top=9,8 mm bore=8,9 mm tip=.355; " +
				"RX-402: description=avec une bague base_od=12,5 mm bore=8,4 mm price=0,61 €",
		},
		"German": {
			[]string{"Für Hölzer haben wir den ZR-4: unten 12,2, Bohrung 8,4, 19 lang.", "Dann wäre da noch der ZR-5, unten 13,6, Bohrung 9,35, 25 lang.", "Am längsten ist der ZR-6: unten 13,6, Bohrung 9,35, 32 lang."},
			"ZR-4: base_od=12,2 bore=8,4 length=19; ZR-5: base_od=13,6 bore=9,35 length=25; ZR-6: base_od=13,6 bore=9,35 length=32",
		},
		"Italian": {
			[]string{"Per i legni c'è la GT-3: base 12,2, foro 8,4, lunga 19.", "Poi la GT-4: base 13,6, foro 9,3, lunga 25.", "Infine la GT-5: base 13,6, foro 9,3, lunga 32."},
			"GT-3: base_od=12,2 bore=8,4 length=19; GT-4: base_od=13,6 bore=9,3 length=25; GT-5: base_od=13,6 bore=9,3 length=32",
		},
		"numbers of letters": {
			[]string{"HK-S is the short one, base 13.5, hole 9.3, 19 long", "HK-M is the medium one, base 13.5, hole 9.3, 25 long", "The HK-L, base 13.5, hole 9.3, 32 long", "The PVC-U, base 13.5, hole 9.3, 32 long"},
			"HK-S: description=is the short one base_od=13.5 bore=9.3 length=19; HK-M: description=is the medium one base_od=13.5 bore=9.3 length=25; HK-L: base_od=13.5 bore=9.3 length=32",
		},
		"numbers that share no more than their letters": {
			[]string{"KR-31 hosel 13.5, bore 9.5, R410 each, 14 left", "KR-W52 hosel 13.6, bore 9.55, R380 each", "then the KR-D9 drivers, hosel 12.4, bore 8.7, R1450 each", "KR-W56 hosel 13.6, bore 9.55, R380 each",
				"keep me 5 of the KR-31", "For the KR-J1 a price comes, 9.5 later", "The jig is EP-J1: hosel 12.4, bore 8.7"},
			"KR-31: hosel_od=13.5 bore=9.5 price=R410 each stock=14; KR-W52: hosel_od=13.6 bore=9.55 price=R380 each; KR-D9: hosel_od=12.4 bore=8.7 price=R1450 each description=drivers; " +
				"KR-W56: hosel_od=13.6 bore=9.55 price=R380 each",
		},
		"German, numbers that share no more than their letters": {
			[]string{"ZR-31: außen 13,5, Bohrung 9,5, 32 tief.", "ZR-W52: außen 13,6, Bohrung 9,55, 33 tief.", "Dann noch der ZR-D9, außen 12,4, Bohrung 8,7, 38 tief."},
			"ZR-31: hosel_od=13,5 bore=9,5 bore_depth=32; ZR-W52: hosel_od=13,6 bore=9,55 bore_depth=33; ZR-D9: hosel_od=12,4 bore=8,7 bore_depth=38",
		},
		"numbers that share nothing": {
			[]string{"I can spare 40 of the DH-7: base 13.5, bore 9.3, 22 long.", "The QX-5 ferrule|13.6 at the foot|.370|bore 9.3", "Then KT204: base 13.2, bore 8.9, length 25, but", "in black only.",
				"We sold ferrule RB-12|base 12.9|1.75|bore 8.8."},
			"DH-7: base_od=13.5 bore=9.3 length=22; QX-5: base_od=13.6 bore=9.3 description=ferrule; KT204: base_od=13.2 bore=8.9 length=25 description=but in black only; RB-12: base_od=12.9 bore=8.8",
		},
		"Japanese and Chinese, numbers within": {
			[]string{"ソケットKB-204は外径13.5mm、内径9.3mm、長さ23mmです。", "TR-7のソケット、外径13.7の内径9.25、長さ20", "老板，DG-4套环外径13.6，内径9.3，长度23", "套圈SZ-9，外径13.1毫米，内径8.95毫米，长度12毫米"},
			"KB-204: base_od=13.5mm bore=9.3mm length=23mm; TR-7: base_od=13.7 bore=9.25 length=20 description=のソケット; DG-4: base_od=13.6 bore=9.3 length=23; " +
				"SZ-9: base_od=13.1毫米 bore=8.95毫米 length=12毫米",
		},
		"numbers of one kind each": {
			[]string{"See A-1: base 13.6, hole 9.3.", "With B-2: base 13.6, hole 9.3.", "From C-3: base 13.6, hole 9.3."}, "",
		},
		"a table": {
			[]string{"Ring black|TQ-8|ID 9.35 OD 13.6|2", "Ring white|TQ-9|ID 9.35 OD 13.6|4", "Ring clear|TQ-10|ID 9.35 OD 13.6|6"}, "",
		},
	} {
		if got := spokenParts(c.lines...); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
}

// TestLikePartIntroduced: a sentence that comes to a part with sizes looks like one, in whatever table it does not stand.
func TestLikePartIntroduced(t *testing.T) {
	for text, want := range map[string]string{
		"For woods I turn the QF-20: foot 12.2, hole 8.4":     "QF-20",
		"Il y a enfin la RX-402, base 12,5 mm, alésage 8,4":   "RX-402",
		"La série RX-100 n'est plus fabriquée":                "",
		"Je peux ajouter un tube de colle (réf. EP-9) à 7,50": "",
		"Do you have the QF-20, base 12.2, hole 8.4?":         "",
	} {
		g := grid.New(sheettest.Texts("letter", [][]string{{text}}, false))
		if got := LikePart(lexicon.New(nil), g, 1); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
