package columns

import (
	"math"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// Spreadsheets that summarise a list put the mean of each group above its rows, under the name of the group: a colour above the ferrules that
// have it. Such a line is no part. It is told by its sizes, which are the means of those below, and not by its name.

// dropGroupMeans makes totals of the lines whose sizes are the means of the lines of parts below them, up to the next such line, if in some
// group these differ, so that they cannot be the sizes that its parts have in common.
func (t *Table) dropGroupMeans(kinds []LineKind) {
	c := t.ByRole[catalog.Part]
	if c == nil || len(t.measured()) < leastMeans {
		return
	}
	var heads, ends []int // of each group the line with its name and the one behind it
	parts := 0
	for i, kind := range kinds {
		if kind != LineData {
			continue
		}
		switch text := t.Region.Grid.At(t.Region.From+i, c.Col); {
		case t.isPart(text):
			parts++
		case strings.ContainsFunc(text, unicode.IsDigit) || text == "":
			return // numbers of another kind: what is a group cannot be told
		default:
			heads = append(heads, i)
		}
	}
	if len(heads) == 0 || parts < 2*len(heads) {
		return
	}
	ends = append(append(ends, heads[1:]...), len(kinds))
	differ := false
	for i, head := range heads {
		means, spread := t.isGroupMean(head, ends[i], kinds)
		if !means {
			return
		}
		differ = differ || spread
	}
	if !differ {
		return
	}
	for _, head := range heads {
		kinds[head] = LineTotal
	}
}

// leastMeans is how many columns of sizes a line of means has at least.
const leastMeans = 2

// isGroupMean reports whether the sizes of a line are the means of those of the lines of parts between it and another one, and whether any of
// these differ.
func (t *Table) isGroupMean(head, end int, kinds []LineKind) (means, differ bool) {
	columns := 0
	for _, c := range t.measured() {
		mean, decimals, given := t.numberAt(head, c)
		if !given {
			continue
		}
		sum, n, first := 0.0, 0.0, 0.0
		for i := head + 1; i < end; i++ {
			if kinds[i] != LineData {
				continue
			}
			x, _, given := t.numberAt(i, c)
			if !given {
				continue
			}
			if n == 0 {
				first = x
			}
			differ = differ || x != first
			sum += x
			n++
		}
		if n == 0 || math.Abs(sum/n-mean) > 0.5*math.Pow10(-decimals)+1e-9 {
			return false, false
		}
		columns++
	}
	return columns >= leastMeans, differ
}

// numberAt returns the number in a line of a column, and with how many decimals it is written.
func (t *Table) numberAt(i int, c *Column) (number float64, decimals int, given bool) {
	text := t.Region.Grid.At(t.Region.From+i, c.Col)
	reading := t.Lex.Read(text, value.Context{Want: value.WantLength})
	switch reading.Kind {
	case value.Number:
		number = reading.Number
	case value.Length:
		number = traits.MM(reading.Dim.Nominal())
	default:
		return 0, 0, false
	}
	if at := strings.LastIndexAny(text, ".,"); at >= 0 {
		for _, r := range text[at+1:] {
			if !unicode.IsDigit(r) {
				break
			}
			decimals++
		}
	}
	return number, decimals, true
}
