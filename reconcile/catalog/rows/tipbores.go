package rows

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
)

// tipBore is the bore that a note gives to the parts for a tip.
type tipBore struct {
	layout.TipBore
	note layout.SizeNote
}

// takeTipBore takes the bore that a note gives to parts for the tip of the row, where nothing else gives one; what is none for that tip is not taken.
func (r *rowReader) takeTipBore() {
	t := r.t
	if t.ByRole[catalog.Bore] != nil || r.says(catalog.Bore) || len(t.BoreNotes()) == 0 {
		return
	}
	tips := t.tipSizes(r.fields.Get(catalog.TipTaken))
	if len(tips) != 1 {
		return
	}
	var found []tipBore
	for _, one := range t.boresByTip() {
		if one.Tip == tips[0].Diameter {
			found = append(found, one)
		}
	}
	if len(found) != 1 || !t.agrees(tips, found[0].Bore) {
		return
	}
	one := found[0]
	r.take(catalog.Bore, catalog.Field{Text: one.Text, Dim: one.Bore},
		fmt.Sprintf("%s %s taken from the %s, for tip %v", catalog.RoleName(t.Kind, catalog.Bore), one.Text, layout.Describe(one.note.Text, one.note.Cell), tips[0]))
}

// boresByTip returns the bores that notes give by tips.
func (t *Table) boresByTip() []tipBore {
	if t.tipBores == nil {
		t.tipBores = []tipBore{}
		for _, note := range t.BoreNotes() {
			for _, one := range layout.TipBores(t.Lex, t.Kind, note.Text, t.unitOf(catalog.Bore)) {
				t.tipBores = append(t.tipBores, tipBore{one, note})
			}
		}
	}
	return t.tipBores
}
