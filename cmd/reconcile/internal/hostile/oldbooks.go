package hostile

import (
	"bytes"
	"encoding/binary"
	"io"
	"strings"
	"unicode/utf16"
)

// oldBooks are workbooks of Excel 97 to 2003: compound files (MS-CFB) whose sectors follow each other in circles or nowhere, and records
// (MS-XLS) of which few stand for much, or very many for nothing.
func oldBooks() []Case {
	number := func(row, col int) []byte { return biff(0x0203, row, col, 0, 0, 0, 0, 0x402b) } // 13.5
	shared := func(row, col int) []byte { return biff(0x00fd, row, col, 0, 0, 0) }
	texts := func(n int, one []byte) func(*bytes.Buffer) {
		return func(out *bytes.Buffer) {
			out.Write(biff(0x00fc, 0, 0, n&0xffff, n>>16))
			for at := 0; at < n; {
				some := min(n-at, max(8_000/len(one), 1))
				out.Write(biff(0x003c, bytes.Repeat(one, some)))
				at += some
			}
		}
	}
	long := append([]byte{0, 0x7d, 0}, strings.Repeat("hosel od ", 3_556)[:32_000]...)
	rows := func(n int, record func(row, col int) []byte) func(*bytes.Buffer) {
		return func(out *bytes.Buffer) {
			for i := range n {
				out.Write(record(i/20, i%20))
			}
		}
	}
	again := func(n int, record []byte) func(*bytes.Buffer) {
		return func(out *bytes.Buffer) {
			for range n {
				out.Write(record)
			}
		}
	}
	one := rows(40, number)
	drawn := bytes.Join([][]byte{biff(0x005d, 0x15, 18, 0x19, 1, 0, 0, 0, 0, 0, 0, 0), biff(0x01b6, 0, 0, 0, 0, 0, 8_000, 0, 0, 0), biff(0x003c, []byte("\x00"+strings.Repeat("new 13.7 ", 889)[:8_000]))}, nil)
	return []Case{
		{Name: "xls-good", Make: oldBook(1, nil, one, nil)},
		{Name: "xls-good-million", Slow: true, Make: oldBook(1, nil, rows(1_000_000, number), nil)},
		// The compound file.
		{Name: "xls-cut", Status: 1, Says: "cut off", Make: oldBook(1, nil, rows(4_000, number), func(f *compound) { f.cut = 450_000 })},
		{Name: "xls-chain-circle", Status: 1, Says: "cut off", Make: oldBook(1, nil, rows(40_000, number), func(f *compound) { f.table[f.stream+1], f.size = f.stream, 200<<20 })},
		{Name: "xls-chain-ends", Status: 1, Says: "damaged", Make: oldBook(1, nil, rows(40_000, number), func(f *compound) { f.table[f.stream] = endOfChain })},
		{Name: "xls-chain-nowhere", Status: 1, Says: "damaged", Make: oldBook(1, nil, rows(40_000, number), func(f *compound) { f.table[f.stream] = 0x00ffffff })},
		{Name: "xls-size", Status: 1, Says: "--limit unpacked", Make: oldBook(1, nil, one, func(f *compound) { f.size = 1 << 60 })},
		{Name: "xls-size-below-zero", Status: 1, Says: "cut off", Make: oldBook(1, nil, one, func(f *compound) { f.size = -1 })},
		{Name: "xls-directory-circle", Status: 1, Says: "table of contents", Make: oldBook(1, nil, one, func(f *compound) { f.table[f.directory] = f.directory })},
		{Name: "xls-directory-long-circle", Status: 1, Says: "table of contents", Make: oldBook(1, nil, one, func(f *compound) { f.entries, f.circle = 300, true })},
		{Name: "xls-directory-deep", Status: 1, Says: "too many entries", Make: oldBook(1, nil, one, func(f *compound) { f.entries, f.deep = 60_000, true })},
		{Name: "xls-directory-4000-deep", Make: oldBook(1, nil, one, func(f *compound) { f.entries, f.deep = 4_000, true })},
		{Name: "xls-directory-long", Slow: true, Status: 1, Says: "too many entries", Make: oldBook(1, nil, one, func(f *compound) { f.entries = 1_500_000 })},
		{Name: "xls-no-sectors", Status: 1, Says: "without a workbook", Make: oldBook(1, nil, one, func(f *compound) { f.cut = 512 })},
		{Name: "xls-tables", Status: 1, Says: "table of contents", Make: oldBook(1, nil, one, func(f *compound) { f.head = map[int]uint32{44: 0x7fffffff, 68: f.stream, 72: 0x00ffffff} })},
		{Name: "xls-small-sectors", Make: oldBook(1, nil, one, func(f *compound) { f.head = map[int]uint32{60: f.stream, 64: 63_999, 44: 1 << 20} })},
		{Name: "xls-no-table", Status: 1, Says: "cut off", Make: oldBook(1, nil, one, func(f *compound) { f.head = map[int]uint32{48: 0xfffffff0} })},
		// What holds for the whole workbook.
		{Name: "xls-million-sheets", Slow: true, Status: 1, Says: "sheets", Make: oldBook(1, again(1_000_000, biff(0x0085, 0, 0, 0, []byte{1, 0, 'S'})), one, nil)},
		{Name: "xls-sheets-within-each-other", Slow: true, Status: 1, Says: "within each other", Make: withinEachOther(900, again(200_000, biff(0x0001, make([]byte, 1_000))))},
		{Name: "xls-empty-texts", Slow: true, Status: 1, Says: "too many texts", Make: oldBook(1, texts(60_000_000, []byte{0, 0, 0}), one, nil)},
		{Name: "xls-runs", Slow: true, Make: oldBook(1, texts(10_000, append([]byte{1, 0, 8, 0x88, 0x13, 'x'}, make([]byte, 20_000)...)), rows(200_000, shared), nil)},
		{Name: "xls-styles", Slow: true, Make: oldBook(1, again(30_000_000, biff(0x00e0, 0, 0)), one, nil)},
		{Name: "xls-fonts", Slow: true, Make: oldBook(1, again(16_000_000, biff(0x0031, 0, 0, 0, 0, 0)), one, nil)},
		{Name: "xls-palettes", Slow: true, Make: oldBook(1, again(1_000_000, biff(0x0092, 56, make([]byte, 224))), one, nil)},
		{Name: "xls-continued", Slow: true, Status: 1, Says: "goes on for too long", Make: oldBook(1, func(out *bytes.Buffer) {
			out.Write(biff(0x00fc, 0, 0, 1, 0))
			again(60_000_000, biff(0x003c))(out)
		}, one, nil)},
		{Name: "xls-long-format", Slow: true, Make: oldBook(1, func(out *bytes.Buffer) {
			out.Write(biff(0x041e, 200, 60_000, []byte("\x00"+strings.Repeat("0", 60_000))))
			out.Write(biff(0x00e0, 0, 200))
		}, rows(1_000_000, number), nil)},
		// What stands on a sheet.
		{Name: "xls-far-corner", Make: oldBook(1, nil, again(1, number(65_535, 255)), nil)},
		{Name: "xls-far-corners", Slow: true, Status: 1, Says: "rows", Make: oldBook(900, nil, again(1, number(65_535, 0)), nil)},
		{Name: "xls-cells", Slow: true, Status: 1, Says: "cells", Make: oldBook(3, nil, rows(1_000_000, number), nil)},
		{Name: "xls-wide-rows", Slow: true, Status: 1, Says: "cells", Make: oldBook(1, nil, func(out *bytes.Buffer) {
			for row := range 65_536 {
				out.Write(number(row, 255))
			}
		}, nil)},
		{Name: "xls-shared-text", Slow: true, Status: 1, Says: "bytes of text", Make: oldBook(1, func(out *bytes.Buffer) {
			out.Write(biff(0x00fc, []byte{0, 0, 0, 0, 1, 0, 0, 0}, long))
		}, rows(1_000_000, shared), nil)},
		{Name: "xls-shared-text-struck-out", Slow: true, Status: 1, Says: "bytes of text", Make: oldBook(1, func(out *bytes.Buffer) {
			out.Write(biff(0x0031, 200, 8, 0, 0, 0))
			out.Write(biff(0x00e0, 0, 0))
			out.Write(biff(0x00fc, []byte{0, 0, 0, 0, 1, 0, 0, 0}, long))
		}, rows(1_000_000, shared), nil)},
		{Name: "xls-blanks", Slow: true, Status: 1, Says: "nothing stands", Make: oldBook(1, nil, again(30_000, biff(0x00be, make([]byte, 8_000))), nil)},
		{Name: "xls-columns", Slow: true, Status: 1, Says: "columns", Make: oldBook(1, nil, again(10_000_000, biff(0x007d, 0, 254, 0, 0, 1, 0)), nil)},
		{Name: "xls-merges", Slow: true, Status: 1, Says: "merged ranges", Make: oldBook(1, nil, again(30_000, biff(0x00e5, 1_000, make([]byte, 8_000))), nil)},
		{Name: "xls-notes", Slow: true, Status: 1, Says: "comments", Make: oldBook(1, nil, again(10_000_000, biff(0x001c, 0, 0, 0, 1)), nil)},
		{Name: "xls-comment-shared", Slow: true, Status: 1, Says: "text", Make: oldBook(1, nil, func(out *bytes.Buffer) {
			out.Write(drawn)
			for i := range 1_000_000 {
				out.Write(biff(0x001c, i/200, i%200, 0, 1))
			}
		}, nil)},
		{Name: "xls-comment-drawn-again", Slow: true, Status: 1, Says: "texts", Make: oldBook(1, nil, again(25_000, drawn), nil)},
	}
}

