package biff

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// record is one record with its fields: numbers of two bytes, texts, and bytes as they are.
func record(kind int, parts ...any) []byte {
	var data []byte
	for _, part := range parts {
		switch part := part.(type) {
		case int:
			data = binary.LittleEndian.AppendUint16(data, uint16(part))
		case uint32:
			data = binary.LittleEndian.AppendUint32(data, part)
		case float64:
			data = binary.LittleEndian.AppendUint64(data, math.Float64bits(part))
		case byte:
			data = append(data, part)
		case string:
			data = append(data, part...)
		}
	}
	head := binary.LittleEndian.AppendUint16(nil, uint16(kind))
	return append(binary.LittleEndian.AppendUint16(head, uint16(len(data))), data...)
}

// book is a stream of a workbook with further global records, and a sheet of those records (MS-XLS, 2.1.7.20).
func book(globals, rows []byte) []byte {
	begin := record(recBegin, 0x0600, 5, 0, 0, uint32(0), uint32(0))
	list := func(at int) []byte { return record(recSheet, uint32(at), byte(0), byte(0), byte(1), byte(0), "S") }
	size := len(begin) + len(list(0)) + len(globals) + 4
	var all []byte
	for _, part := range [][]byte{begin, list(size), globals, record(recEnd), begin, rows, record(recEnd)} {
		all = append(all, part...)
	}
	return all
}

func readStream(stream []byte) (*sheet.Book, error) { return readStreamWithin(stream, sheet.Limits{}) }

func readStreamWithin(stream []byte, limits sheet.Limits) (*sheet.Book, error) {
	b := &reader{name: "test.xls", meter: sheet.NewMeter("test.xls", limits), book: &sheet.Book{File: "test.xls"}}
	if err := b.read(stream); err != nil {
		return nil, b.locate(err)
	}
	return b.book, nil
}

func join(parts ...[]byte) []byte {
	var all []byte
	for _, part := range parts {
		all = append(all, part...)
	}
	return all
}

