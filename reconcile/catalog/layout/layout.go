// Package layout finds where on a sheet things are: its tables with their headings, the titles above them, legends, and the notes and
// names in the texts about them. It knows headings by their words, and decides for no column what it means.
package layout

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/numberkey"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// Region is one table in a grid: its heading, its body and the lines about it that it accounts for.
type Region struct {
	Grid *grid.Grid
	// From and to are the lines that the table's ledger counts: titles above and notes below included.
	From, To int
	// Left and right are its columns.
	Left, Right int
	// line is the line by which the heading was recognised.
	line int
	// Headings are the lines that hold the heading, unit lines included; empty where there is none.
	Headings []int
	// Body is the first line after the heading.
	Body int
	// Columns are the headings column by column, from left to right.
	Columns []Heading
	// Alone is set where the table is the only one on its sheet and stands upright.
	Alone bool
	// Guessed is set where no heading was understood and the table was found by its values.
	Guessed bool
	// Aside are lines within the body that repeat the heading.
	Aside map[int]string
	// Elsewhere are lines that another region of the same list counts, and Second is set where another one counts what is no data.
	Elsewhere map[int]bool
	Second    bool
	// Others are lines whose type is none of the kinds of parts of such a list.
	Others map[int]bool
	// calls are what the headings call for: see callsFor.
	calls []call
	// NoParts says why the table lists no parts although it is one of sizes, empty for every other.
	NoParts string
	// Unexplained are the letters in its columns that a note on them does not explain.
	Unexplained []Unexplained
	// KeyUnread says of a text at KeyAt that it seems to explain the part numbers and cannot be read, empty where there is none.
	KeyUnread string
	KeyAt     sheet.Ref
	// keys are the texts about the table that may explain its part numbers, and open why cells of added columns are left open.
	keys []numberkey.Text
	open map[[2]int]string
	// letter is set where the parts are the items of a letter, and unsaid are numbers of their texts of which it is not known what they are.
	letter bool
	unsaid []Unsaid
	// Above are the cells of titles from which a cross table has sizes; they may say more than these.
	Above []sheet.Ref
	// Drawn is the sheet as it is, and area what the table accounts for of it, where the grid was arranged.
	Drawn *grid.Grid
	area  sheet.Range
}

// Heading is what stands above a column.
type Heading struct {
	Col int
	// Parts are the fragments from the top; text joins them for people.
	Parts []string
	Text  string
	// Unit is the text of the unit line.
	Unit string
	// Several is set where the heading names several sizes and the cells give one; names are what it calls them.
	Several bool
	names   []string
	// translated is set where the heading names one size in two languages.
	translated bool
	// Order says from where it is known which size it is, where the column is one of several sizes in one cell; inferred is set where
	// nobody said it.
	Order    string
	Inferred bool
	// Types is set where the column only says what kind of part each row is.
	Types bool
	// Packs is set where the column gives the pieces in the packs of which the texts of another one speak.
	Packs bool
	// Gives is what the column gives of a size that was read several times, and ReadingsAt the column
	// with the first of them.
	Gives      Gives
	ReadingsAt int
	// TickedIn is the column that has the tips of this one where it is one of a matrix of ticks, zero where it is not.
	TickedIn int
	// Beside are sizes of the same role in the other columns of one cross table, which say with it what they are.
	Beside []string
}

const (
	// longestBlock is how many lines a heading can have.
	longestBlock = 4
	// widestSheet and tallestTurn bound the search for tables on their side, whose headings are few.
	tallestTurn = 300
)

// Tables returns the tables of a sheet from the top. Every line of the sheet is counted by at least one of them,
// unless there is none; lines that no table counts are the caller's remainder.
func Tables(g *grid.Grid, lex *lexicon.Lexicon, rules catalog.SheetRules) []Region {
	if len(rules.HeadingRows) > 0 && FitsGrid(g, rules.HeadingRows) {
		return fixedTable(g, lex, rules.HeadingRows)
	}
	found := cards(g, lex)
	if found == nil {
		found = crossTables(g, lex)
	}
	if found == nil {
		found = told(g, lex)
	}
	if found == nil {
		found = spaced(g, lex)
	}
	taken := spansOf(found)
	blocks := turnedBlocks(g, lex, taken)
	for _, part := range uprightParts(g, sortedSpans(taken, blocks)) {
		found = append(found, tablesIn(g, lex, part, len(taken) == 0)...)
	}
	if len(taken)+len(blocks) == 0 {
		found = forms(g, lex, found)
	}
	for _, block := range blocks {
		found = append(found, turnedTable(g, lex, block)...)
	}
	slices.SortStableFunc(found, func(a, b Region) int {
		ra, rb := a.Grid.Ref(a.Body, a.Left), b.Grid.Ref(b.Body, b.Left)
		if ra.Row != rb.Row {
			return ra.Row - rb.Row
		}
		return ra.Col - rb.Col
	})
	if len(found) == 1 && !found[0].Grid.Turned {
		found[0].Alone = true
		found[0].From, found[0].To = 1, g.Lines
		found[0].area = sheet.Range{From: sheet.Ref{Row: 1, Col: 1}, To: sheet.Ref{Row: g.Lines, Col: g.Width}}
	}
	return found
}

// spansOf returns the lines that arranged tables account for.
func spansOf(tables []Region) []span {
	var spans []span
	for i := range tables {
		area := tables[i].RangeOf()
		if n := len(spans); n > 0 && spans[n-1].from == area.From.Row {
			continue // another column of one cross table
		}
		spans = append(spans, span{area.From.Row, area.To.Row, area.From.Col, area.To.Col})
	}
	return spans
}

// sortedSpans returns two lists of spans as one, from the top.
func sortedSpans(a, b []span) []span {
	all := slices.Concat(a, b)
	slices.SortStableFunc(all, func(a, b span) int { return a.from - b.from })
	return all
}

// fixedTable is the one table whose heading lines the user has named.
func fixedTable(g *grid.Grid, lex *lexicon.Lexicon, lines []int) []Region {
	lines = slices.Clone(lines)
	slices.Sort(lines)
	r := Region{Grid: g, From: 1, To: g.Lines, Left: 1, Right: g.Width, Headings: lines, Body: lines[len(lines)-1] + 1, Alone: true}
	r.readHeadings(lex)
	r.findRepeats(lex)
	r.splitComposites(lex)
	r.splitNamed(lex)
	return []Region{r}
}

