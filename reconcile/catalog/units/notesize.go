package units

import (
	"fmt"
	"math"

	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A bare tolerance in a note is in the unit of the sizes that it is for. Where nobody could hold it in that unit, or it would be none, and it would be
// right in the other one, it was meant in that, or for other sizes: .003 beside mm is an inch's.

// One that nobody could hold, or that would be none, in whatever unit, is of no use either: two thousandths of a mm.

// Common practice: limits of sizes are no finer than leastLimit mm, and no wider than widestLimit of diameters, or widestLength of lengths; those that
// are stated outright may be half as fine, or twice as wide.
const leastLimit, widestLimit, widestLength, beyondCommon = 0.01, 0.6, 3.0, 2

// unfit says why a tolerance in a note is of no use for a column in its unit, empty where that is not so.
func (t *Table) unfit(c *Column, n *noteTolerance) string {
	unit := c.cellsUnit()
	own := t.limitIn(n, unit)
	if own == 0 || mayBeLimit(c, own, 1) {
		return ""
	}
	if other := map[string]string{"mm": "in", "in": "mm"}[unit]; other != "" {
		if there := t.limitIn(n, other); own != there && mayBeLimit(c, there, 1) {
			return fmt.Sprintf("gives no unit: in %s, the unit of %s, it would be %s, and in %s %s", traits.UnitName(unit), c.Name(), traits.SayMM(own),
				traits.UnitName(other), traits.SayMM(there))
		}
	}
	if !mayBeLimit(c, own, beyondCommon) {
		return fmt.Sprintf("gives %s limits of %s, which no such size is made to", c.Name(), traits.SayMM(own))
	}
	return ""
}

// limitIn is the greater deviation of a tolerance in mm where bare numbers are in a unit, zero where it has none.
func (t *Table) limitIn(n *noteTolerance, unit string) float64 {
	all := t.Lex.ReadTolerances(n.Clause.Said, unit)
	if n.Index >= len(all) || all[n.Index].Problem.Code != "" || all[n.Index].Class != "" {
		return 0
	}
	return max(math.Abs(traits.MM(all[n.Index].Lower)), math.Abs(traits.MM(all[n.Index].Upper)))
}

// MayDeviate reports whether sizes of a column may deviate so far, in mm.
func (c *Column) MayDeviate(size float64) bool { return size == 0 || mayBeLimit(c, size, 1) }

// mayBeLimit reports whether a size may be the limit of those of a column, with so many times the common room.
func mayBeLimit(c *Column, size, room float64) bool {
	widest := widestLength
	if c.Trait().Diameter {
		widest = widestLimit
	}
	return size*room >= leastLimit && size <= widest*room
}

// reportUnfit says of a tolerance in a note that it is not used for a column.
func (t *Table) reportUnfit(c *layout.Clause, why string) {
	line, col := t.Region.Grid.Place(c.Place)
	t.Add(finding.Warning, "data.tolerance", line, col, fmt.Sprintf("the note %q %s; it is not used", c.Text, why), t.Settle("tolerance"))
}

// reportElsewhere says that a note which stands at another table of the sheet is not used for this one.
func (t *Table) reportElsewhere(c *layout.Clause) {
	line, col := t.Region.Grid.Place(c.Place)
	t.Add(finding.Note, "data.tolerance", line, col, fmt.Sprintf("the note %q stands at another table of the sheet, and is not used for this one", c.Text), t.Settle("tolerance"))
}
