package sheet_test

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/sheet"
)

// TestPool makes the cells of random columns: each has what it was made of, and equal ones of a column that repeats itself are one.
func TestPool(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pool sheet.Pool[string]
		different := rapid.SliceOfN(rapid.IntRange(1, 50_000), 1, 3).Draw(t, "different")
		seen := map[string]*sheet.Cell{}
		repeats, made := 0, 0
		for i := range rapid.IntRange(0, 20_000).Draw(t, "rows") {
			for col, n := range different {
				key := strconv.Itoa(i % n)
				cell := pool.Find(col+1, key)
				if cell == nil {
					cell = pool.Add(col+1, key, sheet.Cell{Kind: sheet.Number, Raw: key})
					made++
				}
				if cell.Raw != key {
					t.Fatalf("the cell of %s holds %s", key, cell.Raw)
				}
				if seen[key] != nil && seen[key] == cell {
					repeats++
				}
				seen[key] = cell
			}
		}
		if len(different) == 1 && different[0] <= 100 && made > different[0] {
			t.Errorf("%d cells were made of %d", made, different[0])
		}
		if len(different) == 1 && different[0] >= 20_000 && repeats > 0 {
			t.Errorf("%d cells repeat, and all are different", repeats)
		}
	})
}

// TestPoolLeavesColumnsAlone asks for a cell of a column that was always another one: it is not looked for any more.
func TestPoolLeavesColumnsAlone(t *testing.T) {
	var pool sheet.Pool[int]
	for i := range 10_000 {
		if pool.Find(1, i) == nil {
			pool.Add(1, i, sheet.Cell{})
		}
	}
	if pool.Find(1, 5) != nil {
		t.Error("a column without repeats is still searched")
	}
	if pool.Find(2, 5) == nil {
		t.Error("what a column gave up is not there for another one")
	}
}
