// Package rows gathers what each line of a table says: the fields of a part, or of each club of a set, the typed head, ferrule or tip
// that they make, and the account of every row.
package rows

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// Table reads the rows of a table.
type Table struct {
	*cells.Reader
	Supplier catalog.Supplier
	// read are the columns of which each row has a value, and assumed the first of what rows assume: nothing.
	read    []*cells.Column
	assumed *assumptions
	// gather makes the fields of the rows, and entries are what entries are cut from.
	gather  catalog.Gather
	entries []Entry
	// titleCategory is the kind of club that the sheet's name or title speaks of, sectionCategory the one that the last title within
	// the body does.
	titleCategory, sectionCategory string
	// clubbed are the part numbers to which the club of a row belongs.
	clubbed clubbed
	// hasSets is set once rows were spread over the clubs of a set.
	hasSets bool
	// givesHoles is set where bores are sizes of holes and not the names of tips, see [units.Table.GivesHoles].
	givesHoles bool
	// partWidth is the number of digits of part numbers with leading zeros, zero where there are none.
	partWidth int
	// titled are the sizes that titles give, by title, and series the sizes of parts by the text of a series and their numbers.
	titled map[string][]layout.Titled
	// below are what a letter says of all parts below the first, nil until asked.
	below  []string
	series map[string]map[string]measure.Length
	// clubSizes are the sizes that notes give by kinds of club, nil until they are asked for.
	clubSizes []clubSize
	// tipBores are the bores that notes give by tips, nil until they are asked for.
	tipBores []tipBore
	// parent is the row from which those below may have their sizes, and variants is set once one that had none of its own had them by its number.
	parent   parent
	variants bool
	// blanks are the notes that say what blank cells of columns mean, and above is the row above.
	blanks map[*cells.Column]*layout.Clause
	above  above
	// remarks are the columns in which a line may say that its part is discontinued.
	remarks []remark
	// numbered are the rows by their part numbers, and lastSet is the last one of a set, both counted from 1, as far as the rows were searched
	// for sets.
	numbered          map[string]int
	lastSet, searched int
	// Flat are the notes that give one price for each part that has none of its own: one for all of them, or one above each group, from the top.
	Flat []layout.FlatNote
	// flatTold are the places of those of which something was said.
	flatTold map[sheet.Ref]bool
	// Described keeps account of the descriptions that are searched, of this table alone where the reader of several gives none for all.
	Described *Searched
	// unsearched is set where descriptions are not searched for sizes any more.
	unsearched bool
	// ahead has what the descriptions of the next lines say.
	ahead ahead
	// otherSize are the sizes of which a text of their rows gives another, as far as that was said.
	otherSize map[finding.Place]bool
	// Out is what is to be known of the table.
	Out   catalog.Table
	Items []*Entry
}

// Entry is one row of the catalogue before it is typed and merged.
type Entry struct {
	Table *Table
	// Row is the place of its row in the table, and line its line.
	Row, Line int
	Part      string
	// Set is the part number of the row where it names a set, of which the part is one club.
	Set      string
	Fields   catalog.Fields
	assumed  *assumptions
	Price    float64
	HasPrice bool
	// PerPiece is set where the sheet says what the price is for.
	PerPiece bool
	// Category is the word of the contract for the kind of club.
	Category string
	// unknown are the roles of which the sheet says that it does not state the value, while no other row does.
	unknown []catalog.Role
	// refused are sizes of the row that were read and are not used, by role, nil where there are none.
	refused map[catalog.Role]measure.Dim
}

// item is what is common to all kinds of parts.
func (e *Entry) item() catalog.Item {
	return catalog.Item{
		Part: e.Part, Description: e.Fields.Text(catalog.Description), Supplier: e.Table.Supplier.Key, Source: e.source(), Fields: e.Fields,
		Assumptions: e.assumed.texts, Price: e.Price, HasPrice: e.HasPrice, PerPiece: e.PerPiece, Currency: e.Table.Supplier.Currency,
	}
}

// New makes the rows of a table ready to be read. The category is the kind of club that its titles speak of.
func New(t *cells.Reader, supplier catalog.Supplier, category string) *Table {
	r := &Table{Reader: t, Supplier: supplier, titleCategory: category, givesHoles: t.GivesHoles(), numbered: map[string]int{}, Described: &Searched{}}
	r.findPartWidth()
	r.describe()
	return r
}

