package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// Turning is what turning a base down to the hosel does to the ferrule, at the usual sizes: in the middle of their limits.
//
// The outside is a straight cone from the base OD B to the top OD T over the length L. Turned down by S, both on the
// diameter, it is a cylinder of the hosel's OD up to where the cone is as narrow, at the height L S / (B − T), and keeps its
// shape above. That is the least that can come off; blending by eye takes a little more.
type Turning struct {
	// Down is what comes off the base, on the diameter; PerSide is half of it.
	Down, PerSide measure.Length
	// Finished is the diameter of the base afterwards.
	Finished measure.Length
	// Height is how far up the turning goes, over the whole length at most.
	Height measure.Length
	// VolumeMM3 is what comes off in mm³, and MassMG its mass in milligrams; KnownMass is set where the material's density is
	// known.
	VolumeMM3, MassMG float64
	KnownMass         bool
	// RingDepthLeft is what is left of a decorative ring, per side, negative where it is cut through; KnownRing is set where its
	// depth is given.
	RingDepthLeft measure.Length
	KnownRing     bool
}

// TurningOf returns what turning does at the usual sizes of a joint; everything is nothing where the base is not larger than
// the hosel. Where the ferrule's top OD is not given it is taken as level with the shaft. The error is an [*InputError] that
// names the dimension that is missing or impossible.
func TurningOf(head Head, tip Tip, ferrule Ferrule, shop Shop) (Turning, error) {
	if err := valid(&head, &tip, &ferrule); err != nil {
		return Turning{}, err
	}
	if err := shop.Validate(); err != nil {
		return Turning{}, err
	}
	var fit Fit
	j := newJoint(&fit, &head, &tip, &ferrule, &shop)
	for _, need := range [...]struct {
		field Field
		given bool
	}{{j.HoselOD.Field, j.HoselOD.Given()}, {FieldBaseOD, j.BaseOD.Given()}, {FieldLength, ferrule.Length.Given()}} {
		if !need.given {
			return Turning{}, &InputError{Field: need.field, Reason: "must be given for the turning to be worked out"}
		}
	}
	if tip.form == TipUnknown && !ferrule.TopOD.Given() {
		return Turning{}, &InputError{Field: FieldTopOD, Reason: "or a tip must be given for the turning to be worked out"}
	}
	return j.turning(), nil
}

func (j *joint) turning() Turning {
	base := j.BaseOD.Nominal()
	down := measure.Max(base.Sub(j.HoselOD.Nominal()), measure.Length{})
	if j.oneSize(down) {
		down = measure.Length{} // one size stated twice
	}
	t := Turning{Down: down, PerSide: down.Half(), Finished: base.Sub(down)}
	o := j.outsideOf(j.ferrule, base)
	if narrowing := base.Sub(o.top); down.Sign() > 0 {
		t.Height = j.ferrule.Length.Middle()
		if down.Less(narrowing) {
			t.Height = t.Height.MulRatio(down.Picometres(), narrowing.Picometres())
		}
		t.VolumeMM3 = turnedVolume(base.Millimetres(), o.top.Millimetres(), o.length.Millimetres(), down.Millimetres())
	}
	t.MassMG, t.KnownMass = massMG(j.ferrule.Material, t.VolumeMM3)
	if depth := j.ferrule.RingDepth; depth.Given() {
		t.RingDepthLeft, t.KnownRing = depth.Middle().Sub(j.offAt(j.ferrule.RingHeight.Middle(), down).Half()), true
	}
	return t
}

// offAt returns what a turn-down takes off the diameter at a height above the base: down − (B − T) z/L, never less than
// nothing.
func (j *joint) offAt(height, down measure.Length) measure.Length {
	return measure.Max(down.Sub(j.sparedAt(height)), measure.Length{})
}

// sparedAt is how much less comes off the diameter at a height above the base, (B − T) z/L.
func (j *joint) sparedAt(height measure.Length) measure.Length {
	if height.Sign() <= 0 {
		return measure.Length{}
	}
	base := j.BaseOD.Nominal()
	narrower := base.Sub(j.outsideOf(j.ferrule, base).top)
	return narrower.MulRatio(height.Picometres(), j.ferrule.Length.Middle().Picometres())
}

// massMG returns the mass of a volume of the ferrule's material: 1 kg/m³ is 0.001 mg/mm³.
func massMG(m Material, volumeMM3 float64) (float64, bool) {
	material, err := press.MaterialByName(m.String())
	if err != nil || !material.DensityKgM3.Given() {
		return 0, false
	}
	return volumeMM3 * material.DensityKgM3.Value / 1000, true
}

// Sleeve is a shim between a tip and a bore that is too large for it: a tube with room for adhesive inside and out.
type Sleeve struct {
	// Inside and Outside are its diameters, Wall its thickness per side, Length that of the bond.
	Inside, Outside, Wall, Length measure.Length
}

// SleeveFor returns the sleeve that makes up a bore that is too large, with the shop's least clearance inside and outside, on
// the diameter, and reports false where the bore leaves no room for one. Taper tips are fitted at their widest in the bore.
// The error is an [*InputError] that names the dimension that is missing or impossible.
func SleeveFor(head Head, tip Tip, shop Shop) (Sleeve, bool, error) {
	if err := valid(&head, &tip, &Ferrule{}); err != nil {
		return Sleeve{}, false, err
	}
	if err := shop.Validate(); err != nil {
		return Sleeve{}, false, err
	}
	var fit Fit
	j := newJoint(&fit, &head, &tip, &Ferrule{}, &shop)
	for _, need := range [...]struct {
		field Field
		given bool
	}{{FieldTip, tip.form != TipUnknown}, {FieldHeadBore, j.Bore.Given()}} {
		if !need.given {
			return Sleeve{}, false, &InputError{Field: need.field, Reason: "must be given for a sleeve to be worked out"}
		}
	}
	s := Sleeve{
		Inside:  j.inBore.Add(shop.LeastClearance),
		Outside: j.Bore.Nominal().Sub(shop.LeastClearance),
		Length:  j.Insertion,
	}
	s.Wall = s.Outside.Sub(s.Inside).Half()
	return s, s.Wall.Sign() > 0, nil
}
