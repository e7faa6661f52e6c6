package plans

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/decimal"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// Stock is a plan of what to stock, with all that its writers need.
type Stock struct {
	Result   *matrix.Result
	Settings stock.Settings
	Plan     *stock.Plan
	// Demand is nil where no sheet of yearly numbers was given.
	Demand *demand.Demand
	// TwoSuppliers are the categories of heads that want a second source.
	TwoSuppliers []string
	// Without says what stands in for ferrules that are out of stock.
	Without []*stock.Substitution
	Inputs  []tell.Input
}

// Assumed returns what the plan rests on, as sentences.
func (s *Stock) Assumed() []string {
	all := slices.Concat(s.Plan.Assumed, demandSaid(s.Result.Catalogue, s.Demand, s.Settings.EachHead))
	start := stock.DefaultSettings()
	currency := s.Plan.Currency
	if s.Settings.BenchPerMinute == start.BenchPerMinute {
		all = append(all, fmt.Sprintf("a minute at the bench is taken to cost %s: a start value, from common practice", Money(start.BenchPerMinute, currency)))
	}
	if s.Settings.CarryPerYear == start.CarryPerYear {
		all = append(all, fmt.Sprintf("carrying a part number is taken to cost %s a year: a start value, from common practice", Money(start.CarryPerYear, currency)))
	}
	if packed := s.packed(); len(packed) > 0 && !s.Settings.IgnorePrices {
		if s.Settings.PricePerPack {
			all = append(all, "prices of ferrules sold by the pack are taken to be for the pack: "+some(packed))
		} else {
			all = append(all, "prices are taken to be for a piece, also of ferrules sold by the pack: "+some(packed))
		}
	}
	return all
}

// packed are the ferrules sold by the pack of which the sheet does not say what the price is for.
func (s *Stock) packed() []string {
	var parts []string
	for i := range s.Result.Catalogue.Ferrules {
		if f := &s.Result.Catalogue.Ferrules[i]; f.PriceIsVague() {
			parts = append(parts, phrase.OneLine(f.Part))
		}
	}
	return parts
}

// Proof says how good the plan is.
func (s *Stock) Proof() string {
	if s.Plan.Proven {
		return "proven: no other choice costs less"
	}
	return fmt.Sprintf("not proven in the time: the best choice may cost up to %.2f%% less (no less than %s); give more time with --time-limit",
		100*s.Plan.Gap, Money(s.Plan.LowerBound, s.Plan.Currency))
}

// Lines is a short account for a person at a terminal.
func (s *Stock) Lines(units fitcalc.Units) []string {
	p := s.Plan
	lines := demandLines(s.Demand)
	lines = append(lines,
		fmt.Sprintf("carry     %s for %s: %s", phrase.Count(len(p.Carry), "part number"), phrase.Count(len(p.Served), "head"), some(s.carried())),
		fmt.Sprintf("cost      %s a year: bench %s, pieces %s, carrying %s", Money(p.Cost.Total(), p.Currency), Money(p.Cost.Work, ""), Money(p.Cost.Pieces, ""), Money(p.Cost.Carrying, "")),
		"          "+s.Proof())
	if t := p.Today; t != nil {
		lines = append(lines, "today     "+s.AgainstToday())
		if len(t.Unserved) > 0 {
			lines = append(lines, fmt.Sprintf("          the plan serves %s that today's do not: %s", phrase.Count(len(t.Unserved), "head"), some(headsOf(s.Result, t.Unserved))))
		}
	}
	if second := p.Second; second != nil {
		adds, drops := s.Exchanged()
		lines = append(lines, fmt.Sprintf("second    %s more a year %s", Money(second.Cost-p.Cost.Total(), p.Currency), exchange(adds, drops)))
	}
	kinds := map[string]int{}
	for i := range p.Unserved {
		kinds[kindOf(&p.Unserved[i])]++
	}
	if len(p.Unserved) > 0 {
		lines = append(lines, fmt.Sprintf("without   %s: %d have no ferrule, %d cannot be decided, %d take none, of %d nothing that fits is allowed",
			phrase.Count(len(p.Unserved), "head"), kinds[unservedNone], kinds[unservedAsk], kinds[unservedBare], kinds[unservedWithheld]))
	}
	if len(p.LeftOut) > 0 {
		lines = append(lines, fmt.Sprintf("left out  %s: none is made, or there is no number", phrase.Count(len(p.LeftOut), "head")))
	}
	if len(p.OneSource) > 0 {
		lines = append(lines, fmt.Sprintf("one source only  %s", some(headsOf(s.Result, p.OneSource))))
	}
	for _, w := range s.Without {
		lines = append(lines, s.substitution(w, units)...)
	}
	for _, a := range s.Assumed() {
		lines = append(lines, "assumed   "+a)
	}
	return lines
}

