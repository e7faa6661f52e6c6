package lexicon

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/internal/pattern"
)

// manyPieces is a number of pieces for which a price is quoted.
var manyPieces = pattern.Lazy(`1[., ’']?000|500|250|144|100|50|25|12|10`)

// PricePer returns for how many pieces a heading of prices says that they are, 1 where it says nothing: "Price per 100", "les 100",
// "€/1.000", "100個あたり". The word for it has to stand beside the number.
func (l *Lexicon) PricePer(heading string) float64 {
	if !strings.ContainsAny(heading, "01245") || len(heading) > LongestHeading {
		return 1
	}
	for _, at := range manyPieces().FindAllStringIndex(heading, -1) {
		before, after := heading[:at[0]], heading[at[1]:]
		if !standsAlone(before, after) || !l.saysPer(before, after) {
			continue
		}
		digits := strings.Map(func(r rune) rune {
			if unicode.IsDigit(r) {
				return r
			}
			return -1
		}, heading[at[0]:at[1]])
		if n, err := strconv.ParseFloat(digits, 64); err == nil {
			return n
		}
	}
	return 1
}

// standsAlone reports whether a number between two texts is no part of a longer one.
func standsAlone(before, after string) bool {
	last, _ := utf8.DecodeLastRuneInString(before)
	next, size := utf8.DecodeRuneInString(after)
	if unicode.IsDigit(last) || strings.ContainsRune(".,-–", last) || unicode.IsDigit(next) || strings.ContainsRune("+-–%", next) {
		return false
	}
	following, _ := utf8.DecodeRuneInString(after[size:])
	return !(next == '.' || next == ',') || !unicode.IsDigit(following)
}

// saysPer reports whether a slash or a word for per stands before or, in languages that do so, behind a number.
func (l *Lexicon) saysPer(before, after string) bool {
	before = strings.TrimRight(before, " ")
	if strings.HasSuffix(before, "/") {
		return true
	}
	words := strings.FieldsFunc(before, func(r rune) bool { return !unicode.IsLetter(r) })
	if len(words) > 0 && strings.HasSuffix(before, words[len(words)-1]) && l.isPer(words[len(words)-1]) {
		return true
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	if l.isPer(string(last)) && !unicode.Is(unicode.Latin, last) {
		return true
	}
	behind := []rune(strings.TrimLeft(after, " "))
	return slices.ContainsFunc([]int{0, 1}, func(skip int) bool {
		for n := 1; n <= 4 && skip+n <= len(behind); n++ {
			if piece := behind[skip : skip+n]; !unicode.Is(unicode.Latin, piece[0]) && l.isPer(string(piece)) {
				return true
			}
		}
		return false
	})
}

func (l *Lexicon) isPer(word string) bool {
	_, found := l.Words.Mark(word, "per_many")
	return found
}
