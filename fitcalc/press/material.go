package press

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Basis says where the working value of a [Property] comes from.
type Basis uint8

const (
	// Published: the value stands in the source.
	Published Basis = iota + 1
	// Middle: the source gives a range only, and the value is its middle.
	Middle
	// FromMemory: no text was at hand; check it before relying on it.
	FromMemory
	// Own: given by the user of this package.
	Own
)

// String returns the basis as a clause.
func (b Basis) String() string {
	switch b {
	case Published:
		return "published"
	case Middle:
		return "middle of the published range"
	case FromMemory:
		return "from memory"
	case Own:
		return "own value"
	}
	return "not given"
}

// Property is one number of a material, with its range and its source. The zero Property is not given, which is not
// zero: ask [Property.Given] before using Value.
type Property struct {
	// Value is the number to compute with.
	Value float64
	// Least and Most are the range in the source, both equal to Value where it gives one number.
	Least, Most float64
	// Basis says how Value was come by.
	Basis Basis
	// Source names the publication, and what is particular about the number.
	Source string
}

// Given reports whether the property is known.
func (p Property) Given() bool { return p.Basis != 0 }

// OwnValue returns a property of the caller's own material, with its source.
func OwnValue(value float64, source string) Property {
	return Property{Value: value, Least: value, Most: value, Basis: Own, Source: source}
}

// Material is a row of the table of materials. A property that no source gave is not given; none is made up.
//
// The numbers are for choosing sizes and seeing dangers early. Grades differ, plastics change with moisture, age and
// plasticiser, and a moulded part is not a test bar: the maker's data sheet goes before this table.
type Material struct {
	// Name is the name by which [MaterialByName] finds it; Aliases are others.
	Name    string
	Aliases []string
	// Note says what to know before using the row.
	Note string

	// YoungModulusMPa is E in MPa; across the fibres for a composite.
	YoungModulusMPa Property
	// Poisson is ν.
	Poisson Property
	// YieldMPa is the yield strength in tension, in MPa.
	YieldMPa Property
	// YieldStrain is the strain at yield as a fraction: 0.039 is 3.9 %. It is not the elongation at break.
	YieldStrain Property
	// ExpansionPerK is the linear thermal expansion per kelvin.
	ExpansionPerK Property
	// DensityKgM3 is the density in kg/m³.
	DensityKgM3 Property
	// FrictionOnSteel is the coefficient of friction against steel.
	FrictionOnSteel Property
	// DeflectionC is the heat deflection temperature at 1.8 MPa, in °C.
	DeflectionC Property
	// MaxServiceC is the highest service temperature, in °C.
	MaxServiceC Property
}

// Elastic returns the working values of modulus and Poisson's ratio. It reports a [*MissingPropertyError] when one is
// not given, and an [*InputError] when one cannot be.
func (m Material) Elastic() (Elastic, error) {
	modulus, err := m.need("YoungModulusMPa", m.YoungModulusMPa)
	if err != nil {
		return Elastic{}, err
	}
	poisson, err := m.need("Poisson", m.Poisson)
	if err != nil {
		return Elastic{}, err
	}
	e := Elastic{YoungModulusMPa: modulus, Poisson: poisson}
	if err := e.Check(m.Name); err != nil {
		return Elastic{}, err
	}
	return e, nil
}

func (m Material) need(name string, p Property) (float64, error) {
	if !p.Given() {
		material := m.Name
		if material == "" {
			material = "a material without a name"
		}
		return 0, &MissingPropertyError{Material: material, Property: name}
	}
	return p.Value, nil
}

// Materials returns the table, plastics first. The caller may change the copy.
func Materials() []Material {
	table := materials()
	for i := range table {
		table[i].Aliases = slices.Clone(table[i].Aliases)
	}
	return table
}

// MaterialByName finds a material by name or alias, whatever the case, hyphens and spaces. It reports an
// [*UnknownMaterialError] that lists the names of the table.
func MaterialByName(name string) (Material, error) {
	table := materials()
	wanted := fold(name)
	for _, m := range table {
		if fold(m.Name) == wanted || slices.ContainsFunc(m.Aliases, func(a string) bool { return fold(a) == wanted }) {
			return m, nil
		}
	}
	known := make([]string, len(table))
	for i, m := range table {
		known[i] = m.Name
	}
	return Material{}, &UnknownMaterialError{Name: name, Known: known}
}

func fold(name string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(name))
}

func tenths(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }
