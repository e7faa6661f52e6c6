package words

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// sharedSign is a sign that several currencies have: alone it is taken for one of them.
type sharedSign struct {
	sign   string
	others []string
}

// sharedSigns are such signs by the currency that each is taken for alone, with the others of ISO 4217 that are written so in their countries. Common
// practice.
var sharedSigns = map[string]sharedSign{
	"USD": {"$", []string{"CAD", "AUD", "NZD", "SGD", "HKD", "TWD", "NAD", "MXN", "ARS", "CLP", "COP", "UYU"}},
	"JPY": {"¥", []string{"CNY"}},
}

// MayMean reports whether a text that was taken to name a currency has only a sign for it, which another currency has as well: "$14.25" where prices
// are in Canadian dollars. "US$14.25" has not.
func MayMean(text, named, other string) bool {
	shared, known := sharedSigns[named]
	if !known || !slices.Contains(shared.others, other) {
		return false
	}
	before, behind, found := strings.Cut(text, shared.sign)
	last, _ := utf8.DecodeLastRuneInString(before)
	next, _ := utf8.DecodeRuneInString(behind)
	return found && !unicode.IsLetter(last) && !unicode.IsLetter(next) && !strings.Contains(strings.ToUpper(text), named)
}