// FitsGrid reports whether there is something in each of the heading lines that the user has named.
func FitsGrid(g *grid.Grid, lines []int) bool {
	for _, line := range lines {
		if line < 1 || line > g.Lines || g.BlankLine(line, 1, g.Width) {
			return false
		}
	}
	return true
}

// span is a rectangle of lines and columns.
type span struct{ from, to, left, right int }

// uprightParts returns the parts of the grid between the blocks that lie on their side.
func uprightParts(g *grid.Grid, blocks []span) []span {
	var parts []span
	next := 1
	for _, b := range blocks {
		if b.from > next {
			parts = append(parts, span{next, b.from - 1, 1, g.Width})
		}
		next = b.to + 1
	}
	if next <= g.Lines {
		parts = append(parts, span{next, g.Lines, 1, g.Width})
	}
	return parts
}

// tablesIn finds the upright tables of a part of the grid; where none has a heading, one may be guessed.
func tablesIn(g *grid.Grid, lex *lexicon.Lexicon, part span, guess bool) []Region {
	var found []Region
	for i, strip := range strips(g, lex, part) {
		tables := stripTables(g, lex, strip)
		if i > 0 && len(tables) > 0 {
			trim(tables)
		}
		found = append(found, tables...)
	}
	if len(found) == 0 && guess {
		if r, ok := guessTable(g, part); ok {
			found = append(found, r)
		}
	}
	return found
}

// trim takes off the lines about the tables of a strip that the strip to its left accounts for.
func trim(tables []Region) {
	first, last := &tables[0], &tables[len(tables)-1]
	first.From = leadIn(first.Grid, first.Headings[0], first.From-1, span{first.From, first.To, first.Left, first.Right})
	last.To = max(lastUsed(last.Grid, span{last.From, last.To, last.Left, last.Right}), last.Body-1)
}

// strips splits a part at columns that are blank throughout, where at least two of the pieces are tables by
// themselves; a piece that is none belongs to its left neighbour.
func strips(g *grid.Grid, lex *lexicon.Lexicon, part span) []span {
	pieces := columnRuns(g, part)
	if len(pieces) < 2 {
		return []span{part}
	}
	var result []span
	complete := 0
	for _, piece := range pieces {
		if standsAlone(g, lex, piece) {
			complete++
			result = append(result, piece)
			continue
		}
		if len(result) == 0 {
			result = append(result, piece)
			continue
		}
		result[len(result)-1].right = piece.right
	}
	if complete < 2 {
		return []span{part}
	}
	if !standsAlone(g, lex, result[0]) {
		result[1].left = result[0].left
		result = result[1:]
	}
	return result
}

// columnRuns returns the runs of columns that are not blank throughout a part.
func columnRuns(g *grid.Grid, part span) []span {
	used := make([]bool, g.Width+2)
	for line := part.from; line <= part.to; line++ {
		for i, id := range g.Row(line, part.left, part.right) {
			if id != grid.Nothing && g.Text(id) != "" {
				used[part.left+i] = true
			}
		}
	}
	var runs []span
	for col := part.left; col <= part.right; col++ {
		if !used[col] {
			continue
		}
		if len(runs) > 0 && runs[len(runs)-1].right == col-1 {
			runs[len(runs)-1].right = col
			continue
		}
		runs = append(runs, span{part.from, part.to, col, col})
	}
	return runs
}

// standsAlone reports whether a piece has a heading line with a part number and a dimension. Part numbers are told by their heading, or by
// the codes in the first column below one that may mean something else: a model.
func standsAlone(g *grid.Grid, lex *lexicon.Lexicon, piece span) bool {
	for line := piece.from; line <= piece.to; line++ {
		roles := lineRoles(g, lex, line, piece.left, piece.right)
		if len(roles) >= 2 && hasDimension(roles) && (roles[string(catalog.Part)] > 0 || beginsWithCodes(g, line, piece)) {
			return true
		}
	}
	return false
}

// beginsWithCodes reports whether the first column of a piece has codes below a heading, each another one, and at least two.
func beginsWithCodes(g *grid.Grid, heading int, piece span) bool {
	seen := map[string]bool{}
	for line := heading + 1; line <= piece.to && len(seen) < sampleSize; line++ {
		text := g.At(line, piece.left)
		if text == "" {
			continue
		}
		if seen[text] || !lexicon.LooksLikeCode(text) || lexicon.LooksNumeric(text) || !lexicon.BearsDigits(text) {
			return false
		}
		seen[text] = true
	}
	return g.At(heading, piece.left) != "" && len(seen) >= 2
}

func hasDimension(roles map[string]float64) bool {
	for role := range roles {
		if traits.Of[catalog.Role(role)].Want == traits.Length {
			return true
		}
	}
	return false
}

// lineRoles returns the roles that the cells of a line are headings of, with the best score of each; nil where the line
// cannot be a heading, because too many of its cells are values.
func lineRoles(g *grid.Grid, lex *lexicon.Lexicon, line, left, right int) map[string]float64 {
	row := g.Row(line, left, right)
	if tooManyValues(g, lex, row) && !headsClubs(g, lex, line, left, right) {
		return nil
	}
	cells, numeric, coded := 0, 0, 0
	for _, id := range row {
		if g.Text(id) == "" {
			continue
		}
		cells++
		switch {
		case g.Is(lexicon.AsValue, lex, id) && !headsBreak(g.Text(id)), g.Is(lexicon.AsDitto, lex, id) && !g.Is(lexicon.AsHeading, lex, id): // ID is idem, too
			numeric++
		case g.Is(lexicon.AsDigits, lex, id):
			coded++
		}
	}
	if numeric*3 > cells && headsClubs(g, lex, line, left, right) {
		numeric = 0
	}
	if cells-numeric < 1 || numeric*3 > cells || (numeric+coded)*2 > cells {
		return nil
	}
	var roles map[string]float64
	for _, id := range row {
		if g.Text(id) == "" || g.Is(lexicon.AsValue, lex, id) || explainsLetter(g.Text(id)) || numberkey.ExplainsPlace(g.Text(id)) {
			continue
		}
		headings := []string{g.Text(id)}
		if !g.Is(lexicon.AsHeading, lex, id) {
			if headings = nil; cells > 1 { // alone in its line it is a title
				headings = sizesListed(lex, g.Text(id))
			}
		}
		if len(headings) > 0 && roles == nil {
			roles = map[string]float64{}
		}
		for _, heading := range headings {
			found := lex.Match(heading)
			roles[found[0].Role] = max(roles[found[0].Role], found[0].Score)
		}
	}
	return roles
}

