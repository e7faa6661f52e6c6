package sample

import (
	"math"
	"slices"

	"example.com/seatline/fitcalc/measure"
	"gonum.org/v1/gonum/mathext"
)

// DefaultCaliper returns the calipers that readings are taken to come from where nothing else is said: a display of 0.01 mm and
// a greatest error of 0.02 mm, evenly likely. Common practice for digital calipers up to 150 mm; whoever knows better has a
// better answer.
func DefaultCaliper() Caliper {
	return Caliper{Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Uniform}
}

// Subject is what the readings of one size were taken on. The two differ by what varies among pieces: "an evaluation of a
// component of variance arising from possible differences among samples must be added to the observed variance of the repeated
// observations made on the single sample" (JCGM 100:2008, F.1.1.2).
type Subject uint8

const (
	// OnePiece is one piece that was read several times: the head on the bench.
	OnePiece Subject = iota
	// SeveralPieces are several pieces of one part number, each read once: what the next piece measures is to be known.
	SeveralPieces
)

// SpreadFrom is what the spread of a [Size] rests on.
type SpreadFrom uint8

const (
	// OwnReadings give the spread themselves.
	OwnReadings SpreadFrom = iota
	// PooledReadings are those of other parts as well: [Pool].
	PooledReadings
	// AssumedTolerance is one reading's: it tells nothing of how readings or pieces spread.
	AssumedTolerance
	// ReadingsAndTolerance are readings of several pieces beside the tolerance that was assumed before, which counts the less the
	// more of them there are.
	ReadingsAndTolerance
)

// Size is what readings say of one size, ready to be put in the place of a stated one.
type Size struct {
	// Dim is the mean, with limits at three standard deviations of Uncertainty, and the origin [measure.Measured].
	Dim measure.Dim
	// Of is what was read, and N how many readings there are.
	Of Subject
	N  int
	// Mean and SD are those of the readings in mm, corrected for the force of the jaws; SD is nothing for one reading.
	Mean, SD float64
	// Uncertainty is that of the piece's size, or of the size of the next piece, in mm: instrument included.
	Uncertainty
	// Spread is what the spread rests on.
	Spread SpreadFrom
}

// SizeOfPiece returns the size of one piece that was read several times. Its standard uncertainty is that of the mean, s/√n (type
// A, JCGM 100:2008, 4.2.3), combined with that of the instrument (type B, 4.3.7), which no number of readings reduces.
//
// One reading tells nothing of the next. Its spread is then that of tolerance, the ± that the size has without a reading, with
// its limits at three standard deviations.
//
// The limits are those of [Size]. The error is an [*InputError]: [ErrTooFew] for no readings, or for one without a tolerance, and
// [ErrNoInstrument] where nothing is known of the instrument.
func SizeOfPiece(readings []measure.Length, c Caliper, tolerance measure.Length) (Size, error) {
	s, err := begin(OnePiece, readings, c)
	if err != nil {
		return Size{}, err
	}
	spread := Component{Name: "repeated readings", U: s.SD / math.Sqrt(float64(s.N)), DoF: float64(s.N - 1)}
	if s.N == 1 {
		s.Spread, spread = AssumedTolerance, judged(tolerance)
	}
	return s.finish(c, spread)
}

