package stack_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"
)

func mm(t testing.TB, x float64) measure.Length {
	t.Helper()
	l, err := measure.FromMillimetres(x)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

func same(t *testing.T, what string, got, want measure.Length) {
	t.Helper()
	if got != want {
		t.Errorf("%s = %d pm, want %d pm", what, got.Picometres(), want.Picometres())
	}
}

const inch = 25.4

// Source: ficientdesign.com, "tolerance stack-up analysis": three blocks in a housing; the worst case and the two
// root-sum-squares are published, the probability follows from the normal distribution (SciPy 1.10.1).
func TestThreeBlocksInAHousing(t *testing.T) {
	pm := func(nominal, tolerance int64) measure.Dim {
		return measure.PlusMinus(measure.Thou(nominal), measure.Thou(tolerance))
	}
	blocks := stack.Of(pm(2000, 5)).Plus(pm(1500, 3)).Plus(pm(500, 2))
	near(t, "RSS of the blocks", blocks.RSS()/inch, .0061644, 5e-8)
	gap := stack.Of(pm(4020, 5)).Minus(pm(2000, 5)).Minus(pm(1500, 3)).Minus(pm(500, 2))
	same(t, "nominal gap", gap.Nominal(), measure.Thou(20))
	same(t, "least gap", gap.Least(), measure.Thou(5))
	same(t, "most gap", gap.Most(), measure.Thou(35))
	near(t, "RSS of the gap", gap.RSS()/inch, .0079373, 5e-8)
	near(t, "P(gap < .010 in)", gap.Below(measure.Thou(10)), 7.8526e-5, 5e-10)
}

// Ten parts of ±0.1: worst case ±1.0, root-sum-square ±0.316.
func TestTenEqualParts(t *testing.T) {
	var s stack.Sum
	for range 10 {
		s = s.Plus(measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(100)))
	}
	same(t, "least", s.Least(), measure.Millimetres(9))
	same(t, "most", s.Most(), measure.Millimetres(11))
	near(t, "RSS", s.RSS(), .3162278, 5e-8)
}

// Source of the case: trainandhire.com, three spacers 1.000 ± .005 in a slot of 3.000 ± .008 in. Worst case and RSS
// are published there. For evenly spread sizes the share outside is the Irwin-Hall tail 2 × 7³/(6 × 10³) = 343/3000.
func TestThreeSpacers(t *testing.T) {
	out := func(s stack.Sum) float64 { return s.Below(measure.Thou(2992)) + s.Above(measure.Thou(3008)) }
	spacer := measure.PlusMinus(measure.Inches(1), measure.Thou(5))
	normal := stack.Of(spacer).Plus(spacer).Plus(spacer)
	same(t, "least", normal.Least(), measure.Thou(2985))
	same(t, "most", normal.Most(), measure.Thou(3015))
	near(t, "RSS", normal.RSS()/inch, .0086603, 5e-8)
	near(t, "normal share outside", out(normal), .0055836, 5e-8)
	spacer = spacer.WithShape(measure.Uniform)
	uniform := stack.Of(spacer).Plus(spacer).Plus(spacer)
	near(t, "uniform share outside", out(uniform), 343./3000, 1e-15)
	near(t, "inflated RSS", uniform.RSS()/inch, .015, 1e-15) // √3 × √3 × .005, Scholz (1995)
}

// Source: JCGM 101:2008 (GUM supplement 1), 9.2.3 and 9.2.4: sums of four rectangular quantities. It prints ±3.88
// (from the GUM's normal approximation ±3.92) and ±17.0 (±19.9); more digits by SciPy 1.10.1.
func TestRectangularSums(t *testing.T) {
	rectangle := func(sd float64) measure.Dim {
		return measure.PlusMinus(measure.Length{}, mm(t, sd*math.Sqrt(3))).WithShape(measure.Uniform)
	}
	one := rectangle(1)
	equal := stack.Of(one).Plus(one).Plus(one).Plus(one)
	near(t, "standard deviation", equal.Sigma(), 2, 1e-9)
	near(t, "95 % half-width", equal.Quantile(.975), 3.879407, 5e-7)
	near(t, "95 % half-width below", equal.Quantile(.025), -3.879407, 5e-7)
	mixed := stack.Of(one).Plus(one).Plus(one).Plus(rectangle(10))
	near(t, "standard deviation", mixed.Sigma(), 10.14889, 5e-6)
	near(t, "95 % half-width", mixed.Quantile(.975), 17.0158, 5e-5)
}

