package fitcalc

import (
	"iter"

	"example.com/seatline/fitcalc/measure"
)

// NumberKind is what kind of number a reason names.
type NumberKind uint8

const (
	// OnDiameter is a length on the diameter, PerSide one on the radius, such as a wall.
	OnDiameter NumberKind = iota
	PerSide
	// AlongAxis is a length along the axis, Height a small one, such as how far something stands off, which nobody reads in fractions.
	AlongAxis
	Height
	// ShareOfJoints is a share of the joints of these parts, from 0 to 1, Stretch a strain: by how much of its size a bore is widened.
	ShareOfJoints
	Stretch
)

var numberKinds = [...]string{"on the diameter", "per side", "along the axis", "along the axis", "share of joints", "strain"}

// String says what the number is: on the diameter, per side, along the axis, share of joints, strain.
func (k NumberKind) String() string { return nameOf(numberKinds[:], k) }

// IsLength reports whether a number of the kind is a length.
func (k NumberKind) IsLength() bool { return k < ShareOfJoints }

// Number is a number of a reason.
type Number struct {
	NumberInfo
	// Length is a number that is a length, Ratio any other.
	Length measure.Length
	Ratio  float64
}

// IsZero reports whether the number is nothing.
func (n Number) IsZero() bool { return n.Length.IsZero() && n.Ratio == 0 }

// NumberInfo says what a number of a code is.
type NumberInfo struct {
	// Name is what the number is called: turn_down. Key is what lines of data call it whatever the code: size.
	Name, Key string
	// Kind says whether the number is a length, and which way it is measured, or a ratio.
	Kind NumberKind
	// Means says in a clause what the number is.
	Means string

	slot slot
	// blank is set where zero means that the number is not known or that there is nothing of the kind.
	blank bool
}

// slot is where a reason keeps a number.
type slot uint8

const (
	inSize slot = iota
	inOther
	inThird
	inLimit
	inShare
	inValue
	inBound
)

var slotKeys = [...]string{"size", "other", "third", "limit", "share", "value", "bound"}

// of returns the number as a reason has it.
func (i *NumberInfo) of(r *Reason) Number {
	n := Number{NumberInfo: *i}
	switch i.slot {
	case inSize:
		n.Length = r.Size
	case inOther:
		n.Length = r.Other
	case inThird:
		n.Length = r.Third
	case inLimit:
		n.Length = r.Limit
	case inShare:
		n.Ratio = r.Share
	case inValue:
		n.Ratio = r.Value
	case inBound:
		n.Ratio = r.Bound
	}
	return n
}

// Numbers yields the numbers of the reason that are known, in the order of [Code.Numbers].
func (r Reason) Numbers() iter.Seq[Number] {
	return func(yield func(Number) bool) {
		for i := range r.Code.row().numbers {
			n := r.Code.row().numbers[i].of(&r)
			if n.blank && n.IsZero() {
				continue
			}
			if !yield(n) {
				return
			}
		}
	}
}

// Number returns the number of a name, and false where the reason has none of that name or does not know it.
func (r Reason) Number(name string) (Number, bool) {
	for n := range r.Numbers() {
		if n.Name == name {
			return n, true
		}
	}
	return Number{}, false
}

// Miss returns by how much the usual joint misses the limit that the reason is about, negative where it keeps it: on the diameter, for
// which what is counted per side counts twice, or along the axis. It is false for a reason that holds nothing against a limit.
func (r Reason) Miss() (measure.Length, bool) {
	if miss := r.Code.row().miss; miss != nil {
		return miss(&r), true
	}
	return measure.Length{}, false
}

// Fields yields the dimensions that the reason depends on, as far as they are given: a change of any other one changes nothing of it.
// What the ferrule sits on is the head's or the adapter's.
func (r Reason) Fields() iter.Seq[Field] {
	return func(yield func(Field) bool) {
		if r.Code == DataMissing {
			yield(r.Field)
			return
		}
		for _, f := range r.Code.row().fields {
			if !yield(f) {
				return
			}
		}
	}
}

