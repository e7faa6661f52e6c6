package layout

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// Text that was copied out of a document may have single blanks between its columns: "FC-304 Iron 4 13.40 9.50 32 black". Such a line is read
// from its end, where each word is a column, if its heading divides into as many names, of figures and of words as they stand in the lines, in
// one way that is surer than others. A line with another count of figures gives none: which one is missing nobody knows.

const (
	// leastSpaced is how many such lines make a list, and leastFigures how many figures each has.
	leastSpaced  = 3
	leastFigures = 3
	// sureName is the least score of the name of a column among others, so that no word of it belongs to another one.
	sureName = 0.8
	// leastMargin is by how much the best division of a heading has to be surer than the next.
	leastMargin = 0.04
	// restPenalty is how much less sure a heading is whose name for texts of many words is not known at all.
	restPenalty = 0.1
	// figurePenalty is how much less sure one is that leaves a figure to the name of the part.
	figurePenalty = leastMargin + 0.01
	// widestName is how many words the name of a column has at most, and mostNames how many words the heading has.
	widestName = 4
	mostNames  = 24
	// headingAbove is how many lines above the first part the heading may be, titles and units between.
	headingAbove = 4
)

// spacedLine is a line that begins with a part number and has figures behind it.
type spacedLine struct {
	line    int
	words   []string
	figures int
}

// spacedLines are such lines, and what nearly all of them have alike.
type spacedLines struct {
	all []spacedLine
	// figures is how many figures they have, and words how many words, zero where these differ.
	figures, words int
	// isFigure says of their words, from the last, whether they are figures, as far as they are alike.
	isFigure []bool
}

// spacedName is the name of a column in a heading, with its role.
type spacedName struct {
	text string
	role catalog.Role
	// unsure is what is taken from the score of a heading for it.
	unsure float64
	// takesRest is set where its texts are of any number of words.
	takesRest bool
}

