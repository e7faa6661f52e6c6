package fitcalc

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// drawn are parts of real sizes, of every form, with anything missing.
type drawn struct {
	head    Head
	tip     Tip
	ferrule Ferrule
	shop    Shop
}

// sketch draws them in some unit: every size is a whole number of it.
type sketch struct {
	t    *rapid.T
	unit measure.Length
	// shape and tolerance of all sizes are drawn unless symmetric is set: then they are ± and given.
	symmetric bool
	complete  bool
}

func (s sketch) length(name string, least, most int64) measure.Length {
	return s.unit.MulInt(rapid.Int64Range(least, most).Draw(s.t, name))
}

func (s sketch) dim(name string, least, most, tolerance int64) measure.Dim {
	if !s.complete && rapid.IntRange(0, 15).Draw(s.t, name+" missing") == 15 {
		return measure.Dim{}
	}
	nominal := s.length(name, least, most)
	shape := measure.Shape(rapid.IntRange(0, 2).Draw(s.t, name+" shape"))
	kind := rapid.IntRange(0, 2).Draw(s.t, name+" kind")
	switch {
	case s.symmetric || kind == 0:
		return measure.PlusMinus(nominal, s.length(name+" ±", 0, tolerance)).WithShape(shape)
	case kind == 1:
		return measure.Nominal(nominal).WithShape(shape)
	}
	return measure.WithDeviations(nominal, s.length(name+" lower", -tolerance, tolerance), s.length(name+" upper", -tolerance, tolerance)).
		WithShape(shape)
}

// joint draws a joint in thousandths of an inch. Sizes that have to suit each other are drawn near each other, so that many
// joints fit.
func (s sketch) joint() drawn {
	d := drawn{shop: DefaultShop()}
	around := func(name string, middle, below, above, tolerance int64) measure.Dim {
		return s.dim(name, middle-below, middle+above, tolerance)
	}
	hosel := rapid.Int64Range(475, 560).Draw(s.t, "around hosel")
	end := rapid.SampledFrom([]int64{335, 350, 355, 370}).Draw(s.t, "around tip")
	d.tip = s.tip(end)
	at := end // about the shaft's diameter under the ferrule
	switch d.tip.form {
	case TipTapered:
		at += 1500 * d.tip.Taper().PPB() / 1_000_000_000
	case TipProfiled:
		at += 5
	}
	d.head = Head{
		Category: Category(rapid.IntRange(0, 7).Draw(s.t, "category")),
		HoselOD:  around("hosel OD", hosel, 0, 0, 3), Bore: around("bore", end, -1, 9, 1),
		BoreForm: BoreForm(rapid.IntRange(0, 2).Draw(s.t, "bore form")), BoreDepth: s.dim("bore depth", 900, 1700, 20),
		HoselLength: s.dim("hosel length", 300, 3000, 20), NeckTop: s.dim("neck", 2000, 5500, 20),
		Top: rapid.SampledFrom([]TopForm{TopFlat, TopFlat, TopFlat, TopUnknown, TopFlat, TopRounded, TopCountersunk, TopCounterbored}).Draw(s.t, "top"),
	}
	if rapid.Bool().Draw(s.t, "has a countersink") {
		d.head.Countersink = Countersink{
			Mouth: s.dim("mouth", 405, 450, 2), Depth: s.dim("depth", 20, 90, 3),
			Angle: measure.Degrees(rapid.SampledFrom([]int64{0, 60, 82, 90}).Draw(s.t, "angle")),
		}
	}
	if rapid.IntRange(0, 2).Draw(s.t, "has a counterbore") == 2 {
		d.head.Counterbore = Counterbore{s.dim("counterbore", 400, 450, 2), s.dim("counterbore depth", 20, 300, 3)}
	}
	if rapid.IntRange(0, 3).Draw(s.t, "has a sleeve") == 3 {
		d.head.Adapter = Adapter{around("sleeve OD", hosel, 0, 0, 3), around("sleeve bore", end, 2, 12, 2), s.dim("sleeve depth", 700, 1700, 20)}
	}
	d.ferrule = Ferrule{
		Bore: around("ferrule bore", at, 6, 1, 1), BaseOD: around("base OD", hosel, 2, 38, 2), TopOD: s.dim("top OD", 400, 470, 3),
		Length: s.dim("length", 100, 1900, 20),
		Style:  rapid.SampledFrom([]Style{Plain, Plain, Plain, StyleUnknown, Collared, Stepped}).Draw(s.t, "style"),
	}
	if rapid.IntRange(0, 2).Draw(s.t, "has a ring") == 2 {
		d.ferrule.RingDepth, d.ferrule.RingHeight = s.dim("ring depth", 8, 30, 1), s.dim("ring height", 30, 500, 10)
	}
	if d.ferrule.Style == Collared || d.ferrule.Style == StyleUnknown {
		d.ferrule.Collar = Spigot{s.dim("collar OD", 400, 430, 2), s.dim("collar length", 20, 60, 3)}
	}
	if d.ferrule.Style == Stepped {
		d.ferrule.Step = Spigot{s.dim("step OD", 400, 430, 2), s.dim("step length", 20, 250, 3)}
	}
	return d
}

