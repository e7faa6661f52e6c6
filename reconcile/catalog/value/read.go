package value

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// maxText is the longest text, in bytes, that is looked at as a value.
const maxText = 200

// Read reads the text of a cell. It never fails: what cannot be read is Unreadable with a problem.
func Read(text string, ctx Context) Reading {
	r := Reading{Text: text}
	var forgiven []Leniency
	clean := strings.TrimFunc(text, func(c rune) bool { return unicode.IsSpace(c) || unicode.Is(unicode.Cf, c) })
	if clean == "" {
		return r
	}
	if inner, quoted := unquote(clean); quoted {
		clean = inner
		forgiven = append(forgiven, Leniency{ForgaveApostrophe, "the spreadsheet program's mark for text before or around " + inner})
	}
	if len(clean) > maxText {
		r.Kind = Text
		r.Rest = clean
		return r
	}
	if special, found := readSpecial(clean, ctx); found {
		special.Text = text
		return special
	}
	normal, notes := normalise(clean)
	if ctx.Want != WantAny {
		normal = minusAhead(normal)
	}
	if ctx.Want == WantPrice || ctx.Want == WantCount {
		normal = withoutApostrophes(normal)
	}
	if ctx.Want == WantPrice {
		normal = plainPrice(normal)
		if whole, rest, ok := cents(normal); ok {
			return inWhole(Read(whole+rest, ctx), text)
		}
	}
	if ctx.Want == WantPrice || ctx.Want == WantCount {
		normal = multiplied(normal)
	}
	if ctx.Want == WantCount {
		normal = words.Load().InPieces(normal)
	}
	normal = stacked(normal)
	forgiven = append(forgiven, notes...)
	if now, before := withoutOld(normal); before != "" {
		normal = now
		forgiven = append(forgiven, Leniency{ForgaveTrailingText, fmt.Sprintf("%q is what the value was, and is set aside", before)})
	}
	if ctx.Stored || storedNoise(normal) {
		if short, changed := shorten(normal); changed {
			normal = short
			if !ctx.Stored {
				forgiven = append(forgiven, Leniency{ForgaveNoise, clean + " holds more digits than were meant and is read as " + short})
			}
		}
	}
	if damaged, found := readDamaged(normal, ctx); found {
		damaged.Text = text
		return damaged
	}
	l := &lexer{v: words.Load(), ctx: ctx}
	l.lex(normal)
	p := parser{lexer: l}
	reading := p.cell(l.tokens)
	reading.Text = text
	reading.Leniencies = append(forgiven, reading.Leniencies...)
	if reading.Kind == Text || reading.Kind == Unreadable {
		reading.Leniencies = nil
	}
	return reading
}

// behindValue is a value with something in brackets, or behind a comma or semicolon and a blank.
var behindValue = pattern.Lazy(`^(.*\d.*?) *(?:\(([^()]*\d[^()]*)\)|[,;] ([^()]*\d))$`)

// withoutOld takes off what a cell says that its value was before: 13.4 (was 13.3).
func withoutOld(text string) (now, before string) {
	if now, before := corrected(text); before != "" {
		return now, before
	}
	if !strings.HasSuffix(text, ")") && !strings.Contains(text, ", ") && !strings.Contains(text, "; ") { // nearly every cell
		return text, ""
	}
	m := behindValue().FindStringSubmatch(text)
	if m == nil {
		return text, ""
	}
	before = m[2] + m[3]
	_, length := words.Load().LeadingMark(before, "old")
	_, behind := words.Load().Mark(before[strings.LastIndexByte(before, ' ')+1:], "old")
	if length == 0 && !behind && !saysWrong(before, m[3] == "") {
		return text, ""
	}
	return m[1], before
}

