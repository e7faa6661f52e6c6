package opendocument_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/ziptest"
	"example.com/seatline/reconcile/sheet/opendocument"
)

const head = `<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"` +
	` xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"` +
	` xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0" xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0">`

// content is a content.xml with those automatic styles and that inside <office:spreadsheet>.
func content(styles, body string) string {
	return head + `<office:automatic-styles>` + styles + `</office:automatic-styles><office:body><office:spreadsheet>` + body + `</office:spreadsheet></office:body></office:document-content>`
}

// rows is a content.xml with one sheet of those rows.
func rows(text string) string {
	return content("", `<table:table table:name="S">`+text+`</table:table>`)
}

const mediaType = "application/vnd.oasis.opendocument.spreadsheet"

func read(t testing.TB, members ...string) (*sheet.Book, error) {
	t.Helper()
	data := ziptest.Pack(t, append([]string{"mimetype", mediaType}, members...)...)
	return opendocument.Read("test.ods", bytes.NewReader(data), int64(len(data)))
}

func text(s string) *sheet.Cell   { return &sheet.Cell{Kind: sheet.Text, Raw: s, Shown: s} }
func number(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Number, Raw: s, Shown: s} }

func TestCells(t *testing.T) {
	blank := sheet.BlankCell
	for _, test := range []struct {
		name, rows string
		want       [][]*sheet.Cell
	}{
		{"kinds", `<table:table-row>` +
			`<table:table-cell office:value-type="float" office:value="0.33500000000000002"><text:p>0.335</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="percentage" office:value="0.5"><text:p>50%</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="date" office:date-value="2025-03-08T18:00:00"><text:p>8-Mar</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="time" office:time-value="PT36H30M00S"><text:p>36:30</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>TRUE</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="string" calcext:value-type="error" table:formula="of:=1/0"><text:p>#DIV/0!</text:p></table:table-cell>` +
			`<table:table-cell table:formula="of:=[.B2]*25.4"/></table:table-row>`,
			[][]*sheet.Cell{{
				{Kind: sheet.Number, Raw: "0.33500000000000002", Shown: "0.335"}, {Kind: sheet.Number, Raw: "0.5", Shown: "50%"},
				{Kind: sheet.Date, Raw: "45724.75", Shown: "8-Mar"}, {Kind: sheet.Date, Raw: "1.5208333333333333", Shown: "36:30"},
				{Kind: sheet.Bool, Raw: "1", Shown: "TRUE"}, {Kind: sheet.Error, Raw: "#DIV/0!", Shown: "#DIV/0!", Formula: "1/0"}, {Formula: "B2*25.4"},
			}}},
		{"texts", `<table:table-row>` +
			`<table:table-cell office:value-type="string"><text:p>a<text:s text:c="2"/>b<text:tab/>c<text:line-break/>d</text:p><text:p><text:span>e</text:span> <text:a>f</text:a></text:p></table:table-cell>` +
			`<table:table-cell office:value-type="string"><office:annotation><text:p>a remark</text:p></office:annotation><text:p>` + "\n  x\n  y " + `</text:p></table:table-cell>` +
			`<table:table-cell office:value-type="string" office:string-value="stored"><text:p>shown</text:p></table:table-cell></table:table-row>`,
			[][]*sheet.Cell{{text("a  b\tc\nd\ne f"), text("x y "), text("stored")}}},
		{"repeats", `<table:table-row table:number-rows-repeated="2"/><table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="2"/>` +
			`<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="1"><text:p>1</text:p></table:table-cell><table:table-cell table:number-columns-repeated="16380"/></table:table-row>` +
			`<table:table-row table:number-rows-repeated="1048572"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>`,
			[][]*sheet.Cell{nil, nil, {blank, blank, number("1"), number("1")}, {blank, blank, number("1"), number("1")}}},
		{"groups", `<table:table-header-rows><table:table-row><table:table-cell office:value-type="string"><text:p>head</text:p></table:table-cell></table:table-row></table:table-header-rows>` +
			`<table:table-row-group><table:table-row><table:table-cell office:value-type="string"><text:p>body</text:p></table:table-cell></table:table-row></table:table-row-group>`,
			[][]*sheet.Cell{{text("head")}, {text("body")}}},
		{"references", `<table:table-row><table:table-cell table:formula="of:=SUM([.A1:.B2];[$'My.Sheet'.C3])&amp;&quot;[.x]&quot;" office:value-type="float" office:value="1"><text:p>1</text:p></table:table-cell></table:table-row>`,
			[][]*sheet.Cell{{{Kind: sheet.Number, Raw: "1", Shown: "1", Formula: `SUM(A1:B2;$'My.Sheet'!C3)&"[.x]"`}}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			book, err := read(t, "content.xml", rows(test.rows))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, book.Sheets[0].Rows); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if len(book.Notes) > 0 {
				t.Errorf("%+v", book.Notes)
			}
		})
	}
}

