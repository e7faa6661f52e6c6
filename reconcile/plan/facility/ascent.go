package facility

import (
	"context"
	"math"
	"slices"
)

// ascent is the dual ascent of Erlenkotter (1978). Its multipliers v, one for each customer, are a solution of the dual of the
// linear relaxation: maximise Σ v_j with Σ_j max(0, v_j − c_ij) ≤ f_i for each facility. So Σ v_j bounds every solution.
type ascent struct {
	*model
	status []int8
	extra  float64 // added to the cost of opening each free facility
	v      []float64
	slack  []float64 // f_i − Σ_j max(0, v_j − c_ij)
	level  []int32   // the first arc of the customer that costs more than v
}

func newAscent(mo *model, status []int8, extra float64) *ascent {
	a := &ascent{model: mo, status: status, extra: extra,
		v: make([]float64, mo.n), slack: make([]float64, mo.m), level: make([]int32, mo.n)}
	for i := range mo.m {
		if status[i] == free {
			a.slack[i] = mo.fixed[i] + extra
		}
	}
	for j := range mo.n {
		a.v[j] = mo.unserved[j]
		for k := mo.from[j]; k < mo.from[j+1]; k++ {
			if status[mo.fac[k]] != closed {
				a.v[j] = mo.cost[k]
				break
			}
		}
		a.settle(j)
	}
	return a
}

// settle moves the level of a customer to where its v says.
func (a *ascent) settle(j int) {
	k := a.from[j]
	for k < a.from[j+1] && a.cost[k] <= a.v[j] {
		k++
	}
	a.level[j] = k
}

// climb raises the multipliers of the customers as far as the slacks let them, by one level of cost at a time so that the
// slack is shared among many, and reports how much was gained.
func (a *ascent) climb(customers []int32) float64 {
	gained := 0.0
	for again := true; again; {
		again = false
		for _, j := range customers {
			step, whole := a.room(int(j))
			if step > 0 {
				a.raise(int(j), step)
				gained += step
			}
			if whole {
				again = true
				a.settle(int(j))
			}
		}
	}
	return gained
}

// room is how far v of a customer can rise at once, and whether that is the whole way to its next level.
func (a *ascent) room(j int) (step float64, whole bool) {
	if a.v[j] >= a.unserved[j] {
		return 0, false
	}
	next := a.unserved[j]
	k := a.level[j]
	for k < a.from[j+1] && a.status[a.fac[k]] == closed {
		k++
	}
	if k < a.from[j+1] {
		next = a.cost[k]
	}
	step = math.Inf(1)
	for b := a.from[j]; b < a.level[j]; b++ {
		if i := a.fac[b]; a.status[i] != closed {
			if a.slack[i] < step {
				step = a.slack[i]
			}
		}
	}
	if step >= next-a.v[j] {
		return next - a.v[j], true
	}
	return step, false
}

func (a *ascent) raise(j int, step float64) {
	for b := a.from[j]; b < a.level[j]; b++ {
		a.slack[a.fac[b]] -= step
	}
	a.v[j] += step
}

// everyone lists the customers.
func (a *ascent) everyone() []int32 {
	all := make([]int32, a.n)
	for j := range all {
		all[j] = int32(j)
	}
	return all
}

// primal opens a set of facilities without slack that serves everyone who can be: those that are the only one for some
// customer, and then for each customer still without one his cheapest.
func (a *ascent) primal() []bool {
	open := make([]bool, a.m)
	for i, s := range a.status {
		open[i] = s == opened
	}
	for j := range a.n {
		if only, count := a.tight(j); count == 1 {
			open[only] = true
		}
	}
	for j := range a.n {
		first, served := int32(-1), false
		for b := a.from[j]; b < a.level[j] && !served; b++ {
			i := a.fac[b]
			served = open[i]
			if first < 0 && a.isTight(i) {
				first = i
			}
		}
		if !served && first >= 0 {
			open[first] = true
		}
	}
	return open
}

