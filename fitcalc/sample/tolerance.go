package sample

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// Interval is the range from Lower to Upper in the unit of the readings; an end that does not exist is infinite.
type Interval struct{ Lower, Upper float64 }

// OneSidedFactor returns the exact k such that mean + k·SD of n normal readings is above at least the given share of
// the lot, with the given confidence; by symmetry mean − k·SD is below as many.
//
// k = t′/√n, with t′ the quantile at the confidence of the noncentral t distribution of n − 1 degrees of freedom and
// noncentrality z(share)·√n. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3.
func OneSidedFactor(n int, share, confidence float64) (float64, error) {
	if err := checkFactor(n, share, confidence); err != nil {
		return 0, err
	}
	root := math.Sqrt(float64(n))
	return noncentralT{float64(n - 1), zOf(share) * root}.quantile(confidence) / root, nil
}

// TwoSidedFactor returns the exact k such that mean ± k·SD of n normal readings holds at least the given share of the
// lot, with the given confidence.
//
// k solves E[P(χ² ≥ (n − 1)·r(Z/√n)²/k²)] = confidence, with χ² of n − 1 degrees of freedom, Z standard normal, and
// r(x) the half-width about x that holds the share of a standard normal: Φ(x + r) − Φ(x − r) = share. Source:
// Krishnamoorthy and Mathew, Statistical Tolerance Regions (2009), section 2.3.1. The mean over Z is by the
// trapezoidal rule, which converges exponentially.
func TwoSidedFactor(n int, share, confidence float64) (float64, error) {
	if err := checkFactor(n, share, confidence); err != nil {
		return 0, err
	}
	const step, nodes = 0.0625, 150 // to 9.3 standard deviations
	nu := float64(n - 1)
	var weight, square [nodes]float64
	total := 0.0
	for i := range nodes {
		z := float64(i) * step
		weight[i] = math.Exp(-z * z / 2)
		if i == 0 {
			weight[i] /= 2 // the rule is over both signs
		}
		total += weight[i]
		r := halfWidth(z/math.Sqrt(float64(n)), share)
		square[i] = nu * r * r
	}
	missed := func(k float64) float64 {
		sum := 0.0
		for i := range nodes {
			sum += weight[i] * chiSquareUpper(square[i]/(k*k), nu)
		}
		return sum/total - confidence
	}
	howe, err := HoweFactor(n, share, confidence)
	if err != nil {
		return 0, err
	}
	lo, hi := howe, howe
	for missed(lo) > 0 {
		lo /= 1.1
	}
	for missed(hi) < 0 {
		hi *= 1.1
	}
	return root(missed, lo, hi), nil
}

// halfWidth returns r with Φ(x + r) − Φ(x − r) = share, x ≥ 0.
func halfWidth(x, share float64) float64 {
	left := 1 - share
	f := func(r float64) float64 { return left - upperTail(r+x) - upperTail(r-x) }
	// the far side alone, and both sides alike, bound it
	return root(f, x+zOf(share)-1e-9, x+zOf((1+share)/2)+1e-9)
}

// HoweFactor returns Howe's approximation to [TwoSidedFactor]: z((1 + share)/2)·sqrt((n − 1)(1 + 1/n)/χ²), χ² the
// lower quantile at 1 − confidence. It is low by up to 1 % for the shares and confidences in use, and high by up to 2
// % for n = 5 and a share of 99 %. Source: NIST/SEMATECH e-Handbook, 7.2.6.3, after Howe, Journal of the American
// Statistical Association 64 (1969), pp. 610–620.
func HoweFactor(n int, share, confidence float64) (float64, error) {
	if err := checkFactor(n, share, confidence); err != nil {
		return 0, err
	}
	nu := float64(n - 1)
	return zOf((1+share)/2) * math.Sqrt(nu*(1+1/float64(n))/chiSquareQuantile(1-confidence, nu)), nil
}

// NatrellaFactor returns Natrella's approximation to [OneSidedFactor]: (z + sqrt(z² − ab))/a with z = z(share), a = 1
// − z(confidence)²/(2(n − 1)), b = z² − z(confidence)²/n. Where a is not positive, for very few readings, it does not
// exist and is +Inf. Source: NIST/SEMATECH e-Handbook, 7.2.6.3, after Natrella, Experimental Statistics (NBS Handbook
// 91).
func NatrellaFactor(n int, share, confidence float64) (float64, error) {
	if err := checkFactor(n, share, confidence); err != nil {
		return 0, err
	}
	z, zc := zOf(share), zOf(confidence)
	a := 1 - zc*zc/(2*float64(n-1))
	if a <= 0 {
		return math.Inf(1), nil
	}
	// z² − ab = z²(1 − a) + a z(confidence)²/n, without the difference that cancels for many readings
	return (z + math.Abs(zc)*math.Sqrt(z*z/(2*float64(n-1))+a/float64(n))) / a, nil
}

