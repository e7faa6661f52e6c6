// Package workbook reads xlsx, xlsm, xltx and xltm workbooks (Office Open XML, ECMA-376 and ISO/IEC 29500, transitional
// and strict) into sheets of cells.
//
// The parts that hold the cells are read here and not by the workbook library that writes our output, for two reasons.
// The library takes a damaged sheet for a short one: where a row, a token or a checksum is broken, it stops and returns
// what it has, without an error. And its fast way through a sheet gives one string per cell, while a sheet of parts needs
// the stored value, the shown value, the number format and the formula of the same cell, in one pass and unaltered by
// each other. So this package reads the workbook part, the relationships, the number formats, the shared strings, the
// sheets, the tables and the comments, and of fonts what is struck out, raised and lowered; it leaves alone what says nothing about values:
// themes, colours, drawings, charts, conditional formats, macros, the calculation chain and defined names. The library serves as the independent second
// reader in the tests.
//
// What a reader should know:
//
//   - Formulas are not computed. A cell shows the result that the last program stored; a formula without one is Blank (package formula
//     works some of them out).
//   - A blank cell is the zero Cell whatever its format, and rows end with their last cell that is not blank.
//   - Phonetic guides (furigana) are no part of the text. White space around a text counts only where the file says
//     xml:space="preserve", as in the programs that write such files.
//   - A date stored as ISO 8601 text becomes the serial number that other files would store.
package workbook

import (
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/sniff"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
	"example.com/seatline/reconcile/sheet/internal/zipparts"
	"example.com/seatline/reconcile/sheet/numfmt"
)

const (
	// MaxRows and MaxCols are the size of a sheet in the programs that write workbooks.
	MaxRows, MaxCols = 1_048_576, 16_384
	// maxMade is the number of bytes of long texts that may be made for shown values and shared formulas. It keeps a
	// text that many cells share from filling the memory.
	maxMade = 128 << 20
	// longText is the length in bytes from which on a text counts for that.
	longText = 200
	// maxRelations is the number of relationships that a part may have.
	maxRelations = 20_000
	// maxNotes bounds the notes about single cells of a sheet.
	maxNotes = 20
)

// The codes of the notes that this package writes.
const (
	// CodeDates1904 says that the workbook counts days from 1904.
	CodeDates1904 = "file.dates1904"
	// CodeSheetSkipped names a sheet without cells, such as a chart.
	CodeSheetSkipped = "file.sheet-skipped"
	// CodeCell is about a cell that the file describes in a way that its format does not allow.
	CodeCell = "file.cell"
	// CodeComments says that the comments of a sheet cannot be read.
	CodeComments = "file.comments"
)

// The namespaces that matter.
const (
	spaceMain xmlscan.Space = iota + 1
	spaceRelation
	spacePackage
	spaceThreads
	spaceDrawing
)

var spaces = map[string]xmlscan.Space{
	"http://schemas.openxmlformats.org/spreadsheetml/2006/main":               spaceMain,
	"http://purl.oclc.org/ooxml/spreadsheetml/main":                           spaceMain,
	"http://schemas.openxmlformats.org/officeDocument/2006/relationships":     spaceRelation,
	"http://purl.oclc.org/ooxml/officeDocument/relationships":                 spaceRelation,
	"http://schemas.openxmlformats.org/package/2006/relationships":            spacePackage,
	"http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments": spaceThreads,
	"http://schemas.openxmlformats.org/drawingml/2006/main":                   spaceDrawing,
	"http://purl.oclc.org/ooxml/drawingml/main":                               spaceDrawing,
}

// Read is [ReadWithin] the default limits.
func Read(name string, r io.ReaderAt, size int64) (*sheet.Book, error) {
	return ReadWithin(name, r, size, sheet.Limits{})
}

// ReadWithin reads a whole workbook; name is what findings and errors call it. Errors are of type [*sheet.FileError]: nothing
// is returned of a file that is damaged anywhere, or that goes beyond the limits.
func ReadWithin(name string, r io.ReaderAt, size int64, limits sheet.Limits) (*sheet.Book, error) {
	if err := refuse(name, r, size); err != nil {
		return nil, err
	}
	archive, err := zipparts.Open(name, r, size, zipparts.Within(limits))
	if err != nil {
		return nil, err
	}
	b := &reader{name: name, archive: archive, book: &sheet.Book{File: name}, meter: sheet.NewMeter(name, limits)}
	if err := b.read(); err != nil {
		return nil, b.locate(err)
	}
	return b.book, nil
}

