package catalog

import (
	"strings"

	"example.com/seatline/reconcile/catalog/words"
)

// readFormat finds the unit among the literal texts of a number format: those in quotes, after a backslash, and plain
// letters and signs that are no codes of the format.
func (l *lexicon) readFormat(format string) (words.Hit, bool) {
	section, _, _ := strings.Cut(format, ";")
	for _, literal := range formatLiterals(section) {
		if hit, ok := l.words.Unit(strings.TrimSpace(literal)); ok {
			return hit, true
		}
	}
	return words.Hit{}, false
}

// formatLiterals returns the literal texts of a section of a number format.
func formatLiterals(section string) []string {
	var literals []string
	var current strings.Builder
	flush := func() {
		if current.Len() > 0 {
			literals = append(literals, current.String())
			current.Reset()
		}
	}
	runes := []rune(section)
	for i := 0; i < len(runes); i++ {
		switch r := runes[i]; r {
		case '"':
			end := i + 1
			for end < len(runes) && runes[end] != '"' {
				end++
			}
			flush()
			current.WriteString(string(runes[i+1 : min(end, len(runes))]))
			flush()
			i = end
		case '\\':
			if i+1 < len(runes) {
				current.WriteRune(runes[i+1])
				i++
			}
		case '_', '*':
			i++
		case '[':
			for i < len(runes) && runes[i] != ']' {
				i++
			}
		case '0', '#', '?', '.', ',', '/', '%', ' ', ';':
			flush()
		default:
			current.WriteRune(r)
		}
	}
	flush()
	return literals
}
