package sample_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/seatline/fitcalc/sample"
	"pgregory.net/rapid"
)

// Source: binomial distribution, SciPy 1.10.1.
func TestBinomialOC(t *testing.T) {
	shares := []float64{.0025, .005, .01, .02, .025, .04, .05, .10, .15, .20}
	for _, r := range []struct {
		plan sample.AttributePlan
		pa   [10]float64
	}{
		{sample.AttributePlan{N: 13, C: 0}, [10]float64{.9680, .9369, .8775, .7690, .7195, .5882, .5133, .2542, .1209, .0550}},
		{sample.AttributePlan{N: 20, C: 0}, [10]float64{.9512, .9046, .8179, .6676, .6027, .4420, .3585, .1216, .0388, .0115}},
		{sample.AttributePlan{N: 20, C: 1}, [10]float64{.9988, .9955, .9831, .9401, .9118, .8103, .7358, .3917, .1756, .0692}},
		{sample.AttributePlan{N: 32, C: 1}, [10]float64{.9971, .9888, .9593, .8660, .8097, .6319, .5200, .1564, .0366, .0071}},
		{sample.AttributePlan{N: 50, C: 1}, [10]float64{.9929, .9739, .9106, .7358, .6435, .4005, .2794, .0338, .0029, .0002}},
		{sample.AttributePlan{N: 50, C: 2}, [10]float64{.9997, .9979, .9862, .9216, .8706, .6767, .5405, .1117, .0142, .0013}},
		{sample.AttributePlan{N: 80, C: 2}, [10]float64{.9989, .9923, .9534, .7844, .6767, .3748, .2306, .0107, .0003, .0000}},
		{sample.AttributePlan{N: 125, C: 3}, [10]float64{.9997, .9963, .9626, .7587, .6189, .2593, .1238, .0010, 0, 0}},
	} {
		for i, share := range shares {
			near(t, fmt.Sprintf("%v at %g", r.plan, share), must[float64](t)(r.plan.Accept(share)), r.pa[i], 5.1e-5)
		}
	}
}

// Source: SciPy 1.10.1: quality in percent at a probability of acceptance of .95, .50 and .10.
func TestQualityAt(t *testing.T) {
	for _, c := range []struct {
		plan sample.AttributePlan
		q    [3]float64
	}{
		{sample.AttributePlan{N: 50, C: 1}, [3]float64{.7154, 3.334, 7.5581}},
		{sample.AttributePlan{N: 80, C: 2}, [3]float64{1.0298, 3.3285, 6.5160}},
		{sample.AttributePlan{N: 20, C: 0}, [3]float64{.2561, 3.4064, 10.8749}},
		{sample.AttributePlan{N: 13, C: 0}, [3]float64{.3938, 5.1922, 16.2322}},
	} {
		for i, pa := range []float64{.95, .50, .10} {
			near(t, fmt.Sprintf("%v at %g", c.plan, pa), 100*must[float64](t)(c.plan.QualityAt(pa)), c.q[i], 5.1e-4)
		}
	}
}

// Source: SciPy 1.10.1.
func TestLotOC(t *testing.T) {
	plan := sample.AttributePlan{N: 50, C: 1}
	for _, c := range []struct {
		defective int
		pa        float64
	}{{0, 1}, {5, .91942}, {10, .73650}, {25, .26359}, {500, 0}} {
		near(t, fmt.Sprintf("500 pieces, %d bad", c.defective), must[float64](t)(plan.AcceptLot(500, c.defective)), c.pa, 5.1e-6)
	}
}

