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
	if !j.ferruleBore.Given() {
		j.missing(FieldFerruleBore)
	}
	if j.tip.form == TipUnknown || !j.ferruleBore.Given() {
		return
	}
	if !j.ferrule.Length.Given() && j.tip.form != TipParallel {
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
	return times(j.ferruleBore.Nominal(), j.shop.StrainLimit).Sub(interference)
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
	widest := j.tip.widest(j.insertion, j.seated)
	shaft, bore := j.shaft(widest), &j.ferruleBore
	g.Known, g.Insertion, g.Interference = true, j.insertion, difference(&shaft, bore)
	depth, length := j.playOfDepth(widest), j.playOfLength(widest)
	if depth == noPlay && length == noPlay {
		g.gripOdds(&shaft, bore, j.shop.StrainLimit)
	} else {
		i := &g.Interference
		i.Least = i.Least.Add(depth.Lower()).Add(length.Lower())
		i.Most = i.Most.Add(depth.Upper()).Add(length.Upper())
		g.stackOdds(stack.Of(shaft).Plus(depth).Plus(length), bore, j.shop.StrainLimit)
	}
	g.Strain, g.MostStrain = strain(g.Interference.Nominal, bore.Middle()), strain(g.Interference.Most, bore.Lower())
	if j.ferrule.Length.Given() {
		g.Length, g.KnownLength = j.tip.lengthAbove(bore.Middle(), j.insertion, j.seated), true
	}
}

var noPlay = measure.Exactly(measure.Length{})

// playOfDepth is what the tolerance of the bore's depth means for the shaft at its widest under the ferrule: the tip
// sits deeper or less deep, and the diameters under the ferrule are others.
func (j *joint) playOfDepth(widest measure.Length) measure.Dim {
	d := &j.boreDepth
	if j.tip.form == TipParallel || !d.HasLimits() {
		return noPlay
	}
	length := j.ferrule.Length.Middle()
	shallow := j.tip.widest(d.Lower(), d.Lower().Add(length))
	deep := j.tip.widest(d.Upper(), d.Upper().Add(length))
	return play(widest, shallow, deep).WithShape(d.Shape())
}

// playOfLength is the same for the tolerance of the ferrule's length: its top ends up higher or lower on the shaft.
func (j *joint) playOfLength(widest measure.Length) measure.Dim {
	d := &j.ferrule.Length
	if j.tip.form == TipParallel || !d.HasLimits() {
		return noPlay
	}
	short := j.tip.widest(j.insertion, j.insertion.Add(d.Lower()))
	long := j.tip.widest(j.insertion, j.insertion.Add(d.Upper()))
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
	passing := j.inBore.Sub(j.ferruleBore.Nominal())
	if passing.Compare(j.fit.Grip.Interference.Nominal) <= 0 {
		return
	}
	var there GripFit
	shaft := j.shaft(j.inBore)
	there.gripOdds(&shaft, &j.ferruleBore, j.shop.StrainLimit)
	passes := beltOf(there.Split, j.shop.SplitRisk, j.stretchLeft(passing), j.shop.SameSize)
	if passes > certain {
		j.reason(Reason{Code: GripOverTip, Level: passes.level(Prepares), Size: passing, Value: strain(passing, j.ferruleBore.Nominal()),
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
