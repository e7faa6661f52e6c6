package layout

// Sizes of one part that stand in each other's place are left open, all of them, where they are not possible as they stand and are with two
// exchanged: which of them was meant is for a person to say.

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
