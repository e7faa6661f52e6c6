package rows

import (
	"fmt"
	"strconv"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// priceOfLot makes the price of a set or a pack that of one piece of it, where it is known how many it has, and leaves it out where it is not:
// nobody should be offered a head for the price of eight, or a ferrule for that of a bag.
func (r *rowReader) priceOfLot(clubs int) {
	t := r.t
	c := t.ByRole[catalog.Price]
	f := r.fields.Get(catalog.Price)
	if c == nil || !f.IsNumber {
		return
	}
	per, lot := t.PricePer(r.line, c, f.Text)
	r.perPiece = lot != lexicon.LotUnsaid
	if !lot.Bundles() {
		return
	}
	has := clubs
	if lot == lexicon.OfPack {
		has = int(r.fields.Number(catalog.Pack))
	}
	if lot == lexicon.OfPack && per > 1 && c.PackIn != "" {
		r.takePack(per, c.PackIn)
	}
	switch {
	case per > 1 && (has < 2 || float64(has) == per), lot == lexicon.OfPack && has == 1:
	case per > 1:
		r.leaveOutLot(c, f, lot, fmt.Sprintf("that of %g by its column, and the row has %d", per, has))
	case has < 2 && lot == lexicon.OfSet && c.LotNoted && t.hasSets:
		r.take(catalog.Price, f, fmt.Sprintf("price %s taken for that of the one head: other rows are sets", f.Text))
	case has < 2:
		r.leaveOutLot(c, f, lot, fmt.Sprintf("how many %s that has is not said", piecesOf(lot)))
	case oddlyDivided(f.Number, has):
		r.leaveOutLot(c, f, lot, fmt.Sprintf("divided by its %d %s it would be less than any part costs", has, piecesOf(lot)))
	case lot == lexicon.OfPack:
		f.Number /= float64(has)
		r.fields = r.fields.With(catalog.Price, f)
	default:
		f.Number /= float64(has)
		r.take(catalog.Price, f, fmt.Sprintf("price %s of the set divided by its %d clubs", f.Text, has))
	}
}

// takePack takes how many pieces a pack has by a text in a cell, where neither a column nor the row says it.
func (r *rowReader) takePack(pieces float64, cell string) {
	if r.t.ByRole[catalog.Pack] == nil && !r.says(catalog.Pack) {
		r.fields = r.fields.With(catalog.Pack, catalog.Field{Text: strconv.FormatFloat(pieces, 'f', -1, 64), Number: pieces, IsNumber: true, Cell: cell})
	}
}

// oddlyDivided reports whether a price is plainly that of one of several pieces.
func oddlyDivided(price float64, pieces int) bool {
	_, ofOne := traits.OddlyDivided(price, float64(pieces))
	return ofOne
}

func piecesOf(lot lexicon.Lot) string {
	if lot == lexicon.OfSet {
		return "clubs"
	}
	return "pieces"
}

func (r *rowReader) leaveOutLot(c *cells.Column, f catalog.Field, lot lexicon.Lot, why string) {
	f.Number, f.IsNumber = 0, false
	r.fields = r.fields.With(catalog.Price, f)
	r.t.TellEach(layout.ToldKey{What: "set price", Col: c.Col}, finding.Warning, "data.prices", r.line, c.Col, func() string {
		return fmt.Sprintf("%s %s is the price of a %s, and %s; it is left out", c.Name(), f.Text, lot, why)
	})
}
