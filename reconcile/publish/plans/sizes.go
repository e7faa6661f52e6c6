package plans

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/decimal"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// Sizes is a plan of which base ODs to have made, with all that its writers need.
type Sizes struct {
	Result *matrix.Result
	Wanted stock.Wanted
	Made   *stock.Made
	// EachHead is the yearly number of a head that has none of its own.
	EachHead float64
	// Demand is nil where no sheet of yearly numbers was given.
	Demand *demand.Demand
	// Standards is nil where it was not asked which hosels could be brought to common sizes; NotStandard are the heads left out of it.
	Standards   []stock.Standard
	Common      stock.Common
	NotStandard []int
	Inputs      []tell.Input
}

// Assumed returns what the plan rests on, as sentences.
func (s *Sizes) Assumed() []string {
	all := demandSaid(s.Result.Catalogue, s.Demand, s.EachHead)
	if s.Demand == nil {
		all = append(all, fmt.Sprintf("%s of each head are taken to be made in a year", Pieces(s.EachHead)))
	}
	all = append(all, "a head that can take several tips is counted with the first")
	if len(s.Wanted.Existing) > 0 {
		all = append(all, "the sizes that exist are taken to be on offer for every tip")
	}
	if s.Standards != nil {
		all = append(all, fmt.Sprintf("bringing a hosel to size is taken to need %s minutes and %s for each millimetre off its diameter: start values, from memory",
			minutes(s.Common.Minutes), minutes(s.Common.MinutesPerMM)))
	}
	return all
}

// ShowSizes lists sizes in the reader's units.
func ShowSizes(list []measure.Length, units fitcalc.Units) string {
	if len(list) == 0 {
		return "none"
	}
	texts := make([]string, len(list))
	for i, l := range list {
		texts[i] = short1(l, units)
	}
	if units == fitcalc.Metric {
		return strings.Join(texts, ", ") + " mm"
	}
	return strings.Join(texts, ", ") + " in"
}

func short1(l measure.Length, units fitcalc.Units) string {
	if units == fitcalc.Metric {
		text, _ := l.FormatMillimetres(2)
		return text
	}
	text, _ := l.FormatInches(3)
	return strings.TrimPrefix(text, "0")
}

// Lines is a short account for a person at a terminal.
func (s *Sizes) Lines(units fitcalc.Units) []string {
	lines := demandLines(s.Demand)
	for i := range s.Made.Tips {
		lines = append(lines, s.tipLines(&s.Made.Tips[i], units)...)
	}
	if n := len(s.Made.Left); n > 0 {
		lines = append(lines, "left out  "+phrase.Count(n, "head")+": "+s.leftBy())
	}
	if s.Standards != nil {
		lines = append(lines, s.standardLines(units)...)
	}
	for _, a := range s.Assumed() {
		lines = append(lines, "assumed   "+a)
	}
	return lines
}

func (s *Sizes) tipLines(t *stock.TipSizes, units fitcalc.Units) []string {
	name := t.Tip + " tips"
	head := fmt.Sprintf("%s, %s, %s a year", name, phrase.Count(len(t.Heads), "head"), Pieces(t.Yearly))
	if !t.Chosen.Feasible {
		return []string{head + ": no number of sizes serves them"}
	}
	said := phrase.CountOf(len(t.Chosen.New), "new size serves all", "new sizes serve all")
	if !t.Enough {
		said = fmt.Sprintf("%s not serve all; %d do", phrase.CountOf(s.Wanted.Count, "new size does", "new sizes do"), t.Chosen.Count)
	}
	lines := []string{head + ": " + said, fmt.Sprintf("  %s: %s of turning a year", ShowSizes(t.Chosen.New, units), Hours(t.Chosen.Cost))}
	if t.Now > 0 {
		lines = append(lines, fmt.Sprintf("  the ferrules of the catalogue need %s for the same heads, these %s", Hours(t.Now), Hours(t.Then)))
	}
	if next := t.Chosen.Count + 1; next < len(t.Curve.Points) {
		lines = append(lines, fmt.Sprintf("  one size more would save %s a year", Hours(t.Curve.Points[next].Saves)))
	}
	return lines
}

