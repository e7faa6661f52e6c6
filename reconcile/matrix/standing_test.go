package matrix_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/matrix"
)

// A head's standing is what all its pairs say, decided one by one; where Best finds none, it says why.
func TestStanding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { standings(t, rapid.Uint64().Draw(t, "seed"), map[matrix.Standing]bool{}) })
	// Not left to chance: over these catalogues, each standing comes up.
	seen := map[matrix.Standing]bool{}
	for seed := range uint64(100) {
		standings(t, seed, seen)
	}
	if len(seen) != 5 {
		t.Errorf("only %v were seen", seen)
	}
}

// standings compares every head's standing in a random catalogue with its pairs, and notes what was seen.
func standings(t rapid.TB, seed uint64, seen map[matrix.Standing]bool) {
	t.Helper()
	c := randomCatalogue(seed, 10, 12)
	r := matrix.Decide(c, fitcalc.DefaultShop())
	for head := range c.Heads {
		verdicts, mayFitOne := map[fitcalc.Verdict]int{}, false
		for ferrule := range c.Ferrules {
			verdict := bestVerdict(t, r, head, ferrule)
			verdicts[verdict]++
			mayFitOne = mayFitOne || verdict == fitcalc.Ask && mayFit(t, r, head, ferrule)
		}
		want := matrix.Unserved
		switch {
		case verdicts[fitcalc.Flush]+verdicts[fitcalc.Turn]+verdicts[fitcalc.Prep] > 0:
			want = matrix.Served
		case verdicts[fitcalc.Measure] > 0:
			want = matrix.Selective
		case verdicts[fitcalc.Bare] == len(c.Ferrules):
			want = matrix.TakesNone
		case mayFitOne:
			want = matrix.Undecided
		}
		got := r.Standing(head)
		// A question that no answer makes a fit may be listed or not.
		if got != want && !(got == matrix.Undecided && want == matrix.Unserved && verdicts[fitcalc.Ask] > 0) {
			t.Fatalf("head %d is %v, and its pairs are %v", head, got, verdicts)
		}
		if _, fits := r.Best(head); fits != (got == matrix.Served || got == matrix.Selective) {
			t.Fatalf("head %d is %v, and a best pair is found: %v", head, got, fits)
		}
		seen[got] = true
	}
}

func TestStandingWords(t *testing.T) {
	for s, want := range map[matrix.Standing]string{
		matrix.Served: "served", matrix.Undecided: "undecided", matrix.Unserved: "unserved", matrix.TakesNone: "bare", matrix.Selective: "selective", 5: "",
	} {
		if got := s.String(); got != want {
			t.Errorf("%d is %q, want %q", s, got, want)
		}
	}
}
