package units

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// noteTolerance is the tolerance that a note gives to a column, or to those of its values that carry a footnote mark.
type noteTolerance struct {
	Clause *layout.Clause
	// Index is which of the tolerances of the clause it is.
	Index int
	// Rank orders what is said: for all sizes, for a sort of sizes, for one size.
	Rank int
	// From and To are the lines that it is for, those of the section that it is about; zero where it is for all.
	From, To int
	// Clubs are the kinds of club that it is for, nil where it is for all.
	Clubs []string
	// elsewhere is set where it stands at another table.
	elsewhere bool
}

// holds reports whether a tolerance is for the values of a line.
func (n *noteTolerance) holds(line int) bool { return n.To == 0 || line >= n.From && line <= n.To }

// NoteFor returns the tolerance that a note gives to the values of a line of a column, nil where none does. One in the title of a section goes
// before one for the whole table that is no more particular, and one that names kinds of club before both.
func (t *Table) NoteFor(c *Column, line int) *noteTolerance {
	note := c.Note
	if at, _ := c.sectionNote(line + 1); at > 0 {
		if n := &c.sectionNotes[at-1]; n.holds(line) && (note == nil || n.Rank >= note.Rank) && t.isForClub(n, line) {
			note = n
		}
	}
	for i := range c.clubNotes {
		if n := &c.clubNotes[i]; (note == nil || n.Rank >= note.Rank) && t.isForClub(n, line) {
			return n
		}
	}
	return note
}

// sectionOf returns the lines of the section that a note is about: those below it, where it stands in the title or right before the first of them,
// and those above where it is the last of their lines; zeros where it is about all. Between parts and another title, without a blank line, it may be
// about either, and it is not clear.
func (t *Table) sectionOf(c *layout.Clause) (from, to int, clear bool) {
	r := t.Region
	if r.Grid.Turned || r.Grid.Arranged() {
		return 0, 0, true
	}
	line, _ := r.Grid.Place(c.Place)
	if line < r.Body || line > r.To {
		return 0, 0, true
	}
	is := func(line int, kind columns.LineKind) bool { return t.Lines[line-r.From] == kind }
	if !is(line, columns.LineSection) && !(is(line, columns.LineNote) && slices.Contains(t.Lines, columns.LineSection)) || !slices.Contains(t.Lines[line-r.From:], columns.LineData) {
		return 0, 0, true
	}
	next := line + 1
	for is(next, columns.LineBlank) || is(next, columns.LineNote) {
		next++
	}
	below := line > r.Body && is(line-1, columns.LineData) && is(line+1, columns.LineBlank) // right below parts, and above nothing
	begins := func(line int) bool { return is(line, columns.LineSection) || r.Aside[line] == layout.RepeatedHeading }
	if is(line, columns.LineNote) && is(next, columns.LineSection) || below && begins(next) {
		for from = line; from > r.Body && !begins(from-1); {
			from--
		}
		return from, line, true
	}
	if is(next, columns.LineSection) {
		return 0, 0, !slices.Contains(t.Lines[:line-r.From], columns.LineData)
	}
	for to = next; to < r.To && !is(to+1, columns.LineSection); {
		to++
	}
	return line + 1, to, true
}

// What a tolerance in a note is for, the least particular first.
const (
	ForAll = iota + 1
	forClass
	forRole
)

// spreadNotes gives the tolerances that the notes state to the columns that they are for, and reports those of which that
// cannot be told. Of those that stand at another table it says that they are not used, where this one has none of its own.
func (t *Table) spreadNotes() {
	var elsewhere []*layout.Clause
	for i := range t.notes.Clauses {
		c := &t.notes.Clauses[i]
		if !c.Tolerates(t.Lex) {
			continue
		}
		if !t.isFor(c) {
			elsewhere = append(elsewhere, c)
			continue
		}
		t.spreadNote(c, noteTolerance{Clause: c})
	}
	for _, c := range elsewhere {
		t.spreadNote(c, noteTolerance{Clause: c, elsewhere: true})
	}
}