// biff is one record, of fields of two bytes and of bytes as they are.
func biff(kind int, fields ...any) []byte {
	record := []byte{byte(kind), byte(kind >> 8), 0, 0}
	for _, field := range fields {
		switch field := field.(type) {
		case int:
			record = append(record, byte(field), byte(field>>8))
		case []byte:
			record = append(record, field...)
		}
	}
	binary.LittleEndian.PutUint16(record[2:], uint16(len(record)-4))
	return record
}

// oldBook makes a workbook of so many sheets, all with the same records, and spoils the file that holds it.
func oldBook(sheets int, globals, rows func(*bytes.Buffer), spoil func(*compound)) func(string) ([]string, error) {
	return oldBookOf(sheets, false, globals, rows, spoil)
}

// withinEachOther makes a workbook that lists the same sheet so many times.
func withinEachOther(sheets int, rows func(*bytes.Buffer)) func(string) ([]string, error) {
	return oldBookOf(sheets, true, nil, rows, nil)
}

func oldBookOf(sheets int, within bool, globals, rows func(*bytes.Buffer), spoil func(*compound)) func(string) ([]string, error) {
	return read(text("sheet.xls", func(w io.Writer) {
		var head, one bytes.Buffer
		begin, end := biff(0x0809, 0x0600, 5, 0, 0, 0, 0, 0, 0), biff(0x000a)
		head.Write(begin)
		if globals != nil {
			globals(&head)
		}
		one.Write(begin)
		rows(&one)
		one.Write(end)
		const listed = 16
		at, parts := head.Len()+sheets*listed+len(end), [][]byte{nil}
		for i := range sheets {
			name := []byte{4, 0, 'S', byte('0' + i/100), byte('0' + i/10%10), byte('0' + i%10)}
			head.Write(biff(0x0085, at&0xffff, at>>16, 0, name))
			if i == 0 || !within {
				parts = append(parts, one.Bytes())
			}
			if !within {
				at += one.Len()
			}
		}
		head.Write(end)
		parts[0] = head.Bytes()
		f := compound{parts: parts}
		if f.layout(); spoil != nil {
			spoil(&f)
		}
		f.write(w)
	}))
}

