package catalog

import (
	"testing"

	"pgregory.net/rapid"
)

// TestDittos holds the values that dittos stand for, found from one ditto to the next, against those found from each by itself.
func TestDittos(t *testing.T) {
	cells := rapid.SampledFrom([]string{"〃", "〃", "ditto", "13.6", "13.7", ""})
	rapid.Check(t, func(t *rapid.T) {
		rows := [][]string{{"Hosel OD"}}
		for range rapid.IntRange(1, 30).Draw(t, "rows") {
			rows = append(rows, []string{cells.Draw(t, "cell")})
		}
		g := newGrid(sheetOf(rows, true))
		reader := cellReaderOf(&region{grid: g, from: 1, to: len(rows), left: 1, right: 1, body: 2})
		kept := &cellColumn{col: 1}
		for range 40 {
			line := rapid.IntRange(2, len(rows)).Draw(t, "line")
			wantLine, wantCol := reader.valueCell(line, &cellColumn{col: 1})
			if gotLine, gotCol := reader.valueCell(line, kept); gotLine != wantLine || gotCol != wantCol {
				t.Fatalf("%q: line %d is that of line %d, want %d", rows, line, gotLine, wantLine)
			}
		}
	})
}

// cellReaderOf is a reader of a region of which nothing is known.
func cellReaderOf(r *region) *cellReader {
	return newCellReader(&unitTable{roleTable: &roleTable{sheetTable: &sheetTable{lex: newLexicon(), region: r}}})
}