// isFor reports whether a note is about this table, as far as the place where it stands tells.
func (t *Table) isFor(c *layout.Clause) bool {
	if c.LastRow == 0 {
		return true
	}
	row := t.Region.RangeOf().From.Row
	if r := t.Region; !r.Grid.Arranged() {
		row = r.Grid.Ref(r.Body, r.Left).Row
	}
	return row >= c.FirstRow && row <= c.LastRow
}

// spreadNote gives the tolerances of a note to the columns that they are for.
func (t *Table) spreadNote(c *layout.Clause, n noteTolerance) {
	all := value.ReadTolerances(c.Said, value.Context{Unit: "mm"})
	for index, tolerance := range all {
		n.Index, n.Clubs = index, t.clubsNamed(c.Said, all, tolerance)
		if (tolerance.Problem.Code != "" || !t.spread(n, tolerance)) && !n.elsewhere {
			t.reportTolerance(c, tolerance)
		}
	}
}

// spread gives a tolerance to the columns that it is for; false where that cannot be told.
func (t *Table) spread(n noteTolerance, tolerance value.Tolerance) bool {
	c, index := n.Clause, n.Index
	if !n.elsewhere {
		var clear bool
		if n.From, n.To, clear = t.sectionOf(c); !clear {
			return false
		}
	}
	if c.Mark != "" {
		if marked := t.markedColumns(c.Mark); len(marked) > 0 {
			for _, col := range marked {
				t.takeNote(col, n, forRole)
			}
			return true
		}
		if t.markedValues(c.Mark) && !n.elsewhere {
			t.ValueNotes[c.Mark] = n
			return true
		}
	}
	if col := t.underLetter(tolerance.Scope); col != nil {
		t.takeNote(col, n, forRole)
		return true
	}
	subject := t.Limits(tolerance, c.Said, index == 0 || len(n.Clubs) > 0) // "hosel OD of irons ±0.05, of woods ±0.1"
	switch above := t.sizeAbove(c); {
	case above != nil && !subject.General && !t.isOfOthers(subject, above):
		t.takeNote(above, n, forRole)
	case len(subject.Roles) > 0:
		for _, m := range subject.Roles {
			for _, col := range t.Columns {
				if col.Role == catalog.Role(m.Role) {
					t.takeNote(col, n, forRole)
				}
			}
		}
	case len(subject.Classes) > 0:
		for _, col := range t.Columns {
			if isOfSort(col.Role, subject) {
				t.takeNote(col, n, forClass)
			}
		}
	case t.beside(c):
		col := t.sizeBeside(c)
		if col == nil {
			return false
		}
		t.takeNote(col, n, forRole)
	case subject.General || strings.HasPrefix(tolerance.Class, "ISO 2768") || t.onlyTolerance(c.Said):
		for _, col := range t.Columns {
			t.takeNote(col, n, ForAll)
		}
	default:
		return false
	}
	return true
}

// underLetter returns the column whose heading is the letter at the end of a text, as a legend explains it: that of "bottom outside [φA]" for
// "Tolerance φA". It returns nil where there is none.
func (t *Table) underLetter(text string) *Column {
	letter := text[strings.LastIndexAny(text, " ,;:")+1:]
	if letter == "" {
		return nil
	}
	at := slices.IndexFunc(t.Columns, func(c *Column) bool {
		_, own, explained := strings.Cut(strings.TrimSuffix(c.Text, "]"), " [")
		return explained && plainDiameter.Replace(own) == plainDiameter.Replace(letter)
	})
	if at < 0 {
		return nil
	}
	return t.Columns[at]
}

// plainDiameter writes the signs for a diameter as one.
var plainDiameter = strings.NewReplacer("φ", "Ø", "Φ", "Ø", "ø", "Ø", "⌀", "Ø")

// Limits returns what a tolerance in a text is for: what the words before it name, or else those behind it, or else, where it may be for all that the
// text names, all of these.
func (t *Table) Limits(tolerance value.Tolerance, said string, all bool) words.Subject {
	subject, behind := t.subjectOf(tolerance.Scope), t.subjectOf(tolerance.After)
	switch {
	case isParticular(subject):
	case isParticular(behind): // ±0.05 on diameters
		subject = behind
	case all && !subject.General:
		subject = t.subjectOf(said)
	}
	subject.Roles = t.meantOf(subject, tolerance.Scope, behind)
	return subject
}

