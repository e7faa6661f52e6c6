package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// Shaft is what a press fit has to know of a shaft besides the outside of its tip. The zero Shaft is one of which nothing is
// known: it is taken as rigid and solid, which makes pressure and forces come out at their highest.
type Shaft struct {
	// Material is a name or alias in [press.Materials], such as "shaft steel"; empty where it is not known.
	Material string
	// Inside is the inside diameter of the tube; nothing for a solid bar or where it is not known.
	Inside measure.Length
	// Friction is the coefficient between ferrule and shaft; 0 where it is not known, and the one published for the
	// ferrule's material on steel is then taken, if there is one.
	Friction float64
}

// Mechanics is a joint as package press sees it, at its usual sizes: made by [MechanicsOf]. What the numbers are worth stands in the
// comment of that package; they compare fits with one another, and a head is held by its bond, never by the ferrule.
type Mechanics struct {
	// Material is the ferrule's, and ShaftMaterial the shaft's, which has no name where it is not known.
	Material, ShaftMaterial press.Material
	// Ring and Shaft are the elastic constants of ferrule and shaft. A shaft of unknown material is [press.Rigid].
	Ring, Shaft press.Elastic
	// Friction is the coefficient between them with where it is from. Where it is not given, no force of friction is counted, and
	// only [press.Grip.NormalN], which friction would multiply, means something.
	Friction press.Property
	// Insertion is the position of the ferrule's base above the tip end once it is seated, and Tightest that of the tightest place
	// under it, the lowest where there are several.
	Insertion, Tightest measure.Length
	// Diameter is the shaft's at the tightest place, and Interference that less the ferrule's bore, on the diameter.
	Diameter, Interference measure.Length

	bore, inside          measure.Length
	base, top, hosel      measure.Length // outside diameters; the hosel's is the base's where it is not given or larger
	length                measure.Length // nothing where it is not given
	tip, supplied, turned press.Profile
}

// MechanicsOf brings a joint to package press, so that pressure, strain, push-on force and warming can be asked of it at the
// usual sizes, in the middle of their limits:
//
//	m, err := fitcalc.MechanicsOf(head, tip, ferrule, shop, fitcalc.Shaft{Material: "shaft steel", Inside: bore})
//	fitted, err := m.Supplied() // while the ferrule is pushed on: travel, err := fitted.PushOn(m.Insertion, 50)
//	done, err := m.Turned()     // afterwards: grip, err := done.At(m.Insertion)
//	warming, err := m.Easing(20).Solve()
//
// The ferrule's outside is a straight cone from base to top, cut off at the hosel's OD once it is turned; without a top OD it is
// a cylinder, the stiffest it can be. The tip runs as [Tip.Diameter] says up to the ferrule's top, the place it reaches.
//
// The error is an [*InputError] for sizes that are missing or cannot be, a [*SettingError], a [*press.UnknownMaterialError]
// where the ferrule's or the shaft's material is not in the table, or a [*press.MissingPropertyError] where the table lacks a
// constant.
func MechanicsOf(head Head, tip Tip, ferrule Ferrule, shop Shop, shaft Shaft) (Mechanics, error) {
	if err := valid(&head, &tip, &ferrule); err != nil {
		return Mechanics{}, err
	}
	if err := shop.Validate(); err != nil {
		return Mechanics{}, err
	}
	var fit Fit
	j := newJoint(&fit, &head, &tip, &ferrule, &shop)
	for _, need := range [...]struct {
		field Field
		given bool
	}{{FieldTip, tip.form != TipUnknown}, {FieldFerruleBore, j.FerruleBore.Given()}, {FieldBaseOD, ferrule.BaseOD.Given()}} {
		if !need.given {
			return Mechanics{}, &InputError{Field: need.field, Reason: "must be given for the press fit to be worked out"}
		}
	}
	if shaft.Inside.Sign() < 0 {
		return Mechanics{}, &InputError{Field: FieldTip, Size: shaft.Inside, Reason: "the inside of a shaft cannot be less than nothing"}
	}
	var m Mechanics
	if err := m.materials(ferrule.Material, shaft); err != nil {
		return Mechanics{}, err
	}
	m.sizes(&j, shaft.Inside)
	return m, m.profiles(&j)
}

