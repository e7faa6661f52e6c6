package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// work is what the bench has to do, and whether the ferrule survives it.
func (j *joint) work() {
	if !j.fit.Flush.Known || j.Tip.form == TipUnknown {
		return
	}
	j.wall()
	j.ringCut()
	j.minutes()
}

func (j *joint) minutes() {
	w, t := &j.fit.Work, j.takenOff()
	w.Known = true
	if t.share > 0 && !j.ferrule.Length.Given() && j.fit.Flush.turns(j.shop) { // else hardly any is turned
		j.assume(AssumedTurnedLength)
	}
	w.Minutes = j.shop.minutes(&t, j.outsideOf(j.ferrule, t.base), j.prepares)
}

// takenOff is how much turning hosel and base ask for: of which share of the joints, how much comes off the diameter of these as a mean, in
// mm, and the base that it comes off.
type takenOff struct {
	share, off float64
	base       measure.Length
}

func (j *joint) takenOff() takenOff {
	f := &j.fit.Flush
	t := takenOff{share: f.VisibleOversize, base: j.BaseOD.Nominal()}
	if t.share > 0 {
		t.off = f.MeanTurnDownMM / t.share
	}
	return t
}

// outside is the cone that a ferrule is on the outside: the diameter at its top, and how far that is above its base.
type outside struct{ top, length measure.Length }

// minutes is the bench time of a joint.
func (s *Shop) minutes(t *takenOff, o outside, prepares bool) float64 {
	minutes := s.MinutesToFit
	if t.share > 0 {
		volume := turnedVolume(t.base.Millimetres(), o.top.Millimetres(), o.length.Millimetres(), t.off)
		minutes += t.share * (s.MinutesToTurn + volume/1000*s.MinutesPerCM3)
	}
	if prepares {
		minutes += s.MinutesToPrep
	}
	return minutes
}

// inside is the largest diameter at which the ferrule's wall may begin at its base.
func (j *joint) inside() measure.Length {
	return measure.Max(j.shaft(j.atBase).Upper(), j.FerruleBore.Upper())
}

// wall is the ferrule's wall beside the shaft at its base, as it is or turned down to the hosel. Where the shaft is thinner
// there than the ferrule's bore, the wall ends at the bore.
func (j *joint) wall() {
	outside := measure.Min(j.HoselOD.Lower(), j.BaseOD.Lower())
	shaft, inside := j.shaft(j.atBase), j.inside()
	w, least := &j.fit.Work, j.shop.LeastWall.MulInt(2)
	w.WallLeft = outside.Sub(inside).Half()
	if !outside.Sub(inside).Less(least.Add(j.shop.SameSize)) {
		return
	}
	for _, out := range [...]*measure.Dim{&j.HoselOD.Dim, &j.BaseOD.Dim} {
		for _, in := range [...]*measure.Dim{&shaft, &j.FerruleBore.Dim} {
			if !in.Given() {
				continue // the shaft alone bounds the wall
			}
			w.ThinWall = max(w.ThinWall, oddsBelow(out, in, least))
		}
	}
	usual := measure.Min(j.HoselOD.Nominal(), j.BaseOD.Nominal()).Sub(measure.Max(j.atBase, j.FerruleBore.Nominal()))
	thin := beltOf(w.ThinWall, j.shop.MeasureShare, usual.Sub(least), j.shop.SameSize)
	if thin > certain {
		j.reason(Reason{Code: WallThin, Level: thin.level(Measures), Size: usual.Half(), Other: w.WallLeft, Limit: j.shop.LeastWall,
			Share: w.ThinWall})
	}
}

// ringCut asks whether the turning reaches through a decorative ring. The outside is a straight cone, so that less comes
// off at the ring's height z than at the base: the turn-down less (B − T) z/L.
func (j *joint) ringCut() {
	f := j.ferrule
	if !f.RingDepth.Given() {
		return
	}
	through := f.RingDepth.Middle().MulInt(2)
	cut, share := j.cutsTo(through)
	if cut == certain {
		return
	}
	if f.RingHeight.Given() && !f.Length.Given() {
		j.missing(FieldLength)
		return
	}
	if spared := j.sparedAt(f.RingHeight.Middle()); spared.Sign() > 0 {
		cut, share = j.cutsTo(through.Add(spared))
	}
	if cut > certain {
		off := j.offAt(f.RingHeight.Middle(), j.fit.Flush.TurnDown.Nominal).Half()
		j.reason(Reason{Code: RingCut, Level: cut.level(Measures), Size: off, Limit: f.RingDepth.Middle(), Share: share})
	}
}

// cutsTo places the joint by how surely less than a size, on the diameter, comes off its base.
func (j *joint) cutsTo(size measure.Length) (belt, float64) {
	share := 1 - oddsBelow(&j.BaseOD.Dim, &j.HoselOD.Dim, size)
	return beltOf(share, j.shop.MeasureShare, size.Sub(j.fit.Flush.TurnDown.Nominal), j.shop.SameSize), share
}

// outsideOf is the outside of a ferrule. Its top is as given, or level with the shaft there, and never wider than its base. Nothing would
// make one of unknown length look like the least work: it is taken to be as long as usual.
func (j *Joint) outsideOf(f *Ferrule, base measure.Length) outside {
	o := outside{f.TopOD.Middle(), f.Length.Middle()}
	if !f.TopOD.Given() {
		o.top = j.Tip.usualAt(j.Seated)
	}
	if !f.Length.Given() {
		o.length = j.shop.UsualLength
	}
	o.top = measure.Min(o.top, base)
	return o
}

// turnedVolume is what comes off in mm³ when the base is turned down by off; all sizes are in mm. The outside is a straight
// cone from base OD B to top OD T over length L; turned down by S it is a cylinder up to where the cone is as narrow,
// L S / (B − T). What comes off is the cone below that height less the cylinder.
func turnedVolume(base, top, height, off float64) float64 {
	turned := base - off
	if turned > top {
		height *= off / (base - top)
		top = turned
	}
	return math.Max(0, frustum(base, top, height)-frustum(turned, turned, height))
}

// remarks are hints that do not change the verdict.
func (j *joint) remarks() {
	if neck := j.head.NeckTop; neck.Given() && j.head.Category != Putter && neckLimit.Less(neck.Middle()) {
		j.reason(Reason{Code: NeckOverLimit, Level: Remarks, Size: neck.Middle(), Limit: neckLimit})
	}
	length := j.ferrule.Length
	if !length.Given() {
		return
	}
	most := j.shop.MostLength
	if hosel := &j.head.HoselLength; hosel.Given() {
		most = measure.Min(most, times(hosel.Middle(), j.shop.LengthOfHosel))
	}
	switch {
	case length.Middle().Less(j.shop.LeastLength):
		j.reason(Reason{Code: LengthShort, Level: Remarks, Size: length.Middle(), Limit: j.shop.LeastLength})
	case most.Less(length.Middle()):
		j.reason(Reason{Code: LengthLong, Level: Remarks, Size: length.Middle(), Limit: most})
	}
}

// neckLimit is the most that the top of the neck or socket may stand above the sole, putters excepted: 5 in (127 mm).
// Source: R&A and USGA Equipment Rules, part 2, section 2c. The texts read do not mention ferrules.
var neckLimit = measure.Inches(5)