// compound is a compound file of sectors of 4096 bytes, and how it is spoiled.
type compound struct {
	// table says of each sector which is the next.
	table             []uint32
	directory, stream uint32
	// size is what the file says that the stream of the workbook has.
	size int64
	// entries are further ones of the directory, beside or, when deep, below each other; a circle begins again where they end.
	entries      int
	deep, circle bool
	// head are fields of the header, by where they stand.
	head map[int]uint32
	// cut is how much of the file is there, zero for all.
	cut int
	// parts are the stream of the workbook, and length is how long they are together.
	parts  [][]byte
	length int
}

const (
	sector     = 4096
	endOfChain = 0xfffffffe
	noEntry    = 0xffffffff
	isTable    = 0xfffffffd
)

// layout gives the stream of the workbook its sectors, and leaves the sectors before it to the table and the first of the directory.
func (f *compound) layout() {
	const tables = 100
	for _, part := range f.parts {
		f.length += len(part)
	}
	f.size, f.directory, f.stream = int64(max(f.length, sector)), tables, tables+1
	f.table = make([]uint32, tables*sector/4)
	for i := range f.table {
		f.table[i] = uint32(i + 1)
		if i < tables {
			f.table[i] = isTable
		}
	}
	f.table[f.directory] = endOfChain
	f.table[f.behind()-1] = endOfChain
}

