package measure

import (
	"unicode"
	"unicode/utf8"
)

// Unit is a unit of length. The zero Unit is [NoUnit].
type Unit uint8

// The units that lengths are read in. All are exact multiples of the picometre; see [Length] for the inch.
const (
	NoUnit Unit = iota
	Millimetre
	Centimetre
	Metre
	Micrometre
	Nanometre
	Picometre
	Inch
	Mil // a thousandth of an inch, also called a thou
)

var units = [...]struct {
	name string
	pm   uint64
}{
	NoUnit:     {"no unit", 0},
	Millimetre: {"mm", pmPerMillimetre},
	Centimetre: {"cm", 10 * pmPerMillimetre},
	Metre:      {"m", 1000 * pmPerMillimetre},
	Micrometre: {"µm", pmPerMicrometre},
	Nanometre:  {"nm", 1000},
	Picometre:  {"pm", 1},
	Inch:       {"in", pmPerInch},
	Mil:        {"thou", pmPerThou},
}

// unitWords are the ways to write a unit, in lower case with signs folded. Words of other languages are those of
// suppliers' sheets.
var unitWords = map[string]Unit{
	"mm": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre, "millimeter": Millimetre, "millimeters": Millimetre,
	"㎜": Millimetre, "毫米": Millimetre, "公厘": Millimetre, "ミリ": Millimetre, "밀리미터": Millimetre,
	"cm": Centimetre, "centimetre": Centimetre, "centimetres": Centimetre, "centimeter": Centimetre, "centimeters": Centimetre, "㎝": Centimetre, "厘米": Centimetre,
	"m": Metre, "metre": Metre, "metres": Metre, "meter": Metre, "meters": Metre,
	"µm": Micrometre, "um": Micrometre, "micron": Micrometre, "microns": Micrometre, "micrometre": Micrometre, "micrometres": Micrometre, "㎛": Micrometre, "微米": Micrometre,
	"nm": Nanometre, "pm": Picometre,
	"in": Inch, "inch": Inch, "inches": Inch, "ins": Inch,
	"zoll": Inch, "pouce": Inch, "pouces": Inch, "pulgada": Inch, "pulgadas": Inch, "pollice": Inch, "pollici": Inch,
	"英寸": Inch, "英吋": Inch, "吋": Inch, "インチ": Inch, "인치": Inch,
	"thou": Mil, "thous": Mil, "mil": Mil, "mils": Mil,
}

// String returns the short name of the unit, which [ParseUnit] reads.
func (u Unit) String() string {
	if int(u) < len(units) {
		return units[u].name
	}
	return "unknown unit"
}

func (u Unit) picometres() uint64 {
	if int(u) < len(units) {
		return units[u].pm
	}
	return 0
}

// PerUnit returns the length of one unit; zero for [NoUnit].
func (u Unit) PerUnit() Length { return Length{int64(u.picometres())} }

// fine reports whether the unit is too small to state a size in by itself, but common for tolerances.
func (u Unit) fine() bool { return u == Micrometre || u == Nanometre || u == Picometre || u == Mil }

// ParseUnit reads a unit and nothing else: mm, cm, m, µm (um, micron), nm, pm, in (inch, inches, ", ″, ”, two
// apostrophes), thou (mil, mils), the common spellings of millimetre and inch in the languages of suppliers' sheets,
// in any case but for m, nm and pm, with or without a point after it. The error is a [*ParseError].
func ParseUnit(s string) (Unit, error) {
	c := scanner{text: s}
	c.spaces()
	u := c.unit()
	c.spaces()
	if u == NoUnit || c.rest() != "" {
		p := c.problem("no known unit", ErrNoUnit)
		return NoUnit, p.parseError("unit", s, acceptsUnit)
	}
	return u, nil
}

// ScanUnit reads a unit at the beginning of s and returns what stands after it, both without the spaces about it. It
// returns [NoUnit] and s where there is none.
func ScanUnit(s string) (u Unit, rest string) {
	c := scanner{text: s}
	c.spaces()
	u = c.unit()
	if u == NoUnit {
		return NoUnit, s
	}
	c.spaces()
	return u, c.rest()
}

// unit consumes a unit and the spaces before it, or nothing.
func (c *scanner) unit() Unit {
	start := c.pos
	c.spaces()
	if c.accept('"') || c.acceptAll("''") {
		return Inch
	}
	var buf [24]byte
	word, upper := c.word(buf[:0])
	u := unitWords[string(word)]
	if u == NoUnit || (upper && (u == Nanometre || u == Picometre || len(word) == 1)) {
		c.pos = start
		return NoUnit
	}
	c.abbreviationPoint()
	return u
}

// word consumes letters and appends them to b in lower case; upper says whether any was not. A word longer than b holds
// is no unit, and comes back empty.
func (c *scanner) word(b []byte) (word []byte, upper bool) {
	for {
		r, size := c.peek()
		if !unicode.IsLetter(r) && !isSquaredUnit(r) {
			return b, upper
		}
		lower := unicode.ToLower(r)
		upper = upper || lower != r
		if len(b)+utf8.UTFMax > cap(b) {
			return nil, upper
		}
		b = utf8.AppendRune(b, lower)
		c.pos += size
	}
}

// isSquaredUnit reports whether r is one of ㎛ ㎜ ㎝, which are symbols and no letters.
func isSquaredUnit(r rune) bool { return r >= '㎛' && r <= '㎝' }

// abbreviationPoint skips the point of "in." but not the dots of a range.
func (c *scanner) abbreviationPoint() {
	ahead := *c
	if !ahead.accept('.') {
		return
	}
	if r, _ := ahead.peek(); r != '.' && !isDigit(r) {
		c.pos = ahead.pos
	}
}
