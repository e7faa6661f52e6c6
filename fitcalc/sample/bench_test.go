package sample_test

import (
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

func BenchmarkFactor(b *testing.B) {
	for name, f := range map[string]func(int, float64, float64) (float64, error){
		"one-sided": sample.OneSidedFactor, "two-sided": sample.TwoSidedFactor, "Howe": sample.HoweFactor,
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := f(20, .95, .95); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkCompare(b *testing.B) {
	stated := measure.PlusMinus(measure.Micrometres(13_700), measure.Micrometres(60))
	all := readings(13_720, 13_740, 13_710, 13_750, 13_730, 13_740, 13_720, 13_730)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := sample.Compare(stated, all, sample.Question{Confidence: .95, Allowed: .05}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFindVariables(b *testing.B) {
	points := sample.TwoPoints{Producer: sample.Point{Bad: .01, Accept: .95}, Consumer: sample.Point{Bad: .10, Accept: .10}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := sample.FindVariables(points); err != nil {
			b.Fatal(err)
		}
	}
}
