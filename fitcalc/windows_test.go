package fitcalc

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// TestBreaksAreThoseOfBisection finds where conditions begin to hold by halving alone, whatever the numbers say.
func TestBreaksAreThoseOfBisection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := oneSided(t)
		p := probe{head: d.head, tip: d.tip, ferrule: d.ferrule, shop: d.shop}
		if firstError(p.head.Validate(), p.tip.Validate(), p.ferrule.Validate(), p.shop.Validate()) != nil {
			return
		}
		least, most := p.span()
		want := []measure.Length{least}
		for i := range hoselConditions {
			plain := p
			if at, found := threshold(least, most, func(od measure.Length) bool { return plain.conditions(od).each[i] }); found {
				want = append(want, at)
			}
		}
		slices.SortFunc(want, measure.Length.Compare)
		if diff := cmp.Diff(slices.Compact(want), p.breaks(least, most), cmp.Comparer(func(a, b measure.Length) bool { return a == b })); diff != "" {
			t.Errorf("%+v\n(-halving +search)\n%s", d, diff)
		}
	})
}
