package rows

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// A size and the price of one row may stand in each other's place: 2.40 under length and 25.4 under price, among parts of 25.4 mm that cost two
// or so. Which was meant is for a person to say, and neither is used.

// compareExchangedPrices leaves out such prices and sizes.
func (t *Table) compareExchangedPrices() {
	c := t.ByRole[catalog.Price]
	if c == nil || c.Per != 1 || c.Lot.Bundles() || c.SoldBy != nil || c.PerBy != nil {
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
	f := e.Fields.Get(c.Role)
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if !known || f.Text == "" || f.Dim.Given() && b.Common(traits.MM(f.Dim.Nominal())) { // nearly every size
		return false
	}
	if _, answered := t.RowRule(e.Line).Values[c.Role]; answered || strings.Trim(f.Text, "0123456789.,") != "" {
		return false
	}
	reading, far := t.Lex.Read(f.Text, value.Context{Want: value.WantPrice, Mark: c.Mark}), isFarPrice(e.Price, middle)
	if reading.Kind != value.Number || !amongOthers(reading.Number, e.Price, prices) || far && isFarPrice(reading.Number, middle) {
		return false
	}
	if !slices.ContainsFunc(unitsOf(c), func(unit string) bool { return b.Common(e.Price * traits.UnitMM[unit] * c.Factor()) }) {
		return false
	}
	return far || c.Profile.Has(e.Fields.Text(catalog.Price)) > 0
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

// leaveOutExchanged uses neither the price of a row nor its size of a column.
func (t *Table) leaveOutExchanged(e *Entry, price, size *cells.Column) {
	f := e.Fields.Get(size.Role)
	said := e.Fields.Text(catalog.Price)
	message := fmt.Sprintf("%s %s and %s %s seem to stand in each other's place", size.Name(), f.Text, price.Name(), said)
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: e.Place(catalog.Price), Related: []finding.Place{e.Place(size.Role)},
		Message: message + "; the price is left out"})
	t.withoutPrice(e)
	t.leaveOpen(e, size.Role, message)
}

// withoutPrice takes the price of a row back.
func (t *Table) withoutPrice(e *Entry) {
	f := e.Fields.Get(catalog.Price)
	f.Number, f.IsNumber = 0, false
	e.Fields = e.Fields.With(catalog.Price, f)
	t.Out.Rows[e.Row].Fields = e.Fields
	e.Price, e.HasPrice = 0, false
}
