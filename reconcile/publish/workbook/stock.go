package workbook

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/planning"
	"example.com/seatline/reconcile/publish/tell"
)

// Names of the sheets of a plan.
const (
	sheetCarry    = "What to carry"
	sheetServes   = "Who serves whom"
	sheetToday    = "Against today"
	sheetCurve    = "Curve"
	sheetSecond   = "Second best"
	sheetUnserved = "Heads not served"
	sheetDemand   = "Yearly numbers"
)

const (
	formatSum       = "#,##0.00"
	formatLongHours = "#,##0.0"
	formatPieces    = "#,##0.####"
)

// WriteStock writes a plan of what to stock as a workbook. The error is the writer's, or that of a plan beyond what a workbook can hold.
func WriteStock(w io.Writer, s *planning.Stock, opts Options) error {
	return writeBook(w, opts, "What to stock", func(b *book) {
		b.result, b.account = s.Result, tell.Take(s.Result)
		x := &stockBook{book: b, stock: s, names: sheetNames{taken: map[string]bool{}}}
		x.write()
	})
}

// stockBook is the workbook of a plan being written.
type stockBook struct {
	*book
	stock *planning.Stock
	names sheetNames
}

// answer is a sheet and the question that it answers.
type answer struct{ sheet, question string }

func (x *stockBook) write() {
	p := x.stock.Plan
	answers := []answer{
		{sheetCarry, "Which part numbers should be carried, how many of each are needed in a year, and what is each worth?"},
		{sheetServes, "Which ferrule does each head get, what comes off, and how long does it take?"},
	}
	if p.Today != nil {
		answers = append(answers, answer{sheetToday, "What does the plan change, and save, against what is in stock now?"})
	}
	if len(p.Curve) > 0 {
		answers = append(answers, answer{sheetCurve, "What does a year cost with fewer part numbers, or more?"})
	}
	if p.Second != nil {
		answers = append(answers, answer{sheetSecond, "How much dearer is the next best set, and what is different in it?"})
	}
	answers = append(answers, answer{sheetUnserved, "Which heads get no ferrule, and why?"})
	var without []string
	for _, w := range x.stock.Without {
		without = append(without, x.names.of("Without "+x.result.Catalogue.Ferrules[w.Ferrule].Part))
		answers = append(answers, answer{without[len(without)-1], "What stands in for this ferrule, and how does the work change?"})
	}
	if x.stock.Demand != nil {
		answers = append(answers, answer{sheetDemand, "How was each row of the sheet of yearly numbers understood?"})
	}
	x.first(answers)
	x.carrySheet()
	x.servesSheet()
	if p.Today != nil {
		x.todaySheet()
	}
	if len(p.Curve) > 0 {
		x.curveSheet()
	}
	if p.Second != nil {
		x.secondSheet()
	}
	x.unservedSheet()
	for i, w := range x.stock.Without {
		x.standInSheet(without[i], w)
	}
	x.demandSheet(x.stock.Demand)
}

// inCurrency is a heading with the currency, where one is known.
func (x *stockBook) inCurrency(text string) string {
	if x.stock.Plan.Currency == "" {
		return text
	}
	return text + ", " + x.stock.Plan.Currency
}

func (x *stockBook) first(answers []answer) {
	s := x.stock
	p := x.page(sheetReadFirst, layout{widths: readFirstWidths, tab: ink})
	p.planTitle("What to stock, and why")
	p.section("The answer")
	p.wide("carry", look{bold: true}, fmt.Sprintf("%d part numbers serve %d heads at %s a year: bench %s, pieces %s, carrying %s.", len(s.Plan.Carry), len(s.Plan.Served),
		planning.Money(s.Plan.Cost.Total(), s.Plan.Currency), planning.Money(s.Plan.Cost.Work, ""), planning.Money(s.Plan.Cost.Pieces, ""), planning.Money(s.Plan.Cost.Carrying, "")))
	p.wide("how good it is", look{bold: true}, strings.ToUpper(s.Proof()[:1])+s.Proof()[1:]+".")
	heads := fmt.Sprintf("%d heads get no ferrule.", len(s.Plan.Unserved))
	if n := len(s.Plan.LeftOut); n > 0 {
		heads += fmt.Sprintf(" %d heads are left out: none is made, or there is no number for them.", n)
	}
	if n := len(s.Plan.OneSource); n > 0 {
		heads += fmt.Sprintf(" %d heads want a second source and have none.", n)
	}
	p.wide("heads", look{bold: true}, heads)
	p.whichAnswers(answers)
	p.section("What a year costs")
	p.wide("carrying", look{bold: true}, "for each part number: its bin, its line in the lists and its reordering, and the money in half a lot of stock")
	p.wide("bench", look{bold: true}, "for each joint: the mean bench time, by what a minute costs")
	p.wide("pieces", look{bold: true}, "for each joint: the price of a piece")
	p.section("Asked for")
	for _, line := range x.asked() {
		p.wide(line[0], look{}, line[1])
	}
	p.rests(s.Assumed())
	p.whatWasRead()
	p.cautions()
	p.settings()
	p.done()
}

