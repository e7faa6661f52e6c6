package press

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/seatline/fitcalc/measure"
)

// Ferrule is the ring whose grip along its length is wanted. Its profiles run upward from its base, at 0.
type Ferrule struct {
	// Length is the length along the axis, above zero.
	Length measure.Length
	// Bore and Outside are diameters by height above the base.
	Bore, Outside Profile
	// Elastic holds the constants of its material.
	Elastic Elastic
}

// Tip is the shaft the ferrule goes on. Its profiles run upward from the tip end, at 0; below that there is no shaft.
type Tip struct {
	// Outside and Inside are diameters by position above the tip end. The zero Inside is a solid bar.
	Outside, Inside Profile
	// Elastic holds the constants of its material: across the fibres for a composite tube.
	Elastic Elastic
}

// Assembly is a ferrule on a tip, with the friction between them. It is immutable; the zero Assembly is invalid.
type Assembly struct {
	ferrule  Ferrule
	tip      Tip
	pair     Pair
	friction float64
}

// NewAssembly reports an [*InputError] that names the field which cannot be computed with. Friction is the coefficient
// µ, zero or more: a published value if there is one, see [Material.FrictionOnSteel]. Diameters are compared where
// ferrule and tip overlap, by the methods.
func NewAssembly(f Ferrule, t Tip, friction float64) (Assembly, error) {
	if f.Length.Sign() <= 0 {
		return Assembly{}, lengthError("Ferrule.Length", f.Length, "a length above 0")
	}
	if !(friction >= 0) || math.IsInf(friction, 1) {
		return Assembly{}, numberError("friction", friction, "", "a finite coefficient of 0 or more")
	}
	pair, err := NewPair(f.Elastic, t.Elastic)
	if err != nil {
		return Assembly{}, err
	}
	return Assembly{ferrule: f, tip: t, pair: pair, friction: friction}, nil
}

// Place is one place along the grip.
type Place struct {
	// OnTip is the position above the tip end, OnFerrule the height above the ferrule's base.
	OnTip, OnFerrule measure.Length
	// Interference is on the diameter, to the nearest picometre.
	Interference measure.Length
	// PressureMPa is the contact pressure, BoreHoopMPa the hoop stress and BoreStrain the hoop strain (a fraction) of
	// the ferrule at its bore.
	PressureMPa, BoreHoopMPa, BoreStrain float64
}

// Grip is what holds a ferrule at one place on its tip.
type Grip struct {
	// Base is the position of the ferrule's base above the tip end; negative while it is not fully on.
	Base measure.Length
	// NormalN is the force between the surfaces, ∫ p π d dx, in N.
	NormalN float64
	// FrictionN is µ times NormalN: for a parallel fit, µ p π d L, the force it resists either way.
	FrictionN float64
	// PushOnN is the axial force that moves the ferrule further up: FrictionN, and the climb of the taper.
	PushOnN float64
	// PushOffN is the axial force that moves it back towards the tip end: FrictionN less the slope of the taper.
	// Negative means that it does not stay by itself.
	PushOffN float64
	// TorqueNmm is the torque about the axis that friction resists, in N·mm.
	TorqueNmm float64
	// Length is the length over which there is interference, to the nearest picometre.
	Length measure.Length
	// Tightest is the place of the largest interference, the lowest one if there are several; zero where nothing grips.
	Tightest Place
}

// nodes of the Gauss-Legendre rule on each straight piece. The integrands are ratios of low polynomials without a pole
// in the wall, so that the error of twelve nodes is far below that of the theory.
const nodes = 12

var gaussX, gaussW = legendre()

func legendre() (x, weight [nodes]float64) {
	quad.Legendre{}.FixedLocations(x[:], weight[:], -1, 1)
	return x, weight
}

// At returns the grip with the ferrule's base at a position above the tip end.
//
// The ferrule is cut into slices, each an independent ring in plane stress on a shaft of the same section: shear
// between slices is neglected, so that the result is exact for a constant section, good where interference and wall
// change slowly against the wall's thickness, and poor within about a wall's thickness of an end or a step, where the
// pressure of a real ring peaks. On each straight piece the slices are summed by a 12-point Gauss-Legendre rule. The
// slope of a taper enters through its half angle α as µ ± tan α; the face of a step in the tip is not counted.
//
// It reports an [*InputError] naming the place where, within the overlap, the wall of ferrule or tip vanishes.
func (a Assembly) At(base measure.Length) (Grip, error) {
	g := Grip{Base: base}
	low, high := measure.Max(base, measure.Length{}), base.Add(a.ferrule.Length)
	if !low.Less(high) {
		return g, nil
	}
	climb, gripped := 0.0, 0.0
	cuts := a.cuts(base, low, high)
	for i := range len(cuts) - 1 {
		p := a.piece(base, cuts[i], cuts[i+1])
		if err := p.check(); err != nil {
			return Grip{}, err
		}
		a.tighten(&g.Tightest, p)
		begin, end := p.contact()
		normal, moment := a.sum(p, begin, end)
		g.NormalN += normal
		g.TorqueNmm += a.friction * moment
		climb += normal * p.slope()
		gripped += (end - begin) * p.span()
	}
	g.FrictionN = a.friction * g.NormalN
	g.PushOnN, g.PushOffN = g.FrictionN+climb, g.FrictionN-climb
	g.Length = nearestLength(gripped)
	return g, nil
}

