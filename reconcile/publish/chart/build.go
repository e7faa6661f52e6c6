package chart

import (
	"cmp"
	"errors"
	"fmt"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
)

// builder puts the data of a page together.
type builder struct {
	result *matrix.Result
	opts   Options
	// language says what package fitcalc computes, and words are those of the page besides.
	language *say.Language
	words    words
	chart    *chart
	// tolerance is that of a measured hosel.
	tolerance measure.Length
	room      room

	heads   []fitcalc.Head // as package matrix decided them
	forms   []fitcalc.Ferrule
	formIDs map[fitcalc.Ferrule]int
	// boresByDepth is set where the bore of some ferrule hangs on how deep the tip goes in.
	boresByDepth bool
	tips         []fitcalc.Tip
	benchSet     []int // the tips that can be chosen for a measured hosel

	suppliers pool[string]
	colours   pool[string]
	dims      pool[[3]int64]
	reasons   pool[reasonData]
	outcomes  pool[[]int]
	spreads   pool[spread]
	answers   pool[[]int]
	tipSets   pool[[]int]
	courses   pool[course]
	rows      pool[[]int64]
	hosels    []hosel
	hoselIDs  map[fitcalc.Head]int
}

// room is what a page has room for, so that a browser opens it in a second.
type room struct {
	// courses is about how many it holds. Beyond it a measured hosel of a head is answered as one that is measured without its head: by its
	// OD, its tip and the form of its top. Thousands of heads have as many bores and recesses.
	courses int
	// listed is up to how many pairs that fit all stand in it. Of a larger catalogue it has as many as best of each head, and how many
	// there are: nobody looks at the hundredth ferrule of a head.
	listed, best int
}

var usualRoom = room{courses: 150_000, listed: 30_000, best: matrix.UsualBest}

// crowded reports whether the page has the best ferrules of each head only.
func (b *builder) crowded() bool { return b.result.Listed > b.room.listed }

// hosel is a head with its OD left open, and the tips it is to be decided on.
type hosel struct {
	head fitcalc.Head
	tips []int
	// usual is the hosel of the bench whose courses stand for its own, -1 where it has some.
	usual int
}

func newBuilder(r *matrix.Result, opts Options, l *say.Language) *builder {
	w := shown(l)
	b := &builder{
		result: r, opts: opts, language: l, words: w, tolerance: r.Shop.HoselODTolerance, room: usualRoom,
		formIDs: map[fitcalc.Ferrule]int{}, hoselIDs: map[fitcalc.Head]int{},
	}
	if !opts.Caliper.IsZero() {
		b.tolerance = opts.Caliper
	}
	columns := opts.Columns
	if columns == nil {
		columns = usualColumns
	}
	columns = append([]Column{}, columns...)
	if opts.Prices {
		columns = append(columns, columnPrice)
	}
	b.chart = &chart{
		Version: version, Language: l.Tag(), Units: opts.Units.String(), Columns: columns, Words: w,
		Limits: limits{
			FlushStep: pm(r.Shop.FlushStep), TurnLimit: pm(r.Shop.TurnLimit), Measured: pm(b.tolerance),
			Caliper: !opts.Caliper.IsZero(), Most: pm(measure.Millimetres(2000)), Insertion: pm(r.Shop.InsertionDepth),
		},
	}
	return b
}

// build returns the data of the page.
func (b *builder) build() (*chart, error) {
	b.takeTips()
	b.takeFerrules()
	if err := b.takePrices(); err != nil {
		return nil, err
	}
	b.takeBench()
	b.takeHeads()
	if err := b.walkAll(); err != nil {
		return nil, err
	}
	c := b.chart
	c.Suppliers, c.Colours, c.Dims, c.Reasons, c.Outcomes = filled(b.suppliers.all), filled(b.colours.all), filled(b.dims.all), filled(b.reasons.all), filled(b.outcomes.all)
	c.Answers, c.TipSets, c.Spreads = filled(b.answers.all), filled(b.tipSets.all), filled(b.spreads.all)
	c.Courses, c.Rows = b.byFrequency()
	c.shaped()
	c.Verdicts = []string{fitcalc.NoVerdict.String()}
	for _, v := range fitcalc.Verdicts() {
		c.Verdicts = append(c.Verdicts, v.String())
	}
	c.Assumptions = []string{}
	for a := fitcalc.Assumption(0); a.Code() != ""; a++ {
		c.Assumptions = append(c.Assumptions, a.Code())
	}
	return c, nil
}

