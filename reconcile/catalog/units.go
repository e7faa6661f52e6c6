package catalog

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// unitTable is a table of which it is known in which unit its sizes are, which tolerances hold for them, and what its bores are.
type unitTable struct {
	*roleTable
	columns []*unitColumn
	byRole  map[Role]*unitColumn
	// notes are what the free texts of the sheet say, and book what those of the other sheets of the file do.
	notes, book general
	// valueNotes are the tolerances for the values that carry a footnote mark, by the mark.
	valueNotes map[string]noteTolerance
	// houseBores is what the shop's settings say of the supplier's bores of ferrules, bores what the table's are taken to be, and
	// boresJudged is set where that was judged by their sizes. See settleBores.
	houseBores, bores string
	boresJudged       bool
}

// unitColumn is a column with the unit of its sizes and the tolerances that hold for them.
type unitColumn struct {
	*column
	// unit is the unit of bare numbers; unitWhy says from where, and unitAssumed is set where nothing states it.
	unit        string
	unitWhy     string
	unitAssumed bool
	mark        value.Mark
	tolerance   *value.Tolerance
	// note is the tolerance that a note on the sheet gives to the column.
	note *noteTolerance
	// coversClass is the sort of sizes that a column of tolerances covers; where covers and it are empty, that is all.
	coversClass string
	// partner is that of the column.
	partner *unitColumn
}

// newUnitTable settles the units, tolerances and bores of a table.
func newUnitTable(t *roleTable, notes, book general, houseBores string) *unitTable {
	u := &unitTable{roleTable: t, notes: notes, book: book, houseBores: houseBores, byRole: map[Role]*unitColumn{}}
	wrapped := map[*column]*unitColumn{}
	for _, c := range t.columns {
		wrapped[c] = &unitColumn{column: c}
		u.columns = append(u.columns, wrapped[c])
	}
	for _, c := range u.columns {
		c.partner = wrapped[c.column.partner]
	}
	for role, c := range t.byRole {
		u.byRole[role] = wrapped[c]
	}
	u.settleUnits()
	u.settleTolerances()
	u.settleBores()
	return u
}

// settleUnits decides for every column of lengths in which unit its bare numbers are.
func (t *unitTable) settleUnits() {
	table := t.tableMark()
	for _, c := range t.columns {
		c.mark = markFrom(c.profile.commas, c.profile.points)
		if c.mark == value.MarkUnknown {
			c.mark = table
		}
		if want := c.trait().want; want == wantLength || want == wantTolerance {
			t.statedUnit(c)
		}
		if c.trait().want == wantLength {
			t.holdFractional(c)
		}
	}
	for _, c := range t.columns {
		if c.trait().want == wantLength && c.unit == "" && c.held == "" && t.byRole[UnitRole] == nil && !t.sectionsGiveUnits() {
			t.inferUnit(c)
		}
	}
	t.borrowUnits()
	t.checkExchanged()
	t.checkRadii()
	for _, c := range t.columns {
		if c.trait().want == wantLength {
			t.checkUnit(c)
		}
	}
}

// checkExchanged holds two columns of which neither has possible sizes for its role, while each would have for that of the
// other.
func (t *unitTable) checkExchanged() {
	var odd []*unitColumn // those whose sizes cannot be what they are said to be
	for _, c := range t.columns {
		if c.trait().want == wantLength && c.held == "" && !t.couldBe(c, c.role) {
			odd = append(odd, c)
		}
	}
	others := map[*unitColumn]map[Role]bool{} // the roles that the sizes of each could have, by their numbers
	for _, c := range odd {
		for _, role := range kindRoles[t.kind] {
			if len(odd) > 1 && t.couldBe(c, role) {
				if others[c] == nil {
					others[c] = map[Role]bool{}
				}
				others[c][role] = true
			}
		}
	}
	for i, a := range odd {
		for _, b := range odd[i+1:] {
			if a.held != "" || b.held != "" || !others[a][b.role] || !others[b][a.role] {
				continue
			}
			why := fmt.Sprintf("%s and %s seem to be exchanged: the sizes of each are possible for the other only", a.name(), b.name())
			for _, c := range []*unitColumn{a, b} {
				c.held = why
				t.addColumn(finding.Error, "layout.exchanged", c.col, why, t.settle("columns", t.region.grid.columnName(c.col), "role"))
			}
		}
	}
}

