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

// TestPartsGroups takes a line that parts groups of columns for one of the heading, whatever it says.
func TestPartsGroups(t *testing.T) {
	for _, c := range []struct {
		what, heading, below string
		want                 bool
	}{
		{"words that nobody knows", "No. | Hosel | Price | | Remarks", " | | members | others | ", true},
		{"days", "No. | Hosel | Price | | Remarks", " | | to 31 March | from 1 April | ", true},
		{"a row of the body", "No. | Hosel | Price | | Remarks", "A-1 | 13.5 | 20 | 22 | new", false},
		{"a row of the body without its number", "No. | Hosel | Price | | Remarks", " | 13.5 | low | high | new", false},
		{"numbers", "No. | Hosel | Price | | Remarks", " | | 20 | 22 | ", false},
		{"one column of two", "No. | Hosel | Price | | Remarks", " | | | members | ", false},
		{"a title", "No. | Hosel | Price | | Remarks", "Irons | | | | ", false},
	} {
		g := grid.New(sheettest.Sheet("Parts", c.heading, c.below))
		if got := partsGroups(g, 2, 1, span{1, 2, 1, g.Width}); got != c.want {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}

// TestIsGroupLine takes a line that tells columns of one heading apart for one of the heading, whatever else stands in it.
func TestIsGroupLine(t *testing.T) {
	lex := lexicon.New(nil)
	for _, c := range []struct {
		what, line, heading string
		want                bool
	}{
		{"a change beside groups of other columns", " | (inches) | | | Shaft | Was | NOW, | ", "No. | Base | ID | Long | tip | each | each | ", true},
		{"the same in French", " | dim. mm | | | Shaft | Ancien | Nouveau", "Réf. | Ø base | Ø int. | Long. | tip | prix | prix", true},
		{"the same in Czech", " | rozměry mm | | | hrot | původní | nová", "Č. | Ø spodku | otvor | délka | shaftu | cena | cena", true},
		{"who pays which price", " | | | | List | Dealer", "Code | Base OD | Bore | Length | each | each", true},
		{"the same in German", " | Maße mm | | | Katalog | Händler", "Art.-Nr. | Fuß-Ø | Bohrung | Länge | je Stück | je Stück", true},
		{"words that say no such thing", " | | | | Blue | Zorp", "Code | Base OD | Bore | Length | each | each", false},
		{"who pays, above different headings", " | | | | List | Dealer", "Code | Base OD | Bore | Length | each | stock", false},
	} {
		g := grid.New(sheettest.Sheet("Parts", c.line, c.heading))
		if got := isGroupLine(g, lex, 1, 2, span{1, 2, 1, g.Width}); got != c.want {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}
