package layout

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// Text that was copied out of a document may have single blanks between its columns: "FC-304 Iron 4 13.40 9.50 32". Such a line is read from
// its end, where the figures stand, if its heading divides into as many names of figures in one way that is surer than others. A line with another count of
// figures gives none: which one is missing nobody knows.

const (
	// leastSpaced is how many such lines make a list, and leastFigures how many figures each has.
	leastSpaced  = 3
	leastFigures = 3
	// sureName is the least score of the name of a column among others, so that no word of it belongs to another one.
	sureName = 0.8
	// leastMargin is by how much the best division of a heading has to be surer than the next.
	leastMargin = 0.04
	// widestName is how many words the name of a column has at most, and mostNames how many words the heading has.
	widestName = 4
	mostNames  = 24
	// headingAbove is how many lines above the first part the heading may be, titles and units between.
	headingAbove = 4
)

// spacedLine is a line that begins with a part number and ends with figures.
type spacedLine struct {
	line    int
	words   []string
	figures int
}

// spacedName is the name of a column in a heading, with its role.
type spacedName struct {
	text string
	role catalog.Role
}

// spaced finds the list of a sheet of one column whose lines have single blanks between what they say; nil where it has none.
func spaced(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	if g.Width != 1 {
		return nil
	}
	lines, figures := spacedLines(g)
	if len(lines) < leastSpaced {
		return nil
	}
	names := spacedNames(g, lex, lines[0].line, figures)
	if names == nil {
		return nil
	}
	text := 1
	if !isFigure(names[1].role) {
		text = 2
	}
	var all []card
	for _, l := range lines {
		at := g.Ref(l.line, 1)
		values := make([]string, len(names))
		values[0] = l.words[0]
		behind := len(l.words)
		if l.figures == figures {
			behind -= len(names) - text
			copy(values[text:], l.words[behind:])
		}
		if text == 2 {
			values[1] = strings.Join(l.words[1:behind], " ")
		} else if l.figures == figures && behind != 1 {
			return nil // words of which the heading says nothing
		}
		var c card
		for i, name := range names {
			if values[i] != "" {
				c = append(c, entry{label: name.text, value: values[i], at: at, valueAt: at, role: name.role})
			}
		}
		all = append(all, c)
	}
	r, ok := arrangeCards(g, all)
	if !ok {
		return nil
	}
	return []Region{r}
}

// spacedLines returns the lines that begin with part numbers and end with figures, and how many figures nearly all of them have.
func spacedLines(g *grid.Grid) (lines []spacedLine, figures int) {
	counts := map[int]int{}
	for line := 1; line <= g.Lines; line++ {
		words := strings.Fields(g.At(line, 1))
		if len(words) <= leastFigures || !isItemNumber(words[0]) {
			continue
		}
		l := spacedLine{line: line, words: words}
		for l.figures < len(words)-1 && isBare(words[len(words)-1-l.figures]) {
			l.figures++
		}
		if l.figures == 0 {
			continue
		}
		counts[l.figures]++
		lines = append(lines, l)
	}
	for count, n := range counts {
		if count >= leastFigures && n*5 >= len(lines)*4 {
			return lines, count
		}
	}
	return nil, 0
}

// isFigure reports whether the values of a role are figures.
func isFigure(role catalog.Role) bool {
	switch traits.Of[role].Want {
	case traits.Length, traits.Angle, traits.Count, traits.Price:
		return true
	}
	return false
}

// spacedNames returns the names of the columns in the heading above a line, with the units from below them: one for each figure, or one less
// where names of parts end in a figure.
func spacedNames(g *grid.Grid, lex *lexicon.Lexicon, first, figures int) []spacedName {
	for line := first - 1; line >= max(1, first-headingAbove); line-- {
		words := strings.Fields(g.At(line, 1))
		names := divideNames(lex, words, func(n int, text bool) bool { return n == figures })
		if names == nil {
			names = divideNames(lex, words, func(n int, text bool) bool { return n == figures-1 && text })
		}
		if names == nil {
			continue
		}
		given := len(names) - 1
		if !isFigure(names[1].role) {
			given--
		}
		units := strings.Fields(g.At(line+1, 1))
		if len(units) == given && !slices.ContainsFunc(units, func(unit string) bool { return !strings.HasPrefix(unit, "(") || !strings.HasSuffix(unit, ")") }) {
			for i, unit := range units {
				names[len(names)-given+i].text += " " + unit
			}
		}
		return names
	}
	return nil
}

// divideNames divides a heading into the names of columns, each of another role: that of the part number, a text or none, and then as many
// figures as there may be. It returns nil where that cannot be done, or another way is nearly as good and means something else.
func divideNames(lex *lexicon.Lexicon, words []string, may func(figures int, text bool) bool) []spacedName {
	if len(words) < leastFigures+1 || len(words) > mostNames {
		return nil
	}
	d := division{lex: lex, may: may}
	d.divide(words, nil, 1)
	if d.next > d.score-leastMargin {
		return nil
	}
	return d.best
}

// division is how a heading is divided best, with its score and that of the next best way that means something else: each that of the name
// that is least sure.
type division struct {
	lex         *lexicon.Lexicon
	may         func(figures int, text bool) bool
	best        []spacedName
	score, next float64
}

// divide takes names off the words that are left, behind those taken already, the least sure of which has a score.
func (d *division) divide(words []string, names []spacedName, least float64) {
	if len(words) == 0 {
		d.offer(names, least)
		return
	}
	for n := 1; n <= min(widestName, len(words)); n++ {
		text := strings.Join(words[:n], " ")
		role, score := roleOfLabel(d.lex, text)
		at := len(names)
		switch {
		case at == 0 && role == catalog.Part && score >= lexicon.Understood:
			d.divide(words[n:], []spacedName{{text, role}}, least)
		case at == 1 && !isFigure(role) && score >= lexicon.Understood:
			d.divide(words[n:], append(slices.Clip(names), spacedName{"description", catalog.Description}), least)
		case at == 0, score < sureName, !isFigure(role), slices.ContainsFunc(names, func(s spacedName) bool { return s.role == role }):
		default:
			d.divide(words[n:], append(slices.Clip(names), spacedName{text, role}), min(least, score))
		}
	}
}

// offer takes a way to divide the heading, if it is the best so far.
func (d *division) offer(names []spacedName, least float64) {
	text := len(names) > 1 && !isFigure(names[1].role)
	given := len(names) - 1
	if text {
		given--
	}
	if given < leastFigures || !d.may(given, text) {
		return
	}
	same := slices.EqualFunc(names, d.best, func(a, b spacedName) bool { return a.role == b.role })
	switch {
	case least > d.score && same:
		d.best, d.score = slices.Clone(names), least
	case least > d.score:
		d.best, d.score, d.next = slices.Clone(names), least, d.score
	case !same:
		d.next = max(d.next, least)
	}
}
