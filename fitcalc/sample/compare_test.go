package sample_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"pgregory.net/rapid"
)

// The bound on the share beyond one limit undoes the exact one-sided factor: with the limit k deviations away it is 1
// − share. Factors by R package tolerance 3.0.0 and SciPy 1.10.1.
func TestOutsideBoundOneLimit(t *testing.T) {
	for _, c := range []struct {
		n                   int
		k, share, confident float64
	}{{5, 4.20268, .95, .95}, {10, 2.35464, .90, .95}, {20, 3.83156, .99, .99}, {50, 2.86245, .99, .95}} {
		s := sample.Summary{N: c.n, Mean: 10, SD: .1}
		upper := must[float64](t)(s.OutsideBound(sample.AtMost(10+c.k*.1), c.confident))
		near(t, fmt.Sprintf("n %d, k %g", c.n, c.k), upper, 1-c.share, 3e-6)
		near(t, "lower limit", must[float64](t)(s.OutsideBound(sample.AtLeast(10-c.k*.1), c.confident)), upper, 1e-12)
	}
}

// By trial: the two-sided bound holds at least as often as it says. The seed is fixed.
func TestOutsideBoundHolds(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const trials, n = 1000, 10
	l := sample.Limits{Lower: -2, Upper: 2.5}
	truth := (2 - math.Erf(2/math.Sqrt2) - math.Erf(2.5/math.Sqrt2)) / 2
	held := 0
	readings := make([]float64, n)
	for range trials {
		for i := range readings {
			readings[i] = rng.NormFloat64()
		}
		s := must[sample.Summary](t)(sample.SummariseFloats(readings))
		if must[float64](t)(s.OutsideBound(l, .90)) >= truth {
			held++
		}
	}
	if held < 872 { // 900 less three standard deviations
		t.Errorf("held in %d of %d", held, trials)
	}
}

func TestOutsideBoundIsAShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sample.Summary{
			N:    rapid.IntRange(2, 3000).Draw(t, "n"),
			Mean: rapid.OneOf(rapid.Float64Range(-5, 5), rapid.Float64Range(-1e6, 1e6)).Draw(t, "mean"),
			SD:   math.Pow(10, rapid.Float64Range(-6, 3).Draw(t, "log sd")),
		}
		l := sample.Limits{Lower: -1, Upper: 1}
		c := rapid.Float64Range(.5, .9999).Draw(t, "confidence")
		bound, err := s.OutsideBound(l, c)
		if err != nil || !(bound >= 0 && bound <= 1) {
			t.Fatal(bound, err)
		}
		surer, err := s.OutsideBound(l, c+(1-c)/2)
		if err != nil || surer < bound*(1-1e-9) {
			t.Fatalf("%g at more confidence than %g, %v", surer, bound, err)
		}
	})
}

// Clopper and Pearson's bounds from their closed forms: 1 − α^(1/n) for none bad (the "rule of three"), and the
// defining binomial.
func TestShareBounds(t *testing.T) {
	for _, n := range []int{1, 10, 59, 300} {
		near(t, fmt.Sprintf("none of %d", n), must[float64](t)(sample.ShareBound(0, n, .95)), 1-math.Pow(.05, 1/float64(n)), 1e-12)
	}
	bound := must[float64](t)(sample.ShareBound(2, 30, .95))
	near(t, "2 of 30", must[float64](t)(sample.AttributePlan{N: 30, C: 2}.Accept(bound)), .05, 1e-12)
	// The least samples that show 95 % with 95 % confidence and 0, 1, 2 … pieces outside are those of Wilks' tolerance limits of
	// the first, second, third … order (from memory; 59 and 93 are also those of LeastWithoutFault and LeastForRange).
	for badPieces, n := range []int{59, 93, 124, 153, 181} {
		if few, enough := must[float64](t)(sample.ShareBound(badPieces, n-1, .95)), must[float64](t)(sample.ShareBound(badPieces, n, .95)); few <= .05 || enough > .05 {
			t.Errorf("%d bad: %g with %d pieces and %g with one more, want .05 between", badPieces, few, n-1, enough)
		}
	}
	near(t, "all of 5", must[float64](t)(sample.ShareBound(5, 5, .95)), 1, 0)
	i := must[sample.Interval](t)(sample.ShareInterval(1, 10, .95))
	near(t, "lower 1 of 10", i.Lower, 1-math.Pow(.975, .1), 1e-12) // P(none | p) = .975
	none := must[sample.Interval](t)(sample.ShareInterval(0, 10, .95))
	near(t, "lower 0 of 10", none.Lower, 0, 0)
	near(t, "upper 0 of 10", none.Upper, .3085, 5e-5) // 1 − .025^.1, in the tables of Clopper and Pearson as .31
}

