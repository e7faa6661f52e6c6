package fitcalc

import "example.com/seatline/fitcalc/measure"

// MeasuredFields returns the fields of a joint whose sizes come from readings, those of origin [measure.Measured], in the order
// of the fields.
func MeasuredFields(head *Head, tip *Tip, ferrule *Ferrule) []Field {
	var fields []Field
	for _, s := range head.sizes() {
		fields = s.ifMeasured(fields)
	}
	fields = sized{FieldTip, &tip.end}.ifMeasured(fields)
	for _, s := range ferrule.sizes() {
		fields = s.ifMeasured(fields)
	}
	return fields
}

func (s sized) ifMeasured(fields []Field) []Field {
	if s.dim.Given() && s.dim.Origin() == measure.Measured {
		return append(fields, s.field)
	}
	return fields
}

// Tolerance returns the ± that a size has where its source states none; nothing for a field that is no toleranced size.
func (s *Shop) Tolerance(f Field) measure.Length {
	switch f {
	case FieldHoselOD, FieldAdapterOD:
		return s.HoselODTolerance
	case FieldHeadBore, FieldAdapterBore:
		return s.BoreTolerance
	case FieldTip:
		return s.TipTolerance
	case FieldFerruleBore:
		return s.FerruleBoreTolerance
	case FieldBaseOD, FieldTopOD, FieldCollarOD, FieldStepOD:
		return s.FerruleODTolerance
	case FieldCountersinkMouth, FieldCountersinkDepth, FieldCounterbore, FieldCounterboreDepth:
		return s.RecessTolerance
	case FieldBoreDepth, FieldAdapterBoreDepth, FieldHoselLength, FieldNeckTop, FieldLength, FieldCollarLength, FieldStepLength, FieldRingDepth, FieldRingHeight:
		return s.LengthTolerance
	}
	return measure.Length{}
}

// Inside reports whether a field is the diameter of a hole, which is measured with the inside jaws.
func (f Field) Inside() bool {
	switch f {
	case FieldHeadBore, FieldAdapterBore, FieldFerruleBore, FieldCountersinkMouth, FieldCounterbore:
		return true
	}
	return false
}
