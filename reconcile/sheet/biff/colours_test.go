package biff

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// TestColours reads fills, the colours of characters and the workbook's own palette, by their layouts in MS-XLS (2.4.122, 2.4.188, 2.4.353,
// 2.5.20 and 2.5.161).
func TestColours(t *testing.T) {
	format := func(font, pattern, colour int) []byte {
		return record(recXF, font, 0, 0, uint32(0), uint32(0), uint32(pattern)<<26, colour|64<<7)
	}
	font := func(colour int) []byte { return record(recFont, 200, 0, colour, 400, 0) }
	globals := join(font(0x7fff), font(10), font(8), record(recPalette, 3, uint32(0), uint32(0xffffff), uint32(0x0000c0)),
		format(0, 0, 65), format(0, 1, 13), format(1, 0, 65), format(2, 2, 13),
		record(recTexts, uint32(1), uint32(1), 7, byte(8), 1, "old new", 4, 1))
	rows := join(record(recNumber, 0, 0, 1, 13.6), record(recBlank, 0, 1, 1), record(recNumber, 0, 2, 2, 13.6), record(recNumber, 0, 3, 3, 13.6),
		record(recBlanks, 1, 0, 1, 0, 1, 2), record(recSharedText, 1, 3, 0, uint32(0)), record(recRKs, 2, 0, 1, uint32(6), 0, uint32(6), 1))
	book, err := readStream(book(globals, rows))
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	book.Sheets[0].Colours.Each(100, func(at sheet.Ref, paint sheet.Paint) {
		got[at.String()] = paint.Fill.String() + "/" + paint.Ink.String()
	})
	want := map[string]string{"A1": "FFFF00/", "B1": "FFFF00/", "C1": "/C00000", "A2": "FFFF00/", "C2": "FFFF00/", "A3": "FFFF00/"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[sheet.Ref][]sheet.Colour{{Row: 2, Col: 4}: {sheet.RGB(0xc0, 0, 0)}}, book.Sheets[0].Inks); diff != "" {
		t.Error(diff)
	}
}
