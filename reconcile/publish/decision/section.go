package decision

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/tell"
)

// Kind is what the cells of a column hold, and so how they are shown.
type Kind uint8

const (
	// Text is a short text, Sentence one that is wrapped.
	Text Kind = iota
	Sentence
	// Diameter is a [Size] across, or a difference of two; Along is one along the axis.
	Diameter
	Along
	// Count is a whole number, Minutes a time, Share a part of 1, Money a sum.
	Count
	Minutes
	Share
	Money
	// Verdict is a verdict.
	Verdict
	// Source says where a row's numbers come from. Such columns stand last and are not printed.
	Source
)

// Column is one column of a section.
type Column struct {
	Heading string
	Kind    Kind
	// Width is in characters.
	Width float64
}

// Size is a length that may not be known.
type Size struct {
	Known  bool
	Length measure.Length
}

// Section is one table of a report. A cell is a string, a [Size], an int, a float64 or a [fitcalc.Verdict], as the kind of its column
// says; nil is a cell with nothing in it.
type Section struct {
	// Title is one of the names of package vet, to which facts refer.
	Title, Note string
	Columns     []Column
	Rows        [][]any
	// Empty says why there are no rows.
	Empty string
}

// Printed is how many columns are printed: those before the first that says where a row comes from.
func (s Section) Printed() int {
	for i, c := range s.Columns {
		if c.Kind == Source {
			return i
		}
	}
	return len(s.Columns)
}

// Sections returns the tables of a report, those of one subject after another. A subject that the report does not touch has none.
func Sections(r *vet.Report) []Section {
	var all []Section
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
	return append(all, questionSection(r), findingSection(r))
}

func nominal(d measure.Dim) Size      { return Size{d.Given(), d.Nominal()} }
func known(l measure.Length) Size     { return Size{true, l} }
func place(item *catalog.Item) string { return tell.Place(item.Source).String() }
func cellOf(item *catalog.Item, role catalog.Role) string {
	if cell := item.Fields.Cell(role); cell != "" {
		return finding.Place{File: item.Source.File, Sheet: item.Source.Sheet, Cell: cell}.String()
	}
	return place(item)
}

func gainSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetGains,
		Note:  "Heads of the house for which a new ferrule is better than the best in stock. Turn-down is nominal and on the diameter; minutes are the mean of many joints.",
		Columns: []Column{
			{"Head", Text, 14}, {"Head is", Sentence, 26}, {"Now", Text, 12}, {"Answer now", Verdict, 9}, {"Turn-down now", Diameter, 10}, {"Minutes now", Minutes, 9},
			{"New ferrule", Text, 14}, {"Answer", Verdict, 9}, {"Turn-down", Diameter, 10}, {"Minutes", Minutes, 9}, {"Minutes saved", Minutes, 9}, {"Times a year", Count, 8},
			{"Head from", Source, 34}, {"Now from", Source, 34}, {"New from", Source, 34},
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
		saved, from := any(nil), ""
		if g.HasNow {
			now := &own.Ferrules[g.Now.Ferrule]
			row = []any{head.Part, head.Description, now.Part, g.Now.Verdict, known(g.Now.TurnDown), float64(g.Now.Minutes)}
			saved, from = g.Minutes, place(&now.Item)
		}
		s.Rows = append(s.Rows, append(row, with.Part, g.With.Verdict, known(g.With.TurnDown), float64(g.With.Minutes), saved, g.Yearly,
			place(&head.Item), from, place(&with.Item)))
	}
	return s
}

func useSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetFerrules, Note: "What each new ferrule is good for. Best for counts the heads that gain by it more than by any other of the new ones.",
		Columns: []Column{
			{"Ferrule", Text, 14}, {"Ferrule is", Sentence, 28}, {"Bore", Diameter, 9}, {"Base OD", Diameter, 9}, {"Length", Along, 9}, {"Fits heads", Count, 8},
			{"Best for", Count, 8}, {"Of these new", Count, 8}, {"Minutes saved", Minutes, 10}, {"From", Source, 36},
		},
	}
	for _, u := range r.Ferrules.Uses {
		f := &r.FerruleFits.Catalogue.Ferrules[u.Ferrule]
		s.Rows = append(s.Rows, []any{f.Part, f.Description, nominal(r.FerruleFits.Bore(u.Ferrule)), nominal(f.Ferrule.BaseOD), nominal(f.Ferrule.Length), u.Fits, u.Best, u.New, u.Minutes, place(&f.Item)})
	}
	return s
}

func stockSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetStock, Note: "New heads that a ferrule in stock fits, with the one that asks least of the bench.",
		Columns: []Column{
			{"Head", Text, 14}, {"Head is", Sentence, 28}, {"Hosel OD", Diameter, 9}, {"Tip", Text, 18}, {"Ferrule in stock", Text, 14}, {"Answer", Verdict, 9},
			{"Turn-down", Diameter, 10}, {"Minutes", Minutes, 9}, {"Head from", Source, 34}, {"Ferrule from", Source, 34},
		},
		Empty: "No new head can be finished from stock.",
	}
	c := r.HeadFits.Catalogue
	for _, served := range r.Heads.Served {
		h, f := &c.Heads[served.Head], &c.Ferrules[served.Pair.Ferrule]
		s.Rows = append(s.Rows, []any{h.Part, h.Description, nominal(h.Head.JointOD()), r.HeadFits.Tips[served.Pair.Tip].Name, f.Part, served.Pair.Verdict,
			known(served.Pair.TurnDown), float64(served.Pair.Minutes), place(&h.Item), place(&f.Item)})
	}
	return s
}

// ends are the ends of an interval, each known where it has one.
func ends(i measure.Interval) (Size, Size) {
	if i.Empty() {
		return Size{}, Size{}
	}
	return Size{i.Lower().Bounded(), i.Lower().At()}, Size{i.Upper().Bounded(), i.Upper().At()}
}

func orderSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetOrder,
		Note:  "New heads that nothing in stock fits or that cannot be decided, and what a ferrule for them would have to be. Best leaves least to turn and keeps the risk of an undersize base.",
		Columns: []Column{
			{"Head", Text, 14}, {"Head is", Sentence, 26}, {"Answer", Verdict, 9}, {"Hosel OD", Diameter, 9}, {"Tip", Text, 16}, {"Base OD best", Diameter, 9}, {"Base OD from", Diameter, 9}, {"Base OD to", Diameter, 9},
			{"Bore best", Diameter, 9}, {"Bore from", Diameter, 9}, {"Bore to", Diameter, 9}, {"Length from", Along, 9}, {"Length to", Along, 9}, {"Form", Text, 12},
			{"Nearest in stock", Text, 14}, {"Out by", Diameter, 9}, {"Note", Sentence, 40}, {"Head from", Source, 34},
		},
		Empty: "Nothing has to be ordered.",
	}
	c := r.HeadFits.Catalogue
	for _, o := range r.Heads.Orders {
		h := &c.Heads[o.Head]
		row := []any{h.Part, h.Description, fitcalc.No, nominal(h.Head.JointOD()), r.HeadFits.Tips[o.Tip].Name}
		if o.Problem == "" {
			baseFrom, baseTo := ends(o.Spec.BaseOD)
			boreFrom, boreTo := ends(o.Spec.Bore)
			lengthFrom, lengthTo := ends(o.Spec.Length)
			row = append(row, known(o.Spec.BestBaseOD), baseFrom, baseTo, known(o.Spec.BestBore), boreFrom, boreTo, lengthFrom, lengthTo, o.Spec.Style.String())
		} else {
			row = append(row, nil, nil, nil, nil, nil, nil, nil, nil, "")
		}
		near, miss := "", Size{}
		if o.HasNear {
			near, miss = c.Ferrules[o.Near.Ferrule].Part, missOf(o.Near)
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
			s.Rows = append(s.Rows, []any{h.Part, h.Description, group.verdict, nominal(h.Head.JointOD()), "", nil, nil, nil, nil, nil, nil, nil, nil, "", "", nil, group.note, place(&h.Item)})
		}
	}
	return s
}

