package traits_test

import (
	"slices"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// TestEveryColumnOfTheJointIsRead: a field that the engine's table gives a column is a role of its kind of table, read as what it is, with
// bounds where it is a size.
func TestEveryColumnOfTheJointIsRead(t *testing.T) {
	kinds := map[fitcalc.Owner]catalog.Kind{fitcalc.OfHead: catalog.Heads, fitcalc.OfFerrule: catalog.Ferrules}
	columns := 0
	for _, f := range fitcalc.Fields() {
		kind, listed := kinds[f.Owner()]
		role := catalog.Role(f.Column())
		if !listed || role == "" {
			continue
		}
		columns++
		if !slices.Contains(traits.OfKind[kind], role) {
			t.Errorf("%v: no table of %v has a column %s", f, kind, role)
		}
		trait, known := traits.Of[role]
		if length := f.Kind().IsLength(); !known || length != (trait.Want == traits.Length && role != catalog.TipTaken) || length && f.Kind().IsDiameter() != trait.Diameter {
			t.Errorf("%v, %s, is read as %+v", f, role, trait)
		}
		if _, bounded := traits.BoundsOf(kind, role); f.Kind().IsLength() && !bounded {
			t.Errorf("%v, %s, has no bounds", f, role)
		}
	}
	if columns < 20 {
		t.Errorf("only %d columns", columns)
	}
}
