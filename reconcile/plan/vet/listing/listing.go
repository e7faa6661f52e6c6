// Package listing reads the light sheets of a bench: caliper readings of samples. They have a column of part numbers and columns of
// readings, and nothing else needs to be understood.
//
// # Readings
//
// Every column beside the part numbers that holds sizes is read. Its heading may say what was measured ("Base OD 1 (mm)"), and so may a
// column of words ("measured: base OD"); where neither does, it is the hosel OD of heads and the base OD of ferrules. The unit stands in
// the cell, in a column of units, in the heading, or in a line above; a number without a unit is not used.
//
// # Ledger
//
// Every row of a sheet is used, held, or set aside, and the findings say why a row is held, with its cell.
package listing

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// Ledger counts the rows of sheets. Rows is always the sum of the others.
type Ledger struct {
	Rows     int `json:"rows"`
	Used     int `json:"used"`
	Held     int `json:"held"`
	SetAside int `json:"set_aside"`
}

// Reading is one caliper reading of one piece.
type Reading struct {
	Part string
	// Role is what was measured.
	Role  catalog.Role
	Size  measure.Length
	Place finding.Place
}

// Readings are all readings of a book.
type Readings struct {
	Readings []Reading
	Ledger   Ledger
	Findings finding.List
}

// role of a column of a light sheet.
type use uint8

const (
	unused use = iota
	parts
	numbers
	whats // says what was measured
	units
)

// column is one column of a light sheet.
type column struct {
	use     use
	at      int
	heading string
	unit    string
	role    catalog.Role
}

// table is a light sheet with its heading found.
type table struct {
	file    string
	sheet   *sheet.Sheet
	heading int // index of its row
	columns []column
	unit    string // named above the heading
	words   *words.Vocabulary
	kind    catalog.Kind
}

// partScore is from where a heading says that a column holds part numbers.
const partScore = 0.6

// find looks for the heading: the first row with a cell for part numbers and another that is filled.
func find(file string, s *sheet.Sheet, kind catalog.Kind) (*table, bool) {
	t := &table{file: file, sheet: s, words: words.Load(), kind: kind}
	for i, row := range s.Rows {
		filled := 0
		for _, c := range row {
			if text(c) != "" {
				filled++
			}
		}
		at := slices.IndexFunc(row, func(c *sheet.Cell) bool { return t.roleOf(text(c)) == catalog.Part })
		if at >= 0 && filled > 1 {
			t.heading = i
			t.describe(row, at)
			return t, true
		}
		for _, c := range row {
			if found := t.words.Units(text(c)); len(found) == 1 && catalog.IsLengthUnit(found[0].Value) {
				t.unit = found[0].Value
			}
		}
	}
	return nil, false
}

func text(c *sheet.Cell) string { return strings.TrimSpace(c.Shown) }

// roleOf is what a heading says, empty where it says nothing for certain.
func (t *table) roleOf(heading string) catalog.Role {
	if matches := t.words.MatchIn(t.kind.String(), heading); len(matches) > 0 && matches[0].Score >= partScore {
		return catalog.Role(matches[0].Role)
	}
	return ""
}

// sizes are the roles that can be measured with calipers.
var sizes = map[catalog.Kind][]catalog.Role{
	catalog.Heads: {
		catalog.HoselOD, catalog.Bore, catalog.BoreDepth, catalog.HoselLength, catalog.CountersinkMouth, catalog.CountersinkDepth,
		catalog.CounterboreOD, catalog.CounterboreDepth, catalog.AdapterOD,
	},
	catalog.Ferrules: {
		catalog.BaseOD, catalog.Bore, catalog.TopOD, catalog.Length, catalog.CollarOD, catalog.CollarLength, catalog.StepOD, catalog.StepLength,
	},
	catalog.Tips: {catalog.TipOD},
}

// usual is what is measured where nothing says it.
var usual = map[catalog.Kind]catalog.Role{catalog.Heads: catalog.HoselOD, catalog.Ferrules: catalog.BaseOD, catalog.Tips: catalog.TipOD}

