package columns

import (
	"fmt"
	"slices"
	"strconv"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
)

// Beside the sets that one column names another may say how many clubs these have: 7 beside "4-PW". Where most rows agree, one that does not is
// a slip, in the one or in the other.

// setCounts is what numbers have to do with the sets of clubs beside them.
type setCounts struct {
	// agreeing is in how many lines a number is that of the clubs of the set, and distinct how many numbers are.
	agreeing, distinct int
	// others are the lines in which it is another one.
	others []int
}

// countSets compares the numbers of a column with the sets of clubs of another one.
func countSets(sets, c *Column, g *grid.Grid, lex *lexicon.Lexicon, lines []int) (s setCounts) {
	seen := map[int]bool{}
	for _, line := range lines {
		number := countOf().FindStringSubmatch(g.Filled(line, c.Col))
		lengths := setLengths(lex, g.Filled(line, sets.Col))
		if number == nil || len(lengths) == 0 {
			continue
		}
		n, err := strconv.Atoi(number[1])
		if err != nil || !slices.Contains(lengths, n) {
			s.others = append(s.others, line)
			continue
		}
		s.agreeing++
		seen[n] = true
	}
	s.distinct = len(seen)
	return s
}

// countOf is a number of clubs, with a word for them perhaps: 7, "7 heads".
var countOf = pattern.Lazy(`^([1-9][0-9]?)\PN*$`)

// setLengths returns how many clubs a set may have by the kinds of which its plain numbers may be, none where a text names no set: 3-7 is of five
// irons or of three woods.
func setLengths(lex *lexicon.Lexicon, text string) (all []int) {
	for _, category := range [...]string{"", "iron", "wood"} {
		if n := len(lex.SetOf(category, text)); n > 1 && !slices.Contains(all, n) {
			all = append(all, n)
		}
	}
	return all
}

// counts reports whether the numbers count the clubs: in most lines, of several sets of different lengths where another number stands in some.
func (s setCounts) counts() bool {
	return s.agreeing > 0 && (len(s.others) == 0 || s.agreeing >= leastPerOther*len(s.others) && s.distinct > 1)
}

// leastPerOther is how many lines there are at least in which the numbers agree for each one in which they do not.
const leastPerOther = 3

// countsSet is said of a column of how many clubs sets have.
const countsSet = "counts the clubs of each set"

// pairSets finds the columns whose headings speak of clubs and that count those of the sets that another one names.
func pairSets(columns []*Column, g *grid.Grid, lex *lexicon.Lexicon, lines []int) {
	sets := slices.IndexFunc(columns, func(c *Column) bool { return c.namesClubs() })
	if sets < 0 {
		return
	}
	for _, c := range columns {
		if found := c.Matches[catalog.UnknownKind]; c == columns[sets] || len(found) == 0 || catalog.Role(found[0].Role) != catalog.Club || c.Profile.share(c.Profile.small) < 1 {
			continue
		}
		if countSets(columns[sets], c, g, lex, lines).counts() {
			c.irrelevant = countsSet
		}
	}
}

// compareSets says which sets have another number of clubs than the column that counts them says.
func (t *Table) compareSets() {
	sets := t.ByRole[catalog.Club]
	if sets == nil {
		return
	}
	var lines []int
	for i, kind := range t.Lines {
		if kind == LineData {
			lines = append(lines, t.Region.From+i)
		}
	}
	g := t.Region.Grid
	for _, c := range t.Columns {
		if c == sets || c.Profile.share(c.Profile.count(countOf().MatchString)) < nearlyAll {
			continue
		}
		s := countSets(sets, c, g, t.Lex, lines)
		if !s.counts() {
			continue
		}
		for _, line := range s.others {
			t.AddBy("set", finding.Warning, "data.conflict", line, sets.Col, fmt.Sprintf("%s names %d clubs, and column %s %q says %s in %s: one of them is wrong, as the two agree in most rows",
				g.Filled(line, sets.Col), setLengths(t.Lex, g.Filled(line, sets.Col))[0], g.ColumnName(c.Col), c.Text, g.Filled(line, c.Col), g.Ref(line, c.Col)), "")
		}
	}
}
