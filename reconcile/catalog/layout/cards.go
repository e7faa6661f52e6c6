package layout

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// Some sheets give each part as a card: lines of a label with its value behind a colon or in the next cell, one card after another and
// several side by side. A form is one card on a sheet. They are read as a table with a column for each label and a line for each card.

// entry is a label of a card with its value, each with its cell; they stand in one cell where a colon or dots are between.
type entry struct {
	label, value string
	at, valueAt  sheet.Ref
	role         catalog.Role
	// copied is set where the part has the sizes of another one, as is said of it.
	copied bool
}

// card is one part: its entries in the order of the sheet.
type card []entry

// last is the last row of a card.
func (c card) last() int {
	last := 0
	for i := range c {
		last = max(last, c[i].at.Row, c[i].valueAt.Row)
	}
	return last
}

const (
	// cardProbe is how many lines that are not blank are looked at to find out whether a sheet has cards.
	cardProbe = 80
	// widestCards is how many columns a sheet of cards may have, and how many labels.
	widestCards = 60
	// farthestValue is how many columns behind its label a value may stand.
	farthestValue = 4
)

// cards finds the cards of a sheet, as one table; nil where it has none.
func cards(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	lanes := cardLanes(g, lex)
	if lanes == nil {
		return nil
	}
	var beside [][]card
	var left []card // the cards of the last lane that names parts
	valued := valuedLabels(g, lanes)
	for i, lane := range lanes {
		entries := laneEntries(g, lex, lane, rightOf(g, columnsOf(lanes), i), valued)
		own, ok := cardsOf(entries)
		switch {
		case !ok:
			return nil
		case len(left) > 0 && goesOn(lex, left, entries):
			addBeside(left, entries)
		case len(own) > 0:
			beside = append(beside, own)
			left = own
		case len(left) > 0:
			addBeside(left, entries)
		default:
			return nil
		}
	}
	if !namedAndSized(slices.Concat(beside...)) {
		return nil
	}
	for _, own := range beside {
		for i := range own {
			own[i] = severalLabels(lex, own[i])
		}
		nameBehindNumber(own)
		apartFromLabels(lex, own)
	}
	return arrangeBeside(g, beside)
}

// nameBehindNumber takes the names of parts off their numbers, where all cards have one behind theirs, and no description: "KT-6 driver head".
func nameBehindNumber(all []card) {
	for _, c := range all {
		at := slices.IndexFunc(c, func(e entry) bool { return e.role == catalog.Part })
		if at < 0 || hasRole(c, catalog.Description) {
			return
		}
		if number, name, _ := strings.Cut(c[at].value, " "); !lexicon.IsItemNumber(number) || !lexicon.HasWord(name) && !strings.ContainsFunc(name, lexicon.IsWide) || strings.ContainsFunc(name, unicode.IsDigit) {
			return
		}
	}
	for i, c := range all {
		at := slices.IndexFunc(c, func(e entry) bool { return e.role == catalog.Part })
		number, name, _ := strings.Cut(c[at].value, " ")
		c[at].value = number
		all[i] = append(c, entry{label: "description", value: name, at: c[at].at, valueAt: c[at].valueAt, role: catalog.Description})
	}
}

// cardLane is a column with the labels of cards. Inner is another one within it that has labels as well, below titles in the first: 0 where
// there is none.
type cardLane struct{ col, inner int }

// columnsOf returns the columns of lanes.
func columnsOf(lanes []cardLane) []int {
	columns := make([]int, len(lanes))
	for i, lane := range lanes {
		columns[i] = lane.col
	}
	return columns
}

// holdsIndented reports whether the labels in a column stand below titles of the one before, which has nothing beside them.
func holdsIndented(g *grid.Grid, lex *lexicon.Lexicon, outer, inner int) bool {
	titles := 0
	for line := 1; line <= g.Lines; line++ {
		label, beside := g.At(line, outer), countCells(g, line, span{left: inner + 1, right: g.Width})
		if g.At(line, inner) == "" || beside == 0 {
			continue
		}
		if label != "" && namesSize(lex, g.At(line, inner)) {
			return false
		}
		if above := g.At(line-1, outer); label == "" && above != "" && countCells(g, line-1, span{left: outer, right: g.Width}) == 1 {
			titles++
		}
	}
	return titles >= leastTitles
}

