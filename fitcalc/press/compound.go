package press

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
)

// Layer is one ring of a [Compound].
type Layer struct {
	// Outside is the outside diameter of the layer; its inside is the outside of the layer before it.
	Outside measure.Length
	// Elastic holds the layer's constants; it may not be [Rigid].
	Elastic Elastic
	// DensityKgM3 is the density in kg/m³; it matters only when the compound turns, and may be zero otherwise.
	DensityKgM3 float64
	// Interference is the interference on the diameter with the layer inside this one. Negative is a clearance that
	// has to close before the layers touch. It must be zero for the first layer, which has nothing inside it.
	//
	// Books that work in radii give the radial interference: this is twice that.
	Interference measure.Length
}

// Compound is a set of rings, one inside the other, from the middle outward: a bar or tube, and what is pressed on it.
type Compound struct {
	// Bore is the inside diameter of the first layer; zero is a solid bar.
	Bore measure.Length
	// Layers run from the inside outward.
	Layers []Layer
}

// Load is what acts on a [Compound] from outside. The zero Load is none.
type Load struct {
	// BorePressureMPa acts in the bore, OutsidePressureMPa on the outside of the last layer; both are zero or more.
	BorePressureMPa, OutsidePressureMPa float64
	// RadPerSecond is the speed at which the compound turns about its axis.
	RadPerSecond float64
}

// CompoundSolution is a loaded compound. It is immutable.
type CompoundSolution struct {
	walls     []wall
	pressures []float64 // at the surfaces from the bore to the outside
	openings  []float64 // per side, in mm, at the interfaces
}

// Solve returns the pressures at all interfaces at once. With compatibility written at each interface for the radial
// displacement u of the walls on either side,
//
//	u(bore of the outer wall) − u(outside of the inner wall) = δ/2
//
// the pressures are the solution of a tridiagonal system. Layers can push but not pull: an interface whose pressure
// would be negative stands open, at pressure zero, and the others are solved with it open. The wall of a turning layer
// is a disc of constant thickness in plane stress (Timoshenko and Goodier, Theory of Elasticity, section 32, "Rotating
// disks"). All walls have their own constants, so this is the general form of [Joint].
//
// It reports an [*InputError] that names the layer and field which cannot be computed with.
func (c Compound) Solve(load Load) (CompoundSolution, error) {
	if err := c.check(load); err != nil {
		return CompoundSolution{}, err
	}
	walls := c.walls(load)
	s := CompoundSolution{walls: walls, pressures: make([]float64, len(walls)+1), openings: make([]float64, len(walls)-1)}
	s.pressures[0], s.pressures[len(walls)] = load.BorePressureMPa, load.OutsidePressureMPa
	c.close(s)
	return s, nil
}

// close finds which interfaces touch, and their pressures. The matrix has no positive entry off its diagonal (pressure
// at one interface can only part another's neighbours less), so that an interface which must touch for some set of
// closed neighbours must touch for every larger set: starting from all open, interfaces are only ever added
// (Chandrasekaran, "A special case of the complementary pivot problem", Opsearch 7, 1970, 263-268).
func (c Compound) close(s CompoundSolution) {
	touching := make([]bool, len(s.openings))
	for grew := true; grew; {
		grew = false
		solveTouching(s, touching, c.Layers)
		for i := range s.openings {
			s.openings[i] = -s.overlap(i, c.Layers)
			if touching[i] {
				s.openings[i] = 0
			} else if s.openings[i] < 0 {
				touching[i], grew = true, true
			}
		}
	}
}

// overlap returns by how much, per side in mm, the outside of wall i passes the bore of wall i+1 at the pressures of s.
func (s CompoundSolution) overlap(i int, layers []Layer) float64 {
	inner, outer := s.walls[i], s.walls[i+1]
	return layers[i+1].Interference.Millimetres()/2 +
		inner.displacement(inner.outer, s.pressures[i], s.pressures[i+1]) -
		outer.displacement(outer.inner, s.pressures[i+1], s.pressures[i+2])
}

