package supplier

import (
	_ "embed" // the schemas
	"encoding/json"
	"io"
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

//go:embed schema/vet.schema.json
var vetSchema []byte

//go:embed schema/comparison.schema.json
var comparisonSchema []byte

// VetSchema returns the JSON Schema (2020-12) of vet.json.
func VetSchema() []byte { return append([]byte(nil), vetSchema...) }

// ComparisonSchema returns the JSON Schema (2020-12) of what read --against --json prints.
func ComparisonSchema() []byte { return append([]byte(nil), comparisonSchema...) }

// number is a decimal number, rounded; null where it is not known.
type number = *float64

func mm(l measure.Length) number { return rounded(float64(l.Picometres())/1e9, 4) }

func rounded(x float64, decimals int) number {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	scale := math.Pow(10, float64(decimals))
	x = math.Round(x*scale) / scale
	return &x
}

func sizeMM(s report.Size) number {
	if !s.Known {
		return nil
	}
	return mm(s.Length)
}

// dimJSON is a size with its limits; limits are null where it states none.
type dimJSON struct {
	Nominal number `json:"nominal"`
	Least   number `json:"least"`
	Most    number `json:"most"`
}

func dimOf(d measure.Dim) *dimJSON {
	if !d.Given() {
		return nil
	}
	from, to := report.Limits(d)
	return &dimJSON{mm(d.Nominal()), sizeMM(from), sizeMM(to)}
}

type rangeJSON struct {
	Best  number `json:"best,omitempty"`
	Least number `json:"least"`
	Most  number `json:"most"`
}

func rangeOf(i measure.Interval, best number) *rangeJSON {
	if i.Empty() {
		return nil
	}
	from, to := report.Ends(i)
	return &rangeJSON{best, sizeMM(from), sizeMM(to)}
}

// partJSON is a part and where it stands.
type partJSON struct {
	Part   string         `json:"part"`
	Source catalog.Source `json:"source"`
}

func partOf(item *catalog.Item) partJSON { return partJSON{item.Part, item.Source} }

// pairJSON is a ferrule on a head.
type pairJSON struct {
	Ferrule  partJSON `json:"ferrule"`
	Tip      string   `json:"tip"`
	Verdict  string   `json:"verdict"`
	TurnDown number   `json:"turn_down_mm"`
	Minutes  number   `json:"minutes"`
}

func pairOf(r *matrix.Result, p matrix.Pair) *pairJSON {
	return &pairJSON{partOf(&r.Catalogue.Ferrules[p.Ferrule].Item), r.Tips[p.Tip].Name, p.Verdict.String(), mm(p.TurnDown), rounded(float64(p.Minutes), 3)}
}

type vetJSON struct {
	Version     int              `json:"version"`
	Supplier    string           `json:"supplier"`
	Verdict     string           `json:"verdict"`
	Why         string           `json:"why"`
	Facts       []factJSON       `json:"facts"`
	Changes     []string         `json:"would_change"`
	Files       []tell.Input     `json:"files"`
	Ferrules    *ferrulesJSON    `json:"ferrules"`
	Heads       *headsJSON       `json:"heads"`
	Sizes       []sizeJSON       `json:"house_sizes"`
	Sheet       sheetJSON        `json:"sheet"`
	Equivalents []equivalentJSON `json:"equivalents"`
	Samples     *samplesJSON     `json:"samples"`
	Questions   questionsJSON    `json:"questions"`
	Assumptions []assumptionJSON `json:"assumptions"`
	Findings    []findingJSON    `json:"findings"`
}

type factJSON struct {
	Title   string `json:"title"`
	Text    string `json:"text"`
	Section string `json:"section"`
}

type ferrulesJSON struct {
	Heads    int        `json:"heads"`
	Before   int        `json:"served_before"`
	After    int        `json:"served_after"`
	Faster   int        `json:"faster"`
	Minutes  number     `json:"minutes_saved"`
	Weighted bool       `json:"yearly"`
	Gains    []gainJSON `json:"gains"`
	Uses     []useJSON  `json:"uses"`
}

type gainJSON struct {
	Head    partJSON  `json:"head"`
	Now     *pairJSON `json:"now"`
	With    *pairJSON `json:"with"`
	Minutes number    `json:"minutes_saved"`
	Turn    number    `json:"turn_saved_mm"`
	Yearly  number    `json:"times"`
}

type useJSON struct {
	Ferrule partJSON `json:"ferrule"`
	Fits    int      `json:"fits"`
	Best    int      `json:"best_for"`
	New     int      `json:"of_these_new"`
	Minutes number   `json:"minutes_saved"`
}

type headsJSON struct {
	Heads     int          `json:"heads"`
	Served    []servedJSON `json:"from_stock"`
	Orders    []orderJSON  `json:"to_order"`
	Undecided []partJSON   `json:"undecided"`
	Bare      []partJSON   `json:"bare"`
	Lots      []lotJSON    `json:"sizes_to_make"`
	Minutes   number       `json:"mean_minutes"`
}

type servedJSON struct {
	Head partJSON  `json:"head"`
	Best *pairJSON `json:"best"`
}

type orderJSON struct {
	Head    partJSON   `json:"head"`
	Tip     string     `json:"tip"`
	Problem string     `json:"problem,omitempty"`
	BaseOD  *rangeJSON `json:"base_od_mm"`
	Bore    *rangeJSON `json:"bore_mm"`
	Length  *rangeJSON `json:"length_mm"`
	Style   string     `json:"style,omitempty"`
	Nearest *partJSON  `json:"nearest"`
	OutBy   number     `json:"out_by_mm"`
}

type lotJSON struct {
	BaseOD number     `json:"base_od_mm"`
	Bore   number     `json:"bore_mm"`
	Length *rangeJSON `json:"length_mm"`
	Style  string     `json:"style"`
	Heads  []string   `json:"heads"`
}

type sizeJSON struct {
	Kind     string       `json:"kind"`
	Part     partJSON     `json:"part"`
	Cell     string       `json:"cell"`
	Category string       `json:"category"`
	Role     catalog.Role `json:"role"`
	Stated   *dimJSON     `json:"stated_mm"`
	Own      *dimJSON     `json:"own_mm"`
	Line     int          `json:"settings_line"`
	Position string       `json:"position"`
	Off      number       `json:"off_mm"`
}

type sheetJSON struct {
	Ledger      catalog.Ledger `json:"ledger"`
	Needed      int            `json:"needed"`
	NeededGiven int            `json:"needed_given"`
	Complete    []completeJSON `json:"complete"`
	Findings    []groupJSON    `json:"findings"`
}

type completeJSON struct {
	Kind    string       `json:"kind"`
	Role    catalog.Role `json:"role"`
	Given   int          `json:"given"`
	Of      int          `json:"of"`
	Limited int          `json:"with_limits"`
}

type groupJSON struct {
	Severity string `json:"severity"`
	Code     string `json:"code"`
	Count    int    `json:"count"`
}

type equivalentJSON struct {
	Kind        string           `json:"kind"`
	New         partJSON         `json:"new"`
	House       partJSON         `json:"house"`
	Differences []differenceJSON `json:"differences"`
	NewPrice    number           `json:"new_price"`
	HousePrice  number           `json:"house_price"`
	Currency    string           `json:"currency"`
	Saving      number           `json:"saving"`
	More        int              `json:"more,omitempty"`
}

type differenceJSON struct {
	Role catalog.Role `json:"role"`
	By   number       `json:"by_mm"`
}

type samplesJSON struct {
	Samples  []sampleJSON `json:"samples"`
	Ledger   any          `json:"ledger"`
	Calipers string       `json:"calipers"`
	Enough   int          `json:"pieces_without_a_fault"`
	Stated   *int         `json:"served_as_stated"`
	Measured *int         `json:"served_as_measured"`
}

type sampleJSON struct {
	Part          partJSON      `json:"part"`
	Role          catalog.Role  `json:"role"`
	Cell          string        `json:"cell"`
	Stated        *dimJSON      `json:"stated_mm"`
	ShopTolerance bool          `json:"shop_tolerance"`
	Readings      []readingJSON `json:"readings"`
	Mean          number        `json:"mean_mm"`
	SD            number        `json:"sd_mm"`
	Interval      *rangeJSON    `json:"lot_mm"`
	Under         number        `json:"share_undersize_at_most"`
	ReadUnder     int           `json:"read_undersize"`
	ReadOutside   int           `json:"read_outside"`
	Answer        string        `json:"answer"`
	Why           string        `json:"why"`
}

type readingJSON struct {
	MM    number        `json:"mm"`
	Place finding.Place `json:"place"`
}

type questionsJSON struct {
	Judged int            `json:"pairs"`
	Open   int            `json:"open"`
	List   []questionJSON `json:"list"`
}

type questionJSON struct {
	Key     string        `json:"key"`
	Kind    string        `json:"kind"`
	Part    string        `json:"part"`
	Role    catalog.Role  `json:"role"`
	Place   finding.Place `json:"place"`
	Says    string        `json:"says"`
	Asks    string        `json:"asks"`
	Why     string        `json:"why"`
	Settles int           `json:"settles"`
	Helps   int           `json:"helps"`
	Carries int           `json:"carries"`
}

type assumptionJSON struct {
	Code     string `json:"code"`
	Text     string `json:"text"`
	Verdicts int    `json:"verdicts"`
	Tried    string `json:"tried"`
	Flips    *int   `json:"flips"`
	Lost     *int   `json:"no_longer_fit"`
}

type findingJSON struct {
	Severity string        `json:"severity"`
	Code     string        `json:"code"`
	Place    finding.Place `json:"place"`
	Message  string        `json:"message"`
	Settle   string        `json:"settle"`
}

// WriteVetJSON writes vet.json. The error is the writer's.
func WriteVetJSON(w io.Writer, r *vet.Report, inputs []tell.Input) error {
	doc := vetJSON{
		Version: 1, Supplier: r.Supplier, Verdict: r.Verdict.String(), Why: r.Why(), Facts: []factJSON{}, Changes: orEmpty(r.Changes), Files: orEmpty(inputs),
		Ferrules: ferrulesOf(r), Heads: headsOf(r), Sizes: []sizeJSON{}, Sheet: sheetOf(r), Equivalents: []equivalentJSON{}, Samples: samplesOf(r),
		Questions: questionsOf(r), Assumptions: assumptionsOf(r.Assumptions), Findings: []findingJSON{},
	}
	for _, f := range r.Facts {
		doc.Facts = append(doc.Facts, factJSON{f.Title, f.Text, f.Sheet})
	}
	for _, c := range r.Sizes {
		item := newItem(r, c.Kind, c.Item)
		doc.Sizes = append(doc.Sizes, sizeJSON{c.Kind.String(), partOf(item), item.Fields.Cell(c.Role), c.Category, c.Role, dimOf(c.Stated), dimOf(c.Own.Size), c.Own.Line, c.Position.String(), mm(c.Off)})
	}
	for _, e := range r.Equivalents {
		doc.Equivalents = append(doc.Equivalents, equivalentOf(r, e))
	}
	for _, f := range r.Findings {
		doc.Findings = append(doc.Findings, findingJSON{f.Severity.String(), f.Code, f.Place, f.Message, f.Settle})
	}
	return write(w, doc)
}

func write(w io.Writer, doc any) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(doc)
}

