package sample_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"pgregory.net/rapid"
)

// fine is an instrument whose error does not matter.
var fine = sample.Caliper{Resolution: measure.Picometres(1)}

// Three readings of one hosel with usual calipers, by hand: s = .02, s/√3 = .011547; .01/√12 = .002887 and .02/√3 = .011547
// combine to .011902; together u = .016583 with ν = u⁴/(.011547⁴/2) = 8.5, taken as 8. A table of Student's t (NIST/SEMATECH
// e-Handbook, 1.3.6.7.2) has 1.860 for ν = 8 at .95 and 1.645 for infinitely many: limits ± 3 · .016583 · 1.860/1.645.
func TestSizeOfPiece(t *testing.T) {
	s := must[sample.Size](t)(sample.SizeOfPiece(mm(t, 13.58, 13.62, 13.60), sample.DefaultCaliper(), measure.Length{}))
	near(t, "mean", s.Mean, 13.60, 1e-12)
	near(t, "s", s.SD, .02, 1e-12)
	near(t, "u", s.U, .016583, 5e-7)
	near(t, "ν", s.DoF, 8.5, .05)
	near(t, "limit", s.Dim.Width().Millimetres()/2, 3*.016583*1.860/1.645, 2e-5)
	near(t, "nominal", s.Dim.Nominal().Millimetres(), 13.60, 1e-9)
	if s.Dim.Origin() != measure.Measured || s.Dim.Shape() != measure.Normal || s.N != 3 || s.Of != sample.OnePiece || s.Spread != sample.OwnReadings {
		t.Errorf("got %+v", s)
	}
}

// Readings that are all the same are as uncertain as the instrument and no less: ± 3 · .011902.
func TestSizeOfPieceIsNeverBetterThanTheInstrument(t *testing.T) {
	s := must[sample.Size](t)(sample.SizeOfPiece(mm(t, 13.6, 13.6, 13.6, 13.6), sample.DefaultCaliper(), measure.Length{}))
	near(t, "limit", s.Dim.Width().Millimetres()/2, 3*.0119024, 1e-6)
}

// One reading spreads like a size without one, ±.003 in = .0762 mm at three deviations and of four degrees of freedom, and like the
// instrument: u = √(.0254² + .0119024²) = .028051, ν = 4 · (.028051/.0254)⁴ = 5.9, taken as 5; t(.95; 5) = 2.015 in the table.
func TestOneReading(t *testing.T) {
	for name, of := range map[string]func(measure.Length) (sample.Size, error){
		"piece": func(tolerance measure.Length) (sample.Size, error) {
			return sample.SizeOfPiece(mm(t, 13.6), sample.DefaultCaliper(), tolerance)
		},
		"part": func(tolerance measure.Length) (sample.Size, error) {
			return sample.SizeOfPart(mm(t, 13.6), sample.DefaultCaliper(), sample.Pool{}, tolerance)
		},
	} {
		s := must[sample.Size](t)(of(measure.Thou(3)))
		near(t, name, s.Dim.Width().Millimetres()/2, 3*.028051*2.015/1.645, 3e-5)
		if s.Spread != sample.AssumedTolerance || s.N != 1 || s.SD != 0 || s.Dim.Origin() != measure.Measured {
			t.Errorf("%s: %+v", name, s)
		}
		_, err := of(measure.Length{})
		wantError(t, name+" without a tolerance", err, sample.ErrTooFew)
	}
}

// Three pieces beside a tolerance of ±.0762 mm: (2 · .02² + 4 · .0254²)/6 = .00056344 with ν = 6; the mean's .02²/3 = .00013333 with
// 2; the instrument's .00014167. u = .028956, ν = u⁴/(.00056344²/6 + .00013333²/2) = 11.4, taken as 11; t(.95; 11) = 1.796.
func TestSizeOfPartBesideATolerance(t *testing.T) {
	s := must[sample.Size](t)(sample.SizeOfPart(mm(t, 13.58, 13.62, 13.60), sample.DefaultCaliper(), sample.Pool{}, measure.Thou(3)))
	near(t, "u", s.U, .028956, 1e-6)
	near(t, "ν", s.DoF, 11.4, .05)
	near(t, "limit", s.Dim.Width().Millimetres()/2, 3*.028956*1.796/1.645, 3e-5)
	if s.Spread != sample.ReadingsAndTolerance {
		t.Errorf("got %+v", s)
	}
}

