package catalog

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/finding"
)

// Measured is what readings say of a size, and what they stand in the place of.
type Measured struct {
	// Readings are the sizes as the instrument showed them, and Places their cells: one for each reading, or one for a cell that
	// holds them all.
	Readings []measure.Length
	Places   []finding.Place
	// Size is what they come to.
	Size sample.Size
	// Stated is what the sheet states, not given where it states nothing, or where its own cell holds the readings.
	Stated measure.Dim
}

// Clear takes the value from a field, of which the text stays.
func (f *Field) Clear() { f.Dim, f.Angle, f.Measured = measure.Dim{}, measure.Angle{}, nil }

// HasReadings reports whether a size of the item comes from readings.
func (i *Item) HasReadings() bool {
	for _, f := range i.Fields.All() {
		if f.Measured != nil {
			return true
		}
	}
	return false
}

// Learned is how the pieces of a supplier's parts lie about what the supplier states for a dimension, learned from readings of
// some of them.
type Learned struct {
	Supplier string
	Kind     Kind
	Role     Role
	sample.Deviations
	// PlusMinus is the ± of parts without readings and without a tolerance of their own, and Taken how many took it.
	PlusMinus measure.Length
	Taken     int
}

// Measurements are what readings contributed to a catalogue. The zero Measurements are none.
type Measurements struct {
	// Rows are those of the sheets of readings.
	Rows Ledger
	// Readings are used for Sizes of Parts.
	Readings, Sizes, Parts int
	Learned                []Learned
}

// Any reports whether anything was measured.
func (m *Measurements) Any() bool { return m.Sizes > 0 || m.Rows.Rows > 0 }

// partSize is a size of a part that can be measured: its column, how the engine calls it, and where a part of the catalogue has it.
type partSize[P any] struct {
	role  Role
	field fitcalc.Field
	dim   func(*P) *measure.Dim
}

// The sizes of each kind of part, the one that is usually meant first. [Tip.Measure] sets that of a tip.
var (
	headSizes = []partSize[Head]{
		{HoselOD, fitcalc.FieldHoselOD, func(h *Head) *measure.Dim { return &h.Head.HoselOD }},
		{Bore, fitcalc.FieldHeadBore, func(h *Head) *measure.Dim { return &h.Head.Bore }},
		{BoreDepth, fitcalc.FieldBoreDepth, func(h *Head) *measure.Dim { return &h.Head.BoreDepth }},
		{HoselLength, fitcalc.FieldHoselLength, func(h *Head) *measure.Dim { return &h.Head.HoselLength }},
		{CountersinkMouth, fitcalc.FieldCountersinkMouth, func(h *Head) *measure.Dim { return &h.Head.Countersink.Mouth }},
		{CountersinkDepth, fitcalc.FieldCountersinkDepth, func(h *Head) *measure.Dim { return &h.Head.Countersink.Depth }},
		{CounterboreOD, fitcalc.FieldCounterbore, func(h *Head) *measure.Dim { return &h.Head.Counterbore.Diameter }},
		{CounterboreDepth, fitcalc.FieldCounterboreDepth, func(h *Head) *measure.Dim { return &h.Head.Counterbore.Depth }},
		{AdapterOD, fitcalc.FieldAdapterOD, func(h *Head) *measure.Dim { return &h.Head.Adapter.TopOD }},
	}
	ferruleSizes = []partSize[Ferrule]{
		{BaseOD, fitcalc.FieldBaseOD, func(f *Ferrule) *measure.Dim { return &f.Ferrule.BaseOD }},
		{Bore, fitcalc.FieldFerruleBore, func(f *Ferrule) *measure.Dim { return &f.Ferrule.Bore }},
		{TopOD, fitcalc.FieldTopOD, func(f *Ferrule) *measure.Dim { return &f.Ferrule.TopOD }},
		{Length, fitcalc.FieldLength, func(f *Ferrule) *measure.Dim { return &f.Ferrule.Length }},
		{CollarOD, fitcalc.FieldCollarOD, func(f *Ferrule) *measure.Dim { return &f.Ferrule.Collar.OD }},
		{CollarLength, fitcalc.FieldCollarLength, func(f *Ferrule) *measure.Dim { return &f.Ferrule.Collar.Length }},
		{StepOD, fitcalc.FieldStepOD, func(f *Ferrule) *measure.Dim { return &f.Ferrule.Step.OD }},
		{StepLength, fitcalc.FieldStepLength, func(f *Ferrule) *measure.Dim { return &f.Ferrule.Step.Length }},
	}
	tipSizes = []partSize[Tip]{{role: TipOD, field: fitcalc.FieldTip}}
)

func rolesOf[P any](sizes []partSize[P]) []Role {
	roles := make([]Role, len(sizes))
	for i := range sizes {
		roles[i] = sizes[i].role
	}
	return roles
}

// sizeOf returns the size of a role, and nil where the role is none.
func sizeOf[P any](sizes []partSize[P], role Role) *partSize[P] {
	for i := range sizes {
		if sizes[i].role == role {
			return &sizes[i]
		}
	}
	return nil
}

func fieldOf[P any](sizes []partSize[P], role Role) fitcalc.Field {
	if size := sizeOf(sizes, role); size != nil {
		return size.field
	}
	return fitcalc.NoField
}

// SizeRoles returns the sizes of parts of a kind that can be measured, the one that is usually meant first.
func SizeRoles(kind Kind) []Role {
	switch kind {
	case Heads:
		return rolesOf(headSizes)
	case Ferrules:
		return rolesOf(ferruleSizes)
	case Tips:
		return rolesOf(tipSizes)
	}
	return nil
}

// FieldOf returns how the engine calls a size, and [fitcalc.NoField] for a role that is no size of the kind.
func FieldOf(kind Kind, role Role) fitcalc.Field {
	switch kind {
	case Heads:
		return fieldOf(headSizes, role)
	case Ferrules:
		return fieldOf(ferruleSizes, role)
	case Tips:
		return fieldOf(tipSizes, role)
	}
	return fitcalc.NoField
}

// Size returns the head's dimension of a role, to read or to set, and nil where the role is none of its dimensions.
func (h *Head) Size(role Role) *measure.Dim {
	if size := sizeOf(headSizes, role); size != nil {
		return size.dim(h)
	}
	return nil
}

// Size returns the ferrule's dimension of a role, to read or to set, and nil where the role is none of its dimensions.
func (f *Ferrule) Size(role Role) *measure.Dim {
	if size := sizeOf(ferruleSizes, role); size != nil {
		return size.dim(f)
	}
	return nil
}

// Measure puts a measured size in the place of the one that the sheet states, by which the tip goes on being called.
func (t *Tip) Measure(size measure.Dim) {
	if t.Stated.Form() == fitcalc.TipUnknown {
		t.Stated = t.Tip
	}
	switch t.Tip.Form() {
	case fitcalc.TipParallel:
		t.Tip = fitcalc.ParallelTip(size)
	case fitcalc.TipTapered:
		tapers := fitcalc.UsualTaperTip(size)
		if t.Tip.StatesTaper() {
			tapers = fitcalc.TaperTip(size, t.Tip.Taper())
		}
		if t.Tip.StatesTaperTo() {
			tapers = tapers.UpTo(t.Tip.TaperTo())
		}
		t.Tip = tapers
	}
}

// Named is the tip of the size by which it is called: a .370 in tip that measures .369 in is one.
func (t *Tip) Named() *fitcalc.Tip {
	if t.Stated.Form() != fitcalc.TipUnknown {
		return &t.Stated
	}
	return &t.Tip
}
