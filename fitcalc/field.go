package fitcalc

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
)

// Field names one input of a joint. What is known of it whatever the joint stands in one table, from which everything that goes through
// the dimensions of a joint is made: [Head.Validate] and its kin, [Sensitivity], [Doubts], and elsewhere the members of a joint as JSON,
// the flags of the command, the columns of catalogues and the questions about them.
type Field uint8

// The fields, in the order in which people should meet them.
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
	FieldForTip
	FieldBaseOD
	FieldTopOD
	FieldLength
	FieldCollarOD
	FieldCollarLength
	FieldStepOD
	FieldStepLength
	FieldRings
	FieldRingDepth
	FieldRingHeight
	fieldCount
)

// Owner is the part of a joint that has a field.
type Owner uint8

const (
	NoOwner Owner = iota
	OfHead
	OfTip
	OfFerrule
)

var ownerNames = [...]string{"", "head", "tip", "ferrule"}

// String returns head, tip or ferrule.
func (o Owner) String() string { return nameOf(ownerNames[:], o) }

// FieldKind is what kind of thing a field is.
type FieldKind uint8

const (
	NoKind FieldKind = iota
	// KindDiameter is an outside diameter, KindHole that of a hole, which is measured with the inside jaws.
	KindDiameter
	KindHole
	// KindAlong is a length along the axis, KindFromBase one that says where something begins and may be nothing.
	KindAlong
	KindFromBase
	// KindRadial is a length per side.
	KindRadial
	// KindAngle is an included angle, KindForm one of a few forms, KindCount a whole number, KindTipSize the size of a tip.
	KindAngle
	KindForm
	KindCount
	KindTipSize
)

// IsLength reports whether a field of the kind is a dimension: a [measure.Dim] of its part.
func (k FieldKind) IsLength() bool { return k >= KindDiameter && k <= KindRadial }

// IsDiameter reports whether it is one that counts on the diameter.
func (k FieldKind) IsDiameter() bool { return k == KindDiameter || k == KindHole }

// fieldRow is what is known of a field whatever the joint.
type fieldRow struct {
	owner Owner
	kind  FieldKind
	// key is how the field's part calls it as JSON, and so do the columns of catalogues unless column says otherwise; code is how
	// outputs call it, the key where that is not said.
	key, code, column string
	// name is what a person calls it, and means says in a clause what it is.
	name, means string
	// tolerance is which of the shop's it has where its source states none.
	tolerance shopTolerance
	// moved is set where verdicts hang on the dimension, so that [Sensitivity] moves it and [Doubts] looks at it.
	moved bool
	usual UsualSize
}

// noColumn is the column of what no catalogue gives.
const noColumn = "-"

