package fitcalc

import "example.com/seatline/fitcalc/measure"

// Ferrule is the plastic trim ring between hosel and shaft. All diameters are diameters. What was not given is left out in
// JSON.
type Ferrule struct {
	// Bore is the inside diameter.
	Bore measure.Dim `json:"bore,omitzero"`
	// BaseOD is the outside diameter at the base, before turning.
	BaseOD measure.Dim `json:"base_od,omitzero"`
	// TopOD is the outside diameter at the top, where the ferrule meets the shaft.
	TopOD measure.Dim `json:"top_od,omitzero"`
	// Length is the height above the hosel's top; a collar or step below the base is not part of it.
	Length measure.Dim `json:"length,omitzero"`
	// Style says what there is below the base.
	Style Style `json:"style,omitzero"`
	// Collar is a short lip below the base that goes into a countersink.
	Collar Spigot `json:"collar,omitzero"`
	// Step is a longer cylinder below the base that goes into a counterbore.
	Step Spigot `json:"step,omitzero"`
	// Rings is how many decorative rings the ferrule carries; RingDepth is how deep they go from the outside, per
	// side, and RingHeight where the lowest begins above the base.
	Rings      int         `json:"rings,omitzero"`
	RingDepth  measure.Dim `json:"ring_depth,omitzero"`
	RingHeight measure.Dim `json:"ring_height,omitzero"`
	// Material is what it is made of.
	Material Material `json:"material,omitzero"`
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

// Spigot is a cylinder below a ferrule's base: a collar or a step. OD is its outside diameter, and Length how far it reaches
// below the base.
type Spigot struct {
	OD     measure.Dim `json:"od,omitzero"`
	Length measure.Dim `json:"length,omitzero"`
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
