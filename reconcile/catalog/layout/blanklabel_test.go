package layout

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestBlankLabel looks at a card on which a label has no value, while others have one there: it is left blank and titles nothing below it, which stays
// the card's own.
func TestBlankLabel(t *testing.T) {
	rows := [][]string{
		{"Head no.", "X-1", "", "Head no.", "X-2"}, {"Hosel outside (mm)", "13.5", "", "Hosel outside (mm)", "13.6"}, {"Hole (mm)", "9.5", "", "Hole (mm)", "9.5"},
		{"Hole deep (mm)", "34", "", "Hole deep (mm)", ""}, {"Loft", "27", "", "Loft", "31"}, {"On shelf", "14", "", "On shelf", "9"}, nil,
		{"Head no.", "X-3", "", "Head no.", "X-4"}, {"Hosel outside (mm)", "13.5", "", "Hosel outside (mm)", "13.6"}, {"Hole (mm)", "9.5", "", "Hole (mm)", "9.5"},
		{"Hole deep (mm)", "34", "", "Hole deep (mm)", "35"}, {"Loft", "27", "", "Loft", "31"}, {"On shelf", "14", "", "On shelf", "9"},
	}
	tables := cards(grid.New(sheettest.Texts("cards", rows, false)), lexicon.New(nil))
	if len(tables) != 1 {
		t.Fatalf("%d tables, want one", len(tables))
	}
	r := &tables[0]
	at := slices.IndexFunc(r.Columns, func(h Heading) bool { return h.Text == "On shelf" })
	if at < 0 || len(r.Columns) != 6 {
		t.Fatalf("columns %+v", r.Columns)
	}
	for line, want := range map[int]string{1: "14", 2: "9", 8: "14", 9: "9"} {
		if got := r.Grid.At(line, r.Columns[at].Col); got != want {
			t.Errorf("line %d: %q on shelf, want %q", line, got, want)
		}
	}
}
