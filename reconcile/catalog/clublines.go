package catalog

// leastClubs is how many columns must be headed by clubs.
const leastClubs = 3

// clubCells counts the cells of a line that are clubs, each another one; zero where one comes back.
func clubCells(g *grid, lex *lexicon, line, left, right int) int {
	var seen map[string]bool
	for _, id := range g.row(line, left, right) {
		if !g.is(asClub, lex, id) {
			continue
		}
		club := lex.clubHeading(g.text(id))
		switch {
		case seen[club]:
			return 0
		case seen == nil:
			seen = map[string]bool{}
		}
		seen[club] = true
	}
	return len(seen)
}

// isClubLine reports whether a line below a heading names clubs under cells of it, each club once under each, and says
// nothing else.
func isClubLine(g *grid, lex *lexicon, line, top int, strip span) bool {
	clubs := map[string]map[string]bool{}
	group := ""
	for col := strip.left; col <= strip.right; col++ {
		if above := g.filled(top, col); above != "" {
			group = above
		}
		text := g.at(line, col)
		if text == "" {
			continue
		}
		club := lex.clubHeading(text)
		if club == "" || group == "" || clubs[group][club] {
			return false
		}
		if clubs[group] == nil {
			clubs[group] = map[string]bool{}
		}
		clubs[group][club] = true
	}
	for _, under := range clubs {
		if len(under) < leastClubs {
			return false
		}
	}
	return sizeGroup(lex, clubs)
}

// sizeGroup reports whether one of several headings names a size.
func sizeGroup(l *lexicon, groups map[string]map[string]bool) bool {
	for group := range groups {
		if found := l.match(group); len(found) > 0 && found[0].Score >= headingScore && traits[Role(found[0].Role)].want == wantLength {
			return true
		}
	}
	return false
}
