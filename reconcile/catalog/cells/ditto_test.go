package cells

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestDittos holds the values that dittos stand for, found from one ditto to the next, against those found from each by itself.
func TestDittos(t *testing.T) {
	cells := rapid.SampledFrom([]string{"〃", "〃", "ditto", "13.6", "13.7", ""})
	rapid.Check(t, func(t *rapid.T) {
		rows := [][]string{{"Hosel OD"}}
		for range rapid.IntRange(1, 30).Draw(t, "rows") {
			rows = append(rows, []string{cells.Draw(t, "cell")})
		}
		g := grid.New(sheettest.Texts("Heads", rows, true))
		reader := cellReaderOf(&layout.Region{Grid: g, From: 1, To: len(rows), Left: 1, Right: 1, Body: 2})
		kept := &Column{Col: 1}
		for range 40 {
			line := rapid.IntRange(2, len(rows)).Draw(t, "line")
			wantLine, wantCol := reader.valueCell(line, &Column{Col: 1})
			if gotLine, gotCol := reader.valueCell(line, kept); gotLine != wantLine || gotCol != wantCol {
				t.Fatalf("%q: line %d is that of line %d, want %d", rows, line, gotLine, wantLine)
			}
		}
	})
}

// cellReaderOf is a reader of a region of which nothing is known.
func cellReaderOf(r *layout.Region) *Reader {
	return NewReader(&units.Table{Table: &columns.Table{Table: &layout.Table{Lex: lexicon.New(nil), Region: r}}})
}
