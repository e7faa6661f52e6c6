package joint

import (
	"encoding/json"
	"math"
	"strconv"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// AppendAnswer appends the answer to one joint as a JSON object on one line, without its end. Line is the line of the question,
// id the JSON string or number of [Line]. Lengths are as in fits.jsonl: decimals of millimetres to 0.0001 mm, or of inches to
// .000001 in; what is not known is null.
func AppendAnswer(b []byte, line int, id string, fit *fitcalc.Fit, units fitcalc.Units) []byte {
	o := object{begin(b, line, id)}
	o.text("verdict", fit.Verdict.String())
	o.reasons(fit, units)
	f, g := &fit.Flush, &fit.Grip
	o.amount("turn_down_mm", f.Known, f.TurnDown, inMM)
	o.amount("turn_down_in", f.Known, f.TurnDown, inInches)
	o.amount("turn_down_per_side_mm", f.Known, f.TurnDown.PerSide(), inMM)
	o.amount("turn_down_per_side_in", f.Known, f.TurnDown.PerSide(), inInches)
	o.spread("oversize_mm", "oversize_limits_mm", f.Known, f.Oversize)
	o.share("undersize_probability", f.Known, f.Undersize)
	o.share("visible_undersize_probability", f.Known, f.VisibleUndersize)
	o.share("visible_oversize_probability", f.Known, f.VisibleOversize)
	o.spread("interference_mm", "interference_limits_mm", g.Known, g.Interference)
	o.length("grip_length_mm", g.KnownLength, g.Length)
	o.share("slip_probability", g.Known, g.Slip)
	o.share("bore_strain", g.Known, g.Strain)
	o.share("split_probability", g.Known, g.Split)
	o.spread("stand_off_mm", "stand_off_limits_mm", fit.Seat.Known, fit.Seat.StandOff)
	o.spread("bore_clearance_mm", "bore_clearance_limits_mm", fit.Bore.Known, fit.Bore.Clearance)
	o.length("insertion_mm", fit.Bore.KnownInsertion, fit.Bore.Insertion)
	o.length("wall_left_per_side_mm", fit.Work.Known, fit.Work.WallLeft)
	o.minutes("minutes", fit.Work.Known, fit.Work.Minutes)
	o.assumptions(fit.Assumptions)
	return append(o.b, '}')
}

// AppendError appends the answer to a line that cannot be answered: an object with an error of field, message and line.
func AppendError(b []byte, line int, id, field, message string) []byte {
	o := object{begin(b, line, id)}
	o.key("error")
	o.b = append(o.b, '{')
	o.text("field", field)
	o.text("message", message)
	o.key("line")
	o.b = strconv.AppendInt(o.b, int64(line), 10)
	return append(o.b, "}}"...)
}

func begin(b []byte, line int, id string) []byte {
	b = append(b, `{"line":`...)
	b = strconv.AppendInt(b, int64(line), 10)
	if id != "" {
		b = append(b, `,"id":`...)
		b = append(b, id...)
	}
	return b
}

// object appends the members of a JSON object, which goes some five times as fast as reflection.
type object struct{ b []byte }

// key begins a member after others.
func (o *object) key(name string) {
	if last := o.b[len(o.b)-1]; last != '{' && last != '[' {
		o.b = append(o.b, ',')
	}
	o.b = append(o.b, '"')
	o.b = append(o.b, name...)
	o.b = append(o.b, `":`...)
}

// unless writes null in place of what is not known.
func (o *object) unless(name string, known bool) bool {
	o.key(name)
	if !known {
		o.b = append(o.b, "null"...)
	}
	return known
}

func (o *object) text(name, text string) {
	o.key(name)
	o.b = appendString(o.b, text)
}

func (o *object) length(name string, known bool, l measure.Length) {
	if o.unless(name, known) {
		o.b = inMM.append(o.b, l)
	}
}

func (o *object) share(name string, known bool, x float64) {
	if o.unless(name, known) {
		// Six digits: more would be noise that differs between machines.
		o.b = strconv.AppendFloat(o.b, x, 'g', 6, 64)
	}
}

func (o *object) minutes(name string, known bool, x float64) {
	if o.unless(name, known) {
		o.b = strconv.AppendFloat(o.b, math.Round(x*100)/100, 'f', -1, 64)
	}
}

func (o *object) amount(name string, known bool, a fitcalc.Amount, u unit) {
	if !o.unless(name, known) {
		return
	}
	o.b = append(o.b, `{"nominal":`...)
	o.b = u.append(o.b, a.Nominal)
	o.b = append(o.b, `,"least":`...)
	o.b = u.append(o.b, a.Least)
	o.b = append(o.b, `,"most":`...)
	o.b = u.append(o.b, a.Most)
	o.b = append(o.b, '}')
}

// spread writes a size that varies as its nominal value, and beside it the same with its limits.
func (o *object) spread(name, limits string, known bool, a fitcalc.Amount) {
	o.length(name, known, a.Nominal)
	o.amount(limits, known, a, inMM)
}

func (o *object) reasons(fit *fitcalc.Fit, units fitcalc.Units) {
	o.key("reasons")
	o.b = append(o.b, '[')
	for r := range fit.Reasons() {
		if o.b[len(o.b)-1] != '[' {
			o.b = append(o.b, ',')
		}
		o.b = append(o.b, '{')
		o.text("code", r.Code.String())
		o.text("text", r.Sentence(units))
		o.b = append(o.b, '}')
	}
	o.b = append(o.b, ']')
}

func (o *object) assumptions(set fitcalc.AssumptionSet) {
	o.key("assumptions")
	o.b = append(o.b, '[')
	for a := range set.All() {
		if o.b[len(o.b)-1] != '[' {
			o.b = append(o.b, ',')
		}
		o.b = appendString(o.b, a.Code())
	}
	o.b = append(o.b, ']')
}

// unit is how lengths are written as numbers.
type unit struct {
	// step is the last decimal in picometres, one how many of it are one unit.
	step measure.Length
	one  int64
}

var (
	inMM     = unit{measure.Picometres(100_000), 10_000}   // 0.0001 mm
	inInches = unit{measure.Picometres(25_400), 1_000_000} // .000001 in
)

// append writes a length without zeros that say nothing, rounded half to even, from the exact count.
func (u unit) append(b []byte, l measure.Length) []byte {
	n := l.RoundTo(u.step, measure.NearestEven).Picometres() / u.step.Picometres()
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/u.one, 10)
	rest := n % u.one
	if rest == 0 {
		return b
	}
	b = append(b, '.')
	for digit := u.one / 10; rest > 0; digit /= 10 {
		b = append(b, byte('0'+rest/digit))
		rest %= digit
	}
	return b
}

// appendString appends text as a JSON string.
func appendString(b []byte, text string) []byte {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c == '"' || c == '\\' || c == 0x7f {
			return appendEscaped(b, text)
		}
	}
	if !utf8.ValidString(text) {
		return appendEscaped(b, text)
	}
	b = append(b, '"')
	b = append(b, text...)
	return append(b, '"')
}

func appendEscaped(b []byte, text string) []byte {
	quoted, err := json.Marshal(text)
	if err != nil {
		return append(b, `""`...) // a string always has a JSON form
	}
	return append(b, quoted...)
}
