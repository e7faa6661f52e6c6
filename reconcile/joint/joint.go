package joint

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

// Joint is what is given of one joint.
type Joint struct {
	Head    fitcalc.Head
	Tip     fitcalc.Tip
	Ferrule fitcalc.Ferrule
	// Measured are the sizes that were said by readings of the pieces in hand.
	Measured []Measured
}

// Validate returns an [*Error] that names the field when no joint can have these sizes, and nil otherwise.
func (j *Joint) Validate() error {
	for _, err := range [...]error{j.Head.Validate(), j.Tip.Validate(), j.Ferrule.Validate()} {
		var input *fitcalc.InputError
		if errors.As(err, &input) {
			return &Error{Path: PathOf(input.Field), Err: err}
		}
	}
	return nil
}

// Error is a field that cannot be read, or that no joint can have.
type Error struct {
	// Path names the field as JSON does: head.hosel_od. It is empty where the whole text is at fault.
	Path string
	Err  error
}

func (e *Error) Error() string {
	if e.Path == "" {
		return e.Err.Error()
	}
	return e.Path + ": " + e.Err.Error()
}

// Unwrap returns the cause: a [*measure.ParseError] or a [*fitcalc.InputError] in most cases.
func (e *Error) Unwrap() error { return e.Err }

// Part is the part of a joint that a field belongs to.
type Part string

// The parts. The fields of the tip stand at the top of the JSON object.
const (
	OfHead    Part = "head"
	OfTip     Part = ""
	OfFerrule Part = "ferrule"
)

// Field is one thing that can be said of a joint.
type Field struct {
	Part Part
	// Key is the field's key in JSON.
	Key string
	// Of is how the engine calls the field, [fitcalc.NoField] where it is no dimension.
	Of fitcalc.Field
	// Help is a clause for people.
	Help string

	set func(*Reader, string) error
	dim func(*Joint) *measure.Dim
}

// Path names the field as [Error] does.
func (f *Field) Path() string {
	if f.Part == "" {
		return f.Key
	}
	return string(f.Part) + "." + f.Key
}

// Dim returns the field's dimension in a joint, and nil where the field is no dimension.
func (f *Field) Dim(j *Joint) *measure.Dim {
	if f.dim == nil {
		return nil
	}
	return f.dim(j)
}

// Fields returns all fields in the order in which people should meet them.
func Fields() []Field { return append([]Field(nil), fields...) }

// PathOf returns the path of one of the engine's fields, and nothing for one that cannot be said.
func PathOf(of fitcalc.Field) string {
	for i := range fields {
		if fields[i].Of == of && of != fitcalc.NoField {
			return fields[i].Path()
		}
	}
	return ""
}

// Reader takes the fields of one joint in any order. The zero Reader is ready to use.
type Reader struct {
	// Calipers are what readings come from where nothing else is said; the zero value is [sample.DefaultCaliper].
	Calipers sample.Caliper

	joint    Joint
	readings []reading
	tip      string
	trim     measure.Length
}

// Set takes one field as text: a size, or readings of the piece in hand. The error is an [*Error].
func (r *Reader) Set(f *Field, text string) error {
	if f.dim == nil {
		if err := f.set(r, text); err != nil {
			return &Error{Path: f.Path(), Err: err}
		}
		return nil
	}
	d, readings, err := parseSize(text)
	switch {
	case err != nil:
		return &Error{Path: f.Path(), Err: err}
	case readings != nil:
		return r.SetReadings(f, readings, r.caliper())
	}
	*f.dim(&r.joint) = d
	return nil
}

// Joint returns the joint that was said, valid. The shop gives the taper of a taper tip and the tolerance of a profile where
// the text does not. The error is an [*Error].
func (r *Reader) Joint(shop *fitcalc.Shop) (Joint, error) {
	j := r.joint
	if err := r.takeReadings(&j, shop); err != nil {
		return Joint{}, err
	}
	if r.tip != "" {
		tip, measured, err := parseTip(r.tip, shop, r.caliper())
		if err != nil {
			return Joint{}, &Error{Path: tipKey, Err: err}
		}
		j.Tip, j.Measured = tip.Trim(r.trim), append(j.Measured, measured...)
	}
	return j, j.Validate()
}

var tipKey = fitcalc.FieldTip.Key()

const trimKey = "trim"

