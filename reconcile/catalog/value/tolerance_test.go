package value

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

func TestReadTolerance(t *testing.T) {
	// Each applied to 12 mm. ISO 286-1:2010, tables 1 to 3, over 10 up to 18 mm: h9 0/-43 µm, H7 +18/0, IT11 110 µm. ISO 2768-1:1989,
	// table 1, over 6 up to 30 mm: f ±0.1, m ±0.2.
	for _, test := range []struct {
		text, unit, want string
	}{
		{"±0.05", "mm", "12 ±0.05 mm"}, {"± 0,05 mm", "", "12 ±0.05 mm"}, {"+/- .002", "in", "12 ±0.0508 mm"}, {`±.002"`, "mm", "12 ±0.0508 mm"}, {"+-0.1", "mm", "12 ±0.1 mm"}, {"±50 µm", "mm", "12 ±0.05 mm"}, {"±2 thou", "", "12 ±0.0508 mm"},
		{"+0/-0.1", "mm", "12 +0/-0.1 mm"}, {"0/-0.1", "mm", "12 +0/-0.1 mm"}, {"+0.1 / 0", "mm", "12 +0.1/+0 mm"}, {"+.000 -.002", "in", "12 +0/-0.0508 mm"}, {"-0.02/-0.05", "mm", "12 -0.02/-0.05 mm"}, {"+0,05/-0", "mm", "12 +0.05/+0 mm"}, {"-0.1/+0.05", "mm", "12 +0.05/-0.1 mm"}, {"+0.1", "mm", "12 +0.1/+0 mm"}, {"-0.1 mm", "", "12 +0/-0.1 mm"},
		{"0.05", "mm", "12 ±0.05 mm"}, {"0,05 mm", "", "12 ±0.05 mm"}, {".002", "in", "12 ±0.0508 mm"},
		{"h9", "", "12 +0/-0.043 mm"}, {"H7", "in", "12 +0.018/+0 mm"}, {"ISO 2768-m", "", "12 ±0.2 mm"}, {"DIN ISO 2768-fH", "", "12 ±0.1 mm"}, {"general tolerances to ISO 2768-m", "in", "12 ±0.2 mm"},
		{"all dims ±0.1 mm", "", "12 ±0.1 mm"}, {"All dimensions in mm, ±0.05 unless stated", "", "12 ±0.05 mm"}, {"Tolerance ±.002 in", "mm", "12 ±0.0508 mm"}, {"Alle Maße ±0,1 mm", "", "12 ±0.1 mm"}, {"Toutes les cotes ±0,1 mm", "", "12 ±0.1 mm"}, {"Tolerancia general ±0,1 mm", "", "12 ±0.1 mm"}, {"Tolleranza generale ±0,1 mm", "", "12 ±0.1 mm"},
		{"公差±0.05mm", "", "12 ±0.05 mm"}, {"未注公差±0.1毫米", "", "12 ±0.1 mm"}, {"一般公差：±0.1公厘", "", "12 ±0.1 mm"}, {"공차 ±0.05mm", "", "12 ±0.05 mm"}, {"寸法公差 ±０．０５ mm", "", "12 ±0.05 mm"}, {"單位：mm 公差±0.05", "", "12 ±0.05 mm"},
	} {
		tolerance, found := ReadTolerance(test.text, Context{Want: WantLength, Unit: test.unit})
		if !found || tolerance.Problem.Code != "" {
			t.Errorf("%q: found %v, %+v", test.text, found, tolerance.Problem)
			continue
		}
		dim, err := tolerance.Apply(measure.Nominal(measure.Millimetres(12)))
		if err != nil || dim.String() != test.want {
			t.Errorf("%q gives %v (%v), want %s", test.text, dim, err, test.want)
		}
	}
}

