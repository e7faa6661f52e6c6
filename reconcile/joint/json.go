package joint

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/sample"
)

// Line is one joint as a line of JSON says it.
type Line struct {
	// ID is the JSON string or number by which the asker knows the joint; empty where there is none.
	ID    string
	Joint Joint
}

// byKey finds the fields of each part.
var byKey = map[Part]map[string]int{OfHead: {}, OfTip: {}, OfFerrule: {}}

func init() {
	for i := range fields {
		byKey[fields[i].Part][fields[i].Key] = i
	}
}

// ParseJSON reads a JSON object. The error is an [*Error]; what was read of the ID is returned with it.
// Readings are by the usual calipers where nothing is said beside them.
func ParseJSON(text []byte, shop *fitcalc.Shop) (Line, error) {
	return parseJSON(text, shop, sample.Caliper{})
}

func parseJSON(text []byte, shop *fitcalc.Shop, calipers sample.Caliper) (Line, error) {
	// With the syntax checked by the standard library, the walk below may trust it.
	if !json.Valid(text) {
		return Line{}, &Error{Err: syntaxError(text)}
	}
	if !utf8.Valid(text) {
		return Line{}, &Error{Err: errors.New("is not UTF-8")}
	}
	d := decoder{walker: walker{text: string(text)}, reader: Reader{Calipers: calipers}}
	if err := d.object("", d.top); err != nil {
		return Line{ID: d.id}, err
	}
	j, err := d.reader.Joint(shop)
	return Line{ID: d.id, Joint: j}, err
}

// syntaxError lets the decoder say what is wrong with text that is not valid.
func syntaxError(text []byte) error {
	var any json.RawMessage
	if err := json.Unmarshal(text, &any); err != nil {
		return fmt.Errorf("is no JSON: %w", err)
	}
	return errors.New("is no JSON")
}

// decoder walks one object.
type decoder struct {
	walker
	reader Reader
	id     string
	seen   uint64 // a bit for each field
	parts  uint8  // a bit for each other key of the object
}

func (d *decoder) top(key string) error {
	switch key {
	case "id":
		return d.takeID()
	case string(OfHead):
		if err := d.once(1<<1, key); err != nil {
			return err
		}
		return d.object(key, func(key string) error { return d.field(OfHead, key) })
	case string(OfFerrule):
		if err := d.once(1<<2, key); err != nil {
			return err
		}
		return d.object(key, func(key string) error { return d.field(OfFerrule, key) })
	}
	return d.field(OfTip, key)
}

func (d *decoder) once(bit uint8, path string) error {
	if d.parts&bit != 0 {
		return &Error{Path: path, Err: errors.New("stands twice")}
	}
	d.parts |= bit
	return nil
}

func (d *decoder) takeID() error {
	if err := d.once(1, "id"); err != nil {
		return err
	}
	switch raw := d.value(); raw[0] {
	case 'n':
	case '{', '[', 't', 'f':
		return &Error{Path: "id", Err: errors.New("must be a string or a number")}
	default:
		d.id = raw
	}
	return nil
}

// object walks the members of an object; null is none.
func (d *decoder) object(path string, member func(key string) error) error {
	switch d.peek() {
	case 'n':
		d.value()
		return nil
	case '{':
	default:
		return &Error{Path: path, Err: fmt.Errorf("must be an object, not %s", d.value())}
	}
	for d.pos++; d.peek() != '}'; {
		key, err := unquote(d.value())
		if err != nil {
			return &Error{Path: path, Err: err}
		}
		d.peek()
		d.pos++ // the colon
		if err := member(key); err != nil {
			return err
		}
		if d.peek() == ',' {
			d.pos++
		}
	}
	d.pos++
	return nil
}

func (d *decoder) field(part Part, key string) error {
	at, known := byKey[part][key]
	if !known {
		path := key
		if part != "" {
			path = string(part) + "." + key
		}
		return &Error{Path: path, Err: unknownKey(part)}
	}
	f := &fields[at]
	if d.seen>>at&1 == 1 {
		return &Error{Path: f.Path(), Err: errors.New("stands twice")}
	}
	d.seen |= 1 << at
	d.peek()
	switch raw := d.value(); raw[0] {
	case 'n':
		return nil
	case '"':
		text, err := unquote(raw)
		if err != nil {
			return &Error{Path: f.Path(), Err: err}
		}
		return d.reader.Set(f, text)
	case '[':
		return d.reader.setReadingsJSON(f, raw)
	case '{':
		if f.dim != nil && hasKey(raw, "readings") {
			return d.reader.setReadingsJSON(f, raw)
		}
		return d.dimObject(f, raw)
	default:
		if f.Of == fitcalc.FieldRings {
			return d.reader.Set(f, raw)
		}
		return &Error{Path: f.Path(), Err: fmt.Errorf(`%s has no unit: write a text such as "13.6 mm" or ".535 in ±.002"`, raw)}
	}
}

func (d *decoder) dimObject(f *Field, raw string) error {
	dim := f.Dim(&d.reader.joint)
	if dim == nil {
		return &Error{Path: f.Path(), Err: errors.New("must be a text")}
	}
	if err := dim.UnmarshalJSON([]byte(raw)); err != nil {
		return &Error{Path: f.Path(), Err: err}
	}
	return nil
}

func unknownKey(part Part) error {
	keys := []string{}
	if part == OfTip {
		keys = append(keys, "id", string(OfHead), string(OfFerrule))
	}
	for i := range fields {
		if fields[i].Part == part {
			keys = append(keys, fields[i].Key)
		}
	}
	return fmt.Errorf("there is no such key; the keys are %s", strings.Join(keys, ", "))
}

// walker steps through JSON that is valid.
type walker struct {
	text string
	pos  int
}

// peek skips white space and returns what follows.
func (w *walker) peek() byte {
	for w.pos < len(w.text) {
		switch c := w.text[w.pos]; c {
		case ' ', '\t', '\n', '\r':
			w.pos++
		default:
			return c
		}
	}
	return 0
}

// value steps over a value and returns it as it stands.
func (w *walker) value() string {
	w.peek()
	start, depth := w.pos, 0
	for w.pos < len(w.text) {
		switch w.text[w.pos] {
		case '"':
			w.skipString()
			if depth == 0 {
				return w.text[start:w.pos]
			}
			continue
		case '{', '[':
			depth++
		case '}', ']':
			if depth == 0 {
				return w.text[start:w.pos]
			}
			if depth--; depth == 0 {
				w.pos++
				return w.text[start:w.pos]
			}
		case ',', ':', ' ', '\t', '\n', '\r':
			if depth == 0 {
				return w.text[start:w.pos]
			}
		}
		w.pos++
	}
	return w.text[start:]
}

func (w *walker) skipString() {
	for w.pos++; w.text[w.pos] != '"'; w.pos++ {
		if w.text[w.pos] == '\\' {
			w.pos++
		}
	}
	w.pos++
}

func unquote(raw string) (string, error) {
	if strings.IndexByte(raw, '\\') < 0 {
		return raw[1 : len(raw)-1], nil
	}
	var text string
	err := json.Unmarshal([]byte(raw), &text)
	return text, err
}
