package reader_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// TestOpenIsNotAbsent keeps the form of a part whose sizes cannot be read: what cannot be read is there.
func TestOpenIsNotAbsent(t *testing.T) {
	for cells, want := range map[string]fitcalc.Style{
		"#REF! | #REF! | | ":       fitcalc.Collared,
		"10.2 | #REF! | | ":        fitcalc.Collared,
		"see drawing?5 | | | ":     fitcalc.Collared,
		" | | #REF! | 3":           fitcalc.Stepped,
		" | | 11 | #VALUE!":        fitcalc.Stepped,
		"- | - | - | -":            fitcalc.StyleUnknown,
		"10.2 | 1.5 | | ":          fitcalc.Collared,
		" | | | ":                  fitcalc.StyleUnknown,
		"#REF! | #REF! | 11 | 3.0": fitcalc.Stepped,
	} {
		c := read(t, grid("Ferrules", "\nPart No | Bore (mm) | Base OD (mm) | Length (mm) | Collar OD (mm) | Collar length (mm) | Step OD (mm) | Step length (mm)\n"+
			"WT-1 | 9.35 | 13.6 | 19 | "+cells+"\nWT-2 | 9.35 | 13.6 | 19 | 10.2 | 1.5 | | \nWT-3 | 9.35 | 13.6 | 19 | | | 11 | 3\n"))
		got := c.Ferrules[0]
		if got.Part != "WT-1" || got.Ferrule.Style != want || !got.Ferrule.BaseOD.Given() {
			t.Errorf("%s: %s is %v, want %v", cells, got.Part, got.Ferrule.Style, want)
		}
	}
	for cells, want := range map[string]fitcalc.TopForm{"#REF! | ": fitcalc.TopCountersunk, " | #REF!": fitcalc.TopCounterbored, " | ": fitcalc.TopUnknown} {
		c := read(t, grid("Heads", "\nPart No | Hosel OD (mm) | Bore (mm) | Countersink mouth (mm) | Counterbore (mm)\nHT-1 | 13.6 | 9.5 | "+cells+"\nHT-2 | 13.6 | 9.5 | 11 | 12\n"))
		if got := c.Heads[0]; got.Head.Top != want {
			t.Errorf("%s: %v, want %v", cells, got.Head.Top, want)
		}
	}
}

// TestWhatHoldsARow spoils one cell after the other: the part and the size that everything hangs on hold the row, any other is left open.
func TestWhatHoldsARow(t *testing.T) {
	for _, c := range []struct {
		row     string
		outcome catalog.Outcome
		open    []catalog.Role
	}{
		{"HW-1 | #REF! | 9.5 | 32", catalog.Held, nil},
		{" | 13.6 | 9.5 | 32", catalog.Held, nil},
		{"HW-1 | 13.6 | #REF! | 32", catalog.Used, []catalog.Role{catalog.Bore}},
		{"HW-1 | 13.6 | 9.5 | 320", catalog.Used, []catalog.Role{catalog.BoreDepth}},
		{"HW-1 | 13.6 | 95 | 320", catalog.Used, []catalog.Role{catalog.Bore, catalog.BoreDepth}},
	} {
		got := read(t, grid("Heads", "\nPart No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)\n"+c.row+"\nHW-2 | 13.6 | 9.5 | 32\n"))
		row := got.Tables[0].Rows[1]
		if row.Outcome != c.outcome || len(row.Open) != len(c.open) {
			t.Errorf("%s: %v, open %v (%s), want %v, %v", c.row, row.Outcome, row.Open, row.Why, c.outcome, c.open)
		}
		if open := got.Tables[0].Ledger.Open; (open == 1) != (len(c.open) > 0) {
			t.Errorf("%s: the account has %d open rows", c.row, open)
		}
	}
}

// A size that a cell says is not stated is left open, in the row and in the account; one that the part has not, or that is not spoken of,
// is not.
func TestUnknownIsOpen(t *testing.T) {
	for cell, open := range map[string]bool{"tbd": true, "see drawing": true, "auf Anfrage": true, "?": true, "要確認": true, "-": false, "n/a": false, "": false} {
		c := read(t, grid("Heads", "\nPart No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)\nHU-1 | 13.6 | 9.5 | "+cell+"\nHU-2 | 13.6 | 9.5 | 32\nHU-3 | 13.6 | 9.5 | 33\n"))
		row, account := c.Tables[0].Rows[1], c.Tables[0].Ledger
		if row.Outcome != catalog.Used || slices.Contains(row.Open, catalog.BoreDepth) != open {
			t.Errorf("%q: %v, open %v", cell, row.Outcome, row.Open)
		}
		if (account.Open == 1) != open || strings.Contains(account.String(), "1 with values left open") != open {
			t.Errorf("%q: the account says %v", cell, account)
		}
	}
}

