package measure

import "strings"

const acceptsReadings = `two readings or more in one unit, such as 13.58, 13.62, 13.60 mm or 13,58; 13,62; 13,60 mm`

// ParseReadings reads a list of sizes that were read off an instrument, two at least, exactly:
//
//	13.58, 13.62, 13.60 mm      parted by a comma and a space, or by commas alone where every number has a point
//	13,58; 13,62; 13,60 mm      parted by semicolons, as numbers with a decimal comma have to be
//	13.58 / 13.62 / 13.60 mm    parted by slashes; without spaces about them where every number has a point or comma
//
// Numbers and units are those of [ParseLength], without a sign: 13.7, -0.1 is a size and a deviation. The unit stands once, or on
// each reading: a reading without one takes that of the next that has one, else of the one before.
//
// Two sizes with a slash between them are limits to [ParseDim]; only whoever asks for readings reads them here. The error is a
// [*ParseError], with the causes of [ParseLength].
func ParseReadings(s string) ([]Length, error) { return Notation{}.ParseReadings(s) }

// ParseReadings is [ParseReadings], with the notation's unit for readings without one and its reading of commas.
func (f Notation) ParseReadings(s string) ([]Length, error) {
	readings, p := f.readings(s)
	if p != nil {
		return nil, p.parseError("readings", s, acceptsReadings)
	}
	return readings, nil
}

func (f Notation) readings(s string) ([]Length, *problem) {
	folded := Fold(s)
	parts := partReadings(folded)
	if len(parts) < 2 {
		return nil, &problem{rest: s, reason: "not two readings or more"}
	}
	quantities := make([]quantity, len(parts))
	for i, part := range parts {
		q, p := readOne(folded, part, f.Comma)
		if p != nil {
			return nil, p
		}
		quantities[i] = q
	}
	if !shareUnits(quantities, f.Unit) {
		return nil, &problem{rest: "", reason: "no unit", err: ErrNoUnit}
	}
	readings := make([]Length, len(quantities))
	for i, q := range quantities {
		l, err := q.exactly(q.unit)
		if err != nil {
			return nil, q.at.because(err)
		}
		readings[i] = l
	}
	return readings, nil
}

// span is where one reading stands in a text.
type span struct{ from, to int }

// partReadings takes a list apart by the strongest sign that it has.
func partReadings(s string) []span {
	for _, sign := range [...]string{";", " / ", "、", ", "} {
		if parts := split(s, sign); len(parts) > 1 {
			return parts
		}
	}
	for _, sign := range [...]struct{ parts, within string }{{"/", ".,"}, {",", "."}} {
		parts, all := split(s, sign.parts), true
		for _, p := range parts {
			all = all && strings.ContainsAny(s[p.from:p.to], sign.within)
		}
		if len(parts) > 1 && all {
			return parts
		}
	}
	return nil
}

func split(s, sign string) []span {
	var parts []span
	from := 0
	for {
		at := strings.Index(s[from:], sign)
		if at < 0 {
			return append(parts, span{from, len(s)})
		}
		parts = append(parts, span{from, from + at})
		from += at + len(sign)
	}
}

// readOne reads one number and its unit. Problems quote the text from there on.
func readOne(s string, part span, comma Comma) (quantity, *problem) {
	r := dimReader{scanner: scanner{text: s[:part.to], pos: part.from, comma: comma}}
	r.diameterSign()
	q, p := r.unsignedQuantity()
	q.at.text = s
	r.spaces()
	if p == nil && !r.atEnd() {
		reason, err := "more text than one reading", error(nil)
		if q.unit == NoUnit {
			reason, err = "no known unit", ErrNoUnit
		}
		p = r.problem(reason, err)
	}
	if p != nil {
		p.rest = s[part.to-len(p.rest):]
	}
	return q, p
}

// shareUnits gives each reading without a unit that of the next that has one, else of the one before, else the unit that
// stands elsewhere; false where there is none.
func shareUnits(all []quantity, elsewhere Unit) bool {
	next := NoUnit
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].unit == NoUnit {
			all[i].unit = next
		}
		next = all[i].unit
	}
	before := elsewhere
	for i := range all {
		if all[i].unit == NoUnit {
			all[i].unit = before
		}
		before = all[i].unit
	}
	return before != NoUnit
}
