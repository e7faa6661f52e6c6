package review_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/internal/browser"
	"example.com/seatline/reconcile/publish/review"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

func TestMain(m *testing.M) { browser.Run(m) }

// irons has a column in millimetres by its heading, one whose unit nothing says, a size that no joint allows, and one that is missing.
func irons() *sheet.Book {
	return sheettest.Book("lists/irons.xlsx", "Heads",
		"Orrin Vale irons 2026",
		"Part No | Hosel OD (mm) | Bore depth | Remark",
		"OV-20 | 13.6 | 32 | \"left\" too",
		"OV-21 | 345 | 32 |",
		"OV-22 | | 31.5 |",
		"OV-23 | .535 | 31.5 |",
		"OV-24 | 13.4 | 1.25 |")
}

func readBook(t *testing.T, b *sheet.Book, text string) (*catalog.Catalogue, catalog.Mapping) {
	t.Helper()
	m, err := mapping.Parse([]byte(text))
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return reader.Read([]reader.Input{{Book: b}}, reader.Options{Map: m}), m
}

func pageOf(t *testing.T, b *sheet.Book, text string) string {
	t.Helper()
	c, m := readBook(t, b, text)
	var page bytes.Buffer
	if err := review.Write(&page, []*sheet.Book{b}, c, review.Options{Map: m, MapName: "irons.toml"}); err != nil {
		t.Fatal(err)
	}
	return page.String()
}

func openPage(t *testing.T, page string, before ...chromedp.Action[chromedp.Void]) *browser.Tab {
	t.Helper()
	return browser.Open(t, []byte(page), "", before...)
}

// choose gives a control of the page a value, as a person would.
func choose(b *browser.Tab, selector, value, event string) {
	b.T.Helper()
	if !browser.Evaluate[bool](b, fmt.Sprintf(`(() => { const c = document.querySelector(%q); if (!c) return false; c.value = %q;
		c.dispatchEvent(new Event(%q, {bubbles: true})); return c.value === %q })()`, selector, value, event, value)) {
		b.T.Fatalf("%s cannot be %q", selector, value)
	}
}

// saved presses the button and returns what the browser was given to save.
func saved(b *browser.Tab) string {
	b.T.Helper()
	browser.Evaluate[bool](b, `(() => { const make = URL.createObjectURL; URL.createObjectURL = (blob) => { blob.text().then((text) => { window.saved = text }); return make(blob) }; return true })()`)
	b.Do(chromedp.Focus(chromedp.CSS("#save")))
	b.Press("\r")
	b.Wait(`window.saved !== undefined`)
	return browser.Evaluate[string](b, "window.saved")
}

// struckOut is the same list with a size and a row that are struck out.
func struckOut() *sheet.Book {
	b := irons()
	s := b.Sheets[0]
	s.Strike(sheet.Ref{Row: 3, Col: 2}, "13.5")
	for col, cell := range s.Rows[5] {
		s.Strike(sheet.Ref{Row: 6, Col: col + 1}, cell.Shown)
		s.Rows[5][col] = sheet.StruckCell
	}
	return b
}

// TestStruckOut shows what is struck out of a cell, and a row that is, as the sheet has them, and says so to whoever does not see them.
func TestStruckOut(t *testing.T) {
	tab := openPage(t, pageOf(t, struckOut(), ""))
	const cells = `[...document.querySelectorAll(".grid tbody tr")].filter(r => r.querySelector("s")).map(r => [...r.querySelectorAll("td")].map(c => c.textContent + (c.querySelector("s") ? "|" + c.querySelector("s").lastChild.data + "|" + getComputedStyle(c.querySelector("s")).textDecorationLine : "")).join(";")).join("\n")`
	const want = "OV-20;struck out: 13.5 13.6|13.5|line-through;32;\"left\" too\nstruck out: OV-23|OV-23|line-through;struck out: .535|.535|line-through;struck out: 31.5|31.5|line-through;"
	if got := browser.Evaluate[string](tab, cells); got != want {
		t.Errorf("the page shows\n%s, want\n%s", got, want)
	}
}

