package catalog

import (
	"iter"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"sync"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/sheet"
)

// Fields are the values of a row or part by role. The zero Fields are none. They are never changed: With and Without return others.
//
// Equal values of a column are kept once, and each of a list's million values takes sixteen bytes.
type Fields struct{ list []stated }

// stated is one value of a row.
type stated struct {
	what *reading
	at   place
}

// place is the role of a value and the cell that it comes from.
type place struct {
	row     uint32
	colRole uint32 // the column above the lowest eight bits, which hold the role
}

// reading is a value without its cell, as many rows may have it. Most are a text and no more.
type reading struct {
	text string
	full *fullReading
}

type fullReading struct {
	Field
	// fine is half of the last digit that a size is stated with.
	fine measure.Length
}

// readingOf keeps a field, whose cell is left out.
func readingOf(f Field, fine measure.Length) reading {
	f.Cell = ""
	rest := f
	rest.Text = ""
	if fine.IsZero() && reflect.ValueOf(&rest).Elem().IsZero() {
		return reading{text: f.Text}
	}
	return reading{text: f.Text, full: &fullReading{f, fine}}
}

// field returns the value without its cell.
func (r *reading) field() Field {
	if r.full != nil {
		return r.full.Field
	}
	return Field{Text: r.text}
}

// roleNames are the roles by their numbers.
var roleNames = sync.OnceValue(func() []Role {
	names := make([]Role, len(traits)+1)
	for role, trait := range traits {
		names[trait.number] = role
	}
	return names
})

func placeOf(role Role, ref sheet.Ref) place {
	return place{uint32(ref.Row), uint32(ref.Col)<<8 | uint32(traits[role].number)}
}

// placeIn is the place of a cell by its address, none where that is empty or no address. The columns of a text file may be more than
// those of a workbook.
func placeIn(role Role, cell string) place {
	var ref sheet.Ref
	at := 0
	for ; at < len(cell) && cell[at] >= 'A' && cell[at] <= 'Z' && ref.Col < 1<<18; at++ {
		ref.Col = ref.Col*26 + int(cell[at]-'A') + 1
	}
	row, err := strconv.Atoi(cell[at:])
	if at == 0 || err != nil || row < 1 || row > math.MaxInt32 || cell[at] < '1' || cell[at] > '9' {
		return placeOf(role, sheet.Ref{})
	}
	ref.Row = row
	return placeOf(role, ref)
}

func (p place) role() Role { return roleNames()[uint8(p.colRole)] }

// cell returns the address of the cell, empty where there is none.
func (p place) cell() string {
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
	if number := traits[role].number; number > 0 {
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
func (f Fields) full(role Role) *fullReading {
	if at := f.find(role); at >= 0 {
		return f.list[at].what.full
	}
	return nil
}

// dim returns the dimension of a role.
func (f Fields) dim(role Role) measure.Dim {
	if full := f.full(role); full != nil {
		return full.Dim
	}
	return measure.Dim{}
}

// angle returns the angle of a role.
func (f Fields) angle(role Role) measure.Angle {
	if full := f.full(role); full != nil {
		return full.Angle
	}
	return measure.Angle{}
}

// number returns the number of a role.
func (f Fields) number(role Role) float64 {
	if full := f.full(role); full != nil {
		return full.Number
	}
	return 0
}

// fine returns half of the last digit that the size of a role is stated with.
func (f Fields) fine(role Role) measure.Length {
	if full := f.full(role); full != nil {
		return full.fine
	}
	return measure.Length{}
}

// Cell returns the address of the cell of a role.
func (f Fields) Cell(role Role) string {
	if at := f.find(role); at >= 0 {
		return f.list[at].cell()
	}
	return ""
}

// With returns the fields with another value of a role.
func (f Fields) With(role Role, field Field) Fields { return f.with(role, field, measure.Length{}) }

func (f Fields) with(role Role, field Field, fine measure.Length) Fields {
	what, at := readingOf(field, fine), placeIn(role, field.Cell)
	if at.cell() != field.Cell { // no address
		if what.full == nil {
			what.full = &fullReading{Field: field}
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
