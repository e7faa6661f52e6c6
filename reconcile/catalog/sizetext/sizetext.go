// Package sizetext reads the sizes that a text gives, with the names beside them or in lists, and knows which sizes parts can have, alone and
// together.
package sizetext

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// Size is a size in a text with the name beside it, and where the first of both begins.
type Size struct {
	Role, Name, Text string
	From             int
}

// Finder finds the sizes of a text.
type Finder func(lex *lexicon.Lexicon, text string) []Size

// Possible reports whether a size in a text can be what its name says, in some unit where it has none.
func (s Size) Possible(lex *lexicon.Lexicon) bool {
	role := catalog.Role(s.Role)
	switch one := lex.Read(s.Text, value.Context{Want: value.WantLength}); one.Kind {
	case value.Length:
		return PossibleAs(role, traits.MM(one.Dim.Nominal()))
	case value.Number:
		return PossibleNumber(role, one.Number)
	}
	return false
}

// Number is a size in mm, or the bare number that it is where it has no unit; false where a text is neither.
func Number(lex *lexicon.Lexicon, text string) (number float64, ok bool) {
	switch one := lex.Read(text, value.Context{Want: value.WantLength}); one.Kind {
	case value.Length:
		return traits.MM(one.Dim.Nominal()), true
	case value.Number:
		return one.Number, true
	}
	return 0, false
}

// In returns the sizes with names in a text, whose names stand before or behind them.
func In(lex *lexicon.Lexicon, text string, behind bool) []Size {
	places := Joined(lex, text, withMisread(text, Places(text, 24)))
	var sizes []Size
	for i, at := range places {
		if !lexicon.StandsFree(text, at[0], at[1]) {
			continue
		}
		name := ""
		if behind {
			end := len(text)
			if i+1 < len(places) {
				end = places[i+1][0]
			}
			gap := text[at[1]:end]
			if cut := strings.IndexAny(gap, betweenSizes+")）"); cut >= 0 {
				gap = gap[:cut]
			}
			name = NameAtStart(lex, gap)
		} else {
			from := 0
			if i > 0 {
				from = places[i-1][1]
			}
			gap := strings.TrimRight(text[from:at[0]], " ,;，；、：")
			if last := strings.LastIndexAny(gap, betweenSizes+"(（："); last >= 0 {
				_, size := utf8.DecodeRuneInString(gap[last:])
				gap = gap[last+size:]
			}
			name = NameAtEnd(lex, gap)
		}
		if name != "" {
			from := at[0]
			if before := strings.LastIndex(text[:from], name); !behind && before >= 0 { // which is otherwise written with more blanks
				from = before
			}
			sizes = append(sizes, Size{RoleNamed(lex, name), name, text[at[0]:at[1]], from})
		}
	}
	return sizes
}

