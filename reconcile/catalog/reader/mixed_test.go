package reader

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestListOfSeveralKinds: each row is read as what its type says, once; what is neither is set aside with a word.
func TestListOfSeveralKinds(t *testing.T) {
	book := &sheet.Book{File: "stock.csv", Sheets: []*sheet.Sheet{sheettest.Texts("", [][]string{
		{"Stock in mm"},
		{"Part", "Type", "OD", "ID", "Length"},
		{"H-1", "Iron head", "13.6", "9.5", "70"},
		{"F-1", "Ferrule", "13.6", "9.35", "25"},
		{"H-2", "Iron head", "13.5", "9.5", "70"},
		{"G-1", "Tape", "13.5", "9.5", "70"},
		{"F-2", "Ferrule", "13.8", "9.35", "19"},
	}, false)}}
	cat := Read([]Input{{Book: book}}, Options{})
	var parts []string
	for _, h := range cat.Heads {
		parts = append(parts, h.Part)
	}
	for _, f := range cat.Ferrules {
		parts = append(parts, f.Part)
	}
	if diff := cmp.Diff([]string{"H-1", "H-2", "F-1", "F-2"}, parts); diff != "" {
		t.Errorf("parts (-want +got):\n%s", diff)
	}
	rows := map[int]int{}
	for _, table := range cat.Tables {
		for _, row := range table.Rows {
			rows[row.Row]++
		}
	}
	if diff := cmp.Diff(map[int]int{1: 1, 2: 1, 3: 1, 4: 1, 5: 1, 6: 1, 7: 1}, rows); diff != "" {
		t.Errorf("how often each row is counted (-want +got):\n%s", diff)
	}
	all := cat.Findings
	for _, table := range cat.Tables {
		all = append(all, table.Findings...)
	}
	if !hasFinding(all, "data.other-goods", 6) {
		t.Errorf("nothing is said of the tape in row 6: %v", all)
	}
}

func hasFinding(all finding.List, code string, row int) bool {
	for _, f := range all {
		if f.Code == code && f.Place.Row == row {
			return true
		}
	}
	return false
}
