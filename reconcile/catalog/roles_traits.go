package catalog

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
)

// want is what kind of value a role has.
type want uint8

const (
	wantText want = iota
	wantCode
	wantLength
	wantAngle
	wantCount
	wantPrice
	wantTaper
	wantTolerance
)

// trait is what is known of a role's values whatever the sheet.
type trait struct {
	want want
	// diameter is set for diameters, which may be quoted as radii.
	diameter bool
	// prior is the advantage of a role that tables usually have, in points.
	prior float64
}

var traits = map[Role]trait{
	Part:        {want: wantCode, prior: 2},
	Description: {want: wantText, prior: 0.2},
	Category:    {want: wantText, prior: 0.3},
	Club:        {want: wantText},
	Note:        {want: wantText},
	UnitRole:    {want: wantText},
	Tolerance:   {want: wantTolerance},
	Price:       {want: wantPrice},
	Stock:       {want: wantCount},

	HoselOD:          {want: wantLength, diameter: true, prior: 2},
	HoselLength:      {want: wantLength, prior: 0.5},
	BoreDepth:        {want: wantLength, prior: 0.5},
	BoreForm:         {want: wantText},
	Top:              {want: wantText},
	CountersinkMouth: {want: wantLength, diameter: true},
	CountersinkAngle: {want: wantAngle},
	CountersinkDepth: {want: wantLength},
	CounterboreOD:    {want: wantLength, diameter: true},
	CounterboreDepth: {want: wantLength},
	TipTaken:         {want: wantLength, diameter: true},
	AdapterOD:        {want: wantLength, diameter: true},
	NeckTop:          {want: wantLength},

	Bore: {want: wantLength, diameter: true, prior: 2},

	BaseOD:       {want: wantLength, diameter: true, prior: 2},
	TopOD:        {want: wantLength, diameter: true, prior: 0.2},
	Length:       {want: wantLength, prior: 1},
	Style:        {want: wantText},
	CollarOD:     {want: wantLength, diameter: true},
	CollarLength: {want: wantLength},
	StepOD:       {want: wantLength, diameter: true},
	StepLength:   {want: wantLength},
	Rings:        {want: wantCount},
	Material:     {want: wantText},
	Colour:       {want: wantText},
	Pack:         {want: wantCount},

	TipOD:          {want: wantLength, diameter: true, prior: 2},
	Taper:          {want: wantTaper},
	TipForm:        {want: wantText},
	ParallelLength: {want: wantLength},
}

// kindRoles are the roles that a column of a table of each kind can have.
var kindRoles = map[Kind][]Role{
	Heads: {Part, Description, Category, Club, HoselOD, Bore, BoreForm, BoreDepth, HoselLength, Top, CountersinkMouth, CountersinkAngle,
		CountersinkDepth, CounterboreOD, CounterboreDepth, TipTaken, AdapterOD, NeckTop, Tolerance, UnitRole, Material, Colour, Pack, Price, Stock, Note},
	Ferrules: {Part, Description, Category, Bore, BaseOD, TopOD, Length, Style, CollarOD, CollarLength, StepOD, StepLength, Rings, Material, TipTaken,
		Colour, Tolerance, UnitRole, Pack, Price, Stock, Note},
	Tips: {Part, Description, TipOD, Taper, TipForm, ParallelLength, Tolerance, UnitRole, Material, Pack, Price, Stock, Note},
}

// bounds are the sizes between which a role's values lie, in mm: those of the joint's dimension, and for a tip, which is named by
// its size, closer ones. Possible is what the joint allows at all, common where nearly all parts lie.
type bounds struct{ least, most, commonLeast, commonMost float64 }

// usual are the bounds of a dimension of the joint.
func usual(f fitcalc.Field) bounds {
	u, _ := f.Usual()
	return bounds{u.Least, u.Most, u.CommonLeast, u.CommonMost}
}

