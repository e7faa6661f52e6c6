package webpage

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/runs"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// table is the state of reading one table.
type table struct {
	number int // among the tables of the page
	out    *sheet.Sheet
	pool   sheet.Pool[sheet.Cell]
	// marks is how many marks there were when its current cell began, or it did.
	marks int
	// until holds, for each column, the last row that a cell above covers.
	until []int
	// merges is how many of the merged ranges are of sections that have ended.
	merges        int
	sectionHidden bool
	inRow         bool
	rowPaint      sheet.Paint
	painted       []paintedCell // those of the row
	cells         []*sheet.Cell
	col           int // of the current cell, from 0
	cell          *cell
	caption       *words
	filled        bool // something stands in it
}

// cell is a cell that is being read.
type cell struct {
	words
	attributes
	inks []sheet.Colour
}

// paintedCell are the columns of a coloured cell of a row.
type paintedCell struct {
	from, to int
	paint    sheet.Paint
}

// mostInks is how many different colours of characters are told of a cell.
const mostInks = 16

func (c *cell) addInk(ink sheet.Colour) {
	if !slices.Contains(c.inks, ink) && len(c.inks) < mostInks {
		c.inks = append(c.inks, ink)
	}
}

// into returns what text is added to, nil between cells.
func (t *table) into() *words {
	switch {
	case t.cell != nil:
		return &t.cell.words
	case t.caption != nil:
		return t.caption
	}
	return nil
}

func (p *page) startTable(a attributes) error {
	if len(p.nested) == maxNested {
		return &sheet.FileError{File: p.name, Reason: sheet.ReasonTooBig, Problem: fmt.Sprintf("its tables stand in each other more than %d deep", maxNested), Next: saveAnew}
	}
	p.tables++
	t := &table{number: p.tables, out: &sheet.Sheet{Name: a.id, Hidden: a.hidden || p.seen().hidden, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}}
	if t.out.Name == "" {
		t.out.Name = fmt.Sprintf("table %d", p.tables)
	}
	if len(p.nested) == 0 {
		p.endLine()
		p.dropped += max(0, len(p.above)-mostAround)
		for _, line := range p.above[max(0, len(p.above)-mostAround):] {
			if err := p.addLine(t.out, line); err != nil {
				return err
			}
		}
		p.above = nil
	}
	p.marks = append(p.marks, mark{tag: "table"}) // its text is read, hidden or not
	t.marks = len(p.marks)
	p.nested = append(p.nested, t)
	return nil
}

// startPart takes in the start of a section, row, cell or caption of a table.
func (p *page) startPart(t *table, tag string, a attributes) error {
	switch tag {
	case "caption":
		t.caption = &words{}
		return nil
	case "thead", "tbody", "tfoot":
		err := p.endSection(t)
		t.sectionHidden = a.hidden
		return err
	case "tr":
		if err := p.endRow(t); err != nil {
			return err
		}
		t.startRow(a.hidden)
		t.rowPaint = a.paint
		return nil
	}
	p.endCell(t)
	t.caption = nil
	if !t.inRow {
		t.startRow(false)
	}
	if a.hidden {
		p.startMark(tag, a)
		return nil
	}
	for t.col < len(t.until) && t.until[t.col] > len(t.out.Rows) {
		t.col++
	}
	t.cell = &cell{attributes: a}
	if a.struck {
		p.startMark(tag, a)
	}
	return nil
}

func (t *table) startRow(hidden bool) {
	t.inRow, t.col, t.cells, t.painted, t.rowPaint = true, 0, t.cells[:0], t.painted[:0], sheet.Paint{}
	if hidden || t.sectionHidden {
		t.out.HiddenRows[len(t.out.Rows)+1] = true
	}
}

// endCell ends the current cell or caption, and the marks in it.
func (p *page) endCell(t *table) {
	p.marks = p.marks[:t.marks]
	c := t.cell
	switch {
	case c != nil:
		t.cell = nil
		p.place(t, c)
	case t.caption != nil:
		if text, _ := t.caption.result(); text != "" {
			t.out.Name = strings.Join(strings.Fields(text), " ")
		}
		t.caption = nil
	}
}

// place puts a cell into its row. Blank ones beyond the last column that may be are let go; others are found by the meter.
func (p *page) place(t *table, c *cell) {
	row := len(t.out.Rows) + 1
	made := t.make(c, sheet.Ref{Row: row, Col: t.col + 1})
	most := p.meter.Limits.Columns
	if t.col >= most && made == sheet.BlankCell {
		return
	}
	if t.col > most { // a row with more is refused anyway
		return
	}
	t.filled = t.filled || made != sheet.BlankCell
	if paint := (cellPaint{Paint: c.paint}).over(t.rowPaint).Seen(); paint != (sheet.Paint{}) {
		t.painted = append(t.painted, paintedCell{t.col + 1, t.col + 1, paint})
	}
	if len(c.inks) > 0 && made != sheet.BlankCell {
		t.out.Ink(sheet.Ref{Row: row, Col: t.col + 1}, c.inks)
	}
	for len(t.cells) < t.col {
		t.cells = append(t.cells, sheet.BlankCell)
	}
	t.cells = append(t.cells, made)
	last := max(t.col, min(t.col+c.cols, most)-1)
	rows := c.rows
	if rows == 0 {
		rows = maxSpanned
	}
	if rows > 1 {
		for len(t.until) <= last {
			t.until = append(t.until, 0)
		}
		for col := t.col; col <= last; col++ {
			t.until[col] = row + rows - 1
		}
	}
	if rows > 1 || last > t.col {
		t.out.Merges = append(t.out.Merges, sheet.Range{From: sheet.Ref{Row: row, Col: t.col + 1}, To: sheet.Ref{Row: row + rows - 1, Col: last + 1}})
	}
	t.col = last + 1
}

