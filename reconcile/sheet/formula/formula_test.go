package formula_test

import (
	"testing"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/formula"
)

// book has one formula in A1 of its first sheet, over the sheet that the tests refer to: B1 2, B2 3, B3 a text, B4 nothing, B5 an error, B6 =B1+1
// and B7 =B7, both without results; and 25.4 in A1 of a sheet "Units of old".
func book(text string) *sheet.Book {
	number := func(raw string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Number, Raw: raw, Shown: raw} }
	blank := sheet.BlankCell
	s := &sheet.Sheet{Name: "Heads", Rows: [][]*sheet.Cell{
		{{Formula: text}, number("2")}, {blank, number("3")}, {blank, {Kind: sheet.Text, Raw: "flat", Shown: "flat"}}, {blank, blank},
		{blank, {Kind: sheet.Error, Raw: "#REF!", Shown: "#REF!"}}, {blank, {Formula: "B1+1"}}, {blank, {Formula: "B7"}},
	}}
	return &sheet.Book{File: "heads.xlsx", Sheets: []*sheet.Sheet{s, {Name: "Units of old", Rows: [][]*sheet.Cell{{number("25.4")}}}}}
}

// The results are worked out by hand; empty where nothing may be said.
func TestFill(t *testing.T) {
	for text, want := range map[string]string{
		"30+2": "32", "0.53*25.4": "13.462", "10-4-3": "3", "12/2/3": "2", "2+3*4": "14", "(2+3)*4": "20", "-B1+5": "3", "2*-3": "-6", " 1 + 1 ": "2",
		"B1": "2", "$B$2": "3", "B1*B2": "6", "B3": "flat", "B6": "3", "B1+B4": "2", "Heads!B2": "3", "B1*'Units of old'!A1": "50.8", "'units of old'!$A$1": "25.4",
		"SUM(B1:B4)": "5", "sum(B1,B2,4)": "9", "SUM(B1;B2)": "5", "SUM(B1:B2)*2": "10", "PRODUCT(B1:B2)": "6", "SUM(B6,-2)": "1",
		"B4": "", "B5": "#REF!", "B5+1": "", "SUM(B1:B5)": "", "B3+1": "", "B7": "", "B7+1": "", "A1": "", "A1+1": "", "1/0": "", "B1/B4": "", "2^3": "", "50%": "", "B1&B2": "",
		"LOG10(100)": "", "SUM(B1": "", "(1+2": "", "1+": "", "B1:B2": "", "Gone!B1": "", "ROUND(B1,1)": "", "IF(B1>1,2,3)": "", `"2"`: "", "1e300*1e300": "", "1/3000000": "",
	} {
		b := book(text)
		formula.Fill(b)
		got := *b.Sheets[0].Rows[0][0]
		if got.Shown != want || got.WorkedOut != (want != "") || got.Formula != text {
			t.Errorf("=%s is %q (worked out: %v), want %q", text, got.Shown, got.WorkedOut, want)
		}
	}
}

// TestFillKeeps holds that stored results are not worked out again, and that cells of a pool are not changed.
func TestFillKeeps(t *testing.T) {
	b := book("B1+1")
	stored := &sheet.Cell{Kind: sheet.Number, Raw: "7", Shown: "7", Formula: "B1+1"}
	shared := b.Sheets[0].Rows[0][0]
	b.Sheets[0].Rows[3][0], b.Sheets[0].Rows[4][0] = stored, shared
	formula.Fill(b)
	if b.Sheets[0].Rows[3][0] != stored || stored.Raw != "7" || stored.WorkedOut {
		t.Errorf("the stored result became %+v", *b.Sheets[0].Rows[3][0])
	}
	if shared.Kind != sheet.Blank || b.Sheets[0].Rows[4][0].Raw != "3" || b.Sheets[0].Rows[0][0].Raw != "3" {
		t.Error("a cell that two places share was changed, or one of them was not worked out")
	}
}

// TestFillEnds holds that formulas which lead to each other without end are left, and that sums over sums take no time without bound.
func TestFillEnds(t *testing.T) {
	const rows = 3000
	s := &sheet.Sheet{Name: "Sums"}
	for range rows {
		s.Rows = append(s.Rows, []*sheet.Cell{{Formula: "SUM(B1:B3000)"}, {Formula: "SUM(A1:A3000)"}})
	}
	formula.Fill(&sheet.Book{Sheets: []*sheet.Sheet{s}})
	if s.Rows[0][0].WorkedOut || s.Rows[rows-1][1].WorkedOut {
		t.Error("sums of each other are worked out")
	}
}