// ReadRows reads every line of the table.
func (t *Table) ReadRows() {
	t.clubbed = t.findClubbed()
	t.assumed = &assumptions{}
	if t.KindAssumed != "" {
		t.assumed = t.assumed.with(t.KindAssumed)
	}
	for _, c := range t.Columns {
		if c.Role != "" && c.Role != catalog.Tolerance && t.ByRole[c.Role] == c {
			t.read = append(t.read, c)
		}
	}
	t.Out.Rows = slices.Grow(t.Out.Rows, len(t.Lines))
	t.findBlanks()
	t.findRemarks()
	clubs := t.ClubsOf()
	var beside []int // the lines of parts that stand beside the last one which has its own
	for i, kind := range t.Lines {
		line := t.Region.From + i
		if t.RowOf(line) == line {
			t.accountBeside(beside)
			beside = beside[:0]
		} else {
			beside = append(beside, line)
		}
		if kind == columns.LineElsewhere {
			continue
		}
		if kind != columns.LineData || t.Kind == catalog.UnknownKind {
			t.setAside(line, kind)
			continue
		}
		t.readLine(line, clubs)
	}
	t.accountBeside(beside)
	t.compareExchanged()
	t.compareExchangedPrices()
	t.compareExchangedStock()
	t.compareExchangedCounts(catalog.Stock)
	t.compareExchangedCounts(catalog.Pack)
	t.compareExchangedKnown()
	t.compareParts()
	t.compareBeside()
	t.comparePrices()
	t.compareChanges()
	t.compareReadings()
	t.compareDescriptions()
	t.compareNamed()
	t.compareBlanks()
	t.compareTips()
	t.compareTitled()
	t.compareClubs()
	t.reportErrorValues()
	t.ReportTold()
}

// readLine reads a line of data: once, or once for each club that the table has columns for.
func (t *Table) readLine(line int, clubs []string) {
	for _, c := range t.remarks {
		t.Search(line, c.Column)
	}
	t.tellDiscontinued(line)
	read := false
	for _, club := range clubs {
		if t.TurnTo(line, club) {
			t.readRow(line, club)
			read = true
		}
	}
	if !read {
		t.readRow(line, "")
	}
}

// accountBeside keeps account of the rows of the sheet whose lines have parts that stand beside another one, and begin in its row.
func (t *Table) accountBeside(lines []int) {
	for _, row := range lines {
		if !t.Region.Second && t.Region.Grid.Beginning(row) == 0 {
			t.Out.Rows = append(t.Out.Rows, catalog.Row{Row: row, Outcome: catalog.SetAside, Why: columns.LineInside.Why()})
		}
	}
}

// setAside keeps account of a line that is no data, and remembers what a title within the body says.
func (t *Table) setAside(line int, kind columns.LineKind) {
	why := kind.Why()
	switch {
	case t.Region.Second && kind != columns.LineGoods: // the other table says so
	case kind == columns.LineTotal:
		t.Tell(layout.ToldKey{What: "total"}, finding.Note, "data.total", line, 0, func() string { return "a row of totals is set aside" })
	case kind == columns.LineStruck:
		t.TellEach(layout.ToldKey{What: "struck"}, finding.Warning, "data.struck", line, 0, func() string { return "the row is struck out and set aside" })
	case kind == columns.LineGoods:
		t.TellEach(layout.ToldKey{What: "goods"}, finding.Warning, "data.other-goods", line, 0, func() string {
			return fmt.Sprintf("the row of %q is set aside: it is of goods that are no %s, by its type or description", t.FirstTextOf(line), t.Kind)
		})
	case kind != columns.LineData && kind != columns.LineBlank && strings.HasPrefix(t.FirstTextOf(line), "="):
		t.Tell(layout.ToldKey{What: "text formula"}, finding.Note, "data.formula", line, 0, func() string {
			return fmt.Sprintf("the row begins with %q, like a formula; it is text, and set aside as a %s", t.FirstTextOf(line), why)
		})
	}
	if kind == columns.LineData {
		why = cmp.Or(t.Yields, "the table lists neither heads, ferrules nor tips")
	}
	if text := t.FirstTextOf(line); kind == columns.LineSection && t.isRemark(text) {
		t.tellRemark(line, text)
	} else if kind == columns.LineSection || kind == columns.LineUnits {
		t.tellUntitled(line, t.Section, text)
		t.ReadSection(line)
		t.sectionCategory = ""
		if hit, found := t.Lex.Category(text); found && hit.Score >= 0.3 {
			t.sectionCategory = hit.Value
		}
	}
	if !t.Region.Second || kind == columns.LineGoods || kind == columns.LineData {
		t.Out.Rows = append(t.Out.Rows, catalog.Row{Row: t.RowOf(line), Cell: t.Beside(line), Outcome: catalog.SetAside, Why: why})
	}
}

