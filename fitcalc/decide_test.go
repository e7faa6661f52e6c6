package fitcalc

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// DecideInto says what EvaluateInto says: the same fit, and of what does not fit the same verdict for the same first reason.
func TestDecideIntoAgreesWithEvaluateInto(t *testing.T) {
	seen := map[Verdict]int{}
	all := func() bool { return seen[No] > 0 && seen[Bare] > 0 && len(seen) >= 4 }
	for round := 0; round == 0 || round < 50 && !all(); round++ { // one round may see no bare joint
		rapid.Check(t, func(t *rapid.T) { seen[decideBoth(t)]++ })
	}
	if !all() {
		t.Errorf("only %v were seen", seen)
	}
}

// FuzzDecideInto does the same with what the fuzzer makes of the way the two take.
func FuzzDecideInto(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { decideBoth(t) }))
}

func decideBoth(t *rapid.T) Verdict {
	d := sketch{t: t, unit: measure.Thou(1)}.joint()
	var whole, short Fit
	EvaluateInto(&whole, &d.head, &d.tip, &d.ferrule, &d.shop)
	DecideInto(&short, &d.head, &d.tip, &d.ferrule, &d.shop)
	switch {
	case whole.Verdict != No && whole != short:
		t.Fatalf("EvaluateInto finds %+v, DecideInto %+v", whole, short)
	case whole.Verdict == No && (short.Verdict != No || short.Reason() != whole.Reason()):
		t.Fatalf("EvaluateInto finds %v for %+v, DecideInto %v for %+v", whole.Verdict, whole.Reason(), short.Verdict, short.Reason())
	}
	return whole.Verdict
}