func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func ferrulesOf(r *vet.Report) *ferrulesJSON {
	if r.FerruleFits == nil {
		return nil
	}
	g := r.Ferrules
	doc := &ferrulesJSON{
		Heads: g.Heads, Before: g.Before, After: g.After, Faster: g.Faster(), Minutes: rounded(g.Minutes, 3), Weighted: g.Weighted, Gains: []gainJSON{}, Uses: []useJSON{},
	}
	for _, gain := range g.Gains {
		one := gainJSON{Head: partOf(&r.FerruleFits.Catalogue.Heads[gain.Head].Item), With: pairOf(r.FerruleFits, gain.With), Yearly: rounded(gain.Yearly, 3)}
		if gain.HasNow {
			one.Now, one.Minutes, one.Turn = pairOf(r.House, gain.Now), rounded(gain.Minutes, 3), mm(gain.Turn)
		}
		doc.Gains = append(doc.Gains, one)
	}
	for _, u := range g.Uses {
		doc.Uses = append(doc.Uses, useJSON{partOf(&r.FerruleFits.Catalogue.Ferrules[u.Ferrule].Item), u.Fits, u.Best, u.New, rounded(u.Minutes, 3)})
	}
	return doc
}

func headsOf(r *vet.Report) *headsJSON {
	if r.HeadFits == nil {
		return nil
	}
	n, c := r.Heads, r.HeadFits.Catalogue
	part := func(head int) partJSON { return partOf(&c.Heads[head].Item) }
	doc := &headsJSON{Heads: n.Heads, Served: []servedJSON{}, Orders: []orderJSON{}, Undecided: []partJSON{}, Bare: []partJSON{}, Lots: []lotJSON{}}
	if len(n.Served) > 0 {
		doc.Minutes = rounded(n.Minutes, 3)
	}
	for _, s := range n.Served {
		doc.Served = append(doc.Served, servedJSON{part(s.Head), pairOf(r.HeadFits, s.Pair)})
	}
	for _, o := range n.Orders {
		one := orderJSON{Head: part(o.Head), Tip: r.HeadFits.Tips[o.Tip].Name, Problem: o.Problem}
		if o.Problem == "" {
			one.BaseOD, one.Bore = rangeOf(o.Spec.BaseOD, mm(o.Spec.BestBaseOD)), rangeOf(o.Spec.Bore, mm(o.Spec.BestBore))
			one.Length, one.Style = rangeOf(o.Spec.Length, nil), o.Spec.Style.String()
		}
		if o.HasNear {
			near := partOf(&c.Ferrules[o.Near.Ferrule].Item)
			one.Nearest, one.OutBy = &near, sizeMM(report.Miss(o.Near))
		}
		doc.Orders = append(doc.Orders, one)
	}
	for _, head := range n.Undecided {
		doc.Undecided = append(doc.Undecided, part(head))
	}
	for _, head := range n.Bare {
		doc.Bare = append(doc.Bare, part(head))
	}
	for _, lot := range n.Lots {
		one := lotJSON{mm(lot.BaseOD), mm(lot.Bore), rangeOf(lot.Length, nil), lot.Style.String(), []string{}}
		for _, at := range lot.Heads {
			one.Heads = append(one.Heads, c.Heads[n.Orders[at].Head].Part)
		}
		doc.Lots = append(doc.Lots, one)
	}
	return doc
}

