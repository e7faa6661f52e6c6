package fitcalc

import "example.com/seatline/fitcalc/measure"

// Ferrule is the plastic trim ring between hosel and shaft. All diameters are diameters. What was not given is left out in
// JSON.
type Ferrule struct {
	// Bore is the inside diameter.
	Bore measure.Dim `json:"bore,omitzero"`
	// ForTip is the tip that the ferrule is made for. Where no bore is given, it is known by this tip: [Ferrule.JointBore].
	ForTip TipSize `json:"for_tip,omitzero"`
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
	// StyleUnknown is taken by what is given below the base, see [Ferrule.TakenStyle].
	StyleUnknown Style = iota
	Plain
	Collared
	Stepped
)

// TakenStyle returns the form of base that a ferrule is taken to have: its Style or, where that is not known, stepped where a
// size of a step is given, collared where one of a collar is, and plain otherwise ([AssumedPlain]).
func (f *Ferrule) TakenStyle() Style {
	switch {
	case f.Style != StyleUnknown:
		return f.Style
	case f.Step.OD.Given() || f.Step.Length.Given():
		return Stepped
	case f.Collar.OD.Given() || f.Collar.Length.Given():
		return Collared
	}
	return Plain
}

// Below returns what there is below the base of that style: the collar, the step, or nothing.
func (f *Ferrule) Below() Spigot {
	switch f.TakenStyle() {
	case Collared:
		return f.Collar
	case Stepped:
		return f.Step
	}
	return Spigot{}
}

// WithoutSizes returns what is left of a ferrule where a size cannot be, and so none is to be relied on: what it is made of, and the
// style it was taken to have.
func (f *Ferrule) WithoutSizes() Ferrule {
	return Ferrule{Style: f.TakenStyle(), Material: f.Material}
}

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
