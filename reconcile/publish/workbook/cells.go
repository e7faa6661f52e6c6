package workbook

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/publish/tell"
)

// verdict is a cell with a verdict's word on its fill.
func (p *page) verdict(v fitcalc.Verdict) any { return p.as(p.word(v), verdictLook(v)) }

// word is a verdict in the reader's language. What formulas look up is its code.
func (b *book) word(v fitcalc.Verdict) string { return b.opts.Language.Verdict(v) }

// why is the reason that decides a fit, as a sentence.
func (p *page) why(fit *fitcalc.Fit) string {
	reason, found := tell.Deciding(fit)
	if !found {
		return ""
	}
	return p.opts.Language.Reason(reason, p.opts.Units)
}
