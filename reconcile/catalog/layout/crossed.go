package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/sheet"
)

// A cross table has one size going down, another across, and in its field the numbers of the parts that have both. A third size may stand in
// the title, in a second line across or in a second column down. One of the sides may be the tips that the parts are for, which say themselves
// what they are, or words such as colours. Columns beside the field say something of all parts of a line. Each column of the field is read as
// a table, with columns for the part number, the size of the line, those of the column and of the title and what stands beside, so that a row
// of it has one part.

// crossed is a cross table as it was found.
type crossed struct {
	g *grid.Grid
	// head is the line of the sizes across, which stand in the columns; first and last are the lines of the field, and down is the column
	// of their sizes.
	head, first, last, down int
	columns                 []int
	// names is the line below head that names the part numbers and what stands beside them, zero where there is none.
	names int
	// tiers are the lines above head that have a text for each group of columns, from the top.
	tiers []int
	// beside are other columns that say something of the parts of a line: their top, their price, a second size.
	beside []int
	// behind are the columns without a heading behind those of the field, and words the lines of headings that have words and no sizes.
	behind map[int]int
	words  map[int]bool
	// carried are those of them whose blank cells mean what stands above.
	carried map[int]bool
	// lines are those of the field that have sizes beside it, cells what it has in them, and odd the cells that say something else.
	lines []int
	cells map[sheet.Ref]fieldCell
	odd   []sheet.Ref
	// unsized are the labels of lines and columns with part numbers that are no sizes: these parts are not read.
	unsized []sheet.Ref
	// amounts says why the amounts behind part numbers are what they are, and unsaid that they are not known.
	amounts, unsaid string
	// feet are the lines below the field, or right above it, that say something of the parts of a column: their price.
	feet []foot
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
	// why says from where it is known what the side gives, where its name stands in a sentence.
	why string
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
	// leastCrossed is how many part numbers the field has at least, and fewestOdd how many for each cell that says something else.
	leastCrossed, fewestOdd = 3, 4
)

// crossTables finds the cross tables of a sheet, the tables of groups that share columns, and those whose parts have several lines each.
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
		regions, last := crossedAt(g, lex, line, floor)
		if regions == nil {
			continue
		}
		if (len(found)+len(regions))*g.Lines > mostCrossed {
			return nil
		}
		found = append(found, regions...)
		line, floor, probed = last, last+1, 0
	}
	return found
}

// crossedAt returns the tables of the cross table or of the table of groups whose headings end in a line, or of the one of parts of several lines
// whose headings begin there, and the last line of it; nil where there is none.
func crossedAt(g *grid.Grid, lex *lexicon.Lexicon, line, floor int) (tables []Region, last int) {
	if x := crossAt(g, lex, line, floor); x != nil {
		if tables = x.regions(lex); tables != nil {
			return tables, x.last
		}
	}
	if t := groupedAt(g, lex, line, floor); t != nil {
		return t.regions(lex), t.last
	}
	if t := recordsAt(g, lex, line); t != nil {
		return []Region{t.region(floor)}, t.last
	}
	return nil, 0
}

// crossAt returns the cross table whose sizes across stand in a line, nil where there is none.
func crossAt(g *grid.Grid, lex *lexicon.Lexicon, line, floor int) *crossed {
	x := &crossed{g: g, head: line, first: firstBelow(g, line), behind: map[int]int{}, words: map[int]bool{}}
	again, ok := x.findColumns(lex)
	if !ok {
		if !x.findWords(lex) {
			return nil
		}
		again = false
	}
	if x.namesParts(lex, x.first) && x.first < g.Lines {
		x.names, x.first = x.first, x.first+1
	}
	x.findShoulders(lex)
	if !x.findBehind() {
		return nil
	}
	x.findTiers(lex, floor)
	if again && !x.allDifferent() {
		return nil
	}
	for col := x.columns[0] - 1; col >= 1 && x.down == 0; col-- {
		if isSize(lex, g.At(x.first, col)) || g.At(x.first, col) != "" && !x.headed(col) {
			x.down = col
		}
	}
	if x.down == 0 || isSize(lex, g.At(line, x.down)) || !x.findBeside() {
		return nil
	}
	x.findCarried(lex)
	if !x.findLines(lex) {
		return nil
	}
	x.findFeet(lex)
	x.from = firstAbove(g, x.top(), floor)
	return x
}

