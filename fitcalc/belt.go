package fitcalc

import "example.com/seatline/fitcalc/measure"

// belt is how surely a joint keeps one of the shop's limits. Between certain and beyond stand two steps, so that no verdict
// hangs on a micrometre: a little more of any size moves a joint by one step at most.
type belt uint8

const (
	// certain: hardly any joint is beyond the limit.
	certain belt = iota
	// likely: more than one in twenty is, which is worth a remark.
	likely
	// unsure: more than the risk that the shop takes, or so close to the limit that calipers cannot tell.
	unsure
	// beyond: the usual joint is.
	beyond
)

const (
	// remarkShare is the share of joints beyond a limit from which on it is said: one in twenty, common practice.
	remarkShare = 0.05
	// halfOfThem parts the usual joint that keeps a limit from the usual joint that does not: the mean of a symmetric spread is at it.
	halfOfThem = 0.5
)

// beltOf places a joint by the share p of joints beyond the limit, the share that the shop risks, and how far the mean lies
// inside the limit. Where that is less than what calipers tell, the joint is not certain, however small the tolerances.
func beltOf(p, risk float64, inside, calipers measure.Length) belt {
	switch {
	case p > halfOfThem:
		return beyond
	case p > risk || inside.Less(calipers):
		return unsure
	case p > remarkShare:
		return likely
	}
	return certain
}

// level is what a belt weighs where a joint that is unsure asks for work or for measuring, as the caller says.
func (b belt) level(whenUnsure Level) Level {
	switch b {
	case unsure:
		return whenUnsure
	case beyond:
		return Blocks
	}
	return Remarks
}
