package workbook

import (
	"cmp"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// book is a workbook being written. The first error is kept, and nothing is done after it.
type book struct {
	file    *excelize.File
	result  *matrix.Result
	account tell.Account
	rowOf   map[[2]int]int // the row on the sheet of fits of two geometries
	opts    Options
	limits  limits
	reader  reader
	styles  map[look]int
	wraps   map[int]bool // the styles whose text is wrapped
	// fileName is what a file that was read is called.
	fileName func(string) string
	// addresses are those of the source files, as far as they were needed.
	addresses map[string]string
	// contents are what the sheets hold, in the order of the sheets.
	contents []*content
	names    []string // of columns, as far as they were needed
	subject  string   // what the workbook is about, where it is not a matrix
	// foot and numbering are those of a report in another language
	foot, numbering string
	// sheets are those of a report's sections, and sheetOf finds them by the names of the sections.
	sheets  []string
	sheetOf map[string]string
	drawn   int // how many joints have been drawn
	err     error
}

func newBook(opts Options, limits limits) *book {
	b := &book{
		file: excelize.NewFile(), opts: opts, limits: limits,
		reader: reader{opts.Units}, styles: map[look]int{}, wraps: map[int]bool{},
		fileName: tell.FileNames(namesOfInputs(opts.Inputs)...),
	}
	b.try(b.file.SetDefaultFont(fontFamily)) // widths are counted in its digits
	return b
}

func (b *book) try(err error) {
	if b.err == nil {
		b.err = err
	}
}

func (b *book) style(l look) int {
	id, known := b.styles[l]
	if !known && b.err == nil {
		var err error
		id, err = b.file.NewStyle(l.style())
		b.try(err)
		b.styles[l], b.wraps[id] = id, l.wrap
	}
	return id
}

func (b *book) finish(w io.Writer) error {
	if b.err != nil {
		return b.err
	}
	b.try(b.file.SetDocProps(&excelize.DocProperties{
		Title: cmp.Or(b.subject, "Heads and ferrules"), Subject: clean(b.opts.ShopName), Creator: "reconcile", LastModifiedBy: "reconcile",
	}))
	if b.err != nil {
		return b.err
	}
	buffer, err := b.file.WriteToBuffer()
	if err != nil {
		return err
	}
	return assemble(w, buffer.Bytes(), b.contents)
}

// layout is what a sheet has besides its cells.
type layout struct {
	widths []float64
	// freezeRows and freezeColumns stay in view. They are repeated on every printed page, the rows from repeatFrom on.
	freezeRows, freezeColumns int
	repeatFrom                int
	// grid is set where gridlines help.
	grid bool
	// pagesWide is over how many pages the width is printed; 0 is 1.
	pagesWide int
	// printColumns is how many columns are printed; 0 is all.
	printColumns int
	// unprinted is set for a sheet that is not for reading: programs print hidden sheets that have a print area.
	unprinted bool
	// hidden are columns that are there to be looked up in, counted from 1.
	hidden []int
	// outlined is set where rows are grouped below a row that names the group.
	outlined bool
	tab      string
}

// page is a sheet being written, row by row.
type page struct {
	*book
	name    string
	layout  layout
	section *report.Section // nil for a sheet that is no table
	*content
	row        int       // the last row written
	headingRow int       // of a table
	ends       []float64 // how far down each row ends, in points
	whole      bool      // whether a table has all its rows, however many
	full       int       // how many rows were left out because the table is full
}

func (b *book) page(name string, l layout) *page {
	p := &page{book: b, name: name, layout: l, content: &content{}}
	if b.err != nil {
		return p
	}
	if len(b.contents) == 0 {
		b.try(b.file.SetSheetName(b.file.GetSheetName(0), name))
	} else {
		_, err := b.file.NewSheet(name)
		b.try(err)
	}
	b.contents = append(b.contents, p.content)
	p.setUp()
	for i, width := range l.widths {
		p.column(i+1, width, slices.Contains(l.hidden, i+1))
	}
	return p
}

func (p *page) do(work func() error) {
	if p.err == nil {
		p.try(work())
	}
}

// setUp sets what has to be known before the first row is written.
func (p *page) setUp() {
	f, l := p.file, p.layout
	p.properties()
	// The sheet would keep the dimension of an empty one, and some readers stop there.
	p.do(func() error { return f.SetSheetDimension(p.name, "") })
	p.do(func() error {
		return f.SetSheetView(p.name, 0, &excelize.ViewOptions{ShowGridLines: pointer(l.grid)})
	})
	if l.freezeRows > 0 {
		p.do(func() error { return f.SetPanes(p.name, l.panes()) })
	}
}

func (p *page) properties() {
	p.do(func() error {
		return p.file.SetSheetProps(p.name, &excelize.SheetPropsOptions{
			FitToPage: pointer(true), OutlineSummaryBelow: pointer(!p.layout.outlined), TabColorRGB: pointer("FF" + p.layout.tab),
		})
	})
}

func (l layout) panes() *excelize.Panes {
	pane := "bottomLeft"
	if l.freezeColumns > 0 {
		pane = "bottomRight"
	}
	first := address(l.freezeColumns+1, l.freezeRows+1)
	return &excelize.Panes{
		Freeze: true, XSplit: l.freezeColumns, YSplit: l.freezeRows, TopLeftCell: first, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: first, ActiveCell: first, Pane: pane}},
	}
}

