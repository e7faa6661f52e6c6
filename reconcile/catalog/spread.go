package catalog

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

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

func (t *unitTable) subjectOf(text string) words.Subject {
	return t.lex.words.Subject(t.kind.String(), text)
}
