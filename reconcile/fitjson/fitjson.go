// Package fitjson writes a fit as members of a JSON object: the keys that fits.jsonl and the answers of the joint command have
// in common. It appends byte by byte, which goes some five times as fast as reflection; a catalogue has hundreds of thousands
// of lines, and shop software asks for tens of thousands of joints a second.
//
// Lengths are decimals of millimetres to 0.0001 mm, or of inches to .000001 in, from the exact counts and not by way of
// floating point. What is not known is null, never 0.
package fitjson

import (
	"bytes"
	"encoding/json"
	"iter"
	"math"
	"strconv"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
)

// Fit writes the members of a fit from verdict to minutes, the reasons in the reader's language and units.
func (o *Object) Fit(fit *fitcalc.Fit, l *say.Language, units fitcalc.Units) {
	o.Text("verdict", fit.Verdict.String())
	o.reasons(fit, l, units)
	f, g := &fit.Flush, &fit.Grip
	o.amount("turn_down_mm", f.Known, f.TurnDown, inMM)
	o.amount("turn_down_in", f.Known, f.TurnDown, inInches)
	o.amount("turn_down_per_side_mm", f.Known, f.TurnDown.PerSide(), inMM)
	o.amount("turn_down_per_side_in", f.Known, f.TurnDown.PerSide(), inInches)
	o.Spread("oversize", f.Known, f.Oversize)
	o.Share("undersize_probability", f.Known, f.Undersize)
	o.Share("visible_undersize_probability", f.Known, f.VisibleUndersize)
	o.Share("visible_oversize_probability", f.Known, f.VisibleOversize)
	o.Spread("interference", g.Known, g.Interference)
	o.Length("grip_length_mm", g.KnownLength, g.Length)
	o.Share("slip_probability", g.Known, g.Slip)
	o.Share("bore_strain", g.Known, g.Strain)
	o.Share("split_probability", g.Known, g.Split)
	o.Spread("stand_off", fit.Seat.Known, fit.Seat.StandOff)
	o.Spread("bore_clearance", fit.Bore.Known, fit.Bore.Clearance)
	o.Length("insertion_mm", fit.Bore.KnownInsertion, fit.Bore.Insertion)
	o.Length("wall_left_per_side_mm", fit.Work.Known, fit.Work.WallLeft)
	o.Minutes("minutes", fit.Work.Known, fit.Work.Minutes)
}

// Short writes what belongs to the pair alone, from verdict to minutes: what is not known is left out, reasons are codes, and numbers
// that stand in the line under a key of their own are not repeated with their reason. Limits are those of the parts, one against the
// other, and are left out but for what comes off. Sentences adds the reasons in words.
func (o *Object) Short(fit *fitcalc.Fit, sentences bool, l *say.Language, units fitcalc.Units) {
	o.Text("verdict", fit.Verdict.String())
	o.shortReasons(fit, sentences, l, units)
	if f := &fit.Flush; f.Known {
		o.amount("turn_down_mm", true, f.TurnDown, inMM)
		o.Length("oversize_mm", true, f.Oversize.Nominal)
		o.share("visible_undersize_probability", f.VisibleUndersize)
	}
	if g := &fit.Grip; g.Known {
		o.Length("interference_mm", true, g.Interference.Nominal)
		if g.KnownLength {
			o.Length("grip_length_mm", true, g.Length)
		}
	}
	if s := &fit.Seat; s.Known && s.StandOff != (fitcalc.Amount{}) {
		o.Length("stand_off_mm", true, s.StandOff.Nominal)
	}
	if b := &fit.Bore; b.Known {
		o.Length("bore_clearance_mm", true, b.Clearance.Nominal)
	}
	if fit.Work.Known {
		o.Minutes("minutes", true, fit.Work.Minutes)
	}
}

// named begins a member whose name is put together.
func (o *Object) named(name, ending string) {
	o.separate()
	o.B = append(o.B, '"')
	o.B = append(o.B, name...)
	o.B = append(o.B, ending...)
	o.B = append(o.B, `":`...)
}

