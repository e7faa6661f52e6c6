package measure

import (
	"fmt"
	"math"
	"math/big"
)

// Taper is how fast a diameter grows along a length: a whole number of parts per billion, on the diameter (not per
// side), over the length along the axis. It is comparable.
//
// The zero Taper is a parallel piece.
//
// .0075 in per inch is exactly 7,500,000 parts per billion. A rate per foot is seldom whole (.59858 in per foot is
// 49,881,666.67 ppb) and is rounded to the nearest part: less than 13 pm of diameter in an inch.
type Taper struct{ ppb int64 }

const (
	ppbPerOne = 1_000_000_000
	maxPPB    = 1000 * ppbPerOne
)

// TaperPPB returns a taper of n parts per billion, saturating at ±1000 to 1.
func TaperPPB(n int64) Taper { return Taper{max(-maxPPB, min(maxPPB, n))} }

// TaperPerInch returns the taper whose diameter grows by that much in one inch, to the nearest part per billion.
func TaperPerInch(growth Length) Taper { return TaperOver(growth, Inches(1)) }

// TaperPerFoot returns the taper whose diameter grows by that much in one foot, to the nearest part per billion.
func TaperPerFoot(growth Length) Taper { return TaperOver(growth, Inches(12)) }

// TaperOver returns the taper whose diameter grows by growth over a length along the axis, to the nearest part per
// billion. It panics when the length is zero, as integer division does.
func TaperOver(growth, over Length) Taper {
	return TaperPPB(Length{ppbPerOne}.MulRatio(growth.pm, over.pm).pm)
}

// PPB returns the exact count of parts per billion.
func (t Taper) PPB() int64 { return t.ppb }

// Ratio returns the growth of the diameter over the length, .0075 for .0075 in per inch.
func (t Taper) Ratio() float64 { return float64(t.ppb) / ppbPerOne }

// Growth returns how much the diameter grows over a length along the axis, to the nearest picometre.
func (t Taper) Growth(over Length) Length { return over.MulRatio(t.ppb, ppbPerOne) }

// IsZero reports whether the piece is parallel.
func (t Taper) IsZero() bool { return t.ppb == 0 }

// HalfAngle returns the angle between the axis and the side, in radians: atan(T/2) for a taper T on the diameter.
func (t Taper) HalfAngle() float64 { return math.Atan(t.Ratio() / 2) }

// IncludedAngle returns the angle between opposite sides, in radians: 2 atan(T/2) for a taper T on the diameter. It is
// not atan(T), which is close for small tapers only.
func (t Taper) IncludedAngle() float64 { return 2 * t.HalfAngle() }

// AppendText appends the taper as [Taper.String] gives it. It never fails.
func (t Taper) AppendText(b []byte) ([]byte, error) {
	return append(appendNano(b, t.ppb), " in/in"...), nil
}

// String returns the exact taper such as "0.0075 in/in", on the diameter. [ParseTaper] reads it back to the same Taper.
func (t Taper) String() string {
	b, _ := t.AppendText(nil)
	return string(b)
}

// MarshalText implements [encoding.TextMarshaler] with the text of [Taper.String].
func (t Taper) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseTaper].
func (t *Taper) UnmarshalText(text []byte) error {
	parsed, err := ParseTaper(string(text))
	if err != nil {
		return err
	}
	*t = parsed
	return nil
}

// TaperRangeError reports a taper whose Ratio, growth per length, is steeper than 1000 to 1, or one over no length. It wraps
// [ErrRange].
type TaperRangeError struct{ Ratio float64 }

func (e *TaperRangeError) Error() string {
	return fmt.Sprintf("a taper of %v to 1 is not within 1000 to 1; check the numbers and their units", e.Ratio)
}

// Unwrap returns [ErrRange].
func (e *TaperRangeError) Unwrap() error { return ErrRange }

