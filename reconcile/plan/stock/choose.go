package stock

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/facility"
)

// Cost is what a year costs, in the plan's currency.
type Cost struct {
	// Work is bench time, Pieces the ferrules used, Carrying the part numbers with the money in their stock.
	Work, Pieces, Carrying float64
}

// Total returns the sum.
func (c Cost) Total() float64 { return c.Work + c.Pieces + c.Carrying }

// Carried is a ferrule of the plan and why it is in it. Heads and ferrules are indexes into the catalogue.
type Carried struct {
	Ferrule int
	// Heads are those it is used on.
	Heads []int
	// Pieces is how many are used in a year, Packs how many lots of Lot pieces must be bought for that, and LeftOver how many pieces
	// remain at the end of the year.
	Pieces        float64
	Lot           int
	Packs         int
	LeftOver      float64
	Cost          Cost
	Minutes       float64 // bench time in a year
	PricePerPiece float64
	// Saves is how much dearer the best plan is without it, with at most one ferrule more in its place, which is Instead, −1 for none.
	// Where every such plan leaves a head unserved, or without its second source, Irreplaceable is set and Saves is nothing. A ferrule that must be
	// carried may save less than nothing.
	Saves         float64
	Instead       int
	Irreplaceable bool
}

// Served is a head and the ferrule it gets.
type Served struct {
	Head    int
	Pair    matrix.Pair
	Yearly  float64
	Minutes float64 // bench time in a year
}

// Unserved is a head that gets no ferrule, and why.
type Unserved struct {
	Head int
	// Bare is set where the head takes no ferrule.
	Bare bool
	// Asks is set where a pair could not be decided: data is missing.
	Asks bool
	// Withheld is set where ferrules fit, but the settings allow none of them.
	Withheld bool
	// Nearest is the pair that comes nearest to fitting, and HasNearest whether there is one. Reasons are what stands against it.
	Nearest    matrix.Pair
	HasNearest bool
	Reasons    []fitcalc.Reason
}

// Today is what the ferrules in stock now come to, with the best use made of them.
type Today struct {
	Ferrules []int
	Cost     Cost
	// Unserved are heads that the plan serves and today's stock does not. Their cost is in neither Cost nor Same.
	Unserved []int
	// Same is what the plan costs on the heads that today's stock serves: the sum to compare with.
	Same Cost
}

// Alternative is another set to carry.
type Alternative struct {
	Ferrules         []int
	Cost, LowerBound float64
	Proven           bool
}

// Point is the best plan with at most so many part numbers.
type Point struct {
	AtMost int
	// Found is false where there is none, or none was found in the time; Impossible says that there is none.
	Found, Impossible bool
	Alternative
}

// Plan is what to carry.
type Plan struct {
	Currency string
	Carry    []Carried
	Served   []Served
	Unserved []Unserved
	Cost     Cost
	// LowerBound is a cost below which no plan lies, and Gap how far the plan may be above the best, as a part of its cost.
	LowerBound, Gap float64
	Proven          bool
	// LeftOut are the heads that the settings leave out; they are neither served nor unserved.
	LeftOut []int
	// OneSource are the heads that want a second source and have none among the ferrules on offer.
	OneSource []int
	// Today is nil where the sheets do not say what is in stock.
	Today *Today
	// Second is the best plan with another set, nil where there is none or none was found in the time.
	Second *Alternative
	// Curve is the cost by the most part numbers. It ends where more change nothing.
	Curve []Point
	// Assumed are sentences that the plan rests on.
	Assumed []string
}

// question is the problem put to package facility, with what is needed to read the answer.
type question struct {
	result   *matrix.Result
	settings *Settings
	prices   *prices
	problem  facility.Problem
	pairs    []map[int]matrix.Pair
	carrying []float64
	leaves   []bool // by head
	grouped  []int  // the head of each group
}

// Choose returns what to carry. When the context ends, the plan is the best found so far, with its gap. Second and Curve take a
// third of the time each.
//
// The errors are a [*SettingError], a [*CurrencyError], and a [*facility.InfeasibleError] where AtMost is too few.
func Choose(ctx context.Context, r *matrix.Result, s Settings) (*Plan, error) {
	if err := s.validate(len(r.Catalogue.Heads), len(r.Catalogue.Ferrules)); err != nil {
		return nil, err
	}
	prices, err := readPrices(r.Catalogue, &s)
	if err != nil {
		return nil, err
	}
	q := &question{result: r, settings: &s, prices: prices}
	q.build()
	first, cancel := partOf(ctx, 3)
	best, err := facility.Solve(first, q.problem, facility.Options{})
	cancel()
	if err != nil {
		return nil, fmt.Errorf("stock: choosing what to carry: %w", err)
	}
	plan := q.plan(best)
	if err := q.explain(plan, best); err != nil {
		return nil, err
	}
	if err := q.second(ctx, plan, best); err != nil {
		return nil, err
	}
	if err := q.curve(ctx, plan, best); err != nil {
		return nil, err
	}
	q.today(plan)
	return plan, nil
}

