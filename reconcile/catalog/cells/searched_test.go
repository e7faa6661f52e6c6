package cells

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/sheet"
)

// TestSearched counts texts up to what is searched: names, texts without a number and texts that repeat the one above do not count, and where it ends is said once.
func TestSearched(t *testing.T) {
	story, another := strings.Repeat("story 1 ", 20), strings.Repeat("other 2 ", 20)
	var rows [][]*sheet.Cell
	for _, text := range []string{story, "a name", story, strings.Repeat("words ", 20), another, another, story, story} {
		rows = append(rows, []*sheet.Cell{{Kind: sheet.Text, Raw: text, Shown: text}})
	}
	g := grid.New(&sheet.Sheet{Name: "Heads", Rows: rows})
	region := &layout.Region{Grid: g, From: 1, To: len(rows), Left: 1, Right: 1, Body: 1}
	r := NewReader(&units.Table{Table: &columns.Table{Table: &layout.Table{Lex: lexicon.New(nil), Region: region, Sheet: g.Sheet}}})
	r.Recording = true
	r.searched.bytes = mostSearched - len(story) - len(another)
	c := &Column{Column: &units.Column{Column: &columns.Column{}}, Col: 1}
	for line := range rows {
		r.Search(line+1, c)
	}
	for line := range rows {
		if got, want := r.Searched(line+1), line+1 < 7; got != want {
			t.Errorf("line %d searched: %v, want %v", line+1, got, want)
		}
	}
	if len(r.Recorded) != 1 {
		t.Errorf("said %d times", len(r.Recorded))
	}
}