// Source: the normal distribution by the error functions of Go's math and gonum's mathext, the triangle by its two parabolas.
func TestNormalAndTriangleByTheirFormulas(t *testing.T) {
	s := stack.Of(measure.PlusMinus(measure.Millimetres(13), measure.Micrometres(60))).
		Minus(measure.PlusMinus(measure.Millimetres(12), measure.Micrometres(45)))
	below := func(x float64) float64 { return math.Erfc((1-x)/(.025*math.Sqrt2)) / 2 }
	for x := .8; x < 1.2; x += .0078125 {
		l := mm(t, x)
		near(t, "CDF", s.CDF(l), below(l.Millimetres()), 1e-14)
		near(t, "Above", s.Above(l)/below(2-l.Millimetres()), 1, 1e-12)
		z := (l.Millimetres() - 1) / .025
		near(t, "Density", s.Density(l), math.Exp(-z*z/2)/(.025*math.Sqrt(2*math.Pi)), 1e-11)
	}
	for _, p := range []float64{1e-12, .001, .05, .5, .9, .999999} {
		near(t, "Quantile", s.Quantile(p), 1+.025*mathext.NormalQuantile(p), 1e-12*s.Sigma())
	}
	rising := func(x float64) float64 { x = min(max(x-.9, 0), .1); return x * x / .02 }
	d := stack.Of(measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(100)).WithShape(measure.Triangular))
	near(t, "deviation of a triangle", d.Sigma(), .1/math.Sqrt(6), 1e-15)
	for x := .89; x < 1.11; x += .00390625 {
		at := mm(t, x).Millimetres()
		near(t, "CDF of a triangle", d.CDF(mm(t, x)), rising(at)+.5-rising(2-at), 1e-13)
		near(t, "density of a triangle", d.Density(mm(t, x)), max(0, .1-math.Abs(at-1))/.01, 1e-10)
	}
}

// The convolution integral of a triangle and a rectangle with a normal, by Gauss-Legendre panels broken wherever an
// integrand bends: an evaluation that shares nothing with the corner sum.
func TestAgainstConvolutionIntegrals(t *testing.T) {
	const base = 100_000_000
	for _, narrow := range []int64{2, 30, 1000, 40_000, base / 5, base} {
		for _, other := range []int64{base / 1000, base * 8 / 25, base} {
			s := stack.Of(symmetric(measure.Triangular, base)).
				Minus(symmetric(measure.Uniform, other)).Plus(symmetric(measure.Normal, narrow))
			a, h, sigma := float64(base)/2e9, float64(other)/2e9, float64(narrow)/6e9
			for _, t0 := range []float64{-1.1, -.5, 0, .3, 1, 2, 3.1} {
				x := mm(t, t0*s.Sigma())
				z := x.Millimetres()
				want := panels(-a, a, func(u float64) float64 {
					return (a - math.Abs(u)) / (a * a) * rectangleAndNormal(z-u, h, sigma)
				}, 0, sigma, z-h, z+h)
				got := s.Above(x)
				if want > 1e-30 && !(math.Abs(got/want-1) < 1e-11) {
					t.Errorf("normal %d pm, rectangle %d pm, z %g: %.15g, by integration %.15g", narrow, other, z, got, want)
				}
			}
		}
	}
}

// rectangleAndNormal is P(U + N > z).
func rectangleAndNormal(z, h, sigma float64) float64 {
	return panels(-h, h, func(u float64) float64 {
		return math.Erfc((z-u)/sigma/math.Sqrt2) / 2 / (2 * h)
	}, z, sigma)
}

