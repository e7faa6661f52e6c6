package numfmt

import (
	"math"
	"strings"
)

// Show returns a stored number as a person sees it, without spaces around it. ok is false where the code is not wholly
// understood or raw is no number. date1904 says that the workbook counts days from 1904.
func (f *Format) Show(raw string, date1904 bool) (shown string, ok bool) {
	d, ok := parseDecimal(raw)
	if !ok {
		return "", false
	}
	s, sign := f.choose(&d)
	if s == nil {
		if f.text == nil || len(f.sections) > 0 {
			return "", false
		}
		plain, _ := General(raw)
		return f.ShowText(plain)
	}
	if !s.known {
		return "", false
	}
	var buffer [64]byte
	out := buffer[:0]
	if sign {
		out = append(out, '-')
	}
	switch s.kind {
	case number:
		out = s.number(out, d)
	case scientific:
		out = s.scientific(out, d)
	case rational:
		out = s.rational(out, d)
	case dated:
		out, ok = s.dated(out, &d, date1904)
	default:
		out = s.plain(out, d)
	}
	if !ok {
		return "", false
	}
	return trim(out), true
}

// trim makes a string of the bytes without the spaces around them.
func trim(out []byte) string {
	for len(out) > 0 && out[0] == ' ' {
		out = out[1:]
	}
	for len(out) > 0 && out[len(out)-1] == ' ' {
		out = out[:len(out)-1]
	}
	return string(out)
}

// ShowText returns a text as a person sees it: as it is, unless the code has a section for text.
func (f *Format) ShowText(text string) (shown string, ok bool) {
	if f.text == nil {
		return text, true
	}
	if !f.text.known {
		return "", false
	}
	var out strings.Builder
	for _, t := range f.text.tokens {
		if t.kind == at {
			out.WriteString(text)
		} else {
			out.WriteString(t.text)
		}
	}
	return out.String(), true
}

// choose returns the section for a number and whether a minus sign belongs before it; nil where no section is for it.
func (f *Format) choose(d *decimal) (s *section, sign bool) {
	n := len(f.sections)
	if n == 0 {
		return nil, false
	}
	for i := range f.sections {
		if f.sections[i].condition != "" {
			return f.chooseByCondition(d)
		}
	}
	switch {
	case d.n == 0 && n >= 3:
		return &f.sections[2], false
	case d.neg && d.n > 0 && n >= 2:
		return &f.sections[1], false
	}
	return &f.sections[0], d.neg && d.n > 0
}

// chooseByCondition takes the first section whose condition holds, or the first without one. How the sign of a negative
// number is shown under conditions differs between programs, so those are left alone.
func (f *Format) chooseByCondition(d *decimal) (*section, bool) {
	if d.neg && d.n > 0 {
		return nil, false
	}
	value := d.float()
	for i := range f.sections {
		if s := &f.sections[i]; s.condition == "" || s.holds(value) {
			return s, false
		}
	}
	return nil, false
}

func (s *section) holds(value float64) bool {
	switch s.condition {
	case "<":
		return value < s.bound
	case "<=":
		return value <= s.bound
	case ">":
		return value > s.bound
	case ">=":
		return value >= s.bound
	case "=":
		return value == s.bound
	case "<>":
		return value != s.bound
	}
	return false
}

// General returns a stored number as the format General shows it in a wide enough column: in at most 11 characters
// besides the sign, with an exponent from 1E+11 on and below 0.0001 where the digits do not fit. ok is false where raw is
// no number.
func General(raw string) (shown string, ok bool) {
	if short(raw) {
		return raw, true
	}
	d, ok := parseDecimal(raw)
	if !ok {
		return "", false
	}
	var buffer [32]byte
	out := buffer[:0]
	if d.neg && d.n > 0 {
		out = append(out, '-')
	}
	return string(appendGeneral(out, d)), true
}

// short reports whether a number is written just as General shows it, which most are.
func short(raw string) bool {
	digits := strings.TrimPrefix(raw, "-")
	if digits == "" || len(digits) > 10 || digits[0] < '0' || digits[0] > '9' {
		return false
	}
	if digits[0] == '0' && len(digits) > 1 && digits[1] != '.' {
		return false
	}
	points := 0
	for i := 0; i < len(digits); i++ {
		switch c := digits[i]; {
		case c == '.':
			points++
		case c < '0' || c > '9':
			return false
		}
	}
	last := digits[len(digits)-1]
	return points == 0 && raw != "-0" || points == 1 && last != '0' && last != '.'
}

const (
	generalWidth  = 11
	generalPlaces = generalWidth - 2 // behind "0."
)

