package rows

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A price that is ten or a hundred times those of all other parts, which are near each other, has its decimal point in the wrong place as a
// rule, and so has one that is a tenth of them. Nothing says whether: it is left out.
const (
	// leastPrices is with how many prices one is compared at least, itself among them.
	leastPrices = 4
	// farPrice is how many times the middle price, or which part of it, such a price is at least.
	farPrice = 5
	// nearPrices is how many times the least of the other prices the greatest is at most, and besidePrices how far from these one is at
	// most when its point is put right.
	nearPrices, besidePrices = 2.5, 1.25
	// mostSlipped is the share of the prices in percent that may be such, where more than one is.
	mostSlipped = 5
)

// comparePrices leaves out prices of which the decimal point seems to have slipped.
func (t *Table) comparePrices() {
	prices := make([]float64, 0, len(t.Items))
	for _, e := range t.Items {
		if e.HasPrice && e.Price > 0 {
			prices = append(prices, e.Price)
		}
	}
	if len(prices) < leastPrices || slices.Max(prices) < farPrice*slices.Min(prices)/nearPrices {
		return
	}
	middle := traits.Middle(prices)
	near := slices.DeleteFunc(slices.Clone(prices), func(price float64) bool { return isFarPrice(price, middle) })
	far := len(prices) - len(near)
	least, most := near[0], near[len(near)-1]
	if far == 0 || far > max(1, mostSlipped*len(prices)/100) || most > nearPrices*least {
		return
	}
	for _, e := range t.Items {
		if e.HasPrice && isFarPrice(e.Price, middle) && e.Set == "" && !(e.Price > middle && t.onlyOfCategory(e)) {
			t.leaveOutSlipped(e, least, most)
		}
	}
}

// onlyOfCategory reports whether no other part is a club of the kind of one: a driver among irons costs what it does.
func (t *Table) onlyOfCategory(e *Entry) bool {
	return e.Category != "" && !slices.ContainsFunc(t.Items, func(other *Entry) bool {
		return other != e && (other.Category == e.Category || other.Category == "")
	})
}

// isFarPrice reports whether a price is many times the middle one, or a small part of it.
func isFarPrice(price, middle float64) bool {
	return price > 0 && (price >= farPrice*middle || price*farPrice <= middle)
}

// leaveOutSlipped leaves out a price which the others show to be right with its point in another place.
func (t *Table) leaveOutSlipped(e *Entry, least, most float64) {
	c := t.ByRole[catalog.Price]
	if c == nil {
		return
	}
	for _, factor := range []float64{10, 100, 0.1, 0.01} {
		if right := e.Price / factor; right*besidePrices < least || right > most*besidePrices {
			continue
		}
		text := e.Fields.Text(catalog.Price)
		said := "ten times"
		switch factor {
		case 100:
			said = "a hundred times"
		case 0.1:
			said = "a tenth of"
		case 0.01:
			said = "a hundredth of"
		}
		if pack := e.Fields.Number(catalog.Pack); pack > 0 && c.Lot == lexicon.OfPack && t.packsApart(e, pack) {
			t.Add(finding.Warning, "data.implausible", e.Line, c.Col, fmt.Sprintf("%s %s is for a pack of %g, and makes about %s what the other prices do for one piece (%.4g to %.4g); no other pack is as small",
				c.Name(), text, pack, said, least, most), "")
			return
		}
		t.withoutPrice(e)
		t.Add(finding.Warning, "data.implausible", e.Line, c.Col, fmt.Sprintf("%s %s is about %s what the other prices are (%.4g to %.4g), as if its decimal point had slipped; it is left out",
			c.Name(), text, said, least, most), "")
		return
	}
}

// packsApart reports whether all other parts come in packs of several times as many as one: what is sold singly costs more than what comes by the dozen.
func (t *Table) packsApart(e *Entry, pack float64) bool {
	return !slices.ContainsFunc(t.Items, func(other *Entry) bool {
		return other != e && other.HasPrice && other.Fields.Number(catalog.Pack) < farPrice*pack
	})
}
