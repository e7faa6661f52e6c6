package csvtext

import (
	"bytes"
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
		got := Neutral(text)
		first, _ := utf8.DecodeRuneInString(strings.TrimLeft(got, " \u00a0"))
		if strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) || !utf8.ValidString(got) {
			t.Fatalf("Neutral(%q) = %q", text, got)
		}
		kept := strings.Map(func(r rune) rune {
			if unicode.IsControl(r) && !strings.ContainsRune("\t\r\n", r) {
				return -1
			}
			return r
		}, strings.ToValidUTF8(text, "\ufffd"))
		if got != kept && got != "'"+kept {
			t.Fatalf("Neutral(%q) = %q, want %q or that with an apostrophe", text, got, kept)
		}
	})
}

func TestNeutral(t *testing.T) {
	for text, want := range map[string]string{
		"":                 "",
		"plain":            "plain",
		".370 parallel":    ".370 parallel",
		"a-1=2":            "a-1=2",
		"=1+1":             "'=1+1",
		"+49":              "'+49",
		"-A1":              "'-A1",
		"@x":               "'@x",
		"\tx":              "'\tx",
		"\rx":              "'\rx",
		" =1":              "' =1",
		"\u00a0=1":         "'\u00a0=1",
		"\x00=1":           "'=1", // a NUL in front must not hide it
		"＝1":               "'＝1",
		"bell\arung":       "bellrung",
		"bad \xff byte":    "bad \ufffd byte",
		"two\nlines":       "two\nlines",
		`b"bb`:             `b"bb`,
		"ヘッド":              "ヘッド",
		"   ":              "   ",
		"'already quoted'": "'already quoted'",
	} {
		if got := Neutral(text); got != want {
			t.Errorf("Neutral(%q) = %q, want %q", text, got, want)
		}
	}
}

// TestAppendField holds fields against those that encoding/csv writes.
func TestAppendField(t *testing.T) {
	piece := rapid.SampledFrom([]string{"=", "-", "\t", "\r", "\n", " ", "\u00a0", ",", "\"", "a", "\\.", "\xff", "é"})
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(piece, 0, 8).Draw(t, "pieces"), "")
		var want bytes.Buffer
		w := NewWriter(&want)
		if err := w.Write([]string{"", Neutral(text)}); err != nil {
			t.Fatal(err)
		}
		w.Flush()
		if got := "," + string(AppendField(nil, text)) + "\r\n"; got != want.String() {
			t.Fatalf("AppendField(%q) gives %q, encoding/csv %q", text, got, want.String())
		}
	})
}
