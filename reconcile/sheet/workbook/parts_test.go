package workbook_test

import (
	"bytes"
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/ziptest"
	"example.com/seatline/reconcile/sheet/workbook"
)

const (
	mainSpace     = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	strictSpace   = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	relationSpace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	sheetPart     = "xl/worksheets/sheet1.xml"
)

// parts are the members of a workbook archive. Those that a test does not give are those of a book with one sheet.
type parts map[string]string

var common = parts{
	"[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
		`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
	"_rels/.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="r1" Type="` + relationSpace + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
	"xl/workbook.xml": `<workbook xmlns="` + mainSpace + `" xmlns:r="` + relationSpace + `"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>`,
	"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="r1" Type="` + relationSpace + `/worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="r2" Type="` + relationSpace + `/styles" Target="styles.xml"/>` +
		`<Relationship Id="r3" Type="` + relationSpace + `/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
	"xl/styles.xml": `<styleSheet xmlns="` + mainSpace + `"><numFmts><numFmt numFmtId="200" formatCode="0.000&quot;in&quot;"/></numFmts>` +
		`<cellXfs><xf numFmtId="0"/><xf numFmtId="2"/><xf numFmtId="14"/><xf numFmtId="200"/><xf numFmtId="27"/><xf numFmtId="16"/></cellXfs></styleSheet>`,
	"xl/sharedStrings.xml": `<sst xmlns="` + mainSpace + `"><si><t>zero</t></si><si><t>one</t></si></sst>`,
	sheetPart:              `<worksheet xmlns="` + mainSpace + `"><sheetData/></worksheet>`,
}

// zip packs the parts; an empty text leaves a part of the common ones out.
func (p parts) zip(t testing.TB) []byte {
	t.Helper()
	all := maps.Clone(common)
	maps.Copy(all, p)
	var members []string
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if all[name] != "" {
			members = append(members, name, all[name])
		}
	}
	return ziptest.Pack(t, members...)
}

// sheetOf returns a workbook whose only sheet has that content inside <worksheet>.
func sheetOf(content string) parts {
	return parts{sheetPart: `<worksheet xmlns="` + mainSpace + `" xmlns:r="` + relationSpace + `">` + content + `</worksheet>`}
}

// rowsOf returns a workbook whose only sheet has those rows.
func rowsOf(rows string) parts { return sheetOf("<sheetData>" + rows + "</sheetData>") }

func escapeXML(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(text)
}

func read(name string, data []byte) (*sheet.Book, error) {
	return workbook.Read(name, bytes.NewReader(data), int64(len(data)))
}

// wantReason checks that an error is a refusal for that reason, with the name of a file and advice.
func wantReason(t *testing.T, err error, want sheet.Reason) *sheet.FileError {
	t.Helper()
	var refusal *sheet.FileError
	if !errors.As(err, &refusal) {
		t.Fatalf("%v, want the reason %q", err, want)
	}
	if refusal.Reason != want || refusal.File == "" || refusal.Next == "" || refusal.Problem == "" {
		t.Fatalf("%#v, want the reason %q", refusal, want)
	}
	return refusal
}