// TestTolerancesBesideThousandths reads bare deviations beside sizes in thousandths of an inch: a small part of one is inches.
func TestTolerancesBesideThousandths(t *testing.T) {
	for text, want := range map[string]string{
		"±.002": "12 ±0.0508 mm", "Base OD thou ±.003": "12 ±0.0762 mm", "+.0015/-0": "12 +0.0381/+0 mm", "0/-.001": "12 +0/-0.0254 mm", "±2": "12 ±0.0508 mm", "±0.5": "12 ±0.0127 mm",
		"±.002 in": "12 ±0.0508 mm", "±0.05 mm": "12 ±0.05 mm", ".003": "12 ±0.0762 mm",
	} {
		got := ""
		if tolerance, found := ReadTolerance(text, Context{Want: WantLength, Unit: "thou"}); found && tolerance.Problem.Code == "" {
			if dim, err := tolerance.Apply(measure.Nominal(measure.Millimetres(12))); err == nil {
				got = dim.String()
			}
		}
		if got != want {
			t.Errorf("%q: want %q, got %q", text, want, got)
		}
	}
	if r := Read("530 ±.002", Context{Want: WantDiameter, Unit: "thou"}); r.Problem.Code == "" {
		t.Errorf("530 ±.002 thou is read as %v without a question", r.Dim)
	}
}

func TestNoTolerance(t *testing.T) {
	for _, text := range []string{"", "none", "no tolerance", "Hosel OD 13.6 mm", "Item 12-345", "12-345", "polished by hand", "X100", "n/a", "page 3"} {
		if tolerance, found := ReadTolerance(text, Context{Unit: "mm"}); found {
			t.Errorf("%q gives %+v", text, tolerance)
		}
	}
}

func TestToleranceProblems(t *testing.T) {
	for text, want := range map[string]string{"±0.05": problemUnit, "±1%": problemUnit, "±0.5°": problemUnit, "+0/-0.1": problemUnit} {
		tolerance, found := ReadTolerance(text, Context{})
		if !found || tolerance.Problem.Code != want {
			t.Errorf("%q: %v %+v, want %s", text, found, tolerance, want)
		}
		if _, err := tolerance.Apply(measure.Nominal(measure.Millimetres(12))); err == nil {
			t.Errorf("%q is applied all the same", text)
		}
	}
	if _, err := (Tolerance{Class: "h9"}).Apply(measure.Nominal(measure.Millimetres(400))); err == nil {
		t.Error("h9 is applied at 400 mm, where there is no table")
	}
}

func TestReadTolerancesWithScopes(t *testing.T) {
	type scoped struct {
		Scope        string
		Lower, Upper string
		After        string
	}
	for text, want := range map[string][]scoped{
		"Hosel OD ±.003, bore ±.001 in":            {{"Hosel OD", "-0.0762 mm", "0.0762 mm", ""}, {"bore", "-0.0254 mm", "0.0254 mm", ""}},
		"Hosel OD ±0.05; Bore +0.02/-0":            {{"Hosel OD", "-0.05 mm", "0.05 mm", ""}, {"Bore", "0 mm", "0.02 mm", ""}},
		"Außen ±0,1 mm / Bohrung ±0,05 mm":         {{"Außen", "-0.1 mm", "0.1 mm", ""}, {"Bohrung", "-0.05 mm", "0.05 mm", ""}},
		"外径±0.05mm、内径±0.02mm":                      {{"外径", "-0.05 mm", "0.05 mm", ""}, {"内径", "-0.02 mm", "0.02 mm", ""}},
		"mm, ±0.05 on diameters, ±0.5 for lengths": {{"", "-0.05 mm", "0.05 mm", "on diameters"}, {"", "-0.5 mm", "0.5 mm", "for lengths"}},
	} {
		var got []scoped
		for _, tolerance := range ReadTolerances(text, Context{Unit: "mm"}) {
			got = append(got, scoped{tolerance.Scope, tolerance.Lower.String(), tolerance.Upper.String(), tolerance.After})
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}

func TestApplyLeavesLimitsAlone(t *testing.T) {
	own := measure.PlusMinus(measure.Millimetres(12), measure.Micrometres(10))
	for _, d := range []measure.Dim{own, {}} {
		got, err := Tolerance{Lower: measure.Micrometres(-50), Upper: measure.Micrometres(50)}.Apply(d)
		if err != nil || got != d {
			t.Errorf("%v becomes %v (%v)", d, got, err)
		}
	}
}

// TestWordThatBeginsLikeAUnit takes no unit from the first character of another word.
func TestWordThatBeginsLikeAUnit(t *testing.T) {
	all := ReadTolerances("寸法はすべてmm　公差：内径±0.02　外径±0.05", Context{})
	if len(all) != 2 || all[0].Unit != "mm" || all[0].Upper != measure.Micrometres(20) || all[1].Upper != measure.Micrometres(50) {
		t.Errorf("%+v", all)
	}
}
