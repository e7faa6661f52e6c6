package fitcalc_test

import (
	"errors"
	"math"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

func exactly(s string) measure.Dim { return measure.Exactly(measure.MustParseLength(s)) }

func TestTurningOf(t *testing.T) {
	shop := fitcalc.DefaultShop()
	ferrule := fitcalc.Ferrule{
		Bore: exactly("9.35 mm"), BaseOD: exactly("13.5 mm"), TopOD: exactly("9.5 mm"), Length: exactly("20 mm"),
		Material: fitcalc.CelluloseAcetate, RingDepth: exactly("0.6 mm"), RingHeight: exactly("1 mm"),
	}
	head := fitcalc.Head{HoselOD: exactly("12.5 mm"), Top: fitcalc.TopFlat}
	tip := fitcalc.ParallelTip(exactly("9.398 mm"))
	got, err := fitcalc.TurningOf(head, tip, ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	// A cone from 13.5 to 9.5 mm over 20 mm narrows by 0.2 mm per mm: it is 12.5 mm wide 5 mm up.
	if got.Down != measure.MustParseLength("1 mm") || got.PerSide != measure.MustParseLength("0.5 mm") || got.Finished != measure.MustParseLength("12.5 mm") || got.Height != measure.MustParseLength("5 mm") {
		t.Errorf("got %+v", got)
	}
	// V = π h (R² + R r + r²)/3 for the cone cut off, less the cylinder.
	want := math.Pi*5*(6.75*6.75+6.75*6.25+6.25*6.25)/3 - math.Pi*6.25*6.25*5
	if math.Abs(got.VolumeMM3-want) > 1e-9 {
		t.Errorf("volume %v mm³, want %v", got.VolumeMM3, want)
	}
	// Cellulose acetate has a density of 1.26 to 1.32 g/cm³ (Springer Handbook of Condensed Matter and Materials Data,
	// table 3.3-23), so a cubic millimetre weighs 1.26 to 1.32 mg.
	if !got.KnownMass || got.MassMG < 1.26*want || got.MassMG > 1.32*want {
		t.Errorf("mass %v mg of %v mm³", got.MassMG, want)
	}
	// One millimetre up 0.8 mm come off the diameter, 0.4 mm per side: 0.2 mm of the ring are left.
	if !got.KnownRing || got.RingDepthLeft != measure.MustParseLength("0.2 mm") {
		t.Errorf("ring left %v", got.RingDepthLeft)
	}

	// Turned down to the width of its top all over, what comes off is the frustum of 13.5 and 9.4 mm over 20 mm,
	// 2081.3574929 mm³ (worked out independently), less the cylinder of 9.4 mm.
	ferrule.TopOD, ferrule.RingDepth, ferrule.Bore = exactly("9.4 mm"), measure.Dim{}, exactly("9.3 mm")
	head.HoselOD = exactly("9.4 mm")
	got, err = fitcalc.TurningOf(head, tip, ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	if want := 2081.3574929 - math.Pi*4.7*4.7*20; math.Abs(got.VolumeMM3-want) > 1e-6 || got.Height != measure.MustParseLength("20 mm") {
		t.Errorf("volume %v mm³ over %v, want %v over all", got.VolumeMM3, got.Height, want)
	}

	// A base that is not oversize loses nothing.
	head.HoselOD = exactly("13.6 mm")
	got, err = fitcalc.TurningOf(head, tip, ferrule, shop)
	if err != nil || got.Down.Sign() != 0 || got.VolumeMM3 != 0 || got.Height.Sign() != 0 || got.Finished != measure.MustParseLength("13.5 mm") {
		t.Errorf("got %+v, %v", got, err)
	}
}

// The mean time of a joint that is always turned is that of the turning at its nominal sizes.
func TestTurningAgreesWithEvaluate(t *testing.T) {
	shop := fitcalc.DefaultShop()
	head := fitcalc.Head{HoselOD: exactly(".500 in"), Top: fitcalc.TopFlat}
	ferrule := fitcalc.Ferrule{Bore: exactly(".368 in"), BaseOD: exactly(".512 in"), Length: exactly(".5 in")}
	tip := fitcalc.ParallelTip(exactly(".370 in"))
	turning, err := fitcalc.TurningOf(head, tip, ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	fit, err := fitcalc.Evaluate(head, tip, ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	want := shop.MinutesToFit + shop.MinutesToTurn + turning.VolumeMM3/1000*shop.MinutesPerCM3
	if math.Abs(fit.Work.Minutes-want) > 1e-9 {
		t.Errorf("Evaluate says %v minutes, the turning makes %v", fit.Work.Minutes, want)
	}
}

func TestTurningNamesWhatIsMissing(t *testing.T) {
	head := fitcalc.Head{HoselOD: exactly("12.5 mm")}
	ferrule := fitcalc.Ferrule{BaseOD: exactly("13.5 mm"), Length: exactly("20 mm"), TopOD: exactly("10 mm")}
	for field, change := range map[fitcalc.Field]func(*fitcalc.Head, *fitcalc.Ferrule){
		fitcalc.FieldHoselOD: func(h *fitcalc.Head, _ *fitcalc.Ferrule) { h.HoselOD = measure.Dim{} },
		fitcalc.FieldBaseOD:  func(_ *fitcalc.Head, f *fitcalc.Ferrule) { f.BaseOD = measure.Dim{} },
		fitcalc.FieldLength:  func(_ *fitcalc.Head, f *fitcalc.Ferrule) { f.Length = measure.Dim{} },
		fitcalc.FieldTopOD:   func(_ *fitcalc.Head, f *fitcalc.Ferrule) { f.TopOD = measure.Dim{} },
	} {
		h, f := head, ferrule
		change(&h, &f)
		_, err := fitcalc.TurningOf(h, fitcalc.Tip{}, f, fitcalc.DefaultShop())
		var input *fitcalc.InputError
		if !errors.As(err, &input) || input.Field != field {
			t.Errorf("got %v, want an error that names the %v", err, field)
		}
	}
}

// A .355 in taper tip in a .370 in bore, common practice for a shim: at 1.25 in of insertion the tip is .364375 in wide.
func TestSleeveFor(t *testing.T) {
	shop := fitcalc.DefaultShop()
	head := fitcalc.Head{Bore: exactly(".370 in"), BoreDepth: exactly("1.25 in"), BoreForm: fitcalc.BoreParallel}
	s, room, err := fitcalc.SleeveFor(head, fitcalc.TaperTip(exactly(".355 in"), measure.TaperPPB(7_500_000)), shop)
	if err != nil || !room {
		t.Fatalf("%+v, %v, %v", s, room, err)
	}
	if s.Inside != measure.MustParseLength(".365375 in") || s.Outside != measure.MustParseLength(".369 in") || s.Wall != measure.MustParseLength(".0018125 in") || s.Length != measure.MustParseLength("1.25 in") {
		t.Errorf("got %+v", s)
	}
	head.Bore = exactly(".366 in")
	if s, room, err := fitcalc.SleeveFor(head, fitcalc.TaperTip(exactly(".355 in"), measure.TaperPPB(7_500_000)), shop); err != nil || room {
		t.Errorf("a bore of .366 in leaves no room, got %+v, %v, %v", s, room, err)
	}
	_, _, err = fitcalc.SleeveFor(fitcalc.Head{}, fitcalc.ParallelTip(exactly(".355 in")), shop)
	var input *fitcalc.InputError
	if !errors.As(err, &input) || input.Field != fitcalc.FieldHeadBore {
		t.Errorf("got %v, want an error that names the bore", err)
	}
}
