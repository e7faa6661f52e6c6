package fitcalc

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// The sizes of this file are names of the trade, common practice, from memory: tips are called by thousandths of an inch, and in
// millimetres rounded to a tenth or a hundredth.

func TestParseTipSize(t *testing.T) {
	parallel370, taper355 := TipSize{measure.Thou(370), TipParallel}, TipSize{measure.Thou(355), TipTapered}
	for text, want := range map[string]TipSize{
		".370": parallel370, "0.370": parallel370, ".370 parallel": parallel370, ".370 in": parallel370, `.370"`: parallel370,
		".370 in parallel": parallel370, " .370  parallel ": parallel370,
		"9.4 mm": parallel370, "9.40 mm": parallel370, "9.398 mm": parallel370, "9.4 mm parallel": parallel370,
		".355": taper355, ".355 taper": taper355, "9 mm": taper355, "9.0 mm": taper355, "9.02 mm": taper355, "9.0 mm taper": taper355,
		".355 parallel": {measure.Thou(355), TipParallel},
		".335":          {measure.Thou(335), TipParallel}, "8.5 mm": {measure.Thou(335), TipParallel}, "8.51 mm": {measure.Thou(335), TipParallel},
		".350": {measure.Thou(350), TipParallel}, "8.9 mm": {measure.Thou(350), TipParallel}, "8.89 mm": {measure.Thou(350), TipParallel},
		".395": {measure.Thou(395), TipParallel}, "10 mm": {measure.Thou(395), TipParallel}, "10.03 mm": {measure.Thou(395), TipParallel},
		// a tip that the trade does not make as a rule
		".365": {Diameter: measure.Thou(365)}, ".365 taper": {measure.Thou(365), TipTapered}, "9.2 mm": {Diameter: measure.Micrometres(9200)},
	} {
		got, err := ParseTipSize(text)
		if err != nil || got != want {
			t.Errorf("%q is read as %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "parallel", ".370 round", ".370 profile", "370", "9.4", "-.370", "0", "3 m", ".370 parallel taper", "1.370.2"} {
		if got, err := ParseTipSize(text); !isParseError(err) || got != (TipSize{}) {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
	}
}

func isParseError(err error) bool {
	var parse *measure.ParseError
	return errors.As(err, &parse)
}

func TestTipSizeText(t *testing.T) {
	for want, s := range map[string]TipSize{
		"":                {},
		".370 parallel":   {measure.Thou(370), TipParallel},
		".355 taper":      {Diameter: measure.Thou(355)},
		".395 parallel":   {Diameter: measure.Millimetres(10)},
		".365":            {Diameter: measure.Thou(365)},
		"9.2 mm parallel": {measure.Micrometres(9200), TipParallel},
	} {
		if got := s.String(); got != want {
			t.Errorf("%#v is written as %q, want %q", s, got, want)
		}
	}
	text, err := json.Marshal(Ferrule{ForTip: TipSize{measure.Thou(370), TipParallel}})
	if err != nil || string(text) != `{"for_tip":".370 parallel"}` {
		t.Errorf("as JSON: %s, %v", text, err)
	}
	var f Ferrule
	if err := json.Unmarshal([]byte(`{"for_tip": "9.4 mm"}`), &f); err != nil || f.ForTip != (TipSize{measure.Thou(370), TipParallel}) {
		t.Errorf("read as %v, %v", f.ForTip, err)
	}
	if err := json.Unmarshal([]byte(`{"for_tip": "wide"}`), &f); err == nil || f.ForTip.Diameter != measure.Thou(370) {
		t.Errorf("a text that names no tip: %v, %v", f.ForTip, err)
	}
	if err := f.ForTip.UnmarshalText(nil); err != nil || f.ForTip != (TipSize{}) {
		t.Errorf("no text: %v, %v", f.ForTip, err)
	}
}

// Whatever a size is written as is read as the same size, and what names a standard tip is written as that.
func TestTipSizeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := TipSize{
			measure.Picometres(rapid.Int64Range(1, 20_000_000_000).Draw(t, "diameter")),
			rapid.SampledFrom([]TipForm{TipUnknown, TipParallel, TipTapered}).Draw(t, "form"),
		}
		if rapid.Bool().Draw(t, "a round size") {
			s.Diameter = s.Diameter.RoundTo(rapid.SampledFrom([]measure.Length{measure.Thou(1), measure.Micrometres(10), measure.Micrometres(100)}).Draw(t, "step"), measure.NearestEven)
			if s.Diameter.IsZero() {
				return
			}
		}
		got, err := ParseTipSize(s.String())
		if err != nil || got != s.Named() || got.String() != s.String() || got.Named() != got {
			t.Fatalf("%#v is written as %q and read as %#v, %v", s, s, got, err)
		}
	})
}

