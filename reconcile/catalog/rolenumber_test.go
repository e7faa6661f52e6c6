package catalog

import (
	"testing"

	"example.com/seatline/reconcile/sheet"
)

// TestRoleNumbers holds the numbers of roles to their room: eight bits.
func TestRoleNumbers(t *testing.T) {
	for _, none := range []Role{"", "p", "none such", "part "} {
		if got := roleNumber(none); got != 0 {
			t.Errorf("%q has the number %d", none, got)
		}
	}
	seen := map[uint8]Role{}
	for _, role := range Roles() {
		number := roleNumber(role)
		if number == 0 || seen[number] != "" {
			t.Errorf("%s has the number %d, as %q", role, number, seen[number])
		}
		seen[number] = role
		if got := PlaceOf(role, sheet.Ref{Row: 7, Col: 70_000}); got.role() != role || got.cell() != (sheet.Ref{Row: 7, Col: 70_000}).String() {
			t.Errorf("%s comes back as %s in %s", role, got.role(), got.cell())
		}
	}
}