// planTitle writes the title of a plan's first sheet.
func (p *page) planTitle(text string) {
	p.putRow(excelize.RowOpts{Height: 26}, p.as(text, title))
	if p.opts.ShopName != "" {
		p.put(p.as(p.opts.ShopName, look{bold: true, size: 11}))
	}
	p.put(p.as("Differences of diameters are on the diameter unless the heading says per side. Lengths are in "+p.reader.long()+p.alongAxis()+".", note))
}

func (p *page) whichAnswers(answers []answer) {
	p.section("Which sheet answers what")
	for _, a := range answers {
		p.put(p.as(a.sheet, look{bold: true}.linked()), p.as(a.question, look{}))
		p.link(1, p.row, place{a.sheet, 1, 1})
	}
}

func (p *page) rests(assumed []string) {
	p.section("What it rests on")
	for _, text := range assumed {
		p.wide("", look{}, text)
	}
	if len(assumed) == 0 {
		p.put(p.as("Nothing was taken for granted.", look{}))
	}
}

// asked is what was asked for, as pairs of name and value.
func (x *stockBook) asked() [][2]string {
	set := &x.stock.Settings
	r := x.result
	names := func(ferrules []int) string {
		var all []string
		for _, f := range ferrules {
			all = append(all, r.Catalogue.Ferrules[f].Part)
		}
		return strings.Join(all, ", ")
	}
	lines := [][2]string{
		{"a bench minute", planning.Money(set.BenchPerMinute, x.stock.Plan.Currency)},
		{"carrying a part number", planning.Money(set.CarryPerYear, x.stock.Plan.Currency) + " a year"},
		{"money in stock", fmt.Sprintf("%.1f%% a year", 100*set.Holding)},
	}
	for _, currency := range slices.Sorted(keysOf(set.Rates)) {
		lines = append(lines, [2]string{"1 " + currency, fmt.Sprintf("%g %s", set.Rates[currency], x.stock.Plan.Currency)})
	}
	add := func(given bool, name, value string) {
		if given {
			lines = append(lines, [2]string{name, value})
		}
	}
	add(len(set.Must) > 0, "carried in any case", names(set.Must))
	add(len(set.MustNot) > 0, "never carried", names(set.MustNot))
	add(set.AtMost > 0, "part numbers", fmt.Sprintf("at most %d", set.AtMost))
	add(set.MostTurnDown.Sign() > 0, "turn-down", "nominally at most "+x.opts.Units.Show(set.MostTurnDown)+" on the diameter")
	add(set.Measured, "measuring", "pairs that suit only some pieces of a head may serve; the bench measures and chooses")
	add(set.NoPrep, "preparing", "no pairs that need work on hosel, tip or bore")
	add(len(x.stock.TwoSuppliers) > 0, "two suppliers", "for heads that are "+strings.Join(x.stock.TwoSuppliers, ", "))
	add(set.IgnorePrices, "prices", "left out")
	return lines
}

func keysOf[V any](m map[string]V) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