// mayHead reports whether the cells of a line may be headings of two roles, as far as can be told without asking what long texts mean: a row of a
// part number and a sentence is told from a heading by its number.
func mayHead(g *grid.Grid, lex *lexicon.Lexicon, row []grid.ID) bool {
	may := 0
	for _, id := range row {
		switch text := g.Text(id); {
		case text == "" || len(text) > lexicon.LongestHeading || givesSizes(text):
		case strings.Contains(text, " x ") || strings.Contains(text, " X ") || strings.ContainsAny(text, sizetext.TimesSigns): // one cell may list several
			return true
		case len(text) > shortHeading || g.Is(lexicon.AsHeading, lex, id):
			may++
		}
	}
	return may >= 2
}

// givesSizes reports whether a text is a sentence with three sizes, as no heading is.
func givesSizes(text string) bool {
	if len(text) < shortestOfSizes {
		return false
	}
	decimals := 0
	for i := 1; i+1 < len(text); i++ {
		if (text[i] == '.' || text[i] == ',') && isDigit(text[i+1]) {
			decimals++
		}
	}
	return decimals >= fewestSizes
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// shortestOfSizes is how many bytes such a sentence has at least, and fewestSizes how many sizes with decimals.
const shortestOfSizes, fewestSizes = 60, 3

// shortHeading is how many bytes a text has at most of which it costs little to ask whether it is a heading.
const shortHeading = 40

// headsBreak reports whether a text is the heading of prices for a quantity, 1-99 pcs, with its word: of numbers alone nobody could know.
func headsBreak(text string) bool {
	return strings.ContainsFunc(text, unicode.IsLetter) && strings.ContainsAny(text, "+-–") && lexicon.IsPriceBreak(text)
}

// tooManyValues reports whether so many cells of a line are plainly values that it is no heading, unless it heads columns by clubs. It
// asks only what is cheap, and spares most lines the rest.
func tooManyValues(g *grid.Grid, lex *lexicon.Lexicon, row []grid.ID) bool {
	cells, numeric, either := 0, 0, 0
	for _, id := range row {
		if g.Text(id) == "" {
			continue
		}
		cells++
		isNumber := g.Is(lexicon.AsNumber, lex, id) && !headsBreak(g.Text(id))
		if isNumber {
			numeric++
		}
		if isNumber || g.Is(lexicon.AsDigits, lex, id) {
			either++
		}
	}
	return numeric*3 > cells || either*2 > cells
}

// headsClubs reports whether the values of a line are clubs that head columns, beside the heading of a model or part.
func headsClubs(g *grid.Grid, lex *lexicon.Lexicon, line, left, right int) bool {
	if clubCells(g, lex, line, left, right) < LeastClubs {
		return false
	}
	named := false
	for col := left; col <= right; col++ {
		text := g.At(line, col)
		if text == "" || g.Is(lexicon.AsClub, lex, g.Id(line, col)) {
			continue
		}
		found := lex.Match(text)
		switch {
		case len(found) == 0 || found[0].Score < lexicon.HeadingScore:
			return false
		default:
			named = named || found[0].Role == string(catalog.Part) || found[0].Role == string(catalog.Description)
		}
	}
	return named
}

// isHeadingLine reports whether a line may be the heading of a table.
func isHeadingLine(g *grid.Grid, lex *lexicon.Lexicon, line, left, right int) bool {
	if !mayHead(g, lex, g.Row(line, left, right)) && !headsClubs(g, lex, line, left, right) {
		return false
	}
	roles := lineRoles(g, lex, line, left, right)
	if len(roles) > 0 && headsClubs(g, lex, line, left, right) {
		return true
	}
	if len(roles) < 2 {
		return false
	}
	cells := countCells(g, line, span{left: left, right: right})
	sum := 0.0
	for _, score := range roles {
		sum += score
	}
	return len(roles)*4 >= cells && sum >= 1
}

// tableAt returns the columns of the table that the file itself declares to begin at a line: those of a named table, or
// those of the strip where a filter, which may leave columns out, begins there.
func tableAt(g *grid.Grid, line int, strip span) (span, bool) {
	if g.Turned {
		return span{}, false
	}
	for _, table := range g.Sheet.Tables {
		from, to := table.Range.From, table.Range.To
		if from.Row != line || to.Row == from.Row || to.Col == from.Col || from.Col < strip.left || from.Col > strip.right {
			continue
		}
		if table.Name == "" {
			return strip, true
		}
		return span{strip.from, strip.to, from.Col, min(to.Col, strip.right)}, true
	}
	return span{}, false
}

// groups reports whether a heading without any line of a body before the next one holds the groups of this: the headings mean
// more with it than without.
func (r *Region) groups(next *Region, lex *lexicon.Lexicon) bool {
	for line := r.Body; line < next.Headings[0]; line++ {
		if !r.Grid.BlankLine(line, r.Left, r.Right) {
			return false
		}
	}
	if next.Headings[0]-r.Body > 2 || len(r.Headings)+len(next.Headings) > longestBlock {
		return false
	}
	if apart := next.Headings[0] > r.Body; apart && countCells(r.Grid, r.Headings[0], span{left: r.Left, right: r.Right}) == 2 {
		return false // a label and its value, by which the list below was chosen
	}
	joined := *next
	joined.Headings = append(slices.Clone(r.Headings), next.Headings...)
	joined.readHeadings(lex)
	gain := 0.0
	for i := range joined.Columns {
		gain += meaningOfHeading(lex, joined.Columns[i]) - meaningOfHeading(lex, next.Columns[i])
	}
	return gain > 0
}

// isNewHeading reports whether a line below a table that is no row of it may be a heading again: it is no note, has something below it, and if there are values in it, it also names a size, or else a row of data with words such as iron would
// be lost.
func isNewHeading(g *grid.Grid, lex *lexicon.Lexicon, line int, strip span) bool {
	first := firstText(g, line, strip)
	if _, isNote := lex.Ask("note", first, lex.Words.IsNote); isNote || leadingMark().MatchString(first) || lastUsed(g, strip) <= line {
		return false
	}
	for col := strip.left; col <= strip.right; col++ {
		if lex.LooksValue(g.At(line, col)) {
			return hasDimension(lineRoles(g, lex, line, strip.left, strip.right))
		}
	}
	return true
}

// continues reports whether a line holds what the table's headings call for, and so is a row of it whatever its words might
// mean as headings: a size under a size, a code under the part number, countersunk under the form of the top.
func (r *Region) continues(lex *lexicon.Lexicon, line int) bool {
	g := r.Grid
	if headsClubs(g, lex, line, r.Left, r.Right) {
		return false
	}
	for _, call := range r.callsFor(lex) {
		if id := g.Id(line, call.col); g.Text(id) != "" && call.by(g, lex, id) {
			return true
		}
	}
	return false
}

// call is what the heading of a column calls for.
type call struct {
	col int
	by  func(*grid.Grid, *lexicon.Lexicon, grid.ID) bool
}

// callsFor returns what the headings of a table call for, sizes and prices first, since they are told at a glance.
func (r *Region) callsFor(lex *lexicon.Lexicon) []call {
	if r.calls != nil {
		return r.calls
	}
	r.calls = []call{}
	var others []call
	for _, h := range r.Columns {
		found := lex.Match(h.Parts...)
		if len(found) == 0 || found[0].Score < lexicon.HeadingScore {
			continue
		}
		role := catalog.Role(found[0].Role)
		if traits.Of[role].Want == traits.Length {
			r.calls = append(r.calls, call{h.Col, func(g *grid.Grid, lex *lexicon.Lexicon, id grid.ID) bool { return g.Is(lexicon.AsValue, lex, id) }})
		} else if by := calledFor(lex, role); by != nil {
			asked := call{h.Col, func(g *grid.Grid, _ *lexicon.Lexicon, id grid.ID) bool { return by(g.Text(id)) }}
			if role == catalog.Price {
				r.calls = append(r.calls, asked)
			} else {
				others = append(others, asked)
			}
		}
	}
	r.calls = append(r.calls, others...)
	return r.calls
}

// calledFor returns the question whether a text is plainly a value of a role that is no size, and no heading; nil where that cannot be
// told.
func calledFor(lex *lexicon.Lexicon, role catalog.Role) func(text string) bool {
	var name string
	var answer func(string) (words.Hit, bool)
	switch role {
	case catalog.Part:
		return func(text string) bool { return mayBePart(lex, text) }
	case catalog.Price:
		return hasCents
	case catalog.Category:
		name, answer = "category", lex.Words.Category
	case catalog.Top:
		name, answer = "top", lex.Words.TopForm
	case catalog.Style:
		name, answer = "style", lex.Words.Style
	case catalog.Material:
		name, answer = "material", lex.Words.Material
	default:
		return nil
	}
	return func(text string) bool {
		hit, known := lex.Ask(name, text, answer)
		return known && hit.Score >= lexicon.HeadingScore && !headingOf(lex, role, text)
	}
}

// hasCents reports whether a text is an amount with two places: no heading is, though one may say from which number of pieces on a price holds.
func hasCents(text string) bool {
	point := len(text) - len(".00")
	return point > 0 && (text[point] == '.' || text[point] == ',') && lexicon.IsDigits(text[:point]) && lexicon.IsDigits(text[point+1:])
}

// headingOf reports whether a text is a heading of a role.
func headingOf(lex *lexicon.Lexicon, role catalog.Role, text string) bool {
	found := lex.Match(text)
	return len(found) > 0 && catalog.Role(found[0].Role) == role
}

// stripTables finds the tables of a strip one below the other.
func stripTables(g *grid.Grid, lex *lexicon.Lexicon, strip span) []Region {
	var found []Region
	titles := pageTitles(g, lex, strip)
	for line := strip.from; line <= strip.to; line++ {
		if titles[line] {
			continue
		}
		table, declared := tableAt(g, line, strip)
		declared = declared && len(lineRoles(g, lex, line, table.left, table.right)) > 0
		// Most lines are rows of the table above, which is told sooner than whether they could be a heading.
		if !declared && len(found) > 0 && found[len(found)-1].continues(lex, line) || !declared && !isHeadingLine(g, lex, line, strip.left, strip.right) {
			continue
		}
		if givesPage(g, lex, line, strip) {
			continue
		}
		floor := strip.from
		if len(found) > 0 {
			if !declared && !isNewHeading(g, lex, line, strip) {
				continue
			}
			floor = found[len(found)-1].Body
		}
		for above := line - 1; above >= max(floor, line-longestBlock); above-- { // no title of a page is the heading of a group
			if titles[above] || givesPage(g, lex, above, strip) {
				floor = above + 1
			}
		}
		r := Region{Grid: g, From: strip.from, To: strip.to, Left: strip.left, Right: strip.right, line: line}
		if declared {
			r.Left, r.Right = table.left, table.right
		}
		r.Headings = headingBlock(g, lex, line, floor, span{strip.from, strip.to, r.Left, r.Right})
		r.Body = r.Headings[len(r.Headings)-1] + 1
		r.readHeadings(lex)
		line = r.Body - 1
		if n := len(found) - 1; n >= 0 && found[n].groups(&r, lex) {
			r.From, r.Headings = found[n].From, append(slices.Clone(found[n].Headings), r.Headings...)
			r.readHeadings(lex)
			found = found[:n]
		}
		if len(found) > 0 {
			above := &found[len(found)-1]
			r.From = leadIn(g, r.Headings[0], above.Body, strip)
			for line := r.From - 1; line > above.Body && (titles[line] || g.BlankLine(line, strip.left, strip.right)); line-- {
				if titles[line] {
					r.From = line
				}
			}
			if above.repeatedBy(lex, &r) {
				for _, repeated := range r.Headings {
					above.Aside[repeated] = RepeatedHeading
				}
				continue
			}
			above.To = r.From - 1
		}
		r.Aside = map[int]string{}
		r.findNumbers()
		found = append(found, r)
	}
	var split []Region
	for _, r := range found {
		for line := range titles {
			if line >= r.Body && line <= r.To {
				r.Aside[line] = PageTitle
			}
		}
		split = append(split, r.sideBySide(lex)...)
	}
	for i := range split {
		split[i].inOneLanguage(lex)
		split[i].joinDeviations()
		split[i].splitComposites(lex)
		split[i].splitNamed(lex)
	}
	return split
}

// headingBlock returns the lines of the heading that holds a line: unit lines and further fragments below it, and group
// headings above it.
func headingBlock(g *grid.Grid, lex *lexicon.Lexicon, line, floor int, strip span) []int {
	first, last := line, line
	for last+1 <= strip.to && last+1-line < longestBlock && continuesHeading(g, lex, last+1, line, strip) {
		last++
	}
	for first-1 >= floor && line-(first-1) < longestBlock && isGroupLine(g, lex, first-1, line, strip) {
		first--
	}
	lines := make([]int, 0, last-first+1)
	for l := first; l <= last; l++ {
		lines = append(lines, l)
	}
	return lines
}

// continuesHeading reports whether a line below a heading still belongs to it.
func continuesHeading(g *grid.Grid, lex *lexicon.Lexicon, line, top int, strip span) bool {
	cells, known, numeric := 0, 0, 0
	for col := strip.left; col <= strip.right; col++ {
		text := g.At(line, col)
		if text == "" {
			continue
		}
		cells++
		switch {
		case mayBePart(lex, text) && headingOf(lex, catalog.Part, g.At(top, col)): // a part number
			return false
		case lex.IsUnit(text), lex.IsLimit(text), lex.TellsAge(text) != 0, lexicon.IsYear(text) && tellsApart(g, top, col), isDiameterSign(text):
			known++
		case lexicon.LooksNumeric(text):
			numeric++
		case len(lex.Match(text)) > 0 && lex.Match(text)[0].Score >= lexicon.HeadingScore,
			g.At(top, col) != "" && len(lex.Match(g.At(top, col), text)) > len(lex.Match(g.At(top, col))):
			known++
		}
	}
	if isClubLine(g, lex, line, top, strip) || line == top+1 && (dividesGroups(g, lex, line, top, strip) || partsGroups(g, line, top, strip)) || cells > 1 && countsReadings(g, lex, line, top, strip) {
		return true
	}
	return cells > 0 && numeric == 0 && known*2 > cells && (known >= 2 || cells == 1 && (unitsOnly(g, lex, line, strip) || line == top+1 && completes(g, lex, line, top, strip)))
}

// tellsApart reports whether what stands below a heading tells it from the one beside it, which is the same: years below "Price" and "Price".
func tellsApart(g *grid.Grid, top, col int) bool {
	above := g.At(top, col)
	return above != "" && (above == g.At(top, col-1) || above == g.At(top, col+1))
}

// completes reports whether the one text of a line below a heading stands below another text of that, not the first, and means more with it
// than that alone: "ID" below "Ferrule".
func completes(g *grid.Grid, lex *lexicon.Lexicon, line, top int, strip span) bool {
	col := firstUsed(g, line, strip)
	above, own := g.At(top, col), g.At(line, col)
	if above == "" || col == firstUsed(g, top, strip) {
		return false
	}
	alone, joined := lex.Match(above), lex.Match(above, own)
	return len(joined) > 0 && traits.Of[catalog.Role(joined[0].Role)].Want == traits.Length && (len(alone) == 0 || joined[0].Score > alone[0].Score || isDiameterSign(own))
}

// isDiameterSign reports whether a text is a sign for a diameter and nothing else.
func isDiameterSign(text string) bool { return strings.Trim(text, lexicon.DiameterSigns) == "" }

// mayBePart reports whether a text may be a part number, and is no heading but perhaps that of one: N4334 could be "No." with digits.
func mayBePart(lex *lexicon.Lexicon, text string) bool {
	return lexicon.BearsDigits(text) && (len(lex.Match(text)) == 0 || headingOf(lex, catalog.Part, text))
}

// unitsOnly reports whether a line holds units and nothing else but a word for unit.
func unitsOnly(g *grid.Grid, lex *lexicon.Lexicon, line int, strip span) bool {
	units, named := 0, 0
	for col := strip.left; col <= strip.right; col++ {
		switch text := g.At(line, col); {
		case text == "":
		case lex.IsUnit(text):
			units++
		case lex.SaysUnit(text):
			named++
		default:
			return false
		}
	}
	return named == 0 || units > 0
}

// isGroupLine reports whether a line above a heading holds group headings: no values, cells that reach over several
// columns or stand above some of them, and headings that mean more with it than without.
func isGroupLine(g *grid.Grid, lex *lexicon.Lexicon, line, below int, strip span) bool {
	cells, sorts, grouped := 0, 0, false
	ages := map[int]int{}
	firstBelow := firstUsed(g, below, strip)
	for col := strip.left; col <= strip.right; col++ {
		text := g.At(line, col)
		if text == "" {
			continue
		}
		if lexicon.LooksNumeric(text) || len(text) > lexicon.LongestHeading || explainsLetter(text) || numberkey.ExplainsPlace(text) {
			return false
		}
		cells++
		ages[lex.TellsAge(text)]++
		if tellsApart(g, below, col) && lex.Words.Paid("", text).Alone {
			sorts++
		}
		_, from, _, to := g.Merged(line, col)
		wide := to-from+1 >= strip.right-firstBelow+1
		grouped = grouped || (from > firstBelow || to > from || cells > 1) && !wide
	}
	// "Before" and "After" tell columns of one heading apart, and name no size.
	changes := ages[-1] > 0 && ages[1] > 0
	return cells > 0 && grouped && (changes && ages[0] == 0 || sorts > 1 && sorts == cells || lineHelps(g, lex, line, below, strip, changes || sorts > 1))
}

// lineHelps reports whether a line of group headings makes the headings below it mean more: by their words, or by a unit. Where it tells columns
// apart, headings below its words for old and new, or for sorts of prices, mean no less with these.
func lineHelps(g *grid.Grid, lex *lexicon.Lexicon, line, below int, strip span, apart bool) bool {
	alone := Region{Grid: g, From: below, To: strip.to, Left: strip.left, Right: strip.right, Headings: []int{below}}
	joined := alone
	joined.Headings = []int{line, below}
	alone.readHeadings(lex)
	joined.readHeadings(lex)
	gain := 0.0
	for i, h := range joined.Columns {
		if apart && len(h.Parts) > 1 && (lex.TellsAge(h.Parts[0]) != 0 || lex.Words.Paid("", h.Parts[0]).Alone) {
			continue
		}
		gain += meaningOfHeading(lex, h) - meaningOfHeading(lex, alone.Columns[i])
	}
	return gain > 0
}

// meaning is how much a heading says: how certain its role is, and a little for a unit.
func meaningOfHeading(l *lexicon.Lexicon, h Heading) float64 {
	sum := 0.0
	if found := l.Match(h.Parts...); len(found) > 0 {
		sum = found[0].Score
	}
	if HeadingUnit(l, h) != "" {
		sum += 0.2
	}
	return sum
}

func firstUsed(g *grid.Grid, line int, strip span) int {
	for col := strip.left; col <= strip.right; col++ {
		if g.At(line, col) != "" {
			return col
		}
	}
	return strip.left
}

// leadIn returns the first line that belongs to a table whose heading begins at a line: the title directly above it.
func leadIn(g *grid.Grid, heading, floor int, strip span) int {
	line := heading
	for line-1 > floor && heading-line < 2 && g.BlankLine(line-1, strip.left, strip.right) {
		line--
	}
	first := line
	for line-1 > floor && first-line < 3 && countCells(g, line-1, strip) == 1 && (isTitle(firstText(g, line-1, strip)) || bearsWord(firstText(g, line-1, strip))) {
		line--
	}
	if line == first {
		return heading
	}
	return line
}

// isTitle reports whether the only text of a line may be a title: words and no value, and no part number.
func isTitle(text string) bool {
	return !lexicon.LooksNumeric(text) && (!strings.ContainsAny(text, "0123456789") || !lexicon.LooksLikeCode(text) || lexicon.HasWord(text))
}

// leastOfWord is how many letters a word has that is more than a unit or a mark behind a number.
const leastOfWord = 4

// bearsWord reports whether a text has such a word: ".355 TAPER" says more than a size does.
func bearsWord(text string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }), func(word string) bool { return len([]rune(word)) >= leastOfWord })
}