// make makes a cell of what stands in it.
func (t *table) make(c *cell, at sheet.Ref) *sheet.Cell {
	text, struck := c.result()
	if struck != "" {
		t.out.Strike(at, struck)
	}
	switch {
	case text == "" && struck != "":
		return sheet.StruckCell
	case text == "":
		return sheet.BlankCell
	}
	one := sheet.Cell{Kind: sheet.Text, Raw: text, Shown: text}
	if stored := c.stored; c.stores {
		if stored == "" {
			stored = text
		}
		if numfmt.IsNumber(stored) {
			one.Kind, one.Raw = sheet.Number, stored
		}
	}
	if known := t.pool.Find(at.Col, one); known != nil {
		return known
	}
	return t.pool.Add(at.Col, one, one)
}

// endRow ends the current row, and keeps it.
func (p *page) endRow(t *table) error {
	p.endCell(t)
	if !t.inRow {
		return nil
	}
	t.inRow = false
	cells := t.cells
	for len(cells) > 0 && cells[len(cells)-1] == sheet.BlankCell {
		cells = cells[:len(cells)-1]
	}
	if len(t.out.Rows) == maxRows {
		return p.meter.ManyRows(t.out.Name)
	}
	t.out.Rows = append(t.out.Rows, append([]*sheet.Cell(nil), cells...))
	if len(cells) == 0 {
		return nil
	}
	for _, one := range t.painted {
		t.out.Colours.AddRow(len(t.out.Rows), one.from, one.to, one.paint)
	}
	return p.meter.Row(t.out.Name, len(t.out.Rows), cells, 1)
}

// endSection ends a section, beyond which no cell spans.
func (p *page) endSection(t *table) error {
	err := p.endRow(t)
	t.until, t.sectionHidden = t.until[:0], false
	kept := t.out.Merges[:t.merges]
	for _, m := range t.out.Merges[t.merges:] {
		if m.To.Row = min(m.To.Row, len(t.out.Rows)); m.From != m.To {
			kept = append(kept, m)
		}
	}
	t.out.Merges, t.merges = kept, len(kept)
	return err
}

// endTable ends the innermost table. One in which nothing stands is no sheet.
func (p *page) endTable() error {
	t := p.nested[len(p.nested)-1]
	if err := p.endSection(t); err != nil {
		return err
	}
	p.nested = p.nested[:len(p.nested)-1]
	p.marks = p.marks[:t.marks-1]
	if !t.filled {
		return nil
	}
	t.out.Name = p.unique(t.out.Name)
	p.last, p.found = t.out, append(p.found, t)
	if err := p.meter.Whole(t.out); err != nil {
		return err
	}
	return p.meter.Sheet()
}

// unique returns a name that no sheet has yet.
func (p *page) unique(name string) string {
	if p.names == nil {
		p.names = map[string]int{}
	}
	one := name
	for {
		n := p.names[strings.ToLower(one)]
		p.names[strings.ToLower(one)]++
		if n == 0 {
			return one
		}
		one = fmt.Sprintf("%s (%d)", name, n+1)
	}
}

// words gathers a text as a browser shows it: white space of the source makes one space, and none at the ends of lines.
type words struct {
	text                    runs.Text
	size                    int // in bytes
	started, space, newline bool
}

func (w *words) add(text string, look runs.Look) {
	const blank = " \t\r\n\f"
	for text != "" {
		if rest := strings.TrimLeft(text, blank); len(rest) < len(text) {
			w.space, text = true, rest
			continue
		}
		end := strings.IndexAny(text, blank)
		if end < 0 {
			end = len(text)
		}
		switch {
		case !w.started:
		case w.newline:
			w.put("\n", look)
		case w.space:
			w.put(" ", look)
		}
		w.put(text[:end], look)
		w.started, w.space, w.newline = true, false, false
		text = text[end:]
	}
}

func (w *words) put(text string, look runs.Look) {
	w.size += len(text)
	w.text.Add(text, look)
}

// result returns the text, and what of it is struck out. Pages fill blank cells with spaces that do not break.
func (w *words) result() (text, struck string) {
	text, struck = w.text.Result()
	return strings.TrimSpace(text), struck
}
