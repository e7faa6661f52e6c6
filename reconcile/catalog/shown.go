package catalog

import (
	"cmp"
	"fmt"
	"strings"
)

// shown returns the columns as they stand in the sheet, for the account of how it was understood.
func (c *unitColumn) shown(g *grid) []Column {
	evidence, unitWhy := c.evidence, c.unitWhy
	if unitWhy == "" && c.trait().want == wantLength && c.cellsUnit() != "" {
		unitWhy = "unit in the cells"
	}
	if unitWhy != "" {
		evidence = strings.TrimPrefix(evidence+"; "+unitWhy, "; ")
	}
	own := Column{Column: g.columnName(c.col), Heading: c.text, Role: c.role, Unit: c.shownUnit(), Evidence: evidence, RunnerUp: c.runnerUp}
	if len(c.clubs) == 0 {
		return []Column{own}
	}
	var all []Column
	for _, one := range c.clubs {
		own.Column, own.Heading = g.columnName(one.heading.col), one.heading.text
		own.Evidence = fmt.Sprintf("%s; for club %s", evidence, one.club)
		all = append(all, own)
	}
	return all
}

// shownUnit is the unit of a column for people: that of its sizes, what its heading names, or what all its cells name.
func (c *unitColumn) shownUnit() string {
	switch want := c.trait().want; {
	case want == wantLength || want == wantTolerance:
		return cmp.Or(c.unit, c.headingUnit, c.cellsUnit())
	case want == wantCode, c.role != "" && isLengthUnit(c.headingUnit):
		return ""
	}
	return c.headingUnit
}
