package fitcalc

import "example.com/seatline/fitcalc/measure"

// bore compares the tip with the hole that takes it.
func (j *joint) bore() {
	j.depth()
	if j.tip.form == TipUnknown {
		return // already missing
	}
	if !j.headBore.Given() {
		j.assume(AssumedBoreClears)
		return
	}
	tight, wide, formed := j.clearances()
	b := &j.fit.Bore
	b.Known, b.Clearance = true, tight
	nominal := tight.Nominal
	switch {
	case nominal.Less(j.shop.LeastClearance):
		level := Prepares
		if j.shop.ReamLimit.Less(j.shop.LeastClearance.Sub(nominal)) {
			level = Blocks
		}
		j.reason(Reason{Code: BoreTight, Level: level, Size: nominal, Limit: j.shop.LeastClearance})
	case j.shop.MostClearance.Less(nominal):
		level := Prepares
		if j.shop.ShimLimit.Less(nominal) {
			level = Blocks
		}
		j.reason(Reason{Code: BoreLoose, Level: level, Size: nominal, Limit: j.shop.MostClearance})
	case formed && j.shop.MostClearance.Less(wide):
		j.reason(Reason{Code: BoreFormed, Level: Prepares, Size: nominal, Other: wide, Limit: j.shop.MostClearance})
	}
}

// clearances returns bore − tip diameter at the tightest place in the bore, and the nominal clearance at the widest. formed
// reports that bore and tip are of different form, so that the two differ.
func (j *joint) clearances() (tight Amount, wide measure.Length, formed bool) {
	end := j.tipAt(measure.Length{})
	atMouth := j.tipAt(j.insertion)
	widest := j.tipAt(j.tip.peak(measure.Length{}, j.insertion))
	tapered := j.tip.form == TipTapered
	switch {
	case tapered && j.head.BoreForm != BoreParallel:
		if j.head.BoreForm == BoreUnknown {
			j.assume(AssumedBoreForm)
		}
		tight = difference(j.headBore, end)
		return tight, tight.Nominal, false
	case j.head.BoreForm == BoreTapered:
		// The bore is quoted at its bottom and is wider at its mouth by the shop's taper over its depth.
		tight = difference(j.headBore, widest)
		growth := j.shop.TipTaper.Growth(j.insertion)
		return tight, j.headBore.Nominal().Add(growth).Sub(atMouth.Nominal()), true
	default:
		tight = difference(j.headBore, widest)
		wide = j.headBore.Nominal().Sub(measure.Min(end.Nominal(), atMouth.Nominal()))
		return tight, wide, !widest.Nominal().Sub(end.Nominal()).IsZero()
	}
}

func difference(a, b measure.Dim) Amount {
	return Amount{a.Nominal().Sub(b.Nominal()), a.Lower().Sub(b.Upper()), a.Upper().Sub(b.Lower())}
}

// depth looks at the length of tip left in the bore below whatever is cut into its mouth.
func (j *joint) depth() {
	if !j.boreDepth.Given() {
		return
	}
	recess := measure.Max(j.head.Counterbore.Depth.Nominal(), j.countersinkDepth())
	b := &j.fit.Bore
	b.Insertion, b.KnownInsertion = j.boreDepth.Nominal().Sub(recess), true
	if b.Insertion.Less(j.shop.LeastInsertion) {
		j.reason(Reason{Code: BoreShallow, Level: Blocks, Size: b.Insertion, Limit: j.shop.LeastInsertion, Other: recess})
	}
}

// countersinkDepth is the depth stated, or that of the cone from mouth to bore.
func (j *joint) countersinkDepth() measure.Length {
	c := &j.head.Countersink
	if c.Depth.Given() || !c.Mouth.Given() || !j.headBore.Given() {
		return c.Depth.Nominal()
	}
	angle := c.Angle
	if angle.IsZero() {
		angle = j.shop.CountersinkAngle
	}
	return CountersinkDepth(c.Mouth.Nominal(), j.headBore.Nominal(), angle)
}
