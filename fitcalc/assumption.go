package fitcalc

import "iter"

// Assumption is something an answer rests on that the data does not say.
type Assumption uint8

const (
	AssumedHoselODTolerance Assumption = iota
	AssumedBaseODTolerance
	AssumedFerruleBoreTolerance
	AssumedTipTolerance
	AssumedBoreTolerance
	AssumedPlain
	AssumedFlatTop
	AssumedInsertion
	AssumedCountersinkAngle
	AssumedBoreForm
	AssumedBoreClears
	AssumedAdapterBore
	AssumedBoreTaper
	AssumedTurnedLength
	AssumedBoreOfTip
	AssumedBoreOfTipLength
	AssumedBoreQuoted
	AssumedLearnedTolerance
	AssumedTipTaper
	assumptionCount
)

var assumptions = [assumptionCount]string{
	AssumedHoselODTolerance:     "tolerance.hosel-od",
	AssumedBaseODTolerance:      "tolerance.base-od",
	AssumedFerruleBoreTolerance: "tolerance.ferrule-bore",
	AssumedTipTolerance:         "tolerance.tip",
	AssumedBoreTolerance:        "tolerance.bore",
	AssumedPlain:                "style.plain",
	AssumedFlatTop:              "top.flat",
	AssumedInsertion:            "depth.insertion",
	AssumedCountersinkAngle:     "countersink.angle",
	AssumedBoreForm:             "bore.form",
	AssumedBoreClears:           "bore.clears",
	AssumedAdapterBore:          "bore.adapter",
	AssumedBoreTaper:            "bore.taper",
	AssumedTurnedLength:         "work.length",
	AssumedBoreOfTip:            "bore.of-tip",
	AssumedBoreOfTipLength:      "bore.of-tip-length",
	AssumedBoreQuoted:           "bore.quoted",
	AssumedLearnedTolerance:     "tolerance.learned",
	AssumedTipTaper:             "tip.taper",
}

// Code returns the assumption's name in outputs: tolerance.hosel-od. Package say has the words.
func (a Assumption) Code() string { return nameOf(assumptions[:], a) }

// String returns the code.
func (a Assumption) String() string { return a.Code() }

// AssumptionSet is a set of assumptions. The zero AssumptionSet is empty.
type AssumptionSet uint32

func (s AssumptionSet) with(a Assumption) AssumptionSet { return s | 1<<a }

// Has reports whether a is in the set.
func (s AssumptionSet) Has(a Assumption) bool { return s>>a&1 == 1 }

// All yields the assumptions of the set in a fixed order.
func (s AssumptionSet) All() iter.Seq[Assumption] {
	return func(yield func(Assumption) bool) {
		for a := range assumptionCount {
			if s.Has(a) && !yield(a) {
				return
			}
		}
	}
}