func countCells(g *grid.Grid, line int, strip span) int {
	count := 0
	for _, id := range g.Row(line, strip.left, strip.right) {
		if g.Text(id) != "" {
			count++
		}
	}
	return count
}

func firstText(g *grid.Grid, line int, strip span) string {
	return g.At(line, firstUsed(g, line, strip))
}

// readHeadings joins the fragments of the heading lines column by column.
func (r *Region) readHeadings(lex *lexicon.Lexicon) {
	strip := span{r.From, r.To, r.Left, r.Right}
	var texts []int
	unitLine := 0
	for i, line := range r.Headings {
		if i > 0 && unitsOnly(r.Grid, lex, line, strip) {
			unitLine = line
			continue
		}
		texts = append(texts, line)
	}
	r.Columns, r.calls = nil, nil
	groups := make([]Group, len(texts))
	for col := r.Left; col <= r.Right; col++ {
		h := Heading{Col: col}
		for i, line := range texts {
			text := r.Fragment(texts[i:], line, col, &groups[i])
			if text != "" && r.Grid.Filled(line, col) == "" && r.ownPrice(lex, texts[i+1:], col) {
				text = "" // the group to its left ends before it
			}
			if text != "" && !slices.Contains(h.Parts, text) {
				h.Parts = append(h.Parts, text)
			}
		}
		h.Text = strings.Join(h.Parts, " ")
		if unitLine > 0 {
			h.Unit = r.Grid.Filled(unitLine, col)
		}
		r.Columns = append(r.Columns, h)
	}
	r.findReadings(lex)
}