func sheetOf(r *vet.Report) sheetJSON {
	doc := sheetJSON{r.Sheet.Ledger, r.Sheet.Needed, r.Sheet.NeededGiven, []completeJSON{}, []groupJSON{}}
	for _, c := range r.Sheet.Complete {
		doc.Complete = append(doc.Complete, completeJSON{c.Kind.String(), c.Role, c.Given, c.Of, c.Limited})
	}
	for _, g := range r.Sheet.Groups {
		doc.Findings = append(doc.Findings, groupJSON{g.Severity.String(), g.Code, g.Count})
	}
	return doc
}

func equivalentOf(r *vet.Report, e vet.Equivalent) equivalentJSON {
	doc := equivalentJSON{Kind: e.Kind.String(), New: partOf(newItem(r, e.Kind, e.New)), House: partOf(ownItem(r, e.Kind, e.House)), Differences: []differenceJSON{}, More: e.More}
	for _, d := range e.Differences {
		doc.Differences = append(doc.Differences, differenceJSON{d.Role, mm(d.By)})
	}
	if e.NewPrice.Known {
		doc.NewPrice = rounded(e.NewPrice.Amount, 4)
	}
	if e.HousePrice.Known {
		doc.HousePrice = rounded(e.HousePrice.Amount, 4)
	}
	if e.Comparable {
		doc.Currency, doc.Saving = e.NewPrice.Currency, rounded(e.Saving(), 4)
	}
	return doc
}

