package catalog

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// namesIn counts the numbers that are names of tips in a unit.
func namesIn(numbers []float64, unit string) int {
	count := 0
	for _, n := range numbers {
		size, err := measure.FromMillimetres(n * unitMM[unit])
		if _, named := fitcalc.TipNamed(size.RoundTo(measure.Picometres(1000), measure.NearestEven)); err == nil && named {
			count++
		}
	}
	return count
}

// tellTipsFromBores decides by the sizes what a column of ferrules gives whose heading may mean the tip as well as the bore, such as
// "Shaft size": the tip, if nearly all of them are names of tips.
func (t *roleTable) tellTipsFromBores() {
	for _, c := range t.columns {
		either := c.role == Bore && c.second == TipTaken || c.role == TipTaken && c.second == Bore
		if t.kind != Ferrules || !either || c.margin >= leastMargin || t.first(c.second) != nil || len(c.bare()) == 0 {
			continue
		}
		numbers, names := c.bare(), 0
		for _, unit := range c.units() {
			names = max(names, namesIn(numbers, unit))
		}
		role, other, why := Bore, TipTaken, "its sizes are not the names of tips"
		if 100*names >= leastNames*len(numbers) {
			role, other, why = TipTaken, Bore, "its sizes are the names of tips"
		}
		c.role, c.margin, c.evidence, c.runnerUp = role, leastMargin, c.evidence+"; "+why, fmt.Sprintf("%s, but for its sizes", other)
	}
}