// panels integrates f from lo to hi, broken within a few sigma about each place where it bends.
func panels(lo, hi float64, f func(float64) float64, bend, sigma float64, more ...float64) float64 {
	at := lo
	sum := 0.0
	for at < hi {
		next := hi
		for _, b := range append(more, bend) {
			for _, k := range []float64{-40, -12, -9, -7, -5, -3, -1, 0, 1, 3, 5, 7, 9, 12, 40} {
				if edge := b + k*sigma; edge > at && edge < next {
					next = edge
				}
			}
		}
		sum += quad.Fixed(f, at, next, 24, quad.Legendre{}, 0)
		at = next
	}
	return sum
}

// Rectangles of whole widths have a rational distribution; math/big works it out without rounding.
func TestRectanglesAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		widths := rapid.SliceOfN(rapid.OneOf(rapid.Int64Range(1, 1000), rapid.Int64Range(1, 100_000_000)), 1, 6).Draw(t, "widths")
		var s stack.Sum
		total := int64(0)
		for _, w := range widths {
			s = s.Plus(measure.Between(measure.Length{}, measure.Picometres(w)).WithShape(measure.Uniform))
			total += w
		}
		x := rapid.Int64Range(-1, total+1).Draw(t, "x")
		want, _ := corners(widths, x).Float64()
		if got := s.Below(measure.Picometres(x)); !(math.Abs(got-want) <= 1e-12*want) {
			t.Fatalf("P(sum of %v < %d) = %.17g, want %.17g", widths, x, got, want)
		}
		upper, _ := corners(widths, total-x).Float64()
		if got := s.Above(measure.Picometres(x)); !(math.Abs(got-upper) <= 1e-12*upper) {
			t.Fatalf("P(sum of %v > %d) = %.17g, want %.17g", widths, x, got, upper)
		}
	})
}

// corners is P(Σ U(0, width) < x) = Σ over corners (−1)^n max(x − corner, 0)^k / (k! Π width).
func corners(widths []int64, x int64) *big.Rat {
	sum := new(big.Int)
	for mask := range 1 << len(widths) {
		at, negative := x, false
		for i, w := range widths {
			if mask>>i&1 == 1 {
				at -= w
				negative = !negative
			}
		}
		if at <= 0 {
			continue
		}
		term := new(big.Int).Exp(big.NewInt(at), big.NewInt(int64(len(widths))), nil)
		if negative {
			term.Neg(term)
		}
		sum.Add(sum, term)
	}
	scale := big.NewInt(1)
	for i, w := range widths {
		scale.Mul(scale, big.NewInt(w))
		scale.Mul(scale, big.NewInt(int64(i+1)))
	}
	return new(big.Rat).SetFrac(sum, scale)
}

func drawDim(t *rapid.T) measure.Dim {
	nominal := measure.Picometres(rapid.Int64Range(-20e9, 20e9).Draw(t, "nominal"))
	draw := func(label string) measure.Length {
		return measure.Picometres(rapid.OneOf(rapid.Just(int64(0)), rapid.Int64Range(-100, 100), rapid.Int64Range(-200e6, 200e6)).Draw(t, label))
	}
	return measure.WithDeviations(nominal, draw("lower"), draw("upper")).
		WithShape(rapid.SampledFrom([]measure.Shape{measure.Normal, measure.Uniform, measure.Triangular}).Draw(t, "shape"))
}

func drawSum(t *rapid.T) stack.Sum {
	var s stack.Sum
	for range rapid.IntRange(0, 5).Draw(t, "terms") {
		if rapid.Bool().Draw(t, "minus") {
			s = s.Minus(drawDim(t))
		} else {
			s = s.Plus(drawDim(t))
		}
	}
	return s.PlusConst(measure.Picometres(rapid.Int64Range(-1e9, 1e9).Draw(t, "constant")))
}

