package workbook

import (
	"fmt"
	"io"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/planning"
	"example.com/seatline/reconcile/publish/tell"
)

// Names of the sheets of sizes.
const (
	sheetOrder     = "What to order"
	sheetTakes     = "Which head takes what"
	sheetHours     = "Hours by number of sizes"
	sheetTogether  = "All tips together"
	sheetStandard  = "Common hosel sizes"
	sheetLeftHeads = "Heads left out"
)

// WriteSizes writes a plan of which base ODs to have made as a workbook. The error is the writer's, or that of a plan beyond what a workbook
// can hold.
func WriteSizes(w io.Writer, s *planning.Sizes, opts Options) error {
	return writeBook(w, opts, "Sizes to have made", func(b *book) {
		b.result, b.account = s.Result, tell.Take(s.Result)
		x := &sizesBook{book: b, sizes: s}
		x.write()
	})
}

type sizesBook struct {
	*book
	sizes *planning.Sizes
}

func (x *sizesBook) write() {
	answers := []answer{
		{sheetOrder, "What should the moulder make: base OD, bore and length of each size, with tolerances?"},
		{sheetTakes, "Which heads take each size, and what comes off on each?"},
		{sheetHours, "What does each size more save in bench hours?"},
		{sheetTogether, "How are so many new sizes best shared out over the tips?"},
	}
	if x.sizes.Standards != nil {
		answers = append(answers, answer{sheetStandard, "Which hosels could be brought to a common size, and what would that save?"})
	}
	answers = append(answers, answer{sheetLeftHeads, "Which heads are in no sum, and why?"})
	if x.sizes.Demand != nil {
		answers = append(answers, answer{sheetDemand, "How was each row of the sheet of yearly numbers understood?"})
	}
	x.first(answers)
	x.orderSheet()
	x.takesSheet()
	x.hoursSheet()
	x.togetherSheet()
	x.standardSheet()
	x.leftSheet()
	x.demandSheet(x.sizes.Demand)
}

func (x *sizesBook) first(answers []answer) {
	s := x.sizes
	p := x.page(sheetReadFirst, layout{widths: readFirstWidths, tab: ink})
	p.planTitle("Which sizes to have made")
	p.section("The answer")
	for i := range s.Made.Tips {
		t := &s.Made.Tips[i]
		p.wide(t.Tip+" tips", look{bold: true}, x.said(t))
	}
	if len(s.Made.Tips) == 0 {
		p.put(p.as("There is no head to have sizes made for.", look{}))
	}
	p.whichAnswers(answers)
	p.section("How it is worked out")
	p.wide("", look{}, "Each head takes the smallest base OD that keeps the risk of an undersize base and stays within the turn limit. Chosen are the sizes that ask least turning in a year, exactly, with every head served.")
	p.wide("", look{}, "A ferrule's bore suits one tip, so that each tip has sizes of its own. The specified ferrule was then evaluated on every head that takes it; where it does not suit, “"+sheetTakes+"” says why.")
	p.rests(s.Assumed())
	p.whatWasRead()
	p.cautions()
	p.settings()
	p.done()
}

// said is the answer for a tip in a sentence.
func (x *sizesBook) said(t *stock.TipSizes) string {
	if !t.Chosen.Feasible {
		return fmt.Sprintf("No number of sizes serves the %d heads.", len(t.Heads))
	}
	text := fmt.Sprintf("%d new sizes for %d heads, %s a year: %s. Turning takes %s a year.", len(t.Chosen.New), len(t.Heads), planning.Pieces(t.Yearly),
		planning.ShowSizes(t.Chosen.New, x.opts.Units), planning.Hours(t.Chosen.Cost))
	if !t.Enough {
		text = fmt.Sprintf("%d new sizes do not serve all heads. ", x.sizes.Wanted.Count) + text
	}
	if t.Now > 0 {
		text += fmt.Sprintf(" The ferrules of the catalogue need %s for the same heads, these %s.", planning.Hours(t.Now), planning.Hours(t.Then))
	}
	return text
}

