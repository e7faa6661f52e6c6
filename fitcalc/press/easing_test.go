package press_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

func mustMaterial(t testing.TB, name string) press.Material {
	t.Helper()
	m, err := press.MaterialByName(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// ΔT = δ/(d α) by hand, d the cold bore: .002/.370/12e-5 = 45.05 K with the shaft cold.
// Warmed along, a shaft of .371 in grows too: .370 (1 + α ΔT) = .371 (1 + α_shaft ΔT).
func TestEasing(t *testing.T) {
	for _, c := range []struct {
		name         string
		interference measure.Length
		ring         string
		shaft        float64
		fromC        float64
		rise         float64
		warnings     []press.WarningCode
	}{
		{"acetate, two thou", measure.Thou(2), "CA", 0, 20, 0.002 / 0.370 / 12e-5, []press.WarningCode{press.AboveService, press.AboveDeflection}},
		{"acetate, one thou", measure.Thou(1), "CA", 0, 20, 0.001 / 0.370 / 12e-5, nil},
		{"acetate, one thou, steel warmed too", measure.Thou(1), "CA", 12e-6, 20, 0.001 / (0.370*12e-5 - 0.371*12e-6), nil},
		{"loose", measure.Thou(-1), "CA", 0, 20, 0, nil},
		{"butyrate has no service temperature", measure.Thou(2), "CAB", 0, 20, 0.002 / 0.370 / 12e-5, []press.WarningCode{press.AboveDeflection}},
		{"a material without any limit", measure.Thou(1), "zinc", 0, 20, 0.001 / 0.370 / 27.4e-6, []press.WarningCode{press.LimitUnknown}},
	} {
		w, err := press.Easing{
			Interference: c.interference, Bore: measure.Thou(370), Ring: mustMaterial(t, c.ring),
			ShaftExpansionPerK: c.shaft, FromC: c.fromC,
		}.Solve()
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		near(t, c.name+": rise", w.RiseK, c.rise, 1e-9)
		near(t, c.name+": reached", w.ReachedC, c.fromC+c.rise, 1e-9)
		var codes []press.WarningCode
		for _, warning := range w.Warnings {
			codes = append(codes, warning.Code)
			if !strings.Contains(warning.Text, "°C") {
				t.Errorf("%s: warning without a temperature: %s", c.name, warning.Text)
			}
		}
		if diff := cmp.Diff(c.warnings, codes); diff != "" {
			t.Errorf("%s: warnings (-want +got):\n%s", c.name, diff)
		}
		if w.Caution != press.HeatCaution {
			t.Errorf("%s: no caution", c.name)
		}
	}
}

// Warmed by the rise the bore is as large as the shaft: that is what the rise means.
func TestEasedBoreTakesTheShaft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore := measure.Micrometres(rapid.Int64Range(8000, 11000).Draw(t, "bore"))
		interference := measure.Micrometres(rapid.Int64Range(1, 300).Draw(t, "interference"))
		ring, shaft := rapid.Float64Range(5e-5, 18e-5).Draw(t, "α"), rapid.Float64Range(0, 2e-5).Draw(t, "α of the shaft")
		w, err := press.Easing{Interference: interference, Bore: bore, ShaftExpansionPerK: shaft,
			Ring: press.Material{Name: "one's own", ExpansionPerK: press.OwnValue(ring, "drawn")}}.Solve()
		if err != nil {
			t.Fatal(err)
		}
		warm := bore.Millimetres() * (1 + ring*w.RiseK)
		need := bore.Add(interference).Millimetres() * (1 + shaft*w.RiseK)
		if math.Abs(warm-need) > 1e-12*need {
			t.Fatalf("%g K warmer the bore is %g mm and the shaft %g mm", w.RiseK, warm, need)
		}
	})
}

func TestEasingErrors(t *testing.T) {
	good := press.Easing{Interference: measure.Thou(2), Bore: measure.Thou(370), Ring: mustMaterial(t, "CA"), FromC: 20}
	for _, c := range []struct {
		field  string
		change func(*press.Easing)
	}{
		{"Bore", func(e *press.Easing) { e.Bore = measure.Length{} }},
		{"FromC", func(e *press.Easing) { e.FromC = math.NaN() }},
		{"FromC", func(e *press.Easing) { e.FromC = -300 }},
		{"ShaftExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = -1e-6 }},
		{"ShaftExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = math.NaN() }},
		{"Ring.ExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = 12e-5 }},
		{"Ring.ExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = 12e-5 / 372 * 370 }}, // the larger shaft keeps up
		{"Ring.ExpansionPerK", func(e *press.Easing) { e.Ring.ExpansionPerK = press.OwnValue(math.NaN(), "a bad reading") }},
	} {
		e := good
		c.change(&e)
		_, err := e.Solve()
		wantField(t, err, c.field)
	}
	e := good
	e.Ring = mustMaterial(t, "17-4")
	_, err := e.Solve()
	var missing *press.MissingPropertyError
	if !errors.As(err, &missing) || missing.Property != "ExpansionPerK" || missing.Material != "17-4 PH stainless steel" {
		t.Errorf("got %v", err)
	}
}
