package lexicon

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// amounts are the phrases by which amounts of length are found in a text, gathered when a note is first read.
type amounts struct {
	// numbers are the words for numbers, halves those for a half, parts those for parts of a unit, with what they mean; of stands between a part
	// and its unit.
	numbers, halves, parts, of phrases
	// units are those of length, others what deviations may be of that are no length: grams, degrees, money, shares.
	units, others phrases
	// plusMinus, plus, minus and eitherWay are words for signs, the last behind an amount; upper and lower are words for deviations.
	plusMinus, plus, minus, eitherWay, upper, lower phrases
	// deviations are words for deviations as such, one of which stands beside those for an upper and a lower one.
	deviations phrases
	// within are words for plus or minus before small amounts only: before others they say something else.
	within phrases
	// least and most are words for the least and the greatest of sizes, between those before two sizes that bound others, betweenBehind those behind them,
	// and joins are what stands between the two.
	least, most, between, betweenBehind, joins phrases
	// pairs are a plus and a number with a minus and a number behind it, turned the other way round, limits an upper and a lower deviation, each with
	// the word for it. They are asked only where a text has such words.
	pairs, turned, limits func() *regexp.Regexp
}

// phrases are phrases in small letters with what they mean, by the letter that they begin with, the longest first.
type phrases map[rune][]meaning

type meaning struct {
	phrase string
	number float64
	// unit is that of a part that has but one, empty for others.
	unit string
}

func (p phrases) add(number float64, list ...string) { p.addOf("", number, list...) }

// addOf adds phrases for a number of a unit.
func (p phrases) addOf(unit string, number float64, list ...string) {
	for _, phrase := range list {
		phrase = strings.ToLower(phrase)
		first, _ := utf8.DecodeRuneInString(phrase)
		if !slices.ContainsFunc(p[first], func(m meaning) bool { return m.phrase == phrase }) {
			p[first] = append(p[first], meaning{phrase, number, unit})
		}
	}
	for _, all := range p {
		slices.SortStableFunc(all, func(a, b meaning) int { return cmp.Compare(len(b.phrase), len(a.phrase)) })
	}
}

// at returns the longest phrase at a place of a text in small letters, with no word that goes through its ends.
func (p phrases) at(text string, from int) (m meaning, end int, found bool) {
	first, _ := utf8.DecodeRuneInString(text[from:])
	for _, m := range p[first] {
		if strings.HasPrefix(text[from:], m.phrase) && !goesThrough(text, from) && !goesThrough(text, from+len(m.phrase)) {
			return m, from + len(m.phrase), true
		}
	}
	return meaning{}, from, false
}

// in reports whether a text in small letters has one of the phrases anywhere, also within its words.
func (p phrases) in(text string) bool {
	for _, all := range p {
		if slices.ContainsFunc(all, func(m meaning) bool { return strings.Contains(text, m.phrase) }) {
			return true
		}
	}
	return false
}

// behind is at with a blank or a dash before the phrase, or none.
func (p phrases) behind(text string, from int) (m meaning, end int, found bool) {
	if from < len(text) && strings.ContainsRune(" -", rune(text[from])) {
		if m, end, found = p.at(text, from+1); found {
			return m, end, true
		}
	}
	if m, end, found = p.at(text, from); found {
		return m, end, true
	}
	return meaning{}, from, false
}

// mostInWords is the greatest number that tolerances are said with in words.
const mostInWords = 10

