package catalog

import (
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// region is one table in a grid: its heading, its body and the lines about it that it accounts for.
type region struct {
	grid *grid
	// from and to are the lines that the table's ledger counts: titles above and notes below included.
	from, to int
	// left and right are its columns.
	left, right int
	// line is the line by which the heading was recognised.
	line int
	// headings are the lines that hold the heading, unit lines included; empty where there is none.
	headings []int
	// body is the first line after the heading.
	body int
	// columns are the headings column by column, from left to right.
	columns []heading
	// alone is set where the table is the only one on its sheet and stands upright.
	alone bool
	// guessed is set where no heading was understood and the table was found by its values.
	guessed bool
	// aside are lines within the body that repeat the heading.
	aside map[int]string
	// calls are what the headings call for: see callsFor.
	calls []call
}

// heading is what stands above a column.
type heading struct {
	col int
	// parts are the fragments from the top; text joins them for people.
	parts []string
	text  string
	// unit is the text of the unit line.
	unit string
	// several is set where the heading names several sizes and the cells give one.
	several bool
}

const (
	// longestBlock is how many lines a heading can have.
	longestBlock = 4
	// widestSheet and tallestTurn bound the search for tables on their side, whose headings are few.
	tallestTurn = 300
)

// findTables returns the tables of a sheet from the top. Every line of the sheet is counted by at least one of them,
// unless there is none; lines that no table counts are the caller's remainder.
func findTables(g *grid, lex *lexicon, rules SheetRules) []region {
	if len(rules.HeadingRows) > 0 && fitsGrid(g, rules.HeadingRows) {
		return fixedTable(g, lex, rules.HeadingRows)
	}
	blocks := turnedBlocks(g, lex)
	var found []region
	for _, part := range uprightParts(g, blocks) {
		found = append(found, tablesIn(g, lex, part)...)
	}
	for _, block := range blocks {
		found = append(found, turnedTable(g, lex, block)...)
	}
	slices.SortStableFunc(found, func(a, b region) int {
		ra, rb := a.grid.ref(a.body, a.left), b.grid.ref(b.body, b.left)
		if ra.Row != rb.Row {
			return ra.Row - rb.Row
		}
		return ra.Col - rb.Col
	})
	if len(found) == 1 && !found[0].grid.turned {
		found[0].alone = true
		found[0].from, found[0].to = 1, g.lines
	}
	return found
}

// fixedTable is the one table whose heading lines the user has named.
func fixedTable(g *grid, lex *lexicon, lines []int) []region {
	lines = slices.Clone(lines)
	slices.Sort(lines)
	r := region{grid: g, from: 1, to: g.lines, left: 1, right: g.width, headings: lines, body: lines[len(lines)-1] + 1, alone: true}
	r.readHeadings(lex)
	r.findRepeats(lex)
	r.splitComposites(lex)
	return []region{r}
}

// fitsGrid reports whether there is something in each of the heading lines that the user has named.
func fitsGrid(g *grid, lines []int) bool {
	for _, line := range lines {
		if line < 1 || line > g.lines || g.blankLine(line, 1, g.width) {
			return false
		}
	}
	return true
}

// span is a rectangle of lines and columns.
type span struct{ from, to, left, right int }

// uprightParts returns the parts of the grid between the blocks that lie on their side.
func uprightParts(g *grid, blocks []span) []span {
	var parts []span
	next := 1
	for _, b := range blocks {
		if b.from > next {
			parts = append(parts, span{next, b.from - 1, 1, g.width})
		}
		next = b.to + 1
	}
	if next <= g.lines {
		parts = append(parts, span{next, g.lines, 1, g.width})
	}
	return parts
}

// tablesIn finds the upright tables of a part of the grid.
func tablesIn(g *grid, lex *lexicon, part span) []region {
	var found []region
	for i, strip := range strips(g, lex, part) {
		tables := stripTables(g, lex, strip)
		if i > 0 && len(tables) > 0 {
			trim(tables)
		}
		found = append(found, tables...)
	}
	if len(found) == 0 {
		if r, ok := guessTable(g, part); ok {
			found = append(found, r)
		}
	}
	return found
}

// trim takes off the lines about the tables of a strip that the strip to its left accounts for.
func trim(tables []region) {
	first, last := &tables[0], &tables[len(tables)-1]
	first.from = leadIn(first.grid, first.headings[0], first.from-1, span{first.from, first.to, first.left, first.right})
	last.to = max(lastUsed(last.grid, span{last.from, last.to, last.left, last.right}), last.body-1)
}

// strips splits a part at columns that are blank throughout, where at least two of the pieces are tables by
// themselves; a piece that is none belongs to its left neighbour.
func strips(g *grid, lex *lexicon, part span) []span {
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
func columnRuns(g *grid, part span) []span {
	used := make([]bool, g.width+2)
	for line := part.from; line <= part.to; line++ {
		for i, id := range g.row(line, part.left, part.right) {
			if id != nothing && g.text(id) != "" {
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

// standsAlone reports whether a piece has a heading line with a part number and a dimension.
func standsAlone(g *grid, lex *lexicon, piece span) bool {
	for line := piece.from; line <= piece.to; line++ {
		roles := lineRoles(g, lex, line, piece.left, piece.right)
		if len(roles) >= 2 && roles[string(Part)] > 0 && hasDimension(roles) {
			return true
		}
	}
	return false
}

func hasDimension(roles map[string]float64) bool {
	for role := range roles {
		if traits[Role(role)].want == wantLength {
			return true
		}
	}
	return false
}

// lineRoles returns the roles that the cells of a line are headings of, with the best score of each; nil where the line
// cannot be a heading, because too many of its cells are values.
func lineRoles(g *grid, lex *lexicon, line, left, right int) map[string]float64 {
	row := g.row(line, left, right)
	if tooManyValues(g, lex, row) && !headsClubs(g, lex, line, left, right) {
		return nil
	}
	cells, numeric, coded := 0, 0, 0
	for _, id := range row {
		if g.text(id) == "" {
			continue
		}
		cells++
		switch {
		case g.is(asValue, lex, id):
			numeric++
		case g.is(asDigits, lex, id):
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
		if g.text(id) == "" || g.is(asValue, lex, id) || !g.is(asHeading, lex, id) {
			continue
		}
		found := lex.match(g.text(id))
		if roles == nil {
			roles = map[string]float64{}
		}
		roles[found[0].Role] = max(roles[found[0].Role], found[0].Score)
	}
	return roles
}

// tooManyValues reports whether so many cells of a line are plainly values that it is no heading, unless it heads columns by clubs. It
// asks only what is cheap, and spares most lines the rest.
func tooManyValues(g *grid, lex *lexicon, row []contentID) bool {
	cells, numeric, either := 0, 0, 0
	for _, id := range row {
		if g.text(id) == "" {
			continue
		}
		cells++
		isNumber := g.is(asNumber, lex, id)
		if isNumber {
			numeric++
		}
		if isNumber || g.is(asDigits, lex, id) {
			either++
		}
	}
	return numeric*3 > cells || either*2 > cells
}

// headsClubs reports whether the values of a line are clubs that head columns, beside the heading of a model or part.
func headsClubs(g *grid, lex *lexicon, line, left, right int) bool {
	if clubCells(g, lex, line, left, right) < leastClubs {
		return false
	}
	named := false
	for col := left; col <= right; col++ {
		text := g.at(line, col)
		if text == "" || g.is(asClub, lex, g.id(line, col)) {
			continue
		}
		found := lex.match(text)
		switch {
		case len(found) == 0 || found[0].Score < headingScore:
			return false
		default:
			named = named || found[0].Role == string(Part) || found[0].Role == string(Description)
		}
	}
	return named
}

// isHeadingLine reports whether a line may be the heading of a table.
func isHeadingLine(g *grid, lex *lexicon, line, left, right int) bool {
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
func tableAt(g *grid, line int, strip span) (span, bool) {
	if g.turned {
		return span{}, false
	}
	for _, table := range g.sheet.Tables {
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
func (r *region) groups(next *region, lex *lexicon) bool {
	for line := r.body; line < next.headings[0]; line++ {
		if !r.grid.blankLine(line, r.left, r.right) {
			return false
		}
	}
	if next.headings[0]-r.body > 2 || len(r.headings)+len(next.headings) > longestBlock {
		return false
	}
	joined := *next
	joined.headings = append(slices.Clone(r.headings), next.headings...)
	joined.readHeadings(lex)
	gain := 0.0
	for i := range joined.columns {
		gain += meaningOfHeading(lex, joined.columns[i]) - meaningOfHeading(lex, next.columns[i])
	}
	return gain > 0
}

// isNewHeading reports whether a line below a table that is no row of it may be a heading again: it is no note, has something below it, and if there are values in it, it also names a size, or else a row of data with words such as iron would
// be lost.
func isNewHeading(g *grid, lex *lexicon, line int, strip span) bool {
	first := firstText(g, line, strip)
	if _, isNote := lex.ask("note", first, lex.words.IsNote); isNote || leadingMark().MatchString(first) || lastUsed(g, strip) <= line {
		return false
	}
	for col := strip.left; col <= strip.right; col++ {
		if lex.looksValue(g.at(line, col)) {
			return hasDimension(lineRoles(g, lex, line, strip.left, strip.right))
		}
	}
	return true
}

// continues reports whether a line holds what the table's headings call for, and so is a row of it whatever its words might
// mean as headings: a size under a size, a code under the part number, countersunk under the form of the top.
func (r *region) continues(lex *lexicon, line int) bool {
	g := r.grid
	if headsClubs(g, lex, line, r.left, r.right) {
		return false
	}
	for _, call := range r.callsFor(lex) {
		if id := g.id(line, call.col); g.text(id) != "" && call.by(g, lex, id) {
			return true
		}
	}
	return false
}

// call is what the heading of a column calls for.
type call struct {
	col int
	by  func(*grid, *lexicon, contentID) bool
}

// callsFor returns what the headings of a table call for, sizes first, since they are told at a glance.
func (r *region) callsFor(lex *lexicon) []call {
	if r.calls != nil {
		return r.calls
	}
	r.calls = []call{}
	var others []call
	for _, h := range r.columns {
		found := lex.match(h.parts...)
		if len(found) == 0 || found[0].Score < headingScore {
			continue
		}
		role := Role(found[0].Role)
		if traits[role].want == wantLength {
			r.calls = append(r.calls, call{h.col, func(g *grid, lex *lexicon, id contentID) bool { return g.is(asValue, lex, id) }})
		} else if by := calledFor(lex, role); by != nil {
			others = append(others, call{h.col, func(g *grid, _ *lexicon, id contentID) bool { return by(g.text(id)) }})
		}
	}
	r.calls = append(r.calls, others...)
	return r.calls
}

// calledFor returns the question whether a text is plainly a value of a role that is no size, and no heading; nil where that cannot be
// told.
func calledFor(lex *lexicon, role Role) func(text string) bool {
	var name string
	var answer func(string) (words.Hit, bool)
	switch role {
	case Part:
		return func(text string) bool { return bearsDigits(text) && len(lex.match(text)) == 0 }
	case Category:
		name, answer = "category", lex.words.Category
	case Top:
		name, answer = "top", lex.words.TopForm
	case Style:
		name, answer = "style", lex.words.Style
	case Material:
		name, answer = "material", lex.words.Material
	default:
		return nil
	}
	return func(text string) bool {
		hit, known := lex.ask(name, text, answer)
		return known && hit.Score >= headingScore && !headingOf(lex, role, text)
	}
}

// headingOf reports whether a text is a heading of a role.
func headingOf(lex *lexicon, role Role, text string) bool {
	found := lex.match(text)
	return len(found) > 0 && Role(found[0].Role) == role
}

// stripTables finds the tables of a strip one below the other.
func stripTables(g *grid, lex *lexicon, strip span) []region {
	var found []region
	for line := strip.from; line <= strip.to; line++ {
		table, declared := tableAt(g, line, strip)
		declared = declared && len(lineRoles(g, lex, line, table.left, table.right)) > 0
		// Most lines are rows of the table above, which is told sooner than whether they could be a heading.
		if !declared && len(found) > 0 && found[len(found)-1].continues(lex, line) || !declared && !isHeadingLine(g, lex, line, strip.left, strip.right) {
			continue
		}
		floor := strip.from
		if len(found) > 0 {
			if !declared && !isNewHeading(g, lex, line, strip) {
				continue
			}
			floor = found[len(found)-1].body
		}
		r := region{grid: g, from: strip.from, to: strip.to, left: strip.left, right: strip.right, line: line}
		if declared {
			r.left, r.right = table.left, table.right
		}
		r.headings = headingBlock(g, lex, line, floor, span{strip.from, strip.to, r.left, r.right})
		r.body = r.headings[len(r.headings)-1] + 1
		r.readHeadings(lex)
		line = r.body - 1
		if n := len(found) - 1; n >= 0 && found[n].groups(&r, lex) {
			r.from, r.headings = found[n].from, append(slices.Clone(found[n].headings), r.headings...)
			r.readHeadings(lex)
			found = found[:n]
		}
		if len(found) > 0 {
			above := &found[len(found)-1]
			if above.sameHeadings(r.columns) {
				for _, repeated := range r.headings {
					above.aside[repeated] = repeatedHeading
				}
				continue
			}
			r.from = leadIn(g, r.headings[0], above.body, strip)
			above.to = r.from - 1
		}
		r.aside = map[int]string{}
		r.findNumbers()
		found = append(found, r)
	}
	var split []region
	for _, r := range found {
		split = append(split, r.sideBySide(lex)...)
	}
	for i := range split {
		split[i].splitComposites(lex)
	}
	return split
}

// headingBlock returns the lines of the heading that holds a line: unit lines and further fragments below it, and group
// headings above it.
func headingBlock(g *grid, lex *lexicon, line, floor int, strip span) []int {
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
func continuesHeading(g *grid, lex *lexicon, line, top int, strip span) bool {
	cells, known, numeric := 0, 0, 0
	for col := strip.left; col <= strip.right; col++ {
		text := g.at(line, col)
		if text == "" {
			continue
		}
		cells++
		switch {
		case lex.isUnit(text), lex.isLimit(text):
			known++
		case looksNumeric(text):
			numeric++
		case len(lex.match(text)) > 0 && lex.match(text)[0].Score >= headingScore,
			g.at(top, col) != "" && len(lex.match(g.at(top, col), text)) > len(lex.match(g.at(top, col))):
			known++
		}
	}
	if isClubLine(g, lex, line, top, strip) {
		return true
	}
	return cells > 0 && numeric == 0 && known*2 > cells && (known >= 2 || cells == 1 && known == 1 && unitsOnly(g, lex, line, strip))
}

// unitsOnly reports whether a line holds units and nothing else but a word for unit.
func unitsOnly(g *grid, lex *lexicon, line int, strip span) bool {
	units, named := 0, 0
	for col := strip.left; col <= strip.right; col++ {
		switch text := g.at(line, col); {
		case text == "":
		case lex.isUnit(text):
			units++
		case lex.saysUnit(text):
			named++
		default:
			return false
		}
	}
	return named == 0 || units > 0
}

// isGroupLine reports whether a line above a heading holds group headings: no values, cells that reach over several
// columns or stand above some of them, and headings that mean more with it than without.
func isGroupLine(g *grid, lex *lexicon, line, below int, strip span) bool {
	cells, grouped := 0, false
	firstBelow := firstUsed(g, below, strip)
	for col := strip.left; col <= strip.right; col++ {
		text := g.at(line, col)
		if text == "" {
			continue
		}
		if looksNumeric(text) || len(text) > longestHeading {
			return false
		}
		cells++
		_, from, _, to := g.merged(line, col)
		wide := to-from+1 >= strip.right-firstBelow+1
		grouped = grouped || (from > firstBelow || to > from || cells > 1) && !wide
	}
	return cells > 0 && grouped && lineHelps(g, lex, line, below, strip)
}

// lineHelps reports whether a line of group headings makes the headings below it mean more: by their words, or by a unit.
func lineHelps(g *grid, lex *lexicon, line, below int, strip span) bool {
	alone := region{grid: g, from: below, to: strip.to, left: strip.left, right: strip.right, headings: []int{below}}
	joined := alone
	joined.headings = []int{line, below}
	alone.readHeadings(lex)
	joined.readHeadings(lex)
	gain := 0.0
	for i := range joined.columns {
		gain += meaningOfHeading(lex, joined.columns[i]) - meaningOfHeading(lex, alone.columns[i])
	}
	return gain > 0
}

// meaning is how much a heading says: how certain its role is, and a little for a unit.
func meaningOfHeading(l *lexicon, h heading) float64 {
	sum := 0.0
	if found := l.match(h.parts...); len(found) > 0 {
		sum = found[0].Score
	}
	if headingUnit(l, h) != "" {
		sum += 0.2
	}
	return sum
}

func firstUsed(g *grid, line int, strip span) int {
	for col := strip.left; col <= strip.right; col++ {
		if g.at(line, col) != "" {
			return col
		}
	}
	return strip.left
}

// leadIn returns the first line that belongs to a table whose heading begins at a line: the title directly above it.
func leadIn(g *grid, heading, floor int, strip span) int {
	line := heading
	for line-1 > floor && heading-line < 2 && g.blankLine(line-1, strip.left, strip.right) {
		line--
	}
	first := line
	for line-1 > floor && first-line < 3 && countCells(g, line-1, strip) == 1 && isTitle(firstText(g, line-1, strip)) {
		line--
	}
	if line == first {
		return heading
	}
	return line
}

// isTitle reports whether the only text of a line may be a title: words and no value, and no part number.
func isTitle(text string) bool {
	return !looksNumeric(text) && (!strings.ContainsAny(text, "0123456789") || !looksLikeCode(text) || hasWord(text))
}

func countCells(g *grid, line int, strip span) int {
	count := 0
	for _, id := range g.row(line, strip.left, strip.right) {
		if g.text(id) != "" {
			count++
		}
	}
	return count
}

func firstText(g *grid, line int, strip span) string {
	return g.at(line, firstUsed(g, line, strip))
}

// readHeadings joins the fragments of the heading lines column by column.
func (r *region) readHeadings(lex *lexicon) {
	strip := span{r.from, r.to, r.left, r.right}
	var texts []int
	unitLine := 0
	for i, line := range r.headings {
		if i > 0 && unitsOnly(r.grid, lex, line, strip) {
			unitLine = line
			continue
		}
		texts = append(texts, line)
	}
	r.columns, r.calls = nil, nil
	groups := make([]group, len(texts))
	for col := r.left; col <= r.right; col++ {
		h := heading{col: col}
		for i, line := range texts {
			text := r.fragment(texts[i:], line, col, &groups[i])
			if text != "" && r.grid.filled(line, col) == "" && r.ownPrice(lex, texts[i+1:], col) {
				text = "" // the group to its left ends before it
			}
			if text != "" && !slices.Contains(h.parts, text) {
				h.parts = append(h.parts, text)
			}
		}
		h.text = strings.Join(h.parts, " ")
		if unitLine > 0 {
			h.unit = r.grid.filled(unitLine, col)
		}
		r.columns = append(r.columns, h)
	}
}

// group is the text of a group of columns, as far as columns were looked at.
type group struct{ text string }

// fragment returns the text of one heading line above a column. Where lines follow, a cell without text of its own
// belongs to the group that begins to its left, unless merged cells say how far that reaches. It is asked for the columns from
// left to right, and before is the group that the last one leaves to the next.
func (r *region) fragment(lines []int, line, col int, before *group) string {
	if len(lines) == 1 {
		return r.grid.filled(line, col)
	}
	text, filled := before.text, r.grid.filled(line, col)
	isBelow := r.below(lines[1:], col)
	if filled != "" || !isBelow {
		text = filled
	}
	switch own := r.grid.at(line, col); {
	case !isBelow, own == "" && filled != "":
		before.text = ""
	case own != "":
		before.text = own
		if _, from, _, to := r.grid.merged(line, col); to > from {
			before.text = ""
		}
	}
	return text
}

// ownPrice reports whether what stands above a column in its own lines says by itself that it gives prices or stock, which
// no group of sizes has.
func (r *region) ownPrice(lex *lexicon, lines []int, col int) bool {
	for _, line := range lines {
		found := lex.match(r.grid.at(line, col))
		if len(found) == 0 || found[0].Score < certainHeading {
			continue
		}
		switch Role(found[0].Role) {
		case Price, Stock, Pack:
			return true
		}
	}
	return false
}

// below reports whether a column has a heading of its own in one of the lines.
func (r *region) below(lines []int, col int) bool {
	for _, line := range lines {
		if r.grid.at(line, col) != "" {
			return true
		}
	}
	return false
}

// sameHeadings reports whether another heading says the same.
func (r *region) sameHeadings(others []heading) bool {
	same, different := 0, 0
	for _, other := range others {
		own := r.heading(other.col)
		switch {
		case own.text == "" && other.text == "":
		case words.Fold(own.text) == words.Fold(other.text):
			same++
		default:
			different++
		}
	}
	return same > 0 && different*4 <= same
}

func (r *region) heading(col int) heading {
	if col < r.left || col > r.right {
		return heading{}
	}
	return r.columns[col-r.left]
}

// findRepeats marks the lines of the body that repeat the heading.
func (r *region) findRepeats(lex *lexicon) {
	r.aside = map[int]string{}
	r.findNumbers()
	strip := span{r.from, r.to, r.left, r.right}
	for line := r.body; line <= r.to; line++ {
		if !isHeadingLine(r.grid, lex, line, r.left, r.right) {
			continue
		}
		again := region{grid: r.grid, from: r.from, to: r.to, left: r.left, right: r.right}
		again.headings = headingBlock(r.grid, lex, line, r.body, strip)
		again.readHeadings(lex)
		if r.sameHeadings(again.columns) {
			for _, repeated := range again.headings {
				r.aside[repeated] = repeatedHeading
			}
		}
		line = again.headings[len(again.headings)-1]
	}
}

// Why lines of the body are set aside.
const (
	repeatedHeading = "repeated heading"
	columnNumbers   = "column numbers"
)

// findNumbers sets aside a line below the heading that numbers the columns: (1) (2) (3).
func (r *region) findNumbers() {
	next := 1
	for col := r.left; col <= r.right; col++ {
		text := strings.Trim(r.grid.at(r.body, col), "()[]（）. ")
		if text == "" {
			continue
		}
		if text != strconv.Itoa(next) {
			return
		}
		next++
	}
	if next > 3 {
		r.aside[r.body] = columnNumbers
	}
}

// sideBySide splits a table in which the heading of the part number comes back further right, each piece with
// dimensions of its own. What stands above the pieces is looked at again for each of them: one title each, or groups.
func (r region) sideBySide(lex *lexicon) []region {
	var starts []int
	first := ""
	for _, h := range r.columns {
		own := r.grid.at(r.line, h.col)
		found := lex.match(own)
		if len(found) == 0 || found[0].Role != string(Part) || found[0].Score < headingScore {
			continue
		}
		switch folded := words.Fold(own); {
		case first == "":
			first = folded
			starts = append(starts, h.col)
		case folded == first || r.gapBefore(h.col):
			starts = append(starts, h.col)
		}
	}
	if len(starts) < 2 {
		return []region{r}
	}
	var pieces []region
	for i, start := range starts {
		piece := r
		piece.left = start
		if i == 0 {
			piece.left = r.left
		}
		piece.right = r.right
		if i+1 < len(starts) {
			piece.right = starts[i+1] - 1
		}
		strip := span{r.from, r.to, piece.left, piece.right}
		piece.headings = headingBlock(r.grid, lex, r.line, r.headings[0], strip)
		piece.body = piece.headings[len(piece.headings)-1] + 1
		piece.readHeadings(lex)
		if !piece.hasDimension(lex) {
			return []region{r}
		}
		pieces = append(pieces, piece)
	}
	for i := range pieces[1:] {
		trim(pieces[i+1 : i+2])
	}
	return pieces
}

// gapBefore reports whether the column before has neither heading nor values.
func (r *region) gapBefore(col int) bool {
	if col <= r.left || r.heading(col-1).text != "" {
		return false
	}
	for line := r.body; line <= r.to; line++ {
		if r.grid.at(line, col-1) != "" {
			return false
		}
	}
	return true
}

func (r *region) hasDimension(lex *lexicon) bool {
	for _, h := range r.columns {
		if found := lex.match(h.parts...); len(found) > 0 && found[0].Score >= headingScore && traits[Role(found[0].Role)].want == wantLength {
			return true
		}
	}
	return false
}

// turnedBlocks returns the blocks of lines, set off by blank lines, whose headings stand in a column.
func turnedBlocks(g *grid, lex *lexicon) []span {
	var blocks []span
	for from := 1; from <= g.lines; {
		if g.blankLine(from, 1, g.width) {
			from++
			continue
		}
		to := from
		for to+1 <= g.lines && !g.blankLine(to+1, 1, g.width) {
			to++
		}
		if b, ok := turnedBlock(g, lex, span{from, to, 1, g.width}); ok {
			blocks = append(blocks, b)
		}
		from = to + 1
	}
	return blocks
}

// turnedBlock reports whether the headings of a block stand in a column rather than in a line, and from which line on.
func turnedBlock(g *grid, lex *lexicon, b span) (span, bool) {
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
		first := 0
		for line := b.from; line <= b.to; line++ {
			text := g.at(line, col)
			found := lex.match(text)
			if text == "" || looksNumeric(text) || len(found) == 0 || found[0].Score < headingScore || g.blankLine(line, col+1, b.right) {
				continue
			}
			if first == 0 {
				first = line
			}
			roles[found[0].Role] = true
			sized = sized || traits[Role(found[0].Role)].want == wantLength && mostlyNumeric(g, line, col+1, b.right)
		}
		if sized && len(roles) > upright && (roles[string(Part)] && len(roles) >= 2 || len(roles) >= 3) {
			for first > b.from && headsTurned(g, b, first, col, roles[string(Part)]) {
				first--
			}
			b.from, b.left = first, col
			return b, true
		}
	}
	return b, false
}

// headsTurned reports whether the line above a table on its side belongs to it: its corner is blank, or, where no line gives
// part numbers, it is as full as the first line.
func headsTurned(g *grid, b span, first, col int, parts bool) bool {
	cells := countCells(g, first-1, b)
	if g.at(first-1, col) == "" {
		return cells >= 2
	}
	return !parts && cells >= 3 && cells >= countCells(g, first, b)
}

func mostlyNumeric(g *grid, line, left, right int) bool {
	numeric, cells := 0, 0
	for col := left; col <= right; col++ {
		if text := g.at(line, col); text != "" {
			cells++
			if looksNumeric(text) {
				numeric++
			}
		}
	}
	return numeric*2 > cells
}

// turnedTable reads a block on its side.
func turnedTable(g *grid, lex *lexicon, b span) []region {
	t := g.turn()
	strip := span{from: b.left, to: b.right, left: b.from, right: b.to}
	r := region{grid: t, from: b.left, to: min(b.right, lastUsed(t, strip)), left: b.from, right: b.to, aside: map[int]string{}}
	line := b.left
	r.headings = headingBlock(t, lex, line, line, strip)
	r.body = r.headings[len(r.headings)-1] + 1
	r.readHeadings(lex)
	return []region{r}
}

func lastUsed(g *grid, strip span) int {
	for line := strip.to; line > strip.from; line-- {
		if !g.blankLine(line, strip.left, strip.right) {
			return line
		}
	}
	return strip.from
}

// guessTable finds a table without a heading that was understood, by two lines in a row with a code or text and a
// value in the same columns.
func guessTable(g *grid, part span) (region, bool) {
	for line := part.from; line < part.to; line++ {
		if !dataLike(g, line, part) || !dataLike(g, line+1, part) {
			continue
		}
		for line > part.from && mostlyValues(g, line-1, part) {
			line-- // a row whose part number is not written like the others
		}
		r := region{grid: g, from: part.from, to: part.to, left: part.left, right: part.right, body: line, guessed: true, aside: map[int]string{}}
		if line > part.from && countCells(g, line-1, part) >= 2 && !mostlyNumeric(g, line-1, part.left, part.right) {
			r.headings = []int{line - 1}
		}
		for col := r.left; col <= r.right; col++ {
			h := heading{col: col}
			if len(r.headings) > 0 {
				h.text = g.filled(line-1, col)
				h.parts = []string{h.text}
			}
			r.columns = append(r.columns, h)
		}
		return r, true
	}
	return region{}, false
}

// mostlyValues reports whether a line has as many values as other cells, and two at least.
func mostlyValues(g *grid, line int, part span) bool {
	values, cells := 0, 0
	for col := part.left; col <= part.right; col++ {
		if text := g.at(line, col); text != "" {
			cells++
			if looksNumeric(text) && !isPriceBreak(text) {
				values++
			}
		}
	}
	return values >= 2 && values*2 >= cells
}

func dataLike(g *grid, line int, part span) bool {
	first, values := false, 0
	for col := part.left; col <= part.right; col++ {
		text := g.at(line, col)
		switch {
		case text == "":
		case !first:
			if !looksLikeCode(text) {
				return false
			}
			first = true
		case looksNumeric(text):
			values++
		}
	}
	return first && values > 0
}

// rangeOf returns the range of the sheet that the table accounts for.
func (r *region) rangeOf() sheet.Range {
	a, b := r.grid.ref(r.from, r.left), r.grid.ref(r.to, r.right)
	return sheet.Range{From: a, To: b}
}

// headingUnit returns the unit that a heading names: in its unit line, or in the heading, the lowest fragment first.
func headingUnit(l *lexicon, h heading) string {
	if strings.HasPrefix(h.unit, "1/1000") && aloneFraction().MatchString(h.unit) && !strings.HasSuffix(h.unit, "mm") {
		return "thou"
	}
	if h.unit != "" {
		if hit, found := l.ask("unit", h.unit, l.words.Unit); found {
			return hit.Value
		}
	}
	for i := len(h.parts) - 1; i >= 0; i-- {
		part := h.parts[i]
		_, unit, place := l.words.SplitUnit(part)
		if len(place) < len(part) && strings.HasPrefix(part, place) && isWord(place) && place != "" {
			continue
		}
		if unit != "" {
			return unit
		}
		if hits := l.words.Units(part); len(hits) == 1 {
			return hits[0].Value
		}
	}
	return ""
}

// sampleSize is how many cells of a column are looked at to find out what it holds.
const sampleSize = 240

// sampleLines returns the lines of the body at which columns are sampled, spread over all of it. Lines with a single cell
// are titles and notes as a rule.
func (r *region) sampleLines() []int {
	var lines []int
	count := r.to - r.body + 1
	step := 1
	if count > sampleSize {
		step = count / sampleSize
	}
	for line := r.body; line <= r.to; line += step {
		cells := countCells(r.grid, line, span{r.from, r.to, r.left, r.right})
		if r.aside[line] == "" && (cells > 1 || cells == 1 && r.right-r.left < 2) {
			lines = append(lines, line)
		}
	}
	return lines
}
