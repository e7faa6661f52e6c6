// Package numfmt reads the number format codes of spreadsheets: it says whether a code makes a date of a number, and
// shows a number as a person sees it in the sheet.
//
// Both matter for sheets of parts. A size typed as 3/8 may have become a date that only its format gives away; a unit
// may stand in the format alone (0.000"in"); and what a person reads in the sheet (8.51 mm) may be rounder than what is
// stored (8.509).
//
// The code is described in ECMA-376-1, 18.8.31. A number is shown from its 15 significant digits, halves away from zero,
// as spreadsheet programs do. Where a code asks for something that is not understood here (eras, other numerals, names of
// months in another language, negative numbers under conditions), Show says so rather than guess. Colours and fillings
// leave no trace in the text, and a place left free for alignment becomes a space.
package numfmt

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Format is a number format code that was read. It does not change and can be shared.
type Format struct {
	code     string
	sections []section // those for numbers
	text     *section  // the one for text, nil where text is shown as it is
	date     bool
}

type tokenKind uint8

const (
	literal tokenKind = iota
	placeholder
	point
	comma
	percent
	power
	slash
	general
	at
	date    // a run of one letter: yyyy, mm, d, h, ss, e
	elapsed // [h], [mm], [ss]
	halfDay // AM/PM, A/P
)

type token struct {
	kind tokenKind
	text string
}

type sectionKind uint8

const (
	plain sectionKind = iota
	number
	scientific
	rational
	dated
	texted
)

type section struct {
	kind   sectionKind
	tokens []token
	// known is false where a part of the code is not understood.
	known     bool
	condition string // operator of a condition, empty where there is none
	bound     float64
	foreign   bool // a locale other than English

	grouped  bool // thousands
	shift    int  // powers of ten, from percent signs and scaling commas
	pointAt  int  // index of the decimal point among the tokens, or where the integer part ends
	whole    int  // placeholders before the point
	places   int  // placeholders behind the point
	digits   int  // of seconds
	powerAt  int
	fraction fractionParts
}

// maxCode is the length in bytes from which on a code is not looked at. Programs take 255 characters.
const maxCode = 1024

// Parse reads a code. It takes any text; what it does not understand only shows in the results of the methods.
func Parse(code string) *Format {
	f := &Format{code: code}
	if len(code) > maxCode {
		return f
	}
	parts := split(code)
	for i, part := range parts {
		s := parseSection(part)
		if i == 0 {
			f.date = hasDate(s)
		}
		if s.kind == texted && i == len(parts)-1 || i == 3 {
			f.text = &s
			break
		}
		f.sections = append(f.sections, s)
	}
	return f
}

// Code returns the code as it was given.
func (f *Format) Code() string { return f.code }

// IsDate reports whether numbers in this format are dates, times or durations. Letters in quotes, colours and the word
// General do not make a date.
func (f *Format) IsDate() bool { return f.date }

// Affixes returns the text that the code puts before and after a positive number, without spaces around it: "in" after for
// 0.000"in" as well as for 0.000\ \i\n, which is how another program writes it. Both are empty for dates. A unit is often
// there and nowhere else.
func (f *Format) Affixes() (before, after string) {
	if f.date || len(f.sections) == 0 {
		return "", ""
	}
	first := &f.sections[0]
	number := false
	for i, t := range first.tokens {
		fixed := first.kind == rational && i >= first.fraction.denominator[0] && i < first.fraction.denominator[1]
		switch {
		case t.kind == placeholder || t.kind == general || fixed:
			number = true
			after = "" // what stood there was in the middle of the number
		case t.kind != literal:
		case number:
			after += t.text
		default:
			before += t.text
		}
	}
	if !number {
		return "", ""
	}
	return strings.TrimSpace(before), strings.TrimSpace(after)
}

func hasDate(s section) bool {
	for _, t := range s.tokens {
		if t.kind == date || t.kind == elapsed || t.kind == halfDay {
			return true
		}
	}
	return false
}