func (t *table) describe(row []*sheet.Cell, partAt int) {
	for at, c := range row {
		heading := text(c)
		col := column{at: at, heading: heading}
		rest, unit, _ := t.words.SplitUnit(heading)
		col.unit = unit
		stem := strings.TrimSpace(strings.TrimRight(rest, "0123456789.# "))
		role := t.roleOf(stem)
		switch {
		case at == partAt:
			col.use = parts
		case heading == "":
		case role == catalog.UnitRole:
			col.use = units
		case slices.Contains(sizes[t.kind], role):
			col.use, col.role = numbers, role
		case t.says(at):
			col.use = whats
		case isReading(stem):
			col.use = numbers
		case role == "" && t.numeric(at):
			col.use = numbers
		}
		t.columns = append(t.columns, col)
	}
}

// readingWords begin the headings of readings, in the languages of the vocabulary. They are plain words and no finer grammar is needed:
// any column of numbers without another meaning is taken as well.
var readingWords = []string{"reading", "measured", "measurement", "sample", "piece", "meas", "messwert", "gemessen", "stück", "mesure", "medida", "medición", "misura", "測定", "측정", "测量", "測量", "实测", "實測"}

func isReading(stem string) bool {
	stem = strings.ToLower(stem)
	return slices.ContainsFunc(readingWords, func(word string) bool { return strings.HasPrefix(stem, word) })
}

// numeric reports whether most filled cells of a column hold digits.
func (t *table) numeric(at int) bool {
	with, filled := 0, 0
	for _, row := range t.body() {
		if s := text(cellAt(row, at)); s != "" {
			filled++
			if strings.ContainsAny(s, "0123456789") {
				with++
			}
		}
	}
	return with*2 > filled
}

// says reports whether the cells of a column say what was measured.
func (t *table) says(at int) bool {
	known, filled := 0, 0
	for _, row := range t.body() {
		if s := text(cellAt(row, at)); s != "" {
			filled++
			if slices.Contains(sizes[t.kind], t.roleOf(s)) {
				known++
			}
		}
	}
	return filled > 0 && known*2 > filled
}

func (t *table) body() [][]*sheet.Cell { return t.sheet.Rows[t.heading+1:] }

func cellAt(row []*sheet.Cell, at int) *sheet.Cell {
	if at < 0 || at >= len(row) {
		return sheet.BlankCell
	}
	return row[at]
}

func (t *table) first(u use) int {
	at := slices.IndexFunc(t.columns, func(c column) bool { return c.use == u })
	if at < 0 {
		return -1
	}
	return t.columns[at].at
}

// place is a cell of the body, or its row where at is below zero.
func (t *table) place(i, at int) finding.Place {
	p := finding.Place{File: t.file, Sheet: t.sheet.Name, Row: t.heading + i + 2}
	if at >= 0 {
		p.Cell = sheet.Ref{Row: p.Row, Col: at + 1}.String()
	}
	return p
}

// isEmpty reports whether a row has nothing in it, and isRemark whether it has only its first filled cell.
func isEmpty(row []*sheet.Cell) bool {
	return !slices.ContainsFunc(row, func(c *sheet.Cell) bool { return text(c) != "" })
}

func isRemark(row []*sheet.Cell) bool {
	filled := 0
	for _, c := range row {
		if text(c) != "" {
			filled++
		}
	}
	return filled == 1
}

// none reports that no sheet of a book has a column of part numbers and one of numbers.
func none(b *sheet.Book, findings *finding.List) {
	findings.Add(finding.Finding{
		Severity: finding.Error, Code: "layout.no-table", Place: finding.Place{File: b.File},
		Message: "no sheet has a heading for part numbers with columns of numbers beside it; call the columns part and reading 1, reading 2 and so on",
	})
}

// ReadReadings reads caliper readings of the parts of a kind.
func ReadReadings(b *sheet.Book, kind catalog.Kind) Readings {
	var r Readings
	found := false
	for _, s := range b.Sheets {
		r.Ledger.Rows += len(s.Rows)
		t, ok := find(b.File, s, kind)
		if !ok || t.first(numbers) < 0 {
			r.Ledger.SetAside += len(s.Rows)
			continue
		}
		found = true
		r.Ledger.SetAside += t.heading + 1
		for i, row := range t.body() {
			r.row(t, i, row)
		}
	}
	if !found {
		none(b, &r.Findings)
	}
	r.Findings.Sort()
	return r
}