// underTitle returns a label and its role: with the title above it, where that makes it the name of another size.
func underTitle(lex *lexicon.Lexicon, title, label string) (string, catalog.Role) {
	role, score := lex.RoleOfLabel(label)
	if score < lexicon.HeadingScore {
		role = ""
	}
	if title == "" || len(title)+len(label) > lexicon.LongestLabel || role != "" && traits.Of[role].Want != traits.Length {
		return label, role
	}
	joined, sure := lex.RoleOfLabel(title + " " + label)
	if traits.Of[joined].Want == traits.Length && joined != role && sure >= max(score, lexicon.HeadingScore) {
		return title + " " + label, joined
	}
	return label, role
}

// rightOf returns the last column of a lane.
func rightOf(g *grid.Grid, lanes []int, i int) int {
	if i+1 < len(lanes) {
		return lanes[i+1] - 1
	}
	return g.Width
}

// goesOn reports whether a lane says more of the cards to its left, which have part numbers: it has none, but for what may be names as well,
// such as those of models, and none of their labels.
func goesOn(lex *lexicon.Lexicon, left []card, entries []entry) bool {
	numbered := func(e entry) bool { return e.role == catalog.Part && !mayName(lex, e.label) }
	switch {
	case slices.ContainsFunc(entries, numbered), !hasRole(left[0], catalog.Part):
		return false
	case hasRole(entries, catalog.Part) && !slices.ContainsFunc(left[0], numbered):
		return false
	}
	labels := map[string]bool{}
	for _, c := range left {
		for _, e := range c {
			labels[words.Fold(e.label)] = true
		}
	}
	return !slices.ContainsFunc(entries, func(e entry) bool { return e.role != "" && labels[words.Fold(e.label)] })
}

// mayName reports whether a label may be that of names.
func mayName(lex *lexicon.Lexicon, label string) bool {
	return slices.ContainsFunc(lex.Match(label), func(m words.RoleMatch) bool { return catalog.Role(m.Role) == catalog.Description })
}

// cardLanes returns the columns in which the labels of cards stand, from the left; nil where the first lines of the sheet are not mostly
// labels with their values.
func cardLanes(g *grid.Grid, lex *lexicon.Lexicon) []cardLane {
	if g.Width > widestCards {
		return nil
	}
	counts := make([]int, g.Width+1)
	named, sized := false, false
	paired := 0
	var others []int // the lines without a label that counts, or with a value that has none
	for line, probed := 1, 0; line <= g.Lines && probed < cardProbe; line++ {
		if g.BlankLine(line, 1, g.Width) {
			continue
		}
		probed++
		found, pure := linePairs(g, lex, line)
		if len(found) == 0 || !pure {
			others = append(others, line)
			continue
		}
		paired++
		for _, e := range found {
			counts[e.at.Col]++
			named = named || e.role == catalog.Part || e.role == catalog.Description
			sized = sized || traits.Of[e.role].Want == traits.Length
		}
	}
	if !named || !sized || paired < leastPairs {
		return nil
	}
	var lanes []cardLane
	for col, count := range counts {
		switch n := len(lanes); {
		case count < leastInLane:
		case n > 0 && lanes[n-1].inner == 0 && holdsIndented(g, lex, lanes[n-1].col, col):
			lanes[n-1].inner = col
		default:
			lanes = append(lanes, cardLane{col: col})
		}
	}
	alike := 0
	for _, line := range others {
		if inLanes(g, lex, line, lanes) {
			alike++
		}
	}
	if paired+min(paired, alike) < len(others)-alike {
		return nil
	}
	return lanes
}

