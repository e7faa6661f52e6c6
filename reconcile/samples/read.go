package samples

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
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
	// Supplier is whose part it is, empty where no column says it.
	Supplier string
	// Kind is what the part is, and Role what was measured.
	Kind  catalog.Kind
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

// Finder says what a part number is, with its supplier where a column names one: the kinds of parts that have it, one in most
// cases; or why none can be taken, as the end of a sentence that begins with the number.
type Finder func(part, supplier string) (kinds []catalog.Kind, problem string)

// use is what a column of a light sheet is for.
type use uint8

const (
	unused use = iota
	parts
	suppliers
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
	// roles are what was measured of parts of each kind; none where the heading does not say it.
	roles roles
}

// roles are the sizes that words name, by what the part is.
type roles map[catalog.Kind]catalog.Role

// table is a light sheet with its heading found.
type table struct {
	file    string
	sheet   *sheet.Sheet
	heading int // index of its row
	columns []column
	unit    string // named above the heading
	words   *words.Vocabulary
	find    Finder
}

// kinds are the kinds of parts, in the order in which a heading is tried for each.
var kinds = [...]catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips}

// partScore is from where a heading says that a column holds part numbers.
const partScore = 0.6

// open looks for the heading: the first row with a cell for part numbers and another that is filled.
func open(file string, s *sheet.Sheet, find Finder) (*table, bool) {
	t := &table{file: file, sheet: s, words: words.Load(), find: find}
	for i, row := range s.Rows {
		filled := 0
		for _, c := range row {
			if text(c) != "" {
				filled++
			}
		}
		at := slices.IndexFunc(row, func(c *sheet.Cell) bool { return t.any(text(c), catalog.Part) })
		if at >= 0 && filled > 1 {
			t.heading = i
			t.describe(row, at)
			return t, true
		}
		for _, c := range row {
			if found := t.words.Units(text(c)); len(found) == 1 && traits.IsLengthUnit(found[0].Value) {
				t.unit = found[0].Value
			}
		}
	}
	return nil, false
}

func text(c *sheet.Cell) string { return strings.TrimSpace(c.Shown) }

// roleOf is what a heading says of parts of a kind, empty where it says nothing for certain, and how certain that is.
func (t *table) roleOf(kind catalog.Kind, heading string) (catalog.Role, float64) {
	if matches := t.words.MatchIn(kind.String(), heading); len(matches) > 0 && matches[0].Score >= partScore {
		return catalog.Role(matches[0].Role), matches[0].Score
	}
	return "", 0
}

// any reports whether a heading has a role among parts of some kind.
func (t *table) any(heading string, want catalog.Role) bool {
	return slices.ContainsFunc(kinds[:], func(kind catalog.Kind) bool {
		role, _ := t.roleOf(kind, heading)
		return role == want
	})
}

// means reports whether a heading has any role at all.
func (t *table) means(heading string) bool {
	return slices.ContainsFunc(kinds[:], func(kind catalog.Kind) bool {
		role, _ := t.roleOf(kind, heading)
		return role != ""
	})
}

// asLikely is the share of the likeliest meaning's certainty from which another counts: an OD may be that of any part, and the
// OD of a hosel is no ferrule's.
const asLikely = 0.8

// sizesIn are the sizes that words name.
func (t *table) sizesIn(words string) roles {
	found, scores, best := roles{}, map[catalog.Kind]float64{}, 0.0
	for _, kind := range kinds {
		if role, score := t.roleOf(kind, words); slices.Contains(catalog.SizeRoles(kind), role) {
			found[kind], scores[kind], best = role, score, max(best, score)
		}
	}
	for kind, score := range scores {
		if score < asLikely*best {
			delete(found, kind)
		}
	}
	return found
}