// AgainstToday compares the plan with what is in stock now, as a clause; today must be known.
func (s *Stock) AgainstToday() string {
	t, currency := s.Plan.Today, s.Plan.Currency
	saves := t.Cost.Total() - t.Same.Total()
	what := "saves " + Money(saves, "") + " of it"
	if saves < 0 {
		what = "costs " + Money(-saves, "") + " more for these"
	}
	return fmt.Sprintf("%s in stock: %s a year for the heads they serve; the plan %s", phrase.Count(len(t.Ferrules), "ferrule"), Money(t.Cost.Total(), currency), what)
}

// exchange says what another set has more, and less.
func exchange(adds, drops []string) string {
	switch {
	case len(drops) == 0:
		return "with " + some(adds) + " besides"
	case len(adds) == 0:
		return "without " + some(drops)
	}
	return "with " + some(adds) + " in place of " + some(drops)
}

func (s *Stock) carried() []string {
	parts := make([]int, len(s.Plan.Carry))
	for i, c := range s.Plan.Carry {
		parts[i] = c.Ferrule
	}
	return ferrulesOf(s.Result, parts)
}

// Exchanged returns which part numbers the second best plan adds, and which it drops.
func (s *Stock) Exchanged() (adds, drops []string) {
	var first []int
	for _, c := range s.Plan.Carry {
		first = append(first, c.Ferrule)
	}
	second := s.Plan.Second.Ferrules
	without := func(all, others []int) (rest []int) {
		for _, f := range all {
			if !slices.Contains(others, f) {
				rest = append(rest, f)
			}
		}
		return rest
	}
	return ferrulesOf(s.Result, without(second, first)), ferrulesOf(s.Result, without(first, second))
}

// substitution says what stands in for a ferrule.
func (s *Stock) substitution(w *stock.Substitution, _ fitcalc.Units) []string {
	part := phrase.OneLine(s.Result.Catalogue.Ferrules[w.Ferrule].Part)
	lines := []string{fmt.Sprintf("without %s, which fits %s:", part, phrase.Count(len(w.Heads), "head"))}
	for i, o := range w.Others {
		if i == 3 {
			lines = append(lines, fmt.Sprintf("  and %d more that fit some of them", len(w.Others)-i))
			break
		}
		lines = append(lines, fmt.Sprintf("  %s takes over %d of %d, %+.1f bench hours a year", phrase.OneLine(s.Result.Catalogue.Ferrules[o.Ferrule].Part), len(o.Changes), len(w.Heads), o.Minutes/60))
	}
	if len(w.Alone) > 0 {
		lines = append(lines, fmt.Sprintf("  nothing else fits %s", some(headsOf(s.Result, w.Alone))))
	}
	return lines
}

// StockVersion is the version of the form of stock.json.
const StockVersion = 1

type source struct {
	File  string `json:"file"`
	Sheet string `json:"sheet"`
	Row   int    `json:"row"`
}

func sourceOf(s catalog.Source) source { return source{s.File, s.Sheet, s.Row} }

type partRef struct {
	Part   string `json:"part"`
	Source source `json:"source"`
}

func headRef(r *matrix.Result, h int) partRef {
	item := &r.Catalogue.Heads[h].Item
	return partRef{item.Part, sourceOf(item.Source)}
}

func ferruleRef(r *matrix.Result, f int) partRef {
	item := &r.Catalogue.Ferrules[f].Item
	return partRef{item.Part, sourceOf(item.Source)}
}

func refs(r *matrix.Result, parts []int, of func(*matrix.Result, int) partRef) []partRef {
	all := make([]partRef, len(parts))
	for i, p := range parts {
		all[i] = of(r, p)
	}
	return all
}

