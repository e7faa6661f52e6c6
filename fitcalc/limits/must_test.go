package limits_test

import (
	"errors"
	"testing"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
)

// What the parsers read, MustParse reads alike; what they refuse, it panics with, as the same error. 12 h9 is 12 +0/-0.043 mm
// (ISO 286-1, IT9 over 10 to 18 mm).
func TestMustParse(t *testing.T) {
	if d := limits.MustParseDim("12 h9"); d.Lower() != measure.Micrometres(11_957) || d.Upper() != measure.Millimetres(12) {
		t.Errorf("12 h9 is %v to %v", d.Lower(), d.Upper())
	}
	if c := limits.MustParseClass("h9"); c.String() != "h9" {
		t.Errorf("class %v", c)
	}
	if g := limits.MustParseGeneral("ISO 2768-m"); g != limits.Medium {
		t.Errorf("general class %v", g)
	}
	if f := limits.MustParseFit("12 H7/p6"); f.Hole.Lower() != measure.Millimetres(12) || f.Hole.Upper() != measure.Micrometres(12_018) {
		t.Errorf("fit %v", f)
	}
	for name, parse := range map[string]func(){
		"dimension": func() { limits.MustParseDim("12 z") }, "class": func() { limits.MustParseClass("9h") },
		"general": func() { limits.MustParseGeneral("loose") }, "fit": func() { limits.MustParseFit("12 mm") },
	} {
		err := func() (err error) {
			defer func() { err, _ = recover().(error) }()
			parse()
			return nil
		}()
		var refused *measure.ParseError
		if !errors.As(err, &refused) {
			t.Errorf("%s: panics with %v, not with the parser's error", name, err)
		}
	}
}
