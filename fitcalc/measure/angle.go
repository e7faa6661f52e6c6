package measure

// Angle is an exact plane angle: a whole number of nanodegrees.
type Angle struct{ ndeg int64 }

const ndegPerDegree = 1_000_000_000

// Degrees returns n degrees.
func Degrees(n int64) Angle { return Angle{n * ndegPerDegree} }

// Nanodegrees returns the exact count of nanodegrees.
func (a Angle) Nanodegrees() int64 { return a.ndeg }

// Degrees returns the float64 nearest to the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a.ndeg) / ndegPerDegree }
