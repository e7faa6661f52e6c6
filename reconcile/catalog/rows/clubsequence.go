package rows

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
)

// The irons of a set stand one below the other by their numbers. One that stands there twice where the next one is lacking was copied from its neighbour, and
// a set of which the title says from where to where it goes has all between.

// clubRow is a row with its one club.
type clubRow struct {
	*Entry
	club string
	// number is that of an iron, ten for the pitching wedge behind them, zero for all others.
	number int
}

// clubRows returns the rows with their clubs, where each names one in its column, none otherwise.
func (t *Table) clubRows() (all []clubRow) {
	c := t.ByRole[catalog.Club]
	if t.Kind != catalog.Heads || c == nil {
		return nil
	}
	last := 0
	for _, e := range t.Items {
		if e.Line == last {
			continue
		}
		last = e.Line
		set := t.Lex.SetOf("iron", e.Fields.Text(catalog.Club))
		if len(set) != 1 {
			all = append(all, clubRow{Entry: e})
			continue
		}
		club := plainIron(set[0])
		all = append(all, clubRow{e, club, numberOfIron(club)})
	}
	return all
}

// numberOfIron is the number of an iron, ten for the pitching wedge, zero for all other clubs.
func numberOfIron(club string) int {
	if club == "PW" {
		return pitchingWedge
	}
	n, err := strconv.Atoi(club)
	if err != nil || n < 1 || n >= pitchingWedge {
		return 0
	}
	return n
}

// pitchingWedge is the number that the pitching wedge would have among irons.
const pitchingWedge = 10

// compareClubs says which clubs stand in the place of their neighbours, and which a set lacks that its title says it has.
func (t *Table) compareClubs() {
	rows := t.clubRows()
	t.compareNamedClubs(rows)
	said := false
	for i := 1; i+2 < len(rows); i++ {
		before, a, b, after := rows[i-1].number, rows[i].number, rows[i+1].number, rows[i+2].number
		if a == 0 || a != b || before == 0 || after == 0 || !(before == a-2 && after == a+1) && !(before == a-1 && after == a+2) {
			continue
		}
		lacking := a - 1
		if before == a-1 {
			lacking = a + 1
		}
		said = true
		t.sayTwice(rows[i], rows[i+1], fmt.Sprintf(", and there is none of the number %d", lacking))
	}
	if said || len(rows) == 0 {
		return
	}
	if t.NamedBy == catalog.Club {
		t.sayClubsTwice(rows)
	}
	t.compareWithSets(rows)
}

// sayTwice says that a club stands in two rows.
func (t *Table) sayTwice(a, b clubRow, why string) {
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: a.Place(catalog.Club), Related: []finding.Place{b.Place(catalog.Club)},
		Message: fmt.Sprintf("%s stands in %s and in %s%s: one of them may be another club", a.club, a.Fields.Cell(catalog.Club), b.Fields.Cell(catalog.Club), why)})
}

// sayClubsTwice says which clubs stand in two rows where heads have no other name.
func (t *Table) sayClubsTwice(rows []clubRow) {
	first := map[string]clubRow{}
	for _, row := range rows {
		if other, known := first[row.club]; known && row.club != "" {
			t.sayTwice(other, row, ", and nothing else names the heads")
		}
		first[row.club] = row
	}
}

// compareWithSets says which clubs of the set that a title names are lacking, where all others are there once and no other ones are.
func (t *Table) compareWithSets(rows []clubRow) {
	for _, title := range t.TextTitles() {
		set, place, found := t.Lex.FindSet(title)
		if !found || len(set) < leastOfSet {
			continue
		}
		lacking := make([]string, len(set))
		for i, club := range set {
			lacking[i] = plainIron(club)
		}
		set = slices.Clone(lacking)
		for _, row := range rows {
			at := slices.Index(lacking, row.club)
			if at < 0 {
				return // twice, or a club beyond the set
			}
			lacking = slices.Delete(lacking, at, at+1)
		}
		if len(lacking) == 0 || len(lacking) > len(set)/leastOfSet+1 {
			continue
		}
		line, col := t.whereLacking(rows, set, lacking[0]), t.ByRole[catalog.Club]
		t.Add(finding.Warning, "data.missing", line, col.Col, fmt.Sprintf("the title names the set %s, of which %s is not in the table", place, strings.Join(lacking, " and ")),
			t.Settle("rows", t.LineName(line), string(catalog.Club)))
	}
}

