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
