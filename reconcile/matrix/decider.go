package matrix

import (
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// decideHeads decides every geometry of heads, those of like ODs after each other, which have most in common.
func (r *Result) decideHeads(opts Options) []decider {
	r.decided = make([]decided, len(r.ofHeads.members))
	order, forms := r.byOD(), make([]fitcalc.Ferrule, len(r.index.order))
	for at, form := range r.index.order {
		forms[at] = r.parts[r.ofFerrules.first(form)]
	}
	deciders := make([]decider, workersFor(len(order)))
	var next, done, fit atomic.Int64
	var group sync.WaitGroup
	work := func(d *decider) {
		d.init(r, opts.Best, forms)
		for {
			from := int(next.Add(headsAtATime)) - headsAtATime
			if from >= len(order) {
				return
			}
			for _, class := range order[from:min(from+headsAtATime, len(order))] {
				d.brief = opts.Best > 0 && fit.Load() > int64(opts.Most)
				fit.Add(int64(d.headClass(r, class)))
				if opts.Progress != nil {
					opts.Progress(int(done.Add(1)), len(order))
				}
			}
		}
	}
	for w := range deciders {
		group.Go(func() { work(&deciders[w]) })
	}
	group.Wait()
	if opts.Best > 0 && fit.Load() > int64(opts.Most) {
		r.OnlyBest = opts.Best
	}
	return deciders
}

// headsAtATime is how many geometries of heads a worker takes at once.
const headsAtATime = 32

// byOD are the geometries of heads by the OD that a ferrule has to match.
func (r *Result) byOD() []int32 {
	ods := make([]measure.Length, len(r.ofHeads.members))
	order := make([]int32, len(ods))
	for i := range order {
		od := r.heads[r.ofHeads.first(int32(i))].JointOD()
		order[i], ods[i] = int32(i), od.Middle()
	}
	slices.SortStableFunc(order, func(a, b int32) int { return ods[a].Compare(ods[b]) })
	return order
}

// decider evaluates pairs; it holds the room for one answer and one head's pairs, so that deciding allocates next to nothing,
// and what one worker counts.
type decider struct {
	batch *fitcalc.Batch
	fit   fitcalc.Fit
	// most is of how many ferrules the best are kept for a head, and of how many heads for a ferrule; brief says that no others are.
	most  int
	brief bool

	// What follows is of the heads under way: the first of them and how many there are, its tip, and whether the batch decides it, or whole
	// is the pair decided last.
	head, heads, tip int32
	shared           bool
	whole            Pair
	pairs, some      []Pair
	best             bounded
	asks             askCounts

	forms    []tally
	formAsks []askCounts
	// formBest are the best heads of each geometry of ferrules, and formLimits their limits, which are close together in memory.
	formBest   []bounded
	formLimits []float32
	codes      [math.MaxUint8 + 1]int
	// bare is by how many more heads that take none are met at a place of the index than at the one before.
	bare []int

	// briefs are what was found of the ferrules in reach of the heads under way.
	briefs []fitcalc.Brief
	first  bounded
}

func (d *decider) init(r *Result, most int, forms []fitcalc.Ferrule) {
	d.batch, d.most = fitcalc.NewBatch(forms, &r.Shop), most
	d.forms, d.formAsks, d.briefs = make([]tally, len(forms)), make([]askCounts, len(forms)), make([]fitcalc.Brief, len(forms))
	d.bare = make([]int, len(forms)+1)
	if most > 0 {
		d.formBest, d.formLimits = make([]bounded, len(forms)), make([]float32, len(forms))
		for i := range d.formLimits {
			d.formLimits[i] = unlimited
		}
	}
}

// headClass decides a geometry of heads against the ferrules in its reach, and returns how many pairs fit.
func (d *decider) headClass(r *Result, class int32) int {
	out := &r.decided[class]
	d.head, d.heads = r.ofHeads.first(class), int32(len(r.ofHeads.members[class]))
	d.pairs, d.some, d.best, d.asks = d.pairs[:0], d.some[:0], d.best[:0], d.asks[:0]
	clear(d.briefs)
	tips := r.HeadTips[d.head].Tips
	if d.tip = tips[0]; !r.All {
		d.shared = len(tips) == 1 || r.heads[d.head].Top == fitcalc.TopRounded
	}
	if d.shared {
		d.batch.On(&r.heads[d.head], &r.Tips[d.tip].Tip)
	}
	for entries := range r.index.around(newReach(r, d.head)) {
		if d.shared && r.heads[d.head].Top == fitcalc.TopRounded {
			d.takeBare(r, out, entries)
			continue
		}
		for i := range entries {
			d.take(r, out, &entries[i])
		}
	}
	if d.brief {
		d.pairs = r.withFerrules(d.pairs, d.best)
	}
	slices.SortFunc(d.pairs, comparePairs)
	if d.brief {
		d.pairs = d.pairs[:min(len(d.pairs), d.most)]
	}
	if out.tally.fits() == 0 && r.heads[d.head].Top != fitcalc.TopRounded {
		out.near = d.nearestFerrules(r)
	}
	out.pairs, out.some, out.asks = slices.Clone(d.pairs), slices.Clone(d.some), asked(d.asks)
	return int(d.heads) * out.tally.fits()
}

// takeBare counts ferrules that follow each other in the index, on heads that take none: all of them at once.
func (d *decider) takeBare(r *Result, out *decided, entries []entry) {
	first, end := entries[0].at, entries[len(entries)-1].at+1
	out.tally[fitcalc.Bare] += r.index.upTo[end] - r.index.upTo[first]
	d.bare[first] += int(d.heads)
	d.bare[end] -= int(d.heads)
}

// take decides a geometry of ferrules on the heads under way, and counts and keeps what is to be.
func (d *decider) take(r *Result, out *decided, e *entry) {
	var brief fitcalc.Brief
	if d.shared {
		brief = d.batch.Decide(int(e.at))
	} else {
		d.whole = d.decide(r, d.head, e.ferrule)
		brief = fitcalc.BriefOf(&d.fit)
	}
	d.briefs[e.at] = brief
	out.tally[brief.Verdict] += int(e.ferrules)
	d.forms[e.at][brief.Verdict] += int(d.heads)
	switch brief.Verdict {
	case fitcalc.No:
		d.codes[brief.Code] += int(d.heads * e.ferrules)
	case fitcalc.Ask:
		d.ask(e, brief.Missing)
		d.keep(r, e)
	}
	if brief.Verdict.Fits() || r.All {
		d.list(r, e, brief.Verdict)
	}
}

// pairWith is the pair that was decided last.
func (d *decider) pairWith(e *entry, v fitcalc.Verdict) Pair {
	if !d.shared {
		return d.whole
	}
	turnDown, minutes := d.batch.Work(int(e.at))
	return Pair{Head: d.head, Ferrule: e.ferrule, Tip: d.tip, Verdict: v, TurnDown: turnDown, Minutes: float32(minutes)}
}

// list keeps a pair that is to be listed, as far as it is among the best.
func (d *decider) list(r *Result, e *entry, v fitcalc.Verdict) {
	if d.brief && d.shared {
		if limit := max(d.best.limit(d.most), d.formLimits[e.at]); limit < unlimited &&
			(!v.Serves() || float32(d.batch.AtLeast(int(e.at))) > limit) {
			return
		}
	}
	p := d.pairWith(e, v)
	if d.most > 0 {
		if limit := &d.formLimits[e.at]; p.Minutes <= *limit || !v.Serves() {
			best := &d.formBest[e.at]
			best.offer(p, d.most)
			*limit = best.limit(d.most)
		}
	}
	if d.brief {
		d.best.offer(p, d.most)
		return
	}
	for _, p.Ferrule = range r.ofFerrules.members[e.class] {
		d.pairs = append(d.pairs, p)
	}
}

// someKept is how many of the pairs that cannot be decided are kept for a head.
const someKept = 5

// keep keeps the first pairs that cannot be decided.
func (d *decider) keep(r *Result, e *entry) {
	p := d.pairWith(e, fitcalc.Ask)
	for _, p.Ferrule = range r.ofFerrules.members[e.class] {
		if len(d.some) == someKept && comparePairs(p, d.some[someKept-1]) > 0 {
			return
		}
		at, _ := slices.BinarySearchFunc(d.some, p, comparePairs)
		d.some = slices.Insert(d.some, at, p)
		d.some = d.some[:min(len(d.some), someKept)]
	}
}

// pair is what the decider's fit says.
func (d *decider) pair(head, ferrule, tip int32) Pair {
	return Pair{
		Head: head, Ferrule: ferrule, Tip: tip,
		Verdict:  d.fit.Verdict,
		TurnDown: d.fit.Flush.TurnDown.Nominal,
		Minutes:  float32(d.fit.Work.Minutes),
	}
}

// decide evaluates a pair in full on the tip that suits it best.
func (d *decider) decide(r *Result, head, ferrule int32) Pair {
	best := Pair{}
	for i, tip := range r.HeadTips[head].Tips {
		fitcalc.EvaluateInto(&d.fit, &r.heads[head], &r.Tips[tip].Tip, &r.parts[ferrule], &r.Shop)
		p := d.pair(head, ferrule, tip)
		p.Miss = miss(&d.fit, &r.Shop)
		if i == 0 || compareTips(p, best) < 0 {
			best = p
		}
	}
	if best.Tip != r.HeadTips[head].Tips[len(r.HeadTips[head].Tips)-1] {
		r.FitInto(&d.fit, best)
	}
	return best
}

// everyPair decides a head against the ferrules in its reach, each ferrule by itself and in full.
func (d *decider) everyPair(r *Result, head int32) []Pair {
	var pairs []Pair
	for entries := range r.index.around(newReach(r, head)) {
		for _, e := range entries {
			pairs = append(pairs, d.decide(r, head, e.ferrule))
		}
	}
	pairs = r.withFerrules(nil, pairs)
	slices.SortFunc(pairs, comparePairs)
	return pairs
}

// gather joins what the workers counted.
func (r *Result) gather(deciders []decider) {
	r.forms = make([]tally, len(r.ofFerrules.members))
	r.formAsks = make([][]Asked, len(r.forms))
	for at, form := range r.index.order {
		var asks askCounts
		for w := range deciders {
			for v, n := range deciders[w].forms[at] {
				r.forms[form][v] += n
			}
			for _, a := range deciders[w].formAsks[at] {
				asks.add(a.askKey, a.pairs)
			}
		}
		r.formAsks[form] = asked(asks)
	}
	for w := range deciders {
		bare := 0
		for at, form := range r.index.order {
			bare += deciders[w].bare[at]
			r.forms[form][fitcalc.Bare] += bare
		}
		for code, n := range deciders[w].codes {
			r.codes[code] += n
		}
	}
}