func (a *ascent) isTight(i int32) bool {
	return a.status[i] == opened || a.status[i] == free && a.slack[i] <= 1e-9*(a.fixed[i]+a.extra)
}

// tight returns the first facility without slack that customer j reaches, and how many there are.
func (a *ascent) tight(j int) (first int32, count int) {
	first = -1
	for b := a.from[j]; b < a.level[j]; b++ {
		if i := a.fac[b]; a.isTight(i) {
			if count == 0 {
				first = i
			}
			count++
		}
	}
	return first, count
}

// adjust is Erlenkotter's dual adjustment. Where a customer pays towards two or more open facilities (complementary slackness
// does not hold), its multiplier is lowered by a level, and those customers for whom that makes room climb first.
func (a *ascent) adjust(ctx context.Context, passes int) {
	all := a.everyone()
	for range passes {
		open := a.primal()
		gained := 0.0
		for j := range a.n {
			if ctx.Err() != nil {
				return
			}
			if a.paysTwice(j, open) {
				gained += a.exchange(j, open)
			}
		}
		gained += a.climb(all)
		if gained <= 0 {
			return
		}
	}
}

func (a *ascent) paysTwice(j int, open []bool) bool {
	count := 0
	for b := a.from[j]; b < a.level[j] && a.cost[b] < a.v[j]; b++ {
		if open[a.fac[b]] && a.status[a.fac[b]] == free {
			count++
		}
	}
	return count > 1
}

// exchange lowers v of customer j to the level below, lets others climb, and returns what was gained on balance. Where nothing
// was, everything is as before.
func (a *ascent) exchange(j int, open []bool) float64 {
	down := a.v[j]
	for b := a.level[j] - 1; b >= a.from[j]; b-- {
		if a.cost[b] < a.v[j] && a.status[a.fac[b]] != closed {
			down = a.cost[b]
			break
		}
	}
	before := a.save([]int32{int32(j)})
	drop := a.v[j] - down
	var freed []int32
	for b := a.from[j]; b < a.level[j] && a.cost[b] < a.v[j]; b++ {
		a.slack[a.fac[b]] += drop
		if open[a.fac[b]] {
			freed = append(freed, a.fac[b])
		}
	}
	a.v[j] = down
	a.settle(j)
	first := a.onlyAt(freed, j)
	before.add(a, first)
	gained := a.climb(first) - drop
	gained += a.climb(append(first, int32(j)))
	if gained <= 0 {
		before.restore(a)
		return 0
	}
	return gained
}

// saved is what an exchange may change.
type saved struct {
	customers []int32
	v         []float64
	slack     []float64
}

func (a *ascent) save(customers []int32) *saved {
	s := &saved{slack: slices.Clone(a.slack)}
	s.add(a, customers)
	return s
}

func (s *saved) add(a *ascent, customers []int32) {
	for _, j := range customers {
		s.customers, s.v = append(s.customers, j), append(s.v, a.v[j])
	}
}

func (s *saved) restore(a *ascent) {
	copy(a.slack, s.slack)
	for at, j := range s.customers {
		a.v[j] = s.v[at]
		a.settle(int(j))
	}
}

// onlyAt lists the customers who reach no facility without slack now but one of those freed.
func (a *ascent) onlyAt(freed []int32, except int) []int32 {
	var list []int32
	for _, i := range freed {
		for b := a.at[i]; b < a.at[i+1]; b++ {
			j := a.cust[b]
			if int(j) == except || a.fcost[b] > a.v[j] {
				continue
			}
			if _, count := a.tight(int(j)); count == 0 {
				list = append(list, j)
			}
		}
	}
	return list
}

// bound is what the multipliers prove: no solution costs less. With a limit on the number of facilities, each costs extra more
// to open, and the limit's worth of that is given back.
func (a *ascent) bound() float64 {
	sum := 0.0
	for _, v := range a.v {
		sum += v
	}
	for i, s := range a.status {
		if s == opened {
			sum += a.fixed[i] + a.extra
		}
	}
	return sum - a.extra*float64(a.atMost)
}
