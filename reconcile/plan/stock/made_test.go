package stock_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/stock"
)

// twoTips is heads for .370 in and .335 in tips; one hosel is rounded, and of one nothing is known.
func twoTips() *matrix.Result {
	wood := func(part string, od float64) catalog.Head {
		h := head(part, od)
		h.Category, h.Head.Category, h.Head.Bore = fitcalc.Driver, fitcalc.Driver, mm(8.62)
		return h
	}
	round, unknown := head("R-1", 13), head("U-1", 13)
	round.Head.Top = fitcalc.TopRounded
	unknown.Head.HoselOD = measure.Dim{}
	c := &catalog.Catalogue{Heads: []catalog.Head{
		head("A-1", 12), head("A-2", 12.1), head("A-3", 13), head("A-4", 13.4), round, unknown, wood("W-1", 11.5), wood("W-2", 11.9), wood("W-3", 12.2),
	}}
	c.Ferrules = []catalog.Ferrule{ferrule("F-1", "orrin", 12.7, ""), ferrule("F-2", "orrin", 13.6, "")}
	return matrix.Decide(c, fitcalc.DefaultShop())
}

func sizesToMake(t testing.TB, r *matrix.Result, w stock.Wanted) *stock.Made {
	t.Helper()
	m, err := stock.SizesToMake(r, w)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestSizesToMake(t *testing.T) {
	r := twoTips()
	m := sizesToMake(t, r, stock.Wanted{Count: 2, Most: 5, Grid: measure.Micrometres(100)})
	if len(m.Tips) != 2 || m.Tips[0].Tip != ".335 parallel" || m.Tips[1].Tip != ".370 parallel" {
		t.Fatalf("tips %+v", m.Tips)
	}
	if len(m.Left) != 2 || m.Left[0].Head != 4 || m.Left[1].Head != 5 || !strings.Contains(m.Left[0].Why, "rounded") {
		t.Errorf("left %+v", m.Left)
	}
	irons := m.Tips[1]
	if !irons.Enough || len(irons.Sizes) != 2 || len(irons.Curve.Points) != 6 || irons.Without != 0 {
		t.Fatalf("%+v", irons)
	}
	for _, s := range irons.Sizes {
		if s.OD.Picometres()%measure.Micrometres(100).Picometres() != 0 || !s.New || len(s.Taken) != 2 {
			t.Errorf("size %v for %d heads", s.OD, len(s.Taken))
		}
		// What the specification promises, evaluated by itself: none undersize, none beyond the limit, and held.
		if len(s.Taken[0].Against)+len(s.Taken[1].Against) > 0 || s.Bore.Empty() || !s.Bore.Contains(s.BestBore) || s.Length.Empty() {
			t.Errorf("size %v: %+v", s.OD, s)
		}
	}
	if irons.Then >= irons.Now || irons.Now <= 0 {
		t.Errorf("turning now %v, then %v", irons.Now, irons.Then)
	}
}

// So few sizes that they do not serve everyone: the fewest that do are chosen, and it is said.
func TestTooFewSizes(t *testing.T) {
	m := sizesToMake(t, twoTips(), stock.Wanted{Count: 1, Most: 1})
	irons := m.Tips[1]
	if irons.Enough || irons.Chosen.Count != 2 || irons.Curve.Points[1].Feasible || len(irons.Curve.Points) != 3 {
		t.Errorf("chosen %+v of %+v", irons.Chosen, irons.Curve.Points)
	}
}

func TestExistingSizes(t *testing.T) {
	m := sizesToMake(t, twoTips(), stock.Wanted{Count: 0, Most: 2, Existing: []measure.Length{measure.Micrometres(12300), measure.Micrometres(13600)}})
	irons := m.Tips[1]
	if !irons.Enough || len(irons.Sizes) != 2 || irons.Sizes[0].New || irons.Sizes[1].New {
		t.Errorf("%+v", irons)
	}
}

func TestWantedRefused(t *testing.T) {
	for name, w := range map[string]stock.Wanted{
		"count": {Count: -1}, "grid": {Grid: measure.Millimetres(-1)}, "length": {Length: measure.Millimetres(-1)},
		"existing": {Existing: []measure.Length{{}}}, "yearly": {Yearly: []float64{1}},
	} {
		var setting *stock.SettingError
		if _, err := stock.SizesToMake(twoTips(), w); !errors.As(err, &setting) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestSizesConserveHeads: every head is left, with a reason, or takes exactly one size; sums are those of the parts; and the split over the
// tips is no worse than any other.
func TestSizesConserveHeads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := &catalog.Catalogue{}
		for i := range rapid.IntRange(1, 10).Draw(t, "heads") {
			h := head(fmt.Sprint("H-", i), float64(rapid.IntRange(112, 144).Draw(t, "od"))/10)
			h.Head.Bore = mm(rapid.SampledFrom([]float64{8.62, 9.13, 9.5, 7}).Draw(t, "bore"))
			if rapid.IntRange(0, 9).Draw(t, "round") == 0 {
				h.Head.Top = fitcalc.TopRounded
			}
			c.Heads = append(c.Heads, h)
		}
		r := matrix.Decide(c, fitcalc.DefaultShop())
		w := stock.Wanted{Count: rapid.IntRange(0, 4).Draw(t, "count"), Most: 4, Grid: measure.Micrometres(int64(100 * rapid.IntRange(0, 2).Draw(t, "grid")))}
		for range c.Heads {
			w.Yearly = append(w.Yearly, float64(rapid.IntRange(0, 50).Draw(t, "yearly")))
		}
		m, err := stock.SizesToMake(r, w)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[int]int{}
		for _, l := range m.Left {
			seen[l.Head]++
			if l.Why == "" {
				t.Fatalf("head %d is left without a reason", l.Head)
			}
		}
		for _, tip := range m.Tips {
			minutes, yearly := 0.0, 0.0
			for _, s := range tip.Sizes {
				for _, taken := range s.Taken {
					seen[taken.Head]++
					minutes += taken.Yearly * taken.Minutes
					yearly += taken.Yearly
					for _, against := range taken.Against {
						if strings.HasPrefix(against.Code.String(), "flush.") {
							t.Fatalf("size %v on %s: %v", s.OD, c.Heads[taken.Head].Part, against.Code)
						}
					}
				}
			}
			if math.Abs(minutes-tip.Chosen.Cost) > 1e-6*(1+minutes) || math.Abs(yearly-tip.Yearly) > 1e-9 {
				t.Fatalf("%s: %v minutes of %v, %v joints of %v", tip.Tip, minutes, tip.Chosen.Cost, yearly, tip.Yearly)
			}
		}
		for h := range c.Heads {
			if seen[h] != 1 {
				t.Fatalf("head %d stands %d times", h, seen[h])
			}
		}
		checkTogether(t, m)
	})
}

