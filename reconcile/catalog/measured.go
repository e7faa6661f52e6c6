package catalog

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog/words"
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

// clear takes the value from a field, of which the text stays.
func (f *Field) clear() { f.Dim, f.Angle, f.Measured = measure.Dim{}, measure.Angle{}, nil }

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

// SizeRoles returns the sizes of parts of a kind that can be measured, the one that is usually meant first.
func SizeRoles(kind Kind) []Role {
	switch kind {
	case Heads:
		return []Role{HoselOD, Bore, BoreDepth, HoselLength, CountersinkMouth, CountersinkDepth, CounterboreOD, CounterboreDepth, AdapterOD}
	case Ferrules:
		return []Role{BaseOD, Bore, TopOD, Length, CollarOD, CollarLength, StepOD, StepLength}
	case Tips:
		return []Role{TipOD}
	}
	return nil
}

// Size returns the head's dimension of a role, to read or to set, and nil where the role is none of its dimensions.
func (h *Head) Size(role Role) *measure.Dim {
	switch role {
	case HoselOD:
		return &h.Head.HoselOD
	case Bore:
		return &h.Head.Bore
	case BoreDepth:
		return &h.Head.BoreDepth
	case HoselLength:
		return &h.Head.HoselLength
	case CountersinkMouth:
		return &h.Head.Countersink.Mouth
	case CountersinkDepth:
		return &h.Head.Countersink.Depth
	case CounterboreOD:
		return &h.Head.Counterbore.Diameter
	case CounterboreDepth:
		return &h.Head.Counterbore.Depth
	case AdapterOD:
		return &h.Head.Adapter.TopOD
	}
	return nil
}

// Size returns the ferrule's dimension of a role, to read or to set, and nil where the role is none of its dimensions.
func (f *Ferrule) Size(role Role) *measure.Dim {
	switch role {
	case BaseOD:
		return &f.Ferrule.BaseOD
	case Bore:
		return &f.Ferrule.Bore
	case TopOD:
		return &f.Ferrule.TopOD
	case Length:
		return &f.Ferrule.Length
	case CollarOD:
		return &f.Ferrule.Collar.OD
	case CollarLength:
		return &f.Ferrule.Collar.Length
	case StepOD:
		return &f.Ferrule.Step.OD
	case StepLength:
		return &f.Ferrule.Step.Length
	}
	return nil
}

// FieldOf returns how the engine calls a size, and [fitcalc.NoField] for a role that is no size of the kind.
func FieldOf(kind Kind, role Role) fitcalc.Field {
	if kind == Ferrules {
		return ferruleFields[role]
	}
	return headFields[role]
}

var (
	headFields = map[Role]fitcalc.Field{
		HoselOD: fitcalc.FieldHoselOD, Bore: fitcalc.FieldHeadBore, BoreDepth: fitcalc.FieldBoreDepth, HoselLength: fitcalc.FieldHoselLength,
		CountersinkMouth: fitcalc.FieldCountersinkMouth, CountersinkDepth: fitcalc.FieldCountersinkDepth, CounterboreOD: fitcalc.FieldCounterbore,
		CounterboreDepth: fitcalc.FieldCounterboreDepth, AdapterOD: fitcalc.FieldAdapterOD, TipOD: fitcalc.FieldTip,
	}
	ferruleFields = map[Role]fitcalc.Field{
		BaseOD: fitcalc.FieldBaseOD, Bore: fitcalc.FieldFerruleBore, TopOD: fitcalc.FieldTopOD, Length: fitcalc.FieldLength,
		CollarOD: fitcalc.FieldCollarOD, CollarLength: fitcalc.FieldCollarLength, StepOD: fitcalc.FieldStepOD, StepLength: fitcalc.FieldStepLength,
	}
)

// Implausible says why no part of a kind has a size, and nothing where one may.
func Implausible(kind Kind, role Role, size measure.Length) string {
	b, known := boundsOf(kind, role)
	if !known || b.possible(mm(size)) {
		return ""
	}
	return fmt.Sprintf("%s is beyond the %g to %g mm that the joint allows", sayMM(mm(size)), b.least, b.most)
}

// SamePart reports whether two entries of a catalogue, of one kind, are one part: by their numbers, however they are written,
// and by their suppliers where the number is so short that every supplier has it.
func SamePart(a, b *Item) bool {
	return partKeyOf(UnknownKind, words.Fold(a.Part), a.Supplier) == partKeyOf(UnknownKind, words.Fold(b.Part), b.Supplier)
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
