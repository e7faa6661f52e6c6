package catalog

import (
	"strings"
	"unicode"

	"example.com/seatline/reconcile/sheet"
)

// lineKind is what a line of a table is.
type lineKind uint8

const (
	lineBlank lineKind = iota
	// lineTitle is a line above the heading.
	lineTitle
	lineHeading
	lineRepeated
	lineUnits
	lineTotal
	// lineSection is a line within the body that names what follows.
	lineSection
	lineNote
	// lineNumbers is a line that numbers the columns: (1) (2) (3).
	lineNumbers
	// lineDropped is a line that the mapping file sets aside.
	lineDropped
	lineData
)

// why says why a line is set aside.
func (k lineKind) why() string {
	return [...]string{"blank", "title", "heading", repeatedHeading, "units", "total", "section title", "note", columnNumbers, "set aside by the mapping file", ""}[k]
}

// classify says what each line of a table is; the lines begin with the table's first.
func (t *roleTable) classify() []lineKind {
	r := t.region
	kinds := make([]lineKind, r.to-r.from+1)
	for line := r.from; line <= r.to; line++ {
		kinds[line-r.from] = t.lineKind(line)
	}
	for _, line := range r.headings {
		kinds[line-r.from] = lineHeading
	}
	return kinds
}

func (t *roleTable) lineKind(line int) lineKind {
	r := t.region
	switch {
	case t.rules.row(line).SetAside:
		return lineDropped
	case r.grid.blankLine(line, r.left, r.right):
		return lineBlank
	case line < r.body:
		return lineTitle
	case r.aside[line] == columnNumbers:
		return lineNumbers
	case r.aside[line] != "":
		return lineRepeated
	}
	return t.bodyLine(line)
}

// bodyLine tells data from the lines that stand between and below data. A line with sizes where sizes belong is data,
// unless it is a sum; a line without them is data where it has a part number that looks like one.
func (t *roleTable) bodyLine(line int) lineKind {
	cells, sizes, first, wide := t.countLine(line)
	if !t.isPart(first) {
		if _, isTotal := t.lex.ask("total", first, t.lex.words.IsTotal); isTotal {
			return lineTotal
		}
	}
	if sizes > 0 {
		return lineData
	}
	if t.onlyUnits(line) {
		return lineUnits
	}
	part := t.textOf(line, Part)
	if _, isNote := t.lex.ask("note", first, t.lex.words.IsNote); isNote && !(looksLikeCode(part) && cells > 1) {
		return lineNote
	}
	if cells == 1 || wide {
		if part != "" && part == first && !wide && t.partShapes()[shape(part)] {
			return lineData
		}
		return lineSection
	}
	if part == "" {
		return lineNote
	}
	return lineData
}

// partShapes returns the shapes of the part numbers that stand in lines with other cells.
func (t *roleTable) partShapes() map[string]bool {
	if t.shapes != nil {
		return t.shapes
	}
	t.shapes = map[string]bool{}
	c := t.byRole[Part]
	if c == nil {
		return t.shapes
	}
	for _, line := range t.region.sampleLines() {
		if text := t.region.grid.at(line, c.col); text != "" {
			if cells, _, _, _ := t.countLine(line); cells > 1 {
				t.shapes[shape(text)] = true
			}
		}
	}
	return t.shapes
}

// shape brings a text to the pattern of its characters: runs of capitals to A, of other letters to a, of digits to 9.
func shape(text string) string {
	var b strings.Builder
	last := rune(0)
	for _, r := range text {
		switch {
		case unicode.IsDigit(r):
			r = '9'
		case unicode.IsUpper(r):
			r = 'A'
		case unicode.IsLetter(r):
			r = 'a'
		}
		if r != last {
			b.WriteRune(r)
		}
		last = r
	}
	return b.String()
}

// countLine counts the cells of a line and those with sizes; first is its first text, and wide is set where one merged
// cell takes up most of it.
func (t *roleTable) countLine(line int) (cells, sizes int, first string, wide bool) {
	r, g := t.region, t.region.grid
	for i, id := range g.row(line, r.left, r.right) {
		text := g.text(id)
		if text == "" {
			continue
		}
		cells++
		if first == "" {
			first = text
			_, from, _, to := g.merged(line, r.left+i)
			wide = to-from+1 > 1 && (to-from+1)*2 > r.right-r.left+1
		}
	}
	for _, c := range t.measured() {
		id := g.id(line, c.col)
		if g.text(id) != "" && (g.is(asNumber, t.lex, id) || g.cellOf(id).Kind == sheet.Error) {
			sizes++
		}
	}
	return cells, sizes, first, wide && cells == 1
}

// measured returns the columns of lengths, angles and tapers.
func (t *roleTable) measured() []*column {
	if t.sizes == nil {
		t.sizes = []*column{}
		for _, c := range t.columns {
			switch c.trait().want {
			case wantLength, wantAngle, wantTaper:
				t.sizes = append(t.sizes, c)
			}
		}
	}
	return t.sizes
}

// isPart reports whether a text stands in the column of part numbers and looks like one.
func (t *roleTable) isPart(text string) bool {
	digits := false
	for _, r := range text {
		digits = digits || r >= '0' && r <= '9'
	}
	return digits && looksLikeCode(text)
}

// textOf returns the text of a role's column in a line, merged cells filled, empty where there is no such column.
func (t *roleTable) textOf(line int, role Role) string {
	c := t.byRole[role]
	if c == nil {
		return ""
	}
	return t.region.grid.filled(line, c.col)
}
