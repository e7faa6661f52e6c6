package sample

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
	"gonum.org/v1/gonum/mathext"
)

// OutsideBound returns a share that the share of a normal lot outside the limits does not exceed, with the given
// confidence.
//
// For one limit at the distance K·SD from the mean it is Φ(−δ/√n), with δ the noncentrality at which a noncentral t
// of n − 1 degrees of freedom exceeds K√n with probability 1 − confidence: exact, and the inverse of
// [OneSidedFactor]. For two limits it is the sum of the bounds at half the risk each (Bonferroni), which errs on the
// safe side.
func (s Summary) OutsideBound(l Limits, confidence float64) (float64, error) {
	if err := firstError(s.check(), l.check(), checkProbability("confidence", confidence),
		checkPositive("standard deviation", s.SD)); err != nil {
		return 0, err
	}
	upper, lower := (l.Upper-s.Mean)/s.SD, (s.Mean-l.Lower)/s.SD
	switch {
	case math.IsInf(lower, 1):
		return s.beyond(upper, 1-confidence), nil
	case math.IsInf(upper, 1):
		return s.beyond(lower, 1-confidence), nil
	}
	half := (1 - confidence) / 2
	return min(1, s.beyond(upper, half)+s.beyond(lower, half)), nil
}

// beyond returns Φ(−δ/√n) with P(t′(n − 1, δ) > K√n) = p: with p small an upper confidence bound on the share beyond
// a limit K standard deviations from the mean, with p near 1 a lower one.
func (s Summary) beyond(k, p float64) float64 {
	n := math.Sqrt(float64(s.N))
	f := func(z float64) float64 { // z = δ/√n
		_, upper := noncentralT{float64(s.N - 1), z * n}.tails(k * n)
		return upper - p
	}
	const most = 40 // beyond it shares are 0 or 1 to a float64
	clamp := func(z float64) float64 { return min(max(z, -most), most) }
	lo, hi := clamp(k-1), clamp(k+1)
	for step := 1.0; f(lo) > 0; step *= 2 {
		if lo == -most {
			return 1
		}
		lo = clamp(lo - step)
	}
	for step := 1.0; f(hi) < 0; step *= 2 {
		if hi == most {
			return 0
		}
		hi = clamp(hi + step)
	}
	return upperTail(root(f, lo, hi))
}

// ShareBound returns a share that the share of bad pieces in a large lot does not exceed, with the given confidence,
// when so many of n pieces taken at random were bad: Clopper and Pearson's exact one-sided bound (Biometrika 26,
// 1934, pp. 404–413).
func ShareBound(badPieces, n int, confidence float64) (float64, error) {
	if err := firstError(checkPieces("number of pieces", n, 1), checkLot(n, badPieces), checkProbability("confidence", confidence)); err != nil {
		return 0, err
	}
	if badPieces == n {
		return 1, nil
	}
	// P(at most badPieces | p) = I(1 − p; n − bad, bad + 1) = 1 − confidence
	a, b := float64(n-badPieces), float64(badPieces+1)
	return root(func(p float64) float64 { return 1 - confidence - mathext.RegIncBeta(a, b, 1-p) }, 0, 1), nil
}

// ShareInterval returns Clopper and Pearson's two-sided interval for the share of bad pieces in a large lot. It holds
// the true share at least as often as the confidence says.
func ShareInterval(badPieces, n int, confidence float64) (Interval, error) {
	if err := checkProbability("confidence", confidence); err != nil {
		return Interval{}, err
	}
	each := (1 + confidence) / 2
	upper, err := ShareBound(badPieces, n, each)
	if err != nil {
		return Interval{}, err
	}
	good, err := ShareBound(n-badPieces, n, each)
	if err != nil {
		return Interval{}, err
	}
	return Interval{1 - good, upper}, nil
}

// Consistency is what readings say of a stated dimension.
type Consistency uint8

const (
	// Undecided readings neither bear out the statement nor contradict it: take more.
	Undecided Consistency = iota
	// Supported is shown by the readings, with the confidence asked for.
	Supported
	// Contradicted is refuted by the readings, with the confidence asked for.
	Contradicted
)

// String returns the word.
func (c Consistency) String() string {
	switch c {
	case Supported:
		return "supported"
	case Contradicted:
		return "contradicted"
	}
	return "undecided"
}

// Question is what to ask of readings about a stated dimension.
type Question struct {
	// Confidence of the answer, such as .95.
	Confidence float64
	// Allowed is the share of pieces that may lie outside the stated limits, such as .05; the smaller, the more
	// readings it takes to support a statement.
	Allowed float64
	// U is the standard uncertainty in mm that all readings share, such as that of the caliper
	// ([Caliper.Uncertainty]); nothing when it does not matter. The guard band of ISO 14253-1, z(Confidence)·U, counts
	// against whatever is to be shown: limits are widened by it before the readings contradict a statement, and
	// narrowed before they support it.
	U float64
}

