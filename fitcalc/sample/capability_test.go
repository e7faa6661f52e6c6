package sample_test

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/sample"
)

// Source: NIST/SEMATECH e-Handbook, 6.1.6: limits 8 and 20, mean 16, s 2 (its indices from memory); the rest follows
// from the formulas.
func TestCapabilityNIST(t *testing.T) {
	c := must[sample.Capability](t)(sample.Summary{N: 50, Mean: 16, SD: 2}.Capability(sample.Limits{Lower: 8, Upper: 20}))
	near(t, "Cp", c.Cp, 1, 1e-15)
	near(t, "Cpu", c.Cpu, .6667, 5e-5)
	near(t, "Cpl", c.Cpl, 1.3333, 5e-5)
	near(t, "k", c.K, .3333, 5e-5)
	near(t, "Cpk", c.Cpk, .6667, 5e-5)
	near(t, "Cp(1 − k)", c.Cp*(1-c.K), c.Cpk, 1e-15)
	near(t, "Cpm", c.Cpm(14), .70711, 5e-6)
	near(t, "outside", c.Outside, .0227818, 5e-8)
	// Bissell's approximation, R 4.2.2
	i := must[sample.Interval](t)(c.CpkInterval(.95))
	near(t, "lower Cpk", i.Lower, .50555, 6e-6)
	near(t, "upper Cpk", i.Upper, .82778, 6e-6)
}

// Inputs published at tutorsglobe.com (591796); indices by the formulas.
func TestCapabilityOffCentre(t *testing.T) {
	c := must[sample.Capability](t)(sample.Summary{N: 30, Mean: 130, SD: 8}.Capability(sample.Limits{Lower: 100, Upper: 150}))
	near(t, "Cp", c.Cp, 1.04167, 5e-6)
	near(t, "Cpk", c.Cpk, .83333, 5e-6)
	near(t, "outside", c.Outside, .00629808, 5e-9)
}

// Source: chi-square quantiles, R 4.2.2 and SciPy 1.10.1, 95 % interval for Cp = 1.
func TestCpInterval(t *testing.T) {
	for _, c := range []struct {
		n            int
		lower, upper float64
	}{{25, .71883, 1.28069}, {50, .80248, 1.19713}, {100, .86083, 1.13894}} {
		capability := must[sample.Capability](t)(sample.Summary{N: c.n, Mean: 0, SD: 1}.Capability(sample.Limits{Lower: -3, Upper: 3}))
		i := must[sample.Interval](t)(capability.CpInterval(.95))
		near(t, "lower", i.Lower, c.lower, 5.1e-6)
		near(t, "upper", i.Upper, c.upper, 5.1e-6)
	}
}

// Source: docs.ifs.com, "About capability indices": parts per million outside, to its printed figures; more digits by
// SciPy 1.10.1. 1.33 gives 66, 4/3 would give 63.
func TestCentredOutside(t *testing.T) {
	for _, c := range []struct{ cp, ppm, halfDigit, printed, within float64 }{
		{.50, 133614.4, .05, 133600, 50}, {.75, 24448.9, .05, 24400, 50}, {1.00, 2699.80, .005, 2700, .5}, {1.11, 868.46, .005, 869, .6},
		{1.20, 318.22, .005, 318, .5}, {1.33, 66.07, .005, 66, .5}, {1.40, 26.69, .005, 27, .5}, {1.50, 6.795, .0005, 6.8, .05},
		{1.60, 1.587, .0005, 1.59, .005}, {1.67, .5443, .00005, .55, .006}, {1.80, .0666, .00005, .0667, .0001}, {2.00, .00197, .000005, .002, .0005},
	} {
		got := 1e6 * sample.CentredOutside(c.cp)
		near(t, "computed", got, c.ppm, c.halfDigit)
		near(t, "printed", got, c.printed, c.within)
	}
	near(t, "4/3", 1e6*sample.CentredOutside(4./3), 63.34, .005)
}

func TestCapabilityWithOneLimit(t *testing.T) {
	s := sample.Summary{N: 10, Mean: 1, SD: .1}
	c := must[sample.Capability](t)(s.Capability(sample.AtLeast(.7)))
	near(t, "Cpk", c.Cpk, 1, 1e-12)
	near(t, "outside", c.Outside, .00134990, 5e-9)
	if !math.IsNaN(c.Cp) || !math.IsNaN(c.Cpu) || !math.IsNaN(c.K) || !math.IsNaN(c.Cpm(1)) {
		t.Errorf("indices without their limit: %+v", c)
	}
	c = must[sample.Capability](t)(s.Capability(sample.AtMost(1.15)))
	near(t, "Cpk", c.Cpk, .5, 1e-12)
}

func TestCapabilityInput(t *testing.T) {
	good, limits := sample.Summary{N: 10, Mean: 1, SD: .1}, sample.Limits{Lower: 0, Upper: 2}
	for _, c := range []struct {
		what string
		s    sample.Summary
		l    sample.Limits
		want error
	}{
		{"one reading", sample.Summary{N: 1, Mean: 1, SD: .1}, limits, sample.ErrTooFew},
		{"no spread", sample.Summary{N: 9, Mean: 1}, limits, sample.ErrNotPositive},
		{"negative spread", sample.Summary{N: 9, Mean: 1, SD: -1}, limits, sample.ErrNegative},
		{"mean", sample.Summary{N: 9, Mean: math.NaN(), SD: 1}, limits, sample.ErrNotFinite},
		{"limits", good, sample.Limits{Lower: 2, Upper: 0}, sample.ErrOrder},
		{"no limits", good, sample.Limits{Lower: math.Inf(-1), Upper: math.Inf(1)}, sample.ErrNoLimits},
		{"limit", good, sample.Limits{Lower: math.NaN(), Upper: 0}, sample.ErrNotFinite},
		{"limit", good, sample.Limits{Lower: 0, Upper: math.Inf(-1)}, sample.ErrNotFinite},
	} {
		_, err := c.s.Capability(c.l)
		wantError(t, c.what, err, c.want)
	}
	c := must[sample.Capability](t)(good.Capability(limits))
	_, err := c.CpInterval(1)
	wantError(t, "confidence", err, sample.ErrProbability)
	_, err = c.CpkInterval(0)
	wantError(t, "confidence", err, sample.ErrProbability)
}
