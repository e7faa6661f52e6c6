package main

import (
	"bytes"
	"testing"
	"time"
)

func TestLeft(t *testing.T) {
	for _, test := range []struct {
		since    time.Duration
		done, of int
		want     string
	}{
		{500 * time.Millisecond, 5, 100, ""}, // too early to tell
		{2 * time.Second, 0, 100, ""},
		{2 * time.Second, 20, 100, ", about 8 s left"}, // 20 in 2 s, 80 to come
		{10 * time.Second, 95, 100, ""},                // half a second
		{10 * time.Second, 100, 100, ""},
		{30 * time.Second, 10, 100, ", about 5 minutes left"}, // 4 and a half
		{10 * time.Second, 10, 100, ", about 2 minutes left"}, // 90 s
		{10 * time.Second, 11, 100, ", about 81 s left"},
	} {
		if got := left(test.since, test.done, test.of); got != test.want {
			t.Errorf("after %v, %d of %d: %q, want %q", test.since, test.done, test.of, got, test.want)
		}
	}
}

// Elsewhere than on a terminal nothing is shown, and nobody is told how far it is.
func TestProgressNeedsATerminal(t *testing.T) {
	var out bytes.Buffer
	p := streams{err: &out}.progress(3)
	p.stage("reading")
	if p.watcher("deciding") != nil {
		t.Error("somebody is told")
	}
	p.within(time.Minute)()
	p.end()
	if out.Len() > 0 {
		t.Errorf("%q is shown", out.String())
	}
}
