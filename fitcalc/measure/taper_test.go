package measure_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"pgregory.net/rapid"
)

func TestParseTaper(t *testing.T) {
	tests := map[string]int64{ // parts per billion
		".0075 in/in":       7_500_000,
		`0.0075"/in`:        7_500_000,
		`0.0075"/"`:         7_500_000,
		".0075 in per inch": 7_500_000,
		"7.5 thou/in":       7_500_000,
		"0,0075 mm/mm":      7_500_000,
		"7.5 mm/m":          7_500_000,
		"0.1 mm per 10 mm":  10_000_000,
		"5/8 in/ft":         52_083_333, // 0.0520833…
		"1/2 in per foot":   41_666_667,
		"0.60235 in/ft":     50_195_833,
		"1:20":              50_000_000,
		"1 : 19.212":        52_050_802, // 1/19.212 = 0.05205080…
		"0 in/in":           0,
		"-.0075 in/in":      -7_500_000,
		"1000 in/in":        1_000_000_000_000,
	}
	for s, want := range tests {
		got, err := measure.ParseTaper(s)
		if err != nil || got.PPB() != want {
			t.Errorf("ParseTaper(%q) = %d ppb, %v; want %d", s, got.PPB(), err, want)
		}
	}
	for s, is := range map[string]error{
		"": measure.ErrNoNumber, ".0075": measure.ErrNoUnit, ".0075 in": measure.ErrNoUnit, "1/20": measure.ErrNoUnit, ".0075 in/": measure.ErrNoUnit,
		".0075 in/x": measure.ErrNoUnit, "1001 in/in": measure.ErrRange, "1 in/0 in": measure.ErrRange, "1:0": measure.ErrRange, "1000 m/pm": measure.ErrRange,
	} {
		_, err := measure.ParseTaper(s)
		p := (*measure.ParseError)(nil)
		if !errors.Is(err, is) || !errors.As(err, &p) || p.Input != s {
			t.Errorf("ParseTaper(%q): %v; want %v", s, err, is)
		}
	}
	for _, s := range []string{"1:20 x", ".0075 in/in/in", "1 mm:20", "1:"} {
		taper, err := measure.ParseTaper(s)
		if p := (*measure.ParseError)(nil); !errors.As(err, &p) {
			t.Errorf("ParseTaper(%q) = %v, %v; want a ParseError", s, taper, err)
		}
	}
}

// Morse tapers: taper per foot, ends and depth from engineersedge.com, morse_taper_shanks_dimensions_table_13465; half
// angles in degrees from laymar-crafts.co.uk/info5.htm. The table's taper per inch is cut to five places, .05019
// for .60235/12 = .050196, so it is derived here from the taper per foot, and the printed one must not come out.
func TestMorseTapers(t *testing.T) {
	tests := []struct {
		perFoot, printedPerInch string
		small, large            string
		depth                   string
		halfAngle               float64 // published; 0 where it is not
	}{
		{".62460 in", "", ".252 in", ".3561 in", "2 in", 0},
		{".59858 in", ".04988 in", ".369 in", ".475 in", "2-1/8 in", 1.4287},
		{".59941 in", ".04995 in", ".572 in", ".700 in", "2-9/16 in", 1.4307},
		{".60235 in", ".05019 in", ".778 in", ".938 in", "3-3/16 in", 1.4377},
		{".62326 in", ".05193 in", "1.020 in", "1.231 in", "4-1/16 in", 1.4876},
		{".63151 in", ".05262 in", "1.475 in", "1.748 in", "5-3/16 in", 1.5073},
		{".62565 in", ".05213 in", "2.116 in", "2.494 in", "7-1/4 in", 1.4933},
		{".62400 in", "", "2.750 in", "3.270 in", "10 in", 0},
	}
	for number, tt := range tests {
		taper := measure.TaperPerFoot(length(t, tt.perFoot))
		half := taper.HalfAngle() * 180 / math.Pi
		if tt.halfAngle != 0 && math.Abs(half-tt.halfAngle) > 0.00006 {
			t.Errorf("MT%d: half angle %.5f°; published %v°", number, half, tt.halfAngle)
		}
		if taper.IncludedAngle() != 2*taper.HalfAngle() {
			t.Errorf("MT%d: the included angle is not twice the half angle", number)
		}
		// The ends are printed to a thousandth.
		want := length(t, tt.large).Sub(length(t, tt.small))
		if off := taper.Growth(length(t, tt.depth)).Sub(want).Abs(); measure.Thou(1).Less(off) {
			t.Errorf("MT%d: grows by %v over the depth; the ends differ by %v", number, taper.Growth(length(t, tt.depth)), want)
		}
		if tt.printedPerInch != "" && measure.TaperPerInch(length(t, tt.printedPerInch)) == taper {
			t.Errorf("MT%d: the truncated taper per inch came out", number)
		}
	}
	// .60235/12 = .0501958…
	if got := measure.TaperPerFoot(length(t, ".60235 in")).PPB(); got != 50_195_833 {
		t.Errorf("MT3 = %d ppb", got)
	}
}

