package fitcalc

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// recessed is a top with a countersink, a counterbore or both, and a collar that may land on the cone, on the cone's bottom, in
// the counterbore or on the top itself. A size with no nominal is not given.
type recessed struct {
	mouth, bottom, width, depth, od, length size
	angle                                   int64
	bore                                    float64 // exact
}

func (s size) given() bool { return s.nominal > 0 }

// drawRecessed puts the stops near each other, so that either may be the one.
func drawRecessed(rng *rand.Rand) recessed {
	r := recessed{angle: []int64{60, 82, 90}[rng.IntN(3)], bore: 9.5, length: drawSize(rng, microns(rng, .5, 1.5), .1), od: drawSize(rng, microns(rng, 9.9, 10.6), .06)}
	slope := r.slope()
	near := func(spread float64) float64 { return math.Max(.05, r.length.nominal+microns(rng, -spread, spread)) }
	if kind := rng.IntN(6); kind != 0 { // a countersink
		goesIn := near(.25)
		r.mouth = drawSize(rng, math.Round((r.od.nominal+slope*goesIn)*1000)/1000, .15)
		if kind > 1 { // of a depth
			r.bottom = drawSize(rng, near(.2), .3)
		}
		if kind == 5 { // of a depth alone, down to the bore
			r.mouth = size{}
			r.bottom.nominal = 0
			r.bottom = drawSize(rng, math.Round(((r.od.nominal-r.bore)/slope+goesIn)*1000)/1000, .15)
		}
		if kind == 4 { // the collar hardly enters the mouth
			r.mouth = drawSize(rng, r.od.nominal+microns(rng, -.1, .1), .1)
		}
	}
	if rng.IntN(2) == 0 { // a counterbore, sometimes hardly wide enough
		r.width = drawSize(rng, r.od.nominal+microns(rng, -.05, .1), .1)
		r.depth = drawSize(rng, near(.2), .2)
	}
	return r
}

func (r *recessed) slope() float64 { return 2 * math.Tan(float64(r.angle)*math.Pi/360) }

func (r *recessed) joint(t *testing.T) *parts {
	p := soundParts(t)
	p.head.HoselOD, p.head.Bore, p.head.Top = p.dim("16 ±0.05 mm"), measure.Exactly(mm(t, r.bore)), TopUnknown
	p.head.Countersink.Angle = measure.Degrees(r.angle)
	for _, s := range []struct {
		from size
		to   *measure.Dim
	}{
		{r.mouth, &p.head.Countersink.Mouth}, {r.bottom, &p.head.Countersink.Depth},
		{r.width, &p.head.Counterbore.Diameter}, {r.depth, &p.head.Counterbore.Depth},
	} {
		if s.from.given() {
			*s.to = s.from.dim(t)
		}
	}
	if !r.mouth.given() && !r.bottom.given() && !r.width.given() {
		p.head.Top = TopFlat
	}
	p.ferrule.Style, p.ferrule.Collar = Collared, Spigot{OD: r.od.dim(t), Length: r.length.dim(t)}
	return p
}

// standOff makes one collar and one top, and lets the collar down.
func (r *recessed) standOff(rng *rand.Rand) float64 {
	od, goesIn := r.od.piece(rng), 0.0
	switch {
	case r.mouth.given():
		cone := (r.mouth.piece(rng) - od) / r.slope()
		if r.bottom.given() {
			cone = math.Min(cone, r.bottom.piece(rng))
		}
		goesIn = math.Max(goesIn, cone)
	case r.bottom.given(): // the cone is as wide as the bore at its bottom
		goesIn = math.Max(goesIn, r.bottom.piece(rng)-(od-r.bore)/r.slope())
	}
	if r.width.given() && od <= r.width.piece(rng) {
		goesIn = math.Max(goesIn, r.depth.piece(rng))
	}
	return r.length.piece(rng) - goesIn
}

// TestCollarLandsOnWhicheverStopsIt: the probability of standing off, against pieces made one by one and with a fixed seed.
func TestCollarLandsOnWhicheverStopsIt(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 5))
	const tops, pieces = 600, 20_000
	open := 0
	for i := range tops {
		r := drawRecessed(rng)
		p := r.joint(t)
		fit := p.evaluate()
		if !fit.Seat.Known {
			t.Fatalf("%d: the seat is not known: %+v", i, r)
		}
		gap, count := p.shop.SeatGap.Millimetres(), 0
		var seen span
		for range pieces {
			h := r.standOff(rng)
			seen.take(math.Max(0, h))
			count += one(h > gap)
		}
		agree(t, fmt.Sprintf("%d: stands off", i), count, pieces, fit.Seat.Proud)
		if t.Failed() {
			t.Fatalf("%+v", r)
		}
		open += one(fit.Seat.Proud > .01 && fit.Seat.Proud < .99)
	}
	if open < tops/3 {
		t.Errorf("only %d of %d tops leave it open whether the collar stands off", open, tops)
	}
}

// TestStandOffBoundsTheCollar: no piece that keeps to its limits stands lower than Least or higher than Most, and the usual one lies
// between.
func TestStandOffBoundsTheCollar(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 9))
	for i := range 600 {
		r := drawRecessed(rng)
		for _, s := range []*size{&r.mouth, &r.bottom, &r.width, &r.depth, &r.od, &r.length} {
			s.shape = measure.Uniform
		}
		s := r.joint(t).evaluate().Seat.StandOff
		if s.Nominal.Less(s.Least) || s.Most.Less(s.Nominal) || s.Least.Sign() < 0 {
			t.Fatalf("%d: %v to %v, usually %v", i, s.Least, s.Most, s.Nominal)
		}
		for range 500 {
			if h := math.Max(0, r.standOff(rng)); h < s.Least.Millimetres()-1e-9 || h > s.Most.Millimetres()+1e-9 {
				t.Fatalf("%d: stands off by %v, computed %v to %v\n%+v", i, h, s.Least, s.Most, r)
			}
		}
	}
}

