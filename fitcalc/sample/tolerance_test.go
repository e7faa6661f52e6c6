package sample_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"pgregory.net/rapid"
)

// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3: resistivity of 43 wafers; share .90, confidence
// .99. The mean is 97.07 and s is .0268: one line of an old page used 2.68 and gave 102.096, which must not come out.
func TestNISTCase(t *testing.T) {
	wafers := sample.Summary{N: 43, Mean: 97.07, SD: .0268}
	howe := must[float64](t)(sample.HoweFactor(43, .90, .99))
	near(t, "k2 by Howe", howe, 2.2173159, 5e-8)
	near(t, "lower", wafers.Mean-howe*wafers.SD, 97.0105759, 1e-6)
	near(t, "upper", wafers.Mean+howe*wafers.SD, 97.1294241, 1e-6)
	natrella := must[float64](t)(sample.NatrellaFactor(43, .90, .99))
	near(t, "k1 by Natrella", natrella, 1.8751896, 1e-7)
	near(t, "upper limit", wafers.Mean+natrella*wafers.SD, 97.120255, 5e-7)
	near(t, "lower limit", wafers.Mean-natrella*wafers.SD, 97.019745, 5e-7)
	// exact factors: R package tolerance 3.0.0 and SciPy 1.10.1; NIST prints 1.8740 for the one-sided
	near(t, "k1", must[float64](t)(sample.OneSidedFactor(43, .90, .99)), 1.873954, 5e-7)
	near(t, "k2", must[float64](t)(sample.TwoSidedFactor(43, .90, .99)), 2.222825, 5e-7)
	near(t, "upper limit", must[float64](t)(wafers.UpperToleranceLimit(.90, .99)), 97.07+1.873954*.0268, 1e-7)
	near(t, "lower limit", must[float64](t)(wafers.LowerToleranceLimit(.90, .99)), 97.07-1.873954*.0268, 1e-7)
	interval := must[sample.Interval](t)(wafers.ToleranceInterval(.90, .99))
	near(t, "interval", interval.Upper-interval.Lower, 2*2.222825*.0268, 1e-7)
}

// Source of the case: real-statistics.com, "Tolerance interval example", n = 40, mean 10, s .2; factors as published
// for the noncentral t and Natrella, the exact two-sided one by its quadrature.
func TestSecondPublishedCase(t *testing.T) {
	near(t, "k1", must[float64](t)(sample.OneSidedFactor(40, .90, .99)), 1.901726, 5e-7)
	near(t, "k1 by Natrella", must[float64](t)(sample.NatrellaFactor(40, .90, .99)), 1.903372, 5e-7)
	i := must[sample.Interval](t)(sample.Summary{N: 40, Mean: 10, SD: .2}.ToleranceInterval(.90, .99))
	near(t, "lower", i.Lower, 9.54943, 2e-5)
	near(t, "k2 by Howe", must[float64](t)(sample.HoweFactor(40, .90, .99)), 2.24672, 5e-6)
}

