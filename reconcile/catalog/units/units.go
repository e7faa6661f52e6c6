// Package units settles for each column of sizes in which unit bare numbers are and which tolerances hold, from headings, formats, notes,
// and what the joint allows; and whether bores of ferrules are the names of tips.
package units

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// Table is a table of which it is known in which unit its sizes are, which tolerances hold for them, and what its bores are.
type Table struct {
	*columns.Table
	Columns []*Column
	ByRole  map[catalog.Role]*Column
	// notes are what the free texts of the sheet say, and book what those of the other sheets of the file do.
	notes, book layout.Notes
	// ofClauses is what the clauses of the notes speak of, nil where nobody asked, see clauseSubjects.
	ofClauses []words.Subject
	// ValueNotes are the tolerances for the values that carry a footnote mark, by the mark.
	ValueNotes map[string]noteTolerance
	// houseBores is what the shop's settings say of the supplier's bores of ferrules, bores what the table's are taken to be, and
	// boresJudged is set where that was judged by their sizes. See settleBores.
	houseBores, Bores string
	BoresJudged       bool
	// headHoles is set where the bores of heads are all taken for holes, see settleHeadBores.
	headHoles bool
	// sections are the lines of titles within the body, nil where they were not looked for.
	sections []int
}

// Column is a column with the unit of its sizes and the tolerances that hold for them.
type Column struct {
	*columns.Column
	// Unit is the unit of bare numbers; unitWhy says from where, and unitAssumed is set where nothing states it.
	Unit        string
	UnitWhy     string
	UnitAssumed bool
	// ByEach is set where nothing states a unit, and bare numbers in inches and in millimetres stand in one column: each is in the one unit in
	// which it is possible. Unit is that of most.
	ByEach bool
	// UnitsBeside is the column that names the unit of each bare number, nil where none does.
	UnitsBeside *Column
	// UnitRuled is set where a person says which unit it is.
	UnitRuled bool
	Mark      value.Mark
	Tolerance *value.Tolerance
	// Note is the tolerance that a note on the sheet gives to the column.
	Note *noteTolerance
	// sectionNotes are those that titles within the body give to the lines below them.
	sectionNotes []noteTolerance
	// clubNotes are those for some kinds of club.
	clubNotes []noteTolerance
	// covered is what the heading of a column of tolerances speaks of; where it names no sort of sizes and Covers is empty, they are for all.
	covered words.Subject
	// Misfit says that most sizes of the column are none of its role, so that the rest is not used either; empty where that is not so.
	Misfit string
	// Partner is that of the column.
	Partner *Column
}

// RemarksOn returns the free texts that may say more of a part.
func (t *Table) RemarksOn(part string) []layout.Remark {
	if len(t.notes.Remarks) == 0 {
		return nil
	}
	return t.notes.Remarks[words.Fold(part)]
}

// TipNotes returns the free texts that say for which tip the parts are.
func (t *Table) TipNotes() []layout.TipNote { return t.notes.Tips }

// BoreNotes returns the free texts with numbers that name several tips.
func (t *Table) BoreNotes() []layout.SizeNote { return t.notes.OfTips }

// ClubNotes returns the free texts with numbers that name several kinds of club.
func (t *Table) ClubNotes() []layout.SizeNote { return t.notes.OfClubs }

// Settle settles the units, tolerances and bores of a table.
func Settle(t *columns.Table, notes, book layout.Notes, houseBores string) *Table {
	u := &Table{Table: t, notes: notes, book: book, houseBores: houseBores, ByRole: map[catalog.Role]*Column{}}
	wrapped := map[*columns.Column]*Column{}
	for _, c := range t.Columns {
		wrapped[c] = &Column{Column: c}
		u.Columns = append(u.Columns, wrapped[c])
	}
	for _, c := range u.Columns {
		c.Partner = wrapped[c.Column.Partner]
	}
	for role, c := range t.ByRole {
		u.ByRole[role] = wrapped[c]
	}
	u.settleUnits()
	u.settleTolerances()
	u.settleBores()
	return u
}

