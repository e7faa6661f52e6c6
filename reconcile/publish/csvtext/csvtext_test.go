package csvtext

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// anyText draws texts of what matters to the guard.
var anyText = rapid.Custom(func(t *rapid.T) string {
	piece := rapid.SampledFrom([]string{"=", "+", "-", "@", ";", "\t", "\r", "\n", " ", "\u00a0", "\x00", "\x1b", "\u0085", "\u202e", "＝", "－", "a", "1", ".", "(", ">", "'", "\"", ",", "é"})
	return strings.Join(rapid.SliceOfN(piece, 0, 12).Draw(t, "pieces"), "")
})

// TestComesBack: whatever a supplier wrote comes back, also through a reader of CSV, and no two texts become one.
func TestComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyText.Draw(t, "text")
		if got := Original(Neutral(text)); got != text {
			t.Fatalf("%q came back as %q", text, got)
		}
		text = strings.ReplaceAll(text, "\r", "") // encoding/csv reads CRLF in a field as LF
		var out bytes.Buffer
		w := NewWriter(&out)
		if err := w.Write([]string{"x", Neutral(text)}); err != nil {
			t.Fatal(err)
		}
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		records, err := csv.NewReader(&out).ReadAll()
		if err != nil || len(records) != 1 || Original(records[0][1]) != text {
			t.Fatalf("%q came back as %q, %v", text, records, err)
		}
	})
}

// TestNothingComputes: no piece of a field begins with = or @, nor with a sign before a letter, wherever a program takes it apart. What is
// skipped before it is what spreadsheet programs are known to skip.
func TestNothingComputes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		field := string(AppendField(nil, anyText.Draw(t, "text")))
		for piece := range strings.FieldsFuncSeq(field, func(r rune) bool { return strings.ContainsRune(";\t\r\n", r) }) {
			piece = strings.TrimLeft(piece, " \u00a0\"\x00")
			first, size := utf8.DecodeRuneInString(piece)
			if strings.ContainsRune("=@＝＠", first) || strings.ContainsRune("+-－", first) && strings.HasPrefix(piece[size:], "a") {
				t.Fatalf("%q begins like a formula in %q", piece, field)
			}
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
		"+49-1":            "'+49-1",
		"+49":              "+49",
		"-0.05":            "-0.05",
		"+49|calc":         "'+49|calc",
		"-A1":              "'-A1",
		"- - A1":           "'- - A1",
		"-(1)":             "'-(1)",
		"-":                "-",
		"---":              "---",
		"-->":              "-->",
		"+/-0.05":          "+/-0.05",
		"@x":               "'@x",
		"\tx":              "'\tx",
		"\t=x":             "'\t'=x",
		"'\tx":             "''\tx",
		" =1":              "' =1",
		"\u00a0=1":         "'\u00a0=1",
		"\x00=1":           "''\x00=1", // a NUL in front must not hide it
		"\"=1":             "'\"=1",
		"＝1":               "'＝1",
		"'=1":              "''=1",
		"'already quoted'": "'already quoted'",
		"'tis":             "'tis",
		"AB\u0085C":        "AB\u0085C",
		"bad \xff byte":    "bad \ufffd byte",
		"two\nlines":       "two\nlines",
		"two\n=lines":      "two\n'=lines",
		"a;=1+1":           "a;'=1+1",
		"a; -B2;c":         "a;' -B2;c",
		`b"bb`:             `b"bb`,
		"ヘッド":              "ヘッド",
	} {
		if got := Neutral(text); got != want {
			t.Errorf("Neutral(%q) = %q, want %q", text, got, want)
		}
	}
}

// TestAppendField holds fields against those that encoding/csv writes.
func TestAppendField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyText.Draw(t, "text")
		var want bytes.Buffer
		w := csv.NewWriter(&want)
		if err := w.Write([]string{"", Neutral(text)}); err != nil {
			t.Fatal(err)
		}
		w.Flush()
		if got := "," + string(AppendField(nil, text)) + "\n"; got != want.String() {
			t.Fatalf("AppendField(%q) gives %q, encoding/csv %q", text, got, want.String())
		}
	})
}
