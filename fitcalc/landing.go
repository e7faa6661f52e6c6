package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// landing is a collar on its way into the hosel's top. It goes down until its lower edge meets the cone, or its end the bottom of the
// cone, whichever comes first; where a counterbore is wide enough for it and deeper, down to the bottom of that; and nowhere
// further than the top where nothing lets it in. All depths are from the top:
//
//	depth     = max(0, min((mouth − collar OD) / (2 tan(A/2)), cone depth), counterbore depth if collar OD ≤ counterbore)
//	stand-off = collar length − depth
//
// Which of them holds the collar up is another one from joint to joint, so that the stand-off is not the one sum that is the largest
// at usual sizes: it is the largest of several that share the collar's length.
type landing struct {
	od, length measure.Dim
	// sinks is set for a collar that is narrower than the bore, which meets neither cone nor bottom.
	sinks bool
	// cone is set where there is one: it has a mouth, a slope, and a contact, the depth at which the collar's edge meets it.
	cone    bool
	mouth   measure.Dim
	slope   float64
	contact stack.Sum
	// bottom is where the cone ends, not given where that is the bore.
	bottom measure.Dim
	// width and depth are those of a counterbore, not given where there is none.
	width, depth measure.Dim
}

// nearOne is as good as one, and its complement as good as nothing, for a probability.
const nearOne = 1 - 1e-12

// fits is the probability that the counterbore is wide enough.
func (l *landing) fits() float64 {
	if !l.width.Given() {
		return 0
	}
	return 1 - stack.Of(l.width).Minus(l.od).Below(measure.Length{})
}

// usuallyFits reports whether it is at the sizes the parts usually have.
func (l *landing) usuallyFits() bool {
	return l.width.Given() && !l.width.Middle().Less(l.od.Middle())
}

// standOff is the height that the collar leaves the base at: the usual, and limit against limit; never less than nothing.
func (l *landing) standOff() Amount {
	if l.sinks {
		return Amount{}
	}
	given := l.width.Given()
	return Amount{
		Nominal: l.heightAt(l.length.Middle(), l.contact.Middle(), l.bottom.Middle(), l.depth.Middle(), l.usuallyFits()),
		Least:   l.heightAt(l.length.Lower(), l.contact.Most(), l.bottom.Upper(), l.depth.Upper(), given && !l.width.Upper().Less(l.od.Lower())),
		Most:    l.heightAt(l.length.Upper(), l.contact.Least(), l.bottom.Lower(), l.depth.Lower(), given && !l.width.Lower().Less(l.od.Upper())),
	}
}

func (l *landing) heightAt(length, contact, bottom, depth measure.Length, fits bool) measure.Length {
	goesIn := measure.Length{}
	if l.cone {
		if l.bottom.Given() {
			contact = measure.Min(contact, bottom)
		}
		goesIn = measure.Max(goesIn, contact)
	}
	if fits {
		goesIn = measure.Max(goesIn, depth)
	}
	return measure.Max(length.Sub(goesIn), measure.Length{})
}

// above returns the probability that the base stands off by more than a gap.
func (l *landing) above(gap measure.Length) float64 {
	if l.sinks {
		return 0
	}
	fits := l.fits()
	if stop, only := l.onlyStop(fits); only {
		return stack.Of(l.length).MinusSum(stop).Above(gap)
	}
	var stops [4]stack.Sum // where the probabilities rise; the first is the top itself
	if l.cone {
		stops[1] = l.contact
	}
	if l.bottom.Given() {
		stops[2] = stack.Of(l.bottom)
	}
	if fits > 0 {
		stops[3] = stack.Of(l.depth)
	}
	for i := range stops {
		stops[i] = stops[i].PlusConst(gap)
	}
	p := stack.Average(l.length, func(length measure.Length) float64 { return l.heldAbove(length.Sub(gap), fits) }, stops[:]...)
	return math.Min(1, math.Max(0, p))
}

// onlyStop returns what holds the collar up where that is the same one in as good as every joint. Most joints are such, and need
// no more than one sum.
func (l *landing) onlyStop(fits float64) (stop stack.Sum, only bool) {
	if l.cone {
		cone := l.contact
		if l.bottom.Given() {
			if cone, only = first(l.contact, stack.Of(l.bottom)); !only {
				return stop, false
			}
		}
		if stop, only = last(stop, cone); !only {
			return stop, false
		}
	}
	switch {
	case fits <= 1-nearOne:
		return stop, true
	case fits < nearOne:
		return stop, false
	}
	return last(stop, stack.Of(l.depth))
}

// first returns the lesser of two sums, and last the larger, where that is the same one in as good as every joint: their means are
// apart by more than six and a half of the deviations of their difference. Beyond that there is less than 1e-9 of any of the
// shapes.
func first(a, b stack.Sum) (stack.Sum, bool) {
	switch apart, reach := b.Mean()-a.Mean(), 6.5*math.Hypot(a.Sigma(), b.Sigma()); {
	case apart >= reach:
		return a, true
	case -apart >= reach:
		return b, true
	}
	return stack.Sum{}, false
}

func last(a, b stack.Sum) (stack.Sum, bool) {
	lesser, sure := first(a, b)
	if lesser == a {
		return b, sure
	}
	return a, sure
}

// heldAbove returns the probability that the collar is held up before it is so deep in, which is nothing for what is no depth. For
// one depth the stops are independent of each other, but that the collar's OD counts for the cone and for the counterbore.
func (l *landing) heldAbove(depth measure.Length, fits float64) float64 {
	if depth.Sign() <= 0 {
		return 0
	}
	atLeast := func(s stack.Sum) float64 { return 1 - s.Below(depth) }
	meets, clears := 0.0, 1.0 // the cone is met no sooner; its bottom lies no higher
	if l.cone {
		meets = atLeast(l.contact)
	}
	if l.bottom.Given() {
		clears = atLeast(stack.Of(l.bottom))
	}
	held := 1 - meets*clears // by cone and bottom
	if fits == 0 {
		return held
	}
	// less what goes on into the counterbore: of those that fit it, without those that the cone lets down anyway
	return held - (fits-l.fitsAndMeets(depth, meets, fits)*clears)*atLeast(stack.Of(l.depth))
}

// fitsAndMeets returns the probability that the collar fits the counterbore and meets the cone no sooner than at a depth: one thing
// where either is certain, else the mean over its OD.
func (l *landing) fitsAndMeets(depth measure.Length, meets, fits float64) float64 {
	if fits >= nearOne || meets <= 1-nearOne || meets >= nearOne || l.od.Width().IsZero() {
		return meets * fits
	}
	narrower := times(depth, l.slope) // the cone is narrower there than at its mouth by this
	mouth, width := stack.Of(l.mouth).PlusConst(narrower.Neg()), stack.Of(l.width)
	return stack.Average(l.od, func(od measure.Length) float64 {
		return (1 - mouth.Below(od)) * (1 - width.Below(od))
	}, mouth, width)
}