// Three pieces: s = .02, s·√(4/3) = .023094; with the instrument's .011902 u = .025981 with ν = u⁴/(.023094⁴/2) = 3.2, taken as 3;
// t(.95; 3) = 2.353 in the table.
func TestSizeOfPart(t *testing.T) {
	s := must[sample.Size](t)(sample.SizeOfPart(mm(t, 13.58, 13.62, 13.60), sample.DefaultCaliper(), sample.Pool{}, measure.Length{}))
	near(t, "u", s.U, .025981, 5e-7)
	near(t, "limit", s.Dim.Width().Millimetres()/2, 3*.025981*2.353/1.645, 5e-5)
	if s.Of != sample.SeveralPieces || s.Spread != sample.OwnReadings {
		t.Errorf("got %+v", s)
	}
}

// The jaws' give is put right: a soft outside reads too small, a bore too large, by half of what is allowed for.
func TestSizeCorrectsForTheJaws(t *testing.T) {
	c := sample.DefaultCaliper()
	c.JawGive = measure.Micrometres(20)
	near(t, "outside", must[sample.Size](t)(sample.SizeOfPiece(mm(t, 13, 13), c, measure.Length{})).Mean, 13.01, 1e-12)
	near(t, "one", must[sample.Size](t)(sample.SizeOfPiece(mm(t, 13), c, measure.Thou(3))).Mean, 13.01, 1e-12)
	c.Inside = true
	near(t, "bore", must[sample.Size](t)(sample.SizeOfPart(mm(t, 9, 9), c, sample.Pool{}, measure.Length{})).Mean, 8.99, 1e-12)
}

// What the limits mean, by simulation: of normal lots, one piece in twenty is beyond the point that a normal spread between the
// limits of the first n passes once in twenty, however small n is. Three simple standard deviations of two readings would be
// passed by three in ten.
func TestNextPieceIsWhereTheLimitsSay(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 3))
	const lots = 12_000
	for _, n := range []int{2, 3, 5, 12} {
		beyond := 0
		for range lots {
			readings := make([]measure.Length, n)
			for i := range readings {
				readings[i] = measure.Micrometres(13_600).Add(measure.Picometres(int64(random.NormFloat64() * 20e6)))
			}
			s := must[sample.Size](t)(sample.SizeOfPart(readings, fine, sample.Pool{}, measure.Length{}))
			next := 13.6 + random.NormFloat64()*.02
			if next < s.Mean-1.6448536*s.Dim.Sigma() {
				beyond++
			}
		}
		// the standard error of the share is √(.05 · .95/12,000) = .002
		near(t, "share beyond", float64(beyond)/lots, .05, .008)
	}
}

// With the tolerance that is assumed beside them, few readings say where the next piece is as well as many do, as long as the
// assumption is right; where pieces spread half as much again, and it is wrong by as much as it is judged to be, the tail is at
// most twice as heavy.
func TestNextPieceBesideATolerance(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 6))
	const lots = 4_000
	for spread, most := range map[float64]float64{.02: .06, .03: .12} {
		for _, n := range []int{1, 2, 3, 6, 15} {
			beyond := 0
			for range lots {
				readings := make([]measure.Length, n)
				for i := range readings {
					readings[i] = measure.Micrometres(13_600).Add(measure.Picometres(int64(random.NormFloat64() * spread * 1e9)))
				}
				s := must[sample.Size](t)(sample.SizeOfPart(readings, fine, sample.Pool{}, measure.Micrometres(60)))
				next := 13.6 + random.NormFloat64()*spread
				if next < s.Mean-1.6448536*s.Dim.Sigma() {
					beyond++
				}
			}
			if share := float64(beyond) / lots; share > most && n > 1 {
				t.Errorf("%d pieces of a spread of %g mm: %.3f are beyond, want at most %g", n, spread, share, most)
			}
		}
	}
}

