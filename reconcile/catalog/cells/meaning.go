package cells

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/seen"
	"example.com/seatline/reconcile/sheet"
)

// meaning is what a cell says under its column: what becomes of it in every row that has the same.
type meaning struct {
	// What is the value, nil where the cell states none.
	What *catalog.Value
	// Bad is why a value is not used, nil where there is nothing wrong with it.
	Bad *Trouble
	// Assumed are the assumptions that a row with the value makes.
	Assumed []string
	// told are the findings, told once for a column, that count it.
	told []*layout.Told
}

// memo keeps what the different cells of a column were understood as. It holds no more than mostUnderstood of them, and gives up
// where a column does not repeat itself, as one of part numbers.
type memo struct {
	known table[*meaning]
	tally seen.Tally
}

// memoKey is all that what a cell says depends on: its content, and its company: the contents of the other cells of its line that have a
// say, the title above it, and the place of the column, by which its findings are told. It is never zero.
type memoKey uint64

func keyOf(company int32, own grid.ID) memoKey {
	return memoKey(uint32(company))<<32 | memoKey(uint32(own))
}

const mostUnderstood = 1 << 16

func (m *memo) find(key memoKey) *meaning {
	u, found := m.known.find(key)
	m.tally.Count(found)
	return u
}

func (m *memo) keep(key memoKey, u *meaning) {
	if m.known.count >= mostUnderstood {
		m.known = table[*meaning]{}
	}
	m.known.put(key, u)
}

// MeaningOf returns what a cell says under its column in a line, until the next one is asked for, and where it stands. What it has said
// before in the same company it says again.
func (t *Reader) MeaningOf(line int, c *Column) (*meaning, catalog.Place) {
	if t.dependsOnMore(line, c) {
		t.spare = meaning{}
		cell := t.understandCell(line, c, &t.spare)
		return &t.spare, catalog.PlaceIn(c.Role, cell)
	}
	g := t.Region.Grid
	fromLine, fromCol := g.Source(line, c.Col)
	own := g.Id(fromLine, fromCol)
	if c.memo.tally.Hopeless() {
		c.memo.known = table[*meaning]{}
		t.spare = meaning{}
		if refers := g.Is(lexicon.AsReference, t.Lex, own); refers || !t.understandText(own, c, &t.spare) {
			if cell := t.understandCell(line, c, &t.spare); refers {
				return &t.spare, catalog.PlaceIn(c.Role, cell)
			}
		}
		return &t.spare, t.placeAt(c, fromLine, fromCol)
	}
	key := t.memoKey(line, c, own)
	if known := c.memo.find(key); known != nil {
		for _, one := range known.told {
			one.Count++
		}
		return known, t.placeAt(c, fromLine, fromCol)
	}
	refers := t.refers(line, c, own)
	findings := len(t.Findings)
	t.Recording, t.Recorded = true, nil
	u := t.newMeaning()
	cell := t.understandCell(line, c, u)
	u.told = t.Recorded
	t.Recording = false
	if refers {
		return u, catalog.PlaceIn(c.Role, cell)
	}
	measured := u.What != nil && u.What.IsMeasured()
	if len(t.Findings) == findings && !measured { // a finding of its own names the cell, and so do readings
		c.memo.keep(key, u)
	}
	return u, t.placeAt(c, fromLine, fromCol)
}

// newMeaning makes room for a meaning.
func (t *Reader) newMeaning() *meaning {
	const room = 64
	if len(t.meanings) == cap(t.meanings) {
		t.meanings = make([]meaning, 0, room)
	}
	t.meanings = t.meanings[:len(t.meanings)+1]
	return &t.meanings[len(t.meanings)-1]
}

// placeAt is the place of a value of a column's role at a line and column.
func (t *Reader) placeAt(c *Column, line, col int) catalog.Place {
	return catalog.PlaceOf(c.Role, t.Region.Grid.Ref(line, col))
}

