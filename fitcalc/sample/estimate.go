package sample

import (
	"errors"
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
)

// Component is one contribution to an uncertainty.
type Component struct {
	// Name says where it comes from, for reports and errors.
	Name string
	// U is the standard uncertainty of the input quantity.
	U float64
	// Sensitivity is what the result changes by per unit of the input; nothing counts as 1.
	Sensitivity float64
	// DoF is the degrees of freedom of U; nothing counts as infinite, U being known.
	DoF float64
}

// contribution is the standard uncertainty that c adds to the result.
func (c Component) contribution() float64 {
	if c.Sensitivity == 0 {
		return c.U
	}
	return math.Abs(c.Sensitivity) * c.U
}

func (c Component) dof() float64 {
	if c.DoF == 0 {
		return math.Inf(1)
	}
	return c.DoF
}

func (c Component) check() error {
	if err := firstError(checkFinite("uncertainty of "+c.Name, c.U), checkFinite("sensitivity to "+c.Name, c.Sensitivity)); err != nil {
		return err
	}
	if c.U < 0 {
		return bad("uncertainty of "+c.Name, c.U, ErrNegative)
	}
	if math.IsNaN(c.DoF) || c.DoF < 0 {
		return bad("degrees of freedom of "+c.Name, c.DoF, ErrNegative)
	}
	return nil
}

// Uncertainty is a combined standard uncertainty with its effective degrees of freedom.
type Uncertainty struct {
	// U is the standard uncertainty, in the unit of the contributions.
	U float64
	// DoF is the effective degrees of freedom, infinite where every contribution is known.
	DoF float64
}

// Combine adds independent contributions by the law of propagation, u² = Σ (cᵢuᵢ)², with the effective degrees of
// freedom of Welch and Satterthwaite, u⁴/Σ((cᵢuᵢ)⁴/νᵢ). Sources: JCGM 100:2008 (GUM), equations 10 and G.2b. It holds
// where the result is close to linear in its inputs over their uncertainties; add second-order terms as components of
// their own.
func Combine(components ...Component) (Uncertainty, error) {
	if err := checkCount("number of contributions", len(components), 1); err != nil {
		return Uncertainty{}, err
	}
	squares, fourths := 0.0, 0.0
	for _, c := range components {
		if err := c.check(); err != nil {
			return Uncertainty{}, err
		}
		u := c.contribution()
		squares += u * u
		fourths += u * u * u * u / c.dof()
	}
	dof := math.Inf(1)
	if fourths > 0 {
		dof = squares * squares / fourths
	}
	return Uncertainty{U: math.Sqrt(squares), DoF: dof}, nil
}

// Expanded returns the half-width of the interval expected to hold the quantity with the given confidence: U times
// Student's t for the degrees of freedom truncated to the next lower whole number, at least 1. Source: JCGM 100:2008,
// G.4.1 and the worked example H.1.6.
func (u Uncertainty) Expanded(confidence float64) (float64, error) {
	return u.expand(confidence, math.Max(1, math.Floor(u.DoF)))
}

// ExpandedFractional is [Uncertainty.Expanded] with the degrees of freedom as they are: a slightly smaller number,
// which some programs report.
func (u Uncertainty) ExpandedFractional(confidence float64) (float64, error) {
	return u.expand(confidence, u.DoF)
}

func (u Uncertainty) expand(confidence, dof float64) (float64, error) {
	err := firstError(checkProbability("confidence", confidence), checkFinite("standard uncertainty", u.U))
	if err == nil && !(dof > 0) {
		err = bad("degrees of freedom", dof, ErrNotPositive)
	}
	if err != nil {
		return 0, err
	}
	return studentQuantile((1+confidence)/2, dof) * u.U, nil
}

// Rectangular returns the standard uncertainty of a quantity known to lie within ± half, evenly: half/√3 (JCGM
// 100:2008, 4.3.7).
func Rectangular(half float64) float64 { return half / math.Sqrt(3) }

// TriangularU returns the standard uncertainty of a quantity known to lie within ± half, most likely in the middle:
// half/√6 (JCGM 100:2008, 4.3.9).
func TriangularU(half float64) float64 { return half / math.Sqrt(6) }

