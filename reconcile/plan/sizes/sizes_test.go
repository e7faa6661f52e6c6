package sizes_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/plan/sizes"
)

func um(n int) measure.Length { return measure.Micrometres(int64(n)) }

// costOf is the cost of a set of sizes by the words of the question, and false where a head that is not lost is not served.
func costOf(hosels []sizes.Hosel, lost []int, set []measure.Length) (float64, bool) {
	total := 0.0
	for i, h := range hosels {
		if slices.Contains(lost, i) {
			continue
		}
		least := math.Inf(1)
		for _, b := range set {
			if b.Less(h.Least) || h.Most.Less(b) {
				continue
			}
			cost := 0.0
			if h.OD.Less(b) && h.Flush.Less(b) {
				cost = h.Fixed + h.Rate*float64(b.Picometres()-h.OD.Picometres())/1e9
			}
			least = min(least, cost)
		}
		if math.IsInf(least, 1) {
			return 0, false
		}
		total += h.Yearly * least
	}
	return total, true
}

// drawHosels draws heads within a few hundredths of a millimetre, with ties; step is the unit of everything in µm.
func drawHosels(t *rapid.T, step int) []sizes.Hosel {
	regular := rapid.Bool().Draw(t, "regular")
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) sizes.Hosel {
		od := 12000 + step*rapid.IntRange(0, 10).Draw(t, "od")
		h := sizes.Hosel{OD: um(od), Fixed: 4, Rate: 3, Yearly: float64(rapid.IntRange(0, 5).Draw(t, "yearly"))}
		h.Least, h.Most, h.Flush = um(od+step), um(od+step*5), um(od+2*step)
		if !regular {
			h.Least = um(od + step*rapid.IntRange(-1, 2).Draw(t, "least"))
			h.Most = um(od + step*rapid.IntRange(0, 6).Draw(t, "most"))
			h.Flush = um(od + step*rapid.IntRange(-2, 3).Draw(t, "flush"))
			h.Fixed, h.Rate = rapid.Float64Range(0, 5).Draw(t, "fixed"), rapid.Float64Range(0, 9).Draw(t, "rate")
		}
		return h
	}), 0, 9).Draw(t, "hosels")
}

// Every set of sizes within the range of the heads is tried, not only those that the method considers.
func TestFindAgreesWithEverySetTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const step = 10
		hosels := drawHosels(t, step)
		grid := step * rapid.IntRange(1, 4).Draw(t, "grid")
		opts := sizes.Options{Most: 3, Grid: um(grid)}
		for _, e := range rapid.SliceOfN(rapid.IntRange(0, 18), 0, 3).Draw(t, "existing") {
			opts.Existing = append(opts.Existing, um(12000+step*e-5*rapid.IntRange(0, 1).Draw(t, "off grid")))
		}
		c, err := sizes.Find(hosels, opts)
		if err != nil {
			t.Fatal(err)
		}
		var pool []measure.Length
		for b := 11900; b <= 12300; b++ {
			if b%grid == 0 {
				pool = append(pool, um(b))
			}
		}
		var lost []int
		for i, h := range hosels {
			if _, served := costOf([]sizes.Hosel{h}, nil, slices.Concat(pool, opts.Existing)); !served {
				lost = append(lost, i)
			}
		}
		if diff := cmp.Diff(lost, c.Unserved); diff != "" {
			t.Fatalf("unserved: %s", diff)
		}
		for k, want := range bruteCurve(hosels, lost, pool, opts) {
			p := c.Points[k]
			if p.Count != k || p.Feasible == math.IsInf(want, 1) {
				t.Fatalf("%d sizes: %+v, the least cost is %v", k, p, want)
			}
			if !p.Feasible {
				continue
			}
			again, served := costOf(hosels, lost, slices.Concat(p.New, opts.Existing))
			if !served || len(p.New) > k || math.Abs(p.Cost-want) > 1e-9*(1+want) || math.Abs(again-want) > 1e-9*(1+want) {
				t.Fatalf("%d sizes: %v costs %v, stated %v; the least is %v", k, p.New, again, p.Cost, want)
			}
		}
	})
}

func bruteCurve(hosels []sizes.Hosel, lost []int, pool []measure.Length, opts sizes.Options) []float64 {
	best := slices.Repeat([]float64{math.Inf(1)}, opts.Most+1)
	var try func(set []measure.Length, from, used int)
	try = func(set []measure.Length, from, used int) {
		if cost, served := costOf(hosels, lost, set); served {
			best[used] = min(best[used], cost)
		}
		for i := from; i < len(pool) && used < opts.Most; i++ {
			try(append(slices.Clip(set), pool[i]), i+1, used+1)
		}
	}
	try(opts.Existing, 0, 0)
	for k := 1; k <= opts.Most; k++ {
		best[k] = min(best[k], best[k-1])
	}
	return best
}

