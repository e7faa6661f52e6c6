package stock_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/stock"
)

// The cost of a plan is the least of all sets of ferrules, each summed up by the words of the package.
func TestChooseAgreesWithEverySetTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := &catalog.Catalogue{}
		od := rapid.Float64Range(11.8, 13.2)
		for range rapid.IntRange(1, 8).Draw(t, "heads") {
			c.Heads = append(c.Heads, head("H", od.Draw(t, "hosel")))
		}
		for range rapid.IntRange(1, 7).Draw(t, "ferrules") {
			f := ferrule("F", rapid.SampledFrom([]string{"orrin", "velk"}).Draw(t, "supplier"), od.Draw(t, "base"),
				rapid.SampledFrom([]string{"$0.50", "$1", "$3"}).Draw(t, "price"))
			f.Pack = rapid.IntRange(0, 50).Draw(t, "pack")
			c.Ferrules = append(c.Ferrules, f)
		}
		r := matrix.Decide(c, fitcalc.DefaultShop())
		s := stock.DefaultSettings()
		s.CarryPerYear = rapid.Float64Range(0.01, 60).Draw(t, "carry")
		s.BenchPerMinute = rapid.Float64Range(0, 2).Draw(t, "bench")
		if rapid.Bool().Draw(t, "second source") {
			s.SecondSource = []int{0}
		}
		plan, err := stock.Choose(context.Background(), r, s)
		if err != nil {
			t.Fatal(err)
		}
		want := math.Inf(1)
		for set := range uint(1) << len(c.Ferrules) {
			want = min(want, costOfSet(r, &s, set, plan.OneSource))
		}
		if !plan.Proven || math.Abs(plan.Cost.Total()-want) > 1e-6*(1+want) {
			t.Fatalf("costs %v, the least is %v", plan.Cost.Total(), want)
		}
	})
}

func costOfSet(r *matrix.Result, s *stock.Settings, set uint, oneSource []int) float64 {
	total := 0.0
	for i := range r.Catalogue.Ferrules {
		if f := &r.Catalogue.Ferrules[i]; set>>i&1 == 1 {
			total += s.CarryPerYear + s.Holding*f.Price*float64(max(1, f.Pack))/2
		}
	}
	for h := range r.Catalogue.Heads {
		least, can := math.Inf(1), false
		for _, p := range r.HeadPairs(h) {
			if !p.Verdict.Serves() {
				continue
			}
			can = true
			if set>>p.Ferrule&1 == 1 {
				least = min(least, s.EachHead*(float64(p.Minutes)*s.BenchPerMinute+r.Catalogue.Ferrules[p.Ferrule].Price))
			}
		}
		if can {
			total += least
		}
	}
	for _, h := range s.SecondSource {
		open, all := map[string]bool{}, map[string]bool{}
		for _, p := range r.HeadPairs(h) {
			if !p.Verdict.Serves() {
				continue
			}
			supplier := r.Catalogue.Ferrules[p.Ferrule].Supplier
			all[supplier] = true
			if set>>p.Ferrule&1 == 1 {
				open[supplier] = true
			}
		}
		if len(all) >= 2 == slices.Contains(oneSource, h) || len(all) >= 2 && len(open) < 2 {
			return math.Inf(1)
		}
	}
	return total
}
