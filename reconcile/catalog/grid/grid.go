// Package grid is a sheet as the reader looks at it: its texts cleaned and each kept once, merged ranges known, and turned on its side
// where the headings stand in a column.
package grid

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/internal/seen"
	"example.com/seatline/reconcile/sheet"
)

// Grid is a sheet as the reader looks at it: its text cleaned, merged ranges known, and turned on its side where the
// headings stand in a column. Lines and columns count from 1; in a turned grid a line is a column of the sheet.
type Grid struct {
	Sheet  *sheet.Sheet
	Turned bool
	// Lines and width are the extent of the content.
	Lines, Width int
	// Places holds, line by line, which of the different contents stands at each place; a line may be shorter than others or nil.
	Places [][]ID
	*contents
	// side is the grid on its side, nil until it is asked for.
	side *Grid
	// origin leads from a cell of a merged range, but its first, to the first.
	origin map[sheet.Ref]sheet.Ref
	// virtual leads from a column that was added for one size of a composite column to that column; next is the number of
	// the next one.
	virtual map[int]int
	next    int
	// span is the merged range that begins at a cell.
	span map[sheet.Ref]sheet.Range
	// arranged says where the places of a grid are that gives a line to each part, nil where they are as on the sheet.
	arranged *arrangement
}

// New cleans the text of a sheet. Lines and columns beyond the last content are left out.
func New(s *sheet.Sheet) *Grid {
	g := &Grid{Sheet: s, contents: newContents(), origin: map[sheet.Ref]sheet.Ref{}, span: map[sheet.Ref]sheet.Range{}}
	g.Places = make([][]ID, len(s.Rows))
	cells := 0
	for _, row := range s.Rows {
		cells += len(row)
	}
	slab, known := make([]ID, 0, cells), seen.Cells[*sheet.Cell, ID]{}
	for i, row := range s.Rows {
		start, content := len(slab), false
		for j, cell := range row {
			if cell == sheet.BlankCell {
				slab = append(slab, Nothing)
				continue
			}
			id := known.Find(j, cell)
			if id == Nothing {
				if id = g.contentOf(cell); id == Nothing {
					slab = append(slab, Nothing)
					continue
				}
				known.Keep(j, cell, id)
			}
			content = true
			if j >= g.Width && g.fills(id) {
				g.Width = j + 1
			}
			slab = append(slab, id)
		}
		if content {
			// A cell with nothing to see in it is content all the same: its row is counted.
			g.Lines = i + 1
			g.Places[i] = slab[start:len(slab):len(slab)]
		} else {
			slab = slab[:start]
		}
	}
	g.Places = g.Places[:g.Lines]
	for _, m := range s.Merges {
		g.addMerge(m)
	}
	return g
}

// contentOf makes the content of a cell, Nothing of one that is blank.
func (g *Grid) contentOf(cell *sheet.Cell) ID {
	if cell.Kind == sheet.Blank && cell.Formula == "" {
		return Nothing
	}
	return g.add(content{text: cellText(cell), from: cell})
}

