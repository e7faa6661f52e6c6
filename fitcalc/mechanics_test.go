package fitcalc

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// pressed is a joint whose press fit can be worked out.
func pressed(t testing.TB) *parts {
	p := soundParts(t)
	p.ferrule.Material = CelluloseAcetate
	p.ferrule.BaseOD, p.ferrule.TopOD = dim(t, ".512 in"), dim(t, ".400 in")
	p.head.HoselOD = dim(t, ".500 in")
	return p
}

func (p *parts) mechanics(s Shaft) (Mechanics, error) {
	return MechanicsOf(p.head, p.tip, p.ferrule, p.shop, s)
}

// Every material that a ferrule is known to be of has its row in the table of package press, by the word that sheets give it.
func TestMaterialsHaveMechanics(t *testing.T) {
	for m := CelluloseAcetate; m < OtherMaterial; m++ {
		row, err := press.MaterialByName(m.String())
		if err != nil {
			t.Errorf("%v: %v", m, err)
			continue
		}
		if _, err := row.Elastic(); err != nil {
			t.Errorf("%v: %v", m, err)
		}
	}
	for word, want := range map[string]string{"nylon": "nylon 6", "Nylon": "nylon 6", "acetal": "POM copolymer"} {
		if row, err := press.MaterialByName(word); err != nil || row.Name != want {
			t.Errorf("%s is %s, %v", word, row.Name, err)
		}
	}
}