// leftBy counts the heads that are left out by the reason.
func (s *Sizes) leftBy() string {
	var order []string
	counts := map[string]int{}
	for _, l := range s.Made.Left {
		if counts[l.Why] == 0 {
			order = append(order, l.Why)
		}
		counts[l.Why]++
	}
	for i, why := range order {
		order[i] = fmt.Sprintf("%d because %s", counts[why], why)
	}
	return strings.Join(order, "; ")
}

// BestStandard returns the choice of common hosel sizes that saves most, nil where none is within reach of every hosel.
func (s *Sizes) BestStandard() *stock.Standard {
	var best *stock.Standard
	for i := range s.Standards {
		if p := &s.Standards[i]; p.Feasible && (best == nil || p.Saves > best.Saves) {
			best = p
		}
	}
	return best
}

// Standard says what a choice of common hosel sizes comes to, as a clause.
func (s *Sizes) Standard(i int, units fitcalc.Units) string {
	p := &s.Standards[i]
	if !p.Feasible {
		return phrase.Count(p.Count, "size") + ": not within reach of every hosel"
	}
	gain := "saves " + Hours(p.Saves) + " a year"
	if p.Saves < 0 {
		gain = "does not pay: " + Hours(-p.Saves) + " a year more"
	}
	return fmt.Sprintf("%s, %s: %s of work at the hosels in place of %s of turning; %s", phrase.Count(len(p.ODs), "size"), ShowSizes(p.ODs, units), Hours(p.Work), Hours(p.TurningNow), gain)
}

func (s *Sizes) standardLines(units fitcalc.Units) []string {
	best := s.BestStandard()
	if best == nil {
		return []string{fmt.Sprintf("hosels    no %d common sizes are within reach of every hosel when %s may come off", s.Common.Most, units.Show(s.Common.MostRemoved))}
	}
	for i := range s.Standards {
		if &s.Standards[i] == best {
			return []string{"hosels    " + s.Standard(i, units)}
		}
	}
	return nil
}

// SizesVersion is the version of the form of sizes.json.
const SizesVersion = 1

type sizesJSON struct {
	Version     int              `json:"version"`
	Files       []tell.Input     `json:"files"`
	Settings    sizesSettings    `json:"settings"`
	Demand      *demandJSON      `json:"demand"`
	Assumed     []string         `json:"assumed"`
	Heads       sizesHeads       `json:"heads"`
	Tips        []tipJSON        `json:"tips"`
	Together    []togetherJSON   `json:"together"`
	Left        []leftJSON       `json:"left"`
	Standardise *standardiseJSON `json:"standardise"`
}

type sizesSettings struct {
	Count      int           `json:"count"`
	GridMM     *json.Number  `json:"grid_mm"`
	ExistingMM []json.Number `json:"existing_mm"`
	LengthMM   json.Number   `json:"length_mm"`
	EachHead   json.Number   `json:"each_head"`
}

type sizesHeads struct {
	All    int `json:"all"`
	Served int `json:"served"`
	Left   int `json:"left"`
	// Unserved take a tip that no number of sizes serves.
	Unserved int `json:"unserved"`
}

type tipJSON struct {
	Tip      string           `json:"tip"`
	Heads    int              `json:"heads"`
	Yearly   json.Number      `json:"yearly"`
	Enough   bool             `json:"enough"`
	Feasible bool             `json:"feasible"`
	Count    int              `json:"count"`
	Minutes  *json.Number     `json:"minutes"`
	Now      *nowJSON         `json:"now"`
	Sizes    []sizeJSON       `json:"sizes"`
	Curve    []sizesPointJSON `json:"curve"`
}

type nowJSON struct {
	Minutes json.Number `json:"minutes"`
	Then    json.Number `json:"then_minutes"`
	Without int         `json:"heads_without"`
}

type sizesPointJSON struct {
	Count    int           `json:"count"`
	Feasible bool          `json:"feasible"`
	NewMM    []json.Number `json:"new_mm"`
	NewIn    []json.Number `json:"new_in"`
	Minutes  *json.Number  `json:"minutes"`
	Saves    *json.Number  `json:"saves_minutes"`
	Hours    *json.Number  `json:"saves_hours"`
}

