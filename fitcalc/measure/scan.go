package measure

import (
	"math"
	"math/bits"
	"unicode"
	"unicode/utf8"
)

// scanner reads a text rune by rune, folding the many ways to write the same sign into one, and keeps its place in the
// original so that errors quote what was written.
type scanner struct {
	text  string
	pos   int
	comma Comma
}

const eof rune = -1

// peek returns the next rune, folded, and its width.
func (c *scanner) peek() (rune, int) {
	if c.pos >= len(c.text) {
		return eof, 0
	}
	if b := c.text[c.pos]; b < utf8.RuneSelf {
		if b >= '\t' && b <= '\r' {
			return ' ', 1
		}
		return rune(b), 1
	}
	r, size := utf8.DecodeRuneInString(c.text[c.pos:])
	return fold(r), size
}

func (c *scanner) next() rune {
	r, size := c.peek()
	c.pos += size
	return r
}

func (c *scanner) rest() string { return c.text[c.pos:] }

// accept consumes the next rune when it is r.
func (c *scanner) accept(r rune) bool {
	got, size := c.peek()
	if got != r {
		return false
	}
	c.pos += size
	return true
}

// acceptAll consumes the runes of word, whatever their case, or nothing.
func (c *scanner) acceptAll(word string) bool {
	start := c.pos
	for _, want := range word {
		if unicode.ToLower(c.next()) != want {
			c.pos = start
			return false
		}
	}
	return true
}

// spaces skips white space and reports whether there was any.
func (c *scanner) spaces() bool {
	start := c.pos
	for c.accept(' ') {
	}
	return c.pos > start
}

// diameterSign skips a sign that marks a diameter, and the spaces about it.
func (c *scanner) diameterSign() {
	c.spaces()
	if c.accept('⌀') {
		c.spaces()
	}
}

