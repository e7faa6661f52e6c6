package fitcalc

import (
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// The facts of this file are common practice of the trade, from memory, with nothing published behind them.

// A ferrule for a .370 in parallel tip is made about .002 in under, and holds.
func TestFerruleForAParallelTip(t *testing.T) {
	p := soundParts(t)
	p.tip, p.ferrule.Bore = ParallelTip(p.dim(".370 in")), p.dim(".368 in") // with the shop's tolerances
	fit := p.evaluate()
	if fit.Verdict != Flush || fit.Grip.Interference.Nominal != measure.Thou(2) || fit.Grip.Length != p.ferrule.Length.Nominal() {
		t.Errorf("%v with %v over %v", fit.Verdict, fit.Grip.Interference.Nominal, fit.Grip.Length)
	}
	if fit.Grip.Slip > .001 {
		t.Errorf("slips in %v of joints", fit.Grip.Slip)
	}
}

// onATaperTip is a ferrule for a .370 in parallel tip on a .355 in taper tip, of which nothing else is known. No depth is the shop's
// usual insertion.
func onATaperTip(t *testing.T, depth, length string) Fit {
	return onATaper(t, depth, length).evaluate()
}

func onATaper(t *testing.T, depth, length string) *parts {
	p := soundParts(t)
	p.head.Bore, p.head.BoreForm, p.head.BoreDepth = p.dim(".358 in"), BoreTapered, measure.Dim{}
	if depth != "" {
		p.head.BoreDepth = p.dim(depth)
	}
	p.tip = UsualTaperTip(p.dim(".355 in"))
	p.ferrule.Bore, p.ferrule.Length = p.dim(".368 in"), p.dim(length)
	return p
}

// On a .355 in taper tip that ferrule holds once it is half an inch long, because the shaft grows as it leaves the hosel, and not when
// it is an eighth: in heads whose bores are 1.25 to 1.5 in deep, and where no depth is given.
func TestHalfAnInchHoldsOnATaperTip(t *testing.T) {
	for _, depth := range []string{"", "1.25 in", "1.3 in", "1.375 in", "1.45 in", "1.5 in"} {
		for length, holds := range map[string]bool{".125 in": false, ".5 in": true, ".625 in": true, ".75 in": true, "1 in": true, "1.25 in": true, "1.75 in": true} {
			fit := onATaperTip(t, depth, length)
			want, loose := No, Blocks
			if holds {
				want, loose = Flush, Remarks
			}
			if fit.Verdict != want || weightOf(&fit, GripLoose) != loose || has(&fit, GripHolds) != holds {
				t.Errorf("%s long, %q deep: %v %v with %v, slips in %.3f", length, depth, fit.Verdict, codesOf(&fit), fit.Grip.Interference.Nominal, fit.Grip.Slip)
			}
		}
	}
}

// At 1.5 in insertion half an inch of it grips by .002 in at its top, a quarter by next to nothing: less than a thousandth.
func TestGripAtTheTopOnATaperTip(t *testing.T) {
	fit := onATaperTip(t, "1.5 in", "1/2 in")
	if fit.Grip.Interference.Nominal != measure.Thou(2) {
		t.Errorf("half an inch grips by %v", fit.Grip.Interference.Nominal)
	}
	// it grips from where the shaft is .368 in, at .013/.0079 = 1.6456 in, to its top at 2 in
	near(t, "length", fit.Grip.Length.Inches(), 2-.013/.0079, 1e-9)
	fit = onATaperTip(t, "1.5 in", "1/4 in")
	if i := fit.Grip.Interference.Nominal; i.Sign() <= 0 || !i.Less(measure.Thou(1)) {
		t.Errorf("a quarter grips by %v", i)
	}
}

// A taper tip grows from .355 in to .370 in, over two inches or a little less, and is parallel above. The shaft grows by about .0075 in
// per inch as it leaves the hosel.
func TestTaperTip(t *testing.T) {
	tip := UsualTaperTip(dim(t, ".355 in"))
	for at, want := range map[string]string{"0 in": ".355 in", "2 in": ".370 in", "10 in": ".370 in"} {
		if got := tip.Diameter(long(t, at)).Nominal(); got != long(t, want) {
			t.Errorf("at %s it is %v, want %s", at, got, want)
		}
	}
	near(t, "growth per inch", tip.Taper().Ratio(), .0075, .0005)
}

// An OD of 12.7 mm turned to 12.2 mm loses about .020 in on the diameter.
func TestTurnedToTwelvePointTwo(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.ferrule.BaseOD = p.dim("12.2 mm"), p.dim("12.7 mm")
	fit := p.evaluate()
	if fit.Verdict != Turn {
		t.Errorf("%v %v, want turn", fit.Verdict, codesOf(&fit))
	}
	near(t, "turn-down", fit.Flush.TurnDown.Nominal.Inches(), .020, .0005)
	near(t, "per side", fit.Flush.TurnDown.PerSide().Nominal.Millimetres(), .25, 0)
}

// The best ferrule is not the one whose nominal equals the hosel's: half of those come out undersize.
func TestNominallyEqualIsUndersizeByHalf(t *testing.T) {
	p := soundParts(t)
	p.ferrule.BaseOD = p.dim(".500 ±.001 in")
	near(t, "undersize", p.evaluate().Flush.Undersize, .5, 1e-15)
}

// Equipment Rules of the R&A and the USGA, part 2, section 2c: the top of the neck or socket at most 5 in (127 mm) above the
// sole, putters excepted.
func TestNeckLimitIsThatOfTheRules(t *testing.T) {
	if neckLimit != measure.Millimetres(127) {
		t.Errorf("the limit is %v", neckLimit)
	}
}
