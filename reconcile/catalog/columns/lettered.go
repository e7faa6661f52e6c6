package columns

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/internal/pattern"
)

// diameterLetter is the symbol of a diameter as tables of dimensions have it, with a number or without: D, d, ØD, d1. Rings and bushes are
// dimensioned so, in ISO 4379 with d1 for the bore and d2 for the outside and in ISO 15 with d for the bore and D for the outside: which is
// which the sizes tell.
var diameterLetter = pattern.Lazy(`^[øØ⌀]?\s?[dD]\s?[0-9]?$`)

// lettered gives the columns under the letters of diameters their roles by the order of their sizes, which is that of the part:
// the outside, the thin end, the bore. Letters that a legend explains are not among them.
func (t *Table) lettered() {
	var columns []*Column
	for _, c := range t.Columns {
		text, _, _ := t.Lex.Words.SplitUnit(c.Text)
		if diameterLetter().MatchString(strings.TrimSpace(text)) && c.irrelevant == "" && c.Deviation == 0 && !c.follower() && !t.ruled(c) && c.headed(t.Kind, c.Role) < lexicon.CertainHeading {
			columns = append(columns, c)
		}
	}
	roles := t.diametersLeft(columns)
	if len(columns) < 2 || len(roles) != len(columns) {
		return
	}
	slices.SortStableFunc(columns, func(a, b *Column) int { return -a.bySize(b) })
	if !t.falling(columns) {
		return
	}
	for i, c := range columns {
		b, _ := traits.BoundsOf(t.Kind, roles[i])
		if _, common := c.Profile.best(b, c.units(), 1); common < rivalShare {
			return
		}
	}
	for i, c := range columns {
		t.takeByValues(c, roles[i], "it is headed by the letter of a diameter, and its sizes stand so in their order")
	}
}

// diametersLeft returns the diameters of a part that columns under letters may be, the greatest first, as far as no other column has them.
func (t *Table) diametersLeft(columns []*Column) (left []catalog.Role) {
	all := []catalog.Role{catalog.HoselOD, catalog.Bore}
	switch {
	case t.Kind == catalog.Ferrules && len(columns) == 2 && t.otherwise(catalog.Bore, columns) == nil:
		all = []catalog.Role{catalog.BaseOD, catalog.Bore} // of two letters one is the bore
	case t.Kind == catalog.Ferrules:
		all = []catalog.Role{catalog.BaseOD, catalog.TopOD, catalog.Bore}
	case t.Kind != catalog.Heads:
		return nil
	}
	for _, role := range all {
		if t.otherwise(role, columns) == nil {
			left = append(left, role)
		}
	}
	return left
}

// otherwise returns the column beside some that has a role, nil where there is none.
func (t *Table) otherwise(role catalog.Role, beside []*Column) *Column {
	for _, c := range t.Columns {
		if c.Role == role && !slices.Contains(beside, c) {
			return c
		}
	}
	return nil
}

// bySize compares the first sizes of two columns.
func (c *Column) bySize(other *Column) int {
	a, b := c.Profile.Sizes, other.Profile.Sizes
	switch {
	case len(a) == 0 || len(b) == 0:
		return len(a) - len(b)
	case a[0].MM("mm") < b[0].MM("mm"):
		return -1
	}
	return 1
}

// falling reports whether the sizes of the columns fall from one to the next in nearly all rows, as slips happen, and enough rows give all
// of them.
func (t *Table) falling(columns []*Column) bool {
	rows, slips := 0, 0
	for _, line := range t.Region.SampleLines() {
		last, given, slipped := size{}, 0, false
		for _, c := range columns {
			s := t.sizeIn(c, line)
			if s.number <= 0 {
				continue
			}
			slipped = slipped || given > 0 && (s.unit != last.unit || s.number >= last.number)
			last = s
			given++
		}
		switch {
		case slipped:
			slips++
		case given == len(columns):
			rows++
		}
	}
	return rows >= leastByValues && float64(rows) >= rivalShare*float64(rows+slips)
}
