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
	od             measure.Length
	bore           measure.Dim
	class, ferrule int32
}

func newIndex(r *Result) *index {
	x := &index{}
	r.widestBase = r.Shop.FerruleODTolerance.MulInt(2)
	for class := range r.ofFerrules.members {
		i := r.ofFerrules.first(int32(class))
		e := entry{od: r.parts[i].BaseOD.Middle(), bore: r.parts[i].Bore, class: int32(class), ferrule: i}
		if r.parts[i].BaseOD.Given() {
			r.widestBase = measure.Max(r.widestBase, r.parts[i].BaseOD.Width())
			x.sorted = append(x.sorted, e)
		} else {
			x.unknown = append(x.unknown, e)
		}
	}
	slices.SortStableFunc(x.sorted, func(a, b entry) int { return a.od.Compare(b.od) })
	return x
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
	return r.bore(f.Bore)
}

// bore reports whether a ferrule's bore is in reach of any of the head's tips. A bore or tip that is not known is.
func (r *reach) bore(bore measure.Dim) bool {
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
