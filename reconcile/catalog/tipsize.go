package catalog

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
)

// tipSize returns the size of a tip; a bare number is in the one unit in which tips have such sizes.
func tipSize(reading value.Reading) (measure.Dim, bool) {
	switch reading.Kind {
	case value.Length:
		size := mm(reading.Dim.Nominal())
		if tipBounds[TipOD].possible(size) {
			return reading.Dim, true
		}
		if reading.UnitStated || unitMM[reading.Unit] == 0 || reading.Dim.HasLimits() {
			return measure.Dim{}, false
		}
		return tipNumber(size / unitMM[reading.Unit]) // 370P in a column in inches
	case value.Number:
		return tipNumber(reading.Number)
	}
	return measure.Dim{}, false
}

// tipNumber returns the size of a tip of which the unit is not said.
func tipNumber(number float64) (measure.Dim, bool) {
	for _, unit := range lengthUnits[:3] {
		if size := number * unitMM[unit]; tipBounds[TipOD].possible(size) {
			length, err := measure.FromMillimetres(size)
			return measure.Nominal(length), err == nil
		}
	}
	return measure.Dim{}, false
}

func formOf(own, other value.Form) value.Form {
	if own != value.FormUnknown {
		return own
	}
	return other
}

// allTips reports whether every reading is the size of a tip.
func allTips(readings []value.Reading) bool {
	for _, reading := range readings {
		size, ok := tipSize(reading)
		if !ok || !isTipName(mm(size.Nominal())) {
			return false
		}
	}
	return len(readings) > 0
}
