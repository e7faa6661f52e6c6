package workbook_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet"
)

// secondReader compares a book cell by cell with what the workbook library reads from the same bytes: the raw value, the
// shown text, the formula and the merged ranges. allow says why a shown text may differ; an empty reason is a failure.
func secondReader(t *testing.T, data []byte, book *sheet.Book, allow func(c *sheet.Cell, theirs string) (reason string)) {
	t.Helper()
	raw, shown := openLibrary(t, data), openLibrary(t, data)
	for _, s := range book.Sheets {
		ours := map[string]bool{}
		for r, row := range s.Rows {
			for c, cell := range row {
				name := sheet.Ref{Row: r + 1, Col: c + 1}.String()
				ours[name] = *cell != sheet.Cell{}
				theirs, err := raw.GetCellValue(s.Name, name, excelize.Options{RawCellValue: true})
				if err != nil {
					t.Fatalf("%s!%s: %v", s.Name, name, err)
				}
				inMerge := false
				for _, m := range s.Merges {
					inMerge = inMerge || m.Contains(sheet.Ref{Row: r + 1, Col: c + 1})
				}
				if theirs != cell.Raw && !inMerge {
					t.Errorf("%s!%s: raw %q, the library has %q", s.Name, name, cell.Raw, theirs)
				}
				theirs, err = shown.GetCellValue(s.Name, name)
				if err != nil {
					t.Fatalf("%s!%s: %v", s.Name, name, err)
				}
				if strings.Trim(theirs, " ") != strings.Trim(cell.Shown, " ") && !inMerge {
					if allow(cell, theirs) == "" {
						t.Errorf("%s!%s: %+v is shown as %q, the library has %q", s.Name, name, cell, cell.Shown, theirs)
					}
				}
				formula, err := raw.GetCellFormula(s.Name, name)
				if err != nil {
					t.Fatalf("%s!%s: %v", s.Name, name, err)
				}
				// The library leaves out the spaces of shared formulas.
				if packed := strings.NewReplacer("=", "", " ", ""); packed.Replace(formula) != packed.Replace(cell.Formula) {
					t.Errorf("%s!%s: formula %q, the library has %q", s.Name, name, cell.Formula, formula)
				}
			}
		}
		compareRest(t, raw, s, ours)
	}
}

func openLibrary(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

// compareRest looks for cells that only the library has, and compares the merged ranges.
func compareRest(t *testing.T, f *excelize.File, s *sheet.Sheet, ours map[string]bool) {
	t.Helper()
	rows, err := f.GetRows(s.Name, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	for r, row := range rows {
		for c, value := range row {
			if name := (sheet.Ref{Row: r + 1, Col: c + 1}).String(); value != "" && !ours[name] {
				t.Errorf("%s!%s: the library has %q, we have nothing", s.Name, name, value)
			}
		}
	}
	merges, err := f.GetMergeCells(s.Name)
	if err != nil {
		t.Fatal(err)
	}
	theirs := map[string]bool{}
	for _, m := range merges {
		theirs[m.GetStartAxis()+":"+m.GetEndAxis()] = true
	}
	for _, m := range s.Merges {
		if !theirs[m.From.String()+":"+m.To.String()] {
			t.Errorf("%s: the merged range %v is not one for the library: %v", s.Name, m, theirs)
		}
	}
	if len(merges) != len(s.Merges) {
		t.Errorf("%s: %d merged ranges, the library has %d", s.Name, len(s.Merges), len(merges))
	}
}

// TestLibraryFiles reads the workbooks that the library's own tests use, real files from several programs.
func TestLibraryFiles(t *testing.T) {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/xuri/excelize/v2").Output()
	if err != nil {
		t.Fatalf("the module cannot be found: %v", err)
	}
	for name, want := range map[string]struct {
		sheets int
		reason sheet.Reason
	}{
		"Book1.xlsx":               {sheets: 2},
		"CalcChain.xlsx":           {sheets: 1},
		"MergeCell.xlsx":           {sheets: 1},
		"OverflowNumericCell.xlsx": {sheets: 1},
		"SharedStrings.xlsx":       {sheets: 2},
		"BadWorkbook.xlsx":         {reason: sheet.ReasonDamaged}, // it lists no sheet
		"encryptAES.xlsx":          {reason: sheet.ReasonEncrypted},
		"encryptSHA1.xlsx":         {reason: sheet.ReasonEncrypted},
		"encryptSHA512.xlsx":       {reason: sheet.ReasonEncrypted},
		"vbaProject.bin":           {reason: sheet.ReasonUnsupported},
	} {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "test", name))
			if err != nil {
				t.Fatal(err)
			}
			book, err := read(name, data)
			if want.reason != 0 {
				wantReason(t, err, want.reason)
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if len(book.Sheets) != want.sheets {
				t.Errorf("%d sheets, want %d", len(book.Sheets), want.sheets)
			}
			secondReader(t, data, book, func(*sheet.Cell, string) string { return "" })
		})
	}
}

// shownCodes and shownNumbers make the workbook of TestShown, a number format to a column.
var (
	shownCodes = []string{
		"General", "0", "0.0", "0.00", "0.000", "#,##0", "#,##0.00", "0%", "0.00%", "0.00E+00", "##0.0E+0", "# ?/?", "# ??/??", "# ?/8", "# ??/64",
		`0.000"in"`, `0.00" mm"`, `"Ø"0.0`, `0.0\°`, "0.00;-0.00", `0.00;(0.00);"none"`, "#,##0.00_);(#,##0.00)", `0.0;-0.0;"-"`, "0;0;;@", "@", "[Red]0.00",
		"00000", "000-0000", "#.##", "0.##", "0,", "0.00;[Red]-0.00", "$#,##0.00", "[$€-407] #,##0.00", "#,##0.00 [$€-1]",
		`_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`, "[>=100]0;[<100]0.00", `0.0"x"`, `0.00\"`,
		"d-mmm", "m/d/yyyy", "yyyy-mm-dd", "dd.mm.yyyy", "d-mmm-yy", "mmm-yy", "h:mm", "h:mm:ss", "h:mm AM/PM", "[h]:mm:ss", "mm:ss.0", "yyyy-mm-dd hh:mm",
		"dddd, mmmm d, yyyy", "ddd d mmm",
	}
	shownNumbers = []string{
		"0", "1", "-1", "0.5", "0.335", "0.33500000000000002", "1.005", "2.675", "-0.004", "12.3456789", "123456.789", "0.375", "0.359375", "2.015625",
		"45724", "45724.75", "60", "59", "61", "0.99999", "0.000012345", "8.509", "0.3",
	}
)

// libraryDiffers lists where the library (excelize 2.11.1) shows another text than we do, by format and number; * is any
// number. Each difference was checked against LibreOffice 7.4.7, which shows what we show unless the reason says
// otherwise.
var libraryDiffers = []struct{ codes, numbers, reason string }{
	{"0.00|0%|0.00E+00|0.00\" mm\"|0.00;-0.00|0.00;(0.00);\"none\"|[Red]0.00|0.00;[Red]-0.00|$#,##0.00|#,##0.00|#,##0.00_);(#,##0.00)|#,##0.00 [$€-1]|[$€-407] #,##0.00|" +
		`_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)|0.00\"`, "1.005|2.675",
		"it rounds the binary number, not its 15 decimal digits (LibreOffice does so too for 0% only)"},
	{"##0.0E+0", "*", "it does not know the exponent in steps of three"},
	{`0.00;(0.00);"none"|0.0;-0.0;"-"|0;0;;@|_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`, "0", "it does not use the section for zero"},
	{"[>=100]0;[<100]0.00", "*", "it does not use conditions; negative numbers under conditions we leave alone"},
	{"# ?/?|# ??/??|# ?/8|# ??/64", "*", "it writes a whole part of 0, and 0/8 behind a whole number (LibreOffice takes the nearest fraction where ours is a neighbour)"},
	{"#.##|0.##", "*", "it drops the decimal point or keeps both places where no digit follows; Excel keeps the point, which LibreOffice drops"},
	{"[h]:mm:ss", "123456.789", "its durations end at 2,562,047 hours; LibreOffice shows an error"},
	{"mm:ss.0", "12.3456789|123456.789|0.000012345", "it cuts or rounds the fraction of a second"},
}

func libraryReason(c *sheet.Cell) string {
	code := c.Format
	if code == "" {
		code = "General"
	}
	for i, one := range libraryDiffers {
		if contains(one.codes, code) && (one.numbers == "*" || contains(one.numbers, c.Raw)) {
			usedReasons[i] = true
			return one.reason
		}
	}
	return ""
}

var usedReasons = map[int]bool{}

func contains(list, item string) bool { return strings.Contains("|"+list+"|", "|"+item+"|") }

func TestShown(t *testing.T) {
	data := shownWorkbook(t)
	book, err := read("shown.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	secondReader(t, data, book, func(c *sheet.Cell, _ string) string { return libraryReason(c) })
	for i, one := range libraryDiffers {
		if !usedReasons[i] {
			t.Errorf("the library no longer differs for %s: %s", one.codes, one.reason)
		}
	}
	s := book.Sheets[0]
	if len(s.Rows) != len(shownNumbers) || s.Width() != len(shownCodes) {
		t.Fatalf("the sheet has %d rows and %d columns", len(s.Rows), s.Width())
	}
	for c, code := range shownCodes {
		if code == "General" {
			code = ""
		}
		if got := s.Rows[0][c].Format; got != code {
			t.Errorf("the format of column %d is %q, want %q", c+1, got, code)
		}
	}
}

// shownWorkbook writes each number as it stands, which the library does for a text that it then calls a number.
func shownWorkbook(t *testing.T) []byte {
	t.Helper()
	var styles, rows strings.Builder
	for c, code := range shownCodes {
		fmt.Fprintf(&styles, `<numFmt numFmtId="%d" formatCode="%s"/>`, 200+c, escapeXML(code))
	}
	for r, number := range shownNumbers {
		fmt.Fprintf(&rows, `<row r="%d">`, r+1)
		for c := range shownCodes {
			fmt.Fprintf(&rows, `<c r="%s" s="%d"><v>%s</v></c>`, sheet.Ref{Row: r + 1, Col: c + 1}, c, number)
		}
		rows.WriteString("</row>")
	}
	var xfs strings.Builder
	for c := range shownCodes {
		fmt.Fprintf(&xfs, `<xf numFmtId="%d"/>`, 200+c)
	}
	return parts{
		"xl/styles.xml": `<styleSheet xmlns="` + mainSpace + `"><numFmts>` + styles.String() + `</numFmts><cellXfs>` + xfs.String() + `</cellXfs></styleSheet>`,
		sheetPart:       `<worksheet xmlns="` + mainSpace + `"><sheetData>` + rows.String() + `</sheetData></worksheet>`,
	}.zip(t)
}