// Source: R package AcceptanceSampling 1.0.11, find.plan, probabilities recomputed with SciPy 1.10.1.
func TestFindPlans(t *testing.T) {
	points := sample.TwoPoints{Producer: sample.Point{Bad: .05, Accept: .95}, Consumer: sample.Point{Bad: .15, Accept: .075}}
	type got struct {
		plan               sample.AttributePlan
		producer, consumer float64
	}
	check := func(what string, g got, want got) {
		t.Helper()
		if g.plan != want.plan {
			t.Errorf("%s: %v, want %v", what, g.plan, want.plan)
		}
		near(t, what+" at the producer's point", g.producer, want.producer, 5.1e-6)
		near(t, what+" at the consumer's point", g.consumer, want.consumer, 5.1e-6)
	}
	b := must[sample.AttributePlan](t)(sample.FindBinomial(points))
	check("binomial", got{b, must[float64](t)(b.Accept(.05)), must[float64](t)(b.Accept(.15))},
		got{sample.AttributePlan{N: 80, C: 7}, .95341, .07272})
	h := must[sample.AttributePlan](t)(sample.FindHypergeometric(points, 100))
	check("hypergeometric", got{h, must[float64](t)(h.AcceptLot(100, 5)), must[float64](t)(h.AcceptLot(100, 15))},
		got{sample.AttributePlan{N: 47, C: 4}, .97963, .07480})

	strict := sample.TwoPoints{Producer: sample.Point{Bad: .01, Accept: .95}, Consumer: sample.Point{Bad: .10, Accept: .10}}
	if b := must[sample.AttributePlan](t)(sample.FindBinomial(strict)); b != (sample.AttributePlan{N: 52, C: 2}) {
		t.Errorf("binomial: %v", b)
	}
	v := must[sample.VariablesPlan](t)(sample.FindVariables(strict))
	if v.N != 21 {
		t.Errorf("sigma unknown: %v", v)
	}
	near(t, "k", v.K, 1.760783, 5.1e-7)
	near(t, "producer", must[float64](t)(v.Accept(.01)), .95, 1e-9)
	near(t, "consumer", must[float64](t)(v.Accept(.10)), .09557, 5.1e-6)

	wide := sample.TwoPoints{Producer: sample.Point{Bad: .05, Accept: .95}, Consumer: sample.Point{Bad: .15, Accept: .20}}
	v = must[sample.VariablesPlan](t)(sample.FindVariables(wide))
	if v.N != 31 || v.SigmaKnown {
		t.Errorf("sigma unknown: %v", v)
	}
	near(t, "k", v.K, 1.255399, 5e-6)         // find.plan stops its solver here: its own probability is .9500016
	near(t, "k", v.K, 1.25540236477, 5.1e-12) // uniroot on pt to the end, R 4.2.2
	near(t, "consumer", must[float64](t)(v.Accept(.15)), .19437, 5.1e-6)
	v = must[sample.VariablesPlan](t)(sample.FindVariablesKnownSigma(wide))
	if v.N != 17 || !v.SigmaKnown {
		t.Errorf("sigma known: %v", v)
	}
	near(t, "k", v.K, 1.245918, 5.1e-7)
	near(t, "producer", must[float64](t)(v.Accept(.05)), .95, 1e-9)
	near(t, "consumer", must[float64](t)(v.Accept(.15)), .19387, 5.1e-6)
}

// By trying every smaller sample with every acceptance number.
func TestFoundBinomialPlanIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := sample.TwoPoints{
			Producer: sample.Point{Bad: rapid.Float64Range(.005, .05).Draw(t, "good"), Accept: rapid.Float64Range(.8, .97).Draw(t, "accept")},
			Consumer: sample.Point{Bad: rapid.Float64Range(.12, .4).Draw(t, "poor"), Accept: rapid.Float64Range(.05, .3).Draw(t, "reject")},
		}
		found, err := sample.FindBinomial(points)
		if err != nil {
			t.Fatal(err)
		}
		meets := func(n, c int) bool {
			b := func(p float64) float64 { return binomialUpTo(n, c, p) }
			return b(points.Producer.Bad) >= points.Producer.Accept && b(points.Consumer.Bad) <= points.Consumer.Accept
		}
		if !meets(found.N, found.C) {
			t.Fatalf("%v does not meet the points", found)
		}
		for n := 1; n < found.N; n++ {
			for c := 0; c < n; c++ {
				if meets(n, c) {
					t.Fatalf("%v is not the least: %d, %d does", found, n, c)
				}
			}
		}
	})
}