func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSum(t)
		if err := s.Err(); err != nil {
			t.Fatal(err)
		}
		spread := s.Most().Sub(s.Least()).Picometres()
		middle := s.Least().Picometres()
		x := measure.Picometres(middle + rapid.Int64Range(-10, spread+10).Draw(t, "x"))
		y := x.Add(measure.Picometres(rapid.Int64Range(0, spread/8+10).Draw(t, "step")))
		cdf, above := s.CDF(x), s.Above(x)
		if !(cdf >= 0 && cdf <= 1 && above >= 0 && above <= 1) {
			t.Fatalf("CDF %g and Above %g are not probabilities", cdf, above)
		}
		if math.Abs(cdf+above-1) > 1e-14 {
			t.Fatalf("CDF %g + Above %g is not 1", cdf, above)
		}
		if s.Below(x) > cdf {
			t.Fatalf("P(S < x) %g is more than P(S <= x) %g", s.Below(x), cdf)
		}
		if further := s.CDF(y); further < cdf*(1-1e-12) {
			t.Fatalf("CDF falls from %.17g to %.17g", cdf, further)
		}
		mirrored := measure.Picometres(s.Least().Picometres() + s.Most().Picometres()).Sub(x)
		if s.Below(mirrored) != above {
			t.Fatalf("not symmetric about the mean: %.17g and %.17g", s.Below(mirrored), above)
		}
		// E[max(S−x,0)] − E[max(x−S,0)] = E[S] − x
		excess, shortfall := s.MeanExcess(x), s.MeanShortfall(x)
		balance := float64(s.Least().Picometres()+s.Most().Picometres()-2*x.Picometres()) / 2e9
		if math.Abs(excess-shortfall-balance) > 1e-14*(excess+shortfall) {
			t.Fatalf("excess %g − shortfall %g is not %g", excess, shortfall, balance)
		}
		// ∫ Above from x to y = MeanExcess(x) − MeanExcess(y), bounded by the ends of a falling function
		drop, width := excess-s.MeanExcess(y), y.Sub(x).Millimetres()
		slack := 1e-12 * (excess + width)
		if drop > above*width+slack || drop < s.Above(y)*width-slack {
			t.Fatalf("mean excess falls by %g over %g, outside the probabilities %g and %g", drop, width, above, s.Above(y))
		}
		if sum := s.Sigma(); sum > 0 && math.Abs(s.RSS()/sum-3) > 1e-12 {
			t.Fatalf("RSS %g is not three deviations of %g", s.RSS(), sum)
		}
	})
}

// The derivative of the mean excess is −Above, and of Above −Density; by Richardson's extrapolation.
func TestDerivatives(t *testing.T) {
	s := stack.Of(symmetric(measure.Triangular, 80_000_000)).
		Minus(symmetric(measure.Uniform, 50_000_000)).Plus(symmetric(measure.Normal, 90_000_000))
	const h = 1_000_000
	slope := func(f func(measure.Length) float64, x int64) float64 {
		d := func(h int64) float64 {
			return (f(measure.Picometres(x+h)) - f(measure.Picometres(x-h))) / (2 * float64(h) / 1e9)
		}
		return (4*d(h) - d(2*h)) / 3
	}
	for x := int64(-60_000_000); x <= 60_000_000; x += 7_000_000 {
		near(t, "d MeanExcess", slope(s.MeanExcess, x), -s.Above(measure.Picometres(x)), 1e-6)
		near(t, "d Above", slope(s.Above, x), -s.Density(measure.Picometres(x)), 1e-4)
	}
}