// checkRadii holds a column of diameters of which most are possible only as radii, and nothing says that they are.
func (t *unitTable) checkRadii() {
	for _, c := range t.columns {
		b, known := boundsOf(t.kind, c.role)
		if !known || !c.trait().diameter || c.scale != 1 || c.held != "" || len(c.profile.sizes) == 0 {
			continue
		}
		for _, unit := range c.unitsTaken() {
			possible, _ := c.profile.within(b, unit, 1)
			doubled, common := c.profile.within(b, unit, 2)
			if possible > 0.2 || doubled < 0.8 || common < 0.5 {
				continue
			}
			example := c.profile.sizes[0].mm(unit)
			c.held = fmt.Sprintf("%s gives sizes that are possible as radii only", c.name())
			t.addColumn(finding.Error, "data.implausible", c.col, fmt.Sprintf("%s gives sizes such as %s, which are possible in %s as radii only: a diameter of %s would fit",
				c.name(), sayMM(example), unitName(unit), sayMM(2*example)), t.settle("columns", t.region.grid.columnName(c.col), "radius"))
			break
		}
	}
}

// unitsTaken returns the unit of a column, or those it may be in.
func (c *unitColumn) unitsTaken() []string {
	if c.unit != "" {
		return []string{c.unit}
	}
	return lengthUnits[:2]
}

// couldBe reports whether most sizes of a column are possible for a role.
func (t *unitTable) couldBe(c *unitColumn, role Role) bool {
	b, known := boundsOf(t.kind, role)
	if !known || c.trait().want != wantLength || len(c.profile.sizes) == 0 || c.unit == "" {
		return false
	}
	possible, _ := c.profile.within(b, c.unit, c.factor())
	return possible > 0.5
}

// statedUnit takes the unit of a column from what is written: the mapping file, the heading, the number format, a note
// on the sheet.
func (t *unitTable) statedUnit(c *unitColumn) {
	rule := t.rules.Columns[t.region.grid.columnName(c.col)]
	ofNames, named := t.unitOfNames(c)
	switch {
	case isLengthUnit(rule.Unit):
		c.unit, c.unitWhy = rule.Unit, "unit from the mapping file"
	case named:
		c.unit, c.unitWhy = ofNames, "its numbers are the names of tips in "+unitName(ofNames)
	case isLengthUnit(c.headingUnit):
		c.unit, c.unitWhy = c.headingUnit, "unit in the heading"
	case c.formatUnit() != "":
		c.unit, c.unitWhy = c.formatUnit(), "unit in the number format"
	case isLengthUnit(t.rules.Unit):
		c.unit, c.unitWhy = t.rules.Unit, "unit from the mapping file"
	case c.trait().want == wantTolerance:
	case t.takeUnitNote(c):
	case t.notes.unit == "" && (t.takeTitleUnit(c) || t.takeRestUnit(c)):
	case t.notes.unit != "":
		c.unit, c.unitWhy = t.notes.unit, "unit from "+describe(t.notes.unitText, t.notes.unitCell)
	}
}

// takeTitleUnit takes the unit that the title above the table itself names, where the sheet names several.
func (t *unitTable) takeTitleUnit(c *unitColumn) bool {
	r := t.region
	if len(r.headings) == 0 || r.grid.turned {
		return false
	}
	for line := r.headings[0] - 1; line >= r.from; line-- {
		for col := r.left; col <= r.right; col++ {
			text := r.grid.at(line, col)
			if text == "" || len(text) > longestNote {
				continue
			}
			if units := t.lex.lengthUnitsIn(text); len(units) == 1 {
				c.unit, c.unitWhy = units[0], "unit from "+describe(text, r.grid.ref(line, col).String())
				return true
			}
		}
	}
	return false
}

