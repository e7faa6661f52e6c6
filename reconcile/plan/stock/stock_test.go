package stock_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/facility"
	"example.com/seatline/reconcile/plan/sizes"
	"example.com/seatline/reconcile/plan/stock"
)

func mm(x float64) measure.Dim {
	return measure.Nominal(measure.Micrometres(int64(math.Round(x * 1000))))
}

func head(part string, od float64) catalog.Head {
	return catalog.Head{Item: catalog.Item{Part: part}, Category: fitcalc.Iron, Head: fitcalc.Head{
		Category: fitcalc.Iron, HoselOD: mm(od), Bore: mm(9.5), BoreDepth: mm(32), Top: fitcalc.TopFlat,
	}}
}

// ferrule makes one for a .370 in parallel tip; a price is as a cell shows it, empty for none.
func ferrule(part, supplier string, od float64, price string) catalog.Ferrule {
	f := catalog.Ferrule{
		Item:    catalog.Item{Part: part, Supplier: supplier},
		Ferrule: fitcalc.Ferrule{Bore: mm(9.35), BaseOD: mm(od), Length: mm(12.7), Style: fitcalc.Plain},
	}
	if price != "" {
		fmt.Sscanf(strings.Trim(price, "$€ABCDEFGHIJKLMNOPQRSTUVWXYZ "), "%g", &f.Price)
		f.HasPrice = true
		f.Fields = f.Fields.With(catalog.Price, catalog.Field{Text: price, Number: f.Price, IsNumber: true})
	}
	return f
}

func inStock(f catalog.Ferrule, pieces float64) catalog.Ferrule {
	f.Fields = f.Fields.With(catalog.Stock, catalog.Field{Text: fmt.Sprint(pieces), Number: pieces, IsNumber: true})
	return f
}

// shop is five heads and five ferrules of two invented suppliers. The last head's top is rounded.
func shop() *matrix.Result {
	round := head("HR-5", 13.0)
	round.Head.Top = fitcalc.TopRounded
	c := &catalog.Catalogue{
		Heads: []catalog.Head{head("HA-1", 12.0), head("HB-2", 12.05), head("HC-3", 13.0), head("HD-4", 15.5), round},
		Ferrules: []catalog.Ferrule{
			inStock(ferrule("OR-121", "orrin", 12.1, "$1.00"), 40),
			inStock(ferrule("OR-127", "orrin", 12.7, "$0.90"), 0),
			ferrule("OR-131", "orrin", 13.1, "$1.10"),
			ferrule("VK-121", "velk", 12.12, "$1.40"),
			ferrule("VK-136", "velk", 13.6, "$0.80"),
		},
	}
	return matrix.Decide(c, fitcalc.DefaultShop())
}

func parts(r *matrix.Result, ferrules []int) []string {
	var names []string
	for _, i := range ferrules {
		names = append(names, r.Catalogue.Ferrules[i].Part)
	}
	return names
}

func carried(p *stock.Plan) (list []int) {
	for _, c := range p.Carry {
		list = append(list, c.Ferrule)
	}
	return list
}

