package data

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
)

// object writes one JSON object on one line, key by key. A catalogue has hundreds of thousands of lines, and going by way of
// reflection takes several times as long.
type object struct {
	b []byte
	// quoted holds a string that needs escapes while it is escaped.
	quoted bytes.Buffer
}

func (o *object) reset() { o.b = append(o.b[:0], '{') }

// line ends the object and returns it with the end of the line. It is overwritten by the next.
func (o *object) line() []byte {
	o.b = append(o.b, "}\n"...)
	return o.b
}

// key begins a member.
func (o *object) key(name string) {
	o.separate()
	o.b = append(o.b, '"')
	o.b = append(o.b, name...)
	o.b = append(o.b, `":`...)
}

// separate writes the comma that stands before any but the first member or element.
func (o *object) separate() {
	if last := o.b[len(o.b)-1]; last != '{' && last != '[' {
		o.b = append(o.b, ',')
	}
}

func (o *object) null() { o.b = append(o.b, "null"...) }

// string appends text as a JSON string; bytes that are no UTF-8 are replaced.
func (o *object) string(text string) {
	if simple(text) {
		o.b = append(o.b, '"')
		o.b = append(o.b, text...)
		o.b = append(o.b, '"')
		return
	}
	o.quoted.Reset()
	encoder := json.NewEncoder(&o.quoted)
	encoder.SetEscapeHTML(false)
	_ = encoder.Encode(text) // a string has a JSON form, and a bytes.Buffer takes it
	o.b = append(o.b, bytes.TrimSuffix(o.quoted.Bytes(), []byte("\n"))...)
}

// simple reports whether text stands in JSON as it is.
func simple(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return r < ' ' || r > '~' || r == '"' || r == '\\' })
}

func (o *object) text(name, text string) {
	o.key(name)
	o.string(text)
}

// given is text, or null where there is none.
func (o *object) given(name, text string) {
	o.key(name)
	if text == "" {
		o.null()
		return
	}
	o.string(text)
}

// number writes a number, or null where it is not known.
func (o *object) number(name string, known bool, n func() json.Number) {
	o.key(name)
	if !known {
		o.null()
		return
	}
	o.b = append(o.b, n()...)
}

func (o *object) ratio(name string, known bool, x float64) {
	o.number(name, known, func() json.Number { return ratio(x) })
}

func (o *object) length(name string, known bool, l measure.Length) {
	o.number(name, known, func() json.Number { return mm(l) })
}

// size writes the nominal size of a dimension in mm, null where it is not given.
func (o *object) size(name string, d measure.Dim) { o.length(name, d.Given(), d.Nominal()) }

// amount writes nominal, least and most, or null where they are not known.
func (o *object) amount(name string, known bool, a fitcalc.Amount, unit func(measure.Length) json.Number) {
	o.key(name)
	if !known {
		o.null()
		return
	}
	o.b = append(o.b, `{"nominal":`...)
	o.b = append(o.b, unit(a.Nominal)...)
	o.b = append(o.b, `,"least":`...)
	o.b = append(o.b, unit(a.Least)...)
	o.b = append(o.b, `,"most":`...)
	o.b = append(o.b, unit(a.Most)...)
	o.b = append(o.b, '}')
}

func (o *object) source(name string, s catalog.Source) {
	o.key(name)
	o.b = append(o.b, '{')
	o.text("file", s.File)
	o.text("sheet", s.Sheet)
	o.key("row")
	o.b = strconv.AppendInt(o.b, int64(s.Row), 10)
	o.b = append(o.b, '}')
}

func (o *object) strings(name string, all []string) {
	o.key(name)
	o.b = append(o.b, '[')
	for _, text := range all {
		o.separate()
		o.string(text)
	}
	o.b = append(o.b, ']')
}

func (o *object) reasons(fit *fitcalc.Fit) {
	o.key("reasons")
	o.b = append(o.b, '[')
	for r := range fit.Reasons() {
		o.separate()
		o.b = append(o.b, '{')
		o.text("code", r.Code.String())
		o.text("text", r.Sentence(fitcalc.Metric))
		o.b = append(o.b, '}')
	}
	o.b = append(o.b, ']')
}
