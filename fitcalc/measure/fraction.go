package measure

import (
	"fmt"
	"strconv"
)

// Fraction is a length as a binary fraction of an inch and what is left over:
// ±(Whole + Num/Den) in + Remainder.
type Fraction struct {
	// Negative applies to Whole and Num/Den, not to Remainder.
	Negative bool
	// Whole inches, and Num/Den in lowest terms; Den is 1 where Num is 0.
	Whole, Num, Den int64
	// Remainder is the length minus the fraction, of either sign; zero when the fraction is exact.
	Remainder Length
}

// DenominatorError reports a Denominator that no ruler of an inch has.
type DenominatorError struct{ Denominator int64 }

func (e *DenominatorError) Error() string {
	return fmt.Sprintf("an inch is not divided into %d parts here; use a power of two from 1 to 512", e.Denominator)
}

// FormatFraction returns the fraction of an inch nearest to l with a denominator of at most that, half to even. The
// denominator must be a power of two from 1 to 512, so that the remainder is exact; else it returns a
// [*DenominatorError].
func (l Length) FormatFraction(denominator int64) (Fraction, error) {
	if denominator < 1 || denominator > 512 || denominator&(denominator-1) != 0 {
		return Fraction{}, &DenominatorError{denominator}
	}
	step := pmPerInch / denominator
	q, _ := divide(magnitude(l.pm), 1, uint64(step), l.pm < 0, NearestEven)
	parts := int64(q)
	f := Fraction{Whole: parts / denominator, Num: parts % denominator, Den: denominator}
	f.Negative = l.pm < 0 && parts != 0
	rounded := parts * step
	if f.Negative {
		rounded = -rounded
	}
	f.Remainder = Length{l.pm - rounded}
	for f.Den > 1 && f.Num%2 == 0 {
		f.Num /= 2
		f.Den /= 2
	}
	return f, nil
}

// Exact reports whether the fraction is the whole length.
func (f Fraction) Exact() bool { return f.Remainder.IsZero() }

// String returns the fraction and the remainder to a ten-thousandth of an inch, such as `17/32" + .0042"`,
// `1-1/4"` or `0" - .0010"`. A remainder that rounds to nothing reads `17/32" + <.0001"`.
func (f Fraction) String() string {
	var b []byte
	if f.Negative {
		b = append(b, '-')
	}
	if f.Whole != 0 || f.Num == 0 {
		b = strconv.AppendInt(b, f.Whole, 10)
	}
	if f.Num != 0 {
		if f.Whole != 0 {
			b = append(b, '-')
		}
		b = strconv.AppendInt(b, f.Num, 10)
		b = append(b, '/')
		b = strconv.AppendInt(b, f.Den, 10)
	}
	b = append(b, '"')
	if f.Exact() {
		return string(b)
	}
	sign := " + "
	if f.Remainder.Sign() < 0 {
		sign = " - "
	}
	b = append(b, sign...)
	text, _ := f.Remainder.Abs().FormatInches(4)
	if text == "0.0000" {
		text = "0<.0001"
	}
	if text[0] == '0' {
		text = text[1:]
	}
	b = append(b, text...)
	return string(append(b, '"'))
}
