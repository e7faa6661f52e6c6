package decimal

import (
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

func TestPlain(t *testing.T) {
	for text, want := range map[string]json.Number{
		"0.0000": "0", "12.7000": "12.7", "100.0000": "100", "100": "100", "-0.0508": "-0.0508", "0.0100": "0.01",
	} {
		if got := plain(text); got != want {
			t.Errorf("plain(%q) = %q, want %q", text, got, want)
		}
	}
}

// TestNumbersAreExact holds the decimals against rational arithmetic.
func TestNumbersAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pm := rapid.Int64Range(-2_000_000_000_000, 2_000_000_000_000).Draw(t, "pm")
		l := measure.Picometres(pm)
		within(t, Millimetres(l), big.NewRat(pm, 1_000_000_000), big.NewRat(1, 20_000))
		within(t, Inches(l), big.NewRat(pm, 25_400_000_000), big.NewRat(1, 2_000_000))
	})
}

func within(t *rapid.T, got json.Number, want, tolerance *big.Rat) {
	t.Helper()
	value, ok := new(big.Rat).SetString(string(got))
	if !ok {
		t.Fatalf("%q is no number", got)
	}
	if off := new(big.Rat).Sub(value, want); off.Abs(off).Cmp(tolerance) > 0 {
		t.Errorf("%s is off %s by %s", got, want.FloatString(9), off.FloatString(9))
	}
	if strings.ContainsAny(string(got), "eE+") || strings.HasPrefix(string(got), "-0") && value.Sign() == 0 {
		t.Errorf("%q is not plain", got)
	}
}

func TestShare(t *testing.T) {
	for x, want := range map[float64]json.Number{0: "0", 1: "1", 0.05: "0.05", 1.0 / 3: "0.333333", 1.23456789e-12: "1.23457e-12"} {
		if got := Share(x); got != want {
			t.Errorf("Share(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestOf(t *testing.T) {
	for _, tt := range []struct {
		x      float64
		places int
		want   json.Number
	}{{0, 2, "0"}, {-0.001, 2, "0"}, {12.5, 2, "12.5"}, {-12.346, 2, "-12.35"}, {100, 0, "100"}, {1e9, 3, "1000000000"}} {
		if got := Of(tt.x, tt.places); got != tt.want {
			t.Errorf("Of(%v, %d) = %q, want %q", tt.x, tt.places, got, tt.want)
		}
	}
}
