package sample_test

import (
	"errors"
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"pgregory.net/rapid"
)

// Source: JCGM 100:2008 (GUM), H.1: calibration of an end gauge of 50 mm; inputs also in the data set GUM.H.1 of the
// R package metRology 0.9-29-2. Nanometres and degrees. The GUM prints u = 32, ν = 16, U99 = 93, and 34 with
// second-order terms.
func TestGUMEndGauge(t *testing.T) {
	difference := must[sample.Uncertainty](t)(sample.Combine(
		sample.Component{Name: "repeated observations", U: 5.8, DoF: 24},
		sample.Component{Name: "random effects of the comparator", U: 3.9, DoF: 5},
		sample.Component{Name: "systematic effects of the comparator", U: 6.7, DoF: 8},
	))
	near(t, "u(d)", difference.U, 9.682, 5e-4)
	near(t, "ν(d)", difference.DoF, 25.6, .2) // the GUM rounds u(d) to 9.7 before it takes the fourth power

	// with the contributions as the GUM prints them
	printed := []sample.Component{
		{Name: "standard", U: 25, DoF: 18}, {Name: "difference", U: 9.7, DoF: 25.6},
		{Name: "difference in expansion", U: 2.9, DoF: 50}, {Name: "difference in temperature", U: 16.6, DoF: 2},
	}
	u := must[sample.Uncertainty](t)(sample.Combine(printed...))
	near(t, "u", u.U, 31.67, .005)
	near(t, "ν", u.DoF, 16.7, .1) // 16.76; the GUM prints 16.7
	near(t, "k99", must[float64](t)(u.Expanded(.99))/u.U, 2.92, .005)
	near(t, "U99", must[float64](t)(u.Expanded(.99)), 93, .5)
	second := append(printed, sample.Component{Name: "second order, expansion", U: 11.7}, sample.Component{Name: "second order, temperature", U: 1.74})
	near(t, "u with second-order terms", must[sample.Uncertainty](t)(sample.Combine(second...)).U, 34, .5)

	// from the inputs, without rounding on the way: as metRology, which does not truncate the degrees of freedom
	// either
	const length, expansion = 50_000_623, 11.5e-6
	u = must[sample.Uncertainty](t)(sample.Combine(
		sample.Component{Name: "standard", U: 25, DoF: 18},
		sample.Component{Name: "difference", U: difference.U, DoF: difference.DoF},
		sample.Component{Name: "difference in expansion", U: .58e-6, Sensitivity: length * -.1, DoF: 50},
		sample.Component{Name: "difference in temperature", U: .029, Sensitivity: -length * expansion, DoF: 2},
	))
	near(t, "u", u.U, 31.705, 5e-4)
	near(t, "ν", u.DoF, 16.64, .005)
	near(t, "k", must[float64](t)(u.ExpandedFractional(.99))/u.U, 2.9059, 5.1e-5)
	near(t, "U", must[float64](t)(u.ExpandedFractional(.99)), 92, .5)
	near(t, "U99", must[float64](t)(u.Expanded(.99)), 93, .5)
}

// Source: Possolo, Simple Guide for Evaluating and Expressing the Uncertainty of NIST Measurement Results: area of a
// circle, R = 2.8461 with u = .005.
func TestCircleArea(t *testing.T) {
	const r = 2.8461
	u := must[sample.Uncertainty](t)(sample.Combine(sample.Component{Name: "radius", U: .005, Sensitivity: 2 * math.Pi * r}))
	near(t, "A", math.Pi*r*r, 25.44780, 5e-6)
	near(t, "u(A)", u.U, .0894129, 5e-8)
	if !math.IsInf(u.DoF, 1) {
		t.Errorf("ν = %g", u.DoF)
	}
	// known uncertainties expand by the normal quantile
	near(t, "k95", must[float64](t)(u.Expanded(.95))/u.U, 1.959964, 5e-7)
}

