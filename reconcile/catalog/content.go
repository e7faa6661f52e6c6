package catalog

import (
	"slices"

	"example.com/seatline/reconcile/sheet"
)

// contentID numbers the different contents of a sheet.
type contentID int32

// nothing is the content of a blank place.
const nothing contentID = 0

// content is what stands in one cell or in many. What the reader finds out about it, it finds out once.
type content struct {
	// text is what a person reads, cleaned.
	text string
	// from is the cell that it stands in first, nil for none.
	from *sheet.Cell
	// asked are the questions that were asked already, and so those of them that it answers with yes.
	asked, so questions
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

// questions is a set of questions about a text, each answered with yes or no.
type questions uint16

const (
	// asNumber: see looksNumeric; asValue: see lexicon.looksValue; asDigits: see bearsDigits; asCode: see looksLikeCode.
	asNumber questions = 1 << iota
	asValue
	asDigits
	asCode
	// asHeading: is it the heading of any role?
	asHeading
	// asClub: see lexicon.clubHeading.
	asClub
	// asDitto: see lexicon.isDitto. asReference: does it refer to another cell, by ditto or another word?
	asDitto
	asReference
)

// answer answers a question about a text.
func (l *lexicon) answer(q questions, text string) bool {
	switch q {
	case asNumber:
		return looksNumeric(text)
	case asValue:
		return l.looksValue(text)
	case asDigits:
		return bearsDigits(text)
	case asCode:
		return looksLikeCode(text)
	case asHeading:
		found := l.match(text)
		return len(found) > 0 && found[0].Score >= headingScore
	case asClub:
		return l.clubHeading(text) != ""
	case asDitto:
		return l.isDitto(text)
	case asReference:
		return saysLeft(text) || l.isDitto(text)
	}
	return false
}

// contents are the different contents of a sheet. Cells that are one and the same have one content, and so the work of understanding
// them is done once however often they stand in the sheet.
type contents struct{ list []content }

// newContents returns contents with nothing in them.
func newContents() *contents { return &contents{make([]content, 1, 64)} }

// add adds a content.
func (c *contents) add(one content) contentID {
	if len(c.list) == cap(c.list) {
		c.list = slices.Grow(c.list, len(c.list)) // by less at a time, more would be copied
	}
	c.list = append(c.list, one)
	return contentID(len(c.list) - 1)
}

// retold returns a content with another text than that of its cell.
func (c *contents) retold(id contentID, text string) contentID {
	if c.list[id].text == text {
		return id
	}
	return c.add(content{text: text, from: c.list[id].from})
}

// is answers a question about a content.
func (c *contents) is(q questions, lex *lexicon, id contentID) bool {
	one := &c.list[id]
	if one.asked&q == 0 {
		one.asked |= q
		if lex.answer(q, one.text) {
			one.so |= q
		}
	}
	return one.so&q != 0
}
