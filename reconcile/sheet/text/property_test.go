package text_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/encoding/simplifiedchinese"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/text"
)

// readRaw returns the raw values of all rows, an empty row as nil.
func readRaw(t interface{ Fatalf(string, ...any) }, data []byte) [][]string {
	book, err := text.Read("random.csv", data)
	if err != nil {
		t.Fatalf("%q: %v", data, err)
	}
	var rows [][]string
	for _, row := range book.Sheets[0].Rows {
		var cells []string
		for _, cell := range row {
			cells = append(cells, cell.Raw)
		}
		rows = append(rows, cells)
	}
	return rows
}

// write writes rows as encoding/csv does, the independent other side.
func write(t *rapid.T, separator rune, crlf bool, rows [][]string) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma, w.UseCRLF = separator, crlf
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestQuoting writes tables of any cells, with quotes and line ends in them, and reads them back with the separator given. Their rows have
// the same number of cells: by that a cell that holds only such signs is told from dittos.
func TestQuoting(t *testing.T) {
	cell := rapid.StringOfN(rapid.RuneFrom([]rune("ab1 ,;|\t\"\nØ外")), 0, 12, -1)
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(1, 5).Draw(t, "width")
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, width, width), 1, 6).Draw(t, "rows")
		rows = append(rows, slices.Repeat([]string{"end"}, width))
		separator := rapid.SampledFrom([]rune{',', ';', '\t', '|'}).Draw(t, "separator")
		crlf := rapid.Bool().Draw(t, "crlf")
		data := append([]byte("sep="+string(separator)+"\r\n"), write(t, separator, crlf, rows)...)
		for r, row := range rows {
			if len(row) == 1 && row[0] == "" {
				rows[r] = nil
			}
		}
		if diff := cmp.Diff(rows, readRaw(t, data)); diff != "" {
			t.Fatalf("%q: (-want +got)\n%s", data, diff)
		}
	})
}

// TestSeparators writes sheets as suppliers do, with decimal commas and notes, and has the separator found.
func TestSeparators(t *testing.T) {
	cell := rapid.OneOf(rapid.StringMatching(`[0-9]{1,2}[.,][0-9]{1,3}`), rapid.StringMatching(`[A-Z]{2}-[0-9]{3}`), rapid.SampledFrom([]string{"", "red, matt", "black", "3/8\""}))
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(2, 6).Draw(t, "width")
		rows := [][]string{strings.Split("Part|Outside|Bore|Length|Colour|Note", "|")[:width]}
		for range rapid.IntRange(1, 10).Draw(t, "rows") {
			row := rapid.SliceOfN(cell, width, width).Draw(t, "row")
			row[0] = "P1"
			rows = append(rows, row)
		}
		separator := rapid.SampledFrom([]rune{',', ';', '\t', '|'}).Draw(t, "separator")
		data := write(t, separator, true, rows)
		if diff := cmp.Diff(rows, readRaw(t, data)); diff != "" {
			t.Fatalf("%q: (-want +got)\n%s", data, diff)
		}
	})
}

// FuzzRead reads arbitrary bytes: each is read or refused with a typed error, and no row is longer than the text.
func FuzzRead(f *testing.F) {
	for _, plain := range samples {
		f.Add([]byte(plain))
		if encoded, err := simplifiedchinese.GB18030.NewEncoder().String(plain); err == nil {
			f.Add([]byte(encoded))
		}
	}
	for _, seed := range []string{"sep=;\na;b", "\"a\"\"b\",\"c\r\nd\"\n", "a,\"b", "\xff\xfea\x00,\x00", "\xfe\xff\x00a", "13,6;9,4\n", "\"\"\"", "a\x00b", "\"a\" ,b\r\r\n", strings.Repeat("\"x,", 1100)} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		book, err := text.Read("fuzz.csv", data)
		if err != nil {
			var refusal *sheet.FileError
			if !errors.As(err, &refusal) || refusal.Next == "" {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		total := 0
		for _, row := range book.Sheets[0].Rows {
			for _, cell := range row {
				total += len(cell.Raw)
				if (cell.Kind == sheet.Blank) != (*cell == sheet.Cell{}) {
					t.Errorf("%+v", cell)
				}
			}
		}
		if total > 4*len(data) {
			t.Errorf("%d bytes became %d", len(data), total)
		}
	})
}

// TestManyStrayQuotes is a file full of quotation marks without a partner, which must not be searched again and again.
func TestManyStrayQuotes(t *testing.T) {
	var data strings.Builder
	data.WriteString("sep=;\n")
	for range 200_000 {
		data.WriteString("\"x;1\n")
	}
	rows := readRaw(t, []byte(data.String()))
	if len(rows) != 200_000 || rows[199_999][0] != "\"x" {
		t.Errorf("%d rows, the last %q", len(rows), rows[len(rows)-1])
	}
}

func BenchmarkRead(b *testing.B) {
	data := []byte("part;outside;bore;note\n" + strings.Repeat("BN-00412;13,6;9,4;\"black, matt\"\n", 50_000))
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := text.Read("big.csv", data); err != nil {
			b.Fatal(err)
		}
	}
}
