package measure

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// AppendText appends the dimension as [Dim.String] gives it, or nothing where it was not given. It never fails.
func (d Dim) AppendText(b []byte) ([]byte, error) {
	if d.state == notGiven {
		return b, nil
	}
	b = d.nominal.appendNumber(b)
	if d.state == withLimits {
		// On the counts: the deviations can be beyond the range of a Length.
		lower, upper := d.lower.pm-d.nominal.pm, d.upper.pm-d.nominal.pm
		if upper >= 0 && lower == -upper {
			b = append(b, " ±"...)
			b = appendNano(b, upper)
		} else {
			b = append(b, ' ')
			b = appendDeviation(b, upper)
			b = append(b, '/')
			b = appendDeviation(b, lower)
		}
	}
	return append(b, " mm"...), nil
}

func appendDeviation(b []byte, n int64) []byte {
	if n >= 0 {
		b = append(b, '+')
	}
	return appendNano(b, n)
}

// String returns the exact dimension in millimetres, such as "13.6 mm", "13.6 ±0.05 mm" or "13.6 +0/-0.1 mm", or
// "not given". [ParseDim] reads it back to the same nominal size and limits. The shape and the origin are not in it;
// see [Dim.MarshalJSON].
func (d Dim) String() string {
	if d.state == notGiven {
		return "not given"
	}
	var buf [64]byte
	b, _ := d.AppendText(buf[:0])
	return string(b)
}

// MarshalText implements [encoding.TextMarshaler] with the text of [Dim.String]; empty where it was not given.
func (d Dim) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseDim]; an empty text is a Dim that was not given.
func (d *Dim) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*d = Dim{}
		return nil
	}
	parsed, err := ParseDim(string(text))
	if err != nil {
		return err
	}
	*d = parsed
	return nil
}

// dimJSON is the JSON form. A nominal size without limits has neither lower nor upper.
type dimJSON struct {
	Nominal *Length `json:"nominal"`
	Lower   *Length `json:"lower,omitempty"`
	Upper   *Length `json:"upper,omitempty"`
	Shape   Shape   `json:"shape"`
	Origin  Origin  `json:"origin"`
}

// MarshalJSON returns all of the dimension:
//
//	{"nominal":"13.6 mm","lower":"13.55 mm","upper":"13.65 mm","shape":"normal","origin":"stated"}
//
// without lower and upper where there are no limits, and null where it was not given.
func (d Dim) MarshalJSON() ([]byte, error) {
	if d.state == notGiven {
		return []byte("null"), nil
	}
	j := dimJSON{Nominal: &d.nominal, Shape: d.shape, Origin: d.origin}
	if d.state == withLimits {
		j.Lower, j.Upper = &d.lower, &d.upper
	}
	return json.Marshal(j)
}

// UnmarshalJSON reads what [Dim.MarshalJSON] writes, and also a string as in [ParseDim]. Shape and origin may be left
// out; unknown keys are ignored. It reports a [*DimError] for limits that are no limits.
func (d *Dim) UnmarshalJSON(data []byte) error {
	var text string
	if json.Unmarshal(data, &text) == nil { // null too, as an empty text
		return d.UnmarshalText([]byte(text))
	}
	var j dimJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return fmt.Errorf("dimension: %w", err)
	}
	switch {
	case j.Nominal == nil:
		return &DimError{Reason: `no "nominal"`}
	case (j.Lower == nil) != (j.Upper == nil):
		return &DimError{Dim: Nominal(*j.Nominal), Reason: `one of "lower" and "upper" without the other`}
	}
	read := Nominal(*j.Nominal)
	if j.Lower != nil {
		if j.Upper.Less(*j.Lower) {
			return &DimError{Dim: read, Reason: fmt.Sprintf("lower limit %v is above the upper limit %v", *j.Lower, *j.Upper)}
		}
		read.lower, read.upper, read.state = *j.Lower, *j.Upper, withLimits
	}
	read.shape, read.origin = j.Shape, j.Origin
	*d = read
	return nil
}

// ErrNotGiven: a dimension is needed and was not given.
var ErrNotGiven = errors.New("not given")

// DimError reports a dimension that cannot be worked with.
type DimError struct {
	// Dim is the dimension, as far as it could be read.
	Dim Dim
	// Reason says what is wrong with it.
	Reason string
	// Err is the cause where there is one: [ErrNotGiven] or [ErrRange].
	Err error
}

func (e *DimError) Error() string { return fmt.Sprintf("dimension %v: %s", e.Dim, e.Reason) }

// Unwrap returns the cause.
func (e *DimError) Unwrap() error { return e.Err }

