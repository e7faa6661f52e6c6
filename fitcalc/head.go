package fitcalc

import "example.com/seatline/fitcalc/measure"

// Head is what a golf head offers the joint: its hosel. All diameters are diameters, never radii. A [measure.Dim] that
// is zero was not given; nothing is computed from it and no default size takes its place. In JSON it is left out.
type Head struct {
	// Category decides which tips are usual for the head and whether the limit on the neck applies.
	Category Category `json:"category,omitzero"`
	// HoselOD is the outside diameter at the very top of the hosel.
	HoselOD measure.Dim `json:"hosel_od,omitzero"`
	// Bore is the diameter of the hole that takes the tip: at its mouth when parallel, at its bottom when tapered, so
	// that a tapered bore is quoted like the tip it takes. BoreForm says which of the two it is.
	Bore     measure.Dim `json:"bore,omitzero"`
	BoreForm BoreForm    `json:"bore_form,omitzero"`
	// BoreDepth is how far the shaft can be pushed in, measured from the top of the hosel.
	BoreDepth measure.Dim `json:"bore_depth,omitzero"`
	// HoselLength is the length of the visible hosel.
	HoselLength measure.Dim `json:"hosel_length,omitzero"`
	// NeckTop is the distance along the axis from the sole to the top of the neck or socket.
	NeckTop measure.Dim `json:"neck_top,omitzero"`
	// Top is the form of the hosel's top; the dimensions of a recess stand in Countersink and Counterbore.
	Top         TopForm     `json:"top,omitzero"`
	Countersink Countersink `json:"countersink,omitzero"`
	Counterbore Counterbore `json:"counterbore,omitzero"`
	// Adapter is the sleeve of a head with an adapter. The joint is then made at the sleeve, whose top OD and bore
	// replace the hosel's.
	Adapter Adapter `json:"adapter,omitzero"`
}

// Category is what kind of club a head makes.
type Category uint8

const (
	// AnyCategory is a head of unknown kind.
	AnyCategory Category = iota
	Driver
	Fairway
	Hybrid
	Iron
	Wedge
	Putter
	// Chipper counts as an iron under the equipment rules.
	Chipper
)

// BoreForm is whether a bore is parallel or tapered.
type BoreForm uint8

const (
	// BoreUnknown is taken to suit the tip, and said to be.
	BoreUnknown BoreForm = iota
	BoreParallel
	BoreTapered
)

// TopForm is the form of a hosel's top.
type TopForm uint8

const (
	// TopUnknown is taken as flat for a plain ferrule, and said to be; for a collar or a step it cannot be decided.
	TopUnknown TopForm = iota
	TopFlat
	// TopRounded takes no ferrule.
	TopRounded
	TopCountersunk
	TopCounterbored
)

// Countersink is a conical recess in the hosel's top. Any two of mouth, angle and depth give the third; the cone ends
// at the bore when no depth is given.
type Countersink struct {
	// Mouth is the diameter at the top.
	Mouth measure.Dim `json:"mouth,omitzero"`
	// Angle is the included angle of the cone; zero is not given.
	Angle measure.Angle `json:"angle,omitzero"`
	// Depth is from the hosel's top to where the cone ends, along the axis.
	Depth measure.Dim `json:"depth,omitzero"`
}

// Counterbore is a cylindrical recess in the hosel's top, of a Diameter, and of a Depth along the axis.
type Counterbore struct {
	Diameter measure.Dim `json:"diameter,omitzero"`
	Depth    measure.Dim `json:"depth,omitzero"`
}

// Adapter is the sleeve between an adjustable head and its shaft.
type Adapter struct {
	// TopOD is the outside diameter at the top of the sleeve, where the ferrule sits.
	TopOD measure.Dim `json:"top_od,omitzero"`
	// Bore is the diameter of the hole that takes the tip, and BoreDepth how far the tip can be pushed in; where either is
	// not given, that of the head is taken as the sleeve's, and said to be.
	Bore      measure.Dim `json:"bore,omitzero"`
	BoreDepth measure.Dim `json:"bore_depth,omitzero"`
}

// Given reports whether anything of the adapter is given, so that the joint is made at it.
func (a *Adapter) Given() bool { return a.TopOD.Given() || a.Bore.Given() || a.BoreDepth.Given() }

// TakenTop returns the form of top that a hosel is taken to have: its Top or, where that is not known, counterbored where a size of a
// counterbore is given, countersunk where something of a countersink is, and unknown otherwise.
func (h *Head) TakenTop() TopForm {
	c := &h.Countersink
	switch {
	case h.Top != TopUnknown:
		return h.Top
	case h.counterbored():
		return TopCounterbored
	case c.Mouth.Given() || c.Depth.Given() || !c.Angle.IsZero():
		return TopCountersunk
	}
	return TopUnknown
}

// counterbored reports whether the top has a counterbore, by its sizes or by word: such a hosel takes a step.
func (h *Head) counterbored() bool {
	return h.Top == TopCounterbored || h.Counterbore.Diameter.Given() || h.Counterbore.Depth.Given()
}

// JointOD returns the outside diameter that the ferrule has to match: that of the sleeve's top where there is an adapter,
// of the hosel's otherwise.
func (h *Head) JointOD() measure.Dim {
	if h.Adapter.Given() {
		return h.Adapter.TopOD
	}
	return h.HoselOD
}

// JointBore returns the diameter of the hole that takes the tip: the sleeve's where it is given.
func (h *Head) JointBore() measure.Dim {
	if h.Adapter.Bore.Given() {
		return h.Adapter.Bore
	}
	return h.Bore
}

// JointBoreDepth returns how far the shaft can be pushed in: into the sleeve where that is given.
func (h *Head) JointBoreDepth() measure.Dim {
	if h.Adapter.BoreDepth.Given() {
		return h.Adapter.BoreDepth
	}
	return h.BoreDepth
}
