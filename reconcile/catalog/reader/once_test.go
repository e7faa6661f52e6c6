package reader

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/internal/seen"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// columnsFor are headings with texts that stand below them in lists of heads, and some that should not.
var columnsFor = []struct {
	heading string
	cells   []string
}{
	{"Part No", []string{"KR-20", "KR-21", "KR-22", "'KR-23", "001", "KR-20", "1.2E+05"}},
	{"Description", []string{"Forged iron", "Forged iron 4-PW", "Wedge", "=A1*2", `"x"`}},
	{"Club", []string{"4-PW", "7", "PW", "ditto"}},
	{"Hosel OD", []string{"13.6", "13.60", `.535"`, "13.6 mm", "136", "6.8", "Ø13.5", "13.6 ±0.05", "13,6", "1/2", "〃", "n/a", "TBD", "13.6*", "← ", "same as left", "13.5-13.7", "#N/A", "approx. 13.6"}},
	{"Unit", []string{"mm", "in", "", "〃"}},
	{"Bore", []string{".370", "9.4", ".355 taper", ".370 parallel", ".335/.370", "9.5 mm", "ditto", "370"}},
	{"Bore depth (mm)", []string{"32", "33.5", "28", "n/a", "0.5"}},
	{"OD Tol", []string{"±0.05 mm", "±.002 in", "h9", "0.05", "+0/-0.1", "x1", "〃", ""}},
	{"Hosel OD min", []string{"13.5", "13.4", ""}},
	{"Hosel OD max", []string{"13.7", "13.3", ""}},
	{"Hosel OD (in)", []string{".535", ".531", ".6"}},
	{"+", []string{"0.1", "+0.05", "x"}},
	{"-", []string{"0.1", "-0.05", ""}},
	{"Top", []string{"flat", "countersunk 90°", "universal", "rounded"}},
	{"C'sink angle", []string{"90", "82° incl.", "45° per side", "7"}},
	{"Price", []string{"$12.50", "13", "1,250"}},
}

// lists draws a list, as texts line by line.
var lists = rapid.Custom(func(t *rapid.T) [][]string {
	columns := rapid.SliceOfNDistinct(rapid.IntRange(1, len(columnsFor)-1), 2, 9, rapid.ID[int]).Draw(t, "columns")
	columns = append([]int{0}, columns...)
	var rows [][]string
	row := func(cell func(int) string) {
		var cells []string
		for _, c := range columns {
			cells = append(cells, cell(c))
		}
		rows = append(rows, cells)
	}
	row(func(c int) string { return columnsFor[c].heading })
	for range rapid.IntRange(1, 25).Draw(t, "rows") {
		switch rapid.IntRange(0, 25).Draw(t, "line") {
		case 0:
			rows = append(rows, []string{rapid.SampledFrom([]string{"Irons, all sizes in inches", "Sizes in mm", "* measured cold ±0.1 mm", ""}).Draw(t, "section")})
		case 1:
			row(func(c int) string { return columnsFor[c].heading })
		default:
			row(func(c int) string { return rapid.SampledFrom(columnsFor[c].cells).Draw(t, "cell") })
		}
	}
	return rows
})

// TestSharedCellsReadTheSame reads lists whose equal cells are one and the same, so that each is understood once, and lists in which every
// cell is another, so that each is understood by itself.
func TestSharedCellsReadTheSame(t *testing.T) {
	told := func(rows [][]string, shared bool, opts Options) string {
		c := Read([]Input{{Book: &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{sheettest.Texts("Heads", rows, shared)}}}}, opts)
		var out bytes.Buffer
		if err := catalog.WriteJSON(&out, c); err != nil {
			t.Fatal(err)
		}
		for _, h := range c.Heads {
			fmt.Fprintf(&out, "%s %v %+v %+v %v %q\n", h.Part, h.Category, h.Head, h.TipTaken, h.BoreIsDesignation, h.Assumptions)
		}
		return out.String()
	}
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		rows := lists.Draw(t, "list")
		opts := Options{}
		if rapid.IntRange(0, 3).Draw(t, "answers") == 0 {
			row := fmt.Sprint(rapid.IntRange(2, len(rows)).Draw(t, "row"))
			opts.Map.Sheets = map[string]catalog.SheetRules{"Heads": {Kind: "heads", Rows: map[string]catalog.RowRule{row: {Values: map[catalog.Role]string{catalog.HoselOD: "13.6 mm"}}}}}
		}
		each, once := told(rows, false, opts), told(rows, true, opts)
		if diff := cmp.Diff(each, once); diff != "" {
			t.Errorf("%q\n(-each +once)\n%s", rows, diff)
		}
		if strings.Contains(once, "in all") {
			found++
		}
	})
	if found == 0 {
		t.Error("no finding was counted")
	}
}

