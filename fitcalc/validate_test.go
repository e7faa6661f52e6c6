package fitcalc

import (
	"errors"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// sizesOf are the dimensions of a joint that must be more than nothing.
func sizesOf(p *parts) map[Field]*measure.Dim {
	h, f := &p.head, &p.ferrule
	return map[Field]*measure.Dim{
		FieldHoselOD: &h.HoselOD, FieldHeadBore: &h.Bore, FieldBoreDepth: &h.BoreDepth, FieldHoselLength: &h.HoselLength,
		FieldNeckTop: &h.NeckTop, FieldCountersinkMouth: &h.Countersink.Mouth, FieldCountersinkDepth: &h.Countersink.Depth,
		FieldCounterbore: &h.Counterbore.Diameter, FieldCounterboreDepth: &h.Counterbore.Depth,
		FieldAdapterOD: &h.Adapter.TopOD, FieldAdapterBore: &h.Adapter.Bore, FieldAdapterBoreDepth: &h.Adapter.BoreDepth,
		FieldFerruleBore: &f.Bore, FieldBaseOD: &f.BaseOD, FieldTopOD: &f.TopOD, FieldLength: &f.Length,
		FieldCollarOD: &f.Collar.OD, FieldCollarLength: &f.Collar.Length, FieldStepOD: &f.Step.OD,
		FieldStepLength: &f.Step.Length, FieldRingDepth: &f.RingDepth, FieldTip: &p.tip.end,
	}
}

func TestImpossibleSizes(t *testing.T) {
	bad := map[string]measure.Dim{
		"negative":            measure.Nominal(measure.Millimetres(-1)),
		"zero":                measure.Nominal(measure.Length{}),
		"huge":                measure.Nominal(measure.Millimetres(2001)),
		"zero at its limit":   measure.PlusMinus(measure.Millimetres(1), measure.Millimetres(1)),
		"huge at its limit":   measure.WithDeviations(measure.Millimetres(1), measure.Length{}, measure.Millimetres(2000)),
		"of no known spread":  measure.PlusMinus(measure.Millimetres(1), measure.Micrometres(1)).WithShape(9),
		"beyond all lengths":  measure.PlusMinus(measure.MaxLength, measure.MaxLength),
		"below all lengths":   measure.Nominal(measure.MaxLength.Neg()),
		"nominally negative":  measure.WithDeviations(measure.Millimetres(-1), measure.Millimetres(2), measure.Millimetres(3)),
		"nominally very huge": measure.WithDeviations(measure.Millimetres(3000), measure.Millimetres(-2999), measure.Millimetres(-2998)),
	}
	for field := range sizesOf(soundParts(t)) {
		for name, size := range bad {
			p := soundParts(t)
			*sizesOf(p)[field] = size
			fit, err := Evaluate(p.head, p.tip, p.ferrule, p.shop)
			var input *InputError
			if !errors.As(err, &input) || input.Field != field {
				t.Errorf("%v %s: error %v, want one of that field", field, name, err)
				continue
			}
			if fit != (Fit{}) {
				t.Errorf("%v %s: something was found in spite of the error", field, name)
			}
			if !strings.Contains(err.Error(), field.String()) {
				t.Errorf("%v %s: %q does not name the field", field, name, err)
			}
		}
	}
}

func TestEverySizeIsChecked(t *testing.T) {
	sizes := sizesOf(soundParts(t))
	for field := NoField + 1; field.String() != ""; field++ {
		switch field {
		case FieldTop, FieldCountersinkAngle, FieldRingHeight, FieldRings, FieldForTip: // no dimensions, or ones that may be nothing
		default:
			if sizes[field] == nil {
				t.Errorf("no test of %v", field)
			}
		}
	}
}

func TestContradictions(t *testing.T) {
	tests := []struct {
		name         string
		change       func(*parts)
		field, other Field
	}{
		{"bore as wide as the hosel", func(p *parts) { p.head.Bore = p.dim(".5 in") }, FieldHoselOD, FieldHeadBore},
		{"countersink as wide as the hosel", func(p *parts) { p.head.Countersink.Mouth = p.dim(".5 in") }, FieldHoselOD, FieldCountersinkMouth},
		{"counterbore wider than the hosel", func(p *parts) { p.head.Counterbore.Diameter = p.dim(".6 in") }, FieldHoselOD, FieldCounterbore},
		{"countersink within the bore", func(p *parts) { p.head.Countersink.Mouth = p.dim(".374 in") }, FieldCountersinkMouth, FieldHeadBore},
		{"counterbore within the bore", func(p *parts) { p.head.Counterbore.Diameter = p.dim(".3 in") }, FieldCounterbore, FieldHeadBore},
		{"sleeve within its bore", func(p *parts) {
			p.head.Adapter = Adapter{TopOD: p.dim(".3 in"), Bore: p.dim(".35 in")}
		}, FieldAdapterOD, FieldAdapterBore},
		{"base within the bore", func(p *parts) { p.ferrule.BaseOD = p.dim(".368 in") }, FieldBaseOD, FieldFerruleBore},
		{"top within the bore", func(p *parts) { p.ferrule.TopOD = p.dim(".36 in") }, FieldTopOD, FieldFerruleBore},
		{"collar within the bore", func(p *parts) { p.collar(".36 in", ".03 in") }, FieldCollarOD, FieldFerruleBore},
		{"step within the bore", func(p *parts) { p.step(".36 in", ".03 in") }, FieldStepOD, FieldFerruleBore},
		{"collar wider than the base", func(p *parts) { p.collar(".51 in", ".03 in") }, FieldBaseOD, FieldCollarOD},
		{"step as wide as the base", func(p *parts) { p.step(".501 in", ".03 in") }, FieldBaseOD, FieldStepOD},
		{"countersink angle below one degree", func(p *parts) { p.head.Countersink.Angle = measure.Nanodegrees(999_999_999) }, FieldCountersinkAngle, NoField},
		{"countersink angle negative", func(p *parts) { p.head.Countersink.Angle = measure.Degrees(-60) }, FieldCountersinkAngle, NoField},
		{"countersink angle flat", func(p *parts) { p.head.Countersink.Angle = measure.Degrees(180) }, FieldCountersinkAngle, NoField},
		{"ring below the base", func(p *parts) { p.ferrule.RingHeight = measure.Nominal(measure.Millimetres(-1)) }, FieldRingHeight, NoField},
		{"ring far above the ferrule", func(p *parts) { p.ferrule.RingHeight = p.dim("3 m") }, FieldRingHeight, NoField},
		{"fewer than no rings", func(p *parts) { p.ferrule.Rings = -1 }, FieldRings, NoField},
		{"tip of no diameter", func(p *parts) { p.tip = ParallelTip(measure.Dim{}) }, FieldTip, NoField},
		{"tip lengthened", func(p *parts) { p.tip = p.tip.Trim(measure.Millimetres(-1)) }, FieldTip, NoField},
		{"tip trimmed by more than a shaft", func(p *parts) { p.tip = p.tip.Trim(measure.Millimetres(2001)) }, FieldTip, NoField},
		{"tip that narrows", func(p *parts) { p.tip = TaperTip(p.dim(".355 in"), measure.TaperPPB(-1)) }, FieldTip, NoField},
		{"tip that tapers to less than its end", func(p *parts) { p.tip = UsualTaperTip(p.dim(".355 in")).UpTo(long(p.t, ".354 in")) }, FieldTip, NoField},
		{"tip that tapers to feet", func(p *parts) { p.tip = UsualTaperTip(p.dim(".355 in")).UpTo(long(p.t, "79 in")) }, FieldTip, NoField},
		{"tip as a funnel", func(p *parts) { p.tip = TaperTip(p.dim(".355 in"), measure.TaperPPB(1_000_000_001)) }, FieldTip, NoField},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := soundParts(t)
			test.change(p)
			_, err := Evaluate(p.head, p.tip, p.ferrule, p.shop)
			var input *InputError
			if !errors.As(err, &input) || input.Field != test.field || input.Other != test.other {
				t.Fatalf("error %v, want one of the %v and the %v", err, test.field, test.other)
			}
			if test.other != NoField && !strings.Contains(err.Error(), test.other.String()) {
				t.Errorf("%q does not name the %v", err, test.other)
			}
		})
	}
}

