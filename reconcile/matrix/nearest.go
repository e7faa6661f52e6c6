package matrix

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// nearestKept is how many of the nearest are kept for a part that fits nothing.
const nearestKept = 3

// rings are how far out candidates are looked for, in mm on the diameter, each ring beyond the one before: most of what is nearest is very
// near, and the last has all there are.
var rings = [...]float64{.1, 1, math.MaxFloat64}

// firstCandidates is of how many candidates the nearest are looked at first, so that the others can be passed over.
const firstCandidates = 32

// nearest finds the nearest of some pairs without deciding all. Within appends those candidates that are out by more than one and by no more
// than another amount, each as a pair that stands before what it is decided as, so that one is passed over which would stand behind what was
// found already.
func (d *decider) nearest(r *Result, within func(to []Pair, from, most float64) []Pair) []Pair {
	var found []Pair
	look := func(c Pair) {
		if len(found) == nearestKept && compareWithin(c, found[nearestKept-1]) > 0 {
			return
		}
		if p := d.decide(r, c.Head, c.Ferrule); p.Verdict == fitcalc.No {
			at, _ := slices.BinarySearchFunc(found, p, compareWithin)
			found = slices.Insert(found, at, p)
			found = found[:min(len(found), nearestKept)]
		}
	}
	from := -1.0
	for _, most := range rings {
		d.candidates, d.first = within(d.candidates[:0], from, most), d.first[:0]
		for _, c := range d.candidates {
			d.first.offer(c, firstCandidates)
		}
		if len(d.first) == 0 {
			from = most
			continue
		}
		last := d.first[0]
		slices.SortFunc(d.first, compareWithin)
		for _, c := range d.first {
			look(c)
		}
		for _, c := range d.candidates {
			if compareWithin(c, last) > 0 {
				look(c)
			}
		}
		if len(found) == nearestKept && float64(found[nearestKept-1].Miss) < most {
			break
		}
		from = most
	}
	return found
}

// nearestFerrules finds what comes nearest to the heads under way. Of those in reach all verdicts are known.
func (d *decider) nearestFerrules(r *Result) []Pair {
	s := newSpan(r, d.head, r.lengths.all)
	return d.nearest(r, func(to []Pair, from, most float64) []Pair { return r.index.beyond(to, d, &s, from, most) })
}

// beyond appends the geometries of ferrules that are out on the heads under way, by more than one and no more than another amount.
func (x *index) beyond(to []Pair, d *decider, s *span, from, most float64) []Pair {
	least, largest := s.ods(most, x.widest)
	for i := range x.groups {
		g := &x.groups[i]
		if s.leastBeyond(&g.form) > most {
			continue
		}
		sorted := g.sorted
		if s.hasOD {
			first := sort.Search(len(sorted), func(i int) bool { return !sorted[i].od.Less(least) })
			last := sort.Search(len(sorted), func(i int) bool { return largest.Less(sorted[i].od) })
			sorted = sorted[first:max(first, last)]
		}
		for _, entries := range [...][]entry{sorted, g.unknown} {
			for i := range entries {
				e := &entries[i]
				brief := &d.briefs[e.class]
				if brief.Verdict != fitcalc.NoVerdict && brief.Verdict != fitcalc.No {
					continue
				}
				f := &x.forms[e.class]
				if b := max(s.beyond(f), s.beyondBy(f, brief.Code)); b > from && b <= most {
					to = append(to, s.candidate(f, b, d.head, e.ferrule))
				}
			}
		}
	}
	return to
}

// findNearestHeads finds what comes nearest to each geometry of ferrules that fits nothing.
func (r *Result) findNearestHeads() {
	r.near = make([][]Pair, len(r.forms))
	var left []int32
	for form := range r.forms {
		if r.forms[form].fits() == 0 {
			left = append(left, int32(form))
		}
	}
	if len(left) == 0 {
		return
	}
	heads := newHeadIndex(r)
	deciders := make([]decider, workersFor(len(left)))
	each(len(left), func(w, i int) {
		form := left[i]
		ferrule := r.ofFerrules.first(form)
		r.near[form] = deciders[w].nearest(r, func(to []Pair, from, most float64) []Pair {
			return heads.beyond(to, &r.index.forms[form], ferrule, r.index.widest, from, most)
		})
	})
}

