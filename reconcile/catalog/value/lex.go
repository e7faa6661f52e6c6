package value

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
)

// kind is what a token of a cell is.
type kind uint8

const (
	aNumber kind = iota
	aUnit
	aMark      // a small word: token.text names it
	aSign      // + - ± ~ / ( ) , : = x %
	aForm      // taper, parallel
	aClass     // h9, IT11, ISO 2768-m
	aFootnote  // * ¹ (a)
	aWord      // words that are not understood
	aSeparator // between the values of a list
)

type token struct {
	kind  kind
	text  string // the sign, the mark, the unit's name, the class, or the words themselves
	raw   string // as written
	gap   bool   // a space stands before it
	num   measure.Number
	comma *measure.AmbiguousError
}

func (t token) is(k kind, text string) bool { return t.kind == k && t.text == text }

// marks are the small words that may stand around a number.
var marks = []string{"approximate", "reference", "at_most", "at_least", "diameter", "radius", "per_side", "included", "half_angle", "fits"}

// linking marks stand between numbers.
var linking = []string{"or", "to", "per"}

type lexer struct {
	v         *words.Vocabulary
	ctx       Context
	rest      string
	tokens    []token
	forgiven  []Leniency
	problem   Problem
	sawNumber bool
}

func (l *lexer) forgive(code, message string) {
	for _, known := range l.forgiven {
		if known.Code == code {
			return
		}
	}
	l.forgiven = append(l.forgiven, Leniency{code, message})
}

// lex divides a normalised text into tokens. It never fails: what it does not know becomes words.
func (l *lexer) lex(text string) {
	l.rest = text
	for l.rest != "" {
		trimmed := strings.TrimLeft(l.rest, " \t")
		gap := len(trimmed) < len(l.rest)
		if l.rest = trimmed; l.rest == "" {
			return
		}
		before := len(l.tokens)
		l.next()
		if len(l.tokens) > before {
			l.tokens[before].gap = gap || before == 0
		}
	}
}

func (l *lexer) push(k kind, text string, length int) {
	l.tokens = append(l.tokens, token{kind: k, text: text, raw: l.rest[:length]})
	l.rest = l.rest[length:]
}

func (l *lexer) last() token {
	if len(l.tokens) == 0 {
		return token{kind: aWord}
	}
	return l.tokens[len(l.tokens)-1]
}

var (
	footnoteMark   = regexp.MustCompile(`^(\*+|[†‡§※]|[¹²³⁴⁵⁶⁷⁸⁹⁰]+⁾?\)?|\([a-zA-Z1-9]\)|[a-z]\))`)
	starTimes      = regexp.MustCompile(`^\* ?[.,]?\d`)
	footnoteNumber = regexp.MustCompile(`^[ .:]*\d{1,2}\b`)
	numberAhead    = regexp.MustCompile(`^(\.?\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒])`)
	commaAhead     = regexp.MustCompile(`^,\d`)
	fractionAhead  = regexp.MustCompile(`^(\d+[ -])?(\d+) ?/ ?(\d+)`)
	isoGeneral     = regexp.MustCompile(`(?i)^(?:DIN )?(?:EN )?ISO ?2768(?:-1)?[ -]*([fmcv])[HKL]?\b`)
	gradeAhead     = regexp.MustCompile(`^(?i:IT) ?\d{1,2}\b`)
	classAhead     = regexp.MustCompile(`^[a-zA-Z]{1,2}\d{1,2}\b`)
	diameterAhead  = regexp.MustCompile(`^[dD] ?=? ?\.?\d`)
	formAfter      = regexp.MustCompile(`^[tTpP]\b`)
	plusMinus      = regexp.MustCompile(`^(±|\+ ?/ ?-|\+-|-/\+)`)
)

