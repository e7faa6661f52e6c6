package measure

import (
	"encoding/json"
	"fmt"
)

// Bound is one end of an [Interval]. The zero Bound is unbounded.
type Bound struct {
	at   Length
	kind boundKind
}

type boundKind uint8

const (
	unbounded boundKind = iota
	including
	excluding
)

// Including returns a bound that belongs to the interval (a closed end).
func Including(at Length) Bound { return Bound{at, including} }

// Excluding returns a bound that does not belong to the interval (an open end).
func Excluding(at Length) Bound { return Bound{at, excluding} }

// Unbounded returns the bound of an interval that goes on for ever.
func Unbounded() Bound { return Bound{} }

// At returns where the bound is; zero when unbounded.
func (b Bound) At() Length { return b.at }

// Bounded reports whether there is a bound.
func (b Bound) Bounded() bool { return b.kind != unbounded }

// Closed reports whether the bound belongs to the interval.
func (b Bound) Closed() bool { return b.kind == including }

// Interval is a range of lengths, each end closed, open or unbounded, such as the hosel diameters for which a verdict
// holds. It is comparable, and two intervals with the same ends are equal.
//
// The zero Interval is empty.
type Interval struct {
	lower, upper Bound
	some         bool
}

// NewInterval returns the interval between the bounds. It is empty where the lower lies above the upper, or at the same
// place with either end open.
func NewInterval(lower, upper Bound) Interval {
	if lower.Bounded() && upper.Bounded() {
		c := lower.at.Compare(upper.at)
		if c > 0 || (c == 0 && !(lower.Closed() && upper.Closed())) {
			return Interval{}
		}
	}
	return Interval{lower, upper, true}
}

// Closed returns the interval from lower to upper with both ends in it.
func Closed(lower, upper Length) Interval { return NewInterval(Including(lower), Including(upper)) }

// Limits returns the closed interval between the limits of d; empty where d was not given.
func (d Dim) Limits() Interval {
	if !d.Given() {
		return Interval{}
	}
	return Closed(d.lower, d.upper)
}

// Empty reports whether no length is in the interval.
func (i Interval) Empty() bool { return !i.some }

// Lower returns the lower end; it means nothing for an empty interval.
func (i Interval) Lower() Bound { return i.lower }

// Upper returns the upper end; it means nothing for an empty interval.
func (i Interval) Upper() Bound { return i.upper }

// Contains reports whether l is in the interval.
func (i Interval) Contains(l Length) bool {
	if !i.some {
		return false
	}
	if c := l.Compare(i.lower.at); i.lower.Bounded() && (c < 0 || (c == 0 && !i.lower.Closed())) {
		return false
	}
	if c := l.Compare(i.upper.at); i.upper.Bounded() && (c > 0 || (c == 0 && !i.upper.Closed())) {
		return false
	}
	return true
}

// Intersect returns the lengths that are in both intervals.
func (i Interval) Intersect(j Interval) Interval {
	if !i.some || !j.some {
		return Interval{}
	}
	return NewInterval(tighter(i.lower, j.lower, 1), tighter(i.upper, j.upper, -1))
}

// tighter returns the bound that leaves less: the higher one when direction is 1, the lower one when it is −1.
func tighter(a, b Bound, direction int) Bound {
	switch {
	case !a.Bounded():
		return b
	case !b.Bounded():
		return a
	}
	switch c := a.at.Compare(b.at) * direction; {
	case c > 0 || (c == 0 && !a.Closed()):
		return a
	}
	return b
}

// Width returns upper − lower, and false for an interval that is unbounded or empty.
func (i Interval) Width() (Length, bool) {
	if !i.some || !i.lower.Bounded() || !i.upper.Bounded() {
		return Length{}, false
	}
	return i.upper.at.Sub(i.lower.at), true
}

