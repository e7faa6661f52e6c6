package chart

import (
	"fmt"
	"math"
	"strings"

	"example.com/seatline/fitcalc"
)

// result is an outcome before it has an index: what a stretch of hosel ODs has in common. It is comparable.
type result struct {
	verdict     fitcalc.Verdict
	assumptions fitcalc.AssumptionSet
	// measured is whether the hosel's OD is one that was measured, and oneSize whether base and hosel are one size stated twice.
	measured, oneSize bool
	reasons           [8]fitcalc.Reason
	count             int
}

// resultOf takes from the fit of a pair of the catalogue what a reader of the chart needs. Reasons that only say that nothing is
// wrong are left out, and so are lengths that change with the hosel's OD: the page works these out.
func resultOf(fit *fitcalc.Fit) result { return take(fit, false) }

// measuredResultOf is resultOf for a hosel that was measured. Shares of joints change with the hosel's OD, so that they are left out
// too; the page has them from the spreads.
func measuredResultOf(fit *fitcalc.Fit) result { return take(fit, true) }

func take(fit *fitcalc.Fit, measured bool) result {
	r := result{verdict: fit.Verdict, assumptions: fit.Assumptions, measured: measured, oneSize: fit.Flush.OneSize}
	decided := fit.Verdict == fitcalc.No || fit.Verdict == fitcalc.Bare
	if decided {
		r.assumptions = 0 // nothing is sold on it
	}
	for reason := range fit.Reasons() {
		silent := reason.Code == fitcalc.FlushAsSupplied && reason.Share == 0
		if silent || decided && reason.Level < fitcalc.Blocks || r.count == len(r.reasons) {
			continue
		}
		kept := told(reason)
		if measured {
			kept.Share, kept.Value = 0, side(kept, &fit.Flush)
		}
		r.reasons[r.count] = kept
		r.count++
	}
	return r
}

// shorten leaves of what does not fit the first reason, and of the others what asks for attention: that a ferrule holds, and by how much,
// differs with nearly every pair.
func (r *result) shorten() {
	kept := result{verdict: r.verdict, assumptions: r.assumptions, measured: r.measured, oneSize: r.oneSize}
	for _, reason := range r.reasons[:r.count] {
		if reason.Code == fitcalc.GripHolds || kept.count > 0 && r.verdict == fitcalc.No {
			continue
		}
		kept.reasons[kept.count] = reason
		kept.count++
	}
	*r = kept
}

// side tells the touch that a base needs for standing out from that for being small. As the hosel grows, flush joints go from the one
// over none to the other, and the walk along a course has to see that they are two.
func side(r fitcalc.Reason, f *fitcalc.FlushFit) float64 {
	switch {
	case r.Code != fitcalc.FlushAsSupplied:
		return 0
	case f.VisibleUndersize < f.VisibleOversize:
		return 1
	}
	return -1
}

// told keeps of a reason what the page says of it. Shares are rounded to what is said: so many of ten that a ferrule suits, so many in
// a hundred that want a touch.
func told(r fitcalc.Reason) fitcalc.Reason {
	kept := fitcalc.Reason{Code: r.Code, Level: r.Level}
	if r.Code == fitcalc.DataMissing || r.Field == fitcalc.FieldTop || r.Field == fitcalc.FieldAdapterOD {
		kept.Field = r.Field // else the sentence names none
	}
	switch r.Code {
	case fitcalc.FlushAsSupplied:
		kept.Share = rounded(r.Share, 100)
	case fitcalc.FlushTurn:
		if r.Size.IsZero() {
			kept.Share = rounded(r.Share, 10)
		}
	case fitcalc.FlushUndersize:
		kept.Limit = r.Limit
		if r.Level == fitcalc.Measures && r.Bound < r.Share {
			kept.Share = rounded(1-r.Share, 10)
		}
	case fitcalc.FlushTurnLimit:
		kept.Limit = r.Limit
		switch r.Level {
		case fitcalc.Measures:
			kept.Share = rounded(1-r.Share, 10)
		case fitcalc.Remarks:
			kept.Share = rounded(r.Share, 100)
		}
	case fitcalc.GripLoose, fitcalc.GripSplit, fitcalc.SeatRounded, fitcalc.RingCut, fitcalc.BoreFormed, fitcalc.DataMissing:
	case fitcalc.WallThin:
		kept.Limit = r.Limit
	case fitcalc.BoreTight, fitcalc.BoreLoose:
		if r.Level == fitcalc.Prepares {
			kept.Size, kept.Limit = r.Size, r.Limit
		}
	case fitcalc.SeatCollarHigh:
		if r.Level == fitcalc.Prepares {
			kept.Size, kept.Other = r.Size, r.Other
		}
	case fitcalc.SeatStepWide, fitcalc.SeatStepLong:
		kept.Size, kept.Other = r.Size, r.Other
	case fitcalc.GripHolds, fitcalc.GripOverTip, fitcalc.LengthShort, fitcalc.LengthLong:
		kept.Size = r.Size
	default:
		kept.Size, kept.Limit = r.Size, r.Limit
	}
	return kept
}