func (s sketch) tip(around int64) Tip {
	end := s.dim("tip", around, around, 1)
	trim := s.length("trim", 0, 1000)
	switch form := rapid.SampledFrom([]TipForm{TipParallel, TipParallel, TipTapered, TipProfiled, TipUnknown}).Draw(s.t, "tip form"); {
	case form == TipUnknown && !s.complete || !end.Given():
		return Tip{}
	case form == TipProfiled:
		tip, err := ProfileTip(s.length("tip ±", 0, 2),
			Station{Diameter: end.Nominal()},
			Station{s.length("station", 1, 1000), s.length("diameter", around-5, around+5)},
			Station{s.length("second station", 1001, 3000), s.length("second diameter", around, around+10)})
		if err != nil {
			s.t.Fatal(err)
		}
		return tip.Trim(trim)
	case form == TipTapered:
		return TaperTip(end, measure.TaperPPB(rapid.SampledFrom([]int64{0, 7_500_000, 12_000_000}).Draw(s.t, "rate"))).Trim(trim)
	}
	return ParallelTip(end)
}

// TestSketchesVary: the properties are tried on joints of every verdict.
func TestSketchesVary(t *testing.T) {
	count := map[Verdict]int{}
	verdicts := rapid.Custom(func(t *rapid.T) Verdict {
		return sketch{t: t, unit: measure.Thou(1)}.joint().evaluate(t).Verdict
	})
	const joints = 1500
	for i := range joints {
		count[verdicts.Example(i)]++
	}
	for v := Flush; v <= Bare; v++ {
		if count[v] == 0 {
			t.Errorf("of %d joints none is %v", joints, v)
		}
	}
}

func (d drawn) evaluate(t *rapid.T) Fit {
	fit, err := Evaluate(d.head, d.tip, d.ferrule, d.shop)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

func TestPropertiesOfAnyJoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1)}.joint()
		fit := d.evaluate(t)
		checkFit(t, &fit)
		var into Fit
		into.Verdict = Bare // whatever was there is gone
		into.reasons[15].Code = BoreLoose
		EvaluateInto(&into, &d.head, &d.tip, &d.ferrule, &d.shop)
		if into != fit {
			t.Fatal("EvaluateInto finds something else")
		}
	})
}