// Codes yields every code, in the order in which they were added.
func Codes() iter.Seq[Code] {
	return func(yield func(Code) bool) {
		for c := range codeTable[1:] {
			if !yield(Code(c + 1)) {
				return
			}
		}
	}
}

// Numbers yields what the numbers of the code are.
func (c Code) Numbers() iter.Seq[NumberInfo] {
	return func(yield func(NumberInfo) bool) {
		for _, n := range c.row().numbers {
			if !yield(n) {
				return
			}
		}
	}
}

// codeRow is all that is known of a code.
type codeRow struct {
	text    string
	numbers []NumberInfo
	// miss is how far the usual joint is beyond the limit, nil where there is none.
	miss func(*Reason) measure.Length
	// fields are the dimensions that the code depends on.
	fields []Field
}

func (c Code) row() *codeRow {
	if int(c) >= len(codeTable) {
		return &codeTable[NoCode]
	}
	return &codeTable[c]
}

// codes are the texts of the codes.
var codes = func() []string {
	all := make([]string, len(codeTable))
	for c := range codeTable {
		all[c] = codeTable[c].text
	}
	return all
}()

func number(s slot, name string, kind NumberKind, means string) NumberInfo {
	return NumberInfo{Name: name, Key: slotKeys[s], Kind: kind, Means: means, slot: s}
}

// ifAny marks a number that is not known where it is zero.
func ifAny(n NumberInfo) NumberInfo {
	n.blank = true
	return n
}

// Misses: what is over a limit, what is short of one, and the same of what is counted per side.
func over(r *Reason) measure.Length      { return r.Size.Sub(r.Limit) }
func short(r *Reason) measure.Length     { return r.Limit.Sub(r.Size) }
func overSides(r *Reason) measure.Length { return over(r).MulInt(2) }
func shortSides(r *Reason) measure.Length {
	return short(r).MulInt(2)
}

// overStretched is by how much too much a bore is widened.
func overStretched(r *Reason) measure.Length {
	if r.Value == 0 {
		return measure.Length{}
	}
	most, err := measure.FromMillimetres(r.Size.Millimetres() / r.Value * r.Bound)
	if err != nil {
		return measure.Length{} // neither is beyond what a length can hold
	}
	return r.Size.Sub(most)
}

var (
	flushFields = []Field{FieldHoselOD, FieldAdapterOD, FieldBaseOD}
	boreFields  = []Field{FieldHeadBore, FieldAdapterBore, FieldTip, FieldBoreDepth, FieldAdapterBoreDepth}
	gripFields  = []Field{FieldTip, FieldFerruleBore, FieldForTip, FieldLength, FieldBoreDepth, FieldAdapterBoreDepth}
	cutFields   = append(wallFields[:len(wallFields):len(wallFields)], FieldTopOD, FieldRingHeight, FieldRingDepth)
	wallFields  = append(flushFields[:3:3], gripFields...)
	coneFields  = []Field{FieldTop, FieldHoselOD, FieldAdapterOD, FieldHeadBore, FieldAdapterBore, FieldCountersinkMouth, FieldCountersinkAngle,
		FieldCountersinkDepth, FieldCounterbore, FieldCounterboreDepth, FieldCollarOD, FieldCollarLength}
	stepFields = []Field{FieldTop, FieldCounterbore, FieldCounterboreDepth, FieldStepOD, FieldStepLength}
)