// settleUnits decides for every column of lengths in which unit its bare numbers are.
func (t *Table) settleUnits() {
	table := t.tableMark()
	for _, c := range t.Columns {
		c.Mark = markFrom(c.Profile.Commas, c.Profile.Points)
		// What parts thousands of pieces is no decimal mark, nor is what parts those of money in a table with the other mark.
		money := c.Trait().Want == traits.Price && table != value.MarkUnknown && c.Profile.OnlyThousands()
		if c.Mark == value.MarkUnknown || c.Trait().Want == traits.Count || money {
			c.Mark = table
		}
	}
	t.coverUnits()
	for _, c := range t.Columns {
		if want := c.Trait().Want; want == traits.Length || want == traits.Tolerance {
			t.statedUnit(c)
		}
		if c.Trait().Want == traits.Length {
			t.holdFractional(c)
		}
	}
	for _, c := range t.Columns {
		if c.Trait().Want == traits.Length && c.Unit == "" && c.Held == "" && c.UnitsBeside == nil && !t.sectionsGiveUnits() {
			t.inferUnit(c)
		}
	}
	t.borrowUnits()
	t.checkExchanged()
	t.checkRadii()
	t.checkMisfits()
	for _, c := range t.Columns {
		if c.Trait().Want == traits.Length {
			t.checkUnit(c)
		}
	}
}

// checkExchanged holds two columns of which neither has possible sizes for its role, while each would have for that of the
// other.
func (t *Table) checkExchanged() {
	var odd []*Column // those whose sizes cannot be what they are said to be
	for _, c := range t.Columns {
		if c.Trait().Want == traits.Length && c.Held == "" && (!t.couldBe(c, c.Role) || t.rare(c)) {
			odd = append(odd, c)
		}
	}
	if len(odd) < 2 {
		return
	}
	// The columns of a role whose sizes could have another one, in their order: each is looked at once, however many there are.
	type turn struct{ is, couldBe catalog.Role }
	waiting := map[turn][]*Column{}
	others := map[*Column][]catalog.Role{}
	for _, c := range odd {
		for _, role := range traits.OfKind[t.Kind] {
			if role != c.Role && t.couldBe(c, role) {
				waiting[turn{c.Role, role}] = append(waiting[turn{c.Role, role}], c)
				others[c] = append(others[c], role)
			}
		}
	}
	for _, a := range odd {
		if a.Held != "" {
			continue
		}
		var b *Column
		for _, role := range others[a] {
			queue := waiting[turn{role, a.Role}]
			for len(queue) > 0 && (queue[0].Held != "" || queue[0].Col <= a.Col) {
				queue = queue[1:]
			}
			if waiting[turn{role, a.Role}] = queue; len(queue) > 0 && (b == nil || queue[0].Col < b.Col) {
				b = queue[0]
			}
		}
		if b == nil || t.couldBe(a, a.Role) && t.couldBe(b, b.Role) {
			continue
		}
		why := fmt.Sprintf("%s and %s seem to be exchanged: the sizes of each are those of the other", a.Name(), b.Name())
		for _, c := range []*Column{a, b} {
			c.Held = why
			t.AddColumn(finding.Error, "layout.exchanged", c.Col, why, t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "role"))
		}
	}
}

// rare reports whether none of the sizes of a column is such as parts commonly have for its role.
func (t *Table) rare(c *Column) bool {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	return known && c.Trait().Diameter && len(c.Profile.Sizes) > 0 && !slices.ContainsFunc(c.unitsTaken(), func(unit string) bool {
		_, common := c.Profile.Within(b, unit, c.Factor())
		return common > 0
	})
}

// checkRadii holds a column of diameters of which most are possible only as radii, and nothing says that they are.
func (t *Table) checkRadii() {
	for _, c := range t.Columns {
		b, known := traits.BoundsOf(t.Kind, c.Role)
		if !known || !c.Trait().Diameter || c.Scale != 1 || c.Held != "" || len(c.Profile.Sizes) == 0 {
			continue
		}
		for _, unit := range c.unitsTaken() {
			possible, _ := c.Profile.Within(b, unit, 1)
			doubled, common := c.Profile.Within(b, unit, 2)
			if possible > 0.2 || doubled < 0.8 || common < 0.5 {
				continue
			}
			example := c.Profile.Sizes[0].MM(unit)
			c.Held = fmt.Sprintf("%s gives sizes that are possible as radii only", c.Name())
			t.AddColumn(finding.Error, "data.implausible", c.Col, fmt.Sprintf("%s gives sizes such as %s, which are possible in %s as radii only: a diameter of %s would fit",
				c.Name(), traits.SayMM(example), traits.UnitName(unit), traits.SayMM(2*example)), t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "radius"))
			break
		}
	}
}

