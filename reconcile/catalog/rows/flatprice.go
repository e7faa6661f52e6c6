package rows

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// takeFlatPrice gives a part the price that a note gives for each piece, where it has none of its own, and the pack in which such pieces come by the
// same sentence. Where prices are for several pieces or for a set, nobody knows what a piece is.
func (r *rowReader) takeFlatPrice() {
	t := r.t
	flat := t.flatAt(r.line)
	if flat == nil || r.says(catalog.Price) {
		return
	}
	if c := t.ByRole[catalog.Price]; c != nil && (c.Per > 1 || c.Lot.Bundles() || c.PerBy != nil) {
		return
	}
	r.fields = r.fields.With(catalog.Price, catalog.Field{Text: flat.Text, Number: flat.Price, IsNumber: true, Cell: flat.Place.String()})
	r.perPiece = true
	if count, packed := t.Lex.PackIn(flat.Sentence); packed && count > 0 && t.Kind == catalog.Ferrules {
		r.takePack(count, flat.Place.String())
	}
	t.tellFlat(flat)
}

// tellFlat says once that the price of a note is taken for the parts that have none of their own.
func (t *Table) tellFlat(flat *layout.FlatNote) {
	if t.flatTold[flat.Place] {
		return
	}
	if t.flatTold == nil {
		t.flatTold = map[sheet.Ref]bool{}
	}
	t.flatTold[flat.Place] = true
	amount := flat.Text
	if flat.Per > 1 {
		amount = fmt.Sprintf("%s divided by %g", amount, flat.Per)
	}
	t.Findings.Add(finding.Finding{
		Severity: finding.Note, Code: "data.prices", Place: finding.Place{File: t.File, Sheet: t.Sheet.Name, Row: flat.Place.Row, Cell: flat.Place.String()},
		Message: fmt.Sprintf("%s is taken for the price of each piece that has none of its own, by the %s", amount, layout.Describe(flat.Sentence, flat.Place.String())),
	})
}

// flatAt returns the note that gives the price of a line: the only one, or of several the last one above it.
func (t *Table) flatAt(line int) *layout.FlatNote {
	row := t.Region.Grid.Ref(line, t.Region.Left).Row
	for i := len(t.Flat) - 1; i >= 0; i-- {
		if len(t.Flat) == 1 || t.Flat[i].Place.Row < row {
			return &t.Flat[i]
		}
	}
	return nil
}