// Validate reports a [*DimError] for a dimension that was not given, or whose size or limits stand at the end of the
// range, where a sum has overflowed. Limits in the wrong order cannot be built. A nominal size outside its limits is
// sound: the deviations of the ISO 286-1 class f7 are both below it.
func (d Dim) Validate() error {
	if !d.Given() {
		return &DimError{Dim: d, Reason: "give a size", Err: ErrNotGiven}
	}
	if d.nominal.Overflowed() || d.lower.Overflowed() || d.upper.Overflowed() {
		return &DimError{Dim: d, Reason: "the size or a limit is beyond 1 km; check the number and its unit", Err: ErrRange}
	}
	return nil
}

// Sigma returns the standard deviation of the size in mm: the width of the limits over 6 for [Normal], over √12 for
// [Uniform] and over 2√6 for [Triangular] (JCGM 100:2008, 4.3.7 and 4.3.9); 0 without limits.
func (d Dim) Sigma() float64 {
	width := d.upper.Millimetres() - d.lower.Millimetres()
	switch d.shape {
	case Uniform:
		return width / math.Sqrt(12)
	case Triangular:
		return width / (2 * math.Sqrt(6))
	}
	return width / 6
}

// FormatLimitsMillimetres returns the limits in mm with that many decimals (0 to 9), without a unit, rounded inward:
// the lower one up and the upper one down, so that what meets the printed limits meets the dimension. ok is false, and
// the texts empty, where there are no limits or the rounded ones would cross; use more decimals.
func (d Dim) FormatLimitsMillimetres(decimals int) (lower, upper string, ok bool) {
	return d.formatLimits(pmPerMillimetre, decimals)
}

// FormatLimitsInches is [Dim.FormatLimitsMillimetres] in inches: 11 ±0.3 mm to three places is 0.422 to 0.444, not the
// nearest 0.421 to 0.445 (the rule of ANSI/IEEE 268 and ASME Y14.5 for limits that must not be violated).
func (d Dim) FormatLimitsInches(decimals int) (lower, upper string, ok bool) {
	return d.formatLimits(pmPerInch, decimals)
}

func (d Dim) formatLimits(unit uint64, decimals int) (lower, upper string, ok bool) {
	if d.state != withLimits {
		return "", "", false
	}
	lo, _ := d.lower.in(unit, decimals, Up)
	hi, _ := d.upper.in(unit, decimals, Down)
	if lo.units > hi.units {
		return "", "", false
	}
	return lo.String(), hi.String(), true
}

var (
	shapes  = names{"normal", "uniform", "triangular"}
	origins = names{"stated", "general", "class", "default", "measured", "learned"}
)

// names are the texts of an enumeration.
type names []string

func (n names) text(i int) string {
	if i < len(n) {
		return n[i]
	}
	return fmt.Sprintf("unknown (%d)", i)
}

func (n names) marshal(what string, i int) ([]byte, error) {
	if i >= len(n) {
		return nil, &NameError{What: what, Name: n.text(i), Accepts: n}
	}
	return []byte(n[i]), nil
}

func (n names) unmarshal(what string, text []byte) (int, error) {
	for i, name := range n {
		if name == string(text) {
			return i, nil
		}
	}
	return 0, &NameError{What: what, Name: string(text), Accepts: n}
}

// NameError reports a name that is none of a fixed set.
type NameError struct {
	// What was to be named, such as "shape".
	What string
	// Name is what was read instead.
	Name string
	// Accepts are the names there are.
	Accepts []string
}

func (e *NameError) Error() string {
	return fmt.Sprintf("%s %s is none of %q", e.What, quote(e.Name), e.Accepts)
}

// String returns "normal", "uniform" or "triangular".
func (s Shape) String() string { return shapes.text(int(s)) }

// MarshalText implements [encoding.TextMarshaler]. It reports a [*NameError] for a value that is no Shape.
func (s Shape) MarshalText() ([]byte, error) { return shapes.marshal("shape", int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler]. It reports a [*NameError] for an unknown name.
func (s *Shape) UnmarshalText(text []byte) error {
	i, err := shapes.unmarshal("shape", text)
	if err == nil {
		*s = Shape(i)
	}
	return err
}

// String returns "stated", "general", "class", "default", "measured" or "learned".
func (o Origin) String() string { return origins.text(int(o)) }

// MarshalText implements [encoding.TextMarshaler]. It reports a [*NameError] for a value that is no Origin.
func (o Origin) MarshalText() ([]byte, error) { return origins.marshal("origin", int(o)) }

// UnmarshalText implements [encoding.TextUnmarshaler]. It reports a [*NameError] for an unknown name.
func (o *Origin) UnmarshalText(text []byte) error {
	i, err := origins.unmarshal("origin", text)
	if err == nil {
		*o = Origin(i)
	}
	return err
}