// inLanes reports whether a line, like those of cards, has words and something behind them in each lane that it uses, and nothing before the
// first: a weight, a price.
func inLanes(g *grid.Grid, lex *lexicon.Lexicon, line int, lanes []cardLane) bool {
	if len(lanes) == 0 || firstUsed(g, line, span{left: 1, right: g.Width}) < lanes[0].col {
		return false
	}
	for i, lane := range lanes {
		label, cells := g.At(line, lane.col), countCells(g, line, span{left: lane.col, right: rightOf(g, columnsOf(lanes), i)})
		_, value, _ := lexicon.CutLabel(label)
		if cells > 0 && (label == "" || cells == 1 && value == "" || lexicon.BearsDigits(label) || lex.LooksValue(label)) {
			return false
		}
	}
	return true
}

const (
	// leastPairs is how many lines with a label and its value make cards, and leastInLane how many labels of parts or sizes stand below
	// each other.
	leastPairs  = 3
	leastInLane = 2
	// leastTitles is below how many titles there are labels in a second column.
	leastTitles = 2
)

// linePairs returns the labels of parts and sizes in a line that have their value, and whether all values of the line have a label.
func linePairs(g *grid.Grid, lex *lexicon.Lexicon, line int) (found []entry, pure bool) {
	pure = true
	var open *entry
	called := false // whether a colon behind the open label calls for its value
	for i, id := range g.Row(line, 1, g.Width) {
		text := g.Text(id)
		if text == "" {
			continue
		}
		at := g.Ref(line, i+1)
		label, value, colon := lexicon.CutLabel(text)
		role, score := lex.RoleOfLabel(label)
		known := score >= lexicon.HeadingScore || namesItem(lex, label, g.At(line, i+2))
		isLabel := colon && known || !g.Is(lexicon.AsValue, lex, id) && (known && !(open != nil && called) || colon)
		switch {
		case open != nil && measures(lex, text) && lex.LooksValue(g.At(line, i+2)):
		case open != nil && (!isLabel || traits.Of[role].Want != traits.Length && role != catalog.Part || open.role == catalog.Part && lexicon.IsItemNumber(text)):
			open.value, open.valueAt = text, at
			if counts(open) {
				found = append(found, *open)
			}
			open = nil
		case isLabel && colon && value != "":
			if e := (entry{label: label, value: value, at: at, valueAt: at, role: role}); counts(&e) {
				found = append(found, e)
			}
			open = nil
		case isLabel:
			open, called = &entry{label: label, at: at, role: role}, colon
		case g.Is(lexicon.AsValue, lex, id) && !lex.IsUnit(text):
			pure = false
		}
	}
	return found, pure
}

// namesItem reports whether a label may be one of part numbers, and what stands beside it is such: "Bin item".
func namesItem(lex *lexicon.Lexicon, label, beside string) bool {
	role, score := lex.RoleOfLabel(label)
	return role == catalog.Part && score >= lexicon.LeastHeading && lexicon.IsItemNumber(beside)
}

// sized reports whether a label with its value is one of a size.
func (e *entry) sized() bool { return traits.Of[e.role].Want == traits.Length && counts(e) }

// counts reports whether a label with its value is one of a part's number, name or size.
func counts(e *entry) bool {
	switch {
	case e.role == catalog.Part || e.role == catalog.Description:
		return true
	case traits.Of[e.role].Want == traits.Length:
		return strings.ContainsFunc(e.value, unicode.IsNumber)
	}
	return false
}

// namesSize reports whether a label is that of a size, for certain.
func namesSize(lex *lexicon.Lexicon, label string) bool {
	role, score := lex.RoleOfLabel(label)
	return score >= lexicon.HeadingScore && traits.Of[role].Want == traits.Length
}

// valuedLabels are the labels, folded, that have a value beside them on some card: where one has none it was left blank, and is no title.
func valuedLabels(g *grid.Grid, lanes []cardLane) map[string]bool {
	valued := map[string]bool{}
	for line := 1; line <= g.Lines; line++ {
		for _, lane := range lanes {
			if label := g.At(line, lane.col); label != "" && g.At(line, lane.col+1) != "" {
				valued[words.Fold(label)] = true
			}
		}
	}
	return valued
}

