package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// seat compares what is below the ferrule's base with the form of the hosel's top.
func (j *joint) seat() {
	if j.head.Top == TopRounded {
		j.fit.Seat.Known = true
		j.reason(Reason{Code: SeatRounded, Level: TakesNone})
		return
	}
	switch j.Style {
	case Plain:
		j.seatPlain()
	case Collared:
		j.seatCollar()
	case Stepped:
		j.seatStep()
	}
}

func (j *joint) seatPlain() {
	switch {
	case !j.head.counterbored():
		if j.head.TakenTop() == TopUnknown {
			j.assume(AssumedFlatTop)
		}
		j.fit.Seat.Known = true
	case !j.head.Counterbore.Depth.Given():
		j.missing(FieldCounterboreDepth)
	default:
		j.fit.Seat.Known = true
		j.emptyRecess()
	}
}

// emptyRecess notes a counterbore that stays empty under a plain ferrule and leaves the shaft without support there.
func (j *joint) emptyRecess() {
	depth := j.head.Counterbore.Depth.OrPlusMinus(j.shop.RecessTolerance)
	j.fit.Seat.Recess = depth.Middle()
	share := 1 - oddsBelow(&depth, &noPlay, j.shop.RecessLimit)
	if open := beltOf(share, j.shop.MeasureShare, j.shop.RecessLimit.Sub(depth.Middle()), j.shop.SameSize); open > certain {
		j.reason(Reason{Code: SeatRecessOpen, Level: open.level(Measures), Size: depth.Middle(), Limit: j.shop.RecessLimit, Share: share})
	}
}

// openBelow notes counterbore that stays empty below a collar or step.
func (j *joint) openBelow(depth measure.Length) {
	j.fit.Seat.Recess = measure.Max(depth, measure.Length{})
	if j.shop.RecessLimit.Less(depth) {
		j.reason(Reason{Code: SeatRecessOpen, Level: Remarks, Size: depth, Limit: j.shop.RecessLimit})
	}
}

// seatCollar lets the collar down into whichever recess of the top takes it deeper.
func (j *joint) seatCollar() {
	collar := &j.ferrule.Collar
	if !collar.OD.Given() {
		j.missing(FieldCollarOD)
	}
	if !collar.Length.Given() {
		j.missing(FieldCollarLength)
	}
	cone, coneKnown := j.countersink()
	if j.Top == TopUnknown {
		j.missing(FieldTop)
		coneKnown = false
	}
	if !coneKnown || !collar.OD.Given() || !collar.Length.Given() {
		return
	}
	l := landing{
		od: collar.OD.OrPlusMinus(j.shop.FerruleODTolerance), length: collar.Length.OrPlusMinus(j.shop.LengthTolerance),
	}
	if l.cone = cone.there; l.cone {
		l.mouth, l.slope, l.bottom, l.contact = cone.mouth, cone.slope, cone.depth, cone.meetsAt(l.od)
		l.bore = j.Bore.Dim
	}
	if j.head.counterbored() {
		width, depth := j.head.Counterbore.Diameter, j.head.Counterbore.Depth
		if !width.Given() || !depth.Given() {
			if l.above(j.shop.SeatGap) > j.shop.SeatRisk {
				j.missingCounterbore()
				return
			}
		} else {
			l.width, l.depth = width.OrPlusMinus(j.shop.RecessTolerance), depth.OrPlusMinus(j.shop.RecessTolerance)
		}
	}
	j.standsOff(&l, &cone)
	if l.usuallyFits() {
		j.openBelow(l.depth.Middle().Sub(l.length.Middle()))
	}
}

func (j *joint) missingCounterbore() {
	if !j.head.Counterbore.Diameter.Given() {
		j.missing(FieldCounterbore)
	}
	if !j.head.Counterbore.Depth.Given() {
		j.missing(FieldCounterboreDepth)
	}
}