func TestCompare(t *testing.T) {
	pm := func(nominal, tolerance int64) measure.Dim {
		return measure.PlusMinus(measure.Micrometres(nominal), measure.Micrometres(tolerance))
	}
	close := []float64{13.602, 13.598, 13.600, 13.601, 13.599, 13.603, 13.597, 13.600, 13.601, 13.599}
	many := make([]float64, 60)
	for i := range many {
		many[i] = 13.55 + .0005*float64(i) + .07*float64(i%2) // two heaps, all within ± .06
	}
	for _, c := range []struct {
		what     string
		stated   measure.Dim
		readings []float64
		q        sample.Question
		want     sample.Consistency
		reason   string
	}{
		{"well within", pm(13600, 50), close, sample.Question{Confidence: .95, Allowed: .05}, sample.Supported, "normal lot"},
		{"just too few", pm(13600, 6), close, sample.Question{Confidence: .95, Allowed: .0027}, sample.Undecided, "take more"},
		{"off centre", pm(13550, 50), close, sample.Question{Confidence: .95, Allowed: .05}, sample.Contradicted, "4 of 10"},
		{"readings outside", pm(13650, 30), close, sample.Question{Confidence: .95, Allowed: .05}, sample.Contradicted, "10 of 10"},
		{"a normal lot reaches outside", pm(13600, 4), close, sample.Question{Confidence: .95, Allowed: .0001}, sample.Contradicted, "normal lot"},
		{"within, but the caliper is in doubt", pm(13600, 50), close, sample.Question{Confidence: .95, Allowed: .05, U: .029}, sample.Undecided, "take more"},
		{"guard bands leave nothing", pm(13600, 50), close, sample.Question{Confidence: .95, Allowed: .05, U: .04}, sample.Undecided, "take more"},
		{"doubt of the caliper", pm(13650, 48), close, sample.Question{Confidence: .95, Allowed: .4, U: .01}, sample.Undecided, "take more"},
		{"not normal, many within", pm(13625, 76), many, sample.Question{Confidence: .95, Allowed: .05}, sample.Supported, "0 of 60"},
		{"all the same, few", pm(13600, 50), []float64{13.6, 13.6, 13.6}, sample.Question{Confidence: .95, Allowed: .05}, sample.Undecided, "take more"},
	} {
		got := must[sample.Comparison](t)(sample.Compare(c.stated, mm(t, c.readings...), c.q))
		if got.Consistency != c.want || !strings.Contains(got.Reason, c.reason) {
			t.Errorf("%s: %v (%s), want %v (… %s …)\n%+v", c.what, got.Consistency, got.Reason, c.want, c.reason, got)
		}
	}
}

// One piece far outside is no veto and is not waved through either: with 93 pieces it leaves the statement borne out by the
// count, with 92 it does not, and no normal lot that is so well inside the limits explains it.
func TestOneReadingOutside(t *testing.T) {
	for n, want := range map[int]sample.Consistency{92: sample.Undecided, 93: sample.Supported} {
		readings := make([]float64, n)
		for i := range readings {
			readings[i] = 13.6 + .001*float64(i%7-3)
		}
		readings[n/2] = 13.66
		stated := measure.PlusMinus(measure.Micrometres(13600), measure.Micrometres(50))
		got := must[sample.Comparison](t)(sample.Compare(stated, mm(t, readings...), sample.Question{Confidence: .95, Allowed: .05}))
		if got.Consistency != want || got.OutsideBound > .001 {
			t.Errorf("%d readings: %v (%s), want %v\n%+v", n, got.Consistency, got.Reason, want, got)
		}
	}
}

