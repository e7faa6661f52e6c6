package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
)

// mostLength is beyond any part of a golf club; a size above it is a slip of the unit.
var mostLength = measure.Millimetres(2000)

// sized is a dimension with the field it stands in.
type sized struct {
	field Field
	dim   measure.Dim
}

// Validate returns an [*InputError] when no head can have these sizes, and nil otherwise.
func (h *Head) Validate() error {
	for _, s := range [...]sized{
		{FieldHoselOD, h.HoselOD}, {FieldHeadBore, h.Bore}, {FieldBoreDepth, h.BoreDepth},
		{FieldHoselLength, h.HoselLength}, {FieldNeckTop, h.NeckTop},
		{FieldCountersinkMouth, h.Countersink.Mouth}, {FieldCountersinkDepth, h.Countersink.Depth},
		{FieldCounterbore, h.Counterbore.Diameter}, {FieldCounterboreDepth, h.Counterbore.Depth},
		{FieldAdapterOD, h.Adapter.TopOD}, {FieldAdapterBore, h.Adapter.Bore},
		{FieldAdapterBoreDepth, h.Adapter.BoreDepth},
	} {
		if err := s.check(); err != nil {
			return err
		}
	}
	if a := h.Countersink.Angle; a.Sign() < 0 || a.Compare(measure.Degrees(180)) >= 0 {
		return &InputError{Field: FieldCountersinkAngle, Reason: "the included angle must lie between 0 and 180 degrees"}
	}
	return firstError(
		wider(sized{FieldHoselOD, h.HoselOD}, sized{FieldHeadBore, h.Bore}),
		wider(sized{FieldHoselOD, h.HoselOD}, sized{FieldCountersinkMouth, h.Countersink.Mouth}),
		wider(sized{FieldHoselOD, h.HoselOD}, sized{FieldCounterbore, h.Counterbore.Diameter}),
		wider(sized{FieldAdapterOD, h.Adapter.TopOD}, sized{FieldAdapterBore, h.Adapter.Bore}),
	)
}

// Validate returns an [*InputError] when no ferrule can have these sizes, and nil otherwise.
func (f *Ferrule) Validate() error {
	for _, s := range [...]sized{
		{FieldFerruleBore, f.Bore}, {FieldBaseOD, f.BaseOD}, {FieldTopOD, f.TopOD}, {FieldLength, f.Length},
		{FieldCollarOD, f.Collar.OD}, {FieldCollarLength, f.Collar.Length},
		{FieldStepOD, f.Step.OD}, {FieldStepLength, f.Step.Length}, {FieldRingDepth, f.RingDepth},
	} {
		if err := s.check(); err != nil {
			return err
		}
	}
	if f.RingHeight.Given() && f.RingHeight.Nominal().Sign() < 0 {
		return &InputError{Field: FieldRingHeight, Size: f.RingHeight.Nominal(), Reason: "a ring cannot begin below the base"}
	}
	if f.Rings < 0 {
		return &InputError{Field: FieldRings, Reason: "a ferrule cannot have fewer than no rings"}
	}
	return firstError(
		wider(sized{FieldBaseOD, f.BaseOD}, sized{FieldFerruleBore, f.Bore}),
		wider(sized{FieldTopOD, f.TopOD}, sized{FieldFerruleBore, f.Bore}),
		wider(sized{FieldCollarOD, f.Collar.OD}, sized{FieldFerruleBore, f.Bore}),
		wider(sized{FieldStepOD, f.Step.OD}, sized{FieldFerruleBore, f.Bore}),
	)
}

// Validate returns an [*InputError] when no tip can have these sizes, and nil otherwise; the zero Tip is valid.
func (t *Tip) Validate() error {
	if t.form == TipUnknown {
		return nil
	}
	if err := (sized{FieldTip, t.end}).check(); err != nil {
		return err
	}
	if !t.end.Given() {
		return &InputError{Field: FieldTip, Reason: "the tip has a form but no diameter; leave the whole tip out if it is not known"}
	}
	if t.trimmed.Sign() < 0 {
		return &InputError{Field: FieldTip, Size: t.trimmed, Reason: "a tip cannot be trimmed by less than nothing"}
	}
	return nil
}

func (s sized) check() error {
	switch {
	case !s.dim.Given():
		return nil
	case s.dim.Nominal().Sign() <= 0 || s.dim.Lower().Sign() <= 0:
		return &InputError{Field: s.field, Size: s.dim.Lower(), Reason: "must be more than nothing at its lower limit too"}
	case mostLength.Less(s.dim.Upper()) || mostLength.Less(s.dim.Nominal()):
		return &InputError{Field: s.field, Size: s.dim.Upper(), Reason: "is beyond any part of a golf club; check the unit"}
	}
	return nil
}

// wider requires outer to be larger than inner where both are given.
func wider(outer, inner sized) error {
	if !outer.dim.Given() || !inner.dim.Given() || inner.dim.Nominal().Less(outer.dim.Nominal()) {
		return nil
	}
	return &InputError{
		Field: outer.field, Other: inner.field, Size: outer.dim.Nominal(),
		Reason: "must be larger than the " + inner.field.String() + ", " + inner.dim.Nominal().String(),
	}
}

func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