// TestUnitOfAColumn changes the unit of a column on the page, reads the sheet with what it saves, and sees the column in that unit,
// although its heading says another.
func TestUnitOfAColumn(t *testing.T) {
	before, _ := readBook(t, irons(), "")
	if got := before.Heads[0].Head.HoselOD.Nominal().Millimetres(); got != 13.6 {
		t.Fatalf("hosel OD %v mm", got)
	}
	b := openPage(t, pageOf(t, irons(), ""))
	choose(b, `[data-column="C"] [data-set="unit"]`, "cm", "change")
	if got := b.Text(`[data-chip$="-cC"]`); !strings.Contains(got, "cm") {
		t.Errorf("the head of the column says %q", got)
	}
	text := saved(b)
	after, _ := readBook(t, irons(), text)
	column := after.Tables[0].Columns[2]
	if column.Unit != "cm" || column.Role != catalog.BoreDepth {
		t.Errorf("column %+v, by\n%s", column, text)
	}
	if diff := cmp.Diff(text, b.Text("#text")+"\n"); diff != "" && browser.Evaluate[string](b, "document.getElementById('text').value") != text {
		t.Errorf("the text shown is another: %s", diff)
	}
}

// TestAnswers gives a column another role, answers for cells and leaves a row out, on top of a mapping file that was there before.
func TestAnswers(t *testing.T) {
	given := "[categories]\n\"Blade work\" = \"iron\"\n[sheets.\"He*\"]\nsupplier = \"Orrin\"\ntolerance = \"±0.05 mm\"\n"
	before, _ := readBook(t, irons(), given)
	if before.Tables[0].Ledger.Held == 0 {
		t.Fatalf("nothing is held: %+v", before.Tables[0].Ledger)
	}
	b := openPage(t, pageOf(t, irons(), given))
	if !browser.Evaluate[bool](b, "document.getElementById('save').disabled") {
		t.Error("there is something to save before anything is decided")
	}
	choose(b, `[data-column="D"] [data-set="role"]`, "none", "change")
	choose(b, `[data-row="4"][data-role="hosel_od"]`, "13.58", "input")
	if got := b.Text("#state"); strings.Contains(got, "2") {
		t.Errorf("a size without a unit is taken: %s", got)
	}
	choose(b, `[data-row="4"][data-role="hosel_od"]`, "13.58 mm", "input")
	b.Do(chromedp.Click(chromedp.CSS(`[data-row="5"][data-aside]`)))
	choose(b, `[data-another="row"]`, "3", "input")
	choose(b, `[data-another="role"]`, "bore_depth", "change")
	choose(b, `[data-another="value"]`, "1-1/4 in", "input")
	b.Do(chromedp.Evaluate[chromedp.Void](`document.querySelector('.whole').open = true; document.querySelector('[data-another="add"]').click()`))
	text := saved(b)
	after, m := readBook(t, irons(), text)
	if got := after.Heads[0].Head.BoreDepth.Nominal().Inches(); got != 1.25 {
		t.Errorf("bore depth %v in, by\n%s", got, text)
	}
	if got := after.Heads[1].Head.HoselOD.Nominal().Millimetres(); got != 13.58 {
		t.Errorf("hosel OD %v mm, by\n%s", got, text)
	}
	if row := after.Tables[0].Rows[4]; row.Row != 5 || row.Outcome != catalog.SetAside {
		t.Errorf("row %+v, by\n%s", row, text)
	}
	if got := after.Heads[0].Supplier; got != "Orrin" {
		t.Errorf("what the mapping file said before is lost: supplier %q, by\n%s", got, text)
	}
	if diff := cmp.Diff(map[string]string{"Blade work": "iron"}, m.Categories); diff != "" {
		t.Error(diff)
	}
	if row := m.Sheets["Heads"].Rows["4"]; row.For != "OV-21" {
		t.Errorf("the answer is for %q", row.For)
	}
}

// TestUnitColumn: a person's unit holds over that of a column of units.
func TestUnitColumn(t *testing.T) {
	book := sheettest.Book("u.xlsx", "Heads", "Part No | Hosel OD | Hosel length | Unit", "K-1 | 13.5 | 12 | mm", "K-2 | 13.6 | 12 | mm", "K-3 | 13.2 | 12.5 | mm")
	before, _ := readBook(t, book, "")
	if got := before.Heads[0].Head.HoselLength.Nominal().Millimetres(); got != 12 {
		t.Fatalf("hosel length %v mm", got)
	}
	b := openPage(t, pageOf(t, book, ""))
	choose(b, `[data-column="C"] [data-set="unit"]`, "cm", "change")
	after, _ := readBook(t, book, saved(b))
	if got := after.Heads[0].Head.HoselLength.Nominal().Millimetres(); got != 120 || after.Heads[0].Head.HoselOD.Nominal().Millimetres() != 13.5 || after.Tables[0].Ledger.Held != 0 {
		t.Errorf("hosel length %v mm, %+v, %+v", got, after.Tables[0].Ledger, after.Findings)
	}
}