// Comparison is the answer: what a supplier states against what was measured.
type Comparison struct {
	// Consistency is the answer in a word.
	Consistency Consistency
	// Reason is the sentence that the answer rests on, with its numbers.
	Reason string
	// Summary is that of the readings, in mm.
	Summary Summary
	// ReadOutside counts the readings beyond the stated limits; ProvedOutside those beyond by the guard band.
	ReadOutside, ProvedOutside int
	// Outside estimates the share of the lot outside the stated limits, for a normal lot; NaN where all readings are
	// the same.
	Outside float64
	// OutsideBound bounds the share outside the narrowed limits with the confidence asked for, for a normal lot; 1
	// where the guard bands leave nothing between the limits, NaN where all readings are the same.
	OutsideBound float64
	// CountedBound bounds the same share from the number of readings outside the narrowed limits alone, whatever the
	// distribution.
	CountedBound float64
	// MeanP is the probability of a mean at least this far from the middle of the limits, either way, if the lot's
	// mean were there (Student's t). A small one is no fault by itself: limits allow a lot off centre.
	MeanP float64
	// SpreadP is the probability of a spread at least this large if the lot's standard deviation were the one the
	// stated limits and shape imply (chi-square).
	SpreadP float64
	// Assumption is the sentence that the numbers rest on.
	Assumption string
	// Warnings are of type [*Warning].
	Warnings []error
}

// Compare sets readings of pieces taken at random from a lot against the limits a supplier states. It takes the readings as
// they are; where the jaws give, let [Caliper.Correct] put them right first.
//
// Two ways lead to an answer, each with the confidence asked for. One counts, whatever the distribution: the statement is
// Contradicted when a share of Allowed outside would rarely put as many readings beyond the widened limits, and Supported when
// it would rarely leave as few outside the narrowed ones (CountedBound within Allowed). The other takes the lot as normal and
// needs fewer readings: Contradicted when a lower confidence bound on the share beyond either widened limit exceeds Allowed,
// Supported when OutsideBound is within Allowed. It is asked only where the count leaves the answer open, and believed only while
// the number of readings outside is one that a normal lot of this mean and spread explains, by the binomial at the same
// confidence. So a reading outside is no veto by itself: a good lot has some, and the more readings there are, the more.
// Otherwise the statement is Undecided.
//
// Sources: acceptance by the number outside is that of sampling by attributes (MIL-STD-105E; Clopper and Pearson 1934 for the
// bound), acceptance by mean and spread that of sampling by variables and of statistical tolerance intervals (MIL-STD-414;
// ISO 16269-6; NIST/SEMATECH e-Handbook, 7.2.6.3). That one may speak only where the other does not contradict it is our own:
// it is the check of normality that the standards leave to the user, made where it matters, at the limits.
func Compare(stated measure.Dim, readings []measure.Length, q Question) (Comparison, error) {
	l, errLimits := LimitsOf(stated)
	s, errReadings := Summarise(readings)
	if err := firstError(errLimits, errReadings, q.check()); err != nil {
		return Comparison{}, err
	}
	c := Comparison{
		Summary:    s,
		Assumption: "pieces taken at random from one normal lot; the counted bound needs no normal lot",
		Outside:    math.NaN(), OutsideBound: math.NaN(), MeanP: math.NaN(),
		Warnings: readingWarnings(s, measure.Length{}),
	}
	guard := zOf(q.Confidence) * q.U
	if width := l.Upper - l.Lower; 8*guard > width {
		c.Warnings = append(c.Warnings, &Warning{ErrUncertainLimits,
			fmt.Sprintf("guard bands of %.4f mm at each limit take more than a quarter of the %.4f mm between them; use a better instrument", guard, width)})
	}
	notShownInside := c.count(stated, readings, guard)
	var err error
	if c.CountedBound, err = ShareBound(notShownInside, s.N, q.Confidence); err != nil {
		return Comparison{}, err
	}
	c.tests(stated)
	narrowed := Limits{l.Lower + guard, l.Upper - guard}
	if s.SD > 0 {
		c.Outside = l.outside(s.Mean, s.SD)
		c.OutsideBound = 1
		if narrowed.Lower <= narrowed.Upper {
			if c.OutsideBound, err = s.OutsideBound(narrowed, q.Confidence); err != nil {
				return Comparison{}, err
			}
		}
	}
	c.decide(narrowed, Limits{l.Lower - guard, l.Upper + guard}, notShownInside, q)
	return c, nil
}