func TestTipNamed(t *testing.T) {
	for _, tip := range StandardTips() {
		if got, named := TipNamed(tip.Diameter); !named || got.Name != tip.Name {
			t.Errorf("%v names %v, %v", tip.Diameter, got.Name, named)
		}
		for _, hole := range []int64{-2, 4} { // what is made for the tip has another size
			if got, named := TipNamed(tip.Diameter.Add(measure.Thou(hole))); named {
				t.Errorf("%v names %s", tip.Diameter.Add(measure.Thou(hole)), got.Name)
			}
		}
	}
	for mm, want := range map[string]string{
		"8.5 mm": ".335 parallel", "8.9 mm": ".350 parallel", "9 mm": ".355 taper", "9.02 mm": ".355 taper", "9.4 mm": ".370 parallel",
		"10 mm": ".395 parallel", "10.03 mm": ".395 parallel", "9.35 mm": "", "9.1 mm": "", "9.03 mm": "", "9.5 mm": "", "8.6 mm": "",
	} {
		got, _ := TipNamed(long(t, mm))
		if got.Name != want {
			t.Errorf("%s names %q, want %q", mm, got.Name, want)
		}
	}
}

// listed are sound parts with a ferrule that is known by its tip alone.
func listed(t testing.TB, tip string) *parts {
	p := soundParts(t)
	p.head.Bore, p.ferrule.Bore = measure.Dim{}, measure.Dim{}
	size, err := ParseTipSize(tip)
	if err != nil {
		t.Fatal(err)
	}
	p.ferrule.ForTip = size
	return p
}

// A ferrule for a .370 in parallel tip is made about .002 in under. One for a .355 in taper tip is made for where it ends up on the
// taper: at 1.5 in insertion and half an inch long the shaft has grown to .370 in. A bore of .353 in would split there.
func TestBoreOfTip(t *testing.T) {
	for _, test := range []struct{ name, tip, depth, length, bore string }{
		{"parallel", ".370", "1.25 in", ".5 in", ".368 in"},
		{"parallel, any depth and length", ".335", "1 in", "1 in", ".333 in"},
		{"in millimetres", "9.4 mm", "1.25 in", ".5 in", ".368 in"},
		{"taper", ".355 taper", "1.5 in", ".5 in", ".368 in"},
		{"taper, less deep", ".355", "1.25 in", ".5 in", ".366825 in"}, // .355 + 1.75 × .0079 − .002
		{"parallel of .355 in", ".355 parallel", "1.5 in", ".5 in", ".353 in"},
		{"a size that is not usual", ".365", "1.5 in", ".5 in", ".363 in"},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := listed(t, test.tip)
			p.head.BoreDepth, p.ferrule.Length = p.dim(test.depth), p.dim(test.length)
			got := p.ferrule.JointBore(&p.head, &p.shop)
			want := p.dim(test.bore)
			if got.Nominal() != want.Nominal() || got.Width().Half() != p.shop.FerruleBoreTolerance || got.Origin() != measure.Default {
				t.Errorf("the bore is %v, %v, want %v", got, got.Origin(), want)
			}
			fit := p.evaluate()
			if !fit.Assumptions.Has(AssumedBoreOfTip) || !fit.Assumptions.Has(AssumedFerruleBoreTolerance) {
				t.Errorf("the assumption is not named: %v", fit.Assumptions)
			}
		})
	}
}