// Group is the text of a group of columns, as far as columns were looked at.
type Group struct{ text string }

// Fragment returns the text of one heading line above a column. Where lines follow, a cell without text of its own
// belongs to the group that begins to its left, unless merged cells say how far that reaches. It is asked for the columns from
// left to right, and before is the group that the last one leaves to the next.
func (r *Region) Fragment(lines []int, line, col int, before *Group) string {
	if len(lines) == 1 {
		return r.Grid.Filled(line, col)
	}
	text, filled := before.text, r.Grid.Filled(line, col)
	isBelow := r.Below(lines[1:], col)
	if filled != "" || !isBelow {
		text = filled
	}
	switch own := r.Grid.At(line, col); {
	case !isBelow, own == "" && filled != "":
		before.text = ""
	case own != "":
		before.text = own
		if _, from, _, to := r.Grid.Merged(line, col); to > from {
			before.text = ""
		}
	}
	return text
}

// ownPrice reports whether what stands above a column in its own lines says by itself that it gives prices or stock, which
// no group of sizes has.
func (r *Region) ownPrice(lex *lexicon.Lexicon, lines []int, col int) bool {
	for _, line := range lines {
		found := lex.Match(r.Grid.At(line, col))
		if len(found) == 0 || found[0].Score < lexicon.CertainHeading {
			continue
		}
		switch catalog.Role(found[0].Role) {
		case catalog.Price, catalog.Stock, catalog.Pack:
			return true
		}
	}
	return false
}

