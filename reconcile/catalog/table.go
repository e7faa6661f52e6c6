package catalog

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// roleTable is a table of which it is known what it lists and what its columns mean.
type roleTable struct {
	*sheetTable
	// kind is what the table lists; kindHeld says why that is in doubt, empty where it is not.
	kind     Kind
	kindHeld string
	// kindAssumed says that the kind was judged by the columns alone.
	kindAssumed string
	columns     []*column
	byRole      map[Role]*column
	// lines are what the lines of the table are, from its first.
	lines []lineKind
	// language is the language of most headings, empty where it is not known.
	language string
	// titlePart is the part number in the title of a table of clubs that has no column of part numbers.
	titlePart string
	// sizes are the columns of measured values: see measured.
	sizes []*column
	// shapes are the patterns of the part numbers.
	shapes map[string]bool
}

// newRoleTable finds what a table lists and what its columns and lines mean.
func newRoleTable(t *sheetTable, given Kind) *roleTable {
	r := &roleTable{sheetTable: t}
	r.understand(given, t.titles)
	r.lines = r.classify()
	return r
}

// understand finds what the table lists and what its columns mean.
func (t *roleTable) understand(given Kind, titles []string) {
	t.columns = columnsOf(t.region, t.lex)
	t.foldClubColumns(titles)
	chosen := t.choosePlan(given, titles)
	if chosen == nil {
		t.indexRoles()
		return
	}
	t.kind = chosen.kind
	t.language = languageOf(t.columns, t.kind)
	chosen.apply(t.columns)
	t.settleRecess()
	t.tellTipsFromBores()
	t.applyColumnRules()
	t.checkRowRules()
	t.shareRoles()
	t.nameDeviations()
	t.indexRoles()
	t.nameParts(titles)
	t.holdUncertain()
}

// languageOf returns the language of most headings, English where several have as many, empty where none is understood.
func languageOf(columns []*column, kind Kind) string {
	count := map[string]int{}
	for _, c := range columns {
		if found := c.matches[kind]; len(found) > 0 && found[0].Score >= understood {
			count[found[0].Language]++
		}
	}
	best := "en"
	for _, language := range slices.Sorted(maps.Keys(count)) {
		if language != "sign" && count[language] > count[best] {
			best = language
		}
	}
	if count[best] == 0 {
		return ""
	}
	return best
}

// settleRecess takes a recess whose word may mean either form, and which stands beside the angle of a cone and no depth, for
// a countersink.
func (t *roleTable) settleRecess() {
	c := t.first(CounterboreOD)
	if c == nil || t.first(CountersinkAngle) == nil || t.first(CountersinkMouth) != nil || t.first(CounterboreDepth) != nil ||
		c.headed(t.kind, CountersinkMouth) < leastHeading {
		return
	}
	c.role = CountersinkMouth
	c.evidence += "; a countersink by the angle beside it"
}

// nameParts finds what names the parts of a table without a column of part numbers: descriptions that are all different,
// or the part number in the title of a table of clubs.
func (t *roleTable) nameParts(titles []string) {
	if t.byRole[Part] != nil {
		return
	}
	if c := t.byRole[Description]; c != nil && c.profile.filled > 0 && c.profile.distinct == c.profile.filled {
		c.role, c.known = Part, false
		c.evidence += "; there is no column of part numbers, and its names are all different"
		t.indexRoles()
		return
	}
	if t.byRole[Club] == nil {
		return
	}
	if c := t.byRole[Description]; c != nil && t.pairsDiffer(c, t.byRole[Club]) {
		c.role, c.known = Part, false
		c.evidence += "; there is no column of part numbers, and name and club together are all different"
		t.indexRoles()
		return
	}
	if len(titles) == 0 {
		return
	}
	name, _, _ := strings.Cut(titles[0], " ")
	if t.isPart(name) && !looksNumeric(name) && !isDigits(name) {
		t.titlePart = name
	}
}

// pairsDiffer reports whether two columns are filled and say something else in every line, taken together.
func (t *roleTable) pairsDiffer(a, b *column) bool {
	seen := map[[2]string]bool{}
	for _, line := range t.region.sampleLines() {
		pair := [2]string{t.region.grid.filled(line, a.col), t.region.grid.filled(line, b.col)}
		if pair[0] == "" || pair[1] == "" || seen[pair] {
			return false
		}
		seen[pair] = true
	}
	return len(seen) > 1
}

