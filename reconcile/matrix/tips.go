package matrix

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
)

// assignTips finds the tips of each head: those the sheet names, else those its bore is made for.
func (r *Result) assignTips() {
	pool := tipPool{result: r, known: map[string]int32{}}
	for i := range r.Catalogue.Heads {
		r.HeadTips = append(r.HeadTips, pool.of(&r.Catalogue.Heads[i], &r.heads[i]))
	}
}

// tipPool gives each different tip one index.
type tipPool struct {
	result *Result
	known  map[string]int32
}

func (p *tipPool) of(h *catalog.Head, head *fitcalc.Head) HeadTips {
	if len(h.TipTaken) > 0 {
		why := "the sheet names it"
		if h.BoreIsDesignation {
			why = "the sheet gives it as the bore"
		}
		return HeadTips{Tips: p.all(h.TipTaken), Why: why, Assumed: h.BoreIsDesignation}
	}
	bore := head.JointBore()
	candidates := fitcalc.TipsForBore(bore, head.BoreForm, head.Category, p.result.Shop)
	if len(candidates) == 0 {
		why := "neither a tip nor a bore is given"
		if bore.Given() {
			why = fmt.Sprintf("no usual tip suits a bore of %s", fitcalc.Metric.Show(bore.Middle()))
		}
		return HeadTips{Tips: []int32{0}, Why: why}
	}
	var tips []fitcalc.Tip
	var names []string
	for _, c := range candidates {
		tips = append(tips, c.Tip(p.result.Shop))
		names = append(names, suits(bore.Middle().Sub(c.Diameter), &c, &p.result.Shop))
	}
	why := fmt.Sprintf("the bore of %s %s", fitcalc.Metric.Show(bore.Middle()), strings.Join(names, " and "))
	if len(tips) > 1 {
		return HeadTips{Tips: []int32{0}, Why: why + "; the kind of club would tell which"}
	}
	return HeadTips{Tips: p.all(tips), Why: why, Assumed: true}
}

// suits says how a bore suits a tip that it is larger than by a clearance: it clears it, or is quoted like it.
func suits(clearance measure.Length, tip *fitcalc.StandardTip, shop *fitcalc.Shop) string {
	if clearance.Less(shop.LeastClearance) {
		return "is quoted like " + tip.Name
	}
	return fmt.Sprintf("clears %s by %s", tip.Name, fitcalc.Metric.Show(clearance))
}

// all gives the tips their indexes, each replaced by those of the same form and size in the shop's own sheet of tips, which
// knows them better.
func (p *tipPool) all(tips []fitcalc.Tip) []int32 {
	var indexes []int32
	for i := range tips {
		own := p.own(&tips[i])
		if len(own) == 0 {
			own = []int32{p.index(TipName(&tips[i]), tips[i])}
		}
		indexes = append(indexes, own...)
	}
	return indexes
}

func (p *tipPool) own(tip *fitcalc.Tip) []int32 {
	var indexes []int32
	size := tip.Diameter(measure.Length{}).Nominal()
	for i := range p.result.Catalogue.Tips {
		t := &p.result.Catalogue.Tips[i]
		if t.Tip.Form() == tip.Form() && sameSize(t.Named().Diameter(measure.Length{}).Nominal(), size) {
			indexes = append(indexes, p.index(strings.TrimSpace(t.Part+" "+TipName(t.Named())), t.Tip))
		}
	}
	return indexes
}

// sameSize allows for a size that was rounded to a hundredth of a millimetre.
func sameSize(a, b measure.Length) bool {
	return !measure.Micrometres(10).Less(a.Sub(b).Abs())
}

func (p *tipPool) index(name string, tip fitcalc.Tip) int32 {
	tip = tip.ByShop(&p.result.Shop)
	end := tip.Diameter(measure.Length{})
	key := fmt.Sprint(name, end, end.HasLimits(), tip.Form(), tip.Taper(), tip.StatesTaper(), tip.TaperTo())
	if at, known := p.known[key]; known {
		return at
	}
	at := int32(len(p.result.Tips))
	p.result.Tips = append(p.result.Tips, Tip{Name: name, Tip: tip})
	p.known[key] = at
	return at
}

// TipName returns a tip as people say it: .370 parallel, or in millimetres where it is no whole thousandth of an inch.
func TipName(t *fitcalc.Tip) string {
	if t.Form() == fitcalc.TipUnknown {
		return ""
	}
	size := t.Diameter(measure.Length{}).Nominal()
	text, exact := size.FormatInches(3)
	if !exact {
		text, _ = size.FormatMillimetres(2)
		return text + " mm " + t.Form().String()
	}
	return strings.TrimPrefix(text, "0") + " " + t.Form().String()
}