func TestComparisonNumbers(t *testing.T) {
	stated := measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(30))
	c := must[sample.Comparison](t)(sample.Compare(stated, mm(t, 10.00, 10.03, 10.06, 9.96, 9.97), sample.Question{Confidence: .95, Allowed: .05, U: .001}))
	if c.ReadOutside != 2 || c.ProvedOutside != 2 {
		t.Errorf("a reading at the limit is inside: %d, %d", c.ReadOutside, c.ProvedOutside)
	}
	// 9.97 and 10.03 are at the limits, so not inside by the guard band
	near(t, "counted", c.CountedBound, must[float64](t)(sample.ShareBound(4, 5, .95)), 0)
	// R 4.2.2: x <- c(10,10.03,10.06,9.96,9.97); t.test(x, mu=10)$p.value; pchisq(4*var(x)/.01^2, 4, lower.tail=FALSE)
	near(t, "mean", c.MeanP, .840254137691218, 1e-12)
	near(t, "spread", c.SpreadP/3.34858188993208e-14, 1, 1e-9)
	d := must[sample.Comparison](t)(sample.Compare(stated, mm(t, 10.00, 10.03, 10.034, 9.94, 9.97), sample.Question{Confidence: .95, Allowed: .05, U: .01}))
	if d.ReadOutside != 2 || d.ProvedOutside != 1 {
		t.Errorf("guard band: %d, %d", d.ReadOutside, d.ProvedOutside)
	}
	if len(d.Warnings) != 1 {
		t.Errorf("warnings %v", d.Warnings)
	}
	wantError(t, "coarse caliper", d.Warnings[0], sample.ErrUncertainLimits)
	// shapes imply different deviations
	for shape, want := range map[measure.Shape]float64{measure.Uniform: .000122801470004101, measure.Triangular: 2.31041445805331e-9} {
		c := must[sample.Comparison](t)(sample.Compare(stated.WithShape(shape), mm(t, 10.00, 10.03, 10.06, 9.96, 9.97), sample.Question{Confidence: .95, Allowed: .05}))
		near(t, "spread", c.SpreadP, want, 1e-10)
	}
	exact := must[sample.Comparison](t)(sample.Compare(measure.Exactly(measure.Millimetres(10)), mm(t, 10, 10), sample.Question{Confidence: .95, Allowed: .05}))
	near(t, "no spread at all", exact.SpreadP, 1, 0)
	if !math.IsNaN(exact.Outside) || !math.IsNaN(exact.MeanP) {
		t.Errorf("%+v", exact)
	}
	for c, word := range map[sample.Consistency]string{sample.Supported: "supported", sample.Contradicted: "contradicted", sample.Undecided: "undecided"} {
		if c.String() != word {
			t.Errorf("%q, want %q", c.String(), word)
		}
	}
}

func TestCompareInput(t *testing.T) {
	stated := measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(30))
	readings := mm(t, 10, 10.01)
	q := sample.Question{Confidence: .95, Allowed: .05}
	_, err := sample.Compare(measure.Dim{}, readings, q)
	wantError(t, "not given", err, sample.ErrNoLimits)
	_, err = sample.Compare(measure.Nominal(measure.Millimetres(10)), readings, q)
	wantError(t, "nominal only", err, sample.ErrNoLimits)
	_, err = sample.Compare(stated, readings[:1], q)
	wantError(t, "one reading", err, sample.ErrTooFew)
	_, err = sample.Compare(stated, readings, sample.Question{Confidence: 1, Allowed: .05})
	wantError(t, "confidence", err, sample.ErrProbability)
	_, err = sample.Compare(stated, readings, sample.Question{Confidence: .95})
	wantError(t, "allowed", err, sample.ErrProbability)
	_, err = sample.Compare(stated, readings, sample.Question{Confidence: .95, Allowed: .05, U: -1})
	wantError(t, "u", err, sample.ErrNegative)
	_, err = sample.ShareBound(3, 2, .95)
	wantError(t, "more bad than pieces", err, sample.ErrOrder)
	_, err = sample.ShareInterval(0, 0, .95)
	wantError(t, "no pieces", err, sample.ErrTooFew)
	_, err = sample.ShareInterval(0, 5, 1)
	wantError(t, "confidence", err, sample.ErrProbability)
	_, err = sample.Summary{N: 5, Mean: 1}.OutsideBound(sample.AtMost(2), .95)
	wantError(t, "no spread", err, sample.ErrNotPositive)
}