// TestKind says that a table lists something else; its columns are then found out anew.
func TestKind(t *testing.T) {
	b := openPage(t, pageOf(t, irons(), ""))
	choose(b, `[data-set="kind"]`, "ferrules", "change")
	after, _ := readBook(t, irons(), saved(b))
	if after.Tables[0].Kind != catalog.Ferrules || len(after.Ferrules) == 0 {
		t.Errorf("a table of %v with %d ferrules", after.Tables[0].Kind, len(after.Ferrules))
	}
}

// TestAwkwardNames: names and values with quotes, dots and signs come through the file as they are.
func TestAwkwardNames(t *testing.T) {
	book := sheettest.Book("a.xlsx", `He"ads.2026 ü!`, `Part "No" | Hosel OD (mm) | Bore (mm)`, "K.1 | 13.6 | 9.5", "K.2 | | 9.5", "K.3 | 13.4 | 9.5")
	b := openPage(t, pageOf(t, book, ""))
	choose(b, `[data-row="3"][data-role="hosel_od"]`, `.535"`, "input")
	choose(b, `[data-set="supplier"]`, `O'Rin "V" \ é`, "change")
	after, _ := readBook(t, book, saved(b))
	if h := after.Heads[1]; h.Supplier != `O'Rin "V" \ é` || h.Head.HoselOD.Nominal().Inches() != 0.535 {
		t.Errorf("supplier %q, hosel OD %v", h.Supplier, h.Head.HoselOD)
	}
}

// TestAxe holds the page to axe-core, light and dark, wide and on a phone, and to the width of its window.
func TestAxe(t *testing.T) {
	axe := browser.AxeCore(t)
	two := sheettest.Book("trim.xlsx", "Trim",
		"Ferrule | Bore (in) | Base OD (in)", "HL-1 | .370 | .540", "HL-2 | .355 | 5.40", "", "Style | Ferrule | Base OD (mm) | Bore (mm)", "plain | HL-7 | 13.8 | 9.3", "plain | HL-8 | 13.4 | 9.0")
	for _, book := range []*sheet.Book{struckOut(), two} {
		page := pageOf(t, book, "")
		for _, scheme := range []string{"light", "dark"} {
			for _, width := range []int64{1280, 390} {
				b := openPage(t, page, chromedp.EmulateViewport(width, 900), browser.Media("", scheme))
				browser.Evaluate[bool](b, "(() => { for (const d of document.querySelectorAll('details')) d.open = true; return true })()")
				b.Axe(axe, fmt.Sprintf("%s, %s, %d px", book.File, scheme, width))
				if over := browser.Evaluate[int64](b, "document.documentElement.scrollWidth"); over > width {
					t.Errorf("%s at %d px is %d px wide", book.File, width, over)
				}
			}
		}
	}
}

// TestBounds: a long and wide sheet full of doubts makes a page of bounded size, which says what it leaves out.
func TestBounds(t *testing.T) {
	heading := "Part No | Hosel OD (mm)" + strings.Repeat(" | Remark on this and that", 100)
	lines := []string{heading}
	for i := range 3000 {
		lines = append(lines, fmt.Sprintf("XX-%d | %d%s", i, 200+i, strings.Repeat(" | "+strings.Repeat("long ", 60), 100)))
	}
	book := sheettest.Book("long.xlsx", "Heads", lines...)
	page := pageOf(t, book, "")
	if len(page) > 3<<20 {
		t.Errorf("the page has %d bytes", len(page))
	}
	for _, want := range []string{"columns further right are not shown here", "are not shown here; all were read", "more are not shown here"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// TestNothingIsLoaded: the page names no address that a browser would fetch, and text of a sheet stays text.
func TestNothingIsLoaded(t *testing.T) {
	book := sheettest.Book("a.xlsx", "<b>Heads</b>", "Part No | Hosel OD (mm) | Remark", "</script><img src=x> | 13.6 | http://example.com/", "B | 345 | ")
	page := pageOf(t, book, "")
	for _, never := range []string{` src="`, "<img", "<b>Heads", `href="h`, "@import", "url("} {
		if strings.Contains(page, never) {
			t.Errorf("the page has %q", never)
		}
	}
	at := strings.Index(page, `id="data">`)
	var v map[string]any
	if err := json.NewDecoder(strings.NewReader(page[at+len(`id="data">`):])).Decode(&v); err != nil {
		t.Error(err)
	}
	if again := pageOf(t, book, ""); again != page {
		t.Error("the same sheets give another page")
	}
}
