package reconcile_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
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
			cat := catalog.Read([]catalog.Input{{Book: book, Kind: kind}}, catalog.Options{})
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

// plainWorkbook writes a workbook of one sheet, row by row and cell by cell: texts, and numbers where a cell is one.
func plainWorkbook(name string, rows [][]string) ([]byte, error) {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`
	const main, office = "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	const packaged = "http://schemas.openxmlformats.org/package/2006/"
	var body strings.Builder
	fmt.Fprintf(&body, `%s<worksheet xmlns="%s"><sheetData>`, head, main)
	for i, row := range rows {
		fmt.Fprintf(&body, `<row r="%d">`, i+1)
		for j, cell := range row {
			at := sheet.Ref{Row: i + 1, Col: j + 1}
			if _, err := strconv.ParseFloat(cell, 64); err == nil {
				fmt.Fprintf(&body, `<c r="%v"><v>%s</v></c>`, at, cell)
				continue
			}
			fmt.Fprintf(&body, `<c r="%v" t="inlineStr"><is><t>%s</t></is></c>`, at, cell)
		}
		body.WriteString("</row>")
	}
	body.WriteString("</sheetData></worksheet>")
	var out bytes.Buffer
	archive := zip.NewWriter(&out)
	for _, part := range [][2]string{
		{"[Content_Types].xml", head + `<Types xmlns="` + packaged + `content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`},
		{"_rels/.rels", head + `<Relationships xmlns="` + packaged + `relationships"><Relationship Id="rId1" Type="` + office + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", head + `<workbook xmlns="` + main + `" xmlns:r="` + office + `"><sheets><sheet name="` + name + `" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", head + `<Relationships xmlns="` + packaged + `relationships"><Relationship Id="rId1" Type="` + office + `/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", body.String()},
	} {
		w, err := archive.Create(part[0])
		if err != nil {
			return nil, err
		}
		if _, err := w.Write([]byte(part[1])); err != nil {
			return nil, err
		}
	}
	err := archive.Close()
	return out.Bytes(), err
}

// BenchmarkRead100000 reads a workbook of 100,000 heads, from its bytes to the catalogue. The yardstick is the plain
// iteration of such a workbook by the spreadsheet library: BenchmarkExcelizeRows in package sheet/workbook.
func BenchmarkRead100000(b *testing.B) {
	const n = 100_000
	rows := [][]string{{"Part No", "Description", "Category", "Hosel OD (mm)", "Bore (mm)", "Bore depth (mm)", "Top", "Loft", "Colour", "Price", "Stock", "Note"}}
	for i := range n {
		rows = append(rows, []string{
			fmt.Sprintf("BN-%05d", i), fmt.Sprintf("Forged iron %d", i%7), "iron", fmt.Sprintf("%.2f", 13+float64(i%150)/100), "9.5", strconv.Itoa(28 + i%9), "flat",
			strconv.Itoa(20 + i%30), "black", fmt.Sprintf("%d.50", i%90), strconv.Itoa(i % 400), fmt.Sprintf("see page %d", i%60),
		})
	}
	data, err := plainWorkbook("Heads", rows)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		book, err := open.Bytes("big.xlsx", data)
		if err != nil {
			b.Fatal(err)
		}
		if cat := catalog.Read([]catalog.Input{{Book: book}}, catalog.Options{}); len(cat.Heads) != n {
			b.Fatalf("%d heads", len(cat.Heads))
		}
	}
}
