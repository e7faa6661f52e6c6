package fitcalc

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

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

// long reads a length as the tests write it.
func long(t testing.TB, s string) measure.Length {
	t.Helper()
	l, err := measure.ParseLength(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// parts is one joint of a test.
type parts struct {
	t       testing.TB
	head    Head
	tip     Tip
	ferrule Ferrule
	shop    Shop
}

// soundParts is a joint that ends flush as supplied and about which nothing has to be assumed: a .370 in parallel tip under a
// half-inch ferrule, all with limits.
func soundParts(t testing.TB) *parts {
	return &parts{
		t: t,
		head: Head{
			HoselOD: dim(t, ".500 ±.001 in"), Bore: dim(t, ".374 ±.001 in"), BoreForm: BoreParallel,
			BoreDepth: dim(t, "1.25 in"), Top: TopFlat,
		},
		tip: ParallelTip(dim(t, ".370 ±.0005 in")),
		ferrule: Ferrule{
			Bore: dim(t, ".368 ±.0005 in"), BaseOD: dim(t, ".501 ±.001 in"), Length: dim(t, ".5 in"), Style: Plain,
		},
		shop: DefaultShop(),
	}
}

func (p *parts) dim(s string) measure.Dim { return dim(p.t, s) }

func (p *parts) evaluate() Fit {
	p.t.Helper()
	fit, err := Evaluate(p.head, p.tip, p.ferrule, p.shop)
	if err != nil {
		p.t.Fatal(err)
	}
	return fit
}

// taper puts a .355 in taper tip into a tapered bore, both of .0075 in per inch: .370 in wide two inches up.
func (p *parts) taper() {
	p.shop.TipTaper = measure.TaperPPB(7_500_000)
	p.head.Bore, p.head.BoreForm = p.dim(".358 ±.001 in"), BoreTapered
	p.tip = TaperTip(p.dim(".355 ±.0005 in"), p.shop.TipTaper)
	p.ferrule.Bore = p.dim(".366 ±.0005 in")
}

// countersunk gives the head a countersink of 60° down to the bore.
func (p *parts) countersunk(mouth string) {
	p.head.Top, p.head.Countersink = TopCountersunk, Countersink{Mouth: p.dim(mouth), Angle: measure.Degrees(60)}
}

func (p *parts) counterbored(diameter, depth string) {
	p.head.Top, p.head.Counterbore = TopCounterbored, Counterbore{Diameter: p.dim(diameter), Depth: p.dim(depth)}
}

func (p *parts) collar(od, length string) {
	p.ferrule.Style, p.ferrule.Collar = Collared, Spigot{OD: p.dim(od), Length: p.dim(length)}
}

func (p *parts) step(od, length string) {
	p.ferrule.Style, p.ferrule.Step = Stepped, Spigot{OD: p.dim(od), Length: p.dim(length)}
}

func (p *parts) profile(tolerance string, sections ...string) {
	var stations []Station
	for i := 0; i < len(sections); i += 2 {
		stations = append(stations, Station{long(p.t, sections[i]), long(p.t, sections[i+1])})
	}
	tip, err := ProfileTip(long(p.t, tolerance), stations...)
	if err != nil {
		p.t.Fatal(err)
	}
	p.tip = tip
}

func codesOf(fit *Fit) []string {
	var codes []string
	for r := range fit.Reasons() {
		codes = append(codes, r.Code.String())
	}
	return codes
}

func reasonOf(fit *Fit, code Code) (Reason, bool) {
	for r := range fit.Reasons() {
		if r.Code == code {
			return r, true
		}
	}
	return Reason{}, false
}

func TestSoundJoint(t *testing.T) {
	p := soundParts(t)
	fit := p.evaluate()
	if fit.Verdict != Flush || fit.Assumptions != 0 {
		t.Errorf("verdict %v with assumptions %b, want flush with none", fit.Verdict, fit.Assumptions)
	}
	if diff := cmp.Diff([]string{"flush.as-supplied", "grip.holds"}, codesOf(&fit)); diff != "" {
		t.Errorf("reasons (-want +got):\n%s", diff)
	}
	if !fit.Flush.Known || !fit.Grip.Known || !fit.Grip.KnownLength || !fit.Seat.Known || !fit.Bore.Known ||
		!fit.Bore.KnownInsertion || !fit.Work.Known {
		t.Errorf("something is not known of a joint of which everything is given: %+v", fit)
	}
}

type codeCase struct {
	code          Code
	name          string
	with, without func(*parts)
	verdict       Verdict // of the joint with it
	level         Level
}

// codeCases hold, for every code, a joint that gives it and its neighbour that does not. The sizes at which a code begins
// are worked out beside it: with the limits at three standard deviations, 5 % lies beyond 1.6449 of them and 16 % beyond .9945.
var codeCases = []codeCase{
	{FlushAsSupplied, "by the step", func(*parts) {}, func(p *parts) { p.ferrule.BaseOD = p.dim(".505 ±.001 in") }, Flush, Remarks},
	// σ = √2 × .001/3 = .000471 in; P(S > .002) = 16 % at S = .002 − .9945 σ = .001531 in
	{FlushTurn, "at the share", func(p *parts) { p.ferrule.BaseOD = p.dim(".5016 ±.001 in") },
		func(p *parts) { p.ferrule.BaseOD = p.dim(".5015 ±.001 in") }, Turn, Turns},
	// σ = √(.001² + .003²)/3 = .001054 in; P(S < −.002) = 16 % at −.002 + .9945 σ = −.000952 in
	{FlushUndersize, "at the risk", func(p *parts) { p.ferrule.BaseOD = p.dim(".4990 ±.003 in") },
		func(p *parts) { p.ferrule.BaseOD = p.dim(".4991 ±.003 in") }, Measure, Measures},
	{FlushUndersize, "at the step", func(p *parts) { p.ferrule.BaseOD = p.dim(".4979999 ±.001 in") },
		func(p *parts) { p.ferrule.BaseOD = p.dim(".4980001 ±.001 in") }, No, Blocks},
	// exact sizes are known no better than calipers tell, .0007 in
	{FlushUndersize, "next to the step", func(p *parts) { p.ferrule.BaseOD, p.head.HoselOD = p.dim(".49869 ±0 in"), p.dim(".500 ±0 in") },
		func(p *parts) { p.ferrule.BaseOD, p.head.HoselOD = p.dim(".4987 ±0 in"), p.dim(".500 ±0 in") }, Measure, Measures},
	// P(S > .040) = 5 % at .040 − 1.6449 σ = .039225 in, and 84 % at .040469 in, where calipers do not tell it from .040 in
	{FlushTurnLimit, "one in twenty", func(p *parts) { p.ferrule.BaseOD = p.dim(".5393 ±.001 in") },
		func(p *parts) { p.ferrule.BaseOD = p.dim(".5392 ±.001 in") }, Turn, Remarks},
	{FlushTurnLimit, "at the limit", func(p *parts) { p.ferrule.BaseOD = p.dim(".5400001 ±.001 in") },
		func(p *parts) { p.ferrule.BaseOD = p.dim(".54 ±.001 in") }, Measure, Measures},
	{FlushTurnLimit, "beyond the limit", func(p *parts) { p.ferrule.BaseOD = p.dim(".5408 ±.001 in") },
		func(p *parts) { p.ferrule.BaseOD = p.dim(".5407 ±.001 in") }, No, Blocks},

	{GripHolds, "a bore .0007 in under", func(p *parts) { p.ferrule.Bore = p.dim(".3693 ±.0005 in") },
		func(p *parts) { p.ferrule.Bore = p.dim(".3694 ±.0005 in") }, Flush, Remarks},
	// σ = √(.0005² + .003²)/3 = .001014 in; P(interference ≤ 0) = 5 % at .001668 in
	{GripLoose, "at the risk", func(p *parts) { p.ferrule.Bore = p.dim(".3684 ±.003 in") },
		func(p *parts) { p.ferrule.Bore = p.dim(".3683 ±.003 in") }, Prep, Prepares},
	{GripLoose, "next to nothing", func(p *parts) { p.ferrule.Bore = p.dim(".3694 ±.0005 in") },
		func(p *parts) { p.ferrule.Bore = p.dim(".3693 ±.0005 in") }, Prep, Prepares},
	{GripLoose, "with play", func(p *parts) { p.ferrule.Bore = p.dim(".3700001 ±.0005 in") },
		func(p *parts) { p.ferrule.Bore = p.dim(".3699999 ±.0005 in") }, No, Blocks},
	// 2 % of the bore less the interference is .0007 in at .3707/1.02 = .363431 in, and nothing at .370/1.02 = .362745 in
	{GripSplit, "next to the limit", func(p *parts) { p.ferrule.Bore = p.dim(".3634 ±.0005 in") },
		func(p *parts) { p.ferrule.Bore = p.dim(".3635 ±.0005 in") }, Prep, Prepares},
	{GripSplit, "beyond the limit", func(p *parts) { p.ferrule.Bore = p.dim(".3627 ±.0005 in") },
		func(p *parts) { p.ferrule.Bore = p.dim(".3628 ±.0005 in") }, No, Blocks},
	// 2 % over .368 in is .37536 in, and .0007 in less .37466 in
	{GripOverTip, "next to the limit", func(p *parts) { p.bulge(".3747 in") }, func(p *parts) { p.bulge(".3746 in") }, Prep, Prepares},
	{GripOverTip, "beyond the limit", func(p *parts) { p.bulge(".3754 in") }, func(p *parts) { p.bulge(".3753 in") }, No, Blocks},
	// under the ferrule the shaft grows from .364375 to .368125 in; .100 in of it is above .367375 in
	{GripShort, "at the least grip", func(p *parts) { p.taper(); p.ferrule.Bore = p.dim(".3674 ±.0005 in") },
		func(p *parts) { p.taper(); p.ferrule.Bore = p.dim(".367375 ±.0005 in") }, Prep, Prepares},

	// twice the wall is hosel − tip = .0607 in where it is .0007 in more than the least
	{WallThin, "next to the least wall", func(p *parts) { p.thinHosel(".4306 ±.001 in") },
		func(p *parts) { p.thinHosel(".4307 ±.001 in") }, Measure, Measures},
	{WallThin, "below the least wall", func(p *parts) { p.thinHosel(".4299999 ±.001 in") },
		func(p *parts) { p.thinHosel(".4300001 ±.001 in") }, No, Blocks},
	// a turn-down of .020 in is one of .010 in per side; .0007 in less is not sure to spare the ring
	{RingCut, "next to the ring", func(p *parts) { p.ring(".010 in"); p.ferrule.BaseOD = p.dim(".5194 ±.001 in") },
		func(p *parts) { p.ring(".010 in"); p.ferrule.BaseOD = p.dim(".5193 ±.001 in") }, Measure, Measures},
	{RingCut, "through the ring", func(p *parts) { p.ring(".010 in"); p.ferrule.BaseOD = p.dim(".5200001 ±.001 in") },
		func(p *parts) { p.ring(".010 in"); p.ferrule.BaseOD = p.dim(".5199999 ±.001 in") }, No, Blocks},

	// CutMouth = .385 + .030 × 2 tan 30° = .41964 in leaves a wall of (.499 − .41964)/2 = .0397 in
	{SeatCollarHigh, "on a flat top", func(p *parts) { p.collar(".385 in", ".030 in") },
		func(p *parts) { p.collar(".385 in", ".030 in"); p.countersunk(".430 ±.001 in") }, Prep, Prepares},
	// .420 + .060 × 2 tan 30° = .48928 in leaves .0049 in
	{SeatCollarHigh, "with no wall to cut", func(p *parts) { p.collar(".420 in", ".060 in") },
		func(p *parts) { p.collar(".420 in", ".060 in"); p.countersunk(".495 ±.001 in") }, No, Blocks},
	// σ = √(.001² + .001²)/3 = .000471 in; P(step > counterbore) = 5 % at .000775 in under
	{SeatStepWide, "at the risk", func(p *parts) { p.counterbored(".440 ±.001 in", ".25 in"); p.step(".4393 ±.001 in", ".24 in") },
		func(p *parts) { p.counterbored(".440 ±.001 in", ".25 in"); p.step(".4392 ±.001 in", ".24 in") }, Prep, Prepares},
	{SeatStepWide, "wider", func(p *parts) { p.counterbored(".440 ±.001 in", ".25 in"); p.step(".4400001 ±.001 in", ".24 in") },
		func(p *parts) { p.counterbored(".440 ±.001 in", ".25 in"); p.step(".4399999 ±.001 in", ".24 in") }, No, Blocks},
	// σ = √2 × .003/3 = .00141 in; P(stand-off > .005) = 5 % at .005 − .00233 = .00267 in
	{SeatStepLong, "at the risk", func(p *parts) { p.counterbored(".440 in", ".250 ±.003 in"); p.step(".42 in", ".2527 ±.003 in") },
		func(p *parts) { p.counterbored(".440 in", ".250 ±.003 in"); p.step(".42 in", ".2526 ±.003 in") }, Prep, Prepares},
	{SeatStepLong, "longer by the gap", func(p *parts) { p.counterbored(".440 in", ".250 ±.003 in"); p.step(".42 in", ".2550001 ±.003 in") },
		func(p *parts) { p.counterbored(".440 in", ".250 ±.003 in"); p.step(".42 in", ".2549999 ±.003 in") }, No, Blocks},
	{SeatStepLong, "on a flat top", func(p *parts) { p.step(".42 in", ".24 in") },
		func(p *parts) { p.counterbored(".440 in", ".25 in"); p.step(".42 in", ".24 in") }, No, Blocks},
	// σ = .005/3 = .001667 in; P(depth > .030) = 5 % at .027258 in and 16 % at .028343 in
	{SeatRecessOpen, "one in twenty", func(p *parts) { p.counterbored(".440 in", ".0273 in") },
		func(p *parts) { p.counterbored(".440 in", ".0272 in") }, Flush, Remarks},
	{SeatRecessOpen, "at the share", func(p *parts) { p.counterbored(".440 in", ".0284 in") },
		func(p *parts) { p.counterbored(".440 in", ".0283 in") }, Measure, Measures},
	{SeatRecessOpen, "under a plain ferrule", func(p *parts) { p.counterbored(".440 in", ".0300001 in") },
		func(p *parts) { p.counterbored(".440 in", ".030 in") }, No, Blocks},
	{SeatRecessOpen, "under a short step", func(p *parts) { p.counterbored(".440 in", ".25 in"); p.step(".42 in", ".2199999 in") },
		func(p *parts) { p.counterbored(".440 in", ".25 in"); p.step(".42 in", ".22 in") }, Flush, Remarks},
	{SeatRounded, "by word", func(p *parts) { p.head.Top = TopRounded }, func(p *parts) { p.head.Top = TopFlat }, Bare, TakesNone},

	{BoreTight, "to ream", func(p *parts) { p.head.Bore = p.dim(".3709999 ±.001 in") },
		func(p *parts) { p.head.Bore = p.dim(".371 ±.001 in") }, Prep, Prepares},
	{BoreTight, "at the most to ream", func(p *parts) { p.head.Bore = p.dim(".361 ±.001 in") },
		func(p *parts) { p.head.Bore = p.dim(".371 ±.001 in") }, Prep, Prepares},
	{BoreTight, "too much to ream", func(p *parts) { p.head.Bore = p.dim(".3609999 ±.001 in") },
		func(p *parts) { p.head.Bore = p.dim(".371 ±.001 in") }, No, Blocks},
	{BoreLoose, "to shim", func(p *parts) { p.head.Bore = p.dim(".3780001 ±.001 in") },
		func(p *parts) { p.head.Bore = p.dim(".378 ±.001 in") }, Prep, Prepares},
	{BoreLoose, "too much to shim", func(p *parts) { p.head.Bore = p.dim(".4000001 ±.001 in") },
		func(p *parts) { p.head.Bore = p.dim(".378 ±.001 in") }, No, Blocks},
	// σ = .005/3 = .001667 in; P(depth < .75) = 16 % at .751657 in
	{BoreShallow, "at the share", func(p *parts) { p.head.BoreDepth = p.dim(".7516 in") },
		func(p *parts) { p.head.BoreDepth = p.dim(".7517 in") }, Measure, Measures},
	{BoreShallow, "at the least", func(p *parts) { p.head.BoreDepth = p.dim(".7499999 in") },
		func(p *parts) { p.head.BoreDepth = p.dim(".75 in") }, No, Blocks},
	// the tip is .355 + 1.25 × .0075 = .364375 in at the top of the bore, where it clears a parallel one least
	{BoreFormed, "a taper tip in a parallel bore", func(p *parts) {
		p.taper()
		p.head.Bore, p.head.BoreForm = p.dim(".3664 ±.001 in"), BoreParallel
	}, func(p *parts) { p.taper() }, Prep, Prepares},

	{LengthShort, "at the least", func(p *parts) { p.ferrule.Length = p.dim(".1249999 in") },
		func(p *parts) { p.ferrule.Length = p.dim(".125 in") }, Flush, Remarks},
	{LengthLong, "at the most", func(p *parts) { p.ferrule.Length = p.dim("1.7500001 in") },
		func(p *parts) { p.ferrule.Length = p.dim("1.75 in") }, Flush, Remarks},
	{LengthLong, "on a short hosel", func(p *parts) { p.head.HoselLength = p.dim(".4999999 in") },
		func(p *parts) { p.head.HoselLength = p.dim(".5 in") }, Flush, Remarks},
	{NeckOverLimit, "at 127 mm", func(p *parts) { p.head.NeckTop = p.dim("127.0001 mm") },
		func(p *parts) { p.head.NeckTop = p.dim("127 mm") }, Flush, Remarks},
	{NeckOverLimit, "a chipper is an iron", func(p *parts) { p.head.NeckTop, p.head.Category = p.dim("6 in"), Chipper },
		func(p *parts) { p.head.NeckTop, p.head.Category = p.dim("6 in"), Putter }, Flush, Remarks},
	{DataMissing, "the hosel OD", func(p *parts) { p.head.HoselOD = measure.Dim{} }, func(*parts) {}, Ask, Undecided},
}

// thinHosel sets a hosel OD and a base a thousandth over it.
func (p *parts) thinHosel(od string) {
	p.head.HoselOD = p.dim(od)
	p.ferrule.BaseOD = p.head.HoselOD.Shift(measure.Thou(1))
}

// bulge is a tip of a diameter at its end that narrows to .370 in an inch up.
func (p *parts) bulge(end string) {
	p.head.Bore = p.dim(".379 ±.001 in")
	p.profile(".0005 in", "0 mm", end, "1 in", ".370 in")
}

func (p *parts) ring(depth string) {
	p.ferrule.Rings, p.ferrule.RingDepth = 1, p.dim(depth)
}

func TestCodes(t *testing.T) {
	for _, c := range codeCases {
		t.Run(c.code.String()+"/"+c.name, func(t *testing.T) {
			with, without := soundParts(t), soundParts(t)
			c.with(with)
			c.without(without)
			fit := with.evaluate()
			reason, found := reasonOf(&fit, c.code)
			if !found {
				t.Fatalf("%v %v, want %v among them", fit.Verdict, codesOf(&fit), c.code)
			}
			if fit.Verdict != c.verdict || reason.Level != c.level {
				t.Errorf("verdict %v at level %v %v, want %v at %v", fit.Verdict, reason.Level, codesOf(&fit), c.verdict, c.level)
			}
			if fit := without.evaluate(); slices.Contains(codesOf(&fit), c.code.String()) {
				if r, _ := reasonOf(&fit, c.code); r.Level >= c.level {
					t.Errorf("the neighbour has it too: %v", codesOf(&fit))
				}
			}
		})
	}
}

func TestEveryCodeHasACase(t *testing.T) {
	for code := NoCode + 1; code.String() != ""; code++ {
		if !slices.ContainsFunc(codeCases, func(c codeCase) bool { return c.code == code }) {
			t.Errorf("no case gives %v", code)
		}
	}
}

// TestReasonsStandByWeight: what decides the verdict comes first, and reasons of one weight stay in the order of the bench.
func TestReasonsStandByWeight(t *testing.T) {
	p := soundParts(t)
	p.head.NeckTop = p.dim("6 in")
	p.head.Bore = p.dim(".3705 ±.001 in")
	p.head.BoreDepth = p.dim(".5 in")
	p.ferrule.BaseOD = p.dim(".510 ±.001 in")
	p.ferrule.Bore = measure.Dim{}
	fit := p.evaluate()
	want := []string{"bore.shallow", "data.missing", "bore.tight", "flush.turn", "neck.over-limit"}
	if diff := cmp.Diff(want, codesOf(&fit)); diff != "" || fit.Verdict != No {
		t.Errorf("%v (-want +got):\n%s", fit.Verdict, diff)
	}
	fit.Reasons()(func(r Reason) bool {
		if r.Code != BoreShallow {
			t.Errorf("%v comes after the sequence was stopped", r.Code)
		}
		return false
	})
}

// TestHoselWallHasALimitOfItsOwn beside that of the ferrule's wall.
func TestHoselWallHasALimitOfItsOwn(t *testing.T) {
	p := soundParts(t)
	p.collar(".385 in", ".030 in") // the cut leaves .0397 in
	p.shop.LeastHoselWall = measure.Thou(40)
	if fit := p.evaluate(); fit.Verdict != No {
		t.Errorf("%v, want no", fit.Verdict)
	}
	p.shop.LeastHoselWall, p.shop.LeastWall = measure.Thou(39), measure.Thou(40)
	if fit := p.evaluate(); fit.Verdict != Prep {
		t.Errorf("%v, want prep", fit.Verdict)
	}
}

// TestShortFerruleGripsAllOver: where it is shorter than the least grip, all of it is enough.
func TestShortFerruleGripsAllOver(t *testing.T) {
	p := soundParts(t)
	p.ferrule.Length = p.dim(".09 in")
	if fit := p.evaluate(); fit.Verdict != Flush {
		t.Errorf("%v %v, want flush", fit.Verdict, codesOf(&fit))
	}
}

// TestRisksDecide shows that the risks of the shop decide, not the limits of the parts.
func TestRisksDecide(t *testing.T) {
	p := soundParts(t)
	p.ferrule.BaseOD = p.dim(".4988 ±.001 in") // P(S < −.002) = Φ(−1.697) = 4.5 %
	if fit := p.evaluate(); fit.Verdict != Flush {
		t.Errorf("%v at a risk of 16%%, want flush", fit.Verdict)
	}
	p.shop.UndersizeRisk = 0.04
	if fit := p.evaluate(); fit.Verdict != Measure {
		t.Errorf("%v at a risk of 4%%, want measure", fit.Verdict)
	}
}

// good are the only codes that ask for nobody's attention, as far as they are remarks.
var good = []Code{FlushAsSupplied, GripHolds}

func TestReasonWarns(t *testing.T) {
	for c := FlushAsSupplied; c <= DataMissing; c++ {
		if got, want := (Reason{Code: c, Level: Remarks}).Warns(), !slices.Contains(good, c); got != want {
			t.Errorf("%v among the remarks warns: %v", c, got)
		}
		for l := Turns; l <= TakesNone; l++ {
			if !(Reason{Code: c, Level: l}).Warns() {
				t.Errorf("%v of level %v does not warn", c, l)
			}
		}
	}
}