// choosePlan returns the best reading of the table, nil where it lists nothing that matters.
func (t *roleTable) choosePlan(given Kind, titles []string) *plan {
	if t.rules.Kind == noRole {
		return nil
	}
	fixed := kindOf(t.rules.Kind)
	var plans []plan
	for _, kind := range []Kind{Heads, Ferrules, Tips} {
		if fixed != UnknownKind && kind != fixed {
			continue
		}
		p := planFor(t.lex, t.columns, kind, t.region.guessed)
		if !p.sensible() && fixed == UnknownKind && !t.ruledSensible(kind) {
			continue
		}
		named := t.titlePoints(kind, titles)
		p.bonus = named
		p.named = named > 0 || kind == given || fixed != UnknownKind
		p.stated = p.named || p.specific(t.columns)
		if p.stated && !p.named {
			p.bonus += specificPoints
		}
		if kind == given {
			p.bonus += givenPoints
			if p.keyed(t.columns, repeatHeading) {
				p.bonus += settledPoints
			}
		}
		plans = append(plans, p)
	}
	if len(plans) == 0 {
		return nil
	}
	slices.SortStableFunc(plans, func(a, b plan) int { return cmp.Compare(b.rank(), a.rank()) })
	best := &plans[0]
	t.judgeKind(plans, given, fixed)
	return best
}

// Points for what a table lists, beside those of its columns.
const (
	// givenPoints are for the kind that the user gave; where a heading names the size that such tables are about, what the
	// user gave is not in question.
	givenPoints   = 5.0
	settledPoints = 1000.0
	// specificPoints are for a heading that only tables of the kind have.
	specificPoints = 5.0
	titlePoints    = 10.0
	// leastKindMargin is how far the best kind must be ahead of the next where nobody said what the table lists.
	leastKindMargin = 1.5
)

// titlePoints are for the name of the sheet, the titles and the name of the file, the first that says something.
func (t *roleTable) titlePoints(kind Kind, titles []string) float64 {
	for _, title := range titles {
		hit, found := t.lex.words.Kind(title)
		if !found || hit.Value == "" {
			continue
		}
		if hit.Value == kind.String() {
			return titlePoints * max(0.5, hit.Score)
		}
		return 0
	}
	return 0
}

// judgeKind reports a kind that is in doubt or not what was said.
func (t *roleTable) judgeKind(plans []plan, given, fixed Kind) {
	best := plans[0]
	key := t.settle("kind")
	margin := leastKindMargin
	switch {
	case !best.stated && !(len(plans) > 1 && plans[1].stated):
		margin *= 2
	case !best.named && len(plans) > 1 && plans[1].keyed(t.columns, certainHeading):
		// Two kinds of parts in one line: a list of which ferrule goes on which head.
		margin = math.Inf(1)
	}
	switch {
	case fixed != UnknownKind:
	case given != UnknownKind && best.kind != given:
		t.add(finding.Warning, "layout.kind", 0, 0, fmt.Sprintf("the file was given as %s, but this table lists %s by its headings", given, best.kind), key)
	case given == UnknownKind && len(plans) > 1 && best.rank()-plans[1].rank() < margin:
		t.kindHeld = fmt.Sprintf("the table could list %s or %s", best.kind, plans[1].kind)
		t.add(finding.Error, "layout.kind", 0, 0, fmt.Sprintf("%s (%.1f against %.1f points); say which", t.kindHeld, best.rank(), plans[1].rank()), key)
	case !best.stated:
		t.kindAssumed = fmt.Sprintf("the table taken to list %s: its columns fit that best, and nothing says so", best.kind)
		t.add(finding.Note, "layout.kind", 0, 0, t.kindAssumed, key)
	}
}

// ruledSensible reports whether the mapping file gives the table a column that makes it one of a kind.
func (t *roleTable) ruledSensible(kind Kind) bool {
	for _, rule := range t.rules.Columns {
		if b, known := boundsOf(kind, Role(rule.Role)); known && b.most > 0 {
			return true
		}
	}
	return false
}

func kindOf(name string) Kind {
	for _, kind := range []Kind{Heads, Ferrules, Tips} {
		if kind.String() == name {
			return kind
		}
	}
	return UnknownKind
}

