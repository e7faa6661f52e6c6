package fitcalc

import (
	"math"
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
// The ends of the windows are exact to the picometre: each is found by narrowing down what [Evaluate] itself decides by,
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
	return p.windows(byReason), nil
}

func (p *probe) windows(byReason bool) []Window {
	least, most := p.span()
	if !byReason && p.ruledOut(most) {
		return p.join([]measure.Length{least}, byReason)
	}
	return p.join(p.breaks(least, most), byReason)
}

// ruledOut reports whether grip, seat or bore rule the joint out whatever the hosel's OD, of which one is given that leaves any recess
// a wall. Most ferrules of a catalogue are ruled out so on most tips.
func (p *probe) ruledOut(od measure.Length) bool {
	j := p.begin(od)
	p.stages.grip.tell(&j)
	p.stages.tellSeat(&j)
	p.stages.bore.tell(&j)
	return j.worst >= Blocks
}

// hoselConditions are what a verdict, and the reason that decides it, depend on as the hosel's OD grows. Each is false up to some OD and
// true from there on. The numbers that it hangs on tell about where.
var hoselConditions = [...]struct {
	holds func(*Fit, *Shop) bool
	hints [2]hint
}{
	{func(f *Fit, s *Shop) bool { return f.Flush.tooSmall(s) >= unsure }, [2]hint{
		{undersize, func(s *Shop) float64 { return s.UndersizeRisk }}, {oversizeMM, func(s *Shop) float64 { return s.SameSize.Sub(s.FlushStep).Millimetres() }}}},
	{func(f *Fit, s *Shop) bool { return f.Flush.tooSmall(s) >= beyond }, [2]hint{{undersize, half}}},
	{func(f *Fit, s *Shop) bool { return !f.Flush.turns(s) }, [2]hint{{visiblyOver, func(s *Shop) float64 { return s.TurnShare }}}},
	{func(f *Fit, s *Shop) bool { return f.Flush.tooMuch(s) < beyond }, [2]hint{
		{overLimit, func(s *Shop) float64 { return 1 - s.MeasureShare }}, {oversizeMM, func(s *Shop) float64 { return s.TurnLimit.Add(s.SameSize).Millimetres() }}}},
	{func(f *Fit, s *Shop) bool { return f.Flush.tooMuch(s) < unsure }, [2]hint{{overLimit, half}}},
	{func(f *Fit, s *Shop) bool { return !f.Seat.WallLeft.Less(s.LeastHoselWall) }, [2]hint{{hoselWallMM, func(s *Shop) float64 { return s.LeastHoselWall.Millimetres() }}}},
	{func(f *Fit, _ *Shop) bool { return weightOf(f, WallThin) < Blocks }, [2]hint{{thinWall, half}}},
	{func(f *Fit, _ *Shop) bool { return weightOf(f, WallThin) < Measures }, [2]hint{{thinWall, measured}, {wallMM, leastWall}}},
	{func(f *Fit, _ *Shop) bool { return weightOf(f, RingCut) < Blocks }, [2]hint{{ringCut, half}}},
	{func(f *Fit, _ *Shop) bool { return weightOf(f, RingCut) < Measures }, [2]hint{{ringCut, measured}}},
	{func(f *Fit, _ *Shop) bool { return !has(f, DataMissing) }, [2]hint{}},
}

func half(*Shop) float64        { return halfOfThem }
func measured(s *Shop) float64  { return s.MeasureShare }
func leastWall(s *Shop) float64 { return s.LeastWall.Add(s.SameSize.Half()).Millimetres() }

// hint is a number of a fit, and the one at which a condition begins to hold, or at which it does as long as nothing else decides.
type hint struct {
	quantity quantity
	at       func(*Shop) float64 // nil where there is no hint
}

// quantity is one of the numbers of a fit that change with the hosel's OD: first shares of joints, which mostly have a normal
// distribution, then lengths, which grow and shrink as it does.
type quantity uint8

const (
	undersize quantity = iota
	visiblyOver
	overLimit
	thinWall
	ringCut
	oversizeMM
	hoselWallMM
	wallMM
	quantities
)

// straightened returns a number as one that grows evenly with the OD: a share p as x with p = erfc(x)/2.
func (q quantity) straightened(x float64) float64 {
	if q < oversizeMM {
		return math.Erfcinv(2 * x)
	}
	return x
}

// held says which of the conditions hold at a hosel OD, and what the numbers are that they hang on.
type held struct {
	od      measure.Length
	each    [len(hoselConditions)]bool
	numbers [quantities]float64
}

