package cells

import (
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
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

// nearTip is how far a bore lies at most from the tip that it is made for, in mm: .014 in, with room for glue. Common practice, from memory.
const nearTip = 0.36

// withoutTip reads a bore beside which its cell names the tip that it is for, the one or the other in brackets: "9.1 mm (.355 taper)".
func (t *Reader) withoutTip(text string, ctx value.Context, reading value.Reading) value.Reading {
	if reading.Kind == value.Length && reading.Problem.Code == "" {
		return reading
	}
	before, inside, found := lexicon.CutBrackets(text)
	if !found {
		return reading
	}
	for _, way := range [...][2]string{{before, inside}, {inside, before}} {
		bore, tips := t.Lex.Read(way[0], ctx), lexicon.Named(t.Lex.TipsIn(way[1], false))
		if len(tips) != 1 || bore.Kind != value.Length || bore.Problem.Code != "" {
			continue
		}
		if math.Abs(traits.MM(bore.Dim.Nominal())-traits.MM(tips[0].Diameter)) <= nearTip {
			return bore
		}
	}
	return reading
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
