package matrix

import (
	"runtime"
	"sync"

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
	// Best is of how many ferrules for each head, and of how many heads for each ferrule, the pairs are listed, the best of those that fit;
	// 0 lists all that fit. It has no meaning with All.
	Best int
	// Most is up to how many pairs that fit are all listed, whatever Best says.
	Most int
	// Progress is told how many of the geometries of heads are decided, by several workers at once; nil is not.
	Progress func(done, of int)
}

// MostListed is up to how many pairs that fit are usually all listed: more than a sheet of a spreadsheet program has rows for, and than
// anybody reads. Beyond it the UsualBest of each head and of each ferrule are listed.
const (
	MostListed = 1_000_000
	UsualBest  = 16
)

// UsualOptions list all that fits up to [MostListed] pairs, and the [UsualBest] of each part beyond.
func UsualOptions() Options { return Options{Best: UsualBest, Most: MostListed} }

// DecideBy is Decide with options.
func DecideBy(c *catalog.Catalogue, shop fitcalc.Shop, opts Options) *Result {
	r := &Result{Catalogue: c, Shop: shop, Tips: []Tip{{}}, All: opts.All}
	r.takeParts()
	r.assignTips()
	r.classify()
	r.lengths = newLengths(r)
	r.index = newIndex(r)
	deciders := r.decideHeads(opts)
	r.gather(deciders)
	r.findNearestHeads()
	r.list(deciders)
	r.restOn()
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
