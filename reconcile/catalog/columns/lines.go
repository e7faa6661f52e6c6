package columns

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// LineKind is what a line of a table is.
type LineKind uint8

const (
	LineBlank LineKind = iota
	// lineTitle is a line above the heading.
	lineTitle
	lineHeading
	lineRepeated
	// linePage is a title of a page within the body.
	linePage
	LineUnits
	LineTotal
	// LineSection is a line within the body that names what follows.
	LineSection
	// LineNote is a line of text within the body, or below it, that says something of parts.
	LineNote
	// lineNumbers is a line that numbers the columns: (1) (2) (3).
	lineNumbers
	// LineGoods is a line of goods that are no parts: shim sleeves among ferrules.
	LineGoods
	// LineElsewhere is a line of data that another table of the same list has.
	LineElsewhere
	// LineInside is a line with what belongs to a part that is accounted for by another line: a card has several.
	LineInside
	// lineDeviations is a line with the deviations of the sizes above it.
	lineDeviations
	// lineLegend is a line that says what a letter of the headings stands for, which these say since.
	lineLegend
	// lineDropped is a line that the mapping file sets aside.
	lineDropped
	// LineStruck is a line that is struck out, or its part number is.
	LineStruck
	LineData
)

// Why says why a line is set aside.
func (k LineKind) Why() string {
	return [...]string{"blank", "title", "heading", layout.RepeatedHeading, layout.PageTitle, "units", "total", "section title", "note", layout.ColumnNumbers, "other goods", "of another kind", "of a part that another row accounts for", layout.Deviations, layout.ExplainsHeading, "set aside by the mapping file", "struck out", ""}[k]
}

// classify says what each line of a table is; the lines begin with the table's first.
func (t *Table) classify() []LineKind {
	r := t.Region
	kinds := make([]LineKind, r.To-r.From+1)
	for line := r.From; line <= r.To; line++ {
		kinds[line-r.From] = t.lineKind(line)
	}
	for _, line := range r.Headings {
		kinds[line-r.From] = lineHeading
	}
	t.dropGroupMeans(kinds)
	return kinds
}

func (t *Table) lineKind(line int) LineKind {
	r := t.Region
	switch {
	case t.RowRule(line).SetAside:
		return lineDropped
	case r.Elsewhere[line]:
		return LineElsewhere
	case r.Grid.BlankLine(line, r.Left, r.Right):
		if r.Grid.StruckIn(line, r.Left, r.Right) {
			return LineStruck
		}
		return t.withoutPart(line)
	case line < r.Body:
		return lineTitle
	case t.partIsStruck(line):
		return LineStruck
	case r.Aside[line] == layout.ColumnNumbers:
		return lineNumbers
	case r.Aside[line] == layout.Deviations:
		return lineDeviations
	case r.Aside[line] == layout.ExplainsHeading:
		return lineLegend
	case r.Aside[line] == layout.PageTitle:
		return linePage
	case r.Aside[line] != "":
		return lineRepeated
	}
	return t.bodyLine(line)
}

// IsStruck reports whether a cell stands in a line that is set aside because it is struck out.
func (t *Table) IsStruck(ref sheet.Ref) bool {
	r := t.Region
	line, col := r.Grid.Place(ref)
	return line >= r.From && line <= r.To && col >= r.Left && col <= r.Right && t.Lines[line-r.From] == LineStruck
}

// partIsStruck reports whether the part number of a line is struck out.
func (t *Table) partIsStruck(line int) bool {
	c := t.ByRole[catalog.Part]
	return c != nil && t.Region.Grid.StruckIn(line, c.Col, c.Col)
}

// withoutPart says what a line is that has no cell of the table.
func (t *Table) withoutPart(line int) LineKind {
	r := t.Region
	switch {
	case !r.Grid.Arranged() || r.Drawn.BlankLine(line, 1, r.Drawn.Width):
		return LineBlank
	case r.Grid.TakesOf(line):
		return LineInside
	case line < r.Body:
		return lineTitle
	}
	return t.betweenCards(line)
}

