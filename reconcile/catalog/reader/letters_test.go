package reader_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestLettersOfTwoKinds reads columns that heads and ferrules share under letters, by what a line for each says of both.
func TestLettersOfTwoKinds(t *testing.T) {
	const rows = "\nA-1 | %s | 13.5 | 9.50 | 60 | 32\nA-2 | %s | 13.6 | 9.52 | 61 | 32\nA-3 | %s | 13.5 | 9.30 | 25.4 | -\nA-4 | %s | 13.8 | 9.30 | 19 | -\n | | | | |\n"
	for name, test := range map[string]struct{ title, heads, ferrule, below string }{
		"en":          {"All sizes in mm", "Iron head", "Ferrule", "D1 = outside dia of hosel, for ferrule outside dia of big end\nD2 = hole dia\nL1 = hosel length, for ferrule total length\nL2 = hole depth"},
		"en brackets": {"All sizes in mm", "Iron head", "Ferrule", "D1: hosel OD (ferrules: base OD)\nD2: bore\nL1: hosel length (ferrules: length)\nL2: bore depth"},
		"de":          {"Alle Maße in mm", "Eisenkopf", "Zierring", "D1 = Außendurchmesser Hosel, bei Zierringen Außendurchmesser unten\nD2 = Bohrung\nL1 = Hosellänge, bei Zierringen Gesamtlänge\nL2 = Bohrtiefe"},
	} {
		t.Run(name, func(t *testing.T) {
			body := fmt.Sprintf(rows, test.heads, test.heads, test.ferrule, test.ferrule)
			c := read(t, grid("Quotation", test.title+"\nItem no | Name | D1 | D2 | L1 | L2"+body+test.below))
			defer show(t, c)
			if got := rowOf(t, c, "A-2"); !strings.Contains(got, "bore=9.52 bore_depth=32") || !strings.Contains(got, "hosel_length=61 hosel_od=13.6") {
				t.Errorf("%s, want the sizes of a head", got)
			}
			if got := rowOf(t, c, "A-4"); !strings.Contains(got, "base_od=13.8 bore=9.3") || !strings.Contains(got, "length=19") {
				t.Errorf("%s, want the sizes of a ferrule", got)
			}
		})
	}
}

// TestLegendInCells reads the letters of a legend that gives unit and tolerance of a size in cells behind its words.
func TestLegendInCells(t *testing.T) {
	const list = "%s | A | B | C\nLW-1 | 13.6 | 9.5 | 32\nLW-2 | 13.4 | 9.5 | 32\nLW-3 | 13.5 | 9.52 | 33\n | | |\n%s"
	const plain = "bore=9.5 bore_depth=32 hosel_od=13.4[13.35..13.45]"
	for name, test := range map[string]struct{ part, legend, want string }{
		"en":               {"Part no.", "Key (mm) | | |\nA | hosel OD | ±0.05 |\nB | bore | |\nC | bore depth | |", plain},
		"with a word":      {"Part no.", "Key (mm) | | |\nA | hosel OD | tol. ±0.05 |\nB | bore | |\nC | bore depth | |", plain},
		"unit and limits":  {"Part no.", "A | hosel OD | mm | +0.02/-0.03\nB | bore | mm |\nC | bore depth | mm |", "bore=9.5 bore_depth=32 hosel_od=13.4[13.37..13.42]"},
		"with a heading":   {"Part no.", "Letter | Dimension | Tolerance (mm) |\nA | hosel OD | ±0.05 |\nB | bore | ±0.02 |\nC | bore depth | |", "bore=9.5[9.48..9.52] bore_depth=32 hosel_od=13.4[13.35..13.45]"},
		"a remark":         {"Part no.", "Key (mm) | | |\nA | hosel OD | before polishing |\nB | bore | |\nC | bore depth | |", "bore=9.5 bore_depth=32 hosel_od=13.4"},
		"zh-Hant":          {"品號", "代號說明（單位 mm） | | |\nA | 頸部外徑 | 公差±0.05 |\nB | 孔徑 | |\nC | 孔深 | |", plain},
		"zh-Hans":          {"货号", "代号说明（单位 mm） | | |\nA | 颈部外径 | 公差：±0.05 |\nB | 孔径 | |\nC | 孔深 | |", plain},
		"ja":               {"品番", "記号（単位 mm） | | |\nA | ホーゼル外径 | 公差 ±0.05 |\nB | 穴径 | |\nC | 穴深さ | |", plain},
		"de":               {"Artikelnr.", "Maße in mm | | |\nA | Hosel-Außendurchmesser | Toleranz ±0,05 |\nB | Bohrung | |\nC | Bohrtiefe | |", plain},
		"fr":               {"Référence", "Cotes en mm | | |\nA | Ø extérieur du col | tolérance ±0,05 |\nB | perçage | |\nC | profondeur de perçage | |", plain},
		"es":               {"Referencia", "Medidas en mm | | |\nA | Ø exterior del hosel | tolerancia ±0,05 |\nB | taladro | |\nC | profundidad del taladro | |", plain},
		"in a text":        {"Part no.", "All in mm. A = hosel OD ±0.05; B = bore; C = bore depth | | |", plain},
		"in a text, words": {"Part no.", "All in mm. A = hosel OD (tol. ±0.05); B = bore; C = bore depth | | |", plain},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", fmt.Sprintf(list, test.part, test.legend)))
			defer show(t, c)
			if got := rowOf(t, c, "LW-2"); !strings.Contains(got, test.want) {
				t.Errorf("%s, want %s", got, test.want)
			}
		})
	}
}

