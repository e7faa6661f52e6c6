package matrix

import (
	"cmp"
	"math"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// nearestKept is how many of the nearest are kept for a part that fits nothing.
const nearestKept = 3

// findNearest finds what comes nearest to each geometry of heads and of ferrules that fits nothing.
func (r *Result) findNearest() {
	r.near = make([][]Pair, len(r.forms))
	lengths := newLengths(r)
	heads := make([]span, len(r.decided))
	each(len(heads), func(_, class int) { heads[class] = newSpan(r, r.ofHeads.first(int32(class)), lengths.all) })
	forms := make([]form, len(r.forms))
	for i := range forms {
		forms[i] = lengths.form(&r.parts[r.ofFerrules.first(int32(i))], &r.Shop)
	}
	deciders := make([]decider, workersFor(math.MaxInt))
	each(len(r.decided), func(w, class int) {
		d := &r.decided[class]
		head := r.ofHeads.first(int32(class))
		if d.tally.fits() > 0 || r.heads[head].Top == fitcalc.TopRounded {
			return
		}
		d.near = deciders[w].nearest(r, len(forms),
			func(i int) float64 { return heads[class].beyond(&forms[i]) },
			func(i int) (int32, int32) { return head, r.ofFerrules.first(int32(i)) })
	})
	each(len(forms), func(w, i int) {
		if r.forms[i].fits() > 0 {
			return
		}
		ferrule := r.ofFerrules.first(int32(i))
		r.near[i] = deciders[w].nearest(r, len(heads),
			func(class int) float64 { return heads[class].beyond(&forms[i]) },
			func(class int) (int32, int32) { return r.ofHeads.first(int32(class)), ferrule })
	})
}

// candidate is one of those that may be nearest: by no less than this.
type candidate struct {
	beyond float64
	at     int32
}

func compareCandidates(a, b candidate) int {
	return cmp.Or(cmp.Compare(a.beyond, b.beyond), cmp.Compare(a.at, b.at))
}

// firstCandidates is how many are looked at before all are put in order.
const firstCandidates = 64

// nearest finds the nearest of n pairs without deciding all: it takes them by the least they can be out, and stops when no
// other can be nearer than what was found.
func (d *decider) nearest(r *Result, n int, beyond func(int) float64, parts func(int) (head, ferrule int32)) []Pair {
	var found []Pair
	all := make([]candidate, 0, n)
	for i := range n {
		if b := beyond(i); !math.IsInf(b, 1) {
			all = append(all, candidate{b, int32(i)})
		}
	}
	done := func(c candidate) bool {
		if len(found) == nearestKept && c.beyond >= float64(found[nearestKept-1].Miss) {
			return true
		}
		head, ferrule := parts(int(c.at))
		if p := d.decide(r, head, ferrule); p.Verdict == fitcalc.No {
			at, _ := slices.BinarySearchFunc(found, p, compareWithin)
			found = slices.Insert(found, at, p)
			found = found[:min(len(found), nearestKept)]
		}
		return false
	}
	first := leastOf(all, firstCandidates)
	for _, c := range first {
		if done(c) {
			return found
		}
	}
	slices.SortFunc(all, compareCandidates)
	for _, c := range all[len(first):] {
		if done(c) {
			break
		}
	}
	return found
}

// leastOf returns the least n candidates in order.
func leastOf(all []candidate, n int) []candidate {
	least := make([]candidate, 0, n)
	for _, c := range all {
		if len(least) == n && compareCandidates(c, least[n-1]) >= 0 {
			continue
		}
		at, _ := slices.BinarySearchFunc(least, c, compareCandidates)
		if len(least) == n {
			least = least[:n-1]
		}
		least = slices.Insert(least, at, c)
	}
	return least
}

// span is what a head leaves a ferrule, in mm on the diameter: base ODs, and for each length of ferrule and each of its tips the
// diameter of the shaft where it is widest under the ferrule.
type span struct {
	hasOD       bool
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
	hasOD, hasBore   bool
	od, spread, bore float64
	length           int // its place among the lengths
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
		longest = measure.Max(longest, length.Nominal())
		if _, seen := l.known[length.Nominal()]; length.Given() && !seen && len(l.all) < lengthsKept {
			l.known[length.Nominal()] = len(l.all)
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
		if kept, is := l.known[f.Length.Nominal()]; is {
			at = kept
		}
	}
	return form{
		hasOD: f.BaseOD.Given(), hasBore: f.Bore.Given(), length: at,
		od: middle(&f.BaseOD), spread: f.BaseOD.OrPlusMinus(shop.FerruleODTolerance).Width().Millimetres(), bore: middle(&f.Bore),
	}
}

// middle is the middle of a dimension's limits in mm.
func middle(d *measure.Dim) float64 {
	return (d.Lower().Millimetres() + d.Upper().Millimetres()) / 2
}

func newSpan(r *Result, head int32, lengths []measure.Dim) span {
	h, shop := &r.heads[head], &r.Shop
	jointOD := h.JointOD()
	od := middle(&jointOD)
	s := span{
		hasOD: jointOD.Given(), least: od - shop.FlushStep.Millimetres(), most: od + shop.TurnLimit.Millimetres(),
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
			w := widest(&r.Tips[tip].Tip, h, length.Nominal(), shop)
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
		at = depth.Nominal()
	}
	most := measure.Max(t.Diameter(at).Nominal(), t.Diameter(at.Add(length)).Nominal()).Millimetres()
	return shaft{most, most}
}

// beyond is the least by which a ferrule can be out on the head.
func (s *span) beyond(f *form) float64 {
	out := 0.0
	if s.hasOD && f.hasOD {
		out = max(beyondFor(s.least-f.od, s.margin), beyondFor(f.od-s.most, max(s.margin, s.spread+f.spread)))
	}
	if !f.hasBore || s.tips == 0 {
		return out
	}
	least := math.Inf(1)
	for _, w := range s.widest[f.length*s.tips : (f.length+1)*s.tips] {
		least = min(least, max(beyondFor(f.bore-w.most, s.margin), beyondFor(w.least-f.bore*s.strain, s.margin)))
	}
	return max(out, least)
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
