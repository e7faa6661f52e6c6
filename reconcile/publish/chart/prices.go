package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/seatline/reconcile/plan/stock"
)

// takePrices puts what a piece of each ferrule costs into the page, in the seller's currency. A price of another or of no currency is not
// shown: a customer would take the number for one of the seller's.
func (b *builder) takePrices() error {
	if !b.opts.Prices {
		return nil
	}
	c, d := b.result.Catalogue, &b.chart.Ferrules
	currencies := make([]string, len(c.Ferrules))
	var found []string
	for i := range c.Ferrules {
		f := &c.Ferrules[i]
		if !f.HasPrice {
			continue
		}
		currencies[i] = stock.CurrencyOf(c, &f.Item)
		if currencies[i] != "" && !slices.Contains(found, currencies[i]) {
			found = append(found, currencies[i])
		}
	}
	b.chart.Currency = b.opts.Currency
	if b.chart.Currency == "" && len(found) > 1 {
		slices.Sort(found)
		return &OptionError{"currency", "", "is not named, and the sheets have prices in " + strings.Join(found, ", ") + "; name the one that the page shows"}
	}
	if b.chart.Currency == "" && len(found) == 1 {
		b.chart.Currency = found[0]
	}
	d.Price = make([]float64, len(c.Ferrules))
	for i := range c.Ferrules {
		if f := &c.Ferrules[i]; f.HasPrice && currencies[i] != "" && currencies[i] == b.chart.Currency {
			d.Price[i] = b.opts.asked(f.PriceOfPiece(b.opts.PricePerPack))
		}
	}
	return nil
}

// asked is what a customer pays for a piece that is bought at a price, to a hundredth.
func (o *Options) asked(price float64) float64 {
	return math.Round(price*(1+o.Margin)*100) / 100
}

func (o *Options) validatePrices() error {
	if o.Currency != "" && (len(o.Currency) != 3 || strings.Trim(o.Currency, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "") {
		return &OptionError{"currency", o.Currency, "is not a currency; write three capitals, such as EUR"}
	}
	if o.Margin < 0 || o.Margin > MostMargin || math.IsNaN(o.Margin) {
		return &OptionError{"margin", fmt.Sprint(o.Margin), fmt.Sprintf("must lie between 0 and %d", MostMargin)}
	}
	return nil
}

// MostMargin is the most that may be added to a price, as a share of it.
const MostMargin = 20
