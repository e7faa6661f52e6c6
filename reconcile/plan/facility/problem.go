package facility

import (
	"math"
	"slices"
)

// Arc says that a facility can serve a customer, and at what cost.
type Arc struct {
	Facility int
	// Cost is the cost of serving the customer's whole demand from there; +Inf says that it cannot.
	Cost float64
}

// Pair is a customer and a facility that must not serve it.
type Pair struct{ Customer, Facility int }

// Group asks for a second source: among the open facilities of the list there must be two of different suppliers.
type Group struct {
	// Name is how the group is called in errors.
	Name       string
	Facilities []int
}

// Problem is an uncapacitated facility location problem. Costs are in any one unit.
type Problem struct {
	// Fixed is the cost of opening each facility, finite and not negative. Its length is the number of facilities.
	Fixed []float64
	// Serve has an entry for each customer: the facilities that can serve it, each at most once, in any order.
	Serve [][]Arc

	// Open must be open, Closed must not.
	Open, Closed []int
	// Exclude are pairs that must not be used, whatever they cost.
	Exclude []Pair
	// AtMost is the most facilities that may be open; 0 is no limit.
	AtMost int
	// Supplier is whose each facility is, by any number; needed only with Groups, and then one for each facility.
	Supplier []int
	// Groups each need two suppliers among the open facilities.
	Groups []Group
}

// validate reports the first thing that makes the problem no problem.
func (p *Problem) validate() error {
	m := len(p.Fixed)
	for i, f := range p.Fixed {
		if !(f >= 0) || math.IsInf(f, 1) {
			return &InputError{What: "the cost of opening facility", Index: i, Err: ErrCost}
		}
	}
	if err := p.validateArcs(m); err != nil {
		return err
	}
	return p.validateConstraints(m)
}

func (p *Problem) validateArcs(m int) error {
	last := make([]int, m) // the customer, counted from 1, that named the facility last
	for j, arcs := range p.Serve {
		for _, a := range arcs {
			switch {
			case a.Facility < 0 || a.Facility >= m:
				return &InputError{What: "a facility of customer", Index: j, Err: ErrIndex}
			case math.IsNaN(a.Cost) || math.IsInf(a.Cost, -1):
				return &InputError{What: "a cost of serving customer", Index: j, Err: ErrCost}
			case last[a.Facility] == j+1:
				return &InputError{What: "a facility of customer", Index: j, Err: ErrTwice}
			}
			last[a.Facility] = j + 1
		}
	}
	return nil
}

func (p *Problem) validateConstraints(m int) error {
	outside := func(i int) bool { return i < 0 || i >= m }
	for at, i := range p.Open {
		if outside(i) {
			return &InputError{What: "must-open entry", Index: at, Err: ErrIndex}
		}
		if slices.Contains(p.Closed, i) {
			return &InputError{What: "facility", Index: i, Err: ErrContradiction}
		}
	}
	for at, i := range p.Closed {
		if outside(i) {
			return &InputError{What: "must-not-open entry", Index: at, Err: ErrIndex}
		}
	}
	for at, pair := range p.Exclude {
		if outside(pair.Facility) || pair.Customer < 0 || pair.Customer >= len(p.Serve) {
			return &InputError{What: "excluded pair", Index: at, Err: ErrIndex}
		}
	}
	if p.AtMost < 0 {
		return &InputError{What: "the most facilities", Index: p.AtMost, Err: ErrCount}
	}
	if len(p.Groups) > 0 && len(p.Supplier) != m {
		return &InputError{What: "the list of suppliers, of length", Index: len(p.Supplier), Err: ErrCount}
	}
	for at, g := range p.Groups {
		if slices.ContainsFunc(g.Facilities, outside) {
			return &InputError{What: "a facility of group", Index: at, Err: ErrIndex}
		}
	}
	return nil
}
