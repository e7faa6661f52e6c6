package layout

import (
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// leastParted is how many columns of groups a line has to name for it to be read with the headings above it.
const leastParted = 2

// dividesGroups reports whether a line below a heading says what each column of its groups is, whatever else it has: "base" and "top" below
// "Diameter", beside years below "Notes". Each of its texts stands below a group that it divides, or is a heading or unit; none of them below
// the heading of the part numbers; and some of them mean a size with the group, and more than this alone.
func dividesGroups(g *grid.Grid, lex *lexicon.Lexicon, line, top int, strip span) bool {
	named := 0
	for _, group := range groupsOf(g, top, strip) {
		own := g.At(top, group.left)
		if headingOf(lex, catalog.Part, own) && countCells(g, line, group) > 0 {
			return false
		}
		divided := group.right > group.left && divides(g, line, group)
		for col := group.left; col <= group.right; col++ {
			text := g.At(line, col)
			if text == "" {
				continue
			}
			means := meansMore(lex, own, text)
			switch {
			case divided && means:
				named++
			case divided || means || lex.IsUnit(text) || lex.IsLimit(text) || lex.TellsAge(text) != 0:
			default:
				if found := lex.Match(text); len(found) == 0 || found[0].Score < lexicon.HeadingScore {
					return false
				}
			}
		}
	}
	return named >= leastParted
}

// partsGroups reports whether a line below a heading has texts in all columns of some groups of two and more, in none of which a number stands, and
// nothing else: whatever they say, "left hand" and "right hand", they tell the columns of the groups apart.
func partsGroups(g *grid.Grid, line, top int, strip span) bool {
	parted := 0
	for i, group := range groupsOf(g, top, strip) {
		if countCells(g, line, group) == 0 {
			continue
		}
		if i == 0 || group.right == group.left || g.At(top, group.left) == "" || !divides(g, line, group) {
			return false
		}
		for col := group.left; col <= group.right; col++ {
			if lexicon.LooksNumeric(g.At(line, col)) {
				return false
			}
		}
		parted++
	}
	return parted > 0
}

// groupsOf returns the columns of each heading in a line: those below the cell that it is merged of, or else that of its text and those to the
// right of it that have none.
func groupsOf(g *grid.Grid, line int, strip span) []span {
	var groups []span
	for col := strip.left; col <= strip.right; col++ {
		if g.At(line, col) == "" && len(groups) > 0 {
			if _, from, _, to := g.Merged(line, groups[len(groups)-1].left); to == from {
				groups[len(groups)-1].right = col
			}
			continue
		}
		group := span{strip.from, strip.to, col, col}
		if _, from, _, to := g.Merged(line, col); to > from {
			group.right = min(to, strip.right)
			col = group.right
		}
		groups = append(groups, group)
	}
	return groups
}

// divides reports whether a line has a text of its own in each column of a group.
func divides(g *grid.Grid, line int, group span) bool {
	seen := map[string]bool{}
	for col := group.left; col <= group.right; col++ {
		text := g.At(line, col)
		if text == "" || seen[text] {
			return false
		}
		seen[text] = true
	}
	return true
}

// meansMore reports whether a text means a size together with the heading above it, and that more surely than the heading alone or another one.
func meansMore(lex *lexicon.Lexicon, above, text string) bool {
	alone, joined := lex.Match(above), lex.Match(above, text)
	if above == "" || len(joined) == 0 || traits.Of[catalog.Role(joined[0].Role)].Want != traits.Length {
		return false
	}
	return len(alone) == 0 || joined[0].Role != alone[0].Role || joined[0].Score > alone[0].Score
}
