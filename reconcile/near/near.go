// Package near tells how far two texts are apart, and which of many are nearest to one, to suggest what a person may have meant.
//
// The distance of two texts is the least number of steps that make one of the other. [Edits] counts characters that are added, dropped or
// changed (V. I. Levenshtein, 1966); [Slips] takes two neighbours that have changed places for one step as well (F. J. Damerau, 1964, with
// no character changed twice). Callers fold what does not count, such as spaces and capitals, before they compare.
package near

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
)

// Edits counts the characters to add, drop or change. Its time grows with the product of the lengths.
func Edits(a, b []rune) int { return distance(a, b, false) }

// Slips counts the characters to add, drop, change or exchange with their neighbour. Its time grows with the product of the lengths.
func Slips(a, b []rune) int { return distance(a, b, true) }

// distance fills the table of distances of beginnings row by row, of which it keeps three.
func distance(a, b []rune, exchange bool) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			changed := last[j]
			if a[i] != b[j] {
				changed++
			}
			row[j+1] = min(changed, last[j+1]+1, row[j]+1)
			if exchange && i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// WithinOne reports whether [Edits] is at most one. Its time grows with the length only, for where each of many is compared with each.
func WithinOne(a, b []rune) bool {
	start := 0
	for start < len(a) && start < len(b) && a[start] == b[start] {
		start++
	}
	end := 0
	for end < len(a)-start && end < len(b)-start && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	return len(a)-start-end <= 1 && len(b)-start-end <= 1
}

// Candidate is a text that may be meant, and how far it is from what was written.
type Candidate struct {
	Text     string
	Distance int
}

// First returns the nearest candidates, at most so many, the nearest first and those equally near by their text. The same candidate is
// listed once. The order of the slice is changed.
func First(all []Candidate, most int) []Candidate {
	slices.SortFunc(all, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(a.Distance, b.Distance), strings.Compare(a.Text, b.Text))
	})
	all = slices.Compact(all)
	return all[:min(most, len(all))]
}

// Plain leaves out how a part number is spaced and whether its letters are capitals.
func Plain(part string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '-' || r == '_' || r == '.' || r == '/' {
			return -1
		}
		return unicode.ToLower(r)
	}, part)
}

const mostParts = 6

// Parts returns the part numbers that are most like one, the nearest first: those that differ by few letters, or hold it.
func Parts(part string, known []string) []string {
	var likely []Candidate
	want := []rune(Plain(part))
	for _, k := range known {
		have := []rune(Plain(k))
		d := Edits(want, have)
		if len(want) > 2 && strings.Contains(string(have), string(want)) {
			d = min(d, 1)
		}
		if d <= max(2, len(want)/3) {
			likely = append(likely, Candidate{Text: k, Distance: d})
		}
	}
	var parts []string
	for _, c := range First(likely, mostParts) {
		parts = append(parts, c.Text)
	}
	return parts
}
