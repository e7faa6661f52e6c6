package stack

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
)

// MaxTerms is the most Uniform and Triangular terms a [Sum] holds. Normal and exact terms are not limited.
const MaxTerms = 8

// Sum is a sum and difference of independent dimensions. It is a comparable value of fixed size; building and
// evaluating it allocates nothing.
//
// The zero Sum is an empty sum: exactly nothing. A Sum built from a dimension that was not given, from more than
// [MaxTerms] terms that are not Normal, or from lengths that overflow has an [Sum.Err]; its probabilities and moments
// are NaN and its lengths are those of the terms that could be added.
type Sum struct {
	nominal, least, most measure.Length
	twiceMean            int64             // Σ ±(lower + upper) in picometres: exact, where the mean itself may be half a picometre
	normalVariance       float64           // pm²
	half                 [MaxTerms]float64 // half-widths of the terms that are not Normal, pm: exact
	terms                uint8             // how many of half are in use
	triangular           uint8             // bit i: half[i] is of a Triangular term
	fault                fault
}

type fault uint8

const (
	sound fault = iota
	missing
	tooMany
	overflowed
	badShape
	badRatio
)

// Error says why a [Sum] cannot be evaluated.
type Error struct {
	// Reason is the sentence that follows "stack: ".
	Reason string
	// Missing is set when a term is a dimension that was not given.
	Missing bool
}

func (e *Error) Error() string { return "stack: " + e.Reason }

// Of returns the sum with the one term d.
func Of(d measure.Dim) Sum { return Sum{}.Plus(d) }

// Plus returns s + d. A dimension with a nominal size and no limits counts as exact.
func (s Sum) Plus(d measure.Dim) Sum {
	s.nominal, s.least, s.most = s.nominal.Add(d.Nominal()), s.least.Add(d.Lower()), s.most.Add(d.Upper())
	s.twiceMean += d.Lower().Picometres() + d.Upper().Picometres()
	s.spread(d, d.Width())
	return s
}

// Minus returns s − d. A dimension with a nominal size and no limits counts as exact.
func (s Sum) Minus(d measure.Dim) Sum {
	s.nominal, s.least, s.most = s.nominal.Sub(d.Nominal()), s.least.Sub(d.Upper()), s.most.Sub(d.Lower())
	s.twiceMean -= d.Lower().Picometres() + d.Upper().Picometres()
	s.spread(d, d.Width())
	return s
}

// MinusSum returns s − o, the terms of both being independent of each other.
func (s Sum) MinusSum(o Sum) Sum {
	s.nominal, s.least, s.most = s.nominal.Sub(o.nominal), s.least.Sub(o.most), s.most.Sub(o.least)
	s.twiceMean -= o.twiceMean
	s.normalVariance += o.normalVariance
	s.fault = max(s.fault, o.fault)
	for i, half := range o.half[:o.terms] {
		if s.terms == MaxTerms {
			s.fault = tooMany
			break
		}
		s.half[s.terms] = half
		s.triangular |= o.triangular >> i & 1 << s.terms
		s.terms++
	}
	s.checkRange()
	return s
}

// PlusRatio returns s + d × num/den, limits to the nearest picometre: a tip that grows by .0075 in per inch adds
// 3/400 of how deep it goes. A den of nothing is a fault, see [Sum.Err].
func (s Sum) PlusRatio(d measure.Dim, num, den int64) Sum {
	if den == 0 {
		s.fault = badRatio
		return s
	}
	a, b := d.Lower().MulRatio(num, den), d.Upper().MulRatio(num, den)
	lower, upper := measure.Min(a, b), measure.Max(a, b)
	s.nominal, s.least, s.most = s.nominal.Add(d.Nominal().MulRatio(num, den)), s.least.Add(lower), s.most.Add(upper)
	s.twiceMean += lower.Picometres() + upper.Picometres()
	s.spread(d, upper.Sub(lower))
	return s
}

// PlusConst returns s + l.
func (s Sum) PlusConst(l measure.Length) Sum {
	s.nominal, s.least, s.most = s.nominal.Add(l), s.least.Add(l), s.most.Add(l)
	s.twiceMean += 2 * l.Picometres()
	s.checkRange()
	return s
}

// spread takes in how far a term strays from its middle; all shapes are symmetric, so its sign does not matter.
func (s *Sum) spread(d measure.Dim, width measure.Length) {
	s.checkRange()
	if !d.Given() {
		s.fault = missing
		return
	}
	if width.IsZero() {
		return
	}
	switch d.Shape() {
	case measure.Normal:
		sigma := float64(width.Picometres()) / 6
		s.normalVariance += sigma * sigma
	case measure.Uniform, measure.Triangular:
		if s.terms == MaxTerms {
			s.fault = tooMany
			return
		}
		s.half[s.terms] = float64(width.Picometres()) / 2
		if d.Shape() == measure.Triangular {
			s.triangular |= 1 << s.terms
		}
		s.terms++
	default:
		s.fault = badShape
	}
}

