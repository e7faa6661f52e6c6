package columns

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog/traits"
)

// leastCounted is how many columns of one size, counted in their headings, are readings of it: two may be its two ends.
const leastCounted = 3

// tellReadings finds sizes that were read several times, in columns whose headings are alike but for the number that counts them:
// "Hosel OD 1", "Hosel OD 2", "Hosel OD 3".
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
		if count < leastCounted {
			continue
		}
		for _, c := range t.Columns[from:next] {
			c.Hints.Measured = true
			c.Evidence += fmt.Sprintf("; one of %d readings of it", count)
		}
	}
}

// counted parts the heading of sizes from the number at its end; the number is 0 where there is none, or not one digit alone.
func (t *Table) counted(c *Column) (stem string, number int) {
	if c.Trait().Want != traits.Length || c.Aspect != Nominal && c.Aspect != Repeat {
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
