package measure

import (
	"fmt"
	"math"
)

// Angle is an exact plane angle: a whole number of nanodegrees. It is comparable.
//
// The zero Angle is a real angle of nothing.
//
// Every decimal of a degree to nine places is held exactly. Minutes and seconds of arc are not, unless they come to such a
// decimal: 1′ = 16,666,666.67 nanodegrees. They are rounded to the nearest nanodegree, about four millionths of a
// second, and so are radians.
//
// Sums saturate at ±[MaxAngle].
type Angle struct{ ndeg int64 }

const (
	ndegPerDegree = 1_000_000_000
	maxNdeg       = 1_000_000 * ndegPerDegree
)

// MaxAngle is the largest Angle, a million degrees.
var MaxAngle = Angle{maxNdeg}

func saturateAngle(ndeg int64) Angle { return Angle{max(-maxNdeg, min(maxNdeg, ndeg))} }

// Degrees returns n degrees, saturating at ±[MaxAngle].
func Degrees(n int64) Angle {
	return Angle{max(-maxNdeg/ndegPerDegree, min(maxNdeg/ndegPerDegree, n)) * ndegPerDegree}
}

// Nanodegrees returns n nanodegrees, saturating at ±[MaxAngle].
func Nanodegrees(n int64) Angle { return saturateAngle(n) }

// FromDegrees returns the Angle nearest to x degrees. It reports an [*AngleRangeError] when x is not a number, infinite
// or beyond [MaxAngle].
func FromDegrees(x float64) (Angle, error) {
	if math.IsNaN(x) || math.Abs(x) > maxNdeg/ndegPerDegree {
		return Angle{}, &AngleRangeError{x}
	}
	return Angle{int64(math.Round(x * ndegPerDegree))}, nil
}

// FromRadians returns the Angle nearest to x radians, with the errors of [FromDegrees].
func FromRadians(x float64) (Angle, error) { return FromDegrees(x * (180 / math.Pi)) }

// AngleRangeError reports a number of Degrees that is no Angle: not a number, infinite, or beyond ±1,000,000°. It wraps
// [ErrRange].
type AngleRangeError struct{ Degrees float64 }

func (e *AngleRangeError) Error() string {
	return fmt.Sprintf("%v° is not an angle of at most 1000000°; check the number and its unit", e.Degrees)
}

// Unwrap returns [ErrRange].
func (e *AngleRangeError) Unwrap() error { return ErrRange }

// Nanodegrees returns the exact count of nanodegrees.
func (a Angle) Nanodegrees() int64 { return a.ndeg }

// Degrees returns the float64 nearest to the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a.ndeg) / ndegPerDegree }

// Radians returns the angle in radians, as package math takes it.
func (a Angle) Radians() float64 { return a.Degrees() * (math.Pi / 180) }

// Tan returns the tangent.
func (a Angle) Tan() float64 { return math.Tan(a.Radians()) }

// Add returns a + b, saturating at ±[MaxAngle].
func (a Angle) Add(b Angle) Angle { return saturateAngle(a.ndeg + b.ndeg) }

// Sub returns a − b, saturating at ±[MaxAngle].
func (a Angle) Sub(b Angle) Angle { return saturateAngle(a.ndeg - b.ndeg) }

// Neg returns −a.
func (a Angle) Neg() Angle { return Angle{-a.ndeg} }

// Half returns a ÷ 2, from an included angle to the angle per side, to the nearest nanodegree, half going away from
// zero.
func (a Angle) Half() Angle { return Angle{a.ndeg/2 + a.ndeg%2} }

// Compare returns −1, 0 or +1 as a is smaller than, equal to or larger than b.
func (a Angle) Compare(b Angle) int { return Length{a.ndeg}.Compare(Length{b.ndeg}) }

// Less reports whether a is smaller than b.
func (a Angle) Less(b Angle) bool { return a.ndeg < b.ndeg }

// Sign returns −1, 0 or +1.
func (a Angle) Sign() int { return a.Compare(Angle{}) }

// IsZero reports whether a is exactly nothing.
func (a Angle) IsZero() bool { return a.ndeg == 0 }

// AppendText appends the angle as [Angle.String] gives it. It never fails.
func (a Angle) AppendText(b []byte) ([]byte, error) {
	return append(appendNano(b, a.ndeg), "°"...), nil
}

// String returns the exact angle as the shortest decimal of degrees, such as "60°". [ParseAngle] reads it back to the
// same Angle.
func (a Angle) String() string {
	var buf [24]byte
	b, _ := a.AppendText(buf[:0])
	return string(b)
}

// MarshalText implements [encoding.TextMarshaler] with the text of [Angle.String].
func (a Angle) MarshalText() ([]byte, error) { return a.AppendText(make([]byte, 0, 16)) }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseAngle].
func (a *Angle) UnmarshalText(text []byte) error {
	parsed, err := ParseAngle(string(text))
	if err != nil {
		return err
	}
	*a = parsed
	return nil
}

