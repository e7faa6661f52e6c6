package measure

import "fmt"

// RangeError reports a number that is no Length: not a number, infinite, or beyond ±1 km.
type RangeError struct {
	Value float64
	Unit  string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%v %s is not a length of at most 1 km; check the number and its unit", e.Value, e.Unit)
}
