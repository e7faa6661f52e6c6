package rows

import (
	"fmt"
	"math"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// The price and the stock of one row may stand in each other's place: 640 under price and 1.15 under stock, among prices of one or two. No stock
// is 1.15, and the price is left out; where what stands under stock may be one, both are said and used as they stand.

// compareExchangedStock says of prices that stand in the place of stock.
func (t *Table) compareExchangedStock() {
	stock := t.ByRole[catalog.Stock]
	if stock == nil || t.ByRole[catalog.Price] == nil {
		return
	}
	var prices []float64
	broken := 0 // prices with a fraction
	for _, e := range t.Items {
		if e.HasPrice && e.Price > 0 {
			prices = append(prices, e.Price)
			if written, _ := t.written(e, catalog.Price, e.Price); !isWhole(written) {
				broken++
			}
		}
	}
	if len(prices) < leastPrices {
		return
	}
	middle := traits.Middle(prices)
	stocks := t.counts(catalog.Stock)
	for _, e := range t.Items {
		f := e.Fields.Get(catalog.Stock)
		written, pieces := t.written(e, catalog.Price, e.Price)
		if !e.HasPrice || pieces == 0 || !isWhole(written) || e.Set != "" || f.Text == "" {
			continue
		}
		far := isFarPrice(e.Price, middle)
		if !far && (f.IsNumber || 2*broken <= len(prices)) {
			continue
		}
		number, is := t.amountIn(f.Text, stock)
		if number /= pieces; !is || !amongOthers(number, e.Price, prices) || isFarPrice(number, middle) {
			continue
		}
		if f.IsNumber && (e.Price < middle || len(stocks) < 2) {
			continue
		}
		if f.IsNumber { // the price could be the stock beside that of the others
			if least, most := spanWithout(f.Number, stocks); written < least || written > most {
				continue
			}
		}
		t.sayExchangedStock(e, f)
	}
}

func isWhole(number float64) bool { return number == math.Trunc(number) }

// counts returns the counts of a role in all lines, in order.
func (t *Table) counts(role catalog.Role) (all []float64) {
	last := 0
	for _, e := range t.Items {
		if f := e.Fields.Get(role); e.Line != last && f.IsNumber {
			all = append(all, f.Number)
		}
		last = e.Line
	}
	slices.Sort(all)
	return all
}

// compareExchangedCounts leaves out counts that stand in the place of sizes, 25 in stock among hundreds where the length is 500, and these sizes.
func (t *Table) compareExchangedCounts(role catalog.Role) {
	c, counts := t.ByRole[role], t.counts(role)
	if c == nil || len(counts) < leastPrices {
		return
	}
	middle := traits.Middle(counts)
	for _, e := range t.Items {
		count := e.Fields.Number(role)
		if least, most := spanWithout(count, counts); !isFarPrice(count, middle) || count >= least && count <= most {
			continue
		}
		written, times := t.written(e, role, count)
		for _, size := range t.read {
			if size.Trait().Want != traits.Length || size.Role == catalog.TipTaken || times == 0 {
				continue
			}
			if number, is := t.amountForSize(e, size); is && isWhole(number) && amongOthers(number/times, count, counts) && t.commonIn(size, written) {
				t.leaveOutExchanged(e, c, size)
				break
			}
		}
	}
}

// sayExchangedStock says that the price of a row and its stock seem to be exchanged, and uses no price where the stock can be none.
func (t *Table) sayExchangedStock(e *Entry, stock catalog.Field) {
	message := fmt.Sprintf("price %s and stock %s of %s seem to stand in each other's place", e.Fields.Text(catalog.Price), stock.Text, e.Part)
	if stock.IsNumber {
		message += "; both are used as they stand"
	} else {
		message += "; neither is used"
		t.withoutPrice(e)
	}
	for _, roles := range [...][2]catalog.Role{{catalog.Price, catalog.Stock}, {catalog.Stock, catalog.Price}} {
		t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: e.Place(roles[0]), Related: []finding.Place{e.Place(roles[1])}, Message: message})
	}
}
