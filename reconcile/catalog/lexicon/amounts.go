package lexicon

import (
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// amounts are the expressions by which amounts of length are found in a text. They are compiled when a note is first read.
type amounts struct {
	// plusMinus, plus and minus are the words for the signs, the latter two before a number; eitherWay is behind an amount.
	plusMinus, plus, minus, eitherWay *regexp.Regexp
	// limits are an upper and a lower deviation, each with the word for it.
	limits *regexp.Regexp
	// parted are an upper and a lower deviation with a wide comma between.
	parted *regexp.Regexp
	// amount is a number, in digits or words, with a part of a unit or a unit behind it.
	amount *regexp.Regexp
	// other is an amount behind a sign that is of no length: grams, degrees, money, shares.
	other *regexp.Regexp
	// measured is a number in digits with a unit of length behind it.
	measured *regexp.Regexp
	// numbers are the words for numbers, parts those for parts of a unit, with what they mean.
	numbers, parts map[string]float64
}

// mostInWords is the greatest number that tolerances are said with in words.
const mostInWords = 10

var amountsOnce = sync.OnceValue(func() *amounts {
	v := words.Load()
	a := &amounts{numbers: map[string]float64{}, parts: map[string]float64{}}
	var numbers, parts []string
	number := func(phrases []string, is float64) {
		for _, phrase := range phrases {
			phrase = strings.ToLower(phrase)
			if _, known := a.numbers[phrase]; !known {
				a.numbers[phrase] = is
			}
			numbers = append(numbers, phrase)
		}
	}
	for n := range mostInWords + 1 {
		number(v.Written("amount", strconv.Itoa(n)), float64(n))
		if n > 1 { // words for one are too often another word of another language
			number(v.SaidNumbers(n), float64(n))
		}
	}
	number(v.Written("amount", "half"), 0.5)
	for name, is := range map[string]float64{"tenth": 0.1, "hundredth": 0.01, "thousandth": 0.001} {
		for _, phrase := range v.Written("part_of_unit", name) {
			a.parts[strings.ToLower(phrase)] = is
			parts = append(parts, phrase)
		}
	}
	for _, phrase := range v.Written("amount", "hundredth_mm") {
		a.parts[phrase] = 0.01
		parts = append(parts, phrase)
	}
	figure := `\d+(?:[.,]\d+)?|\.\d+`
	anyNumber := figure + `|` + words.AnyPhrase(numbers)
	compile := func(expression string) *regexp.Regexp { return regexp.MustCompile(`(?i)` + expression) }
	a.plusMinus = compile(`(?:` + v.AnyOf("amount", "plus_minus") + `)`)
	a.plus = compile(`(` + v.AnyOf("amount", "plus") + `) ?(` + figure + `)`)
	a.minus = compile(`\s?(?:[,、，;/]|` + v.AnyOf("amount", "and") + `)?\s?(` + v.AnyOf("amount", "minus") + `) ?(` + anyNumber + `)`)
	a.eitherWay = compile(`((?:` + figure + `) ?[\pL".]+),?\s(?:` + v.AnyOf("amount", "either_way") + `)`)
	deviation := `(?:` + v.AnyOf("deviation", "beside") + `) `
	upper, lower := `(?:`+v.AnyOf("deviation", "upper")+`)`, `(?:`+v.AnyOf("deviation", "lower")+`)`
	units := `(?: ?(?:` + v.AnyUnit("mm", "in") + `))?`
	a.limits = compile(`(?:` + deviation + upper + `|` + upper + ` ` + deviation + `) ?\+? ?(` + figure + units + `),?(?: (?:` + v.AnyOf("amount", "and") + `))? ?(?:` + deviation + `)?` + lower +
		` ?(?:` + deviation + `)?[-−]? ?(` + figure + `)`)
	a.parted = compile(`(\+ ?\d[\d./]*` + units + `) ?[、，] ?([-−] ?\d)`)
	half := `(?:[ -](` + words.AnyPhrase(v.Written("amount", "half")) + `))?`
	a.amount = compile(`(` + anyNumber + `)` + half + `(?:[ -]?(` + words.AnyPhrase(parts) + `))?(?:[ -](?:` + v.AnyOf("amount", "of") + `))?[ -]?(` + v.AnyUnit(traits.LengthUnits...) + `)?`)
	a.other = compile(`(?:±|\+ ?/ ?-|[+−-]) ?(?:` + figure + `)(?: ?/ ?[+−-]? ?(?:` + figure + `))? ?(?:` + v.AnyUnit(v.OtherUnits(traits.LengthUnits)...) + `|` +
		v.AnyOf("amount", "other") + `)`)
	a.measured = compile(`(` + figure + `) ?-?[(（]?(?:` + v.AnyUnit(traits.LengthUnits...) + `)`)
	return a
})

// InFigures returns a note without deviations of what is no length, and with the amounts of length that it says in words in figures: "±0.1 mm" for "plus or minus a tenth of a millimetre",
// "+0.05 mm/-0" for "plus five hundredths of a mm, minus zero". What it does not understand stays as it is.
func (l *Lexicon) InFigures(text string) string {
	if len(text) > LongestNote {
		return text
	}
	a := amountsOnce()
	text = replaceFree(text, a.plusMinus, func([]string) string { return "±" })
	text = a.parted.ReplaceAllString(text, "$1/$2")
	text = replaceFree(text, a.limits, func(m []string) string { return "+" + m[1] + "/-" + m[2] })
	text = replaceFree(text, a.amount, func(m []string) string {
		part, unit := a.parts[strings.ToLower(m[3])], m[4]
		number, inWords := a.numbers[strings.ToLower(m[1])]
		switch {
		case part == 0 && (!inWords || unit == "" || number == 1 && m[2] == "" && !l.isThou(unit)): // "an inch figure" is no amount
			return m[0]
		case !inWords:
			var err error
			if number, err = strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64); err != nil {
				return m[0]
			}
		}
		if m[2] != "" {
			number /= 2
		}
		if part != 0 {
			number *= part
			if unit == "" {
				unit = "mm" // nobody says hundredths of another unit without its name
			}
		}
		return strconv.FormatFloat(number, 'f', -1, 64) + " " + unit
	})
	text = replaceFree(text, a.other, func([]string) string { return " " })
	if a.plus.MatchString(text) && a.minus.MatchString(text) {
		text = replaceFree(text, a.plus, func(m []string) string { return "+" + m[2] })
		text = replaceFree(text, a.minus, func(m []string) string {
			if number, inWords := a.numbers[strings.ToLower(m[2])]; inWords {
				return "/-" + strconv.FormatFloat(number, 'f', -1, 64)
			}
			return "/-" + m[2]
		})
	}
	if !strings.Contains(text, "±") {
		text = a.eitherWay.ReplaceAllString(text, "±$1")
	}
	return text
}

