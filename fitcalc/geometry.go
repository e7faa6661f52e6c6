package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// CountersinkDepth returns the depth of a cone that narrows from the diameter mouth to the diameter bottom with the
// included angle A: h = (mouth − bottom) / (2 tan(A/2)). The angle must lie between 0 and 180 degrees.
func CountersinkDepth(mouth, bottom measure.Length, angle measure.Angle) measure.Length {
	return fromMM(mouth.Sub(bottom).Millimetres() / (2 * angle.Half().Tan()))
}

// CountersinkMouth returns the diameter of a cone of the included angle A at its mouth: bottom + 2 h tan(A/2).
func CountersinkMouth(bottom, depth measure.Length, angle measure.Angle) measure.Length {
	return bottom.Add(fromMM(2 * depth.Millimetres() * angle.Half().Tan()))
}

// CountersinkAngle returns the included angle of a cone in degrees: 2 atan((mouth − bottom) / 2h).
func CountersinkAngle(mouth, bottom, depth measure.Length) float64 {
	return 2 * math.Atan2(mouth.Sub(bottom).Millimetres()/2, depth.Millimetres()) * 180 / math.Pi
}

// FrustumVolume returns the volume of a cone cut off, in mm³, from the diameters of its ends and its height:
// V = π h (D² + D d + d²) / 12.
func FrustumVolume(large, small, height measure.Length) float64 {
	return frustum(large.Millimetres(), small.Millimetres(), height.Millimetres())
}

// frustum is FrustumVolume in mm.
func frustum(d1, d2, height float64) float64 { return math.Pi * height * (d1*d1 + d1*d2 + d2*d2) / 12 }

// fromMM is for results that the checked sizes of a joint keep far inside the range of a Length.
func fromMM(mm float64) measure.Length {
	l, err := measure.FromMillimetres(mm)
	if err != nil {
		return measure.Length{}
	}
	return l
}
