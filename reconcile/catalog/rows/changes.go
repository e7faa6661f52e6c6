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

const (
	// leastAlike is how many diameters have to have changed the same way for one that changed the other way to stand out.
	leastAlike = 4
	// leastChange is by how much, in mm, a diameter changed at least: less is the play of calipers. Common practice.
	leastChange = 0.1
)

// compareChanges says which diameter grew where all others that have a value from before the change became smaller, or the other way round:
// of heads that were turned down one did not get wider.
func (t *Table) compareChanges() {
	for _, c := range t.read {
		if c.Older != nil && c.Role == catalog.Price {
			t.comparePriceChanges(c)
			continue
		}
		if c.Older == nil || !c.Trait().Diameter {
			continue
		}
		grown, shrunk := t.changesOf(c)
		switch {
		case len(grown) == 1 && len(shrunk) >= leastAlike:
			t.sayContrary(c, grown[0], "smaller")
		case len(shrunk) == 1 && len(grown) >= leastAlike:
			t.sayContrary(c, shrunk[0], "larger")
		}
	}
}

// comparePriceChanges says which price went down where all others of the table went up, or the other way round: one of the two may stand in the place of
// the other.
func (t *Table) comparePriceChanges(c *cells.Column) {
	var up, down []*Entry
	last := 0
	for _, e := range t.Items {
		before := t.numberBefore(e.Line, c)
		if after := t.Lex.Read(e.Fields.Text(catalog.Price), value.Context{Want: value.WantPrice, Mark: c.Mark}); e.Line == last || before == 0 || after.Kind != value.Number {
			continue
		} else if last = e.Line; after.Number > before {
			up = append(up, e)
		} else if after.Number < before {
			down = append(down, e)
		}
	}
	few, others := down, "up"
	if len(up) < len(down) {
		few, others = up, "down"
	}
	if len(few) != 1 || len(up)+len(down)-1 < leastAlike {
		return
	}
	g := t.Region.Grid
	line := few[0].Line
	t.Findings.Add(finding.Finding{
		Severity: finding.Warning, Code: "data.implausible", Place: few[0].Place(catalog.Price),
		Message: fmt.Sprintf("the price of %s is %s and was %s in %s, and all others went %s; it is used as it stands", few[0].Part, few[0].Fields.Text(catalog.Price),
			g.Filled(line, c.Older.Col), g.Ref(line, c.Older.Col), others),
	})
}

// numberBefore is the price of a line from before a change, zero where there is none.
func (t *Table) numberBefore(line int, c *cells.Column) float64 {
	text := t.Region.Grid.Filled(line, c.Older.Col)
	if reading := t.Lex.Read(text, value.Context{Want: value.WantPrice, Mark: c.Mark}); text != "" && reading.Kind == value.Number {
		return reading.Number
	}
	return 0
}

// change is a diameter of one entry before and after a change, in mm.
type change struct {
	entry         *Entry
	before, after float64
}

func (t *Table) changesOf(c *cells.Column) (grown, shrunk []change) {
	for _, one := range t.comparedOf(c.Role) {
		before, known := t.Was(one.entry.Line, c)
		if !known {
			continue
		}
		changed := change{one.entry, traits.MM(before.Nominal()), one.size}
		switch off := changed.after - changed.before; {
		case math.Abs(off) < leastChange:
		case off > 0:
			grown = append(grown, changed)
		default:
			shrunk = append(shrunk, changed)
		}
	}
	return grown, shrunk
}

func (t *Table) sayContrary(c *cells.Column, one change, others string) {
	t.Findings.Add(finding.Finding{
		Severity: finding.Warning, Code: "data.implausible", Place: one.entry.Place(c.Role), Settle: t.Settle("rows", t.LineName(one.entry.Line), string(c.Role)),
		Message: fmt.Sprintf("%s of %s is %s after a change and was %s, and that of all others became %s; it is used as it stands",
			catalog.RoleName(t.Kind, c.Role), one.entry.Part, traits.SayMM(one.after), traits.SayMM(one.before), others),
	})
}
