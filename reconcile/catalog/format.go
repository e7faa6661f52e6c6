package catalog

import (
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// readFormat finds the unit that a number format shows beside the number, in whatever way the program wrote it.
func (l *lexicon) readFormat(format string) (words.Hit, bool) {
	before, after := numfmt.Parse(format).Affixes()
	for _, text := range []string{after, before} {
		if text == "" {
			continue
		}
		if hit, ok := l.words.Unit(text); ok {
			return hit, true
		}
		if hits := l.words.Units(text); len(hits) == 1 {
			return hits[0], true
		}
	}
	return words.Hit{}, false
}
