package fitcalc

import (
	"iter"

	"example.com/seatline/fitcalc/measure"
)

// Verdict is the answer for one head, tip and ferrule. Verdicts are ordered from the one that asks least of the bench
// to those that cannot be built.
type Verdict uint8

const (
	// NoVerdict is the zero Verdict: nothing was evaluated.
	NoVerdict Verdict = iota
	// Flush fits as supplied.
	Flush
	// Turn fits after turning down.
	Turn
	// Prep fits after work on the hosel, tip or bore.
	Prep
	// Measure suits some of these parts and not the others, such as the smaller hosels of the head: measure before choosing.
	Measure
	// Ask cannot be decided from the data.
	Ask
	// No does not fit.
	No
	// Bare is a head that takes no ferrule.
	Bare
)

var verdictNames = [...]string{"", "flush", "turn", "prep", "measure", "ask", "no", "bare"}

// String returns the verdict's word: flush, turn, prep, measure, ask, no or bare.
func (v Verdict) String() string { return nameOf(verdictNames[:], v) }

// Verdicts returns all verdicts, from the one that asks least of the bench on.
func Verdicts() []Verdict { return []Verdict{Flush, Turn, Prep, Measure, Ask, No, Bare} }

// Fits reports whether the joint can be built: as supplied, after turning, after other work, or with parts that were measured.
func (v Verdict) Fits() bool { return v.Serves() || v == Measure }

// Serves reports whether the joint can be built whichever pieces come to the bench: it fits, and not only the right ones.
func (v Verdict) Serves() bool { return v == Flush || v == Turn || v == Prep }

// Amount is a size that the tolerances let vary. Nominal is that of the usual joint, each size in the middle of its limits: the
// nominal sizes where the tolerances are symmetric. Least and Most are worst case, limit against limit.
type Amount struct {
	Nominal, Least, Most measure.Length
}

// PerSide returns half of an amount on the diameter.
func (a Amount) PerSide() Amount {
	return Amount{a.Nominal.Half(), a.Least.Half(), a.Most.Half()}
}

// Fit is what [Evaluate] finds for one joint. It is a value without pointers: it may be copied, kept and compared.
//
// A part of the answer that could not be computed because a dimension is missing has its Known flag false, and all its
// numbers are zero.
type Fit struct {
	// Verdict is the answer; Reason and Reasons say why.
	Verdict Verdict
	// Flush compares base and hosel, Grip the ferrule's bore and the shaft, Seat the ferrule's base and the hosel's top, Bore the
	// tip and the hole that takes it. Work is what the bench has to do.
	Flush FlushFit
	Grip  GripFit
	Seat  SeatFit
	Bore  BoreFit
	Work  WorkFit
	// Assumptions are those the answer rests on.
	Assumptions AssumptionSet

	reasons [maxReasons]Reason
	count   uint8
}

// FlushFit compares the ferrule's base with the hosel's top. All lengths are on the diameter.
type FlushFit struct {
	// Known is set where the ODs of hosel and base are given.
	Known bool
	// HoselOD is the OD that was used: the hosel's, or the adapter sleeve's; BaseOD that of the ferrule's base. Both have limits, and
	// their nominal size in the middle of them.
	HoselOD, BaseOD measure.Dim
	// Oversize is ferrule base OD − hosel OD; negative is undersize.
	Oversize Amount
	// OneSize is set where base and hosel are one size stated twice, as 13.6 mm and .535 in are: they differ by less than
	// [Shop.SameSize], and neither was measured. All below counts the usual joint then as neither over- nor undersize.
	OneSize bool
	// TurnDown is what must come off the base; nothing where the base is not oversize.
	TurnDown Amount
	// MeanTurnDownMM is the mean of what comes off, in mm, over all joints, those that need no turning included.
	MeanTurnDownMM float64
	// Undersize is the probability that the base is smaller than the hosel.
	Undersize float64
	// VisibleUndersize is the probability that it is smaller by more than the flush step.
	VisibleUndersize float64
	// VisibleOversize is the probability that it is larger by more than the flush step: the share to turn.
	VisibleOversize float64
	// OverTurnLimit is the probability that it is larger by more than the turn limit.
	OverTurnLimit float64
}

// GripFit is how the ferrule holds on the shaft before the adhesive does. Interference is shaft diameter − ferrule
// bore, on the diameter.
type GripFit struct {
	// Known is set where the tip, the ferrule's bore and, on a tip that is not parallel, its length are given.
	Known bool
	// Insertion is the position of the ferrule's base on the shaft.
	Insertion measure.Length
	// Interference is that at the tightest place of the seated ferrule.
	Interference Amount
	// Length is over how much of the seated ferrule the usual interference is positive; KnownLength is set where the length of
	// the ferrule is given.
	Length      measure.Length
	KnownLength bool
	// Slip is the probability that it grips nowhere.
	Slip float64
	// Strain is the usual strain of the bore at the tightest place, as a fraction; MostStrain the worst case.
	Strain, MostStrain float64
	// Split is the probability that the strain is beyond the limit.
	Split float64
}

// SeatFit is how the ferrule sits on the hosel's top.
type SeatFit struct {
	// Known is set where the form of top and base and the dimensions that matter for it are given.
	Known bool
	// StandOff is how high the base stands above the hosel's top: the least, usual and most that the stops a collar may land on
	// leave together.
	StandOff Amount
	// Proud is the probability that it stands off by more than the seat gap.
	Proud float64
	// CutDeeper is how much deeper the countersink has to be cut for the collar to seat, usually, and CutMouth the
	// diameter of its mouth then.
	CutDeeper, CutMouth measure.Length
	// WallLeft is the hosel's wall at its top after that cut, per side; nothing where the hosel OD is not given.
	WallLeft measure.Length
	// Recess is the depth of counterbore that stays open under the ferrule.
	Recess measure.Length
}

// BoreFit is how the tip goes into the bore. Clearance is bore − tip diameter at its tightest place in the bore, on the
// diameter.
type BoreFit struct {
	// Known is set where the tip and the head's bore are given, and the bore is not quoted like its tip.
	Known     bool
	Clearance Amount
	// Insertion is the length of tip in the bore below any countersink or counterbore; KnownInsertion is set where the depths of
	// the bore and of what is cut into its mouth are given.
	Insertion      measure.Length
	KnownInsertion bool
}

// WorkFit is what the bench has to do.
type WorkFit struct {
	// Known is set where that of [FlushFit] is, and the tip is given.
	Known bool
	// WallLeft is the wall of the ferrule at its base after turning, per side, at its thinnest, and ThinWall the probability that it
	// is thinner than the least.
	WallLeft measure.Length
	ThinWall float64
	// Minutes is the time by the shop's labour model, preparation included: a rate per joint; for the share of joints that
	// are turned a rate per turning and one per volume, taken at the mean of what is turned off; and a rate per
	// preparation.
	Minutes float64
}

const maxReasons = 16

// Reason returns the reason that decides: the first of the weightiest. Every evaluated fit has one; that of the zero Fit is the
// zero Reason.
func (f Fit) Reason() Reason { return f.reasons[0] }

// Reasons yields the reasons of the verdict, those that decide it first. Where the yields of a loop over them stay in the loop, as they
// do in a range over it, nothing is allocated.
func (f Fit) Reasons() iter.Seq[Reason] {
	return func(yield func(Reason) bool) {
		for _, r := range f.reasons[:f.count] {
			if !yield(r) {
				return
			}
		}
	}
}
