package reader

import (
	"fmt"
	"math"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// pieces is what a column says of the numbers of pieces that prices are for, each number once.
type pieces struct {
	column *columns.Column
	name   string
	counts []float64
}

// piecesBeside returns what the only column says that gives the numbers of pieces for which prices are, nil where there is none or several, or where
// one names what is sold rather, as the prices show.
func (s *sheetReader) piecesBeside(table *columns.Table, price *columns.Column) *pieces {
	var found *pieces
	for _, c := range table.Columns {
		if !c.GivesPieces {
			continue
		}
		if found != nil {
			return nil
		}
		found = &pieces{column: c, name: table.Region.Grid.ColumnName(c.Col)}
		for line := table.Region.Body; line <= table.Region.To; line++ {
			if n := s.lex.PiecesNamed(table.Region.Grid.Filled(line, c.Col)); n > 0 && !slices.Contains(found.counts, n) {
				found.counts = append(found.counts, n)
			}
		}
	}
	if found != nil && found.column.InWords {
		if s.pricedByOne(table, price, found.column) {
			table.AddColumn(finding.Warning, "data.prices", price.Col,
				fmt.Sprintf("%s: column %s names several pieces in some rows, and the prices of these are not as many times those of the others; they are taken for those of one", price.Name(), found.name), "")
			return nil
		}
		if stock := table.ByRole[catalog.Stock]; stock != nil {
			table.AddColumn(finding.Note, "data.unit", stock.Col, fmt.Sprintf("%s: column %s says for how many pieces the prices are; the stock is taken for single pieces", stock.Name(), found.name), "")
		}
	}
	return found
}

// pricedByOne reports whether the prices of rows for which a column names several pieces are like those of rows for which it names one, and
// are not when they are divided: what is sold by the dozen may have the price of one all the same.
func (s *sheetReader) pricedByOne(table *columns.Table, price, by *columns.Column) bool {
	var ofOne, ofSeveral, divided []float64
	for line := table.Region.Body; line <= table.Region.To; line++ {
		amount, n := table.AmountIn(price, line), s.lex.PiecesNamed(table.Region.Grid.Filled(line, by.Col))
		switch {
		case amount <= 0:
		case n == 1:
			ofOne = append(ofOne, amount)
		case n > 1:
			ofSeveral, divided = append(ofSeveral, amount), append(divided, amount/n)
		}
	}
	if len(ofOne) == 0 || len(ofSeveral) == 0 {
		return false
	}
	far := func(prices []float64) float64 {
		return math.Abs(math.Log(traits.Middle(prices) / traits.Middle(ofOne)))
	}
	return far(ofSeveral) < far(divided)
}
