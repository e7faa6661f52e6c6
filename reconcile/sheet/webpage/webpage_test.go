package webpage_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/webpage"
)

func read(t *testing.T, page string) *sheet.Book {
	t.Helper()
	book, err := webpage.ReadWithin("list.xls", []byte(page), sheet.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// lines writes the rows of a sheet with a stroke between cells.
func lines(s *sheet.Sheet) []string {
	var all []string
	for _, row := range s.Rows {
		var cells []string
		for _, cell := range row {
			cells = append(cells, cell.Raw)
		}
		all = append(all, strings.Join(cells, "|"))
	}
	return all
}

// What a person sees of each page (HTML Living Standard, 4.9 on tables, 15.3.8 on what is not rendered).
func TestTables(t *testing.T) {
	for _, test := range []struct {
		name, page string
		want       []string
		merges     string
	}{
		{"plain", `<table><tr><th>Part</th><th>OD</th></tr><tr><td>HX-1</td><td>13.6</td></tr></table>`, []string{"Part|OD", "HX-1|13.6"}, ""},
		{"without end tags", `<table><tr><td>a<td>b<tr><td>c<td>d</table>`, []string{"a|b", "c|d"}, ""},
		{"sections", `<table><caption>x</caption><colgroup><col></colgroup><thead><tr><th>a</thead><tbody><tr><td>b</tbody><tfoot><tr><td>c</tfoot></table>`, []string{"a", "b", "c"}, ""},
		{"spans", `<table><tr><td rowspan=2>a</td><td colspan="2">b</td></tr><tr><td>c</td><td>d</td></tr><tr><td>e</td></tr></table>`, []string{"a|b", "|c|d", "e"}, "[A1:A2 B1:C1]"},
		{"a span of rows that goes on to the end", `<table><tr><td rowspan=9>a</td><td>b</td></tr><tr><td>c</td></tr></table>`, []string{"a|b", "|c"}, "[A1:A2]"},
		{"rowspan 0 is to the end", `<table><tr><td rowspan=0>a</td><td>b</td></tr><tr><td>c</td></tr></table>`, []string{"a|b", "|c"}, "[A1:A2]"},
		{"white space and breaks", "<table><tr><td>  two\n  words<br>and <b>a</b> line </td><td>&nbsp;1&frac12;&quot;</td><td><p>a</p><p>b</p></td></tr></table>", []string{"two words\nand a line|1½\"|a\nb"}, ""},
		{"scripts and what is hidden", `<table><tr><td><span style="display: none">0013.6</span>13.6<script>alert("<td>x")</script><style>td{}</style></td><td hidden>x</td><td>b</td></tr></table>`, []string{"13.6|b"}, ""},
		{"raised, struck out", `<table><tr><td>13.9<sup>1</sup></td><td><s>13.5</s> 13.9</td><td><span style="text-decoration:line-through">9.4</span>9.5</td></tr></table>`, []string{"13.9¹|13.9|9.5"}, ""},
		{"comments", `<table><!-- <tr><td>x --><tr><td>a</td></tr></table>`, []string{"a"}, ""},
		{"text around", `<h1>Heads 2027</h1><p>All sizes in <b>mm</b></p><table><tr><td>a</td></tr></table><p>* before polishing</p>`, []string{"Heads 2027", "All sizes in mm", "a", "* before polishing"}, ""},
		{"blank rows", `<table><tr></tr><tr><td></td></tr><tr><td>a</td></tr></table>`, []string{"", "", "a"}, ""},
	} {
		s := read(t, test.page).Sheets[0]
		if diff := cmp.Diff(test.want, lines(s)); diff != "" {
			t.Errorf("%s: %s", test.name, diff)
		}
		if got := fmt.Sprint(s.Merges); test.merges != "" && got != test.merges {
			t.Errorf("%s: merged %s, want %s", test.name, got, test.merges)
		}
	}
}

// TestSheets has several tables on a page, one of them within another that only lays it out.
func TestSheets(t *testing.T) {
	book := read(t, `<html><body><table><tr><td>menu</td><td><table id="heads"><caption>Heads</caption><tr><td>a</td></tr></table></td></tr></table>`+
		`<table style="display:none"><tr><td>b</td></tr></table><table><tr style="display:none"><td>c</td></tr><tr><td>d</td></tr></table></body></html>`)
	var got []string
	for _, s := range book.Sheets {
		got = append(got, fmt.Sprint(s.Name, " ", s.Hidden, " ", s.HiddenRows, " ", lines(s)))
	}
	want := []string{"table 1 false map[] [menu]", "Heads false map[] [a]", "table 3 true map[] [b]", "table 4 false map[1:true] [c d]"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// TestStoredNumbers reads the numbers that spreadsheet programs store beside what they show, x:num and sdval, when they save a sheet as a page.
func TestStoredNumbers(t *testing.T) {
	s := read(t, `<table><tr><td x:num="9.398">9,40</td><td x:num>13.6</td><td sdval="0.335" sdnum="1031;">0,335</td><td x:num="x">1</td><td x:num="5"><s>5</s></td></tr></table>`).Sheets[0]
	want := []*sheet.Cell{
		{Kind: sheet.Number, Raw: "9.398", Shown: "9,40"}, {Kind: sheet.Number, Raw: "13.6", Shown: "13.6"}, {Kind: sheet.Number, Raw: "0.335", Shown: "0,335"},
		{Kind: sheet.Text, Raw: "1", Shown: "1"}, sheet.StruckCell,
	}
	if diff := cmp.Diff(want, s.Rows[0]); diff != "" {
		t.Error(diff)
	}
	if s.Struck[sheet.Ref{Row: 1, Col: 5}] != "5" {
		t.Errorf("struck out: %v", s.Struck)
	}
}

func TestEncodings(t *testing.T) {
	for _, page := range []string{
		"<meta charset=windows-1252><table><tr><td>Ma\xdf</table>",
		"<meta http-equiv=Content-Type content=\"text/html; charset=iso-8859-1\"><table><tr><td>Ma\xdf</table>",
		"<table><tr><td>Maß</table>", "\ufeff<table><tr><td>Maß</table>",
		"\xff\xfe" + utf16("<table><tr><td>Maß</table>"),
		"<meta charset=utf-16><table><tr><td>Maß</table>", // a page whose declaration can be read is not in UTF-16
	} {
		if got := lines(read(t, page).Sheets[0]); got[0] != "Maß" {
			t.Errorf("%q: %q", page, got)
		}
	}
}

func utf16(text string) string {
	var out strings.Builder
	for _, r := range text {
		out.WriteByte(byte(r))
		out.WriteByte(byte(r >> 8))
	}
	return out.String()
}

func TestRefusals(t *testing.T) {
	limits := sheet.Limits{Rows: 5, Columns: 4, Cells: 12, Characters: 10, Text: 40, Sheets: 2}
	row := func(cells int) string { return "<tr>" + strings.Repeat("<td>a", cells) }
	for _, test := range []struct {
		name, page string
		reason     sheet.Reason
	}{
		{"no table", "<html><p>sign in, please</p></html>", sheet.ReasonUnsupported},
		{"cut off", "<table><tr><td>a</td></tr><tr><td>b", sheet.ReasonTruncated},
		{"cut off in a tag", "<table><tr><td>a</td></tr><tr><td colspan=", sheet.ReasonTruncated},
		{"rows", "<table>" + strings.Repeat(row(1), 6) + "</table>", sheet.ReasonTooBig},
		{"columns", "<table>" + row(5) + "</table>", sheet.ReasonTooBig},
		{"columns by a span", "<table><tr><td colspan=900><td>a</table>", sheet.ReasonTooBig},
		{"columns by many spans", "<table><tr>" + strings.Repeat("<td colspan=1000000000>", 50) + "<td>a</table>", sheet.ReasonTooBig},
		{"cells", "<table>" + strings.Repeat(row(4), 4) + "</table>", sheet.ReasonTooBig},
		{"characters", "<table><tr><td>" + strings.Repeat("a", 11) + "</table>", sheet.ReasonTooBig},
		{"text", "<table>" + strings.Repeat("<tr><td>aaaaaaaaaa", 5) + "</table>", sheet.ReasonTooBig},
		{"sheets", strings.Repeat("<table>"+row(1)+"</table>", 3), sheet.ReasonTooBig},
		{"nested tables", strings.Repeat("<table><tr><td>", 1000) + strings.Repeat("</table>", 1000), sheet.ReasonTooBig},
	} {
		_, err := webpage.ReadWithin("list.xls", []byte(test.page), limits)
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != test.reason || refusal.File != "list.xls" || refusal.Next == "" {
			t.Errorf("%s: %v, want the reason %v", test.name, err, test.reason)
		}
	}
}

// FuzzRead reads arbitrary pages: each is read within the limits or refused with a typed error, and every merged range lies on its sheet.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"<table><tr><td rowspan=2>a</td><td colspan=3>b</td></tr><tr><td>c</td></tr></table>", "<table><tr><td><table><tr><td>x</table></table>",
		"<table><tr><td>13.9<sup>1</sup><s>x</s><td x:num=\"1\">1</table>", "<p>a<table><tr hidden><td>b<br>c</table>d", "<table></td></tr><td></table></table><tr>",
		"<!DOCTYPE html><meta charset=big5><table><caption>\xa4\xa4</caption><tr><td>\xa4", "<script><table></script><table><style></table>",
	} {
		f.Add([]byte(seed))
	}
	limits := sheet.Limits{Rows: 100, Columns: 50, Cells: 1000, Characters: 1000, Text: 1 << 16, Sheets: 20}
	f.Fuzz(func(t *testing.T, data []byte) {
		book, err := webpage.ReadWithin("f.html", data, limits)
		var refusal *sheet.FileError
		if err != nil {
			if !errors.As(err, &refusal) {
				t.Fatalf("an error without a type: %v", err)
			}
			return
		}
		for _, s := range book.Sheets {
			for _, m := range s.Merges {
				if m.From.Row < 1 || m.From.Col < 1 || m.To.Row > len(s.Rows) || m.To.Row < m.From.Row || m.To.Col < m.From.Col {
					t.Fatalf("merged %v on a sheet of %d rows", m, len(s.Rows))
				}
			}
			for _, row := range s.Rows {
				if len(row) > 50 {
					t.Fatalf("%d columns", len(row))
				}
			}
		}
	})
}
