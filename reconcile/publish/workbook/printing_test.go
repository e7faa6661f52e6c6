package workbook

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// pagesOf is on how many pages the spreadsheet program prints each of some workbooks, by its page objects (ISO 32000-1, 7.7.3.3). It is
// started once for all of them, which takes longer than to print one.
func pagesOf(t *testing.T, books ...[]byte) []int {
	t.Helper()
	dir := t.TempDir()
	args := []string{"--headless", "--norestore", "-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(dir, "profile")), "--convert-to", "pdf", "--outdir", dir}
	for i, text := range books {
		path := filepath.Join(dir, "book"+strconv.Itoa(i)+".xlsx")
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	if said, err := exec.Command(soffice(t), args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	var pages []int
	for i := range books {
		pdf, err := os.ReadFile(filepath.Join(dir, "book"+strconv.Itoa(i)+".pdf"))
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, bytes.Count(pdf, []byte("/Type/Page/")))
	}
	return pages
}

// A workbook is printed on one page for each question; what is there for looking up is not printed, and a list that nobody reads on paper
// ends after some pages.
func TestPagesPrinted(t *testing.T) {
	soffice(t)
	small := bytesOf(t, telltest.Small(t), Options{}, standardLimits)
	large := bytesOf(t, telltest.Large(t, 400, 80), Options{}, standardLimits)
	pages := pagesOf(t, small, large)
	if got := pages[0]; got < 7 || got > 9 {
		t.Errorf("a small catalogue takes %d pages, want one for each of the 8 sheets that are read on paper", got)
	}
	// 2 pages say what the rest rests on, and lists end after mostPages; the matrix has as many as its ferrules need.
	matrix, err := open(t, large).GetPageLayout(sheetMatrix)
	if err != nil {
		t.Fatal(err)
	}
	most := 2 + int(*matrix.FitToWidth**matrix.FitToHeight) + 7*mostPages
	if got := pages[1]; got > most {
		t.Errorf("400 heads and 80 ferrules take %d pages, want %d or fewer", got, most)
	}
}

// paperOf is how a sheet of so many rows of one width goes on paper.
func paperOf(rows int, width float64, s report.Section) (printed, *page) {
	p := &page{book: newBook(Options{}, standardLimits), layout: layout{widths: []float64{width}, freezeRows: 1, repeatFrom: 1}, content: &content{}, section: &s}
	for range rows {
		p.row++
		p.grow(usualHigh)
	}
	return p.onPaper(1), p
}

// Letters stay large enough, no list takes more than its pages, and what is left out is what does not fit.
func TestOnPaper(t *testing.T) {
	for _, width := range []float64{20, 90, 130, 160, 237, 400} {
		for rows := 1; rows < 3000; rows = rows*3/2 + 1 {
			got, p := paperOf(rows, width, report.Section{})
			on := papers[slices.IndexFunc(papers[:], func(p paper) bool { return p.orientation == got.orientation })]
			last := got.last
			if last == 0 {
				last = rows
			}
			scale := min(1, on.wide/(width*pointsPerWidth), on.scale(got.pages, p.high(last), p.repeated()))
			if least := min(leastScale, papers[0].wide/(width*pointsPerWidth)); scale < least-1e-9 || got.pages > mostPages {
				t.Errorf("%d rows of width %v: %+v at %v, want %v or more", rows, width, got, scale, least)
			}
			if got.last > 0 && got.pages != mostPages {
				t.Errorf("%d rows of width %v: %+v is cut before the last page", rows, width, got)
			}
			if whole, _ := paperOf(rows, width, report.Section{Whole: true}); whole.last != 0 {
				t.Errorf("%d rows of width %v are to be whole: %+v", rows, width, whole)
			}
		}
	}
}

// The foot says how many rows are not printed, and what is looked up on the screen has an area of which nothing is seen.
func TestWhatIsNotPrinted(t *testing.T) {
	f := open(t, bytesOf(t, telltest.Large(t, 600, 80), Options{Full: true}, standardLimits))
	cut := 0
	for _, sheet := range f.GetSheetList() {
		both, err := f.GetHeaderFooter(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(both.OddFooter, "the others are on the screen") {
			cut++
		}
	}
	if cut == 0 {
		t.Error("no list of 600 heads is cut")
	}
	for _, name := range f.GetDefinedName() {
		if name.Name != "_xlnm.Print_Area" || name.Scope != sheetFits && name.Scope != sheetWindows {
			continue
		}
		column, _, found := strings.Cut(strings.TrimPrefix(name.RefersTo, quoted(name.Scope)+"!$"), "$")
		if visible, err := f.GetColVisible(name.Scope, column); !found || err != nil || visible {
			t.Errorf("%s prints %s (%v)", name.Scope, name.RefersTo, err)
		}
	}
}

// TestNumbersAreForPeople: what is seen has no more decimals than anybody measures.
func TestNumbersAreForPeople(t *testing.T) {
	f := written(t, telltest.Small(t), Options{})
	seen := 0
	for _, sheet := range f.GetSheetList() {
		if visible, err := f.GetSheetVisible(sheet); err != nil || !visible {
			continue
		}
		for r, row := range rows(t, f, sheet) {
			for c := range row {
				if shown, err := f.GetColVisible(sheet, columnName(c+1)); err != nil || !shown {
					continue
				}
				number, formula := numberAt(t, f, sheet, address(c+1, r+1))
				if formula || math.IsNaN(number) {
					continue
				}
				if seen++; math.Abs(number-rounded(number, 5)) > 1e-12 {
					t.Errorf("%s!%s is %v", sheet, address(c+1, r+1), number)
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("only %d numbers seen", seen)
	}
}

// numberAt is the number in a cell as it is stored, NaN where it has none.
func numberAt(t *testing.T, f *excelize.File, sheet, at string) (number float64, formula bool) {
	t.Helper()
	text, err := f.GetCellFormula(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	raw, err := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	kind, err := f.GetCellType(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	number = math.NaN()
	if x, err := strconv.ParseFloat(raw, 64); err == nil && kind == excelize.CellTypeUnset {
		number = x
	}
	return number, text != ""
}