// split cuts a code at the semicolons that separate its sections.
func split(code string) []string {
	var parts []string
	start := 0
	for i := 0; i < len(code); i++ {
		switch code[i] {
		case '"':
			end := strings.IndexByte(code[i+1:], '"')
			if end < 0 {
				return append(parts, code[start:])
			}
			i += end + 1
		case '\\', '_', '*':
			i++
		case '[':
			if end := strings.IndexByte(code[i:], ']'); end > 0 {
				i += end
			}
		case ';':
			parts = append(parts, code[start:i])
			start = i + 1
		}
	}
	return append(parts, code[start:])
}

func parseSection(code string) section {
	s := section{known: true}
	for len(code) > 0 {
		code = code[s.take(code):]
	}
	s.classify()
	return s
}

// take reads one token at the start of the code and returns its length.
func (s *section) take(code string) int {
	c := code[0]
	switch c {
	case '"':
		end := strings.IndexByte(code[1:], '"')
		if end < 0 {
			s.known = false
			return len(code)
		}
		s.add(literal, code[1:1+end])
		return end + 2
	case '\\', '_', '*':
		_, size := utf8.DecodeRuneInString(code[1:])
		switch c {
		case '\\':
			s.add(literal, code[1:1+size])
		case '_':
			s.add(literal, " ")
		}
		return 1 + size
	case '[':
		end := strings.IndexByte(code, ']')
		if end < 0 {
			s.known = false
			return len(code)
		}
		s.bracket(code[1:end])
		return end + 1
	case '0', '#', '?':
		s.add(placeholder, code[:1])
		return 1
	case '.':
		s.add(point, ".")
		return 1
	case ',':
		s.add(comma, ",")
		return 1
	case '%':
		s.add(percent, "%")
		return 1
	case '/':
		s.add(slash, "/")
		return 1
	case '@':
		s.add(at, "@")
		return 1
	}
	return s.takeWord(code)
}

// takeWord reads what begins with a letter or another character.
func (s *section) takeWord(code string) int {
	switch {
	case len(code) >= 7 && strings.EqualFold(code[:7], "general"):
		s.add(general, "")
		return 7
	case len(code) >= 5 && strings.EqualFold(code[:5], "am/pm"):
		s.add(halfDay, code[:5])
		return 5
	case len(code) >= 3 && strings.EqualFold(code[:3], "a/p"):
		s.add(halfDay, code[:3])
		return 3
	case strings.HasPrefix(code, "上午/下午"):
		s.add(halfDay, "上午/下午")
		return len("上午/下午")
	case len(code) >= 2 && (code[0] == 'E' || code[0] == 'e') && (code[1] == '+' || code[1] == '-'):
		s.add(power, code[:2])
		return 2
	}
	c := code[0] | 0x20
	switch c {
	case 'y', 'm', 'd', 'h', 's', 'e', 'g', 'b':
		length := 1
		for length < len(code) && code[length]|0x20 == c {
			length++
		}
		s.add(date, strings.ToLower(code[:length]))
		s.known = s.known && c != 'g' && c != 'b'
		return length
	}
	r, size := utf8.DecodeRuneInString(code)
	if unicode.Is(unicode.Thai, r) {
		// The Thai letters for day, month, year, hour, minute and second make dates in a Thai program.
		s.known = false
		if strings.ContainsRune("วดปชนท", r) {
			s.add(date, code[:size])
		}
		return size
	}
	if c == 't' && len(code) > 1 && strings.IndexByte("0#?", code[1]) >= 0 {
		s.known = false // Thai numerals
	}
	// Other letters stand for themselves; programs put them in quotes when a person types them, other writers do not.
	s.add(literal, code[:size])
	return size
}

func (s *section) add(kind tokenKind, text string) { s.tokens = append(s.tokens, token{kind, text}) }

var colours = map[string]bool{
	"black": true, "blue": true, "cyan": true, "green": true, "magenta": true, "red": true, "white": true, "yellow": true,
}

