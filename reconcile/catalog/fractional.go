package catalog

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
)

var (
	// unitFraction is a part of a unit in which sizes are counted: 1/10 mm, 1/16", 1/1000 in.
	unitFraction = pattern.Lazy(`(?i)(?:^|[^\d.,])1 ?/ ?(\d+)(?:st|nd|rd|th|e|er|tel)? ?(?:mm|millim|in\b|inch|zoll|pouce|pulg|poll|["″”]|㎜|毫米|公釐|英|吋|インチ|ミリ)`)
	// tenthWords say the same of a tenth of a millimetre.
	tenthWords = pattern.Lazy(`(?i)\btenths? of (?:a )?(?:mm|millim)|zehntel ?-?(?:mm|millim)|dixièmes? de (?:mm|millim)|décimas? de (?:mm|milím)|decimi di (?:mm|millim)|十分の一ミリ|十分之一(?:毫米|公釐)`)
	// aloneFraction is a unit line's cell with nothing else in it.
	aloneFraction = pattern.Lazy(`(?i)^1 ?/ ?\d+ ?(?:mm|in|inch|["″”])$`)
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
