package hostile

import (
	"archive/zip"
	"bufio"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// pages are web pages: tables in tables, spans without end, elements that are never closed.
func pages() []Case {
	return []Case{
		{Name: "html-nested-tables", Status: 1, Says: "deep", Make: page(many{1_000_000, "<table><tr><td>"})},
		{Name: "html-tables-in-rows", Status: 1, Says: "deep", Make: page(many{1_000_000, "<table><tr>"}, many{1_000_000, "</table>"})},
		{Name: "html-colspan", Slow: true, Make: page(one("<table>"), many{3_000, "<tr>" + strings.Repeat("<td colspan=1000000000>", 500)}, one("<tr><td>13.6</table>"))},
		{Name: "html-rowspan", Slow: true, Make: page(one("<table><tr>"), many{1_000, "<td rowspan=1000000000>13.6"}, many{900_000, "<tr>"}, one("</table>"))},
		{Name: "html-spans", Slow: true, Status: 1, Says: "limit", Make: page(one("<table>"), many{9_000, "<tr>" + strings.Repeat("<td rowspan=5 colspan=5>13.6", 150)}, one("</table>"))},
		{Name: "html-rows", Slow: true, Status: 1, Says: "rows", Make: page(one("<table>"), many{1_200_000, "<tr><td>1"}, one("</table>"))},
		{Name: "html-blank-rows", Slow: true, Status: 1, Says: "rows", Make: page(one("<table>"), many{15_000_000, "<tr>"}, one("</table>"))},
		{Name: "html-sections", Slow: true, Make: page(one("<table><tr><td rowspan=9>1<td>2"), many{8_000_000, "<tbody>"}, one("</table>"))},
		{Name: "html-cell", Status: 1, Says: "characters", Make: page(one("<table><tr><td>"), many{1_000_000, "hosel od "}, one("</table>"))},
		{Name: "html-script", Status: 1, Says: "without a table", Make: page(one("<script>"), many{1_000_000, "'<table><tr><td>1</table>'+"}, one("</script>"))},
		{Name: "html-comment", Status: 1, Says: "without a table", Make: page(one("<!--"), many{5_000_000, "<table>"})},
		{Name: "html-attributes", Slow: true, Make: page(one("<table><tr><td"), many{1_000_000, " a=1 style='display:none'"}, one(">x<td>13.6</table>"))},
		{Name: "html-style", Slow: true, Make: page(one("<table><tr><td style='"), many{3_000_000, "color:red;"}, one("'>13.6</table>"))},
		{Name: "html-marks", Slow: true, Make: page(one("<table><tr><td>"), many{1_000_000, "<s><sup>"}, one("13.6"), many{1_000_000, "</b></sup>"}, one("</table>"))},
		{Name: "html-runs", Status: 1, Says: "characters", Make: page(one("<table><tr><td>"), many{1_000_000, "<sup>1</sup>1"}, one("</table>"))},
		{Name: "html-captions", Status: 1, Says: "sheets", Make: page(many{30_000, "<table><caption>Heads</caption><tr><td>13.6</table>"})},
		{Name: "html-lines", Slow: true, Make: page(many{1_000_000, "<p>Hosel OD 13.6 mm"}, one("<table><tr><td>13.6</table>"), many{1_000_000, "<p>Hosel OD 13.6 mm"})},
	}
}

// many is a text that stands so many times.
type many struct {
	times int
	text  string
}

func one(text string) many { return many{1, text} }

func page(pieces ...many) func(string) ([]string, error) {
	return read(text("sheet.xls", func(w io.Writer) {
		io.WriteString(w, "<html>")
		for _, piece := range pieces {
			piece.write(w)
		}
		io.WriteString(w, "</html>")
	}))
}

func (m many) write(w io.Writer) {
	for range m.times {
		io.WriteString(w, m.text)
	}
}

// archives are zip archives of sheets, and what goes beyond what their members say.
func archives() []Case {
	inner := packed(member{"irons.csv", says(heading)})
	for range 50 {
		inner = packed(member{"irons.zip", says(inner)})
	}
	return []Case{
		{Name: "zip-million-members", Slow: true, Status: 1, Says: "too many", Make: listed("sheets.zip", 1_000_000)},
		{Name: "xlsx-million-members", Slow: true, Status: 1, Says: "members", Make: listed("sheet.xlsx", 1_000_000, "[Content_Types].xml", "xl/workbook.xml")},
		{Name: "zip-of-zips", Status: 1, Says: "archive within", Make: read(text("sheets.zip", says(inner)))},
		{Name: "zip-of-zips-as-csv", Status: 1, Says: "archive within", Make: archive("sheets.zip", member{"irons.csv", says(inner)})},
		{Name: "zip-escape", Status: 1, Says: "leads out", Make: archive("sheets.zip", member{"../../irons.csv", says(heading)})},
		{Name: "zip-sheets-unfold", Slow: true, Status: 1, Says: "unfolds", Make: archive("sheets.zip", times(900, func(i int) member {
			return member{fmt.Sprintf("%d.csv", i), many{1 << 20, "13.6,"}.write}
		})...)},
		{Name: "zip-900-sheets", Slow: true, Make: archive("sheets.zip", times(900, func(i int) member {
			return member{fmt.Sprintf("%d.csv", i), func(w io.Writer) { goodRows(w, 20) }}
		})...)},
		{Name: "stdin-endless", Status: 1, Says: "--limit file", In: endless{}, Slow: true, Make: func(string) ([]string, error) { return []string{"read", "-"}, nil }},
	}
}

// endless is a stream that never ends.
type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }

func times(n int, make func(i int) member) []member {
	var all []member
	for i := range n {
		all = append(all, make(i))
	}
	return all
}

// packed is an archive as a text.
func packed(members ...member) string {
	var whole bytes.Buffer
	pack(&whole, members)
	return whole.String()
}

func pack(w io.Writer, members []member) {
	out := zip.NewWriter(w)
	for _, m := range members {
		in, err := out.Create(m.name)
		if err != nil {
			return
		}
		buffered := bufio.NewWriterSize(in, 1<<16)
		m.write(buffered)
		buffered.Flush()
	}
	out.Close()
}

// listed makes an archive of very many empty members, behind some with names.
func listed(name string, n int, first ...string) func(string) ([]string, error) {
	return read(text(name, func(w io.Writer) {
		out := zip.NewWriter(w)
		for i := range n {
			member := fmt.Sprintf("%d.csv", i)
			if i < len(first) {
				member = first[i]
			}
			if _, err := out.CreateRaw(&zip.FileHeader{Name: member}); err != nil {
				return
			}
		}
		out.Close()
	}))
}

// marked are workbooks whose texts have very many runs, comments, struck-out cells and merged ranges.
func marked() []Case {
	runs := texts(many{170_000, `<r><rPr><vertAlign val="superscript"/></rPr><t>1</t></r><r><rPr><strike/></rPr><t>2</t></r>`})
	struckOut := texts(one(`<r><rPr><strike/></rPr><t>13.6</t></r>`))
	comments := func(n int, text many) []member {
		return commented(func(w io.Writer) {
			for i := range n {
				fmt.Fprintf(w, `<comment ref="A%d"><text><t>`, i+1)
				text.write(w)
				io.WriteString(w, `</t></text></comment>`)
			}
		})
	}
	cell := func(text string) func(io.Writer) {
		return says(`<row r="1"><c r="A1" t="s"><v>` + text + `</v></c></row>`)
	}
	return []Case{
		{Name: "xlsx-runs", Slow: true, Status: 1, Says: "characters", Make: archive("sheet.xlsx", workbookWith(runs, cell("1"))...)},
		{Name: "xlsx-runs-unused", Slow: true, Make: archive("sheet.xlsx", workbookWith(runs, cell("0"))...)},
		{Name: "xlsx-long-comment", Status: 1, Says: "comment has too many", Make: archive("sheet.xlsx", comments(1, many{1_000_000, "new size 13.7 "})...)},
		{Name: "xlsx-many-comments", Slow: true, Make: archive("sheet.xlsx", comments(400_000, one("new size 13.7 mm"))...)},
		{Name: "xlsx-comments-of-a-cell", Slow: true, Status: 1, Says: "characters", Make: archive("sheet.xlsx", commented(many{500_000, `<comment ref="A1"><text><t>13.7</t></text></comment>`}.write)...)},
		{Name: "xlsx-numbers-in-comments", Slow: true, Make: archive("sheet.xlsx", comments(1_000, many{6_000, "1.1 "})...)},
		{Name: "xlsx-struck", Slow: true, Make: archive("sheet.xlsx", workbookWith(struckOut, func(w io.Writer) {
			for row := range 120_000 {
				fmt.Fprintf(w, `<row r="%d">%s</row>`, row+1, strings.Repeat(`<c t="s"><v>1</v></c>`, 10))
			}
		})...)},
		{Name: "xlsx-merge-area", Slow: true, Status: 1, Says: "merged", Make: archive("sheet.xlsx", mergedAs(190_000, 900, "A1:ZZ190000")...)},
		{Name: "xlsx-merges-overlap", Slow: true, Status: 1, Says: "merged", Make: archive("sheet.xlsx", mergedAs(5_000, 100, slices.Repeat([]string{"A1:Z5000"}, 20_000)...)...)},
		{Name: "ods-long-comment", Status: 1, Says: "characters", Make: odsOf(one(`<table:table-row><table:table-cell office:value-type="float" office:value="1"><office:annotation><text:p>`),
			many{1_000_000, "new size 13.7 "}, one(`</text:p></office:annotation></table:table-cell></table:table-row>`))},
		{Name: "ods-spans", Status: 1, Says: "deep", Make: odsOf(one(`<table:table-row><table:table-cell office:value-type="string"><text:p>`), many{500_000, `<text:span text:style-name="x">1`})},
	}
}