// checkFit holds what is so of every answer.
func checkFit(t interface{ Fatalf(string, ...any) }, fit *Fit) {
	for name, p := range map[string]float64{
		"undersize": fit.Flush.Undersize, "visible undersize": fit.Flush.VisibleUndersize, "visible oversize": fit.Flush.VisibleOversize,
		"slip": fit.Grip.Slip, "split": fit.Grip.Split, "proud": fit.Seat.Proud,
	} {
		if !(p >= 0 && p <= 1) {
			t.Fatalf("the probability of %s is %v", name, p)
		}
	}
	for name, x := range map[string]float64{
		"mean turn-down": fit.Flush.MeanTurnDownMM, "minutes": fit.Work.Minutes, "strain": fit.Grip.Strain, "most strain": fit.Grip.MostStrain,
	} {
		if !(x >= 0) || math.IsInf(x, 0) {
			t.Fatalf("%s is %v", name, x)
		}
	}
	if fit.Flush.VisibleUndersize > fit.Flush.Undersize || fit.Grip.MostStrain < 0 || fit.Grip.Length.Sign() < 0 {
		t.Fatalf("undersize %v, visibly %v; grip length %v", fit.Flush.Undersize, fit.Flush.VisibleUndersize, fit.Grip.Length)
	}
	for name, a := range map[string]Amount{
		"oversize": fit.Flush.Oversize, "turn-down": fit.Flush.TurnDown, "interference": fit.Grip.Interference,
		"stand-off": fit.Seat.StandOff, "clearance": fit.Bore.Clearance,
	} {
		if a.Most.Less(a.Least) {
			t.Fatalf("%s runs from %v to %v", name, a.Least, a.Most)
		}
	}
	if fit.Verdict == NoVerdict || fit.Verdict > Bare || int(fit.count) >= len(fit.reasons) {
		t.Fatalf("verdict %d with %d reasons", fit.Verdict, fit.count)
	}
	last, first := TakesNone, true
	for r := range fit.Reasons() {
		if first && verdictOf[r.Level] != fit.Verdict {
			t.Fatalf("%v is decided by %v", fit.Verdict, r.Code)
		}
		if first && r != fit.Reason() {
			t.Fatalf("%+v stands first, and Reason is %+v", r, fit.Reason())
		}
		first = false
		if r.Level > last {
			t.Fatalf("%v stands after a lighter reason", r.Code)
		}
		last = r.Level
		if !r.Warns() && r.Level != Remarks {
			t.Fatalf("%v decides something and does not warn", r.Code)
		}
		if r.Code.String() == "" || r.Code == DataMissing && r.Field == NoField {
			t.Fatalf("reason %+v", r)
		}
	}
	if first {
		t.Fatalf("%v without a reason", fit.Verdict)
	}
	for _, r := range fit.reasons[fit.count:] {
		if r != (Reason{}) {
			t.Fatalf("a reason beyond the last: %+v", r)
		}
	}
}

func TestLeastNominalMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fit := sketch{t: t, unit: measure.Thou(1), symmetric: true}.joint().evaluate(t)
		for name, a := range map[string]Amount{
			"oversize": fit.Flush.Oversize, "turn-down": fit.Flush.TurnDown, "interference": fit.Grip.Interference,
			"stand-off": fit.Seat.StandOff, "clearance": fit.Bore.Clearance,
		} {
			if a.Nominal.Less(a.Least) || a.Most.Less(a.Nominal) {
				t.Fatalf("%s: %v, %v, %v", name, a.Least, a.Nominal, a.Most)
			}
		}
	})
}

// TestInchesAndMillimetresAgree: the unit a sheet is written in does not matter, to the last bit.
func TestInchesAndMillimetresAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inches := sketch{t: t, unit: measure.Thou(1)}.joint()
		millimetres := inches
		p := parts{head: inches.head, tip: inches.tip, ferrule: inches.ferrule}
		for _, d := range sizesOf(&p) {
			*d = throughMM(t, *d)
		}
		millimetres.head, millimetres.tip, millimetres.ferrule = p.head, p.tip, p.ferrule
		if inches.evaluate(t) != millimetres.evaluate(t) {
			t.Fatal("the same sizes in millimetres are evaluated differently")
		}
	})
}

// throughMM writes each size in millimetres and reads it back.
func throughMM(t *rapid.T, d measure.Dim) measure.Dim {
	if !d.Given() {
		return d
	}
	through := func(l measure.Length) measure.Length {
		text, exact := l.FormatMillimetres(9)
		back, err := measure.ParseLength(text + " mm")
		if err != nil || !exact {
			t.Fatal(text, exact, err)
		}
		return back
	}
	nominal := through(d.Nominal())
	if !d.HasLimits() {
		return measure.Nominal(nominal).WithShape(d.Shape())
	}
	return measure.WithDeviations(nominal, through(d.Lower()).Sub(nominal), through(d.Upper()).Sub(nominal)).WithShape(d.Shape())
}

