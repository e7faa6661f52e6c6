package rows

import (
	"fmt"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/phrase"
)

// mostNamed is how many of the parts of a run an assumption names.
const mostNamed = 6

// spreadParts gives each part of a run or list its name: one by one to the clubs of a set of as many, or all the same sizes. Where
// there are more clubs than one and not as many as parts, nobody says which is which, and the row is held.
func (r *rowReader) spreadParts(part string, clubs []clubOf) []clubOf {
	parts := lexicon.PartsOf(part)
	if len(parts) == 0 {
		return clubs
	}
	if len(clubs) != 1 && len(clubs) != len(parts) {
		r.hold(fmt.Sprintf("%s names %d parts for %d clubs", part, len(parts), len(clubs)))
		return clubs
	}
	spread := make([]clubOf, len(parts))
	for i, name := range parts {
		club := clubs[0]
		if len(clubs) == len(parts) {
			club = clubs[i]
		}
		if club.assumption != "" {
			r.assume(club.assumption)
		}
		spread[i] = clubOf{suffix: club.suffix, part: name,
			assumption: fmt.Sprintf("%q read as %s: %s", part, phrase.Count(len(parts), "part"), phrase.Some(parts, mostNamed))}
	}
	return spread
}
