package drawing

import (
	"math"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/joint"
)

// Section is the cross-section of a joint at its nominal sizes, ready to be drawn. All fields are radii or heights in mm.
type Section struct {
	joint joint.Joint
	of    fitcalc.Joint // as the shop takes it
	fit   fitcalc.Fit

	hosel       float64 // outside radius of the hosel
	boreBottom  float64
	boreLike    fitcalc.Tip // by which the bore is wider above its bottom
	depth       float64     // how deep the bore is
	bottomKnown bool
	mouth, cone float64 // the countersink's radius at the top and its depth; 0 where there is none
	sinkTo      float64 // its radius at its bottom
	counter     float64 // the counterbore's radius and depth
	counterDeep float64

	base, top      float64 // the ferrule as supplied
	length, bore   float64
	spigot         float64 // radius and length of its collar or step
	spigotLength   float64
	standOff       float64
	turns          bool
	insertion      float64
	ringDepth      float64
	ringHeight     float64
	hasRing        bool
	boreGiven      bool
	tightestHeight float64
}

// MissingError names what has to be given for a joint to be drawn.
type MissingError struct{ Fields []fitcalc.Field }

func (e *MissingError) Error() string {
	names := make([]string, len(e.Fields))
	for i, f := range e.Fields {
		names[i] = f.String()
	}
	return "cannot be drawn without " + strings.Join(names, ", ")
}

// Of returns the section of a joint that was evaluated. The error is a [*MissingError], or that of [fitcalc.Resolve].
func Of(j joint.Joint, fit fitcalc.Fit, shop fitcalc.Shop) (*Section, error) {
	of, err := fitcalc.Resolve(j.Head, j.Tip, j.Ferrule, shop)
	if err != nil {
		return nil, err
	}
	s := &Section{joint: j, of: of, fit: fit}
	var missing []fitcalc.Field
	for _, need := range []struct {
		field fitcalc.Field
		given bool
	}{
		{of.HoselOD.Field, of.HoselOD.Given()}, {fitcalc.FieldTip, of.TipEnd.Given()},
		{fitcalc.FieldFerruleBore, of.FerruleBore.Given()}, {fitcalc.FieldBaseOD, of.BaseOD.Given()},
		{fitcalc.FieldLength, j.Ferrule.Length.Given()},
	} {
		if !need.given {
			missing = append(missing, need.field)
		}
	}
	if len(missing) > 0 {
		return nil, &MissingError{missing}
	}
	s.hosel = radius(of.HoselOD.Dim)
	s.takeBore()
	s.takeFerrule()
	s.takeRecess()
	return s, nil
}

func mm(l measure.Length) float64 { return l.Millimetres() }

func radius(d measure.Dim) float64 { return mm(d.Middle()) / 2 }

func (s *Section) takeBore() {
	s.bottomKnown = s.of.BoreDepth.Given()
	s.insertion, s.depth = mm(s.of.Insertion), mm(s.of.Insertion)
	s.boreLike = s.of.TipOfBore()
	s.boreGiven = s.of.Bore.Given()
	s.boreBottom = s.shaft(-s.insertion)
	if s.boreGiven {
		s.boreBottom = radius(s.of.Bore.Dim)
	}
}

func (s *Section) takeFerrule() {
	f := &s.joint.Ferrule
	s.base, s.length, s.bore = radius(s.of.BaseOD.Dim), mm(f.Length.Middle()), radius(s.of.FerruleBore.Dim)
	if spigot := f.Below(); spigot.OD.Given() && spigot.Length.Given() {
		s.spigot, s.spigotLength = radius(spigot.OD), mm(spigot.Length.Middle())
	}
	if s.fit.Seat.Known {
		s.standOff = mm(s.fit.Seat.StandOff.Nominal)
	}
	s.top = s.shaft(s.standOff + s.length)
	if f.TopOD.Given() {
		s.top = radius(f.TopOD)
	}
	s.top = min(s.top, s.base)
	s.turns = s.fit.Verdict != fitcalc.Flush && s.base > s.hosel
	if f.RingDepth.Given() {
		s.hasRing, s.ringDepth = true, mm(f.RingDepth.Middle())
		s.ringHeight = s.length / 3 // its height is not given; somewhere has to be
		if f.RingHeight.Given() {
			s.ringHeight = mm(f.RingHeight.Middle())
		}
	}
	s.tightestHeight = s.standOff + s.length/2
	if s.of.Tip.Form() != fitcalc.TipParallel {
		s.tightestHeight = s.standOff + s.length*0.9
	}
}

func (s *Section) takeRecess() {
	if c := s.joint.Head.Counterbore; c.Diameter.Given() && c.Depth.Given() {
		s.counter, s.counterDeep = radius(c.Diameter), mm(c.Depth.Middle())
	}
	bore, err := measure.FromMillimetres(2 * s.boreAt(0))
	if err != nil {
		return // no bore is that wide
	}
	if mouth, bottom, depth, there := s.of.Countersink(bore); there {
		s.mouth, s.sinkTo, s.cone = mm(mouth)/2, mm(bottom)/2, mm(depth)
	}
}

// shaft is the shaft's radius at a height.
func (s *Section) shaft(z float64) float64 { return radiusOf(&s.of.Tip, s.insertion+z) }

// boreAt is the radius of the bore at a height, without what is cut into its mouth.
func (s *Section) boreAt(z float64) float64 {
	return s.boreBottom + radiusOf(&s.boreLike, s.depth+z) - radiusOf(&s.boreLike, 0)
}

// radiusOf is a tip's radius at a position above its end.
func radiusOf(tip *fitcalc.Tip, position float64) float64 {
	at, err := measure.FromMillimetres(position)
	if err != nil {
		return 0 // no joint is that long
	}
	return mm(tip.Diameter(at).Middle()) / 2
}

