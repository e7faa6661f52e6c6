package fitcalc

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// restated returns the same joint with each nominal size in the middle of its limits, which says the same of the parts.
func (d drawn) restated() drawn {
	p := parts{head: d.head, tip: d.tip, ferrule: d.ferrule}
	moved := p.tip.end.Middle().Sub(p.tip.end.Nominal())
	for _, size := range append(mapsValues(sizesOf(&p)), &p.ferrule.RingHeight) {
		*size = middled(*size)
	}
	p.tip.stations = nil
	for _, s := range d.tip.stations {
		p.tip.stations = append(p.tip.stations, Station{s.At, s.Diameter.Add(moved)})
	}
	return drawn{p.head, p.tip, p.ferrule, d.shop}
}

func mapsValues(m map[Field]*measure.Dim) []*measure.Dim {
	var all []*measure.Dim
	for _, d := range m {
		all = append(all, d)
	}
	return all
}

func middled(d measure.Dim) measure.Dim {
	if !d.HasLimits() {
		return d
	}
	middle := d.Middle()
	return measure.WithDeviations(middle, d.Lower().Sub(middle), d.Upper().Sub(middle)).WithShape(d.Shape()).WithOrigin(d.Origin())
}

// oneSided draws a joint of which any size may have limits that both lie on one side of its nominal size.
func oneSided(t *rapid.T) drawn {
	d := sketch{t: t, unit: measure.Thou(1)}.joint()
	p := parts{head: d.head, tip: d.tip, ferrule: d.ferrule}
	for field, size := range sizesOf(&p) {
		if size.HasLimits() && rapid.IntRange(0, 2).Draw(t, "one-sided "+field.String()) == 0 {
			shift := size.Width().MulRatio(rapid.Int64Range(-150, 150).Draw(t, "shift of "+field.String()), 100)
			nominal := size.Nominal().Add(shift)
			*size = measure.WithDeviations(nominal, size.Lower().Sub(nominal), size.Upper().Sub(nominal)).WithShape(size.Shape())
			for i, s := range d.tip.stations {
				if field == FieldTip {
					if i == 0 {
						p.tip.stations = nil
					}
					p.tip.stations = append(p.tip.stations, Station{s.At, s.Diameter.Add(shift)})
				}
			}
		}
	}
	return drawn{p.head, p.tip, p.ferrule, d.shop}
}

// TestLeastUsualMost: whatever limits the sizes have, on either side of the nominal one, what is usual lies between the least and the
// most.
func TestLeastUsualMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := oneSided(t)
		fit := d.evaluate(t)
		for name, a := range map[string]Amount{
			"oversize": fit.Flush.Oversize, "turn-down": fit.Flush.TurnDown, "interference": fit.Grip.Interference,
			"stand-off": fit.Seat.StandOff, "clearance": fit.Bore.Clearance,
		} {
			if a.Nominal.Less(a.Least) || a.Most.Less(a.Nominal) {
				t.Fatalf("%s: %v, %v, %v", name, a.Least, a.Nominal, a.Most)
			}
		}
		if fit.Grip.MostStrain < fit.Grip.Strain {
			t.Fatalf("strained by %g, at most %g", fit.Grip.Strain, fit.Grip.MostStrain)
		}
		if turning, err := TurningOf(d.head, d.tip, d.ferrule, d.shop); err == nil && fit.Flush.Known {
			if down := fit.Flush.TurnDown; turning.Down.Less(down.Least) || down.Most.Less(turning.Down) {
				t.Fatalf("turning takes %v off, of %v to %v", turning.Down, down.Least, down.Most)
			}
		}
		if m, err := MechanicsOf(d.head, d.tip, d.ferrule, d.shop, Shaft{}); err == nil {
			if g := fit.Grip; g.Known && (m.Interference != g.Interference.Nominal || m.Interference.Less(g.Interference.Least)) {
				t.Fatalf("an interference of %v in the press fit, and of %v to %v", m.Interference, g.Interference.Least, g.Interference.Most)
			}
		}
	})
}