// Source: MIL-STD-105E, tables I and II-A.
func TestNormalPlans(t *testing.T) {
	for _, c := range []struct {
		lot  int
		aql  float64
		want sample.AttributePlan
	}{
		{2, 6.5, sample.AttributePlan{N: 2, C: 0}},     // A
		{8, 15, sample.AttributePlan{N: 3, C: 1}},      // A, arrow down to B
		{8, .65, sample.AttributePlan{N: 20, C: 0}},    // A, arrow down to F
		{9, 6.5, sample.AttributePlan{N: 2, C: 0}},     // B, arrow up to A
		{15, 4.0, sample.AttributePlan{N: 3, C: 0}},    // B
		{500, 1.0, sample.AttributePlan{N: 50, C: 1}},  // H
		{500, .65, sample.AttributePlan{N: 80, C: 1}},  // H, arrow down to J
		{281, 15, sample.AttributePlan{N: 50, C: 14}},  // H
		{280, .65, sample.AttributePlan{N: 20, C: 0}},  // G, arrow up to F
		{501, 2.5, sample.AttributePlan{N: 80, C: 5}},  // J
		{1201, 15, sample.AttributePlan{N: 80, C: 21}}, // K, arrow up to J
		{10_001, 15, sample.AttributePlan{N: 80, C: 21}},
		{35_000, 4.0, sample.AttributePlan{N: 315, C: 21}},
	} {
		l := must[sample.Letter](t)(sample.CodeLetter(c.lot, sample.LevelII))
		if got := must[sample.AttributePlan](t)(sample.NormalPlan(l, c.aql)); got != c.want {
			t.Errorf("lot %d (%v), AQL %g: %v, want %v", c.lot, l, c.aql, got, c.want)
		}
	}
	// along a diagonal, letter up and AQL down, the acceptance number stays: a property of the published table
	const rows = "FGHJKLM"
	aqls := []float64{.65, 1.0, 1.5, 2.5, 4.0, 6.5, 10, 15}
	for i := range len(rows) - 1 {
		l, next := sample.Letter(rows[i]), sample.Letter(rows[i+1])
		for a := 1; a < len(aqls); a++ {
			here, errHere := sample.NormalPlan(l, aqls[a])
			there, errThere := sample.NormalPlan(next, aqls[a-1])
			if errHere != nil || errThere != nil || here.C != there.C {
				t.Errorf("%v at %g: %v, next %v at %g: %v", l, aqls[a], here, next, aqls[a-1], there)
			}
		}
	}
}

func TestCodeLetters(t *testing.T) {
	for _, c := range []struct {
		lot        int
		i, ii, iii byte
	}{{2, 'A', 'A', 'B'}, {8, 'A', 'A', 'B'}, {9, 'A', 'B', 'C'}, {25, 'B', 'C', 'D'}, {50, 'C', 'D', 'E'}, {51, 'C', 'E', 'F'}, {1200, 'G', 'J', 'K'},
		{1201, 'H', 'K', 'L'}, {150_001, 'M', 'P', 'Q'}, {500_001, 'N', 'Q', 'R'}} {
		for level, want := range map[sample.Level]byte{sample.LevelI: c.i, sample.LevelII: c.ii, sample.LevelIII: c.iii} {
			if got := must[sample.Letter](t)(sample.CodeLetter(c.lot, level)); got != sample.Letter(want) {
				t.Errorf("lot %d, level %d: %v, want %c", c.lot, level, got, want)
			}
		}
	}
	for l, want := range map[sample.Letter]int{'A': 2, 'F': 20, 'H': 50, 'M': 315, 'R': 2000} {
		if got := must[int](t)(sample.SampleSize(l)); got != want {
			t.Errorf("%v: %d, want %d", l, got, want)
		}
	}
}

// Source: MIL-STD-105E, table II-B, rows H and J.
func TestTightenedPlans(t *testing.T) {
	for _, c := range []struct {
		letter sample.Letter
		aql    float64
		want   sample.AttributePlan
	}{
		{'H', 1.5, sample.AttributePlan{N: 50, C: 1}}, {'H', 6.5, sample.AttributePlan{N: 50, C: 5}}, {'H', 10, sample.AttributePlan{N: 50, C: 8}},
		{'H', 15, sample.AttributePlan{N: 50, C: 12}}, {'H', 1.0, sample.AttributePlan{N: 80, C: 1}},
		{'J', 1.0, sample.AttributePlan{N: 80, C: 1}}, {'J', 2.5, sample.AttributePlan{N: 80, C: 3}}, {'J', 15, sample.AttributePlan{N: 80, C: 18}},
	} {
		if got := must[sample.AttributePlan](t)(sample.TightenedPlan(c.letter, c.aql)); got != c.want {
			t.Errorf("%v, AQL %g: %v, want %v", c.letter, c.aql, got, c.want)
		}
	}
	for _, c := range []struct {
		letter sample.Letter
		aql    float64
	}{{'J', .65}, {'H', .65}, {'K', 1.0}, {'H', 3}} {
		_, err := sample.TightenedPlan(c.letter, c.aql)
		wantError(t, fmt.Sprint(c), err, sample.ErrNoPlan)
	}
}

