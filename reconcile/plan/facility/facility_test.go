package facility_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/plan/facility"
)

// warehouses is problem 034 of CSPLib, "Warehouse Location" (Brahim Hnich, csplib.org/Problems/prob034): opening costs 30. A copy of
// the page in circulation drops the first 20 of the first row.
func warehouses() facility.Problem {
	costs := [][]float64{
		{20, 24, 11, 25, 30}, {28, 27, 82, 83, 74}, {74, 97, 71, 96, 70}, {2, 55, 73, 69, 61}, {46, 96, 59, 83, 4},
		{42, 22, 29, 67, 59}, {1, 5, 73, 59, 56}, {10, 73, 13, 43, 96}, {93, 35, 63, 85, 46}, {47, 65, 55, 71, 95},
	}
	p := facility.Problem{Fixed: []float64{30, 30, 30, 30, 30}}
	for _, row := range costs {
		var arcs []facility.Arc
		for i, c := range row {
			arcs = append(arcs, facility.Arc{Facility: i, Cost: c})
		}
		p.Serve = append(p.Serve, arcs)
	}
	return p
}

// Without its capacities, the optimum of the CSPLib problem is 328 with the first, second and last warehouse, by trying all 31 sets; the 383
// of the page is with capacities.
func TestCSPLib034WithoutCapacities(t *testing.T) {
	s, err := facility.Solve(context.Background(), warehouses(), facility.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if s.Cost != 328 || !s.Proven || !slices.Equal(s.Open, []int{0, 1, 4}) || s.Fixed != 90 {
		t.Errorf("got %+v", s)
	}
	if want := newBrute(warehouses()).best(noSet); want != 328 {
		t.Errorf("trying every set gives %v", want)
	}
}

// A search that may be split into so many parts only is stopped there, and tells the truth about its bound.
func TestPartsBoundTheSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		want := newBrute(p).best(noSet)
		parts := rapid.IntRange(1, 3).Draw(t, "parts")
		s, err := facility.Solve(context.Background(), p, facility.Options{Parts: parts})
		var infeasible *facility.InfeasibleError
		switch {
		case errors.As(err, &infeasible):
			if infeasible.Proven && !math.IsInf(want, 1) {
				t.Fatalf("said to be infeasible, but %v is not", want)
			}
		case err != nil:
			t.Fatal(err)
		case s.LowerBound > want+1e-8*(1+want) || s.Cost < want-1e-8*(1+want) || s.Nodes > parts || s.Proven && !near(s.Cost, want):
			t.Fatalf("%d of %d parts: bound %v, cost %v, proven %v; the best is %v", s.Nodes, parts, s.LowerBound, s.Cost, s.Proven, want)
		}
	})
}

// A search that is stopped at once still tells the truth about its bound, and its set is allowed.
func TestStoppedSearchBoundsTheBest(t *testing.T) {
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		b := newBrute(p)
		want := b.best(noSet)
		s, err := facility.Solve(gone, p, facility.Options{})
		var infeasible *facility.InfeasibleError
		switch {
		case errors.As(err, &infeasible):
			if infeasible.Proven && !math.IsInf(want, 1) {
				t.Fatalf("said to be infeasible, but %v is not", want)
			}
		case err != nil:
			t.Fatal(err)
		case s.LowerBound > want+1e-8*(1+want) || s.Cost < want-1e-8*(1+want) || !near(b.of(setOf(s.Open)), s.Cost):
			t.Fatalf("bound %v, cost %v; the best is %v", s.LowerBound, s.Cost, want)
		case s.Proven && !near(s.Cost, want):
			t.Fatalf("%v is said to be proven; the best is %v", s.Cost, want)
		}
	})
}

// Problems of the size and structure of a large shop are solved in a few steps.
func TestLargeStructuredProblems(t *testing.T) {
	for _, carry := range []float64{5, 60, 400} {
		p := hosels(11, 2000, 500, carry)
		if share := float64(arcs(p)) / 1e6; share < 0.05 || share > 0.15 {
			t.Fatalf("a facility serves %.3f of the customers", share)
		}
		s, err := facility.Solve(context.Background(), p, facility.Options{Parts: 500})
		if err != nil {
			t.Fatal(err)
		}
		if s.Gap() > 0.005 || s.LowerBound > s.Cost {
			t.Errorf("carrying at %v: cost %v, bound %v", carry, s.Cost, s.LowerBound)
		}
		t.Logf("carrying at %v: %d open at %.2f, gap %.2g, %d nodes", carry, len(s.Open), s.Cost, s.Gap(), s.Nodes)
	}
}