// TestFormats holds data styles as LibreOffice 7.4.7 writes them for the codes that are wanted.
// TestStruckRaisedAndComments reads what the styles of cells and of runs say (OpenDocument 1.2, part 1, 20.358, 20.384), and annotations (14.1).
func TestStruckRaisedAndComments(t *testing.T) {
	styles := `<style:style style:name="base" style:family="table-cell"><style:text-properties style:text-line-through-style="solid"/></style:style>` +
		`<style:style style:name="gone" style:family="table-cell" style:parent-style-name="base"/>` +
		`<style:style style:name="back" style:family="table-cell" style:parent-style-name="base"><style:text-properties style:text-line-through-style="none"/></style:style>` +
		`<style:style style:name="up" style:family="text"><style:text-properties style:text-position="super 58%"/></style:style>` +
		`<style:style style:name="high" style:family="text"><style:text-properties style:text-position="33% 58%"/></style:style>` +
		`<style:style style:name="low" style:family="text"><style:text-properties style:text-position="-33% 58%"/></style:style>` +
		`<style:style style:name="line" style:family="text"><style:text-properties style:text-line-through-type="single"/></style:style>` +
		`<style:style style:name="keep" style:family="text"><style:text-properties style:text-line-through-type="none"/></style:style>`
	cell := func(style, inside string) string {
		return `<table:table-cell office:value-type="string" table:style-name="` + style + `">` + inside + `</table:table-cell>`
	}
	book, err := read(t, "content.xml", content(styles, `<table:table table:name="S"><table:table-row>`+
		cell("", `<text:p>13.9<text:span text:style-name="up">1</text:span></text:p>`)+
		cell("", `<text:p>13.6<text:span text:style-name="high">+0.05</text:span><text:span text:style-name="low">-0.1</text:span></text:p>`)+
		cell("", `<text:p><text:span text:style-name="line">13.5</text:span> 13.9</text:p>`)+
		cell("gone", `<text:p>HX-1</text:p>`)+cell("back", `<text:p>HX-2</text:p>`)+
		cell("gone", `<text:p>9.3 <text:span text:style-name="keep">9.4</text:span></text:p>`)+
		`</table:table-row><table:table-row>`+
		`<table:table-cell office:value-type="float" office:value="13.6" table:style-name="gone"><text:p>13.6</text:p></table:table-cell>`+
		`<table:table-cell office:value-type="float" office:value="13.7" table:style-name="gone"/>`+
		`<table:table-cell office:value-type="float" office:value="13.6"><office:annotation><dc:creator xmlns:dc="d">X</dc:creator><text:p>new size</text:p><text:p>13.7</text:p></office:annotation><text:p>13.6</text:p></table:table-cell>`+
		`</table:table-row></table:table>`))
	if err != nil {
		t.Fatal(err)
	}
	s, struck := book.Sheets[0], sheet.StruckCell
	if diff := cmp.Diff([][]*sheet.Cell{
		{text("13.9¹"), text("13.6 +0.05/-0.1"), text("13.9"), struck, text("HX-2"), text("9.4")}, {struck, struck, number("13.6")},
	}, s.Rows); diff != "" {
		t.Error(diff)
	}
	gone := map[sheet.Ref]string{{Row: 1, Col: 3}: "13.5", {Row: 1, Col: 4}: "HX-1", {Row: 1, Col: 6}: "9.3", {Row: 2, Col: 1}: "13.6", {Row: 2, Col: 2}: "13.7"}
	if diff := cmp.Diff(gone, s.Struck); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[sheet.Ref]string{{Row: 2, Col: 3}: "new size\n13.7"}, s.Comments); diff != "" {
		t.Error(diff)
	}
}

