package words

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Texts of other languages are mostly simple: ASCII, Latin letters with their accents, Chinese characters, kana and Korean syllables. None
// of these has another compatible form, so that such texts need not be searched for any.

const (
	latinFrom, latinTo = 0xc0, 0x250
)

// latin are the Latin letters beyond ASCII without their accents, empty for what is no letter or has a compatible form.
var latin = sync.OnceValue(func() (letters [latinTo - latinFrom]string) {
	for r := rune(latinFrom); r < latinTo; r++ {
		if one := string(r); unicode.IsLetter(r) && norm.NFKC.String(one) == one && strings.ToLower(one) == string(unicode.ToLower(r)) && r != '\u0130' {
			letters[r-latinFrom] = plainLetter(r)
		}
	}
	return letters
})

// isWideLetter reports whether a character is a Chinese one, a kana or a Korean syllable.
func isWideLetter(r rune) bool {
	return r >= 0x4e00 && r <= 0x9fa5 || r >= 0x3041 && r <= 0x3096 || r >= 0x30a1 && r <= 0x30fa || r >= 0xac00 && r <= 0xd7a3
}

// isSimple reports whether a text has only simple characters.
func isSimple(s string) bool {
	for _, r := range s {
		switch {
		case r < utf8.RuneSelf, isWideLetter(r):
		case r < latinFrom || r >= latinTo || latin()[r-latinFrom] == "":
			return false
		}
	}
	return true
}

// foldSimple is Fold for a simple text.
func foldSimple(s string) string {
	var room [128]byte
	b, gap := room[:0], false
	for _, r := range s {
		is := aLetter
		if r < utf8.RuneSelf {
			is = sortOf(byte(r))
		}
		if is == between {
			gap = true
			continue
		}
		letter := ""
		switch {
		case r < utf8.RuneSelf, isWideLetter(r):
		default:
			letter = latin()[r-latinFrom]
			if letter == "ø" {
				is = alone
			}
		}
		if (gap || is == alone) && len(b) > 0 {
			b = append(b, ' ')
		}
		gap = is == alone
		switch {
		case r < utf8.RuneSelf:
			b = append(b, lower(byte(r)))
		case letter != "":
			b = append(b, letter...)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return string(b)
}

// signSimple is [signForm] of a simple text.
func signSimple(s string) string {
	var room [128]byte
	b := room[:0]
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == '\'' && i+1 < len(s) && s[i+1] == '\'':
			b = append(b, '"')
			size = 2
		case r == ' ' || r >= '\t' && r <= '\r':
		default:
			b = utf8.AppendRune(b, unicode.ToLower(r))
		}
		i += size
	}
	return string(b)
}
