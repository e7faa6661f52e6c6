package fitcalc

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

func missingFields(fit *Fit) []string {
	var fields []string
	for r := range fit.Reasons() {
		if r.Code == DataMissing {
			fields = append(fields, r.Field.String())
		}
	}
	return fields
}

func TestMissingDataAsks(t *testing.T) {
	none := measure.Dim{}
	tests := []struct {
		name   string
		change func(*parts)
		want   []string
	}{
		{"nothing", func(*parts) {}, nil},
		{"hosel OD", func(p *parts) { p.head.HoselOD = none }, []string{"hosel OD"}},
		{"base OD", func(p *parts) { p.ferrule.BaseOD = none }, []string{"base OD"}},
		{"both ODs", func(p *parts) { p.head.HoselOD, p.ferrule.BaseOD = none, none }, []string{"hosel OD", "base OD"}},
		{"tip", func(p *parts) { p.tip = Tip{} }, []string{"tip"}},
		{"ferrule bore", func(p *parts) { p.ferrule.Bore = none }, []string{"bore of the ferrule"}},
		{"everything", func(p *parts) { p.head, p.tip, p.ferrule = Head{}, Tip{}, Ferrule{} },
			[]string{"hosel OD", "base OD", "tip", "bore of the ferrule"}},
		{"length on a taper tip", func(p *parts) { p.taper(); p.ferrule.Length = none }, []string{"length of the ferrule"}},
		{"length on a parallel tip", func(p *parts) { p.ferrule.Length = none }, nil},
		{"head bore", func(p *parts) { p.head.Bore = none }, nil},
		{"bore depth", func(p *parts) { p.head.BoreDepth = none }, nil},
		{"top, plain ferrule", func(p *parts) { p.head.Top = TopUnknown }, nil},
		{"top, collar", func(p *parts) { p.collar(".385 in", ".03 in"); p.head.Top = TopUnknown }, []string{"form of the hosel's top"}},
		{"top, step", func(p *parts) { p.step(".42 in", ".25 in"); p.head.Top = TopUnknown }, []string{"form of the hosel's top"}},
		{"top, collar, but a counterbore is given", func(p *parts) {
			p.collar(".385 in", ".03 in")
			p.counterbored(".44 in", ".04 in")
			p.head.Top = TopUnknown
		}, nil},
		{"collar OD", func(p *parts) { p.collar(".385 in", ".03 in"); p.ferrule.Collar.OD = none }, []string{"collar OD"}},
		{"collar length", func(p *parts) { p.collar(".385 in", ".03 in"); p.ferrule.Collar.Length = none }, []string{"collar length"}},
		{"countersink by word only", func(p *parts) { p.collar(".385 in", ".03 in"); p.head.Top = TopCountersunk },
			[]string{"countersink mouth"}},
		{"countersink depth without the bore", func(p *parts) {
			p.collar(".385 in", ".03 in")
			p.head.Countersink.Depth, p.head.Bore = p.dim(".04 in"), none
		}, []string{"countersink mouth"}},
		{"counterbore by word only, plain", func(p *parts) { p.head.Top = TopCounterbored }, []string{"counterbore depth"}},
		{"counterbore by word only, collar", func(p *parts) { p.collar(".385 in", ".03 in"); p.head.Top = TopCounterbored },
			[]string{"counterbore diameter", "counterbore depth"}},
		{"counterbore by word only, step", func(p *parts) { p.step(".42 in", ".25 in"); p.head.Top = TopCounterbored },
			[]string{"counterbore diameter", "counterbore depth"}},
		{"counterbore diameter", func(p *parts) {
			p.step(".42 in", ".25 in")
			p.head.Counterbore.Depth = p.dim(".25 in")
		}, []string{"counterbore diameter"}},
		{"step OD", func(p *parts) {
			p.step(".42 in", ".25 in")
			p.counterbored(".44 in", ".25 in")
			p.ferrule.Step.OD = none
		}, []string{"step OD"}},
		{"step length", func(p *parts) {
			p.step(".42 in", ".25 in")
			p.counterbored(".44 in", ".25 in")
			p.ferrule.Step.Length = none
		}, []string{"step length"}},
		{"step length on a flat top", func(p *parts) { p.step(".42 in", ".25 in"); p.ferrule.Step.Length = none }, []string{"step length"}},
		{"adapter OD", func(p *parts) { p.head.Adapter.Bore = p.head.Bore }, []string{"adapter OD"}},
		{"length under a ring above the base", func(p *parts) {
			p.ring(".005 in")
			p.ferrule.RingHeight, p.ferrule.Length, p.ferrule.BaseOD = p.dim(".2 in"), none, p.dim(".520 ±.001 in")
		}, []string{"length of the ferrule"}},
		{"length under a ring that is deep enough", func(p *parts) {
			p.ring(".012 in")
			p.ferrule.RingHeight, p.ferrule.Length, p.ferrule.BaseOD = p.dim(".2 in"), none, p.dim(".520 ±.001 in")
		}, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := soundParts(t)
			test.change(p)
			fit := p.evaluate()
			got := missingFields(&fit)
			slices.Sort(got)
			slices.Sort(test.want)
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("missing (-want +got):\n%s", diff)
			}
			if asks := fit.Verdict == Ask; asks != (len(test.want) > 0) {
				t.Errorf("verdict %v %v", fit.Verdict, codesOf(&fit))
			}
		})
	}
}

