// Package csvtext writes CSV that spreadsheet programs show as it is meant.
//
// A program that opens a CSV file may run a field that begins like a formula, and the texts of a supplier's sheet are not ours.
// [Neutral] puts an apostrophe in front of such a text, as the OWASP Application Security Verification Standard 5, requirement 1.2.10,
// asks for (CWE-1236). Numbers that we have worked out need none of it.
package csvtext

import (
	"encoding/csv"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// NewWriter returns a writer of CSV by RFC 4180, with CRLF at the end of each record. It buffers: the caller has to flush it and to look
// at its error. It leaves the fields as they are; texts go through [Neutral] first.
func NewWriter(w io.Writer) *csv.Writer {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return out
}

// Neutral returns text so that no spreadsheet program takes it for a formula: one that begins like a formula, blanks before it
// not counted, gets an apostrophe in front. Characters that are no text (NUL and its like) are left out, and bytes that are no
// UTF-8 are replaced.
func Neutral(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(utf8.RuneError)))
	if text == "" {
		return ""
	}
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, " \u00a0"))
	// The last four are the full-width forms, which some programs fold to the first.
	if strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) {
		return "'" + text
	}
	return text
}

// AppendField appends a text as a field of a record: neutral, and quoted where it has to be. Quotes go round a field that has a comma,
// a quote or an end of line, or that begins with a blank (RFC 4180, section 2, rules 5 to 7).
func AppendField(b []byte, text string) []byte {
	text = Neutral(text)
	first, _ := utf8.DecodeRuneInString(text)
	if !strings.ContainsAny(text, ",\"\r\n") && !unicode.IsSpace(first) && text != `\.` {
		return append(b, text...)
	}
	b = append(b, '"')
	b = append(b, strings.NewReplacer(`"`, `""`, "\r", "", "\n", "\r\n").Replace(text)...)
	return append(b, '"')
}
