package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// grip compares the shaft with the ferrule's bore where the ferrule ends up, and on its way there.
func (j *joint) grip() {
	if j.tip.form == TipUnknown {
		j.missing(FieldTip)
	}
	if !j.bore2.Given() {
		j.missing(FieldFerruleBore)
	}
	if j.tip.form == TipUnknown || !j.bore2.Given() {
		return
	}
	if !j.ferrule.Length.Given() && j.tip.form != TipParallel {
		j.missing(FieldLength)
		return
	}
	g := &j.fit.Grip
	*g = j.gripFit()
	nominal := g.Interference.Nominal
	switch {
	case g.Slip > j.shop.SlipRisk:
		j.reason(Reason{Code: GripLoose, Level: Blocks, Size: nominal, Share: g.Slip, Bound: j.shop.SlipRisk})
	case g.Split > j.shop.SplitRisk:
		j.reason(Reason{Code: GripSplit, Level: Blocks, Size: nominal, Value: g.Strain, Bound: j.shop.StrainLimit,
			Share: g.Split})
	case j.ferrule.Length.Given() && g.Length.Less(j.leastGrip()):
		j.reason(Reason{Code: GripShort, Level: Blocks, Size: g.Length, Limit: j.leastGrip()})
	default:
		j.reason(Reason{Code: GripHolds, Level: Remarks, Size: nominal, Other: g.Length, Value: g.Strain})
	}
	j.overTip()
}

// leastGrip is the setting, or the whole ferrule where that is shorter.
func (j *joint) leastGrip() measure.Length {
	return measure.Min(j.shop.LeastGrip, j.ferrule.Length.Nominal())
}

func (j *joint) gripFit() GripFit {
	peak := j.tip.peak(j.insertion, j.seated)
	shaft := j.tipAt(peak)
	play := j.playOfPosition(peak)
	interference := stack.Of(shaft).Minus(j.bore2).Plus(play)
	limit := 1 + j.shop.StrainLimit
	beyond := stack.Of(shaft).Minus(scaled(j.bore2, limit)).Plus(play)
	nominal, bore := interference.Nominal(), j.bore2
	return GripFit{
		Known:        true,
		Insertion:    j.insertion,
		Interference: Amount{nominal, interference.Least(), interference.Most()},
		Length:       j.tip.lengthAbove(bore.Nominal(), j.insertion, j.seated),
		Slip:         interference.CDF(measure.Length{}),
		Strain:       strain(nominal, bore.Nominal()),
		MostStrain:   strain(interference.Most(), bore.Lower()),
		Split:        beyond.Above(measure.Length{}),
	}
}

// playOfPosition is what the tolerance of the bore's depth means for the shaft's diameter under the ferrule: the tip
// sits deeper or less deep, and its diameter there is another.
func (j *joint) playOfPosition(at measure.Length) measure.Dim {
	if j.tip.form == TipParallel || !j.boreDepth.HasLimits() {
		return measure.Exactly(measure.Length{})
	}
	low := j.tip.nominalAt(at.Sub(j.boreDepth.Nominal()).Add(j.boreDepth.Lower()))
	high := j.tip.nominalAt(at.Sub(j.boreDepth.Nominal()).Add(j.boreDepth.Upper()))
	here := j.tip.nominalAt(at)
	return measure.WithDeviations(measure.Length{}, low.Sub(here), high.Sub(here)).WithShape(j.boreDepth.Shape())
}

// overTip looks at the way from the tip end to the seat: a place further down that is too wide to pass.
func (j *joint) overTip() {
	passing := j.tip.nominalAt(j.tip.peak(measure.Length{}, j.insertion)).Sub(j.bore2.Nominal())
	need := strain(passing, j.bore2.Nominal())
	if need > j.shop.StrainLimit && passing.Compare(j.fit.Grip.Interference.Nominal) > 0 {
		j.reason(Reason{Code: GripOverTip, Level: Blocks, Size: passing, Value: need, Bound: j.shop.StrainLimit})
	}
}

func strain(interference, bore measure.Length) float64 {
	return math.Max(0, interference.Millimetres()) / bore.Millimetres()
}

// scaled returns a dimension times a factor, to the nearest billionth of it.
func scaled(d measure.Dim, factor float64) measure.Dim {
	const billion = 1_000_000_000
	num := int64(math.Round(factor * billion))
	times := func(l measure.Length) measure.Length { return l.MulRatio(num, billion) }
	nominal := times(d.Nominal())
	return measure.WithDeviations(nominal, times(d.Lower()).Sub(nominal), times(d.Upper()).Sub(nominal)).
		WithShape(d.Shape()).WithOrigin(d.Origin())
}
