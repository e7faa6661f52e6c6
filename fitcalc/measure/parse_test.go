package measure_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// pm of one inch and one millimetre: the inch is exactly 25.4 mm (International Yard and Pound agreement, 1959).
const (
	inch = 25_400_000_000
	mm   = 1_000_000_000
)

func TestParseLength(t *testing.T) {
	tests := []struct {
		text string
		pm   int64
	}{
		{"13.6 mm", 13_600_000_000},
		{"13.6mm", 13_600_000_000},
		{"13.60 MM", 13_600_000_000},
		{"  13.6  mm. ", 13_600_000_000},
		{"\u00a013.6\u202fmm\u3000", 13_600_000_000},
		{"1.36 cm", 13_600_000_000},
		{"0.0136 m", 13_600_000_000},
		{"13600 µm", 13_600_000_000},
		{"13600 μm", 13_600_000_000}, // the Greek letter
		{"13600 um", 13_600_000_000},
		{"13600 microns", 13_600_000_000},
		{"5 nm", 5000},
		{"5 pm", 5},
		{"13.6㎜", 13_600_000_000},
		{"13.6 毫米", 13_600_000_000},
		{`.535"`, 13_589_000_000},
		{"0.535 in", 13_589_000_000},
		{"0.535 in.", 13_589_000_000},
		{"0.535 inch", 13_589_000_000},
		{"0.535 INCHES", 13_589_000_000},
		{"0.535″", 13_589_000_000},
		{"0.535”", 13_589_000_000},
		{"0.535''", 13_589_000_000},
		{"0.535’’", 13_589_000_000},
		{"0,535 Zoll", 13_589_000_000},
		{"0.535インチ", 13_589_000_000},
		{"535 thou", 13_589_000_000},
		{"535 mil", 13_589_000_000},
		{"535 mils", 13_589_000_000},
		{`1/2"`, inch / 2},
		{"1/2 in", inch / 2},
		{"1-1/4 in", inch * 5 / 4},
		{`1 1/4"`, inch * 5 / 4},
		{`½"`, inch / 2},
		{"1½ in", inch * 3 / 2},
		{"1 ½ in", inch * 3 / 2},
		{"1-½ in", inch * 3 / 2},
		{"⅜ in", inch * 3 / 8},
		{"1⁄64 in", inch / 64},
		{"1∕64 in", inch / 64},
		{"⅟64 in", inch / 64},
		{"17/32 in", inch * 17 / 32},
		{"1/512 in", 49_609_375},
		{"1/2 mm", mm / 2},
		{"Ø13.6 mm", 13_600_000_000},
		{"⌀ 13.6 mm", 13_600_000_000},
		{"φ13.6 mm", 13_600_000_000},
		{"Φ13.6 mm", 13_600_000_000},
		{"∅13.6 mm", 13_600_000_000},
		{"１３．６ｍｍ", 13_600_000_000},
		{"－１３．６　ｍｍ", -13_600_000_000},
		{"13,6 mm", 13_600_000_000},
		{",535 in", 13_589_000_000},
		{"0,535 in", 13_589_000_000}, // thousands never begin with a zero
		{"13,6000 mm", 13_600_000_000},
		{"1250,125 mm", 1_250_125_000_000},
		{"1,250.5 mm", 1_250_500_000_000},
		{"1.250,5 mm", 1_250_500_000_000},
		{"900,000,000 nm", 900_000_000_000},
		{"+13.6 mm", 13_600_000_000},
		{"-13.6 mm", -13_600_000_000},
		{"− 13.6 mm", -13_600_000_000},
		{"-1-1/4 in", -inch * 5 / 4},
		{"-0 mm", 0},
		{"13. mm", 13_000_000_000},
		{"000013.6 mm", 13_600_000_000},
		{"13.600000000000000000000000000000 mm", 13_600_000_000},
		{"0.000000001 mm", 1},
		{"1000 m", 1_000_000 * mm},
		{"-1000 m", -1_000_000 * mm},
	}
	for _, tt := range tests {
		got, err := measure.ParseLength(tt.text)
		if err != nil || got != measure.Picometres(tt.pm) {
			t.Errorf("ParseLength(%q) = %v, %v; want %d pm", tt.text, got, err, tt.pm)
		}
	}
}

