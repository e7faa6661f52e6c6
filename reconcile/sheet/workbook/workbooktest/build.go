package workbooktest

import (
	"bytes"
	"errors"
	"fmt"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet"
)

// Build returns the bytes of the xlsx workbook that a description stands for (the package comment says how one is
// written). The same description gives the same bytes. The error is an [*Error] that names the line.
func Build(description string) ([]byte, error) {
	if !utf8.ValidString(description) {
		return nil, &Error{Line: 1, Err: errors.New("the description is not UTF-8")}
	}
	book, err := describe(description)
	if err != nil {
		return nil, err
	}
	return book.build()
}

// builder holds what the writing of one workbook needs.
type builder struct {
	file   *excelize.File
	styles map[style]int
	stored map[string]storedCells // by the name of the sheet's member in the archive
}

// style is what one cell style is made of.
type style struct {
	format       string
	bold         bool
	fill, colour string
}

func (b *workbook) build() (data []byte, err error) {
	w := &builder{file: excelize.NewFile(), styles: map[style]int{{}: 0}, stored: map[string]storedCells{}}
	defer func() { err = errors.Join(err, w.file.Close()) }()
	// The library signs its workbooks with a person's name and the day of its own first version.
	about := &excelize.DocProperties{Creator: "workbooktest", LastModifiedBy: "workbooktest",
		Created: "2026-01-01T00:00:00Z", Modified: "2026-01-01T00:00:00Z"}
	if err := w.file.SetDocProps(about); err != nil {
		return nil, &Error{Line: 1, Err: err}
	}
	if b.dates1904 {
		if err := w.file.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &b.dates1904}); err != nil {
			return nil, &Error{Line: 1, Err: err}
		}
	}
	for i, page := range b.sheets {
		if err := w.page(i, page); err != nil {
			return nil, err
		}
	}
	if err := w.hideSheets(b.sheets); err != nil {
		return nil, err
	}
	w.file.SetZipWriter(w.zipWriter)
	var out bytes.Buffer
	if err := w.file.Write(&out); err != nil {
		return nil, fmt.Errorf("the workbook cannot be written: %w", err)
	}
	return out.Bytes(), nil
}

func (w *builder) page(index int, p *page) error {
	if err := w.begin(index, p.name); err != nil {
		return &Error{Line: p.line, Err: err}
	}
	stored := storedCells{}
	w.stored[fmt.Sprintf("xl/worksheets/sheet%d.xml", index+1)] = stored
	for _, c := range p.cells {
		if err := w.cell(p, c, stored); err != nil {
			return &Error{Line: c.line, Err: err}
		}
	}
	for _, step := range []func(*page) error{w.blanks, w.columns, w.rows, w.merges, w.declared} {
		if err := step(p); err != nil {
			return err
		}
	}
	return nil
}

func (w *builder) begin(index int, name string) error {
	if index == 0 {
		return w.file.SetSheetName("Sheet1", name)
	}
	_, err := w.file.NewSheet(name)
	return err
}

// cell writes one cell and its style. The library has no call for error values or for the stored result of a formula,
// so these go in as a placeholder that is put right when the sheet is written out.
func (w *builder) cell(p *page, c cell, stored storedCells) error {
	at := c.at.String()
	var err error
	switch {
	case c.value.kind == sheet.Blank:
	case c.value.kind == sheet.Error || c.formula != "":
		stored[at] = c.value
		err = w.file.SetCellDefault(p.name, at, placeholder)
	case c.value.kind == sheet.Text:
		err = w.text(p.name, at, c.value.text)
	case c.value.kind == sheet.Bool:
		err = w.file.SetCellBool(p.name, at, c.value.text == "TRUE")
	default:
		err = w.file.SetCellDefault(p.name, at, c.value.text)
	}
	if err != nil {
		return err
	}
	if c.formula != "" {
		if err := w.file.SetCellFormula(p.name, at, c.formula); err != nil {
			return err
		}
		stored[at] = c.value
	}
	return w.style(p, c)
}

// text writes a text that is no longer than a cell can hold; the library would cut it without a word.
func (w *builder) text(name, at, text string) error {
	if len(text) > excelize.TotalCellChars {
		return fmt.Errorf("the text is longer than the %d characters a cell can hold", excelize.TotalCellChars)
	}
	return w.file.SetCellStr(name, at, text)
}

func (w *builder) style(p *page, c cell) error {
	wanted := style{format: c.format}
	for i := len(p.formats) - 1; i >= 0 && wanted.format == ""; i-- {
		if p.formats[i].area.Contains(c.at) {
			wanted.format = p.formats[i].text
		}
	}
	for _, bold := range p.bold {
		wanted.bold = wanted.bold || bold.area.Contains(c.at)
	}
	wanted.fill, wanted.colour = colourOf(p.fills, c.at), colourOf(p.colours, c.at)
	return w.apply(p, c.at, wanted)
}

// colourOf returns the colour that the last of some directives gives a cell, empty where none does.
func colourOf(directives []styled, at sheet.Ref) (colour string) {
	for _, one := range directives {
		if one.area.Contains(at) {
			colour = one.text
		}
	}
	return colour
}

