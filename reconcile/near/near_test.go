package near_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/near"
)

func TestDistances(t *testing.T) {
	for _, tt := range []struct {
		a, b         string
		edits, slips int
	}{
		{"", "", 0, 0},
		{"", "abc", 3, 3},
		// Wagner and Fischer, "The String-to-String Correction Problem", Journal of the ACM 21 (1974), has the recurrence; the word pairs are
		// the usual textbook ones, from memory, and can be counted by hand.
		{"kitten", "sitting", 3, 3},
		{"saturday", "sunday", 3, 3},
		{"ab", "ba", 2, 1},
		{"ca", "abc", 3, 3}, // 2 if a character could be changed twice
		{"DM-770", "DM-707", 2, 1},
		{"größe", "grösse", 2, 2}, // characters, not bytes
	} {
		a, b := []rune(tt.a), []rune(tt.b)
		if got := near.Edits(a, b); got != tt.edits {
			t.Errorf("Edits(%q, %q) = %d, want %d", tt.a, tt.b, got, tt.edits)
		}
		if got := near.Slips(a, b); got != tt.slips {
			t.Errorf("Slips(%q, %q) = %d, want %d", tt.a, tt.b, got, tt.slips)
		}
	}
}

// TestDistanceLaws: a distance is symmetric, zero for the same only, and an exchange is worth two changes at the most.
func TestDistanceLaws(t *testing.T) {
	text := rapid.SliceOfN(rapid.RuneFrom([]rune("ab1")), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		a, b := text.Draw(t, "a"), text.Draw(t, "b")
		edits, slips := near.Edits(a, b), near.Slips(a, b)
		if near.Edits(b, a) != edits || near.Slips(b, a) != slips {
			t.Fatal("not symmetric")
		}
		if same := string(a) == string(b); same != (edits == 0) || same != (slips == 0) {
			t.Fatalf("edits %d, slips %d", edits, slips)
		}
		if slips > edits || edits > 2*slips || edits > max(len(a), len(b)) || edits < max(len(a)-len(b), len(b)-len(a)) {
			t.Fatalf("edits %d, slips %d", edits, slips)
		}
		if got := near.WithinOne(a, b); got != (edits <= 1) {
			t.Fatalf("WithinOne is %v with %d edits", got, edits)
		}
	})
}

func TestFirst(t *testing.T) {
	all := []near.Candidate{{"c", 1}, {"b", 2}, {"a", 2}, {"c", 1}, {"d", 0}}
	if diff := cmp.Diff([]near.Candidate{{"d", 0}, {"c", 1}, {"a", 2}}, near.First(all, 3)); diff != "" {
		t.Error(diff)
	}
	if got := near.First(nil, 3); len(got) > 0 {
		t.Errorf("First of none is %v", got)
	}
}

func TestParts(t *testing.T) {
	known := []string{"OW-7", "OW-8", "OW-70", "KT 370 4", "kt-370-5", "X"}
	for part, want := range map[string][]string{
		"OW-9":   {"OW-7", "OW-8", "OW-70"},
		"ow 7":   {"OW-7", "OW-70", "OW-8"},
		"KT3704": {"KT 370 4", "kt-370-5"},
		"370":    {"KT 370 4", "kt-370-5", "OW-70"}, // two letters make 370 of OW70
		"QQQQQQ": nil,
	} {
		if diff := cmp.Diff(want, near.Parts(part, known)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", part, diff)
		}
	}
	if got := near.Plain(" Kt-370_4./a "); got != "kt3704a" {
		t.Errorf("got %q", got)
	}
}