// headIndex is the geometries of heads that may take a ferrule, those of unknown OD first, the others by the OD that it has to match.
type headIndex struct {
	spans   []span
	heads   []int32 // the first of each
	unknown int
	spread  float64 // the widest of a hosel OD
}

func newHeadIndex(r *Result) *headIndex {
	x := &headIndex{}
	for _, class := range r.byOD() {
		if head := r.ofHeads.first(class); r.heads[head].Top != fitcalc.TopRounded {
			x.heads = append(x.heads, head)
		}
	}
	given := func(head int32) int {
		if od := r.heads[head].JointOD(); od.Given() {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(x.heads, func(a, b int32) int { return cmp.Compare(given(a), given(b)) })
	x.spans = make([]span, len(x.heads))
	each(len(x.spans), func(_, i int) { x.spans[i] = newSpan(r, x.heads[i], r.lengths.all) })
	for i := range x.spans {
		if !x.spans[i].hasOD {
			x.unknown++
		}
		x.spread = max(x.spread, x.spans[i].spread)
	}
	return x
}

// beyond appends the geometries of heads on which a ferrule is out by more than one and no more than another amount.
func (x *headIndex) beyond(to []Pair, f *form, ferrule int32, widest, from, most float64) []Pair {
	begin, end := x.unknown, len(x.heads)
	if f.hasOD && begin < end {
		// A span reaches as far from its OD everywhere, and as far beyond as it may spread.
		s := x.spans[begin]
		s.spread = x.spread
		least, largest := s.ods(most, widest)
		below, above := largest.Sub(s.od), s.od.Sub(least)
		begin = x.unknown + sort.Search(end-x.unknown, func(i int) bool { return !x.spans[x.unknown+i].od.Add(below).Less(f.od) })
		end = x.unknown + sort.Search(end-x.unknown, func(i int) bool { return f.od.Less(x.spans[x.unknown+i].od.Sub(above)) })
	}
	for _, part := range [...][2]int{{0, x.unknown}, {begin, max(begin, end)}} {
		for i := part[0]; i < part[1]; i++ {
			s := &x.spans[i]
			if b := s.beyond(f); b > from && b <= most {
				to = append(to, s.candidate(f, b, x.heads[i], ferrule))
			}
		}
	}
	return to
}

// span is what a head leaves a ferrule, in mm on the diameter: base ODs, and for each length of ferrule and each of its tips the
// diameter of the shaft where it is widest under the ferrule.
type span struct {
	hasOD       bool
	od, same    measure.Length // the middle of the OD, and what counts as one size
	least, most float64
	// margin is how far beyond a limit a size still may do, and spread how far the hosel varies: a base beyond the turn limit suits the
	// largest of the hosels.
	margin, spread float64
	tips           int
	widest         []shaft // tips within lengths
	strain         float64
}

// shaft is between which diameters the shaft is at its widest.
type shaft struct{ least, most float64 }

// form is what a ferrule brings.
type form struct {
	hasOD, hasBore bool
	od             measure.Length // the middle of the base OD
	odMM           float64
	spread, bore   float64
	length         int // its place among the lengths
}

// lengths are the different lengths of the ferrules, which are few. The first stands for one that is not given, the second for any of
// those beyond what is kept: it reaches from nothing to the longest.
type lengths struct {
	all   []measure.Dim
	known map[measure.Length]int
}

const (
	noLength = iota
	anyLength
)

const lengthsKept = 64

func newLengths(r *Result) *lengths {
	l := &lengths{all: []measure.Dim{{}, {}}, known: map[measure.Length]int{}}
	longest := measure.Length{}
	for _, members := range r.ofFerrules.members {
		length := r.parts[members[0]].Length
		longest = measure.Max(longest, length.Middle())
		if _, seen := l.known[length.Middle()]; length.Given() && !seen && len(l.all) < lengthsKept {
			l.known[length.Middle()] = len(l.all)
			l.all = append(l.all, length)
		}
	}
	l.all[anyLength] = measure.Between(measure.Length{}, longest)
	return l
}

func (l *lengths) form(f *fitcalc.Ferrule, shop *fitcalc.Shop) form {
	at := noLength
	if f.Length.Given() {
		at = anyLength
		if kept, is := l.known[f.Length.Middle()]; is {
			at = kept
		}
	}
	return form{
		hasOD: f.BaseOD.Given(), hasBore: f.Bore.Given(), length: at,
		od: f.BaseOD.Middle(), odMM: middle(&f.BaseOD), spread: f.BaseOD.OrPlusMinus(shop.FerruleODTolerance).Width().Millimetres(), bore: middle(&f.Bore),
	}
}

// middle is the middle of a dimension's limits in mm.
func middle(d *measure.Dim) float64 {
	return d.Middle().Millimetres()
}

func newSpan(r *Result, head int32, lengths []measure.Dim) span {
	h, shop := &r.heads[head], &r.Shop
	jointOD := h.JointOD()
	od := middle(&jointOD)
	s := span{
		hasOD: jointOD.Given(), od: jointOD.Middle(), same: shop.SameSize, least: od - shop.FlushStep.Millimetres(), most: od + shop.TurnLimit.Millimetres(),
		margin: shop.SameSize.Millimetres(), spread: jointOD.OrPlusMinus(shop.HoselODTolerance).Width().Millimetres(),
		strain: 1 + shop.StrainLimit,
	}
	tips := r.HeadTips[head].Tips
	if slices.ContainsFunc(tips, func(tip int32) bool { return r.Tips[tip].Tip.Form() == fitcalc.TipUnknown }) {
		return s
	}
	s.tips = len(tips)
	for i, length := range lengths {
		for _, tip := range tips {
			w := widest(&r.Tips[tip].Tip, h, length.Middle(), shop)
			switch form := r.Tips[tip].Tip.Form(); {
			case form == fitcalc.TipProfiled || form == fitcalc.TipTapered && i == noLength:
				// Of a profile nothing is known without looking at its stations, and without a length a taper does not say where it grips.
				w = shaft{0, math.Inf(1)}
			case i == anyLength:
				w = shaft{widest(&r.Tips[tip].Tip, h, measure.Length{}, shop).least, widest(&r.Tips[tip].Tip, h, length.Upper(), shop).most}
			}
			s.widest = append(s.widest, w)
		}
	}
	return s
}

// widest is the diameter of a shaft that is parallel or tapered where it is widest under a ferrule of a length.
func widest(t *fitcalc.Tip, h *fitcalc.Head, length measure.Length, shop *fitcalc.Shop) shaft {
	at := shop.InsertionDepth
	if depth := h.JointBoreDepth(); depth.Given() {
		at = depth.Middle()
	}
	most := measure.Max(t.Diameter(at).Nominal(), t.Diameter(at.Add(length)).Nominal()).Millimetres()
	return shaft{most, most}
}

// beyond is the least by which a ferrule can be out on the head.
func (s *span) beyond(f *form) float64 {
	out := 0.0
	if s.hasOD && f.hasOD {
		out = max(beyondFor(s.least-f.odMM, s.margin), beyondFor(f.odMM-s.most, max(s.margin, s.spread+f.spread)))
	}
	if !f.hasBore || s.tips == 0 {
		return out
	}
	least := math.Inf(1)
	for _, w := range s.widest[f.length*s.tips : (f.length+1)*s.tips] {
		least = min(least, max(beyondFor(f.bore-w.most, s.margin), beyondFor(w.least-f.bore*s.strain-picometres, s.margin)))
	}
	return max(out, least)
}

// beyondBy is the least by which a ferrule can be out on the head that is ruled out for a reason, whose limit then has no margin.
func (s *span) beyondBy(f *form, code fitcalc.Code) float64 {
	switch {
	case code == fitcalc.FlushUndersize || code == fitcalc.FlushTurnLimit:
		return max(s.least-f.odMM, f.odMM-s.most) - picometres
	case code == fitcalc.GripLoose && f.hasBore && s.tips == 1:
		return f.bore - s.widest[f.length].most - picometres
	}
	return 0
}

// ods are from which to which base OD ferrules may be that are out by no more than an amount, where none spreads wider.
func (s *span) ods(most, widest float64) (least, largest measure.Length) {
	most = min(most, mostSize) + slack
	return measure.Micrometres(int64(math.Floor((s.least - s.margin - most) * 1000))),
		measure.Micrometres(int64(math.Ceil((s.most + max(s.margin, s.spread+widest) + most) * 1000)))
}

// mostSize is more than any part measures in mm, and slack far more than rounding makes of a size.
const (
	mostSize = 1e6
	slack    = 1e-6
)

// candidate is a pair that is out by an amount or more, and stands before what it is decided as: it counts as turned down by no more than it
// is.
func (s *span) candidate(f *form, beyond float64, head, ferrule int32) Pair {
	p := Pair{Head: head, Ferrule: ferrule, Tip: -1, Verdict: fitcalc.No, Miss: float32(beyond - rounding)}
	if over := f.od.Sub(s.od); s.hasOD && f.hasOD && s.same.Less(over) {
		p.TurnDown = over
	}
	return p
}

// rounding is more than what adding and subtracting sizes in mm as floating-point numbers is off by, and picometres than what a product is
// that is rounded to one.
const (
	rounding   = 1e-12
	picometres = 2e-9
)

// leastBeyond is no more than the least by which any ferrule with the bore of one can be out, whatever its length and base OD.
func (s *span) leastBeyond(f *form) float64 {
	if !f.hasBore || s.tips == 0 {
		return 0
	}
	least := math.Inf(1)
	for _, w := range s.widest {
		least = min(least, max(beyondFor(f.bore-w.most, s.margin), beyondFor(w.least-f.bore*s.strain-picometres, s.margin)))
	}
	return max(0, least-slack)
}

// beyondFor is how far beyond a limit something is for certain, nothing within the margin in which it may do.
func beyondFor(out, margin float64) float64 {
	if out <= margin {
		return 0
	}
	return out
}

// miss is how far a pair that does not fit is beyond the limits, in mm on the diameter: the largest of its reasons against it.
func miss(fit *fitcalc.Fit, shop *fitcalc.Shop) float32 {
	if fit.Verdict != fitcalc.No {
		return 0
	}
	worst := 0.0
	for reason := range fit.Reasons() {
		if reason.Level == fitcalc.Blocks {
			worst = max(worst, distance(reason, fit, shop))
		}
	}
	return float32(worst)
}

// distance is how far one reason is beyond its limit: at the middle of the limits of what varies, and of walls, which are counted per
// side, twice as much. Lengths along the axis count as they are.
func distance(reason fitcalc.Reason, fit *fitcalc.Fit, shop *fitcalc.Shop) float64 {
	mm := measure.Length.Millimetres
	miss, _ := reason.Miss()
	switch reason.Code {
	case fitcalc.FlushUndersize, fitcalc.FlushTurnLimit:
		over := middleOf(fit.Flush.Oversize)
		return max(-over-mm(shop.FlushStep), over-mm(shop.TurnLimit))
	case fitcalc.BoreTight: // as far as it can be reamed, it fits
		miss = miss.Sub(shop.ReamLimit)
	case fitcalc.BoreLoose: // and as far as a shim fills it
		miss = miss.Sub(shop.ShimLimit.Sub(shop.MostClearance))
	}
	return mm(miss)
}

// middleOf is the middle of the limits of an amount in mm.
func middleOf(a fitcalc.Amount) float64 { return (a.Least.Millimetres() + a.Most.Millimetres()) / 2 }
