package layout

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestSpaced looks at which text with single blanks between its columns is a list, and what its lines give.
func TestSpaced(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"names that end in a figure, and units": {
			[]string{"Codice Modello Ø est. hosel Ø foro Prof. foro Prezzo", "(mm) (mm) (mm) (EUR)", "A-1 Ferro 4 13,40 9,50 32 16,20", "A-2 Ferro 5 13,40 9,50 32 16,20", "A-3 Ferro 6 13,50 9,50 31 16,20"},
			"A-1|Ferro 4|13,40|9,50|32|16,20; A-2|Ferro 5|13,40|9,50|32|16,20; A-3|Ferro 6|13,50|9,50|31|16,20",
		},
		"a line with a figure less": {
			[]string{"Item Model Hosel OD Bore Bore depth Price", "A-1 Iron 4 13.4 9.5 32 16.2", "A-2 Iron 5 13.4 9.5 32 16.2", "A-3 Iron 6 13.5 9.5 31 16.2", "A-4 Iron 7 13.5 31 16.2", "A-5 Iron 8 13.5 9.5 31 16.2"},
			"A-1|Iron 4|13.4|9.5|32|16.2; A-2|Iron 5|13.4|9.5|32|16.2; A-3|Iron 6|13.5|9.5|31|16.2; A-4|Iron 7 13.5 31 16.2; A-5|Iron 8|13.5|9.5|31|16.2",
		},
		"no text": {
			[]string{"Part Base OD Top OD Bore Length Price", "A-1 13.4 10.2 9.3 25 0.45", "A-2 13.4 10.2 9.3 25 0.45", "A-3 13.6 10.2 9.3 25 0.45"},
			"A-1|13.4|10.2|9.3|25|0.45; A-2|13.4|10.2|9.3|25|0.45; A-3|13.6|10.2|9.3|25|0.45",
		},
		"words among the figures, and columns that nothing needs": {
			[]string{"Order code Base dia Top dia Bore Length Rings Colour Weight Price each GBP", "A-1 13.30 10.50 9.30 20.0 0 black 1.2 0.58", "A-2 13.30 10.50 9.30 20.0 0 black 1.2 0.58",
				"Order code Base dia Top dia Bore Length Rings Colour Weight Price each GBP", "A-3 13.40 10.20 8.95 25.4 1 ivory 1.4 0.84"},
			"A-1|13.30|10.50|9.30|20.0|0|black|1.2|0.58; A-2|13.30|10.50|9.30|20.0|0|black|1.2|0.58; ; A-3|13.40|10.20|8.95|25.4|1|ivory|1.4|0.84",
		},
		"a colour beside the part number": {
			[]string{"Part Colour Base OD Top OD Bore Length", "A-1 black 13.4 10.2 9.3 25", "A-2 black 13.4 10.2 9.3 25", "A-3 blue 13.6 10.2 9.3 25"},
			"A-1|black|13.4|10.2|9.3|25; A-2|black|13.4|10.2|9.3|25; A-3|blue|13.6|10.2|9.3|25",
		},
		"a figure under the name of a colour": {
			[]string{"Part Base OD Colour Bore Length", "A-1 13.4 10.2 9.3 25", "A-2 13.4 10.2 9.3 25", "A-3 13.6 10.2 9.3 25"},
			"",
		},
		"text of which the heading does not say": {
			[]string{"Part Base OD Top OD Bore Length Price", "A-1 black 13.4 10.2 9.3 25 0.45", "A-2 black 13.4 10.2 9.3 25 0.45", "A-3 blue 13.6 10.2 9.3 25 0.45"},
			"",
		},
		"a heading with another count": {
			[]string{"Part Base OD Bore Length", "A-1 13.4 10.2 9.3 25 0.45", "A-2 13.4 10.2 9.3 25 0.45", "A-3 13.6 10.2 9.3 25 0.45"},
			"",
		},
		"a word that is not known": {
			[]string{"Part Base OD Zorp OD Bore Length Price", "A-1 13.4 10.2 9.3 25 0.45", "A-2 13.4 10.2 9.3 25 0.45", "A-3 13.6 10.2 9.3 25 0.45"},
			"",
		},
		"counts that differ": {
			[]string{"Part Base OD Top OD Bore Length Price", "A-1 13.4 10.2 9.3 25 0.45", "A-2 13.4 10.2 9.3 25", "A-3 13.6 10.2 9.3 25 0.45"},
			"",
		},
	} {
		var rows [][]string
		for _, line := range c.lines {
			rows = append(rows, []string{line})
		}
		var parts []string
		for _, r := range spaced(grid.New(sheettest.Texts("text", rows, false)), lexicon.New(nil)) {
			for line := r.Body; line <= r.To; line++ {
				var cells []string
				for col := r.Left; col <= r.Right; col++ {
					if text := r.Grid.At(line, col); text != "" {
						cells = append(cells, text)
					}
				}
				parts = append(parts, strings.Join(cells, "|"))
			}
		}
		if got := fmt.Sprint(strings.Join(parts, "; ")); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
}
