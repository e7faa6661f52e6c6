package catalog

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
)

// meaning is what a cell says under its column: what becomes of it in every row that has the same.
type meaning struct {
	// what is the value, nil where the cell states none, and cell its address where that is not the cell's own.
	what *reading
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

// memoKey is all that what a cell says depends on: its content, the contents of the other cells of its line that have a say, the
// title above it, and the place of the column, by which its findings are told.
type memoKey struct {
	own     contentID
	beside  int32
	section int32
	col     int32
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

// meaningOf returns what a cell says under its column in a line, until the next one is asked for. What it has said before in the same
// company it says again.
func (t *tableReader) meaningOf(line int, c *column) *meaning {
	key, repeats := t.memoKey(line, c)
	if !repeats {
		t.spare = meaning{}
		t.understandCell(line, c, &t.spare)
		return &t.spare
	}
	if c.memo.hopeless() {
		c.memo.known = nil
		t.spare = meaning{}
		t.understandCell(line, c, &t.spare)
		t.spare.cell = "" // its own
		return &t.spare
	}
	if known := c.memo.find(key); known != nil {
		for _, one := range known.told {
			one.count++
		}
		return known
	}
	findings := len(t.table.Findings)
	t.recording, t.recorded = true, nil
	u := &meaning{}
	t.understandCell(line, c, u)
	u.cell, u.told = "", t.recorded
	t.recording = false
	measured := u.what != nil && u.what.full != nil && u.what.full.Measured != nil
	if len(t.table.Findings) == findings && !measured { // a finding of its own names the cell, and so do readings
		c.memo.keep(key, u)
	}
	return u
}

// memoKey returns what the meaning of a cell depends on; false where it depends on more: on other lines, on columns that state the same,
// on the answers of a mapping file.
func (t *tableReader) memoKey(line int, c *column) (memoKey, bool) {
	g := t.region.grid
	own := g.id(g.source(line, c.col))
	if len(t.rules.row(line).Values) > 0 || !t.standsAlone(c) || g.is(asDitto, t.lex, own) || g.is(asLeft, t.lex, own) {
		return memoKey{}, false
	}
	key := memoKey{own: own, section: t.sectionNumber, col: int32(c.col)}
	for _, other := range t.companyOf(c) {
		id := g.id(g.source(line, other.col))
		if g.is(asDitto, t.lex, id) {
			return memoKey{}, false
		}
		key.beside = t.pair(key.beside, id)
	}
	return key, true
}

// standsAlone reports whether no other column states the same size or a limit of it.
func (t *tableReader) standsAlone(c *column) bool {
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
func (t *tableReader) companyOf(c *column) []*column {
	if c.company == nil {
		c.company = []*column{}
		if c.trait().want == wantLength {
			if units := t.unitsBeside(c); units != nil {
				c.company = append(c.company, units)
			}
			for _, other := range t.columns {
				switch {
				case other.tolerates(c):
					c.company = append(c.company, other)
				case other.deviatesFrom(c):
					c.company = append(c.company, other, other.partner)
				}
			}
		}
	}
	return c.company
}

// pair numbers pairs of a number and a content.
func (t *tableReader) pair(number int32, id contentID) int32 {
	key := [2]int32{number, int32(id)}
	known, found := t.pairs[key]
	if !found {
		if t.pairs == nil {
			t.pairs = map[[2]int32]int32{}
		}
		known = int32(len(t.pairs) + 1)
		t.pairs[key] = known
	}
	return known
}

// understandCell works out what a cell says under its column, from the columns that state it.
func (t *tableReader) understandCell(line int, c *column, u *meaning) {
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
	fine := measure.Length{}
	if f.Dim.Given() {
		fine = fineness(f.Text, f.Dim.Nominal(), c.profile.digits)
	}
	u.what, u.cell = t.keepReading(f, fine), f.Cell
}

// keepReading keeps a value for the rows that have it.
func (t *tableReader) keepReading(f Field, fine measure.Length) *reading {
	const room = 256
	if len(t.readings) == cap(t.readings) {
		t.readings = make([]reading, 0, room)
	}
	t.readings = append(t.readings, readingOf(f, fine))
	return &t.readings[len(t.readings)-1]
}
