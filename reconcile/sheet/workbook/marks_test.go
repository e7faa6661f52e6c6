package workbook_test

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// TestStruckAndRaised reads cells of which a part is struck out or raised, or the whole by the font of the cell, as ECMA-376-1, 18.4.10
// (strike) and 18.4.14 (vertAlign) and the programs that write such files have them.
func TestStruckAndRaised(t *testing.T) {
	styles := `<styleSheet xmlns="` + mainSpace + `"><fonts><font/><font><strike/></font><font><strike val="false"/></font></fonts>` +
		`<cellXfs><xf numFmtId="0"/><xf numFmtId="0" fontId="1"/><xf numFmtId="2" fontId="2"/></cellXfs></styleSheet>`
	shared := `<sst xmlns="` + mainSpace + `">` +
		`<si><r><t>13.9</t></r><r><rPr><vertAlign val="superscript"/></rPr><t>1</t></r></si>` +
		`<si><r><rPr><strike/></rPr><t xml:space="preserve">13.5 </t></r><r><rPr><b/></rPr><t>13.9</t></r></si>` +
		`<si><r><rPr><strike val="1"/></rPr><t>gone</t></r></si>` +
		`<si><t>plain</t></si></sst>`
	p := sheetOf(`<sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="s"><v>2</v></c><c r="D1" t="s"><v>3</v></c></row>` +
		`<row r="2"><c r="A2" s="1"><v>13.6</v></c><c r="B2" s="2"><v>13.6</v></c><c r="C2" s="1" t="s"><v>3</v></c><c r="D2" s="1" t="s"><v>1</v></c><c r="E2" s="1"/></row>` +
		`<row r="3"><c r="A3" s="1"><v>13.6</v></c><c r="B3" t="inlineStr"><is><r><t>9.4</t></r><r><rPr><strike/></rPr><t>5</t></r></is></c><c r="C3" s="1"><f>A1</f><v>1</v></c><c r="D3" s="1"><f>A1*2</f></c></row></sheetData>`)
	p["xl/styles.xml"], p["xl/sharedStrings.xml"] = styles, shared
	got := mustRead(t, p).Sheets[0]
	struck := sheet.StruckCell
	want := [][]*sheet.Cell{
		{text("13.9¹"), text("13.9"), struck, text("plain")},
		{struck, {Kind: sheet.Number, Raw: "13.6", Shown: "13.60", Format: "0.00"}, struck, text("13.9")},
		{struck, text("9.4"), struck, struck},
	}
	if diff := cmp.Diff(want, got.Rows); diff != "" {
		t.Error(diff)
	}
	gone := map[sheet.Ref]string{
		{Row: 1, Col: 2}: "13.5", {Row: 1, Col: 3}: "gone", {Row: 2, Col: 1}: "13.6", {Row: 2, Col: 3}: "plain", {Row: 2, Col: 4}: "13.5",
		{Row: 3, Col: 1}: "13.6", {Row: 3, Col: 2}: "5", {Row: 3, Col: 3}: "1", {Row: 3, Col: 4}: "=A1*2",
	}
	if diff := cmp.Diff(gone, got.Struck); diff != "" {
		t.Error(diff)
	}
}

// commented returns a book whose sheet has those parts as its comments, older ones and threads.
func commented(older, threads string) parts {
	p := sheetOf(`<sheetData><row r="1"><c r="A1"><v>13.6</v></c></row></sheetData>`)
	p["xl/worksheets/_rels/sheet1.xml.rels"] = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="c" Type="` + relationSpace + `/comments" Target="../comments1.xml"/>` +
		`<Relationship Id="t" Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" Target="../threadedComments/t1.xml"/></Relationships>`
	p["xl/comments1.xml"] = older
	p["xl/threadedComments/t1.xml"] = threads
	return p
}

// TestComments reads comments of both kinds (ECMA-376-1, 18.7, and MS-XLSX, 2.6.205, for threads).
func TestComments(t *testing.T) {
	older := `<comments xmlns="` + mainSpace + `"><authors><author>X</author></authors><commentList>` +
		`<comment ref="A1" authorId="0"><text><r><rPr><b/></rPr><t>X:</t></r><r><t xml:space="preserve">
new size 13.7</t></r></text></comment>` +
		`<comment ref="B2" authorId="0"><text><t>[Threaded comment]

Comment:
    agreed</t></text></comment></commentList></comments>`
	threads := `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments">` +
		`<threadedComment ref="B2" id="{1}"><text>agreed?</text></threadedComment><threadedComment ref="B2" id="{2}" parentId="{1}"><text>yes</text></threadedComment></ThreadedComments>`
	book := mustRead(t, commented(older, threads))
	want := map[sheet.Ref]string{{Row: 1, Col: 1}: "X:\nnew size 13.7", {Row: 2, Col: 2}: "agreed?\nyes"}
	if diff := cmp.Diff(want, book.Sheets[0].Comments); diff != "" {
		t.Error(diff)
	}
	for name, bad := range map[string]string{
		"not well formed": older[:len(older)-3], "no cell": `<comments xmlns="` + mainSpace + `"><commentList><comment ref="?"><text><t>x</t></text></comment></commentList></comments>`,
		"another root": `<a/>`, "missing": "",
	} {
		book := mustRead(t, commented(bad, threads))
		if len(book.Notes) != 1 || book.Notes[0].Code != "file.comments" || book.Sheets[0].Cell(sheet.Ref{Row: 1, Col: 1}).Raw != "13.6" {
			t.Errorf("%s: %v", name, book.Notes)
		}
	}
}

// FuzzComments reads arbitrary parts of comments, of threads, and of shared texts: each is read, noted or refused with a typed error.
func FuzzComments(f *testing.F) {
	older := `<comments xmlns="` + mainSpace + `"><commentList><comment ref="A1"><text><r><rPr><strike/></rPr><t>13.6</t></r><r><t>13.7</t></r></text></comment></commentList></comments>`
	threads := `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="B2"><text>agreed</text></threadedComment></ThreadedComments>`
	texts := `<sst xmlns="` + mainSpace + `"><si><r><rPr><vertAlign val="superscript"/></rPr><t>1</t></r><r><rPr><strike val="0"/></rPr><t>2</t></r></si><si><t>one</t></si></sst>`
	f.Add(older, threads, texts)
	f.Add(older, older, texts)
	f.Add(`<comments><commentList><comment ref="A1:B2"/></commentList></comments>`, ``, `<sst><si/><si><r><rPr/></r></si></sst>`)
	f.Fuzz(func(t *testing.T, older, threads, texts string) {
		p := commented(older, threads)
		p[sheetPart] = rowsOf(`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s" s="1"><v>1</v></c></row>`)[sheetPart]
		p["xl/styles.xml"] = `<styleSheet xmlns="` + mainSpace + `"><fonts><font/><font><strike/></font></fonts><cellXfs><xf/><xf fontId="1"/></cellXfs></styleSheet>`
		p["xl/sharedStrings.xml"] = texts
		_, err := read("fuzz.xlsx", p.zip(t))
		var refusal *sheet.FileError
		if err != nil && !errors.As(err, &refusal) {
			t.Fatalf("%T: %v", err, err)
		}
	})
}
