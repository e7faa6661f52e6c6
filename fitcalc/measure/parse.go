package measure

const (
	acceptsNumber = `a number such as 13.6, .535, 1-1/4 or ½`
	acceptsUnit   = `mm, cm, m, µm, in, " or thou`
	acceptsLength = `a number and a unit, such as 13.6 mm, .535", 1-1/4 in or 370 thou`
)

// Comma says how to read a comma that may be a decimal comma or may separate thousands: one comma with one to three
// digits before it, the first not zero, and exactly three after it. Every other comma can only be one of the two.
type Comma uint8

const (
	// UnknownComma refuses such a number with an [*AmbiguousError].
	UnknownComma Comma = iota
	// DecimalComma reads 1,250 as one and a quarter.
	DecimalComma
	// ThousandsComma reads 1,250 as one thousand two hundred and fifty.
	ThousandsComma
)

// Notation settles what a text leaves open and its surroundings say: the unit at the head of a column, the decimal
// comma of a sheet. The zero Notation settles nothing, and its parsers are the strict ones.
type Notation struct {
	// Unit is the unit of numbers that stand without one.
	Unit Unit
	// Comma is the reading of a comma that could be read two ways.
	Comma Comma
}

func (p *problem) parseError(what, input, accepts string) *ParseError {
	return &ParseError{What: what, Input: input, Rest: p.rest, Reason: p.reason, Accepts: accepts, Err: p.err}
}

// ParseLength reads a number and a unit, exactly.
//
// Numbers are decimals (13.6, .535, 13,6), fractions (1/2, 1-1/4, 1 1/4, ½, 1½, 1⁄64) with an optional sign. A comma is
// a decimal comma unless thousands are as likely; then it is refused ([*AmbiguousError]). Units are those of
// [ParseUnit]. A diameter sign before the number, full-width characters, the many minus signs, and spaces of any kind
// about the parts are accepted.
//
// The error is a [*ParseError]. Its cause is [ErrNoNumber], [ErrNoUnit], a [*RangeError] beyond [MaxLength], or an
// [*InexactError] for what is finer than a picometre, such as 1/3 in; nothing is rounded. [ParseNumber] and [Number.In]
// round where that is wanted.
func ParseLength(s string) (Length, error) { return Notation{}.ParseLength(s) }

// ParseLength is [ParseLength], with the notation's unit for a number without one and its reading of commas.
func (f Notation) ParseLength(s string) (Length, error) {
	l, p := f.length(s)
	if p != nil {
		return Length{}, p.parseError("length", s, acceptsLength)
	}
	return l, nil
}

func (f Notation) length(s string) (Length, *problem) {
	c := scanner{text: s, comma: f.Comma}
	c.diameterSign()
	at := c
	n, p := c.number()
	if p != nil {
		return Length{}, p
	}
	unit := c.unit()
	c.spaces()
	if c.rest() != "" {
		if unit == NoUnit && f.Unit == NoUnit {
			return Length{}, c.problem("no known unit", ErrNoUnit)
		}
		return Length{}, c.problem("more text than one length", nil)
	}
	if unit == NoUnit {
		unit = f.Unit
	}
	if unit == NoUnit {
		return Length{}, c.problem("no unit", ErrNoUnit)
	}
	l, err := n.exactly(unit)
	if err != nil {
		return Length{}, at.because(err)
	}
	return l, nil
}

// because makes a problem of the error of a conversion.
func (c *scanner) because(err error) *problem { return c.problem(err.Error(), err) }
