package press_test

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// threeRings is the example of Croccolo and Vincenzi (2009): steel, aluminium and steel, with radial interferences of
// 0.010 mm inside and 0.025 mm outside, given here on the diameter.
func threeRings(inner, outer measure.Length) press.Compound {
	steel := press.Elastic{YoungModulusMPa: 206_000, Poisson: 0.29}
	aluminium := press.Elastic{YoungModulusMPa: 70_000, Poisson: 0.33}
	um := measure.Micrometres
	return press.Compound{Bore: um(20_000), Layers: []press.Layer{
		{Outside: um(29_990), Elastic: steel, DensityKgM3: 7850},
		{Outside: um(49_976), Elastic: aluminium, DensityKgM3: 2770, Interference: inner},
		{Outside: um(70_000), Elastic: steel, DensityKgM3: 7850, Interference: outer},
	}}
}

var threeRingLoad = press.Load{BorePressureMPa: 30, OutsidePressureMPa: 150, RadPerSecond: 420}

func pressures(t testing.TB, c press.Compound, load press.Load) []float64 {
	t.Helper()
	s, err := c.Solve(load)
	if err != nil {
		t.Fatal(err)
	}
	return s.InterfacePressuresMPa()
}

func TestThreeRings(t *testing.T) {
	um := measure.Micrometres
	got := pressures(t, threeRings(um(20), um(50)), threeRingLoad)
	if diff := cmp.Diff([]float64{175.0, 161.4}, got, cmpopts.EquateApprox(0, 0.05)); diff != "" {
		t.Errorf("published pressures (-want +got):\n%s", diff)
	}
	// An independent solution of the two equations gives a digit more than the paper prints.
	if diff := cmp.Diff([]float64{175.007, 161.388}, got, cmpopts.EquateApprox(0, 0.0006)); diff != "" {
		t.Errorf("recomputed pressures (-want +got):\n%s", diff)
	}
	// The mistake to make: radial interferences taken for diametral ones.
	halved := pressures(t, threeRings(um(10), um(25)), threeRingLoad)
	if diff := cmp.Diff([]float64{145.39, 138.14}, halved, cmpopts.EquateApprox(0, 0.005)); diff != "" {
		t.Errorf("half the interference (-want +got):\n%s", diff)
	}
}

func TestTwoLayersAreAJoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, j := drawSolution(t)
		s, err := press.Compound{Bore: g.section.ShaftInside, Layers: []press.Layer{
			{Outside: g.section.Interface, Elastic: j.Pair().Shaft()},
			{Outside: g.section.RingOutside, Elastic: j.Pair().Ring(), Interference: g.interference},
		}}.Solve(press.Load{})
		if err != nil {
			t.Fatal(err)
		}
		solution := j.Solve(g.interference)
		if got := s.InterfacePressuresMPa()[0]; math.Abs(got-solution.PressureMPa()) > 1e-9*got {
			t.Fatalf("compound %g, joint %g", got, solution.PressureMPa())
		}
		hoop, err := s.Stress(1, g.section.Interface)
		if err != nil {
			t.Fatal(err)
		}
		if want := solution.RingBore().HoopMPa; math.Abs(hoop.HoopMPa-want) > 1e-9*want {
			t.Fatalf("compound hoop %g, joint %g", hoop.HoopMPa, want)
		}
	})
}

// At every interface either the layers touch, push, and fit without a gap, or they stand open without pressure; and
// surfaces end up where the interference says.
func TestInterfacesTouchOrOpen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, load := drawCompound(t)
		s, err := c.Solve(load)
		if err != nil {
			t.Fatal(err)
		}
		openings, pressures := s.Openings(), s.InterfacePressuresMPa()
		for i, p := range pressures {
			if p < 0 || openings[i].Sign() < 0 || (p > 0 && !openings[i].IsZero()) {
				t.Fatalf("interface %d: pressure %g, opening %v", i, p, openings[i])
			}
			inner, err := s.Growth(i, c.Layers[i].Outside)
			if err != nil {
				t.Fatal(err)
			}
			outer, err := s.Growth(i+1, c.Layers[i].Outside)
			if err != nil {
				t.Fatal(err)
			}
			gap := outer.Sub(inner).Sub(c.Layers[i+1].Interference)
			if measure.Picometres(5).Less(gap.Sub(openings[i]).Abs()) {
				t.Fatalf("interface %d: surfaces part by %v, opening %v, pressure %g", i, gap, openings[i], p)
			}
		}
	})
}

