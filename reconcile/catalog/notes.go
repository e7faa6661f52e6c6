package catalog

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
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

// longestNote is the length in bytes beyond which a text is not searched.
const longestNote = 600

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

// lengthUnitsIn returns the units of length that a free text names.
func (l *lexicon) lengthUnitsIn(text string) []string {
	var units []string
	for _, hit := range l.words.Units(text) {
		if isLengthUnit(hit.Value) {
			units = append(units, hit.Value)
		}
	}
	return units
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

// noteTolerance is the tolerance that a note gives to a column, or to those of its values that carry a footnote mark.
type noteTolerance struct {
	clause *clause
	// index is which of the tolerances of the clause it is.
	index int
	// rank orders what is said: for all sizes, for a sort of sizes, for one size.
	rank int
}

// What a tolerance in a note is for, the least particular first.
const (
	forAll = iota + 1
	forClass
	forRole
)

// spreadNotes gives the tolerances that the notes state to the columns that they are for, and reports those of which that
// cannot be told.
func (t *unitTable) spreadNotes() {
	for i := range t.notes.clauses {
		c := &t.notes.clauses[i]
		if !mayTolerate(c.text) {
			continue
		}
		for index, tolerance := range value.ReadTolerances(c.text, value.Context{Unit: "mm"}) {
			if !t.spread(c, index, tolerance) {
				t.reportTolerance(c, tolerance)
			}
		}
	}
}

// spread gives a tolerance to the columns that it is for; false where that cannot be told.
func (t *unitTable) spread(c *clause, index int, tolerance value.Tolerance) bool {
	n := noteTolerance{clause: c, index: index}
	if c.mark != "" {
		if marked := t.markedColumns(c.mark); len(marked) > 0 {
			for _, col := range marked {
				col.takeNote(n, forRole)
			}
			return true
		}
		if t.markedValues(c.mark) {
			t.valueNotes[c.mark] = n
			return true
		}
	}
	scope := tolerance.Scope
	subject := t.subjectOf(scope)
	if index == 0 && len(subject.Roles) == 0 && subject.Class == "" && !subject.General {
		scope = c.text
		subject = t.subjectOf(scope)
	}
	switch {
	case len(subject.Roles) > 0:
		for _, m := range subject.Roles {
			for _, col := range t.columns {
				if col.role == Role(m.Role) {
					col.takeNote(n, forRole)
				}
			}
		}
	case subject.Class != "":
		for _, col := range t.columns {
			if classOf(col.role) == subject.Class || subject.Class == "length" && classOf(col.role) == "depth" {
				col.takeNote(n, forClass)
			}
		}
	case subject.General || strings.HasPrefix(tolerance.Class, "ISO 2768") || t.onlyTolerance(c.text):
		for _, col := range t.columns {
			col.takeNote(n, forAll)
		}
	default:
		return false
	}
	return true
}

// onlyTolerance reports whether a note is a tolerance with its unit and no other words.
func (t *unitTable) onlyTolerance(text string) bool {
	rest, _, _ := t.lex.words.SplitUnit(text)
	return !strings.ContainsFunc(rest, unicode.IsLetter)
}

// classOf is the sort of a size: diameter, depth or length.
func classOf(role Role) string {
	switch trait := traits[role]; {
	case trait.want != wantLength:
		return ""
	case trait.diameter:
		return "diameter"
	case role == BoreDepth || role == CountersinkDepth || role == CounterboreDepth:
		return "depth"
	}
	return "length"
}

// takeNote keeps the most particular of the tolerances that notes state for a column, the first of several.
func (c *unitColumn) takeNote(n noteTolerance, rank int) {
	if c.trait().want != wantLength || c.note != nil && c.note.rank >= rank {
		return
	}
	n.rank = rank
	c.note = &n
}

// markedColumns returns the columns whose heading carries a footnote mark.
func (t *unitTable) markedColumns(mark string) []*unitColumn {
	var marked []*unitColumn
	for _, c := range t.columns {
		if bears(c.text, mark) {
			marked = append(marked, c)
		}
	}
	return marked
}

// markedValues reports whether a size of the table carries a footnote mark.
func (t *unitTable) markedValues(mark string) bool {
	return slices.ContainsFunc(t.columns, func(c *unitColumn) bool {
		return c.trait().want == wantLength && slices.ContainsFunc(c.profile.texts, func(text string) bool { return bears(text, mark) })
	})
}

// reportTolerance reports a tolerance in a note that was not understood, at the note.
func (t *unitTable) reportTolerance(c *clause, tolerance value.Tolerance) {
	line, col := t.region.grid.place(c.place)
	t.add(finding.Warning, "data.tolerance", line, col,
		fmt.Sprintf("the note %q states the tolerance %q, and what it is for was not understood; it is not used", c.text, tolerance.Text), t.settle("tolerance"))
}

// unitNote returns the unit that a note gives to one size alone, by its words or its footnote mark, and the note; several
// units where the note leaves it open.
func (t *unitTable) unitNote(c *unitColumn) ([]string, *clause) {
	for i := range t.notes.clauses {
		n := &t.notes.clauses[i]
		if len(n.units) == 0 || len(n.units) == 1 && len(t.notes.units) < 2 {
			continue
		}
		if n.mark != "" && bears(c.text, n.mark) {
			return n.units, n
		}
		for _, m := range t.subjectOf(n.text).Roles {
			if Role(m.Role) == c.role && m.Score >= saysOneSize {
				return n.units, n
			}
		}
	}
	return nil, nil
}

// restUnit returns the note of the unit that the notes give to all sizes but those that they name, where the sheet names several units;
// nil where there is no such note, or more than one unit.
func (t *unitTable) restUnit() *clause {
	var rest *clause
	for i := range t.notes.clauses {
		n := &t.notes.clauses[i]
		if len(n.units) != 1 || n.mark != "" || slices.ContainsFunc(t.subjectOf(n.text).Roles, func(m words.RoleMatch) bool { return m.Score >= saysOneSize }) {
			continue
		}
		if rest != nil && rest.units[0] != n.units[0] {
			return nil
		}
		rest = n
	}
	return rest
}

// saysOneSize is the score from which a note speaks of one size and not of a part as a whole, as "hosel dimensions" does.
const saysOneSize = 0.8

func (t *unitTable) subjectOf(text string) words.Subject {
	return t.lex.words.Subject(t.kind.String(), text)
}

// freeTexts returns the places of the cells of a sheet that belong to no line of data or heading of a table, and of the
// group headings that say something for several columns.
func freeTexts(g *grid, readers []*roleTable) []sheet.Ref {
	areas := make([]sheet.Range, len(readers))
	for i, t := range readers {
		areas[i] = t.region.rangeOf()
	}
	var places []sheet.Ref
	var about []*roleTable
	for i, row := range g.places {
		about = about[:0]
		for k, t := range readers {
			if areas[k].From.Row <= i+1 && i+1 <= areas[k].To.Row {
				about = append(about, t)
			}
		}
		for j, id := range row {
			ref := sheet.Ref{Row: i + 1, Col: j + 1}
			if g.list[id].text != "" && !slices.ContainsFunc(about, func(t *roleTable) bool { return t.takes(ref) }) {
				places = append(places, ref)
			}
		}
	}
	return places
}

// takes reports whether a cell belongs to a line of data or heading of the table.
func (t *roleTable) takes(ref sheet.Ref) bool {
	r := t.region
	line, col := r.grid.place(ref)
	if line < r.from || line > r.to || col < r.left || col > r.right {
		return false
	}
	switch t.lines[line-r.from] {
	case lineData, lineHeading, lineRepeated, lineTotal:
		return true
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