// build makes the problem. Heads that no allowed pair serves are customers without arcs, so that indexes stay the same.
func (q *question) build() {
	c, s := q.result.Catalogue, q.settings
	q.leaves = make([]bool, len(c.Heads))
	for _, h := range s.LeaveOut {
		q.leaves[h] = true
	}
	q.problem = facility.Problem{Closed: s.MustNot, Open: s.Must, AtMost: s.AtMost, Supplier: suppliers(c)}
	for i := range c.Ferrules {
		carrying := s.CarryPerYear + s.Holding*q.prices.piece[i]*float64(q.lot(i))/2
		q.carrying = append(q.carrying, carrying)
		q.problem.Fixed = append(q.problem.Fixed, carrying)
	}
	for _, x := range s.Exclude {
		q.problem.Exclude = append(q.problem.Exclude, facility.Pair{Customer: x.Head, Facility: x.Ferrule})
	}
	for h := range c.Heads {
		pairs := map[int]matrix.Pair{}
		var arcs []facility.Arc
		for _, p := range q.result.HeadPairs(h) {
			if q.allowed(p) && !q.leaves[h] {
				pairs[int(p.Ferrule)] = p
				arcs = append(arcs, facility.Arc{Facility: int(p.Ferrule), Cost: q.of(p).Total()})
			}
		}
		q.pairs = append(q.pairs, pairs)
		q.problem.Serve = append(q.problem.Serve, arcs)
	}
	for _, h := range s.SecondSource {
		if q.leaves[h] {
			continue
		}
		q.grouped = append(q.grouped, h)
		group := facility.Group{Name: c.Heads[h].Part}
		for _, a := range q.problem.Serve[h] {
			if !slices.Contains(q.problem.Exclude, facility.Pair{Customer: h, Facility: a.Facility}) {
				group.Facilities = append(group.Facilities, a.Facility)
			}
		}
		q.problem.Groups = append(q.problem.Groups, group)
	}
}

func (q *question) allowed(p matrix.Pair) bool {
	s := q.settings
	return (p.Verdict.Serves() || s.Measured && p.Verdict == fitcalc.Measure) && !(s.NoPrep && p.Verdict == fitcalc.Prep) &&
		!(s.MostTurnDown.Sign() > 0 && s.MostTurnDown.Less(p.TurnDown))
}

// of is what a pair costs in a year, without the carrying.
func (q *question) of(p matrix.Pair) Cost {
	yearly := q.settings.yearly(int(p.Head))
	return Cost{
		Work:   yearly * float64(p.Minutes) * q.settings.BenchPerMinute,
		Pieces: yearly * q.prices.piece[p.Ferrule],
	}
}

// lot is how many pieces have to be bought at once.
func (q *question) lot(ferrule int) int {
	return max(1, q.result.Catalogue.Ferrules[ferrule].Pack, q.settings.MinimumOrder[ferrule])
}

// suppliers numbers the suppliers of the ferrules.
func suppliers(c *catalog.Catalogue) []int {
	numbers, known := make([]int, len(c.Ferrules)), map[string]int{}
	for i := range c.Ferrules {
		n, seen := known[c.Ferrules[i].Supplier]
		if !seen {
			n = len(known)
			known[c.Ferrules[i].Supplier] = n
		}
		numbers[i] = n
	}
	return numbers
}

// partOf is a context with a part of the time that is left.
func partOf(ctx context.Context, parts int) (context.Context, context.CancelFunc) {
	deadline, limited := ctx.Deadline()
	if !limited {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, untilPart(deadline, parts))
}

