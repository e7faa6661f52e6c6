package demand

import (
	"strings"
	"sync"
	"unicode"

	"example.com/seatline/reconcile/catalog/words"
)

// Classes of words in headings.
const (
	classYear  = "year"
	classCount = "count"
)

// perYear are how many of each period a year has.
var perYear = map[string]float64{classYear: 1, "quarter": 4, "month": 12, "week": 52}

// term is a word of a heading, folded; an open one is only its beginning.
type term struct {
	class, word string
	open, wide  bool
}

var terms = sync.OnceValue(func() []term {
	var all []term
	for _, class := range []string{classYear, "quarter", "month", "week", classCount} {
		for _, word := range words.Load().Written("demand", class) {
			word, open := strings.CutSuffix(word, "*")
			folded := words.Fold(word)
			all = append(all, term{class, folded, open, isWide(folded)})
		}
	}
	return all
})

// isWide reports whether a word is of a script that is written without spaces.
func isWide(word string) bool {
	return strings.ContainsFunc(word, func(r rune) bool {
		return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul, unicode.Thai)
	})
}

// classesOf are the classes of words that a heading has.
func classesOf(heading string) map[string]bool {
	folded := words.Fold(heading)
	list := " " + strings.Join(strings.FieldsFunc(folded, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ") + " "
	found := map[string]bool{}
	for _, t := range terms() {
		in, word := list, " "+t.word
		switch {
		case t.wide:
			in, word = folded, t.word
		case !t.open:
			word += " "
		}
		found[t.class] = found[t.class] || strings.Contains(in, word)
	}
	if isYear(folded) {
		found[classYear] = true
	}
	return found
}

// Counts reports whether a heading says how many, in any of the languages of package words.
func Counts(heading string) bool { return classesOf(heading)[classCount] }

// isYear reports whether a heading is the number of a year.
func isYear(folded string) bool {
	return len(folded) == 4 && strings.Trim(folded, "0123456789") == "" && (folded[:2] == "19" || folded[:2] == "20")
}

// heading is what a heading says of a column of numbers.
type heading struct {
	// score is nothing where the column is none of yearly numbers, and more the plainer it is one.
	score int
	// times is what a number is to be taken by to be that of a year, and period the word for it; nothing where no period is named.
	times  float64
	period string
}

// other are roles of columns that hold numbers of something else, where a heading says so plainly.
const (
	plainly   = 0.85
	partScore = 0.6
)

func headingOf(text string) heading {
	if matches := words.Load().Match(text); len(matches) > 0 && matches[0].Score >= plainly {
		return heading{}
	}
	found := classesOf(text)
	h := heading{}
	for _, period := range [...]string{"week", "month", "quarter", classYear} { // "year" wins: quarters of a year are rare, months of one are not numbers
		if found[period] {
			h.times, h.period = perYear[period], period
		}
	}
	switch {
	case found[classYear] && found[classCount]:
		h.score = 4
	case found[classYear] || h.period != "" && found[classCount]:
		h.score = 3
	case found[classCount]:
		h.score = 2
	}
	return h
}

// partHeading is how plainly a heading says that its column holds part numbers.
func partHeading(text string) float64 {
	for _, m := range words.Load().Match(text) {
		if m.Role == "part" && m.Score >= partScore {
			return m.Score
		}
	}
	return 0
}

func clubHeading(text string) bool {
	for _, m := range words.Load().Match(text) {
		if m.Role == "club" && m.Score >= partScore {
			return true
		}
	}
	return false
}
