// Package traits is what is known of the values of each role whatever the sheet: what kind of value it is, between which sizes it lies,
// and which roles a table of each kind can have.
package traits

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
)

// want is what kind of value a role has.
type want uint8

const (
	Text want = iota
	Code
	Length
	Angle
	Count
	Price
	Taper
	Tolerance
)

// Trait is what is known of a role's values whatever the sheet.
type Trait struct {
	Want want
	// Diameter is set for diameters, which may be quoted as radii.
	Diameter bool
	// common is set for words that say how a part is made: variants of it have them in common, as they have its sizes.
	common bool
	// MayLack is set for sizes of what a part need not have, as a collar, which 0 says it has not.
	MayLack bool
	// Prior is the advantage of a role that tables usually have, in points.
	Prior float64
}

// Shared reports whether the clubs of a set, or the variants of a part, have such a value in common.
func (t Trait) Shared() bool {
	switch t.Want {
	case Length, Angle, Taper:
		return true
	}
	return t.common
}

var Of = map[catalog.Role]Trait{
	catalog.Part:        {Want: Code, Prior: 2},
	catalog.Description: {Want: Text, Prior: 0.2},
	catalog.Category:    {Want: Text, Prior: 0.3},
	catalog.Club:        {Want: Text},
	catalog.Note:        {Want: Text},
	catalog.UnitRole:    {Want: Text},
	catalog.Tolerance:   {Want: Tolerance},
	catalog.Price:       {Want: Price},
	catalog.Stock:       {Want: Count},

	catalog.HoselOD:          {Want: Length, Diameter: true, Prior: 2},
	catalog.HoselLength:      {Want: Length, Prior: 0.5},
	catalog.BoreDepth:        {Want: Length, Prior: 0.5},
	catalog.BoreForm:         {Want: Text, common: true},
	catalog.Top:              {Want: Text, common: true},
	catalog.CountersinkMouth: {Want: Length, Diameter: true, MayLack: true},
	catalog.CountersinkAngle: {Want: Angle},
	catalog.CountersinkDepth: {Want: Length, MayLack: true},
	catalog.CounterboreOD:    {Want: Length, Diameter: true, MayLack: true},
	catalog.CounterboreDepth: {Want: Length, MayLack: true},
	catalog.TipTaken:         {Want: Length, Diameter: true},
	catalog.AdapterOD:        {Want: Length, Diameter: true, MayLack: true},
	catalog.NeckTop:          {Want: Length},

	catalog.Bore: {Want: Length, Diameter: true, Prior: 2},

	catalog.BaseOD:       {Want: Length, Diameter: true, Prior: 2},
	catalog.TopOD:        {Want: Length, Diameter: true, Prior: 0.2},
	catalog.Length:       {Want: Length, Prior: 1},
	catalog.Style:        {Want: Text, common: true},
	catalog.CollarOD:     {Want: Length, Diameter: true, MayLack: true},
	catalog.CollarLength: {Want: Length, MayLack: true},
	catalog.StepOD:       {Want: Length, Diameter: true, MayLack: true},
	catalog.StepLength:   {Want: Length, MayLack: true},
	catalog.Rings:        {Want: Count},
	catalog.Material:     {Want: Text, common: true},
	catalog.Colour:       {Want: Text},
	catalog.Pack:         {Want: Count},

	catalog.TipOD:          {Want: Length, Diameter: true, Prior: 2},
	catalog.Taper:          {Want: Taper},
	catalog.TipForm:        {Want: Text},
	catalog.ParallelLength: {Want: Length, MayLack: true},
}

// OfKind are the roles that a column of a table of each kind can have.
var OfKind = map[catalog.Kind][]catalog.Role{
	catalog.Heads: {catalog.Part, catalog.Description, catalog.Category, catalog.Club, catalog.HoselOD, catalog.Bore, catalog.BoreForm, catalog.BoreDepth, catalog.HoselLength, catalog.Top, catalog.CountersinkMouth, catalog.CountersinkAngle,
		catalog.CountersinkDepth, catalog.CounterboreOD, catalog.CounterboreDepth, catalog.TipTaken, catalog.AdapterOD, catalog.NeckTop, catalog.Tolerance, catalog.UnitRole, catalog.Material, catalog.Colour, catalog.Pack, catalog.Price, catalog.Stock, catalog.Note},
	catalog.Ferrules: {catalog.Part, catalog.Description, catalog.Category, catalog.Bore, catalog.BaseOD, catalog.TopOD, catalog.Length, catalog.Style, catalog.CollarOD, catalog.CollarLength, catalog.StepOD, catalog.StepLength, catalog.Rings, catalog.Material, catalog.TipTaken,
		catalog.Colour, catalog.Tolerance, catalog.UnitRole, catalog.Pack, catalog.Price, catalog.Stock, catalog.Note},
	catalog.Tips: {catalog.Part, catalog.Description, catalog.TipOD, catalog.Taper, catalog.TipForm, catalog.ParallelLength, catalog.Tolerance, catalog.UnitRole, catalog.Material, catalog.Pack, catalog.Price, catalog.Stock, catalog.Note},
}

