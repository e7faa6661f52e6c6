package measure

import (
	"math"
	"math/bits"
)

// Length is an exact length: a whole number of picometres. It is comparable and may be a map key.
//
// The zero Length is a real length of nothing. "Not given" is never a zero Length; it is the zero [Dim].
//
// One inch is exactly 25.4 mm (International Yard and Pound agreement, 1959), so 1 in = 25,400,000,000 pm,
// 1 thou = 25,400,000 pm and 1/512 in = 49,609,375 pm are all whole: every decimal inch to eight places, every
// millimetre to nine places and every binary fraction of an inch down to 1/512 is held exactly, and so are their
// sums. 1/1024 in is not (24,804,687.5 pm).
//
// Lengths of up to [MaxLength] either way are accepted by the parsers and constructors. Sums saturate at
// ±[MaxLength] and then report Overflowed; nothing wraps around.
//
// A Length is a struct, not a named integer, so that a bare 5 or the product of two lengths does not compile:
// a count of picometres overflows 64 bits when squared above 3 mm. Areas and volumes are computed in floating
// point, with the unit in the name.
type Length struct{ pm int64 }

const (
	pmPerMicrometre = 1_000_000
	pmPerMillimetre = 1_000_000_000
	pmPerInch       = 25_400_000_000
	pmPerThou       = pmPerInch / 1000

	maxPM = 1_000_000_000_000_000 // 1 km
)

// MaxLength is the longest Length, 1 km. A sum that reaches it has overflowed.
var MaxLength = Length{maxPM}

func saturate(pm int64) Length { return Length{max(-maxPM, min(maxPM, pm))} }

// Picometres returns n pm.
func Picometres(n int64) Length { return saturate(n) }

// Micrometres returns n µm.
func Micrometres(n int64) Length { return scaled(n, pmPerMicrometre) }

// Millimetres returns n mm.
func Millimetres(n int64) Length { return scaled(n, pmPerMillimetre) }

// Thou returns n thousandths of an inch (mils).
func Thou(n int64) Length { return scaled(n, pmPerThou) }

// Inches returns n in.
func Inches(n int64) Length { return scaled(n, pmPerInch) }

func scaled(n, unit int64) Length {
	if n > maxPM/unit || n < -maxPM/unit {
		if n < 0 {
			return Length{-maxPM}
		}
		return Length{maxPM}
	}
	return Length{n * unit}
}

// FromMillimetres returns the Length nearest to x mm, half a picometre going away from zero. It reports an error
// when x is not a number, infinite or beyond [MaxLength].
func FromMillimetres(x float64) (Length, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) || math.Abs(x) > maxPM/pmPerMillimetre {
		return Length{}, &RangeError{Value: x, Unit: "mm"}
	}
	return Length{int64(math.Round(x * pmPerMillimetre))}, nil
}

// Picometres returns the exact count of picometres.
func (l Length) Picometres() int64 { return l.pm }

// Millimetres returns the float64 nearest to the length in mm.
func (l Length) Millimetres() float64 { return float64(l.pm) / pmPerMillimetre }

// Inches returns the float64 nearest to the length in inches.
func (l Length) Inches() float64 { return float64(l.pm) / pmPerInch }

// Add returns l + m, saturating at ±[MaxLength].
func (l Length) Add(m Length) Length { return saturate(l.pm + m.pm) }

// Sub returns l − m, saturating at ±[MaxLength].
func (l Length) Sub(m Length) Length { return saturate(l.pm - m.pm) }

// Neg returns −l.
func (l Length) Neg() Length { return Length{-l.pm} }

// Abs returns the magnitude of l.
func (l Length) Abs() Length { return Length{max(l.pm, -l.pm)} }

// MulInt returns n × l, saturating at ±[MaxLength].
func (l Length) MulInt(n int64) Length {
	negative := (l.pm < 0) != (n < 0)
	hi, lo := bits.Mul64(magnitude(l.pm), magnitude(n))
	if hi != 0 || lo > maxPM {
		lo = maxPM
	}
	if negative {
		return Length{-int64(lo)}
	}
	return Length{int64(lo)}
}

// MulRatio returns l × num/den to the nearest picometre, half going away from zero, saturating at ±[MaxLength].
// It panics when den is zero, as integer division does.
func (l Length) MulRatio(num, den int64) Length {
	negative := (l.pm < 0) != (num < 0) != (den < 0)
	d := magnitude(den)
	hi, lo := bits.Mul64(magnitude(l.pm), magnitude(num))
	lo, carry := bits.Add64(lo, d/2, 0)
	hi += carry
	var quotient uint64 = maxPM
	if hi < d {
		quotient, _ = bits.Div64(hi, lo, d)
		quotient = min(quotient, maxPM)
	}
	if negative {
		return Length{-int64(quotient)}
	}
	return Length{int64(quotient)}
}

// DivRound returns l ÷ n to the nearest picometre, half going away from zero. It panics when n is zero.
func (l Length) DivRound(n int64) Length { return l.MulRatio(1, n) }

// Half returns l ÷ 2: from an amount on the diameter to the amount per side.
func (l Length) Half() Length { return Length{l.pm/2 + l.pm%2} } // the remainder is -1, 0 or 1: half goes away from zero

// Compare returns −1, 0 or +1 as l is shorter than, equal to or longer than m.
func (l Length) Compare(m Length) int {
	switch {
	case l.pm < m.pm:
		return -1
	case l.pm > m.pm:
		return 1
	}
	return 0
}

// Less reports whether l is shorter than m.
func (l Length) Less(m Length) bool { return l.pm < m.pm }

// Sign returns −1, 0 or +1.
func (l Length) Sign() int { return l.Compare(Length{}) }

// IsZero reports whether l is exactly nothing.
func (l Length) IsZero() bool { return l.pm == 0 }

// Overflowed reports whether l stands at the end of the range, as an overflowing sum does.
func (l Length) Overflowed() bool { return l.pm >= maxPM || l.pm <= -maxPM }

// Min returns the shorter of l and m.
func Min(l, m Length) Length { return Length{min(l.pm, m.pm)} }

// Max returns the longer of l and m.
func Max(l, m Length) Length { return Length{max(l.pm, m.pm)} }

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}