func TestQuantileUndoesCDF(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSum(t)
		if s.Exact() {
			return
		}
		q := math.Pow(10, rapid.Float64Range(-14, -.302).Draw(t, "log q"))
		// quantiles are in mm, evaluation takes picometres: rounding x by half a picometre moves the probability by the
		// density
		x := s.UpperQuantile(q)
		l, err := measure.FromMillimetres(x)
		if err != nil {
			t.Fatal(err)
		}
		step := measure.Picometres(2)
		if hi, lo := s.Above(l.Sub(step)), s.Above(l.Add(step)); q > hi*(1+1e-9) || q < lo*(1-1e-9) {
			t.Fatalf("P(S > %g mm) is between %g and %g, not %g", x, lo, hi, q)
		}
		if q > 1e-3 {
			near := 1e-9*s.Sigma() + 4e-15*math.Abs(s.Mean())
			if d := math.Abs(s.Quantile(1-q) - x); d > near {
				t.Fatalf("Quantile(1−q) and UpperQuantile(q) differ by %g", d)
			}
		}
	})
}

// Two equal rectangles make a triangle, whose quantile is in closed form.
func TestQuantileOfATriangle(t *testing.T) {
	u := symmetric(measure.Uniform, 1_000_000_000)
	s := stack.Of(u).Minus(u)
	for _, q := range []float64{1e-300, 1e-20, 1e-9, .003, .1, .3, .49} {
		near(t, "UpperQuantile", s.UpperQuantile(q), 1-math.Sqrt(2*q), 1e-12*s.Sigma())
		near(t, "Quantile", s.Quantile(q), math.Sqrt(2*q)-1, 1e-12*s.Sigma())
	}
}

func TestQuantileEnds(t *testing.T) {
	n := stack.Of(symmetric(measure.Normal, 60_000_000))
	u := stack.Of(symmetric(measure.Uniform, 60_000_000)).Plus(symmetric(measure.Triangular, 20_000_000))
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"normal, 0", n.Quantile(0), math.Inf(-1)},
		{"normal, 1", n.Quantile(1), math.Inf(1)},
		{"normal, half", n.Quantile(.5), 0},
		{"bounded, 0", u.Quantile(0), -.04},
		{"bounded, 1", u.Quantile(1), .04},
		{"exact", stack.Of(measure.Exactly(measure.Millimetres(3))).Quantile(.2), 3},
	} {
		if c.got != c.want {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
	for _, p := range []float64{-1e-9, 1.5, math.NaN()} {
		if x := n.Quantile(p); !math.IsNaN(x) {
			t.Errorf("Quantile(%g) = %g, want NaN", p, x)
		}
	}
}

// A ratio of ±1 is a plain term; the growth of a taper of .0075 in per inch over 1.500 ± .020 in is .01125 ± .00015
// in.
func TestRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, d := drawSum(t), drawDim(t)
		if s.PlusRatio(d, 7, 7) != s.Plus(d) || s.PlusRatio(d, 3, -3) != s.Minus(d) {
			t.Fatalf("%v: a ratio of one is not the term itself", d)
		}
	})
	depth := measure.PlusMinus(measure.Thou(1500), measure.Thou(20))
	grown := stack.Of(measure.Exactly(measure.Thou(355))).PlusRatio(depth, 3, 400)
	same(t, "nominal", grown.Nominal(), measure.Thou(36625).DivRound(100))
	same(t, "least", grown.Least(), measure.Thou(36610).DivRound(100))
	same(t, "most", grown.Most(), measure.Thou(36640).DivRound(100))
	near(t, "deviation", grown.Sigma()/inch, .00005, 1e-12)
	same(t, "least of the opposite", stack.Sum{}.PlusRatio(depth, -3, 400).Least(), measure.Thou(-1140).DivRound(100))
}

// An exact sum is a step, to the picometre.
func TestExactSumIsAStep(t *testing.T) {
	s := stack.Of(measure.Exactly(measure.Thou(505))).Minus(measure.Nominal(measure.Thou(500)))
	at, one := measure.Thou(5), measure.Picometres(1)
	type row struct{ cdf, below, above float64 }
	for _, c := range []struct {
		x    measure.Length
		want row
	}{
		{at.Sub(one), row{0, 0, 1}},
		{at, row{1, 0, 0}},
		{at.Add(one), row{1, 1, 0}},
	} {
		if got := (row{s.CDF(c.x), s.Below(c.x), s.Above(c.x)}); got != c.want {
			t.Errorf("at %d pm: %v, want %v", c.x.Picometres(), got, c.want)
		}
	}
	if !s.Exact() || s.Sigma() != 0 || s.RSS() != 0 {
		t.Error("the sum of exact terms is not exact")
	}
	near(t, "MeanExcess", s.MeanExcess(measure.Length{}), .127, 1e-16)
	near(t, "MeanShortfall", s.MeanShortfall(measure.Thou(15)), .254, 1e-16)
}

