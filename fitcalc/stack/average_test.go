package stack_test

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
	"pgregory.net/rapid"
)

// drawSize is a dimension as parts have it: exact, or with limits at least ten micrometres apart.
func drawSize(t *rapid.T, label string) measure.Dim {
	width := rapid.OneOf(rapid.Just(int64(0)), rapid.Int64Range(10e6, 400e6)).Draw(t, label+" width")
	nominal := measure.Picometres(rapid.Int64Range(-20e9, 20e9).Draw(t, label))
	return measure.WithDeviations(nominal, measure.Length{}, measure.Picometres(width)).
		WithShape(rapid.SampledFrom([]measure.Shape{measure.Normal, measure.Uniform, measure.Triangular}).Draw(t, label+" shape"))
}

// Where one sum alone shares the dimension, the mean of its probabilities is that of the sum with the dimension in it.
func TestAverageIsTheConvolution(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shared := drawSize(t, "shared")
		s := stack.Of(drawSize(t, "first"))
		if rapid.Bool().Draw(t, "two terms") {
			s = s.Minus(drawSize(t, "second"))
		}
		// near each other, or there is little to see
		s = s.PlusConst(shared.Middle().Sub(s.Middle()).Add(measure.Picometres(rapid.Int64Range(-100e6, 100e6).Draw(t, "apart"))))
		got := stack.Average(shared, func(l measure.Length) float64 { return s.Below(l) }, s)
		want := stack.Of(shared).MinusSum(s).Above(measure.Length{})
		if !(math.Abs(got-want) <= 1e-6) {
			t.Fatalf("mean %.12g, want %.12g; shared %v, sum %v ± %g mm", got, want, shared, s.Middle(), s.Sigma())
		}
	})
}

// MinusSum is the difference term by term.
func TestMinusSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawDim(t), drawDim(t), drawDim(t)
		got, want := stack.Of(a).MinusSum(stack.Of(b).Minus(c)), stack.Of(a).Minus(b).Plus(c)
		if got.Least() != want.Least() || got.Most() != want.Most() || got.Nominal() != want.Nominal() || got.Mean() != want.Mean() {
			t.Fatalf("%v to %v, want %v to %v", got.Least(), got.Most(), want.Least(), want.Most())
		}
		x := got.Middle().Add(measure.Picometres(rapid.Int64Range(-200e6, 200e6).Draw(t, "x")))
		if p, q := got.Above(x), want.Above(x); math.Abs(p-q) > 1e-12 {
			t.Fatalf("P %g, want %g", p, q)
		}
	})
}

// Of two normal sums that share a term both exceed their means with probability 1/4 + arcsin(ρ)/2π (Sheppard, Philosophical
// Transactions A 192, 1899): here with ρ the part of the variance that is shared, from a thousandth to nearly all.
func TestAverageOfTwoThatShareATerm(t *testing.T) {
	for _, own := range []int64{1, 10, 100, 1000, 3000} {
		shared := measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(100))
		a := measure.PlusMinus(measure.Millimetres(7), measure.Micrometres(own))
		b := measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(own))
		sa, sb := stack.Of(a).PlusConst(measure.Millimetres(3)), stack.Of(b)
		got := stack.Average(shared, func(l measure.Length) float64 { return sa.Below(l) * sb.Below(l) }, sa, sb)
		rho := 100. * 100 / (100*100 + float64(own*own))
		near(t, "both", got, .25+math.Asin(rho)/(2*math.Pi), 1e-8)
	}
}

// A function that does not vary has itself as its mean, and the identity the mean of the dimension.
func TestAverageOfMoments(t *testing.T) {
	for shape, deviation := range map[measure.Shape]float64{measure.Normal: .1 / 3, measure.Uniform: .1 / math.Sqrt(3), measure.Triangular: .1 / math.Sqrt(6)} {
		d := measure.PlusMinus(measure.Millimetres(12), measure.Micrometres(100)).WithShape(shape)
		near(t, "constant", stack.Average(d, func(measure.Length) float64 { return .7 }), .7, 1e-15)
		near(t, "mean", stack.Average(d, measure.Length.Millimetres), 12, 1e-12)
		square := func(l measure.Length) float64 { x := l.Millimetres() - 12; return x * x }
		near(t, "deviation", math.Sqrt(stack.Average(d, square)), deviation, 1e-9)
	}
	tail := stack.Average(measure.PlusMinus(measure.Length{}, measure.Millimetres(3)), func(l measure.Length) float64 {
		return math.Erfc(-l.Millimetres()/math.Sqrt2) / 2
	}, stack.Of(measure.PlusMinus(measure.Length{}, measure.Millimetres(3))))
	near(t, "Φ of a normal", tail, .5, 1e-12)
}

func TestAverageOfNoSpread(t *testing.T) {
	f := func(l measure.Length) float64 { return l.Millimetres() }
	near(t, "exact", stack.Average(measure.Exactly(measure.Millimetres(3)), f), 3, 0)
	near(t, "nominal only", stack.Average(measure.Nominal(measure.Millimetres(3)), f), 3, 0)
	if x := stack.Average(measure.Dim{}, f); !math.IsNaN(x) {
		t.Errorf("not given: %g", x)
	}
	if x := stack.Average(measure.PlusMinus(measure.Length{}, measure.Millimetres(3)), f, stack.Of(measure.Dim{})); !math.IsNaN(x) {
		t.Errorf("at a sum that is not given: %g", x)
	}
}

func TestAverageAllocatesNothing(t *testing.T) {
	d := measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(10))
	a, b := stack.Of(d), stack.Of(d.WithShape(measure.Triangular)).Minus(d).PlusConst(measure.Millimetres(1))
	total := 0.0
	if n := testing.AllocsPerRun(20, func() {
		total += stack.Average(d, func(l measure.Length) float64 { return a.Below(l) * b.Below(l) }, a, b)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkAverage(b *testing.B) {
	d := measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(20))
	first, second := stack.Of(d).Minus(d).PlusConst(measure.Millimetres(1)), stack.Of(measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(300)))
	b.ReportAllocs()
	for b.Loop() {
		sink = stack.Average(d, func(l measure.Length) float64 { return first.Below(l) * second.Below(l) }, first, second)
	}
}
