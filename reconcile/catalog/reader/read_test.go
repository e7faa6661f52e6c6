package reader_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// grid makes a sheet of a text: lines by line breaks, cells by |, spaces about them dropped. A cell that is a plain
// decimal number is a number, as in a workbook. "<" merges a cell with the one to its left, "^" with the one above.
func grid(name, text string) *sheet.Sheet {
	s := &sheet.Sheet{Name: name}
	for line := range strings.SplitSeq(strings.Trim(text, "\n"), "\n") {
		var row []*sheet.Cell
		for cell := range strings.SplitSeq(line, "|") {
			row = append(row, cellOf(strings.TrimSpace(cell)))
		}
		s.Rows = append(s.Rows, row)
	}
	merge(s)
	return s
}

func cellOf(text string) *sheet.Cell {
	switch {
	case text == "":
		return sheet.BlankCell
	case strings.Trim(text, "0123456789.") == "" && strings.Count(text, ".") < 2 && text != ".":
		return &sheet.Cell{Kind: sheet.Number, Raw: text, Shown: text}
	case strings.HasPrefix(text, "#") && strings.HasSuffix(text, "!"):
		return &sheet.Cell{Kind: sheet.Error, Raw: text, Shown: text}
	}
	return &sheet.Cell{Kind: sheet.Text, Raw: text, Shown: text}
}

// merge makes merged ranges of the marks "<" and "^".
func merge(s *sheet.Sheet) {
	for r := range s.Rows {
		for c := range s.Rows[r] {
			from := sheet.Ref{Row: r + 1, Col: c + 1}
			right, down := c, r
			for right+1 < len(s.Rows[r]) && s.Rows[r][right+1].Raw == "<" {
				right++
				s.Rows[r][right] = sheet.BlankCell
			}
			for down+1 < len(s.Rows) && c < len(s.Rows[down+1]) && s.Rows[down+1][c].Raw == "^" {
				down++
				s.Rows[down][c] = sheet.BlankCell
			}
			if right > c || down > r {
				s.Merges = append(s.Merges, sheet.Range{From: from, To: sheet.Ref{Row: down + 1, Col: right + 1}})
			}
		}
	}
}

func book(file string, sheets ...*sheet.Sheet) *sheet.Book {
	return &sheet.Book{File: file, Format: "test", Sheets: sheets}
}

// read reads sheets of one file and checks the law of the ledger on them.
func read(t *testing.T, sheets ...*sheet.Sheet) *catalog.Catalogue {
	t.Helper()
	return readInputs(t, reader.Options{}, reader.Input{Book: book("orrin.xlsx", sheets...)})
}

func readInputs(t *testing.T, opts reader.Options, inputs ...reader.Input) *catalog.Catalogue {
	t.Helper()
	c := reader.Read(inputs, opts)
	checkLedger(t, c, inputs)
	if t.Failed() {
		t.Log("\n" + explain(c))
	}
	return c
}

// checkLedger checks that every source row of every sheet is counted, exactly once by each table that covers it, and by
// one table at least; and that each ledger adds up.
func checkLedger(t *testing.T, c *catalog.Catalogue, inputs []reader.Input) {
	t.Helper()
	for _, input := range inputs {
		for _, s := range input.Book.Sheets {
			covered := map[int]bool{}
			for _, table := range c.Tables {
				if table.File == input.Book.File && table.Sheet == s.Name {
					for _, row := range tableRows(t, table) {
						covered[row] = true
					}
				}
			}
			for row := 1; row <= lastRow(s); row++ {
				if !covered[row] {
					t.Errorf("%s: row %d is in no ledger", s.Name, row)
				}
			}
		}
	}
}

// tableRows checks a table's ledger and returns the source rows that it accounts for.
func tableRows(t *testing.T, table catalog.Table) []int {
	t.Helper()
	l := table.Ledger
	if l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
		t.Errorf("%s %s: the ledger does not add up: %+v", table.Sheet, table.Range, l)
	}
	lines := map[int]bool{}
	for _, row := range table.Rows {
		lines[row.Row] = true
	}
	if len(lines) != l.Rows {
		t.Errorf("%s %s: %d rows listed, %d counted", table.Sheet, table.Range, len(lines), l.Rows)
	}
	if table.Range == "" {
		return slices.Collect(maps.Keys(lines))
	}
	area, err := sheet.ParseRange(table.Range)
	if err != nil {
		t.Fatal(err)
	}
	height, width := area.To.Row-area.From.Row+1, area.To.Col-area.From.Col+1
	if l.Rows != height && l.Rows != width {
		t.Errorf("%s %s: the range has %d rows and %d columns, the ledger %d", table.Sheet, table.Range, height, width, l.Rows)
	}
	var rows []int
	for row := area.From.Row; row <= area.To.Row; row++ {
		rows = append(rows, row)
	}
	return rows
}

