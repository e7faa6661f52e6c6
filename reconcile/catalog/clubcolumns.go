package catalog

import (
	"fmt"
	"slices"
	"strings"
)

// Some tables give a size club by club in columns beside each other: "Hosel OD" above 3, 4, 5 … PW. Such columns are read as
// one, and each row of the table as one head for each club that it gives a size for.

// leastClubs is how many columns must be headed by clubs.
const leastClubs = 3

// clubHeading returns the club that a cell names, as the heading of a column: 3, #5, 7i, PW; empty for anything else.
func (l *lexicon) clubHeading(text string) string {
	if text == "" || len(text) > 12 || countDigits(text) > 2 || strings.ContainsAny(text, ".°,") || isDigits(text) && len(text) > 1 && text > "12" {
		return ""
	}
	if set := l.setOf("iron", text); len(set) == 1 {
		return set[0]
	}
	return ""
}

func countDigits(text string) int {
	count := 0
	for _, r := range text {
		if r >= '0' && r <= '9' {
			count++
		}
	}
	return count
}

// clubCells counts the cells of a line that are clubs, each another one; zero where one comes back.
func clubCells(g *grid, lex *lexicon, line, left, right int) int {
	var seen map[string]bool
	for _, id := range g.row(line, left, right) {
		if !g.is(asClub, lex, id) {
			continue
		}
		club := lex.clubHeading(g.list[id].text)
		switch {
		case seen[club]:
			return 0
		case seen == nil:
			seen = map[string]bool{}
		}
		seen[club] = true
	}
	return len(seen)
}

// isClubLine reports whether a line below a heading names clubs under cells of it, each club once under each, and says
// nothing else.
func isClubLine(g *grid, lex *lexicon, line, top int, strip span) bool {
	clubs := map[string]map[string]bool{}
	group := ""
	for col := strip.left; col <= strip.right; col++ {
		if above := g.filled(top, col); above != "" {
			group = above
		}
		text := g.at(line, col)
		if text == "" {
			continue
		}
		club := lex.clubHeading(text)
		if club == "" || group == "" || clubs[group][club] {
			return false
		}
		if clubs[group] == nil {
			clubs[group] = map[string]bool{}
		}
		clubs[group][club] = true
	}
	for _, under := range clubs {
		if len(under) < leastClubs {
			return false
		}
	}
	return lex.sizeGroup(clubs)
}

// sizeGroup reports whether one of several headings names a size.
func (l *lexicon) sizeGroup(groups map[string]map[string]bool) bool {
	for group := range groups {
		if found := l.match(group); len(found) > 0 && found[0].Score >= headingScore && traits[Role(found[0].Role)].want == wantLength {
			return true
		}
	}
	return false
}

// clubColumn is one column of several that give the same size, with its club.
type clubColumn struct {
	club    string
	heading heading
}

// foldClubColumns makes one column of each run of columns that are headed by clubs under one heading, or under a title
// that names a size.
func (t *roleTable) foldClubColumns(titles []string) {
	var kept []*column
	for i := 0; i < len(t.columns); {
		end := i
		for end < len(t.columns) && t.columns[end].club(t.lex) != "" && t.columns[end].group() == t.columns[i].group() {
			end++
		}
		if run := t.columns[i:end]; len(run) >= leastClubs {
			if leader := t.leaderOf(run, titles); leader != nil {
				kept = append(kept, leader)
				i = end
				continue
			}
		}
		kept = append(kept, t.columns[i])
		i++
	}
	t.columns = kept
}

// club returns the club that the last fragment of a heading names.
func (c *column) club(lex *lexicon) string {
	if len(c.parts) == 0 {
		return ""
	}
	return lex.clubHeading(c.parts[len(c.parts)-1])
}

// group returns what stands above the last fragment of a heading.
func (c *column) group() string { return strings.Join(c.parts[:max(0, len(c.parts)-1)], "\x00") }

