package press

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// Section holds the three diameters of a ring on a shaft, before they are joined. Each is a diameter, not a radius.
type Section struct {
	// RingOutside is d_o, the outside diameter of the ring.
	RingOutside measure.Length
	// Interface is d, where ring and shaft meet. Shaft and bore differ by the interference only, and either may be
	// given: the pressure changes by about the interference over the diameter, half a per cent for a ferrule.
	Interface measure.Length
	// ShaftInside is d_i, the bore of a tube; zero is a solid bar.
	ShaftInside measure.Length
}

// Check reports an [*InputError] that names the first diameter which breaks RingOutside > Interface > ShaftInside >= 0.
func (s Section) Check() error {
	if s.ShaftInside.Sign() < 0 {
		return lengthError("ShaftInside", s.ShaftInside, "a diameter of 0 (a solid bar) or more")
	}
	if !s.ShaftInside.Less(s.Interface) {
		return lengthError("Interface", s.Interface, "a diameter above ShaftInside, "+
			number(s.ShaftInside.Millimetres())+" mm")
	}
	if !s.Interface.Less(s.RingOutside) {
		return lengthError("RingOutside", s.RingOutside, "a diameter above Interface, "+
			number(s.Interface.Millimetres())+" mm")
	}
	return nil
}

// Joint is one section of a ring on a tube or bar, of two materials, in plane stress. It is immutable and comparable;
// the zero Joint is invalid.
type Joint struct {
	section Section
	pair    Pair
}

// NewJoint reports an [*InputError] that names the diameter or constant which cannot be computed with.
func NewJoint(section Section, ring, shaft Elastic) (Joint, error) {
	if err := section.Check(); err != nil {
		return Joint{}, err
	}
	pair, err := NewPair(ring, shaft)
	if err != nil {
		return Joint{}, err
	}
	return Joint{section: section, pair: pair}, nil
}

// Section returns the diameters the joint was made with.
func (j Joint) Section() Section { return j.section }

// Pair returns the materials the joint was made with.
func (j Joint) Pair() Pair { return j.pair }

func (j Joint) diameters() (outside, interfac, inside float64) {
	return j.section.RingOutside.Millimetres(), j.section.Interface.Millimetres(), j.section.ShaftInside.Millimetres()
}

// PressureMPa returns the contact pressure in MPa for an interference on the diameter. Zero or negative interference
// is no contact, and no pressure.
func (j Joint) PressureMPa(interference measure.Length) float64 {
	outside, interfac, inside := j.diameters()
	return j.pair.PressureMPa(outside, interfac, inside, interference.Millimetres())
}

// Solve returns pressure, stresses and displacements for an interference on the diameter.
func (j Joint) Solve(interference measure.Length) Solution {
	return Solution{joint: j, interference: interference, pressure: j.PressureMPa(interference)}
}

// interferenceMM returns the interference on the diameter, in mm, that makes a pressure.
func (j Joint) interferenceMM(pressureMPa float64) float64 {
	outside, interfac, inside := j.diameters()
	return pressureMPa * interfac * j.pair.compliance(outside, interfac, inside)
}

// hoopPerPressure returns the hoop stress at the ring's bore per unit of contact pressure.
func (j Joint) hoopPerPressure() float64 {
	outside, interfac, _ := j.diameters()
	return wallRatio(outside, interfac)
}

// MaxInterferenceForPressure returns the interference on the diameter at which the contact pressure reaches a limit,
// rounded down to a whole picometre. It reports an [*InputError] unless the limit is above zero and finite.
func (j Joint) MaxInterferenceForPressure(limitMPa float64) (measure.Length, error) {
	return j.maxInterference("pressure limit", limitMPa, "MPa", 1)
}

// MaxInterferenceForHoop returns the interference on the diameter at which the hoop stress at the ring's bore reaches
// a limit, rounded down to a whole picometre. It reports an [*InputError] unless the limit is above zero and finite.
//
// On a rigid shaft this is d·(σ/W)·(W+ν_o)/E_o with W = (d_o²+d²)/(d_o²−d²). A version of the formula without the
// division by W is in circulation: it limits the pressure, and lets the hoop stress grow W times too high.
func (j Joint) MaxInterferenceForHoop(limitMPa float64) (measure.Length, error) {
	return j.maxInterference("hoop stress limit", limitMPa, "MPa", j.hoopPerPressure())
}

