package measure_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"pgregory.net/rapid"
)

func TestParseAngle(t *testing.T) {
	tests := map[string]int64{ // nanodegrees
		"60°":              60_000_000_000,
		"60 °":             60_000_000_000,
		"60º":              60_000_000_000,
		"82 deg":           82_000_000_000,
		"82deg.":           82_000_000_000,
		"82 Degrees":       82_000_000_000,
		"８２°":              82_000_000_000,
		"82,5 degree":      82_500_000_000,
		"60 度":             60_000_000_000,
		"-0.000000001°":    -1,
		"59-1/2°":          59_500_000_000,
		"1°30'":            1_500_000_000,
		"1° 30′ 0″":        1_500_000_000,
		"-0°30'":           -500_000_000,
		"−1°30'":           -1_500_000_000,
		"0°0'36\"":         10_000_000,
		"1°36\"":           1_010_000_000,
		"10°7.5'":          10_125_000_000,
		`1°29'30.27"`:      1_491_741_667, // 1 + (29 + 30.27/60)/60 = 1.49174166…
		`1°29''`:           1_008_055_556, // two apostrophes are a second
		"1000000°":         1_000_000_000_000_000,
		"999999°59'59.9\"": 999_999_999_972_222,
	}
	for s, want := range tests {
		got, err := measure.ParseAngle(s)
		if err != nil || got.Nanodegrees() != want {
			t.Errorf("ParseAngle(%q) = %d, %v; want %d", s, got.Nanodegrees(), err, want)
		}
	}
	for s, is := range map[string]error{
		"": measure.ErrNoNumber, "°": measure.ErrNoNumber, "60": measure.ErrNoUnit, "1 rad": measure.ErrNoUnit, "60 mm": measure.ErrNoUnit,
		"1000001°": measure.ErrRange, "1000000°0'1\"": measure.ErrRange, "99999999999999999999999°": measure.ErrRange,
		"0.0000000001°": measure.ErrInexact, "1/3°": measure.ErrInexact, "1°60'": measure.ErrRange, "1°59'60\"": measure.ErrRange,
		"1°30": measure.ErrNoUnit, "1°30'5": measure.ErrNoUnit, "1,250°": measure.ErrAmbiguous,
	} {
		_, err := measure.ParseAngle(s)
		p := (*measure.ParseError)(nil)
		if !errors.Is(err, is) || !errors.As(err, &p) || p.Input != s {
			t.Errorf("ParseAngle(%q): %v; want %v", s, err, is)
		}
	}
	for _, s := range []string{"1.5°30'", "1°1.5'30\"", "60° x", "60°60°", "1°-30'"} {
		a, err := measure.ParseAngle(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) {
			t.Errorf("ParseAngle(%q) = %v, %v; want a ParseError", s, a, err)
		}
	}
}

func TestAngleArithmetic(t *testing.T) {
	sixty := measure.Degrees(60)
	if got := sixty.Half(); got != measure.Degrees(30) {
		t.Errorf("half of 60° = %v", got)
	}
	if got := measure.Nanodegrees(3).Half(); got != measure.Nanodegrees(2) {
		t.Errorf("half of 3 ndeg = %v", got)
	}
	if got := measure.Nanodegrees(-3).Half(); got != measure.Nanodegrees(-2) {
		t.Errorf("half of -3 ndeg = %v", got)
	}
	if sixty.Sub(measure.Degrees(22)) != measure.Degrees(38) || sixty.Neg().Add(sixty) != (measure.Angle{}) || !sixty.Neg().Less(sixty) || sixty.Sign() != 1 || !(measure.Angle{}).IsZero() {
		t.Error("sums of angles")
	}
	for _, n := range []int64{math.MaxInt64, 1_000_001, 1 << 40} {
		if measure.Degrees(n) != measure.MaxAngle || measure.Degrees(-n) != measure.MaxAngle.Neg() {
			t.Errorf("%d° does not saturate", n)
		}
	}
	if measure.Degrees(math.MinInt64) != measure.MaxAngle.Neg() || measure.MaxAngle.Add(measure.MaxAngle) != measure.MaxAngle || measure.Nanodegrees(math.MinInt64) != measure.MaxAngle.Neg() {
		t.Error("angles do not saturate")
	}
}