// firstAbove returns the first of the lines above headings that say something of all parts.
func firstAbove(g *grid.Grid, top, floor int) int {
	from := top
	for from > floor && top-from < linesAbove && countCells(g, from-1, span{left: 1, right: g.Width}) <= mostAbove {
		from--
	}
	return from
}

// firstBelow returns the first line below a heading that is no title.
func firstBelow(g *grid.Grid, head int) int {
	whole := span{left: 1, right: g.Width}
	if countCells(g, head+1, whole) == 1 && isTitle(firstText(g, head+1, whole)) && countCells(g, head+2, whole) > 1 {
		return head + 2
	}
	return head + 1
}

// namesParts reports whether a line has nothing but headings of part numbers in the columns of the field, and one in the first of them: "Item no."
// below each size.
func (x *crossed) namesParts(lex *lexicon.Lexicon, line int) bool {
	last := x.columns[len(x.columns)-1]
	for col := x.columns[0]; col <= last; col++ {
		text := x.g.At(line, col)
		if text == "" && col > x.columns[0] {
			continue
		}
		role, score := lex.RoleOfLabel(text)
		if role != catalog.Part || score < lexicon.HeadingScore || isCode(lex, text) || !slices.Contains(x.columns, col) {
			return false
		}
	}
	return true
}

// findColumns finds the columns of the sizes across, one at least twice where again is set; it reports false where they are not of a cross table.
func (x *crossed) findColumns(lex *lexicon.Lexicon) (again, ok bool) {
	seen := map[string]bool{}
	ended := false
	for i, id := range x.g.Row(x.head, 1, x.g.Width) {
		text := x.g.Text(id)
		switch {
		case text == "":
		case isSize(lex, text):
			if ended && !x.skip(lex, i+1) {
				return false, false
			}
			ended = false
			again = again || seen[text]
			seen[text] = true
			x.columns = append(x.columns, i+1)
		default:
			ended = len(x.columns) > 0
		}
	}
	return again, len(x.columns) >= 2 && x.columns[0] >= 2
}

// skip leaves out the one column with part numbers between those of sizes up to a column; it reports false where that is not all that stands between them.
func (x *crossed) skip(lex *lexicon.Lexicon, to int) bool {
	col := to - 1
	if x.columns[len(x.columns)-1] != col-1 || !x.overCodes(lex, col) {
		return false
	}
	x.unsized = append(x.unsized, x.g.Ref(x.head, col))
	return true
}

// findWords finds the columns of words across, such as colours, above part numbers.
func (x *crossed) findWords(lex *lexicon.Lexicon) bool {
	x.columns, x.unsized = nil, nil
	for i, id := range x.g.Row(x.head, 1, x.g.Width) {
		if text := x.g.Text(id); isPlainWord(lex, text) && i > 0 && x.overCodes(lex, i+1) {
			x.columns = append(x.columns, i+1)
		}
	}
	x.words[x.head] = true
	n := len(x.columns)
	return n >= 2 && x.columns[n-1]-x.columns[0] < 2*n && !x.repeats(x.head)
}

// repeats reports whether a line has a text twice above the columns of the field.
func (x *crossed) repeats(line int) bool {
	seen := map[string]bool{}
	for _, col := range x.columns {
		text := x.g.At(line, col)
		if seen[text] {
			return true
		}
		seen[text] = true
	}
	return false
}

// isPlainWord reports whether a text may be the name of a colour or the like: it has no digits, and heads nothing.
func isPlainWord(lex *lexicon.Lexicon, text string) bool {
	if text == "" || len(text) > lexicon.LongestLabel || strings.ContainsFunc(text, unicode.IsDigit) || !strings.ContainsFunc(text, unicode.IsLetter) || isNone(lex, text) {
		return false
	}
	_, score := lex.RoleOfLabel(text)
	return score < lexicon.HeadingScore || lex.Words.Shades(text).Only
}

