package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// grip compares the shaft with the ferrule's bore where the ferrule ends up, and on its way there.
func (j *joint) grip() {
	if j.Tip.form == TipUnknown {
		j.missing(FieldTip)
	}
	if !j.FerruleBore.Given() {
		j.missing(FieldFerruleBore)
	}
	if j.Tip.form == TipUnknown || !j.FerruleBore.Given() {
		return
	}
	if !j.ferrule.Length.Given() && j.Tip.form != TipParallel {
		j.missing(FieldLength)
		return
	}
	j.fillGrip(&j.fit.Grip)
	loose, split := j.slips(), j.splits()
	short := loose < unsure && j.gripsShort()
	if loose < unsure && split < unsure && !short {
		g := &j.fit.Grip
		j.reason(Reason{Code: GripHolds, Level: Remarks, Size: g.Interference.Nominal, Other: g.Length, Value: g.Strain})
	}
	j.overTip()
}

// slips places the joint by how surely the ferrule grips at all. One that may not is held by adhesive on the tip.
func (j *joint) slips() belt {
	g := &j.fit.Grip
	loose := beltOf(g.Slip, j.shop.SlipRisk, g.Interference.Nominal, j.shop.SameSize)
	if loose > certain {
		j.reason(Reason{Code: GripLoose, Level: loose.level(Prepares), Size: g.Interference.Nominal, Share: g.Slip, Bound: j.shop.SlipRisk})
	}
	return loose
}

// splits places the joint by how surely the ferrule stands the stretch. One that may not is warmed before it is pushed on.
func (j *joint) splits() belt {
	g := &j.fit.Grip
	split := beltOf(g.Split, j.shop.SplitRisk, j.stretchLeft(g.Interference.Nominal), j.shop.SameSize)
	if split > certain {
		j.reason(Reason{Code: GripSplit, Level: split.level(Prepares), Size: g.Interference.Nominal, Value: g.Strain, Bound: j.shop.StrainLimit,
			Share: g.Split})
	}
	return split
}

// stretchLeft is what an interference leaves of the most that the ferrule may be stretched, on the diameter.
func (j *joint) stretchLeft(interference measure.Length) measure.Length {
	return times(j.FerruleBore.Nominal(), j.shop.StrainLimit).Sub(interference)
}

// gripsShort reports whether the ferrule grips over too little of its length to be trusted without adhesive.
func (j *joint) gripsShort() bool {
	g := &j.fit.Grip
	if !g.KnownLength || !g.Length.Less(j.leastGrip()) {
		return false
	}
	j.reason(Reason{Code: GripShort, Level: Prepares, Size: g.Length, Limit: j.leastGrip()})
	return true
}

// leastGrip is the setting, or the whole ferrule where that is shorter.
func (j *joint) leastGrip() measure.Length {
	return measure.Min(j.shop.LeastGrip, j.ferrule.Length.Middle())
}

func (j *joint) fillGrip(g *GripFit) {
	widest := j.Tip.widest(j.Insertion, j.Seated)
	shaft, bore := j.shaft(widest), &j.FerruleBore.Dim
	g.Known, g.Insertion, g.Interference = true, j.Insertion, difference(&shaft, bore)
	depth, length := j.playOfDepth(widest), j.playOfLength(widest)
	switch {
	case j.gripAtTheBend(g, &shaft, bore):
	case depth == noPlay && length == noPlay:
		g.gripOdds(&shaft, bore, j.shop.StrainLimit)
	default:
		i := &g.Interference
		i.Least = i.Least.Add(depth.Lower()).Add(length.Lower())
		i.Most = i.Most.Add(depth.Upper()).Add(length.Upper())
		g.stackOdds(stack.Of(shaft).Plus(depth).Plus(length), bore, j.shop.StrainLimit)
	}
	g.Strain, g.MostStrain = strain(g.Interference.Nominal, bore.Middle()), strain(g.Interference.Most, bore.Lower())
	if j.ferrule.Length.Given() {
		g.Length, g.KnownLength = j.Tip.lengthAbove(bore.Middle(), j.Insertion, j.Seated), true
	}
}

var noPlay = measure.Exactly(measure.Length{})

// gripAtTheBend is what fillGrip does where the ferrule's top is above the end of a tip's cone with some pieces and not with others: how
// deep the bore and how long the ferrule is do not add up there. For each height of the top the grip is that of a shaft as wide as it
// is there; the heights are spread as depth or length is, and where both have limits as a normal of their mean and deviation.
// It reports false for other joints.
func (j *joint) gripAtTheBend(g *GripFit, shaft, bore *measure.Dim) bool {
	depth, length := j.BoreDepth.Dim, j.ferrule.Length
	if j.Tip.form != TipTapered || depth.Width().IsZero() && length.Width().IsZero() {
		return false
	}
	if !depth.Given() {
		depth = measure.Exactly(j.Insertion)
	}
	sum := stack.Of(depth).Plus(length)
	end, bends := j.Tip.bend(sum.Least(), sum.Most())
	if !bends {
		return false
	}
	widest := shaft.Middle()
	g.Interference.Least = g.Interference.Least.Add(j.Tip.usualAt(sum.Least()).Sub(widest))
	g.Interference.Most = g.Interference.Most.Add(j.Tip.usualAt(sum.Most()).Sub(widest))
	var here GripFit
	at := func(top measure.Length) *GripFit {
		there := shaft.Shift(j.Tip.usualAt(top).Sub(widest))
		here.gripOdds(&there, bore, j.shop.StrainLimit)
		return &here
	}
	top, bend := heights(sum, depth, length), stack.Of(measure.Exactly(end))
	stretched := scaled(*bore, 1+j.shop.StrainLimit)
	g.Slip = stack.Average(top, func(l measure.Length) float64 { return at(l).Slip }, bend, j.heightOf(shaft, bore))
	g.Split = stack.Average(top, func(l measure.Length) float64 { return at(l).Split }, bend, j.heightOf(shaft, &stretched))
	return true
}

