package folder

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"syscall"
	"time"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// lockName is the file by which one run at a time holds a folder. The system lets go of it when a run ends, however it ends.
const lockName = ".reconcile-lock"

// patience is how long a run waits for another one before it says so.
const patience = time.Second

// stopped are the waits of runs that were stopped meanwhile: each ends when it has let go of the folder that it no longer wants.
var stopped sync.WaitGroup

// usedByAnother is ERROR_SHARING_VIOLATION of Windows: another run has the file open.
const usedByAnother = syscall.Errno(32)

// lock waits until no other run holds the folder, and returns what lets go of it. Waiting is called once where it takes long.
func lock(ctx context.Context, dir string, waiting func()) (release func() error, err error) {
	type outcome struct {
		held *lockedfile.File
		err  error
	}
	done := make(chan outcome, 1)
	go func() {
		held, err := hold(filepath.Join(dir, lockName))
		done <- outcome{held, err}
	}()
	told := time.NewTimer(patience)
	defer told.Stop()
	for {
		select {
		case got := <-done:
			if got.err != nil {
				return nil, got.err
			}
			return func() error { return letGo(got.held) }, nil
		case <-told.C:
			waiting()
		case <-ctx.Done():
			stopped.Go(func() { // what still waits for the folder lets go of it at once
				if got := <-done; got.err == nil {
					_ = letGo(got.held) // nobody is left to be told, and the next run takes what stays
				}
			})
			return nil, ErrStopped
		}
	}
}

// letGo removes the file of a lock and lets go of it, in this order: a run that comes between finds either. Windows removes no file that
// is open, be it here or in the run that took it next; there it is let go of first, and stays, empty, where the next run has it already.
func letGo(held *lockedfile.File) error {
	if runtime.GOOS == "windows" {
		err := held.Close()
		removed := gone(os.Remove(held.Name()))
		if errors.Is(removed, usedByAnother) || errors.Is(removed, os.ErrPermission) {
			removed = nil
		}
		return errors.Join(err, removed)
	}
	return errors.Join(gone(os.Remove(held.Name())), held.Close())
}

// hold locks a file, and makes sure that it is still the one of that name: the run before may have removed it meanwhile.
func hold(path string) (*lockedfile.File, error) {
	for {
		held, err := lockedfile.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
		if err != nil {
			return nil, err
		}
		mine, err := held.Stat()
		if err != nil {
			return nil, errors.Join(err, held.Close())
		}
		if named, err := os.Lstat(path); err == nil && os.SameFile(mine, named) {
			return held, nil
		}
		if err := held.Close(); err != nil {
			return nil, err
		}
	}
}