const acceptsTaper = `growth of the diameter over a length, such as .0075 in/in, .0075"/in, 5/8 in/ft, 0.75 mm/m or 1:20`

// ParseTaper reads the growth of a diameter over a length: a number and unit as in [ParseLength], a slash or "per", and a
// unit of length or ft, as in .0075 in/in, 0.0075"/in, 5/8 in/ft or 0.1 mm per 10 mm; or a ratio such as 1:20. It rounds
// to the nearest part per billion; see [Taper].
//
// The error is a [*ParseError], with the causes of [ParseLength] but for [ErrInexact], or a [*TaperRangeError].
func ParseTaper(s string) (Taper, error) { return Notation{}.ParseTaper(s) }

// ParseTaper is [ParseTaper], with the notation's reading of commas.
func (f Notation) ParseTaper(s string) (Taper, error) {
	c := scanner{text: s, comma: f.Comma}
	t, p := c.taper()
	if p != nil {
		return Taper{}, p.parseError("taper", s, acceptsTaper)
	}
	return t, nil
}

func (c *scanner) taper() (Taper, *problem) {
	c.spaces()
	at := *c
	growth, p := c.number()
	if p != nil {
		return Taper{}, p
	}
	growthUnit := c.unit()
	c.spaces()
	over, overUnit := Number{num: 1}, uint64(1)
	growthPM := growthUnit.picometres()
	switch {
	case growthUnit == NoUnit && c.accept(':'):
		c.spaces()
		growthPM = 1
		over, p = c.unsigned()
	case growthUnit != NoUnit && (c.accept('/') || c.acceptAll("per")):
		over, overUnit, p = c.taperLength()
	default:
		return Taper{}, c.problem("neither a growth over a length nor a ratio", ErrNoUnit)
	}
	if p != nil {
		return Taper{}, p
	}
	c.spaces()
	if c.rest() != "" {
		return Taper{}, c.problem("more text than one taper", nil)
	}
	if over.num == 0 {
		return Taper{}, at.because(&TaperRangeError{math.Inf(1)})
	}
	ppb := growth.rat(growthPM)
	ppb.Quo(ppb, over.rat(overUnit)).Mul(ppb, big.NewRat(ppbPerOne, 1))
	if new(big.Rat).Abs(ppb).Cmp(big.NewRat(maxPPB, 1)) > 0 {
		ratio, _ := ppb.Float64()
		return Taper{}, at.because(&TaperRangeError{ratio / ppbPerOne})
	}
	return Taper{nearest(ppb)}, nil
}

// rat returns n × unit.
func (n Number) rat(unit uint64) *big.Rat {
	num := new(big.Int).SetUint64(n.num)
	num.Mul(num, new(big.Int).SetUint64(unit))
	if n.negative {
		num.Neg(num)
	}
	return new(big.Rat).SetFrac(num, new(big.Int).SetUint64(n.denominator()))
}

// nearest rounds r, which fits 62 bits, to the nearest whole number, half going away from zero.
func nearest(r *big.Rat) int64 {
	twice := new(big.Int).Lsh(r.Num(), 1)
	twice.Quo(twice, r.Denom()) // toward zero
	half := twice.Int64()
	return half/2 + half%2
}

// taperLength reads the length that the growth is over, as a number (one when there is none) of units.
func (c *scanner) taperLength() (Number, uint64, *problem) {
	c.spaces()
	n := Number{num: 1}
	if r, _ := c.peek(); isDigit(r) || r == '.' {
		var p *problem
		if n, p = c.unsigned(); p != nil {
			return n, 0, p
		}
		c.spaces()
	}
	if c.acceptAll("ft") || c.acceptAll("foot") {
		c.abbreviationPoint()
		return n, 12 * pmPerInch, nil
	}
	u := c.unit()
	if u == NoUnit {
		return n, 0, c.problem("no known unit of length", ErrNoUnit)
	}
	return n, u.picometres(), nil
}