// heightOf is where on the cone a shaft is as wide as something, for all pieces of both.
func (j *joint) heightOf(shaft, wide *measure.Dim) stack.Sum {
	ppb := j.Tip.cone.rate.PPB()
	middle := wide.Middle().Sub(j.Tip.end.Middle()).MulRatio(billion, ppb).Sub(j.Tip.trimmed)
	return stack.Of(measure.Exactly(middle)).
		PlusRatio(wide.Shift(wide.Middle().Neg()), billion, ppb).PlusRatio(shaft.Shift(shaft.Middle().Neg()), billion, ppb)
}

// heights is the sum of two dimensions as one.
func heights(sum stack.Sum, depth, length measure.Dim) measure.Dim {
	switch {
	case length.Width().IsZero():
		return depth.Shift(length.Middle())
	case depth.Width().IsZero():
		return length.Shift(depth.Middle())
	}
	middle, three := fromMM(sum.Mean()), fromMM(3*sum.Sigma())
	return measure.PlusMinus(middle, three)
}

// playOfDepth is what the tolerance of the bore's depth means for the shaft at its widest under the ferrule: the tip
// sits deeper or less deep, and the diameters under the ferrule are others.
func (j *joint) playOfDepth(widest measure.Length) measure.Dim {
	d := &j.BoreDepth.Dim
	if j.Tip.form == TipParallel || !d.HasLimits() {
		return noPlay
	}
	length := j.ferrule.Length.Middle()
	shallow := j.Tip.widest(d.Lower(), d.Lower().Add(length))
	deep := j.Tip.widest(d.Upper(), d.Upper().Add(length))
	return play(widest, shallow, deep).WithShape(d.Shape())
}

// playOfLength is the same for the tolerance of the ferrule's length: its top ends up higher or lower on the shaft.
func (j *joint) playOfLength(widest measure.Length) measure.Dim {
	d := &j.ferrule.Length
	if j.Tip.form == TipParallel || !d.HasLimits() {
		return noPlay
	}
	short := j.Tip.widest(j.Insertion, j.Insertion.Add(d.Lower()))
	long := j.Tip.widest(j.Insertion, j.Insertion.Add(d.Upper()))
	return play(widest, short, long).WithShape(d.Shape())
}

// play is nothing, with limits that reach from here to both ends.
func play(here, one, other measure.Length) measure.Dim {
	zero := measure.Length{}
	a, b := one.Sub(here), other.Sub(here)
	return measure.WithDeviations(zero, measure.Min(zero, measure.Min(a, b)), measure.Max(zero, measure.Max(a, b)))
}

// overTip looks at the way from the tip end to the seat: a place further down that is too wide to pass.
func (j *joint) overTip() {
	passing := j.inBore.Sub(j.FerruleBore.Nominal())
	if passing.Compare(j.fit.Grip.Interference.Nominal) <= 0 {
		return
	}
	var there GripFit
	shaft := j.shaft(j.inBore)
	there.gripOdds(&shaft, &j.FerruleBore.Dim, j.shop.StrainLimit)
	passes := beltOf(there.Split, j.shop.SplitRisk, j.stretchLeft(passing), j.shop.SameSize)
	if passes > certain {
		j.reason(Reason{Code: GripOverTip, Level: passes.level(Prepares), Size: passing, Value: strain(passing, j.FerruleBore.Nominal()),
			Bound: j.shop.StrainLimit, Share: there.Split})
	}
}

func strain(interference, bore measure.Length) float64 {
	return math.Max(0, interference.Millimetres()) / bore.Millimetres()
}

const billion = 1_000_000_000

// times returns a length times a factor, which is taken to the nearest billionth.
func times(l measure.Length, factor float64) measure.Length {
	return l.MulRatio(int64(math.Round(factor*billion)), billion)
}

// scaled returns a dimension times a factor, which is taken to the nearest billionth.
func scaled(d measure.Dim, factor float64) measure.Dim {
	num := int64(math.Round(factor * billion))
	nominal := d.Nominal().MulRatio(num, billion)
	return measure.WithDeviations(nominal,
		d.Lower().MulRatio(num, billion).Sub(nominal), d.Upper().MulRatio(num, billion).Sub(nominal)).
		WithShape(d.Shape()).WithOrigin(d.Origin())
}
