package plans

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// Names of the sections of a plan.
const (
	sectionCarry    = "What to carry"
	sectionServes   = "Who serves whom"
	sectionToday    = "Against today"
	sectionCurve    = "Curve"
	sectionSecond   = "Second best"
	sectionUnserved = "Heads not served"
	sectionDemand   = "Yearly numbers"
)

var stockQuestions = map[string]string{
	sectionCarry:    "Which part numbers should be carried, how many of each are needed in a year, and what is each worth?",
	sectionServes:   "Which ferrule does each head get, what comes off, and how long does it take?",
	sectionToday:    "What does the plan change, and save, against what is in stock now?",
	sectionCurve:    "What does a year cost with fewer part numbers, or more?",
	sectionSecond:   "How much dearer is the next best set, and what is different in it?",
	sectionUnserved: "Which heads get no ferrule, and why?",
	sectionDemand:   "How was each row of the sheet of yearly numbers understood?",
}

// Report is the plan as a report, with what it rests on.
func (s *Stock) Report(units fitcalc.Units, shop string) *report.Report {
	sections := []report.Section{s.carrySection(), s.servesSection()}
	if s.Plan.Today != nil {
		sections = append(sections, s.todaySection())
	}
	if len(s.Plan.Curve) > 0 {
		sections = append(sections, s.curveSection())
	}
	if s.Plan.Second != nil {
		sections = append(sections, s.secondSection())
	}
	sections = append(sections, s.unservedSection(units))
	said := maps.Clone(stockQuestions)
	for _, w := range s.Without {
		one := s.standInSection(w)
		said[one.Name] = "What stands in for this ferrule, and how does the work change?"
		sections = append(sections, one)
	}
	if s.Demand != nil {
		sections = append(sections, demandSection(s.Demand))
	}
	return &report.Report{Subject: "What to stock", Summary: s.summary(units, shop, report.Answers(sections, said)), Sections: sections}
}

// bold is a line of a summary: a name in bold, and a text that is wrapped.
func bold(name, text string) []any { return []any{report.Strong{Cell: name}, report.Wide{Text: text}} }

func (s *Stock) summary(units fitcalc.Units, shop string, which report.Block) report.Summary {
	sum, p := report.NewSummary("What to stock, and why", shop, units), s.Plan
	heads := fmt.Sprintf("%d heads get no ferrule.", len(p.Unserved))
	if n := len(p.LeftOut); n > 0 {
		heads += fmt.Sprintf(" %d heads are left out: none is made, or there is no number for them.", n)
	}
	if n := len(p.OneSource); n > 0 {
		heads += fmt.Sprintf(" %d heads want a second source and have none.", n)
	}
	proof := s.Proof()
	asked := report.Block{Title: "Asked for"}
	for _, a := range s.asked(units) {
		asked.Lines = append(asked.Lines, []any{a[0], report.Wide{Text: a[1]}})
	}
	sum.Blocks = []report.Block{
		{Title: "The answer", Lines: [][]any{
			bold("carry", fmt.Sprintf("%d part numbers serve %d heads at %s a year: bench %s, pieces %s, carrying %s.", len(p.Carry), len(p.Served),
				Money(p.Cost.Total(), p.Currency), Money(p.Cost.Work, ""), Money(p.Cost.Pieces, ""), Money(p.Cost.Carrying, ""))),
			bold("how good it is", strings.ToUpper(proof[:1])+proof[1:]+"."), bold("heads", heads),
		}},
		which,
		{Title: "What a year costs", Lines: [][]any{
			bold("carrying", "for each part number: its bin, its line in the lists and its reordering, and the money in half a lot of stock"),
			bold("bench", "for each joint: the mean bench time, by what a minute costs"),
			bold("pieces", "for each joint: the price of a piece"),
		}},
		asked, report.Texts("What it rests on", s.Assumed(), "Nothing was taken for granted."), report.WasRead(s.Result, s.Inputs, ""),
		report.Cautions(nil), report.Settings(s.Result.Shop, units),
	}
	return sum
}

