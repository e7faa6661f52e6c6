package fitcalc

import "example.com/seatline/fitcalc/measure"

// Ferrule is the plastic trim ring between hosel and shaft. All diameters are diameters.
type Ferrule struct {
	// Bore is the inside diameter.
	Bore measure.Dim
	// BaseOD is the outside diameter at the base, before turning.
	BaseOD measure.Dim
	// TopOD is the outside diameter at the top, where the ferrule meets the shaft.
	TopOD measure.Dim
	// Length is the height above the hosel's top; a collar or step below the base is not part of it.
	Length measure.Dim
	Style  Style
	// Collar is a short lip below the base that goes into a countersink.
	Collar Spigot
	// Step is a longer cylinder below the base that goes into a counterbore.
	Step Spigot
	// Rings is how many decorative rings the ferrule carries; RingDepth is how deep they go from the outside, per
	// side, and RingHeight where the lowest begins above the base.
	Rings      int
	RingDepth  measure.Dim
	RingHeight measure.Dim
	Material   Material
}

// Style is the form of a ferrule's base.
type Style uint8

const (
	// StyleUnknown is taken as plain unless a collar or a step is given, and said to be.
	StyleUnknown Style = iota
	Plain
	Collared
	Stepped
)

// Spigot is a cylinder below a ferrule's base: a collar or a step.
type Spigot struct {
	OD     measure.Dim
	Length measure.Dim
}

// Material is what a ferrule is made of, as far as the sheets tell.
type Material uint8

const (
	MaterialUnknown Material = iota
	CelluloseAcetate
	CelluloseAcetateButyrate
	ABS
	Nylon
	Acetal
	OtherMaterial
)
