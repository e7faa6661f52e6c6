package reader_test

import (
	"strings"
	"testing"
)

// TestBlankAsAbove takes for a blank cell what stands above it, where a note says so, of the columns that it speaks of.
func TestBlankAsAbove(t *testing.T) {
	const table = `
Part No | Colour | Hosel OD (mm) | Bore (mm) | Bore depth (mm) | Price
TW-1 | black | 13.6 | 9.5 | 32 | 20
TW-2 | | 13.5 | | |
TW-3 | | 13.4 | | 33 |
`
	for note, want := range map[string]struct{ second, third string }{
		"Blank cells are as in the row above":     {`assumed TW-2 bore=9.5 bore_depth=32 hosel_od=13.5 price="20" {`, `assumed TW-3 bore=9.5 bore_depth=33 hosel_od=13.4 price="20" {`},
		"Blank bore: as above":                    {"assumed TW-2 bore=9.5 hosel_od=13.5 {", "assumed TW-3 bore=9.5 bore_depth=33 hosel_od=13.4 {"},
		"Blank price: as above":                   {`assumed TW-2 hosel_od=13.5 price="20" {`, `assumed TW-3 bore_depth=33 hosel_od=13.4 price="20" {`},
		"Blank cells: please ask":                 {"used TW-2 hosel_od=13.5", "used TW-3 bore_depth=33 hosel_od=13.4"},
		"Sizes of blank cells: as the line above": {"assumed TW-2 bore=9.5 bore_depth=32 hosel_od=13.5 {", "assumed TW-3 bore=9.5 bore_depth=33 hosel_od=13.4 {"},
	} {
		t.Run(note, func(t *testing.T) {
			c := read(t, grid("Heads", note+" | | | | | "+table))
			defer show(t, c)
			for part, want := range map[string]string{"TW-2": want.second, "TW-3": want.third} {
				if got := rowOf(t, c, part); !strings.Contains(got, want) {
					t.Errorf("%s, want %s", got, want)
				}
			}
		})
	}
}

// TestBlankBelowWhatCannotBeUsed leaves a blank cell open where the one above it is open, however many of them follow.
func TestBlankBelowWhatCannotBeUsed(t *testing.T) {
	c := read(t, grid("Heads", `
Blank cells mean the value above | | | |
Part No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
TW-1 | 13.6 | 9.5 | 32
TW-2 | 13.6 | 95.0 | 32
TW-3 | 13.6 | | 32
TW-4 | 13.6 | | 32
TW-5 | 13.6 | 9.5 | 32
`))
	defer show(t, c)
	for _, part := range []string{"TW-2", "TW-3", "TW-4"} {
		if got := rowOf(t, c, part); strings.Contains(got, "bore=9.5") || !strings.Contains(got, "{open bore}") {
			t.Errorf("%s, want the bore open", got)
		}
	}
	wantFinding(t, c, "data.missing", "C5", "means the value above")
}
