package fitcalc

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// The answers of this table are what a builder would sign: common practice, from memory, written down before the rules were run on them.
// Sizes stand as the trade quotes them, with the shop's tolerances unless they state their own.
func TestAnswersABuilderWouldSign(t *testing.T) {
	for _, test := range []struct {
		hosel, base string
		want        Verdict
	}{
		// one size, in the two units in which the trade quotes it
		{"13.6 mm", ".535 in", Flush}, {".535 in", "13.6 mm", Flush},
		{"12.2 mm", ".480 in", Flush}, {".480 in", "12.2 mm", Flush},
		{"13.7 mm", ".540 in", Flush}, {"12.0 mm", ".472 in", Flush},
		{"12.7 mm", ".500 in", Flush}, {"13.6 mm", "13.6 mm", Flush},
		// a hosel that varies takes the base of its size too
		{"13.6 ±0.1 mm", "13.6 mm", Flush}, {"13.6 ±0.05 mm", ".535 in", Flush},
		// the next size up is turned, the next size down shows a ledge
		{"13.5 mm", "13.7 mm", Turn}, {"12.0 mm", "12.7 mm", Turn}, {"12.7 mm", "13.6 mm", Turn},
		{"13.7 mm", "13.6 mm", No}, {".540 in", ".535 in", No}, {"13.6 mm", "13.5 mm", No},
		// half a tenth under: suits the hosels that come out small
		{"13.6 mm", "13.56 mm", Measure},
		// limits on one side: the middle counts, 13.8 mm, not the 13.6 mm they are quoted from
		{"13.6 mm", "13.6 +0.30/+0.10 mm", Turn}, {"13.6 mm", "13.6 +0.00/-0.20 mm", No}, {"13.6 mm", "13.7 -0.05/-0.15 mm", Flush},
		// more than two thirds of an inch's twentieth comes off: nobody turns that much
		{"12.0 mm", "13.6 mm", No},
	} {
		t.Run(test.hosel+" with "+test.base, func(t *testing.T) {
			p := soundParts(t)
			p.head.HoselOD, p.ferrule.BaseOD = p.dim(test.hosel), p.dim(test.base)
			if fit := p.evaluate(); fit.Verdict != test.want {
				t.Errorf("%v %v, want %v", fit.Verdict, codesOf(&fit), test.want)
			}
		})
	}
}

// TestMeasuredSizesAreWhatTheyAre: two sizes that somebody measured are not one size because they nearly are.
func TestMeasuredSizesAreWhatTheyAre(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.ferrule.BaseOD = p.dim("13.6 ±0.03 mm"), p.dim("13.589 ±0.03 mm")
	if fit := p.evaluate(); !fit.Flush.OneSize || fit.Flush.Undersize != .5 {
		t.Errorf("stated: one size %v, undersize %v", fit.Flush.OneSize, fit.Flush.Undersize)
	}
	p.head.HoselOD = p.head.HoselOD.WithOrigin(measure.Measured)
	fit := p.evaluate()
	if fit.Flush.OneSize {
		t.Error("measured: one size all the same")
	}
	// m = −.011 mm, σ = √2 × .01 mm: Φ(.777817) = .7816616827 (computed with Python's statistics.NormalDist)
	near(t, "undersize when measured", fit.Flush.Undersize, .7816616827, 1e-9)
}

// grade is where a verdict stands between a joint that fits and one that does not. Preparing may stand anywhere between.
func grade(v Verdict) (grade float64, graded bool) {
	switch v {
	case Flush, Turn:
		return 0, true
	case Measure:
		return 1, true
	case No:
		return 2, true
	case Prep:
		return 1, true
	}
	return 0, false
}

// jumps reports whether two verdicts are more than one grade apart.
func jumps(a, b Verdict) bool {
	x, xGraded := grade(a)
	y, yGraded := grade(b)
	return xGraded && yGraded && (x-y > 1 || y-x > 1)
}