// rowReader gathers what one line says.
type rowReader struct {
	t    *Table
	line int
	// club is the club whose columns are read, empty where the table has none by club.
	club    string
	fields  catalog.Fields
	assumed *assumptions
	// held says why the row is held, empty where it is not. Open are the roles of which the value cannot be used, and unknown those of which
	// the sheet says that it does not state it.
	held          string
	open, unknown []catalog.Role
	// unstated is what the row says in place of a size that everything hangs on: "not measured". Empty where it says nothing, or the size.
	unstated string
	// heir is set where the row has sizes of the one above.
	heir bool
	// perPiece is set where the sheet says what its price is for, so that it is that of one piece.
	perPiece bool
	// refused are sizes of the line that were read and are not used, by role.
	refused map[catalog.Role]measure.Dim
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
func (t *Table) readRow(line int, club string) {
	r := rowReader{t: t, line: line, club: club, fields: t.gather.Begin(), assumed: t.assumed}
	if t.KindHeld != "" {
		r.hold(t.KindHeld)
	}
	r.checkShifted()
	for _, c := range t.read {
		if !c.Absent {
			r.readColumn(c)
		}
	}
	r.addAnswers()
	r.takeClubSizes()
	r.takeTitled()
	r.takeFlatPrice()
	r.readDescribed()
	r.compareTip()
	r.knowTip()
	r.takeTipBore()
	part := r.part()
	r.inherit(part)
	r.checkHoles()
	r.checkEnds()
	r.checkPrice()
	r.missing(part)
	r.finish(part)
}

// readColumn reads one role of the line from the columns that state it.
func (r *rowReader) readColumn(c *cells.Column) {
	t := r.t
	u, at := t.MeaningOf(r.line, c)
	if u.Bad != nil {
		r.trouble(c, *u.Bad, u.What == nil)
	} else if asked := t.Asked(r.line, c, u.What); asked.Any() {
		r.trouble(c, asked, false)
		if u.What != nil && asked.Instead.Given() {
			r.fields = t.gather.Add(r.fields, u.What, at)
			r.takeInstead(c, asked)
			r.assume(u.Assumed...)
		} else if u.What != nil {
			r.fields = t.gather.Add(r.fields, u.What.Unread(), at)
		}
		return
	}
	if u.What == nil {
		return
	}
	r.fields = t.gather.Add(r.fields, u.What, at)
	r.assume(u.Assumed...)
}

// takeInstead takes the size that a remark gives in place of that of the cell.
func (r *rowReader) takeInstead(c *cells.Column, asked cells.Trouble) {
	f := r.fields.Get(c.Role)
	said := fmt.Sprintf("%s %s taken from the remark, and not %s", catalog.RoleName(r.t.Kind, c.Role), asked.InsteadText, f.Text)
	f.Text, f.Dim = asked.InsteadText, asked.Instead
	r.take(c.Role, f, said)
}

// trouble reports what is wrong with a value, or that the cell says it is not stated. It holds the row where everything hangs on the value,
// and leaves open any other that the joint may depend on.
func (r *rowReader) trouble(c *cells.Column, bad cells.Trouble, blank bool) {
	t := r.t
	if bad.Refused.Given() {
		if r.refused == nil {
			r.refused = map[catalog.Role]measure.Dim{}
		}
		r.refused[c.Role] = bad.Refused
	}
	matters := false
	switch c.Trait().Want {
	case traits.Length, traits.Angle, traits.Code:
		matters = true
	}
	if bad.Code != "held" {
		severity := bad.Severity
		if !matters {
			severity = finding.Warning
		}
		line, col := t.Region.Grid.Source(r.line, cmp.Or(bad.Col, c.Col))
		key := t.Settle("rows", t.LineName(r.line), string(c.Role))
		if bad.Cause != "" {
			t.AddBy(bad.Cause, severity, bad.Code, line, col, bad.Message, key)
		} else {
			t.Add(severity, bad.Code, line, col, bad.Message, key)
		}
	}
	if matters && !blank && bad.Code == "data.missing" && slices.Contains(traits.Keys[t.Kind], c.Role) {
		r.unstated = bad.Message
	}
	switch unusable := bad.Severity == finding.Error || bad.Code == "held"; {
	case !matters || !unusable:
	case blank && bad.Code == "held" && c.Role != catalog.Part && !slices.Contains(traits.Keys[t.Kind], c.Role): // there is nothing to leave open
	case c.Role == catalog.Part, slices.Contains(traits.Keys[t.Kind], c.Role):
		r.hold(bad.Message)
	default:
		r.open = append(r.open, c.Role)
	}
	if matters && bad.Code == "data.missing" && bad.Severity == finding.Warning && !blank && !slices.Contains(traits.Keys[t.Kind], c.Role) {
		r.unknown = append(r.unknown, c.Role)
	}
}

// addAnswers adds the values that the mapping file gives for roles that the table has no column for.
func (r *rowReader) addAnswers() {
	values := r.t.RowRule(r.line).Values
	if len(values) == 0 {
		return
	}
	for _, role := range slices.Sorted(maps.Keys(values)) {
		if r.t.ByRole[role] != nil {
			continue
		}
		c := &cells.Column{Column: &units.Column{Column: &columns.Column{Role: role, Scale: 1}}}
		f, bad := r.t.ReadAnswer(r.line, c, catalog.Field{}, values[role])
		if bad.Any() {
			r.t.Add(finding.Warning, bad.Code, r.line, 0, bad.Message, r.t.Settle("rows", r.t.LineName(r.line), string(role)))
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
		if t.ByRole[catalog.Part] != nil {
			t.Add(finding.Error, "data.missing", r.line, t.ByRole[catalog.Part].Col, "the row has sizes but no part number", t.Settle("rows", t.LineName(r.line), "part"))
		}
		r.hold("no part number")
		return
	}
	if t.Adds {
		return // what it lacks stands in another table
	}
	need := traits.Needed[t.Kind]
	hasColumn := false
	for _, role := range need {
		if r.fields.Dim(role).Given() {
			if r.unstated != "" && !slices.ContainsFunc(traits.Keys[t.Kind], func(key catalog.Role) bool { return r.fields.Dim(key).Given() }) {
				r.hold(r.unstated)
			}
			return
		}
		hasColumn = hasColumn || t.ByRole[role] != nil
	}
	if r.held == "" && hasColumn {
		col := 0
		for _, role := range need {
			if c := t.ByRole[role]; c != nil && col == 0 {
				col = c.Col
			}
		}
		t.Add(finding.Error, "data.missing", r.line, col, fmt.Sprintf("%s has no %s", part, orRoles(t.Kind, need, t.ByRole)), t.Settle("rows", t.LineName(r.line), string(need[0])))
	}
	r.hold("no " + orRoles(t.Kind, need, t.ByRole))
}

// orRoles names the roles that would do, those that the table has columns for where it has any.
func orRoles(kind catalog.Kind, roles []catalog.Role, columns map[catalog.Role]*cells.Column) string {
	var names []string
	for _, role := range roles {
		if columns[role] != nil {
			names = append(names, catalog.RoleName(kind, role))
		}
	}
	if len(names) == 0 {
		names = append(names, catalog.RoleName(kind, roles[0]))
	}
	return strings.Join(names, " or ")
}

// finish writes the rows of the line, one for each club of a set, and their entries.
func (r *rowReader) finish(part string) {
	t := r.t
	base, clubs := r.clubs(part)
	clubs = r.spreadParts(part, clubs)
	r.priceOfLot(len(clubs))
	outcome := catalog.Used
	switch {
	case r.held != "":
		outcome = catalog.Held
	case len(r.assumed.texts) > 0:
		outcome = catalog.Assumed
	}
	fields := t.gather.Keep(r.fields)
	open := append(slices.Clip(r.open), r.unknown...)
	t.above = above{r.line, fields, open}
	if !r.heir && (r.held == "" || part == "" && r.needed()) {
		t.parent = parent{part: part, line: t.RowOf(r.line), fields: fields}
	}
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
			if outcome == catalog.Used {
				outcome = catalog.Assumed
			}
		}
		t.Out.Rows = append(t.Out.Rows, catalog.Row{Row: t.RowOf(r.line), Cell: t.Beside(r.line), Outcome: outcome, Part: name, Fields: fields, Assumptions: r.assumed.texts, Why: r.held, Open: slices.Clip(open)})
		if part == "" {
			continue
		}
		e := t.newEntry()
		*e = Entry{Table: t, Row: len(t.Out.Rows) - 1, Line: r.line, Part: name, Fields: fields, assumed: r.assumed, unknown: r.unknown, refused: r.refused}
		if name != base || name != part {
			e.Set, t.hasSets = part, true
		}
		e.Price, e.HasPrice = fields.Price()
		e.PerPiece = r.perPiece
		e.Category = r.category(club.suffix)
		t.Items = append(t.Items, e)
	}
}