func (s *Sum) checkRange() {
	if s.nominal.Overflowed() || s.least.Overflowed() || s.most.Overflowed() {
		s.fault = overflowed
	}
}

// Err returns an [*Error] when s cannot be evaluated, and nil otherwise.
func (s Sum) Err() error {
	switch s.fault {
	case sound:
		return nil
	case missing:
		return &Error{Reason: "a dimension of the sum is not given; give it or leave the sum undecided", Missing: true}
	case tooMany:
		return &Error{Reason: fmt.Sprintf("more than %d terms are uniform or triangular; describe some of them as normal", MaxTerms)}
	case overflowed:
		return &Error{Reason: "the sum is beyond 1 km; check the units of its terms"}
	case badRatio:
		return &Error{Reason: "a term is multiplied by a ratio with nothing below the line"}
	}
	return &Error{Reason: "a dimension has a spread that is not normal, uniform or triangular"}
}

// Nominal returns the sum of the nominal sizes.
func (s Sum) Nominal() measure.Length { return s.nominal }

// Middle returns the middle of Least and Most: the mean, to the nearest picometre.
func (s Sum) Middle() measure.Length { return measure.Between(s.least, s.most).Nominal() }

// Least returns the worst case on the low side, limit against limit, exactly.
func (s Sum) Least() measure.Length { return s.least }

// Most returns the worst case on the high side, limit against limit, exactly.
func (s Sum) Most() measure.Length { return s.most }

// Exact reports whether no term has any spread, so that the sum is one length.
func (s Sum) Exact() bool { return s.terms == 0 && s.normalVariance == 0 }

// Mean returns the mean in mm: the sum of the middles of the limits, which is not the nominal size where a tolerance
// is not symmetric.
func (s Sum) Mean() float64 {
	if s.fault != sound {
		return math.NaN()
	}
	return float64(s.twiceMean) / 2 / pmPerMillimetre
}

const pmPerMillimetre = 1e9

// Sigma returns the standard deviation in mm: per term width/6 for Normal, width/√12 for Uniform, width/√24 for
// Triangular.
func (s Sum) Sigma() float64 {
	if s.fault != sound {
		return math.NaN()
	}
	return s.sigma() / pmPerMillimetre
}

// sigma is in picometres.
func (s *Sum) sigma() float64 { return math.Sqrt(s.variance()) }

func (s *Sum) variance() float64 {
	v := s.normalVariance
	for i := range s.terms {
		if s.isTriangular(i) {
			v += s.half[i] * s.half[i] / 6
		} else {
			v += s.half[i] * s.half[i] / 3
		}
	}
	return v
}

func (s *Sum) isTriangular(i uint8) bool { return s.triangular>>i&1 == 1 }

// RSS returns the root-sum-square half-width in mm, each term's half-width T inflated by its shape: c = 1 for Normal,
// √3 for Uniform, √1.5 for Triangular, so that mean ± RSS is mean ± 3 standard deviations. Source: F. Scholz,
// "Tolerance Stack Analysis Methods", Boeing, 1995.
func (s Sum) RSS() float64 { return 3 * s.Sigma() }

// offset returns x − mean in picometres: exact up to 4 km.
func (s *Sum) offset(x measure.Length) float64 {
	return float64(2*x.Picometres()-s.twiceMean) / 2
}

// compare returns the sign of x − the sum where the sum is exact.
func (s *Sum) compare(x measure.Length) int {
	d := 2*x.Picometres() - s.twiceMean
	switch {
	case d < 0:
		return -1
	case d > 0:
		return 1
	}
	return 0
}

// CDF returns P(S ≤ x). Where every term is exact it is 0 or 1 by comparing whole picometres.
func (s Sum) CDF(x measure.Length) float64 {
	if s.Exact() && s.fault == sound {
		return indicator(s.compare(x) >= 0)
	}
	return s.above(-s.offset(x))
}

// Below returns P(S < x). It differs from [Sum.CDF] only where every term is exact and x is the sum.
func (s Sum) Below(x measure.Length) float64 {
	if s.Exact() && s.fault == sound {
		return indicator(s.compare(x) > 0)
	}
	return s.above(-s.offset(x))
}

// Above returns P(S > x). It is computed as such, not as 1 − CDF, so that small probabilities keep their relative
// precision.
func (s Sum) Above(x measure.Length) float64 {
	if s.Exact() && s.fault == sound {
		return indicator(s.compare(x) < 0)
	}
	return s.above(s.offset(x))
}