// standsOff fills in how high a collar leaves the base, and whether cutting the countersink deeper is a way out.
func (j *joint) standsOff(l *landing, cone *cone) {
	s := &j.fit.Seat
	s.Known, s.StandOff, s.Proud = true, l.standOff(), l.above(j.shop.SeatGap)
	seats := j.seats()
	if seats == certain {
		return
	}
	s.CutDeeper = l.held()
	s.CutMouth = cone.mouthAfter(l.od.Middle(), l.length.Middle(), s.CutDeeper)
	level := Prepares
	if seats == likely {
		level = Remarks
	}
	if j.HoselOD.Given() {
		s.WallLeft = j.HoselOD.Lower().Sub(s.CutMouth).Half()
		if s.WallLeft.Less(j.shop.LeastHoselWall) {
			level = seats.level(Measures)
		}
	}
	j.reason(Reason{Code: SeatCollarHigh, Field: j.recessOf(*cone), Level: level, Size: s.CutDeeper, Other: s.CutMouth, Third: s.WallLeft,
		Limit: j.shop.LeastHoselWall, Share: s.Proud})
}

// recessOf names what a collar goes into: the countersink, or where there is none the top that it would be cut into.
func (j *joint) recessOf(c cone) Field {
	switch {
	case j.HoselOD.Field == FieldAdapterOD:
		return FieldAdapterOD
	case c.there:
		return FieldCountersinkMouth
	}
	return FieldTop
}

// seats places the joint by how surely its base comes down to the hosel.
func (j *joint) seats() belt {
	s := &j.fit.Seat
	return beltOf(s.Proud, j.shop.SeatRisk, j.shop.SeatGap.Sub(s.StandOff.Nominal), j.shop.SameSize)
}

// seatStep needs a counterbore as wide and as deep as the step.
func (j *joint) seatStep() {
	step, bore := &j.ferrule.Step, &j.head.Counterbore
	if !step.OD.Given() {
		j.missing(FieldStepOD)
	}
	if !step.Length.Given() {
		j.missing(FieldStepLength)
	}
	if !j.head.counterbored() {
		j.stepWithoutCounterbore()
		return
	}
	j.missingCounterbore()
	if !step.OD.Given() || !step.Length.Given() || !bore.Diameter.Given() || !bore.Depth.Given() {
		return
	}
	j.stepInCounterbore()
}

func (j *joint) stepWithoutCounterbore() {
	if j.Top == TopUnknown {
		j.missing(FieldTop)
		return
	}
	length := j.ferrule.Step.Length
	if !length.Given() {
		return
	}
	sum := stack.Of(length.OrPlusMinus(j.shop.LengthTolerance))
	j.fit.Seat = SeatFit{Known: true, StandOff: amountAbove(sum), Proud: 1}
	j.reason(Reason{Code: SeatStepLong, Level: Blocks, Size: length.Middle(), Share: 1})
}

func (j *joint) stepInCounterbore() {
	width := j.head.Counterbore.Diameter.OrPlusMinus(j.shop.RecessTolerance)
	depth := j.head.Counterbore.Depth.OrPlusMinus(j.shop.RecessTolerance)
	od := j.ferrule.Step.OD.OrPlusMinus(j.shop.FerruleODTolerance)
	length := j.ferrule.Step.Length.OrPlusMinus(j.shop.LengthTolerance)
	s := &j.fit.Seat
	s.Known = true
	wide := stack.Of(od).Minus(width).Above(measure.Length{})
	enters := beltOf(wide, j.shop.SeatRisk, width.Middle().Sub(od.Middle()), j.shop.SameSize)
	if enters > certain {
		j.reason(Reason{Code: SeatStepWide, Level: enters.level(Prepares), Size: od.Middle(), Other: width.Middle(), Share: wide})
	}
	if enters == beyond {
		s.StandOff, s.Proud = amountAbove(stack.Of(length)), wide
		return
	}
	standOff := stack.Of(length).Minus(depth)
	s.StandOff, s.Proud = amountAbove(standOff), standOff.Above(j.shop.SeatGap)
	if seats := j.seats(); seats > certain {
		j.reason(Reason{Code: SeatStepLong, Level: seats.level(Prepares), Size: length.Middle(), Other: depth.Middle(), Share: s.Proud})
		return
	}
	j.openBelow(depth.Middle().Sub(length.Middle()))
}

// amountAbove cuts an amount off at nothing: a base cannot stand lower than on the hosel.
func amountAbove(s stack.Sum) Amount {
	zero := measure.Length{}
	return Amount{measure.Max(s.Middle(), zero), measure.Max(s.Least(), zero), measure.Max(s.Most(), zero)}
}
