// Package webpage reads the tables of web pages into sheets of cells: business software and shops hand out such pages under the name of a
// workbook (list.xls).
//
// Each table is a sheet, also one that stands in a cell of another, which then only lays it out. What a person sees is read, and nothing
// else: no scripts, no comments, nothing with "display: none" but rows and whole tables, which are marked as hidden. The lines of text
// above a table stand above it in its sheet, since they may say the unit. Cells are texts, but for the numbers that spreadsheet programs
// store beside what they show when they save a sheet as a page (x:num, sdval).
//
// The page is read token by token, so that what it costs is in proportion to its size however its elements are nested. Rules are those of
// the HTML Living Standard, 4.9 and 13.2, as far as tables go: end tags may be missing, spans are cut at the ends of their sections.
package webpage

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/net/html"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/palette"
	"example.com/seatline/reconcile/sheet/internal/runs"
)

const (
	// maxRows is the number of rows of a sheet, those without content included.
	maxRows = 1_048_576
	// maxSpanned is the greatest number of rows that a cell spans (HTML, 4.9.11).
	maxSpanned = 65_534
	// maxNested is how deep tables may stand in each other, and maxMarks how many elements that change how a text is seen.
	maxNested, maxMarks = 50, 100
	// mostAround is how many lines of text are kept above a table, and below the last one.
	mostAround = 50
)

// CodeText is the code of the note that text around the tables was left out.
const CodeText = "file.page-text"

// ReadWithin reads the tables of a page; name is what findings and errors call it. Errors are of type [*sheet.FileError].
func ReadWithin(name string, data []byte, limits sheet.Limits) (*sheet.Book, error) {
	meter := sheet.NewMeter(name, limits)
	if int64(len(data)) > meter.Limits.TextFile {
		return nil, meter.Limits.Beyond(name, "", "textfile", fmt.Sprintf("it is a page of %d bytes", len(data)))
	}
	text, notes, encoding, err := decode(data)
	if err != nil {
		return nil, &sheet.FileError{File: name, Reason: sheet.ReasonUnsupported, Problem: err.Error(),
			Next: "open it in a spreadsheet program and save it as an xlsx workbook or as CSV in UTF-8", Err: err}
	}
	p := &page{name: name, meter: meter, tokens: html.NewTokenizer(strings.NewReader(text)),
		book: &sheet.Book{File: name, Format: "web page, " + encoding, Notes: notes}}
	if err := p.read(); err != nil {
		return nil, err
	}
	return p.book, nil
}

// page is the state of reading one page.
type page struct {
	name   string
	meter  *sheet.Meter
	tokens *html.Tokenizer
	book   *sheet.Book
	tables int
	nested []*table
	// found are the tables in which something stands, as they end, and last is the sheet of the one that ended last.
	found []*table
	last  *sheet.Sheet
	names map[string]int
	marks []mark
	// classes are how the page's own classes colour what has them.
	classes map[string]cellPaint
	// around is the line of text outside tables that is being read, above the lines before it since the last table.
	around  words
	above   []string
	dropped int
}

// mark is an element that changes how the text in it is seen.
type mark struct {
	tag    string
	within int // elements of the same name in it that are open
	seen   seen
}

// seen is how a text is seen.
type seen struct {
	look   runs.Look
	hidden bool
	ink    sheet.Colour
}

func (p *page) seen() seen {
	if len(p.marks) == 0 {
		return seen{}
	}
	return p.marks[len(p.marks)-1].seen
}

func (p *page) read() error {
	for {
		var err error
		switch p.tokens.Next() {
		case html.ErrorToken:
			if err := p.tokens.Err(); !errors.Is(err, io.EOF) {
				return &sheet.FileError{File: p.name, Reason: sheet.ReasonDamaged, Problem: "the page cannot be read", Next: saveAnew, Err: err}
			}
			return p.end()
		case html.TextToken:
			if now := p.seen(); !now.hidden {
				err = p.text(string(p.tokens.Text()), now)
			} else if p.inStyle() {
				p.readClasses(string(p.tokens.Text()))
			}
		case html.StartTagToken:
			err = p.start(false)
		case html.SelfClosingTagToken:
			err = p.start(true)
		case html.EndTagToken:
			name, _ := p.tokens.TagName()
			err = p.close(string(name))
		}
		if err != nil {
			return err
		}
	}
}

const saveAnew = "open it in a spreadsheet program and save it as an xlsx workbook"

