package sheet

import "example.com/seatline/reconcile/internal/seen"

// Pool makes the cells of a sheet, equal ones once: a list of a hundred thousand rows has a few thousand different sizes, and all its cells
// together take less room than one column of them each by itself would. The key says which cells are equal, in whatever form a reader
// has them before it makes one. The zero Pool is empty and ready to use.
type Pool[Key comparable] struct {
	seen seen.Cells[Key, *Cell]
	slab []Cell
}

// leastRoom and mostRoom are how many cells are made room for at once, at first and later on.
const leastRoom, mostRoom = 16, 1024

// Find returns the cell with a key, nil where there is none yet.
func (p *Pool[Key]) Find(col int, key Key) *Cell { return p.seen.Find(col, key) }

// Add makes a cell that Find did not have.
func (p *Pool[Key]) Add(col int, key Key, cell Cell) *Cell {
	made := p.Make(cell)
	p.seen.Keep(col, key, made)
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