// overCodes reports whether a part number stands in one of the two lines below the headings, and in the other one too, or nothing.
func (x *crossed) overCodes(lex *lexicon.Lexicon, col int) bool {
	codes := 0
	for line := x.first; line < x.first+2; line++ {
		text := x.g.At(line, col)
		if _, ok := cutFieldCell(lex, text); ok {
			codes++
		} else if text != "" && !isNone(lex, text) {
			return false
		}
	}
	return codes > 0
}

// findBehind finds the columns without a heading behind those of the field; it reports false where there are others.
func (x *crossed) findBehind() bool {
	last := x.columns[len(x.columns)-1]
	for col := x.columns[0]; col <= min(last+1, x.g.Width); col++ {
		named := x.names > 0 && x.g.At(x.names, col) != ""
		if slices.Contains(x.columns, col) || x.g.At(x.head, col) != "" || named || x.g.At(x.first, col) == "" && x.g.At(x.first+1, col) == "" {
			continue
		}
		switch {
		case slices.Contains(x.columns, col-1):
			x.behind[col-1] = col
		case col < last:
			return false
		}
	}
	return true
}

// findTiers finds the lines above the sizes across that have a size or tip for each group of columns.
func (x *crossed) findTiers(lex *lexicon.Lexicon, floor int) {
	for line := x.head - 1; line >= floor && x.head-line < longestBlock; line-- {
		switch {
		case x.isTier(line, func(text string) bool { return isSize(lex, text) }):
		case x.isTier(line, func(text string) bool { return isPlainWord(lex, text) }):
			x.words[line] = true
		default:
			return
		}
		x.tiers = slices.Insert(x.tiers, 0, line)
	}
}

// isTier reports whether a line has several texts above the columns of the field, all of them of a kind, from the first column on.
func (x *crossed) isTier(line int, ofKind func(string) bool) bool {
	first, last := x.columns[0], x.columns[len(x.columns)-1]
	count := 0
	for col := first; col <= last; col++ {
		text := x.g.At(line, col)
		switch {
		case text == "" && col == first:
			return false
		case text == "":
		case !ofKind(text) || !slices.Contains(x.columns, col):
			return false
		default:
			count++
		}
	}
	return count >= 2
}

// above returns the cell of a line that stands above a column: its own or the next one to the left.
func (x *crossed) above(line, col int) sheet.Ref {
	for col > x.columns[0] && x.g.At(line, col) == "" {
		col--
	}
	return x.g.Ref(line, col)
}

// allDifferent reports whether no two columns have the same above them.
func (x *crossed) allDifferent() bool {
	seen := map[string]bool{}
	for _, col := range x.columns {
		key := x.g.At(x.head, col)
		for _, tier := range x.tiers {
			key += "\x00" + x.g.At(x.g.Place(x.above(tier, col)))
		}
		if seen[key] {
			return false
		}
		seen[key] = true
	}
	return true
}

// top is the first line of the headings.
func (x *crossed) top() int {
	if len(x.tiers) > 0 {
		return x.tiers[0]
	}
	return x.head
}

// headings are the lines from the first heading to the sizes across.
func (x *crossed) headings() []int {
	var lines []int
	for line := x.top(); line <= x.head; line++ {
		lines = append(lines, line)
	}
	return lines
}

// headed reports whether something stands above a column in the lines of the headings.
func (x *crossed) headed(col int) bool { return len(textsAbove(x.g, x.besideHeadings(), col)) > 0 }

// besideHeadings are the lines that may have headings of columns beside the field: what stands in the line that names the part numbers is the
// whole of one where it has any, since what is beside the sizes names these then.
func (x *crossed) besideHeadings() []int {
	if x.names > 0 {
		return []int{x.names}
	}
	return x.headings()
}

// lastColumn is the last column of the field.
func (x *crossed) lastColumn() int {
	last := x.columns[len(x.columns)-1]
	return max(last, x.behind[last])
}

