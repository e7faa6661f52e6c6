package matrix

import (
	"cmp"
	"math"
	"slices"

	"example.com/seatline/fitcalc"
)

// bounded are the best of some pairs: a heap with the least of them first.
type bounded []Pair

// offer keeps a pair if it is among the most best.
func (b *bounded) offer(p Pair, most int) {
	all := *b
	switch {
	case len(all) < most:
		all = append(all, p)
		for at := len(all) - 1; at > 0; {
			above := (at - 1) / 2
			if comparePairs(all[at], all[above]) <= 0 {
				break
			}
			all[at], all[above] = all[above], all[at]
			at = above
		}
		*b = all
	case !worse(&p, &all[0]) && comparePairs(p, all[0]) < 0:
		at := 0
		for {
			below := 2*at + 1
			if below+1 < len(all) && comparePairs(all[below+1], all[below]) > 0 {
				below++
			}
			if below >= len(all) || comparePairs(all[below], p) <= 0 {
				break
			}
			all[at], at = all[below], below
		}
		all[at] = p
	}
}

// limit is the most minutes of a pair that serves and may be among the best yet; where it is not unlimited, no other pair may.
func (b bounded) limit(most int) float32 {
	if len(b) < most || !b[0].Verdict.Serves() {
		return unlimited
	}
	return b[0].Minutes
}

// unlimited is more than any minutes.
const unlimited = math.MaxFloat32

// withFerrules appends pairs of the first of geometries of ferrules, each with all of its geometry, and withHeads pairs with all heads.
func (r *Result) withFerrules(to, pairs []Pair) []Pair {
	for _, p := range pairs {
		for _, p.Ferrule = range r.ofFerrules.members[r.ofFerrules.of[p.Ferrule]] {
			to = append(to, p)
		}
	}
	return to
}

func (r *Result) withHeads(to, pairs []Pair) []Pair {
	for _, p := range pairs {
		for _, p.Head = range r.ofHeads.members[r.ofHeads.of[p.Head]] {
			to = append(to, p)
		}
	}
	return to
}

// list settles what is listed besides what fits heads: what is best for ferrules where only the best is listed, and the nearest of what
// fits nothing, as far as it is in reach.
func (r *Result) list(deciders []decider) {
	switch {
	case r.All:
	case r.OnlyBest > 0:
		r.listBest(deciders)
	default:
		r.listNearest()
	}
}

// listBest lists the best of each part, or of one that nothing fits the nearest.
func (r *Result) listBest(deciders []decider) {
	each(len(r.decided), func(_, class int) {
		d := &r.decided[class]
		if len(d.pairs) == 0 {
			d.pairs = r.inReachOf(r.withFerrules(nil, d.near))
			slices.SortFunc(d.pairs, comparePairs)
		}
		d.pairs = slices.Clip(d.pairs[:min(len(d.pairs), r.OnlyBest)])
	})
	r.own = map[int32]own{}
	for at, form := range r.index.order {
		var pairs []Pair
		for w := range deciders {
			pairs = append(pairs, deciders[w].formBest[at]...)
		}
		if len(pairs) == 0 {
			pairs = r.inReachOf(r.near[form])
		}
		pairs = r.withHeads(nil, pairs)
		slices.SortFunc(pairs, comparePairs)
		for _, p := range pairs[:min(len(pairs), r.OnlyBest)] {
			r.ownPair(p, form)
		}
	}
	for head, o := range r.own {
		slices.SortFunc(o.pairs, comparePairs)
		r.own[head] = o
	}
}

// ownPair lists a pair, with all ferrules of a geometry, with one head, where the pairs of its geometry are without it.
func (r *Result) ownPair(p Pair, form int32) {
	class := r.ofHeads.of[p.Head]
	head := p.Head
	p.Head = r.ofHeads.first(class)
	for _, p.Ferrule = range r.ofFerrules.members[form] {
		if !slices.Contains(r.decided[class].pairs, p) {
			o := r.own[head]
			own := p
			own.Head = head
			o.pairs = append(o.pairs, own)
			r.own[head] = o
		}
	}
}

// inReachOf are those of some pairs that are in reach.
func (r *Result) inReachOf(pairs []Pair) []Pair {
	var within []Pair
	for _, p := range pairs {
		if reach := newReach(r, p.Head); reach.has(&r.parts[p.Ferrule]) {
			within = append(within, p)
		}
	}
	return within
}

// own is what is listed for one head and not for all of its geometry.
type own struct {
	pairs   []Pair
	assumed fitcalc.AssumptionSet
}

