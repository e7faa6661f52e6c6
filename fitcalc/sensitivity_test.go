package fitcalc

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// Every change leads to a joint that can be, with the verdict that the change names.
func TestSensitivityStepsOntoJointsOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sketch{t: t, unit: measure.Thou(1)}
		d := s.joint()
		if od := &d.head.HoselOD; od.Given() { // where one part nearly contradicts another, joints end soon
			d.head.Counterbore.Diameter = measure.Nominal(od.Middle().Sub(s.length("rim", 1, 30)))
		}
		changes, err := Sensitivity(d.head, d.tip, d.ferrule, d.shop)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range changes {
			p := probe{head: d.head, tip: d.tip, ferrule: d.ferrule, shop: d.shop}
			dim := knobOf(c.Field).dim(&p)
			*dim = dim.Shift(c.Shift)
			fit, err := Evaluate(p.head, p.tip, p.ferrule, p.shop)
			if err != nil {
				t.Fatalf("%v moved by %v to %v is no joint: %v", c.Field, c.Shift, *dim, err)
			}
			if fit.Verdict != c.To {
				t.Fatalf("%v moved by %v to %v: %v, want %v", c.Field, c.Shift, *dim, fit.Verdict, c.To)
			}
		}
	})
}

func knobOf(f Field) knob {
	for _, k := range knobs {
		if k.field == f {
			return k
		}
	}
	panic("no knob moves the " + f.String())
}

// A hosel of .500 in around a counterbore of .4999 in: one that shrinks by a ten thousandth is none, though its verdict would change
// further down.
func TestSensitivityEndsWhereNoHeadIs(t *testing.T) {
	p := soundParts(t)
	p.head.Counterbore = Counterbore{Diameter: p.dim(".4999 ±0 in")}
	p.ferrule.BaseOD = p.dim(".520 ±.001 in")
	changes, err := Sensitivity(p.head, p.tip, p.ferrule, p.shop)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range changes {
		if c.Field == FieldHoselOD && c.Shift.Sign() < 0 {
			t.Errorf("a hosel smaller by %v than .500 in is %v", c.Shift.Abs(), c.To)
		}
	}
}
