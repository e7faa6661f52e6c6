package questions_test

import (
	"testing"

	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// BenchmarkAsk asks about a catalogue of a million pairs, of which about a third are listed.
func BenchmarkAsk(b *testing.B) {
	r := telltest.Large(b, 1000, 1000)
	b.ReportMetric(float64(r.Listed), "pairs")
	for b.Loop() {
		questions.Ask(r)
	}
}

// BenchmarkAssumptions tries what the same pairs rest on.
func BenchmarkAssumptions(b *testing.B) {
	r := telltest.Large(b, 1000, 300)
	b.ReportMetric(float64(r.Listed), "pairs")
	for b.Loop() {
		questions.Assumptions(r)
	}
}