func (m *Mechanics) materials(ferrule Material, shaft Shaft) (err error) {
	m.Shaft = press.Rigid()
	if shaft.Material != "" {
		if m.ShaftMaterial, err = press.MaterialByName(shaft.Material); err != nil {
			return err
		}
		if m.Shaft, err = m.ShaftMaterial.Elastic(); err != nil {
			return err
		}
	}
	if m.Material, err = press.MaterialByName(ferrule.String()); err != nil {
		return err
	}
	if m.Ring, err = m.Material.Elastic(); err != nil {
		return err
	}
	m.Friction = m.Material.FrictionOnSteel
	if shaft.Friction != 0 {
		m.Friction = press.OwnValue(shaft.Friction, "as given for the shaft")
	}
	return nil
}

func (m *Mechanics) sizes(j *joint, inside measure.Length) {
	m.bore, m.inside, m.length = j.FerruleBore.Nominal(), inside, j.ferrule.Length.Middle()
	m.base = j.BaseOD.Nominal()
	m.top, m.hosel = m.base, m.base
	if j.ferrule.TopOD.Given() && m.length.Sign() > 0 {
		m.top = measure.Min(m.base, j.ferrule.TopOD.Middle())
	}
	if j.HoselOD.Given() {
		m.hosel = measure.Min(m.base, j.HoselOD.Nominal())
	}
	m.Insertion, m.Diameter = j.Insertion, j.Tip.widest(j.Insertion, j.Seated)
	m.Tightest = j.Tip.lowest(m.Diameter, j.Insertion, j.Seated)
	m.Interference = m.Diameter.Sub(m.bore)
}

func (m *Mechanics) profiles(j *joint) (err error) {
	at := func(height, diameter measure.Length) press.Point { return press.Point{At: height, Diameter: diameter} }
	zero := measure.Length{}
	if m.supplied, err = press.NewProfile(at(zero, m.base), at(m.length, m.top)); err != nil {
		return err
	}
	// Turned down by S the cone is a cylinder up to the height L S / (B − T): see Turning.
	down, narrowing, corner := m.base.Sub(m.hosel), m.base.Sub(m.top), m.length
	if down.Less(narrowing) {
		corner = m.length.MulRatio(down.Picometres(), narrowing.Picometres())
	}
	if m.turned, err = press.NewProfile(at(corner, m.hosel), at(m.length, measure.Min(m.top, m.hosel))); err != nil {
		return err
	}
	points := []press.Point{at(zero, j.Tip.usualAt(zero))}
	for bend, more := j.Tip.bend(zero, j.Seated); more; bend, more = j.Tip.bend(bend, j.Seated) {
		points = append(points, at(bend, j.Tip.usualAt(bend)))
	}
	m.tip, err = press.NewProfile(append(points, at(j.Seated, j.Tip.usualAt(j.Seated)))...)
	return err
}

// Supplied returns the ferrule as it is pushed on, before turning, and Turned as it is afterwards: ready to be asked for the grip
// at Insertion and for the force on the way there. The error is an [*InputError] where the ferrule's length is not given, or
// a [*press.InputError] for a friction that cannot be.
func (m *Mechanics) Supplied() (press.Assembly, error) { return m.assembly(m.supplied) }

// Turned is [Mechanics.Supplied] with the base turned down to the hosel; the same where the base is not larger.
func (m *Mechanics) Turned() (press.Assembly, error) { return m.assembly(m.turned) }

func (m *Mechanics) assembly(outside press.Profile) (press.Assembly, error) {
	if m.length.Sign() <= 0 {
		return press.Assembly{}, &InputError{Field: FieldLength, Reason: "must be given for the forces along the ferrule to be worked out"}
	}
	return press.NewAssembly(
		press.Ferrule{Length: m.length, Bore: press.Constant(m.bore), Outside: outside, Elastic: m.Ring},
		press.Tip{Outside: m.tip, Inside: press.Constant(m.inside), Elastic: m.Shaft}, m.Friction.Value)
}

// Section returns the section at the tightest place with the base turned down, for [press.NewJoint]; it needs no length.
func (m *Mechanics) Section() press.Section {
	outside := m.base
	if m.length.Sign() > 0 {
		outside = m.base.Sub(m.base.Sub(m.top).MulRatio(m.Tightest.Sub(m.Insertion).Picometres(), m.length.Picometres()))
	}
	return press.Section{RingOutside: measure.Min(outside, m.hosel), Interface: m.Diameter, ShaftInside: m.inside}
}

// Easing returns the question how far the ferrule must be warmed to slip on a shaft that stays cold, from a temperature in °C. The
// answer carries a caution.
func (m *Mechanics) Easing(fromC float64) press.Easing {
	return press.Easing{Interference: m.Interference, Bore: m.bore, Ring: m.Material, FromC: fromC}
}