func (l *lexer) next() {
	first, size := utf8.DecodeRuneInString(l.rest)
	switch {
	case numberAhead.MatchString(l.rest), commaAhead.MatchString(l.rest) && l.last().kind != aNumber && l.last().kind != aUnit:
		l.number()
	case plusMinus.MatchString(l.rest):
		l.push(aSign, "±", len(plusMinus.FindString(l.rest)))
	case l.sawNumber && footnoteMark.MatchString(l.rest) && !starTimes.MatchString(l.rest):
		l.push(aFootnote, "", len(footnoteMark.FindString(l.rest)))
	case l.last().kind == aNumber && formAfter.MatchString(strings.TrimPrefix(l.rest, "-")): // .370P, .355-T
		form := map[byte]string{'t': "taper", 'p': "parallel"}[strings.TrimPrefix(l.rest, "-")[0]|0x20]
		l.push(aForm, form, len(l.rest)-len(strings.TrimPrefix(l.rest, "-"))+1)
	case strings.HasPrefix(l.rest, "''") && l.sawNumber:
		l.push(aUnit, "in", 2)
	case first == '"' && l.sawNumber:
		l.push(aUnit, "in", size)
	case first == '⌀':
		l.push(aMark, "diameter", size)
	case first == '°':
		l.push(aUnit, "deg", size)
	case first == '%' || first == '‰':
		l.push(aSign, "%", size)
	case strings.ContainsRune("+-/():=,", first):
		l.push(aSign, string(first), size)
	case first == '~' && !l.sawNumber:
		l.push(aMark, "approximate", size)
	case first == '~' || first == '…' || first == '÷' || strings.HasPrefix(l.rest, ".."):
		l.push(aSign, "~", max(size, len(l.rest)-len(strings.TrimLeft(l.rest, "."))))
	case first == '×' || first == '✕' || first == '*':
		l.push(aSign, "x", size)
	case strings.ContainsRune(";|&\n\r、・", first):
		l.push(aSeparator, string(first), size)
	default:
		l.word(first)
	}
}

// number reads a number. A slash makes a fraction only where an inch is divided so: 335/350 are two numbers.
func (l *lexer) number() {
	text := l.rest
	if m := fractionAhead.FindStringSubmatch(text); m != nil && !divides(m[3]) {
		if len(m[2]) < 3 && len(m[3]) < 3 {
			l.push(aWord, "", len(m[0]))
			l.problem = Problem{problemUnreadable, m[0] + " is no fraction of an inch and no decimal number"}
			return
		}
		whole := strings.TrimRight(text[:len(m[1])], " -")
		if whole == "" {
			whole = m[2]
		}
		text = text[:strings.Index(text, whole)+len(whole)]
	} else if m != nil && strings.Contains(m[0], " /") || m != nil && strings.Contains(m[0], "/ ") { // 1 / 2
		if n, rest, err := measure.ParseNumber(m[1] + m[2] + "/" + m[3]); err == nil && rest == "" {
			l.took(m[0], n, nil)
			return
		}
	}
	notation := measure.Notation{Comma: l.commas()}
	n, rest, err := notation.ParseNumber(text)
	var ambiguous *measure.AmbiguousError
	if err != nil {
		if ambiguous = ambiguity(err); ambiguous != nil {
			n, rest, err = measure.Notation{Comma: measure.DecimalComma}.ParseNumber(text)
		}
	}
	if err != nil {
		l.push(aWord, "", len(leadingRun(l.rest)))
		l.problem = Problem{problemUnreadable, "\"" + l.last().raw + "\" is no number"}
		return
	}
	used := len(text) - len(rest)
	used = len(strings.TrimRight(text[:used], " "))
	l.took(text[:used], n, ambiguous)
}

// took adds a number that was written as raw at the beginning of the rest.
func (l *lexer) took(raw string, n measure.Number, ambiguous *measure.AmbiguousError) {
	l.sawNumber = true
	l.tokens = append(l.tokens, token{kind: aNumber, raw: raw, num: n, comma: ambiguous})
	l.rest = l.rest[len(raw):]
	l.noteNumber(raw, n)
}