// TestScale: a joint three times as large, in a shop of three times the limits, has the same verdict and three times the sizes.
func TestScale(t *testing.T) {
	const factor = 3
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1)}.joint()
		d.head.NeckTop = measure.Dim{} // its limit is no setting
		fit := d.evaluate(t)
		p := parts{head: d.head, tip: d.tip, ferrule: d.ferrule}
		for _, size := range sizesOf(&p) {
			*size = times3(*size)
		}
		p.ferrule.RingHeight = times3(d.ferrule.RingHeight)
		p.tip.trimmed = p.tip.trimmed.MulInt(factor)
		p.tip.stations = nil
		for _, s := range d.tip.stations {
			p.tip.stations = append(p.tip.stations, Station{s.At.MulInt(factor), s.Diameter.MulInt(factor)})
		}
		shop := d.shop
		for _, s := range settings {
			if l, ok := s.field(&shop).(*measure.Length); ok {
				*l = l.MulInt(factor)
			}
		}
		shop.MinutesPerCM3 /= factor * factor * factor
		big, err := Evaluate(p.head, p.tip, p.ferrule, shop)
		if err != nil {
			t.Fatal(err)
		}
		if big.Verdict != fit.Verdict || big.count != fit.count || big.Assumptions != fit.Assumptions {
			t.Fatalf("%v %v became %v %v", fit.Verdict, codesOf(&fit), big.Verdict, codesOf(&big))
		}
		same := func(what string, got, want measure.Length) {
			if got.Sub(want.MulInt(factor)).Abs().Picometres() > 50 { // roundings to the picometre, grown
				t.Fatalf("%s: %v became %v", what, want, got)
			}
		}
		for _, a := range [][2]Amount{
			{big.Flush.Oversize, fit.Flush.Oversize}, {big.Grip.Interference, fit.Grip.Interference},
			{big.Seat.StandOff, fit.Seat.StandOff}, {big.Bore.Clearance, fit.Bore.Clearance},
		} {
			same("nominal", a[0].Nominal, a[1].Nominal)
			same("least", a[0].Least, a[1].Least)
			same("most", a[0].Most, a[1].Most)
		}
		same("wall", big.Work.WallLeft, fit.Work.WallLeft)
		same("insertion", big.Bore.Insertion, fit.Bore.Insertion)
		for _, x := range [][2]float64{
			{big.Flush.Undersize, fit.Flush.Undersize}, {big.Grip.Slip, fit.Grip.Slip}, {big.Grip.Split, fit.Grip.Split},
			{big.Seat.Proud, fit.Seat.Proud}, {big.Work.Minutes, fit.Work.Minutes}, {big.Grip.Strain, fit.Grip.Strain},
		} {
			if math.Abs(x[0]-x[1]) > 1e-6*(1+x[1]) {
				t.Fatalf("%v became %v", x[1], x[0])
			}
		}
	})
}

func times3(d measure.Dim) measure.Dim {
	switch {
	case !d.Given():
		return d
	case !d.HasLimits():
		return measure.Nominal(d.Nominal().MulInt(3)).WithShape(d.Shape())
	}
	nominal := d.Nominal().MulInt(3)
	return measure.WithDeviations(nominal, d.Lower().MulInt(3).Sub(nominal), d.Upper().MulInt(3).Sub(nominal)).WithShape(d.Shape())
}

// TestLargerBase: growing the base never makes it undersize, and never less to turn or slower work.
func TestLargerBase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1), complete: true}.joint()
		small := d.evaluate(t)
		d.ferrule.BaseOD = d.ferrule.BaseOD.Shift(measure.Micrometres(rapid.Int64Range(1, 3000).Draw(t, "growth")))
		large := d.evaluate(t)
		if large.Flush.Undersize > small.Flush.Undersize || large.Flush.VisibleUndersize > small.Flush.VisibleUndersize {
			t.Fatalf("undersize %v became %v", small.Flush.Undersize, large.Flush.Undersize)
		}
		if large.Flush.VisibleOversize < small.Flush.VisibleOversize || large.Flush.MeanTurnDownMM < small.Flush.MeanTurnDownMM-1e-12 {
			t.Fatalf("turn-down %v became %v", small.Flush.MeanTurnDownMM, large.Flush.MeanTurnDownMM)
		}
		if _, before := reasonOf(&small, FlushUndersize); !before {
			if _, after := reasonOf(&large, FlushUndersize); after {
				t.Fatal("the larger base is undersize")
			}
		}
	})
}

