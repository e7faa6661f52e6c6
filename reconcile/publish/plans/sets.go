package plans

import (
	"iter"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// saidOfHead is what a list says of one head.
type saidOfHead struct {
	head         *catalog.Head
	why, nearest string
}

// setsOf yields heads of one set that follow each other and of which the same is said, together: a list has one row for them.
func setsOf(all []saidOfHead) iter.Seq[[]saidOfHead] {
	same := func(a, b saidOfHead) bool {
		return a.why == b.why && a.nearest == b.nearest && report.HeadIs(a.head) == report.HeadIs(b.head) &&
			a.head.Supplier == b.head.Supplier && tell.AreOneSet(a.head.Part, b.head.Part)
	}
	return func(yield func([]saidOfHead) bool) {
		for from := 0; from < len(all); {
			to := from + 1
			for to < len(all) && same(all[from], all[to]) {
				to++
			}
			if !yield(all[from:to]) {
				return
			}
			from = to
		}
	}
}

func namesOfSet(set []saidOfHead) string {
	names := make([]string, len(set))
	for i, one := range set {
		names[i] = one.head.Part
	}
	return tell.Together(names)
}
