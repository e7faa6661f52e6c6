package reader_test

import "testing"

// TestFlatPriceWithPack takes the price of a sentence for each part, with the pack in which they come by it.
func TestFlatPriceWithPack(t *testing.T) {
	const rows = "\nCode | Base OD mm | Length mm\nKQ-A15 | 12.5 | 15\nKQ-B15 | 13.0 | 15\nKQ-C15 | 13.5 | 15"
	for _, c := range []struct {
		note  string
		price float64
		pack  int
	}{
		{"Bore 9.3 mm throughout. S$0.38 per piece for any size, bags of 50.", 0.38, 50},
		{"Bore 9.3 mm throughout. 38 cents each for all sizes, in packs of 25.", 0.38, 25},
		{"Bore 9.3 mm throughout. Any of these $0.38 each plus GST.", 0.38, 0},
		{"Bore 9.3 mm throughout. Minimum order $38, bags of 50.", 0, 0},
	} {
		got := read(t, grid("Ferrules", "Ferrules | | \n"+c.note+" | | "+rows))
		if len(got.Ferrules) != 3 {
			t.Errorf("%q: %d ferrules", c.note, len(got.Ferrules))
			continue
		}
		for _, f := range got.Ferrules {
			if f.Price != c.price || f.Pack != c.pack {
				t.Errorf("%q: %g in packs of %d, want %g in %d", c.note, f.Price, f.Pack, c.price, c.pack)
			}
		}
	}
}
