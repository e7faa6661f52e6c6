package workbook_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/workbook"
)

func text(s string) *sheet.Cell   { return &sheet.Cell{Kind: sheet.Text, Raw: s, Shown: s} }
func number(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Number, Raw: s, Shown: s} }

// mustRead returns the book of parts that are in order.
func mustRead(t *testing.T, p parts) *sheet.Book {
	t.Helper()
	book, err := read("test.xlsx", p.zip(t))
	if err != nil {
		t.Fatal(err)
	}
	return book
}

func TestCells(t *testing.T) {
	blank := sheet.BlankCell
	for _, test := range []struct {
		name, rows string
		want       [][]*sheet.Cell
	}{
		{"numbers", `<row r="1"><c r="A1"><v>13.6</v></c><c r="B1" t="n"><v>0.33500000000000002</v></c><c r="C1"><v>1E-3</v></c></row>`,
			[][]*sheet.Cell{{number("13.6"), {Kind: sheet.Number, Raw: "0.33500000000000002", Shown: "0.335"}, {Kind: sheet.Number, Raw: "1E-3", Shown: "0.001"}}}},
		{"number formats", `<row r="1"><c r="A1" s="1"><v>8.509</v></c><c r="B1" s="3"><v>0.335</v></c></row>`, [][]*sheet.Cell{{
			{Kind: sheet.Number, Raw: "8.509", Shown: "8.51", Format: "0.00"}, {Kind: sheet.Number, Raw: "0.335", Shown: "0.335in", Format: `0.000"in"`}}}},
		{"a fraction that became a date", `<row r="1"><c r="A1" s="5"><v>45724</v></c><c r="B1" s="2"><v>45724</v></c></row>`, [][]*sheet.Cell{{
			{Kind: sheet.Date, Raw: "45724", Shown: "8-Mar", Format: "d-mmm"}, {Kind: sheet.Date, Raw: "45724", Shown: "3/8/2025", Format: "m/d/yyyy"}}}},
		{"a date of an East Asian program", `<row r="1"><c r="A1" s="4"><v>45724</v></c></row>`, [][]*sheet.Cell{{
			{Kind: sheet.Date, Raw: "45724", Shown: "2025年3月", Format: `yyyy"年"m"月"`}}}},
		{"texts", `<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" t="inlineStr"><is><t>in place</t></is></c><c r="C1" t="str"><f>A1</f><v>one</v></c></row>`,
			[][]*sheet.Cell{{text("one"), text("in place"), {Kind: sheet.Text, Raw: "one", Shown: "one", Formula: "A1"}}}},
		{"truth and errors", `<row r="1"><c r="A1" t="b"><v>1</v></c><c r="B1" t="b"><v>0</v></c><c r="C1" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>`, [][]*sheet.Cell{{
			{Kind: sheet.Bool, Raw: "1", Shown: "TRUE"}, {Kind: sheet.Bool, Raw: "0", Shown: "FALSE"}, {Kind: sheet.Error, Raw: "#DIV/0!", Shown: "#DIV/0!", Formula: "1/0"}}}},
		{"a formula without a result", `<row r="1"><c r="A1"><f>B2*25.4</f></c><c r="B1" t="str"><f>""</f><v></v></c></row>`, [][]*sheet.Cell{{
			{Formula: "B2*25.4"}, {Kind: sheet.Text, Formula: `""`}}}},
		{"ISO dates", `<row r="1"><c r="A1" t="d"><v>2025-03-08</v></c><c r="B1" t="d" s="5"><v>2025-03-08T18:00:00</v></c><c r="C1" t="d"><v>06:00:00</v></c></row>`, [][]*sheet.Cell{{
			{Kind: sheet.Date, Raw: "45724", Shown: "2025-03-08", Format: "yyyy-mm-dd"}, {Kind: sheet.Date, Raw: "45724.75", Shown: "8-Mar", Format: "d-mmm"},
			{Kind: sheet.Date, Raw: "0.25", Shown: "06:00:00", Format: "hh:mm:ss"}}}},
		{"no references", `<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>`, [][]*sheet.Cell{{number("1"), number("2")}, {number("3")}}},
		{"gaps", `<row r="2"><c r="B2"><v>1</v></c><c r="D2"><v>2</v></c></row><row r="4"><c r="A4"><v>3</v></c></row>`,
			[][]*sheet.Cell{nil, {blank, number("1"), blank, number("2")}, nil, {number("3")}}},
		{"any order", `<row r="3"><c r="C3"><v>3</v></c><c r="A3"><v>1</v></c></row><row r="1"><c r="A1"><v>0</v></c></row>`,
			[][]*sheet.Cell{{number("0")}, nil, {number("1"), blank, number("3")}}},
		{"blank cells with a format", `<row r="1"><c r="A1"><v>1</v></c><c r="B1" s="1"/><c r="C1" t="s"/></row><row r="2"><c r="A2" s="1"/></row>`, [][]*sheet.Cell{{number("1")}}},
		{"small letters and white space", `<row r=" 1 "><c r="a1"><v> 13.6
			</v></c></row>`, [][]*sheet.Cell{{number("13.6")}}},
		{"elements of others", `<row r="1"><c r="A1"><v>1</v><x:v xmlns:x="urn:other">2</x:v><extLst><ext><v>3</v></ext></extLst></c></row>`, [][]*sheet.Cell{{number("1")}}},
		{"escapes", `<row r="1"><c r="A1" t="inlineStr"><is><t>a_x000D_b_x005F_x0041_ &amp;&#xd8; <![CDATA[<c>]]></t></is></c><c r="B1" t="str"><v>_xD83D__xDD27__x00</v></c></row>`,
			[][]*sheet.Cell{{text("a\rb_x0041_ &Ø <c>"), text("\U0001f527_x00")}}},
		{"white space of texts", `<row r="1"><c r="A1" t="inlineStr"><is><t> x </t></is></c><c r="B1" t="inlineStr"><is><t xml:space="preserve"> x </t></is></c></row>`,
			[][]*sheet.Cell{{text("x"), text(" x ")}}},
		{"rich text without its reading", `<row r="1"><c r="A1" t="inlineStr"><is><r><rPr><b/></rPr><t xml:space="preserve">外 </t></r><r><t>径</t></r><rPh sb="0" eb="1"><t>ガイ</t></rPh><phoneticPr fontId="1"/></is></c></row>`,
			[][]*sheet.Cell{{text("外 径")}}},
		{"shared formulas", `<row r="1"><c r="B1"><f t="shared" ref="B1:C3" si="0">A1*$A$1+SUM($A1:A$1)+LOG10(A1)&amp;"A1"&amp;'A1'!A1</f><v>1</v></c><c r="C1"><f t="shared" si="0"/><v>2</v></c></row>` +
			`<row r="3"><c r="B3"><f t="shared" si="0"/><v>3</v></c></row>`,
			[][]*sheet.Cell{
				{blank, {Kind: sheet.Number, Raw: "1", Shown: "1", Formula: `A1*$A$1+SUM($A1:A$1)+LOG10(A1)&"A1"&'A1'!A1`}, {Kind: sheet.Number, Raw: "2", Shown: "2", Formula: `B1*$A$1+SUM($A1:B$1)+LOG10(B1)&"A1"&'A1'!B1`}},
				nil,
				{blank, {Kind: sheet.Number, Raw: "3", Shown: "3", Formula: `A3*$A$1+SUM($A3:A$1)+LOG10(A3)&"A1"&'A1'!A3`}},
			}},
	} {
		t.Run(test.name, func(t *testing.T) {
			book := mustRead(t, rowsOf(test.rows))
			if diff := cmp.Diff(test.want, book.Sheets[0].Rows); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if len(book.Notes) > 0 {
				t.Errorf("notes: %+v", book.Notes)
			}
		})
	}
}