// fields are the dimensions of the engine, in its order, and between them what else can be said.
var fields = func() []Field {
	var all []Field
	for _, of := range fitcalc.Fields() {
		all = append(append(append(all, before[of]...), fieldOf(of)), after[of]...)
	}
	return all
}()

// fieldOf is a field of the engine.
func fieldOf(of fitcalc.Field) Field {
	f := Field{Part: partOf[of.Owner()], Key: of.Key(), Of: of, Help: of.Means()}
	if set, special := setters[of]; special {
		f.set = set
		return f
	}
	f.dim = func(j *Joint) *measure.Dim {
		if f.Part == OfHead {
			return j.Head.Dim(of)
		}
		return j.Ferrule.Dim(of)
	}
	return f
}

var partOf = map[fitcalc.Owner]Part{fitcalc.OfHead: OfHead, fitcalc.OfTip: OfTip, fitcalc.OfFerrule: OfFerrule}

// setters read the fields of the engine that are no dimensions.
var setters = map[fitcalc.Field]func(*Reader, string) error{
	fitcalc.FieldTop:              setWord(fitcalc.FieldTop.Means(), func(r *Reader) *fitcalc.TopForm { return &r.joint.Head.Top }, fitcalc.ParseTopForm),
	fitcalc.FieldCountersinkAngle: setAngle,
	fitcalc.FieldTip:              func(r *Reader, text string) error { r.tip = text; return nil },
	fitcalc.FieldForTip:           setForTip,
	fitcalc.FieldRings:            setRings,
}

// before and after are what the engine has no field for, beside the field that people meet next or met last.
var (
	before = map[fitcalc.Field][]Field{
		fitcalc.FieldHoselOD: {word(OfHead, "category", "driver, fairway, hybrid, iron, wedge, chipper or putter",
			func(r *Reader) *fitcalc.Category { return &r.joint.Head.Category }, fitcalc.ParseCategory)},
		fitcalc.FieldBoreDepth: {word(OfHead, "bore_form", "parallel or taper",
			func(r *Reader) *fitcalc.BoreForm { return &r.joint.Head.BoreForm }, fitcalc.ParseBoreForm)},
		fitcalc.FieldCollarOD: {word(OfFerrule, "style", "plain, collared or stepped",
			func(r *Reader) *fitcalc.Style { return &r.joint.Ferrule.Style }, fitcalc.ParseStyle)},
	}
	after = map[fitcalc.Field][]Field{
		fitcalc.FieldTip: {{Part: OfTip, Key: trimKey, Help: "how much is cut off the tip end",
			set: func(r *Reader, text string) (err error) { r.trim, err = measure.ParseLength(text); return err }}},
		fitcalc.FieldRingHeight: {word(OfFerrule, "material", "cellulose acetate, cellulose acetate butyrate, ABS, nylon, acetal or other",
			func(r *Reader) *fitcalc.Material { return &r.joint.Ferrule.Material }, fitcalc.ParseMaterial)},
	}
)

// word is a field that takes one of a few words; its help lists them.
func word[T ~uint8](part Part, key, help string, at func(*Reader) *T, parse func(string) (T, bool)) Field {
	return Field{Part: part, Key: key, Help: help, set: setWord(help, at, parse)}
}

func setWord[T ~uint8](help string, at func(*Reader) *T, parse func(string) (T, bool)) func(*Reader, string) error {
	return func(r *Reader, text string) error {
		value, known := parse(text)
		if !known {
			return fmt.Errorf("%q is none of the words: %s", text, help)
		}
		*at(r) = value
		return nil
	}
}

func setAngle(r *Reader, text string) (err error) {
	r.joint.Head.Countersink.Angle, err = measure.ParseAngle(text)
	if err == nil && r.joint.Head.Countersink.Angle.IsZero() {
		err = errors.New("a countersink has an angle of more than nothing")
	}
	return err
}

func setForTip(r *Reader, text string) (err error) {
	r.joint.Ferrule.ForTip, err = fitcalc.ParseTipSize(text)
	return err
}

// mostRings is more than any ferrule carries.
const mostRings = 100

func setRings(r *Reader, text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > mostRings {
		return fmt.Errorf("%q is no number of rings: write a whole number from 0 to %d", text, mostRings)
	}
	r.joint.Ferrule.Rings = n
	return nil
}