var amountsOnce = sync.OnceValue(func() *amounts {
	v := words.Load()
	gather := func(class, value string) phrases {
		p := phrases{}
		p.add(0, v.Written(class, value)...)
		return p
	}
	a := &amounts{numbers: phrases{}, halves: gather("amount", "half"), parts: phrases{}, of: gather("amount", "of"), units: phrases{}, others: gather("amount", "other"),
		plusMinus: gather("amount", "plus_minus"), within: gather("amount", "within"), plus: gather("amount", "plus"), minus: gather("amount", "minus"), eitherWay: gather("amount", "either_way"),
		least: phrases{}, most: phrases{}, between: gather("amount", "between"), betweenBehind: gather("amount", "between_behind"), joins: gather("amount", "and"), upper: gather("deviation", "upper"), lower: gather("deviation", "lower"),
		deviations: gather("deviation", "beside")}
	for n := range mostInWords + 1 {
		a.numbers.add(float64(n), v.Written("amount", strconv.Itoa(n))...)
		if n > 1 { // words for one are too often another word of another language
			a.numbers.add(float64(n), v.SaidNumbers(n)...)
		}
	}
	a.numbers.add(0.5, v.Written("amount", "half")...)
	a.parts.add(0.1, v.Written("part_of_unit", "tenth")...)
	a.parts.add(0.01, v.Written("part_of_unit", "hundredth")...)
	a.parts.addOf("mm", 0.01, v.Written("amount", "hundredth_mm")...)
	a.parts.add(0.001, v.Written("part_of_unit", "thousandth")...)
	a.least.add(0, v.MarkPhrases("at_least")...)
	a.most.add(0, v.MarkPhrases("at_most")...)
	a.joins.add(0, v.MarkPhrases("and")...)
	a.joins.add(0, v.MarkPhrases("or")...)
	a.joins.add(0, v.MarkPhrases("to")...)
	a.joins.add(0, v.Written("amount", "to")...)
	a.units.add(0, v.UnitPhrases(traits.LengthUnits...)...)
	a.others.add(0, v.UnitPhrases(v.OtherUnits(traits.LengthUnits)...)...)

	a.upper.add(0, v.Written("amount", "upper")...)
	a.lower.add(0, v.Written("amount", "lower")...)

	const figure = `\d+(?:[.,]\d+)?|\.\d+`
	either := func(class, value string) string { return `(?:` + v.AnyOf(class, value) + `)` }
	unit := `(?: ?(?:` + v.AnyUnit("mm", "in") + `))?`
	deviation, upper, lower := either("deviation", "beside")+` `, v.AnyOf("deviation", "upper"), v.AnyOf("deviation", "lower")
	upperAlone, lowerAlone := v.AnyOf("amount", "upper"), v.AnyOf("amount", "lower")
	upper, lower = `(?:`+upper+`|`+upperAlone+`)`, `(?:`+lower+`|`+lowerAlone+`)`
	number := `(` + figure + `|` + v.AnyOf("amount", "0") + `)(` + unit + `)`
	plus, minus := `(?:\+|`+v.AnyOf("amount", "plus")+`) ?`, `(?:[-−–]|`+v.AnyOf("amount", "minus")+`) ?`
	and := `(?:` + v.AnyOf("amount", "and") + `|` + v.AnyOf("amount", "to") + `)`
	between := `\s?(?:[,、，;/]|` + and + `)?\s?(?:` + and + ` )?`
	a.pairs = pattern.Lazy(`(?i)` + plus + number + between + minus + number)
	a.turned = pattern.Lazy(`(?i)` + minus + number + between + plus + number)
	a.limits = pattern.Lazy(`(?i)(?:` + deviation + upper + `|` + upper + ` ` + deviation + `) ?\+? ?(` + figure + unit + `),?(?: ` + either("amount", "and") + `)? ?(?:` + deviation + `)?` + lower +
		` ?(?:` + deviation + `)?[-−]? ?(` + figure + `)`)
	return a
})

// partedDeviations are an upper and a lower deviation with a wide comma between.
var partedDeviations = pattern.Lazy(`(\+ ?\d[\d./]*[^\s±+\d]{0,4}) ?[、，] ?([-−] ?\d)`)

// LeastAndMost returns the least and the greatest of some sizes that a text states, the one number with a word for the one beside it and the other with
// one for the other, with the words before them; empty where it does not hold these two numbers alone.
func (l *Lexicon) LeastAndMost(text string) (least, most, before string) {
	lower := strings.ToLower(text)
	if len(lower) != len(text) || !BearsNumber(text) {
		return "", "", ""
	}
	a := amountsOnce()
	if least, most, before = a.saidBounds(text, lower); least != "" {
		return least, most, before
	}
	found, marked, markedTo := false, 0, -1 // marked is -1 behind a word for the least, 1 behind one for the greatest
	for at := 0; at < len(text); {
		if side, end := a.boundAt(lower, at); side != 0 {
			if !found {
				found, before = true, text[:at]
			}
			marked, markedTo, at = side, skipBlank(lower, end), end
			continue
		}
		end := figureEnd(lower, at)
		if end == at {
			_, size := utf8.DecodeRuneInString(text[at:])
			at += size
			continue
		}
		if !found {
			found, before = true, text[:at]
		}
		_, unitEnd, _ := a.units.behind(lower, end)
		side, past := marked, unitEnd
		if markedTo != at {
			side, past = a.boundAt(lower, skipBlank(lower, unitEnd))
		}
		switch {
		case side < 0 && least == "":
			least = text[at:unitEnd]
		case side > 0 && most == "":
			most = text[at:unitEnd]
		default:
			return "", "", ""
		}
		at = past
	}
	if least == "" || most == "" {
		return "", "", ""
	}
	return least, most, before
}

