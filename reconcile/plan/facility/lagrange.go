package facility

import (
	"cmp"
	"math"
	"slices"
)

// lagrange is the relaxation in which a customer may be served more than once or not at all, at a price v_j for each time
// short: for any v,
//
//	L(v) = Σ_j v_j + min { Σ_i ρ_i y_i : Σ_i y_i ≤ N },  ρ_i = f_i − Σ_j max(0, v_j − c_ij)
//
// bounds every solution from below. The inner minimum takes the facilities of the most negative ρ, so a limit on their number
// needs no price of its own.
type lagrange struct {
	*model
	status []int8
	count  int // settled open

	rho    []float64
	taken  []bool  // the inner minimum
	chosen []int32 // the free ones among them, by ρ
	// next is the ρ of the first free facility not taken, nothing where that is positive; last that of the last one taken
	// where no more may be open, nothing where more may.
	next, last float64
	gradient   []float64 // 1 − how often each customer is served
}

func newLagrange(mo *model) *lagrange {
	return &lagrange{model: mo, rho: make([]float64, mo.m), taken: make([]bool, mo.m), gradient: make([]float64, mo.n)}
}

func (l *lagrange) settle(status []int8) {
	l.status, l.count = status, count(status, opened)
}

// value returns L(v), and leaves ρ and the inner minimum behind.
func (l *lagrange) value(v []float64) float64 {
	copy(l.rho, l.fixed)
	sum := 0.0
	for j, price := range v {
		sum += price
		for a := l.from[j]; a < l.from[j+1] && l.cost[a] < price; a++ {
			l.rho[l.fac[a]] -= price - l.cost[a]
		}
	}
	l.chosen = l.chosen[:0]
	for i, s := range l.status {
		l.taken[i] = s == opened
		if s == opened {
			sum += l.rho[i]
		} else if s == free && l.rho[i] < 0 {
			l.chosen = append(l.chosen, int32(i))
		}
	}
	l.next, l.last = 0, 0
	if slots := l.atMost - l.count; len(l.chosen) >= slots {
		slices.SortFunc(l.chosen, func(a, b int32) int { return cmp.Or(cmp.Compare(l.rho[a], l.rho[b]), cmp.Compare(a, b)) })
		if len(l.chosen) > slots {
			l.next = l.rho[l.chosen[slots]]
		}
		l.chosen = l.chosen[:slots]
		if slots > 0 {
			l.last = l.rho[l.chosen[slots-1]]
		}
	}
	for _, i := range l.chosen {
		l.taken[i] = true
		sum += l.rho[i]
	}
	return sum
}

// slope fills in the gradient of L at v, for which value has been called, and returns its square.
func (l *lagrange) slope(v []float64) float64 {
	square := 0.0
	for j, price := range v {
		g := 1.0
		for a := l.from[j]; a < l.from[j+1] && l.cost[a] < price; a++ {
			if l.taken[l.fac[a]] {
				g--
			}
		}
		l.gradient[j] = g
		square += g * g
	}
	return square
}

// penalty is by how much L rises at least when facility i is settled the other way than the inner minimum has it.
func (l *lagrange) penalty(i int) float64 {
	if l.taken[i] {
		return l.next - l.rho[i]
	}
	return l.rho[i] - l.last
}

// climb improves v by the volume algorithm of Barahona and Anbil (2000): steps from the best point so far, along the average of
// the gradients met, of the length that would close the gap to the target along a straight line, shortened where that fails
// too often. The average of the inner minima, left in share, tends to a solution of the linear relaxation. It stops when L
// reaches the target or after so many steps, leaves v and the inner minimum at the best point, and returns L there. After each step
// visit, which may be nil, may look at the inner minimum; it returns the target, which may have come down, and false to stop.
func (l *lagrange) climb(v, share []float64, target float64, steps int, visit func(step int) (float64, bool)) float64 {
	best := l.value(v)
	l.slope(v)
	direction := slices.Clone(l.gradient)
	for i, t := range l.taken {
		share[i] = 0
		if t {
			share[i] = 1
		}
	}
	trial := make([]float64, l.n)
	length, failed := firstLength, 0
	mark := best
	for step := range steps {
		if step%stallSteps == stallSteps-1 {
			if best-mark < stallShare*(target-best) {
				break // branching gains more
			}
			mark = best
		}
		square := dot(direction, direction)
		if best >= target || square < 1e-18 {
			break
		}
		for j := range trial {
			trial[j] = min(v[j]+length*(target-best)/square*direction[j], l.unserved[j])
		}
		here := l.value(trial)
		l.slope(trial)
		if visit != nil {
			var on bool
			if target, on = visit(step); !on {
				break
			}
		}
		inner := dot(l.gradient, direction)
		switch {
		case here > best:
			best, failed = here, 0
			copy(v, trial)
			if inner >= 0 {
				length = min(length*1.1, longestLength)
			}
		default:
			if failed++; failed >= patience {
				length, failed = length*0.66, 0
			}
		}
		mix := l.mix(direction, inner, square)
		for j := range direction {
			direction[j] += mix * (l.gradient[j] - direction[j])
		}
		for i, t := range l.taken {
			share[i] *= 1 - mix
			if t {
				share[i] += mix
			}
		}
		if length < shortestLength {
			break
		}
	}
	best = l.value(v)
	return best
}

const (
	firstLength    = 0.5
	longestLength  = 1.5
	shortestLength = 1e-4
	patience       = 10
	mostMix        = 0.2
	stallSteps     = 200
	stallShare     = 0.05
)

// mix is the weight of the new gradient in the average: the one that makes the average shortest, within limits.
func (l *lagrange) mix(direction []float64, inner, square float64) float64 {
	g := dot(l.gradient, l.gradient)
	span := g - 2*inner + square
	if span <= 0 {
		return mostMix
	}
	return math.Min(mostMix, math.Max((square-inner)/span, mostMix/10))
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}
