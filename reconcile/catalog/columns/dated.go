package columns

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/internal/pattern"
)

// What changes on a day stands in two columns of which one holds until then, and the other from then on: "bis 31.3.", "ab 1.4.". The first is old.

// findDated notes which columns say so. One day alone changes nothing: there are such that hold until a date and such that hold from one, and of
// one of these at least it is sure that it is a date, and no size.
func findDated(columns []*Column, lex *lexicon.Lexicon) {
	var dated []*Column
	var ages []int
	surely := false
	for _, c := range columns {
		if _, age, sure := datedIn(lex, c.Text); age != 0 {
			dated, ages, surely = append(dated, c), append(ages, age), surely || sure
		}
	}
	if !surely || !slices.Contains(ages, -1) || !slices.Contains(ages, 1) {
		return
	}
	for _, c := range dated {
		c.dated = true
	}
}

// mostDateWords is how many words a date has at most, and how many say before or behind it that something holds until it.
const mostDateWords = 3

// datedIn returns the date of a heading with the words beside it that say whether something holds until then, −1, or from then on, 1; and whether
// it can be nothing but a date. Age is 0 where there is none.
func datedIn(lex *lexicon.Lexicon, text string) (said string, age int, sure bool) {
	if len(text) > lexicon.LongestHeading || !strings.ContainsAny(text, "0123456789") {
		return "", 0, false
	}
	tokens := strings.Fields(text)
	for from := range tokens {
		if said, age, sure := datedToken(lex, tokens[from]); age != 0 {
			return said, age, sure
		}
		for to := min(len(tokens), from+mostDateWords); to > from; to-- {
			is, surely := isDay(strings.Trim(strings.Join(tokens[from:to], " "), aboutDates))
			if !is {
				continue
			}
			for n := mostDateWords; n > 0; n-- {
				if from-n >= 0 {
					if age := besideDate(lex, tokens[from-n:from]); age != 0 {
						return strings.Join(tokens[from-n:to], " "), age, surely
					}
				}
				if to+n <= len(tokens) {
					if age := besideDate(lex, tokens[to:to+n]); age != 0 {
						return strings.Join(tokens[from:to+n], " "), age, surely
					}
				}
			}
		}
	}
	return "", 0, false
}

// aboutDates are signs that stand about dates in headings.
const aboutDates = "()[]（）,:;"

func besideDate(lex *lexicon.Lexicon, words []string) int {
	return lex.Words.BesideDate(strings.Trim(strings.Join(words, " "), aboutDates))
}

// datedToken is datedIn for one word with a date and what is said of it, in writing without blanks: 4月1日から.
func datedToken(lex *lexicon.Lexicon, token string) (said string, age int, sure bool) {
	start := strings.IndexAny(token, "0123456789")
	if start < 0 || !strings.ContainsFunc(token, lexicon.IsWide) {
		return "", 0, false
	}
	for cut := range token {
		if cut <= start || unicode.IsDigit(rune(token[cut])) {
			continue
		}
		if is, surely := isDay(token[start:cut]); is {
			if age := lex.Words.BesideDate(strings.Trim(token[cut:], aboutDates)); age != 0 {
				return strings.TrimRight(token[start:], aboutDates), age, surely
			}
		}
	}
	return "", 0, false
}

// dayAndMonth is a day and a month, in whichever order.
var dayAndMonth = pattern.Lazy(`^(\d{1,2})[./-] ?(\d{1,2})(\.)?$`)

// leastDay is the day from which on one before a month behind a point is no diameter.
const leastDay = 23

// isDay reports whether a text may be a day, without its year too; and whether it can be nothing else: 9.5 may be a size, and 31.03 none.
func isDay(text string) (is, surely bool) {
	if value.IsDate(text) || lexicon.IsYear(text) {
		return true, true
	}
	found := dayAndMonth().FindStringSubmatch(text)
	if found == nil {
		return false, false
	}
	first, _ := strconv.Atoi(found[1])
	second, _ := strconv.Atoi(found[2])
	if first < 1 || second < 1 || min(first, second) > 12 || max(first, second) > 31 {
		return false, false
	}
	if dotted := strings.Contains(text, "."); dotted && max(first, second) > 12 && max(first, second) < leastDay && found[1][0] != '0' && found[2][0] != '0' {
		return true, found[3] != "" // 13.5
	}
	return true, found[3] != "" || first > 12 || second > 12 || found[1][0] == '0' || found[2][0] == '0'
}
