package catalog

import (
	"iter"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/sheet"
)

// Fields are the values of a row or part by role. The zero Fields are none. They are never changed: With and Without return others.
//
// Equal values of a column are kept once, and each of a list's million values takes sixteen bytes.
type Fields struct{ list []stated }

// stated is one value of a row.
type stated struct {
	what *Value
	at   Place
}

// Place is the role of a value and the cell that it comes from.
type Place struct {
	row     uint32
	colRole uint32 // the column above the lowest eight bits, which hold the role
}

// Value is a value without its cell, as many rows may have it. Most are a text and no more.
type Value struct {
	text string
	full *Field
}

// ValueOf keeps a field, whose cell is left out.
func ValueOf(f Field) Value {
	if f.isText() {
		return ValueOfText(f.Text)
	}
	full := f
	full.Cell = ""
	return Value{text: f.Text, full: &full}
}

// ValueOfText keeps a field that is a text and no more.
func ValueOfText(text string) Value { return Value{text: text} }

// isText reports whether a field is a text, perhaps of a cell, and no more.
func (f *Field) isText() bool {
	return f.Dim == measure.Dim{} && f.ForTip == fitcalc.TipSize{} && f.Angle == measure.Angle{} && f.Number == 0 && !f.IsNumber &&
		f.Assumptions == nil && f.Fine == measure.Length{} && f.Measured == nil
}

// field returns the value without its cell.
func (v *Value) field() Field {
	if v.full != nil {
		return *v.full
	}
	return Field{Text: v.text}
}

// Dim returns the size that a value states, not given where it states none.
func (v *Value) Dim() measure.Dim {
	if v.full != nil {
		return v.full.Dim
	}
	return measure.Dim{}
}

// Unread returns a value of the same text of which nothing is understood.
func (v *Value) Unread() *Value { return &Value{text: v.text} }

// IsMeasured reports whether the value comes from readings.
func (v *Value) IsMeasured() bool { return v.full != nil && v.full.Measured != nil }

// allRoles are the roles in the order of their names: a role's number is its place, counted from one.
var allRoles = func() []Role {
	roles := []Role{
		Part, Description, Category, Tolerance, Price, Stock, Club, Note, UnitRole,
		HoselOD, HoselLength, Bore, BoreForm, BoreDepth, Top, CountersinkMouth, CountersinkAngle, CountersinkDepth, CounterboreOD, CounterboreDepth,
		TipTaken, AdapterOD, NeckTop,
		BaseOD, TopOD, Length, Style, CollarOD, CollarLength, StepOD, StepLength, Rings, Material, Colour, Pack,
		TipOD, Taper, TipForm, ParallelLength,
	}
	slices.Sort(roles)
	return roles
}()

// Roles are all roles, in the order of their names.
func Roles() []Role { return slices.Clone(allRoles) }

// roleSlots find the number of a role by a few of its letters, a few times as fast as a map does, since fields are asked for again and
// again.
var roleSlots = func() (slots [256]struct {
	role   Role
	number uint8
}) {
	for i, role := range allRoles {
		at := slotOf(role)
		for slots[at].number != 0 {
			at++
		}
		slots[at].role, slots[at].number = role, uint8(i+1)
	}
	return slots
}()

func slotOf(role Role) uint8 {
	if role == "" {
		return 0
	}
	return uint8(len(role))*29 + role[0]*7 + role[len(role)/2]*11 + role[len(role)-1]*3
}

// roleNumber returns the number of a role, zero for what is none.
func roleNumber(role Role) uint8 {
	at := slotOf(role)
	for roleSlots[at].number != 0 && roleSlots[at].role != role {
		at++
	}
	return roleSlots[at].number
}

// PlaceOf is the place of a value of a role in a cell.
func PlaceOf(role Role, ref sheet.Ref) Place {
	return Place{uint32(ref.Row), uint32(ref.Col)<<8 | uint32(roleNumber(role))}
}

// PlaceIn is the place of a cell by its address, none where that is empty or no address. The columns of a text file may be more than
// those of a workbook.
func PlaceIn(role Role, cell string) Place {
	var ref sheet.Ref
	at := 0
	for ; at < len(cell) && cell[at] >= 'A' && cell[at] <= 'Z' && ref.Col < 1<<18; at++ {
		ref.Col = ref.Col*26 + int(cell[at]-'A') + 1
	}
	row, err := strconv.Atoi(cell[at:])
	if at == 0 || err != nil || row < 1 || row > math.MaxInt32 || cell[at] < '1' || cell[at] > '9' {
		return PlaceOf(role, sheet.Ref{})
	}
	ref.Row = row
	return PlaceOf(role, ref)
}

func (p Place) role() Role {
	if number := uint8(p.colRole); number > 0 {
		return allRoles[number-1]
	}
	return ""
}

// cell returns the address of the cell, empty where there is none.
func (p Place) cell() string {
	if p.row == 0 {
		return ""
	}
	return sheet.Ref{Row: int(p.row), Col: int(p.colRole >> 8)}.String()
}

// FieldsOf returns the fields of a map.
func FieldsOf(byRole map[Role]Field) Fields {
	var fields Fields
	for _, role := range slices.Sorted(maps.Keys(byRole)) {
		fields = fields.With(role, byRole[role])
	}
	return fields
}

// Len returns how many roles have a value.
func (f Fields) Len() int { return len(f.list) }

// Get returns the value of a role, the zero Field where there is none.
func (f Fields) Get(role Role) Field {
	field, _ := f.Lookup(role)
	return field
}

