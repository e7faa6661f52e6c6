package phrase_test

import (
	"testing"

	"example.com/seatline/reconcile/phrase"
)

// A supplier's text is shown as text: no line is broken and no terminal is steered, not by the control characters of ISO/IEC
// 6429 either, of which U+009B begins a sequence as escape and bracket do.
func TestOneLine(t *testing.T) {
	for text, want := range map[string]string{
		"two\nlines":             "two lines",
		"a\x1b[31mred":           "a [31mred",
		"a\u009b31mred":          "a 31mred",
		"  tab\tand\u00a0space ": "tab and space",
		"\x7f":                   "",
		"ホーゼル外径":                 "ホーゼル外径",
	} {
		if got := phrase.OneLine(text); got != want {
			t.Errorf("%q is shown as %q, want %q", text, got, want)
		}
	}
}

func TestCounts(t *testing.T) {
	for got, want := range map[string]string{
		phrase.Count(1, "head"): "1 head", phrase.Count(0, "head"): "0 heads", phrase.Count(2, "head"): "2 heads",
		phrase.CountOf(1, "new size serves", "new sizes serve"): "1 new size serves", phrase.CountOf(3, "new size serves", "new sizes serve"): "3 new sizes serve",
		phrase.Some(nil, 2): "", phrase.Some([]string{"a", "b"}, 2): "a, b", phrase.Some([]string{"a", "b", "c", "d"}, 2): "a, b and 2 more",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
