package catalog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// rowTable reads the rows of a table.
type rowTable struct {
	*cellReader
	supplier string
	// read are the columns of which each row has a value, and assumed the first of what rows assume: nothing.
	read    []*cellColumn
	assumed *assumptions
	// stock and entries are what fields and entries are cut from; scratch are the fields of the row that is read.
	stock   []stated
	entries []entry
	scratch []stated
	// titleCategory is the kind of club that the sheet's name or title speaks of, sectionCategory the one that the last title within
	// the body does.
	titleCategory, sectionCategory string
	// repeats is set where part numbers come back with other clubs, so that the club belongs to the part.
	repeats bool
	// partWidth is the number of digits of part numbers with leading zeros, zero where there are none.
	partWidth int
	table     Table
	items     []*entry
}

// entry is one row of the catalogue before it is typed and merged.
type entry struct {
	table *rowTable
	// row is the place of its row in the table, and line its line.
	row, line int
	part      string
	fold      string // see folded
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
	t.table.Rows = slices.Grow(t.table.Rows, len(t.lines))
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
	t.table.Rows = append(t.table.Rows, Row{Row: line, Outcome: SetAside, Why: why})
}

// firstTextOf returns the first text of a line.
func (t *sheetTable) firstTextOf(line int) string {
	for col := t.region.left; col <= t.region.right; col++ {
		if text := t.region.grid.at(line, col); text != "" {
			return text
		}
	}
	return ""
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
	r := rowReader{t: t, line: line, club: club, fields: Fields{t.scratch[:0]}, assumed: t.assumed}
	if t.kindHeld != "" {
		r.hold(t.kindHeld)
	}
	for _, c := range t.read {
		if !c.absent {
			r.readColumn(c)
		}
	}
	t.scratch = r.fields.list
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
	r.fields.list = append(r.fields.list, stated{u.what, at})
	r.assume(u.assumed...)
}

// readRole reads what the columns of a role say together.
func (t *cellReader) readRole(line int, c *cellColumn) (Field, trouble) {
	isLength := traits[c.role].want == wantLength
	if isLength {
		if f, bad, found := t.readMeasured(line, c); found {
			return f, bad
		}
	}
	f, bad := t.readField(line, c)
	switch {
	case c.aspect == least || c.aspect == most:
		return t.readLimits(line, c, f, bad)
	case isLength && !bad.any():
		return t.readRepeats(line, c, f)
	}
	return f, bad
}