// A cone that takes the collar .797 mm deep, and a bottom at .80 mm that varies by .1 mm (one deviation) where the collar is
// .80 mm long: it stands off by more than .127 mm where the bottom is .673 mm deep or less, 1.27 deviations below, in one of ten.
func TestCollarOnABottomThatVaries(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.head.Bore = p.dim("13.6 ±0.05 mm"), p.dim("9.5 mm")
	p.head.Countersink = Countersink{Mouth: p.dim("11.0 ±.02 mm"), Angle: measure.Degrees(60), Depth: p.dim(".80 ±.30 mm")}
	p.head.Top = TopCountersunk
	p.collar("10.08 ±.02 mm", ".80 ±.02 mm")
	p.shop.SeatGap = measure.Thou(5)
	s := p.evaluate().Seat
	near(t, "stands off", s.Proud, .5*math.Erfc((.127/math.Hypot(.1, .02/3))/math.Sqrt2), 1e-6)
	nearLength(t, "most", s.StandOff.Most, .82-.50)
	nearLength(t, "usually", s.StandOff.Nominal, .80-(11.0-10.08)/(2*math.Tan(math.Pi/6)))
}

// A collar of 9.55 ±.03 mm over a bore of 9.50 ±.04 mm is wider than that in Φ(.05/√(.01² + .04²/9)) = Φ(3.00) = .9987 of joints; 9.50 mm
// in one half; 9.45 mm in .0013 (table of the normal distribution). Where it is wider it stands off for certain: it is .30 mm longer
// than the cone is deep. At the bore itself a micrometre moves the verdict by one grade at most.
func TestCollarAsWideAsTheBore(t *testing.T) {
	at := func(od string) Fit {
		p := soundParts(t)
		p.head.HoselOD, p.head.Bore = p.dim("13.6 ±0.05 mm"), p.dim("9.50 ±.04 mm")
		p.head.Countersink = Countersink{Mouth: p.dim("11.0 ±.02 mm"), Angle: measure.Degrees(60), Depth: p.dim(".50 ±.02 mm")}
		p.head.Top = TopCountersunk
		p.collar(od, ".80 ±.02 mm")
		p.shop.LeastHoselWall = measure.Micrometres(2000) // no wall to cut the countersink deeper
		return p.evaluate()
	}
	sigma := math.Hypot(.01, .04/3)
	for _, c := range []struct {
		od     string
		over   float64 // mm over the bore
		usual  float64
		blocks bool
	}{
		{"9.55 ±.03 mm", .05, .30, true}, {"9.501 ±.03 mm", .001, .30, true}, {"9.50 ±.03 mm", 0, 0, false}, {"9.45 ±.03 mm", -.05, 0, false},
	} {
		got := at(c.od)
		near(t, c.od+" stands off", got.Seat.Proud, .5*math.Erfc(-c.over/sigma/math.Sqrt2), 1e-9)
		nearLength(t, c.od+" usually", got.Seat.StandOff.Nominal, c.usual)
		blocks := slices.ContainsFunc(slices.Collect(got.Reasons()), func(r Reason) bool { return r.Code == SeatCollarHigh && r.Level == Blocks })
		if blocks != c.blocks {
			t.Errorf("%s: blocks %v, want %v", c.od, blocks, c.blocks)
		}
	}
	if above, below := at("9.501 ±.03 mm").Verdict, at("9.50 ±.03 mm").Verdict; jumps(above, below) {
		t.Errorf("a micrometre over the bore %v, with it %v", above, below)
	}
}

// The probability moves evenly while one stop gives way to another: no micrometre of any size moves it by more than the densities
// there allow.
func TestNoMicrometreMovesTheCollar(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 3))
	for i := range 200 {
		r := drawRecessed(rng)
		for _, s := range []*size{&r.mouth, &r.bottom, &r.width, &r.depth, &r.od, &r.length} {
			if s.given() { // at least ± .05 mm, or a step is what is asked for
				s.lower, s.upper = math.Min(s.lower, s.nominal-.05), math.Max(s.upper, s.nominal+.05)
			}
		}
		before := r.joint(t).evaluate().Seat.Proud
		for name, s := range map[string]*size{"mouth": &r.mouth, "bottom": &r.bottom, "width": &r.width, "depth": &r.depth, "od": &r.od, "length": &r.length} {
			if !s.given() {
				continue
			}
			was := *s
			s.nominal, s.lower, s.upper = s.nominal+.001, s.lower+.001, s.upper+.001
			after := r.joint(t).evaluate().Seat.Proud
			// a normal of deviation .0167 mm has a density of 24 per mm; od counts for the cone and for the counterbore
			if math.Abs(after-before) > .001*24*2 {
				t.Fatalf("%d: a micrometre of %s moves %g to %g\n%+v", i, name, before, after, r)
			}
			*s = was
		}
	}
}

func TestLandingAllocatesNothing(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.head.Bore = p.dim("13.6 ±0.05 mm"), p.dim("9.5 mm")
	p.head.Countersink = Countersink{Mouth: p.dim("11.0 ±.02 mm"), Angle: measure.Degrees(60), Depth: p.dim(".80 ±.30 mm")}
	p.head.Counterbore = Counterbore{Diameter: p.dim("10.08 ±.02 mm"), Depth: p.dim(".80 ±.1 mm")}
	p.collar("10.08 ±.02 mm", ".80 ±.02 mm")
	if n := testing.AllocsPerRun(20, func() { p.evaluate() }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
