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

// Show writes a length for reading, rounded to 0.001 mm and .0001 in, the preferred unit first.
func (u Units) Show(l measure.Length) string {
	mm, inches := l, l
	if u&onCalipers != 0 {
		mm, inches = roundedTo(leastMM.MulInt(10), l), roundedTo(leastInches.MulInt(5), l)
	}
	if u&^onCalipers == Metric {
		return showMM(mm) + " (" + showInches(inches) + ")"
	}
	return showInches(inches) + " (" + showMM(mm) + ")"
}

// roundedTo returns a length rounded to a step, or as it is where it would come to nothing.
func roundedTo(step, l measure.Length) measure.Length {
	if rounded := l.RoundTo(step, measure.NearestEven); !rounded.IsZero() {
		return rounded
	}
	return l
}

// ShowLength is Show for a length along the axis, where [Fractions] has its use.
func (u Units) ShowLength(l measure.Length) string {
	if u&^onCalipers == Fractions {
		if f, err := l.FormatFraction(64); err == nil && f.Exact() {
			return f.String() + " (" + showMM(l) + ")"
		}
	}
	return u.Show(l)
}

func showMM(l measure.Length) string {
	if tooFine(l, leastMM) {
		return "under 0.001 mm"
	}
	text, _ := l.FormatMillimetres(3)
	return trimZeros(text, 2) + " mm"
}

var (
	leastMM     = measure.Micrometres(1)
	leastInches = measure.Thou(1).MulRatio(1, 10)
)

// tooFine reports whether a length would be printed as nothing though it is not.
func tooFine(l, least measure.Length) bool { return !l.IsZero() && !least.Less(l.Abs().MulInt(2)) }

// showInches leaves out the zero before the point, as the trade does.
func showInches(l measure.Length) string {
	if tooFine(l, leastInches) {
		return "under .0001 in"
	}
	text, _ := l.FormatInches(4)
	text = trimZeros(text, 3)
	if rest, found := strings.CutPrefix(text, "0."); found {
		return "." + rest + " in"
	}
	if rest, found := strings.CutPrefix(text, "-0."); found {
		return "-." + rest + " in"
	}
	return text + " in"
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
