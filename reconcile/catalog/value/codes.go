package value

// Codes of what may be forgiven in reading a value. They are only ever added to.
const (
	ForgaveDecimalComma  = "decimal-comma"  // 13,6 read as 13.6
	ForgaveDecimalPoint  = "decimal-point"  // 13.600 read as 13.6 where the column's decimal mark is a comma
	ForgaveThousands     = "thousands"      // 1,250.00 read as 1250
	ForgaveWidth         = "full-width"     // full-width or other digits and signs
	ForgaveFractionSign  = "fraction-sign"  // ½ read as 1/2
	ForgaveDiameterSign  = "diameter-sign"  // Ø13.6, dia. 13.6
	ForgaveRadiusSign    = "radius-sign"    // R6.8
	ForgaveFootnote      = "footnote"       // 13.6*, 13.6¹⁾, 13.6 (a)
	ForgaveApproximation = "approximation"  // approx. 13.6
	ForgaveBothUnits     = "both-units"     // .370 (9.398mm), which agree
	ForgaveTrailingText  = "trailing-text"  // 13.6 polished
	ForgaveNaming        = "naming"         // hosel 13.6: words that say what the value is
	ForgaveShiftedUnit   = "unit-spelling"  // a unit spelt out or in another language
	ForgaveUnitElsewhere = "unit-elsewhere" // the number stands alone; its unit comes from the context
	ForgaveRange         = "range"          // 13.5-13.7 read as limits
	ForgaveReversed      = "reversed"       // 13.7-13.5 read as 13.5 to 13.7
	ForgaveApostrophe    = "quoted"         // a leading apostrophe or equals sign round a plain value
	ForgaveOneDeviation  = "one-deviation"  // 13.6 -0.1 read as 13.6 +0/-0.1
	ForgaveNoise         = "rounded"        // more digits than were meant: 0.33500000000000002
	ForgaveUnitTwice     = "unit-twice"     // 1/2" in, 1/2""
	ForgaveHundredths    = "hundredths"     // 45p read as 0.45
	ForgaveMoney         = "money"          // 13.6 (polished +0.20 €)
	ForgavePlusMinus     = "plus-minus"     // a bare number in a tolerance column read as ± that number
)

// Codes of problems, as they stand in findings.
const (
	problemUnit        = "data.unit"
	problemConflict    = "data.conflict"
	problemImplausible = "data.implausible"
	problemMissing     = "data.missing"
	problemUnreadable  = "data.unreadable"
	problemDamaged     = "data.damaged"
)
