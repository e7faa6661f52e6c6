package fitcalc

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
)

// Field names one input of a joint.
type Field uint8

const (
	NoField Field = iota
	FieldHoselOD
	FieldHeadBore
	FieldBoreDepth
	FieldHoselLength
	FieldNeckTop
	FieldTop
	FieldCountersinkMouth
	FieldCountersinkAngle
	FieldCountersinkDepth
	FieldCounterbore
	FieldCounterboreDepth
	FieldAdapterOD
	FieldAdapterBore
	FieldAdapterBoreDepth
	FieldTip
	FieldFerruleBore
	FieldBaseOD
	FieldTopOD
	FieldLength
	FieldCollarOD
	FieldCollarLength
	FieldStepOD
	FieldStepLength
	FieldRingDepth
	FieldRingHeight
	FieldRings
	FieldForTip
)

var fieldNames = [...]string{
	FieldHoselOD:          "hosel OD",
	FieldHeadBore:         "bore of the head",
	FieldBoreDepth:        "bore depth",
	FieldHoselLength:      "hosel length",
	FieldNeckTop:          "neck top above the sole",
	FieldTop:              "form of the hosel's top",
	FieldCountersinkMouth: "countersink mouth",
	FieldCountersinkAngle: "countersink angle",
	FieldCountersinkDepth: "countersink depth",
	FieldCounterbore:      "counterbore diameter",
	FieldCounterboreDepth: "counterbore depth",
	FieldAdapterOD:        "adapter OD",
	FieldAdapterBore:      "adapter bore",
	FieldAdapterBoreDepth: "adapter bore depth",
	FieldTip:              "tip",
	FieldFerruleBore:      "bore of the ferrule",
	FieldBaseOD:           "base OD",
	FieldTopOD:            "top OD",
	FieldLength:           "length of the ferrule",
	FieldCollarOD:         "collar OD",
	FieldCollarLength:     "collar length",
	FieldStepOD:           "step OD",
	FieldStepLength:       "step length",
	FieldRingDepth:        "ring depth",
	FieldRingHeight:       "ring height",
	FieldRings:            "number of rings",
	FieldForTip:           "tip that the ferrule is for",
}

// String returns the field as a person would call it: hosel OD.
func (f Field) String() string { return nameOf(fieldNames[:], f) }

// InputError reports an input that no joint can have: a size that is not positive, beyond reason, or at odds with
// another. Data that is merely missing is no error; it makes the verdict [Ask].
type InputError struct {
	Field Field
	// Size is the offending size, zero where it is not a length.
	Size measure.Length
	// Other is the field that Field is at odds with, if any.
	Other Field
	// Reason says what is wrong, as the end of a sentence.
	Reason string
}

func (e *InputError) Error() string {
	text := e.Field.String()
	if !e.Size.IsZero() {
		text += " " + e.Size.String()
	}
	return fmt.Sprintf("%s: %s", text, e.Reason)
}
