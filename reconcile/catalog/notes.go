package catalog

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// general is what the free texts of a sheet or book say of its dimensions.
type general struct {
	// unit is the unit that the free texts name, empty where none or several do; unitCell and unitText say where.
	unit, unitCell, unitText string
	// units are all units named.
	units []string
	// clauses are the pieces of the free texts that state a unit or a tolerance.
	clauses []clause
	// supplier is whose sheet it is, by its own words.
	supplier string
}

// clause is a piece of a free text that states a unit or a tolerance, for all dimensions or for some.
type clause struct {
	text  string
	place sheet.Ref
	// mark is the footnote mark that it begins with, empty where there is none.
	mark  string
	units []string
}

// readNotes reads what the free texts of a sheet say of its dimensions.
func readNotes(lex *lexicon, g *grid, places []sheet.Ref) general {
	var notes general
	for _, place := range places {
		text := g.at(g.place(place))
		if text == "" || len(text) > longestNote || looksNumeric(text) && !mayTolerate(text) {
			continue
		}
		for _, c := range clausesOf(text) {
			c.place = place
			notes.keep(lex, c)
		}
		for _, unit := range lex.lengthUnitsIn(text) {
			if slices.Contains(notes.units, unit) {
				continue
			}
			notes.units = append(notes.units, unit)
			notes.unit, notes.unitCell, notes.unitText = unit, place.String(), text
		}
	}
	if len(notes.units) > 1 {
		notes.unit = ""
	}
	return notes
}

// keep keeps a clause that states a unit or a tolerance, its parts between commas one by one where each names a unit: "All
// sizes in mm, bores in inches".
func (n *general) keep(lex *lexicon, c clause) {
	var parts []clause
	for _, text := range betweenParts().Split(c.text, -1) {
		part := clause{text: text, place: c.place, mark: c.mark, units: lex.lengthUnitsIn(text)}
		if len(part.units) == 0 {
			parts = nil
			break
		}
		parts = append(parts, part)
	}
	if len(parts) > 1 {
		n.clauses = append(n.clauses, parts...)
		return
	}
	c.units = lex.lengthUnitsIn(c.text)
	if len(c.units) > 0 || mayTolerate(c.text) {
		n.clauses = append(n.clauses, c)
	}
}

const noteMarks = `[¹²³⁴-⁹]+|[①-⑳]|\(\*{1,3}\)|\*{1,3}|[†‡§※]|\((?:[1-9]|[a-e])\)|（[1-9]）`

var (
	// betweenParts are commas that do not stand between digits.
	betweenParts = pattern.Lazy(`, |、|，`)
	// noteMark is a footnote mark: a raised or circled number, a star, a dagger, or a number or letter in brackets.
	noteMark = pattern.Lazy(noteMarks)
	// leadingMark is one at the beginning of a text, where also the forms 1) and a) are in use.
	leadingMark = pattern.Lazy(`^(?:` + noteMarks + `|[1-9a-e]\))`)
	// betweenClauses are the signs between pieces of a note that speak of different things.
	betweenClauses = pattern.Lazy(`[;；。|]|\.\s|\s/\s`)
)

// clausesOf divides a note at its footnote marks and at signs between sentences; a piece goes by the mark before it.
func clausesOf(text string) []clause {
	var clauses []clause
	mark := ""
	for text != "" {
		text = strings.TrimSpace(text)
		if at := leadingMark().FindString(text); at != "" {
			mark, text = at, text[len(at):]
			continue
		}
		end := len(text)
		if at := noteMark().FindStringIndex(text); at != nil && clauseBefore(text, at[0]) {
			end = at[0]
		}
		piece := text[:end]
		for _, one := range betweenClauses().Split(piece, -1) {
			if one = strings.TrimSpace(one); one != "" {
				clauses = append(clauses, clause{text: one, mark: mark})
			}
		}
		text = text[end:]
	}
	return clauses
}

// clauseBefore reports whether a mark within a note begins a new piece: after a space or a sign.
func clauseBefore(text string, at int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	return at > 0 && strings.ContainsRune(" ;,.；，。、|", before)
}

// bears reports whether a heading or value carries a footnote mark.
func bears(text, mark string) bool {
	at := strings.Index(text, strings.TrimPrefix(strings.TrimSuffix(mark, ")"), "("))
	if at < 0 {
		return false
	}
	if strings.ContainsAny(mark, ")）") { // 1) or (1): in brackets too
		return strings.Contains(text, mark) || strings.Contains(text, strings.TrimPrefix(mark, "("))
	}
	for _, found := range noteMark().FindAllString(text, -1) {
		if found == mark {
			return true
		}
	}
	return false
}

// mayTolerate reports whether a free text has a sign or a standard's number that a tolerance needs.
func mayTolerate(text string) bool {
	for _, sign := range []string{"±", "+/-", "+-", "2768", " IT", "+0", "土", "－"} {
		if strings.Contains(text, sign) {
			return true
		}
	}
	return false
}

// describe says where a general rule stands.
func describe(text, cell string) string {
	if runes := []rune(text); len(runes) > 60 {
		text = string(runes[:60]) + "…"
	}
	return fmt.Sprintf("note %q in %s", text, cell)
}
