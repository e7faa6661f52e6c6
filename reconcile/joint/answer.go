package joint

import (
	"strconv"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/fitjson"
)

// AppendAnswer appends the answer to one joint as a JSON object on one line, without its end. Line is the line of the question,
// id the JSON string or number of [Line]. Lengths are as in fits.jsonl: decimals of millimetres to 0.0001 mm, or of inches to
// .000001 in; what is not known is null.
func AppendAnswer(b []byte, line int, id string, fit *fitcalc.Fit, units fitcalc.Units) []byte {
	o := fitjson.Object{B: begin(b, line, id)}
	o.Fit(fit, units)
	o.Strings("assumptions", func(yield func(string) bool) {
		for a := range fit.Assumptions.All() {
			if !yield(a.Code()) {
				return
			}
		}
	})
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