type costJSON struct {
	Total    json.Number `json:"total"`
	Work     json.Number `json:"work"`
	Pieces   json.Number `json:"pieces"`
	Carrying json.Number `json:"carrying"`
}

func costOf(c stock.Cost) costJSON {
	return costJSON{money(c.Total()), money(c.Work), money(c.Pieces), money(c.Carrying)}
}

type demandJSON struct {
	File     string         `json:"file"`
	Ledger   catalog.Ledger `json:"ledger"`
	Tables   []demandTable  `json:"tables"`
	Rows     []demandRow    `json:"rows"`
	Findings finding.List   `json:"findings"`
}

type demandTable struct {
	Sheet        string      `json:"sheet"`
	PartColumn   string      `json:"part_column"`
	NumberColumn string      `json:"number_column"`
	Heading      string      `json:"heading"`
	Times        json.Number `json:"times"`
}

type demandRow struct {
	Sheet       string      `json:"sheet"`
	Row         int         `json:"row"`
	Cell        string      `json:"cell"`
	Part        string      `json:"part"`
	Text        string      `json:"text"`
	Outcome     string      `json:"outcome"`
	Yearly      json.Number `json:"yearly"`
	Heads       int         `json:"heads"`
	Assumptions []string    `json:"assumptions"`
	Why         string      `json:"why"`
}

func demandOf(d *demand.Demand) *demandJSON {
	if d == nil {
		return nil
	}
	j := &demandJSON{File: d.File, Ledger: d.Ledger, Tables: []demandTable{}, Rows: []demandRow{}, Findings: append(finding.List{}, d.Findings...)}
	for _, t := range d.Tables {
		j.Tables = append(j.Tables, demandTable{t.Sheet, t.PartColumn, t.NumberColumn, t.Heading, count(t.Times)})
	}
	for i := range d.Rows {
		r := &d.Rows[i]
		j.Rows = append(j.Rows, demandRow{r.Place.Sheet, r.Place.Row, r.Place.Cell, r.Part, r.Text, r.Outcome.String(), count(r.Number), len(r.Heads), append([]string{}, r.Assumptions...), r.Why})
	}
	return j
}

type stockJSON struct {
	Version    int              `json:"version"`
	Files      []tell.Input     `json:"files"`
	Currency   string           `json:"currency"`
	Settings   stockSettings    `json:"settings"`
	Demand     *demandJSON      `json:"demand"`
	Assumed    []string         `json:"assumed"`
	Proven     bool             `json:"proven"`
	LowerBound json.Number      `json:"lower_bound"`
	Gap        json.Number      `json:"gap"`
	Cost       costJSON         `json:"cost"`
	Heads      stockHeads       `json:"heads"`
	Carry      []carryJSON      `json:"carry"`
	Serves     []servesJSON     `json:"serves"`
	Unserved   []unservedJSON   `json:"unserved"`
	LeftOut    []partRef        `json:"left_out"`
	OneSource  []partRef        `json:"one_source"`
	Today      *todayJSON       `json:"today"`
	Second     *alternativeJSON `json:"second"`
	Curve      []curveJSON      `json:"curve"`
	Without    []substituteJSON `json:"without"`
}

type stockSettings struct {
	BenchPerMinute json.Number            `json:"bench_per_minute"`
	CarryPerYear   json.Number            `json:"carry_per_year"`
	Holding        json.Number            `json:"holding"`
	EachHead       json.Number            `json:"each_head"`
	AtMost         int                    `json:"at_most"`
	TurnLimitMM    *json.Number           `json:"turn_limit_mm"`
	NoPrep         bool                   `json:"no_prep"`
	Measured       bool                   `json:"measured"`
	Must           []partRef              `json:"must"`
	Never          []partRef              `json:"never"`
	TwoSuppliers   []string               `json:"two_suppliers"`
	Prices         string                 `json:"prices"`
	Rates          map[string]json.Number `json:"rates"`
}

type stockHeads struct {
	All      int `json:"all"`
	Served   int `json:"served"`
	Unserved int `json:"unserved"`
	LeftOut  int `json:"left_out"`
}