func (x *stockBook) carrySheet() {
	t := table{
		name: sheetCarry, title: "What to carry, and why",
		notes: []string{
			"“Saves” is how much dearer the best plan without this part number is, with at most one other in its place; “needed” where a head would go without.",
			"Lots are what has to be bought at once: the pack. What a year leaves over is used the year after.",
		},
		columns: []column{
			{"Ferrule", 14, texts}, {"Ferrule is", 26, texts}, {"Supplier", 20, texts}, {"Heads", 7, numbers}, {"Pieces a year", 9, numbers}, {"Lot", 6, numbers},
			{"Lots a year", 7, numbers}, {"Left over", 7, numbers}, {x.inCurrency("Price of a piece"), 10, numbers}, {"Bench hours a year", 9, numbers},
			{x.inCurrency("Cost a year"), 12, numbers}, {"bench", 11, numbers}, {"pieces", 11, numbers}, {"carrying", 10, numbers},
			{x.inCurrency("Saves a year"), 12, numbers}, {"In its place", 14, texts}, {"Used on", 60, texts}, {"Ferrule from", 34, texts},
		},
		frozen: 1, printed: 16, tab: fillFlush,
	}
	p := x.open(t)
	for i := range x.stock.Plan.Carry {
		x.carried(p, &x.stock.Plan.Carry[i])
	}
	if len(x.stock.Plan.Carry) > 0 {
		plan := x.stock.Plan
		pieces, minutes := 0.0, 0.0
		for _, c := range plan.Carry {
			pieces, minutes = pieces+c.Pieces, minutes+c.Minutes
		}
		sum := look{bold: true, over: true}
		p.put(p.as("All", sum), p.as("", sum), p.as("", sum), p.as(len(plan.Served), sum.number(formatCount)), p.as(pieces, sum.number(formatPieces)), p.as("", sum), p.as("", sum), p.as("", sum), p.as("", sum),
			p.as(minutes/60, sum.number(formatLongHours)), p.as(plan.Cost.Total(), sum.number(formatSum)), p.as(plan.Cost.Work, sum.number(formatSum)), p.as(plan.Cost.Pieces, sum.number(formatSum)),
			p.as(plan.Cost.Carrying, sum.number(formatSum)))
	} else {
		p.put(p.as("Nothing is to be carried.", prose))
	}
	p.close()
}

func (x *stockBook) carried(p *page, c *stock.Carried) {
	f := &x.result.Catalogue.Ferrules[c.Ferrule]
	money, piece := plain.number(formatSum), plain.number(formatPieces)
	saves, instead := p.as(c.Saves, money), ""
	if c.Irreplaceable {
		saves, instead = p.as("needed", plain.centred()), "nothing"
	}
	if c.Instead >= 0 {
		instead = x.result.Catalogue.Ferrules[c.Instead].Part
	}
	var heads []string
	for _, h := range c.Heads {
		heads = append(heads, x.result.Catalogue.Heads[h].Part)
	}
	from := sourceOf(&f.Item, catalog.BaseOD)
	p.put(p.as(f.Part, strong), p.as(f.Description, plain), p.as(f.Supplier, plain), p.as(len(c.Heads), plain.number(formatCount)), p.as(c.Pieces, piece),
		p.as(c.Lot, plain.number(formatCount)), p.as(c.Packs, plain.number(formatCount)), p.as(c.LeftOver, piece), p.as(c.PricePerPiece, plain.number("#,##0.00##")),
		p.as(c.Minutes/60, plain.number(formatLongHours)), p.as(c.Cost.Total(), strong.number(formatSum)), p.as(c.Cost.Work, money), p.as(c.Cost.Pieces, money), p.as(c.Cost.Carrying, money),
		saves, p.as(instead, plain), p.as(strings.Join(heads, ", "), plain), p.source(from))
	p.leadTo(18, from)
}

func (x *stockBook) servesSheet() {
	unit := ", " + x.reader.name()
	t := table{
		name: sheetServes, title: "Which ferrule each head gets",
		notes: []string{"Of the ferrules carried, the one that costs least on this head. Turn-down is the nominal one, on the diameter; per side is half of it."},
		columns: []column{
			{"Head", 14, texts}, {"Head is", 28, texts}, {"Tip", 16, texts}, {"Ferrule", 14, texts}, {"Verdict", 8, words}, {"Turn-down on the diameter" + unit, 11, numbers},
			{"per side" + unit, 9, numbers}, {"Made a year", 8, numbers}, {"Bench minutes each", 9, numbers}, {"Bench hours a year", 9, numbers}, {"Head from", 34, texts},
			{"Ferrule from", 34, texts}, {"Number from", 34, texts}, {"Assumed of the number", 44, sentences},
		},
		frozen: 1, printed: 10, tab: fillTurn,
	}
	p := x.open(t)
	for i := range x.stock.Plan.Served {
		s := &x.stock.Plan.Served[i]
		x.served(p, s.Pair, s.Yearly)
	}
	if len(x.stock.Plan.Served) == 0 {
		p.put(p.as("No head is served.", prose))
	}
	p.close()
}

