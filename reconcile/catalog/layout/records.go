package layout

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// A printed list may give each part several lines, and have as many lines of headings: number, name and price above, the sizes below. Such
// headings stand above each other and belong to nothing but their own line of each part. All lines of a part are read as one row.
//
// Headings of several lines are common, and as a rule they say more of one column. What tells these apart are the rows: none has anything
// where its own line of headings has nothing, sizes stand below sizes, and a part number stands in one line of each part and in no other.

// records is a table of parts of several lines as it was found.
type records struct {
	g   *grid.Grid
	lex *lexicon.Lexicon
	// heads are the lines of headings, units the line of units below each, 0 where it has none, and body the first line below all of them.
	heads, units []int
	body         int
	// own is which of the lines has the part numbers, and col their column.
	own, col int
	// parts are the lines of each part, in the order of the headings: 0 for one that it does not have.
	parts [][]int
	// broken are lines with part numbers or values that are no line of a part, and repeated the headings that come back.
	broken   []int
	repeated map[int]bool
	last     int
}

// recordsAt returns the table of parts of several lines whose headings begin in a line, nil where there is none.
func recordsAt(g *grid.Grid, lex *lexicon.Lexicon, line int) *records {
	if !isHeadingLine(g, lex, line, 1, g.Width) {
		return nil
	}
	t := &records{g: g, lex: lex}
	if !t.findHeadings(line) || !t.haveSize() || t.sayTheSame() {
		return nil
	}
	for i, line := range t.heads {
		for col := 1; col <= g.Width; col++ {
			if !headsPart(lex, g.At(line, col)) {
				continue
			}
			if t.own, t.col = i, col; t.findParts() {
				return t
			}
		}
	}
	return nil
}

// findHeadings finds the lines of headings from one on, each perhaps with one of units; it reports false where they are not several.
func (t *records) findHeadings(line int) bool {
	whole := span{left: 1, right: t.g.Width}
	for t.body = line; t.body <= t.g.Lines && len(t.heads) <= longestBlock; t.body++ {
		n := len(t.heads)
		switch isUnits := n > 0 && !t.g.BlankLine(t.body, 1, t.g.Width) && unitsOnly(t.g, t.lex, t.body, whole); {
		case isUnits && t.units[n-1] == 0:
			t.units[n-1] = t.body
		case !isUnits && t.isLabels(t.body):
			t.heads, t.units = append(t.heads, t.body), append(t.units, 0)
		default:
			return n >= leastRecord
		}
	}
	return false
}

// isLabels reports whether a line has nothing but labels, half of which or more are known, and several: one alone is a title of the parts below.
func (t *records) isLabels(line int) bool {
	if len(lineRoles(t.g, t.lex, line, 1, t.g.Width)) == 0 {
		return false
	}
	known, cells := 0, 0
	for _, id := range t.g.Row(line, 1, t.g.Width) {
		text := t.g.Text(id)
		if text == "" {
			continue
		}
		if cells++; t.g.Is(lexicon.AsValue, t.lex, id) || t.lex.IsUnit(text) {
			return false
		}
		if _, understood := roleKnown(t.lex, text); understood {
			known++
		}
	}
	return cells > 1 && known*2 >= cells
}

// haveSize reports whether one of the headings is that of a size.
func (t *records) haveSize() bool {
	return slices.ContainsFunc(t.heads, func(line int) bool {
		return slices.ContainsFunc(t.g.Row(line, 1, t.g.Width), func(id grid.ID) bool { return namesSize(t.lex, t.g.Text(id)) })
	})
}

// sayTheSame reports whether two lines of headings have the same role above a column, or the same text: in two languages, or again.
func (t *records) sayTheSame() bool {
	for col := 1; col <= t.g.Width; col++ {
		seen := map[catalog.Role]bool{}
		for _, line := range t.heads {
			role, known := roleKnown(t.lex, t.g.At(line, col))
			if known && seen[role] {
				return true
			}
			seen[role] = true
		}
	}
	return false
}

