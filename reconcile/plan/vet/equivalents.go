package vet

import (
	"cmp"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/plan/stock"
)

// Equivalent is a new part that can stand for one of the house's.
type Equivalent struct {
	Kind catalog.Kind
	// New and House are indexes into the parts of the kind.
	New, House int
	// Differences are how much larger the new part is nominally, by column, where it is not the same.
	Differences []Difference
	// NewPrice and HousePrice are per piece; Comparable is set where both are known in one currency.
	NewPrice, HousePrice Price
	Comparable           bool
	// More is, on the last that is kept for a new part, how many further parts of the house it could stand for.
	More int
}

// mostEquivalents is how many parts of the house are kept for each new part, the nearest in size.
const mostEquivalents = 5

// Difference is one size of two parts that stand for each other.
type Difference struct {
	Role catalog.Role
	// By is new less house, on the diameter for diameters.
	By measure.Length
}

// Price is what a piece costs.
type Price struct {
	Known    bool
	Amount   float64
	Currency string
}

// Saving is what a piece of the new part costs less, in the currency of both; negative where it costs more.
func (e Equivalent) Saving() float64 { return e.HousePrice.Amount - e.NewPrice.Amount }

// Cheaper reports whether a ferrule is known to cost less than the one it can stand for. Heads with the same joint are not the same
// heads, so that their prices say nothing.
func (e Equivalent) Cheaper() bool {
	return e.Kind == catalog.Ferrules && e.Comparable && e.Saving() > 0
}

func equivalents(in Input) []Equivalent {
	var all []Equivalent
	for i := range in.New.Ferrules {
		for j := range in.House.Ferrules {
			a, b := &in.New.Ferrules[i], &in.House.Ferrules[j]
			if differences, same := sameFerrule(&a.Ferrule, &b.Ferrule, &in.Shop); same {
				all = append(all, in.equivalent(catalog.Ferrules, i, j, differences, in.ferrulePrice(in.New, a), in.ferrulePrice(in.House, b)))
			}
		}
	}
	for i := range in.New.Heads {
		for j := range in.House.Heads {
			a, b := &in.New.Heads[i], &in.House.Heads[j]
			if differences, same := sameHead(a, b, &in.Shop); same {
				all = append(all, in.equivalent(catalog.Heads, i, j, differences, priceOf(in.New, &a.Item, a.Price), priceOf(in.House, &b.Item, b.Price)))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Equivalent) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.New, b.New), spread(a).Compare(spread(b)), cmp.Compare(a.House, b.House))
	})
	return nearestFew(all)
}

// nearestFew keeps the nearest few for each new part and counts the rest.
func nearestFew(all []Equivalent) []Equivalent {
	var kept []Equivalent
	run := 0
	for i, e := range all {
		if i > 0 && (all[i-1].Kind != e.Kind || all[i-1].New != e.New) {
			run = 0
		}
		if run++; run <= mostEquivalents {
			kept = append(kept, e)
		} else {
			kept[len(kept)-1].More++
		}
	}
	return kept
}

// spread is how far two parts differ in all.
func spread(e Equivalent) measure.Length {
	var sum measure.Length
	for _, d := range e.Differences {
		sum = sum.Add(d.By.Abs())
	}
	return sum
}

func (in Input) equivalent(kind catalog.Kind, i, j int, d []Difference, a, b Price) Equivalent {
	return Equivalent{
		Kind: kind, New: i, House: j, Differences: d, NewPrice: a, HousePrice: b,
		Comparable: a.Known && b.Known && a.Currency == b.Currency && a.Currency != "",
	}
}

func (in Input) ferrulePrice(c *catalog.Catalogue, f *catalog.Ferrule) Price {
	return priceOf(c, &f.Item, f.PriceOfPiece(in.PricePerPack))
}

func priceOf(c *catalog.Catalogue, item *catalog.Item, amount float64) Price {
	if !item.HasPrice {
		return Price{}
	}
	return Price{Known: true, Amount: amount, Currency: stock.CurrencyOf(c, item)}
}

// pairOf is one size of two parts, with the tolerance of the shop for it.
type pairOf struct {
	role      catalog.Role
	a, b      measure.Dim
	tolerance measure.Length
	// needed is set for sizes without which parts cannot be compared.
	needed bool
}

// same compares sizes: each usual size, the middle of its limits, has to lie within the limits of the other. A size that only one gives makes the parts not
// comparable.
func same(pairs []pairOf) ([]Difference, bool) {
	var differences []Difference
	for _, p := range pairs {
		switch {
		case !p.a.Given() && !p.b.Given() && !p.needed:
			continue
		case !p.a.Given() || !p.b.Given():
			return nil, false
		}
		a, b := p.a.OrPlusMinus(p.tolerance), p.b.OrPlusMinus(p.tolerance)
		if !a.Limits().Contains(b.Middle()) || !b.Limits().Contains(a.Middle()) {
			return nil, false
		}
		if by := a.Middle().Sub(b.Middle()); !by.IsZero() {
			differences = append(differences, Difference{p.role, by})
		}
	}
	return differences, true
}

func sameFerrule(a, b *fitcalc.Ferrule, shop *fitcalc.Shop) ([]Difference, bool) {
	if a.TakenStyle() != b.TakenStyle() {
		return nil, false
	}
	usual := fitcalc.Head{} // on which ferrules that are known by their tips have their usual bore
	return same([]pairOf{
		{catalog.Bore, a.JointBore(&usual, shop), b.JointBore(&usual, shop), shop.FerruleBoreTolerance, true},
		{catalog.BaseOD, a.BaseOD, b.BaseOD, shop.FerruleODTolerance, true},
		{catalog.Length, a.Length, b.Length, shop.LengthTolerance, true},
		{catalog.CollarOD, a.Collar.OD, b.Collar.OD, shop.RecessTolerance, false},
		{catalog.CollarLength, a.Collar.Length, b.Collar.Length, shop.RecessTolerance, false},
		{catalog.StepOD, a.Step.OD, b.Step.OD, shop.RecessTolerance, false},
		{catalog.StepLength, a.Step.Length, b.Step.Length, shop.RecessTolerance, false},
	})
}

func sameHead(a, b *catalog.Head, shop *fitcalc.Shop) ([]Difference, bool) {
	if a.Category != b.Category || a.Head.Top != b.Head.Top || a.Head.BoreForm != b.Head.BoreForm {
		return nil, false
	}
	return same([]pairOf{
		{catalog.HoselOD, a.Head.JointOD(), b.Head.JointOD(), shop.HoselODTolerance, true},
		{catalog.Bore, a.Head.JointBore(), b.Head.JointBore(), shop.BoreTolerance, true},
		{catalog.BoreDepth, a.Head.JointBoreDepth(), b.Head.JointBoreDepth(), shop.LengthTolerance, false},
		{catalog.CountersinkMouth, a.Head.Countersink.Mouth, b.Head.Countersink.Mouth, shop.RecessTolerance, false},
		{catalog.CounterboreOD, a.Head.Counterbore.Diameter, b.Head.Counterbore.Diameter, shop.RecessTolerance, false},
		{catalog.CounterboreDepth, a.Head.Counterbore.Depth, b.Head.Counterbore.Depth, shop.RecessTolerance, false},
	})
}
