package layout

import (
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
)

// What holds for all parts of a text, or comes last of each, is often not named: "all prices in pounds" above lines that end in 0.38.

// priceUnnamed takes the one number without a name that cards give for their price, where a text about them speaks of prices: with hundredths, and
// perhaps behind a letter for a currency. All cards that have such a number have one, and no price.
func priceUnnamed(lex *lexicon.Lexicon, all []card, about []string) {
	at := make([]int, len(all))
	found := 0
	for i, c := range all {
		at[i] = -1
		for k, e := range c {
			if e.role == catalog.Price {
				return
			}
			if !isUnnamedPrice(lex, e) {
				continue
			}
			if at[i] >= 0 {
				return
			}
			at[i] = k
			found++
		}
	}
	if found < leastPlain || found*3 < len(all)*2 || !slices.ContainsFunc(about, func(text string) bool { return speaksOfMoney(lex, text) }) {
		return
	}
	for i, k := range at {
		if k >= 0 {
			e := &all[i][k]
			e.value = strings.TrimSpace(strings.TrimPrefix(e.label, unlabelled) + " " + e.value)
			e.label, e.role = "price", catalog.Price
		}
	}
}

// isUnnamedPrice reports whether an entry is a number with hundredths that has no name, or none but a letter that is a currency's as well.
func isUnnamedPrice(lex *lexicon.Lexicon, e entry) bool {
	return (e.label == unlabelled || lex.Words.Coin(e.label)) && spoken.IsMoney(e.value)
}

// speaksOfMoney reports whether a text speaks of prices or a currency.
func speaksOfMoney(lex *lexicon.Lexicon, text string) bool {
	return len(text) <= lexicon.LongestNote && (lex.SpeaksOfPrice(text) || lex.Words.SpeaksOfPrices(text) || len(lex.Words.Currencies(text)) > 0)
}

// packOfPrice takes for the pieces in a pack what cards count by a word that may be one for a stock, where it is how many pieces their price is for: "12 pcs,
// 4.80 per bag of 12". So it has to be on all cards that have both.
func packOfPrice(lex *lexicon.Lexicon, all []card) {
	var found []*entry
	for _, c := range all {
		price := slices.IndexFunc(c, func(e entry) bool { return e.role == catalog.Price })
		if hasRole(c, catalog.Pack) || price < 0 {
			continue
		}
		for k := range c {
			e := &c[k]
			if _, score := lex.RoleOfLabel(e.label); e.role != catalog.Stock || score >= lexicon.SpecificHeading {
				continue
			}
			per := max(perOf(lex, c[price].value), perOf(lex, c[price].label))
			if count := spoken.CountFirst(e.value); per <= 1 || count != strconv.FormatFloat(per, 'f', -1, 64) {
				return
			}
			found = append(found, e)
		}
	}
	for _, e := range found {
		e.label, e.role = "pack", catalog.Pack
	}
}

// perOf is for how many pieces a text says that a price is.
func perOf(lex *lexicon.Lexicon, text string) float64 {
	per, _ := lex.PricePerOf(text)
	return per
}

// addLater adds to items what lines between and behind them, that are none themselves, say of one by its number and in prices and counts alone.
func addLater(g *grid.Grid, lex *lexicon.Lexicon, begun []begun, all []card) {
	next := 0
	for line := begun[0].to + 1; line <= g.Lines; line++ {
		for next < len(begun) && begun[next].at.Row <= line {
			next++
		}
		if line <= begun[next-1].to || g.BlankLine(line, 1, g.Width) {
			continue
		}
		col := spokenAt(g, line)
		text := spoken.WithoutLead(g.At(line, col))
		at, found := namedIn(begun, text)
		if !found || countCells(g, line, span{left: col, right: g.Width}) > 1 {
			continue
		}
		before, behind, _ := strings.Cut(text, begun[at].number)
		if more := (card{all[at][0]}).speak(lex, strings.TrimLeft(behind, sizetext.AroundNames), g.Ref(line, col)); !lexicon.BearsNumber(before) && all[at].takes(more) {
			all[at] = append(all[at], more[1:]...)
		}
	}
}

// joinLater adds to cards what a later one of the same number says by prices and counts alone, such as how many there are, where they have no such yet.
// It returns which cards are left.
func joinLater(all []card) (left []int) {
	known := map[string]int{}
	for i, c := range all {
		at, again := known[c[0].value]
		switch {
		case again && all[at].takes(c):
			all[at] = append(all[at], c[1:]...)
			continue
		case !again:
			known[c[0].value] = i
		}
		left = append(left, i)
	}
	return left
}
