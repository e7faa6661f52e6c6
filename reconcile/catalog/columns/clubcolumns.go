package columns

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// Some tables give a size club by club in columns beside each other: "Hosel OD" above 3, 4, 5 … PW, or "Club" where a title names the size.
// Such columns are read as one, and each row of the table as one head for each club that it gives a size for.

// ClubColumn is one column of several that give the same size, with its club.
type ClubColumn struct {
	Club    string
	Heading layout.Heading
}

// foldClubColumns makes one column of each run of columns that are headed by clubs under one heading, or under a title
// that names a size.
func (t *Table) foldClubColumns(titles []string) {
	var kept []*Column
	for i := 0; i < len(t.Columns); {
		end := i
		for end < len(t.Columns) && t.Columns[end].club(t.Lex) != "" && t.Columns[end].group() == t.Columns[i].group() {
			end++
		}
		if run := t.Columns[i:end]; len(run) >= layout.LeastClubs {
			if leader := t.leaderOf(run, titles); leader != nil {
				kept = append(kept, leader)
				i = end
				continue
			}
		}
		kept = append(kept, t.Columns[i])
		i++
	}
	t.Columns = kept
}

// club returns the club that the last fragment of a heading names.
func (c *Column) club(lex *lexicon.Lexicon) string {
	if len(c.Parts) == 0 {
		return ""
	}
	return lex.ClubHeading(c.Parts[len(c.Parts)-1])
}

// group returns what stands above the last fragment of a heading.
func (c *Column) group() string { return strings.Join(c.Parts[:max(0, len(c.Parts)-1)], "\x00") }

// leaderOf returns the column that stands for a run, nil where nothing says which size it gives.
func (t *Table) leaderOf(run []*Column, titles []string) *Column {
	first := run[0]
	parts := first.Parts[:len(first.Parts)-1]
	if len(parts) == 0 || t.saysClub(parts) {
		parts = t.sizeTitle(titles)
	}
	h := layout.Heading{Col: first.Col, Parts: parts, Text: strings.Join(parts, " "), Unit: first.Heading.Unit}
	found := t.Lex.Match(h.Parts...)
	if len(found) == 0 || traits.Of[catalog.Role(found[0].Role)].Want != traits.Length {
		return nil
	}
	leader := newColumn(t.Lex, t.Region, h, first.Profile)
	for _, c := range run {
		if c != first {
			leader.Profile.join(&c.Profile)
		}
		leader.Clubs = append(leader.Clubs, ClubColumn{c.club(t.Lex), c.Heading})
	}
	return leader
}

// saysClub reports whether what stands above clubs says only that: the size is that of a title.
func (t *Table) saysClub(parts []string) bool {
	found := t.Lex.Match(parts...)
	return len(found) > 0 && catalog.Role(found[0].Role) == catalog.Club
}

// sizeTitle returns the title that names a size of heads, as the heading of columns that have none of their own.
func (t *Table) sizeTitle(titles []string) []string {
	for _, title := range titles {
		roles := t.Lex.Words.Subject(catalog.Heads.String(), "", title).Roles
		if len(roles) == 1 && roles[0].Score >= lexicon.SaysOneSize {
			phrase := []string{roles[0].Words}
			if _, unit, _ := t.Lex.Words.SplitUnit(title); unit != "" {
				phrase[0] += " (" + unit + ")"
			}
			return phrase
		}
	}
	return nil
}

// join adds what another column of the same size holds.
func (p *profile) join(other *profile) {
	p.Texts = append(slices.Clip(p.Texts), other.Texts...)
	p.Sizes = append(slices.Clip(p.Sizes), other.Sizes...)
	p.codes += other.codes
	p.whole += other.whole
	p.decimals += other.decimals
	p.dates += other.dates
	p.distinct += other.distinct
	p.Filled += other.Filled
	p.clubs += other.clubs
	p.sets += other.sets
	p.plainClubs += other.plainClubs
	p.longTexts += other.longTexts
	p.Commas += other.Commas
	p.Points += other.Points
	p.pairs += other.pairs
	p.falling += other.falling
	p.Digits = max(p.Digits, other.Digits)
	p.significant = max(p.significant, other.significant)
	p.fractions += other.fractions
	for unit, count := range other.formatUnits {
		p.formatUnits[unit] += count
	}
	for unit, count := range other.StatedUnits {
		p.StatedUnits[unit] += count
	}
}