// Below reports whether a column has a heading of its own in one of the lines.
func (r *Region) Below(lines []int, col int) bool {
	for _, line := range lines {
		if r.Grid.At(line, col) != "" {
			return true
		}
	}
	return false
}

func (r *Region) heading(col int) Heading {
	if col < r.Left || col > r.Right {
		return Heading{}
	}
	return r.Columns[col-r.Left]
}

// findRepeats marks the lines of the body that repeat the heading.
func (r *Region) findRepeats(lex *lexicon.Lexicon) {
	r.Aside = map[int]string{}
	r.findNumbers()
	strip := span{r.From, r.To, r.Left, r.Right}
	for line := r.Body; line <= r.To; line++ {
		if !isHeadingLine(r.Grid, lex, line, r.Left, r.Right) {
			continue
		}
		again := Region{Grid: r.Grid, To: r.To, Left: r.Left, Right: r.Right}
		again.Headings = headingBlock(r.Grid, lex, line, r.Body, strip)
		again.From = leadIn(r.Grid, again.Headings[0], r.Body, strip)
		again.readHeadings(lex)
		if r.repeatedBy(lex, &again) {
			for _, repeated := range again.Headings {
				r.Aside[repeated] = RepeatedHeading
			}
		}
		line = again.Headings[len(again.Headings)-1]
	}
}