// conditions works out what depends on the hosel's OD and asks which conditions hold. Grip and bore do not depend on it.
func (p *probe) conditions(od measure.Length) held {
	j := p.begin(od)
	j.flush()
	p.stages.tellSeat(&j)
	j.work()
	f := &p.fit
	h := held{od: od, numbers: [...]float64{undersize: f.Flush.VisibleUndersize, visiblyOver: f.Flush.VisibleOversize, overLimit: f.Flush.OverTurnLimit,
		thinWall: f.Work.ThinWall, oversizeMM: f.Flush.mean().Millimetres(), hoselWallMM: f.Seat.WallLeft.Millimetres(), wallMM: f.Work.WallLeft.Millimetres()}}
	for _, r := range f.reasons[:f.count] {
		if r.Code == RingCut {
			h.numbers[ringCut] = r.Share
		}
	}
	for i := range hoselConditions {
		h.each[i] = hoselConditions[i].holds(f, &p.shop)
	}
	return h
}

// guess returns the OD at which a number gets to where a condition begins to hold, as a straight line through two ODs tells; false where that
// is not between the two, or nothing tells.
func (p *probe) guess(h hint, low, high *held) (od measure.Length, found bool) {
	if h.at == nil {
		return od, false
	}
	want := h.quantity.straightened(h.at(&p.shop))
	below, above := h.quantity.straightened(low.numbers[h.quantity])-want, h.quantity.straightened(high.numbers[h.quantity])-want
	gap := float64(high.od.Sub(low.od).Picometres())
	way := math.Round(gap * below / (below - above))
	if !(way > 0 && way < gap) { // not so if it is no number
		return od, false
	}
	return low.od.Add(measure.Picometres(int64(way))), true
}

// nearBase is how far about the base of a ferrule nearly all of what depends on the hosel's OD changes. It only tells where to look first.
var nearBase = measure.Micrometres(250)

// breaks returns the least OD and those at which a condition begins to hold, sorted. What the search for one finds out narrows the others.
func (p *probe) breaks(least, most measure.Length) []measure.Length {
	known := append(make([]held, 0, 128), p.conditions(least)) // by OD
	for _, od := range [...]measure.Length{p.ferrule.BaseOD.Nominal().Sub(nearBase), p.ferrule.BaseOD.Nominal().Add(nearBase)} {
		if known[len(known)-1].od.Less(od) && od.Less(most) {
			known = append(known, p.conditions(od))
		}
	}
	known = append(known, p.conditions(most))
	breaks := append(make([]measure.Length, 0, len(hoselConditions)+1), least)
	for i := range hoselConditions {
		if known[0].each[i] || !known[len(known)-1].each[i] {
			continue
		}
		var at measure.Length
		known, at = p.search(known, i)
		breaks = append(breaks, at)
	}
	slices.SortFunc(breaks, measure.Length.Compare)
	return slices.Compact(breaks)
}

// search finds the least OD at which a condition holds, and adds the ODs that it looks at to those that are known. It looks where the numbers
// say that it should be, then next to that, and in the middle in between: so it is right whatever the numbers say, and mostly done in a few
// steps instead of forty.
func (p *probe) search(known []held, condition int) ([]held, measure.Length) {
	c := &hoselConditions[condition]
	at, _ := slices.BinarySearchFunc(known, true, func(h held, _ bool) int {
		if h.each[condition] {
			return 1
		}
		return -1
	})
	var last measure.Length // the OD that was looked at last
	var guessed, holds bool // whether it was a guess, and whether the condition holds there
	reach := measure.Picometres(1)
	for step := 0; ; step++ {
		low, high := &known[at-1], &known[at]
		gap := high.od.Sub(low.od)
		if !measure.Picometres(1).Less(gap) {
			return known, high.od
		}
		od := low.od.Add(gap.Half())
		switch step % 5 {
		case 0, 2:
			if at, found := p.guess(c.hints[step%5/2], low, high); found {
				od, guessed = at, true
			}
		case 1, 3:
			beside := last.Add(reach)
			if holds {
				beside = last.Sub(reach)
			}
			if guessed && low.od.Less(beside) && beside.Less(high.od) {
				od, reach = beside, reach.MulInt(16)
			}
			guessed = false
		}
		middle := p.conditions(od)
		last, holds = od, middle.each[condition]
		known = slices.Insert(known, at, middle)
		if !holds {
			at++
		}
	}
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
	// brought is the joint that begin brought together first, and stages are those of it: for begin, only the hosel's OD changes.
	brought Joint
	stages  stages
	// otherTapers are the same joint by the other tapers that shops know.
	otherTapers []probe
}

// begin brings the parts together for a hosel of an OD.
func (p *probe) begin(od measure.Length) joint {
	*p.hosel() = moved(*p.hosel(), od)
	p.fit = Fit{}
	if !p.stages.judged {
		p.brought = jointOf(&p.head, &p.tip, &p.ferrule, &p.shop)
		p.brought.bring()
		p.stages.of(&p.brought)
	}
	j := joint{Joint: p.brought, fit: &p.fit}
	j.HoselOD.Dim = *p.hosel()
	j.bringHosel()
	return j
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
		p.judgeAt(from)
		fit := &p.fit
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
