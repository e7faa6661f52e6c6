package folder

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// faulty is a disk on which the call of a number fails; where it kills, all calls after it fail too, as in a run that is no more.
type faulty struct {
	disk
	at    int
	kills bool
	mu    sync.Mutex
	calls int
}

var errFault = errors.New("fault")

func (f *faulty) fault() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.calls++
	if f.calls == f.at || f.kills && f.calls > f.at {
		return errFault
	}
	return nil
}

func (f *faulty) Mkdir(path string) error {
	if err := f.fault(); err != nil {
		return err
	}
	return f.disk.Mkdir(path)
}

func (f *faulty) Create(path string) (file, error) {
	if err := f.fault(); err != nil {
		return nil, err
	}
	made, err := f.disk.Create(path)
	return faultyFile{made, f}, err
}

func (f *faulty) Link(from, to string) error {
	if err := f.fault(); err != nil {
		return err
	}
	return f.disk.Link(from, to)
}

func (f *faulty) Rename(from, to string) error {
	if err := f.fault(); err != nil {
		return err
	}
	return f.disk.Rename(from, to)
}

func (f *faulty) Remove(path string) error {
	if err := f.fault(); err != nil {
		return err
	}
	return f.disk.Remove(path)
}

func (f *faulty) SyncDir(path string) error {
	if err := f.fault(); err != nil {
		return err
	}
	return f.disk.SyncDir(path)
}

type faultyFile struct {
	file
	of *faulty
}

func (f faultyFile) Write(p []byte) (int, error) {
	if err := f.of.fault(); err != nil {
		return 0, err
	}
	return f.file.Write(p)
}

func (f faultyFile) Sync() error {
	if err := f.of.fault(); err != nil {
		return err
	}
	return f.file.Sync()
}

var (
	oldSet = map[string]string{"a": "old a", "b": "old b", "dropped": "old"}
	newSet = map[string]string{"a": "new a", "b": "new b", "added": "new"}
)

// put writes a set into a folder.
func put(t *testing.T, d fileSystem, dir string, set map[string]string) error {
	t.Helper()
	var names []string
	for name := range set {
		names = append(names, name)
	}
	return writeOn(t.Context(), d, dir, names, func() {}, func(s *Set) error {
		for name, content := range set {
			f, err := s.Create(name)
			if err != nil {
				return err
			}
			_, err = f.Write([]byte(content))
			if err := errors.Join(err, f.Close(err == nil)); err != nil {
				return err
			}
		}
		return nil
	})
}

// content returns what a folder holds, without the sums.
func content(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, entry := range entries {
		text, err := os.ReadFile(filepath.Join(dir, entry.Name()))
		if err != nil {
			text = []byte("a folder")
		}
		if entry.Name() != SumsName {
			found[entry.Name()] = string(text)
		}
	}
	return found
}

// agrees reports whether all sums agree: the rule for readers.
func agrees(t *testing.T, dir string) bool {
	t.Helper()
	sums, err := os.ReadFile(filepath.Join(dir, SumsName))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(sums)) {
		sum, name, _ := strings.Cut(strings.TrimSpace(line), "  ")
		text, err := os.ReadFile(filepath.Join(dir, name))
		is := sha256.Sum256(text)
		if err != nil || hex.EncodeToString(is[:]) != sum {
			return false
		}
	}
	return true
}

func merged(a, b map[string]string) map[string]string {
	all := map[string]string{}
	for _, set := range []map[string]string{a, b} {
		for name, text := range set {
			all[name] = text
		}
	}
	return all
}

// TestEveryCall lets every call that changes the folder fail, and ends the run at every one of them. A run that goes on takes everything
// back. After one that is killed a reader sees by the sums that the set is whole, old or new, or that it is not, and the next run, even
// one that writes nothing, makes it whole.
func TestEveryCall(t *testing.T) {
	after := merged(oldSet, newSet)
	for _, kills := range []bool{false, true} {
		seen := map[string]int{}
		for at := 1; ; at++ {
			dir := t.TempDir()
			if err := put(t, disk{}, dir, oldSet); err != nil {
				t.Fatal(err)
			}
			d := &faulty{at: at, kills: kills}
			err := put(t, d, dir, newSet)
			if d.calls < at {
				if err != nil || !cmp.Equal(content(t, dir), after) {
					t.Fatalf("without a fault: %v, %v", err, content(t, dir))
				}
				break
			}
			if kills {
				found := content(t, dir)
				delete(found, newName)
				delete(found, oldName)
				delete(found, lockName)
				whole := cmp.Equal(found, oldSet) || cmp.Equal(found, after)
				if agrees(t, dir) && !whole && found["a"][:3] != found["b"][:3] {
					t.Errorf("killed at %d: a reader takes %v for whole", at, found)
				}
				nothing := errors.New("nothing")
				if err := writeOn(t.Context(), disk{}, dir, nil, func() {}, func(*Set) error { return nothing }); !errors.Is(err, nothing) {
					t.Fatalf("killed at %d: the next run: %v", at, err)
				}
			} else if err == nil && !cmp.Equal(content(t, dir), after) { // a link that cannot be made is a copy instead
				t.Errorf("call %d failed and nobody said so", at)
			}
			switch found := content(t, dir); {
			case !agrees(t, dir):
				t.Errorf("fault %d, killed %v: the sums do not agree with %v", at, kills, found)
			case cmp.Equal(found, oldSet):
				seen["old"]++
			case cmp.Equal(found, after):
				seen["new"]++
			default:
				if !kills && len(found) > 0 {
					// A fault in cleaning up leaves the folders beside; the next run removes them.
					if err := put(t, disk{}, dir, newSet); err != nil || !cmp.Equal(content(t, dir), after) {
						t.Errorf("fault %d: left is %v", at, content(t, dir))
					}
					seen["cleaned later"]++
					continue
				}
				t.Errorf("fault %d, killed %v: %v is neither old nor new", at, kills, found)
			}
		}
		if seen["old"] < 10 || seen["new"] < 1 && kills {
			t.Errorf("killed %v: %v", kills, seen)
		}
	}
}