// Source: R package tolerance 3.0.0 and SciPy 1.10.1, which agree (one-sided); Gauss-Legendre quadrature (two-sided),
// because the R package's own EXACT method is wrong in the fifth figure (2.76043 for n = 20, share and confidence
// .95).
func TestFactors(t *testing.T) {
	shares := []float64{.90, .95, .99}
	type row struct {
		n        int
		at95     [3]float64
		at99     [3]float64
		howeAt95 [3]float64
		howeAt99 [3]float64
	}
	check := func(what string, factor func(int, float64, float64) (float64, error), n int, confidence float64, want [3]float64, tolerance float64) {
		t.Helper()
		for i, share := range shares {
			near(t, fmt.Sprintf("%s, n %d, share %g, confidence %g", what, n, share, confidence),
				must[float64](t)(factor(n, share, confidence)), want[i], tolerance)
		}
	}
	for _, r := range []row{
		{n: 5, at95: [3]float64{3.40663, 4.20268, 5.74108}, at99: [3]float64{5.36172, 6.57834, 8.93902}},
		{n: 10, at95: [3]float64{2.35464, 2.91096, 3.98112}, at99: [3]float64{3.04791, 3.73831, 5.07373}},
		{n: 20, at95: [3]float64{1.92599, 2.39600, 3.29516}, at99: [3]float64{2.27565, 2.80787, 3.83156}},
		{n: 50, at95: [3]float64{1.64556, 2.06499, 2.86245}, at99: [3]float64{1.82080, 2.26890, 3.12461}},
	} {
		check("one-sided", sample.OneSidedFactor, r.n, .95, r.at95, 5.1e-6)
		check("one-sided", sample.OneSidedFactor, r.n, .99, r.at99, 5.1e-6)
	}
	for _, r := range []row{
		{5, [3]float64{4.29060, 5.07687, 6.59798}, [3]float64{6.65493, 7.86973, 10.22009},
			[3]float64{4.2746, 5.0935, 6.6940}, [3]float64{6.6113, 7.8779, 10.3533}},
		{10, [3]float64{2.85631, 3.39343, 4.43691}, [3]float64{3.61662, 4.29417, 5.61017},
			[3]float64{2.8382, 3.3819, 4.4446}, [3]float64{3.5817, 4.2679, 5.6089}},
		{20, [3]float64{2.31879, 2.76035, 3.62099}, [3]float64{2.67519, 3.18378, 4.17475},
			[3]float64{2.3098, 2.7523, 3.6171}, [3]float64{2.6592, 3.1687, 4.1644}},
		{50, [3]float64{1.99900, 2.38156, 3.12877}, [3]float64{2.16599, 2.58040, 3.38972},
			[3]float64{1.9963, 2.3788, 3.1262}, [3]float64{2.1616, 2.5757, 3.3850}},
	} {
		check("two-sided", sample.TwoSidedFactor, r.n, .95, r.at95, 5.1e-6)
		check("two-sided", sample.TwoSidedFactor, r.n, .99, r.at99, 5.1e-6)
		check("Howe", sample.HoweFactor, r.n, .95, r.howeAt95, 5.1e-5)
		check("Howe", sample.HoweFactor, r.n, .99, r.howeAt99, 5.1e-5)
	}
	// 25-digit quadrature (mpmath 1.3.0)
	for _, c := range []struct {
		n                    int
		share, confidence, k float64
	}{{2, .95, .95, 36.51921461206}, {3, .99, .99, 28.58569516892}, {20, .95, .95, 2.760346178446}, {300, .90, .95, 1.767222088994}} {
		near(t, fmt.Sprint(c), must[float64](t)(sample.TwoSidedFactor(c.n, c.share, c.confidence)), c.k, 1e-12*c.k)
	}
}

// Source: Berthouex and Brown, Statistics for Environmental Engineers, table 21.1: two-sided factors at 95 %
// confidence for shares of .90, .95 and .99. The approximation by Howe does not meet this table.
func TestPublishedTwoSidedTable(t *testing.T) {
	for _, r := range []struct {
		n int
		k [3]float64
	}{
		{4, [3]float64{5.37, 6.34, 8.22}}, {5, [3]float64{4.29, 5.08, 6.60}}, {6, [3]float64{3.73, 4.42, 5.76}},
		{7, [3]float64{3.39, 4.02, 5.24}}, {8, [3]float64{3.16, 3.75, 4.89}}, {9, [3]float64{2.99, 3.55, 4.63}},
		{10, [3]float64{2.86, 3.39, 4.44}}, {12, [3]float64{2.67, 3.17, 4.16}}, {15, [3]float64{2.49, 2.96, 3.89}},
		{20, [3]float64{2.32, 2.76, 3.62}}, {25, [3]float64{2.22, 2.64, 3.46}}, {30, [3]float64{2.15, 2.55, 3.35}},
		{40, [3]float64{2.06, 2.45, 3.22}}, {60, [3]float64{1.96, 2.34, 3.07}}, {100_000_000, [3]float64{1.64, 1.96, 2.58}},
	} {
		for i, share := range []float64{.90, .95, .99} {
			near(t, fmt.Sprintf("n %d, share %g", r.n, share), must[float64](t)(sample.TwoSidedFactor(r.n, share, .95)), r.k[i], .0051)
		}
	}
}