func drawCompound(t *rapid.T) (press.Compound, press.Load) {
	um := func(name string, least, most int64) measure.Length {
		return measure.Micrometres(rapid.Int64Range(least, most).Draw(t, name))
	}
	c := press.Compound{Bore: um("bore", 0, 9000)}
	outside := c.Bore
	for i := range rapid.IntRange(2, 6).Draw(t, "layers") {
		outside = outside.Add(um("wall", 500, 9000))
		l := press.Layer{Outside: outside, Elastic: drawElastic(t, "layer"), DensityKgM3: rapid.Float64Range(900, 9000).Draw(t, "rho")}
		if i > 0 {
			l.Interference = um("interference", -60, 60)
		}
		c.Layers = append(c.Layers, l)
	}
	load := press.Load{
		OutsidePressureMPa: rapid.Float64Range(0, 50).Draw(t, "outside MPa"),
		RadPerSecond:       rapid.Float64Range(0, 3000).Draw(t, "rad/s"),
	}
	if !c.Bore.IsZero() {
		load.BorePressureMPa = rapid.Float64Range(0, 50).Draw(t, "bore MPa")
	}
	return c, load
}

// Timoshenko and Goodier, Theory of Elasticity, section 32: the hoop stress is greatest at the bore of a disc,
// (3+ν)/4 ρω² (b² + (1−ν)/(3+ν) a²), and (3+ν)/8 ρω² b² at the centre of one without a hole.
func TestTurningDisc(t *testing.T) {
	const nu, rho, omega = 0.29, 7850.0, 420.0
	spin := rho * omega * omega * 1e-12 // MPa/mm²
	steel := press.Elastic{YoungModulusMPa: 206_000, Poisson: nu}
	for _, c := range []struct {
		bore int64
		want float64
	}{
		{100, (3 + nu) / 4 * spin * (250*250 + (1-nu)/(3+nu)*50*50)},
		{0, (3 + nu) / 8 * spin * 250 * 250},
	} {
		s, err := press.Compound{Bore: measure.Millimetres(c.bore), Layers: []press.Layer{
			{Outside: measure.Millimetres(500), Elastic: steel, DensityKgM3: rho},
		}}.Solve(press.Load{RadPerSecond: -omega})
		if err != nil {
			t.Fatal(err)
		}
		stress, err := s.Stress(0, measure.Millimetres(c.bore))
		if err != nil {
			t.Fatal(err)
		}
		alike(t, "greatest hoop stress", stress.HoopMPa, c.want, 1e-12)
		rim, err := s.Stress(0, measure.Millimetres(500))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "radial stress at the free rim", rim.RadialMPa, 0, 1e-9)
		if len(s.InterfacePressuresMPa()) != 0 {
			t.Error("one layer has an interface")
		}
	}
}

// The displacement of a turning wall satisfies u″ + u′/r − u/r² = −(1−ν²) ρω² r/E, here by central differences on
// rings of a metre, where the picometres of a Length do not matter.
func TestDisplacementEquation(t *testing.T) {
	const nu, e, rho, omega = 0.3, 200_000.0, 7850.0, 200.0
	s, err := press.Compound{Bore: measure.Millimetres(800), Layers: []press.Layer{
		{Outside: measure.Millimetres(1400), Elastic: press.Elastic{YoungModulusMPa: e, Poisson: nu}, DensityKgM3: rho},
		{Outside: measure.Millimetres(2000), Elastic: press.Elastic{YoungModulusMPa: 2 * e, Poisson: nu}, DensityKgM3: rho,
			Interference: measure.Millimetres(1)},
	}}.Solve(press.Load{BorePressureMPa: 10, RadPerSecond: omega})
	if err != nil {
		t.Fatal(err)
	}
	const step = 2.0
	for layer, wall := range [][2]float64{{400, 700}, {700, 1000}} {
		u := func(r float64) float64 {
			l, err := s.Growth(layer, millimetres(t, 2*r))
			if err != nil {
				t.Fatal(err)
			}
			return l.Millimetres() / 2
		}
		modulus := e * float64(layer+1)
		for r := wall[0] + step; r < wall[1]-step; r += 20 {
			got := (u(r+step)-2*u(r)+u(r-step))/(step*step) + (u(r+step)-u(r-step))/(2*step*r) - u(r)/(r*r)
			want := -(1 - nu*nu) * rho * omega * omega * 1e-12 * r / modulus
			alike(t, "left side", got, want, 1e-3)
		}
	}
}

