package units

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/traits"
)

// Shown returns the columns as they stand in the sheet, for the account of how it was understood.
func (c *Column) Shown(g *grid.Grid) []catalog.Column {
	evidence, unitWhy := c.Evidence, c.UnitWhy
	if unitWhy == "" && c.Trait().Want == traits.Length && c.cellsUnit() != "" {
		unitWhy = "unit in the cells"
	}
	if unitWhy != "" {
		evidence = strings.TrimPrefix(evidence+"; "+unitWhy, "; ")
	}
	own := catalog.Column{Column: g.ColumnName(c.Col), Heading: c.Text, Role: c.Role, Unit: c.shownUnit(), Evidence: evidence, RunnerUp: c.RunnerUp}
	if len(c.Clubs) == 0 {
		return []catalog.Column{own}
	}
	var all []catalog.Column
	for _, one := range c.Clubs {
		own.Column, own.Heading = g.ColumnName(one.Heading.Col), one.Heading.Text
		own.Evidence = fmt.Sprintf("%s; for club %s", evidence, one.Club)
		all = append(all, own)
	}
	return all
}

// shownUnit is the unit of a column for people: that of its sizes, what its heading names, or what all its cells name.
func (c *Column) shownUnit() string {
	switch want := c.Trait().Want; {
	case want == traits.Length || want == traits.Tolerance:
		return cmp.Or(c.Unit, c.HeadingUnit, c.cellsUnit())
	case want == traits.Code, c.Role != "" && traits.IsLengthUnit(c.HeadingUnit):
		return ""
	}
	return c.HeadingUnit
}
