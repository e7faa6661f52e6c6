package rows

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
)

// What a description says of sizes beside those that most of its column give is found with all words of all languages, at some 100 µs a row: lists of
// parts that are described in words alone would take minutes.

// mostDescribed is how many bytes of descriptions are searched, those that repeat the one above left out of account: of 130 bytes each, some 16,000,
// which take some 3 s.
const mostDescribed = 2 << 20

// Searched keeps account of the descriptions that are searched for sizes, of all tables that are read together.
type Searched struct {
	bytes int
	above string
}

// search counts a description as searched, and reports whether it may be.
func (s *Searched) search(text string) bool {
	if text != s.above {
		s.bytes += min(len(text), lexicon.LongestNote)
	}
	s.above = text
	return s.bytes <= mostDescribed
}

// tellUnsearched says once from which row on descriptions are not searched for sizes any more.
func (r *rowReader) tellUnsearched() {
	t := r.t
	t.unsearched = true
	t.Tell(layout.ToldKey{What: "not searched for sizes"}, finding.Warning, "data.remark", r.line, t.ByRole[catalog.Description].Col, func() string {
		return fmt.Sprintf("the descriptions are more than %d MiB together; from this row on they are not searched for sizes: read the list in several files", mostDescribed>>20)
	})
}
