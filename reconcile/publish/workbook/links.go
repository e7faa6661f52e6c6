package workbook

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/tell"
)

// linked is the look of a cell that leads somewhere.
func (l look) linked() look {
	l.line, l.color = true, fillFlush
	return l
}

// sourceOf is where a part comes from: the cell of the given role where it is known, otherwise the row.
func sourceOf(item *catalog.Item, role catalog.Role) finding.Place {
	at := tell.Place(item.Source)
	if cell := item.Fields.Cell(role); cell != "" {
		at = finding.Place{File: at.File, Sheet: at.Sheet, Cell: cell}
	}
	return at
}

// source is a cell that says where a part comes from, and leads there once the row is written.
func (p *page) source(at finding.Place) any {
	if file, _ := p.target(at); file == "" {
		return p.as(at.String(), plain)
	}
	return p.as(at.String(), plain.linked())
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

// leadTo makes a cell of the last row lead to a place in a source file.
func (p *page) leadTo(column int, at finding.Place) {
	if file, location := p.target(at); file != "" && p.full == 0 {
		p.content.leadTo(address(column, p.row), file, location)
	}
}
