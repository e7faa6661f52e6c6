package fitcalc

import (
	"cmp"
	"math"

	"example.com/seatline/fitcalc/measure"
)

// UsualSize is between which sizes a dimension lies, in mm: Least and Most are what the joint allows at all, CommonLeast and
// CommonMost where nearly all parts lie.
type UsualSize struct{ Least, Most, CommonLeast, CommonMost float64 }

// usualSizes are common practice, from memory and without a published source: tips are between .335 and .400 in, and what is glued
// to them is not much larger.
var usualSizes = [...]UsualSize{
	FieldHoselOD:          {9.6, 22, 10.5, 18},
	FieldAdapterOD:        {9.6, 22, 10.5, 18},
	FieldHeadBore:         {8, 12.5, 8.4, 10.4},
	FieldAdapterBore:      {8, 12.5, 8.4, 10.4},
	FieldBoreDepth:        {8, 100, 20, 60},
	FieldAdapterBoreDepth: {8, 100, 20, 60},
	FieldHoselLength:      {8, 150, 15, 110},
	FieldNeckTop:          {10, 250, 30, 130},
	FieldCountersinkMouth: {8.2, 18, 9, 14},
	FieldCountersinkDepth: {0.05, 12, 0.3, 5},
	FieldCounterbore:      {8.2, 18, 9, 14},
	FieldCounterboreDepth: {0.2, 30, 0.5, 20},
	FieldTip:              {7.5, 11, 8.4, 10.3},
	FieldFerruleBore:      {7.8, 11.5, 8.3, 10.2},
	FieldBaseOD:           {9.2, 22, 10, 18},
	FieldTopOD:            {8.2, 20, 8.8, 14},
	FieldLength:           {2.5, 100, 5, 60},
	FieldCollarOD:         {8, 16, 9, 13},
	FieldCollarLength:     {0.2, 10, 0.5, 4},
	FieldStepOD:           {8, 16, 9, 13},
	FieldStepLength:       {0.5, 40, 2, 20},
}

// Usual returns between which sizes a dimension lies, and false for a field that is none or whose sizes are not known.
func (f Field) Usual() (UsualSize, bool) {
	if int(f) >= len(usualSizes) || usualSizes[f].Most == 0 {
		return UsualSize{}, false
	}
	return usualSizes[f], true
}

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
