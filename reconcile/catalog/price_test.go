package catalog

import "testing"

// TestPriceOfPiece holds that what a sheet says of its prices wins over what a shop says of all of them.
func TestPriceOfPiece(t *testing.T) {
	for _, c := range []struct {
		pack          int
		stated, packs bool
		want          float64
		vague         bool
		says          string
	}{
		{pack: 10, packs: true, want: 0.5, vague: true, says: "a shop's word divides"},
		{pack: 10, want: 5, vague: true, says: "without it the price stands"},
		{pack: 10, stated: true, packs: true, want: 5, says: "the sheet has said what the price is for"},
		{pack: 1, packs: true, want: 5, says: "a pack of one is a piece"},
		{packs: true, want: 5, says: "no pack is known"},
	} {
		f := Ferrule{Item: Item{Price: 5, HasPrice: true, PerPiece: c.stated}, Pack: c.pack}
		if got := f.PriceOfPiece(c.packs); got != c.want || f.PriceIsVague() != c.vague {
			t.Errorf("%s: %g, vague %v, want %g, %v", c.says, got, f.PriceIsVague(), c.want, c.vague)
		}
	}
}