// checkMisfits doubts the other sizes of a column too where most are none of its role, or some and the rest are none that parts commonly have:
// it may be another one's.
func (t *Table) checkMisfits() {
	for _, c := range t.Columns {
		b, known := traits.BoundsOf(t.Kind, c.Role)
		n := float64(len(c.Profile.Sizes))
		if !known || c.Trait().Want != traits.Length || c.Role == catalog.TipTaken || c.Held != "" || n < leastMisfits || t.ruleOf(c).Role != "" {
			continue
		}
		possible := 0.0
		for _, unit := range c.unitsTaken() {
			share, _ := c.Profile.Within(b, unit, c.Factor())
			possible = max(possible, share)
		}
		if possible == 0 || possible >= 0.5 && !(t.rare(c) && n*(1-possible) >= leastRare) {
			continue
		}
		c.Misfit = fmt.Sprintf("%.0f of %.0f sizes of %s are none that parts have as %s, %g to %g mm; the others are not used either",
			n*(1-possible), n, c.Name(), catalog.RoleName(t.Kind, c.Role), b.Least, b.Most)
		t.AddColumn(finding.Error, "data.implausible", c.Col, c.Misfit, t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "role"))
	}
}

// unitsTaken returns the unit of a column, or those it may be in.
func (c *Column) unitsTaken() []string {
	if c.Unit != "" {
		return []string{c.Unit}
	}
	return traits.LengthUnits[:2]
}

// couldBe reports whether most sizes of a column are possible for a role, in its unit or in one that it may be in.
func (t *Table) couldBe(c *Column, role catalog.Role) bool {
	b, known := traits.BoundsOf(t.Kind, role)
	return known && c.Trait().Want == traits.Length && len(c.Profile.Sizes) > 0 && slices.ContainsFunc(c.unitsTaken(), func(unit string) bool {
		possible, _ := c.Profile.Within(b, unit, c.Factor())
		return possible > 0.5
	})
}

// statedUnit takes the unit of a column from what is written: the mapping file, the heading, the number format, a note
// on the sheet.
func (t *Table) statedUnit(c *Column) {
	rule := t.Rules.Columns[t.Region.Grid.ColumnName(c.Col)]
	ofNames, named := t.unitOfNames(c)
	switch {
	case traits.IsLengthUnit(rule.Unit):
		c.Unit, c.UnitWhy, c.UnitRuled = rule.Unit, "unit from the mapping file", true
	case t.ruledAgainst(c):
		c.Unit, c.UnitWhy, c.UnitRuled = t.Rules.Unit, "unit from the mapping file", true
	case c.UnitAssumed: // since the units beside it do not fit
	case named:
		c.Unit, c.UnitWhy = ofNames, "its numbers are the names of tips in "+traits.UnitName(ofNames)
	case traits.IsLengthUnit(c.HeadingUnit):
		c.Unit, c.UnitWhy = c.HeadingUnit, "unit in the heading"
	case c.FormatUnit() != "":
		c.Unit, c.UnitWhy = c.FormatUnit(), "unit in the number format"
	case traits.IsLengthUnit(t.Rules.Unit):
		c.Unit, c.UnitWhy = t.Rules.Unit, "unit from the mapping file"
	case c.Trait().Want == traits.Tolerance:
	case t.takeUnitNote(c):
	case t.notes.Unit == "" && (t.takeTitleUnit(c) || t.takeRestUnit(c)):
	case t.notes.Unit != "" && t.statesForAll():
		c.Unit, c.UnitWhy = t.notes.Unit, "unit from "+layout.Describe(t.notes.UnitText, t.notes.UnitCell)
	}
}

// ruledAgainst reports whether a person gives the table another unit than a heading does, in which the sizes below it cannot be while they can
// in that of the person, which is for the columns that say nothing else.
func (t *Table) ruledAgainst(c *Column) bool {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	numbers, person, heading := c.Bare(), t.Rules.Unit, c.HeadingUnit
	if !known || len(numbers) == 0 || !traits.IsLengthUnit(person) || !traits.IsLengthUnit(heading) || person == heading {
		return false
	}
	return fits(b, numbers, heading, c.Factor()) < 1-leastCovered && fits(b, numbers, person, c.Factor()) >= leastCovered
}

// takeTitleUnit takes the unit that the title above the table itself names, where the sheet names several.
func (t *Table) takeTitleUnit(c *Column) bool {
	r := t.Region
	if len(r.Headings) == 0 || r.Grid.Turned {
		return false
	}
	for line := r.Headings[0] - 1; line >= r.From; line-- {
		for col := r.Left; col <= r.Right; col++ {
			text := r.Grid.At(line, col)
			if text == "" || len(text) > lexicon.LongestNote {
				continue
			}
			if units := t.Lex.UnitsStated(text); len(units) == 1 {
				c.Unit, c.UnitWhy = units[0], "unit from "+layout.Describe(text, r.Grid.Ref(line, col).String())
				return true
			}
		}
	}
	return false
}

