package main

import (
	"context"
	"errors"
	"io"
	"os"
	"testing"

	"example.com/seatline/cmd/reconcile/internal/folder"
	"example.com/seatline/reconcile/publish"
)

// A run that is stopped while it writes leaves nothing behind, whichever of its files were complete.
func TestStoppedRunLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	written := make(chan struct{})
	outputs := []publish.Output{
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
	}
	err := folder.Write(ctx, dir, []string{"complete", "one", "other"}, func() {}, func(set *folder.Set) error {
		return writeInto(set, dir, outputs)
	})
	if !errors.Is(err, folder.ErrStopped) {
		t.Errorf("error %v, want %v", err, folder.ErrStopped)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) > 0 {
		t.Errorf("left are %v (%v)", left, err)
	}
}