// Bounds are the sizes between which a role's values lie, in mm: those of the joint's dimension, and for a tip, which is named by
// its size, closer ones. Possible is what the joint allows at all, common where nearly all parts lie.
type Bounds struct{ Least, Most, commonLeast, commonMost float64 }

// tipNamed are the bounds of the tip that a head takes or a ferrule is for.
var tipNamed = Bounds{8, 10.6, 8.4, 10.3}

var (
	headBounds    = boundsOf(fitcalc.OfHead)
	ferruleBounds = boundsOf(fitcalc.OfFerrule)
)

// boundsOf are the usual sizes of the dimensions of a part that have a column, and those of the tip. Where a hosel and an adapter share a
// column it is the hosel's.
func boundsOf(owner fitcalc.Owner) map[catalog.Role]Bounds {
	all := map[catalog.Role]Bounds{catalog.TipTaken: tipNamed}
	for _, f := range fitcalc.FieldsOf(owner) {
		u, known := f.Usual()
		role := catalog.Role(f.Column())
		if _, taken := all[role]; known && role != "" && !taken {
			all[role] = Bounds{u.Least, u.Most, u.CommonLeast, u.CommonMost}
		}
	}
	return all
}

var TipBounds = map[catalog.Role]Bounds{
	catalog.TipOD:          {7.5, 11, 8.4, 10.2},
	catalog.ParallelLength: {5, 600, 20, 350},
}

// BoundsOf returns the bounds of a role in tables of a kind; false where there are none.
func BoundsOf(kind catalog.Kind, role catalog.Role) (Bounds, bool) {
	var b Bounds
	var ok bool
	switch kind {
	case catalog.Heads:
		b, ok = headBounds[role]
	case catalog.Ferrules:
		b, ok = ferruleBounds[role]
	case catalog.Tips:
		b, ok = TipBounds[role]
	}
	return b, ok
}

func (b Bounds) Possible(mm float64) bool { return mm >= b.Least && mm <= b.Most }

func (b Bounds) Common(mm float64) bool { return mm >= b.commonLeast && mm <= b.commonMost }

// Wanted is what the reader of values is asked for.
func (t Trait) Wanted() value.Want {
	switch t.Want {
	case Length:
		if t.Diameter {
			return value.WantDiameter
		}
		return value.WantLength
	case Angle:
		return value.WantAngle
	case Count:
		return value.WantCount
	case Price:
		return value.WantPrice
	case Taper:
		return value.WantTaper
	}
	return value.WantAny
}

// UnitMM is how many millimetres the units of the vocabulary are.
var UnitMM = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "um": 0.001, "in": 25.4, "thou": 0.0254}

// LengthUnits are the units a column of sizes may be in when nothing says so, the likeliest first.
var LengthUnits = []string{"mm", "in", "thou", "cm", "um"}

func IsLengthUnit(unit string) bool { return UnitMM[unit] > 0 }

func MM(l measure.Length) float64 { return l.Millimetres() }

// Implausible says why no part of a kind has a size, and nothing where one may.
func Implausible(kind catalog.Kind, role catalog.Role, size measure.Length) string {
	b, known := BoundsOf(kind, role)
	if !known || b.Possible(MM(size)) {
		return ""
	}
	return fmt.Sprintf("%s is beyond the %g to %g mm that the joint allows", SayMM(MM(size)), b.Least, b.Most)
}

// IsRole reports whether a word is a role that tables of a kind can have; of any kind where the kind is unknown.
func IsRole(kind catalog.Kind, role catalog.Role) bool {
	if kind != catalog.UnknownKind {
		return slices.Contains(OfKind[kind], role)
	}
	_, known := Of[role]
	return known
}

// IsLengthUnit reports whether a word is a unit that a mapping file can give for sizes: mm cm m um in thou.

// Keys are the sizes of parts of each kind that everything hangs on: where one of them cannot be used, nothing can be decided of the
// part.
var Keys = [...][]catalog.Role{catalog.Heads: {catalog.HoselOD, catalog.AdapterOD}, catalog.Ferrules: {catalog.BaseOD}, catalog.Tips: {catalog.TipOD}}

// Needed are the roles of which a part of each kind has to have one.
var Needed = [...][]catalog.Role{catalog.Heads: {catalog.HoselOD, catalog.AdapterOD}, catalog.Ferrules: {catalog.BaseOD, catalog.Bore, catalog.TipTaken}, catalog.Tips: {catalog.TipOD}}

// leastPrice is less than any part costs in the currencies that prices are in, the greatest of which is worth a few dollars: the plainest ferrules cost
// three cents by the thousand. An amount below mostOfOne is nothing that a hundred of them could cost, and is the price of one.
const leastPrice, mostOfOne = 0.02, 2

// OddlyDivided reports whether a price that is for several pieces leaves less for one than any part costs, and whether it is plainly that of one itself.
func OddlyDivided(amount, pieces float64) (odd, ofOne bool) {
	odd = pieces > 1 && amount > 0 && amount/pieces < leastPrice
	return odd, odd && amount < mostOfOne
}

// Middle returns the middle one of some numbers, the greater of two; it sorts them.
func Middle(numbers []float64) float64 {
	slices.Sort(numbers)
	return numbers[len(numbers)/2]
}
