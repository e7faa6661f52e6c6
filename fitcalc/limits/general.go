package limits

import (
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// GeneralClass is a tolerance class of ISO 2768-1 for linear dimensions. The zero GeneralClass is none.
type GeneralClass uint8

const (
	// NoGeneral is no class.
	NoGeneral GeneralClass = iota
	// Fine is class f.
	Fine
	// Medium is class m.
	Medium
	// Coarse is class c.
	Coarse
	// VeryCoarse is class v.
	VeryCoarse
)

const (
	generalLetters   = "-fmcv"
	supportedGeneral = "f, m, c from 0.5 to 1000 mm and v above 3 to 1000 mm"
	acceptsGeneral   = "ISO 2768-m, or another of f, m, c, v"
)

// String returns the class with its standard such as "ISO 2768-m", which [ParseGeneral] reads.
func (g GeneralClass) String() string {
	if g == NoGeneral || int(g) >= len(generalLetters) {
		return "none"
	}
	return "ISO 2768-" + generalLetters[g:g+1]
}

// MarshalText implements [encoding.TextMarshaler] with the text of [GeneralClass.String]; empty for none.
func (g GeneralClass) MarshalText() ([]byte, error) {
	if g == NoGeneral {
		return nil, nil
	}
	if int(g) >= len(generalLetters) {
		return nil, g.unsupported(measure.Dim{}, "no such class")
	}
	return []byte(g.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseGeneral]; an empty text is none.
func (g *GeneralClass) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*g = NoGeneral
		return nil
	}
	parsed, err := ParseGeneral(string(text))
	if err != nil {
		return err
	}
	*g = parsed
	return nil
}

// ParseGeneral reads a reference to general tolerances: "ISO 2768-m", "DIN ISO 2768-1 mK" (K is the class of ISO 2768-2
// for form and position, which plays no part here), "ISO 2768-1:1989 - m", or the national standards with the same
// values, "GB/T 1804-m" and "JIS B 0405-m" (that they are the same is from memory). The error is a
// [*measure.ParseError].
func ParseGeneral(s string) (GeneralClass, error) {
	refuse := func(rest, reason string) (GeneralClass, error) {
		return NoGeneral, &measure.ParseError{What: "general tolerance", Input: s, Rest: rest, Reason: reason, Accepts: acceptsGeneral}
	}
	text := strings.TrimSpace(measure.Fold(s))
	rest, ok := afterStandard(text)
	if !ok {
		return refuse(text, "no reference to ISO 2768")
	}
	letter := leading(rest, isLetter)
	if letter == "" || strings.TrimSpace(rest[len(letter):]) != "" {
		return refuse(rest, "no class")
	}
	class := strings.IndexByte(generalLetters, letter[0])
	if class < 1 || len(letter) > 2 || (len(letter) == 2 && !strings.Contains("HKL", letter[1:])) {
		return refuse(rest, "no class of that name")
	}
	return GeneralClass(class), nil
}

// afterStandard returns what follows the number of the standard, without part, year and the signs between.
func afterStandard(s string) (rest string, ok bool) {
	for _, start := range []string{"DIN", "EN", "BS", "ISO", "GB/T", "GB", "JIS", "B"} {
		if len(s) >= len(start) && strings.EqualFold(s[:len(start)], start) {
			s = strings.TrimLeft(s[len(start):], " -")
		}
	}
	if rest, ok = strings.CutPrefix(s, "2768"); ok {
		rest = withoutPart(rest, "-1")
	} else if rest, ok = strings.CutPrefix(s, "1804"); !ok {
		rest, ok = strings.CutPrefix(s, "0405")
	}
	if year := strings.TrimLeft(rest, " :-"); len(leading(year, isDigit)) == 4 {
		rest = year[4:]
	}
	return strings.TrimLeft(rest, " -:"), ok
}

// withoutPart drops the part of the standard, which is followed by anything but a digit.
func withoutPart(s, part string) string {
	rest, ok := strings.CutPrefix(strings.TrimLeft(s, " "), part)
	if !ok || leading(rest, isDigit) != "" {
		return s
	}
	return rest
}

func (g GeneralClass) unsupported(size measure.Dim, reason string) error {
	return &UnsupportedError{Notation: g.String(), Size: size, Reason: reason, Supported: supportedGeneral}
}

// GeneralTolerance returns the ± of a class at a nominal size, on the diameter (ISO 2768-1:1989, table 1). The error is
// an [*UnsupportedError], also below 0.5 mm, where the standard wants the tolerance beside the dimension.
func GeneralTolerance(class GeneralClass, size measure.Length) (measure.Length, error) {
	refuse := func(reason string) (measure.Length, error) {
		return measure.Length{}, class.unsupported(measure.Nominal(size), reason)
	}
	if class == NoGeneral || int(class) >= len(generalTolerances) {
		return refuse("no such class")
	}
	if size.Less(measure.Micrometres(500)) {
		return refuse("below 0.5 mm the tolerance must stand beside the dimension")
	}
	for i, most := range generalSteps {
		if measure.Millimetres(most).Less(size) {
			continue
		}
		if um := generalTolerances[class][i]; um != 0 {
			return measure.Micrometres(um), nil
		}
		return refuse("the class has no tolerance at this size")
	}
	return refuse("no table for this size")
}

// Apply returns d, or where d is given without limits, d ± the general tolerance, with the origin [measure.General]. The
// error is an [*UnsupportedError].
func (g GeneralClass) Apply(d measure.Dim) (measure.Dim, error) {
	if !d.Given() || d.HasLimits() {
		return d, nil
	}
	t, err := GeneralTolerance(g, d.Nominal())
	if err != nil {
		return measure.Dim{}, err
	}
	return measure.PlusMinus(d.Nominal(), t).WithShape(d.Shape()).WithOrigin(measure.General), nil
}