func checkFactor(n int, share, confidence float64) error {
	return firstError(checkCount("number of readings", n, 2), checkProbability("share", share), checkProbability("confidence", confidence))
}

// ToleranceInterval returns the interval that holds at least the given share of the lot with the given confidence, if
// the lot is normal: mean ± [TwoSidedFactor]·SD.
func (s Summary) ToleranceInterval(share, confidence float64) (Interval, error) {
	k, err := TwoSidedFactor(s.N, share, confidence)
	if err := firstError(s.check(), err); err != nil {
		return Interval{}, err
	}
	return Interval{s.Mean - k*s.SD, s.Mean + k*s.SD}, nil
}

// LowerToleranceLimit returns the size that at least the given share of the lot exceeds, with the given confidence,
// if the lot is normal.
func (s Summary) LowerToleranceLimit(share, confidence float64) (float64, error) {
	k, err := OneSidedFactor(s.N, share, confidence)
	return s.Mean - k*s.SD, firstError(s.check(), err)
}

// UpperToleranceLimit returns the size that at least the given share of the lot stays below, with the given
// confidence, if the lot is normal.
func (s Summary) UpperToleranceLimit(share, confidence float64) (float64, error) {
	k, err := OneSidedFactor(s.N, share, confidence)
	return s.Mean + k*s.SD, firstError(s.check(), err)
}

// ThreeSigma is the share of a normal distribution within three standard deviations: what the limits of a
// [measure.Dim] with a Normal spread hold.
const ThreeSigma = 0.9973002039367398

// Dim returns the dimension of a lot, from one reading in mm each of several of its pieces: limits that hold [ThreeSigma] of
// the lot with the given confidence, rounded outward to the picometre, with the origin [measure.Measured]. It says what the
// next piece may measure; for the size of one piece that was read several times use [Estimate.Dim]. The errors are those of
// [Summary.ToleranceInterval].
func (s Summary) Dim(confidence float64) (measure.Dim, error) {
	i, err := s.ToleranceInterval(ThreeSigma, confidence)
	if err != nil {
		return measure.Dim{}, err
	}
	return measured(s.Mean, (i.Upper-i.Lower)/2)
}

// LeastForRange returns how many readings it takes until their least and greatest hold at least the given share of
// the lot with the given confidence, whatever the distribution: the least n with 1 − n·share^(n−1) + (n − 1)·share^n
// ≥ confidence. Source: Wilks, Annals of Mathematical Statistics 12 (1941), pp. 91–96.
func LeastForRange(share, confidence float64) (int, error) {
	if err := firstError(checkProbability("share", share), checkProbability("confidence", confidence)); err != nil {
		return 0, err
	}
	return leastCount(func(n float64) bool {
		// n·p^(n−1) − (n − 1)·p^n = p^(n−1)(n(1 − p) + p)
		return math.Pow(share, n-1)*(n*(1-share)+share) <= 1-confidence
	}, 2)
}

// LeastWithoutFault returns how many pieces must be found good, and none bad, to show with the given confidence that
// at least the given share of a large lot is good: the least n with share^n ≤ 1 − confidence. It is also how many
// readings it takes until the greatest alone exceeds the share of the lot.
func LeastWithoutFault(share, confidence float64) (int, error) {
	if err := firstError(checkProbability("share", share), checkProbability("confidence", confidence)); err != nil {
		return 0, err
	}
	return leastCount(func(n float64) bool { return math.Pow(share, n) <= 1-confidence }, 1)
}

// leastCount returns the least n ≥ from for which the condition holds, which stays true once it is.
func leastCount(holds func(n float64) bool, from int) (int, error) {
	hi := from
	for !holds(float64(hi)) {
		if hi > largestSample {
			return 0, bad("number of readings", float64(hi), ErrTooLarge)
		}
		hi *= 2
	}
	lo := from - 1
	for lo+1 < hi {
		if mid := (lo + hi) / 2; holds(float64(mid)) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, nil
}

// largestSample bounds every search for a sample size.
const largestSample = 1 << 30
