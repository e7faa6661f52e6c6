package columns

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/value"
)

// A stock may be given with what of it is promised to others and what is left to be sold. What is left is the stock that a buyer can have, whatever
// the headings call the two: only the numbers tell, 120 less 100 is 20.

// leastLeft is in how many lines at least something is promised, where a column is what is left.
const leastLeft = 2

// mostStocks and widestStocks are how many columns of stocks, and of all sorts, a table has at most for three of them to be held against each other.
const mostStocks, widestStocks = 6, 200

// findFree sets the stock aside of which another column gives what is left.
func (t *Table) findFree() {
	stocks := t.headed(catalog.Stock)
	if len(stocks) > mostStocks || len(t.Columns) > widestStocks {
		return
	}
	for _, stock := range stocks {
		for _, left := range stocks {
			if left == stock || left.irrelevant != "" {
				continue
			}
			for _, promised := range t.Columns {
				if promised == stock || promised == left || promised.headed(catalog.UnknownKind, catalog.Stock) >= lexicon.LeastHeading || !t.leaves(stock, promised, left) {
					continue
				}
				g := t.Region.Grid
				stock.irrelevant = fmt.Sprintf("less column %s it is column %s, which is left to be sold", g.ColumnName(promised.Col), g.ColumnName(left.Col))
				return
			}
		}
	}
}

// leaves reports whether all lines of a stock, less what is promised, are what is left.
func (t *Table) leaves(stock, promised, left *Column) bool {
	some := 0
	for _, line := range t.Region.SampleLines() {
		all, gone, rest := t.Region.Grid.Filled(line, stock.Col), t.Region.Grid.Filled(line, promised.Col), t.Region.Grid.Filled(line, left.Col)
		if all == "" && gone == "" && rest == "" {
			continue
		}
		// What is nought is often left open.
		n, p, r := t.numberIn(stock, line, value.MarkPoint), t.numberIn(promised, line, value.MarkPoint), t.numberIn(left, line, value.MarkPoint)
		if n-p != r {
			return false
		}
		if p > 0 {
			some++
		}
	}
	return some >= leastLeft
}