// inside is the radius of the whole hole at a height, on the upper or the lower side of it.
func (s *Section) inside(z float64, above bool) float64 {
	r := s.boreAt(z)
	if z < -s.depth || z == -s.depth && !above {
		r = 0
	}
	if s.counterDeep > 0 && (z > -s.counterDeep || z == -s.counterDeep && above) {
		r = max(r, s.counter)
	}
	if s.cone > 0 && (z > -s.cone || z == -s.cone && above) {
		r = max(r, s.mouth+(s.mouth-s.sinkTo)/s.cone*z)
	}
	return r
}

// outside is the ferrule's radius at a height within it, turned down or as supplied.
func (s *Section) outside(z float64, turned bool) float64 {
	r := s.base - (s.base-s.top)*(z-s.standOff)/s.length
	if turned && s.turns {
		r = min(r, max(s.hosel, 0))
	}
	return r
}

// meets is the height at which the ferrule as supplied is as narrow as the hosel: so far up turning reaches.
func (s *Section) meets() float64 {
	if s.top >= s.hosel {
		return s.standOff + s.length
	}
	return s.standOff + s.length*(s.base-s.hosel)/(s.base-s.top)
}

// point is a radius at a height.
type point struct{ r, z float64 }

// band is what lies between two outlines, each from below upward.
type band struct{ in, out []point }

// invisible is a length in mm that is none: lengths are whole picometres, and what is worked out from them is rounded.
const invisible = 1e-6

// outline follows a radius from one height to another, with both its values wherever it may bend or jump.
func outline(from, to float64, bends []float64, r func(z float64, above bool) float64) []point {
	bends = slices.DeleteFunc(slices.Clone(bends), func(z float64) bool { return z <= from || z >= to })
	slices.Sort(bends)
	line := []point{{r(from, true), from}}
	for _, z := range slices.Compact(bends) {
		line = append(line, point{r(z, false), z})
		if upper := r(z, true); math.Abs(upper-r(z, false)) > invisible {
			line = append(line, point{upper, z})
		}
	}
	return append(line, point{r(to, false), to})
}

func (s *Section) hoselBand(from, to float64) band {
	bends := append([]float64{-s.depth, -s.counterDeep, -s.cone}, bendsOf(&s.boreLike, s.depth)...)
	if s.cone > 0 && s.counterDeep > 0 && s.mouth != s.sinkTo {
		bends = append(bends, (s.counter-s.mouth)/(s.mouth-s.sinkTo)*s.cone) // where the cone is as wide as the counterbore
	}
	inside := func(z float64, above bool) float64 { return min(s.inside(z, above), s.hosel) }
	return band{
		in:  outline(from, to, bends, inside),
		out: []point{{s.hosel, from}, {s.hosel, to}},
	}
}

// ferruleBand is the ferrule as it is when the joint is done, collar or step included.
func (s *Section) ferruleBand() band {
	low, high := s.standOff-s.spigotLength, s.standOff+s.length
	out := func(z float64, above bool) float64 {
		if z < s.standOff || z == s.standOff && !above {
			return s.spigot
		}
		return s.outside(z, true)
	}
	bends := append([]float64{s.standOff, s.meets()}, bendsOf(&s.of.Tip, s.insertion)...)
	return band{
		in:  outline(low, high, bends, func(z float64, _ bool) float64 { return s.ferruleInside(z) }),
		out: outline(low, high, bends, out),
	}
}

// spigotMiddle is a radius within the gap under a base that stands off.
func (s *Section) spigotMiddle() float64 { return (max(s.spigot, s.shaft(0)) + s.hosel) / 2 }

// ferruleInside is the ferrule's bore, stretched where the shaft is wider.
func (s *Section) ferruleInside(z float64) float64 { return max(s.bore, s.shaft(z)) }

func (s *Section) turnedBand() band {
	return band{
		in:  []point{{s.hosel, s.standOff}, {s.hosel, s.meets()}},
		out: []point{{s.base, s.standOff}, {s.outside(s.meets(), false), s.meets()}},
	}
}

func (s *Section) shaftBand(from, to float64) band {
	from = max(from, -s.insertion)
	return band{
		in:  []point{{0, from}, {0, to}},
		out: outline(from, to, bendsOf(&s.of.Tip, s.insertion), func(z float64, _ bool) float64 { return s.shaft(z) }),
	}
}

// bendsOf are the heights at which a tip that goes in so far bends.
func bendsOf(tip *fitcalc.Tip, insertion float64) []float64 {
	var heights []float64
	for _, at := range tip.Bends() {
		heights = append(heights, mm(at)-insertion)
	}
	return heights
}

// What is where, for pictures in characters.
type material uint8

const (
	nothing material = iota
	ofHosel
	ofFerrule
	ofTurned
	ofShaft
	ofGap // within the hosel's hole, or between ferrule and shaft
)

// at says what is at a radius and height.
func (s *Section) at(r, z float64) material {
	r = math.Abs(r)
	top := s.standOff + s.length
	switch {
	case r < s.shaft(z) && z > -s.insertion:
		return ofShaft
	case z >= s.standOff && z < top && r >= s.ferruleInside(z) && r < s.outside(z, true),
		s.spigotLength > 0 && z < s.standOff && z >= s.standOff-s.spigotLength && r >= s.ferruleInside(z) && r < s.spigot:
		return ofFerrule
	case s.turns && z >= s.standOff && z < top && r >= s.outside(z, true) && r < s.outside(z, false):
		return ofTurned
	case z < 0 && r < s.hosel && r >= s.inside(z, true):
		return ofHosel
	case z < 0 && r < s.hosel:
		return ofGap
	}
	return nothing
}