// The published exact conversions: .370, .355 and .335 in, and 5 in = 127.0 mm as in the Equipment Rules of golf.
func TestInch(t *testing.T) {
	for in, want := range map[string]string{
		"0.370 in": "9.398 mm", "0.355 in": "9.017 mm", "0.335 in": "8.509 mm",
		"5 in": "127 mm", "1 in": "25.4 mm", "1 thou": "0.0254 mm", "1 mil": "0.0254 mm", "36 in": "914.4 mm", "40.1 in": "1018.54 mm",
	} {
		l, err := measure.ParseLength(in)
		if err != nil || l.String() != want {
			t.Errorf("%s = %v, %v; want %s", in, l, err, want)
		}
	}
	// 1 mm = 0.03937007874015748 in. 0.03937, which is often printed, is no conversion factor.
	if got := measure.Millimetres(1).Inches(); got != 0.03937007874015748 {
		t.Errorf("1 mm = %v in", got)
	}
}

func TestParseLengthErrors(t *testing.T) {
	tests := []struct {
		text string
		rest string
		is   error
	}{
		{"", "", measure.ErrNoNumber},
		{"   ", "", measure.ErrNoNumber},
		{"mm", "mm", measure.ErrNoNumber},
		{"- mm", "- mm", measure.ErrNoNumber},
		{"R13.6 mm", "R13.6 mm", measure.ErrNoNumber},
		{"NaN mm", "NaN mm", measure.ErrNoNumber},
		{"13.6", "", measure.ErrNoUnit},
		{"1/2", "", measure.ErrNoUnit},
		{"13.6 x", "x", measure.ErrNoUnit},
		{"13.6 M", "M", measure.ErrNoUnit},
		{"13.6'", "'", measure.ErrNoUnit},
		{"1e3 mm", "e3 mm", measure.ErrNoUnit},
		{"0x10 mm", "x10 mm", measure.ErrNoUnit},
		{"1,250 mm", "1,250 mm", measure.ErrAmbiguous},
		{"12,700 mm", "12,700 mm", measure.ErrAmbiguous},
		{"-999,999 mm", "999,999 mm", measure.ErrAmbiguous},
		{"1000.000000000001 m", "1000.000000000001 m", measure.ErrRange},
		{"1001 m", "1001 m", measure.ErrRange},
		{"18446744073709551616 pm", "18446744073709551616 pm", measure.ErrRange},
		{"99999999999999999999999999 mm", "99999999999999999999999999 mm", measure.ErrRange},
		{"0.0000000001 mm", "0.0000000001 mm", measure.ErrInexact},
		{"0.00000000000000000000000000001 mm", "0.00000000000000000000000000001 mm", measure.ErrInexact},
		{"1/3 in", "1/3 in", measure.ErrInexact},
		{"1/1024 in", "1/1024 in", measure.ErrInexact},
	}
	for _, tt := range tests {
		_, err := measure.ParseLength(tt.text)
		p := (*measure.ParseError)(nil)
		if !errors.As(err, &p) || !errors.Is(err, tt.is) {
			t.Errorf("ParseLength(%q): %v; want %v", tt.text, err, tt.is)
			continue
		}
		if p.Input != tt.text || p.Rest != tt.rest || p.Reason == "" || p.Accepts == "" {
			t.Errorf("ParseLength(%q): Input %q, Rest %q (want %q), Reason %q, Accepts %q", tt.text, p.Input, p.Rest, tt.rest, p.Reason, p.Accepts)
		}
	}
	// Texts that are wrong in form only.
	for _, s := range []string{"1.2.3 mm", "1,2,3 mm", "1.250.000 mm", "12.05.2024 mm", "1/0 in", "1 5/4 in", "13.6 mm 2", "13.6 mm mm", "1/2/3 in", "13.6 ±0.05 mm", "1,2.3,4 mm",
		"0.1.2.3.4.5.6.7.8.9 mm", "⅟ in", "⅟0 in", "\xff mm", "13.6 \xff", "1 1/4 1/4 in", "13²mm", "1 250 mm"} {
		l, err := measure.ParseLength(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) {
			t.Errorf("ParseLength(%q) = %v, %v; want a ParseError", s, l, err)
		}
	}
}

