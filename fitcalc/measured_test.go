package fitcalc

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

func TestMeasuredFields(t *testing.T) {
	p := soundParts(t)
	if got := MeasuredFields(&p.head, &p.tip, &p.ferrule); got != nil {
		t.Errorf("nothing was measured, and yet %v", got)
	}
	measured := func(s string) measure.Dim { return p.dim(s).WithOrigin(measure.Measured) }
	p.head.HoselOD, p.head.Bore = measured(".500 ±.001 in"), measured(".374 ±.001 in")
	p.tip = ParallelTip(measured(".370 ±.0005 in"))
	p.ferrule.BaseOD, p.ferrule.Length = measured(".501 ±.001 in"), measured(".5 ±.01 in")
	want := []Field{FieldHoselOD, FieldHeadBore, FieldTip, FieldBaseOD, FieldLength}
	if diff := cmp.Diff(want, MeasuredFields(&p.head, &p.tip, &p.ferrule)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// Every field has a code of its own, and no dimension of a part is without a field.
func TestFieldCodes(t *testing.T) {
	seen := map[string]Field{}
	for f := FieldHoselOD; f.String() != ""; f++ {
		if other, twice := seen[f.Code()]; twice || f.Code() == "" {
			t.Errorf("%v is called %q, and so is %v", f, f.Code(), other)
		}
		seen[f.Code()] = f
	}
	if got := NoField.Code(); got != "" {
		t.Errorf("no field is called %q", got)
	}
}

// Every dimension has a tolerance of the shop's, and the holes are those that are measured from within.
func TestToleranceOfFields(t *testing.T) {
	shop := DefaultShop()
	var inside []Field
	for f := FieldHoselOD; f.String() != ""; f++ {
		size := f != FieldTop && f != FieldCountersinkAngle && f != FieldRings && f != FieldForTip
		if got := shop.Tolerance(f); (got.Sign() > 0) != size {
			t.Errorf("%v: %v", f, got)
		}
		if f.Inside() {
			inside = append(inside, f)
		}
	}
	if diff := cmp.Diff([]Field{FieldHeadBore, FieldCountersinkMouth, FieldCounterbore, FieldAdapterBore, FieldFerruleBore}, inside); diff != "" {
		t.Errorf("holes (-want +got):\n%s", diff)
	}
	if shop.Tolerance(FieldHoselOD) != shop.HoselODTolerance || shop.Tolerance(FieldFerruleBore) != shop.FerruleBoreTolerance || shop.Tolerance(FieldHeadBore) != shop.BoreTolerance {
		t.Error("tolerances are exchanged")
	}
}

// Whoever has measured the hosel is told to choose, and not to measure; whoever has not is told to measure.
func TestNobodyMeasuresTwice(t *testing.T) {
	for _, origin := range []measure.Origin{measure.Stated, measure.Measured} {
		asked, verdicts := 0, map[Verdict]int{}
		for um := int64(-150); um <= 1150; um += 5 {
			p := soundParts(t)
			p.head.HoselOD = p.dim(".500 ±.003 in").WithOrigin(origin)
			p.ferrule.BaseOD = measure.PlusMinus(measure.Thou(500).Add(measure.Micrometres(um)), measure.Thou(2)).WithOrigin(origin)
			fit := p.evaluate()
			verdicts[fit.Verdict]++
			for r := range fit.Reasons() {
				if r.Measured != (origin == measure.Measured) && (r.Code == FlushUndersize || r.Code == FlushTurnLimit) {
					t.Errorf("%v at %d µm: measured is %v", r.Code, um, r.Measured)
				}
				if r.Level == Measures && !r.Measured {
					asked++
				}
			}
		}
		if verdicts[Measure] < 10 || (asked > 0) != (origin == measure.Stated) {
			t.Errorf("%v: asked %d times to measure, by the verdicts %v", origin, asked, verdicts)
		}
	}
}
