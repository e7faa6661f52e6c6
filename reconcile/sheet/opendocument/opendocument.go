// Package opendocument reads OpenDocument spreadsheets (ods, OASIS OpenDocument 1.2 and 1.3, part 3) into sheets of cells.
//
// An OpenDocument file stores the shown text of each cell beside its value, so Shown is what the last program showed.
// Number formats are stored as elements; they are written as the format codes of workbooks, so that one reader can
// understand both. Dates and times become the serial numbers that workbooks store. Formulas lose the brackets and
// points of their references ([.B2] becomes B2), and are not computed.
//
// The format repeats equal cells and rows by a number. Blank ones are skipped, however many; repeated content counts
// against the limit on cells each time.
package opendocument

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
	"example.com/seatline/reconcile/sheet/internal/zipparts"
)

const (
	// MaxRows and MaxCols are the largest numbers of a row and a column.
	MaxRows, MaxCols = 1_048_576, 16_384
	// maxNotes bounds the notes about single cells of a sheet.
	maxNotes = 20
	// CodeCell is the code of the notes about cells whose values do not fit their types.
	CodeCell = "file.cell"
	// mediaType is how an OpenDocument spreadsheet names itself in its first member (part 2, 3.3); templates add to it.
	mediaType = "application/vnd.oasis.opendocument.spreadsheet"
)

const (
	spaceOffice xmlscan.Space = iota + 1
	spaceTable
	spaceText
	spaceStyle
	spaceNumber
	spaceCalcExt
	spaceManifest
	spaceFormatting
)

var spaces = map[string]xmlscan.Space{
	"urn:oasis:names:tc:opendocument:xmlns:office:1.0":                     spaceOffice,
	"urn:oasis:names:tc:opendocument:xmlns:table:1.0":                      spaceTable,
	"urn:oasis:names:tc:opendocument:xmlns:text:1.0":                       spaceText,
	"urn:oasis:names:tc:opendocument:xmlns:style:1.0":                      spaceStyle,
	"urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0":                  spaceNumber,
	"urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0": spaceCalcExt,
	"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0":                   spaceManifest,
	"urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0":          spaceFormatting,
}

// Read is [ReadWithin] the default limits.
func Read(name string, r io.ReaderAt, size int64) (*sheet.Book, error) {
	return ReadWithin(name, r, size, sheet.Limits{})
}

// ReadWithin reads a whole spreadsheet; name is what findings and errors call it. Errors are of type [*sheet.FileError]:
// nothing is returned of a file that is damaged anywhere, or that goes beyond the limits.
func ReadWithin(name string, r io.ReaderAt, size int64, limits sheet.Limits) (*sheet.Book, error) {
	archive, err := zipparts.Open(name, r, size, zipparts.Within(limits))
	if err != nil {
		return nil, err
	}
	b := &reader{
		name: name, archive: archive, meter: sheet.NewMeter(name, limits), styles: map[string]style{}, data: map[string]dataStyle{}, known: map[string]cellStyle{},
		book: &sheet.Book{File: name, Format: "OpenDocument spreadsheet"},
	}
	if err := b.read(); err != nil {
		return nil, b.locate(err)
	}
	return b.book, nil
}

// reader is the state of reading one file.
type reader struct {
	name    string
	archive *zipparts.Archive
	book    *sheet.Book
	part    string
	styles  map[string]style
	data    map[string]dataStyle
	known   map[string]cellStyle // of styles of cells, as far as they were asked for
	ranges  []namedRange
	meter   *sheet.Meter
}

// style is a style of cells or of a table.
type style struct {
	parent, data string
	hidden       bool
	look         look
	paint        sheet.Paint
	fills, inks  bool // it says how cells are filled, and of which colour characters are
}

// namedRange is a table or filter range with the sheet that it is on.
type namedRange struct {
	sheet string
	table sheet.Table
}

func (b *reader) read() error {
	kind, found := b.archive.Text("mimetype")
	kind = strings.TrimSpace(kind)
	if !b.archive.Has("content.xml") || found && kind != mediaType && kind != mediaType+"-template" {
		return &sheet.FileError{File: b.name, Reason: sheet.ReasonUnsupported, Problem: "it is no OpenDocument spreadsheet",
			Next: "open it in a program that can, and save the sheet as an xlsx workbook or as CSV"}
	}
	if manifest, _ := b.archive.Text("META-INF/manifest.xml"); strings.Contains(manifest, "encryption-data") {
		return &sheet.FileError{File: b.name, Reason: sheet.ReasonEncrypted, Problem: "the spreadsheet is protected by a password",
			Next: "open it with the password, save it without one, and use that copy"}
	}
	if b.archive.Has("styles.xml") {
		if err := b.scan("styles.xml"); err != nil {
			return err
		}
	}
	if err := b.scan("content.xml"); err != nil {
		return err
	}
	if len(b.book.Sheets) == 0 {
		return errors.New("it has no sheet")
	}
	for _, one := range b.ranges {
		for _, s := range b.book.Sheets {
			if s.Name == one.sheet {
				s.Tables = append(s.Tables, one.table)
			}
		}
	}
	return nil
}