// takeRestUnit takes the unit of all sizes that the notes do not speak of one by one.
func (t *Table) takeRestUnit(c *Column) bool {
	n := t.restUnit(c)
	if n == nil {
		return false
	}
	c.Unit, c.UnitWhy = n.Units[0], "unit from "+layout.Describe(n.Text, n.Place.String())
	return true
}

// takeUnitNote takes the unit that a note gives to this size alone. Where the note names several, nobody can know, and the
// column is held.
func (t *Table) takeUnitNote(c *Column) bool {
	units, n := t.unitNote(c)
	switch {
	case n == nil:
		return false
	case len(units) == 1:
		c.Unit, c.UnitWhy = units[0], "unit from "+layout.Describe(n.Text, n.Place.String())
		return true
	case c.Held != "" || len(c.Bare()) == 0:
		return false
	}
	c.Held = fmt.Sprintf("%s may be in %s by the %s", c.Name(), strings.Join(units, " or "), layout.Describe(n.Text, n.Place.String()))
	t.AddColumn(finding.Error, "data.unit", c.Col, c.Held+"; say which", t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "unit"))
	return true
}

// inferUnit finds the one unit in which the joint allows the sizes of a column, or, failing that, takes the unit that a
// note elsewhere in the book names.
func (t *Table) inferUnit(c *Column) {
	numbers := c.Bare()
	if len(numbers) == 0 {
		return
	}
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if !known {
		return
	}
	unit, example := onlyUnit(b, numbers, c.Factor())
	switch {
	case unit != "" && (t.book.Unit == "" || t.book.Unit == unit):
		c.assumeUnit(unit, example)
	case unit != "":
		c.assumeUnit(unit, example+fmt.Sprintf(" (another sheet says %s)", t.book.Unit))
	case t.book.Unit != "" && fits(b, numbers, t.book.Unit, c.Factor())*3 >= 2:
		c.assumeUnit(t.book.Unit, fmt.Sprintf("another sheet of the file says so (%s)", t.book.UnitText))
	default:
		c.takeEach(b, numbers)
	}
}

// takeEach takes each bare number of a column in inches or millimetres, whichever it can be in, where hardly any can be in neither and none in
// both. No note may speak of a unit: it would be meant for these numbers.
func (c *Column) takeEach(b traits.Bounds, numbers []float64) {
	mm, inches, both := fits(b, numbers, "mm", c.Factor()), fits(b, numbers, "in", c.Factor()), 0
	for _, x := range numbers {
		if b.Possible(x*c.Factor()) && b.Possible(x*traits.UnitMM["in"]*c.Factor()) {
			both++
		}
	}
	if both > 0 || mm == 0 || inches == 0 || mm+inches < leastOfEach || c.Scale != 1 {
		return
	}
	c.ByEach = true
	c.assumeUnit("mm", "")
	if inches > mm {
		c.Unit = "in"
	}
	c.UnitWhy = fmt.Sprintf("%s has sizes in inches and in mm: %s can only be inches, %s only mm, and each is taken so", c.Name(),
		traits.TrimFloat(exampleOf(b, numbers, "in", c.Factor())), traits.TrimFloat(exampleOf(b, numbers, "mm", c.Factor())))
}

func (c *Column) assumeUnit(unit, evidence string) {
	c.Unit, c.UnitAssumed = unit, true
	c.UnitWhy = fmt.Sprintf("unit of %s taken as %s: %s", c.Name(), traits.UnitName(unit), evidence)
}

// fits returns the share of numbers that are possible in a unit.
func fits(b traits.Bounds, numbers []float64, unit string, factor float64) float64 {
	count := 0
	for _, x := range numbers {
		if b.Possible(x * traits.UnitMM[unit] * factor) {
			count++
		}
	}
	return float64(count) / float64(len(numbers))
}

