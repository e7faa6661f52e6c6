package biff

import (
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/palette"
)

// readStyle reads a cell format (MS-XLS, 2.4.353 and 2.5.20). Some programs cut off what they have nothing to say in.
func readStyle(f *fields) style {
	one := style{font: f.u16(), format: f.u16()}
	const toPattern, pattern, solid = 10, 6, 1
	if len(f.parts) == 0 || len(f.parts[0]) < toPattern+pattern {
		return one
	}
	f.skip(toPattern)
	if f.u32()>>26 == solid {
		one.fill = f.u16() & 0x7f
	}
	return one
}

// firstOwn is the number of the first colour that a workbook may choose for itself.
const firstOwn = 8

// readPalette reads the workbook's own colours (2.4.188).
func (b *reader) readPalette(f *fields) {
	b.palette = nil
	for range min(f.u16(), palette.Size) {
		rgb := f.u32()
		b.palette = append(b.palette, sheet.RGB(uint8(rgb), uint8(rgb>>8), uint8(rgb>>16)))
	}
}

// colour returns a colour by its number.
func (b *reader) colour(number int) sheet.Colour {
	if own := number - firstOwn; own >= 0 && own < len(b.palette) {
		return b.palette[own]
	}
	return palette.Colour(number)
}

// paint keeps how the current cell is coloured.
func (g *grid) paint(at sheet.Ref) {
	if g.style >= len(g.styles) {
		return
	}
	one := g.styles[g.style]
	paint := sheet.Paint{Ink: g.inkOf(one.font)}
	if one.fill != 0 {
		paint.Fill = g.colour(one.fill)
	}
	g.out.Colours.Add(at, paint)
}

func (g *grid) inkOf(font int) sheet.Colour {
	return sheet.Paint{Ink: g.colour(g.font(font).ink)}.Seen().Ink
}

// inks keeps the colours of some of a cell's characters.
func (g *grid) inks(at sheet.Ref, one text) {
	var inks []sheet.Colour
	for _, run := range one.runs {
		if ink := g.inkOf(int(run.font)); ink != 0 && len(inks) < mostInks && int(run.at) < len(one.units) {
			inks = append(inks, ink)
		}
	}
	if inks != nil {
		g.out.Ink(at, inks)
	}
}

// mostInks is how many colours of characters are told of a cell.
const mostInks = 16