// MaxInterferenceForStrain returns the interference on the diameter at which the hoop strain at the ring's bore
// reaches a limit, a fraction (0.02 is 2 %), rounded down to a whole picometre. It reports an [*InputError] unless the
// limit is above zero and finite, or when the ring is rigid and never strains.
func (j Joint) MaxInterferenceForStrain(limit float64) (measure.Length, error) {
	if j.pair.ring.rigid() {
		return measure.Length{}, numberError("Ring.YoungModulusMPa", math.Inf(1), "MPa", "a ring that is not rigid")
	}
	outside, interfac, _ := j.diameters()
	return j.maxInterference("strain limit", limit, "", j.pair.ringCompliance(outside, interfac))
}

// MaxInterferenceForYield returns the interference on the diameter at which the ring begins to yield at its bore by
// the criterion, rounded down to a whole picometre. It reports an [*InputError] unless the strength is above zero and
// finite, and the criterion exists.
func (j Joint) MaxInterferenceForYield(yieldMPa float64, c Criterion) (measure.Length, error) {
	if err := c.check(); err != nil {
		return measure.Length{}, err
	}
	perPressure := Stress{HoopMPa: j.hoopPerPressure(), RadialMPa: -1}.EquivalentMPa(c)
	return j.maxInterference("YieldMPa", yieldMPa, "MPa", perPressure)
}

func (j Joint) maxInterference(field string, limit float64, unit string, perPressure float64) (measure.Length, error) {
	if err := checkPositive(field, limit, unit); err != nil {
		return measure.Length{}, err
	}
	mm := j.interferenceMM(limit / perPressure)
	if !(mm <= measure.MaxLength.Millimetres()) {
		return measure.Length{}, numberError(field, limit, unit, "a limit that an interference below 1 km reaches")
	}
	return floorLength(mm), nil
}

// Limits are the Least and Most of one diameter, or of a difference of two.
type Limits struct{ Least, Most measure.Length }

// InterferenceLimits returns the least and most interference on the diameter between a shaft and a bore of stated
// limits: δ_min = d_min − D_max and δ_max = d_max − D_min. A negative end is a clearance. It reports an [*InputError]
// when limits are the wrong way round. Source: Shigley's, 9th ed., eqs. (7-42) and (7-43).
func InterferenceLimits(shaft, bore Limits) (Limits, error) {
	if shaft.Most.Less(shaft.Least) {
		return Limits{}, lengthError("shaft.Most", shaft.Most, "no less than shaft.Least")
	}
	if bore.Most.Less(bore.Least) {
		return Limits{}, lengthError("bore.Most", bore.Most, "no less than bore.Least")
	}
	return Limits{Least: shaft.Least.Sub(bore.Most), Most: shaft.Most.Sub(bore.Least)}, nil
}

// Solution is a joint with a stated interference. It is immutable; the zero Solution is invalid.
type Solution struct {
	joint        Joint
	interference measure.Length
	pressure     float64
}

// Interference returns the interference on the diameter that was solved for.
func (s Solution) Interference() measure.Length { return s.interference }

// Contact reports whether the parts touch with pressure.
func (s Solution) Contact() bool { return s.pressure > 0 }

// PressureMPa returns the contact pressure p in MPa; 0 without contact.
func (s Solution) PressureMPa() float64 { return s.pressure }

// RingBore returns the stress at the bore of the ring: the hoop stress that splits a ferrule.
func (s Solution) RingBore() Stress {
	return Stress{HoopMPa: s.pressure * s.joint.hoopPerPressure(), RadialMPa: -s.pressure}
}

// ShaftSurface returns the stress at the outside of the shaft.
func (s Solution) ShaftSurface() Stress {
	_, interfac, inside := s.joint.diameters()
	return Stress{HoopMPa: -s.pressure * wallRatio(interfac, inside), RadialMPa: -s.pressure}
}

// ShaftMost returns the stress at the place of the shaft that yields first: the bore of a tube, or anywhere in a solid
// bar, whose stress is uniform. However small, a bore doubles the hoop stress.
func (s Solution) ShaftMost() Stress {
	_, interfac, inside := s.joint.diameters()
	if inside == 0 {
		return s.ShaftSurface()
	}
	return lame{outer: interfac / 2, inner: inside / 2, outerP: s.pressure}.at(inside / 2)
}

// RingStress returns the stress in the ring at a diameter between interface and outside. It reports an [*InputError]
// for a diameter outside the ring.
func (s Solution) RingStress(diameter measure.Length) (Stress, error) {
	sec := s.joint.section
	if diameter.Less(sec.Interface) || sec.RingOutside.Less(diameter) {
		return Stress{}, lengthError("diameter", diameter, "a diameter within the ring's wall")
	}
	return s.ring().at(diameter.Millimetres() / 2), nil
}

