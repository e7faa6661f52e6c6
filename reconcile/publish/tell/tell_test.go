package tell_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// TestAccountAddsUp counts everything a second time.
func TestAccountAddsUp(t *testing.T) {
	for name, r := range map[string]*matrix.Result{
		"small": telltest.Small(t), "awkward": telltest.Awkward(t), "large": telltest.Large(t, 30, 70), "empty": telltest.Empty(), "only the best": telltest.OnlyBest(t),
	} {
		a := tell.Take(r)
		if a.Listed+a.Counted+a.OutOfRange != a.Heads*a.Ferrules || a.Listed != r.Listed {
			t.Errorf("%s: %d listed, %d counted and %d out of range of %d heads by %d ferrules", name, a.Listed, a.Counted, a.OutOfRange, a.Heads, a.Ferrules)
		}
		sum, carried := 0, map[string]int{}
		for _, count := range a.Verdicts {
			sum += count
		}
		if sum != a.Listed+a.Counted {
			t.Errorf("%s: verdicts sum to %d, want %d", name, sum, a.Listed+a.Counted)
		}
		fits := map[int32]bool{}
		served := map[int32]bool{}
		for p := range r.Pairs() {
			if p.Verdict.Fits() {
				fits[p.Ferrule], served[p.Head] = true, true
			}
			fit := r.Fit(p)
			for _, assumption := range tell.Assumptions(r, p, &fit) {
				carried[assumption.Code+assumption.Text]++
			}
		}
		if a.UsedFerrules != len(fits) || a.Standing[tell.Served] != len(served) {
			t.Errorf("%s: %d ferrules and %d heads, want %d and %d", name, a.UsedFerrules, a.Standing[tell.Served], len(fits), len(served))
		}
		for _, c := range a.Assumptions {
			if carried[c.Code+c.Text] != c.Verdicts {
				t.Errorf("%s: %s carries %d, want %d", name, c.Code, c.Verdicts, carried[c.Code+c.Text])
			}
		}
		if len(a.Assumptions) != len(carried) {
			t.Errorf("%s: %d assumptions, want %d", name, len(a.Assumptions), len(carried))
		}
		if rows := a.AllRows; rows.Rows != rows.Used+rows.Assumed+rows.Held+rows.SetAside {
			t.Errorf("%s: rows %+v", name, rows)
		}
	}
}

func TestStandings(t *testing.T) {
	r := telltest.Small(t)
	want := map[string]tell.Standing{
		"TF-610": tell.Served, "TF-640": tell.Served, "TF-900": tell.Served, "QM-1W": tell.Served, "OB-31": tell.Served,
		"QM-P2": tell.TakesNone, "QM-5H": tell.Undecided, "OB-77": tell.Unserved,
	}
	got := map[string]tell.Standing{}
	for i, s := range tell.Take(r).Standings {
		got[r.Catalogue.Heads[i].Part] = s
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestListing: where only the best is listed it is said, with counts that close.
func TestListing(t *testing.T) {
	few := tell.Take(telltest.OnlyBest(t))
	fit, left := 0, 0
	for v, n := range few.Verdicts {
		if v.Fits() {
			fit, left = fit+n, left+few.LeftOut[v]
		}
	}
	if fit-left > few.Listed || left == 0 {
		t.Errorf("of %d pairs that fit %d are left out, and %d are listed", fit, left, few.Listed)
	}
	want := fmt.Sprintf("of %d pairs that fit are listed the best ferrule of each head and the best head of each ferrule; the other %d are counted", fit, left)
	if got := few.Listing(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	whole := tell.Take(telltest.Small(t))
	if text := whole.Listing(); text != "" || len(whole.LeftOut) > 0 {
		t.Errorf("all that fits is listed: %q, %v", text, whole.LeftOut)
	}
}

// TestManyReadings: a thousand rows, each read with an assumption of its own, do not make a thousand lines.
func TestManyReadings(t *testing.T) {
	r := telltest.Large(t, 100, 60)
	for i := range r.Catalogue.Heads {
		r.Catalogue.Heads[i].Assumptions = []string{fmt.Sprintf("row %d is read somehow", i)}
	}
	a := tell.Take(r)
	readings := 0
	for _, c := range a.Assumptions {
		if c.Code == tell.Reading {
			readings++
		}
	}
	if readings != 41 {
		t.Errorf("%d lines of assumptions in reading, want 40 and one for the others", readings)
	}
}

func TestAssumptionsStandOnce(t *testing.T) {
	r := telltest.Small(t)
	p := slices.Collect(r.Pairs())[0]
	for _, item := range []*catalog.Item{&r.Catalogue.Heads[p.Head].Item, &r.Catalogue.Ferrules[p.Ferrule].Item} {
		item.Assumptions = []string{"in inches", "in inches", "rounded"}
	}
	fit := r.Fit(p)
	var read []string
	for _, a := range tell.Assumptions(r, p, &fit) {
		if a.Code == tell.Reading {
			read = append(read, a.String())
		}
	}
	if diff := cmp.Diff([]string{"in inches", "rounded"}, read); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestSettings(t *testing.T) {
	shop := fitcalc.DefaultShop()
	for _, s := range tell.Settings(shop) {
		if s.Changed || s.Value == "" || s.Why == "" || s.Source == "" {
			t.Errorf("a default setting is %+v", s)
		}
	}
	if err := shop.Set("slip_risk", "0.01"); err != nil {
		t.Fatal(err)
	}
	for _, s := range tell.Settings(shop) {
		if s.Changed != (s.Key == "slip_risk") {
			t.Errorf("%s: changed is %v", s.Key, s.Changed)
		}
	}
}

func TestShow(t *testing.T) {
	for text, want := range map[string]string{".040 in": ".040 in (1.016 mm)", "0.05": "0.05", "60°": "60°", "0.0075 in/in": "0.0075 in/in"} {
		if got := tell.Show(text, fitcalc.Imperial); got != want {
			t.Errorf("Show(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestInputs(t *testing.T) {
	r := telltest.Small(t)
	want := []tell.Input{{Name: "heads.xlsx", Kind: "heads"}, {Name: "ferrules.csv", Kind: "ferrules"}}
	if diff := cmp.Diff(want, tell.Inputs(r, nil)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	named := []tell.Input{{Name: "shop.toml", Kind: "settings"}}
	if diff := cmp.Diff(named, tell.Inputs(r, named)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
