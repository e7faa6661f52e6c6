package workbook

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// content is what a sheet holds beside its settings: columns, rows, merged cells and links, as they stand in its part (ECMA-376,
// part 1, 18.3.1). The library sets a sheet up, and is slow at this: it keeps each link in a list that it searches for the next one,
// and reads whole sheets again to hide one.
type content struct {
	columns []byte
	rows    []byte
	merges  []byte
	merged  int
	links   []byte
	// files are the targets of links to other files, by their place.
	files []string
	known map[string]int
}

// column writes the width of a column. One that is hidden is there to be looked up in.
func (c *content) column(n int, width float64, hidden bool) {
	b := append(c.columns, `<col min="`...)
	b = strconv.AppendInt(b, int64(n), 10)
	b = append(b, `" max="`...)
	b = strconv.AppendInt(b, int64(n), 10)
	b = append(b, `" width="`...)
	b = strconv.AppendFloat(b, width, 'f', -1, 64)
	b = append(b, '"')
	if hidden {
		b = append(b, ` hidden="1"`...)
	}
	c.columns = append(b, ` customWidth="1"/>`...)
}

// row writes a row. A cell is nil or an [excelize.Cell] with a text, a number, a formula or nothing.
func (c *content) row(n int, opts excelize.RowOpts, cells []any, names []string) error {
	b := append(c.rows, `<row r="`...)
	number := strconv.Itoa(n)
	b = append(append(b, number...), '"')
	if opts.Height > 0 {
		b = append(b, ` ht="`...)
		b = strconv.AppendFloat(b, opts.Height, 'f', -1, 64)
		b = append(b, `" customHeight="1"`...)
	}
	if opts.OutlineLevel > 0 {
		b = append(b, ` outlineLevel="`...)
		b = append(strconv.AppendInt(b, int64(opts.OutlineLevel), 10), '"')
	}
	if opts.Hidden {
		b = append(b, ` hidden="1"`...)
	}
	b = append(b, '>')
	for i := range cells {
		cell, is := cells[i].(excelize.Cell)
		if !is {
			continue
		}
		b = append(append(append(b, `<c r="`...), names[i]...), number...)
		if cell.StyleID != 0 {
			b = append(b, `" s="`...)
			b = strconv.AppendInt(b, int64(cell.StyleID), 10)
		}
		var err error
		if b, err = appendValue(b, cell); err != nil {
			return fmt.Errorf("%s%s: %w", names[i], number, err)
		}
	}
	c.rows = append(b, `</row>`...)
	return nil
}

// appendValue ends a cell's tag and writes what it holds.
func appendValue(b []byte, cell excelize.Cell) ([]byte, error) {
	var number float64
	switch v := cell.Value.(type) {
	case string:
		return appendText(b, v, cell.Formula), nil
	case nil:
		return append(b, `"/>`...), nil
	case int:
		number = float64(v)
	case int64:
		number = float64(v)
	case float64:
		number = v
	default:
		return b, fmt.Errorf("a cell cannot hold a %T", cell.Value)
	}
	if math.IsNaN(number) || math.IsInf(number, 0) {
		return b, fmt.Errorf("a cell cannot hold %v", number)
	}
	b = appendFormula(append(b, `">`...), cell.Formula)
	b = append(b, `<v>`...)
	b = strconv.AppendFloat(b, number, 'g', digits, 64)
	return append(b, `</v></c>`...), nil
}

// digits is how many significant digits a number has in a workbook: as many as spreadsheet programs keep.
const digits = 15

func appendFormula(b []byte, formula string) []byte {
	if formula == "" {
		return b
	}
	return append(appendEscaped(append(b, `<f>`...), formula), `</f>`...)
}

func appendText(b []byte, text, formula string) []byte {
	switch {
	case formula != "":
		b = appendFormula(append(b, `" t="str">`...), formula)
		b = appendEscaped(append(b, `<v>`...), text)
		return append(b, `</v></c>`...)
	case text == "":
		return append(b, `"/>`...)
	}
	b = append(b, `" t="inlineStr"><is><t`...)
	if spaced := text[0] <= ' ' || text[len(text)-1] <= ' ' || strings.Contains(text, "\n"); spaced {
		b = append(b, ` xml:space="preserve"`...)
	}
	b = appendEscaped(append(b, '>'), literal(text))
	return append(b, `</t></is></c>`...)
}