// scan reads a part: its styles wherever they stand, and its sheets.
func (b *reader) scan(part string) error {
	text, _ := b.archive.Text(part)
	b.part = part
	s := xmlscan.New(text, spaces)
	root := "document-content"
	if part == "styles.xml" {
		root = "document-styles"
	}
	if _, err := s.Next(); err != nil {
		return err
	}
	if s.Space != spaceOffice || s.Local != root {
		return s.Fail("the part begins with <%s> and not with <%s> as it should", s.Local, root)
	}
	for {
		token, err := s.Next()
		if err != nil {
			return err
		}
		if token == xmlscan.EOF {
			return nil
		}
		if token != xmlscan.Start {
			continue
		}
		switch {
		case s.Space == spaceOffice && (s.Local == "automatic-styles" || s.Local == "styles"):
			err = s.Children(b.style)
		case s.Space == spaceOffice && s.Local == "body":
			err = s.Children(func(s *xmlscan.Scanner) error {
				if s.Space != spaceOffice || s.Local != "spreadsheet" {
					return s.Skip()
				}
				return s.Children(b.spreadsheet)
			})
		default:
			err = s.Skip()
		}
		if err != nil {
			return err
		}
	}
}

// spreadsheet reads one child of <office:spreadsheet>.
func (b *reader) spreadsheet(s *xmlscan.Scanner) error {
	switch {
	case s.Space != spaceTable:
	case s.Local == "table":
		return b.table(s)
	case s.Local == "database-ranges":
		return s.Children(b.databaseRange)
	}
	return s.Skip()
}

// databaseRange takes in a range that the file marks as a table or filter.
func (b *reader) databaseRange(s *xmlscan.Scanner) error {
	name, _, err := s.AttrIn(spaceTable, "name")
	if err != nil {
		return err
	}
	target, _, err := s.AttrIn(spaceTable, "target-range-address")
	if err != nil {
		return err
	}
	filter, _, err := s.AttrIn(spaceTable, "display-filter-buttons")
	if err != nil {
		return err
	}
	if strings.HasPrefix(name, "__Anonymous_Sheet_DB__") {
		name = ""
	}
	sheetName, area, ok := parseAddress(target)
	if ok && (name != "" || filter == "true") {
		b.ranges = append(b.ranges, namedRange{sheetName, sheet.Table{Name: name, Range: area}})
	}
	return s.Skip()
}

// parseAddress reads a range such as 'Price list'.A1:'Price list'.C9.
func parseAddress(address string) (name string, area sheet.Range, ok bool) {
	first, last, pair := cutAddress(address, ':')
	name, from := splitSheet(first)
	if !pair {
		last = from
	}
	_, to := splitSheet(last)
	area, err := sheet.ParseRange(from + ":" + to)
	return name, area, err == nil
}

// cutAddress cuts at a sign outside quotes.
func cutAddress(text string, sign byte) (before, after string, found bool) {
	quoted := false
	for i := 0; i < len(text); i++ {
		switch {
		case text[i] == '\'':
			quoted = !quoted
		case text[i] == sign && !quoted:
			return text[:i], text[i+1:], true
		}
	}
	return text, "", false
}

func splitSheet(text string) (name, cell string) {
	name, cell, found := cutAddress(text, '.')
	if !found {
		return "", text
	}
	name = strings.TrimPrefix(name, "$")
	if len(name) > 1 && name[0] == '\'' {
		name = strings.ReplaceAll(name[1:len(name)-1], "''", "'")
	}
	return name, cell
}

// count reads an attribute that says how often something stands, 1 where it is missing.
func count(s *xmlscan.Scanner, name string) (int, error) {
	text, found, err := s.AttrIn(spaceTable, name)
	if err != nil || !found {
		return 1, err
	}
	value, err := strconv.Atoi(text)
	if err != nil || value < 1 {
		return 0, s.Fail("%s is %q and no number from 1 on", name, text)
	}
	return value, nil
}

// locate turns an error into one that names file, part and place.
func (b *reader) locate(err error) error {
	var known *sheet.FileError
	if errors.As(err, &known) {
		return err
	}
	place, problem := b.part, err.Error()
	var fault *xmlscan.Error
	if errors.As(err, &fault) {
		place = fmt.Sprintf("%s, line %d, column %d", b.part, fault.Line, fault.Column)
		problem = fault.Message
	}
	return &sheet.FileError{File: b.name, Place: place, Reason: sheet.ReasonDamaged, Err: err, Problem: "the spreadsheet is damaged: " + problem,
		Next: "open it in a spreadsheet program, check what it repairs and save it anew, or get the file again"}
}
