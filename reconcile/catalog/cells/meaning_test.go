package cells

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/sheet"
)

// TestTable holds a table against a map.
func TestTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var got table[int]
		want := map[memoKey]int{}
		keys := rapid.OneOf(rapid.Uint64Range(1, 40), rapid.Map(rapid.Uint64Range(1, 40), func(x uint64) uint64 { return x << 32 }), rapid.Uint64Min(1))
		for i := range rapid.IntRange(0, 300).Draw(t, "steps") {
			key := memoKey(keys.Draw(t, "key"))
			have, found := got.find(key)
			if value, known := want[key]; found != known || have != value {
				t.Fatalf("%d: %d, %v, want %d, %v", key, have, found, value, known)
			}
			if rapid.Bool().Draw(t, "put") {
				got.put(key, i)
				want[key] = i
			}
		}
		if got.count != len(want) {
			t.Errorf("%d keys, want %d", got.count, len(want))
		}
	})
}

// TestTextsReadTheSame holds words that are read at once against the same words read like every cell.
func TestTextsReadTheSame(t *testing.T) {
	texts := []string{"KR-20", "Forged iron, 4-PW", " two  blanks ", "'KR-23", "001", "1.2E+05", "=A1*2", "=", "#N/A", "#REF!", "#7", "n/a", "〃", "ditto", "←", "", "13.6"}
	kinds := []sheet.Kind{sheet.Blank, sheet.Text, sheet.Text, sheet.Text, sheet.Number, sheet.Date, sheet.Bool, sheet.Error}
	roles := []catalog.Role{catalog.Part, catalog.Description, catalog.Colour, catalog.Note, catalog.Top, catalog.Style, catalog.Category, catalog.HoselOD, catalog.Stock}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "text")
		cell := &sheet.Cell{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Raw: text, Shown: text, Formula: rapid.SampledFrom([]string{"", "", "A1"}).Draw(t, "formula")}
		g := grid.New(&sheet.Sheet{Name: "Heads", Rows: [][]*sheet.Cell{{{Kind: sheet.Text, Raw: "Heading", Shown: "Heading"}}, {cell}}})
		role, known := rapid.SampledFrom(roles).Draw(t, "role"), rapid.SampledFrom([]bool{true, true, false}).Draw(t, "known")
		read := func(how func(r *Reader, c *Column, u *meaning) bool) (meaning, []string, bool) {
			region := &layout.Region{Grid: g, From: 1, To: 2, Left: 1, Right: 1, Body: 2}
			column := &units.Column{Column: &columns.Column{Role: role, Scale: 1, Known: known}}
			r := NewReader(&units.Table{Table: &columns.Table{Table: &layout.Table{Lex: lexicon.New(nil), Region: region, Sheet: g.Sheet}, Kind: catalog.Heads}})
			c := &Column{Column: column, Col: 1}
			r.Recording = true
			var u meaning
			done := how(r, c, &u)
			r.ReportTold()
			var told []string
			for _, one := range r.Findings {
				told = append(told, one.Code)
			}
			return u, told, done
		}
		fast, told, done := read(func(r *Reader, c *Column, u *meaning) bool { return r.understandText(g.Id(2, 1), c, u) })
		if !done || g.Is(lexicon.AsReference, lexicon.New(nil), g.Id(2, 1)) { // what refers to another cell is not asked about
			return
		}
		plain, plainly, _ := read(func(r *Reader, c *Column, u *meaning) bool { r.understandCell(2, c, u); return true })
		if !reflect.DeepEqual(fast, plain) || !slices.Equal(told, plainly) {
			t.Errorf("%+v as %s: %+v, told %q, want %+v, told %q", cell, role, fast.What, told, plain.What, plainly)
		}
	})
}
