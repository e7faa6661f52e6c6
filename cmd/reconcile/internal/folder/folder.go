// Package folder changes a set of files in a folder as one: a reader finds all of the old set or all of the new one, or sees by their
// sums that the set is being changed.
//
// All files are written and synced in a folder beside, [newName]. Publishing links the files that will be replaced into [oldName], writes
// down there which these are, renames each new file to its place and the sums, [SumsName], last. Whatever fails before that takes every
// file back; a run that is killed there leaves what the next run in this folder takes back before it does anything else. A set of one file
// that no sums speak of needs none of it, since one renaming is whole by itself.
//
// One run at a time holds a folder. Renaming over a file is whole on all systems that Go runs on but for network shares that say otherwise;
// syncing a folder is done where the system can, which Windows cannot.
package folder

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

const (
	// SumsName is the file of the SHA-256 sums of a set, as sha256sum --check reads it.
	SumsName = "SHA256SUMS"
	newName  = ".reconcile-new"
	oldName  = ".reconcile-old"
	// journalName is the file in oldName that says what is being replaced.
	journalName = ".journal"
)

// ErrStopped ends a run that a person stopped.
var ErrStopped = errors.New("stopped; the files of an earlier run are as they were")

// TargetError is a place where no file can be put.
type TargetError struct{ Path, What string }

func (e *TargetError) Error() string {
	return e.Path + " is " + e.What + " and is not replaced; choose another name with --out"
}

// HeldError is a file that could not be put in its place.
type HeldError struct {
	Path string
	Err  error
}

func (e *HeldError) Error() string {
	cause := e.Err
	if link, ok := errors.AsType[*os.LinkError](cause); ok {
		cause = link.Err
	}
	return fmt.Sprintf("%s cannot be replaced (%v), so the files of the earlier run are as they were; close it in other programs, or choose another folder with --out", e.Path, cause)
}

// Unwrap returns the cause.
func (e *HeldError) Unwrap() error { return e.Err }

// Set is a set of files that is being written.
type Set struct {
	dir     string
	disk    fileSystem
	stopped context.Context
	mu      sync.Mutex
	sums    map[string]string
	// unsynced are the complete files, open until they are synced.
	unsynced []file
}

// Write calls write with a set, whose files go into a folder that is made if need be, and publishes it. Waiting is called once if another
// run holds the folder for long. Names are those of all files that write will make.
func Write(ctx context.Context, dir string, names []string, waiting func(), write func(*Set) error) error {
	return writeOn(ctx, disk{}, dir, names, waiting, write)
}

func writeOn(ctx context.Context, disk fileSystem, dir string, names []string, waiting func(), write func(*Set) error) (err error) {
	for _, name := range append([]string{SumsName}, names...) {
		if err := target(filepath.Join(dir, name)); err != nil {
			return err
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	release, err := lock(ctx, dir, waiting)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, release()) }()
	s := &Set{dir: dir, disk: disk, stopped: ctx, sums: map[string]string{}}
	if err := s.recover(); err != nil {
		return fmt.Errorf("what an earlier run left in %s cannot be cleaned: %w", dir, err)
	}
	if err := disk.Mkdir(s.path(newName)); err != nil {
		return err
	}
	err = write(s)
	if err == nil && ctx.Err() != nil {
		err = ErrStopped
	}
	if err == nil {
		err = s.publish()
	}
	if err != nil {
		return errors.Join(err, s.closeAll(), s.recover())
	}
	return s.clean()
}

// closeAll closes what is still open, since some systems remove no open file.
func (s *Set) closeAll() error {
	var errs []error
	for _, f := range s.unsynced {
		errs = append(errs, f.Close())
	}
	s.unsynced = nil
	return errors.Join(errs...)
}

// target refuses a place where something other than a file is.
func target(path string) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.IsDir():
		return &TargetError{path, "a folder"}
	case info.Mode()&fs.ModeSymlink != 0:
		return &TargetError{path, "a link"}
	case !info.Mode().IsRegular():
		return &TargetError{path, "no usual file"}
	}
	return nil
}

func (s *Set) path(parts ...string) string {
	return filepath.Join(append([]string{s.dir}, parts...)...)
}

// File is one file of a set.
type File struct {
	set    *Set
	name   string
	file   file
	buffer *bufio.Writer
	sum    hash.Hash
}

// Create makes a file of the set. Files may be made and written side by side.
func (s *Set) Create(name string) (*File, error) {
	made, err := s.disk.Create(s.path(newName, name))
	if err != nil {
		return nil, err
	}
	return &File{set: s, name: name, file: made, buffer: bufio.NewWriterSize(made, 1<<16), sum: sha256.New()}, nil
}

// Write writes to the file until the run is stopped.
func (f *File) Write(p []byte) (int, error) {
	if f.set.stopped.Err() != nil {
		return 0, ErrStopped
	}
	f.sum.Write(p)
	return f.buffer.Write(p)
}

// Close ends the file; one that is complete is part of the set. It outlasts a loss of power once the set is published: syncing all files at
// once costs about as much as syncing one.
func (f *File) Close(complete bool) error {
	if !complete {
		return f.file.Close()
	}
	if err := f.buffer.Flush(); err != nil {
		return errors.Join(err, f.file.Close())
	}
	f.set.mu.Lock()
	defer f.set.mu.Unlock()
	f.set.sums[f.name] = hex.EncodeToString(f.sum.Sum(nil))
	f.set.unsynced = append(f.set.unsynced, f.file)
	return nil
}