func TestSampleAsLargeAsLot(t *testing.T) {
	if p, every := (sample.AttributePlan{N: 80, C: 1}).ForLot(60); !every || p != (sample.AttributePlan{N: 60, C: 1}) {
		t.Errorf("%v %v", p, every)
	}
	if p, every := (sample.AttributePlan{N: 80, C: 1}).ForLot(81); every || p.N != 80 {
		t.Errorf("%v %v", p, every)
	}
	// full inspection decides without error
	near(t, "one bad", must[float64](t)(sample.AttributePlan{N: 80, C: 1}.AcceptLot(60, 1)), 1, 0)
	near(t, "two bad", must[float64](t)(sample.AttributePlan{N: 80, C: 1}.AcceptLot(60, 2)), 0, 0)
}

// Source: MIL-STD-414, table B-1, and SciPy 1.10.1 for the probabilities; the table prints a producer's risk of 10 %
// for D and F. F is 10 readings here, and 20 pieces in MIL-STD-105E.
func TestVariablesTable(t *testing.T) {
	for _, c := range []struct {
		letter sample.Letter
		aql    float64
		n      int
		k      float64
	}{{'D', 1.0, 5, 1.53}, {'F', 1.0, 10, 1.72}, {'G', 1.0, 15, 1.79}, {'H', 1.0, 20, 1.82}, {'B', 10, 3, .566}, {'E', 2.5, 7, 1.33}, {'K', 1.5, 50, 1.80},
		{'B', 1.5, 4, 1.34}, {'C', .65, 5, 1.65}} { // the last two by arrows
		p := must[sample.VariablesPlan](t)(sample.NormalVariablesPlan(c.letter, c.aql))
		if p != (sample.VariablesPlan{N: c.n, K: c.k}) {
			t.Errorf("%v, AQL %g: %v, want %d, %g", c.letter, c.aql, p, c.n, c.k)
		}
	}
	for _, c := range []struct {
		n          int
		k, p, want float64
	}{{5, 1.53, .01, .89832}, {10, 1.72, .01, .89781}, {10, 1.72, .10, .22400}, {15, 1.79, .01, .90815}, {20, 1.82, .01, .92261}} {
		near(t, fmt.Sprintf("n %d, k %g at %g", c.n, c.k, c.p), must[float64](t)(sample.VariablesPlan{N: c.n, K: c.k}.Accept(c.p)), c.want, 5.1e-6)
	}
	for _, c := range []struct {
		letter sample.Letter
		aql    float64
	}{{'B', .65}, {'G', 2.5}, {'A', 1.0}, {'L', 1.0}, {'D', 15}, {'D', 3}} {
		_, err := sample.NormalVariablesPlan(c.letter, c.aql)
		wantError(t, fmt.Sprint(c), err, sample.ErrNoPlan)
	}
}

// A lot near its upper limit is refused by the upper test and not by the lower: a widely read text prints the two the
// wrong way round.
func TestVariablesSides(t *testing.T) {
	p := sample.VariablesPlan{N: 5, K: 1.53}
	s := sample.Summary{N: 5, Mean: 10.9, SD: .1}
	if must[bool](t)(p.AcceptsUpper(s, 11)) {
		t.Error("accepted one deviation below the upper limit")
	}
	if !must[bool](t)(p.AcceptsLower(s, 10)) {
		t.Error("refused nine deviations above the lower limit")
	}
	_, err := p.AcceptsUpper(sample.Summary{N: 4, Mean: 1, SD: 1}, 2)
	wantError(t, "fewer readings than the plan", err, sample.ErrTooFew)
}