func (x *stockBook) served(p *page, pair matrix.Pair, yearly float64) {
	head, ferrule := &x.result.Catalogue.Heads[pair.Head], &x.result.Catalogue.Ferrules[pair.Ferrule]
	ofHead, ofFerrule := sourceOf(&head.Item, odRole(head)), sourceOf(&ferrule.Item, catalog.BaseOD)
	turn := fitcalc.Amount{Nominal: pair.TurnDown}
	numbered, assumed := planning.Numbered(x.stock.Demand, int(pair.Head))
	p.put(p.as(head.Part, strong), p.as(describe(&head.Item, head.Category), plain), p.as(x.result.Tips[pair.Tip].Name, plain), p.as(ferrule.Part, strong), p.verdict(pair.Verdict),
		p.length(true, pair.TurnDown, strong), p.perSide(true, turn), p.as(yearly, plain.number(formatPieces)), p.as(float64(pair.Minutes), plain.number(formatMinutes)),
		p.as(yearly*float64(pair.Minutes)/60, plain.number(formatLongHours)), p.source(ofHead), p.source(ofFerrule), p.as(placesOf(numbered), plain), p.as(strings.Join(assumed, "; "), wrapped))
	p.leadTo(11, ofHead)
	p.leadTo(12, ofFerrule)
}

func placesOf(places []finding.Place) string {
	texts := make([]string, len(places))
	for i, at := range places {
		at.Row = 0
		texts[i] = at.String()
	}
	return strings.Join(texts, "; ")
}

func (x *stockBook) todaySheet() {
	plan, today := x.stock.Plan, x.stock.Plan.Today
	t := table{
		name: sheetToday, title: "The plan against what is in stock now",
		notes: []string{
			x.stock.AgainstToday() + ".",
			fmt.Sprintf("Bench %s against %s, pieces %s against %s, carrying %s against %s. The best use is made of both.", planning.Money(today.Cost.Work, ""), planning.Money(today.Same.Work, ""),
				planning.Money(today.Cost.Pieces, ""), planning.Money(today.Same.Pieces, ""), planning.Money(today.Cost.Carrying, ""), planning.Money(today.Same.Carrying, "")),
		},
		columns: []column{{"Part", 16, texts}, {"Part is", 34, texts}, {"In stock", 9, numbers}, {"In the plan", 9, words}, {"What changes", 44, sentences}, {"From", 34, texts}},
		frozen:  1, tab: band,
	}
	p := x.open(t)
	carried := map[int]bool{}
	for _, c := range plan.Carry {
		carried[c.Ferrule] = true
	}
	line := func(f int, what string) {
		item := &x.result.Catalogue.Ferrules[f].Item
		in, pieces := "no", p.as("", plain)
		if carried[f] {
			in = "yes"
		}
		if slices.Contains(today.Ferrules, f) {
			pieces = p.as(item.Fields.Get(catalog.Stock).Number, plain.number(formatPieces))
		}
		from := sourceOf(item, catalog.Stock)
		p.put(p.as(item.Part, strong), p.as(item.Description, plain), pieces, p.as(in, plain.centred()), p.as(what, wrapped), p.source(from))
		p.leadTo(6, from)
	}
	for _, c := range plan.Carry {
		if !slices.Contains(today.Ferrules, c.Ferrule) {
			line(c.Ferrule, "to be carried from now on")
		}
	}
	for _, f := range today.Ferrules {
		if carried[f] {
			line(f, "stays")
		} else {
			line(f, "to be used up and not ordered again")
		}
	}
	for _, h := range today.Unserved {
		item := &x.result.Catalogue.Heads[h].Item
		from := tell.Place(item.Source)
		p.put(p.as(item.Part, strong), p.as(item.Description, plain), p.as("", plain), p.as("", plain), p.as("a head that today's stock does not serve and the plan does; it is in neither sum", wrapped), p.source(from))
		p.leadTo(6, from)
	}
	p.close()
}

