package columns

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// TakenByValues says that nothing but its values gives a column its role.
func (t *Table) TakenByValues(col int, role catalog.Role) string {
	return fmt.Sprintf("column %s taken as %s by its values", t.Region.Grid.ColumnName(col), t.named(role))
}

// boreByValues finds the bores under a word that nobody knows. They are sought only where everything else is understood, since a column of
// lofts, prices or thin ends looks like one of bores.
func (t *Table) boreByValues() {
	if t.first(catalog.Bore) != nil || t.first(catalog.TipTaken) != nil {
		return
	}
	for _, c := range t.Columns {
		if c.Role != "" || c.irrelevant != "" || c.Deviation != 0 || c.reported || c.follower() || t.ruledOut(c) || c.Text == "" {
			continue
		}
		c.Role = catalog.Bore
		if t.standsForKey(c) {
			c.Evidence, c.margin = c.explain(t.Kind), leastMargin
			return
		}
		c.Role = ""
	}
}

// standsForKey reports whether a column under a word that nobody knows can be nothing but one of the two diameters that a part has to have:
// all its sizes are such as these commonly have, with decimals, in one unit; no other column could be it; and the other diameter, within it
// or around it, has its own column, as in no list of prices.
func (t *Table) standsForKey(c *Column) bool {
	other, needed := t.keyBeside(c.Role)
	if !needed || t.KindAssumed != "" || len(c.Matches[t.Kind]) > 0 {
		return false
	}
	b, _ := traits.BoundsOf(t.Kind, c.Role)
	if other == nil || !other.Known || !c.Profile.fitsOnly(b, c.units()) || c.Role == catalog.Bore && t.mayBeOther(c) {
		return false
	}
	return !slices.ContainsFunc(t.Columns, func(other *Column) bool {
		if other == c || other.Role != "" && other.Known || other.irrelevant != "" || other.Profile.counts() || len(other.Profile.Sizes) == 0 {
			return false
		}
		possible, _ := other.Profile.best(b, other.units(), 1)
		return possible > 0
	})
}

// keyBeside returns the column of the diameter that stands beside another one at the joint: of a bore the outer one, of that the bore. None
// is needed where the role is neither.
func (t *Table) keyBeside(role catalog.Role) (beside *Column, needed bool) {
	switch role {
	case catalog.HoselOD, catalog.BaseOD:
		return t.first(catalog.Bore), true
	case catalog.Bore:
		if t.Kind == catalog.Heads {
			return t.first(catalog.HoselOD), true
		}
		return t.first(catalog.BaseOD), true
	}
	return nil, false
}

// mayBeOther reports whether the values of a column that could be bores may be prices, of which the table has none elsewhere, or lofts, which
// go by halves, or the thin ends of ferrules.
func (t *Table) mayBeOther(c *Column) bool {
	stated := c.HeadingUnit != "" || len(c.Profile.StatedUnits)+len(c.Profile.formatUnits) > 0
	if t.first(catalog.Price) == nil && !stated && c.Profile.significant < finerThanPrices {
		return true
	}
	if t.Kind == catalog.Heads {
		return !stated && c.Profile.significant < finerThanLofts
	}
	return t.first(catalog.TopOD) == nil
}

// finerThanPrices and finerThanLofts are how many decimals sizes have that are no prices and no lofts.
const finerThanPrices, finerThanLofts = 3, 2
