package fitcalc

import (
	"math"

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
		if j.head.Top == TopCountersunk {
			j.missing(FieldCountersinkMouth)
			return result, false
		}
		return result, true
	}
	switch {
	case !c.Angle.IsZero():
		result.slope = 2 * c.Angle.Half().Tan()
	case c.Mouth.Given() && c.Depth.Given() && j.headBore.Given():
		// Mouth and depth give the angle only where the cone runs down to the bore.
		result.slope = c.Mouth.Nominal().Sub(j.headBore.Nominal()).Millimetres() / c.Depth.Nominal().Millimetres()
	default:
		j.assume(AssumedCountersinkAngle)
	}
	result.there = true
	result.mouth, result.depth = c.Mouth, c.Depth
	if !c.Mouth.Given() {
		if !j.headBore.Given() {
			j.missing(FieldCountersinkMouth)
			return result, false
		}
		// The cone runs from the bore upward.
		depth := c.Depth.OrPlusMinus(j.shop.RecessTolerance)
		result.mouth = scaled(depth, result.slope).Shift(j.headBore.Nominal())
	}
	result.mouth = result.mouth.OrPlusMinus(j.shop.RecessTolerance)
	if result.depth.Given() {
		result.depth = result.depth.OrPlusMinus(j.shop.RecessTolerance)
	}
	return result, true
}

// standOff returns how high a collar leaves the base: the collar's length less the depth at which its lower edge meets
// the cone, (M − collar OD) / (2 tan(A/2)), or less the depth of the cone where it reaches the bottom first.
func (c cone) standOff(od, length, bore measure.Dim) stack.Sum {
	onCone := stack.Of(length).Minus(scaled(c.mouth, 1/c.slope)).Plus(scaled(od, 1/c.slope))
	narrowerThanBore := bore.Given() && !bore.Nominal().Less(od.Nominal())
	if !c.depth.Given() || narrowerThanBore {
		return onCone
	}
	onBottom := stack.Of(length).Minus(c.depth)
	if onCone.Nominal().Less(onBottom.Nominal()) {
		return onBottom
	}
	return onCone
}

// mouthFor returns the mouth a countersink needs for a collar to seat.
func (c cone) mouthFor(od, length measure.Length) measure.Length {
	const billion = 1_000_000_000
	return od.Add(length.MulRatio(int64(math.Round(c.slope*billion)), billion))
}