// TestNoVerdictHangsOnAMicrometre: a micrometre more or less of any size moves a verdict by no more than one grade. It is tried at
// the very edge of another verdict, as Sensitivity finds it.
func TestNoVerdictHangsOnAMicrometre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1), complete: true}.joint()
		p := probe{head: d.head, tip: d.tip, ferrule: d.ferrule, shop: d.shop}
		before := p.evaluate().Verdict
		knob := rapid.SampledFrom(knobs).Draw(t, "knob")
		direction := rapid.SampledFrom([]int64{-1, 1}).Draw(t, "direction")
		change, found := knob.turn(p, direction, before)
		if !found {
			return
		}
		dim := knob.dim(&p)
		*dim = dim.Shift(change.Shift)
		after := p.evaluate().Verdict
		*dim = dim.Shift(measure.Micrometres(-direction))
		if back := p.evaluate().Verdict; jumps(back, after) {
			t.Fatalf("%v: %v, and at %v, a micrometre before it, %v", knob.field, after, dim, back)
		}
	})
}

// TestUnitsDoNotDecide: a size that is rewritten from millimetres to thousandths, as people round it, leaves a base of the same size
// flush, and moves no other by more than one grade.
func TestUnitsDoNotDecide(t *testing.T) {
	grades := map[Verdict]int{No: 3, Measure: 2, Flush: 1, Turn: 0}
	for tenth := int64(115); tenth <= 145; tenth++ {
		inMM := measure.Micrometres(100 * tenth)
		thou := measure.Thou((inMM.Picometres() + 12_700_000) / 25_400_000)
		for _, unit := range []measure.Length{measure.Micrometres(10), measure.Thou(1)} {
			for step := int64(-60); step <= 120; step++ {
				p := soundParts(t)
				p.ferrule.BaseOD = measure.Nominal(inMM.Add(unit.MulInt(step)))
				p.head.HoselOD = measure.Nominal(inMM)
				one := p.evaluate()
				p.head.HoselOD = measure.Nominal(thou)
				other := p.evaluate()
				if step == 0 && (one.Verdict != Flush || other.Verdict != Flush) {
					t.Errorf("%v with its own size: %v, with %v: %v", inMM, one.Verdict, thou, other.Verdict)
				}
				// too large by more than the turn limit is no too: there turn and measure are neighbours of it
				if has(&one, FlushTurnLimit) || has(&other, FlushTurnLimit) {
					continue
				}
				if apart := grades[one.Verdict] - grades[other.Verdict]; apart > 1 || apart < -1 {
					t.Errorf("base %v: %v on %v, %v on %v", p.ferrule.BaseOD, one.Verdict, inMM, other.Verdict, thou)
				}
			}
		}
	}
}

// TestVerdictAlongTheBase: with the tolerances in use, a base that grows goes through the verdicts in this order, and no band is
// narrower than what calipers tell. Standard deviations are those of ± hosel and ± base in thousandths.
func TestVerdictAlongTheBase(t *testing.T) {
	order := []Verdict{No, Measure, Flush, Turn, Measure, No}
	for _, tolerances := range [][2]int64{{3, 2}, {1, 1}, {2, 1}, {5, 3}} {
		t.Run(fmt.Sprintf(".%03d and .%03d", tolerances[0], tolerances[1]), func(t *testing.T) {
			p := soundParts(t)
			p.head.HoselOD = measure.PlusMinus(measure.Thou(500), measure.Thou(tolerances[0]))
			at, width := 0, 0
			const micrometres = 1300
			for m := int64(-200); m <= micrometres; m++ {
				p.ferrule.BaseOD = measure.PlusMinus(measure.Thou(500).Add(measure.Micrometres(m)), measure.Thou(tolerances[1]))
				v := p.evaluate().Verdict
				if v == order[at] {
					width++
					continue
				}
				if at+1 == len(order) || v != order[at+1] {
					t.Fatalf("at %d µm %v comes after %v", m, v, order[at])
				}
				if width < 17 {
					t.Errorf("%v up to %d µm is only %d µm wide", order[at], m, width)
				}
				at, width = at+1, 1
			}
			if at != len(order)-1 {
				t.Errorf("ends with %v", order[at])
			}
		})
	}
}