// listNearest adds the nearest of what fits nothing to the pairs of its heads, as far as they are in reach.
func (r *Result) listNearest() {
	add := make([][]Pair, len(r.decided))
	take := func(class int32, p Pair) {
		if !slices.ContainsFunc(add[class], func(q Pair) bool { return q.Ferrule == p.Ferrule }) {
			add[class] = append(add[class], p)
		}
	}
	for class := range r.decided {
		for _, p := range r.inReachOf(r.decided[class].near) {
			take(int32(class), p)
		}
	}
	for _, near := range r.near {
		for _, p := range r.inReachOf(near) {
			p.Ferrule = r.ofFerrules.first(r.ofFerrules.of[p.Ferrule])
			take(r.ofHeads.of[p.Head], p)
		}
	}
	each(len(add), func(_, class int) {
		if len(add[class]) > 0 {
			d := &r.decided[class]
			d.pairs = r.withFerrules(d.pairs, add[class])
			slices.SortFunc(d.pairs, comparePairs)
		}
	})
}

// rests counts listed pairs: by what they rest on, what those of each geometry of ferrules rest on, by verdict, and those that do not fit
// by their reason.
type rests struct {
	pairs    map[fitcalc.AssumptionSet]int
	forms    []fitcalc.AssumptionSet
	verdicts tally
	codes    [math.MaxUint8 + 1]int

	fit fitcalc.Fit
}

func newRests(forms int) rests {
	return rests{pairs: map[fitcalc.AssumptionSet]int{}, forms: make([]fitcalc.AssumptionSet, forms)}
}

// add counts pairs that have the same fit.
func (r *rests) add(form int32, fit *fitcalc.Fit, pairs int) {
	r.pairs[fit.Assumptions] += pairs
	r.forms[form] |= fit.Assumptions
	r.verdicts[fit.Verdict] += pairs
	if fit.Verdict == fitcalc.No {
		r.codes[fit.Reason().Code] += pairs
	}
}

func (r *rests) join(other *rests) {
	for assumed, n := range other.pairs {
		r.pairs[assumed] += n
	}
	for i, assumed := range other.forms {
		r.forms[i] |= assumed
	}
	for v, n := range other.verdicts {
		r.verdicts[v] += n
	}
	for code, n := range other.codes {
		r.codes[code] += n
	}
}

// restOn finds what the listed pairs rest on, and takes those that do not fit from those that are counted by their reason.
func (r *Result) restOn() {
	workers := make([]rests, workersFor(len(r.decided)))
	for w := range workers {
		workers[w] = newRests(len(r.forms))
	}
	each(len(r.decided), func(w, class int) {
		d := &r.decided[class]
		d.assumed = workers[w].of(r, d.pairs, len(r.ofHeads.members[class]))
	})
	r.rests = newRests(len(r.forms))
	for w := range workers {
		r.rests.join(&workers[w])
	}
	for head, o := range r.own {
		o.assumed = r.rests.of(r, o.pairs, 1)
		r.own[head] = o
	}
	for code, n := range r.rests.codes {
		r.codes[code] -= n
	}
}

// of counts what pairs of so many heads rest on, and returns all of it.
func (r *rests) of(result *Result, pairs []Pair, heads int) fitcalc.AssumptionSet {
	var all fitcalc.AssumptionSet
	last := int32(-1)
	for _, p := range pairs {
		if form := result.ofFerrules.of[p.Ferrule]; form != last {
			last = form
			if p.Verdict.Fits() {
				fitcalc.DecideInto(&r.fit, &result.heads[p.Head], &result.Tips[p.Tip].Tip, &result.parts[p.Ferrule], &result.Shop)
			} else {
				result.FitInto(&r.fit, p)
			}
		}
		all |= r.fit.Assumptions
		r.add(last, &r.fit, heads)
	}
	return all
}

// count counts what is listed and what is not.
func (r *Result) count() {
	inReach := 0
	for class := range r.decided {
		d, heads := &r.decided[class], len(r.ofHeads.members[class])
		r.Listed += heads * len(d.pairs)
		for _, n := range d.tally {
			inReach += heads * n
		}
	}
	for _, o := range r.own {
		r.Listed += len(o.pairs)
	}
	r.OutOfRange = len(r.heads)*len(r.parts) - inReach
	if r.All {
		return
	}
	for code, n := range r.codes {
		if n > 0 {
			r.Counted = append(r.Counted, Counted{fitcalc.Code(code), n})
		}
	}
	slices.SortFunc(r.Counted, func(a, b Counted) int {
		return cmp.Or(cmp.Compare(b.Pairs, a.Pairs), cmp.Compare(a.Code, b.Code))
	})
}
