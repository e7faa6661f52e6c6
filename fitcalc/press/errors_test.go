package press_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// Every message says what was read, with its unit, and what to do.
func TestMessages(t *testing.T) {
	_, wall := press.NewJoint(press.Section{RingOutside: measure.Millimetres(9), Interface: measure.Millimetres(9)}, acetate, steel)
	_, modulus := mustMaterial(t, "zinc").Elastic()
	unknown := &press.UnknownMaterialError{Name: "oak", Known: []string{"ABS", "nylon 6"}}
	got := []string{wall.Error(), modulus.Error(), unknown.Error()}
	want := []string{
		"press: RingOutside is 9 mm: want a diameter above Interface, 9 mm",
		"press: YoungModulusMPa of zinc die cast is not given: set it on a copy of the material, with its source",
		`press: no material "oak": want one of ABS, nylon 6, or give the moduli themselves`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("messages (-want +got):\n%s", diff)
	}
}

func TestNamesOfEnums(t *testing.T) {
	got := []string{
		press.VonMises.String(), press.Tresca.String(), press.Criterion(9).String(),
		press.Published.String(), press.Middle.String(), press.FromMemory.String(), press.Own.String(), press.Basis(0).String(),
	}
	want := []string{
		"von Mises", "Tresca", "unknown criterion",
		"published", "middle of the published range", "from memory", "own value", "not given",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("names (-want +got):\n%s", diff)
	}
}

func TestJointRemembers(t *testing.T) {
	section := press.Section{RingOutside: measure.Thou(535), Interface: measure.Thou(370)}
	j := mustJoint(t, section, acetate, steel)
	if s := j.Solve(measure.Thou(2)); j.Section() != section || j.Pair().Ring() != acetate || j.Pair().Shaft() != steel ||
		s.Interference() != measure.Thou(2) || !s.Contact() {
		t.Errorf("joint %+v", j)
	}
}
