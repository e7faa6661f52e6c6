// Package matrix decides every head of a catalogue against every ferrule, without looking at every pair: ferrules are
// sorted by base OD, and only those within reach of a head are evaluated. Pairs out of reach are counted, so that pairs
// listed plus pairs out of range are always heads times ferrules.
//
// A pair is one head with one ferrule. A head that can take several tips is decided on each, and the pair stands on the
// tip that asks least of the bench.
package matrix

import (
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
	// Miss is how far a pair that does not fit is from fitting, in mm on the diameter, in the worst case; nothing for
	// pairs that fit or cannot be decided.
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
	// Pairs are the pairs in reach, by head, and for each head the best first.
	Pairs []Pair
	// OutOfRange is how many pairs of head and ferrule are plainly out of range.
	OutOfRange int
	// Findings are those that only show when parts meet.
	Findings finding.List

	widestBase measure.Length // the widest spread of a base OD

	starts []int // starts[h] is where the pairs of head h begin in Pairs; one entry more than heads
	heads  []fitcalc.Head
	parts  []fitcalc.Ferrule
}

// HeadPairs returns the pairs of a head that are in reach, the best first.
func (r *Result) HeadPairs(head int) []Pair { return r.Pairs[r.starts[head]:r.starts[head+1]] }

// Fit evaluates a pair again and returns the whole answer.
func (r *Result) Fit(p Pair) fitcalc.Fit {
	var fit fitcalc.Fit
	fitcalc.EvaluateInto(&fit, &r.heads[p.Head], &r.Tips[p.Tip].Tip, &r.parts[p.Ferrule], &r.Shop)
	return fit
}

// Counts returns how many listed pairs have each verdict.
func (r *Result) Counts() map[fitcalc.Verdict]int {
	counts := map[fitcalc.Verdict]int{}
	for i := range r.Pairs {
		counts[r.Pairs[i].Verdict]++
	}
	return counts
}

// Best returns the pair of a head that asks least of the bench, and false where no ferrule fits it; [Result.Standing] says why.
func (r *Result) Best(head int) (Pair, bool) {
	pairs := r.HeadPairs(head)
	if len(pairs) == 0 || !pairs[0].Verdict.Fits() {
		return Pair{}, false
	}
	return pairs[0], true
}

// Nearest returns, for a head that no ferrule fits, the pair that comes nearest to fitting, in reach or not, and false
// where there are no ferrules or the head takes none.
func (r *Result) Nearest(head int) (Pair, bool) {
	best, found := Pair{}, false
	consider := func(p Pair) {
		if p.Verdict == fitcalc.No && (!found || p.Miss < best.Miss) {
			best, found = p, true
		}
	}
	for _, p := range r.HeadPairs(head) {
		consider(p)
	}
	if found {
		return best, true
	}
	var d decider
	for ferrule := range r.parts {
		consider(d.decide(r, int32(head), int32(ferrule)))
	}
	return best, found
}

// NearestHead is Nearest for a ferrule that fits no head.
func (r *Result) NearestHead(ferrule int) (Pair, bool) {
	best, found := Pair{}, false
	var d decider
	for head := range r.heads {
		p := d.decide(r, int32(head), int32(ferrule))
		if p.Verdict == fitcalc.No && (!found || p.Miss < best.Miss) {
			best, found = p, true
		}
	}
	return best, found
}
