package layout

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
)

// A list that was printed has its headings again at the top of each page, below the titles of the page. Cut into cells these may look like
// headings, and like a part where they stand among the rows: they are neither.

// mostOfPage is how many lines above the headings of a page may be its titles.
const mostOfPage = 8

// pageTitles returns the lines of a strip above headings that come back word for word which are titles of the page: those that come back with
// them on each page, but for the number of the page.
func pageTitles(g *grid.Grid, lex *lexicon.Lexicon, strip span) map[int]bool {
	titles := map[int]bool{}
	for _, pages := range repeatedHeadings(g, lex, strip) {
		same := map[string][]int{}   // lines by what they say, on each page once
		counted := map[string]bool{} // those with the number of a page
		for _, line := range pages {
			block := headingBlock(g, lex, line, strip.from, strip)
			seen := map[string]bool{}
			for above := line - 1; above >= max(strip.from, line-mostOfPage); above-- {
				row := g.Row(above, strip.left, strip.right)
				text, numbered := textOf(g, row, " "), givesPage(g, lex, above, strip)
				switch {
				case numbered:
					text = withoutPage(lex, text)
					counted[text] = true
				case tooManyValues(g, lex, row):
					above = 0
					continue
				case above >= block[0] || isHeadingLine(g, lex, above, strip.left, strip.right):
					continue
				}
				if text != "" && !seen[text] {
					seen[text] = true
					same[text] = append(same[text], above)
				}
			}
		}
		for text, lines := range same {
			if len(lines) == len(pages) || counted[text] && len(lines) > 1 {
				for _, line := range lines {
					titles[line] = true
				}
			}
		}
	}
	return titles
}

// repeatedHeadings returns the lines of headings that come back word for word, each with all its lines.
func repeatedHeadings(g *grid.Grid, lex *lexicon.Lexicon, strip span) [][]int {
	first := map[string]int{}
	again := map[string][]int{}
	var order []string
	var key []byte
	for line := strip.from; line <= strip.to; line++ {
		row := g.Row(line, strip.left, strip.right)
		if key = keyOfWords(g, lex, row, key[:0]); len(key) == 0 {
			continue
		}
		switch before, known := first[string(key)]; {
		case !known:
			first[string(key)] = line
		case len(again[string(key)]) > 0:
			again[string(key)] = append(again[string(key)], line)
		case isHeadingLine(g, lex, line, strip.left, strip.right):
			order = append(order, string(key))
			again[string(key)] = []int{before, line}
		}
	}
	all := make([][]int, len(order))
	for i, key := range order {
		all[i] = again[key]
	}
	return all
}

// keyOfWords appends what tells a line of words from others, nothing where a number stands in it or a single text.
func keyOfWords(g *grid.Grid, lex *lexicon.Lexicon, row []grid.ID, key []byte) []byte {
	count := 0
	for _, id := range row {
		if text := g.Text(id); text != "" {
			if g.Is(lexicon.AsNumber, lex, id) {
				return nil
			}
			count++
			key = append(key, text...)
		}
		key = append(key, 0)
	}
	if count < 2 {
		return nil
	}
	return key
}

// textOf joins the texts of a line with what stands between them.
func textOf(g *grid.Grid, row []grid.ID, between string) string {
	var texts []string
	for _, id := range row {
		if text := g.Text(id); text != "" {
			texts = append(texts, text)
		}
	}
	return strings.Join(texts, between)
}

// givesPage reports whether a line gives the number of a page: "Page 2 of 5", "第2页", in one cell or in two.
func givesPage(g *grid.Grid, lex *lexicon.Lexicon, line int, strip span) bool {
	open := false
	for _, id := range g.Row(line, strip.left, strip.right) {
		text := g.Text(id)
		if text == "" {
			continue
		}
		if len(text) > lexicon.LongestNote {
			return false
		}
		runs := runsOf(words.Fold(text))
		if open && len(runs) > 0 && isPageNumber(runs[0]) {
			return true
		}
		open = false
		for i, run := range runs {
			if _, named := lex.Words.Mark(run, "page"); !named || namesSize(lex, text) {
				continue
			}
			if i > 0 && isPageNumber(runs[i-1]) || slices.ContainsFunc(runs[i+1:min(i+3, len(runs))], isPageNumber) {
				return true
			}
			open = i == len(runs)-1
		}
	}
	return false
}

// withoutPage returns the words of a line without the number of the page, or two: "Page 2 of 5". Other numbers are those of something else.
func withoutPage(lex *lexicon.Lexicon, text string) string {
	runs := runsOf(words.Fold(text))
	for i, run := range runs {
		if _, named := lex.Words.Mark(run, "page"); !named {
			continue
		}
		behind := slices.ContainsFunc(runs[i+1:min(i+3, len(runs))], isPageNumber)
		for at := range runs {
			if near := behind && at > i && at <= i+3 || !behind && at < i && at >= i-2; near && isPageNumber(runs[at]) {
				runs[at] = ""
			}
		}
	}
	return strings.Join(runs, " ")
}

// mostPages is how many digits the number of a page has at most.
const mostPages = 4

func isPageNumber(run string) bool {
	return startsWithDigit(run) && len(run) <= mostPages && !lexicon.IsYear(run)
}

// runsOf divides a text into its runs of letters and of digits.
func runsOf(text string) (runs []string) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) }) {
		from, digits := 0, startsWithDigit(word)
		for i, r := range word {
			if unicode.IsDigit(r) != digits {
				runs = append(runs, word[from:i])
				from, digits = i, !digits
			}
		}
		runs = append(runs, word[from:])
	}
	return runs
}

func startsWithDigit(text string) bool { return strings.IndexFunc(text, unicode.IsDigit) == 0 }
