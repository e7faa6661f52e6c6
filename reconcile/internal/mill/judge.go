package mill

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// Outcome is what became of one size of a sheet.
type Outcome uint8

const (
	// Right was read as it was meant.
	Right Outcome = iota
	// Open has no value, and a finding says so on the cell, its row, its column or the whole sheet.
	Open
	// Unsaid has no value, and nothing says why.
	Unsaid
	// Held stands in a row that is held.
	Held
	// Found was read with another value, with a finding on its cell, row or column.
	Found
	// Assumed was read with another value, and the value names its assumption.
	Assumed
	// Silent was read with another value, or is a size that the sheet does not state, and nothing says so.
	Silent
	// Caught is a planted fault of which nothing was made but what was meant, or whose wrong value is questioned.
	Caught
	// Missed is a planted fault that was read as it stands, with nothing that questions it: a note does not, nor a word about something else.
	Missed
	outcomes
)

var outcomeNames = [outcomes]string{"right", "open", "unsaid", "held", "wrong, found", "wrong, assumed", "SILENT", "faults caught", "missed"}

// String is the heading of the outcome's column.
func (o Outcome) String() string { return outcomeNames[o] }

// Words is the strongest thing that was said about a size.
type Words uint8

const (
	// Nothing was said.
	Nothing Words = iota
	// Leniency is a note on the cell or its column.
	Leniency
	// Assumption is named by the value itself.
	Assumption
	// Doubt is a warning or an error.
	Doubt
	wordsCount
)

var wordNames = [wordsCount]string{"nothing", "a note", "an assumption", "a warning or error"}

// A Judgement is about one size.
type Judgement struct {
	Part    string
	Role    catalog.Role
	Outcome Outcome
	// Want and Got are the size that was meant and that was read.
	Want, Got string
	Cells     []sheet.Ref
	Words     Words
	// Codes are those of the findings about it.
	Codes []string
	// Confidence is that of the value that was read, zero where none was; Meant is set where it is the one that was meant, planted faults
	// not left aside.
	Confidence float64
	Meant      bool
	// questioned is set where somebody who reads the findings would look at the value that was read.
	questioned bool
}

// A Report is about one sheet.
type Report struct {
	Sheet  *Sheet
	Judged []Judgement
	// Findings are those of the reading.
	Findings finding.List
	// Broken are laws that the reading breaks: rows that are lost, a ledger that does not add up, a panic.
	Broken []string
}

// Read has a sheet read and judges the reading.
func Read(s *Sheet) (report *Report) {
	report = &Report{Sheet: s}
	defer func() {
		if problem := recover(); problem != nil {
			report.Broken = append(report.Broken, fmt.Sprintf("panic: %v", problem))
		}
	}()
	data, err := s.Data()
	if err != nil {
		report.Broken = append(report.Broken, fmt.Sprintf("the sheet cannot be made: %v", err))
		return report
	}
	cat, err := reconcile.Read([]reconcile.Source{{Name: s.Name, Data: data}}, reader.Options{}, nil)
	if err != nil {
		report.Broken = append(report.Broken, fmt.Sprintf("not read: %v", err))
		return report
	}
	Judge(report, cat)
	return report
}

// judge holds a reading beside what was meant.
type judge struct {
	*Report
	items []item
	rows  []catalog.Row
	kinds map[catalog.Kind]bool
	// headings are the rows in which the reader saw headings.
	headings []int
	// rowOf are the rows of all tables by part and line, each with the confidence in its values.
	rowOf map[partRow]placed
}

type partRow struct {
	part string
	row  int
}

// placed is a row of a table.
type placed struct {
	trust *catalog.Trust
	row   *catalog.Row
}

// confidence is how sure the reader is of a value of an item.
func (j *judge) confidence(it item, role catalog.Role) float64 {
	at, found := j.rowOf[partRow{it.Part, it.Source.Row}]
	if !found { // rows of a table on its side are its columns, those of cards their blocks
		for key, other := range j.rowOf {
			if key.part == it.Part {
				at, found = other, true
			}
		}
	}
	if !found {
		return 0
	}
	field := it.Fields.Get(role)
	confidence, _ := at.trust.Of(at.row, role, &field)
	return confidence
}

// item is a head or ferrule as it was read.
type item struct {
	*catalog.Item
	size        func(catalog.Role) *measure.Dim
	designation bool
}