// TestMemoGivesUp reads a column of sizes that are all different: nothing of it is kept, and nothing is lost.
func TestMemoGivesUp(t *testing.T) {
	rows := [][]string{{"Part No", "Hosel OD (mm)", "Bore (mm)"}}
	for i := range 3 * seen.Trial {
		rows = append(rows, []string{fmt.Sprintf("KR-%d", i), fmt.Sprintf("%.4f", 12+float64(i)/seen.Trial), "9.5"})
	}
	c := Read([]Input{{Book: &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{sheettest.Texts("Heads", rows, true)}}}}, Options{})
	if len(c.Heads) != len(rows)-1 {
		t.Fatalf("%d heads of %d", len(c.Heads), len(rows)-1)
	}
	for i, h := range c.Heads {
		if want := rows[i+1][1]; h.Fields.Text(catalog.HoselOD) != want || h.Fields.Cell(catalog.HoselOD) != fmt.Sprintf("B%d", i+2) || traits.MM(h.Head.HoselOD.Nominal()) != cells.NumberOf(want) {
			t.Fatalf("head %d is %+v, want %s", i, h.Fields.Get(catalog.HoselOD), want)
		}
	}
}

// TestLongDittos reads a long column of dittos, which must not be searched from each of them to the top.
func TestLongDittos(t *testing.T) {
	rows := [][]string{{"Part No", "Hosel OD (mm)", "Bore (mm)"}, {"KR-0", "13.6", "9.5"}}
	for i := range 60_000 {
		rows = append(rows, []string{fmt.Sprintf("KR-%d", i+1), "〃", "〃"})
	}
	c := Read([]Input{{Book: &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{sheettest.Texts("Heads", rows, true)}}}}, Options{})
	if last := c.Heads[len(c.Heads)-1]; len(c.Heads) != len(rows)-1 || traits.MM(last.Head.HoselOD.Nominal()) != 13.6 {
		t.Errorf("%d heads, the last %+v", len(c.Heads), last.Fields.Get(catalog.HoselOD))
	}
}

// left.
func TestGroups(t *testing.T) {
	texts := rapid.SampledFrom([]string{"", "", "", "OD", "Hosel", "min"})
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(1, 9).Draw(t, "width")
		var rows [][]string
		for range 3 {
			rows = append(rows, rapid.SliceOfN(texts, width, width).Draw(t, "line"))
		}
		s := sheettest.Texts("Heads", rows, true)
		for range rapid.IntRange(0, 2).Draw(t, "merges") {
			from := sheet.Ref{Row: rapid.IntRange(1, 2).Draw(t, "row"), Col: rapid.IntRange(1, width).Draw(t, "column")}
			s.Merges = append(s.Merges, sheet.Range{From: from, To: sheet.Ref{Row: from.Row + rapid.IntRange(0, 1).Draw(t, "rows"), Col: from.Col + rapid.IntRange(0, 3).Draw(t, "columns")}})
		}
		g := grid.New(s)
		if g.Lines == 0 || g.Width == 0 {
			return
		}
		r := layout.Region{Grid: g, From: 1, To: g.Lines, Left: 1, Right: g.Width}
		lines := []int{1, 2, 3}
		sought := func(lines []int, line, col int) string {
			if text := g.Filled(line, col); text != "" || len(lines) == 1 {
				return text
			}
			if !r.Below(lines[1:], col) {
				return ""
			}
			for left := col - 1; left >= r.Left; left-- {
				text := g.At(line, left)
				_, from, _, to := g.Merged(line, left)
				switch {
				case !r.Below(lines[1:], left), text == "" && g.Filled(line, left) != "", text != "" && to > from:
					return ""
				case text != "":
					return text
				}
			}
			return ""
		}
		for i, line := range lines {
			var before layout.Group
			for col := r.Left; col <= r.Right; col++ {
				want := sought(lines[i:], line, col)
				if got := r.Fragment(lines[i:], line, col, &before); got != want {
					t.Fatalf("%q, merged %v: line %d of column %d says %q, want %q", rows, s.Merges, line, col, got, want)
				}
			}
		}
	})
}
