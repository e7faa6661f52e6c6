package workbook

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// withoutSheet lists the heads that no ferrule is known to fit, and what stands in the way.
func (b *book) withoutSheet() {
	t := report.Section{
		Name: sheetWithout, Title: "Heads without a ferrule", All: "heads.jsonl",
		Notes: []string{
			"ask: a ferrule may fit once what is missing is known. no: none in these sheets fits; the nearest one is named. bare: the head takes none.",
			"Heads of the same sizes share a row; the + beside it unfolds them.",
		},
		Columns: []report.Column{
			report.Text("Head", 19).Bold(), report.Sentence("Head is", 24), report.Diameter("Hosel OD", 9), report.Sentence("Tip", 16), report.Verdict("Answer", 8),
			report.Text("Nearest ferrule", 12), report.Diameter("Out by, on the diameter", 10), report.Sentence("Why", 47), report.Sentence("What would settle it", 22),
			report.Source("Head from", 34),
		},
		Frozen: 1, Printed: 9, Tone: report.Prepared, Empty: "Every head has a ferrule.",
	}
	p := b.open(t.Name, &t, columns{})
	for _, want := range []tell.Standing{tell.Undecided, tell.Unserved, tell.TakesNone} {
		for class, members := range b.result.HeadGeometries() {
			if b.account.Standings[members[0]] == want {
				p.without(class, int(members[0]), want)
			}
		}
	}
	p.close()
}

func (p *page) without(class, index int, standing tell.Standing) {
	if !p.room() {
		return
	}
	head := &p.result.Catalogue.Heads[index]
	tips := p.result.HeadTips[index]
	answer, why, settle := fitcalc.No, "no ferrule of the catalogue comes near", ""
	var ferrule, out any
	switch standing {
	case tell.Undecided:
		var missing []string
		answer, missing = fitcalc.Ask, p.missing(index)
		why = fmt.Sprintf("%s may fit; not given: %s", phrase.Count(p.result.HeadCount(index, fitcalc.Ask), "ferrule"), strings.Join(missing, ", "))
		settle = "ask for: " + strings.Join(missing, ", ")
	case tell.TakesNone:
		answer, why = fitcalc.Bare, p.opts.Language.Reason(fitcalc.Reason{Code: fitcalc.SeatRounded, Level: fitcalc.TakesNone}, p.opts.Units)
	case tell.Unserved:
		if nearest, found := p.result.Nearest(index); found {
			ferrule, out, why = p.nearest(nearest, p.result.Catalogue.Ferrules[nearest.Ferrule].Part)
		}
	}
	p.put(p.cells([]any{
		p.headNames(class), p.headsAre(class), report.Nominal(head.Head.JointOD()), p.tipNames(tips), answer, ferrule, out, why, settle, report.FromHead(head),
	})...)
	p.members(class)
}

// nearest is the name of the nearest part, by how much it is out, and why.
func (p *page) nearest(pair matrix.Pair, part string) (name, out any, why string) {
	fit := p.result.Fit(pair)
	return part, report.Miss(pair), p.why(&fit)
}

// missing names what is missing of a head, what is missing most often first; where nothing is, what is missing of the ferrules that may
// fit it.
func (b *book) missing(head int) []string {
	if own := lacking(b.result.Asked(head)); len(own) > 0 {
		return b.fieldNames(own)
	}
	others := map[fitcalc.Field]int{}
	for _, pair := range b.result.SomeAsked(head) {
		fit := b.result.Fit(pair)
		for reason := range fit.Reasons() {
			if reason.Code == fitcalc.DataMissing {
				others[reason.Field]++
			}
		}
	}
	return b.fieldNames(byCount(others))
}

// lacking are the dimensions of a part that are missing, what holds up most pairs first.
func lacking(asked []matrix.Asked) []fitcalc.Field {
	counts := map[fitcalc.Field]int{}
	for _, a := range asked {
		for _, field := range a.Fields {
			counts[field] += a.Pairs
		}
	}
	return byCount(counts)
}

func (b *book) fieldNames(fields []fitcalc.Field) []string {
	var names []string
	for _, field := range fields {
		names = append(names, b.opts.Language.Field(field))
	}
	return names
}

func byCount(counts map[fitcalc.Field]int) []fitcalc.Field {
	return slices.SortedFunc(maps.Keys(counts), func(a, b fitcalc.Field) int {
		return cmp.Or(counts[b]-counts[a], int(a)-int(b))
	})
}

// tipNames names the tips on which a head was decided, or says why there is none.
func (p *page) tipNames(tips matrix.HeadTips) string {
	var names []string
	for _, tip := range tips.Tips {
		if name := p.result.Tips[tip].Name; name != "" {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return tips.Why
	}
	return strings.Join(names, ", ")
}

// unusedSheet lists the ferrules that fit no head.
func (b *book) unusedSheet() {
	t := report.Section{
		Name: sheetUnused, Title: "Ferrules that fit no head", All: "ferrules.jsonl",
		Notes: []string{"The nearest head is the one that would need the least change: how much on the diameter, with each size in the middle of its limits. Ferrules of the same sizes share a row; the + beside it unfolds them."},
		Columns: []report.Column{
			report.Text("Ferrule", 16).Bold(), report.Sentence("Ferrule is", 24), report.Diameter("Bore", 9), report.Diameter("Base OD", 9), report.Along("Length", 9), report.Verdict("Answer", 8),
			report.Text("Nearest head", 12), report.Diameter("Out by, on the diameter", 10), report.Sentence("Why", 54), report.Source("Ferrule from", 34),
		},
		Frozen: 1, Printed: 9, Tone: report.Without, Empty: "Every ferrule fits a head.",
	}
	p := b.open(t.Name, &t, columns{})
	for form, members := range b.result.FerruleGeometries() {
		if b.account.Fits[members[0]] == 0 {
			p.unused(form, int(members[0]))
		}
	}
	p.close()
}

func (p *page) unused(form, index int) {
	if !p.room() {
		return
	}
	ferrule := &p.result.Catalogue.Ferrules[index]
	f := &ferrule.Ferrule
	answer, why := fitcalc.No, "no head of the catalogue comes near"
	var head, out any
	if asks := p.result.FerruleCount(index, fitcalc.Ask); asks > 0 {
		answer, why = fitcalc.Ask, fmt.Sprintf("may fit %s, of which not all is given", phrase.Count(asks, "head"))
		if own := p.asked(index); len(own) > 0 {
			why = fmt.Sprintf("may fit %s; not given: %s", phrase.Count(asks, "head"), strings.Join(p.fieldNames(own), ", "))
		}
	} else if nearest, found := p.result.NearestHead(index); found {
		head, out, why = p.nearest(nearest, p.result.Catalogue.Heads[nearest.Head].Part)
	}
	p.put(p.cells([]any{
		p.ferruleNames(form), p.ferrulesAre(form), p.bore(index), report.Nominal(f.BaseOD), report.Nominal(f.Length), answer, head, out, why, report.FromFerrule(ferrule),
	})...)
	p.memberFerrules(form)
}

// bore is the bore of a ferrule, or in its place the tip that it is known by.
func (b *book) bore(ferrule int) any {
	f := &b.result.Catalogue.Ferrules[ferrule].Ferrule
	if !f.Bore.Given() && f.ForTip.Known() {
		return "for " + f.ForTip.String()
	}
	return report.Nominal(f.Bore)
}