// end takes in that the page is over.
func (p *page) end() error {
	if len(p.nested) > 0 {
		return &sheet.FileError{File: p.name, Reason: sheet.ReasonTruncated, Problem: "the page is cut off: it ends within a table", Next: "get the file again from its source"}
	}
	if len(p.found) == 0 {
		return &sheet.FileError{File: p.name, Reason: sheet.ReasonUnsupported, Problem: "it is a web page without a table in it, also if its name says otherwise",
			Next: "look at it in a browser: it may ask to sign in; ask for the data as a workbook (xlsx) or as CSV"}
	}
	p.endLine()
	slices.SortFunc(p.found, func(a, b *table) int { return cmp.Compare(a.number, b.number) })
	for _, t := range p.found {
		p.book.Sheets = append(p.book.Sheets, t.out)
	}
	for i, line := range p.above {
		if i == mostAround {
			p.dropped += len(p.above) - i
			break
		}
		if err := p.addLine(p.last, line); err != nil {
			return err
		}
	}
	if p.dropped > 0 {
		p.book.Notes = append(p.book.Notes, sheet.Note{Code: CodeText, Message: fmt.Sprintf("%d lines of text around the tables of the page were left out", p.dropped)})
	}
	return nil
}

// addLine adds a line of text as a row of one cell.
func (p *page) addLine(to *sheet.Sheet, line string) error {
	row := []*sheet.Cell{{Kind: sheet.Text, Raw: line, Shown: line}}
	to.Rows = append(to.Rows, row)
	return p.meter.Row(to.Name, len(to.Rows), row, 1)
}

// endLine ends a line of text outside tables.
func (p *page) endLine() {
	text, _ := p.around.result()
	p.around = words{}
	if text == "" {
		return
	}
	if p.above = append(p.above, text); len(p.above) > 2*mostAround && len(p.found) == 0 {
		p.dropped += len(p.above) - mostAround
		p.above = append(p.above[:0], p.above[len(p.above)-mostAround:]...)
	}
}

// text takes in a text.
func (p *page) text(text string, now seen) error {
	most := p.meter.Limits.Characters * 4
	if len(p.nested) == 0 {
		if p.around.size <= most { // a longer line says nothing of a table
			p.around.add(text, now.look)
		}
		return nil
	}
	t := p.nested[len(p.nested)-1]
	into := t.into()
	if into == nil {
		return nil // between cells, where programs put line breaks
	}
	if now.ink != 0 && t.cell != nil && strings.TrimSpace(text) != "" {
		t.cell.addInk(now.ink)
	}
	if into.add(text, now.look); into.size > most {
		return p.meter.LongCell(t.out.Name, sheet.Ref{Row: len(t.out.Rows) + 1, Col: t.col + 1})
	}
	return nil
}

// attributes are those of an element that matter here.
type attributes struct {
	rows, cols    int
	hidden        bool
	struck        bool
	id            string
	stored        string
	stores        bool
	raised, below bool
	paint         sheet.Paint
}

func (p *page) attributes() attributes {
	a := attributes{rows: 1, cols: 1}
	styles, classes := "", ""
	for more := true; more; {
		var key, value []byte
		key, value, more = p.tokens.TagAttr()
		switch string(key) {
		case "rowspan":
			a.rows = span(value, maxSpanned)
		case "colspan":
			a.cols = max(1, span(value, 1000))
		case "hidden":
			a.hidden = true
		case "id":
			a.id = string(value[:min(len(value), 100)])
		case "x:num", "sdval":
			a.stored, a.stores = string(value[:min(len(value), 100)]), true
		case "style":
			styles = string(value)
		case "class":
			classes = string(value)
		case "bgcolor":
			a.paint.Fill = palette.Named(string(value))
		case "color":
			a.paint.Ink = palette.Named(string(value))
		}
	}
	for class := range strings.FieldsSeq(classes) {
		a.paint = p.classes[class].over(a.paint)
	}
	a.style(styles)
	return a
}

// style takes in what a style says (CSS 2.2, 9.2.4, 10.8.1 and 16.3.1; mso-hide is of the programs that save sheets as pages).
func (a *attributes) style(text string) {
	for declaration := range strings.SplitSeq(text, ";") {
		property, value, _ := strings.Cut(strings.ToLower(declaration), ":")
		value = strings.TrimSpace(value)
		switch strings.TrimSpace(property) {
		case "display":
			a.hidden = strings.HasPrefix(value, "none")
		case "visibility":
			a.hidden = a.hidden || strings.HasPrefix(value, "hidden") || strings.HasPrefix(value, "collapse")
		case "mso-hide":
			a.hidden = a.hidden || value == "all"
		case "text-decoration", "text-decoration-line":
			a.struck = strings.Contains(value, "line-through")
		case "vertical-align":
			a.raised, a.below = strings.HasPrefix(value, "super"), value == "sub"
		case "background", "background-color", "color":
			a.paint = paintIn(declaration).over(a.paint)
		}
	}
}

