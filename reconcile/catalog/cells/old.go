package cells

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/value"
)

// leavesOld reports whether the line has an old value of a column, and no new one.
func (t *Reader) leavesOld(line int, c *Column) bool {
	if c.Older == nil {
		return false
	}
	g := t.Region.Grid
	return g.Filled(line, c.Col) == "" && g.Filled(line, c.Older.Col) != ""
}

// readOld reads a blank cell: where an old value stands beside it that stays, as that. People fill in what changes.
func (t *Reader) readOld(line int, c *Column, f catalog.Field) (catalog.Field, Trouble) {
	if !t.leavesOld(line, c) {
		return f, Trouble{}
	}
	note, stays := t.OldStays()
	g := t.Region.Grid
	name := g.ColumnName(c.Older.Col)
	if !stays {
		return f, Problem("data.missing", "%s is blank, and that the old one in column %s stays is not what the %s says of blank cells", c.Name(), name,
			layout.Describe(note.Text, note.Place.String()))
	}
	was := *c
	was.Col = c.Older.Col
	old, bad := t.readField(line, &was)
	if bad.Any() {
		return old, bad
	}
	by := "since no new one is given"
	if note != nil {
		by = "by the " + layout.Describe(note.Text, note.Place.String())
	}
	old.Assumptions = append(old.Assumptions, fmt.Sprintf("%s is the old one of column %s, %s", catalog.RoleName(t.Kind, c.Role), name, by))
	return old, Trouble{}
}

// Was returns the size that a line gives for a column from before a change; false where there is none that can be read.
func (t *Reader) Was(line int, c *Column) (was measure.Dim, known bool) {
	text := t.Region.Grid.Filled(line, c.Older.Col)
	if text == "" {
		return measure.Dim{}, false
	}
	reading := t.Lex.Read(text, value.Context{Want: c.Trait().Wanted(), Unit: c.Unit, Mark: c.Mark, Language: t.Language})
	return reading.Dim, reading.Kind == value.Length && reading.Problem.Code == ""
}
