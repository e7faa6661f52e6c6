package demand_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/examples/shop/truth"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
)

// TestDemoShop reads the demo shop's plan against its catalogue; what should come of every row was written down with the sheet.
func TestDemoShop(t *testing.T) {
	c := reader.Read(shoptest.Inputs(t), reader.Options{})
	d, err := demand.Read(shoptest.Book(t, shop.Demand()), c)
	if err != nil {
		t.Fatal(err)
	}
	want, err := truth.LoadDemand()
	if err != nil {
		t.Fatal(err)
	}
	if len(want) < 90 || len(d.Rows) != len(want) {
		t.Fatalf("%d rows, the truth has %d", len(d.Rows), len(want))
	}
	for i, w := range want {
		got := &d.Rows[i]
		var heads []string
		for _, h := range got.Heads {
			heads = append(heads, c.Heads[h].Part)
		}
		slices.Sort(heads)
		slices.Sort(w.Heads)
		if got.Place.Row != w.Row || got.Outcome.String() != w.Outcome || got.Number != w.Yearly || cmp.Diff(w.Heads, heads) != "" {
			t.Errorf("row %d: %v, %v a year of %v because %q %q; the truth is %+v", got.Place.Row, got.Outcome, got.Number, heads, got.Why, got.Assumptions, w)
		}
		found := slices.ContainsFunc(d.Findings, func(f finding.Finding) bool {
			return f.Place.Row == w.Row && f.Code == w.Code && f.Place.Cell == w.Cell
		})
		some := slices.ContainsFunc(d.Findings, func(f finding.Finding) bool { return f.Place.Row == w.Row })
		if w.Code != "" && !found || w.Code == "" && some {
			t.Errorf("row %d: want the finding %q at %q of %+v", w.Row, w.Code, w.Cell, d.Findings)
		}
	}
}