// The same for one piece: its true size is where its limits say, readings and instrument both being off.
func TestPieceIsWhereTheLimitsSay(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 4))
	const pieces = 6_000
	c := sample.Caliper{MaxError: measure.Micrometres(30), MaxErrorShape: measure.Normal} // 10 µm of standard deviation
	for _, n := range []int{2, 3, 6} {
		beyond := 0
		for range pieces {
			offset := random.NormFloat64() * .010
			readings := make([]measure.Length, n)
			for i := range readings {
				readings[i] = must[measure.Length](t)(measure.FromMillimetres(13.6 + offset + random.NormFloat64()*.015))
			}
			s := must[sample.Size](t)(sample.SizeOfPiece(readings, c, measure.Length{}))
			if 13.6 < s.Mean-1.6448536*s.Dim.Sigma() {
				beyond++
			}
		}
		// Welch and Satterthwaite's degrees of freedom are an approximation, good to a hundredth here
		near(t, "share beyond", float64(beyond)/pieces, .05, .012)
	}
}

// Source: USP 29–NF 24, chapter 1010, the worked analysis of precision: five runs of three replicates; within runs 10 degrees of
// freedom, sum of squares 1.018, mean square .102; means 100.97 99.47 100.38 102.13 101.86, deviations .236 .111 .556 .321 .171.
func TestPoolOfUSP(t *testing.T) {
	runs := []struct {
		values   []float64
		mean, sd float64
	}{
		{[]float64{100.70, 101.05, 101.15}, 100.97, .236}, {[]float64{99.46, 99.37, 99.59}, 99.47, .111}, {[]float64{99.96, 100.17, 101.01}, 100.38, .556},
		{[]float64{101.80, 102.16, 102.44}, 102.13, .321}, {[]float64{101.91, 102.00, 101.67}, 101.86, .171},
	}
	var parts []sample.Summary
	for _, run := range runs {
		s := must[sample.Summary](t)(sample.SummariseFloats(run.values))
		near(t, "mean", s.Mean, run.mean, .0051)
		near(t, "sd", s.SD, run.sd, .00051)
		parts = append(parts, s)
	}
	parts = append(parts, sample.Summary{N: 1, Mean: 100}) // tells nothing
	p := must[sample.Pool](t)(sample.PoolOf(parts...))
	near(t, "ν", p.DoF, 10, 0)
	near(t, "sum of squares", p.SD*p.SD*p.DoF, 1.018, .0051)
	near(t, "mean square", p.SD*p.SD, .102, .00051)
	if !p.Enough() {
		t.Error("10 degrees of freedom are enough")
	}
	if p := must[sample.Pool](t)(sample.PoolOf(parts[:4]...)); p.Enough() || p.DoF != 8 {
		t.Errorf("8 are not: %+v", p)
	}
	if p := must[sample.Pool](t)(sample.PoolOf(parts[5])); p != (sample.Pool{}) {
		t.Errorf("one reading makes the pool %+v", p)
	}
}

// A part of few readings takes the spread of the pool, unless its own is beyond what chance makes of it: of two pieces the
// difference is √2 · s apart, and s²/s_p² is beyond the F table's 4.96 for (1; 10) at 5 % once s exceeds 2.23 s_p.
func TestPoolStandsInForFewReadings(t *testing.T) {
	pool := sample.Pool{SD: .02, DoF: 10}
	apart := func(s float64) []measure.Length { return mm(t, 13.6, 13.6+s*math.Sqrt2) }
	for _, tt := range []struct {
		name     string
		readings []measure.Length
		pool     sample.Pool
		want     sample.SpreadFrom
	}{
		{"two alike", apart(.001), pool, sample.PooledReadings},
		{"two within chance", apart(.0445), pool, sample.PooledReadings},
		{"two beyond chance", apart(.0447), pool, sample.ReadingsAndTolerance},
		{"one", mm(t, 13.6), pool, sample.PooledReadings},
		{"one, and a pool too small", mm(t, 13.6), sample.Pool{SD: .02, DoF: 9}, sample.AssumedTolerance},
		{"two, and a pool too small", apart(.02), sample.Pool{SD: .02, DoF: 9}, sample.ReadingsAndTolerance},
		{"many", mm(t, 13.6, 13.61, 13.62, 13.6, 13.61, 13.62, 13.6, 13.61, 13.62, 13.6, 13.61, 13.62), pool, sample.ReadingsAndTolerance},
		{"a pool without spread", apart(.02), sample.Pool{DoF: 12}, sample.ReadingsAndTolerance},
		{"none at all", mm(t, 13.6, 13.6), sample.Pool{DoF: 12}, sample.PooledReadings},
	} {
		s := must[sample.Size](t)(sample.SizeOfPart(tt.readings, fine, tt.pool, measure.Thou(3)))
		if s.Spread != tt.want {
			t.Errorf("%s: spread from %d, want %d", tt.name, s.Spread, tt.want)
		}
		if tt.want == sample.PooledReadings {
			near(t, tt.name, s.U, tt.pool.SD*math.Sqrt(1+1/float64(s.N)), 1e-9)
		}
	}
}

