package biff

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// object begins the object of that kind and number (MS-XLS, 2.4.181 and 2.5.143).
func object(kind, number int) []byte {
	return record(recObject, 0x15, 18, kind, number, 0x4011, uint32(0), uint32(0), uint32(0), uint32(0))
}

// objectText says how long the text of an object is, and how many runs follow it (2.4.329).
func objectText(length, runs int) []byte {
	return record(recObjectText, 0x0212, 0, 0, 0, 0, length, 8*runs, 0, 0)
}

// noteAt is a comment upon a cell (2.4.179).
func noteAt(row, col, object int) []byte {
	return record(recNote, row, col, 0, object, 1, byte(0), "X", byte(0))
}

// TestComments reads comments by their layouts in MS-XLS: one whose text goes on in wide characters, one of which a part is struck out, one
// without a text, and others beside what is drawn otherwise.
func TestComments(t *testing.T) {
	const drawing = 0x00ec
	globals := join(record(recFont, 200, 0, 0, 0, 0), record(recFont, 200, 8, 0, 0, 0), record(recXF, 0, 0))
	rows := join(record(recNumber, 0, 0, 0, 13.6),
		record(drawing, "any"), object(0x19, 1), record(drawing, "any"), objectText(10, 2), record(recContinue, byte(0), "new 1"), record(recContinue, byte(1), "3\x00.\x007\x00 \x00\xd8\x00"), record(recContinue, 0, 0, 0, 0, 10, 0, 0, 0),
		record(drawing, "any"), object(0x19, 2), objectText(9, 3), record(recContinue, byte(0), "13.7 13.9"), record(recContinue, 0, 1, 0, 0, 5, 0, 0, 0, 9, 0, 0, 0), record(recContinue, "a drawing that goes on"),
		object(0x06, 3), objectText(4, 0), record(recContinue, byte(0), "next"),
		record(recObject, 1, 2), objectText(4, 0), record(recContinue, byte(0), "none"),
		object(0x19, 4), objectText(0, 0),
		noteAt(0, 0, 1), noteAt(2, 1, 2), noteAt(3, 1, 4))
	got, err := readStream(book(globals, rows))
	if err != nil {
		t.Fatal(err)
	}
	want := map[sheet.Ref]string{{Row: 1, Col: 1}: "new 13.7 Ø", {Row: 3, Col: 2}: "13.9"}
	if diff := cmp.Diff(want, got.Sheets[0].Comments); diff != "" || len(got.Notes) != 0 {
		t.Error(diff, got.Notes)
	}
}

// TestCommentsLost says which comments have no text that can be read, and refuses those that are beyond the limits or the sheet.
func TestCommentsLost(t *testing.T) {
	cell := record(recNumber, 0, 0, 0, 13.6)
	for name, rows := range map[string][]byte{
		"no object":         noteAt(0, 0, 7),
		"a text cut off":    join(object(0x19, 7), objectText(9, 0), record(recContinue, byte(0), "13.7"), noteAt(0, 0, 7)),
		"runs cut off":      join(object(0x19, 7), objectText(4, 2), record(recContinue, byte(0), "13.7"), noteAt(0, 0, 7)),
		"no length":         join(object(0x19, 7), record(recObjectText, 0), noteAt(0, 0, 7)),
		"of another object": join(object(0x06, 7), objectText(4, 0), record(recContinue, byte(0), "13.7"), noteAt(0, 0, 7)),
	} {
		got, err := readStream(book(nil, join(cell, rows)))
		if err != nil || len(got.Notes) != 1 || got.Notes[0].Code != CodeComments || got.Sheets[0].Cell(sheet.Ref{Row: 1, Col: 1}).Raw != "13.6" {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
	long := strings.Repeat("13.7 ", 1_600)
	same := join(object(0x19, 7), objectText(len(long), 0), record(recContinue, byte(0), long))
	for name, test := range map[string]struct {
		rows   []byte
		reason sheet.Reason
	}{
		"beyond the columns": {noteAt(0, 300, 7), sheet.ReasonDamaged},
		"a short record":     {record(recNote, 0, 0), sheet.ReasonTruncated},
		"too many of a cell": {join(same, noteAt(0, 0, 7), noteAt(0, 0, 7), noteAt(0, 0, 7), noteAt(0, 0, 7), noteAt(0, 0, 7)), sheet.ReasonTooBig},
	} {
		_, err := readStream(book(nil, join(cell, test.rows)))
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != test.reason {
			t.Errorf("%s: %v", name, err)
		}
	}
}
