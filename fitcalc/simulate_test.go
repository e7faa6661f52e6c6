package fitcalc

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// A second way to the answers: joints are made piece by piece, in floating-point millimetres, and measured. Nothing here
// calls on how Evaluate gets at its numbers.

// size is a toleranced size in mm, as the simulation draws it.
type size struct {
	nominal, lower, upper float64
	shape                 measure.Shape
}

func (s size) dim(t testing.TB) measure.Dim {
	return measure.WithDeviations(mm(t, s.nominal), mm(t, s.lower-s.nominal), mm(t, s.upper-s.nominal)).WithShape(s.shape)
}

// piece makes one piece of a size.
func (s size) piece(rng *rand.Rand) float64 {
	middle, half := (s.lower+s.upper)/2, (s.upper-s.lower)/2
	switch s.shape {
	case measure.Uniform:
		return middle + half*(2*rng.Float64()-1)
	case measure.Triangular:
		return middle + half*(rng.Float64()+rng.Float64()-1)
	}
	return middle + half/3*rng.NormFloat64()
}

// microns is a random size within a range of mm, in whole micrometres so that a Length holds it exactly.
func microns(rng *rand.Rand, least, most float64) float64 {
	return math.Round((least+(most-least)*rng.Float64())*1000) / 1000
}

func drawSize(rng *rand.Rand, nominal, tolerance float64) size {
	lower, upper := microns(rng, 0, tolerance), microns(rng, 0, tolerance)
	if rng.IntN(2) == 0 {
		lower = upper
	}
	return size{nominal, nominal - lower, nominal + upper, measure.Shape(rng.IntN(3))}
}

// simulated is one joint and its pieces.
type simulated struct {
	hosel, base, tip, bore, headBore, depth, length, collarOD, collarLength, mouth size
	rate                                                                           float64 // of the tip, mm per mm
	to                                                                             float64 // the diameter from which on the tip is parallel, mm
	angle                                                                          int64   // of the countersink
}

func drawSimulated(rng *rand.Rand) simulated {
	draw := func(nominal, tolerance float64) size { return drawSize(rng, nominal, tolerance) }
	hosel := microns(rng, 12, 14)
	s := simulated{
		hosel:    draw(hosel, .1),
		base:     draw(hosel+microns(rng, -.15, .5), .06),
		depth:    draw(microns(rng, 25, 40), .8),
		length:   draw(microns(rng, 5, 30), .5),
		collarOD: draw(microns(rng, 9.8, 10.5), .05), collarLength: draw(microns(rng, .5, 2), .1),
		angle: []int64{60, 82, 90}[rng.IntN(3)],
	}
	s.mouth = draw(s.collarOD.nominal+microns(rng, .3, 1), .1)
	end := 9.4
	if rng.IntN(2) == 0 {
		s.rate, end, s.to = .0075, 9.0, microns(rng, 9.25, 9.65)
	}
	s.tip = draw(end, .03)
	top := end + s.growth(s.depth.nominal+s.length.nominal)
	s.bore = draw(math.Round((top-microns(rng, -.02, .25))*1000)/1000, .03)
	s.headBore = draw(end+microns(rng, -.02, .25), .05)
	return s
}

// growth is by how much a tip is larger at a position than at its end: the usual one up to where it is parallel.
func (s simulated) growth(position float64) float64 {
	if s.rate == 0 {
		return 0
	}
	return math.Min(s.rate*position, s.to-(s.tip.lower+s.tip.upper)/2)
}

func (s simulated) joint(t testing.TB) (Head, Tip, Ferrule, Shop) {
	shop := DefaultShop()
	head := Head{
		HoselOD: s.hosel.dim(t), Bore: s.headBore.dim(t), BoreDepth: s.depth.dim(t), Top: TopCountersunk,
		Countersink: Countersink{Mouth: s.mouth.dim(t), Angle: measure.Degrees(s.angle)},
	}
	ferrule := Ferrule{
		Bore: s.bore.dim(t), BaseOD: s.base.dim(t), Length: s.length.dim(t), Style: Collared,
		Collar: Spigot{OD: s.collarOD.dim(t), Length: s.collarLength.dim(t)},
	}
	tip := ParallelTip(s.tip.dim(t))
	if s.rate > 0 {
		tip = TaperTip(s.tip.dim(t), measure.TaperPPB(int64(math.Round(s.rate*1e9)))).UpTo(mm(t, s.to))
	}
	return head, tip, ferrule, shop
}

// tally adds up what the pieces of one joint turn out to be.
type tally struct {
	n                                                          int
	undersize, visibleUndersize, proud, slip, split, standsOff int
	turned, turnedSquared                                      float64
	oversize, interference, clearance, standOff, strain        span
}

type span struct {
	least, most float64
	some        bool
}

func (s *span) take(x float64) {
	if !s.some {
		*s = span{x, x, true}
	}
	s.least, s.most = math.Min(s.least, x), math.Max(s.most, x)
}