// lotsOf makes lots of n pieces with a spread of exactly s about their mean, which is off the stated size by as much as given.
func lotsOf(n int, s float64, off ...float64) []sample.Lot {
	var lots []sample.Lot
	for i, d := range off {
		stated := 12 + float64(i)/10
		lots = append(lots, sample.Lot{N: n, Mean: stated + d, SD: s, Stated: stated})
	}
	return lots
}

// Ten degrees of freedom within five parts of three, the means exactly as stated: V = s²(1 − 1/3), and the bound is
// √(10/3.940) = 1.593 times as large, with 3.940 the 5 % point of chi-square for 10 in the table (NIST/SEMATECH e-Handbook,
// 1.3.6.7.4).
func TestDeviationsWithinParts(t *testing.T) {
	d := must[sample.Deviations](t)(sample.DeviationsOf(lotsOf(3, .03, 0, 0, 0, 0, 0), fine))
	near(t, "within", d.Within.SD, .03, 1e-12)
	near(t, "ν", d.Within.DoF, 10, 1e-9)
	near(t, "total", d.Total.U, .03*math.Sqrt(2./3), 1e-9)
	near(t, "bound", d.Bound/d.Total.U, 1.593, .0005)
	near(t, "±", must[measure.Length](t)(d.PlusMinus()).Millimetres(), 3*d.Bound, .001)
	if d.Parts != 5 || d.Readings != 15 || d.BiasShows() {
		t.Errorf("got %+v", d)
	}
}

// A bias of all parts alike widens, and is told.
func TestDeviationsOfBiasedParts(t *testing.T) {
	d := must[sample.Deviations](t)(sample.DeviationsOf(lotsOf(3, .01, .10, .11, .09, .10, .10), sample.DefaultCaliper()))
	near(t, "bias", d.Bias, .10, 1e-12)
	// s of the five is .00707, √5 of it .00316; with the instrument's .011902
	near(t, "u of the bias", d.BiasU.U, math.Hypot(.0031623, .0119024), 1e-6)
	if !d.BiasShows() {
		t.Error("a bias of .1 mm on a spread of .01 mm does not show")
	}
	// V = .01² · 2/3 + (.10² + .11² + .09² + 2 · .10²)/5 + .0119024²
	near(t, "total", d.Total.U, math.Sqrt(.0001*2/3+.01004+.00014167), 1e-6)
}

// What the bound means, by simulation: of suppliers with six parts measured on three pieces each, the true spread of a piece
// about its stated size exceeds the bound in about one of twenty.
func TestDeviationsBoundHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 5))
	const suppliers = 8000
	for _, between := range []float64{0, .02} {
		const within = .02
		exceeded := 0
		for range suppliers {
			var lots []sample.Lot
			for range 6 {
				off := random.NormFloat64() * between
				s := must[sample.Summary](t)(sample.SummariseFloats([]float64{
					off + random.NormFloat64()*within, off + random.NormFloat64()*within, off + random.NormFloat64()*within,
				}))
				lots = append(lots, sample.Lot{N: 3, Mean: s.Mean, SD: s.SD})
			}
			if d := must[sample.Deviations](t)(sample.DeviationsOf(lots, fine)); d.Bound < math.Hypot(within, between) {
				exceeded++
			}
		}
		// Satterthwaite's degrees of freedom are estimated along with the variance: near .05, not at it
		near(t, "share of bounds exceeded", float64(exceeded)/suppliers, .05, .025)
	}
}