// filled returns an empty list for none, so that it is [] and not null.
func filled[T any](all []T) []T {
	if all == nil {
		return []T{}
	}
	return all
}

// takeTips takes the tips of the result, and the usual sizes that are not among them: a reader may have one of those.
func (b *builder) takeTips() {
	sizes := map[string]bool{}
	add := func(name string, tip fitcalc.Tip) {
		b.tips = append(b.tips, tip)
		if tip.Form() == fitcalc.TipUnknown {
			b.chart.Tips = append(b.chart.Tips, tipData{name, [][2]int64{}})
			return
		}
		b.chart.Tips = append(b.chart.Tips, tipData{name, corners(&tip)})
		end := tip.Diameter(measure.Length{})
		sizes[sizeOf(tip.Form(), end.Nominal())] = true
		b.benchSet = append(b.benchSet, len(b.tips)-1)
	}
	for i := range b.result.Tips {
		add(b.result.Tips[i].Name, b.result.Tips[i].Tip)
	}
	for _, s := range fitcalc.StandardTips() {
		if !sizes[sizeOf(s.Form, s.Diameter)] {
			add(s.Name, s.Tip(b.result.Shop))
		}
	}
	slices.SortStableFunc(b.benchSet, func(x, y int) int {
		return cmp.Compare(b.chart.Tips[x].At[0][1], b.chart.Tips[y].At[0][1])
	})
}

// corners are the positions at which a tip's diameter stops changing evenly, from its end upward, with the diameters there.
func corners(tip *fitcalc.Tip) [][2]int64 {
	var at [][2]int64
	for _, position := range append([]measure.Length{{}}, tip.Bends()...) {
		diameter := tip.Diameter(position)
		at = append(at, [2]int64{position.Picometres(), diameter.Nominal().Picometres()})
	}
	return at
}

// sizeOf allows for a size that was rounded to a hundredth of a millimetre.
func sizeOf(form fitcalc.TipForm, diameter measure.Length) string {
	rounded, _ := diameter.FormatMillimetres(1)
	return form.String() + rounded
}

func (b *builder) takeFerrules() {
	d := &b.chart.Ferrules
	*d = ferruleData{Part: []string{}, Description: []string{}, Supplier: []int{}, Form: []int{}, Colour: []int{}}
	b.chart.Forms = []formData{}
	for i := range b.result.Catalogue.Ferrules {
		f := &b.result.Catalogue.Ferrules[i]
		d.Part = append(d.Part, clean(f.Part))
		d.Description = append(d.Description, clean(f.Description))
		d.Supplier = append(d.Supplier, b.supplier(&f.Item))
		d.Form = append(d.Form, b.form(f.Ferrule))
		if b.crowded() {
			d.Fits = append(d.Fits, b.result.FerruleFits(i))
		}
		colour := clean(f.Colour)
		d.Colour = append(d.Colour, b.colours.id(colour, colour))
	}
}

// supplier gives the supplier of a part its index.
func (b *builder) supplier(of *catalog.Item) int {
	return b.suppliers.id(of.Supplier, b.supplierName(of))
}

