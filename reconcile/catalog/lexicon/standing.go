package lexicon

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// StandsFree reports whether what stands between two places of a text is no part of a longer word or number.
func StandsFree(text string, from, to int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:from])
	after, _ := utf8.DecodeRuneInString(text[to:])
	return (from == 0 || !InWord(before) && !unicode.IsDigit(before) && !strings.ContainsRune(".,/-#", before)) &&
		(to == len(text) || !InWord(after) && !unicode.IsDigit(after) && after != '/' && after != '-')
}

// InWord reports whether a sign is a letter that makes one word with what stands beside it: "外径13.6mm" are two, and so is "Ø13.6".
func InWord(sign rune) bool {
	return unicode.IsLetter(sign) && !IsWide(sign) && !strings.ContainsRune(DiameterSigns, sign)
}

// DiameterSigns stand for a diameter before a size.
const DiameterSigns = "ØøΦφϕ⌀"

// IsBare reports whether a text is a number without a word: "400 in stock" has one, and so have "$0.42" and "0,42 €" by their signs.
func IsBare(text string) bool {
	return LooksNumeric(text) && !strings.ContainsFunc(text, func(sign rune) bool { return unicode.IsLetter(sign) || unicode.Is(unicode.Sc, sign) })
}

// BearsNumber reports whether a text has a number.
func BearsNumber(text string) bool { return strings.ContainsFunc(text, unicode.IsNumber) }
