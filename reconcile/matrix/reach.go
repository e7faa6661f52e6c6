package matrix

import (
	"iter"
	"slices"
	"sort"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// index is the ferrules by base OD, those without one apart.
type index struct {
	sorted  []entry
	unknown []entry
}

// entry is a geometry of ferrules, with the first of them.
type entry struct {
	od measure.Length
	// bore is the ferrule's; where that depends on the head it is worked out for each.
	bore           measure.Dim
	ofHead         bool
	class, ferrule int32
}

func newIndex(r *Result) *index {
	x := &index{}
	r.widestBase = r.Shop.FerruleODTolerance.MulInt(2)
	for class := range r.ofFerrules.members {
		i := r.ofFerrules.first(int32(class))
		part := &r.parts[i]
		e := newEntry(part, &r.Shop)
		e.class, e.ferrule = int32(class), i
		if part.BaseOD.Given() {
			r.widestBase = measure.Max(r.widestBase, part.BaseOD.Width())
			x.sorted = append(x.sorted, e)
		} else {
			x.unknown = append(x.unknown, e)
		}
	}
	slices.SortStableFunc(x.sorted, func(a, b entry) int { return a.od.Compare(b.od) })
	return x
}

func newEntry(part *fitcalc.Ferrule, shop *fitcalc.Shop) entry {
	e := entry{od: part.BaseOD.Middle(), bore: part.Bore}
	if !part.Bore.Given() {
		// That of a ferrule which is known by a parallel tip is the same on every head.
		e.bore = part.JointBore(&fitcalc.Head{}, shop)
		tip := part.ForTip.Tip(*shop)
		e.ofHead = tip.Form() == fitcalc.TipTapered
	}
	return e
}

// around yields the ferrules whose base OD is within reach, then those of unknown OD.
func (x *index) around(r reach) iter.Seq[entry] {
	known := x.sorted
	if r.hasOD {
		from := sort.Search(len(known), func(i int) bool { return !known[i].od.Less(r.leastOD) })
		to := sort.Search(len(known), func(i int) bool { return r.mostOD.Less(known[i].od) })
		known = known[from:max(from, to)]
	}
	return func(yield func(entry) bool) {
		for _, entries := range [...][]entry{known, x.unknown} {
			for _, e := range entries {
				if !yield(e) {
					return
				}
			}
		}
	}
}

// reach is what a ferrule must have for its pair with a head to be listed: nominal sizes no further beyond the shop's
// limits than a near miss.
type reach struct {
	hasOD           bool
	leastOD, mostOD measure.Length
	bores           []window
	head            *fitcalc.Head
	shop            *fitcalc.Shop
}

// window is the bores that one tip leaves within reach.
type window struct{ least, most measure.Length }

func newReach(r *Result, head int32) reach {
	h, shop := &r.heads[head], &r.Shop
	od := h.JointOD()
	// A base beyond the turn limit still suits the largest of the hosels: by less than the spread of hosel and base together.
	selected := od.OrPlusMinus(shop.HoselODTolerance).Width().Add(r.widestBase)
	result := reach{
		hasOD:   od.Given(),
		leastOD: od.Middle().Sub(shop.FlushStep).Sub(shop.NearMiss),
		mostOD:  od.Middle().Add(shop.TurnLimit).Add(measure.Max(shop.NearMiss, selected)),
		head:    h,
		shop:    shop,
	}
	for _, tip := range r.HeadTips[head].Tips {
		if t := &r.Tips[tip].Tip; t.Form() != fitcalc.TipUnknown {
			result.bores = append(result.bores, boreWindow(t, h, shop))
		}
	}
	return result
}

// boreWindow runs from a bore that would be stretched beyond the limit wherever the ferrule sits to one that would be
// loose even under a long ferrule, and a near miss further either way.
func boreWindow(t *fitcalc.Tip, h *fitcalc.Head, shop *fitcalc.Shop) window {
	least, most := shaftRange(t, h, shop)
	const million = 1_000_000
	stretched := least.MulRatio(million, int64((1+shop.StrainLimit)*million))
	return window{least: stretched.Sub(shop.NearMissOnBore), most: most.Add(shop.NearMissOnBore)}
}

// shaftRange is the least and the largest diameter of the shaft from where the ferrule's base sits to the top of a long one.
func shaftRange(t *fitcalc.Tip, h *fitcalc.Head, shop *fitcalc.Shop) (least, most measure.Length) {
	at := shop.InsertionDepth
	if depth := h.JointBoreDepth(); depth.Given() {
		at = depth.Middle()
	}
	base, top := t.Diameter(at).Middle(), t.Diameter(at.Add(shop.MostLength)).Middle()
	return measure.Min(base, top), measure.Max(base, top)
}

// has reports whether a ferrule is in reach.
func (r *reach) has(f *fitcalc.Ferrule) bool {
	if od := f.BaseOD; r.hasOD && od.Given() && (od.Middle().Less(r.leastOD) || r.mostOD.Less(od.Middle())) {
		return false
	}
	e := newEntry(f, r.shop)
	return r.bore(&e, f)
}

// bore reports whether a ferrule's bore is in reach of any of the head's tips. A bore or tip that is not known is.
func (r *reach) bore(e *entry, part *fitcalc.Ferrule) bool {
	bore := e.bore
	if e.ofHead {
		bore = part.JointBore(r.head, r.shop)
	}
	if !bore.Given() || len(r.bores) == 0 {
		return true
	}
	for _, w := range r.bores {
		if !bore.Middle().Less(w.least) && !w.most.Less(bore.Middle()) {
			return true
		}
	}
	return false
}