// leaderOf returns the column that stands for a run, nil where nothing says which size it gives.
func (t *roleTable) leaderOf(run []*column, titles []string) *column {
	first := run[0]
	parts := first.parts[:len(first.parts)-1]
	if len(parts) == 0 {
		parts = t.sizeTitle(titles)
	}
	h := heading{col: first.col, parts: parts, text: strings.Join(parts, " "), unit: first.heading.unit}
	found := t.lex.match(h.parts...)
	if len(found) == 0 || traits[Role(found[0].Role)].want != wantLength {
		return nil
	}
	leader := newColumn(t.lex, t.region, h, first.profile)
	for _, c := range run {
		if c != first {
			leader.profile.join(&c.profile)
		}
		leader.clubs = append(leader.clubs, clubColumn{c.club(t.lex), c.heading})
	}
	return leader
}

// sizeTitle returns the title that names a size of heads, as the heading of columns that have none of their own.
func (t *roleTable) sizeTitle(titles []string) []string {
	for _, title := range titles {
		roles := t.lex.words.Subject(Heads.String(), title).Roles
		if len(roles) == 1 && roles[0].Score >= saysOneSize {
			phrase := []string{roles[0].Words}
			if _, unit, _ := t.lex.words.SplitUnit(title); unit != "" {
				phrase[0] += " (" + unit + ")"
			}
			return phrase
		}
	}
	return nil
}

// join adds what another column of the same size holds.
func (p *profile) join(other *profile) {
	p.texts = append(slices.Clip(p.texts), other.texts...)
	p.sizes = append(slices.Clip(p.sizes), other.sizes...)
	p.codes += other.codes
	p.whole += other.whole
	p.decimals += other.decimals
	p.dates += other.dates
	p.distinct += other.distinct
	p.filled += other.filled
	p.longTexts += other.longTexts
	p.commas += other.commas
	p.points += other.points
	p.pairs += other.pairs
	p.digits = max(p.digits, other.digits)
	for unit, count := range other.formatUnits {
		p.formatUnits[unit] += count
	}
	for unit, count := range other.statedUnits {
		p.statedUnits[unit] += count
	}
}

// clubsOf returns the clubs that the table gives in columns, in their order; nil where it does not.
func (t *cellReader) clubsOf() []string {
	var clubs []string
	for _, c := range t.columns {
		if c.trait().want != wantLength {
			continue
		}
		for _, one := range c.clubs {
			if !slices.Contains(clubs, one.club) {
				clubs = append(clubs, one.club)
			}
		}
	}
	return clubs
}

// turnTo lets the columns that stand for several read those of one club. It reports false where the line gives no size of
// this club.
func (t *cellReader) turnTo(line int, club string) bool {
	given := false
	for _, c := range t.columns {
		if len(c.clubs) == 0 {
			continue
		}
		at := slices.IndexFunc(c.clubs, func(one clubColumn) bool { return one.club == club })
		c.absent = at < 0
		if c.absent {
			continue
		}
		c.col = c.clubs[at].heading.col
		text := t.region.grid.filled(line, c.col)
		_, none := t.lex.ask("not applicable", text, t.lex.words.IsNotApplicable)
		given = given || text != "" && !none
	}
	return given
}

// shown returns the columns as they stand in the sheet, for the account of how it was understood.
func (c *unitColumn) shown(g *grid) []Column {
	evidence, unitWhy := c.evidence, c.unitWhy
	if unitWhy == "" && c.trait().want == wantLength && c.cellsUnit() != "" {
		unitWhy = "unit in the cells"
	}
	if unitWhy != "" {
		evidence = strings.TrimPrefix(evidence+"; "+unitWhy, "; ")
	}
	own := Column{Column: g.columnName(c.col), Heading: c.text, Role: c.role, Unit: c.shownUnit(), Evidence: evidence, RunnerUp: c.runnerUp}
	if len(c.clubs) == 0 {
		return []Column{own}
	}
	var all []Column
	for _, one := range c.clubs {
		own.Column, own.Heading = g.columnName(one.heading.col), one.heading.text
		own.Evidence = fmt.Sprintf("%s; for club %s", evidence, one.club)
		all = append(all, own)
	}
	return all
}
