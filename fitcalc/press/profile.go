package press

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Point gives the Diameter where At is, a position along an axis.
type Point struct {
	At       measure.Length
	Diameter measure.Length
}

// Profile is a diameter along an axis: straight between its points, and constant before the first and after the last.
// Two points at one position are a step. A Profile is immutable; the zero Profile is a diameter of zero everywhere,
// which as the inside of a shaft means a solid bar.
type Profile struct{ points []Point }

// Constant returns a profile of one diameter.
func Constant(diameter measure.Length) Profile { return Profile{points: []Point{{Diameter: diameter}}} }

// NewProfile returns the profile through the points, in order of position. It reports an [*InputError] when there is
// no point, a diameter is negative, a position runs backwards, or more than two points share one.
func NewProfile(points ...Point) (Profile, error) {
	if len(points) == 0 {
		return Profile{}, &InputError{Field: "points", Value: "empty", Want: "at least one point"}
	}
	for i, p := range points {
		if p.Diameter.Sign() < 0 {
			return Profile{}, lengthError(fmt.Sprintf("points[%d].Diameter", i), p.Diameter, "0 or more")
		}
		if i > 0 && p.At.Less(points[i-1].At) {
			return Profile{}, lengthError(fmt.Sprintf("points[%d].At", i), p.At, "a position no less than the one before")
		}
		if i > 1 && p.At == points[i-2].At {
			return Profile{}, lengthError(fmt.Sprintf("points[%d].At", i), p.At, "at most two points at one position")
		}
	}
	return Profile{points: slices.Clone(points)}, nil
}

// Points returns a copy of the points.
func (p Profile) Points() []Point { return slices.Clone(p.points) }

// side says which diameter is meant where there is a step.
type side bool

const (
	after  side = false // the one above the position, where a piece begins
	before side = true  // the one below the position, where a piece ends
)

// at returns the diameter in mm at a position.
func (p Profile) at(position measure.Length, s side) float64 {
	if len(p.points) == 0 {
		return 0
	}
	// The first point beyond the position; before a step also one at the position.
	next, _ := slices.BinarySearchFunc(p.points, position, func(q Point, at measure.Length) int {
		if c := q.At.Compare(at); c != 0 {
			return c
		}
		if s == before {
			return 1
		}
		return -1
	})
	if next == 0 {
		return p.points[0].Diameter.Millimetres()
	}
	if next == len(p.points) {
		return p.points[next-1].Diameter.Millimetres()
	}
	a, b := p.points[next-1], p.points[next]
	share := position.Sub(a.At).Millimetres() / b.At.Sub(a.At).Millimetres()
	d := a.Diameter.Millimetres()
	return d + share*b.Diameter.Sub(a.Diameter).Millimetres()
}
