package layout

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
)

// Of a part a letter may say that it has the sizes of another one: "WH-56, same sizes as the WH-52, £395". It has those then that nothing else is said
// of. Where something is taken out of them that is not understood, "but a little longer", it has none of them.

// sameAs returns the part number in a text that says of a part that it has the sizes of that one, empty where it says something else.
func sameAs(lex *lexicon.Lexicon, text string) string {
	text = strings.Trim(text, sizetext.AroundNames+".!")
	if len(text) > lexicon.LongestLabel || !lexicon.BearsNumber(text) {
		return ""
	}
	written := strings.Fields(text)
	for i, word := range written {
		number := strings.Trim(word, sizetext.AroundNames+".")
		if !lexicon.IsItemNumber(number) {
			continue
		}
		if lex.Words.SaysSame(strings.Join(slices.Concat(written[:i], written[i+1:]), " ")) {
			return number
		}
	}
	return ""
}

// sameBeside reports whether the second cell of a line says that a part has the sizes of another one.
func sameBeside(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	return sameAs(lex, g.At(line, 2)) != "" && !belowHeading(g, lex, line)
}

// takeSame takes out of what is said of an item that it has the sizes of another one.
func (b *begun) takeSame(lex *lexicon.Lexicon) {
	for i := range b.said {
		for _, clause := range spoken.Clauses(lex, b.said[i].text) {
			number := sameAs(lex, clause)
			if number == "" {
				continue
			}
			if b.same != "" {
				b.same = severalSame
				continue
			}
			b.same = number
			before, after, _ := strings.Cut(b.said[i].text, clause)
			b.said[i].text = strings.TrimSpace(before + strings.TrimLeft(after, ".!,; "))
		}
	}
}

// severalSame is no part number: an item is said to have the sizes of several.
const severalSame = "?"

// copySizes gives items the sizes of those of which they are said to have them, as these are now.
func copySizes(lex *lexicon.Lexicon, begun []begun, all []card, unsaid [][]Unsaid) {
	for i := range all {
		all[i] = slices.DeleteFunc(all[i], func(e entry) bool { return e.copied })
		from := sizesFrom(begun, i)
		if from < 0 || len(unsaid[i]) > 0 || saysOtherwise(lex, begun[i]) {
			continue
		}
		for _, e := range all[from] {
			if traits.Of[e.role].Want == traits.Length && !slices.ContainsFunc(all[i], func(own entry) bool { return outside(own.role) == outside(e.role) }) {
				e.copied = true
				all[i] = append(all[i], e)
			}
		}
	}
}

// sizesFrom returns which of some items one is said to have the sizes of; -1 where none is, or several have that number.
func sizesFrom(begun []begun, at int) int {
	from := -1
	for i, b := range begun {
		switch {
		case begun[at].same == "" || b.number != begun[at].same:
		case i == at || from >= 0:
			return -1
		default:
			from = i
		}
	}
	return from
}

// saysOtherwise reports whether something is taken out of what is said of an item without a size: "but a little longer".
func saysOtherwise(lex *lexicon.Lexicon, b begun) bool {
	for _, one := range b.said {
		for _, said := range spoken.Clauses(lex, one.text) {
			if lex.Words.SaysBut(said) && len(spoken.Sizes(lex, said)) == 0 {
				return true
			}
		}
	}
	return false
}
