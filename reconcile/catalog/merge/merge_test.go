package merge

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/catalog/words"
)

// TestAlikeMissesNone compares every two entries: two that are one part, or may be, are among those that are looked at.
func TestAlikeMissesNone(t *testing.T) {
	table := func(kind catalog.Kind, supplier string) *rows.Table {
		return &rows.Table{Reader: &cells.Reader{Table: &units.Table{Table: &columns.Table{Table: &layout.Table{}, Kind: kind}}}, Supplier: catalog.Supplier{Key: supplier}}
	}
	tables := []*rows.Table{table(catalog.Heads, "Orrin"), table(catalog.Heads, "Tamsin"), table(catalog.Ferrules, "Orrin")}
	parts := rapid.OneOf(rapid.SampledFrom([]string{"", "-", "7", "007", "KR-20", "KR20", "kr 2O", "KR-2l", "KR-21", "ÄB-1", "ab1", "番号7", "番号 7"}), rapid.StringMatching("[oO0iIl1 -]{0,4}"))
	rapid.Check(t, func(t *rapid.T) {
		var entries []*rows.Entry
		for range rapid.IntRange(0, 8).Draw(t, "entries") {
			entries = append(entries, &rows.Entry{Table: rapid.SampledFrom(tables).Draw(t, "table"), Part: parts.Draw(t, "part")})
		}
		some := alike(entries)
		at := 0
		for i, e := range entries {
			found := at < len(some) && some[at].Entry == e
			if found {
				at++
			}
			one := listed{e, words.Fold(e.Part)}
			for j, f := range entries {
				other := listed{f, words.Fold(f.Part)}
				if i == j || found {
					continue
				}
				if one.key() == other.key() || e.Table.Kind == f.Table.Kind && skeleton(one.folded) == skeleton(other.folded) {
					t.Fatalf("%q and %q are not looked at", e.Part, f.Part)
				}
			}
		}
		if at != len(some) {
			t.Errorf("%d entries are looked at in another order", len(some)-at)
		}
	})
}
