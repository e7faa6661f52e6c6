package reader_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// marked is a sheet of heads in which ~ strikes a cell out.
func marked(text string, comments map[string]string) *sheet.Sheet {
	s := grid("Heads", text)
	for r, row := range s.Rows {
		for c, cell := range row {
			if len(cell.Raw) > 0 && cell.Raw[0] == '~' {
				s.Strike(sheet.Ref{Row: r + 1, Col: c + 1}, cell.Raw[1:])
				row[c] = sheet.StruckCell
			}
		}
	}
	for at, text := range comments {
		ref, err := sheet.ParseRef(at)
		if err != nil {
			panic(err)
		}
		s.Comment(ref, text)
	}
	return s
}

// outcomes says of each row of the first table what became of it and the hosel OD that was read.
func outcomes(c *catalog.Catalogue) []string {
	var all []string
	for _, row := range c.Tables[0].Rows {
		all = append(all, fmt.Sprintf("%d %v %s %s %s", row.Row, row.Outcome, row.Part, row.Fields.Dim(catalog.HoselOD), row.Why))
	}
	return all
}

// of returns the findings of a code as severity and cell, with the cells that they speak of besides.
func of(c *catalog.Catalogue, code string) []string {
	var all []string
	for _, f := range c.Findings {
		if f.Code == code {
			text := fmt.Sprint(f.Severity, " ", f.Place.Row, " ", f.Place.Cell)
			for _, also := range f.Related {
				text += fmt.Sprint(", ", also.Row, " ", also.Cell)
			}
			all = append(all, text)
		}
	}
	return all
}

func TestStruckOut(t *testing.T) {
	c := read(t, marked(`
Part no. | Hosel OD mm | Bore mm | Hosel length mm
HX-1     | 13.6        | 9.5     | 60
~HX-2    | ~13.6       | ~9.5    | ~60
HX-3     | 13.7        | ~9.5    | 60
~HX-4    | 13.7        | 9.5     | 60
HX-5     | 13.8        | 9.5     | 60`, nil))
	want := []string{"1 set_aside  not given heading", "2 used HX-1 13.6 mm ", "3 set_aside  not given struck out", "4 used HX-3 13.7 mm ", "5 set_aside  not given struck out", "6 used HX-5 13.8 mm "}
	if diff := cmp.Diff(want, outcomes(c)); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"warning 3 , 5 ", "warning 4 C4"}, of(c, "data.struck")); diff != "" {
		t.Error(diff)
	}
}

// TestRaisedFigures reads marks of footnotes behind sizes and part numbers, which are no figures of them.
func TestRaisedFigures(t *testing.T) {
	c := read(t, marked("Part no. | Hosel OD mm | Bore mm\nHX-1 | 13.6¹ | 9.5\nHX-2² | 13.7 | 9.5²⁾", nil))
	want := []string{"1 set_aside  not given heading", "2 assumed HX-1 13.6 mm ", "3 assumed HX-2 13.7 mm "}
	if diff := cmp.Diff(want, outcomes(c)); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"note 3 A3"}, of(c, "data.part-number")); diff != "" {
		t.Error(diff)
	}
}

// TestComments gives comments to the cells of a list, in several languages: those that speak of a size ask about the cell that they stand at.
func TestComments(t *testing.T) {
	const list = `
Part no. | Hosel OD mm | Bore mm | Hosel length mm | Remarks
HX-1     | 13.6        | 9.5     | 60              | a
HX-2     | 13.7        | 9.5     | 60              | b
HX-3     | 13.8        | 9.5     | 60              | c`
	asks := map[string]string{
		"B2": "X:\nnow 13.9", "B3": "neues Maß ab 2027", "C3": "dès 2027 : 9,6", "D4": "60.5 mm?", "B4": "変更あり",
	}
	for at, text := range asks {
		c := read(t, marked(list, map[string]string{at: text}))
		if diff := cmp.Diff([]string{fmt.Sprintf("error %c %s", at[1], at)}, of(c, "data.comment")); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
		row := c.Tables[0].Rows[at[1]-'1']
		if held := row.Outcome == catalog.Held; held != (at[0] == 'B') || !held && len(row.Open) != 1 {
			t.Errorf("%s: %v, open %v", text, row.Outcome, row.Open)
		}
	}
	// What only says the same, or nothing of a size, holds nothing.
	for at, text := range map[string]string{
		"B2": "13.6 mm, as measured", "B3": "X. 2026-11-03 10:15", "C4": "see drawing 4711", "E2": "lovely finish", "D3": ".",
	} {
		c := read(t, marked(list, map[string]string{at: text}))
		if diff := cmp.Diff([]string{fmt.Sprintf("note %c %s", at[1], at)}, of(c, "data.comment")); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
		if l := c.Tables[0].Ledger; l.Used != 3 || l.Open != 0 {
			t.Errorf("%s: %v", text, l)
		}
	}
	// A size beside a cell that is none is a warning; the row is used.
	c := read(t, marked(list, map[string]string{"A2": "hosel 13.9 mm from 2027", "B1": "before polishing ±0.05 mm"}))
	if diff := cmp.Diff([]string{"warning 1 B1", "warning 2 A2"}, of(c, "data.comment")); diff != "" {
		t.Error(diff)
	}
	if l := c.Tables[0].Ledger; l.Used != 3 {
		t.Errorf("%v", l)
	}
}

// TestCommentIsAnswered answers the question that a comment raised, by the key that the finding names.
func TestCommentIsAnswered(t *testing.T) {
	s := marked("Part no. | Hosel OD mm | Bore mm\nHX-1 | 13.6 | 9.5\nHX-2 | 13.7 | 9.5", map[string]string{"B2": "new size 13.9"})
	c := read(t, s)
	at := slices.IndexFunc(c.Findings, func(f finding.Finding) bool { return f.Code == "data.comment" })
	if at < 0 || c.Findings[at].Settle != `sheets."Heads".rows.2.hosel_od` {
		t.Fatalf("%v", c.Findings)
	}
	opts := reader.Options{Map: catalog.Mapping{Sheets: map[string]catalog.SheetRules{
		"Heads": {Rows: map[string]catalog.RowRule{"2": {Values: map[catalog.Role]string{catalog.HoselOD: "13.9 mm"}}}},
	}}}
	c = readInputs(t, opts, reader.Input{Book: book("orrin.xlsx", s)})
	if got := of(c, "data.comment"); len(got) != 0 || c.Tables[0].Rows[1].Outcome != catalog.Assumed {
		t.Errorf("%v, %v", got, c.Tables[0].Rows[1])
	}
}