// addMerge records a merged range as far as there is content in the sheet.
func (g *Grid) addMerge(m sheet.Range) {
	if m.From == m.To {
		return
	}
	m.To.Row, m.To.Col = min(m.To.Row, g.Lines), min(m.To.Col, max(g.Width, m.From.Col))
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

// Turn returns the grid on its side: columns become lines.
func (g *Grid) Turn() *Grid {
	if g.side != nil {
		return g.side
	}
	t := &Grid{Sheet: g.Sheet, contents: g.contents, Turned: !g.Turned, Lines: g.Width, Width: g.Lines, origin: g.origin, span: g.span}
	t.Places = make([][]ID, t.Lines)
	slab := make([]ID, t.Lines*t.Width)
	for line := range t.Places {
		t.Places[line] = slab[line*t.Width : (line+1)*t.Width]
		for col := range t.Places[line] {
			t.Places[line][col] = g.Id(col+1, line+1)
		}
	}
	g.side, t.side = t, g
	return t
}

// Ref returns the place in the sheet of a line and column of the grid.
func (g *Grid) Ref(line, col int) sheet.Ref {
	if g.Turned {
		return sheet.Ref{Row: col, Col: line}
	}
	if real, added := g.virtual[col]; added {
		col = real
	}
	if g.arranged != nil {
		return g.arranged.ref(line, col)
	}
	return sheet.Ref{Row: line, Col: col}
}

// Place is the opposite of ref.
func (g *Grid) Place(r sheet.Ref) (line, col int) {
	if g.Turned {
		return r.Col, r.Row
	}
	return r.Row, r.Col
}

// Cell returns the cell of the sheet at a line and column.
func (g *Grid) Cell(line, col int) sheet.Cell { return g.CellOf(g.Id(line, col)) }

// Id returns which content stands at a line and column itself, nothing for the covered cells of a merged range.
func (g *Grid) Id(line, col int) ID {
	if line < 1 || line > len(g.Places) || col < 1 || col > len(g.Places[line-1]) {
		return Nothing
	}
	return g.Places[line-1][col-1]
}

// At returns the cleaned text of a cell itself, empty for the covered cells of a merged range.
func (g *Grid) At(line, col int) string { return g.Text(g.Id(line, col)) }

// Row returns what stands in a line from one column to another, as far as there is anything.
func (g *Grid) Row(line, from, to int) []ID {
	if line < 1 || line > len(g.Places) {
		return nil
	}
	row := g.Places[line-1]
	from, to = max(from-1, 0), min(to, len(row))
	if from >= to {
		return nil
	}
	return row[from:to]
}

// Source returns where the value of a cell stands: its own place, or the first cell of the merged range that covers it.
func (g *Grid) Source(line, col int) (int, int) {
	if len(g.origin) == 0 || g.virtual[col] > 0 {
		return line, col
	}
	if first, covered := g.origin[g.Ref(line, col)]; covered {
		return g.Place(first)
	}
	return line, col
}

// Filled returns the text that a person sees at a cell, merged ranges filled with their value.
func (g *Grid) Filled(line, col int) string { return g.At(g.Source(line, col)) }

// Merged returns how far the merged range that holds a cell reaches, the cell alone where it is not merged.
func (g *Grid) Merged(line, col int) (fromLine, fromCol, toLine, toCol int) {
	fromLine, fromCol = g.Source(line, col)
	m, found := g.span[g.Ref(fromLine, fromCol)]
	if !found {
		return line, col, line, col
	}
	toLine, toCol = g.Place(m.To)
	return fromLine, fromCol, toLine, toCol
}

// BlankLine reports whether a line has no content between two columns.
func (g *Grid) BlankLine(line, from, to int) bool {
	for _, id := range g.Row(line, from, to) {
		if id != Nothing && g.fills(id) {
			return false
		}
	}
	return true
}

// StruckIn reports whether something is struck out as a whole in a line between two columns.
func (g *Grid) StruckIn(line, from, to int) bool {
	if len(g.Sheet.Struck) == 0 {
		return false
	}
	for _, id := range g.Row(line, from, to) {
		if g.CellOf(id).Kind == sheet.Struck {
			return true
		}
	}
	return false
}

// ColumnName is how findings and mapping files call a column: letters, the row number in a turned grid, or in
// an arranged one the cell of the heading.
func (g *Grid) ColumnName(col int) string {
	if g.Turned {
		return strconv.Itoa(col)
	}
	if real, added := g.virtual[col]; added {
		col = real
	}
	if g.arranged != nil {
		return g.arranged.columns[col-1].Name
	}
	return sheet.ColumnName(col)
}

// cellText returns the text of a cell as the reader uses it. A number is its stored value, rounded to the fifteen
// digits that a spreadsheet program keeps, and not what its format shows, which may hide digits.
func cellText(c *sheet.Cell) string {
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

// Explain writes words beside the letters that stand alone in the first line with at least so many of them, and in those that repeat it.
func (g *Grid) Explain(words map[string]string, least int) {
	for line, row := range g.Places {
		seen := map[string]bool{}
		for _, id := range row {
			if _, letter, _ := letterIn(g.Text(id), words); letter != "" {
				seen[letter] = true
			}
		}
		if len(seen) < least {
			continue
		}
		drawn := slices.Clone(row)
		for i, id := range row {
			if before, letter, behind := letterIn(g.Text(id), words); letter != "" {
				row[i] = g.retold(id, before+words[letter]+behind+" ["+letter+"]")
			}
		}
		for _, again := range g.Places[line+1:] { // the heading of another page
			if slices.Equal(again, drawn) {
				copy(again, row)
			}
		}
		return
	}
}

// letterIn returns the one of some letters that a heading is, with the sign of a diameter that may stand before it and what may stand in brackets
// behind; empty where it is none: "B", "Ø B", "A (min–max)".
func letterIn(text string, words map[string]string) (before, letter, behind string) {
	if words[text] != "" {
		return "", text, ""
	}
	rest := strings.TrimSpace(strings.TrimLeft(text, diameterSigns))
	if rest != text {
		before = "Ø "
	}
	if at := strings.IndexAny(rest, "([（"); at > 0 && strings.ContainsAny(rest[len(rest)-1:], ")]") || at > 0 && strings.HasSuffix(rest, "）") {
		rest, behind = strings.TrimSpace(rest[:at]), " "+rest[at:]
	}
	if words[rest] == "" {
		return "", "", ""
	}
	return before, rest, behind
}

// diameterSigns are the signs of a diameter.
const diameterSigns = "Øø⌀∅"

// Behind writes a text behind that of a cell, with a stroke between where it goes on with what was written there before.
func (g *Grid) Behind(line, col int, text string, goesOn bool) {
	between := " "
	if goesOn {
		between = "/"
	}
	row := g.Places[line-1]
	row[col-1] = g.retold(row[col-1], g.Text(row[col-1])+between+text)
}

// Retell writes a text in the place of that of a cell, which stands for it.
func (g *Grid) Retell(line, col int, text string) {
	row := g.Places[line-1]
	row[col-1] = g.retold(row[col-1], text)
}

// AddVirtual adds a column for each size of a composite column, filled in the lines of the body with the pieces of its texts, and
// returns their numbers.
func (g *Grid) AddVirtual(col, count, from, to int, pieces func(text string) []string) []int {
	if g.virtual == nil {
		g.virtual = map[int]int{}
		g.next = g.Width + 1
	}
	var added []int
	for range count {
		g.virtual[g.next] = col
		added = append(added, g.next)
		g.next++
	}
	known := map[ID][]ID{}
	for line := from; line <= to; line++ {
		whole := g.Id(line, col)
		if known[whole] == nil {
			known[whole] = g.divide(whole, pieces)
		}
		for len(g.Places[line-1]) < added[count-1] {
			g.Places[line-1] = append(g.Places[line-1], Nothing)
		}
		copy(g.Places[line-1][added[0]-1:], known[whole])
	}
	return added
}

// divide makes the contents that stand for each piece of one.
func (g *Grid) divide(whole ID, pieces func(text string) []string) []ID {
	var ids []ID
	for _, piece := range pieces(g.Text(whole)) {
		ids = append(ids, g.retold(whole, piece))
	}
	return ids
}
