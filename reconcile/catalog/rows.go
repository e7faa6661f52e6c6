package catalog

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/reconcile/finding"
)

// rowTable reads the rows of a table.
type rowTable struct {
	*cellReader
	supplier string
	// read are the columns of which each row has a value, and assumed the first of what rows assume: nothing.
	read    []*cellColumn
	assumed *assumptions
	// gather makes the fields of the rows, and entries are what entries are cut from.
	gather  Gather
	entries []entry
	// titleCategory is the kind of club that the sheet's name or title speaks of, sectionCategory the one that the last title within
	// the body does.
	titleCategory, sectionCategory string
	// repeats is set where part numbers come back with other clubs, so that the club belongs to the part.
	repeats bool
	// partWidth is the number of digits of part numbers with leading zeros, zero where there are none.
	partWidth int
	// out is what is to be known of the table.
	out   Table
	items []*entry
}

// entry is one row of the catalogue before it is typed and merged.
type entry struct {
	table *rowTable
	// row is the place of its row in the table, and line its line.
	row, line int
	part      string
	fields    Fields
	assumed   *assumptions
	price     float64
	hasPrice  bool
	// category is the word of the contract for the kind of club.
	category string
}

// item is what is common to all kinds of parts.
func (e *entry) item() Item {
	return Item{
		Part: e.part, Description: e.fields.Text(Description), Supplier: e.table.supplier, Source: e.source(), Fields: e.fields, Assumptions: e.assumed.texts,
		Price: e.price, HasPrice: e.hasPrice,
	}
}

// newRowTable makes the rows of a table ready to be read. The category is the kind of club that its titles speak of.
func newRowTable(t *cellReader, supplier, category string) *rowTable {
	r := &rowTable{cellReader: t, supplier: supplier, titleCategory: category}
	r.findPartWidth()
	r.describe()
	return r
}

// readRows reads every line of the table.
func (t *rowTable) readRows() {
	t.repeats = t.partsRepeat() || t.titlePart != ""
	t.assumed = &assumptions{}
	if t.kindAssumed != "" {
		t.assumed = t.assumed.with(t.kindAssumed)
	}
	for _, c := range t.columns {
		if c.role != "" && c.role != Tolerance && t.byRole[c.role] == c {
			t.read = append(t.read, c)
		}
	}
	t.out.Rows = slices.Grow(t.out.Rows, len(t.lines))
	clubs := t.clubsOf()
	for i, kind := range t.lines {
		line := t.region.from + i
		if kind != lineData || t.kind == UnknownKind {
			t.setAside(line, kind)
			continue
		}
		t.readLine(line, clubs)
	}
	t.reportTold()
}

// readLine reads a line of data: once, or once for each club that the table has columns for.
func (t *rowTable) readLine(line int, clubs []string) {
	read := false
	for _, club := range clubs {
		if t.turnTo(line, club) {
			t.readRow(line, club)
			read = true
		}
	}
	if !read {
		t.readRow(line, "")
	}
}

// setAside keeps account of a line that is no data, and remembers what a title within the body says.
func (t *rowTable) setAside(line int, kind lineKind) {
	why := kind.why()
	switch {
	case kind == lineTotal:
		t.tell(toldKey{what: "total"}, finding.Note, "data.total", line, 0, func() string { return "a row of totals is set aside" })
	case kind != lineData && kind != lineBlank && strings.HasPrefix(t.firstTextOf(line), "="):
		t.tell(toldKey{what: "text formula"}, finding.Note, "data.formula", line, 0, func() string {
			return fmt.Sprintf("the row begins with %q, like a formula; it is text, and set aside as a %s", t.firstTextOf(line), why)
		})
	}
	if kind == lineData {
		why = "the table lists neither heads, ferrules nor tips"
	}
	if kind == lineSection || kind == lineUnits {
		text := t.readSection(line)
		t.sectionCategory = ""
		if hit, found := t.lex.category(text); found && hit.Score >= 0.3 {
			t.sectionCategory = hit.Value
		}
	}
	t.out.Rows = append(t.out.Rows, Row{Row: line, Outcome: SetAside, Why: why})
}

// rowReader gathers what one line says.
type rowReader struct {
	t    *rowTable
	line int
	// club is the club whose columns are read, empty where the table has none by club.
	club    string
	fields  Fields
	assumed *assumptions
	// held says why the row is held, empty where it is not.
	held string
}

func (r *rowReader) hold(why string) {
	if r.held == "" {
		r.held = why
	}
}

func (r *rowReader) assume(texts ...string) {
	for _, text := range texts {
		r.assumed = r.assumed.with(text)
	}
}

// readRow reads a line of data into rows of the table and entries of the catalogue.
// It is for one club where a club is given.
func (t *rowTable) readRow(line int, club string) {
	r := rowReader{t: t, line: line, club: club, fields: t.gather.Begin(), assumed: t.assumed}
	if t.kindHeld != "" {
		r.hold(t.kindHeld)
	}
	for _, c := range t.read {
		if !c.absent {
			r.readColumn(c)
		}
	}
	r.addAnswers()
	r.knowTip()
	part := r.part()
	r.missing(part)
	r.finish(part)
}

// readColumn reads one role of the line from the columns that state it.
func (r *rowReader) readColumn(c *cellColumn) {
	t := r.t
	u, at := t.meaningOf(r.line, c)
	if u.bad.any() {
		r.trouble(c, u.bad)
	}
	if u.what == nil {
		return
	}
	r.fields = t.gather.Add(r.fields, u.what, at)
	r.assume(u.assumed...)
}