// betweenCards tells a title between cards, which is a text by itself, from what else stands there. What stands beside a card may be about
// one of several next to each other, and is no title of those below.
func (t *Table) betweenCards(line int) LineKind {
	drawn := t.Region.Drawn
	alone := grid.Nothing
	for _, id := range drawn.Row(line, 1, drawn.Width) {
		switch {
		case drawn.Text(id) == "":
		case alone != grid.Nothing:
			return LineNote
		default:
			alone = id
		}
	}
	if _, isNote := t.Lex.Ask("note", drawn.Text(alone), t.Lex.Words.IsNote); isNote || drawn.Is(lexicon.AsValue, t.Lex, alone) {
		return LineNote
	}
	return LineSection
}

// bodyLine tells data from the lines that stand between and below data. A line with sizes where sizes belong is data,
// unless it is a sum; a line without them is data where it has a part number that looks like one.
func (t *Table) bodyLine(line int) LineKind {
	cells, sizes, first, wide := t.countLine(line)
	if !t.isPart(first) {
		if _, isTotal := t.Lex.Ask("total", first, t.Lex.Words.IsTotal); isTotal {
			return LineTotal
		}
	}
	if sizes > 0 && t.isStatistic(line) {
		return LineTotal
	}
	if t.Region.Others[line] || t.namesGoods(line) {
		return LineGoods
	}
	if sizes > 0 && !t.onlyTolerances(line) {
		return LineData
	}
	if layout.SaysColours(t.Lex, t.Region, line) {
		return LineNote
	}
	if t.OnlyUnits(line) {
		return LineUnits
	}
	part := t.TextOf(line, catalog.Part)
	if _, isNote := t.Lex.Ask("note", first, t.Lex.Words.IsNote); isNote && !(lexicon.LooksLikeCode(part) && cells > 1) && !(cells == 1 && t.isMarkedTitle(line, first)) {
		return LineNote
	}
	if cells == 1 || wide {
		if part != "" && part == first && !wide && t.partShapes()[shape(part)] {
			return LineData
		}
		return LineSection
	}
	if part == "" || t.namesNoPart(line, part) {
		return LineNote
	}
	return LineData
}

// isMarkedTitle reports whether a text that begins like a footnote is the title of the rows below it: "* Irons (.370)", "1) Woods .335". It says for which
// tip and at most for which kind of club they are, and nothing in the table bears its mark.
func (t *Table) isMarkedTitle(line int, text string) bool {
	mark, text := layout.CutMark(text)
	if mark == "" || line == t.Region.To {
		return false
	}
	if _, sizes, _, _ := t.countLine(line + 1); sizes == 0 {
		return false
	}
	tips, saying := t.Lex.TipsIn(text, false)
	if len(tips) == 0 {
		return false
	}
	for word := range strings.FieldsFuncSeq(strings.Replace(text, saying, " ", 1), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) }) {
		_, isFor := t.Lex.Words.Mark(word, "fits")
		if kind, named := t.Lex.Category(word); !isFor && (!named || kind.Score < leastInTitle) {
			return false
		}
	}
	return !slices.ContainsFunc(t.Columns, func(c *Column) bool {
		bears := func(text string) bool { return layout.Bears(text, mark) }
		return bears(c.Text) || slices.ContainsFunc(c.Profile.Texts, bears)
	})
}

// leastInTitle is how surely each other word of a marked title has to mean a kind of club.
const leastInTitle = 0.7

// onlyTolerances reports whether the line is one below the headings with their tolerances: the first, without a part number, and no size in it
// is more than a deviation.
func (t *Table) onlyTolerances(line int) bool {
	g := t.Region.Grid
	return line == t.Region.Body && t.TextOf(line, catalog.Part) == "" && !slices.ContainsFunc(t.measured(), func(c *Column) bool {
		id := g.Id(line, c.Col)
		return g.CellOf(id).Kind == sheet.Error || g.Is(lexicon.AsNumber, t.Lex, id) && !layout.IsDeviation(g.Text(id))
	})
}

// namesGoods reports whether a line is of goods that no joint has. Some of them have the sizes of a ferrule, none those of a head.
func (t *Table) namesGoods(line int) bool {
	switch t.Kind {
	case catalog.Ferrules:
	case catalog.Heads:
		if t.TextOf(line, catalog.HoselOD) != "" {
			return false
		}
	default:
		return false
	}
	if len(t.RowRule(line).Values) > 0 {
		return false
	}
	sized := t.TextOf(line, catalog.Bore) != "" && t.TextOf(line, catalog.BoreDepth) != "" || slices.ContainsFunc(traits.Needed[t.Kind], func(role catalog.Role) bool {
		return t.TextOf(line, role) != ""
	})
	found := false
	for _, role := range [...]catalog.Role{catalog.Description, catalog.Category, catalog.Style} {
		text := t.TextOf(line, role)
		if text == "" {
			continue
		}
		if _, accessory := t.Lex.Ask("accessory", text, t.Lex.Words.Accessory); !sized && accessory {
			found = true
		} else if _, goods := t.Lex.Ask("goods", text, t.Lex.Words.OtherGoods); goods {
			found = true
		} else if kind, named := t.Lex.Ask("kind", text, t.Lex.Words.Kind); named && kind.Value == t.Kind.String() {
			return false
		}
	}
	return found
}

