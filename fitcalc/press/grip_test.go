package press_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

var (
	acetate = press.Elastic{YoungModulusMPa: 1700, Poisson: 0.39}
	steel   = press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.3}
)

func mustProfile(t testing.TB, points ...press.Point) press.Profile {
	t.Helper()
	p, err := press.NewProfile(points...)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func mustAssembly(t testing.TB, f press.Ferrule, tip press.Tip, friction float64) press.Assembly {
	t.Helper()
	a, err := press.NewAssembly(f, tip, friction)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func gripAt(t testing.TB, a press.Assembly, base measure.Length) press.Grip {
	t.Helper()
	g, err := a.At(base)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func parallelFit(t testing.TB) press.Assembly {
	return mustAssembly(t,
		press.Ferrule{Length: measure.Inches(1), Bore: press.Constant(measure.Thou(368)), Outside: press.Constant(measure.Thou(535)), Elastic: acetate},
		press.Tip{Outside: press.Constant(measure.Thou(370)), Inside: press.Constant(measure.Thou(310)), Elastic: steel}, 0.3)
}

// taperTip grows by .0075 in per inch from .355 in (common practice) to .370 in, two inches up, and is parallel there.
func taperTip(t testing.TB, e press.Elastic) press.Tip {
	return press.Tip{Elastic: e, Outside: mustProfile(t,
		press.Point{Diameter: measure.Thou(355)}, press.Point{At: measure.Inches(2), Diameter: measure.Thou(370)})}
}

// F = µ p π d L and T = F d/2 (Shigley's, 9th ed., section 7-8; Engineering Plastics Handbook, p. 32).
func TestParallelFit(t *testing.T) {
	g := gripAt(t, parallelFit(t), measure.Thou(1250))
	p := mustJoint(t, press.Section{
		RingOutside: measure.Thou(535), Interface: measure.Thou(370), ShaftInside: measure.Thou(310),
	}, acetate, steel).Solve(measure.Thou(2))
	force := 0.3 * p.PressureMPa() * math.Pi * 9.398 * 25.4
	alike(t, "friction", g.FrictionN, force, 1e-12)
	alike(t, "push on", g.PushOnN, force, 1e-12)
	alike(t, "push off", g.PushOffN, force, 1e-12)
	alike(t, "torque", g.TorqueNmm, force*9.398/2, 1e-12)
	if g.Length != measure.Inches(1) {
		t.Errorf("grip length %v", g.Length)
	}
	alike(t, "pressure", g.Tightest.PressureMPa, p.PressureMPa(), 1e-12)
	alike(t, "hoop", g.Tightest.BoreHoopMPa, p.RingBore().HoopMPa, 1e-12)
	alike(t, "strain", g.Tightest.BoreStrain, p.BoreStrain(), 1e-12)
	want := press.Place{
		OnTip: measure.Thou(1250), Interference: measure.Thou(2),
		PressureMPa: g.Tightest.PressureMPa, BoreHoopMPa: g.Tightest.BoreHoopMPa, BoreStrain: g.Tightest.BoreStrain,
	}
	if g.Tightest != want {
		t.Errorf("tightest place %+v, want %+v", g.Tightest, want)
	}
}

// A parallel bore b on a rigid taper: the integrand π E (d−b)(D²−d²)/(D²(1+ν) + d²(1−ν)) has a closed form in d.
func TestTaperAgainstClosedForm(t *testing.T) {
	bore, outside := measure.Thou(340), measure.Thou(535)
	for _, friction := range []float64{0, 0.15, 0.5} {
		a := mustAssembly(t, press.Ferrule{Length: measure.Inches(1), Bore: press.Constant(bore), Outside: press.Constant(outside), Elastic: acetate},
			taperTip(t, press.Rigid()), friction)
		g := gripAt(t, a, measure.Thou(500))

		const slope = 0.0075 // of the diameter
		b, big := bore.Millimetres(), outside.Millimetres()*outside.Millimetres()
		c, m := big*(1+acetate.Poisson), 1-acetate.Poisson
		k := big + c/m
		primitive := func(d float64) float64 {
			return -d*d/(2*m) + b*d/m + k*math.Log(c+m*d*d)/(2*m) - k*b*math.Atan(d*math.Sqrt(m/c))/math.Sqrt(c*m)
		}
		from, to := (0.355+0.5*slope)*25.4, (0.355+1.5*slope)*25.4
		normal := math.Pi * acetate.YoungModulusMPa / slope * (primitive(to) - primitive(from))
		alike(t, "normal force", g.NormalN, normal, 1e-9)
		alike(t, "push on", g.PushOnN, normal*(friction+slope/2), 1e-9)
		alike(t, "push off", g.PushOffN, normal*(friction-slope/2), 1e-9)
	}
}

// Common practice: at 1.5 in insertion on the .355 in taper tip a .368 in bore grips a half-inch ferrule by .002 in at
// its top, and a quarter-inch ferrule by next to nothing. The lengths are the taper's: .368 in is reached at 26/15 in.
func TestShortFerruleHardlyGripsOnATaper(t *testing.T) {
	for _, c := range []struct {
		length, interference measure.Length
		gripInches           float64
	}{
		{measure.Thou(500), measure.Thou(2), 2 - 26.0/15},
		{measure.Thou(250), measure.Thou(1).DivRound(8), 1.75 - 26.0/15},
	} {
		a := mustAssembly(t, press.Ferrule{Length: c.length, Bore: press.Constant(measure.Thou(368)), Outside: press.Constant(measure.Thou(535)), Elastic: acetate},
			taperTip(t, steel), 0.3)
		g := gripAt(t, a, measure.Thou(1500))
		if g.Tightest.Interference != c.interference || g.Tightest.OnFerrule != c.length {
			t.Errorf("%v: tightest %v at %v", c.length, g.Tightest.Interference, g.Tightest.OnFerrule)
		}
		near(t, "grip length", g.Length.Inches(), c.gripInches, 1e-9)
	}
}

// With breakpoints anywhere the sum is the same as without them, and a step sums as its two halves do.
func TestBreakpointsAddUp(t *testing.T) {
	plain := gripAt(t, parallelFit(t), measure.Thou(1250))
	bore := measure.Thou(368)
	cut := mustAssembly(t, press.Ferrule{
		Length: measure.Inches(1), Elastic: acetate, Outside: press.Constant(measure.Thou(535)),
		Bore: mustProfile(t, press.Point{At: measure.Thou(-100), Diameter: bore}, press.Point{At: measure.Thou(321), Diameter: bore}, press.Point{At: measure.Thou(654), Diameter: bore}),
	}, press.Tip{Outside: press.Constant(measure.Thou(370)), Inside: press.Constant(measure.Thou(310)), Elastic: steel}, 0.3)
	alike(t, "cut", gripAt(t, cut, measure.Thou(1250)).FrictionN, plain.FrictionN, 1e-12)

	at := measure.Thou(1500) // a quarter of the ferrule is below the step
	step := mustAssembly(t, press.Ferrule{Length: measure.Inches(1), Bore: press.Constant(bore), Outside: press.Constant(measure.Thou(535)), Elastic: acetate},
		press.Tip{Inside: press.Constant(measure.Thou(310)), Elastic: steel, Outside: mustProfile(t,
			press.Point{At: at, Diameter: measure.Thou(360)}, press.Point{At: at, Diameter: measure.Thou(370)})}, 0.3)
	g := gripAt(t, step, measure.Thou(1250))
	alike(t, "above the step", g.FrictionN, 0.75*plain.FrictionN, 1e-12)
	if g.Length != measure.Thou(750) || g.Tightest.OnTip != at || g.Tightest.OnFerrule != measure.Thou(250) {
		t.Errorf("grip %v, tightest at %v", g.Length, g.Tightest.OnTip)
	}
}

// Bore and outside of a ferrule may be stepped too: each half grips as half a ferrule of that section.
func TestSteppedFerrule(t *testing.T) {
	thou, half := measure.Thou, measure.Thou(500)
	steps := func(low, high measure.Length) press.Profile {
		return mustProfile(t, press.Point{At: half, Diameter: low}, press.Point{At: half, Diameter: high})
	}
	grip := func(bore, outside press.Profile) press.Grip {
		return gripAt(t, mustAssembly(t, press.Ferrule{Length: thou(1000), Bore: bore, Outside: outside, Elastic: acetate},
			press.Tip{Outside: press.Constant(thou(370)), Elastic: steel}, 0.3), thou(1250))
	}
	wide, tight := press.Constant(thou(369)), press.Constant(thou(367))
	thick, thin := press.Constant(thou(535)), press.Constant(thou(420))
	for _, c := range []struct {
		name          string
		whole         press.Grip
		lower, higher press.Grip
	}{
		{"bore", grip(steps(thou(369), thou(367)), thick), grip(wide, thick), grip(tight, thick)},
		{"outside", grip(tight, steps(thou(535), thou(420))), grip(tight, thick), grip(tight, thin)},
		{"relieved bore", grip(steps(thou(375), thou(367)), thick), press.Grip{}, grip(tight, thick)},
	} {
		alike(t, c.name+": friction", c.whole.FrictionN, (c.lower.FrictionN+c.higher.FrictionN)/2, 1e-12)
		alike(t, c.name+": torque", c.whole.TorqueNmm, (c.lower.TorqueNmm+c.higher.TorqueNmm)/2, 1e-12)
	}
}

// A bore that opens upward grips below where one that opens downward grips above, and as hard.
func TestPartialGripEitherWay(t *testing.T) {
	thou := measure.Thou
	grip := func(low, high measure.Length) press.Grip {
		bore := mustProfile(t, press.Point{Diameter: low}, press.Point{At: thou(1000), Diameter: high})
		return gripAt(t, mustAssembly(t, press.Ferrule{Length: thou(1000), Bore: bore, Outside: press.Constant(thou(535)), Elastic: acetate},
			press.Tip{Outside: press.Constant(thou(370)), Elastic: steel}, 0.3), thou(1250))
	}
	up, down := grip(thou(366), thou(371)), grip(thou(371), thou(366))
	alike(t, "friction", up.FrictionN, down.FrictionN, 1e-12)
	for name, g := range map[string]press.Grip{"opens upward": up, "opens downward": down} {
		near(t, name+": grip length", g.Length.Inches(), 0.8, 1e-9) // 4 of the 5 thou are interference
		// Interference falls straight from 4 thou to 0 on a constant section: half the force of 4 thou over that length.
		p := mustJoint(t, press.Section{RingOutside: thou(535), Interface: thou(370)}, acetate, steel).PressureMPa(thou(4))
		alike(t, name+": normal force", g.NormalN, p/2*math.Pi*9.398*0.8*25.4, 1e-9)
	}
	if up.Tightest.OnFerrule != thou(0) || down.Tightest.OnFerrule != thou(1000) {
		t.Errorf("tightest at %v and %v", up.Tightest.OnFerrule, down.Tightest.OnFerrule)
	}
}

// Where an edge of the ferrule passes a corner of the tip the force has a kink, which even one step must not jump over.
func TestTravelStopsAtCorners(t *testing.T) {
	mm := measure.Millimetres
	tip := press.Tip{Elastic: press.Rigid(), Outside: mustProfile(t, press.Point{At: mm(50), Diameter: mm(9)},
		press.Point{At: mm(50), Diameter: mm(8)})}
	a := mustAssembly(t, press.Ferrule{Length: mm(10), Bore: press.Constant(measure.Micrometres(8900)), Outside: press.Constant(mm(13)), Elastic: acetate},
		tip, 0.3)
	travel, err := a.PushOn(mm(70), 1)
	if err != nil {
		t.Fatal(err)
	}
	var bases []int64
	for _, p := range travel.Points {
		bases = append(bases, int64(p.Base.Millimetres()))
	}
	// From touching; base at the tip end; upper edge and base at the corner; arrived.
	if diff := cmp.Diff([]int64{-10, 0, 40, 50, 70}, bases); diff != "" {
		t.Errorf("stops (-want +got):\n%s", diff)
	}
	alike(t, "peak", travel.Peak.PushOnN, gripAt(t, a, mm(20)).PushOnN, 1e-9)
}

// The sum must not depend on where a conical ferrule happens to be cut into pieces.
func TestConicalOutsideConverges(t *testing.T) {
	top := measure.Thou(380)
	cone := func(extra int64) press.Assembly {
		points := []press.Point{{Diameter: measure.Thou(535)}}
		for i := range extra {
			share := i + 1
			points = append(points, press.Point{
				At:       measure.Inches(1).MulRatio(share, extra+1),
				Diameter: measure.Thou(535).Sub(measure.Thou(535).Sub(top).MulRatio(share, extra+1)),
			})
		}
		points = append(points, press.Point{At: measure.Inches(1), Diameter: top})
		return mustAssembly(t, press.Ferrule{Length: measure.Inches(1), Elastic: acetate, Bore: press.Constant(measure.Thou(352)), Outside: mustProfile(t, points...)},
			taperTip(t, steel), 0.3)
	}
	one, many := gripAt(t, cone(0), measure.Thou(200)), gripAt(t, cone(99), measure.Thou(200))
	alike(t, "friction", one.FrictionN, many.FrictionN, 1e-7)
	alike(t, "torque", one.TorqueNmm, many.TorqueNmm, 1e-7)
}

func TestLooserBoreGripsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore := rapid.Int64Range(345, 372).Draw(t, "bore")
		base := measure.Thou(rapid.Int64Range(-900, 3000).Draw(t, "base"))
		tip := press.Tip{Elastic: steel}
		var err error
		tip.Outside, err = press.NewProfile(press.Point{Diameter: measure.Thou(355)}, press.Point{At: measure.Inches(2), Diameter: measure.Thou(370)})
		if err != nil {
			t.Fatal(err)
		}
		grip := func(bore int64) press.Grip {
			a, err := press.NewAssembly(press.Ferrule{
				Length: measure.Inches(1), Bore: press.Constant(measure.Thou(bore)), Outside: press.Constant(measure.Thou(535)), Elastic: acetate,
			}, tip, 0.3)
			if err != nil {
				t.Fatal(err)
			}
			g, err := a.At(base)
			if err != nil {
				t.Fatal(err)
			}
			return g
		}
		tight, loose := grip(bore), grip(bore+1)
		if tight.NormalN < loose.NormalN || tight.Length.Less(loose.Length) || tight.Tightest.Interference.Less(loose.Tightest.Interference) {
			t.Fatalf("bore %d: %+v, one thou wider %+v", bore, tight, loose)
		}
		if (loose.NormalN > 0) != (loose.Tightest.Interference.Sign() > 0) {
			t.Fatalf("force %g at interference %v", loose.NormalN, loose.Tightest.Interference)
		}
	})
}

