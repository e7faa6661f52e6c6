package opendocument_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// TestColours reads colours of cells, of their parents' styles, of blank cells beside others and of some characters (OpenDocument 1.2, part 1,
// 20.175 and 20.180, as LibreOffice writes them).
func TestColours(t *testing.T) {
	const space = ` xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"`
	styles := `<style:style style:name="yellow" style:family="table-cell"><style:table-cell-properties` + space + ` fo:background-color="#ffff00"/></style:style>` +
		`<style:style style:name="both" style:family="table-cell" style:parent-style-name="yellow"><style:text-properties` + space + ` fo:color="#c00000"/></style:style>` +
		`<style:style style:name="plain" style:family="table-cell" style:parent-style-name="yellow"><style:table-cell-properties` + space + ` fo:background-color="transparent"/></style:style>` +
		`<style:style style:name="T1" style:family="text"><style:text-properties` + space + ` fo:color="#ff0000"/></style:style>`
	row := `<table:table-row table:number-rows-repeated="2"><table:table-cell table:style-name="yellow" table:number-columns-repeated="2"/>` +
		`<table:table-cell table:style-name="both" office:value-type="float" office:value="1"><text:p>1</text:p></table:table-cell>` +
		`<table:table-cell table:style-name="plain" office:value-type="string"><text:p>old <text:span text:style-name="T1">new</text:span></text:p></table:table-cell></table:table-row>` +
		`<table:table-row><table:table-cell table:style-name="yellow" table:number-columns-repeated="16384"/></table:table-row>`
	book, err := read(t, "content.xml", content(styles, `<table:table table:name="S">`+row+`</table:table>`))
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	book.Sheets[0].Colours.Each(100, func(at sheet.Ref, paint sheet.Paint) {
		got[at.String()] = paint.Fill.String() + "/" + paint.Ink.String()
	})
	want := map[string]string{"A1": "FFFF00/", "B1": "FFFF00/", "C1": "FFFF00/C00000", "A2": "FFFF00/", "B2": "FFFF00/", "C2": "FFFF00/C00000"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[sheet.Ref][]sheet.Colour{{Row: 1, Col: 4}: {sheet.RGB(255, 0, 0)}}, book.Sheets[0].Inks); diff != "" {
		t.Error(diff)
	}
}