// saysWrong reports whether a text is a size with words before or behind it that say that it does not hold: "et non 13,4 !", "not 13.4". Without
// brackets, words that put right what was said before may mean the other way round: "13,6, non, 13,4".
func saysWrong(text string, inBrackets bool) bool {
	from, to := strings.IndexFunc(text, unicode.IsDigit), strings.LastIndexFunc(text, unicode.IsDigit)
	if from < 0 || to-from > mostOfSize {
		return false
	}
	ahead, behind := strings.TrimRight(text[:from], " .,"), strings.Trim(text[to+1:], " !.,\"″m")
	v := words.Load()
	if !inBrackets && v.Corrects(ahead) {
		return false
	}
	return ahead != "" && behind == "" && v.BesideWrong(ahead) || ahead == "" && behind != "" && v.BesideWrong(behind)
}

// mostOfSize is how many bytes a number has at most from its first digit to its last.
const mostOfSize = 10

// putRight is a value with words behind it, and what they make of it; putRightBehind is one where the words stand behind both: 13.4から13.6に訂正.
var (
	putRight       = pattern.Lazy(`^([^\pL]*\d[^\pL]*(?:(?:mm|cm|in)\b)?)[ ,;.:(–-]*(\pL[^\d]{0,40}?)[ ,;.:–-]*([^\pL]*\d.*?)\)?$`)
	putRightBehind = pattern.Lazy(`^([^\pL]*\d[^\pL]*\pL[^\d]{0,20})( ?[.,]?\d[\d.,]*(?: ?(?:mm|cm|in)\b)?) ?(\pL[^\d]*)$`)
)

// corrected takes off what somebody has said of a value and put right in the same breath: 13.6, no, sorry, 13.8; 13,4 rettet til 13,6.
func corrected(text string) (now, before string) {
	v := words.Load()
	if first, _ := utf8.DecodeRuneInString(text); unicode.IsLetter(first) {
		if !strings.ContainsAny(text, "0123456789") {
			return text, ""
		}
		if _, length := v.LeadingMark(text, "old"); length > 0 { // was 9.20, now 8.80
			if m := putRight().FindStringSubmatch(strings.TrimLeft(text[length:], " :")); m != nil && v.Becomes(m[2]) {
				return m[3], text[:length] + " " + m[1] + " " + m[2]
			}
		}
		return text, ""
	}
	if isPlain(text) && strings.Count(text, " ") < 2 || !strings.ContainsFunc(text, unicode.IsLetter) {
		return text, ""
	}
	if m := putRight().FindStringSubmatch(text); m != nil && (v.Corrects(m[2]) || v.Becomes(m[2])) && !v.BesideWrong(m[2]) { // "13,6 (e non 13,4)" is the other way round
		return m[3], m[1] + " " + m[2]
	}
	if m := putRightBehind().FindStringSubmatch(text); m != nil && v.Becomes(m[3]) {
		return strings.TrimSpace(m[2]), m[1]
	}
	return text, ""
}

// minusBehind is a number with its minus behind it, as business software writes it: 0,05-. A comma or point before the minus is that of a price
// without cents, and a number behind it that of a range.
var minusBehind = pattern.Lazy(`(^|[ /;(])([\d.,]*\d)-($|[/;)])`)

// minusAhead puts each minus that stands behind its number before it.
func minusAhead(text string) string {
	if !strings.Contains(text, "-") {
		return text
	}
	for range 2 { // what divides two numbers is part of the first
		text = minusBehind().ReplaceAllString(text, "$1-$2$3")
	}
	return text
}

// stackedDeviations are two deviations below a size in its cell, of which one is nought and so has no sign: 9.35 +0.03 0.
var stackedDeviations = pattern.Lazy(`^(.*\d[^ ]*) (?:([+-]\d*[.,]?\d+) (0)|(0) (-\d*[.,]?\d+))$`)

// stacked puts a stroke between the deviations that stand below a size in its cell.
func stacked(text string) string {
	if !strings.Contains(text, " 0") || !strings.ContainsAny(text, "+-") {
		return text
	}
	return stackedDeviations().ReplaceAllString(text, "$1 $2$4/$3$5")
}

