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

func TestParseDim(t *testing.T) {
	limits := func(nominal, lower, upper string) measure.Dim {
		n := length(t, nominal)
		return measure.WithDeviations(n, length(t, lower).Sub(n), length(t, upper).Sub(n))
	}
	tests := map[string]measure.Dim{
		"13.6 mm":                   measure.Nominal(length(t, "13.6 mm")),
		"Ø.535\"":                   measure.Nominal(length(t, ".535 in")),
		"1-1/4 in":                  measure.Nominal(length(t, "1.25 in")),
		"13.6 ±0.05 mm":             limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6mm ±0.05mm":            limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6 mm ±0.05":             limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6mm +/-0.05mm":          limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6 +- 0.05 mm":           limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6 (±0.05) mm":           limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6 mm (±0.05 mm)":        limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"１３．６±０．０５ｍｍ":               limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13,6 ±0,05 mm":             limits("13.6 mm", "13.55 mm", "13.65 mm"),
		"13.6 mm ±50 µm":            limits("13.6 mm", "13.55 mm", "13.65 mm"),
		`.535" ± .002"`:             limits(".535 in", ".533 in", ".537 in"),
		`.535 ± .002"`:              limits(".535 in", ".533 in", ".537 in"),
		`.535" ± 2 thou`:            limits(".535 in", ".533 in", ".537 in"),
		`1/2" ± 1/64"`:              limits(".5 in", "31/64 in", "33/64 in"),
		"535 thou ± 2":              limits(".535 in", ".533 in", ".537 in"),
		"13.60 +0.00/-0.10 mm":      limits("13.6 mm", "13.5 mm", "13.6 mm"),
		"13.60 +0.00 / −0.10 mm":    limits("13.6 mm", "13.5 mm", "13.6 mm"),
		"13.60 -0.10/+0.00 mm":      limits("13.6 mm", "13.5 mm", "13.6 mm"),
		"13.60 0/-0.10 mm":          limits("13.6 mm", "13.5 mm", "13.6 mm"),
		"13.60 +0.10/0 mm":          limits("13.6 mm", "13.6 mm", "13.7 mm"),
		"13.60 (+0.00, -0.10) mm":   limits("13.6 mm", "13.5 mm", "13.6 mm"),
		"13.6mm +0.05mm -0.10mm":    limits("13.6 mm", "13.5 mm", "13.65 mm"),
		"13,60 +0,00/-0,10 mm":      limits("13.6 mm", "13.5 mm", "13.6 mm"),
		".535 +.000 -.002 in":       limits(".535 in", ".533 in", ".535 in"),
		".535+.000-.002 in":         limits(".535 in", ".533 in", ".535 in"),
		"12 -0.016/-0.034 mm":       limits("12 mm", "11.966 mm", "11.984 mm"), // ISO 286-1 f7: both below
		"12 +0.029/+0.018 mm":       limits("12 mm", "12.018 mm", "12.029 mm"), // ISO 286-1 p6: both above
		"13.5~13.7 mm":              limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.7~13.5 mm":              limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5～13.7mm":               limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5〜13.7mm":               limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5÷13.7 mm":              limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5 – 13.7 mm":            limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5—13.7 mm":              limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5-13.7 mm":              limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13-14 mm":                  limits("13.5 mm", "13 mm", "14 mm"),
		"13.5 to 13.7 mm":           limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5mm to 13.7mm":          limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13.5…13.7 mm":              limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"13...14 mm":                limits("13.5 mm", "13 mm", "14 mm"),
		"13.5 .. 13.7 mm":           limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"Ø13.5-Ø13.7 mm":            limits("13.6 mm", "13.5 mm", "13.7 mm"),
		"-0.1~0.1 mm":               limits("0 mm", "-0.1 mm", "0.1 mm"),
		".370/.372 in":              limits(".371 in", ".370 in", ".372 in"),
		"370-372 thou":              limits(".371 in", ".370 in", ".372 in"),
		`.370"/.372"`:               limits(".371 in", ".370 in", ".372 in"),
		"12/12.5 mm":                limits("12.25 mm", "12 mm", "12.5 mm"),
		"1/2-3/4 in":                limits("5/8 in", "1/2 in", "3/4 in"),
		"13.5 mm - .54 in":          limits("13.608 mm", "13.5 mm", "13.716 mm"),
		"1/2 in":                    measure.Nominal(length(t, ".5 in")),
		"0 ±0 mm":                   measure.Exactly(measure.Length{}),
		".535 -.001 -.003 in":       limits(".535 in", ".532 in", ".534 in"),
		"0 ±1000 m":                 limits("0 m", "-1000 m", "1000 m"),
		"0.000000001~0.000000002mm": limits("2 pm", "1 pm", "2 pm"),
	}
	for s, want := range tests {
		got, err := measure.ParseDim(s)
		if err != nil || got != want {
			t.Errorf("ParseDim(%q) = %v, %v; want %v", s, got, err, want)
		}
	}
}

