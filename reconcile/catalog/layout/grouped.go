package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// A table of groups has several part numbers in each row, each with columns of its own: a part for .355 taper with bore and price, and one for
// .370 parallel with others. What stands to the left or right of all groups is of each of these parts. Each group is read as a table, with
// the columns that are shared, its own, and where the texts above the groups are tips or sizes, a column for that. Groups that share nothing
// are tables side by side; see sideBySide.

// grouped is a table of groups as it was found.
type grouped struct {
	g   *grid.Grid
	lex *lexicon.Lexicon
	// from is the first line that belongs to it, top the first of the headings, head the one that names the part numbers, and body the first line below all of them.
	from, top, head, body int
	// tier is the line above head with a text for each group, and name the one above that with a text for all groups; zero without.
	tier, name int
	groups     []span
	shared     []int
	// parts are the columns of the part numbers, one for each group.
	parts []int
	// last is the last line with parts, and repeated are those in which the headings come back.
	last     int
	repeated map[int]bool
	columns  []Heading
}

// groupedAt returns the table of groups whose part numbers are headed in a line, nil where there is none.
func groupedAt(g *grid.Grid, lex *lexicon.Lexicon, line, floor int) *grouped {
	heads := partHeads(g, lex, line)
	if len(heads) < 2 || len(heads)*g.Lines > mostCrossed {
		return nil
	}
	t := &grouped{g: g, lex: lex, head: line, top: line, parts: heads}
	for t.top > floor && line-t.top < longestBlock-1 && isUpper(g, t.top-1, heads[0]) {
		t.top--
	}
	for upper := line - 1; upper >= t.top && t.tier == 0; upper-- {
		if t.groups = t.tiered(upper, heads); t.groups != nil {
			t.tier = upper
		}
	}
	if t.groups == nil {
		t.groups = t.recurring(heads)
	}
	if t.groups == nil || !t.readHeadings(lex) || !t.findBody(lex) {
		return nil
	}
	t.findShared()
	if len(t.shared) == 0 || !t.toldApart() {
		return nil
	}
	t.from = firstAbove(g, t.top, floor)
	if name := t.tier - 1; t.tier > 0 && name >= t.top && countCells(g, name, t.field()) == 1 && g.Filled(name, t.groups[0].left) != "" {
		t.name = name
	}
	return t
}

// toldApart reports whether something tells the parts of the groups apart: a text above them, the tips in their headings, or sizes of their own.
// Otherwise they may be two numbers of one part.
func (t *grouped) toldApart() bool {
	if t.tier > 0 {
		return true
	}
	if _, named := t.ownTip(t.groups[0]); named {
		return true
	}
	for col := t.groups[0].left; col <= t.groups[0].right; col++ {
		if namesSize(t.lex, t.g.At(t.head, col)) {
			return true
		}
	}
	return false
}

// partHeads returns the columns of the heading of part numbers that comes back most often in a line, whatever tip it names.
func partHeads(g *grid.Grid, lex *lexicon.Lexicon, line int) []int {
	found := map[string][]int{}
	var best []int
	for i, id := range g.Row(line, 1, g.Width) {
		text := g.Text(id)
		if text == "" || !g.Is(lexicon.AsHeading, lex, id) {
			continue
		}
		if role, _ := lex.RoleOfLabel(text); role != catalog.Part || isNone(lex, text) && !isCode(lex, g.At(line+1, i+1)) {
			continue
		}
		label, _ := withoutTip(lex, text)
		key := words.Fold(label)
		if found[key] = append(found[key], i+1); len(found[key]) > len(best) {
			best = found[key]
		}
	}
	return best
}

// withoutTip returns a heading without the one tip that it names, and that: "Part no. .355 taper".
func withoutTip(lex *lexicon.Lexicon, text string) (label, tip string) {
	tips, said := lex.TipsIn(text, false)
	if len(tips) != 1 || said == "" {
		return text, ""
	}
	return strings.Trim(strings.Replace(text, said, "", 1), sizetext.AroundNames), said
}