func (q *question) plan(best *facility.Solution) *Plan {
	plan := &Plan{Currency: q.prices.currency, LowerBound: best.LowerBound, Gap: best.Gap(), Proven: best.Proven, Assumed: q.prices.assumed}
	if q.settings.Yearly == nil {
		plan.Assumed = append(plan.Assumed, fmt.Sprintf("%g of each head are taken to be made in a year", q.settings.EachHead))
	}
	place := map[int]int{}
	for at, i := range best.Open {
		place[i] = at
		plan.Carry = append(plan.Carry, Carried{Ferrule: i, Lot: q.lot(i), Instead: -1, PricePerPiece: q.prices.piece[i],
			Cost: Cost{Carrying: q.carrying[i]}})
	}
	for h, i := range best.Assigned {
		if q.leaves[h] {
			plan.LeftOut = append(plan.LeftOut, h)
			continue
		}
		if i < 0 {
			plan.Unserved = append(plan.Unserved, q.unserved(h))
			continue
		}
		pair, yearly := q.pairs[h][i], q.settings.yearly(h)
		cost, minutes := q.of(pair), yearly*float64(pair.Minutes)
		plan.Served = append(plan.Served, Served{Head: h, Pair: pair, Yearly: yearly, Minutes: minutes})
		c := &plan.Carry[place[i]]
		c.Heads = append(c.Heads, h)
		c.Pieces += yearly
		c.Minutes += minutes
		c.Cost.Work += cost.Work
		c.Cost.Pieces += cost.Pieces
	}
	for at := range plan.Carry {
		c := &plan.Carry[at]
		c.Packs = int(math.Ceil(c.Pieces / float64(c.Lot)))
		c.LeftOver = float64(c.Packs*c.Lot) - c.Pieces
		plan.Cost = plan.Cost.plus(c.Cost)
	}
	for _, g := range best.UnmetGroups {
		plan.OneSource = append(plan.OneSource, q.grouped[g])
	}
	return plan
}

func (c Cost) plus(d Cost) Cost {
	return Cost{c.Work + d.Work, c.Pieces + d.Pieces, c.Carrying + d.Carrying}
}

func (q *question) unserved(head int) Unserved {
	u := Unserved{Head: head}
	u.Withheld = q.result.HeadFits(head) > 0
	u.Asks = q.result.HeadCount(head, fitcalc.Ask) > 0
	u.Bare = q.result.Catalogue.Heads[head].Head.Top == fitcalc.TopRounded
	if u.Bare || u.Withheld {
		return u
	}
	if u.Nearest, u.HasNearest = q.result.Nearest(head); u.HasNearest {
		fit := q.result.Fit(u.Nearest)
		for reason := range fit.Reasons() {
			if reason.Level == fitcalc.Blocks {
				u.Reasons = append(u.Reasons, reason)
			}
		}
	}
	return u
}

// explain fills in what each ferrule of the plan is worth.
func (q *question) explain(plan *Plan, best *facility.Solution) error {
	losses, err := facility.Losses(q.problem, best)
	if err != nil {
		return fmt.Errorf("stock: weighing what is carried: %w", err)
	}
	for at, l := range losses {
		c := &plan.Carry[at]
		c.Instead = l.Instead
		if c.Irreplaceable = math.IsInf(l.Cost, 1); !c.Irreplaceable {
			c.Saves = l.Cost
		}
	}
	return nil
}

func alternative(s *facility.Solution) Alternative {
	return Alternative{Ferrules: s.Open, Cost: s.Cost, LowerBound: s.LowerBound, Proven: s.Proven}
}

func (q *question) second(ctx context.Context, plan *Plan, best *facility.Solution) error {
	ctx, cancel := partOf(ctx, 2)
	defer cancel()
	second, err := facility.SecondBest(ctx, q.problem, best, facility.Options{})
	var none *facility.InfeasibleError
	if errors.As(err, &none) || err == nil && second == nil {
		return nil
	}
	if err != nil {
		return fmt.Errorf("stock: choosing the second best: %w", err)
	}
	a := alternative(second)
	plan.Second = &a
	return nil
}

func (q *question) curve(ctx context.Context, plan *Plan, best *facility.Solution) error {
	if q.settings.CurvePoints == 0 {
		return nil
	}
	points, err := facility.Curve(ctx, q.problem, q.settings.CurvePoints, q.curveOptions(best))
	if err != nil {
		return fmt.Errorf("stock: working out the curve: %w", err)
	}
	for _, p := range points {
		point := Point{AtMost: p.AtMost, Found: p.Solution != nil, Impossible: p.Infeasible}
		if point.Found {
			point.Alternative = alternative(p.Solution)
		}
		plan.Curve = append(plan.Curve, point)
	}
	return nil
}

// A curve is read by eye. Beyond so many pairs of head and ferrule each of its points is good enough within a part of its cost, and is
// given up after a number of steps; its bound stands beside it. Below, every point is proven. A catalogue of 300 by 150 has a few
// thousand pairs and is proven in a tenth of a second; of 5,000 by 2,000, with 500,000, single points took ten seconds.
const (
	provenPairs = 50_000
	curveGap    = 0.01
	curveParts  = 12
)

func (q *question) curveOptions(best *facility.Solution) facility.Options {
	opts := facility.Options{Start: best.Open}
	pairs := 0
	for _, arcs := range q.problem.Serve {
		pairs += len(arcs)
	}
	if pairs > provenPairs {
		opts.Gap, opts.Parts = curveGap, curveParts
	}
	return opts
}