// SizeOfPart returns what the next piece of a part measures, by one reading each of several of its pieces: their mean, with a
// spread, the uncertainty of the mean, and the instrument's uncertainty, which all readings share.
//
// Few pieces hardly tell their own spread. Where the pool knows the spread of such parts better ([Pool.Enough]) and theirs does
// not exceed it by more than chance (F test at 95 %), it is taken, as JCGM 100:2008, 4.2.4 advises where observations are few.
// Otherwise the spread is that of the readings and of tolerance together, the ± that the size has without a reading. That counts
// as an estimate of four degrees of freedom: a judgement right to about a third (JCGM 100:2008, G.4.2, ν = ½(Δu/u)⁻²), which ten
// pieces outweigh. Where the tolerance is nothing, the readings stand alone, with the spread s·√(1 + 1/n) of one more piece about
// the mean of n, and two of them tell next to nothing.
//
// The errors are those of [SizeOfPiece].
func SizeOfPart(readings []measure.Length, c Caliper, pool Pool, tolerance measure.Length) (Size, error) {
	s, err := begin(SeveralPieces, readings, c)
	if err != nil {
		return Size{}, err
	}
	n, own := float64(s.N), Pool{SD: s.SD, DoF: float64(s.N - 1)}
	switch assumed := judged(tolerance); {
	case pool.suits(own):
		s.Spread = PooledReadings
		return s.finish(c, Component{Name: "pieces", U: pool.SD * math.Sqrt(1+1/n), DoF: pool.DoF})
	case assumed.U == 0 && s.N > 1:
		return s.finish(c, Component{Name: "pieces", U: own.SD * math.Sqrt(1+1/n), DoF: own.DoF})
	case s.N == 1:
		s.Spread = AssumedTolerance
		return s.finish(c, assumed)
	default:
		s.Spread = ReadingsAndTolerance
		both := pooled(own, Pool{SD: assumed.U, DoF: assumed.DoF})
		return s.finish(c, Component{Name: "pieces", U: both.SD, DoF: both.DoF}, Component{Name: "mean", U: own.SD / math.Sqrt(n), DoF: own.DoF})
	}
}

// begin reduces the readings.
func begin(of Subject, readings []measure.Length, c Caliper) (Size, error) {
	if err := checkCount("number of readings", len(readings), 1); err != nil {
		return Size{}, err
	}
	s := Size{Of: of, N: len(readings), Mean: c.Correct(readings)[0].Millimetres()}
	if s.N == 1 {
		return s, nil
	}
	summary, err := Summarise(c.Correct(readings))
	if err != nil {
		return Size{}, err
	}
	s.Mean, s.SD = summary.Mean, summary.SD
	return s, nil
}

// judged takes a tolerance, ±, as three standard deviations that are right to about a third.
func judged(tolerance measure.Length) Component {
	return Component{Name: "tolerance", U: tolerance.Abs().Millimetres() / 3, DoF: 4}
}

// finish combines the spread with the instrument.
func (s Size) finish(c Caliper, spread ...Component) (Size, error) {
	if _, err := c.Uncertainty(); err != nil {
		return Size{}, err
	}
	if s.Spread == AssumedTolerance && spread[0].U == 0 {
		return Size{}, bad("number of readings", float64(s.N), ErrTooFew)
	}
	var err error
	if s.Uncertainty, err = Combine(append(spread, c.Components()...)...); err != nil {
		return Size{}, err
	}
	half, err := s.limit()
	if err != nil {
		return Size{}, err
	}
	s.Dim, err = measured(s.Mean, half)
	return s, err
}

// decidingQuantile is where the normal spread between the limits is given the tail of Student's t: shops decide by shares of one
// in twenty.
const decidingQuantile = 0.95

// limit returns three standard deviations of the normal distribution that has Student's t's quantile at decidingQuantile: 3u
// where the degrees of freedom are many, and 11.5u with one. The expanded uncertainty for 99.73 % instead, 236u with one, would
// have its tail right where no shop decides.
func (s Size) limit() (float64, error) {
	expanded, err := s.Expanded(2*decidingQuantile - 1)
	return 3 * expanded / zOf(decidingQuantile), err
}

// Pool is the spread among the pieces of single parts, known from several parts together.
type Pool struct {
	// SD is the standard deviation, in the unit of the summaries, with DoF degrees of freedom.
	SD, DoF float64
}

// LeastDoF is how many degrees of freedom a pooled spread needs before anything rests on it. With 10 the 95 % confidence interval
// of a standard deviation runs from 0.70 to 1.75 times the estimate, within a factor of two either way; with 5 it runs to 2.45
// times (chi-square: s·√(ν/χ²)).
const LeastDoF = 10

