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

// fieldCodes are the fields as outputs call them. A sheet's columns and the keys of a joint have the same names, but for the bore
// and the length of the ferrule.
var fieldCodes = [...]string{
	FieldHoselOD:          "hosel_od",
	FieldHeadBore:         "bore",
	FieldBoreDepth:        "bore_depth",
	FieldHoselLength:      "hosel_length",
	FieldNeckTop:          "neck_top",
	FieldTop:              "top",
	FieldCountersinkMouth: "countersink_mouth",
	FieldCountersinkAngle: "countersink_angle",
	FieldCountersinkDepth: "countersink_depth",
	FieldCounterbore:      "counterbore",
	FieldCounterboreDepth: "counterbore_depth",
	FieldAdapterOD:        "adapter_od",
	FieldAdapterBore:      "adapter_bore",
	FieldAdapterBoreDepth: "adapter_bore_depth",
	FieldTip:              "tip",
	FieldFerruleBore:      "ferrule_bore",
	FieldBaseOD:           "base_od",
	FieldTopOD:            "top_od",
	FieldLength:           "ferrule_length",
	FieldCollarOD:         "collar_od",
	FieldCollarLength:     "collar_length",
	FieldStepOD:           "step_od",
	FieldStepLength:       "step_length",
	FieldRingDepth:        "ring_depth",
	FieldRingHeight:       "ring_height",
	FieldForTip:           "for_tip",
	FieldRings:            "rings",
}

// Code returns the field as outputs call it: hosel_od.
func (f Field) Code() string { return nameOf(fieldCodes[:], f) }

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
