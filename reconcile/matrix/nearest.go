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

// firstCandidates is of how many candidates the nearest are decided first, so that the others can be passed over.
const firstCandidates = 6

// search is what is wanted of the candidates for the nearest: those that are out by more than from and by no more than most. Each stands
// before what it is decided as, so that one is passed over which would stand behind what was found already.
type search struct {
	from, most float64
	// limit is the miss beyond which none is wanted any more; it falls as better ones are taken.
	limit float32
	take  func(Pair)
	// learn is told what a pair was found to be, so that the candidates that have something in common with it may be seen to be out by more.
	learn func(Pair, *fitcalc.Fit)
}

// wants reports whether pairs that are out by an amount or more are still of interest.
func (s *search) wants(beyond float64) bool { return beyond <= s.most && missOf(beyond) <= s.limit }

// nearest finds the nearest of some pairs without deciding all. Candidates gives those that a search wants.
func (d *decider) nearest(r *Result, candidates func(*search)) []Pair {
	var found []Pair
	s := search{from: -1, learn: func(Pair, *fitcalc.Fit) {}}
	bound := func() {
		if s.limit = math.MaxFloat32; len(found) == nearestKept {
			s.limit = found[nearestKept-1].Miss
		}
	}
	look := func(c Pair) {
		if len(found) == nearestKept && compareWithin(c, found[nearestKept-1]) > 0 {
			return
		}
		p := d.decide(r, c.Head, c.Ferrule)
		s.learn(p, &d.fit)
		if p.Verdict != fitcalc.No {
			return
		}
		if at, seen := slices.BinarySearchFunc(found, p, compareWithin); !seen { // one that was seen to be out by more comes again
			found = slices.Insert(found, at, p)
			found = found[:min(len(found), nearestKept)]
			bound()
		}
	}
	for _, s.most = range rings {
		bound()
		d.first = d.first[:0]
		s.take = func(c Pair) {
			if d.first.offer(c, firstCandidates); len(d.first) == firstCandidates {
				s.limit = min(s.limit, d.first[0].Miss)
			}
		}
		candidates(&s)
		if len(d.first) > 0 {
			last := d.first[0]
			slices.SortFunc(d.first, compareWithin)
			for _, c := range d.first {
				look(c)
			}
			bound()
			s.take = func(c Pair) {
				if compareWithin(c, last) > 0 {
					look(c)
				}
			}
			if len(d.first) == firstCandidates {
				candidates(&s)
			}
		}
		if len(found) == nearestKept && float64(found[nearestKept-1].Miss) < s.most {
			break
		}
		s.from = s.most
	}
	return found
}

// nearestFerrules finds what comes nearest to the heads under way. Of those in reach all verdicts are known.
func (d *decider) nearestFerrules(r *Result) []Pair {
	s := newSpan(r, d.head, r.lengths.all)
	return d.nearest(r, func(wanted *search) { r.index.beyond(wanted, d, &s) })
}

// beyond gives a search the geometries of ferrules that are out on the heads under way.
func (x *index) beyond(wanted *search, d *decider, s *span) {
	least, largest := s.ods(wanted.most, x.widest)
	for i := range x.groups {
		g := &x.groups[i]
		if !wanted.wants(s.leastBeyond(&g.form)) {
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
				brief := &d.briefs[e.at]
				if brief.Verdict != fitcalc.NoVerdict && brief.Verdict != fitcalc.No {
					continue
				}
				f := &x.forms[e.class]
				if b := max(s.beyond(f), s.beyondBy(f, brief.Code)); b > wanted.from && wanted.wants(b) {
					wanted.take(s.candidate(f, b, d.head, e.ferrule))
				}
			}
		}
	}
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
	onShafts := make([][]float64, len(deciders))
	for w := range onShafts {
		onShafts[w] = make([]float64, len(heads.groups))
	}
	each(len(left), func(w, i int) {
		clear(onShafts[w])
		form := left[i]
		ferrule := r.ofFerrules.first(form)
		r.near[form] = deciders[w].nearest(r, func(wanted *search) {
			wanted.learn = func(p Pair, fit *fitcalc.Fit) { heads.learn(onShafts[w], r, p, fit) }
			heads.beyond(wanted, &r.index.forms[form], ferrule, r.index.widest, onShafts[w])
		})
	})
}

// headIndex is the geometries of heads that may take a ferrule, those together which leave it the same shafts.
type headIndex struct {
	groups []headGroup
	// of is the group of each head that is the first of its geometry.
	of     map[int32]int
	spread float64 // the widest of a hosel OD
}

// shafts is what the grip of a ferrule depends on of a head: its tips and, if one of them is not parallel, how deep it takes them in.
type shafts struct {
	tips  string
	depth measure.Dim
}

func (r *Result) shaftsOf(head int32) shafts {
	s := shafts{tips: r.tipsKey(head)}
	if slices.ContainsFunc(r.HeadTips[head].Tips, func(tip int32) bool { return r.Tips[tip].Tip.Form() != fitcalc.TipParallel }) {
		s.depth = r.heads[head].JointBoreDepth()
	}
	return s
}

// headGroup is heads of unknown OD first, the others by the OD that a ferrule has to match.
type headGroup struct {
	spans   []span
	heads   []int32 // the first of each geometry
	unknown int
}

