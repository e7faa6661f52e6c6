package questions_test

import (
	"strings"
	"sync/atomic"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// TestAssumptionsAreCounted counts a second time, and decides the whole catalogue anew with another tolerance instead of trying the
// pairs one by one.
func TestAssumptionsAreCounted(t *testing.T) {
	catalogue := telltest.Large(t, 37, 40).Catalogue
	for i := range catalogue.Ferrules { // some a tenth of a thousandth off the thousandths, where a tolerance decides
		f := &catalogue.Ferrules[i].Ferrule
		f.BaseOD = f.BaseOD.Shift(measure.Thou(int64(i%5)).MulRatio(1, 10))
	}
	r := matrix.Decide(catalogue, fitcalc.DefaultShop())
	rests, flips, lost := 0, 0, 0
	half, twice := fitcalc.DefaultShop(), fitcalc.DefaultShop()
	half.FerruleODTolerance = half.FerruleODTolerance.Half()
	twice.FerruleODTolerance = twice.FerruleODTolerance.MulInt(2)
	verdicts := func(shop fitcalc.Shop) map[[2]int32]fitcalc.Verdict {
		all := map[[2]int32]fitcalc.Verdict{}
		for p := range matrix.DecideAll(r.Catalogue, shop).Pairs() {
			all[[2]int32{p.Head, p.Ferrule}] = p.Verdict
		}
		return all
	}
	less, more := verdicts(half), verdicts(twice)
	for p := range r.Pairs() {
		fit := r.Fit(p)
		if !fit.Assumptions.Has(fitcalc.AssumedBaseODTolerance) {
			continue
		}
		rests++
		pair := [2]int32{p.Head, p.Ferrule}
		if less[pair] != p.Verdict || more[pair] != p.Verdict {
			flips++
		}
		if p.Verdict.Serves() && (!less[pair].Serves() || !more[pair].Serves()) {
			lost++
		}
	}
	if flips == 0 || lost == 0 {
		t.Fatal("the test's own catalogue has nothing that flips")
	}
	found := false
	var told atomic.Int64
	for _, a := range questions.AssumptionsBy(r, func(done, of int) { told.Add(1) }) {
		if a.Code != "tolerance.base-od" {
			continue
		}
		found = true
		if a.Verdicts != rests || a.Flips != flips || a.Lost != lost {
			t.Errorf("%+v, want %d verdicts, %d flips, %d lost", a, rests, flips, lost)
		}
	}
	if n := len(r.HeadGeometries()); int(told.Load()) != n {
		t.Errorf("told of %d geometries, want %d", told.Load(), n)
	}
	if !found {
		t.Error("the tolerance of the base OD is no assumption")
	}
}

// TestTaperCarries: on a .355 in taper tip, a ferrule of .368 in bore and 3/16 in at 1.5 in insertion grips by next to nothing (common
// practice, from memory): .355 + .0079 × 1.6875 − .368 = .0003 in, and with a twentieth less it has as much play.
func TestTaperCarries(t *testing.T) {
	c := reader.Read([]reader.Input{
		{Book: named("heads.csv", "Part | Hosel OD (in) | Bore depth (in) | Tip | Top", "A-1 | .500 | 1.5 | .355 taper | flat", "A-2 | .500 | 1.5 | .355 taper | flat"), Kind: catalog.Heads},
		{Book: named("trim.csv", "Part | Bore (in) | Base OD (in) | Length (in) | Style", "F-1 | .368 | .505 | .1875 | plain", "F-2 | .368 | .506 | .1875 | plain"), Kind: catalog.Ferrules},
	}, reader.Options{})
	for _, a := range questions.Assumptions(matrix.Decide(c, fitcalc.DefaultShop())) {
		if a.Code == fitcalc.AssumedTipTaper.Code() {
			if a.Verdicts != 4 || a.Flips != 4 || a.Lost != 4 {
				t.Errorf("%+v, want all four pairs to hang on the taper", a)
			}
			return
		}
	}
	t.Error("nothing rests on the taper")
}

// TestImpossiblePart: a part with sizes that no part can have is asked about once, by the size that is at fault.
func TestImpossiblePart(t *testing.T) {
	r := telltest.Small(t)
	od := measure.Nominal(measure.Thou(300))
	r.Catalogue.Heads[0].Head.HoselOD = od // narrower than its bore
	list := questions.Ask(matrix.Decide(r.Catalogue, fitcalc.DefaultShop()))
	var about []questions.Question
	for _, q := range list.Questions {
		if q.Part == r.Catalogue.Heads[0].Part && q.Settles > 0 {
			about = append(about, q)
		}
	}
	if len(about) != 1 || about[0].Kind != questions.Implausible || !strings.Contains(about[0].Why, "hosel") {
		t.Errorf("%+v", about)
	}
}
