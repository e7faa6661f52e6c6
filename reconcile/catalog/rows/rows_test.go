package rows

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestClubCategory(t *testing.T) {
	for club, want := range map[string]string{
		"1W": "driver", "dr": "driver", "3W": "fairway", "4h": "hybrid", "7i": "iron", "7": "iron", " pw ": "wedge", "SW": "wedge", "": "", "56": "", "XW": "", "W": "",
	} {
		if got := lexicon.ClubCategory(club); got != want {
			t.Errorf("%q is %q, want %q", club, got, want)
		}
	}
	for _, c := range [][3]string{{"fairway", "1", "driver"}, {"fairway", "1W", "driver"}, {"fairway", "3", "fairway"}, {"iron", "1", "iron"}} {
		if got := firstWood(c[0], c[1]); got != c[2] {
			t.Errorf("%s %s is %s, want %s", c[0], c[1], got, c[2])
		}
	}
}

// Rows that assume the same have one list, and none changes another's.
func TestAssumptions(t *testing.T) {
	none := &assumptions{}
	a := none.with("a")
	if a != none.with("a") || a.with("a") != a {
		t.Error("the same is assumed in two lists")
	}
	ab, ac := a.with("b"), a.with("c")
	alone := a.alone("d")
	if !slices.Equal(a.texts, []string{"a"}) || !slices.Equal(ab.texts, []string{"a", "b"}) || !slices.Equal(ac.texts, []string{"a", "c"}) || !slices.Equal(alone.texts, []string{"a", "d"}) {
		t.Errorf("%v, %v, %v, %v", a.texts, ab.texts, ac.texts, alone.texts)
	}
	if alone == a.with("d") {
		t.Error("others are led to what stands alone")
	}
}

// sizesIn makes compared sizes of one class.
func sizesIn(sizes ...float64) []compared {
	all := make([]compared, len(sizes))
	for i, size := range sizes {
		all[i] = compared{size: size}
	}
	return all
}

// The modified score by hand: of 11.9 … 13.8 with one 16.3 the median is 13.2 and the median distance 0.4, so that 3.5 / 0.6745 × 0.4 = 2.08 mm
// are far, and 15 % of the median, 1.98 mm, are less.
func TestFarIn(t *testing.T) {
	far := farIn(sizesIn(11.9, 12.8, 12.9, 13.0, 13.2, 13.4, 13.6, 13.8, 16.3))
	for size, want := range map[float64]bool{16.3: true, 15.3: true, 15.2: false, 11.9: false, 11.2: false, 11.1: true} {
		if far(size) != want {
			t.Errorf("%g is far: %v", size, !want)
		}
	}
	if same := farIn(sizesIn(13.6, 13.6, 13.6, 13.6, 13.6, 13.6, 13.6, 12.2)); same(12.2) || !same(11.5) {
		t.Error("among equal sizes, a tenth less is far, or a sixth is not")
	}
	if few := farIn(sizesIn(13.6, 13.6, 13.6, 13.6, 16.3)); few(16.3) {
		t.Error("four others are enough")
	}
	if enough := farIn(sizesIn(13.5, 13.6, 13.6, 13.7, 13.8, 16.3)); !enough(16.3) || enough(13.5) {
		t.Error("five others are not enough")
	}
}

func TestClassIsSaid(t *testing.T) {
	for _, c := range []struct {
		class class
		want  string
	}{{class{}, ""}, {class{tip: 9.398}, "0.370 in tips"}, {class{category: "iron"}, "iron"}, {class{9.017, "wedge"}, "wedge, 0.355 in tips"}} {
		if got := c.class.String(); got != c.want {
			t.Errorf("%+v is said as %q, want %q", c.class, got, c.want)
		}
	}
}

func TestIsVariant(t *testing.T) {
	for _, c := range []struct {
		part, of string
		want     bool
	}{
		{"R-10-SW", "R-10", true}, {"R-10L", "R-10", true}, {"R-10BLK", "R-10", true},
		{"R-10", "R-10", false}, {"R-10-", "R-10", false}, {"R-100", "R-10", false}, {"R-10WHITE", "R-10", false}, {"R-10L2", "R-10", false},
		{"RAB", "RA", false}, {"R-10", "", false}, {"X-10L", "R-10", false},
	} {
		if got := isVariant(c.part, c.of); got != c.want {
			t.Errorf("%q is a variant of %q: %v", c.part, c.of, got)
		}
	}
}
