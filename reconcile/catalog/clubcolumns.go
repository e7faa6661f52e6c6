package catalog

import (
	"slices"
	"strings"
)

// Some tables give a size club by club in columns beside each other: "Hosel OD" above 3, 4, 5 … PW. Such columns are read as
// one, and each row of the table as one head for each club that it gives a size for.

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
