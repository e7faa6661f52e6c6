package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
)

// mostLength is beyond any part of a golf club; a size above it is a slip of the unit.
var mostLength = measure.Millimetres(2000)

// sized is a dimension with the field it stands in.
type sized struct {
	field Field
	dim   *measure.Dim
}

// sizes are the head's dimensions.
func (h *Head) sizes() [12]sized {
	return [...]sized{
		{FieldHoselOD, &h.HoselOD}, {FieldHeadBore, &h.Bore}, {FieldBoreDepth, &h.BoreDepth}, {FieldHoselLength, &h.HoselLength},
		{FieldNeckTop, &h.NeckTop}, {FieldCountersinkMouth, &h.Countersink.Mouth}, {FieldCountersinkDepth, &h.Countersink.Depth},
		{FieldCounterbore, &h.Counterbore.Diameter}, {FieldCounterboreDepth, &h.Counterbore.Depth},
		{FieldAdapterOD, &h.Adapter.TopOD}, {FieldAdapterBore, &h.Adapter.Bore}, {FieldAdapterBoreDepth, &h.Adapter.BoreDepth},
	}
}

// sizes are the ferrule's dimensions that cannot be nothing.
func (f *Ferrule) sizes() [9]sized {
	return [...]sized{
		{FieldFerruleBore, &f.Bore}, {FieldBaseOD, &f.BaseOD}, {FieldTopOD, &f.TopOD}, {FieldLength, &f.Length},
		{FieldCollarOD, &f.Collar.OD}, {FieldCollarLength, &f.Collar.Length}, {FieldStepOD, &f.Step.OD}, {FieldStepLength, &f.Step.Length},
		{FieldRingDepth, &f.RingDepth},
	}
}

// Validate returns an [*InputError] when no head can have these sizes, and nil otherwise.
func (h *Head) Validate() error {
	od, bore := sized{FieldHoselOD, &h.HoselOD}, sized{FieldHeadBore, &h.Bore}
	mouth, counterbore := sized{FieldCountersinkMouth, &h.Countersink.Mouth}, sized{FieldCounterbore, &h.Counterbore.Diameter}
	sleeve, sleeveBore := sized{FieldAdapterOD, &h.Adapter.TopOD}, sized{FieldAdapterBore, &h.Adapter.Bore}
	for _, s := range h.sizes() {
		if s.dim.Given() && !s.possible() {
			return s.impossible()
		}
	}
	if !h.Countersink.Angle.IsZero() && !sensibleAngle(h.Countersink.Angle) {
		return &InputError{Field: FieldCountersinkAngle,
			Reason: "the included angle " + h.Countersink.Angle.String() + " must lie between 1° and 179°"}
	}
	switch {
	case !wider(od, bore):
		return contradiction(od, bore)
	case !wider(od, mouth):
		return contradiction(od, mouth)
	case !wider(od, counterbore):
		return contradiction(od, counterbore)
	case !wider(mouth, bore):
		return contradiction(mouth, bore)
	case !wider(counterbore, bore):
		return contradiction(counterbore, bore)
	case !wider(sleeve, sleeveBore):
		return contradiction(sleeve, sleeveBore)
	}
	return nil
}

// sensibleAngle also keeps the tangents of half the angle, and of its complement, within a few hundred.
func sensibleAngle(a measure.Angle) bool {
	return !a.Less(measure.Degrees(1)) && !measure.Degrees(179).Less(a)
}

