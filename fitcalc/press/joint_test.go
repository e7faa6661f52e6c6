package press_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

const psi = 0.006894757293168 // MPa: 0.45359237 kg × 9.80665 m/s² over (25.4 mm)²

func millimetres(t testing.TB, x float64) measure.Length {
	t.Helper()
	l, err := measure.FromMillimetres(x)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g ± %g", what, got, want, tolerance)
	}
}

func alike(t testing.TB, what string, got, want, relative float64) {
	t.Helper()
	near(t, what, got, want, relative*math.Abs(want))
}

func mustJoint(t testing.TB, s press.Section, ring, shaft press.Elastic) press.Joint {
	t.Helper()
	j, err := press.NewJoint(s, ring, shaft)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Norton, Machine Design, 4th ed., example 10-5: p = 15 265 psi for a cast-iron hub on a solid steel shaft. The hoop
// stresses are computed from that pressure by the textbook formulas.
func TestNortonExample10_5(t *testing.T) {
	j := mustJoint(t,
		press.Section{RingOutside: measure.Inches(3), Interface: measure.Thou(781)},
		press.Elastic{YoungModulusMPa: 14e6 * psi, Poisson: 0.28},
		press.Elastic{YoungModulusMPa: 30e6 * psi, Poisson: 0.28})
	s := j.Solve(measure.Thou(3).Half())
	near(t, "p, psi", s.PressureMPa()/psi, 15_265, 1)
	near(t, "hub bore hoop, psi", s.RingBore().HoopMPa/psi, 17_485, 1)
	near(t, "hub bore radial, psi", s.RingBore().RadialMPa/psi, -15_265, 1)
	near(t, "shaft hoop, psi", s.ShaftSurface().HoopMPa/psi, -15_265, 1)
}

// Aluminium gear of 55 mm on a solid aluminium shaft of 30 mm, 0.10 mm on the diameter, E = 69 GPa (inputs of a
// published exercise). Poisson's ratio cancels, so the pressure is p = E δ/(2d) (1 − d²/D²) by hand, and the rest
// follows from σθ = p (D²+d²)/(D²−d²) and the definitions of the two criteria.
func TestAluminiumGear(t *testing.T) {
	for _, nu := range []float64{0, 0.3, 0.33} {
		al := press.Elastic{YoungModulusMPa: 69_000, Poisson: nu}
		j := mustJoint(t, press.Section{RingOutside: measure.Millimetres(55), Interface: measure.Millimetres(30)}, al, al)
		s := j.Solve(measure.Micrometres(100))
		near(t, "p", s.PressureMPa(), 80.785, 0.0005)
		near(t, "hoop", s.RingBore().HoopMPa, 149.215, 0.0005)
		near(t, "von Mises", s.RingBore().VonMisesMPa(), 202.10, 0.005)
		near(t, "Tresca", s.RingBore().TrescaMPa(), 230.0, 0.0005)

		margin, err := s.RingYieldMargin(404.2, press.VonMises)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "von Mises margin", margin, 2, 1e-4)
		margin, err = s.RingYieldMargin(460, press.Tresca)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Tresca margin", margin, 2, 1e-5)
	}
}

// Two steel cylinders, radii 50/75.025 and 75/150 mm, E = 200 GPa, ν = 0.28. A published exercise states 16.9 MPa,
// which is the plane-strain answer; a short ring is in plane stress, 15.625 MPa, smaller by 1 − ν².
func TestPlaneStressNotPlaneStrain(t *testing.T) {
	steel := press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.28}
	j := mustJoint(t, press.Section{
		RingOutside: measure.Millimetres(300), Interface: measure.Millimetres(150), ShaftInside: measure.Millimetres(100),
	}, steel, steel)
	p := j.PressureMPa(measure.Micrometres(50))
	near(t, "p", p, 15.625, 1e-9)
	near(t, "plane strain", p/(1-0.28*0.28), 16.954, 0.0005)
	if math.Abs(p-16.9) < 1 {
		t.Errorf("p = %g is the plane-strain pressure", p)
	}
}

