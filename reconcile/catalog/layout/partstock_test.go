package layout

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestPartStock: what stands in stock behind a price is no part of the price.
func TestPartStock(t *testing.T) {
	type pair struct {
		Label, Value string
		Role         catalog.Role
	}
	for text, want := range map[string][]pair{
		"0.58 each 150 in stock":          {{"$", "0.58 each", catalog.Price}, {"in stock", "150", catalog.Stock}},
		"0,58 pro Stück 2 Dtzd auf Lager": {{"$", "0,58 pro Stück", catalog.Price}, {"auf Lager", "24", catalog.Stock}},
		"5.40 none in stock":              {{"$", "5.40", catalog.Price}, {"in stock", "none", catalog.Stock}},
		"0.58 each":                       {{"$", "0.58 each", catalog.Price}},
		"0.58 per 100":                    {{"$", "0.58 per 100", catalog.Price}},
	} {
		var got []pair
		for _, e := range partStock(lexicon.New(nil), []entry{{label: "$", value: text, role: catalog.Price}}) {
			got = append(got, pair{e.label, e.value, e.role})
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}
