package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet/open"
)

// kinds are what a sheet may list.
var kinds = [...]catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips}

// rowsOf counts the rows of a file that list parts of each kind: those that are used, and where asked also those that are held.
func rowsOf(c *catalog.Catalogue, file string, held bool) map[catalog.Kind]int {
	rows := map[catalog.Kind]int{}
	for i := range c.Tables {
		t := &c.Tables[i]
		if t.File != file || t.Kind == catalog.UnknownKind {
			continue
		}
		rows[t.Kind] += t.Ledger.Used + t.Ledger.Assumed
		if held {
			rows[t.Kind] += t.Ledger.Held
		}
	}
	return rows
}

// mostOf is the kind that most rows list, and how many do.
func mostOf(rows map[catalog.Kind]int) (kind catalog.Kind, count int) {
	for _, k := range kinds {
		if rows[k] > count {
			kind, count = k, rows[k]
		}
	}
	return kind, count
}

// roleError is a file that was given as what it is not.
type roleError struct {
	file string
	// flag is what stands before the kind on the command line.
	flag  string
	given catalog.Kind
	// list is what the file lists in rows rows, unknown where it lists no parts at all; then seems are its headings.
	list  catalog.Kind
	rows  int
	seems []string
	// key is how a mapping file calls the sheet.
	key string
}

func (e *roleError) Error() string {
	if e.list != catalog.UnknownKind {
		return fmt.Sprintf("%s was given as %s%v, but it lists %v in %s and no %v; give it as %s%v, or say in the mapping file what it is (sheets.%q.kind)",
			e.file, e.flag, e.given, e.list, phrase.Count(e.rows, "row"), e.given, e.flag, e.list, e.key)
	}
	seems := "it has no table"
	if said := phrase.Headings(e.seems); said != "" {
		seems = "it seems to be a list of " + said
	}
	return fmt.Sprintf("%s was given as %s%v, but no %v were found in it: %s; reconcile read says what was understood", e.file, e.flag, e.given, e.given, seems)
}

// checkRoles refuses files that list another kind of part than they were given as, by a flag, and none of that, and a role for which none of
// its files lists anything.
func checkRoles(c *catalog.Catalogue, sources []reconcile.Source, flag string) error {
	listed := map[catalog.Kind]bool{}
	var nothing []*roleError
	for _, source := range sources {
		rows := rowsOf(c, source.Name, true)
		list, count := mostOf(rows)
		e := &roleError{file: source.Name, flag: flag, given: source.Kind, list: list, rows: count}
		switch {
		case source.Kind == catalog.UnknownKind:
		case rows[source.Kind] > 0:
			listed[source.Kind] = true
		default:
			e.describe(c)
			if count > 0 {
				return e
			}
			nothing = append(nothing, e)
		}
	}
	for _, e := range nothing {
		if !listed[e.given] {
			return e
		}
	}
	return nil
}

// describe finds what the tables of the file are headed, and how a mapping file calls the one that lists parts.
func (e *roleError) describe(c *catalog.Catalogue) {
	for i := range c.Tables {
		t := &c.Tables[i]
		if t.File != e.file {
			continue
		}
		if e.key == "" || t.Kind == e.list {
			e.key = t.Key
		}
		for _, column := range t.Columns {
			e.seems = append(e.seems, column.Heading)
		}
	}
}

// filesIn puts the sheets and settings that lie in a folder in the place of the folder.
func filesIn(paths []string) ([]string, error) {
	var files []string
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil || !info.IsDir() {
			files = append(files, path) // what is wrong with it is said by who reads it
			continue
		}
		sheets, others, err := sheetsIn(path)
		if err != nil {
			return nil, err
		}
		for _, other := range others {
			if strings.EqualFold(filepath.Ext(other), settingsEnding) {
				sheets = append(sheets, filepath.Join(path, other))
			}
		}
		slices.Sort(sheets)
		files = append(files, sheets...)
	}
	return files, nil
}

// sheetsIn returns the paths of the files in a folder that may be sheets or archives of them, and the names of the other files. Pages are
// not taken for sheets here: those that lie beside sheets are what this program has written.
func sheetsIn(path string) (sheets, others []string, err error) {
	entries, err := os.ReadDir(path)
	if err != nil {
		return nil, nil, err
	}
	for _, entry := range entries {
		switch name := entry.Name(); {
		case entry.IsDir(), strings.HasPrefix(name, "."):
		case strings.HasPrefix(strings.ToLower(filepath.Ext(name)), ".htm"):
			others = append(others, name)
		case open.IsSheetName(name), strings.EqualFold(filepath.Ext(name), ".zip"):
			sheets = append(sheets, filepath.Join(path, name))
		default:
			others = append(others, name)
		}
	}
	return sheets, others, nil
}
