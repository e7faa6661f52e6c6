package fitcalc

import "example.com/seatline/fitcalc/measure"

// OtherTapers returns the rates at which taper tips may grow as well, as far as is known: a twentieth less and more than the shop's.
// With .0079 in per inch these are .0075 and .0083, with which .370 in is reached 2 and 1.8 in above a .355 in end. Common practice,
// from memory.
func (s Shop) OtherTapers() [2]measure.Taper {
	ppb := s.TipTaper.PPB()
	return [...]measure.Taper{measure.TaperPPB(ppb - ppb/20), measure.TaperPPB(ppb + ppb/20)}
}

// assumeTaper notes where a verdict hangs on how the shop says that taper tips grow: one of the other rates changes it. So it does where
// a tip that is said to taper is too large at its end for the shop's cone, and was taken as parallel.
func assumeTaper(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) {
	if whateverTheTaper(fit) {
		return
	}
	if tip.outgrows(shop) || restsOnTaper(tip, ferrule) && hangsOnTaper(fit.Verdict, head, tip, ferrule, shop) {
		fit.Assumptions = fit.Assumptions.with(AssumedTipTaper)
	}
}

// whateverTheTaper reports whether a joint is ruled out whatever the tip is like.
func whateverTheTaper(fit *Fit) bool {
	return fit.Verdict == Bare || weightOf(fit, FlushUndersize) == Blocks || weightOf(fit, FlushTurnLimit) == Blocks
}

// outgrows reports whether a tapered tip is as large at its end as the shop's get, and does not say that it gets larger.
func (t *Tip) outgrows(shop *Shop) bool {
	return t.form == TipTapered && !t.cone.statesTo && !t.end.Middle().Less(shop.TipTaperTo)
}

// restsOnTaper reports whether the rate of the shop is that of the tip, or of the one that the ferrule is made for.
func restsOnTaper(tip *Tip, ferrule *Ferrule) bool {
	return tip.form == TipTapered && !tip.cone.statesRate ||
		!ferrule.Bore.Given() && ferrule.ForTip.Known() && ferrule.ForTip.Named().Form == TipTapered
}

func hangsOnTaper(v Verdict, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) bool {
	other := *shop
	for _, rate := range shop.OtherTapers() {
		other.TipTaper = rate
		var fit Fit
		judge(&fit, head, tip, ferrule, &other, false)
		if fit.Verdict != v {
			return true
		}
	}
	return false
}
