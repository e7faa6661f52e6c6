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
		extent := l.Upper - l.Lower
		c.Cpk = min(c.Cpu, c.Cpl)
		c.Cp = extent / (6 * s.SD)
		c.K = math.Abs(l.Lower+l.Upper-2*s.Mean) / extent
	}
	return c, nil
}
