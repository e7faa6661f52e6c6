package columns

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// tellEnds takes the least and the greatest outer diameter of ferrules for those of their two ends, where in every row they are too far apart
// for limits of one diameter, and nothing else is the thin end: "OD max" and "OD min", 13.6 and 10.2.
func (t *Table) tellEnds() {
	if t.Kind != catalog.Ferrules || t.first(catalog.TopOD) != nil {
		return
	}
	var thin, wide *Column
	for _, c := range t.Columns {
		switch {
		case c.Role != catalog.BaseOD || t.ruled(c):
		case c.Hints.Min && !c.Hints.Max && thin == nil:
			thin = c
		case (c.Hints.Max || c.Aspect == Nominal) && !c.Hints.Min && wide == nil:
			wide = c
		default:
			return // three of one end
		}
	}
	if thin == nil || wide == nil || !t.alwaysTooWide(thin, wide) {
		return
	}
	thin.Role, thin.Aspect, thin.Known, thin.ByValues = catalog.TopOD, Nominal, true, true
	thin.margin, thin.RunnerUp = leastMargin, ""
	thin.Evidence = "heading says the least of the outer diameters, which are too far apart for limits of one"
	wide.Aspect, wide.Known, wide.ByValues = Nominal, true, wide.Hints.Max
	name, other := t.Region.Grid.ColumnName(thin.Col), t.Region.Grid.ColumnName(wide.Col)
	t.AddColumn(finding.Warning, "layout.role", thin.Col, fmt.Sprintf("columns %s %q and %s %q are too far apart in every row for limits of one diameter; they are taken for %s and %s",
		name, thin.Text, other, wide.Text, t.named(thin.Role), t.named(wide.Role)), t.Settle("columns", name, "role"))
}

// alwaysTooWide reports whether in each of several rows the sizes of two columns are too far apart for limits of one diameter.
func (t *Table) alwaysTooWide(least, most *Column) bool {
	rows := 0
	for _, line := range t.Region.SampleLines() {
		a, b := t.sizeIn(least, line), t.sizeIn(most, line)
		if a.number <= 0 || b.number <= 0 {
			continue
		}
		if a.unit != b.unit || !value.TooFarApart(a.number, b.number) {
			return false
		}
		rows++
	}
	return rows >= leastByValues
}
