package publish_test

import (
	"bytes"
	"testing"

	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/data"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// TestSize: what a run says it will write is about what it writes.
func TestSize(t *testing.T) {
	r := telltest.Large(t, 60, 100)
	for _, sentences := range []bool{false, true} {
		var jsonl, csv bytes.Buffer
		if err := data.WriteFits(&jsonl, &csv, r, data.Options{Sentences: sentences}); err != nil {
			t.Fatal(err)
		}
		got, said := int64(jsonl.Len()+csv.Len()), publish.Size(r, publish.Publishing{Sentences: sentences})
		if said < got*3/4 || said > got*3/2 {
			t.Errorf("sentences %v: said are %d bytes, written %d", sentences, said, got)
		}
	}
}
