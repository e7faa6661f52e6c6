package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/sheet"
)

// A cross table has one size going down, another across, and in its field the numbers of the parts that have both; a third size may stand
// in the title. One of the sides may be the tips that the parts are for, which say themselves what they are. Each column of the field is read
// as a table, with columns for the part number, the size of the line, that of the column and those of the title, so that a row of it has
// one part.

// crossed is a cross table as it was found.
type crossed struct {
	g *grid.Grid
	// head is the line of the sizes across, which stand in the columns; first and last are the lines of the field, and down is the column
	// of their sizes.
	head, first, last, down int
	columns                 []int
	// from is the first line that belongs to it.
	from int
}

// axis is what one side of a cross table gives: its heading, where that stands, and what is said of each of its sizes. Taken is set where
// its sizes, and no words, say that they are those of tips.
type axis struct {
	label string
	at    sheet.Ref
	role  catalog.Role
	taken bool
}

const (
	// crossProbe is how many lines are looked at for the beginning of a cross table.
	crossProbe = 60
	// widestCross is how many columns a sheet of cross tables may have, and tallestCross how many lines the field of one.
	widestCross  = 60
	tallestCross = 300
	// mostCrossed bounds what the tables of the columns hold: their number times the lines of the sheet.
	mostCrossed = 2_000_000
	// linesAbove is how many lines above the sizes across may say what they are.
	linesAbove = 5
	// mostAbove is how many cells a line above them has that says something of them.
	mostAbove = 2
	// leastDigits is how many digits a part number of the field has where it has nothing else, and neither prices nor stock have as a rule.
	leastDigits = 5
	// leastCrossed is how many part numbers the field has at least.
	leastCrossed = 3
)

// crossTables finds the cross tables of a sheet.
func crossTables(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	if g.Width > widestCross || g.Width < 3 {
		return nil
	}
	var found []Region
	floor := 1
	for line, probed := 1, 0; line < g.Lines && probed < crossProbe; line++ {
		if g.BlankLine(line, 1, g.Width) {
			continue
		}
		probed++
		x := crossAt(g, lex, line, floor)
		if x == nil {
			continue
		}
		if regions := x.regions(lex); regions != nil {
			if (len(found)+len(regions))*g.Lines > mostCrossed {
				return nil
			}
			found = append(found, regions...)
			line, floor, probed = x.last, x.last+1, 0
		}
	}
	return found
}

// crossAt returns the cross table whose sizes across stand in a line, nil where there is none.
func crossAt(g *grid.Grid, lex *lexicon.Lexicon, line, floor int) *crossed {
	x := &crossed{g: g, head: line, first: line + 1}
	seen := map[string]bool{}
	for i, id := range g.Row(line, 1, g.Width) {
		text := g.Text(id)
		switch {
		case text == "":
		case isSize(lex, text):
			if seen[text] {
				return nil
			}
			seen[text] = true
			x.columns = append(x.columns, i+1)
		case len(x.columns) > 0:
			return nil
		}
	}
	if len(x.columns) < 2 || x.columns[0] < 2 {
		return nil
	}
	for col := x.columns[0] - 1; col >= 1 && x.down == 0; col-- {
		if g.At(x.first, col) != "" {
			x.down = col
		}
	}
	if x.down == 0 || isSize(lex, g.At(line, x.down)) {
		return nil
	}
	seen = map[string]bool{}
	for x.last = line; x.last < g.Lines; x.last++ {
		text := g.At(x.last+1, x.down)
		if !isSize(lex, text) || seen[text] || len(g.Row(x.last+1, x.columns[len(x.columns)-1]+1, g.Width)) > 0 && !g.BlankLine(x.last+1, x.columns[len(x.columns)-1]+1, g.Width) {
			break
		}
		if seen[text] = true; len(seen) > tallestCross {
			return nil
		}
	}
	if x.last < x.first+1 {
		return nil
	}
	for x.from = line; x.from > floor && line-x.from < linesAbove && countCells(g, x.from-1, span{left: 1, right: g.Width}) <= mostAbove; {
		x.from--
	}
	return x
}

// isSize reports whether a text is one size, with words beside it at most.
func isSize(lex *lexicon.Lexicon, text string) bool {
	_, ok := sizeOf(lex, text)
	return ok
}

// sizeOf returns the size of a text without the words that name it: "内径 8.85 mm".
func sizeOf(lex *lexicon.Lexicon, text string) (string, bool) {
	if text == "" || len(text) > 40 || !strings.ContainsFunc(text, unicode.IsNumber) {
		return "", false
	}
	if named := sizesIn(lex, text, false); len(named) == 1 {
		return named[0].text, true
	}
	switch reading := lex.Read(text, value.Context{Want: value.WantDiameter}); reading.Kind {
	case value.Length, value.Number:
		return text, true
	}
	return "", false
}

