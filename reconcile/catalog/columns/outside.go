package columns

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
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
	case LineData, lineHeading, lineRepeated, linePage, LineTotal, LineGoods, LineElsewhere, lineDeviations, lineLegend:
		return true
	}
	return false
}

// Unheaded returns the places of texts in columns of tables that have neither a heading nor a role: what stands there may be no part of it.
func Unheaded(tables []*Table) (places []sheet.Ref) {
	for _, t := range tables {
		for _, c := range t.Columns {
			if c.Text != "" || c.Role != "" {
				continue
			}
			for i, kind := range t.Lines {
				if line := t.Region.From + i; kind == LineData && t.Region.Grid.At(line, c.Col) != "" {
					places = append(places, t.Region.Grid.Ref(line, c.Col))
				}
			}
		}
	}
	return places
}

// DataLine returns the line of data that a cell of the sheet belongs to, zero where it belongs to none.
func (t *Table) DataLine(ref sheet.Ref) int {
	r := t.Region
	if r.Grid.Arranged() {
		if r.Grid.Takes(ref) {
			return ref.Row
		}
		return 0
	}
	line, col := r.Grid.Place(ref)
	if line < r.From || line > r.To || col < r.Left || col > r.Right || t.Lines[line-r.From] != LineData {
		return 0
	}
	return line
}

// WriteUnits writes a unit behind the bare sizes of some cells, and looks at the columns anew in which there are any. It returns the cells.
func (t *Table) WriteUnits(unit string, in func(sheet.Ref) bool) (written []sheet.Ref) {
	g := t.Region.Grid
	for _, c := range t.Columns {
		if traits.Of[c.Role].Want != traits.Length {
			continue
		}
		before := len(written)
		for i, kind := range t.Lines {
			line := t.Region.From + i
			text := g.At(line, c.Col)
			if kind != LineData || text == "" || !in(g.Ref(line, c.Col)) {
				continue
			}
			if reading := t.Lex.Read(text, value.Context{Want: value.WantDiameter}); reading.Kind == value.Number {
				g.Behind(line, c.Col, unit, false)
				written = append(written, g.Ref(line, c.Col))
			}
		}
		if len(written) > before {
			c.Profile = profileOf(t.Region, t.Lex, c.Col, t.Region.SampleLines())
		}
	}
	return written
}

// FilledOf returns how many columns of the table have something in a line.
func (t *Table) FilledOf(line int) (filled int) {
	for _, c := range t.Columns {
		if t.Region.Grid.At(line, c.Col) != "" {
			filled++
		}
	}
	return filled
}

// Explains reports whether the table says of a row of the sheet, which is so wide, what it is: one with a part or heading, or one that is set aside for what
// it is, and not for what nobody knows of it. Of a table that lists no parts as a whole that is said once.
func (t *Table) Explains(row, width int) bool {
	if t.Kind == catalog.UnknownKind || t.Rules.Kind == catalog.NoRole {
		return true
	}
	r := t.Region
	line, _ := r.Grid.Place(sheet.Ref{Row: row, Col: 1})
	if !r.Grid.Turned && line >= r.From && line <= r.To {
		switch t.Lines[line-r.From] {
		case LineUnits, lineNumbers, LineInside, lineDropped, LineStruck:
			return true
		}
	}
	for col := 1; col <= width; col++ {
		if ref := (sheet.Ref{Row: row, Col: col}); t.takes(ref) {
			return true
		}
	}
	return false
}
