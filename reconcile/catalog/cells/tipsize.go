package cells

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// TipSize returns the size of a tip; a bare number is in the one unit in which tips have such sizes.
func TipSize(reading value.Reading) (measure.Dim, bool) {
	switch reading.Kind {
	case value.Length:
		size := traits.MM(reading.Dim.Nominal())
		if traits.TipBounds[catalog.TipOD].Possible(size) {
			return reading.Dim, true
		}
		if reading.UnitStated || traits.UnitMM[reading.Unit] == 0 || reading.Dim.HasLimits() {
			return measure.Dim{}, false
		}
		return tipNumber(size / traits.UnitMM[reading.Unit]) // 370P in a column in inches
	case value.Number:
		return tipNumber(reading.Number)
	}
	return measure.Dim{}, false
}

// tipNumber returns the size of a tip of which the unit is not said.
func tipNumber(number float64) (measure.Dim, bool) {
	for _, unit := range traits.LengthUnits[:3] {
		if size := number * traits.UnitMM[unit]; traits.TipBounds[catalog.TipOD].Possible(size) {
			length, err := measure.FromMillimetres(size)
			return measure.Nominal(length), err == nil
		}
	}
	return measure.Dim{}, false
}

func FormOf(own, other value.Form) value.Form {
	if own != value.FormUnknown {
		return own
	}
	return other
}

// AllTips reports whether every reading is the size of a tip.
func AllTips(readings []value.Reading) bool {
	for _, reading := range readings {
		size, ok := TipSize(reading)
		if !ok || !traits.IsTipName(traits.MM(size.Nominal())) {
			return false
		}
	}
	return len(readings) > 0
}
