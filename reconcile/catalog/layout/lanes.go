package layout

import (
	"slices"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/sheet"
)

// lane is a column of a table that is made of places all over a sheet: how findings call it, the cell of its heading and what that says, and
// what it has in a line of the sheet.
type lane struct {
	name    string
	at      sheet.Ref
	heading Heading
	piece   func(line int) grid.Piece
}

// always is a lane that has the same in each line: what stands above a group of columns, or in a title.
func always(label, text string, labelAt, at sheet.Ref) lane {
	return lane{at.String(), labelAt, Heading{Parts: []string{label}, Text: label}, func(int) grid.Piece { return grid.Piece{Text: text, At: at} }}
}

// down is a lane that has what stands in a column of the sheet, in merged cells what a person sees there.
func down(g *grid.Grid, col int, name string, at sheet.Ref, heading Heading) lane {
	return lane{name, at, heading, func(line int) grid.Piece {
		fromLine, fromCol := g.Source(line, col)
		text := g.At(fromLine, fromCol)
		if text == "" {
			return grid.Piece{}
		}
		return grid.Piece{Text: text, At: g.Ref(fromLine, fromCol)}
	}}
}

// tableOfLanes makes the table of some lanes, with a row for each of some lines. Also are the cells that the lanes are made of beside their
// headings and pieces, and area is what of the sheet the table is.
func tableOfLanes(g *grid.Grid, lanes []lane, lines []int, also []sheet.Ref, area sheet.Range) Region {
	var columns []grid.ArrangedColumn
	var headings []Heading
	for i, l := range lanes {
		columns = append(columns, grid.ArrangedColumn{Name: l.name, At: l.at})
		l.heading.Col = i + 1
		headings = append(headings, l.heading)
	}
	var parts []grid.ArrangedPart
	for _, line := range lines {
		part := grid.ArrangedPart{Line: line}
		for _, l := range lanes {
			part.Pieces = append(part.Pieces, l.piece(line))
		}
		parts = append(parts, part)
	}
	return Region{
		Grid: g.Arrange(columns, parts, also), Drawn: g, From: area.From.Row, To: area.To.Row, Left: 1, Right: len(lanes), Body: lines[0],
		Columns: headings, Aside: map[int]string{}, area: area,
	}
}

// textsAbove returns what stands above a column in some lines, in merged cells what a person sees there, each text once.
func textsAbove(g *grid.Grid, lines []int, col int) []string {
	var texts []string
	for _, line := range lines {
		if text := g.Filled(line, col); text != "" && !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	return texts
}

// lowestAbove returns the cell of the lowest text above a column in some lines, and the column itself in the last of them where there is none.
func lowestAbove(g *grid.Grid, lines []int, col int) sheet.Ref {
	for i := len(lines) - 1; i >= 0; i-- {
		if g.Filled(lines[i], col) != "" {
			return g.Ref(g.Source(lines[i], col))
		}
	}
	return g.Ref(lines[len(lines)-1], col)
}
