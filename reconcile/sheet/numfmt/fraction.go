package numfmt

import (
	"math"
	"strconv"
)

// fractionParts are the places of a section such as # ??/64 among its tokens, each from the first index up to but not
// including the second.
type fractionParts struct {
	whole, numerator, denominator [2]int
	// fixed is the denominator that the code prescribes, 0 where it prescribes only a number of digits.
	fixed int
}

// arrangeFraction recognises a section with placeholders on both sides of a slash.
func (s *section) arrangeFraction() bool {
	at := -1
	for i, t := range s.tokens {
		switch t.kind {
		case slash:
			if at >= 0 {
				return false
			}
			at = i
		case point, power, percent:
			return false
		}
	}
	if at < 0 {
		return false
	}
	var f fractionParts
	end := at
	for end > 0 && isSpace(s.tokens[end-1]) {
		end--
	}
	start := end
	for start > 0 && s.tokens[start-1].kind == placeholder {
		start--
	}
	f.numerator = [2]int{start, end}
	f.whole = s.wholeBefore(start)
	start = at + 1
	for start < len(s.tokens) && isSpace(s.tokens[start]) {
		start++
	}
	end = start
	digits := ""
	fixed := false
	for ; end < len(s.tokens) && isDenominator(s.tokens[end]); end++ {
		digits += s.tokens[end].text
		fixed = fixed || s.tokens[end].kind == literal
	}
	f.denominator = [2]int{start, end}
	if f.numerator[0] == f.numerator[1] || start == end {
		return false
	}
	if fixed {
		value, err := strconv.Atoi(digits)
		s.known = s.known && err == nil && value > 0
		f.fixed = value
	}
	// More than seven digits are beyond what a double can settle.
	s.known = s.known && end-start <= 7
	s.kind, s.fraction = rational, f
	return true
}

func isSpace(t token) bool { return t.kind == literal && t.text == " " }

func isDenominator(t token) bool {
	return t.kind == placeholder || t.kind == literal && len(t.text) == 1 && t.text[0] >= '0' && t.text[0] <= '9'
}

// wholeBefore finds the placeholders of the integer part before the numerator; both indexes are 0 where there are none.
func (s *section) wholeBefore(numerator int) [2]int {
	last := numerator
	for last > 0 && s.tokens[last-1].kind != placeholder {
		last--
	}
	first := last
	for first > 0 && s.tokens[first-1].kind == placeholder {
		first--
	}
	return [2]int{first, last}
}

// rational shows a number as a fraction. A value that is no fraction with such a denominator is approximated by
// continued fractions; programs differ in the last digit there.
func (s *section) rational(out []byte, d decimal) []byte {
	f := s.fraction
	mixed := f.whole[1] > f.whole[0]
	d.neg = false
	value := d.float()
	whole := 0.0
	if mixed {
		whole = math.Floor(value)
		value -= whole
	}
	p, q := f.approximate(value)
	if mixed && p >= q {
		whole += math.Floor(p / q)
		p = math.Mod(p, q)
	}
	for i := 0; i < len(s.tokens); i++ {
		switch {
		case mixed && i == f.whole[0]:
			if whole > 0 || p == 0 || s.has(f.whole, "0") {
				out = appendWidth(out, whole, f.whole[1]-f.whole[0], s.tokens[i].text)
			}
			i = f.whole[1] - 1
		case i == f.numerator[0]:
			if mixed && p == 0 && !s.has(f.numerator, "0") {
				// A whole number leaves the place of the fraction blank.
				i = f.denominator[1] - 1
				continue
			}
			out = appendWidth(out, p, f.numerator[1]-f.numerator[0], s.tokens[i].text)
			i = f.numerator[1] - 1
		case i == f.denominator[0]:
			before := len(out)
			out = strconv.AppendFloat(out, q, 'f', 0, 64)
			for len(out)-before < f.denominator[1]-f.denominator[0] && s.has(f.denominator, "?") {
				out = append(out, ' ')
			}
			i = f.denominator[1] - 1
		default:
			out = append(out, s.tokens[i].text...)
		}
	}
	return out
}

// has reports whether a placeholder of that sign is in a range of tokens.
func (s *section) has(part [2]int, sign string) bool {
	for _, t := range s.tokens[part[0]:part[1]] {
		if t.text == sign {
			return true
		}
	}
	return false
}

// appendWidth appends a whole number, filled at the left as its placeholder asks.
func appendWidth(out []byte, value float64, width int, sign string) []byte {
	digits := strconv.FormatFloat(value, 'f', 0, 64)
	for i := len(digits); i < width; i++ {
		switch sign {
		case "0":
			out = append(out, '0')
		case "?":
			out = append(out, ' ')
		}
	}
	return append(out, digits...)
}

// approximate returns the fraction p/q that is shown for a value that is not negative: the value itself where it is a
// fraction with so many digits, and otherwise one of its two neighbours among those fractions. Which one is settled by
// their mediant, which lies between them, and not by their distance; that is how Excel chooses 2/7 for 0.3 (borgar/numfmt,
// tests of fractions).
func (f fractionParts) approximate(value float64) (p, q float64) {
	if f.fixed > 0 {
		return math.Floor(value*float64(f.fixed) + 0.5), float64(f.fixed)
	}
	limit := math.Pow10(f.denominator[1]-f.denominator[0]) - 1
	// Convergents of the continued fraction, as long as their denominators fit.
	p0, q0, p1, q1 := 0.0, 1.0, 1.0, 0.0
	for rest := value; ; {
		a := math.Floor(rest + 1e-9)
		p2, q2 := a*p1+p0, a*q1+q0
		if q2 > limit {
			break
		}
		p0, q0, p1, q1 = p1, q1, p2, q2
		if rest-a < 1e-7 {
			return p1, q1
		}
		rest = 1 / (rest - a)
	}
	steps := math.Floor((limit - q0) / q1)
	other, otherQ := steps*p1+p0, steps*q1+q0
	// The fused form is exact, which matters: 0.3 is stored a little below 3/10.
	below := math.FMA(value, otherQ+q1, -(other+p1)) <= 0
	if otherQ > 0 && below == (other/otherQ < p1/q1) {
		return other, otherQ
	}
	return p1, q1
}
