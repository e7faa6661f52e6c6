package columns

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// Where quantities times prices come to the totals beside them, and the columns of these and of counts to the sums below, one that does not is a slip of
// somebody: a count, a price or the sum.

// totals are the columns of quantities, prices and what these come to, with the decimal mark of their numbers.
type totals struct {
	quantity, price, total *Column
	mark                   value.Mark
}

// off reports whether the total of a line is another than the quantity times the price, and what they come to.
func (t *Table) off(s *totals, line int) (comesTo float64, off bool) {
	n, p, sum := t.numberIn(s.quantity, line, s.mark), t.numberIn(s.price, line, s.mark), t.numberIn(s.total, line, s.mark)
	comesTo = n * p / s.price.Per
	return comesTo, n > 0 && p > 0 && sum > 0 && math.Abs(comesTo-sum) > max(leastCoin, roundedShare*sum)
}

// mostOff is how many lines of a hundred may have another total than they come to, where more than one has: more are offers of their own.
const mostOff = 5

// compareTotals says which lines have another total than their quantity times their price.
func (t *Table) compareTotals() {
	s := t.totals
	if s == nil {
		return
	}
	var wrong []int
	for i, kind := range t.Lines {
		if kind != LineData {
			continue
		}
		if _, off := t.off(s, t.Region.From+i); off && !t.sellsLot(t.Region.From+i) {
			if wrong = append(wrong, t.Region.From+i); len(wrong) > max(1, mostOff*len(t.Lines)/100) {
				return
			}
		}
	}
	g := t.Region.Grid
	for _, line := range wrong {
		comesTo, _ := t.off(s, line)
		t.AddBy("total", finding.Warning, "data.conflict", line, s.total.Col, fmt.Sprintf("%s %s is not %s in %s times %s in %s, which is %.6g, as it is in the other rows", nameOf(s.total),
			g.Filled(line, s.total.Col), g.Filled(line, s.quantity.Col), g.Ref(line, s.quantity.Col), g.Filled(line, s.price.Col), g.Ref(line, s.price.Col), comesTo), "")
	}
}

// sellsLot reports whether a cell of a line says that sets or packs are sold, of which a price may be that of a piece.
func (t *Table) sellsLot(line int) bool {
	return slices.ContainsFunc(t.Columns, func(c *Column) bool {
		text := t.Region.Grid.Filled(line, c.Col)
		return c.Role != catalog.Description && (t.Lex.Sells(text).Bundles() || len(t.Lex.Words.Sets(text)) > 0 || c.Role == catalog.Club && len(t.Lex.SetOf("iron", text)) > 1)
	})
}

// nameOf is what a column is called.
func nameOf(c *Column) string { return strings.TrimSpace(c.Text) }

// compareSums says which sums below a column of totals or counts are not those of what stands above them.
func (t *Table) compareSums() {
	if t.totals != nil {
		t.compareSumsOf(t.totals.total, t.totals.mark)
		if t.totals.quantity.offered {
			t.compareSumsOf(t.totals.quantity, t.totals.mark)
		}
	}
	if c := t.ByRole[catalog.Stock]; c != nil {
		t.compareSumsOf(c, value.MarkUnknown)
	}
}

// leastSummed is how many numbers a sum is of at least.
const leastSummed = 2

// summed is what lines add up to: those of parts, and all of them, glue and freight too.
type summed struct{ parts, all float64 }

func (s *summed) add(number float64, isPart bool) {
	s.all += number
	if isPart {
		s.parts += number
	}
}

// mayBe reports whether a total is the sum, within some slack. Which of the lines that are no parts it has in it only who wrote it knows.
func (s *summed) mayBe(total, slack float64) bool {
	return total >= s.parts-slack && total <= s.all+slack
}

// compareSumsOf looks at a column: each line of a total is the sum of all lines above it, or of those since the last total. Nothing is said where a line
// has no number, or where another table may add to it.
func (t *Table) compareSumsOf(c *Column, mark value.Mark) {
	g := t.Region.Grid
	if !t.Region.Alone {
		return
	}
	var all, since summed
	most, parts := 0.0, 0
	for i, kind := range t.Lines {
		line := t.Region.From + i
		text := g.At(line, c.Col)
		switch kind {
		case lineTitle, lineHeading, lineRepeated, LineUnits, lineNumbers:
			continue
		case LineData:
		default:
			if text == "" {
				continue
			}
		}
		number := t.numberIn(c, line, mark)
		if text == "" || strings.Contains(text, "(") || number <= 0 && strings.Trim(text, "0.,") != "" {
			return // a discount, a word, something that is not in the sum
		}
		if kind != LineTotal {
			isPart := kind == LineData || t.totals != nil && t.numberIn(t.totals.quantity, line, mark) > 0
			all.add(number, isPart)
			since.add(number, isPart)
			if most = max(most, number); isPart {
				parts++
			}
			continue
		}
		if slack := leastCoin*float64(parts) + roundedShare*number; parts >= leastSummed && number > most && !all.mayBe(number, slack) && !since.mayBe(number, slack) {
			t.Add(finding.Warning, "data.conflict", line, c.Col, fmt.Sprintf("%s: the total %s is not the sum of the rows above, which is %.6g", nameOf(c), text, all.all), "")
		}
		since = summed{}
	}
}
