package fitcalc

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// TestResolveSaysWhereSizesComeFrom: the input, and whether it was stated, measured, given the shop's tolerance or derived.
func TestResolveSaysWhereSizesComeFrom(t *testing.T) {
	type from struct {
		field   Field
		origin  measure.Origin
		derived bool
	}
	for _, tt := range []struct {
		name   string
		change func(*parts)
		size   func(*Joint) Taken
		want   from
	}{
		{"hosel with limits", func(p *parts) { p.head.HoselOD = p.dim(".500 in ±.003") }, func(j *Joint) Taken { return j.HoselOD }, from{FieldHoselOD, measure.Stated, false}},
		{"hosel without", func(p *parts) { p.head.HoselOD = p.dim(".500 in") }, func(j *Joint) Taken { return j.HoselOD }, from{FieldHoselOD, measure.Default, false}},
		{"hosel that was measured", func(p *parts) { p.head.HoselOD = p.dim(".500 in ±.001").WithOrigin(measure.Measured) },
			func(j *Joint) Taken { return j.HoselOD }, from{FieldHoselOD, measure.Measured, false}},
		{"sleeve", func(p *parts) { p.head.Adapter.TopOD = p.dim("13 ±.1 mm") }, func(j *Joint) Taken { return j.HoselOD }, from{FieldAdapterOD, measure.Stated, false}},
		{"bore of the head in a sleeve", func(p *parts) { p.head.Adapter.TopOD = p.dim("13 ±.1 mm") }, func(j *Joint) Taken { return j.Bore }, from{FieldHeadBore, measure.Stated, false}},
		{"bore of the sleeve", func(p *parts) { p.head.Adapter.Bore = p.dim("9.5 mm") }, func(j *Joint) Taken { return j.Bore }, from{FieldAdapterBore, measure.Default, false}},
		{"depth of the sleeve", func(p *parts) { p.head.Adapter.BoreDepth = p.dim("30 mm") }, func(j *Joint) Taken { return j.BoreDepth }, from{FieldAdapterBoreDepth, measure.Stated, false}},
		{"bore of the ferrule", func(p *parts) { p.ferrule.Bore = p.dim(".368 in ±.001") }, func(j *Joint) Taken { return j.FerruleBore }, from{FieldFerruleBore, measure.Stated, false}},
		{"bore of a ferrule known by its tip", func(p *parts) { p.ferrule.Bore, p.ferrule.ForTip = measure.Dim{}, TipSize{Diameter: measure.Thou(370)} },
			func(j *Joint) Taken { return j.FerruleBore }, from{FieldForTip, measure.Default, true}},
		{"tip", func(p *parts) { p.tip = ParallelTip(p.dim(".370 in")) }, func(j *Joint) Taken { return j.TipEnd }, from{FieldTip, measure.Default, false}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := soundParts(t)
			tt.change(p)
			j, err := Resolve(p.head, p.tip, p.ferrule, p.shop)
			if err != nil {
				t.Fatal(err)
			}
			if size := tt.size(&j); !size.Given() || size.Field != tt.want.field || size.Origin() != tt.want.origin || size.Derived != tt.want.derived {
				t.Errorf("%v is of %v, origin %v, derived %v; want %+v", size.Dim, size.Field, size.Origin(), size.Derived, tt.want)
			}
		})
	}
}

// TestResolvePositions: a .355 in taper tip, 1.25 in deep, under a ferrule of 0.5 in. At the shop's .0079 in per inch its diameter is
// .355 + 1.25 × .0079 = .364875 in at the base and .368825 in at the top, its widest under the ferrule.
func TestResolvePositions(t *testing.T) {
	p := soundParts(t)
	p.tip, p.head.BoreDepth, p.ferrule.Length = UsualTaperTip(p.dim(".355 in")), p.dim("1.25 in"), p.dim(".5 in")
	j, err := Resolve(p.head, p.tip, p.ferrule, p.shop)
	if err != nil {
		t.Fatal(err)
	}
	if j.Insertion != measure.Thou(1250) || j.Seated != measure.Thou(1750) || j.Tightest() != j.Seated {
		t.Errorf("base at %v, top at %v, tightest at %v", j.Insertion, j.Seated, j.Tightest())
	}
	for at, want := range map[measure.Length]string{j.Insertion: ".364875 in", j.Seated: ".368825 in"} {
		if got := j.Shaft(at).Middle(); got != measure.MustParseLength(want) {
			t.Errorf("the shaft is %v at %v, want %s", got, at, want)
		}
	}
	p.head.BoreDepth = measure.Dim{}
	if j, _ = Resolve(p.head, p.tip, p.ferrule, p.shop); j.Insertion != p.shop.InsertionDepth || j.BoreDepth.Given() || !j.Assumptions.Has(AssumedInsertion) {
		t.Errorf("without a depth the base is at %v, depth given %v", j.Insertion, j.BoreDepth.Given())
	}
}