func TestFormats(t *testing.T) {
	for want, style := range map[string]string{
		`0.000"in"`: `<number:number-style style:name="N"><number:number number:decimal-places="3" number:min-decimal-places="3" number:min-integer-digits="1"/><number:text>in</number:text></number:number-style>`,
		"#,##0.00":  `<number:number-style style:name="N"><number:number number:decimal-places="2" number:min-integer-digits="1" number:grouping="true"/></number:number-style>`,
		"0.00%":     `<number:percentage-style style:name="N"><number:number number:decimal-places="2" number:min-decimal-places="2" number:min-integer-digits="1"/><number:text>%</number:text></number:percentage-style>`,
		"0.00E+00":  `<number:number-style style:name="N"><number:scientific-number number:decimal-places="2" number:min-integer-digits="1" number:min-exponent-digits="2"/></number:number-style>`,
		"# ??/??":   `<number:number-style style:name="N"><number:fraction number:min-integer-digits="0" number:min-numerator-digits="2" number:min-denominator-digits="2" number:max-denominator-value="99"/></number:number-style>`,
		"# ??/64":   `<number:number-style style:name="N"><number:fraction number:min-integer-digits="0" number:min-numerator-digits="2" number:denominator-value="64"/></number:number-style>`,
		"d-mmm":     `<number:date-style style:name="N"><number:day/><number:text>-</number:text><number:month number:textual="true"/></number:date-style>`,
		"yyyy-mm-dd": `<number:date-style style:name="N"><number:year number:style="long"/><number:text>-</number:text><number:month number:style="long"/><number:text>-</number:text>` +
			`<number:day number:style="long"/></number:date-style>`,
		"[h]:mm:ss": `<number:time-style style:name="N" number:truncate-on-overflow="false"><number:hours/><number:text>:</number:text><number:minutes number:style="long"/><number:text>:</number:text>` +
			`<number:seconds number:style="long"/></number:time-style>`,
		"@": `<number:text-style style:name="N"><number:text-content/></number:text-style>`,
		"0.0;(0.0)": `<number:number-style style:name="P"><number:number number:decimal-places="1" number:min-integer-digits="1"/></number:number-style>` +
			`<number:number-style style:name="N"><number:text>(</number:text><number:number number:decimal-places="1" number:min-integer-digits="1"/><number:text>)</number:text>` +
			`<style:map style:condition="value()&gt;=0" style:apply-style-name="P"/></number:number-style>`,
		"": `<number:number-style style:name="N"><number:number number:min-integer-digits="1"/></number:number-style>`,
	} {
		styles := style + `<style:style style:name="parent" style:family="table-cell" style:data-style-name="N"/><style:style style:name="c" style:family="table-cell" style:parent-style-name="parent"/>`
		cell := `office:value-type="float" office:value="1"><text:p>1</text:p></table:table-cell>`
		book, err := read(t, "content.xml", content(styles, `<table:table table:name="S"><table:table-column/><table:table-column table:default-cell-style-name="c"/>`+
			`<table:table-row><table:table-cell table:style-name="c" `+cell+`<table:table-cell `+cell+`</table:table-row></table:table>`))
		if err != nil {
			t.Fatal(err)
		}
		for col, cell := range book.Sheets[0].Rows[0] {
			if cell.Format != want {
				t.Errorf("column %d: %q, want %q", col+1, cell.Format, want)
			}
		}
	}
}

func TestSheets(t *testing.T) {
	book, err := read(t, "styles.xml", strings.NewReplacer("document-content", "document-styles").Replace(head)+`<office:styles/></office:document-styles>`, "content.xml",
		content(`<style:style style:name="ta" style:family="table"><style:table-properties table:display="false"/></style:style>`,
			`<table:table table:name="It's a list"><table:table-column/><table:table-column table:visibility="collapse" table:number-columns-repeated="2"/>`+
				`<table:table-row table:visibility="filter"><table:table-cell table:number-columns-spanned="2" table:number-rows-spanned="3" office:value-type="string"><text:p>x</text:p></table:table-cell>`+
				`<table:covered-table-cell office:value-type="string"><text:p>under it</text:p></table:covered-table-cell></table:table-row></table:table>`+
				`<table:table table:name="H" table:style-name="ta"/><table:database-ranges><table:database-range table:name="Tips" table:target-range-address="&apos;It&apos;&apos;s a list&apos;.B2:&apos;It&apos;&apos;s a list&apos;.C9"/>`+
				`<table:database-range table:name="__Anonymous_Sheet_DB__0" table:target-range-address="$H.A1:$H.B2" table:display-filter-buttons="true"/></table:database-ranges>`))
	if err != nil {
		t.Fatal(err)
	}
	area := func(a, b, c, d int) sheet.Range {
		return sheet.Range{From: sheet.Ref{Row: a, Col: b}, To: sheet.Ref{Row: c, Col: d}}
	}
	want := []*sheet.Sheet{
		{Name: "It's a list", Rows: [][]*sheet.Cell{{text("x")}}, Merges: []sheet.Range{area(1, 1, 3, 2)}, HiddenRows: map[int]bool{1: true}, HiddenCols: map[int]bool{2: true, 3: true},
			Tables: []sheet.Table{{Name: "Tips", Range: area(2, 2, 9, 3)}}},
		{Name: "H", Hidden: true, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}, Tables: []sheet.Table{{Range: area(1, 1, 2, 2)}}},
	}
	if diff := cmp.Diff(want, book.Sheets); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

