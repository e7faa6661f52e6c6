package value

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// Fraction is what a cell may have held before the spreadsheet program made a date of it.
type Fraction struct {
	// Text is the likeliest fraction, such as 3/8; Others are the further ones.
	Text   string
	Others []string
	// Message says what happened and what to do.
	Message string
}

// DatesToFraction returns the fraction that a cell of kind Date probably held. It reports false where the cell is no
// date or no fraction of an inch gives such a date.
//
// A program that expects month/day makes 8 March of 3/8, one that expects day/month 3 August; a denominator that is no
// day, as in 9/32, becomes a year (September 1932); and 1-1/4 becomes 1 January 2004. The serial numbers are those of
// the date system that begins in 1900 (ECMA-376, part 1, 18.17.4.1).
func DatesToFraction(cell sheet.Cell) (Fraction, bool) {
	if cell.Kind != sheet.Date {
		return Fraction{}, false
	}
	serial, err := strconv.ParseFloat(strings.TrimSpace(cell.Raw), 64)
	if err != nil || serial < 61 || serial > 2958465 || serial != float64(int64(serial)) {
		return Fraction{}, false
	}
	day := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC).AddDate(0, 0, int(serial))
	format := strings.ToLower(cell.Format)
	monthAndYear := strings.Contains(format, "yy") && !strings.Contains(format, "d")
	return fractionOf(fractions(int(day.Month()), day.Day(), day.Year(), monthAndYear), cell.Shown)
}

func fractionOf(candidates []string, shown string) (Fraction, bool) {
	if len(candidates) == 0 {
		return Fraction{}, false
	}
	f := Fraction{Text: candidates[0], Others: candidates[1:]}
	f.Message = fmt.Sprintf("the cell shows the date %s; typed as %s it would have become this date: check the source, and format the column as text", shown, f.Text)
	return f, true
}