// span reads how many rows or columns a cell spans, one where that is no number; rowspan 0 is all the rest.
func span(value []byte, most int) int {
	digits := bytes.TrimSpace(value)
	digits = digits[:len(digits)-len(bytes.TrimLeft(digits, "0123456789"))]
	n, err := strconv.Atoi(string(digits))
	switch {
	case len(digits) == 0:
		return 1
	case err != nil || n > most:
		return most
	}
	return n
}

// unseen are elements whose text a person does not see as text of the page, and void those that have none.
var (
	unseen = map[string]bool{"script": true, "style": true, "title": true, "template": true, "noscript": true, "iframe": true, "object": true,
		"svg": true, "math": true, "select": true, "noembed": true, "noframes": true, "datalist": true, "xml": true}
	void = map[string]bool{"area": true, "base": true, "br": true, "col": true, "embed": true, "hr": true, "img": true, "input": true, "link": true,
		"meta": true, "param": true, "source": true, "track": true, "wbr": true}
	// blocks begin and end lines.
	blocks = map[string]bool{"address": true, "article": true, "aside": true, "blockquote": true, "body": true, "br": true, "center": true, "dd": true,
		"div": true, "dl": true, "dt": true, "fieldset": true, "footer": true, "form": true, "h1": true, "h2": true, "h3": true, "h4": true,
		"h5": true, "h6": true, "header": true, "hr": true, "li": true, "main": true, "nav": true, "ol": true, "p": true, "pre": true,
		"section": true, "ul": true}
)

// start takes in a start tag.
func (p *page) start(closed bool) error {
	tag, some := p.tokens.TagName()
	name := string(tag)
	a := attributes{rows: 1, cols: 1}
	if some {
		a = p.attributes()
	}
	var t *table
	if len(p.nested) > 0 {
		t = p.nested[len(p.nested)-1]
	}
	switch name {
	case "table":
		return p.startTable(a)
	case "thead", "tbody", "tfoot", "tr", "td", "th", "caption":
		if t != nil {
			return p.startPart(t, name, a)
		}
		return nil
	}
	p.breakLine(name)
	if closed && !unseen[name] || void[name] {
		return nil
	}
	p.startMark(name, a)
	return nil
}

// breakLine begins a new line at elements that do.
func (p *page) breakLine(tag string) {
	if !blocks[tag] || p.seen().hidden {
		return
	}
	if len(p.nested) == 0 {
		p.endLine()
	} else if into := p.nested[len(p.nested)-1].into(); into != nil {
		into.newline = true
	}
}

// startMark takes in an element that may change how its text is seen.
func (p *page) startMark(tag string, a attributes) {
	now := p.seen()
	next := now
	next.hidden = now.hidden || a.hidden || unseen[tag]
	next.look.Struck = now.look.Struck || a.struck || tag == "s" || tag == "strike" || tag == "del"
	if tag == "sup" || a.raised {
		next.look.Raised, next.look.Lowered = true, false
	}
	if tag == "sub" || a.below {
		next.look.Raised, next.look.Lowered = false, true
	}
	if ink := (sheet.Paint{Ink: a.paint.Ink}).Seen().Ink; ink != 0 {
		next.ink = ink
	}
	at := p.markOf(tag)
	switch {
	case next != now && len(p.marks) < maxMarks:
		p.marks = append(p.marks, mark{tag: tag, seen: next})
	case at >= 0:
		p.marks[at].within++
	}
}

// markOf returns the place of the innermost mark of a tag, -1 where there is none.
func (p *page) markOf(tag string) int {
	for i := len(p.marks) - 1; i >= 0; i-- {
		if p.marks[i].tag == tag {
			return i
		}
	}
	return -1
}

// close takes in an end tag.
func (p *page) close(tag string) error {
	if len(p.nested) > 0 {
		t := p.nested[len(p.nested)-1]
		switch tag {
		case "table":
			return p.endTable()
		case "thead", "tbody", "tfoot":
			return p.endSection(t)
		case "tr":
			return p.endRow(t)
		case "td", "th", "caption":
			p.endCell(t)
			return nil
		}
	}
	p.breakLine(tag)
	least := 0
	if len(p.nested) > 0 {
		least = p.nested[len(p.nested)-1].marks
	}
	if at := p.markOf(tag); at >= least {
		if p.marks[at].within > 0 {
			p.marks[at].within--
		} else {
			p.marks = p.marks[:at]
		}
	}
	return nil
}