// refuse turns down what is no zip archive.
func refuse(name string, r io.ReaderAt, size int64) error {
	head := make([]byte, min(size, 4096))
	if _, err := r.ReadAt(head, 0); err != nil && !errors.Is(err, io.EOF) {
		return unreadable(name, err)
	}
	found := sniff.Head(head)
	if found.Form == sniff.Compound {
		whole := make([]byte, min(size, sniff.CompoundLimit))
		if _, err := r.ReadAt(whole, 0); err != nil && !errors.Is(err, io.EOF) {
			return unreadable(name, err)
		}
		found = sniff.Bytes(whole)
	}
	if found.Form == sniff.Text || found.Form == sniff.XML {
		return &sheet.FileError{File: name, Reason: sheet.ReasonMisnamed, Problem: "it is no workbook; it looks like text",
			Next: "give it a name that ends in .csv"}
	}
	return found.Err(name)
}

func unreadable(name string, err error) error {
	return &sheet.FileError{File: name, Reason: sheet.ReasonUnreadable, Problem: "it cannot be read (" + err.Error() + ")",
		Next: "check the file and the disk", Err: err}
}

// reader is the state of reading one workbook.
type reader struct {
	name     string
	archive  *zipparts.Archive
	book     *sheet.Book
	part     string // the part that is being read
	date1904 bool
	strings  []string
	rich     map[int]richText // those of the strings of which there is more to know
	styles   []style
	strikes  bool // some style strikes its cells out
	paints   bool // some style colours its cells
	theme    string
	scheme   []sheet.Colour // of the theme, nil until one is asked for
	palette  []sheet.Colour // the file's own
	meter    *sheet.Meter
	made     int // bytes of long texts made so far
	damaged  int // cells that cannot be read
}

// style is what a cell format says about values.
type style struct {
	code   string // empty for General
	format *numfmt.Format
	struck bool
	paint  sheet.Paint
}

func (b *reader) read() error {
	main, err := b.mainPart()
	if err != nil {
		return err
	}
	relations, err := b.relations(main)
	if err != nil {
		return err
	}
	entries, err := b.workbook(main)
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return errors.New("it lists no sheet")
	}
	b.theme = relations.ofType("theme")
	if part := relations.ofType("styles"); part != "" {
		if err := b.readStyles(part); err != nil {
			return err
		}
	}
	if part := relations.ofType("sharedStrings"); part != "" {
		if err := b.readStrings(part); err != nil {
			return err
		}
	}
	for _, entry := range entries {
		if err := b.sheet(entry, relations); err != nil {
			return err
		}
	}
	if b.date1904 {
		b.book.Notes = append(b.book.Notes, sheet.Note{Code: CodeDates1904,
			Message: "the workbook counts days from 1904-01-01: its dates are 1462 less than those of other workbooks"})
	}
	return nil
}

// mainPart finds the workbook part and tells other kinds of documents.
func (b *reader) mainPart() (string, error) {
	for _, other := range []struct{ member, problem string }{
		{"word/document.xml", "it is a Word document"},
		{"ppt/presentation.xml", "it is a presentation"},
		{"xl/workbook.bin", "it is a binary workbook (xlsb)"},
		{"Index/Document.iwa", "it is a Numbers document"},
		{"content.xml", "it is an OpenDocument file"},
	} {
		if b.archive.Has(other.member) {
			return "", b.unsupported(other.problem)
		}
	}
	relations, err := b.relations("")
	if err != nil {
		return "", err
	}
	main := relations.ofType("officeDocument")
	if main == "" {
		main = "xl/workbook.xml"
	}
	if !b.archive.Has(main) {
		return "", b.unsupported("it is a zip archive without a workbook in it")
	}
	b.book.Format = "xlsx workbook"
	if b.archive.Has("xl/vbaProject.bin") {
		b.book.Format = "xlsm workbook (its macros were not run)"
	}
	return main, nil
}

func (b *reader) unsupported(problem string) error {
	return &sheet.FileError{File: b.name, Reason: sheet.ReasonUnsupported, Problem: problem,
		Next: "open it in a program that can, and save the sheet as an xlsx workbook or as CSV"}
}

// relation is one relationship of a part.
type relation struct {
	id, kind, target string
	external         bool
}

type relations []relation

// ofType returns the target of the first relationship whose type ends so; transitional and strict files share the end.
func (r relations) ofType(kind string) string {
	for _, one := range r {
		if one.kind == kind && !one.external {
			return one.target
		}
	}
	return ""
}

func (r relations) byID(id string) (relation, bool) {
	for _, one := range r {
		if one.id == id {
			return one, true
		}
	}
	return relation{}, false
}