func TestAmbiguousComma(t *testing.T) {
	_, err := measure.ParseLength("1,250 mm")
	a := (*measure.AmbiguousError)(nil)
	if !errors.As(err, &a) {
		t.Fatal(err)
	}
	if a.Text != "1,250" || a.AsDecimal.String() != "1.25" || a.AsThousands.String() != "1250" {
		t.Errorf("%+v", a)
	}
	for comma, want := range map[measure.Comma]string{measure.DecimalComma: "1.25 mm", measure.ThousandsComma: "1250 mm"} {
		l, err := measure.Notation{Comma: comma}.ParseLength("1,250 mm")
		if err != nil || l.String() != want {
			t.Errorf("comma %d: %v, %v; want %s", comma, l, err, want)
		}
		// What is not ambiguous stays as it is.
		l, err = measure.Notation{Comma: comma}.ParseLength("13,6 mm")
		if err != nil || l.String() != "13.6 mm" {
			t.Errorf("comma %d: %v, %v", comma, l, err)
		}
	}
}

func TestInexactError(t *testing.T) {
	_, err := measure.ParseLength("1/3 in")
	e := (*measure.InexactError)(nil)
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	if e.Number.String() != "1/3" || e.Unit != measure.Inch || e.Nearest != measure.Picometres(8_466_666_667) {
		t.Errorf("%+v", e)
	}
}

func TestNotationUnit(t *testing.T) {
	inches := measure.Notation{Unit: measure.Inch}
	for text, want := range map[string]string{".535": "13.589 mm", "13.6 mm": "13.6 mm", "1/2": "12.7 mm"} {
		l, err := inches.ParseLength(text)
		if err != nil || l.String() != want {
			t.Errorf("%q in inches = %v, %v; want %s", text, l, err, want)
		}
	}
	if _, err := inches.ParseLength(".535 x"); err == nil {
		t.Error(".535 x is a length")
	}
}

func TestParseNumber(t *testing.T) {
	tests := []struct {
		text, want, rest string
		decimals         int
		fraction         bool
	}{
		{"13.60", "13.6", "", 2, false},
		{" Ø 13.60 H7", "13.6", "H7", 2, false},
		{".370 (9.398mm)", "0.37", "(9.398mm)", 3, false},
		{"1-1/4 in", "5/4", "in", 0, true},
		{"-1/2", "-1/2", "", 0, true},
		{"2/4", "2/4", "", 0, true},
		{".370/.372", "0.37", "/.372", 3, false},
		{"12/12.5", "12", "/12.5", 0, false},
		{"13...14", "13", "...14", 0, false},
		{"13-14", "13", "-14", 0, false},
		{"13, 14", "13", ", 14", 0, false},
		{"0.12345678901234567890123", "0.123456789012345678...", "", 23, false},
	}
	for _, tt := range tests {
		n, rest, err := measure.ParseNumber(tt.text)
		got := []any{n.String(), rest, n.Decimals(), n.IsFraction()}
		if diff := cmp.Diff([]any{tt.want, tt.rest, tt.decimals, tt.fraction}, got); diff != "" || err != nil {
			t.Errorf("ParseNumber(%q) %v (-want +got)\n%s", tt.text, err, diff)
		}
	}
	if (measure.Number{}).String() != "0" || (measure.Number{}).Sign() != 0 {
		t.Error("the zero Number is not 0")
	}
}