// TestRecords reads records by their layouts in MS-XLS: those that LibreOffice does not write among them.
func TestRecords(t *testing.T) {
	text := func(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Text, Raw: s, Shown: s} }
	number := func(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Number, Raw: s, Shown: s} }
	computed := func(c *sheet.Cell) *sheet.Cell { c.Formula = "…"; return c }
	// A text of 6 characters goes on in wide ones after the third (2.5.293); 4 fonts, and 5 is the last of them.
	globals := join(
		record(recFont, 200, 0, 0, 0, 0), record(recFont, 200, 8, 0, 0, 0), record(recFont, 200, 0, 0, 0, 1), record(recFont, 200, 0, 0, 0, 2), record(recFont, 200, 8, 0, 0, 0),
		record(recXF, 0, 0), record(recXF, 1, 0),
		record(recTexts, uint32(2), uint32(2), 6, byte(0), "abc"), record(recContinue, byte(1), "d\x00e\x00\xe4\x00", 5, byte(8), 1, "13.91", 4, 2))
	rows := join(
		record(recSharedText, 0, 0, 0, uint32(0)), record(recSharedText, 0, 1, 0, uint32(1)), record(recSharedText, 0, 2, 1, uint32(0)),
		record(recRKs, 1, 0, 0, uint32(1360<<2|3), 0, uint32(12<<2|2), 0, uint32(0x402b3330), 2),
		record(recRK, 1, 3, 0, uint32(0xffffffff-(5<<2)+1|2)),
		record(recLabel, 2, 0, 0, 3, byte(0), "old"), record(recRichText, 2, 1, 0, 4, byte(0), "13.9", 1, 2, 5),
		record(recTruth, 2, 2, 0, byte(1), byte(0)), record(recTruth, 2, 3, 0, byte(0x2a), byte(1)), record(recTruth, 2, 4, 0, byte(0x99), byte(1)),
		record(recFormula, 3, 0, 0, byte(0), "\x00\x00\x00\x00\x00\xff\xff", 0, uint32(0), 0), record(recString, 4, byte(0), "ab"), record(recContinue, byte(1), "\xe4\x00\x57\x59"),
		record(recFormula, 3, 1, 0, byte(1), "\x00\x01\x00\x00\x00\xff\xff", 0, uint32(0), 0), record(recFormula, 3, 2, 0, byte(3), "\x00\x00\x00\x00\x00\xff\xff", 0, uint32(0), 0),
		record(recFormula, 3, 3, 0, 27.2, 0, uint32(0), 0), record(recNumber, 3, 4, 0, math.NaN()), record(recNumber, 3, 5, 1, 9.4),
		record(recFormula, 3, 6, 0, 0.0, 2, uint32(0), 0), record(recFormula, 3, 7, 0, 0.0, 0, uint32(0), 0), record(recFormula, 3, 8, 0, 13.6, 2, uint32(0), 0), record(recFormula, 3, 9, 1, 0.0, 2, uint32(0), 0),
		record(recMerged, 1, 0, 1, 0, 1), record(recRow, 3, 0, 6, 255, 0, 0, uint32(0x20)), record(recColumn, 1, 1, 0, 0, 1))
	got, err := readStream(book(globals, rows))
	if err != nil {
		t.Fatal(err)
	}
	want := [][]*sheet.Cell{
		{text("abcdeä"), text("13.9¹"), sheet.StruckCell},
		{number("13.6"), number("12"), {Kind: sheet.Number, Raw: "13.5999755859375", Shown: "13.59997559"}, number("-5")},
		{text("old"), text("13"), {Kind: sheet.Bool, Raw: "1", Shown: "TRUE"}, {Kind: sheet.Error, Raw: "#N/A", Shown: "#N/A"}, {Kind: sheet.Error, Raw: "#?", Shown: "#?"}},
		{computed(text("abä套")), computed(&sheet.Cell{Kind: sheet.Bool, Raw: "1", Shown: "TRUE"}), computed(&sheet.Cell{Kind: sheet.Text}), computed(number("27.2")),
			{Kind: sheet.Error, Raw: "NaN", Shown: "#NUM!"}, sheet.StruckCell, computed(&sheet.Cell{}), computed(number("0")), computed(number("13.6")), sheet.StruckCell},
	}
	if diff := cmp.Diff(want, got.Sheets[0].Rows); diff != "" {
		t.Error(diff)
	}
	s := got.Sheets[0]
	if !s.HiddenRows[4] || !s.HiddenCols[2] || len(s.Merges) != 1 || s.Merges[0].String() != "A1:B2" {
		t.Errorf("%v, %v, %v", s.HiddenRows, s.HiddenCols, s.Merges)
	}
}

func TestDamagedRecords(t *testing.T) {
	cell := record(recNumber, 0, 0, 0, 1.5)
	for name, test := range map[string]struct {
		stream []byte
		want   sheet.Reason
	}{
		"nothing":                   {nil, sheet.ReasonTruncated},
		"no end of the sheet":       {book(nil, cell)[:len(book(nil, cell))-4], sheet.ReasonTruncated},
		"a short record":            {book(nil, record(recNumber, 0, 0)), sheet.ReasonTruncated},
		"a cell twice":              {book(nil, join(cell, cell)), sheet.ReasonDamaged},
		"a cell beyond the sheet":   {book(nil, record(recNumber, 0, 300, 0, 1.5)), sheet.ReasonDamaged},
		"a text that is not there":  {book(nil, record(recSharedText, 0, 0, 0, uint32(7))), sheet.ReasonDamaged},
		"a range upside down":       {book(nil, record(recMerged, 1, 5, 1, 0, 1)), sheet.ReasonDamaged},
		"more texts than there are": {book(record(recTexts, uint32(9), uint32(0xffffffff), 3, byte(0), "abc"), cell), sheet.ReasonTruncated},
		"a password":                {book(record(recFilePass, 0, 0), cell), sheet.ReasonEncrypted},
		"an older program":          {record(recBegin, 0x0500, 5, 0, 0), sheet.ReasonUnsupported},
	} {
		_, err := readStream(test.stream)
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != test.want || refusal.Next == "" {
			t.Errorf("%s: %v, want the reason %v", name, err, test.want)
		}
	}
}