// What one row of a part says is not stated, and another states, is not open: it is taken from that, and said.
func TestUnknownInOneRow(t *testing.T) {
	const heading, unknown, stated = "\nPart No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)\n", "HU-1 | 13.6 | tbd | 32\n", "HU-1 | 13.6 | 9.5 | 32\n"
	for _, rows := range []string{unknown + stated, stated + unknown} {
		c := read(t, grid("Heads", heading+rows+"HU-2 | 13.5 | 9.5 | 33\n"))
		if len(c.Heads) != 2 || c.Heads[0].Head.Bore.Nominal() != measure.Micrometres(9500) || c.Tables[0].Ledger.Open != 0 {
			t.Errorf("%s: %d heads, the first with bore %v, account %v", rows, len(c.Heads), c.Heads[0].Head.Bore, c.Tables[0].Ledger)
		}
		if taken := rows == unknown+stated; len(c.Heads[0].Assumptions) > 0 != taken {
			t.Errorf("%s: assumptions %q", rows, c.Heads[0].Assumptions)
		}
	}
}

// TestAPersonsUnitWins lets what the mapping file says go before a heading, a column of units and what the joint allows.
func TestAPersonsUnitWins(t *testing.T) {
	for name, table := range map[string]string{
		"heading":          "Part No | Hosel OD (in) | Bore (mm) | Bore depth (mm)\nPW-1 | 13.6 | 9.5 | 32\nPW-2 | 13.4 | 9.5 | 32",
		"column of units":  "Part No | Hosel OD | Unit | Bore depth (mm)\nPW-1 | 13.6 | in | 32\nPW-2 | 13.4 | in | 32",
		"nothing says so":  "Part No | Hosel OD | Bore (mm) | Bore depth (mm)\nPW-1 | 13.6 | 9.5 | 32\nPW-2 | 13.4 | 9.5 | 32",
		"the other column": "Part No | Hosel OD | Bore (in) | Bore depth (in)\nPW-1 | 13.6 | .373 | 1.25\nPW-2 | 13.4 | .373 | 1.25",
	} {
		book := &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{grid("Heads", "\n"+table+"\n")}}
		rules := map[string]catalog.SheetRules{"Heads": {Columns: map[string]catalog.ColumnRule{"B": {Unit: "mm"}}}}
		c := reader.Read([]reader.Input{{Book: book, Kind: catalog.Heads}}, reader.Options{Map: catalog.Mapping{Sheets: rules}})
		wantRow(t, c, "PW-1", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.BoreDepth: map[bool]float64{false: 32, true: 31.75}[name == "the other column"]})
		if t.Failed() {
			t.Log(name, explain(c))
			return
		}
	}
	// What cannot be is reported, and used as the person says.
	book := &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{grid("Heads", "\nPart No | Hosel OD (mm) | Neck length (mm)\nPW-1 | 13.6 | 60\nPW-2 | 13.4 | 60\n")}}
	rules := map[string]catalog.SheetRules{"Heads": {Columns: map[string]catalog.ColumnRule{"C": {Unit: "in"}}}}
	c := reader.Read([]reader.Input{{Book: book, Kind: catalog.Heads}}, reader.Options{Map: catalog.Mapping{Sheets: rules}})
	for _, f := range c.Findings {
		if f.Place.Cell == "C1" && f.Severity == finding.Error {
			t.Errorf("a person's word is held: %s", f.Message)
		}
	}
}

// TestAPersonsUnitOfASheet lets the unit that a person gives a whole sheet go before a heading only where the sizes cannot be in that of the
// heading: otherwise it is for the columns that say nothing else.
func TestAPersonsUnitOfASheet(t *testing.T) {
	book := &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{grid("Heads", `
Part No | Hosel OD (in) | Bore (in) | Bore depth
PW-1 | 13.6 | .373 | 32
PW-2 | 13.4 | .373 | 32
PW-3 | 13.5 | .373 | 30
`)}}
	rules := map[string]catalog.SheetRules{"Heads": {Unit: "mm"}}
	c := reader.Read([]reader.Input{{Book: book, Kind: catalog.Heads}}, reader.Options{Map: catalog.Mapping{Sheets: rules}})
	defer show(t, c)
	wantRow(t, c, "PW-1", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.4742, catalog.BoreDepth: 32})
	wantFinding(t, c, "data.unit", "B1", "the mapping file mm, which is used")
	wantNoErrors(t, c)
}
