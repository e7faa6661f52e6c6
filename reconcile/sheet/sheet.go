// Package sheet is the neutral form in which every supplier's file reaches the reader: a book of sheets, a sheet of
// cells, each cell with what the file stores, what a person sees and how it is formatted. It does no input or output
// and interprets nothing; the packages below it read files into it.
package sheet

import (
	"fmt"
	"strconv"
	"strings"
)

// Book is one source file.
type Book struct {
	// File is the name by which findings call the file, as the user gave it.
	File string
	// Format says what the file turned out to be, for people: "xlsx workbook", "text, semicolons, Windows-1252".
	Format string
	Sheets []*Sheet
	// Notes are things worth knowing about how the file was read, such as the encoding that was chosen.
	Notes []Note
}

// Note is something about a file or a place in it that a person should know. Ref is zero for the whole sheet or file.
type Note struct {
	Code    string // as in package finding, for example "file.encoding"
	Sheet   string
	Ref     Ref
	Message string
}

// Sheet is one grid of cells. Rows and columns count from 1, as people count them.
type Sheet struct {
	Name   string
	Hidden bool
	// Rows holds the cells of row r at index r−1; a row may be shorter than others or nil. Cells that are equal may be
	// one and the same, as those that are blank are BlankCell: nobody changes a cell that he has not made himself.
	Rows [][]*Cell
	// Merges are the merged ranges. Only the top left cell of a merged range holds the value.
	Merges []Range
	// HiddenRows and HiddenCols hold the numbers of hidden rows and columns.
	HiddenRows, HiddenCols map[int]bool
	// Tables are the named tables and autofilter ranges that the file declares.
	Tables []Table
	// Struck holds the characters of cells that are struck out. They are no part of the content: a cell of which nothing else is left is
	// StruckCell.
	Struck map[Ref]string
	// Comments holds what people have written beside cells: comments, notes, threads of them, one below the other.
	Comments map[Ref]string
	// Colours are how cells are filled, and their characters coloured, as far as the file says so of single cells.
	Colours Colours
	// Inks holds the colours of some of a cell's characters, where these are not those of the cell.
	Inks map[Ref][]Colour
}

// Ink keeps the colours that some characters of a cell have.
func (s *Sheet) Ink(at Ref, colours []Colour) {
	if s.Inks == nil {
		s.Inks = map[Ref][]Colour{}
	}
	s.Inks[at] = colours
}

// Strike keeps what is struck out of a cell.
func (s *Sheet) Strike(at Ref, text string) {
	if s.Struck == nil {
		s.Struck = map[Ref]string{}
	}
	s.Struck[at] = text
}

// Comment adds a comment to those of a cell.
func (s *Sheet) Comment(at Ref, text string) {
	if s.Comments == nil {
		s.Comments = map[Ref]string{}
	}
	if before := s.Comments[at]; before != "" {
		text = before + "\n" + text
	}
	s.Comments[at] = text
}

// Table is a range that the file itself marks as a table. Name is empty for an autofilter.
type Table struct {
	Name  string
	Range Range
}

// Kind is what a cell stores.
type Kind uint8

const (
	// Blank is a cell with nothing in it.
	Blank Kind = iota
	// Text is a string. Every cell of a text file is Text or Blank.
	Text
	// Number is a number that is not formatted as a date or time.
	Number
	// Date is a number formatted as a date or time; Raw holds the serial number.
	Date
	// Bool is TRUE or FALSE.
	Bool
	// Error is an error value such as #DIV/0!.
	Error
	// Struck is a cell whose whole content is struck out. It has none, and is only there so that its row is counted.
	Struck
)

// Cell is one cell. It is comparable.
type Cell struct {
	Kind Kind
	// Raw is what the file stores: the text, or the number as written in the file (0.33500000000000002).
	Raw string
	// Shown is what a person sees, as far as the number format is understood; otherwise equal to Raw.
	Shown string
	// Format is the number format code (0.000"in", d-mmm), empty for General and for text files.
	Format string
	// Formula is the formula without its equals sign. A formula without a result has Kind Blank.
	Formula string
	// WorkedOut is set where the file does not store the result of the formula, and it was worked out in reading.
	WorkedOut bool
}

// BlankCell stands at the places of a row where there is no cell, and StruckCell where all that stood there is struck out.
var BlankCell, StruckCell = &Cell{}, &Cell{Kind: Struck}

// Cell returns the cell at a place, blank where there is none.
func (s *Sheet) Cell(r Ref) Cell {
	if r.Row < 1 || r.Row > len(s.Rows) || r.Col < 1 || r.Col > len(s.Rows[r.Row-1]) {
		return Cell{}
	}
	return *s.Rows[r.Row-1][r.Col-1]
}

// Width returns the number of columns of the widest row.
func (s *Sheet) Width() int {
	width := 0
	for _, row := range s.Rows {
		width = max(width, len(row))
	}
	return width
}

// Ref is the place of a cell; the zero Ref is no place.
type Ref struct{ Row, Col int }

// String returns the place as people write it: B7.
func (r Ref) String() string {
	var room [32]byte
	return string(strconv.AppendInt(appendColumn(room[:0], r.Col), int64(r.Row), 10))
}

// Range is a rectangle of cells, both corners included.
type Range struct{ From, To Ref }

// String returns the range as people write it: B7:D9, or B7 for a single cell.
func (r Range) String() string {
	if r.From == r.To {
		return r.From.String()
	}
	return r.From.String() + ":" + r.To.String()
}

// Contains reports whether the range includes a cell.
func (r Range) Contains(c Ref) bool {
	return c.Row >= r.From.Row && c.Row <= r.To.Row && c.Col >= r.From.Col && c.Col <= r.To.Col
}

// ColumnName returns the letters of a column counted from 1: A, Z, AA.
func ColumnName(col int) string {
	var room [16]byte
	return string(appendColumn(room[:0], col))
}

func appendColumn(name []byte, col int) []byte {
	if col > 26 {
		name = appendColumn(name, (col-1)/26)
	}
	if col > 0 {
		name = append(name, byte('A'+(col-1)%26))
	}
	return name
}

// ParseRef reads a place such as B7 or $B$7.
func ParseRef(s string) (Ref, error) {
	text := strings.ReplaceAll(strings.ToUpper(s), "$", "")
	letters := strings.IndexFunc(text, func(r rune) bool { return r < 'A' || r > 'Z' })
	if letters < 1 || letters > 3 {
		return Ref{}, fmt.Errorf("%q is no cell; write a column and a row, such as B7", s)
	}
	row, err := strconv.Atoi(text[letters:])
	if err != nil || row < 1 {
		return Ref{}, fmt.Errorf("%q is no cell; write a column and a row, such as B7", s)
	}
	col := 0
	for _, letter := range text[:letters] {
		col = col*26 + int(letter-'A') + 1
	}
	return Ref{Row: row, Col: col}, nil
}

// ParseRange reads a range such as B7:D9, or a single cell.
func ParseRange(s string) (Range, error) {
	first, last, pair := strings.Cut(s, ":")
	from, err := ParseRef(first)
	if err != nil || !pair {
		return Range{from, from}, err
	}
	to, err := ParseRef(last)
	if err != nil {
		return Range{}, err
	}
	return Range{
		From: Ref{min(from.Row, to.Row), min(from.Col, to.Col)},
		To:   Ref{max(from.Row, to.Row), max(from.Col, to.Col)},
	}, nil
}