// The depth factor of an 82° countersink is cot(41°)/2 = 0.57518, and 2 tan(41°) × 0.125 = 0.217
// (cartertools.com/KBCountersinking/Math.html). The other factors are computed, 1/(2 tan(A/2)).
func TestTan(t *testing.T) {
	for degrees, factor := range map[int64]float64{60: .8660254, 82: .5751842, 90: .5, 100: .4195498, 110: .3501038, 118: .3004303, 120: .2886751} {
		if got := 1 / (2 * measure.Degrees(degrees).Half().Tan()); math.Abs(got-factor) > 5e-8 {
			t.Errorf("%d°: depth factor %v; want %v", degrees, got, factor)
		}
	}
	if got := 2 * measure.Degrees(41).Tan() * .125; math.Abs(got-.2173217) > 5e-8 {
		t.Errorf("2 tan 41° × .125 = %v", got)
	}
	if got := measure.Degrees(180).Radians(); got != math.Pi {
		t.Errorf("180° = %v", got)
	}
}

func TestAnglesFromFloats(t *testing.T) {
	a, err := measure.FromRadians(math.Pi / 3)
	if err != nil || a != measure.Degrees(60) {
		t.Errorf("π/3 = %v, %v", a, err)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), -1e7} {
		if _, err := measure.FromDegrees(x); !errors.Is(err, measure.ErrRange) {
			t.Errorf("FromDegrees(%v): %v", x, err)
		}
		if _, err := measure.FromRadians(x); !errors.Is(err, measure.ErrRange) {
			t.Errorf("FromRadians(%v): %v", x, err)
		}
	}
}

func TestNumberDegrees(t *testing.T) {
	for text, want := range map[string]struct {
		ndeg  int64
		exact bool
	}{"60": {60_000_000_000, true}, "-82,5": {-82_500_000_000, true}, "1/3": {333_333_333, false}} {
		n, _, err := measure.ParseNumber(text)
		if err != nil {
			t.Fatal(err)
		}
		a, exact, err := n.Degrees()
		if err != nil || a.Nanodegrees() != want.ndeg || exact != want.exact {
			t.Errorf("%s degrees = %v, %v, %v", text, a, exact, err)
		}
	}
	n, _, err := measure.ParseNumber("1000001")
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := n.Degrees(); !errors.Is(err, measure.ErrRange) {
		t.Errorf("1000001 degrees: %v", err)
	}
}

func TestAngleRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := measure.Nanodegrees(rapid.Int64().Draw(t, "ndeg")) // most draws saturate or are small
		back, err := measure.ParseAngle(a.String())
		if err != nil || back != a {
			t.Fatalf("%v came back as %v, %v", a, back, err)
		}
		data, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		var u measure.Angle
		if err := json.Unmarshal(data, &u); err != nil || u != a {
			t.Fatalf("%s came back as %v, %v", data, u, err)
		}
	})
}

func FuzzParseAngle(f *testing.F) {
	for _, s := range []string{"60°", "82 deg", `1°29'30.27"`, "-0°30'", "1° 30′ 0″", "59-1/2°", "1°29''", "60"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, err := measure.ParseAngle(s)
		if err != nil {
			p := (*measure.ParseError)(nil)
			if !errors.As(err, &p) || p.Input != s || !strings.HasSuffix(s, p.Rest) {
				t.Fatalf("ParseAngle(%q): %#v", s, err)
			}
			return
		}
		if back, err := measure.ParseAngle(a.String()); err != nil || back != a {
			t.Fatalf("%q = %v came back as %v, %v", s, a, back, err)
		}
	})
}