// applyColumnRules gives the columns the roles of the mapping file. A rule for a column that is not there any more, or
// that has another heading now, is reported and not used.
func (t *roleTable) applyColumnRules() {
	for _, name := range slices.Sorted(maps.Keys(t.rules.Columns)) {
		rule := t.rules.Columns[name]
		at := slices.IndexFunc(t.columns, func(c *column) bool { return t.region.grid.columnName(c.col) == name })
		key := t.settle("columns", name)
		if at < 0 {
			t.add(finding.Warning, "map.stale", 0, 0, fmt.Sprintf("the mapping file speaks of column %s, which is not in the table", name), key)
			continue
		}
		c := t.columns[at]
		if rule.Heading != "" && rule.Heading != c.text {
			t.addColumn(finding.Warning, "map.stale", c.col, fmt.Sprintf("the mapping file is for a column %s headed %q; it is now headed %q, so the rule was not used",
				name, rule.Heading, c.text), key)
			t.rules = t.rules.without(name)
			continue
		}
		if rule.Radius {
			c.scale = 2
		}
		t.applyRole(c, rule, name)
	}
}

// checkRowRules drops the rules for rows that have another part number now, and reports them.
func (t *roleTable) checkRowRules() {
	part := t.first(Part)
	for _, name := range slices.Sorted(maps.Keys(t.rules.Rows)) {
		rule := t.rules.Rows[name]
		line, err := strconv.Atoi(name)
		now := ""
		if err == nil && part != nil {
			now = t.region.grid.filled(line, part.col)
		}
		switch key := t.settle("rows", name); {
		case err != nil || line < t.region.body || line > t.region.to:
			t.add(finding.Warning, "map.stale", 0, 0, fmt.Sprintf("the mapping file speaks of row %s, which is not in the table's body", name), key)
		case rule.For != "" && words.Fold(rule.For) != words.Fold(now):
			t.add(finding.Warning, "map.stale", line, 0, fmt.Sprintf("the mapping file is for a row of %s; the row is now of %q, so the rule was not used", rule.For, now), key)
		default:
			continue
		}
		rows := maps.Clone(t.rules.Rows)
		delete(rows, name)
		t.rules.Rows = rows
	}
}

// applyRole gives a column the role that the mapping file says, and takes it from the column that had it.
func (t *roleTable) applyRole(c *column, rule ColumnRule, name string) {
	role := Role(rule.Role)
	switch {
	case rule.Role == "":
		return
	case rule.Role == noRole:
		role = ""
	case !slices.Contains(kindRoles[t.kind], role):
		t.addColumn(finding.Warning, "map.value", c.col, fmt.Sprintf("the mapping file gives column %s the role %q, which tables of %s do not have", name, rule.Role, t.kind),
			t.settle("columns", name, "role"))
		return
	}
	for _, other := range t.columns {
		if other != c && other.role == role && role != Tolerance && role != "" {
			if _, ruled := t.rules.Columns[t.region.grid.columnName(other.col)]; !ruled {
				other.role, other.evidence = "", "the mapping file gives its role to another column"
			}
		}
	}
	c.role, c.evidence, c.runnerUp, c.margin, c.known = role, "role from the mapping file", "", leastMargin, true
}

// shareRoles finds the columns that state again what another column states: least and greatest sizes, and the same
// size in another unit.
func (t *roleTable) shareRoles() {
	first := map[Role]int{} // of each role, as t.first finds it
	note := func(at int) {
		role := t.columns[at].role
		if known, found := first[role]; !found || at < known {
			first[role] = at
		}
	}
	for at := range t.columns {
		note(at)
	}
	for at, c := range t.columns {
		if c.role != "" || c.irrelevant != "" || c.deviation != 0 {
			continue
		}
		for _, m := range c.matches[t.kind] {
			of, found := first[Role(m.Role)]
			if !found || m.Score < repeatHeading || t.ruledOut(c) || c.saysOther(Role(m.Role)) {
				continue
			}
			t.share(c, t.columns[of], m.Score, first)
			note(at)
			break
		}
	}
	type limit struct {
		role  Role
		isMin bool
	}
	limits := map[limit]bool{}
	for _, c := range t.columns {
		if c.hints.Min != c.hints.Max {
			limits[limit{c.role, c.hints.Min}] = true
		}
	}
	for _, c := range t.columns {
		if c.trait().want == wantLength && c.aspect == nominal && c.hints.Min != c.hints.Max && limits[limit{c.role, !c.hints.Min}] {
			c.aspect = limitOf(c)
		}
	}
}

// repeatHeading is the score from which a heading says the same as that of another column.
const repeatHeading = 0.66

// saysOther reports whether the heading, taken by itself, clearly says something else than a role: "Ferrule OD" in a table
// of heads.
func (c *column) saysOther(role Role) bool {
	return c.bestHeading() > c.headed(UnknownKind, role)+0.2
}

