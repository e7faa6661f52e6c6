package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/publish/tell"
)

// table is a sheet with a title, notes, one heading row and filters. What does not fit on it goes on with the next of its name.
type table struct {
	name, title string
	// part counts the sheets of the table from 0.
	part    int
	notes   []string
	columns []column
	// frozen is how many columns stay in view, printed how many are printed; 0 prints all.
	frozen, printed int
	tab             string
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
	p := b.page(numbered(t.name, t.part), l)
	p.table = &t
	p.putRow(excelize.RowOpts{Height: 24}, p.as(t.title, title))
	for i, text := range t.notes {
		if t.part > 0 && i == len(t.notes)-1 {
			text += fmt.Sprintf(" Continued from “%s”.", numbered(t.name, t.part-1))
		}
		p.put(p.as(text, note))
	}
	p.putRow(excelize.RowOpts{Height: heightFor(lines) + 4}, headings...)
	return p
}

// close ends the table.
func (p *page) close() {
	p.filter(p.table.headingRow(), len(p.table.columns))
	p.done()
}

// goOn ends the sheet and begins the next of the table.
func (p *page) goOn() {
	p.close()
	next := *p.table
	next.part++
	*p = *p.open(next)
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