// Inward returns the closed interval from the first to the last multiple of step that lie in i: what a display of that step
// can show of it. An end that does not belong to i comes out a whole step further in where it is such a multiple, an
// unbounded end stays so, and an interval between two steps is empty. The sign of step does not matter; a step of nothing
// is taken as a picometre, the finest there is, so that only open ends move.
func (i Interval) Inward(step Length) Interval {
	if !i.some {
		return i
	}
	if step = step.Abs(); step.IsZero() {
		step = Length{1}
	}
	lower, upper := i.lower, i.upper
	if lower.Bounded() {
		at := lower.at.RoundTo(step, Up)
		if at == lower.at && !lower.Closed() {
			at = at.Add(step)
		}
		lower = Including(at)
	}
	if upper.Bounded() {
		at := upper.at.RoundTo(step, Down)
		if at == upper.at && !upper.Closed() {
			at = at.Sub(step)
		}
		upper = Including(at)
	}
	for _, end := range [...]Bound{lower, upper} {
		// At the end of the range a sum saturates, and is then no multiple of the step.
		if end.Bounded() && (!i.Contains(end.at) || end.at.RoundTo(step, Down) != end.at) {
			return Interval{}
		}
	}
	return NewInterval(lower, upper)
}

// FormatMillimetres returns the ends in mm with that many decimals (0 to 9), without a unit, rounded inward and always
// inclusive: both printed sizes lie in the interval, and so does every size between, whether its own ends are open or
// closed. The text of an unbounded end is empty. ok is false, and the texts empty, where the interval is empty or holds
// no size of so few decimals; use more.
func (i Interval) FormatMillimetres(decimals int) (lower, upper string, ok bool) {
	return i.format(pmPerMillimetre, decimals)
}

// FormatInches is [Interval.FormatMillimetres] in inches, with a zero before the point.
func (i Interval) FormatInches(decimals int) (lower, upper string, ok bool) {
	return i.format(pmPerInch, decimals)
}

func (i Interval) format(unit uint64, decimals int) (lower, upper string, ok bool) {
	if !i.some {
		return "", "", false
	}
	from, exactFrom := i.lower.at.in(unit, decimals, Up)
	if exactFrom && !i.lower.Closed() {
		from.units++
	}
	to, exactTo := i.upper.at.in(unit, decimals, Down)
	if exactTo && !i.upper.Closed() {
		to.units--
	}
	if i.lower.Bounded() && i.upper.Bounded() && from.units > to.units {
		return "", "", false
	}
	if i.lower.Bounded() {
		lower = from.String()
	}
	if i.upper.Bounded() {
		upper = to.String()
	}
	return lower, upper, true
}

// String returns the interval in the usual notation, such as "[12.7 mm, 13.6 mm)", "(-∞, 13.6 mm]" or "empty".
func (i Interval) String() string {
	if !i.some {
		return "empty"
	}
	lower, upper := "(-∞", "∞)"
	if i.lower.Bounded() {
		lower = "(" + i.lower.at.String()
		if i.lower.Closed() {
			lower = "[" + i.lower.at.String()
		}
	}
	if i.upper.Bounded() {
		upper = i.upper.at.String() + ")"
		if i.upper.Closed() {
			upper = i.upper.at.String() + "]"
		}
	}
	return lower + ", " + upper
}

type intervalJSON struct {
	Lower     *Length `json:"lower,omitempty"`
	LowerOpen bool    `json:"lower_open,omitempty"`
	Upper     *Length `json:"upper,omitempty"`
	UpperOpen bool    `json:"upper_open,omitempty"`
}

// MarshalJSON returns {"lower":"12.7 mm","upper":"13.6 mm","upper_open":true}. An end that is left out is unbounded, an
// end without its "open" is closed, and null is the empty interval.
func (i Interval) MarshalJSON() ([]byte, error) {
	if !i.some {
		return []byte("null"), nil
	}
	var j intervalJSON
	if i.lower.Bounded() {
		j.Lower, j.LowerOpen = &i.lower.at, !i.lower.Closed()
	}
	if i.upper.Bounded() {
		j.Upper, j.UpperOpen = &i.upper.at, !i.upper.Closed()
	}
	return json.Marshal(j)
}

// UnmarshalJSON reads what [Interval.MarshalJSON] writes.
func (i *Interval) UnmarshalJSON(data []byte) error {
	var j *intervalJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return fmt.Errorf("interval: %w", err)
	}
	if j == nil {
		*i = Interval{}
		return nil
	}
	*i = NewInterval(bound(j.Lower, j.LowerOpen), bound(j.Upper, j.UpperOpen))
	return nil
}

func bound(at *Length, open bool) Bound {
	switch {
	case at == nil:
		return Unbounded()
	case open:
		return Excluding(*at)
	}
	return Including(*at)
}