// odsOf makes a spreadsheet of rows in pieces.
func odsOf(pieces ...many) func(string) ([]string, error) {
	return func(dir string) ([]string, error) {
		var rows strings.Builder
		for _, piece := range pieces {
			piece.write(&rows)
		}
		return ods(rows.String())(dir)
	}
}

// texts are shared strings: an empty one, and one of runs.
func texts(runs many) func(io.Writer) {
	return func(w io.Writer) {
		io.WriteString(w, `<sst `+mainSpace+`><si><t></t></si><si>`)
		runs.write(w)
		io.WriteString(w, `</si></sst>`)
	}
}

// workbookWith makes a workbook of one sheet with these shared strings.
func workbookWith(texts, rows func(io.Writer)) []member {
	all := workbookOf(1, "", rows)
	for i := range all {
		if all[i].name == "xl/sharedStrings.xml" {
			all[i].write = texts
		}
	}
	return all
}

// commented makes a workbook of a small list whose cells have comments.
func commented(comments func(io.Writer)) []member {
	all := workbookOf(1, "", func(w io.Writer) {
		io.WriteString(w, `<row r="1"><c t="inlineStr"><is><t>Hosel OD mm</t></is></c><c t="inlineStr"><is><t>Part No</t></is></c></row>`)
		for i := range 2_000 {
			fmt.Fprintf(w, `<row r="%d"><c><v>13.6</v></c><c t="inlineStr"><is><t>HX-%d</t></is></c></row>`, i+2, i)
		}
	})
	return append(all,
		member{"xl/_rels/sheet1.xml.rels", says(`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="c" Type="` + relations + `/comments" Target="comments1.xml"/></Relationships>`)},
		member{"xl/comments1.xml", func(w io.Writer) {
			io.WriteString(w, `<comments `+mainSpace+`><commentList>`)
			comments(w)
			io.WriteString(w, `</commentList></comments>`)
		}})
}

// mergedAs makes a workbook of rows of one cell, but for a first one of many, with merged ranges.
func mergedAs(rows, columns int, ranges ...string) []member {
	all := workbookOf(1, "", nil)
	for i := range all {
		if all[i].name == "xl/sheet1.xml" {
			all[i].write = func(w io.Writer) {
				io.WriteString(w, `<worksheet `+mainSpace+`><sheetData><row r="1">`+strings.Repeat(`<c><v>13.6</v></c>`, columns)+`</row>`)
				for row := range rows {
					fmt.Fprintf(w, `<row r="%d"><c><v>13.6</v></c></row>`, row+2)
				}
				io.WriteString(w, `</sheetData><mergeCells>`)
				for _, area := range ranges {
					fmt.Fprintf(w, `<mergeCell ref="%s"/>`, area)
				}
				io.WriteString(w, `</mergeCells></worksheet>`)
			}
		}
	}
	return all
}