// Caliper is what is known of the instrument before a reading is taken (type B).
//
// What JawGive takes away from every reading is put back once. [EstimateMean] is given the caliper, and so does it itself:
// give it the readings as they are. [Summarise] and [Compare] know nothing of the caliper: give them [Caliper.Correct] of
// the readings.
type Caliper struct {
	// Resolution is the step of the display; readings are rounded to it, so they are within half of it.
	Resolution measure.Length
	// MaxError is the maximum permissible error either way, from the instrument's specification or certificate.
	MaxError measure.Length
	// MaxErrorShape is [measure.Uniform] where nothing else is known, or [measure.Triangular] where most instruments
	// are known to be far better than the limit. [measure.Normal] takes MaxError as three standard deviations.
	MaxErrorShape measure.Shape
	// JawGive is the most by which the force of the jaws may falsify a reading on a soft part such as a plastic
	// ferrule: an outside diameter reads too small by between nothing and JawGive, an inside diameter too large. It is
	// an allowance that whoever measures states, from trying light and firm force on the same place. That the force
	// matters on soft materials: National Physical Laboratory, Good Practice Guide 40.
	JawGive measure.Length
	// Inside is set for bores, measured with the inside jaws.
	Inside bool
}

// Components returns the type B contributions in mm. The error of the instrument is the same for all readings, so
// that no number of them reduces it.
func (c Caliper) Components() []Component {
	maxError := c.MaxError.Abs().Millimetres()
	switch c.MaxErrorShape {
	case measure.Uniform:
		maxError = Rectangular(maxError)
	case measure.Triangular:
		maxError = TriangularU(maxError)
	default:
		maxError /= 3
	}
	all := []Component{
		{Name: "resolution", U: Rectangular(c.Resolution.Abs().Millimetres() / 2)},
		{Name: "instrument", U: maxError},
		{Name: "jaw force", U: Rectangular(c.JawGive.Abs().Millimetres() / 2)},
	}
	used := all[:0]
	for _, one := range all {
		if one.U > 0 {
			used = append(used, one)
		}
	}
	return used
}

// Uncertainty returns the standard uncertainty in mm that all readings share: the combination of [Caliper.Components], as
// [Question] wants it. The error is an [*InputError] that wraps [ErrNoInstrument] where nothing is known of the instrument.
func (c Caliper) Uncertainty() (Uncertainty, error) {
	components := c.Components()
	if len(components) == 0 {
		return Uncertainty{}, bad("standard uncertainty of the caliper", 0, ErrNoInstrument)
	}
	return Combine(components...)
}

// Correction returns what is added to a reading, in mm: half of JawGive, outward for an outside diameter.
func (c Caliper) Correction() float64 { return c.correction().Millimetres() }

func (c Caliper) correction() measure.Length {
	half := c.JawGive.Abs().Half()
	if c.Inside {
		return half.Neg()
	}
	return half
}

// Correct returns the readings with [Caliper.Correction] added to each: what to give to functions that are not given the
// caliper. The readings themselves are left as they are.
func (c Caliper) Correct(readings []measure.Length) []measure.Length {
	corrected, by := make([]measure.Length, len(readings)), c.correction()
	for i, r := range readings {
		corrected[i] = r.Add(by)
	}
	return corrected
}

// What a [Warning] is about.
var (
	ErrFewReadings     = errors.New("fewer than five readings")
	ErrNoSpread        = errors.New("all readings are the same")
	ErrCoarse          = errors.New("the spread is less than the resolution")
	ErrNoInstrument    = errors.New("nothing is known of the instrument")
	ErrUncertainLimits = errors.New("the uncertainty of the instrument is a large part of the tolerance")
)

// Warning is something to know about a result that could be computed. errors.Is finds its kind, one of the Err
// variables.
type Warning struct {
	// Kind is one of the Err variables.
	Kind error
	// Detail says what it means for the result.
	Detail string
}

func (w *Warning) Error() string { return w.Kind.Error() + ": " + w.Detail }

// Unwrap returns the kind.
func (w *Warning) Unwrap() error { return w.Kind }

// Estimate is the mean of what was measured, with its uncertainty, in mm.
type Estimate struct {
	// Mean is corrected for the force of the jaws.
	Mean float64
	Uncertainty
	// Components are the contributions, type A first.
	Components []Component
	// Summary is that of the readings, corrected like Mean.
	Summary Summary
	// Assumption is the sentence that the numbers rest on.
	Assumption string
	// Warnings are of type [*Warning].
	Warnings []error
}

