package folder

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"runtime"
)

// fileSystem is every call that changes a folder, so that tests can end a run at each of them.
type fileSystem interface {
	Mkdir(path string) error
	// Create makes a file that is not there yet; the rights are those of a usual file of this person.
	Create(path string) (file, error)
	Link(from, to string) error
	Rename(from, to string) error
	// Remove removes a file or an empty folder.
	Remove(path string) error
	// SyncDir makes what changed in a folder outlast a loss of power, on systems that can.
	SyncDir(path string) error
}

type file interface {
	io.WriteCloser
	Sync() error
}

// disk is the file system of the machine.
type disk struct{}

func (disk) Mkdir(path string) error { return os.Mkdir(path, 0o777) }

func (disk) Create(path string) (file, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}

func (disk) Link(from, to string) error   { return os.Link(from, to) }
func (disk) Rename(from, to string) error { return os.Rename(from, to) }
func (disk) Remove(path string) error     { return os.Remove(path) }

func (disk) SyncDir(path string) error {
	if runtime.GOOS == "windows" {
		return nil // a folder cannot be opened for that there
	}
	dir, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(dir.Sync(), dir.Close())
}

// gone passes over that something is not there.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
