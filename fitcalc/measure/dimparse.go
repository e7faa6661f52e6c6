package measure

const acceptsDim = `a size and its limits, such as 13.6 ±0.05 mm, .535 +.000/-.002 in or 13.5~13.7 mm`

// ParseDim reads a toleranced dimension, exactly:
//
//	13.6 mm                 a nominal size without limits
//	13.6 ±0.05 mm           also +/-0.05 and +-0.05
//	13.60 +0.00/-0.10 mm    deviations, both with their sign or a bare 0, parted by a slash, a comma or a space
//	13.5~13.7 mm            limits, parted by ~ ÷ … .. or "to"
//	13.5-13.7 mm            limits, the lower one first
//	.370/.372 in            limits, where it cannot be a fraction
//
// Numbers and units are those of [ParseLength]. The unit stands once, or on each part: a part without one takes that of
// the next part that has one, else of the part before. Since 13.6 ±50 µm does not say what 13.6 is, micrometres and
// thou that stand on a tolerance only are refused.
//
// Both deviations may lie on one side (12 -0.016/-0.034 mm). The [Shape] is [Normal] and the [Origin] is [Stated].
//
// The error is a [*ParseError], with the causes of [ParseLength], or [ErrAmbiguous] for 13.7 -0.1, which may be limits or
// one deviation, and for the tolerance in a unit that the size does not have.
func ParseDim(s string) (Dim, error) { return Notation{}.ParseDim(s) }

// ParseDim is [ParseDim], with the notation's unit for a text without one and its reading of commas.
func (f Notation) ParseDim(s string) (Dim, error) {
	r := dimReader{scanner: scanner{text: s, comma: f.Comma}, unit: f.Unit}
	d, p := r.dim()
	if p != nil {
		return Dim{}, p.parseError("dimension", s, acceptsDim)
	}
	return d, nil
}

// quantity is a number, its unit where it has one, and its place.
type quantity struct {
	Number
	unit Unit
	at   scanner
}

type dimReader struct {
	scanner
	unit Unit // for a text without any
}

func (r *dimReader) dim() (Dim, *problem) {
	r.diameterSign()
	size, p := r.quantity()
	if p != nil {
		return Dim{}, p
	}
	r.spaces()
	if r.atEnd() {
		return r.nominal(size)
	}
	open := r.accept('(')
	r.spaces()
	var parts []quantity
	as := plusMinus
	switch {
	case r.plusMinusSign():
		r.spaces()
		parts, p = one(r.unsignedQuantity())
	case !open && r.rangeSign():
		as = between
		r.diameterSign()
		parts, p = one(r.quantity())
	case !open && !size.fraction && r.accept('/'):
		as = between
		r.diameterSign()
		parts, p = one(r.unsignedQuantity())
	default:
		parts, as, p = r.signedParts(open)
	}
	if p != nil {
		return Dim{}, p
	}
	if p := r.close(open, parts); p != nil {
		return Dim{}, p
	}
	return r.build(append([]quantity{size}, parts...), as)
}

func (r *dimReader) atEnd() bool { return r.rest() == "" }

func one(q quantity, p *problem) ([]quantity, *problem) { return []quantity{q}, p }

func (r *dimReader) quantity() (quantity, *problem) {
	q := quantity{at: r.scanner}
	var p *problem
	if q.Number, p = r.number(); p != nil {
		return q, p
	}
	q.unit = r.scanner.unit()
	return q, nil
}

func (r *dimReader) unsignedQuantity() (quantity, *problem) {
	if c, _ := r.peek(); c == '+' || c == '-' {
		return quantity{}, r.problem("a second sign", nil)
	}
	return r.quantity()
}

func (r *dimReader) plusMinusSign() bool {
	return r.accept('±') || r.acceptAll("+/-") || r.acceptAll("+-")
}

// rangeSign consumes a sign that only parts limits.
func (r *dimReader) rangeSign() bool {
	return r.accept('~') || r.accept('÷') || r.accept('…') || r.acceptAll("...") || r.acceptAll("..") || r.acceptAll("to")
}

// signedParts reads two deviations, or the upper limit after a hyphen.
func (r *dimReader) signedParts(open bool) ([]quantity, form, *problem) {
	start := r.scanner
	if !open && r.accept('-') && r.diameterAhead() {
		r.diameterSign()
		parts, p := one(r.unsignedQuantity())
		return parts, upward, p
	}
	r.scanner = start
	first, p := r.deviation()
	if p != nil {
		return nil, 0, p
	}
	afterFirst := r.scanner
	spaced := r.spaces()
	parted := r.accept('/') || r.accept(',')
	r.spaces()
	c, _ := r.peek()
	if parted || c == '+' || c == '-' || isDigit(c) || c == '.' {
		second, p := r.deviation()
		if p != nil {
			return nil, 0, p
		}
		if first.negative && second.negative && !parted && (!spaced || first.looseSign() || second.looseSign()) {
			return nil, 0, start.problem("three sizes, or two deviations below the size; part the deviations with a slash", ErrAmbiguous)
		}
		return []quantity{first, second}, deviations, nil
	}
	r.scanner = afterFirst
	if !first.negative || open {
		return nil, 0, r.problem("only one deviation; give both, such as +0.00/-0.10", nil)
	}
	r.scanner = start
	r.accept('-')
	r.spaces()
	parts, p := one(r.unsignedQuantity())
	return parts, upward, p
}