// partShapes returns the shapes of the part numbers that stand in lines with other cells.
func (t *Table) partShapes() map[string]bool {
	if t.shapes != nil {
		return t.shapes
	}
	t.shapes = map[string]bool{}
	c := t.ByRole[catalog.Part]
	if c == nil {
		return t.shapes
	}
	for _, line := range t.Region.SampleLines() {
		if text := t.Region.Grid.At(line, c.Col); text != "" {
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
func (t *Table) countLine(line int) (cells, sizes int, first string, wide bool) {
	r, g := t.Region, t.Region.Grid
	for i, id := range g.Row(line, r.Left, r.Right) {
		text := g.Text(id)
		if text == "" {
			continue
		}
		cells++
		if first == "" {
			first = text
			_, from, _, to := g.Merged(line, r.Left+i)
			wide = to-from+1 > 1 && (to-from+1)*2 > r.Right-r.Left+1
		}
	}
	for _, c := range t.measured() {
		id := g.Id(line, c.Col)
		if g.Text(id) != "" && (g.Is(lexicon.AsNumber, t.Lex, id) || g.CellOf(id).Kind == sheet.Error) {
			sizes++
		}
	}
	return cells, sizes, first, wide && cells == 1
}

// namesNoPart reports whether words stand in a line without sizes and without a description where nearly all part numbers are of one word:
// "RECORDS LISTED: 8", or the title of another page.
func (t *Table) namesNoPart(line int, part string) bool {
	c := t.ByRole[catalog.Part]
	if !strings.Contains(part, " ") || lexicon.LooksLikeCode(part) || t.TextOf(line, catalog.Description) != "" || c.Profile.Filled == 0 {
		return false
	}
	return c.Profile.share(c.Profile.count(func(text string) bool { return !strings.Contains(text, " ") })) >= mostSingle
}

// mostSingle is the share of part numbers of one word beside which words are none.
const mostSingle = 0.8

// column is a stretch of cells of one column in a formula, on its own sheet.
var column = pattern.Lazy(`(?:^|[^!$A-Za-z0-9])\$?([A-Z]+)\$?([0-9]+):\$?([A-Z]+)\$?([0-9]+)`)

// isStatistic reports whether all sizes of a line are worked out over other lines of their columns: =AVERAGE(C4:C7) in column C.
func (t *Table) isStatistic(line int) bool {
	g, found := t.Region.Grid, false
	for _, c := range t.measured() {
		cell := g.CellOf(g.Id(line, c.Col))
		if cell.Formula == "" {
			if cell.Kind == sheet.Blank {
				continue
			}
			return false // so end nearly all lines
		}
		own := g.ColumnName(c.Col)
		m := column().FindStringSubmatch(cell.Formula)
		if m == nil || m[1] != own || m[3] != own || m[2] == m[4] {
			return false
		}
		found = true
	}
	return found
}

// measured returns the columns of lengths, angles and tapers.
func (t *Table) measured() []*Column {
	if t.sizes == nil {
		t.sizes = []*Column{}
		for _, c := range t.Columns {
			switch c.Trait().Want {
			case traits.Length, traits.Angle, traits.Taper:
				t.sizes = append(t.sizes, c)
			}
		}
	}
	return t.sizes
}

// isPart reports whether a text stands in the column of part numbers and looks like one.
func (t *Table) isPart(text string) bool {
	digits := false
	for _, r := range text {
		digits = digits || r >= '0' && r <= '9'
	}
	return digits && lexicon.LooksLikeCode(text)
}

// TextOf returns the text of a role's column in a line, merged cells filled, empty where there is no such column.
func (t *Table) TextOf(line int, role catalog.Role) string {
	c := t.ByRole[role]
	if c == nil {
		return ""
	}
	return t.Region.Grid.Filled(line, c.Col)
}