type rangeJSON struct {
	Least *json.Number `json:"least"`
	Most  *json.Number `json:"most"`
}

type sizeJSON struct {
	BaseODMM          json.Number `json:"base_od_mm"`
	BaseODIn          json.Number `json:"base_od_in"`
	BaseODToleranceMM json.Number `json:"base_od_tolerance_mm"`
	BoreMM            json.Number `json:"bore_mm"`
	BoreIn            json.Number `json:"bore_in"`
	BoreToleranceMM   json.Number `json:"bore_tolerance_mm"`
	BoreRangeMM       *rangeJSON  `json:"bore_range_mm"`
	LengthMM          json.Number `json:"length_mm"`
	LengthRangeMM     *rangeJSON  `json:"length_range_mm"`
	New               bool        `json:"new"`
	Yearly            json.Number `json:"yearly"`
	Minutes           json.Number `json:"minutes"`
	Stepped           []partRef   `json:"stepped"`
	Takes             []takesJSON `json:"takes"`
}

type takesJSON struct {
	Head         partRef         `json:"head"`
	Yearly       json.Number     `json:"yearly"`
	YearlySource []finding.Place `json:"yearly_source"`
	HoselODMM    json.Number     `json:"hosel_od_mm"`
	OversizeMM   spread          `json:"oversize_mm"`
	TurnDownMM   spread          `json:"turn_down_mm"`
	TurnDownIn   spread          `json:"turn_down_in"`
	Flush        bool            `json:"flush"`
	MinutesEach  json.Number     `json:"minutes_each"`
	Against      []string        `json:"against"`
}

type togetherJSON struct {
	Count    int            `json:"count"`
	Feasible bool           `json:"feasible"`
	ByTip    map[string]int `json:"by_tip"`
	Minutes  *json.Number   `json:"minutes"`
	Saves    *json.Number   `json:"saves_minutes"`
}

type leftJSON struct {
	Head partRef `json:"head"`
	Why  string  `json:"why"`
}

type standardiseJSON struct {
	MostRemovedMM json.Number    `json:"most_removed_mm"`
	Points        []standardJSON `json:"points"`
	Left          []partRef      `json:"left"`
}

type standardJSON struct {
	Count      int           `json:"count"`
	Feasible   bool          `json:"feasible"`
	ODsMM      []json.Number `json:"ods_mm"`
	Work       *json.Number  `json:"work_minutes"`
	TurningNow *json.Number  `json:"turning_now_minutes"`
	Saves      *json.Number  `json:"saves_minutes"`
	Heads      []broughtJSON `json:"heads"`
}

type broughtJSON struct {
	Head    partRef     `json:"head"`
	FromMM  json.Number `json:"from_mm"`
	ToMM    json.Number `json:"to_mm"`
	Minutes json.Number `json:"minutes"`
}

func lengths(list []measure.Length, in func(measure.Length) json.Number) []json.Number {
	numbers := make([]json.Number, len(list))
	for i, l := range list {
		numbers[i] = in(l)
	}
	return numbers
}

func known(ok bool, n json.Number) *json.Number {
	if !ok {
		return nil
	}
	return &n
}

func rangeOf(i measure.Interval) *rangeJSON {
	if i.Empty() {
		return nil
	}
	return &rangeJSON{known(i.Lower().Bounded(), decimal.Millimetres(i.Lower().At())), known(i.Upper().Bounded(), decimal.Millimetres(i.Upper().At()))}
}

// WriteSizesJSON writes sizes.json. The error is the writer's.
func WriteSizesJSON(w io.Writer, s *Sizes) error {
	return writeJSON(w, "the sizes as JSON", s.json())
}

func (s *Sizes) length() measure.Length {
	if s.Wanted.Length.Sign() > 0 {
		return s.Wanted.Length
	}
	return measure.Thou(500)
}

