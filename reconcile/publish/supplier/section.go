package supplier

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// Sections returns the tables of a report, those of one subject after another. A subject that the report does not touch has none.
func Sections(r *vet.Report) []report.Section {
	var all []report.Section
	if r.FerruleFits != nil {
		all = append(all, gainSection(r), useSection(r))
	}
	if r.HeadFits != nil {
		all = append(all, stockSection(r), orderSection(r), lotSection(r))
	}
	all = append(all, sizeSection(r), qualitySection(r), equivalentSection(r))
	if len(r.Samples.Samples) > 0 || r.Samples.Ledger.Rows > 0 {
		all = append(all, sampleSection(r))
	}
	all = append(all, questionSection(r), findingSection(r))
	for i := range all {
		all[i].Frozen = 1
	}
	return all
}

func place(item *catalog.Item) finding.Place { return tell.Place(item.Source) }

func gainSection(r *vet.Report) report.Section {
	s := report.Section{
		Name:  vet.SheetGains,
		Notes: []string{"Heads of the house for which a new ferrule is better than the best in stock. Turn-down is nominal and on the diameter; minutes are the mean of many joints."},
		Columns: []report.Column{
			report.Text("Head", 14), report.Sentence("Head is", 26), report.Text("Now", 12), report.Verdict("Answer now", 9), report.Fine("Turn-down now", 10), report.Minutes("Minutes now", 9),
			report.Text("New ferrule", 14), report.Verdict("Answer", 9), report.Fine("Turn-down", 10), report.Minutes("Minutes", 9), report.Minutes("Minutes saved", 9), report.Count("Times a year", 8),
			report.Source("Head from", 34), report.Source("Now from", 34), report.Source("New from", 34),
		},
		Empty: "No head gains.",
	}
	if !r.Ferrules.Weighted {
		s.Columns[11].Heading = "Counted"
	}
	c, own := r.FerruleFits.Catalogue, r.House.Catalogue
	for _, g := range r.Ferrules.Gains {
		head, with := &c.Heads[g.Head], &c.Ferrules[g.With.Ferrule]
		row := []any{head.Part, head.Description, "none", nil, nil, nil}
		saved, from := any(nil), any(nil)
		if g.HasNow {
			now := &own.Ferrules[g.Now.Ferrule]
			row = []any{head.Part, head.Description, now.Part, g.Now.Verdict, report.Of(g.Now.TurnDown), float64(g.Now.Minutes)}
			saved, from = g.Minutes, place(&now.Item)
		}
		s.Rows = append(s.Rows, append(row, with.Part, g.With.Verdict, report.Of(g.With.TurnDown), float64(g.With.Minutes), saved, g.Yearly,
			place(&head.Item), from, place(&with.Item)))
	}
	return s
}

func useSection(r *vet.Report) report.Section {
	s := report.Section{
		Name: vet.SheetFerrules, Notes: []string{"What each new ferrule is good for. Best for counts the heads that gain by it more than by any other of the new ones."},
		Columns: []report.Column{
			report.Text("Ferrule", 14), report.Sentence("Ferrule is", 28), report.Fine("Bore", 9), report.Fine("Base OD", 9), report.Along("Length", 9), report.Count("Fits heads", 8),
			report.Count("Best for", 8), report.Count("Of these new", 8), report.Minutes("Minutes saved", 10), report.Source("From", 36),
		},
	}
	for _, u := range r.Ferrules.Uses {
		f := &r.FerruleFits.Catalogue.Ferrules[u.Ferrule]
		s.Rows = append(s.Rows, []any{f.Part, f.Description, report.Nominal(r.FerruleFits.Bore(u.Ferrule)), report.Nominal(f.Ferrule.BaseOD), report.Nominal(f.Ferrule.Length), u.Fits, u.Best, u.New, u.Minutes, place(&f.Item)})
	}
	return s
}

func stockSection(r *vet.Report) report.Section {
	s := report.Section{
		Name: vet.SheetStock, Notes: []string{"New heads that a ferrule in stock fits, with the one that takes the least work."},
		Columns: []report.Column{
			report.Text("Head", 14), report.Sentence("Head is", 28), report.Fine("Hosel OD", 9), report.Text("Tip", 18), report.Text("Ferrule in stock", 14), report.Verdict("Answer", 9),
			report.Fine("Turn-down", 10), report.Minutes("Minutes", 9), report.Source("Head from", 34), report.Source("Ferrule from", 34),
		},
		Empty: "No new head can be finished from stock.",
	}
	c := r.HeadFits.Catalogue
	for _, served := range r.Heads.Served {
		h, f := &c.Heads[served.Head], &c.Ferrules[served.Pair.Ferrule]
		s.Rows = append(s.Rows, []any{h.Part, h.Description, report.Nominal(h.Head.JointOD()), r.HeadFits.Tips[served.Pair.Tip].Name, f.Part, served.Pair.Verdict,
			report.Of(served.Pair.TurnDown), float64(served.Pair.Minutes), place(&h.Item), place(&f.Item)})
	}
	return s
}