// Where the bore is given it counts, and where nothing is known there is none.
func TestBoreGivenCounts(t *testing.T) {
	p := listed(t, ".370")
	p.ferrule.Bore = p.dim(".366 in")
	if got := p.ferrule.JointBore(&p.head, &p.shop); got.Nominal() != measure.Thou(366) {
		t.Errorf("the bore is %v", got)
	}
	if fit := p.evaluate(); fit.Assumptions.Has(AssumedBoreOfTip) || fit.Grip.Interference.Nominal != measure.Thou(4) {
		t.Errorf("%v with %v", fit.Verdict, fit.Grip.Interference.Nominal)
	}
	p = listed(t, ".370")
	p.ferrule.ForTip = TipSize{}
	if got := p.ferrule.JointBore(&p.head, &p.shop); got.Given() {
		t.Errorf("a bore of %v", got)
	}
	fit := p.evaluate()
	if _, missing := reasonOf(&fit, DataMissing); !missing || fit.Verdict != Ask {
		t.Errorf("%v %v", fit.Verdict, codesOf(&fit))
	}
}

// On a taper tip the depth and the ferrule's length are needed for the bore; where they are not given the shop's usual ones are
// taken, and said to be.
func TestBoreOfTipAssumes(t *testing.T) {
	p := listed(t, ".355 taper")
	p.head.BoreDepth, p.ferrule.Length = measure.Dim{}, measure.Dim{}
	p.tip = ParallelTip(p.dim(".370 in"))
	fit := p.evaluate()
	for _, a := range []Assumption{AssumedBoreOfTip, AssumedInsertion, AssumedBoreOfTipLength} {
		if !fit.Assumptions.Has(a) {
			t.Errorf("%v is not named", a)
		}
	}
	// .355 + (1.375 + .5) × .0079 − .002
	if got, want := p.ferrule.JointBore(&p.head, &p.shop).Nominal(), p.dim(".3678125 in").Nominal(); got != want {
		t.Errorf("the bore is %v, want %v", got, want)
	}
	p = listed(t, ".370")
	p.head.BoreDepth, p.ferrule.Length = measure.Dim{}, measure.Dim{}
	if fit := p.evaluate(); fit.Assumptions.Has(AssumedInsertion) || fit.Assumptions.Has(AssumedBoreOfTipLength) {
		t.Errorf("neither matters on a parallel tip: %v", fit.Assumptions)
	}
}

// On the tip it names it holds; on another one it is judged by its bore: in a wider ferrule the tip slips, in a narrower one it
// splits.
func TestOnAnotherTip(t *testing.T) {
	for _, test := range []struct {
		ferrule, tip string
		against      Code // none where it fits
	}{
		{".370", ".370", NoCode},
		{".370", ".335", GripLoose},
		{".335", ".370", GripSplit},
		{".355 taper", ".335", GripLoose},
		{".335", ".355 taper", GripSplit},
		{".395", ".370", GripLoose},
		{".350", ".395", GripSplit},
	} {
		p := listed(t, test.ferrule)
		on, err := ParseTipSize(test.tip)
		if err != nil {
			t.Fatal(err)
		}
		p.tip = on.Tip(p.shop)
		fit := p.evaluate()
		if test.against == NoCode {
			if !fit.Verdict.Fits() {
				t.Errorf("one for %s on %s: %v %v", test.ferrule, test.tip, fit.Verdict, codesOf(&fit))
			}
			continue
		}
		if _, found := reasonOf(&fit, test.against); !found || fit.Verdict != No {
			t.Errorf("one for %s on %s: %v %v, want %v", test.ferrule, test.tip, fit.Verdict, codesOf(&fit), test.against)
		}
	}
}