// TestAnswersToQuestions: giving what was missing never turns a no into an ask.
func TestAnswersToQuestions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		full := sketch{t: t, unit: measure.Thou(1), complete: true}.joint()
		part := full
		p := parts{head: part.head, tip: part.tip, ferrule: part.ferrule}
		for field, size := range sizesOf(&p) {
			if field != FieldTip && rapid.IntRange(0, 2).Draw(t, "without "+field.String()) == 0 {
				*size = measure.Dim{}
			}
		}
		part.head, part.ferrule = p.head, p.ferrule
		if rapid.IntRange(0, 4).Draw(t, "without the tip") == 0 {
			part.tip = Tip{}
		}
		fit := part.evaluate(t)
		if fit.Verdict != No && fit.Verdict != Bare {
			return
		}
		for range 12 { // answer one question after the other
			r, asks := reasonOf(&fit, DataMissing)
			if !asks {
				return
			}
			answer(t, &part, &full, r.Field)
			if fit = part.evaluate(t); fit.Verdict != No && fit.Verdict != Bare {
				t.Fatalf("with the %v it is %v %v", r.Field, fit.Verdict, codesOf(&fit))
			}
		}
		t.Fatalf("the questions do not end: %v", codesOf(&fit))
	})
}

func answer(t *rapid.T, part, full *drawn, field Field) {
	switch field {
	case FieldTip:
		part.tip = full.tip
	case FieldTop:
		part.head.Top = TopFlat
	default:
		from := parts{head: full.head, ferrule: full.ferrule}
		to := parts{head: part.head, ferrule: part.ferrule}
		given := *sizesOf(&from)[field]
		if !given.Given() { // of a recess that is named by a word only
			given = measure.Nominal(measure.Thou(400))
		}
		*sizesOf(&to)[field] = given
		part.head, part.ferrule = to.head, to.ferrule
	}
}