// onlyUnit returns the unit in which at least two thirds of the numbers are possible while no other makes more than a
// third possible, or at least half while another makes none possible, with a sentence why. Inches and millimetres are asked first: catalogues in thousandths or centimetres
// are rare enough that they count only where neither of the two will do.
func onlyUnit(b traits.Bounds, numbers []float64, factor float64) (unit, why string) {
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
		return fmt.Sprintf("%s in is %s, and %s would be too small or too large", traits.TrimFloat(x), traits.SayMM(x*traits.UnitMM[unit]), traits.SayMM(x))
	case unit == "mm":
		return fmt.Sprintf("%s %s would be %s", traits.TrimFloat(x), other, traits.SayMM(x*traits.UnitMM[other]))
	}
	return fmt.Sprintf("%s %s is %s, and in %s it would be %s", traits.TrimFloat(x), unit, traits.SayMM(x*traits.UnitMM[unit]), other, traits.SayMM(x*traits.UnitMM[other]))
}

func exampleOf(b traits.Bounds, numbers []float64, unit string, factor float64) float64 {
	for _, x := range numbers {
		if b.Possible(x * traits.UnitMM[unit] * factor) {
			return x
		}
	}
	return numbers[0]
}

// borrowUnits gives a column whose sizes are possible in two units the unit that all other columns of sizes have.
func (t *Table) borrowUnits() {
	common := ""
	for _, c := range t.Columns {
		if c.Trait().Want != traits.Length || c.Unit == "" || c.Role == catalog.TipTaken {
			continue
		}
		if common != "" && common != c.Unit {
			return
		}
		common = c.Unit
	}
	if common == "" || slices.ContainsFunc(t.Columns, func(c *Column) bool { return c.UnitsBeside != nil }) {
		return
	}
	for _, c := range t.Columns {
		if c.Trait().Want != traits.Length || c.Unit != "" || c.Held != "" || len(c.Bare()) == 0 {
			continue
		}
		if b, known := traits.BoundsOf(t.Kind, c.Role); known && 3*fits(b, c.Bare(), common, c.Factor()) >= 2 {
			c.assumeUnit(common, "every other size of the table is in "+common)
		}
	}
}

// checkUnit reports a column of bare numbers without a unit, and one whose unit makes most of its sizes impossible while
// another would make them possible.
func (t *Table) checkUnit(c *Column) {
	numbers := c.Bare()
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if c.UnitRuled {
		t.reportRuled(c)
		return
	}
	if len(numbers) == 0 || !known || c.Held != "" {
		return
	}
	key := t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "unit")
	if c.Unit == "" {
		if c.UnitsBeside != nil || t.sectionsGiveUnits() {
			return
		}
		c.Held = fmt.Sprintf("%s has no unit", c.Name())
		t.AddColumnBy("no unit", finding.Error, "data.unit", c.Col, fmt.Sprintf(
			"%s gives bare numbers such as %s and nothing says in which unit; %s", c.Name(), traits.TrimFloat(numbers[0]), t.guesses(b, numbers, c.Factor())), key)
		return
	}
	if c.UnitAssumed {
		severity := finding.Note
		if c.ByEach {
			severity = finding.Warning
		}
		t.AddColumnBy(c.Unit+" taken", severity, "data.unit", c.Col, c.UnitWhy, key)
		return
	}
	if fits(b, numbers, c.Unit, c.Factor())*3 > 1 || len(numbers) == 1 {
		return
	}
	for _, other := range traits.LengthUnits {
		if other != c.Unit && fits(b, numbers, other, c.Factor())*5 >= 4 {
			c.Held = fmt.Sprintf("%s is said to be in %s, which its sizes cannot be", c.Name(), traits.UnitName(c.Unit))
			t.AddColumnBy(other+" for "+c.Unit, finding.Error, "data.unit", c.Col, fmt.Sprintf(
				"%s is said to be in %s (%s), but %s %s would be %s; in %s it would be %s", c.Name(), traits.UnitName(c.Unit), c.UnitWhy, traits.TrimFloat(numbers[0]), c.Unit,
				traits.SayMM(numbers[0]*traits.UnitMM[c.Unit]), traits.UnitName(other), traits.SayMM(numbers[0]*traits.UnitMM[other])), key)
			return
		}
	}
}

// sectionsGiveUnits reports whether titles within the body name the unit of every line of data.
func (t *Table) sectionsGiveUnits() bool {
	unit := ""
	for i, kind := range t.Lines {
		line := t.Region.From + i
		switch {
		case kind == columns.LineSection || kind == columns.LineUnits:
			unit = t.UnitOfSection(t.FirstTextOf(line))
		case kind == columns.LineData && unit == "":
			return false
		}
	}
	return unit != ""
}

