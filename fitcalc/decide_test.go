package fitcalc

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// DecideInto says what EvaluateInto says: the same fit, and of what does not fit the same verdict for the same first reason.
func TestDecideIntoAgreesWithEvaluateInto(t *testing.T) {
	seen := map[Verdict]int{}
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1)}.joint()
		var whole, short Fit
		EvaluateInto(&whole, &d.head, &d.tip, &d.ferrule, &d.shop)
		DecideInto(&short, &d.head, &d.tip, &d.ferrule, &d.shop)
		seen[whole.Verdict]++
		if whole.Verdict != No {
			if whole != short {
				t.Fatalf("EvaluateInto finds %+v, DecideInto %+v", whole, short)
			}
			return
		}
		if short.Verdict != No || short.Reason() != whole.Reason() {
			t.Fatalf("EvaluateInto finds %v for %+v, DecideInto %v for %+v", whole.Verdict, whole.Reason(), short.Verdict, short.Reason())
		}
	})
	if seen[No] == 0 || seen[Bare] == 0 || len(seen) < 4 {
		t.Errorf("only %v were seen", seen)
	}
}