// TestSpent refuses what takes room beyond the limits before a row of it is complete, and parts that lie within each other.
func TestSpent(t *testing.T) {
	few := sheet.Limits{Cells: 20, Text: 400, Sheets: 3}
	times := func(n int, one []byte) []byte { return bytes.Repeat(one, n) }
	number := record(recNumber, 0, 0, 0, 1.5)
	text := record(recTexts, uint32(1), uint32(1), 100, byte(0), strings.Repeat("x", 100))
	for name, test := range map[string]struct {
		globals, rows []byte
		want          sheet.Reason
	}{
		"as much as there may be":  {text, join(number, times(20, record(recBlank, 1, 0, 0)), times(20, record(recMerged, 1, 0, 0, 0, 0))), 0},
		"blank cells":              {nil, times(21, record(recBlank, 0, 0, 0)), sheet.ReasonTooBig},
		"blank cells of a row":     {nil, record(recBlanks, 0, 0, string(make([]byte, 2*21)), 20), sheet.ReasonTooBig},
		"merged ranges":            {nil, times(21, record(recMerged, 1, 0, 0, 0, 0)), sheet.ReasonTooBig},
		"comments":                 {nil, times(21, noteAt(0, 0, 1)), sheet.ReasonTooBig},
		"texts":                    {join(text, text, text, text), nil, sheet.ReasonTooBig},
		"texts of comments":        {nil, times(4, join(object(0x19, 1), objectText(100, 0), record(recContinue, byte(0), strings.Repeat("x", 100)))), sheet.ReasonTooBig},
		"a text in many cells":     {text, join(record(recSharedText, 0, 0, 0, uint32(0)), record(recSharedText, 0, 1, 0, uint32(0)), record(recSharedText, 0, 2, 0, uint32(0)), record(recSharedText, 0, 3, 0, uint32(0)), record(recSharedText, 0, 4, 0, uint32(0))), sheet.ReasonTooBig},
		"sheets":                   {times(3, record(recSheet, uint32(0), byte(0), byte(0), byte(1), byte(0), "T")), nil, sheet.ReasonTooBig},
		"columns":                  {nil, times(MaxCols+1, record(recColumn, 0, 0, 0, 0, 0)), sheet.ReasonDamaged},
		"sheets within each other": {record(recSheet, uint32(0), byte(0), byte(0), byte(1), byte(0), "T"), times(20, record(recRow, 0, 0, 0, 0, 0, 0, uint32(0))), sheet.ReasonDamaged},
	} {
		stream := book(test.globals, test.rows)
		if name == "sheets within each other" { // the second is where the first is
			first := bytes.Index(stream, record(recSheet)[:2])
			second := first + 4 + bytes.Index(stream[first+4:], record(recSheet)[:2])
			copy(stream[second+4:], stream[first+4:first+8])
		}
		_, err := readStreamWithin(stream, few)
		var refusal *sheet.FileError
		if test.want == 0 && err != nil || test.want != 0 && (!errors.As(err, &refusal) || refusal.Reason != test.want || refusal.Next == "") {
			t.Errorf("%s: %v, want the reason %v", name, err, test.want)
		}
	}
}

// FuzzStream reads arbitrary records: each stream is read within the limits or refused with a typed error.
func FuzzStream(f *testing.F) {
	f.Add(book(record(recXF, 0, 0), record(recRKs, 1, 0, 0, uint32(1360<<2|3), 0)))
	f.Add(book(record(recTexts, uint32(2), uint32(2), 6, byte(13), 1, uint32(4), "abc"), record(recSharedText, 0, 0, 0, uint32(0))))
	f.Add(book(nil, join(record(recFormula, 3, 0, 0, byte(0), "\x00\x00\x00\x00\x00\xff\xff", 0), record(recString, 3, byte(0), "ab"), record(recContinue, byte(1), "c\x00"))))
	f.Fuzz(func(t *testing.T, stream []byte) {
		_, err := readStream(stream)
		var refusal *sheet.FileError
		if err != nil && !errors.As(err, &refusal) {
			t.Fatalf("an error without a type: %v", err)
		}
	})
}
