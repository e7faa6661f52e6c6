package facility

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// scattered makes a problem with costs without structure, on which the relaxation leaves a gap.
func scattered(seed uint64, customers, facilities int) Problem {
	random := rand.New(rand.NewPCG(seed, 9))
	p := Problem{Serve: make([][]Arc, customers)}
	for range facilities {
		p.Fixed = append(p.Fixed, 150+100*random.Float64())
	}
	for j := range p.Serve {
		for i := range facilities {
			if random.IntN(4) > 0 || i == j%facilities {
				p.Serve[j] = append(p.Serve[j], Arc{Facility: i, Cost: float64(random.IntN(200))})
			}
		}
	}
	return p
}

// leastBy returns the least cost of all sets that agree with what is settled, and for each facility the least of those that have
// it open and of those that have it closed.
func leastBy(mo *model, status []int8) (least float64, with, without []float64) {
	least = math.Inf(1)
	with, without = make([]float64, mo.m), make([]float64, mo.m)
	for i := range mo.m {
		with[i], without[i] = math.Inf(1), math.Inf(1)
	}
	open := make([]bool, mo.m)
	for set := range 1 << mo.m {
		count, agrees := 0, true
		for i := range open {
			open[i] = set>>i&1 == 1
			if open[i] {
				count++
			}
			agrees = agrees && (status[i] == free || open[i] == (status[i] == opened))
		}
		if !agrees || count > mo.atMost {
			continue
		}
		cost := mo.total(open)
		least = min(least, cost)
		for i, is := range open {
			if is {
				with[i] = min(with[i], cost)
			} else {
				without[i] = min(without[i], cost)
			}
		}
	}
	return least, with, without
}

// L(v) bounds every solution whatever v is, and with the penalty of a facility every solution that has it the other way.
func TestRelaxationBoundsEverySet(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	tight := 0
	for trial := range 400 {
		p := scattered(uint64(trial), 8, 7)
		p.AtMost = random.IntN(8)
		mo := newModel(&p)
		status := make([]int8, mo.m)
		for i := range status {
			status[i] = []int8{free, free, free, free, opened, closed}[random.IntN(6)]
		}
		if count(status, opened) > mo.atMost {
			continue
		}
		least, with, without := leastBy(mo, status)
		l := newLagrange(mo)
		l.settle(status)
		v := make([]float64, mo.n)
		for j := range v {
			v[j] = 300 * random.Float64()
		}
		if trial%2 == 0 { // near the best bound the penalties are what decides
			l.climb(v, make([]float64, mo.m), least, 300, nil)
		}
		here := l.value(v)
		if here > least+1e-9*least {
			t.Fatalf("trial %d: the bound is %v, a set costs %v", trial, here, least)
		}
		for i, s := range status {
			if s != free {
				continue
			}
			other := with[i]
			if l.taken[i] {
				other = without[i]
			}
			bound := here + l.penalty(i)
			if bound > other+1e-9*math.Abs(other) {
				t.Fatalf("trial %d: facility %d (taken: %v) the other way is bounded by %v, a set costs %v", trial, i, l.taken[i], bound, other)
			}
			if bound > 0.99*other {
				tight++
			}
		}
	}
	if tight < 50 {
		t.Errorf("only %d of the penalties were near what they bound", tight)
	}
}

// The dual ascent bounds every solution, with its adjustment too, and its slacks are what its multipliers leave.
func TestAscentIsDualFeasible(t *testing.T) {
	for trial := range 200 {
		p := scattered(uint64(1000+trial), 9, 8)
		mo := newModel(&p)
		least, _, _ := leastBy(mo, mo.root)
		a := newAscent(mo, mo.root, 0)
		a.climb(a.everyone())
		before := a.bound()
		a.adjust(context.Background(), 5)
		if a.bound() < before-1e-9*before || a.bound() > least+1e-9*least {
			t.Fatalf("trial %d: %v, adjusted %v; the best is %v", trial, before, a.bound(), least)
		}
		for i := range mo.m {
			slack := mo.fixed[i]
			for k := mo.at[i]; k < mo.at[i+1]; k++ {
				slack -= math.Max(0, a.v[mo.cust[k]]-mo.fcost[k])
			}
			if slack < -1e-9 || math.Abs(slack-a.slack[i]) > 1e-9 {
				t.Fatalf("trial %d: facility %d has slack %v, kept as %v", trial, i, slack, a.slack[i])
			}
		}
	}
}

// countdown is a context that ends after it has been asked so often: a search that is stopped at a known place.
type countdown struct {
	context.Context
	left *int
}

func (c countdown) Err() error {
	if *c.left--; *c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// A limit on the parts ends a search that needs more of them, with a bound that holds.
func TestPartsEndTheSearch(t *testing.T) {
	stopped := 0
	for seed := range uint64(20) {
		p := scattered(seed, 60, 15)
		for i := range p.Fixed {
			p.Fixed[i] *= 2
		}
		whole, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if whole.Nodes < 2 {
			continue
		}
		stopped++
		part, err := Solve(context.Background(), p, Options{Parts: whole.Nodes / 2})
		if err != nil || !part.Stopped || part.Nodes > whole.Nodes/2 || part.LowerBound > whole.Cost+1e-6 || part.Cost < whole.Cost-1e-6 {
			t.Errorf("seed %d: stopped %v after %d of %d parts: cost %v, bound %v; the best is %v (%v)", seed, part.Stopped, part.Nodes, whole.Nodes,
				part.Cost, part.LowerBound, whole.Cost, err)
		}
	}
	if stopped < 3 {
		t.Errorf("only %d problems needed several parts", stopped)
	}
}

// Wherever the search is stopped, its bound holds, and no time given makes it worse.
func TestBoundHoldsWhereverTheSearchStops(t *testing.T) {
	stopped, between := 0, 0
	for seed := range uint64(6) {
		p := scattered(seed, 60, 15)
		for i := range p.Fixed {
			p.Fixed[i] *= 2
		}
		mo := newModel(&p)
		least, _, _ := leastBy(mo, mo.root)
		last := math.Inf(-1)
		for limit := 20; limit < 2000; limit += 12 {
			left := limit
			s, err := Solve(countdown{context.Background(), &left}, p, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if s.LowerBound > least*(1+1e-8) || s.Cost < least*(1-1e-8) || s.Proven && s.Cost > least*(1+1e-8) {
				t.Fatalf("seed %d: cost %v, bound %v, proven %v; the best is %v", seed, s.Cost, s.LowerBound, s.Proven, least)
			}
			if s.LowerBound < last-1e-9*least {
				t.Fatalf("seed %d: with more time the bound falls from %v to %v", seed, last, s.LowerBound)
			}
			last = s.LowerBound
			if !s.Stopped {
				break
			}
			stopped++
			if s.Nodes > 2 {
				between++
			}
		}
	}
	if stopped < 30 || between < 10 {
		t.Errorf("only %d searches were stopped, %d of them between nodes", stopped, between)
	}
}