// findParts finds the lines of the parts, down to those of another table, by the column of their numbers; it reports false where that has none.
func (t *records) findParts() bool {
	t.parts, t.broken, t.repeated, t.last = nil, nil, map[int]bool{}, t.body-1
	for line := t.body; line <= t.g.Lines; line++ {
		switch {
		case t.comesBack(line):
			for i := range t.body - t.heads[0] {
				t.repeated[line+i] = true
			}
			line += t.body - 1 - t.heads[0]
			t.last = line
		case t.hasPart(line):
			lines := t.partAt(line)
			if lines == nil {
				t.broken = append(t.broken, line)
				continue
			}
			t.parts = append(t.parts, lines)
			t.last = max(slices.Max(lines), line)
			line = t.last
		case isHeadingLine(t.g, t.lex, line, 1, t.g.Width):
			return t.areParts()
		}
	}
	return t.areParts()
}

// comesBack reports whether the headings stand again in the lines from one on.
func (t *records) comesBack(line int) bool {
	for upper := t.heads[0]; upper < t.body; upper++ {
		again := line + upper - t.heads[0]
		if again > t.g.Lines || !slices.EqualFunc(t.g.Row(upper, 1, t.g.Width), t.g.Row(again, 1, t.g.Width), func(a, b grid.ID) bool { return t.g.Text(a) == t.g.Text(b) }) {
			return false
		}
	}
	return true
}

// hasPart reports whether a line has a part number, and no size, where these stand: of digits alone it is a long one, perhaps with dashes.
func (t *records) hasPart(line int) bool {
	text := t.g.At(line, t.col)
	return text != "" && (mayBePart(t.lex, text) || lexicon.IsItemNumber(text)) && (!lexicon.LooksNumeric(text) || isLongNumber(strings.ReplaceAll(text, "-", "")))
}

// partAt returns the lines of the part whose number stands in a line, nil where that does not fit. Of a part that has not all lines it returns
// that one alone: nobody knows which of the others it has.
func (t *records) partAt(line int) []int {
	if !t.fits(t.own, line) {
		return nil
	}
	lines, own := make([]int, len(t.heads)), make([]int, len(t.heads))
	own[t.own] = line
	for i := range t.heads {
		at := line - t.own + i
		if i != t.own && (at <= t.last || at > t.g.Lines || t.hasPart(at) || !t.fits(i, at)) {
			return own
		}
		lines[i] = at
	}
	return lines
}

// fits reports whether a line may be one of a part: it has something, nothing where its line of headings has nothing, and values, or a word
// that there is none, below the headings of sizes.
func (t *records) fits(i, line int) bool {
	cells := 0
	for n, id := range t.g.Row(line, 1, t.g.Width) {
		text := t.g.Text(id)
		if text == "" {
			continue
		}
		cells++
		heading := t.g.At(t.heads[i], n+1)
		if heading == "" || namesSize(t.lex, heading) && !t.g.Is(lexicon.AsValue, t.lex, id) && !lexicon.LooksNumeric(text) && !isNone(t.lex, text) {
			return false
		}
	}
	return cells > 0
}

// isWhole reports whether a part has all its lines.
func isWhole(lines []int) bool { return !slices.Contains(lines, 0) }

// areParts reports whether there are parts enough that have all their lines, with sizes in each of these that is to have some.
func (t *records) areParts() bool {
	whole, numbers := 0, map[string]bool{}
	for _, lines := range t.parts {
		if numbers[words.Fold(t.g.At(lines[t.own], t.col))] = true; isWhole(lines) {
			whole++
		}
	}
	return whole >= leastRecords && len(numbers) >= leastRecords && (len(t.parts)-whole+len(t.broken))*mostBroken <= whole
}

