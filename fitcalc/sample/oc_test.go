package sample_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

// lot is a lot of pieces whose limits are 10 ± .3 mm.
type lot struct {
	what string
	draw func(*rand.Rand) float64 // mm from 10
	// outside is the share of the lot beyond the limits.
	outside float64
}

// normalLot is centred, with the given share outside.
func normalLot(what string, outside float64) lot {
	sigma := .3 / zUpper(outside/2)
	return lot{what, func(r *rand.Rand) float64 { return sigma * r.NormFloat64() }, outside}
}

// zUpper returns z with P(Z > z) = q, by bisection on erfc.
func zUpper(q float64) float64 {
	lo, hi := 0.0, 10.0
	for range 60 {
		if mid := (lo + hi) / 2; math.Erfc(mid/math.Sqrt2)/2 > q {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// answers draws lots of n pieces and returns the shares that are supported and contradicted, at 95 % confidence with 5 %
// allowed.
func (l lot) answers(t *testing.T, n, trials int) (supported, contradicted float64) {
	t.Helper()
	rng := rand.New(rand.NewPCG(uint64(n), 20260901))
	stated := measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(300))
	readings := make([]measure.Length, n)
	for range trials {
		for i := range readings {
			readings[i] = measure.Picometres(10e9 + int64(math.Round(l.draw(rng)*1e9)))
		}
		c, err := sample.Compare(stated, readings, sample.Question{Confidence: .95, Allowed: .05})
		if err != nil {
			t.Fatal(err)
		}
		switch c.Consistency {
		case sample.Supported:
			supported++
		case sample.Contradicted:
			contradicted++
		}
	}
	return supported / float64(trials), contradicted / float64(trials)
}

// The law that more readings never make a good lot harder to bear out, nor a bad one harder to find out, and that either is
// certain in the end: the operating characteristic by trial, with fixed seeds. A fall within three standard deviations of
// the trial itself is no fall. Of a lot that is not normal it is asked where the count alone can decide.
func TestOperatingCharacteristic(t *testing.T) {
	allEqual := func(r *rand.Rand) float64 { return .6*r.Float64() - .3 }
	fewFar := func(share float64) func(*rand.Rand) float64 { // not normal: most near the middle, a share far out
		return func(r *rand.Rand) float64 {
			if r.Float64() < share {
				return .4
			}
			return .05 * r.NormFloat64()
		}
	}
	normal, any := []int{10, 60, 300, 1000}, []int{100, 300, 1000}
	for _, c := range []struct {
		lot
		sizes []int
	}{
		{normalLot("normal, three deviations inside", .0027), normal},
		{normalLot("normal, 1 % outside", .01), normal},
		{normalLot("normal, 2 % outside", .02), normal},
		{lot{"even between the limits", allEqual, 0}, any},
		{lot{"1 % far outside", fewFar(.01), .01}, any},
		{normalLot("normal, 10 % outside", .10), normal},
		{normalLot("normal, 20 % outside", .20), normal},
		{lot{"10 % far outside", fewFar(.10), .10}, any},
	} {
		t.Run(c.what, func(t *testing.T) {
			t.Parallel()
			c.lot.check(t, c.sizes)
		})
	}
}

func (l lot) check(t *testing.T, sizes []int) {
	const trials = 150
	before := 0.0
	for _, n := range sizes {
		supported, contradicted := l.answers(t, n, trials)
		t.Logf("%d readings: supported %.3f, contradicted %.3f", n, supported, contradicted)
		right, wrong := supported, contradicted
		if l.outside > .05 {
			right, wrong = contradicted, supported
		}
		if deviation := math.Sqrt((before*(1-before) + right*(1-right)) / trials); right < before-3*deviation-1./trials {
			t.Errorf("%.3f answered rightly with %d readings, and %.3f with fewer", right, n, before)
		}
		if wrong > .05 {
			t.Errorf("%.3f answered wrongly with %d readings", wrong, n)
		}
		before = right
	}
	if before < .98 {
		t.Errorf("only %.3f answered rightly in the end", before)
	}
}

// A lot with just the share outside that is allowed is neither good nor bad. Each of the two ways of deciding errs there in
// at most 5 % of cases either way, so both together in at most 10 %.
func TestConfidenceAtTheEdge(t *testing.T) {
	const trials = 200
	for _, n := range []int{10, 60, 300} {
		supported, contradicted := normalLot("edge", .05).answers(t, n, trials)
		t.Logf("%d readings: supported %.3f, contradicted %.3f", n, supported, contradicted)
		if most := .10 + 3*math.Sqrt(.10*.90/trials); supported > most || contradicted > most {
			t.Errorf("%d readings: supported %.3f, contradicted %.3f", n, supported, contradicted)
		}
	}
}