// noteNumber records what was forgiven in a number.
func (l *lexer) noteNumber(raw string, n measure.Number) {
	switch comma := strings.LastIndexByte(raw, ','); {
	case comma < 0:
	case n.Decimals() > 0 && comma > strings.LastIndexByte(raw, '.'):
		l.forgive(ForgaveDecimalComma, "the comma in "+raw+" is a decimal comma")
		if strings.Contains(raw, ".") {
			l.forgive(ForgaveThousands, "the point in "+raw+" parts thousands")
		}
	default:
		l.forgive(ForgaveThousands, "the comma in "+raw+" parts thousands")
	}
	if strings.ContainsAny(raw, "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒") {
		l.forgive(ForgaveFractionSign, raw+" is a fraction in one character")
	}
}

func (l *lexer) commas() measure.Comma {
	switch l.ctx.Mark {
	case MarkComma:
		return measure.DecimalComma
	case MarkPoint:
		return measure.ThousandsComma
	}
	return measure.UnknownComma
}

// divides reports whether a denominator is one that sizes are given with: a power of two up to 512, or of ten.
func divides(denominator string) bool {
	switch denominator {
	case "2", "4", "8", "16", "32", "64", "128", "256", "512", "10", "100", "1000":
		return true
	}
	return false
}

// leadingRun is the text up to the next space.
func leadingRun(s string) string {
	if at := strings.IndexFunc(s, unicode.IsSpace); at > 0 {
		return s[:at]
	}
	return s
}

// word reads what begins with a letter or an unknown sign.
func (l *lexer) word(first rune) {
	if m := isoGeneral.FindStringSubmatch(l.rest); m != nil {
		l.push(aClass, "ISO 2768-"+strings.ToLower(m[1]), len(m[0]))
		return
	}
	afterNumber := l.last().kind == aNumber || l.last().kind == aUnit
	if n := len(gradeAhead.FindString(l.rest)); n > 0 && afterNumber {
		l.push(aClass, strings.ReplaceAll(l.rest[:n], " ", ""), n)
		return
	}
	if run := classAhead.FindString(l.rest); run != "" && afterNumber {
		if _, err := limits.ParseClass(run); err == nil {
			l.push(aClass, run, len(run))
			return
		}
	}
	if diameterAhead.MatchString(l.rest) && !l.sawNumber {
		l.push(aMark, "diameter", strings.IndexAny(l.rest, ".0123456789"))
		return
	}
	if _, n := l.v.LeadingMark(l.rest, "note"); l.sawNumber && n > 0 { // note 2, 注1
		if number := footnoteNumber.FindString(l.rest[n:]); number != "" {
			l.push(aFootnote, "", n+len(number))
			return
		}
	}
	if (first == 'x' || first == 'X') && afterNumber && numberAhead.MatchString(strings.TrimLeft(l.rest[1:], " ")) {
		l.push(aSign, "x", 1)
		return
	}
	if !l.known() {
		l.unknown()
	}
}

// known reads the longest unit, form or small word at the beginning of the text.
func (l *lexer) known() bool {
	wanted := marks
	if l.sawNumber {
		wanted = append(append([]string{}, marks...), linking...)
	}
	if l.last().kind == aUnit || l.last().kind == aForm || l.last().kind == aNumber || l.last().is(aSign, "/") {
		wanted = append([]string{"per"}, wanted...)
	}
	mark, markLength := l.v.LeadingMark(l.rest, wanted...)
	unit, unitLength := l.leading(l.v.Unit)
	form, formLength := l.leading(l.v.BoreForm)
	switch {
	case unitLength > 0 && unitLength >= markLength && unitLength >= formLength && l.unitMayStand(unitLength):
		if !plainUnits[strings.TrimSuffix(l.rest[:unitLength], ".")] {
			l.forgive(ForgaveShiftedUnit, "\""+l.rest[:unitLength]+"\" is the unit "+unit.Value)
		}
		l.push(aUnit, unit.Value, unitLength)
	case markLength > formLength:
		name := mark.Value
		switch {
		case name == "or":
			l.push(aSeparator, l.rest[:markLength], markLength)
		case name == "to":
			l.push(aSign, "~", markLength)
		default:
			l.push(aMark, name, markLength)
		}
		l.abbreviationPoint()
	case formLength > 0:
		l.push(aForm, form.Value, formLength)
		l.abbreviationPoint()
	default:
		return false
	}
	return true
}

