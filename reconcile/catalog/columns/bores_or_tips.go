package columns

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// NamesIn counts the numbers that are names of tips in a unit.
func NamesIn(numbers []float64, unit string) int {
	count := 0
	for _, n := range numbers {
		size, err := measure.FromMillimetres(n * traits.UnitMM[unit])
		if _, named := fitcalc.TipNamed(size.RoundTo(measure.Picometres(1000), measure.NearestEven)); err == nil && named {
			count++
		}
	}
	return count
}

// tellTipsFromBores decides by the sizes what a column of ferrules gives whose heading may mean the tip as well as the bore, such as
// "Shaft size": the tip, if nearly all of them are names of tips.
func (t *Table) tellTipsFromBores() {
	for _, c := range t.Columns {
		either := c.Role == catalog.Bore && c.second == catalog.TipTaken || c.Role == catalog.TipTaken && c.second == catalog.Bore
		if t.Kind != catalog.Ferrules || !either || c.margin >= leastMargin || t.first(c.second) != nil || len(c.Bare()) == 0 {
			continue
		}
		numbers, names := c.Bare(), 0
		for _, unit := range c.units() {
			names = max(names, NamesIn(numbers, unit))
		}
		role, other, why := catalog.Bore, catalog.TipTaken, "its sizes are not the names of tips"
		if 100*names >= traits.LeastNames*len(numbers) {
			role, other, why = catalog.TipTaken, catalog.Bore, "its sizes are the names of tips"
		}
		c.Role, c.margin, c.Evidence, c.RunnerUp = role, leastMargin, c.Evidence+"; "+why, string(other)
	}
}
