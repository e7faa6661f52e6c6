package questions

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/plan/stock"
)

// Gap is what nobody has said of a supplier, which the shop says once: see package settings.
type Gap struct {
	// Supplier is its key.
	Supplier string
	// Name is set where only a file has a name, and Currency where prices name none.
	Name, Currency bool
}

// Gaps returns what nobody has said of the suppliers of a catalogue, in the order of their sheets.
func Gaps(c *catalog.Catalogue) []Gap {
	var gaps []Gap
	at := map[string]int{}
	of := func(key string) *Gap {
		if _, known := at[key]; !known {
			at[key] = len(gaps)
			gaps = append(gaps, Gap{Supplier: key})
		}
		return &gaps[at[key]]
	}
	for i := range c.Tables {
		if t := &c.Tables[i]; t.Kind != catalog.UnknownKind && t.Supplier.Key != "" && t.Supplier.Name == "" {
			of(t.Supplier.Key).Name = true
		}
	}
	priced := func(item *catalog.Item) {
		if item.HasPrice && stock.CurrencyOf(c, item) == "" {
			of(item.Supplier).Currency = true
		}
	}
	for i := range c.Heads {
		priced(&c.Heads[i].Item)
	}
	for i := range c.Ferrules {
		priced(&c.Ferrules[i].Item)
	}
	return gaps
}

// GapLines are the lines to fill in and to put into the shop's settings.
func GapLines(gaps []Gap) string {
	var b strings.Builder
	for _, g := range gaps {
		fmt.Fprintf(&b, "[suppliers.%s]\n", mapping.Quote(g.Supplier))
		if g.Name {
			b.WriteString("name     = \"\"   # what customers and letters call it\n")
		}
		if g.Currency {
			b.WriteString("currency = \"\"   # of its prices, such as \"EUR\"\n")
		}
	}
	return b.String()
}