// A ring of cellulose acetate, D .535 in on d .370 in with δ .002 in, on a rigid shaft, by Lamé: (D² + d²)/(D² − d²) = 2.8335, so that
// p = 1700 · .002/(.370 (2.8335 + 0.39)) = 2.851 MPa, and over half an inch of a cylinder the surfaces are pressed together by
// p π d L = 2.851 π 9.398 · 12.7 = 1069 N. Formulas: Shigley's Mechanical Engineering Design, 9th ed., eq. (7-39) with a rigid shaft.
func TestMechanicsByHand(t *testing.T) {
	p := pressed(t)
	p.ferrule.BaseOD, p.ferrule.TopOD, p.ferrule.Length = dim(t, ".535 in"), measure.Dim{}, dim(t, ".5 in")
	p.head.HoselOD = dim(t, ".535 in")
	m, err := p.mechanics(Shaft{Friction: 0.3})
	if err != nil {
		t.Fatal(err)
	}
	if m.Interference != measure.Thou(2) || m.Diameter != measure.Thou(370) || m.Tightest != m.Insertion || m.Insertion != p.head.BoreDepth.Nominal() {
		t.Errorf("%v of %v at %v", m.Interference, m.Diameter, m.Tightest)
	}
	pair, err := press.NewJoint(m.Section(), m.Ring, m.Shaft)
	if err != nil {
		t.Fatal(err)
	}
	close := func(what string, got, want, tolerance float64) {
		t.Helper()
		if math.Abs(got-want) > tolerance {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	close("pressure", pair.Solve(m.Interference).PressureMPa(), 2.851, .0005)
	for what, of := range map[string]func() (press.Assembly, error){"supplied": m.Supplied, "turned": m.Turned} {
		assembly, err := of()
		if err != nil {
			t.Fatal(err)
		}
		grip, err := assembly.At(m.Insertion)
		if err != nil {
			t.Fatal(err)
		}
		close(what+": force between", grip.NormalN, 1069, .5)
		close(what+": push-on force", grip.PushOnN, .3*1069, .2)
	}
	w, err := m.Easing(20).Solve()
	if err != nil {
		t.Fatal(err)
	}
	close("warming", w.RiseK, .002/.368/12e-5, 1e-9) // ΔT = δ/(d α), d the bore: it grows from .368 in to the shaft's .370 in
}

// The outline of a turned base against the same put together by hand: B .512, T .400, H .500 in over L half an inch is a cylinder up
// to L (B − H)/(B − T) = .5 · 12/112 in.
func TestTurnedOutline(t *testing.T) {
	p := pressed(t)
	m, err := p.mechanics(Shaft{Material: "steel", Inside: measure.Millimetres(7), Friction: .3})
	if err != nil {
		t.Fatal(err)
	}
	length := p.ferrule.Length.Nominal()
	corner := length.MulRatio(12, 112)
	turning, err := TurningOf(p.head, p.tip, p.ferrule, p.shop)
	if err != nil || turning.Height != corner {
		t.Errorf("turned up to %v, %v; want %v", turning.Height, err, corner)
	}
	outline := func(points ...press.Point) press.Grip {
		t.Helper()
		outside, err := press.NewProfile(points...)
		if err != nil {
			t.Fatal(err)
		}
		assembly, err := press.NewAssembly(
			press.Ferrule{Length: length, Bore: press.Constant(p.ferrule.Bore.Nominal()), Outside: outside, Elastic: m.Ring},
			press.Tip{Outside: press.Constant(p.tip.Diameter(measure.Length{}).Nominal()), Inside: press.Constant(measure.Millimetres(7)), Elastic: m.Shaft}, .3)
		if err != nil {
			t.Fatal(err)
		}
		grip, err := assembly.At(m.Insertion)
		if err != nil {
			t.Fatal(err)
		}
		return grip
	}
	grip := func(of func() (press.Assembly, error)) press.Grip {
		t.Helper()
		assembly, err := of()
		if err != nil {
			t.Fatal(err)
		}
		g, err := assembly.At(m.Insertion)
		if err != nil {
			t.Fatal(err)
		}
		return g
	}
	same := func(what string, got, want press.Grip) {
		t.Helper()
		if math.Abs(got.NormalN-want.NormalN) > 1e-9*want.NormalN || got.Tightest.Interference != want.Tightest.Interference {
			t.Errorf("%s: %+v, want %+v", what, got, want)
		}
	}
	supplied := outline(press.Point{Diameter: measure.Thou(512)}, press.Point{At: length, Diameter: measure.Thou(400)})
	turned := outline(press.Point{At: corner, Diameter: measure.Thou(500)}, press.Point{At: length, Diameter: measure.Thou(400)})
	same("supplied", grip(m.Supplied), supplied)
	same("turned", grip(m.Turned), turned)
	if !(turned.NormalN < supplied.NormalN) {
		t.Errorf("a thinner ring grips harder: %v N and %v N", turned.NormalN, supplied.NormalN)
	}
	if got := m.Section().RingOutside; got != measure.Thou(500) {
		t.Errorf("the section at the base is %v", got)
	}
	p.head.HoselOD = dim(t, ".390 in") // below the top: a cylinder all the way
	p.head.Bore, p.tip, p.ferrule.Bore = dim(t, ".374 in"), ParallelTip(dim(t, ".370 in")), dim(t, ".368 in")
	m, err = p.mechanics(Shaft{Material: "steel", Inside: measure.Millimetres(7), Friction: .3})
	if err != nil {
		t.Fatal(err)
	}
	same("turned through", grip(m.Turned), outline(press.Point{Diameter: measure.Thou(390)}))
}

// Package press and the verdict agree on how tight a seated ferrule is, where, and over what length, on tips of every form.
func TestMechanicsAgreeWithFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		um := func(name string, least, most int64) measure.Length {
			return measure.Micrometres(rapid.Int64Range(least, most).Draw(t, name))
		}
		shop := DefaultShop()
		tip := ParallelTip(measure.Nominal(um("tip", 8900, 9500)))
		switch rapid.IntRange(0, 2).Draw(t, "form") {
		case 0:
			tip = TaperTip(measure.Nominal(um("taper tip", 8600, 9100)), shop.TipTaper)
		case 1:
			stations := []Station{{Diameter: um("first", 8900, 9400)}}
			for i := range rapid.IntRange(0, 5).Draw(t, "stations") {
				stations = append(stations, Station{At: measure.Millimetres(int64(8*i + 8)), Diameter: um("station", 8900, 9500)})
			}
			profile, err := ProfileTip(measure.Micrometres(20), stations...)
			if err != nil {
				t.Fatal(err)
			}
			tip = profile
		}
		tip = tip.Trim(um("trim", 0, 20000))
		head := Head{HoselOD: measure.Nominal(um("hosel", 12000, 14000)), BoreDepth: measure.Nominal(um("depth", 20000, 35000))}
		ferrule := Ferrule{
			Bore: measure.Nominal(um("bore", 8900, 9480)), BaseOD: measure.Nominal(um("base", 12000, 14500)),
			Length: measure.Nominal(um("length", 3000, 30000)), Material: Material(rapid.IntRange(1, 5).Draw(t, "material")),
		}
		fit, err := Evaluate(head, tip, ferrule, shop)
		if err != nil {
			t.Fatal(err)
		}
		m, err := MechanicsOf(head, tip, ferrule, shop, Shaft{Material: "steel", Inside: measure.Millimetres(6)})
		if err != nil {
			t.Fatal(err)
		}
		if m.Interference != fit.Grip.Interference.Nominal || m.Insertion != fit.Grip.Insertion {
			t.Fatalf("%v at %v, and the fit has %v at %v", m.Interference, m.Insertion, fit.Grip.Interference.Nominal, fit.Grip.Insertion)
		}
		if at := tip.Diameter(m.Tightest).Nominal(); at != m.Diameter {
			t.Fatalf("%v at %v, where the tip is %v", m.Diameter, m.Tightest, at)
		}
		assembly, err := m.Turned()
		if err != nil {
			t.Fatal(err)
		}
		grip, err := assembly.At(m.Insertion)
		if err != nil {
			t.Fatal(err)
		}
		few := measure.Picometres(20) // diameters between stations are rounded
		near := func(a, b measure.Length) bool { return !few.Less(a.Sub(b).Abs()) }
		if m.Interference.Sign() > 0 && !(near(grip.Tightest.Interference, m.Interference) && near(tip.Diameter(grip.Tightest.OnTip).Nominal(), m.Diameter)) {
			t.Fatalf("press finds %+v, and the tightest is %v at %v", grip.Tightest, m.Interference, m.Tightest)
		}
		// Where the interference crosses nothing at a shallow angle, a picometre of diameter is much on the axis.
		if d := grip.Length.Sub(fit.Grip.Length).Abs(); measure.Micrometres(1).Less(d) {
			t.Fatalf("grips over %v, and by the fit over %v", grip.Length, fit.Grip.Length)
		}
		if m.Interference.Sign() <= 0 {
			return
		}
		joint, err := press.NewJoint(m.Section(), m.Ring, m.Shaft)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := joint.Solve(m.Interference).PressureMPa(), grip.Tightest.PressureMPa; math.Abs(got-want) > 1e-6*want {
			t.Fatalf("the section has %v MPa, and the assembly %v", got, want)
		}
	})
}