func lastRow(s *sheet.Sheet) int {
	last := 0
	for i, row := range s.Rows {
		for _, cell := range row {
			if cell.Kind != sheet.Blank || cell.Formula != "" {
				last = i + 1
			}
		}
	}
	return last
}

// explain writes a catalogue for a person who looks for a fault.
func explain(c *catalog.Catalogue) string {
	var b strings.Builder
	for _, table := range c.Tables {
		fmt.Fprintf(&b, "%s %s %s %+v heading %v\n", table.Sheet, table.Range, table.Kind, table.Ledger, table.HeadingRows)
		for _, col := range table.Columns {
			fmt.Fprintf(&b, "  %s %q -> %s [%s] %s | %s\n", col.Column, col.Heading, col.Role, col.Unit, col.Evidence, col.RunnerUp)
		}
		for _, row := range table.Rows {
			fmt.Fprintf(&b, "  %s\n", rowText(row))
		}
	}
	for _, f := range c.Findings {
		fmt.Fprintf(&b, "%v %s %v: %s (%s)\n", f.Severity, f.Code, f.Place, f.Message, f.Settle)
	}
	return b.String()
}

// rowText writes a row on one line.
func rowText(row catalog.Row) string {
	text := fmt.Sprintf("%d %s %s", row.Row, row.Outcome, row.Part)
	fields := maps.Collect(row.Fields.All())
	for _, role := range slices.Sorted(maps.Keys(fields)) {
		f := fields[role]
		switch {
		case role == catalog.Part:
		case f.Dim.HasLimits():
			text += fmt.Sprintf(" %s=%g[%g..%g]", role, f.Dim.Nominal().Millimetres(), f.Dim.Lower().Millimetres(), f.Dim.Upper().Millimetres())
		case f.Dim.Given():
			text += fmt.Sprintf(" %s=%g", role, f.Dim.Nominal().Millimetres())
		case !f.Angle.IsZero():
			text += fmt.Sprintf(" %s=%gdeg", role, f.Angle.Degrees())
		default:
			text += fmt.Sprintf(" %s=%q", role, f.Text)
		}
	}
	if row.Outcome != catalog.Used && row.Why != "" {
		text += " (" + row.Why + ")"
	}
	for _, a := range row.Assumptions {
		text += " {" + a + "}"
	}
	for _, role := range row.Open {
		text += fmt.Sprintf(" {open %s}", role)
	}
	return text
}

// sizes are the expected sizes of a part in mm by role.
type sizes map[catalog.Role]float64

// wantOpen checks of which roles a row leaves the value open.
func wantOpen(t *testing.T, c *catalog.Catalogue, part string, roles ...catalog.Role) {
	t.Helper()
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if row.Part == part && !slices.Equal(row.Open, roles) {
				t.Errorf("%s: open is %v, want %v", part, row.Open, roles)
			}
		}
	}
}

// wantRow checks one row: its outcome and the sizes that it gives, to the micrometre.
func wantRow(t *testing.T, c *catalog.Catalogue, part string, outcome catalog.Outcome, want sizes) {
	t.Helper()
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if row.Part != part {
				continue
			}
			if row.Outcome != outcome {
				t.Errorf("%s: outcome %s, want %s", part, row.Outcome, outcome)
			}
			for role, size := range want {
				got := row.Fields.Get(role).Dim
				if size == 0 && got.Given() {
					t.Errorf("%s: %s = %v, want none", part, role, got)
				}
				if size != 0 && (!got.Given() || absolute(got.Nominal().Millimetres()-size) > 1e-6) {
					t.Errorf("%s: %s = %v, want %g mm", part, role, got, size)
				}
			}
			return
		}
	}
	t.Errorf("no row for %s", part)
}

func absolute(x float64) float64 { return max(x, -x) }

// wantFinding checks that there is a finding of a code, at a cell where one is given, that says some words.
func wantFinding(t *testing.T, c *catalog.Catalogue, code, cell, words string) {
	t.Helper()
	for _, f := range c.Findings {
		if f.Code == code && (cell == "" || f.Place.Cell == cell) && strings.Contains(f.Message, words) {
			return
		}
	}
	t.Errorf("no finding %s at %q with %q", code, cell, words)
}

func wantNoErrors(t *testing.T, c *catalog.Catalogue) {
	t.Helper()
	for _, f := range c.Findings {
		if f.Severity == finding.Error {
			t.Errorf("unexpected: %s at %s: %s", f.Code, f.Place, f.Message)
		}
	}
}

func show(t *testing.T, c *catalog.Catalogue) {
	t.Helper()
	if t.Failed() {
		t.Log("\n" + explain(c))
	}
}
