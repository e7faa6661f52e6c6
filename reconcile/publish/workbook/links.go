package workbook

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/tell"
)

// linked is the look of a cell that leads somewhere.
func (l look) linked() look {
	l.line, l.color = true, fillFlush
	return l
}

// placeName is a place as people who were sent the workbook know it.
func (b *book) placeName(at finding.Place) string {
	at.File = b.fileName(at.File)
	return at.String()
}

func namesOfInputs(inputs []tell.Input) []string {
	names := make([]string, len(inputs))
	for i := range inputs {
		names[i] = inputs[i].Name
	}
	return names
}

// source is a cell that says where something comes from, and leads there.
func (p *page) source(at finding.Place, text any, l look) any {
	if file, _ := p.target(at); file == "" {
		return p.as(text, l)
	}
	return leading{Cell: p.as(text, l.linked()), source: at}
}

// target is the address of a source file, empty where the reader of the workbook is not told where it is, and a cell in it.
func (p *page) target(at finding.Place) (file, location string) {
	file = p.address(at.File)
	if file == "" {
		return "", ""
	}
	cell := at.Cell
	if cell == "" && at.Row > 0 {
		cell = "A" + strconv.Itoa(at.Row)
	}
	if at.Sheet == "" || cell == "" {
		return file, "" // of a text file no program knows cells
	}
	return file, "'" + strings.ReplaceAll(clean(at.Sheet), "'", "''") + "'!" + cell
}

// address is that of a source file, empty where it is not known. It is found once: tens of thousands of cells lead to a file.
func (b *book) address(file string) string {
	address, known := b.addresses[file]
	if !known && b.opts.Sources != nil && file != "" {
		address = escaped(b.opts.Sources(file))
		if b.addresses == nil {
			b.addresses = map[string]string{}
		}
		b.addresses[file] = address
	}
	return address
}

// escaped writes what an address has no room for as percent signs and digits; letters of any script may stand (RFC 3987).
func escaped(text string) string {
	var b strings.Builder
	for _, r := range clean(text) {
		if r <= ' ' || strings.ContainsRune("%#\"<>\\^`{|}", r) {
			fmt.Fprintf(&b, "%%%02X", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// lead makes a cell of the last row lead to where it says.
func (p *page) lead(column int, to leading) {
	if to.section != "" {
		sheet, known := p.sheetOf[to.section]
		if !known {
			sheet = to.section
		}
		p.link(column, p.row, place{sheet, 1, to.row})
		return
	}
	if file, location := p.target(to.source); file != "" {
		p.content.leadTo(address(column, p.row), file, location)
	}
}