// meantOf returns the sizes that a note means: none that it only touches where it names others outright, "bores run under, never over", and both
// outer diameters of ferrules where it does not say at which end, before the tolerance or behind it.
func (t *Table) meantOf(s words.Subject, scope string, behind words.Subject) []words.RoleMatch {
	named := s.Roles
	if len(s.Classes) > 0 || s.General || slices.ContainsFunc(named, func(m words.RoleMatch) bool { return m.Score >= lexicon.SaysOneSize }) {
		named = slices.DeleteFunc(slices.Clone(named), func(m words.RoleMatch) bool { return m.Score < leastNamed })
	}
	for _, m := range named {
		if t.isAnyOuter(m, scope) && t.ByRole[catalog.TopOD] != nil {
			if len(behind.Roles) == 1 && len(named) == 1 && slices.Contains([]catalog.Role{catalog.BaseOD, catalog.TopOD}, catalog.Role(behind.Roles[0].Role)) {
				return behind.Roles // OD ±0.05 base
			}
			return append(slices.Clip(named), words.RoleMatch{Role: string(catalog.TopOD), Score: m.Score})
		}
	}
	return named
}

// isAnyOuter reports whether words name an outer diameter of ferrules and not at which end, while the heading of the base's says that.
func (t *Table) isAnyOuter(m words.RoleMatch, scope string) bool {
	base := t.ByRole[catalog.BaseOD]
	mentions := t.Lex.Words.Mentions
	return t.Kind == catalog.Ferrules && catalog.Role(m.Role) == catalog.BaseOD && mentions("outer diameter", m.Words) && !mentions("base", m.Words) && !mentions("base", scope) &&
		base != nil && mentions("base", base.Text)
}

// beside reports whether a note stands in one of the rows of a table on its side, behind the values: it is about that row alone.
func (t *Table) beside(c *layout.Clause) bool {
	r := t.Region
	if !r.Grid.Turned {
		return false
	}
	line, col := r.Grid.Place(c.Place)
	return line >= r.Body && line <= r.To && slices.ContainsFunc(t.Columns, func(c *Column) bool { return c.Col == col })
}

// sizeBeside returns the sizes in whose column a note stands, nil where it stands in that of something else.
func (t *Table) sizeBeside(c *layout.Clause) *Column {
	_, col := t.Region.Grid.Place(c.Place)
	for _, own := range t.Columns {
		if own.Col == col && own.Trait().Want == traits.Length {
			return own
		}
	}
	return nil
}

// sizeAbove returns the sizes below whose heading a note stands, before the first line of data: "at shoulder, ±.002"; nil where it stands
// elsewhere.
func (t *Table) sizeAbove(c *layout.Clause) *Column {
	r := t.Region
	if r.Grid.Turned || r.Grid.Arranged() {
		return nil
	}
	line, _ := r.Grid.Place(c.Place)
	if line < r.Body || line > r.To || slices.Contains(t.Lines[r.Body-r.From:line-r.From+1], columns.LineData) {
		return nil
	}
	return t.sizeBeside(c)
}

// isOfOthers reports whether words name the sizes of other columns, and not those of one.
func (t *Table) isOfOthers(s words.Subject, own *Column) bool {
	if len(s.Classes) > 0 && !isOfSort(own.Role, s) {
		return true
	}
	others := false
	for _, m := range s.Roles {
		role := catalog.Role(m.Role)
		if role == own.Role {
			return false
		}
		others = others || t.ByRole[role] != nil
	}
	return others
}

// IsFor reports whether what a text speaks of are the sizes of a column.
func (c *Column) IsFor(s words.Subject) bool {
	switch {
	case len(s.Roles) > 0:
		return slices.ContainsFunc(s.Roles, func(m words.RoleMatch) bool { return catalog.Role(m.Role) == c.Role })
	case len(s.Classes) > 0:
		return isOfSort(c.Role, s)
	}
	return s.General
}

