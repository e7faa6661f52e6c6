package sizetext

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// Order is an order in which sizes are listed; a role that is empty stands for a length of which it is not known which it is.
type Order []catalog.Role

// orders are those in which sizes of parts are listed (common practice): the diameters together, the length before or behind, or the outer
// diameter and the length of ferrules whose tip is said elsewhere.
var orders = map[catalog.Kind][]Order{
	catalog.Ferrules: {
		{catalog.Bore, catalog.BaseOD, catalog.Length}, {catalog.BaseOD, catalog.Bore, catalog.Length},
		{catalog.Length, catalog.Bore, catalog.BaseOD}, {catalog.Length, catalog.BaseOD, catalog.Bore},
		{catalog.Bore, catalog.BaseOD}, {catalog.BaseOD, catalog.Bore}, {catalog.BaseOD, catalog.Length}, {catalog.Length, catalog.BaseOD},
		{catalog.BaseOD, catalog.TopOD, catalog.Bore, catalog.Length}, {catalog.Length, catalog.BaseOD, catalog.TopOD, catalog.Bore},
		{catalog.Bore, catalog.BaseOD, catalog.TopOD, catalog.Length}, {catalog.Length, catalog.Bore, catalog.BaseOD, catalog.TopOD},
		{catalog.Bore, catalog.TopOD, catalog.BaseOD, catalog.Length}, {catalog.TopOD, catalog.BaseOD, catalog.Bore, catalog.Length},
	},
	catalog.Heads: {
		{catalog.HoselOD, catalog.Bore, ""}, {catalog.Bore, catalog.HoselOD, ""}, {"", catalog.HoselOD, catalog.Bore}, {"", catalog.Bore, catalog.HoselOD},
		{catalog.HoselOD, catalog.Bore}, {catalog.Bore, catalog.HoselOD},
	},
}

// OrdersOf returns the orders in which sizes of parts of a kind are listed.
func OrdersOf(kind catalog.Kind) []Order { return orders[kind] }

// names are headings for roles in which the vocabulary finds these.
var names = map[catalog.Role]string{catalog.Bore: "bore", catalog.BaseOD: "base OD", catalog.Length: "length", catalog.HoselOD: "hosel OD", catalog.TipTaken: "fits tip",
	catalog.TopOD: "top OD", catalog.HoselLength: "hosel length"}

// NameOf returns a heading for the role of a size in which the vocabulary finds it.
func NameOf(role catalog.Role) string { return names[role] }

// leastFitting is the share of lists in percent that have to be possible in an order: single cells may be wrong, one of so many in any case.
const leastFitting, oneMayNot = 95, 5

// hasBore reports whether an order has the hole, against which the outer diameter is held; without it that has to be a common one.
func (o Order) hasBore() bool { return slices.Contains(o, catalog.Bore) }

// Fits reports whether nearly all of some lists, read in a unit where they have none, are possible for parts of a kind in an order.
func (o Order) Fits(kind catalog.Kind, lists [][]value.Reading, unit string) bool {
	fitting := 0
	for _, list := range lists {
		sizes := map[catalog.Role]float64{}
		possible := true
		for i, one := range list {
			mm := one.Number * traits.UnitMM[unit]
			if one.Kind == value.Length {
				mm = traits.MM(one.Dim.Nominal())
			}
			role := o[i]
			if role == "" {
				role = catalog.HoselLength
			}
			b, _ := traits.BoundsOf(kind, role)
			possible = possible && b.Possible(mm) && (o.hasBore() || role == catalog.Length || b.Common(mm))
			sizes[role] = mm
		}
		top, given := sizes[catalog.TopOD]
		if possible && sizes[catalog.Bore] < max(sizes[catalog.BaseOD], sizes[catalog.HoselOD]) && (!given || sizes[catalog.Bore] < top && top < sizes[catalog.BaseOD]) {
			fitting++
		}
	}
	return NearlyAll(fitting, len(lists))
}

// NearlyAll reports whether so many of some are enough that the others may be wrong.
func NearlyAll(fitting, of int) bool {
	return 100*fitting >= leastFitting*of || of >= oneMayNot && fitting == of-1
}