// plainUnits are the spellings that need no mention.
var plainUnits = map[string]bool{"mm": true, "cm": true, "in": true, "thou": true, "µm": true, "μm": true, "m": true, "deg": true, `"`: true,
	"$": true, "€": true, "£": true, "¥": true, "USD": true, "EUR": true, "GBP": true, "JPY": true, "CNY": true, "KRW": true, "TWD": true}

// unitMayStand keeps "in" from being a unit before any number: "in stock", "in 13.6". A single wide character is a unit only
// behind a number; elsewhere it begins another word, as 寸 does 寸法.
func (l *lexer) unitMayStand(length int) bool {
	if first, size := utf8.DecodeRuneInString(l.rest); size == length && isWide(first) && l.last().kind != aNumber {
		return false
	}
	word := strings.ToLower(strings.TrimSuffix(l.rest[:length], "."))
	return l.sawNumber || word != "in" && word != "m" && word != "po" && !strings.ContainsAny(word, `"'`)
}

func (l *lexer) abbreviationPoint() {
	if l.last().raw != "" && !strings.HasSuffix(l.last().raw, ".") && strings.HasPrefix(l.rest, ".") && !numberAhead.MatchString(l.rest) {
		l.rest = l.rest[1:]
	}
}

// leading finds the longest beginning of the text that a question about whole texts is answered for with certainty:
// whole words, or any number of wide characters.
func (l *lexer) leading(ask func(string) (words.Hit, bool)) (best words.Hit, length int) {
	previous := rune(0)
	count := 0
	for i, r := range l.rest {
		if i > 0 && !joined(previous, r) && !unicode.IsSpace(previous) && !(previous == '.' && unicode.IsDigit(r)) {
			if h, found := ask(l.rest[:i]); found && h.Score >= 0.7 && closes(l.rest[:i], h) {
				best, length = h, i
			}
		}
		if count++; count > 28 || unicode.IsDigit(r) || strings.ContainsRune("()/+±~,;=", r) {
			return best, length
		}
		previous = r
	}
	if h, found := ask(l.rest); found && h.Score >= 0.7 && closes(l.rest, h) {
		best, length = h, len(l.rest)
	}
	return best, length
}

// closes reports whether an answer accounts for all of a text: not for the star of "mm*", nor for two words where it
// knows only one.
func closes(text string, h words.Hit) bool {
	last, _ := utf8.DecodeLastRuneInString(text)
	if strings.ContainsFunc(text, unicode.IsLetter) && !unicode.IsLetter(last) && !unicode.IsDigit(last) && last != '.' {
		return false
	}
	return words.Fold(text) == words.Fold(h.Words) || !strings.Contains(text, " ")
}

// joined reports whether no word can end between two characters.
func joined(a, b rune) bool {
	return unicode.IsLetter(a) && unicode.IsLetter(b) && !isWide(a) && !isWide(b)
}

func isWide(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul) || r == 'ー'
}

// unknown takes one word with the digits in it (X100), one wide character, or one sign.
func (l *lexer) unknown() {
	previous := rune(0)
	for i, r := range l.rest {
		stop := unicode.IsSpace(r) || strings.ContainsRune("()/,;=:±~", r)
		afterSign := unicode.IsDigit(r) && !unicode.IsLetter(previous) && !unicode.IsDigit(previous) && !strings.ContainsRune("-_.", previous)
		if i > 0 && (stop || afterSign || isWide(previous) || isWide(r)) {
			l.push(aWord, "", i)
			return
		}
		previous = r
	}
	l.push(aWord, "", len(l.rest))
}