// run makes n joints. step, gap and strain are the shop's.
func (s simulated) run(rng *rand.Rand, n int, step, gap, strainLimit float64) tally {
	sum := tally{n: n}
	slope := 2 * math.Tan(float64(s.angle)*math.Pi/360)
	for range n {
		oversize := s.base.piece(rng) - s.hosel.piece(rng)
		sum.oversize.take(oversize)
		sum.undersize += one(oversize < 0)
		sum.visibleUndersize += one(oversize < -step)
		if oversize > step { // what shows is turned, all of it
			sum.proud++
			sum.turned += oversize
			sum.turnedSquared += oversize * oversize
		}

		tip, bore := s.tip.piece(rng), s.bore.piece(rng)
		top := s.depth.piece(rng) + s.length.piece(rng) // the ferrule's base sits where the bore ends
		interference := tip + s.growth(top) - bore
		sum.interference.take(interference)
		sum.slip += one(interference <= 0)
		sum.strain.take(math.Max(0, interference/bore))
		sum.split += one(interference/bore > strainLimit)

		sum.clearance.take(s.headBore.piece(rng) - tip) // bore and tip are of one taper

		collarOD, collarLength, mouth := s.collarOD.piece(rng), s.collarLength.piece(rng), s.mouth.piece(rng)
		goesIn := math.Max(0, (mouth-collarOD)/slope)
		sum.standOff.take(math.Max(0, collarLength-goesIn))
		sum.standsOff += one(collarLength-goesIn > gap)
	}
	return sum
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

// agree fails where a share of n differs from a probability by more than five standard errors and a bit.
func agree(t *testing.T, what string, count, n int, p float64) {
	t.Helper()
	share := float64(count) / float64(n)
	if within := 5*math.Sqrt(p*(1-p)/float64(n)) + 3/float64(n); math.Abs(share-p) > within {
		t.Errorf("%s: %v of the pieces, computed %v ± %.2g", what, share, p, within)
	}
}

func TestEvaluateAgreesWithSimulation(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 26))
	const joints, pieces = 300, 4000
	open := map[string]int{} // probabilities that are neither nearly nothing nor nearly one
	for i := range joints {
		s := drawSimulated(rng)
		head, tip, ferrule, shop := s.joint(t)
		shop.SameSize = measure.Length{} // each size is what it is drawn as
		fit, err := Evaluate(head, tip, ferrule, shop)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			sum := s.run(rng, pieces, shop.FlushStep.Millimetres(), shop.SeatGap.Millimetres(), shop.StrainLimit)
			for _, c := range []struct {
				what  string
				count int
				p     float64
			}{
				{"undersize", sum.undersize, fit.Flush.Undersize},
				{"visible undersize", sum.visibleUndersize, fit.Flush.VisibleUndersize},
				{"visible oversize", sum.proud, fit.Flush.VisibleOversize},
				{"slip", sum.slip, fit.Grip.Slip},
				{"split", sum.split, fit.Grip.Split},
				{"stands off", sum.standsOff, fit.Seat.Proud},
			} {
				agree(t, c.what, c.count, pieces, c.p)
				open[c.what] += one(c.p > .01 && c.p < .99)
			}
			mean := sum.turned / pieces
			deviation := math.Sqrt((sum.turnedSquared/pieces - mean*mean) / pieces)
			near(t, "mean turn-down", fit.Flush.MeanTurnDownMM, mean, 5*deviation+5e-5)
			if t.Failed() {
				t.Logf("%+v", s)
			}
		})
	}
	for _, what := range []string{"undersize", "visible undersize", "visible oversize", "slip", "split", "stands off"} {
		if open[what] < joints/30 {
			t.Errorf("only %d joints leave %s open; the simulation shows little", open[what], what)
		}
	}
}

// TestWorstCaseBoundsSimulation: no piece of sizes that keep to their limits lies outside least and most, and the pieces
// come near to both.
func TestWorstCaseBoundsSimulation(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 7))
	inside := func(what string, a Amount, s span, floor bool) {
		t.Helper()
		least, most := a.Least.Millimetres(), a.Most.Millimetres()
		if s.least < least-1e-9 || s.most > most+1e-9 {
			t.Errorf("%s from %v to %v, computed %v to %v", what, s.least, s.most, least, most)
		}
		if width := most - least; !floor && (s.least-least > .4*width || most-s.most > .4*width) {
			t.Errorf("%s from %v to %v is nowhere near %v to %v", what, s.least, s.most, least, most)
		}
	}
	clearances := 0
	for range 200 {
		s := drawSimulated(rng)
		for _, d := range []*size{&s.hosel, &s.base, &s.tip, &s.bore, &s.headBore, &s.depth, &s.length, &s.collarOD, &s.collarLength, &s.mouth} {
			d.shape = measure.Uniform
		}
		head, tip, ferrule, shop := s.joint(t)
		fit, err := Evaluate(head, tip, ferrule, shop)
		if err != nil {
			t.Fatal(err)
		}
		sum := s.run(rng, 2000, shop.FlushStep.Millimetres(), shop.SeatGap.Millimetres(), shop.StrainLimit)
		inside("oversize", fit.Flush.Oversize, sum.oversize, false)
		inside("interference", fit.Grip.Interference, sum.interference, false)
		if fit.Bore.Known { // else it is quoted like its tip
			inside("clearance", fit.Bore.Clearance, sum.clearance, false)
			clearances++
		}
		inside("stand-off", fit.Seat.StandOff, sum.standOff, true)
		if sum.strain.most > fit.Grip.MostStrain+1e-12 {
			t.Errorf("a strain of %v, computed at most %v", sum.strain.most, fit.Grip.MostStrain)
		}
	}
	if clearances < 100 {
		t.Errorf("only %d clearances were compared", clearances)
	}
}
