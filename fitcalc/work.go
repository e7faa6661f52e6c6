package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
)

// work is what the bench has to do, and whether the ferrule survives it.
func (j *joint) work() {
	if !j.fit.Flush.Known || j.tip.form == TipUnknown {
		return
	}
	j.wall()
	j.ringCut()
	w := &j.fit.Work
	w.Known = true
	w.Minutes = j.shop.MinutesToFit + j.fit.Flush.VisibleOversize*j.shop.MinutesToTurn +
		j.turnedVolume()/1000*j.shop.MinutesPerCM3
	if j.worst == Prepares {
		w.Minutes += j.shop.MinutesToPrep
	}
}

// wall is the ferrule's wall beside the shaft at its base, as it is or turned down to the hosel.
func (j *joint) wall() {
	finished := measure.Min(j.hoselOD.Lower(), j.baseOD.Lower())
	wall := finished.Sub(j.tipAt(j.insertion).Upper()).Half()
	j.fit.Work.WallLeft = wall
	if wall.Less(j.shop.LeastWall) {
		j.reason(Reason{Code: WallThin, Level: Blocks, Size: wall, Limit: j.shop.LeastWall})
	}
}

// ringCut asks whether the turning reaches through a decorative ring.
func (j *joint) ringCut() {
	f := j.ferrule
	if !f.RingDepth.Given() || f.RingHeight.Given() && j.coneHeight().Less(f.RingHeight.Nominal()) {
		return
	}
	if off := j.fit.Flush.TurnDown.Nominal.Half(); f.RingDepth.Nominal().Compare(off) <= 0 {
		j.reason(Reason{Code: RingCut, Level: Blocks, Size: off, Limit: f.RingDepth.Nominal()})
	}
}

// topOD is the ferrule's diameter at its top: as given, or level with the shaft there.
func (j *joint) topOD() measure.Length {
	if j.ferrule.TopOD.Given() {
		return j.ferrule.TopOD.Nominal()
	}
	return measure.Min(j.tip.nominalAt(j.seated), j.baseOD.Nominal())
}

// coneHeight is how far up the turning goes. The outside is a straight cone from base OD B to top OD T over length L;
// turned to the hosel's OD H it is a cylinder up to where the cone is as narrow: L (B − H) / (B − T).
func (j *joint) coneHeight() measure.Length {
	length, off := j.ferrule.Length.Nominal(), j.fit.Flush.TurnDown.Nominal
	full := j.baseOD.Nominal().Sub(j.topOD())
	if full.Compare(off) <= 0 {
		return length
	}
	return length.MulRatio(off.Picometres(), full.Picometres())
}

// turnedVolume is what comes off in mm³: the cone below that height less the cylinder left.
func (j *joint) turnedVolume() float64 {
	if !j.ferrule.Length.Given() || j.fit.Flush.TurnDown.Nominal.IsZero() {
		return 0
	}
	base, hosel, height := j.baseOD.Nominal(), j.hoselOD.Nominal(), j.coneHeight()
	top := measure.Max(hosel, j.topOD())
	return max(0, FrustumVolume(base, top, height)-FrustumVolume(hosel, hosel, height))
}

// remarks are hints that do not change the verdict.
func (j *joint) remarks() {
	if neck := j.head.NeckTop; neck.Given() && j.head.Category != Putter && neckLimit.Less(neck.Nominal()) {
		j.reason(Reason{Code: NeckOverLimit, Level: Remarks, Size: neck.Nominal(), Limit: neckLimit})
	}
	length := j.ferrule.Length
	if !length.Given() {
		return
	}
	most := j.shop.MostLength
	if hosel := j.head.HoselLength; hosel.Given() {
		most = measure.Min(most, scaled(hosel, j.shop.LengthOfHosel).Nominal())
	}
	switch {
	case length.Nominal().Less(j.shop.LeastLength):
		j.reason(Reason{Code: LengthShort, Level: Remarks, Size: length.Nominal(), Limit: j.shop.LeastLength})
	case most.Less(length.Nominal()):
		j.reason(Reason{Code: LengthLong, Level: Remarks, Size: length.Nominal(), Limit: most})
	}
}

// neckLimit is the most that the top of the neck or socket may stand above the sole, putters excepted: 5 in (127 mm).
// Source: R&A and USGA Equipment Rules, part 2, section 2c. The texts read do not mention ferrules.
var neckLimit = measure.Inches(5)
