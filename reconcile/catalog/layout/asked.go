package layout

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
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
			for _, c := range spokenClauses(lex, one.text) {
				if c = strings.Trim(c, sizetext.AroundNames+"."); countsPieces(lex, c) {
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

// countsPieces reports whether a clause is a number of pieces and nothing else: "8 pcs", "only two pieces". "The 8" is a club.
func countsPieces(lex *lexicon.Lexicon, clause string) bool {
	first, _ := utf8.DecodeRuneInString(clause)
	written := strings.Fields(clause)
	if len(written) == 0 || lex.Words.CountOf(clause) == 0 {
		return false
	}
	hit, pieces := lex.Words.Unit(written[len(written)-1])
	return unicode.IsDigit(first) || pieces && hit.Value == "pcs"
}
