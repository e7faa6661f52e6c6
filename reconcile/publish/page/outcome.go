package page

import (
	"fmt"

	"example.com/seatline/fitcalc"
)

// result is an outcome before it has an index: what a stretch of hosel ODs has in common. It is comparable.
type result struct {
	verdict     fitcalc.Verdict
	assumptions fitcalc.AssumptionSet
	reasons     [8]fitcalc.Reason
	count       int
}

// resultOf takes from a fit what a reader of the chart needs. Reasons that only say that nothing is wrong are left out,
// and so are numbers that change with the hosel's OD: the page works these out for the OD in question.
func resultOf(fit *fitcalc.Fit) result {
	r := result{verdict: fit.Verdict, assumptions: fit.Assumptions}
	decided := fit.Verdict == fitcalc.No || fit.Verdict == fitcalc.Bare
	if decided {
		r.assumptions = 0 // nothing is sold on it
	}
	for reason := range fit.Reasons() {
		if reason.Code == fitcalc.FlushAsSupplied || decided && reason.Level < fitcalc.Blocks || r.count == len(r.reasons) {
			continue
		}
		r.reasons[r.count] = told(reason)
		r.count++
	}
	return r
}

// told keeps of a reason what the page says of it.
func told(r fitcalc.Reason) fitcalc.Reason {
	kept := fitcalc.Reason{Code: r.Code, Level: r.Level, Field: r.Field}
	switch r.Code {
	case fitcalc.FlushTurn, fitcalc.GripLoose, fitcalc.GripSplit, fitcalc.SeatRounded, fitcalc.RingCut, fitcalc.BoreFormed, fitcalc.DataMissing:
	case fitcalc.FlushUndersize, fitcalc.FlushTurnLimit, fitcalc.WallThin:
		kept.Limit = r.Limit
	case fitcalc.BoreTight, fitcalc.BoreLoose:
		if r.Level == fitcalc.Prepares {
			kept.Size, kept.Limit = r.Size, r.Limit
		}
	case fitcalc.SeatCollarHigh:
		if r.Level == fitcalc.Prepares {
			kept.Size, kept.Other = r.Size, r.Other
		}
	case fitcalc.SeatStepWide:
		kept.Size, kept.Other = r.Size, r.Other
	case fitcalc.GripHolds, fitcalc.GripOverTip, fitcalc.SeatStepLong, fitcalc.SeatRecessOpen, fitcalc.LengthShort, fitcalc.LengthLong:
		kept.Size = r.Size
	default:
		kept.Size, kept.Limit = r.Size, r.Limit
	}
	return kept
}

// turns reports whether the base has to be turned down.
func (r *result) turns() bool {
	for _, reason := range r.reasons[:r.count] {
		if reason.Code == fitcalc.FlushTurn {
			return true
		}
	}
	return false
}

// hopeless reports whether a fit does not hold whatever the hosel's OD is, and returns the result without its numbers: most pairs
// of a catalogue are such, and few of them differ. Of what blocks a joint, only what compares hosel and base, the walls and
// the rings depend on the OD.
func hopeless(fit *fitcalc.Fit) (result, bool) {
	r := result{verdict: fit.Verdict}
	if fit.Verdict != fitcalc.No && fit.Verdict != fitcalc.Bare {
		return result{}, false
	}
	for reason := range fit.Reasons() {
		switch reason.Code {
		case fitcalc.GripLoose, fitcalc.GripSplit, fitcalc.GripShort, fitcalc.GripOverTip, fitcalc.SeatStepWide, fitcalc.SeatStepLong,
			fitcalc.SeatRecessOpen, fitcalc.SeatRounded, fitcalc.BoreTight, fitcalc.BoreLoose, fitcalc.BoreShallow:
			if reason.Level >= fitcalc.Blocks && r.count == 0 {
				r.reasons[0], r.count = fitcalc.Reason{Code: reason.Code, Level: reason.Level}, 1
			}
		}
	}
	return r, r.count > 0
}

// key names the word of a reason: one that blocks may have another than one that asks for work.
func (w words) reasonKey(code string, level fitcalc.Level) string {
	key := "reason." + code
	if _, other := w[key+".no"]; other && level >= fitcalc.Blocks {
		return key + ".no"
	}
	return key
}

// sentence puts a reason in words. Most is what comes off at most, for those that say so.
func (w words) sentence(r fitcalc.Reason, most string, u fitcalc.Units) string {
	key := w.reasonKey(r.Code.String(), r.Level)
	show := u.Show
	if axial(r.Code) {
		show = u.ShowLength
	}
	return w.fill(key, "size", show(r.Size), "other", show(r.Other), "limit", show(r.Limit), "most", most,
		"field", w["field."+r.Field.String()])
}

// axial reports whether the lengths of a reason lie along the axis, where readers of fractions have their use for them.
func axial(code fitcalc.Code) bool {
	switch code {
	case fitcalc.GripShort, fitcalc.SeatStepLong, fitcalc.SeatRecessOpen, fitcalc.BoreShallow, fitcalc.LengthShort, fitcalc.LengthLong,
		fitcalc.NeckOverLimit:
		return true
	}
	return false
}

// intern gives a result its index.
func (b *builder) intern(r result) int {
	flat := []int{int(r.verdict), int(r.assumptions)}
	for _, reason := range r.reasons[:r.count] {
		flat = append(flat, b.reasons.id(fmt.Sprint(reason), data(reason)))
	}
	return b.outcomes.id(fmt.Sprint(flat), flat)
}

func data(r fitcalc.Reason) reasonData {
	d := reasonData{Code: r.Code.String(), Level: int(r.Level), Field: r.Field.String(), Axial: axial(r.Code)}
	give := func(to **picometres, l picometres) {
		if l != 0 {
			*to = &l
		}
	}
	give(&d.Size, pm(r.Size))
	give(&d.Other, pm(r.Other))
	give(&d.Limit, pm(r.Limit))
	return d
}
