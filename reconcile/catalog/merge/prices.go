package merge

import (
	"fmt"
	"math"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// samePrice is the share of it within which a price is the same: one for a dozen is rounded.
const samePrice = 0.01

// comparePrices says where two rows of a table that agree in all sizes of a part have different prices for it, and nothing else in the rows tells them
// apart; it reports whether it did.
func comparePrices(e, other *rows.Entry) bool {
	if !e.HasPrice || !other.HasPrice || math.Abs(e.Price-other.Price) <= samePrice*e.Price || toldApart(e, other) {
		return false
	}
	at, beside := e.Place(catalog.Price), other.Place(catalog.Price)
	if at.Cell == "" || beside.Cell == "" || at.Cell == beside.Cell {
		return false
	}
	e.Table.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: at, Related: []finding.Place{beside},
		Message: fmt.Sprintf("%s has the price %s in %s and %s in %s, and nothing else tells the rows apart; the first is used", e.Part, e.Fields.Text(catalog.Price), at.Cell,
			other.Fields.Text(catalog.Price), beside.Cell)})
	return true
}

// toldApart reports whether two rows of a table differ in a column by which prices may: one that says something else of them, such as for whom or from how
// many a price holds, and not of every row something else, as a number of the line or a count does.
func toldApart(e, other *rows.Entry) bool {
	t := e.Table
	for _, c := range t.Columns {
		text, beside := t.Region.Grid.Filled(e.Line, c.Col), t.Region.Grid.Filled(other.Line, c.Col)
		switch c.Role {
		case catalog.Price, catalog.Stock:
		case "":
			if text != beside && (c.Profile.Has(text) > 1 || c.Profile.Has(beside) > 1) {
				return true
			}
		default:
			if text != beside && c.Trait().Want != traits.Length {
				return true
			}
		}
	}
	between := t.Lines[min(e.Line, other.Line)-t.Region.From : max(e.Line, other.Line)-t.Region.From]
	return slices.Contains(between, columns.LineSection)
}
