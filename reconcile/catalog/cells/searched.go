package cells

import (
	"fmt"

	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
)

// What a text in a row says of the part, its limits, a change, a size by name, is searched with all words of all languages: some microseconds a byte.
// Lists with a story in each of 100,000 rows would take minutes.

// mostSearched is how many bytes of such texts of a table are searched, those that repeat the line above or have no number left out of account: a
// remark of 100 bytes in each of 10,000 rows, which takes some 4 s.
const mostSearched = 1 << 20

// leastCounted is the length in bytes from which on a text of a row is counted: shorter ones are names and marks.
const leastCounted = 40

// searched keeps account of the texts of a table that are searched.
type searched struct {
	bytes int
	// end is the line from which on no more are, 0 for none.
	end int
	// above are the texts that were counted last, by their columns.
	above map[int]string
}

// Search counts the text that a line has in a column as searched; lines come in their order. Where there is more than can be searched, it says once
// from where on nothing is.
func (t *Reader) Search(line int, c *Column) {
	s := &t.searched
	text := t.Region.Grid.Filled(line, c.Col)
	if s.end > 0 || len(text) < leastCounted || s.above[c.Col] == text || !lexicon.BearsNumber(text) {
		return
	}
	if s.above == nil {
		s.above = map[int]string{}
	}
	s.above[c.Col] = text
	if s.bytes += min(len(text), lexicon.LongestNote); s.bytes <= mostSearched {
		return
	}
	s.end = line
	t.Tell(layout.ToldKey{What: "not searched"}, finding.Warning, "data.remark", line, c.Col, func() string {
		return fmt.Sprintf("the texts of the rows are more than %d MiB together; from this row on they are kept and not searched for limits, changes and sizes", mostSearched>>20)
	})
}

// Searched reports whether the texts of a line are searched for what they say of its part.
func (t *Reader) Searched(line int) bool { return t.searched.end == 0 || line < t.searched.end }
