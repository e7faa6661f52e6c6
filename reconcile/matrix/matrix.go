// Package matrix decides every head of a catalogue against every ferrule, without looking at every pair: parts of one geometry are
// decided once, ferrules are sorted by base OD, and only those within reach of a head are evaluated.
//
// A pair is one head with one ferrule. A head that can take several tips is decided on each, and the pair stands on the tip with
// the best verdict, of those of one verdict on the one that asks least of the bench.
//
// # What is listed
//
// Listed are the pairs that fit, and for a head or a ferrule that fits nothing the few that come nearest, as far as they are in
// reach. All others are counted: those that cannot be decided by what is missing and whose it is ([Result.Asked]), those of
// a head that takes none with the head, and those that do not fit by the reason that rules them out ([Result.Counted]).
// Pairs listed, counted and out of reach are always heads times ferrules. [DecideAll] lists every pair in reach.
//
// Of large catalogues nobody reads all that fits. With [Options.Best] the best ferrules of each head and the best heads of each ferrule are
// listed, or of a part that fits nothing as many of what comes nearest, and the others are counted by verdict. What is listed follows from
// the order of [Result.HeadPairs], not from how the work was shared out.
package matrix

import (
	"iter"
	"math"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// Pair is one head with one ferrule, decided. It is kept small; [Result.Fit] gives the whole answer.
type Pair struct {
	// Head and Ferrule are indexes into the catalogue's Heads and Ferrules, Tip into the result's Tips.
	Head, Ferrule, Tip int32
	Verdict            fitcalc.Verdict
	// Minutes is the mean bench time.
	Minutes float32
	// Miss is how far a pair that does not fit is beyond the shop's limits, in mm, on the diameter: the largest of its reasons
	// against it, each taken at the middle of the sizes' limits. It is nothing for pairs that fit or cannot be decided, and for
	// those that are ruled out by a risk alone.
	Miss float32
	// TurnDown is the nominal turn-down on the diameter.
	TurnDown measure.Length
}

// Tip is a tip on which heads were decided. The Tip of index 0 is the one that is not known.
type Tip struct {
	// Name is the tip as people say it: .370 parallel. It is empty for the tip that is not known.
	Name string
	Tip  fitcalc.Tip
}

// HeadTips says on which tips a head was decided, and from what they were taken.
type HeadTips struct {
	Tips []int32
	// Why is a clause such as "the bore of 9.50 mm clears it by 0.10 mm".
	Why string
	// Assumed is set when the sheet does not name the tip.
	Assumed bool
}

// Result is the matrix of a catalogue.
type Result struct {
	Catalogue *catalog.Catalogue
	Shop      fitcalc.Shop
	Tips      []Tip
	// HeadTips has an entry for each head.
	HeadTips []HeadTips
	// OutOfRange is how many pairs of head and ferrule are plainly out of range.
	OutOfRange int
	// Listed is how many pairs are listed; Pairs yields them.
	Listed int
	// Counted are the pairs in reach that do not fit and are not listed, by what rules them out, the most frequent first.
	Counted []Counted
	// All is set where every pair in reach is listed.
	All bool
	// OnlyBest is of how many ferrules for each head, and of how many heads for each ferrule, the pairs are listed where not all that fit
	// are; it is 0 where all are.
	OnlyBest int
	// Findings are those that only show when parts meet.
	Findings finding.List

	widestBase measure.Length // the widest spread of a base OD

	heads []fitcalc.Head
	parts []fitcalc.Ferrule
	// ofHeads and ofFerrules are the parts by geometry, and decided what was found for each geometry of heads, near what comes
	// nearest to each geometry of ferrules that fits nothing.
	ofHeads, ofFerrules classes
	decided             []decided
	forms               []tally
	formAsks            [][]Asked
	near                [][]Pair
	own                 map[int32]own          // of heads that have listed what the others of their geometry have not
	codes               [math.MaxUint8 + 1]int // of the pairs that do not fit and are not listed
	rests               rests
	lengths             *lengths
	index               *index
}

// Counted are pairs that are not listed.
type Counted struct {
	// Code is the reason that rules them out.
	Code  fitcalc.Code
	Pairs int
}

// Asked are the pairs of one part that cannot be decided for want of the same dimensions.
type Asked struct {
	// Fields are the dimensions of this part that are missing, in the order of the fields; empty where only the other parts lack
	// something.
	Fields []fitcalc.Field
	// Others is set where the other part of each pair lacks something too.
	Others bool
	Pairs  int
}

// HeadPairs returns the listed pairs of a head: those that fit, the least bench time first, then those that cannot be decided, then
// those that do not fit, the nearest first.
func (r *Result) HeadPairs(head int) []Pair {
	pairs, o := r.decided[r.ofHeads.of[head]].pairs, r.own[int32(head)]
	if len(o.pairs) == 0 && (len(pairs) == 0 || pairs[0].Head == int32(head)) {
		return pairs
	}
	own := slices.Concat(pairs, o.pairs)
	for i := range own {
		own[i].Head = int32(head)
	}
	if len(o.pairs) > 0 {
		slices.SortFunc(own, comparePairs)
	}
	return own
}

// Pairs yields the listed pairs, by head, those of each head as [Result.HeadPairs] has them.
func (r *Result) Pairs() iter.Seq[Pair] {
	return func(yield func(Pair) bool) {
		for head := range r.heads {
			for _, p := range r.HeadPairs(head) {
				if !yield(p) {
					return
				}
			}
		}
	}
}

// ByGeometry yields for each geometry of heads those that have the same pairs listed, and these as those of the first of them. All that
// package fitcalc computes is the same for all of them.
func (r *Result) ByGeometry() iter.Seq2[[]int32, []Pair] {
	return func(yield func([]int32, []Pair) bool) {
		for class, members := range r.ofHeads.members {
			for heads := range r.alike(members) {
				pairs := r.decided[class].pairs
				if heads[0] != members[0] || !r.Alike(int(heads[0])) {
					pairs = r.HeadPairs(int(heads[0]))
				}
				if !yield(heads, pairs) {
					return
				}
			}
		}
	}
}

// alike yields those heads of a geometry that have the same pairs listed together, and the others each by itself.
func (r *Result) alike(members []int32) iter.Seq[[]int32] {
	return func(yield func([]int32) bool) {
		if len(r.own) == 0 {
			yield(members)
			return
		}
		var alike []int32
		for _, head := range members {
			if r.Alike(int(head)) {
				alike = append(alike, head)
			} else if !yield([]int32{head}) {
				return
			}
		}
		if len(alike) > 0 {
			yield(alike)
		}
	}
}

// Alike reports whether a head has the same pairs listed as the others of its geometry of which it is true. It is of all heads where all
// that fits is listed.
func (r *Result) Alike(head int) bool { return len(r.own[int32(head)].pairs) == 0 }

// HeadGeometries and FerruleGeometries are the parts by geometry: those of one group have the same sizes, limits, forms and tips, so
// that they fit alike. Groups stand in the order of their first parts.
func (r *Result) HeadGeometries() [][]int32 { return r.ofHeads.members }

// FerruleGeometries is HeadGeometries for ferrules.
func (r *Result) FerruleGeometries() [][]int32 { return r.ofFerrules.members }

// HeadGeometry is the place of a head's geometry in [Result.HeadGeometries].
func (r *Result) HeadGeometry(head int) int { return int(r.ofHeads.of[head]) }

// FerruleGeometry is the place of a ferrule's geometry in [Result.FerruleGeometries].
func (r *Result) FerruleGeometry(ferrule int) int { return int(r.ofFerrules.of[ferrule]) }

// Fit evaluates a pair again and returns the whole answer.
func (r *Result) Fit(p Pair) fitcalc.Fit {
	var fit fitcalc.Fit
	r.FitInto(&fit, p)
	return fit
}

// FitInto is Fit for those who look at many pairs.
func (r *Result) FitInto(fit *fitcalc.Fit, p Pair) {
	fitcalc.EvaluateInto(fit, &r.heads[p.Head], &r.Tips[p.Tip].Tip, &r.parts[p.Ferrule], &r.Shop)
}

// Verdict evaluates a pair again as far as its verdict needs.
func (r *Result) Verdict(p Pair) fitcalc.Verdict {
	var fit fitcalc.Fit
	fitcalc.DecideInto(&fit, &r.heads[p.Head], &r.Tips[p.Tip].Tip, &r.parts[p.Ferrule], &r.Shop)
	return fit.Verdict
}

// InReachCount returns how many pairs are in reach, listed or not.
func (r *Result) InReachCount() int { return len(r.heads)*len(r.parts) - r.OutOfRange }

// Bore returns the bore of a ferrule: the one that is given, and otherwise, where it is known by the tip it is for, that of one made
// for that tip on a head that takes it in as deep as usual.
func (r *Result) Bore(ferrule int) measure.Dim {
	return r.boreOn(ferrule, &fitcalc.Head{})
}

func (r *Result) boreOn(ferrule int, head *fitcalc.Head) measure.Dim {
	if bore := r.Catalogue.Ferrules[ferrule].Ferrule.Bore; bore.Given() {
		return bore
	}
	return r.parts[ferrule].JointBore(head, &r.Shop)
}

// Counts returns how many pairs in reach, listed or not, have each verdict.
func (r *Result) Counts() map[fitcalc.Verdict]int {
	counts := map[fitcalc.Verdict]int{}
	for class := range r.decided {
		for v, n := range r.decided[class].tally {
			if n > 0 {
				counts[fitcalc.Verdict(v)] += n * len(r.ofHeads.members[class])
			}
		}
	}
	return counts
}

// ListedCount returns how many of the listed pairs have a verdict.
func (r *Result) ListedCount(v fitcalc.Verdict) int { return r.rests.verdicts[v] }

// HeadCount returns how many of a head's pairs in reach have a verdict.
func (r *Result) HeadCount(head int, v fitcalc.Verdict) int {
	return r.decided[r.ofHeads.of[head]].tally[v]
}

// FerruleCount returns how many of a ferrule's pairs in reach have a verdict.
func (r *Result) FerruleCount(ferrule int, v fitcalc.Verdict) int {
	return r.forms[r.ofFerrules.of[ferrule]][v]
}

// HeadFits returns how many ferrules fit a head, and FerruleFits how many heads a ferrule fits.
func (r *Result) HeadFits(head int) int { return r.decided[r.ofHeads.of[head]].tally.fits() }

// FerruleFits returns how many heads a ferrule fits.
func (r *Result) FerruleFits(ferrule int) int { return r.forms[r.ofFerrules.of[ferrule]].fits() }

// FerruleServes returns how many heads a ferrule fits whichever of their pieces comes to the bench.
func (r *Result) FerruleServes(ferrule int) int { return r.forms[r.ofFerrules.of[ferrule]].serves() }

// Asked returns what is missing of a head or of its ferrules where pairs in reach cannot be decided.
func (r *Result) Asked(head int) []Asked { return r.decided[r.ofHeads.of[head]].asks }

// SomeAsked returns a few of the pairs of a head that cannot be decided, in the order of [Result.HeadPairs], whether they are listed or
// not.
func (r *Result) SomeAsked(head int) []Pair {
	some := slices.Clone(r.decided[r.ofHeads.of[head]].some)
	for i := range some {
		some[i].Head = int32(head)
	}
	return some
}

// FerruleAsked is Asked for a ferrule.
func (r *Result) FerruleAsked(ferrule int) []Asked { return r.formAsks[r.ofFerrules.of[ferrule]] }

// Assumed returns how many listed pairs rest on an assumption.
func (r *Result) Assumed(a fitcalc.Assumption) int {
	count := 0
	for set, n := range r.rests.pairs {
		if set.Has(a) {
			count += n
		}
	}
	return count
}

// HeadAssumed is everything that the listed pairs of a head rest on, and FerruleAssumed that of a ferrule.
func (r *Result) HeadAssumed(head int) fitcalc.AssumptionSet {
	return r.decided[r.ofHeads.of[head]].assumed | r.own[int32(head)].assumed
}

// FerruleAssumed is everything that the listed pairs of a ferrule rest on.
func (r *Result) FerruleAssumed(ferrule int) fitcalc.AssumptionSet {
	return r.rests.forms[r.ofFerrules.of[ferrule]]
}

// Best returns the pair of a head that asks least of the bench, and false where no ferrule fits it; [Result.Standing] says why.
func (r *Result) Best(head int) (Pair, bool) {
	pairs := r.decided[r.ofHeads.of[head]].pairs
	if len(pairs) == 0 || !pairs[0].Verdict.Fits() {
		return Pair{}, false
	}
	best := pairs[0]
	best.Head = int32(head)
	return best, true
}

// Nearest returns, for a head that no ferrule fits, the pair that comes nearest to fitting, in reach or not, and false where
// there are no ferrules, all may fit, or the head takes none.
func (r *Result) Nearest(head int) (Pair, bool) {
	return ofFirst(r.decided[r.ofHeads.of[head]].near, func(p *Pair) { p.Head = int32(head) })
}

// NearestHead is Nearest for a ferrule that fits no head.
func (r *Result) NearestHead(ferrule int) (Pair, bool) {
	return ofFirst(r.near[r.ofFerrules.of[ferrule]], func(p *Pair) { p.Ferrule = int32(ferrule) })
}

func ofFirst(near []Pair, own func(*Pair)) (Pair, bool) {
	if len(near) == 0 {
		return Pair{}, false
	}
	p := near[0]
	own(&p)
	return p, true
}

// Pair decides a head anew against one ferrule, in reach or not.
func (r *Result) Pair(head, ferrule int) Pair {
	var d decider
	return d.decide(r, int32(head), int32(ferrule))
}

// InReach decides a head anew against every ferrule in its reach, listed or not, and returns its pairs in the order of
// [Result.HeadPairs].
func (r *Result) InReach(head int) []Pair {
	var d decider
	return d.everyPair(r, int32(head))
}