func orderSection(r *vet.Report) report.Section {
	s := report.Section{
		Name:  vet.SheetOrder,
		Notes: []string{"New heads that nothing in stock fits or that cannot be decided, and what a ferrule for them would have to be. Best leaves least to turn and keeps the risk of an undersize base."},
		Columns: []report.Column{
			report.Text("Head", 14), report.Sentence("Head is", 26), report.Verdict("Answer", 9), report.Fine("Hosel OD", 9), report.Text("Tip", 16), report.Fine("Base OD best", 9), report.Fine("Base OD from", 9), report.Fine("Base OD to", 9),
			report.Fine("Bore best", 9), report.Fine("Bore from", 9), report.Fine("Bore to", 9), report.Along("Length from", 9), report.Along("Length to", 9), report.Text("Form", 12),
			report.Text("Nearest in stock", 14), report.Fine("Out by", 9), report.Sentence("Note", 40), report.Source("Head from", 34),
		},
		Empty: "Nothing has to be ordered.",
	}
	c := r.HeadFits.Catalogue
	for _, o := range r.Heads.Orders {
		h := &c.Heads[o.Head]
		row := []any{h.Part, h.Description, fitcalc.No, report.Nominal(h.Head.JointOD()), r.HeadFits.Tips[o.Tip].Name}
		if o.Problem == "" {
			baseFrom, baseTo := report.Ends(o.Spec.BaseOD)
			boreFrom, boreTo := report.Ends(o.Spec.Bore)
			lengthFrom, lengthTo := report.Ends(o.Spec.Length)
			row = append(row, report.Of(o.Spec.BestBaseOD), baseFrom, baseTo, report.Of(o.Spec.BestBore), boreFrom, boreTo, lengthFrom, lengthTo, o.Spec.Style.String())
		} else {
			row = append(row, nil, nil, nil, nil, nil, nil, nil, nil, "")
		}
		near, miss := "", any(nil)
		if o.HasNear {
			near, miss = c.Ferrules[o.Near.Ferrule].Part, report.Miss(o.Near)
		}
		s.Rows = append(s.Rows, append(row, near, miss, o.Problem, place(&h.Item)))
	}
	for _, group := range []struct {
		heads   []int
		verdict fitcalc.Verdict
		note    string
	}{{r.Heads.Undecided, fitcalc.Ask, "see " + vet.SheetQuestions}, {r.Heads.Bare, fitcalc.Bare, "takes no ferrule"}} {
		for _, head := range group.heads {
			h := &c.Heads[head]
			s.Rows = append(s.Rows, []any{h.Part, h.Description, group.verdict, report.Nominal(h.Head.JointOD()), "", nil, nil, nil, nil, nil, nil, nil, nil, "", "", nil, group.note, place(&h.Item)})
		}
	}
	return s
}

// titleLots is the section of the sizes that would serve all.
const titleLots = "Sizes to have made"

func lotSection(r *vet.Report) report.Section {
	s := report.Section{
		Name: titleLots, Notes: []string{"The fewest sizes of ferrule that would serve all the heads above that can be specified."},
		Columns: []report.Column{
			report.Fine("Base OD", 10), report.Fine("Bore", 10), report.Along("Length from", 10), report.Along("Length to", 10), report.Text("Form", 12), report.Count("Heads", 8), report.Sentence("Which", 80),
		},
		Empty: "Nothing has to be made.",
	}
	for _, lot := range r.Heads.Lots {
		var names []string
		for _, at := range lot.Heads {
			names = append(names, r.HeadFits.Catalogue.Heads[r.Heads.Orders[at].Head].Part)
		}
		from, to := report.Ends(lot.Length)
		s.Rows = append(s.Rows, []any{report.Of(lot.BaseOD), report.Of(lot.Bore), from, to, lot.Style.String(), len(lot.Heads), strings.Join(names, ", ")})
	}
	return s
}