// blanks fills the cells of ranges in which nothing stands, as those are that only show a colour.
func (w *builder) blanks(p *page) error {
	for _, entry := range p.fills {
		if entry.area.To.Col == maxColumn {
			continue // whole rows
		}
		for row := entry.area.From.Row; row <= entry.area.To.Row; row++ {
			for col := entry.area.From.Col; col <= entry.area.To.Col; col++ {
				at := sheet.Ref{Row: row, Col: col}
				if p.filled[at] {
					continue
				}
				if err := w.apply(p, at, style{fill: colourOf(p.fills, at)}); err != nil {
					return &Error{Line: entry.line, Err: err}
				}
			}
		}
	}
	return nil
}

// apply gives a cell a style.
func (w *builder) apply(p *page, at sheet.Ref, wanted style) error {
	id, known := w.styles[wanted]
	if !known {
		definition := &excelize.Style{}
		if wanted.format != "" {
			definition.CustomNumFmt = &wanted.format
		}
		if wanted.bold || wanted.colour != "" {
			definition.Font = &excelize.Font{Bold: wanted.bold, Color: wanted.colour}
		}
		if wanted.fill != "" {
			definition.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{wanted.fill}}
		}
		var err error
		if id, err = w.file.NewStyle(definition); err != nil {
			return err
		}
		w.styles[wanted] = id
	}
	if id == 0 {
		return nil
	}
	return w.file.SetCellStyle(p.name, at.String(), at.String(), id)
}

func (w *builder) columns(p *page) error {
	for _, entry := range p.widths {
		from, to := sheet.ColumnName(entry.area.From.Col), sheet.ColumnName(entry.area.To.Col)
		if err := w.file.SetColWidth(p.name, from, to, entry.width); err != nil {
			return &Error{Line: entry.line, Err: err}
		}
	}
	for _, entry := range p.hiddenColumns {
		columns := sheet.ColumnName(entry.area.From.Col) + ":" + sheet.ColumnName(entry.area.To.Col)
		if err := w.file.SetColVisible(p.name, columns, false); err != nil {
			return &Error{Line: entry.line, Err: err}
		}
	}
	return nil
}

func (w *builder) rows(p *page) error {
	for _, entry := range p.hiddenRows {
		for row := entry.area.From.Row; row <= entry.area.To.Row; row++ {
			if err := w.file.SetRowVisible(p.name, row, false); err != nil {
				return &Error{Line: entry.line, Err: err}
			}
		}
	}
	return nil
}

func (w *builder) merges(p *page) error {
	for i, entry := range p.merges {
		if err := mergeable(p, i); err != nil {
			return &Error{Line: entry.line, Err: err}
		}
		if err := w.file.MergeCell(p.name, entry.area.From.String(), entry.area.To.String()); err != nil {
			return &Error{Line: entry.line, Err: err}
		}
	}
	return nil
}

// mergeable refuses merged ranges that would lose a value or, where two overlap, be joined to another.
func mergeable(p *page, index int) error {
	area := p.merges[index].area
	if area.From == area.To {
		return fmt.Errorf("%v is a single cell and cannot be merged", area)
	}
	if cells := (area.To.Row - area.From.Row + 1) * (area.To.Col - area.From.Col + 1); cells > maxMerged {
		return fmt.Errorf("merged range %v has %d cells, more than %d", area, cells, maxMerged)
	}
	for _, c := range p.cells {
		if c.at != area.From && area.Contains(c.at) {
			return fmt.Errorf("merged range %v has a value at %v; only its first cell may have one", area, c.at)
		}
	}
	for _, other := range p.merges[:index] {
		if overlap(area, other.area) {
			return fmt.Errorf("merged ranges %v and %v overlap", other.area, area)
		}
	}
	return nil
}

func overlap(a, b sheet.Range) bool {
	return a.From.Row <= b.To.Row && b.From.Row <= a.To.Row && a.From.Col <= b.To.Col && b.From.Col <= a.To.Col
}

// declared writes what the file itself marks as tables.
func (w *builder) declared(p *page) error {
	if p.filter != nil {
		if err := w.file.AutoFilter(p.name, p.filter.area.String(), nil); err != nil {
			return &Error{Line: p.filter.line, Err: err}
		}
	}
	for _, entry := range p.tables {
		if err := headed(p, entry.area); err != nil {
			return &Error{Line: entry.line, Err: err}
		}
		table := &excelize.Table{Name: entry.text, Range: entry.area.String()}
		if err := w.file.AddTable(p.name, table); err != nil {
			return &Error{Line: entry.line, Err: err}
		}
	}
	return nil
}

// headed refuses a table without a heading over each column, since the library would make one up.
func headed(p *page, area sheet.Range) error {
	if area.To.Row == area.From.Row {
		return fmt.Errorf("table %v has no row under its headings", area)
	}
	for col := area.From.Col; col <= area.To.Col; col++ {
		if at := (sheet.Ref{Row: area.From.Row, Col: col}); !p.filled[at] {
			return fmt.Errorf("the table has no heading at %v", at)
		}
	}
	return nil
}

func (w *builder) hideSheets(pages []*page) error {
	active := -1
	for i, p := range pages {
		if !p.hidden && active < 0 {
			active = i
		}
	}
	if active < 0 {
		return &Error{Line: pages[0].line, Err: errors.New("every sheet is hidden; a workbook shows at least one")}
	}
	w.file.SetActiveSheet(active)
	for _, p := range pages {
		if !p.hidden {
			continue
		}
		if err := w.file.SetSheetVisible(p.name, false); err != nil {
			return &Error{Line: p.line, Err: err}
		}
	}
	return nil
}