// Why lines of the body are set aside.
const (
	RepeatedHeading = "repeated heading"
	PageTitle       = "title of a page"
	ColumnNumbers   = "column numbers"
	Deviations      = "deviations of the row above"
	ExplainsHeading = "what letters of the headings stand for"
)

// findNumbers sets aside a line below the heading that numbers the columns: (1) (2) (3).
func (r *Region) findNumbers() {
	next := 1
	for col := r.Left; col <= r.Right; col++ {
		text := strings.Trim(r.Grid.At(r.Body, col), "()[]（）. ")
		if text == "" {
			continue
		}
		if text != strconv.Itoa(next) {
			return
		}
		next++
	}
	if next > 3 {
		r.Aside[r.Body] = ColumnNumbers
	}
}

// sideBySide splits a table in which the heading of the part number comes back further right, each piece with
// dimensions of its own. What stands above the pieces is looked at again for each of them: one title each, or groups.
func (r Region) sideBySide(lex *lexicon.Lexicon) []Region {
	var starts []int
	first := ""
	for _, h := range r.Columns {
		own := r.Grid.At(r.line, h.Col)
		found := lex.Match(own)
		if len(found) == 0 || found[0].Role != string(catalog.Part) || found[0].Score < lexicon.HeadingScore {
			continue
		}
		switch folded := words.Fold(own); {
		case first == "":
			first = folded
			starts = append(starts, h.Col)
		case folded == first || r.gapBefore(h.Col):
			starts = append(starts, h.Col)
		}
	}
	if len(starts) < 2 {
		return []Region{r}
	}
	var pieces []Region
	for i, start := range starts {
		piece := r
		piece.Left = start
		if i == 0 {
			piece.Left = r.Left
		}
		piece.Right = r.Right
		if i+1 < len(starts) {
			piece.Right = starts[i+1] - 1
		}
		strip := span{r.From, r.To, piece.Left, piece.Right}
		piece.Headings = headingBlock(r.Grid, lex, r.line, r.Headings[0], strip)
		piece.Body = piece.Headings[len(piece.Headings)-1] + 1
		piece.readHeadings(lex)
		if !piece.hasDimension(lex) {
			return []Region{r}
		}
		pieces = append(pieces, piece)
	}
	for i := range pieces[1:] {
		trim(pieces[i+1 : i+2])
	}
	return pieces
}

// gapBefore reports whether the column before has neither heading nor values.
func (r *Region) gapBefore(col int) bool {
	if col <= r.Left || r.heading(col-1).Text != "" {
		return false
	}
	for line := r.Body; line <= r.To; line++ {
		if r.Grid.At(line, col-1) != "" {
			return false
		}
	}
	return true
}

func (r *Region) hasDimension(lex *lexicon.Lexicon) bool {
	for _, h := range r.Columns {
		if found := lex.Match(h.Parts...); len(found) > 0 && found[0].Score >= lexicon.HeadingScore && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length {
			return true
		}
	}
	return false
}

// turnedBlocks returns the blocks of lines, set off by blank lines, whose headings stand in a column, of those that are not taken.
func turnedBlocks(g *grid.Grid, lex *lexicon.Lexicon, taken []span) []span {
	var blocks []span
	for from := 1; from <= g.Lines; {
		if g.BlankLine(from, 1, g.Width) {
			from++
			continue
		}
		if at := holding(taken, from); at >= 0 {
			from = taken[at].to + 1
			continue
		}
		to := from
		for to+1 <= g.Lines && !g.BlankLine(to+1, 1, g.Width) && holding(taken, to+1) < 0 {
			to++
		}
		if b, ok := turnedBlock(g, lex, span{from, to, 1, g.Width}); ok {
			blocks = append(blocks, b)
		}
		from = to + 1
	}
	return blocks
}

// holding returns which of some spans, from the top, has a line, -1 where none has.
func holding(spans []span, line int) int {
	at, _ := slices.BinarySearchFunc(spans, line, func(s span, line int) int { return cmp.Compare(s.to, line) })
	if at < len(spans) && spans[at].from <= line {
		return at
	}
	return -1
}

// mostAlike is how many headings of a table on its side, or labels of a card, may mean the same, on the average: a least and a greatest size.
const mostAlike = 2

// turnedBlock reports whether the headings of a block stand in a column rather than in a line, and from which line on.
func turnedBlock(g *grid.Grid, lex *lexicon.Lexicon, b span) (span, bool) {
	if b.to-b.from+1 > tallestTurn || b.to == b.from {
		return b, false
	}
	upright := 0
	for line := b.from; line <= b.to; line++ {
		upright = max(upright, len(lineRoles(g, lex, line, b.left, b.right)))
	}
	for col := b.left; col <= min(b.right, b.left+9); col++ {
		roles := map[string]bool{}
		sized := false
		first, named := 0, 0
		for line := b.from; line <= b.to; line++ {
			text := g.At(line, col)
			found := lex.Match(text)
			if text == "" || lexicon.LooksNumeric(text) || len(found) == 0 || found[0].Score < lexicon.HeadingScore || g.BlankLine(line, col+1, b.right) {
				continue
			}
			if first == 0 {
				first = line
			}
			roles[found[0].Role] = true
			named++
			sized = sized || traits.Of[catalog.Role(found[0].Role)].Want == traits.Length && mostlyNumeric(g, line, col+1, b.right)
		}
		if named > mostAlike*len(roles) { // part numbers that begin like a heading: CB-604, CB-605
			continue
		}
		if sized && len(roles) > upright && !behindCodes(g, b, col) && (roles[string(catalog.Part)] && len(roles) >= 2 || len(roles) >= 3) {
			for first > b.from && headsTurned(g, b, first, col, roles[string(catalog.Part)]) {
				first--
			}
			b.from, b.left = first, col
			return b, true
		}
	}
	return b, false
}