// takeRestUnit takes the unit of all sizes that the notes do not speak of one by one.
func (t *unitTable) takeRestUnit(c *unitColumn) bool {
	n := t.restUnit()
	if n == nil {
		return false
	}
	c.unit, c.unitWhy = n.units[0], "unit from "+describe(n.text, n.place.String())
	return true
}

// takeUnitNote takes the unit that a note gives to this size alone. Where the note names several, nobody can know, and the
// column is held.
func (t *unitTable) takeUnitNote(c *unitColumn) bool {
	units, n := t.unitNote(c)
	switch {
	case n == nil:
		return false
	case len(units) == 1:
		c.unit, c.unitWhy = units[0], "unit from "+describe(n.text, n.place.String())
		return true
	case c.held != "" || len(c.bare()) == 0:
		return false
	}
	c.held = fmt.Sprintf("%s may be in %s by the %s", c.name(), strings.Join(units, " or "), describe(n.text, n.place.String()))
	t.addColumn(finding.Error, "data.unit", c.col, c.held+"; say which", t.settle("columns", t.region.grid.columnName(c.col), "unit"))
	return true
}

// inferUnit finds the one unit in which the joint allows the sizes of a column, or, failing that, takes the unit that a
// note elsewhere in the book names.
func (t *unitTable) inferUnit(c *unitColumn) {
	numbers := c.bare()
	if len(numbers) == 0 {
		return
	}
	b, known := boundsOf(t.kind, c.role)
	if !known {
		return
	}
	unit, example := onlyUnit(b, numbers, c.factor())
	switch {
	case unit != "" && (t.book.unit == "" || t.book.unit == unit):
		c.assumeUnit(unit, example)
	case unit != "":
		c.assumeUnit(unit, example+fmt.Sprintf(" (another sheet says %s)", t.book.unit))
	case t.book.unit != "" && fits(b, numbers, t.book.unit, c.factor())*3 >= 2:
		c.assumeUnit(t.book.unit, fmt.Sprintf("another sheet of the file says so (%s)", t.book.unitText))
	}
}

func (c *unitColumn) assumeUnit(unit, evidence string) {
	c.unit, c.unitAssumed = unit, true
	c.unitWhy = fmt.Sprintf("unit of %s taken as %s: %s", c.name(), unitName(unit), evidence)
}

// fits returns the share of numbers that are possible in a unit.
func fits(b bounds, numbers []float64, unit string, factor float64) float64 {
	count := 0
	for _, x := range numbers {
		if b.possible(x * unitMM[unit] * factor) {
			count++
		}
	}
	return float64(count) / float64(len(numbers))
}

// onlyUnit returns the unit in which at least two thirds of the numbers are possible while no other makes more than a
// third possible, or at least half while another makes none possible, with a sentence why. Inches and millimetres are asked first: catalogues in thousandths or centimetres
// are rare enough that they count only where neither of the two will do.
func onlyUnit(b bounds, numbers []float64, factor float64) (unit, why string) {
	for _, candidates := range [][]string{{"mm", "in"}, {"thou", "cm", "um"}} {
		for i, unit := range candidates {
			other := candidates[(i+1)%len(candidates)]
			own, others := fits(b, numbers, unit, factor), fits(b, numbers, other, factor)
			if (3*own < 2 || 3*others > 1) && (2*own < 1 || others > 0) {
				continue
			}
			x := exampleOf(b, numbers, unit, factor)
			return unit, compareUnits(x, unit, other)
		}
		if fits(b, numbers, candidates[0], factor) > 0 || fits(b, numbers, candidates[1], factor) > 0 {
			return "", ""
		}
	}
	return "", ""
}

// compareUnits says what a number is in the unit taken and what it would be in the other.
func compareUnits(x float64, unit, other string) string {
	switch {
	case other == "mm":
		return fmt.Sprintf("%s in is %s, and %s would be too small or too large", trimFloat(x), sayMM(x*unitMM[unit]), sayMM(x))
	case unit == "mm":
		return fmt.Sprintf("%s %s would be %s", trimFloat(x), other, sayMM(x*unitMM[other]))
	}
	return fmt.Sprintf("%s %s is %s, and in %s it would be %s", trimFloat(x), unit, sayMM(x*unitMM[unit]), other, sayMM(x*unitMM[other]))
}

