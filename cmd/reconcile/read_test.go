package main

import "testing"

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
		if got := oneLine(text); got != want {
			t.Errorf("%q is shown as %q, want %q", text, got, want)
		}
	}
}