func TestIncludedAngle(t *testing.T) {
	degrees := func(x float64) float64 { return x * 180 / math.Pi }
	// 5/8 in per foot is 1°29'30.27" per side; 1°29'26.63" is also in print, and wrong.
	taper, err := measure.ParseTaper("5/8 in/ft")
	if err != nil {
		t.Fatal(err)
	}
	a, err := measure.ParseAngle(`1°29'30.27"`)
	if err != nil {
		t.Fatal(err)
	}
	if got := degrees(taper.HalfAngle()); math.Abs(got-a.Degrees()) > 0.005/3600+1e-7 {
		t.Errorf("5/8 in per foot: %v° per side; want %v", got, a)
	}
	if got := degrees(taper.IncludedAngle()); math.Abs(got-2.983481) > 1e-6 {
		t.Errorf("5/8 in per foot: %v° included", got)
	}
	// From 10 to 5 over 20: 2 atan(.125) = 14.250033°, not atan(.25) = 14.036°.
	taper = measure.TaperOver(measure.Millimetres(5), measure.Millimetres(20))
	if got := degrees(taper.IncludedAngle()); math.Abs(got-14.250033) > 1e-6 {
		t.Errorf("5 over 20: %v° included", got)
	}
	// .218 to .146 over .758: 2.71913° per side, not the atan(T)/2 = 2.71303° that is also in use.
	taper = measure.TaperOver(length(t, ".072 in"), length(t, ".758 in"))
	if got := degrees(taper.HalfAngle()); math.Abs(got-2.71913) > 1e-5 {
		t.Errorf(".072 over .758: %v° per side", got)
	}
}

// Common practice: a taper tip grows from .355 in to .370 in over two inches.
func TestGrowth(t *testing.T) {
	taper := measure.TaperPerInch(length(t, ".0075 in"))
	if taper.PPB() != 7_500_000 || taper.Ratio() != .0075 {
		t.Errorf("%v", taper)
	}
	if got := length(t, ".355 in").Add(taper.Growth(length(t, "2 in"))); got != length(t, ".370 in") {
		t.Errorf("after two inches %v", got)
	}
	if got := taper.Growth(length(t, "-2 in")); got != length(t, "-.015 in") {
		t.Errorf("two inches back %v", got)
	}
	if !(measure.Taper{}).IsZero() || measure.TaperPPB(math.MaxInt64).PPB() != 1_000_000_000_000 || measure.TaperPPB(math.MinInt64).PPB() != -1_000_000_000_000 {
		t.Error("the ends of the range")
	}
}

func TestTaperRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		taper := measure.TaperPPB(rapid.Int64().Draw(t, "ppb"))
		back, err := measure.ParseTaper(taper.String())
		if err != nil || back != taper {
			t.Fatalf("%v came back as %v, %v", taper, back, err)
		}
		data, err := json.Marshal(taper)
		if err != nil {
			t.Fatal(err)
		}
		var u measure.Taper
		if err := json.Unmarshal(data, &u); err != nil || u != taper {
			t.Fatalf("%s came back as %v, %v", data, u, err)
		}
	})
}