// Lookup returns the value of a role, and whether there is one.
func (f Fields) Lookup(role Role) (Field, bool) {
	at := f.find(role)
	if at < 0 {
		return Field{}, false
	}
	return f.list[at].value(), true
}

// value returns a value with its cell.
func (s stated) value() Field {
	field := s.what.field()
	field.Cell = s.cell()
	return field
}

// cell returns the address of a value's cell.
func (s stated) cell() string {
	if full := s.what.full; full != nil && full.Cell != "" {
		return full.Cell
	}
	return s.at.cell()
}

// All goes through the values, in the order of their columns.
func (f Fields) All() iter.Seq2[Role, Field] {
	return func(yield func(Role, Field) bool) {
		for _, s := range f.list {
			if !yield(s.at.role(), s.value()) {
				return
			}
		}
	}
}

// find returns where the value of a role is, −1 where there is none.
func (f Fields) find(role Role) int {
	if number := roleNumber(role); number > 0 {
		for i := range f.list {
			if uint8(f.list[i].at.colRole) == number {
				return i
			}
		}
	}
	return -1
}

// Text returns the text of a role.
func (f Fields) Text(role Role) string {
	if at := f.find(role); at >= 0 {
		return f.list[at].what.text
	}
	return ""
}

// full returns the value of a role that is more than a text, without its cell; nil where there is none.
func (f Fields) full(role Role) *Field {
	if at := f.find(role); at >= 0 {
		return f.list[at].what.full
	}
	return nil
}

// Dim returns the dimension of a role.
func (f Fields) Dim(role Role) measure.Dim {
	if full := f.full(role); full != nil {
		return full.Dim
	}
	return measure.Dim{}
}

// Measured returns the readings that the dimension of a role is of, nil where it is of none.
func (f Fields) Measured(role Role) *Measured {
	if full := f.full(role); full != nil {
		return full.Measured
	}
	return nil
}

// Angle returns the angle of a role.
func (f Fields) Angle(role Role) measure.Angle {
	if full := f.full(role); full != nil {
		return full.Angle
	}
	return measure.Angle{}
}

// Number returns the number of a role.
func (f Fields) Number(role Role) float64 {
	if full := f.full(role); full != nil {
		return full.Number
	}
	return 0
}

// Price returns the price of a row, and whether it states one that can be read.
func (f Fields) Price() (price float64, stated bool) {
	if full := f.full(Price); full != nil {
		return full.Number, full.IsNumber
	}
	return 0, false
}

// Cell returns the address of the cell of a role.
func (f Fields) Cell(role Role) string {
	if at := f.find(role); at >= 0 {
		return f.list[at].cell()
	}
	return ""
}

// SameCell reports whether a row and another one have the value of a role from one cell.
func (f Fields) SameCell(other Fields, role Role) bool {
	at, there := f.find(role), other.find(role)
	if at < 0 || there < 0 || f.list[at].at != other.list[there].at {
		return false
	}
	return f.list[at].at.row != 0 || f.list[at].cell() == other.list[there].cell()
}

// Column returns the letters of the column of a role's cell, empty where it has none.
func (f Fields) Column(role Role) string {
	at := f.find(role)
	switch {
	case at < 0:
		return ""
	case f.list[at].what.full != nil && f.list[at].what.full.Cell != "":
		return strings.TrimRight(f.list[at].what.full.Cell, "0123456789")
	case f.list[at].at.row == 0:
		return ""
	}
	return sheet.ColumnName(int(f.list[at].at.colRole >> 8))
}

// With returns the fields with another value of a role.
func (f Fields) With(role Role, field Field) Fields {
	what, at := ValueOf(field), PlaceIn(role, field.Cell)
	if at.cell() != field.Cell { // no address
		if what.full == nil {
			what.full = &Field{Text: field.Text}
		}
		what.full.Cell = field.Cell
	}
	list := slices.Clone(f.list)
	if known := f.find(role); known >= 0 {
		list[known] = stated{&what, at}
	} else {
		list = append(list, stated{&what, at})
	}
	return Fields{list}
}

// Without returns the fields without the value of a role.
func (f Fields) Without(role Role) Fields {
	at := f.find(role)
	if at < 0 {
		return f
	}
	return Fields{slices.Delete(slices.Clone(f.list), at, at+1)}
}

// Sorted goes through the values, in the order of the names of their roles.
func (f Fields) Sorted() iter.Seq2[Role, Field] {
	sorted := Fields{slices.Clone(f.list)}
	slices.SortFunc(sorted.list, func(a, b stated) int { return strings.Compare(string(a.at.role()), string(b.at.role())) })
	return sorted.All()
}

// Gather makes fields one by one: Begin, Add each value, Keep. What is kept is cut from larger pieces, and does not change any more. The
// zero Gather is ready to use.
type Gather struct {
	scratch, stock []stated
}

// Begin returns fields to add to, in the room of those before.
func (g *Gather) Begin() Fields { return Fields{g.scratch[:0]} }

// Add adds a value to fields that have none of its role.
func (g *Gather) Add(f Fields, what *Value, at Place) Fields {
	g.scratch = append(f.list, stated{what, at})
	return Fields{g.scratch}
}

// Keep copies fields out of the room in which they were made.
func (g *Gather) Keep(f Fields) Fields {
	const room = 4096
	n := len(f.list)
	if n > cap(g.stock)-len(g.stock) {
		g.stock = make([]stated, 0, max(room, n))
	}
	start := len(g.stock)
	g.stock = append(g.stock, f.list...)
	return Fields{g.stock[start:len(g.stock):len(g.stock)]}
}