// asked is what was asked for, as pairs of name and value.
func (s *Stock) asked(units fitcalc.Units) [][2]string {
	set := &s.Settings
	lines := [][2]string{
		{"a bench minute", Money(set.BenchPerMinute, s.Plan.Currency)},
		{"carrying a part number", Money(set.CarryPerYear, s.Plan.Currency) + " a year"},
		{"money in stock", fmt.Sprintf("%.1f%% a year", 100*set.Holding)},
	}
	for _, currency := range slices.Sorted(maps.Keys(set.Rates)) {
		lines = append(lines, [2]string{"1 " + currency, fmt.Sprintf("%g %s", set.Rates[currency], s.Plan.Currency)})
	}
	add := func(given bool, name, value string) {
		if given {
			lines = append(lines, [2]string{name, value})
		}
	}
	add(len(set.Must) > 0, "carried in any case", s.ferrules(set.Must))
	add(len(set.MustNot) > 0, "never carried", s.ferrules(set.MustNot))
	add(set.AtMost > 0, "part numbers", fmt.Sprintf("at most %d", set.AtMost))
	add(set.MostTurnDown.Sign() > 0, "turn-down", "nominally at most "+units.Show(set.MostTurnDown)+" on the diameter")
	add(set.Measured, "measuring", "pairs that suit only some pieces of a head may serve; the bench measures and chooses")
	add(set.NoPrep, "preparing", "no pairs that need work on hosel, tip or bore")
	add(len(s.TwoSuppliers) > 0, "two suppliers", "for heads that are "+strings.Join(s.TwoSuppliers, ", "))
	add(set.IgnorePrices, "prices", "left out")
	return lines
}

// ferrules are the numbers of some ferrules.
func (s *Stock) ferrules(list []int) string { return report.Parts(s.Result, report.FerrulePart, list) }

// inCurrency is a heading with the currency, where one is known.
func (s *Stock) inCurrency(text string) string {
	if s.Plan.Currency == "" {
		return text
	}
	return text + ", " + s.Plan.Currency
}

func (s *Stock) carrySection() report.Section {
	t := report.Section{
		Name: sectionCarry, Title: "What to carry, and why",
		Notes: []string{
			"“Saves” is how much dearer the best plan without this part number is, with at most one other in its place; “needed” where a head would go without.",
			"Lots are what has to be bought at once: the pack. What a year leaves over is used the year after.",
		},
		Columns: []report.Column{
			report.Text("Ferrule", 14).Bold(), report.Text("Ferrule is", 26), report.Text("Supplier", 20), report.Count("Heads", 7), report.Pieces("Pieces a year", 9), report.Count("Lot", 6),
			report.Count("Lots a year", 7), report.Pieces("Left over", 7), report.Price(s.inCurrency("Price of a piece"), 10), report.Hours("Bench hours a year", 9),
			report.Money(s.inCurrency("Cost a year"), 12).Bold(), report.Money("bench", 11), report.Money("pieces", 11), report.Money("carrying", 10),
			report.Money(s.inCurrency("Saves a year"), 12), report.Text("In its place", 14), report.Text("Used on", 60), report.Source("Ferrule from", 34),
		},
		Frozen: 1, Printed: 16, Tone: report.Good, Empty: "Nothing is to be carried.",
	}
	pieces, minutes := 0.0, 0.0
	for i := range s.Plan.Carry {
		c := &s.Plan.Carry[i]
		f := &s.Result.Catalogue.Ferrules[c.Ferrule]
		saves, instead := any(c.Saves), ""
		if c.Irreplaceable {
			saves, instead = "needed", "nothing"
		}
		if c.Instead >= 0 {
			instead = report.FerrulePart(s.Result, c.Instead)
		}
		t.Rows = append(t.Rows, []any{
			f.Part, f.Description, s.Result.Catalogue.SupplierCalled(f.Supplier), len(c.Heads), c.Pieces, c.Lot, c.Packs, c.LeftOver, c.PricePerPiece, c.Minutes / 60, c.Cost.Total(), c.Cost.Work, c.Cost.Pieces,
			c.Cost.Carrying, saves, instead, report.Parts(s.Result, report.HeadPart, c.Heads), report.FromFerrule(f),
		})
		pieces, minutes = pieces+c.Pieces, minutes+c.Minutes
	}
	if cost := s.Plan.Cost; len(t.Rows) > 0 {
		t.Total = []any{"All", nil, nil, len(s.Plan.Served), pieces, nil, nil, nil, nil, minutes / 60, cost.Total(), cost.Work, cost.Pieces, cost.Carrying}
	}
	return t
}

