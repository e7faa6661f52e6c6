package traits_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

var kinds = []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips}

// TestRolesOfKinds holds the lists of roles to each other: what is needed can be a column, and what is measured has bounds in order.
func TestRolesOfKinds(t *testing.T) {
	for _, kind := range kinds {
		for _, role := range traits.OfKind[kind] {
			trait, known := traits.Of[role]
			if !known {
				t.Errorf("nothing is known of %s of %v", role, kind)
			}
			b, bounded := traits.BoundsOf(kind, role)
			if bounded && trait.Want != traits.Length {
				t.Errorf("%s of %v has bounds and is no length", role, kind)
			}
			if bounded && !(b.Least > 0 && b.Least < b.Most) {
				t.Errorf("%s of %v lies between %g and %g mm", role, kind, b.Least, b.Most)
			}
			for mm := .01; bounded && mm < 700; mm *= 1.01 {
				if b.Common(mm) && !b.Possible(mm) {
					t.Errorf("%s of %v: %g mm is common and not possible", role, kind, mm)
				}
			}
		}
		for _, role := range append(slices.Clone(traits.Keys[kind]), traits.Needed[kind]...) {
			if !traits.IsRole(kind, role) {
				t.Errorf("%v need %s, which no column of theirs can give", kind, role)
			}
		}
	}
	if traits.IsRole(catalog.Heads, catalog.BaseOD) || traits.IsRole(catalog.UnknownKind, "flavour") {
		t.Error("roles are given that are none")
	}
}

// The inch is 25.4 mm by definition (ISO 31-1, 1959); tips are named by their size in inches, or rounded to a tenth of a millimetre.
func TestNamesOfTips(t *testing.T) {
	for _, mm := range []float64{.335 * 25.4, .350 * 25.4, .355 * 25.4, .370 * 25.4} {
		if !traits.IsTipName(mm) || !traits.IsNearTip(mm) {
			t.Errorf("%g mm is the name of a tip", mm)
		}
	}
	for mm, near := range map[float64]bool{9.4: true, 8.9: true, 9.45: true, 9.5: false, 9.2: false, 13.6: false} {
		if traits.IsNearTip(mm) != near {
			t.Errorf("%g mm near a tip: %v", mm, !near)
		}
	}
	for _, hole := range []float64{.368 * 25.4, .373 * 25.4, .338 * 25.4, 9.5} {
		if traits.IsTipName(hole) {
			t.Errorf("%g mm is a hole and no name", hole)
		}
	}
}

func TestImplausible(t *testing.T) {
	for _, c := range []struct {
		kind catalog.Kind
		role catalog.Role
		size string
		want bool
	}{
		{catalog.Heads, catalog.HoselOD, "13.6 mm", false}, {catalog.Heads, catalog.HoselOD, "136 mm", true}, {catalog.Heads, catalog.HoselOD, "1.36 mm", true},
		{catalog.Ferrules, catalog.Length, "25.4 mm", false}, {catalog.Ferrules, catalog.Length, "25.4 in", true},
		{catalog.Tips, catalog.TipOD, ".370 in", false}, {catalog.Tips, catalog.TipOD, ".370 mm", true},
		{catalog.Heads, catalog.Description, "1 mm", false},
	} {
		why := traits.Implausible(c.kind, c.role, measure.MustParseLength(c.size))
		if (why != "") != c.want || c.want && !strings.Contains(why, "beyond the") {
			t.Errorf("%v %s %s: %q", c.kind, c.role, c.size, why)
		}
	}
}

func TestSaid(t *testing.T) {
	for x, want := range map[float64]string{13.6: "13.6 mm", 13.4620001: "13.462 mm", 9.398: "9.398 mm", 25: "25 mm"} {
		if got := traits.SayMM(x); got != want {
			t.Errorf("%g is said as %q, want %q", x, got, want)
		}
	}
	if traits.UnitName("in") != "inches" || traits.UnitName("mm") != "mm" {
		t.Error("units have other names")
	}
}
