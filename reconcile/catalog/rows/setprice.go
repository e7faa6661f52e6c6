package rows

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/finding"
)

// priceOfSet makes the price of a set that of one of its clubs, where it is known how many it has, and leaves it out where it is not: nobody
// should be offered a head for the price of eight.
func (r *rowReader) priceOfSet(clubs int) {
	t := r.t
	c := t.ByRole[catalog.Price]
	f := r.fields.Get(catalog.Price)
	if c == nil || !f.IsNumber {
		return
	}
	per, ofSet := t.PricePer(r.line, c, f.Text)
	switch {
	case !ofSet, per > 1 && (clubs < 2 || float64(clubs) == per):
		return
	case per == 1 && clubs > 1:
		f.Number /= float64(clubs)
		r.take(catalog.Price, f, fmt.Sprintf("price %s of the set divided by its %d clubs", f.Text, clubs))
		return
	}
	why := "how many clubs that has is not said"
	if per > 1 {
		why = fmt.Sprintf("that of %g by its column, and the row has %d", per, clubs)
	}
	f.Number, f.IsNumber = 0, false
	r.fields = r.fields.With(catalog.Price, f)
	t.TellEach(layout.ToldKey{What: "set price", Col: c.Col}, finding.Warning, "data.prices", r.line, c.Col, func() string {
		return fmt.Sprintf("%s %s is the price of a set, and %s; it is left out", c.Name(), f.Text, why)
	})
}
