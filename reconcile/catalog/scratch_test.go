package catalog_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
)

func TestScratch(t *testing.T) {
	files, _ := filepath.Glob(os.Getenv("SCRATCH"))
	for _, f := range files {
		data, _ := os.ReadFile(f)
		var sheets []*sheet.Sheet
		for i, part := range strings.Split(string(data), "\n=====\n") {
			name := "Sheet" + string(rune('1'+i))
			if strings.HasPrefix(part, "#name ") {
				var rest string
				name, rest, _ = strings.Cut(strings.TrimPrefix(part, "#name "), "\n")
				part = rest
			}
			sheets = append(sheets, grid(name, part))
		}
		c := readInputs(t, catalog.Options{}, catalog.Input{Book: book(filepath.Base(f), sheets...)})
		t.Logf("%s\n%s", f, explain(c))
		for _, h := range c.Heads {
			t.Logf("HEAD %s cat=%v des=%v tips=%d top=%v sup=%s", h.Part, h.Category, h.BoreIsDesignation, len(h.TipTaken), h.Head.Top, h.Supplier)
		}
		for _, h := range c.Ferrules {
			t.Logf("FERR %s style=%v mat=%v rings=%d col=%s pack=%d", h.Part, h.Ferrule.Style, h.Ferrule.Material, h.Ferrule.Rings, h.Colour, h.Pack)
		}
	}
}