func TestNotOnTheTip(t *testing.T) {
	for _, base := range []measure.Length{measure.Inches(-1), measure.Inches(-5)} {
		g := gripAt(t, parallelFit(t), base)
		if diff := cmp.Diff(press.Grip{Base: base}, g, cmp.AllowUnexported(measure.Length{})); diff != "" {
			t.Errorf("base %v (-want +got):\n%s", base, diff)
		}
	}
}

// On a parallel tip the force grows with the overlap and then stays.
func TestTravelOnAParallelTip(t *testing.T) {
	full := gripAt(t, parallelFit(t), measure.Inches(1)).PushOnN
	travel, err := parallelFit(t).PushOn(measure.Inches(1), 20)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(travel.Points); n != 21 || travel.Points[0].Base != measure.Inches(-1) || travel.Points[n-1].Base != measure.Inches(1) {
		t.Fatalf("%d points from %v", n, travel.Points[0].Base)
	}
	for _, p := range travel.Points {
		overlap := min(1, p.Base.Inches()+1)
		near(t, fmt.Sprintf("force with the base at %g in", p.Base.Inches()), p.PushOnN, full*overlap, 1e-9*full)
	}
	near(t, "peak", travel.Peak.PushOnN, full, 1e-9*full)
}

// A bulge in the tip, two tapers back to back, is hardest to pass when the ferrule sits evenly about it.
func TestTravelPeaksAtABulge(t *testing.T) {
	mm := measure.Millimetres
	bulge := mustProfile(t, press.Point{At: mm(30), Diameter: mm(9)},
		press.Point{At: mm(50), Diameter: measure.Micrometres(9100)}, press.Point{At: mm(70), Diameter: mm(9)})
	a := mustAssembly(t, press.Ferrule{Length: mm(10), Bore: press.Constant(measure.Micrometres(9050)), Outside: press.Constant(mm(13)), Elastic: acetate},
		press.Tip{Outside: bulge, Elastic: press.Rigid()}, 0.3)
	travel, err := a.PushOn(mm(90), 37)
	if err != nil {
		t.Fatal(err)
	}
	// Up one side costs tan α, down the other gives it back, so the peak comes a little before the even position.
	if base := travel.Peak.Base.Millimetres(); base < 44 || base > 45 {
		t.Errorf("peak with the base at %g mm", base)
	}
	const tan = 0.1 / 20 / 2
	for offset := int64(-50); offset <= 50; offset++ {
		base := travel.Peak.Base.Add(measure.Micrometres(offset * 20))
		if g := gripAt(t, a, base); g.PushOnN > travel.Peak.PushOnN*(1+1e-9) {
			t.Errorf("base %v takes %g N, the peak is %g N", base, g.PushOnN, travel.Peak.PushOnN)
		}
	}
	if last := travel.Points[len(travel.Points)-1].PushOnN; last != 0 {
		t.Errorf("past the bulge it still takes %g N", last)
	}
	rising := gripAt(t, a, mm(40))
	alike(t, "push on while climbing", rising.PushOnN, rising.NormalN*(0.3+tan), 1e-9)
}

