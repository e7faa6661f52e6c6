package lexicon

import (
	"slices"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/words"
)

// PerSet reports whether a heading is that of a column which says how many pieces a set has: "Stk./Satz", "pièces par jeu", "heads in set", 每套件数,
// "takım başına adet". One that speaks of prices or of a stock is another matter.
func (l *Lexicon) PerSet(heading string) bool {
	if heading == "" || len(heading) > LongestHeading {
		return false
	}
	tokens := slices.DeleteFunc(l.quoteTokens(heading), func(t token) bool { return t.sign == ',' })
	set := slices.IndexFunc(tokens, func(t token) bool { return t.is(words.QuoteSet) })
	if set < 0 || slices.ContainsFunc(tokens, func(t token) bool { return t.sign != 0 && t.sign != '/' || t.is(words.QuotePrice|words.QuoteAside) }) {
		return false
	}
	before, behind := tokens[:set], tokens[set+1:]
	if len(behind) == 0 {
		n := len(before) - 1
		return n > 0 && (before[n].sign == '/' || before[n].is(words.QuotePer|words.QuoteHolds)) && slices.ContainsFunc(before[:n], l.countsPieces)
	}
	first, _ := utf8.DecodeRuneInString(tokens[set].Text)
	per := IsWide(first) || behind[0].is(words.QuoteAfter) || set > 0 && before[set-1].is(words.QuotePer)
	return per && slices.ContainsFunc(behind, l.countsPieces)
}

// countsPieces reports whether a word is one for pieces or clubs, or for how many there are.
func (l *Lexicon) countsPieces(t token) bool {
	return t.isPiece() || t.sign == 0 && slices.ContainsFunc([]string{"count", "number", "head", "club"}, func(what string) bool { return l.Words.Means(what, t.Text) })
}