// TestMissingIsNoZero: what cannot be computed is not known, and all of it is zero so that nobody takes it for a size.
func TestMissingIsNoZero(t *testing.T) {
	none := measure.Dim{}
	p := soundParts(t)
	p.head.HoselOD = none
	fit := p.evaluate()
	if diff := cmp.Diff(FlushFit{}, fit.Flush, cmp.Comparer(func(a, b measure.Dim) bool { return a == b }),
		cmp.Comparer(func(a, b Amount) bool { return a == b })); diff != "" {
		t.Errorf("flush without a hosel OD:\n%s", diff)
	}
	if fit.Work != (WorkFit{}) || !fit.Grip.Known || !fit.Bore.Known {
		t.Errorf("without a hosel OD: work %+v, grip known %v, bore known %v", fit.Work, fit.Grip.Known, fit.Bore.Known)
	}

	p = soundParts(t)
	p.tip = Tip{}
	if fit := p.evaluate(); fit.Grip != (GripFit{}) || fit.Work != (WorkFit{}) || fit.Bore.Known || !fit.Flush.Known {
		t.Errorf("without a tip: %+v", fit)
	}

	p = soundParts(t)
	p.ferrule.Length = none
	if fit := p.evaluate(); !fit.Grip.Known || fit.Grip.KnownLength || !fit.Grip.Length.IsZero() {
		t.Errorf("without a length: %+v", fit.Grip)
	}

	p = soundParts(t)
	p.head.BoreDepth = none
	if fit := p.evaluate(); fit.Bore.KnownInsertion || !fit.Bore.Insertion.IsZero() {
		t.Errorf("without a bore depth: %+v", fit.Bore)
	}

	for name, change := range map[string]func(*parts){
		"counterbore": func(p *parts) { p.head.Top = TopCounterbored },
		"countersink": func(p *parts) { p.head.Top = TopCountersunk },
		"cone without the bore": func(p *parts) {
			p.countersunk(".43 in")
			p.head.Bore = none
		},
	} {
		p = soundParts(t)
		change(p)
		if fit := p.evaluate(); fit.Bore.KnownInsertion || !fit.Bore.Insertion.IsZero() {
			t.Errorf("with a %s of unknown depth an insertion of %v is claimed", name, fit.Bore.Insertion)
		}
	}

	p = soundParts(t)
	p.head.Adapter.BoreDepth = p.dim("1 in")
	if fit := p.evaluate(); fit.Flush.Known {
		t.Error("a sleeve of unknown OD was compared by its hosel")
	}
}