func (s *Sizes) json() sizesJSON {
	r := s.Result
	j := sizesJSON{
		Version: SizesVersion, Files: tell.Inputs(r, s.Inputs), Demand: demandOf(s.Demand), Assumed: append([]string{}, s.Assumed()...),
		Settings: sizesSettings{s.Wanted.Count, known(s.Wanted.Grid.Sign() > 0, decimal.Millimetres(s.Wanted.Grid)), lengths(s.Wanted.Existing, decimal.Millimetres), decimal.Millimetres(s.length()), count(s.EachHead)},
		Heads:    sizesHeads{All: len(r.Catalogue.Heads), Left: len(s.Made.Left)}, Tips: []tipJSON{}, Together: []togetherJSON{}, Left: []leftJSON{},
	}
	for i := range s.Made.Tips {
		tip := s.tip(&s.Made.Tips[i])
		for _, size := range tip.Sizes {
			j.Heads.Served += len(size.Takes)
		}
		j.Tips = append(j.Tips, tip)
	}
	j.Heads.Unserved = j.Heads.All - j.Heads.Left - j.Heads.Served
	for _, t := range s.Made.Together {
		one := togetherJSON{Count: t.Count, Feasible: t.Feasible, ByTip: map[string]int{}, Minutes: known(t.Feasible, minutes(t.Minutes)), Saves: known(t.Feasible, minutes(t.Saves))}
		for i, n := range t.ByTip {
			one.ByTip[s.Made.Tips[i].Tip] = n
		}
		j.Together = append(j.Together, one)
	}
	for _, l := range s.Made.Left {
		j.Left = append(j.Left, leftJSON{headRef(r, l.Head), l.Why})
	}
	if s.Standards != nil {
		j.Standardise = s.standardise()
	}
	return j
}

func (s *Sizes) tip(t *stock.TipSizes) tipJSON {
	j := tipJSON{
		Tip: t.Tip, Heads: len(t.Heads), Yearly: count(t.Yearly), Enough: t.Enough, Feasible: t.Chosen.Feasible, Count: len(t.Chosen.New),
		Minutes: known(t.Chosen.Feasible, minutes(t.Chosen.Cost)), Sizes: []sizeJSON{}, Curve: []sizesPointJSON{},
	}
	if len(s.Result.Catalogue.Ferrules) > 0 {
		j.Now = &nowJSON{minutes(t.Now), minutes(t.Then), t.Without}
	}
	for i := range t.Sizes {
		j.Sizes = append(j.Sizes, s.size(&t.Sizes[i]))
	}
	for n, p := range t.Curve.Points {
		saves := p.Feasible && n > 0 && t.Curve.Points[n-1].Feasible
		j.Curve = append(j.Curve, sizesPointJSON{
			p.Count, p.Feasible, lengths(p.New, decimal.Millimetres), lengths(p.New, decimal.Inches), known(p.Feasible, minutes(p.Cost)), known(saves, minutes(p.Saves)), known(saves, hours(p.Saves)),
		})
	}
	return j
}

func (s *Sizes) size(m *stock.MadeSize) sizeJSON {
	j := sizeJSON{
		BaseODMM: decimal.Millimetres(m.OD), BaseODIn: decimal.Inches(m.OD), BaseODToleranceMM: decimal.Millimetres(m.BaseODTolerance), BoreMM: decimal.Millimetres(m.BestBore), BoreIn: decimal.Inches(m.BestBore),
		BoreToleranceMM: decimal.Millimetres(m.BoreTolerance), BoreRangeMM: rangeOf(m.Bore), LengthMM: decimal.Millimetres(m.ForLength), LengthRangeMM: rangeOf(m.Length), New: m.New,
		Yearly: count(m.Yearly), Minutes: minutes(m.Minutes), Stepped: refs(s.Result, m.Stepped, headRef), Takes: []takesJSON{},
	}
	for _, t := range m.Taken {
		places, _ := Numbered(s.Demand, t.Head)
		one := takesJSON{
			Head: headRef(s.Result, t.Head), Yearly: count(t.Yearly), YearlySource: append([]finding.Place{}, places...),
			HoselODMM: decimal.Millimetres(s.Result.Catalogue.Heads[t.Head].Head.JointOD().Middle()), OversizeMM: spreadMM(t.Oversize), TurnDownMM: spreadMM(t.TurnDown),
			TurnDownIn: spreadIn(t.TurnDown), Flush: t.Flush, MinutesEach: minutes(t.Minutes), Against: []string{},
		}
		for _, reason := range t.Against {
			one.Against = append(one.Against, reason.Code.String())
		}
		j.Takes = append(j.Takes, one)
	}
	return j
}