// fieldTable is the table of fields. The usual sizes are common practice, from memory and without a published source: tips are between
// .335 and .400 in, and what is glued to them is not much larger.
var fieldTable = [fieldCount]fieldRow{
	FieldHoselOD: {owner: OfHead, kind: KindDiameter, key: "hosel_od", name: "hosel OD", means: "outside diameter at the very top of the hosel",
		tolerance: toleranceOfHosel, moved: true, usual: UsualSize{9.6, 22, 10.5, 18}},
	FieldHeadBore: {owner: OfHead, kind: KindHole, key: "bore", name: "bore of the head",
		means:     "diameter of the hole that takes the tip; of a tapered one, at its bottom",
		tolerance: toleranceOfBore, moved: true, usual: UsualSize{8, 12.5, 8.4, 10.4}},
	FieldBoreDepth: {owner: OfHead, kind: KindAlong, key: "bore_depth", name: "bore depth",
		means:     "how far the shaft can be pushed in, from the top of the hosel",
		tolerance: toleranceOfLengths, moved: true, usual: UsualSize{8, 100, 20, 60}},
	FieldHoselLength: {owner: OfHead, kind: KindAlong, key: "hosel_length", name: "hosel length", means: "length of the visible hosel",
		tolerance: toleranceOfLengths, usual: UsualSize{8, 150, 15, 110}},
	FieldNeckTop: {owner: OfHead, kind: KindAlong, key: "neck_top", name: "neck top above the sole",
		means:     "from the sole to the top of the neck, along the axis",
		tolerance: toleranceOfLengths, usual: UsualSize{10, 250, 30, 130}},
	FieldTop: {owner: OfHead, kind: KindForm, key: "top", name: "form of the hosel's top",
		means: "form of the hosel's top: flat, rounded, countersunk or counterbored"},
	FieldCountersinkMouth: {owner: OfHead, kind: KindHole, key: "countersink_mouth", name: "countersink mouth",
		means:     "diameter of the countersink at the top",
		tolerance: toleranceOfRecess, moved: true, usual: UsualSize{8.2, 18, 9, 14}},
	FieldCountersinkAngle: {owner: OfHead, kind: KindAngle, key: "countersink_angle", name: "countersink angle",
		means: "included angle of the countersink: 60°"},
	FieldCountersinkDepth: {owner: OfHead, kind: KindAlong, key: "countersink_depth", name: "countersink depth", means: "depth of the countersink",
		tolerance: toleranceOfRecess, moved: true, usual: UsualSize{0.05, 12, 0.3, 5}},
	FieldCounterbore: {owner: OfHead, kind: KindHole, key: "counterbore", name: "counterbore diameter", means: "diameter of the counterbore",
		tolerance: toleranceOfRecess, moved: true, usual: UsualSize{8.2, 18, 9, 14}},
	FieldCounterboreDepth: {owner: OfHead, kind: KindAlong, key: "counterbore_depth", name: "counterbore depth", means: "depth of the counterbore",
		tolerance: toleranceOfRecess, moved: true, usual: UsualSize{0.2, 30, 0.5, 20}},
	FieldAdapterOD: {owner: OfHead, kind: KindDiameter, key: "adapter_od", name: "adapter OD", means: "outside diameter at the top of the adapter sleeve",
		tolerance: toleranceOfHosel, moved: true, usual: UsualSize{9.6, 22, 10.5, 18}},
	FieldAdapterBore: {owner: OfHead, kind: KindHole, key: "adapter_bore", column: "bore", name: "adapter bore", means: "bore of the adapter sleeve",
		tolerance: toleranceOfBore, moved: true, usual: UsualSize{8, 12.5, 8.4, 10.4}},
	FieldAdapterBoreDepth: {owner: OfHead, kind: KindAlong, key: "adapter_bore_depth", column: "bore_depth", name: "adapter bore depth",
		means:     "bore depth of the adapter sleeve",
		tolerance: toleranceOfLengths, moved: true, usual: UsualSize{8, 100, 20, 60}},
	FieldTip: {owner: OfTip, kind: KindDiameter, key: "tip", name: "tip",
		means:     `".370 in parallel", ".355 in taper", ".355 in taper .0075 in/in to .370 in", or stations "0: .335 in, 1 in: .350 in"`,
		tolerance: toleranceOfTip, moved: true, usual: UsualSize{7.5, 11, 8.4, 10.3}},
	FieldFerruleBore: {owner: OfFerrule, kind: KindHole, key: "bore", code: "ferrule_bore", name: "bore of the ferrule",
		means:     "inside diameter of the ferrule",
		tolerance: toleranceOfFerruleBore, moved: true, usual: UsualSize{7.8, 11.5, 8.3, 10.2}},
	FieldForTip: {owner: OfFerrule, kind: KindTipSize, key: "for_tip", column: "tip", name: "tip that the ferrule is for",
		means: `the tip that the ferrule is made for, ".370" or ".355 taper", where its bore is not known`},
	FieldBaseOD: {owner: OfFerrule, kind: KindDiameter, key: "base_od", name: "base OD", means: "outside diameter at the base, before turning",
		tolerance: toleranceOfFerruleOD, moved: true, usual: UsualSize{9.2, 22, 10, 18}},
	FieldTopOD: {owner: OfFerrule, kind: KindDiameter, key: "top_od", name: "top OD", means: "outside diameter at the top",
		tolerance: toleranceOfFerruleOD, usual: UsualSize{8.2, 20, 8.8, 14}},
	FieldLength: {owner: OfFerrule, kind: KindAlong, key: "length", code: "ferrule_length", name: "length of the ferrule",
		means:     "height above the hosel's top, without collar or step",
		tolerance: toleranceOfLengths, moved: true, usual: UsualSize{2.5, 100, 5, 60}},
	FieldCollarOD: {owner: OfFerrule, kind: KindDiameter, key: "collar_od", name: "collar OD", means: "outside diameter of the collar",
		tolerance: toleranceOfFerruleOD, moved: true, usual: UsualSize{8, 16, 9, 13}},
	FieldCollarLength: {owner: OfFerrule, kind: KindAlong, key: "collar_length", name: "collar length", means: "length of the collar below the base",
		tolerance: toleranceOfLengths, moved: true, usual: UsualSize{0.2, 10, 0.5, 4}},
	FieldStepOD: {owner: OfFerrule, kind: KindDiameter, key: "step_od", name: "step OD", means: "outside diameter of the step",
		tolerance: toleranceOfFerruleOD, moved: true, usual: UsualSize{8, 16, 9, 13}},
	FieldStepLength: {owner: OfFerrule, kind: KindAlong, key: "step_length", name: "step length", means: "length of the step below the base",
		tolerance: toleranceOfLengths, moved: true, usual: UsualSize{0.2, 40, 2, 20}},
	FieldRings: {owner: OfFerrule, kind: KindCount, key: "rings", name: "number of rings", means: "how many decorative rings"},
	FieldRingDepth: {owner: OfFerrule, kind: KindRadial, key: "ring_depth", column: noColumn, name: "ring depth",
		means:     "how deep the rings go from the outside, per side",
		tolerance: toleranceOfLengths, moved: true},
	FieldRingHeight: {owner: OfFerrule, kind: KindFromBase, key: "ring_height", column: noColumn, name: "ring height",
		means:     "where the lowest ring begins above the base",
		tolerance: toleranceOfLengths},
}