// supplierName is what customers know the supplier of a part by: what the seller calls it, or else the sheet. Where neither says, a sheet
// is known by its file, and what files are called is no customer's business.
func (b *builder) supplierName(of *catalog.Item) string {
	if name, given := b.opts.Suppliers[of.Supplier]; given {
		return clean(name)
	}
	base := path.Base(strings.ReplaceAll(of.Source.File, `\`, "/"))
	if of.Supplier == strings.TrimSuffix(base, path.Ext(base)) {
		return ""
	}
	return clean(of.Supplier)
}

// clean returns text from a sheet without what JSON and HTML have no room for.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}

// form gives ferrules of one form one index. Sizes that no ferrule can have are left out, as package matrix does.
func (b *builder) form(f fitcalc.Ferrule) int {
	if f.Validate() != nil {
		f = f.WithoutSizes()
	}
	f.Material = fitcalc.MaterialUnknown // it has no bearing on the verdict
	if at, known := b.formIDs[f]; known {
		return at
	}
	at := len(b.forms)
	b.formIDs[f] = at
	b.forms = append(b.forms, f)
	base := f.BaseOD.OrPlusMinus(b.result.Shop.FerruleODTolerance)
	data := formData{
		Base: b.dim(base), Spread: b.spread(base), Bore: size(f.JointBore(&fitcalc.Head{}, &b.result.Shop)), Top: size(f.TopOD), Length: size(f.Length),
		Style: int(f.TakenStyle()),
	}
	if !f.Bore.Given() {
		data.ForTip = f.ForTip.String()
		tip := f.ForTip.Tip(b.result.Shop)
		b.boresByDepth = b.boresByDepth || tip.Form() == fitcalc.TipTapered
	}
	if spigot := f.Below(); spigot.OD.Given() && spigot.Length.Given() {
		data.Spigot = &[2]picometres{size(spigot.OD), size(spigot.Length)}
	}
	b.chart.Forms = append(b.chart.Forms, data)
	return at
}

// dim gives a dimension its index, -1 where it is not given: its usual size, in the middle of its limits, and these.
func (b *builder) dim(d measure.Dim) int {
	if !d.Given() {
		return -1
	}
	sizes, measured := [3]int64{d.Middle().Picometres(), d.Lower().Picometres(), d.Upper().Picometres()}, d.Origin() == measure.Measured
	at := b.dims.id(fmt.Sprint(sizes, measured), sizes)
	if measured && !slices.Contains(b.chart.DimsMeasured, at) {
		b.chart.DimsMeasured = append(b.chart.DimsMeasured, at)
	}
	return at
}

// benchTops are the forms of top that can be chosen for a measured hosel, the usual one first.
var benchTops = []fitcalc.TopForm{
	fitcalc.TopFlat, fitcalc.TopCountersunk, fitcalc.TopCounterbored, fitcalc.TopRounded, fitcalc.TopUnknown,
}

func (b *builder) takeBench() {
	for _, top := range benchTops {
		at := b.hosel(fitcalc.Head{Top: top}, b.benchSet)
		b.chart.Bench = append(b.chart.Bench, benchData{Top: int(top), Hosel: at})
	}
}

// hosel gives a head without its OD its index, and adds tips that it is to be decided on.
func (b *builder) hosel(h fitcalc.Head, tips []int) int {
	h = open(h, b.tolerance)
	at, known := b.hoselIDs[h]
	if !known {
		at = len(b.hosels)
		b.hoselIDs[h] = at
		b.hosels = append(b.hosels, hosel{head: h, usual: -1})
	}
	for _, tip := range tips {
		if b.tips[tip].Form() != fitcalc.TipUnknown && !slices.Contains(b.hosels[at].tips, tip) {
			b.hosels[at].tips = append(b.hosels[at].tips, tip)
		}
	}
	return at
}

func (b *builder) takeHeads() {
	d := &b.chart.Heads
	*d = headData{
		Part: []string{}, Description: []string{}, Supplier: []int{}, Category: []int{}, OD: []int{}, Hosel: []int{}, Tips: []int{},
		Assumed: []int{}, Answer: []int{},
	}
	for i := range b.result.Catalogue.Heads {
		h := &b.result.Catalogue.Heads[i]
		head := h.Head
		if head.Validate() != nil { // as package matrix does
			head = fitcalc.Head{Category: head.Category, Top: head.Top}
		}
		b.heads = append(b.heads, head)
		var tips []int
		for _, tip := range b.result.HeadTips[i].Tips {
			tips = append(tips, int(tip))
		}
		assumed := 0
		if b.result.HeadTips[i].Assumed {
			assumed = 1
		}
		d.Part = append(d.Part, clean(h.Part))
		d.Description = append(d.Description, clean(h.Description))
		d.Supplier = append(d.Supplier, b.supplier(&h.Item))
		d.Category = append(d.Category, int(h.Category))
		d.OD = append(d.OD, b.dim(b.hoselOD(i)))
		d.Hosel = append(d.Hosel, b.hosel(head, tips))
		d.Tips = append(d.Tips, b.tipSets.id(fmt.Sprint(tips), tips))
		d.Assumed = append(d.Assumed, assumed)
		d.Answer = append(d.Answer, b.answer(i))
		if b.crowded() {
			d.Fits = append(d.Fits, b.fits(i))
		}
	}
}

// fits is how many ferrules fit a head.
func (b *builder) fits(head int) int {
	n := 0
	for _, v := range fitcalc.Verdicts() {
		if v.Fits() {
			n += b.result.HeadCount(head, v)
		}
	}
	return n
}

// hoselOD returns the OD that a ferrule has to match, with the shop's tolerance where the sheet states none.
func (b *builder) hoselOD(head int) measure.Dim {
	return b.heads[head].JointOD().OrPlusMinus(b.result.Shop.HoselODTolerance)
}

// answer is what package matrix decided for a head: what fits and what cannot be decided, and where that is nothing, what comes
// nearest.
func (b *builder) answer(head int) int {
	flat := []int{}
	add := func(p matrix.Pair) {
		fit := b.result.Fit(p)
		r := resultOf(&fit)
		if b.crowded() {
			r.shorten()
		}
		flat = append(flat, int(p.Ferrule), b.intern(r), int(p.Tip), hundredths(fit.Work.Minutes))
	}
	for i, p := range b.result.HeadPairs(head) {
		if !p.Verdict.Fits() || i == b.room.best && b.crowded() {
			break // those that fit stand first
		}
		add(p)
	}
	for _, p := range b.asked(head) {
		add(p)
	}
	if len(flat) == 0 {
		if p, found := b.result.Nearest(head); found {
			add(p)
		} else if len(b.result.Catalogue.Ferrules) > 0 && b.heads[head].Top == fitcalc.TopRounded {
			add(matrix.Pair{Head: int32(head), Tip: b.result.HeadTips[head].Tips[0]}) // a head that takes none
		}
	}
	return b.answers.id(fmt.Sprint(flat), flat)
}

// mostAsked is up to how many pairs in reach every one that cannot be decided is shown with its head; of a larger catalogue a few are,
// since the page would grow with what nobody can answer on it.
const mostAsked = 100_000

// asked are the pairs of a head that cannot be decided.
func (b *builder) asked(head int) []matrix.Pair {
	if b.result.HeadCount(head, fitcalc.Ask) == 0 {
		return nil
	}
	if b.result.InReachCount() > mostAsked {
		return b.result.SomeAsked(head)
	}
	return slices.DeleteFunc(b.result.InReach(head), func(p matrix.Pair) bool { return p.Verdict != fitcalc.Ask })
}

// walkAll finds the course of every form on every hosel and tip.
func (b *builder) walkAll() error {
	type task struct{ hosel, tip, row int }
	type place struct {
		head fitcalc.Head
		tip  int
	}
	var tasks []task
	var places []place
	known := map[place]int{}
	most := max(len(b.chart.Bench)*len(b.benchSet), b.room.courses/max(1, len(b.forms)))
	for i := range b.hosels { // those of the bench stand first
		for _, tip := range b.hosels[i].tips {
			p := place{b.deep(b.hosels[i].head, tip), tip}
			at, seen := known[p]
			if !seen && len(places) == most {
				b.hosels[i].usual = b.usualHosel(&p.head)
				p.head = b.deep(b.hosels[b.hosels[i].usual].head, tip)
				at, seen = known[p]
			}
			if !seen {
				at = len(places)
				known[p], places = at, append(places, p)
			}
			tasks = append(tasks, task{i, tip, at})
		}
	}
	found := make([][][]leg, len(places))
	failed := make([]error, len(places))
	var work sync.WaitGroup
	workers := min(runtime.GOMAXPROCS(0), max(1, len(places)))
	for first := range workers {
		work.Go(func() {
			for i := first; i < len(places); i += workers {
				found[i], failed[i] = b.walkRow(places[i].head, places[i].tip)
			}
		})
	}
	work.Wait()
	if err := errors.Join(failed...); err != nil {
		return err
	}
	for i := range b.hosels {
		data, err := b.hoselData(i)
		if err != nil {
			return fmt.Errorf("a hosel of the chart: %w", err)
		}
		b.chart.Hosels = append(b.chart.Hosels, data)
	}
	type from struct {
		place int
		least int64
	}
	rows := map[from]int{}
	for _, t := range tasks {
		data := &b.chart.Hosels[t.hosel]
		data.Tips = append(data.Tips, t.tip)
		begins := from{t.row, b.least(t.hosel)}
		row, known := rows[begins]
		if !known {
			row = b.row(begins.least, found[t.row])
			rows[begins] = row
		}
		data.Rows = append(data.Rows, row)
	}
	return nil
}

// usualHosel is the hosel of the bench whose top has the form of a head's.
func (b *builder) usualHosel(h *fitcalc.Head) int {
	top := int(h.TakenTop())
	at := slices.IndexFunc(b.chart.Bench, func(d benchData) bool { return d.Top == top })
	return b.chart.Bench[max(0, at)].Hosel
}

// deepBore is a depth that leaves any tip long enough in the bore.
var deepBore = measure.Nominal(measure.Millimetres(500))

// deep returns a head with the depth of its bore set to one and the same where it has no bearing: on a parallel tip in a bore that
// is not tapered, unless it is too shallow, or a ferrule is known by a taper tip only, whose bore hangs on the depth. Heads differ in
// their depth more than in anything else.
func (b *builder) deep(h fitcalc.Head, tip int) fitcalc.Head {
	if b.tips[tip].Form() != fitcalc.TipParallel || h.BoreForm == fitcalc.BoreTapered || b.boresByDepth {
		return h
	}
	var fit fitcalc.Fit
	fitcalc.EvaluateInto(&fit, &h, &b.tips[tip], &fitcalc.Ferrule{}, &b.result.Shop)
	for r := range fit.Reasons() {
		if r.Code == fitcalc.BoreShallow {
			return h
		}
	}
	for _, d := range []*measure.Dim{&h.BoreDepth, &h.Adapter.BoreDepth} {
		if d.Given() {
			*d = deepBore
		}
	}
	return h
}

func (b *builder) walkRow(head fitcalc.Head, tip int) ([][]leg, error) {
	w := walker{head: head, tip: &b.tips[tip], shop: &b.result.Shop, brief: b.crowded()}
	row := make([][]leg, len(b.forms))
	for i := range b.forms {
		w.ferrule = &b.forms[i]
		legs, err := w.walk()
		if err != nil {
			return nil, err
		}
		row[i] = legs
	}
	return row, nil
}

// row gives the courses of a row that begins at an OD their indexes, and the row its own.
func (b *builder) row(least int64, legs [][]leg) int {
	flat := []int64{least}
	for _, l := range legs {
		c := make(course, len(l))
		for i := range l {
			c[i] = stretch{outcome: b.intern(l[i].result), minutes: l[i].minutes}
			if i > 0 {
				c[i].from = l[i].from.Picometres()
			}
		}
		flat = append(flat, int64(b.courses.id(fmt.Sprint(c), c)))
	}
	return b.rows.id(fmt.Sprint(flat), flat)
}

// least is the smallest OD that leaves a hosel a wall and a lower limit above nothing.
func (b *builder) least(at int) int64 {
	if usual := b.hosels[at].usual; usual >= 0 {
		at = usual
	}
	h := &b.hosels[at].head
	inner := b.tolerance
	sizes := []measure.Dim{h.Adapter.Bore}
	if !h.Adapter.Given() {
		sizes = []measure.Dim{h.Bore, h.Countersink.Mouth, h.Counterbore.Diameter}
	}
	for _, d := range sizes {
		inner = measure.Max(inner, d.Nominal())
	}
	return inner.Add(one).Picometres()
}

func (b *builder) hoselData(at int) (hoselData, error) {
	h := &b.hosels[at].head
	of, err := fitcalc.Resolve(*h, fitcalc.Tip{}, fitcalc.Ferrule{}, b.result.Shop)
	if err != nil {
		return hoselData{}, err
	}
	d := hoselData{Top: int(h.TakenTop()), Bore: size(of.Bore.Dim), Depth: size(of.BoreDepth.Dim), Tips: []int{}, Rows: []int{}, Usual: b.hosels[at].usual >= 0}
	if of.HoselOD.Field == fitcalc.FieldAdapterOD {
		d.Top = sleeveTop
	}
	// Without a bore there is no telling how deep a cone goes that states no depth.
	if c := &h.Countersink; c.Mouth.Given() && (of.Bore.Given() || c.Depth.Given()) {
		if mouth, _, depth, there := of.Countersink(of.Bore.Nominal()); there {
			d.Sink = &[2]picometres{pm(mouth), pm(depth)}
		}
	}
	if c := h.Counterbore; c.Diameter.Given() && c.Depth.Given() {
		d.Counter = &[2]picometres{size(c.Diameter), size(c.Depth)}
	}
	return d, nil
}

// byFrequency renumbers the courses so that those that stand in rows most often have the shortest numbers.
func (b *builder) byFrequency() ([]course, [][]int64) {
	counts := make([]int, len(b.courses.all))
	for _, row := range b.rows.all {
		for _, c := range row[1:] {
			counts[c]++
		}
	}
	order := make([]int, len(counts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(counts[y], counts[x]) })
	courses, to := make([]course, len(order)), make([]int64, len(order))
	for i, old := range order {
		courses[i], to[old] = b.courses.all[old], int64(i)
	}
	rows := make([][]int64, len(b.rows.all))
	for i, row := range b.rows.all {
		rows[i] = []int64{row[0]}
		for _, c := range row[1:] {
			rows[i] = append(rows[i], to[c])
		}
	}
	return courses, rows
}
