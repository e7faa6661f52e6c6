package value

import (
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/reconcile/internal/pattern"
)

// What stands at the beginning of a text is found byte by byte, since every text of a sheet is asked for all of it. The expression of
// each stands beside it, and a test holds one against the other.

// isoGeneral is a class of general tolerances.
var isoGeneral = pattern.Lazy(`(?i)^(?:DIN )?(?:EN )?ISO ?2768(?:-1)?[ -]*([fmcv])[HKL]?\b`)

// pointGroupsAhead is a number whose thousands are parted by several points, which no decimal number has: 1.250.000.
var pointGroupsAhead = pattern.Lazy(`^[0-9]{1,3}(?:\.[0-9]{3}){2,}\b`)

// lakhsAhead is a number whose digits are parted as in India, by twos above the thousands: 1,05,000.
var lakhsAhead = pattern.Lazy(`^[0-9]{1,2}(?:,[0-9]{2})+,[0-9]{3}(?:\.[0-9]+)?\b`)

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

// digitsAhead returns how many digits a text begins with.
func digitsAhead(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

// wordEnds reports whether no letter, digit or underscore stands at an index: \b behind one of them.
func wordEnds(s string, at int) bool {
	return at == len(s) || !isDigit(s[at]) && !isLetter(s[at]) && s[at] != '_'
}

// skip returns the index behind a byte, if it stands there.
func skip(s string, at int, c byte) int {
	if at < len(s) && s[at] == c {
		return at + 1
	}
	return at
}

// fractionSigns are the fractions in one character.
const fractionSigns = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"

// numberAhead: ^(\.?\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒])
func numberAhead(s string) bool {
	if at := skip(s, 0, '.'); at < len(s) && isDigit(s[at]) {
		return true
	}
	return s != "" && s[0] >= utf8.RuneSelf && startsWithOneOf(s, fractionSigns)
}

// startsWithOneOf reports whether a text begins with one of several characters.
func startsWithOneOf(s, chars string) bool {
	first, size := utf8.DecodeRuneInString(s)
	return size > 0 && !(first == utf8.RuneError && size == 1) && strings.ContainsRune(chars, first)
}

// commaAhead: ^,\d
func commaAhead(s string) bool { return len(s) > 1 && s[0] == ',' && isDigit(s[1]) }

// plusMinusAhead returns the length of ^(±|\+ ?/ ?-|\+-|-/\+)
func plusMinusAhead(s string) int {
	switch {
	case strings.HasPrefix(s, "±"):
		return len("±")
	case strings.HasPrefix(s, "-/+"):
		return 3
	case !strings.HasPrefix(s, "+"):
		return 0
	}
	if at := skip(s, 1, ' '); at < len(s) && s[at] == '/' {
		if at = skip(s, at+1, ' '); at < len(s) && s[at] == '-' {
			return at + 1
		}
	}
	if strings.HasPrefix(s, "+-") {
		return 2
	}
	return 0
}

// footnoteAhead returns the length of ^(\*+|[†‡※§]|[¹²³⁴⁵⁶⁷⁸⁹⁰]+⁾?\)?|\([a-zA-Z1-9]\)|[a-z]\))
func footnoteAhead(s string) int {
	if s == "" {
		return 0
	}
	switch c := s[0]; {
	case c == '*':
		return len(s) - len(strings.TrimLeft(s, "*"))
	case c == '(':
		if len(s) > 2 && (isLetter(s[1]) || isDigit(s[1]) && s[1] != '0') && s[2] == ')' {
			return 3
		}
	case c >= 'a' && c <= 'z':
		if len(s) > 1 && s[1] == ')' {
			return 2
		}
	case startsWithOneOf(s, "†‡※§"):
		_, size := utf8.DecodeRuneInString(s)
		return size
	case c >= utf8.RuneSelf:
		rest := strings.TrimLeft(s, "¹²³⁴⁵⁶⁷⁸⁹⁰")
		if len(rest) < len(s) {
			return len(s) - len(strings.TrimPrefix(strings.TrimPrefix(rest, "⁾"), ")"))
		}
	}
	return 0
}

// starTimesAhead: ^\* ?[.,]?\d
func starTimesAhead(s string) bool {
	if !strings.HasPrefix(s, "*") {
		return false
	}
	at := skip(s, 1, ' ')
	if at < len(s) && (s[at] == '.' || s[at] == ',') {
		at++
	}
	return at < len(s) && isDigit(s[at])
}

// formAhead: ^[tTpP]\b
func formAhead(s string) bool {
	return s != "" && strings.IndexByte("tTpP", s[0]) >= 0 && wordEnds(s, 1)
}

// tipNameAhead: ^(0?\.)?3\d\d([ /|;&]|$), a tip as the trade calls it.
func tipNameAhead(s string) bool {
	s = strings.TrimPrefix(strings.TrimPrefix(s, "0."), ".")
	return digitsAhead(s) == 3 && s[0] == '3' && (len(s) == 3 || strings.IndexByte(" /|;&", s[3]) >= 0)
}

// fraction is a fraction in digits, with a whole number before it or without: 1-3/8.
type fraction struct{ all, whole, numerator, denominator string }

// fractionAhead: ^(\d+[ -])?(\d+) ?/ ?(\d+)
func fractionAhead(s string) (fraction, bool) {
	whole := 0
	if n := digitsAhead(s); n > 0 && n+1 < len(s) && (s[n] == ' ' || s[n] == '-') && isDigit(s[n+1]) {
		whole = n + 1
	}
	end := whole + digitsAhead(s[whole:])
	slash := skip(s, end, ' ')
	if end == whole || slash == len(s) || s[slash] != '/' {
		return fraction{}, false
	}
	start := skip(s, slash+1, ' ')
	last := start + digitsAhead(s[start:])
	return fraction{s[:last], s[:whole], s[whole:end], s[start:last]}, last > start
}

// gradeAhead returns the length of ^(?i:IT) ?\d{1,2}\b
func gradeAhead(s string) int {
	if len(s) < 3 || s[0]|0x20 != 'i' || s[1]|0x20 != 't' {
		return 0
	}
	return numberBefore(s, skip(s, 2, ' '))
}

// numberBefore returns the index behind one or two digits that stand at an index before the end of a word, zero where none do.
func numberBefore(s string, at int) int {
	if n := digitsAhead(s[at:]); n >= 1 && n <= 2 && wordEnds(s, at+n) {
		return at + n
	}
	return 0
}

// classAhead returns the length of ^[a-zA-Z]{1,2}\d{1,2}\b
func classAhead(s string) int {
	letters := 0
	for letters < min(len(s), 3) && isLetter(s[letters]) {
		letters++
	}
	if letters < 1 || letters > 2 {
		return 0
	}
	return numberBefore(s, letters)
}

// isClass reports whether a text is a tolerance class: h9.
func isClass(text string) bool {
	_, err := limits.ParseClass(text)
	return err == nil
}

// diameterAhead: ^[dD] ?=? ?\.?\d
func diameterAhead(s string) bool {
	if s == "" || s[0]|0x20 != 'd' {
		return false
	}
	at := skip(s, skip(s, skip(s, skip(s, 1, ' '), '='), ' '), '.')
	return at < len(s) && isDigit(s[at])
}

// footnoteNumberAhead returns the length of ^[ .:]*\d{1,2}\b
func footnoteNumberAhead(s string) int {
	return numberBefore(s, len(s)-len(strings.TrimLeft(s, " .:")))
}

// plainNumber: ^[+-]?(\d+([.,]\d*)?|[.,]\d+)$
func plainNumber(s string) bool {
	if s != "" && (s[0] == '+' || s[0] == '-') {
		s = s[1:]
	}
	whole := digitsAhead(s)
	if whole == len(s) {
		return whole > 0
	}
	if s[whole] != '.' && s[whole] != ',' {
		return false
	}
	rest := digitsAhead(s[whole+1:])
	return whole+1+rest == len(s) && whole+rest > 0
}

// storedNoise: ^-?\d*\.\d{13,}$
func storedNoise(s string) bool {
	s = s[skip(s, 0, '-'):]
	point := digitsAhead(s)
	return point < len(s) && s[point] == '.' && len(s)-point-1 >= 13 && digitsAhead(s[point+1:]) == len(s)-point-1
}

// exponent: ^-?\d+([.,]\d+)?[eE][+-]?\d+$
func exponent(s string) bool {
	s = s[skip(s, 0, '-'):]
	at := digitsAhead(s)
	if at == 0 {
		return false
	}
	if at < len(s) && (s[at] == '.' || s[at] == ',') {
		after := digitsAhead(s[at+1:])
		if after == 0 {
			return false
		}
		at += 1 + after
	}
	if at == len(s) || s[at]|0x20 != 'e' {
		return false
	}
	if at++; at < len(s) && (s[at] == '+' || s[at] == '-') {
		at++
	}
	return at < len(s) && digitsAhead(s[at:]) == len(s)-at
}