// isParticular reports whether words name sizes or a sort of them.
func isParticular(s words.Subject) bool { return len(s.Roles) > 0 || len(s.Classes) > 0 }

// onlyTolerance reports whether a note is a tolerance with its unit and no other words.
func (t *Table) onlyTolerance(text string) bool {
	rest, _, _ := t.Lex.Words.SplitUnit(text)
	return !strings.ContainsFunc(rest, unicode.IsLetter)
}

// classOf is the sort of a size: diameter, depth or length.
func classOf(role catalog.Role) string {
	switch trait := traits.Of[role]; {
	case trait.Want != traits.Length:
		return ""
	case trait.Diameter:
		return "diameter"
	case role == catalog.BoreDepth || role == catalog.CountersinkDepth || role == catalog.CounterboreDepth:
		return "depth"
	}
	return "length"
}

// isOfSort reports whether words speak of the sort of a size. Where they speak of lengths and name no depths, these are lengths too.
func isOfSort(role catalog.Role, said words.Subject) bool {
	class := classOf(role)
	return said.OfClass(class) || class == "depth" && said.OfClass("length")
}

// takeNote keeps the most particular of the tolerances that notes state for a column, the first of several, and all that are for some kinds of club.
func (t *Table) takeNote(c *Column, n noteTolerance, rank int) {
	if c.Trait().Want != traits.Length {
		return
	}
	n.Rank = rank
	if n.elsewhere {
		if c.Note == nil && !c.TolerancesBySection() && c.Tolerance == nil && len(n.Clubs) == 0 {
			t.reportElsewhere(n.Clause)
		}
		return
	}
	if why := t.unfit(c, &n); why != "" {
		t.reportUnfit(n.Clause, why)
		return
	}
	switch {
	case n.To > 0:
		c.takeSectionNote(n)
	case len(n.Clubs) > 0:
		c.clubNotes = append(c.clubNotes, n)
	case c.Note == nil || c.Note.Rank < rank:
		c.Note = &n
	}
}

// takeSectionNote keeps the most particular of the tolerances that the title of a section states for a column.
func (c *Column) takeSectionNote(n noteTolerance) {
	at, known := c.sectionNote(n.From)
	switch {
	case !known:
		c.sectionNotes = slices.Insert(c.sectionNotes, at, n)
	case c.sectionNotes[at].Rank < n.Rank:
		c.sectionNotes[at] = n
	}
}

// sectionNote finds where the note of the section stands that begins with a line, or would stand.
func (c *Column) sectionNote(from int) (at int, found bool) {
	return slices.BinarySearchFunc(c.sectionNotes, from, func(n noteTolerance, from int) int { return cmp.Compare(n.From, from) })
}

// TolerancesBySection reports whether notes state tolerances for some lines of the column.
func (c *Column) TolerancesBySection() bool { return len(c.sectionNotes)+len(c.clubNotes) > 0 }

// markedColumns returns the columns whose heading carries a footnote mark.
func (t *Table) markedColumns(mark string) []*Column {
	var marked []*Column
	for _, c := range t.Columns {
		if layout.Bears(c.Text, mark) {
			marked = append(marked, c)
		}
	}
	return marked
}

// markedValues reports whether a size of the table carries a footnote mark.
func (t *Table) markedValues(mark string) bool {
	return slices.ContainsFunc(t.Columns, func(c *Column) bool {
		return c.Trait().Want == traits.Length && slices.ContainsFunc(c.Profile.Texts, func(text string) bool { return layout.Bears(text, mark) })
	})
}

// reportTolerance reports a tolerance in a note that was not understood, at the note.
func (t *Table) reportTolerance(c *layout.Clause, tolerance value.Tolerance) {
	line, col := t.Region.Grid.Place(c.Place)
	t.Add(finding.Warning, "data.tolerance", line, col,
		fmt.Sprintf("the note %q states the tolerance %q, and what it is for was not understood; it is not used", c.Text, tolerance.Text), t.Settle("tolerance"))
}