// rounded rounds a share to parts, and never to none nor all.
func rounded(share, parts float64) float64 {
	return min(parts-1, max(1, math.Round(share*parts))) / parts
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

// hopeless reports whether a fit does not hold whatever the hosel's OD is, and returns the result with one reason: most pairs of a
// catalogue are such, and few of them differ. Of what blocks a joint, only what compares hosel and base, the walls and
// the rings depend on the OD.
func hopeless(fit *fitcalc.Fit) (result, bool) {
	r := result{verdict: fit.Verdict, measured: true}
	if fit.Verdict != fitcalc.No && fit.Verdict != fitcalc.Bare {
		return result{}, false
	}
	for reason := range fit.Reasons() {
		switch reason.Code {
		case fitcalc.GripLoose, fitcalc.GripSplit, fitcalc.GripOverTip, fitcalc.SeatStepWide, fitcalc.SeatStepLong,
			fitcalc.SeatRecessOpen, fitcalc.SeatRounded, fitcalc.BoreTight, fitcalc.BoreLoose, fitcalc.BoreShallow:
			if reason.Level >= fitcalc.Blocks && r.count == 0 {
				r.reasons[0], r.count = told(reason), 1
			}
		}
	}
	return r, r.count > 0
}

// levelWords are what the word of a reason at a level ends in. A remark has the code's own word, and so has a reason whose code has
// no word for its level.
var levelWords = [...]string{
	fitcalc.Remarks: "", fitcalc.Turns: "", fitcalc.Prepares: ".prep", fitcalc.Measures: ".measure", fitcalc.Undecided: "",
	fitcalc.Blocks: ".no", fitcalc.TakesNone: ".no",
}

// measuredWord is what the word ends in where a joint that has to be measured has its hosel measured already: nobody is told to
// measure what they have measured.
const measuredWord = ".measured"

// caseWord is what the word of a reason ends in besides, where its case has a sentence of its own.
func caseWord(r fitcalc.Reason) string {
	switch {
	case r.Code == fitcalc.FlushUndersize && r.Level == fitcalc.Measures && r.Share == 0:
		return ".close" // no share of the joints is too small, but calipers cannot tell
	case r.Code == fitcalc.SeatCollarHigh && r.Field == fitcalc.FieldTop:
		return ".top"
	case r.Code == fitcalc.SeatCollarHigh && r.Size.IsZero():
		return ".some"
	case r.Field == fitcalc.FieldAdapterOD:
		return ".adapter"
	}
	return ""
}

// reasonKey names the word of a reason: reason.flush.undersize.measure.adapter, or the nearest to it that there is.
func reasonKey(w words, r fitcalc.Reason, measured bool) string {
	key, level := "reason."+r.Code.String(), levelWords[r.Level]
	if measured && r.Level == fitcalc.Measures {
		if _, is := w[key+measuredWord]; is {
			return key + measuredWord
		}
	}
	for _, end := range [...]string{level + caseWord(r), level} {
		if _, is := w[key+end]; is {
			return key + end
		}
	}
	return key
}

// sentence puts a reason of a pair of the catalogue in words. Most is what comes off at most, for those that say so.
func (b *builder) sentence(r fitcalc.Reason, most string) string {
	show, u := b.language.Length, b.opts.Units
	if axial(r.Code) {
		show = b.language.AxialLength
	}
	return b.words.Fill(reasonKey(b.words, r, false), "size", show(r.Size, u), "other", show(r.Other, u), "limit", show(r.Limit, u),
		"most", most, "field", b.language.Field(r.Field), "ten", parts(r.Share, 10), "hundred", parts(r.Share, 100))
}

func parts(share, of float64) string { return fmt.Sprintf("%.0f", share*of) }

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
	flat := []int{int(r.verdict), int(r.assumptions), 0}
	if r.oneSize {
		flat[2] = 1
	}
	for _, reason := range r.reasons[:r.count] {
		reason.Value = 0 // both sides of a touch are told alike
		flat = append(flat, b.reasons.id(fmt.Sprint(reason, r.measured), b.reason(reason, r.measured)))
	}
	return b.outcomes.id(fmt.Sprint(flat), flat)
}

func (b *builder) reason(r fitcalc.Reason, measured bool) reasonData {
	d := reasonData{
		Code: r.Code.String(), Level: int(r.Level), Word: strings.TrimPrefix(reasonKey(b.words, r, measured), "reason."), Axial: axial(r.Code),
		Share: r.Share,
	}
	if r.Code == fitcalc.DataMissing {
		d.Field = r.Field.String()
	}
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
