package workbooktest

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/sheet"
)

// Limits of a description. They keep a slip of the pen (row 1000000) from building a workbook of that size.
const (
	maxRow    = 10_000
	maxColumn = 1_000
	maxMerged = 10_000 // cells of one merged range
)

// Error is a description that cannot be built: the line, counted from 1, and what is wrong with it.
type Error struct {
	Line int
	Err  error
}

// Error returns the line and the reason.
func (e *Error) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Err) }

// Unwrap returns the reason.
func (e *Error) Unwrap() error { return e.Err }

// workbook is a description that was read.
type workbook struct {
	dates1904 bool
	sheets    []*page
}

// page is one sheet of a description.
type page struct {
	line    int
	name    string
	hidden  bool
	next    int // number of the next row
	cells   []cell
	filled  map[sheet.Ref]bool
	formats []styled
	bold    []styled
	fills   []styled
	colours []styled
	widths  []styled
	merges  []styled
	filter  *styled
	tables  []styled

	hiddenRows, hiddenColumns []styled
}

// styled is a range together with what a directive says of it.
type styled struct {
	line  int
	area  sheet.Range
	text  string
	width float64
}

// describe reads a description.
func describe(description string) (*workbook, error) {
	book := &workbook{}
	for i, line := range strings.Split(description, "\n") {
		line = strings.Trim(line, " \t\r")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if err := book.line(i+1, line); err != nil {
			return nil, &Error{Line: i + 1, Err: err}
		}
	}
	if len(book.sheets) == 0 {
		return nil, &Error{Line: 1, Err: errors.New("there is no sheet; begin one with: sheet NAME")}
	}
	return book, nil
}

func (b *workbook) line(number int, line string) error {
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.Trim(rest, " \t")
	switch {
	case line == "dates 1904" && len(b.sheets) == 0:
		b.dates1904 = true
		return nil
	case word == "sheet":
		return b.begin(number, rest)
	case len(b.sheets) == 0:
		return fmt.Errorf("%q stands before the first sheet; begin one with: sheet NAME", line)
	}
	page := b.sheets[len(b.sheets)-1]
	if strings.HasPrefix(line, "|") {
		return page.row(number, line, b.dates1904)
	}
	return page.directive(number, word, rest)
}

func (b *workbook) begin(number int, name string) error {
	if name == "" {
		return errors.New("the sheet has no name; write: sheet NAME")
	}
	for _, other := range b.sheets {
		// The workbook library takes a name that differs only in case for the sheet that is there already.
		if strings.EqualFold(other.name, name) {
			return fmt.Errorf("sheet %q begins on line %d already", name, other.line)
		}
	}
	b.sheets = append(b.sheets, &page{line: number, name: name, next: 1, filled: map[sheet.Ref]bool{}})
	return nil
}

func (p *page) directive(number int, word, rest string) error {
	switch word {
	case "row":
		return p.jump(rest)
	case "format", "width":
		return p.columnsOrRange(number, word, rest)
	case "bold":
		return eachRange(number, rest, parseRowsOrRange, &p.bold)
	case "fill":
		return coloured(number, rest, &p.fills)
	case "colour":
		return coloured(number, rest, &p.colours)
	case "merge":
		return eachRange(number, rest, parseArea, &p.merges)
	case "hide":
		return p.hide(number, rest)
	case "filter":
		area, err := parseArea(rest)
		p.filter = &styled{line: number, area: area}
		return err
	case "table":
		name, area, _ := strings.Cut(rest, " ")
		parsed, err := parseArea(strings.Trim(area, " \t"))
		p.tables = append(p.tables, styled{line: number, area: parsed, text: name})
		return err
	}
	return fmt.Errorf("%q is no directive; use sheet, row, format, bold, fill, colour, width, merge, hide, filter or table, "+
		"and begin a row of cells with |", word)
}

func (p *page) jump(rest string) error {
	row, err := strconv.Atoi(rest)
	if err != nil || row < p.next || row > maxRow {
		return fmt.Errorf("row %q: write a number from %d (the next row) to %d", rest, p.next, maxRow)
	}
	p.next = row
	return nil
}