// ofAllLanes reports whether a line in which part numbers stand beside each other, below one label each, has a single text above it, which is the
// title of all these cards and says nothing of the sizes of one.
func ofAllLanes(g *grid.Grid, lex *lexicon.Lexicon, line, col int) bool {
	if countCells(g, line-1, span{left: 1, right: g.Width}) != 1 {
		return false
	}
	label, _, _ := lexicon.CutLabel(g.At(line, col))
	role, _ := lex.RoleOfLabel(label)
	for beside := col + 1; role == catalog.Part && beside <= g.Width; beside++ {
		if again, _, _ := lexicon.CutLabel(g.At(line, beside)); again == label {
			return true
		}
	}
	return false
}

// valuesBehind returns how many columns behind the labels of a lane most values stand: the next one, unless a column with units, or with a picture
// beside the first label, is between.
func valuesBehind(g *grid.Grid, lex *lexicon.Lexicon, lane cardLane, right int) int {
	var filled [farthestValue + 1]int
	for line := 1; line <= g.Lines; line++ {
		row := g.Row(line, lane.col, min(right, lane.col+farthestValue))
		if len(row) == 0 || g.Text(row[0]) == "" {
			continue
		}
		for i, id := range row[1:] {
			_, _, colon := lexicon.CutLabel(g.Text(id))
			if text := g.Text(id); text != "" && !colon && !measures(lex, text) && !namesSize(lex, text) {
				filled[i+1]++
			}
		}
	}
	best := 1
	for i, n := range filled {
		if n > filled[best] {
			best = i
		}
	}
	return best
}

// measures reports whether a text by itself is a unit or names a currency.
func measures(lex *lexicon.Lexicon, text string) bool {
	return lex.IsUnit(text) || lex.NamesCurrency(text)
}

// laneEntries returns the labels of a lane with their values, from the top. Those below a title of the lane, which is no label that has a value
// elsewhere, may say only with it what they are.
func laneEntries(g *grid.Grid, lex *lexicon.Lexicon, lane cardLane, right int, valued map[string]bool) []entry {
	var entries []entry
	title, last := "", 0
	behind := valuesBehind(g, lex, lane, right)
	for line := 1; line <= g.Lines; line++ {
		at := lane.col
		if lane.inner > 0 && g.At(line, at) == "" {
			at = lane.inner
		}
		row := g.Row(line, at, min(right, at+farthestValue))
		if len(row) == 0 || g.Text(row[0]) == "" {
			continue
		}
		label, value, colon := lexicon.CutLabel(g.Text(row[0]))
		e := entry{label: label, value: value, at: g.Ref(line, at), valueAt: g.Ref(line, at)}
		if own := at + behind; behind > 1 && e.value == "" && own < at+len(row) && g.Text(row[behind]) != "" {
			e.value, e.valueAt = g.Text(row[behind]), g.Ref(line, own)
		}
		for i, id := range row[1:] {
			text := g.Text(id)
			switch {
			case text == "":
				if e.value == "" && g.StruckIn(line, at+1+i, at+1+i) {
					e.valueAt = g.Ref(line, at+1+i)
				}
			case e.value == "":
				e.value, e.valueAt = text, g.Ref(line, at+1+i)
			case measures(lex, text) && !strings.ContainsFunc(e.value, unicode.IsLetter):
				e.value += " " + text
			}
		}
		switch {
		case at == lane.col && e.value == "" && !colon && !valued[words.Fold(label)]:
			title = label
		case line != last+1, at == lane.col && lane.inner > 0:
			title = ""
		}
		if title != label && ofAllLanes(g, lex, line, at) {
			title = ""
		}
		last = line
		if e.label, e.role = underTitle(lex, title, label); e.role == "" && namesItem(lex, label, e.value) {
			e.role = catalog.Part
		}
		if e.value != "" || colon || e.role != "" {
			entries = append(entries, e)
		}
	}
	return entries
}

