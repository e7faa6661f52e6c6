package matrix

import (
	"iter"
	"slices"
	"sort"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// index is the geometries of ferrules by bore and base OD.
type index struct {
	groups []group
	// forms are what they bring, and widest is the widest spread of a base OD in mm.
	forms  []form
	widest float64
	// order are the geometries by their places, and upTo counts the ferrules of those before a place.
	order []int32
	upTo  []int
}

// group is the geometries of ferrules of one bore, or whose bore is the same on every head: those with a base OD by it, and those without.
type group struct {
	first   *fitcalc.Ferrule
	form    form
	key     boreKey
	sorted  []entry
	unknown []entry
}

// boreKey is what it is of a ferrule that its bore follows from. Where that depends on the head, it is what it depends on.
type boreKey struct {
	// bore is the middle of the bore, where one is known, and given is set where the sheet gives it.
	known, given bool
	bore         measure.Length
	// forTip and length are those of a ferrule whose bore depends on the head.
	forTip fitcalc.TipSize
	length measure.Dim
}

// entry is a geometry of ferrules, with the first of them and how many there are.
type entry struct {
	od                       measure.Length
	class, ferrule, ferrules int32
	at                       int32 // its place, one after the other in each of the two lists of a group
}

func newIndex(r *Result) *index {
	x := &index{}
	r.widestBase = r.Shop.FerruleODTolerance.MulInt(2)
	groups := map[boreKey]int{}
	for class, members := range r.ofFerrules.members {
		part := &r.parts[members[0]]
		e := entry{od: part.BaseOD.Middle(), class: int32(class), ferrule: members[0], ferrules: int32(len(members))}
		f := r.lengths.form(part, &r.Shop)
		x.forms, x.widest = append(x.forms, f), max(x.widest, f.spread)
		key := newBoreKey(part, &r.Shop)
		at, seen := groups[key]
		if !seen {
			at = len(x.groups)
			groups[key], x.groups = at, append(x.groups, group{first: part, key: key, form: f})
		}
		if g := &x.groups[at]; part.BaseOD.Given() {
			r.widestBase = measure.Max(r.widestBase, part.BaseOD.Width())
			g.sorted = append(g.sorted, e)
		} else {
			g.unknown = append(g.unknown, e)
		}
	}
	for i := range x.groups {
		slices.SortStableFunc(x.groups[i].sorted, func(a, b entry) int { return a.od.Compare(b.od) })
	}
	x.place()
	return x
}

func (x *index) place() {
	x.upTo = []int{0}
	for i := range x.groups {
		for _, entries := range [...][]entry{x.groups[i].sorted, x.groups[i].unknown} {
			for k := range entries {
				e := &entries[k]
				e.at = int32(len(x.order))
				x.order, x.upTo = append(x.order, e.class), append(x.upTo, x.upTo[e.at]+int(e.ferrules))
			}
		}
	}
}

func newBoreKey(part *fitcalc.Ferrule, shop *fitcalc.Shop) boreKey {
	bore := part.Bore
	if !bore.Given() {
		// That of a ferrule which is known by a parallel tip is the same on every head.
		if tip := part.ForTip.Tip(*shop); tip.Form() == fitcalc.TipTapered {
			return boreKey{forTip: part.ForTip, length: part.Length}
		}
		bore = part.JointBore(&fitcalc.Head{}, shop)
	}
	return boreKey{known: bore.Given(), given: part.Bore.Given(), bore: bore.Middle()}
}

// around yields the ferrules in reach, those of one bore at a time.
func (x *index) around(r reach) iter.Seq[[]entry] {
	return func(yield func([]entry) bool) {
		for i := range x.groups {
			g := &x.groups[i]
			if !r.bore(g.key, g.first) {
				continue
			}
			if known := r.ofOD(g.sorted); len(known) > 0 && !yield(known) {
				return
			}
			if len(g.unknown) > 0 && !yield(g.unknown) {
				return
			}
		}
	}
}

// ofOD are the entries whose base OD is within reach.
func (r *reach) ofOD(known []entry) []entry {
	if !r.hasOD {
		return known
	}
	from := sort.Search(len(known), func(i int) bool { return !known[i].od.Less(r.leastOD) })
	to := sort.Search(len(known), func(i int) bool { return r.mostOD.Less(known[i].od) })
	return known[from:max(from, to)]
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
	return r.bore(newBoreKey(f, r.shop), f)
}

// bore reports whether a ferrule's bore is in reach of any of the head's tips. A bore or tip that is not known is.
func (r *reach) bore(key boreKey, part *fitcalc.Ferrule) bool {
	if len(r.bores) == 0 {
		return true
	}
	if key.forTip.Known() {
		bore := part.JointBore(r.head, r.shop)
		key.known, key.bore = bore.Given(), bore.Middle()
	}
	if !key.known {
		return true
	}
	for _, w := range r.bores {
		if !key.bore.Less(w.least) && !w.most.Less(key.bore) {
			return true
		}
	}
	return false
}