func choose(t *testing.T, r *matrix.Result, change func(*stock.Settings)) *stock.Plan {
	t.Helper()
	s := stock.DefaultSettings()
	if change != nil {
		change(&s)
	}
	p, err := stock.Choose(context.Background(), r, s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestChoose(t *testing.T) {
	r := shop()
	p := choose(t, r, nil)
	if got := parts(r, carried(p)); !slices.Equal(got, []string{"OR-121", "OR-131"}) {
		t.Errorf("carries %v", got)
	}
	if !p.Proven || p.Gap != 0 || p.Currency != "USD" || math.Abs(p.LowerBound-p.Cost.Total()) > 1e-9 {
		t.Errorf("proven %v, gap %v, bound %v, cost %v %s", p.Proven, p.Gap, p.LowerBound, p.Cost, p.Currency)
	}
	if len(p.Served) != 3 || len(p.Unserved) != 2 {
		t.Fatalf("%d served, %d not", len(p.Served), len(p.Unserved))
	}
	large, round := p.Unserved[0], p.Unserved[1]
	if large.Head != 3 || !large.HasNearest || large.Bare || len(large.Reasons) == 0 || large.Reasons[0].Code != fitcalc.FlushUndersize {
		t.Errorf("the large hosel: %+v", large)
	}
	if round.Head != 4 || !round.Bare || round.HasNearest {
		t.Errorf("the rounded top: %+v", round)
	}
	if p.Today == nil || !slices.Equal(p.Today.Ferrules, []int{0}) || !slices.Equal(p.Today.Unserved, []int{2}) {
		t.Errorf("today: %+v", p.Today)
	}
	if p.Second == nil || p.Second.Cost < p.Cost.Total() || slices.Equal(p.Second.Ferrules, carried(p)) {
		t.Errorf("second: %+v", p.Second)
	}
	if len(p.Curve) != 2 || p.Curve[1].Cost != p.LowerBound || p.Curve[0].Found == p.Curve[0].Impossible {
		t.Errorf("curve: %+v", p.Curve)
	}
}

// The sums of the plan are those of its parts, by the words of the package.
func TestCostsAddUp(t *testing.T) {
	r := shop()
	r.Catalogue.Ferrules[0].Pack = 10
	p := choose(t, r, func(s *stock.Settings) {
		s.MustNot, s.MinimumOrder = []int{4}, map[int]int{2: 30}
		s.Yearly = []float64{7, 8, 9, 10, 11}
	})
	carrying := 25 + 0.2*1.00*10/2 + 25 + 0.2*1.10*30/2
	if math.Abs(p.Cost.Carrying-carrying) > 1e-9 {
		t.Errorf("carrying costs %v, want %v", p.Cost.Carrying, carrying)
	}
	work, pieces := 0.0, 0.0
	for _, s := range p.Served {
		work += s.Yearly * float64(s.Pair.Minutes)
		pieces += s.Yearly * r.Catalogue.Ferrules[s.Pair.Ferrule].Price
	}
	if math.Abs(p.Cost.Work-work) > 1e-9 || math.Abs(p.Cost.Pieces-pieces) > 1e-9 || math.Abs(pieces-(15*1.00+9*1.10)) > 1e-9 {
		t.Errorf("work %v and pieces %v, want %v and %v", p.Cost.Work, p.Cost.Pieces, work, pieces)
	}
	first, last := p.Carry[0], p.Carry[1]
	if first.Pieces != 15 || first.Packs != 2 || first.LeftOver != 5 || last.Lot != 30 || last.Packs != 1 || last.LeftOver != 21 {
		t.Errorf("orders: %+v, %+v", first, last)
	}
}

// What a carried ferrule saves is what the best plan without it costs more: here checked by forbidding it.
func TestSavesAgreesWithForbidding(t *testing.T) {
	r := shop()
	p := choose(t, r, nil)
	for _, c := range p.Carry {
		without := choose(t, r, func(s *stock.Settings) { s.MustNot = []int{c.Ferrule} })
		if len(without.Served) < len(p.Served) {
			if !c.Irreplaceable {
				t.Errorf("%d is not said to be irreplaceable", c.Ferrule)
			}
			continue
		}
		if saves := without.Cost.Total() - p.Cost.Total(); c.Irreplaceable || math.Abs(c.Saves-saves) > 1e-9 {
			t.Errorf("%d saves %v (%v), forbidding it costs %v", c.Ferrule, c.Saves, c.Irreplaceable, saves)
		}
	}
}

func TestConstraints(t *testing.T) {
	r := shop()
	contains := func(p *stock.Plan, f int) bool { return slices.Contains(carried(p), f) }
	if p := choose(t, r, func(s *stock.Settings) { s.Must = []int{3} }); !contains(p, 3) {
		t.Error("what must be carried is not")
	}
	if p := choose(t, r, func(s *stock.Settings) { s.MustNot = []int{0} }); contains(p, 0) || len(p.Served) != 3 {
		t.Error("what must not be carried is")
	}
	one := choose(t, r, func(s *stock.Settings) { s.MostTurnDown = measure.Micrometres(300) })
	for _, s := range one.Served {
		if measure.Micrometres(300).Less(s.Pair.TurnDown) {
			t.Errorf("head %d is turned down by %v", s.Head, s.Pair.TurnDown)
		}
	}
	p := choose(t, r, func(s *stock.Settings) { s.Exclude = []stock.Exclusion{{Head: 0, Ferrule: 0}} })
	for _, s := range p.Served {
		if s.Head == 0 && s.Pair.Ferrule == 0 {
			t.Error("an excluded pair is used")
		}
	}
	p = choose(t, r, func(s *stock.Settings) { s.SecondSource = []int{0, 2, 3} })
	if !slices.Equal(p.OneSource, []int{3}) || !(contains(p, 3) || contains(p, 4)) {
		t.Errorf("a second source: %v, without one %v", carried(p), p.OneSource)
	}
	withheld := choose(t, r, func(s *stock.Settings) {
		for f := range 5 {
			s.Exclude = append(s.Exclude, stock.Exclusion{Head: 2, Ferrule: f})
		}
	})
	if u := withheld.Unserved[0]; u.Head != 2 || !u.Withheld {
		t.Errorf("a head without an allowed pair: %+v", u)
	}
	s := stock.DefaultSettings()
	s.AtMost, s.MustNot = 1, []int{4}
	_, err := stock.Choose(context.Background(), r, s)
	var few *facility.InfeasibleError
	if !errors.As(err, &few) || !few.Proven {
		t.Errorf("one ferrule for all: %v", err)
	}
}

func TestMoney(t *testing.T) {
	priced := func(texts ...string) *matrix.Result {
		r := shop()
		for i, text := range texts {
			stocked := r.Catalogue.Ferrules[i]
			r.Catalogue.Ferrules[i] = ferrule(stocked.Part, stocked.Supplier, stocked.Ferrule.BaseOD.Nominal().Millimetres(), text)
		}
		return r
	}
	mixed := priced("$1.00", "€0.90", "$1.10", "€1.40", "€0.80")
	var refused *stock.CurrencyError
	if _, err := stock.Choose(context.Background(), mixed, stock.DefaultSettings()); !errors.As(err, &refused) ||
		cmp.Diff(map[string]string{"USD": "OR-121", "EUR": "OR-127"}, refused.Found) != "" {
		t.Errorf("two currencies: %v", err)
	}
	s := stock.DefaultSettings()
	s.Currency = "EUR"
	if _, err := stock.Choose(context.Background(), mixed, s); !errors.As(err, &refused) || refused.Wanted != "EUR" || len(refused.Found) != 1 {
		t.Errorf("dollars beside euros: %v", err)
	}
	rated := choose(t, mixed, func(s *stock.Settings) { s.Currency, s.Rates = "EUR", map[string]float64{"USD": 0.5} })
	for _, c := range rated.Carry {
		want := mixed.Catalogue.Ferrules[c.Ferrule].Price
		if slices.Contains([]int{0, 2}, c.Ferrule) {
			want /= 2
		}
		if c.PricePerPiece != want {
			t.Errorf("%d costs %v, want %v", c.Ferrule, c.PricePerPiece, want)
		}
	}
	free := choose(t, mixed, func(s *stock.Settings) { s.IgnorePrices = true })
	if free.Cost.Pieces != 0 {
		t.Errorf("prices ignored cost %v", free.Cost.Pieces)
	}
	partly := choose(t, priced("", "$1", "$2", "3", "$4"), func(s *stock.Settings) { s.Must = []int{0} })
	if partly.Carry[0].PricePerPiece != 2.5 || !strings.Contains(strings.Join(partly.Assumed, "\n"), "OR-121 has no price and is taken to cost 2.50") ||
		!strings.Contains(strings.Join(partly.Assumed, "\n"), "VK-121 names no currency and is taken to be in USD") {
		t.Errorf("%v, %q", partly.Carry[0].PricePerPiece, partly.Assumed)
	}
}

// Prices that name no currency are in that of their file, where it is given.
func TestPricesIn(t *testing.T) {
	r := shop()
	for i := range r.Catalogue.Ferrules {
		f := ferrule(r.Catalogue.Ferrules[i].Part, "orrin", 12.1, "2")
		f.Source.File = "orrin.csv"
		r.Catalogue.Ferrules[i] = f
	}
	p := choose(t, r, func(s *stock.Settings) {
		s.Currency, s.PricesIn, s.Rates = "EUR", map[string]string{"orrin.csv": "USD"}, map[string]float64{"USD": 0.5}
	})
	if p.Carry[0].PricePerPiece != 1 || strings.Contains(strings.Join(p.Assumed, " "), "names no currency") {
		t.Errorf("%v, %q", p.Carry[0].PricePerPiece, p.Assumed)
	}
}

// The currency of a bare number is that of its column.
func TestCurrencyOfColumn(t *testing.T) {
	item := catalog.Item{
		Source: catalog.Source{File: "orrin.csv", Sheet: "orrin", Row: 4},
		Fields: catalog.FieldsOf(map[catalog.Role]catalog.Field{catalog.Price: {Text: "1.25", Number: 1.25, IsNumber: true, Cell: "F4"}}),
	}
	c := &catalog.Catalogue{Tables: []catalog.Table{
		{File: "velk.csv", Sheet: "velk", Columns: []catalog.Column{{Column: "F", Role: catalog.Price, Unit: "GBP"}}},
		{File: "orrin.csv", Sheet: "orrin", Columns: []catalog.Column{{Column: "E", Role: catalog.Pack, Unit: "pcs"}, {Column: "F", Role: catalog.Price, Unit: "JPY"}}},
	}}
	if got := stock.CurrencyOf(c, &item); got != "JPY" {
		t.Errorf("got %q", got)
	}
}

// A bare sign is that of the supplier's currency where this has it too.
func TestCurrencyOfSign(t *testing.T) {
	for _, one := range []struct{ text, supplier, want string }{
		{"$1.25", "", "USD"}, {"$1.25", "CAD", "CAD"}, {"$1.25", "EUR", "USD"}, {"US$1.25", "CAD", "USD"}, {"¥125", "CNY", "CNY"}, {"1.25", "CAD", "CAD"},
	} {
		item := catalog.Item{Currency: one.supplier, Fields: catalog.FieldsOf(map[catalog.Role]catalog.Field{catalog.Price: {Text: one.text, Number: 1.25, IsNumber: true, Cell: "F4"}})}
		if got := stock.CurrencyOf(&catalog.Catalogue{}, &item); got != one.want {
			t.Errorf("%s of a supplier with %q: %q, want %q", one.text, one.supplier, got, one.want)
		}
	}
}

func TestSettingsRefused(t *testing.T) {
	tests := []struct {
		name   string
		change func(*stock.Settings)
		want   error
	}{
		{"a negative bench", func(s *stock.Settings) { s.BenchPerMinute = -1 }, stock.ErrAmount},
		{"no number", func(s *stock.Settings) { s.CarryPerYear = math.NaN() }, stock.ErrAmount},
		{"a rate of nothing", func(s *stock.Settings) { s.Rates = map[string]float64{"EUR": 0} }, stock.ErrAmount},
		{"too few numbers", func(s *stock.Settings) { s.Yearly = []float64{1} }, stock.ErrLength},
		{"a negative number", func(s *stock.Settings) { s.Yearly = []float64{1, 1, 1, 1, -1} }, stock.ErrAmount},
		{"no such ferrule", func(s *stock.Settings) { s.Must = []int{5} }, stock.ErrIndex},
		{"no such head", func(s *stock.Settings) { s.SecondSource = []int{-1} }, stock.ErrIndex},
		{"no such pair", func(s *stock.Settings) { s.Exclude = []stock.Exclusion{{Head: 5}} }, stock.ErrIndex},
		{"an order of none", func(s *stock.Settings) { s.MinimumOrder = map[int]int{0: -1} }, stock.ErrAmount},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := stock.DefaultSettings()
			tt.change(&s)
			_, err := stock.Choose(context.Background(), shop(), s)
			var setting *stock.SettingError
			if !errors.As(err, &setting) || !errors.Is(err, tt.want) {
				t.Errorf("got %v", err)
			}
		})
	}
}