type carryJSON struct {
	Ferrule       partRef      `json:"ferrule"`
	Description   string       `json:"description"`
	Supplier      string       `json:"supplier"`
	Heads         int          `json:"heads"`
	Pieces        json.Number  `json:"pieces"`
	Lot           int          `json:"lot"`
	Packs         int          `json:"packs"`
	LeftOver      json.Number  `json:"left_over"`
	PricePerPiece json.Number  `json:"price_per_piece"`
	Minutes       json.Number  `json:"minutes"`
	Cost          costJSON     `json:"cost"`
	Saves         *json.Number `json:"saves"`
	Irreplaceable bool         `json:"irreplaceable"`
	Instead       *partRef     `json:"instead"`
}

type servesJSON struct {
	Head         partRef         `json:"head"`
	Ferrule      partRef         `json:"ferrule"`
	Tip          string          `json:"tip"`
	Verdict      string          `json:"verdict"`
	TurnDownMM   json.Number     `json:"turn_down_mm"`
	TurnDownIn   json.Number     `json:"turn_down_in"`
	Yearly       json.Number     `json:"yearly"`
	MinutesEach  json.Number     `json:"minutes_each"`
	Minutes      json.Number     `json:"minutes"`
	YearlySource []finding.Place `json:"yearly_source"`
}

type unservedJSON struct {
	Head    partRef  `json:"head"`
	Kind    string   `json:"kind"`
	Why     string   `json:"why"`
	Nearest *partRef `json:"nearest"`
	Reasons []string `json:"reasons"`
}

type todayJSON struct {
	Ferrules []partRef   `json:"ferrules"`
	Cost     costJSON    `json:"cost"`
	Same     costJSON    `json:"same"`
	Saves    json.Number `json:"saves"`
	Unserved []partRef   `json:"unserved"`
}

type alternativeJSON struct {
	Ferrules   []partRef   `json:"ferrules"`
	Cost       json.Number `json:"cost"`
	LowerBound json.Number `json:"lower_bound"`
	Proven     bool        `json:"proven"`
}

type curveJSON struct {
	AtMost     int          `json:"at_most"`
	Found      bool         `json:"found"`
	Impossible bool         `json:"impossible"`
	Cost       *json.Number `json:"cost"`
	LowerBound *json.Number `json:"lower_bound"`
	Proven     bool         `json:"proven"`
	Ferrules   []partRef    `json:"ferrules"`
}

type substituteJSON struct {
	Ferrule partRef       `json:"ferrule"`
	Heads   []partRef     `json:"heads"`
	Alone   []partRef     `json:"alone"`
	Best    []changeJSON  `json:"best"`
	Others  []standInJSON `json:"others"`
}

type changeJSON struct {
	Head        partRef     `json:"head"`
	To          partRef     `json:"to"`
	MinutesEach json.Number `json:"minutes_each"`
}

type standInJSON struct {
	Ferrule partRef     `json:"ferrule"`
	Takes   int         `json:"takes_over"`
	Lost    []partRef   `json:"lost"`
	Minutes json.Number `json:"minutes"`
}

// WriteStockJSON writes stock.json. The error is the writer's.
func WriteStockJSON(w io.Writer, s *Stock) error {
	return writeJSON(w, "the plan as JSON", s.json())
}