// findBeside finds the columns beside the field that say something of the parts of a line; it reports false where one behind it says
// something and has no heading. Those before it without one are margins.
func (x *crossed) findBeside() bool {
	last := x.lastColumn()
	for col := 1; col <= x.g.Width; col++ {
		switch {
		case col >= x.columns[0] && col <= last || col == x.down || x.g.At(x.first, col) == "":
		case x.headed(col):
			x.beside = append(x.beside, col)
		case col > last:
			return false
		}
	}
	return true
}

// findLines finds the lines of the field: those with a size in the column of these, each with another one or with something else beside it,
// but for blank lines and titles between them, below which the sizes may come back. It reports false where they are too few or too many.
func (x *crossed) findLines(lex *lexicon.Lexicon) bool {
	seen := map[string]bool{}
	for line := x.first; line <= x.g.Lines && len(x.lines) <= tallestCross; line++ {
		key := x.keyOf(line)
		switch {
		case x.goesOn(lex, line):
			seen = map[string]bool{}
		case isSize(lex, x.g.At(line, x.down)) && !seen[key] && !x.isLoose(line):
			seen[key] = true
			x.lines = append(x.lines, line)
			x.last = line
		case x.isUnsized(lex, line):
			x.unsized = append(x.unsized, x.g.Ref(line, x.down))
		default:
			return len(x.lines) >= 2 && len(x.lines) <= tallestCross
		}
	}
	return len(x.lines) >= 2 && len(x.lines) <= tallestCross
}

// goesOn reports whether a line is a title within the field, below which the sizes go on with part numbers.
func (x *crossed) goesOn(lex *lexicon.Lexicon, line int) bool {
	whole := span{left: 1, right: x.g.Width}
	if countCells(x.g, line, whole) != 1 || !isTitle(firstText(x.g, line, whole)) || !isSize(lex, x.g.At(line+1, x.down)) {
		return false
	}
	return x.hasParts(lex, line+1)
}

// isUnsized reports whether a line of part numbers between two of the field has something else than a size beside it: "?", "13.5.".
func (x *crossed) isUnsized(lex *lexicon.Lexicon, line int) bool {
	label, next := x.g.At(line, x.down), x.g.At(line+1, x.down)
	return x.last == line-1 && label != "" && !isSize(lex, label) && isSize(lex, next) && x.hasParts(lex, line) && x.hasParts(lex, line+1)
}

// hasParts reports whether a part number stands in the field of a line.
func (x *crossed) hasParts(lex *lexicon.Lexicon, line int) bool {
	return slices.ContainsFunc(x.columns, func(col int) bool {
		_, isPart := cutFieldCell(lex, x.g.At(line, col))
		return isPart
	})
}

// keyOf is what a line has beside the field, by which it is another one than the others.
func (x *crossed) keyOf(line int) string {
	key := x.g.At(line, x.down)
	for _, col := range x.beside {
		key += "\x00" + x.g.At(x.besideAt(line, col))
	}
	return key
}

// besideAt returns where that stands what a column beside the field has in a line.
func (x *crossed) besideAt(line, col int) (int, int) {
	for x.carried[col] && line > x.first && x.g.Filled(line, col) == "" {
		line--
	}
	return x.g.Source(line, col)
}

// findCarried finds the columns of sizes before the field that have each of them once, above others that come back below each.
func (x *crossed) findCarried(lex *lexicon.Lexicon) {
	x.carried = map[int]bool{}
	for _, col := range x.beside {
		if col > x.down || !isSize(lex, x.g.At(x.first, col)) || x.g.Filled(x.first+1, col) != "" {
			continue
		}
		sizes, comesBack := map[string]bool{}, false
		for line := x.first; line <= min(x.g.Lines, x.first+tallestCross) && isSize(lex, x.g.At(line, x.down)); line++ {
			text := x.g.At(line, x.down)
			comesBack = comesBack || sizes[text] && x.g.At(line, col) != ""
			sizes[text] = true
		}
		x.carried[col] = comesBack
	}
}