func (s *Stock) servesSection() report.Section {
	t := report.Section{
		Name: sectionServes, Title: "Which ferrule each head gets",
		Notes: []string{"Of the ferrules carried, the one that costs least on this head. Turn-down is the nominal one, on the diameter; per side is half of it."},
		Columns: []report.Column{
			report.Text("Head", 14).Bold(), report.Text("Head is", 28), report.Text("Tip", 16), report.Text("Ferrule", 14).Bold(), report.Verdict("Verdict", 8),
			report.Diameter("Turn-down on the diameter", 11).Bold(), report.Fine("per side", 9), report.Pieces("Made a year", 8), report.Minutes("Bench minutes each", 9),
			report.Hours("Bench hours a year", 9), report.Source("Head from", 34), report.Source("Ferrule from", 34), report.Source("Number from", 34),
			report.Sentence("Assumed of the number", 44),
		},
		Frozen: 1, Tone: report.Work, Empty: "No head is served.",
	}
	r := s.Result
	for i := range s.Plan.Served {
		served := &s.Plan.Served[i]
		pair := served.Pair
		head, ferrule := &r.Catalogue.Heads[pair.Head], &r.Catalogue.Ferrules[pair.Ferrule]
		numbered, assumed := Numbered(s.Demand, int(pair.Head))
		t.Rows = append(t.Rows, []any{
			head.Part, report.HeadIs(head), r.Tips[pair.Tip].Name, ferrule.Part, pair.Verdict, report.Of(pair.TurnDown), report.Of(fitcalc.Amount{Nominal: pair.TurnDown}.PerSide().Nominal),
			served.Yearly, float64(pair.Minutes), served.Yearly * float64(pair.Minutes) / 60, report.FromHead(head), report.FromFerrule(ferrule), placesOf(numbered), strings.Join(assumed, "; "),
		})
	}
	return t
}

func placesOf(places []finding.Place) string {
	texts := make([]string, len(places))
	for i, at := range places {
		at.Row = 0
		texts[i] = at.Short()
	}
	return strings.Join(texts, "; ")
}

func (s *Stock) todaySection() report.Section {
	plan, today := s.Plan, s.Plan.Today
	t := report.Section{
		Name: sectionToday, Title: "The plan against what is in stock now",
		Notes: []string{
			s.AgainstToday() + ".",
			fmt.Sprintf("Bench %s against %s, pieces %s against %s, carrying %s against %s. The best use is made of both.", Money(today.Cost.Work, ""), Money(today.Same.Work, ""),
				Money(today.Cost.Pieces, ""), Money(today.Same.Pieces, ""), Money(today.Cost.Carrying, ""), Money(today.Same.Carrying, "")),
		},
		Columns: []report.Column{
			report.Text("Part", 16).Bold(), report.Text("Part is", 34), report.Pieces("In stock", 9), report.Word("In the plan", 9), report.Sentence("What changes", 44), report.Source("From", 34),
		},
		Frozen: 1,
	}
	carried := map[int]bool{}
	for _, c := range plan.Carry {
		carried[c.Ferrule] = true
	}
	add := func(f int, what string) {
		item, pieces := &s.Result.Catalogue.Ferrules[f].Item, any(nil)
		if slices.Contains(today.Ferrules, f) {
			pieces = item.Fields.Get(catalog.Stock).Number
		}
		t.Rows = append(t.Rows, []any{item.Part, item.Description, pieces, report.YesNo(carried[f]), what, report.From(item, catalog.Stock)})
	}
	for _, c := range plan.Carry {
		if !slices.Contains(today.Ferrules, c.Ferrule) {
			add(c.Ferrule, "to be carried from now on")
		}
	}
	for _, f := range today.Ferrules {
		if carried[f] {
			add(f, "stays")
		} else {
			add(f, "to be used up and not ordered again")
		}
	}
	for _, h := range today.Unserved {
		item := &s.Result.Catalogue.Heads[h].Item
		t.Rows = append(t.Rows, []any{item.Part, item.Description, nil, nil, "a head that today's stock does not serve and the plan does; it is in neither sum", tell.Place(item.Source)})
	}
	return t
}