func (x *stockBook) curveSheet() {
	plan := x.stock.Plan
	t := table{
		name: sheetCurve, title: "What a year costs, by the most part numbers",
		notes: []string{"For each number the best choice of no more part numbers than that. Where a choice is not proven, none costs less than the bound."},
		columns: []column{
			{"At most", 10, numbers}, {x.inCurrency("Cost a year"), 14, numbers}, {"more than the plan", 14, numbers}, {"Proven", 9, words}, {"no less than", 14, numbers}, {"Part numbers", 90, sentences},
		},
		frozen: 1, tab: fillPrep,
	}
	p := x.open(t)
	first := p.row + 1
	for _, point := range plan.Curve {
		at := p.as(point.AtMost, strong.number(formatCount))
		if !point.Found {
			why := "none was found in the time"
			if point.Impossible {
				why = "so few do not keep what was asked for, or leave a head unserved"
			}
			p.put(at, p.as("", plain), p.as("", plain), p.as("", plain), p.as("", plain), p.as(why, wrapped))
			first = p.row + 1
			continue
		}
		var parts []string
		for _, f := range point.Ferrules {
			parts = append(parts, x.result.Catalogue.Ferrules[f].Part)
		}
		proven := "yes"
		if !point.Proven {
			proven = "no"
		}
		p.put(at, p.as(point.Cost, strong.number(formatSum)), p.as(point.Cost-plan.Cost.Total(), plain.number(formatSum)), p.as(proven, plain.centred()),
			p.as(point.LowerBound, plain.number(formatSum)), p.as(strings.Join(parts, ", "), wrapped))
	}
	if last := p.row; last >= first {
		p.chartOf(lineChart{
			title: t.title, across: "part numbers, at most", up: x.inCurrency("cost a year"), categories: 1,
			series: []lineSeries{{name: place{sheetCurve, 2, t.headingRow()}, values: 2, first: first, last: last}}, first: first, last: last,
		})
	}
	p.done()
}

// lineChart is a chart of lines over the rows of the sheet it stands on.
type lineChart struct {
	title, across, up string
	// categories is the column of the labels.
	categories  int
	series      []lineSeries
	first, last int
}

type lineSeries struct {
	name        place
	values      int
	first, last int
}

var lineFills = []string{fillFlush, fillPrep, faint, "4E8FC2", "8A4E10", ink}

// chartOf leaves rows below the last for a chart, and draws it there.
func (p *page) chartOf(c lineChart) {
	const high = 340
	at := p.row + 2
	if c.last-c.first >= 12 { // so that a printed page does not cut it
		p.do(func() error { return p.file.InsertPageBreak(p.name, address(1, at)) })
	}
	p.skip(1)
	for range int(math.Ceil(high/pixelsPerRow)) + 1 {
		p.putRow(excelize.RowOpts{Height: pictureHigh})
	}
	column := func(n, first, last int) string {
		return fmt.Sprintf("%s!%s:%s", quoted(p.name), absolute(n, first), absolute(n, last))
	}
	small := excelize.Font{Family: fontFamily, Size: 9, Color: ink}
	axis := func(text string) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text, Font: &small}}}
	}
	chart := &excelize.Chart{
		Type:      excelize.Line,
		Dimension: excelize.ChartDimension{Width: pictureWide, Height: high},
		Legend:    excelize.ChartLegend{Position: "none"},
		Format:    excelize.GraphicOptions{AltText: c.title + ". The numbers stand in the table above.", Positioning: "oneCell"},
		XAxis:     excelize.ChartAxis{Font: small, Title: axis(c.across)},
		YAxis:     excelize.ChartAxis{Font: small, MajorGridLines: true, Title: axis(c.up), NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
		Border:    excelize.LineOptions{Type: excelize.LineNone},
	}
	if len(c.series) > 1 {
		chart.Legend = excelize.ChartLegend{Position: "top", Font: &small}
	}
	for i, s := range c.series {
		color := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{lineFills[i%len(lineFills)]}}
		chart.Series = append(chart.Series, excelize.ChartSeries{
			Name:       quoted(s.name.sheet) + "!" + absolute(s.name.column, s.name.row),
			Categories: column(c.categories, s.first, s.last), Values: column(s.values, s.first, s.last),
			Fill: color, Line: excelize.LineOptions{Width: 1.75}, Marker: excelize.ChartMarker{Symbol: "circle", Size: 6, Fill: color},
		})
	}
	p.do(func() error { return p.file.AddChart(p.name, address(1, at), chart) })
}