// Resolution .01 mm, maximum permissible error .02 mm rectangular and triangular (JCGM 100:2008, 4.3.7 and 4.3.9).
func TestCaliperComponents(t *testing.T) {
	c := sample.Caliper{Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Uniform}
	got := c.Components()
	if len(got) != 2 {
		t.Fatalf("%v", got)
	}
	near(t, "resolution", got[0].U, .00288675, 5e-9)
	near(t, "rectangular", got[1].U, .0115470, 5e-8)
	c.MaxErrorShape = measure.Triangular
	near(t, "triangular", c.Components()[1].U, .0081650, 5e-8)
	c.MaxErrorShape = measure.Normal
	near(t, "three deviations", c.Components()[1].U, .02/3, 1e-15)

	c.JawGive = measure.Micrometres(30)
	near(t, "jaw force", c.Components()[2].U, .015/math.Sqrt(3), 1e-15)
	near(t, "outside diameters read too small", c.Correction(), .015, 1e-15)
	c.Inside = true
	near(t, "bores read too large", c.Correction(), -.015, 1e-15)
}

func TestEstimateMean(t *testing.T) {
	readings := mm(t, 13.60, 13.61, 13.59, 13.61, 13.59, 13.60)
	c := sample.Caliper{Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Uniform, JawGive: measure.Micrometres(20)}
	e := must[sample.Estimate](t)(sample.EstimateMean(readings, c))
	near(t, "mean", e.Mean, 13.61, 1e-12)
	s := math.Sqrt(4e-4 / 5)
	near(t, "s", e.Summary.SD, s, 1e-12)
	near(t, "u", e.U, math.Sqrt(s*s/6+1e-4/12+4e-4/3+1e-4/3), 1e-12)
	// by Welch-Satterthwaite only the first term counts below the line
	near(t, "ν", e.DoF, math.Pow(e.U, 4)/(math.Pow(s*s/6, 2)/5), 1e-6)
	i := must[sample.Interval](t)(e.Interval(.95))
	near(t, "middle", (i.Lower+i.Upper)/2, e.Mean, 1e-12)
	if len(e.Warnings) != 0 || e.Assumption == "" {
		t.Errorf("warnings %v, assumption %q", e.Warnings, e.Assumption)
	}
	if r := e.Result(); r.Value != e.Mean || r.U != e.U {
		t.Errorf("%v", r)
	}
}

func TestWarnings(t *testing.T) {
	fine := sample.Caliper{Resolution: measure.Micrometres(10)}
	for _, c := range []struct {
		what     string
		readings []float64
		caliper  sample.Caliper
		want     []error
	}{
		{"two", []float64{1, 1.1}, fine, []error{sample.ErrFewReadings}},
		{"all the same", []float64{1, 1, 1, 1, 1}, fine, []error{sample.ErrNoSpread}},
		{"coarse", []float64{1, 1, 1, 1, 1.001}, fine, []error{sample.ErrCoarse}},
		{"no instrument", []float64{1, 1.1, 1.2, 1.1, 1}, sample.Caliper{}, []error{sample.ErrNoInstrument}},
		{"nothing", []float64{1, 1.1, 1.2, 1.1, 1}, fine, nil},
		{"all", []float64{1, 1}, sample.Caliper{}, []error{sample.ErrFewReadings, sample.ErrNoSpread, sample.ErrNoInstrument}},
	} {
		e := must[sample.Estimate](t)(sample.EstimateMean(mm(t, c.readings...), c.caliper))
		if len(e.Warnings) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.what, e.Warnings, c.want)
			continue
		}
		for i, w := range c.want {
			var warning *sample.Warning
			if !errors.Is(e.Warnings[i], w) || !errors.As(e.Warnings[i], &warning) || warning.Detail == "" || warning.Error() == "" {
				t.Errorf("%s: %v, want %v", c.what, e.Warnings[i], w)
			}
		}
	}
}

func TestSummarise(t *testing.T) {
	_, err := sample.Summarise(mm(t, 1))
	wantError(t, "one", err, sample.ErrTooFew)
	_, err = sample.SummariseFloats(nil)
	wantError(t, "none", err, sample.ErrTooFew)
	_, err = sample.SummariseFloats([]float64{1, math.NaN()})
	wantError(t, "NaN", err, sample.ErrNotFinite)
	var input *sample.InputError
	if !errors.As(err, &input) || input.Name != "reading 2" || input.Error() != "sample: reading 2 (NaN) must be a finite number" {
		t.Errorf("place of the reading: %v", err)
	}
	_, err = sample.SummariseFloats([]float64{math.Inf(1), 1})
	wantError(t, "Inf", err, sample.ErrNotFinite)
	// NIST StRD, data set NumAcc3 with 3 readings of its pattern: a spread of .1 on a million
	s := must[sample.Summary](t)(sample.SummariseFloats([]float64{1000000.2, 1000000.1, 1000000.3}))
	near(t, "mean", s.Mean, 1000000.2, 1e-9)
	near(t, "s", s.SD, .1, 1e-9)
	if s.Least != 1000000.1 || s.Most != 1000000.3 {
		t.Errorf("%v", s)
	}
}