func (r *dimReader) diameterAhead() bool {
	ahead := r.scanner
	ahead.spaces()
	return ahead.accept('⌀')
}

// looseSign reports whether there is a space between the sign and the number.
func (q *quantity) looseSign() bool {
	ahead := q.at
	ahead.next()
	return ahead.accept(' ')
}

// deviation reads a number with its sign, or a bare zero.
func (r *dimReader) deviation() (quantity, *problem) {
	c, _ := r.peek()
	start := r.scanner
	q, p := r.quantity()
	if p == nil && c != '+' && c != '-' && q.Sign() != 0 {
		p = start.problem("neither limits nor deviations with their signs", nil)
	}
	return q, p
}

// close reads what may follow the last part: a parenthesis, the unit after it, and nothing else.
func (r *dimReader) close(open bool, parts []quantity) *problem {
	r.spaces()
	last := &parts[len(parts)-1]
	if open {
		if !r.accept(')') {
			return r.problem("no closing parenthesis", nil)
		}
		if last.unit == NoUnit {
			last.unit = r.scanner.unit()
		}
		r.spaces()
	}
	if r.atEnd() {
		return nil
	}
	if r.unit == NoUnit && last.unit == NoUnit {
		return r.problem("no known unit", ErrNoUnit)
	}
	return r.problem("more text than one dimension", nil)
}

func (r *dimReader) nominal(size quantity) (Dim, *problem) {
	if size.unit == NoUnit {
		size.unit = r.unit
	}
	if size.unit == NoUnit {
		return Dim{}, r.problem("no unit", ErrNoUnit)
	}
	l, err := size.exactly(size.unit)
	if err != nil {
		return Dim{}, size.at.because(err)
	}
	return Nominal(l), nil
}

// form is what the numbers after the size mean.
type form uint8

const (
	plusMinus  form = iota // one tolerance either way
	deviations             // two deviations
	between                // the other limit
	upward                 // the upper limit, after a hyphen
)

func (r *dimReader) build(all []quantity, as form) (Dim, *problem) {
	if p := r.spreadUnits(all, as); p != nil {
		return Dim{}, p
	}
	var pm [3]int64
	for i, q := range all {
		value, exact, ok := q.scale(q.unit.picometres())
		// A deviation spans at most the whole range of a Length.
		if !ok || value > 2*maxPM || value < -2*maxPM {
			return Dim{}, q.at.because(&RangeError{q.Float64(), q.unit.String()})
		}
		if !exact {
			return Dim{}, q.at.because(&InexactError{q.Number, q.unit, saturate(value)})
		}
		pm[i] = value
	}
	nominal, lower, upper := pm[0], pm[0], pm[0]
	switch as {
	case plusMinus:
		lower, upper = nominal-pm[1], nominal+pm[1]
	case deviations:
		lower, upper = nominal+min(pm[1], pm[2]), nominal+max(pm[1], pm[2])
	case upward:
		if pm[1] < pm[0] {
			return Dim{}, all[1].at.problem("either limits with the upper one first or a single deviation; write the lower limit first, or both deviations", ErrAmbiguous)
		}
		fallthrough
	case between:
		lower, upper = min(pm[0], pm[1]), max(pm[0], pm[1])
		nominal = midpoint(Length{lower}, Length{upper}).pm
	}
	for _, v := range []int64{nominal, lower, upper} {
		if v > maxPM || v < -maxPM {
			return Dim{}, all[0].at.because(&RangeError{float64(v) / pmPerMillimetre, "mm"})
		}
	}
	return Dim{nominal: Length{nominal}, lower: Length{lower}, upper: Length{upper}, state: withLimits}, nil
}

// spreadUnits gives each part without a unit that of the next part which has one, else of the part before.
func (r *dimReader) spreadUnits(all []quantity, as form) *problem {
	next := NoUnit
	for i := len(all) - 1; i > 0; i-- {
		if all[i].unit == NoUnit {
			all[i].unit = next
		}
		next = all[i].unit
	}
	size := &all[0]
	if size.unit == NoUnit {
		limits := as == between || as == upward
		size.unit = next
		if next == NoUnit || (next.fine() && !limits) {
			size.unit = r.unit
		}
		switch {
		case size.unit != NoUnit:
		case next != NoUnit:
			return size.at.problem("the tolerance is in "+next.String()+", and the size has no unit; give it one", ErrAmbiguous)
		default:
			return r.problem("no unit", ErrNoUnit)
		}
	}
	for i := 1; i < len(all); i++ {
		if all[i].unit == NoUnit {
			all[i].unit = all[i-1].unit
		}
	}
	return nil
}
