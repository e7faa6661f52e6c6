package finding_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/finding"
)

func at(cell string) finding.Place {
	row, err := strconv.Atoi(strings.TrimLeft(cell, "ABC"))
	if err != nil {
		panic(err)
	}
	return finding.Place{File: "rings.csv", Row: row, Cell: cell}
}

func ranged(cells string, row int) finding.Place {
	return finding.Place{File: "rings.csv", Row: row, Cell: cells}
}

func TestByCause(t *testing.T) {
	list := finding.List{
		{Severity: finding.Warning, Code: "data.unit", Place: at("B2"), Message: "13.4 taken as mm", Settle: "rows.2.bore", Cause: "mm for in"},
		{Severity: finding.Error, Code: "data.unit", Place: at("B3"), Message: "another severity", Cause: "mm for in"},
		{Severity: finding.Warning, Code: "data.unit", Place: at("B4"), Message: "13.5 taken as mm", Settle: "rows.4.bore", Cause: "mm for in"},
		{Severity: finding.Warning, Code: "data.unit", Place: at("B5"), Message: "13.6 taken as mm", Settle: "rows.5.bore", Cause: "mm for in"},
		{Severity: finding.Warning, Code: "data.unit", Place: at("C5"), Message: "13.6 taken as mm", Settle: "rows.5.base_od", Cause: "another"},
		{Severity: finding.Warning, Code: "data.unit", Place: at("B7"), Message: "13.7 taken as mm", Settle: "rows.7.bore", Cause: "mm for in"},
		{Severity: finding.Note, Code: "data.total", Place: at("A9"), Message: "no cause"},
		{Severity: finding.Note, Code: "data.total", Place: at("A10"), Message: "no cause"},
	}
	got := list.ByCause()
	var messages []string
	for _, f := range got {
		messages = append(messages, f.Message)
	}
	want := []string{"13.4 taken as mm; 4 in all", "another severity", "13.6 taken as mm", "no cause", "no cause"}
	if diff := cmp.Diff(want, messages); diff != "" {
		t.Errorf("sentences (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]finding.Place{ranged("B4:B5", 4), at("B7")}, got[0].Related); diff != "" {
		t.Errorf("the other cells (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]finding.Place{at("B2"), at("B4"), at("B5"), at("B7")}, got[0].Places()); diff != "" {
		t.Errorf("each cell (-want +got):\n%s", diff)
	}
	var keys []string
	for _, f := range got.Each() {
		keys = append(keys, f.Settle)
	}
	if diff := cmp.Diff([]string{"rows.2.bore", "", "rows.4.bore", "rows.5.bore", "rows.5.base_od", "rows.7.bore", "", ""}, keys); diff != "" {
		t.Errorf("the keys of each, by their places (-want +got):\n%s", diff)
	}
}

func TestRangesStayInTheirColumn(t *testing.T) {
	var list finding.List
	for _, place := range []finding.Place{at("A1"), at("B2"), at("C3"), at("C4"), at("C5"), {File: "rings.csv", Row: 6}, at("AA9"), at("AA10"), at("B11")} {
		list.Add(finding.Finding{Severity: finding.Note, Code: "data.unit", Place: place, Message: "no unit", Cause: "no unit"})
	}
	want := []finding.Place{at("B2"), ranged("C3:C5", 3), {File: "rings.csv", Row: 6}, ranged("AA9:AA10", 9), at("B11")}
	if diff := cmp.Diff(want, list.ByCause()[0].Related); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
