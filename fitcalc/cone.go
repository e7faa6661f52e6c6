package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// cone is a countersink made complete. With mouth diameter M, included angle A and depth h, its diameter at depth z is
// M − 2 z tan(A/2).
type cone struct {
	there bool
	mouth measure.Dim
	// depth is where the cone ends, not given where it runs down to the bore.
	depth measure.Dim
	// slope is 2 tan(A/2): the change of the diameter per depth.
	slope float64
}

// countersink completes the head's countersink. It reports false, with a reason, when the top is said to be countersunk
// and its size cannot be told.
func (j *joint) countersink() (cone, bool) {
	c := &j.head.Countersink
	result := cone{slope: 2 * j.shop.CountersinkAngle.Half().Tan()}
	if !c.Mouth.Given() && !c.Depth.Given() {
		if j.Top == TopCountersunk {
			j.missing(FieldCountersinkMouth)
			return result, false
		}
		return result, true
	}
	result.slope = j.coneSlope()
	result.there = true
	result.mouth, result.depth = c.Mouth, c.Depth
	if !c.Mouth.Given() {
		if !j.Bore.Given() {
			j.missing(FieldCountersinkMouth)
			return result, false
		}
		// The cone runs from the bore upward, so that it has no other bottom.
		depth := c.Depth.OrPlusMinus(j.shop.RecessTolerance)
		result.mouth, result.depth = scaled(depth, result.slope).Shift(j.Bore.Middle()), measure.Dim{}
	}
	result.mouth = result.mouth.OrPlusMinus(j.shop.RecessTolerance)
	if result.depth.Given() {
		result.depth = result.depth.OrPlusMinus(j.shop.RecessTolerance)
	}
	return result, true
}

// coneSlope is 2 tan(A/2) of the head's countersink.
func (j *joint) coneSlope() float64 {
	slope, ofShop := j.head.coneSlope(j.Bore.Nominal(), j.shop)
	if ofShop {
		j.assume(AssumedCountersinkAngle)
	}
	return slope
}

// coneSlope is 2 tan(A/2) of the countersink: by its angle, else from mouth, depth and the bore it runs down to, else by the shop's tool,
// and then said to be. A bore that is not given is nothing.
func (h *Head) coneSlope(bore measure.Length, shop *Shop) (slope float64, ofShop bool) {
	c := &h.Countersink
	if !c.Angle.IsZero() {
		return 2 * c.Angle.Half().Tan(), false
	}
	if c.Mouth.Given() && c.Depth.Given() && bore.Sign() > 0 {
		// Mouth and depth give the angle only where the cone runs down to the bore. One that no tool cuts does not.
		slope := c.Mouth.Middle().Sub(bore).Millimetres() / c.Depth.Middle().Millimetres()
		if slope > 2*measure.Degrees(1).Half().Tan() && slope < 2*measure.Degrees(179).Half().Tan() {
			return slope, false
		}
	}
	return 2 * shop.CountersinkAngle.Half().Tan(), true
}

// meetsAt returns the depth at which the lower edge of a collar meets the cone: (M − collar OD) / (2 tan(A/2)).
func (c *cone) meetsAt(od measure.Dim) stack.Sum {
	return stack.Of(scaled(c.mouth, 1/c.slope)).Minus(scaled(od, 1/c.slope))
}

// mouthAfter returns the mouth that a countersink needs for a collar to seat, or that a cone gets by being cut deeper, where that
// is more.
func (c *cone) mouthAfter(od, length, deeper measure.Length) measure.Length {
	need := od.Add(times(length, c.slope))
	if !c.there {
		return need
	}
	return measure.Max(need, c.mouth.Middle().Add(times(deeper, c.slope)))
}
