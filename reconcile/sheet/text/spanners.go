package text

import (
	"strings"
	"unicode"
)

// A heading over several columns may be drawn out over them: "------ PRICE EACH ------", "<--- Preis --->". It is one word as wide as they are, and its
// text is what stands within.

// joinSpanners makes one word of each such heading of a line.
func (l *textLine) joinSpanners() {
	if l.rule || !strings.ContainsAny(l.text, ruling) {
		return
	}
	for i := 0; i < len(l.words); i++ {
		if i > 0 && !l.gaps[i-1] {
			continue
		}
		last := i
		for last < len(l.gaps) && !l.gaps[last] {
			last++
		}
		first, to, drawn := drawnOut(l.text[l.words[i].first:l.words[last].last])
		if !drawn {
			i = last
			continue
		}
		at := l.words[i].first
		l.words[i] = span{from: l.words[i].from, to: l.words[last].to, first: at + first, last: at + to, drawn: true}
		l.words = append(l.words[:i+1], l.words[last+1:]...)
		l.gaps = append(l.gaps[:i], l.gaps[last:]...)
	}
}

// ruling are the signs that headings are drawn out with, and drawing those that may end them too.
const (
	ruling  = "-=_–—─"
	drawing = ruling + "<>|│+ "
)

// leastDrawn is how many signs stand at least on either side.
const leastDrawn = 2

// drawnOut returns where the text begins and ends that stands between signs of ruling on both sides.
func drawnOut(text string) (from, to int, drawn bool) {
	from = len(text) - len(strings.TrimLeft(text, drawing))
	to = len(strings.TrimRight(text, drawing))
	if from >= to || signs(text[:from]) < leastDrawn || signs(text[to:]) < leastDrawn {
		return 0, 0, false
	}
	return from, to, strings.ContainsFunc(text[from:to], unicode.IsLetter)
}

func signs(text string) (n int) {
	for _, r := range text {
		if strings.ContainsRune(ruling, r) {
			n++
		}
	}
	return n
}
