package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"sync"
	"syscall"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/settings"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// limits bound every input. They are set by --limit before a command runs, and by nothing else.
var limits sheet.Limits

// limitFlag is the flag that changes them.
type limitFlag struct{}

func (limitFlag) String() string        { return "" }
func (limitFlag) Type() string          { return "NAME=NUMBER" }
func (limitFlag) Set(text string) error { return limits.Set(text) }

// readSheet and readSettings are how every input is read: what is no regular file, or beyond the limits, is refused.
func readSheet(path string) ([]byte, error)    { return open.Content(path, "file", limits) }
func readSettings(path string) ([]byte, error) { return open.Content(path, "settings", limits) }

func loadSource(path string, kind catalog.Kind) (reconcile.Source, error) {
	content, err := readSheet(path)
	if err != nil {
		return reconcile.Source{}, err
	}
	return reconcile.Source{Name: path, Data: content, Kind: kind, Limits: limits}, nil
}

func loadSettings(path string) (settings.Settings, error) {
	if path == "" {
		return settings.Default(), nil
	}
	content, err := readSettings(path)
	if err != nil {
		return settings.Default(), err
	}
	return settings.Parse(path, content)
}

// loadOptions reads a mapping file, if one is given, and takes what the shop knows of its suppliers.
func loadOptions(path string, shop settings.Settings) (reader.Options, error) {
	opts := reader.Options{FerruleBores: shop.Suppliers.FerruleBores()}
	if path == "" {
		return opts, nil
	}
	content, err := readSettings(path)
	if err != nil {
		return reader.Options{}, err
	}
	if opts.Map, err = mapping.Parse(content); err != nil {
		return reader.Options{}, fmt.Errorf("%s: %w", path, err)
	}
	return opts, nil
}

// pathFrom returns the path from a folder to a file, with slashes, or the file's own path where there is no way.
func pathFrom(dir, file string) string {
	absolute, err := filepath.Abs(dir)
	if err != nil {
		return filepath.ToSlash(file)
	}
	target, err := filepath.Abs(file)
	if err != nil {
		return filepath.ToSlash(file)
	}
	relative, err := filepath.Rel(absolute, target)
	if err != nil {
		return filepath.ToSlash(file)
	}
	return filepath.ToSlash(relative)
}

// overwriteError is an output that would replace one of the inputs.
type overwriteError struct{ path string }

func (e *overwriteError) Error() string {
	return e.path + " is one of the inputs and would be overwritten; choose another folder with --out"
}

// writeAll writes the outputs into a folder: all under other names first, so that they appear whole or not at all, also where a person
// stops the run. It returns the paths of [filesOf] them.
func (s streams) writeAll(dir string, outputs []publish.Output, inputs []string) (paths []string, err error) {
	files := filesOf(outputs)
	for _, file := range files {
		paths = append(paths, filepath.Join(dir, file.Name))
		if isInput(paths[len(paths)-1], inputs) {
			return nil, &overwriteError{paths[len(paths)-1]}
		}
	}
	s.sayReplaced(paths)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	written := &asides{dir: dir, stopped: ctx}
	defer func() { err = errors.Join(err, written.remove()) }()
	names, err := written.writeAll(outputs)
	if err != nil {
		return nil, err
	}
	for i, path := range paths {
		if err := os.Rename(names[i], path); err != nil {
			return nil, err
		}
	}
	return paths, nil
}

// sayReplaced says that files of an earlier run are there.
func (s streams) sayReplaced(paths []string) {
	var there []string
	for _, path := range paths {
		if isFile(path) {
			there = append(there, path)
		}
	}
	switch {
	case len(there) == 1:
		s.say("%s is there already and is replaced", there[0])
	case len(there) > 1:
		s.say("%s of an earlier run in %s are replaced", phrase.Count(len(there), "file"), filepath.Dir(there[0]))
	}
}

// filesOf are the files that outputs write, in their order.
func filesOf(outputs []publish.Output) []publish.Output {
	var files []publish.Output
	for _, output := range outputs {
		files = append(files, output)
		if output.Beside != nil {
			files = append(files, *output.Beside)
		}
	}
	return files
}

// errStopped ends a run that a person stopped.
var errStopped = errors.New("stopped; the files of an earlier run are as they were")

// asides are files under names of their own, until all are complete.
type asides struct {
	dir     string
	stopped context.Context
	mu      sync.Mutex
	paths   []string
}

// writeAll writes the outputs side by side and returns the names of the files, in the order of filesOf.
func (a *asides) writeAll(outputs []publish.Output) ([]string, error) {
	names, errs := make([][]string, len(outputs)), make([]error, len(outputs))
	var work sync.WaitGroup
	for i, output := range outputs {
		work.Go(func() { names[i], errs[i] = a.write(output) })
	}
	work.Wait()
	if a.stopped.Err() != nil {
		return nil, errStopped
	}
	for i, err := range errs {
		if err != nil {
			return nil, fmt.Errorf("cannot write %s: %w", filepath.Join(a.dir, outputs[i].Name), err)
		}
	}
	return slices.Concat(names...), nil
}

// write writes an output, and the one beside it.
func (a *asides) write(output publish.Output) (paths []string, err error) {
	var files []*aside
	for _, of := range filesOf([]publish.Output{output}) {
		file, err := a.create(of.Name)
		if err != nil {
			return nil, err
		}
		paths, files = append(paths, file.file.Name()), append(files, file)
	}
	if output.Beside != nil {
		err = output.WriteBoth(files[0], files[1])
	} else {
		err = output.Write(files[0])
	}
	for _, file := range files {
		err = errors.Join(err, file.close(err == nil))
	}
	return paths, err
}

func (a *asides) create(name string) (*aside, error) {
	file, err := os.CreateTemp(a.dir, "."+name+".*")
	if err != nil {
		return nil, err
	}
	a.mu.Lock()
	a.paths = append(a.paths, file.Name())
	a.mu.Unlock()
	return &aside{file: file, buffer: bufio.NewWriterSize(file, 1<<16), stopped: a.stopped}, nil
}

// remove removes what has not got its own name.
func (a *asides) remove() error {
	var err error
	for _, path := range a.paths {
		err = errors.Join(err, remove(path))
	}
	return err
}

// aside is one of the files.
type aside struct {
	file    *os.File
	buffer  *bufio.Writer
	stopped context.Context
}

func (a *aside) Write(p []byte) (int, error) {
	if a.stopped.Err() != nil {
		return 0, errStopped
	}
	return a.buffer.Write(p)
}

// close ends the file; one that is complete gets the rights of a usual file.
func (a *aside) close(complete bool) error {
	var err error
	if complete {
		if err = a.buffer.Flush(); err == nil {
			err = a.file.Chmod(0o644)
		}
		if err == nil && a.stopped.Err() != nil {
			err = errStopped
		}
	}
	return errors.Join(err, a.file.Close())
}

func remove(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

// isInput reports whether a path leads to the same file as one of the inputs.
func isInput(path string, inputs []string) bool {
	output, err := os.Stat(path)
	if err != nil {
		return false
	}
	for _, input := range inputs {
		if info, err := os.Stat(input); err == nil && os.SameFile(output, info) {
			return true
		}
	}
	return false
}
