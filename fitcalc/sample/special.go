package sample

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// upperTail returns P(Z > z) of the standard normal, with relative precision in the tail.
func upperTail(z float64) float64 { return math.Erfc(z/math.Sqrt2) / 2 }

// zOf returns the standard normal quantile.
func zOf(p float64) float64 { return mathext.NormalQuantile(p) }

// chiSquareQuantile inverts P(ν/2, x/2), the distribution function of chi-squared. The library's distributions would link its linear
// algebra too.
func chiSquareQuantile(p, nu float64) float64 { return 2 * mathext.GammaIncRegInv(nu/2, p) }

func chiSquareUpper(x, nu float64) float64 { return mathext.GammaIncRegComp(nu/2, x/2) }

// studentTwoSided returns P(|T| ≥ t).
func studentTwoSided(t, nu float64) float64 {
	_, upper := noncentralT{nu: nu}.tails(t)
	return 2 * upper
}

// manyDoF is where the expansion of [studentQuantile] takes over: its next term is below 1e-16 there, out to eight deviations.
const manyDoF = 1e5

// fewestDoF is where Student's t knows nothing any more: its quantile at 60 % is beyond 1e8 already.
const fewestDoF = 0.01

// studentQuantile returns t with P(T ≤ t) = p; the normal quantile for infinite nu. With many degrees of freedom it is that
// quantile x with the first terms in 1/ν: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.5. Inverting the
// distribution function would lose digits there, since it hangs on ν/(ν + t²), which rounds to 1.
func studentQuantile(p, nu float64) float64 {
	x := zOf(p)
	switch {
	case nu < fewestDoF:
		return math.Copysign(math.Inf(1), x)
	case nu == math.Trunc(nu) && nu <= mostTerms && min(p, 1-p) >= leastTail:
		return wholeQuantile(p, nu)
	case nu < manyDoF:
		return noncentralT{nu: nu}.quantile(p)
	}
	y := x * x
	g1 := (y + 1) / 4
	g2 := ((5*y+16)*y + 3) / 96
	g3 := (((3*y+19)*y+17)*y - 15) / 384
	return x * (1 + (g1+(g2+g3/nu)/nu)/nu)
}

// mostTerms is up to how many whole degrees of freedom the finite series is summed, and leastTail the smallest tail that it leaves
// to twelve digits and more, being a difference from 1.
const (
	mostTerms = 500
	leastTail = 1e-4
)

// wholeQuantile is studentQuantile for whole degrees of freedom, where the distribution function is a finite series: several hundred
// times as fast as the quadrature, for those who make sizes of readings by the thousand.
func wholeQuantile(p, nu float64) float64 {
	within := math.Abs(2*p - 1)
	theta := root(func(theta float64) float64 { return studentWithin(theta, nu) - within }, 0, math.Pi/2)
	return math.Copysign(math.Sqrt(nu)*math.Tan(theta), p-0.5)
}

// studentWithin returns P(|T| ≤ √ν·tan θ) for whole ν: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4.
func studentWithin(theta, nu float64) float64 {
	sin, cos := math.Sincos(theta)
	odd := math.Mod(nu, 2) == 1
	term, sum := 1.0, 0.0
	from := 2.0
	if odd {
		term, from = cos, 3
	}
	for k := from; k <= nu; k += 2 {
		sum += term
		term *= (k - 1) / k * cos * cos
	}
	if odd {
		return 2 / math.Pi * (theta + sin*sum)
	}
	return sin * sum
}

// noncentralT is the distribution of (Z + delta)/sqrt(χ²/nu), nu > 0.
type noncentralT struct{ nu, delta float64 }

// tails returns P(T ≤ t) and P(T > t).
//
// With s = sqrt(χ²/ν) it is the mean of Φ(ts − δ) over the density of s. In y = ln s that density is proportional to
// exp(ν(y − (exp(2y) − 1)/2)), bell-shaped for every ν, and the trapezoidal rule converges exponentially. Dividing by the
// same rule's sum of the density alone makes the normalising constant unnecessary. All terms are positive, so that
// small tails keep their relative precision. Lenth's series (Algorithm AS 243, Applied Statistics 38, 1989)
// underflows for δ beyond 37, which n = 300 readings already reach.
func (d noncentralT) tails(t float64) (lower, upper float64) {
	lo, hi := d.support()
	// The bell is 1/sqrt(2ν) wide; Φ(t exp(y) − δ) rises over 1/(t exp(y)), and only where t exp(y) is near δ.
	slope := min(math.Abs(t)*math.Exp(hi/2), math.Abs(d.delta)+9)
	step := 0.35 / math.Sqrt(2*d.nu+slope*slope)
	n := math.Ceil((hi - lo) / step)
	total := 0.0
	for i := 0.0; i <= n; i++ {
		y := lo + (hi-lo)*i/n
		s := math.Exp(y)
		weight := math.Exp(d.nu * (y - math.Expm1(2*y)/2))
		z := t*s - d.delta
		total += weight
		lower += weight * upperTail(-z)
		upper += weight * upperTail(z)
	}
	return lower / total, upper / total
}

// support returns the range of y outside which the density is less than exp(−80) of its peak.
func (d noncentralT) support() (lo, hi float64) {
	drop := func(y float64) float64 { return d.nu*(y-math.Expm1(2*y)/2) + 80 }
	lo, hi = -1/math.Sqrt(d.nu), 1/math.Sqrt(d.nu)
	for drop(lo) > 0 {
		lo *= 1.2
	}
	for drop(hi) > 0 {
		hi *= 1.2
	}
	return lo, hi
}

// quantile returns t with P(T ≤ t) = p.
func (d noncentralT) quantile(p float64) float64 {
	f := func(t float64) float64 {
		lower, upper := d.tails(t)
		if p < 0.5 {
			return lower - p
		}
		return (1 - p) - upper
	}
	// Johnson and Welch's normal approximation (Biometrika 31, 1940) is near enough to grow a bracket from
	width := math.Sqrt(1+d.delta*d.delta/(2*d.nu)) * (0.5 + math.Abs(zOf(p))/4)
	lo := d.delta + zOf(p)*math.Sqrt(1+d.delta*d.delta/(2*d.nu))
	hi := lo
	for step := width; f(lo) > 0; step *= 2 {
		lo -= step
	}
	for step := width; f(hi) < 0; step *= 2 {
		hi += step
	}
	return root(f, lo, hi)
}

// root finds where f changes sign between a and b to within rounding, by Chandrupatla's method (Advances in
// Engineering Software 28, 1997, pp. 145–149): inverse quadratic steps where they are safe, halving otherwise. f(a)
// and f(b) must not have the same sign; if they have, the end with the smaller value is returned.
func root(f func(float64) float64, a, b float64) float64 {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a
	}
	if fb == 0 {
		return b
	}
	c, fc, t := a, fa, 0.5
	for range 200 {
		x := a + t*(b-a)
		fx := f(x)
		if math.Signbit(fx) == math.Signbit(fa) {
			c, fc = a, fa
		} else {
			c, b, fc, fb = b, a, fb, fa
		}
		a, fa = x, fx
		best, least := a, math.Abs(fa)
		if math.Abs(fb) < least {
			best, least = b, math.Abs(fb)
		}
		within := 2e-15 * (math.Abs(best) + 1e-3)
		if least == 0 || math.Abs(b-a) <= 2*within {
			return best
		}
		tl := within / math.Abs(b-a)
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		t = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = min(max(t, tl), 1-tl)
	}
	return a
}