func TestSubstitutes(t *testing.T) {
	r := shop()
	s, err := stock.Substitutes(r, 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(s.Heads, []int{0, 1}) || len(s.Alone) != 0 || len(s.Best) != 2 {
		t.Fatalf("got %+v", s)
	}
	if got := parts(r, []int{s.Others[0].Ferrule}); got[0] != "VK-121" || len(s.Others[0].Lost) != 0 {
		t.Errorf("the first substitute is %v: %+v", got, s.Others[0])
	}
	for i, o := range s.Others {
		sum := 0.0
		for _, c := range o.Changes {
			sum += float64(c.To.Minutes) - float64(c.From.Minutes)
		}
		if math.Abs(sum-o.Minutes) > 1e-9 || len(o.Changes)+len(o.Lost) != len(s.Heads) {
			t.Errorf("substitute %d: %+v", i, o)
		}
		if i > 0 && len(o.Lost) < len(s.Others[i-1].Lost) {
			t.Errorf("substitute %d loses fewer heads than the one before", i)
		}
	}
	if _, err := stock.Substitutes(r, 9, nil); !errors.Is(err, stock.ErrIndex) {
		t.Errorf("a ferrule that is none: %v", err)
	}
	if _, err := stock.Substitutes(r, 0, []float64{1}); !errors.Is(err, stock.ErrLength) {
		t.Errorf("too few numbers: %v", err)
	}
}

// The limits that sizes are chosen by are those that the engine decides by: at each end the verdict is what the end is for, and a
// picometre beyond it is not.
func TestHoselsAgreeWithVerdicts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := &catalog.Catalogue{Heads: []catalog.Head{head("H", 11.5+3*rapid.Float64Range(0, 1).Draw(t, "od"))}}
		r := matrix.Decide(c, fitcalc.DefaultShop())
		q, err := stock.Hosels(r, nil)
		if err != nil || len(q.Hosels) != 1 {
			t.Fatalf("got %+v, %v", q, err)
		}
		at := func(od measure.Length) fitcalc.Verdict {
			f := fitcalc.Ferrule{Bore: mm(9.35), BaseOD: measure.Nominal(od), Length: mm(12.7), Style: fitcalc.Plain}
			fit, err := fitcalc.Evaluate(c.Heads[0].Head, r.Tips[r.HeadTips[0].Tips[0]].Tip, f, r.Shop)
			if err != nil {
				t.Fatal(err)
			}
			return fit.Verdict
		}
		h, pm := q.Hosels[0], measure.Picometres(1)
		if !at(h.Least).Serves() || at(h.Least.Sub(pm)) != fitcalc.Measure {
			t.Errorf("least %v: %v, below it %v", h.Least, at(h.Least), at(h.Least.Sub(pm)))
		}
		if at(h.Most) != fitcalc.Turn || at(h.Most.Add(pm)) != fitcalc.Measure {
			t.Errorf("most %v: %v, above it %v", h.Most, at(h.Most), at(h.Most.Add(pm)))
		}
		if h.Flush.Sign() > 0 && (at(h.Flush) != fitcalc.Flush || at(h.Flush.Add(pm)) != fitcalc.Turn) {
			t.Errorf("flush up to %v: %v, above it %v", h.Flush, at(h.Flush), at(h.Flush.Add(pm)))
		}
		if h.Rate <= 0 || h.Fixed != r.Shop.MinutesToTurn {
			t.Errorf("costs: %+v", h)
		}
	})
}

