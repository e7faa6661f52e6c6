package measure

import (
	"math/bits"
	"strconv"
)

// Rounding says which way a number goes that lies between two steps.
type Rounding uint8

const (
	// NearestEven goes to the nearer step, and from the middle to the even one: 1.625 to two places is 1.62, and 1.655
	// is 1.66 (ASME A112.18.1-2018/CSA B125.1-18, annex A.2).
	NearestEven Rounding = iota
	// Down goes toward minus infinity.
	Down
	// Up goes toward plus infinity.
	Up
)

// mostDecimals is the number of decimals beyond which the printers print no more.
const mostDecimals = 9

// AppendText appends the length as [Length.String] gives it. It never fails.
func (l Length) AppendText(b []byte) ([]byte, error) { return append(l.appendNumber(b), " mm"...), nil }

func (l Length) appendNumber(b []byte) []byte { return appendNano(b, l.pm) }

// appendNano appends n billionths as a plain decimal without trailing zeros.
func appendNano(b []byte, n int64) []byte {
	if n < 0 {
		b = append(b, '-')
	}
	m := magnitude(n)
	return appendDecimal(b, m/1_000_000_000, m%1_000_000_000, 1_000_000_000)
}

// String returns the exact length as the shortest decimal of millimetres, such as "13.6 mm". [ParseLength] reads it
// back to the same Length.
func (l Length) String() string {
	var buf [24]byte
	b, _ := l.AppendText(buf[:0])
	return string(b)
}

// MarshalText implements [encoding.TextMarshaler] with the text of [Length.String].
func (l Length) MarshalText() ([]byte, error) { return l.AppendText(make([]byte, 0, 16)) }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseLength].
func (l *Length) UnmarshalText(text []byte) error {
	parsed, err := ParseLength(string(text))
	if err != nil {
		return err
	}
	*l = parsed
	return nil
}

// RoundTo returns the multiple of step that l rounds to. The sign of step does not matter; a zero step returns l.
func (l Length) RoundTo(step Length, mode Rounding) Length {
	s := magnitude(step.pm)
	if s == 0 {
		return l
	}
	q, _ := divide(magnitude(l.pm), 1, s, l.pm < 0, mode)
	return Length{int64(s)}.MulInt(signed(q, l.pm < 0))
}

func signed(q uint64, negative bool) int64 {
	if negative {
		return -int64(q)
	}
	return int64(q)
}

// divide returns the magnitude of ±(a × b / den), rounded, and whether that is exact. The quotient must fit 63 bits.
func divide(a, b, den uint64, negative bool, mode Rounding) (q uint64, exact bool) {
	hi, lo := bits.Mul64(a, b)
	q, r := bits.Div64(hi, lo, den)
	if r == 0 {
		return q, true
	}
	away := false
	switch mode {
	case NearestEven:
		away = r > den-r || (r == den-r && q%2 == 1)
	case Down:
		away = negative
	case Up:
		away = !negative
	}
	if away {
		q++
	}
	return q, false
}

var powersOfTen = [mostDecimals + 1]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9}

// fixed is a number rounded to a fixed count of decimals.
type fixed struct {
	units    int64 // in the last decimal
	decimals int
}

// in returns l in units of unit picometres.
func (l Length) in(unit uint64, decimals int, mode Rounding) (f fixed, exact bool) {
	decimals = max(0, min(mostDecimals, decimals))
	q, exact := divide(magnitude(l.pm), powersOfTen[decimals], unit, l.pm < 0, mode)
	return fixed{signed(q, l.pm < 0), decimals}, exact
}

func (f fixed) String() string {
	var buf [32]byte
	b := buf[:0]
	if f.units < 0 {
		b = append(b, '-')
	}
	one := powersOfTen[f.decimals]
	m := magnitude(f.units)
	b = strconv.AppendUint(b, m/one, 10)
	if f.decimals == 0 {
		return string(b)
	}
	b = append(b, '.')
	for frac := m % one; one > 1; frac %= one {
		one /= 10
		b = append(b, byte('0'+frac/one))
	}
	return string(b)
}

// FormatMillimetres returns the length in mm with that many decimals (0 to 9), without a unit, rounded half to even,
// and whether the text is exact. A length that rounds to nothing has no sign.
func (l Length) FormatMillimetres(decimals int) (text string, exact bool) {
	f, exact := l.in(pmPerMillimetre, decimals, NearestEven)
	return f.String(), exact
}

// FormatInches returns the length in inches with that many decimals (0 to 9), without a unit and with a zero before the
// point, rounded half to even, and whether the text is exact.
func (l Length) FormatInches(decimals int) (text string, exact bool) {
	f, exact := l.in(pmPerInch, decimals, NearestEven)
	return f.String(), exact
}

// FormatThou returns the length in thousandths of an inch with that many decimals (0 to 9), without a unit, rounded
// half to even, and whether the text is exact.
func (l Length) FormatThou(decimals int) (text string, exact bool) {
	f, exact := l.in(pmPerThou, decimals, NearestEven)
	return f.String(), exact
}