func samplesOf(r *vet.Report) *samplesJSON {
	s := r.Samples
	if s.Ledger.Rows == 0 {
		return nil
	}
	doc := &samplesJSON{Samples: []sampleJSON{}, Ledger: s.Ledger, Calipers: s.Calipers(), Enough: s.Enough}
	if s.Known {
		doc.Stated, doc.Measured = &s.Stated, &s.Measured
	}
	for i := range s.Samples {
		x := &s.Samples[i]
		item, c := newItem(r, x.Kind, x.Item), x.Comparison
		one := sampleJSON{
			Part: partOf(item), Role: x.Role, Cell: item.Fields.Cell(x.Role), Stated: dimOf(x.Stated), ShopTolerance: x.ShopTolerance, Mean: rounded(c.Summary.Mean, 4), SD: rounded(c.Summary.SD, 5),
			ReadUnder: x.ReadUnder, ReadOutside: c.ReadOutside, Answer: c.Consistency.String(), Why: c.Reason,
		}
		for _, reading := range x.Readings {
			one.Readings = append(one.Readings, readingJSON{mm(reading.Size), reading.Place})
		}
		if x.KnownInterval {
			one.Interval = &rangeJSON{nil, rounded(x.Interval.Lower, 4), rounded(x.Interval.Upper, 4)}
		}
		if x.KnownUndersize {
			one.Under = rounded(x.Undersize, 6)
		}
		doc.Samples = append(doc.Samples, one)
	}
	return doc
}

