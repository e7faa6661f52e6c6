package sheet

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Limits bound what a file from outside may ask of the reader, so that every file ends in time and in memory, whatever it is. A field of
// zero stands for its default, which is far beyond any catalogue of parts: a list of fifty thousand heads has 700,000 cells and 6 MB.
type Limits struct {
	// File is the size of a file in bytes, and TextFile that of one that is text and not packed.
	File, TextFile int64
	// Settings is the size in bytes of a file of settings, of answers, of words, or of a picture.
	Settings int64
	// Unpacked is what an archive may unfold to in all, in bytes.
	Unpacked int64
	// Sheets is the number of sheets of a book.
	Sheets int
	// Rows, Columns and Cells count a whole book; a row counts where something stands in it, and cells include the gaps before the last
	// one of each row.
	Rows, Columns, Cells int
	// Characters is the length of one cell: what spreadsheet programs hold.
	Characters int
	// Text is the length in bytes of all cells together, a text that several share counted each time.
	Text int64
}

// limitNames are the fields of Limits as a person writes them, in order.
var limitNames = [...]string{"file", "textfile", "settings", "unpacked", "sheets", "rows", "columns", "cells", "characters", "text"}

// DefaultLimits returns the limits that hold where nothing else is said.
func DefaultLimits() Limits {
	return Limits{
		File: 256 << 20, TextFile: 64 << 20, Settings: 384 << 10, Unpacked: 256 << 20, Sheets: 1_000,
		Rows: 200_000, Columns: 1_000, Cells: 2_000_000, Characters: 32_767, Text: 64 << 20,
	}
}

// LimitNames returns the names of the limits, for help.
func LimitNames() []string { return limitNames[:] }

// OrDefault returns the limits with the default in each field that is not set.
func (l Limits) OrDefault() Limits {
	set, usual := reflect.ValueOf(&l).Elem(), reflect.ValueOf(DefaultLimits())
	for i := range set.NumField() {
		if set.Field(i).IsZero() {
			set.Field(i).Set(usual.Field(i))
		}
	}
	return l
}

// Set changes the limit that a text such as "rows=500000" names.
func (l *Limits) Set(text string) error {
	name, value, _ := strings.Cut(text, "=")
	for i, known := range limitNames {
		if known != name {
			continue
		}
		n, err := strconv.ParseInt(value, 10, 64)
		field := reflect.ValueOf(l).Elem().Field(i)
		if err != nil || n < 1 || field.OverflowInt(n) {
			return fmt.Errorf("%q: write a whole number from 1 on, such as %s=%d", text, name, reflect.ValueOf(DefaultLimits()).Field(i).Int()*2)
		}
		field.SetInt(n)
		return nil
	}
	return fmt.Errorf("%q: there is no limit %q; there are %s", text, name, strings.Join(limitNames[:], " "))
}

// Of returns the limit of a name, or its default.
func (l Limits) Of(name string) int64 {
	at := slices.Index(limitNames[:], name)
	return reflect.ValueOf(l.OrDefault()).Field(at).Int()
}

// Beyond returns the error of a file that goes beyond the limit of a name. What is the clause that says it, without the limit.
func (l Limits) Beyond(file, place, name, what string) *FileError {
	limit := l.Of(name)
	return &FileError{File: file, Place: place, Reason: ReasonTooBig, Problem: fmt.Sprintf("%s; the limit of %s is %d", what, name, limit),
		Next: fmt.Sprintf("keep only what is needed, or raise the limit with --limit %s=%d if the file is meant so", name, 2*limit)}
}

// Meter counts what a reader takes in against limits. Make one for each book.
type Meter struct {
	Limits      Limits
	file        string
	sheets      int
	rows, cells int
	strays      int
	lines       int
	text        int64
}

// NewMeter returns a meter for a file.
func NewMeter(file string, limits Limits) *Meter {
	return &Meter{Limits: limits.OrDefault(), file: file}
}

// Sheet counts a sheet. The error is a [*FileError].
func (m *Meter) Sheet() error {
	if m.sheets++; m.sheets > m.Limits.Sheets {
		return m.ManySheets()
	}
	return nil
}

// ManySheets returns the error of a file with too many sheets.
func (m *Meter) ManySheets() error {
	return m.Limits.Beyond(m.file, "", "sheets", "it has too many sheets")
}

// ManyRows returns the error of a file with too many rows on one sheet.
func (m *Meter) ManyRows(sheet string) error {
	return m.Limits.Beyond(m.file, sheet, "rows", "it has too many rows, those in which nothing stands included")
}

// Comment adds a comment to those of a cell, and counts it. The error is a [*FileError].
func (m *Meter) Comment(s *Sheet, at Ref, text string) error {
	s.Comment(at, text)
	if all := s.Comments[at]; len(all) > m.Limits.Characters && utf8.RuneCountInString(all) > m.Limits.Characters {
		return m.Limits.Beyond(m.file, place(s.Name, at.Row)+", column "+ColumnName(at.Col), "characters", "the comment has too many characters")
	}
	if m.text += int64(len(text)); m.text > m.Limits.Text {
		return m.Limits.Beyond(m.file, s.Name, "text", "its cells and comments hold too many bytes of text")
	}
	return nil
}