func TestMechanicsInput(t *testing.T) {
	field := func(want Field) func(error) bool {
		return func(err error) bool { var e *InputError; return errors.As(err, &e) && e.Field == want }
	}
	unknown := func(err error) bool { var e *press.UnknownMaterialError; return errors.As(err, &e) }
	for what, test := range map[string]struct {
		change func(*parts)
		shaft  Shaft
		right  func(error) bool
	}{
		"no tip":                {func(p *parts) { p.tip = Tip{} }, Shaft{}, field(FieldTip)},
		"no bore":               {func(p *parts) { p.ferrule.Bore = measure.Dim{} }, Shaft{}, field(FieldFerruleBore)},
		"no base":               {func(p *parts) { p.ferrule.BaseOD = measure.Dim{} }, Shaft{}, field(FieldBaseOD)},
		"impossible":            {func(p *parts) { p.ferrule.BaseOD = dim(p.t, ".3 in") }, Shaft{}, field(FieldBaseOD)},
		"no material":           {func(p *parts) { p.ferrule.Material = MaterialUnknown }, Shaft{}, unknown},
		"other material":        {func(p *parts) { p.ferrule.Material = OtherMaterial }, Shaft{}, unknown},
		"shaft of what":         {func(*parts) {}, Shaft{Material: "unobtainable"}, unknown},
		"inside out":            {func(*parts) {}, Shaft{Inside: measure.Millimetres(-7)}, field(FieldTip)},
		"shaft without modulus": {func(*parts) {}, Shaft{Material: "zinc"}, func(err error) bool { var e *press.MissingPropertyError; return errors.As(err, &e) }},
		"shop":                  {func(p *parts) { p.shop.SlipRisk = 2 }, Shaft{}, func(err error) bool { var e *SettingError; return errors.As(err, &e) }},
	} {
		p := pressed(t)
		test.change(p)
		if m, err := p.mechanics(test.shaft); !test.right(err) || m.Material.Name != "" {
			t.Errorf("%s: %v", what, err)
		}
	}
	p := pressed(t)
	p.ferrule.Length, p.ferrule.TopOD = measure.Dim{}, measure.Dim{}
	m, err := p.mechanics(Shaft{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := m.Turned(); !field(FieldLength)(err) {
		t.Errorf("without a length: %v", err)
	}
	if joint, err := press.NewJoint(m.Section(), m.Ring, m.Shaft); err != nil || !(joint.Solve(m.Interference).PressureMPa() > 0) {
		t.Errorf("without a length the section is %+v, %v", m.Section(), err)
	}
	if m.Friction.Given() {
		t.Errorf("nobody published the friction of acetate, and it is %+v", m.Friction)
	}
	p = pressed(t)
	if m, err = p.mechanics(Shaft{Friction: math.NaN()}); err != nil {
		t.Fatal(err)
	}
	var input *press.InputError
	if _, err := m.Supplied(); !errors.As(err, &input) {
		t.Errorf("a friction that is no number: %v", err)
	}
	p.ferrule.Material = ABS
	if m, err = p.mechanics(Shaft{}); err != nil || m.Friction.Value != .35 || m.Friction.Basis != press.Published {
		t.Errorf("the friction of ABS is %+v, %v", m.Friction, err)
	}
}