// boundAt finds a word for the least, -1, or for the greatest, 1, at a place of a text.
func (a *amounts) boundAt(lower string, at int) (side, end int) {
	if _, end, found := a.least.at(lower, at); found {
		return -1, end
	}
	if _, end, found := a.most.at(lower, at); found {
		return 1, end
	}
	return 0, at
}

// InFigures returns a note without deviations of what is no length, and with the amounts of length that it says in words in figures: "±0.1 mm"
// for "plus or minus a tenth of a millimetre", "+0.05 mm/-0" for "plus five hundredths of a mm, minus zero", and "±0.05" for "five hundredths either
// way", of the unit of the sizes that are spoken of. What it does not understand stays
// as it is.
func (l *Lexicon) InFigures(text string) string {
	lower := strings.ToLower(text)
	if len(text) > LongestNote || len(lower) != len(text) {
		return text
	}
	a := amountsOnce()
	var b strings.Builder
	from := 0
	replace := func(at, end int, by string) int {
		b.WriteString(text[from:at])
		b.WriteString(by)
		from = end
		return end
	}
	plus, minus, up, low := false, false, false, false
	saw := func(seen *bool, p phrases, at int) {
		if _, _, found := p.at(lower, at); found {
			*seen = true
		}
	}
	for at := 0; at < len(text); {
		if _, end, found := a.plusMinus.at(lower, at); found {
			at = replace(at, end, "±")
			continue
		}
		if _, end, found := a.within.at(lower, at); found && a.isSmall(text, lower, skipBlank(lower, end)) && !a.goesOn(text, lower, skipBlank(lower, end)) {
			at = replace(at, end, "±")
			continue
		}
		if end := a.otherAt(lower, at); end > at {
			at = replace(at, end, " ")
			continue
		}
		if said, end := a.swingAt(text, lower, at); end > at {
			if written := strings.TrimSpace(b.String() + text[from:at]); !strings.HasSuffix(written, "±") { // "within 0.05 either way"
				said = "±" + said
			}
			at = replace(at, end, said)
			continue
		}
		if said, end := a.amountAt(text, lower, at); end > at {
			if said != "" {
				replace(at, end, said)
			}
			at = end
			continue
		}
		saw(&plus, a.plus, at)
		saw(&minus, a.minus, at)
		saw(&up, a.upper, at)
		saw(&low, a.lower, at)
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	text = b.String() + text[from:]
	if strings.ContainsAny(text, "、，") {
		text = partedDeviations().ReplaceAllString(text, "$1/$2")
	}
	if up && low && a.deviations.in(lower) {
		text = a.limits().ReplaceAllString(text, "+$1/-$2")
	}
	if plus || minus {
		more, less := sign{"+", a.plus}, sign{"-−–", a.minus}
		text = inSigns(a.turned(), inSigns(a.pairs(), text, more, less), less, more)
	}
	return text
}

// sign is the sign of a deviation: the characters for it, the first of which is written, and the words.
type sign struct {
	written string
	said    phrases
}

// begin returns where a sign first stands in a text, its length where there is none. In a text whose small letters take other room than its
// great ones, as the dotted İ, no place is known: there it may be anywhere.
func (s sign) begin(text string) int {
	lower := strings.ToLower(text)
	if len(lower) != len(text) {
		return 0
	}
	for at, r := range lower {
		if _, _, found := s.said.at(lower, at); found || strings.ContainsRune(s.written, r) {
			return at
		}
	}
	return len(text)
}

// inSigns writes a pair of deviations that a text says in words, by a pattern of two numbers each with its unit, with the sign of each. The pattern
// is slow: it is asked from the first sign on, where the second stands somewhere behind.
func inSigns(pairs *regexp.Regexp, text string, first, second sign) string {
	start := first.begin(text)
	if rest := text[start:]; !strings.ContainsAny(rest, second.written) && !second.said.in(strings.ToLower(rest)) {
		return text
	}
	var b strings.Builder
	from := 0
	for _, at := range pairs.FindAllStringSubmatchIndex(text[start:], -1) {
		for i := range at {
			if at[i] >= 0 {
				at[i] += start
			}
		}
		if goesThrough(text, at[0]) || goesThrough(text, at[1]) {
			continue
		}
		part := func(i int) string { return text[at[2*i]:at[2*i+1]] }
		number := func(i int) string {
			if !BearsNumber(part(i)) {
				return "0"
			}
			return part(i) + part(i+1)
		}
		b.WriteString(text[from:at[0]] + first.written[:1] + number(1) + "/" + second.written[:1] + number(3))
		from = at[1]
	}
	return b.String() + text[from:]
}

// swingAt returns the end of an amount that words for plus or minus stand behind, and what it is in figures, at a place of a text.
func (a *amounts) swingAt(text, lower string, at int) (said string, end int) {
	said, end = a.amountAt(text, lower, at)
	if figureEnd(lower, at) == at && said == "" {
		return "", at
	}
	inFigures := said == ""
	if inFigures {
		said = text[at:end]
	}
	if _, swingEnd, found := a.swingsBehind(lower, end); found && (!inFigures || isBelow(said, bareWithin)) { // "in più o in meno" begins like inches
		return said, swingEnd
	}
	if _, unitEnd, measured := a.units.behind(lower, end); measured {
		if _, swingEnd, found := a.swingsBehind(lower, unitEnd); found {
			return text[at:unitEnd], swingEnd
		}
	}
	return "", at
}

// isBelow reports whether a number in figures is less than another.
func isBelow(figure string, most float64) bool {
	number, err := strconv.ParseFloat(strings.Replace(figure, ",", ".", 1), 64)
	return err == nil && number < most
}

// swingsBehind finds words for plus or minus behind an amount.
func (a *amounts) swingsBehind(lower string, end int) (m meaning, swingEnd int, found bool) {
	if strings.HasPrefix(lower[end:], ",") {
		end++
	}
	return a.eitherWay.at(lower, skipBlank(lower, end))
}

// amountAt returns the end of the number, with the unit behind it, at a place of a text, and what it is in figures where it says so in words.
func (a *amounts) amountAt(text, lower string, at int) (said string, end int) {
	number, inWords := 0.0, false
	end = figureEnd(lower, at)
	if end == at {
		var m meaning
		if m, end, inWords = a.numbers.at(lower, at); !inWords {
			return "", at
		}
		number = m.number
	} else {
		var err error
		if number, err = strconv.ParseFloat(strings.Replace(lower[at:end], ",", ".", 1), 64); err != nil {
			return "", end
		}
	}
	numberEnd := end
	_, end, halved := a.halves.behind(lower, end)
	part, end, parted := a.parts.behind(lower, end)
	_, end, _ = a.of.behind(lower, end)
	unitAt := end
	_, end, measured := a.units.behind(lower, end)
	switch {
	case !parted && (!inWords || !measured || number == 1 && !halved && !isThou(lower[unitAt:end])): // "an inch figure" is no amount
		return "", numberEnd
	case parted && !measured:
		end = unitAt
	}
	if halved {
		number /= 2
	}
	if parted {
		number *= part.number
	}
	said = strconv.FormatFloat(number, 'g', 6, 64)
	switch {
	case measured:
		said += " " + strings.Trim(text[unitAt:end], " -")
	case part.unit != "":
		said += " " + part.unit
	} // else of the unit of the sizes that it is for
	return said, end
}

// widestWithin is how many mm an amount is at most of which "within" tells the limits; bareWithin is such a number without a unit, below the sizes of
// joints in inches.
const widestWithin, bareWithin = 1.0, 0.25

// isSmall reports whether an amount of length stands at a place of a text that may be the limit of a size: 0.05, 2 thou, half a mm.
func (a *amounts) isSmall(text, lower string, at int) bool {
	said, end := a.amountAt(text, lower, at)
	if said != "" {
		figure, unit, measured := strings.Cut(said, " ")
		number, err := strconv.ParseFloat(figure, 64)
		if !measured {
			return err == nil && number > 0 && number < bareWithin
		}
		hit, _ := words.Load().Unit(unit)
		return err == nil && number > 0 && number*traits.UnitMM[hit.Value] <= widestWithin
	}
	number, err := strconv.ParseFloat(strings.Replace(lower[at:end], ",", ".", 1), 64)
	if err != nil || number == 0 {
		return false
	}
	_, unitEnd, measured := a.units.behind(lower, end)
	if !measured {
		next, _ := utf8.DecodeRuneInString(strings.TrimSpace(lower[end:]))
		return number < bareWithin && next != '/' && next != '%' && !unicode.Is(unicode.Sc, next)
	}
	hit, _ := words.Load().Unit(strings.Trim(text[end:unitEnd], " -"))
	return traits.IsLengthUnit(hit.Value) && number*traits.UnitMM[hit.Value] <= widestWithin
}

// goesOn reports whether an amount at a place of a text is one of two, or a deviation to one side: "0.05 to 0.1", "0.05 plus".
func (a *amounts) goesOn(text, lower string, at int) bool {
	_, end := a.amountAt(text, lower, at)
	_, end, _ = a.units.behind(lower, end)
	end = skipBlank(lower, end)
	_, _, plus := a.plus.at(lower, end)
	_, _, minus := a.minus.at(lower, end)
	return plus || minus || strings.HasPrefix(lower[end:], "/") || strings.HasPrefix(lower[end:], "-") || strings.HasPrefix(lower[end:], "+")
}

// isThou reports whether words for a unit are for thousandths of an inch, of which one is an amount: "a thou".
func isThou(unit string) bool {
	hit, _ := words.Load().Unit(strings.Trim(unit, " -"))
	return hit.Value == "thou"
}

// otherAt returns the end of the deviation of what is no length at a place of a text, or the place where there is none.
func (a *amounts) otherAt(lower string, at int) int {
	end := at
	for _, sign := range [...]string{"±", "+/-", "+ /-", "+", "-", "−"} {
		if strings.HasPrefix(lower[at:], sign) {
			end += len(sign)
			break
		}
	}
	if end == at {
		return at
	}
	end = skipBlank(lower, end)
	number := figureEnd(lower, end)
	if number == end {
		return at
	}
	end = number
	if next := skipBlank(lower, end); next < len(lower) && lower[next] == '/' {
		next = skipBlank(lower, next+1)
		next += len(lower[next:]) - len(strings.TrimLeft(lower[next:], "+-−"))
		if number = figureEnd(lower, skipBlank(lower, next)); number > next {
			end = number
		}
	}
	if _, end, found := a.others.at(lower, skipBlank(lower, end)); found {
		return end
	}
	return at
}

func skipBlank(text string, at int) int {
	if at < len(text) && text[at] == ' ' {
		return at + 1
	}
	return at
}

// figureEnd returns the end of the number in digits at a place of a text, or the place where there is none.
func figureEnd(text string, at int) int {
	if at > 0 && at < len(text) && unicode.IsDigit(rune(text[at-1])) {
		return at
	}
	end := at
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || (text[end] == '.' || text[end] == ',') && end+1 < len(text) && text[end+1] >= '0' && text[end+1] <= '9') {
		end++
	}
	return end
}