// isCode reports whether a text of the field is a part number and no value.
func isCode(lex *lexicon.Lexicon, text string) bool {
	return lexicon.LooksLikeCode(text) && strings.ContainsFunc(text, unicode.IsLetter) && strings.ContainsFunc(text, unicode.IsNumber) && !isSize(lex, text)
}

// isNone reports whether a text of the field says that there is no such part.
func isNone(lex *lexicon.Lexicon, text string) bool {
	if strings.Trim(text, "-–—/.xX×* ") == "" {
		return true
	}
	_, none := lex.Ask("not applicable", text, lex.Words.IsNotApplicable)
	return none
}

// regions returns a table for each column of the field; nil where it holds no part numbers, or it is not known what goes down and across.
func (x *crossed) regions(lex *lexicon.Lexicon) []Region {
	codes, numbers := 0, 0
	plain := map[string]bool{} // those of digits alone, as many in each as in the first
	for line := x.first; line <= x.last; line++ {
		for _, col := range x.columns {
			switch text := x.g.At(line, col); {
			case text == "" || isNone(lex, text):
			case isCode(lex, text):
				codes++
			case lexicon.LooksNumeric(text):
				if numbers++; len(text) >= leastDigits && lexicon.IsDigits(text) {
					plain[text] = true
				}
			default:
				return nil
			}
		}
	}
	if codes+numbers < leastCrossed || codes > 0 && numbers > 0 {
		return nil
	}
	down, across := x.axes(lex)
	if down.role == "" || across.role == "" || down.role == across.role {
		return nil
	}
	if codes == 0 && !(len(plain) == numbers && sameLength(plain)) {
		return []Region{x.withoutParts(down, across)}
	}
	titles := x.titleSizes(lex, down, across)
	var tables []Region
	for i, col := range x.columns {
		if r, ok := x.region(lex, col, down, across, titles); ok {
			if r.Second = i > 0 && len(tables) > 0; !r.Second {
				r.From = x.from
			}
			tables = append(tables, r)
		}
	}
	return tables
}

// sameLength reports whether texts are all of one length.
func sameLength(texts map[string]bool) bool {
	length := 0
	for text := range texts {
		if length > 0 && len(text) != length {
			return false
		}
		length = len(text)
	}
	return true
}

