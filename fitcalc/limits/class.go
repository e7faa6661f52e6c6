package limits

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

const (
	supportedClasses = "shafts d e f g h js k m n p r s and holes D E F G H JS K M N P R S in grades 5 to 14, above 0 up to 50 mm"
	acceptsClass     = "a class of ISO 286-1 such as h9, H7 or js11"
)

// UnsupportedError reports a class, grade or size that is in none of the tables here.
type UnsupportedError struct {
	// Notation is what was asked for, such as "zc9" or "ISO 2768-v".
	Notation string
	// Size is the nominal size, where one was given.
	Size measure.Dim
	// Reason says what is missing.
	Reason string
	// Supported names what there is.
	Supported string
}

func (e *UnsupportedError) Error() string {
	what := e.Notation
	if e.Size.Given() {
		what += " at " + e.Size.Nominal().String()
	}
	return fmt.Sprintf("%s: %s; supported are %s", what, e.Reason, e.Supported)
}

// Class is a tolerance class of ISO 286-1, such as h9 or H7. It is comparable.
//
// The zero Class is none, and has no limits at any size.
type Class struct {
	letters string
	grade   int
}

// ParseClass reads a class: letters, small for a shaft and capital for a hole, and a grade, with or without a space
// between. The error is a [*measure.ParseError], or an [*UnsupportedError] for letters and grades without a table.
func ParseClass(s string) (Class, error) {
	c, rest, ok := scanClass(strings.TrimSpace(measure.Fold(s)))
	if !ok || rest != "" {
		return Class{}, &measure.ParseError{What: "class", Input: s, Rest: rest, Reason: "no tolerance class", Accepts: acceptsClass}
	}
	return c, c.supported()
}

// scanClass reads letters and a grade at the beginning of folded text, known or not.
func scanClass(s string) (c Class, rest string, ok bool) {
	letters := leading(s, isLetter)
	rest = strings.TrimLeft(s[len(letters):], " ")
	digits := leading(rest, isDigit)
	if len(letters) < 1 || len(letters) > 2 || len(digits) < 1 || len(digits) > 2 {
		return Class{}, s, false
	}
	if letters == "Js" {
		letters = "JS"
	}
	grade, err := strconv.Atoi(digits)
	if err != nil {
		return Class{}, s, false
	}
	return Class{letters, grade}, strings.TrimLeft(rest[len(digits):], " "), true
}

func leading(s string, is func(byte) bool) string {
	for i := range len(s) {
		if !is(s[i]) {
			return s[:i]
		}
	}
	return s
}

func isLetter(b byte) bool { return b|0x20 >= 'a' && b|0x20 <= 'z' }
func isDigit(b byte) bool  { return b >= '0' && b <= '9' }

// Letters returns the letters of the fundamental deviation, such as "h" or "JS".
func (c Class) Letters() string { return c.letters }

// Grade returns the number of the standard tolerance grade: 7 for IT7.
func (c Class) Grade() int { return c.grade }

// Hole reports whether the class is one of holes, with capital letters.
func (c Class) Hole() bool { return c.letters != "" && c.letters[0] <= 'Z' }

// String returns the class such as "h9", which [ParseClass] reads.
func (c Class) String() string {
	if c == (Class{}) {
		return "none"
	}
	return c.letters + strconv.Itoa(c.grade)
}

// MarshalText implements [encoding.TextMarshaler] with the text of [Class.String]; empty for the zero Class.
func (c Class) MarshalText() ([]byte, error) {
	if c == (Class{}) {
		return nil, nil
	}
	return []byte(c.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseClass]; an empty text is the zero Class.
func (c *Class) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Class{}
		return nil
	}
	parsed, err := ParseClass(string(text))
	if err != nil {
		return err
	}
	*c = parsed
	return nil
}

func (c Class) unsupported(size measure.Dim, reason string) error {
	return &UnsupportedError{Notation: c.String(), Size: size, Reason: reason, Supported: supportedClasses}
}

// supported reports an error unless there is some size at which the class has limits.
func (c Class) supported() error {
	small := strings.ToLower(c.letters)
	if _, known := fundamentalDeviations[small]; (!known && small != "js") || (c.letters != small && c.letters != strings.ToUpper(small)) {
		return c.unsupported(measure.Dim{}, "no table for these letters")
	}
	if c.grade < leastGrade || c.grade > mostGrade {
		return c.unsupported(measure.Dim{}, "no table for this grade")
	}
	return nil
}

// StandardTolerance returns the width of the tolerance zone of grade IT5 to IT14 at a nominal size, on the diameter
// (ISO 286-1:2010, table 1). The error is an [*UnsupportedError].
func StandardTolerance(size measure.Length, grade int) (measure.Length, error) {
	refuse := func(reason string) (measure.Length, error) {
		return measure.Length{}, &UnsupportedError{Notation: fmt.Sprintf("IT%d", grade), Size: measure.Nominal(size), Reason: reason,
			Supported: "IT5 to IT14 above 0 up to 50 mm"}
	}
	if grade < leastGrade || grade > mostGrade {
		return refuse("no table for this grade")
	}
	step, ok := step(size)
	if !ok {
		return refuse("no table for this size")
	}
	// ISO 286-1:2010, table 1, note (from memory).
	if grade >= 14 && !measure.Millimetres(1).Less(size) {
		return refuse("not used up to 1 mm")
	}
	return measure.Micrometres(standardTolerances[step][grade-leastGrade]), nil
}

