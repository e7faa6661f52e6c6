package layout

import (
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// LeastClubs is how many columns must be headed by clubs.
const LeastClubs = 3

// clubCells counts the cells of a line that are clubs, each another one; zero where one comes back.
func clubCells(g *grid.Grid, lex *lexicon.Lexicon, line, left, right int) int {
	var seen map[string]bool
	for _, id := range g.Row(line, left, right) {
		if !g.Is(lexicon.AsClub, lex, id) {
			continue
		}
		club := lex.ClubHeading(g.Text(id))
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
func isClubLine(g *grid.Grid, lex *lexicon.Lexicon, line, top int, strip span) bool {
	clubs := map[string]map[string]bool{}
	group := ""
	for col := strip.left; col <= strip.right; col++ {
		if above := g.Filled(top, col); above != "" {
			group = above
		}
		text := g.At(line, col)
		if text == "" {
			continue
		}
		club := lex.ClubHeading(text)
		if club == "" || group == "" || clubs[group][club] {
			return false
		}
		if clubs[group] == nil {
			clubs[group] = map[string]bool{}
		}
		clubs[group][club] = true
	}
	for _, under := range clubs {
		if len(under) < LeastClubs {
			return false
		}
	}
	return sizeGroup(lex, clubs)
}

// sizeGroup reports whether one of several headings names a size, or says that clubs stand below it, whose size a title may name.
func sizeGroup(l *lexicon.Lexicon, groups map[string]map[string]bool) bool {
	for group := range groups {
		found := l.Match(group)
		if len(found) == 0 || found[0].Score < lexicon.HeadingScore {
			continue
		}
		if role := catalog.Role(found[0].Role); role == catalog.Club || traits.Of[role].Want == traits.Length {
			return true
		}
	}
	return false
}