// A 4 mm pin in an 8 mm polycarbonate boss, 60 MPa allowed, E = 2400 MPa, ν = 0.38. A published article prints
// 0.2047 mm, having left out the division by W = 5/3: that limits the pressure, and lets the hoop stress reach 97.7 MPa.
func TestHoopLimitedBoss(t *testing.T) {
	pc := press.Elastic{YoungModulusMPa: 2400, Poisson: 0.38}
	steel := press.Elastic{YoungModulusMPa: 206_000, Poisson: 0.29}
	section := press.Section{RingOutside: measure.Millimetres(8), Interface: measure.Millimetres(4)}
	for _, c := range []struct {
		name string
		pin  press.Elastic
		want float64
	}{
		{"rigid pin", press.Rigid(), 0.1228},
		{"steel pin", steel, 0.12330},
	} {
		limit, err := mustJoint(t, section, pc, c.pin).MaxInterferenceForHoop(60)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name, limit.Millimetres(), c.want, 0.00005)
		if math.Abs(limit.Millimetres()-0.2047) < 0.05 {
			t.Errorf("%s: %g mm limits the pressure, not the hoop stress", c.name, limit.Millimetres())
		}
	}
	s := mustJoint(t, section, pc, press.Rigid()).Solve(measure.Micrometres(200))
	near(t, "p at 0.20 mm", s.PressureMPa(), 58.6, 0.05)
	near(t, "hoop at 0.20 mm", s.RingBore().HoopMPa, 97.7, 0.05)
	wrong, err := mustJoint(t, section, pc, press.Rigid()).MaxInterferenceForPressure(60)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "what the article printed is the pressure limit", wrong.Millimetres(), 0.2047, 0.00005)
}

// Shigley's, 9th ed., eq. (7-40), written out for one material.
func TestSameMaterialFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGeometry(t)
		e := rapid.Float64Range(500, 250_000).Draw(t, "E")
		nu := rapid.Float64Range(0, 0.5).Draw(t, "nu")
		same := press.Elastic{YoungModulusMPa: e, Poisson: nu}
		j, err := press.NewJoint(g.section, same, same)
		if err != nil {
			t.Fatal(err)
		}
		do, d, di := g.mm()
		delta := g.interference.Millimetres()
		want := e * delta / (2 * d * d * d) * (do*do - d*d) * (d*d - di*di) / (do*do - di*di)
		if got := j.PressureMPa(g.interference); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("p = %g, formula for one material gives %g", got, want)
		}
	})
}

type geometry struct {
	section      press.Section
	interference measure.Length
}

func (g geometry) mm() (do, d, di float64) {
	return g.section.RingOutside.Millimetres(), g.section.Interface.Millimetres(), g.section.ShaftInside.Millimetres()
}

func drawGeometry(t *rapid.T) geometry {
	um := func(name string, least, most int64) measure.Length {
		return measure.Micrometres(rapid.Int64Range(least, most).Draw(t, name))
	}
	bore := um("inside", 0, 8000)
	interfac := bore.Add(um("shaft wall", 200, 5000))
	return geometry{
		section:      press.Section{ShaftInside: bore, Interface: interfac, RingOutside: interfac.Add(um("ring wall", 200, 9000))},
		interference: um("interference", 1, 200),
	}
}

func drawElastic(t *rapid.T, name string) press.Elastic {
	return press.Elastic{
		YoungModulusMPa: rapid.Float64Range(500, 250_000).Draw(t, name+" E"),
		Poisson:         rapid.Float64Range(0, 0.5).Draw(t, name+" nu"),
	}
}

func drawSolution(t *rapid.T) (geometry, press.Joint) {
	g := drawGeometry(t)
	j, err := press.NewJoint(g.section, drawElastic(t, "ring"), drawElastic(t, "shaft"))
	if err != nil {
		t.Fatal(err)
	}
	return g, j
}

func TestPressureGrowsWithInterference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, j := drawSolution(t)
		more := g.interference.Add(measure.Micrometres(rapid.Int64Range(1, 100).Draw(t, "more")))
		if j.PressureMPa(g.interference) >= j.PressureMPa(more) {
			t.Fatal("more interference does not press harder")
		}
		for _, none := range []measure.Length{{}, g.interference.Neg()} {
			s := j.Solve(none)
			if s.PressureMPa() != 0 || s.Contact() || s.RingBore() != (press.Stress{}) && s.RingBore().VonMisesMPa() != 0 {
				t.Fatalf("interference %v: pressure %g", none, s.PressureMPa())
			}
		}
	})
}