// newEntry makes room for an entry.
func (t *Table) newEntry() *Entry {
	const room = 256
	if len(t.entries) == cap(t.entries) {
		t.entries = make([]Entry, 0, room)
	}
	t.entries = t.entries[:len(t.entries)+1]
	return &t.entries[len(t.entries)-1]
}

// source is where a person finds the part.
func (e *Entry) source() catalog.Source {
	t := e.Table
	source := catalog.Source{File: t.File, Sheet: t.Sheet.Name, Row: t.RowOf(e.Line)}
	if t.Region.Grid.AsDrawn() {
		return source
	}
	if t.Region.Grid.Turned {
		source.Row = t.Region.Left
	}
	if c := t.ByRole[catalog.Part]; c != nil {
		ref := t.Region.Grid.Ref(e.Line, c.Col)
		source.Row, source.Cell = ref.Row, ref.String()
	}
	return source
}

// describe writes down how the table is understood, and what a person should know of it as a whole.
func (t *Table) describe() {
	r := t.Region
	t.Out.File, t.Out.Sheet, t.Out.Key, t.Out.Kind, t.Out.HeadingRows = t.File, t.Sheet.Name, t.Key, t.Kind, r.Headings
	t.Out.Ruled, t.Out.Supplier = t.Ruled, t.Supplier
	if !r.Alone {
		t.Out.Range = r.RangeOf().String()
	}
	for _, c := range t.Columns {
		t.Out.Columns = append(t.Out.Columns, t.Shown(c.Column)...)
	}
	t.ReportLayout()
}