func TestSizesThatCannotBe(t *testing.T) {
	_, err := sample.SizeOfPiece(nil, fine, measure.Thou(3))
	wantError(t, "no readings", err, sample.ErrTooFew)
	_, err = sample.SizeOfPart(nil, fine, sample.Pool{}, measure.Thou(3))
	wantError(t, "no pieces", err, sample.ErrTooFew)
	_, err = sample.SizeOfPiece(mm(t, 13.6, 13.6), sample.Caliper{}, measure.Thou(3))
	wantError(t, "no instrument", err, sample.ErrNoInstrument)
	_, err = sample.DeviationsOf(lotsOf(9, .01, 0, 0), fine)
	wantError(t, "two parts", err, sample.ErrTooFew)
	_, err = sample.DeviationsOf(lotsOf(2, .01, 0, 0, 0), fine)
	wantError(t, "three degrees of freedom", err, sample.ErrTooFew)
	_, err = sample.DeviationsOf(lotsOf(9, .01, 0, 0, 0), sample.Caliper{})
	wantError(t, "no instrument", err, sample.ErrNoInstrument)
	_, err = sample.DeviationsOf([]sample.Lot{{N: 9}, {N: 9}, {}}, fine)
	wantError(t, "a lot without readings", err, sample.ErrTooFew)
	_, err = sample.DeviationsOf(lotsOf(9, .01, 0, 0, math.NaN()), fine)
	wantError(t, "no number", err, sample.ErrNotFinite)
	_, err = sample.PoolOf(sample.Summary{N: 3, SD: -1})
	wantError(t, "negative spread", err, sample.ErrNegative)
}

// More readings of the same mean and spread never make a size less sure, whatever the readings, beside no tolerance or one that
// they do not exceed.
func TestMoreReadingsAreNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		some := rapid.SliceOfN(rapid.Map(rapid.Int64Range(13_500, 13_700), measure.Micrometres), 2, 8).Draw(t, "readings")
		tolerance := measure.Micrometres(rapid.SampledFrom([]int64{0, 450, 800}).Draw(t, "tolerance"))
		size := func(readings []measure.Length, piece bool) sample.Size {
			var s sample.Size
			var err error
			if piece {
				s, err = sample.SizeOfPiece(readings, sample.DefaultCaliper(), tolerance)
			} else {
				s, err = sample.SizeOfPart(readings, sample.DefaultCaliper(), sample.Pool{}, tolerance)
			}
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		for _, piece := range []bool{false, true} {
			few, more := size(some, piece), size(append(append([]measure.Length{}, some...), some...), piece)
			if few.Dim.Width().Less(more.Dim.Width()) {
				t.Errorf("%v: %v wide, and read twice %v", some, few.Dim.Width(), more.Dim.Width())
			}
			if tolerance.Sign() > 0 {
				if one, two := size(some[:1], piece), size([]measure.Length{some[0], some[0]}, piece); !two.Dim.Width().Less(one.Dim.Width()) {
					t.Errorf("one reading is %v wide, and the same once more %v", one.Dim.Width(), two.Dim.Width())
				}
			}
			if half := few.Dim.Width().Millimetres() / 2; half < 3*.0119023 {
				t.Errorf("%v: limits of ± %g mm are narrower than the instrument's", some, half)
			}
		}
	})
}

func TestFarApart(t *testing.T) {
	for text, want := range map[string]bool{
		"13.58, 13.62, 13.60 mm": false, "13.4, 13.8 mm": false, "13.0, 13.6 mm": true, ".335, .350, .355 in": true, ".350, .355 in": false, "13.6, 136 mm": true,
	} {
		readings, err := measure.ParseReadings(text)
		if err != nil || sample.FarApart(readings) != want {
			t.Errorf("%s: %v, want %v (%v)", text, !want, want, err)
		}
	}
}
