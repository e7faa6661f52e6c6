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

// Common practice: limits of sizes are no finer than leastLimit mm, and no wider than widestLimit of diameters, or widestLength of lengths.
const leastLimit, widestLimit, widestLength = 0.01, 0.6, 3.0

// unfit says why a tolerance in a note is of no use for a column in its unit, empty where that is not so.
func (t *Table) unfit(c *Column, n *noteTolerance) string {
	unit := c.cellsUnit()
	other := map[string]string{"mm": "in", "in": "mm"}[unit]
	if other == "" {
		return ""
	}
	own, there := t.limitIn(n, unit), t.limitIn(n, other)
	if own == 0 || own == there || mayBeLimit(c, own) || !mayBeLimit(c, there) {
		return ""
	}
	return fmt.Sprintf("in %s, the unit of %s, it would be %s, and in %s %s", traits.UnitName(unit), c.Name(), traits.SayMM(own), traits.UnitName(other), traits.SayMM(there))
}

// limitIn is the greater deviation of a tolerance in mm where bare numbers are in a unit, zero where it has none.
func (t *Table) limitIn(n *noteTolerance, unit string) float64 {
	all := t.Lex.ReadTolerances(n.Clause.Said, unit)
	if n.Index >= len(all) || all[n.Index].Problem.Code != "" || all[n.Index].Class != "" {
		return 0
	}
	return max(math.Abs(traits.MM(all[n.Index].Lower)), math.Abs(traits.MM(all[n.Index].Upper)))
}

func mayBeLimit(c *Column, size float64) bool {
	widest := widestLength
	if c.Trait().Diameter {
		widest = widestLimit
	}
	return size >= leastLimit && size <= widest
}

// reportUnfit says of a tolerance in a note that it is not used for a column.
func (t *Table) reportUnfit(c *layout.Clause, why string) {
	line, col := t.Region.Grid.Place(c.Place)
	t.Add(finding.Warning, "data.tolerance", line, col, fmt.Sprintf("the note %q gives no unit: %s; it is not used", c.Text, why), t.Settle("tolerance"))
}

// reportElsewhere says that a note which stands at another table of the sheet is not used for this one.
func (t *Table) reportElsewhere(c *layout.Clause) {
	line, col := t.Region.Grid.Place(c.Place)
	t.Add(finding.Note, "data.tolerance", line, col, fmt.Sprintf("the note %q stands at another table of the sheet, and is not used for this one", c.Text), t.Settle("tolerance"))
}
