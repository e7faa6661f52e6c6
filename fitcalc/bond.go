package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// Bond is the adhesive joint between tip and bore, as geometry. It says nothing of how well an adhesive holds: that is for
// its maker's instructions, the preparation of both sides and a test.
type Bond struct {
	// Length is the length of tip in the bore below any recess.
	Length measure.Length
	// AreaMM2 is the surface of the tip over that length: that of a cone cut off, π (d₁ + d₂)/2 × slant length.
	AreaMM2 float64
	// GapMM3 is the room between tip and bore over that length, which the adhesive fills.
	GapMM3 float64
	// Line is the mean radial thickness of that room: per side.
	Line measure.Length
}

// ShearMPa returns the average shear stress under a pull: τ = F / A. The stress at the ends of a real joint is higher.
func (b Bond) ShearMPa(pullN float64) float64 { return pullN / b.AreaMM2 }

// CentripetalN returns the pull on a head of some mass that moves on a circle: F = m v² / r.
func CentripetalN(massKG, speedMPerS, radiusM float64) float64 {
	return massKG * speedMPerS * speedMPerS / radiusM
}

// BondOf returns the bond of a tip in a parallel or tapered bore at the joint's usual sizes, in the middle of their limits. The error is an
// [*InputError]; it names a dimension that is missing, or the bore where the tip does not go in.
func BondOf(head Head, tip Tip, shop Shop) (Bond, error) {
	if err := firstError(head.Validate(), tip.Validate(), shop.Validate()); err != nil {
		return Bond{}, err
	}
	var fit Fit
	j := newJoint(&fit, &head, &tip, &Ferrule{}, &shop)
	for _, need := range [...]struct {
		field Field
		given bool
	}{
		{FieldTip, tip.form != TipUnknown}, {FieldHeadBore, j.Bore.Given()}, {FieldBoreDepth, j.BoreDepth.Given()},
	} {
		if !need.given {
			return Bond{}, &InputError{Field: need.field, Reason: "must be given for the bond to be worked out"}
		}
	}
	if _, unknown := j.recess(); unknown != NoField {
		return Bond{}, &InputError{Field: unknown, Reason: "must be given for the bond to be worked out"}
	}
	if j.quoted() {
		return Bond{}, &InputError{Field: FieldHeadBore, Size: j.Bore.Nominal(), Reason: "is the tip it takes; the size of the hole must be given for the bond to be worked out"}
	}
	j.bore()
	length := j.fit.Bore.Insertion
	if length.Sign() <= 0 {
		return Bond{}, &InputError{Field: FieldBoreDepth, Size: j.BoreDepth.Nominal(), Reason: "leaves nothing below the recess"}
	}
	return bondOver(&j, length)
}

// bondOver adds up the bond section by section; within a section tip and bore are cones.
func bondOver(j *joint, length measure.Length) (Bond, error) {
	b := Bond{Length: length}
	like, from := j.tipOfBore(), measure.Length{}
	for from.Less(length) {
		to := j.nextBend(&like, from, length)
		low, high := j.Tip.usualAt(from), j.Tip.usualAt(to)
		boreLow, boreHigh := j.boreAt(&like, from), j.boreAt(&like, to)
		if boreLow.Less(low) || boreHigh.Less(high) {
			return Bond{}, &InputError{Field: FieldHeadBore, Size: boreHigh, Reason: "is smaller than the tip; the tip does not go in"}
		}
		height := to.Sub(from)
		slant := math.Hypot(height.Millimetres(), high.Sub(low).Millimetres()/2)
		b.AreaMM2 += math.Pi * (low.Millimetres() + high.Millimetres()) / 2 * slant
		b.GapMM3 += FrustumVolume(boreLow, boreHigh, height) - FrustumVolume(low, high, height)
		from = to
	}
	b.Line = fromMM(b.GapMM3 / b.AreaMM2)
	return b, nil
}
