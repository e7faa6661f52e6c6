package press_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// push is a ferrule on a tip, either of them straight or tapered, that touch along all of it, a part of it or not at all.
type push struct{ length, mouth, end, tip, top, base measure.Length }

func drawPush(t *rapid.T) push {
	thou := func(name string, least, most int64) measure.Length {
		return measure.Thou(rapid.Int64Range(least, most).Draw(t, name))
	}
	tip := thou("tip", 350, 360)
	return push{
		length: thou("length", 300, 1500), mouth: thou("mouth", 345, 365), end: thou("end", 345, 365),
		tip: tip, top: tip.Add(thou("growth", 0, 15)), base: thou("base", 0, 1000),
	}
}

// line makes the points of a profile of so much length between two diameters.
type line func(length, from, to measure.Length) []press.Point

func (p push) on(t *testing.T, bore, tip line) press.Assembly {
	return mustAssembly(t, press.Ferrule{
		Length: p.length, Bore: mustProfile(t, bore(p.length, p.mouth, p.end)...), Outside: press.Constant(measure.Thou(535)), Elastic: acetate,
	}, press.Tip{
		Outside: mustProfile(t, tip(measure.Inches(2), p.tip, p.top)...), Inside: press.Constant(measure.Thou(310)), Elastic: steel,
	}, 0.3)
}

func straight(length, from, to measure.Length) []press.Point {
	return []press.Point{{Diameter: from}, {At: length, Diameter: to}}
}

func halved(length, from, to measure.Length) []press.Point {
	return []press.Point{{Diameter: from}, {At: length.DivRound(2), Diameter: from.Add(to).DivRound(2)}, {At: length, Diameter: to}}
}

// A straight line is the same line with a point put in the middle of it: every figure of the grip adds up over the pieces.
func TestAPointOnALineChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPush(rt)
		one, two := gripAt(t, p.on(t, straight, straight), p.base), gripAt(t, p.on(t, halved, halved), p.base)
		within := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-5*(1+math.Abs(want)) {
				rt.Errorf("%s: %g, and %g in one piece (%+v)", what, got, want, p)
			}
		}
		within("normal", two.NormalN, one.NormalN)
		within("torque", two.TorqueNmm, one.TorqueNmm)
		within("climb", two.PushOnN-two.PushOffN, one.PushOnN-one.PushOffN)
		within("length", two.Length.Millimetres(), one.Length.Millimetres())
	})
}

// The peak of a push is no less than the push at any stop, nor than anywhere beside the largest one, and is what is found at its place.
func TestThePeakIsThePeak(t *testing.T) {
	ridge := func(length, from, to measure.Length) []press.Point {
		return []press.Point{{Diameter: from}, {At: length.DivRound(3), Diameter: to}, {At: length, Diameter: from}}
	}
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPush(rt)
		a := p.on(t, straight, ridge)
		travel, err := a.PushOn(p.base, rapid.IntRange(1, 12).Draw(rt, "steps"))
		if err != nil {
			rt.Fatal(err)
		}
		peak := travel.Peak
		if found := gripAt(t, a, peak.Base).PushOnN; math.Abs(found-peak.PushOnN) > 1e-9*(1+found) {
			rt.Fatalf("%g N at its place, and the peak is %v", found, peak)
		}
		largest := 0
		for i, point := range travel.Points {
			if point.PushOnN > peak.PushOnN {
				rt.Fatalf("%v is a stop, and the peak is %v", point, peak)
			}
			if point.PushOnN > travel.Points[largest].PushOnN {
				largest = i
			}
		}
		from, until := travel.Points[max(0, largest-1)].Base, travel.Points[min(len(travel.Points)-1, largest+1)].Base
		for i := range int64(101) {
			base := from.Add(until.Sub(from).MulRatio(i, 100))
			if found := gripAt(t, a, base).PushOnN; found > peak.PushOnN*(1+1e-4)+1e-6 {
				rt.Fatalf("%g N at %v, and the peak is %v", found, base, peak)
			}
		}
	})
}

// At the outside of a tube under outside pressure p the hoop stress is -p (b²+a²)/(b²-a²) (Lamé; Shigley's, 9th ed., equation 3-49).
func TestHoopAtTheOutsideOfATube(t *testing.T) {
	s := mustJoint(t, press.Section{RingOutside: measure.Thou(535), Interface: measure.Thou(370), ShaftInside: measure.Thou(310)}, acetate, steel).
		Solve(measure.Thou(2))
	const b, a = .370, .310
	alike(t, "hoop", s.ShaftSurface().HoopMPa, -s.PressureMPa()*(b*b+a*a)/(b*b-a*a), 1e-12)
	alike(t, "radial", s.ShaftSurface().RadialMPa, -s.PressureMPa(), 1e-12)
}

func TestWhatMessagesSay(t *testing.T) {
	_, err := press.Easing{Bore: measure.Thou(368), FromC: -300, Ring: mustMaterial(t, "CAB")}.Solve()
	if input, ok := errors.AsType[*press.InputError](err); !ok || input.Value != "-300 °C" {
		t.Errorf("%v, want the value with its unit", err)
	}
}

// A slope that a point leaves at the same place is a step, and none goes back.
func TestStepsInProfiles(t *testing.T) {
	if _, err := press.NewProfile(press.Point{At: measure.Thou(5), Diameter: measure.Thou(370)}, press.Point{At: measure.Thou(5), Diameter: measure.Thou(380)}); err != nil {
		t.Error(err)
	}
	if _, err := press.NewProfile(press.Point{At: measure.Thou(5)}, press.Point{At: measure.Thou(4)}); err == nil || !strings.Contains(err.Error(), "points[1].At") {
		t.Errorf("%v", err)
	}
	if _, err := press.NewProfile(press.Point{}); err != nil {
		t.Errorf("a diameter of nothing: %v", err)
	}
}

// The limits of what is taken are taken themselves.
func TestLimitsThemselves(t *testing.T) {
	if _, err := parallelFit(t).PushOn(measure.Thou(1250), 1); err != nil {
		t.Errorf("one step: %v", err)
	}
	for _, modulus := range []float64{1e-6, 1e12} {
		if err := (press.Elastic{YoungModulusMPa: modulus, Poisson: 0.3}).Check("Ring"); err != nil {
			t.Errorf("%g MPa: %v", modulus, err)
		}
	}
	if err := (press.Elastic{YoungModulusMPa: 1, Poisson: 0.5}).Check("Ring"); err != nil {
		t.Errorf("a ratio of 0.5: %v", err)
	}
}