// withMisread lets the places of numbers reach over a letter in place of a digit, and the unit behind it: 13.O mm. What is in doubt is said where
// the size is read.
func withMisread(text string, places [][]int) [][]int {
	for _, at := range places {
		rest := text[at[1]:]
		end, letters := 0, false
		for end < len(rest) && (isDigit(rest[end]) || rest[end] == '.' || rest[end] == ',' || lexicon.DigitMeant(rest[end]) != 0) {
			letters = letters || lexicon.DigitMeant(rest[end]) != 0
			end++
		}
		if end = len(strings.TrimRight(rest[:end], DecimalMarks)); !letters || end == 0 || !isDigit(text[at[1]-1]) {
			continue
		}
		unit := len(unitAhead().FindString(rest[end:]))
		if next, _ := utf8.DecodeRuneInString(rest[end+unit:]); unicode.IsLetter(next) || unicode.IsDigit(next) || unit == 0 && !strings.ContainsAny(rest[:1], DecimalMarks) {
			continue
		}
		at[1] += end + unit
	}
	return slices.CompactFunc(places, func(a, b []int) bool { return a[0] < b[1] && b[0] < a[1] })
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// unitAhead is a unit at the beginning of a text.
var unitAhead = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)^` + anyUnit()) })

// Joined makes one place of those between which only a word or a sign stands by which they are one size, or several that go by one name:
// "9.35 or 9.5", "13.4 - 13.6". One alone would be a choice that nobody made.
func Joined(lex *lexicon.Lexicon, text string, places [][]int) [][]int {
	var all [][]int
	for i, at := range places {
		if i > 0 {
			before := places[i-1]
			if Joins(lex, text[before[0]:before[1]], text[before[1]:at[0]], text[at[0]:at[1]]) {
				all[len(all)-1][1] = at[1]
				continue
			}
		}
		all = append(all, slices.Clone(at))
	}
	return all
}

// Joins reports whether what stands between two numbers joins them. A dash between blanks may just as well divide ("Iron 7 - 13.6 mm OD"), and
// does so where one number has decimals and the other none.
func Joins(lex *lexicon.Lexicon, first, between, second string) bool {
	sign := strings.TrimRight(strings.TrimSpace(between), lexicon.DiameterSigns+" ")
	switch {
	case sign == "":
		return false
	case strings.Trim(sign, Dashes) == "":
		return strings.ContainsAny(first, DecimalMarks) == strings.ContainsAny(second, DecimalMarks)
	case strings.Trim(sign, "/~+±xX"+TimesSigns) == "":
		return true
	}
	if Corrects(lex, sign) {
		return true // 13.6, no, sorry, 13.8
	}
	_, or := lex.Words.Mark(sign, "or")
	_, to := lex.Words.Mark(sign, "to")
	return (or || to) && RoleNamed(lex, sign) == "" // "od" is "from" in Polish
}

// FarApart reports whether the number at the end of a text and that at the beginning of another are so different that no sign makes one size of them, in two
// units or with limits: "long 12 - 0.38".
func FarApart(before, behind string) bool {
	first, second := lastNumber().FindString(before), firstNumber().FindString(behind)
	a, err1 := strconv.ParseFloat(strings.Replace(first, ",", ".", 1), 64)
	b, err2 := strconv.ParseFloat(strings.Replace(second, ",", ".", 1), 64)
	if err1 != nil || err2 != nil || a <= 0 || b <= 0 {
		return false
	}
	ratio := max(a, b) / min(a, b)
	return ratio > farApart && math.Abs(ratio/traits.UnitMM["in"]-1) > sameSize
}

// farApart is how many times as much one of two numbers is that are no limits of one size, and sameSize by what share two sizes differ at most that are one in
// two units.
const farApart, sameSize = 3, 0.01

var (
	lastNumber  = pattern.Lazy(`\d*[.,]?\d+$`)
	firstNumber = pattern.Lazy(`^\d*[.,]?\d+`)
)

// DecimalMarks stand before decimals.
const DecimalMarks = ".,"

// Dashes may stand between two numbers that are one size, or between a number and what is said of it.
const Dashes = "-–—"

// longestCorrection is how many bytes the words have at most that put a size right.
const longestCorrection = 40

// Corrects reports whether what stands between two sizes says that the second is meant.
func Corrects(lex *lexicon.Lexicon, between string) bool {
	said := strings.Trim(between, AroundNames+".!…")
	return said != "" && len(said) <= longestCorrection && lex.Words.Corrects(said)
}

// Places returns where the first numbers in a text stand, each with its unit and its limits.
func Places(text string, most int) (places [][]int) {
	for from := 0; len(places) < most; {
		at := nextNumber(text, from)
		if at < 0 {
			return places
		}
		from = at + measureEnd(text[at:])
		places = append(places, []int{at, from})
	}
	return places
}

// Numbers returns the first numbers in a text, each with its unit and its limits.
func Numbers(text string, most int) (all []string) {
	for _, at := range Places(text, most) {
		all = append(all, text[at[0]:at[1]])
	}
	return all
}

// First returns the first number in a text with its unit and its limits, empty where there is none.
func First(text string) string { return strings.Join(Numbers(text, 1), "") }

// nextNumber returns where the next number in a text begins, with its decimal mark where nothing stands before that, and -1 where there is none. The
// expression for measures is slow at finding this out.
func nextNumber(text string, from int) int {
	for i := from; i < len(text); i++ {
		if isDigit(text[i]) || strings.IndexByte(DecimalMarks, text[i]) >= 0 && i+1 < len(text) && isDigit(text[i+1]) {
			return i
		}
	}
	return -1
}

// measureEnd returns where a number at the beginning of a text ends, with its unit and its limits.
func measureEnd(text string) int {
	end := numberEnd(text)
	end += unitEnd(text[end:])
	if at := limitAhead(text[end:]); at > 0 {
		end += at
		end += unitEnd(text[end:])
	}
	return end
}

// numberEnd returns where a number ends with which a text begins, also one with a fraction.
func numberEnd(text string) int {
	end := digitsEnd(text, 0)
	if end > 0 && end < len(text) {
		if text[end] == '-' || text[end] == ' ' { // 1-1/4
			if whole := fractionEnd(text, end+1); whole > 0 {
				return whole
			}
		}
		if whole := fractionEnd(text, 0); whole > 0 {
			return whole
		}
	}
	if end < len(text) && strings.IndexByte(DecimalMarks, text[end]) >= 0 {
		if decimals := digitsEnd(text, end+1); decimals > end+1 {
			return decimals
		}
	}
	return end
}

// fractionEnd returns where a fraction ends that begins at a place of a text, 0 where none does.
func fractionEnd(text string, from int) int {
	stroke := digitsEnd(text, from)
	if stroke == from || stroke == len(text) || text[stroke] != '/' {
		return 0
	}
	if end := digitsEnd(text, stroke+1); end > stroke+1 {
		return end
	}
	return 0
}

// digitsEnd returns where the digits at a place of a text end.
func digitsEnd(text string, from int) int {
	for from < len(text) && isDigit(text[from]) {
		from++
	}
	return from
}

// limitAhead returns where the number of limits ends with which a text begins, "± 0.05", 0 where there are none.
func limitAhead(text string) int {
	rest := strings.TrimPrefix(text, " ")
	sign := 0
	for _, one := range []string{"±", "+/-"} {
		if strings.HasPrefix(rest, one) {
			sign = len(one)
		}
	}
	if sign == 0 {
		return 0
	}
	at := len(text) - len(rest) + sign
	if at < len(text) && text[at] == ' ' {
		at++
	}
	whole := digitsEnd(text, at)
	if whole < len(text) && strings.IndexByte(DecimalMarks, text[whole]) >= 0 {
		if end := digitsEnd(text, whole+1); end > whole+1 {
			return end
		}
	}
	if whole > at {
		return whole
	}
	return 0
}

// unitEnd returns where a unit ends with which a text begins, perhaps behind a blank; 0 where none does.
func unitEnd(text string) int {
	rest := strings.TrimPrefix(text, " ")
	if rest == "" {
		return 0
	}
	for _, unit := range unitsByStart()[rest[0]] {
		if len(rest) < len(unit) || !strings.EqualFold(rest[:len(unit)], unit) {
			continue
		}
		if last := unit[len(unit)-1]; last >= 'a' && last <= 'z' && len(rest) > len(unit) && isWordByte(rest[len(unit)]) {
			continue
		}
		return len(text) - len(rest) + len(unit)
	}
	return 0
}

func isWordByte(b byte) bool {
	return isDigit(b) || b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b == '_'
}

// unitsByStart are the words and signs for units by their first bytes, in the order in which they are tried.
var unitsByStart = sync.OnceValue(func() (by [256][]string) {
	for _, unit := range words.Load().UnitsLongestFirst("mm", "in") {
		starts := []byte{unit[0]}
		if c := unit[0]; c >= 'a' && c <= 'z' {
			starts = append(starts, c-'a'+'A')
		}
		for _, c := range starts {
			by[c] = append(by[c], unit)
		}
	}
	return by
})

// anyUnit is an expression for the unit behind a size, which may be missing.
func anyUnit() string { return `(?: ?(?:` + words.Load().AnyUnit("mm", "in") + `))?` }

// Gives reports whether a text has a number with a unit of length behind it, or lists three sizes.
func Gives(text string) bool {
	return ListWithin(text) != nil || listsDecimals(text) || HasUnit(text)
}

// HasUnit reports whether a text has a number with a unit of length behind it.
func HasUnit(text string) bool {
	return slices.ContainsFunc(withUnit().FindAllStringIndex(text, 24), func(at []int) bool { return lexicon.StandsFree(text, at[0], at[1]) })
}

// withUnit is a number in a text with a unit of length.
var withUnit = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:\d*[.,]\d+|\d+) ?(?:` + words.Load().AnyUnit("mm", "in") + `)`)
})

// CountNumbers counts the numbers in a text, to three.
func CountNumbers(text string) int { return len(Places(text, 3)) }
