// Package seen remembers what was made of the cells of a sheet, as long as that is worth it.
package seen

// Cells keeps what the different cells of a sheet were made into or found to be, by a key that says which cells are equal. A column whose cells
// are nearly all different, as those of part numbers are, is not searched any more after a while. The zero Cells is empty and ready to use.
type Cells[Key, Value comparable] struct {
	known   map[Key]Value
	columns []Tally
}

// Tally counts how often something was asked for and how often it was there.
type Tally struct{ asked, found uint32 }

const (
	// Trial is how often something is asked for before it is given up, and leastShare the share of them, 1/8, that must have been there.
	Trial      = 8192
	leastShare = 8
	// mostColumns bounds the columns that are counted by themselves; those beyond count together.
	mostColumns = 256
)

// Hopeless reports whether it is not worth asking any more.
func (t *Tally) Hopeless() bool { return t.asked >= Trial && t.found*leastShare < t.asked }

// Count counts one that was asked for.
func (t *Tally) Count(found bool) {
	t.asked++
	if found {
		t.found++
	}
}

// tallyOf returns the count of a column.
func (s *Cells[Key, Value]) tallyOf(col int) *Tally {
	col = min(col, mostColumns)
	for len(s.columns) <= col {
		s.columns = append(s.columns, Tally{})
	}
	return &s.columns[col]
}

// Find returns what is kept of a key, the zero value where nothing is.
func (s *Cells[Key, Value]) Find(col int, key Key) Value {
	var none Value
	t := s.tallyOf(col)
	if t.Hopeless() {
		return none
	}
	value := s.known[key]
	t.Count(value != none)
	return value
}

// Keep keeps what Find did not have.
func (s *Cells[Key, Value]) Keep(col int, key Key, value Value) {
	if s.tallyOf(col).Hopeless() {
		return
	}
	if s.known == nil {
		s.known = map[Key]Value{}
	}
	s.known[key] = value
}