// UnitOfSection returns the unit of length that a title within the body names, empty where it names none or several.
func (t *Table) UnitOfSection(text string) string {
	if units := t.Lex.UnitsStated(text); len(units) == 1 {
		return units[0]
	}
	return ""
}

// guesses says which units are possible.
func (t *Table) guesses(b traits.Bounds, numbers []float64, factor float64) string {
	var possible []string
	for _, unit := range traits.LengthUnits[:2] {
		if share := fits(b, numbers, unit, factor); share > 0 {
			possible = append(possible, fmt.Sprintf("%.0f%% of them are possible in %s", share*100, traits.UnitName(unit)))
		}
	}
	if len(possible) == 0 {
		return "they are possible in neither mm nor inches"
	}
	return strings.Join(possible, ", ")
}

// tableMark returns the decimal mark of the whole table, which is that of the columns that do not tell.
func (t *Table) tableMark() value.Mark {
	commas, points := 0, 0
	for _, other := range t.Columns {
		if want := other.Trait().Want; (want == traits.Price || want == traits.Count) && other.Profile.OnlyThousands() {
			continue
		}
		commas += other.Profile.Commas
		points += other.Profile.Points
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
func (t *Table) settleTolerances() {
	for _, c := range t.Columns {
		if c.Trait().Want != traits.Length {
			continue
		}
		rule := t.Rules.Columns[t.Region.Grid.ColumnName(c.Col)]
		for _, text := range append([]string{rule.Tolerance}, c.Parts...) {
			if text == "" || text != rule.Tolerance && !layout.MayTolerate(text) && !strings.ContainsAny(text, "0123456789") {
				continue
			}
			tolerance, found := t.Lex.ReadTolerance(text, c.cellsUnit())
			if found && tolerance.Problem.Code == "" {
				c.Tolerance = &tolerance
				break
			}
		}
	}
	t.coverTolerances()
	t.ValueNotes = map[string]noteTolerance{}
	t.spreadNotes()
}

// cellsUnit is the unit of the column, or the one that all its cells state.
func (c *Column) cellsUnit() string {
	if c.Unit != "" || len(c.Profile.StatedUnits) != 1 {
		return c.Unit
	}
	for unit, count := range c.Profile.StatedUnits {
		if traits.IsLengthUnit(unit) && count == len(c.Profile.Sizes) {
			return unit
		}
	}
	return ""
}

// coverTolerances finds for each tolerance column which sizes it is for: those that its heading names, those of the column
// to its left where there are several such pairs, or all.
func (t *Table) coverTolerances() {
	count := 0
	lengthsAfter := false
	for _, c := range t.Columns {
		if c.Role == catalog.Tolerance && c.Deviation == 0 {
			count++
			lengthsAfter = false
		} else if c.Trait().Want == traits.Length && count > 0 {
			lengthsAfter = true
		}
	}
	for i, c := range t.Columns {
		if c.Role != catalog.Tolerance || c.Deviation != 0 {
			continue
		}
		subject := t.subjectOf(c.Text)
		c.covered = subject
		for _, m := range subject.Roles {
			if role := catalog.Role(m.Role); t.ByRole[role] != nil && c.Covers == "" {
				c.Covers = role
			}
		}
		for _, role := range traits.OfKind[t.Kind] {
			if traits.Of[role].Want == traits.Length && t.ByRole[role] != nil && c.Covers == "" && c.names(t.Kind, role) {
				c.Covers = role
			}
		}
		if c.Covers == "" && len(c.covered.Classes) == 0 && i > 0 && traits.Of[t.Columns[i-1].Role].Want == traits.Length && (count > 1 || lengthsAfter) {
			c.Covers = t.Columns[i-1].Role
		}
	}
}

// names reports whether the heading of a tolerance column also names a role of sizes.
func (c *Column) names(kind catalog.Kind, role catalog.Role) bool {
	for _, m := range c.Matches[kind] {
		if catalog.Role(m.Role) == role && m.Score >= lexicon.LeastHeading {
			return true
		}
	}
	return false
}

// Tolerates reports whether a column gives tolerances that hold for another's sizes.
func (c *Column) Tolerates(role catalog.Role) bool {
	return c.Role == catalog.Tolerance && c.Deviation == 0 && (c.Covers == role || c.Covers == "" && (len(c.covered.Classes) == 0 || isOfSort(role, c.covered)))
}

// DeviatesFrom reports whether a column is the left one of two that give the deviations of another's sizes.
func (c *Column) DeviatesFrom(role catalog.Role) bool { return c.Partner != nil && c.Covers == role }
