package facility_test

import (
	"context"
	"errors"
	"math"
	"math/bits"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/plan/facility"
)

// brute costs a set by the words of the problem: everyone who can be served at all must be, groups that can be met must be.
type brute struct {
	p facility.Problem
	// cost[j][i] is +Inf where i must not or cannot serve j.
	cost       [][]float64
	unservable []int
	unmet      []int
}

func newBrute(p facility.Problem) *brute {
	b := &brute{p: p}
	for j, arcs := range p.Serve {
		row := slices.Repeat([]float64{math.Inf(1)}, len(p.Fixed))
		for _, a := range arcs {
			if !slices.Contains(p.Closed, a.Facility) && !slices.Contains(p.Exclude, facility.Pair{Customer: j, Facility: a.Facility}) {
				row[a.Facility] = a.Cost
			}
		}
		b.cost = append(b.cost, row)
		if len(row) == 0 || math.IsInf(slices.Min(row), 1) {
			b.unservable = append(b.unservable, j)
		}
	}
	all := func(int) bool { return true }
	for g := range p.Groups {
		if !b.twoSuppliers(g, all) {
			b.unmet = append(b.unmet, g)
		}
	}
	return b
}

func (b *brute) twoSuppliers(group int, open func(int) bool) bool {
	seen := map[int]bool{}
	for _, i := range b.p.Groups[group].Facilities {
		if open(i) && !slices.Contains(b.p.Closed, i) {
			seen[b.p.Supplier[i]] = true
		}
	}
	return len(seen) >= 2
}

// of is the cost of a set, +Inf where it is not allowed.
func (b *brute) of(set uint) float64 {
	open := func(i int) bool { return set>>i&1 == 1 }
	for _, i := range b.p.Open {
		if !open(i) {
			return math.Inf(1)
		}
	}
	for _, i := range b.p.Closed {
		if open(i) {
			return math.Inf(1)
		}
	}
	if b.p.AtMost > 0 && bits.OnesCount(set) > b.p.AtMost {
		return math.Inf(1)
	}
	for g := range b.p.Groups {
		if !slices.Contains(b.unmet, g) && !b.twoSuppliers(g, open) {
			return math.Inf(1)
		}
	}
	total := 0.0
	for i, f := range b.p.Fixed {
		if open(i) {
			total += f
		}
	}
	for j, row := range b.cost {
		if slices.Contains(b.unservable, j) {
			continue
		}
		least := math.Inf(1)
		for i, c := range row {
			if open(i) {
				least = min(least, c)
			}
		}
		total += least
	}
	return total
}

// best is the least cost of all sets but one.
func (b *brute) best(but uint) float64 {
	least := math.Inf(1)
	for set := range uint(1) << len(b.p.Fixed) {
		if set != but {
			least = min(least, b.of(set))
		}
	}
	return least
}

const noSet = ^uint(0)

func setOf(open []int) uint {
	set := uint(0)
	for _, i := range open {
		set |= 1 << i
	}
	return set
}

// anyProblem draws small problems with every kind of constraint, and with many equal costs.
func anyProblem(t *rapid.T) facility.Problem {
	m := rapid.IntRange(1, 8).Draw(t, "facilities")
	n := rapid.IntRange(0, 9).Draw(t, "customers")
	cost := rapid.Float64Range(0, 100)
	if rapid.Bool().Draw(t, "whole") {
		cost = rapid.Map(rapid.IntRange(0, 9), func(x int) float64 { return float64(x) })
	}
	var p facility.Problem
	for range m {
		p.Fixed = append(p.Fixed, cost.Draw(t, "fixed")*rapid.SampledFrom([]float64{0, 1, 1, 3}).Draw(t, "times"))
		p.Supplier = append(p.Supplier, rapid.IntRange(0, 2).Draw(t, "supplier"))
	}
	sparse := rapid.IntRange(0, 2).Draw(t, "sparse")
	for range n {
		var arcs []facility.Arc
		for i := range m {
			if sparse == 0 || rapid.IntRange(0, sparse).Draw(t, "can") == 0 {
				arcs = append(arcs, facility.Arc{Facility: i, Cost: cost.Draw(t, "cost")})
			} else if rapid.IntRange(0, 4).Draw(t, "says so") == 0 {
				arcs = append(arcs, facility.Arc{Facility: i, Cost: math.Inf(1)})
			}
		}
		p.Serve = append(p.Serve, arcs)
	}
	if !rapid.Bool().Draw(t, "constrained") {
		return p
	}
	for i := range m {
		switch rapid.IntRange(0, 8).Draw(t, "must") {
		case 0:
			p.Open = append(p.Open, i)
		case 1:
			p.Closed = append(p.Closed, i)
		}
		if n > 0 && rapid.IntRange(0, 5).Draw(t, "exclude") == 0 {
			p.Exclude = append(p.Exclude, facility.Pair{Customer: rapid.IntRange(0, n-1).Draw(t, "of"), Facility: i})
		}
	}
	p.AtMost = rapid.IntRange(0, m).Draw(t, "at most")
	for range rapid.IntRange(0, 2).Draw(t, "groups") {
		p.Groups = append(p.Groups, facility.Group{Facilities: rapid.SliceOfN(rapid.IntRange(0, m-1), 0, m).Draw(t, "group")})
	}
	return p
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-8*(1+math.Abs(b)) }

func TestSolveAgreesWithEverySetTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		b := newBrute(p)
		want := b.best(noSet)
		s, err := facility.Solve(context.Background(), p, facility.Options{})
		if math.IsInf(want, 1) {
			var infeasible *facility.InfeasibleError
			if !errors.As(err, &infeasible) || !infeasible.Proven {
				t.Fatalf("got %+v, %v where no set is allowed", s, err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if !s.Proven || !near(s.Cost, want) || !near(b.of(setOf(s.Open)), s.Cost) || s.LowerBound != s.Cost || s.Gap() != 0 {
			t.Fatalf("got %v for %v (costs %v), bound %v; the least is %v", s.Cost, s.Open, b.of(setOf(s.Open)), s.LowerBound, want)
		}
		if diff := cmp.Diff(b.unservable, s.Unservable); diff != "" {
			t.Fatalf("unservable: %s", diff)
		}
		if diff := cmp.Diff(b.unmet, s.UnmetGroups); diff != "" {
			t.Fatalf("unmet groups: %s", diff)
		}
		checkAssigned(t, b, s)
		checkSecond(t, p, b, s)
		checkLosses(t, p, b, s)
	})
}

// checkLosses tries every set that lacks one of the open facilities and has at most one more.
func checkLosses(t *rapid.T, p facility.Problem, b *brute, s *facility.Solution) {
	losses, err := facility.Losses(p, s)
	if err != nil || len(losses) != len(s.Open) {
		t.Fatalf("got %d losses of %d, %v", len(losses), len(s.Open), err)
	}
	unbound := *b
	unbound.p.Open = nil
	for _, l := range losses {
		without := setOf(s.Open) &^ (1 << l.Facility)
		want := unbound.of(without)
		for i := range p.Fixed {
			if i != l.Facility {
				want = min(want, unbound.of(without|1<<i))
			}
		}
		if got := s.Cost + l.Cost; math.IsInf(want, 1) != math.IsInf(got, 1) || !math.IsInf(want, 1) && !near(got, want) {
			t.Fatalf("without %d it costs %v, want %v", l.Facility, got, want)
		}
	}
}

func checkAssigned(t *rapid.T, b *brute, s *facility.Solution) {
	serving := 0.0
	for j, i := range s.Assigned {
		if i < 0 != slices.Contains(b.unservable, j) {
			t.Fatalf("customer %d is assigned to %d", j, i)
		}
		if i >= 0 {
			serving += b.cost[j][i]
			if !slices.Contains(s.Open, i) {
				t.Fatalf("customer %d is assigned to %d, which is closed", j, i)
			}
		}
	}
	if !near(s.Serving, serving) || !near(s.Cost, s.Fixed+s.Serving) {
		t.Fatalf("serving costs %v, stated %v of %v", serving, s.Serving, s.Cost)
	}
}

func checkSecond(t *rapid.T, p facility.Problem, b *brute, best *facility.Solution) {
	want := b.best(setOf(best.Open))
	second, err := facility.SecondBest(context.Background(), p, best, facility.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if second == nil {
		if !math.IsInf(want, 1) {
			t.Fatalf("no second set; one costs %v", want)
		}
		return
	}
	if !second.Proven || !near(second.Cost, want) || setOf(second.Open) == setOf(best.Open) {
		t.Fatalf("second is %v at %v, the least of the others %v", second.Open, second.Cost, want)
	}
}

func TestCurveAgreesWithEverySetTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		p.AtMost = 0
		most := rapid.IntRange(1, len(p.Fixed)).Draw(t, "most")
		points, err := facility.Curve(context.Background(), p, most, facility.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for k := 1; k <= most; k++ {
			p.AtMost = k
			want := newBrute(p).best(noSet)
			got := points[min(k, len(points))-1]
			switch {
			case k <= len(points) && got.AtMost != k:
				t.Fatalf("point %d is for at most %d", k, got.AtMost)
			case got.Infeasible != math.IsInf(want, 1):
				t.Fatalf("at most %d: infeasible %v, the least is %v", k, got.Infeasible, want)
			case !got.Infeasible && (!near(got.Cost, want) || !got.Proven || len(got.Open) > k):
				t.Fatalf("at most %d: %v at %v, the least is %v", k, got.Open, got.Cost, want)
			}
		}
	})
}