func questionsOf(r *vet.Report) questionsJSON {
	return questionsJSON{r.Judged, r.Open, questionList(r.Questions)}
}

func questionList(list questions.List) []questionJSON {
	all := []questionJSON{}
	for _, q := range list.Questions {
		all = append(all, questionJSON{q.Key, q.Kind.String(), q.Part, q.Role, q.Place, q.Says, q.Asks, q.Why, q.Settles, q.Helps, q.Carries})
	}
	return all
}

func assumptionsOf(assumed []questions.Assumption) []assumptionJSON {
	all := []assumptionJSON{}
	for _, a := range assumed {
		one := assumptionJSON{Code: a.Code, Text: say.English().Assumed(a.Code), Verdicts: a.Verdicts, Tried: a.Tried}
		if a.Tried != "" {
			one.Flips, one.Lost = &a.Flips, &a.Lost
		}
		all = append(all, one)
	}
	return all
}

// WriteQuestionsJSON writes questions and what was taken for granted, for other software. The error is the writer's.
func WriteQuestionsJSON(w io.Writer, list questions.List, assumed []questions.Assumption) error {
	type bySupplier struct {
		questionJSON
		Supplier string `json:"supplier"`
	}
	doc := struct {
		Version     int              `json:"version"`
		Pairs       int              `json:"pairs"`
		Undecided   int              `json:"undecided"`
		Questions   []bySupplier     `json:"questions"`
		Assumptions []assumptionJSON `json:"assumptions"`
	}{1, list.Pairs, list.Undecided, []bySupplier{}, assumptionsOf(assumed)}
	for i, q := range questionList(list) {
		doc.Questions = append(doc.Questions, bySupplier{q, list.Questions[i].Supplier})
	}
	return write(w, doc)
}
