package workbook

import (
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// fitsSection is the sheet of all listed pairs. It is there for looking up, and is not printed.
func (b *book) fitsSection() *report.Section {
	columns := []report.Column{
		report.Text("Head", 19).Bold(), report.Text("Ferrule", 16).Bold(), report.Text("Tip", 16), report.Verdict("Verdict", 8), report.Minutes("Bench time, min", 8),
		report.Diameter("Turn-down on the diameter", 11), report.Diameter("least", 8), report.Diameter("most", 8), report.Fine("per side", 9),
		report.Diameter("Oversize on the diameter", 11), report.Share("Chance of a step under", 9), report.Diameter("Interference at the tightest", 13), report.Sentence("Why", 47),
		report.Text("Also", 60), report.Along("Grip length", 9), report.Diameter("Stands off", 9), report.Diameter("Bore clearance", 11), report.Diameter("Hosel OD", 9),
		report.Diameter("Base OD", 9), report.Text("Head is", 28), report.Text("Ferrule is", 28), report.Text("Taken for granted", 46),
	}
	if b.result.Catalogue.Measurements.Any() {
		columns = append(columns, report.Text("Measured", 24))
	}
	return &report.Section{
		Name: sheetFits, Title: "Every listed pair", All: "fits.csv", LookUp: true,
		Notes: []string{
			"Turn-down is what must come off the base on the diameter; per side is half of it. Least and most are worst case, limit against limit.",
			"Listed are " + b.listed("pairs that fit") + ", and the nearest of what fits nothing; the others are counted on “Read first”. Parts of the same sizes share a row. This sheet is for the screen: to print rows of it, select them.",
		},
		Columns: append(columns, report.Source("Head from", 34), report.Source("Ferrule from", 34)), Frozen: 2, Tone: report.Aside,
	}
}

// planFits finds the rows of the sheet of fits: one for each listed pair of two geometries, as far as the sheet goes.
func (b *book) planFits() {
	b.rowOf = map[[2]int]int{}
	headings := headingRow(b.fitsSection())
	for class := range b.result.HeadGeometries() {
		for _, pair := range b.pairsOf(class) {
			if headings+len(b.rowOf) >= b.limits.rows-1 {
				return
			}
			b.rowOf[[2]int{class, b.result.FerruleGeometry(int(pair.Ferrule))}] = headings + len(b.rowOf) + 1
		}
	}
}

// pairsOf are the listed pairs of a geometry of heads, of each geometry of ferrules the first.
func (b *book) pairsOf(class int) []matrix.Pair {
	var pairs []matrix.Pair
	for _, pair := range b.result.HeadPairs(int(b.result.HeadGeometries()[class][0])) {
		if b.firstOf(b.result.FerruleGeometry(int(pair.Ferrule))) == pair.Ferrule {
			pairs = append(pairs, pair)
		}
	}
	return pairs
}

func (b *book) fitsSheet() {
	p := b.open(sheetFits, b.fitsSection(), columns{})
	for class := range b.result.HeadGeometries() {
		for _, pair := range b.pairsOf(class) {
			if p.room() {
				p.fitRow(class, pair)
			}
		}
	}
	p.close()
}

func (p *page) fitRow(class int, pair matrix.Pair) {
	r := p.result
	fit := r.Fit(pair)
	form := r.FerruleGeometry(int(pair.Ferrule))
	head, ferrule := &r.Catalogue.Heads[pair.Head], &r.Catalogue.Ferrules[pair.Ferrule]
	flush, grip, known := &fit.Flush, &fit.Grip, fit.Flush.Known
	turn := any(report.Size{Known: known, Length: flush.TurnDown.Nominal})
	if fit.Verdict.Fits() {
		turn = report.Strong{Cell: turn}
	}
	under := any(nil)
	if known {
		under = flush.VisibleUndersize
	}
	row := []any{
		p.headNames(class), p.ferruleNames(form), r.Tips[pair.Tip].Name, fit.Verdict, minutes(&fit), turn, report.Size{Known: known, Length: flush.TurnDown.Least},
		report.Size{Known: known, Length: flush.TurnDown.Most}, report.Size{Known: known, Length: flush.TurnDown.PerSide().Nominal},
		report.Size{Known: known, Length: flush.Oversize.Nominal}, under, report.Size{Known: grip.Known, Length: grip.Interference.Nominal}, p.why(&fit), p.also(&fit),
		report.Size{Known: grip.Known && ferrule.Ferrule.Length.Given(), Length: grip.Length}, report.Size{Known: fit.Seat.Known, Length: fit.Seat.StandOff.Nominal},
		report.Size{Known: fit.Bore.Known, Length: fit.Bore.Clearance.Nominal}, report.Nominal(head.Head.JointOD()), report.Nominal(ferrule.Ferrule.BaseOD),
		p.headsAre(class), p.ferrulesAre(form), p.assumed(r, pair, &fit),
	}
	if r.Catalogue.Measurements.Any() {
		row = append(row, measured(r, pair))
	}
	p.put(p.cells(append(row, report.FromHead(head), report.FromFerrule(ferrule)))...)
}

// minutes is the bench time of a joint that can be built.
func minutes(fit *fitcalc.Fit) any {
	if !fit.Work.Known || !fit.Verdict.Fits() {
		return nil
	}
	return fit.Work.Minutes
}

// also are the reasons of a fit besides the one that decides it.
func (p *page) also(fit *fitcalc.Fit) string {
	var all []string
	for reason := range fit.Reasons() {
		all = append(all, p.opts.Language.Reason(reason, p.opts.Units))
	}
	return strings.Join(all[min(1, len(all)):], "; ")
}

func (p *page) assumed(r *matrix.Result, pair matrix.Pair, fit *fitcalc.Fit) string {
	var all []string
	for _, a := range tell.Assumptions(r, pair, fit) {
		all = append(all, a.In(p.opts.Language))
	}
	return strings.Join(all, "; ")
}

// measured names the sizes of a pair that come from readings.
func measured(r *matrix.Result, pair matrix.Pair) string {
	var all []string
	for _, field := range tell.MeasuredFields(r, pair) {
		all = append(all, field.String())
	}
	return strings.Join(all, "; ")
}