// TestBlocksBeatsMissing: what is given may rule a joint out whatever else is missing.
func TestBlocksBeatsMissing(t *testing.T) {
	p := soundParts(t)
	p.ferrule.Bore = p.dim(".375 ±.0005 in")
	p.head.HoselOD = measure.Dim{}
	if fit := p.evaluate(); fit.Verdict != No {
		t.Errorf("%v %v, want no: the ferrule is loose on whatever hosel", fit.Verdict, codesOf(&fit))
	}
}

// TestShallowWhateverTheRecess: a bore too shallow without its recess is too shallow with it.
func TestShallowWhateverTheRecess(t *testing.T) {
	p := soundParts(t)
	p.head.Top, p.head.BoreDepth = TopCounterbored, p.dim(".7 in")
	fit := p.evaluate()
	if _, found := reasonOf(&fit, BoreShallow); !found || fit.Verdict != No {
		t.Errorf("%v %v", fit.Verdict, codesOf(&fit))
	}
}

func TestAssumptions(t *testing.T) {
	none := measure.Dim{}
	bare := func(p *parts, d *measure.Dim) { *d = measure.Nominal(d.Nominal()) }
	learned := func(d *measure.Dim) { *d = d.WithOrigin(measure.Learned) }
	type test struct {
		want   Assumption
		change func(*parts)
	}
	tests := []test{
		{AssumedHoselODTolerance, func(p *parts) { bare(p, &p.head.HoselOD) }},
		{AssumedBaseODTolerance, func(p *parts) { bare(p, &p.ferrule.BaseOD) }},
		{AssumedFerruleBoreTolerance, func(p *parts) { bare(p, &p.ferrule.Bore) }},
		{AssumedTipTolerance, func(p *parts) { p.tip = ParallelTip(p.dim(".370 in")) }},
		{AssumedBoreTolerance, func(p *parts) { bare(p, &p.head.Bore) }},
		{AssumedPlain, func(p *parts) { p.ferrule.Style = StyleUnknown }},
		{AssumedFlatTop, func(p *parts) { p.head.Top = TopUnknown }},
		{AssumedInsertion, func(p *parts) { p.taper(); p.head.BoreDepth = none }},
		{AssumedCountersinkAngle, func(p *parts) { p.head.Countersink.Mouth = p.dim(".43 in") }},
		{AssumedTipTaper, func(p *parts) {
			p.taper()
			p.tip, p.ferrule.Bore = UsualTaperTip(p.tip.end), p.dim(".368 ±.0005 in") // .0001 in of interference
		}},
		{AssumedBoreForm, func(p *parts) { p.taper(); p.head.BoreForm = BoreUnknown }},
		{AssumedBoreClears, func(p *parts) { p.head.Bore = none }},
		{AssumedAdapterBore, func(p *parts) {
			p.head.Adapter = Adapter{TopOD: p.head.HoselOD, BoreDepth: p.head.BoreDepth}
		}},
		{AssumedAdapterBore, func(p *parts) {
			p.head.Adapter = Adapter{TopOD: p.head.HoselOD, Bore: p.head.Bore}
		}},
		{AssumedBoreTaper, func(p *parts) { p.head.Bore, p.head.BoreForm = p.dim(".374 ±.001 in"), BoreTapered }},
		{AssumedTurnedLength, func(p *parts) { p.ferrule.Length, p.ferrule.BaseOD = none, p.dim(".510 ±.001 in") }},
		{AssumedBoreOfTip, func(p *parts) { p.ferrule.Bore, p.ferrule.ForTip = none, TipSize{Diameter: measure.Thou(370)} }},
		{AssumedBoreOfTipLength, func(p *parts) {
			p.ferrule.Bore, p.ferrule.ForTip, p.ferrule.Length = none, TipSize{Diameter: measure.Thou(355)}, none
		}},
		{AssumedBoreQuoted, func(p *parts) { p.taper(); p.head.Bore = p.dim(".355 ±.001 in") }},
		{AssumedLearnedTolerance, func(p *parts) { learned(&p.head.HoselOD) }},
		{AssumedLearnedTolerance, func(p *parts) { learned(&p.head.Bore) }},
		{AssumedLearnedTolerance, func(p *parts) { learned(&p.ferrule.BaseOD) }},
		{AssumedLearnedTolerance, func(p *parts) { learned(&p.ferrule.Bore) }},
		{AssumedLearnedTolerance, func(p *parts) {
			p.tip = ParallelTip(p.dim(".370 ±.0005 in").WithOrigin(measure.Learned))
		}},
	}
	with := map[Assumption][]Assumption{ // what some cannot do without
		AssumedBoreOfTip:       {AssumedFerruleBoreTolerance},
		AssumedBoreOfTipLength: {AssumedFerruleBoreTolerance, AssumedBoreOfTip},
	}
	for _, test := range tests {
		t.Run(test.want.Code(), func(t *testing.T) {
			p := soundParts(t)
			test.change(p)
			fit := p.evaluate()
			var got []Assumption
			for a := range fit.Assumptions.All() {
				got = append(got, a)
			}
			if diff := cmp.Diff(append(with[test.want], test.want), got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
	for a := range assumptionCount {
		if !slices.ContainsFunc(tests, func(x test) bool { return x.want == a }) {
			t.Errorf("no case rests on %q", a)
		}
		if a.Code() == "" || a.String() == "" {
			t.Errorf("assumption %d has no words", a)
		}
	}
}

// TestDefaultsTakeEffect: a size without limits has the shop's, and says where they come from.
func TestDefaultsTakeEffect(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.ferrule.BaseOD = p.dim(".500 in"), p.dim(".501 in")
	fit := p.evaluate()
	want := Amount{measure.Thou(1), measure.Thou(-4), measure.Thou(6)} // ±.003 and ±.002 in
	if fit.Flush.Oversize != want || fit.Flush.HoselOD.Origin() != measure.Default {
		t.Errorf("oversize %v of %v, want %v", fit.Flush.Oversize, fit.Flush.HoselOD.Origin(), want)
	}
}

// TestDefaultsOfRecessesTakeEffect: ±.005 in on recesses and on lengths of collars, ±.002 in on their diameters.
func TestDefaultsOfRecessesTakeEffect(t *testing.T) {
	tests := []struct {
		name   string
		change func(*parts)
		spread float64 // ± on the stand-off, in
	}{
		{"mouth, collar and its length", func(p *parts) { p.countersunk(".42 in"); p.collar(".41 in", ".08 in") },
			.005 + .005/1.154701 + .002/1.154701},
		{"depth of the cone and the collar's length", func(p *parts) {
			p.countersunk(".47 in")
			p.head.Countersink.Depth = p.dim(".03 in")
			p.collar(".41 in", ".08 in")
		}, .010},
		{"depth of the counterbore and the collar's length", func(p *parts) { p.counterbored(".44 in", ".04 in"); p.collar(".41 in", ".08 in") }, .010},
		{"depth of the counterbore and the step's length", func(p *parts) { p.counterbored(".44 in", ".04 in"); p.step(".41 in", ".08 in") }, .010},
	}
	for _, test := range tests {
		p := soundParts(t)
		test.change(p)
		s := p.evaluate().Seat.StandOff
		near(t, test.name+", most", s.Most.Sub(s.Nominal).Inches(), test.spread, 1e-7)
		near(t, test.name+", least", s.Nominal.Sub(s.Least).Inches(), test.spread, 1e-7)
	}
}

// TestStyleByWhatIsGiven: a ferrule of unknown style has the form of which sizes are given.
func TestStyleByWhatIsGiven(t *testing.T) {
	p := soundParts(t)
	p.collar(".385 in", ".030 in")
	p.ferrule.Style = StyleUnknown
	if fit := p.evaluate(); fit.Verdict != Prep || fit.Assumptions.Has(AssumedPlain) {
		t.Errorf("a collar on a flat top: %v", fit.Verdict)
	}
	p = soundParts(t)
	p.step(".42 in", ".25 in")
	p.ferrule.Style = StyleUnknown
	if fit := p.evaluate(); fit.Verdict != No || fit.Assumptions.Has(AssumedPlain) {
		t.Errorf("a step on a flat top: %v", fit.Verdict)
	}
}
