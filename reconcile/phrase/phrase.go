// Package phrase has the small pieces that sentences about lists and counts are made of.
package phrase

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
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

// longInMinutes is from where on people count a time in hours.
const longInMinutes = 120

// Minutes is a time for people, in hours where minutes would be many: 3.8 minutes, 20.6 hours.
func Minutes(x float64) string {
	if x < longInMinutes {
		return fmt.Sprintf("%.1f minutes", x)
	}
	return fmt.Sprintf("%.1f hours", x/60)
}

// All names all of the parts, the last after "and".
func All(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	last := len(parts) - 1
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}

// Some names the first parts, as many as most, and counts the rest.
func Some(parts []string, most int) string {
	if len(parts) <= most {
		return strings.Join(parts, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(parts[:most], ", "), len(parts)-most)
}

// mostHeadings is how many headings of a list are named.
const mostHeadings = 5

// Headings names the headings of a list, the first that say anything; it is empty where none does.
func Headings(headings []string) string {
	var said []string
	for _, heading := range headings {
		if heading != "" {
			said = append(said, Brief(heading))
		}
	}
	return Some(said, mostHeadings)
}

// Steers reports whether a character does something to a terminal or a line other than being seen: controls, of ISO/IEC 6429 too, the ends
// of lines and paragraphs, and those that turn the direction of the text after them (Unicode Standard Annex 9), by which a name can be made
// to look like another.
func Steers(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\ufeff' || unicode.Is(unicode.Bidi_Control, r)
}

// OneLine keeps a text that is not ours from breaking a layout or steering a terminal: blanks and characters that steer become single
// blanks, and none at the ends.
func OneLine(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || Steers(r) }), " ")
}

// Escape writes out the characters of a text that steer, as JSON does, so that a name with a line break in it is told from one without.
func Escape(text string) string {
	if !strings.ContainsFunc(text, Steers) {
		return text
	}
	var out strings.Builder
	for _, r := range text {
		if Steers(r) {
			fmt.Fprintf(&out, `\u%04x`, r)
			continue
		}
		out.WriteRune(r)
	}
	return out.String()
}

// mostShown is how many characters of a text are shown where a person reads it among others.
const mostShown = 300

// Brief is a text on one line of which, where it is very long, the middle is left out: what stands at its end is often what to do.
func Brief(text string) string { return Shorten(OneLine(text), mostShown) }

// Shorten leaves out the middle of a text of more characters than most.
func Shorten(text string, most int) string {
	if len(text) <= most || utf8.RuneCountInString(text) <= most {
		return text
	}
	letters := []rune(text)
	end := (most - 1) / 3
	return string(letters[:most-1-end]) + "…" + string(letters[len(letters)-end:])
}

// Compare orders names as people do: by their letters, and where they have digits by the number.
func Compare(a, b string) int {
	i, j := 0, 0
	for i < len(a) && j < len(b) {
		m, n := digitsAt(a[i:]), digitsAt(b[j:])
		if m == 0 || n == 0 {
			if a[i] != b[j] {
				return cmp.Compare(a[i], b[j])
			}
			i, j = i+1, j+1
			continue
		}
		x, y := strings.TrimLeft(a[i:i+m], "0"), strings.TrimLeft(b[j:j+n], "0")
		if differ := cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(x, y)); differ != 0 {
			return differ
		}
		i, j = i+m, j+n
	}
	return cmp.Or(cmp.Compare(len(a)-i, len(b)-j), cmp.Compare(a, b))
}

func digitsAt(text string) int {
	return len(text) - len(strings.TrimLeft(text, "0123456789"))
}