func (l *Lexicon) isThou(word string) bool {
	unit, found := l.Ask("unit", word, l.Words.Unit)
	return found && unit.Value == "thou"
}

// replaceFree replaces what an expression finds where it is no part of a longer word or number.
func replaceFree(text string, expression *regexp.Regexp, with func([]string) string) string {
	var b strings.Builder
	from := 0
	for _, at := range expression.FindAllStringSubmatchIndex(text, -1) {
		if goesThrough(text, at[0]) || goesThrough(text, at[1]) {
			continue
		}
		groups := make([]string, len(at)/2)
		for i := range groups {
			if at[2*i] >= 0 {
				groups[i] = text[at[2*i]:at[2*i+1]]
			}
		}
		b.WriteString(text[from:at[0]])
		b.WriteString(with(groups))
		from = at[1]
	}
	return b.String() + text[from:]
}

// goesThrough reports whether a word or a number stands at both sides of a place in a text.
func goesThrough(text string, at int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	after, _ := utf8.DecodeRuneInString(text[at:])
	if at == 0 || at == len(text) {
		return false
	}
	inNumber := func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == ',' }
	return InWord(before) && InWord(after) && !isThai(before) || unicode.IsDigit(after) && inNumber(before) || unicode.IsDigit(before) && unicode.IsDigit(after)
}

func isThai(r rune) bool { return unicode.Is(unicode.Thai, r) }

// UnitsStated returns the units of length that a free text names of sizes that stand elsewhere: not those of amounts, "±0.1 mm", "46 in. shafts".
func (l *Lexicon) UnitsStated(text string) []string {
	text = l.InFigures(text)
	units := l.LengthUnitsIn(text)
	if len(units) == 0 || !BearsNumber(text) || UnitFraction().MatchString(text) {
		return units
	}
	return l.LengthUnitsIn(replaceFree(text, amountsOnce().measured, func(m []string) string {
		if calendarYear().MatchString(m[1]) {
			return m[0]
		}
		return " "
	}))
}

// calendarYear is a year of a title, "Price list 2025 mm".
var calendarYear = pattern.Lazy(`^(?:19|20)\d\d$`)