// relations reads the relationships of a part, those of the package for an empty name. A part may have none.
func (b *reader) relations(part string) (relations, error) {
	dir, base := path.Split(part)
	name := dir + "_rels/" + base + ".rels"
	text, found := b.archive.Text(name)
	if !found {
		return nil, nil
	}
	var all relations
	err := b.scan(name, text, spacePackage, "Relationships", func(s *xmlscan.Scanner) error {
		if s.Local != "Relationship" || s.Space != spacePackage {
			return s.Skip()
		}
		var one relation
		if err := attributes(s, map[string]*string{"Id": &one.id, "Type": &one.kind, "Target": &one.target}); err != nil {
			return err
		}
		mode, _, err := s.Attr("TargetMode")
		if err != nil {
			return err
		}
		one.external = mode == "External"
		one.kind = one.kind[strings.LastIndexByte(one.kind, '/')+1:]
		if !one.external {
			one.target = resolve(dir, one.target)
		}
		if all = append(all, one); len(all) > maxRelations {
			return s.Fail("more than %d relationships", maxRelations)
		}
		return s.Skip()
	})
	return all, err
}

// resolve makes the name of a part of a target that is relative to a folder or begins at the root of the package.
func resolve(dir, target string) string {
	target = strings.ReplaceAll(target, "\\", "/")
	if !strings.HasPrefix(target, "/") {
		target = "/" + dir + target
	}
	return strings.TrimPrefix(path.Clean(target), "/")
}

// attributes reads attributes of the current element into variables.
func attributes(s *xmlscan.Scanner, into map[string]*string) error {
	for name, variable := range into {
		value, _, err := s.Attr(name)
		if err != nil {
			return err
		}
		*variable = value
	}
	return nil
}

// scan runs through a part: it checks the root element and calls handle at each Start below it; handle passes over the
// element, its End included.
func (b *reader) scan(part, text string, space xmlscan.Space, root string, handle func(*xmlscan.Scanner) error) error {
	b.part = part
	s := xmlscan.New(text, spaces)
	if err := expectRoot(s, space, root); err != nil {
		return err
	}
	return s.Root(handle)
}

// expectRoot reads up to the root element and checks it.
func expectRoot(s *xmlscan.Scanner, space xmlscan.Space, root string) error {
	if _, err := s.Next(); err != nil {
		return err
	}
	if s.Local != root || s.Space != space && s.Space != xmlscan.NoSpace {
		return s.Fail("the part begins with <%s> and not with <%s> as it should", s.Local, root)
	}
	return nil
}

// is reports whether the current element is one of the main namespace; files without any namespace are taken as well.
func is(s *xmlscan.Scanner, local string) bool {
	return s.Local == local && (s.Space == spaceMain || s.Space == xmlscan.NoSpace)
}

// entry is a sheet as the workbook part lists it.
type entry struct {
	name, relation string
	hidden         bool
}

// workbook reads the list of sheets, in the order of their tabs, and the date system.
func (b *reader) workbook(part string) ([]entry, error) {
	text, _ := b.archive.Text(part)
	var entries []entry
	names := map[string]bool{}
	err := b.scan(part, text, spaceMain, "workbook", func(s *xmlscan.Scanner) error {
		switch {
		case is(s, "workbookPr"):
			value, _, err := s.Attr("date1904")
			if err != nil {
				return err
			}
			b.date1904 = isTrue(value)
		case is(s, "sheets"):
			return s.Children(func(s *xmlscan.Scanner) error {
				one, err := sheetEntry(s)
				if err != nil {
					return err
				}
				if key := strings.ToLower(one.name); names[key] {
					return s.Fail("two sheets are called %q", one.name)
				} else {
					names[key] = true
				}
				entries = append(entries, one)
				return s.Skip()
			})
		}
		return s.Skip()
	})
	return entries, err
}

func sheetEntry(s *xmlscan.Scanner) (entry, error) {
	var one entry
	state := ""
	if err := attributes(s, map[string]*string{"name": &one.name, "state": &state}); err != nil {
		return entry{}, err
	}
	one.hidden = state == "hidden" || state == "veryHidden"
	id, found, err := s.AttrIn(spaceRelation, "id")
	if err != nil {
		return entry{}, err
	}
	if !found {
		return entry{}, s.Fail("the sheet %q does not say where it is", one.name)
	}
	one.relation = id
	return one, nil
}

// isTrue reads a boolean of XML Schema.
func isTrue(value string) bool { return value == "1" || value == "true" || value == "on" }

// locate turns an error into one that names file, part and place.
func (b *reader) locate(err error) error {
	var known *sheet.FileError
	if errors.As(err, &known) {
		return err
	}
	place := b.part
	problem := err.Error()
	var fault *xmlscan.Error
	if errors.As(err, &fault) {
		place = fmt.Sprintf("%s, line %d, column %d", b.part, fault.Line, fault.Column)
		problem = fault.Message
	}
	return &sheet.FileError{File: b.name, Place: place, Reason: sheet.ReasonDamaged, Err: err, Problem: "the workbook is damaged: " + problem,
		Next: "open it in a spreadsheet program, check what it repairs and save it anew, or get the file again"}
}
