package catalog

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// grid is a sheet as the reader looks at it: its text cleaned, merged ranges known, and turned on its side where the
// headings stand in a column. Lines and columns count from 1; in a turned grid a line is a column of the sheet.
type grid struct {
	sheet  *sheet.Sheet
	turned bool
	// lines and width are the extent of the content.
	lines, width int
	text         [][]string
	// origin leads from a cell of a merged range, but its first, to the first.
	origin map[sheet.Ref]sheet.Ref
	// virtual leads from a column that was added for one size of a composite column to that column; next is the number of
	// the next one.
	virtual map[int]int
	next    int
	// span is the merged range that begins at a cell.
	span map[sheet.Ref]sheet.Range
}

// newGrid cleans the text of a sheet. Lines and columns beyond the last content are left out.
func newGrid(s *sheet.Sheet) *grid {
	g := &grid{sheet: s, origin: map[sheet.Ref]sheet.Ref{}, span: map[sheet.Ref]sheet.Range{}}
	g.text = make([][]string, len(s.Rows))
	for i, row := range s.Rows {
		for j, cell := range row {
			if cell.Kind == sheet.Blank && cell.Formula == "" {
				continue
			}
			// A cell with nothing to see in it is content all the same: its row is counted.
			g.lines = i + 1
			text := cellText(cell)
			if text == "" && cell.Formula == "" {
				continue
			}
			if g.text[i] == nil {
				g.text[i] = make([]string, len(row))
			}
			g.text[i][j] = text
			g.width = max(g.width, j+1)
		}
	}
	g.text = g.text[:g.lines]
	for _, m := range s.Merges {
		g.addMerge(m)
	}
	return g
}

// addMerge records a merged range as far as there is content in the sheet.
func (g *grid) addMerge(m sheet.Range) {
	if m.From == m.To {
		return
	}
	m.To.Row, m.To.Col = min(m.To.Row, g.lines), min(m.To.Col, max(g.width, m.From.Col))
	if m.To.Row < m.From.Row {
		return
	}
	g.span[m.From] = m
	for row := m.From.Row; row <= m.To.Row; row++ {
		for col := m.From.Col; col <= m.To.Col; col++ {
			if ref := (sheet.Ref{Row: row, Col: col}); ref != m.From {
				g.origin[ref] = m.From
			}
		}
	}
}

// turn returns the grid on its side: columns become lines.
func (g *grid) turn() *grid {
	t := &grid{sheet: g.sheet, turned: !g.turned, lines: g.width, width: g.lines, origin: g.origin, span: g.span}
	t.text = make([][]string, t.lines)
	cells := make([]string, t.lines*t.width)
	for line := range t.text {
		t.text[line] = cells[line*t.width : (line+1)*t.width]
		for col := range t.text[line] {
			t.text[line][col] = g.at(col+1, line+1)
		}
	}
	return t
}

// ref returns the place in the sheet of a line and column of the grid.
func (g *grid) ref(line, col int) sheet.Ref {
	if g.turned {
		return sheet.Ref{Row: col, Col: line}
	}
	if real, added := g.virtual[col]; added {
		col = real
	}
	return sheet.Ref{Row: line, Col: col}
}

// place is the opposite of ref.
func (g *grid) place(r sheet.Ref) (line, col int) {
	if g.turned {
		return r.Col, r.Row
	}
	return r.Row, r.Col
}

// cell returns the cell of the sheet at a line and column.
func (g *grid) cell(line, col int) sheet.Cell { return g.sheet.Cell(g.ref(line, col)) }

// at returns the cleaned text of a cell itself, empty for the covered cells of a merged range.
func (g *grid) at(line, col int) string {
	if line < 1 || line > len(g.text) || col < 1 || col > len(g.text[line-1]) {
		return ""
	}
	return g.text[line-1][col-1]
}

// source returns where the value of a cell stands: its own place, or the first cell of the merged range that covers it.
func (g *grid) source(line, col int) (int, int) {
	if len(g.origin) == 0 || g.virtual[col] > 0 {
		return line, col
	}
	if first, covered := g.origin[g.ref(line, col)]; covered {
		return g.place(first)
	}
	return line, col
}

