package layout

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// What texts say of parts stands in many forms that mean one thing: a label with its value behind a colon, "Bore: 9.3"; in the marks of a plain text,
// "- **Bore:** 9.3"; as a question with its answer behind it or below, "And the bore? 9.3"; the label above its value. Here they become the first.

// telling is what a cell says, without what only sets it apart: bullets, the number of a question, marks of emphasis. Where a label or a question has
// its value in the line below, the text has both, and valueAt is the cell of the value.
type telling struct {
	text        string
	at, valueAt sheet.Ref
	line, to    int
	// opens is set where a blank line, a rule or nothing stands above.
	opens bool
}

// tellings returns what the first lines of a sheet say, so many of those that are not blank.
func tellings(g *grid.Grid, lex *lexicon.Lexicon, lines int) []telling {
	var all []telling
	above := labelsAbove(g, lex)
	opens := true
	for line, probed := 1, 0; line <= g.Lines && probed < lines; line++ {
		if g.BlankLine(line, 1, g.Width) || isRule(wholeLine(g, line)) {
			opens = true
			continue
		}
		probed++
		first := len(all)
		for col := 1; col <= g.Width; col++ {
			if g.At(line, col) == "" {
				continue
			}
			t := telling{text: unmarked(asWritten(g, line, col)), at: g.Ref(line, col), line: line, to: line, opens: opens && first == len(all)}
			t.valueAt = t.at
			if label, answer := cutQuestion(lex, t.text); label != "" {
				t.text = label + ": " + answer
				if answer == "" {
					t.takeBelow(g)
				}
			} else if above && isLabelAbove(g, lex, line) {
				t.text = strings.TrimRight(t.text, ":： ") + ":"
				t.takeBelow(g)
			}
			all = append(all, t)
		}
		line = all[len(all)-1].to
		opens = false
	}
	return all
}

// told finds the parts of which a sheet tells in texts: as the items of a letter, or as cards where much more is read of it so. Talks are no cards, since
// these know nothing of what puts right what was said before.
func told(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	found := toldParts(g, lex)
	if len(found) == 0 {
		return nil
	}
	first, last := &found[0], &found[len(found)-1]
	for first.From > 1 && !namesPartIn(g, first.From-1) {
		first.From--
	}
	for last.To < g.Lines && !namesPartIn(g, last.To+1) {
		last.To++
	}
	first.area.From.Row, last.area.To.Row = first.From, last.To
	return found
}

// namesPartIn reports whether a line names a part, and so may be about that one, or a row of a table. Other sentences about the parts were cut at their
// commas, and only look like headings.
func namesPartIn(g *grid.Grid, line int) bool {
	for _, id := range g.Row(line, 1, g.Width) {
		text := g.Text(id)
		if _, number, _ := spoken.CutIntroduced(text); number != "" || isLongNumber(text) {
			return true
		}
	}
	return false
}

// toldParts is told without the lines about the parts.
func toldParts(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	letter := items(g, lex)
	if letter != nil && isTimed(g, letter[0].Body) {
		return letter
	}
	plain := plainCards(g, lex)
	facts, places := factsIn(lex, plain)
	said, _ := factsIn(lex, letter)
	if plain != nil && muchMore*facts >= (muchMore+1)*said && (letter == nil || muchMore*facts >= (muchMore-1)*places) {
		return plain
	}
	return letter
}

// muchMore is the part of what a letter gives by which cards give more where that is much, a fifth, and what they may leave out of what others of
// them have: people who write to each other say of each part something else.
const muchMore = 5

// factsIn counts the sizes that can be what they are called, the prices and the counts of some tables, and in how many places such could stand.
func factsIn(lex *lexicon.Lexicon, tables []Region) (facts, places int) {
	for _, r := range tables {
		columns, parts := 0, 0
		for line := r.Body; line <= r.To; line++ {
			if !r.Grid.BlankLine(line, 1, r.Grid.Width) {
				parts++
			}
		}
		for _, h := range r.Columns {
			role, _ := roleKnown(lex, h.Text)
			role = cmp.Or(catalog.Role(sizetext.RoleNamed(lex, h.Text)), role) // beside numbers, "top" is a size
			own := 0
			for line := r.Body; line <= r.To; line++ {
				if text := r.Grid.At(line, h.Col); text != "" && isFact(lex, role, text) {
					own++
				}
			}
			if facts += own; own > 0 {
				columns++
			}
		}
		places += columns * parts
	}
	return facts, places
}

// isFact reports whether a text says something of a role that takes a number.
func isFact(lex *lexicon.Lexicon, role catalog.Role, text string) bool {
	switch traits.Of[role].Want {
	case traits.Length:
		return (sizetext.Size{Role: string(role), Text: text}).Possible(lex)
	case traits.Price, traits.Count:
		return lex.Read(text, value.Context{Want: value.WantPrice}).Kind == value.Number
	}
	return false
}

// textsOf returns the texts without a number of tellings: what they say they say of all parts, or of none.
func textsOf(all []telling) (texts []string) {
	for _, t := range all {
		if !lexicon.BearsNumber(t.text) {
			texts = append(texts, t.text)
		}
	}
	return texts
}

