package workbook

import (
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/report"
)

// WriteReport writes a report as a workbook: its summary as the first sheet, and each section as one after it. The error is the writer's, or
// that of a report beyond what a workbook can hold.
func WriteReport(w io.Writer, r *report.Report, opts Options) (err error) {
	b := newBook(opts, standardLimits)
	b.subject, b.foot, b.numbering = r.Subject, r.Foot, r.Page
	defer func() {
		if closing := b.file.Close(); err == nil {
			err = closing
		}
	}()
	b.nameSheets(r)
	if r.Summary.Name != "" {
		b.summary(&r.Summary)
	}
	for i := range r.Sections {
		b.sectionSheet(b.sheets[i], &r.Sections[i])
	}
	if err := b.finish(w); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	return nil
}

// nameSheets gives every section a sheet.
func (b *book) nameSheets(r *report.Report) {
	names := sheetNames{taken: map[string]bool{}}
	if r.Summary.Name != "" {
		names.of(r.Summary.Name)
	}
	b.sheetOf = map[string]string{}
	for _, s := range r.Sections {
		sheet := names.of(s.Name)
		b.sheets = append(b.sheets, sheet)
		if _, known := b.sheetOf[s.Name]; !known {
			b.sheetOf[s.Name] = sheet
		}
	}
}

// sectionSheet writes a section as a sheet.
func (b *book) sectionSheet(sheet string, s *report.Section) {
	p := b.open(sheet, s, columns{})
	for _, row := range s.Rows {
		p.put(p.cells(row)...)
	}
	p.close()
}

var toneFills = [...]string{
	report.Usual: band, report.Good: fillFlush, report.Work: fillTurn, report.Prepared: fillPrep, report.Asked: fillAsk, report.Without: fillBare, report.Aside: faint,
	report.First: ink,
}

// columns says which columns and rows of a sheet are there for formulas.
type columns struct {
	// shown is how many are seen; those after them are there to be looked up in. 0 shows all.
	shown int
	// whole is set for a table that formulas look up in, which has all its rows.
	whole bool
}

// headingRow is where the headings of a section stand: below its title and its notes.
func headingRow(s *report.Section) int { return len(s.Notes) + 2 }

// open begins the sheet of a section and writes all above the first row.
func (b *book) open(sheet string, s *report.Section, c columns) *page {
	top := headingRow(s)
	l := layout{freezeRows: top, freezeColumns: s.Frozen, repeatFrom: top, printColumns: s.PrintedColumns(), outlined: true, tab: toneFills[s.Tone]}
	headings := make([]any, len(s.Columns))
	lines := 1
	for i, c := range s.Columns {
		text := c.HeadingText(b.opts.Units)
		l.widths = append(l.widths, c.Width)
		headings[i] = excelize.Cell{Value: clean(text), StyleID: b.style(headingLook(c.Kind))}
		lines = max(lines, linesIn(text, c.Width*0.9)) // bold letters are wider
	}
	for i := c.shown; c.shown > 0 && i < len(s.Columns); i++ {
		l.hidden = append(l.hidden, i+1)
	}
	if s.LookUp { // a hidden column is all that is printed
		l.widths, l.hidden = append(l.widths, 1), append(l.hidden, len(s.Columns)+1)
	}
	p := b.page(sheet, l)
	p.section, p.headingRow, p.whole = s, top, c.whole
	p.putRow(excelize.RowOpts{Height: 24}, p.as(s.Heading(), title))
	for _, text := range s.Notes {
		p.note(text)
	}
	p.putRow(excelize.RowOpts{Height: heightFor(lines) + 4}, headings...)
	return p
}

// note writes a text above a table, in as many lines as the printed columns leave it.
func (p *page) note(text string) {
	columns := p.printedColumns()
	lines := linesIn(text, p.across(0, columns))
	if lines == 1 || columns == 1 {
		p.put(p.as(text, note))
		return
	}
	l := note
	l.wrap = true
	p.putRow(excelize.RowOpts{Height: heightFor(lines)}, p.as(text, l))
	p.merge(1, columns)
}

// headingLook is that of a heading, which stands as its cells do: to the left over text, to the right over numbers.
func headingLook(kind report.Kind) look {
	l := heading
	switch {
	case kind.IsNumber():
		l.across, l.indent = "right", 1
	case kind == report.KindWord || kind == report.KindVerdict:
		l.across = "center"
	case kind == report.KindSentence:
		l.indent = 1
	}
	return l
}

