package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestSizesByClub gives the depth of the bores by kinds of club in a note below or above the list: which kind a row is of is said by its description, by
// the title above it or by its clubs, and where none says one the depth stays open.
func TestSizesByClub(t *testing.T) {
	const list = `
Part | Description | Club | Hosel OD mm | Bore mm
HX-1 | forged iron | 5 | 13.5 | 9.5
HX-2 | 〃 | PW | 13.5 | 9.5
HX-3 | wedge | 56 | 13.5 | 9.5
IRONS | | | |
HX-4 | cavity | SW | 13.5 | 9.5
WEDGES | | | |
HX-5 | milled | 60 | 13.5 | 9.5
MISCELLANEOUS | | | |
HX-6 | blade | 7 | 13.5 | 9.5
HX-7 | blade | SW | 13.5 | 9.5
HX-8 | blade | PW | 13.5 | 9.5
`
	for note, want := range map[string]string{
		"Bores are 32 deep on all irons and 35 on the wedges.": "32 32 35 32 35 - 35 -",
		"Bohrungstiefe Eisen 32, Wedges 35":                    "32 32 35 32 35 - 35 -",
		"シャフト穴の深さはアイアン32、ウエッジ35です。":                            "32 32 35 32 35 - 35 -",
		"All irons bored 32 deep, woods 36":                    "32 32 - 32 - - - 32",
		"Prices: irons 32, wedges 35":                          "- - - - - - - -",
	} {
		for _, sheet := range []string{list + note + " | | | |", note + " | | | |" + list} {
			c := read(t, grid("Heads", sheet))
			var got []string
			for _, part := range []string{"HX-1", "HX-2", "HX-3", "HX-4", "HX-5", "HX-6", "HX-7", "HX-8"} {
				depth := "-"
				if _, after, found := strings.Cut(rowOf(t, c, part), "bore_depth="); found {
					depth, _, _ = strings.Cut(after, " ")
				}
				got = append(got, depth)
			}
			if diff := cmp.Diff(want, strings.Join(got, " ")); diff != "" {
				t.Errorf("%s (-want +got):\n%s", note, diff)
				show(t, c)
			}
		}
	}
}

// TestWideStrokes divides a column of two sizes at the strokes of East Asian writing, with a heading of groups above it and without.
func TestWideStrokes(t *testing.T) {
	for _, headings := range []string{
		"品番 | 番手 | 外径／内径 | 長さ | 適合",
		"品番 | 番手 | ネック | | 適合\n | | 外径／内径 | 長さ |",
		"型号 | 号数 | 外径／孔径 | 颈长 | 适配",
		"Part | Club | Hosel OD/bore | Hosel length | Tip",
	} {
		c := read(t, grid("Heads", "寸法はすべてmm | | | |\n"+headings+"\nMT-5 | 5 | 13.4／9.5 | 60 | .370\nMT-6 | 6 | 13.6／9.5 | 61 | .370\nMT-7 | 7 | 13.6／未定 | 62 | .370"))
		if got := rowOf(t, c, "MT-6"); !strings.Contains(got, "bore=9.5") || !strings.Contains(got, "hosel_od=13.6") {
			t.Errorf("%s: %s, want both sizes of the cell", headings, got)
			show(t, c)
		}
	}
}
