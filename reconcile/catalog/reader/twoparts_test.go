package reader_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestOneNumberForTwoParts says at a number that it may be wrong where two rows that have it differ in several sizes; in one, that size is.
func TestOneNumberForTwoParts(t *testing.T) {
	for row, want := range map[string][]string{
		"JF-02 | 13.2 | 8.9 | 31": {"error 2 B2, 4 B4", "error 2 C2, 4 C4", "error 2 D2, 4 D4", "warning 4 A4, 2 A2", "error 4 B4, 2 B2", "error 4 C4, 2 C2", "error 4 D4, 2 D2"},
		"JF-02 | 13.5 | 9.3 | 31": {"error 2 D2, 4 D4", "error 4 D4, 2 D2"},
		"JF-02 | 13.5 | 9.3 | 25": nil,
	} {
		c := read(t, grid("Ferrules", "Code | Base OD mm | Bore mm | Length mm\nJF-02 | 13.5 | 9.3 | 25\nJF-03 | 13.8 | 9.3 | 25\n"+row))
		if diff := cmp.Diff(want, of(c, "data.conflict")); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", row, diff)
		}
	}
}