// isLoose reports whether a line has something behind the field in a column that has no heading.
func (x *crossed) isLoose(line int) bool {
	for col := x.lastColumn() + 1; col <= x.g.Width; col++ {
		if x.g.At(line, col) != "" && !slices.Contains(x.beside, col) {
			return true
		}
	}
	return false
}

// regions returns a table for each column of the field; nil where it holds no part numbers, or it is not known what goes down and across.
func (x *crossed) regions(lex *lexicon.Lexicon) []Region {
	codes, numbers, plain := x.readCells(lex)
	if codes+numbers < leastCrossed || codes > 0 && numbers > 0 || len(x.odd)*fewestOdd > codes {
		return nil
	}
	down, across := x.axes(lex)
	if !allNamed(append(across, down)) {
		return nil
	}
	if codes == 0 && !(len(plain) == numbers && sameLength(plain)) {
		if len(x.beside)+len(x.tiers) > 0 {
			return nil // a list, whose part numbers stand beside its prices
		}
		return []Region{x.withoutParts(down, across[0])}
	}
	if !x.dropNumbers(lex) {
		return nil
	}
	x.amounts = x.sayAmounts(lex)
	titles := x.titleSizes(lex, append(across, down))
	var tables []Region
	for i, col := range x.columns {
		if r, ok := x.region(lex, col, down, across, titles); ok {
			if r.Second = i > 0 && len(tables) > 0; !r.Second && x.unsaid != "" {
				r.Unexplained = append(r.Unexplained, Unexplained{r.Body, 1, x.unsaid})
			}
			tables = append(tables, r)
		}
	}
	if len(tables) > 0 {
		last := &tables[len(tables)-1]
		last.Unexplained = slices.Concat(last.Unexplained, x.leftOut(), x.leftBelow(lex), x.unsureFeet(lex))
	}
	return tables
}

// leftOut says of the labels that are no sizes that the parts of their lines and columns are not read.
func (x *crossed) leftOut() []Unexplained {
	var said []Unexplained
	for _, at := range x.unsized {
		line, col := x.g.Place(at)
		said = append(said, Unexplained{line, 0, fmt.Sprintf("%s says %q where the others of the cross table have sizes; the parts of its %s are not read",
			at, x.g.At(line, col), map[bool]string{true: "column", false: "line"}[line == x.head])})
	}
	return said
}

// leftBelow says of the lines right below the field that have part numbers like it, that they are not read.
func (x *crossed) leftBelow(lex *lexicon.Lexicon) []Unexplained {
	for line := x.last + 1; line <= min(x.last+2, x.g.Lines); line++ {
		for _, col := range x.columns {
			if _, isPart := cutFieldCell(lex, x.g.At(line, col)); isPart {
				return []Unexplained{{line, 0, fmt.Sprintf("the lines from %d on have part numbers below those of the cross table, and %q beside them is no other size; they are not read with it", line, x.g.At(line, x.down))}}
			}
		}
	}
	return nil
}

// allNamed reports whether it is known of all sides what they give, of each something else.
func allNamed(sides []axis) bool {
	seen := map[catalog.Role]bool{}
	for _, side := range sides {
		if side.role == "" || seen[side.role] {
			return false
		}
		seen[side.role] = true
	}
	return true
}

