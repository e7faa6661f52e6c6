package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"sync"
	"syscall"

	"example.com/seatline/cmd/reconcile/internal/folder"
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
	opts := reader.Options{FerruleBores: shop.Suppliers.FerruleBores(), Suppliers: shop.Suppliers.Known()}
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

// pathFrom returns the path from a folder to a file, with slashes, or the file's own path where there is no way. A sheet in an archive is found
// in that file.
func pathFrom(dir, file string) string {
	file = fileOf(file)
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

// writeAll writes the outputs into a folder as one set: a reader finds the old ones or the new ones, also where a person stops the run. It
// returns the paths of [filesOf] them.
func (s streams) writeAll(dir string, outputs []publish.Output, inputs []string) (paths []string, err error) {
	var names []string
	for _, file := range filesOf(outputs) {
		path := filepath.Join(dir, file.Name)
		if isInput(path, inputs) {
			return nil, &overwriteError{path}
		}
		names, paths = append(names, file.Name), append(paths, path)
	}
	s.sayReplaced(paths)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	waiting := func() { s.say("waiting for another run that writes into %s", dir) }
	err = folder.Write(ctx, dir, names, waiting, func(set *folder.Set) error { return writeInto(set, dir, outputs) })
	if err != nil {
		return nil, err
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

// writeInto writes the outputs side by side.
func writeInto(set *folder.Set, dir string, outputs []publish.Output) error {
	errs := make([]error, len(outputs))
	var work sync.WaitGroup
	for i, output := range outputs {
		work.Go(func() { errs[i] = writeOne(set, output) })
	}
	work.Wait()
	for i, err := range errs {
		switch {
		case errors.Is(err, folder.ErrStopped):
			return folder.ErrStopped
		case err != nil:
			return fmt.Errorf("cannot write %s: %w", filepath.Join(dir, outputs[i].Name), err)
		}
	}
	return nil
}

// writeOne writes an output, and the one beside it.
func writeOne(set *folder.Set, output publish.Output) (err error) {
	var files []*folder.File
	for _, of := range filesOf([]publish.Output{output}) {
		file, err := set.Create(of.Name)
		if err != nil {
			return err
		}
		files = append(files, file)
	}
	if output.Beside != nil {
		err = output.WriteBoth(files[0], files[1])
	} else {
		err = output.Write(files[0])
	}
	for _, file := range files {
		err = errors.Join(err, file.Close(err == nil))
	}
	return err
}

// isInput reports whether a path leads to the same file as one of the inputs.
func isInput(path string, inputs []string) bool {
	output, err := os.Stat(path)
	if err != nil {
		return false
	}
	for _, input := range inputs {
		if info, err := os.Stat(fileOf(input)); err == nil && os.SameFile(output, info) {
			return true
		}
	}
	return false
}
