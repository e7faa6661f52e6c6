package value

import (
	"strings"
	"unicode"
	"unicode/utf8"

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

// marks are the small words that may stand around a number: first the one that stands behind one only, last the linking ones.
var marks = append([]string{"per", "approximate", "reference", "at_most", "at_least", "diameter", "radius", "per_side", "included", "half_angle", "fits"}, linking...)

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

func (l *lexer) next() {
	first, size := utf8.DecodeRuneInString(l.rest)
	switch {
	case numberAhead(l.rest), commaAhead(l.rest) && l.last().kind != aNumber && l.last().kind != aUnit:
		l.number()
	case plusMinusAhead(l.rest) > 0:
		l.push(aSign, "±", plusMinusAhead(l.rest))
	case l.sawNumber && footnoteAhead(l.rest) > 0 && !starTimesAhead(l.rest):
		l.push(aFootnote, "", footnoteAhead(l.rest))
	case l.last().kind == aNumber && formAhead(withoutJoint(l.rest)): // .370P, .355-T, 370/P
		form := map[byte]string{'t': "taper", 'p': "parallel"}[withoutJoint(l.rest)[0]|0x20]
		l.push(aForm, form, len(l.rest)-len(withoutJoint(l.rest))+1)
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
	if m, found := fractionAhead(text); found && !divides(m.denominator) {
		if len(m.numerator) < 3 && len(m.denominator) < 3 {
			l.push(aWord, "", len(m.all))
			l.problem = Problem{problemUnreadable, m.all + " is no fraction of an inch and no decimal number"}
			return
		}
		whole := strings.TrimRight(m.whole, " -")
		if whole == "" {
			whole = m.numerator
		}
		text = text[:strings.Index(text, whole)+len(whole)]
	} else if found && (strings.Contains(m.all, " /") || strings.Contains(m.all, "/ ")) { // 1 / 2
		if n, rest, err := measure.ParseNumber(m.whole + m.numerator + "/" + m.denominator); err == nil && rest == "" {
			l.took(m.all, n, nil)
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
		groups := pointGroupsAhead().FindString(text)
		if n, rest, err := measure.ParseNumber(strings.ReplaceAll(groups, ".", "")); groups != "" && err == nil && rest == "" {
			l.took(groups, n, nil)
			l.forgive(ForgaveThousands, "the points in "+groups+" part thousands")
			return
		}
		if l.lakhs(text) {
			return
		}
		l.push(aWord, "", len(leadingRun(l.rest)))
		l.problem = Problem{problemUnreadable, "\"" + l.last().raw + "\" is no number"}
		return
	}
	used := len(text) - len(rest)
	used = len(strings.TrimRight(text[:used], " "))
	l.took(text[:used], n, ambiguous)
}

// lakhs reads a count or a price whose digits are parted as in India. Of sizes such a text may be a list.
func (l *lexer) lakhs(text string) bool {
	if l.ctx.Want != WantCount && l.ctx.Want != WantPrice || l.ctx.Mark == MarkComma {
		return false
	}
	groups := lakhsAhead().FindString(text)
	n, rest, err := measure.ParseNumber(strings.ReplaceAll(groups, ",", ""))
	if groups == "" || err != nil || rest != "" {
		return false
	}
	l.took(groups, n, nil)
	return true
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
	if strings.ContainsRune("dDeEiI", first) {
		if m := isoGeneral().FindStringSubmatch(l.rest); m != nil {
			l.push(aClass, "ISO 2768-"+strings.ToLower(m[1]), len(m[0]))
			return
		}
	}
	afterNumber := l.last().kind == aNumber || l.last().kind == aUnit
	if n := gradeAhead(l.rest); n > 0 && afterNumber {
		l.push(aClass, strings.ReplaceAll(l.rest[:n], " ", ""), n)
		return
	}
	if n := classAhead(l.rest); n > 0 && afterNumber {
		if run := l.rest[:n]; isClass(run) {
			l.push(aClass, run, len(run))
			return
		}
	}
	if diameterAhead(l.rest) && !l.sawNumber {
		l.push(aMark, "diameter", strings.IndexAny(l.rest, ".0123456789"))
		return
	}
	if l.sawNumber {
		if _, n := l.v.LeadingMark(l.rest, "note"); n > 0 { // note 2, 注1
			if number := footnoteNumberAhead(l.rest[n:]); number > 0 {
				l.push(aFootnote, "", n+number)
				return
			}
		}
	}
	if (first == 'x' || first == 'X') && afterNumber && numberAhead(strings.TrimLeft(l.rest[1:], " ")) {
		l.push(aSign, "x", 1)
		return
	}
	if !l.formAtTip() && !l.known() {
		l.unknown()
	}
}

// formAtTip reads the letters for a form before the name of a tip.
func (l *lexer) formAtTip() bool {
	if last := l.last().kind; l.ctx.Want != WantDiameter || last == aNumber || last == aUnit {
		return false
	}
	form, length := formBeforeTip(l.v, l.rest)
	if length > 0 {
		l.push(aForm, form, length)
	}
	return length > 0
}

// FormBeforeTip reports whether a text begins with the letters for a form and the name of a tip: P370, T-355, P.370.
func FormBeforeTip(text string) bool {
	_, length := formBeforeTip(words.Load(), text)
	return length > 0
}

// formBeforeTip returns the form for which the letters stand that a text begins with, right before the name of a tip, and where that begins. Alone
// they are too short to be sure of.
func formBeforeTip(v *words.Vocabulary, text string) (form string, length int) {
	letters := text[:max(0, strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }))]
	size := withoutJoint(strings.TrimLeft(text[len(letters):], " "))
	if letters == "" || !tipNameAhead(size) {
		return "", 0
	}
	hit, known := v.BoreForm(letters)
	if !known || words.Fold(hit.Words) != words.Fold(letters) {
		return "", 0
	}
	return hit.Value, len(text) - len(size)
}

// withoutJoint cuts the sign that joins a letter for a form and the name of a tip from the beginning of a text.
func withoutJoint(text string) string {
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "/") {
		return text[1:]
	}
	return text
}

