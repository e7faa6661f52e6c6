package stack

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// BothAbove returns P(d − a > x and d − b > x) for sums that are independent of each other and of d: how likely two things are that
// share a dimension. The probability of either is P(d − a > x) + P(d − b > x) less that.
//
// Where all is normal it is the bivariate normal distribution by its integral over the correlation,
//
//	P(Z₁ > h, Z₂ > k) = Φ(−h) Φ(−k) + 1/2π ∫ exp(−(h² + k² − 2 h k sin θ) / (2 cos² θ)) dθ, θ from 0 to arcsin ρ
//
// (Drezner and Wesolowsky, Journal of Statistical Computation and Simulation 35, 1990, pp. 101–107), to 1e-9; elsewhere, and
// where nearly all of the spread is shared, it is the [Average] of the product.
func BothAbove(d measure.Dim, a, b Sum, x measure.Length) float64 {
	first, second := Of(d).MinusSum(a), Of(d).MinusSum(b)
	switch {
	case first.fault != sound || second.fault != sound:
		return math.NaN()
	case first.terms > 0 || second.terms > 0 || d.Width().IsZero() || first.normalVariance == 0 || second.normalVariance == 0:
		return averageBoth(d, a, b, x)
	}
	shared := float64(d.Width().Picometres()) / 6
	sigma, tau := math.Sqrt(first.normalVariance), math.Sqrt(second.normalVariance)
	rho := shared * shared / (sigma * tau)
	if rho > 0.9 {
		return averageBoth(d, a, b, x)
	}
	h, k := first.offset(x)/sigma, second.offset(x)/tau
	top := math.Asin(rho)
	sum := 0.0
	for i, node := range legendreNodes {
		for _, theta := range [...]float64{top / 2 * (1 - node), top / 2 * (1 + node)} {
			sin, cos := math.Sincos(theta)
			sum += legendreWeights[i] * math.Exp(-(h*h+k*k-2*h*k*sin)/(2*cos*cos))
		}
	}
	apart := math.Erfc(h/math.Sqrt2) * math.Erfc(k/math.Sqrt2) / 4
	return min(1, max(0, apart+sum*top/2/(2*math.Pi)))
}

// averageBoth is BothAbove for each size of d, at which the two are independent.
func averageBoth(d measure.Dim, a, b Sum, x measure.Length) float64 {
	return Average(d, func(l measure.Length) float64 {
		at := l.Sub(x)
		return a.Below(at) * b.Below(at)
	}, a.PlusConst(x), b.PlusConst(x))
}
