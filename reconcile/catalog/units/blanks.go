package units

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
)

// BlankNote returns the note that says of the blank cells of a column that they mean what stands above; nil where there is none. Where a note
// speaks of no columns it means those whose values parts may have in common: a name or a colour is each part's own.
func (t *Table) BlankNote(c *Column) *layout.Clause {
	if !c.Trait().Shared() && c.Role != catalog.Price {
		return nil
	}
	for i := range t.notes.Blanks {
		note := &t.notes.Blanks[i]
		said, _ := t.Lex.Words.Blanks(t.Kind.String(), note.Text)
		switch {
		case said.All(), slices.Contains(said.Roles, string(c.Role)):
			return note
		case c.Trait().Want != traits.Length:
		case said.Sizes, said.Class == classOf(c.Role):
			return note
		}
	}
	return nil
}

// OldStays returns the note that says what a blank new value means where an old one stands beside it, and whether it says that the old one
// stays. Where no note speaks of blank cells it does; where one does and says something else it does not.
func (t *Table) OldStays() (note *layout.Clause, stays bool) {
	for i := range t.notes.OfBlanks {
		note = &t.notes.OfBlanks[i]
		if stays, _ = t.Lex.Words.OldStays(note.Text); stays {
			return note, true
		}
	}
	return note, note == nil
}

// SpeakOfBlanks reports whether a note says anything of blank cells.
func (t *Table) SpeakOfBlanks() bool { return len(t.notes.OfBlanks) > 0 || len(t.notes.Blanks) > 0 }
