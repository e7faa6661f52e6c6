package sample_test

import (
	"errors"
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// must stops the test on an error: must(t)(f()).
func must[T any](t *testing.T) func(T, error) T {
	t.Helper()
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func wantError(t *testing.T, what string, err, want error) {
	t.Helper()
	if !errors.Is(err, want) {
		t.Errorf("%s: error %v, want %v", what, err, want)
	}
}

func mm(t testing.TB, values ...float64) []measure.Length {
	t.Helper()
	all := make([]measure.Length, len(values))
	for i, v := range values {
		l, err := measure.FromMillimetres(v)
		if err != nil {
			t.Fatal(err)
		}
		all[i] = l
	}
	return all
}