// step returns the index of the step of sizes; a size at the end of a step belongs to it.
func step(size measure.Length) (int, bool) {
	if size.Sign() <= 0 {
		return 0, false
	}
	for i, most := range steps {
		if !measure.Millimetres(most).Less(size) {
			return i, true
		}
	}
	return 0, false
}

// Deviations returns the lower and the upper deviation from a nominal size, on the diameter. The error is an
// [*UnsupportedError].
func (c Class) Deviations(size measure.Length) (lower, upper measure.Length, err error) {
	if err := c.supported(); err != nil {
		return lower, upper, err
	}
	width, err := StandardTolerance(size, c.grade)
	if err != nil {
		return lower, upper, c.unsupported(measure.Nominal(size), "no table for this size and grade")
	}
	small := strings.ToLower(c.letters)
	switch {
	case small == "js":
		// Not rounded: the standard allows IT/2 of odd µm to be rounded in grades 7 to 11, and does not ask for it.
		return width.Half().Neg(), width.Half(), nil
	case small <= "h" && c.Hole():
		// EI = -es
		lower = c.fundamental(size).Neg()
		return lower, lower.Add(width), nil
	case small <= "h":
		upper = c.fundamental(size)
		return upper.Sub(width), upper, nil
	case c.Hole():
		upper, err = c.upperOfHole(size)
		return upper.Sub(width), upper, err
	case small == "k" && c.grade > 7:
		return lower, width, nil
	}
	lower = c.fundamental(size)
	return lower, lower.Add(width), nil
}

// fundamental returns the deviation of the shaft with the same letters.
func (c Class) fundamental(size measure.Length) measure.Length {
	i, _ := step(size)
	return measure.Micrometres(fundamentalDeviations[strings.ToLower(c.letters)][i])
}

// upperOfHole returns ES of the holes K to S: ES = -ei + Δ, Δ = IT_n − IT_(n−1).
func (c Class) upperOfHole(size measure.Length) (measure.Length, error) {
	minus := c.fundamental(size).Neg()
	upTo3 := !measure.Millimetres(steps[0]).Less(size)
	last := 8 // the last grade with Δ
	if c.letters >= "P" {
		last = 7
	}
	if c.grade > last {
		return c.upperWithoutDelta(size, minus, upTo3)
	}
	if upTo3 {
		return minus, nil
	}
	this, err := StandardTolerance(size, c.grade)
	if err != nil {
		return this, err
	}
	if c.grade == leastGrade {
		i, _ := step(size)
		return minus.Add(this).Sub(measure.Micrometres(belowLeastGrade[i])), nil
	}
	before, err := StandardTolerance(size, c.grade-1)
	return minus.Add(this).Sub(before), err
}

// upperWithoutDelta returns ES above the last grade that has a Δ. ISO 286-1:2010, table 3, notes (from memory).
func (c Class) upperWithoutDelta(size, minus measure.Length, upTo3 bool) (measure.Length, error) {
	switch {
	case c.letters == "K" && !upTo3:
		return minus, c.unsupported(measure.Nominal(size), "K above grade 8 is not used over 3 mm")
	case c.letters == "N" && !measure.Millimetres(1).Less(size):
		return minus, c.unsupported(measure.Nominal(size), "N above grade 8 is not used up to 1 mm")
	case c.letters == "N" && !upTo3:
		return measure.Length{}, nil
	}
	return minus, nil
}

// Limits returns the nominal size with the limits of the class, with the origin [measure.Class]. The error is an
// [*UnsupportedError].
func (c Class) Limits(size measure.Length) (measure.Dim, error) {
	lower, upper, err := c.Deviations(size)
	if err != nil {
		return measure.Dim{}, err
	}
	return measure.WithDeviations(size, lower, upper).WithOrigin(measure.Class), nil
}

// Symmetric returns size ± IT/2 for a grade, as js does, with the origin [measure.Class]. The error is an
// [*UnsupportedError].
func Symmetric(size measure.Length, grade int) (measure.Dim, error) {
	width, err := StandardTolerance(size, grade)
	if err != nil {
		return measure.Dim{}, err
	}
	return measure.PlusMinus(size, width.Half()).WithOrigin(measure.Class), nil
}

// Fit is a Hole and a Shaft of the same nominal size, each the limits of a diameter.
type Fit struct{ Hole, Shaft measure.Dim }

// NewFit returns the fit of two classes at a nominal size. The error is an [*UnsupportedError].
func NewFit(size measure.Length, hole, shaft Class) (Fit, error) {
	h, err := hole.Limits(size)
	if err != nil {
		return Fit{}, err
	}
	s, err := shaft.Limits(size)
	if err != nil {
		return Fit{}, err
	}
	return Fit{h, s}, nil
}

// Clearance returns hole minus shaft on the diameter, limit against limit; negative is interference.
func (f Fit) Clearance() (least, most measure.Length) {
	return f.Hole.Lower().Sub(f.Shaft.Upper()), f.Hole.Upper().Sub(f.Shaft.Lower())
}
