package fitcalc

import "example.com/seatline/fitcalc/measure"

// Shop holds the limits a shop works to. [DefaultShop] returns the values to start from; the reason and the source of each
// stand in [Settings]. All lengths that compare diameters are on the diameter. The zero Shop is not usable.
type Shop struct {
	// FlushStep is the largest step either way, on the diameter, between base and hosel that passes as flush.
	FlushStep measure.Length
	// SameSize is the most by which two ODs that nobody has measured may differ and still be one size stated twice.
	SameSize measure.Length
	// UndersizeRisk is the share of joints, from 0 to 1, that may end smaller than the hosel by more than the step before the
	// hosels have to be measured; TurnShare the share that may stand out by more and still count as flush.
	UndersizeRisk float64
	TurnShare     float64
	// TurnLimit is the most to turn off the usual joint, on the diameter.
	TurnLimit measure.Length
	// MeasureShare is the share of joints, from 0 to 1, that may be beyond another limit (the turn limit, the wall, a ring, an open
	// recess, the depth of the bore) before the parts have to be measured.
	MeasureShare float64

	// SlipRisk is the share of joints that may not grip, and SplitRisk the share that may be stretched beyond StrainLimit, from 0
	// to 1.
	SlipRisk  float64
	SplitRisk float64
	// UsualInterference is not a limit; Specify orders bores by it, and a ferrule of which only the tip is known that it is for has its
	// bore by it. It is shaft less bore, on the diameter.
	UsualInterference measure.Length
	// StrainLimit is how far a cold ferrule may be stretched at its bore, as a fraction: 0.02 is 2 %.
	StrainLimit float64
	// LeastGrip is the length along the axis over which a ferrule has to grip, or all of a shorter one.
	LeastGrip measure.Length

	// HoselODTolerance and those after it are the ± that a size has where its source states none: the hosel's OD, the ferrule's
	// outside diameters (FerruleODTolerance), its bore (FerruleBoreTolerance), the tip (TipTolerance) and the head's bore
	// (BoreTolerance), all on the diameter; the length of collars and steps along the axis (LengthTolerance); and countersinks
	// and counterbores both on the diameter and in depth (RecessTolerance).
	HoselODTolerance     measure.Length
	FerruleODTolerance   measure.Length
	FerruleBoreTolerance measure.Length
	TipTolerance         measure.Length
	BoreTolerance        measure.Length
	LengthTolerance      measure.Length
	RecessTolerance      measure.Length

	// TipTaper is the growth of a taper tip, on the diameter per length, and TipTaperTo the diameter from which on it is parallel, both
	// where nothing says so of the tip itself.
	TipTaper   measure.Taper
	TipTaperTo measure.Length
	// InsertionDepth is how far a tip goes in where no bore depth is given, and LeastInsertion the least length of it in the bore.
	InsertionDepth measure.Length
	LeastInsertion measure.Length

	// LeastClearance and MostClearance are between bore and tip on the diameter. ReamLimit is the most to ream out of a bore, and
	// ShimLimit the most clearance that a shim makes up, on the diameter too.
	LeastClearance measure.Length
	MostClearance  measure.Length
	ReamLimit      measure.Length
	ShimLimit      measure.Length

	// SeatGap is how high a base may stand off the hosel, along the axis, and SeatRisk the share of joints that may stand higher,
	// from 0 to 1.
	SeatGap  measure.Length
	SeatRisk float64
	// RecessLimit is the most depth of counterbore that may stay open under a ferrule.
	RecessLimit measure.Length
	// CountersinkAngle is the included angle of the shop's countersink.
	CountersinkAngle measure.Angle
	// LeastHoselWall is the least wall at the hosel's top after countersinking, per side.
	LeastHoselWall measure.Length

	// LeastWall is the least wall of a turned ferrule beside the shaft, per side.
	LeastWall measure.Length
	// UsualLength is the length of ferrule that is meant where none is given.
	UsualLength measure.Length
	// LeastLength and MostLength are those beyond which a ferrule is remarked on, and LengthOfHosel the longest that suits a
	// hosel as a multiple of the hosel's length.
	LeastLength   measure.Length
	MostLength    measure.Length
	LengthOfHosel float64

	// MinutesToFit are for every joint, MinutesToTurn for each that is turned and MinutesPerCM3 for each cm³ turned off, and
	// MinutesToPrep for work on hosel, tip or bore.
	MinutesToFit  float64
	MinutesToTurn float64
	MinutesPerCM3 float64
	MinutesToPrep float64

	// NearMiss and NearMissOnBore are how far a base OD and a bore may be beyond the limits, on the diameter, for the pair to be
	// listed all the same; they decide nothing.
	NearMiss       measure.Length
	NearMissOnBore measure.Length
}