// newItem is a new part.
func newItem(r *vet.Report, kind catalog.Kind, item int) *catalog.Item {
	if kind == catalog.Heads {
		return &r.HeadFits.Catalogue.Heads[item].Item
	}
	return &r.FerruleFits.Catalogue.Ferrules[item].Item
}

// ownItem is a part of the house.
func ownItem(r *vet.Report, kind catalog.Kind, item int) *catalog.Item {
	if kind == catalog.Heads {
		return &r.House.Catalogue.Heads[item].Item
	}
	return &r.House.Catalogue.Ferrules[item].Item
}

func sizeSection(r *vet.Report) report.Section {
	s := report.Section{
		Name: vet.SheetSizes, Notes: []string{"Stated sizes against the shop's own, which stand in its settings on the line given."},
		Columns: []report.Column{
			report.Text("Part", 14), report.Text("Kind", 10), report.Text("Size", 14), report.Fine("Stated", 9), report.Fine("from", 9), report.Fine("to", 9), report.Fine("Own, from", 9), report.Fine("Own, to", 9),
			report.Text("Position", 11), report.Fine("Off by", 9), report.Count("Line", 7), report.Source("Cell", 36),
		},
		Empty: "There is nothing to compare.",
	}
	for _, c := range r.Sizes {
		item := newItem(r, c.Kind, c.Item)
		from, to := report.Limits(c.Stated)
		off := report.Size{}
		if !c.Off.IsZero() {
			off = report.Of(c.Off)
		}
		s.Rows = append(s.Rows, []any{item.Part, c.Category, catalog.RoleName(c.Kind, c.Role), report.Of(c.Stated.Nominal()), from, to, report.Of(c.Own.Size.Lower()), report.Of(c.Own.Size.Upper()),
			c.Position.String(), off, c.Own.Line, report.From(item, c.Role)})
	}
	return s
}

func qualitySection(r *vet.Report) report.Section {
	l := r.Sheet.Ledger
	s := report.Section{
		Name: vet.SheetQuality,
		Notes: []string{fmt.Sprintf("%d rows: %d used as they stand, %d with assumptions, %d held, %d set aside (headings, notes, blanks, totals).",
			l.Rows, l.Used, l.Assumed, l.Held, l.SetAside)},
		Columns: []report.Column{report.Text("What", 12), report.Text("Column", 18), report.Count("Given", 9), report.Count("of parts", 9), report.Share("Share", 9), report.Count("With limits", 10)},
	}
	for _, c := range r.Sheet.Complete {
		s.Rows = append(s.Rows, []any{c.Kind.String(), catalog.RoleName(c.Kind, c.Role), c.Given, c.Of, float64(c.Given) / float64(c.Of), c.Limited})
	}
	return s
}