// behindCodes reports whether most lines of a block have a code, each another one, to the left of a column: that column describes parts, in
// words such as those for a long ferrule, and is none of headings.
func behindCodes(g *grid.Grid, b span, col int) bool {
	for left := b.left; left < col; left++ {
		codes := map[string]bool{}
		for line := b.from; line <= b.to; line++ {
			if text := g.At(line, left); lexicon.LooksLikeCode(text) && !lexicon.LooksNumeric(text) && lexicon.BearsDigits(text) {
				codes[text] = true
			}
		}
		if len(codes) >= 2 && 2*len(codes) > b.to-b.from+1 {
			return true
		}
	}
	return false
}

// headsTurned reports whether the line above a table on its side belongs to it: its corner is blank, or, where no line gives
// part numbers, it is as full as the first line.
func headsTurned(g *grid.Grid, b span, first, col int, parts bool) bool {
	cells := countCells(g, first-1, b)
	if g.At(first-1, col) == "" {
		return cells >= 2
	}
	return !parts && cells >= 3 && cells >= countCells(g, first, b)
}

func mostlyNumeric(g *grid.Grid, line, left, right int) bool {
	numeric, cells := 0, 0
	for col := left; col <= right; col++ {
		if text := g.At(line, col); text != "" {
			cells++
			if lexicon.LooksNumeric(text) {
				numeric++
			}
		}
	}
	return numeric*2 > cells
}

// turnedTable reads a block on its side.
func turnedTable(g *grid.Grid, lex *lexicon.Lexicon, b span) []Region {
	t := g.Turn()
	strip := span{from: b.left, to: b.right, left: b.from, right: b.to}
	r := Region{Grid: t, From: b.left, To: min(b.right, lastUsed(t, strip)), Left: b.from, Right: b.to, Aside: map[int]string{}}
	line := b.left
	r.Headings = headingBlock(t, lex, line, line, strip)
	r.Body = r.Headings[len(r.Headings)-1] + 1
	r.readHeadings(lex)
	return []Region{r}
}

func lastUsed(g *grid.Grid, strip span) int {
	for line := strip.to; line > strip.from; line-- {
		if !g.BlankLine(line, strip.left, strip.right) {
			return line
		}
	}
	return strip.from
}

// guessTable finds a table without a heading that was understood, by two lines in a row with a code or text and a
// value in the same columns.
func guessTable(g *grid.Grid, part span) (Region, bool) {
	for line := part.from; line < part.to; line++ {
		if !dataLike(g, line, part) || !dataLike(g, line+1, part) {
			continue
		}
		for line > part.from && mostlyValues(g, line-1, part) {
			line-- // a row whose part number is not written like the others
		}
		r := Region{Grid: g, From: part.from, To: part.to, Left: part.left, Right: part.right, Body: line, Guessed: true, Aside: map[int]string{}}
		if line > part.from && countCells(g, line-1, part) >= 2 && !mostlyNumeric(g, line-1, part.left, part.right) {
			r.Headings = []int{line - 1}
		}
		for col := r.Left; col <= r.Right; col++ {
			h := Heading{Col: col}
			if len(r.Headings) > 0 {
				h.Text = g.Filled(line-1, col)
				h.Parts = []string{h.Text}
			}
			r.Columns = append(r.Columns, h)
		}
		return r, true
	}
	return Region{}, false
}

// mostlyValues reports whether a line has as many values as other cells, and two at least.
func mostlyValues(g *grid.Grid, line int, part span) bool {
	values, cells := 0, 0
	for col := part.left; col <= part.right; col++ {
		if text := g.At(line, col); text != "" {
			cells++
			if lexicon.LooksNumeric(text) && !lexicon.IsPriceBreak(text) {
				values++
			}
		}
	}
	return values >= 2 && values*2 >= cells
}

func dataLike(g *grid.Grid, line int, part span) bool {
	first, values := false, 0
	for col := part.left; col <= part.right; col++ {
		text := g.At(line, col)
		switch {
		case text == "":
		case !first:
			if !lexicon.LooksLikeCode(text) {
				return false
			}
			first = true
		case lexicon.LooksNumeric(text):
			values++
		}
	}
	return first && values > 0
}

// RangeOf returns the range of the sheet that the table accounts for.
func (r *Region) RangeOf() sheet.Range {
	if r.Grid.Arranged() {
		return r.area
	}
	a, b := r.Grid.Ref(r.From, r.Left), r.Grid.Ref(r.To, r.Right)
	return sheet.Range{From: a, To: b}
}

// HeadingUnit returns the unit that a heading names: in its unit line, or in the heading, the lowest fragment first.
func HeadingUnit(l *lexicon.Lexicon, h Heading) string {
	if strings.HasPrefix(h.Unit, "1/1000") && lexicon.AloneFraction().MatchString(h.Unit) && !strings.HasSuffix(h.Unit, "mm") {
		return "thou"
	}
	if h.Unit != "" {
		if hit, found := l.Ask("unit", h.Unit, l.Words.Unit); found {
			return hit.Value
		}
	}
	for i := len(h.Parts) - 1; i >= 0; i-- {
		part := h.Parts[i]
		_, unit, place := l.Words.SplitUnit(part)
		if len(place) < len(part) && strings.HasPrefix(part, place) && lexicon.IsWord(place) && place != "" {
			continue
		}
		if unit != "" {
			return unit
		}
		if hits := l.Words.Units(part); len(hits) == 1 {
			return hits[0].Value
		}
	}
	return ""
}

// sampleSize is how many cells of a column are looked at to find out what it holds.
const sampleSize = 240

// SampleLines returns the lines of the body at which columns are sampled, spread over all of it. Lines with a single cell
// are titles and notes as a rule.
func (r *Region) SampleLines() []int {
	var lines []int
	count := r.To - r.Body + 1
	step := 1
	if count > sampleSize {
		step = count / sampleSize
	}
	for line := r.Body; line <= r.To; line += step {
		cells := countCells(r.Grid, line, span{r.From, r.To, r.Left, r.Right})
		if r.Aside[line] == "" && !r.Elsewhere[line] && (cells > 1 || cells == 1 && r.Right-r.Left < 2) {
			lines = append(lines, line)
		}
	}
	return lines
}
