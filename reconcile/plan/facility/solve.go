package facility

import (
	"context"
	"math"
	"slices"
	"time"
)

// Options are how long to search. The zero Options search until the best is proven; a deadline belongs into the context.
type Options struct {
	// Gap is the part of the cost within which a solution is good enough; 0 asks for the best.
	Gap float64
	// Start is a set of facilities that may be good; it speeds up the search, and changes no proof.
	Start []int
	// Parts is into how many parts the search is split at the most, 0 for no limit: what it finds by then counts, with its bound. Other
	// than a deadline it gives the same solution on every machine.
	Parts int
}

// Solution is a set of open facilities and who serves whom.
type Solution struct {
	// Open are the open facilities in order.
	Open []int
	// Assigned is the facility that serves each customer, the cheapest of those open and of equal ones the first; −1 where
	// none can.
	Assigned []int
	// Cost is Fixed + Serving.
	Cost, Fixed, Serving float64
	// LowerBound is a cost below which no solution lies, equal to Cost where Proven.
	LowerBound float64
	// Proven says that no solution costs less, to a part in 10⁹.
	Proven bool
	// Stopped says that the context or the limit on parts ended the search.
	Stopped bool
	// Unservable are the customers that no facility which may be open can serve. They are in no cost.
	Unservable []int
	// UnmetGroups are the groups for which there are no two suppliers, as indexes into Groups. They were left out.
	UnmetGroups []int
	// Nodes is how many parts the search was split into.
	Nodes int
}

// Gap is how much the cost may lie above the best, as a part of it.
func (s *Solution) Gap() float64 {
	if s.Proven || s.Cost == 0 {
		return 0
	}
	return (s.Cost - s.LowerBound) / math.Abs(s.Cost)
}

// Solve finds the facilities to open so that every customer who can be served at all is served at the least cost.
//
// When the context ends, the best solution found so far is returned with its bound; that is no error. Where it does not end, the
// same problem gives the same solution. The errors are an [*InputError] and, with AtMost only, an [*InfeasibleError].
func Solve(ctx context.Context, p Problem, opts Options) (*Solution, error) {
	if err := p.validate(); err != nil {
		return nil, err
	}
	mo := newModel(&p)
	mo.dominated()
	s := newSolver(ctx, mo, opts)
	if len(opts.Start) > 0 {
		s.polish(mo.root, s.mask(opts.Start))
	}
	return s.solve(&p)
}

func (s *solver) solve(p *Problem) (*Solution, error) {
	s.run()
	if s.best == nil {
		return nil, &InfeasibleError{AtMost: s.atMost, Proven: !s.stopped}
	}
	s.dropIdle()
	return s.solution(p), nil
}

// SecondBest finds the best solution whose set of open facilities is not that of best, which Solve returned for the same problem.
// It returns nil where there is no other set. Facilities that are open and serve nobody count.
func SecondBest(ctx context.Context, p Problem, best *Solution, opts Options) (*Solution, error) {
	if err := p.validate(); err != nil {
		return nil, err
	}
	mo := newModel(&p)
	s := newSolver(ctx, mo, opts)
	s.forbidden = s.mask(best.Open)
	s.neighbour()
	s.run()
	if s.best == nil {
		if s.stopped {
			return nil, &InfeasibleError{AtMost: mo.atMost}
		}
		return nil, nil
	}
	return s.solution(&p), nil
}

// neighbour offers the best set one move away from the forbidden one.
func (s *solver) neighbour() {
	near := newSearch(s.model, s.root)
	near.start(s.forbidden)
	if m := near.best(); m.in >= 0 || m.out >= 0 {
		near.apply(m)
		s.offer(near.open)
	}
}

// mask is a list of facilities as a set; an index that is none is left out.
func (s *solver) mask(list []int) []bool {
	open := make([]bool, s.m)
	for _, i := range list {
		if i >= 0 && i < s.m {
			open[i] = true
		}
	}
	return open
}

// dropIdle closes what serves nobody and need not be open; only facilities that cost nothing can be so in the best solution.
func (s *solver) dropIdle() {
	busy := make([]bool, s.m)
	for j := range s.n {
		if i, _ := s.cheapest(j, s.best); i >= 0 {
			busy[i] = true
		}
	}
	for i := range s.best {
		s.best[i] = s.root[i] == opened || busy[i]
	}
	s.bestCost = s.total(s.best)
}