func (q Question) check() error {
	if err := firstError(checkProbability("confidence", q.Confidence), checkProbability("allowed share", q.Allowed),
		checkFinite("standard uncertainty", q.U)); err != nil {
		return err
	}
	if q.U < 0 {
		return bad("standard uncertainty", q.U, ErrNegative)
	}
	return nil
}

// count compares whole picometres with the limits, so that a reading at a limit is inside. It returns how many
// readings are not inside by the guard band.
func (c *Comparison) count(stated measure.Dim, readings []measure.Length, guard float64) (notShownInside int) {
	lower, upper := stated.Lower(), stated.Upper()
	for _, r := range readings {
		beyond := measure.Max(lower.Sub(r), r.Sub(upper))
		if beyond.Sign() > 0 {
			c.ReadOutside++
			if beyond.Millimetres() > guard {
				c.ProvedOutside++
			}
		}
		if beyond.Sign() > 0 || beyond.Millimetres() > -guard {
			notShownInside++
		}
	}
	return notShownInside
}

func (c *Comparison) tests(stated measure.Dim) {
	n, s := float64(c.Summary.N), c.Summary
	if s.SD > 0 {
		t := math.Abs(s.Mean-stated.Middle().Millimetres()) / (s.SD / math.Sqrt(n))
		c.MeanP = studentTwoSided(t, n-1)
	}
	sigma := statedSigma(stated)
	switch {
	case sigma > 0:
		c.SpreadP = chiSquareUpper((n-1)*s.SD*s.SD/(sigma*sigma), n-1)
	case s.SD == 0:
		c.SpreadP = 1
	}
}

// statedSigma is the standard deviation that limits and shape imply, in mm.
func statedSigma(d measure.Dim) float64 {
	w := d.Width().Millimetres()
	switch d.Shape() {
	case measure.Uniform:
		return w / math.Sqrt(12)
	case measure.Triangular:
		return w / math.Sqrt(24)
	}
	return w / 6
}

// chanceText is a probability as people read one: nobody reads 3.9e-11.
func chanceText(chance float64) string {
	if chance < 1e-4 {
		return "under 0.01 %"
	}
	return fmt.Sprintf("of %.2g %%", 100*chance)
}

// decide goes by the count first, which holds whatever the distribution, then by the normal lot: see [Compare].
func (c *Comparison) decide(narrowed, widened Limits, notShownInside int, q Question) {
	s, rare := c.Summary, 1-q.Confidence
	if chance := atLeast(c.ProvedOutside, s.N, q.Allowed); chance <= rare {
		c.Consistency = Contradicted
		c.Reason = fmt.Sprintf("%d of %d readings are outside the limits beyond doubt; with %.3g %% of the pieces outside, so many have a probability %s",
			c.ProvedOutside, s.N, 100*q.Allowed, chanceText(chance))
		return
	}
	if c.CountedBound <= q.Allowed {
		c.Consistency = Supported
		c.Reason = fmt.Sprintf("%d of %d readings are outside the limits, so that at %.3g %% confidence at most %.3g %% of the lot are, and %.3g %% are allowed",
			c.ReadOutside, s.N, 100*q.Confidence, 100*c.CountedBound, 100*q.Allowed)
		return
	}
	if s.SD > 0 {
		each := (1 + q.Confidence) / 2
		least := max(s.beyond((widened.Upper-s.Mean)/s.SD, each), s.beyond((s.Mean-widened.Lower)/s.SD, each))
		if least > q.Allowed && atMost(c.ProvedOutside, s.N, widened.outside(s.Mean, s.SD)) > rare {
			c.Consistency = Contradicted
			c.Reason = fmt.Sprintf("at %.3g %% confidence at least %.3g %% of a normal lot are outside the limits, and %.3g %% are allowed",
				100*q.Confidence, 100*least, 100*q.Allowed)
			return
		}
	}
	if c.OutsideBound <= q.Allowed && atLeast(notShownInside, s.N, narrowed.outside(s.Mean, s.SD)) > rare { // false where the bound is NaN
		c.Consistency = Supported
		c.Reason = fmt.Sprintf("at %.3g %% confidence at most %.3g %% of a normal lot are outside the limits, and %.3g %% are allowed",
			100*q.Confidence, 100*c.OutsideBound, 100*q.Allowed)
		return
	}
	c.Reason = fmt.Sprintf("%d readings neither show that at most %.3g %% of the lot are outside the limits nor that more are; take more readings",
		s.N, 100*q.Allowed)
}

// atMost returns the probability of at most so many bad pieces among n from a large lot with a share of bad ones, and atLeast
// that of at least so many.
func atMost(badPieces, n int, share float64) float64 {
	return AttributePlan{n, badPieces}.binomial(share)
}

func atLeast(badPieces, n int, share float64) float64 {
	if badPieces == 0 {
		return 1
	}
	return 1 - atMost(badPieces-1, n, share)
}