// around says that a field is usually larger than another, wherever both are given.
type around struct{ outer, inner Field }

// headOrder and ferruleOrder are which dimensions of a part lie around which.
var headOrder = [...]around{
	{FieldHoselOD, FieldHeadBore},
	{FieldHoselOD, FieldCountersinkMouth},
	{FieldHoselOD, FieldCounterbore},
	{FieldCountersinkMouth, FieldHeadBore},
	{FieldCounterbore, FieldHeadBore},
	{FieldAdapterOD, FieldAdapterBore},
}

var ferruleOrder = [...]around{
	{FieldBaseOD, FieldFerruleBore},
	{FieldBaseOD, FieldForTip},
	{FieldTopOD, FieldFerruleBore},
	{FieldCollarOD, FieldFerruleBore},
	{FieldStepOD, FieldFerruleBore},
	{FieldBaseOD, FieldCollarOD},
	{FieldBaseOD, FieldStepOD},
}

// Dim returns the head's dimension of a field, to read or to set, and nil for a field that is none of its dimensions.
func (h *Head) Dim(f Field) *measure.Dim {
	switch f { // and no table of functions: they would take the head to the heap
	case FieldHoselOD:
		return &h.HoselOD
	case FieldHeadBore:
		return &h.Bore
	case FieldBoreDepth:
		return &h.BoreDepth
	case FieldHoselLength:
		return &h.HoselLength
	case FieldNeckTop:
		return &h.NeckTop
	case FieldCountersinkMouth:
		return &h.Countersink.Mouth
	case FieldCountersinkDepth:
		return &h.Countersink.Depth
	case FieldCounterbore:
		return &h.Counterbore.Diameter
	case FieldCounterboreDepth:
		return &h.Counterbore.Depth
	case FieldAdapterOD:
		return &h.Adapter.TopOD
	case FieldAdapterBore:
		return &h.Adapter.Bore
	case FieldAdapterBoreDepth:
		return &h.Adapter.BoreDepth
	}
	return nil
}

// Dim returns the ferrule's dimension of a field, to read or to set, and nil for a field that is none of its dimensions.
func (f *Ferrule) Dim(field Field) *measure.Dim {
	switch field {
	case FieldFerruleBore:
		return &f.Bore
	case FieldBaseOD:
		return &f.BaseOD
	case FieldTopOD:
		return &f.TopOD
	case FieldLength:
		return &f.Length
	case FieldCollarOD:
		return &f.Collar.OD
	case FieldCollarLength:
		return &f.Collar.Length
	case FieldStepOD:
		return &f.Step.OD
	case FieldStepLength:
		return &f.Step.Length
	case FieldRingDepth:
		return &f.RingDepth
	case FieldRingHeight:
		return &f.RingHeight
	}
	return nil
}