// A ferrule for a standard tip holds on that tip at every usual depth and length, and on a tip that is smaller or larger by more
// than a ferrule stretches it does not fit: the sizes differ by .015 in and more, and 2 % of the bore is .007 in.
func TestForItsTipAndNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made := rapid.SampledFrom(StandardTips()).Draw(t, "made for")
		on := rapid.SampledFrom(StandardTips()).Draw(t, "on")
		shop := DefaultShop()
		depth := measure.Micrometres(rapid.Int64Range(31750, 38100).Draw(t, "depth"))
		length := measure.Micrometres(rapid.Int64Range(6350, 25400).Draw(t, "length"))
		head := Head{HoselOD: measure.Nominal(measure.Thou(530)), BoreDepth: measure.Nominal(depth), Top: TopFlat}
		ferrule := Ferrule{ForTip: made.Size(), BaseOD: measure.Nominal(measure.Thou(535)), Length: measure.Nominal(length), Style: Plain}
		fit, err := Evaluate(head, on.Tip(shop), ferrule, shop)
		if err != nil {
			t.Fatal(err)
		}
		// what the shaft measures under the ferrule, in thousandths
		under := func(s StandardTip) float64 {
			tip := s.Tip(shop)
			at := tip.Diameter(depth.Add(length)).Nominal()
			return at.Inches() * 1000
		}
		switch apart := under(on) - under(made); {
		case made.Name == on.Name:
			if !fit.Verdict.Fits() || fit.Grip.Interference.Nominal != shop.UsualInterference {
				t.Fatalf("%v %v with %v", fit.Verdict, codesOf(&fit), fit.Grip.Interference.Nominal)
			}
		case apart > 12 || apart < -6:
			if fit.Verdict != No {
				t.Fatalf("made for %s, on %s: %v %v", made.Name, on.Name, fit.Verdict, codesOf(&fit))
			}
		}
	})
}

// The bore that is taken for a ferrule known by its tip is that of a ferrule of which it is stated: every answer is the same but
// for the assumptions.
func TestOfTipIsAsStated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1)}.joint()
		d.ferrule.Bore, d.ferrule.ForTip = measure.Dim{}, rapid.SampledFrom(StandardTips()).Draw(t, "made for").Size()
		stated := d.ferrule
		stated.Bore, stated.ForTip = d.ferrule.JointBore(&d.head, &d.shop), TipSize{}
		if stated.Validate() != nil || d.ferrule.Validate() != nil || d.head.Validate() != nil || d.tip.Validate() != nil {
			return
		}
		of, err := Evaluate(d.head, d.tip, d.ferrule, d.shop)
		if err != nil {
			t.Fatal(err)
		}
		as, err := Evaluate(d.head, d.tip, stated, d.shop)
		if err != nil {
			t.Fatal(err)
		}
		of.Assumptions, as.Assumptions = 0, 0
		if of != as {
			t.Fatalf("by its tip %v %v, by its bore %v %v", of.Verdict, codesOf(&of), as.Verdict, codesOf(&as))
		}
		windows, err := Windows(d.head, d.tip, d.ferrule, d.shop)
		again, err2 := Windows(d.head, d.tip, stated, d.shop)
		if err != nil || err2 != nil || fmt.Sprint(windows) != fmt.Sprint(again) {
			t.Fatalf("windows %v and %v, %v, %v", windows, again, err, err2)
		}
	})
}

// What can be asked of a ferrule's bore can be asked of one that is known by its tip.
func TestInverseQuestionsOfTip(t *testing.T) {
	p := listed(t, ".370")
	changes, err := Sensitivity(p.head, p.tip, p.ferrule, p.shop)
	if err != nil {
		t.Fatal(err)
	}
	moved := false
	for _, c := range changes {
		moved = moved || c.Field == FieldFerruleBore
	}
	if !moved {
		t.Errorf("the bore changes nothing: %v", changes)
	}
	p.ferrule.Material = CelluloseAcetate
	m, err := MechanicsOf(p.head, p.tip, p.ferrule, p.shop, Shaft{})
	if err != nil || m.Interference != measure.Thou(2) {
		t.Errorf("interference %v, %v", m.Interference, err)
	}
}

func TestForTipMustBePossible(t *testing.T) {
	for _, size := range []TipSize{
		{Diameter: measure.Thou(-370)}, {Diameter: measure.Inches(370)}, {Form: TipParallel}, {measure.Thou(370), TipProfiled}, {measure.Thou(370), 9},
	} {
		p := listed(t, ".370")
		p.ferrule.ForTip = size
		_, err := Evaluate(p.head, p.tip, p.ferrule, p.shop)
		var input *InputError
		if !errors.As(err, &input) || input.Field != FieldForTip {
			t.Errorf("%#v: %v", size, err)
		}
	}
	p := listed(t, ".370")
	p.ferrule.BaseOD = p.dim(".365 in")
	var input *InputError
	if err := p.ferrule.Validate(); !errors.As(err, &input) || input.Field != FieldBaseOD || input.Other != FieldForTip {
		t.Errorf("a base that is smaller than the tip: %v", err)
	}
}

