package fitcalc_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
)

// TestSentences holds the wording of every reason and assumption, in all units, against testdata/sentences.golden.
func TestSentences(t *testing.T) {
	var b strings.Builder
	written := map[string]bool{} // each sentence stands once
	fitcalc.SentenceCases(t, func(name string, fit *fitcalc.Fit) {
		fmt.Fprintf(&b, "%s: %v\n", name, fit.Verdict)
		for r := range fit.Reasons() {
			if text := say.English().Reason(r, fitcalc.Metric); written[text] {
				continue
			} else {
				written[text] = true
			}
			fmt.Fprintf(&b, "  %v\n", r.Code)
			for _, u := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial, fitcalc.Fractions} {
				fmt.Fprintf(&b, "    %-4v %s\n", u, say.English().Reason(r, u))
			}
		}
		for a := range fit.Assumptions.All() {
			fmt.Fprintf(&b, "  assumes %s: %s\n", a.Code(), say.English().Assumption(a))
		}
		b.WriteString("\n")
	})
	golden := filepath.Join("testdata", "sentences.golden")
	if fitcalc.Update() {
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")); diff != "" {
		t.Errorf("run go test -run Sentences -update when the new wording is meant (-want +got):\n%s", diff)
	}
}

func TestEveryCodeHasASentence(t *testing.T) {
	for code := range fitcalc.Codes() {
		if s := say.English().Reason(fitcalc.Reason{Code: code}, fitcalc.Metric); s == code.String() || s == "" {
			t.Errorf("%v has no sentence", code)
		}
	}
	for _, code := range []fitcalc.Code{fitcalc.NoCode, 200} {
		if s := say.English().Reason(fitcalc.Reason{Code: code}, fitcalc.Metric); s != "" {
			t.Errorf("code %d reads %q", code, s)
		}
	}
}

// TestSentencesNameNoZeroTheyDoNotKnow: the wall left by a cut is not told where the hosel OD is not given.
func TestSentencesNameNoZeroTheyDoNotKnow(t *testing.T) {
	fitcalc.SentenceCases(t, func(name string, fit *fitcalc.Fit) {
		for r := range fit.Reasons() {
			if name == "collar, hosel not given" && r.Code == fitcalc.SeatCollarHigh && strings.Contains(say.English().Reason(r, fitcalc.Metric), "wall") {
				t.Error(say.English().Reason(r, fitcalc.Metric))
			}
		}
	})
}

func TestMeasuredSentences(t *testing.T) {
	step, limit := measure.Thou(2), measure.Thou(40)
	for want, r := range map[string]fitcalc.Reason{
		"the base is 0.04 mm (.0016 in) smaller than the hosel on the diameter; by the readings it suits about 7 in 10 of such joints: choose piece by piece": {
			Code: fitcalc.FlushUndersize, Level: fitcalc.Measures, Measured: true, Size: measure.Micrometres(-40), Limit: step, Share: .3, Bound: .16,
		},
		"the base is 0.05 mm (.002 in) smaller than the hosel on the diameter, so close to the allowed step of 0.051 mm (.002 in) that the readings leave it open: try it before you choose": {
			Code: fitcalc.FlushUndersize, Level: fitcalc.Measures, Measured: true, Size: measure.Micrometres(-50), Limit: step, Share: .1, Bound: .16,
		},
		"by the readings no more than the limit of 1.016 mm (.040 in) comes off in about 4 in 10 of such joints: choose piece by piece": {
			Code: fitcalc.FlushTurnLimit, Level: fitcalc.Measures, Measured: true, Limit: limit, Share: .6,
		},
	} {
		if got := say.English().Reason(r, fitcalc.Metric); got != want {
			t.Errorf("got  %q\nwant %q", got, want)
		}
	}
}
