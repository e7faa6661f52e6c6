// Package biff reads the workbooks of Excel 97 to 2003 (xls: BIFF8 records, MS-XLS, in a compound file, MS-CFB) into sheets of cells.
//
// The compound file is opened by a library; of the records this package reads those that say something about values: texts with what is
// struck out and raised in them, numbers, results of formulas, number formats, fonts, merged ranges, hidden rows, columns and sheets.
// Formulas are kept as tokens in such files and are not written out: a cell has the result that was stored with it, if any, and … for its formula.
// Comments are read from among the drawings; what else is drawn, text boxes too, is not.
//
// A record stream has no checksums. A file that is cut off lacks the end marks of its parts, and is refused.
package biff

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/richardlehane/mscfb"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/numfmt"
)

const (
	// MaxRows and MaxCols are the size of a sheet.
	MaxRows, MaxCols = 65_536, 256
	// CodeComments is the code of the note that there are comments that cannot be read.
	CodeComments = "file.comments"
	// CodeSheetSkipped is that of the note about a sheet without cells, such as a chart.
	CodeSheetSkipped = "file.sheet-skipped"
	// CodeDates1904 says that the workbook counts days from 1904.
	CodeDates1904 = "file.dates1904"
)

// Source is the content of a file.
type Source interface {
	io.ReaderAt
	Size() int64
}

// ReadWithin reads a workbook; name is what findings and errors call it. Errors are of type [*sheet.FileError].
func ReadWithin(name string, r Source, limits sheet.Limits) (*sheet.Book, error) {
	b := &reader{name: name, meter: sheet.NewMeter(name, limits), book: &sheet.Book{File: name, Format: "xls workbook"}}
	stream, err := b.stream(r)
	if err == nil {
		err = b.read(stream)
	}
	if err != nil {
		return nil, b.locate(err)
	}
	return b.book, nil
}

// reader is the state of reading one workbook.
type reader struct {
	name     string
	book     *sheet.Book
	meter    *sheet.Meter
	records  records
	date1904 bool
	fonts    []font
	codes    map[int]string
	formats  map[int]*numfmt.Format
	styles   []style
	palette  []sheet.Colour // the file's own, of the numbers from 8 on
	texts    []text
	sheets   []entry
	spent    spent
}

// font is what a font says of how its text stands.
type font struct {
	struck, raised, lowered bool
	ink                     int // a number of the palette
}

// style is a cell format.
type style struct {
	font, format int
	fill         int // a number of the palette, zero where the cell is not filled
}

// entry is a sheet as the workbook lists it.
type entry struct {
	name   string
	at     int
	hidden bool
	kind   byte
}

// stream returns the records of the workbook out of the compound file.
func (b *reader) stream(r Source) (content []byte, err error) {
	directory := &bounded{ReaderAt: r, left: mostDirectory}
	defer func() {
		if err != nil && directory.ended {
			err = io.ErrUnexpectedEOF
		}
	}()
	file, err := mscfb.New(directory)
	if err != nil {
		return nil, fmt.Errorf("its table of contents cannot be read (%w)", err)
	}
	directory.left = math.MaxInt64
	for {
		one, err := file.Next()
		if errors.Is(err, io.EOF) {
			return nil, errors.New("there is no workbook in it")
		}
		if err != nil {
			return nil, fmt.Errorf("its table of contents cannot be read (%w)", err)
		}
		if !strings.EqualFold(one.Name, "Workbook") || len(one.Path) > 0 {
			continue
		}
		if one.Size > b.meter.Limits.Unpacked {
			return nil, b.meter.Limits.Beyond(b.name, "", "unpacked", fmt.Sprintf("its workbook has %d bytes", one.Size))
		}
		if one.Size > r.Size() { // it is cut off, or its sectors follow each other in a circle
			return nil, io.ErrUnexpectedEOF
		}
		content = make([]byte, one.Size)
		_, err = io.ReadFull(one, content)
		return content, err
	}
}

// mostDirectory is how many bytes of tables of contents are read: 4,096 entries, where a workbook has ten, and each object put into it five. The
// library keeps with each entry the path to it, and goes down into them by calling itself.
const mostDirectory = 512 << 10

// bounded is a compound file of which the library may read so much; ended is set where it has wanted more than there is.
type bounded struct {
	io.ReaderAt
	left  int64
	ended bool
}

func (b *bounded) ReadAt(p []byte, at int64) (int, error) {
	if b.left -= int64(len(p)); b.left < 0 {
		return 0, errors.New("it has too many entries")
	}
	n, err := b.ReaderAt.ReadAt(p, at)
	b.ended = b.ended || errors.Is(err, io.EOF)
	return n, err
}

// locate turns an error into one that names file and place.
func (b *reader) locate(err error) error {
	var known *sheet.FileError
	if errors.As(err, &known) {
		return err
	}
	reason, problem := sheet.ReasonDamaged, "the workbook is damaged: "+err.Error()
	if errors.Is(err, io.ErrUnexpectedEOF) {
		reason, problem = sheet.ReasonTruncated, "the workbook is cut off or damaged: it ends in the midst of its content"
	}
	return &sheet.FileError{File: b.name, Place: b.records.place(), Reason: reason, Err: err, Problem: problem,
		Next: "open it in a spreadsheet program, check what it repairs and save it as an xlsx workbook, or get the file again"}
}

