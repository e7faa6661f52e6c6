package stack_test

import (
	_ "embed"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// referenceCSV holds values of the textbook corner sum in 400-digit arithmetic (mpmath 1.3.0); reference.py beside it
// writes it.
//
//go:embed testdata/reference.csv
var referenceCSV string

// accuracy is the relative accuracy that the package documentation promises.
const accuracy = 1e-12

// symmetric is 0 ± width/2.
func symmetric(shape measure.Shape, widthPM int64) measure.Dim {
	lower := measure.Picometres(-widthPM / 2)
	return measure.Between(lower, lower.Add(measure.Picometres(widthPM))).WithShape(shape)
}

func sumOf(t testing.TB, terms string) stack.Sum {
	t.Helper()
	shapes := map[byte]measure.Shape{'N': measure.Normal, 'U': measure.Uniform, 'T': measure.Triangular}
	var s stack.Sum
	for i, term := range strings.Fields(terms) {
		width, err := strconv.ParseInt(term[1:], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		d := symmetric(shapes[term[0]], width).Shift(measure.Picometres(1e9 + int64(i)*12345))
		if i%2 == 0 {
			s = s.Plus(d)
		} else {
			s = s.Minus(d)
		}
	}
	if err := s.Err(); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestAgainstFourHundredDigits(t *testing.T) {
	records, err := csv.NewReader(strings.NewReader(referenceCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for _, r := range records[1:] {
		s := sumOf(t, r[0])
		offset, err := strconv.ParseInt(r[1], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		mean := (s.Least().Picometres() + s.Most().Picometres()) / 2
		x := measure.Picometres(mean + offset)
		above, errAbove := strconv.ParseFloat(r[2], 64)
		excess, errExcess := strconv.ParseFloat(r[3], 64)
		if errAbove != nil || errExcess != nil {
			t.Fatal(r, errAbove, errExcess)
		}
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			{"Above", s.Above(x), above},
			{"CDF", s.CDF(measure.Picometres(mean - offset)), above},
			{"MeanExcess", s.MeanExcess(x), excess},
		} {
			off := math.Abs(c.got/c.want - 1)
			worst = max(worst, off)
			if !(off <= accuracy) {
				t.Errorf("%s at %s pm from the mean: %s = %.17g, want %.17g (off by %.1e)", r[0], r[1], c.what, c.got, c.want, off)
			}
		}
	}
	t.Logf("worst relative difference %.1e over %d rows", worst, len(records)-1)
}
