package measure

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// What a text can be refused for. Each is found with [errors.Is] inside the [*ParseError] that a parser returns.
var (
	// ErrNoUnit: a number stands there without a unit, and no [Notation] supplies one.
	ErrNoUnit = errors.New("no unit")
	// ErrNoNumber: there is no number where one is needed.
	ErrNoNumber = errors.New("no number")
	// ErrRange: the number is beyond the range of the type.
	ErrRange = errors.New("out of range")
	// ErrInexact: the number is finer than a picometre; see [*InexactError].
	ErrInexact = errors.New("finer than a picometre")
	// ErrAmbiguous: the text can be read in more than one way.
	ErrAmbiguous = errors.New("can be read in more than one way")
)

// ParseError reports a text that cannot be read. It is the error of every parser of this package.
type ParseError struct {
	// What was to be read, such as "length".
	What string
	// Input is the whole text.
	Input string
	// Rest is the part of Input that was not understood; empty at its end.
	Rest string
	// Reason says what is wrong, in a few words.
	Reason string
	// Accepts says what is accepted, with examples.
	Accepts string
	// Err is the cause where there is one: a sentinel such as [ErrNoUnit], or a typed error such as [*RangeError].
	Err error
}

func (e *ParseError) Error() string {
	var b strings.Builder
	b.WriteString(e.What + " " + quote(e.Input) + ": " + e.Reason)
	if e.Rest != "" && e.Rest != e.Input {
		b.WriteString(" at " + quote(e.Rest))
	}
	if e.Accepts != "" {
		b.WriteString("; write " + e.Accepts)
	}
	return b.String()
}

// Unwrap returns the cause.
func (e *ParseError) Unwrap() error { return e.Err }

// quote quotes s, cut to a length that fits in a message.
func quote(s string) string {
	const longest = 80
	if len(s) > longest {
		return strconv.Quote(strings.ToValidUTF8(s[:longest], "")) + "..."
	}
	return strconv.Quote(s)
}

// RangeError reports a number that is no Length: not a number, infinite, or beyond ±1 km. It wraps [ErrRange].
type RangeError struct {
	// Value is the number, counted in Unit.
	Value float64
	Unit  string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%v %s is not a length of at most 1 km; check the number and its unit", e.Value, e.Unit)
}

// Unwrap returns [ErrRange].
func (e *RangeError) Unwrap() error { return ErrRange }

// InexactError reports a number that no whole count of picometres holds, such as 1/3 in or 0.1234567891 mm. It wraps
// [ErrInexact].
type InexactError struct {
	// Number is the number as it was read, counted in Unit.
	Number Number
	Unit   Unit
	// Nearest is the nearest Length, for a caller who decides to round.
	Nearest Length
}

func (e *InexactError) Error() string {
	return fmt.Sprintf("%v %v is no whole number of picometres; the nearest length is %v", e.Number, e.Unit, e.Nearest)
}

// Unwrap returns [ErrInexact].
func (e *InexactError) Unwrap() error { return ErrInexact }

// AmbiguousError reports a comma that may be a decimal comma or may separate thousands, as in "1,250". It wraps
// [ErrAmbiguous]. A [Notation] with a [Comma] settles it.
type AmbiguousError struct {
	// Text is the number as written.
	Text string
	// AsDecimal and AsThousands are the two readings: 1.25 and 1250.
	AsDecimal, AsThousands Number
}

func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%s may be %v or %v; write a decimal point, or leave the comma out", quote(e.Text), e.AsDecimal, e.AsThousands)
}

// Unwrap returns [ErrAmbiguous].
func (e *AmbiguousError) Unwrap() error { return ErrAmbiguous }
