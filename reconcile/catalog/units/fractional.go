package units

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
)

// fractionOfUnit returns the words by which a text counts sizes in a part of a unit; empty where it does not, and for
// thousandths of an inch, which are a unit of their own.
func fractionOfUnit(text string) string {
	if m := lexicon.UnitFraction().FindStringSubmatch(text); m != nil && m[1] != "1000" {
		return strings.TrimSpace(m[0])
	}
	return lexicon.TenthWords().FindString(text)
}

// holdFractional holds a column of sizes that its heading, or else the note that gives its unit, counts in a part of a unit.
func (t *Table) holdFractional(c *Column) {
	said := fractionOfUnit(c.Heading.Unit)
	if said == "" {
		said = fractionOfUnit(c.Text)
	}
	if said == "" && c.HeadingUnit == "" && len(c.Bare()) > 0 {
		said = fractionOfUnit(t.notes.UnitText)
	}
	if said == "" || t.Rules.Columns[t.Region.Grid.ColumnName(c.Col)].Unit != "" || c.Held != "" {
		return
	}
	c.Held = fmt.Sprintf("%s counts in a part of a unit (%s)", c.Name(), said)
	t.AddColumn(finding.Error, "data.unit", c.Col, c.Held+", which is not worked out; give the sizes in a whole unit", t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "unit"))
}