// axes returns what goes down and what across: the sizes say it themselves, or the margins or the corner do.
func (x *crossed) axes(lex *lexicon.Lexicon) (down, across axis) {
	var lines []sheet.Ref
	for line := x.first; line <= x.last; line++ {
		lines = append(lines, x.g.Ref(line, x.down))
	}
	var columns []sheet.Ref
	for _, col := range x.columns {
		columns = append(columns, x.g.Ref(x.head, col))
	}
	down, across = x.named(lex, lines), x.named(lex, columns)
	for col := x.down - 1; col >= 1 && down.role == ""; col-- {
		for line := x.first; line <= x.last && down.role == ""; line++ {
			down = x.axisAt(lex, line, col)
		}
	}
	for line := x.head; line >= max(x.from, x.head-2); line-- {
		if line < x.head && x.headed(line) > 1 {
			break // a heading for each column
		}
		for col := 1; col <= x.g.Width; col++ {
			text := x.g.At(line, col)
			if text == "" || line == x.head && col >= x.columns[0] || isSize(lex, text) {
				continue
			}
			if first, second := cutCorner(lex, text); first != "" && down.role == "" && across.role == "" {
				down, across = x.corner(lex, first, second, strings.Contains(text, `\`), x.g.Ref(line, col), lines, columns)
				continue
			}
			switch {
			case col >= x.columns[0] && across.role == "":
				across = x.axisAt(lex, line, col)
			case col == x.down && down.role == "":
				down = x.axisAt(lex, line, col)
			}
		}
	}
	switch {
	case across.role == "" && down.role != "":
		across = x.tips(lex, columns)
	case down.role == "" && across.role != "":
		down = x.tips(lex, lines)
	}
	return down, across
}

// tipLabel is a heading in which the vocabulary finds the tip.
const tipLabel = "tip"

// tips returns the side whose sizes are all those of tips, with a form or a word for a tip beside them or bare in inches, and each another one.
func (x *crossed) tips(lex *lexicon.Lexicon, cells []sheet.Ref) axis {
	a := axis{label: tipLabel, at: cells[0], role: catalog.TipTaken}
	seen := map[fitcalc.TipSize]bool{}
	for _, at := range cells {
		text := x.g.At(x.g.Place(at))
		bare := isBare(text)
		found, _ := lex.TipsIn(text, !bare)
		if len(found) != 1 || seen[found[0]] {
			return axis{}
		}
		seen[found[0]] = true
		a.taken = a.taken || bare
	}
	return a
}

// headed counts the texts of a line that stand over the sizes across.
func (x *crossed) headed(line int) int {
	return countCells(x.g, line, span{left: x.columns[0], right: x.g.Width})
}

// axisAt returns what a cell says of a side.
func (x *crossed) axisAt(lex *lexicon.Lexicon, line, col int) axis {
	text := x.g.At(line, col)
	role, score := roleOfLabel(lex, text)
	if text == "" || score < lexicon.HeadingScore || traits.Of[role].Want != traits.Length {
		return axis{}
	}
	return axis{label: text, at: x.g.Ref(line, col), role: role}
}

// named returns the name that stands with every size of a side.
func (x *crossed) named(lex *lexicon.Lexicon, cells []sheet.Ref) axis {
	var a axis
	for _, at := range cells {
		named := sizesIn(lex, x.g.At(x.g.Place(at)), false)
		if len(named) != 1 || a.role != "" && catalog.Role(named[0].role) != a.role {
			return axis{}
		}
		if a.role == "" {
			a = axis{label: named[0].name, at: at, role: catalog.Role(named[0].role)}
		}
	}
	return a
}

// cornerSigns stand between the two names in the corner of a cross table.
const cornerSigns = `\/|×↓→`

// cutCorner cuts the text of a corner into the names of two sizes.
func cutCorner(lex *lexicon.Lexicon, text string) (first, second string) {
	at := strings.IndexAny(text, cornerSigns)
	if at <= 0 {
		return "", ""
	}
	first, second = strings.Trim(text[:at], " "+cornerSigns), strings.Trim(text[at:], " "+cornerSigns)
	for _, name := range []string{first, second} {
		role, score := roleOfLabel(lex, name)
		if name == "" || score < lexicon.HeadingScore || traits.Of[role].Want != traits.Length {
			return "", ""
		}
	}
	return first, second
}

// corner says which of two names in a corner goes down: the one whose sizes the lines can be, and where both could be, the first before
// a stroke that leans back. Otherwise nobody can know.
func (x *crossed) corner(lex *lexicon.Lexicon, first, second string, leansBack bool, at sheet.Ref, lines, columns []sheet.Ref) (down, across axis) {
	straight := x.possible(lex, first, lines) && x.possible(lex, second, columns)
	exchanged := x.possible(lex, second, lines) && x.possible(lex, first, columns)
	switch {
	case straight && (!exchanged || leansBack):
	case exchanged && !straight:
		first, second = second, first
	default:
		return axis{}, axis{}
	}
	a, _ := roleOfLabel(lex, first)
	b, _ := roleOfLabel(lex, second)
	return axis{label: first, at: at, role: a}, axis{label: second, at: at, role: b}
}

// possible reports whether the sizes in some cells can be what a label says, in a part of some kind.
func (x *crossed) possible(lex *lexicon.Lexicon, label string, cells []sheet.Ref) bool {
	for _, kind := range []catalog.Kind{catalog.Ferrules, catalog.Heads} {
		found := lex.MatchIn(kind, label)
		if len(found) == 0 {
			continue
		}
		b, known := traits.BoundsOf(kind, catalog.Role(found[0].Role))
		for _, unit := range []string{"mm", "in", "thou"} {
			fits := known
			for _, at := range cells {
				text, _ := sizeOf(lex, x.g.At(x.g.Place(at)))
				reading := lex.Read(text, value.Context{Want: value.WantDiameter, Unit: unit})
				fits = fits && reading.Kind == value.Length && b.Possible(traits.MM(reading.Dim.Nominal()))
			}
			if fits {
				return true
			}
		}
	}
	return false
}

// titleSize is a size that a title gives for all parts of a cross table.
type titleSize struct {
	axis
	text string
}

// titleSizes returns the sizes, other than those of the sides, that the texts above give by name.
func (x *crossed) titleSizes(lex *lexicon.Lexicon, down, across axis) []titleSize {
	var sizes []titleSize
	given := map[catalog.Role]bool{down.role: true, across.role: true}
	for line := x.head - 1; line >= max(x.from, x.head-linesAbove); line-- {
		for i, id := range x.g.Row(line, 1, x.g.Width) {
			for _, s := range sizesOfTitle(lex, x.g.Text(id)) {
				if role := catalog.Role(s.role); !given[role] {
					given[role] = true
					sizes = append(sizes, titleSize{axis{label: s.name, at: x.g.Ref(line, i+1), role: role}, s.text})
				}
			}
		}
	}
	return sizes
}

// sizesOfTitle returns the sizes of a text with the names before them, and where it has none, those whose names follow: "all 1.00 in long".
func sizesOfTitle(lex *lexicon.Lexicon, text string) []sizeIn {
	if named := sizesIn(lex, text, false); len(named) > 0 {
		return named
	}
	var named []sizeIn
	for _, sentence := range sentences(text) {
		for _, s := range sizesIn(lex, sentence, true) {
			if s.possible(lex) && hasUnit(s.text) {
				named = append(named, s)
			}
		}
	}
	return named
}

// region makes the table of one column of the field; it reports false where that has no part number.
func (x *crossed) region(lex *lexicon.Lexicon, col int, down, across axis, titles []titleSize) (Region, bool) {
	head := x.g.Ref(x.head, col)
	columns := []grid.ArrangedColumn{{Name: sheet.ColumnName(col), At: head}, {Name: sheet.ColumnName(x.down), At: down.at}, {Name: head.String(), At: across.at}}
	headings := []Heading{{Col: 1, Parts: []string{"part number"}, Text: "part number"}, {Col: 2, Parts: []string{down.label}, Text: down.label}, {Col: 3, Parts: []string{across.label}, Text: across.label, Beside: x.sizesBeside(lex, col)}}
	headings[1].takenBeside(down, across)
	headings[2].takenBeside(across, down)
	var constant []grid.Piece
	size, _ := sizeOf(lex, x.g.At(x.head, col))
	constant = append(constant, grid.Piece{Text: size, At: head})
	for _, title := range titles {
		columns = append(columns, grid.ArrangedColumn{Name: title.at.String(), At: title.at})
		headings = append(headings, Heading{Col: len(columns), Parts: []string{title.label}, Text: title.label})
		constant = append(constant, grid.Piece{Text: title.text, At: title.at})
	}
	var parts []grid.ArrangedPart
	for line := x.first; line <= x.last; line++ {
		text := x.g.At(line, col)
		if text == "" || isNone(lex, text) {
			continue
		}
		size, _ := sizeOf(lex, x.g.At(line, x.down))
		pieces := append([]grid.Piece{{Text: text, At: x.g.Ref(line, col)}, {Text: size, At: x.g.Ref(line, x.down)}}, constant...)
		parts = append(parts, grid.ArrangedPart{Line: line, Pieces: pieces})
	}
	if len(parts) == 0 {
		return Region{}, false
	}
	var above []sheet.Ref
	for _, title := range titles {
		above = append(above, title.at)
	}
	return Region{
		Above: above, Grid: x.g.Arrange(columns, parts, x.margins(col)), Drawn: x.g, From: x.head, To: x.last, Left: 1, Right: len(columns), Body: parts[0].Line, Columns: headings,
		Aside: map[int]string{}, area: sheet.Range{From: sheet.Ref{Row: x.from, Col: col}, To: sheet.Ref{Row: x.last, Col: col}},
	}, true
}

// takenBeside says of the column of one side what that was taken for, beside the other.
func (h *Heading) takenBeside(side, other axis) {
	if side.taken {
		h.Order, h.Inferred = fmt.Sprintf("the sizes beside those of %q, which nothing names, taken for the tips that the parts are for", other.label), true
	}
}

// sizesBeside are the sizes across but for that of one column.
func (x *crossed) sizesBeside(lex *lexicon.Lexicon, col int) []string {
	var sizes []string
	for _, other := range x.columns {
		if size, ok := sizeOf(lex, x.g.At(x.head, other)); ok && other != col {
			sizes = append(sizes, size)
		}
	}
	return sizes
}

// margins are the cells of the sides and the corner, which say nothing of anything else, and the one column.
func (x *crossed) margins(col int) []sheet.Ref {
	var cells []sheet.Ref
	for line := x.head; line <= x.last; line++ {
		for c := 1; c <= x.g.Width; c++ {
			if c < x.columns[0] || line == x.head || c == col {
				cells = append(cells, sheet.Ref{Row: line, Col: c})
			}
		}
	}
	return cells
}

// withoutParts is a cross table whose field has prices or stock, and no part numbers.
func (x *crossed) withoutParts(down, across axis) Region {
	r := Region{
		Grid: x.g, From: x.from, To: x.last, Left: 1, Right: x.g.Width, Headings: []int{x.head}, Body: x.first, Aside: map[int]string{},
		NoParts: fmt.Sprintf("a table of %q across and %q down has no part numbers in its field; what the numbers are for cannot be ordered, and none is read", across.label, down.label),
	}
	for col := 1; col <= x.g.Width; col++ {
		r.Columns = append(r.Columns, Heading{Col: col, Text: x.g.At(x.head, col), Parts: slices.DeleteFunc([]string{x.g.At(x.head, col)}, func(s string) bool { return s == "" })})
	}
	return r
}
