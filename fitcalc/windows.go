package fitcalc

import (
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Window is a range of nominal hosel ODs over which a verdict holds.
type Window struct {
	// HoselOD is the range, of diameters.
	HoselOD measure.Interval
	// Verdict holds over all of it.
	Verdict Verdict
	// Code is that of [Fit.Reason] at the range's lower end: what tells a hosel that is too small for a base
	// ([FlushTurnLimit]) from one that is too large ([FlushUndersize]). Further up another reason may decide for the same
	// verdict; [WindowsByReason] splits there.
	Code Code
}

// Windows returns the verdicts of a ferrule on a tip for every hosel OD: the windows follow each other from the smallest OD a
// hosel can have upward without a gap, and the last goes on for ever. Whoever has measured a hosel reads the verdict off
// them.
//
// The head gives everything but its hosel's OD: bore, depth, top. Where it has a hosel OD, only the tolerance of that is
// taken; otherwise the shop's is. With an adapter the OD is that of the sleeve's top.
//
// The ends of the windows are exact to the picometre: each is found by bisection on what [Evaluate] itself decides by,
// all of which changes once only as the hosel grows. So Windows and Evaluate cannot disagree.
//
// The error is an [*InputError] or a [*SettingError].
func Windows(head Head, tip Tip, ferrule Ferrule, shop Shop) ([]Window, error) {
	return windows(head, tip, ferrule, shop, false)
}

// WindowsByReason is [Windows] split wherever another reason decides: verdict and Code hold over all of a window, and
// neighbours may have the same verdict. So a ferrule that fits no hosel has one window by verdict, and by reason one for
// the hosels that are too small, one for those that it would suit but for its grip, say, and one for those too large.
func WindowsByReason(head Head, tip Tip, ferrule Ferrule, shop Shop) ([]Window, error) {
	return windows(head, tip, ferrule, shop, true)
}

func windows(head Head, tip Tip, ferrule Ferrule, shop Shop, byReason bool) ([]Window, error) {
	p := probe{head: head, tip: tip, ferrule: ferrule, shop: shop}
	if err := firstError(p.head.Validate(), p.tip.Validate(), p.ferrule.Validate(), p.shop.Validate()); err != nil {
		return nil, err
	}
	least, most := p.span()
	if !byReason && p.ruledOut(most) {
		return p.join([]measure.Length{least}, byReason), nil
	}
	return p.join(p.breaks(least, most), byReason), nil
}

// ruledOut reports whether grip, seat or bore rule the joint out whatever the hosel's OD, of which one is given that leaves any recess
// a wall. Most ferrules of a catalogue are ruled out so on most tips.
func (p *probe) ruledOut(od measure.Length) bool {
	j := p.begin(od)
	j.grip()
	j.seat()
	j.bore()
	return j.worst >= Blocks
}

// hoselConditions are what a verdict, and the reason that decides it, depend on as the hosel's OD grows. Each is false up to some OD and true from there on.
var hoselConditions = [...]func(*Fit, *Shop) bool{
	func(f *Fit, s *Shop) bool { return f.Flush.tooSmall(s) >= unsure },
	func(f *Fit, s *Shop) bool { return f.Flush.tooSmall(s) >= beyond },
	func(f *Fit, s *Shop) bool { return !f.Flush.turns(s) },
	func(f *Fit, s *Shop) bool { return f.Flush.tooMuch(s) < beyond },
	func(f *Fit, s *Shop) bool { return f.Flush.tooMuch(s) < unsure },
	func(f *Fit, s *Shop) bool { return !f.Seat.WallLeft.Less(s.LeastHoselWall) },
	func(f *Fit, _ *Shop) bool { return weightOf(f, WallThin) < Blocks },
	func(f *Fit, _ *Shop) bool { return weightOf(f, WallThin) < Measures },
	func(f *Fit, _ *Shop) bool { return weightOf(f, RingCut) < Blocks },
	func(f *Fit, _ *Shop) bool { return weightOf(f, RingCut) < Measures },
	func(f *Fit, _ *Shop) bool { return !has(f, DataMissing) },
}

// held says which of the conditions hold at a hosel OD.
type held struct {
	od   measure.Length
	each [len(hoselConditions)]bool
}

// conditions works out what depends on the hosel's OD and asks which conditions hold. Grip and bore do not depend on it.
func (p *probe) conditions(od measure.Length) held {
	j := p.begin(od)
	j.flush()
	j.seat()
	j.work()
	h := held{od: od}
	for i, holds := range hoselConditions {
		h.each[i] = holds(&p.fit, &p.shop)
	}
	return h
}

// breaks returns the least OD and those at which a condition begins to hold, sorted. What one bisection finds out narrows the others.
func (p *probe) breaks(least, most measure.Length) []measure.Length {
	known := append(make([]held, 0, 128), p.conditions(least), p.conditions(most)) // by OD
	breaks := append(make([]measure.Length, 0, len(hoselConditions)+1), least)
	for i := range hoselConditions {
		if known[0].each[i] || !known[len(known)-1].each[i] {
			continue
		}
		at, _ := slices.BinarySearchFunc(known, true, func(h held, _ bool) int {
			if h.each[i] {
				return 1
			}
			return -1
		})
		for {
			gap := known[at].od.Sub(known[at-1].od)
			if !measure.Picometres(1).Less(gap) {
				break
			}
			middle := p.conditions(known[at-1].od.Add(gap.Half()))
			known = slices.Insert(known, at, middle)
			if !middle.each[i] {
				at++
			}
		}
		breaks = append(breaks, known[at].od)
	}
	slices.SortFunc(breaks, measure.Length.Compare)
	return slices.Compact(breaks)
}

// weightOf is what the fit's reason of a code weighs, that of a remark where it has none.
func weightOf(f *Fit, c Code) Level {
	for _, r := range f.reasons[:f.count] {
		if r.Code == c {
			return r.Level
		}
	}
	return Remarks
}

func has(f *Fit, c Code) bool {
	return slices.ContainsFunc(f.reasons[:f.count], func(r Reason) bool { return r.Code == c })
}

// probe evaluates one joint again and again with something changed.
type probe struct {
	head    Head
	tip     Tip
	ferrule Ferrule
	shop    Shop
	fit     Fit
}

// begin brings the parts together for a hosel of an OD.
func (p *probe) begin(od measure.Length) joint {
	*p.hosel() = moved(*p.hosel(), od)
	p.fit = Fit{}
	return newJoint(&p.fit, &p.head, &p.tip, &p.ferrule, &p.shop)
}

func (p *probe) evaluate() *Fit {
	p.fit = Fit{}
	judge(&p.fit, &p.head, &p.tip, &p.ferrule, &p.shop, true)
	return &p.fit
}

// hosel is the dimension that the ferrule has to match.
func (p *probe) hosel() *measure.Dim {
	if p.head.Adapter.Given() {
		return &p.head.Adapter.TopOD
	}
	return &p.head.HoselOD
}

func (p *probe) atHoselOD(od measure.Length) *Fit {
	*p.hosel() = moved(*p.hosel(), od)
	return p.evaluate()
}

// moved returns d with another nominal size and the same deviations.
func moved(d measure.Dim, nominal measure.Length) measure.Dim {
	if !d.Given() {
		return measure.Nominal(nominal)
	}
	return d.Shift(nominal.Sub(d.Nominal()))
}

// span is from the smallest OD that leaves the hosel a wall to one far above any ferrule.
func (p *probe) span() (least, most measure.Length) {
	inner := p.head.Bore
	if p.head.Adapter.Given() {
		inner = p.head.Adapter.Bore
	}
	usually := p.hosel().Middle().Sub(p.hosel().Nominal()) // larger than nominally, where the limits are one-sided
	least = measure.Max(inner.Middle().Sub(usually), p.hosel().Nominal().Sub(p.hosel().Lower())).Add(measure.Picometres(1))
	for _, d := range [...]measure.Dim{p.head.Countersink.Mouth, p.head.Counterbore.Diameter} {
		if !p.head.Adapter.Given() {
			least = measure.Max(least, d.Middle().Sub(usually).Add(measure.Picometres(1)))
		}
	}
	return least, measure.Max(least, p.ferrule.BaseOD.Nominal()).MulInt(2).Add(mostLength)
}

// join evaluates the stretches that begin at the breaks, and joins neighbours of one verdict, or of one verdict and reason.
func (p *probe) join(breaks []measure.Length, byReason bool) []Window {
	var windows []Window
	for _, from := range breaks {
		fit := p.atHoselOD(from)
		w := Window{measure.NewInterval(measure.Including(from), measure.Unbounded()), fit.Verdict, fit.Reason().Code}
		if n := len(windows); n > 0 {
			last := &windows[n-1]
			if last.Verdict == w.Verdict && (!byReason || last.Code == w.Code) {
				continue
			}
			last.HoselOD = measure.NewInterval(last.HoselOD.Lower(), measure.Excluding(from))
		}
		windows = append(windows, w)
	}
	return windows
}

// threshold returns the smallest length of least < x <= most at which a condition holds that, once it holds, goes on to. It
// reports false where the condition holds at least already, or not at most either.
func threshold(least, most measure.Length, holds func(measure.Length) bool) (measure.Length, bool) {
	if holds(least) || !holds(most) {
		return measure.Length{}, false
	}
	for one := measure.Picometres(1); one.Less(most.Sub(least)); {
		if middle := least.Add(most.Sub(least).Half()); holds(middle) {
			most = middle
		} else {
			least = middle
		}
	}
	return most, true
}
