package catalog

import (
	"math"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// tipNames are the diameters of the tips that the trade makes, by which they are called.
var tipNames = func() []measure.Length {
	var names []measure.Length
	for _, tip := range fitcalc.StandardTips() {
		names = append(names, tip.Diameter)
	}
	return names
}()

func isTaperSize(size measure.Length) bool {
	return size.Sub(measure.Thou(355)).Abs().Less(measure.Thou(1))
}

// isNearTip reports whether a size in mm may be that of a tip, rounded to a tenth of a millimetre.
func isNearTip(size float64) bool {
	for _, name := range tipNames {
		if math.Abs(size-mm(name)) < 0.06 {
			return true
		}
	}
	return false
}

// isTipName reports whether a size in mm is that of a tip.
func isTipName(size float64) bool {
	for _, name := range tipNames {
		if math.Abs(size-mm(name)) < 0.02 {
			return true
		}
	}
	return false
}

// leastNames is how many in a hundred sizes of a column must be names of tips for all of it to be taken for such.
const leastNames = 90
