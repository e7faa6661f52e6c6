package grid

import (
	"iter"
	"slices"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet"
)

// ID numbers the different contents of a sheet.
type ID int32

// Nothing is the content of a blank place.
const Nothing ID = 0

// content is what stands in one cell or in many. What the reader finds out about it, it finds out once.
type content struct {
	// text is what a person reads, cleaned.
	text string
	// from is the cell that it stands in first, nil for none.
	from *sheet.Cell
	// asked are the questions that were asked already, and so those of them that it answers with yes.
	asked, so lexicon.Questions
}

// cell returns the cell.
func (c *content) cell() sheet.Cell {
	if c.from == nil {
		return sheet.Cell{}
	}
	return *c.from
}

// filled reports whether there is anything to see or to work out.
func (c *content) filled() bool { return c.text != "" || c.from != nil && c.from.Formula != "" }

// contents are the different contents of a sheet. Cells that are one and the same have one content, and so the work of understanding
// them is done once however often they stand in the sheet.
type contents struct{ list []content }

// newContents returns contents with nothing in them.
func newContents() *contents { return &contents{make([]content, 1, 64)} }

// add adds a content.
func (c *contents) add(one content) ID {
	if len(c.list) == cap(c.list) {
		c.list = slices.Grow(c.list, len(c.list)) // by less at a time, more would be copied
	}
	c.list = append(c.list, one)
	return ID(len(c.list) - 1)
}

// retold returns a content with another text than that of its cell.
func (c *contents) retold(id ID, text string) ID {
	if c.list[id].text == text {
		return id
	}
	return c.add(content{text: text, from: c.list[id].from})
}

// Is answers a question about a content.
func (c *contents) Is(q lexicon.Questions, lex *lexicon.Lexicon, id ID) bool {
	one := &c.list[id]
	if one.asked&q == 0 {
		one.asked |= q
		if lex.Answer(q, one.text) {
			one.so |= q
		}
	}
	return one.so&q != 0
}

// Text returns the text of a content, cleaned.
func (c *contents) Text(id ID) string { return c.list[id].text }

// CellOf returns the cell that a content stands in first.
func (c *contents) CellOf(id ID) sheet.Cell { return c.list[id].cell() }

// fills reports whether there is anything to see or to work out in a content.
func (c *contents) fills(id ID) bool { return c.list[id].filled() }

// Texts are the different texts of the sheet.
func (c *contents) Texts() iter.Seq[string] {
	return func(yield func(string) bool) {
		for i := range c.list {
			if !yield(c.list[i].text) {
				return
			}
		}
	}
}