// The records that are read (MS-XLS, 2.3).
const (
	recFormula    = 0x0006
	recEnd        = 0x000a
	recNote       = 0x001c
	recDateMode   = 0x0022
	recFilePass   = 0x002f
	recFont       = 0x0031
	recContinue   = 0x003c
	recColumn     = 0x007d
	recSheet      = 0x0085
	recObject     = 0x005d
	recRKs        = 0x00bd
	recBlanks     = 0x00be
	recRichText   = 0x00d6
	recXF         = 0x00e0
	recMerged     = 0x00e5
	recPalette    = 0x0092
	recTexts      = 0x00fc
	recObjectText = 0x01b6
	recSharedText = 0x00fd
	recBlank      = 0x0201
	recNumber     = 0x0203
	recLabel      = 0x0204
	recTruth      = 0x0205
	recString     = 0x0207
	recRow        = 0x0208
	recRK         = 0x027e
	recFormat     = 0x041e
	recBegin      = 0x0809
)

// read reads the workbook, and then each of its sheets.
func (b *reader) read(stream []byte) error {
	b.records = records{stream: stream}
	if err := b.begin(); err != nil {
		return err
	}
	if err := b.globals(); err != nil {
		return err
	}
	if len(b.sheets) == 0 {
		return errors.New("it lists no sheet")
	}
	names := map[string]bool{}
	for _, one := range b.sheets {
		if key := strings.ToLower(one.name); names[key] {
			return fmt.Errorf("two sheets are called %q", one.name)
		} else {
			names[key] = true
		}
		if one.kind != 0 {
			b.book.Notes = append(b.book.Notes, sheet.Note{Code: CodeSheetSkipped, Sheet: one.name,
				Message: fmt.Sprintf("the sheet %q is a chart or holds macros, and has no cells to read", one.name)})
			continue
		}
		if err := b.sheet(one); err != nil {
			return err
		}
	}
	if b.date1904 {
		b.book.Notes = append(b.book.Notes, sheet.Note{Code: CodeDates1904,
			Message: "the workbook counts days from 1904-01-01: its dates are 1462 less than those of other workbooks"})
	}
	return nil
}

// begin reads the record at the start of the workbook or of a sheet.
func (b *reader) begin() error {
	kind, data, err := b.records.next()
	if err != nil {
		return err
	}
	if kind != recBegin || len(data) < 4 {
		return errors.New("a part does not begin as it should")
	}
	if version := binary.LittleEndian.Uint16(data); version != 0x0600 {
		return &sheet.FileError{File: b.name, Reason: sheet.ReasonUnsupported, Problem: "it is a workbook of a program older than Excel 97",
			Next: "open it in a spreadsheet program and save it as an xlsx workbook or as CSV"}
	}
	return nil
}

// globals reads what holds for the whole workbook.
func (b *reader) globals() error {
	b.codes, b.formats = map[int]string{}, map[int]*numfmt.Format{}
	f := &fields{}
	for {
		kind, data, err := b.records.next()
		if err != nil {
			return err
		}
		f.begin(data)
		switch kind {
		case recEnd:
			return nil
		case recFilePass:
			return &sheet.FileError{File: b.name, Reason: sheet.ReasonEncrypted, Problem: "the workbook is protected by a password",
				Next: "open it with the password, save it without one, and use that copy"}
		case recDateMode:
			b.date1904 = f.u16() == 1
		case recFont:
			f.skip(2)
			attributes, ink := f.u16(), f.u16()
			f.skip(2)
			script := f.u16()
			if one := (font{struck: attributes&8 != 0, raised: script == 1, lowered: script == 2, ink: ink}); len(b.fonts) < mostNumbered {
				b.fonts = append(b.fonts, one)
			}
		case recFormat:
			id := f.u16()
			b.codes[id] = f.chars(f.u16())
		case recXF:
			if len(b.styles) < mostNumbered {
				b.styles = append(b.styles, readStyle(f))
			}
		case recPalette:
			b.readPalette(f)
		case recSheet:
			at := int(f.u32())
			state := f.u8()
			one := entry{at: at, hidden: state&3 != 0, kind: f.u8()}
			one.name = f.chars(int(f.u8()))
			if b.sheets = append(b.sheets, one); len(b.sheets) > b.meter.Limits.Sheets {
				return b.meter.ManySheets()
			}
		case recTexts:
			if err = b.records.appendContinued(f); err == nil {
				err = b.readTexts(f)
			}
		}
		if err = errors.Join(err, f.err); err != nil {
			return err
		}
	}
}

// readTexts reads the table of shared texts.
func (b *reader) readTexts(f *fields) error {
	f.skip(4)
	count := f.u32()
	for range count {
		one := f.richText()
		if f.err != nil {
			return f.err
		}
		b.texts = append(b.texts, one)
		if err := b.spent.text(b, "", one.size()); err != nil {
			return err
		}
	}
	return nil
}