// Judge judges the reading of a sheet.
func Judge(report *Report, cat *catalog.Catalogue) {
	report.Findings = cat.Findings
	j := &judge{Report: report, kinds: map[catalog.Kind]bool{}, rowOf: map[partRow]placed{}}
	for i := range cat.Heads {
		h := &cat.Heads[i]
		j.items = append(j.items, item{&h.Item, h.Size, h.BoreIsDesignation})
	}
	for i := range cat.Ferrules {
		f := &cat.Ferrules[i]
		j.items = append(j.items, item{&f.Item, f.Size, f.Ferrule.ForTip.Known()})
	}
	for i := range cat.Tables {
		j.kinds[cat.Tables[i].Kind] = true
		j.headings = append(j.headings, cat.Tables[i].HeadingRows...)
		j.rows = append(j.rows, cat.Tables[i].Rows...)
		trust := catalog.TrustOf(&cat.Tables[i])
		for k := range cat.Tables[i].Rows {
			row := &cat.Tables[i].Rows[k]
			j.rowOf[partRow{row.Part, row.Row}] = placed{trust, row}
		}
	}
	j.ledger(cat)
	known := map[string]bool{}
	for _, p := range report.Sheet.Parts {
		j.part(p)
		known[p.Number] = true
	}
	for _, it := range j.items {
		if !known[it.Part] && !slices.ContainsFunc(report.Sheet.Parts, func(p Part) bool { return p.is(it.Part) }) {
			j.phantom(it)
		}
	}
}

// is reports whether a part that was read is this one, or a club of this set.
func (p Part) is(number string) bool {
	rest, found := strings.CutPrefix(number, p.Number)
	return found && (rest == "" || rest[0] == ' ')
}

func (j *judge) part(p Part) {
	var found []item
	again := 0
	for _, other := range j.Sheet.Parts {
		if other.Number == p.Number {
			again++
		}
	}
	for _, it := range j.items {
		if p.is(it.Part) && (again == 1 || it.Source.Row == p.Row || j.Sheet.OnSide) {
			found = append(found, it)
		}
	}
	if len(found) == 0 && j.joined(p) {
		for _, it := range j.items { // the entry that it became one with
			if p.is(it.Part) {
				found = append(found, it)
			}
		}
	}
	for _, role := range sortedRoles(p.Sizes) {
		j.size(p, role, found)
	}
	for _, it := range found {
		j.notStated(p, it)
	}
}

// joined reports whether the line of a part was used, and with that of a part that stands twice became one entry.
func (j *judge) joined(p Part) bool {
	return slices.ContainsFunc(j.rows, func(row catalog.Row) bool { return row.Row == p.Row && p.is(row.Part) && row.Outcome != catalog.Held })
}

func sortedRoles(sizes map[catalog.Role]Size) []catalog.Role {
	var roles []catalog.Role
	for role := range sizes {
		roles = append(roles, role)
	}
	slices.Sort(roles)
	return roles
}

// size judges one size of a part by the worst of its entries, and by the first of those that are alike.
func (j *judge) size(p Part, role catalog.Role, found []item) {
	s := p.Sizes[role]
	worst := Judgement{Part: p.Number, Role: role, Want: s.String(), Cells: s.Cells}
	if len(found) == 0 {
		worst.Outcome, worst.Got = j.unread(p), "no part"
	}
	for i, it := range found {
		if one := j.sizeOf(p, role, s, it); i == 0 || one.Outcome > worst.Outcome {
			worst = one
		}
	}
	if s.Fault {
		if worst.Outcome == Silent || (worst.Outcome == Found || worst.Outcome == Assumed) && !worst.questioned {
			worst.Outcome = Missed
		} else {
			worst.Outcome = Caught
		}
	}
	j.Judged = append(j.Judged, worst)
}

func (s Size) String() string {
	text := s.Length.String()
	if s.TipName {
		text += " (tip)"
	}
	if s.Most != s.Least {
		text += " " + s.Least.String() + ".." + s.Most.String()
	}
	return text
}

// unread is the outcome of the sizes of a part that nothing was made of.
func (j *judge) unread(p Part) Outcome {
	for _, row := range j.rows {
		if row.Row == p.Row && row.Outcome == catalog.Held {
			return Held
		}
	}
	for _, f := range j.Findings {
		whole := f.Place.Row == 0 && f.Place.Cell == ""
		if f.Severity != finding.Note && (whole || f.Place.Row == p.Row || covers(f.Place, sheet.Ref{Row: p.Row, Col: 1})) {
			return Open
		}
	}
	return Unsaid
}

