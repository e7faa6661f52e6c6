package lexicon

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/internal/pattern"
)

// mostInDate is how many words a date has at most, "1 de abril de 2027", and mostBesideDate how many say before or behind it that something holds
// until it.
const mostInDate, mostBesideDate = 5, 3

// Dated returns the date of a heading with the words beside it that say whether something holds until then, −1, or from then on, 1; and whether
// it can be nothing but a date. Age is 0 where there is none.
func (l *Lexicon) Dated(text string) (said string, age int, sure bool) {
	if len(text) > LongestHeading {
		return "", 0, false
	}
	tokens := strings.Fields(text)
	for from := range tokens {
		if said, age, sure := l.datedToken(tokens[from]); age != 0 {
			return said, age, sure
		}
		for to := min(len(tokens), from+mostInDate); to > from; to-- {
			is, surely := isDay(strings.Trim(strings.Join(tokens[from:to], " "), aboutDates))
			if !is {
				continue
			}
			for n := mostBesideDate; n > 0; n-- {
				if from-n >= 0 {
					if age := l.besideDate(tokens[from-n : from]); age != 0 {
						return strings.Join(tokens[from-n:to], " "), age, surely
					}
				}
				if to+n <= len(tokens) {
					if age := l.besideDate(tokens[to : to+n]); age != 0 {
						return strings.Join(tokens[from:to+n], " "), age, surely
					}
				}
			}
		}
	}
	return "", 0, false
}

// TellsAge is [Lexicon.Age] for a text that may say it by a date as well, and says nothing else: "until 31 March".
func (l *Lexicon) TellsAge(text string) int {
	if age := l.Age(text); age != 0 {
		return age
	}
	if said, age, _ := l.Dated(text); strings.Trim(said, aboutDates) == strings.Trim(text, aboutDates) {
		return age
	}
	return 0
}

// aboutDates are signs that stand about dates in headings.
const aboutDates = "()[]（）,:;"

func (l *Lexicon) besideDate(words []string) int {
	return l.Words.BesideDate(strings.Trim(strings.Join(words, " "), aboutDates))
}

// datedToken is Dated for one word with a date and what is said of it, in writing without blanks: 4月1日から.
func (l *Lexicon) datedToken(token string) (said string, age int, sure bool) {
	start := strings.IndexAny(token, "0123456789")
	if start < 0 || !strings.ContainsFunc(token, IsWide) {
		return "", 0, false
	}
	for cut := range token {
		if cut <= start || unicode.IsDigit(rune(token[cut])) {
			continue
		}
		if is, surely := isDay(token[start:cut]); is {
			if age := l.Words.BesideDate(strings.Trim(token[cut:], aboutDates)); age != 0 {
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

// longestAmbiguous is how many letters a name of a month has that may be another word: mar, may, sep.
const longestAmbiguous = 3

// isDay reports whether a text may be a day, without its year too; and whether it can be nothing else: 9.5 may be a size, and 31.03 none.
func isDay(text string) (is, surely bool) {
	if value.IsSaidDate(text) || IsYear(text) {
		return true, true
	}
	if value.IsMonth(strings.TrimSuffix(text, ".")) {
		return true, utf8.RuneCountInString(text) > longestAmbiguous
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
