package main

import (
	"context"
	"errors"
	"io"
	"os"
	"testing"

	"example.com/seatline/reconcile/publish"
)

// A run that is stopped while it writes leaves nothing behind, whichever of its files were complete.
func TestStoppedRunLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	files := &asides{dir: dir, stopped: ctx}
	written := make(chan struct{})
	_, err := files.writeAll([]publish.Output{
		{Name: "complete", Write: func(w io.Writer) error {
			defer close(written)
			_, err := io.WriteString(w, "all of it")
			return err
		}},
		{Name: "one", Beside: &publish.Output{Name: "other"}, WriteBoth: func(one, _ io.Writer) error {
			<-written
			stop()
			_, err := io.WriteString(one, "some of it")
			return err
		}},
	})
	if !errors.Is(err, errStopped) {
		t.Errorf("error %v, want %v", err, errStopped)
	}
	if err := files.remove(); err != nil {
		t.Error(err)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) > 0 {
		t.Errorf("left are %v (%v)", left, err)
	}
}