// TestTargets refuses what is no file, and touches nothing.
func TestTargets(t *testing.T) {
	dir := t.TempDir()
	if err := errors.Join(os.Mkdir(filepath.Join(dir, "a"), 0o700), os.Symlink("elsewhere", filepath.Join(dir, "b"))); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"a", "b"} {
		var refused *TargetError
		if err := put(t, disk{}, dir, map[string]string{name: "x", "other": "y"}); !errors.As(err, &refused) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 2 {
		t.Errorf("%v, %v", entries, err)
	}
}

// TestOneFile needs no sums, unless they speak of it.
func TestOneFile(t *testing.T) {
	dir := t.TempDir()
	if err := put(t, disk{}, dir, map[string]string{"a": "x"}); err != nil {
		t.Fatal(err)
	}
	if got := content(t, dir); !cmp.Equal(got, map[string]string{"a": "x"}) {
		t.Errorf("%v", got)
	}
	if _, err := os.Lstat(filepath.Join(dir, SumsName)); err == nil {
		t.Error("one file got sums")
	}
	if err := errors.Join(put(t, disk{}, dir, oldSet), put(t, disk{}, dir, map[string]string{"a": "newer"})); err != nil || !agrees(t, dir) {
		t.Errorf("%v", err)
	}
}

// TestTogether lets runs write one folder at once: each set is whole.
func TestTogether(t *testing.T) {
	dir := t.TempDir()
	var work sync.WaitGroup
	for i := range 20 {
		work.Go(func() {
			set := map[string]string{"a": fmt.Sprint(i), "b": fmt.Sprint(i), "c": fmt.Sprint(i)}
			if err := put(t, disk{}, dir, set); err != nil {
				t.Error(err)
			}
		})
	}
	work.Wait()
	got := content(t, dir)
	if got["a"] != got["b"] || got["b"] != got["c"] || len(got) != 3 || !agrees(t, dir) {
		t.Errorf("%v", got)
	}
}

// TestStopped leaves nothing of a run that is stopped while it writes or waits.
func TestStopped(t *testing.T) {
	dir := t.TempDir()
	ctx, stop := context.WithCancel(t.Context())
	err := writeOn(ctx, disk{}, dir, []string{"a", "b"}, func() {}, func(s *Set) error {
		f, err := s.Create("a")
		if err != nil {
			return err
		}
		stop()
		_, err = f.Write([]byte("some of it"))
		return errors.Join(err, f.Close(false))
	})
	if !errors.Is(err, ErrStopped) {
		t.Errorf("%v", err)
	}
	if got := content(t, dir); len(got) > 0 {
		t.Errorf("left are %v", got)
	}
	release, err := lock(t.Context(), dir, func() {})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := lock(ctx, dir, func() {}); !errors.Is(err, ErrStopped) {
		t.Errorf("waiting: %v", err)
	}
	if err := release(); err != nil {
		t.Error(err)
	}
	stopped.Wait()
	if got := content(t, dir); len(got) > 0 {
		t.Errorf("the run that was stopped while it waited leaves %v", got)
	}
}

// full is a disk on which so many bytes are left.
type full struct {
	disk
	mu   sync.Mutex
	left int
}

func (f *full) Create(path string) (file, error) {
	made, err := f.disk.Create(path)
	return fullFile{made, f}, err
}

type fullFile struct {
	file
	on *full
}

func (f fullFile) Write(p []byte) (int, error) {
	f.on.mu.Lock()
	defer f.on.mu.Unlock()
	n, err := f.file.Write(p[:min(len(p), f.on.left)])
	f.on.left -= n
	if err == nil && n < len(p) {
		err = syscall.ENOSPC
	}
	return n, err
}

// TestFullDisk fills the disk at every byte: the old set stays whole, nothing is left, and the cause is told.
func TestFullDisk(t *testing.T) {
	after, failed := merged(oldSet, newSet), 0
	for left := 0; ; left++ {
		dir := t.TempDir()
		if err := put(t, disk{}, dir, oldSet); err != nil {
			t.Fatal(err)
		}
		err := put(t, &full{left: left}, dir, newSet)
		if err == nil {
			if got := content(t, dir); !cmp.Equal(got, after) || !agrees(t, dir) {
				t.Errorf("%d bytes left: %v", left, got)
			}
			break
		}
		failed++
		if got := content(t, dir); !errors.Is(err, syscall.ENOSPC) || !cmp.Equal(got, oldSet) || !agrees(t, dir) {
			t.Errorf("%d bytes left: %v and %v", left, err, got)
		}
	}
	if failed < 100 { // the sums alone have more
		t.Errorf("the disk was full in %d cases", failed)
	}
}
