package biff

import "errors"

// spent counts what a workbook takes before its rows are complete and the meter counts them: cells may come in any order here, and few records
// can stand for much.
type spent struct {
	cells, blanks, merges, notes int
	chars, texts                 int64
	// parts is the length of the parts that were read, of which none is within another.
	parts int
}

const (
	// mostNumbered is how many fonts and cell formats can be referred to, by numbers of two bytes.
	mostNumbered = 1 << 16
	// mostContinued is how many records may continue one: a table of texts of a gigabyte has fewer.
	mostContinued = 1 << 17
)

// cell counts a cell, and what is written in it.
func (s *spent) cell(b *reader, sheet string, chars int) error {
	if s.cells++; s.cells > b.meter.Limits.Cells {
		return b.meter.Limits.Beyond(b.name, sheet, "cells", "it has too many cells")
	}
	if s.chars += int64(chars); s.chars > b.meter.Limits.Text {
		return b.meter.Limits.Beyond(b.name, sheet, "text", "its cells hold too many bytes of text")
	}
	return nil
}

// text counts a text that cells or comments may show, by the room that it takes.
func (s *spent) text(b *reader, sheet string, size int) error {
	if s.texts += int64(size); s.texts > 2*b.meter.Limits.Text { // two bytes for each character
		return b.meter.Limits.Beyond(b.name, sheet, "text", "it has too many texts, or too long ones")
	}
	return nil
}

// many counts things of which each takes room, as cells do.
func (s *spent) many(b *reader, sheet string, count *int, what string) error {
	if *count++; *count > b.meter.Limits.Cells {
		return b.meter.Limits.Beyond(b.name, sheet, "cells", "it has too many "+what)
	}
	return nil
}

// part counts a part of the stream that was read.
func (s *spent) part(length, whole int) error {
	if s.parts += length; s.parts > whole {
		return errors.New("its sheets lie within each other")
	}
	return nil
}
