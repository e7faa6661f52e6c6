package columns

import (
	"fmt"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// tellEnds takes the least and the greatest outer diameter of ferrules for those of their two ends, where in every row they are too far apart
// for limits of one diameter, and nothing else is the thin end: "OD max" and "OD min", 13.6 and 10.2.
func (t *Table) tellEnds() {
	if t.Kind != catalog.Ferrules || t.first(catalog.TopOD) != nil {
		return
	}
	if c := t.numberedEnd(); c != nil {
		t.takeEnds(c, c.rival)
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
	t.takeEnds(thin, wide)
}

// tellTopsFromTips takes for the thin end of ferrules what its heading may mean as well as the tip, "Shaft end", where another column is headed as
// the other end, "Hosel end", and its sizes lie between those of the bores and of that end, or where there are no bores, below that end in every row
// and few of them are names of tips.
func (t *Table) tellTopsFromTips() {
	base, bore := t.first(catalog.BaseOD), t.first(catalog.Bore)
	if t.Kind != catalog.Ferrules || base == nil || !base.headsBase() {
		return
	}
	for _, c := range t.Columns {
		either := c.Role == catalog.TopOD && c.second == catalog.TipTaken || c.Role == catalog.TipTaken && c.second == catalog.TopOD
		switch {
		case !either || c.margin >= leastMargin || t.first(c.second) != nil:
		case bore != nil && !t.betweenUpTo(bore, c, base, 1):
		case bore == nil && (c.Profile.tipShare(c.units()) >= fewTips || !t.alwaysBelow(c, base)):
		default:
			c.Role, c.margin, c.RunnerUp = catalog.TopOD, leastMargin, string(catalog.TipTaken)
			c.Evidence += fmt.Sprintf("; the other end is in column %s", t.Region.Grid.ColumnName(base.Col))
		}
	}
}

// headsBase reports whether the heading of a column of outer diameters speaks of the wide end of a ferrule, and not of any outer diameter.
func (c *Column) headsBase() bool {
	return c.headed(catalog.Ferrules, catalog.BaseOD) >= c.headed(catalog.Heads, catalog.HoselOD)+ratherBase
}

// ratherBase is by how much the heading of a wide end says rather that than the outer diameter of a hosel.
const ratherBase = 0.1

// alwaysBelow reports whether in each of several rows the size of one column lies below that of another.
func (t *Table) alwaysBelow(least, most *Column) bool {
	return t.inEachRow(least, most, func(a, b float64) bool { return a < b })
}

// inEachRow reports whether something holds of the sizes of two columns, in one unit, in each of the several rows that have both.
func (t *Table) inEachRow(one, other *Column, holds func(a, b float64) bool) bool {
	rows := 0
	for _, line := range t.Region.SampleLines() {
		a, b := t.sizeIn(one, line), t.sizeIn(other, line)
		if a.number <= 0 || b.number <= 0 {
			continue
		}
		if a.unit != b.unit || !holds(a.number, b.number) {
			return false
		}
		rows++
	}
	return rows >= leastByValues
}

// numberedEnd returns the one column whose heading is that of the base but for its number, and whose sizes are too far below for it: "OD 2"
// beside "OD 1". It is nil where there is none, and where there are several.
func (t *Table) numberedEnd() *Column {
	var found *Column
	for _, c := range t.Columns {
		switch {
		case c.rival == nil || c.rival.Role != catalog.BaseOD || c.Role != "" || t.ruled(c) || t.ruled(c.rival):
		case c.Text == c.rival.Text || withoutDigits(c.Text) != withoutDigits(c.rival.Text):
		case found != nil:
			return nil
		default:
			found = c
		}
	}
	switch {
	case found == nil:
	case t.alwaysTooWide(found, found.rival):
		return found
	case t.alwaysTooWide(found.rival, found): // the wide end is the second
		thin := found.rival
		found.Role, thin.Role, thin.rival, found.rival = catalog.BaseOD, "", found, nil
		return thin
	}
	return nil
}

// withoutDigits returns a heading without its digits, as headings are compared.
func withoutDigits(text string) string {
	return words.Fold(strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return -1
		}
		return r
	}, text))
}

// takeEnds takes one column for the thin ends of ferrules and another for the wide ones, with a word.
func (t *Table) takeEnds(thin, wide *Column) {
	for c, role := range map[*Column]catalog.Role{thin: catalog.TopOD, wide: catalog.BaseOD} {
		c.Role, c.Aspect, c.Known, c.rival = role, Nominal, true, nil
		c.margin, c.RunnerUp = leastMargin, ""
		c.ByValues = c == thin || c.Hints.Max || withoutDigits(wide.Text) == withoutDigits(thin.Text)
	}
	thin.Evidence = "heading says the lesser of the outer diameters, which are too far apart for limits of one"
	name, other := t.Region.Grid.ColumnName(thin.Col), t.Region.Grid.ColumnName(wide.Col)
	t.AddColumn(finding.Warning, "layout.role", thin.Col, fmt.Sprintf("columns %s %q and %s %q are too far apart in every row for limits of one diameter; they are taken for %s and %s",
		name, thin.Text, other, wide.Text, t.named(thin.Role), t.named(wide.Role)), t.Settle("columns", name, "role"))
}

// alwaysTooWide reports whether in each of several rows the sizes of two columns are too far apart for limits of one diameter.
func (t *Table) alwaysTooWide(least, most *Column) bool {
	return t.inEachRow(least, most, value.TooFarApart)
}
