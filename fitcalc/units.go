package fitcalc

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// Units is how a reader prefers lengths in sentences.
type Units uint8

const (
	// Metric puts millimetres first: 0.30 mm (.012 in).
	Metric Units = iota
	// Imperial puts decimal inches first: .012 in (0.30 mm).
	Imperial
	// Fractions is Imperial with lengths such as a ferrule's in sixty-fourths where they are exact.
	Fractions
)

// onCalipers marks units in which sizes are rounded to what calipers show.
const onCalipers Units = 1 << 7

// OnCalipers returns the units with sizes rounded to what calipers show, 0.01 mm and .0005 in: for advice to a bench. A size that
// would come to nothing so is written as finely as otherwise.
func (u Units) OnCalipers() Units { return u | onCalipers }

// ParseUnits reads mm, in or frac.
func ParseUnits(s string) (Units, error) {
	switch s {
	case "mm":
		return Metric, nil
	case "in":
		return Imperial, nil
	case "frac":
		return Fractions, nil
	}
	return Metric, fmt.Errorf("units %q: write mm, in or frac", s)
}

// String returns mm, in or frac.
func (u Units) String() string { return nameOf(unitNames[:], u&^onCalipers) }

var unitNames = [...]string{"mm", "in", "frac"}

// UnmarshalText implements [encoding.TextUnmarshaler] by [ParseUnits].
func (u *Units) UnmarshalText(text []byte) (err error) {
	*u, err = ParseUnits(string(text))
	return err
}

// MarshalText implements [encoding.TextMarshaler].
func (u Units) MarshalText() ([]byte, error) { return []byte(u.String()), nil }

// Notation is how a language writes lengths.
type Notation struct {
	// Decimal is the mark before decimals, a point where it is empty.
	Decimal string
	// Under says that a length is under {size}, the least that is written.
	Under string
}

var english = Notation{Decimal: ".", Under: "under {size}"}

// Number returns a number that is written with a decimal point in the notation.
func (n Notation) Number(text string) string {
	if n.Decimal == "" || n.Decimal == "." {
		return text
	}
	return strings.Replace(text, ".", n.Decimal, 1)
}

func (n Notation) under(text string) string {
	return strings.Replace(n.Under, "{size}", n.Number(text), 1)
}

// Show writes a length for reading, rounded to 0.001 mm and .0001 in, the preferred unit first.
func (u Units) Show(l measure.Length) string { return u.ShowIn(l, english) }

// ShowIn is [Units.Show] in a language's notation.
func (u Units) ShowIn(l measure.Length, n Notation) string {
	mm, inches := l, l
	if u&onCalipers != 0 {
		mm, inches = roundedTo(leastMM.MulInt(10), l), roundedTo(leastInches.MulInt(5), l)
	}
	if u&^onCalipers == Metric {
		return n.mm(mm) + " (" + n.inches(inches) + ")"
	}
	return n.inches(inches) + " (" + n.mm(mm) + ")"
}

// roundedTo returns a length rounded to a step, or as it is where it would come to nothing.
func roundedTo(step, l measure.Length) measure.Length {
	if rounded := l.RoundTo(step, measure.NearestEven); !rounded.IsZero() {
		return rounded
	}
	return l
}

// ShowLength is Show for a length along the axis, where [Fractions] has its use.
func (u Units) ShowLength(l measure.Length) string { return u.ShowLengthIn(l, english) }

// ShowLengthIn is [Units.ShowLength] in a language's notation.
func (u Units) ShowLengthIn(l measure.Length, n Notation) string {
	if u&^onCalipers == Fractions {
		if f, err := l.FormatFraction(64); err == nil && f.Exact() {
			return f.String() + " (" + n.mm(l) + ")"
		}
	}
	return u.ShowIn(l, n)
}

func (n Notation) mm(l measure.Length) string {
	if tooFine(l, leastMM) {
		return n.under("0.001 mm")
	}
	text, _ := l.FormatMillimetres(3)
	return n.Number(trimZeros(text, 2)) + " mm"
}

var (
	leastMM     = measure.Micrometres(1)
	leastInches = measure.Thou(1).MulRatio(1, 10)
)

// tooFine reports whether a length would be printed as nothing though it is not.
func tooFine(l, least measure.Length) bool { return !l.IsZero() && !least.Less(l.Abs().MulInt(2)) }

// inches leaves out the zero before the point, as the trade does, and keeps it before any other mark.
func (n Notation) inches(l measure.Length) string {
	if tooFine(l, leastInches) {
		if n.Number(".") != "." {
			return n.under("0.0001 in")
		}
		return n.under(".0001 in")
	}
	text, _ := l.FormatInches(4)
	text = trimZeros(text, 3)
	if n.Number(".") != "." {
		return n.Number(text) + " in"
	}
	if rest, found := strings.CutPrefix(text, "0."); found {
		text = "." + rest
	} else if rest, found := strings.CutPrefix(text, "-0."); found {
		text = "-." + rest
	}
	return n.Number(text) + " in"
}

// trimZeros drops zeros at the end of a decimal beyond the places to keep.
func trimZeros(text string, keep int) string {
	point := strings.IndexByte(text, '.')
	if point < 0 {
		return text
	}
	least := point + 1 + keep
	for len(text) > least && text[len(text)-1] == '0' {
		text = text[:len(text)-1]
	}
	return text
}
