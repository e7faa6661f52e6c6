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
