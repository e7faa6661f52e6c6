package workbook

import (
	"fmt"
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
		name: sheetWithout, title: "Heads without a ferrule",
		notes: []string{
			"ask: a ferrule may fit once what is missing is known. no: none on offer fits; the nearest one is named. bare: the head takes none.",
		},
		columns: []column{
			{"Head", 12, texts}, {"Head is", 24, sentences}, {"Hosel OD" + unit, 9, numbers}, {"Tip", 16, sentences}, {"Answer", 8, words},
			{"Nearest ferrule", 12, texts}, {"Out by, in the worst case" + unit, 10, numbers}, {"Why", 47, sentences},
			{"What would settle it", 22, sentences}, {"Head from", 34, texts},
		},
		frozen: 1, printed: 9, tab: fillPrep,
	}
	p := b.open(t)
	for _, want := range []tell.Standing{tell.Undecided, tell.Unserved, tell.TakesNone} {
		for head, standing := range b.account.Standings {
			if standing == want {
				p.without(head, standing)
			}
		}
	}
	if p.row == t.headingRow() {
		p.put(p.as("Every head has a ferrule.", prose))
	}
	p.close()
}

func (p *page) without(index int, standing tell.Standing) {
	head := &p.result.Catalogue.Heads[index]
	tips := p.result.HeadTips[index]
	headFrom := sourceOf(&head.Item, odRole(head))
	answer, why, settle := fitcalc.No, "no ferrule of the catalogue comes near", ""
	var ferrule, out any = p.as("", plain), p.as("", plain)
	switch standing {
	case tell.Undecided:
		var missing []string
		answer, missing = fitcalc.Ask, p.missing(p.result.HeadPairs(index), ofHead)
		why = fmt.Sprintf("%s may fit; not given: %s", counted(p.asks(index), "ferrule"), strings.Join(missing, ", "))
		settle = "ask for: " + strings.Join(missing, ", ")
	case tell.TakesNone:
		answer, why = fitcalc.Bare, fitcalc.Reason{Code: fitcalc.SeatRounded, Level: fitcalc.TakesNone}.Sentence(p.opts.Units)
	case tell.Unserved:
		if nearest, found := p.result.Nearest(index); found {
			ferrule, out, why = p.nearest(nearest, p.result.Catalogue.Ferrules[nearest.Ferrule].Part)
		}
	}
	p.put(
		p.as(head.Part, strong), p.as(describe(&head.Item, head.Category), wrapped), p.size(head.Head.JointOD(), plain),
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

func (p *page) asks(head int) int {
	count := 0
	for _, pair := range p.result.HeadPairs(head) {
		if pair.Verdict == fitcalc.Ask {
			count++
		}
	}
	return count
}

// ofHead and ofFerrule say whose dimension a field is. The tip counts as the head's, since it follows from its bore.
func ofHead(f fitcalc.Field) bool    { return f < fitcalc.FieldFerruleBore }
func ofFerrule(f fitcalc.Field) bool { return !ofHead(f) }

// missing names what is missing in pairs that cannot be decided, what is missing most often first. Where something is missing of
// the part that is asked about, what else is missing of the other is not the question.
func (p *page) missing(pairs []matrix.Pair, ofPart func(fitcalc.Field) bool) []string {
	own, others := map[fitcalc.Field]int{}, map[fitcalc.Field]int{}
	for _, pair := range pairs {
		if pair.Verdict != fitcalc.Ask {
			continue
		}
		fit := p.result.Fit(pair)
		for reason := range fit.Reasons() {
			switch {
			case reason.Code != fitcalc.DataMissing:
			case ofPart(reason.Field):
				own[reason.Field]++
			default:
				others[reason.Field]++
			}
		}
	}
	if len(own) == 0 {
		own = others
	}
	return byCount(own)
}

func byCount(counts map[fitcalc.Field]int) []string {
	var fields []fitcalc.Field
	for field := range counts {
		fields = append(fields, field)
	}
	slices.SortFunc(fields, func(a, b fitcalc.Field) int {
		if counts[a] != counts[b] {
			return counts[b] - counts[a]
		}
		return int(a) - int(b)
	})
	var names []string
	for _, field := range fields {
		names = append(names, field.String())
	}
	return names
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
		name: sheetUnused, title: "Ferrules that fit no head",
		notes: []string{"The nearest head is the one that would need the least change, out by the amount given on the diameter in the worst case."},
		columns: []column{
			{"Ferrule", 12, texts}, {"Ferrule is", 24, sentences}, {"Bore" + unit, 9, numbers}, {"Base OD" + unit, 9, numbers},
			{"Length" + unit, 9, numbers}, {"Answer", 8, words}, {"Nearest head", 12, texts},
			{"Out by, in the worst case" + unit, 10, numbers}, {"Why", 54, sentences}, {"Ferrule from", 34, texts},
		},
		frozen: 1, printed: 9, tab: fillBare,
	}
	p := b.open(t)
	asked := b.askedOf()
	for ferrule, fits := range b.account.Fits {
		if fits == 0 {
			p.unused(ferrule, asked[ferrule])
		}
	}
	if p.row == t.headingRow() {
		p.put(p.as("Every ferrule fits a head.", prose))
	}
	p.close()
}

// askedOf are the pairs of each ferrule that cannot be decided.
func (b *book) askedOf() map[int][]matrix.Pair {
	asked := map[int][]matrix.Pair{}
	for _, pair := range b.result.Pairs {
		if pair.Verdict == fitcalc.Ask && b.account.Fits[pair.Ferrule] == 0 {
			asked[int(pair.Ferrule)] = append(asked[int(pair.Ferrule)], pair)
		}
	}
	return asked
}

func (p *page) unused(index int, asked []matrix.Pair) {
	ferrule := &p.result.Catalogue.Ferrules[index]
	f, ferruleFrom := &ferrule.Ferrule, sourceOf(&ferrule.Item, catalog.BaseOD)
	answer, why := fitcalc.No, "no head of the catalogue comes near"
	var head, out any = p.as("", plain), p.as("", plain)
	if len(asked) > 0 {
		answer = fitcalc.Ask
		why = fmt.Sprintf("may fit %s; not given: %s", counted(len(asked), "head"), strings.Join(p.missing(asked, ofFerrule), ", "))
	} else if nearest, found := p.result.NearestHead(index); found {
		head, out, why = p.nearest(nearest, p.result.Catalogue.Heads[nearest.Head].Part)
	}
	p.put(
		p.as(ferrule.Part, strong), p.as(ferrule.Description, wrapped), p.size(f.Bore, plain), p.size(f.BaseOD, plain),
		p.along(f.Length.Given(), f.Length.Nominal(), plain), p.verdict(answer), head, out, p.as(why, wrapped),
		p.source(ferruleFrom),
	)
	p.leadTo(len(p.table.columns), ferruleFrom)
}

// counted is a count with its noun: 1 head, 2 heads.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