func exampleOf(b bounds, numbers []float64, unit string, factor float64) float64 {
	for _, x := range numbers {
		if b.possible(x * unitMM[unit] * factor) {
			return x
		}
	}
	return numbers[0]
}

// borrowUnits gives a column whose sizes are possible in two units the unit that all other columns of sizes have.
func (t *unitTable) borrowUnits() {
	common := ""
	for _, c := range t.columns {
		if c.trait().want != wantLength || c.unit == "" || c.role == TipTaken {
			continue
		}
		if common != "" && common != c.unit {
			return
		}
		common = c.unit
	}
	if common == "" || t.byRole[UnitRole] != nil {
		return
	}
	for _, c := range t.columns {
		if c.trait().want != wantLength || c.unit != "" || c.held != "" || len(c.bare()) == 0 {
			continue
		}
		if b, known := boundsOf(t.kind, c.role); known && 3*fits(b, c.bare(), common, c.factor()) >= 2 {
			c.assumeUnit(common, "every other size of the table is in "+common)
		}
	}
}

// checkUnit reports a column of bare numbers without a unit, and one whose unit makes most of its sizes impossible while
// another would make them possible.
func (t *unitTable) checkUnit(c *unitColumn) {
	numbers := c.bare()
	b, known := boundsOf(t.kind, c.role)
	if len(numbers) == 0 || !known || c.held != "" {
		return
	}
	key := t.settle("columns", t.region.grid.columnName(c.col), "unit")
	if c.unit == "" {
		if t.byRole[UnitRole] != nil || t.sectionsGiveUnits() {
			return
		}
		c.held = fmt.Sprintf("%s has no unit", c.name())
		t.addColumn(finding.Error, "data.unit", c.col, fmt.Sprintf(
			"%s gives bare numbers such as %s and nothing says in which unit; %s", c.name(), trimFloat(numbers[0]), t.guesses(b, numbers, c.factor())), key)
		return
	}
	if c.unitAssumed {
		t.addColumn(finding.Note, "data.unit", c.col, c.unitWhy, key)
		return
	}
	if fits(b, numbers, c.unit, c.factor())*3 > 1 || len(numbers) == 1 {
		return
	}
	for _, other := range lengthUnits {
		if other != c.unit && fits(b, numbers, other, c.factor())*5 >= 4 {
			c.held = fmt.Sprintf("%s is said to be in %s, which its sizes cannot be", c.name(), unitName(c.unit))
			t.addColumn(finding.Error, "data.unit", c.col, fmt.Sprintf(
				"%s is said to be in %s (%s), but %s %s would be %s; in %s it would be %s", c.name(), unitName(c.unit), c.unitWhy, trimFloat(numbers[0]), c.unit,
				sayMM(numbers[0]*unitMM[c.unit]), unitName(other), sayMM(numbers[0]*unitMM[other])), key)
			return
		}
	}
}

// sectionsGiveUnits reports whether titles within the body name the unit of every line of data.
func (t *unitTable) sectionsGiveUnits() bool {
	unit := ""
	for i, kind := range t.lines {
		line := t.region.from + i
		switch {
		case kind == lineSection || kind == lineUnits:
			unit = t.unitOfSection(t.firstTextOf(line))
		case kind == lineData && unit == "":
			return false
		}
	}
	return unit != ""
}

// unitOfSection returns the unit of length that a title within the body names, empty where it names none or several.
func (t *unitTable) unitOfSection(text string) string {
	if units := t.lex.lengthUnitsIn(text); len(units) == 1 {
		return units[0]
	}
	return ""
}

