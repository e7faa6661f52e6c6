package reconcile_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// mostFuzzed is how long an input of the fuzzers is at most: long ones find nothing more, and take longer.
const mostFuzzed = 1 << 14

// readWhole reads a file as every command does: it is refused with a reason, or each of its rows is in a ledger, whatever it was said to list.
func readWhole(t *testing.T, name string, data []byte) {
	t.Helper()
	book, err := open.Within(name, data, sheet.Limits{Columns: 200, Rows: 2_000, Cells: 20_000, Text: 1 << 20})
	if err != nil {
		var refused *sheet.FileError
		if !errors.As(err, &refused) {
			t.Fatalf("%v is no refusal with a reason", err)
		}
		return
	}
	for _, kind := range []catalog.Kind{catalog.UnknownKind, catalog.Heads, catalog.Ferrules} {
		c := reader.Read([]reader.Input{{Book: book, Kind: kind}}, reader.Options{})
		for _, table := range c.Tables {
			if l := table.Ledger; l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
				t.Errorf("%s: the ledger does not add up: %+v", table.Key, l)
			}
		}
		catalog.JSON(c)
	}
}

// zipped makes an archive of parts, each a name and its content.
func zipped(t *testing.T, parts ...[2]string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, part := range parts {
		to, err := w.Create(part[0])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := to.Write([]byte(part[1])); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// FuzzCSV reads whole text files.
func FuzzCSV(f *testing.F) {
	files, err := filepath.Glob("../testdata/corpus/*.csv")
	if err != nil || len(files) == 0 {
		f.Fatal(files, err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("\xff\xfeP\x00a\x00r\x00t\x00\t\x00O\x00D\x00\n\x00"))
	f.Add([]byte("Part;OD;Bore\nA;13,6;9,4\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) <= mostFuzzed {
			readWhole(t, "fuzz.csv", data)
		}
	})
}

// FuzzWorkbook reads whole workbooks: the sheet, its texts, its styles, and the book itself.
func FuzzWorkbook(f *testing.F) {
	const (
		main  = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
		types = `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`
		rels  = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`
		inner = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/>` +
			`<Relationship Id="rId3" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/></Relationships>`
	)
	f.Add(`<workbook `+main+` xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Heads" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		`<worksheet `+main+`><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c t="s"><v>1</v></c></row><row r="2"><c t="inlineStr"><is><t>A-1</t></is></c><c s="1"><v>13.6</v></c></row></sheetData><mergeCells><mergeCell ref="A1:B1"/></mergeCells></worksheet>`,
		`<sst `+main+`><si><t>Part No</t></si><si><r><t>Hosel OD</t></r></si></sst>`,
		`<styleSheet `+main+`><numFmts><numFmt numFmtId="164" formatCode="0.00&quot; mm&quot;"/></numFmts><cellXfs><xf/><xf numFmtId="164"/></cellXfs></styleSheet>`)
	f.Fuzz(func(t *testing.T, book, table, texts, styles string) {
		if len(book)+len(table)+len(texts)+len(styles) <= mostFuzzed {
			readWhole(t, "fuzz.xlsx", zipped(t, [2]string{"[Content_Types].xml", types}, [2]string{"_rels/.rels", rels}, [2]string{"xl/_rels/workbook.xml.rels", inner},
				[2]string{"xl/workbook.xml", book}, [2]string{"xl/worksheets/sheet1.xml", table}, [2]string{"xl/sharedStrings.xml", texts}, [2]string{"xl/styles.xml", styles}))
		}
	})
}

// FuzzOpenDocument reads whole spreadsheets of the other office program.
func FuzzOpenDocument(f *testing.F) {
	const names = `xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"` +
		` xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0"`
	f.Add(`<office:document-content `+names+`><office:body><office:spreadsheet><table:table table:name="Heads"><table:table-row><table:table-cell office:value-type="string"><text:p>Part No</text:p></table:table-cell>`+
		`<table:table-cell office:value-type="string"><text:p>Hosel<text:s text:c="2"/>OD</text:p></table:table-cell></table:table-row><table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="13.6"><text:p>13.6</text:p></table:table-cell></table:table-row></table:table></office:spreadsheet></office:body></office:document-content>`,
		`<office:document-styles `+names+`><office:styles><number:number-style style:name="N1"><number:number number:decimal-places="2"/></number:number-style></office:styles></office:document-styles>`)
	f.Fuzz(func(t *testing.T, content, styles string) {
		if len(content)+len(styles) <= mostFuzzed {
			readWhole(t, "fuzz.ods", zipped(t, [2]string{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, [2]string{"content.xml", content}, [2]string{"styles.xml", styles}))
		}
	})
}