func TestNumberIn(t *testing.T) {
	tests := []struct {
		text  string
		unit  measure.Unit
		pm    int64
		exact bool
	}{
		{".535", measure.Inch, 13_589_000_000, true},
		{"370", measure.Mil, 9_398_000_000, true},
		{"1/3", measure.Inch, 8_466_666_667, false},
		{"0.0000000005", measure.Millimetre, 0, false}, // half a picometre: to even
		{"0.0000000015", measure.Millimetre, 2, false},
		{"-0.0000000015", measure.Millimetre, -2, false},
		{"0.00000000050000000000001", measure.Millimetre, 1, false}, // just above the half
		{"1/1024", measure.Inch, 24_804_688, false},                 // 24,804,687.5
	}
	for _, tt := range tests {
		n, _, err := measure.ParseNumber(tt.text)
		if err != nil {
			t.Fatal(err)
		}
		l, exact, err := n.In(tt.unit)
		if err != nil || l != measure.Picometres(tt.pm) || exact != tt.exact {
			t.Errorf("%s %v = %d pm, %v, %v; want %d, %v", tt.text, tt.unit, l.Picometres(), exact, err, tt.pm, tt.exact)
		}
	}
	n, _, err := measure.ParseNumber("13.6")
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := n.In(measure.NoUnit); !errors.Is(err, measure.ErrNoUnit) {
		t.Errorf("no unit: %v", err)
	}
	if _, _, err := n.In(measure.Unit(200)); err == nil {
		t.Error("a unit that is none gave a length")
	}
}

func TestFromFloat(t *testing.T) {
	third := 1.0 / 3
	tests := []struct {
		x    float64
		unit measure.Unit
		want string
	}{
		{0.33500000000000002, measure.Inch, "8.509 mm"},
		{0.1 + 0.2, measure.Millimetre, "0.3 mm"},
		{0.37 * 25.4, measure.Millimetre, "9.398 mm"},
		{0.535, measure.Inch, "13.589 mm"},
		{13.6, measure.Millimetre, "13.6 mm"},
		{-13.6, measure.Millimetre, "-13.6 mm"},
		{1e-9, measure.Millimetre, "0.000000001 mm"},
		{370, measure.Mil, "9.398 mm"},
		{0, measure.Millimetre, "0 mm"},
		{math.Copysign(0, -1), measure.Millimetre, "0 mm"},
		{1e6, measure.Millimetre, "1000000 mm"},
		{1e15, measure.Picometre, "1000000 mm"},
	}
	for _, tt := range tests {
		l, err := measure.FromFloat(tt.x, tt.unit)
		if err != nil || l.String() != tt.want {
			t.Errorf("FromFloat(%v, %v) = %v, %v; want %s", tt.x, tt.unit, l, err, tt.want)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, 1e6 + 1, -1e7} {
		if _, err := measure.FromFloat(x, measure.Millimetre); !errors.Is(err, measure.ErrRange) {
			t.Errorf("FromFloat(%v): %v", x, err)
		}
	}
	e := (*measure.InexactError)(nil)
	if _, err := measure.FromFloat(third, measure.Millimetre); !errors.As(err, &e) || e.Nearest != measure.Picometres(333_333_333) {
		t.Errorf("a third: %v", err)
	}
	for _, x := range []float64{1e-20, math.SmallestNonzeroFloat64} {
		if _, err := measure.FromFloat(x, measure.Millimetre); !errors.Is(err, measure.ErrInexact) {
			t.Errorf("FromFloat(%v): %v", x, err)
		}
	}
	if _, err := measure.FromFloat(1, measure.NoUnit); !errors.Is(err, measure.ErrNoUnit) {
		t.Errorf("no unit: %v", err)
	}
}

// Every decimal of up to nine places that a cell holds comes back exactly.
func TestFromFloatIsTheWrittenDecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := measure.Picometres(rapid.Int64Range(-999_999_999_999, 999_999_999_999).Draw(t, "pm"))
		got, err := measure.FromFloat(want.Millimetres(), measure.Millimetre)
		if err != nil || got != want {
			t.Fatalf("%v came back as %v, %v", want, got, err)
		}
	})
}

func TestUnits(t *testing.T) {
	all := []measure.Unit{measure.Millimetre, measure.Centimetre, measure.Metre, measure.Micrometre, measure.Nanometre, measure.Picometre, measure.Inch, measure.Mil}
	for _, u := range all {
		back, err := measure.ParseUnit(u.String())
		if err != nil || back != u {
			t.Errorf("ParseUnit(%q) = %v, %v", u.String(), back, err)
		}
		l, err := measure.ParseLength("1 " + u.String())
		if err != nil || l != u.PerUnit() {
			t.Errorf("1 %v = %v, %v", u, l, err)
		}
	}
	for _, s := range []string{"", "x", "M", "NM", "mm mm", "2 mm", "no unit", strings.Repeat("m", 100)} {
		u, err := measure.ParseUnit(s)
		if !errors.Is(err, measure.ErrNoUnit) {
			t.Errorf("ParseUnit(%q) = %v, %v", s, u, err)
		}
	}
	for s, want := range map[string]string{"in.) x": ") x", " mm x": "x", "x": "x", `"/in`: "/in", "mmm": "mmm"} {
		if _, rest := measure.ScanUnit(s); rest != want {
			t.Errorf("ScanUnit(%q) leaves %q; want %q", s, rest, want)
		}
	}
}

