package catalog

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/finding"
)

// fractionOfUnit returns the words by which a text counts sizes in a part of a unit; empty where it does not, and for
// thousandths of an inch, which are a unit of their own.
func fractionOfUnit(text string) string {
	if m := unitFraction().FindStringSubmatch(text); m != nil && m[1] != "1000" {
		return strings.TrimSpace(m[0])
	}
	return tenthWords().FindString(text)
}

// holdFractional holds a column of sizes that its heading, or else the note that gives its unit, counts in a part of a unit.
func (t *unitTable) holdFractional(c *unitColumn) {
	said := fractionOfUnit(c.heading.unit)
	if said == "" {
		said = fractionOfUnit(c.text)
	}
	if said == "" && c.headingUnit == "" && len(c.bare()) > 0 {
		said = fractionOfUnit(t.notes.unitText)
	}
	if said == "" || t.rules.Columns[t.region.grid.columnName(c.col)].Unit != "" || c.held != "" {
		return
	}
	c.held = fmt.Sprintf("%s counts in a part of a unit (%s)", c.name(), said)
	t.addColumn(finding.Error, "data.unit", c.col, c.held+", which is not worked out; give the sizes in a whole unit", t.settle("columns", t.region.grid.columnName(c.col), "unit"))
}