// solveTouching sets the pressures of the touching interfaces so that their overlap vanishes: the Thomas algorithm,
// run over the interfaces in order. An open interface is a known pressure of zero.
func solveTouching(s CompoundSolution, touching []bool, layers []Layer) {
	n := len(touching)
	for i := range n {
		s.pressures[i+1] = 0
	}
	upper, right := make([]float64, n), make([]float64, n)
	for i := range n {
		if !touching[i] {
			continue // upper and right stay 0: p = 0
		}
		// With both pressures of each wall's own surfaces at unit values, the displacements are the entries of the row.
		inner, outer := s.walls[i], s.walls[i+1]
		below := inner.unit(inner.outer, 1, 0)
		here := inner.unit(inner.outer, 0, 1) - outer.unit(outer.inner, 1, 0)
		above := -outer.unit(outer.inner, 0, 1)
		// Loads that do not depend on unknown pressures: interference, rotation, and the pressures at the two ends,
		// which stand in s.pressures while all interface pressures are zero.
		known := -s.overlap(i, layers)
		if i > 0 {
			here -= below * upper[i-1]
			known -= below * right[i-1]
		}
		upper[i], right[i] = above/here, known/here
	}
	for i := n - 1; i >= 0; i-- {
		next := 0.0
		if i+1 < n {
			next = s.pressures[i+2]
		}
		// Touching surfaces push; the bound only takes off what rounding leaves at an interface that just touches.
		s.pressures[i+1] = max(0, right[i]-upper[i]*next)
	}
}

// InterfacePressuresMPa returns the pressure at each interface from the inside outward; 0 where it stands open.
func (s CompoundSolution) InterfacePressuresMPa() []float64 {
	return append([]float64(nil), s.pressures[1:len(s.pressures)-1]...)
}

// Openings returns the gap that is left at each interface from the inside outward, on the diameter; 0 where it touches.
func (s CompoundSolution) Openings() []measure.Length {
	gaps := make([]measure.Length, len(s.openings))
	for i, perSide := range s.openings {
		gaps[i] = nearestLength(2 * perSide)
	}
	return gaps
}

// Stress returns the stress in a layer, counted from 0 at the middle, at a diameter within its wall. It reports an
// [*InputError] for a layer that does not exist or a diameter outside its wall.
func (s CompoundSolution) Stress(layer int, diameter measure.Length) (Stress, error) {
	w, r, err := s.place(layer, diameter)
	if err != nil {
		return Stress{}, err
	}
	return w.stress(r, s.pressures[layer], s.pressures[layer+1]), nil
}

// Growth returns the change of a diameter within the wall of a layer; outward is positive. Errors are those of
// [CompoundSolution.Stress].
func (s CompoundSolution) Growth(layer int, diameter measure.Length) (measure.Length, error) {
	w, r, err := s.place(layer, diameter)
	if err != nil {
		return measure.Length{}, err
	}
	mm := 2 * w.displacement(r, s.pressures[layer], s.pressures[layer+1])
	grown, err := measure.FromMillimetres(mm)
	if err != nil {
		return measure.Length{}, fmt.Errorf("press: growth of layer %d under its load: %w", layer, err)
	}
	return grown, nil
}

func (s CompoundSolution) place(layer int, diameter measure.Length) (wall, float64, error) {
	if layer < 0 || layer >= len(s.walls) {
		return wall{}, 0, &InputError{Field: "layer", Value: fmt.Sprint(layer),
			Want: fmt.Sprintf("a layer from 0 to %d", len(s.walls)-1)}
	}
	w, r := s.walls[layer], diameter.Millimetres()/2
	if r < w.inner || r > w.outer {
		return wall{}, 0, lengthError("diameter", diameter, fmt.Sprintf("a diameter within layer %d", layer))
	}
	return w, r, nil
}

// check refuses what the equations cannot take. Its messages count layers as the slice does, from 0.
func (c Compound) check(load Load) error {
	if len(c.Layers) == 0 {
		return &InputError{Field: "Layers", Value: "empty", Want: "at least one layer"}
	}
	if c.Bore.Sign() < 0 {
		return lengthError("Bore", c.Bore, "a diameter of 0 (a solid bar) or more")
	}
	if first := c.Layers[0].Interference; !first.IsZero() {
		return lengthError("Layers[0].Interference", first, "0, since nothing is inside the first layer")
	}
	inside := c.Bore
	for i, l := range c.Layers {
		if err := l.check(fmt.Sprintf("Layers[%d]", i), inside, load); err != nil {
			return err
		}
		inside = l.Outside
	}
	return load.check(c.Bore)
}