// Cutting ring or shaft in half leaves hoop stress to carry the pressure on the projected diameter.
func TestHoopStressCarriesThePressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, j := drawSolution(t)
		do, d, di := g.mm()
		s := j.Solve(g.interference)
		integrate := func(at func(measure.Length) (press.Stress, error), from, to float64) float64 {
			return quad.Fixed(func(r float64) float64 {
				l, err := measure.FromMillimetres(2 * r)
				if err != nil {
					t.Fatal(err)
				}
				stress, err := at(l)
				if err != nil {
					t.Fatal(err)
				}
				return stress.HoopMPa
			}, from/2, to/2, 200, quad.Legendre{}, 0)
		}
		want := s.PressureMPa() * d / 2
		if got := integrate(s.RingStress, d, do); math.Abs(got-want) > 1e-6*want {
			t.Fatalf("ring carries %g N/mm, the pressure is %g", got, want)
		}
		if got := integrate(s.ShaftStress, di, d); di == 0 || di > d/20 {
			if math.Abs(got+want) > 1e-6*want {
				t.Fatalf("shaft carries %g N/mm, the pressure is %g", got, -want)
			}
		}
	})
}

func TestScalingLeavesPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, j := drawSolution(t)
		k := rapid.Int64Range(2, 1000).Draw(t, "k")
		big, err := press.NewJoint(press.Section{
			RingOutside: g.section.RingOutside.MulInt(k), Interface: g.section.Interface.MulInt(k),
			ShaftInside: g.section.ShaftInside.MulInt(k),
		}, j.Pair().Ring(), j.Pair().Shaft())
		if err != nil {
			t.Fatal(err)
		}
		got, want := big.PressureMPa(g.interference.MulInt(k)), j.PressureMPa(g.interference)
		if math.Abs(got-want) > 1e-9*want {
			t.Fatalf("scaled by %d: %g, was %g", k, got, want)
		}
	})
}

func TestInchAndMillimetreAgree(t *testing.T) {
	ca := press.Elastic{YoungModulusMPa: 1700, Poisson: 0.39}
	steel := press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.3}
	inch := mustJoint(t, press.Section{RingOutside: measure.Thou(535), Interface: measure.Thou(370), ShaftInside: measure.Thou(310)}, ca, steel)
	metric := mustJoint(t, press.Section{RingOutside: measure.Micrometres(13_589), Interface: measure.Micrometres(9_398), ShaftInside: measure.Micrometres(7_874)}, ca, steel)
	if inch != metric {
		t.Error("a joint in inches differs from the same joint in millimetres")
	}
	if a, b := inch.Solve(measure.Thou(2)), metric.Solve(millimetres(t, 0.0508)); a != b {
		t.Errorf("%v in inches, %v in millimetres", a, b)
	}
}

// Force balance of a ring element, dσr/dr = (σθ − σr)/r, and compatibility, σr + σθ constant over the wall, by central
// differences.
func TestLameEquations(t *testing.T) {
	j := mustJoint(t, press.Section{
		RingOutside: measure.Micrometres(13_589), Interface: measure.Micrometres(9_398), ShaftInside: measure.Micrometres(7_874),
	}, press.Elastic{YoungModulusMPa: 1700, Poisson: 0.39}, press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.3})
	s := j.Solve(measure.Thou(2))
	const step = 0.001 // on the radius
	for _, part := range []struct {
		name     string
		from, to float64
		stress   func(measure.Length) (press.Stress, error)
	}{{"ring", 9.398, 13.589, s.RingStress}, {"shaft", 7.874, 9.398, s.ShaftStress}} {
		at := func(r float64) press.Stress {
			stress, err := part.stress(millimetres(t, 2*r))
			if err != nil {
				t.Fatal(err)
			}
			return stress
		}
		sum := at(part.from/2).HoopMPa + at(part.from/2).RadialMPa
		for r := part.from/2 + step; r < part.to/2-step; r += 0.05 {
			here := at(r)
			slope := (at(r+step).RadialMPa - at(r-step).RadialMPa) / (2 * step)
			alike(t, part.name+": dσr/dr", slope, (here.HoopMPa-here.RadialMPa)/r, 1e-5)
			alike(t, part.name+": σr+σθ", here.HoopMPa+here.RadialMPa, sum, 1e-9)
		}
		near(t, part.name+": at the interface", at(4.699).RadialMPa, -s.PressureMPa(), 1e-9)
	}
}

