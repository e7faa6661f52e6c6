package stack_test

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
	"pgregory.net/rapid"
)

// Two ways to the same probability: the integral over the correlation, and the mean over the shared dimension.
func TestBothAboveIsTheAverage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shared := drawSize(t, "shared")
		if rapid.Bool().Draw(t, "normal") {
			shared = shared.WithShape(measure.Normal)
		}
		sum := func(name string) stack.Sum {
			d := drawSize(t, name)
			if shared.Shape() == measure.Normal {
				d = d.WithShape(measure.Normal)
			}
			s := stack.Of(d)
			return s.PlusConst(shared.Middle().Sub(s.Middle()).Add(measure.Picometres(rapid.Int64Range(-100e6, 100e6).Draw(t, name+" apart"))))
		}
		a, b := sum("first"), sum("second")
		x := measure.Picometres(rapid.Int64Range(-100e6, 100e6).Draw(t, "x"))
		got := stack.BothAbove(shared, a, b, x)
		want := stack.Average(shared, func(l measure.Length) float64 { return a.Below(l.Sub(x)) * b.Below(l.Sub(x)) }, a.PlusConst(x), b.PlusConst(x))
		if !(math.Abs(got-want) <= 1e-6) {
			t.Fatalf("%.12g, want %.12g", got, want)
		}
		if swapped := stack.BothAbove(shared, b, a, x); math.Abs(swapped-got) > 1e-9 {
			t.Fatalf("%.12g, and %.12g the other way round", got, swapped)
		}
		alone := stack.Of(shared).MinusSum(a).Above(x)
		if got > alone+1e-6 || got < alone*stack.Of(shared).MinusSum(b).Above(x)-1e-6 {
			t.Fatalf("both %.12g, one %.12g, and they go together", got, alone)
		}
	})
}

// Sheppard's quadrant probability, 1/4 + arcsin(ρ)/2π, at the means, and 30-digit values of the bivariate normal elsewhere (mpmath
// 1.3.0, by integration of φ(z) Φ(…)²).
func TestBothAboveOfNormals(t *testing.T) {
	for _, c := range []struct {
		shared, own int64 // ± µm
		x           int64 // µm
		want        float64
	}{
		{100, 100, 0, .25 + math.Asin(.5)/(2*math.Pi)},
		{100, 40, 0, .25 + math.Asin(1/1.16)/(2*math.Pi)},
		{100, 200, 0, .25 + math.Asin(.2)/(2*math.Pi)},
		{100, 10, 0, .25 + math.Asin(1/1.01)/(2*math.Pi)},
		{100, 100, 40, .085944344091043968},
		{100, 200, -90, .7941692298979442},
		{100, 50, 70, .013673006268710019},
	} {
		shared := measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(c.shared))
		own := stack.Of(measure.PlusMinus(measure.Millimetres(10), measure.Micrometres(c.own)))
		near(t, "both", stack.BothAbove(shared, own, own, measure.Micrometres(c.x)), c.want, 2e-9)
	}
}

func TestBothAboveOfWhatIsNotGiven(t *testing.T) {
	d := measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(10))
	if p := stack.BothAbove(measure.Dim{}, stack.Of(d), stack.Of(d), measure.Length{}); !math.IsNaN(p) {
		t.Errorf("without a dimension: %g", p)
	}
	if p := stack.BothAbove(d, stack.Of(d), stack.Of(measure.Dim{}), measure.Length{}); !math.IsNaN(p) {
		t.Errorf("without a sum: %g", p)
	}
	exact := measure.Exactly(measure.Millimetres(1))
	below, above := stack.Of(exact).PlusConst(measure.Micrometres(-1)), stack.Of(exact).PlusConst(measure.Micrometres(1))
	if both, one := stack.BothAbove(exact, below, below, measure.Length{}), stack.BothAbove(exact, below, above, measure.Length{}); both != 1 || one != 0 {
		t.Errorf("of exact sizes: %g and %g", both, one)
	}
}

func BenchmarkBothAbove(b *testing.B) {
	d := measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(20))
	first, second := stack.Of(d).Minus(d).PlusConst(measure.Millimetres(1)), stack.Of(measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(300)))
	b.ReportAllocs()
	for b.Loop() {
		sink = stack.BothAbove(d, first, second, measure.Micrometres(20))
	}
}
