package fitcalc

import "example.com/seatline/fitcalc/measure"

// bore compares the tip with the hole that takes it.
func (j *joint) bore() {
	j.depth()
	if j.Tip.form == TipUnknown {
		return // already missing
	}
	if !j.Bore.Given() {
		j.assume(AssumedBoreClears)
		return
	}
	if j.quoted() {
		j.assume(AssumedBoreQuoted)
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

// quoted reports whether a bore that tapers as its tip does is quoted like that tip, and so made to take it. One that was measured is
// the hole itself.
func (j *joint) quoted() bool {
	if j.Tip.form != TipTapered || j.head.BoreForm == BoreParallel {
		return false
	}
	like := j.tipOfBore()
	return like.cone.rate == j.Tip.cone.rate && j.Bore.Origin() != measure.Measured &&
		quotedLike(j.Bore.Nominal().Sub(j.Tip.usualAt(measure.Length{})), j.shop)
}

// quotedLike judges by how much larger the bore is than the tip's end: nothing, as far as one size stated twice tells (9.0 mm is .355
// in), or too little to be the clearance of a hole that was measured.
func quotedLike(clearance measure.Length, shop *Shop) bool {
	return !clearance.Less(shop.SameSize.Neg()) && clearance.Less(shop.LeastClearance)
}

// clearances returns bore − tip diameter at the tightest place in the bore, and the nominal clearance at the widest. formed
// reports that bore and tip are of different form, so that the two differ.
//
// Bore and tip change evenly between the tip end, the bends of the tip and of the bore, and the top, so that the extremes are at
// these.
func (j *joint) clearances() (tight Amount, wide measure.Length, formed bool) {
	tight = difference(&j.Bore.Dim, &j.TipEnd.Dim)
	if j.Tip.form == TipParallel && j.head.BoreForm != BoreTapered {
		return tight, tight.Nominal, false
	}
	like := j.tipOfBore()
	at := func(z measure.Length) measure.Length { return j.boreAt(&like, z).Sub(j.Tip.usualAt(z)) }
	bottom := measure.Length{}
	least := at(bottom)
	most := least
	for z := bottom; z.Less(j.Insertion); {
		z = j.nextBend(&like, z, j.Insertion)
		c := at(z)
		least, most = measure.Min(least, c), measure.Max(most, c)
	}
	move := least.Sub(tight.Nominal)
	return Amount{least, tight.Least.Add(move), tight.Most.Add(move)}, most, most != least
}

// TipOfBore returns the tip that the bore of a head is made like: the bore is as much wider at a height above its bottom as that tip is
// above its end. It is parallel for a parallel bore, and where the bore's form is not known like the tip that goes in. It is never
// trimmed, since bores are not made for one that is; a bore that is said to taper does so at the shop's rate.
func (h *Head) TipOfBore(tip *Tip, shop *Shop) Tip {
	like := tip.ByShop(shop)
	like.trimmed = measure.Length{}
	switch {
	case h.BoreForm == BoreTapered && like.form != TipTapered:
		return TaperTip(tip.end, shop.TipTaper).UpTo(mostLength) // as far as the bore goes
	case h.BoreForm == BoreTapered:
		like.cone.rate = shop.TipTaper
	case h.BoreForm != BoreUnknown || like.form != TipTapered:
		return ParallelTip(tip.end)
	}
	return like
}

func (j *joint) tipOfBore() Tip {
	like := j.TipOfBore()
	switch {
	case j.head.BoreForm == BoreTapered && like.cone.rate != j.Tip.cone.rate:
		j.assume(AssumedBoreTaper)
		if !j.BoreDepth.Given() {
			j.assume(AssumedInsertion)
		}
	case j.head.BoreForm == BoreUnknown && like.form == TipTapered:
		j.assume(AssumedBoreForm)
	}
	return like
}

// boreAt returns the bore's nominal diameter at a height above its bottom.
func (j *joint) boreAt(like *Tip, height measure.Length) measure.Length {
	return j.Bore.Nominal().Add(like.usualAt(height)).Sub(like.end.Middle())
}

// nextBend returns the lowest height above one at which tip or bore stops changing evenly, or the end.
func (j *joint) nextBend(like *Tip, from, end measure.Length) measure.Length {
	next := end
	for _, tip := range [...]*Tip{like, &j.Tip} {
		if at, bends := tip.bend(from, next); bends {
			next = at
		}
	}
	return next
}

// difference returns a − b.
func difference(a, b *measure.Dim) Amount {
	return Amount{a.Nominal().Sub(b.Nominal()), a.Lower().Sub(b.Upper()), a.Upper().Sub(b.Lower())}
}

// depth looks at the length of tip left in the bore below whatever is cut into its mouth.
func (j *joint) depth() {
	if !j.BoreDepth.Given() {
		return
	}
	recess, unknown := j.recess()
	left := j.BoreDepth.Nominal().Sub(recess)
	j.shallow(left, recess)
	if unknown == NoField {
		j.fit.Bore.Insertion, j.fit.Bore.KnownInsertion = left, true
	}
}

// shallow places the joint by how surely enough of the tip is in the bore.
func (j *joint) shallow(left, recess measure.Length) {
	depth, least := j.BoreDepth.OrPlusMinus(j.shop.RecessTolerance), j.shop.LeastInsertion
	share := oddsBelow(&depth, &noPlay, least.Add(recess))
	if b := beltOf(share, j.shop.MeasureShare, left.Sub(least), j.shop.SameSize); b > certain {
		j.reason(Reason{Code: BoreShallow, Level: b.level(Measures), Size: left, Limit: least, Other: recess, Share: share})
	}
}

// recess is the depth of whatever is cut into the mouth of the bore, as far as it is known, and a field that would have to
// be given for it to be known.
func (j *joint) recess() (depth measure.Length, unknown Field) {
	cone, unknown := j.countersinkDepth()
	counterbore := j.head.Counterbore.Depth
	if j.head.counterbored() && !counterbore.Given() {
		unknown = FieldCounterboreDepth
	}
	return measure.Max(counterbore.Middle(), cone), unknown
}

// countersinkDepth is the depth stated, or that of the cone from mouth to bore.
func (j *joint) countersinkDepth() (depth measure.Length, unknown Field) {
	c := &j.head.Countersink
	none := measure.Length{}
	switch {
	case c.Depth.Given():
		return c.Depth.Middle(), NoField
	case !c.Mouth.Given() && j.Top == TopCountersunk:
		return none, FieldCountersinkMouth
	case !c.Mouth.Given():
		return none, NoField
	case !j.Bore.Given():
		return none, FieldHeadBore
	}
	wider := measure.Max(none, c.Mouth.Middle().Sub(j.Bore.Nominal()))
	return times(wider, 1/j.coneSlope()), NoField
}