func TestGrowthClosesTheInterference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, j := drawSolution(t)
		s := j.Solve(g.interference)
		grown := s.Growth()
		gap := grown.RingBore.Sub(grown.ShaftSurface).Sub(g.interference).Abs()
		if measure.Picometres(2).Less(gap) {
			t.Fatalf("bore and surface miss each other by %v", gap)
		}
		if grown.RingOutside.Sign() < 0 || grown.RingBore.Less(grown.RingOutside) {
			t.Fatalf("the ring grows by %v at its bore, %v outside", grown.RingBore, grown.RingOutside)
		}
		_, d, _ := g.mm()
		if got := s.BoreStrain() * d; math.Abs(got-grown.RingBore.Millimetres()) > 2e-9 {
			t.Fatalf("strain times diameter %g, growth %v", got, grown.RingBore)
		}
	})
}

func TestMostLoadedPlaceOfTheShaft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, j := drawSolution(t)
		s := j.Solve(g.interference)
		share := rapid.Int64Range(0, 100).Draw(t, "share")
		wall := g.section.Interface.Sub(g.section.ShaftInside)
		here, err := s.ShaftStress(g.section.ShaftInside.Add(wall.MulRatio(share, 100)))
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []press.Criterion{press.VonMises, press.Tresca} {
			if here.EquivalentMPa(c) > s.ShaftMost().EquivalentMPa(c)*(1+1e-9) {
				t.Fatalf("%v: %v is loaded more than %v", c, here, s.ShaftMost())
			}
		}
	})
}

// The bore of a tube under outside pressure carries −2p d²/(d²−d_i²), and no radial stress.
func TestTubeBoreStress(t *testing.T) {
	steel := press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.3}
	s := mustJoint(t, press.Section{
		RingOutside: measure.Millimetres(30), Interface: measure.Millimetres(20), ShaftInside: measure.Millimetres(10),
	}, steel, steel).Solve(measure.Micrometres(20))
	near(t, "hoop", s.ShaftMost().HoopMPa, -s.PressureMPa()*8/3, 1e-9)
	near(t, "radial", s.ShaftMost().RadialMPa, 0, 1e-9)
	margin, err := s.ShaftYieldMargin(s.PressureMPa()*8, press.Tresca)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "margin", margin, 3, 1e-9)
}

func TestMaxInterferenceIsTheInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, j := drawSolution(t)
		limit := rapid.Float64Range(1, 500).Draw(t, "MPa")
		strain := rapid.Float64Range(0.001, 0.05).Draw(t, "strain")
		for _, c := range []struct {
			name  string
			limit float64
			most  func() (measure.Length, error)
			value func(press.Solution) float64
		}{
			{"pressure", limit, func() (measure.Length, error) { return j.MaxInterferenceForPressure(limit) }, press.Solution.PressureMPa},
			{"hoop", limit, func() (measure.Length, error) { return j.MaxInterferenceForHoop(limit) },
				func(s press.Solution) float64 { return s.RingBore().HoopMPa }},
			{"strain", strain, func() (measure.Length, error) { return j.MaxInterferenceForStrain(strain) }, press.Solution.BoreStrain},
			{"von Mises", limit, func() (measure.Length, error) { return j.MaxInterferenceForYield(limit, press.VonMises) },
				func(s press.Solution) float64 { return s.RingBore().VonMisesMPa() }},
			{"Tresca", limit, func() (measure.Length, error) { return j.MaxInterferenceForYield(limit, press.Tresca) },
				func(s press.Solution) float64 { return s.RingBore().TrescaMPa() }},
		} {
			most, err := c.most()
			if err != nil {
				t.Fatal(err)
			}
			got := c.value(j.Solve(most))
			next := c.value(j.Solve(most.Add(measure.Picometres(2))))
			if got > c.limit*(1+1e-12) || next < c.limit*(1-1e-12) {
				t.Fatalf("%s limit %g: %g at the most interference, %g just above", c.name, c.limit, got, next)
			}
		}
	})
}

