package fitcalc

import "example.com/seatline/fitcalc/measure"

// MeasuredFields returns the fields of a joint whose sizes come from readings, those of origin [measure.Measured], in the order
// of the fields.
func MeasuredFields(head *Head, tip *Tip, ferrule *Ferrule) []Field {
	var fields []Field
	for f := NoField + 1; f < fieldCount; f++ {
		if d := dimOf(head, tip, ferrule, f); d != nil && d.Given() && d.Origin() == measure.Measured {
			fields = append(fields, f)
		}
	}
	return fields
}

// dimOf is a dimension of whichever part has it, nil for a field that is no dimension.
func dimOf(head *Head, tip *Tip, ferrule *Ferrule, f Field) *measure.Dim {
	switch f.row().owner {
	case OfHead:
		return head.Dim(f)
	case OfTip:
		return tip.dim(f)
	}
	return ferrule.Dim(f)
}