func (s *solver) solution(p *Problem) *Solution {
	r := &Solution{
		Assigned: slices.Repeat([]int{-1}, len(p.Serve)), Unservable: s.unservable, UnmetGroups: s.unmetGroups,
		Nodes: s.nodes, Stopped: s.stopped,
	}
	for i, is := range s.best {
		if is {
			r.Open = append(r.Open, i)
			r.Fixed += s.fixed[i]
		}
	}
	for j := range s.n {
		i, c := s.cheapest(j, s.best)
		r.Serving += c
		if s.origin[j] >= 0 {
			r.Assigned[s.origin[j]] = int(i)
		}
	}
	r.Cost = r.Fixed + r.Serving
	r.LowerBound = math.Min(s.bound, r.Cost)
	r.Proven = r.Cost-r.LowerBound <= 2*tolerance*math.Max(1, math.Abs(r.Cost))
	if r.Proven {
		r.LowerBound = r.Cost
	}
	return r
}

// Loss is what a solution would lose without one of its facilities.
type Loss struct {
	Facility int
	// Cost is how much dearer the best set is that leaves the facility out and is otherwise the same, but for at most one facility
	// more; +Inf where such a set leaves somebody unserved who is served now, or a group unmet. It is negative only where the solution is
	// not the best, or where the facility was bound to be open.
	Cost float64
	// Instead is the facility that the set has more, −1 where it has none.
	Instead int
}

// Losses returns what each open facility of a solution is worth, in the order of Open. Limits and constraints are kept, but for those
// that bind a facility to be open. The error is an [*InputError].
func Losses(p Problem, s *Solution) ([]Loss, error) {
	if err := p.validate(); err != nil {
		return nil, err
	}
	mo := newModel(&p)
	status := slices.Clone(mo.root)
	for i := range status {
		if status[i] == opened {
			status[i] = free
		}
	}
	at := map[int]int{}
	losses := make([]Loss, len(s.Open))
	for k, i := range s.Open {
		at[i] = k
		losses[k] = Loss{Facility: i, Cost: math.Inf(1), Instead: -1}
	}
	near := newSearch(mo, status)
	open := make([]bool, mo.m)
	for _, i := range s.Open {
		if i >= 0 && i < mo.m {
			open[i] = true
		}
	}
	near.start(open)
	now := mo.total(near.open)
	near.each(func(m move) {
		if math.Abs(m.saves) <= tolerance*now {
			m.saves = 0
		}
		if k, is := at[m.out]; is && -m.saves < losses[k].Cost && now-m.saves <= mo.ceiling { // beyond it somebody is unserved
			losses[k].Cost, losses[k].Instead = 0-m.saves, m.in // 0 − 0 is no negative zero
		}
	})
	return losses, nil
}

// Point is the best solution with a limited number of facilities.
type Point struct {
	AtMost int
	// Solution is nil where no set of so few facilities serves everyone, or none was found.
	*Solution
	// Infeasible says that there is none.
	Infeasible bool
}

// Curve solves the problem for at most 1, 2, … most facilities, and stops early where more would change nothing: at the count of
// the best solution without a limit. The limit of the problem itself is not looked at. The context is for all of them together; each
// takes its share of the time that is left.
func Curve(ctx context.Context, p Problem, most int, opts Options) ([]Point, error) {
	if most < 1 {
		return nil, &InputError{What: "the most facilities", Index: most, Err: ErrCount}
	}
	p.AtMost = 0
	if err := p.validate(); err != nil {
		return nil, err
	}
	mo := newModel(&p)
	mo.dominated()
	c := curve{mo: mo, p: &p, opts: opts, start: opts.Start}
	best := c.point(ctx, len(p.Fixed), most+1)
	if best.Solution != nil && !best.Stopped {
		most = min(most, max(1, len(best.Open)))
	}
	points := make([]Point, most)
	for k := most; k >= 1; k-- {
		switch {
		case best.Solution != nil && !best.Stopped && k >= len(best.Open):
			points[k-1] = best
		case k < most && points[k].Infeasible:
			points[k-1].Infeasible = true
		default:
			points[k-1] = c.point(ctx, k, k)
		}
		points[k-1].AtMost = k
	}
	return points, nil
}

// curve solves one model for fewer and fewer facilities, each time from where the last ended.
type curve struct {
	mo     *model
	p      *Problem
	opts   Options
	start  []int
	prices []float64
}

// point solves for at most k facilities in the share of the time that falls to it when so many points are still to do.
func (c *curve) point(ctx context.Context, k, pieces int) Point {
	if deadline, ok := ctx.Deadline(); ok {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, time.Until(deadline)/time.Duration(pieces))
		defer cancel()
	}
	limited := *c.mo
	limited.atMost = min(k, c.mo.m)
	s := newSolver(ctx, &limited, c.opts)
	s.prices = c.prices
	if len(c.start) > 0 {
		s.polish(limited.root, s.mask(c.start))
	}
	solution, err := s.solve(c.p)
	if err != nil {
		return Point{Infeasible: !s.stopped}
	}
	c.prices, c.start = s.prices, solution.Open
	return Point{Solution: solution}
}
