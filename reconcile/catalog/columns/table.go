// Package columns finds what a table lists and what its columns mean: every column is scored for every role, by the words of its heading
// and by its values, and the roles are given to all columns together. With that, it tells the lines of the table from each other.
package columns

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
)

// Table is a table of which it is known what it lists and what its columns mean.
type Table struct {
	*layout.Table
	// Kind is what the table lists; kindHeld says why that is in doubt, empty where it is not.
	Kind     catalog.Kind
	KindHeld string
	// KindAssumed says that the kind was judged by the columns alone.
	KindAssumed string
	Columns     []*Column
	ByRole      map[catalog.Role]*Column
	// Lines are what the lines of the table are, from its first.
	Lines []LineKind
	// Language is the language of most headings, empty where it is not known.
	Language string
	// Adds is set where the table adds what it has to the parts of other tables, by their numbers.
	Adds bool
	// Yields says why the table gives way to another one, empty where it does not.
	Yields string
	// TitlePart is the part number in the title of a table of clubs that has no column of part numbers.
	TitlePart string
	// NamedBy is the role whose texts name the parts, the club or the colour, where each stands once and nothing else does; empty in all other tables.
	NamedBy catalog.Role
	// totals are the columns of an offer that are multiplied, nil where there are none.
	totals *totals
	// given is what the file was said to list.
	given catalog.Kind
	// sizes are the columns of measured values: see measured.
	sizes []*Column
	// shapes are the patterns of the part numbers.
	shapes map[string]bool
}

// Understand finds what a table lists and what its columns and lines mean.
func Understand(t *layout.Table, given catalog.Kind) *Table {
	r := &Table{Table: t, given: given}
	r.understand(given, t.Titles)
	r.Lines = r.classify()
	r.compareTotals()
	r.compareSums()
	r.compareSets()
	return r
}

// understand finds what the table lists and what its columns mean.
func (t *Table) understand(given catalog.Kind, titles []string) {
	t.Columns = columnsOf(t.Region, t.Lex)
	t.tellWhose()
	t.tellOldNumbers()
	t.foldClubColumns(titles)
	t.findTotals()
	t.findFree()
	t.findChange()
	t.tellCoins()
	t.tellPaid()
	chosen := t.choosePlan(given, titles)
	if chosen == nil {
		t.indexRoles()
		return
	}
	t.adopt(chosen, titles)
}

// adopt takes the table as a plan reads it.
func (t *Table) adopt(chosen *plan, titles []string) {
	t.Kind = chosen.kind
	t.Language = languageOf(t.Columns, t.Kind)
	chosen.apply(t.Columns)
	t.settleRecess()
	t.dropBareAngle()
	t.tellNamesFromKinds()
	t.tellTipsFromBores()
	t.tellTopsFromTips()
	t.applyColumnRules()
	t.checkRowRules()
	t.shareRoles()
	t.lettered()
	t.takeBareLimits()
	t.findByValues()
	t.nameDeviations()
	t.indexRoles()
	t.doubtPart()
	t.doubtLength()
	t.nameParts(titles)
	t.reportWhose()
	t.holdUncertain()
	t.reportOffered()
	t.reportPaid()
}