// isUpper reports whether a line may be one of headings above the first group, and no title.
func isUpper(g *grid.Grid, line, first int) bool {
	cells := countCells(g, line, span{left: 1, right: g.Width})
	_, _, _, to := g.Merged(line, firstUsed(g, line, span{left: 1, right: g.Width}))
	return cells > 1 || cells == 1 && firstUsed(g, line, span{left: 1, right: g.Width}) > 1 && to >= first
}

// tiered returns the groups below the texts of a line, each with one of the part numbers' headings; nil where they have not one each.
func (t *grouped) tiered(upper int, heads []int) []span {
	var groups []span
	for i, head := range heads {
		start := head
		for start > 0 && t.g.At(upper, start) == "" {
			start--
		}
		if start == 0 || t.g.At(t.head, start) == "" || i > 0 && start <= heads[i-1] {
			return nil
		}
		group := span{left: start, right: head}
		if _, from, _, to := t.g.Merged(upper, start); to > from {
			if to < head {
				return nil
			}
			group.right = to
		} else if i+1 < len(heads) {
			for next := head + 1; next < heads[i+1] && t.g.At(upper, next) == "" && t.g.At(t.head, next) != ""; next++ {
				group.right = next
			}
		} else {
			group.right = t.endLike(groups, start, head)
		}
		groups = append(groups, group)
	}
	return groups
}

// endLike returns where the last group ends: where those headings end that are the same as in the group before it, if all of them come back,
// or else with the last heading before a column that has none.
func (t *grouped) endLike(groups []span, start, head int) int {
	if len(groups) > 0 {
		before := groups[len(groups)-1]
		length := before.right - before.left
		if start+length <= t.g.Width && t.sameHeadings(before.left, start, length+1) {
			return start + length
		}
	}
	right := head
	for right < t.g.Width && t.g.At(t.head, right+1) != "" {
		right++
	}
	return right
}

// sameHeadings reports whether so many headings from one column on are those from another one on.
func (t *grouped) sameHeadings(a, b, count int) bool {
	for i := range count {
		if !t.alike(a+i, b+i) {
			return false
		}
	}
	return true
}

// alike reports whether the headings of two columns are the same, whatever tips they name.
func (t *grouped) alike(a, b int) bool {
	first, _ := withoutTip(t.lex, t.g.At(t.head, a))
	second, _ := withoutTip(t.lex, t.g.At(t.head, b))
	return first != "" && words.Fold(first) == words.Fold(second)
}

// recurring returns groups whose headings come back in the same order, nil where they do not. They have no column without a heading between
// them: what stood before the first would be its own.
func (t *grouped) recurring(heads []int) []span {
	length := heads[1] - heads[0]
	back := 0
	for back+1 < length && heads[0]-back > 1 && t.alike(heads[0]-back-1, heads[1]-back-1) {
		back++
	}
	var groups []span
	for i, head := range heads {
		if i > 0 && head-heads[i-1] != length {
			return nil
		}
		group := span{left: head - back, right: head - back + length - 1}
		if group.left < 1 || !t.sameHeadings(heads[0]-back, group.left, length) {
			return nil
		}
		groups = append(groups, group)
	}
	return groups
}

// field is the columns from the first group to the last.
func (t *grouped) field() span {
	return span{left: t.groups[0].left, right: t.groups[len(t.groups)-1].right}
}

// readHeadings reads the headings from the line of the part numbers down; it reports false where values stand among them.
func (t *grouped) readHeadings(lex *lexicon.Lexicon) bool {
	strip := span{t.head, t.g.Lines, 1, t.g.Width}
	r := Region{Grid: t.g, From: t.head, To: t.g.Lines, Left: 1, Right: t.g.Width, Headings: headingBlock(t.g, lex, t.head, t.head, strip)}
	r.readHeadings(lex)
	t.columns, t.body = r.Columns, r.Headings[len(r.Headings)-1]+1
	for _, id := range t.g.Row(t.head, 1, t.g.Width) {
		if t.g.Text(id) != "" && t.g.Is(lexicon.AsNumber, lex, id) {
			return false
		}
	}
	return true
}

