package catalog

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/finding"
)

// meaning is what a cell says under its column: what becomes of it in every row that has the same.
type meaning struct {
	// what is the value, nil where the cell states none, and cell where it stands.
	what *Value
	cell string
	// bad is why a value is not used.
	bad trouble
	// assumed are the assumptions that a row with the value makes.
	assumed []string
	// told are the findings, told once for a column, that count it.
	told []*told
}

// memo keeps what the different cells of a column were understood as. It holds no more than mostUnderstood of them, and gives up
// where a column does not repeat itself, as one of part numbers.
type memo struct {
	known        map[memoKey]*meaning
	asked, found int
}

// memoKey is all that what a cell says depends on: its content, and its company: the contents of the other cells of its line that have a
// say, the title above it, and the place of the column, by which its findings are told.
type memoKey uint64

func keyOf(company int32, own contentID) memoKey {
	return memoKey(uint32(company))<<32 | memoKey(uint32(own))
}

const (
	mostUnderstood = 1 << 16
	// A column is asked memoTrial times before it is given up, where less than one cell in memoShare was known.
	memoTrial = 8192
	memoShare = 8
)

func (m *memo) hopeless() bool { return m.asked >= memoTrial && m.found*memoShare < m.asked }

func (m *memo) find(key memoKey) *meaning {
	m.asked++
	u := m.known[key]
	if u != nil {
		m.found++
	}
	return u
}

func (m *memo) keep(key memoKey, u *meaning) {
	if m.known == nil || len(m.known) >= mostUnderstood {
		m.known = map[memoKey]*meaning{}
	}
	m.known[key] = u
}

// meaningOf returns what a cell says under its column in a line, until the next one is asked for, and where it stands. What it has said
// before in the same company it says again.
func (t *cellReader) meaningOf(line int, c *cellColumn) (*meaning, Place) {
	g := t.region.grid
	fromLine, fromCol := g.source(line, c.col)
	own := g.id(fromLine, fromCol)
	at := Place{}
	key, repeats := t.memoKey(line, c, own)
	switch {
	case repeats:
		at = t.placeAt(c, fromLine, fromCol)
	default:
		t.spare = meaning{}
		t.understandCell(line, c, &t.spare)
		return &t.spare, PlaceIn(c.role, t.spare.cell)
	}
	if c.memo.hopeless() {
		c.memo.known = nil
		t.spare = meaning{}
		t.understandCell(line, c, &t.spare)
		return &t.spare, at
	}
	if known := c.memo.find(key); known != nil {
		for _, one := range known.told {
			one.count++
		}
		return known, at
	}
	findings := len(t.findings)
	t.recording, t.recorded = true, nil
	u := &meaning{}
	t.understandCell(line, c, u)
	u.told = t.recorded
	t.recording = false
	measured := u.what != nil && u.what.IsMeasured()
	if len(t.findings) == findings && !measured { // a finding of its own names the cell, and so do readings
		c.memo.keep(key, u)
	}
	return u, at
}

// placeAt is the place of a value of a column's role at a line and column.
func (t *cellReader) placeAt(c *cellColumn, line, col int) Place {
	return PlaceOf(c.role, t.region.grid.ref(line, col))
}

// memoKey returns what the meaning of a cell depends on; false where it depends on more: on other lines, on columns that state the same,
// on the answers of a mapping file.
func (t *cellReader) memoKey(line int, c *cellColumn, own contentID) (memoKey, bool) {
	g := t.region.grid
	if len(t.rules.Rows) > 0 && len(t.rules.row(line).Values) > 0 || !t.standsAlone(c) || g.is(asReference, t.lex, own) {
		return 0, false
	}
	company := t.baseOf(c)
	for _, other := range t.companyOf(c) {
		id := g.id(g.source(line, other.col))
		if g.is(asReference, t.lex, id) {
			return 0, false
		}
		company = t.pair(company, id)
	}
	return keyOf(company, own), true
}

// baseOf numbers the place of a column below the last title within the body.
func (t *cellReader) baseOf(c *cellColumn) int32 {
	if here := (where{t.sectionNumber, c.col}); c.where != here || c.base == 0 {
		c.where, c.base = here, t.pair(-t.sectionNumber-1, contentID(c.col))
	}
	return c.base
}

// where is a title within the body and a column.
type where struct {
	section int32
	col     int
}

// standsAlone reports whether no other column states the same size or a limit of it.
func (t *cellReader) standsAlone(c *cellColumn) bool {
	if c.alone == unasked {
		c.alone = yes
		for _, other := range t.columns {
			if other != c && other.role == c.role || c.aspect != nominal {
				c.alone = no
			}
		}
	}
	return c.alone == yes
}

// companyOf returns the columns of which the cells beside one have a say in what it means: that of units, and those of tolerances.
func (t *cellReader) companyOf(c *cellColumn) []*cellColumn {
	if c.company == nil {
		c.company = []*cellColumn{}
		if c.trait().want == wantLength {
			if units := t.unitsBeside(c); units != nil {
				c.company = append(c.company, units)
			}
			for _, other := range t.columns {
				switch {
				case other.tolerates(c.role):
					c.company = append(c.company, other)
				case other.deviatesFrom(c.role):
					c.company = append(c.company, other, other.partner)
				}
			}
		}
	}
	return c.company
}

// pair numbers pairs of a number and a content.
func (t *cellReader) pair(number int32, id contentID) int32 {
	key := keyOf(number, id)
	known, found := t.pairs[key]
	if !found {
		if t.pairs == nil {
			t.pairs = map[memoKey]int32{}
		}
		known = int32(len(t.pairs) + 1)
		t.pairs[key] = known
	}
	return known
}

// understandCell works out what a cell says under its column, from the columns that state it.
func (t *cellReader) understandCell(line int, c *cellColumn, u *meaning) {
	f, bad := t.readRole(line, c)
	if c.held != "" && !c.known {
		f, bad = Field{Text: f.Text, Cell: f.Cell}, trouble{finding.Note, "held", c.held}
	}
	u.bad = bad
	if bad.any() {
		f.clear()
	}
	if f.Text == "" && !f.Dim.Given() {
		return
	}
	if t.kindHeld != "" {
		f.clear()
	}
	if c.role == Top || c.role == Style {
		t.checkForm(line, c, f.Text)
	}
	switch c.trait().want {
	case wantLength, wantAngle:
		u.assumed = f.Assumptions
	default:
		if !c.known {
			u.assumed = []string{fmt.Sprintf("column %s taken as %s by its values", t.region.grid.columnName(c.col), c.role)}
		}
	}
	if f.Dim.Given() {
		f.Fine = fineness(f.Text, f.Dim.Nominal(), c.profile.digits)
	}
	u.what, u.cell = t.keepReading(f), f.Cell
}

// keepReading keeps a value for the rows that have it.
func (t *cellReader) keepReading(f Field) *Value {
	const room = 256
	if len(t.readings) == cap(t.readings) {
		t.readings = make([]Value, 0, room)
	}
	t.readings = append(t.readings, ValueOf(f))
	return &t.readings[len(t.readings)-1]
}

// readSection remembers the unit that a title within the body names, and returns its text.
func (t *cellReader) readSection(line int) string {
	text := t.firstTextOf(line)
	t.section, t.sectionUnit = text, t.unitOfSection(text)
	at := slices.Index(t.sectionUnits, t.sectionUnit)
	if at < 0 {
		at = len(t.sectionUnits)
		t.sectionUnits = append(t.sectionUnits, t.sectionUnit)
	}
	t.sectionNumber = int32(at + 1)
	return text
}