// A tapered bore is quoted like the tip it takes: such a bore is that tip's, and needs no reaming. A parallel bore of the tip's
// size is a hole that is too tight.
func TestTaperedBoreQuotedLikeItsTip(t *testing.T) {
	for _, test := range []struct {
		bore  string
		form  BoreForm
		tight bool
		named bool
	}{
		{".355 in", BoreTapered, false, true},
		{".355 in", BoreUnknown, false, true},
		{"9.0 mm", BoreTapered, false, true},
		{"9.03 mm", BoreTapered, false, true},
		{".3555 in", BoreUnknown, false, true},
		{".356 in", BoreTapered, false, false},
		{".358 in", BoreTapered, false, false},
		{".353 in", BoreTapered, true, false},
		{".355 in", BoreParallel, true, false},
	} {
		p := soundParts(t)
		p.taper()
		p.head.Bore, p.head.BoreForm = p.dim(test.bore), test.form
		fit := p.evaluate()
		_, tight := reasonOf(&fit, BoreTight)
		if tight != test.tight || fit.Assumptions.Has(AssumedBoreQuoted) != test.named || fit.Bore.Known == test.named {
			t.Errorf("%s %v: tight %v, taken as quoted %v, known %v", test.bore, test.form, tight, fit.Assumptions.Has(AssumedBoreQuoted), fit.Bore.Known)
		}
	}
	p := soundParts(t) // one that was measured is a hole
	p.taper()
	p.head.Bore = p.dim(".355 ±.0002 in").WithOrigin(measure.Measured)
	if fit := p.evaluate(); fit.Assumptions.Has(AssumedBoreQuoted) {
		t.Error("a measured bore is taken as quoted like its tip")
	}
	p = soundParts(t) // and a parallel tip in a bore of its size is another matter
	p.head.Bore = p.dim(".370 in")
	if fit := p.evaluate(); fit.Assumptions.Has(AssumedBoreQuoted) {
		t.Error("a parallel bore is taken as quoted like its tip")
	}
}

// Where a head's bore lies between two standard tips both are named, and the category decides.
func TestTipsForBoreBetweenTwo(t *testing.T) {
	const wood, iron = ".350 parallel", ".355 taper"
	for _, test := range []struct {
		bore     string
		form     BoreForm
		category Category
		want     []string
	}{
		{".358 in", BoreUnknown, AnyCategory, []string{wood, iron}},
		{".358 in", BoreUnknown, Iron, []string{iron}},
		{".358 in", BoreUnknown, Driver, []string{wood}},
		{".358 in", BoreTapered, AnyCategory, []string{iron}},
		{".358 in", BoreParallel, AnyCategory, []string{wood}},
		{"9.03 mm", BoreUnknown, AnyCategory, []string{wood, iron}},
		{"9.03 mm", BoreUnknown, Wedge, []string{iron}},
		{"9.03 mm", BoreUnknown, Fairway, []string{wood}},
		{"9.0 mm", BoreUnknown, AnyCategory, []string{wood, iron}},
		{".355 in", BoreTapered, Iron, []string{iron}},
		{".360 in", BoreUnknown, AnyCategory, []string{iron}},
		{".353 in", BoreUnknown, Iron, []string{wood}},
		{".374 in", BoreUnknown, AnyCategory, []string{".370 parallel"}},
		{".300 in", BoreUnknown, Iron, nil},
	} {
		var got []string
		for _, tip := range TipsForBore(dim(t, test.bore), test.form, test.category, DefaultShop()) {
			got = append(got, tip.Name)
		}
		if fmt.Sprint(got) != fmt.Sprint(test.want) {
			t.Errorf("%s, form %v, category %v: %q, want %q", test.bore, test.form, test.category, got, test.want)
		}
	}
}