func (l Layer) check(name string, inside measure.Length, load Load) error {
	if !inside.Less(l.Outside) {
		return lengthError(name+".Outside", l.Outside, "a diameter above its inside, "+
			number(inside.Millimetres())+" mm")
	}
	if err := l.Elastic.Check(name); err != nil {
		return err
	}
	if l.Elastic.rigid() {
		return numberError(name+".YoungModulusMPa", l.Elastic.YoungModulusMPa, "MPa", "a layer that is not rigid")
	}
	if !(l.DensityKgM3 >= 0 && l.DensityKgM3 <= mostDensityKgM3) {
		return numberError(name+".DensityKgM3", l.DensityKgM3, "kg/m³", "a density from 0 to 1e5")
	}
	if load.RadPerSecond != 0 && l.DensityKgM3 == 0 {
		return numberError(name+".DensityKgM3", 0, "kg/m³", "a density, since the compound turns")
	}
	return nil
}

// mostDensityKgM3 and the two limits below are far beyond any joint; they keep the arithmetic finite.
const (
	mostDensityKgM3  = 1e5
	mostPressureMPa  = 1e9
	mostRadPerSecond = 1e9
)

func (l Load) check(bore measure.Length) error {
	if !(l.BorePressureMPa >= 0 && l.BorePressureMPa <= mostPressureMPa) {
		return numberError("BorePressureMPa", l.BorePressureMPa, "MPa", "a pressure from 0 to 1e9")
	}
	if bore.IsZero() && l.BorePressureMPa != 0 {
		return numberError("BorePressureMPa", l.BorePressureMPa, "MPa", "0, since a solid bar has no bore")
	}
	if !(l.OutsidePressureMPa >= 0 && l.OutsidePressureMPa <= mostPressureMPa) {
		return numberError("OutsidePressureMPa", l.OutsidePressureMPa, "MPa", "a pressure from 0 to 1e9")
	}
	if !(math.Abs(l.RadPerSecond) <= mostRadPerSecond) {
		return numberError("RadPerSecond", l.RadPerSecond, "rad/s", "a speed within 1e9 either way")
	}
	return nil
}

// wall is one layer ready to compute: radii in mm, and spin = ρω² in MPa/mm².
type wall struct {
	outer, inner float64
	elastic      Elastic
	spin         float64
}

func (c Compound) walls(load Load) []wall {
	walls, inner := make([]wall, 0, len(c.Layers)), c.Bore.Millimetres()/2
	for _, l := range c.Layers {
		outer := l.Outside.Millimetres() / 2
		// kg/m³ · 1/s² = Pa/m² = 1e-6 MPa per 1e6 mm².
		spin := l.DensityKgM3 * load.RadPerSecond * load.RadPerSecond * 1e-12
		walls = append(walls, wall{outer: outer, inner: inner, elastic: l.Elastic, spin: spin})
		inner = outer
	}
	return walls
}

// stress returns the stress at radius r, the sum of Lamé's and that of a free turning disc:
//
//	σr = (3+ν)/8 ρω² (r_i² + r_o² − r_i²r_o²/r² − r²)
//	σθ = (3+ν)/8 ρω² (r_i² + r_o² + r_i²r_o²/r² − (1+3ν)/(3+ν) r²)
func (w wall) stress(r, innerP, outerP float64) Stress {
	s := lame{outer: w.outer, inner: w.inner, outerP: outerP, innerP: innerP}.at(r)
	nu := w.elastic.Poisson
	sum := w.inner*w.inner + w.outer*w.outer
	product := 0.0 // of a disc without a hole, also at its centre
	if w.inner > 0 {
		product = w.inner * (w.outer / r) * w.inner * (w.outer / r)
	}
	k := (3 + nu) / 8 * w.spin
	s.RadialMPa += k * (sum - product - r*r)
	s.HoopMPa += k * (sum + product - (1+3*nu)/(3+nu)*r*r)
	return s
}

// displacement returns the radial displacement at radius r in mm; outward is positive.
func (w wall) displacement(r, innerP, outerP float64) float64 {
	s := w.stress(r, innerP, outerP)
	return r * (s.HoopMPa - w.elastic.Poisson*s.RadialMPa) / w.elastic.YoungModulusMPa
}

// unit is the displacement that pressures alone make.
func (w wall) unit(r, innerP, outerP float64) float64 {
	w.spin = 0
	return w.displacement(r, innerP, outerP)
}
