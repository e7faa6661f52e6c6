package layout

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
)

// A letter may speak of heads first and then of ferrules: "Heads: …" and below "And now the ferrules: …". These are two tables, since the same words
// mean other sizes in each, and so the items are divided where a line between them names the other kind. Without such a line they are where what is
// said of them is of the one kind before and of the other behind, and their numbers are of other forms.

// itemRun are items of a letter that follow each other and are of one kind, and the line with which what is said of them begins.
type itemRun struct {
	from, to int // the items, the last one excluded
	line     int
}

// runsOfKinds divides the items of a letter where it comes to another kind of parts; there is one run where it lists one kind.
func runsOfKinds(g *grid.Grid, lex *lexicon.Lexicon, begun []begun, all []card) []itemRun {
	if runs := runsTitled(g, lex, begun, all); len(runs) > 1 {
		return runs
	}
	return runsSpoken(begun, all)
}

// runsTitled divides items at the lines between them that name another kind of parts than those before.
func runsTitled(g *grid.Grid, lex *lexicon.Lexicon, begun []begun, all []card) []itemRun {
	first := begun[0].at.Row
	title := kindTitleIn(g, lex, max(1, first-cardProbe), first)
	kind, line := title.kind, first
	if title.line > 0 && unbroken(g, title.line, first) {
		line = title.line
	}
	runs := []itemRun{{0, len(begun), line}}
	for i := 1; i < len(begun); i++ {
		next := kindTitleIn(g, lex, begun[i-1].to+1, begun[i].at.Row)
		last := &runs[len(runs)-1]
		before, behind := kindSpoken(all[last.from:i]), kindSpoken(all[i:i+1])
		if next.kind == catalog.UnknownKind || next.kind == cmp.Or(kind, before) || before == next.kind || behind != catalog.UnknownKind && behind != next.kind {
			continue
		}
		if surely := next.alone && (kind != catalog.UnknownKind || before != catalog.UnknownKind); !surely && (before == catalog.UnknownKind || behind == catalog.UnknownKind) {
			continue // it speaks of that kind, and no more is known
		}
		kind, last.to = next.kind, i
		runs = append(runs, itemRun{i, len(begun), next.line})
	}
	return runs
}

// kindTitle is a line that names a kind of parts; alone is set where it does so as a title, and not in a sentence.
type kindTitle struct {
	kind  catalog.Kind
	line  int
	alone bool
}

// unbroken reports whether no blank line stands between two lines.
func unbroken(g *grid.Grid, from, to int) bool {
	for line := from + 1; line < to; line++ {
		if g.BlankLine(line, 1, g.Width) {
			return false
		}
	}
	return true
}

// kindTitleIn returns the last of some lines that names a kind of parts and no size.
func kindTitleIn(g *grid.Grid, lex *lexicon.Lexicon, from, to int) kindTitle {
	for line := to - 1; line >= from; line-- {
		text := wholeLine(g, line)
		if text == "" || len(text) > lexicon.LongestNote || spoken.BearsSize(lex, text) {
			continue
		}
		if hit, found := lex.Ask("kind", text, lex.Words.Kind); found && hit.Score >= lexicon.HeadingScore {
			last, _ := utf8.DecodeLastRuneInString(text)
			alone := strings.ContainsRune(":：", last) || !spoken.Ends(text) && len(strings.Fields(text)) <= mostTitleWords
			return kindTitle{kindNamed(hit.Value), line, alone}
		}
	}
	return kindTitle{}
}

// kindInWords is the kind of parts that a word of a sentence names: ferrules where one does, "a ferrule for irons", and otherwise heads, by themselves or
// by the kind of club.
func kindInWords(lex *lexicon.Lexicon, text string) catalog.Kind {
	kind := catalog.UnknownKind
	for word := range strings.FieldsSeq(text) {
		word = strings.Trim(word, sizetext.AroundNames+".!?")
		if word == "" || lexicon.BearsNumber(word) || lex.Words.Means("hosel", word) { // heads have one, and so has a jig
			continue
		}
		switch own := kindNamedBy(lex, word); own {
		case catalog.Ferrules:
			return own
		case catalog.Heads:
			kind = own
		}
	}
	if kind == catalog.UnknownKind && strings.ContainsFunc(text, lexicon.IsWide) {
		if hit, found := lex.Ask("kind", text, lex.Words.Kind); found {
			return kindNamed(hit.Value)
		}
	}
	return kind
}

// mostTitleWords is how many words a title without a colon has at most.
const mostTitleWords = 5

// runsSpoken divides items where what is said of all before is of one kind and of all behind of the other, and no number is of the form of one on the
// other side.
func runsSpoken(begun []begun, all []card) []itemRun {
	one := []itemRun{{0, len(all), begun[0].at.Row}}
	at := slices.IndexFunc(all, func(c card) bool {
		own, first := kindSpoken([]card{c}), kindSpoken(all[:1])
		return own != catalog.UnknownKind && first != catalog.UnknownKind && own != first
	})
	if at < leastPlain || len(all)-at < leastPlain {
		return one
	}
	shapes := map[string]bool{}
	for i := range all {
		if own := kindSpoken(all[i : i+1]); i >= at && own == kindSpoken(all[:1]) {
			return one
		}
		shape, ok := spoken.ShapeOf(begun[i].number)
		if !ok || i >= at && shapes[shape] {
			return one
		}
		if i < at {
			shapes[shape] = true
		}
	}
	return []itemRun{{0, at, begun[0].at.Row}, {at, len(all), begun[at].at.Row}}
}

// kindSpoken is the kind of parts that items are by the sizes that only heads have, or only ferrules; unknown where they have neither or both.
// Words for outer diameters are the same for both.
func kindSpoken(all []card) catalog.Kind {
	heads, ferrules := 0, 0
	for _, c := range all {
		for _, e := range c {
			switch e.role {
			case catalog.BoreDepth, catalog.HoselLength:
				heads++
			case catalog.TopOD, catalog.Length:
				ferrules++
			}
		}
	}
	switch {
	case heads > 0 && ferrules == 0:
		return catalog.Heads
	case ferrules > 0 && heads == 0:
		return catalog.Ferrules
	}
	return catalog.UnknownKind
}