// ShaftStress returns the stress in the shaft at a diameter between its bore and the interface. It reports an
// [*InputError] for a diameter outside the shaft's wall.
func (s Solution) ShaftStress(diameter measure.Length) (Stress, error) {
	sec := s.joint.section
	if diameter.Less(sec.ShaftInside) || sec.Interface.Less(diameter) {
		return Stress{}, lengthError("diameter", diameter, "a diameter within the shaft's wall")
	}
	return s.shaft().at(diameter.Millimetres() / 2), nil
}

func (s Solution) ring() lame {
	outside, interfac, _ := s.joint.diameters()
	return lame{outer: outside / 2, inner: interfac / 2, innerP: s.pressure}
}

func (s Solution) shaft() lame {
	_, interfac, inside := s.joint.diameters()
	return lame{outer: interfac / 2, inner: inside / 2, outerP: s.pressure}
}

// BoreStrain returns the hoop strain at the ring's bore as a fraction: (σθ − ν_o σr)/E_o, which is also the growth of
// the bore over its diameter.
func (s Solution) BoreStrain() float64 {
	outside, interfac, _ := s.joint.diameters()
	return s.pressure * s.joint.pair.ringCompliance(outside, interfac)
}

// Growth is how far the surfaces move when the parts are joined. Each is a change on the diameter, to the nearest
// picometre; outward is positive.
type Growth struct {
	// RingOutside and RingBore are those of the ring, ShaftSurface and ShaftBore those of the shaft.
	RingOutside, RingBore, ShaftSurface, ShaftBore measure.Length
}

// Growth returns how far the surfaces move. RingBore less ShaftSurface is the interference while there is contact.
func (s Solution) Growth() Growth {
	outside, interfac, inside := s.joint.diameters()
	ring, shaft := s.joint.pair.ring, s.joint.pair.shaft
	return Growth{
		RingOutside:  s.ring().growth(outside, ring),
		RingBore:     s.ring().growth(interfac, ring),
		ShaftSurface: s.shaft().growth(interfac, shaft),
		ShaftBore:    s.shaft().growth(inside, shaft),
	}
}

// RingYieldMargin returns the yield strength of the ring over the equivalent stress at its bore; see
// [Stress.YieldMargin].
func (s Solution) RingYieldMargin(yieldMPa float64, c Criterion) (float64, error) {
	return s.RingBore().YieldMargin(yieldMPa, c)
}

// ShaftYieldMargin returns the yield strength of the shaft over the equivalent stress at [Solution.ShaftMost]; see
// [Stress.YieldMargin].
func (s Solution) ShaftYieldMargin(yieldMPa float64, c Criterion) (float64, error) {
	return s.ShaftMost().YieldMargin(yieldMPa, c)
}

// lame is one thick wall under pressure on either surface: radii in mm, pressures in MPa.
type lame struct{ outer, inner, outerP, innerP float64 }

// at returns the stress at radius r:
//
//	σr, σθ = A ∓ B/r²,  A = (p_i r_i² − p_o r_o²)/(r_o² − r_i²),  B = (p_i − p_o) r_i² r_o²/(r_o² − r_i²)
//
// Source: Shigley's, 9th ed., eq. (3-49).
func (l lame) at(r float64) Stress {
	if l.inner == 0 {
		return Stress{HoopMPa: -l.outerP, RadialMPa: -l.outerP}
	}
	wall := (l.outer - l.inner) * (l.outer + l.inner)
	a := (l.innerP*l.inner*l.inner - l.outerP*l.outer*l.outer) / wall
	b := (l.innerP - l.outerP) * l.inner * l.inner * (l.outer / r) * (l.outer / r) / wall
	return Stress{HoopMPa: a + b, RadialMPa: a - b}
}

// growth returns the change of a diameter in mm: d·(σθ − ν σr)/E.
func (l lame) growth(diameter float64, e Elastic) measure.Length {
	s := l.at(diameter / 2)
	return nearestLength(diameter * (s.HoopMPa - e.Poisson*s.RadialMPa) / e.YoungModulusMPa)
}

// nearestLength and floorLength turn mm into a Length, saturating at [measure.MaxLength] as sums of lengths do: only the
// growth of absurdly soft or fast parts comes near.
func nearestLength(mm float64) measure.Length { return saturated(math.Round(mm * 1e9)) }
func floorLength(mm float64) measure.Length   { return saturated(math.Floor(mm * 1e9)) }

func saturated(pm float64) measure.Length {
	most := float64(measure.MaxLength.Picometres())
	return measure.Picometres(int64(max(-most, min(most, pm))))
}
