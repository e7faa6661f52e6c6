package grid

import (
	"cmp"
	"strconv"

	"example.com/seatline/reconcile/sheet"
)

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

// ArrangedPart is a part of an arranged grid: its line, which is a row of the sheet, and its pieces column by column. Begins is the cell with
// which it begins, of a part that may stand beside another one; without it, a part begins in the row of its line.
type ArrangedPart struct {
	Line   int
	Pieces []Piece
	Begins sheet.Ref
}

// arrangement says where the places of an arranged grid are on the sheet.
type arrangement struct {
	columns []ArrangedColumn
	// at are the cells of each line, nil for lines without a part.
	at map[int][]sheet.Ref
	// begins are the cells with which the parts of lines begin, and beginning says how many parts begin in a row of the sheet.
	begins    map[int]sheet.Ref
	beginning map[int]int
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
	a := &arrangement{columns: columns, at: map[int][]sheet.Ref{}, begins: map[int]sheet.Ref{}, beginning: map[int]int{}, taken: map[sheet.Ref]bool{}, rows: map[int]bool{}}
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
		if part.Begins != (sheet.Ref{}) {
			a.begins[part.Line] = part.Begins
		}
		a.beginning[made.RowOf(part.Line)]++
	}
	return made
}

// RowOf returns the row of the sheet that a person finds a line by. It is the line, but for a part that stands beside another one: those have
// lines of their own, and begin in one row.
func (g *Grid) RowOf(line int) int {
	if g.arranged != nil && g.arranged.begins[line].Row > 0 {
		return g.arranged.begins[line].Row
	}
	return line
}

// Beginning returns how many parts of an arranged grid begin in a row of the sheet.
func (g *Grid) Beginning(row int) int {
	if g.arranged == nil {
		return 0
	}
	return g.arranged.beginning[row]
}

// Beside returns the cell with which the part of a line begins, empty where no other part begins in its row.
func (g *Grid) Beside(line int) string {
	if g.Beginning(g.RowOf(line)) < 2 || g.arranged.begins[line].Row == 0 {
		return ""
	}
	return g.arranged.begins[line].String()
}

// LineName is how mapping files call a line: by its row, and a part that others stand beside by the cell with which it begins.
func (g *Grid) LineName(line int) string { return cmp.Or(g.Beside(line), strconv.Itoa(g.RowOf(line))) }

// LineNamed returns the line that a mapping file calls by a name; it reports false where there is none.
func (g *Grid) LineNamed(name string) (line int, found bool) {
	if g.arranged != nil {
		for line := range g.arranged.begins {
			if g.LineName(line) == name {
				return line, true
			}
		}
	}
	line, err := strconv.Atoi(name)
	return line, err == nil && g.LineName(line) == name
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
