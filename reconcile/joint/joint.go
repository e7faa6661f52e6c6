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

const tipKey = "tip"

var fields = []Field{
	word(OfHead, "category", "driver, fairway, hybrid, iron, wedge, chipper or putter", func(r *Reader) *fitcalc.Category { return &r.joint.Head.Category }, fitcalc.ParseCategory),
	dim(OfHead, "hosel_od", fitcalc.FieldHoselOD, "outside diameter at the very top of the hosel", func(j *Joint) *measure.Dim { return &j.Head.HoselOD }),
	dim(OfHead, "bore", fitcalc.FieldHeadBore, "diameter of the hole that takes the tip; of a tapered one, at its bottom", func(j *Joint) *measure.Dim { return &j.Head.Bore }),
	word(OfHead, "bore_form", "parallel or taper", func(r *Reader) *fitcalc.BoreForm { return &r.joint.Head.BoreForm }, fitcalc.ParseBoreForm),
	dim(OfHead, "bore_depth", fitcalc.FieldBoreDepth, "how far the shaft can be pushed in, from the top of the hosel", func(j *Joint) *measure.Dim { return &j.Head.BoreDepth }),
	dim(OfHead, "hosel_length", fitcalc.FieldHoselLength, "length of the visible hosel", func(j *Joint) *measure.Dim { return &j.Head.HoselLength }),
	dim(OfHead, "neck_top", fitcalc.FieldNeckTop, "from the sole to the top of the neck, along the axis", func(j *Joint) *measure.Dim { return &j.Head.NeckTop }),
	word(OfHead, "top", "form of the hosel's top: flat, rounded, countersunk or counterbored", func(r *Reader) *fitcalc.TopForm { return &r.joint.Head.Top }, fitcalc.ParseTopForm),
	dim(OfHead, "countersink_mouth", fitcalc.FieldCountersinkMouth, "diameter of the countersink at the top", func(j *Joint) *measure.Dim { return &j.Head.Countersink.Mouth }),
	{Part: OfHead, Key: "countersink_angle", Of: fitcalc.FieldCountersinkAngle, Help: "included angle of the countersink: 60°", set: setAngle},
	dim(OfHead, "countersink_depth", fitcalc.FieldCountersinkDepth, "depth of the countersink", func(j *Joint) *measure.Dim { return &j.Head.Countersink.Depth }),
	dim(OfHead, "counterbore", fitcalc.FieldCounterbore, "diameter of the counterbore", func(j *Joint) *measure.Dim { return &j.Head.Counterbore.Diameter }),
	dim(OfHead, "counterbore_depth", fitcalc.FieldCounterboreDepth, "depth of the counterbore", func(j *Joint) *measure.Dim { return &j.Head.Counterbore.Depth }),
	dim(OfHead, "adapter_od", fitcalc.FieldAdapterOD, "outside diameter at the top of the adapter sleeve", func(j *Joint) *measure.Dim { return &j.Head.Adapter.TopOD }),
	dim(OfHead, "adapter_bore", fitcalc.FieldAdapterBore, "bore of the adapter sleeve", func(j *Joint) *measure.Dim { return &j.Head.Adapter.Bore }),
	dim(OfHead, "adapter_bore_depth", fitcalc.FieldAdapterBoreDepth, "bore depth of the adapter sleeve", func(j *Joint) *measure.Dim { return &j.Head.Adapter.BoreDepth }),

	{Part: OfTip, Key: tipKey, Of: fitcalc.FieldTip, Help: `".370 in parallel", ".355 in taper", ".355 in taper .0075 in/in to .370 in", or stations "0: .335 in, 1 in: .350 in"`, set: func(r *Reader, text string) error { r.tip = text; return nil }},
	{Part: OfTip, Key: "trim", Help: "how much is cut off the tip end", set: func(r *Reader, text string) (err error) { r.trim, err = measure.ParseLength(text); return err }},

	dim(OfFerrule, "bore", fitcalc.FieldFerruleBore, "inside diameter of the ferrule", func(j *Joint) *measure.Dim { return &j.Ferrule.Bore }),
	{Part: OfFerrule, Key: "for_tip", Of: fitcalc.FieldForTip, Help: `the tip that the ferrule is made for, ".370" or ".355 taper", where its bore is not known`, set: setForTip},
	dim(OfFerrule, "base_od", fitcalc.FieldBaseOD, "outside diameter at the base, before turning", func(j *Joint) *measure.Dim { return &j.Ferrule.BaseOD }),
	dim(OfFerrule, "top_od", fitcalc.FieldTopOD, "outside diameter at the top", func(j *Joint) *measure.Dim { return &j.Ferrule.TopOD }),
	dim(OfFerrule, "length", fitcalc.FieldLength, "height above the hosel's top, without collar or step", func(j *Joint) *measure.Dim { return &j.Ferrule.Length }),
	word(OfFerrule, "style", "plain, collared or stepped", func(r *Reader) *fitcalc.Style { return &r.joint.Ferrule.Style }, fitcalc.ParseStyle),
	dim(OfFerrule, "collar_od", fitcalc.FieldCollarOD, "outside diameter of the collar", func(j *Joint) *measure.Dim { return &j.Ferrule.Collar.OD }),
	dim(OfFerrule, "collar_length", fitcalc.FieldCollarLength, "length of the collar below the base", func(j *Joint) *measure.Dim { return &j.Ferrule.Collar.Length }),
	dim(OfFerrule, "step_od", fitcalc.FieldStepOD, "outside diameter of the step", func(j *Joint) *measure.Dim { return &j.Ferrule.Step.OD }),
	dim(OfFerrule, "step_length", fitcalc.FieldStepLength, "length of the step below the base", func(j *Joint) *measure.Dim { return &j.Ferrule.Step.Length }),
	{Part: OfFerrule, Key: "rings", Of: fitcalc.FieldRings, Help: "how many decorative rings", set: setRings},
	dim(OfFerrule, "ring_depth", fitcalc.FieldRingDepth, "how deep the rings go from the outside, per side", func(j *Joint) *measure.Dim { return &j.Ferrule.RingDepth }),
	dim(OfFerrule, "ring_height", fitcalc.FieldRingHeight, "where the lowest ring begins above the base", func(j *Joint) *measure.Dim { return &j.Ferrule.RingHeight }),
	word(OfFerrule, "material", "cellulose acetate, cellulose acetate butyrate, ABS, nylon, acetal or other", func(r *Reader) *fitcalc.Material { return &r.joint.Ferrule.Material }, fitcalc.ParseMaterial),
}

func dim(part Part, key string, of fitcalc.Field, help string, dim func(*Joint) *measure.Dim) Field {
	return Field{Part: part, Key: key, Of: of, Help: help, dim: dim}
}

// word is a field that takes one of a few words; its help lists them.
func word[T ~uint8](part Part, key, help string, at func(*Reader) *T, parse func(string) (T, bool)) Field {
	return Field{Part: part, Key: key, Help: help, set: func(r *Reader, text string) error {
		value, known := parse(text)
		if !known {
			return fmt.Errorf("%q is none of the words: %s", text, help)
		}
		*at(r) = value
		return nil
	}}
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
