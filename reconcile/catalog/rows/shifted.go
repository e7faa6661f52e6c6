package rows

import (
	"strings"

	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// A number with a decimal comma that was written without quotation marks into a file whose cells are separated by commas is two cells, and all
// behind it stand one column too far to the right: F-3,8.9,13,6,19.

// checkShifted holds a row that has a number beyond the last heading and, further left, two cells that are one such number.
func (r *rowReader) checkShifted() {
	t := r.t
	if len(t.Columns) < 3 {
		return
	}
	last := t.Columns[len(t.Columns)-1]
	if strings.TrimSpace(last.Text) != "" || last.Role != "" || last.Profile.Filled*leastShare > t.Columns[0].Profile.Filled {
		return
	}
	g := t.Region.Grid
	if !lexicon.LooksNumeric(g.At(r.line, last.Col)) {
		return
	}
	for i := 1; i+1 < len(t.Columns); i++ {
		c := t.Columns[i]
		whole, rest := g.At(r.line, c.Col), g.At(r.line, t.Columns[i+1].Col)
		if lexicon.IsDigits(whole) && rest != "" && rest[0] >= '0' && rest[0] <= '9' && c.Profile.MostlyDecimal() {
			bad := cells.Problem("data.unreadable", "the row has a cell more than the headings, and %s and %s look like one number with a decimal comma, %s,%s: all behind it stand in the wrong columns",
				g.Ref(r.line, c.Col), g.Ref(r.line, t.Columns[i+1].Col), whole, rest)
			t.Add(bad.Severity, bad.Code, r.line, c.Col, bad.Message, "")
			r.hold(bad.Message)
			return
		}
	}
}

// leastShare is how many times as many rows have no cell beyond the headings as have one, for that one to be a slip.
const leastShare = 3