// missOf is by how much a pair is out, on the diameter, to a micrometre.
func missOf(p matrix.Pair) Size {
	miss, err := measure.FromMillimetres(float64(p.Miss))
	if err != nil || p.Miss == 0 {
		return Size{}
	}
	return known(miss.RoundTo(measure.Micrometres(1), measure.NearestEven))
}

// titleLots is the section of the sizes that would serve all.
const titleLots = "Sizes to have made"

func lotSection(r *vet.Report) Section {
	s := Section{
		Title: titleLots, Note: "The fewest sizes of ferrule that would serve all the heads above that can be specified.",
		Columns: []Column{
			{"Base OD", Diameter, 10}, {"Bore", Diameter, 10}, {"Length from", Along, 10}, {"Length to", Along, 10}, {"Form", Text, 12}, {"Heads", Count, 8}, {"Which", Sentence, 80},
		},
		Empty: "Nothing has to be made.",
	}
	for _, lot := range r.Heads.Lots {
		var names []string
		for _, at := range lot.Heads {
			names = append(names, r.HeadFits.Catalogue.Heads[r.Heads.Orders[at].Head].Part)
		}
		from, to := ends(lot.Length)
		s.Rows = append(s.Rows, []any{known(lot.BaseOD), known(lot.Bore), from, to, lot.Style.String(), len(lot.Heads), strings.Join(names, ", ")})
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

func limits(d measure.Dim) (Size, Size) {
	if !d.HasLimits() {
		return Size{}, Size{}
	}
	return known(d.Lower()), known(d.Upper())
}

func sizeSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetSizes, Note: "Stated sizes against the shop's own, which stand in its settings on the line given.",
		Columns: []Column{
			{"Part", Text, 14}, {"Kind", Text, 10}, {"Size", Text, 14}, {"Stated", Diameter, 9}, {"from", Diameter, 9}, {"to", Diameter, 9}, {"Own, from", Diameter, 9}, {"Own, to", Diameter, 9},
			{"Position", Text, 11}, {"Off by", Diameter, 9}, {"Line", Count, 7}, {"Cell", Source, 36},
		},
		Empty: "There is nothing to compare.",
	}
	for _, c := range r.Sizes {
		item := newItem(r, c.Kind, c.Item)
		from, to := limits(c.Stated)
		off := Size{}
		if !c.Off.IsZero() {
			off = known(c.Off)
		}
		s.Rows = append(s.Rows, []any{item.Part, c.Category, string(c.Role), known(c.Stated.Nominal()), from, to, known(c.Own.Size.Lower()), known(c.Own.Size.Upper()),
			c.Position.String(), off, c.Own.Line, cellOf(item, c.Role)})
	}
	return s
}

func qualitySection(r *vet.Report) Section {
	l := r.Sheet.Ledger
	s := Section{
		Title: vet.SheetQuality,
		Note: fmt.Sprintf("%d rows: %d used as they stand, %d with assumptions, %d held, %d set aside (headings, notes, blanks, totals).",
			l.Rows, l.Used, l.Assumed, l.Held, l.SetAside),
		Columns: []Column{{"What", Text, 12}, {"Column", Text, 18}, {"Given", Count, 9}, {"of parts", Count, 9}, {"Share", Share, 9}, {"With limits", Count, 10}},
	}
	for _, c := range r.Sheet.Complete {
		s.Rows = append(s.Rows, []any{c.Kind.String(), string(c.Role), c.Given, c.Of, float64(c.Given) / float64(c.Of), c.Limited})
	}
	return s
}

func equivalentSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetEquivalents,
		Note:  "New parts that can stand for parts of the house: each nominal size lies within the limits of the other. Differences are new less own; prices are by the piece.",
		Columns: []Column{
			{"New part", Text, 14}, {"Stands for", Text, 14}, {"Differences", Sentence, 40}, {"New price", Money, 10}, {"Own price", Money, 10}, {"Currency", Text, 10}, {"Saves", Money, 9},
			{"Further parts", Count, 9}, {"New from", Source, 34}, {"Own from", Source, 34},
		},
		Empty: "No new part stands for one of the house.",
	}
	for _, e := range r.Equivalents {
		a, b := newItem(r, e.Kind, e.New), ownItem(r, e.Kind, e.House)
		var differences []string
		for _, d := range e.Differences {
			differences = append(differences, fmt.Sprintf("%s %s", d.Role, signed(d.By)))
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

func sampleSection(r *vet.Report) Section {
	l := r.Samples.Ledger
	s := Section{
		Title: vet.SheetSamples,
		Note: fmt.Sprintf("%d rows: %d used, %d held, %d set aside. Readings are taken to come from %s. The interval holds 95 %% of the lot with 95 %% confidence if the lot is normal; "+
			"the share below the lower limit is at most what is given, with the same confidence.", l.Rows, l.Used, l.Held, l.SetAside, r.Samples.Calipers()),
		Columns: []Column{
			{"Part", Text, 14}, {"Size", Text, 14}, {"Stated", Diameter, 9}, {"from", Diameter, 9}, {"to", Diameter, 9}, {"Limits by", Text, 10}, {"Readings", Count, 9}, {"Mean", Diameter, 9},
			{"SD", Diameter, 9}, {"Lot from", Diameter, 9}, {"Lot to", Diameter, 9}, {"Read below", Count, 8}, {"Share below, at most", Share, 10}, {"Answer", Text, 13}, {"Why", Sentence, 60},
			{"Stated in", Source, 34}, {"Readings in", Source, 40},
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
		from, to, under := Size{}, Size{}, any(nil)
		if x.KnownInterval {
			from, to = floatSize(x.Interval.Lower), floatSize(x.Interval.Upper)
		}
		if x.KnownUndersize {
			under = x.Undersize
		}
		s.Rows = append(s.Rows, []any{item.Part, string(x.Role), known(x.Stated.Nominal()), known(x.Stated.Lower()), known(x.Stated.Upper()), by, sum.N, floatSize(sum.Mean), floatSize(sum.SD),
			from, to, x.ReadUnder, under, x.Comparison.Consistency.String(), x.Comparison.Reason, cellOf(item, x.Role), readingPlaces(x)})
	}
	return s
}

func floatSize(mm float64) Size {
	l, err := measure.FromMillimetres(mm)
	return Size{err == nil, l}
}

// readingPlaces are the first and the last cell of the readings.
func readingPlaces(s *vet.Sample) string {
	first, last := s.Readings[0].Place, s.Readings[len(s.Readings)-1].Place
	if first == last {
		return first.String()
	}
	return first.String() + " to " + last.Cell
}

func questionSection(r *vet.Report) Section {
	s := Section{
		Title: vet.SheetQuestions,
		Note:  fmt.Sprintf("%d of %d pairs wait for what the new sheets do not say. The sheet to send is questions.xlsx.", r.Open, r.Judged),
		Columns: []Column{
			{"Part", Text, 14}, {"What is asked", Sentence, 56}, {"It says now", Sentence, 16}, {"Kind", Text, 13}, {"Settles", Count, 8}, {"Helps with", Count, 8}, {"Rest on it", Count, 8},
			{"Why", Sentence, 56}, {"Cell", Text, 36},
		},
		Empty: "There is nothing to ask.",
	}
	for _, q := range r.Questions.Questions {
		s.Rows = append(s.Rows, questionRow(q))
	}
	return s
}

func questionRow(q questions.Question) []any {
	return []any{q.Part, q.Asks, q.Says, q.Kind.String(), q.Settles, q.Helps, q.Carries, q.Why, q.Place.String()}
}

func findingSection(r *vet.Report) Section {
	s := Section{
		Title:   vet.SheetFindings,
		Note:    "What is to be known about the new sheets, the samples and the yearly numbers.",
		Columns: []Column{{"Severity", Text, 10}, {"Code", Text, 18}, {"Where", Text, 36}, {"Message", Sentence, 90}, {"Settled by", Text, 30}},
		Empty:   "Nothing was found.",
	}
	for _, f := range r.Findings {
		s.Rows = append(s.Rows, []any{f.Severity.String(), f.Code, f.Place.String(), f.Message, f.Settle})
	}
	return s
}
