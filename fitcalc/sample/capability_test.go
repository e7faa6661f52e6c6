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
	near(t, "outside", c.Outside, .0227818, 5e-8)
}

// Inputs published at tutorsglobe.com (591796); indices by the formulas.
func TestCapabilityOffCentre(t *testing.T) {
	c := must[sample.Capability](t)(sample.Summary{N: 30, Mean: 130, SD: 8}.Capability(sample.Limits{Lower: 100, Upper: 150}))
	near(t, "Cp", c.Cp, 1.04167, 5e-6)
	near(t, "Cpk", c.Cpk, .83333, 5e-6)
	near(t, "outside", c.Outside, .00629808, 5e-9)
}

func TestCapabilityWithOneLimit(t *testing.T) {
	s := sample.Summary{N: 10, Mean: 1, SD: .1}
	c := must[sample.Capability](t)(s.Capability(sample.AtLeast(.7)))
	near(t, "Cpk", c.Cpk, 1, 1e-12)
	near(t, "outside", c.Outside, .00134990, 5e-9)
	if !math.IsNaN(c.Cp) || !math.IsNaN(c.Cpu) || !math.IsNaN(c.K) {
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
}
