package sheet

import (
	"cmp"
	"slices"
	"strconv"
)

// Colour is a colour of red, green and blue, eight bits each. The zero Colour is none: the white of paper, the black of print, or whatever
// the program that shows the sheet takes for them.
type Colour uint32

const isColour Colour = 1 << 24

// RGB returns a colour by its parts.
func RGB(red, green, blue uint8) Colour {
	return isColour | Colour(red)<<16 | Colour(green)<<8 | Colour(blue)
}

// ParseColour reads six hexadecimal digits, of eight the last six: those before them say how much shines through.
func ParseColour(digits string) (Colour, bool) {
	if len(digits) == 8 {
		digits = digits[2:]
	}
	if len(digits) != 6 {
		return 0, false
	}
	bits, err := strconv.ParseUint(digits, 16, 24)
	if err != nil {
		return 0, false
	}
	return isColour | Colour(bits), true
}

// Parts returns red, green and blue.
func (c Colour) Parts() (red, green, blue uint8) { return uint8(c >> 16), uint8(c >> 8), uint8(c) }

// String returns the colour in hexadecimal digits: FFFF00; empty for none.
func (c Colour) String() string {
	if c == 0 {
		return ""
	}
	const digits = "0123456789ABCDEF"
	var text [6]byte
	for i := range text {
		text[i] = digits[c>>(20-4*i)&15]
	}
	return string(text[:])
}

// Paint is how a cell is coloured.
type Paint struct {
	// Fill is the colour behind its characters, and Ink that of the characters.
	Fill, Ink Colour
}

// Seen returns the paint with what nobody sees as a colour taken away: white behind the characters, and black characters.
func (p Paint) Seen() Paint {
	if p.Fill == RGB(255, 255, 255) {
		p.Fill = 0
	}
	if p.Ink == RGB(0, 0, 0) {
		p.Ink = 0
	}
	return p
}

// Colours are how the cells of a sheet are coloured. Stretches of a row that are coloured alike are kept as one, since sheets colour rows, so
// that a list without colours takes no room and one with every other row filled little. The zero Colours has no colour at all.
type Colours struct {
	paints    []Paint
	known     map[Paint]uint16
	stretches []stretch
	unordered bool
	full      bool
}

// stretch is some cells of a row beside each other, with the number of their paint.
type stretch struct {
	row      int32
	from, to int16
	paint    uint16
}

const (
	// mostStretches is how many stretches of a sheet are kept, 12 MB, and mostPaints how many different paints: no person tells more apart.
	mostStretches, mostPaints = 1 << 20, 1 << 12
	// lastColumn is the last one of a sheet.
	lastColumn = 16_384
)

// Add colours a cell. Where two are said of one cell, the later one counts.
func (c *Colours) Add(at Ref, paint Paint) { c.AddRow(at.Row, at.Col, at.Col, paint) }

// AddRow colours some cells of a row beside each other.
func (c *Colours) AddRow(row, from, to int, paint Paint) {
	if paint = paint.Seen(); paint == (Paint{}) || c.full || from < 1 || to > lastColumn || row < 1 {
		return
	}
	number, known := c.known[paint]
	if !known {
		number = uint16(len(c.paints))
	}
	last := len(c.stretches) - 1
	switch {
	case !known && len(c.paints) == mostPaints, len(c.stretches) == mostStretches:
		*c = Colours{full: true}
		return
	case !known:
		if c.known == nil {
			c.known = map[Paint]uint16{}
		}
		c.known[paint], c.paints = number, append(c.paints, paint)
	case last >= 0 && c.stretches[last].row == int32(row) && int(c.stretches[last].to) == from-1 && c.stretches[last].paint == number:
		c.stretches[last].to = int16(to)
		return
	}
	one := stretch{int32(row), int16(from), int16(to), number}
	c.unordered = c.unordered || last >= 0 && byPlace(c.stretches[last], one) > 0
	c.stretches = append(c.stretches, one)
}

func byPlace(a, b stretch) int { return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.from, b.from)) }

// Sort makes the colours ready to be asked for. Readers of files call it when a sheet is read.
func (c *Colours) Sort() {
	if c.unordered {
		slices.SortStableFunc(c.stretches, byPlace)
		c.unordered = false
	}
}

// None reports whether no cell is coloured.
func (c *Colours) None() bool { return len(c.stretches) == 0 }

// Full reports whether there were so many colours that none of them is kept.
func (c *Colours) Full() bool { return c.full }

// Equal reports whether the same cells are coloured alike, kept in the same way.
func (c Colours) Equal(d Colours) bool {
	return slices.Equal(c.paints, d.paints) && slices.Equal(c.stretches, d.stretches) && c.full == d.full
}

// At returns how a cell is coloured.
func (c *Colours) At(at Ref) Paint {
	n, _ := slices.BinarySearchFunc(c.stretches, at, func(s stretch, at Ref) int {
		if int(s.row) != at.Row {
			return cmp.Compare(int(s.row), at.Row)
		}
		if int(s.from) <= at.Col {
			return -1
		}
		return 1
	})
	if n == 0 {
		return Paint{}
	}
	if s := c.stretches[n-1]; int(s.row) == at.Row && at.Col <= int(s.to) {
		return c.paints[s.paint]
	}
	return Paint{}
}

// Paints returns the different ways in which cells are coloured.
func (c *Colours) Paints() []Paint { return c.paints }

// Each calls a function for every coloured cell up to a column, row by row.
func (c *Colours) Each(width int, tell func(Ref, Paint)) {
	for _, s := range c.stretches {
		for col := int(s.from); col <= min(int(s.to), width); col++ {
			tell(Ref{Row: int(s.row), Col: col}, c.paints[s.paint])
		}
	}
}
