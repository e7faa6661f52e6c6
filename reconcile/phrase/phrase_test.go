package phrase_test

import (
	"cmp"
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
		"OW\u202e1-M":            "OW 1-M",
		"OW\u2028M":              "OW M",
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
		phrase.Minutes(3.84): "3.8 minutes", phrase.Minutes(1236): "20.6 hours", phrase.All([]string{"a"}): "a", phrase.All([]string{"a", "b", "c"}): "a, b and c", phrase.Some(nil, 2): "", phrase.Some([]string{"a", "b"}, 2): "a, b", phrase.Some([]string{"a", "b", "c", "d"}, 2): "a, b and 2 more",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// A name that reads like another one is told from it.
func TestEscape(t *testing.T) {
	for text, want := range map[string]string{
		"a  b.csv": "a  b.csv", "a\nb": `a\u000ab`, "\x1b[2J": `\u001b[2J`, "\u202egpj": `\u202egpj`, "ホーゼル": "ホーゼル",
	} {
		if got := phrase.Escape(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

func TestShorten(t *testing.T) {
	for text, want := range map[string]string{"": "", "abcdefghij": "abcdefghij", "abcdefghijk": "abcdef…ijk", "ホーゼル外径ホーゼル": "ホーゼル外径ホーゼル"} {
		if got := phrase.Shorten(text, 10); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// TestCompare: an order of names, whatever they are, and numbers in them are numbers.
func TestCompare(t *testing.T) {
	names := []string{"", "2", "10", "OW-M1-02", "OW-M1-2", "OW-M1-2a", "OW-M1-10", "OW-M2", "a", "a01", "a1", "a0001b", "a1b", "a2"}
	for i, a := range names {
		for j, b := range names {
			if got, want := phrase.Compare(a, b), cmp.Compare(i, j); got != want {
				t.Errorf("%q and %q: %d, want %d", a, b, got, want)
			}
		}
	}
}