func TestParseDimErrors(t *testing.T) {
	for s, is := range map[string]error{
		"": measure.ErrNoNumber, "mm": measure.ErrNoNumber, "± 0.05 mm": measure.ErrNoNumber, "13.6 ± mm": measure.ErrNoNumber, "13.6 ~ mm": measure.ErrNoNumber,
		"13.6": measure.ErrNoUnit, "13.6 ±0.05": measure.ErrNoUnit, "13.60 +0.00/-0.10": measure.ErrNoUnit, "13.5-13.7": measure.ErrNoUnit, ".370/.372": measure.ErrNoUnit, "13.6 ±0.05 x": measure.ErrNoUnit,
		// What 13.6 is in, the unit of the tolerance does not say.
		"13.6 ±50 µm": measure.ErrAmbiguous, "13.6 +50/-20 um": measure.ErrAmbiguous, ".535 ±2 thou": measure.ErrAmbiguous,
		// Limits the wrong way round, or one deviation.
		"13.7-13.5 mm": measure.ErrAmbiguous, "13.6 -0.1 mm": measure.ErrAmbiguous, "13.5-13.6-13.7 mm": measure.ErrAmbiguous, "13.5 - 13.6 - 13.7 mm": measure.ErrAmbiguous, "1,250 ±0.05 mm": measure.ErrAmbiguous,
		"13.6 ±2000 m": measure.ErrRange, "1000 m ±1 pm": measure.ErrRange, "13.6 ±99999999999999999999 mm": measure.ErrRange,
		"13.6 ±1/3 in": measure.ErrInexact, "1/3 in ±1 mm": measure.ErrInexact,
	} {
		_, err := measure.ParseDim(s)
		p := (*measure.ParseError)(nil)
		if !errors.Is(err, is) || !errors.As(err, &p) || p.Input != s || !strings.HasSuffix(s, p.Rest) {
			t.Errorf("ParseDim(%q): %v; want %v", s, err, is)
		}
	}
	for _, s := range []string{"13.6 +0.1 mm", "13.6 (±0.05 mm", "13.6 (13.7) mm", "13.6 ±-0.05 mm", "13.6 mm 13.7 mm", "13.6 ±0.05 mm x", "13.6 +0.1/0.05 mm", "13.6 ±0.05 ±0.06 mm", "13.6 +0.1/-0.1/-0.2 mm",
		"13.5~13.6~13.7 mm", "13.6 mm max", "not given", "13.6 ±5% mm", "13.6 (+0.1) mm"} {
		d, err := measure.ParseDim(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) {
			t.Errorf("ParseDim(%q) = %v, %v; want a ParseError", s, d, err)
		}
	}
}

func TestNotationDim(t *testing.T) {
	mm := measure.Notation{Unit: measure.Millimetre, Comma: measure.DecimalComma}
	for s, want := range map[string]string{
		"13.6":                "13.6 mm",
		"13.6 ±0.05":          "13.6 ±0.05 mm",
		"13.6 ±50 µm":         "13.6 ±0.05 mm", // the size is in the notation's unit
		"13,600 +0,000/-,100": "13.6 +0/-0.1 mm",
		"13.5~13.7":           "13.6 ±0.1 mm",
		`.535 ±.002"`:         "13.589 ±0.0508 mm",
		`.535" ±.002`:         "13.589 ±0.0508 mm",
	} {
		d, err := mm.ParseDim(s)
		if err != nil || d.String() != want {
			t.Errorf("%q in mm = %v, %v; want %s", s, d, err, want)
		}
	}
}