func (j *judge) sizeOf(p Part, role catalog.Role, s Size, it item) Judgement {
	field := it.Fields.Get(role)
	one := Judgement{Part: it.Part, Role: role, Want: s.String(), Got: "-", Cells: s.Cells}
	cells := s.Cells
	if ref, err := sheet.ParseRef(field.Cell); err == nil {
		cells = append(slices.Clone(cells), ref)
	}
	one.Words, one.Codes = j.words(cells, p.Row)
	if len(field.Assumptions) > 0 || slices.ContainsFunc(it.Assumptions, func(a string) bool { return speaksOf(a, field.Cell) }) {
		one.Words = max(one.Words, Assumption)
	}
	dim := it.size(role)
	if dim == nil || !dim.Given() {
		switch {
		case s.TipName && it.designation:
			one.Outcome, one.Got = Right, "tip"
			one.Confidence, one.Meant = j.confidence(it, role), true
		case j.held(it):
			one.Outcome = Held
		case one.Words >= Leniency || len(j.kinds) == 1 && j.kinds[catalog.UnknownKind]:
			one.Outcome = Open
		default:
			one.Outcome = Unsaid
		}
		return one
	}
	one.Got = dim.String()
	one.Confidence, one.Meant = j.confidence(it, role), s.isMeant(*dim)
	one.questioned = j.questioned(s.Cells, field, p.Row)
	switch {
	case one.Meant:
		one.Outcome = Right
	case one.Words == Doubt || one.Words == Leniency:
		one.Outcome = Found
	case one.Words == Assumption:
		one.Outcome = Assumed
	default:
		one.Outcome = Silent
	}
	return one
}

// questioned reports whether a finding makes a person look at a value that was read: a warning or an error upon the cell that it was read
// from, its row or its heading. What is said of a unit counts upon the cell, and with an assumption where the fault is one of the unit: that
// bare numbers of a column were taken for millimetres says nothing of one that stands in another's place.
func (j *judge) questioned(meant []sheet.Ref, field catalog.Field, row int) bool {
	at, err := sheet.ParseRef(field.Cell)
	if err != nil {
		return false
	}
	if j.Sheet.Habits["fault"] == "other unit in a cell" && len(field.Assumptions) > 0 {
		return true
	}
	headings := headingsOf(at, meant)
	return slices.ContainsFunc(j.Findings, func(f finding.Finding) bool {
		return f.Severity > finding.Note && slices.ContainsFunc(f.Places(), func(p finding.Place) bool {
			return covers(p, at) || f.Code != "data.unit" && (p.Cell == "" && p.Row != 0 && p.Row == row && !j.Sheet.OnSide || coversAny(p, headings))
		})
	})
}

// headingsOf are the headings of a cell, by the cells that are known of a size: its own and the headings of that, in its column or row.
func headingsOf(at sheet.Ref, meant []sheet.Ref) []sheet.Ref {
	var headings []sheet.Ref
	for _, known := range meant[min(1, len(meant)):] {
		switch own := meant[0]; {
		case known.Col == own.Col:
			headings = append(headings, sheet.Ref{Row: known.Row, Col: at.Col})
		case known.Row == own.Row:
			headings = append(headings, sheet.Ref{Row: at.Row, Col: known.Col})
		}
	}
	return headings
}

// held reports whether the row of an item is held; rows of a table on its side are its columns, found by their parts.
func (j *judge) held(it item) bool {
	return slices.ContainsFunc(j.rows, func(r catalog.Row) bool {
		return r.Outcome == catalog.Held && (r.Row == it.Source.Row || j.Sheet.OnSide && r.Part == it.Part)
	})
}

// speaksOf reports whether an assumption of a row names a cell.
func speaksOf(assumption, cell string) bool {
	return cell != "" && slices.Contains(strings.FieldsFunc(assumption, func(r rune) bool { return r < '0' || r > '9' && r < 'A' || r > 'Z' }), cell)
}

// isMeant reports whether a dimension is the size: within 0.0001 mm, as the contract allows, and with its limits.
func (s Size) isMeant(d measure.Dim) bool {
	if s.Absent || s.TipName {
		return false
	}
	limits := s.Least == s.Most || d.HasLimits() && near(d.Lower(), s.Least) && near(d.Upper(), s.Most)
	return (near(d.Nominal(), s.Length) && limits) || s.Other != (measure.Length{}) && near(d.Nominal(), s.Other)
}

func near(a, b measure.Length) bool { return !measure.Picometres(100_000).Less(a.Sub(b).Abs()) }