func (t *table) describe(row []*sheet.Cell, partAt int) {
	for at, c := range row {
		heading := text(c)
		rest, unit, _ := t.words.SplitUnit(heading)
		stem := strings.TrimSpace(strings.TrimRight(rest, "0123456789.# "))
		col := column{at: at, heading: heading, unit: unit, roles: t.sizesIn(stem)}
		hints := t.words.Hints(stem)
		switch {
		case at == partAt:
			col.use = parts
		case heading == "":
		case layout.IsSupplierLabel(stem):
			col.use = suppliers
		case t.any(stem, catalog.UnitRole):
			col.use = units
		case len(col.roles) > 0:
			col.use = numbers
		case t.says(at):
			col.use = whats
		case hints.Measured, hints.Sample, !t.means(stem) && t.numeric(at):
			col.use = numbers
		}
		t.columns = append(t.columns, col)
	}
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
			if len(t.sizesIn(s)) > 0 {
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

// Read reads caliper readings of parts.
func Read(b *sheet.Book, find Finder) Readings {
	r := Readings{Findings: catalog.FileNotes(b)}
	found := false
	for _, s := range b.Sheets {
		r.Ledger.Rows += len(s.Rows)
		t, ok := open(b.File, s, find)
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

func (r *Readings) fail(at finding.Place, code, format string, args ...any) {
	r.Findings.Add(finding.Finding{Severity: finding.Error, Code: code, Place: at, Message: fmt.Sprintf(format, args...)})
}

// row reads one row. It is held where nothing of it can be used.
func (r *Readings) row(t *table, i int, row []*sheet.Cell) {
	part, supplier := text(cellAt(row, t.first(parts))), text(cellAt(row, t.first(suppliers)))
	switch {
	case isEmpty(row), isRemark(row):
		r.Ledger.SetAside++
		return
	case part == "":
		r.Ledger.Held++
		r.fail(t.place(i, t.first(parts)), "data.missing", "the row has readings but no part number")
		return
	}
	of, problem := t.find(part, supplier)
	if problem != "" {
		r.Ledger.Held++
		r.Findings.Add(finding.Finding{
			Severity: finding.Warning, Code: "data.missing", Place: t.place(i, t.first(parts)), Message: part + " " + problem + "; its readings are not used",
		})
		return
	}
	before := len(r.Readings)
	for _, c := range t.columns {
		cell := cellAt(row, c.at)
		if c.use != numbers || text(cell) == "" {
			continue
		}
		read, problem := t.cell(c, row, cell, of)
		if problem.Code != "" {
			r.fail(t.place(i, c.at), problem.Code, "%s: %s", part, problem.Message)
			continue
		}
		for _, one := range read {
			one.Part, one.Supplier, one.Place = part, supplier, t.place(i, c.at)
			r.Readings = append(r.Readings, one)
		}
	}
	if len(r.Readings) == before {
		r.Ledger.Held++
		r.fail(t.place(i, -1), "data.missing", "%s has no reading that can be used", part)
		return
	}
	r.Ledger.Used++
}

// cell reads what one cell holds, of a part that is of one of some kinds: a reading, or several.
func (t *table) cell(c column, row []*sheet.Cell, cell *sheet.Cell, of []catalog.Kind) ([]Reading, value.Problem) {
	kind, role, problem := t.measured(c, row, of)
	if problem.Code != "" {
		return nil, problem
	}
	sizes, problem := t.sizes(c, row, cell)
	if problem.Code != "" {
		return nil, problem
	}
	readings := make([]Reading, len(sizes))
	for i, size := range sizes {
		if why := traits.Implausible(kind, role, size); why != "" {
			return nil, value.Problem{Code: "data.implausible", Message: fmt.Sprintf("%q as its %s: %s", text(cell), catalog.RoleName(kind, role), why)}
		}
		readings[i] = Reading{Kind: kind, Role: role, Size: size}
	}
	return readings, value.Problem{}
}

// measured is what a cell of a column is a reading of, for a part that is of one of some kinds: what the heading says, else a
// column of words, else the size that is usually meant.
func (t *table) measured(c column, row []*sheet.Cell, of []catalog.Kind) (catalog.Kind, catalog.Role, value.Problem) {
	said, where := c.roles, c.heading
	if what := text(cellAt(row, t.first(whats))); len(said) == 0 && what != "" {
		if said, where = t.sizesIn(what), what; len(said) == 0 {
			return 0, "", value.Problem{Code: "data.unreadable", Message: fmt.Sprintf("%q is no size that is known", what)}
		}
	}
	var found []catalog.Kind
	for _, kind := range of {
		if len(said) == 0 || said[kind] != "" {
			found = append(found, kind)
		}
	}
	switch {
	case len(found) == 0:
		return 0, "", value.Problem{Code: "data.conflict", Message: fmt.Sprintf("%q is no size of %s", where, of[0])}
	case len(found) > 1:
		return 0, "", value.Problem{Code: "data.conflict", Message: fmt.Sprintf("%s and %s have the number, and %q may be of either", found[0], found[1], where)}
	case len(said) == 0:
		return found[0], catalog.SizeRoles(found[0])[0], value.Problem{}
	}
	return found[0], said[found[0]], value.Problem{}
}

// sizes reads one cell as a size, or as several.
func (t *table) sizes(c column, row []*sheet.Cell, cell *sheet.Cell) ([]measure.Length, value.Problem) {
	shown, stored := text(cell), false
	if cell.Kind == sheet.Number {
		shown, stored = cell.Raw, true
	}
	if cell.Kind == sheet.Date {
		return nil, value.Problem{Code: "data.damaged", Message: fmt.Sprintf("the cell holds the date %s instead of a reading", shown)}
	}
	r := value.Read(shown, value.Context{Want: value.WantDiameter, Unit: t.unitOf(c, row), Stored: stored})
	all := []value.Reading{r}
	if r.Kind == value.List && r.Problem.Code == "" {
		all = r.List
	}
	sizes := make([]measure.Length, len(all))
	for i, one := range all {
		size, problem := sizeOf(one, shown, c.heading)
		if problem.Code != "" {
			return nil, problem
		}
		sizes[i] = size
	}
	return sizes, value.Problem{}
}

// sizeOf takes one value for a size.
func sizeOf(r value.Reading, shown, heading string) (measure.Length, value.Problem) {
	switch {
	case r.Kind == value.Number:
		return measure.Length{}, value.Problem{Code: "data.unit", Message: fmt.Sprintf("%q has no unit; write it in the heading, such as %s (mm)", shown, heading)}
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
		if hit, ok := t.words.Unit(text(cellAt(row, at))); ok && traits.IsLengthUnit(hit.Value) {
			return hit.Value
		}
	}
	if traits.IsLengthUnit(c.unit) {
		return c.unit
	}
	return t.unit
}
