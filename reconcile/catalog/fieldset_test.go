package catalog

import (
	"reflect"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// TestValuesAreWhole sets each member of a field by itself and gets it back: what is kept as a text alone must be no more.
func TestValuesAreWhole(t *testing.T) {
	kind := reflect.TypeFor[Field]()
	for i := range kind.NumField() {
		var f Field
		switch member := reflect.ValueOf(&f).Elem().Field(i); kind.Field(i).Name {
		case "Cell":
			f.Cell = "B7"
		case "Dim":
			f.Dim = measure.Nominal(measure.Thou(370))
		case "ForTip":
			f.ForTip = fitcalc.TipSize{Diameter: measure.Thou(370)}
		case "Angle":
			f.Angle = measure.Degrees(90)
		case "Fine":
			f.Fine = measure.Thou(1)
		case "Assumptions":
			f.Assumptions = []string{"assumed"}
		case "Measured":
			f.Measured = &Measured{}
		default:
			switch member.Kind() {
			case reflect.String:
				member.SetString("text")
			case reflect.Float64:
				member.SetFloat(7)
			case reflect.Bool:
				member.SetBool(true)
			}
		}
		if reflect.ValueOf(f).IsZero() {
			t.Errorf("the test sets no %s", kind.Field(i).Name)
		}
		if got := (Fields{}).With(Bore, f).Get(Bore); !reflect.DeepEqual(got, f) {
			t.Errorf("%s: %+v comes back as %+v", kind.Field(i).Name, f, got)
		}
	}
}

// TestColumns holds the column of a value to the address of its cell.
func TestColumns(t *testing.T) {
	for cell, want := range map[string]string{"": "", "B7": "B", "AAB1048576": "AAB", "note 3": "note "} {
		f := Fields{}.With(Price, Field{Text: "12.50", Cell: cell})
		if got := f.Column(Price); got != want {
			t.Errorf("%q is in column %q, want %q", cell, got, want)
		}
	}
	if got := (Fields{}).Column(Price); got != "" {
		t.Errorf("no price is in column %q", got)
	}
}

// TestPrices holds the price of a row to its field.
func TestPrices(t *testing.T) {
	for _, f := range []Field{{}, {Text: "on request"}, {Text: "12.50", Number: 12.5, IsNumber: true}, {Text: "free", IsNumber: true}} {
		if price, stated := (Fields{}).With(Price, f).Price(); price != f.Number || stated != f.IsNumber {
			t.Errorf("%+v gives %g, %v", f, price, stated)
		}
	}
	if price, stated := (Fields{}).Price(); price != 0 || stated {
		t.Errorf("no field gives %g, %v", price, stated)
	}
}
