package workbooktest_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

// read is what a cell holds as the workbook library reads it back: raw value first, because a formatted read
// overwrites it.
type read struct {
	Raw, Shown, Formula string
	Type                excelize.CellType
}

func open(t *testing.T, description string) *excelize.File {
	t.Helper()
	data, err := workbooktest.Build(description)
	if err != nil {
		t.Fatalf("Build: %v", err)
	}
	file, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("the workbook cannot be opened: %v", err)
	}
	t.Cleanup(func() {
		if err := file.Close(); err != nil {
			t.Error(err)
		}
	})
	return file
}

func cellOf(t *testing.T, file *excelize.File, sheet, at string) read {
	t.Helper()
	raw, err := file.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	shown, err := file.GetCellValue(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	formula, err := file.GetCellFormula(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	kind, err := file.GetCellType(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	return read{raw, shown, formula, kind}
}

func TestCells(t *testing.T) {
	const (
		unset = excelize.CellTypeUnset
		text  = excelize.CellTypeSharedString
		str   = excelize.CellTypeFormula
	)
	tests := []struct {
		cell string
		want read
	}{
		{`13.6`, read{"13.6", "13.6", "", unset}},
		{`.535`, read{"0.535", "0.535", "", unset}},
		{`-.5`, read{"-0.5", "-0.5", "", unset}},
		{`0.33500000000000002`, read{"0.33500000000000002", "0.335", "", unset}},
		{`0.535 {0.000"in"}`, read{"0.535", "0.535in", "", unset}},
		{`8.509 {0.00" mm"}`, read{"8.509", "8.51 mm", "", unset}},
		{`417 {00000}`, read{"417", "00417", "", unset}},
		{`'00417`, read{"00417", "00417", "", text}},
		{`'1/2`, read{"1/2", "1/2", "", text}},
		{`'`, read{"", "", "", text}},
		{`'=A1`, read{"=A1", "=A1", "", text}},
		{`4-PW`, read{"4-PW", "4-PW", "", text}},
		{`1/2" \| \} \\ \s`, read{`1/2" | } \  `, `1/2" | } \  `, "", text}},
		{`two\nlines`, read{"two\nlines", "two\nlines", "", text}},
		{`a < b & c > "d"`, read{`a < b & c > "d"`, `a < b & c > "d"`, "", text}},
		{`铸造厂 ½ ø`, read{"铸造厂 ½ ø", "铸造厂 ½ ø", "", text}},
		{`TRUE`, read{"1", "TRUE", "", excelize.CellTypeBool}},
		{`#N/A`, read{"#N/A", "#N/A", "", excelize.CellTypeError}},
		{`#DIV/0! {0.00}`, read{"#DIV/0!", "#DIV/0!", "", excelize.CellTypeError}},
		{`=B9*25.4`, read{"", "", "B9*25.4", unset}},
		{`=B9*25.4 -> 12.7`, read{"12.7", "12.7", "B9*25.4", unset}},
		{`=B9>1 -> TRUE`, read{"1", "TRUE", "B9>1", excelize.CellTypeBool}},
		{`=1/0 -> #DIV/0!`, read{"#DIV/0!", "#DIV/0!", "1/0", excelize.CellTypeError}},
		{`="a<"&B9 -> a<b`, read{"a<b", "a<b", `"a<"&B9`, str}},
		{`=B9/2 -> 6.35 {0.00" mm"}`, read{"6.35", "6.35 mm", "B9/2", unset}},
		// Serial numbers as in ECMA-376 part 1, 18.17.4.1: 1 January 1900 is 1; 1 March 1900 is 61. That 1 January 2008
		// is 39448 stands in the vendor's reference of the DATE function, from memory.
		{`1900-03-01 {0}`, read{"61", "61", "", unset}},
		{`2008-01-01 {0}`, read{"39448", "39448", "", unset}},
		{`2026-03-08 {d-mmm}`, read{"46089", "8-Mar", "", unset}},
		{`2026-03-08`, read{"46089", "2026-03-08", "", unset}},
	}
	for _, test := range tests {
		t.Run(test.cell, func(t *testing.T) {
			file := open(t, "sheet S\n|"+test.cell+"|\n")
			if diff := cmp.Diff(test.want, cellOf(t, file, "S", "A1")); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestDates1904(t *testing.T) {
	file := open(t, "dates 1904\nsheet S\n| 2026-03-08 |\n")
	// 1,462 days lie between the two systems' days of the same number.
	if got := cellOf(t, file, "S", "A1").Raw; got != fmt.Sprint(46089-1462) {
		t.Errorf("serial %s", got)
	}
	day, err := excelize.ExcelDateToTime(46089-1462, true)
	if err != nil || day.Format(time.DateOnly) != "2026-03-08" {
		t.Errorf("the library reads the serial as %v, %v", day, err)
	}
	props, err := file.GetWorkbookProps()
	if err != nil || props.Date1904 == nil || !*props.Date1904 {
		t.Errorf("the workbook does not say that it counts from 1904: %v", err)
	}
}

const layout = `
# what stands around the cells
sheet Price list
width A:B 14.5
format C 0.000"in"
format C5 0.0
bold 3 C4:C4
fill FFFF00 3 C4:D5
fill 92D050 C5
colour C00000 A4
merge A1:D1 A4:A5
hide rows 5 8:9
hide columns D F:G
filter A3:D6

| Title |||||
|
| Part  | Set | OD | Price |
| '01   | 4-PW | .535 | 18.5 |
|       | wedge | .54 | 19 |
row 8
| | | 0.5 {0.0000} |

sheet Second
table Tips B2:C4
|
| | Tip | OD |
| | parallel | 0.370 |
| | taper | 0.355 |

sheet Old
hide sheet
| nothing |
`

func TestLayout(t *testing.T) {
	file := open(t, layout)
	if diff := cmp.Diff([]string{"Price list", "Second", "Old"}, file.GetSheetList()); diff != "" {
		t.Error(diff)
	}
	check := func(what string, want, got any, err error) {
		t.Helper()
		if diff := cmp.Diff(want, got); diff != "" || err != nil {
			t.Errorf("%s: %v\n%s", what, err, diff)
		}
	}
	width, err := file.GetColWidth("Price list", "B")
	check("width", 14.5, width, err)
	for at, want := range map[string]string{"C4": "0.535in", "C5": "0.5", "C8": "0.5000", "D4": "18.5", "A4": "01"} {
		shown, err := file.GetCellValue("Price list", at)
		check(at, want, shown, err)
	}
	for at, want := range map[string]bool{"A3": true, "C4": true, "B4": false, "A1": false} {
		id, err := file.GetCellStyle("Price list", at)
		check(at, nil, err, nil)
		style, err := file.GetStyle(id)
		check("bold "+at, want, style.Font != nil && style.Font.Bold, err)
	}
	for at, want := range map[string]string{"A3": "FFFF00 ", "B3": "FFFF00 ", "C4": "FFFF00 ", "D5": "FFFF00 ", "C5": "92D050 ", "A4": " C00000", "E3": " ", "B4": " "} {
		id, err := file.GetCellStyle("Price list", at)
		check(at, nil, err, nil)
		style, err := file.GetStyle(id)
		got := strings.Join(style.Fill.Color, "") + " "
		if style.Font != nil {
			got += style.Font.Color
		}
		check("colours of "+at, want, got, err)
	}
	merged, err := file.GetMergeCells("Price list")
	var areas []string
	for _, m := range merged {
		areas = append(areas, m.GetStartAxis()+":"+m.GetEndAxis()+" "+m.GetCellValue())
	}
	check("merged", []string{"A1:D1 Title", "A4:A5 01"}, areas, err)
	for row, want := range map[int]bool{4: true, 5: false, 8: false, 9: false} {
		visible, err := file.GetRowVisible("Price list", row)
		check(fmt.Sprint("row ", row), want, visible, err)
	}
	for column, want := range map[string]bool{"C": true, "D": false, "E": true, "F": false, "G": false} {
		visible, err := file.GetColVisible("Price list", column)
		check("column "+column, want, visible, err)
	}
	for name, want := range map[string]bool{"Price list": true, "Old": false} {
		visible, err := file.GetSheetVisible(name)
		check(name, want, visible, err)
	}
	tables, err := file.GetTables("Second")
	check("tables", 1, len(tables), err)
	check("table", "Tips B2:C4", tables[0].Name+" "+tables[0].Range, nil)
	var filters []string
	for _, name := range file.GetDefinedName() {
		filters = append(filters, name.RefersTo)
	}
	check("filter", []string{"'Price list'!$A$3:$D$6"}, filters, nil)
}

func TestSameBytes(t *testing.T) {
	first, err := workbooktest.Build(layout)
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		again, err := workbooktest.Build(layout)
		if err != nil || !bytes.Equal(first, again) {
			t.Fatalf("a second build differs: %v", err)
		}
	}
}

// TestFirstVisibleSheetIsActive guards against a workbook whose active sheet is hidden, which spreadsheet programs
// refuse or repair.
func TestFirstVisibleSheetIsActive(t *testing.T) {
	file := open(t, "sheet Old\nhide sheet\n| x |\nsheet New\n| y |\n")
	if got := file.GetSheetName(file.GetActiveSheetIndex()); got != "New" {
		t.Errorf("active sheet %q", got)
	}
	if visible, err := file.GetSheetVisible("Old"); err != nil || visible {
		t.Errorf("Old is visible: %v, %v", visible, err)
	}
}

// TestNoPerson sees that the library's own signature is not in the file.
func TestNoPerson(t *testing.T) {
	data, err := workbooktest.Build("sheet S\n| #N/A |\n")
	if err != nil {
		t.Fatal(err)
	}
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	member, err := archive.Open("docProps/core.xml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(member)
	if err != nil || !strings.Contains(string(text), "<dc:creator>workbooktest</dc:creator>") {
		t.Errorf("%v: %s", err, text)
	}
}

func TestErrors(t *testing.T) {
	tests := []struct {
		name, description string
		line              int
		says              string
	}{
		{"nothing", "", 1, "no sheet"},
		{"only a comment", "# nothing\n", 1, "no sheet"},
		{"row before a sheet", "\n| a |\n", 2, "before the first sheet"},
		{"sheet without a name", "sheet\n", 1, "no name"},
		{"same sheet twice", "sheet A\n| x |\nsheet a\n", 3, "line 1"},
		{"name too long", "sheet " + strings.Repeat("n", 32), 1, "31"},
		{"unknown directive", "sheet S\nbolt 3\n", 2, "bolt"},
		{"row without an end", "sheet S\n| a | b\n", 2, "does not end"},
		{"escaped end", "sheet S\n| a \\|\n", 2, "does not end"},
		{"unknown escape", "sheet S\n| \\q |\n", 2, `\q`},
		{"leading zeros", "sheet S\n| a | 0012 |\n", 2, "B1"},
		{"number too large", "sheet S\n| 1e999 |\n", 2, "1e999"},
		{"no such day", "sheet S\n| 2026-02-30 |\n", 2, "no date"},
		{"day too early", "sheet S\n| 1900-02-28 |\n", 2, "1900-03-01"},
		{"day too early for 1904", "dates 1904\nsheet S\n| 1903-12-31 |\n", 3, "1904-01-01"},
		{"empty formula", "sheet S\n| = |\n", 2, "formula is empty"},
		{"formula without result", "sheet S\n| =A2 ->  |\n", 2, "no result"},
		{"formula for a result", "sheet S\n| =A2 -> =A3 |\n", 2, "no result"},
		{"brace without a start", "sheet S\n| 1 0.0} |\n", 2, `\}`},
		{"empty format", "sheet S\n| 1 {} |\n", 2, "empty"},
		{"row backwards", "sheet S\nrow 5\n| a |\nrow 5\n", 4, "from 6"},
		{"row far away", "sheet S\nrow 1000000\n", 2, "10000"},
		{"format without a code", "sheet S\nformat C\n", 2, "missing"},
		{"format without columns", "sheet S\nformat 0.00\n", 2, "0.00"},
		{"width without a number", "sheet S\nwidth A wide\n", 2, "wide"},
		{"width that is no number", "sheet S\nwidth A NaN\n", 2, "NaN"},
		{"bold without a place", "sheet S\nbold\n", 2, "no place"},
		{"fill without a colour", "sheet S\nfill A1:B2\n", 2, "no colour"},
		{"colour without a place", "sheet S\ncolour FF0000\n", 2, "no place"},
		{"fill too large", "sheet S\nfill FF0000 A1:ALK9999\n", 2, "more than"},
		{"hide what", "sheet S\nhide cells A1\n", 2, "hide rows"},
		{"rows backwards", "sheet S\nhide rows 9:7\n", 2, "9:7"},
		{"columns backwards", "sheet S\nhide columns D:B\n", 2, "D:B"},
		{"merge of one cell", "sheet S\nmerge A1\n", 2, "single cell"},
		{"merge over values", "sheet S\n| a | b |\nmerge A1:B1\n", 3, "B1"},
		{"merges overlap", "sheet S\nmerge A1:B2\nmerge B2:C3\n", 3, "overlap"},
		{"merge too large", "sheet S\nmerge A1:ALL10000\n", 2, "more than"},
		{"filter of nothing", "sheet S\nfilter\n", 2, "no cell"},
		{"table without a heading", "sheet S\n| a | |\n| b | c |\ntable T A1:B2\n", 4, "B1"},
		{"table without rows", "sheet S\n| a |\ntable T A1:A1\n", 3, "no row"},
		{"table name", "sheet S\n| a |\n| b |\ntable 1T A1:A2\n", 4, "1T"},
		{"all hidden", "sheet S\nhide sheet\n", 1, "hidden"},
		{"not UTF-8", "sheet \xff\n", 1, "UTF-8"},
		{"1904 too late", "sheet S\ndates 1904\n", 2, "dates"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			data, err := workbooktest.Build(test.description)
			var located *workbooktest.Error
			if !errors.As(err, &located) || data != nil {
				t.Fatalf("Build returned %d bytes and %v", len(data), err)
			}
			if located.Line != test.line || !strings.Contains(err.Error(), test.says) {
				t.Errorf("got %q, want line %d and %q", err, test.line, test.says)
			}
		})
	}
}

// FuzzBuild looks for descriptions that panic, and for workbooks that cannot be opened again.
func FuzzBuild(f *testing.F) {
	f.Add(layout)
	f.Add("dates 1904\nsheet S\n| 2026-03-08 {d-mmm} | '007 | =A1/2 -> #N/A | \\| \\} |\nmerge A1:A2\n")
	f.Add("sheet \x00\n| \x01 {\x02} |\n")
	f.Add("sheet S\n| =<>&\" -> <>&\" |")
	f.Fuzz(func(t *testing.T, description string) {
		data, err := workbooktest.Build(description)
		if err != nil {
			return
		}
		file, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("built but cannot be opened: %v", err)
		}
		for _, name := range file.GetSheetList() {
			if _, err := file.GetCellValue(name, "A1"); err != nil {
				t.Errorf("sheet %q: %v", name, err)
			}
		}
		if err := file.Close(); err != nil {
			t.Error(err)
		}
	})
}

func ExampleBuild() {
	data, err := workbooktest.Build(`
sheet Hosels
format B 0.000"in"
| Part    | OD    |
| '00412  | 0.535 |
`)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return
	}
	file, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return
	}
	defer func() { _ = file.Close() }()
	part, _ := file.GetCellValue("Hosels", "A2")
	od, _ := file.GetCellValue("Hosels", "B2")
	fmt.Println(part, od)
	// Output: 00412 0.535in
}