func TestPlanInput(t *testing.T) {
	p := sample.AttributePlan{N: 20, C: 1}
	for what, f := range map[string]func() error{
		"share":      func() error { _, err := p.Accept(1.1); return err },
		"NaN":        func() error { _, err := p.Accept(math.NaN()); return err },
		"acceptance": func() error { _, err := p.QualityAt(1); return err },
		"point": func() error {
			_, err := sample.FindBinomial(sample.TwoPoints{Producer: sample.Point{Bad: 0, Accept: .9}})
			return err
		},
		"variables": func() error { _, err := sample.VariablesPlan{N: 5, K: 1}.Accept(0); return err },
	} {
		wantError(t, what, f(), sample.ErrProbability)
	}
	swapped := sample.TwoPoints{Producer: sample.Point{Bad: .1, Accept: .9}, Consumer: sample.Point{Bad: .05, Accept: .1}}
	alike := sample.TwoPoints{Producer: sample.Point{Bad: .05, Accept: .1}, Consumer: sample.Point{Bad: .1, Accept: .9}}
	close := sample.TwoPoints{Producer: sample.Point{Bad: .05, Accept: .95}, Consumer: sample.Point{Bad: .0500001, Accept: .05}}
	for _, find := range []func(sample.TwoPoints) error{
		func(t sample.TwoPoints) error { _, err := sample.FindBinomial(t); return err },
		func(t sample.TwoPoints) error { _, err := sample.FindVariables(t); return err },
		func(t sample.TwoPoints) error { _, err := sample.FindVariablesKnownSigma(t); return err },
	} {
		wantError(t, "swapped", find(swapped), sample.ErrOrder)
		wantError(t, "alike", find(alike), sample.ErrOrder)
	}
	_, err := sample.FindVariables(close)
	wantError(t, "points too close", err, sample.ErrTooLarge)
	_, err = sample.FindVariablesKnownSigma(close)
	wantError(t, "points too close", err, sample.ErrTooLarge)
	_, err = p.AcceptLot(10, 11)
	wantError(t, "more bad than pieces", err, sample.ErrOrder)
	_, err = p.AcceptLot(10, -1)
	wantError(t, "negative", err, sample.ErrNegative)
	_, err = sample.AttributePlan{N: 0, C: 0}.Accept(.1)
	wantError(t, "no sample", err, sample.ErrTooFew)
	_, err = sample.AttributePlan{N: 1, C: -1}.Accept(.1)
	wantError(t, "negative acceptance number", err, sample.ErrNegative)
	_, err = sample.AttributePlan{N: 2, C: 2}.QualityAt(.1)
	wantError(t, "nothing refused", err, sample.ErrOrder)
	_, err = sample.FindHypergeometric(alike, 0)
	wantError(t, "empty lot", err, sample.ErrTooFew)
	_, err = sample.CodeLetter(1, sample.LevelII)
	wantError(t, "lot of one", err, sample.ErrTooFew)
	_, err = sample.CodeLetter(10, 0)
	wantError(t, "level", err, sample.ErrNoPlan)
	_, err = sample.NormalPlan('I', 1)
	wantError(t, "letter", err, sample.ErrNoPlan)
	_, err = sample.NormalPlan('A', 1.1)
	wantError(t, "AQL", err, sample.ErrNoPlan)
	_, err = sample.SampleSize('I')
	wantError(t, "letter", err, sample.ErrNoPlan)
}

// A million pieces are the most that are counted. By exact sums in 40-digit arithmetic (mpmath 1.3.0).
func TestManyPieces(t *testing.T) {
	const most = 1_000_000
	near(t, "binomial", must[float64](t)(sample.AttributePlan{N: most, C: 30_000}.Accept(.03)), .501535701091954, 2e-9)
	near(t, "bound", must[float64](t)(sample.ShareBound(30_000, most, .95)), .0302820985293651, 1e-12)
	near(t, "none bad", most*must[float64](t)(sample.ShareBound(0, most, .95)), 2.99572778635254, 1e-8)
	near(t, "hypergeometric", must[float64](t)(sample.AttributePlan{N: 50, C: 1}.AcceptLot(most, most/50)), .735771580343813, 1e-9)
	_, err := sample.AttributePlan{N: most + 1, C: 3}.Accept(.03)
	wantError(t, "sample", err, sample.ErrTooMany)
	_, err = sample.AttributePlan{N: most + 1, C: 3}.QualityAt(.95)
	wantError(t, "sample, quality", err, sample.ErrTooMany)
	_, err = sample.AttributePlan{N: 50, C: 3}.AcceptLot(most+1, 5)
	wantError(t, "lot", err, sample.ErrTooMany)
	_, err = sample.FindHypergeometric(sample.TwoPoints{Producer: sample.Point{Bad: .01, Accept: .95}, Consumer: sample.Point{Bad: .1, Accept: .1}}, most+1)
	wantError(t, "lot of a plan", err, sample.ErrTooMany)
	_, err = sample.ShareBound(3, most+1, .95)
	wantError(t, "pieces", err, sample.ErrTooMany)
	_, err = sample.ShareInterval(3, most+1, .95)
	wantError(t, "pieces of an interval", err, sample.ErrTooMany)
}

// binomialUpTo is the chance of at most c bad ones in n, by adding up the terms.
func binomialUpTo(n, c int, p float64) float64 {
	term := math.Pow(1-p, float64(n))
	sum := term
	for k := range c {
		term *= float64(n-k) / float64(k+1) * p / (1 - p)
		sum += term
	}
	return sum
}
