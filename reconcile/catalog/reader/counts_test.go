package reader_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
)

// TestCountedStock reads stocks in dozens as pieces, those in packs as pieces where the row says how many are in one, and leaves out, with a word,
// those of which it is not known what is counted.
func TestCountedStock(t *testing.T) {
	type stock struct {
		Count float64
		Known bool
		// Said is set where a finding or an assumption stands upon it.
		Said bool
	}
	sheet := func(heading, cell, pack string) string {
		return "Item | Base OD (mm) | Bore (mm) | Length (mm) | Pcs per bag | " + heading + "\nTG-1 | 13.5 | 9.3 | 25 | " + pack + " | " + cell +
			"\nTG-2 | 13.6 | 9.3 | 20 | 10 | 40\nTG-3 | 13.6 | 8.9 | 20 | 10 | 55"
	}
	for _, test := range []struct {
		heading, cell, pack string
		want                stock
	}{
		{"Stock", "2 doz", "", stock{24, true, false}}, {"Stock", "3 dz.", "", stock{36, true, false}}, {"Stock", "half a dozen", "", stock{6, true, false}},
		{"Stock", "2 doz + 4", "", stock{28, true, false}}, {"Stock", "1½ doz", "", stock{18, true, false}}, {"Stock", "2打", "", stock{24, true, false}},
		{"Stock", "une demi-douzaine", "", stock{6, true, false}}, {"Stock", "about 2 doz", "", stock{24, true, true}}, {"Stock pcs", "2 gross", "", stock{288, true, false}},
		{"Stock (doz)", "3", "", stock{36, true, true}}, {"Stock (doz)", "3 pcs", "", stock{3, true, false}}, {"Stock (doz)", "3 doz", "", stock{36, true, false}},
		{"Stock", "2 bags", "50", stock{100, true, true}}, {"Stock", "2 bags", "", stock{0, false, true}}, {"Stock", "3 trays", "", stock{0, false, true}},
		{"Stock", "3 Kartons", "25", stock{75, true, true}}, {"Stock", "2 (boxes)", "", stock{0, false, true}}, {"Stock", "0 boxes", "", stock{0, true, false}},
		{"Stock", "3 kubbles", "", stock{0, false, true}}, {"Stock", "wk 12", "", stock{0, false, true}}, {"Stock", "12 (blue tag)", "", stock{12, true, false}},
		{"Stock", "12 left", "", stock{12, true, false}}, {"Stock", "noch 5 Stück", "", stock{5, true, false}}, {"Stock", "1.5k", "", stock{1500, true, false}},
		{"Stock", "no stock", "", stock{0, true, false}}, {"Stock", "none - due wk 12", "", stock{0, true, false}}, {"Stock", "rupture (retour en mars)", "", stock{0, true, false}},
		{"Stock", "2-3 doz", "", stock{0, false, true}}, {"Stock", "2 doz on order", "", stock{0, false, false}},
	} {
		c := read(t, grid("Ferrules", sheet(test.heading, test.cell, test.pack)))
		if len(c.Ferrules) != 3 {
			t.Fatalf("%s %q: %d ferrules", test.heading, test.cell, len(c.Ferrules))
		}
		f := c.Ferrules[0].Fields.Get(catalog.Stock)
		got := stock{Count: f.Number, Known: f.IsNumber, Said: len(f.Assumptions) > 0}
		for _, one := range c.Findings {
			for _, place := range one.Places() {
				got.Said = got.Said || place.Cell == f.Cell
			}
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s %q, packs of %q (-want +got):\n%s", test.heading, test.cell, test.pack, diff)
		}
	}
}
