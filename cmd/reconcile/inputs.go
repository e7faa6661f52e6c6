package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

const (
	// fromStandardInput is how a command line names standard input, and standardInput how findings and messages do.
	fromStandardInput = "-"
	standardInput     = "standard input"
)

// inputs are where the sheets of a run come from: files, folders, zip archives, and standard input. Like the limits, they are set before a
// command runs.
type inputs struct {
	in io.Reader
	// piped is what came from standard input, once it was read.
	piped []byte
	// archives are those that were opened, by their paths.
	archives map[string]*open.Archive
	say      func(format string, args ...any)
}

var incoming = &inputs{}

// load reads what a path stands for: a file, the sheets in a folder or in a zip archive, one sheet of an archive (lists.zip/irons.csv), or
// what comes in on standard input.
func (i *inputs) load(path string, kind catalog.Kind) ([]reconcile.Source, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return i.folder(path, kind)
	}
	name, content, err := i.content(path)
	if err != nil {
		return nil, err
	}
	if !open.IsArchive(content) {
		return []reconcile.Source{{Name: name, Data: content, Kind: kind, Limits: limits}}, nil
	}
	archive, err := i.open(name, content)
	if err != nil {
		return nil, err
	}
	i.tellOthers(name, archive.Others())
	var sources []reconcile.Source
	for _, member := range archive.Sheets() {
		content, err := archive.Read(member)
		if err != nil {
			return nil, err
		}
		sources = append(sources, reconcile.Source{Name: name + "/" + member, Data: content, Kind: kind, Limits: limits})
	}
	return sources, nil
}

// loadOne reads a path that has to stand for one sheet.
func (i *inputs) loadOne(path string) (reconcile.Source, error) {
	sources, err := i.load(path, catalog.UnknownKind)
	if err != nil {
		return reconcile.Source{}, err
	}
	if len(sources) != 1 {
		return reconcile.Source{}, &sheet.FileError{File: path, Reason: sheet.ReasonUnsupported, Problem: fmt.Sprintf("there are %d sheets in it, and one is wanted here", len(sources)),
			Next: "name that one, such as " + sources[0].Name}
	}
	return sources[0], nil
}

// loadAll reads what several paths stand for.
func (i *inputs) loadAll(paths []string, kind catalog.Kind) ([]reconcile.Source, error) {
	var all []reconcile.Source
	for _, path := range paths {
		sources, err := i.load(path, kind)
		if err != nil {
			return nil, err
		}
		all = append(all, sources...)
	}
	return all, nil
}

// folder reads the sheets that lie in a folder.
func (i *inputs) folder(path string, kind catalog.Kind) ([]reconcile.Source, error) {
	files, others, err := sheetsIn(path)
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, &sheet.FileError{File: path, Reason: sheet.ReasonUnreadable, Problem: "it is a folder without a sheet in it", Next: "name the files, or the folder they lie in"}
	}
	i.tellOthers(path, others)
	if most := int(limits.Of("sheets")); len(files) > most {
		return nil, limits.Beyond(path, "", "sheets", "it is a folder with too many files")
	}
	return i.loadAll(files, kind)
}

// content reads a file, standard input or a member of an archive, and returns what findings call it.
func (i *inputs) content(path string) (name string, content []byte, err error) {
	if path == fromStandardInput || path == standardInput && i.piped != nil {
		content, err := i.standard()
		return standardInput, content, err
	}
	if archive, member, found := i.archiveOf(path); found {
		content, err := archive.Read(member)
		return path, content, err
	}
	if file, member, found := splitMember(path); found {
		content, err := readSheet(file)
		if err != nil {
			return "", nil, err
		}
		if open.IsArchive(content) {
			archive, err := i.open(file, content)
			if err != nil {
				return "", nil, err
			}
			content, err = archive.Read(member)
			return path, content, err
		}
	}
	content, err = readSheet(path)
	return path, content, err
}

// standard reads standard input, once.
func (i *inputs) standard() ([]byte, error) {
	if i.piped != nil {
		return i.piped, nil
	}
	// It is kept in pieces until it has ended: one buffer that grows takes several times as much memory.
	var pieces [][]byte
	size, most := int64(0), limits.Of("file")
	for {
		piece := make([]byte, 1<<20)
		n, err := io.ReadFull(i.in, piece)
		pieces = append(pieces, piece[:n])
		if size += int64(n); size > most {
			return nil, limits.Beyond(standardInput, "", "file", fmt.Sprintf("it has more than %d bytes", most))
		}
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			break
		}
		if err != nil {
			return nil, &sheet.FileError{File: standardInput, Reason: sheet.ReasonUnreadable, Problem: "it cannot be read (" + err.Error() + ")", Next: "name a file", Err: err}
		}
	}
	i.piped = bytes.Join(pieces, nil)
	return i.piped, nil
}

// open opens an archive, once.
func (i *inputs) open(name string, content []byte) (*open.Archive, error) {
	if known := i.archives[name]; known != nil {
		return known, nil
	}
	archive, err := open.NewArchive(name, content, limits)
	if err != nil {
		return nil, err
	}
	if i.archives == nil {
		i.archives = map[string]*open.Archive{}
	}
	i.archives[name] = archive
	return archive, nil
}

// archiveOf returns the archive, among those that were opened, in which a path leads to a member.
func (i *inputs) archiveOf(path string) (archive *open.Archive, member string, found bool) {
	for name, archive := range i.archives {
		if member, within := strings.CutPrefix(path, name+"/"); within {
			return archive, member, true
		}
	}
	return nil, "", false
}

// splitMember divides a path that leads into a file: lists.zip/irons.csv.
func splitMember(path string) (file, member string, found bool) {
	for at, r := range path {
		if r != '/' && r != filepath.Separator || at == 0 {
			continue
		}
		if info, err := os.Stat(path[:at]); err == nil && info.Mode().IsRegular() {
			return path[:at], filepath.ToSlash(path[at+1:]), true
		}
	}
	return "", "", false
}

// mostOthers is how many files that are no sheets are named.
const mostOthers = 4

// tellOthers says which files of a folder or an archive are passed over.
func (i *inputs) tellOthers(of string, others []string) {
	if len(others) > 0 {
		i.say("%s: passed over %s that cannot be sheets: %s", of, phrase.Count(len(others), "file"), phrase.Some(others, mostOthers))
	}
}

// fileOf is the file that a path leads to or into.
func fileOf(path string) string {
	if file, _, found := splitMember(path); found {
		return file
	}
	return path
}