// fold maps a rune to the one that the parsers know it by.
func fold(r rune) rune {
	switch {
	case r >= '！' && r <= '～':
		return r - '！' + '!'
	case unicode.IsSpace(r), unicode.Is(unicode.Zs, r), r >= 0x200B && r <= 0x200D, r == 0xFEFF:
		return ' '
	}
	switch r {
	case '−', '‐', '‑', '‒', '–', '—', '―', '﹣':
		return '-'
	case '﹢':
		return '+'
	case '″', '”', '“', '〃', '˝', '‶':
		return '"'
	case '′', '’', '‘', '´', '‵':
		return '\''
	case '⁄', '∕':
		return '/'
	case 'Ø', 'ø', 'φ', 'Φ', 'ϕ', '∅', 'ɸ', 'Ф', 'ф':
		return '⌀'
	case 'μ':
		return 'µ'
	case '〜', '∼', '˜':
		return '~'
	case 'º', '˚':
		return '°'
	case '∶':
		return ':'
	}
	return r
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// vulgar holds the fractions that are one character.
func vulgar(r rune) (num, den uint64) {
	switch r {
	case '½':
		return 1, 2
	case '⅓':
		return 1, 3
	case '⅔':
		return 2, 3
	case '¼':
		return 1, 4
	case '¾':
		return 3, 4
	case '⅕':
		return 1, 5
	case '⅖':
		return 2, 5
	case '⅗':
		return 3, 5
	case '⅘':
		return 4, 5
	case '⅙':
		return 1, 6
	case '⅚':
		return 5, 6
	case '⅐':
		return 1, 7
	case '⅛':
		return 1, 8
	case '⅜':
		return 3, 8
	case '⅝':
		return 5, 8
	case '⅞':
		return 7, 8
	case '⅑':
		return 1, 9
	case '⅒':
		return 1, 10
	}
	return 0, 0
}

// problem is why a text cannot be read, before it is known what the text as a whole should have been.
type problem struct {
	rest   string
	reason string
	err    error
}

func (c *scanner) problem(reason string, err error) *problem {
	return &problem{c.rest(), reason, err}
}

// sign consumes a plus or minus and the spaces after it.
func (c *scanner) sign() (negative, signed bool) {
	switch {
	case c.accept('-'):
		negative, signed = true, true
	case c.accept('+'):
		signed = true
	}
	if signed {
		c.spaces()
	}
	return negative, signed
}

// number reads a number with an optional sign.
func (c *scanner) number() (Number, *problem) {
	start := c.pos
	negative, _ := c.sign()
	n, p := c.unsigned()
	if p != nil {
		if p.err == ErrNoNumber {
			c.pos = start
			p.rest = c.rest()
		}
		return Number{}, p
	}
	n.negative = negative && n.num != 0
	return n, nil
}

// unsigned reads a decimal, a fraction, or a whole number and a fraction.
func (c *scanner) unsigned() (Number, *problem) {
	if num, den, p := c.oneCharacterFraction(); p != nil || den != 0 {
		return Number{num: num, den: den, fraction: true}, p
	}
	n, whole, p := c.decimal()
	if p != nil || !whole {
		return n, p
	}
	if den, p := c.denominator(); p != nil || den != 0 {
		return Number{num: n.num, den: den, fraction: true}, p
	}
	num, den, p := c.fractionAfterWhole()
	if p != nil || den == 0 {
		return n, p
	}
	hi, lo := bits.Mul64(n.num, den)
	sum, carry := bits.Add64(lo, num, 0)
	if hi != 0 || carry != 0 {
		return Number{}, c.problem("number is too large", ErrRange)
	}
	return Number{num: sum, den: den, fraction: true}, nil
}

// oneCharacterFraction reads ½ and its like, or ⅟ (one over) with the denominator after it.
func (c *scanner) oneCharacterFraction() (num, den uint64, p *problem) {
	r, size := c.peek()
	if r == '⅟' {
		c.pos += size
		den, whole, p := c.wholeNumber()
		if p == nil && (!whole || den == 0) {
			p = c.problem("⅟ without a denominator", nil)
		}
		return 1, den, p
	}
	num, den = vulgar(r)
	if den != 0 {
		c.pos += size
	}
	return num, den, nil
}

// denominator reads a slash and a whole number, or nothing: the slash in .370/.372 and 12/12.5 parts two sizes.
func (c *scanner) denominator() (uint64, *problem) {
	start := c.pos
	if !c.accept('/') {
		return 0, nil
	}
	den, whole, p := c.wholeNumber()
	if p != nil {
		return 0, p
	}
	if r, _ := c.peek(); !whole || ((r == '.' || r == ',') && c.digitAfterNext()) {
		c.pos = start
		return 0, nil
	}
	if den == 0 {
		c.pos = start
		return 0, c.problem("fraction over zero", nil)
	}
	return den, nil
}

// fractionAfterWhole reads the fraction of 1-1/4, 1 1/4, 1½ or 1 ½, or nothing.
func (c *scanner) fractionAfterWhole() (num, den uint64, p *problem) {
	start := c.pos
	if !c.spaces() {
		c.accept('-')
	}
	if num, den, p = c.oneCharacterFraction(); p != nil || den != 0 {
		return num, den, p
	}
	if c.pos == start {
		return 0, 0, nil
	}
	num, whole, p := c.wholeNumber()
	if p == nil && whole {
		den, p = c.denominator()
	}
	if p != nil {
		return 0, 0, p
	}
	if den == 0 {
		c.pos = start
		return 0, 0, nil
	}
	if num >= den {
		c.pos = start
		return 0, 0, c.problem("the fraction after a whole number is not below one", nil)
	}
	return num, den, nil
}

func (c *scanner) digitAfterNext() bool {
	ahead := *c
	ahead.next()
	r, _ := ahead.peek()
	return isDigit(r)
}

// wholeNumber reads digits; whole is false when there are none.
func (c *scanner) wholeNumber() (n uint64, whole bool, p *problem) {
	start := c.pos
	for {
		r, size := c.peek()
		if !isDigit(r) {
			return n, c.pos > start, nil
		}
		c.pos += size
		if n > (math.MaxUint64-9)/10 {
			c.pos = start
			return 0, false, c.problem("number is too large", ErrRange)
		}
		n = n*10 + uint64(r-'0')
	}
}

// literal is the layout of a decimal number: how many digits stand between its points and commas.
type literal struct {
	digits     [8]int
	separators [8]rune
	parts      int // separators; there is one more group of digits
	leadZero   bool
	trailing   bool // a point with no digit after it
	end        int
}

// decimal reads digits with points and commas; whole says there was neither, so that a fraction may follow.
func (c *scanner) decimal() (n Number, whole bool, p *problem) {
	start := c.pos
	l, p := c.literal()
	if p != nil {
		return Number{}, false, p
	}
	point, ambiguous, ok := l.decimalPoint(c.comma)
	if !ok {
		return Number{}, false, c.problem("more than one decimal point or comma", nil)
	}
	n, p = c.value(l, point)
	if p != nil {
		return Number{}, false, p
	}
	if ambiguous {
		c.pos = start
		thousands, p := c.value(l, l.parts)
		if p != nil {
			return Number{}, false, p
		}
		err := &AmbiguousError{Text: c.text[start:l.end], AsDecimal: n, AsThousands: thousands}
		c.pos = start
		return Number{}, false, c.problem("a comma before three digits may be a decimal comma or part thousands", err)
	}
	return n, l.parts == 0 && !l.trailing, nil
}

// literal measures the number ahead without consuming it.
func (c *scanner) literal() (literal, *problem) {
	var l literal
	ahead := *c
	first, _ := ahead.peek()
	l.leadZero = first == '0'
	for {
		r, size := ahead.peek()
		switch {
		case isDigit(r):
			l.digits[l.parts]++
			ahead.pos += size
			continue
		case (r == '.' || r == ',') && ahead.digitAfterNext():
			if l.parts == len(l.separators)-1 {
				return l, c.problem("more than one decimal point or comma", nil)
			}
			l.separators[l.parts] = r
			l.parts++
			ahead.pos += size
			continue
		case r == '.' && l.parts == 0 && l.digits[0] > 0:
			afterPoint := ahead
			afterPoint.next()
			if following, _ := afterPoint.peek(); following != '.' {
				l.trailing = true
				ahead.pos += size
			}
		}
		break
	}
	if l.parts == 0 && l.digits[0] == 0 {
		return l, c.problem("no number", ErrNoNumber)
	}
	l.end = ahead.pos
	return l, nil
}

// decimalPoint returns which separator is the decimal point (l.parts for none), whether the other reading of a single
// comma is as good, and whether the layout is a number at all.
func (l *literal) decimalPoint(comma Comma) (point int, ambiguous, ok bool) {
	last := l.parts - 1
	switch {
	case l.parts == 0:
		return 0, false, true
	case l.parts == 1 && l.separators[0] == ',' && l.grouped(1):
		if comma == ThousandsComma {
			return 1, false, true
		}
		return 0, comma == UnknownComma, true
	case l.parts == 1:
		return 0, false, true
	case l.separators[last] != l.separators[0]:
		return last, false, l.grouped(last)
	}
	// 1,250,000 can only be thousands; 1.250.000 is more often a date or a version than a number, and is refused.
	return l.parts, false, l.separators[0] == ',' && l.grouped(l.parts)
}

// grouped reports whether the first n separators are alike and part thousands.
func (l *literal) grouped(n int) bool {
	if l.digits[0] < 1 || l.digits[0] > 3 || l.leadZero {
		return false
	}
	for i := range n {
		if l.separators[i] != l.separators[0] || l.digits[i+1] != 3 {
			return false
		}
	}
	return true
}

// value consumes the literal, with its decimal point at the separator of that index.
func (c *scanner) value(l literal, point int) (Number, *problem) {
	n := Number{den: 1}
	start, separators, full := c.pos, 0, false
	for c.pos < l.end {
		r := c.next()
		if !isDigit(r) {
			separators++
			continue
		}
		digit, decimal := uint64(r-'0'), separators > point
		room := !full && n.num <= (math.MaxUint64-9)/10 && n.den <= math.MaxUint64/100
		switch {
		case room:
			n.num = n.num*10 + digit
			if decimal {
				n.den *= 10
			}
		case !decimal:
			c.pos = start
			return Number{}, c.problem("number is too large", ErrRange)
		default:
			full = true
			n.more = n.more || digit != 0
		}
		if decimal && n.decimals < math.MaxUint8 {
			n.decimals++
		}
	}
	return n, nil
}

// Fold returns s with the many ways to write a sign folded into one, as all parsers of this package see it: full-width
// characters become ASCII, every space a plain one, every minus, hyphen and dash "-", diameter signs "⌀", inch marks '"',
// and fraction slashes "/". Letters keep their case. It is for parsers built on this package.
func Fold(s string) string {
	folded := false
	for _, r := range s {
		folded = folded || r >= utf8.RuneSelf || (r >= '\t' && r <= '\r')
	}
	if !folded {
		return s
	}
	c := scanner{text: s}
	b := make([]byte, 0, len(s))
	for r := c.next(); r != eof; r = c.next() {
		b = utf8.AppendRune(b, r)
	}
	return string(b)
}