// PoolOf returns the pooled standard deviation √(Σ(nᵢ − 1)sᵢ² / Σ(nᵢ − 1)). It holds where the parts spread alike, whatever
// their means. Sources: IUPAC, Compendium of Chemical Terminology, P04758; NIST/SEMATECH e-Handbook, 2.4.4.4; JCGM 100:2008,
// 4.2.4. Summaries of fewer than two readings tell nothing and are passed over; with none at all the Pool is zero.
func PoolOf(parts ...Summary) (Pool, error) {
	var p Pool
	for _, s := range parts {
		if s.N < 2 {
			continue
		}
		if err := s.check(); err != nil {
			return Pool{}, err
		}
		p = pooled(p, Pool{SD: s.SD, DoF: float64(s.N - 1)})
	}
	return p, nil
}

func pooled(a, b Pool) Pool {
	dof := a.DoF + b.DoF
	if dof == 0 {
		return Pool{}
	}
	return Pool{SD: math.Sqrt((a.DoF*a.SD*a.SD + b.DoF*b.SD*b.SD) / dof), DoF: dof}
}

// Enough reports whether the spread is known well enough to be used: by [LeastDoF].
func (p Pool) Enough() bool { return p.DoF >= LeastDoF }

// suits reports whether a part's own spread should give way to that of the pool.
func (p Pool) suits(own Pool) bool {
	if !p.Enough() || own.DoF >= p.DoF {
		return false
	}
	return own.DoF == 0 || p.SD == 0 && own.SD == 0 || p.SD > 0 && fUpper(own.SD*own.SD/(p.SD*p.SD), own.DoF, p.DoF) > 0.05
}

// fUpper returns P(F > f) of the F distribution.
func fUpper(f, d1, d2 float64) float64 { return mathext.RegIncBeta(d2/2, d1/2, d2/(d2+d1*f)) }

// Lot is what readings of the pieces of one part say, beside what is stated of it, in one unit.
type Lot struct {
	// N is the number of pieces read, Mean and SD those of the readings; SD is nothing for one.
	N        int
	Mean, SD float64
	// Stated is the size that the supplier states.
	Stated float64
}

// Deviations is how pieces of several parts lie about the sizes stated for them: what is known of a supplier's next part before
// it is measured.
type Deviations struct {
	// Parts and Readings count what it rests on.
	Parts, Readings int
	// Within is the pooled spread among the pieces of one part.
	Within Pool
	// Bias is the mean over the parts of mean − stated size, and BiasU its standard uncertainty with that of the instrument. It is
	// not corrected for: the next part may have another.
	Bias  float64
	BiasU Uncertainty
	// Total is the standard deviation of a piece about the size stated for its part, instrument included.
	Total Uncertainty
	// Bound is what the true Total does not exceed, with 95 % confidence.
	Bound float64
}

