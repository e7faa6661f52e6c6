package units

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// A column of units belongs to the columns that it fits. It is for the sizes to its left where there are several such pairs, and
// otherwise for each column of which its units make nearly all bare sizes possible. Another column is in the one unit that its sizes
// can be in.

// coverUnits finds for each column of sizes the column that names the units of its bare numbers, if one does.
func (t *Table) coverUnits() {
	pairs := map[*Column]*Column{}
	var all []*Column
	for i, c := range t.Columns {
		if c.Role != catalog.UnitRole || !t.namesLengths(c) {
			continue
		}
		if c.Text == "" && 2*c.Profile.Filled < len(t.Region.SampleLines()) {
			// A unit here and there without a heading is what was cut off the size to its left, and for no other.
			if i > 0 && t.mayBeCovered(t.Columns[i-1]) {
				t.Columns[i-1].UnitsBeside = c
			}
			continue
		}
		all = append(all, c)
		if i > 0 && t.mayBeCovered(t.Columns[i-1]) {
			pairs[t.Columns[i-1]] = c
		}
	}
	for _, c := range t.Columns {
		switch {
		case len(all) == 0 || !t.mayBeCovered(c):
		case pairs[c] != nil && len(pairs) >= leastPairs:
			c.UnitsBeside = pairs[c]
		default:
			t.coverByFit(c, all[0])
		}
	}
}

// namesLengths reports whether a column of units has one of lengths: those of pieces say nothing of sizes.
func (t *Table) namesLengths(c *Column) bool {
	return slices.ContainsFunc(c.Profile.Texts, func(text string) bool {
		hit, _ := t.Lex.Words.Unit(text)
		return traits.IsLengthUnit(hit.Value) || len(t.Lex.LengthUnitsIn(text)) > 0
	})
}

// mayBeCovered reports whether a column of units may be for a column: it gives sizes of which neither its heading nor a person says the
// unit.
func (t *Table) mayBeCovered(c *Column) bool {
	return c.Trait().Want == traits.Length && !traits.IsLengthUnit(c.HeadingUnit) && !traits.IsLengthUnit(t.ruleOf(c).Unit)
}

// ruleOf is what a person has decided about a column.
func (t *Table) ruleOf(c *Column) catalog.ColumnRule {
	return t.Rules.Columns[t.Region.Grid.ColumnName(c.Col)]
}

// coverByFit gives a column the units beside it, unless its sizes are possible in one other unit only.
func (t *Table) coverByFit(c, units *Column) {
	c.UnitsBeside = units
	b, known := traits.BoundsOf(t.Kind, c.Role)
	beside := slices.DeleteFunc(t.bareBeside(c, units), func(s bareSize) bool { // what is possible in no unit says nothing of them
		return !slices.ContainsFunc(likelyUnits, func(unit string) bool { return b.Possible(s.number * traits.UnitMM[unit] * c.Factor()) })
	})
	if !known || len(beside) < leastSizes || c.Role == catalog.TipTaken {
		return
	}
	fitting := 0
	numbers := make([]float64, len(beside))
	for i, s := range beside {
		numbers[i] = s.number
		if b.Possible(s.number * traits.UnitMM[s.unit] * c.Factor()) {
			fitting++
		}
	}
	if float64(fitting) >= leastCovered*float64(len(beside)) {
		return
	}
	unit := ""
	for _, one := range likelyUnits {
		if fits(b, numbers, one, c.Factor()) < leastCovered {
			continue
		}
		if unit != "" {
			return // several: nobody can know
		}
		unit = one
	}
	if unit == "" {
		return
	}
	c.UnitsBeside = nil
	c.assumeUnit(unit, fmt.Sprintf("the units in column %s fit only %d of its %d sizes, and %s nearly all", t.Region.Grid.ColumnName(units.Col), fitting, len(beside),
		traits.UnitName(unit)))
}

// likelyUnits are the units that a column of sizes may be in although the units beside it are others.
var likelyUnits = traits.LengthUnits[:3]

// bareSize is a number without a unit of its own, with the unit that stands beside it.
type bareSize struct {
	number float64
	unit   string
}

// bareBeside returns the bare sizes of a column beside which a unit of length stands.
func (t *Table) bareBeside(c, units *Column) []bareSize {
	var all []bareSize
	g := t.Region.Grid
	for _, line := range t.Region.SampleLines() {
		hit, found := t.Lex.Ask("unit", g.Filled(line, units.Col), t.Lex.Words.Unit)
		text := g.At(line, c.Col)
		if !found || !traits.IsLengthUnit(hit.Value) || text == "" {
			continue
		}
		if reading := t.Lex.Read(text, value.Context{Want: value.WantDiameter, Mark: c.Mark}); reading.Kind == value.Number {
			all = append(all, bareSize{reading.Number, hit.Value})
		}
	}
	return all
}

// reportRuled says where what a person says of a column's unit is not what the sheet says, which it goes before.
func (t *Table) reportRuled(c *Column) {
	key := t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "unit")
	if traits.IsLengthUnit(c.HeadingUnit) && c.HeadingUnit != c.Unit {
		t.AddColumnBy(c.Unit+" by a person for "+c.HeadingUnit, finding.Warning, "data.unit", c.Col, fmt.Sprintf("the heading of %s says %s, and the mapping file %s, which is used", c.Name(), traits.UnitName(c.HeadingUnit),
			traits.UnitName(c.Unit)), key)
	}
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if numbers := c.Bare(); known && len(numbers) > 0 && fits(b, numbers, c.Unit, c.Factor())*3 <= 1 {
		t.AddColumn(finding.Warning, "data.unit", c.Col, fmt.Sprintf("the mapping file says that %s is in %s, in which few of its sizes are possible; it is used as it says", c.Name(),
			traits.UnitName(c.Unit)), key)
	}
}

// SizesBeside returns the bare sizes of a column beside which a unit stands, in mm.
func (t *Table) SizesBeside(c *Column) []float64 {
	var sizes []float64
	for _, s := range t.bareBeside(c, c.UnitsBeside) {
		sizes = append(sizes, s.number*traits.UnitMM[s.unit])
	}
	return sizes
}
