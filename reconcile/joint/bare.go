package joint

import (
	"cmp"
	"regexp"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// bareNumbers are numbers and what stands between them, without any unit; the first is that by which the unit is told.
var bareNumbers = regexp.MustCompile(`^[ØøΦφ⌀]?\s*((?:\d+[ -])?\d+/\d+|\d*[.,]?\d+)[-\d.,;/ ±+~–]*$`)

// From where a number without a unit is in millimetres, and below which in inches: no hosel or tip is under 2 mm or over 5 in. The
// fit chart reads by the same two.
var (
	inchesBelow      = measure.Millimetres(2)
	millimetresAbove = measure.Millimetres(5)
)

// WithUnit adds the unit to a size of a person at the bench who left it out, and returns the unit that was taken: inches for
// fractions and below 2, millimetres above 5, and in between doubt, which is mm, in, or nothing where nobody has said. A size with a
// unit, or that is not understood, comes back as it is, with no unit.
//
// It is meant for diameters and lengths of heads, tips and ferrules; for small features such as the length of a collar there is
// [Field.WithUnit], which knows between which sizes they lie.
func WithUnit(text, doubt string) (full, unit string) {
	text = strings.TrimSpace(text)
	number := bareNumbers.FindStringSubmatch(text)
	if number == nil {
		return text, ""
	}
	if unit = unitOf(number[1], doubt); unit == "" {
		return text, ""
	}
	return text + " " + unit, unit
}

func unitOf(number, doubt string) string {
	if strings.Contains(number, "/") {
		return "in"
	}
	size, err := measure.Notation{Unit: measure.Millimetre}.ParseLength(number)
	switch {
	case err != nil:
		return ""
	case size.Less(inchesBelow):
		return "in"
	case millimetresAbove.Less(size):
		return "mm"
	}
	return doubt
}

// TipWithUnit is [WithUnit] for a tip, of which the form may be said first, and left out where the trade's tip of that size is parallel:
// "taper .355" and ".370" are .355 in taper and .370 in parallel. A .355 in tip is made in both forms, and has to say which. It returns
// what was taken, nothing where nothing had to be.
func TipWithUnit(text, doubt string) (full, took string) {
	text = strings.TrimSpace(text)
	if strings.Contains(text, ":") {
		return text, ""
	}
	form, size := "", text
	for _, f := range [...]fitcalc.TipForm{fitcalc.TipParallel, fitcalc.TipTapered} {
		if rest, first := strings.CutPrefix(text, f.String()); first {
			form, size = f.String(), rest
		} else if rest, last := strings.CutSuffix(text, f.String()); last {
			form, size = f.String(), rest
		}
	}
	size, _ = WithUnit(size, doubt)
	if form == "" {
		diameter, err := measure.ParseLength(size)
		if err != nil {
			return text, ""
		}
		tip, standard := fitcalc.TipNamed(diameter)
		if !standard || tip.Form != fitcalc.TipParallel {
			return text, ""
		}
		form = tip.Form.String()
	}
	full = size + " " + form
	if full == text {
		return text, ""
	}
	return full, full
}

// DoubtBy is the unit that a reader's preference decides doubt by.
func DoubtBy(u fitcalc.Units) string {
	if u == fitcalc.Metric {
		return "mm"
	}
	return "in"
}

// small reports whether a field is a small feature, which could be meant in either unit where its number alone is written.
func (f *Field) small() bool {
	switch f.Of {
	case fitcalc.FieldCountersinkDepth, fitcalc.FieldCounterboreDepth, fitcalc.FieldCollarLength, fitcalc.FieldStepLength,
		fitcalc.FieldRingDepth, fitcalc.FieldRingHeight:
		return true
	}
	return false
}

// mayBeBare reports whether a number may stand for a size of the field.
func (f *Field) mayBeBare() bool { return f.Of.Kind().IsLength() || f.Key == trimKey }

// possibleUnit is the only unit in which a number is a size that the field may have, or, where it may in both, the only one in which
// nearly all parts have such; nothing where that does not tell.
func (f *Field) possibleUnit(number string) string {
	usual, known := f.Of.Usual()
	if !known {
		return ""
	}
	var possible, common []string
	for _, unit := range [...]measure.Unit{measure.Millimetre, measure.Inch} {
		size, err := measure.Notation{Unit: unit}.ParseLength(number)
		mm := size.Millimetres()
		if err != nil || mm < usual.Least || mm > usual.Most {
			continue
		}
		possible = append(possible, unit.String())
		if mm >= usual.CommonLeast && mm <= usual.CommonMost {
			common = append(common, unit.String())
		}
	}
	for _, units := range [...][]string{possible, common} {
		if len(units) == 1 {
			return units[0]
		}
	}
	return ""
}

// unitOf is [unitOf] with what is known of the sizes of the field: of a small feature that comes first, of others where the number
// alone leaves doubt.
func (f *Field) unitOf(number, doubt string) string {
	if !f.small() {
		return cmp.Or(unitOf(number, ""), f.possibleUnit(number), doubt)
	}
	if strings.Contains(number, "/") {
		return "in"
	}
	return cmp.Or(f.possibleUnit(number), doubt)
}

// NeedsUnit reports whether a text is a number of which nobody can tell the unit by itself.
func (f *Field) NeedsUnit(text, doubt string) bool {
	number := bareNumbers.FindStringSubmatch(strings.TrimSpace(text))
	return f.mayBeBare() && number != nil && f.unitOf(number[1], doubt) == ""
}

// WithUnit adds what a person at the bench left out of a text for the field, and returns what was taken, nothing where nothing had to
// be: by [WithUnit] or [TipWithUnit], and, of a small feature or in doubt, by the sizes that the field may have.
func (f *Field) WithUnit(text, doubt string) (full, took string) {
	if f.Of == fitcalc.FieldTip && f.Part == OfTip {
		return TipWithUnit(text, doubt)
	}
	if !f.mayBeBare() && f.Of.Kind() != fitcalc.KindAngle {
		return text, ""
	}
	text = strings.TrimSpace(text)
	number := bareNumbers.FindStringSubmatch(text)
	if number == nil {
		return text, ""
	}
	unit := f.unitOf(number[1], doubt)
	if f.Of.Kind() == fitcalc.KindAngle {
		unit = "deg"
	}
	if unit == "" {
		return text, ""
	}
	text += " " + unit
	return text, text
}
