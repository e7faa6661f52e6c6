package rows

import (
	"math"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
)

// A size and the price, the stock or the pack of one row may each be possible where the other belongs: a top OD of 9.5 beside a price of 10.7. The other
// rows tell: none has such a top OD and some have that very price, none has such a price and several have that very top OD. Neither is used.

const (
	// leastKnown is in how many other rows a size has to stand, and an amount too where both are whole: 20 and 25 are lengths, counts and prices.
	leastKnown = 2
	// leastRowsKnown is how many rows a table has at least for that to say anything.
	leastRowsKnown = 5
)

// writtenNumbers are the bare numbers of a column: of each entry, NaN where it has none, and in how many cells each stands.
type writtenNumbers struct {
	each  []float64
	times map[float64]int
}

// writtenIn returns what is used of a column.
func (t *Table) writtenIn(c *cells.Column) writtenNumbers {
	w := writtenNumbers{make([]float64, len(t.Items)), map[float64]int{}}
	last := ""
	for i, e := range t.Items {
		w.each[i] = math.NaN()
		f := e.Fields.Get(c.Role)
		if !f.Dim.Given() && !f.IsNumber {
			continue
		}
		number, is := t.amountIn(f.Text, c)
		if !is {
			continue
		}
		w.each[i] = number
		if f.Cell != last { // several rows may have it from one
			w.times[number]++
			last = f.Cell
		}
	}
	return w
}

// compareExchangedKnown leaves out prices and counts, and sizes, that other rows have exactly in each other's place.
func (t *Table) compareExchangedKnown() {
	if len(t.Items) < leastRowsKnown {
		return
	}
	sizes := map[*cells.Column]writtenNumbers{}
	for _, role := range [...]catalog.Role{catalog.Price, catalog.Stock, catalog.Pack} {
		c := t.ByRole[role]
		if c == nil {
			continue
		}
		amounts := t.writtenIn(c)
		for _, size := range t.read {
			if size.Trait().Want != traits.Length || size.Role == catalog.TipTaken {
				continue
			}
			if _, known := sizes[size]; !known {
				sizes[size] = t.writtenIn(size)
			}
			t.leaveOutKnown(c, amounts, size, sizes[size])
		}
	}
}

// leaveOutKnown leaves out the amounts of a column and the sizes of another one that other rows have in each other's place.
func (t *Table) leaveOutKnown(c *cells.Column, amounts writtenNumbers, size *cells.Column, sizes writtenNumbers) {
	for i, e := range t.Items {
		if e.Set == "" && knownExchanged(sizes, amounts, i) && !t.Answered(e.Line, c.Role) && !t.Answered(e.Line, size.Role) && e.Fields.Get(c.Role).IsNumber && e.Fields.Dim(size.Role).Given() {
			t.leaveOutExchanged(e, c, size)
		}
	}
}

// knownExchanged reports whether an entry alone has its size and its amount, and others have each as the other.
func knownExchanged(sizes, amounts writtenNumbers, entry int) bool {
	size, amount := sizes.each[entry], amounts.each[entry]
	least := 1
	if isWhole(size) && isWhole(amount) {
		least = leastKnown
	}
	return sizes.times[size] == 1 && amounts.times[amount] == 1 && size != amount && amounts.times[size] >= least && sizes.times[amount] >= leastKnown
}