// cardsOf divides the entries of a lane into cards, each of which begins with the entry of its part number or with the block, set off by
// blank lines, that has it. It reports false where it cannot be told to which card entries belong.
func cardsOf(entries []entry) ([]card, bool) {
	starter := starterOf(entries)
	if starter == "" {
		return nil, true
	}
	entries = slices.DeleteFunc(entries, func(e entry) bool { return e.value == "" && words.Fold(e.label) != starter })
	starts := startsOf(entries, starter)
	if starts == nil {
		return nil, false
	}
	labels := map[string]int{}
	for i, start := range starts {
		seen := map[string]bool{}
		for _, e := range entries[start:endOf(starts, i, entries)] {
			if key := words.Fold(e.label); !seen[key] {
				seen[key] = true
				labels[key]++
			}
		}
	}
	var all []card
	for i, start := range starts {
		var own card
		for k, e := range entries[start:endOf(starts, i, entries)] {
			// What stands below the last card by itself is about all of them, or about something else.
			if k > 0 && len(starts) > 1 && labels[words.Fold(e.label)] == 1 && e.at.Row > own.last()+1 {
				break
			}
			own = append(own, e)
		}
		all = append(all, own)
	}
	if written := slices.DeleteFunc(slices.Clone(all), unwritten); len(written) > 0 {
		all = written
	}
	return all, true
}

// unwritten reports whether a card has no values: its labels are printed, and no part is on it yet.
func unwritten(c card) bool {
	return !slices.ContainsFunc(c, func(e entry) bool { return e.value != "" || e.valueAt != e.at })
}

// addBeside adds what stands beside cards, in a lane that names no parts: several labels in one line are of one card.
func addBeside(cards []card, entries []entry) {
	at := 0
	for _, e := range entries {
		for at+1 < len(cards) && cards[at+1][0].at.Row <= e.at.Row {
			at++
		}
		if e.at.Row >= cards[at][0].at.Row {
			cards[at] = append(cards[at], e)
		}
	}
}

func endOf(starts []int, i int, entries []entry) int {
	if i+1 < len(starts) {
		return starts[i+1]
	}
	return len(entries)
}

// starterOf returns the label of part numbers that most cards have, or else that of names.
func starterOf(entries []entry) string {
	for _, role := range []catalog.Role{catalog.Part, catalog.Description} {
		counts, best := map[string]int{}, ""
		for _, e := range entries {
			if e.role != role || e.value == "" {
				continue
			}
			key := words.Fold(e.label)
			if counts[key]++; best == "" || counts[key] > counts[best] {
				best = key
			}
		}
		if best != "" {
			return best
		}
	}
	return ""
}

// startsOf returns at which entries cards begin, nil where that cannot be told.
func startsOf(entries []entry, starter string) []int {
	var starts []int
	block, first := 0, true // where the block begins, and whether no card begins in it yet
	counts := map[string]int{}
	for _, e := range entries {
		counts[words.Fold(e.label)]++
	}
	for i, e := range entries {
		if i > 0 && e.at.Row > entries[i-1].at.Row+1 {
			block, first = i, true
		}
		if words.Fold(e.label) != starter {
			continue
		}
		start := i
		if head := words.Fold(entries[block].label); first && block < i && counts[head] == counts[starter] {
			start = block
		} else if !first && i > 0 && len(starts) > 0 && starts[len(starts)-1] < lastStarter(entries, starter, i) {
			// Within one block the cards begin as the first one did.
			back := lastStarter(entries, starter, i) - starts[len(starts)-1]
			if start = i - back; start <= starts[len(starts)-1] || words.Fold(entries[start].label) != words.Fold(entries[starts[len(starts)-1]].label) {
				return nil
			}
		}
		first = false
		starts = append(starts, start)
	}
	return starts
}

// lastStarter returns the last entry of part numbers before one.
func lastStarter(entries []entry, starter string, before int) int {
	for i := before - 1; i >= 0; i-- {
		if words.Fold(entries[i].label) == starter {
			return i
		}
	}
	return before
}

// namedAndSized reports whether most cards have sizes, and none a role again and again: CB-604 and CB-605 are part numbers, though they
// begin like a label.
func namedAndSized(all []card) bool {
	sized := 0
	for _, c := range all {
		named, roles := 0, map[catalog.Role]bool{}
		for _, e := range c {
			if e.role != "" {
				named++
				roles[e.role] = true
			}
		}
		if named > mostAlike*max(1, len(roles)) {
			return false
		}
		if slices.ContainsFunc(c, func(e entry) bool { return e.sized() }) {
			sized++
		}
	}
	return sized > 0 && sized*2 >= len(all)
}

