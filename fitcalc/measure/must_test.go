package measure_test

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

// What the parsers read, MustParse reads alike; what they refuse, it panics with, as the same error.
func TestMustParse(t *testing.T) {
	length := measure.MustParseLength("13.6 mm")
	if length != measure.Micrometres(13_600) {
		t.Errorf("length %v", length)
	}
	if d := measure.MustParseDim(".500 in ±.003"); d != measure.PlusMinus(measure.Thou(500), measure.Thou(3)) {
		t.Errorf("dimension %v", d)
	}
	if a := measure.MustParseAngle("60°"); a != measure.Degrees(60) {
		t.Errorf("angle %v", a)
	}
	if taper := measure.MustParseTaper("0.0075 in/in"); taper != measure.TaperPPB(7_500_000) {
		t.Errorf("taper %v", taper)
	}
	if diff := cmp.Diff([]measure.Length{measure.Micrometres(13_580), measure.Micrometres(13_620)}, measure.MustParseReadings("13.58, 13.62 mm"),
		cmp.Comparer(func(a, b measure.Length) bool { return a == b })); diff != "" {
		t.Errorf("readings (-want +got):\n%s", diff)
	}
	if u := measure.MustParseUnit("mm"); u != measure.Millimetre {
		t.Errorf("unit %v", u)
	}
	for name, parse := range map[string]func(){
		"length": func() { measure.MustParseLength("13.6") }, "dimension": func() { measure.MustParseDim("wide") },
		"angle": func() { measure.MustParseAngle("60 mm") }, "taper": func() { measure.MustParseTaper("steep") },
		"readings": func() { measure.MustParseReadings("13.58 mm") }, "unit": func() { measure.MustParseUnit("ell") },
	} {
		var refused *measure.ParseError
		if err := panicOf(parse); !errors.As(err, &refused) {
			t.Errorf("%s: panics with %v, not with the parser's error", name, err)
		}
	}
}

// panicOf is the error that a function panics with, nil where it does not.
func panicOf(f func()) (err error) {
	defer func() { err, _ = recover().(error) }()
	f()
	return nil
}
