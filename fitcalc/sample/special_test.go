package sample

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By integration of Φ(ts − δ) over the chi density in 30-digit arithmetic (mpmath 1.3.0).
func TestNoncentralT(t *testing.T) {
	for _, c := range []struct{ nu, delta, t, lower, upper float64 }{
		{1, 0, 1, 0.75, 0.25},
		{1, 2, 3, 0.52485716173368785, 0.47514283826631215},
		{1, 2.5, 40, 0.95014023328528634, 0.04985976671471366},
		{2, -1, 0.5, 0.92030426006848501, 0.079695739931514986},
		{4, 3.67, 9.4, 0.95036604183646471, 0.049633958163535286},
		{9, 5.2, 9.2, 0.94990503989679903, 0.050094960103200973},
		{19, 10.4, 14.7, 0.94896575357845681, 0.051034246421543186},
		{19, 10.4, 10.7, 0.52478564200571165, 0.47521435799428835},
		{19, 10.4, 4, 5.4944048118852326e-8, 0.99999994505595188},
		{49, 16.4, 20.2, 0.95072244165617136, 0.049277558343828642},
		{3, 1, -2, 0.0099685006327309132, 0.99003149936726909},
		{200, 25, 27.5, 0.92726857874939999, 0.072731421250600007},
		{1000, 60, 63, 0.95832924790545914, 0.041670752094540864},
		{5000, 164, 160, 0.016972367317750067, 0.98302763268224993},
		{1, 5.2, 30000, 0.9998617000097527, 0.00013829999024729606},
		{2, 6, 300, 0.99958898239192511, 0.00041101760807488658},
		{1, -3, -500, 0.0047878788966094434, 0.99521212110339056},
		{9, 5.2, 0.01, 1.0500065986466157e-7, 0.99999989499934014},
		{2, 0.5, 200, 0.99997399225611269, 2.6007743887307616e-5},
	} {
		d := noncentralT{c.nu, c.delta}
		lower, upper := d.tails(c.t)
		if math.Abs(lower/c.lower-1) > 1e-12 || math.Abs(upper/c.upper-1) > 1e-12 {
			t.Errorf("ν %g, δ %g, t %g: %.17g and %.17g, want %.17g and %.17g", c.nu, c.delta, c.t, lower, upper, c.lower, c.upper)
		}
		if got := d.quantile(c.lower); math.Abs(got-c.t) > 1e-9*math.Abs(c.t) {
			t.Errorf("ν %g, δ %g: quantile %.17g, want %.17g", c.nu, c.delta, got, c.t)
		}
	}
}

// t′ decreases in δ at a fixed place, and its distribution function increases in t.
func TestNoncentralTIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nu := float64(rapid.IntRange(1, 500).Draw(t, "nu"))
		delta := rapid.Float64Range(-5, 60).Draw(t, "delta")
		x := rapid.Float64Range(-5, 80).Draw(t, "t")
		lower, upper := noncentralT{nu, delta}.tails(x)
		if !(lower >= 0 && upper >= 0 && math.Abs(lower+upper-1) < 1e-13) {
			t.Fatalf("%g and %g are not the two parts of 1", lower, upper)
		}
		if right, _ := (noncentralT{nu, delta}).tails(x + .1); right < lower*(1-1e-12) {
			t.Fatalf("falls from %g to %g", lower, right)
		}
		if shifted, _ := (noncentralT{nu, delta + .1}).tails(x); shifted > lower*(1+1e-12) {
			t.Fatalf("grows with δ from %g to %g", lower, shifted)
		}
	})
}

// From the density by integration and root finding in 40-digit arithmetic (mpmath 1.3.0); from a thousand degrees of freedom on
// Abramowitz and Stegun, 26.7.5, gives the same digits, and in the limit the normal quantile. JCGM 100:2008, table G.2, prints
// 2.92 for the first.
func TestStudentQuantile(t *testing.T) {
	for _, c := range []struct{ p, nu, want float64 }{
		{.995, 16, 2.920781622425100},
		{.975, .5, 164.55767348048853},
		{.975, 1, 12.706204736174705},
		{.975, 2.5, 3.5746548420036832},
		{.9999999, 100, 5.5869004745},
		{.9999999, 1000, 5.2359984693},
		{.975, 1e4, 1.9602012398906263},
		{.9999999, 1e4, 5.2029836383},
		{.975, 1e5, 1.9599877075346096},
		{.9999999, 1e5, 5.1997019884},
		{.975, 1e6, 1.9599663568141070},
		{.9999999, 1e6, 5.1993740208},
		{.975, 1e9, 1.9599639869123255},
		{.9999999, 1e9, 5.1993376186},
		{.975, 1e12, 1.9599639845424265},
		{.9999999, 1e12, 5.1993375822},
		{.975, 1e15, 1.9599639845400566},
		{.975, 1e300, 1.9599639845400542},
		{.975, math.Inf(1), 1.9599639845400542},
		{.5, 7, 0},
		{.975, .1, 1682362288745.0282},
		{.5, 1e7, 0},
	} {
		// 1 − .9999999 is rounded, which t at that place magnifies
		tolerance := 1e-12 * c.want
		if c.p > .99999 {
			tolerance = 2e-10 * c.want
		}
		got, lower := studentQuantile(c.p, c.nu), studentQuantile(1-c.p, c.nu)
		if !(math.Abs(got-c.want) <= tolerance+1e-15) || !(math.Abs(lower+c.want) <= 1e-8*c.want+1e-15) {
			t.Errorf("t(%g; %g) = %.17g, want %.17g; the lower one %.17g", c.p, c.nu, got, c.want, lower)
		}
	}
}

