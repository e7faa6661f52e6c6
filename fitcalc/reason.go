package fitcalc

import "example.com/seatline/fitcalc/measure"

// Level is how much a reason weighs. The weightiest reason of a fit decides its verdict.
type Level uint8

const (
	// Remarks are worth knowing and change nothing.
	Remarks Level = iota
	// Turns is a base that has to be turned down.
	Turns
	// Prepares is work on the hosel, tip or bore.
	Prepares
	// Measures is a joint that suits some of these parts and not the others.
	Measures
	// Undecided is a dimension that is missing.
	Undecided
	// Blocks is a joint that does not fit, whatever is missing.
	Blocks
	// TakesNone is a head that takes no ferrule.
	TakesNone
)

// Reason is one reason of a verdict: a code and the numbers that go with it, which [Reason.Numbers] names. Package say puts
// them in words.
type Reason struct {
	// Code says what kind of reason it is, and Level how much it weighs.
	Code  Code
	Level Level
	// Field is the missing dimension of [DataMissing]. Of the flush and collar reasons it is what the ferrule meets: the OD of the
	// hosel or of the adapter; the countersink, or the top that has none.
	Field Field
	// Measured is set in the flush reasons where the OD of what the ferrule meets comes from readings.
	Measured bool
	// Size is the size in question, Other and Third more of them, Limit what Size was held against; which they are
	// depends on the code.
	Size, Other, Third, Limit measure.Length
	// Share is a probability, Value another number without a unit, Bound what one of them was held against.
	Share, Value, Bound float64
}

// Warns reports whether the reason asks for anyone's attention. It is false for good news alone: that the base ends flush as
// supplied, and that the ferrule holds. Of the remarks those that warn change no verdict, and are still worth a look, such as a
// ferrule that is long for its hosel; whatever is no remark warns.
func (r Reason) Warns() bool {
	return r.Level != Remarks || r.Code != FlushAsSupplied && r.Code != GripHolds
}

// Code names a kind of reason. Codes are only ever added; their text is what other software relies on.
type Code uint8

const (
	NoCode Code = iota
	FlushAsSupplied
	FlushTurn
	FlushUndersize
	FlushTurnLimit
	GripHolds
	GripLoose
	GripSplit
	GripOverTip
	GripShort
	WallThin
	RingCut
	SeatCollarHigh
	SeatStepWide
	SeatStepLong
	SeatRecessOpen
	SeatRounded
	BoreTight
	BoreLoose
	BoreShallow
	BoreFormed
	LengthShort
	LengthLong
	NeckOverLimit
	DataMissing
)

// String returns the code as it stands in outputs: flush.undersize.
func (c Code) String() string { return c.row().text }
