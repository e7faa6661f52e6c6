package limits_test

import (
	"errors"
	"testing"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
)

// ISO 2768-1:1989, table 1, in µm; three reprints agree. 0 where the standard has none.
func TestGeneralTolerance(t *testing.T) {
	steps := [][]string{
		{"0.5 mm", "2 mm", "3 mm"},
		{"3.000000001 mm", "6 mm"},
		{"6.000000001 mm", "13.6 mm", "30 mm"},
		{"30.000000001 mm", "120 mm"},
		{"120.000000001 mm", "400 mm"},
		{"400.000000001 mm", "1000 mm"},
	}
	published := map[limits.GeneralClass][]int64{
		limits.Fine:       {50, 50, 100, 150, 200, 300},
		limits.Medium:     {100, 100, 200, 300, 500, 800},
		limits.Coarse:     {200, 300, 500, 800, 1200, 2000},
		limits.VeryCoarse: {0, 500, 1000, 1500, 2500, 4000},
	}
	for g, row := range published {
		for i, um := range row {
			for _, size := range steps[i] {
				got, err := limits.GeneralTolerance(g, length(t, size))
				if um == 0 {
					if u := (*limits.UnsupportedError)(nil); !errors.As(err, &u) {
						t.Errorf("%v at %s = %v, %v; want an error", g, size, got, err)
					}
					continue
				}
				if err != nil || got != measure.Micrometres(um) {
					t.Errorf("%v at %s = %v, %v; want ±%d µm", g, size, got, err, um)
				}
			}
		}
	}
}

// A copy of DIN ISO 2768-1 on the web (scribd 585640440) prints ±0.15 and ±0.2 for class c up to 6 mm.
func TestGeneralErrorIsNotReproduced(t *testing.T) {
	for size, printed := range map[string]int64{"2 mm": 150, "5 mm": 200} {
		got, err := limits.GeneralTolerance(limits.Coarse, length(t, size))
		if err != nil || got == measure.Micrometres(printed) {
			t.Errorf("class c at %s = %v, %v", size, got, err)
		}
	}
}

func TestGeneralUnsupported(t *testing.T) {
	for _, size := range []string{"0.499999999 mm", "0 mm", "-13 mm", "1000.000000001 mm"} {
		_, err := limits.GeneralTolerance(limits.Medium, length(t, size))
		if u := (*limits.UnsupportedError)(nil); !errors.As(err, &u) {
			t.Errorf("at %s: %v", size, err)
		}
	}
	for _, g := range []limits.GeneralClass{limits.NoGeneral, 5, 255} {
		if _, err := limits.GeneralTolerance(g, measure.Millimetres(12)); err == nil {
			t.Errorf("class %d has a tolerance", g)
		}
	}
}

func TestParseGeneral(t *testing.T) {
	tests := map[string]limits.GeneralClass{
		"ISO 2768-m":                 limits.Medium,
		"ISO 2768-mK":                limits.Medium,
		"ISO2768-f":                  limits.Fine,
		"iso 2768 - c":               limits.Coarse,
		"DIN ISO 2768-1 mK":          limits.Medium,
		"DIN ISO 2768-1-m":           limits.Medium,
		"DIN EN ISO 2768-1:1989 - v": limits.VeryCoarse,
		"ISO 2768 mH":                limits.Medium,
		"2768-m":                     limits.Medium,
		"ＩＳＯ　２７６８－ｍ":                 limits.Medium,
		"GB/T 1804-m":                limits.Medium,
		"GB/T 1804-2000-f":           limits.Fine,
		"JIS B 0405-m":               limits.Medium,
	}
	for s, want := range tests {
		if got, err := limits.ParseGeneral(s); err != nil || got != want {
			t.Errorf("ParseGeneral(%q) = %v, %v; want %v", s, got, err, want)
		}
	}
	for _, s := range []string{"", "ISO", "ISO 2768", "ISO 2768-", "ISO 2768-1", "ISO 2768-2", "ISO 2768-x", "ISO 2768-M", "ISO 286-m", "ISO 2768-mX", "ISO 2768-m and more", "ISO 2768-K"} {
		g, err := limits.ParseGeneral(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) || p.Input != s {
			t.Errorf("ParseGeneral(%q) = %v, %v; want a ParseError", s, g, err)
		}
	}
}

func TestGeneralText(t *testing.T) {
	for _, g := range []limits.GeneralClass{limits.NoGeneral, limits.Fine, limits.Medium, limits.Coarse, limits.VeryCoarse} {
		text, err := g.MarshalText()
		if err != nil {
			t.Error(err)
		}
		back := limits.Fine
		if err := back.UnmarshalText(text); err != nil || back != g {
			t.Errorf("%q came back as %v, %v", text, back, err)
		}
	}
	if _, err := limits.GeneralClass(9).MarshalText(); err == nil {
		t.Error("a class that is none was written")
	}
}

func TestApply(t *testing.T) {
	nominal := measure.Nominal(length(t, "13.6 mm"))
	got, err := limits.Medium.Apply(nominal.WithShape(measure.Uniform))
	want := measure.PlusMinus(length(t, "13.6 mm"), length(t, "0.2 mm")).WithOrigin(measure.General).WithShape(measure.Uniform)
	if err != nil || got != want {
		t.Errorf("Apply = %v %v, %v", got, got.Origin(), err)
	}
	stated := measure.PlusMinus(length(t, "13.6 mm"), length(t, "0.05 mm"))
	for _, d := range []measure.Dim{{}, stated} {
		if got, err := limits.Medium.Apply(d); err != nil || got != d {
			t.Errorf("Apply(%v) = %v, %v", d, got, err)
		}
	}
	if _, err := limits.Medium.Apply(measure.Nominal(length(t, "0.4 mm"))); err == nil {
		t.Error("0.4 mm has a general tolerance")
	}
}
