package rows

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
)

// remark is a column in which a line may say that its part is discontinued; asked is set where the heading asks whether it is.
type remark struct {
	*cells.Column
	asked bool
}

// findRemarks finds the columns in which lines may say that their parts are discontinued: those of notes, of stocks and of names, and those
// of which nothing is read.
func (t *Table) findRemarks() {
	for _, c := range t.Columns {
		switch c.Role {
		case "", catalog.Note, catalog.Stock, catalog.Description, catalog.Category:
			own := c.Role == "" || c.Role == catalog.Note
			t.remarks = append(t.remarks, remark{c, own && t.Lex.SaysDiscontinued(c.Text)})
		}
	}
}

// tellDiscontinued says where a line speaks of a part that is discontinued. It is read like any other: clubs with such parts still come in.
func (t *Table) tellDiscontinued(line int) {
	g := t.Region.Grid
	for _, c := range t.remarks {
		at, col := g.Source(line, c.Col)
		id := g.Id(at, col)
		text := g.Text(id)
		if text == "" || !t.saysDiscontinued(line, id) && (!c.asked || lexicon.LooksNumeric(text) || t.Lex.SaysNo(text)) {
			continue
		}
		t.TellEach(layout.ToldKey{What: "discontinued"}, finding.Note, "data.discontinued", line, c.Col, func() string {
			return fmt.Sprintf("%s says %q, which speaks of what is discontinued; the part is read like any other", c.Name(), phrase.Brief(text))
		})
		return
	}
}
