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

func BenchmarkEvaluate(b *testing.B) {
	head := Head{HoselOD: dim(b, ".500 in"), Bore: dim(b, ".374 in"), BoreDepth: dim(b, "1.25 in"), Top: TopFlat}
	ferrule := Ferrule{Bore: dim(b, ".368 in"), BaseOD: dim(b, ".512 in"), Length: dim(b, ".5 in")}
	tip := ParallelTip(dim(b, ".370 in"))
	shop := DefaultShop()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Evaluate(head, tip, ferrule, shop); err != nil {
			b.Fatal(err)
		}
	}
}
