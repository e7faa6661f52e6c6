package vet

import (
	"cmp"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/settings"
)

// Position is where a stated size lies against the shop's own.
type Position uint8

const (
	// Within is a size whose limits, or where it has none its nominal size, lie within the shop's.
	Within Position = iota + 1
	// Straddles is a size whose nominal size lies within and whose limits do not.
	Straddles
	// Below and Above are nominal sizes beyond the shop's limits.
	Below
	Above
)

// String returns the position's word.
func (p Position) String() string { return [...]string{"", "within", "straddles", "below", "above"}[p] }

// SizeCheck is one stated size of a new part against the shop's own of its category.
type SizeCheck struct {
	// Kind and Item say which part: an index into the new heads or ferrules.
	Kind catalog.Kind
	Item int
	Role catalog.Role
	// Category is the word under which the shop's size stands.
	Category string
	Own      settings.Standard
	Stated   measure.Dim
	Position Position
	// Off is how far the nominal size is beyond the nearer of the shop's limits, nothing where it is within.
	Off measure.Length
}

// checkSizes holds every new part against the sizes of its category, in the order of the shop's sizes.
func checkSizes(c *catalog.Catalogue, own settings.House) []SizeCheck {
	var checks []SizeCheck
	add := func(kind catalog.Kind, item int, category string, size func(catalog.Role) *measure.Dim) {
		for _, s := range own {
			stated := size(catalog.Role(s.Role))
			if s.Category != category || stated == nil || !stated.Given() {
				continue
			}
			check := SizeCheck{Kind: kind, Item: item, Role: catalog.Role(s.Role), Category: category, Own: s, Stated: *stated}
			check.Position, check.Off = positionOf(*stated, s.Size)
			checks = append(checks, check)
		}
	}
	for i := range c.Heads {
		if h := &c.Heads[i]; h.Category != fitcalc.AnyCategory {
			add(catalog.Heads, i, h.Category.String(), h.Size)
		}
	}
	for i := range c.Ferrules {
		add(catalog.Ferrules, i, settings.FerruleStandards, c.Ferrules[i].Size)
	}
	slices.SortStableFunc(checks, func(a, b SizeCheck) int {
		return cmp.Or(cmp.Compare(a.Own.Line, b.Own.Line), cmp.Compare(a.Item, b.Item))
	})
	return checks
}

func positionOf(stated, own measure.Dim) (Position, measure.Length) {
	n := stated.Middle()
	switch {
	case n.Less(own.Lower()):
		return Below, own.Lower().Sub(n)
	case own.Upper().Less(n):
		return Above, n.Sub(own.Upper())
	case stated.HasLimits() && (stated.Lower().Less(own.Lower()) || own.Upper().Less(stated.Upper())):
		return Straddles, measure.Length{}
	}
	return Within, measure.Length{}
}
