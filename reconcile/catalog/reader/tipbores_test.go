package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestBoresByTip gives each row the bore that a note gives by its tip, of a column or of the title above it, and none that the tip does not suit.
func TestBoresByTip(t *testing.T) {
	for what, c := range map[string]struct{ sheet, want string }{
		"a column of tips":              {"Bored .366 for .370 tips, .350 for .355 tips.|||\nNo. | Tip | Base OD in | Length in\nA-1 | .370 | .540 | 1\nA-2 | .355 | .525 | 1\nA-3 | .335 | .475 | 1", "9.2964 8.89 -"},
		"titles":                        {"All mm. Bohrung 9,3 für .370 und 8,9 für .355||\nNr. | Ø unten | Länge\nFür .370 | |\nA-1 | 13,5 | 25\nFür .355 konisch||\nA-2 | 13,2 | 25\nA-3|13,2|20", "9.3 8.9 8.9"},
		"a column of bores that counts": {"Bored .366 for .370 tips, .350 for .355 tips.|||\nNo. | Tip | Base OD in | Bore in\nA-1 | .370 | .540 | .365\nA-2 | .355 | .525 | .350\nA-3 | .335 | .475 | .331", "9.271 8.89 8.4074"},
	} {
		got := readSizes(t, "Ferrules, "+c.sheet, "bore=")
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", what, diff)
		}
	}
}

// readSizes returns what the rows of a sheet have for a size, "-" for nothing.
func readSizes(t *testing.T, sheet, name string) string {
	t.Helper()
	c := read(t, grid("Ferrules", sheet))
	var all []string
	for _, part := range []string{"A-1", "A-2", "A-3"} {
		size := "-"
		if _, after, found := strings.Cut(rowOf(t, c, part), name); found {
			size, _, _ = strings.Cut(after, " ")
		}
		all = append(all, size)
	}
	return strings.Join(all, " ")
}