// known reads the longest unit, form or small word at the beginning of the text.
func (l *lexer) known() bool {
	wanted := marks[1 : len(marks)-len(linking)]
	if l.sawNumber {
		wanted = marks[1:]
	}
	if l.last().kind == aUnit || l.last().kind == aForm || l.last().kind == aNumber || l.last().is(aSign, "/") {
		wanted = marks[:len(wanted)+1]
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
		case name == "to", name == "at_most" && l.goesUpTo(markLength):
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

// goesUpTo reports whether words of a length for the greatest of sizes, behind a size and before another, tell where it ends: "13.5 up to 13.7".
func (l *lexer) goesUpTo(length int) bool {
	if last := l.last().kind; last != aNumber && last != aUnit || !numberAhead(strings.TrimLeft(l.rest[length:], " ")) {
		return false
	}
	_, to := l.v.LeadingMark(l.rest, "to")
	return to == length
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
	last := l.last()
	if word == "in" && (last.kind == aWord || last.is(aSign, ",") || last.is(aSign, "-")) { // "±0.1, all in mm"
		return false
	}
	return l.sawNumber || word != "in" && word != "m" && word != "po" && !strings.ContainsAny(word, `"'`)
}

func (l *lexer) abbreviationPoint() {
	if l.last().raw != "" && !strings.HasSuffix(l.last().raw, ".") && strings.HasPrefix(l.rest, ".") && !numberAhead(l.rest) {
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
	if strings.ContainsFunc(text, unicode.IsLetter) && !unicode.IsLetter(last) && !unicode.IsDigit(last) && last != '.' && last != '$' {
		return false
	}
	return words.Fold(text) == words.Fold(h.Words) || !strings.Contains(text, " ")
}

// joined reports whether no word can end between two characters.
func joined(a, b rune) bool {
	return unicode.IsLetter(a) && unicode.IsLetter(b) && !isWide(a) && !isWide(b)
}

func isWide(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul, unicode.Thai) || r == 'ー'
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