// cuts returns where a straight piece of any profile begins or ends, from low to high, on the tip's axis.
func (a Assembly) cuts(base, low, high measure.Length) []measure.Length {
	cuts := []measure.Length{low, high}
	within := func(p Profile, shift measure.Length) {
		for _, q := range p.points {
			if at := q.At.Add(shift); low.Less(at) && at.Less(high) {
				cuts = append(cuts, at)
			}
		}
	}
	within(a.tip.Outside, measure.Length{})
	within(a.tip.Inside, measure.Length{})
	within(a.ferrule.Bore, base)
	within(a.ferrule.Outside, base)
	slices.SortFunc(cuts, measure.Length.Compare)
	return slices.Compact(cuts)
}

// ends are a diameter in mm at both ends of a piece, straight between.
type ends struct{ from, to float64 }

func (e ends) at(share float64) float64 { return e.from + share*(e.to-e.from) }

// piece is a stretch of the overlap over which all diameters are straight. Places on it are shares from 0 to 1.
type piece struct {
	base, low, high              measure.Length
	outside, bore, shaft, inside ends
}

func (a Assembly) piece(base, low, high measure.Length) piece {
	both := func(p Profile, shift measure.Length) ends {
		return ends{p.at(low.Sub(shift), after), p.at(high.Sub(shift), before)}
	}
	return piece{
		base: base, low: low, high: high,
		outside: both(a.ferrule.Outside, base),
		bore:    both(a.ferrule.Bore, base),
		shaft:   both(a.tip.Outside, measure.Length{}),
		inside:  both(a.tip.Inside, measure.Length{}),
	}
}

func (p piece) span() float64 { return p.high.Sub(p.low).Millimetres() }

// slope is tan α of the tip: half the growth of its diameter over the length.
func (p piece) slope() float64 { return (p.shaft.to - p.shaft.from) / (2 * p.span()) }

func (p piece) interference() ends {
	return ends{p.shaft.from - p.bore.from, p.shaft.to - p.bore.to}
}

// check looks at the two ends only: all diameters are straight between, and so are their differences.
func (p piece) check() error {
	for _, end := range []struct {
		at                           measure.Length
		outside, bore, shaft, inside float64
	}{
		{p.low, p.outside.from, p.bore.from, p.shaft.from, p.inside.from},
		{p.high, p.outside.to, p.bore.to, p.shaft.to, p.inside.to},
	} {
		onFerrule := " at " + number(end.at.Sub(p.base).Millimetres()) + " mm above the base"
		onTip := " at " + number(end.at.Millimetres()) + " mm above the tip end"
		switch {
		case !(end.bore > 0):
			return numberError("Ferrule.Bore"+onFerrule, end.bore, "mm", "a diameter above 0")
		case !(end.outside > max(end.bore, end.shaft)):
			return numberError("Ferrule.Outside"+onFerrule, end.outside, "mm",
				"a diameter above the bore's "+number(end.bore)+" mm and the tip's "+number(end.shaft)+" mm there")
		case !(end.shaft > end.inside):
			return numberError("Tip.Outside"+onTip, end.shaft, "mm",
				"a diameter above the tip's inside, "+number(end.inside)+" mm there")
		}
	}
	return nil
}

// contact returns the shares between which there is interference; equal shares are none.
func (p piece) contact() (begin, end float64) {
	i := p.interference()
	if i.from <= 0 && i.to <= 0 {
		return 0, 0
	}
	root := i.from / (i.from - i.to)
	switch {
	case i.from < 0:
		return root, 1
	case i.to < 0:
		return 0, root
	}
	return 0, 1
}

// sum integrates p π d and p π d²/2 over the touching part of a piece.
func (a Assembly) sum(p piece, begin, end float64) (normalN, momentNmm float64) {
	interference, half := p.interference(), (end-begin)/2
	for i, x := range gaussX {
		share := begin + half*(1+x)
		d := p.shaft.at(share)
		pressure := a.pair.PressureMPa(p.outside.at(share), d, p.inside.at(share), interference.at(share))
		slice := gaussW[i] * half * p.span() * pressure * math.Pi * d
		normalN += slice
		momentNmm += slice * d / 2
	}
	return normalN, momentNmm
}

// tighten replaces the tightest place when an end of the piece is tighter: interference is straight, so no place
// between is.
func (a Assembly) tighten(t *Place, p piece) {
	i := p.interference()
	for _, end := range []struct {
		at                                  measure.Length
		interference, outside, shaft, inner float64
	}{
		{p.low, i.from, p.outside.from, p.shaft.from, p.inside.from},
		{p.high, i.to, p.outside.to, p.shaft.to, p.inside.to},
	} {
		tight := nearestLength(end.interference)
		if !t.Interference.Less(tight) {
			continue
		}
		pressure := a.pair.PressureMPa(end.outside, end.shaft, end.inner, end.interference)
		*t = Place{
			OnTip: end.at, OnFerrule: end.at.Sub(p.base), Interference: tight, PressureMPa: pressure,
			BoreHoopMPa: pressure * wallRatio(end.outside, end.shaft),
			BoreStrain:  pressure * a.pair.ringCompliance(end.outside, end.shaft),
		}
	}
}
