package measure_test

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"pgregory.net/rapid"
)

// saturated returns the Length of a whole number, as sums and products saturate.
func saturated(n *big.Int) measure.Length {
	most := big.NewInt(measure.MaxLength.Picometres())
	switch {
	case n.Cmp(most) > 0:
		return measure.MaxLength
	case n.Cmp(new(big.Int).Neg(most)) < 0:
		return measure.MaxLength.Neg()
	}
	return measure.Picometres(n.Int64())
}

func TestArithmeticAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, m := anyLength().Draw(t, "l"), anyLength().Draw(t, "m")
		n := rapid.Int64().Draw(t, "n")
		den := rapid.Int64().Filter(func(d int64) bool { return d != 0 }).Draw(t, "den")
		a, b := big.NewInt(l.Picometres()), big.NewInt(m.Picometres())
		if got, want := l.Add(m), saturated(new(big.Int).Add(a, b)); got != want {
			t.Fatalf("%v + %v = %v; want %v", l, m, got, want)
		}
		if got, want := l.Sub(m), saturated(new(big.Int).Sub(a, b)); got != want {
			t.Fatalf("%v − %v = %v; want %v", l, m, got, want)
		}
		product := new(big.Int).Mul(a, big.NewInt(n))
		if got, want := l.MulInt(n), saturated(product); got != want {
			t.Fatalf("%v × %d = %v; want %v", l, n, got, want)
		}
		// Half away from zero: (2|p| + |d|) / 2|d|, with the sign.
		d := new(big.Int).Abs(big.NewInt(den))
		q := new(big.Int).Abs(product)
		q.Lsh(q, 1).Add(q, d).Quo(q, new(big.Int).Lsh(d, 1))
		if (product.Sign() < 0) != (den < 0) {
			q.Neg(q)
		}
		if got, want := l.MulRatio(n, den), saturated(q); got != want {
			t.Fatalf("%v × %d/%d = %v; want %v", l, n, den, got, want)
		}
		if l.Compare(m) != a.Cmp(b) || l.Less(m) != (a.Cmp(b) < 0) || measure.Min(l, m).Compare(measure.Max(l, m)) > 0 {
			t.Fatalf("%v and %v are out of order", l, m)
		}
	})
}

func TestConstructors(t *testing.T) {
	for got, want := range map[measure.Length]string{
		measure.Picometres(1):                "0.000000001 mm",
		measure.Micrometres(1):               "0.001 mm",
		measure.Millimetres(1):               "1 mm",
		measure.Thou(1):                      "0.0254 mm",
		measure.Inches(1):                    "25.4 mm",
		measure.Inches(-5):                   "-127 mm",
		measure.Inches(math.MaxInt64):        "1000000 mm",
		measure.Inches(math.MinInt64):        "-1000000 mm",
		measure.Millimetres(1_000_001):       "1000000 mm",
		measure.Picometres(math.MinInt64):    "-1000000 mm",
		measure.Inches(1).DivRound(-512):     "-0.049609375 mm",
		measure.Picometres(3).Half():         "0.000000002 mm",
		measure.Picometres(-3).Half():        "-0.000000002 mm",
		measure.Millimetres(-2).Abs().Half(): "1 mm",
	} {
		if got.String() != want {
			t.Errorf("%v; want %s", got, want)
		}
	}
	if !measure.MaxLength.Overflowed() || !measure.MaxLength.Neg().Overflowed() || measure.MaxLength.Sub(measure.Picometres(1)).Overflowed() {
		t.Error("Overflowed")
	}
	if !(measure.Length{}).IsZero() || measure.Picometres(1).IsZero() || measure.Picometres(-1).Sign() != -1 {
		t.Error("zero and sign")
	}
}

func TestFromMillimetres(t *testing.T) {
	for x, want := range map[float64]string{13.6: "13.6 mm", -1e-9: "-0.000000001 mm", 0.4e-9: "0 mm", 1e6: "1000000 mm"} {
		if got, err := measure.FromMillimetres(x); err != nil || got.String() != want {
			t.Errorf("%v mm = %v, %v; want %s", x, got, err, want)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e6 + 1, -1e300} {
		r := (*measure.RangeError)(nil)
		_, err := measure.FromMillimetres(x)
		if !errors.As(err, &r) || !errors.Is(err, measure.ErrRange) || !strings.Contains(err.Error(), "1 km") {
			t.Errorf("%v mm: %v", x, err)
		}
	}
}

func TestDimBuilders(t *testing.T) {
	nominal := dim(t, "13.6 mm")
	got := nominal.WithShape(measure.Uniform).OrPlusMinus(length(t, "0.05 mm"))
	if want := dim(t, "13.6 ±0.05 mm").WithShape(measure.Uniform).WithOrigin(measure.Default); got != want {
		t.Errorf("%v %v", got, got.Origin())
	}
	stated := dim(t, "13.6 +0/-0.1 mm")
	for _, d := range []measure.Dim{{}, stated} {
		if got := d.OrPlusMinus(length(t, "1 mm")); got != d {
			t.Errorf("%v became %v", d, got)
		}
	}
	if got := stated.Shift(length(t, "-0.6 mm")); got != dim(t, "13 +0/-0.1 mm") {
		t.Errorf("shifted to %v", got)
	}
	if stated.Width() != length(t, "0.1 mm") || stated.Middle() != length(t, "13.55 mm") || !stated.HasLimits() || nominal.HasLimits() {
		t.Error("width, middle and limits")
	}
	// A middle beyond what the width as a Length could tell.
	across := measure.Between(measure.MaxLength, measure.MaxLength.Neg())
	if across.Nominal() != (measure.Length{}) || across.Middle() != (measure.Length{}) {
		t.Errorf("middle of the range %v", across)
	}
}

func TestOneCharacterFractions(t *testing.T) {
	for r, want := range map[string]string{"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6",
		"⅐": "1/7", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10", "⅟32": "1/32"} {
		if n, rest, err := measure.ParseNumber(r); err != nil || rest != "" || n.String() != want {
			t.Errorf("%s = %v, %q, %v; want %s", r, n, rest, err, want)
		}
	}
}

func TestNumberOverflow(t *testing.T) {
	for _, s := range []string{"1/99999999999999999999 in", "99999999999999999999/2 in", "⅟99999999999999999999 in", "9999999999999999999 1/512 in", "1 99999999999999999999/2 in", "99,999,999,999,999,999,999 pm"} {
		if l, err := measure.ParseLength(s); !errors.Is(err, measure.ErrRange) {
			t.Errorf("ParseLength(%q) = %v, %v; want out of range", s, l, err)
		}
	}
	for _, s := range []string{"-½", "-1.5"} {
		n, _, err := measure.ParseNumber(s)
		if err != nil || n.Sign() != -1 || n.Float64() >= 0 {
			t.Errorf("%s: %v, %v", s, n, err)
		}
	}
}

func TestErrorsQuoteAtMostALine(t *testing.T) {
	_, err := measure.ParseLength(strings.Repeat("１", 1000))
	if n := len(err.Error()); n > 600 {
		t.Errorf("%d bytes: %v", n, err)
	}
	for _, s := range []string{"1/3 in", "1,250 mm", "13.6 x", "2000 m"} {
		_, err := measure.ParseLength(s)
		if cause := errors.Unwrap(err); cause == nil || cause.Error() == "" {
			t.Errorf("%q has no cause", s)
		}
	}
}