// appendGeneral appends the number without its sign.
func appendGeneral(out []byte, d decimal) []byte {
	if d.n == 0 {
		return append(out, '0')
	}
	fixed := d
	fixed.round(max(0, min(generalPlaces, generalWidth-1-d.exp)))
	// A number below 0.0001 is written out only if no digit is lost.
	if d.exp <= generalWidth && fixed.exp <= generalWidth && fixed.n > 0 && (d.exp > -4 || fixed == d) {
		for power := max(fixed.exp, 1) - 1; power >= min(0, fixed.exp-fixed.n); power-- {
			if power == -1 {
				out = append(out, '.')
			}
			out = append(out, '0'+fixed.at(power))
		}
		return out
	}
	d.round(6 - d.exp) // six significant digits
	out = append(out, '0'+d.digits[0])
	if d.n > 1 {
		out = append(out, '.')
		for _, digit := range d.digits[1:d.n] {
			out = append(out, '0'+digit)
		}
	}
	return appendPower(append(out, 'E'), d.exp-1, true, 2)
}

// appendPower appends an exponent with at least so many digits.
func appendPower(out []byte, power int, plus bool, width int) []byte {
	switch {
	case power < 0:
		out = append(out, '-')
		power = -power
	case plus:
		out = append(out, '+')
	}
	return appendInt(out, power, width)
}

// appendInt appends a number that is not negative, with zeros up to a width.
func appendInt(out []byte, value, width int) []byte {
	var digits [20]byte
	i := len(digits)
	for value > 0 || width > 0 {
		i--
		digits[i] = byte('0' + value%10)
		value /= 10
		width--
	}
	return append(out, digits[i:]...)
}

// plain shows a section without placeholders: literals, and General.
func (s *section) plain(out []byte, d decimal) []byte {
	for _, t := range s.tokens {
		if t.kind == general {
			out = appendGeneral(out, d)
		} else {
			out = append(out, t.text...)
		}
	}
	return out
}

// number shows a section with placeholders and no exponent.
func (s *section) number(out []byte, d decimal) []byte {
	if d.n > 0 {
		d.exp += s.shift
	}
	d.round(s.places)
	return s.fill(out, d, s.tokens, s.pointAt)
}

// fill puts the digits of a rounded number into tokens; the integer part ends before the index pointAt.
func (s *section) fill(out []byte, d decimal, tokens []token, pointAt int) []byte {
	out = s.fillWhole(out, d, tokens[:pointAt])
	power := 0
	for _, t := range tokens[pointAt:] {
		if t.kind != placeholder {
			out = append(out, t.text...)
			continue
		}
		power--
		digit := d.at(power)
		switch beyond := power < d.exp-d.n || d.n == 0; {
		case t.text == "0" || !beyond:
			out = append(out, '0'+digit)
		case t.text == "?":
			out = append(out, ' ')
		}
	}
	return out
}

// fillWhole puts the integer part into its tokens, from the right as digits on paper; the digits for which there is no
// placeholder stand at the first one, or before the point where there is none at all: .000 shows 1.5 as 1.500 (ECMA-376, part 1, 18.8.31: digits
// beyond the placeholders left of the point are displayed).
func (s *section) fillWhole(out []byte, d decimal, tokens []token) []byte {
	first := 0
	for first < len(tokens) && tokens[first].kind != placeholder {
		out = append(out, tokens[first].text...)
		first++
	}
	start := len(out)
	power := 0
	put := func(c byte) {
		if s.grouped && power > 0 && power%3 == 0 {
			if c == ' ' {
				out = append(out, ' ')
			} else {
				out = append(out, ',')
			}
		}
		out = append(out, c)
		power++
	}
	for i := len(tokens) - 1; i >= first; i-- {
		t := tokens[i]
		if t.kind != placeholder {
			for j := len(t.text) - 1; j >= 0; j-- {
				out = append(out, t.text[j])
			}
			continue
		}
		switch {
		case power < d.exp || t.text == "0":
			put('0' + d.at(power))
		case t.text == "?":
			put(' ')
		}
		if i == first {
			for power < d.exp {
				put('0' + d.at(power))
			}
		}
	}
	for first == len(tokens) && power < d.exp {
		put('0' + d.at(power))
	}
	for i, j := start, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// scientific shows a section with an exponent. Several places before the point make the exponent a multiple of their
// number.
func (s *section) scientific(out []byte, d decimal) []byte {
	step := max(s.whole, 1)
	power := 0
	if d.n > 0 {
		power = floorTo(d.exp-1, step)
		rounded := d
		rounded.exp -= power
		rounded.round(s.places)
		if rounded.exp > step { // rounded up to the next power, as 9.99 to 10.0
			power += step
		}
		d.exp -= power
		d.round(s.places)
	}
	pointAt := s.pointAt
	out = s.fill(out, d, s.tokens[:s.powerAt], pointAt)
	out = append(out, 'E')
	width, rest := 0, s.tokens[s.powerAt+1:]
	for len(rest) > 0 && rest[0].kind == placeholder {
		width++
		rest = rest[1:]
	}
	out = appendPower(out, power, strings.HasSuffix(s.tokens[s.powerAt].text, "+"), max(width, 1))
	for _, t := range rest {
		out = append(out, t.text...)
	}
	return out
}

func floorTo(value, step int) int {
	return int(math.Floor(float64(value)/float64(step))) * step
}