// DeviationsOf learns from lots of one supplier and one dimension. A piece of a part that was not measured differs from its
// stated size by how the part's mean does and by how pieces differ from their mean, so that the variance is
//
//	V = s² · (1 − mean of 1/nᵢ) + mean of (x̄ᵢ − statedᵢ)² + u²
//
// with s the pooled spread within parts. The first term is less than s² because means of nᵢ pieces carry s²/nᵢ already. A bias
// common to all parts is in the second term: it widens, and moves nothing. u is the instrument's. The degrees of freedom are
// those of Welch and Satterthwaite (JCGM 100:2008, G.2b), Σ(nᵢ − 1) for the first and the number of parts for the second, and
// Bound is √(V·ν/χ²(5 %; ν)), the upper limit of a variance by chi-square.
//
// It reports [ErrTooFew] for fewer than [LeastParts] lots or fewer than [LeastDoF] degrees of freedom within them, and
// [ErrNoInstrument] where nothing is known of the instrument.
func DeviationsOf(lots []Lot, c Caliper) (Deviations, error) {
	instrument, err := c.Uncertainty()
	if err := firstError(checkCount("number of parts", len(lots), LeastParts), err); err != nil {
		return Deviations{}, err
	}
	d := Deviations{Parts: len(lots)}
	summaries := make([]Summary, len(lots))
	deviations := make([]float64, len(lots))
	meanOfInverse, meanSquare := 0.0, 0.0
	for i, l := range lots {
		if err := firstError(checkCount("number of readings", l.N, 1), checkFinite("mean", l.Mean), checkFinite("stated size", l.Stated)); err != nil {
			return Deviations{}, err
		}
		d.Readings += l.N
		summaries[i] = Summary{N: l.N, Mean: l.Mean, SD: l.SD}
		deviations[i] = l.Mean - l.Stated
		meanOfInverse += 1 / float64(l.N) / float64(len(lots))
		meanSquare += deviations[i] * deviations[i] / float64(len(lots))
	}
	if d.Within, err = PoolOf(summaries...); err != nil {
		return Deviations{}, err
	}
	if !d.Within.Enough() {
		return Deviations{}, bad("degrees of freedom within parts", d.Within.DoF, ErrTooFew)
	}
	var between float64
	d.Bias, between = meanAndSD(deviations)
	parts := float64(len(lots))
	d.BiasU, err = Combine(Component{Name: "parts", U: between / math.Sqrt(parts), DoF: parts - 1}, Component{Name: "instrument", U: instrument.U})
	if err != nil {
		return Deviations{}, err
	}
	d.Total, err = Combine(
		Component{Name: "within parts", U: d.Within.SD * math.Sqrt(1-meanOfInverse), DoF: d.Within.DoF},
		Component{Name: "parts about their stated sizes", U: math.Sqrt(meanSquare), DoF: parts},
		Component{Name: "instrument", U: instrument.U},
	)
	if err != nil {
		return Deviations{}, err
	}
	d.Bound = d.Total.U * boundFactor(d.Total.DoF)
	return d, nil
}

// LeastParts is how few parts say something of a supplier's others: two lie on the same side of their stated sizes half of the
// time by chance alone. Common sense, not a standard; [DeviationsOf] pays for few parts by a wider bound.
const LeastParts = 3

// boundFactor is by how much a standard deviation may exceed its estimate, with 95 % confidence.
func boundFactor(dof float64) float64 {
	if math.IsInf(dof, 1) {
		return 1
	}
	return math.Sqrt(dof / chiSquareQuantile(0.05, dof))
}

// PlusMinus returns three times Bound: the ± of a part of which only the stated size is known, in whole micrometres, rounded up.
// The lots must have been in mm.
func (d Deviations) PlusMinus() (measure.Length, error) {
	l, err := measure.FromMillimetres(3 * d.Bound)
	if err != nil {
		return measure.Length{}, err
	}
	return l.RoundTo(measure.Micrometres(1), measure.Up), nil
}

// BiasShows reports whether the bias is more than chance and the instrument explain, with 95 % confidence.
func (d Deviations) BiasShows() bool {
	expanded, err := d.BiasU.Expanded(0.95)
	return err == nil && math.Abs(d.Bias) > expanded
}

// farApart is the share of a size, 1/25, over which readings of it do not spread: the tips that a part is made for differ by more
// (three of them at least, .335 to .355 in, by 1/17), and what lies further apart is a slip of the pen or another part.
const farApart = 25

// FarApart reports whether sizes lie too far apart to be readings of one.
func FarApart(readings []measure.Length) bool {
	if len(readings) == 0 {
		return false
	}
	least, most := slices.MinFunc(readings, measure.Length.Compare), slices.MaxFunc(readings, measure.Length.Compare)
	return least.Less(most.Sub(least).MulInt(farApart))
}
