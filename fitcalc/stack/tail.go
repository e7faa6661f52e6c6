package stack

import "math"

const (
	maxParts   = 2 * MaxTerms // a Triangular term is two uniform parts
	maxOrder   = maxParts + 1 // the mean excess starts at order 1, and each part adds one
	maxMoments = maxOrder/2 + 1
)

// evaluator is a Sum taken apart: a normal of deviation sigma and k uniform parts, with mean nothing. It works in
// picometres, in which half-widths, their sums and offsets are exact float64 values, so that the ends of bounded sums
// are where they should be.
type evaluator struct {
	sigma float64
	k     int
	h     [maxParts]float64     // half-widths, narrowest first
	reach [maxParts + 1]float64 // reach[j]: the sum of the first j half-widths
	// moments[j][i] is E[W^2i]/(2i)! for W the normal and the first j parts: the Taylor coefficients of its moment
	// generating function exp(σ²s²/2) Π sinh(hs)/(hs).
	moments [maxParts + 1][maxMoments]float64
}

func (s *Sum) evaluator() (e evaluator) {
	e.sigma = math.Sqrt(s.normalVariance)
	for i := range s.terms {
		if s.isTriangular(i) {
			e.insert(s.half[i] / 2)
			e.insert(s.half[i] / 2)
		} else {
			e.insert(s.half[i])
		}
	}
	for j := range e.k {
		e.reach[j+1] = e.reach[j] + e.h[j]
	}
	e.fillMoments()
	return e
}

// insert keeps h sorted, narrowest first.
func (e *evaluator) insert(h float64) {
	i := e.k
	for ; i > 0 && e.h[i-1] > h; i-- {
		e.h[i] = e.h[i-1]
	}
	e.h[i] = h
	e.k++
}

func (e *evaluator) fillMoments() {
	most := (e.k + 1) / 2 // tail of order m at j parts left has m + j ≤ k + 1, and needs moments up to m
	term := 1.0
	for i := 0; i <= most; i++ {
		e.moments[0][i] = term
		term *= e.sigma * e.sigma / 2 / float64(i+1)
	}
	for j := range e.k {
		hh := e.h[j] * e.h[j]
		for i := 0; i <= most; i++ {
			factor := 1.0 // h^2l / (2l+1)!
			for l := 0; l <= i; l++ {
				e.moments[j+1][i] += factor * e.moments[j][i-l]
				factor *= hh / float64((2*l+2)*(2*l+3))
			}
		}
	}
}

// tail returns T_m(z) = E[max(W − z, 0)^m]/m!, W the normal and the first j parts; for m = −1 the density of W at z.
func (e *evaluator) tail(m, j int, z float64) float64 {
	if z < 0 {
		return e.reflected(m, j, -z)
	}
	if z-e.reach[j] > 40*e.sigma { // certain for σ = 0, and below the least float64 otherwise
		return 0
	}
	if j == 0 {
		return normalTail(m, z, e.sigma)
	}
	if e.narrow(j) {
		return e.contour(m, j, z)
	}
	h := e.h[j-1]
	if m == -1 && j == 1 && e.sigma == 0 {
		return 1 / (2 * h)
	}
	return (e.tail(m+1, j-1, z-h) - e.tail(m+1, j-1, z+h)) / (2 * h)
}

// reflected returns T_m(−y) for y > 0.
func (e *evaluator) reflected(m, j int, y float64) float64 {
	switch {
	case m == -1:
		return e.tail(m, j, y)
	case m%2 == 0:
		return e.powerMean(m, j, y) - e.tail(m, j, y)
	}
	return e.powerMean(m, j, y) + e.tail(m, j, y)
}

// powerMean returns E[(W + y)^m]/m!, W the normal and the first j parts.
func (e *evaluator) powerMean(m, j int, y float64) float64 {
	sum, power := 0.0, 1.0 // power is y^n/n!
	n := 0
	for i := m / 2; i >= 0; i-- {
		for ; n < m-2*i; n++ {
			power *= y / float64(n+1)
		}
		sum += power * e.moments[j][i]
	}
	return sum
}

// narrow reports whether the widest of the first j parts is so narrow against σ that a difference over it would
// cancel, or whether the parts are so many that the contour is also the shorter way.
func (e *evaluator) narrow(j int) bool {
	widest := e.h[j-1]
	switch {
	case j <= 2:
		return widest < 0.2*e.sigma
	case j <= 5:
		return widest < 0.5*e.sigma
	}
	return widest < 8*e.sigma
}

// normalTail returns T_m(z) for a normal of deviation sigma, z ≥ 0.
func normalTail(m int, z, sigma float64) float64 {
	if sigma == 0 {
		return 0
	}
	t := z / sigma
	density := math.Exp(-t*t/2) / math.Sqrt(2*math.Pi)
	if m == -1 {
		return density / sigma
	}
	q := math.Erfc(t/math.Sqrt2) / 2
	if m == 0 {
		return q
	}
	scale := sigma
	for range m - 1 {
		scale *= sigma
	}
	// The forward recurrence loses about exp(2t√m) of its relative precision to the growing solution.
	if t*t*float64(m) < 9 {
		before, now := density, q
		for i := 1; i <= m; i++ {
			before, now = now, (before-t*now)/float64(i)
		}
		return scale * now
	}
	return scale * q * descending(m, t)
}