// A ring grows more than the solid shaft it turns with, so that the fit lets go at some speed.
func TestSpinningOpensAFit(t *testing.T) {
	steel := press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.3}
	c := press.Compound{Layers: []press.Layer{
		{Outside: measure.Millimetres(100), Elastic: steel, DensityKgM3: 7850},
		{Outside: measure.Millimetres(400), Elastic: steel, DensityKgM3: 7850, Interference: measure.Micrometres(50)},
	}}
	last := math.Inf(1)
	for _, omega := range []float64{0, 200, 400} {
		p := pressures(t, c, press.Load{RadPerSecond: omega})[0]
		if !(p < last && p > 0) {
			t.Errorf("%g rad/s: pressure %g after %g", omega, p, last)
		}
		last = p
	}
	s, err := c.Solve(press.Load{RadPerSecond: 1500})
	if err != nil {
		t.Fatal(err)
	}
	if p := s.InterfacePressuresMPa()[0]; p != 0 || s.Openings()[0].Sign() <= 0 {
		t.Errorf("1500 rad/s: pressure %g, opening %v", p, s.Openings()[0])
	}
}

// Growth beyond the range of a Length saturates or is an error; it does not wrap round.
func TestAbsurdGrowth(t *testing.T) {
	jelly := press.Elastic{YoungModulusMPa: 1e-6}
	s, err := press.Compound{Layers: []press.Layer{
		{Outside: measure.Millimetres(100), Elastic: jelly, DensityKgM3: 1},
		{Outside: measure.Millimetres(200), Elastic: jelly, DensityKgM3: 1e5},
	}}.Solve(press.Load{RadPerSecond: 1e9})
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Openings()[0]; got != measure.MaxLength {
		t.Errorf("opening %v, want it saturated", got)
	}
	var tooLong *measure.RangeError
	if _, err := s.Growth(1, measure.Millimetres(200)); !errors.As(err, &tooLong) {
		t.Errorf("growth: %v, want a range error", err)
	}
}

func TestCompoundErrorsNameTheField(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		field  string
		change func(*press.Compound, *press.Load)
	}{
		{"Layers", func(c *press.Compound, _ *press.Load) { c.Layers = nil }},
		{"Bore", func(c *press.Compound, _ *press.Load) { c.Bore = measure.Millimetres(-1) }},
		{"Layers[0].Interference", func(c *press.Compound, _ *press.Load) { c.Layers[0].Interference = measure.Thou(1) }},
		{"Layers[0].Outside", func(c *press.Compound, _ *press.Load) { c.Bore = measure.Millimetres(30) }},
		{"Layers[2].Outside", func(c *press.Compound, _ *press.Load) { c.Layers[2].Outside = measure.Millimetres(30) }},
		{"Layers[1].YoungModulusMPa", func(c *press.Compound, _ *press.Load) { c.Layers[1].Elastic.YoungModulusMPa = nan }},
		{"Layers[1].YoungModulusMPa", func(c *press.Compound, _ *press.Load) { c.Layers[1].Elastic = press.Rigid() }},
		{"Layers[1].Poisson", func(c *press.Compound, _ *press.Load) { c.Layers[1].Elastic.Poisson = 0.6 }},
		{"Layers[1].DensityKgM3", func(c *press.Compound, _ *press.Load) { c.Layers[1].DensityKgM3 = 0 }},
		{"Layers[1].DensityKgM3", func(c *press.Compound, _ *press.Load) { c.Layers[1].DensityKgM3 = nan }},
		{"BorePressureMPa", func(_ *press.Compound, l *press.Load) { l.BorePressureMPa = -1 }},
		{"BorePressureMPa", func(c *press.Compound, _ *press.Load) { c.Bore = measure.Length{} }},
		{"OutsidePressureMPa", func(_ *press.Compound, l *press.Load) { l.OutsidePressureMPa = nan }},
		{"RadPerSecond", func(_ *press.Compound, l *press.Load) { l.RadPerSecond = math.Inf(1) }},
	} {
		compound, load := threeRings(measure.Micrometres(20), measure.Micrometres(50)), threeRingLoad
		c.change(&compound, &load)
		_, err := compound.Solve(load)
		wantField(t, err, c.field)
	}
	s, err := threeRings(measure.Micrometres(20), measure.Micrometres(50)).Solve(threeRingLoad)
	if err != nil {
		t.Fatal(err)
	}
	for _, layer := range []int{-1, 3} {
		_, err = s.Stress(layer, measure.Millimetres(25))
		wantField(t, err, "layer")
	}
	_, err = s.Growth(0, measure.Millimetres(40))
	wantField(t, err, "diameter")
}

func BenchmarkCompound(b *testing.B) {
	c := threeRings(measure.Micrometres(20), measure.Micrometres(50))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Solve(threeRingLoad); err != nil {
			b.Fatal(err)
		}
	}
}