func (x *stockBook) secondSheet() {
	plan := x.stock.Plan
	second := plan.Second
	said := fmt.Sprintf("The best plan with another set costs %s a year, %s more than the plan.", planning.Money(second.Cost, plan.Currency), planning.Money(second.Cost-plan.Cost.Total(), plan.Currency))
	if !second.Proven {
		said += fmt.Sprintf(" That is not proven: another set may cost less, but no less than %s.", planning.Money(second.LowerBound, plan.Currency))
	}
	t := table{
		name: sheetSecond, title: "The second best set",
		notes:   []string{said},
		columns: []column{{"Ferrule", 16, texts}, {"Ferrule is", 40, texts}, {"Supplier", 26, texts}, {"In the plan", 10, words}, {"In the second best", 10, words}, {"From", 34, texts}},
		frozen:  1, tab: band,
	}
	p := x.open(t)
	in := map[int][2]bool{}
	for _, c := range plan.Carry {
		in[c.Ferrule] = [2]bool{true, false}
	}
	for _, f := range second.Ferrules {
		in[f] = [2]bool{in[f][0], true}
	}
	word := map[bool]string{true: "yes", false: "no"}
	for f := range x.result.Catalogue.Ferrules {
		both, there := in[f]
		if !there {
			continue
		}
		l := plain
		if both[0] != both[1] {
			l = strong
		}
		item := &x.result.Catalogue.Ferrules[f].Item
		from := sourceOf(item, catalog.BaseOD)
		p.put(p.as(item.Part, l), p.as(item.Description, l), p.as(item.Supplier, l), p.as(word[both[0]], l.centred()), p.as(word[both[1]], l.centred()), p.source(from))
		p.leadTo(6, from)
	}
	p.close()
}

func (x *stockBook) unservedSheet() {
	t := table{
		name: sheetUnserved, title: "Heads that get no ferrule",
		notes:   []string{"Nearest is the ferrule that comes nearest to fitting. Heads of which none is made are listed at the end."},
		columns: []column{{"Head", 14, texts}, {"Head is", 30, texts}, {"Why", 84, sentences}, {"Nearest", 14, texts}, {"Head from", 34, texts}},
		frozen:  1, tab: fillBare,
	}
	p := x.open(t)
	line := func(head int, why, nearest string) {
		h := &x.result.Catalogue.Heads[head]
		from := sourceOf(&h.Item, odRole(h))
		p.put(p.as(h.Part, strong), p.as(describe(&h.Item, h.Category), plain), p.as(why, wrapped), p.as(nearest, plain), p.source(from))
		p.leadTo(5, from)
	}
	for i := range x.stock.Plan.Unserved {
		u := &x.stock.Plan.Unserved[i]
		nearest := ""
		if u.HasNearest {
			nearest = x.result.Catalogue.Ferrules[u.Nearest.Ferrule].Part
		}
		line(u.Head, planning.Unserved(x.result, u, x.opts.Units), nearest)
	}
	for _, h := range x.stock.Plan.OneSource {
		line(h, "is served, but by ferrules of one supplier only: no other supplier's ferrule fits it", "")
	}
	for _, h := range x.stock.Plan.LeftOut {
		why := "none is made in a year"
		if d := x.stock.Demand; d != nil && !d.Stated[h] {
			why = "left out: “" + sheetDemand + "” has no number for it that could be used"
		}
		line(h, why, "")
	}
	if p.row == t.headingRow() {
		p.put(p.as("Every head is served.", prose))
	}
	p.close()
}

