package layout

import (
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestDividesGroups tells a second line of a heading from the first row of the body.
func TestDividesGroups(t *testing.T) {
	lex := lexicon.New(nil)
	for _, c := range []struct {
		what, heading, below string
		want                 bool
	}{
		{"years and months below groups of something else", "Code | Diameter | | Length | Notes | | ", " | base | top | mm | 2016 (H.B.) | 2020 (Jo) | 2024", true},
		{"the same in Japanese", "品番 | ネック | | | 生産数 | | | ", " | 外径 | 穴径 | 長さ | 10月 | 11月 | 12月 | 計", true},
		{"a row without its part number", "Code | Hosel | | Note", " | 13.6 | 9.48 | as above", false},
		{"a row with one", "Code | Hosel | | Note", "KT-20 | OD | bore | n/a", false},
		{"a text that divides no group and is no heading", "Code | Diameter | | Supplier", " | base | top | Falk", false},
		{"a group with one text twice", "Code | Notes | | Diameter | ", " | new | new | base | ", false},
	} {
		g := grid.New(sheettest.Sheet("Parts", c.heading, c.below))
		if got := dividesGroups(g, lex, 2, 1, span{1, 2, 1, g.Width}); got != c.want {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}
