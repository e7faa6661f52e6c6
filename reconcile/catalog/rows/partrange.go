package rows

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"example.com/seatline/reconcile/catalog/words"
)

// partRange is a run of part numbers with both ends written out: QB-101…QB-105, T7 to T9, 1001–1004. A plain hyphen counts
// only with spaces about it, since part numbers have hyphens of their own.
var partRange = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(.*?)(\d{1,9})(?: ?(?:…|\.{2,3}|–|—|~|〜|～) ?| (?:-|` + words.Load().AnyOf("run", "to") + `) )(.*?)(\d{1,9})$`)
})

// longestRange is how many part numbers a run has at most; a longer one is no run.
const longestRange = 60

// longestText is how many bytes the text of a run has at most: the search for one costs the square of what it is given.
const longestText = 200

// partsOf returns the part numbers that a run of them names, nil where a text is none.
func partsOf(text string) []string {
	if len(text) > longestText || !strings.ContainsAny(text, " …–—~〜～") && !strings.Contains(text, "..") {
		return nil
	}
	m := partRange().FindStringSubmatch(text)
	if m == nil || m[3] != "" && m[3] != m[1] || len(m[2]) != len(m[4]) {
		return nil
	}
	first, err1 := strconv.Atoi(m[2])
	last, err2 := strconv.Atoi(m[4])
	if err1 != nil || err2 != nil || last <= first || last-first >= longestRange {
		return nil
	}
	var parts []string
	for n := first; n <= last; n++ {
		parts = append(parts, fmt.Sprintf("%s%0*d", m[1], len(m[2]), n))
	}
	return parts
}

// spreadParts gives each part of a run its name: one by one to the clubs of a set of as many, or all the same sizes. Where
// there are more clubs than one and not as many as parts, nobody says which is which, and the row is held.
func (r *rowReader) spreadParts(part string, clubs []clubOf) []clubOf {
	parts := partsOf(part)
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
			assumption: fmt.Sprintf("%q read as the %d parts %s to %s", part, len(parts), parts[0], parts[len(parts)-1])}
	}
	return spread
}