// codeTable is the one list of codes: what they are called, what their numbers are, what is missed, and which dimensions they depend on.
// Lines of data, their schema, the sentences of package say and the search for what comes nearest go by it.
var codeTable = [...]codeRow{
	FlushAsSupplied: {"flush.as-supplied", []NumberInfo{
		number(inSize, "oversize", OnDiameter, "base less hosel; negative is undersize"),
		ifAny(number(inOther, "same_size", OnDiameter, "how far apart one size may be stated, where base and hosel are one size stated twice")),
		number(inLimit, "limit", OnDiameter, "the step that passes as flush"),
		ifAny(number(inShare, "share", ShareOfJoints, "those that need a touch-up")),
	}, nil, flushFields},
	FlushTurn: {"flush.turn", []NumberInfo{
		number(inSize, "turn_down", OnDiameter, "what comes off the usual base"),
		number(inOther, "most", OnDiameter, "what comes off at most"),
		number(inShare, "share", ShareOfJoints, "those that stand out"),
	}, nil, flushFields},
	FlushUndersize: {"flush.undersize", []NumberInfo{
		number(inSize, "oversize", OnDiameter, "base less hosel; negative is undersize"),
		number(inLimit, "limit", OnDiameter, "the step that passes as flush"),
		number(inShare, "share", ShareOfJoints, "those with a ledge of more than the step"),
		number(inBound, "risk", ShareOfJoints, "the share that the shop risks"),
	}, func(r *Reason) measure.Length { return r.Size.Add(r.Limit).Neg() }, flushFields},
	FlushTurnLimit: {"flush.turn-limit", []NumberInfo{
		number(inSize, "turn_down", OnDiameter, "what would have to come off the usual base"),
		number(inOther, "most", OnDiameter, "what would have to come off at most"),
		number(inLimit, "limit", OnDiameter, "the most that the shop turns off"),
		number(inShare, "share", ShareOfJoints, "those of which more would have to come off"),
	}, over, flushFields},
	GripHolds: {"grip.holds", []NumberInfo{
		number(inSize, "interference", OnDiameter, "shaft less bore where the ferrule is tightest"),
		ifAny(number(inOther, "grip_length", AlongAxis, "the length over which it grips")),
		number(inValue, "stretch", Stretch, "the strain of its bore"),
	}, nil, gripFields},
	GripLoose: {"grip.loose", []NumberInfo{
		number(inSize, "interference", OnDiameter, "shaft less bore where the ferrule is tightest; negative is play"),
		number(inShare, "share", ShareOfJoints, "those that do not grip"),
		number(inBound, "risk", ShareOfJoints, "the share that the shop risks"),
	}, func(r *Reason) measure.Length { return r.Size.Neg() }, gripFields},
	GripSplit: {"grip.split", []NumberInfo{
		number(inSize, "interference", OnDiameter, "shaft less bore where the ferrule is tightest"),
		number(inShare, "share", ShareOfJoints, "those that are stretched further"),
		number(inValue, "stretch", Stretch, "the strain of its bore"),
		number(inBound, "limit", Stretch, "the most that its material takes"),
	}, overStretched, gripFields},
	GripOverTip: {"grip.over-tip", []NumberInfo{
		number(inSize, "interference", OnDiameter, "shaft less bore at the widest place that the ferrule has to pass"),
		number(inShare, "share", ShareOfJoints, "those that are stretched further"),
		number(inValue, "stretch", Stretch, "the strain of its bore there"),
		number(inBound, "limit", Stretch, "the most that its material takes"),
	}, overStretched, gripFields},
	GripShort: {"grip.short", []NumberInfo{
		number(inSize, "grip_length", AlongAxis, "the length over which it grips"),
		number(inLimit, "limit", AlongAxis, "the least to trust"),
	}, short, gripFields},
	WallThin: {"wall.thin", []NumberInfo{
		number(inSize, "wall", PerSide, "the usual wall beside the shaft at the base"),
		number(inOther, "thinnest", PerSide, "the thinnest; negative is none"),
		number(inLimit, "limit", PerSide, "the least wall"),
		number(inShare, "share", ShareOfJoints, "those with less"),
	}, shortSides, wallFields},
	RingCut: {"ring.cut", []NumberInfo{
		number(inSize, "cut", PerSide, "what turning takes off at the ring"),
		number(inLimit, "limit", PerSide, "how deep the decorative ring is"),
		number(inShare, "share", ShareOfJoints, "those that are cut through"),
	}, overSides, cutFields},
	SeatCollarHigh: {"seat.collar-high", []NumberInfo{
		number(inSize, "stand_off", Height, "how high the collar leaves the usual base"),
		number(inOther, "mouth", OnDiameter, "the mouth of the countersink that it would take"),
		ifAny(number(inThird, "wall", PerSide, "the wall that such a countersink leaves; negative is none")),
		number(inLimit, "limit", PerSide, "the least wall"),
		number(inShare, "share", ShareOfJoints, "those that stand off"),
	}, func(r *Reason) measure.Length { return r.Size }, coneFields},
	SeatStepWide: {"seat.step-wide", []NumberInfo{
		number(inSize, "step_od", OnDiameter, "the OD of the step"),
		number(inOther, "counterbore", OnDiameter, "the diameter of the counterbore"),
		number(inShare, "share", ShareOfJoints, "those that do not go in"),
	}, func(r *Reason) measure.Length { return r.Size.Sub(r.Other) }, stepFields},
	SeatStepLong: {"seat.step-long", []NumberInfo{
		number(inSize, "step_length", AlongAxis, "the length of the step"),
		ifAny(number(inOther, "counterbore_depth", AlongAxis, "the depth of the counterbore, where there is one")),
		number(inShare, "share", ShareOfJoints, "those that stand off"),
	}, func(r *Reason) measure.Length { return r.Size.Sub(r.Other) }, stepFields},
	SeatRecessOpen: {"seat.recess-open", []NumberInfo{
		number(inSize, "open_depth", AlongAxis, "how much of the recess stays open below the ferrule"),
		number(inLimit, "limit", AlongAxis, "the most"),
		ifAny(number(inShare, "share", ShareOfJoints, "those with more")),
	}, over, append(stepFields[:len(stepFields):len(stepFields)], coneFields...)},
	SeatRounded: {"seat.rounded", nil, nil, []Field{FieldTop}},
	BoreTight: {"bore.tight", []NumberInfo{
		number(inSize, "clearance", OnDiameter, "bore less tip; negative is none"),
		number(inLimit, "limit", OnDiameter, "the least clearance"),
	}, short, boreFields},
	BoreLoose: {"bore.loose", []NumberInfo{
		number(inSize, "clearance", OnDiameter, "bore less tip"),
		number(inLimit, "limit", OnDiameter, "the most clearance"),
	}, over, boreFields},
	BoreShallow: {"bore.shallow", []NumberInfo{
		number(inSize, "insertion", AlongAxis, "how much of the tip is in the bore; negative is none"),
		ifAny(number(inOther, "recess", AlongAxis, "the depth of the recess in the bore's mouth")),
		number(inLimit, "limit", AlongAxis, "the least insertion"),
		number(inShare, "share", ShareOfJoints, "those with less"),
	}, short, []Field{FieldTop, FieldBoreDepth, FieldAdapterBoreDepth, FieldCountersinkMouth, FieldCountersinkAngle, FieldCountersinkDepth,
		FieldCounterbore, FieldCounterboreDepth, FieldHeadBore, FieldAdapterBore}},
	BoreFormed: {"bore.form", []NumberInfo{
		number(inSize, "clearance", OnDiameter, "bore less tip where it is least"),
		number(inOther, "widest", OnDiameter, "bore less tip where it is most"),
		number(inLimit, "limit", OnDiameter, "the most clearance"),
	}, func(r *Reason) measure.Length { return r.Other.Sub(r.Limit) }, boreFields},
	LengthShort: {"length.short", []NumberInfo{
		number(inSize, "length", AlongAxis, "the length of the ferrule"),
		number(inLimit, "limit", AlongAxis, "the least that is usual"),
	}, short, []Field{FieldLength}},
	LengthLong: {"length.long", []NumberInfo{
		number(inSize, "length", AlongAxis, "the length of the ferrule"),
		number(inLimit, "limit", AlongAxis, "the most that is usual on this hosel"),
	}, over, []Field{FieldLength, FieldHoselLength}},
	NeckOverLimit: {"neck.over-limit", []NumberInfo{
		number(inSize, "neck_top", AlongAxis, "how high the neck ends above the sole"),
		number(inLimit, "limit", AlongAxis, "what the equipment rules allow"),
	}, over, []Field{FieldNeckTop}},
	DataMissing: {text: "data.missing"},
}
