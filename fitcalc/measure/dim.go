package measure

// Dim is a toleranced dimension: a nominal size, limits, the shape of its spread between them, and where the limits
// came from. It is comparable.
//
// The zero Dim is a dimension that was not given, distinct from a given dimension of zero length.
type Dim struct {
	nominal, lower, upper Length
	shape                 Shape
	origin                Origin
	state                 dimState
}

type dimState uint8

const (
	notGiven dimState = iota
	nominalOnly
	withLimits
)

// Shape is how sizes spread between the limits. All shapes are symmetric about the middle of the limits, which is the
// nominal size only where the tolerance is symmetric.
type Shape uint8

const (
	// Normal is a normal distribution with the limits at three standard deviations either way, not cut off there.
	Normal Shape = iota
	// Uniform is equally likely anywhere between the limits.
	Uniform
	// Triangular rises from the limits to its peak in the middle.
	Triangular
)

// Origin is where the limits of a Dim came from.
type Origin uint8

const (
	// Stated limits stand beside the dimension itself.
	Stated Origin = iota
	// General limits come from a rule for the rest of a sheet or drawing, such as ISO 2768-m.
	General
	// Class limits come from a tolerance class or grade of ISO 286-1.
	Class
	// Default limits come from the shop's settings, because the source states none.
	Default
	// Measured limits come from readings.
	Measured
	// Learned limits come from readings of other parts of the same supplier.
	Learned
)

// Nominal returns a Dim with a nominal size and no limits; see [Dim.OrPlusMinus].
func Nominal(size Length) Dim {
	return Dim{nominal: size, lower: size, upper: size, state: nominalOnly}
}

// Exactly returns a Dim whose limits are both the nominal size.
func Exactly(size Length) Dim {
	return Dim{nominal: size, lower: size, upper: size, state: withLimits}
}

// PlusMinus returns nominal ± tolerance; the sign of tolerance does not matter.
func PlusMinus(nominal, tolerance Length) Dim {
	t := tolerance.Abs()
	return Dim{nominal: nominal, lower: nominal.Sub(t), upper: nominal.Add(t), state: withLimits}
}

// Between returns a Dim from its two limits, in either order, with the nominal size in the middle (rounded to the
// nearest picometre).
func Between(a, b Length) Dim {
	lower, upper := Min(a, b), Max(a, b)
	return Dim{nominal: midpoint(lower, upper), lower: lower, upper: upper, state: withLimits}
}

// midpoint returns the middle to the nearest picometre. It works on the counts, since a width can be beyond the range
// of a Length.
func midpoint(lower, upper Length) Length { return Length{lower.pm + (upper.pm-lower.pm+1)/2} }

// WithDeviations returns nominal with its limits at nominal + lower and nominal + upper, in either order. Both may lie
// on the same side of the nominal size, as in the ISO 286-1 class f7.
func WithDeviations(nominal, lower, upper Length) Dim {
	return Dim{
		nominal: nominal,
		lower:   nominal.Add(Min(lower, upper)),
		upper:   nominal.Add(Max(lower, upper)),
		state:   withLimits,
	}
}

// Given reports whether there is a dimension at all.
func (d Dim) Given() bool { return d.state != notGiven }

// HasLimits reports whether the dimension has limits of its own.
func (d Dim) HasLimits() bool { return d.state == withLimits }

// Nominal returns the nominal size.
func (d Dim) Nominal() Length { return d.nominal }

// Lower returns the lower limit, or the nominal size where there are no limits.
func (d Dim) Lower() Length { return d.lower }

// Upper returns the upper limit, or the nominal size where there are no limits.
func (d Dim) Upper() Length { return d.upper }

// Middle returns the middle of the limits, to the nearest picometre: the mean of every [Shape].
func (d Dim) Middle() Length { return midpoint(d.lower, d.upper) }

// Width returns upper limit − lower limit.
func (d Dim) Width() Length { return d.upper.Sub(d.lower) }

// Shape returns how sizes spread between the limits.
func (d Dim) Shape() Shape { return d.shape }

// Origin returns where the limits came from.
func (d Dim) Origin() Origin { return d.origin }

// WithShape returns d with another spread.
func (d Dim) WithShape(s Shape) Dim { d.shape = s; return d }

// WithOrigin returns d with another origin of its limits.
func (d Dim) WithOrigin(o Origin) Dim { d.origin = o; return d }

// OrPlusMinus returns d, or where d is given without limits, d ± tolerance with the origin [Default].
func (d Dim) OrPlusMinus(tolerance Length) Dim {
	if d.state != nominalOnly {
		return d
	}
	return PlusMinus(d.nominal, tolerance).WithShape(d.shape).WithOrigin(Default)
}

// Shift returns d with its nominal size and limits moved by by.
func (d Dim) Shift(by Length) Dim {
	d.nominal, d.lower, d.upper = d.nominal.Add(by), d.lower.Add(by), d.upper.Add(by)
	return d
}
