package facility

import (
	"context"
	"math"
	"slices"
)

// node is a part of the search: what is settled, and the multipliers to start from.
type node struct {
	status []int8
	v      []float64
	bound  float64
}

// solver searches a model.
type solver struct {
	*model
	ctx  context.Context
	opts Options

	lag    *lagrange
	share  []float64
	finder *search

	tried map[string]bool // the sets from which polish has started

	best     []bool
	bestCost float64
	// forbidden is a set that does not count, nil where every set does.
	forbidden []bool

	// prices are multipliers to start from instead of the dual ascent, and afterwards those at which the whole was bounded.
	prices []float64
	// whole says that every cost is a whole number.
	whole bool
	// anyWillDo ends the search at the first set.
	anyWillDo bool

	bound   float64
	nodes   int
	stopped bool
}

func newSolver(ctx context.Context, mo *model, opts Options) *solver {
	return &solver{model: mo, ctx: ctx, opts: opts, lag: newLagrange(mo), share: make([]float64, mo.m), tried: map[string]bool{},
		bestCost: mo.ceiling, bound: math.Inf(-1)}
}

// enough is the bound at which a part of the search cannot hold a better solution to speak of.
func (s *solver) enough() float64 {
	if s.whole {
		return s.bestCost - 1 + 1e-6
	}
	return s.bestCost - tolerance*math.Max(1, math.Abs(s.bestCost))
}

// tolerance is what counts as equal, as a part of the cost: sums of thousands of floating-point costs are no better.
const tolerance = 1e-9

// offer takes a set as the best so far if it is.
func (s *solver) offer(open []bool) {
	if s.forbidden != nil && slices.Equal(open, s.forbidden) {
		return
	}
	if c := s.total(open); c < s.bestCost && s.allowed(open) {
		s.best, s.bestCost = slices.Clone(open), c
	}
}

func (s *solver) allowed(open []bool) bool {
	count := 0
	for i, is := range open {
		if is {
			count++
		}
		if is && s.root[i] == closed || !is && s.root[i] == opened {
			return false
		}
	}
	return count <= s.atMost
}

// polish looks for a good set near one.
func (s *solver) polish(status []int8, open []bool) {
	if s.finder == nil {
		s.finder = newSearch(s.model, status)
	}
	s.finder.status = status
	s.finder.start(open)
	if key := keyOf(s.finder.open); s.tried[key] {
		return
	} else if len(s.tried) < mostTried {
		s.tried[key] = true
	}
	if s.forbidden != nil {
		s.offer(s.finder.open)
	}
	s.finder.improve()
	s.offer(s.finder.open)
}

// mostTried keeps the memory of sets tried from growing without end.
const mostTried = 20_000

func keyOf(open []bool) string {
	key := make([]byte, (len(open)+7)/8)
	for i, is := range open {
		if is {
			key[i/8] |= 1 << (i % 8)
		}
	}
	return string(key)
}

// run searches until nothing is left or the time is up.
func (s *solver) run() {
	if count(s.root, opened) > s.atMost {
		s.bound = math.Inf(1)
		return
	}
	stack := []node{s.first()}
	if s.best == nil && s.atMost < s.m && !s.cover() {
		s.bound = math.Inf(1)
		return
	}
	for len(stack) > 0 {
		s.bound = lowest(stack)
		if s.ctx.Err() != nil || s.closeEnough() || s.opts.Parts > 0 && s.nodes >= s.opts.Parts {
			s.stopped = !s.closeEnough()
			return
		}
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if n.bound < s.enough() {
			stack = s.branch(stack, n)
		}
	}
	s.bound = s.bestCost
}

func (s *solver) closeEnough() bool {
	if s.anyWillDo && s.best != nil {
		return true
	}
	return s.opts.Gap > 0 && s.best != nil && s.bestCost-s.bound <= s.opts.Gap*math.Abs(s.bestCost)
}

func lowest(stack []node) float64 {
	bound := math.Inf(1)
	for _, n := range stack {
		bound = math.Min(bound, n.bound)
	}
	return bound
}

// first is the whole problem, with the multipliers to start from.
func (s *solver) first() node {
	if s.prices != nil {
		s.lag.settle(s.root)
		bound := s.lag.value(s.prices)
		s.polish(s.root, s.lag.taken)
		return node{status: slices.Clone(s.root), v: s.prices, bound: bound}
	}
	a := s.ascend()
	s.polish(s.root, a.primal())
	return node{status: slices.Clone(s.root), v: a.v, bound: a.bound()}
}

// cover finds any set of no more facilities than may be open that serves everyone, and reports false where it has shown that
// there is none: the same problem with every facility at one and all service free.
func (s *solver) cover() bool {
	unit := *s.model
	unit.fixed, unit.cost, unit.atMost = make([]float64, s.m), make([]float64, len(s.cost)), s.m
	for i := range unit.fixed {
		unit.fixed[i] = 1
	}
	unit.price()
	unit.transpose()
	c := newSolver(s.ctx, &unit, Options{Parts: s.opts.Parts})
	c.whole, c.anyWillDo, c.bestCost = true, true, float64(s.atMost+1)
	c.run()
	if c.best != nil {
		s.polish(s.root, c.best)
	}
	return c.best != nil || c.stopped
}

