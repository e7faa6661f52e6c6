package stack

import (
	"math"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Average returns the mean of f over the spread of d: how likely something is for a part of each size, f, becomes how likely it
// is for the parts as they come. It is what is left to do where several sums share a dimension, so that they are not
// independent of each other: for each size of the shared one they are.
//
// f is to be smooth but where the probabilities of one of the sums rise, which at gives: with P(S < x) in f(x), give S. Then,
// for values of f between 0 and 1 and limits ten micrometres apart or more, the result is within 1e-6, and mostly within 1e-8.
// For an exact d it is f itself; for one that is not given it is NaN.
//
// The mean is by Gauss and Legendre's rule of eight points between the places where the density of d or the distribution of
// a sum bends: its ends and kinks, and steps of about a deviation around them. Nothing is sampled, and nothing is allocated.
func Average(d measure.Dim, f func(measure.Length) float64, at ...Sum) float64 {
	switch {
	case !d.Given():
		return math.NaN()
	case d.Width().IsZero():
		return f(d.Lower())
	}
	a := averaging{lower: float64(d.Lower().Picometres()), upper: float64(d.Upper().Picometres())}
	middle, half := (a.lower+a.upper)/2, (a.upper-a.lower)/2
	density := func(float64) float64 { return 1 }
	switch d.Shape() {
	case measure.Normal:
		sigma := half / 3
		a.lower, a.upper = middle-steps[0]*sigma, middle+steps[0]*sigma
		a.bend(middle, sigma)
		density = func(x float64) float64 { t := (x - middle) / sigma; return math.Exp(-t * t / 2) }
	case measure.Triangular:
		a.bend(middle, 0)
		density = func(x float64) float64 { return half - math.Abs(x-middle) }
	}
	for i := range at {
		if at[i].fault != sound {
			return math.NaN()
		}
		a.bendAt(&at[i])
	}
	return a.mean(density, f)
}

// steps are where a normal distribution is cut into panels, in standard deviations either way; beyond the first there is less
// than 1e-10 of it.
var steps = [...]float64{6.5, 2.5, 0}

// averaging is the range of a shared dimension with the places in it between which everything is smooth, in picometres.
type averaging struct {
	lower, upper float64
	places       [160]float64
	count        int
}

// bend notes a kink, spread by a normal of deviation sigma.
func (a *averaging) bend(x, sigma float64) {
	for _, step := range steps {
		a.note(x - step*sigma)
		a.note(x + step*sigma)
		if sigma == 0 {
			return
		}
	}
}

// note keeps a place within the range. Where there are more than it holds, which takes sums of many terms, the rest is left to
// the panels there are.
func (a *averaging) note(x float64) {
	if x > a.lower && x < a.upper && a.count < len(a.places) {
		a.places[a.count] = x
		a.count++
	}
}

// bendAt notes the kinks of a sum's distribution: where each of its first two bounded terms is at an end or, for a triangle, its
// middle. More terms are smooth enough to be taken with the normal ones.
func (a *averaging) bendAt(s *Sum) {
	mean, sigma := float64(s.twiceMean)/2, math.Sqrt(s.normalVariance)
	var first, second float64
	if s.terms > 0 {
		first = s.half[0]
	}
	if s.terms > 1 {
		second = s.half[1]
	}
	if s.terms > 2 {
		sigma = s.sigma()
	}
	for i := -1.0; i <= 1; i++ {
		for j := -1.0; j <= 1; j++ {
			inner := i == 0 && first > 0 && !s.isTriangular(0) || j == 0 && second > 0 && !s.isTriangular(1)
			again := i != 0 && first == 0 || j != 0 && second == 0
			if !inner && !again {
				a.bend(mean+i*first+j*second, sigma)
			}
		}
	}
}

// mean goes through the panels. Dividing by the same rule's sum of the density makes its constant unnecessary.
func (a *averaging) mean(density func(float64) float64, f func(measure.Length) float64) float64 {
	places := a.places[:a.count]
	slices.Sort(places)
	total, sum := 0.0, 0.0
	panel := func(from, to float64) {
		middle, half := (from+to)/2, (to-from)/2
		for i, x := range legendreNodes {
			for _, at := range [...]float64{middle - half*x, middle + half*x} {
				weight := half * legendreWeights[i] * density(at)
				total += weight
				sum += weight * f(measure.Picometres(int64(math.Round(at))))
			}
		}
	}
	from := a.lower
	for _, to := range places {
		if to > from {
			panel(from, to)
		}
		from = to
	}
	panel(from, a.upper)
	return sum / total
}

// Gauss and Legendre's rule of eight points: Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4.
var (
	legendreNodes   = [...]float64{0.183434642495650, 0.525532409916329, 0.796666477413627, 0.960289856497536}
	legendreWeights = [...]float64{0.362683783378362, 0.313706645877887, 0.222381034453374, 0.101228536290376}
)
