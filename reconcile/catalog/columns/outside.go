package columns

import (
	"slices"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/sheet"
)

// FreeTexts returns the places of the cells of a sheet that belong to no line of data or heading of a table, and of the
// group headings that say something for several columns.
func FreeTexts(g *grid.Grid, readers []*Table) []sheet.Ref {
	about := make([][]*Table, g.Lines+1) // by row, since there may be as many tables as rows
	for k, t := range readers {
		area := t.Region.RangeOf()
		for row := area.From.Row; row <= min(area.To.Row, g.Lines); row++ {
			if about[row] == nil {
				about[row] = readers[k : k+1 : k+1]
			} else {
				about[row] = append(about[row], t)
			}
		}
	}
	var places []sheet.Ref
	for i, row := range g.Places {
		for j, id := range row {
			ref := sheet.Ref{Row: i + 1, Col: j + 1}
			if g.Text(id) != "" && !slices.ContainsFunc(about[i+1], func(t *Table) bool { return t.takes(ref) }) {
				places = append(places, ref)
			}
		}
	}
	return places
}

// takes reports whether a cell belongs to a line of data or heading of the table.
func (t *Table) takes(ref sheet.Ref) bool {
	r := t.Region
	if r.Grid.Arranged() {
		return r.Grid.Takes(ref)
	}
	line, col := r.Grid.Place(ref)
	if line < r.From || line > r.To || col < r.Left || col > r.Right {
		return false
	}
	switch t.Lines[line-r.From] {
	case LineData, lineHeading, lineRepeated, LineTotal, LineGoods, LineElsewhere, lineDeviations:
		return true
	}
	return false
}
