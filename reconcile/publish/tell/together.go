package tell

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// mostRuns is how many runs of parts are named; of further ones only how many parts there are.
const mostRuns = 3

// Together names parts that are shown as one, in their order: OW-M1-4 … PW for part numbers that begin alike, and the others after
// commas.
func Together(parts []string) string {
	var runs []string
	for i := 0; i < len(parts); {
		end := runFrom(parts[i:]) + i
		if len(runs) == mostRuns {
			return strings.Join(runs, ", ") + fmt.Sprintf(" and %d more", len(parts)-i)
		}
		runs = append(runs, runName(parts[i:end]))
		i = end
	}
	return strings.Join(runs, ", ")
}

// AreOneSet reports whether part numbers are those of one set, by all but their ends: OW-M1-4 and OW-M1-PW.
func AreOneSet(a, b string) bool {
	stem := stemOf(a)
	return stem != "" && stem == stemOf(b)
}

// runFrom is how many parts from the first on begin alike.
func runFrom(parts []string) int {
	stem := stemOf(parts[0])
	if stem == "" {
		return 1
	}
	n := 1
	for n < len(parts) && stemOf(parts[n]) == stem {
		n++
	}
	return n
}

// runName names parts that begin alike by the first and what the last ends in.
func runName(parts []string) string {
	first, last := parts[0], parts[len(parts)-1]
	stem := stemOf(first)
	switch len(parts) {
	case 1:
		return first
	case 2:
		return first + ", " + last[len(stem):]
	}
	return first + " … " + last[len(stem):]
}

// stemOf is a part number up to its last separator, with it; empty where it has none or what follows is long.
func stemOf(part string) string {
	const longest = 4 // the end of a set's part numbers is a club: 4, PW, 56°
	at := strings.LastIndexAny(part, "-/ ._")
	if at < 1 || utf8.RuneCountInString(part[at+1:]) > longest {
		return ""
	}
	return part[:at+1]
}
