package words

import "unicode/utf8"

// Most texts are plain: ASCII alone, which has no compatibility forms and no accents. They are folded here byte by byte; what is
// written for any text gives the same.

// isPlain reports whether a text is ASCII alone.
func isPlain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// sort is what a byte of a plain text is.
type sort uint8

const (
	between sort = iota // spaces, punctuation, control characters: they part words
	aLetter
	aDigit
	alone // # % $: a word of its own
)

// sortOf returns what a byte of a plain text is. Control characters part words as well, so that both are between.
func sortOf(c byte) sort {
	switch {
	case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z':
		return aLetter
	case c >= '0' && c <= '9':
		return aDigit
	case c == '#', c == '%', c == '$':
		return alone
	}
	return between
}

func lower(c byte) byte {
	if c >= 'A' && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

// foldPlain is Fold for a plain text.
func foldPlain(s string) string { return plainForm(s, false) }

// keyPlain returns the tokens of a plain text, joined by spaces.
func keyPlain(s string) string { return plainForm(s, true) }

func plainForm(s string, divide bool) string {
	var space [96]byte
	b := appendPlain(space[:0], s, divide)
	if string(b) == s {
		return s
	}
	return string(b)
}

// appendPlain adds the folded form of a plain text to b; where it is to be divided into tokens, with a space also between letters and
// digits.
func appendPlain(b []byte, s string, divide bool) []byte {
	start, gap, last := len(b), false, between
	for i := 0; i < len(s); i++ {
		is := sortOf(s[i])
		if is == between {
			gap = true
			continue
		}
		if (gap || is == alone || divide && is != last) && len(b) > start {
			b = append(b, ' ')
		}
		b = append(b, lower(s[i]))
		gap, last = is == alone, is
	}
	return b
}

// runsTogether reports whether a text has a capital behind three small letters, as words run together have.
func runsTogether(s string) bool {
	lowers := 0
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= utf8.RuneSelf:
			return true // for the rules of other scripts
		case c >= 'a' && c <= 'z':
			lowers++
		case c >= 'A' && c <= 'Z' && lowers >= 3:
			return true
		default:
			lowers = 0
		}
	}
	return false
}

// signPlain is [signForm] of a plain text.
func signPlain(s string) string {
	var space [96]byte
	b := appendSign(space[:0], s)
	if string(b) == s {
		return s
	}
	return string(b)
}

// appendSign adds the form in which signs of a plain text are compared to b: small letters, two apostrophes as a sign for inches, no spaces.
func appendSign(b []byte, s string) []byte {
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c == '\'' && i+1 < len(s) && s[i+1] == '\'':
			b = append(b, '"')
			i++
		case c == ' ' || c >= '\t' && c <= '\r':
		default:
			b = append(b, lower(c))
		}
	}
	return b
}
