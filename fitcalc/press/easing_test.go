package press_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

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

// ΔT = δ/(d α) by hand: .002/.370/12e-5 = 45.05 K with the shaft cold, and less to gain when the steel warms as well.
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
		{"acetate, one thou, steel warmed too", measure.Thou(1), "CA", 12e-6, 20, 0.001 / 0.370 / 10.8e-5, nil},
		{"loose", measure.Thou(-1), "CA", 0, 20, 0, nil},
		{"butyrate has no service temperature", measure.Thou(2), "CAB", 0, 20, 0.002 / 0.370 / 12e-5, []press.WarningCode{press.AboveDeflection}},
		{"a material without any limit", measure.Thou(1), "zinc", 0, 20, 0.001 / 0.370 / 27.4e-6, []press.WarningCode{press.LimitUnknown}},
	} {
		w, err := press.Easing{
			Interference: c.interference, Diameter: measure.Thou(370), Ring: mustMaterial(t, c.ring),
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

func TestEasingErrors(t *testing.T) {
	good := press.Easing{Interference: measure.Thou(2), Diameter: measure.Thou(370), Ring: mustMaterial(t, "CA"), FromC: 20}
	for _, c := range []struct {
		field  string
		change func(*press.Easing)
	}{
		{"Diameter", func(e *press.Easing) { e.Diameter = measure.Length{} }},
		{"FromC", func(e *press.Easing) { e.FromC = math.NaN() }},
		{"FromC", func(e *press.Easing) { e.FromC = -300 }},
		{"ShaftExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = -1e-6 }},
		{"ShaftExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = math.NaN() }},
		{"Ring.ExpansionPerK", func(e *press.Easing) { e.ShaftExpansionPerK = 12e-5 }},
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
