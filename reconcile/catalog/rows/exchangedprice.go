package rows

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// A size and the price of one row may stand in each other's place: 2.40 under length and 25.4 under price, among parts of 25.4 mm that cost two
// or so. Which was meant is for a person to say, and neither is used. What stands there may be for a hundred pieces, and prices are compared
// for one.

// compareExchangedPrices leaves out such prices and sizes.
func (t *Table) compareExchangedPrices() {
	c := t.ByRole[catalog.Price]
	if c == nil {
		return
	}
	var prices []float64
	for _, e := range t.Items {
		if e.HasPrice && e.Price > 0 {
			prices = append(prices, e.Price)
		}
	}
	if len(prices) < leastPrices {
		return
	}
	middle := traits.Middle(prices)
	for _, e := range t.Items {
		if !e.HasPrice || e.Set != "" {
			continue
		}
		for _, size := range t.read {
			if size.Trait().Want == traits.Length && size.Role != catalog.TipTaken && t.mayExchange(e, size, prices, middle) {
				t.leaveOutExchanged(e, c, size)
				break
			}
		}
	}
}

// mayExchange reports whether the price of a row and its size of a column are each what the other should be: the size is refused, or one that
// parts hardly have, and among the prices of others; the price is a common size, and far from other prices or the size of another row.
func (t *Table) mayExchange(e *Entry, c *cells.Column, prices []float64, middle float64) bool {
	written, pieces := t.written(e, catalog.Price, e.Price)
	number, is := t.amountForSize(e, c)
	if number /= pieces; !is || pieces == 0 || !amongOthers(number, e.Price, prices) {
		return false
	}
	if far := isFarPrice(e.Price, middle); far && isFarPrice(number, middle) || !far && c.Profile.Has(e.Fields.Text(catalog.Price)) == 0 {
		return false
	}
	return t.commonIn(c, written)
}

// amountForSize returns the amount that stands in the place of a row's size of a column, false where that is a size that parts commonly have, one that
// a person has said, or anything else.
func (t *Table) amountForSize(e *Entry, c *cells.Column) (float64, bool) {
	f := e.Fields.Get(c.Role)
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if !known || f.Text == "" || f.Dim.Given() && b.Common(traits.MM(f.Dim.Nominal())) { // nearly every size
		return 0, false
	}
	if t.Answered(e.Line, c.Role) {
		return 0, false
	}
	return t.amountIn(f.Text, c)
}

// commonIn reports whether parts commonly have a bare number as their size of a column.
func (t *Table) commonIn(c *cells.Column, number float64) bool {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	return known && slices.ContainsFunc(unitsOf(c), func(unit string) bool { return b.Common(number * traits.UnitMM[unit] * c.Factor()) })
}

// written returns the price or the count of a row as it stands in its cell, and how many times what it is taken for that is: a price for a hundred
// pieces is a hundred times that of one. Both are zero where that is not known.
func (t *Table) written(e *Entry, role catalog.Role, taken float64) (number, times float64) {
	if taken <= 0 {
		return 0, 0
	}
	number, _ = t.amountIn(e.Fields.Text(role), t.ByRole[role])
	return number, number / taken
}

// amountIn returns the amount that a text of a column is, with a currency beside it or without; false where it says anything else.
func (t *Table) amountIn(text string, c *cells.Column) (float64, bool) {
	reading := t.Lex.Read(text, value.Context{Want: value.WantPrice, Mark: c.Mark})
	alone := reading.Rest == "" || t.Lex.NamesCurrency(reading.Rest) || t.Lex.Words.FlatPrice(reading.Rest).Named // "Rs. 680/-"
	return reading.Number, reading.Kind == value.Number && alone && !traits.IsLengthUnit(reading.Unit)
}

// amongOthers reports whether a number could be a price beside those of other rows, in order, one of which is own.
func amongOthers(number, own float64, prices []float64) bool {
	least, most := spanWithout(own, prices)
	return number*besidePrices >= least && number <= most*besidePrices
}

// spanWithout returns the least and the greatest of several numbers, in order, other than one of them.
func spanWithout(own float64, numbers []float64) (least, most float64) {
	least, most = numbers[0], numbers[len(numbers)-1]
	switch at, _ := slices.BinarySearch(numbers, own); at {
	case 0:
		least = numbers[1]
	case len(numbers) - 1:
		most = numbers[at-1]
	}
	return least, most
}

// leaveOutExchanged uses neither the price or the count of a row nor its size of a column.
func (t *Table) leaveOutExchanged(e *Entry, amount, size *cells.Column) {
	message := fmt.Sprintf("%s %s and %s %s seem to stand in each other's place", size.Name(), e.Fields.Text(size.Role), amount.Name(), e.Fields.Text(amount.Role))
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: e.Place(amount.Role), Related: []finding.Place{e.Place(size.Role)},
		Message: fmt.Sprintf("%s; the %s is left out", message, catalog.RoleName(t.Kind, amount.Role))})
	t.without(e, amount.Role)
	t.leaveOpen(e, size.Role, message)
}

// withoutPrice takes the price of a row back.
func (t *Table) withoutPrice(e *Entry) { t.without(e, catalog.Price) }

// without takes the price or a count of a row back.
func (t *Table) without(e *Entry, role catalog.Role) {
	f := e.Fields.Get(role)
	f.Number, f.IsNumber = 0, false
	e.Fields = e.Fields.With(role, f)
	t.Out.Rows[e.Row].Fields = e.Fields
	if role == catalog.Price {
		e.Price, e.HasPrice = 0, false
	}
}
