package sample

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
)

// Summary is what the normal-theory methods need to know of n readings. The unit is that of the readings: mm from
// [Summarise].
type Summary struct {
	// N is the number of readings, and Mean their mean.
	N    int
	Mean float64
	// SD is the sample standard deviation, with n − 1.
	SD float64
	// Least and Most are the extreme readings. They are nothing in a Summary written down from published figures, and
	// no method of Summary needs them.
	Least, Most float64
}

// Summarise reduces readings to their [Summary] in mm. The mean is that of the whole picometres, rounded once. It
// takes the readings as they are ([Caliper.Correct] puts right what the jaws falsify), and reports [ErrTooFew] for fewer
// than two.
func Summarise(readings []measure.Length) (Summary, error) {
	if err := checkCount("number of readings", len(readings), 2); err != nil {
		return Summary{}, err
	}
	// Deviations from the first reading are whole, and small enough to be exact.
	origin := readings[0]
	deviations := make([]float64, len(readings))
	least, most := origin, origin
	for i, r := range readings {
		deviations[i] = float64(r.Picometres() - origin.Picometres())
		least, most = measure.Min(least, r), measure.Max(most, r)
	}
	mean, sd := meanAndSD(deviations)
	const pm = 1e-9
	return Summary{
		N:     len(readings),
		Mean:  (float64(origin.Picometres()) + mean) * pm,
		SD:    sd * pm,
		Least: least.Millimetres(),
		Most:  most.Millimetres(),
	}, nil
}

// SummariseFloats reduces readings in any one unit to their [Summary] in that unit. It reports [ErrTooFew] for fewer
// than two, and [ErrNotFinite] with the place, counted from 1, of a reading that is not a finite number.
func SummariseFloats(readings []float64) (Summary, error) {
	if err := checkCount("number of readings", len(readings), 2); err != nil {
		return Summary{}, err
	}
	least, most := math.Inf(1), math.Inf(-1)
	for i, r := range readings {
		if err := checkFinite(fmt.Sprintf("reading %d", i+1), r); err != nil {
			return Summary{}, err
		}
		least, most = min(least, r), max(most, r)
	}
	mean, sd := meanAndSD(readings)
	return Summary{N: len(readings), Mean: mean, SD: sd, Least: least, Most: most}, nil
}

// meanAndSD takes two passes, the second corrected for the rounding of the mean (Chan, Golub and LeVeque, The
// American Statistician 37, 1983, pp. 242–247).
func meanAndSD(x []float64) (mean, sd float64) {
	n := float64(len(x))
	for _, v := range x {
		mean += v / n
	}
	sum, squares := 0.0, 0.0
	for _, v := range x {
		d := v - mean
		sum += d
		squares += d * d
	}
	mean += sum / n
	return mean, math.Sqrt(max(0, squares-sum*sum/n) / (n - 1))
}

func (s Summary) check() error {
	if err := firstError(checkCount("number of readings", s.N, 2), checkFinite("mean", s.Mean), checkFinite("standard deviation", s.SD)); err != nil {
		return err
	}
	if s.SD < 0 {
		return bad("standard deviation", s.SD, ErrNegative)
	}
	return nil
}

// Limits are the Lower and Upper limit of a tolerance, in the unit of the readings. A limit that does not exist is −Inf or
// +Inf.
type Limits struct{ Lower, Upper float64 }

// LimitsOf returns the limits of d in mm, or [ErrNoLimits].
func LimitsOf(d measure.Dim) (Limits, error) {
	if !d.Given() || !d.HasLimits() {
		return Limits{}, bad("dimension", d.Nominal().Millimetres(), ErrNoLimits)
	}
	return Limits{Lower: d.Lower().Millimetres(), Upper: d.Upper().Millimetres()}, nil
}

func (l Limits) check() error {
	if math.IsNaN(l.Lower) || math.IsInf(l.Lower, 1) {
		return bad("lower limit", l.Lower, ErrNotFinite)
	}
	if math.IsNaN(l.Upper) || math.IsInf(l.Upper, -1) {
		return bad("upper limit", l.Upper, ErrNotFinite)
	}
	if l.Lower > l.Upper {
		return bad("lower limit", l.Lower, ErrOrder)
	}
	if math.IsInf(l.Lower, -1) && math.IsInf(l.Upper, 1) {
		return bad("limits", l.Upper, ErrNoLimits)
	}
	return nil
}

// outside returns the share of a normal distribution outside the limits.
func (l Limits) outside(mean, sd float64) float64 {
	return upperTail((mean-l.Lower)/sd) + upperTail((l.Upper-mean)/sd)
}
