package measure

import (
	"math"
	"math/bits"
	"strconv"
)

// Number is an exact number as read from a text, before a unit makes it a length: a decimal or a fraction.
//
// The zero Number is 0. It holds 18 decimals; non-zero digits after those are remembered only as "not exact".
type Number struct {
	num, den uint64 // a den of 0 stands for 1, so that the zero Number is 0
	decimals uint8
	negative bool
	fraction bool
	more     bool // non-zero digits were dropped
}

// ParseNumber reads a number at the beginning of s, after spaces and a diameter sign, and returns what stands after
// it, without the spaces between. It accepts what [ParseLength] accepts before the unit.
//
// It is for a number in one place and its unit in another; see [Number.In]. The error is a [*ParseError].
func ParseNumber(s string) (n Number, rest string, err error) {
	return Notation{}.ParseNumber(s)
}

// ParseNumber is [ParseNumber] with the notation's reading of commas.
func (f Notation) ParseNumber(s string) (n Number, rest string, err error) {
	c := scanner{text: s, comma: f.Comma}
	c.diameterSign()
	n, p := c.number()
	if p != nil {
		return Number{}, s, p.parseError("number", s, acceptsNumber)
	}
	c.spaces()
	return n, c.rest(), nil
}

func (n Number) denominator() uint64 { return max(n.den, 1) }

// Decimals returns how many digits were written after the decimal point: 2 for 13.60. It is what the writer's
// resolution can be read from.
func (n Number) Decimals() int { return int(n.decimals) }

// IsFraction reports whether the number was written as a fraction.
func (n Number) IsFraction() bool { return n.fraction }

// Sign returns −1, 0 or +1.
func (n Number) Sign() int {
	switch {
	case n.negative:
		return -1
	case n.num == 0 && !n.more:
		return 0
	}
	return 1
}

// Float64 returns about the nearest float64: two roundings, relative error below 3e−16.
func (n Number) Float64() float64 {
	x := float64(n.num) / float64(n.denominator())
	if n.negative {
		return -x
	}
	return x
}

// String returns the number as a plain decimal, or as num/den where it was written as a fraction.
func (n Number) String() string {
	var b []byte
	if n.negative {
		b = append(b, '-')
	}
	if n.fraction {
		b = strconv.AppendUint(b, n.num, 10)
		b = append(b, '/')
		return string(strconv.AppendUint(b, n.denominator(), 10))
	}
	b = appendDecimal(b, n.num/n.denominator(), n.num%n.denominator(), n.denominator())
	if n.more {
		b = append(b, "..."...)
	}
	return string(b)
}

// appendDecimal appends whole.frac, where frac counts 1/one parts and one is a power of ten, without trailing zeros.
func appendDecimal(b []byte, whole, frac, one uint64) []byte {
	b = strconv.AppendUint(b, whole, 10)
	if frac == 0 {
		return b
	}
	b = append(b, '.')
	for frac != 0 {
		one /= 10
		b = append(b, byte('0'+frac/one))
		frac %= one
	}
	return b
}

// In returns the number of units as a Length, to the nearest picometre, half to even, and whether that is exact. The
// error is [ErrNoUnit] for no unit and a [*RangeError] beyond [MaxLength].
func (n Number) In(unit Unit) (l Length, exact bool, err error) {
	if unit.picometres() == 0 {
		return Length{}, false, ErrNoUnit
	}
	pm, exact, ok := n.scale(unit.picometres())
	if !ok || pm > maxPM || pm < -maxPM {
		return Length{}, false, &RangeError{Value: n.Float64(), Unit: unit.String()}
	}
	return Length{pm}, exact, nil
}

// exactly is In that refuses to round.
func (n Number) exactly(unit Unit) (Length, error) {
	l, exact, err := n.In(unit)
	if err == nil && !exact {
		err = &InexactError{Number: n, Unit: unit, Nearest: l}
	}
	if err != nil {
		return Length{}, err
	}
	return l, nil
}

// scale returns n × unit to the nearest whole number, half to even; ok is false when that leaves no room to add.
func (n Number) scale(unit uint64) (value int64, exact, ok bool) {
	den := n.denominator()
	hi, lo := bits.Mul64(n.num, unit)
	if hi >= den {
		return 0, false, false
	}
	q, r := bits.Div64(hi, lo, den)
	exact = r == 0 && !n.more
	above := r > den-r || (r == den-r && n.more)
	if above || (r == den-r && q%2 == 1) {
		q++
	}
	if q > math.MaxInt64/4 {
		return 0, false, false
	}
	if n.negative {
		return -int64(q), exact, true
	}
	return int64(q), exact, true
}

// FromFloat returns x units, taken as the decimal of at most 15 significant digits that a spreadsheet program shows
// for x: its cell of 0.335 holds 0.33500000000000002 and gives 0.335 exactly.
//
// The error is [ErrNoUnit], a [*RangeError] (also for not-a-number and infinity), or an [*InexactError] with the nearest
// Length where the 15 digits go beyond the picometre, as the result of a division does.
func FromFloat(x float64, unit Unit) (Length, error) {
	if unit.picometres() == 0 {
		return Length{}, ErrNoUnit
	}
	if math.IsNaN(x) || math.Abs(x) > maxPM {
		return Length{}, &RangeError{Value: x, Unit: unit.String()}
	}
	return numberOf(x).exactly(unit)
}

// numberOf returns the decimal of 15 significant digits nearest to x, which is at most 1e15.
func numberOf(x float64) Number {
	var buf [40]byte
	text := strconv.AppendFloat(buf[:0], x, 'e', 14, 64) // [-]d.dddddddddddddde±xx
	n := Number{den: 1}
	exponent := 0
	for i, c := range text {
		switch {
		case c == '-':
			n.negative = true
		case isDigit(rune(c)):
			n.num = n.num*10 + uint64(c-'0')
		case c == 'e':
			exponent, _ = strconv.Atoi(string(text[i+1:])) // AppendFloat writes a whole number here
		}
		if c == 'e' {
			break
		}
	}
	n.negative = n.negative && n.num != 0
	for exponent -= 14; exponent < 0 && n.num%10 == 0 && n.num != 0; exponent++ {
		n.num /= 10
	}
	for ; exponent > 0; exponent-- {
		n.num *= 10
	}
	for ; exponent < 0; exponent++ {
		if n.den > math.MaxUint64/100 {
			n.more = n.more || n.num%10 != 0
			n.num /= 10
			continue
		}
		n.den *= 10
		n.decimals++
	}
	return n
}
