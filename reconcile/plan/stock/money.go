package stock

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// saysCurrency reports whether a sign of a price may belong to a currency.
func saysCurrency(r rune) bool { return unicode.IsLetter(r) || unicode.Is(unicode.Sc, r) }

// CurrencyOf returns the currency of an item's price as three capitals: as the cell names it, or else the heading of its column; empty where
// neither does, and the supplier's is not known.
func CurrencyOf(c *catalog.Catalogue, item *catalog.Item) string {
	text := item.Fields.Text(catalog.Price)
	if text == "" {
		if _, priced := item.Fields.Lookup(catalog.Price); !priced {
			return ""
		}
	}
	if strings.ContainsFunc(text, saysCurrency) { // most prices are bare numbers
		if r := value.Read(text, value.Context{Want: value.WantPrice}); words.IsCurrency(r.Unit) {
			return meant(text, r.Unit, item)
		}
	}
	letters := item.Fields.Column(catalog.Price)
	for i := range c.Tables {
		t := &c.Tables[i]
		if t.File != item.Source.File || t.Sheet != item.Source.Sheet {
			continue
		}
		for _, column := range t.Columns {
			if column.Role == catalog.Price && column.Column == letters && words.IsCurrency(column.Unit) {
				return meant(column.Heading, column.Unit, item)
			}
		}
	}
	return item.Currency
}

// meant is the currency that a text names by its sign: that of the supplier where it has the same one.
func meant(text, named string, item *catalog.Item) string {
	if words.MayMean(text, named, item.Currency) {
		return item.Currency
	}
	return named
}

// prices are what a piece of each ferrule costs.
type prices struct {
	currency string
	piece    []float64
	assumed  []string
}

func readPrices(c *catalog.Catalogue, s *Settings) (*prices, error) {
	p := &prices{currency: s.Currency, piece: make([]float64, len(c.Ferrules))}
	if s.IgnorePrices {
		return p, nil
	}
	found := map[string]string{}
	currencies := make([]string, len(c.Ferrules))
	for i := range c.Ferrules {
		f := &c.Ferrules[i]
		if !f.HasPrice {
			continue
		}
		if currencies[i] = CurrencyOf(c, &f.Item); currencies[i] == "" {
			currencies[i] = s.PricesIn[f.Source.File]
		}
		if _, seen := found[currencies[i]]; !seen && currencies[i] != "" {
			found[currencies[i]] = f.Part
		}
	}
	if err := p.settle(found, s); err != nil {
		return nil, err
	}
	p.take(c, s, currencies)
	return p, nil
}

// settle finds the currency of all sums, and refuses what cannot be turned into it.
func (p *prices) settle(found map[string]string, s *Settings) error {
	if p.currency == "" {
		if len(found) > 1 {
			return &CurrencyError{Found: found}
		}
		for currency := range found {
			p.currency = currency
			p.assumed = append(p.assumed, "the costs of bench and carrying are taken to be in "+currency+", as the prices are")
		}
	}
	odd := map[string]string{}
	for currency, part := range found {
		if _, rated := s.Rates[currency]; currency != p.currency && !rated {
			odd[currency] = part
		}
	}
	if len(odd) > 0 {
		return &CurrencyError{Wanted: p.currency, Found: odd}
	}
	return nil
}

func (p *prices) take(c *catalog.Catalogue, s *Settings, currencies []string) {
	var known []float64
	var unnamed, missing []string
	for i := range c.Ferrules {
		f := &c.Ferrules[i]
		if !f.HasPrice {
			missing = append(missing, f.Part)
			continue
		}
		price := f.PriceOfPiece(s.PricePerPack)
		switch currency := currencies[i]; {
		case currency == "":
			unnamed = append(unnamed, f.Part)
		case currency != p.currency:
			price *= s.Rates[currency]
		}
		p.piece[i] = price
		known = append(known, price)
	}
	if len(known) == 0 {
		if len(missing) > 0 {
			p.assumed = append(p.assumed, "no ferrule has a price; the plan is by bench time and carrying alone")
		}
		return
	}
	if len(unnamed) > 0 && p.currency != "" {
		p.assumed = append(p.assumed, fmt.Sprintf("the price of %s names no currency and is taken to be in %s", list(unnamed), p.currency))
	}
	if len(missing) == 0 {
		return
	}
	slices.Sort(known)
	middle := (known[(len(known)-1)/2] + known[len(known)/2]) / 2
	for i := range c.Ferrules {
		if !c.Ferrules[i].HasPrice {
			p.piece[i] = middle
		}
	}
	p.assumed = append(p.assumed, fmt.Sprintf("%s has no price and is taken to cost %.2f, the median of the others", list(missing), middle))
}

// list names a few parts and counts the rest.
func list(parts []string) string {
	const most = 5
	if len(parts) <= most {
		return strings.Join(parts, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(parts[:most], ", "), len(parts)-most)
}
