package fitcalc

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// compareHosels decides a joint on several hosels, by what was judged before and each from the beginning.
func compareHosels(t interface{ Fatalf(string, ...any) }, p *probe, ods []measure.Length) {
	hosels := NewHosels(&p.head, &p.tip, &p.ferrule, &p.shop)
	plain := probe{head: p.head, tip: p.tip, ferrule: p.ferrule, shop: p.shop}
	for _, od := range ods {
		*plain.hosel() = moved(*p.hosel(), od)
		var want Fit
		EvaluateInto(&want, &plain.head, &plain.tip, &plain.ferrule, &plain.shop)
		if minutes := hosels.MinutesAt(od); minutes != want.Work.Minutes {
			t.Fatalf("%v: %v minutes, want %v\n%+v", od, minutes, want.Work.Minutes, plain)
		}
		if got := hosels.At(od); *got != want {
			t.Fatalf("%v:\n%+v, want\n%+v\n%+v", od, *got, want, plain)
		}
	}
}

// TestHoselsAreEvaluated: on any hosel, and where the windows end, what is judged once is what is judged anew.
func TestHoselsAreEvaluated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := oneSided(t)
		if s := (sketch{t: t, unit: measure.Thou(1)}); rapid.Bool().Draw(t, "tapers") {
			if end := s.dim("taper tip", 353, 357, 1); end.Given() {
				d.tip = UsualTaperTip(end).Trim(s.length("trim", 0, 500))
			}
		}
		if firstError(d.head.Validate(), d.tip.Validate(), d.ferrule.Validate(), d.shop.Validate()) != nil {
			return
		}
		p := probe{head: d.head, tip: d.tip, ferrule: d.ferrule, shop: d.shop}
		windows, err := Windows(d.head, d.tip, d.ferrule, d.shop)
		if err != nil {
			t.Fatal(err)
		}
		var ods []measure.Length
		for _, w := range windows {
			from := w.HoselOD.Lower().At()
			ods = append(ods, from, from.Add(measure.Picometres(1)), from.Add(measure.Micrometres(rapid.Int64Range(0, 300).Draw(t, "further"))))
		}
		compareHosels(t, &p, ods)
	})
}

// TestHoselsUnderCollars has those whose seat hangs on the hosel's wall, and those whose does not.
func TestHoselsUnderCollars(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 8))
	hangs := map[bool]int{}
	for range 300 {
		recessed := drawRecessed(rng)
		drawn := recessed.joint(t)
		p := probe{head: drawn.head, tip: drawn.tip, ferrule: drawn.ferrule, shop: drawn.shop}
		least, _ := p.span()
		ods := []measure.Length{least, least.Add(p.shop.LeastHoselWall), least.Add(p.shop.LeastHoselWall.MulInt(2)), least.Add(p.shop.LeastHoselWall.MulInt(3)), p.ferrule.BaseOD.Nominal()}
		compareHosels(t, &p, ods)
		p.begin(least)
		hangs[p.stages.seatHangsOnHosel]++
	}
	if hangs[true] == 0 || hangs[false] == 0 {
		t.Errorf("seats that hang on the hosel: %v", hangs)
	}
}

// TestHoselsOnTapers has verdicts that hang on the rate of a taper, and those that do not.
func TestHoselsOnTapers(t *testing.T) {
	hangs := map[bool]int{}
	for _, depth := range []string{"1.25 in", "1.5 in"} {
		for _, length := range []string{".125 in", ".5 in", ".75 in"} {
			drawn := onATaper(t, depth, length)
			p := probe{head: drawn.head, tip: drawn.tip, ferrule: drawn.ferrule, shop: drawn.shop}
			var ods []measure.Length
			for off := int64(-60); off <= 20; off += 5 {
				ods = append(ods, p.ferrule.BaseOD.Nominal().Add(measure.Thou(off)))
			}
			compareHosels(t, &p, ods)
			hosels := NewHosels(&p.head, &p.tip, &p.ferrule, &p.shop)
			for _, od := range ods {
				hangs[hosels.At(od).Assumptions.Has(AssumedTipTaper)]++
			}
		}
	}
	if hangs[true] == 0 || hangs[false] == 0 {
		t.Errorf("verdicts that hang on the taper: %v", hangs)
	}
}

// TestWallBesideAnUnknownBore: the shaft alone tells how thin the wall gets, whatever the shape of the spreads.
func TestWallBesideAnUnknownBore(t *testing.T) {
	p := soundParts(t)
	p.ferrule.Bore, p.ferrule.ForTip = measure.Dim{}, TipSize{}
	p.tip = ParallelTip(p.dim(".370 in"))
	p.head.HoselOD, p.ferrule.BaseOD = p.dim(".430 ±.001 in"), p.dim(".440 in")
	usual := p.evaluate().Work.ThinWall
	p.ferrule.BaseOD = measure.PlusMinus(p.ferrule.BaseOD.Nominal(), measure.Length{}).WithShape(measure.Uniform)
	if exact := p.evaluate().Work.ThinWall; !(usual > .4 && usual < .6) || exact != usual {
		t.Errorf("thin walls: %v, beside an exact base %v", usual, exact)
	}
}