// readSpecial reads cells that hold no value and say so.
func readSpecial(text string, ctx Context) (Reading, bool) {
	v := words.Load()
	na, notApplicable := v.IsNotApplicable(text)
	ditto, isDitto := v.IsDitto(text)
	missing, isMissing := v.IsMissing(text)
	if ctx.Language != "" {
		suits := func(h words.Hit) bool { return h.Language == ctx.Language || h.Language == "sign" }
		if notApplicable && isDitto {
			notApplicable, isDitto = suits(na) || !suits(ditto), suits(ditto)
		}
	}
	switch {
	case isDitto && notApplicable && !strings.ContainsFunc(text, unicode.IsLetter):
		return Reading{Kind: NotApplicable}, true
	case isDitto && notApplicable:
		return Reading{Kind: Missing, Problem: Problem{problemMissing,
			fmt.Sprintf("%q may mean that there is no value or that the one above it holds", text)}}, true
	case isDitto && strings.ContainsFunc(text, unicode.IsLetter):
		return Reading{Kind: Ditto, Problem: Problem{problemMissing, fmt.Sprintf("%q refers to the value above it (%s)", text, ditto.Words)}}, true
	case isMissing && missing.Score >= na.Score:
		return Reading{Kind: Missing, Problem: Problem{problemMissing, fmt.Sprintf("%q: the value is not stated", text)}}, true
	case notApplicable:
		return Reading{Kind: NotApplicable}, true
	case IsErrorValue(text):
		return Reading{Kind: Unreadable, Problem: Problem{problemDamaged, text + " is an error of the spreadsheet program and no value"}}, true
	}
	return Reading{}, false
}

var (
	inQuotes   = pattern.Lazy(`^["“”]([^"“”]+)["“”]$`)
	quotedCell = pattern.Lazy(`^="(.*)"$`)
)

// IsErrorValue reports whether a text is an error value of a spreadsheet program, ISO/IEC 29500-1, 18.17.3, as it stands in text files.
func IsErrorValue(text string) bool {
	return strings.HasPrefix(text, "#") && slices.Contains(words.Load().Written("spreadsheet", "error"), text)
}

// unquote takes off the apostrophe before a text, or the ="..." around one, that keep a spreadsheet program from
// changing it, and the = before a plain number.
func unquote(s string) (inner string, quoted bool) {
	if strings.HasPrefix(s, `="`) {
		if m := quotedCell().FindStringSubmatch(s); m != nil {
			return m[1], true
		}
	}
	if startsWithOneOf(s, `"“”`) {
		if m := inQuotes().FindStringSubmatch(s); m != nil {
			return m[1], true
		}
	}
	if inner, found := strings.CutPrefix(s, "'"); found && inner != "" && inner[0] != '\'' {
		return inner, true
	}
	if inner, found := strings.CutPrefix(s, "="); found && plainNumber(strings.TrimSpace(inner)) {
		return inner, true
	}
	return s, false
}

// normalise makes one of the many forms of signs and digits, and tells when that was more than a dash or a quotation
// mark.
func normalise(s string) (string, []Leniency) {
	if isPlain(s) {
		return plainSigns.Replace(s), nil
	}
	return normaliseAny(s)
}

// isPlain reports whether a text is ASCII alone, without the spaces that are not plain ones.
func isPlain(s string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= utf8.RuneSelf || c >= '\t' && c <= '\r' && c != '\n' && c != '\r' {
			return false
		}
	}
	return true
}

// plainSigns are the signs of plain texts that have another form.
var plainSigns = strings.NewReplacer("[", "(", "{", "(", "]", ")", "}", ")", "\n", ";", "\r", ";")