// region returns the table, with a row for each part and a column for each heading.
func (t *records) region(floor int) Region {
	byFirst := map[int][]int{}
	var first []int
	for _, lines := range t.parts {
		at := t.firstOf(lines)
		byFirst[at] = lines
		first = append(first, at)
	}
	from := firstAbove(t.g, t.heads[0], floor)
	area := sheet.Range{From: sheet.Ref{Row: from, Col: 1}, To: sheet.Ref{Row: t.last, Col: t.g.Width}}
	r := tableOfLanes(t.g, t.lanes(byFirst), first, t.headingCells(), area)
	for _, lines := range t.parts {
		if !isWhole(lines) {
			r.Unexplained = append(r.Unexplained, Unexplained{t.firstOf(lines), 0, fmt.Sprintf("the other parts have %d lines each, as the headings do; %s has not the same, and only the line with its number is read", len(t.heads), t.g.At(lines[t.own], t.col))})
		}
	}
	for _, line := range t.leftOver() {
		r.Unexplained = append(r.Unexplained, Unexplained{line, 0, fmt.Sprintf("row %d has values and fits none of the %d lines of headings by which each part is read; it is not read", line, len(t.heads))})
	}
	return r
}

// firstOf returns the first line that a part has.
func (t *records) firstOf(lines []int) int {
	if isWhole(lines) {
		return lines[0]
	}
	return lines[t.own]
}

// lanes returns the columns of the table: the headings line by line.
func (t *records) lanes(parts map[int][]int) []lane {
	var lanes []lane
	for i, line := range t.heads {
		for col := 1; col <= t.g.Width; col++ {
			text := t.g.At(line, col)
			if text == "" {
				continue
			}
			h := Heading{Parts: []string{text}, Text: text, Unit: t.unitOf(i, col)}
			at := t.g.Ref(line, col)
			l := down(t.g, col, at.String(), at, h)
			inLine := l.piece
			l.piece = func(first int) grid.Piece {
				if own := parts[first][i]; own > 0 {
					return inLine(own)
				}
				return grid.Piece{}
			}
			lanes = append(lanes, l)
		}
	}
	return lanes
}

// unitOf returns the unit of a heading: that of the next line of units, which has the one of a size above other headings as well.
func (t *records) unitOf(i, col int) string {
	sized := func(i int) bool { return namesSize(t.lex, t.g.At(t.heads[i], col)) }
	for next := i; next < len(t.units); next++ {
		if next > i && !sized(i) {
			return ""
		}
		if t.units[next] > 0 {
			return t.g.Filled(t.units[next], col)
		}
	}
	return ""
}

// headingCells are the cells of all headings, those that come back included.
func (t *records) headingCells() []sheet.Ref {
	var cells []sheet.Ref
	for line := t.heads[0]; line <= t.last; line++ {
		if line >= t.body && !t.repeated[line] {
			continue
		}
		for col := 1; col <= t.g.Width; col++ {
			cells = append(cells, t.g.Ref(line, col))
		}
	}
	return cells
}

// leftOver returns the lines within the table that have a part number, or several values and no word for a total, and are of no part.
func (t *records) leftOver() []int {
	used := map[int]bool{}
	for _, lines := range t.parts {
		for _, line := range lines {
			used[line] = true
		}
	}
	left := slices.Clone(t.broken)
	for line := t.body; line <= min(t.last+len(t.heads), t.g.Lines); line++ {
		if used[line] || t.repeated[line] || slices.Contains(left, line) {
			continue
		}
		values, total := 0, false
		for _, id := range t.g.Row(line, 1, t.g.Width) {
			text := t.g.Text(id)
			if text == "" {
				continue
			}
			if t.g.Is(lexicon.AsValue, t.lex, id) {
				values++
			}
			_, sum := t.lex.Ask("total", text, t.lex.Words.IsTotal)
			total = total || sum
		}
		if values >= leastInRow && !total {
			left = append(left, line)
		}
	}
	slices.Sort(left)
	return left
}