// findBody finds the last line with parts; it reports false where there is none.
func (t *grouped) findBody(lex *lexicon.Lexicon) bool {
	t.repeated = map[int]bool{}
	for line := t.body; line <= t.g.Lines; line++ {
		switch {
		case t.comesBack(line):
			for i := range t.body - t.top {
				t.repeated[line-(t.head-t.top)+i] = true
			}
			line += t.body - 1 - t.head
		case !t.hasNumber(lex, line) && isHeadingLine(t.g, lex, line, 1, t.g.Width):
			return t.last > 0 // another table
		case t.holdsPart(lex, line):
			t.last = line
		}
	}
	return t.last > 0
}

// hasNumber reports whether a line has what looks like a part number where they stand.
func (t *grouped) hasNumber(lex *lexicon.Lexicon, line int) bool {
	return slices.ContainsFunc(t.parts, func(col int) bool { return isCode(lex, t.g.At(line, col)) || lexicon.IsDigits(t.g.At(line, col)) })
}

// comesBack reports whether the headings stand in a line again, with the same texts above them.
func (t *grouped) comesBack(line int) bool {
	for upper := t.top; upper < t.body; upper++ {
		again := line - t.head + upper
		if again < t.body || !slices.EqualFunc(t.g.Row(upper, 1, t.g.Width), t.g.Row(again, 1, t.g.Width), func(a, b grid.ID) bool { return t.g.Text(a) == t.g.Text(b) }) {
			return false
		}
	}
	return true
}

// holdsPart reports whether a line has a part of some group.
func (t *grouped) holdsPart(lex *lexicon.Lexicon, line int) bool {
	for i := range t.groups {
		if t.inGroup(lex, i, line) {
			return true
		}
	}
	return false
}

// inGroup reports whether a line has a part of a group: something in its columns that does not say that there is none, beside something else.
func (t *grouped) inGroup(lex *lexicon.Lexicon, i, line int) bool {
	if countCells(t.g, line, span{left: 1, right: t.g.Width}) < 2 || notMade(lex, t.g.At(line, t.parts[i])) {
		return false
	}
	return slices.ContainsFunc(t.g.Row(line, t.groups[i].left, t.groups[i].right), func(id grid.ID) bool {
		text := t.g.Text(id)
		return text != "" && !isNone(lex, text)
	})
}

// findShared finds the columns beside the groups that have something below a heading or in the body.
func (t *grouped) findShared() {
	field := t.field()
	for col := 1; col <= t.g.Width; col++ {
		if col >= field.left && col <= field.right {
			continue
		}
		used := false
		for line := t.body; line <= t.last && !used; line++ {
			used = t.g.Filled(line, col) != "" && countCells(t.g, line, span{left: 1, right: t.g.Width}) > 1
		}
		if used && len(textsAbove(t.g, t.lines(), col)) > 0 {
			t.shared = append(t.shared, col)
		}
	}
}

// lines are those of the headings.
func (t *grouped) lines() []int {
	var lines []int
	for line := t.top; line < t.body; line++ {
		lines = append(lines, line)
	}
	return lines
}

// regions returns a table for each group that has parts.
func (t *grouped) regions(lex *lexicon.Lexicon) []Region {
	above, known := t.axis(lex)
	var tables []Region
	for i, group := range t.groups {
		var lines []int
		for line := t.body; line <= t.last; line++ {
			if !t.repeated[line] && t.inGroup(lex, i, line) {
				lines = append(lines, line)
			}
		}
		if len(lines) == 0 {
			continue
		}
		r := tableOfLanes(t.g, t.lanes(group, above, known), lines, t.headingCells(), t.area(group))
		if r.Second = len(tables) > 0; t.tier > 0 && !known && strings.ContainsFunc(t.g.At(t.tier, group.left), unicode.IsDigit) {
			r.Unexplained = append(r.Unexplained, Unexplained{r.Body, 0, fmt.Sprintf("what %q above %s says of the parts below it is not understood, and not read", t.g.At(t.tier, group.left), t.g.Ref(t.head, group.left))})
		}
		tables = append(tables, r)
	}
	return tables
}

// area is what of the sheet the table of a group is.
func (t *grouped) area(group span) sheet.Range {
	return sheet.Range{From: t.g.Ref(t.from, group.left), To: t.g.Ref(t.last, group.right)}
}