func (s *Stock) curveSection() report.Section {
	t := report.Section{
		Name: sectionCurve, Title: "What a year costs, by the most part numbers",
		Notes: []string{"For each number the best choice of no more part numbers than that. Where a choice is not proven, none costs less than the bound."},
		Columns: []report.Column{
			report.Count("At most", 10).Bold(), report.Money(s.inCurrency("Cost a year"), 14).Bold(), report.Money("more than the plan", 14), report.Word("Proven", 9),
			report.Money("no less than", 14), report.Sentence("Part numbers", 90),
		},
		Frozen: 1, Tone: report.Prepared,
		Graph: &report.Graph{Title: "What a year costs, by the most part numbers", Across: "part numbers, at most", Up: s.inCurrency("cost a year"), Series: []int{1}},
	}
	for _, point := range s.Plan.Curve {
		if point.Found {
			t.Rows = append(t.Rows, []any{point.AtMost, point.Cost, point.Cost - s.Plan.Cost.Total(), report.YesNo(point.Proven), point.LowerBound, s.ferrules(point.Ferrules)})
			continue
		}
		why := "none was found in the time"
		if point.Impossible {
			why = "so few do not keep what was asked for, or leave a head unserved"
		}
		t.Rows = append(t.Rows, []any{point.AtMost, nil, nil, nil, nil, why})
		t.Graph.First = len(t.Rows)
	}
	return t
}

func (s *Stock) secondSection() report.Section {
	plan, second := s.Plan, s.Plan.Second
	said := fmt.Sprintf("The best plan with another set costs %s a year, %s more than the plan.", Money(second.Cost, plan.Currency), Money(second.Cost-plan.Cost.Total(), plan.Currency))
	if !second.Proven {
		said += fmt.Sprintf(" That is not proven: another set may cost less, but no less than %s.", Money(second.LowerBound, plan.Currency))
	}
	t := report.Section{
		Name: sectionSecond, Title: "The second best set", Notes: []string{said},
		Columns: []report.Column{
			report.Text("Ferrule", 16), report.Text("Ferrule is", 40), report.Text("Supplier", 26), report.Word("In the plan", 10), report.Word("In the second best", 10), report.Source("From", 34),
		},
		Frozen: 1,
	}
	first := make([]int, len(plan.Carry))
	for i, c := range plan.Carry {
		first[i] = c.Ferrule
	}
	for f := range s.Result.Catalogue.Ferrules {
		here, there := slices.Contains(first, f), slices.Contains(second.Ferrules, f)
		if !here && !there {
			continue
		}
		ferrule := &s.Result.Catalogue.Ferrules[f]
		row := []any{ferrule.Part, ferrule.Description, s.Result.Catalogue.SupplierCalled(ferrule.Supplier), report.YesNo(here), report.YesNo(there)}
		for i := range row {
			if here != there {
				row[i] = report.Strong{Cell: row[i]}
			}
		}
		t.Rows = append(t.Rows, append(row, report.FromFerrule(ferrule)))
	}
	return t
}

func (s *Stock) unservedSection(units fitcalc.Units) report.Section {
	t := report.Section{
		Name: sectionUnserved, Title: "Heads that get no ferrule",
		Notes:   []string{"Nearest is the ferrule that comes nearest to fitting. Heads of which none is made are listed at the end."},
		Columns: []report.Column{report.Text("Head", 14).Bold(), report.Text("Head is", 30), report.Sentence("Why", 84), report.Text("Nearest", 14), report.Source("Head from", 34)},
		Frozen:  1, Tone: report.Without, Empty: "Every head is served.",
	}
	var all []saidOfHead
	add := func(head int, why, nearest string) {
		all = append(all, saidOfHead{&s.Result.Catalogue.Heads[head], why, nearest})
	}
	for i := range s.Plan.Unserved {
		u := &s.Plan.Unserved[i]
		nearest := ""
		if u.HasNearest {
			nearest = report.FerrulePart(s.Result, int(u.Nearest.Ferrule))
		}
		add(u.Head, Unserved(s.Result, u, nil, units), nearest)
	}
	for _, h := range s.Plan.OneSource {
		add(h, "is served, but by ferrules of one supplier only: no other supplier's ferrule fits it", "")
	}
	for _, h := range s.Plan.LeftOut {
		why := "none is made in a year"
		if d := s.Demand; d != nil && !d.Stated[h] {
			why = "left out: “" + sectionDemand + "” has no number for it that could be used"
		}
		add(h, why, "")
	}
	for set := range setsOf(all) {
		first := set[0]
		t.Rows = append(t.Rows, []any{namesOfSet(set), report.HeadIs(first.head), first.why, first.nearest, report.FromHead(first.head)})
	}
	return t
}