const acceptsAngle = `a number and a unit, such as 60°, 82 deg or 1°29'30.27"`

// ParseAngle reads degrees: a number as in [ParseLength] and a unit (°, deg, degree, degrees, 度, 도), or degrees,
// minutes and seconds such as 1°29'30.27", which are rounded to the nearest nanodegree.
//
// The error is a [*ParseError]. Its cause is [ErrNoNumber], [ErrNoUnit], an [*AngleRangeError], or [ErrInexact] for
// degrees finer than a nanodegree.
func ParseAngle(s string) (Angle, error) { return Notation{}.ParseAngle(s) }

// ParseAngle is [ParseAngle], with the notation's reading of commas. Its unit is of length and plays no part: degrees
// must be marked as such.
func (f Notation) ParseAngle(s string) (Angle, error) {
	c := scanner{text: s, comma: f.Comma}
	ndeg, p := c.angle()
	if p == nil && c.rest() != "" {
		p = c.problem("more text than one angle", nil)
	}
	if p != nil {
		return Angle{}, p.parseError("angle", s, acceptsAngle)
	}
	return Angle{ndeg}, nil
}

func (c *scanner) angle() (int64, *problem) {
	c.spaces()
	at := *c
	negative, _ := c.sign()
	n, p := c.unsigned()
	if p != nil {
		return 0, p
	}
	if !c.degreeSign() {
		return 0, c.problem("no known unit of angle", ErrNoUnit)
	}
	ndeg, exact, ok := n.scale(ndegPerDegree)
	if ok && !exact {
		return 0, at.problem("finer than a nanodegree", ErrInexact)
	}
	c.spaces()
	if r, _ := c.peek(); isDigit(r) && ok {
		if n.decimals > 0 || n.fraction {
			return 0, c.problem("minutes after degrees that are not whole", nil)
		}
		arc, p := c.minutesAndSeconds()
		if p != nil {
			return 0, p
		}
		ndeg += arc
	}
	if !ok || ndeg > maxNdeg {
		return 0, at.because(&AngleRangeError{n.Float64()})
	}
	if negative {
		ndeg = -ndeg
	}
	return ndeg, nil
}

// degreeSign consumes a unit of degrees and the spaces before it, or nothing.
func (c *scanner) degreeSign() bool {
	start := c.pos
	c.spaces()
	if c.accept('°') {
		return true
	}
	var buf [16]byte
	switch word, _ := c.word(buf[:0]); string(word) {
	case "deg", "degs", "degree", "degrees", "度", "도":
		c.abbreviationPoint()
		return true
	}
	c.pos = start
	return false
}

func (c *scanner) secondSign() bool { return c.accept('"') || c.acceptAll("''") }

// minutesAndSeconds reads 29'30.27", 29' or 30.27", each below 60, in nanodegrees to the nearest one.
func (c *scanner) minutesAndSeconds() (int64, *problem) {
	at := *c
	first, p := c.unsigned()
	if p != nil {
		return 0, p
	}
	var minutes, seconds Number
	switch {
	case c.secondSign():
		seconds = first
	case c.accept('\''):
		minutes = first
		if seconds, p = c.secondsAfter(minutes); p != nil {
			return 0, p
		}
	default:
		return 0, c.problem("minutes without their mark", ErrNoUnit)
	}
	c.spaces()
	if minutes.Float64() >= 60 || seconds.Float64() >= 60 {
		return 0, at.problem("minutes and seconds must be below 60", ErrRange)
	}
	const second = 1_000_000_000_000 // in picoseconds of arc
	m, _, _ := minutes.scale(60 * second)
	s, _, _ := seconds.scale(second)
	const perNdeg = 3600 * second / ndegPerDegree
	return (m + s + perNdeg/2) / perNdeg, nil
}

// secondsAfter reads the seconds after minutes; there may be none.
func (c *scanner) secondsAfter(minutes Number) (Number, *problem) {
	c.spaces()
	if r, _ := c.peek(); !isDigit(r) {
		return Number{}, nil
	}
	if minutes.decimals > 0 || minutes.fraction {
		return Number{}, c.problem("seconds after minutes that are not whole", nil)
	}
	seconds, p := c.unsigned()
	if p == nil && !c.secondSign() {
		p = c.problem("seconds without their mark", ErrNoUnit)
	}
	return seconds, p
}

// Degrees returns the number of degrees as an Angle, to the nearest nanodegree, half to even, and whether that is
// exact: for a number in one place and the degree sign in another. The error is an [*AngleRangeError] beyond
// [MaxAngle].
func (n Number) Degrees() (a Angle, exact bool, err error) {
	ndeg, exact, ok := n.scale(ndegPerDegree)
	if !ok || ndeg > maxNdeg || ndeg < -maxNdeg {
		return Angle{}, false, &AngleRangeError{n.Float64()}
	}
	return Angle{ndeg}, exact, nil
}
