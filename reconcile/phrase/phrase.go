// Package phrase has the small pieces that sentences about lists and counts are made of.
package phrase

import (
	"fmt"
	"strings"
	"unicode"
)

// Count is a count with its noun: 1 head, 2 heads.
func Count(n int, noun string) string { return CountOf(n, noun, noun+"s") }

// CountOf is a count with its noun, in the singular or the plural.
func CountOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Some names the first parts, as many as most, and counts the rest.
func Some(parts []string, most int) string {
	if len(parts) <= most {
		return strings.Join(parts, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(parts[:most], ", "), len(parts)-most)
}

// OneLine keeps a text that is not ours from breaking a layout or steering a terminal: blanks and control characters become single blanks,
// and none at the ends.
func OneLine(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }), " ")
}
