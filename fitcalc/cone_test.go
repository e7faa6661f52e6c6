package fitcalc

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// What a tip does not state is the shop's that evaluates it, and what it states is not.
func TestTaperOfTheShop(t *testing.T) {
	p := soundParts(t)
	p.taper()
	p.shop.TipTaper, p.shop.TipTaperTo = measure.TaperPPB(9_000_000), long(t, ".372 in")
	end, rate := p.dim(".355 ±.0005 in"), measure.TaperPPB(6_000_000)
	for _, test := range []struct {
		name                  string
		tip                   Tip
		atQuarter, atFour     string // the shaft 1.75 in and 4 in above the tip end
		statesTaper, statesTo bool
	}{
		{"nothing stated", UsualTaperTip(end), ".37075 in", ".372 in", false, false},
		{"rate stated", TaperTip(end, rate), ".3655 in", ".372 in", true, false},
		{"end of the cone stated", UsualTaperTip(end).UpTo(long(t, ".368 in")), ".368 in", ".368 in", false, true},
		{"all stated", TaperTip(end, rate).UpTo(long(t, ".366 in")), ".3655 in", ".366 in", true, true},
	} {
		p.tip = test.tip
		if p.tip.StatesTaper() != test.statesTaper || p.tip.StatesTaperTo() != test.statesTo {
			t.Errorf("%s: %v and %v", test.name, p.tip.StatesTaper(), p.tip.StatesTaperTo())
		}
		for length, want := range map[string]string{".5 in": test.atQuarter, "2.75 in": test.atFour} {
			p.ferrule.Length = p.dim(length)
			fit := p.evaluate()
			if got := fit.Grip.Interference.Nominal.Add(p.ferrule.Bore.Nominal()); got != long(t, want) {
				t.Errorf("%s under %s: %v, want %s", test.name, length, got, want)
			}
			at, tip := long(t, "1.25 in").Add(long(t, length)), p.tip.ByShop(&p.shop)
			if got := tip.Diameter(at).Nominal(); got != long(t, want) {
				t.Errorf("%s at %v: %v, want %s", test.name, at, got, want)
			}
		}
	}
	before := ParallelTip(end)
	if after := before.UpTo(long(t, ".4 in")).ByShop(&p.shop); !reflect.DeepEqual(before, after) {
		t.Errorf("a parallel tip became %+v", after)
	}
}

// A tip that is as large at its end as taper tips get is parallel, so that no tip is far from another that is a micrometre larger.
func TestTaperTipAsLargeAsTheyGet(t *testing.T) {
	for end, want := range map[string]string{".3699 in": ".370 in", ".370 in": ".370 in", ".3701 in": ".3701 in", ".395 in": ".395 in"} {
		tip := UsualTaperTip(dim(t, end))
		if err := tip.Validate(); err != nil {
			t.Error(err)
		}
		if got := tip.Diameter(measure.Inches(2)).Nominal(); got != long(t, want) {
			t.Errorf("a taper tip of %s is %v two inches up, want %s", end, got, want)
		}
	}
}

// The verdicts that hang on the rate at which a taper tip grows say that they do: those that a rate a twentieth less or more changes.
func TestVerdictsThatHangOnTheTaper(t *testing.T) {
	for _, test := range []struct {
		depth, length string
		hangs         bool
	}{
		{"1.25 in", ".5 in", true},    // .0008 in, and at .0075 in per inch .0001 in
		{"1.5 in", ".5 in", false},    // .370 in either way
		{"1.25 in", ".75 in", false},  // the same
		{"1.25 in", ".125 in", false}, // .002 in of play, at the least .0016 in
		{"1.5 in", ".125 in", true},   // .0002 in of play, and at .0083 in per inch .0005 in of interference
		{"1.5 in", ".25 in", true},
	} {
		fit := onATaperTip(t, test.depth, test.length)
		if got := fit.Assumptions.Has(AssumedTipTaper); got != test.hangs {
			t.Errorf("%s long, %s deep: %v hangs on the taper: %v", test.length, test.depth, fit.Verdict, got)
		}
	}
}

