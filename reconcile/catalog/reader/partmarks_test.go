package reader_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestPartMarks: the mark of a footnote behind a part number is no part of it.
func TestPartMarks(t *testing.T) {
	c := read(t, grid("Ferrules", "Item | Base OD (mm) | Bore (mm) | Length (mm)\nTG-1 | 13.5 | 9.3 | 25\nTG-2 † | 13.6 | 9.3 | 20\nTG-3‡ | 13.6 | 9.3 | 20\nTG-4² | 13.7 | 9.3 | 20\n† old stock"))
	var got []string
	for _, f := range c.Ferrules {
		got = append(got, f.Part)
	}
	if diff := cmp.Diff([]string{"TG-1", "TG-2", "TG-3", "TG-4"}, got); diff != "" {
		t.Errorf("part numbers (-want +got):\n%s", diff)
		show(t, c)
	}
}
