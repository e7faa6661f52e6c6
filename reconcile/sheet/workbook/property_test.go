package workbook_test

import (
	"bytes"
	"errors"
	"strconv"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/sheet"
)

// written is what the library is told to write into a cell, and the cell that must come back, without its shown text.
type written struct {
	value any
	want  sheet.Cell
}

// cellGenerator makes cells of all kinds; about half of them are blank.
func cellGenerator() *rapid.Generator[written] {
	return rapid.Custom(func(t *rapid.T) written {
		switch rapid.SampledFrom([]string{"", "", "", "", "", "text", "text", "int", "float", "bool"}).Draw(t, "kind") {
		case "text":
			s := rapid.StringOfN(rapid.RuneFrom([]rune("aZ09 .,;<>&\"'_x00D\n\tØ°½外徑ガ한\U0001f527=")), 1, 40, -1).Draw(t, "text")
			return written{s, sheet.Cell{Kind: sheet.Text, Raw: s}}
		case "int":
			v := rapid.Int32().Draw(t, "int")
			return written{v, sheet.Cell{Kind: sheet.Number, Raw: strconv.Itoa(int(v))}}
		case "float":
			// The library rounds to 15 digits what it writes.
			v := float64(rapid.Int64Range(-1e14, 1e14).Draw(t, "digits")) / 1e6
			return written{v, sheet.Cell{Kind: sheet.Number, Raw: strconv.FormatFloat(v, 'f', -1, 64)}}
		case "bool":
			v := rapid.Bool().Draw(t, "bool")
			return written{v, sheet.Cell{Kind: sheet.Bool, Raw: map[bool]string{false: "0", true: "1"}[v]}}
		}
		return written{}
	})
}

// TestRoundTrip has the library write random sheets and expects to read what it was told to write.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, roundTrip)
}

// FuzzRoundTrip does the same with what the fuzzer makes of the way the reader takes.
func FuzzRoundTrip(f *testing.F) { f.Fuzz(rapid.MakeFuzz(roundTrip)) }

func roundTrip(t *rapid.T) {
	codes := []string{"", "0.00", `0.000"in"`, "# ??/??", "yyyy-mm-dd", "@"}
	f := excelize.NewFile()
	defer f.Close()
	name := rapid.StringOfN(rapid.RuneFrom([]rune("aZ0 .&'外Ø_-")), 1, 20, -1).Filter(func(s string) bool {
		return s[0] != '\'' && s[len(s)-1] != '\'' && utf8.ValidString(s)
	}).Draw(t, "name")
	check(t, f.SetSheetName("Sheet1", name))
	styles := map[string]int{}
	for _, code := range codes[1:] {
		id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		check(t, err)
		styles[code] = id
	}
	rows := rapid.SliceOfN(rapid.SliceOfN(cellGenerator(), 0, 8), 0, 8).Draw(t, "rows")
	want := &sheet.Sheet{Name: name, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}
	for r, row := range rows {
		var cells []*sheet.Cell
		for c, cell := range row {
			at := sheet.Ref{Row: r + 1, Col: c + 1}.String()
			if cell.value != nil {
				check(t, f.SetCellValue(name, at, cell.value))
			}
			if code := rapid.SampledFrom(codes).Draw(t, "format"); code != "" {
				check(t, f.SetCellStyle(name, at, at, styles[code]))
				if cell.value != nil {
					cell.want.Format = code
				}
				if code == "yyyy-mm-dd" && cell.want.Kind == sheet.Number {
					cell.want.Kind = sheet.Date
				}
			}
			// A formula makes the library call the value beside it a text, so it stands alone here.
			if cell.value == nil && rapid.IntRange(0, 4).Draw(t, "formula") == 0 {
				check(t, f.SetCellFormula(name, at, "SUM(A1,2)*\"<&\""))
				cell.want.Formula = "SUM(A1,2)*\"<&\""
			}
			cells = append(cells, &cell.want)
		}
		want.Rows = append(want.Rows, cells)
	}
	trimRows(want)
	for range rapid.IntRange(0, 2).Draw(t, "hidden") {
		row, col := rapid.IntRange(1, 9).Draw(t, "row"), rapid.IntRange(1, 9).Draw(t, "column")
		check(t, f.SetRowVisible(name, row, false))
		check(t, f.SetColVisible(name, sheet.ColumnName(col), false))
		want.HiddenRows[row], want.HiddenCols[col] = true, true
	}
	var out bytes.Buffer
	check(t, f.Write(&out))

	book, err := read("random.xlsx", out.Bytes())
	check(t, err)
	if len(book.Sheets) != 1 {
		t.Fatalf("%d sheets", len(book.Sheets))
	}
	got := book.Sheets[0]
	for _, row := range got.Rows {
		for c, cell := range row {
			if cell.Kind != sheet.Blank && cell.Shown == "" {
				t.Errorf("%+v shows nothing", cell)
			}
			stored := *cell
			stored.Shown = ""
			row[c] = &stored
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

func check(t *rapid.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// trimRows drops what the reader drops: blank cells at the ends of rows and blank rows at the end.
func trimRows(s *sheet.Sheet) {
	for r, row := range s.Rows {
		for len(row) > 0 && *row[len(row)-1] == (sheet.Cell{}) {
			row = row[:len(row)-1]
		}
		if len(row) == 0 {
			row = nil
		}
		s.Rows[r] = row
	}
	for len(s.Rows) > 0 && s.Rows[len(s.Rows)-1] == nil {
		s.Rows = s.Rows[:len(s.Rows)-1]
	}
	if len(s.Rows) == 0 {
		s.Rows = nil
	}
}

// FuzzSheet reads arbitrary sheet parts: each is read or refused with a typed error.
func FuzzSheet(f *testing.F) {
	for _, seed := range []string{
		common[sheetPart],
		rowsOf(`<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" s="3"><v>0.335</v></c><c t="d" s="2"><v>2025-03-08T18:00:00Z</v></c></row>`)[sheetPart],
		rowsOf(`<row><c><f t="shared" si="0">$A1+'x'!B$2&amp;[1]S!A:A</f><v>1e300</v></c><c s="4"><f t="shared" si="0"/></c></row>`)[sheetPart],
		sheetOf(`<cols><col min="1" max="3" hidden="1"/></cols><mergeCells><mergeCell ref="A1:B2"/></mergeCells>`)[sheetPart],
		rowsOf(`<row r="1"><c r="A1" t="inlineStr"><is><r><t xml:space="preserve"> _xD83D__xDD27_ </t></r><rPh><t>x</t></rPh></is></c></row>`)[sheetPart],
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, part string) {
		if part == "" {
			return
		}
		book, err := read("fuzz.xlsx", parts{sheetPart: part}.zip(t))
		if err != nil {
			var refusal *sheet.FileError
			if !errors.As(err, &refusal) {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		for _, row := range book.Sheets[0].Rows {
			for _, cell := range row {
				if cell.Kind == sheet.Blank && *cell != (sheet.Cell{Formula: cell.Formula}) {
					t.Errorf("%+v", cell)
				}
			}
		}
	})
}