// dropNumbers drops the numbers of the lines from the columns beside the field; it reports false where one has part numbers.
func (x *crossed) dropNumbers(lex *lexicon.Lexicon) bool {
	parts := false
	x.beside = slices.DeleteFunc(x.beside, func(col int) bool {
		if !slices.ContainsFunc(textsAbove(x.g, x.besideHeadings(), col), func(text string) bool { return headingOf(lex, catalog.Part, text) }) {
			return false
		}
		parts = parts || slices.ContainsFunc(x.lines, func(line int) bool { return isCode(lex, x.g.At(line, col)) })
		return true
	})
	return !parts
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

// titleSize is a size that a title gives for all parts of a cross table.
type titleSize struct {
	axis
	text string
}

// titleSizes returns the sizes, other than those of the sides, that the texts above give by name, and the tips.
func (x *crossed) titleSizes(lex *lexicon.Lexicon, sides []axis) (sizes []titleSize) {
	given := map[catalog.Role]bool{}
	kind := catalog.UnknownKind
	for _, side := range sides {
		given[side.role] = true
		switch side.role {
		case catalog.BaseOD, catalog.TopOD:
			kind = catalog.Ferrules
		case catalog.HoselOD:
			kind = catalog.Heads
		}
	}
	for line := x.top() - 1; line >= x.from; line-- {
		for i, id := range x.g.Row(line, 1, x.g.Width) {
			var said []string // a size is one of the part
			take := func(role catalog.Role, label, size string) {
				if !given[role] && !slices.ContainsFunc(said, func(other string) bool { return strings.Contains(other, size) || strings.Contains(size, other) }) {
					given[role], said = true, append(said, size)
					sizes = append(sizes, titleSize{axis{label: label, at: x.g.Ref(line, i+1), role: role}, size})
				}
			}
			text := x.g.Text(id)
			bores := given[catalog.Bore]
			for _, s := range TitledSizes(lex, kind, text) {
				if s.Series == nil {
					take(s.Role, sizetext.NameOf(s.Role), s.Text)
				}
			}
			for _, s := range sizesOfTitle(lex, text) {
				take(catalog.Role(s.Role), s.Name, s.Text)
			}
			if tips, name := lex.TipsIn(text, true); len(tips) == 1 && !bores {
				take(catalog.TipTaken, tipLabel, name)
			}
		}
	}
	return sizes
}

// sizesOfTitle returns the sizes of a text with the names before them, and where it has none, those whose names follow: "all 1.00 in long".
func sizesOfTitle(lex *lexicon.Lexicon, text string) []sizetext.Size {
	named := slices.DeleteFunc(sizetext.In(lex, text, false), func(s sizetext.Size) bool { // "per pc, 200 pcs per bag", as "per" says what a part is for
		return s.Role == string(catalog.TipTaken) && !s.Possible(lex)
	})
	if len(named) > 0 {
		return named
	}
	for _, sentence := range sentences(lex, text) {
		for _, s := range sizetext.In(lex, sentence, true) {
			if s.Possible(lex) && sizetext.HasUnit(s.Text) {
				named = append(named, s)
			}
		}
	}
	return named
}

// region makes the table of one column of the field; it reports false where that has no part number.
func (x *crossed) region(lex *lexicon.Lexicon, col int, down axis, across []axis, titles []titleSize) (Region, bool) {
	var lines []int
	for _, line := range x.lines {
		if _, given := x.cells[x.g.Ref(line, col)]; given {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 {
		return Region{}, false
	}
	area := sheet.Range{From: sheet.Ref{Row: x.from, Col: col}, To: sheet.Ref{Row: x.last, Col: col}}
	r := tableOfLanes(x.g, x.lanes(lex, lines, col, down, across, titles), lines, x.margins(col), area)
	for _, title := range titles {
		r.Above = append(r.Above, title.at)
	}
	for _, at := range x.odd {
		if at.Col == col {
			r.Unexplained = append(r.Unexplained, Unexplained{at.Row, 0, fmt.Sprintf("%s says %q instead of a part number; whether there is such a part is not known", at, x.g.At(x.g.Place(at)))})
		}
	}
	return r, true
}

// lanes returns the columns of the table of one column of the field.
func (x *crossed) lanes(lex *lexicon.Lexicon, lines []int, col int, sideDown axis, across []axis, titles []titleSize) []lane {
	part := down(x.g, col, sheet.ColumnName(col), x.g.Ref(x.head, col), Heading{Parts: []string{partLabel}, Text: partLabel})
	part.piece = func(line int) grid.Piece {
		at := x.g.Ref(line, col)
		return grid.Piece{Text: x.cells[at].number, At: at}
	}
	size := down(x.g, x.down, sheet.ColumnName(x.down), sideDown.at, Heading{Parts: []string{sideDown.label}, Text: sideDown.label})
	size.heading.takenBeside(sideDown, across[0])
	size.piece = func(line int) grid.Piece {
		text, _ := sizeOf(lex, x.g.At(line, x.down))
		return grid.Piece{Text: text, At: x.g.Ref(line, x.down)}
	}
	lanes := []lane{part, size}
	for i, line := range x.headings() {
		at := x.above(line, col)
		text := x.g.At(x.g.Place(at))
		if size, ok := sizeOf(lex, text); ok && !x.words[line] {
			text = size
		}
		l := always(across[i].label, text, across[i].at, at)
		l.heading.Beside = x.sizesBeside(lex, line, x.g.At(x.g.Place(at)))
		l.heading.takenBeside(across[i], sideDown)
		lanes = append(lanes, l)
	}
	for _, role := range x.amountRoles(lines, col) {
		lanes = append(lanes, x.amountLane(col, role))
	}
	lanes = append(lanes, x.footLanes(lex, col)...)
	for _, title := range titles {
		lanes = append(lanes, always(title.label, title.text, title.at, title.at))
	}
	for _, beside := range x.beside {
		parts := textsAbove(x.g, x.besideHeadings(), beside)
		l := down(x.g, beside, sheet.ColumnName(beside), lowestAbove(x.g, x.besideHeadings(), beside), Heading{Parts: parts, Text: strings.Join(parts, " ")})
		if x.carried[beside] {
			l.heading.Order, l.heading.Inferred = fmt.Sprintf("the blank cells of column %s taken for what stands above them", sheet.ColumnName(beside)), true
			l.piece = func(line int) grid.Piece {
				at := x.g.Ref(x.besideAt(line, beside))
				return grid.Piece{Text: x.g.At(x.g.Place(at)), At: at}
			}
		}
		lanes = append(lanes, l)
	}
	return lanes
}

// amountLane is the column of what stands behind the part numbers of a column of the field.
func (x *crossed) amountLane(col int, role catalog.Role) lane {
	own := cmp.Or(x.behind[col], col)
	l := lane{name: sheet.ColumnName(own), at: x.g.Ref(x.head, col), heading: Heading{Parts: []string{string(role)}, Text: string(role), Order: x.amounts, Inferred: x.amounts != ""}}
	l.piece = func(line int) grid.Piece {
		at := x.g.Ref(line, col)
		amount := x.cells[at].amount
		if amount.role != role {
			return grid.Piece{}
		}
		if amount.valueAt != (sheet.Ref{}) {
			at = amount.valueAt
		}
		return grid.Piece{Text: amount.value, At: at}
	}
	return l
}

// partLabel is a heading in which the vocabulary finds the part number.
const partLabel = "part number"

// takenBeside says of the column of one side what that was taken for, beside the other.
func (h *Heading) takenBeside(side, other axis) {
	switch {
	case side.why != "":
		h.Order, h.Inferred = side.why, true
	case side.taken:
		h.Order, h.Inferred = fmt.Sprintf("the sizes beside those of %q, which nothing names, taken for the tips that the parts are for", other.label), true
	}
}

// sizesBeside are the different sizes of a line of headings but for one.
func (x *crossed) sizesBeside(lex *lexicon.Lexicon, line int, own string) []string {
	var sizes []string
	for _, col := range x.columns {
		text := x.g.At(line, col)
		if size, ok := sizeOf(lex, text); ok && text != own && !slices.Contains(sizes, size) {
			sizes = append(sizes, size)
		}
	}
	return sizes
}

// margins are the cells of the sides and the corner, which say nothing of anything else, and the one column.
func (x *crossed) margins(col int) []sheet.Ref {
	var cells []sheet.Ref
	lines := slices.Concat(x.headings(), x.lines, x.footLines())
	if x.names > 0 {
		lines = append(lines, x.names)
	}
	for _, line := range lines {
		for c := 1; c <= x.g.Width; c++ {
			if line < x.head && c < x.columns[0] {
				continue // a text that may be about all
			}
			if c < x.columns[0] || line <= x.head || c == col || c == x.behind[col] {
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