// Validate returns an [*InputError] when no ferrule can have these sizes, and nil otherwise.
func (f *Ferrule) Validate() error {
	bore, base := sized{FieldFerruleBore, &f.Bore}, sized{FieldBaseOD, &f.BaseOD}
	top := sized{FieldTopOD, &f.TopOD}
	collar, step := sized{FieldCollarOD, &f.Collar.OD}, sized{FieldStepOD, &f.Step.OD}
	for _, s := range f.sizes() {
		if s.dim.Given() && !s.possible() {
			return s.impossible()
		}
	}
	if z := &f.RingHeight; z.Given() && (z.Nominal().Sign() < 0 || mostLength.Less(z.Nominal())) {
		return &InputError{Field: FieldRingHeight, Size: z.Nominal(), Reason: "a ring cannot begin there; its height is measured from the base upward"}
	}
	if f.Rings < 0 {
		return &InputError{Field: FieldRings, Reason: "a ferrule cannot have fewer than no rings"}
	}
	if err := f.ForTip.validate(); err != nil {
		return err
	}
	forTip := measure.Dim{}
	if f.ForTip.Known() {
		forTip = measure.Nominal(f.ForTip.Diameter)
	}
	switch tip := (sized{FieldForTip, &forTip}); {
	case !wider(base, bore):
		return contradiction(base, bore)
	case !wider(base, tip):
		return contradiction(base, tip)
	case !wider(top, bore):
		return contradiction(top, bore)
	case !wider(collar, bore):
		return contradiction(collar, bore)
	case !wider(step, bore):
		return contradiction(step, bore)
	case !wider(base, collar):
		return contradiction(base, collar)
	case !wider(base, step):
		return contradiction(base, step)
	}
	return nil
}

// Validate returns an [*InputError] when no tip can have these sizes, and nil otherwise; the zero Tip is valid.
func (t *Tip) Validate() error {
	if t.form == TipUnknown {
		return nil
	}
	if end := (sized{FieldTip, &t.end}); !end.possible() {
		return end.impossible()
	}
	switch {
	case !t.end.Given():
		return &InputError{Field: FieldTip, Reason: "the tip has a form but no diameter; leave the whole tip out if it is not known"}
	case t.trimmed.Sign() < 0 || mostLength.Less(t.trimmed):
		return &InputError{Field: FieldTip, Size: t.trimmed, Reason: "a tip cannot be trimmed by less than nothing or by more than a shaft"}
	case t.cone.rate.PPB() < 0 || t.cone.rate.Ratio() > 1:
		return &InputError{Field: FieldTip, Reason: "a taper of " + t.cone.rate.String() +
			" must lie between 0 and 1 in/in; describe a tip that narrows upward by a profile"}
	case t.cone.statesTo && t.cone.to.Less(t.end.Middle()):
		return &InputError{Field: FieldTip, Size: t.cone.to,
			Reason: "a tip cannot taper up to less than its end, " + t.end.Middle().String() + "; describe a tip that narrows upward by a profile"}
	case t.cone.statesTo && mostLength.Less(t.cone.to):
		return &InputError{Field: FieldTip, Size: t.cone.to, Reason: "a tip cannot taper up to more than any part of a golf club; check the unit"}
	}
	return nil
}

// possible reports whether a dimension is not given or one that a part can have.
func (s sized) possible() bool {
	d := s.dim
	return !d.Given() || measure.Length{}.Less(d.Lower()) && measure.Length{}.Less(d.Nominal()) &&
		d.Shape() <= measure.Triangular &&
		!mostLength.Less(d.Upper()) && !mostLength.Less(d.Nominal())
}

// impossible says what is wrong with a dimension that is not possible.
func (s sized) impossible() error {
	e := &InputError{Field: s.field, Size: s.dim.Nominal()}
	switch {
	case e.Size.Sign() <= 0:
		e.Reason = "must be more than nothing"
	case s.dim.Lower().Sign() <= 0:
		e.Size, e.Reason = s.dim.Lower(), "must be more than nothing at its lower limit too"
	case s.dim.Shape() > measure.Triangular:
		e.Reason = "has a spread that is not normal, uniform or triangular"
	default:
		e.Size, e.Reason = measure.Max(s.dim.Upper(), e.Size), "is beyond any part of a golf club; check the unit"
	}
	return e
}

// wider reports whether outer is usually larger than inner, or either is not given.
func wider(outer, inner sized) bool {
	return !outer.dim.Given() || !inner.dim.Given() || inner.dim.Middle().Less(outer.dim.Middle())
}

func contradiction(outer, inner sized) error {
	return &InputError{
		Field: outer.field, Other: inner.field, Size: outer.dim.Middle(),
		Reason: "must be larger than the " + inner.field.String() + ", " + inner.dim.Middle().String(),
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
