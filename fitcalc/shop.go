package fitcalc

import "example.com/seatline/fitcalc/measure"

// Shop holds the limits a shop works to. [DefaultShop] returns the values to start from; the reason and the source of each
// stand in [Settings]. All lengths that compare diameters are on the diameter. The zero Shop is not usable.
type Shop struct {
	FlushStep     measure.Length
	UndersizeRisk float64
	TurnLimit     measure.Length

	SlipRisk  float64
	SplitRisk float64
	// UsualInterference is not a limit; Specify orders bores by it.
	UsualInterference measure.Length
	StrainLimit       float64
	LeastGrip         measure.Length

	HoselODTolerance     measure.Length
	FerruleODTolerance   measure.Length
	FerruleBoreTolerance measure.Length
	TipTolerance         measure.Length
	BoreTolerance        measure.Length
	LengthTolerance      measure.Length
	RecessTolerance      measure.Length

	TipTaper       measure.Taper
	InsertionDepth measure.Length
	LeastInsertion measure.Length

	LeastClearance measure.Length
	MostClearance  measure.Length
	ReamLimit      measure.Length
	ShimLimit      measure.Length

	SeatGap          measure.Length
	SeatRisk         float64
	RecessLimit      measure.Length
	CountersinkAngle measure.Angle
	LeastHoselWall   measure.Length

	LeastWall      measure.Length
	LeastLength    measure.Length
	MostLength     measure.Length
	LengthOfHosel  float64
	MinutesToFit   float64
	MinutesToTurn  float64
	MinutesPerCM3  float64
	MinutesToPrep  float64
	NearMiss       measure.Length
	NearMissOnBore measure.Length
}