func (s *Sizes) standardise() *standardiseJSON {
	j := &standardiseJSON{MostRemovedMM: decimal.Millimetres(s.Common.MostRemoved), Points: []standardJSON{}, Left: refs(s.Result, s.NotStandard, headRef)}
	for _, p := range s.Standards {
		one := standardJSON{
			Count: p.Count, Feasible: p.Feasible, ODsMM: lengths(p.ODs, decimal.Millimetres), Work: known(p.Feasible, minutes(p.Work)),
			TurningNow: known(p.Feasible, minutes(p.TurningNow)), Saves: known(p.Feasible, minutes(p.Saves)), Heads: []broughtJSON{},
		}
		for _, b := range p.Heads {
			one.Heads = append(one.Heads, broughtJSON{headRef(s.Result, b.Head), decimal.Millimetres(b.From), decimal.Millimetres(b.To), minutes(b.Minutes)})
		}
		j.Points = append(j.Points, one)
	}
	return j
}

// WriteSizesCSV writes sizes.csv: a line for each size to order. Lengths are in the unit that the headings name. The error is the writer's.
func WriteSizesCSV(w io.Writer, s *Sizes, units fitcalc.Units) error {
	t := report.Section{Name: "the sizes", Columns: []report.Column{
		report.Text("tip", 0), report.Fine("base_od", 0), report.Fine("base_od_tolerance", 0), report.Fine("bore", 0), report.Fine("bore_tolerance", 0), report.Fine("bore_least", 0),
		report.Fine("bore_most", 0), report.Along("length", 0), report.Fine("length_least", 0), report.Fine("length_most", 0), report.Word("new", 0), report.Count("heads", 0),
		report.Pieces("pieces_a_year", 0), report.Minutes("turning_minutes_a_year", 0), report.Text("heads_with_counterbore", 0), report.Text("heads_it_does_not_suit", 0),
		report.Text("used_on", 0),
	}}
	for i := range s.Made.Tips {
		tip := &s.Made.Tips[i]
		for k := range tip.Sizes {
			t.Rows = append(t.Rows, s.csvRow(tip.Tip, &tip.Sizes[k]))
		}
	}
	return report.WriteCSV(w, &t, units)
}

func (s *Sizes) csvRow(tip string, m *stock.MadeSize) []any {
	var heads, against []int
	for _, taken := range m.Taken {
		heads = append(heads, taken.Head)
		if len(taken.Against) > 0 {
			against = append(against, taken.Head)
		}
	}
	list := func(heads []int) string { return strings.Join(headsOf(s.Result, heads), "; ") }
	boreFrom, boreTo := report.Ends(m.Bore)
	lengthFrom, lengthTo := report.Ends(m.Length)
	return []any{
		tip, report.Of(m.OD), report.Of(m.BaseODTolerance), report.Of(m.BestBore), report.Of(m.BoreTolerance), boreFrom, boreTo, report.Of(m.ForLength), lengthFrom, lengthTo,
		isNew(m), len(m.Taken), m.Yearly, m.Minutes, list(m.Stepped), list(against), list(heads),
	}
}

// WriteSizesSVG draws for each tip the hours of turning by the number of new sizes. The error is the writer's.
func WriteSizesSVG(w io.Writer, s *Sizes) error {
	c := curve{
		id: "sizes", title: "What a year of turning takes, by the number of new sizes for each tip", across: "new base ODs for the tip", up: "bench hours a year",
		said: "Each line begins with the fewest sizes that serve all heads of the tip; a ring marks the choice.",
	}
	for i := range s.Made.Tips {
		t := &s.Made.Tips[i]
		one := line{name: t.Tip}
		for _, p := range t.Curve.Points {
			if p.Feasible {
				one.points = append(one.points, dot{x: p.Count, y: p.Cost / 60, label: Hours(p.Cost), chosen: p.Count == t.Chosen.Count})
			}
		}
		c.lines = append(c.lines, one)
	}
	return c.write(w)
}