func TestAssemblyErrorsNameTheField(t *testing.T) {
	mm := measure.Millimetres
	ferrule := press.Ferrule{Length: mm(20), Bore: press.Constant(mm(9)), Outside: press.Constant(mm(13)), Elastic: acetate}
	tip := press.Tip{Outside: press.Constant(mm(10)), Inside: press.Constant(mm(8)), Elastic: steel}
	for _, c := range []struct {
		field    string
		change   func(*press.Ferrule, *press.Tip)
		friction float64
	}{
		{"Ferrule.Length", func(f *press.Ferrule, _ *press.Tip) { f.Length = measure.Length{} }, 0.3},
		{"friction", func(*press.Ferrule, *press.Tip) {}, -0.1},
		{"friction", func(*press.Ferrule, *press.Tip) {}, math.NaN()},
		{"friction", func(*press.Ferrule, *press.Tip) {}, math.Inf(1)},
		{"Ring.YoungModulusMPa", func(f *press.Ferrule, _ *press.Tip) { f.Elastic = press.Elastic{} }, 0.3},
		{"Shaft.Poisson", func(_ *press.Ferrule, s *press.Tip) { s.Elastic.Poisson = 2 }, 0.3},
	} {
		f, s := ferrule, tip
		c.change(&f, &s)
		_, err := press.NewAssembly(f, s, c.friction)
		wantField(t, err, c.field)
	}
	for _, c := range []struct {
		field  string
		change func(*press.Ferrule, *press.Tip)
	}{
		{"Ferrule.Bore at 0 mm above the base", func(f *press.Ferrule, _ *press.Tip) { f.Bore = press.Profile{} }},
		{"Ferrule.Outside at 0 mm above the base", func(f *press.Ferrule, _ *press.Tip) { f.Outside = press.Constant(mm(10)) }},
		{"Ferrule.Outside at 0 mm above the base", func(f *press.Ferrule, _ *press.Tip) { f.Bore = press.Constant(mm(13)) }},
		{"Ferrule.Outside at 20 mm above the base", func(f *press.Ferrule, _ *press.Tip) {
			f.Outside = mustProfile(t, press.Point{Diameter: mm(13)}, press.Point{At: mm(20), Diameter: mm(9)})
		}},
		{"Tip.Outside at 35 mm above the tip end", func(_ *press.Ferrule, s *press.Tip) {
			s.Inside = mustProfile(t, press.Point{At: mm(35), Diameter: mm(8)}, press.Point{At: mm(35), Diameter: mm(10)})
		}},
	} {
		f, s := ferrule, tip
		c.change(&f, &s)
		a := mustAssembly(t, f, s, 0.3)
		_, err := a.At(mm(30))
		wantField(t, err, c.field)
		if _, err = a.PushOn(mm(30), 4); err == nil {
			t.Errorf("%s: pushed on without an error", c.field)
		}
	}
	a := mustAssembly(t, ferrule, tip, 0.3)
	for _, steps := range []int{0, -1, 1_000_000} {
		_, err := a.PushOn(mm(30), steps)
		wantField(t, err, "steps")
	}
	_, err := a.PushOn(mm(-20), 10)
	wantField(t, err, "to")
}

