package text

import (
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/width"

	"example.com/seatline/reconcile/sheet"
)

const (
	// widest is the longest line that can belong to an aligned table, in columns of the screen.
	widest = 2000
	// tabStop is how far apart tabs stand in text that is aligned by blanks.
	tabStop = 8
)

// span is a stretch of a line: from and to in columns of the screen, first and last in bytes; to and last are beyond it.
type span struct {
	from, to, first, last int
	// drawn is set where it is a heading that is drawn out over several columns.
	drawn bool
}

// textLine is one line of an aligned text.
type textLine struct {
	text string
	// words are what blanks separate, and gaps[i] is whether two or more stand before words[i+1].
	words []span
	gaps  []bool
	// rule is a line of nothing but ruling signs.
	rule bool
	// votes is set where the gaps of the line show the columns of its table.
	votes bool
	// head is set where the line is the head or foot of a page, by its number.
	head bool
}

// gapped counts the gaps of the line: one less than the texts that stand apart in it.
func (l *textLine) gapped() int {
	n := 0
	for _, wide := range l.gaps {
		if wide {
			n++
		}
	}
	return n
}

const (
	// around is how many lines before and after one say how many texts a line of its table has.
	around = 10
	// usualShare of the lines around, 1/3, have as many gaps as a usual line or more, and a line votes with at least leastGaps, 2/5, of
	// them: heads and feet of pages have a gap or two and stand across the columns.
	usualShare   = 3
	leastGapsNum = 2
	leastGapsDen = 5
)

// findVoters marks the lines that show by their gaps where columns are.
func findVoters(lines []textLine) {
	gaps := make([]int, len(lines))
	for i := range lines {
		if !lines[i].rule {
			gaps[i] = lines[i].gapped()
		}
	}
	window := make([]int, 0, 2*around+1)
	var few []int
	for i := range lines {
		if gaps[i] == 0 {
			continue
		}
		window = window[:0]
		for _, n := range gaps[max(0, i-around):min(len(gaps), i+around+1)] {
			if n > 0 {
				window = append(window, n)
			}
		}
		slices.Sort(window)
		usual := window[len(window)-1-(len(window)-1)/usualShare]
		lines[i].votes = gaps[i]*leastGapsDen >= usual*leastGapsNum
		if lines[i].votes && gaps[i]*2 < usual {
			few = append(few, i)
		}
	}
	silenceHeads(lines, few)
}

// silenceHeads takes the vote from lines with few gaps that come again with another number: "Page 1 of 2" stands in heads of pages, which
// may have as many gaps as the second line of a heading.
func silenceHeads(lines []textLine, few []int) {
	first, counted := map[string]int{}, map[string]bool{}
	for _, i := range few {
		key := numberless(lines[i].text)
		if at, known := first[key]; !known {
			first[key] = i
		} else if lines[at].text != lines[i].text {
			counted[key] = true
		}
	}
	for _, i := range few {
		if counted[numberless(lines[i].text)] {
			lines[i].votes, lines[i].head = false, true
		}
	}
}

// numberless is a line without its digits.
func numberless(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return -1
		}
		return r
	}, text)
}

// splitLines cuts a text into lines of words. Where wide is set, characters of East Asian width take two columns. few is false where there
// are more than the limits allow: then it is left to the reader of separated text, which says so.
func splitLines(text string, wide bool, limits sheet.Limits) (lines []textLine, few bool) {
	words, content := 0, 0
	for len(text) > 0 {
		line, rest := cutLine(text)
		text = rest
		one := makeLine(line, wide)
		if words += len(one.words); len(one.words) > 0 {
			content++
		}
		if len(lines) >= maxRows || content > limits.Rows || words > limits.Cells {
			return nil, false
		}
		lines = append(lines, one)
	}
	findVoters(lines)
	return lines, true
}

func makeLine(text string, wide bool) textLine {
	line := textLine{text: text, rule: isRule(text)}
	at, inWord := 0, false
	for i, r := range text {
		size := 1
		switch {
		case r == '\t':
			size = tabStop - at%tabStop
		case wide:
			size = onScreen(r)
		}
		if at > widest {
			return textLine{text: text}
		}
		if isBlank(r) {
			inWord = false
			at += size
			continue
		}
		if !inWord {
			if n := len(line.words); n > 0 {
				before := line.words[n-1]
				line.gaps = append(line.gaps, isGap(text, before.last, i))
			}
			line.words = append(line.words, span{from: at, to: at, first: i, last: i})
			inWord = true
		}
		last := &line.words[len(line.words)-1]
		at += size
		last.to, last.last = max(at, last.from+1), i+utf8.RuneLen(r)
	}
	line.joinSpanners()
	return line
}

// isGap reports whether what is between two words shows that a column ends: two blanks or more, no tab, and no separator beside it.
func isGap(text string, from, to int) bool {
	between := text[from:to]
	return len(between) >= 2 && !strings.Contains(between, "\t") && !strings.ContainsAny(text[from-1:from]+text[to:to+1], ",;|")
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\f' || r == '\u3000' }

// isRule reports whether a line is drawn and not written: signs of ruling and blanks, and at least three in a row that lie flat.
func isRule(text string) bool {
	run, longest := 0, 0
	for _, r := range text {
		switch {
		case strings.ContainsRune("-=_\u2013\u2014", r), r >= 0x2500 && r <= 0x257f && !isBar(r):
			run++
			longest = max(longest, run)
		case isBlank(r), r == '+', r == ':', isBar(r):
			run = 0
		default:
			return false
		}
	}
	return longest >= 3
}

// isBar reports whether a sign stands between the columns of a drawn table.
func isBar(r rune) bool { return r == '|' || r == '│' || r == '║' || r == '┃' }

// onScreen is how many columns of the screen a sign takes (Unicode Standard Annex 11).
func onScreen(r rune) int {
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}
