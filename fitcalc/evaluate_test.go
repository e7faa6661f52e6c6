package fitcalc

import (
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// dim reads a size as the tests write it.
func dim(t testing.TB, s string) measure.Dim {
	t.Helper()
	d, err := measure.ParseDim(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
