package fitcalc

import (
	"reflect"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// dimsIn are the dimensions of a part by the path of their members, found without the table.
func dimsIn(part reflect.Value, path string, found map[string]*measure.Dim) {
	for i := range part.NumField() {
		member, name := part.Field(i), path+part.Type().Field(i).Name
		if d, is := member.Addr().Interface().(*measure.Dim); is {
			found[name] = d
			continue
		}
		if member.Kind() == reflect.Struct && strings.HasSuffix(member.Type().PkgPath(), "/fitcalc") {
			dimsIn(member, name+".", found)
		}
	}
}

// TestEveryDimensionStandsInTheTable: each measure.Dim of a head or ferrule is that of one field of its own, and a field that the table
// calls a dimension has one.
func TestEveryDimensionStandsInTheTable(t *testing.T) {
	var h Head
	var f Ferrule
	for _, part := range []struct {
		owner Owner
		value reflect.Value
		dim   func(Field) *measure.Dim
	}{{OfHead, reflect.ValueOf(&h).Elem(), h.Dim}, {OfFerrule, reflect.ValueOf(&f).Elem(), f.Dim}} {
		members := map[string]*measure.Dim{}
		dimsIn(part.value, "", members)
		if len(members) < 10 {
			t.Fatalf("only %d dimensions of a %v were found", len(members), part.owner)
		}
		fieldOf := map[*measure.Dim]Field{}
		for _, field := range Fields() {
			d := part.dim(field)
			if is := field.Owner() == part.owner && field.Kind().IsLength(); is != (d != nil) {
				t.Errorf("%v is a dimension of a %v by its row: %v, and by Dim: %v", field, part.owner, is, d != nil)
			}
			if d == nil {
				continue
			}
			if other, twice := fieldOf[d]; twice {
				t.Errorf("%v and %v are one dimension", other, field)
			}
			fieldOf[d] = field
		}
		for name, d := range members {
			if fieldOf[d] == NoField {
				t.Errorf("%v.%s has no row in the table of fields", part.owner, name)
			}
		}
	}
}

// TestRowsAreComplete: every row says what all that is made from it needs.
func TestRowsAreComplete(t *testing.T) {
	names, codes, keys := map[string]Field{}, map[string]Field{}, map[string]Field{}
	for _, f := range Fields() {
		if f.String() == "" || f.Key() == "" || f.Means() == "" || f.Owner() == NoOwner || f.Kind() == NoKind {
			t.Errorf("the row of field %d, %q, is not complete", f, f)
		}
		for what, seen := range map[string]map[string]Field{f.String(): names, f.Code(): codes, f.Owner().String() + " " + f.Key(): keys} {
			if other, twice := seen[what]; twice {
				t.Errorf("%v and %v are both called %q", other, f, what)
			}
			seen[what] = f
		}
		if length := f.Kind().IsLength(); length != (f.row().tolerance != noTolerance) {
			t.Errorf("%v: a dimension %v, with a tolerance %v", f, length, !length)
		}
		if _, known := f.Usual(); f.Kind().IsLength() && !known && f.Column() != "" {
			t.Errorf("%v is read from sheets, and no size of it is called usual", f)
		}
	}
	if got := Field(fieldCount); got.String() != "" || got.Code() != "" || got.Column() != "" {
		t.Errorf("what is no field is called %q", got)
	}
}

// TestOrderIsOfOnePart: what lies around what is a dimension of the same part, or the tip that a ferrule is for.
func TestOrderIsOfOnePart(t *testing.T) {
	var h Head
	var f Ferrule
	for _, o := range headOrder {
		if h.Dim(o.outer) == nil || h.Dim(o.inner) == nil {
			t.Errorf("%v around %v", o.outer, o.inner)
		}
	}
	for _, o := range ferruleOrder {
		if f.Dim(o.outer) == nil || f.Dim(o.inner) == nil && o.inner != FieldForTip {
			t.Errorf("%v around %v", o.outer, o.inner)
		}
	}
}