// bracket takes in what stands in square brackets: a duration, a condition, a currency with a locale, a colour.
func (s *section) bracket(inside string) {
	lower := strings.ToLower(inside)
	switch {
	case lower != "" && (strings.Trim(lower, "h") == "" || strings.Trim(lower, "m") == "" || strings.Trim(lower, "s") == ""):
		s.add(elapsed, lower)
	case inside == "ช":
		s.add(date, inside)
		s.known = false
	case strings.HasPrefix(inside, "$"):
		symbol, locale, _ := strings.Cut(inside[1:], "-")
		if symbol != "" {
			s.add(literal, symbol)
		}
		s.locale(locale)
	case inside != "" && strings.ContainsRune("<>=", rune(inside[0])):
		operand := strings.TrimLeft(inside, "<>=")
		bound, err := strconv.ParseFloat(operand, 64)
		s.condition, s.bound = inside[:len(inside)-len(operand)], bound
		s.known = s.known && err == nil
	case colours[lower], strings.HasPrefix(lower, "color"):
	default:
		s.known = false
	}
}

// locale takes in the hexadecimal language number of [$-409] or the name of [$-en-US]. Only names of months and days
// depend on it; numbers above FFFF ask for another calendar or other numerals (ECMA-376-1, 18.8.31).
func (s *section) locale(locale string) {
	if locale == "" {
		return
	}
	id, err := strconv.ParseUint(locale, 16, 32)
	if err != nil {
		s.foreign = !strings.HasPrefix(strings.ToLower(locale), "en")
		return
	}
	const primaryLanguage, english = 0x3ff, 0x09
	s.foreign = id&primaryLanguage != english
	// F800 and F400 are the long date and the time of the reader's own system.
	s.known = s.known && id <= 0xffff && id != 0xf800 && id != 0xf400
}

// classify finds out what kind of section the tokens make, and where its parts are.
func (s *section) classify() {
	count := map[tokenKind]int{}
	for _, t := range s.tokens {
		count[t.kind]++
	}
	switch {
	case count[date]+count[elapsed]+count[halfDay] > 0:
		s.kind = dated
		s.arrangeDate()
	case count[at] > 0:
		s.kind = texted
		s.known = s.known && count[placeholder]+count[general] == 0
	case count[general] > 0:
		s.kind = plain
		s.known = s.known && count[general] == 1 && count[placeholder] == 0
	case count[placeholder] == 0:
		s.kind = plain
		s.literals()
	default:
		s.kind = number
		s.arrangeNumber()
	}
}

// literals makes the remaining signs of a section without placeholders stand for themselves.
func (s *section) literals() {
	for i := range s.tokens {
		switch s.tokens[i].kind {
		case slash, point, comma, percent:
			s.tokens[i].kind = literal
		}
	}
}

// arrangeNumber finds the decimal point, the grouping and scaling commas, the exponent or the fraction.
func (s *section) arrangeNumber() {
	if s.arrangeFraction() {
		return
	}
	s.takeCommas()
	s.pointAt, s.powerAt = len(s.tokens), len(s.tokens)
	for i := range s.tokens {
		switch t := &s.tokens[i]; t.kind {
		case point:
			if s.pointAt < i {
				t.kind = literal // a second point
			} else {
				s.pointAt = i
			}
		case power:
			s.known = s.known && s.kind != scientific
			s.kind, s.powerAt = scientific, i
			s.pointAt = min(s.pointAt, i)
		case percent:
			s.shift += 2
		case placeholder:
			switch {
			case i > s.powerAt:
			case i > s.pointAt:
				s.places++
			default:
				s.whole++
			}
		case slash:
			t.kind = literal
		}
	}
	if s.kind == scientific && s.shift != 0 {
		s.known = false
	}
}

// takeCommas removes the commas that group thousands or scale by a thousand.
func (s *section) takeCommas() {
	wholeEnd := -1
	for i, t := range s.tokens {
		if t.kind == point || t.kind == power {
			break
		}
		if t.kind == placeholder {
			wholeEnd = i
		}
	}
	kept := s.tokens[:0]
	seen := false
	for i, t := range s.tokens {
		switch {
		case t.kind == placeholder:
			seen = true
		case t.kind == comma && !seen:
			t.kind = literal
		case t.kind == comma && i < wholeEnd:
			s.grouped = true
			continue
		case t.kind == comma:
			s.shift -= 3
			continue
		}
		kept = append(kept, t)
	}
	s.tokens = kept
}