func (s *Stock) standInSection(w *stock.Substitution) report.Section {
	r, part := s.Result, report.FerrulePart(s.Result, w.Ferrule)
	said := []string{fmt.Sprintf("%s fits %d heads; nothing else fits %d of them. Minutes are those of bench time, more where above 0.", part, len(w.Heads), len(w.Alone))}
	for _, o := range w.Others[:min(3, len(w.Others))] {
		said = append(said, fmt.Sprintf("%s takes over %d of %d heads, %+.1f bench hours a year.", report.FerrulePart(r, o.Ferrule), len(o.Changes), len(w.Heads), o.Minutes/60))
	}
	t := report.Section{
		Name: "Without " + part, Title: "What stands in for " + part, Notes: said,
		Columns: []report.Column{
			report.Text("Head", 14).Bold(), report.Text("Head is", 28), report.Text("Ferrule", 14).Bold(), report.Text("Ferrule is", 28), report.Verdict("Verdict", 8),
			report.Diameter("Turn-down on the diameter", 11), report.Diameter("more than with "+part, 14), report.Minutes("Minutes more each", 10), report.Source("Head from", 34),
			report.Source("Ferrule from", 34),
		},
		Frozen: 1, Tone: report.Asked,
	}
	for _, c := range w.Best {
		head, ferrule := &r.Catalogue.Heads[c.Head], &r.Catalogue.Ferrules[c.To.Ferrule]
		t.Rows = append(t.Rows, []any{
			head.Part, report.HeadIs(head), ferrule.Part, ferrule.Description, c.To.Verdict, report.Of(c.To.TurnDown), report.Of(c.To.TurnDown.Sub(c.From.TurnDown)), c.Minutes,
			report.FromHead(head), report.FromFerrule(ferrule),
		})
	}
	for _, h := range w.Alone {
		head := &r.Catalogue.Heads[h]
		t.Rows = append(t.Rows, []any{head.Part, report.HeadIs(head), "none", "nothing else fits", nil, nil, nil, nil, report.FromHead(head), nil})
	}
	return t
}

// demandSection lists the rows of the sheet of yearly numbers, as they were understood.
func demandSection(d *demand.Demand) report.Section {
	said := []string{Ledger(d) + "."}
	for _, t := range d.Tables {
		said = append(said, strings.TrimPrefix(t.Sheet+": ", ": ")+fmt.Sprintf("part numbers in column %s, numbers in column %s “%s”, taken by %g for a year.", t.PartColumn, t.NumberColumn, t.Heading, t.Times))
	}
	t := report.Section{
		Name: sectionDemand, Title: "The sheet of yearly numbers", Notes: said,
		Columns: []report.Column{
			report.Text("Part", 16), report.Text("It says", 14), report.Pieces("A year", 9), report.Count("Heads", 7), report.Word("Outcome", 10), report.Sentence("Why, or assumed", 80),
			report.Source("From", 36),
		},
		Frozen: 1, Tone: report.Aside,
	}
	for i := range d.Rows {
		r := &d.Rows[i]
		name, number := any(r.Part), any(nil)
		if len(r.Heads) > 0 {
			name, number = report.Strong{Cell: r.Part}, r.Number
		}
		if r.Outcome == catalog.Held {
			name = report.Marked{Cell: r.Part, Tone: report.Asked}
		}
		why := slices.Clone(r.Assumptions)
		if r.Why != "" {
			why = append(why, r.Why)
		}
		t.Rows = append(t.Rows, []any{name, r.Text, number, len(r.Heads), strings.ReplaceAll(r.Outcome.String(), "_", " "), strings.Join(why, "; "), r.Place})
	}
	return t
}

// sizesText lists sizes in the reader's units, without their name.
func sizesText(list []measure.Length, units fitcalc.Units) string {
	return strings.TrimSuffix(ShowSizes(list, units), " "+report.UnitName(units))
}
