package fitcalc

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// joints for the benchmarks: a parallel tip, a taper tip, and the parallel one with sizes spread evenly between limits.
func benchJoint(b *testing.B) (Head, Tip, Ferrule, Shop) {
	head := Head{HoselOD: dim(b, ".500 in"), Bore: dim(b, ".374 in"), BoreDepth: dim(b, "1.25 in"), Top: TopFlat}
	ferrule := Ferrule{Bore: dim(b, ".368 in"), BaseOD: dim(b, ".512 in"), Length: dim(b, ".5 in")}
	return head, ParallelTip(dim(b, ".370 in")), ferrule, DefaultShop()
}

func benchmarkEvaluate(b *testing.B, head Head, tip Tip, ferrule Ferrule, shop Shop) {
	b.Helper()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Evaluate(head, tip, ferrule, shop); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEvaluate(b *testing.B) {
	head, tip, ferrule, shop := benchJoint(b)
	benchmarkEvaluate(b, head, tip, ferrule, shop)
}

func BenchmarkEvaluateTaper(b *testing.B) {
	head, _, ferrule, shop := benchJoint(b)
	head.Bore = dim(b, ".358 in")
	benchmarkEvaluate(b, head, UsualTaperTip(dim(b, ".355 in")), ferrule, shop)
}

func BenchmarkEvaluateUniform(b *testing.B) {
	head, _, ferrule, shop := benchJoint(b)
	head.HoselOD = dim(b, ".500 ±.003 in").WithShape(measure.Uniform)
	ferrule.BaseOD = dim(b, ".512 ±.002 in").WithShape(measure.Uniform)
	ferrule.Bore = dim(b, ".368 ±.001 in").WithShape(measure.Uniform)
	tip := ParallelTip(dim(b, ".370 ±.001 in").WithShape(measure.Uniform))
	benchmarkEvaluate(b, head, tip, ferrule, shop)
}

func BenchmarkEvaluateInto(b *testing.B) {
	head, tip, ferrule, shop := benchJoint(b)
	var fit Fit
	b.ReportAllocs()
	for b.Loop() {
		EvaluateInto(&fit, &head, &tip, &ferrule, &shop)
	}
}

// BenchmarkDecideInto is a joint that is ruled out by its base OD, as most of a catalogue are.
func BenchmarkDecideInto(b *testing.B) {
	head, tip, ferrule, shop := benchJoint(b)
	ferrule.BaseOD = dim(b, ".480 in")
	var fit Fit
	b.ReportAllocs()
	for b.Loop() {
		DecideInto(&fit, &head, &tip, &ferrule, &shop)
	}
}

// BenchmarkWindows is a ferrule that suits some hosels, and one that its bore rules out on this tip, as most are.
func BenchmarkWindows(b *testing.B) {
	head, tip, fits, shop := benchJoint(b)
	loose := fits
	loose.Bore = dim(b, ".380 in")
	for _, c := range []struct {
		name    string
		ferrule Ferrule
	}{{"fits", fits}, {"ruled out", loose}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Windows(head, tip, c.ferrule, shop); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkErfc is the yardstick: what one evaluation of the function costs on the same machine in the same minute.
func BenchmarkErfc(b *testing.B) {
	x, sum := 0.0, 0.0
	for b.Loop() {
		sum += math.Erfc(x)
		if x += 0.37; x > 4 {
			x = 0
		}
	}
	if sum == 0 {
		b.Fatal("the sum vanished")
	}
}

// BenchmarkEvaluateCollar is a collar on a countersink: one that the cone alone can hold up, one that its bottom may, and one that
// may also go on into a counterbore that it hardly fits.
func BenchmarkEvaluateCollar(b *testing.B) {
	head, tip, ferrule, shop := benchJoint(b)
	ferrule.Style, ferrule.Collar = Collared, Spigot{OD: dim(b, "10.08 ±.02 mm"), Length: dim(b, ".80 ±.02 mm")}
	head.Countersink.Mouth = dim(b, "11.0 ±.02 mm")
	b.Run("cone", func(b *testing.B) { benchmarkEvaluate(b, head, tip, ferrule, shop) })
	head.Countersink.Depth, head.Countersink.Angle = dim(b, ".80 ±.30 mm"), measure.Degrees(60)
	b.Run("cone or bottom", func(b *testing.B) { benchmarkEvaluate(b, head, tip, ferrule, shop) })
	head.Counterbore = Counterbore{Diameter: dim(b, "10.08 ±.02 mm"), Depth: dim(b, ".80 ±.1 mm")}
	b.Run("cone, bottom or counterbore", func(b *testing.B) { benchmarkEvaluate(b, head, tip, ferrule, shop) })
}