// Result counts the ledger and returns the table.
func (t *Table) Result() catalog.Table {
	t.Out.Count()
	t.Findings.Sort()
	t.Out.Findings = t.Findings.ByCause()
	return t.Out
}

// isOpen reports whether the entry's row leaves the value of one of some roles open.
func (e *Entry) isOpen(roles ...catalog.Role) bool {
	return slices.ContainsFunc(e.Open(), func(role catalog.Role) bool { return slices.Contains(roles, role) })
}

// Open are the roles of which the entry's row leaves the value open.
func (e *Entry) Open() []catalog.Role { return e.Table.Out.Rows[e.Row].Open }

// Refused reports whether the entry's row has a value that cannot be used, which no other row can stand in for.
func (e *Entry) Refused() bool { return len(e.Open()) > len(e.unknown) }

// Unknown reports whether the entry's row says that it does not state a value.
func (e *Entry) Unknown(role catalog.Role) bool { return slices.Contains(e.unknown, role) }

// Know takes a value that the entry's row does not state for known: another row of the part states it.
func (e *Entry) Know(role catalog.Role) {
	if !e.Unknown(role) {
		return
	}
	is := func(other catalog.Role) bool { return other == role }
	row := &e.Table.Out.Rows[e.Row]
	e.unknown, row.Open = slices.DeleteFunc(slices.Clone(e.unknown), is), slices.DeleteFunc(slices.Clone(row.Open), is)
}

// Held reports whether the entry's row is held.
func (e *Entry) Held() bool { return e.Table.Out.Rows[e.Row].Outcome == catalog.Held }

func (e *Entry) Place(role catalog.Role) finding.Place {
	return finding.Place{File: e.Table.File, Sheet: e.Table.Sheet.Name, Row: e.source().Row, Cell: e.Fields.Cell(role)}
}
