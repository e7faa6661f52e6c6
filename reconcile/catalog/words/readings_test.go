package words_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog/words"
)

// What counts readings is a number, a letter or an angle, alone or with a word that stands with one.
func TestCountsReading(t *testing.T) {
	v := words.Load()
	for text, want := range map[string]words.ReadingCount{
		"1":        {Number: 1},
		"(2)":      {Number: 2},
		"③":        {Number: 3},
		"#2":       {Word: "#", Number: 2},
		"№ 2":      {Word: "#", Number: 2},
		"X3":       {Word: "x", Number: 3},
		"pin 1":    {Word: "pin", Number: 1},
		"Mess. 2":  {Word: "mess", Number: 2},
		"éch. B":   {Word: "ech", Number: 2, Letter: true},
		"C":        {Number: 3, Letter: true},
		"2nd":      {Word: "nd", Number: 2, Behind: true},
		"2回目":      {Word: "回目", Number: 2, Behind: true},
		"第2次":      {Word: "第 次", Number: 2},
		"0°":       {Degrees: true},
		"60 deg.":  {Number: 60, Degrees: true},
		"120 Grad": {Number: 120, Degrees: true},
	} {
		if got, found := v.CountsReading(text); !found || got != want {
			t.Errorf("%s: %+v, %v; want %+v", text, got, found, want)
		}
	}
	for _, text := range []string{"", "depth", "type 1", "13.5", "D1", "Z", "pin", "5 mm", "1 of 3", "PW"} {
		if got, found := v.CountsReading(text); found {
			t.Errorf("%s: %+v", text, got)
		}
	}
}