func TestEvaluateAllocatesNothing(t *testing.T) {
	p := soundParts(t)
	p.taper()
	p.head.BoreDepth = p.dim("1.25 ±.01 in")
	p.collar(".385 in", ".030 in")
	p.countersunk(".41 in")
	p.ferrule.BaseOD = p.dim(".512 ±.001 in").WithShape(measure.Uniform)
	if n := testing.AllocsPerRun(100, func() {
		if _, err := Evaluate(p.head, p.tip, p.ferrule, p.shop); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
	p.profile(".001 in", "0 mm", ".370 in", ".5 in", ".372 in", "3 in", ".380 in")
	var fit Fit
	if n := testing.AllocsPerRun(100, func() { EvaluateInto(&fit, &p.head, &p.tip, &p.ferrule, &p.shop) }); n != 0 {
		t.Errorf("%v allocations on a profile", n)
	}
}

// FuzzEvaluate: whatever the sizes, there is an error or an answer within its bounds.
func FuzzEvaluate(f *testing.F) {
	f.Add(int64(12_700_000_000), int64(9_500_000_000), int64(31_750_000_000), int64(12_750_000_000), int64(9_347_000_000),
		int64(12_700_000_000), int64(9_398_000_000), int64(50_000_000), int64(7_500_000), uint32(0))
	f.Add(int64(1), int64(0), int64(-1), int64(math.MaxInt64), int64(math.MinInt64), int64(1), int64(1), int64(1), int64(-1), uint32(0xffffffff))
	f.Add(int64(2e12), int64(2e12-1), int64(2e12), int64(2e12), int64(1), int64(2e12), int64(2e12), int64(0), int64(1e9), uint32(0x12345678))
	f.Add(int64(13_000_000_000), int64(9_000_000_000), int64(1), int64(13_000_000_001), int64(9_300_000_000), int64(1), int64(9_017_000_000),
		int64(1), int64(7_500_000), uint32(0x9abcdef0))
	shop := DefaultShop()
	f.Fuzz(func(t *testing.T, hosel, bore, depth, base, ferruleBore, length, tipEnd, tolerance, rate int64, forms uint32) {
		pick := func(n uint32) uint32 { // the next choice that forms holds
			choice := forms % n
			forms /= n
			return choice
		}
		dim := func(pm int64) measure.Dim {
			d := measure.PlusMinus(measure.Picometres(pm), measure.Picometres(tolerance))
			switch pick(6) {
			case 0:
				return measure.Dim{}
			case 1:
				d = measure.Nominal(measure.Picometres(pm))
			}
			return d.WithShape(measure.Shape(pick(3)))
		}
		head := Head{
			HoselOD: dim(hosel), Bore: dim(bore), BoreDepth: dim(depth), BoreForm: BoreForm(pick(4)), Top: TopForm(pick(6)),
			Countersink: Countersink{Mouth: dim(bore/2 + hosel/2), Depth: dim(tolerance), Angle: measure.Nanodegrees(rate * 1000)},
			Counterbore: Counterbore{Diameter: dim(bore/2 + hosel/2 + 1), Depth: dim(depth / 8)},
		}
		ferrule := Ferrule{
			Bore: dim(ferruleBore), BaseOD: dim(base), Length: dim(length), Style: Style(pick(5)), RingDepth: dim(tolerance), RingHeight: dim(length / 2),
			Collar: Spigot{dim(ferruleBore/2 + base/2), dim(tolerance)}, Step: Spigot{dim(ferruleBore/2 + base/2), dim(depth / 9)},
		}
		tips := []Tip{{}, ParallelTip(dim(tipEnd)), TaperTip(dim(tipEnd), measure.TaperPPB(rate)).Trim(measure.Picometres(depth / 3))}
		if profile, err := ProfileTip(measure.Picometres(tolerance), Station{Diameter: measure.Picometres(tipEnd)},
			Station{measure.Picometres(depth), measure.Picometres(ferruleBore)}); err == nil {
			tips = append(tips, profile.Trim(measure.Picometres(tolerance)))
		}
		for _, tip := range tips {
			fit, err := Evaluate(head, tip, ferrule, shop)
			if err != nil {
				if fit != (Fit{}) || err.Error() == "" {
					t.Fatalf("%v with an error %q", fit, err)
				}
				continue
			}
			checkFit(t, &fit)
		}
	})
}

// TestTakenStyleIsTheOneDecided: whatever is given below the base, a ferrule of unknown style is decided as the one it is taken to
// be, and only a plain one is said to be assumed.
func TestTakenStyleIsTheOneDecided(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sketch{t: t, unit: measure.Thou(1)}
		d := s.joint()
		d.ferrule.Style = StyleUnknown
		d.ferrule.Collar = Spigot{s.dim("collar OD", 400, 430, 2), s.dim("collar length", 20, 60, 3)}
		d.ferrule.Step = Spigot{s.dim("step OD", 400, 430, 2), s.dim("step length", 20, 250, 3)}
		if rapid.Bool().Draw(t, "no step") {
			d.ferrule.Step = Spigot{}
		}
		if rapid.Bool().Draw(t, "no collar") {
			d.ferrule.Collar = Spigot{}
		}
		unknown := d.evaluate(t)
		if plain := d.ferrule.TakenStyle() == Plain && unknown.Verdict != Bare; unknown.Assumptions.Has(AssumedPlain) != plain {
			t.Fatalf("%v, assumed %v", d.ferrule.TakenStyle(), unknown.Assumptions)
		}
		below := d.ferrule.Below()
		d.ferrule.Style = d.ferrule.TakenStyle()
		stated := d.evaluate(t)
		unknown.Assumptions = stated.Assumptions
		if unknown != stated || below != d.ferrule.Below() {
			t.Fatalf("%v where it is stated, %v where it is not", stated.Verdict, unknown.Verdict)
		}
		if left := d.ferrule.WithoutSizes(); left.Style != d.ferrule.Style || left.Collar != (Spigot{}) || left.Step != (Spigot{}) {
			t.Fatalf("left without sizes: %+v", left)
		}
	})
}