func TestCriteria(t *testing.T) {
	for _, c := range []struct {
		stress        press.Stress
		mises, tresca float64
	}{
		{press.Stress{HoopMPa: 100}, 100, 100},
		{press.Stress{HoopMPa: 100, RadialMPa: 100}, 100, 100},
		{press.Stress{HoopMPa: 100, RadialMPa: -100}, 100 * math.Sqrt(3), 200}, // pure shear: τ = σy/√3 and σy/2
		{press.Stress{HoopMPa: -50, RadialMPa: -50}, 50, 50},
		{press.Stress{}, 0, 0},
	} {
		near(t, "von Mises", c.stress.EquivalentMPa(press.VonMises), c.mises, 1e-12)
		near(t, "Tresca", c.stress.EquivalentMPa(press.Tresca), c.tresca, 1e-12)
	}
	if margin, err := (press.Stress{}).YieldMargin(100, press.VonMises); err != nil || !math.IsInf(margin, 1) {
		t.Errorf("unloaded: margin %g, %v", margin, err)
	}
	if !math.IsNaN(press.Stress{HoopMPa: 1}.EquivalentMPa(9)) {
		t.Error("a criterion that does not exist has a value")
	}
}

// δ_min = d_min − D_max and δ_max = d_max − D_min, on the limits of 12 H7/p6 in ISO 286-2: interference 0 to 0.029 mm.
func TestInterferenceLimits(t *testing.T) {
	shaft := press.Limits{Least: measure.Micrometres(12_018), Most: measure.Micrometres(12_029)}
	bore := press.Limits{Least: measure.Micrometres(12_000), Most: measure.Micrometres(12_018)}
	got, err := press.InterferenceLimits(shaft, bore)
	if want := (press.Limits{Most: measure.Micrometres(29)}); err != nil || got != want {
		t.Errorf("12 H7/p6: %v, %v, want %v", got, err, want)
	}
	for field, call := range map[string]func() (press.Limits, error){
		"shaft.Most": func() (press.Limits, error) {
			return press.InterferenceLimits(press.Limits{Least: shaft.Most, Most: shaft.Least}, bore)
		},
		"bore.Most": func() (press.Limits, error) {
			return press.InterferenceLimits(shaft, press.Limits{Least: bore.Most, Most: bore.Least})
		},
	} {
		_, err := call()
		wantField(t, err, field)
	}
}

func wantField(t *testing.T, err error, field string) {
	t.Helper()
	var input *press.InputError
	if !errors.As(err, &input) {
		t.Errorf("got %v, want an InputError on %s", err, field)
		return
	}
	if input.Field != field || input.Want == "" || input.Value == "" {
		t.Errorf("got %q, want field %s", err, field)
	}
}

func TestJointErrorsNameTheField(t *testing.T) {
	mm := measure.Millimetres
	good := press.Section{RingOutside: mm(13), Interface: mm(9), ShaftInside: mm(8)}
	e := press.Elastic{YoungModulusMPa: 2000, Poisson: 0.3}
	nan := math.NaN()
	for _, c := range []struct {
		field       string
		section     press.Section
		ring, shaft press.Elastic
	}{
		{"RingOutside", press.Section{RingOutside: mm(9), Interface: mm(9)}, e, e},
		{"RingOutside", press.Section{Interface: mm(9)}, e, e},
		{"Interface", press.Section{RingOutside: mm(13), Interface: mm(9), ShaftInside: mm(9)}, e, e},
		{"Interface", press.Section{RingOutside: mm(13)}, e, e},
		{"Interface", press.Section{RingOutside: mm(13), Interface: mm(-9)}, e, e},
		{"ShaftInside", press.Section{RingOutside: mm(13), Interface: mm(9), ShaftInside: mm(-1)}, e, e},
		{"Ring.YoungModulusMPa", good, press.Elastic{}, e},
		{"Ring.YoungModulusMPa", good, press.Elastic{YoungModulusMPa: nan}, e},
		{"Ring.YoungModulusMPa", good, press.Rigid(), press.Rigid()},
		{"Shaft.YoungModulusMPa", good, e, press.Elastic{YoungModulusMPa: -1}},
		{"Shaft.Poisson", good, e, press.Elastic{YoungModulusMPa: 1, Poisson: 0.51}},
		{"Ring.Poisson", good, press.Elastic{YoungModulusMPa: 1, Poisson: -1}, e},
		{"Ring.Poisson", good, press.Elastic{YoungModulusMPa: 1, Poisson: nan}, e},
	} {
		_, err := press.NewJoint(c.section, c.ring, c.shaft)
		wantField(t, err, c.field)
	}

	j := mustJoint(t, good, e, e)
	s := j.Solve(measure.Micrometres(10))
	for _, limit := range []float64{0, -1, nan, math.Inf(1)} {
		for field, most := range map[string]func(float64) (measure.Length, error){
			"pressure limit": j.MaxInterferenceForPressure, "hoop stress limit": j.MaxInterferenceForHoop,
			"strain limit": j.MaxInterferenceForStrain,
			"YieldMPa": func(x float64) (measure.Length, error) {
				return j.MaxInterferenceForYield(x, press.Tresca)
			},
		} {
			_, err := most(limit)
			wantField(t, err, field)
		}
		_, err := s.RingYieldMargin(limit, press.VonMises)
		wantField(t, err, "YieldMPa")
	}
	_, err := j.MaxInterferenceForHoop(1e300)
	wantField(t, err, "hoop stress limit")
	_, err = j.MaxInterferenceForYield(10, 7)
	wantField(t, err, "Criterion")
	_, err = s.ShaftYieldMargin(10, 7)
	wantField(t, err, "Criterion")
	_, err = mustJoint(t, good, press.Rigid(), e).MaxInterferenceForStrain(0.02)
	wantField(t, err, "Ring.YoungModulusMPa")
	for _, d := range []measure.Length{mm(7), mm(14)} {
		_, err = s.RingStress(d)
		wantField(t, err, "diameter")
		_, err = s.ShaftStress(d)
		wantField(t, err, "diameter")
	}
}