func TestFold(t *testing.T) {
	for s, want := range map[string]string{
		"13.6 mm": "13.6 mm", "１３．６　ｍｍ": "13.6 mm", "φ13\u00a0−\t½″": "⌀13 - ½\"", "ISO 2768–m": "ISO 2768-m", "": "",
	} {
		if got := measure.Fold(s); got != want {
			t.Errorf("Fold(%q) = %q; want %q", s, got, want)
		}
	}
}

// anyLength draws lengths of every magnitude, with the ends of the range.
func anyLength() *rapid.Generator[measure.Length] {
	return rapid.Custom(func(t *rapid.T) measure.Length {
		if rapid.IntRange(0, 19).Draw(t, "extreme") == 0 {
			return rapid.SampledFrom([]measure.Length{measure.MaxLength, measure.MaxLength.Neg(), measure.Picometres(1), measure.Picometres(-1), {}}).Draw(t, "length")
		}
		return measure.Picometres(rapid.Int64Range(-1_000_000*mm, 1_000_000*mm).Draw(t, "pm"))
	})
}

func TestLengthRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		back, err := measure.ParseLength(l.String())
		if err != nil || back != l {
			t.Fatalf("%d pm is %q and came back as %v, %v", l.Picometres(), l, back, err)
		}
		text, err := l.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var u measure.Length
		if err := u.UnmarshalText(text); err != nil || u != l {
			t.Fatalf("%q came back as %v, %v", text, u, err)
		}
	})
}

func TestUnmarshalTextKeepsTheOldOnError(t *testing.T) {
	l := measure.Millimetres(1)
	if err := l.UnmarshalText([]byte("13.6")); !errors.Is(err, measure.ErrNoUnit) || l != measure.Millimetres(1) {
		t.Errorf("%v, %v", l, err)
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"13.6 mm", `.535"`, `1-1/4 in`, `1 1/4"`, "½ in", "1⁄64 in", "⅟64 in", "１３．６ｍｍ", "13,6 mm", "1,250 mm", "Ø 13.6 mm", "− 1 m", "370 thou", "1000 m", "0.0000000001 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := measure.ParseLength(s)
		if err != nil {
			p := (*measure.ParseError)(nil)
			if !errors.As(err, &p) || p.Input != s || !strings.HasSuffix(s, p.Rest) {
				t.Fatalf("ParseLength(%q): %#v", s, err)
			}
			return
		}
		if back, err := measure.ParseLength(l.String()); err != nil || back != l {
			t.Fatalf("%q = %v came back as %v, %v", s, l, back, err)
		}
		// A Dim of the same text is the same length.
		if d, err := measure.ParseDim(s); err != nil || d != measure.Nominal(l) {
			t.Fatalf("ParseDim(%q) = %v, %v; want %v", s, d, err, l)
		}
	})
}

func TestAllocations(t *testing.T) {
	for _, s := range []string{"13.6 mm", `1-1/4"`, "Ø１３．６ｍｍ"} {
		if n := testing.AllocsPerRun(100, func() { _, _ = measure.ParseLength(s) }); n != 0 {
			t.Errorf("ParseLength(%q) allocates %v times", s, n)
		}
	}
	l := measure.Micrometres(13_600)
	if n := testing.AllocsPerRun(100, func() { _ = l.String() }); n > 1 {
		t.Errorf("String allocates %v times", n)
	}
}

func BenchmarkParseLength(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := measure.ParseLength("13.6 mm"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLengthString(b *testing.B) {
	b.ReportAllocs()
	l := measure.Micrometres(13_600)
	for b.Loop() {
		_ = l.String()
	}
}
