package workbook

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
)

// withoutSheet lists the heads that no ferrule is known to fit, and what stands in the way.
func (b *book) withoutSheet() {
	unit := ", " + b.reader.name()
	t := table{
		name: sheetWithout, title: "Heads without a ferrule", all: "heads.jsonl",
		notes: []string{
			"ask: a ferrule may fit once what is missing is known. no: none on offer fits; the nearest one is named. bare: the head takes none.",
		},
		columns: []column{
			{"Head", 19, texts}, {"Head is", 24, sentences}, {"Hosel OD" + unit, 9, numbers}, {"Tip", 16, sentences}, {"Answer", 8, words},
			{"Nearest ferrule", 12, texts}, {"Out by, on the diameter" + unit, 10, numbers}, {"Why", 47, sentences},
			{"What would settle it", 22, sentences}, {"Head from", 34, texts},
		},
		frozen: 1, printed: 9, tab: fillPrep,
	}
	p := b.open(t)
	for _, want := range []tell.Standing{tell.Undecided, tell.Unserved, tell.TakesNone} {
		for class, members := range b.result.HeadGeometries() {
			if b.account.Standings[members[0]] == want {
				p.without(class, int(members[0]), want)
			}
		}
	}
	if p.row == t.headingRow() {
		p.put(p.as("Every head has a ferrule.", prose))
	}
	p.close()
}

func (p *page) without(class, index int, standing tell.Standing) {
	if !p.room() {
		return
	}
	head := &p.result.Catalogue.Heads[index]
	tips := p.result.HeadTips[index]
	headFrom := sourceOf(&head.Item, odRole(head))
	answer, why, settle := fitcalc.No, "no ferrule of the catalogue comes near", ""
	var ferrule, out any = p.as("", plain), p.as("", plain)
	switch standing {
	case tell.Undecided:
		var missing []string
		answer, missing = fitcalc.Ask, p.missing(index)
		why = fmt.Sprintf("%s may fit; not given: %s", counted(p.result.HeadCount(index, fitcalc.Ask), "ferrule"), strings.Join(missing, ", "))
		settle = "ask for: " + strings.Join(missing, ", ")
	case tell.TakesNone:
		answer, why = fitcalc.Bare, fitcalc.Reason{Code: fitcalc.SeatRounded, Level: fitcalc.TakesNone}.Sentence(p.opts.Units)
	case tell.Unserved:
		if nearest, found := p.result.Nearest(index); found {
			ferrule, out, why = p.nearest(nearest, p.result.Catalogue.Ferrules[nearest.Ferrule].Part)
		}
	}
	p.put(
		p.as(p.headNames(class), strong), p.as(p.headsAre(class), wrapped), p.size(head.Head.JointOD(), plain),
		p.as(p.tipNames(tips), wrapped), p.verdict(answer), ferrule, out, p.as(why, wrapped), p.as(settle, wrapped),
		p.source(headFrom),
	)
	p.leadTo(len(p.table.columns), headFrom)
}

// nearest is the name of the nearest part, by how much it is out, and why.
func (p *page) nearest(pair matrix.Pair, part string) (name, out any, why string) {
	fit := p.result.Fit(pair)
	distance := missOf(pair)
	out = p.as("", plain)
	if distance.Sign() > 0 { // a pair that is too risky, with no size beyond its limit, is out by nothing
		out = p.length(true, distance, plain)
	}
	return p.as(part, plain), out, p.why(&fit)
}

// missOf is by how much a pair is out, on the diameter, to a micrometre: it is kept in single precision.
func missOf(pair matrix.Pair) measure.Length {
	miss, err := measure.FromMillimetres(float64(pair.Miss))
	if err != nil {
		return measure.Length{} // beyond any length, as a pair without a measure of its miss is
	}
	return miss.RoundTo(measure.Micrometres(1), measure.NearestEven)
}

// missing names what is missing of a head, what is missing most often first; where nothing is, what is missing of the ferrules that may
// fit it.
func (b *book) missing(head int) []string {
	if own := lacking(b.result.Asked(head)); len(own) > 0 {
		return fieldNames(own)
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
	return fieldNames(byCount(others))
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

func fieldNames(fields []fitcalc.Field) []string {
	var names []string
	for _, field := range fields {
		names = append(names, field.String())
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
	unit := ", " + b.reader.name()
	t := table{
		name: sheetUnused, title: "Ferrules that fit no head", all: "ferrules.jsonl",
		notes: []string{"The nearest head is the one that would need the least change, out by the amount given on the diameter, at the middle of the limits."},
		columns: []column{
			{"Ferrule", 16, texts}, {"Ferrule is", 24, sentences}, {"Bore" + unit, 9, numbers}, {"Base OD" + unit, 9, numbers},
			{"Length" + unit, 9, numbers}, {"Answer", 8, words}, {"Nearest head", 12, texts},
			{"Out by, on the diameter" + unit, 10, numbers}, {"Why", 54, sentences}, {"Ferrule from", 34, texts},
		},
		frozen: 1, printed: 9, tab: fillBare,
	}
	p := b.open(t)
	for form, members := range b.result.FerruleGeometries() {
		if b.account.Fits[members[0]] == 0 {
			p.unused(form, int(members[0]))
		}
	}
	if p.row == t.headingRow() {
		p.put(p.as("Every ferrule fits a head.", prose))
	}
	p.close()
}

func (p *page) unused(form, index int) {
	if !p.room() {
		return
	}
	ferrule := &p.result.Catalogue.Ferrules[index]
	f, ferruleFrom := &ferrule.Ferrule, sourceOf(&ferrule.Item, catalog.BaseOD)
	answer, why := fitcalc.No, "no head of the catalogue comes near"
	var head, out any = p.as("", plain), p.as("", plain)
	if asks := p.result.FerruleCount(index, fitcalc.Ask); asks > 0 {
		answer, why = fitcalc.Ask, fmt.Sprintf("may fit %s, of which not all is given", counted(asks, "head"))
		if own := p.asked(index); len(own) > 0 {
			why = fmt.Sprintf("may fit %s; not given: %s", counted(asks, "head"), strings.Join(fieldNames(own), ", "))
		}
	} else if nearest, found := p.result.NearestHead(index); found {
		head, out, why = p.nearest(nearest, p.result.Catalogue.Heads[nearest.Head].Part)
	}
	p.put(
		p.as(p.ferruleNames(form), strong), p.as(p.ferrulesAre(form), wrapped), p.bore(index, plain), p.size(f.BaseOD, plain),
		p.along(f.Length.Given(), f.Length.Nominal(), plain), p.verdict(answer), head, out, p.as(why, wrapped),
		p.source(ferruleFrom),
	)
	p.leadTo(len(p.table.columns), ferruleFrom)
}

// bore is the bore of a ferrule, or in its place the tip that it is known by.
func (p *page) bore(ferrule int, l look) any {
	f := &p.result.Catalogue.Ferrules[ferrule].Ferrule
	if !f.Bore.Given() && f.ForTip.Known() {
		l.wrap = true // a column of sizes is narrow
		return p.as("for "+f.ForTip.String(), l)
	}
	return p.size(f.Bore, l)
}

// counted is a count with its noun: 1 head, 2 heads.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
