package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// A list may give a letter for what each part has, and a note what the letters stand for: "Tip: A = .370 parallel, B = .335 parallel". The
// column is then read as if the words stood in its cells.

// codes is what a note says that the letters of a column stand for.
type codes struct {
	// name is what the note calls the column, empty where it does not say.
	name string
	// beside is what stands in the cell to the left, which may be the name as well, empty where that is no word.
	beside string
	// mark is the footnote mark before the note, empty where it has none.
	mark string
	// words are what the letters stand for, by the letters as they are folded.
	words map[string]string
	// where says where it begins.
	where string
}

// Unexplained is a letter that a note on the letters of its column does not explain.
type Unexplained struct {
	Line, Col int
	Message   string
}

var (
	// codeSign is a letter or short form, in capitals or of one letter, with the sign before what it stands for.
	codeSign = pattern.Lazy(`(?:^|[\s\x{3000},;.、，；。/|·(（:：])(\p{Lu}{1,3}\d?|\p{Ll}|\d{1,2}) ?[=:：＝] ?`)
	// codePieces are the signs between the letters of one column and those of another: "Tip: A = .370, B = .335; Finish: C = chrome".
	codePieces = pattern.Lazy(`[;；\n]`)
	// codeEnd are the signs that stand between a code's words and the next code.
	codeEnd = " \t\n\u3000,;、，；。/|·()（）"
)

const (
	// mostCodes is how many letters a note explains at most, and mostCodeNotes how many such notes a sheet has.
	mostCodes     = mostLetters
	mostCodeNotes = 20
)

// ExplainCodes writes in columns of letters what notes on their sheet say that these stand for.
func ExplainCodes(lex *lexicon.Lexicon, regions []*Region) {
	notes := map[*grid.Grid][]codes{}
	for _, r := range regions {
		if r.Grid.Arranged() || r.Guessed {
			continue
		}
		drawn := r.Grid
		if drawn.Turned { // notes are not
			drawn = drawn.Turn()
		}
		if _, known := notes[drawn]; !known {
			notes[drawn] = codeNotes(lex, drawn)
		}
		for _, c := range notes[drawn] {
			if at := r.columnOf(lex, c); at >= 0 {
				r.explain(at, c)
			}
		}
	}
}

// codeNotes returns the notes of a sheet that explain letters: in one cell, or in cells one below the other of which each explains some.
func codeNotes(lex *lexicon.Lexicon, g *grid.Grid) (all []codes) {
	if len(contentsThat(g, saysCodes)) == 0 {
		return nil
	}
	for col := 1; col <= g.Width; col++ {
		var c codes
		end := func() {
			if len(c.words) >= leastLegend && len(c.words) <= mostCodes && len(all) < mostCodeNotes {
				all = append(all, c)
			}
			c = codes{}
		}
		above := ""
		for line := 1; line <= g.Lines; line++ {
			text := g.At(line, col)
			if c.words == nil && !saysCodes(text) { // nearly every cell of a long list
				above = text
				continue
			}
			for _, piece := range codePieces().Split(text, -1) {
				mark, piece := cutNoteMark(lex, piece)
				name, found := codesIn(lex, piece)
				beside := ""
				if len(found) > 0 {
					beside = nameBeside(g, line, col)
				}
				if c.words != nil && (len(found) == 0 || name != "" || mark != "" && mark != c.mark || beside != "" && beside != c.beside || c.repeats(found)) {
					end()
				}
				if len(found) > 0 && c.words == nil {
					c = codes{name: name, beside: beside, mark: mark, words: map[string]string{}, where: Describe(text, g.Ref(line, col).String())}
					if name == "" && mark == "" { // a footnote stands below whatever it is
						c.name = strings.TrimRight(above, " :：=")
					}
				}
				for _, entry := range found {
					c.words[words.Fold(entry.letter)] = entry.words
				}
				above = ""
			}
			above = text
		}
		end()
	}
	return all
}

// numberedNote is a word with a number in brackets or before a sign or a blank, as notes begin and headings refer to them: "Note 1:", "(Anm. 2)", "注1".
var numberedNote = pattern.Lazy(`^[(（]?([\pL\pM]+)[. ]{0,2}(\d{1,2})(?:[)）:：.]+ ?| )`)

// cutNoteMark divides a note at the footnote mark that it begins with, which may be a word for notes with a number; the mark is empty where there is
// none, or where it is itself what is explained: "(1) = .370".
func cutNoteMark(lex *lexicon.Lexicon, text string) (mark, rest string) {
	mark, rest = CutMark(strings.TrimLeft(text, " \u3000"))
	if found := numberedNote().FindStringSubmatch(text); mark == "" && found != nil {
		if _, note := lex.Words.Mark(found[1], "note"); note {
			mark, rest = found[1]+found[2], text[len(found[0]):]
		}
	}
	if mark == "" || strings.HasPrefix(rest, "=") || strings.HasPrefix(rest, "＝") {
		return "", text
	}
	return mark, strings.TrimLeft(rest, ":： ")
}

