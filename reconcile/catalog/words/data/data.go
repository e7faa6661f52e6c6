// Package data is the folder of languages: all that the reader of sheets knows of a language stands in one file of it, and a file is all
// there is to add for another.
package data

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"github.com/pelletier/go-toml/v2"
)

//go:embed *.toml
var embedded embed.FS

// File is one file of the folder.
type File struct {
	Name string
	Text []byte
	// Table is what the file says, by its tables and keys.
	Table map[string]any
}

var folder struct {
	sync.Mutex
	added []fs.FS
	read  bool
	files []File
	err   error
}

// Add adds the files of another folder to those that are built in. It is too late once they have been read.
func Add(more fs.FS) error {
	folder.Lock()
	defer folder.Unlock()
	if folder.read {
		return errors.New("data: the languages have been read already")
	}
	folder.added = append(folder.added, more)
	return nil
}

// Files returns the files, in the order of their names. They are read once, when they are first asked for.
func Files() ([]File, error) {
	folder.Lock()
	defer folder.Unlock()
	if !folder.read {
		folder.read = true
		folder.files, folder.err = From(append([]fs.FS{embedded}, folder.added...)...)
	}
	return folder.files, folder.err
}

// From reads the files of folders.
func From(folders ...fs.FS) ([]File, error) {
	var files []File
	for _, from := range folders {
		names, err := fs.Glob(from, "*.toml")
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			text, err := fs.ReadFile(from, name)
			if err != nil {
				return nil, err
			}
			files = append(files, File{Name: name, Text: text})
		}
	}
	slices.SortStableFunc(files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	return files, parse(files)
}

// parse parses the files side by side: the first sheet waits for them.
func parse(files []File) error {
	problems := make([]error, len(files))
	var all sync.WaitGroup
	for i := range files {
		all.Go(func() {
			if err := toml.Unmarshal(files[i].Text, &files[i].Table); err != nil {
				problems[i] = fmt.Errorf("%s: %w", files[i].Name, err)
			}
		})
	}
	all.Wait()
	return errors.Join(problems...)
}

// Strings returns the texts of a key of a table, nil where there are none.
func (f File) Strings(table, key string) []string {
	in, _ := f.Table[table].(map[string]any)
	list, _ := in[key].([]any)
	var texts []string
	for _, one := range list {
		if text, ok := one.(string); ok {
			texts = append(texts, text)
		}
	}
	return texts
}

// String returns the text of a key of a table, empty where there is none.
func (f File) String(table, key string) string {
	in, _ := f.Table[table].(map[string]any)
	text, _ := in[key].(string)
	return text
}

// Encoding is the table of a file that says in what texts of the language are sent that do not name their encoding: its names, the script,
// the letters by which it is known, and words of headings.
const Encoding = "encoding"