// TestNominalSizesDoNotMatter: only the limits say what the parts are like, so that a nominal size outside them, or off their middle,
// changes nothing that is found.
func TestNominalSizesDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := oneSided(t)
		same := d.restated()
		if a, b := d.evaluate(t), same.evaluate(t); a != b {
			t.Fatalf("%v %v as stated, %v %v by the middle\n%+v\n%+v", a.Verdict, codesOf(&a), b.Verdict, codesOf(&b), a, b)
		}
		a, errA := TurningOf(d.head, d.tip, d.ferrule, d.shop)
		b, errB := TurningOf(same.head, same.tip, same.ferrule, same.shop)
		if a != b || (errA == nil) != (errB == nil) {
			t.Fatalf("turning %+v (%v) as stated, %+v (%v) by the middle", a, errA, b, errB)
		}
		bond, errA := BondOf(d.head, d.tip, d.shop)
		other, errB := BondOf(same.head, same.tip, same.shop)
		if bond != other || (errA == nil) != (errB == nil) {
			t.Fatalf("bond %+v (%v) as stated, %+v (%v) by the middle", bond, errA, other, errB)
		}
		sleeve, needed, errA := SleeveFor(d.head, d.tip, d.shop)
		one, too, errB := SleeveFor(same.head, same.tip, same.shop)
		if sleeve != one || needed != too || (errA == nil) != (errB == nil) {
			t.Fatalf("sleeve %+v (%v) as stated, %+v (%v) by the middle", sleeve, errA, one, errB)
		}
		m, errA := MechanicsOf(d.head, d.tip, d.ferrule, d.shop, Shaft{})
		n, errB := MechanicsOf(same.head, same.tip, same.ferrule, same.shop, Shaft{})
		if (errA == nil) != (errB == nil) || m.Interference != n.Interference || m.Diameter != n.Diameter || m.Section() != n.Section() || m.Easing(20).Bore != n.Easing(20).Bore {
			t.Fatalf("press fit %+v (%v) as stated, %+v (%v) by the middle", m, errA, n, errB)
		}
	})
}

// TestWindowsDoNotDependOnTheNominalSize: the windows are of nominal sizes, so that they move with a hosel's deviations and with
// nothing else.
func TestWindowsDoNotDependOnTheNominalSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := oneSided(t)
		if !d.head.HoselOD.Given() || d.head.Adapter.Given() {
			return
		}
		same := d.restated()
		a, errA := WindowsByReason(d.head, d.tip, d.ferrule, d.shop)
		b, errB := WindowsByReason(same.head, same.tip, same.ferrule, same.shop)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		at := func(windows []Window, od measure.Length) Window {
			for _, w := range windows {
				if w.HoselOD.Contains(od) {
					return w
				}
			}
			return windows[0] // a hosel too small to have a wall
		}
		moved := d.head.HoselOD.Middle().Sub(d.head.HoselOD.Nominal())
		for range 20 {
			od := measure.Picometres(rapid.Int64Range(11e9, 15e9).Draw(t, "od"))
			x, y := at(a, od), at(b, od.Add(moved))
			if x.Verdict != y.Verdict || x.Code != y.Code {
				t.Fatalf("at %v %v %v as stated, %v %v by the middle", od, x.Verdict, x.Code, y.Verdict, y.Code)
			}
		}
	})
}

// The examples of one-sided limits that were answered by their nominal sizes.
func TestOneSidedLimits(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.ferrule.BaseOD = p.dim("13.6 mm"), p.dim("13.6 +0.30/+0.10 mm")
	fit := p.evaluate()
	nearLength(t, "turn-down", fit.Flush.TurnDown.Nominal, .200)
	nearLength(t, "least turn-down", fit.Flush.TurnDown.Least, .1-.003*25.4)
	turning, err := TurningOf(p.head, p.tip, p.ferrule, p.shop)
	if err != nil {
		t.Fatal(err)
	}
	nearLength(t, "turned down", turning.Down, .200)

	p = soundParts(t)
	p.tip, p.ferrule.Bore = ParallelTip(p.dim(".370 in")), p.dim(".370 -.004/-.006 in")
	fit = p.evaluate()
	if g := fit.Grip; g.Interference.Nominal != measure.Thou(5) || g.Length != p.ferrule.Length.Nominal() {
		t.Errorf("grips by %v over %v", g.Interference.Nominal, g.Length)
	}
	// a tip that is usually a thousandth under, in a bore that is usually two over
	p = soundParts(t)
	p.tip, p.head.Bore = ParallelTip(p.dim(".370 +.000/-.002 in")), p.dim(".370 +.004/+.000 in")
	if c := p.evaluate().Bore.Clearance; c.Nominal != measure.Thou(3) || c.Least.Sign() != 0 || c.Most != measure.Thou(6) {
		t.Errorf("clears the tip by %v, %v to %v", c.Nominal, c.Least, c.Most)
	}
	if at := p.tip.Diameter(measure.Inches(1)); at != p.dim(".370 +.000/-.002 in") {
		t.Errorf("an inch up the tip is %v", at)
	}
}
