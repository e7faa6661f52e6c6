package limits_test

import (
	"errors"
	"fmt"
	"testing"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
)

func TestParseDim(t *testing.T) {
	tests := []struct {
		text   string
		want   string // as Dim.String gives it
		origin measure.Origin
	}{
		{"12 h9", "12 +0/-0.043 mm", measure.Class},
		{"12h9", "12 +0/-0.043 mm", measure.Class},
		{"12 mm h9", "12 +0/-0.043 mm", measure.Class},
		{"12mm h 9", "12 +0/-0.043 mm", measure.Class},
		{"Ø12 H 9", "12 +0.043/+0 mm", measure.Class},
		{"１２　Ｈ９", "12 +0.043/+0 mm", measure.Class},
		{"9.4 H7", "9.4 +0.015/+0 mm", measure.Class},
		{"9,4 H7", "9.4 +0.015/+0 mm", measure.Class},
		{"12 m6", "12 +0.018/+0.007 mm", measure.Class},
		{"12 m 6", "12 +0.018/+0.007 mm", measure.Class},
		{"8 js9", "8 ±0.018 mm", measure.Class},
		{"8 js7", "8 ±0.0075 mm", measure.Class},
		{"13.6 IT11", "13.6 ±0.055 mm", measure.Class},
		{"13.6 mm it 11", "13.6 ±0.055 mm", measure.Class},
		{"13.6 ±IT11/2", "13.6 ±0.055 mm", measure.Class},
		{`.5" h9`, "12.7 +0/-0.043 mm", measure.Class},
		{`1/2 in h9`, "12.7 +0/-0.043 mm", measure.Class},
		{"13.6 ISO 2768-m", "13.6 ±0.2 mm", measure.General},
		{"13.6 mm ISO 2768-f", "13.6 ±0.1 mm", measure.General},
		{"13.6 mm", "13.6 mm", measure.Stated},
		{"13.6 ±0.05 mm", "13.6 ±0.05 mm", measure.Stated},
		{"13.5~13.7 mm", "13.6 ±0.1 mm", measure.Stated},
		{"12 m", "12000 mm", measure.Stated},
	}
	for _, tt := range tests {
		d, err := limits.ParseDim(tt.text)
		if err != nil || d.String() != tt.want || d.Origin() != tt.origin {
			t.Errorf("ParseDim(%q) = %v (%v), %v; want %s (%v)", tt.text, d, d.Origin(), err, tt.want, tt.origin)
		}
	}
}

func TestParseDimIn(t *testing.T) {
	inches := measure.Notation{Unit: measure.Inch}
	d, err := limits.ParseDimIn(inches, ".5 h9")
	if err != nil || d.String() != "12.7 +0/-0.043 mm" {
		t.Errorf(".5 h9 in inches: %v, %v", d, err)
	}
	d, err = limits.ParseDimIn(inches, ".535 ±.002")
	if err != nil || d.String() != "13.589 ±0.0508 mm" {
		t.Errorf(".535 ±.002 in inches: %v, %v", d, err)
	}
	d, err = limits.ParseDimIn(measure.Notation{Unit: measure.Millimetre, Comma: measure.DecimalComma}, "12,700 h9")
	if err != nil || d.String() != "12.7 +0/-0.043 mm" {
		t.Errorf("12,700 h9 with a decimal comma: %v, %v", d, err)
	}
}

func TestParseDimErrors(t *testing.T) {
	unsupported := new(limits.UnsupportedError)
	for _, s := range []string{"12 z9", "12 h4", "12 h15", "60 h9", "0 h9", "13.6 IT4", "12 zc9", "0.4 ISO 2768-m", "2 ISO 2768-v"} {
		_, err := limits.ParseDim(s)
		p := (*measure.ParseError)(nil)
		if !errors.As(err, &p) || p.Input != s || !errors.As(err, &unsupported) {
			t.Errorf("ParseDim(%q): %v", s, err)
		}
	}
	for s, cause := range map[string]error{
		"1/2 h9":    measure.ErrNoUnit,
		"13.6":      measure.ErrNoUnit,
		"":          measure.ErrNoNumber,
		"h9":        measure.ErrNoNumber,
		"1,250 h9":  measure.ErrAmbiguous,
		"2000 m h9": measure.ErrRange,
	} {
		if _, err := limits.ParseDim(s); !errors.Is(err, cause) {
			t.Errorf("ParseDim(%q): %v; want %v", s, err, cause)
		}
	}
	for _, s := range []string{"9.4 H7/k6", "12 h9 x", "13.6 IT11 mm", "13.6 ±IT11", "1 in 5", "12 h", "13.6 ISO 2768", "12 h999"} {
		d, err := limits.ParseDim(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) {
			t.Errorf("ParseDim(%q) = %v, %v; want a ParseError", s, d, err)
		}
	}
}

func TestParseFitErrors(t *testing.T) {
	for _, s := range []string{"", "9.4", "9.4 H7", "9.4 H7/", "9.4 k6/H7", "9.4 H7/H7", "9.4 H7k6", "60 H7/k6", "9.4 H7/k6/m6", "9.4 H7/z6", "1/2 H7/h6"} {
		f, err := limits.ParseFit(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) || p.Input != s {
			t.Errorf("ParseFit(%q) = %v, %v; want a ParseError", s, f, err)
		}
	}
	for _, s := range []string{"9.4 H7/k6", "9.4 mm H7/k6", "9.4H7-k6", "Ø9,4 H7 / k6"} {
		if _, err := limits.ParseFit(s); err != nil {
			t.Error(err)
		}
	}
}

func FuzzParseDim(f *testing.F) {
	for _, s := range []string{"12 h9", "9.4 H7/k6", "13.6 IT11", "13.6 ±IT11/2", "13.6 ISO 2768-mK", "12 m6", "１２　Ｈ９", "12 GB/T 1804-m"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := limits.ParseDim(s)
		if err != nil {
			if p := (*measure.ParseError)(nil); !errors.As(err, &p) {
				t.Fatalf("%T is no ParseError: %v", err, err)
			}
			return
		}
		back, err := measure.ParseDim(d.String())
		if err != nil || back.WithOrigin(d.Origin()) != d {
			t.Fatalf("%q = %v came back as %v, %v", s, d, back, err)
		}
	})
}

func ExampleParseDim() {
	d, err := limits.ParseDim("12 h9")
	fmt.Println(d, err)
	_, err = limits.ParseDim("12 z9")
	fmt.Println(err)
	// Output:
	// 12 +0/-0.043 mm <nil>
	// dimension "12 z9": z9: no table for these letters; supported are shafts d e f g h js k m n p r s and holes D E F G H JS K M N P R S in grades 5 to 14, above 0 up to 50 mm at "z9"; write a size with its limits or class, such as 13.6 ±0.05 mm, 12 h9, 13.6 IT11 or 13.6 ISO 2768-m
}

func BenchmarkParseDim(b *testing.B) {
	for b.Loop() {
		if _, err := limits.ParseDim("12 h9"); err != nil {
			b.Fatal(err)
		}
	}
}
