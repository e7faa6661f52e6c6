package plans

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
)

func TestSetsOf(t *testing.T) {
	said := func(part, supplier, why string) saidOfHead {
		return saidOfHead{head: &catalog.Head{Item: catalog.Item{Part: part, Supplier: supplier}}, why: why}
	}
	for name, tt := range map[string]struct {
		all  []saidOfHead
		want []string
	}{
		"nothing":         {},
		"a set":           {[]saidOfHead{said("M1-4", "A", "x"), said("M1-5", "A", "x"), said("M1-PW", "A", "x")}, []string{"M1-4 … PW"}},
		"another reason":  {[]saidOfHead{said("M1-4", "A", "x"), said("M1-5", "A", "y"), said("M1-6", "A", "x")}, []string{"M1-4", "M1-5", "M1-6"}},
		"other suppliers": {[]saidOfHead{said("M1-4", "A", "x"), said("M1-5", "B", "x")}, []string{"M1-4", "M1-5"}},
		"no set":          {[]saidOfHead{said("H1", "A", "x"), said("H2", "A", "x"), said("M1-4", "A", "x")}, []string{"H1", "H2", "M1-4"}},
	} {
		t.Run(name, func(t *testing.T) {
			var got []string
			for set := range setsOf(tt.all) {
				got = append(got, namesOfSet(set))
			}
			if d := cmp.Diff(tt.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}
