package units

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/traits"
)

// Shown returns the columns as they stand in the sheet, for the account of how it was understood.
func (t *Table) Shown(c *Column) []catalog.Column {
	g := t.Region.Grid
	evidence, unitWhy := c.Evidence, c.UnitWhy
	if unitWhy == "" && c.Trait().Want == traits.Length && c.cellsUnit() != "" {
		unitWhy = "unit in the cells"
	}
	if unitWhy != "" {
		evidence = strings.TrimPrefix(evidence+"; "+unitWhy, "; ")
	}
	own := catalog.Column{Column: g.ColumnName(c.Col), Heading: c.Text, Role: c.Role, Unit: c.shownUnit(), Evidence: evidence, RunnerUp: c.RunnerUp, Weighed: t.weigh(c)}
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

// weigh writes down what was weighed of a column: by its heading and values, and of the unit of its bare numbers.
func (t *Table) weigh(c *Column) catalog.Weighed {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	w := c.Weigh(t.Table)
	if known && len(c.Profile.Sizes) > 0 {
		w.Fitting, w.Common = 0, 0
		for _, unit := range c.unitsTaken() {
			if possible, common := c.Profile.Within(b, unit, c.Factor()); possible >= w.Fitting {
				w.Fitting, w.Common = possible, common
			}
		}
	}
	if c.Aspect != columns.Nominal && c.Known {
		w.Margin = sharedMargin
	}
	w.UnitNoted = c.Unit != "" && !c.UnitAssumed && !c.UnitRuled && c.HeadingUnit == "" && c.UnitsBeside == nil && c.FormatUnit() == ""
	if !c.UnitAssumed {
		return w
	}
	w.UnitTaken = c.UnitWhy
	for _, other := range traits.LengthUnits[:2] {
		if other != c.Unit && traits.UnitMM[c.Unit] > 0 && fits(b, c.Bare(), other, c.Factor()) > 0.5 {
			w.OtherUnit, w.OtherOver = other, traits.UnitMM[other]/traits.UnitMM[c.Unit]
		}
	}
	return w
}

// sharedMargin stands for the margin of a column whose heading gives it the role of another, of which it states limits or the same size.
const sharedMargin = 5

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