// languageOf returns the language of most headings, English where several have as many, empty where none is understood.
func languageOf(columns []*Column, kind catalog.Kind) string {
	count := map[string]int{}
	for _, c := range columns {
		if found := c.Matches[kind]; len(found) > 0 && found[0].Score >= lexicon.Understood && !c.Inferred {
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
func (t *Table) settleRecess() {
	c := t.first(catalog.CounterboreOD)
	if c == nil || t.first(catalog.CountersinkAngle) == nil || t.first(catalog.CountersinkMouth) != nil || t.first(catalog.CounterboreDepth) != nil ||
		c.headed(t.Kind, catalog.CountersinkMouth) < lexicon.LeastHeading {
		return
	}
	c.Role = catalog.CountersinkMouth
	c.Evidence += "; a countersink by the angle beside it"
}

// dropBareAngle takes its role from a column of angles that nothing says to be those of a countersink, neither its own heading nor a column
// beside it: they may be lofts, or anything else of a head.
func (t *Table) dropBareAngle() {
	c := t.first(catalog.CountersinkAngle)
	if c == nil || c.headed(catalog.UnknownKind, catalog.CountersinkAngle) >= lexicon.Understood || t.speaksOfCountersinks() {
		return
	}
	c.Role, c.Evidence = "", "its heading speaks of an angle, and nothing of a countersink"
	name := t.Region.Grid.ColumnName(c.Col)
	t.AddColumn(finding.Note, "layout.column", c.Col, fmt.Sprintf("column %s %q is not used: %s", name, c.Text, c.Evidence), t.Settle("columns", name, "role"))
}

// speaksOfCountersinks reports whether a column gives a size of countersinks, or says of hosels that they have one.
func (t *Table) speaksOfCountersinks() bool {
	if t.first(catalog.CountersinkMouth) != nil || t.first(catalog.CountersinkDepth) != nil {
		return true
	}
	top := t.first(catalog.Top)
	return top != nil && slices.ContainsFunc(top.Profile.Texts, func(text string) bool { return t.Lex.Word(lexicon.TopQuestion(text)) == countersunk })
}

// countersunk is the word of the contract for the form of a hosel's top that has the angle of a cone.
const countersunk = "countersunk"

// tellNamesFromKinds takes a column of kinds, or else one of forms, for the descriptions where the table has no others and most of its texts say
// more than a kind of club, or than a form of ferrules: "iron, silver ring", "straight, black". Both are found in a description too.
func (t *Table) tellNamesFromKinds() {
	if t.first(catalog.Part) == nil || !slices.Contains(traits.OfKind[t.Kind], catalog.Description) {
		return
	}
	for _, kinds := range [...]struct {
		role catalog.Role
		name string
		more func(string) bool
	}{
		{catalog.Category, "kind", func(text string) bool {
			return t.Lex.Words.SaysMoreThanCategory(text) && len(t.Lex.SetOf("", text)) == 0
		}},
		{catalog.Style, "form", t.Lex.Words.SaysMoreThanStyle},
	} {
		c := t.first(kinds.role)
		if c == nil || t.first(catalog.Description) != nil || c.brief() || c.Profile.count(kinds.more)*2 <= c.Profile.Filled {
			continue
		}
		if kinds.role == catalog.Style && c.Profile.distinct < 2 {
			continue // a form that is not known, rather
		}
		c.Role = catalog.Description
		c.Evidence += fmt.Sprintf("; its texts say more than a %s, and there are no other descriptions", kinds.name)
	}
}

// doubtPart asks about a column of part numbers that is one by its values only.
func (t *Table) doubtPart() {
	c := t.first(catalog.Part)
	if c == nil || c.Known || t.Kind == catalog.UnknownKind || t.Lex.Words.MayNumber(c.Text) && c.uniqueCodes() {
		return
	}
	name := t.Region.Grid.ColumnName(c.Col)
	t.AddColumn(finding.Warning, "layout.part", c.Col, fmt.Sprintf("column %s %q was not understood; it is taken for the part numbers by its values", name, c.Text),
		t.Settle("columns", name, "role"))
}

// doubtLength uses no length of something else, of the whole head or its box, as that of the hosel. A heading that does not say of what it gives
// the length is taken for the hosel's, with a word, where all its sizes are such as hosels commonly have.
func (t *Table) doubtLength() {
	c := t.first(catalog.HoselLength)
	if c == nil || t.Kind != catalog.Heads || t.ruled(c) || c.headed(t.Kind, c.Role) >= lexicon.SpecificHeading {
		return
	}
	name := t.Region.Grid.ColumnName(c.Col)
	said, key := fmt.Sprintf("column %s %q does not say of what it gives the length", name, c.Text), t.Settle("columns", name, "role")
	b, _ := traits.BoundsOf(t.Kind, c.Role)
	if _, common := c.Profile.best(b, c.units(), 1); common == 1 {
		t.AddColumn(finding.Warning, "layout.column", c.Col, said+"; it is taken for the hosel's", key)
		return
	}
	t.AddColumn(finding.Warning, "layout.column", c.Col, said+", and some of its sizes are such as hosels hardly have; it is not used", key)
	c.Role, c.Evidence, c.reported = "", "heading does not say of what it gives the length", true
	t.indexRoles()
}

// namesFirst returns the first column of a table where it has no heading and no role, and a name of its own in each line, nil otherwise.
func (t *Table) namesFirst() *Column {
	if len(t.Columns) == 0 {
		return nil
	}
	c := t.Columns[0]
	p := &c.Profile
	if strings.TrimSpace(c.Text) != "" || c.Role != "" || t.ruled(c) || p.Filled < 2 || p.distinct < p.Filled || p.whole+p.decimals+p.dates > 0 || len(p.Sizes) > 0 {
		return nil
	}
	return c
}

// nameParts finds what names the parts of a table without a column of part numbers: codes in a column that nothing else claims,
// descriptions that are all different, names in the first column, or the part number in the title of a table of clubs, or the clubs
// themselves where each stands once.
func (t *Table) nameParts(titles []string) {
	if t.ByRole[catalog.Part] != nil {
		return
	}
	if c := t.codesUnclaimed(); c != nil {
		c.Role, c.Known, c.Evidence = catalog.Part, false, "there is no other column of part numbers, and it has a code of its own in each line"
		t.indexRoles()
		return
	}
	if c := t.ByRole[catalog.Description]; c != nil && c.Profile.Filled > 0 && c.Profile.distinct == c.Profile.Filled {
		c.Role, c.Known = catalog.Part, false
		c.Evidence += "; there is no column of part numbers, and its names are all different"
		t.indexRoles()
		return
	}
	if t.ByRole[catalog.Club] == nil {
		if c := t.namesFirst(); c != nil {
			c.Role, c.Known, c.Evidence = catalog.Part, false, "there is no column of part numbers, and it stands first with a name of its own in each line"
			t.indexRoles()
			t.doubtPart()
		} else {
			t.nameByColours()
		}
		return
	}
	if c := t.ByRole[catalog.Description]; c != nil && t.pairsDiffer(c, t.ByRole[catalog.Club]) {
		c.Role, c.Known = catalog.Part, false
		c.Evidence += "; there is no column of part numbers, and name and club together are all different"
		t.indexRoles()
		return
	}
	if c := t.setColumn(); c != nil {
		c.Role, c.Known = catalog.Part, false
		c.Evidence = "there is no column of part numbers, and set and club together are all different"
		t.indexRoles()
		return
	}
	if len(titles) > 0 {
		name, _, _ := strings.Cut(titles[0], " ")
		if t.isPart(name) && !lexicon.LooksNumeric(name) && !lexicon.IsDigits(name) {
			t.TitlePart = name
			return
		}
	}
	if c := t.ByRole[catalog.Club]; c.Profile.Filled > 0 && c.Profile.Filled-c.Profile.distinct <= c.Profile.Filled/clubsPerSlip && t.oneClubEach(c) {
		t.NamedBy = catalog.Club
		c.Evidence += "; it names the heads too, since there is no column of part numbers and each club stands once"
	}
}

// clubsPerSlip is how many clubs there are at least for each one that stands twice by a slip.
const clubsPerSlip = 5

// nameByColours lets colours name the parts, where each is another one and stands in a line of its own: all ferrules of the list are of one size.
func (t *Table) nameByColours() {
	for _, role := range [...]catalog.Role{catalog.Colour, catalog.Style} {
		if c := t.ByRole[role]; c != nil && c.Known && c == t.Columns[0] && c.Profile.Filled >= leastNames && c.Profile.distinct == c.Profile.Filled {
			t.NamedBy = role
			c.Evidence += "; it names the parts too, since there is no column of part numbers and each stands once"
			return
		}
	}
}

// leastNames is how many colours name parts at least.
const leastNames = 3

// codesUnclaimed returns the one column without a role that has another code in each line, as of those that call a part number a style or
// a drawing; codes of digits alone only where no others are.
func (t *Table) codesUnclaimed() *Column {
	for _, are := range [...]func(*Column) bool{(*Column).uniqueCodes, (*Column).uniqueDigits} {
		var found []*Column
		for _, c := range t.Columns {
			if c.Role == "" && are(c) {
				found = append(found, c)
			}
		}
		if len(found) > 0 {
			if len(found) > 1 {
				return nil
			}
			return found[0]
		}
	}
	return nil
}

// digitCode is a part number of digits alone.
var digitCode = pattern.Lazy(`^[0-9]+(?:[-/ ][0-9]+)*$`)

// uniqueDigits reports whether the values are codes of as many digits, each another one, under a heading that speaks of no number.
func (c *Column) uniqueDigits() bool {
	p := &c.Profile
	if c.irrelevant != "" || c.Text == "" || p.Filled < 3 || p.distinct < p.Filled || slices.ContainsFunc(c.Matches[catalog.UnknownKind], func(m words.RoleMatch) bool {
		want := traits.Of[catalog.Role(m.Role)].Want
		return m.Score >= lexicon.LeastHeading && want != traits.Text && want != traits.Code
	}) {
		return false
	}
	return !slices.ContainsFunc(p.Texts, func(text string) bool {
		return len(text) < leastDigits || len(text) != len(p.Texts[0]) || !digitCode().MatchString(text)
	})
}

// leastDigits is how many signs a part number of digits has at least; fewer are lofts and weights.
const leastDigits = 4

// oneClubEach reports whether no line of a column of clubs names a set.
func (t *Table) oneClubEach(c *Column) bool {
	return !slices.ContainsFunc(c.Profile.Texts, func(text string) bool { return len(t.Lex.SetOf("iron", text)) > 1 })
}

// setColumn returns the column that names the set whose club each row is: "Set" beside "Clubs".
func (t *Table) setColumn() *Column {
	for _, c := range t.Columns {
		if c.Role == "" && c.headed(t.Kind, catalog.Club) >= lexicon.LeastHeading && c.wordy() && t.pairsDiffer(c, t.ByRole[catalog.Club]) {
			return c
		}
	}
	return nil
}

// pairsDiffer reports whether two columns are filled and say something else in every line, taken together.
func (t *Table) pairsDiffer(a, b *Column) bool {
	seen := map[[2]string]bool{}
	for _, line := range t.Region.SampleLines() {
		pair := [2]string{t.Region.Grid.Filled(line, a.Col), t.Region.Grid.Filled(line, b.Col)}
		if pair[0] == "" || pair[1] == "" || seen[pair] {
			return false
		}
		seen[pair] = true
	}
	return len(seen) > 1
}

// choosePlan returns the best reading of the table, nil where it lists nothing that matters.
func (t *Table) choosePlan(given catalog.Kind, titles []string) *plan {
	if t.Rules.Kind == catalog.NoRole {
		return nil
	}
	fixed := kindOf(t.Rules.Kind)
	var plans []plan
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if fixed != catalog.UnknownKind && kind != fixed {
			continue
		}
		p := planFor(t.Lex, t.Columns, kind, t.Region.Guessed)
		named := t.titlePoints(kind, titles)
		if !p.sensible() && fixed == catalog.UnknownKind && !t.ruledSensible(kind) && !(named > 0 && t.titlesGive(kind, &p)) {
			continue
		}
		settled := kind == given && (p.keyed(t.Columns, repeatHeading) || p.specific(t.Columns))
		if named == 0 && !settled && fixed == catalog.UnknownKind && !p.credible(t.Columns) {
			continue
		}
		p.bonus = named
		p.named = named > 0 || kind == given || fixed != catalog.UnknownKind
		p.stated = p.named || p.specific(t.Columns)
		if p.stated && !p.named {
			p.bonus += specificPoints
		}
		if kind == given {
			p.given = fixed == catalog.UnknownKind
			p.bonus += givenPoints
			if p.keyed(t.Columns, repeatHeading) {
				p.bonus += settledPoints
			}
		}
		plans = append(plans, p)
	}
	if len(plans) == 0 {
		return nil
	}
	sizes := t.gainsay(plans, titles)
	slices.SortStableFunc(plans, func(a, b plan) int { return cmp.Compare(b.rank(), a.rank()) })
	best := &plans[0]
	if title := t.goodsTitle(); title != "" && !best.named {
		t.Add(finding.Warning, "data.other-goods", 0, 0, fmt.Sprintf("the table below %q is set aside: by its title it is of goods that are no parts", title), t.Settle("kind"))
		return nil
	}
	t.judgeKind(plans, given, fixed, sizes)
	return best
}

// goodsTitle returns the title right above the table where it names other goods, empty where it does not.
func (t *Table) goodsTitle() string {
	titles := t.TextTitles()
	if len(titles) == 0 {
		return ""
	}
	if _, goods := t.Lex.Ask("goods", titles[0], t.Lex.Words.OtherGoods); !goods {
		return ""
	}
	return titles[0]
}

// titlesGive reports whether the titles above the table give a size without which nothing can be decided of parts of a kind, and the table has
// their numbers: then its columns need not.
func (t *Table) titlesGive(kind catalog.Kind, p *plan) bool {
	return p.has(catalog.Part) && slices.ContainsFunc(t.TextTitles(), func(title string) bool {
		return slices.ContainsFunc(layout.TitledSizes(t.Lex, kind, title), func(one layout.Titled) bool { return slices.Contains(traits.Needed[kind], one.Role) })
	})
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
func (t *Table) titlePoints(kind catalog.Kind, titles []string) float64 {
	for _, title := range titles {
		hit, found := t.Lex.Words.Kind(title)
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

// judgeKind reports a kind that is in doubt or not what was said; sizes is what the sizes speak for.
func (t *Table) judgeKind(plans []plan, given, fixed, sizes catalog.Kind) {
	best := plans[0]
	key := t.Settle("kind")
	margin := leastKindMargin
	switch {
	case !best.stated && !(len(plans) > 1 && plans[1].stated):
		margin *= 2
	case !best.named && len(plans) > 1 && plans[1].keyed(t.Columns, lexicon.CertainHeading) && !(sizes == best.kind && plans[1].keyUnusual(t.Columns)):
		// Two kinds of parts in one line: a list of which ferrule goes on which head.
		margin = math.Inf(1)
	}
	switch {
	case fixed != catalog.UnknownKind:
	case given != catalog.UnknownKind && best.kind != given:
		t.Add(finding.Warning, "layout.kind", 0, 0, fmt.Sprintf("the file was given as %s, but this table lists %s by its headings", given, best.kind), key)
	case given == catalog.UnknownKind && len(plans) > 1 && best.rank()-plans[1].rank() < margin:
		t.KindHeld = fmt.Sprintf("the table could list %s or %s", best.kind, plans[1].kind)
		t.Add(finding.Error, "layout.kind", 0, 0, fmt.Sprintf("%s (%.1f against %.1f points); say which", t.KindHeld, best.rank(), plans[1].rank()), key)
	case !best.stated && sizes != catalog.UnknownKind && sizes != best.kind:
		t.KindHeld = fmt.Sprintf("the table lists %s by its headings, and its sizes are those of %s", best.kind, sizes)
		t.Add(finding.Error, "layout.kind", 0, 0, t.KindHeld+"; say which", key)
	case !best.stated && !t.names(best.kind):
		t.KindAssumed = fmt.Sprintf("the table taken to list %s: its columns fit that best, and nothing says so", best.kind)
		t.Add(finding.Note, "layout.kind", 0, 0, t.KindAssumed, key)
	}
}

// ruledSensible reports whether the mapping file gives the table a column that makes it one of a kind.
func (t *Table) ruledSensible(kind catalog.Kind) bool {
	for _, rule := range t.Rules.Columns {
		if b, known := traits.BoundsOf(kind, catalog.Role(rule.Role)); known && b.Most > 0 {
			return true
		}
	}
	return false
}

func kindOf(name string) catalog.Kind {
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if kind.String() == name {
			return kind
		}
	}
	return catalog.UnknownKind
}

// applyColumnRules gives the columns the roles of the mapping file. A rule for a column that is not there any more, or
// that has another heading now, is reported and not used.
func (t *Table) applyColumnRules() {
	for _, name := range slices.Sorted(maps.Keys(t.Rules.Columns)) {
		rule := t.Rules.Columns[name]
		at := slices.IndexFunc(t.Columns, func(c *Column) bool { return t.Region.Grid.ColumnName(c.Col) == name })
		key := t.Settle("columns", name)
		if at < 0 {
			t.Add(finding.Warning, "map.stale", 0, 0, fmt.Sprintf("the mapping file speaks of column %s, which is not in the table", name), key)
			continue
		}
		c := t.Columns[at]
		if rule.Heading != "" && rule.Heading != c.Text {
			t.AddColumn(finding.Warning, "map.stale", c.Col, fmt.Sprintf("the mapping file is for a column %s headed %q; it is now headed %q, so the rule was not used",
				name, rule.Heading, c.Text), key)
			t.Rules = t.Rules.Without(name)
			continue
		}
		if rule.Radius {
			c.Scale = 2
		}
		t.applyRole(c, rule, name)
	}
}

// checkRowRules drops the rules for rows that have another part number now, and reports them.
func (t *Table) checkRowRules() {
	part := t.first(catalog.Part)
	for _, name := range slices.Sorted(maps.Keys(t.Rules.Rows)) {
		rule := t.Rules.Rows[name]
		line, found := t.Region.Grid.LineNamed(name)
		now := ""
		if found && part != nil {
			now = t.Region.Grid.Filled(line, part.Col)
		}
		switch key := t.Settle("rows", name); {
		case !found && t.Region.Grid.Beginning(line) > 1:
			t.Add(finding.Warning, "map.stale", 0, 0, fmt.Sprintf("the mapping file speaks of row %s, in which several parts begin; each goes by its cell, the first by %s", name, t.LineName(line)), key)
		case !found || line < t.Region.Body || line > t.Region.To:
			t.Add(finding.Warning, "map.stale", 0, 0, fmt.Sprintf("the mapping file speaks of row %s, which is not in the table's body", name), key)
		case rule.For != "" && words.Fold(rule.For) != words.Fold(now):
			t.Add(finding.Warning, "map.stale", line, 0, fmt.Sprintf("the mapping file is for a row of %s; the row is now of %q, so the rule was not used", rule.For, now), key)
		default:
			continue
		}
		rows := maps.Clone(t.Rules.Rows)
		delete(rows, name)
		t.Rules.Rows = rows
	}
}

// applyRole gives a column the role that the mapping file says, and takes it from the column that had it.
func (t *Table) applyRole(c *Column, rule catalog.ColumnRule, name string) {
	role := catalog.Role(rule.Role)
	switch {
	case rule.Role == "":
		return
	case rule.Role == catalog.NoRole:
		role = ""
	case !slices.Contains(traits.OfKind[t.Kind], role):
		t.AddColumn(finding.Warning, "map.value", c.Col, fmt.Sprintf("the mapping file gives column %s the role %q, which tables of %s do not have", name, rule.Role, t.Kind),
			t.Settle("columns", name, "role"))
		return
	}
	for _, other := range t.Columns {
		if other != c && other.Role == role && role != catalog.Tolerance && role != "" {
			if _, ruled := t.Rules.Columns[t.Region.Grid.ColumnName(other.Col)]; !ruled {
				other.Role, other.Evidence = "", "the mapping file gives its role to another column"
			}
		}
	}
	c.Role, c.Evidence, c.RunnerUp, c.margin, c.Known = role, "role from the mapping file", "", leastMargin, true
}

// shareRoles finds the columns that state again what another column states: readings of it, least and greatest sizes, and the same
// size in another unit.
func (t *Table) shareRoles() {
	t.shareReadings()
	t.shareLimits()
	t.shareTicks()
	first := map[catalog.Role]int{} // of each role, as t.first finds it
	note := func(at int) {
		role := t.Columns[at].Role
		if known, found := first[role]; !found || at < known {
			first[role] = at
		}
	}
	for at := range t.Columns {
		note(at)
	}
	for at, c := range t.Columns {
		if c.Role != "" || c.irrelevant != "" || c.Deviation != 0 || c.follower() {
			continue
		}
		for _, m := range c.Matches[t.Kind] {
			of, found := first[catalog.Role(m.Role)]
			if !found || m.Score < repeatHeading || t.ruledOut(c) || c.saysOther(catalog.Role(m.Role)) {
				continue
			}
			t.share(c, t.Columns[of], m.Score, first)
			note(at)
			if t.Columns[of].Role == "" { // the column is old, and this one the new
				first[c.Role] = at
			}
			break
		}
	}
	t.tellReadings()
	if units, found := first[catalog.UnitRole]; found {
		t.shareUnits(t.Columns[units])
	}
	type limit struct {
		role  catalog.Role
		isMin bool
	}
	limits := map[limit]bool{}
	for _, c := range t.Columns {
		if c.Hints.Min != c.Hints.Max {
			limits[limit{c.Role, c.Hints.Min}] = true
		}
	}
	for _, c := range t.Columns {
		if c.Trait().Want == traits.Length && c.Aspect == Nominal && c.Hints.Min != c.Hints.Max && limits[limit{c.Role, !c.Hints.Min}] {
			c.Aspect = limitOf(c)
		}
	}
	t.tellEnds()
}

// shareUnits takes columns of units, whose headings say nothing, for what another column is by its heading: one is of the sizes and one of the
// pieces.
func (t *Table) shareUnits(first *Column) {
	for _, c := range t.Columns {
		if c.Role == "" && c.irrelevant == "" && c.Profile.Filled > 0 && len(c.Matches[t.Kind]) == 0 && !t.ruledOut(c) && t.namesUnits(c) {
			c.Role, c.Known = catalog.UnitRole, true
			c.Evidence = fmt.Sprintf("names units, like column %s", t.Region.Grid.ColumnName(first.Col))
		}
	}
}

// repeatHeading is the score from which a heading says the same as that of another column.
const repeatHeading = 0.66

// saysOther reports whether the heading, taken by itself, clearly says something else than a role: "Ferrule OD" in a table
// of heads.
func (c *Column) saysOther(role catalog.Role) bool {
	return c.bestHeading() > c.headed(catalog.UnknownKind, role)+0.2
}

func (t *Table) ruledOut(c *Column) bool {
	return t.Rules.Columns[t.Region.Grid.ColumnName(c.Col)].Role == catalog.NoRole
}

// share gives a column the role of another one, where both can hold it together. Taken are the roles that columns have.
func (t *Table) share(c, first *Column, score float64, taken map[catalog.Role]int) {
	switch want := traits.Of[first.Role].Want; {
	case c.hidden && !first.hidden:
		c.Evidence = fmt.Sprintf("hidden, and says %s like column %s, which can be seen", t.named(first.Role), t.Region.Grid.ColumnName(first.Col))
		name := t.Region.Grid.ColumnName(c.Col)
		t.AddColumn(finding.Warning, "layout.column", c.Col, fmt.Sprintf("column %s %q is hidden and says %s like column %s, which can be seen; it is not used",
			name, c.Text, t.named(first.Role), t.Region.Grid.ColumnName(first.Col)), t.Settle("columns", name, "role"))
	case want == traits.Tolerance:
		c.Role, c.Evidence, c.Known = catalog.Tolerance, headingSays("tolerance", score), true
	case first.Role == catalog.UnitRole && t.namesUnits(c):
		c.Role, c.Known = catalog.UnitRole, true
		c.Evidence = fmt.Sprintf("names units, like column %s", t.Region.Grid.ColumnName(first.Col))
	case first.Role == catalog.Part && !has(taken, catalog.Description) && c.wordy():
		c.Role, c.Known = catalog.Description, true
		c.Evidence = fmt.Sprintf("says part number like column %s, which fits better; kept as the description", t.Region.Grid.ColumnName(first.Col))
	case t.revises(c, first):
		t.supersede(c, first)
	case want != traits.Length || len(c.Profile.Sizes) == 0:
		c.Evidence = fmt.Sprintf("says %s like column %s, which fits better", t.named(first.Role), t.Region.Grid.ColumnName(first.Col))
	case c.Hints.Min != c.Hints.Max:
		c.Role, c.Aspect, c.Known = first.Role, limitOf(c), true
		c.Evidence = fmt.Sprintf("heading says a limit of %s", t.named(first.Role))
	case t.sizeless(c):
		c.Evidence = fmt.Sprintf("says %s like column %s, and none of its values could be a size", t.named(first.Role), t.Region.Grid.ColumnName(first.Col))
	case t.otherSizes(c, first, words.Fold(c.Text) == words.Fold(first.Text) && !c.inAnotherUnit(first)):
		c.rival = first
		c.Evidence = fmt.Sprintf("says %s like column %s, and its sizes are others", t.named(first.Role), t.Region.Grid.ColumnName(first.Col))
	default:
		c.Role, c.Aspect, c.Known = first.Role, Repeat, true
		c.Evidence = fmt.Sprintf("states %s again, like column %s", t.named(first.Role), t.Region.Grid.ColumnName(first.Col))
	}
}

// inAnotherUnit reports whether the headings of two columns name different units: then one may state the sizes of the other again.
func (c *Column) inAnotherUnit(other *Column) bool {
	return c.HeadingUnit != "" && other.HeadingUnit != "" && c.HeadingUnit != other.HeadingUnit
}

// otherSizes reports whether a column gives other sizes than another one in most of the rows in which both give one, in whatever unit: then
// it does not state them again; nobody does so under the very same heading, where one that differs is enough.
func (t *Table) otherSizes(c, first *Column, sameHeading bool) bool {
	compared, others := 0, 0
	for _, line := range t.Region.SampleLines() {
		a, b := t.sizeIn(c, line), t.sizeIn(first, line)
		if a.number <= 0 || b.number <= 0 {
			continue
		}
		compared++
		if !slices.ContainsFunc(c.units(), func(unit string) bool {
			return slices.ContainsFunc(first.units(), func(other string) bool { return math.Abs(a.MM(unit)/b.MM(other)-1) <= sameSize })
		}) {
			others++
		}
	}
	return compared >= 3 && (others*3 >= compared*2 || sameHeading && others > 0)
}

// sameSize is by which share two statements of one size may differ, as people round.
const sameSize = 0.02

// sizeIn returns the size that a cell gives, zero where it gives none.
func (t *Table) sizeIn(c *Column, line int) size {
	reading := t.Lex.Read(t.Region.Grid.Filled(line, c.Col), value.Context{Want: value.WantDiameter})
	switch reading.Kind {
	case value.Length:
		return size{traits.MM(reading.Dim.Nominal()), "mm"}
	case value.Number:
		return size{number: reading.Number}
	}
	return size{}
}

// sizeless reports whether no value of a column could be any size of such parts, in any unit that it may be in: numbers of records under
// "Internal ID".
func (t *Table) sizeless(c *Column) bool {
	return !slices.ContainsFunc(traits.OfKind[t.Kind], func(role catalog.Role) bool {
		b, known := traits.BoundsOf(t.Kind, role)
		if !known {
			return false
		}
		possible, _ := c.Profile.best(b, c.units(), 1)
		return possible > 0
	})
}

// revises reports whether a column and the one that has its role are the state before and after a change, of a size, a price or the part numbers,
// and nobody said which counts.
func (t *Table) revises(c, first *Column) bool {
	want := traits.Of[first.Role].Want
	changes := want == traits.Length && c.Hints.Min == c.Hints.Max || want == traits.Price && c.Profile.whole+c.Profile.decimals > 0 || first.Role == catalog.Part
	return changes && c.age(t.Lex) != first.age(t.Lex) && t.Rules.Columns[t.Region.Grid.ColumnName(first.Col)].Role == ""
}

// supersede keeps of an old and a new column the new one.
func (t *Table) supersede(c, first *Column) {
	old, kept := c, first
	if c.age(t.Lex) > first.age(t.Lex) {
		old, kept = first, c
		c.Role, c.Known, c.Evidence, c.margin, c.RunnerUp = first.Role, true, first.Evidence, first.margin, first.RunnerUp
		first.Role = ""
	}
	if sameUnit := old.Unit == kept.Unit || old.Unit == "" || kept.Unit == ""; sameUnit && len(kept.Clubs) == 0 {
		kept.Older = old
	}
	name := t.Region.Grid.ColumnName(old.Col)
	old.reported = true
	old.Evidence = fmt.Sprintf("older than column %s, which says the same and counts", t.Region.Grid.ColumnName(kept.Col))
	t.AddColumn(finding.Warning, "layout.column", old.Col, fmt.Sprintf("column %s %q is older than column %s %q, which says the same and counts",
		name, old.Text, t.Region.Grid.ColumnName(kept.Col), kept.Text), t.Settle("columns", name, "role"))
}

// namesUnits reports whether most texts of a column are units and nothing else.
func (t *Table) namesUnits(c *Column) bool {
	return c.Profile.count(t.Lex.IsUnit)*2 > c.Profile.Filled
}

func has(taken map[catalog.Role]int, role catalog.Role) bool {
	_, found := taken[role]
	return found
}

func limitOf(c *Column) aspect {
	if c.Hints.Min {
		return Least
	}
	return Most
}

// first returns the column that has a role by the assignment, nil where none has.
func (t *Table) first(role catalog.Role) *Column {
	for _, c := range t.Columns {
		if c.Role == role {
			return c
		}
	}
	return nil
}

// indexRoles finds columns by their role; of several the one that states the size itself.
func (t *Table) indexRoles() {
	t.ByRole = map[catalog.Role]*Column{}
	for _, c := range t.Columns {
		if c.Role == "" {
			continue
		}
		if known := t.ByRole[c.Role]; known == nil || known.Aspect != Nominal && c.Aspect == Nominal {
			t.ByRole[c.Role] = c
		}
	}
}

// named is what people call a role in the table.
func (t *Table) named(role catalog.Role) string { return catalog.RoleName(t.Kind, role) }

// holdUncertain holds the columns of sizes whose role is not certain enough to be used, and reports columns that were
// not understood.
func (t *Table) holdUncertain() {
	for _, c := range t.Columns {
		name := t.Region.Grid.ColumnName(c.Col)
		key := t.Settle("columns", name, "role")
		trait := c.Trait()
		if c.Hints.Radius && trait.Diameter {
			c.Scale = 2
		}
		switch {
		case c.irrelevant != "" || c.reported:
		case c.Role == "" && (c.sizesLeftOut(t.Kind) || c.givesSizes(t.Kind)) && !t.ruledOut(c):
			t.AddColumn(finding.Note, "layout.column", c.Col, fmt.Sprintf("column %s %q is not used: %s", name, c.Text, c.Evidence), key)
		case c.Role == "" && c.Profile.Filled > 0 && t.Kind != catalog.UnknownKind && len(c.Matches[t.Kind]) == 0:
			t.AddColumnBy("not understood", finding.Note, "layout.column", c.Col, fmt.Sprintf("column %s %q was not understood and is not used", name, c.Text), key)
		case c.Aspect != Nominal || c.Role == "":
		case trait.Want != traits.Length && trait.Want != traits.Angle:
		case c.Several:
			c.Held = fmt.Sprintf("the heading of column %s names several sizes", name)
			t.AddColumn(finding.Error, "layout.role", c.Col, fmt.Sprintf("column %s %q names several sizes, and its cells do not give as many; say which it is", name, c.Text), key)
		case !c.Known && t.standsForKey(c):
			t.takeForKey(c)
		case !c.Known:
			c.Held = fmt.Sprintf("column %s is %s only by its values", name, t.named(c.Role))
			t.AddColumn(finding.Error, "layout.role", c.Col, fmt.Sprintf("column %s %q was not understood; by its values it is probably %s (%s)", name, c.Text, t.named(c.Role), c.Evidence), key)
		case c.margin < leastMargin:
			other := "none of what is read"
			if c.RunnerUp != "" {
				other = t.named(catalog.Role(c.RunnerUp))
			}
			c.Held = fmt.Sprintf("column %s could be %s or %s", name, t.named(c.Role), other)
			t.AddColumn(finding.Error, "layout.role", c.Col, fmt.Sprintf("column %s %q is probably %s, but it could as well be %s; say which", name, c.Text, t.named(c.Role), other), key)
		default:
			if said, another := t.ofAnotherKind(c); another {
				c.ByValues = true
				t.AddColumn(finding.Warning, "layout.role", c.Col, fmt.Sprintf("column %s %q speaks of %s, which %s do not have; it is taken for %s", name, c.Text, said, t.Kind, t.named(c.Role)), key)
			}
			if other := t.rivalOf(c); other != nil {
				c.RoleHeld = true
				c.Held = fmt.Sprintf("column %s could be %s as well as column %s", t.Region.Grid.ColumnName(other.Col), t.named(c.Role), name)
				because := "was not understood"
				if other.rival == c {
					because = "says the same and gives other sizes"
				}
				t.AddColumn(finding.Error, "layout.role", c.Col, fmt.Sprintf("column %s %q is probably %s, but column %s %q, which %s, could be that as well; say which is",
					name, c.Text, t.named(c.Role), t.Region.Grid.ColumnName(other.Col), other.Text, because), key)
			}
		}
	}
}

// ofAnotherKind reports whether the heading of the outer diameters by which parts of the kind are told apart clearly names what parts of another
// kind have, such as the hosels that ferrules are for, and what that is.
func (t *Table) ofAnotherKind(c *Column) (said string, another bool) {
	found := c.Matches[catalog.UnknownKind]
	if c.Role != catalog.HoselOD && c.Role != catalog.BaseOD || t.ruled(c) || len(found) == 0 || !c.saysOther(c.Role) || c.headed(t.Kind, c.Role) >= lexicon.CertainHeading || slices.Contains(traits.OfKind[t.Kind], catalog.Role(found[0].Role)) {
		return "", false
	}
	return catalog.RoleName(catalog.UnknownKind, catalog.Role(found[0].Role)), true
}

// rivalOf returns a column without a role, or with one by its values only, whose sizes fit that of another as well, where the heading of that one is understood only in
// part and its own heading says nothing else; nil where there is none.
func (t *Table) rivalOf(c *Column) *Column {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	h := c.headed(t.Kind, c.Role)
	if !known || t.ruled(c) || h < lexicon.LeastHeading {
		return nil
	}
	price := t.first(catalog.Price)
	for _, other := range t.Columns {
		p := &other.Profile
		switch {
		case other.rival == c && (h < alike || other.headed(t.Kind, c.Role) >= alike):
			if possible, _ := p.best(b, other.units(), 1); possible > 0 {
				return other
			}
		case h >= lexicon.SpecificHeading:
		case other == c.Older, other == c || other.Role != "" && other.Known || other.irrelevant != "" || other.Deviation != 0 || t.ruled(other):
		case len(other.Matches[t.Kind]) > 0 && other.headed(t.Kind, c.Role) == 0, other.saysOther(c.Role) && !c.saysOther(c.Role) && other.bestHeading() >= lexicon.Understood:
		case p.share(len(p.Sizes)) < rivalSizes || p.counts() || p.Filled*rivalFilled < c.Profile.Filled:
		case len(other.Matches[t.Kind]) == 0 && other.age(t.Lex) != 0: // "Was" and "Now" of something else
		case price != nil && len(other.Matches[t.Kind]) == 0 && t.isLike(other, price) && t.goesWith(other, price): // another sort of price
		default:
			if possible, _ := p.best(b, other.unitsBeside(c), 1); possible >= rivalShare {
				return other
			}
		}
	}
	return nil
}

// unitsBeside returns the units that the sizes of a column may be in to be those of another: whole numbers under a word that nobody knows are
// counts beside a column that states its unit, and no thousandths of an inch.
func (c *Column) unitsBeside(other *Column) []string {
	if all := c.units(); len(all) == 1 || c.Profile.decimals > 0 || !traits.IsLengthUnit(other.HeadingUnit) {
		return all
	}
	return []string{other.HeadingUnit}
}

// rivalSizes is the share of a column's cells that have to be sizes, and rivalShare that of its sizes which have to be possible for a role,
// for the column to be a rival for it.
const rivalSizes, rivalShare = 0.6, 0.8

// rivalFilled is how many times as many cells a column may have as its rival: single cells beside a table are no column.
const rivalFilled = 3

// ruled reports whether the mapping file says what a column is.
func (t *Table) ruled(c *Column) bool {
	return t.Rules.Columns[t.Region.Grid.ColumnName(c.Col)].Role != ""
}

// givesSizes reports whether the cells of a column hold sizes, whatever its heading says.
func (c *Column) givesSizes(kind catalog.Kind) bool {
	if kind == catalog.UnknownKind || c.Deviation != 0 || len(c.Matches[kind]) == 0 || c.Profile.decimals == 0 && len(c.Profile.StatedUnits) == 0 {
		return false
	}
	switch traits.Of[catalog.Role(c.Matches[kind][0].Role)].Want {
	case traits.Price, traits.Count: // which are numbers, too
		return false
	}
	return c.Profile.share(len(c.Profile.Sizes)) >= rivalSizes
}

// sizesLeftOut reports whether a column has values, and a heading that could be that of a size in a table of a kind.
func (c *Column) sizesLeftOut(kind catalog.Kind) bool {
	if kind == catalog.UnknownKind || c.Profile.Filled == 0 || c.Deviation != 0 {
		return false
	}
	return slices.ContainsFunc(c.Matches[kind], func(m words.RoleMatch) bool { return traits.Of[catalog.Role(m.Role)].Want == traits.Length })
}
