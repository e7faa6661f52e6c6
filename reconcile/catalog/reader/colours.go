package reader

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// colourLegend is what the sheet says of a colour, with the cells of parts that have it.
type colourLegend struct {
	layout.ColourLegend
	cells []colouredCell
	// sizes are the cells whose sizes it gives a unit.
	sizes []sheet.Ref
}

// colouredCell is a cell with the table and the line that it is of.
type colouredCell struct {
	at    sheet.Ref
	table *columns.Table
	line  int
}

// readColours finds what the free texts of the sheet say of colours, and gives sizes the unit that their colour says.
func (s *sheetReader) readColours(places []sheet.Ref) {
	if !s.sheet.Colours.None() {
		places = slices.Concat(places, columns.Unheaded(s.tables))
	}
	found := layout.ColourLegends(s.lex, s.grid, places)
	if len(found) == 0 {
		return
	}
	s.legends = make([]colourLegend, len(found))
	for i, one := range found {
		s.legends[i].ColourLegend = one
	}
	cells := s.colouredCells()
	inUse := make([]sheet.Paint, 0, len(cells))
	for _, cell := range cells {
		for _, paint := range s.paintsOf(cell.at) {
			if !slices.Contains(inUse, paint) {
				inUse = append(inUse, paint)
			}
		}
	}
	claims := layout.ClaimColours(found, inUse)
	for _, cell := range cells {
		if by := claims.Of(s.sheet.Colours.At(cell.at), s.sheet.Inks[cell.at]); by >= 0 {
			s.legends[by].cells = append(s.legends[by].cells, cell)
		}
	}
	for i := range s.legends {
		s.legends[i].giveUnits(s.tables)
	}
}

// paintsOf returns how a cell is coloured, and some of its characters.
func (s *sheetReader) paintsOf(at sheet.Ref) []sheet.Paint {
	paints := []sheet.Paint{s.sheet.Colours.At(at)}
	for _, ink := range s.sheet.Inks[at] {
		paints = append(paints, sheet.Paint{Ink: ink})
	}
	return paints
}

// colouredCells returns the coloured cells of the lines of parts, row by row.
func (s *sheetReader) colouredCells() (all []colouredCell) {
	take := func(at sheet.Ref) {
		for _, t := range s.tables {
			if line := t.DataLine(at); line > 0 {
				all = append(all, colouredCell{at, t, line})
				return
			}
		}
	}
	s.sheet.Colours.Each(s.grid.Width, func(at sheet.Ref, _ sheet.Paint) { take(at) })
	for at := range s.sheet.Inks {
		if s.sheet.Colours.At(at) == (sheet.Paint{}) {
			take(at)
		}
	}
	slices.SortStableFunc(all, func(a, b colouredCell) int { return compareRefs(a.at, b.at) })
	return all
}

// giveUnits writes the unit of a legend behind the bare sizes of its cells.
func (l *colourLegend) giveUnits(tables []*columns.Table) {
	if l.Unit == "" || len(l.cells) == 0 {
		return
	}
	marked := map[sheet.Ref]bool{}
	for _, cell := range l.cells {
		marked[cell.at] = true
	}
	for _, t := range tables {
		l.sizes = append(l.sizes, t.WriteUnits(l.Unit, func(at sheet.Ref) bool { return marked[at] })...)
	}
	slices.SortFunc(l.sizes, compareRefs)
}

// reportColours reports what the sheet says of colours: one finding for each legend, with all cells that have its colour.
func (s *sheetReader) reportColours() {
	if s.sheet.Colours.Full() && len(s.legends) > 0 {
		s.addMark(finding.Warning, "data.colour", []sheet.Ref{s.legends[0].At}, fmt.Sprintf("the sheet says %q, and has more colours than are looked at; none of them was", phrase.Brief(s.legends[0].Text)))
		return
	}
	for i := range s.legends {
		l := &s.legends[i]
		refs := l.grouped()
		said := fmt.Sprintf("the sheet says %q in %s", phrase.Brief(l.Text), l.At)
		switch {
		case len(l.cells) == 0:
			s.reportColourless(l, said)
		case l.Unit != "" && len(l.sizes) == 0:
			s.addMark(finding.Warning, "data.colour", refs, said+"; no size in these cells lacks a unit")
		case l.Unit != "":
			s.addMark(finding.Note, "data.colour", l.sizes, fmt.Sprintf("%s; %s of that colour read in %s", said, phrase.Count(len(l.sizes), "size"), traits.UnitName(l.Unit)))
		default:
			severity, of := finding.Note, "%s of that colour, of which that was not used"
			if known, found := meanings[l.Meaning]; found {
				severity, of = known.severity, known.of
			}
			s.addMark(severity, "data.colour", refs, fmt.Sprintf("%s; %s", said, fmt.Sprintf(of, phrase.Count(len(refs), "place"))))
		}
	}
}

// meanings are what legends say of rows and cells: how serious it is and what becomes of them.
var meanings = map[string]struct {
	severity finding.Severity
	of       string
}{
	"discontinued": {finding.Note, "%s of that colour: what stands there is discontinued, and is read like any other"},
	"unavailable":  {finding.Note, "%s of that colour: what stands there cannot be had at present, and is read like any other"},
	"new":          {finding.Note, "%s of that colour: what stands there is new"},
	"changed":      {finding.Note, "%s of that colour: what stands there was changed"},
	"provisional":  {finding.Warning, "%s of that colour: what stands there is not certain yet; it is used as it stands"},
}

// reportColourless reports a legend whose colour no cell of a part has, where that matters or where the text can be nothing else.
func (s *sheetReader) reportColourless(l *colourLegend, said string) {
	if !l.Plain {
		return
	}
	severity := finding.Note
	if l.Unit != "" || l.Meaning == "provisional" {
		severity = finding.Warning
	}
	why := "nothing among the parts has that colour"
	if s.sheet.Colours.None() {
		why = "the file has no colours; the workbook that it was made from may have them"
	}
	s.addMark(severity, "data.colour", []sheet.Ref{l.At}, said+"; "+why)
}

// grouped returns the cells of a legend, of a line that has its colour throughout or that it says something of as a whole only the first.
func (l *colourLegend) grouped() (refs []sheet.Ref) {
	ofRows := l.Meaning == "discontinued" || l.Meaning == "unavailable"
	for from := 0; from < len(l.cells); {
		to := from
		for to < len(l.cells) && l.cells[to].line == l.cells[from].line && l.cells[to].table == l.cells[from].table {
			to++
		}
		first := l.cells[from]
		if ofRows || to-from >= first.table.FilledOf(first.line) {
			refs = append(refs, first.at)
		} else {
			for _, cell := range l.cells[from:to] {
				refs = append(refs, cell.at)
			}
		}
		from = to
	}
	return refs
}
