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
		if j.head.Top == TopCountersunk {
			j.missing(FieldCountersinkMouth)
			return result, false
		}
		return result, true
	}
	result.slope = j.coneSlope()
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

// coneSlope is 2 tan(A/2) of the head's countersink: by its angle, else from mouth, depth and bore, else by the shop's tool.
func (j *joint) coneSlope() float64 {
	c := &j.head.Countersink
	if !c.Angle.IsZero() {
		return 2 * c.Angle.Half().Tan()
	}
	if c.Mouth.Given() && c.Depth.Given() && j.headBore.Given() {
		// Mouth and depth give the angle only where the cone runs down to the bore. One that no tool cuts does not.
		slope := c.Mouth.Nominal().Sub(j.headBore.Nominal()).Millimetres() / c.Depth.Nominal().Millimetres()
		if slope > 2*measure.Degrees(1).Half().Tan() && slope < 2*measure.Degrees(179).Half().Tan() {
			return slope
		}
	}
	j.assume(AssumedCountersinkAngle)
	return 2 * j.shop.CountersinkAngle.Half().Tan()
}

// standOff returns how high a collar leaves the base: the collar's length less the depth at which its lower edge meets
// the cone, (M − collar OD) / (2 tan(A/2)), or less the depth of the cone where it reaches the bottom first. A collar that
// is narrower than the bore meets neither.
func (c cone) standOff(od, length, bore measure.Dim) stack.Sum {
	if bore.Given() && !bore.Nominal().Less(od.Nominal()) {
		return stack.Sum{}
	}
	onCone := stack.Of(length).Minus(scaled(c.mouth, 1/c.slope)).Plus(scaled(od, 1/c.slope))
	if !c.depth.Given() {
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
	return od.Add(times(length, c.slope))
}
