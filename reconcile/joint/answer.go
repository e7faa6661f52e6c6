package joint

import (
	"strconv"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/fitjson"
)

// AppendAnswer appends the answer to one joint as a JSON object on one line, without its end. Line is the line of the question,
// id the JSON string or number of [Line]. Lengths are as in fits.jsonl: decimals of millimetres to 0.0001 mm, or of inches to
// .000001 in; what is not known is null. Doubts are the sizes of the joint that should be looked at again; there is no member for
// them where there are none. Measured are the fields of the joint whose sizes come from readings.
func AppendAnswer(b []byte, line int, id string, fit *fitcalc.Fit, doubts []fitcalc.Doubt, measured []fitcalc.Field, l *say.Language, units fitcalc.Units) []byte {
	o := fitjson.Object{B: begin(b, line, id)}
	o.Fit(fit, l, units)
	o.Strings("assumptions", func(yield func(string) bool) {
		for a := range fit.Assumptions.All() {
			if !yield(a.Code()) {
				return
			}
		}
	})
	if len(doubts) > 0 {
		o.Key("doubts")
		o.B = append(o.B, '[')
		for i, d := range doubts {
			if i > 0 {
				o.B = append(o.B, ',')
			}
			o.B = appendDoubt(o.B, d)
		}
		o.B = append(o.B, ']')
	}
	o.Fields("measured", measured)
	return append(o.B, '}')
}

func appendDoubt(b []byte, d fitcalc.Doubt) []byte {
	o := fitjson.Object{B: append(b, '{')}
	o.Text("field", PathOf(d.Field))
	o.Text("size", d.Size.String())
	if d.Likely.Sign() > 0 {
		o.Text("likely", d.Likely.String())
	}
	return append(o.B, '}')
}

// AppendError appends the answer to a line that cannot be answered: an object with an error of field, message and line.
func AppendError(b []byte, line int, id, field, message string) []byte {
	o := fitjson.Object{B: begin(b, line, id)}
	o.Key("error")
	o.B = append(o.B, '{')
	o.Text("field", field)
	o.Text("message", message)
	o.Int("line", line)
	return append(o.B, "}}"...)
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