func TestSolveIsRepeatable(t *testing.T) {
	p := hosels(3, 300, 120, 40)
	p.AtMost = 35
	first, err := facility.Solve(context.Background(), p, facility.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		again, err := facility.Solve(context.Background(), p, facility.Options{})
		if diff := cmp.Diff(first, again); diff != "" || err != nil {
			t.Fatal(diff, err)
		}
	}
}

// A set to start from changes nothing but the time.
func TestStartDoesNotChangeTheBest(t *testing.T) {
	p := hosels(5, 300, 100, 40)
	want, err := facility.Solve(context.Background(), p, facility.Options{})
	if err != nil {
		t.Fatal(err)
	}
	got, err := facility.Solve(context.Background(), p, facility.Options{Start: []int{1, 5, 99, 1000, -1}})
	if err != nil || !near(got.Cost, want.Cost) || !got.Proven {
		t.Errorf("got %v, want %v (%v)", got.Cost, want.Cost, err)
	}
	rough, err := facility.Solve(context.Background(), p, facility.Options{Gap: 0.05})
	if err != nil || rough.Gap() > 0.05 || rough.Cost < want.Cost-1e-6 || rough.LowerBound > want.Cost+1e-6 {
		t.Errorf("within a twentieth: %v, bound %v, best %v (%v)", rough.Cost, rough.LowerBound, want.Cost, err)
	}
}

func TestSolveRefuses(t *testing.T) {
	one := func() facility.Problem {
		return facility.Problem{Fixed: []float64{1, 2}, Serve: [][]facility.Arc{{{Facility: 0, Cost: 1}, {Facility: 1, Cost: 1}}}}
	}
	tests := []struct {
		name   string
		change func(*facility.Problem)
		want   error
	}{
		{"a negative cost of opening", func(p *facility.Problem) { p.Fixed[1] = -1 }, facility.ErrCost},
		{"an endless cost of opening", func(p *facility.Problem) { p.Fixed[1] = math.Inf(1) }, facility.ErrCost},
		{"no number", func(p *facility.Problem) { p.Serve[0][0].Cost = math.NaN() }, facility.ErrCost},
		{"a facility that is none", func(p *facility.Problem) { p.Serve[0][0].Facility = 2 }, facility.ErrIndex},
		{"a facility twice", func(p *facility.Problem) { p.Serve[0][0].Facility = 1 }, facility.ErrTwice},
		{"open that is none", func(p *facility.Problem) { p.Open = []int{-1} }, facility.ErrIndex},
		{"closed that is none", func(p *facility.Problem) { p.Closed = []int{2} }, facility.ErrIndex},
		{"open and closed", func(p *facility.Problem) { p.Open, p.Closed = []int{1}, []int{1} }, facility.ErrContradiction},
		{"a pair that is none", func(p *facility.Problem) { p.Exclude = []facility.Pair{{Customer: 1}} }, facility.ErrIndex},
		{"fewer than none", func(p *facility.Problem) { p.AtMost = -1 }, facility.ErrCount},
		{"groups without suppliers", func(p *facility.Problem) { p.Groups = []facility.Group{{}} }, facility.ErrCount},
		{"a group that is none", func(p *facility.Problem) {
			p.Supplier, p.Groups = []int{0, 1}, []facility.Group{{Facilities: []int{2}}}
		}, facility.ErrIndex},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := one()
			tt.change(&p)
			_, err := facility.Solve(context.Background(), p, facility.Options{})
			var input *facility.InputError
			if !errors.As(err, &input) || !errors.Is(err, tt.want) {
				t.Errorf("got %v", err)
			}
		})
	}
	if _, err := facility.Curve(context.Background(), one(), 0, facility.Options{}); !errors.Is(err, facility.ErrCount) {
		t.Errorf("a curve of nothing: %v", err)
	}
}