// behind is the sector behind the stream of the workbook.
func (f *compound) behind() uint32 { return f.stream + uint32(max(f.length, sector)+sector-1)/sector }

func (f *compound) write(w io.Writer) {
	if f.cut > 0 {
		w = &cutOff{w, f.cut}
	}
	const perSector = sector / 128
	if f.entries > 0 { // the directory goes on behind the stream
		last := f.behind() + uint32(f.entries/perSector)
		f.table[f.directory] = f.behind()
		if f.table[last] = endOfChain; f.circle {
			f.table[last] = f.directory
		}
	}
	w.Write(f.header())
	for _, next := range f.table {
		w.Write(binary.LittleEndian.AppendUint32(nil, next))
	}
	next := uint32(noEntry)
	if f.entries > 0 {
		next = perSector
	}
	w.Write(dirEntry("Root Entry", 5, noEntry, 1, endOfChain, 0))
	w.Write(dirEntry("Workbook", 2, next, noEntry, f.stream, f.size))
	w.Write(make([]byte, (perSector-2)*128))
	for _, part := range f.parts {
		w.Write(part)
	}
	w.Write(make([]byte, int(f.behind()-f.stream)*sector-f.length))
	for i := range f.entries {
		following := perSector + uint32(i) + 1
		if i+1 == f.entries {
			following = noEntry
		}
		if f.deep {
			w.Write(dirEntry("A", 1, noEntry, following, 0, 0))
		} else {
			w.Write(dirEntry("A", 1, following, noEntry, 0, 0))
		}
	}
	w.Write(make([]byte, sector))
}

// header is the first sector (MS-CFB, 2.2).
func (f *compound) header() []byte {
	head := make([]byte, sector)
	copy(head, "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
	set := func(fields map[int]uint32) {
		for at, value := range fields {
			binary.LittleEndian.PutUint32(head[at:], value)
		}
	}
	set(map[int]uint32{24: 0x0004_003e, 28: 0x000c_fffe, 32: 6, 44: f.directory, 48: f.directory, 56: 4096, 60: endOfChain, 68: endOfChain})
	for i := range 109 {
		value := uint32(noEntry)
		if i < int(f.directory) {
			value = uint32(i)
		}
		binary.LittleEndian.PutUint32(head[76+4*i:], value)
	}
	set(f.head)
	return head
}

// cutOff is a file of which only so much is written.
type cutOff struct {
	io.Writer
	left int
}

func (c *cutOff) Write(p []byte) (int, error) {
	some := min(len(p), c.left)
	c.left -= some
	_, err := c.Writer.Write(p[:some])
	return len(p), err
}

// dirEntry is one entry of a directory (MS-CFB, 2.6.1).
func dirEntry(name string, kind byte, right, child, start uint32, size int64) []byte {
	one := make([]byte, 128)
	for i, unit := range utf16.Encode([]rune(name)) {
		binary.LittleEndian.PutUint16(one[2*i:], unit)
	}
	binary.LittleEndian.PutUint16(one[64:], uint16(2*len(name)+2))
	one[66], one[67] = kind, 1
	for at, value := range map[int]uint32{68: noEntry, 72: right, 76: child, 116: start} {
		binary.LittleEndian.PutUint32(one[at:], value)
	}
	binary.LittleEndian.PutUint64(one[120:], uint64(size))
	return one
}
