package main

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Sizes are asked for one at a time: a mistake is asked again, what is left out stays out, and the answer is that of the flags.
func TestAskJoint(t *testing.T) {
	t.Setenv("LC_ALL", "C.UTF-8")
	typed := "13.6\n.355\ntaper .355\n.368\n13.9\n.5\n\n1.5\n\n"
	var out, flags strings.Builder
	if err := (streams{in: strings.NewReader(typed), out: &out, err: &out}).askJoint(&answerFlags{}, ""); err != nil {
		t.Fatal(err)
	}
	if status := run([]string{"joint", "--hosel-od", "13.6", "--tip", "taper .355", "--ferrule-bore", ".368", "--base-od", "13.9", "--length", ".5", "--bore-depth", "1.5"}, nil, &flags, &flags); status != exitDone {
		t.Fatalf("status %d: %s", status, &flags)
	}
	answer := out.String()[strings.LastIndex(out.String(), "rounded): \n")+len("rounded): \n"):]
	if diff := cmp.Diff(flags.String(), answer); diff != "" {
		t.Errorf("the answer (-flags +asked):\n%s", diff)
	}
	for _, want := range []string{"hosel OD (at its very top", "is it parallel or taper?", "so far: hosel OD 13.6 mm\n  still needed: ", "so far: hosel OD 13.6 mm, tip .355 in taper, bore of the ferrule .368 in, base OD 13.9 mm, length of the ferrule .5 in\n  that comes to turn: "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not said:\n%s", want, &out)
		}
	}
	if strings.Contains(out.String(), "--tip: ") {
		t.Errorf("who is asked for a tip is told of a flag:\n%s", &out)
	}
	if lines := strings.Count(answer, "\n"); lines > 10 {
		t.Errorf("the answer has %d lines", lines)
	}
}

// Where the typing ends, the answer is that of what there is.
func TestAskJointEnds(t *testing.T) {
	var out strings.Builder
	if err := (streams{in: strings.NewReader("13.6\n"), out: &out, err: &out}).askJoint(&answerFlags{}, ""); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "ASK: ") {
		t.Errorf("no answer:\n%s", &out)
	}
}
