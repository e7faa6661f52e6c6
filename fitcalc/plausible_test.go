package fitcalc

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

func TestDoubts(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(*parts)
		want   []Doubt
	}{
		{"nothing", func(*parts) {}, nil},
		{"a point too far right", func(p *parts) { p.head.HoselOD = p.dim("136 mm") },
			[]Doubt{{FieldHoselOD, measure.Millimetres(136), measure.Micrometres(13_600)}}},
		{"a missing point", func(p *parts) { p.ferrule.BaseOD = p.dim("1360 mm") },
			[]Doubt{{FieldBaseOD, measure.Millimetres(1360), measure.Micrometres(13_600)}}},
		{"inches for millimetres", func(p *parts) { p.ferrule.Bore = p.dim(".368 mm") },
			[]Doubt{{FieldFerruleBore, measure.Micrometres(368), measure.Thou(368)}}},
		{"thousandths for inches", func(p *parts) { p.ferrule.BaseOD = p.dim("5 mm") }, []Doubt{{FieldBaseOD, measure.Millimetres(5), measure.Length{}}}},
		{"unusual, and possible", func(p *parts) { p.head.HoselOD, p.ferrule.BaseOD = p.dim("25 mm"), p.dim("25 mm") }, nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := soundParts(t)
			test.change(p)
			if diff := cmp.Diff(test.want, Doubts(p.head, p.tip, p.ferrule), cmp.Comparer(func(a, b measure.Length) bool { return a == b })); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// TestUsualSizesAreOrdered: what is common is possible.
func TestUsualSizesAreOrdered(t *testing.T) {
	for f := NoField + 1; f.String() != ""; f++ {
		if u, known := f.Usual(); known && !(0 < u.Least && u.Least <= u.CommonLeast && u.CommonLeast < u.CommonMost && u.CommonMost <= u.Most) {
			t.Errorf("%v: %+v", f, u)
		}
	}
}
