package joint

import "testing"

// The unit of a number without one: what the fit chart takes, by its own two limits.
func TestWithUnit(t *testing.T) {
	for _, test := range []struct{ text, doubt, full, unit string }{
		{"13.6", "", "13.6 mm", "mm"},
		{".535", "", ".535 in", "in"},
		{".370", "mm", ".370 in", "in"},
		{"17/32", "", "17/32 in", "in"},
		{"1-1/32", "", "1-1/32 in", "in"},
		{"13,6", "", "13,6 mm", "mm"},
		{"13.6 ±0.05", "", "13.6 ±0.05 mm", "mm"},
		{"13.58, 13.62, 13.60", "", "13.58, 13.62, 13.60 mm", "mm"},
		{"1.999", "", "1.999 in", "in"},
		{"2", "", "2", ""},
		{"5", "", "5", ""},
		{"3", "in", "3 in", "in"},
		{"3", "mm", "3 mm", "mm"},
		{"5.01", "", "5.01 mm", "mm"},
		{"13.6 mm", "in", "13.6 mm", ""},
		{`.535"`, "", `.535"`, ""},
		{"wide", "mm", "wide", ""},
		{"", "mm", "", ""},
	} {
		if full, unit := WithUnit(test.text, test.doubt); full != test.full || unit != test.unit {
			t.Errorf("%q, in doubt %q: %q in %q, want %q in %q", test.text, test.doubt, full, unit, test.full, test.unit)
		}
	}
}

func TestTipWithUnit(t *testing.T) {
	for text, want := range map[string]string{
		".370": ".370 in parallel", ".335": ".335 in parallel", "9.4": "9.4 mm parallel", "taper .355": ".355 in taper", ".355 taper": ".355 in taper",
		"parallel .355": ".355 in parallel", ".370 in parallel": ".370 in parallel", ".355": ".355", ".360": ".360", "0: .335 in, 1 in: .350 in": "0: .335 in, 1 in: .350 in",
		"wide": "wide", ".355 in taper .0075 in/in": ".355 in taper .0075 in/in",
	} {
		full, took := TipWithUnit(text, "")
		if full != want || (took == "") != (full == text) {
			t.Errorf("%q is read as %q, want %q; said to be taken: %q", text, full, want, took)
		}
	}
}

// Small features are told by the sizes that they may have: a collar of 2 is 2 mm, since none is two inches long, and one of .06 is
// in inches, since none is as short as .06 mm. Where both are possible, what --units says decides, and without it nothing is taken.
func TestFieldWithUnit(t *testing.T) {
	byKey := map[string]*Field{}
	for _, f := range Fields() {
		byKey[f.Key] = &f
	}
	for _, test := range []struct {
		key, text, doubt, want string
		needs                  bool
	}{
		{"collar_length", "2", "", "2 mm", false},
		{"collar_length", "2", "in", "2 mm", false},
		{"collar_length", ".06", "", ".06 in", false},
		{"collar_length", "1/16", "mm", "1/16 in", false},
		{"collar_length", ".25", "", ".25", true},
		{"collar_length", ".25", "in", ".25 in", false},
		{"collar_length", ".25 mm", "in", ".25 mm", false},
		{"countersink_depth", ".02", "", ".02 in", false},
		{"countersink_depth", ".06", "", ".06 in", false},
		{"countersink_depth", ".2", "", ".2", true},
		{"countersink_depth", "1.5", "", "1.5 mm", false},
		{"countersink_angle", "60", "", "60 deg", false},
		{"countersink_angle", "60°", "", "60°", false},
		{"counterbore", ".400", "", ".400 in", false},
		{"counterbore", "11", "", "11 mm", false},
		{"collar_od", ".400", "", ".400 in", false},
		{"ring_depth", ".3", "", ".3", true},
		{"ring_depth", ".3", "mm", ".3 mm", false},
		{"hosel_length", "2.4", "mm", "2.4 in", false},
		{"hosel_od", "3", "", "3", true},
		{"hosel_od", "3", "in", "3 in", false},
		{"trim", ".5", "mm", ".5 in", false},
		{"rings", "3", "mm", "3", false},
		{"top", "flat", "mm", "flat", false},
	} {
		f := byKey[test.key]
		full, took := f.WithUnit(test.text, test.doubt)
		if full != test.want || (took == "") != (full == test.text) || f.NeedsUnit(test.text, test.doubt) != test.needs {
			t.Errorf("%s %q, in doubt %q: %q, took %q, needs a unit: %t; want %q, %t",
				test.key, test.text, test.doubt, full, took, f.NeedsUnit(test.text, test.doubt), test.want, test.needs)
		}
	}
}
