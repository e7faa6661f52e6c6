package layout

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/sheet"
)

// A letter lists parts as items: "- VK-31: black, bore 9.35, OD 13.6, price EUR 0.42". Each is read as a card of one line: behind a bullet or
// before a colon stands the part number, and then what is said of it, the names with the sizes.

const (
	// bullets are the signs before items.
	bullets = "-–—•·*◦▪■●○→»>‣"
	// leastItems is how many items make a list, and leastInItem how many sizes most of them give by name.
	leastItems  = 3
	leastInItem = 2
)

// items finds the items of a sheet, as one table; nil where it has none.
func items(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	if g.Width > widestCards || !startsItems(g) {
		return nil
	}
	var best []card
	for _, behind := range []bool{false, true} {
		if all := itemsOf(g, lex, behind); sizesOf(all) > sizesOf(best) {
			best = all
		}
	}
	if len(best) < leastItems {
		return nil
	}
	between := 0
	for line := best[0][0].at.Row; line <= best[len(best)-1][0].at.Row; line++ {
		if !g.BlankLine(line, 1, g.Width) {
			between++
		}
	}
	if len(best)*3 < between*2 {
		return nil
	}
	r, ok := arrangeCards(g, best)
	if !ok {
		return nil
	}
	return []Region{r}
}

// startsItems looks at the beginnings of the first lines alone, since few sheets have items.
func startsItems(g *grid.Grid) bool {
	found := 0
	for line, probed := 1, 0; line <= g.Lines && probed < cardProbe && found < leastItems; line++ {
		if g.BlankLine(line, 1, g.Width) {
			continue
		}
		probed++
		if number, _ := itemNumber(g.At(line, 1)); number != "" {
			found++
		}
	}
	return found == leastItems
}

// itemNumber returns the part number with which an item begins, and what stands behind it; the number is empty where the text is none.
func itemNumber(text string) (number, rest string) {
	first, size := utf8.DecodeRuneInString(text)
	bullet := strings.ContainsRune(bullets, first) && strings.HasPrefix(text[size:], " ")
	if bullet {
		text = strings.TrimLeft(text[size:], " ")
	}
	number, rest, colon := strings.Cut(text, ":")
	if !colon || !isItemNumber(number) {
		if !bullet {
			return "", ""
		}
		if number, rest, _ = strings.Cut(text, " "); !isItemNumber(number) {
			return "", ""
		}
	}
	return number, strings.Trim(rest, " "+bullets)
}

func isItemNumber(text string) bool {
	return lexicon.LooksLikeCode(text) && strings.ContainsFunc(text, unicode.IsLetter) && strings.ContainsFunc(text, unicode.IsNumber)
}

// itemsOf reads the items of a sheet whose names of sizes stand before or behind them.
func itemsOf(g *grid.Grid, lex *lexicon.Lexicon, behind bool) []card {
	var all []card
	for line := 1; line <= g.Lines; line++ {
		number, rest := itemNumber(g.At(line, 1))
		if number == "" {
			continue
		}
		at := g.Ref(line, 1)
		item := card{{label: "part number", value: number, at: at, valueAt: at, role: catalog.Part}}
		item = item.say(lex, rest, at, behind)
		for i, id := range g.Row(line, 2, g.Width) {
			item = item.say(lex, g.Text(id), g.Ref(line, i+2), behind)
		}
		if item.sizes() >= leastInItem {
			all = append(all, item)
		}
	}
	return all
}

// say adds to an item what a text says of it: sizes, a price or a count, or else, where nothing did yet, a description.
func (c card) say(lex *lexicon.Lexicon, text string, at sheet.Ref, behind bool) card {
	if text == "" {
		return c
	}
	words := text
	if sizes := sizesIn(lex, text, behind); len(sizes) > 0 {
		for _, s := range sizes {
			c = append(c, entry{label: s.name, value: s.text, at: at, valueAt: at, role: catalog.Role(s.role)})
		}
		first := min(strings.Index(text, sizes[0].name), strings.Index(text, sizes[0].text))
		words = strings.Trim(text[:max(0, first)], aroundNames)
	} else if number := strings.IndexFunc(text, unicode.IsNumber); number > 0 {
		label := strings.Trim(text[:number], aroundNames)
		role, score := roleOfLabel(lex, label)
		if want := traits.Of[role].Want; score >= lexicon.HeadingScore && (want == traits.Price || want == traits.Count) {
			return append(c, entry{label: label, value: text[number:], at: at, valueAt: at, role: role})
		}
	}
	if words != "" && !slices.ContainsFunc(c, func(e entry) bool { return e.role == catalog.Description }) {
		c = append(c, entry{label: "description", value: words, at: at, valueAt: at, role: catalog.Description})
	}
	return c
}

// sizes counts the different sizes that a card gives.
func (c card) sizes() int {
	var roles []catalog.Role
	for i := range c {
		if counts(&c[i]) && traits.Of[c[i].role].Want == traits.Length && !slices.Contains(roles, c[i].role) {
			roles = append(roles, c[i].role)
		}
	}
	return len(roles)
}

func sizesOf(all []card) int {
	count := 0
	for _, c := range all {
		count += c.sizes()
	}
	return count
}