// TestTakenTop: the form that is said, else the one whose sizes are given.
func TestTakenTop(t *testing.T) {
	d := measure.MustParseDim("10 mm")
	for _, tt := range []struct {
		name string
		head Head
		want TopForm
	}{
		{"nothing", Head{}, TopUnknown},
		{"said", Head{Top: TopFlat, Countersink: Countersink{Mouth: d}}, TopFlat},
		{"mouth", Head{Countersink: Countersink{Mouth: d}}, TopCountersunk},
		{"depth of a countersink", Head{Countersink: Countersink{Depth: d}}, TopCountersunk},
		{"angle", Head{Countersink: Countersink{Angle: measure.Degrees(60)}}, TopCountersunk},
		{"counterbore", Head{Counterbore: Counterbore{Diameter: d}}, TopCounterbored},
		{"depth of a counterbore", Head{Counterbore: Counterbore{Depth: d}}, TopCounterbored},
		{"both", Head{Countersink: Countersink{Mouth: d}, Counterbore: Counterbore{Depth: d}}, TopCounterbored},
	} {
		if got := tt.head.TakenTop(); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
	p := soundParts(t)
	p.head.Top, p.ferrule.Style = TopUnknown, Plain
	if j, err := Resolve(p.head, p.tip, p.ferrule, p.shop); err != nil || j.Top != TopFlat {
		t.Errorf("under a plain ferrule the top is %v, %v", j.Top, err)
	}
}

// TestCountersinkOfAJoint: h = (mouth − bore) / (2 tan(A/2)); a 60° cone from 11 mm to a bore of 9 mm is 1.732 mm deep.
func TestCountersinkOfAJoint(t *testing.T) {
	p := soundParts(t)
	p.head.Top, p.head.Countersink = TopUnknown, Countersink{Mouth: p.dim("11 mm"), Angle: measure.Degrees(60)}
	cone := func() [3]string {
		j, err := Resolve(p.head, p.tip, p.ferrule, p.shop)
		if err != nil {
			t.Fatal(err)
		}
		mouth, bottom, depth, there := j.Countersink(measure.Millimetres(9))
		if !there {
			return [3]string{}
		}
		var text [3]string
		for i, l := range [...]measure.Length{mouth, bottom, depth} {
			text[i], _ = l.FormatMillimetres(3)
		}
		return text
	}
	if got := cone(); got != [3]string{"11.000", "9.000", "1.732"} {
		t.Errorf("down to the bore: %v", got)
	}
	p.head.Countersink.Depth = p.dim("1 mm") // and its bottom is 11 − 2 × 1 × tan 30° = 9.845 mm wide
	if got := cone(); got != [3]string{"11.000", "9.845", "1.000"} {
		t.Errorf("with a bottom of its own: %v", got)
	}
	p.head.Countersink = Countersink{}
	if got := cone(); got != [3]string{} {
		t.Errorf("there is none, and it is %v", got)
	}
}

// TestResolvedJointsAreJudgedAlike: what is judged is what is resolved.
func TestResolvedJointsAreJudgedAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := sketch{t: t, unit: measure.Thou(1)}.joint()
		j, err := Resolve(d.head, d.tip, d.ferrule, d.shop)
		if err != nil {
			t.Fatal(err)
		}
		want, err := Evaluate(d.head, d.tip, d.ferrule, d.shop)
		if err != nil {
			t.Fatal(err)
		}
		if got := j.Fit(); got != want {
			t.Fatalf("Evaluate finds %+v, the joint %+v", want, got)
		}
		if want.Flush.Known && (want.Flush.HoselOD != j.HoselOD.Dim || want.Flush.BaseOD != j.BaseOD.Dim) || want.Grip.Known && want.Grip.Insertion != j.Insertion {
			t.Fatalf("%+v is not of the joint %+v", want, j)
		}
	})
}