// blankRows is how many rows in which nothing stands a book may have, for each that may have content: a single cell in the last row of a sheet
// asks for a million of them, and a thousand such sheets for a billion.
const blankRows = 15

// Whole counts what a sheet takes beside its cells: rows in which nothing stands, and what merged ranges cover, as far as there are rows and
// columns with content, against the limit on cells: a few of them may cover any number. The error is a [*FileError].
func (m *Meter) Whole(s *Sheet) error {
	if m.lines += len(s.Rows); m.lines-m.rows > blankRows*m.Limits.Rows {
		return m.ManyRows(s.Name)
	}
	rows, covered := len(s.Rows), 0
	for rows > 0 && len(s.Rows[rows-1]) == 0 {
		rows--
	}
	width := s.Width()
	for _, area := range s.Merges {
		high, wide := min(area.To.Row, rows)-area.From.Row+1, min(area.To.Col, width)-area.From.Col+1
		if covered += max(high, 0) * max(wide, 1); covered > m.Limits.Cells {
			return m.Limits.Beyond(m.file, s.Name, "cells", "its merged ranges cover too many cells")
		}
	}
	return nil
}

// LongCell returns the error of a cell that is too long.
func (m *Meter) LongCell(sheet string, at Ref) error {
	return m.Limits.Beyond(m.file, place(sheet, at.Row)+", column "+ColumnName(at.Col), "characters", "the cell has too many characters")
}

// Strays are cells far from all others of their row: as many as mostStrays in a row and allStrays in a book.
const (
	mostStrays = 3
	allStrays  = 20
)

// Stray divides a row that goes beyond the limit on columns where only a few cells stand there, behind a gap: a sign that somebody once typed
// far out, which is no reason to refuse a book. It returns the row without them, and their columns; a row that is really that wide it leaves
// to [Meter.Row].
func (m *Meter) Stray(cells []*Cell) (kept []*Cell, columns []int) {
	most := m.Limits.Columns
	if len(cells) <= most || cells[most-1] != BlankCell {
		return cells, nil
	}
	for i, cell := range cells[most:] {
		if cell == BlankCell {
			continue
		}
		if columns = append(columns, most+i+1); len(columns) > mostStrays || m.strays+len(columns) > allStrays {
			return cells, nil
		}
	}
	m.strays += len(columns)
	kept = cells[:most]
	for len(kept) > 0 && kept[len(kept)-1] == BlankCell {
		kept = kept[:len(kept)-1]
	}
	return kept, columns
}

// TellStray says that such a cell is left out.
func (m *Meter) TellStray(code, sheet string, at Ref, cell *Cell) Note {
	return Note{Code: code, Sheet: sheet, Ref: at,
		Message: fmt.Sprintf("%s stands beyond the %d columns that are read, far from the others; what it holds, %.40q, was left out", at, m.Limits.Columns, cell.Shown)}
}

// Row counts a row that stands times times in a sheet. The error is a [*FileError].
func (m *Meter) Row(sheet string, row int, cells []*Cell, times int) error {
	if width := width(cells, m.Limits.Columns); width > m.Limits.Columns {
		return m.Limits.Beyond(m.file, place(sheet, row), "columns", "it has too many columns")
	}
	if m.rows += times; m.rows > m.Limits.Rows {
		return m.Limits.Beyond(m.file, sheet, "rows", "it has too many rows")
	}
	if m.cells += len(cells) * times; m.cells > m.Limits.Cells {
		return m.Limits.Beyond(m.file, sheet, "cells", "it has too many cells")
	}
	text := 0
	for i, cell := range cells {
		if cell == BlankCell {
			continue
		}
		longest := max(len(cell.Raw), len(cell.Shown), len(cell.Formula))
		if longest > m.Limits.Characters && m.tooLong(cell) {
			return m.LongCell(sheet, Ref{row, i + 1})
		}
		text += longest
	}
	if m.text += int64(text) * int64(times); m.text > m.Limits.Text {
		return m.Limits.Beyond(m.file, sheet, "text", "its cells hold too many bytes of text")
	}
	return nil
}

// width is the number of columns up to the last one in which something stands, counted only as far as it is over most.
func width(cells []*Cell, most int) int {
	n := len(cells)
	for n > most && cells[n-1] == BlankCell {
		n--
	}
	return n
}

func (m *Meter) tooLong(cell *Cell) bool {
	return max(utf8.RuneCountInString(cell.Raw), utf8.RuneCountInString(cell.Shown), utf8.RuneCountInString(cell.Formula)) > m.Limits.Characters
}

func place(sheet string, row int) string {
	if sheet == "" {
		return fmt.Sprintf("row %d", row)
	}
	return fmt.Sprintf("%s, row %d", sheet, row)
}
