package vet

import (
	"cmp"
	"errors"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
)

// Served is a new head that a ferrule in stock fits.
type Served struct {
	Head int
	Pair matrix.Pair
}

// Order is a new head that no ferrule in stock fits, or only some of its pieces, and what one would have to be.
type Order struct {
	Head int
	// Tip is an index into the tips of the result.
	Tip int32
	// Spec is what to order; it is empty where Problem says why nothing can be specified.
	Spec    fitcalc.Specification
	Problem string
	// Near is the pair that comes nearest to fitting, one that suits some pieces before all others, and HasNear whether there is one.
	Near    matrix.Pair
	HasNear bool
}

// Lot is one ferrule that would serve several heads.
type Lot struct {
	// BaseOD is a base OD that all its heads accept, on the diameter; Bore and Style are what they have in common.
	BaseOD measure.Length
	Bore   measure.Length
	Style  fitcalc.Style
	// Length is every length that all of them accept; it is empty where there is none in common.
	Length measure.Interval
	// Heads are places in Orders.
	Heads []int
}

// HeadNeeds is what new heads need.
type HeadNeeds struct {
	// Heads is how many there are. Each is served, to be ordered for, undecided or bare.
	Heads     int
	Served    []Served
	Orders    []Order
	Undecided []int
	Bare      []int
	// Lots are the fewest base ODs that serve all of Orders that can be specified.
	Lots []Lot
	// Minutes is the mean bench time of the served heads.
	Minutes float64
}

func needs(r *matrix.Result) HeadNeeds {
	n := HeadNeeds{Heads: len(r.Catalogue.Heads)}
	for head := range r.Catalogue.Heads {
		switch best, fits := r.Best(head); {
		case fits && best.Verdict.Serves():
			n.Served = append(n.Served, Served{head, best})
			n.Minutes += float64(best.Minutes)
		case r.Standing(head) == matrix.TakesNone:
			n.Bare = append(n.Bare, head)
		case r.Standing(head) == matrix.Undecided:
			n.Undecided = append(n.Undecided, head)
		default:
			n.Orders = append(n.Orders, order(r, head))
		}
	}
	if len(n.Served) > 0 {
		n.Minutes /= float64(len(n.Served))
	}
	n.Lots = lots(n.Orders)
	return n
}

// order specifies a ferrule for a head: on the first of its tips for which that can be done.
func order(r *matrix.Result, head int) Order {
	o := Order{Head: head}
	if o.Near, o.HasNear = r.Best(head); !o.HasNear {
		o.Near, o.HasNear = r.Nearest(head)
	}
	for i, tip := range r.HeadTips[head].Tips {
		spec, err := fitcalc.Specify(r.Catalogue.Heads[head].Head, r.Tips[tip].Tip, fitcalc.Ferrule{}, r.Shop)
		switch {
		case err != nil && i == 0:
			o.Tip, o.Problem = tip, problemOf(err)
		case err == nil && (spec.BaseOD.Empty() || spec.Bore.Empty()):
			if o.Problem == "" {
				o.Tip, o.Problem = tip, "no ferrule can be made for this head within the shop's limits"
			}
		case err == nil:
			o.Tip, o.Spec, o.Problem = tip, spec, ""
			return o
		}
	}
	return o
}

func problemOf(err error) string {
	var input *fitcalc.InputError
	if errors.As(err, &input) {
		return input.Error()
	}
	return err.Error()
}

// lots finds the fewest base ODs that serve all orders: among those of the same bore and form, the interval that ends first is served at
// the least base OD that leaves it as little to turn as the others allow, and takes every other that holds that point.
func lots(orders []Order) []Lot {
	open := make([]int, 0, len(orders))
	for i, o := range orders {
		if o.Problem == "" && o.Spec.BaseOD.Upper().Bounded() && o.Spec.BaseOD.Lower().Bounded() {
			open = append(open, i)
		}
	}
	slices.SortStableFunc(open, func(a, b int) int {
		return cmp.Or(upper(orders[a]).Compare(upper(orders[b])), orders[a].Spec.BestBore.Compare(orders[b].Spec.BestBore))
	})
	var made []Lot
	taken := map[int]bool{}
	for _, i := range open {
		if taken[i] {
			continue
		}
		made = append(made, lotFrom(orders, open, i, taken))
	}
	return made
}

func upper(o Order) measure.Length { return last(o.Spec.BaseOD) }

// last is the largest length of an interval that has one, and of one that is open at its end the picometre before.
func last(i measure.Interval) measure.Length {
	if i.Upper().Closed() {
		return i.Upper().At()
	}
	return i.Upper().At().Sub(measure.Picometres(1))
}

// lotFrom gathers every order that accepts the largest base OD of the order that ends first. The size itself is the smallest that all of
// them accept, since that leaves least to turn.
func lotFrom(orders []Order, open []int, first int, taken map[int]bool) Lot {
	at, spec := upper(orders[first]), &orders[first].Spec
	lot := Lot{Bore: spec.BestBore, Style: spec.Style, Length: spec.Length}
	common := spec.BaseOD
	for _, i := range open {
		s := &orders[i].Spec
		if taken[i] || s.BestBore != spec.BestBore || s.Style != spec.Style || !s.BaseOD.Contains(at) {
			continue
		}
		taken[i] = true
		lot.Heads = append(lot.Heads, i)
		lot.Length = lot.Length.Intersect(s.Length)
		common = common.Intersect(s.BaseOD)
		lot.BaseOD = measure.Max(lot.BaseOD, s.BestBaseOD)
	}
	if !common.Contains(lot.BaseOD) {
		lot.BaseOD = last(common)
	}
	return lot
}