// arrangeBeside makes tables of the cards that stand in lanes beside each other: one, or where more cards stand beside each other than each has
// lines, several, each of as many lanes as there are lines for. It returns nil where that cannot be done.
func arrangeBeside(g *grid.Grid, lanes [][]card) []Region {
	var tables []Region
	for from := 0; from < len(lanes); {
		to := len(lanes)
		for to > from+1 && !haveRows(slices.Concat(lanes[from:to]...)) {
			to--
		}
		r, ok := arrangeCards(g, slices.Concat(lanes[from:to]...))
		if !ok {
			return nil
		}
		if len(tables) > 0 || to < len(lanes) {
			r.Second = from > 0
			r.area.From.Col, r.area.To.Col = widthOf(lanes[from:to])
		}
		tables = append(tables, r)
		from = to
	}
	return tables
}

// widthOf returns the first and the last column that cards stand in.
func widthOf(lanes [][]card) (first, last int) {
	for _, c := range slices.Concat(lanes...) {
		for _, e := range c {
			if first == 0 || e.at.Col < first {
				first = e.at.Col
			}
			last = max(last, e.at.Col, e.valueAt.Col)
		}
	}
	return first, last
}

// beginApart reports whether each card begins in a cell of its own, so that it can be told from the others by that.
func beginApart(all []card) bool {
	begun := map[sheet.Ref]bool{}
	for _, c := range all {
		begun[c[0].valueAt] = true
	}
	return len(begun) == len(all)
}

// rowAfter returns the line of a card in a table in which another one has the last line, a row of the sheet that is the card's; it reports
// false where the card has none left.
func (c card) rowAfter(last int) (row int, ok bool) {
	row = max(last+1, c[0].valueAt.Row)
	return row, row <= c.last()
}

// haveRows reports whether cards have a row each in one table.
func haveRows(all []card) bool {
	slices.SortStableFunc(all, func(a, b card) int { return a[0].valueAt.Row - b[0].valueAt.Row })
	row, ok := 0, true
	for _, c := range all {
		if row, ok = c.rowAfter(row); !ok {
			return false
		}
	}
	return true
}

// arrangeCards makes one table of cards; it reports false where two cards would have to share a row, and where there are too many labels.
func arrangeCards(g *grid.Grid, all []card) (Region, bool) {
	slices.SortStableFunc(all, func(a, b card) int { return a[0].valueAt.Row - b[0].valueAt.Row })
	type place struct {
		label string
		again int
	}
	columns := map[place]int{}
	var arranged []grid.ArrangedColumn
	var headings []Heading
	var parts []grid.ArrangedPart
	var labels []sheet.Ref
	line, to := 0, 0
	apart := beginApart(all)
	for _, c := range all {
		ok := false
		if line, ok = c.rowAfter(line); !ok {
			return Region{}, false
		}
		to = max(to, c.last())
		part := grid.ArrangedPart{Line: line}
		if apart {
			part.Begins = c[0].valueAt
		}
		again := map[string]int{}
		for _, e := range c {
			key := place{words.Fold(e.label), 0}
			again[key.label]++
			key.again = again[key.label]
			col, known := columns[key]
			if !known {
				if col = len(arranged); col == widestCards {
					return Region{}, false
				}
				columns[key] = col
				arranged = append(arranged, grid.ArrangedColumn{Name: e.at.String(), At: e.at})
				headings = append(headings, Heading{Col: col + 1, Parts: []string{e.label}, Text: e.label})
			}
			for len(part.Pieces) <= col {
				part.Pieces = append(part.Pieces, grid.Piece{})
			}
			part.Pieces[col] = grid.Piece{Text: e.value, At: e.valueAt}
			labels = append(labels, e.at)
		}
		parts = append(parts, part)
	}
	from := all[0][0].at.Row
	r := Region{
		Grid: g.Arrange(arranged, parts, labels), Drawn: g, From: from, To: to, Left: 1, Right: len(arranged), Body: parts[0].Line, Columns: headings, Aside: map[int]string{},
		area: sheet.Range{From: sheet.Ref{Row: from, Col: 1}, To: sheet.Ref{Row: to, Col: g.Width}},
	}
	return r, true
}
