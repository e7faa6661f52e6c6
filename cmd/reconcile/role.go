package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
)

// kinds are what a sheet may list.
var kinds = [...]catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips}

// rowsOf counts the rows of a file that list parts of each kind.
func rowsOf(c *catalog.Catalogue, file string) map[catalog.Kind]int {
	rows := map[catalog.Kind]int{}
	for i := range c.Tables {
		if t := &c.Tables[i]; t.File == file {
			rows[t.Kind] += t.Ledger.Used + t.Ledger.Assumed
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
	file        string
	given, list catalog.Kind
	rows        int
}

func (e *roleError) Error() string {
	return fmt.Sprintf("%s was given as --%v, but it lists %v in %d rows and no %v; give it as --%v", e.file, e.given, e.list, e.rows, e.given, e.list)
}

// checkRoles refuses files that list another kind of part than they were given as, and none of that.
func checkRoles(c *catalog.Catalogue, sources []reconcile.Source) error {
	for _, source := range sources {
		rows := rowsOf(c, source.Name)
		if list, count := mostOf(rows); source.Kind != catalog.UnknownKind && count > 0 && rows[source.Kind] == 0 {
			return &roleError{source.Name, source.Kind, list, count}
		}
	}
	return nil
}

// endings are those of files that may be sheets.
var endings = []string{".xlsx", ".xlsm", ".xltx", ".ods", ".csv", ".tsv", ".txt", ".tab"}

// filesIn puts the sheets and settings that lie in a folder in the place of the folder.
func filesIn(paths []string) ([]string, error) {
	var files []string
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			return nil, fmt.Errorf("%w; check the path", err)
		}
		if !info.IsDir() {
			files = append(files, path)
			continue
		}
		entries, err := os.ReadDir(path)
		if err != nil {
			return nil, err
		}
		for _, entry := range entries {
			ending := strings.ToLower(filepath.Ext(entry.Name()))
			if !entry.IsDir() && !strings.HasPrefix(entry.Name(), ".") && (ending == settingsEnding || slices.Contains(endings, ending)) {
				files = append(files, filepath.Join(path, entry.Name()))
			}
		}
	}
	return files, nil
}
