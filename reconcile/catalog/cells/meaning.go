package cells

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// meaning is what a cell says under its column: what becomes of it in every row that has the same.
type meaning struct {
	// What is the value, nil where the cell states none, and cell where it stands.
	What *catalog.Value
	cell string
	// Bad is why a value is not used.
	Bad Trouble
	// Assumed are the assumptions that a row with the value makes.
	Assumed []string
	// told are the findings, told once for a column, that count it.
	told []*layout.Told
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

func keyOf(company int32, own grid.ID) memoKey {
	return memoKey(uint32(company))<<32 | memoKey(uint32(own))
}

const (
	mostUnderstood = 1 << 16
	// A column is asked memoTrial times before it is given up, where less than one cell in memoShare was known.
	MemoTrial = 8192
	memoShare = 8
)

func (m *memo) hopeless() bool { return m.asked >= MemoTrial && m.found*memoShare < m.asked }

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

// MeaningOf returns what a cell says under its column in a line, until the next one is asked for, and where it stands. What it has said
// before in the same company it says again.
func (t *Reader) MeaningOf(line int, c *Column) (*meaning, catalog.Place) {
	g := t.Region.Grid
	fromLine, fromCol := g.Source(line, c.Col)
	own := g.Id(fromLine, fromCol)
	at := catalog.Place{}
	key, repeats := t.memoKey(line, c, own)
	switch {
	case repeats:
		at = t.placeAt(c, fromLine, fromCol)
	default:
		t.spare = meaning{}
		t.understandCell(line, c, &t.spare)
		return &t.spare, catalog.PlaceIn(c.Role, t.spare.cell)
	}
	if c.memo.hopeless() {
		c.memo.known = nil
		t.spare = meaning{}
		t.understandCell(line, c, &t.spare)
		return &t.spare, at
	}
	if known := c.memo.find(key); known != nil {
		for _, one := range known.told {
			one.Count++
		}
		return known, at
	}
	findings := len(t.Findings)
	t.Recording, t.Recorded = true, nil
	u := &meaning{}
	t.understandCell(line, c, u)
	u.told = t.Recorded
	t.Recording = false
	measured := u.What != nil && u.What.IsMeasured()
	if len(t.Findings) == findings && !measured { // a finding of its own names the cell, and so do readings
		c.memo.keep(key, u)
	}
	return u, at
}

// placeAt is the place of a value of a column's role at a line and column.
func (t *Reader) placeAt(c *Column, line, col int) catalog.Place {
	return catalog.PlaceOf(c.Role, t.Region.Grid.Ref(line, col))
}

// memoKey returns what the meaning of a cell depends on; false where it depends on more: on other lines, on columns that state the same,
// on the answers of a mapping file.
func (t *Reader) memoKey(line int, c *Column, own grid.ID) (memoKey, bool) {
	g := t.Region.Grid
	if len(t.Rules.Rows) > 0 && len(t.Rules.Row(line).Values) > 0 || !t.standsAlone(c) || g.Is(lexicon.AsReference, t.Lex, own) {
		return 0, false
	}
	company := t.baseOf(c)
	for _, other := range t.companyOf(c) {
		id := g.Id(g.Source(line, other.Col))
		if g.Is(lexicon.AsReference, t.Lex, id) {
			return 0, false
		}
		company = t.pair(company, id)
	}
	return keyOf(company, own), true
}

// baseOf numbers the place of a column below the last title within the body.
func (t *Reader) baseOf(c *Column) int32 {
	if here := (where{t.sectionNumber, c.Col}); c.where != here || c.base == 0 {
		c.where, c.base = here, t.pair(-t.sectionNumber-1, grid.ID(c.Col))
	}
	return c.base
}

// where is a title within the body and a column.
type where struct {
	section int32
	col     int
}

// standsAlone reports whether no other column states the same size or a limit of it.
func (t *Reader) standsAlone(c *Column) bool {
	if c.alone == unasked {
		c.alone = yes
		for _, other := range t.Columns {
			if other != c && other.Role == c.Role || c.Aspect != columns.Nominal {
				c.alone = no
			}
		}
	}
	return c.alone == yes
}

// companyOf returns the columns of which the cells beside one have a say in what it means: that of units, and those of tolerances.
func (t *Reader) companyOf(c *Column) []*Column {
	if c.company == nil {
		c.company = []*Column{}
		if c.Trait().Want == traits.Length {
			if units := c.unitsBeside; units != nil {
				c.company = append(c.company, units)
			}
			for _, other := range t.Columns {
				switch {
				case other.Tolerates(c.Role):
					c.company = append(c.company, other)
				case other.DeviatesFrom(c.Role):
					c.company = append(c.company, other, other.partner)
				}
			}
		}
	}
	return c.company
}

// pair numbers pairs of a number and a content.
func (t *Reader) pair(number int32, id grid.ID) int32 {
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
func (t *Reader) understandCell(line int, c *Column, u *meaning) {
	f, bad := t.readRole(line, c)
	if c.Held != "" && !c.Known {
		f, bad = catalog.Field{Text: f.Text, Cell: f.Cell}, Trouble{Severity: finding.Note, Code: "held", Message: c.Held}
	}
	u.Bad = bad
	if bad.Any() {
		f.Clear()
	}
	if f.Text == "" && !f.Dim.Given() {
		return
	}
	if t.KindHeld != "" {
		f.Clear()
	}
	if c.Role == catalog.Top || c.Role == catalog.Style {
		t.checkForm(line, c, f.Text)
	}
	switch c.Trait().Want {
	case traits.Length, traits.Angle:
		u.Assumed = f.Assumptions
	default:
		if !c.Known {
			u.Assumed = []string{fmt.Sprintf("column %s taken as %s by its values", t.Region.Grid.ColumnName(c.Col), c.Role)}
		}
	}
	if f.Dim.Given() {
		f.Fine = fineness(f.Text, f.Dim.Nominal(), c.Profile.Digits)
	}
	u.What, u.cell = t.keepReading(f), f.Cell
}

// keepReading keeps a value for the rows that have it.
func (t *Reader) keepReading(f catalog.Field) *catalog.Value {
	const room = 256
	if len(t.readings) == cap(t.readings) {
		t.readings = make([]catalog.Value, 0, room)
	}
	t.readings = append(t.readings, catalog.ValueOf(f))
	return &t.readings[len(t.readings)-1]
}

// ReadSection remembers the unit that a title within the body names, and returns its text.
func (t *Reader) ReadSection(line int) string {
	text := t.FirstTextOf(line)
	t.Section, t.sectionUnit = text, t.UnitOfSection(text)
	at := slices.Index(t.sectionUnits, t.sectionUnit)
	if at < 0 {
		at = len(t.sectionUnits)
		t.sectionUnits = append(t.sectionUnits, t.sectionUnit)
	}
	t.sectionNumber = int32(at + 1)
	return text
}