// literal keeps what looks like an escaped character of the format, _x0041_, from being read as one (ECMA-376, part 1, 22.9.2.19).
func literal(text string) string {
	if !strings.Contains(text, "_x") {
		return text
	}
	var b strings.Builder
	for i := range len(text) {
		if rest := text[i:]; len(rest) >= 7 && rest[0] == '_' && rest[1] == 'x' && rest[6] == '_' && isHex(rest[2:6]) {
			b.WriteString("_x005F")
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

func isHex(text string) bool {
	for _, c := range []byte(text) {
		if !strings.ContainsRune("0123456789ABCDEFabcdef", rune(c)) {
			return false
		}
	}
	return true
}

// appendEscaped appends text as it stands in XML. Texts are clean: without characters that XML does not have.
func appendEscaped(b []byte, text string) []byte {
	from := 0
	for i := range len(text) {
		var with string
		switch text[i] {
		case '&':
			with = "&amp;"
		case '<':
			with = "&lt;"
		case '>':
			with = "&gt;"
		case '"':
			with = "&#34;"
		default:
			continue
		}
		b = append(append(b, text[from:i]...), with...)
		from = i + 1
	}
	return append(b, text[from:]...)
}

func (c *content) merge(from, to string) {
	c.merged++
	c.merges = fmt.Appendf(c.merges, `<mergeCell ref="%s:%s"/>`, from, to)
}

// link makes a cell lead to a place in this workbook.
func (c *content) link(at, location string) {
	c.links = append(c.links, `<hyperlink ref="`...)
	c.links = append(append(c.links, at...), `" location="`...)
	c.links = append(appendEscaped(c.links, location), `"/>`...)
}

// leadTo makes a cell lead to another file, and there to a location where one is given. A link to a cell of another workbook has the
// file as its target and the cell as its location (ECMA-376, part 1, 18.3.1.47).
func (c *content) leadTo(at, file, location string) {
	n, known := c.known[file]
	if !known {
		if c.known == nil {
			c.known = map[string]int{}
		}
		n = len(c.files)
		c.known[file], c.files = n, append(c.files, file)
	}
	c.links = fmt.Appendf(c.links, `<hyperlink ref="%s" r:id="%s"`, at, fileID(n))
	if location != "" {
		c.links = append(c.links, ` location="`...)
		c.links = append(appendEscaped(c.links, location), '"')
	}
	c.links = append(c.links, `/>`...)
}

// fileID names a relationship; those of the library are named rId and a number.
func fileID(n int) string { return "file" + strconv.Itoa(n+1) }

var (
	noRows     = []byte(`<sheetData></sheetData>`)
	filterEnds = []byte(`</autoFilter>`)
	margins    = []byte(`<pageMargins`)
)

// part puts the content into a sheet's part as the library wrote it: pieces that follow each other, in the order that the format wants.
func (c *content) part(empty []byte) ([][]byte, error) {
	head, tail, found := bytes.Cut(empty, noRows)
	if !found {
		return nil, fmt.Errorf("a sheet has rows that are not ours")
	}
	// The library says of every sheet with a filter that rows are filtered out.
	pieces := [][]byte{bytes.Replace(head, []byte(` filterMode="true"`), nil, 1)}
	add := func(all ...[]byte) { pieces = append(pieces, all...) }
	if len(c.columns) > 0 {
		add([]byte(`<cols>`), c.columns, []byte(`</cols>`))
	}
	add([]byte(`<sheetData>`), c.rows, []byte(`</sheetData>`))
	if filter, rest, found := bytes.Cut(tail, filterEnds); found {
		add(filter, filterEnds)
		tail = rest
	}
	if c.merged > 0 {
		add(fmt.Appendf(nil, `<mergeCells count="%d">`, c.merged), c.merges, []byte(`</mergeCells>`))
	}
	if len(c.links) > 0 {
		at := bytes.Index(tail, margins)
		if at < 0 {
			return nil, fmt.Errorf("a sheet has no margins")
		}
		add(tail[:at], []byte(`<hyperlinks>`), c.links, []byte(`</hyperlinks>`))
		tail = tail[at:]
	}
	add(tail)
	return pieces, nil
}

const (
	noRelationships = `<?xml version="1.0" encoding="UTF-8"?>` + "\n" +
		`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` + endRelationships
	endRelationships = `</Relationships>`
	linkType         = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink"
)

// relationships adds the files that links lead to, to a sheet's relationships as the library wrote them, or to none.
func (c *content) relationships(of []byte) []byte {
	if len(of) == 0 {
		of = []byte(noRelationships)
	}
	of = bytes.TrimSuffix(bytes.TrimSpace(of), []byte(endRelationships))
	of = of[:len(of):len(of)]
	for n, file := range c.files {
		of = fmt.Appendf(of, `<Relationship Id="%s" Type="%s" Target="`, fileID(n), linkType)
		of = append(appendEscaped(of, file), `" TargetMode="External"/>`...)
	}
	return append(of, endRelationships...)
}
