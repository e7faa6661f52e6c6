package layout

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestTitledSizes(t *testing.T) {
	lex := lexicon.New(nil)
	for _, c := range []struct {
		kind        catalog.Kind
		title, want string
	}{
		{catalog.Heads, "Hierros - taladro 9,50 mm", "bore=9.5 mm"},
		{catalog.Heads, "Irons, bore 9.5 mm, bore depth 32 mm", "bore=9.5 mm bore_depth=32 mm"},
		{catalog.Ferrules, "Black ferrules, length 16 mm - part numbers below", "length=16 mm"},
		{catalog.Ferrules, `Trim rings, base OD .540"`, "base_od=13.716 mm"},
		{catalog.Ferrules, "Länge 18 mm", "length=18 mm"},
		{catalog.Ferrules, "All 1.00 in long. Price for every item $0.38 each", "length=25.4 mm"},
		{catalog.Ferrules, "Alle 25 mm lang, Außen-Ø unten 13,6 mm", "length=25 mm base_od=13.6 mm"},
		{catalog.Ferrules, "Rings of 12 mm base OD 13.6 mm", "base_od=13.6 mm"}, // the name of the second
		{catalog.Ferrules, "Length 18", ""},                                     // no unit
		{catalog.Ferrules, "Max. length 18 mm", ""},                             // a limit
		{catalog.Ferrules, "Lengths 18 mm or 25 mm", ""},                        // which of them
		{catalog.Ferrules, "Black: length 18 mm, white: length 25 mm", ""},      // for others another one
		{catalog.Ferrules, "Box length 400 mm", ""},                             // no ferrule
		{catalog.Ferrules, "All lengths ±0.2 mm", ""},                           // a tolerance
		{catalog.Ferrules, "Base OD 13.55 to 13.65 mm", ""},                     // of all, or of some
		{catalog.Ferrules, "Ferrules for .370 tips", ""},                        // the name of a tip
		{catalog.Ferrules, "bore .366 on every one", "bore=9.2964 mm"},          // in mm it is none
		{catalog.Heads, "Hierros, taladro 9.6", "bore=9.6 mm"},
		{catalog.Heads, "Grand to hear from you. Every one is bored 9.5 mm.", "bore=9.5 mm"}, // a greeting makes no limit
		{catalog.Heads, "Un grand merci ! Tous percés à 9,5 mm", "bore=9.5 mm"},
		{catalog.Heads, "Der größte Auftrag seit langem. Alle sind 9,5 mm gebohrt.", "bore=9.5 mm"},
		{catalog.Heads, "Grande notizia. Tutti con foro 9,5 mm", "bore=9.5 mm"},
		{catalog.Heads, "Max. Bohrung 9,5 mm", ""},
		{catalog.Ferrules, "ทุกรหัสรูใน 9.3 มม. ราคาชิ้นละ 18 บาท", "bore=9.3 mm"}, // without blanks
		{catalog.Ferrules, "所有货号内孔9.3mm，单价2.5元", "bore=9.3 mm"},
		{catalog.Ferrules, "全品番内径9.3mm", "bore=9.3 mm"},
		{catalog.Ferrules, "ทุกรหัสกล่องยาว 400 มม.", ""},                       // a box
		{catalog.Ferrules, "To suit .355 taper - all bored 8.9", "bore=8.9 mm"}, // beside the name of its tip no .350
		{catalog.Ferrules, "Für .355 konisch, Bohrung 8,9", "bore=8.9 mm"},
		{catalog.Ferrules, "ボア 8.9、.355テーパー用", "bore=8.9 mm"},
		{catalog.Ferrules, "For .355 taper, bore 9.0", ""}, // that tip rounded
		{catalog.Ferrules, "All bored 8.9", ""},
		{catalog.Ferrules, "All .366 in. bore for .370 parallel tips.", "bore=9.2964 mm"},
		{catalog.Ferrules, "Each with a .366 in. bore, for .370 parallel tips.", "bore=9.2964 mm"},
		{catalog.Ferrules, "Alle 20 mm lang und 0,55 € pro Stück", "length=20 mm"}, // and the price is none
		{catalog.Ferrules, "Longueur 20 mm et 0,55 € la pièce", "length=20 mm"},
		{catalog.Ferrules, "Todas de 20 mm de largo y 0,55 € la pieza", "length=20 mm"},
		{catalog.Heads, `Every hosel is bored 1.25" deep and takes a .370 parallel shaft.`, "bore_depth=31.75 mm"},
		{catalog.Heads, "Todas con 32 mm de profundidad y varilla .370", "bore_depth=32 mm"},
		{catalog.Ferrules, "Base OD 12.0 to 12.6 mm in steps of .2 mm", "base_od=120,122,124,126"},
		{catalog.Ferrules, "Außen-Ø unten 12,0 bis 12,6 mm in Schritten von 0,2 mm", "base_od=120,122,124,126"},
		{catalog.Ferrules, "外径 12.0～12.6 mm 0.2 mm刻み", "base_od=120,122,124,126"},
		{catalog.Ferrules, "Base OD 12.0 to 12.5 mm in steps of .2 mm", ""}, // the step does not lead there
		{catalog.Ferrules, "Base OD 12 to 14 mm in steps of 1 mm", "base_od=12,13,14"},
	} {
		var got []string
		for _, one := range TitledSizes(lex, c.kind, c.title) {
			if one.Digits != nil {
				got = append(got, fmt.Sprintf("%s=%s", one.Role, strings.Join(one.Digits, ",")))
				continue
			}
			got = append(got, fmt.Sprintf("%s=%s", one.Role, one.Size))
		}
		if diff := cmp.Diff(c.want, strings.Join(got, " ")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.title, diff)
		}
	}
}