func TestSheet(t *testing.T) {
	p := sheetOf(`<dimension ref="Z99"/><cols><col min="2" max="3" hidden="1"/><col min="5" max="5"/></cols>` +
		`<sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="2" hidden="true"><c r="A2"><v>2</v></c></row></sheetData>` +
		`<autoFilter ref="A1:C9"/><mergeCells count="1"><mergeCell ref="A1:$B$3"/></mergeCells>` +
		`<conditionalFormatting><cfRule><formula>1</formula></cfRule></conditionalFormatting><tableParts><tablePart r:id="t"/></tableParts>`)
	p["xl/worksheets/_rels/sheet1.xml.rels"] = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="t" Type="` + relationSpace + `/table" Target="../tables/table1.xml"/></Relationships>`
	p["xl/tables/table1.xml"] = `<table xmlns="` + mainSpace + `" id="1" name="Tips" displayName="Tips_1" ref="B5:C9"><autoFilter ref="B5:C9"/></table>`
	want := &sheet.Sheet{
		Name: "S", Rows: [][]*sheet.Cell{{number("1")}, {number("2")}},
		Merges:     []sheet.Range{{From: sheet.Ref{Row: 1, Col: 1}, To: sheet.Ref{Row: 3, Col: 2}}},
		HiddenRows: map[int]bool{2: true}, HiddenCols: map[int]bool{2: true, 3: true},
		Tables: []sheet.Table{
			{Range: sheet.Range{From: sheet.Ref{Row: 1, Col: 1}, To: sheet.Ref{Row: 9, Col: 3}}},
			{Name: "Tips_1", Range: sheet.Range{From: sheet.Ref{Row: 5, Col: 2}, To: sheet.Ref{Row: 9, Col: 3}}},
		},
	}
	if diff := cmp.Diff(want, mustRead(t, p).Sheets[0]); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// TestForms reads the same content written in the ways that different programs write it.
func TestForms(t *testing.T) {
	want := mustRead(t, rowsOf(`<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" s="3"><v>0.335</v></c></row>`))
	prefixed := func(text string) string {
		return strings.NewReplacer("</", "</x:", "<", "<x:", `xmlns=`, `xmlns:x=`).Replace(text)
	}
	sheetText := rowsOf(`<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" s="3"><v>0.335</v></c></row>`)[sheetPart]
	toUTF16 := func(text string) string {
		out := []byte{0xff, 0xfe}
		for _, unit := range utf16.Encode([]rune(`<?xml version="1.0" encoding="UTF-16"?>` + text)) {
			out = binary.LittleEndian.AppendUint16(out, unit)
		}
		return string(out)
	}
	strict := strings.NewReplacer(mainSpace, strictSpace, relationSpace, "http://purl.oclc.org/ooxml/officeDocument/relationships")
	strictParts := parts{sheetPart: strict.Replace(sheetText)}
	for name, content := range common {
		if name != sheetPart {
			strictParts[name] = strict.Replace(content)
		}
	}
	for name, p := range map[string]parts{
		"prefixes":                  {sheetPart: prefixed(sheetText), "xl/styles.xml": prefixed(common["xl/styles.xml"]), "xl/sharedStrings.xml": prefixed(common["xl/sharedStrings.xml"])},
		"strict":                    strictParts,
		"no namespace":              {sheetPart: strings.ReplaceAll(sheetText, ` xmlns="`+mainSpace+`"`, "")},
		"UTF-16":                    {sheetPart: toUTF16(sheetText)},
		"byte order mark":           {sheetPart: "\ufeff" + `<?xml version="1.0" encoding="utf-8" standalone="yes"?>` + "\r\n<!-- a comment -->" + sheetText + "\n"},
		"absolute target":           {sheetPart: sheetText, "xl/_rels/workbook.xml.rels": strings.ReplaceAll(common["xl/_rels/workbook.xml.rels"], `Target="`, `Target="/xl/`)},
		"backslashes":               {sheetPart: "", `xl\worksheets\sheet1.xml`: sheetText},
		"other letter case":         {sheetPart: "", "XL/Worksheets/SHEET1.xml": sheetText},
		"no package relationships":  {sheetPart: sheetText, "_rels/.rels": ""},
		"workbook in another place": {sheetPart: sheetText, "_rels/.rels": strings.ReplaceAll(common["_rels/.rels"], "xl/workbook.xml", "book.xml"), "xl/workbook.xml": "", "book.xml": common["xl/workbook.xml"], "_rels/book.xml.rels": strings.ReplaceAll(common["xl/_rels/workbook.xml.rels"], `Target="`, `Target="xl/`), "xl/_rels/workbook.xml.rels": ""},
		"unused parts":              {sheetPart: sheetText, "docProps/app.xml": "<broken", "xl/media/image1.png": "no picture"},
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(want, mustRead(t, p)); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

func TestBook(t *testing.T) {
	relations := func(kinds ...string) string {
		out := `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
		for i, kind := range kinds {
			out += fmt.Sprintf(`<Relationship Id="r%d" Type="%s/%s" Target="worksheets/sheet%d.xml"/>`, i+1, relationSpace, kind, i+1)
		}
		return out + "</Relationships>"
	}
	sheetWith := func(value string) string {
		return `<worksheet xmlns="` + mainSpace + `"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>` + value + `</t></is></c></row></sheetData></worksheet>`
	}
	book := mustRead(t, parts{
		"xl/workbook.xml": `<workbook xmlns="` + mainSpace + `" xmlns:r="` + relationSpace + `"><workbookPr date1904="true"/><sheets>` +
			`<sheet name="Third &amp; first" sheetId="7" r:id="r3"/><sheet name="Chart" sheetId="8" r:id="r2"/><sheet name="Old" sheetId="9" state="veryHidden" r:id="r1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": relations("worksheet", "chartsheet", "worksheet"),
		sheetPart:                    sheetWith("one"), "xl/worksheets/sheet2.xml": "<chartsheet/>", "xl/worksheets/sheet3.xml": sheetWith("three"),
		"xl/styles.xml": "", "xl/sharedStrings.xml": "",
	})
	empty := map[int]bool{}
	want := &sheet.Book{
		File: "test.xlsx", Format: "xlsx workbook",
		Sheets: []*sheet.Sheet{
			{Name: "Third & first", Rows: [][]*sheet.Cell{{text("three")}}, HiddenRows: empty, HiddenCols: empty},
			{Name: "Old", Hidden: true, Rows: [][]*sheet.Cell{{text("one")}}, HiddenRows: empty, HiddenCols: empty},
		},
		Notes: []sheet.Note{{Code: workbook.CodeSheetSkipped, Sheet: "Chart"}, {Code: workbook.CodeDates1904}},
	}
	if diff := cmp.Diff(want, book, cmpopts.IgnoreFields(sheet.Note{}, "Message")); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// TestDates1904 checks the same day in both systems (ECMA-376-1, 18.17.4.1: they are 1462 days apart).
func TestDates1904(t *testing.T) {
	for serial, workbookPr := range map[string]string{"45292": "", "43830": `<workbookPr date1904="1"/>`} {
		p := rowsOf(`<row r="1"><c r="A1" s="2"><v>` + serial + `</v></c><c r="B1" s="2" t="d"><v>2024-01-01</v></c></row>`)
		p["xl/workbook.xml"] = strings.Replace(common["xl/workbook.xml"], "<sheets>", workbookPr+"<sheets>", 1)
		want := &sheet.Cell{Kind: sheet.Date, Raw: serial, Shown: "1/1/2024", Format: "m/d/yyyy"}
		if diff := cmp.Diff([]*sheet.Cell{want, want}, mustRead(t, p).Sheets[0].Rows[0]); diff != "" {
			t.Errorf("(-want +got)\n%s", diff)
		}
	}
}

// TestOddCells checks that what a cell should not hold is kept as text and noted.
func TestOddCells(t *testing.T) {
	book := mustRead(t, rowsOf(`<row r="1"><c r="A1"><v>NaN</v></c><c r="B1" s="1"><v>13,6</v></c><c r="C1" t="b"><v>x</v></c><c r="D1" t="d"><v>soon</v></c>`+
		`<c r="E1" s="99"><v>1</v></c><c r="F1"><f t="shared" si="4"/><v>2</v></c></row>`))
	want := []*sheet.Cell{text("NaN"), {Kind: sheet.Text, Raw: "13,6", Shown: "13,6", Format: "0.00"}, text("x"), text("soon"), number("1"), number("2")}
	if diff := cmp.Diff(want, book.Sheets[0].Rows[0]); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	var places []string
	for _, note := range book.Notes {
		if note.Code != workbook.CodeCell || note.Sheet != "S" {
			t.Errorf("%+v", note)
		}
		places = append(places, note.Ref.String())
	}
	if diff := cmp.Diff([]string{"A1", "B1", "C1", "D1", "E1", "F1"}, places); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}

	book = mustRead(t, rowsOf(`<row r="1">`+strings.Repeat("<c><v>NaN</v></c>", 1000)+`</row>`))
	if len(book.Notes) != 21 || !strings.Contains(book.Notes[20].Message, "980 more") {
		t.Errorf("%d notes for 1000 odd cells", len(book.Notes))
	}
}

// TestFewDamagedCells reads a workbook with a few cells that cannot be read, or that stand far from all others: each is noted, and the rest read.
func TestFewDamagedCells(t *testing.T) {
	book := mustRead(t, rowsOf(`<row r="1"><c><v>1</v></c><c t="s"><v>2</v></c><c t="z"><v>3</v></c></row><row r="2"><c><v>1</v></c><c r="XEZ2"><v>4</v></c></row><row r="3"><c r="XFD3"><v>5</v></c></row>`))
	broken := func(raw string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Error, Raw: raw, Shown: "#?"} }
	want := [][]*sheet.Cell{{number("1"), broken("2"), broken("3")}, {number("1")}}
	if diff := cmp.Diff(want, book.Sheets[0].Rows); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	var places []string
	for _, note := range book.Notes {
		places = append(places, note.Code+" "+note.Ref.String())
	}
	if diff := cmp.Diff([]string{"file.cell B1", "file.cell C1", "file.cell XEZ2", "file.cell XFD3"}, places); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

func TestDamage(t *testing.T) {
	manyEntries := parts{}
	for i := range 10_001 {
		manyEntries[fmt.Sprintf("x/%d", i)] = "x"
	}
	wide := strings.Repeat(`<row><c r="XFD%d"><v>1</v></c></row>`, 320)
	for i := range 320 {
		wide = strings.Replace(wide, "%d", fmt.Sprint(i+1), 1)
	}
	whole := rowsOf(`<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>`)[sheetPart]
	for _, test := range []struct {
		name  string
		parts parts
		want  sheet.Reason
		place string
	}{
		{"half a sheet", parts{sheetPart: whole[:len(whole)/2+40]}, sheet.ReasonDamaged, sheetPart},
		{"a reference that is none", rowsOf(`<row r="1"><c r="1A"><v>1</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"a reference in another row", rowsOf(`<row r="1"><c r="A2"><v>1</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"a row twice", rowsOf(`<row r="1"><c><v>1</v></c></row><row r="1"><c><v>1</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"a cell twice", rowsOf(`<row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"too many rows", rowsOf(`<row r="1048577"><c><v>1</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"too many columns", rowsOf(`<row r="1"><c r="XFE1"><v>1</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"too many columns, uncounted", rowsOf(`<row r="1"><c r="XFD1"><v>1</v></c><c><v>1</v></c></row>`), sheet.ReasonDamaged, sheetPart},
		{"a row that is no number", rowsOf(`<row r="one"/>`), sheet.ReasonDamaged, sheetPart},
		{"shared texts that are not there", rowsOf(`<row r="1">` + strings.Repeat(`<c t="s"><v>2</v></c>`, 6) + `</row>`), sheet.ReasonDamaged, sheetPart},
		{"types that are not known", rowsOf(`<row r="1">` + strings.Repeat(`<c t="z"><v>2</v></c>`, 6) + `</row>`), sheet.ReasonDamaged, sheetPart},
		{"a merged range that is none", sheetOf(`<mergeCells><mergeCell ref="A1:B"/></mergeCells>`), sheet.ReasonDamaged, sheetPart},
		{"hidden columns beyond the sheet", sheetOf(`<cols><col min="1" max="16385" hidden="1"/></cols>`), sheet.ReasonDamaged, sheetPart},
		{"tags that cross", rowsOf(`<row r="1"><c><v>1</c></v></row>`), sheet.ReasonDamaged, sheetPart},
		{"an entity of its own", parts{sheetPart: `<!DOCTYPE x [<!ENTITY e "1">]>` + whole}, sheet.ReasonDamaged, sheetPart},
		{"another root", parts{sheetPart: "<html/>"}, sheet.ReasonDamaged, sheetPart},
		{"another namespace", parts{sheetPart: `<worksheet xmlns="urn:other"><sheetData/></worksheet>`}, sheet.ReasonDamaged, sheetPart},
		{"broken styles", parts{"xl/styles.xml": "<styleSheet>"}, sheet.ReasonDamaged, "xl/styles.xml"},
		{"broken texts", parts{"xl/sharedStrings.xml": "<sst><si>"}, sheet.ReasonDamaged, "xl/sharedStrings.xml"},
		{"no sheet part", parts{sheetPart: ""}, sheet.ReasonDamaged, ""},
		{"no relationships", parts{"xl/_rels/workbook.xml.rels": ""}, sheet.ReasonDamaged, ""},
		{"no texts", parts{"xl/sharedStrings.xml": ""}, sheet.ReasonDamaged, ""},
		{"two sheets of one name", parts{"xl/workbook.xml": strings.Replace(common["xl/workbook.xml"], "<sheets>", `<sheets><sheet name="s" r:id="r1"/>`, 1)}, sheet.ReasonDamaged, "xl/workbook.xml"},
		{"a table without its part", sheetOf(`<tableParts><tablePart r:id="t"/></tableParts>`), sheet.ReasonDamaged, sheetPart},
		{"too many cells", rowsOf(wide), sheet.ReasonTooBig, "S"},
		{"a long formula that many cells share", rowsOf(`<row><c><f t="shared" si="0">` + strings.Repeat("A1+", 100_000) + `A1</f></c></row>` + strings.Repeat(`<row><c><f t="shared" si="0"/></c></row>`, 400)), sheet.ReasonTooBig, "S"},
		{"columns again and again", sheetOf(`<cols>` + strings.Repeat(`<col min="1" max="16384" hidden="1"/>`, 5) + `</cols>`), sheet.ReasonDamaged, sheetPart},
		{"too many members", manyEntries, sheet.ReasonTooBig, ""},
		{"a bomb", parts{sheetPart: "<worksheet>" + strings.Repeat(" ", 40<<20)}, sheet.ReasonTooBig, sheetPart},
		{"a member twice", parts{"xl/styles.XML": common["xl/styles.xml"]}, sheet.ReasonDamaged, "xl/styles.xml"},
		{"no workbook", parts{"xl/workbook.xml": ""}, sheet.ReasonUnsupported, ""},
		{"a Word document", parts{"word/document.xml": "<x/>"}, sheet.ReasonUnsupported, ""},
		{"a binary workbook", parts{"xl/workbook.bin": "x"}, sheet.ReasonUnsupported, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := read("test.xlsx", test.parts.zip(t))
			refusal := wantReason(t, err, test.want)
			if !strings.HasPrefix(refusal.Place, test.place) {
				t.Errorf("%v, want the place %s", err, test.place)
			}
		})
	}
}

func TestDamagedArchive(t *testing.T) {
	var rows strings.Builder
	for i := range 2000 {
		fmt.Fprintf(&rows, `<row r="%d"><c r="A%d"><v>%d.%d</v></c></row>`, i+1, i+1, i*7919%1000, i)
	}
	good := rowsOf(rows.String()).zip(t)
	if book, err := read("good.xlsx", good); err != nil || len(book.Sheets[0].Rows) != 2000 {
		t.Fatalf("the file in order: %v", err)
	}
	at := bytes.Index(good, []byte(sheetPart)) + len(sheetPart) + 2000
	for name, test := range map[string]struct {
		data []byte
		want sheet.Reason
	}{
		"cut off":        {good[:len(good)*2/3], sheet.ReasonTruncated},
		"last bytes off": {good[:len(good)-3], sheet.ReasonTruncated},
		"one bit":        {flip(good, at), sheet.ReasonDamaged},
		"empty":          {nil, sheet.ReasonEmpty},
		"text":           {[]byte("a,b\n1,2\n"), sheet.ReasonMisnamed},
		"page":           {[]byte("<html><table>"), sheet.ReasonMisnamed},
		"old xls":        {compound("Workbook"), sheet.ReasonMisnamed},
		"password":       {compound("EncryptedPackage"), sheet.ReasonEncrypted},
		"zip password":   {locked(t), sheet.ReasonEncrypted},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := read("test.xlsx", test.data)
			wantReason(t, err, test.want)
		})
	}
}

// TestEveryBit flips bits all over a small workbook: the result is an error or the same book, never another one.
func TestEveryBit(t *testing.T) {
	good := rowsOf(`<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" s="3"><v>0.335</v></c></row>`).zip(t)
	want, err := read("test.xlsx", good)
	if err != nil {
		t.Fatal(err)
	}
	refused := 0
	for at := range good {
		got, err := read("test.xlsx", flip(good, at))
		if err != nil {
			refused++
			continue
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("byte %d: (-want +got)\n%s", at, diff)
		}
	}
	if refused < len(good)/3 {
		t.Errorf("only %d of %d changes were refused", refused, len(good))
	}
	for length := range len(good) {
		if _, err := read("test.xlsx", good[:length]); err == nil {
			t.Errorf("the first %d of %d bytes were read", length, len(good))
		}
	}
}

func flip(data []byte, at int) []byte {
	changed := bytes.Clone(data)
	changed[at] ^= 4
	return changed
}

// compound makes a compound file with one directory entry of that name, enough to tell what it is (MS-CFB, 2.6.1).
func compound(name string) []byte {
	data := make([]byte, 1536)
	copy(data, "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
	for i, unit := range utf16.Encode([]rune(name)) {
		binary.LittleEndian.PutUint16(data[1024+2*i:], unit)
	}
	binary.LittleEndian.PutUint16(data[1024+64:], uint16(2*len(name)+2))
	return data
}

// locked makes an archive whose member says that it is encrypted.
func locked(t *testing.T) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	member, err := w.CreateRaw(&zip.FileHeader{Name: "xl/workbook.xml", Flags: 1})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := member.Write(nil); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
