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

// On a .355 in taper tip the same ferrule holds once it is about half an inch long: the shaft grows by .0075 in per inch as
// it leaves the hosel. At 1.5 in insertion half an inch grips by .002 in at its top, a quarter by next to nothing.
func TestFerruleForAParallelTipOnATaper(t *testing.T) {
	p := soundParts(t)
	p.head.Bore, p.head.BoreForm, p.head.BoreDepth = p.dim(".358 in"), BoreTapered, p.dim("1.5 in")
	p.tip = TaperTip(p.dim(".355 in"), p.shop.TipTaper)
	p.ferrule.Bore = p.dim(".368 in")

	p.ferrule.Length = p.dim("1/2 in")
	fit := p.evaluate()
	if !fit.Verdict.Fits() || fit.Grip.Interference.Nominal != measure.Thou(2) {
		t.Errorf("half an inch: %v %v with %v", fit.Verdict, codesOf(&fit), fit.Grip.Interference.Nominal)
	}
	// it grips from where the shaft is .368 in, at .013/.0075 = 1.7333 in, to its top at 2 in
	near(t, "length", fit.Grip.Length.Inches(), 2-.013/.0075, 1e-9)

	p.ferrule.Length = p.dim("1/4 in")
	fit = p.evaluate()
	near(t, "a quarter", fit.Grip.Interference.Nominal.Inches(), .000125, 1e-12) // .355 + 1.75 × .0075 − .368
	if _, loose := reasonOf(&fit, GripLoose); !loose || fit.Verdict != Prep {
		t.Errorf("a quarter: %v %v, want prep for grip.loose: it is held by adhesive", fit.Verdict, codesOf(&fit))
	}

	p.ferrule.Length = p.dim("1/8 in")
	if fit = p.evaluate(); fit.Verdict != No {
		t.Errorf("an eighth: %v %v, want no", fit.Verdict, codesOf(&fit))
	}
}

// A taper tip grows from .355 in to .370 in over two inches.
func TestTaperOverTwoInches(t *testing.T) {
	tip := TaperTip(dim(t, ".355 in"), DefaultShop().TipTaper)
	if got := tip.Diameter(measure.Inches(2)).Nominal(); got != measure.Thou(370) {
		t.Errorf("two inches up it is %v", got)
	}
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