func (x *sizesBook) orderSheet() {
	unit := ", " + x.reader.name()
	t := table{
		name: sheetOrder, title: "What to order from a moulder",
		notes: []string{
			"Base OD and bore are on the diameter, as moulded, before turning; tolerances are the ± that the fit allows for. Sizes that exist already are listed too.",
			"The ranges of bore and length suit all the heads that take the size. Heads with a counterbore want the same ferrule with a step that fills it.",
		},
		columns: []column{
			{"Tip", 16, texts}, {"Base OD" + unit, 9, numbers}, {"±" + unit, 7, numbers}, {"Bore" + unit, 9, numbers}, {"±" + unit, 7, numbers}, {"bore from" + unit, 9, numbers},
			{"to below" + unit, 9, numbers}, {"Length" + unit, 9, numbers}, {"length from" + unit, 9, numbers}, {"to" + unit, 9, numbers}, {"Is", 8, words}, {"Heads", 7, numbers},
			{"Pieces a year", 9, numbers}, {"Turning hours a year", 9, numbers}, {"To note", 60, sentences},
		},
		frozen: 2, tab: fillFlush,
	}
	p := x.open(t)
	for i := range x.sizes.Made.Tips {
		tip := &x.sizes.Made.Tips[i]
		for k := range tip.Sizes {
			m := &tip.Sizes[k]
			is := "new"
			if !m.New {
				is = "exists"
			}
			p.put(p.as(tip.Tip, plain), p.fine(m.OD, strong), p.fine(m.BaseODTolerance, plain), p.fine(m.BestBore, strong), p.fine(m.BoreTolerance, plain),
				p.end(m.Bore, measure.Interval.Lower), p.end(m.Bore, measure.Interval.Upper), p.along(true, m.ForLength, strong), p.end(m.Length, measure.Interval.Lower), p.end(m.Length, measure.Interval.Upper),
				p.as(is, plain.centred()), p.as(len(m.Taken), plain.number(formatCount)), p.as(m.Yearly, plain.number(formatPieces)), p.as(m.Minutes/60, plain.number(formatLongHours)), p.as(x.toNote(m), wrapped))
		}
	}
	if p.row == t.headingRow() {
		p.put(p.as("There is nothing to order.", prose))
	}
	p.close()
}

// fine is a cell with a size that a moulder needs to a hundredth of what the reader's units usually show.
func (p *page) fine(l measure.Length, look look) any {
	return p.as(p.reader.value(l), look.number(p.reader.format()+"0"))
}

func (p *page) end(i measure.Interval, of func(measure.Interval) measure.Bound) any {
	if i.Empty() || !of(i).Bounded() {
		return p.as("none", plain)
	}
	return p.fine(of(i).At(), plain)
}

// toNote is what a size's order should not overlook.
func (x *sizesBook) toNote(m *stock.MadeSize) string {
	var notes []string
	if m.Bore.Empty() {
		notes = append(notes, "no one bore suits all the heads; the bore is that of most joints")
	}
	if m.Length.Empty() {
		notes = append(notes, "no one length suits all the heads")
	} else if !m.Length.Contains(m.ForLength) {
		notes = append(notes, "the length is outside of what suits all the heads")
	}
	if n := len(m.Stepped); n > 0 {
		notes = append(notes, fmt.Sprintf("%d heads have a counterbore (%s): with a step", n, firstHeads(x.book, m.Stepped)))
	}
	var against []int
	for _, t := range m.Taken {
		if len(t.Against) > 0 {
			against = append(against, t.Head)
		}
	}
	if len(against) > 0 {
		notes = append(notes, fmt.Sprintf("does not suit %d heads as it stands: %s", len(against), firstHeads(x.book, against)))
	}
	return strings.Join(notes, "; ")
}

func firstHeads(b *book, heads []int) string {
	var names []string
	for i, h := range heads {
		if i == 5 {
			names = append(names, fmt.Sprintf("and %d more", len(heads)-i))
			break
		}
		names = append(names, b.result.Catalogue.Heads[h].Part)
	}
	return strings.Join(names, ", ")
}

func (x *sizesBook) takesSheet() {
	unit := ", " + x.reader.name()
	t := table{
		name: sheetTakes, title: "Which head takes which size",
		notes: []string{"Oversize and turn-down are on the diameter with the sizes as they are to be ordered; most is worst case, limit against limit. Per side is half of the turn-down."},
		columns: []column{
			{"Head", 14, texts}, {"Head is", 28, texts}, {"Tip", 16, texts}, {"Hosel OD" + unit, 9, numbers}, {"Base OD" + unit, 9, numbers}, {"Oversize" + unit, 9, numbers},
			{"Turn-down" + unit, 9, numbers}, {"at most" + unit, 9, numbers}, {"per side" + unit, 9, numbers}, {"Verdict", 8, words}, {"Made a year", 8, numbers}, {"Turning minutes each", 9, numbers},
			{"Turning hours a year", 9, numbers}, {"Against it", 50, sentences}, {"Head from", 34, texts}, {"Number from", 34, texts},
		},
		frozen: 1, printed: 14, tab: fillTurn,
	}
	p := x.open(t)
	for i := range x.sizes.Made.Tips {
		tip := &x.sizes.Made.Tips[i]
		for k := range tip.Sizes {
			for n := range tip.Sizes[k].Taken {
				x.takes(p, tip, &tip.Sizes[k], &tip.Sizes[k].Taken[n])
			}
		}
	}
	if p.row == t.headingRow() {
		p.put(p.as("No head takes a size.", prose))
	}
	p.close()
}