func TestAssumedTaperIsWhatVerdictsHangOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sketch{t: t, unit: measure.Thou(1)}
		d := s.joint()
		end := s.dim("taper tip", 353, 357, 1)
		if !end.Given() {
			return
		}
		d.tip = UsualTaperTip(end).Trim(s.length("trim", 0, 500))
		d.ferrule.Bore = s.dim("ferrule bore", 362, 370, 1)
		hangs := false
		for _, rate := range d.shop.OtherTapers() {
			other := d
			other.shop.TipTaper = rate
			hangs = hangs || other.evaluate(t).Verdict != d.evaluate(t).Verdict
		}
		fit := d.evaluate(t)
		if fit.Assumptions.Has(AssumedTipTaper) != hangs {
			t.Fatalf("%v hangs on the taper: %v, said: %v", fit.Verdict, hangs, !hangs)
		}
		var decided Fit
		if DecideInto(&decided, &d.head, &d.tip, &d.ferrule, &d.shop); fit.Verdict != No && decided != fit {
			t.Fatal("DecideInto finds something else")
		}
		d.tip = TaperTip(end, d.shop.TipTaper)
		if fit := d.evaluate(t); fit.Assumptions.Has(AssumedTipTaper) {
			t.Fatal("a rate that the tip states is not assumed")
		}
	})
}

// A tip that is said to taper, and is as large at its end as the shop's taper tips get, was taken as parallel on no other ground.
func TestTaperTipTakenAsParallel(t *testing.T) {
	p := soundParts(t)
	p.tip = UsualTaperTip(p.dim(".370 ±.0005 in"))
	if fit := p.evaluate(); !fit.Assumptions.Has(AssumedTipTaper) || fit.Grip.Interference.Nominal != measure.Thou(2) {
		t.Errorf("%b, %v", fit.Assumptions, fit.Grip.Interference.Nominal)
	}
	p.tip = p.tip.UpTo(measure.Thou(370))
	if fit := p.evaluate(); fit.Assumptions.Has(AssumedTipTaper) {
		t.Error("a tip that states to taper up to its end is parallel")
	}
}

// The tightest place is where the cone ends, and the way there is that of the cone and then of the shaft: the force to push a ferrule
// on is that of a profile with the same stations.
func TestMechanicsKnowTheEndOfTheCone(t *testing.T) {
	p := soundParts(t)
	p.taper()
	p.head.BoreDepth, p.ferrule.Length, p.ferrule.Material = p.dim("1.5 in"), p.dim("1 in"), CelluloseAcetate
	p.tip = TaperTip(p.dim(".355 ±.0005 in"), measure.TaperPPB(7_500_000))
	cone, err := MechanicsOf(p.head, p.tip, p.ferrule, p.shop, Shaft{})
	if err != nil {
		t.Fatal(err)
	}
	p.profile(".0005 in", "0 in", ".355 in", "2 in", ".370 in")
	profile, err := MechanicsOf(p.head, p.tip, p.ferrule, p.shop, Shaft{})
	if err != nil {
		t.Fatal(err)
	}
	if cone.Tightest != measure.Inches(2) || cone.Diameter != measure.Thou(370) || cone.Interference != profile.Interference {
		t.Errorf("%v of %v at %v", cone.Interference, cone.Diameter, cone.Tightest)
	}
	one, err := cone.Supplied()
	if err != nil {
		t.Fatal(err)
	}
	other, err := profile.Supplied()
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(one, other) {
		t.Errorf("as a cone %+v, as a profile %+v", one, other)
	}
}

// coned is a taper tip of any size and rate, trimmed or not, whose cone ends somewhere under a ferrule or thereabouts.
func coned(t *rapid.T) Tip {
	s := sketch{t: t, unit: measure.Micrometres(1), complete: true}
	end := s.dim("end", 8400, 9500, 30)
	rate := measure.TaperPPB(10_000 * rapid.Int64Range(0, 2_000).Draw(t, "rate")) // less is lost in picometres
	to := end.Middle().Add(rate.Growth(s.length("height", 0, 70_000)))
	return TaperTip(end, rate).UpTo(to).Trim(s.length("trim", 0, 40_000))
}

// Along the axis a taper tip never narrows, grows by no more than its rate (so that there is no step where its cone ends), and ends as
// wide as it is said to.
func TestConeIsEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tip := coned(t)
		at := measure.Picometres(rapid.Int64Range(0, 100_000_000_000).Draw(t, "at"))
		if bends := tip.Bends(); len(bends) > 0 && rapid.Bool().Draw(t, "at the end of the cone") {
			at = bends[0].Sub(measure.Micrometres(rapid.Int64Range(0, 20).Draw(t, "before")))
		}
		further := measure.Picometres(rapid.Int64Range(0, 30_000_000_000).Draw(t, "further"))
		low, high := tip.Diameter(at).Middle(), tip.Diameter(at.Add(further)).Middle()
		if grown := high.Sub(low); grown.Sign() < 0 || tip.Taper().Growth(further).Add(measure.Picometres(1)).Less(grown) {
			t.Fatalf("from %v, %v further, it grows by %v", low, further, grown)
		}
		if tip.TaperTo().Less(high) {
			t.Fatalf("%v wide, and said to taper up to %v", high, tip.TaperTo())
		}
		if top := tip.Diameter(measure.Inches(1_000)).Middle(); !tip.Taper().IsZero() && top != tip.TaperTo() {
			t.Fatalf("far up it is %v, and said to taper up to %v", top, tip.TaperTo())
		}
	})
}

