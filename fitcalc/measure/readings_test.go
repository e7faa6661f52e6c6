package measure_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestParseReadings(t *testing.T) {
	three := []int64{13_580_000_000, 13_620_000_000, 13_600_000_000}
	tests := []struct {
		text string
		pm   []int64
	}{
		{"13.58, 13.62, 13.60 mm", three},
		{"13.58 mm, 13.62 mm, 13.60 mm", three},
		{"13.58 mm, 13.62, 13.60", three},
		{"13.58,13.62,13.60 mm", three},
		{"13.58; 13.62; 13.60 mm", three},
		{"13,58; 13,62; 13,60 mm", three},
		{"13,58;13,62;13,60 mm", three},
		{"13,58, 13,62, 13,60 mm", three},
		{"13,58 / 13,62 / 13,60 mm", three},
		{"13.58/13.62/13.60 mm", three},
		{"13,58/13,62/13,60 mm", three},
		{"13.58、13.62、13.60 mm", three},
		{"１３．５８；１３．６２；１３．６０ｍｍ", three},
		{"13.58，13.62，13.60 mm", three},
		{"Ø13.58, Ø13.62, Ø13.60 mm", three},
		{"1.358 cm, 13.62 mm, 13.60 mm", three}, // each its own unit
		{".535, .536 in", []int64{inch * 535 / 1000, inch * 536 / 1000}},
		{".535/.536 in", []int64{inch * 535 / 1000, inch * 536 / 1000}}, // limits to ParseDim
		{"535, 536 thou", []int64{inch * 535 / 1000, inch * 536 / 1000}},
		{"1/2, 33/64 in", []int64{inch / 2, inch * 33 / 64}},
		{`1/2" / 33/64"`, []int64{inch / 2, inch * 33 / 64}},
		{"13, 14 mm", []int64{13 * mm, 14 * mm}},
	}
	for _, tt := range tests {
		got, err := measure.ParseReadings(tt.text)
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		var pm []int64
		for _, l := range got {
			pm = append(pm, l.Picometres())
		}
		if diff := cmp.Diff(tt.pm, pm); diff != "" {
			t.Errorf("%q (-want +got):\n%s", tt.text, diff)
		}
	}
}

func TestParseReadingsRefuses(t *testing.T) {
	for text, want := range map[string]error{
		"":                       nil,
		"13.6 mm":                nil,               // one size
		"1/2 in":                 nil,               // a fraction
		"13/14 mm":               nil,               // a fraction of an unusual unit, or two sizes
		"13.7, -0.1 mm":          nil,               // a size and a deviation
		"13.60 +0.00, -0.10 mm":  nil,               // a size and two
		"13.58, 13.62, 13.60":    measure.ErrNoUnit, // no unit at all
		"13.58, 13.62, 13.60 kg": measure.ErrNoUnit, // none of length
		"13.58, , 13.60 mm":      measure.ErrNoNumber,
		"13.58, about 13.6 mm":   measure.ErrNoNumber,
		"13.58, 13.6±.01 mm":     nil, // a reading has no limits
		"13,625 / 13,580 mm":     measure.ErrAmbiguous,
		"1/3, 2/3 in":            measure.ErrInexact,
		"13.58, 9e9 km":          measure.ErrNoUnit,
	} {
		got, err := measure.ParseReadings(text)
		var parse *measure.ParseError
		if !errors.As(err, &parse) {
			t.Errorf("%q: read as %v, error %v", text, got, err)
			continue
		}
		if want != nil && !errors.Is(err, want) {
			t.Errorf("%q: %v, want %v", text, err, want)
		}
		if parse.Input != text || parse.Rest != "" && !strings.Contains(measure.Fold(text), measure.Fold(parse.Rest)) {
			t.Errorf("%q: input %q, rest %q", text, parse.Input, parse.Rest)
		}
	}
}

func TestParseReadingsTakesTheUnitFromElsewhere(t *testing.T) {
	got, err := measure.Notation{Unit: measure.Inch, Comma: measure.DecimalComma}.ParseReadings("0,535; 0,536")
	if err != nil || len(got) != 2 || got[0] != measure.Thou(535) || got[1] != measure.Thou(536) {
		t.Errorf("got %v, %v", got, err)
	}
}

// Whatever the sizes, and however they are written down, they come back.
func TestReadingsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Map(rapid.Int64Range(0, 50*mm), measure.Picometres), 2, 9).Draw(t, "sizes")
		sign := rapid.SampledFrom([]string{", ", ";", "; ", " / ", "、"}).Draw(t, "sign")
		var texts []string
		for _, l := range want {
			texts = append(texts, l.String())
		}
		got, err := measure.ParseReadings(strings.Join(texts, sign))
		if diff := cmp.Diff(want, got, cmp.Comparer(func(a, b measure.Length) bool { return a == b })); err != nil || diff != "" {
			t.Fatalf("%v, %v\n%s", texts, err, diff)
		}
	})
}
