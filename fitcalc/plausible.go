package fitcalc

import (
	"cmp"
	"math"

	"example.com/seatline/fitcalc/measure"
)

// UsualSize is between which sizes a dimension lies, in mm: Least and Most are what the joint allows at all, CommonLeast and
// CommonMost where nearly all parts lie.
type UsualSize struct{ Least, Most, CommonLeast, CommonMost float64 }

// Doubt is a size that a part could have and that no golf club has: a slip of the unit or of the decimal point.
type Doubt struct {
	// Field is the dimension, Size its nominal size.
	Field Field
	Size  measure.Length
	// Likely is the size that may have been meant, nothing where no usual slip explains it.
	Likely measure.Length
}

// slips are the factors by which sizes are wrong when a decimal point slipped or the unit is another.
var slips = [...]struct{ times, over int64 }{{1, 10}, {10, 1}, {1, 100}, {100, 1}, {254, 10}, {10, 254}, {1, 1000}}

// Doubts returns the sizes of a joint that should be looked at again before anybody relies on the answer: those half as large again
// as any part's, or less than two thirds of it.
func Doubts(head Head, tip Tip, ferrule Ferrule) []Doubt {
	p := probe{head: head, tip: tip, ferrule: ferrule}
	var doubts []Doubt
	for _, k := range knobs {
		dim := k.dim(&p)
		usual, known := k.field.Usual()
		if size := dim.Nominal().Millimetres(); !dim.Given() || !known || size > usual.Least/1.5 && size < usual.Most*1.5 {
			continue
		}
		doubts = append(doubts, Doubt{Field: k.field, Size: dim.Nominal(), Likely: usual.likely(dim.Nominal())})
	}
	return doubts
}

// likely is the common size that a slip makes of an impossible one, the one nearest to the middle of the common ones.
func (u UsualSize) likely(size measure.Length) measure.Length {
	var best measure.Length
	middle := (u.CommonLeast + u.CommonMost) / 2
	for _, s := range slips {
		meant := size.MulRatio(s.times, s.over)
		if mm := meant.Millimetres(); mm < u.CommonLeast || mm > u.CommonMost {
			continue
		}
		if best.IsZero() || cmp.Less(math.Abs(meant.Millimetres()-middle), math.Abs(best.Millimetres()-middle)) {
			best = meant
		}
	}
	return best
}