func equivalentSection(r *vet.Report) report.Section {
	s := report.Section{
		Name:  vet.SheetEquivalents,
		Notes: []string{"New parts that can stand for parts of the house: each nominal size lies within the limits of the other. Differences are new less own; prices are by the piece."},
		Columns: []report.Column{
			report.Text("New part", 14), report.Text("Stands for", 14), report.Sentence("Differences", 40), report.Money("New price", 10), report.Money("Own price", 10), report.Text("Currency", 10), report.Money("Saves", 9),
			report.Count("Further parts", 9), report.Source("New from", 34), report.Source("Own from", 34),
		},
		Empty: "No new part stands for one of the house.",
	}
	for _, e := range r.Equivalents {
		a, b := newItem(r, e.Kind, e.New), ownItem(r, e.Kind, e.House)
		var differences []string
		for _, d := range e.Differences {
			differences = append(differences, fmt.Sprintf("%s %s", catalog.RoleName(catalog.Ferrules, d.Role), signed(d.By)))
		}
		if len(differences) == 0 {
			differences = []string{"the same sizes"}
		}
		row := []any{a.Part, b.Part, strings.Join(differences, ", "), price(e.NewPrice), price(e.HousePrice), "", nil, nil, place(a), place(b)}
		switch {
		case e.Comparable:
			row[5], row[6] = e.NewPrice.Currency, e.Saving()
		case e.NewPrice.Known && e.HousePrice.Known:
			row[5] = cmp.Or(e.NewPrice.Currency, "?") + " / " + cmp.Or(e.HousePrice.Currency, "?")
		}
		if e.More > 0 {
			row[7] = e.More
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

func price(p vet.Price) any {
	if !p.Known {
		return nil
	}
	return p.Amount
}

// signed is a difference with its sign, in both units.
func signed(l measure.Length) string {
	sign := "+"
	if l.Sign() < 0 {
		sign = "−"
	}
	return sign + fitcalc.Metric.Show(l.Abs())
}

func sampleSection(r *vet.Report) report.Section {
	l := r.Samples.Ledger
	s := report.Section{
		Name: vet.SheetSamples,
		Notes: []string{fmt.Sprintf("%d rows: %d used, %d held, %d set aside. Readings are taken to come from %s. The interval holds 95 %% of the lot with 95 %% confidence if the lot is normal; "+
			"the share below the lower limit is at most what is given, with the same confidence.", l.Rows, l.Used, l.Held, l.SetAside, r.Samples.Calipers())},
		Columns: []report.Column{
			report.Text("Part", 14), report.Text("Size", 14), report.Fine("Stated", 9), report.Fine("from", 9), report.Fine("to", 9), report.Text("Limits by", 10), report.Count("Readings", 9), report.Fine("Mean", 9),
			report.Fine("SD", 9), report.Fine("Lot from", 9), report.Fine("Lot to", 9), report.Count("Read below", 8), report.Share("Share below, at most", 10), report.Text("Answer", 13), report.Sentence("Why", 60),
			report.Source("Stated in", 34), report.Source("Readings in", 40),
		},
		Empty: "No reading could be used.",
	}
	for i := range r.Samples.Samples {
		x := &r.Samples.Samples[i]
		item, sum := newItem(r, x.Kind, x.Item), x.Comparison.Summary
		by := "sheet"
		if x.ShopTolerance {
			by = "shop"
		}
		from, to, under := report.Size{}, report.Size{}, any(nil)
		if x.KnownInterval {
			from, to = floatSize(x.Interval.Lower), floatSize(x.Interval.Upper)
		}
		if x.KnownUndersize {
			under = x.Undersize
		}
		s.Rows = append(s.Rows, []any{item.Part, catalog.RoleName(x.Kind, x.Role), report.Of(x.Stated.Nominal()), report.Of(x.Stated.Lower()), report.Of(x.Stated.Upper()), by, sum.N, floatSize(sum.Mean), floatSize(sum.SD),
			from, to, x.ReadUnder, under, x.Comparison.Consistency.String(), x.Comparison.Reason, report.From(item, x.Role), readingPlaces(x)})
	}
	return s
}

func floatSize(mm float64) report.Size {
	l, err := measure.FromMillimetres(mm)
	return report.Size{Known: err == nil, Length: l}
}

// readingPlaces are the first and the last cell of the readings.
func readingPlaces(s *vet.Sample) string {
	first, last := s.Readings[0].Place, s.Readings[len(s.Readings)-1].Place
	if first == last {
		return first.Short()
	}
	return first.Short() + " to " + last.Cell
}

func questionSection(r *vet.Report) report.Section {
	s := report.Section{
		Name:  vet.SheetQuestions,
		Notes: []string{fmt.Sprintf("%d of %d pairs wait for what the new sheets do not say. The sheet to send is questions.xlsx.", r.Open, r.Judged)},
		Columns: []report.Column{
			report.Text("Part", 14), report.Sentence("What is asked", 56), report.Sentence("It says now", 16), report.Text("Kind", 13), report.Count("Settles", 8), report.Count("Helps with", 8), report.Count("Rest on it", 8),
			report.Sentence("Why", 56), report.Text("Cell", 36),
		},
		Empty: "There is nothing to ask.",
	}
	for _, q := range r.Questions.Questions {
		s.Rows = append(s.Rows, questionRow(q))
	}
	return s
}

func questionRow(q questions.Question) []any {
	return []any{q.Part, q.Asks, q.Says, q.Kind.String(), q.Settles, q.Helps, q.Carries, q.Why, q.Place}
}

func findingSection(r *vet.Report) report.Section {
	s := report.Section{
		Name:    vet.SheetFindings,
		Notes:   []string{"What is to be known about the new sheets, the samples and the yearly numbers."},
		Columns: []report.Column{report.Text("Severity", 10), report.Text("Code", 18), report.Text("Where", 36), report.Sentence("Message", 90), report.Text("Settled by", 30)},
		Empty:   "Nothing was found.",
	}
	for _, f := range r.Findings {
		s.Rows = append(s.Rows, []any{f.Severity.String(), f.Code, f.Place, f.Message, f.Settle})
	}
	return s
}
