package reconcile_test

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const module = "example.com/seatline/"

// layers are the packages from the top down. A package may import those of lower layers and those below itself; imports
// run downward only, so that the library can be used without spreadsheets and a writer cannot change a result.
var layers = []string{
	"cmd/",
	"examples/",
	"reconcile/publish",
	"reconcile/publish/",
	"reconcile/explain",
	"reconcile/plan/",
	"reconcile/internal/mill/",
	"reconcile/internal/mill", // has the reader read made-up sheets, in tests and for contributors
	"reconcile",
	"reconcile/matrix",
	"reconcile/demand",
	"reconcile/settings",
	"reconcile/samples",
	"reconcile/catalog/reader",
	"reconcile/catalog/merge",
	"reconcile/catalog/rows",
	"reconcile/catalog/cells",
	"reconcile/catalog/units",
	"reconcile/catalog/columns",
	"reconcile/catalog/layout",
	"reconcile/catalog/numberkey",
	"reconcile/catalog/spoken",
	"reconcile/catalog/sizetext",
	"reconcile/catalog/grid",
	"reconcile/catalog/lexicon",
	"reconcile/catalog/mapping",
	"reconcile/catalog/traits",
	"reconcile/catalog",
	"reconcile/catalog/value",
	"reconcile/catalog/words",
	"reconcile/joint",
	"reconcile/fitjson",
	"reconcile/sheet/open",
	"reconcile/sheet/",
	"reconcile/catalog/words/data",
	"reconcile/sheet/numfmt",
	"reconcile/sheet/internal/",
	"reconcile/sheet",
	"reconcile/finding",
	"reconcile/near",
	"reconcile/phrase",
	"reconcile/internal/",
	"fitcalc/say",
	"fitcalc",
	"fitcalc/",
}

// layer returns the place of a package in the list: that of the longest entry it matches.
func layer(path string) int {
	best, length := -1, -1
	for i, entry := range layers {
		if (path == entry || strings.HasSuffix(entry, "/") && strings.HasPrefix(path, entry)) && len(entry) > length {
			best, length = i, len(entry)
		}
	}
	return best
}

type listed struct {
	ImportPath string
	Imports    []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", module+"...").Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []listed
	decoder := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	if len(all) < 10 {
		t.Fatalf("only %d packages found", len(all))
	}
	return all
}

func TestImportsRunDownward(t *testing.T) {
	for _, p := range packages(t) {
		path := strings.TrimPrefix(p.ImportPath, module)
		from := layer(path)
		if from < 0 {
			t.Errorf("%s is in no layer; give it a place in this test and in DEVELOPERS.md", path)
			continue
		}
		for _, imported := range p.Imports {
			inner, ours := strings.CutPrefix(imported, module)
			if !ours {
				continue
			}
			if to := layer(inner); to < from {
				t.Errorf("%s imports %s, which is above it", path, inner)
			}
		}
	}
}

// Only two packages know the workbook library, besides what builds workbooks for tests; fitcalc knows nothing but the standard
// library and gonum, and package say the files of its words, and neither files nor the terminal.
func TestWhoMayImportWhat(t *testing.T) {
	excelize := []string{
		"reconcile/sheet/workbook", "reconcile/sheet/workbook/workbooktest", "reconcile/publish/workbook",
	}
	for _, p := range packages(t) {
		path := strings.TrimPrefix(p.ImportPath, module)
		pure := strings.HasPrefix(path, "fitcalc") || path == "reconcile" || strings.HasPrefix(path, "reconcile/matrix") ||
			strings.HasPrefix(path, "reconcile/catalog") || path == "reconcile/settings" || path == "reconcile/finding"
		for _, imported := range p.Imports {
			switch {
			case strings.HasPrefix(imported, "github.com/xuri/excelize") && !slices.Contains(excelize, path):
				t.Errorf("%s imports %s", path, imported)
			case path == "fitcalc/say" && imported == "github.com/pelletier/go-toml/v2": // its words are data
			case strings.HasPrefix(path, "fitcalc") && strings.Contains(imported, ".") &&
				!strings.HasPrefix(imported, module+"fitcalc") && !strings.HasPrefix(imported, "gonum.org/"):
				t.Errorf("%s imports %s", path, imported)
			case pure && slices.Contains([]string{"os", "log", "flag", "log/slog"}, imported):
				t.Errorf("%s imports %s, and is to be pure", path, imported)
			}
		}
	}
}

// Whoever reads sheets and decides links no writer and no linear algebra: beside the standard library only what decodes text, what
// parses mapping files, pages and compound files, and special functions.
func TestWhatAnImporterLinks(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}} {{end}}{{.ImportPath}}", module+"reconcile").Output()
	if err != nil {
		t.Fatal(err)
	}
	modules := []string{strings.TrimSuffix(module, "/"), "golang.org/x/text", "golang.org/x/net", "github.com/richardlehane/mscfb", "github.com/richardlehane/msoleps", "github.com/pelletier/go-toml/v2", "gonum.org/v1/gonum"}
	heavy := []string{module + "reconcile/publish", "gonum.org/v1/gonum/mat", "gonum.org/v1/gonum/lapack", "gonum.org/v1/gonum/stat"}
	linked := 0
	for line := range strings.Lines(string(out)) {
		of, path, inModule := strings.Cut(strings.TrimSpace(line), " ")
		if !inModule {
			continue // of the standard library
		}
		linked++
		if !slices.Contains(modules, of) || slices.ContainsFunc(heavy, func(h string) bool { return path == h || strings.HasPrefix(path, h+"/") }) {
			t.Errorf("reading and deciding links %s", path)
		}
	}
	if linked < 10 {
		t.Fatalf("only %d packages of modules found", linked)
	}
}