// The definition, by trial: of intervals from lots with a known spread, 95 % hold 95 % of the lot. The seed is fixed;
// 0.0063 is four standard deviations of the count.
func TestToleranceIntervalHoldsWhatItSays(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	const trials, n = 20_000, 8
	k := must[float64](t)(sample.TwoSidedFactor(n, .95, .95))
	held := 0
	readings := make([]float64, n)
	for range trials {
		for i := range readings {
			readings[i] = rng.NormFloat64()
		}
		s := must[sample.Summary](t)(sample.SummariseFloats(readings))
		lower, upper := s.Mean-k*s.SD, s.Mean+k*s.SD
		if (math.Erf(upper/math.Sqrt2)-math.Erf(lower/math.Sqrt2))/2 >= .95 {
			held++
		}
	}
	near(t, "intervals that hold 95 %", float64(held)/trials, .95, .0063)
}

// Source: Wilks' formula and share^n, SciPy 1.10.1; 93, 46, 473, 59 and 299 are the well-known numbers.
func TestLeastNumbers(t *testing.T) {
	for _, c := range []struct {
		share, confidence float64
		want              int
	}{{.95, .95, 93}, {.90, .95, 46}, {.99, .95, 473}, {.99, .99, 662}} {
		if got := must[int](t)(sample.LeastForRange(c.share, c.confidence)); got != c.want {
			t.Errorf("range, %g/%g: %d, want %d", c.share, c.confidence, got, c.want)
		}
	}
	for _, c := range []struct {
		share float64
		want  int
	}{{.90, 29}, {.95, 59}, {.99, 299}} {
		if got := must[int](t)(sample.LeastWithoutFault(c.share, .95)); got != c.want {
			t.Errorf("without fault, %g: %d, want %d", c.share, got, c.want)
		}
	}
	_, err := sample.LeastWithoutFault(math.Nextafter(1, 0), .95)
	wantError(t, "a share next to 1", err, sample.ErrTooLarge)
}

// Factors exist everywhere, grow with the share and the confidence, and the two-sided is never below the one-sided of
// the same share, which an interval must hold too.
func TestFactorProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.OneOf(rapid.IntRange(2, 30), rapid.IntRange(2, 1_000_000)).Draw(t, "n")
		p := rapid.OneOf(rapid.Float64Range(.001, .99), rapid.Float64Range(.9, .99999)).Draw(t, "share")
		c := rapid.OneOf(rapid.Float64Range(.001, .99), rapid.Float64Range(.9, .99999)).Draw(t, "confidence")
		for what, f := range map[string]func(int, float64, float64) (float64, error){
			"one-sided": sample.OneSidedFactor, "two-sided": sample.TwoSidedFactor,
		} {
			k, err := f(n, p, c)
			more, errMore := f(n, p+(1-p)/2, c)
			surer, errSurer := f(n, p, c+(1-c)/2)
			if err != nil || errMore != nil || errSurer != nil {
				t.Fatal(what, err, errMore, errSurer)
			}
			if math.IsInf(surer, 0) || !(more > k && surer > k) {
				t.Fatalf("%s: %g, with a larger share %g, with more confidence %g", what, k, more, surer)
			}
		}
		one, _ := sample.OneSidedFactor(n, p, c)
		if two, _ := sample.TwoSidedFactor(n, p, c); two < one {
			t.Fatalf("two-sided %g is below one-sided %g", two, one)
		}
	})
}