// Lengths and the same numbers in mm give the same; shifting moves the mean alone.
func TestSummariseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pm := rapid.SliceOfN(rapid.Int64Range(13e9, 14e9), 2, 30).Draw(t, "pm")
		lengths, floats, shifted := make([]measure.Length, len(pm)), make([]float64, len(pm)), make([]measure.Length, len(pm))
		for i, v := range pm {
			lengths[i] = measure.Picometres(v)
			floats[i] = lengths[i].Millimetres()
			shifted[i] = lengths[i].Add(measure.Inches(1))
		}
		a, errA := sample.Summarise(lengths)
		b, errB := sample.SummariseFloats(floats)
		c, errC := sample.Summarise(shifted)
		if errA != nil || errB != nil || errC != nil {
			t.Fatal(errA, errB, errC)
		}
		if math.Abs(a.Mean-b.Mean) > 1e-14*14 || math.Abs(a.SD-b.SD) > 1e-12 {
			t.Fatalf("%v and %v", a, b)
		}
		if a.SD != c.SD || math.Abs(c.Mean-a.Mean-25.4) > 1e-14*40 {
			t.Fatalf("%v shifted is %v", a, c)
		}
		if a.Mean < a.Least-1e-14*14 || a.Mean > a.Most+1e-14*14 {
			t.Fatalf("mean outside its readings: %v", a)
		}
	})
}

func TestUncertaintyInput(t *testing.T) {
	_, err := sample.Combine()
	wantError(t, "nothing", err, sample.ErrTooFew)
	_, err = sample.Combine(sample.Component{Name: "a", U: -1})
	wantError(t, "negative", err, sample.ErrNegative)
	_, err = sample.Combine(sample.Component{Name: "a", U: math.NaN()})
	wantError(t, "NaN", err, sample.ErrNotFinite)
	_, err = sample.Combine(sample.Component{Name: "a", U: 1, DoF: -2})
	wantError(t, "degrees of freedom", err, sample.ErrNegative)
	_, err = sample.Uncertainty{U: 1, DoF: 5}.Expanded(1)
	wantError(t, "confidence", err, sample.ErrProbability)
	_, err = sample.Uncertainty{U: 1}.ExpandedFractional(.95)
	wantError(t, "no degrees of freedom", err, sample.ErrNotPositive)
}

func TestCaliperUncertainty(t *testing.T) {
	c := sample.Caliper{Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Uniform}
	u := must[sample.Uncertainty](t)(c.Uncertainty())
	near(t, "u", u.U, math.Sqrt(1e-4/12+4e-4/3), 1e-15) // JCGM 100:2008, 4.3.7 and F.2.2.1
	if !math.IsInf(u.DoF, 1) {
		t.Errorf("ν = %g", u.DoF)
	}
	_, err := sample.Caliper{}.Uncertainty()
	wantError(t, "an unknown caliper", err, sample.ErrNoInstrument)
	_, err = sample.Caliper{Inside: true}.Uncertainty()
	wantError(t, "an unknown caliper inside", err, sample.ErrNoInstrument)
}