// trouble reports what is wrong with a value, and holds the row where the value matters to the joint.
func (r *rowReader) trouble(c *cellColumn, bad trouble) {
	t := r.t
	matters := false
	switch c.trait().want {
	case wantLength, wantAngle, wantCode:
		matters = true
	}
	if bad.code != "held" {
		severity := bad.severity
		if !matters {
			severity = finding.Warning
		}
		line, col := t.region.grid.source(r.line, c.col)
		t.add(severity, bad.code, line, col, bad.message, t.settle("rows", lineName(r.line), string(c.role)))
	}
	if matters && (bad.severity == finding.Error || bad.code == "held") {
		r.hold(bad.message)
	}
}

// addAnswers adds the values that the mapping file gives for roles that the table has no column for.
func (r *rowReader) addAnswers() {
	values := r.t.rules.row(r.line).Values
	if len(values) == 0 {
		return
	}
	for _, role := range slices.Sorted(maps.Keys(values)) {
		if r.t.byRole[role] != nil {
			continue
		}
		c := &cellColumn{unitColumn: &unitColumn{column: &column{role: role, scale: 1}}}
		f, bad := r.t.readAnswer(c, Field{}, values[role])
		if bad.any() {
			r.t.add(finding.Warning, bad.code, r.line, 0, bad.message, r.t.settle("rows", lineName(r.line), string(role)))
			continue
		}
		r.fields = r.fields.With(role, f)
		r.assume(f.Assumptions...)
	}
}

// missing holds a row without a part number, and one that lacks what everything else depends on.
func (r *rowReader) missing(part string) {
	t := r.t
	if part == "" {
		if t.byRole[Part] != nil {
			t.add(finding.Error, "data.missing", r.line, t.byRole[Part].col, "the row has sizes but no part number", t.settle("rows", lineName(r.line), "part"))
		}
		r.hold("no part number")
		return
	}
	need := needed[t.kind]
	hasColumn := false
	for _, role := range need {
		if r.fields.Dim(role).Given() {
			return
		}
		hasColumn = hasColumn || t.byRole[role] != nil
	}
	if r.held == "" && hasColumn {
		col := 0
		for _, role := range need {
			if c := t.byRole[role]; c != nil && col == 0 {
				col = c.col
			}
		}
		t.add(finding.Error, "data.missing", r.line, col, fmt.Sprintf("%s has no %s", part, orRoles(need, t.byRole)), t.settle("rows", lineName(r.line), string(need[0])))
	}
	r.hold("no " + orRoles(need, t.byRole))
}

// orRoles names the roles that would do, those that the table has columns for where it has any.
func orRoles(roles []Role, columns map[Role]*cellColumn) string {
	var names []string
	for _, role := range roles {
		if columns[role] != nil {
			names = append(names, string(role))
		}
	}
	if len(names) == 0 {
		names = append(names, string(roles[0]))
	}
	return strings.Join(names, " or ")
}

// finish writes the rows of the line, one for each club of a set, and their entries.
func (r *rowReader) finish(part string) {
	t := r.t
	base, clubs := r.clubs(part)
	clubs = r.spreadParts(part, clubs)
	outcome := Used
	switch {
	case r.held != "":
		outcome = Held
	case len(r.assumed.texts) > 0:
		outcome = Assumed
	}
	fields := t.gather.Keep(r.fields)
	for _, club := range clubs {
		name := base
		switch {
		case club.part != "":
			name = club.part
		case club.suffix != "":
			name = base + " " + club.suffix
		}
		if club.assumption != "" {
			r.assume(club.assumption)
			if outcome == Used {
				outcome = Assumed
			}
		}
		t.out.Rows = append(t.out.Rows, Row{Row: r.line, Outcome: outcome, Part: name, Fields: fields, Assumptions: r.assumed.texts, Why: r.held})
		if part == "" {
			continue
		}
		e := t.newEntry()
		*e = entry{table: t, row: len(t.out.Rows) - 1, line: r.line, part: name, fields: fields, assumed: r.assumed}
		if price := fields.Get(Price); price.IsNumber {
			e.price, e.hasPrice = price.Number, true
		}
		e.category = r.category(club.suffix)
		t.items = append(t.items, e)
	}
}

// newEntry makes room for an entry.
func (t *rowTable) newEntry() *entry {
	const room = 256
	if len(t.entries) == cap(t.entries) {
		t.entries = make([]entry, 0, room)
	}
	t.entries = t.entries[:len(t.entries)+1]
	return &t.entries[len(t.entries)-1]
}

// source is where a person finds the part.
func (e *entry) source() Source {
	t := e.table
	source := Source{File: t.file, Sheet: t.sheet.Name, Row: e.line}
	if !t.region.grid.turned {
		return source
	}
	source.Row = t.region.left
	if c := t.byRole[Part]; c != nil {
		ref := t.region.grid.ref(e.line, c.col)
		source.Row, source.Cell = ref.Row, ref.String()
	}
	return source
}

// describe writes down how the table is understood, and what a person should know of it as a whole.
func (t *rowTable) describe() {
	r := t.region
	t.out.File, t.out.Sheet, t.out.Key, t.out.Kind, t.out.HeadingRows = t.file, t.sheet.Name, t.key, t.kind, r.headings
	if !r.alone {
		t.out.Range = r.rangeOf().String()
	}
	for _, c := range t.columns {
		t.out.Columns = append(t.out.Columns, c.shown(r.grid)...)
	}
	t.reportLayout()
}

// result counts the ledger and returns the table.
func (t *rowTable) result() Table {
	t.out.count()
	t.out.Findings = t.findings
	t.out.Findings.Sort()
	return t.out
}

// held reports whether the entry's row is held.
func (e *entry) held() bool { return e.table.out.Rows[e.row].Outcome == Held }

func (e *entry) place(role Role) finding.Place {
	return finding.Place{File: e.table.file, Sheet: e.table.sheet.Name, Row: e.source().Row, Cell: e.fields.Cell(role)}
}
