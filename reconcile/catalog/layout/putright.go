package layout

import (
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
)

// In a talk somebody may put right what was said of a part a message or two ago: "sorry, typing mistake, hole is 8.4". If the message names the
// part, it is that one, and otherwise the one that was spoken of last. Where it is not sure which part or which number is meant, the part has
// both numbers, for a person to say.

// later is a message that puts right what was said before: the words that say so, what it gives, and its text.
type later struct {
	words string
	given []entry
	text  string
	line  int
}

// putRightLater applies to items what the lines between and behind them put right, before the line end, and adds to their unsaid numbers what
// cannot be applied.
func putRightLater(g *grid.Grid, lex *lexicon.Lexicon, begun []begun, all []card, unsaid [][]Unsaid, end int) {
	next := 0
	for line := begun[0].to + 1; line < end; line++ {
		for next < len(begun) && begun[next].at.Row <= line {
			next++
		}
		if line <= begun[next-1].to || g.BlankLine(line, 1, g.Width) {
			continue
		}
		l, ok := putsRight(g, lex, line)
		if !ok {
			continue
		}
		at, sure := next-1, true
		if named, found := namedIn(begun, l.text); found {
			at = named
		} else {
			// In a letter what stands below a list may be said of all of it.
			sure = spoken.TimeOfDay(g.At(line, 1)) != "" && speakerOf(g, begun[at].at.Row) == speakerOf(g, line) && !lex.Words.PutsRightOther(l.text)
		}
		for _, e := range l.given {
			if !all[at].putRight(e, l.words, sure && !strings.ContainsAny(l.text, "?？")) {
				unsaid[at] = append(unsaid[at], Unsaid{e.value, begun[at].number, e.at})
			}
		}
	}
}

// putsRight returns what a line says that puts right what was said before; ok is false where it says no such thing.
func putsRight(g *grid.Grid, lex *lexicon.Lexicon, line int) (l later, ok bool) {
	col := spokenAt(g, line)
	l.line, l.text = line, spoken.WithoutLead(g.At(line, col))
	at := g.Ref(line, col)
	for c := col + 1; c <= g.Width; c++ {
		if text := g.At(line, c); text != "" {
			if lexicon.IsBare(text) {
				return l, false
			}
			l.text += ", " + text
		}
	}
	if !lexicon.BearsNumber(l.text) {
		return l, false
	}
	if l.words = spoken.WordsOfCorrection(lex, l.text); l.words == "" {
		return l, false
	}
	for _, e := range (card{}).speak(lex, l.text, at) {
		switch traits.Of[e.role].Want {
		case traits.Length, traits.Price, traits.Count:
			l.given = append(l.given, e)
		}
	}
	return l, len(l.given) > 0
}

// namedIn returns which of some items has the part number that a text names, the last of several that have it.
func namedIn(begun []begun, text string) (at int, found bool) {
	for i, b := range slices.Backward(begun) {
		if from := strings.Index(text, b.number); from >= 0 {
			before, _ := utf8.DecodeLastRuneInString(text[:from])
			after, _ := utf8.DecodeRuneInString(text[from+len(b.number):])
			if (from == 0 || !goesWith(before)) && (from+len(b.number) == len(text) || !goesWith(after)) {
				return i, true
			}
		}
	}
	return 0, false
}

// speakerOf is who said a line of a talk, empty where it does not say.
func speakerOf(g *grid.Grid, line int) string {
	if spokenAt(g, line) > 1 {
		return g.At(line, 2)
	}
	_, name, _ := strings.Cut(strings.TrimRight(spoken.TimeOfDay(g.At(line, 1)), ":："), ":")
	if at := strings.IndexAny(name, " "); at >= 0 {
		return strings.Trim(name[at:], " -–]")
	}
	return ""
}

// putRight replaces what an item has by what was said later, with the words for that between: "9.3, sorry, 8.4". Where it is not sure that the item is
// meant, it has both. It reports false where the item has no such size, or several.
func (c card) putRight(now entry, words string, sure bool) bool {
	at := -1
	for i, e := range c {
		if outside(e.role) != outside(now.role) {
			continue
		}
		if at >= 0 {
			return false
		}
		at = i
	}
	if at < 0 || sizetext.CountNumbers(c[at].value) != 1 {
		return false
	}
	old := sizetext.First(c[at].value)
	var others []string
	for _, number := range sizetext.Numbers(now.value, spoken.MostNumbers) {
		if number != old {
			others = append(others, number)
		}
	}
	switch {
	case len(others) == 0:
		return true // said again
	case len(others) > 1:
		return false
	case sure:
		c[at].value = old + ", " + words + ", " + others[0]
	default:
		c[at].value = old + " | " + others[0] // a stroke would make a fraction of two whole numbers
	}
	return true
}

// outside makes one of the outer diameters of hosels and of ferrules, which letters call alike.
func outside(role catalog.Role) catalog.Role {
	if role == catalog.BaseOD {
		return catalog.HoselOD
	}
	return role
}

// withoutLater leaves out the items that only put right what was said of one before: they have its number and fewer sizes than a part.
func withoutLater(lex *lexicon.Lexicon, begun []begun, all []card, unsaid [][]Unsaid) ([]begun, []card, [][]Unsaid) {
	known := map[string]bool{}
	kept := 0
	for i, b := range begun {
		if known[b.number] && all[i].sizes() < leastInItem && slices.ContainsFunc(b.said, func(one saidAt) bool { return spoken.WordsOfCorrection(lex, one.text) != "" }) {
			continue
		}
		known[b.number] = true
		begun[kept], all[kept], unsaid[kept] = b, all[i], unsaid[i]
		kept++
	}
	return begun[:kept], all[:kept], unsaid[:kept]
}

// takes reports whether all that another card says of the same part are prices and counts that this one has not.
func (c card) takes(more card) bool {
	return len(more) > 1 && !slices.ContainsFunc(more[1:], func(e entry) bool {
		want := traits.Of[e.role].Want
		return want != traits.Price && want != traits.Count || hasRole(c, e.role)
	})
}