// refersTo reports whether a heading bears the mark of a note.
func refersTo(heading, mark string) bool {
	if word := strings.TrimRight(mark, "0123456789"); word != mark && strings.IndexFunc(word, unicode.IsLetter) == 0 { // "Anm1", of "(Anm. 1)"
		return strings.Contains(strings.ReplaceAll(words.Fold(heading), " ", ""), words.Fold(mark))
	}
	return mark != "" && Bears(heading, mark)
}

// nameBeside returns what the cell to the left of one that explains letters calls their column, empty where that is no word: "TIP_CD" beside "P = .370
// parallel, T = .355 taper".
func nameBeside(g *grid.Grid, line, col int) string {
	text := strings.TrimRight(g.At(line, col-1), " :：=")
	letters := 0
	for _, r := range text {
		if unicode.IsLetter(r) {
			letters++
		}
	}
	if letters < 2 || saysCodes(text) {
		return ""
	}
	return text
}

// saysCodes reports whether a text has one of the signs before what a letter stands for.
func saysCodes(text string) bool { return strings.ContainsAny(text, "=:：＝") }

// repeats reports whether entries explain a letter that is explained already.
func (c *codes) repeats(found []legendEntry) bool {
	for _, entry := range found {
		if c.words[words.Fold(entry.letter)] != "" {
			return true
		}
	}
	return false
}

// codesIn returns what a text says that letters stand for, and what it says before the first: the name of their column.
func codesIn(lex *lexicon.Lexicon, text string) (name string, entries []legendEntry) {
	if len(text) > lexicon.LongestNote || !saysCodes(text) {
		return "", nil
	}
	places := codeSign().FindAllStringSubmatchIndex(text, -1)
	for i, place := range places {
		end := len(text)
		if i+1 < len(places) {
			end = places[i+1][0]
		}
		// What follows in a sentence of its own is about something else.
		said := strings.TrimRight(strings.Trim(sentences(lex, text[place[1]:end])[0], codeEnd), ".")
		letter := text[place[2]:place[3]]
		if said == "" || slices.ContainsFunc(entries, func(e legendEntry) bool { return e.letter == letter }) {
			return "", nil
		}
		entries = append(entries, legendEntry{letter, said})
	}
	if len(entries) == 0 {
		return "", nil
	}
	return strings.TrimRight(strings.TrimSpace(text[:places[0][0]]), " :：=-–("), entries
}

// columnOf returns which column of a list has the letters that a note explains, -1 where none or several have: one that is headed as the note
// calls it, or, where nothing is, one that has no other letters.
func (r *Region) columnOf(lex *lexicon.Lexicon, c codes) int {
	named, by := -1, -1
	for i, h := range r.Columns {
		filled, known, letters := r.lettersKnown(h.Col, c)
		switch same := c.names(lex, h) || refersTo(h.Text, c.mark); {
		case known == 0 || 100*known < leastKnown*filled:
		case same && named >= 0:
			return -1
		case same:
			named = i
		case len(letters) < leastLetters || known < filled || onlyDigits(letters):
		case labelled(lex, h) == catalog.Part || traits.Of[labelled(lex, h)].Want == traits.Price || traits.Of[labelled(lex, h)].Want == traits.Count:
		case by >= 0:
			by = len(r.Columns) // several
		default:
			by = i
		}
	}
	switch {
	case named >= 0:
		return named
	case by < len(r.Columns) && c.name == "":
		return by
	}
	return -1
}

// lettersKnown counts the cells of a column that are filled and those with letters that a note explains, and returns these letters.
func (r *Region) lettersKnown(col int, c codes) (filled, known int, letters map[string]bool) {
	letters = map[string]bool{}
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, col)
		if text == "" || len(text) > longestLetter {
			continue
		}
		filled++
		if folded := words.Fold(text); c.words[folded] != "" {
			known++
			letters[folded] = true
		}
	}
	return filled, known, letters
}

// names reports whether a note, or the cell beside it, calls a column as it is headed, or what it is.
func (c codes) names(lex *lexicon.Lexicon, h Heading) bool {
	role := labelled(lex, h)
	return h.Text != "" && slices.ContainsFunc([]string{c.name, c.beside}, func(name string) bool {
		return name != "" && (words.Fold(name) == words.Fold(h.Text) || role != "" && role == labelled(lex, Heading{Parts: []string{name}, Text: name}))
	})
}

// onlyDigits reports whether all letters are numbers, which may be those of anything.
func onlyDigits(letters map[string]bool) bool {
	for letter := range letters {
		if strings.Trim(letter, "0123456789") != "" {
			return false
		}
	}
	return true
}

// explain writes in the cells of a column what their letters stand for.
func (r *Region) explain(at int, c codes) {
	h := &r.Columns[at]
	h.Order = fmt.Sprintf("the letters of %q stand for what the %s says", h.Text, c.where)
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, h.Col)
		if text == "" || len(text) > longestLetter {
			continue
		}
		if said := c.words[words.Fold(text)]; said != "" {
			r.Grid.Retell(line, h.Col, said)
		} else {
			r.Unexplained = append(r.Unexplained, Unexplained{line, h.Col, fmt.Sprintf("%s %q is none of the letters that the %s explains", h.Text, text, c.where)})
		}
	}
}
