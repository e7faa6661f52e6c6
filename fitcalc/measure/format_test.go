package measure_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func length(t testing.TB, s string) measure.Length {
	t.Helper()
	l, err := measure.ParseLength(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func dim(t testing.TB, s string) measure.Dim {
	t.Helper()
	d, err := measure.ParseDim(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestFormat(t *testing.T) {
	mm, in, thou := measure.Length.FormatMillimetres, measure.Length.FormatInches, measure.Length.FormatThou
	tests := []struct {
		format   func(measure.Length, int) (string, bool)
		length   string
		decimals int
		want     string
		exact    bool
	}{
		{mm, "13.6 mm", 1, "13.6", true},
		{mm, "13.6 mm", 3, "13.600", true},
		{mm, "13.6 mm", 0, "14", false},
		{mm, "13.6 mm", -5, "14", false},
		{mm, "0.123456789 mm", 9, "0.123456789", true},
		{mm, "0.123456789 mm", 99, "0.123456789", true},
		{mm, "-0.004 mm", 2, "0.00", false},
		{mm, "-0.006 mm", 2, "-0.01", false},
		{mm, "1000 m", 9, "1000000.000000000", true},
		{in, "13.589 mm", 3, "0.535", true},
		{in, "13.6 mm", 4, "0.5354", false},
		{in, "-1000 m", 9, "-39370.078740157", false},
		{thou, "9.398 mm", 0, "370", true},
		{thou, "9.4 mm", 1, "370.1", false},
		{thou, "1000 m", 9, "39370078.740157480", false},
		// ASME A112.18.1-2018/CSA B125.1-18, annex A.2: 1.655 becomes 1.66 and 1.625 becomes 1.62.
		{mm, "1.655 mm", 2, "1.66", false},
		{mm, "1.625 mm", 2, "1.62", false},
		{mm, "-1.625 mm", 2, "-1.62", false},
		{in, "1.655 in", 2, "1.66", false},
		{in, "1.625 in", 2, "1.62", false},
		// NIST LC 1137: 36 in is 91 cm, here 914 mm; 40.1 in is 101.9 cm, here 1018.5 mm.
		{mm, "36 in", 0, "914", false},
		{mm, "40.1 in", 1, "1018.5", false},
	}
	for _, tt := range tests {
		got, exact := tt.format(length(t, tt.length), tt.decimals)
		if got != tt.want || exact != tt.exact {
			t.Errorf("%s to %d decimals = %q, %v; want %q, %v", tt.length, tt.decimals, got, exact, tt.want, tt.exact)
		}
	}
}

// The printers against math/big, which rounds half away from zero, so that ties are left to the table above.
func TestFormatAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		decimals := rapid.IntRange(0, 9).Draw(t, "decimals")
		text, exact := l.FormatInches(decimals)
		want := big.NewRat(l.Picometres(), inch)
		got, ok := new(big.Rat).SetString(text)
		if !ok {
			t.Fatalf("%q is no number", text)
		}
		if exact != (got.Cmp(want) == 0) {
			t.Fatalf("%v is %q, exact %v", l, text, exact)
		}
		off := new(big.Rat).Sub(got, want)
		half := big.NewRat(1, 2*int64(math.Pow10(decimals)))
		if off.Abs(off).Cmp(half) > 0 {
			t.Fatalf("%v is %q, off by %v", l, text, off)
		}
		// Apart from a tie, and the sign of nothing, big prints the same digits.
		if ref := want.FloatString(decimals); off.Cmp(half) != 0 && got.Sign() != 0 && ref != text {
			t.Fatalf("%v is %q, and %q by math/big", l, text, ref)
		}
	})
}

func TestRoundTo(t *testing.T) {
	tests := []struct {
		length, step string
		mode         measure.Rounding
		want         string
	}{
		{"13.64 mm", "0.05 mm", measure.NearestEven, "13.65 mm"},
		{"13.625 mm", "0.05 mm", measure.NearestEven, "13.6 mm"},
		{"13.675 mm", "0.05 mm", measure.NearestEven, "13.7 mm"},
		{"13.64 mm", "0.05 mm", measure.Down, "13.6 mm"},
		{"13.61 mm", "0.05 mm", measure.Up, "13.65 mm"},
		{"-13.64 mm", "0.05 mm", measure.Down, "-13.65 mm"},
		{"-13.64 mm", "0.05 mm", measure.Up, "-13.6 mm"},
		{"13.6 mm", "-0.05 mm", measure.Up, "13.6 mm"},
		{"13.6 mm", "0 mm", measure.Up, "13.6 mm"},
		{"13.6 mm", "1000 m", measure.Up, "1000000 mm"},
		{"-13.6 mm", "1000 m", measure.NearestEven, "0 mm"},
		{"1000 m", "999 m", measure.Up, "1000000 mm"}, // saturates
	}
	for _, tt := range tests {
		if got := length(t, tt.length).RoundTo(length(t, tt.step), tt.mode); got.String() != tt.want {
			t.Errorf("%s to %s, mode %d = %v; want %s", tt.length, tt.step, tt.mode, got, tt.want)
		}
	}
}

func TestFormatFraction(t *testing.T) {
	tests := []struct {
		length      string
		denominator int64
		want        measure.Fraction
		text        string
	}{
		{`.535"`, 64, measure.Fraction{Num: 17, Den: 32, Remainder: length(t, ".00375 in")}, `17/32" + .0038"`},
		{`.527"`, 64, measure.Fraction{Num: 17, Den: 32, Remainder: length(t, "-.00425 in")}, `17/32" - .0042"`},
		{"1/2 in", 64, measure.Fraction{Num: 1, Den: 2}, `1/2"`},
		{"1-1/4 in", 64, measure.Fraction{Whole: 1, Num: 1, Den: 4}, `1-1/4"`},
		{"-1-1/4 in", 64, measure.Fraction{Negative: true, Whole: 1, Num: 1, Den: 4}, `-1-1/4"`},
		{"1/2 in", 1, measure.Fraction{Den: 1, Remainder: length(t, "1/2 in")}, `0" + .5000"`},
		{"0.999 in", 64, measure.Fraction{Whole: 1, Den: 1, Remainder: length(t, "-.001 in")}, `1" - .0010"`},
		{"0 mm", 64, measure.Fraction{Den: 1}, `0"`},
		{"-0.001 in", 64, measure.Fraction{Den: 1, Remainder: length(t, "-.001 in")}, `0" - .0010"`},
		{"12700000001 pm", 64, measure.Fraction{Num: 1, Den: 2, Remainder: length(t, "1 pm")}, `1/2" + <.0001"`},
		{"1/512 in", 512, measure.Fraction{Num: 1, Den: 512}, `1/512"`},
	}
	for _, tt := range tests {
		got, err := length(t, tt.length).FormatFraction(tt.denominator)
		if err != nil {
			t.Error(err)
			continue
		}
		if diff := cmp.Diff(tt.want, got, cmp.AllowUnexported(measure.Length{})); diff != "" || got.String() != tt.text {
			t.Errorf("%s in %d: %q, want %q (-want +got)\n%s", tt.length, tt.denominator, got, tt.text, diff)
		}
	}
	for _, den := range []int64{-2, 0, 3, 100, 1024, math.MaxInt64, math.MinInt64} {
		e := (*measure.DenominatorError)(nil)
		if _, err := length(t, "1 in").FormatFraction(den); !errors.As(err, &e) || e.Denominator != den {
			t.Errorf("denominator %d: %v", den, err)
		}
	}
}

func TestFractionAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		den := int64(1) << rapid.IntRange(0, 9).Draw(t, "log2 of the denominator")
		f, err := l.FormatFraction(den)
		if err != nil {
			t.Fatal(err)
		}
		sum := f.Whole*inch + f.Num*(inch/f.Den)
		if f.Negative {
			sum = -sum
		}
		if sum+f.Remainder.Picometres() != l.Picometres() {
			t.Fatalf("%v = %+v", l, f)
		}
		if r := f.Remainder.Abs().Picometres(); r > inch/den/2+1 || (f.Den > 1 && f.Num%2 == 0) || f.Den > den {
			t.Fatalf("%v = %+v", l, f)
		}
	})
}