func TestDimString(t *testing.T) {
	tests := map[string]measure.Dim{
		"not given":           {},
		"13.6 mm":             measure.Nominal(length(t, "13.6 mm")),
		"13.6 ±0 mm":          measure.Exactly(length(t, "13.6 mm")),
		"13.6 ±0.05 mm":       measure.PlusMinus(length(t, "13.6 mm"), length(t, "-0.05 mm")),
		"13.6 +0/-0.1 mm":     measure.WithDeviations(length(t, "13.6 mm"), length(t, "-0.1 mm"), measure.Length{}),
		"12 -0.016/-0.034 mm": measure.WithDeviations(length(t, "12 mm"), length(t, "-0.016 mm"), length(t, "-0.034 mm")),
		"0 mm":                measure.Nominal(measure.Length{}),
	}
	for want, d := range tests {
		if got := d.String(); got != want {
			t.Errorf("String = %q; want %q", got, want)
		}
	}
}

// anyDim draws dimensions of every kind, also with limits at the ends of the range.
func anyDim() *rapid.Generator[measure.Dim] {
	return rapid.Custom(func(t *rapid.T) measure.Dim {
		a, b, c := anyLength().Draw(t, "a"), anyLength().Draw(t, "b"), anyLength().Draw(t, "c")
		var d measure.Dim
		switch rapid.IntRange(0, 5).Draw(t, "kind") {
		case 0:
			return d
		case 1:
			d = measure.Nominal(a)
		case 2:
			d = measure.Exactly(a)
		case 3:
			d = measure.PlusMinus(a, b)
		case 4:
			d = measure.Between(a, b)
		case 5:
			d = measure.WithDeviations(a, b, c)
		}
		shape := rapid.SampledFrom([]measure.Shape{measure.Normal, measure.Uniform, measure.Triangular}).Draw(t, "shape")
		origin := rapid.SampledFrom([]measure.Origin{measure.Stated, measure.General, measure.Class, measure.Default, measure.Measured, measure.Learned}).Draw(t, "origin")
		return d.WithShape(shape).WithOrigin(origin)
	})
}

func TestDimRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDim().Draw(t, "d")
		data, err := json.Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		var fromJSON measure.Dim
		if err := json.Unmarshal(data, &fromJSON); err != nil || fromJSON != d {
			t.Fatalf("%s came back as %v, %v", data, fromJSON, err)
		}
		text, err := d.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var fromText measure.Dim
		if err := fromText.UnmarshalText(text); err != nil || fromText.WithShape(d.Shape()).WithOrigin(d.Origin()) != d {
			t.Fatalf("%q came back as %v, %v", text, fromText, err)
		}
		if !d.Given() {
			return
		}
		back, err := measure.ParseDim(d.String())
		if err != nil || back != d.WithShape(measure.Normal).WithOrigin(measure.Stated) {
			t.Fatalf("%v came back as %v, %v", d, back, err)
		}
	})
}

// The deviations of this one are beyond the range of a Length.
func TestDimRoundTripAcrossTheRange(t *testing.T) {
	var d measure.Dim
	if err := json.Unmarshal([]byte(`{"nominal":"1000 m","lower":"-1000 m","upper":"1000 m"}`), &d); err != nil {
		t.Fatal(err)
	}
	if got := d.String(); got != "1000000 +0/-2000000 mm" {
		t.Error(got)
	}
	if back, err := measure.ParseDim(d.String()); err != nil || back != d {
		t.Errorf("%v came back as %v, %v", d, back, err)
	}
}

func TestDimLimitsAreInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDim().Draw(t, "d")
		if d.Upper().Less(d.Lower()) || d.Middle().Less(d.Lower()) || d.Upper().Less(d.Middle()) {
			t.Fatalf("%v: %v, %v, %v", d, d.Lower(), d.Middle(), d.Upper())
		}
	})
}

