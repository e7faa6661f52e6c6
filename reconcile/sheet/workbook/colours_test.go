package workbook_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// coloursOf returns the colours of the cells of a sheet, each as fill/characters.
func coloursOf(s *sheet.Sheet) map[string]string {
	found := map[string]string{}
	s.Colours.Each(100, func(at sheet.Ref, paint sheet.Paint) {
		found[at.String()] = paint.Fill.String() + "/" + paint.Ink.String()
	})
	return found
}

// TestColours reads colours by their digits, by numbers of the palette and of the theme (ECMA-376-1, 18.3.1.15, 18.8.19, 18.8.20, 18.8.27 and
// 20.1.6.2; LibreOffice makes the same of them). White behind characters, black characters and patterns are no colours.
func TestColours(t *testing.T) {
	p := sheetOf(`<sheetData><row r="1"><c r="A1" s="1"><v>1</v></c><c r="B1" s="1"/><c r="C1" s="2" t="s"><v>0</v></c><c r="D1" s="3"><v>2</v></c><c r="E1" s="4"><v>3</v></c></row>` +
		`<row r="2"><c r="A2" s="1"/></row>` +
		`<row r="3"><c r="A3" s="5"><v>1</v></c><c r="B3" s="6"><v>1</v></c><c r="C3" t="s"><v>0</v></c><c r="D3" s="1"/><c r="E3" s="7"><f>A1</f><v>4</v></c><c r="F3" t="s"><v>0</v></c></row></sheetData>`)
	p["xl/styles.xml"] = `<styleSheet xmlns="` + mainSpace + `"><fonts><font/><font><color rgb="FFC00000"/></font><font><color theme="1"/></font><font><color indexed="10"/></font><font><color theme="4" tint="-0.5"/></font></fonts>` +
		`<fills><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor rgb="FFFFFF00"/><bgColor indexed="64"/></patternFill></fill>` +
		`<fill><patternFill patternType="solid"><fgColor theme="0"/></patternFill></fill><fill><patternFill patternType="solid"><fgColor theme="5" tint="0.5"/></patternFill></fill></fills>` +
		`<cellXfs><xf/><xf fillId="2"/><xf fontId="1"/><xf fontId="2" fillId="3"/><xf fontId="3" fillId="1"/><xf fillId="4"/><xf fontId="4"/><xf fontId="1" fillId="2"/></cellXfs></styleSheet>`
	p["xl/sharedStrings.xml"] = `<sst xmlns="` + mainSpace + `"><si><r><t xml:space="preserve">13.9 </t></r><r><rPr><color rgb="FFFF0000"/></rPr><t>new</t></r></si></sst>`
	p["xl/_rels/workbook.xml.rels"] = strings.Replace(common["xl/_rels/workbook.xml.rels"], "</Relationships>",
		`<Relationship Id="theme" Type="`+relationSpace+`/theme" Target="theme/theme1.xml"/></Relationships>`, 1)
	p["xl/theme/theme1.xml"] = `<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:themeElements><a:clrScheme name="x"><a:dk1><a:sysClr val="windowText" lastClr="000000"/></a:dk1>` +
		`<a:lt1><a:sysClr val="window" lastClr="FFFFFF"/></a:lt1><a:accent1><a:srgbClr val="204060"/></a:accent1><a:accent2><a:srgbClr val="FF8000"/></a:accent2></a:clrScheme></a:themeElements></a:theme>`
	got := mustRead(t, p).Sheets[0]
	want := map[string]string{"A1": "FFFF00/", "B1": "FFFF00/", "C1": "/C00000", "E1": "/FF0000", "A3": "FFC080/", "B3": "/102030", "D3": "FFFF00/", "E3": "FFFF00/C00000"}
	if diff := cmp.Diff(want, coloursOf(got)); diff != "" {
		t.Error(diff)
	}
	red := []sheet.Colour{sheet.RGB(255, 0, 0)}
	if diff := cmp.Diff(map[sheet.Ref][]sheet.Colour{{Row: 1, Col: 3}: red, {Row: 3, Col: 3}: red, {Row: 3, Col: 6}: red}, got.Inks); diff != "" {
		t.Error(diff)
	}
	p["xl/theme/theme1.xml"] = `<a:theme`
	if damaged := coloursOf(mustRead(t, p).Sheets[0]); damaged["A1"] != "FFFF00/" {
		t.Errorf("with a damaged theme: %v", damaged)
	}
}