func (p *page) columnsOrRange(number int, word, rest string) error {
	where, what, _ := strings.Cut(rest, " ")
	what = strings.Trim(what, " \t")
	area, err := parseColumns(where)
	if err != nil && word == "format" {
		area, err = parseArea(where)
	}
	if err != nil {
		return err
	}
	entry := styled{line: number, area: area, text: what}
	if word == "format" {
		if what == "" {
			return errors.New(`the number format is missing; write it after the columns: format C:D 0.000"in"`)
		}
		p.formats = append(p.formats, entry)
		return nil
	}
	if entry.width, err = strconv.ParseFloat(what, 64); err != nil || !(entry.width > 0 && entry.width <= 255) {
		return fmt.Errorf("width %q: write a number of characters up to 255", what)
	}
	p.widths = append(p.widths, entry)
	return nil
}

func (p *page) hide(number int, rest string) error {
	what, where, _ := strings.Cut(rest, " ")
	switch {
	case what == "sheet" && where == "":
		p.hidden = true
		return nil
	case what == "rows":
		return eachRange(number, where, parseRows, &p.hiddenRows)
	case what == "columns":
		return eachRange(number, where, parseColumns, &p.hiddenColumns)
	}
	return fmt.Errorf("hide %q: write hide rows 7 9:11, hide columns F H:J or hide sheet", rest)
}

// eachRange reads the ranges of a directive that takes several.
func eachRange(number int, text string, parse func(string) (sheet.Range, error), into *[]styled) error {
	words := strings.Fields(text)
	if len(words) == 0 {
		return errors.New("the directive says no place")
	}
	for _, word := range words {
		area, err := parse(word)
		if err != nil {
			return err
		}
		*into = append(*into, styled{line: number, area: area})
	}
	return nil
}

// coloured reads a colour and the ranges that have it.
func coloured(number int, text string, into *[]styled) error {
	colour, where, _ := strings.Cut(text, " ")
	if !sixDigits.MatchString(colour) {
		return fmt.Errorf("%q is no colour; write six hexadecimal digits, red, green and blue: FFFF00", colour)
	}
	first := len(*into)
	err := eachRange(number, where, parseRowsOrRange, into)
	for i, one := range (*into)[first:] {
		if cells := (one.area.To.Row - one.area.From.Row + 1) * (one.area.To.Col - one.area.From.Col + 1); one.area.To.Col < maxColumn && cells > maxMerged {
			return fmt.Errorf("coloured range %v has %d cells, more than %d", one.area, cells, maxMerged)
		}
		(*into)[first+i].text = colour
	}
	return err
}

var sixDigits = regexp.MustCompile(`^[0-9A-F]{6}$`)

func parseRowsOrRange(text string) (sheet.Range, error) {
	if area, err := parseRows(text); err == nil {
		return area, nil
	}
	return parseArea(text)
}

func parseRows(text string) (sheet.Range, error) {
	first, last, pair := strings.Cut(text, ":")
	if !pair {
		last = first
	}
	from, err := strconv.Atoi(first)
	to, err2 := strconv.Atoi(last)
	if err != nil || err2 != nil || from < 1 || to < from || to > maxRow {
		return sheet.Range{}, fmt.Errorf("%q are no rows; write 7 or 9:11, up to %d", text, maxRow)
	}
	return sheet.Range{From: sheet.Ref{Row: from, Col: 1}, To: sheet.Ref{Row: to, Col: maxColumn}}, nil
}

func parseColumns(text string) (sheet.Range, error) {
	first, last, pair := strings.Cut(text, ":")
	if !pair {
		last = first
	}
	from, err := sheet.ParseRef(first + "1")
	to, err2 := sheet.ParseRef(last + "1")
	if err != nil || err2 != nil || from.Row != 1 || to.Row != 1 || to.Col < from.Col || to.Col > maxColumn {
		return sheet.Range{}, fmt.Errorf("%q are no columns; write F or H:J, up to %s", text, sheet.ColumnName(maxColumn))
	}
	to.Row = maxRow
	return sheet.Range{From: from, To: to}, nil
}

func parseArea(text string) (sheet.Range, error) {
	area, err := sheet.ParseRange(text)
	if err != nil {
		return sheet.Range{}, err
	}
	if area.To.Row > maxRow || area.To.Col > maxColumn {
		return sheet.Range{}, fmt.Errorf("%s lies beyond row %d or column %s", text, maxRow, sheet.ColumnName(maxColumn))
	}
	return area, nil
}