// checkTogether tries all splits.
func checkTogether(t *rapid.T, m *stock.Made) {
	best := map[int]float64{}
	var try func(tip, count int, minutes float64)
	try = func(tip, count int, minutes float64) {
		if tip == len(m.Tips) {
			if old, known := best[count]; !known || minutes < old {
				best[count] = minutes
			}
			return
		}
		for k, p := range m.Tips[tip].Curve.Points {
			if p.Feasible {
				try(tip+1, count+k, minutes+p.Cost)
			}
		}
	}
	try(0, 0, 0)
	for _, b := range m.Together {
		want, feasible := best[b.Count]
		if feasible != b.Feasible || feasible && math.Abs(want-b.Minutes) > 1e-9*(1+want) {
			t.Fatalf("%d sizes together: %v minutes (%v), want %v (%v)", b.Count, b.Minutes, b.Feasible, want, feasible)
		}
		sum := 0
		for _, k := range b.ByTip {
			sum += k
		}
		if b.Feasible && sum != b.Count {
			t.Fatalf("%d sizes are shared out as %v", b.Count, b.ByTip)
		}
	}
}

// Heads that are left out of a plan are neither served nor unserved, and nothing is carried for them.
func TestLeaveOut(t *testing.T) {
	r := shop()
	p := choose(t, r, func(s *stock.Settings) { s.LeaveOut, s.SecondSource = []int{2, 3}, []int{2} })
	if !slices.Equal(p.LeftOut, []int{2, 3}) || len(p.Served) != 2 || len(p.Unserved) != 1 || len(p.OneSource) != 0 {
		t.Errorf("left out %v, %d served, unserved %+v", p.LeftOut, len(p.Served), p.Unserved)
	}
	if got := parts(r, carried(p)); !slices.Equal(got, []string{"OR-121"}) {
		t.Errorf("carries %v", got)
	}
}

// BenchmarkSizesToMake is the heads of a very large catalogue, with as many different hosels as people measure.
func BenchmarkSizesToMake(b *testing.B) {
	c := &catalog.Catalogue{}
	for i := range 100_000 {
		h := head(fmt.Sprint("L-", i), 11.2+float64(i%320)/100)
		h.Head.Bore = mm([]float64{8.62, 9.13, 9.5}[i%3])
		c.Heads = append(c.Heads, h)
	}
	r := matrix.Decide(c, fitcalc.DefaultShop())
	for b.Loop() {
		sizesToMake(b, r, stock.Wanted{Count: 5, Most: 10, Grid: measure.Micrometres(100)})
	}
}