// put writes the next row, as high as its wrapped texts need: programs do not all measure that by themselves. A cell is nil or
// what as returns.
func (p *page) put(cells ...any) {
	p.putRow(excelize.RowOpts{Height: p.heightOf(cells)}, cells...)
}

// heightOf is 0, the usual height, where nothing takes more than one line.
func (p *page) heightOf(cells []any) float64 {
	most := 1
	for i, c := range cells {
		cell, ok := c.(excelize.Cell)
		if !ok || !p.wraps[cell.StyleID] {
			continue
		}
		if text, ok := cell.Value.(string); ok {
			most = max(most, linesIn(text, p.layout.widths[i]))
		}
	}
	if most == 1 {
		return 0
	}
	return heightFor(most)
}

func (p *page) putRow(opts excelize.RowOpts, cells ...any) {
	if p.err != nil {
		return
	}
	if p.section != nil && !p.whole && p.row >= p.limits.rows-1 { // the last row says what is left out
		p.full++
		return
	}
	p.row++
	p.grow(heightIn(opts))
	for i, c := range cells {
		if to, is := c.(leading); is {
			cells[i] = to.Cell
			p.lead(i+1, to)
		}
	}
	p.try(p.content.row(p.row, opts, cells, p.columnNames(len(cells))))
}

// heightIn is the height that a row is seen in.
func heightIn(opts excelize.RowOpts) float64 {
	switch {
	case opts.Hidden:
		return 0
	case opts.Height > 0:
		return opts.Height
	}
	return usualHigh
}

// columnNames are the names of the first columns.
func (b *book) columnNames(n int) []string {
	for len(b.names) < n {
		b.names = append(b.names, columnName(len(b.names)+1))
	}
	return b.names[:n]
}

// room reports whether a table has room for another row, and counts those that it has none for: for those who need not work out a row
// that is not written.
func (p *page) room() bool {
	if p.whole || p.row < p.limits.rows-1 {
		return true
	}
	p.full++
	return false
}

// skip leaves rows empty.
func (p *page) skip(rows int) {
	for range rows {
		p.row++
		p.grow(usualHigh)
	}
}

// as gives a value a look. Text is cleaned on the way.
func (p *page) as(value any, l look) excelize.Cell {
	if text, ok := value.(string); ok {
		value = clean(text)
	}
	return excelize.Cell{StyleID: p.style(l), Value: value}
}

// merge joins the cells of the last row from one column to another.
func (p *page) merge(from, to int) {
	p.content.merge(address(from, p.row), address(to, p.row))
}

// link makes a cell lead to another in this workbook.
func (p *page) link(column, row int, target place) {
	if p.full > 0 {
		return // the row was not written
	}
	p.content.link(address(column, row), target.reference())
}

// filter puts filters on a heading row and the rows below it.
func (p *page) filter(row, last, columns int) {
	if last <= row {
		return // nothing to filter
	}
	p.do(func() error {
		return p.file.AutoFilter(p.name, address(1, row)+":"+address(columns, last), nil)
	})
	p.properties() // the library forgets them over a filter
}

// done ends the sheet.
func (p *page) done() { p.print() }

func (p *page) define(name, area string) { p.defineRaw(name, quoted(p.name)+"!"+area) }

func (p *page) defineRaw(name, refersTo string) {
	p.do(func() error {
		return p.file.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: refersTo, Scope: p.name})
	})
}

// place is a cell of a sheet.
type place struct {
	sheet       string
	column, row int
}

func (c place) reference() string { return quoted(c.sheet) + "!" + address(c.column, c.row) }

func quoted(sheet string) string { return "'" + sheet + "'" }

// columnName and address never fail for the columns and rows that the limits allow.
func columnName(column int) string {
	name, _ := excelize.ColumnNumberToName(column)
	return name
}

func address(column, row int) string { return columnName(column) + strconv.Itoa(row) }

func absolute(column, row int) string { return "$" + columnName(column) + "$" + strconv.Itoa(row) }

func pointer[T any](v T) *T { return &v }

// lettersPerWidth is how many letters of the usual size a unit of width holds in sentences: the unit is a digit of the default
// font, which is larger. Seen in rendered pages.
const lettersPerWidth = 1.45

// linesIn is how many lines a text takes in a column of a width, broken between words.
func linesIn(text string, width float64) int {
	room := max(1, int(width*lettersPerWidth)-2) // an indent takes some
	lines := 0
	for line := range strings.Lines(text + "\n") {
		lines++
		used := 0
		for word := range strings.FieldsSeq(line) {
			long := utf8.RuneCountInString(word)
			if used > 0 && used+1+long > room {
				lines, used = lines+1, 0
			}
			if used > 0 {
				used++
			}
			used += long
			lines, used = lines+max(0, used-1)/room, max(0, used-1)%room+1
		}
	}
	return lines
}

// heightFor is the height of a row of some lines, in points; a row of the format is no higher than 409.
func heightFor(lines int) float64 { return min(409, float64(lines)*12+3) }