// guesses says which units are possible.
func (t *unitTable) guesses(b bounds, numbers []float64, factor float64) string {
	var possible []string
	for _, unit := range lengthUnits[:2] {
		if share := fits(b, numbers, unit, factor); share > 0 {
			possible = append(possible, fmt.Sprintf("%.0f%% of them are possible in %s", share*100, unitName(unit)))
		}
	}
	if len(possible) == 0 {
		return "they are possible in neither mm nor inches"
	}
	return strings.Join(possible, ", ")
}

// tableMark returns the decimal mark of the whole table, which is that of the columns that do not tell.
func (t *unitTable) tableMark() value.Mark {
	commas, points := 0, 0
	for _, other := range t.columns {
		commas += other.profile.commas
		points += other.profile.points
	}
	return markFrom(commas, points)
}

func markFrom(commas, points int) value.Mark {
	switch {
	case commas > 0 && points == 0:
		return value.MarkComma
	case points > 0 && commas == 0:
		return value.MarkPoint
	}
	return value.MarkUnknown
}

// settleTolerances finds what the heading of a column and a note on the sheet say of its tolerance.
func (t *unitTable) settleTolerances() {
	for _, c := range t.columns {
		if c.trait().want != wantLength {
			continue
		}
		rule := t.rules.Columns[t.region.grid.columnName(c.col)]
		for _, text := range append([]string{rule.Tolerance}, c.parts...) {
			if text == "" || text != rule.Tolerance && !mayTolerate(text) && !strings.ContainsAny(text, "0123456789") {
				continue
			}
			tolerance, found := t.lex.readTolerance(text, c.cellsUnit())
			if found && tolerance.Problem.Code == "" {
				c.tolerance = &tolerance
				break
			}
		}
	}
	t.coverTolerances()
	t.valueNotes = map[string]noteTolerance{}
	t.spreadNotes()
}

// cellsUnit is the unit of the column, or the one that all its cells state.
func (c *unitColumn) cellsUnit() string {
	if c.unit != "" || len(c.profile.statedUnits) != 1 {
		return c.unit
	}
	for unit, count := range c.profile.statedUnits {
		if isLengthUnit(unit) && count == len(c.profile.sizes) {
			return unit
		}
	}
	return ""
}

// coverTolerances finds for each tolerance column which sizes it is for: those that its heading names, those of the column
// to its left where there are several such pairs, or all.
func (t *unitTable) coverTolerances() {
	count := 0
	lengthsAfter := false
	for _, c := range t.columns {
		if c.role == Tolerance && c.deviation == 0 {
			count++
			lengthsAfter = false
		} else if c.trait().want == wantLength && count > 0 {
			lengthsAfter = true
		}
	}
	for i, c := range t.columns {
		if c.role != Tolerance || c.deviation != 0 {
			continue
		}
		subject := t.subjectOf(c.text)
		c.coversClass = subject.Class
		for _, m := range subject.Roles {
			if role := Role(m.Role); t.byRole[role] != nil && c.covers == "" {
				c.covers = role
			}
		}
		for _, role := range kindRoles[t.kind] {
			if traits[role].want == wantLength && t.byRole[role] != nil && c.covers == "" && c.names(t.kind, role) {
				c.covers = role
			}
		}
		if c.covers == "" && c.coversClass == "" && i > 0 && traits[t.columns[i-1].role].want == wantLength && (count > 1 || lengthsAfter) {
			c.covers = t.columns[i-1].role
		}
	}
}

// names reports whether the heading of a tolerance column also names a role of sizes.
func (c *unitColumn) names(kind Kind, role Role) bool {
	for _, m := range c.matches[kind] {
		if Role(m.Role) == role && m.Score >= leastHeading {
			return true
		}
	}
	return false
}

// tolerates reports whether a column gives tolerances that hold for another's sizes.
func (c *unitColumn) tolerates(role Role) bool {
	return c.role == Tolerance && c.deviation == 0 && (c.covers == role || c.covers == "" && (c.coversClass == "" || c.coversClass == classOf(role)))
}

// deviatesFrom reports whether a column is the left one of two that give the deviations of another's sizes.
func (c *unitColumn) deviatesFrom(role Role) bool { return c.partner != nil && c.covers == role }
