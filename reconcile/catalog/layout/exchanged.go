package layout

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// Sizes of one part that stand in each other's place are left open, all of them, where they are not possible as they stand and are with two
// exchanged: which of them was meant is for a person to say.

// exchanged returns which of some sizes of one part, in mm, stand in each other's place: together they are not possible, and with two of them
// exchanged they are.
func exchanged(kind catalog.Kind, roles []catalog.Role, sizes []float64) []int {
	if len(sizes) < 2 || consistent(kind, roles, sizes) {
		return nil
	}
	var all []int
	for i := range sizes {
		for j := i + 1; j < len(sizes); j++ {
			other := slices.Clone(sizes)
			other[i], other[j] = other[j], other[i]
			if consistent(kind, roles, other) {
				all = append(all, i, j)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// consistent reports whether sizes of one part are all possible, and its bore less than what is about it.
func consistent(kind catalog.Kind, roles []catalog.Role, sizes []float64) bool {
	bore, outer := 0.0, 0.0
	for i, role := range roles {
		if role == "" {
			continue
		}
		if !possibleIn(kind, role, sizes[i]) {
			return false
		}
		switch role {
		case catalog.Bore:
			bore = sizes[i]
		case catalog.BaseOD, catalog.HoselOD:
			outer = sizes[i]
		}
	}
	return outer == 0 || bore < outer
}

// possibleIn reports whether a size can be that of a role in parts of a kind, or of any where the kind is not known.
func possibleIn(kind catalog.Kind, role catalog.Role, mm float64) bool {
	if b, known := traits.BoundsOf(kind, role); known {
		return b.Possible(mm)
	}
	return possibleAs(role, mm)
}

// openText is what a cell says whose number or list cannot be told apart: no reader takes it for a size.
func openText(text string) string { return "?? " + text }

// openAt notes why cells of a line are left open.
func (r *Region) openAt(cols []int, whys []string, line int) {
	if r.open == nil {
		r.open = map[[2]int]string{}
	}
	for n, why := range whys {
		if why != "" {
			r.open[[2]int{line, cols[n]}] = why
		}
	}
}

// WhyOpen says why the size of a cell is left open, empty where it is not.
func (r *Region) WhyOpen(line, col int) string { return r.open[[2]int{line, col}] }
