package layout

import (
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
)

// "8 pcs" beside the sizes of a part may be how many of it there are, or how many a bag holds. It is the former where the lines above ask how many
// there are, as one does in a talk: "hosel first, then the hole and how many there are".

// asksForCount reports whether a line above the first item of a list asks how many there are of each.
func asksForCount(g *grid.Grid, lex *lexicon.Lexicon, first int) bool {
	for line := max(1, first-cardProbe); line < first; line++ {
		if text := wholeLine(g, line); len(text) <= lexicon.LongestNote && lex.Words.AsksForCount(text) {
			return true
		}
	}
	return false
}

// countPieces takes out of what is said of items how many there are of each, where one clause says so.
func countPieces(lex *lexicon.Lexicon, all []begun) {
	for i := range all {
		b := &all[i]
		at, clause, several := -1, "", false
		for k, one := range b.said {
			for _, c := range spoken.Clauses(lex, one.text) {
				if c = strings.Trim(c, sizetext.AroundNames+"."); spoken.CountsPieces(lex, c) {
					several = at >= 0
					at, clause = k, c
				}
			}
		}
		if at < 0 || several {
			continue
		}
		b.count, b.countAt = strconv.Itoa(lex.Words.CountOf(clause)), b.said[at].at
		before, after, _ := strings.Cut(b.said[at].text, clause)
		b.said[at].text = strings.TrimSpace(before + strings.TrimLeft(after, ".!,;"))
	}
}