func (t *roleTable) ruledOut(c *column) bool {
	return t.rules.Columns[t.region.grid.columnName(c.col)].Role == noRole
}

// share gives a column the role of another one, where both can hold it together. Taken are the roles that columns have.
func (t *roleTable) share(c, first *column, score float64, taken map[Role]int) {
	switch want := traits[first.role].want; {
	case c.hidden && !first.hidden:
		c.evidence = fmt.Sprintf("hidden, and says %s like column %s, which can be seen", first.role, t.region.grid.columnName(first.col))
		name := t.region.grid.columnName(c.col)
		t.addColumn(finding.Warning, "layout.column", c.col, fmt.Sprintf("column %s %q is hidden and says %s like column %s, which can be seen; it is not used",
			name, c.text, first.role, t.region.grid.columnName(first.col)), t.settle("columns", name, "role"))
	case want == wantTolerance:
		c.role, c.evidence, c.known = Tolerance, fmt.Sprintf("heading says tolerance (score %.2f)", score), true
	case first.role == Part && !has(taken, Description) && c.wordy():
		c.role, c.known = Description, true
		c.evidence = fmt.Sprintf("says part like column %s, which fits better; kept as the description", t.region.grid.columnName(first.col))
	case want != wantLength || len(c.profile.sizes) == 0:
		c.evidence = fmt.Sprintf("says %s like column %s, which fits better", first.role, t.region.grid.columnName(first.col))
	case c.hints.Min != c.hints.Max:
		c.role, c.aspect, c.known = first.role, limitOf(c), true
		c.evidence = fmt.Sprintf("heading says a limit of %s", first.role)
	default:
		c.role, c.aspect, c.known = first.role, repeat, true
		c.evidence = fmt.Sprintf("states %s again, like column %s", first.role, t.region.grid.columnName(first.col))
	}
}

func has(taken map[Role]int, role Role) bool {
	_, found := taken[role]
	return found
}

func limitOf(c *column) aspect {
	if c.hints.Min {
		return least
	}
	return most
}

// first returns the column that has a role by the assignment, nil where none has.
func (t *roleTable) first(role Role) *column {
	for _, c := range t.columns {
		if c.role == role {
			return c
		}
	}
	return nil
}

// indexRoles finds columns by their role; of several the one that states the size itself.
func (t *roleTable) indexRoles() {
	t.byRole = map[Role]*column{}
	for _, c := range t.columns {
		if c.role == "" {
			continue
		}
		if known := t.byRole[c.role]; known == nil || known.aspect != nominal && c.aspect == nominal {
			t.byRole[c.role] = c
		}
	}
}

// holdUncertain holds the columns of sizes whose role is not certain enough to be used, and reports columns that were
// not understood.
func (t *roleTable) holdUncertain() {
	for _, c := range t.columns {
		name := t.region.grid.columnName(c.col)
		key := t.settle("columns", name, "role")
		trait := c.trait()
		if c.hints.Radius && trait.diameter {
			c.scale = 2
		}
		switch {
		case c.irrelevant != "":
		case c.role == "" && c.profile.filled > 0 && t.kind != UnknownKind && len(c.matches[t.kind]) == 0:
			t.addColumn(finding.Note, "layout.column", c.col, fmt.Sprintf("column %s %q was not understood and is not used", name, c.text), key)
		case c.aspect != nominal || c.role == "":
		case trait.want != wantLength && trait.want != wantAngle:
		case c.several:
			c.held = fmt.Sprintf("the heading of column %s names several sizes", name)
			t.addColumn(finding.Error, "layout.role", c.col, fmt.Sprintf("column %s %q names several sizes, and its cells do not give as many; say which it is", name, c.text), key)
		case !c.known:
			c.held = fmt.Sprintf("column %s is %s only by its values", name, c.role)
			t.addColumn(finding.Error, "layout.role", c.col, fmt.Sprintf("column %s %q was not understood; by its values it is probably %s (%s)", name, c.text, c.role, c.evidence), key)
		case c.margin < leastMargin:
			c.held = fmt.Sprintf("column %s could be %s or %s", name, c.role, c.runnerUp)
			t.addColumn(finding.Error, "layout.role", c.col, fmt.Sprintf("column %s %q is probably %s, but the next best reading is too near: %s", name, c.text, c.role, c.runnerUp), key)
		}
	}
}