// checkForm reports the text of a form that is not known, once for each text.
func (t *cellReader) checkForm(line int, c *cellColumn, text string) {
	ask := topQuestion(text)
	if c.role == Style {
		ask = styleQuestion(text)
	}
	reading := t.lex.read(text, value.Context{Language: t.language})
	if text == "" || t.lex.word(ask) != "" || reading.Kind == value.NotApplicable || reading.Kind == value.Missing {
		return
	}
	fromLine, fromCol := t.region.grid.source(line, c.col)
	t.tell(toldKey{text, c.col}, finding.Warning, "data.unreadable", fromLine, fromCol, func() string {
		return fmt.Sprintf("%s %q is no form that is known, and is left open", c.name(), text)
	})
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

// readLimits joins a least and a greatest size to one dimension.
func (t *cellReader) readLimits(line int, c *cellColumn, f Field, bad trouble) (Field, trouble) {
	for _, other := range t.columns {
		if other == c || other.role != c.role || other.aspect == c.aspect || other.aspect == repeat {
			continue
		}
		second, worse := t.readField(line, other)
		switch {
		case bad.any():
			return f, bad
		case worse.any():
			return second, worse
		case !f.Dim.Given():
			return second, trouble{}
		case !second.Dim.Given():
			return f, trouble{}
		}
		lower, upper := f, second
		if c.aspect == most {
			lower, upper = second, f
		}
		if upper.Dim.Nominal().Less(lower.Dim.Nominal()) {
			return f, problem("data.conflict", "%s is at least %s (%s) and at most %s (%s)", c.role, lower.Text, lower.Cell, upper.Text, upper.Cell)
		}
		f.Dim = measure.Between(lower.Dim.Nominal(), upper.Dim.Nominal()).WithOrigin(measure.Stated)
		f.Text = f.Text + " to " + second.Text
		f.Assumptions = append(f.Assumptions, second.Assumptions...)
	}
	return f, bad
}

// readRepeats compares a size with the other columns that state it again, and with the columns of its limits.
func (t *cellReader) readRepeats(line int, c *cellColumn, f Field) (Field, trouble) {
	var lower, upper measure.Dim
	for _, other := range t.columns {
		if other == c || other.role != c.role {
			continue
		}
		second, bad := t.readField(line, other)
		if bad.any() || !second.Dim.Given() {
			continue
		}
		switch {
		case other.aspect == least:
			lower = second.Dim
		case other.aspect == most:
			upper = second.Dim
		case !f.Dim.Given():
			second.Assumptions = append(second.Assumptions, fmt.Sprintf("%s taken from column %s", c.role, t.region.grid.columnName(other.col)))
			f = second
		default:
			slack := fineness(f.Text, f.Dim.Nominal(), c.profile.digits).Add(fineness(second.Text, second.Dim.Nominal(), other.profile.digits))
			if apart(f.Dim.Nominal(), second.Dim.Nominal(), slack) {
				return f, problem("data.conflict", "%s is %s (%s) in %s but %s (%s) in %s", c.role, f.Text, sayMM(mm(f.Dim.Nominal())), f.Cell, second.Text,
					sayMM(mm(second.Dim.Nominal())), second.Cell)
			}
		}
	}
	if lower.Given() && upper.Given() {
		if !f.Dim.Given() {
			f.Dim = measure.Between(lower.Nominal(), upper.Nominal())
			return f, trouble{}
		}
		n := f.Dim.Nominal()
		if n.Less(lower.Nominal()) || upper.Nominal().Less(n) {
			return f, problem("data.conflict", "%s %s lies outside its own limits of %s to %s", c.role, f.Text, sayMM(mm(lower.Nominal())), sayMM(mm(upper.Nominal())))
		}
		f.Dim = measure.WithDeviations(n, lower.Nominal().Sub(n), upper.Nominal().Sub(n))
	}
	return f, trouble{}
}

// fineness returns half of the last digit with which a size is written: .535" is known to half a thousandth of an inch.
// A plain number is taken to be as fine as the others of its column, with their number of decimals.
func fineness(text string, size measure.Length, others int) measure.Length {
	digits, decimals, point := 0, 0, false
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9':
			digits++
			if point {
				decimals++
			}
		case (r == '.' || r == ',') && !point:
			point = true
		case digits > 0:
			goto counted
		}
	}
counted:
	if strings.Trim(text, "0123456789.,") == "" {
		decimals = max(decimals, others)
	}
	unit := measure.Millimetres(1)
	if written := numberOf(text); written > 0 {
		switch ratio := mm(size) / written; {
		case ratio > 5:
			unit = measure.Inches(1)
		case ratio < 0.1:
			unit = measure.Thou(1)
		}
	}
	for ; decimals > 0; decimals-- {
		unit = unit.DivRound(10)
	}
	return unit.Half()
}

// numberOf returns the first decimal number of a text, zero where there is none.
func numberOf(text string) float64 {
	start := strings.IndexAny(text, "0123456789.,")
	if start < 0 {
		return 0
	}
	x, scale, point := 0.0, 1.0, false
	for _, r := range text[start:] {
		switch {
		case r >= '0' && r <= '9':
			x = x*10 + float64(r-'0')
			if point {
				scale *= 10
			}
		case (r == '.' || r == ',') && !point:
			point = true
		default:
			return x / scale
		}
	}
	return x / scale
}

