package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/settings"
)

// readFile is os.ReadFile with advice.
func readFile(path string) ([]byte, error) {
	content, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("%w; check the path", err)
	}
	return content, nil
}

func loadSource(path string, kind catalog.Kind) (reconcile.Source, error) {
	content, err := readFile(path)
	if err != nil {
		return reconcile.Source{}, err
	}
	return reconcile.Source{Name: path, Data: content, Kind: kind}, nil
}

func loadSettings(path string) (settings.Settings, error) {
	if path == "" {
		return settings.Default(), nil
	}
	content, err := readFile(path)
	if err != nil {
		return settings.Default(), err
	}
	return settings.Parse(path, content)
}

// loadOptions reads a mapping file, if one is given.
func loadOptions(path string) (catalog.Options, error) {
	if path == "" {
		return catalog.Options{}, nil
	}
	content, err := readFile(path)
	if err != nil {
		return catalog.Options{}, err
	}
	answers, err := mapping.Parse(content)
	if err != nil {
		return catalog.Options{}, fmt.Errorf("%s: %w", path, err)
	}
	return catalog.Options{Map: answers}, nil
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

// writeAll writes the outputs into a folder: all under other names first, so that they appear whole or not at all. It
// returns their paths.
func (s streams) writeAll(dir string, outputs []reconcile.Output, inputs []string) (paths []string, err error) {
	for _, output := range outputs {
		if path := filepath.Join(dir, output.Name); isInput(path, inputs) {
			return nil, &overwriteError{path}
		}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	var written []string
	defer func() {
		for _, temporary := range written {
			err = errors.Join(err, remove(temporary))
		}
	}()
	for _, output := range outputs {
		path := filepath.Join(dir, output.Name)
		temporary, err := writeAside(dir, output)
		if temporary != "" {
			written = append(written, temporary)
		}
		if err != nil {
			return nil, fmt.Errorf("cannot write %s: %w", path, err)
		}
		paths = append(paths, path)
	}
	for i, path := range paths {
		if err := os.Rename(written[i], path); err != nil {
			return nil, err
		}
	}
	written = nil
	return paths, nil
}

// writeAside writes an output under a name of its own and returns the path, also of a file that is incomplete.
func writeAside(dir string, output reconcile.Output) (path string, err error) {
	file, err := os.CreateTemp(dir, "."+output.Name+".*")
	if err != nil {
		return "", err
	}
	buffered := bufio.NewWriterSize(file, 1<<16)
	err = output.Write(buffered)
	if err == nil {
		err = buffered.Flush()
	}
	if err == nil {
		err = file.Chmod(0o644)
	}
	return file.Name(), errors.Join(err, file.Close())
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