func newHeadIndex(r *Result) *headIndex {
	var heads []int32
	for _, class := range r.byOD() {
		if head := r.ofHeads.first(class); r.heads[head].Top != fitcalc.TopRounded {
			heads = append(heads, head)
		}
	}
	given := func(head int32) int {
		if od := r.heads[head].JointOD(); od.Given() {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(heads, func(a, b int32) int { return cmp.Compare(given(a), given(b)) })
	spans := make([]span, len(heads))
	each(len(spans), func(_, i int) { spans[i] = newSpan(r, heads[i], r.lengths.all) })
	x, known := &headIndex{of: make(map[int32]int, len(heads))}, map[shafts]int{}
	for i := range spans {
		s := &spans[i]
		key := r.shaftsOf(heads[i])
		at, seen := known[key]
		if !seen {
			at = len(x.groups)
			known[key], x.groups = at, append(x.groups, headGroup{})
		}
		g := &x.groups[at]
		if len(g.spans) > 0 {
			s.widest = g.spans[0].widest // once for all of them
		}
		x.of[heads[i]] = at
		g.spans, g.heads = append(g.spans, *s), append(g.heads, heads[i])
		if !s.hasOD {
			g.unknown++
		}
		x.spread = max(x.spread, s.spread)
	}
	return x
}

// learn notes by how much the ferrule of a pair is out on all heads of a group, if its grip rules it out on one of them.
func (x *headIndex) learn(onShafts []float64, r *Result, p Pair, fit *fitcalc.Fit) {
	if group := x.of[p.Head]; x.groups[group].spans[0].tips == 1 {
		onShafts[group] = max(onShafts[group], missOfGrip(fit, &r.Shop))
	}
}

// beyond gives a search the geometries of heads on which a ferrule is out: those first whose shafts suit it best.
// What was learned of the groups is added to what is known beforehand.
func (x *headIndex) beyond(wanted *search, f *form, ferrule int32, widest float64, onShafts []float64) {
	type order struct {
		beyond float64
		group  int
	}
	groups := make([]order, 0, len(x.groups))
	for i := range x.groups {
		if b := max(x.groups[i].spans[0].boreBeyond(f), onShafts[i]); wanted.wants(b) {
			groups = append(groups, order{b, i})
		}
	}
	slices.SortFunc(groups, func(a, b order) int { return cmp.Or(cmp.Compare(a.beyond, b.beyond), a.group-b.group) })
	for _, o := range groups {
		if !wanted.wants(o.beyond) {
			return
		}
		x.groups[o.group].beyond(wanted, f, o.beyond, ferrule, x.spread, widest, &onShafts[o.group])
	}
}

// beyond gives a search the heads of a group, on whose shafts a ferrule is out by an amount, and by more once that is learned.
func (g *headGroup) beyond(wanted *search, f *form, least float64, ferrule int32, spread, widest float64, learned *float64) {
	begin, end := g.unknown, len(g.heads)
	if f.hasOD && begin < end {
		// A span reaches as far from its OD everywhere, and as far beyond as it may spread.
		s := g.spans[begin]
		s.spread = spread
		smallest, largest := s.ods(wanted.most, widest)
		below, above := largest.Sub(s.od), s.od.Sub(smallest)
		begin = g.unknown + sort.Search(end-g.unknown, func(i int) bool { return !g.spans[g.unknown+i].od.Add(below).Less(f.od) })
		end = g.unknown + sort.Search(end-g.unknown, func(i int) bool { return f.od.Less(g.spans[g.unknown+i].od.Sub(above)) })
	}
	for _, part := range [...][2]int{{0, g.unknown}, {begin, max(begin, end)}} {
		for i := part[0]; i < part[1]; i++ {
			s := &g.spans[i]
			if b := max(s.odBeyond(f), least, *learned); b > wanted.from && wanted.wants(b) {
				wanted.take(s.candidate(f, b, g.heads[i], ferrule))
			}
		}
	}
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
func (s *span) beyond(f *form) float64 { return max(s.odBeyond(f), s.boreBeyond(f)) }

// odBeyond is the least by which its base can be out, and boreBeyond its bore.
func (s *span) odBeyond(f *form) float64 {
	if !s.hasOD || !f.hasOD {
		return 0
	}
	return max(beyondFor(s.least-f.odMM, s.margin), beyondFor(f.odMM-s.most, max(s.margin, s.spread+f.spread)))
}

func (s *span) boreBeyond(f *form) float64 {
	if !f.hasBore || s.tips == 0 {
		return 0
	}
	least := math.Inf(1)
	for _, w := range s.widest[f.length*s.tips : (f.length+1)*s.tips] {
		least = min(least, max(beyondFor(f.bore-w.most, s.margin), beyondFor(w.least-f.bore*s.strain-picometres, s.margin)))
	}
	return least
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
	p := Pair{Head: head, Ferrule: ferrule, Tip: -1, Verdict: fitcalc.No, Miss: missOf(beyond)}
	if over := f.od.Sub(s.od); s.hasOD && f.hasOD && s.same.Less(over) {
		p.TurnDown = over
	}
	return p
}

// missOf is what a pair that is out by an amount or more has as its miss at the least.
func missOf(beyond float64) float32 { return float32(beyond - rounding) }

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
	return float32(worstOf(fit, shop, func(fitcalc.Code) bool { return true }))
}

// missOfGrip is miss as far as shaft and ferrule bore alone are the reason; nothing is where they are none.
func missOfGrip(fit *fitcalc.Fit, shop *fitcalc.Shop) float64 {
	return worstOf(fit, shop, func(code fitcalc.Code) bool {
		return code == fitcalc.GripLoose || code == fitcalc.GripSplit || code == fitcalc.GripOverTip
	})
}

// worstOf is how far the worst of some reasons against a joint is beyond its limit.
func worstOf(fit *fitcalc.Fit, shop *fitcalc.Shop, of func(fitcalc.Code) bool) float64 {
	worst := 0.0
	for reason := range fit.Reasons() {
		if reason.Level == fitcalc.Blocks && of(reason.Code) {
			worst = max(worst, distance(reason, fit, shop))
		}
	}
	return worst
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