// spaced finds the list of a sheet of one column whose lines have single blanks between what they say; nil where it has none.
func spaced(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	if g.Width != 1 {
		return nil
	}
	lines := spacedLinesOf(g)
	if len(lines.all) < leastSpaced || lines.figures < leastFigures {
		return nil
	}
	names := spacedNames(g, lex, lines)
	if names == nil {
		return nil
	}
	text := 1
	if names[1].takesRest {
		text = 2
	}
	var all []card
	for _, l := range lines.all {
		at := g.Ref(l.line, 1)
		values := make([]string, len(names))
		values[0] = l.words[0]
		behind := len(l.words)
		if l.figures == lines.figures {
			behind -= len(names) - text
			copy(values[text:], l.words[behind:])
		}
		if text == 2 {
			values[1] = strings.Join(l.words[1:behind], " ")
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

// spacedLinesOf returns the lines that begin with part numbers and have figures behind them.
func spacedLinesOf(g *grid.Grid) (lines spacedLines) {
	counts := map[int]int{}
	for line := 1; line <= g.Lines; line++ {
		words := strings.Fields(g.At(line, 1))
		if len(words) <= leastFigures || !lexicon.IsItemNumber(words[0]) {
			continue
		}
		l := spacedLine{line: line, words: words}
		for _, word := range words[1:] {
			if lexicon.IsBare(word) {
				l.figures++
			}
		}
		if l.figures == 0 {
			continue
		}
		counts[l.figures]++
		lines.all = append(lines.all, l)
	}
	for count, n := range counts {
		if n*5 >= len(lines.all)*4 {
			lines.figures = count
		}
	}
	lines.all = slices.DeleteFunc(lines.all, func(l spacedLine) bool { return l.figures*2 <= lines.figures }) // "DS-114 Issue 6 Page 1 of 2"
	lines.compare()
	return lines
}

// compare finds what the lines that have as many figures as most have alike.
func (s *spacedLines) compare() {
	first := true
	for _, l := range s.all {
		if l.figures != s.figures {
			continue
		}
		var figures []bool
		for i := len(l.words) - 1; i > 0; i-- {
			figures = append(figures, lexicon.IsBare(l.words[i]))
		}
		if first {
			s.isFigure, s.words, first = figures, len(l.words), false
			continue
		}
		alike := 0
		for alike < min(len(figures), len(s.isFigure)) && figures[alike] == s.isFigure[alike] {
			alike++
		}
		s.isFigure = s.isFigure[:alike]
		if s.words != len(l.words) {
			s.words = 0
		}
	}
}

// have reports whether the words of the lines are such as columns of some names hold, and how much less sure that is than where each figure
// has its column: names of parts may end in one.
func (s *spacedLines) have(names []spacedName) (less float64, ok bool) {
	tail := names[1:]
	rest := tail[0].takesRest
	if rest == (s.words == len(names)) { // a word each, or the rest of each
		return 0, false
	}
	if rest {
		tail = tail[1:]
	}
	figures := 0
	for i, name := range slices.Backward(tail) {
		at := len(tail) - 1 - i
		if at >= len(s.isFigure) || name.role != "" && isFigure(name.role) != s.isFigure[at] {
			return 0, false
		}
		if s.isFigure[at] {
			figures++
		}
	}
	if rest && figures == s.figures-1 {
		return figurePenalty, true
	}
	return 0, figures == s.figures
}

// isFigure reports whether the values of a role are figures.
func isFigure(role catalog.Role) bool {
	switch traits.Of[role].Want {
	case traits.Length, traits.Angle, traits.Count, traits.Price:
		return true
	}
	return false
}

// spacedNames returns the names of the columns in the heading above the lines, with the units from below them, nil where there is none.
func spacedNames(g *grid.Grid, lex *lexicon.Lexicon, lines spacedLines) []spacedName {
	first := lines.all[0].line
	for line := first - 1; line >= max(1, first-headingAbove); line-- {
		names := divideNames(lex, strings.Fields(g.At(line, 1)), lines)
		if names == nil {
			continue
		}
		given := len(names) - 1
		if names[1].takesRest {
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

// divideNames divides a heading into the names of columns, each of another role: that of the part number, and then as the words of the lines
// are. It returns nil where that cannot be done, or another way is nearly as good and means something else.
func divideNames(lex *lexicon.Lexicon, words []string, lines spacedLines) []spacedName {
	if len(words) < leastFigures+1 || len(words) > mostNames {
		return nil
	}
	d := division{lex: lex, lines: lines}
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
	lines       spacedLines
	best        []spacedName
	score, next float64
}

// divide takes names off the words that are left, behind those taken already, the least sure of which has a score.
func (d *division) divide(words []string, names []spacedName, least float64) {
	if len(words) == 0 {
		d.offer(names, least)
		return
	}
	if len(names) > len(d.lines.isFigure)+2 {
		return
	}
	for n := 1; n <= min(widestName, len(words)); n++ {
		text := strings.Join(words[:n], " ")
		role, score := d.lex.RoleOfLabel(text)
		at := len(names)
		switch {
		case at == 0 && role == catalog.Part && score >= lexicon.Understood:
			d.divide(words[n:], []spacedName{{text: text, role: role}}, least)
		case at == 0:
		default:
			if at == 1 && role != "" && !isFigure(role) && score >= lexicon.Understood {
				d.divide(words[n:], append(slices.Clip(names), spacedName{text: "description", role: catalog.Description, unsure: restPenalty * (1 - score), takesRest: true}), least)
			}
			switch {
			case role == "" && d.lex.Words.Irrelevant(text):
				d.divide(words[n:], append(slices.Clip(names), spacedName{text: text}), min(least, sureName))
			case score < sureName, slices.ContainsFunc(names, func(s spacedName) bool { return s.role == role }):
			default:
				d.divide(words[n:], append(slices.Clip(names), spacedName{text: text, role: role}), min(least, score))
			}
		}
	}
}

// offer takes a way to divide the heading, if it is the best so far.
func (d *division) offer(names []spacedName, least float64) {
	if len(names) < 2 {
		return
	}
	less, ok := d.lines.have(names)
	if !ok {
		return
	}
	least -= names[1].unsure + less
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
