package press

import "math"

// Stress is the plane stress at one point of a ring: axial stress is nil, and hoop and radial stress are principal.
// Tension is positive. The zero Stress is an unloaded point.
type Stress struct {
	// HoopMPa is σθ, the tangential stress.
	HoopMPa float64
	// RadialMPa is σr.
	RadialMPa float64
}

// VonMisesMPa returns √(σθ² − σθσr + σr²), the equivalent stress of the distortion-energy criterion in plane stress.
// Source: Shigley's, 9th ed., eq. (5-13).
func (s Stress) VonMisesMPa() float64 {
	// The sum below cannot be negative: it is ((σθ−σr)² + σθ² + σr²)/2.
	d := s.HoopMPa - s.RadialMPa
	return math.Sqrt((d*d + s.HoopMPa*s.HoopMPa + s.RadialMPa*s.RadialMPa) / 2)
}

// TrescaMPa returns the largest difference between two of the three principal stresses σθ, σr and 0: twice the
// greatest shear stress, as the maximum-shear criterion compares it with the yield strength. Source: Shigley's,
// 9th ed., section 5-4.
func (s Stress) TrescaMPa() float64 {
	return max(s.HoopMPa, s.RadialMPa, 0) - min(s.HoopMPa, s.RadialMPa, 0)
}

// Criterion is the rule by which a state of stress is compared with the yield strength of a simple tension test.
// The zero Criterion is [VonMises].
type Criterion uint8

const (
	// VonMises is the distortion-energy criterion: the usual one for ductile metals.
	VonMises Criterion = iota
	// Tresca is the maximum-shear-stress criterion: never less cautious than von Mises.
	Tresca
)

// String returns the name of the criterion.
func (c Criterion) String() string {
	switch c {
	case VonMises:
		return "von Mises"
	case Tresca:
		return "Tresca"
	}
	return "unknown criterion"
}

func (c Criterion) check() error {
	if c > Tresca {
		return &InputError{Field: "Criterion", Value: number(float64(c)), Want: "VonMises or Tresca"}
	}
	return nil
}

// EquivalentMPa returns the equivalent stress of s by the criterion c, or NaN for a criterion that does not exist.
func (s Stress) EquivalentMPa(c Criterion) float64 {
	switch c {
	case VonMises:
		return s.VonMisesMPa()
	case Tresca:
		return s.TrescaMPa()
	}
	return math.NaN()
}

// YieldMargin returns yield strength over equivalent stress: 1 is on the point of yielding, 2 has twice the strength
// needed, +Inf is unloaded. It reports an [*InputError] unless the strength is above zero and finite, and the
// criterion exists.
func (s Stress) YieldMargin(yieldMPa float64, c Criterion) (float64, error) {
	if err := checkPositive("YieldMPa", yieldMPa, "MPa"); err != nil {
		return 0, err
	}
	if err := c.check(); err != nil {
		return 0, err
	}
	return yieldMPa / s.EquivalentMPa(c), nil
}

func checkPositive(field string, x float64, unit string) error {
	if !(x > 0) || math.IsInf(x, 1) {
		return numberError(field, x, unit, "a finite number above 0")
	}
	return nil
}