func TestFaults(t *testing.T) {
	d := measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(10))
	many := stack.Sum{}
	for range stack.MaxTerms + 1 {
		many = many.Plus(d.WithShape(measure.Uniform))
	}
	for _, c := range []struct {
		what    string
		s       stack.Sum
		missing bool
	}{
		{"not given", stack.Of(d).Minus(measure.Dim{}), true},
		{"too many", many, false},
		{"overflow", stack.Of(d).PlusConst(measure.MaxLength), false},
		{"ratio", stack.Of(d).PlusRatio(d, 1, 0), false},
		{"shape", stack.Of(d.WithShape(99)), false},
	} {
		var e *stack.Error
		if !errors.As(c.s.Err(), &e) || e.Missing != c.missing {
			t.Errorf("%s: error %v", c.what, c.s.Err())
		}
		x := measure.Length{}
		for _, v := range []float64{c.s.CDF(x), c.s.Below(x), c.s.Above(x), c.s.MeanExcess(x), c.s.MeanShortfall(x),
			c.s.Density(x), c.s.Quantile(.5), c.s.UpperQuantile(.5), c.s.Mean(), c.s.Sigma(), c.s.RSS()} {
			if !math.IsNaN(v) {
				t.Errorf("%s: %g, want NaN", c.what, v)
			}
		}
	}
	if stack.Of(d).Err() != nil || (stack.Sum{}).Err() != nil {
		t.Error("a sound sum has an error")
	}
}

func TestNothingIsAllocated(t *testing.T) {
	d := measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(10))
	total := 0.0
	if n := testing.AllocsPerRun(20, func() {
		s := stack.Of(d.WithShape(measure.Triangular)).Minus(d.WithShape(measure.Uniform)).Plus(d)
		total += s.Above(measure.Micrometres(990)) + s.MeanExcess(measure.Millimetres(1)) + s.Quantile(.99)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

var sink float64

func BenchmarkNormal(b *testing.B) {
	base := measure.PlusMinus(measure.Millimetres(13), measure.Micrometres(50))
	hosel := measure.PlusMinus(measure.Millimetres(12), measure.Micrometres(80))
	b.Run("build", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink = float64(stack.Of(base).Minus(hosel).Least().Picometres())
		}
	})
	s := stack.Of(base).Minus(hosel)
	x := measure.Micrometres(1050)
	b.Run("below", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink = s.Below(x)
		}
	})
	b.Run("excess", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink = s.MeanExcess(x)
		}
	})
	b.Run("quantile", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink = s.Quantile(.95)
		}
	})
}

func BenchmarkAbove(b *testing.B) {
	for _, c := range []struct{ name, terms string }{
		{"exact", ""},
		{"normal+uniform", "N100000000 U100000000"},
		{"uniform+uniform", "U100000000 U60000000"},
		{"normal+triangular", "N100000000 T100000000"},
		{"normal+narrow uniform", "N100000000 U1000000"},
		{"4 mixed", "N100000000 U100000000 T50000000 T80000000"},
		{"8 triangular", "T100000000 T100000000 T100000000 T100000000 T100000000 T100000000 T100000000 T100000000"},
		{"8 triangular+normal", "T100000000 T100000000 T100000000 T100000000 T100000000 T100000000 T100000000 T100000000 N100000000"},
	} {
		s := sumOf(b, c.terms)
		x := s.Least().Add(s.Most().Sub(s.Least()).MulRatio(3, 5))
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink = s.Above(x)
			}
		})
	}
}
