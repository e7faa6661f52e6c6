package joint

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

// Measured is a size that is readings of the very piece that the joint is of.
type Measured struct {
	Field    fitcalc.Field
	Readings []measure.Length
	// Size is what they come to: [sample.SizeOfPiece].
	Size sample.Size
}

// errFarApart: readings of one size do not differ by that much.
var errFarApart = errors.New("the readings lie too far apart to be of one size; is one a slip, or of another piece?")

var errNoSize = errors.New("is no size that can be read off an instrument")

// parseSize reads a size with its limits or class, or readings of it.
func parseSize(text string) (measure.Dim, []measure.Length, error) {
	d, err := limits.ParseDim(text)
	if err == nil {
		return d, nil, nil
	}
	readings, worse := measure.ParseReadings(text)
	switch {
	case worse == nil:
		return measure.Dim{}, readings, nil
	case strings.Contains(text, ";") || strings.Count(text, ", ") > 1 || strings.Count(text, "/") > 1:
		return measure.Dim{}, nil, worse // a list, and what is wrong with it
	}
	return measure.Dim{}, nil, err
}

// sized makes a size of readings. The tolerance of a single one is the shop's.
func sized(field fitcalc.Field, readings []measure.Length, c sample.Caliper, shop *fitcalc.Shop) (Measured, error) {
	if sample.FarApart(readings) {
		return Measured{}, errFarApart
	}
	c.Inside = field.Inside()
	size, err := sample.SizeOfPiece(readings, c, shop.Tolerance(field))
	return Measured{Field: field, Readings: readings, Size: size}, err
}

// reading is a field that was said by readings, until the shop is known.
type reading struct {
	field    *Field
	readings []measure.Length
	calipers sample.Caliper
}

// caliper is what readings come from where nothing is said beside them.
func (r *Reader) caliper() sample.Caliper {
	if r.Calipers == (sample.Caliper{}) {
		return sample.DefaultCaliper()
	}
	return r.Calipers
}

// SetReadings takes one field as readings of the piece in hand, one at least, by an instrument. The error is an [*Error].
func (r *Reader) SetReadings(f *Field, readings []measure.Length, c sample.Caliper) error {
	switch {
	case f.dim == nil:
		return &Error{Path: f.Path(), Err: errNoSize}
	case len(readings) == 0:
		return &Error{Path: f.Path(), Err: errors.New("has no readings")}
	}
	for _, l := range readings {
		if l.Sign() <= 0 {
			return &Error{Path: f.Path(), Err: fmt.Errorf("a reading of %v must be more than nothing", l)}
		}
	}
	r.readings = append(r.readings, reading{f, readings, c})
	return nil
}

// takeReadings puts the sizes that readings come to in place.
func (r *Reader) takeReadings(j *Joint, shop *fitcalc.Shop) error {
	for _, read := range r.readings {
		m, err := sized(read.field.Of, read.readings, read.calipers, shop)
		if err != nil {
			return &Error{Path: read.field.Path(), Err: err}
		}
		*read.field.dim(j) = m.Size.Dim
		j.Measured = append(j.Measured, m)
	}
	return nil
}

// readingsJSON is a size by its readings.
type readingsJSON struct {
	Readings   []string        `json:"readings"`
	Instrument *instrumentJSON `json:"instrument"`
}

// instrumentJSON is what the readings come from; what is left out is as usual.
type instrumentJSON struct {
	MaxError   *measure.Length `json:"max_error"`
	Resolution *measure.Length `json:"resolution"`
	JawGive    *measure.Length `json:"jaw_give"`
}

// UnmarshalJSON reads the object, or a text that is the greatest error.
func (i *instrumentJSON) UnmarshalJSON(data []byte) error {
	if bytes.HasPrefix(data, []byte{'"'}) {
		i.MaxError = new(measure.Length)
		return json.Unmarshal(data, i.MaxError)
	}
	type plain instrumentJSON
	return strictJSON(data, (*plain)(i))
}

// caliper is the instrument as it is said, and beyond that the usual one.
func (i *instrumentJSON) caliper(usual sample.Caliper) (sample.Caliper, error) {
	if i == nil {
		return usual, nil
	}
	for _, said := range []struct {
		by *measure.Length
		of *measure.Length
	}{{i.MaxError, &usual.MaxError}, {i.Resolution, &usual.Resolution}, {i.JawGive, &usual.JawGive}} {
		switch {
		case said.by == nil:
		case said.by.Sign() < 0:
			return usual, fmt.Errorf("instrument: %v is less than nothing", *said.by)
		default:
			*said.of = *said.by
		}
	}
	return usual, nil
}

// strictJSON does not pass over keys that there are not: a slip of the pen is never something left out.
func strictJSON(data []byte, into any) error {
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	return decoder.Decode(into)
}

// setReadingsJSON takes a field from an array of readings, or an object with them.
func (r *Reader) setReadingsJSON(f *Field, raw string) error {
	if f.dim == nil {
		return &Error{Path: f.Path(), Err: errNoSize}
	}
	said := readingsJSON{}
	var err error
	if raw[0] == '[' {
		err = strictJSON([]byte(raw), &said.Readings)
	} else {
		err = strictJSON([]byte(raw), &said)
	}
	if err != nil {
		return &Error{Path: f.Path(), Err: fmt.Errorf(`write readings as ["13.58 mm", "13.62 mm"] or {"readings": […], "instrument": {"max_error": "0.02 mm"}}: %w`, err)}
	}
	var readings []measure.Length
	for i, text := range said.Readings {
		l, err := measure.ParseLength(text)
		if err != nil {
			return &Error{Path: fmt.Sprintf("%s[%d]", f.Path(), i), Err: err}
		}
		readings = append(readings, l)
	}
	c, err := said.Instrument.caliper(r.caliper())
	if err != nil {
		return &Error{Path: f.Path(), Err: err}
	}
	return r.SetReadings(f, readings, c)
}

// hasKey reports whether a JSON object has a key at its top.
func hasKey(raw, key string) bool {
	var object map[string]json.RawMessage
	if json.Unmarshal([]byte(raw), &object) != nil {
		return false
	}
	_, has := object[key]
	return has
}

// measuredFields are the fields of the joint that were measured, also by whoever gave the size as measured.
func (j *Joint) measuredFields() []fitcalc.Field {
	return fitcalc.MeasuredFields(&j.Head, &j.Tip, &j.Ferrule)
}