func (s *Stock) json() stockJSON {
	r, p := s.Result, s.Plan
	j := stockJSON{
		Version: StockVersion, Files: tell.Inputs(r, s.Inputs), Currency: p.Currency, Settings: s.settings(), Demand: demandOf(s.Demand),
		Assumed: append([]string{}, s.Assumed()...), Proven: p.Proven, LowerBound: money(p.LowerBound), Gap: decimal.Of(p.Gap, 6), Cost: costOf(p.Cost),
		Heads: stockHeads{len(r.Catalogue.Heads), len(p.Served), len(p.Unserved), len(p.LeftOut)},
		Carry: []carryJSON{}, Serves: []servesJSON{}, Unserved: []unservedJSON{}, Curve: []curveJSON{}, Without: []substituteJSON{},
		LeftOut: refs(r, p.LeftOut, headRef), OneSource: refs(r, p.OneSource, headRef),
	}
	for i := range p.Carry {
		j.Carry = append(j.Carry, s.carry(&p.Carry[i]))
	}
	for _, served := range p.Served {
		places, _ := Numbered(s.Demand, served.Head)
		j.Serves = append(j.Serves, servesJSON{
			Head: headRef(r, served.Head), Ferrule: ferruleRef(r, int(served.Pair.Ferrule)), Tip: r.Tips[served.Pair.Tip].Name,
			Verdict: served.Pair.Verdict.String(), TurnDownMM: decimal.Millimetres(served.Pair.TurnDown), TurnDownIn: decimal.Inches(served.Pair.TurnDown),
			Yearly: count(served.Yearly), MinutesEach: minutes(float64(served.Pair.Minutes)), Minutes: minutes(served.Minutes),
			YearlySource: append([]finding.Place{}, places...),
		})
	}
	for i := range p.Unserved {
		u := &p.Unserved[i]
		one := unservedJSON{Head: headRef(r, u.Head), Kind: kindOf(u), Why: Unserved(r, u, nil, fitcalc.Metric), Reasons: []string{}}
		if u.HasNearest {
			nearest := ferruleRef(r, int(u.Nearest.Ferrule))
			one.Nearest = &nearest
		}
		for _, reason := range u.Reasons {
			one.Reasons = append(one.Reasons, reason.Code.String())
		}
		j.Unserved = append(j.Unserved, one)
	}
	if t := p.Today; t != nil {
		j.Today = &todayJSON{refs(r, t.Ferrules, ferruleRef), costOf(t.Cost), costOf(t.Same), money(t.Cost.Total() - t.Same.Total()), refs(r, t.Unserved, headRef)}
	}
	if a := p.Second; a != nil {
		j.Second = &alternativeJSON{refs(r, a.Ferrules, ferruleRef), money(a.Cost), money(a.LowerBound), a.Proven}
	}
	for _, point := range p.Curve {
		one := curveJSON{AtMost: point.AtMost, Found: point.Found, Impossible: point.Impossible, Proven: point.Proven, Ferrules: refs(r, point.Ferrules, ferruleRef)}
		if point.Found {
			cost, bound := money(point.Cost), money(point.LowerBound)
			one.Cost, one.LowerBound = &cost, &bound
		}
		j.Curve = append(j.Curve, one)
	}
	for _, w := range s.Without {
		j.Without = append(j.Without, s.standIns(w))
	}
	return j
}

func (s *Stock) settings() stockSettings {
	set := &s.Settings
	j := stockSettings{
		BenchPerMinute: count(set.BenchPerMinute), CarryPerYear: money(set.CarryPerYear), Holding: count(set.Holding), EachHead: count(set.EachHead),
		AtMost: set.AtMost, NoPrep: set.NoPrep, Measured: set.Measured, Must: refs(s.Result, set.Must, ferruleRef), Never: refs(s.Result, set.MustNot, ferruleRef),
		TwoSuppliers: append([]string{}, s.TwoSuppliers...), Prices: "piece", Rates: map[string]json.Number{},
	}
	switch {
	case set.IgnorePrices:
		j.Prices = "ignore"
	case set.PricePerPack:
		j.Prices = "pack"
	}
	if set.MostTurnDown.Sign() > 0 {
		limit := decimal.Millimetres(set.MostTurnDown)
		j.TurnLimitMM = &limit
	}
	for currency, rate := range set.Rates {
		j.Rates[currency] = decimal.Of(rate, 8)
	}
	return j
}

func (s *Stock) carry(c *stock.Carried) carryJSON {
	item := &s.Result.Catalogue.Ferrules[c.Ferrule].Item
	j := carryJSON{
		Ferrule: ferruleRef(s.Result, c.Ferrule), Description: item.Description, Supplier: item.Supplier, Heads: len(c.Heads), Pieces: count(c.Pieces),
		Lot: c.Lot, Packs: c.Packs, LeftOver: count(c.LeftOver), PricePerPiece: decimal.Of(c.PricePerPiece, 4), Minutes: minutes(c.Minutes),
		Cost: costOf(c.Cost), Irreplaceable: c.Irreplaceable,
	}
	if !c.Irreplaceable {
		saves := money(c.Saves)
		j.Saves = &saves
	}
	if c.Instead >= 0 {
		instead := ferruleRef(s.Result, c.Instead)
		j.Instead = &instead
	}
	return j
}