// Wherever the readings go, what the jaws give is put back once: outside diameters come out larger, bores smaller.
func TestJawGiveIsPutBackEverywhere(t *testing.T) {
	raw := mm(t, 13.60, 13.62, 13.59, 13.61, 13.58)
	for _, inside := range []bool{false, true} {
		c := sample.Caliper{Resolution: measure.Micrometres(10), JawGive: measure.Micrometres(20), Inside: inside}
		by, want := .01, 13.61
		if inside {
			by, want = -.01, 13.59
		}
		corrected := c.Correct(raw)
		for i, r := range corrected {
			near(t, "reading", r.Millimetres(), raw[i].Millimetres()+by, 1e-12)
		}
		if raw[0] != measure.Micrometres(13_600) {
			t.Fatalf("the reading itself became %v", raw[0])
		}
		e := must[sample.Estimate](t)(sample.EstimateMean(raw, c))
		s := must[sample.Summary](t)(sample.Summarise(corrected))
		near(t, "mean", e.Mean, want, 1e-12)
		if e.Summary != s || e.Mean != s.Mean {
			t.Errorf("the estimate has %+v, the corrected readings %+v", e.Summary, s)
		}
		near(t, "least", s.Least, 13.58+by, 1e-12)
		near(t, "most", s.Most, 13.62+by, 1e-12)
		lot, bare := must[measure.Dim](t)(e.Summary.Dim(.95)), must[measure.Dim](t)(must[sample.Summary](t)(sample.Summarise(raw)).Dim(.95))
		near(t, "lot", lot.Middle().Millimetres()-bare.Middle().Millimetres(), by, 1e-9)
		near(t, "width of the lot", lot.Width().Millimetres(), bare.Width().Millimetres(), 3e-9)
		i := must[sample.Interval](t)(e.Summary.ToleranceInterval(.95, .95))
		near(t, "tolerance interval", (i.Lower+i.Upper)/2, want, 1e-12)
	}
	// All six read below the lower limit of 13.595 mm, and with half of 0.04 mm put back none does.
	stated := measure.PlusMinus(measure.Micrometres(13_620), measure.Micrometres(25))
	pinched := mm(t, 13.585, 13.59, 13.59, 13.585, 13.59, 13.585)
	q := sample.Question{Confidence: .95, Allowed: .05}
	c := sample.Caliper{JawGive: measure.Micrometres(40)}
	asRead := must[sample.Comparison](t)(sample.Compare(stated, pinched, q))
	asIs := must[sample.Comparison](t)(sample.Compare(stated, c.Correct(pinched), q))
	if asRead.Consistency != sample.Contradicted || asRead.ReadOutside != 6 || asIs.Consistency == sample.Contradicted || asIs.ReadOutside != 0 {
		t.Errorf("as read %v with %d outside, corrected %v with %d", asRead.Consistency, asRead.ReadOutside, asIs.Consistency, asIs.ReadOutside)
	}
}

// Five readings of one hosel: mean 13.60 mm, s = √(0.001/4) = 0.015811 mm, u = s/√5 = 0.0070711 mm, ν = 4. Student's t at 97.5 %
// is 2.776 (NIST/SEMATECH e-Handbook, 1.3.6.7.2): 0.01963 mm either way. Of the lot, from the same numbers, the two-sided
// factor is larger by far.
func TestEstimateDim(t *testing.T) {
	readings := mm(t, 13.58, 13.59, 13.60, 13.61, 13.62)
	e := must[sample.Estimate](t)(sample.EstimateMean(readings, sample.Caliper{}))
	d := must[measure.Dim](t)(e.Dim(.95))
	near(t, "middle", d.Nominal().Millimetres(), 13.60, 1e-9)
	near(t, "lower", d.Lower().Millimetres(), 13.60-.01963, 5e-6)
	near(t, "upper", d.Upper().Millimetres(), 13.60+.01963, 5e-6)
	if d.Origin() != measure.Measured || d.Shape() != measure.Normal {
		t.Errorf("%v, %v", d.Origin(), d.Shape())
	}
	wide := must[measure.Dim](t)(e.Dim(sample.ThreeSigma))
	lot := must[measure.Dim](t)(e.Summary.Dim(.95))
	if !d.Width().Less(wide.Width()) || !wide.Width().Less(lot.Width()) {
		t.Errorf("%v, %v, %v", d, wide, lot)
	}
	_, err := e.Dim(1)
	wantError(t, "confidence", err, sample.ErrProbability)
	_, err = sample.Estimate{}.Dim(.95)
	if err != nil {
		t.Errorf("an estimate without uncertainty: %v", err)
	}
	rapid.Check(t, func(t *rapid.T) {
		e := sample.Estimate{Mean: rapid.Float64Range(-1e3, 1e3).Draw(t, "mean")}
		e.U, e.DoF = rapid.Float64Range(0, 1).Draw(t, "u"), rapid.Float64Range(1, 100).Draw(t, "ν")
		half, err1 := e.Expanded(.95)
		d, err2 := e.Dim(.95)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		const pm = 1e-9
		for _, beyond := range []float64{d.Upper().Millimetres() - e.Mean - half, e.Mean - half - d.Lower().Millimetres()} {
			if beyond < -1e-12*(1+math.Abs(e.Mean)) || beyond > 2*pm+1e-12*(1+math.Abs(e.Mean)) {
				t.Fatalf("%v for %g ± %g", d, e.Mean, half)
			}
		}
	})
}