// TestNextToTheLimits: what is only just possible is evaluated.
func TestNextToTheLimits(t *testing.T) {
	p := soundParts(t)
	p.ferrule.RingHeight = measure.Exactly(measure.Length{})
	p.head.Bore = p.dim(".4999999 in")
	p.head.Countersink.Angle = measure.Degrees(179)
	p.head.NeckTop = p.dim("2000 mm")
	p.tip = TaperTip(p.dim(".355 in"), measure.TaperPPB(1_000_000_000)).UpTo(measure.Millimetres(2000)).Trim(measure.Millimetres(2000))
	p.evaluate()
}

func TestProfileErrors(t *testing.T) {
	mm := measure.Millimetres
	tests := map[string][]Station{
		"no station":            nil,
		"first above the end":   {{mm(1), mm(9)}},
		"downward":              {{mm(0), mm(9)}, {mm(20), mm(9)}, {mm(10), mm(9)}},
		"twice at one place":    {{mm(0), mm(9)}, {mm(0), mm(10)}},
		"no diameter":           {{mm(0), mm(9)}, {mm(10), mm(0)}},
		"thinner than its play": {{mm(0), mm(9)}, {mm(10), mm(1)}},
		"beyond any shaft":      {{mm(0), mm(9)}, {mm(10), mm(3000)}},
	}
	for name, stations := range tests {
		_, err := ProfileTip(mm(1), stations...)
		var input *InputError
		if !errors.As(err, &input) || input.Field != FieldTip {
			t.Errorf("%s: error %v, want one of the tip", name, err)
		}
	}
}

func TestEvaluateRefusesAnUnusableShop(t *testing.T) {
	p := soundParts(t)
	p.shop = Shop{}
	_, err := Evaluate(p.head, p.tip, p.ferrule, p.shop)
	var setting *SettingError
	if !errors.As(err, &setting) || setting.Key == "" {
		t.Errorf("error %v, want one of a setting", err)
	}
}