// axis returns what the texts above the groups give of their parts, where all are tips or sizes, or the line above says what they are.
func (t *grouped) axis(lex *lexicon.Lexicon) (above axis, known bool) {
	if t.tier == 0 {
		return axis{}, false
	}
	var cells []sheet.Ref
	for _, group := range t.groups {
		cells = append(cells, t.g.Ref(t.tier, group.left))
	}
	if t.name > 0 {
		text := t.g.Filled(t.name, t.groups[0].left)
		if role, score := lex.RoleOfLabel(text); score >= lexicon.HeadingScore {
			above = axis{label: text, at: t.g.Ref(t.g.Source(t.name, t.groups[0].left)), role: role}
		}
	}
	x := crossed{g: t.g}
	tips := x.tips(lex, cells)
	sized := !slices.ContainsFunc(cells, func(at sheet.Ref) bool { return !isSize(lex, t.g.At(t.g.Place(at))) })
	named := x.named(lex, cells)
	switch {
	case named.role != "":
		return named, true
	case tips.role != "" && (above.role == catalog.TipTaken || !tips.taken):
		if above.role != catalog.TipTaken {
			above = tips
		}
		return above, true
	case sized && traits.Of[above.role].Want == traits.Length, above.role == catalog.Colour, above.role == catalog.Material, above.role == catalog.Style:
		return above, true
	}
	return axis{}, false
}

// lanes returns the columns of the table of a group.
func (t *grouped) lanes(group span, above axis, known bool) []lane {
	var lanes []lane
	for _, col := range t.shared {
		h := t.columns[col-1]
		h.Parts = textsAbove(t.g, t.lines(), col)
		if h.Unit != "" {
			h.Parts = slices.DeleteFunc(h.Parts, func(text string) bool { return text == h.Unit })
		}
		h.Text = strings.Join(h.Parts, " ")
		at := lowestAbove(t.g, t.lines(), col)
		lanes = append(lanes, down(t.g, col, at.String(), at, h))
	}
	if known {
		at, text := t.g.Ref(t.tier, group.left), t.g.At(t.tier, group.left)
		if named, ok := namedSize(t.lex, text); ok && catalog.Role(named.Role) == above.role {
			text = named.Text
		}
		lanes = append(lanes, always(above.label, text, above.at, at))
	} else if l, named := t.ownTip(group); named {
		lanes = append(lanes, l)
	}
	for col := group.left; col <= group.right; col++ {
		h := t.columns[col-1]
		h.Parts = slices.Clone(h.Parts)
		for i, text := range h.Parts {
			h.Parts[i], _ = withoutTip(t.lex, text)
		}
		if t.tier > 0 && !known && !strings.ContainsFunc(t.g.At(t.tier, group.left), unicode.IsDigit) {
			h.Parts = slices.Insert(h.Parts, 0, t.g.At(t.tier, group.left))
		}
		h.Text = strings.Join(h.Parts, " ")
		at := lowestAbove(t.g, t.lines(), col)
		lanes = append(lanes, down(t.g, col, at.String(), at, h))
	}
	return lanes
}

// ownTip returns the column of the tip that the heading of a group's part numbers names; it reports false where not all groups have another one.
func (t *grouped) ownTip(group span) (lane, bool) {
	seen := map[string]bool{}
	var own lane
	for i, col := range t.parts {
		text := t.g.At(t.head, col)
		_, tip := withoutTip(t.lex, text)
		if tip == "" || seen[tip] {
			return lane{}, false
		}
		seen[tip] = true
		if at := t.g.Ref(t.head, col); t.groups[i] == group {
			own = always(tipLabel, tip, at, at)
			if sure, _ := t.lex.TipsIn(text, true); len(sure) == 0 {
				own.heading.Order, own.heading.Inferred = fmt.Sprintf("%s of the heading %q taken for the tip that the parts are for", tip, text), true
			}
		}
	}
	return own, true
}

// headingCells are the cells of all headings, those that come back included.
func (t *grouped) headingCells() []sheet.Ref {
	var cells []sheet.Ref
	for line := t.top; line <= t.last; line++ {
		if line < t.body || t.repeated[line] {
			for col := 1; col <= t.g.Width; col++ {
				cells = append(cells, t.g.Ref(line, col))
			}
		}
	}
	return cells
}