// filled returns the text that a person sees at a cell, merged ranges filled with their value.
func (g *grid) filled(line, col int) string { return g.at(g.source(line, col)) }

// merged returns how far the merged range that holds a cell reaches, the cell alone where it is not merged.
func (g *grid) merged(line, col int) (fromLine, fromCol, toLine, toCol int) {
	fromLine, fromCol = g.source(line, col)
	m, found := g.span[g.ref(fromLine, fromCol)]
	if !found {
		return line, col, line, col
	}
	toLine, toCol = g.place(m.To)
	return fromLine, fromCol, toLine, toCol
}

// blankLine reports whether a line has no content between two columns.
func (g *grid) blankLine(line, from, to int) bool {
	if line < 1 || line > len(g.text) {
		return true
	}
	row := g.text[line-1]
	for col := from; col <= min(to, len(row)); col++ {
		if row[col-1] != "" || g.cell(line, col).Formula != "" {
			return false
		}
	}
	return true
}

// columnName is how findings and mapping files call a column: letters, or the row number in a turned grid.
func (g *grid) columnName(col int) string {
	if g.turned {
		return strconv.Itoa(col)
	}
	if real, added := g.virtual[col]; added {
		col = real
	}
	return sheet.ColumnName(col)
}

// cellText returns the text of a cell as the reader uses it. A number is its stored value, rounded to the fifteen
// digits that a spreadsheet program keeps, and not what its format shows, which may hide digits.
func cellText(c sheet.Cell) string {
	switch c.Kind {
	case sheet.Blank:
		return ""
	case sheet.Number:
		return numberText(c.Raw)
	case sheet.Date, sheet.Error, sheet.Bool:
		return cleanText(c.Shown)
	}
	return cleanText(c.Raw)
}

func numberText(raw string) string {
	if len(raw) <= 12 && strings.IndexByte(raw, 'E') < 0 && strings.IndexByte(raw, 'e') < 0 {
		return strings.TrimSpace(raw)
	}
	number, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return cleanText(raw)
	}
	number, err = strconv.ParseFloat(strconv.FormatFloat(number, 'g', 15, 64), 64)
	if err != nil {
		return cleanText(raw)
	}
	return strconv.FormatFloat(number, 'f', -1, 64)
}

// cleanText trims a text and takes out what cannot be seen: spaces of other kinds become spaces, runs of spaces one,
// zero-width and control characters nothing. Line breaks within a cell become spaces.
func cleanText(s string) string {
	if isClean(s) {
		return s
	}
	if strings.Contains(s, "\n") {
		s = hyphenated().ReplaceAllString(s, "$1$2")
	}
	var b strings.Builder
	space := false
	for _, r := range s {
		switch {
		case isInvisible(r):
		case isSpace(r):
			space = b.Len() > 0
		default:
			if space {
				b.WriteByte(' ')
				space = false
			}
			b.WriteRune(r)
		}
	}
	return b.String()
}

// hyphenated is a word that is divided at the end of a line within a cell.
var hyphenated = pattern.Lazy(`(\p{Ll})[-‐]\r?\n ?(\p{Ll})`)

func isClean(s string) bool {
	if s == "" {
		return true
	}
	if s[0] == ' ' || s[len(s)-1] == ' ' {
		return false
	}
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c >= utf8.RuneSelf || c < ' ' || c == 0x7f || (c == ' ' && s[i-1] == ' ') {
			return false
		}
	}
	return true
}

func isInvisible(r rune) bool {
	switch {
	case r == '\t' || r == '\n' || r == '\r' || r == 0x85:
		return false
	case r < ' ' || r >= 0x7f && r < 0xa0:
		return true
	}
	return r >= 0x200b && r <= 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2060 && r <= 0x2064 || r == 0xfeff || r == 0xad
}

func isSpace(r rune) bool {
	switch r {
	case ' ', '\t', '\n', '\r', 0x85, 0xa0, 0x1680, 0x2028, 0x2029, 0x202f, 0x205f, 0x3000:
		return true
	}
	return r >= 0x2000 && r <= 0x200a
}
