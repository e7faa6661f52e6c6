package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/publish/tell"
)

// table is a sheet with a title, notes, one heading row and filters.
type table struct {
	name, title string
	notes       []string
	columns     []column
	// frozen is how many columns stay in view, printed how many are printed; 0 prints all.
	frozen, printed int
	// shown is how many columns are seen; those after them are there to be looked up in. 0 shows all.
	shown int
	tab   string
	// all is the file that has every row, where there is one.
	all string
	// forLookup is set for a table of which only the beginning is printed, and lookup for one that formulas look up in, which has all its
	// rows.
	forLookup, lookup bool
}

// column is a column of a table. Its heading stands as its cells do: to the left over text, to the right over numbers.
type column struct {
	heading string
	width   float64
	kind    kind
}

type kind uint8

const (
	texts kind = iota
	numbers
	words     // short words and counts, in the middle
	sentences // texts that are wrapped
)

var headingLook = [...]look{
	texts:     heading,
	numbers:   {bold: true, color: white, fill: header, wrap: true, down: "bottom", across: "right", indent: 1},
	words:     {bold: true, color: white, fill: header, wrap: true, down: "bottom", across: "center"},
	sentences: {bold: true, color: white, fill: header, wrap: true, down: "bottom", indent: 1},
}

// headingRow is where the headings stand: below the title and the notes.
func (t table) headingRow() int { return len(t.notes) + 2 }

// open begins the sheet and writes all above the first row of data.
func (b *book) open(t table) *page {
	l := layout{
		freezeRows: t.headingRow(), freezeColumns: t.frozen, repeatFrom: t.headingRow(), printColumns: t.printed, tab: t.tab,
	}
	headings := make([]any, len(t.columns))
	lines := 1
	for i, c := range t.columns {
		l.widths = append(l.widths, c.width)
		headings[i] = excelize.Cell{Value: c.heading, StyleID: b.style(headingLook[c.kind])}
		lines = max(lines, linesIn(c.heading, c.width*0.9)) // bold letters are wider
	}
	for i := t.shown; t.shown > 0 && i < len(t.columns); i++ {
		l.hidden = append(l.hidden, i+1)
	}
	p := b.page(t.name, l)
	p.table, p.lookingUp = &t, t.forLookup
	p.putRow(excelize.RowOpts{Height: 24}, p.as(t.title, title))
	for _, text := range t.notes {
		p.put(p.as(text, note))
	}
	p.putRow(excelize.RowOpts{Height: heightFor(lines) + 4}, headings...)
	return p
}

// close ends the table.
func (p *page) close() {
	p.filter(p.table.headingRow(), len(p.table.columns))
	if left := p.full; left > 0 {
		whole := p.table.whole()
		p.table = nil // the row is beyond it
		p.put(p.as(fmt.Sprintf("%s more would be too many to read here%s.", counted(left, "row"), whole), note))
	}
	p.done()
}

// whole says where all rows of the table stand.
func (t *table) whole() string {
	if t.all == "" {
		return ""
	}
	return "; all stand in " + t.all
}

// length is a cell with a diameter or a difference of diameters, empty where it is not known.
func (p *page) length(known bool, l measure.Length, look look) any {
	if !known {
		return p.as("", look)
	}
	return p.as(p.reader.value(l), look.number(p.reader.format()))
}

// perSide is a cell with half of an amount on the diameter, with one more decimal than that, since halves need it.
func (p *page) perSide(known bool, a fitcalc.Amount) any {
	if !known {
		return p.as("", plain)
	}
	return p.as(p.reader.value(a.PerSide().Nominal), plain.number(p.reader.format()+"0"))
}

// size is a cell with the nominal size of a diameter, empty where it is not given.
func (p *page) size(d measure.Dim, look look) any { return p.length(d.Given(), d.Nominal(), look) }

// along is a cell with a length along the axis, empty where it is not known.
func (p *page) along(known bool, l measure.Length, look look) any {
	if !known {
		return p.as("", look)
	}
	return p.as(p.reader.value(l), look.number(p.reader.along(l)))
}

// verdict is a cell with a verdict's word on its fill.
func (p *page) verdict(v fitcalc.Verdict) any { return p.as(v.String(), verdictLook(v)) }

// why is the reason that decides a fit, as a sentence.
func (p *page) why(fit *fitcalc.Fit) string {
	reason, found := tell.Deciding(fit)
	if !found {
		return ""
	}
	return reason.Sentence(p.opts.Units)
}

// odRole is the column that a head's OD stands in.
func odRole(h *catalog.Head) catalog.Role {
	if h.Head.Adapter.Given() {
		return catalog.AdapterOD
	}
	return catalog.HoselOD
}