func (o *Object) limits(least, most measure.Length) {
	o.B = append(o.B, `{"least":`...)
	o.B = inMM.append(o.B, least)
	o.B = append(o.B, `,"most":`...)
	o.B = inMM.append(o.B, most)
	o.B = append(o.B, '}')
}

// Size writes the nominal size of a dimension under name and _mm, and beside it its limits where it has any; nothing where it is not
// given.
func (o *Object) Size(name string, d measure.Dim) {
	if !d.Given() {
		return
	}
	o.named(name, "_mm")
	o.B = inMM.append(o.B, d.Nominal())
	if d.HasLimits() {
		o.named(name, "_limits_mm")
		o.limits(d.Lower(), d.Upper())
	}
}

func (o *Object) share(name string, x float64) {
	o.Key(name)
	o.B = AppendShare(o.B, x)
}

// Element begins an object in a list, and leaves it open.
func (o *Object) Element() {
	o.separate()
	o.B = append(o.B, '{')
}

// AppendShare appends a probability with three significant digits, and one below a billionth as 0: the limits it comes from are not known
// that well.
func AppendShare(b []byte, x float64) []byte {
	if x < 1e-9 {
		return append(b, '0')
	}
	return strconv.AppendFloat(b, x, 'g', 3, 64)
}

// AppendMillimetres appends a length as a person reads it in a spreadsheet, in mm to 0.001 mm, from the exact count.
func AppendMillimetres(b []byte, l measure.Length) []byte { return readMM.append(b, l) }

// AppendInches is AppendMillimetres in inches, to .0001 in.
func AppendInches(b []byte, l measure.Length) []byte { return readInches.append(b, l) }

// AppendMinutes appends a time to a hundredth of a minute.
func AppendMinutes(b []byte, x float64) []byte {
	return strconv.AppendFloat(b, math.Round(x*100)/100, 'f', -1, 64)
}

// AppendString appends text as a JSON string; bytes that are no UTF-8 are replaced.
func AppendString(b []byte, text string) []byte { return appendString(b, text) }

func (o *Object) shortReasons(fit *fitcalc.Fit, sentences bool, l *say.Language, units fitcalc.Units) {
	o.Key("reasons")
	o.B = append(o.B, '[')
	for r := range fit.Reasons() {
		if !Told(r.Code) {
			continue
		}
		o.Reason(&r)
		if sentences {
			o.Text("text", l.Reason(r, units))
		}
		o.B = append(o.B, '}')
	}
	o.B = append(o.B, ']')
}

// Reason begins an object with a reason's code and numbers, and leaves it open.
func (o *Object) Reason(r *fitcalc.Reason) {
	o.Element()
	o.Text("code", r.Code.String())
	if Elsewhere(r.Code) {
		return
	}
	if r.Field != fitcalc.NoField {
		o.Text("field", r.Field.String())
	}
	for n := range r.Numbers() {
		switch {
		case n.IsZero(): // a line says what there is
		case n.Kind.IsLength():
			o.named(n.Key, inMillimetres)
			o.B = inMM.append(o.B, n.Length)
		default:
			o.share(n.Key, n.Ratio)
		}
	}
}

const inMillimetres = "_mm"

// KeyOf returns the key under which [Object.Reason] writes a number.
func KeyOf(n fitcalc.NumberInfo) string {
	if n.Kind.IsLength() {
		return n.Key + inMillimetres
	}
	return n.Key
}

// Elsewhere reports whether the numbers of a code have keys of their own in the line, as oversize, turn-down and interference have, and
// do not stand with the reason again.
func Elsewhere(c fitcalc.Code) bool {
	return c == fitcalc.FlushAsSupplied || c == fitcalc.FlushTurn || c == fitcalc.GripHolds
}

// Told reports whether a line about a pair names reasons of a code. That a ferrule holds goes without saying where it fits, and its
// interference stands in the line.
func Told(c fitcalc.Code) bool { return c != fitcalc.GripHolds }

// Object appends the members of JSON objects to its bytes. Who uses it opens and closes the braces.
type Object struct{ B []byte }

// Key begins a member after others.
func (o *Object) Key(name string) {
	o.separate()
	o.B = append(o.B, '"')
	o.B = append(o.B, name...)
	o.B = append(o.B, `":`...)
}

