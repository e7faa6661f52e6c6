package limits

import (
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

const (
	acceptsDim = "a size with its limits or class, such as 13.6 ±0.05 mm, 12 h9, 13.6 IT11 or 13.6 ISO 2768-m"
	acceptsFit = "a size with the class of the hole and of the shaft, such as 9.4 H7/k6"
)

// ParseDim reads a toleranced dimension: all that [measure.ParseDim] reads, and
//
//	12 h9, 12 mm H7     a class of ISO 286-1
//	13.6 IT11           ± half a standard tolerance, also written ±IT11/2
//	13.6 ISO 2768-m     a general tolerance
//
// A size before a class is in millimetres unless it has a unit, as the standards are; a fraction needs its unit. The
// origin is [measure.Class] for the first two and [measure.General] for the last.
//
// The error is a [*measure.ParseError], whose cause is an [*UnsupportedError] for a class without a table.
func ParseDim(s string) (measure.Dim, error) { return ParseDimIn(measure.Notation{}, s) }

// ParseDimIn is [ParseDim], with the notation's unit for a text without one (also before a class) and its reading of
// commas.
func ParseDimIn(n measure.Notation, s string) (measure.Dim, error) {
	size, rest, ok, err := sizeBefore(n, s, isDimNotation)
	if !ok {
		return n.ParseDim(s)
	}
	refuse := func(reason string, cause error) (measure.Dim, error) {
		return measure.Dim{}, &measure.ParseError{What: "dimension", Input: s, Rest: rest, Reason: reason, Accepts: acceptsDim, Err: cause}
	}
	if err != nil {
		return refuse(err.Error(), err)
	}
	d, err := limitsOf(size, rest)
	if err != nil {
		return refuse(err.Error(), err)
	}
	if !d.Given() {
		return refuse("more text than one class; a fit has two dimensions", nil)
	}
	return d, nil
}

// limitsOf returns the limits that the folded notation gives; none where there is more text than that.
func limitsOf(size measure.Length, notation string) (measure.Dim, error) {
	if grade, rest, ok := scanGrade(notation); ok {
		if rest != "" {
			return measure.Dim{}, nil
		}
		return Symmetric(size, grade)
	}
	if c, rest, ok := scanClass(notation); ok {
		if rest != "" {
			return measure.Dim{}, nil
		}
		return c.Limits(size)
	}
	g, err := ParseGeneral(notation)
	if err != nil {
		return measure.Dim{}, err
	}
	return g.Apply(measure.Nominal(size))
}

// ParseFit reads a nominal size and the classes of its hole and shaft, such as 9.4 H7/k6, with the size in millimetres
// unless it has a unit. The error is a [*measure.ParseError], whose cause is an [*UnsupportedError] for a class without
// a table.
func ParseFit(s string) (Fit, error) {
	size, rest, ok, err := sizeBefore(measure.Notation{}, s, isClass)
	refuse := func(reason string, cause error) (Fit, error) {
		return Fit{}, &measure.ParseError{What: "fit", Input: s, Rest: rest, Reason: reason, Accepts: acceptsFit, Err: cause}
	}
	if err != nil {
		return refuse(err.Error(), err)
	}
	if !ok {
		return refuse("no size and class", nil)
	}
	hole, afterHole, _ := scanClass(rest)
	separated := strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(afterHole, "/"), "-"), " ")
	shaft, end, ok := scanClass(separated)
	if !ok || end != "" || separated == afterHole {
		return refuse("no second class after a slash", nil)
	}
	if !hole.Hole() || shaft.Hole() {
		return refuse("the hole, with capital letters, comes first and the shaft second", nil)
	}
	f, err := NewFit(size, hole, shaft)
	if err != nil {
		return refuse(err.Error(), err)
	}
	return f, nil
}

// sizeBefore reads a size before a notation that it recognises, and returns that notation folded. ok is false where
// there is no such notation; err is what is wrong with the size.
func sizeBefore(f measure.Notation, s string, recognises func(string) bool) (size measure.Length, rest string, ok bool, err error) {
	text := measure.Fold(s)
	n, rest, err := f.ParseNumber(text)
	if err != nil {
		return size, s, false, nil // measure.ParseDim says what is wrong
	}
	rest = strings.TrimRight(rest, " ")
	unit := measure.NoUnit
	// The m of 12 m6 is a class and no unit.
	if !recognises(rest) {
		unit, rest = measure.ScanUnit(rest)
		if !recognises(rest) {
			return size, rest, false, nil
		}
	}
	if unit == measure.NoUnit {
		unit = f.Unit
	}
	if unit == measure.NoUnit && !n.IsFraction() {
		unit = measure.Millimetre
	}
	size, exact, err := n.In(unit)
	if err == nil && !exact {
		err = &measure.InexactError{Number: n, Unit: unit, Nearest: size}
	}
	return size, rest, true, err
}

func isDimNotation(s string) bool {
	_, _, grade := scanGrade(s)
	_, standard := afterStandard(s)
	return grade || isClass(s) || standard
}

// isClass reports whether s begins with a class, known or not, that is not a unit and a number.
func isClass(s string) bool {
	c, _, ok := scanClass(s)
	if !ok || strings.EqualFold(c.letters, "IT") {
		return false
	}
	_, err := measure.ParseUnit(c.letters)
	return err != nil || len(c.letters) == 1
}

// scanGrade reads IT11, or ±IT11/2 for the same zone.
func scanGrade(s string) (grade int, rest string, ok bool) {
	halved := false
	rest, halved = strings.CutPrefix(s, "±")
	rest = strings.TrimLeft(rest, " ")
	if len(rest) < 3 || !strings.EqualFold(rest[:2], "IT") {
		return 0, s, false
	}
	rest = strings.TrimLeft(rest[2:], " ")
	digits := leading(rest, isDigit)
	grade, err := strconv.Atoi(digits)
	if err != nil || len(digits) > 2 {
		return 0, s, false
	}
	rest = strings.TrimLeft(rest[len(digits):], " ")
	if halved {
		rest, ok = strings.CutPrefix(rest, "/2")
		return grade, rest, ok
	}
	return grade, rest, true
}
