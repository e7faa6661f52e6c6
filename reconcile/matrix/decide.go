package matrix

import (
	"cmp"
	"runtime"
	"slices"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// Decide decides a catalogue by the limits of a shop, which must be valid. Parts with sizes that no part can have are
// decided as if nothing were known of them, so that their pairs are questions, and are reported.
func Decide(c *catalog.Catalogue, shop fitcalc.Shop) *Result {
	r := &Result{Catalogue: c, Shop: shop, Tips: []Tip{{}}}
	r.takeParts()
	r.assignTips()
	index := newIndex(r)
	byHead := make([][]Pair, len(r.heads))
	var work sync.WaitGroup
	workers := min(runtime.GOMAXPROCS(0), max(1, len(r.heads)))
	for w := range workers {
		work.Go(func() {
			var d decider
			for head := w; head < len(r.heads); head += workers {
				byHead[head] = d.headPairs(r, index, int32(head))
			}
		})
	}
	work.Wait()
	r.collect(byHead)
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

// collect joins the heads' pairs and counts the rest.
func (r *Result) collect(byHead [][]Pair) {
	total := 0
	for _, pairs := range byHead {
		total += len(pairs)
	}
	r.Pairs = make([]Pair, 0, total)
	r.starts = make([]int, 0, len(byHead)+1)
	for _, pairs := range byHead {
		r.starts = append(r.starts, len(r.Pairs))
		r.Pairs = append(r.Pairs, pairs...)
	}
	r.starts = append(r.starts, len(r.Pairs))
	r.OutOfRange = len(r.heads)*len(r.parts) - total
}

// decider evaluates pairs; it holds the room for one answer and one head's pairs, so that deciding allocates nothing.
type decider struct {
	fit   fitcalc.Fit
	pairs []Pair
}

// headPairs decides a head against the ferrules in its reach.
func (d *decider) headPairs(r *Result, index *index, head int32) []Pair {
	d.pairs = d.pairs[:0]
	reach := newReach(r, head)
	for entry := range index.around(reach) {
		if reach.bore(entry.bore) {
			d.pairs = append(d.pairs, d.decide(r, head, entry.ferrule))
		}
	}
	slices.SortFunc(d.pairs, comparePairs)
	return slices.Clone(d.pairs)
}

// decide takes the tip on which the pair asks least of the bench.
func (d *decider) decide(r *Result, head, ferrule int32) Pair {
	best := Pair{}
	for i, tip := range r.HeadTips[head].Tips {
		fitcalc.EvaluateInto(&d.fit, &r.heads[head], &r.Tips[tip].Tip, &r.parts[ferrule], &r.Shop)
		p := Pair{
			Head: head, Ferrule: ferrule, Tip: tip,
			Verdict:  d.fit.Verdict,
			TurnDown: d.fit.Flush.TurnDown.Nominal,
			Minutes:  float32(d.fit.Work.Minutes),
			Miss:     miss(&d.fit, &r.Shop),
		}
		if i == 0 || comparePairs(p, best) < 0 {
			best = p
		}
	}
	return best
}

// comparePairs orders what fits by bench time, what fits measured parts after it, then questions, then what does not fit by how far it is out.
func comparePairs(a, b Pair) int {
	if c := cmp.Compare(class(a.Verdict), class(b.Verdict)); c != 0 {
		return c
	}
	if c := cmp.Compare(a.Minutes+a.Miss, b.Minutes+b.Miss); c != 0 {
		return c
	}
	if c := a.TurnDown.Compare(b.TurnDown); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(a.Ferrule, b.Ferrule), cmp.Compare(a.Tip, b.Tip))
}

// class puts verdicts that serve before those for measured parts, these before questions, those before what does not fit, and heads
// that take none last.
func class(v fitcalc.Verdict) uint8 { return classes[v] }

var classes = [...]uint8{fitcalc.Measure: 1, fitcalc.Ask: 2, fitcalc.No: 3, fitcalc.Bare: 4}

// miss is how far a pair that does not fit is from fitting, in mm on the diameter: the largest of its reasons against it.
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

func distance(reason fitcalc.Reason, fit *fitcalc.Fit, shop *fitcalc.Shop) float64 {
	var short measure.Length
	switch reason.Code {
	case fitcalc.FlushUndersize:
		short = fit.Flush.Oversize.Nominal.Add(shop.FlushStep).Neg()
	case fitcalc.FlushTurnLimit:
		short = fit.Flush.TurnDown.Nominal.Sub(shop.TurnLimit)
	case fitcalc.GripLoose:
		short = fit.Grip.Interference.Nominal.Neg()
	case fitcalc.GripSplit, fitcalc.GripOverTip:
		bore := reason.Size.Millimetres() / reason.Value
		return max(0, (reason.Value-shop.StrainLimit)*bore)
	case fitcalc.WallThin, fitcalc.BoreTight:
		short = reason.Limit.Sub(reason.Size)
	case fitcalc.BoreLoose:
		short = reason.Size.Sub(shop.ShimLimit)
	case fitcalc.SeatCollarHigh, fitcalc.SeatStepLong, fitcalc.SeatRecessOpen:
		short = reason.Size
	case fitcalc.SeatStepWide:
		short = reason.Size.Sub(reason.Other)
	default:
		short = reason.Size.Sub(reason.Limit)
	}
	return short.Abs().Millimetres()
}