// sync makes all files that were written outlast a loss of power, at once, and closes them.
func (s *Set) sync() error {
	files := s.unsynced
	s.unsynced = nil
	return atOnce(len(files), func(i int) error { return errors.Join(files[i].Sync(), files[i].Close()) })
}

// atOnce does things that wait for the disk side by side.
func atOnce(n int, do func(i int) error) error {
	errs := make([]error, n)
	var work sync.WaitGroup
	for i := range n {
		work.Go(func() { errs[i] = do(i) })
	}
	work.Wait()
	return errors.Join(errs...)
}

// journal says what publishing replaces and what it adds.
type journal struct{ Replaced, Added []string }

// publish puts all files in place, or takes none: the caller recovers where it fails.
func (s *Set) publish() error {
	names := slices.Sorted(maps.Keys(s.sums))
	sums, err := s.mergedSums()
	if err != nil {
		return err
	}
	if sums == "" {
		if err := s.sync(); err != nil {
			return err
		}
		return s.place(names)
	}
	if err := s.write(s.path(newName, SumsName), sums); err != nil {
		return err
	}
	if err := s.keep(append(names, SumsName)); err != nil {
		return err
	}
	return s.place(append(names, SumsName)) // the sums last: from then on the new set holds
}

func (s *Set) place(names []string) error {
	for _, name := range names {
		if err := s.disk.Rename(s.path(newName, name), s.path(name)); err != nil {
			return &HeldError{s.path(name), err}
		}
	}
	return s.disk.SyncDir(s.dir)
}

// keep links the files that are there into the folder of old ones, and writes the journal when all are kept.
func (s *Set) keep(names []string) error {
	if err := s.disk.Mkdir(s.path(oldName)); err != nil {
		return err
	}
	var j journal
	for _, name := range names {
		switch err := s.disk.Link(s.path(name), s.path(oldName, name)); {
		case err == nil:
			j.Replaced = append(j.Replaced, name)
		case errors.Is(err, fs.ErrNotExist):
			j.Added = append(j.Added, name)
		default:
			if err := s.copy(name); err != nil {
				return err
			}
			j.Replaced = append(j.Replaced, name)
		}
	}
	text, err := json.Marshal(j)
	if err != nil {
		return err
	}
	if err := s.write(s.path(oldName, journalName+".part"), string(text)); err != nil {
		return err
	}
	if err := s.sync(); err != nil { // nothing is replaced before all that replaces it is on the disk
		return err
	}
	if err := s.disk.Rename(s.path(oldName, journalName+".part"), s.path(oldName, journalName)); err != nil {
		return err
	}
	folders := []string{newName, oldName}
	return atOnce(len(folders), func(i int) error { return s.disk.SyncDir(s.path(folders[i])) })
}

// copy keeps a file where the system has no links.
func (s *Set) copy(name string) error {
	content, err := os.ReadFile(s.path(name))
	if err != nil {
		return err
	}
	return s.write(s.path(oldName, name), string(content))
}

// write writes a small file, which is synced with the others.
func (s *Set) write(path, text string) error {
	made, err := s.disk.Create(path)
	if err != nil {
		return err
	}
	if _, err := made.Write([]byte(text)); err != nil {
		return errors.Join(err, made.Close())
	}
	s.unsynced = append(s.unsynced, made)
	return nil
}

// mergedSums returns the sums of the set and of the files of other sets in the folder; empty where there is one file and no sums.
func (s *Set) mergedSums() (string, error) {
	all := maps.Clone(s.sums)
	content, err := os.ReadFile(s.path(SumsName))
	if err := gone(err); err != nil {
		return "", err
	}
	spoken := len(s.sums) > 1
	for line := range strings.Lines(string(content)) {
		sum, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		if !ok || len(sum) != 2*sha256.Size || filepath.Base(name) != name {
			return "", &TargetError{s.path(SumsName), "not written by this program"}
		}
		if _, mine := s.sums[name]; mine {
			spoken = true
		} else if _, err := os.Lstat(s.path(name)); err == nil {
			all[name] = sum
		}
	}
	if !spoken {
		return "", nil
	}
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(all)) {
		fmt.Fprintf(&out, "%s  %s\n", all[name], name)
	}
	return out.String(), nil
}

// recover takes back what was published in part, and removes what a run has left.
func (s *Set) recover() error {
	content, err := os.ReadFile(s.path(oldName, journalName))
	if err := gone(err); err != nil {
		return err
	}
	if _, pending := os.Lstat(s.path(newName, SumsName)); err == nil && pending == nil {
		var j journal
		if err := json.Unmarshal(content, &j); err != nil {
			return err
		}
		for _, name := range j.Replaced {
			if err := gone(s.disk.Rename(s.path(oldName, name), s.path(name))); err != nil {
				return err
			}
		}
		for _, name := range j.Added {
			if err := gone(s.disk.Remove(s.path(name))); err != nil {
				return err
			}
		}
		if err := s.disk.SyncDir(s.dir); err != nil {
			return err
		}
	}
	return s.clean()
}

// clean removes the folders beside, the journal first: without it nothing is taken back any more.
func (s *Set) clean() error {
	if err := gone(s.disk.Remove(s.path(oldName, journalName))); err != nil {
		return err
	}
	for _, name := range []string{oldName, newName} {
		entries, err := os.ReadDir(s.path(name))
		if err := gone(err); err != nil {
			return err
		}
		for _, entry := range entries {
			if err := gone(s.disk.Remove(s.path(name, entry.Name()))); err != nil {
				return err
			}
		}
		if err := gone(s.disk.Remove(s.path(name))); err != nil {
			return err
		}
	}
	return nil
}
