package fitcalc

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// TestNormalAgreesWithStack: the short way for normal sizes gives what the long way gives, in the tails relative to what is
// there.
func TestNormalAgreesWithStack(t *testing.T) {
	same := func(t *rapid.T, what string, got, want float64) {
		if math.Abs(got-want) > 1e-9*want+1e-300 {
			t.Fatalf("%s: %v, want %v", what, got, want)
		}
	}
	draw := func(t *rapid.T, name string) measure.Dim {
		return measure.WithDeviations(
			measure.Micrometres(rapid.Int64Range(9000, 9300).Draw(t, name)),
			measure.Micrometres(rapid.Int64Range(-90, 0).Draw(t, name+" lower")),
			measure.Micrometres(rapid.Int64Range(1, 90).Draw(t, name+" upper")))
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := draw(t, "a"), draw(t, "b")
		step := measure.Micrometres(rapid.Int64Range(0, 80).Draw(t, "step"))
		limit := measure.Micrometres(rapid.Int64Range(0, 300).Draw(t, "limit"))
		var short, slow FlushFit
		short.flushOdds(&a, &b, step, limit)
		slow.stackOdds(stack.Of(a).Minus(b), step, limit)
		same(t, "undersize", short.Undersize, slow.Undersize)
		same(t, "visible undersize", short.VisibleUndersize, slow.VisibleUndersize)
		same(t, "visible oversize", short.VisibleOversize, slow.VisibleOversize)
		same(t, "over the turn limit", short.OverTurnLimit, slow.OverTurnLimit)
		same(t, "mean turn-down", short.MeanTurnDownMM, slow.MeanTurnDownMM)
		var quick, thorough GripFit
		strainLimit := float64(rapid.IntRange(1, 50).Draw(t, "limit")) / 1000
		quick.gripOdds(&a, &b, strainLimit)
		thorough.stackOdds(stack.Of(a), &b, strainLimit)
		same(t, "slip", quick.Slip, thorough.Slip)
		if math.Abs(quick.Split-thorough.Split) > 1e-5 { // the long way rounds to picometres
			t.Fatalf("split: %v, want %v", quick.Split, thorough.Split)
		}
	})
}

// TestExactlyAsWideSlips: a ferrule that is exactly as wide as the shaft does not grip.
func TestExactlyAsWideSlips(t *testing.T) {
	p := soundParts(t)
	p.tip, p.ferrule.Bore = ParallelTip(measure.Exactly(measure.Thou(370))), measure.Exactly(measure.Thou(370))
	if g := p.evaluate().Grip; g.Slip != 1 || g.Split != 0 {
		t.Errorf("slip %v, split %v", g.Slip, g.Split)
	}
	p.ferrule.Bore = measure.Exactly(measure.Thou(370).Sub(measure.Picometres(1)))
	if g := p.evaluate().Grip; g.Slip != 0 {
		t.Errorf("slip %v with a picometre of interference", g.Slip)
	}
}

// TestExactSizes: without any spread a probability is a comparison, at the limit too.
func TestExactSizes(t *testing.T) {
	tests := []struct {
		base                               string
		undersize, visibleUndersize, proud float64
	}{
		{".500 in", 0, 0, 0}, {".498 in", 1, 0, 0}, {".4979999 in", 1, 1, 0}, {".502 in", 0, 0, 0}, {".5020001 in", 0, 0, 1},
	}
	for _, test := range tests {
		p := soundParts(t)
		p.head.HoselOD, p.ferrule.BaseOD = measure.Exactly(measure.Thou(500)), measure.Exactly(long(t, test.base))
		f := p.evaluate().Flush
		if f.Undersize != test.undersize || f.VisibleUndersize != test.visibleUndersize || f.VisibleOversize != test.proud {
			t.Errorf("%s: %v %v %v", test.base, f.Undersize, f.VisibleUndersize, f.VisibleOversize)
		}
	}
}