// ascend runs the dual ascent; with a limit on the number of facilities, at the price for each that bounds best, found by
// trisection (the bound is nearly concave in it, and every one is valid).
func (s *solver) ascend() *ascent {
	at := func(extra float64) *ascent {
		a := newAscent(s.model, s.root, extra)
		a.climb(a.everyone())
		return a
	}
	best := at(0)
	if s.atMost < s.m {
		low, high := 0.0, s.ceiling/float64(s.atMost)
		for range priceRounds {
			one, two := at(low+(high-low)/3), at(high-(high-low)/3)
			for _, a := range []*ascent{one, two} {
				if a.bound() > best.bound() {
					best = a
				}
			}
			if one.bound() < two.bound() {
				low += (high - low) / 3
			} else {
				high -= (high - low) / 3
			}
		}
	}
	best.adjust(s.ctx, ascentPasses)
	return best
}

const (
	ascentPasses = 3
	priceRounds  = 7
	rootSteps    = 3000
	nodeSteps    = 150
)

// branch bounds a node, and adds what is left of it to the stack.
func (s *solver) branch(stack []node, n node) []node {
	s.nodes++
	if !s.propagate(n.status) {
		return stack
	}
	v := slices.Clone(n.v)
	steps := nodeSteps
	if s.nodes == 1 {
		steps = rootSteps
	}
	for {
		s.lag.settle(n.status)
		bound := math.Max(n.bound, s.lag.climb(v, s.share, s.enough(), steps, s.visitor(n.status)))
		n.bound = bound
		if s.nodes == 1 {
			s.prices = slices.Clone(v)
		}
		if bound >= s.enough() || s.ctx.Err() != nil {
			return s.leave(stack, n, v)
		}
		s.polish(n.status, s.rounded())
		settled, feasible := s.fix(n.status, v, bound)
		if !feasible || bound >= s.enough() {
			return stack
		}
		if !slices.Contains(n.status, free) {
			s.offer(openOf(n.status))
			return stack
		}
		if settled == 0 {
			break
		}
		steps = nodeSteps / 3
	}
	return s.split(stack, node{n.status, v, n.bound})
}

// leave gives a node back when the time is up in the middle of it, so that its bound still counts.
func (s *solver) leave(stack []node, n node, v []float64) []node {
	if n.bound >= s.enough() {
		return stack
	}
	return append(stack, node{n.status, v, n.bound})
}

// visitor polishes the inner minimum now and then.
func (s *solver) visitor(status []int8) func(int) (float64, bool) {
	every := 25
	switch {
	case s.anyWillDo:
		every = 1000 // mostly there is none to be found
	case s.nodes == 1:
		every = 100
	}
	return func(step int) (float64, bool) {
		if step%every == every-1 {
			s.polish(status, s.lag.taken)
		}
		return s.enough(), step%16 != 0 || s.ctx.Err() == nil
	}
}

// rounded is the set of facilities that the relaxation has open for half or more.
func (s *solver) rounded() []bool {
	open := make([]bool, s.m)
	for i, y := range s.share {
		open[i] = y >= 0.5
	}
	return open
}

// propagate settles what follows from what is settled: a customer with one facility left needs it, and no more may be open than
// may. It reports false where the node holds no solution.
func (s *solver) propagate(status []int8) bool {
	for j := range s.n {
		only, count := int32(-1), 0
		for a := s.from[j]; a < s.from[j+1] && count < 2; a++ {
			if status[s.fac[a]] != closed {
				only, count = s.fac[a], count+1
			}
		}
		switch count {
		case 0:
			return false
		case 1:
			status[only] = opened
		}
	}
	needed := count(status, opened)
	if needed == s.atMost {
		for i, t := range status {
			if t == free {
				status[i] = closed
			}
		}
	}
	return needed <= s.atMost
}

// fix settles the facilities that every better solution has open, or has closed: those for which the bound would pass the best
// cost the other way. It returns how many, and false where that leaves no solution.
func (s *solver) fix(status []int8, v []float64, bound float64) (settled int, feasible bool) {
	here := s.lag.value(v)
	enough := s.enough()
	var settle []int
	for i, t := range status {
		if t == free && here+s.lag.penalty(i) >= enough {
			settle = append(settle, i)
		}
	}
	for _, i := range settle {
		if s.lag.taken[i] {
			status[i] = opened
		} else {
			status[i] = closed
		}
	}
	return len(settle), s.propagate(status)
}

// split takes the facility about which the relaxation is least decided, and puts the likelier half on top.
func (s *solver) split(stack []node, n node) []node {
	at, worst := -1, -1.0
	s.lag.value(n.v)
	for i, t := range n.status {
		if t != free {
			continue
		}
		y := s.share[i]
		if score := y*(1-y) + 1e-6/(1+math.Abs(s.lag.rho[i])); score > worst {
			at, worst = i, score
		}
	}
	with, without := slices.Clone(n.status), n.status
	with[at], without[at] = opened, closed
	a, b := node{with, n.v, n.bound}, node{without, n.v, n.bound}
	if s.share[at] < 0.5 {
		a, b = b, a
	}
	return append(stack, b, a)
}

func count(status []int8, as int8) int {
	count := 0
	for _, t := range status {
		if t == as {
			count++
		}
	}
	return count
}

func openOf(status []int8) []bool {
	open := make([]bool, len(status))
	for i, t := range status {
		open[i] = t == opened
	}
	return open
}
