package rows

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// reportErrorValues says where a spreadsheet program left an error in a column that is not read: what the row's other cells were worked out from may be
// damaged too.
func (t *Table) reportErrorValues() {
	g := t.Region.Grid
	for _, c := range t.Columns {
		if c.Role != "" && t.ByRole[c.Role] == c {
			continue // its cells have said so
		}
		for i, kind := range t.Lines {
			if kind != columns.LineData {
				continue
			}
			line := t.Region.From + i
			id := g.Id(line, c.Col)
			if text := g.Text(id); g.CellOf(id).Kind == sheet.Error || strings.HasPrefix(text, "#") && value.IsErrorValue(text) {
				t.TellEach(layout.ToldKey{What: "error value", Col: c.Col}, finding.Warning, "data.damaged", line, c.Col, func() string {
					return fmt.Sprintf("column %s %q, which is not used, holds the error %s", g.ColumnName(c.Col), c.Text, g.CellOf(id).Shown)
				})
			}
		}
	}
}