// TestLettersOfOtherSizes reads columns headed by letters of which some stand for what no joint depends on, explained in lines below the list that
// are no parts.
func TestLettersOfOtherSizes(t *testing.T) {
	for name, test := range map[string]struct{ headings, legend string }{
		"en": {"P/N | Club | A | B | C | D | E", "Drawing callouts (all dims in inches): | | | | | |\nA | hosel outside diameter at top | | | | |\nB | shaft bore diameter | | | | |\nC | shaft bore depth | | | | |\nD | hosel length | | | | |\nE | face height | | | | |"},
		"de": {"Artikelnr. | Schläger | A | B | C | D | E", "Maße in Zoll | | | | | |\nA | Außendurchmesser Hosel | | | | |\nB | Bohrung | | | | |\nC | Bohrtiefe | | | | |\nD | Hosellänge | | | | |\nE | Gewicht | | | | |"},
		"fr": {"Référence | Club | A | B | C | D | E", "Cotes en pouces | | | | | |\nA | Ø extérieur du col | | | | |\nB | perçage | | | | |\nC | profondeur de perçage | | | | |\nD | longueur du col | | | | |\nE | poids | | | | |"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Dims", test.headings+"\n70-404 | 4 | .540 | .374 | 1.25 | 2.60 | 1.88\n70-405 | 5 | .540 | .374 | 1.25 | 2.55 | 1.91\n70-406 | 6 | .054 | .374 | 1.25 | 2.50 | 1.95\n70-407 | 7 | .540 | .374 | 1.30 | 2.45 | 1.99\n | | | | | |\n"+test.legend))
			defer show(t, c)
			if got := rowOf(t, c, "70-405"); !strings.Contains(got, "bore=9.4996 bore_depth=31.75") || !strings.Contains(got, "hosel_length=64.77 hosel_od=13.716") {
				t.Errorf("%s, want the sizes of the letters", got)
			}
			if got := rowOf(t, c, "70-406"); strings.Contains(got, "hosel_od=1") {
				t.Errorf("%s, want the hosel OD left open", got)
			}
			if len(c.Heads) != 4 {
				t.Errorf("%d heads, want 4: the lines of the legend are none", len(c.Heads))
			}
		})
	}
}
