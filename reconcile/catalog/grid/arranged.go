package grid

import "example.com/seatline/reconcile/sheet"

// Piece is what stands at one place of an arranged grid: a text, and the cell of the sheet that it was taken from; without a cell, nothing.
type Piece struct {
	Text string
	At   sheet.Ref
}

// ArrangedColumn is a column of an arranged grid: how findings and mapping files call it, and the cell whose words are its heading.
type ArrangedColumn struct {
	Name string
	At   sheet.Ref
}

// ArrangedPart is a part of an arranged grid: its line, which is a row of the sheet, and its pieces column by column.
type ArrangedPart struct {
	Line   int
	Pieces []Piece
}

// arrangement says where the places of an arranged grid are on the sheet.
type arrangement struct {
	columns []ArrangedColumn
	// at are the cells of each line, nil for lines without a part.
	at map[int][]sheet.Ref
	// taken are all cells of the sheet that are part of it, and rows the rows that have one.
	taken map[sheet.Ref]bool
	rows  map[int]bool
}

// take notes that a cell of the sheet is part of the arrangement.
func (a *arrangement) take(ref sheet.Ref) {
	a.taken[ref] = true
	a.rows[ref.Row] = true
}

// Arrange returns a grid with a line for each part, of a sheet that gives parts otherwise. Also are the cells that it was made of beside
// those of columns and parts, such as labels that come back with each part.
func (g *Grid) Arrange(columns []ArrangedColumn, parts []ArrangedPart, also []sheet.Ref) *Grid {
	a := &arrangement{columns: columns, at: map[int][]sheet.Ref{}, taken: map[sheet.Ref]bool{}, rows: map[int]bool{}}
	made := &Grid{Sheet: g.Sheet, contents: g.contents, Lines: g.Lines, Width: len(columns), Places: make([][]ID, g.Lines), arranged: a}
	for _, column := range columns {
		a.take(column.At)
	}
	for _, ref := range also {
		a.take(ref)
	}
	for _, part := range parts {
		ids, at := make([]ID, len(part.Pieces)), make([]sheet.Ref, len(part.Pieces))
		for i, piece := range part.Pieces {
			if piece.At == (sheet.Ref{}) {
				continue
			}
			at[i], ids[i] = piece.At, g.retold(g.Id(g.Place(piece.At)), piece.Text)
			a.take(piece.At)
		}
		made.Places[part.Line-1], a.at[part.Line] = ids, at
	}
	return made
}

// Arranged reports whether the grid was made by [Grid.Arrange].
func (g *Grid) Arranged() bool { return g.arranged != nil }

// AsDrawn reports whether lines and columns of the grid are the rows and columns of the sheet.
func (g *Grid) AsDrawn() bool { return !g.Turned && g.arranged == nil }

// Takes reports whether a cell of the sheet is part of an arranged grid.
func (g *Grid) Takes(ref sheet.Ref) bool { return g.arranged.taken[ref] }

// TakesOf reports whether any cell of a row of the sheet is part of an arranged grid.
func (g *Grid) TakesOf(row int) bool { return g.arranged.rows[row] }

// HeadingOf is the cell of the sheet that has the heading of a column of an arranged grid.
func (g *Grid) HeadingOf(col int) sheet.Ref {
	if real, added := g.virtual[col]; added {
		col = real
	}
	return g.arranged.columns[col-1].At
}

// ref returns the cell of a place, of a blank one the first of its line.
func (a *arrangement) ref(line, col int) sheet.Ref {
	at := a.at[line]
	if col > 0 && col <= len(at) && at[col-1] != (sheet.Ref{}) {
		return at[col-1]
	}
	for _, ref := range at {
		if ref != (sheet.Ref{}) {
			return ref
		}
	}
	return sheet.Ref{Row: line, Col: 1}
}