// leastOfSet is of how many clubs a set is at least that is looked for in the rows.
const leastOfSet = 4

// whereLacking returns the line of the club behind one that a set lacks, the last line where it has none.
func (t *Table) whereLacking(rows []clubRow, set []string, lacking string) int {
	for _, next := range set[slices.Index(set, lacking)+1:] {
		if at := slices.IndexFunc(rows, func(row clubRow) bool { return row.club == next }); at >= 0 {
			return rows[at].Line
		}
	}
	return rows[len(rows)-1].Line
}

// compareNamedClubs says which rows have another club in their column than in the text that names it in nearly all rows.
func (t *Table) compareNamedClubs(rows []clubRow) {
	for _, role := range [...]catalog.Role{catalog.Description, catalog.Part} {
		c := t.ByRole[role]
		if c == nil || len(rows) <= leastDescribed || !t.namesClubs(c, rows) {
			continue
		}
		agreeing := 0
		var other []clubRow
		for _, row := range rows {
			text := row.Fields.Text(role)
			if row.club == "" || hasNumber(text, row.club) { // nearly all do, and the others are looked at more closely
				agreeing++
			} else if named := t.clubIn(text); named != "" && named != row.club {
				other = append(other, row)
			}
		}
		if agreeing < leastDescribed || len(other)*leastPerOther > max(leastPerOther, agreeing) {
			continue
		}
		for _, row := range other {
			t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: row.Place(catalog.Club), Related: []finding.Place{row.Place(role)},
				Message: fmt.Sprintf("the club of %s is %s in %s, and its %s in %s names %s", row.Part, row.club, row.Fields.Cell(catalog.Club), catalog.RoleName(t.Kind, role),
					row.Fields.Cell(role), t.clubIn(row.Fields.Text(role)))})
		}
		return
	}
}

// hasNumber reports whether a club stands within a text, and no digit beside it.
func hasNumber(text, club string) bool {
	digit := func(at int) bool { return at >= 0 && at < len(text) && text[at] >= '0' && text[at] <= '9' }
	for from := 0; ; {
		at := strings.Index(text[from:], club)
		if at < 0 {
			return false
		}
		if from += at; !digit(from-1) && !digit(from+len(club)) {
			return true
		}
		from += len(club)
	}
}

// namesClubs reports whether the texts of a column name the clubs of some rows of several: most lists have other texts.
func (t *Table) namesClubs(c *cells.Column, rows []clubRow) bool {
	named := 0
	for i := 0; i < len(rows); i += max(1, len(rows)/describedSample) {
		if club := t.clubIn(rows[i].Fields.Text(c.Role)); club != "" && club == rows[i].club {
			named++
		}
	}
	return named >= leastDescribed
}

// clubIn returns the one club that a text names within, or by the number in which it ends: "Nairn 7"; empty where it names none.
func (t *Table) clubIn(text string) string {
	hit, found := t.Lex.Ask("club within", text, t.Lex.Words.ClubWithin)
	if found {
		return plainIron(hit.Value)
	}
	if at := strings.LastIndex(text, " "); at > 0 && numberOfIron(text[at+1:]) > 0 {
		return text[at+1:]
	}
	if at := strings.LastIndexFunc(text, lexicon.IsWide); at > 0 { // 铁杆头5号
		digits := strings.TrimLeftFunc(text, func(r rune) bool { return r < '1' || r > '9' })
		if set := t.Lex.SetOf("iron", digits); len(digits) < len(text) && len(set) == 1 {
			return plainIron(set[0])
		}
	}
	return ""
}

// plainIron is a club without the letter for irons, which most go without.
func plainIron(club string) string {
	if number := strings.TrimRight(club, "iI"); lexicon.IsDigits(number) {
		return number
	}
	return club
}