func TestFactorInput(t *testing.T) {
	for _, f := range []func(int, float64, float64) (float64, error){
		sample.OneSidedFactor, sample.TwoSidedFactor, sample.HoweFactor, sample.NatrellaFactor,
	} {
		_, err := f(1, .9, .9)
		wantError(t, "n 1", err, sample.ErrTooFew)
		for _, p := range []float64{0, 1, -1, 2, math.NaN()} {
			_, err := f(5, p, .9)
			wantError(t, "share", err, sample.ErrProbability)
			_, err = f(5, .9, p)
			wantError(t, "confidence", err, sample.ErrProbability)
		}
	}
	if k := must[float64](t)(sample.NatrellaFactor(2, .9, .99)); !math.IsInf(k, 1) {
		t.Errorf("Natrella where it does not exist: %g", k)
	}
	// the far corners return a number
	for _, n := range []int{2, 3, 100_000} {
		for _, p := range []float64{.001, .5, .9999} {
			one, two := must[float64](t)(sample.OneSidedFactor(n, p, p)), must[float64](t)(sample.TwoSidedFactor(n, p, p))
			if math.IsNaN(one) || math.IsInf(one, 0) || !(two > 0) || math.IsInf(two, 0) {
				t.Errorf("n %d, p %g: %g, %g", n, p, one, two)
			}
		}
	}
}

func TestMeasuredDim(t *testing.T) {
	s := must[sample.Summary](t)(sample.Summarise(mm(t, 13.60, 13.61, 13.58, 13.62, 13.60, 13.59, 13.61, 13.60)))
	d := must[measure.Dim](t)(s.Dim(.95))
	if d.Origin() != measure.Measured || d.Shape() != measure.Normal {
		t.Errorf("origin %v, shape %v", d.Origin(), d.Shape())
	}
	i := must[sample.Interval](t)(s.ToleranceInterval(sample.ThreeSigma, .95))
	near(t, "lower", d.Lower().Millimetres(), i.Lower, 3e-9)
	near(t, "upper", d.Upper().Millimetres(), i.Upper, 3e-9)
	if d.Lower().Millimetres() > i.Lower || d.Upper().Millimetres() < i.Upper {
		t.Error("limits rounded inward")
	}
	near(t, "share within three deviations", math.Erf(3/math.Sqrt2), sample.ThreeSigma, 1e-15)
}

// However many readings there are, the factors tend to the normal quantiles: k₁ to z + z_c sqrt((1 + z²/2)/n), k₂ to
// z (1 + z_c/sqrt(2n)), both to within a few n-th parts (the leading terms of the expansions in 1/√n; z_c is the quantile of
// the confidence).
func TestFactorsOfManyReadings(t *testing.T) {
	const z95, z975 = 1.6448536269514722, 1.9599639845400542
	for _, n := range []int{1e6, 1e9, 1e12, 1e15, 1e18} {
		root := math.Sqrt(float64(n))
		one, two := z95+z95*math.Sqrt(1+z95*z95/2)/root, z975*(1+z95/math.Sqrt2/root)
		within := 10/float64(n) + 4e-14
		near(t, fmt.Sprintf("k1 of %d", n), must[float64](t)(sample.OneSidedFactor(n, .95, .95)), one, within)
		near(t, fmt.Sprintf("k1 of %d by Natrella", n), must[float64](t)(sample.NatrellaFactor(n, .95, .95)), one, within)
		near(t, fmt.Sprintf("k2 of %d", n), must[float64](t)(sample.TwoSidedFactor(n, .95, .95)), two, within)
		near(t, fmt.Sprintf("k2 of %d by Howe", n), must[float64](t)(sample.HoweFactor(n, .95, .95)), two, within)
		// the bound on the share undoes the factor
		s := sample.Summary{N: n, Mean: 0, SD: 1}
		near(t, fmt.Sprintf("share beyond k1 of %d", n), must[float64](t)(s.OutsideBound(sample.AtMost(one), .95)), .05, within+1e-13)
	}
}