// So few degrees of freedom tell nothing, and take no time over it.
func TestStudentQuantileOfNothing(t *testing.T) {
	for _, nu := range []float64{1e-300, 1e-6, .009} {
		if up, down := studentQuantile(.975, nu), studentQuantile(.025, nu); !math.IsInf(up, 1) || !math.IsInf(down, -1) {
			t.Errorf("t(.975; %g) = %g and %g", nu, up, down)
		}
	}
}

// The quantile falls as the degrees of freedom grow, and never below the normal one.
func TestStudentQuantileTendsToTheNormal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := 1 - math.Pow(10, rapid.Float64Range(-12, -.31).Draw(t, "log tail"))
		nu := math.Pow(10, rapid.Float64Range(0, 18).Draw(t, "log nu"))
		few, many, normal := studentQuantile(p, nu), studentQuantile(p, nu*1.5), zOf(p)
		if !(few >= many*(1-1e-12) && many >= normal*(1-1e-12)) {
			t.Fatalf("t(%g): %.17g with %g degrees of freedom, %.17g with more, %.17g with any number", p, few, nu, many, normal)
		}
		if excess := few - normal; nu > 1e4 && excess > 1.01*(normal*normal*normal+normal)/(4*nu)+1e-12*normal {
			t.Fatalf("t(%g; %g) is %g above the normal quantile", p, nu, excess)
		}
	})
}

// P(|T| ≥ t) by the incomplete beta function in 40-digit arithmetic (mpmath 1.3.0), for the last two by the first term of
// its expansion about 2Φ(−2).
func TestStudentTwoSided(t *testing.T) {
	for _, c := range []struct{ t, nu, want float64 }{
		{2, 1, .29516723530086655},
		{2, 10, .073388034770740366},
		{2, 1e3, .04577034649325164},
		{2, 1e15, .045500263896358684},
		{2, 1e18, .045500263896358415},
	} {
		if got := studentTwoSided(c.t, c.nu); math.Abs(got/c.want-1) > 1e-12 {
			t.Errorf("P(|T| ≥ %g; %g) = %.17g, want %.17g", c.t, c.nu, got, c.want)
		}
	}
}

func TestRoot(t *testing.T) {
	for _, c := range []struct {
		f          func(float64) float64
		a, b, want float64
	}{
		{func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815423265}, // Wallis
		{func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{func(x float64) float64 { return math.Pow(x, 9) }, -1, 4, 0},
		{func(x float64) float64 { return x }, 0, 4, 0},
	} {
		if got := root(c.f, c.a, c.b); math.Abs(got-c.want) > 1e-14 {
			t.Errorf("%.17g, want %.17g", got, c.want)
		}
	}
}

// The finite series for whole degrees of freedom and the quadrature for any are two ways to one number. The table's numbers are those
// of NIST/SEMATECH e-Handbook, 1.3.6.7.2, to the three decimals that it prints.
func TestWholeQuantile(t *testing.T) {
	for _, c := range []struct{ p, nu, want float64 }{
		{.95, 1, 6.314}, {.975, 2, 4.303}, {.95, 3, 2.353}, {.99, 4, 3.747}, {.95, 8, 1.860}, {.975, 9, 2.262}, {.95, 13, 1.771}, {.999, 30, 3.385}, {.95, 100, 1.660},
	} {
		if got := studentQuantile(c.p, c.nu); math.Abs(got-c.want) > .00051 {
			t.Errorf("t(%g; %g) = %g, want %g", c.p, c.nu, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		nu := float64(rapid.IntRange(1, mostTerms).Draw(t, "nu"))
		p := rapid.Float64Range(leastTail, 1-leastTail).Draw(t, "p")
		got, want := wholeQuantile(p, nu), noncentralT{nu: nu}.quantile(p)
		if math.Abs(got-want) > 2e-8*math.Abs(want)+5e-9 { // the quadrature has eight digits near the middle
			t.Fatalf("t(%g; %g): %.15g by the series, %.15g by quadrature", p, nu, got, want)
		}
		// in closed form for the Cauchy distribution, and for two degrees of freedom
		one, a := wholeQuantile(p, 1), 2*p-1
		two := wholeQuantile(p, 2)
		if want := math.Tan(math.Pi * (p - 0.5)); math.Abs(one-want) > 1e-11*math.Abs(want)+1e-14 {
			t.Fatalf("t(%g; 1) = %.15g, want %.15g", p, one, want)
		}
		if want := a * math.Sqrt(2/(1-a*a)); math.Abs(two-want) > 1e-11*math.Abs(want)+1e-14 {
			t.Fatalf("t(%g; 2) = %.15g, want %.15g", p, two, want)
		}
	})
}

// BenchmarkStudentQuantile is what a size of readings costs.
func BenchmarkStudentQuantile(b *testing.B) {
	for b.Loop() {
		studentQuantile(.95, 8)
	}
}
