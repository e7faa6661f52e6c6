package fitcalc

import "example.com/seatline/fitcalc/measure"

// flush compares base OD and hosel OD.
func (j *joint) flush() {
	if !j.HoselOD.Given() {
		j.missing(j.HoselOD.Field)
	}
	if !j.BaseOD.Given() {
		j.missing(FieldBaseOD)
	}
	if !j.HoselOD.Given() || !j.BaseOD.Given() {
		return
	}
	f := &j.fit.Flush
	j.fillFlush(f)
	small := f.tooSmall(j.shop)
	if small >= unsure {
		j.reason(Reason{Code: FlushUndersize, Field: j.HoselOD.Field, Measured: j.measured(), Level: small.level(Measures), Size: f.Oversize.Nominal, Limit: j.shop.FlushStep,
			Share: f.VisibleUndersize, Bound: j.shop.UndersizeRisk})
	}
	switch {
	case f.turns(j.shop):
		j.turnDown(f)
	case small < unsure:
		j.asSupplied(f)
	}
}

// asSupplied notes a base that needs nothing, and how many in a hundred want a touch all the same.
func (j *joint) asSupplied(f *FlushFit) {
	r := Reason{Code: FlushAsSupplied, Field: j.HoselOD.Field, Level: Remarks, Size: f.Oversize.Nominal, Limit: j.shop.FlushStep}
	if f.OneSize {
		r.Other = j.shop.SameSize
	}
	if max(f.VisibleUndersize, f.VisibleOversize) > remarkShare {
		r.Share = f.VisibleUndersize + f.VisibleOversize
	}
	j.reason(r)
}

// turnDown notes what is to be turned off, and whether that is more than the shop's limit.
func (j *joint) turnDown(f *FlushFit) {
	over := f.tooMuch(j.shop)
	if over > certain {
		j.reason(Reason{Code: FlushTurnLimit, Field: j.HoselOD.Field, Measured: j.measured(), Level: over.level(Measures), Size: f.TurnDown.Nominal, Other: f.TurnDown.Most,
			Limit: j.shop.TurnLimit, Share: f.OverTurnLimit})
	}
	if over < beyond {
		j.reason(Reason{Code: FlushTurn, Field: j.HoselOD.Field, Level: Turns, Size: f.TurnDown.Nominal, Other: f.TurnDown.Most, Share: f.VisibleOversize})
	}
}

func (j *joint) fillFlush(f *FlushFit) {
	f.Known, f.HoselOD, f.BaseOD, f.Oversize = true, j.HoselOD.Dim, j.BaseOD.Dim, difference(&j.BaseOD.Dim, &j.HoselOD.Dim)
	f.OneSize = j.oneSize(f.Oversize.Nominal)
	zero, base := measure.Length{}, j.BaseOD.Shift(f.mean().Sub(f.Oversize.Nominal))
	off := difference(&base, &j.HoselOD.Dim)
	f.TurnDown = Amount{measure.Max(off.Nominal, zero), measure.Max(off.Least, zero), measure.Max(off.Most, zero)}
	f.flushOdds(&base, &j.HoselOD.Dim, j.shop.FlushStep, j.shop.TurnLimit)
}

// measured reports whether what the ferrule meets was measured.
func (j *joint) measured() bool { return j.HoselOD.Origin() == measure.Measured }

// oneSize reports whether base and hosel are one size stated twice. What was measured is what it is.
func (j *joint) oneSize(oversize measure.Length) bool {
	return !j.shop.SameSize.Less(oversize.Abs()) &&
		!j.measured() && j.BaseOD.Origin() != measure.Measured
}

// mean is what the usual joint counts as oversize.
func (f *FlushFit) mean() measure.Length {
	if f.OneSize {
		return measure.Length{}
	}
	return f.Oversize.Nominal
}

// tooSmall places the joint by how surely its base does not show a ledge.
func (f *FlushFit) tooSmall(s *Shop) belt {
	return beltOf(f.VisibleUndersize, s.UndersizeRisk, f.mean().Add(s.FlushStep), s.SameSize)
}

// turns reports whether the base counts as one to turn.
func (f *FlushFit) turns(s *Shop) bool { return f.VisibleOversize > s.TurnShare }

// tooMuch places the joint by how surely no more than the turn limit comes off. It is the larger hosels of a head that a base
// beyond the limit suits, as long as there are as many of them as the shop takes the risk for on the other side.
func (f *FlushFit) tooMuch(s *Shop) belt {
	inside := s.TurnLimit.Sub(f.mean())
	switch p := f.OverTurnLimit; {
	case p > 1-s.MeasureShare && s.SameSize.Less(inside.Neg()):
		return beyond
	case p > halfOfThem:
		return unsure
	case p > remarkShare:
		return likely
	}
	return certain
}
