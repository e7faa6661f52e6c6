package matrix

import (
	"cmp"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// Decide decides a catalogue by the limits of a shop, which must be valid. Parts with sizes that no part can have are
// decided as if nothing were known of them, so that their pairs are questions, and are reported.
func Decide(c *catalog.Catalogue, shop fitcalc.Shop) *Result { return DecideBy(c, shop, Options{}) }

// DecideAll is Decide with every pair in reach listed.
func DecideAll(c *catalog.Catalogue, shop fitcalc.Shop) *Result {
	return DecideBy(c, shop, Options{All: true})
}

// Options say how a catalogue is decided.
type Options struct {
	// All lists every pair in reach.
	All bool
	// Progress is told how many of the geometries of heads are decided, by several workers at once; nil is not.
	Progress func(done, of int)
}

// DecideBy is Decide with options.
func DecideBy(c *catalog.Catalogue, shop fitcalc.Shop, opts Options) *Result {
	r := &Result{Catalogue: c, Shop: shop, Tips: []Tip{{}}, All: opts.All}
	r.takeParts()
	r.assignTips()
	r.classify()
	r.index = newIndex(r)
	deciders := r.decideHeads(opts.Progress)
	r.gather(deciders)
	r.findNearest()
	r.listNearest()
	r.count()
	return r
}

func (r *Result) takeParts() {
	for i := range r.Catalogue.Heads {
		h := &r.Catalogue.Heads[i]
		head := h.Head
		if err := head.Validate(); err != nil {
			r.impossible(h.Item, err)
			head = fitcalc.Head{Category: head.Category, Top: head.Top}
		}
		r.heads = append(r.heads, head)
	}
	for i := range r.Catalogue.Ferrules {
		f := &r.Catalogue.Ferrules[i]
		ferrule := f.Ferrule
		if err := ferrule.Validate(); err != nil {
			r.impossible(f.Item, err)
			ferrule = ferrule.WithoutSizes()
		}
		r.parts = append(r.parts, ferrule)
	}
}

func (r *Result) impossible(item catalog.Item, err error) {
	r.Findings.Add(finding.Finding{
		Severity: finding.Error,
		Code:     "data.implausible",
		Place:    finding.Place{File: item.Source.File, Sheet: item.Source.Sheet, Row: item.Source.Row},
		Message:  item.Part + ": " + err.Error() + "; every pair of this part is a question until the sheet is corrected",
	})
}

// decided is what was found for one geometry of heads.
type decided struct {
	// pairs are the listed pairs, with the first of the heads and every ferrule, the best first.
	pairs []Pair
	// near are the nearest of a head that nothing fits, in reach or not, each with the first ferrule of its geometry.
	near []Pair
	asks []Asked
	// some are the first of the pairs that cannot be decided.
	some []Pair
	// tally counts the pairs in reach of one of the heads.
	tally tally
	// assumed is what any of the listed pairs rests on.
	assumed fitcalc.AssumptionSet
}

// tally counts pairs by verdict.
type tally [fitcalc.Bare + 1]int

func (t *tally) fits() int {
	n := 0
	for v, count := range t {
		if fitcalc.Verdict(v).Fits() {
			n += count
		}
	}
	return n
}

func (t *tally) serves() int {
	n := 0
	for v, count := range t {
		if fitcalc.Verdict(v).Serves() {
			n += count
		}
	}
	return n
}

// each calls work for 0 to n − 1 on all cores; work is told which of the workers it runs on.
func each(n int, work func(worker, i int)) {
	workers := workersFor(n)
	var group sync.WaitGroup
	for w := range workers {
		group.Go(func() {
			for i := w; i < n; i += workers {
				work(w, i)
			}
		})
	}
	group.Wait()
}

func workersFor(n int) int { return min(runtime.GOMAXPROCS(0), max(1, n)) }

// decideHeads decides every geometry of heads.
func (r *Result) decideHeads(progress func(done, of int)) []decider {
	r.decided = make([]decided, len(r.ofHeads.members))
	deciders := make([]decider, workersFor(len(r.decided)))
	for w := range deciders {
		deciders[w].init(len(r.ofFerrules.members))
	}
	var done atomic.Int64
	each(len(r.decided), func(w, class int) {
		deciders[w].headClass(r, int32(class))
		if progress != nil {
			progress(int(done.Add(1)), len(r.decided))
		}
	})
	return deciders
}

// decider evaluates pairs; it holds the room for one answer and one head's pairs, so that deciding allocates next to nothing,
// and what one worker counts.
type decider struct {
	fit   fitcalc.Fit
	pairs []Pair
	some  []Pair
	asks  map[askKey]int

	forms    []tally
	formAsks []map[askKey]int
	codes    map[fitcalc.Code]int
	rests    rests
}

// askKey is what pairs are grouped by that cannot be decided.
type askKey struct {
	fields uint64 // a bit for each field that is missing
	others bool
}

func (d *decider) init(forms int) {
	d.forms = make([]tally, forms)
	d.formAsks = make([]map[askKey]int, forms)
	d.codes = map[fitcalc.Code]int{}
	d.rests = newRests(forms)
}

// headClass decides a geometry of heads against the ferrules in its reach.
func (d *decider) headClass(r *Result, class int32) {
	out := &r.decided[class]
	head, heads := r.ofHeads.first(class), len(r.ofHeads.members[class])
	d.pairs = d.pairs[:0]
	d.asks, d.some = map[askKey]int{}, d.some[:0]
	reach := newReach(r, head)
	for e := range r.index.around(reach) {
		if !reach.bore(&e, &r.parts[e.ferrule]) {
			continue
		}
		p := d.verdict(r, head, e.ferrule)
		ferrules := r.ofFerrules.members[e.class]
		out.tally[p.Verdict] += len(ferrules)
		d.forms[e.class][p.Verdict] += heads
		switch {
		case p.Verdict == fitcalc.No:
			d.codes[d.fit.Reason().Code] += heads * len(ferrules)
		case p.Verdict == fitcalc.Ask:
			d.ask(e.class, heads, len(ferrules))
			d.keep(p, ferrules)
		}
		if r.All || p.Verdict.Fits() {
			out.assumed |= d.fit.Assumptions
			d.rests.add(e.class, d.fit.Assumptions, heads*len(ferrules))
			for _, ferrule := range ferrules {
				p.Ferrule = ferrule
				d.pairs = append(d.pairs, p)
			}
		}
	}
	slices.SortFunc(d.pairs, comparePairs)
	out.pairs = slices.Clone(d.pairs)
	out.asks = asked(d.asks)
	out.some = slices.Clone(d.some)
}

// someKept is how many of the pairs that cannot be decided are kept for a head.
const someKept = 5

// keep keeps the first pairs that cannot be decided.
func (d *decider) keep(p Pair, ferrules []int32) {
	for _, p.Ferrule = range ferrules {
		at, _ := slices.BinarySearchFunc(d.some, p, comparePairs)
		if at < someKept {
			d.some = slices.Insert(d.some, at, p)
			d.some = d.some[:min(len(d.some), someKept)]
		}
	}
}

// verdict decides a pair, with no more work than is needed where it is not to be listed. The fit that decides it, or for a pair
// that does not fit its first reason, is left in the decider.
func (d *decider) verdict(r *Result, head, ferrule int32) Pair {
	h := &r.heads[head]
	if h.Top == fitcalc.TopRounded && !r.All {
		return Pair{Head: head, Ferrule: ferrule, Tip: r.HeadTips[head].Tips[0], Verdict: fitcalc.Bare}
	}
	tips := r.HeadTips[head].Tips
	if r.All || len(tips) > 1 {
		return d.decide(r, head, ferrule)
	}
	fitcalc.DecideInto(&d.fit, h, &r.Tips[tips[0]].Tip, &r.parts[ferrule], &r.Shop)
	return d.pair(head, ferrule, tips[0])
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
	reach := newReach(r, head)
	for e := range r.index.around(reach) {
		if !reach.bore(&e, &r.parts[e.ferrule]) {
			continue
		}
		p := d.decide(r, head, e.ferrule)
		for _, p.Ferrule = range r.ofFerrules.members[e.class] {
			pairs = append(pairs, p)
		}
	}
	slices.SortFunc(pairs, comparePairs)
	return pairs
}

// ask counts the pairs of a geometry of heads and one of ferrules by what the decider's fit lacks.
func (d *decider) ask(form int32, heads, ferrules int) {
	var head, ferrule uint64
	for reason := range d.fit.Reasons() {
		switch {
		case reason.Level != fitcalc.Undecided:
		case ofHead(reason.Field):
			head |= 1 << reason.Field
		default:
			ferrule |= 1 << reason.Field
		}
	}
	d.asks[askKey{head, ferrule != 0}] += ferrules
	if d.formAsks[form] == nil {
		d.formAsks[form] = map[askKey]int{}
	}
	d.formAsks[form][askKey{ferrule, head != 0}] += heads
}

// ofHead says whose dimension a field is. The tip counts as the head's, since it follows from its bore.
func ofHead(f fitcalc.Field) bool { return f < fitcalc.FieldFerruleBore }

// asked puts what is missing in order: what holds up most first.
func asked(counts map[askKey]int) []Asked {
	if len(counts) == 0 {
		return nil
	}
	all := make([]Asked, 0, len(counts))
	for key, pairs := range counts {
		a := Asked{Others: key.others, Pairs: pairs}
		for f := fitcalc.NoField; key.fields>>f != 0; f++ {
			if key.fields>>f&1 == 1 {
				a.Fields = append(a.Fields, f)
			}
		}
		all = append(all, a)
	}
	slices.SortFunc(all, func(a, b Asked) int {
		others := func(a Asked) int {
			if a.Others {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(b.Pairs, a.Pairs), cmp.Compare(others(a), others(b)), slices.Compare(a.Fields, b.Fields))
	})
	return all
}

// gather joins what the workers counted.
func (r *Result) gather(deciders []decider) {
	r.forms = make([]tally, len(r.ofFerrules.members))
	r.formAsks = make([][]Asked, len(r.forms))
	r.codes = map[fitcalc.Code]int{}
	for form := range r.forms {
		asks := map[askKey]int{}
		for w := range deciders {
			for v, n := range deciders[w].forms[form] {
				r.forms[form][v] += n
			}
			for key, n := range deciders[w].formAsks[form] {
				asks[key] += n
			}
		}
		r.formAsks[form] = asked(asks)
	}
	r.rests = newRests(len(r.forms))
	for w := range deciders {
		for code, n := range deciders[w].codes {
			r.codes[code] += n
		}
		r.rests.join(&deciders[w].rests)
	}
}

// rests counts what listed pairs rest on: by assumption, and for each geometry of ferrules which.
type rests struct {
	pairs map[fitcalc.AssumptionSet]int
	forms []fitcalc.AssumptionSet
}

func newRests(forms int) rests {
	return rests{map[fitcalc.AssumptionSet]int{}, make([]fitcalc.AssumptionSet, forms)}
}

func (r *rests) add(form int32, assumed fitcalc.AssumptionSet, pairs int) {
	r.pairs[assumed] += pairs
	r.forms[form] |= assumed
}

func (r *rests) join(other *rests) {
	for assumed, n := range other.pairs {
		r.pairs[assumed] += n
	}
	for i, assumed := range other.forms {
		r.forms[i] |= assumed
	}
}

// listNearest adds the nearest of what fits nothing to the pairs of its heads, as far as they are in reach.
func (r *Result) listNearest() {
	if r.All {
		return
	}
	add := make([][]Pair, len(r.decided))
	take := func(class int32, p Pair) {
		known := slices.ContainsFunc(add[class], func(q Pair) bool { return q.Ferrule == p.Ferrule })
		if reach := newReach(r, p.Head); !known && reach.has(&r.parts[p.Ferrule]) {
			add[class] = append(add[class], p)
		}
	}
	for class := range r.decided {
		for _, p := range r.decided[class].near {
			take(int32(class), p)
		}
	}
	for _, near := range r.near {
		for _, p := range near {
			p.Ferrule = r.ofFerrules.first(r.ofFerrules.of[p.Ferrule])
			take(r.ofHeads.of[p.Head], p)
		}
	}
	each(len(add), func(_, class int) {
		if len(add[class]) > 0 {
			r.addNear(int32(class), add[class])
		}
	})
	for class, near := range add {
		for _, p := range near {
			fit, form := r.Fit(p), r.ofFerrules.of[p.Ferrule]
			pairs := len(r.ofHeads.members[class]) * len(r.ofFerrules.members[form])
			r.codes[fit.Reason().Code] -= pairs
			r.decided[class].assumed |= fit.Assumptions
			r.rests.add(form, fit.Assumptions, pairs)
		}
	}
}

// addNear adds pairs that do not fit, each with all ferrules of its geometry.
func (r *Result) addNear(class int32, near []Pair) {
	d := &r.decided[class]
	for _, p := range near {
		for _, p.Ferrule = range r.ofFerrules.members[r.ofFerrules.of[p.Ferrule]] {
			d.pairs = append(d.pairs, p)
		}
	}
	slices.SortFunc(d.pairs, comparePairs)
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
	r.OutOfRange = len(r.heads)*len(r.parts) - inReach
	if r.All {
		return
	}
	for code, n := range r.codes {
		if n > 0 {
			r.Counted = append(r.Counted, Counted{code, n})
		}
	}
	slices.SortFunc(r.Counted, func(a, b Counted) int {
		return cmp.Or(cmp.Compare(b.Pairs, a.Pairs), cmp.Compare(a.Code, b.Code))
	})
}

// comparePairs orders what fits by bench time, what fits measured parts after it, then questions, then what does not fit by how far it is
// out.
func comparePairs(a, b Pair) int {
	if c := cmp.Compare(class(a.Verdict), class(b.Verdict)); c != 0 {
		return c
	}
	return compareWithin(a, b)
}

// compareWithin orders pairs of which none has the better verdict.
func compareWithin(a, b Pair) int {
	if c := cmp.Compare(a.Miss, b.Miss); c != 0 {
		return c
	}
	if a.Verdict != fitcalc.No { // what cannot be built takes no time
		if c := cmp.Compare(a.Minutes, b.Minutes); c != 0 {
			return c
		}
	}
	if c := a.TurnDown.Compare(b.TurnDown); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(a.Ferrule, b.Ferrule), cmp.Compare(a.Head, b.Head), cmp.Compare(a.Tip, b.Tip))
}

// compareTips orders the tips of one pair: by verdict, then by what the bench has to do.
func compareTips(a, b Pair) int {
	return cmp.Or(cmp.Compare(a.Verdict, b.Verdict), compareWithin(a, b))
}

// class puts verdicts that serve before those for measured parts, these before questions, those before what does not fit, and heads
// that take none last.
func class(v fitcalc.Verdict) uint8 { return classOf[v] }

var classOf = [...]uint8{fitcalc.Measure: 1, fitcalc.Ask: 2, fitcalc.No: 3, fitcalc.Bare: 4}