// addAnswers adds the values that the mapping file gives for roles that the table has no column for.
func (r *rowReader) addAnswers() {
	values := r.t.rules.row(r.line).Values
	if len(values) == 0 {
		return
	}
	for _, role := range sortedKeys(values) {
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

// needed are the roles of which a part of each kind has to have one.
var needed = [...][]Role{Heads: {HoselOD, AdapterOD}, Ferrules: {BaseOD, Bore, TipTaken}, Tips: {TipOD}}

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
		if r.fields.dim(role).Given() {
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
	fields := t.keep(r.fields)
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
		t.table.Rows = append(t.table.Rows, Row{Row: r.line, Outcome: outcome, Part: name, Fields: fields, Assumptions: r.assumed.texts, Why: r.held})
		if part == "" {
			continue
		}
		e := t.newEntry()
		*e = entry{table: t, row: len(t.table.Rows) - 1, line: r.line, part: name, fields: fields, assumed: r.assumed}
		if price := fields.full(Price); price != nil {
			e.price, e.hasPrice = price.Number, price.IsNumber
		}
		e.category = r.category(club.suffix)
		t.items = append(t.items, e)
	}
}

// keep copies the fields of a row out of the room in which it was read.
func (t *rowTable) keep(fields Fields) Fields {
	const room = 4096
	n := len(fields.list)
	if n > cap(t.stock)-len(t.stock) {
		t.stock = make([]stated, 0, max(room, n))
	}
	start := len(t.stock)
	t.stock = append(t.stock, fields.list...)
	return Fields{t.stock[start:len(t.stock):len(t.stock)]}
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

// category finds the kind of club: from the row, the title above it, its description or a club that names its kind itself, the
// sheet's title. A club's plain number says least: it is an iron's only where nothing else speaks.
func (r *rowReader) category(club string) string {
	number := r.t.lex.plainNumber(cmp.Or(club, r.fields.Text(Club)))
	for _, role := range []Role{Category, Club, Description, Part} {
		if kind := r.kindSaid(role, club); kind != "" {
			return kind
		}
		if role == Description && r.t.sectionCategory != "" {
			return firstWood(r.t.sectionCategory, cmp.Or(number, club))
		}
	}
	if kind := clubCategory(club); kind != "" && number == "" {
		return kind
	}
	if r.t.titleCategory != "" {
		return firstWood(r.t.titleCategory, cmp.Or(number, club))
	}
	return clubCategory(number)
}

// kindSaid returns the kind of club that a cell of the row names, beside a number.
func (r *rowReader) kindSaid(role Role, club string) string {
	lex, text := r.t.lex, r.fields.Text(role)
	if text == "" {
		return ""
	}
	if kind := clubCategory(text); role == Club && club == "" && kind != "" && lex.plainNumber(text) == "" {
		return kind
	}
	if hit, found := lex.category(text); found && hit.Score >= 0.2 && (role != Part || hit.Score >= 0.5) {
		return hit.Value
	}
	if role != Part && lex.plainNumber(text) == "" {
		if set := lex.setOf("", text); len(set) == 1 {
			return clubCategory(set[0])
		}
	}
	return ""
}

// plainNumber returns the number of the club that a text names without its kind: 7, #7, 7番; empty where it names anything else.
func (l *lexicon) plainNumber(text string) string {
	text = strings.TrimSpace(text)
	if set := l.setOf("", text); len(set) == 1 {
		text = set[0]
	}
	if len(text) != 1 || !isDigits(text) {
		return ""
	}
	return text
}

// firstWood makes the first of the woods the driver, which it is in every language.
func firstWood(category, club string) string {
	if category == "fairway" && (club == "1" || club == "1W") {
		return "driver"
	}
	return category
}

// clubCategory returns the kind of a club in short form.
func clubCategory(club string) string {
	club = strings.ToUpper(strings.TrimSpace(club))
	switch club {
	case "":
		return ""
	case "1W", "DR":
		return "driver"
	case "PW", "GW", "AW", "SW", "LW", "UW":
		return "wedge"
	}
	if isDigits(club) && len(club) == 1 {
		return "iron"
	}
	if len(club) < 2 {
		return ""
	}
	switch digits := club[:len(club)-1]; {
	case strings.Trim(digits, "0123456789") != "":
		return ""
	case club[len(club)-1] == 'W':
		return "fairway"
	case club[len(club)-1] == 'H':
		return "hybrid"
	case club[len(club)-1] == 'I':
		return "iron"
	}
	return ""
}

// part returns the row's part number as a person would type it, and reports what a spreadsheet program did to it.
func (r *rowReader) part() string {
	t := r.t
	c := t.byRole[Part]
	if c == nil {
		if text := r.fields.Text(Part); text != "" || t.titlePart == "" {
			return text
		}
		r.assume(fmt.Sprintf("part number %s taken from the title", t.titlePart))
		return t.titlePart
	}
	if _, answered := t.rules.row(r.line).Values[Part]; answered {
		return r.fields.Text(Part)
	}
	f := r.fields.Text(Part)
	if f == "" {
		return ""
	}
	line, col := t.region.grid.source(r.line, c.col)
	text, bad := t.partText(f, line, col)
	if bad.any() {
		t.add(bad.severity, bad.code, line, col, bad.message, t.settle("rows", lineName(r.line), string(Part)))
		if bad.severity == finding.Error {
			r.hold(bad.message)
		}
	}
	if text != f {
		changed := r.fields.Get(Part)
		changed.Text = text
		r.fields = r.fields.With(Part, changed)
	}
	return text
}

// partText returns the part number of a cell.
func (t *rowTable) partText(text string, line, col int) (string, trouble) {
	cell := t.region.grid.cell(line, col)
	switch {
	case cell.Kind == sheet.Number && isDigits(cell.Shown) && strings.TrimLeft(cell.Shown, "0") == strings.TrimLeft(text, "0"):
		if cell.Shown != text {
			text = cell.Shown
			return text, trouble{finding.Note, "data.part-number", fmt.Sprintf("the part number is stored as the number %s and shown as %s, which is used", cell.Raw, cell.Shown)}
		}
	case cell.Kind == sheet.Number && len(text) > 15:
		return text, problem("data.damaged", "the part number is stored as a number of more than 15 digits, of which the last are lost: %s", cell.Shown)
	case cell.Kind == sheet.Number && strings.ContainsAny(cell.Shown, "eE"):
		return text, doubt("data.damaged", "the part number is stored as a number and shown as %s; read as %s", cell.Shown, text)
	case cell.Kind == sheet.Text && isExponent(text):
		return text, problem("data.damaged", "the part number %s was made a number by a spreadsheet program; its digits are lost", text)
	case strings.HasPrefix(text, "'"):
		text = strings.TrimPrefix(text, "'")
	case strings.HasPrefix(text, `="`) && strings.HasSuffix(text, `"`):
		inner := strings.TrimSuffix(strings.TrimPrefix(text, `="`), `"`)
		t.tell(toldKey{"quoted", col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("%s is the part number %s in a form that protects it from a spreadsheet program", cell.Raw, inner)
		})
		text = inner
	case cell.Kind == sheet.Text && len(text) > 1 && text[0] == '0' && isDigits(text):
		t.tell(toldKey{"zeros", col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("the part number %s is text, and keeps its leading zeros", text)
		})
	}
	if t.partWidth > 0 && isDigits(text) && len(text) < t.partWidth {
		return text, doubt("data.damaged", "the part number %s is shorter than the others, which have %d digits; perhaps %s lost its leading zeros", text, t.partWidth,
			strings.Repeat("0", t.partWidth-len(text))+text)
	}
	return text, trouble{}
}

func isDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// isExponent reports whether a text is a number in scientific notation, such as 1.2E+05.
func isExponent(s string) bool {
	mantissa, exponent, found := strings.Cut(strings.ToUpper(s), "E")
	if !found || len(exponent) < 2 || exponent[0] != '+' && exponent[0] != '-' || !isDigits(exponent[1:]) {
		return false
	}
	whole, fraction, _ := strings.Cut(strings.Replace(mantissa, ",", ".", 1), ".")
	return isDigits(whole) && len(whole) == 1 && (fraction == "" || isDigits(fraction))
}