func (x *sizesBook) takes(p *page, tip *stock.TipSizes, m *stock.MadeSize, t *stock.Taken) {
	h := &x.result.Catalogue.Heads[t.Head]
	from := sourceOf(&h.Item, odRole(h))
	numbered, _ := planning.Numbered(x.sizes.Demand, t.Head)
	verdict, turn := p.verdict(fitcalc.Turn), t.TurnDown
	if t.Flush {
		verdict, turn = p.verdict(fitcalc.Flush), fitcalc.Amount{}
	}
	var against []string
	for _, reason := range t.Against {
		against = append(against, reason.Sentence(p.opts.Units))
	}
	p.put(p.as(h.Part, strong), p.as(describe(&h.Item, h.Category), plain), p.as(tip.Tip, plain), p.size(h.Head.JointOD(), plain), p.length(true, m.OD, strong),
		p.length(true, t.Oversize.Nominal, plain), p.length(true, turn.Nominal, strong), p.length(true, turn.Most, plain), p.perSide(true, turn), verdict,
		p.as(t.Yearly, plain.number(formatPieces)), p.as(t.Minutes, plain.number(formatMinutes)), p.as(t.Yearly*t.Minutes/60, plain.number(formatLongHours)),
		p.as(strings.Join(against, "; "), wrapped), p.source(from), p.as(placesOf(numbered), plain))
	p.leadTo(15, from)
}

func (x *sizesBook) hoursSheet() {
	t := table{
		name: sheetHours, title: "Bench hours of turning in a year, by the number of new sizes",
		notes: []string{"For each tip the best choice of so many new sizes. Saves is how much less that is than with one size fewer. Empty where so few do not serve all heads of the tip."},
		columns: []column{
			{"New sizes", 10, numbers},
		},
		frozen: 1, printed: 1 + 2*len(x.sizes.Made.Tips), tab: fillPrep,
	}
	tips := x.sizes.Made.Tips
	most := 0
	for i := range tips {
		t.columns = append(t.columns, column{tips[i].Tip, 16, numbers})
		most = max(most, len(tips[i].Curve.Points)-1)
	}
	for i := range tips {
		t.columns = append(t.columns, column{"saves, " + tips[i].Tip, 16, numbers})
	}
	for i := range tips {
		t.columns = append(t.columns, column{"sizes, " + tips[i].Tip + ", " + x.reader.name(), 40, sentences})
	}
	p := x.open(t)
	first := p.row + 1
	starts := make([]int, len(tips))
	for n := range most + 1 {
		cells := []any{p.as(n, strong.number(formatCount))}
		saves, lists := []any{}, []any{}
		for i := range tips {
			hours, saved, list := p.as("", plain), p.as("", plain), p.as("", plain)
			if points := tips[i].Curve.Points; n < len(points) && points[n].Feasible {
				chosen := plain
				if n == tips[i].Chosen.Count {
					chosen = look{under: true, bold: true, fill: fillTurn}
				}
				if starts[i] == 0 {
					starts[i] = p.row + 1
				}
				hours, list = p.as(points[n].Cost/60, chosen.number(formatLongHours)), p.as(x.list(points[n].New), wrapped)
				if n > 0 && points[n-1].Feasible {
					saved = p.as(points[n].Saves/60, plain.number(formatLongHours))
				}
			}
			cells, saves, lists = append(cells, hours), append(saves, saved), append(lists, list)
		}
		p.put(append(append(cells, saves...), lists...)...)
	}
	chart := lineChart{title: t.title, across: "new base ODs for the tip", up: "bench hours a year", categories: 1, first: first, last: p.row}
	for i := range tips {
		if starts[i] > 0 {
			// All series share the rows, so that a count is at the same place for each; an empty cell draws nothing.
			chart.series = append(chart.series, lineSeries{place{sheetHours, i + 2, t.headingRow()}, i + 2, first, p.row})
		}
	}
	if len(chart.series) > 0 {
		p.chartOf(chart)
	}
	p.done()
}