// row reads one row. It is held where nothing of it can be used.
func (r *Readings) row(t *table, i int, row []*sheet.Cell) {
	part := text(cellAt(row, t.first(parts)))
	fail := func(at int, code, format string, args ...any) {
		r.Findings.Add(finding.Finding{Severity: finding.Error, Code: code, Place: t.place(i, at), Message: fmt.Sprintf(format, args...)})
	}
	switch {
	case isEmpty(row), isRemark(row):
		r.Ledger.SetAside++
		return
	case part == "":
		r.Ledger.Held++
		fail(t.first(parts), "data.missing", "the row has readings but no part number")
		return
	}
	used := 0
	for _, c := range t.columns {
		cell := cellAt(row, c.at)
		if c.use != numbers || text(cell) == "" {
			continue
		}
		size, problem := t.size(c, row, cell)
		if problem.Code != "" {
			fail(c.at, problem.Code, "%s: %s", part, problem.Message)
			continue
		}
		used++
		r.Readings = append(r.Readings, Reading{Part: part, Role: t.measured(c, row), Size: size, Place: t.place(i, c.at)})
	}
	if used == 0 {
		r.Ledger.Held++
		fail(-1, "data.missing", "%s has no reading that can be used", part)
		return
	}
	r.Ledger.Used++
}

// measured is what a cell of a column is a reading of.
func (t *table) measured(c column, row []*sheet.Cell) catalog.Role {
	if c.role != "" {
		return c.role
	}
	if at := t.first(whats); at >= 0 {
		if role := t.roleOf(text(cellAt(row, at))); slices.Contains(sizes[t.kind], role) {
			return role
		}
	}
	return usual[t.kind]
}

// size reads one cell as a size.
func (t *table) size(c column, row []*sheet.Cell, cell *sheet.Cell) (measure.Length, value.Problem) {
	shown, stored := text(cell), false
	if cell.Kind == sheet.Number {
		shown, stored = cell.Raw, true
	}
	r := value.Read(shown, value.Context{Want: value.WantDiameter, Unit: t.unitOf(c, row), Stored: stored})
	switch {
	case cell.Kind == sheet.Date:
		return measure.Length{}, value.Problem{Code: "data.damaged", Message: fmt.Sprintf("the cell holds the date %s instead of a reading", shown)}
	case r.Kind == value.Number:
		return measure.Length{}, value.Problem{Code: "data.unit", Message: fmt.Sprintf("%q has no unit; write it in the heading, such as %s (mm)", shown, c.heading)}
	case r.Problem.Code != "":
		return measure.Length{}, r.Problem
	case r.Kind != value.Length:
		return measure.Length{}, value.Problem{Code: "data.unreadable", Message: fmt.Sprintf("%q cannot be read as a reading", shown)}
	case r.Radius || r.PerSide:
		return measure.Length{}, value.Problem{Code: "data.implausible", Message: fmt.Sprintf("%q is a radius or on one side; give the diameter", shown)}
	case r.Dim.HasLimits():
		return measure.Length{}, value.Problem{Code: "data.unreadable", Message: fmt.Sprintf("%q has limits; a reading is one number", shown)}
	case r.Dim.Nominal().Sign() <= 0:
		return measure.Length{}, value.Problem{Code: "data.implausible", Message: fmt.Sprintf("%q is no size", shown)}
	}
	return r.Dim.Nominal(), value.Problem{}
}

// unitOf is the unit of a bare number: its row's, its column's, or that of a line above.
func (t *table) unitOf(c column, row []*sheet.Cell) string {
	if at := t.first(units); at >= 0 {
		if hit, ok := t.words.Unit(text(cellAt(row, at))); ok && catalog.IsLengthUnit(hit.Value) {
			return hit.Value
		}
	}
	if catalog.IsLengthUnit(c.unit) {
		return c.unit
	}
	return t.unit
}
