package biff

import (
	"fmt"

	"example.com/seatline/reconcile/sheet"
)

// comments are those of a sheet. A comment stands in two places: a record names its cell and the drawn object that shows it, and the object
// holds the text (MS-XLS, 2.4.179, 2.4.181 and 2.4.329).
type comments struct {
	notes []note
	texts map[int]string
	// object is the number of the object that was begun last, zero where it is none of a comment.
	object int
}

// note is the cell of a comment, and the number of the object with its text.
type note struct {
	at     sheet.Ref
	object int
}

// readNote reads which cell an object comments on.
func (g *grid) readNote(f *fields) error {
	at := sheet.Ref{Row: f.u16() + 1, Col: f.u16() + 1}
	f.skip(2)
	one := note{at, f.u16()}
	if f.err != nil {
		return f.err
	}
	if at.Col > MaxCols {
		return fmt.Errorf("a comment stands at %s, which is not on a sheet", at)
	}
	g.comments.notes = append(g.comments.notes, one)
	return g.spent.many(g.reader, g.out.Name, &g.spent.notes, "comments")
}

// readObject reads what kind of object begins. What is drawn in a way of its own is no comment, and no reason to refuse the cells.
func (g *grid) readObject(f *fields) {
	const common, ofNote = 0x15, 0x19
	g.comments.object = 0
	kind := f.u16()
	f.skip(2)
	if object, number := f.u16(), f.u16(); f.err == nil && kind == common && object == ofNote {
		g.comments.object = number
	}
	f.err = nil
}

// readObjectText reads the text of an object, which follows in further records, as do the fonts of its runs.
func (g *grid) readObjectText(f *fields) error {
	f.skip(10)
	length, runs := f.u16(), f.u16()/8
	rest := &fields{}
	if err := g.records.appendContinued(rest); err != nil {
		return err
	}
	if f.err != nil || g.comments.object == 0 {
		f.err = nil
		return nil
	}
	var one text
	if length > 0 {
		one.units = rest.units(length, rest.u8()&1 != 0)
		one.runs = rest.runs(runs, length, 4)
	}
	if rest.err != nil {
		return nil
	}
	if g.comments.texts == nil {
		g.comments.texts = map[int]string{}
	}
	g.comments.texts[g.comments.object], _ = g.content(one, false)
	return g.spent.text(g.reader, g.out.Name, one.size())
}

// finishComments gives each comment its text, and says where one has none.
func (g *grid) finishComments() error {
	unread := 0
	for _, one := range g.comments.notes {
		text, found := g.comments.texts[one.object]
		switch {
		case !found:
			unread++
		case text != "":
			if err := g.meter.Comment(g.out, one.at, text); err != nil {
				return err
			}
		}
	}
	if unread > 0 {
		g.book.Notes = append(g.book.Notes, sheet.Note{Code: CodeComments, Sheet: g.out.Name,
			Message: fmt.Sprintf("the texts of %d of the %d comments of the sheet cannot be read; look at them in a spreadsheet program", unread, len(g.comments.notes))})
	}
	return nil
}