// Cutting a length off the tip end is looking that much further up, and so moves where the cone ends.
func TestTrimmingMovesTheCone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tip := coned(t)
		s := sketch{t: t, unit: measure.Micrometres(1)}
		at, off := s.length("at", 0, 80_000), s.length("off", 0, 20_000)
		trimmed := tip.Trim(off)
		if got, want := trimmed.Diameter(at), tip.Diameter(at.Add(off)); got != want {
			t.Fatalf("%v at %v with %v cut off, %v before", got, at, off, want)
		}
		bends, before := trimmed.Bends(), tip.Bends()
		if len(bends) == 1 && (len(before) != 1 || bends[0] != before[0].Sub(off)) {
			t.Fatalf("the cone ended at %v and ends at %v with %v cut off", before, bends, off)
		}
	})
}

// What grips and what is widest, worked out from the diameters at ten thousand places.
func TestConeUnderAFerrule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tip := coned(t)
		s := sketch{t: t, unit: measure.Micrometres(1)}
		from := s.length("from", 0, 45_000)
		length := s.length("length", 1_000, 40_000)
		to := from.Add(length)
		bore := tip.Diameter(from).Middle().Add(s.length("bore", -50, 300))
		const parts = 10_000
		above, widest, lowest := int64(0), measure.Length{}, from
		for i := range int64(parts + 1) {
			at := from.Add(length.MulRatio(i, parts))
			d := tip.Diameter(at).Middle()
			if widest.Less(d) {
				widest, lowest = d, at
			}
			if i < parts && bore.Less(d) {
				above++
			}
		}
		if got := tip.widest(from, to); got != widest {
			t.Fatalf("widest %v, found %v", got, widest)
		}
		place := length.MulRatio(1, parts).Add(measure.Micrometres(1))
		if got := tip.lowest(widest, from, to); place.Less(got.Sub(lowest).Abs()) && tip.Diameter(got).Middle() != widest {
			t.Fatalf("widest from %v on, found from %v on", got, lowest)
		}
		if got := tip.lengthAbove(bore, from, to); place.MulInt(2).Less(got.Sub(length.MulRatio(above, parts)).Abs()) {
			t.Fatalf("above %v over %v, found %v", bore, got, length.MulRatio(above, parts))
		}
	})
}

// Least and most interference are those of the least and most sizes, wherever the cone ends: the diameters at the tops that these make.
func TestConeWorstCase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn{tip: coned(t), shop: DefaultShop()}
		s := sketch{t: t, unit: measure.Micrometres(1), symmetric: true, complete: true}
		p.head = Head{HoselOD: s.dim("hosel OD", 12_000, 13_000, 50), BoreDepth: s.dim("depth", 20_000, 40_000, 3_000), Top: TopFlat}
		p.ferrule = Ferrule{BaseOD: s.dim("base OD", 12_000, 13_000, 50), Bore: s.dim("bore", 8_300, 9_600, 30), Length: s.dim("length", 5_000, 30_000, 2_000)}
		fit := p.evaluate(t)
		depth, length, bore := p.head.BoreDepth, p.ferrule.Length, p.ferrule.Bore
		end := p.tip.end.OrPlusMinus(p.shop.TipTolerance)
		least, most := end.Lower().Sub(p.tip.end.Middle()), end.Upper().Sub(p.tip.end.Middle())
		want := Amount{
			Nominal: p.tip.usualAt(depth.Nominal().Add(length.Nominal())).Sub(bore.Nominal()),
			Least:   p.tip.usualAt(depth.Lower().Add(length.Lower())).Add(least).Sub(bore.Upper()),
			Most:    p.tip.usualAt(depth.Upper().Add(length.Upper())).Add(most).Sub(bore.Lower()),
		}
		got := fit.Grip.Interference
		for _, apart := range []measure.Length{got.Nominal.Sub(want.Nominal), got.Least.Sub(want.Least), got.Most.Sub(want.Most)} {
			if measure.Picometres(4).Less(apart.Abs()) { // two plays are rounded apart from each other
				t.Fatalf("%v, want %v", got, want)
			}
		}
	})
}