func (x *sizesBook) list(sizes []measure.Length) string {
	text := planning.ShowSizes(sizes, x.opts.Units)
	return strings.TrimSuffix(strings.TrimSuffix(text, " mm"), " in")
}

func (x *sizesBook) togetherSheet() {
	t := table{
		name: sheetTogether, title: "The best use of so many new sizes over all tips",
		notes:   []string{"Every head of every tip is served, and turning takes least in a year. Saves is how much less that is than with one size fewer."},
		columns: []column{{"New sizes", 10, numbers}, {"Turning hours a year", 12, numbers}, {"saves, hours", 12, numbers}},
		frozen:  1, tab: band,
	}
	for i := range x.sizes.Made.Tips {
		t.columns = append(t.columns, column{x.sizes.Made.Tips[i].Tip, 16, numbers})
	}
	t.columns = append(t.columns, column{"", 44, sentences})
	p := x.open(t)
	before := false
	for _, one := range x.sizes.Made.Together {
		cells := []any{p.as(one.Count, strong.number(formatCount))}
		if !one.Feasible {
			for range len(x.sizes.Made.Tips) + 2 {
				cells = append(cells, p.as("", plain))
			}
			p.put(append(cells, p.as("so few do not serve every head", wrapped))...)
			continue
		}
		saves := p.as("", plain)
		if before {
			saves = p.as(one.Saves/60, plain.number(formatLongHours))
		}
		before = true
		cells = append(cells, p.as(one.Minutes/60, strong.number(formatLongHours)), saves)
		for _, n := range one.ByTip {
			cells = append(cells, p.as(n, plain.number(formatCount)))
		}
		p.put(cells...)
	}
	p.close()
}

func (x *sizesBook) standardSheet() {
	s := x.sizes
	if s.Standards == nil {
		return
	}
	unit := ", " + x.reader.name()
	notes := []string{
		fmt.Sprintf("A hosel can only lose size: at most %s on the diameter here. Work is at the hosels; turning is with the best ferrules of the catalogue,", x.opts.Units.Show(s.Common.MostRemoved)),
		"and would not be needed with a ferrule that ends flush at each common size.",
		"Whether a hosel's wall and its maker allow it is not looked at: a hosel worked on is weaker, and that is for a qualified builder to judge.",
	}
	for i := range s.Standards {
		notes = append(notes, s.Standard(i, x.opts.Units)+".")
	}
	chosen := s.BestStandard()
	t := table{
		name: sheetStandard, title: "Hosels that could be brought to a common size", notes: notes,
		columns: []column{{"Head", 14, texts}, {"Head is", 34, texts}, {"Hosel OD now" + unit, 10, numbers}, {"then" + unit, 10, numbers}, {"comes off" + unit, 10, numbers}, {"Minutes a year", 10, numbers}, {"Head from", 34, texts}},
		frozen:  1, tab: fillAsk,
	}
	p := x.open(t)
	if chosen == nil {
		p.put(p.as("None of these numbers of sizes is within reach of every hosel.", prose))
		p.close()
		return
	}
	for _, b := range chosen.Heads {
		h := &x.result.Catalogue.Heads[b.Head]
		from := sourceOf(&h.Item, odRole(h))
		p.put(p.as(h.Part, strong), p.as(describe(&h.Item, h.Category), plain), p.length(true, b.From, plain), p.length(true, b.To, strong), p.length(true, b.From.Sub(b.To), plain),
			p.as(b.Minutes, plain.number(formatMinutes)), p.source(from))
		p.leadTo(7, from)
	}
	p.close()
}

func (x *sizesBook) leftSheet() {
	t := table{
		name: sheetLeftHeads, title: "Heads that are in no sum",
		notes:   []string{"No size is chosen for these, and none has to serve them."},
		columns: []column{{"Head", 14, texts}, {"Head is", 34, texts}, {"Why", 70, sentences}, {"Head from", 34, texts}},
		frozen:  1, tab: fillBare,
	}
	p := x.open(t)
	for _, l := range x.sizes.Made.Left {
		h := &x.result.Catalogue.Heads[l.Head]
		from := sourceOf(&h.Item, odRole(h))
		p.put(p.as(h.Part, strong), p.as(describe(&h.Item, h.Category), plain), p.as(l.Why, wrapped), p.source(from))
		p.leadTo(4, from)
	}
	if len(x.sizes.Made.Left) == 0 {
		p.put(p.as("Every head is in the plan.", prose))
	}
	p.close()
}
