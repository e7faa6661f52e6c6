package columns

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
)

// leastCounted is how many columns of one size, counted in headings of their own, are readings of it, but where their mean stands beside
// them: two may be its two ends.
const leastCounted = 3

// follower reports whether a column gives a size that another one has the first reading of, below one heading over both.
func (c *Column) follower() bool { return c.Gives != layout.Itself && c.Col != c.ReadingsAt }

// shareReadings gives the role of the first of several columns below one heading, which are readings of one size and what is worked out from
// them, to those that are read too.
func (t *Table) shareReadings() {
	for _, first := range t.Columns {
		if first.Gives == layout.Itself || first.follower() || first.Trait().Want != traits.Length {
			continue
		}
		for _, c := range t.Columns {
			if c.ReadingsAt == first.Col && !t.ruledOut(c) {
				t.shareReading(c, first)
			}
		}
	}
}

// shareReading gives a column the role of the first one of readings of a size, if it states the size.
func (t *Table) shareReading(c, first *Column) {
	name := t.named(first.Role)
	switch {
	case c.Gives == layout.OneReading:
		c.Hints.Measured = true
		if c == first {
			c.Evidence += "; one of several readings of it"
			return
		}
		c.Role, c.Aspect, c.Known, c.Evidence = first.Role, Repeat, true, "one of several readings of "+name
	case c.Gives == layout.ItsMean:
		c.Role, c.Aspect, c.Known, c.Evidence = first.Role, Mean, true, "mean of the readings of "+name
	case c.Gives == layout.ItsSpread && t.ruled(c):
	case c.Gives != layout.ItsSpread && (t.ruled(c) || !t.worked(c)):
		c.Role, c.Aspect, c.Known = first.Role, Most, true
		if c.Gives == layout.ItsLeast {
			c.Aspect = Least
		}
		c.Evidence = "a limit of " + name + ", which its readings do not reach"
	default:
		c.Role, c.reported = "", true
		c.Evidence = fmt.Sprintf("worked out from the readings of %s beside it", name)
	}
}

// worked reports whether the least or greatest sizes of a column are those of the readings beside it, in most rows that have both.
func (t *Table) worked(c *Column) bool {
	compared, same := 0, 0
	for _, line := range t.Region.SampleLines() {
		own, extreme := t.sizeIn(c, line).number, 0.0
		for _, other := range t.Columns {
			size := t.sizeIn(other, line).number
			if other.ReadingsAt != c.ReadingsAt || other.Gives != layout.OneReading || size <= 0 {
				continue
			}
			if extreme == 0 || (size < extreme) == (c.Gives == layout.ItsLeast) {
				extreme = size
			}
		}
		if own <= 0 || extreme == 0 {
			continue
		}
		compared++
		if own == extreme {
			same++
		}
	}
	return same*2 >= compared
}

// tellReadings finds sizes that were read several times, in columns whose headings are alike but for the number that counts them:
// "Hosel OD 1", "Hosel OD 2", "Hosel OD 3", and their mean, where it stands beside them.
func (t *Table) tellReadings() {
	next := 0 // the column behind those looked at
	for next < len(t.Columns) {
		from := next
		next++
		stem, count := t.counted(t.Columns[from])
		if count != 1 {
			continue
		}
		for next < len(t.Columns) && t.Columns[next].Role == t.Columns[from].Role {
			if other, number := t.counted(t.Columns[next]); other != stem || number != count+1 {
				break
			}
			count++
			next++
		}
		mean := t.meanOf(next, stem, t.Columns[from].Role)
		if count < leastCounted && (mean == nil || count < 2) {
			continue
		}
		for _, c := range t.Columns[from:next] {
			c.Hints.Measured = true
			c.Evidence += fmt.Sprintf("; one of %d readings of it", count)
		}
		if mean != nil {
			mean.Aspect = Mean
			mean.Evidence += "; the mean of its readings"
		}
	}
}

// meanOf returns the column, given by its place, where it has a role and its heading says that of a mean behind the words of a stem; nil where it
// does not.
func (t *Table) meanOf(at int, stem string, role catalog.Role) *Column {
	if at >= len(t.Columns) || t.Columns[at].Role != role {
		return nil
	}
	text, _, _ := t.Lex.Words.SplitUnit(t.Columns[at].Text)
	rest, same := strings.CutPrefix(text, strings.TrimRight(stem, " #."))
	if !same || !t.Lex.Words.OfReadings(words.ReadingMean, strings.TrimSpace(rest)) {
		return nil
	}
	return t.Columns[at]
}

// counted parts the heading of sizes from the number at its end; the number is 0 where there is none, or not one digit alone.
func (t *Table) counted(c *Column) (stem string, number int) {
	if c.Gives != layout.Itself || c.Trait().Want != traits.Length || c.Aspect != Nominal && c.Aspect != Repeat {
		return "", 0
	}
	text, _, _ := t.Lex.Words.SplitUnit(c.Text)
	stem = strings.TrimRight(text, "0123456789")
	digits := text[len(stem):]
	if len(digits) != 1 || !strings.ContainsAny(stem[max(0, len(stem)-1):], " #.") {
		return "", 0
	}
	return stem, int(digits[0] - '0')
}

// shareTicks gives the role of the column with the tips of a matrix of ticks to its others, whose ticks it has.
func (t *Table) shareTicks() {
	for _, c := range t.Columns {
		if c.TickedIn == 0 || t.ruled(c) {
			continue
		}
		at := slices.IndexFunc(t.Columns, func(other *Column) bool { return other.Col == c.TickedIn })
		if at >= 0 && t.Columns[at].Role != "" {
			c.Role, c.Aspect, c.Known = t.Columns[at].Role, Repeat, true
			c.Evidence = "its ticks are read in column " + t.Region.Grid.ColumnName(c.TickedIn)
		}
	}
}