// EstimateMean returns the mean size of the place or lot that was measured. The type A uncertainty is s/√n with n − 1
// degrees of freedom (JCGM 100:2008, 4.2.3), the type B that of the caliper. The readings are taken as the display shows
// them; mean and summary are corrected by [Caliper.Correction].
//
// For repeated readings of one piece this is the size of the piece, and [Estimate.Dim] its limits. For one reading each of
// several pieces it is the mean of the lot and says nothing of single pieces; for those use [Summary.ToleranceInterval] and
// [Summary.Dim].
func EstimateMean(readings []measure.Length, c Caliper) (Estimate, error) {
	s, err := Summarise(c.Correct(readings))
	if err != nil {
		return Estimate{}, err
	}
	typeA := Component{Name: "repeated readings", U: s.SD / math.Sqrt(float64(s.N)), DoF: float64(s.N - 1)}
	components := append([]Component{typeA}, c.Components()...)
	u, err := Combine(components...)
	if err != nil {
		return Estimate{}, err
	}
	return Estimate{
		Mean:        s.Mean,
		Uncertainty: u,
		Components:  components,
		Summary:     s,
		Assumption:  "readings independent of each other, spread normally about the mean, and not falsified alike beyond what is stated for the caliper",
		Warnings:    append(readingWarnings(s, c.Resolution), c.warnings()...),
	}, nil
}

func (c Caliper) warnings() []error {
	if len(c.Components()) > 0 {
		return nil
	}
	return []error{&Warning{ErrNoInstrument, "state its resolution and maximum permissible error; the uncertainty counts the readings alone"}}
}

func readingWarnings(s Summary, step measure.Length) []error {
	var ws []error
	warn := func(kind error, format string, args ...any) {
		ws = append(ws, &Warning{Kind: kind, Detail: fmt.Sprintf(format, args...)})
	}
	if s.N < 5 {
		warn(ErrFewReadings, "with %d the spread is known to no better than a factor of %.1f; take more", s.N, spreadFactor(s.N))
	}
	resolution := step.Abs().Millimetres()
	switch {
	case s.SD == 0:
		warn(ErrNoSpread, "the spread is hidden by the resolution; only the resolution's own uncertainty is counted")
	case s.SD < resolution/2:
		warn(ErrCoarse, "the standard deviation of %.4f mm is less than half of the %.4f mm step, so it is itself uncertain", s.SD, resolution)
	}
	return ws
}

// spreadFactor is by how much the standard deviation of a lot may exceed that of n readings, with 95 % confidence.
func spreadFactor(n int) float64 {
	nu := float64(n - 1)
	return math.Sqrt(nu / chiSquareQuantile(0.05, nu))
}

// Interval returns mean ± expanded uncertainty.
func (e Estimate) Interval(confidence float64) (Interval, error) {
	half, err := e.Expanded(confidence)
	if err != nil {
		return Interval{}, err
	}
	return Interval{e.Mean - half, e.Mean + half}, nil
}

// Dim returns the size of one piece that was read several times: its mean, with the limits mean ± expanded uncertainty,
// rounded outward to the picometre, with the origin [measure.Measured]. With the confidence [ThreeSigma] the limits are those
// that a normal spread has at three standard deviations, which is how package fitcalc takes them; with less the piece
// counts as better known than it is.
//
// It says how well this piece is known, and nothing of the lot it came from: for one reading each of several pieces use
// [Summary.Dim]. The errors are those of [Uncertainty.Expanded].
func (e Estimate) Dim(confidence float64) (measure.Dim, error) {
	half, err := e.Expanded(confidence)
	if err != nil {
		return measure.Dim{}, err
	}
	return measured(e.Mean, half)
}

// measured returns middle ± half in mm, with limits rounded outward.
func measured(middle, half float64) (measure.Dim, error) {
	m, err := measure.FromMillimetres(middle)
	if err != nil {
		return measure.Dim{}, err
	}
	h, err := measure.FromMillimetres(half)
	if err != nil {
		return measure.Dim{}, err
	}
	return measure.PlusMinus(m, h.Add(measure.Picometres(1))).WithOrigin(measure.Measured), nil
}

// Result returns the estimate as a [Result] for conformity decisions.
func (e Estimate) Result() Result { return Result{Value: e.Mean, U: e.U} }