func (x *stockBook) standInSheet(name string, w *stock.Substitution) {
	part := x.result.Catalogue.Ferrules[w.Ferrule].Part
	said := []string{fmt.Sprintf("%s fits %d heads; nothing else fits %d of them. Minutes are those of bench time, more where above 0.", part, len(w.Heads), len(w.Alone))}
	for i, o := range w.Others {
		if i == 3 {
			break
		}
		said = append(said, fmt.Sprintf("%s takes over %d of %d heads, %+.1f bench hours a year.", x.result.Catalogue.Ferrules[o.Ferrule].Part, len(o.Changes), len(w.Heads), o.Minutes/60))
	}
	unit := ", " + x.reader.name()
	t := table{
		name: name, title: "What stands in for " + part, notes: said,
		columns: []column{
			{"Head", 14, texts}, {"Head is", 28, texts}, {"Ferrule", 14, texts}, {"Ferrule is", 28, texts}, {"Verdict", 8, words}, {"Turn-down on the diameter" + unit, 11, numbers},
			{"more than with " + part + unit, 14, numbers}, {"Minutes more each", 10, numbers}, {"Head from", 34, texts}, {"Ferrule from", 34, texts},
		},
		frozen: 1, printed: 8, tab: fillAsk,
	}
	p := x.open(t)
	for _, c := range w.Best {
		head, ferrule := &x.result.Catalogue.Heads[c.Head], &x.result.Catalogue.Ferrules[c.To.Ferrule]
		ofHead, ofFerrule := sourceOf(&head.Item, odRole(head)), sourceOf(&ferrule.Item, catalog.BaseOD)
		p.put(p.as(head.Part, strong), p.as(describe(&head.Item, head.Category), plain), p.as(ferrule.Part, strong), p.as(ferrule.Description, plain), p.verdict(c.To.Verdict),
			p.length(true, c.To.TurnDown, plain), p.length(true, c.To.TurnDown.Sub(c.From.TurnDown), plain), p.as(c.Minutes, plain.number(formatMinutes)), p.source(ofHead), p.source(ofFerrule))
		p.leadTo(9, ofHead)
		p.leadTo(10, ofFerrule)
	}
	for _, h := range w.Alone {
		head := &x.result.Catalogue.Heads[h]
		ofHead := sourceOf(&head.Item, odRole(head))
		p.put(p.as(head.Part, strong), p.as(describe(&head.Item, head.Category), plain), p.as("none", plain), p.as("nothing else fits", plain), p.as("", plain), p.as("", plain), p.as("", plain), p.as("", plain), p.source(ofHead))
		p.leadTo(9, ofHead)
	}
	p.close()
}

// demandSheet lists the rows of the sheet of yearly numbers, as they were understood.
func (b *book) demandSheet(d *demand.Demand) {
	if d == nil {
		return
	}
	said := []string{planning.Ledger(d) + "."}
	for _, t := range d.Tables {
		said = append(said, strings.TrimPrefix(t.Sheet+": ", ": ")+fmt.Sprintf("part numbers in column %s, numbers in column %s “%s”, taken by %g for a year.", t.PartColumn, t.NumberColumn, t.Heading, t.Times))
	}
	t := table{
		name: sheetDemand, title: "The sheet of yearly numbers", notes: said,
		columns: []column{
			{"Part", 16, texts}, {"It says", 14, texts}, {"A year", 9, numbers}, {"Heads", 7, numbers}, {"Outcome", 10, words}, {"Why, or assumed", 80, sentences}, {"From", 36, texts},
		},
		frozen: 1, tab: faint,
	}
	p := b.open(t)
	for i := range d.Rows {
		r := &d.Rows[i]
		name, number := plain, p.as("", plain)
		if len(r.Heads) > 0 {
			name, number = strong, p.as(r.Number, plain.number(formatPieces))
		}
		if r.Outcome == catalog.Held {
			name = look{under: true, bold: true, fill: fillAsk}
		}
		p.put(p.as(r.Part, name), p.as(r.Text, plain), number, p.as(len(r.Heads), plain.number(formatCount)), p.as(strings.ReplaceAll(r.Outcome.String(), "_", " "), plain.centred()),
			p.as(strings.Join(append(slices.Clone(r.Assumptions), nonEmpty(r.Why)...), "; "), wrapped), p.source(r.Place))
		p.leadTo(7, r.Place)
	}
	p.close()
}

func nonEmpty(text string) []string {
	if text == "" {
		return nil
	}
	return []string{text}
}