func TestProfileErrors(t *testing.T) {
	mm := measure.Millimetres
	point := func(at, d int64) press.Point { return press.Point{At: mm(at), Diameter: mm(d)} }
	for _, c := range []struct {
		field  string
		points []press.Point
	}{
		{"points", nil},
		{"points[1].Diameter", []press.Point{point(0, 9), point(1, -9)}},
		{"points[1].At", []press.Point{point(1, 9), point(0, 9)}},
		{"points[2].At", []press.Point{point(1, 9), point(1, 10), point(1, 11)}},
	} {
		_, err := press.NewProfile(c.points...)
		wantField(t, err, c.field)
	}
	in := []press.Point{point(0, 9), point(5, 10)}
	p := mustProfile(t, in...)
	in[0].Diameter = mm(1)
	p.Points()[1].Diameter = mm(1)
	if diff := cmp.Diff([]press.Point{point(0, 9), point(5, 10)}, p.Points(), cmp.AllowUnexported(measure.Length{})); diff != "" {
		t.Errorf("a profile changed from outside (-want +got):\n%s", diff)
	}
}

func BenchmarkGrip(b *testing.B) {
	a := parallelFit(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := a.At(measure.Thou(1250)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPushOn(b *testing.B) {
	a := parallelFit(b)
	for b.Loop() {
		if _, err := a.PushOn(measure.Thou(1250), 100); err != nil {
			b.Fatal(err)
		}
	}
}