var headBounds = map[Role]bounds{
	HoselOD:          usual(fitcalc.FieldHoselOD),
	AdapterOD:        usual(fitcalc.FieldAdapterOD),
	Bore:             usual(fitcalc.FieldHeadBore),
	TipTaken:         {8, 10.6, 8.4, 10.3},
	BoreDepth:        usual(fitcalc.FieldBoreDepth),
	HoselLength:      usual(fitcalc.FieldHoselLength),
	NeckTop:          usual(fitcalc.FieldNeckTop),
	CountersinkMouth: usual(fitcalc.FieldCountersinkMouth),
	CountersinkDepth: usual(fitcalc.FieldCountersinkDepth),
	CounterboreOD:    usual(fitcalc.FieldCounterbore),
	CounterboreDepth: usual(fitcalc.FieldCounterboreDepth),
}

var ferruleBounds = map[Role]bounds{
	Bore:         usual(fitcalc.FieldFerruleBore),
	BaseOD:       usual(fitcalc.FieldBaseOD),
	TopOD:        usual(fitcalc.FieldTopOD),
	Length:       usual(fitcalc.FieldLength),
	CollarOD:     usual(fitcalc.FieldCollarOD),
	CollarLength: usual(fitcalc.FieldCollarLength),
	StepOD:       usual(fitcalc.FieldStepOD),
	StepLength:   usual(fitcalc.FieldStepLength),
	TipTaken:     {8, 10.6, 8.4, 10.3},
}

var tipBounds = map[Role]bounds{
	TipOD:          {7.5, 11, 8.4, 10.2},
	ParallelLength: {5, 600, 20, 350},
}

// boundsOf returns the bounds of a role in tables of a kind; false where there are none.
func boundsOf(kind Kind, role Role) (bounds, bool) {
	var b bounds
	var ok bool
	switch kind {
	case Heads:
		b, ok = headBounds[role]
	case Ferrules:
		b, ok = ferruleBounds[role]
	case Tips:
		b, ok = tipBounds[role]
	}
	return b, ok
}

func (b bounds) possible(mm float64) bool { return mm >= b.least && mm <= b.most }

func (b bounds) common(mm float64) bool { return mm >= b.commonLeast && mm <= b.commonMost }

// wanted is what the reader of values is asked for.
func (t trait) wanted() value.Want {
	switch t.want {
	case wantLength:
		if t.diameter {
			return value.WantDiameter
		}
		return value.WantLength
	case wantAngle:
		return value.WantAngle
	case wantCount:
		return value.WantCount
	case wantPrice:
		return value.WantPrice
	case wantTaper:
		return value.WantTaper
	}
	return value.WantAny
}

// unitMM is how many millimetres the units of the vocabulary are.
var unitMM = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "um": 0.001, "in": 25.4, "thou": 0.0254}

// lengthUnits are the units a column of sizes may be in when nothing says so, the likeliest first.
var lengthUnits = []string{"mm", "in", "thou", "cm", "um"}

func isLengthUnit(unit string) bool { return unitMM[unit] > 0 }

func mm(l measure.Length) float64 { return l.Millimetres() }

// Implausible says why no part of a kind has a size, and nothing where one may.
func Implausible(kind Kind, role Role, size measure.Length) string {
	b, known := boundsOf(kind, role)
	if !known || b.possible(mm(size)) {
		return ""
	}
	return fmt.Sprintf("%s is beyond the %g to %g mm that the joint allows", sayMM(mm(size)), b.least, b.most)
}

// IsRole reports whether a word is a role that tables of a kind can have; of any kind where the kind is unknown.
func IsRole(kind Kind, role Role) bool {
	if kind != UnknownKind {
		return slices.Contains(kindRoles[kind], role)
	}
	_, known := traits[role]
	return known
}

// IsLengthUnit reports whether a word is a unit that a mapping file can give for sizes: mm cm m um in thou.
func IsLengthUnit(unit string) bool { return isLengthUnit(unit) }

// needed are the roles of which a part of each kind has to have one.
var needed = [...][]Role{Heads: {HoselOD, AdapterOD}, Ferrules: {BaseOD, Bore, TipTaken}, Tips: {TipOD}}