func TestOddCells(t *testing.T) {
	odd := `<table:table-cell office:value-type="date" office:date-value="-000-32768-01-01"><text:p>###</text:p></table:table-cell>`
	book, err := read(t, "content.xml", rows(`<table:table-row>`+strings.Repeat(odd, 50)+`</table:table-row>`))
	if err != nil {
		t.Fatal(err)
	}
	if got := book.Sheets[0].Rows[0][0]; *got != *text("###") {
		t.Errorf("%+v", got)
	}
	if len(book.Notes) != 20 || book.Notes[0].Code != opendocument.CodeCell || book.Notes[1].Ref.String() != "B1" {
		t.Errorf("%d notes: %+v", len(book.Notes), book.Notes[0])
	}
}

func TestRefusals(t *testing.T) {
	one := `<table:table-cell office:value-type="float" office:value="1"><text:p>1</text:p></table:table-cell>`
	many := strings.Replace(one, "<table:table-cell", `<table:table-cell table:number-columns-repeated="16384"`, 1)
	for name, test := range map[string]struct {
		members []string
		want    sheet.Reason
	}{
		"repeated content":   {[]string{"content.xml", rows(`<table:table-row table:number-rows-repeated="1048576">` + many + `</table:table-row>`)}, sheet.ReasonTooBig},
		"too many columns":   {[]string{"content.xml", rows(`<table:table-row><table:table-cell table:number-columns-repeated="16384"/>` + one + `</table:table-row>`)}, sheet.ReasonDamaged},
		"too many rows":      {[]string{"content.xml", rows(`<table:table-row table:number-rows-repeated="1048576"/><table:table-row>` + one + `</table:table-row>`)}, sheet.ReasonDamaged},
		"a negative number":  {[]string{"content.xml", rows(`<table:table-row table:number-rows-repeated="-1"/>`)}, sheet.ReasonDamaged},
		"a number of spaces": {[]string{"content.xml", rows(`<table:table-row><table:table-cell office:value-type="string"><text:p><text:s text:c="99999999"/></text:p></table:table-cell></table:table-row>`)}, sheet.ReasonDamaged},
		"half a sheet":       {[]string{"content.xml", rows(`<table:table-row>` + one)[:700]}, sheet.ReasonDamaged},
		"no sheet":           {[]string{"content.xml", content("", "")}, sheet.ReasonDamaged},
		"no content":         {[]string{"other.xml", "<x/>"}, sheet.ReasonUnsupported},
		"a password":         {[]string{"content.xml", "x", "META-INF/manifest.xml", "<manifest:encryption-data/>"}, sheet.ReasonEncrypted},
	} {
		_, err := read(t, test.members...)
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != test.want || refusal.Next == "" {
			t.Errorf("%s: %v, want %v", name, err, test.want)
		}
	}
	data := ziptest.Pack(t, "mimetype", "application/vnd.oasis.opendocument.text", "content.xml", rows(""))
	_, err := opendocument.Read("letter.odt", bytes.NewReader(data), int64(len(data)))
	var refusal *sheet.FileError
	if !errors.As(err, &refusal) || refusal.Reason != sheet.ReasonUnsupported {
		t.Errorf("%v", err)
	}
}

func FuzzContent(f *testing.F) {
	f.Add(rows(`<table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="time" office:time-value="-PT1H2,5S" table:formula="of:=[.A1:.B2]"><text:p>a <text:s/></text:p></table:table-cell></table:table-row>`))
	f.Add(content(`<number:number-style style:name="N"><number:number number:decimal-places="3" number:grouping="true"/></number:number-style>`, `<table:table table:name="S"/>`))
	f.Fuzz(func(t *testing.T, part string) {
		if _, err := read(t, "content.xml", part); err != nil {
			var refusal *sheet.FileError
			if !errors.As(err, &refusal) {
				t.Fatalf("%T: %v", err, err)
			}
		}
	})
}
