package lexicon

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/words"
)

// A count of pieces may be said with other words than those for pieces: "2 bags", "3 trays", "wk 12". Only where all words beside the number are
// known is it one of pieces.

// AroundCount returns the words right before the first number of a text and right behind it, up to the next sign: other remarks in brackets than
// "(boxes)" say nothing of what is counted.
func (l *Lexicon) AroundCount(text string) (before, behind string) {
	first := strings.IndexFunc(text, unicode.IsDigit)
	if first < 0 {
		return "", ""
	}
	before = text[:first]
	if at := strings.LastIndexAny(before, ",;:(（~+-–—、，："); at >= 0 {
		before = before[at:]
	}
	behind = strings.TrimLeftFunc(text[first:], func(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune(".,'’ ½¼¾", r) })
	if at := strings.IndexAny(behind, ",;:(（/!?+-–—=、，：！？"); at > 0 || at == 0 && !l.Words.CountsPacks(behind) {
		behind = behind[:at]
	}
	isAround := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) }
	return strings.TrimFunc(before, isAround), strings.TrimFunc(behind, isAround)
}

// CountsPlainly reports whether words beside a count leave it one of pieces: there are none, or they are words for pieces, for parts, for a stock, or
// such as say no more: "pcs", "ferrules left", "only".
func (l *Lexicon) CountsPlainly(beside string) bool {
	if beside == "" {
		return true
	}
	plain, _ := l.Ask("counts plainly", beside, func(text string) (words.Hit, bool) {
		if l.Words.CountsPieces(text) || l.Words.Times(text) > 0 || l.countsElse(text) {
			return words.Hit{Value: "plainly"}, true
		}
		return words.Hit{}, false
	})
	return plain.Value != ""
}

// countsElse reports whether words beside a count are about the stock: "low", "on order", "abt".
func (l *Lexicon) countsElse(text string) bool {
	if _, of := l.Words.SaysBesideStock(text); of {
		return true
	}
	h, length := l.Words.LeadingMark(text, "approximate", "at_least", "at_most")
	return h.Value != "" && l.CountsPlainly(strings.TrimSpace(text[length:]))
}

// InDozens reports whether a heading says that a column counts dozens: "Stock (doz)", 库存(打).
func (l *Lexicon) InDozens(heading string) bool {
	return slices.ContainsFunc(l.Words.Pieces(heading), func(p words.Pieces) bool { return p.Count == Dozen })
}

// Dozen is how many pieces a dozen has.
const Dozen = 12

// NoneLeft reports whether a text begins by saying of a stock that nothing is left of it, whatever it says of when there will be: "sold out, back in
// week 12".
func (l *Lexicon) NoneLeft(text string) bool {
	if end := strings.IndexAny(text, ",;(（.–—、，"); end > 0 {
		text = text[:end]
	}
	text, _, _ = strings.Cut(text, " - ")
	if strings.ContainsFunc(text, unicode.IsDigit) || !strings.ContainsFunc(text, unicode.IsLetter) {
		return false
	}
	_, none := l.Ask("none left", strings.TrimSpace(text), l.Words.SaysNoneLeft)
	return none
}
