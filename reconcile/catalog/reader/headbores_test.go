package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestBoresOfHeadsAmongHoles takes a bore that has the name of a tip for a hole where most others can only be holes and it is one for the next
// smaller tip too, and says so; otherwise it is the name.
func TestBoresOfHeadsAmongHoles(t *testing.T) {
	for bores, want := range map[string]struct{ name, said bool }{
		".340 .340 .340 .355": {false, true},
		".340 .355 .355 .355": {true, false},
		".340 .340 .340 .370": {true, false},
		".340 .340 .355 .370": {true, false},
		".355 .355 .355 .355": {true, false},
		".340 .340 .340 .354": {false, false}, // 9.0 mm, and no tip's name
	} {
		rows := "\nPart No | Hosel OD (in) | Bore (in)\n"
		list := strings.Fields(bores)
		for i, bore := range list {
			rows += "TW-" + string(rune('1'+i)) + " | .515 | " + bore + "\n"
		}
		c := read(t, grid("Heads", rows))
		last := c.Heads[len(c.Heads)-1]
		if last.BoreIsDesignation != want.name {
			t.Errorf("%s: taken for a name %v, want %v", bores, last.BoreIsDesignation, want.name)
		}
		if got := saysTipName(c); got != want.said {
			t.Errorf("%s: said %v, want %v", bores, got, want.said)
		}
		if t.Failed() {
			show(t, c)
			return
		}
	}
}

func saysTipName(c *catalog.Catalogue) bool {
	for _, f := range c.Findings {
		if f.Code == "data.tip-name" && f.Severity == finding.Warning {
			return true
		}
	}
	return false
}
