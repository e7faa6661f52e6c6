package sheet

// Pool makes the cells of a sheet, equal ones once: a list of a hundred thousand rows has a few thousand different sizes, and all its cells
// together take less room than one column of them each by itself would. The key says which cells are equal, in whatever form a reader
// has them before it makes one. The zero Pool is empty and ready to use.
//
// A column whose cells are nearly all different, as those of part numbers are, is not searched any more after a while.
type Pool[Key comparable] struct {
	known   map[Key]*Cell
	slab    []Cell
	columns []tally
}

// tally counts how often a cell of a column was asked for and how often it was there.
type tally struct{ asked, found uint32 }

const (
	// trial is how many cells of a column are asked for before it is left alone, and leastShare the share of them, 1/8, that must have been
	// there.
	trial      = 8192
	leastShare = 8
	// leastRoom and mostRoom are how many cells are made room for at once, at first and later on.
	leastRoom, mostRoom = 16, 1024
	// mostColumns bounds the columns that are counted by themselves; those beyond count together.
	mostColumns = 256
)

// tallyOf returns the count of a column, numbered from 1.
func (p *Pool[Key]) tallyOf(col int) *tally {
	col = min(col, mostColumns)
	for len(p.columns) <= col {
		p.columns = append(p.columns, tally{})
	}
	return &p.columns[col]
}

func (t *tally) hopeless() bool { return t.asked >= trial && t.found*leastShare < t.asked }

// Find returns the cell with a key, nil where there is none yet.
func (p *Pool[Key]) Find(col int, key Key) *Cell {
	t := p.tallyOf(col)
	if t.hopeless() {
		return nil
	}
	t.asked++
	cell := p.known[key]
	if cell != nil {
		t.found++
	}
	return cell
}

// Add makes a cell that Find did not have.
func (p *Pool[Key]) Add(col int, key Key, cell Cell) *Cell {
	made := p.Make(cell)
	if !p.tallyOf(col).hopeless() {
		if p.known == nil {
			p.known = map[Key]*Cell{}
		}
		p.known[key] = made
	}
	return made
}

// Make makes a cell that is not to be found again.
func (p *Pool[Key]) Make(cell Cell) *Cell {
	if len(p.slab) == cap(p.slab) {
		p.slab = make([]Cell, 0, min(max(2*cap(p.slab), leastRoom), mostRoom))
	}
	p.slab = append(p.slab, cell)
	return &p.slab[len(p.slab)-1]
}