// takeBelow adds to a label what the line below it says.
func (t *telling) takeBelow(g *grid.Grid) {
	value := unmarked(asWritten(g, t.line+1, 1))
	if mark := answerMark().FindString(value); mark != "" {
		value = value[len(mark):]
	}
	if value == "" {
		return
	}
	t.text = strings.TrimSpace(t.text) + " " + value
	t.to = t.line + 1
	t.valueAt = g.Ref(t.to, 1)
	for col := 2; col <= g.Width; col++ {
		if more := g.At(t.line+1, col); more != "" {
			t.text += ", " + more
		}
	}
}

// answerMark is the letter or word before an answer: "A:".
var answerMark = pattern.Lazy(`^\p{L}{1,9}\d?[:：] *`)

// isRule reports whether a line is of signs alone, such as dashes, that divide what stands above from what stands below.
func isRule(text string) bool {
	return text != "" && strings.Trim(text, "-–—=_*~#+|. ") == ""
}

// unmarked takes off a text the marks of a plain text about it: of a heading, a point of a list, a question by its number, and of emphasis.
func unmarked(text string) string {
	text = spoken.WithoutLead(text)
	text = strings.TrimSpace(strings.TrimLeft(text, "#"))
	if strings.HasPrefix(text, "**") || strings.HasPrefix(text, "__") {
		text = strings.ReplaceAll(text[2:], text[:2], "")
	}
	return placeMark().ReplaceAllString(text, "")
}

// placeMark is the place of a part in a list, in brackets: 【1】.
var placeMark = pattern.Lazy(`^[【\[]\d{1,3}[】\]] *`)

// cutQuestion returns what a text asks for, and the answer behind the question; the label is empty where it is no question about a part.
func cutQuestion(lex *lexicon.Lexicon, text string) (label, answer string) {
	at := strings.IndexAny(text, "?？")
	if at <= 0 || at > lexicon.LongestLabel || lexicon.BearsNumber(text[:at]) {
		return "", ""
	}
	_, size := utf8.DecodeRuneInString(text[at:])
	label, answer = text[:at], strings.TrimSpace(text[at+size:])
	if mark := answerMark().FindString(label); mark != "" {
		label = label[len(mark):]
	}
	return labelAsked(lex, label), answer
}

// labelAsked returns the words of a question that say what is asked for, empty where nothing is known of them.
func labelAsked(lex *lexicon.Lexicon, question string) string {
	written := strings.Fields(question)
	for from := range written {
		label := strings.Join(written[from:], " ")
		if role, known := roleKnown(lex, label); known && role != catalog.Description {
			return label
		}
	}
	if label := sizetext.NameAtEnd(lex, question); label != "" {
		return label
	}
	return ""
}

// labelsAbove reports whether a sheet has labels above their values, each in a line of its own.
func labelsAbove(g *grid.Grid, lex *lexicon.Lexicon) bool {
	labels, sizes, probed := 0, 0, 0
	for line := 1; line < g.Lines && probed < cardProbe; line++ {
		if g.BlankLine(line, 1, g.Width) {
			continue
		}
		probed++
		if isLabelAbove(g, lex, line) {
			labels++
			if labelsSize(lex, g.At(line, 1)) {
				sizes++
			}
			line++
			probed++
		}
	}
	return sizes >= leastPairs && labels*4 >= probed
}

// isLabelAbove reports whether a line is nothing but a label, and the next one nothing but a value such as it calls for.
func isLabelAbove(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	label, value := g.At(line, 1), g.At(line+1, 1)
	if line >= g.Lines || label == "" || value == "" || countCells(g, line, span{left: 1, right: g.Width}) > 1 || strings.ContainsFunc(label, unicode.IsDigit) {
		return false
	}
	role, known := roleKnown(lex, label)
	switch traits.Of[role].Want {
	case traits.Length, traits.Price, traits.Count:
		if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(value, lexicon.DiameterSigns+" ")); unicode.IsDigit(first) || first == '.' {
			return known
		}
		price, ok := spoken.AmountIn(lex, value)
		return known && ok && price.Role == catalog.Price
	}
	return known && role == catalog.Part && lexicon.IsItemNumber(value)
}

// placed takes off a text the place of a part in an order that stands before its number: "Pos. 1: head GW-52".
func placed(text string) string {
	label, behind, colon := lexicon.CutLabel(text)
	if !colon {
		return text
	}
	name := strings.TrimRight(label, "0123456789")
	if digits := len(label) - len(name); digits == 0 || digits > 2 || lexicon.BearsDigits(name) || strings.TrimRight(name, " ") == name && !strings.HasSuffix(name, ".") {
		return text
	}
	for i, word := range strings.Fields(behind) {
		if i > mostBefore {
			break
		}
		if lexicon.IsItemNumber(strings.Trim(word, sizetext.AroundNames)) {
			return behind
		}
	}
	return text
}

// namesKindOfPart reports whether a text is a word for parts of a kind or a club, as it stands before a part number: "Ferrule", "Wedge head".
func namesKindOfPart(lex *lexicon.Lexicon, text string) bool {
	if text == "" || len(text) > lexicon.LongestLabel || strings.ContainsFunc(text, unicode.IsDigit) {
		return false
	}
	if role, known := roleKnown(lex, text); known && traits.Of[role].Want != traits.Text {
		return false // "hosel OD"
	}
	for _, found := range []func(string) (words.Hit, bool){lex.Words.Kind, lex.Category} {
		if hit, known := found(text); known && hit.Score >= leastKindNamed {
			return true
		}
	}
	return false
}

// leastKindNamed is how much of the words before a part number has to mean a kind of parts.
const leastKindNamed = 0.4
