package layout

import (
	"strings"

	lengths "example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// Reports of inspections give several readings of one size below one heading, counted in a line of their own: #1, #2, #3; 0°, 90°, mean.

// Gives is what a column gives of a size that was read several times.
type Gives uint8

const (
	// Itself is the size, as in any other column.
	Itself Gives = iota
	// OneReading is one of its readings.
	OneReading
	// ItsMean, ItsLeast, ItsMost and ItsSpread are worked out from them.
	ItsMean
	ItsLeast
	ItsMost
	ItsSpread
)

const (
	// leastReadings is how many readings there are at least, mostReadings how many at most: more are clubs, or lines.
	leastReadings, mostReadings = 2, 10
	// plainReadings is how many there are where bare numbers count them and no mean stands beside them, nor so many of another size: two are the
	// ends of a part, perhaps.
	plainReadings = 3
	// readingRows is in how many rows it is seen whether readings lie near each other.
	readingRows = 24
)

// counting is what the last fragment of a heading says of readings.
type counting struct {
	gives       Gives
	count       words.ReadingCount
	middle, end bool
}

// countingOf tells what the last fragment of a heading says of readings; false where it says nothing of them.
func countingOf(lex *lexicon.Lexicon, text string) (c counting, found bool) {
	v := lex.Words
	if text == "" || len(text) > lexicon.LongestHeading {
		return c, false
	}
	c.middle, c.end = v.OfReadings(words.ReadingMiddle, text), v.OfReadings(words.ReadingEnd, text)
	bare := strings.TrimRight(text, ". ")
	_, least := v.Mark(bare, "at_least")
	_, most := v.Mark(bare, "at_most")
	switch {
	case v.OfReadings(words.ReadingMean, text):
		c.gives = ItsMean
	case least:
		c.gives = ItsLeast
	case most:
		c.gives = ItsMost
	case v.OfReadings(words.ReadingSpread, text):
		c.gives = ItsSpread
	default:
		var counted bool
		if c.count, counted = v.CountsReading(text); counted || c.middle || c.end {
			c.gives = OneReading
		}
	}
	return c, c.gives != Itself
}

// follows reports whether one text counts the reading after that which another one counts, or is turned further.
func (c counting) follows(before counting) bool {
	a, b := before.count, c.count
	switch {
	case a.Letter != b.Letter || a.Degrees != b.Degrees || b.Word != "" && b.Word != a.Word && !b.Behind:
		return false
	case b.Degrees:
		return b.Number > a.Number
	}
	return b.Number == a.Number+1
}

// begins reports whether a text counts the first of readings: 1, sample A, 0°; a bare A is a letter of a drawing.
func (c counting) begins() bool {
	n := c.count
	switch {
	case c.gives != OneReading || n.Number == 0 && !n.Degrees:
		return false
	case n.Degrees:
		return n.Number == 0
	case n.Letter:
		return n.Word != "" && n.Number == 1
	}
	return n.Number == 1
}

// readings are columns beside each other that give one size, read several times: what each gives from the first of them on, and the first
// that gives a reading.
type readings struct {
	from, first int
	give        []counting
	counted     int
	mean        bool
}

// readingsAt returns the readings that begin at a column, given as its place among the headings; none where no such begin there, or fewer than
// are needed where bare numbers count them.
func (r *Region) readingsAt(lex *lexicon.Lexicon, at, plain int) (found readings) {
	found.from = at
	var last counting
	places, middle := 0, false
	for next := at; next < len(r.Columns); next++ {
		h := &r.Columns[next]
		n := len(h.Parts)
		if n < 2 || stemOf(h) != stemOf(&r.Columns[at]) {
			break
		}
		c, is := countingOf(lex, h.Parts[n-1])
		if !is && lex.ClubHeading(h.Parts[n-1]) == "" {
			break // a size of something else below the same heading
		}
		between := places > 0 && c.middle
		switch {
		case !is:
			return readings{} // 1, 2, 3 up to PW are clubs
		case c.gives == OneReading && (c.middle || c.end) && c.count.Number == 0 || between:
			c.gives = OneReading
			places++
			middle = middle || c.middle
		case c.gives != OneReading:
			found.mean = found.mean || c.gives == ItsMean
		case found.counted == 0 && !c.begins(), found.counted > 0 && !c.follows(last):
			return readings{}
		default:
			if c.count.Word == "" {
				c.count.Word = last.count.Word
			}
			last = c
			found.counted++
		}
		if c.gives == OneReading && found.counted+places == 1 {
			found.first = h.Col
		}
		found.give = append(found.give, c)
	}
	switch {
	case places > 0 && (found.counted > 0 || !middle || places < plainReadings):
		return readings{}
	case places > 0:
		found.counted = places
	case last.count.Word == "" && !last.count.Degrees && !found.mean && !r.meanAt(lex, at+len(found.give)) && found.counted < plain:
		return readings{}
	}
	if found.counted < leastReadings || found.counted > mostReadings {
		return readings{}
	}
	return found
}

// stemOf is what stands above the last fragment of a heading.
func stemOf(h *Heading) string { return strings.Join(h.Parts[:len(h.Parts)-1], "\x00") }

// meanAt reports whether a column, given as its place among the headings, is headed as a mean and says nothing else.
func (r *Region) meanAt(lex *lexicon.Lexicon, at int) bool {
	return at < len(r.Columns) && len(r.Columns[at].Parts) == 1 && lex.Words.OfReadings(words.ReadingMean, r.Columns[at].Text)
}

// findReadings finds the columns that give one size, read several times, and takes what counts them from their headings. Where three are
// counted by bare numbers, so are two of another size.
func (r *Region) findReadings(lex *lexicon.Lexicon) {
	if len(r.Headings) < 2 {
		return
	}
	if r.takeReadings(lex, plainReadings) {
		r.takeReadings(lex, leastReadings)
	}
}

// takeReadings finds readings, so many at least where bare numbers count them, and reports whether it found any.
func (r *Region) takeReadings(lex *lexicon.Lexicon, plain int) (any bool) {
	for at := 0; at < len(r.Columns); at++ {
		if len(r.Columns[at].Parts) < 2 || r.Columns[at].Gives != Itself {
			continue
		}
		found := r.readingsAt(lex, at, plain)
		if found.counted == 0 || !r.namesSize(lex, at) || r.mostlyFarApart(lex, found) {
			continue
		}
		any = true
		stem := r.Columns[at].Parts[:len(r.Columns[at].Parts)-1]
		for i, c := range found.give {
			h := &r.Columns[at+i]
			h.Parts, h.Gives, h.ReadingsAt = stem, c.gives, found.first
		}
		next := at + len(found.give)
		if !found.mean && r.meanAt(lex, next) {
			h := &r.Columns[next]
			h.Parts, h.Gives, h.ReadingsAt = stem, ItsMean, found.first
		}
		at = next - 1
	}
	return any
}

// namesSize reports whether what stands above the last fragment of a heading names a size of a part.
func (r *Region) namesSize(lex *lexicon.Lexicon, at int) bool {
	parts := r.Columns[at].Parts
	found := lex.Match(parts[:len(parts)-1]...)
	return len(found) > 0 && found[0].Score >= lexicon.HeadingScore && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length
}

// mostlyFarApart reports whether what would be readings lie too far apart to be of one size in most rows: then they are of several.
func (r *Region) mostlyFarApart(lex *lexicon.Lexicon, found readings) bool {
	compared, far := 0, 0
	first := r.Headings[len(r.Headings)-1] + 1
	for line := first; line < min(first+readingRows, r.Grid.Lines+1); line++ {
		var sizes []lengths.Length
		for i, c := range found.give {
			if size, given := sizeAt(r.Grid, lex, line, r.Columns[found.from+i].Col); given && c.gives == OneReading {
				sizes = append(sizes, size)
			}
		}
		if len(sizes) < leastReadings {
			continue
		}
		compared++
		if sample.FarApart(sizes) {
			far++
		}
	}
	return far*2 > compared
}

// sizeAt returns the size or the bare number, as millimetres, of a cell.
func sizeAt(g *grid.Grid, lex *lexicon.Lexicon, line, col int) (lengths.Length, bool) {
	switch reading := lex.Read(g.Filled(line, col), value.Context{Want: value.WantDiameter}); reading.Kind {
	case value.Length:
		return reading.Dim.Nominal(), true
	case value.Number:
		size, err := lengths.FromMillimetres(reading.Number)
		return size, err == nil
	}
	return lengths.Length{}, false
}

// countsReadings reports whether a line below a heading counts the readings of a size, and holds no value otherwise.
func countsReadings(g *grid.Grid, lex *lexicon.Lexicon, line, top int, strip span) bool {
	joined := Region{Grid: g, From: top, To: strip.to, Left: strip.left, Right: strip.right}
	for l := top; l <= line; l++ {
		joined.Headings = append(joined.Headings, l)
	}
	joined.readHeadings(lex)
	counted := false
	for _, h := range joined.Columns {
		text := g.At(line, h.Col)
		switch {
		case text == "":
		case h.Gives != Itself:
			counted = true
		case lexicon.LooksNumeric(text), mayBePart(lex, text) && headingOf(lex, catalog.Part, g.At(top, h.Col)):
			return false
		}
	}
	return counted
}