// normaliseAny is normalise for a text of any characters.
func normaliseAny(s string) (string, []Leniency) {
	var b strings.Builder
	foreign := false
	runes := []rune(s)
	for i, r := range runes {
		digitBefore := i > 0 && unicode.IsDigit(runes[i-1])
		digitAfter := i+1 < len(runes) && unicode.IsDigit(runes[i+1])
		switch {
		case strings.ContainsRune("[{【［", r):
			b.WriteByte('(')
		case strings.ContainsRune("]}】］", r):
			b.WriteByte(')')
		case r >= '！' && r <= '～':
			foreign = true
			b.WriteRune(r)
		case r > 0x7f && unicode.Is(unicode.Nd, r):
			foreign = true
			b.WriteByte(byte('0' + digitValue(r)))
		case r == '٫', (r == '·' || r == '。') && digitBefore && digitAfter:
			foreign = true
			b.WriteByte('.')
		case unicode.Is(unicode.Cf, r) && r != '\u200b':
		case r == '\n' || r == '\r':
			b.WriteByte(';')
		default:
			b.WriteRune(r)
		}
	}
	folded := measure.Fold(b.String())
	if foreign {
		return folded, []Leniency{{ForgaveWidth, "full-width or other digits and signs in " + s}}
	}
	return folded, nil
}

// digitValue returns the value of a decimal digit of any script: they stand in blocks of ten, beginning with zero.
func digitValue(r rune) rune {
	start := r
	for start > r-9 && unicode.Is(unicode.Nd, start-1) && sameBlock(start-1, r) {
		start--
	}
	return (r - start) % 10
}

// sameBlock keeps the mathematical digits, which stand in several runs of ten without a gap, in their own run.
func sameBlock(a, b rune) bool {
	if b >= 0x1d7ce && b <= 0x1d7ff {
		return (a-0x1d7ce)/10 == (b-0x1d7ce)/10 && a >= 0x1d7ce
	}
	return true
}

// shorten rounds a number to the fifteen digits that a spreadsheet program shows.
func shorten(s string) (string, bool) {
	if !plainNumber(s) && !exponent(s) {
		return s, false
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s, false
	}
	fifteen, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 14, 64), 64)
	if err != nil {
		return s, false
	}
	short := strconv.FormatFloat(fifteen, 'f', -1, 64)
	return short, short != s
}

// readDamaged recognises what a spreadsheet program makes of values: dates, exponents, a column too narrow.
func readDamaged(text string, ctx Context) (Reading, bool) {
	if ctx.Want == WantCount || ctx.Want == WantPrice {
		return Reading{}, false
	}
	if fraction, isDate := dateText(text); isDate {
		r := Reading{Kind: Unreadable, Problem: Problem{problemDamaged, text + " is a date; a spreadsheet program makes dates of fractions"}}
		for _, candidate := range fraction {
			if d, err := measure.ParseDim(candidate + " in"); err == nil {
				r.Alternatives = append(r.Alternatives, Alternative{d, candidate + " in", "(a fraction turned into a date)"})
			}
		}
		return r, true
	}
	if exponent(text) {
		r := Reading{Kind: Unreadable, Problem: Problem{problemUnreadable, text + " is a number with an exponent; the file no longer holds what was typed"}}
		if short, changed := shorten(strings.ReplaceAll(text, ",", ".")); changed && len(short) < 12 {
			plain := Read(short, ctx)
			r.Alternatives = append(r.Alternatives, Alternative{plain.Dim, strings.TrimSpace(short + " " + plain.Unit), "(the same number written out)"})
		}
		return r, true
	}
	if len(text) > 1 && strings.Trim(text, "#") == "" {
		return Reading{Kind: Unreadable, Problem: Problem{problemUnreadable, "the column was too narrow to show the value"}}, true
	}
	return Reading{}, false
}

func ambiguity(err error) *measure.AmbiguousError {
	var ambiguous *measure.AmbiguousError
	if errors.As(err, &ambiguous) {
		return ambiguous
	}
	return nil
}
