package data

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// TestNeutralAlways: whatever a sheet holds, no field begins like a formula, and nothing but what is no text is lost.
func TestNeutralAlways(t *testing.T) {
	piece := rapid.SampledFrom([]string{"=", "+", "-", "@", "\t", "\r", "\n", " ", "\u00a0", "\x00", "\x1b", "＝", "a", "1", "'", "\"", "\xff", "é"})
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(piece, 0, 12).Draw(t, "pieces"), "")
		got := neutral(text)
		first, _ := utf8.DecodeRuneInString(strings.TrimLeft(got, " \u00a0"))
		if strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) || !utf8.ValidString(got) {
			t.Fatalf("neutral(%q) = %q", text, got)
		}
		kept := strings.Map(func(r rune) rune {
			if unicode.IsControl(r) && !strings.ContainsRune("\t\r\n", r) {
				return -1
			}
			return r
		}, strings.ToValidUTF8(text, "\ufffd"))
		if got != kept && got != "'"+kept {
			t.Fatalf("neutral(%q) = %q, want %q or that with an apostrophe", text, got, kept)
		}
	})
}