// dim is the tip's only dimension, that of its end.
func (t *Tip) dim(f Field) *measure.Dim {
	if f == FieldTip {
		return &t.end
	}
	return nil
}

// Fields returns all fields of a joint, those of the head first, then of the tip and of the ferrule.
func Fields() []Field { return fieldsWhere(func(*fieldRow) bool { return true }) }

// FieldsOf returns the fields of one part of a joint.
func FieldsOf(o Owner) []Field { return fieldsWhere(func(r *fieldRow) bool { return r.owner == o }) }

func fieldsWhere(wanted func(*fieldRow) bool) []Field {
	var fields []Field
	for f := NoField + 1; f < fieldCount; f++ {
		if wanted(&fieldTable[f]) {
			fields = append(fields, f)
		}
	}
	return fields
}

// dimensionsOf are the fields of a part that are dimensions.
func dimensionsOf(o Owner) []Field {
	return fieldsWhere(func(r *fieldRow) bool { return r.owner == o && r.kind.IsLength() })
}

var (
	headDimensions    = dimensionsOf(OfHead)
	ferruleDimensions = dimensionsOf(OfFerrule)
)

// row is that of a field, an empty one for what is no field.
func (f Field) row() *fieldRow {
	if f >= fieldCount {
		f = NoField
	}
	return &fieldTable[f]
}

// fieldNames are the fields as people call them.
var fieldNames = func() (names [fieldCount]string) {
	for f := range fieldTable {
		names[f] = fieldTable[f].name
	}
	return names
}()

// String returns the field as a person would call it: hosel OD.
func (f Field) String() string { return f.row().name }

// Code returns the field as outputs call it, which tells it from all others: hosel_od, ferrule_bore.
func (f Field) Code() string {
	if r := f.row(); r.code != "" {
		return r.code
	}
	return f.row().key
}

// Key returns the field as its part calls it in JSON: hosel_od, and bore for those of head and ferrule.
func (f Field) Key() string { return f.row().key }

// Column returns the role of the column of a catalogue that gives the field, and nothing where none does. Sheets have one bore and one
// depth, which are those of the adapter where there is one.
func (f Field) Column() string {
	switch r := f.row(); r.column {
	case noColumn:
		return ""
	case "":
		return r.key
	default:
		return r.column
	}
}

// Means says in a clause what the field is, and how it is written where that is no size.
func (f Field) Means() string { return f.row().means }

// Owner returns the part of the joint that has the field.
func (f Field) Owner() Owner { return f.row().owner }

// Kind returns what kind of thing the field is.
func (f Field) Kind() FieldKind { return f.row().kind }

// Inside reports whether a field is the diameter of a hole, which is measured with the inside jaws.
func (f Field) Inside() bool { return f.row().kind == KindHole }

// Usual returns between which sizes a dimension lies, and false for a field that is none or whose sizes are not known.
func (f Field) Usual() (UsualSize, bool) {
	u := f.row().usual
	return u, u.Most > 0
}

// shopTolerance is one of the tolerances of a shop.
type shopTolerance uint8

const (
	noTolerance shopTolerance = iota
	toleranceOfHosel
	toleranceOfBore
	toleranceOfTip
	toleranceOfFerruleBore
	toleranceOfFerruleOD
	toleranceOfRecess
	toleranceOfLengths
)

// Tolerance returns the ± that a size has where its source states none; nothing for a field that is no toleranced size.
func (s Shop) Tolerance(f Field) measure.Length {
	switch f.row().tolerance {
	case toleranceOfHosel:
		return s.HoselODTolerance
	case toleranceOfBore:
		return s.BoreTolerance
	case toleranceOfTip:
		return s.TipTolerance
	case toleranceOfFerruleBore:
		return s.FerruleBoreTolerance
	case toleranceOfFerruleOD:
		return s.FerruleODTolerance
	case toleranceOfRecess:
		return s.RecessTolerance
	case toleranceOfLengths:
		return s.LengthTolerance
	}
	return measure.Length{}
}

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
