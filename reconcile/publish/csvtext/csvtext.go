// Package csvtext writes CSV that spreadsheet programs show as it is meant, and from which every text comes back as it was.
//
// A program that opens a CSV file may compute a field that begins like a formula, and the texts of a supplier's sheet are not ours.
// [Neutral] puts an apostrophe in front of such a text, as the OWASP Application Security Verification Standard 5, requirement 1.2.10,
// asks for (CWE-1236), and only of such a text: a sign without anything to compute behind it ("-", "-->") and a number with a sign stay as
// they are. A program whose list separator is the semicolon, as in many languages, takes a comma file apart at semicolons and passes over
// quotes in the middle, so that what stands behind a semicolon, a tab or the end of a line is looked at like the beginning of a field.
//
// [Original] takes the apostrophes off again: it is the inverse of [Neutral] for every text. Numbers that we have worked out need neither.
package csvtext

import (
	"bufio"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Writer writes CSV by RFC 4180, with CRLF at the end of each record and ends of lines inside of fields as they are. It buffers. The first
// error is kept, and returned by Flush.
type Writer struct {
	to     *bufio.Writer
	record []byte
}

// NewWriter returns a writer of CSV. It leaves the fields as they are; texts go through [Neutral] first.
func NewWriter(w io.Writer) *Writer { return &Writer{to: bufio.NewWriter(w)} }

// Write writes a record.
func (w *Writer) Write(record []string) error {
	w.record = w.record[:0]
	for i, field := range record {
		if i > 0 {
			w.record = append(w.record, ',')
		}
		w.record = appendQuoted(w.record, field)
	}
	if len(record) == 1 && record[0] == "" {
		w.record = append(w.record, `""`...) // an empty line would be no record
	}
	_, err := w.to.Write(append(w.record, "\r\n"...))
	return err
}

// Flush writes what is left, and returns the first error.
func (w *Writer) Flush() error { return w.to.Flush() }

// separators are where a program may take a text apart, whatever quotes stand around it.
const separators = ";\t\r\n"

// Neutral returns text so that no spreadsheet program computes it: each piece that begins like a formula gets an apostrophe in front. Bytes
// that are no UTF-8 are replaced.
func Neutral(text string) string {
	text = eachPiece(strings.ToValidUTF8(text, string(utf8.RuneError)), func(piece string) string {
		if guarded(piece) {
			return "'" + piece
		}
		return piece
	})
	if trimmed(text) {
		return "'" + text
	}
	return text
}

// Original returns the text of which [Neutral] made a field.
func Original(field string) string {
	if rest, marked := strings.CutPrefix(field, "'"); marked && trimmed(field) {
		field = rest
	}
	return eachPiece(field, func(piece string) string {
		if rest, marked := strings.CutPrefix(piece, "'"); marked && guarded(piece) {
			return rest
		}
		return piece
	})
}

// eachPiece changes the pieces between separators.
func eachPiece(text string, change func(string) string) string {
	if !strings.ContainsAny(text, separators) {
		return change(text)
	}
	var out strings.Builder
	for {
		at := strings.IndexAny(text, separators)
		if at < 0 {
			return out.String() + change(text)
		}
		out.WriteString(change(text[:at]) + text[at:at+1])
		text = text[at+1:]
	}
}

// guarded reports whether a piece gets an apostrophe, or has one already: a text that begins with apostrophes and would be computed without
// them gets one more, so that every text comes back.
func guarded(piece string) bool { return computes(strings.TrimLeft(piece, "'")) }

// trimmed reports whether a text begins with a character that some programs throw away, and then look at what follows.
func trimmed(text string) bool {
	text = strings.TrimLeft(text, "'")
	return text != "" && strings.IndexByte("\t\r\n\x00", text[0]) >= 0
}

// computes reports whether a spreadsheet program would compute a text. Programs begin a formula at =, + or -, some at @, and fold
// full-width forms to these; blanks, quotes and what is not seen are passed over.
func computes(text string) bool {
	text = strings.TrimLeftFunc(text, passedOver)
	first, size := utf8.DecodeRuneInString(text)
	switch {
	case size == 0:
		return false
	case strings.ContainsRune("=@＝＠", first):
		return true
	case !strings.ContainsRune(signs, first):
		return false
	}
	rest := strings.TrimLeftFunc(text, func(r rune) bool { return passedOver(r) || strings.ContainsRune(signs, r) })
	operand, _ := utf8.DecodeRuneInString(rest)
	begins := unicode.IsLetter(operand) || unicode.IsDigit(operand) || strings.ContainsRune(`.,('$[{#=@\_＝＠`, operand)
	return rest != "" && begins && !isNumber(text[size:])
}

const signs = "+-＋－"

func passedOver(r rune) bool {
	return r == '"' || unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r)
}

// isNumber reports whether what follows a sign is a number, in which there is nothing to compute.
func isNumber(text string) bool {
	whole, part, _ := strings.Cut(text, ".")
	digits := func(s string) bool { return strings.Trim(s, "0123456789") == "" }
	return whole+part != "" && digits(whole) && digits(part)
}

// AppendField appends a text as a field of a record: neutral, and quoted where it has to be.
func AppendField(b []byte, text string) []byte { return appendQuoted(b, Neutral(text)) }

// appendQuoted appends a field. Quotes go round one that has a comma, a quote or an end of line (RFC 4180, section 2, rules 5 to 7), that
// begins with a blank, or that stands for the end of the data elsewhere, as encoding/csv does it.
func appendQuoted(b []byte, field string) []byte {
	first, _ := utf8.DecodeRuneInString(field)
	if !strings.ContainsAny(field, ",\"\r\n") && !unicode.IsSpace(first) && field != `\.` {
		return append(b, field...)
	}
	b = append(b, '"')
	b = append(b, strings.ReplaceAll(field, `"`, `""`)...)
	return append(b, '"')
}