// dependsOnMore reports whether what a cell says depends on more than its key has: on columns that state the same or did so before a
// change, on tolerances of sections and remarks, on the answers of a mapping file. What refers to other lines does too, see refers.
func (t *Reader) dependsOnMore(line int, c *Column) bool {
	return !t.standsAlone(c) || c.TolerancesBySection() || t.leavesOld(line, c) || c.Trait().Want == traits.Length && t.limitsRemarked(line) || len(t.Rules.Rows) > 0 && len(t.RowRule(line).Values) > 0
}

// refers reports whether a cell, or one of its company, stands for another line's. What such cells say is never kept.
func (t *Reader) refers(line int, c *Column, own grid.ID) bool {
	g := t.Region.Grid
	if g.Is(lexicon.AsReference, t.Lex, own) {
		return true
	}
	for _, other := range t.companyOf(c) {
		if g.Is(lexicon.AsReference, t.Lex, g.Id(g.Source(line, other.Col))) {
			return true
		}
	}
	return false
}

// memoKey returns what the meaning of a cell depends on.
func (t *Reader) memoKey(line int, c *Column, own grid.ID) memoKey {
	g := t.Region.Grid
	company := t.baseOf(c)
	for _, other := range t.companyOf(c) {
		company = t.pair(company, g.Id(g.Source(line, other.Col)))
	}
	return keyOf(company, own)
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

// companyOf returns the columns of which the cells beside one have a say in what it means: that of units, that of pieces a price is for, that
// of packs in which a stock is counted, and those of tolerances.
func (t *Reader) companyOf(c *Column) []*Column {
	if c.company == nil {
		c.company = []*Column{}
		if c.piecesBeside != nil {
			c.company = append(c.company, c.piecesBeside)
		}
		if packs := t.ByRole[catalog.Pack]; packs != nil && c.Role == catalog.Stock {
			c.company = append(c.company, packs)
		}
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

// pair numbers pairs of a number and a content, from 1.
func (t *Reader) pair(number int32, id grid.ID) int32 {
	key := keyOf(number, id)
	known, found := t.pairs.find(key)
	if !found {
		known = int32(t.pairs.count + 1)
		t.pairs.put(key, known)
	}
	return known
}

// understandText is understandCell for a cell of words under a column of words, of which there is nothing to find out. It reports false where
// there may be.
func (t *Reader) understandText(own grid.ID, c *Column, u *meaning) bool {
	cell := t.Region.Grid.CellOf(own)
	switch want := c.Trait().Want; {
	case want != traits.Text && want != traits.Code, c.Role == catalog.Top, c.Role == catalog.Style, !c.Known, c.Held != "", t.KindHeld != "",
		cell.Kind != sheet.Text, cell.Formula != "", cell.Raw == "", cell.Raw[0] == '=', cell.Raw[0] == '#':
		return false
	}
	if text := t.Region.Grid.Text(own); text != "" && text[0] != '=' {
		u.What = t.keep(catalog.ValueOfText(text))
		return true
	}
	return false
}

// understandCell works out what a cell says under its column, from the columns that state it, and returns the address where it stands.
func (t *Reader) understandCell(line int, c *Column, u *meaning) string {
	f, bad := t.readRole(line, c)
	if c.Held != "" && !c.Known {
		f, bad = catalog.Field{Text: f.Text, Cell: f.Cell}, Trouble{Severity: finding.Note, Code: "held", Message: c.Held}
	}
	if bad.Any() {
		u.Bad = &bad
		f.Clear()
	}
	if f.Text == "" && !f.Dim.Given() {
		return ""
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
			u.Assumed = []string{t.TakenByValues(c.Col, c.Role)}
		}
	}
	if f.Dim.Given() {
		f.Fine = c.fineness(f)
	}
	u.What = t.keep(catalog.ValueOf(f))
	return f.Cell
}

// keep keeps a value for the rows that have it.
func (t *Reader) keep(v catalog.Value) *catalog.Value {
	const room = 256
	if len(t.readings) == cap(t.readings) {
		t.readings = make([]catalog.Value, 0, room)
	}
	t.readings = append(t.readings, v)
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