// UnitsStated returns the units of length that a free text names of sizes that stand elsewhere: not those of amounts, "±0.1 mm", "46 in. shafts".
func (l *Lexicon) UnitsStated(text string) []string {
	if !l.namesUnitBesideNumbers(text) {
		return l.LengthUnitsIn(text)
	}
	return l.unitsOutside(l.InFigures(text))
}

// Stated returns a free text in figures, see InFigures, and the units that it states, see UnitsStated.
func (l *Lexicon) Stated(text string) (inFigures string, units []string) {
	inFigures = l.InFigures(text)
	if !l.namesUnitBesideNumbers(text) {
		return inFigures, l.LengthUnitsIn(text)
	}
	return inFigures, l.unitsOutside(inFigures)
}

// namesUnitBesideNumbers reports whether a text names a unit of length that may be one of amounts.
func (l *Lexicon) namesUnitBesideNumbers(text string) bool {
	return len(l.LengthUnitsIn(text)) > 0 && !UnitFraction().MatchString(text)
}

// unitsOutside returns the units of length that a text in figures names outside its amounts.
func (l *Lexicon) unitsOutside(text string) []string {
	lower := strings.ToLower(text)
	if !BearsNumber(text) || len(lower) != len(text) {
		return l.LengthUnitsIn(text)
	}
	a := amountsOnce()
	var b strings.Builder
	from := 0
	for at := 0; at < len(text); {
		end := figureEnd(lower, at)
		if end == at {
			at++
			continue
		}
		unitAt := end
		for _, open := range [...]string{"(", "（", " ("} {
			unitAt += len(lower[unitAt:]) - len(strings.TrimPrefix(lower[unitAt:], open))
		}
		if _, unitEnd, found := a.units.behind(lower, unitAt); found && !(end-at == 4 && YearIn(lower[at:end]) > 0) { // but for "Price list 2025 mm"
			b.WriteString(text[from:at])
			from, end = unitEnd, unitEnd
		}
		at = end
	}
	return l.LengthUnitsIn(b.String() + text[from:])
}

// goesThrough reports whether a word or a number stands at both sides of a place in a text.
func goesThrough(text string, at int) bool {
	if at == 0 || at == len(text) {
		return false
	}
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	after, _ := utf8.DecodeRuneInString(text[at:])
	return InWord(before) && InWord(after) && !unicode.Is(unicode.Thai, before) || unicode.IsDigit(before) && unicode.IsDigit(after)
}
