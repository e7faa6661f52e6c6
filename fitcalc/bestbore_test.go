package fitcalc

import (
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// TestBestBoreOfOneSidedLimits: a bore made +.002/-0 in is usually .001 in larger than nominally, so that for the interference usual in
// the trade, .002 in on a .370 in tip, it is ordered as .367 in and not as .368 in.
func TestBestBoreOfOneSidedLimits(t *testing.T) {
	p := soundParts(t)
	for _, tt := range []struct{ wanted, best string }{{".368 in ±.001", ".368 in"}, {".368 in +.002/-0", ".367 in"}} {
		s, err := Specify(p.head, p.tip, Ferrule{Bore: p.dim(tt.wanted)}, p.shop)
		if err != nil {
			t.Fatal(err)
		}
		if s.BestBore != measure.MustParseLength(tt.best) {
			t.Errorf("made %s: best %v, want %s", tt.wanted, s.BestBore, tt.best)
		}
	}
}