// descending returns T_m/T_0 of the standard normal at t > 0 from the ratios r_n = T_n/T_(n−1), which obey r_(n−1) =
// 1/(t + n r_n) and, started far enough up, forget how they were started.
func descending(m int, t float64) float64 {
	start := math.Sqrt(float64(m)) + 16/t
	n := int(start*start) + 4
	// far up, r_n changes slowly: r = 1/(t + n r)
	r := 2 / (t + math.Sqrt(t*t+4*float64(n)))
	product := 1.0
	for ; n > 1; n-- {
		if n <= m {
			product *= r
		}
		r = 1 / (t + float64(n)*r)
	}
	return product * r
}

// contour returns T_m(z), z ≥ 0, as the inverse Laplace transform of exp(K(s)) s^−(m+1) along s = c + iω, c near the
// saddle point. With K(s) = σ²s²/2 + Σ ln(sinh(hs)/(hs)) the integrand over its value at ω = 0 is
//
//	exp(−σ²ω²/2 + iω(σ²c − z)) Π (cos hω + i coth(hc) sin hω) (c/(c + iω))^(j+m+1)
//
// and the trapezoidal rule of step 2π/L gives Σ exp(cLn) T_m(z + nL) over all whole n (Poisson's summation formula),
// so L is chosen for the terms beside n = 0 to be below rounding: to the left they fall as exp(−cL) L^m/m!, to the
// right as a normal tail.
func (e *evaluator) contour(m, j int, z float64) float64 {
	parts := e.h[:j]
	variance := e.sigma * e.sigma
	for _, h := range parts {
		variance += h * h / 3
	}
	c := e.saddle(m, parts, variance, z)
	exponent := e.sigma*e.sigma*c*c/2 - c*z
	var coth [maxParts]float64
	for i, h := range parts {
		exponent += logSinhc(h * c)
		coth[i] = 1 / math.Tanh(h*c)
	}
	period := 12 * math.Sqrt(variance)
	if m >= 0 {
		period = max(period, (40+3.5*float64(m))/c)
	}
	step := 2 * math.Pi / period
	sum := 0.5
	for n := 1; ; n++ {
		w := float64(n) * step
		sw := e.sigma * w
		if sw > 8.9 { // exp(−8.9²/2) is below a float64's rounding
			break
		}
		sin, cos := math.Sincos(w * (e.sigma*e.sigma*c - z))
		value := complex(cos, sin) * complex(math.Exp(-sw*sw/2), 0)
		ratio := complex(c, 0) / complex(c, w)
		for i, h := range parts {
			sin, cos := math.Sincos(h * w)
			value *= complex(cos, coth[i]*sin) * ratio
		}
		for range m + 1 {
			value *= ratio
		}
		sum += real(value)
	}
	result := math.Exp(exponent) * step / math.Pi * sum
	for range m + 1 {
		result /= c
	}
	return result
}

// saddle returns a c > 0 near the root of K'(c) − z − (m+1)/c. It need not be exact: any c > 0 gives the same
// integral, one near the root the least cancellation.
func (e *evaluator) saddle(m int, parts []float64, variance, z float64) float64 {
	order := float64(m + 1)
	// K' ≤ variance·c, so this start is at or below the root
	c := (z + math.Sqrt(z*z+4*order*variance)) / (2 * variance)
	c = max(c, 0.1/math.Sqrt(variance)) // off the pole of coth
	for range 20 {
		slope, value := e.sigma*e.sigma+order/(c*c), e.sigma*e.sigma*c-z-order/c
		for _, h := range parts {
			first, second := langevin(h * c)
			value += h * first
			slope += h * h * second
		}
		next := c - value/slope
		next = min(max(next, c/2), 2*c)
		done := math.Abs(next-c) < 0.01*c
		c = max(next, 0.1/math.Sqrt(variance))
		if done {
			break
		}
	}
	return c
}

// langevin returns coth x − 1/x and its derivative: the first two derivatives of ln(sinh x / x), x > 0.
func langevin(x float64) (first, second float64) {
	if x < 0.05 {
		return x / 3, 1.0 / 3
	}
	t := 1 / math.Tanh(x)
	return t - 1/x, 1/(x*x) - (t*t - 1)
}

// logSinhc returns ln(sinh x / x), x > 0.
func logSinhc(x float64) float64 {
	if x < 0.1 {
		xx := x * x
		return xx * (1.0/6 - xx*(1.0/180-xx*(1.0/2835-xx/37800)))
	}
	// sinh x = e^x (1 − e^−2x)/2
	return x + math.Log(-math.Expm1(-2*x)/(2*x))
}
