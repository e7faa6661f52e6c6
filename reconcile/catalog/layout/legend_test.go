package layout

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestShortForms looks at which short forms are explained one by one, and head a column.
func TestShortForms(t *testing.T) {
	heading := []string{"Ref", "Hosel OD", "HL", "Bore"}
	for note, want := range map[string]map[string]string{
		"all in mm. HL = hosel length, from the top": {"HL": "hosel length"},
		"HL=bore depth":             {"HL": "bore depth"},
		"HL = heel lie":             {},
		"L = hosel length":          {}, // heads none
		"HX = hosel length":         {}, // heads none
		"HL is short":               {},
		"HL = 65":                   {},
		"Ref = number of the model": {},
	} {
		got := shortForms(grid.New(sheettest.Texts("text", [][]string{{note}, heading, {"X-1", "13.6", "65", "9.5"}}, false)), lexicon.New(nil))
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", note, diff)
		}
	}
	// The first line with it is one of values.
	if got := shortForms(grid.New(sheettest.Texts("text", [][]string{{"HL = hosel length"}, {"X-1", "HL", "13.6"}, heading}, false)), lexicon.New(nil)); len(got) > 0 {
		t.Error(got)
	}
}

// TestLettersWithSigns looks at letters of a drawing beside the sign of a diameter or something in brackets.
func TestLettersWithSigns(t *testing.T) {
	for heading, want := range map[string]string{
		"B":          "bore [B]",
		"Ø B":        "Ø bore [B]",
		"øB":         "Ø bore [B]",
		"B (mm)":     "bore (mm) [B]",
		"⌀ B [min]":  "Ø bore [min] [B]",
		"B（mm）":      "bore （mm） [B]",
		"B side":     "B side",
		"(B)":        "(B)",
		"Ø BC (max)": "Ø BC (max)",
	} {
		g := grid.New(sheettest.Texts("text", [][]string{{"A = hosel OD; B = bore; C = bore depth"}, {"Ref", "A", heading, "C"}, {"X-1", "13.6", "9.5", "32"}}, false))
		ExplainLetters(lexicon.New(nil), []*grid.Grid{g})
		if got := g.At(2, 3); got != want {
			t.Errorf("%q: %q, want %q", heading, got, want)
		}
	}
}
