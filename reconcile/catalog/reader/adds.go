package reader

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
)

const (
	// leastShared is how many numbers two tables share for one to add to the other, and leastSharedOf how many times as many the one
	// with fewer may have.
	leastShared   = 2
	leastSharedOf = 4
)

// findAdditions finds the tables that add to the parts of others: their numbers are those of parts that another table has in full.
func (r *reader) findAdditions(sheets []*sheetReader) {
	type candidate struct {
		table *columns.Table
		kinds []catalog.Kind
	}
	var candidates []candidate
	var full []*columns.Table
	for _, s := range sheets {
		for _, t := range s.tables {
			if kinds := t.MayAdd(); len(kinds) > 0 {
				candidates = append(candidates, candidate{t, kinds})
			} else if t.Kind != catalog.UnknownKind {
				full = append(full, t)
			}
		}
	}
	if len(candidates) == 0 || len(full) == 0 {
		return
	}
	var known [4]map[string]bool // by kind
	for _, t := range full {
		if known[t.Kind] == nil {
			known[t.Kind] = map[string]bool{}
		}
		t.Numbers(t.Kind, func(folded string) { known[t.Kind][folded] = true })
	}
	for _, c := range candidates {
		best, most, of := catalog.UnknownKind, 0, 0
		for _, kind := range c.kinds {
			if known[kind] == nil {
				continue
			}
			shared, all := map[string]bool{}, 0
			c.table.Numbers(kind, func(folded string) {
				all++
				if known[kind][folded] {
					shared[folded] = true
				}
			})
			if len(shared) > most {
				best, most, of = kind, len(shared), all
			}
		}
		// A list of prices may have many other goods, and one of sizes more than is on offer.
		if most < leastShared || most*leastSharedOf < of && most*leastSharedOf < len(known[best]) {
			continue
		}
		c.table.AddTo(best)
		t := c.table
		t.Add(finding.Note, "layout.adds", 0, 0, fmt.Sprintf("the table adds to %s of other sheets, by their numbers: %s of %d are theirs", best, phrase.Count(most, "number"), of), t.Settle("kind"))
	}
}

// leastSame is how many of the numbers on a hidden sheet in percent are also on one that can be seen, for it to yield to that.
const leastSame = 60

// mostCopies is how many sheets that can be seen are remembered for each number.
const mostCopies = 4

// yieldHidden sets hidden sheets of a book aside that list the parts of one that can be seen: an old copy, as a rule.
func (r *reader) yieldHidden(book []*sheetReader) {
	if !slices.ContainsFunc(book, func(s *sheetReader) bool { return s.sheet.Hidden }) {
		return
	}
	var seen [4]map[string][]*sheetReader // by kind and number
	for _, s := range book {
		for _, t := range s.tables {
			if s.sheet.Hidden || t.Kind == catalog.UnknownKind {
				continue
			}
			if seen[t.Kind] == nil {
				seen[t.Kind] = map[string][]*sheetReader{}
			}
			t.Numbers(t.Kind, func(folded string) {
				if on := seen[t.Kind][folded]; len(on) < mostCopies && !slices.Contains(on, s) {
					seen[t.Kind][folded] = append(on, s)
				}
			})
		}
	}
	for _, s := range book {
		for _, t := range s.tables {
			if s.sheet.Hidden && t.Kind != catalog.UnknownKind && t.Rules.Kind == "" {
				yield(t, seen[t.Kind])
			}
		}
	}
}

// yield sets a table of a hidden sheet aside where most of its numbers stand on one sheet that can be seen.
func yield(t *columns.Table, seen map[string][]*sheetReader) {
	own, shared := map[string]bool{}, map[*sheetReader]int{}
	var first *sheetReader
	t.Numbers(t.Kind, func(folded string) {
		if own[folded] {
			return
		}
		own[folded] = true
		for _, s := range seen[folded] {
			if shared[s]++; first == nil || shared[s] > shared[first] {
				first = s
			}
		}
	})
	if first != nil && shared[first] >= leastShared && 100*shared[first] >= leastSame*len(own) {
		t.Yield(fmt.Sprintf("the sheet is hidden and lists the parts of sheet %q, which can be seen; what it says is not used", first.sheet.Name))
	}
}