// Two sizes for the three hosels that a ferrule can be made for: by hand, the closest two share one.
func TestHoselsGiveSizes(t *testing.T) {
	r := shop()
	q, err := stock.Hosels(r, []float64{10, 10, 10, 10, 10})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(q.Heads, []int{0, 1, 2, 3}) || !slices.Equal(q.Left, []int{4}) {
		t.Fatalf("heads %v, left %v", q.Heads, q.Left)
	}
	curve, err := sizes.Find(q.Hosels, sizes.Options{Most: 4})
	if err != nil {
		t.Fatal(err)
	}
	three := curve.Points[3]
	if !three.Feasible || curve.Points[1].Feasible {
		t.Fatalf("got %+v", curve.Points)
	}
	if want := []measure.Length{q.Hosels[1].Least, q.Hosels[2].Least, q.Hosels[3].Least}; cmp.Diff(fmt.Sprint(want), fmt.Sprint(three.New)) != "" {
		t.Errorf("got %v, want %v", three.New, want)
	}
}

func TestStandardise(t *testing.T) {
	r := shop()
	common := stock.Common{Most: 3, Grid: measure.Micrometres(50), MostRemoved: measure.Micrometres(200), Minutes: 2, MinutesPerMM: 10, Yearly: []float64{1, 2, 3, 4, 5}}
	got, left, err := stock.Standardise(r, common)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(left, []int{4}) || len(got) != 3 || got[0].Feasible || got[1].Feasible || !got[2].Feasible {
		t.Fatalf("left %v, got %+v", left, got)
	}
	// 12.05 comes down to 12.00 for 2 minutes and 0.05 × 10 more, twice a year.
	s := got[2]
	if fmt.Sprint(s.ODs) != "[12 mm 13 mm 15.5 mm]" || math.Abs(s.Work-5) > 1e-9 {
		t.Errorf("sizes %v, work %v", s.ODs, s.Work)
	}
	turning := 0.0
	for h, yearly := range []float64{1, 2, 3} {
		best, _ := r.Best(h)
		turning += yearly * (float64(best.Minutes) - r.Shop.MinutesToFit)
	}
	if math.Abs(s.TurningNow-turning) > 1e-6 || math.Abs(s.Saves-(turning-5)) > 1e-6 {
		t.Errorf("turning now %v, want %v; saves %v", s.TurningNow, turning, s.Saves)
	}
	for _, b := range s.Heads {
		if b.From.Less(b.To) || common.MostRemoved.Less(b.From.Sub(b.To)) {
			t.Errorf("head %d goes from %v to %v", b.Head, b.From, b.To)
		}
	}
	common.Most = 0
	if _, _, err := stock.Standardise(r, common); !errors.Is(err, stock.ErrAmount) {
		t.Errorf("no common size: %v", err)
	}
}