// close ends the sheet of a section: what is left out, the total, the filters, the graph.
func (p *page) close() {
	s, last := p.section, p.row
	if p.row == p.headingRow && s.Empty != "" {
		p.put(p.as(s.Empty, prose))
	}
	if s.Total != nil {
		p.total(s)
	}
	if s.Graph == nil { // a filter would take points out of it
		p.filter(p.headingRow, last, len(s.Columns))
	}
	if left := p.full; left > 0 {
		text := phrase.Count(left, "row") + " more would be too many to read here"
		if s.All != "" {
			text += "; all stand in " + s.All
		}
		p.whole = true // the row is beyond the last
		p.put(p.as(text+".", note))
	}
	if s.Graph != nil && p.full == 0 {
		p.graph(s.Graph)
	}
	p.done()
}

func (p *page) total(s *report.Section) {
	cells := make([]any, len(s.Total))
	for i, v := range s.Total {
		cells[i] = p.cell(v, s.Columns[i].Kind, look{bold: true, over: true})
	}
	p.put(cells...)
}

// add writes the next row of a section.
func (p *page) add(row ...any) {
	if p.room() {
		p.put(p.cells(row)...)
	}
}

// cells are the cells of a row of a section.
func (p *page) cells(row []any) []any {
	cells := make([]any, len(row))
	for i, v := range row {
		l := plain
		if p.section.Columns[i].Strong {
			l = strong
		}
		cells[i] = p.cell(v, p.section.Columns[i].Kind, l)
	}
	return cells
}

// answerLook is an empty cell to write into.
var answerLook = look{under: true, fill: fillAsk, wrap: true}

// leading is a cell that leads somewhere once its row is written.
type leading struct {
	excelize.Cell
	section string        // of the report
	row     int           // of its sheet
	source  finding.Place // in a file that was read
}

// cell is a typed cell of a column of a kind, in the look of the column.
func (p *page) cell(v any, kind report.Kind, l look) any {
	switch v := v.(type) {
	case nil:
		return p.as("", l)
	case report.Strong:
		l.bold = true
		return p.cell(v.Cell, kind, l)
	case report.Faint:
		l.color = faint
		return p.cell(v.Cell, kind, l)
	case report.Begins:
		l.over = true
		return p.cell(v.Cell, kind, l)
	case report.Marked:
		l.bold, l.fill = true, toneFills[v.Tone]
		return p.cell(v.Cell, kind, l)
	case report.Answer:
		return p.as("", answerLook)
	case report.Link:
		return leading{Cell: p.as(v.Text, l.linked()), section: v.Section, row: max(1, v.Row)}
	case report.Size:
		return p.sizeCell(v, kind, l)
	case fitcalc.Verdict:
		return p.verdict(v)
	case report.Judged:
		return p.as(v.Text, verdictLook(v.Verdict))
	case finding.Severity:
		return p.as(v.String(), severityLook(v))
	case finding.Place:
		return p.source(v, p.placeName(v), l)
	case report.At:
		return p.at(v, l)
	case string:
		return p.as(v, textLook(kind, l))
	}
	return p.number(v, kind, l)
}

// at is a cell of a sheet, or its row as a number.
func (p *page) at(a report.At, l look) any {
	if a.Cell == "" && a.Row > 0 {
		l.format, l.across = `"row "0`, "left"
		return p.source(a.Place, a.Row, l)
	}
	if a.Cell == "" {
		return p.as("", l)
	}
	return p.source(a.Place, a.Cell, l)
}

func textLook(kind report.Kind, l look) look {
	switch {
	case kind == report.KindSentence:
		l.wrap, l.indent = true, 1
	case kind == report.KindWord:
		return l.centred()
	case kind.IsNumber(): // a word where there is no number
		l.wrap = true // a column of sizes is narrow
		if l.across == "" {
			l.across, l.indent = "right", 1
		}
	}
	return l
}

func (p *page) sizeCell(s report.Size, kind report.Kind, l look) any {
	switch {
	case !s.Known:
		return p.as("", l)
	case kind == report.KindAlong:
		return p.as(p.reader.shown(s.Length), l.number(p.reader.along(s.Length)))
	case kind == report.KindFine:
		return p.as(p.reader.shown(s.Length), l.number(p.reader.fine()))
	}
	return p.as(p.reader.shown(s.Length), l.number(p.reader.format()))
}

// numbers are how numbers of a kind are shown, and to how many decimals they are kept.
var numbers = map[report.Kind]struct {
	format   string
	decimals int
}{
	report.KindPieces: {"#,##0.####", 4}, report.KindMinutes: {formatMinutes, 2}, report.KindHours: {"#,##0.0", 3}, report.KindShare: {formatShare, 4},
	report.KindMoney: {"#,##0.00", 2}, report.KindPrice: {"#,##0.00##", 4},
}

func (p *page) number(v any, kind report.Kind, l look) any {
	if kind == report.KindWord {
		return p.as(v, l.centred())
	}
	shown, known := numbers[kind]
	if !known {
		return p.as(v, l.number(formatCount))
	}
	if x, is := v.(float64); is {
		v = rounded(x, shown.decimals)
	}
	return p.as(v, l.number(shown.format))
}
