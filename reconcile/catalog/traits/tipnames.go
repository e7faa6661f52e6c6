package traits

import (
	"math"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// TipNames are the diameters of the tips that the trade makes, by which they are called.
var TipNames = func() []measure.Length {
	var names []measure.Length
	for _, tip := range fitcalc.StandardTips() {
		names = append(names, tip.Diameter)
	}
	return names
}()

func IsTaperSize(size measure.Length) bool {
	return size.Sub(measure.Thou(355)).Abs().Less(measure.Thou(1))
}

// IsNearTip reports whether a size in mm may be that of a tip, rounded to a tenth of a millimetre.
func IsNearTip(size float64) bool {
	for _, name := range TipNames {
		if math.Abs(size-MM(name)) < 0.06 {
			return true
		}
	}
	return false
}

// IsTipName reports whether a size in mm is that of a tip.
func IsTipName(size float64) bool {
	for _, name := range TipNames {
		if math.Abs(size-MM(name)) < 0.02 {
			return true
		}
	}
	return false
}

// LeastNames is how many in a hundred sizes of a column must be names of tips for all of it to be taken for such.
const LeastNames = 90
