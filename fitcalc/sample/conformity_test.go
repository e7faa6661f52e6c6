package sample_test

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/sample"
)

// Source: JCGM 106:2012, example in 7.4 (inputs as quoted at metrologyrules.com, 2022/03): 13.6 with u = 1.8 in 12.5
// to 16.3. The document prints about .66.
func TestConformityProbability(t *testing.T) {
	r := sample.Result{Value: 13.6, U: 1.8}
	l := sample.Limits{Lower: 12.5, Upper: 16.3}
	near(t, "p_c", must[float64](t)(r.ConformityProbability(l)), .66263, 5e-6)
	near(t, "1 − p_c", must[float64](t)(r.NonconformityProbability(l)), .33737, 5e-6)
	near(t, "upper limit alone", must[float64](t)(r.ConformityProbability(sample.AtMost(16.3))), .933193, 5e-7)
	near(t, "lower limit alone", must[float64](t)(r.NonconformityProbability(sample.AtLeast(12.5))), .270563, 5e-7)
	far := sample.Result{Value: 0, U: 1}
	near(t, "far outside", must[float64](t)(far.ConformityProbability(sample.Limits{Lower: 9, Upper: 9.5}))/1.1270e-19, 1, .01)
}

// Source: JCGM 106:2012, table 1 (from the normal distribution).
func TestGuardBand(t *testing.T) {
	for _, c := range []struct{ p, z float64 }{{.80, .8416}, {.90, 1.2816}, {.95, 1.6449}, {.99, 2.3263}, {.999, 3.0902}} {
		near(t, "z", must[float64](t)(sample.GuardBand(1, c.p)), c.z, 5.1e-5)
		near(t, "z u", must[float64](t)(sample.GuardBand(.02, c.p)), .02*c.z, 1.1e-6)
	}
}

func TestDecide(t *testing.T) {
	l := sample.Limits{Lower: 10, Upper: 11}
	const g = 1.6448536269514722 * .1
	for _, c := range []struct {
		y    float64
		want sample.Decision
	}{
		{10.5, sample.Conforms}, {10 + g + 1e-9, sample.Conforms}, {10 + g - 1e-9, sample.NotProved}, {10, sample.NotProved},
		{10 - g + 1e-9, sample.NotProved}, {10 - g - 1e-9, sample.DoesNotConform}, {11 - g + 1e-9, sample.NotProved}, {11 + g + 1e-9, sample.DoesNotConform},
	} {
		if got := must[sample.Decision](t)(sample.Result{Value: c.y, U: .1}.Decide(l, .95)); got != c.want {
			t.Errorf("%.10g: %v, want %v", c.y, got, c.want)
		}
	}
	a := must[sample.Limits](t)(l.Acceptance(.1, .95))
	near(t, "acceptance limit", a.Lower, 10+g, 1e-12)
	near(t, "acceptance limit", a.Upper, 11-g, 1e-12)
	_, err := l.Acceptance(.5, .95)
	wantError(t, "nothing left", err, sample.ErrOrder)
	for d, word := range map[sample.Decision]string{sample.Conforms: "conforms", sample.DoesNotConform: "does not conform", sample.NotProved: "not proved"} {
		if d.String() != word {
			t.Errorf("%q, want %q", d.String(), word)
		}
	}
}

func TestConformityInput(t *testing.T) {
	l := sample.Limits{Lower: 10, Upper: 11}
	_, err := sample.Result{Value: 1, U: 0}.ConformityProbability(l)
	wantError(t, "u", err, sample.ErrNotPositive)
	_, err = sample.Result{Value: math.Inf(1), U: 1}.NonconformityProbability(l)
	wantError(t, "y", err, sample.ErrNotFinite)
	_, err = sample.Result{Value: 1, U: 1}.Decide(l, 1)
	wantError(t, "probability", err, sample.ErrProbability)
	_, err = sample.GuardBand(math.NaN(), .95)
	wantError(t, "u", err, sample.ErrNotFinite)
}
