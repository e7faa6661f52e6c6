package sample

import "math"

// Capability compares the spread of a lot with its limits. Indices that need a limit which does not exist are NaN.
// Source of the formulas: NIST/SEMATECH e-Handbook, 6.1.6.
type Capability struct {
	// Cp is (upper − lower)/6 SD: what could be reached by centring.
	Cp float64
	// Cpu and Cpl are (upper − mean)/3 SD and (mean − lower)/3 SD; Cpk is the smaller.
	Cpu, Cpl, Cpk float64
	// K is 2|middle − mean|/(upper − lower): how far off centre; Cpk = Cp(1 − K) while the mean is within the limits.
	K float64
	// Outside is the share of a normal lot with this mean and SD outside the limits. It is an estimate with no
	// confidence attached; see [Summary.OutsideBound].
	Outside float64

	n                int
	mean, sd, extent float64
}

// Capability returns the capability indices. It reports [ErrNotPositive] when all readings are the same: the spread
// is then hidden by the resolution.
func (s Summary) Capability(l Limits) (Capability, error) {
	if err := firstError(s.check(), l.check(), checkPositive("standard deviation", s.SD)); err != nil {
		return Capability{}, err
	}
	c := Capability{
		Cpu: math.NaN(), Cpl: math.NaN(), Cp: math.NaN(), K: math.NaN(),
		Outside: l.outside(s.Mean, s.SD),
		n:       s.N, mean: s.Mean, sd: s.SD, extent: l.Upper - l.Lower,
	}
	upper, lower := !math.IsInf(l.Upper, 0), !math.IsInf(l.Lower, 0)
	if upper {
		c.Cpu = (l.Upper - s.Mean) / (3 * s.SD)
		c.Cpk = c.Cpu
	}
	if lower {
		c.Cpl = (s.Mean - l.Lower) / (3 * s.SD)
		c.Cpk = c.Cpl
	}
	if upper && lower {
		c.Cpk = min(c.Cpu, c.Cpl)
		c.Cp = c.extent / (6 * s.SD)
		c.K = math.Abs(l.Lower+l.Upper-2*s.Mean) / c.extent
	}
	return c, nil
}

// Cpm returns (upper − lower)/(6·sqrt(SD² + (mean − target)²)), which counts being off target as spread; NaN with
// only one limit.
func (c Capability) Cpm(target float64) float64 {
	if math.IsInf(c.extent, 0) {
		return math.NaN()
	}
	return c.extent / (6 * math.Hypot(c.sd, c.mean-target))
}

// CpInterval returns the two-sided confidence interval of Cp, exact for a normal lot: Cp·sqrt(χ²/(n − 1)) at (1 ∓
// confidence)/2.
func (c Capability) CpInterval(confidence float64) (Interval, error) {
	if err := checkProbability("confidence", confidence); err != nil {
		return Interval{}, err
	}
	nu := float64(c.n - 1)
	end := func(p float64) float64 { return c.Cp * math.Sqrt(chiSquareQuantile(p, nu)/nu) }
	return Interval{end((1 - confidence) / 2), end((1 + confidence) / 2)}, nil
}

// CpkInterval returns Bissell's approximate two-sided confidence interval of Cpk: Cpk ± z·sqrt(1/(9n) + Cpk²/(2(n −
// 1))). Source: Bissell, Applied Statistics 39 (1990), pp. 331–340.
func (c Capability) CpkInterval(confidence float64) (Interval, error) {
	if err := checkProbability("confidence", confidence); err != nil {
		return Interval{}, err
	}
	n := float64(c.n)
	half := zOf((1+confidence)/2) * math.Sqrt(1/(9*n)+c.Cpk*c.Cpk/(2*(n-1)))
	return Interval{c.Cpk - half, c.Cpk + half}, nil
}

// CentredOutside returns the share outside the limits of a normal lot of known Cp whose mean is in the middle:
// 2Φ(−3Cp).
func CentredOutside(cp float64) float64 { return 2 * upperTail(3*cp) }
