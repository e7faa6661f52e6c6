package layout

import (
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// A line of a card may give several labels with their values: "Bore: 9.30, Base: 13.6", "In drawer: 46. Price: £0.45". The first is cut at its colon,
// the others stand in its value.

// severalLabels divides the values of a card that have further labels in them.
func severalLabels(lex *lexicon.Lexicon, c card) card {
	var all card
	for _, e := range c {
		for e.at == e.valueAt {
			own, next, found := cutFurther(lex, e)
			if !found {
				break
			}
			all = append(all, own)
			e = next
		}
		all = append(all, sizesWithin(lex, e)...)
	}
	return all
}

// cutFurther cuts off a value the next label in it, which is known and stands behind a sign or a number, with what is its own.
func cutFurther(lex *lexicon.Lexicon, e entry) (own, next entry, found bool) {
	at := strings.IndexAny(e.value, ":：")
	if at <= 0 {
		return own, next, false
	}
	_, size := utf8.DecodeRuneInString(e.value[at:])
	behind := strings.TrimSpace(e.value[at+size:])
	written := strings.Fields(e.value[:at])
	best := lexicon.HeadingScore
	for n := 1; n <= min(mostLabel, len(written)-1); n++ {
		before, label := strings.Join(written[:len(written)-n], " "), strings.Join(written[len(written)-n:], " ")
		role, score := lex.RoleOfLabel(label)
		if score < best || behind == "" || strings.ContainsAny(label, beforeLabels) {
			continue
		}
		trimmed := strings.TrimRight(before, beforeLabels+" ")
		if trimmed == "" || trimmed == before && !lexicon.LooksNumeric(before) {
			continue
		}
		best, found = score, true
		own, next = e, e
		own.value, next.label, next.value, next.role = trimmed, label, behind, role
	}
	return own, next, found
}

// beforeLabels are the signs that stand before a further label.
const beforeLabels = ".,;|/·•–—-，；。、"