func indicator(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// above returns P(S − mean > z) for a sum that is not exact, and by symmetry P(S − mean < −z).
func (s *Sum) above(z float64) float64 {
	if s.fault != sound {
		return math.NaN()
	}
	if s.terms == 0 {
		return math.Erfc(z/math.Sqrt(2*s.normalVariance)) / 2
	}
	e := s.evaluator()
	return min(1, max(0, e.tail(0, e.k, z)))
}

// MeanExcess returns E[max(S − x, 0)] in mm: the mean of what lies above x, counting nothing where S is below x. With
// S the oversize on the diameter and x nothing it is the expected turn-down on the diameter. Divide it by [Sum.Above]
// for the mean among those that lie above. Its derivative in x is −Above.
func (s Sum) MeanExcess(x measure.Length) float64 {
	if s.fault != sound {
		return math.NaN()
	}
	z := s.offset(x)
	if s.Exact() {
		return max(0, -z) / pmPerMillimetre
	}
	return s.excess(z)
}

// MeanShortfall returns E[max(x − S, 0)] in mm: the mean of what is missing up to x, counting nothing where S is
// above x.
func (s Sum) MeanShortfall(x measure.Length) float64 {
	if s.fault != sound {
		return math.NaN()
	}
	z := s.offset(x)
	if s.Exact() {
		return max(0, z) / pmPerMillimetre
	}
	return s.excess(-z)
}

// excess returns E[max(S − mean − z, 0)] in mm for z in picometres.
func (s *Sum) excess(z float64) float64 {
	if s.terms == 0 {
		t := normalTail(1, math.Abs(z), math.Sqrt(s.normalVariance))
		return (max(0, -z) + t) / pmPerMillimetre
	}
	e := s.evaluator()
	return max(0, -z, e.tail(1, e.k, z)) / pmPerMillimetre
}

// Density returns the probability density at x, per mm; 0 or +Inf where every term is exact.
func (s Sum) Density(x measure.Length) float64 {
	if s.fault != sound {
		return math.NaN()
	}
	if s.Exact() {
		if s.compare(x) == 0 {
			return math.Inf(1)
		}
		return 0
	}
	e := s.evaluator()
	return max(0, e.tail(-1, e.k, s.offset(x))) * pmPerMillimetre
}

// Quantile returns the x in mm with P(S ≤ x) = p. It is NaN for p outside [0, 1]; for p of 0 and 1 it is the end of
// the range, infinite where a term is Normal.
func (s Sum) Quantile(p float64) float64 {
	if s.fault != sound || math.IsNaN(p) || p < 0 || p > 1 {
		return math.NaN()
	}
	if s.Exact() {
		return s.Mean()
	}
	if p > 0.5 {
		return s.away(1, 1-p)
	}
	return s.away(-1, p)
}

// UpperQuantile returns the x in mm with P(S > x) = q: as [Sum.Quantile] of 1 − q, but for a q too small to be told
// from nothing beside 1.
func (s Sum) UpperQuantile(q float64) float64 {
	if s.fault != sound || math.IsNaN(q) || q < 0 || q > 1 {
		return math.NaN()
	}
	if s.Exact() {
		return s.Mean()
	}
	if q > 0.5 {
		return s.away(-1, 1-q)
	}
	return s.away(1, q)
}

// away returns, in mm, the place on one side of the mean beyond which lies the probability q of at most a half.
func (s *Sum) away(side, q float64) float64 {
	return (float64(s.twiceMean)/2 + side*s.upperQuantile(q)) / pmPerMillimetre
}

// upperQuantile returns z ≥ 0 in picometres with P(S − mean > z) = q, for q of at most a half.
//
// The logarithm of the survival function is concave, because every density here is log-concave, so Newton steps on it
// from the right never pass the root; steps that leave the bracket are replaced by halving it.
func (s *Sum) upperQuantile(q float64) float64 {
	e := s.evaluator()
	if q == 0 {
		if e.sigma > 0 {
			return math.Inf(1)
		}
		return e.reach[e.k]
	}
	if q == 0.5 {
		return 0
	}
	deviation := s.sigma()
	lo, hi := 0.0, 40*deviation // P beyond 40 standard deviations is below the least float64
	if e.sigma == 0 {
		hi = min(hi, e.reach[e.k])
	}
	z := min(hi, deviation*math.Sqrt(-2*math.Log(2*q)))
	for range 200 {
		t := e.tail(0, e.k, z)
		if t > q {
			lo = z
		} else {
			hi = z
		}
		next := (lo + hi) / 2
		if t > 0 {
			if newton := z + math.Log(t/q)*t/e.tail(-1, e.k, z); newton > lo && newton < hi {
				next = newton
			}
		}
		if math.Abs(next-z) <= 4e-16*deviation || next == lo && next == hi {
			return next
		}
		z = next
	}
	return z
}