// unitNote returns the unit that a note gives to one size alone, by its words or its footnote mark, or else to all sizes of its sort, and the note;
// several units where the note leaves it open.
func (t *Table) unitNote(c *Column) ([]string, *layout.Clause) {
	for i := range t.notes.Clauses {
		n := &t.notes.Clauses[i]
		if len(n.Units) == 0 {
			continue
		}
		if n.Mark != "" && layout.Bears(c.Text, n.Mark) {
			return n.Units, n
		}
		for _, m := range t.clauseSubjects()[i].Roles {
			if catalog.Role(m.Role) == c.Role && m.Score >= lexicon.SaysOneSize {
				return n.Units, n
			}
		}
	}
	return t.unitOfClass(c)
}

// unitOfClass returns the unit that one note gives to all sizes of the sort of a column, where the sheet names several: "diameters in mm, lengths in
// inches".
func (t *Table) unitOfClass(c *Column) (units []string, note *layout.Clause) {
	if classOf(c.Role) == "" {
		return nil, nil
	}
	for i := range t.notes.Clauses {
		n := &t.notes.Clauses[i]
		if len(n.Units) != 1 || n.Mark != "" {
			continue
		}
		if said := &t.clauseSubjects()[i]; len(said.Roles) > 0 || !isOfSort(c.Role, *said) {
			continue
		}
		if note != nil && note.Units[0] != n.Units[0] {
			return nil, nil
		}
		units, note = n.Units, n
	}
	return units, note
}

// statesForAll reports whether the notes that state a unit state it for more than one of the sizes: "all in mm", and not "length in inches".
func (t *Table) statesForAll() bool {
	stating := 0
	var said words.Subject
	for i := range t.notes.Clauses {
		if n := &t.notes.Clauses[i]; len(n.Units) > 0 {
			stating++
			said = t.subjectOf(n.WithoutNumbers())
		}
	}
	return stating != 1 || said.General || len(said.Roles) > 1 || !slices.ContainsFunc(t.Columns, func(c *Column) bool { return t.statesFor(said, c) })
}

// statesFor reports whether words name the size of a column, or its sort.
func (t *Table) statesFor(said words.Subject, c *Column) bool {
	return c.Trait().Want == traits.Length && (isOfSort(c.Role, said) ||
		slices.ContainsFunc(said.Roles, func(m words.RoleMatch) bool { return catalog.Role(m.Role) == c.Role && m.Score >= lexicon.SaysOneSize }))
}

// restUnit returns the note of the unit that the notes give to all sizes but those that they name, where the sheet names several units;
// nil where there is no such note for a column, or more than one unit.
func (t *Table) restUnit(c *Column) *layout.Clause {
	var rest *layout.Clause
	for i := range t.notes.Clauses {
		n := &t.notes.Clauses[i]
		if len(n.Units) != 1 || n.Mark != "" {
			continue
		}
		said := &t.clauseSubjects()[i]
		names := func(m words.RoleMatch) bool { // tips go by their names in inches in the company of any unit
			return m.Score >= lexicon.SaysOneSize || catalog.Role(m.Role) == catalog.TipTaken
		}
		if slices.ContainsFunc(said.Roles, names) || len(said.Classes) > 0 && !isOfSort(c.Role, *said) && !said.General {
			continue
		}
		if rest != nil && rest.Units[0] != n.Units[0] {
			return nil
		}
		rest = n
	}
	return rest
}

// clauseSubjects returns what the clauses of the notes speak of, as far as these name units: it is asked for each column, and a sheet of thousands of
// tables has thousands of clauses.
func (t *Table) clauseSubjects() []words.Subject {
	if t.ofClauses == nil {
		t.ofClauses = make([]words.Subject, len(t.notes.Clauses))
		for i := range t.notes.Clauses {
			if n := &t.notes.Clauses[i]; len(n.Units) > 0 {
				t.ofClauses[i] = t.subjectOf(n.Text)
			}
		}
	}
	return t.ofClauses
}

func (t *Table) subjectOf(text string) words.Subject {
	return t.Lex.Subject(t.Kind.String(), t.Language, text)
}