func (s *Stock) standIns(w *stock.Substitution) substituteJSON {
	r := s.Result
	j := substituteJSON{Ferrule: ferruleRef(r, w.Ferrule), Heads: refs(r, w.Heads, headRef), Alone: refs(r, w.Alone, headRef), Best: []changeJSON{}, Others: []standInJSON{}}
	for _, c := range w.Best {
		j.Best = append(j.Best, changeJSON{headRef(r, c.Head), ferruleRef(r, int(c.To.Ferrule)), minutes(c.Minutes)})
	}
	for _, o := range w.Others {
		j.Others = append(j.Others, standInJSON{ferruleRef(r, o.Ferrule), len(o.Changes), refs(r, o.Lost, headRef), minutes(o.Minutes)})
	}
	return j
}

// WriteStockCSV writes stock.csv: a line for each part number to carry. The error is the writer's.
func WriteStockCSV(w io.Writer, s *Stock) error {
	t := report.Section{Name: "the plan", Columns: []report.Column{
		report.Text("ferrule", 0), report.Text("supplier", 0), report.Text("description", 0), report.Count("heads", 0), report.Pieces("pieces_a_year", 0), report.Count("lot", 0),
		report.Count("lots_to_buy", 0), report.Pieces("left_over", 0), report.Price("price_per_piece", 0), report.Text("currency", 0), report.Minutes("bench_minutes_a_year", 0),
		report.Money("cost_a_year", 0), report.Money("work", 0), report.Money("pieces", 0), report.Money("carrying", 0), report.Money("saves_a_year", 0), report.Text("instead", 0),
		report.Text("used_on", 0), report.Source("ferrule_source", 0),
	}}
	for i := range s.Plan.Carry {
		c := &s.Plan.Carry[i]
		item := &s.Result.Catalogue.Ferrules[c.Ferrule].Item
		saves, instead := any(c.Saves), ""
		switch {
		case c.Irreplaceable:
			saves, instead = nil, "nothing"
		case c.Instead >= 0:
			instead = report.FerrulePart(s.Result, c.Instead)
		}
		t.Rows = append(t.Rows, []any{
			item.Part, item.Supplier, item.Description, len(c.Heads), c.Pieces, c.Lot, c.Packs, c.LeftOver, c.PricePerPiece, s.Plan.Currency, c.Minutes, c.Cost.Total(), c.Cost.Work,
			c.Cost.Pieces, c.Cost.Carrying, saves, instead, strings.Join(headsOf(s.Result, c.Heads), "; "), tell.Place(item.Source),
		})
	}
	return report.WriteCSV(w, &t, fitcalc.Metric)
}

// WriteStockSVG draws the cost by the most part numbers. The error is the writer's.
func WriteStockSVG(w io.Writer, s *Stock) error {
	p := s.Plan
	c := curve{
		id: "stock", title: "What a year costs, by the most part numbers carried", across: "part numbers, at most", up: strings.TrimSuffix("cost a year, "+p.Currency, ", "),
		said: fmt.Sprintf("The plan carries %s and costs %s a year.", phrase.Count(len(p.Carry), "part number"), Money(p.Cost.Total(), p.Currency)),
	}
	one := line{name: "best choice"}
	unproven := false
	var impossible []int
	for _, point := range p.Curve {
		switch {
		case point.Found:
			one.points = append(one.points, dot{x: point.AtMost, y: point.Cost, label: Money(point.Cost, ""), open: !point.Proven, chosen: len(point.Ferrules) == len(p.Carry) && point.AtMost == len(p.Carry)})
			unproven = unproven || !point.Proven
		case point.Impossible:
			impossible = append(impossible, point.AtMost)
		}
	}
	if len(impossible) > 0 {
		c.note = fmt.Sprintf("With %d or fewer not everything that was asked for can be kept.", impossible[len(impossible)-1])
	}
	if unproven {
		c.note += " Open marks are the best found in the time, not proven."
	}
	c.lines = []line{one}
	return c.write(w)
}