// notStated judges sizes of an entry that the sheet does not state.
func (j *judge) notStated(p Part, it item) {
	for role, field := range it.Fields.All() {
		dim := it.size(role)
		if _, stated := p.Sizes[role]; stated || dim == nil || !dim.Given() {
			continue
		}
		ref, _ := sheet.ParseRef(field.Cell)
		one := Judgement{Part: it.Part, Role: role, Want: "nothing", Got: dim.String(), Cells: []sheet.Ref{ref}}
		one.Words, one.Codes = j.words(one.Cells, p.Row)
		one.Outcome, one.Confidence = Silent, j.confidence(it, role)
		switch {
		case one.Words == Doubt || one.Words == Leniency || j.kindSaid():
			one.Outcome = Found
		case len(field.Assumptions) > 0:
			one.Outcome = Assumed
		}
		j.Judged = append(j.Judged, one)
	}
}

// kindSaid reports whether the table was taken to list something else, and a finding about the whole of it says that this is a guess.
func (j *judge) kindSaid() bool {
	return !j.kinds[j.Sheet.Kind] && slices.ContainsFunc(j.Findings, func(f finding.Finding) bool { return f.Code == "layout.kind" })
}

// phantom judges an entry made of what is no part.
func (j *judge) phantom(it item) {
	if !slices.ContainsFunc([]catalog.Role{catalog.HoselOD, catalog.Bore, catalog.BaseOD}, func(role catalog.Role) bool {
		dim := it.size(role)
		return dim != nil && dim.Given()
	}) {
		return
	}
	one := Judgement{Part: it.Part, Role: catalog.Part, Want: "no part", Got: it.Part, Outcome: Silent}
	ref, _ := sheet.ParseRef(it.Fields.Cell(catalog.Part))
	one.Cells = []sheet.Ref{ref}
	for _, line := range j.headings {
		one.Cells = append(one.Cells, sheet.Ref{Row: line, Col: ref.Col})
	}
	if one.Words, one.Codes = j.words(one.Cells, it.Source.Row); one.Words > Nothing || j.held(it) {
		one.Outcome = Found
	}
	j.Judged = append(j.Judged, one)
}

// words is the strongest that is said about one of the cells, or the row, and the codes of all that is. The first of the cells is the
// size's own.
func (j *judge) words(cells []sheet.Ref, row int) (said Words, codes []string) {
	for _, f := range j.Findings {
		if !slices.ContainsFunc(f.Places(), func(p finding.Place) bool {
			return p.Cell == "" && p.Row != 0 && p.Row == row && !j.Sheet.OnSide || coversAny(p, cells)
		}) {
			continue
		}
		if !slices.Contains(codes, f.Code) {
			codes = append(codes, f.Code)
		}
		if f.Severity == finding.Note {
			said = max(said, Leniency)
		} else {
			said = Doubt
		}
	}
	return said, codes
}

func coversAny(p finding.Place, cells []sheet.Ref) bool {
	return slices.ContainsFunc(cells, func(c sheet.Ref) bool { return covers(p, c) })
}

// covers reports whether a place is a cell, a range with it, or its whole column.
func covers(p finding.Place, c sheet.Ref) bool {
	if p.Cell == sheet.ColumnName(max(c.Col, 1)) {
		return true
	}
	r, err := sheet.ParseRange(p.Cell)
	return err == nil && r.Contains(c)
}

// ledger checks that no row is lost or counted twice.
func (j *judge) ledger(cat *catalog.Catalogue) {
	seen := map[int]bool{}
	for i := range cat.Tables {
		t := &cat.Tables[i]
		l := t.Ledger
		if l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
			j.law("table %s: %d rows are not %d used, %d assumed, %d held and %d set aside", t.Key, l.Rows, l.Used, l.Assumed, l.Held, l.SetAside)
		}
		own := map[int]bool{}
		for _, row := range t.Rows {
			own[row.Row], seen[row.Row] = true, true
		}
		if len(own) != l.Rows {
			j.law("table %s: the ledger has %d rows, the table lists %d", t.Key, l.Rows, len(own))
		}
	}
	if j.Sheet.OnSide || slices.ContainsFunc(cat.Tables, func(t catalog.Table) bool { return t.Range != "" }) {
		return
	}
	for n := 1; n <= j.Sheet.Lines; n++ {
		if !seen[n] {
			j.law("row %d stands in no table", n)
		}
	}
}

func (j *judge) law(format string, args ...any) {
	j.Broken = append(j.Broken, fmt.Sprintf(format, args...))
}
