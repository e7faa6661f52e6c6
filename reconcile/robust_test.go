package reconcile_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// TestRealWorkbooks reads the workbooks that the spreadsheet library is tested with, which other programs wrote and some of
// which are broken on purpose: each is read, with every row counted, or refused with a reason.
func TestRealWorkbooks(t *testing.T) {
	folder, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/xuri/excelize/v2").Output()
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(strings.TrimSpace(string(folder)), "test", "*.xls*"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%d workbooks, %v", len(files), err)
	}
	read := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		book, err := open.Bytes(filepath.Base(file), data)
		var refused *sheet.FileError
		switch {
		case errors.As(err, &refused):
			continue
		case err != nil:
			t.Errorf("%s: %v is no refusal with a reason", filepath.Base(file), err)
			continue
		}
		read++
		for _, kind := range []catalog.Kind{catalog.UnknownKind, catalog.Heads, catalog.Ferrules} {
			cat := reader.Read([]reader.Input{{Book: book, Kind: kind}}, reader.Options{})
			for _, table := range cat.Tables {
				if l := table.Ledger; l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
					t.Errorf("%s %s: the ledger does not add up: %+v", book.File, table.Key, l)
				}
			}
			catalog.JSON(cat)
		}
	}
	if read == 0 {
		t.Error("none of the workbooks was read")
	}
}