func TestFastPath(t *testing.T) {
	e := press.Elastic{YoungModulusMPa: 2000, Poisson: 0.3}
	pair, err := press.NewPair(e, e)
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range [][4]float64{
		{9, 9, 8, 0.1}, {13, 9, 9, 0.1}, {13, 9, -1, 0.1}, {13, 9, 8, math.NaN()}, {math.NaN(), 9, 8, 0.1}, {9, 9, 8, -1},
	} {
		if p := pair.PressureMPa(bad[0], bad[1], bad[2], bad[3]); !math.IsNaN(p) {
			t.Errorf("PressureMPa(%v) = %g, want NaN", bad, p)
		}
	}
	if p := (press.Pair{}).PressureMPa(13, 9, 8, 0.1); !math.IsNaN(p) {
		t.Errorf("zero Pair gives a pressure, %g", p)
	}
	if allocs := testing.AllocsPerRun(100, func() { sink = pair.PressureMPa(13, 9, 8, 0.1) }); allocs != 0 {
		t.Errorf("%g allocations", allocs)
	}
}

var sink float64

func BenchmarkPairPressure(b *testing.B) {
	pair, err := press.NewPair(press.Elastic{YoungModulusMPa: 1700, Poisson: 0.39}, press.Elastic{YoungModulusMPa: 200_000, Poisson: 0.3})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	d := 9.398
	for b.Loop() {
		sink = pair.PressureMPa(13.589, d, 7.874, 0.0508)
	}
}

// Whatever the lengths and constants within their limits, a joint that is accepted has finite results.
func TestExtremesStayFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) measure.Length {
			return measure.Picometres(rapid.Int64Range(0, measure.MaxLength.Picometres()).Draw(t, name))
		}
		elastic := func(name string) press.Elastic {
			return press.Elastic{
				YoungModulusMPa: math.Pow(10, rapid.Float64Range(-6, 12).Draw(t, name)),
				Poisson:         rapid.Float64Range(-0.999, 0.5).Draw(t, name+" nu"),
			}
		}
		j, err := press.NewJoint(press.Section{
			RingOutside: length("outside"), Interface: length("interface"), ShaftInside: length("inside"),
		}, elastic("ring"), elastic("shaft"))
		if err != nil {
			return
		}
		s := j.Solve(length("interference"))
		for _, x := range []float64{
			s.PressureMPa(), s.BoreStrain(), s.RingBore().VonMisesMPa(), s.ShaftMost().TrescaMPa(), s.ShaftSurface().HoopMPa,
		} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%+v: %g", s, x)
			}
		}
		if s.PressureMPa() < 0 {
			t.Fatalf("negative pressure %g", s.PressureMPa())
		}
	})
}
