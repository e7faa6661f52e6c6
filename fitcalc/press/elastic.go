package press

import "math"

// Elastic holds the two constants of a linear, isotropic material. The zero Elastic is invalid.
//
// A plastic is neither quite linear nor indifferent to time: see the package comment.
type Elastic struct {
	// YoungModulusMPa is E in MPa (N/mm²), from 1e-6 (1 Pa) to 1e12: wider than any solid, narrow enough that nothing
	// overflows. Infinity stands for a rigid part; see [Rigid].
	YoungModulusMPa float64
	// Poisson is ν, above −1 and at most 0.5.
	Poisson float64
}

const (
	leastModulusMPa = 1e-6
	mostModulusMPa  = 1e12
)

// Rigid returns a part that does not give: the customary simplification for a metal pin in a plastic boss.
func Rigid() Elastic { return Elastic{YoungModulusMPa: math.Inf(1)} }

// Check reports an [*InputError] that names the constant which is out of its range, as "part.Constant".
func (e Elastic) Check(part string) error {
	if !e.rigid() && !(e.YoungModulusMPa >= leastModulusMPa && e.YoungModulusMPa <= mostModulusMPa) {
		return numberError(part+".YoungModulusMPa", e.YoungModulusMPa, "MPa", "a modulus from 1e-6 to 1e12 MPa, or Rigid")
	}
	if !(e.Poisson > -1 && e.Poisson <= 0.5) {
		return numberError(part+".Poisson", e.Poisson, "", "a ratio above -1 and at most 0.5")
	}
	return nil
}

func (e Elastic) rigid() bool { return math.IsInf(e.YoungModulusMPa, 1) }

// Pair is a ring and a shaft of given materials, made ready to compute the pressure of many sections.
// A Pair is immutable and comparable; the zero Pair is invalid and yields NaN.
type Pair struct {
	ring, shaft     Elastic
	ringC, shaftC   float64 // 1/E
	poissonOverEs   float64 // ν_o/E_o − ν_i/E_i
	poissonOverRing float64 // ν_o/E_o
}

// NewPair joins the constants of ring and shaft. It reports an [*InputError] when one is out of its range, or when
// both are rigid, since two rigid parts with an interference have no finite pressure.
func NewPair(ring, shaft Elastic) (Pair, error) {
	if err := ring.Check("Ring"); err != nil {
		return Pair{}, err
	}
	if err := shaft.Check("Shaft"); err != nil {
		return Pair{}, err
	}
	if ring.rigid() && shaft.rigid() {
		return Pair{}, numberError("Ring.YoungModulusMPa", ring.YoungModulusMPa, "MPa",
			"at least one part that is not rigid")
	}
	ringPoisson := ring.Poisson / ring.YoungModulusMPa
	return Pair{
		ring: ring, shaft: shaft,
		ringC: 1 / ring.YoungModulusMPa, shaftC: 1 / shaft.YoungModulusMPa,
		poissonOverRing: ringPoisson,
		poissonOverEs:   ringPoisson - shaft.Poisson/shaft.YoungModulusMPa,
	}, nil
}

// Ring returns the ring's constants.
func (p Pair) Ring() Elastic { return p.ring }

// Shaft returns the shaft's constants.
func (p Pair) Shaft() Elastic { return p.shaft }

// PressureMPa returns the contact pressure of one section, in MPa, from diameters in mm: the outside of the ring d_o,
// the interface d, the bore of the shaft d_i (zero for a solid bar), and the interference δ on the diameter.
//
//	p = δ / { d [ ((d_o²+d²)/(d_o²−d²) + ν_o)/E_o + ((d²+d_i²)/(d²−d_i²) − ν_i)/E_i ] }
//
// An interference of zero or less is no contact: the pressure is 0. Unless d_o > d > d_i >= 0 the result is NaN, so
// that a mistake cannot pass for a pressure; [NewJoint] says which diameter is wrong. Source: Budynas and Nisbett,
// Shigley's Mechanical Engineering Design, 9th ed., eq. (7-39).
//
// This is the fast path: it allocates nothing and takes a few nanoseconds.
func (p Pair) PressureMPa(ringOutsideMM, interfaceMM, shaftInsideMM, interferenceMM float64) float64 {
	compliance := p.compliance(ringOutsideMM, interfaceMM, shaftInsideMM)
	if !(compliance > 0) {
		return math.NaN()
	}
	if interferenceMM <= 0 {
		return 0
	}
	return interferenceMM / (interfaceMM * compliance)
}

// compliance returns the interference per diameter and pressure, in 1/MPa, or NaN for impossible diameters.
func (p Pair) compliance(outside, interfac, inside float64) float64 {
	if !(outside > interfac && interfac > inside && inside >= 0) {
		return math.NaN()
	}
	return p.ringC*wallRatio(outside, interfac) + p.shaftC*wallRatio(interfac, inside) + p.poissonOverEs
}

// ringCompliance returns the growth of the ring's bore per diameter and pressure, in 1/MPa.
func (p Pair) ringCompliance(outside, interfac float64) float64 {
	return p.ringC*wallRatio(outside, interfac) + p.poissonOverRing
}

// wallRatio returns (D²+d²)/(D²−d²): the hoop stress at the loaded surface of a wall, per unit of pressure. The
// difference of squares is factored because a thin wall would lose its digits otherwise.
func wallRatio(outer, inner float64) float64 {
	return (outer*outer + inner*inner) / ((outer - inner) * (outer + inner))
}