// fractions lists the fractions of an inch that become a date, the likeliest first. Year is 0 where the date shows
// none.
func fractions(month, day, year int, monthAndYear bool) []string {
	var list []string
	add := func(ok bool, text string) {
		if ok && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	if day == 1 && year >= 1930 && year < 2030 {
		den := year % 100
		add((monthAndYear || den >= 32) && properFraction(month, den), fmt.Sprintf("%d/%d", month, den))
	}
	if !monthAndYear {
		add(properFraction(month, day), fmt.Sprintf("%d/%d", month, day))
		add(properFraction(day, month), fmt.Sprintf("%d/%d", day, month))
	}
	if den := year - 2000; den >= 2 && den <= 16 {
		add(month <= 3 && properFraction(day, den), fmt.Sprintf("%d-%d/%d", month, day, den))
		add(day <= 3 && properFraction(month, den), fmt.Sprintf("%d-%d/%d", day, month, den))
	}
	return list
}

// properFraction reports whether a fraction is one of an inch in lowest terms.
func properFraction(num, den int) bool {
	return num > 0 && num < den && den <= 64 && den&(den-1) == 0 && num%2 == 1
}

var (
	dayMonthName = pattern.Lazy(`^(\d{1,2})[-. /]{1,2}(\pL{3,12})\.?([-. /,]+(\d{2}|\d{4}))?$`)
	monthNameDay = pattern.Lazy(`^(\pL{3,12})\.?[-. /]{1,2}(\d{1,2})([-. /,]+(\d{2}|\d{4}))?$`)
	isoDate      = pattern.Lazy(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})( 00:00(:00)?)?$`)
	threeParts   = pattern.Lazy(`^(\d{1,2})(?:/(\d{1,2})/|-(\d{1,2})-|\.(\d{1,2})\.)(\d{4}|\d{2})$`)
)

// markedDate is a date with a word behind each part, as in Chinese.
var markedDate = sync.OnceValue(func() *regexp.Regexp {
	behind := func(part string) string { return `(?:` + words.Load().AnyOf("date", part) + `)` }
	return regexp.MustCompile(`^(?:(\d{4})` + behind("year") + ` ?)?(\d{1,2})` + behind("month") + ` ?(\d{1,2})` + behind("day") + `$`)
})

// months are the names of months and their abbreviations, as far as these have letters.
var months = sync.OnceValue(func() (names [12][]string) {
	for i := range names {
		names[i] = words.Load().Written("month", strconv.Itoa(i+1))
	}
	return names
})

// longestAbbreviation is how many letters a name of a month has that may go on behind one of the abbreviations: "sept", "okt".
const longestAbbreviation = 4

// monthOf returns the number of a month by its name or the beginning of it, 0 for any other word.
func monthOf(name string) int {
	name = strings.ToLower(name)
	short := utf8.RuneCountInString(name) <= longestAbbreviation
	for i, names := range months() {
		for _, known := range names {
			if name == known || short && utf8.RuneCountInString(known) <= longestAbbreviation && strings.HasPrefix(name, known) {
				return i + 1
			}
		}
	}
	return 0
}

// mayBeDate reports whether a text has three letters in a row, as a date with the name of a month, and whether it has two signs
// between parts or a wide character, as all other dates.
func mayBeDate(text string) (named, parted bool) {
	letters, signs := 0, 0
	for _, r := range text {
		switch {
		case unicode.IsLetter(r):
			letters++
			named = named || letters >= 3
			parted = parted || r >= utf8.RuneSelf
			continue
		case r == '-' || r == '/' || r == '.':
			signs++
			parted = parted || signs >= 2
		}
		letters = 0
	}
	return named, parted
}

// IsDate reports whether a text is a date with a year or the name of a month, or in a writing in which each part has a sign of its own.
func IsDate(text string) bool {
	_, is := dateText(text)
	return is
}

// IsSaidDate is IsDate for dates as sentences and headings have them too: "1st of April", "1er janvier", "1 de abril de 2027".
func IsSaidDate(text string) bool {
	if named, _ := mayBeDate(text); named {
		text = ordinalDay().ReplaceAllString(text, "$1 ")
		text = withinDate().ReplaceAllString(text, " ")
	}
	return IsDate(text)
}

// IsMonth reports whether a word is the name of a month.
func IsMonth(word string) bool { return monthOf(word) > 0 }

var (
	// ordinalDay is a day with what makes an ordinal of it.
	ordinalDay = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)^(\d{1,2}) ?(?:` + words.Load().AnyOf("date", "ordinal") + `)(?:[ .]|$)`)
	})
	// withinDate are words that stand between the parts of a date.
	withinDate = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i) (?:` + words.Load().AnyOf("date", "of") + `) `)
	})
)

// dateText returns the fractions that a text that is a date may have been, and whether it is a date at all.
func dateText(text string) (candidates []string, isDate bool) {
	var month, day, year int
	named, parted := mayBeDate(text)
	if !named && !parted {
		return nil, false
	}
	switch {
	case named && dayMonthName().MatchString(text):
		m := dayMonthName().FindStringSubmatch(text)
		month, day, year = monthOf(m[2]), number(m[1]), fullYear(m[4])
	case named && monthNameDay().MatchString(text):
		m := monthNameDay().FindStringSubmatch(text)
		month, day, year = monthOf(m[1]), number(m[2]), fullYear(m[4])
		if day > 31 || m[4] == "" && day >= 32 {
			year, day = fullYear(m[2]), 1
		}
		if month > 0 && m[4] == "" {
			if list := fractions(month, 1, fullYear(m[2]), true); number(m[2]) >= 30 {
				return list, true
			}
		}
	case markedDate().MatchString(text):
		m := markedDate().FindStringSubmatch(text)
		month, day, year = number(m[2]), number(m[3]), number(m[1])
	case isoDate().MatchString(text):
		m := isoDate().FindStringSubmatch(text)
		month, day, year = number(m[2]), number(m[3]), number(m[1])
	case threeParts().MatchString(text):
		m := threeParts().FindStringSubmatch(text)
		month, day, year = number(m[1]), number(m[2]+m[3]+m[4]), fullYear(m[5])
		if month > 12 {
			month, day = day, month
		}
	}
	if month < 1 || month > 12 || day < 1 || day > 31 {
		return nil, false
	}
	return fractions(month, day, year, false), true
}

// number converts digits that an expression has matched; none are 0.
func number(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0
	}
	return n
}

// fullYear completes a year of two digits as spreadsheet programs do: 30 to 99 are of the last century.
func fullYear(digits string) int {
	year := number(digits)
	switch {
	case digits == "" || year >= 100:
		return year
	case year >= 30:
		return year + 1900
	}
	return year + 2000
}
