package layout

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestTooManyValues holds the quick look at a line against the long one.
func TestTooManyValues(t *testing.T) {
	texts := rapid.SampledFrom([]string{"Hosel OD", "Part No", "Bore", "3", "4", "PW", "13.6", "KR-20", "OD 13.5 mm", "Loft", "10.5°", "", "iron", "5 pcs of this and that", "100-200"})
	lex := lexicon.New(nil)
	rapid.Check(t, func(t *rapid.T) {
		rows := [][]string{rapid.SliceOfN(texts, 1, 8).Draw(t, "line")}
		g := grid.New(sheettest.Texts("Heads", rows, true))
		if g.Lines == 0 {
			return
		}
		numeric, coded, cells := 0, 0, 0
		for _, text := range rows[0] {
			switch {
			case text == "":
				continue
			case lex.LooksValue(text):
				numeric++
			case lexicon.BearsDigits(text):
				coded++
			}
			cells++
		}
		isHeading := numeric*3 <= cells && (numeric+coded)*2 <= cells
		if tooManyValues(g, lex, g.Row(1, 1, len(rows[0]))) && isHeading {
			t.Errorf("%q has too many values by the quick look alone", rows[0])
		}
	})
}

// TestGroups holds the groups of a heading of several lines, handed on from column to column, against those sought from each column to its
