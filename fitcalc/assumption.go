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

var assumptions = [assumptionCount]struct{ code, text string }{
	AssumedHoselODTolerance:     {"tolerance.hosel-od", "the tolerance of the hosel OD is the shop's"},
	AssumedBaseODTolerance:      {"tolerance.base-od", "the tolerance of the ferrule's base OD is the shop's"},
	AssumedFerruleBoreTolerance: {"tolerance.ferrule-bore", "the tolerance of the ferrule's bore is the shop's"},
	AssumedTipTolerance:         {"tolerance.tip", "the tolerance of the tip is the shop's"},
	AssumedBoreTolerance:        {"tolerance.bore", "the tolerance of the head's bore is the shop's"},
	AssumedPlain:                {"style.plain", "the ferrule has neither collar nor step"},
	AssumedFlatTop:              {"top.flat", "the hosel's top is flat"},
	AssumedInsertion:            {"depth.insertion", "the bore is as deep as the shop's usual insertion"},
	AssumedCountersinkAngle:     {"countersink.angle", "the countersink has the angle of the shop's tool"},
	AssumedBoreForm:             {"bore.form", "the bore is tapered like the tip it takes"},
	AssumedBoreClears:           {"bore.clears", "the bore clears the tip; its size is not given"},
	AssumedAdapterBore:          {"bore.adapter", "the bore and the bore depth given are those of the adapter sleeve"},
	AssumedBoreTaper:            {"bore.taper", "the bore tapers at the shop's rate"},
	AssumedTurnedLength:         {"work.length", "the length of the ferrule is not given: the time for turning is that for the usual one"},
	AssumedBoreOfTip:            {"bore.of-tip", "the ferrule is known by the tip it is for: its bore is that tip less the usual interference"},
	AssumedBoreOfTipLength:      {"bore.of-tip-length", "the length of the ferrule is not given: its bore is that of one of the usual length"},
	AssumedBoreQuoted:           {"bore.quoted", "the tapered bore is quoted like the tip it takes, and clears it"},
	AssumedLearnedTolerance:     {"tolerance.learned", "a tolerance is the one learned from readings of the supplier's other parts"},
	AssumedTipTaper:             {"tip.taper", "the taper of the tip is the shop's, and the verdict hangs on it"},
}

// Code returns the assumption's name in outputs: tolerance.hosel-od.
func (a Assumption) Code() string {
	if a >= assumptionCount {
		return ""
	}
	return assumptions[a].code
}

// String returns the assumption as a clause.
func (a Assumption) String() string {
	if a >= assumptionCount {
		return ""
	}
	return assumptions[a].text
}

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
