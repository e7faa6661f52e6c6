package rows

import (
	"fmt"
	"math"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// All parts of a column of a cross table have one size from its heading. It is compared with those of the other columns.

// compareBeside says which size of a cross table is far from the others beside it.
func (t *Table) compareBeside() {
	for _, c := range t.read {
		if len(c.Beside) < leastAcross || c.Trait().Want != traits.Length || c.Role == catalog.TipTaken {
			continue
		}
		for _, e := range t.Items {
			if dim := e.Fields.Dim(c.Role); dim.Given() {
				t.sayFarBeside(e, c, traits.MM(dim.Nominal()))
				break
			}
		}
	}
}

// leastAcross is how many other sizes say what is usual there.
const leastAcross = 2

// sayFarBeside reports the size of a column that is far from those beside it, all of which are such as parts commonly have.
func (t *Table) sayFarBeside(e *Entry, c *cells.Column, size float64) {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	least, most := math.Inf(1), 0.0
	for _, text := range c.Beside {
		reading := t.Lex.Read(text, value.Context{Want: c.Trait().Wanted(), Unit: c.Unit, Mark: c.Mark})
		if !known || reading.Kind != value.Length || !b.Common(traits.MM(reading.Dim.Nominal())) {
			return
		}
		least, most = min(least, traits.MM(reading.Dim.Nominal())), max(most, traits.MM(reading.Dim.Nominal()))
	}
	beyond := max(least/size, size/most) - 1
	if beyond <= farShare || b.Common(size) && !(c.Trait().Diameter && cells.FarDiameter(size, (least+most)/2)) {
		return
	}
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: e.Place(c.Role), Settle: t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "role"),
		Message: fmt.Sprintf("%s %s is far from those of the other columns, which are %s to %s; it is used as it stands", c.Name(), traits.SayMM(size), traits.SayMM(least), traits.SayMM(most))})
}
