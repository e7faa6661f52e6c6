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
	// bore is the hole below the cone: a collar that is narrower meets neither cone nor bottom. It is not given where no collar sinks.
	bore measure.Dim
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

// wider is the probability that the collar is wider than the bore, without which it sinks into it.
func (l *landing) wider() float64 {
	if !l.bore.Given() {
		return 1
	}
	return stack.Of(l.od).Minus(l.bore).Above(measure.Length{})
}

// sinks reports whether a collar of an OD goes into a bore.
func (l *landing) sinks(od, bore measure.Length) bool { return l.bore.Given() && !bore.Less(od) }

// standOff is the height that the collar leaves the base at: the usual, and limit against limit; never less than nothing.
func (l *landing) standOff() (a Amount) {
	given := l.width.Given()
	if !l.sinks(l.od.Middle(), l.bore.Middle()) {
		a.Nominal = l.held()
	}
	if !l.sinks(l.od.Lower(), l.bore.Upper()) {
		a.Least = l.heightAt(l.length.Lower(), l.contact.Most(), l.bottom.Upper(), l.depth.Upper(), given && !l.width.Upper().Less(l.od.Lower()))
	}
	if !l.sinks(l.od.Upper(), l.bore.Lower()) {
		a.Most = l.heightAt(l.length.Upper(), l.contact.Least(), l.bottom.Lower(), l.depth.Lower(), given && !l.width.Lower().Less(l.od.Upper()))
	}
	return a
}

// held is the usual height of a collar that does not sink into the bore.
func (l *landing) held() measure.Length {
	return l.heightAt(l.length.Middle(), l.contact.Middle(), l.bottom.Middle(), l.depth.Middle(), l.usuallyFits())
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

// above returns the probability that the base stands off by more than a gap: that the collar is wider than the bore, and the cone or
// what is beside it holds it up. Next to the bore the cone's bottom does, so that the two hardly share the collar's OD.
func (l *landing) above(gap measure.Length) float64 {
	wider := l.wider()
	if wider <= 1-nearOne {
		return 0
	}
	return wider * l.heldAbove(gap)
}

// heldAbove is above for a collar that does not sink into the bore. Where one stop holds the collar up in as good as every
// joint, it is that of one sum; where two compete, that of a pair which share the collar's length. Most joints are such. The rest
// is averaged over the length.
func (l *landing) heldAbove(gap measure.Length) float64 {
	cone, top, fits := l.coneStops(), stack.Sum{}, l.fits()
	onTop := cone.holds(&top)
	switch {
	case fits <= 1-nearOne && cone.count == 0:
		return l.aboveOne(top, gap)
	case fits <= 1-nearOne && cone.count == 1 && onTop:
		return stack.BothAbove(l.length, top, cone.stops[0], gap)
	case fits <= 1-nearOne && !onTop:
		return l.aboveFirst(&cone, gap)
	case cone.count == 0:
		return (1-fits)*l.aboveOne(top, gap) + fits*l.aboveLast(top, stack.Of(l.depth), gap)
	case fits >= nearOne && cone.count == 1 && !onTop:
		return l.aboveLast(cone.stops[0], stack.Of(l.depth), gap)
	}
	return l.aboveMean(gap, fits)
}

// coneStops are what holds a collar up in a cone, whichever comes first: none, one or two.
type coneStops struct {
	stops [2]stack.Sum
	count int
}

// coneStops returns the cone and its bottom, or the one of them that comes first in as good as every joint.
func (l *landing) coneStops() (c coneStops) {
	if !l.cone {
		return c
	}
	c.stops[0], c.count = l.contact, 1
	if !l.bottom.Given() {
		return c
	}
	bottom := stack.Of(l.bottom)
	switch lesser(&l.contact, &bottom) {
	case eitherOf:
		c.stops[1], c.count = bottom, 2
	case secondOf:
		c.stops[0] = bottom
	}
	return c
}

// holds reports whether the top may hold the collar up before the cone lets it in, and leaves the cone out where it never does.
func (c *coneStops) holds(top *stack.Sum) bool {
	onTop := c.count == 0
	for i := range c.count {
		switch lesser(top, &c.stops[i]) {
		case eitherOf:
			onTop = true
		case secondOf:
			c.count = 0
			return true
		}
	}
	return onTop
}

func (l *landing) aboveOne(stop stack.Sum, gap measure.Length) float64 {
	return stack.Of(l.length).MinusSum(stop).Above(gap)
}

// aboveFirst is for the stop of a cone that comes first: the collar stands off where either holds it up.
func (l *landing) aboveFirst(c *coneStops, gap measure.Length) float64 {
	p := l.aboveOne(c.stops[0], gap)
	if c.count == 2 {
		p += l.aboveOne(c.stops[1], gap) - stack.BothAbove(l.length, c.stops[0], c.stops[1], gap)
	}
	return math.Min(1, math.Max(0, p))
}

// aboveLast is for the deeper of two stops, which the collar goes down to: it stands off where both hold it up.
func (l *landing) aboveLast(a, b stack.Sum, gap measure.Length) float64 {
	switch lesser(&a, &b) {
	case firstOf:
		return l.aboveOne(b, gap)
	case secondOf:
		return l.aboveOne(a, gap)
	}
	return stack.BothAbove(l.length, a, b, gap)
}

// aboveMean averages over the collar's length, with as many stops as there are.
func (l *landing) aboveMean(gap measure.Length, fits float64) float64 {
	var rises [4]stack.Sum // where the probabilities rise; the first is the top itself
	count := 1
	rise := func(stop stack.Sum) {
		rises[count] = stop
		count++
	}
	if l.cone {
		rise(l.contact)
	}
	if l.bottom.Given() {
		rise(stack.Of(l.bottom))
	}
	if fits > 0 {
		rise(stack.Of(l.depth))
	}
	for i := range rises {
		rises[i] = rises[i].PlusConst(gap)
	}
	p := stack.Average(l.length, func(length measure.Length) float64 { return l.heldBefore(length.Sub(gap), fits) }, rises[:count]...)
	return math.Min(1, math.Max(0, p))
}

// order is which of two sums is the lesser one.
type order uint8

const (
	eitherOf order = iota
	firstOf
	secondOf
)

// lesser returns which of two sums is the lesser in as good as every joint: their means are apart by more than six and a half of the
// deviations of their difference. Beyond that there is less than 1e-9 of any of the shapes.
func lesser(a, b *stack.Sum) order {
	switch apart, reach := b.Mean()-a.Mean(), 6.5*math.Hypot(a.Sigma(), b.Sigma()); {
	case apart >= reach:
		return firstOf
	case -apart >= reach:
		return secondOf
	}
	return eitherOf
}

// heldBefore returns the probability that the collar is held up before it is so deep in, which is nothing for what is no depth. For
// one depth the stops are independent of each other, but that the collar's OD counts for the cone and for the counterbore.
func (l *landing) heldBefore(depth measure.Length, fits float64) float64 {
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

// fitsAndMeets returns the probability that the collar fits the counterbore and meets the cone no sooner than at a depth: that neither
// is too narrow for its OD, which they share.
func (l *landing) fitsAndMeets(depth measure.Length, meets, fits float64) float64 {
	if fits >= nearOne || meets <= 1-nearOne || meets >= nearOne {
		return meets * fits
	}
	narrower := times(depth, l.slope) // the cone is narrower there than at its mouth by this
	tooNarrow := stack.BothAbove(l.od, stack.Of(l.mouth).PlusConst(narrower.Neg()), stack.Of(l.width), measure.Length{})
	return meets + fits - 1 + tooNarrow
}