// many is a catalogue of a large shop.
func many(heads, ferrules int) *matrix.Result {
	c := &catalog.Catalogue{}
	for i := range heads {
		c.Heads = append(c.Heads, head(fmt.Sprintf("H%04d", i), 11.5+3*math.Mod(float64(i)*0.6180339887, 1)))
	}
	for i := range ferrules {
		price := fmt.Sprintf("$%.2f", 0.4+math.Mod(float64(i)*0.7548776662, 1))
		c.Ferrules = append(c.Ferrules, ferrule(fmt.Sprintf("F%03d", i), []string{"orrin", "velk"}[i%2], 11.5+3.5*math.Mod(float64(i)*0.5698402910, 1), price))
	}
	return matrix.Decide(c, fitcalc.DefaultShop())
}

func TestChooseIsRepeatableAndStopsInTime(t *testing.T) {
	r := many(400, 150)
	settings := stock.DefaultSettings()
	settings.CurvePoints = 5
	first, err := stock.Choose(context.Background(), r, settings)
	if err != nil {
		t.Fatal(err)
	}
	again, err := stock.Choose(context.Background(), r, settings)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(first, again, cmp.Comparer(func(a, b measure.Length) bool { return a == b })); diff != "" || !first.Proven {
		t.Errorf("proven %v, again: %s", first.Proven, diff)
	}
	ctx, cancel := context.WithDeadline(context.Background(), time.Now().Add(-time.Second))
	defer cancel()
	late, err := stock.Choose(ctx, r, settings)
	if err != nil {
		t.Fatal(err)
	}
	if late.LowerBound > first.Cost.Total()+1e-6 || late.Cost.Total() < first.Cost.Total()-1e-6 {
		t.Errorf("stopped at once: %v, bound %v; the best is %v", late.Cost.Total(), late.LowerBound, first.Cost.Total())
	}
}

func BenchmarkChoose(b *testing.B) {
	r := many(2000, 500)
	b.ResetTimer()
	for b.Loop() {
		if _, err := stock.Choose(context.Background(), r, stock.DefaultSettings()); err != nil {
			b.Fatal(err)
		}
	}
}