// separate writes the comma that stands before any but the first member or element.
func (o *Object) separate() {
	if last := o.B[len(o.B)-1]; last != '{' && last != '[' {
		o.B = append(o.B, ',')
	}
}

// unless writes null in place of what is not known.
func (o *Object) unless(name string, known bool) bool {
	o.Key(name)
	if !known {
		o.B = append(o.B, "null"...)
	}
	return known
}

// Text writes a text; bytes that are no UTF-8 are replaced.
func (o *Object) Text(name, text string) {
	o.Key(name)
	o.B = appendString(o.B, text)
}

// Given is Text, or null where there is none.
func (o *Object) Given(name, text string) {
	if o.unless(name, text != "") {
		o.B = appendString(o.B, text)
	}
}

// Int writes a whole number.
func (o *Object) Int(name string, n int) {
	o.Key(name)
	o.B = strconv.AppendInt(o.B, int64(n), 10)
}

// Length writes a length as a decimal of millimetres.
func (o *Object) Length(name string, known bool, l measure.Length) {
	if o.unless(name, known) {
		o.B = inMM.append(o.B, l)
	}
}

// Share writes a probability or share.
func (o *Object) Share(name string, known bool, x float64) {
	if o.unless(name, known) {
		// Six digits: more would be noise that differs between machines.
		o.B = strconv.AppendFloat(o.B, x, 'g', 6, 64)
	}
}

// Minutes writes a time to a hundredth of a minute.
func (o *Object) Minutes(name string, known bool, x float64) {
	if o.unless(name, known) {
		o.B = strconv.AppendFloat(o.B, math.Round(x*100)/100, 'f', -1, 64)
	}
}

// amount writes nominal, least and most.
func (o *Object) amount(name string, known bool, a fitcalc.Amount, u unit) {
	if !o.unless(name, known) {
		return
	}
	o.B = append(o.B, `{"nominal":`...)
	o.B = u.append(o.B, a.Nominal)
	o.B = append(o.B, `,"least":`...)
	o.B = u.append(o.B, a.Least)
	o.B = append(o.B, `,"most":`...)
	o.B = u.append(o.B, a.Most)
	o.B = append(o.B, '}')
}

// Spread writes a size that varies as its nominal value under name and _mm, and beside it the same with its limits.
func (o *Object) Spread(name string, known bool, a fitcalc.Amount) {
	o.Length(name+"_mm", known, a.Nominal)
	o.amount(name+"_limits_mm", known, a, inMM)
}

func (o *Object) reasons(fit *fitcalc.Fit, l *say.Language, units fitcalc.Units) {
	o.Key("reasons")
	o.B = append(o.B, '[')
	for r := range fit.Reasons() {
		o.separate()
		o.B = append(o.B, '{')
		o.Text("code", r.Code.String())
		o.Text("text", l.Reason(r, units))
		o.B = append(o.B, '}')
	}
	o.B = append(o.B, ']')
}

// Strings writes a list of texts.
func (o *Object) Strings(name string, all iter.Seq[string]) {
	o.Key(name)
	o.B = append(o.B, '[')
	for text := range all {
		o.separate()
		o.B = appendString(o.B, text)
	}
	o.B = append(o.B, ']')
}

// Fields writes a list of fields by their codes.
func (o *Object) Fields(name string, fields []fitcalc.Field) {
	o.Strings(name, func(yield func(string) bool) {
		for _, f := range fields {
			if !yield(f.Code()) {
				return
			}
		}
	})
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

	readMM     = unit{measure.Micrometres(1), 1000}          // 0.001 mm
	readInches = unit{measure.Picometres(2_540_000), 10_000} // .0001 in
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

// appendEscaped goes the long way for the few texts that need it; unlike json.Marshal it leaves < and > as they are.
func appendEscaped(b []byte, text string) []byte {
	var quoted bytes.Buffer
	encoder := json.NewEncoder(&quoted)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(text); err != nil {
		return append(b, `""`...) // a string always has a JSON form, and a buffer takes it
	}
	return append(b, bytes.TrimSuffix(quoted.Bytes(), []byte("\n"))...)
}