func TestDimJSON(t *testing.T) {
	d := dim(t, "13.6 ±0.05 mm").WithShape(measure.Uniform).WithOrigin(measure.Default)
	const want = `{"nominal":"13.6 mm","lower":"13.55 mm","upper":"13.65 mm","shape":"uniform","origin":"default"}`
	if data, err := json.Marshal(d); err != nil || string(data) != want {
		t.Errorf("%s, %v; want %s", data, err, want)
	}
	reads := map[string]measure.Dim{
		`null`:                  {},
		`""`:                    {},
		`"13.6 ±0.05 mm"`:       dim(t, "13.6 ±0.05 mm"),
		`{"nominal":"13.6 mm"}`: dim(t, "13.6 mm"),
		`{"nominal":"12 mm","lower":"11.966 mm","upper":"11.984 mm","origin":"class"}`: dim(t, "12 -0.016/-0.034 mm").WithOrigin(measure.Class),
	}
	for data, want := range reads {
		got := dim(t, "1 mm")
		if err := json.Unmarshal([]byte(data), &got); err != nil || got != want {
			t.Errorf("%s = %v, %v; want %v", data, got, err, want)
		}
	}
	for _, data := range []string{`{}`, `{"lower":"1 mm","upper":"2 mm"}`, `{"nominal":"1 mm","lower":"1 mm"}`, `{"nominal":"1 mm","upper":"1 mm"}`, `{"nominal":"1 mm","lower":"2 mm","upper":"1 mm"}`} {
		got := dim(t, "1 mm")
		e := (*measure.DimError)(nil)
		if err := json.Unmarshal([]byte(data), &got); !errors.As(err, &e) || got != dim(t, "1 mm") {
			t.Errorf("%s = %v, %v; want a DimError", data, got, err)
		}
	}
	for _, data := range []string{`13.6`, `"13.6"`, `{"nominal":13.6}`, `{"nominal":"13.6"}`, `{"nominal":"1 mm","shape":"round"}`, `{"nominal":"1 mm","origin":"hearsay"}`, `[]`, `true`} {
		got := dim(t, "1 mm")
		if err := json.Unmarshal([]byte(data), &got); err == nil || got != dim(t, "1 mm") {
			t.Errorf("%s = %v, and no error", data, got)
		}
	}
}

func TestShapeAndOriginText(t *testing.T) {
	e := (*measure.NameError)(nil)
	for i, name := range []string{"normal", "uniform", "triangular"} {
		var s measure.Shape
		if err := s.UnmarshalText([]byte(name)); err != nil || s != measure.Shape(i) || s.String() != name {
			t.Errorf("%s = %v, %v", name, s, err)
		}
	}
	for i, name := range []string{"stated", "general", "class", "default", "measured", "learned"} {
		var o measure.Origin
		if err := o.UnmarshalText([]byte(name)); err != nil || o != measure.Origin(i) || o.String() != name {
			t.Errorf("%s = %v, %v", name, o, err)
		}
	}
	if _, err := measure.Shape(9).MarshalText(); !errors.As(err, &e) {
		t.Errorf("Shape 9: %v", err)
	}
	if _, err := measure.Origin(9).MarshalText(); !errors.As(err, &e) {
		t.Errorf("Origin 9: %v", err)
	}
	if s := measure.Shape(9).String(); s != "unknown (9)" {
		t.Error(s)
	}
}

// Limits that must not be violated are converted and then rounded inward (ANSI/IEEE 268 and ASME Y14.5, quoted at
// tec-ease.com/premium/gdt-tips-view.php?q=65, with 11 ±0.3 mm = 0.421259 to 0.444881 in and the nearest 0.421/0.445 as
// the error). The other pairs are computed from the same rule.
func TestFormatLimits(t *testing.T) {
	inches, millimetres := measure.Dim.FormatLimitsInches, measure.Dim.FormatLimitsMillimetres
	tests := []struct {
		format       func(measure.Dim, int) (string, string, bool)
		dim          string
		decimals     int
		lower, upper string
		ok           bool
	}{
		{inches, "11 ±0.3 mm", 3, "0.422", "0.444", true},
		{inches, "11 ±0.3 mm", 6, "0.421260", "0.444881", true},
		{millimetres, ".3690~.3710 in", 2, "9.38", "9.42", true},
		{millimetres, ".3535~.3565 in", 2, "8.98", "9.05", true},
		{millimetres, "13.6 ±0.05 mm", 2, "13.55", "13.65", true},
		{millimetres, "13.6 ±0.05 mm", 1, "13.6", "13.6", true},
		{millimetres, "13.65 ±0.02 mm", 1, "", "", false},
		{inches, "13.6 ±0.005 mm", 3, "", "", false},
		{millimetres, "-11.26 ±0.05 mm", 1, "-11.3", "-11.3", true},
		{millimetres, "0 ±0.04 mm", 1, "0.0", "0.0", true},
		{millimetres, "13.6 mm", 1, "", "", false},
	}
	for _, tt := range tests {
		lower, upper, ok := tt.format(dim(t, tt.dim), tt.decimals)
		if lower != tt.lower || upper != tt.upper || ok != tt.ok {
			t.Errorf("%s to %d decimals = %q, %q, %v; want %q, %q, %v", tt.dim, tt.decimals, lower, upper, ok, tt.lower, tt.upper, tt.ok)
		}
	}
	lower, upper, _ := dim(t, "11 ±0.3 mm").FormatLimitsInches(3)
	if lower == "0.421" || upper == "0.445" {
		t.Error("11 ±0.3 mm is rounded outward, to 0.421/0.445 in")
	}
	if _, _, ok := (measure.Dim{}).FormatLimitsInches(3); ok {
		t.Error("a dimension that was not given has limits")
	}
}

func TestFormatLimitsStayInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := measure.Between(anyLength().Draw(t, "a"), anyLength().Draw(t, "b"))
		lower, upper, ok := d.FormatLimitsMillimetres(rapid.IntRange(0, 9).Draw(t, "decimals"))
		if !ok {
			return
		}
		lo, err := measure.ParseLength(lower + " mm")
		if err != nil {
			t.Fatal(err)
		}
		hi, err := measure.ParseLength(upper + " mm")
		if err != nil {
			t.Fatal(err)
		}
		if !d.Limits().Contains(lo) || !d.Limits().Contains(hi) || hi.Less(lo) {
			t.Fatalf("%v is printed as %s to %s", d, lower, upper)
		}
	})
}

// JCGM 100:2008, 4.3.7 (uniform: half-width over √3) and 4.3.9 (triangular: half-width over √6).
func TestSigma(t *testing.T) {
	d := dim(t, "13.6 ±0.06 mm")
	for shape, want := range map[measure.Shape]float64{measure.Normal: 0.02, measure.Uniform: 0.06 / math.Sqrt(3), measure.Triangular: 0.06 / math.Sqrt(6)} {
		if got := d.WithShape(shape).Sigma(); math.Abs(got-want) > 1e-14 {
			t.Errorf("%v: sigma %v; want %v", shape, got, want)
		}
	}
	if got := dim(t, "13.6 mm").Sigma(); got != 0 {
		t.Errorf("without limits: sigma %v", got)
	}
}

func TestValidate(t *testing.T) {
	for _, s := range []string{"13.6 mm", "13.6 ±0.05 mm", "12 -0.016/-0.034 mm", "0 mm"} {
		if err := dim(t, s).Validate(); err != nil {
			t.Error(err)
		}
	}
	e := (*measure.DimError)(nil)
	if err := (measure.Dim{}).Validate(); !errors.Is(err, measure.ErrNotGiven) || !errors.As(err, &e) {
		t.Errorf("not given: %v", err)
	}
	for _, d := range []measure.Dim{measure.Nominal(measure.MaxLength), measure.PlusMinus(measure.Millimetres(1), measure.MaxLength), measure.Nominal(measure.MaxLength.Neg())} {
		if err := d.Validate(); !errors.Is(err, measure.ErrRange) || !errors.As(err, &e) || e.Dim != d {
			t.Errorf("%v: %v", d, err)
		}
	}
}

func FuzzParseDim(f *testing.F) {
	for _, s := range []string{"13.6 ±0.05 mm", `.535" ± .002"`, "13.60 +0.00/-0.10 mm", ".535 +.000 -.002 in", "13.5~13.7 mm", "13.5 – 13.7 mm", "13-14 mm", "13.5 to 13.7 mm", "13...14 mm", ".370/.372 in",
		"12 -0.016/-0.034 mm", "13.6 (±0.05) mm", "13.6 mm ±50 µm", "12 0/-0.1 mm", "1/2-3/4 in", "0 ±1000 m"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := measure.ParseDim(s)
		if err != nil {
			p := (*measure.ParseError)(nil)
			if !errors.As(err, &p) || p.Input != s || !strings.HasSuffix(s, p.Rest) {
				t.Fatalf("ParseDim(%q): %#v", s, err)
			}
			return
		}
		if d.Upper().Less(d.Lower()) {
			t.Fatalf("%q = %v", s, d)
		}
		if back, err := measure.ParseDim(d.String()); err != nil || back != d {
			t.Fatalf("%q = %v came back as %v, %v", s, d, back, err)
		}
		// What reads without a notation reads the same with one.
		if same, err := (measure.Notation{Unit: measure.Inch}).ParseDim(s); err != nil || same != d {
			t.Fatalf("%q = %v, in a column of inches %v, %v", s, d, same, err)
		}
	})
}

func BenchmarkParseDim(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := measure.ParseDim("13.60 +0.00/-0.10 mm"); err != nil {
			b.Fatal(err)
		}
	}
}
