package catalog

import (
	"slices"

	"example.com/seatline/reconcile/sheet"
)

// freeTexts returns the places of the cells of a sheet that belong to no line of data or heading of a table, and of the
// group headings that say something for several columns.
func freeTexts(g *grid, readers []*roleTable) []sheet.Ref {
	areas := make([]sheet.Range, len(readers))
	for i, t := range readers {
		areas[i] = t.region.rangeOf()
	}
	var places []sheet.Ref
	var about []*roleTable
	for i, row := range g.places {
		about = about[:0]
		for k, t := range readers {
			if areas[k].From.Row <= i+1 && i+1 <= areas[k].To.Row {
				about = append(about, t)
			}
		}
		for j, id := range row {
			ref := sheet.Ref{Row: i + 1, Col: j + 1}
			if g.text(id) != "" && !slices.ContainsFunc(about, func(t *roleTable) bool { return t.takes(ref) }) {
				places = append(places, ref)
			}
		}
	}
	return places
}

// takes reports whether a cell belongs to a line of data or heading of the table.
func (t *roleTable) takes(ref sheet.Ref) bool {
	r := t.region
	line, col := r.grid.place(ref)
	if line < r.from || line > r.to || col < r.left || col > r.right {
		return false
	}
	switch t.lines[line-r.from] {
	case lineData, lineHeading, lineRepeated, lineTotal:
		return true
	}
	return false
}
