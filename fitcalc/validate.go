package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
)

// mostLength is beyond any part of a golf club; a size above it is a slip of the unit.
var mostLength = measure.Millimetres(2000)

// Validate returns an [*InputError] when no head can have these sizes, and nil otherwise.
func (h *Head) Validate() error {
	for _, f := range headDimensions {
		if d := h.Dim(f); d.Given() && !possible(d) {
			return impossible(f, d)
		}
	}
	if !h.Countersink.Angle.IsZero() && !sensibleAngle(h.Countersink.Angle) {
		return &InputError{Field: FieldCountersinkAngle,
			Reason: "the included angle " + h.Countersink.Angle.String() + " must lie between 1° and 179°"}
	}
	for _, o := range headOrder {
		if outer, inner := h.Dim(o.outer), h.Dim(o.inner); !wider(outer, inner) {
			return contradiction(o.outer, outer, o.inner, inner)
		}
	}
	return nil
}

// sensibleAngle also keeps the tangents of half the angle, and of its complement, within a few hundred.
func sensibleAngle(a measure.Angle) bool {
	return !a.Less(measure.Degrees(1)) && !measure.Degrees(179).Less(a)
}

// Validate returns an [*InputError] when no ferrule can have these sizes, and nil otherwise.
func (f *Ferrule) Validate() error {
	for _, field := range ferruleDimensions {
		if d := f.Dim(field); d.Given() && field != FieldRingHeight && !possible(d) {
			return impossible(field, d)
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
	for _, o := range ferruleOrder {
		outer, inner := f.Dim(o.outer), f.Dim(o.inner)
		if o.inner == FieldForTip {
			inner = &forTip
		}
		if !wider(outer, inner) {
			return contradiction(o.outer, outer, o.inner, inner)
		}
	}
	return nil
}

// Validate returns an [*InputError] when no tip can have these sizes, and nil otherwise; the zero Tip is valid.
func (t Tip) Validate() error {
	if t.form == TipUnknown {
		return nil
	}
	if !possible(&t.end) {
		return impossible(FieldTip, &t.end)
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
func possible(d *measure.Dim) bool {
	return !d.Given() || measure.Length{}.Less(d.Lower()) && measure.Length{}.Less(d.Nominal()) &&
		d.Shape() <= measure.Triangular &&
		!mostLength.Less(d.Upper()) && !mostLength.Less(d.Nominal())
}

// impossible says what is wrong with a dimension that is not possible.
func impossible(f Field, d *measure.Dim) error {
	e := &InputError{Field: f, Size: d.Nominal()}
	switch {
	case e.Size.Sign() <= 0:
		e.Reason = "must be more than nothing"
	case d.Lower().Sign() <= 0:
		e.Size, e.Reason = d.Lower(), "must be more than nothing at its lower limit too"
	case d.Shape() > measure.Triangular:
		e.Reason = "has a spread that is not normal, uniform or triangular"
	default:
		e.Size, e.Reason = measure.Max(d.Upper(), e.Size), "is beyond any part of a golf club; check the unit"
	}
	return e
}

// wider reports whether outer is usually larger than inner, or either is not given.
func wider(outer, inner *measure.Dim) bool {
	return !outer.Given() || !inner.Given() || inner.Middle().Less(outer.Middle())
}

func contradiction(outer Field, larger *measure.Dim, inner Field, smaller *measure.Dim) error {
	return &InputError{
		Field: outer, Other: inner, Size: larger.Middle(),
		Reason: "must be larger than the " + inner.String() + ", " + smaller.Middle().String(),
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
