package tell_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func TestMeasured(t *testing.T) {
	r := telltest.Measured(t)
	m := &r.Catalogue.Measurements
	want := "6 sizes of 6 parts by 18 readings; 8 rows of readings: 6 used, 1 held, 1 set aside"
	if got := tell.Measured(m); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := tell.Measured(&catalog.Measurements{}); got != "" {
		t.Errorf("nothing was measured, and yet %q", got)
	}
	if len(m.Learned) != 1 {
		t.Fatalf("%+v", m.Learned)
	}
	text := tell.Learned(r.Catalogue, &m.Learned[0], fitcalc.Imperial)
	if !strings.HasPrefix(text, "base OD of Hollin Mouldings, ferrules: ± ") || !strings.HasSuffix(text, "by 15 readings of 5 parts; taken for 2 others without a tolerance") {
		t.Errorf("%q", text)
	}
	l := m.Learned[0]
	l.Bias = .1
	if text := tell.Learned(r.Catalogue, &l, fitcalc.Metric); !strings.HasSuffix(text, "; on average they are 0.10 mm (.0039 in) larger than stated") {
		t.Errorf("%q", text)
	}
}

// Every pair says which of its sizes are measured, and a pair with a ferrule of a learned tolerance that it rests on one.
func TestPairsSayWhatIsMeasured(t *testing.T) {
	r := telltest.Measured(t)
	seen := map[string][]string{}
	for p := range r.Pairs() {
		fit := r.Fit(p)
		pair := r.Catalogue.Heads[p.Head].Part + " " + r.Catalogue.Ferrules[p.Ferrule].Part
		for _, f := range tell.MeasuredFields(r, p) {
			seen[pair] = append(seen[pair], f.Code())
		}
		for _, a := range tell.Assumptions(r, p, &fit) {
			if a.Code == "tolerance.learned" {
				seen[pair] = append(seen[pair], a.Code)
			}
		}
	}
	for pair, want := range map[string][]string{
		"TF-610 HM-20": {"hosel_od", "base_od"}, "TF-610 VB-09": {"hosel_od"}, "QM-1W HM-35": {"tolerance.learned"},
		"TF-900 HM-20": {"base_od"}, "TF-900 VB-09": nil,
	} {
		if diff := cmp.Diff(want, seen[pair]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", pair, diff)
		}
	}
}