// The least cost is convex in the number of sizes, which follows from the quadrangle inequality.
func TestSavingsDoNotGrow(t *testing.T) {
	for _, regular := range []bool{true, false} {
		c, err := sizes.Find(many(7, 3000, regular), sizes.Options{Most: 25})
		if err != nil {
			t.Fatal(err)
		}
		last, seen := math.Inf(1), 0
		for k, p := range c.Points {
			if k == 0 || !c.Points[k-1].Feasible {
				continue
			}
			seen++
			if p.Saves > last*(1+1e-9) || p.Saves <= 0 {
				t.Errorf("size %d saves %v, the one before %v", k, p.Saves, last)
			}
			last = p.Saves
		}
		if seen < 15 {
			t.Errorf("only %d savings seen", seen)
		}
	}
}

// many makes heads of sizes to the micrometre. Irregular ones differ in tolerance, so that limits are not in one order.
func many(seed uint64, n int, regular bool) []sizes.Hosel {
	random := rand.New(rand.NewPCG(seed, 2))
	list := make([]sizes.Hosel, n)
	for i := range list {
		od, spread := 11400+random.IntN(3_000_000)/1000, 50
		fine := measure.Picometres(random.Int64N(1e6))
		if !regular {
			spread = []int{30, 50, 80}[random.IntN(3)]
		}
		list[i] = sizes.Hosel{OD: um(od).Add(fine), Least: um(od + spread).Add(fine), Most: um(od + 1000).Add(fine), Flush: um(od + 70).Add(fine),
			Yearly: float64(1 + random.IntN(40)), Fixed: 4, Rate: 3}
	}
	return list
}

// Both ways of summing costs give the same on the same heads: one more head with an odd limit and no yearly number takes the other way.
func TestBothSumsAgree(t *testing.T) {
	regular := many(3, 2000, true)
	odd := sizes.Hosel{OD: um(11000), Least: regular[5].Least, Most: um(20000), Flush: um(19000)}
	opts := sizes.Options{Most: 12, Existing: []measure.Length{um(12345), um(13300)}}
	ordered, err := sizes.Find(regular, opts)
	if err != nil {
		t.Fatal(err)
	}
	other, err := sizes.Find(append(slices.Clip(regular), odd), opts)
	if err != nil {
		t.Fatal(err)
	}
	for k, p := range ordered.Points {
		q := other.Points[k]
		if p.Feasible != q.Feasible || math.Abs(p.Cost-q.Cost) > 1e-9*p.Cost {
			t.Errorf("%d sizes: %v and %v", k, p.Cost, q.Cost)
		}
	}
	if !ordered.Points[12].Feasible {
		t.Error("twelve sizes do not serve everyone")
	}
}

func TestFindRefuses(t *testing.T) {
	good := sizes.Hosel{OD: um(12000), Least: um(12010), Most: um(12500), Yearly: 1}
	with := func(change func(*sizes.Hosel)) []sizes.Hosel {
		h := good
		change(&h)
		return []sizes.Hosel{good, h}
	}
	tests := []struct {
		name   string
		hosels []sizes.Hosel
		opts   sizes.Options
		index  int
	}{
		{"a negative number", with(func(h *sizes.Hosel) { h.Yearly = -1 }), sizes.Options{}, 1},
		{"no number", with(func(h *sizes.Hosel) { h.Rate = math.NaN() }), sizes.Options{}, 1},
		{"a cost without end", with(func(h *sizes.Hosel) { h.Fixed = math.Inf(1) }), sizes.Options{}, 1},
		{"no OD", with(func(h *sizes.Hosel) { h.OD = measure.Length{} }), sizes.Options{}, 1},
		{"an existing size of nothing", []sizes.Hosel{good}, sizes.Options{Existing: []measure.Length{{}}}, 0},
		{"fewer sizes than none", []sizes.Hosel{good}, sizes.Options{Most: -1}, -1},
		{"a negative grid", []sizes.Hosel{good}, sizes.Options{Grid: um(-1)}, -1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := sizes.Find(tt.hosels, tt.opts)
			var input *sizes.InputError
			if !errors.As(err, &input) || !errors.Is(err, sizes.ErrInput) || input.Index != tt.index {
				t.Errorf("got %v", err)
			}
		})
	}
}

func BenchmarkFind(b *testing.B) {
	for _, regular := range []bool{true, false} {
		list := many(1, 100_000, regular)
		b.Run(fmt.Sprintf("regular=%v", regular), func(b *testing.B) {
			for b.Loop() {
				if _, err := sizes.Find(list, sizes.Options{Most: 10}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
