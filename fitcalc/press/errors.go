package press

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// InputError says which input cannot be computed with, what it was, and what is wanted instead.
type InputError struct {
	// Field names the input as the caller wrote it, such as "RingOutside" or "Layers[2].Interference".
	Field string
	// Value is the input as read, with its unit.
	Value string
	// Want says what would be accepted.
	Want string
}

func (e *InputError) Error() string {
	return "press: " + e.Field + " is " + e.Value + ": want " + e.Want
}

// UnknownMaterialError reports a name that is neither a material of the table nor an alias of one.
type UnknownMaterialError struct {
	// Name is the name as asked for.
	Name string
	// Known lists the names that are in the table, in its order.
	Known []string
}

func (e *UnknownMaterialError) Error() string {
	return fmt.Sprintf("press: no material %q: want one of %s, or give the moduli themselves",
		e.Name, strings.Join(e.Known, ", "))
}

// MissingPropertyError reports a property that is needed and that the sources of the table do not give.
type MissingPropertyError struct {
	// Material is the material's name.
	Material string
	// Property is the field of [Material] that is not given.
	Property string
}

func (e *MissingPropertyError) Error() string {
	return "press: " + e.Property + " of " + e.Material +
		" is not given: set it on a copy of the material, with its source"
}

func lengthError(field string, l measure.Length, want string) error {
	return &InputError{Field: field, Value: number(l.Millimetres()) + " mm", Want: want}
}

func numberError(field string, x float64, unit, want string) error {
	value := number(x)
	if unit != "" {
		value += " " + unit
	}
	return &InputError{Field: field, Value: value, Want: want}
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
