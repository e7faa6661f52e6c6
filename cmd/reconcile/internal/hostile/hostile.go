// Package hostile makes files that no supplier sends by mistake: bombs that unfold, tables without end, names that a reader waits for for
// ever. They are made and not kept, since some are gigabytes long. Each comes with what the command has to answer; every one of them has to
// end within [MostSeconds] and [MostMemory], which the program score measures.
package hostile

import (
	"archive/zip"
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// What a run on any file may take.
const (
	MostSeconds = 10
	MostMemory  = 1 << 30
)

// Case is one input and the answer to it.
type Case struct {
	Name string
	// Make writes the input into a folder and returns the arguments of the command.
	Make func(dir string) (args []string, err error)
	// In is standard input, nil for none.
	In io.Reader
	// Status is the exit status, and Says what standard error has to contain; empty where the file is taken.
	Status int
	Says   string
	// Slow marks what takes seconds to make or to read, which the tests leave to score.
	Slow bool
}

const heading = "Part No,Hosel OD,Unit,Bore\n"

// stories writes a list of ferrules in each row of which a text stands that is like no other.
func stories(w io.Writer, rows int, text string) {
	io.WriteString(w, "Part No,Tip,Base OD (mm),Top OD (mm),Bore (mm),Length (mm),Price EUR,Remarks\n")
	for i := range rows {
		fmt.Fprintf(w, "K%06d,.370,13.5,10.5,9.3,25,1.50,\"batch %d: %sseen by %d\"\n", i, i, text, i%977)
	}
}

// Cases returns all cases that can be made on every system.
func Cases() []Case {
	cases := []Case{
		// Tables too wide, too long or too full.
		{Name: "ods-wide", Status: 1, Says: "columns", Make: ods(odsRow(10, `<table:table-cell table:number-columns-repeated="16384" office:value-type="string"><text:p>Hosel OD</text:p></table:table-cell>`))},
		{Name: "csv-wide", Status: 1, Says: "columns", Make: csv(func(w io.Writer) { repeatRow(w, 10, 16_000, ".370") })},
		{Name: "csv-million-columns", Status: 1, Says: "columns", Make: csv(func(w io.Writer) { repeatRow(w, 1, 1_000_000, "OD") })},
		{Name: "csv-five-million-cells", Slow: true, Status: 1, Says: "limit", Make: csv(func(w io.Writer) {
			for i := range 500_000 {
				repeatRow(w, 1, 9, fmt.Sprint(i))
			}
		})},
		{Name: "csv-800000-rows", Slow: true, Status: 1, Says: "rows", Make: csv(func(w io.Writer) { goodRows(w, 800_000) })},
		{Name: "csv-blank-lines", Slow: true, Status: 1, Says: "rows", Make: csv(func(w io.Writer) {
			io.WriteString(w, heading)
			io.WriteString(w, strings.Repeat("\n", 60_000_000)+"A,1,mm,2\n")
		})},
		{Name: "ods-million-rows", Slow: true, Status: 1, Says: "rows", Make: ods(odsRow(1_000_000, `<table:table-cell office:value-type="float" office:value="13.6"><text:p>13.6</text:p></table:table-cell>`))},
		{Name: "xlsx-million-rows", Slow: true, Status: 1, Says: "rows", Make: xlsx("", func(w io.Writer) {
			for i := range 1_000_000 {
				fmt.Fprintf(w, `<row r="%d"><c r="A%d"><v>%d</v></c></row>`, i+1, i+1, i)
			}
		})},
		{Name: "xlsx-wide", Status: 1, Says: "columns", Make: xlsx("", func(w io.Writer) {
			for i := range 10 {
				fmt.Fprintf(w, `<row r="%d">%s</row>`, i+1, strings.Repeat(`<c><v>13.6</v></c>`, 16_384))
			}
		})},
		{Name: "xlsx-far-corner", Make: xlsx("", func(w io.Writer) { io.WriteString(w, `<row r="1048576"><c r="A1048576"><v>1</v></c></row>`) })},
		{Name: "xlsx-far-corners", Slow: true, Status: 1, Says: "rows", Make: manySheets(900, `<row r="1048576"><c r="A1048576"><v>1</v></c></row>`)},
		{Name: "xlsx-9000-sheets", Slow: true, Status: 1, Says: "sheets", Make: manySheets(9_000, `<row r="1"><c r="A1"><v>1</v></c></row>`)},
		// Texts too long.
		{Name: "ods-spaces", Status: 1, Says: "characters", Make: ods(odsRow(1, `<table:table-cell office:value-type="string"><text:p>`+strings.Repeat(`<text:s text:c="32767"/>`, 100_000)+`</text:p></table:table-cell>`))},
		{Name: "xlsx-one-text-8000-cells", Status: 1, Says: "text", Make: xlsx(strings.Repeat("hosel od ", 3_333), func(w io.Writer) {
			for i := range 8_000 {
				fmt.Fprintf(w, `<row r="%d"><c r="A%d" t="s"><v>0</v></c></row>`, i+1, i+1)
			}
		})},
		{Name: "csv-title", Status: 1, Says: "characters", Make: csv(func(w io.Writer) {
			io.WriteString(w, strings.Repeat("Price list ", 900_000)+"\n"+heading)
			goodRows(w, 10)
		})},
		{Name: "csv-long-heading", Status: 1, Says: "characters", Make: csv(func(w io.Writer) {
			io.WriteString(w, "Part No,"+strings.Repeat("Hosel OD ", 1_200_000)+",Unit,Bore\nA,13.6,mm,9.4\n")
		})},
		{Name: "csv-long-part", Status: 1, Says: "characters", Make: csv(func(w io.Writer) {
			io.WriteString(w, heading+strings.Repeat("A", 10_000_000)+",13.6,mm,9.4\n")
		})},
		{Name: "xlsx-merges", Slow: true, Make: archive("sheet.xlsx", merged(300_000)...)},
		{Name: "ods-hidden", Slow: true, Make: ods(odsRow(1, `<table:table-cell office:value-type="string"><text:p>x</text:p></table:table-cell>`) + strings.Repeat(`</table:table><table:table table:name="T"><table:table-column table:number-columns-repeated="16384" table:visibility="collapse"/><table:table-row table:visibility="collapse" table:number-rows-repeated="1048575"/>`, 900))},
		{Name: "csv-bytes", Slow: true, Status: 1, Says: "", Make: csv(func(w io.Writer) {
			for i := range 60 << 20 {
				w.Write([]byte{"\x81\x9f\xe0\xfc\x40\x8e,\n;"[(i*7+i/9+i*i/31)%9]})
			}
		})},
		{Name: "csv-long-texts", Slow: true, Make: csv(func(w io.Writer) {
			io.WriteString(w, heading)
			for i := range 2_000 {
				fmt.Fprintf(w, "%d %s,13.6,mm,9.4\n", i, strings.Repeat("hosel od ", 3_600))
			}
		})},
		{Name: "csv-stories", Slow: true, Make: csv(func(w io.Writer) { // in each row another, of words that name sizes
			stories(w, 60_000, "base plus nothing, tip minus 0.1, the bore not over 9.4 and the length in May another than in June, ")
		})},
		{Name: "csv-limits-each", Slow: true, Make: csv(func(w io.Writer) { stories(w, 100_000, "base plus 0, minus 0.1, ") })},
		{Name: "csv-described-heads", Slow: true, Make: csv(func(w io.Writer) { // parts described in words alone
			io.WriteString(w, "Part,Description\n")
			for i := range 100_000 {
				fmt.Fprintf(w, "IR-%d,\"cavity back iron, hosel measures 13.%02d mm outside, drilled 9.%d mm to a depth of %d mm for .370 parallel tips, lot %d\"\n", i, i*7%100, 40+i%21, 25+i%13, i)
			}
		})},
		{Name: "csv-described-ferrules", Slow: true, Make: csv(func(w io.Writer) { // with strokes and fractions that lists of sizes have
			io.WriteString(w, "Part,Description\n")
			for i := range 100_000 {
				fmt.Fprintf(w, "FX-%d,\"Ferrule %d rings black/silver lot %d, OD at the bottom 13.%02d +/- .05 mm, hole 9.%d mm max, length approx. 1 %d/32 in\"\n", i, 1+i%9, i, i*7%100, 20+i%16, 1+i*2%31)
			}
		})},
		{Name: "csv-stocks-as-prices", Slow: true, Make: csv(func(w io.Writer) {
			io.WriteString(w, "Part No,Tip,Base OD (mm),Bore (mm),Length (mm),Price EUR,Stock\n")
			for i := range 100_000 {
				fmt.Fprintf(w, "K%06d,.370,13.5,9.3,25,%d,%d\n", i, 20+i%7*30, 10+i*i%400)
			}
		})},
		{Name: "csv-sets-by-a-note", Slow: true, Make: csv(func(w io.Writer) {
			io.WriteString(w, "Prices are per set\nPart No,Model,Club,Hosel OD (mm),Bore (mm),Price EUR\n")
			for i := range 100_000 {
				fmt.Fprintf(w, "H%06d,Model %d,%d,13.5,9.5,%d\n", i, i, 4+i%6, 20+i%21)
			}
		})},
		{Name: "csv-1500-tables", Slow: true, Make: csv(func(w io.Writer) {
			for i := range 1_500 {
				unit, sizes := "mm", "13.5,9.3,25"
				if i%2 > 0 {
					unit, sizes = "inches", ".530,.366,1"
				}
				fmt.Fprintf(w, "Table %d in %s,,,,\nPart No,Tip,Base OD %d,Bore,Length\n", i, unit, i)
				for j := range 10 {
					fmt.Fprintf(w, "K%04d%d,.370,%s\n", i, j, sizes)
				}
				io.WriteString(w, ",,,,\n")
			}
		})},
		{Name: "csv-20000-lines-below", Slow: true, Make: csv(func(w io.Writer) {
			io.WriteString(w, "Part No,Hosel OD (mm),Bore (mm),Price EUR\n")
			for i := range 80_000 {
				fmt.Fprintf(w, "K%06d,13.%d,9.5,20\n", i, i%9)
			}
			for i := range 20_000 {
				fmt.Fprintf(w, "K%06d now has a hosel of 13.6,,,\n", i)
			}
		})},
		{Name: "csv-quotes", Make: csv(func(w io.Writer) { io.WriteString(w, heading+strings.Repeat("\"", 2_000_001)+"\n") }), Status: 1, Says: "characters"},
		{Name: "xlsx-deep", Status: 1, Says: "deep", Make: xlsx("", func(w io.Writer) { io.WriteString(w, strings.Repeat("<a>", 2_000_000)) })},
		{Name: "txt-aligned-60-MB", Slow: true, Status: 1, Says: "rows", Make: read(text("sheet.txt", func(w io.Writer) {
			for i := range 1_500_000 {
				fmt.Fprintf(w, "K%-9d  %d.%02d     9.4\n", i, 12+i%3, i%100)
			}
		}))},
		{Name: "txt-ragged-gaps", Slow: true, Make: read(text("sheet.txt", func(w io.Writer) {
			for i := range 190_000 {
				fmt.Fprintf(w, "%sK%d%s%d.%02d\n", strings.Repeat(" ", i*7%400), i, strings.Repeat(" ", 2+i*31%100), 12+i%3, i%100)
				if i%3 == 0 {
					io.WriteString(w, "\n")
				}
			}
		}))},
		// Names with values.
		{Name: "json-million-values", Slow: true, Status: 1, Says: "cells", Make: read(text("parts.json", func(w io.Writer) {
			io.WriteString(w, "["+strings.Repeat(`{"a":1,"b":2},`, 4_000_000)+"0]")
		}))},
		{Name: "json-brackets", Slow: true, Status: 1, Says: "cells", Make: read(text("parts.json", func(w io.Writer) { io.WriteString(w, strings.Repeat("[", 60_000_000)) }))},
		{Name: "json-190000-parts", Slow: true, Make: read(text("parts.json", func(w io.Writer) {
			io.WriteString(w, "[")
			for i := range 190_000 {
				fmt.Fprintf(w, `{"part": "K%d", "hosel od": 13.%d, "unit": "mm", "bore": 9.4},`+"\n", i, i%10)
			}
			io.WriteString(w, "{}]")
		}))},
		{Name: "json-a-column-each", Slow: true, Make: read(text("parts.json", func(w io.Writer) {
			io.WriteString(w, "[")
			for i := range 100_000 {
				fmt.Fprintf(w, `{"a%d": 1, "b%d": 2},`, i, i)
			}
			io.WriteString(w, "{}]")
		}))},
		{Name: "xml-190000-parts", Slow: true, Make: read(text("parts.xml", func(w io.Writer) {
			io.WriteString(w, "<list>")
			for i := range 190_000 {
				fmt.Fprintf(w, `<head part="K%d"><hosel od="13.%d"/><unit>mm</unit><!-- x --><bore>9.4</bore></head>`, i, i%10)
			}
			io.WriteString(w, "</list>")
		}))},
		{Name: "ini-lines", Slow: true, Status: 1, Says: "rows", Make: read(text("parts.ini", func(w io.Writer) {
			for i := range 1_000_000 {
				fmt.Fprintf(w, "[K%d]\nhosel od = 13.6 mm\nbore%d = 9.4\n", i, i)
			}
		}))},
		{Name: "txt-drawn", Slow: true, Status: 1, Says: "columns", Make: read(text("sheet.txt", func(w io.Writer) {
			for range 200 {
				io.WriteString(w, strings.Repeat("| 13.6 ", 16_000)+"|\n"+strings.Repeat("+------", 16_000)+"+\n")
			}
		}))},
		// Archives that unfold.
		{Name: "zip-33-members", Slow: true, Status: 1, Says: "unfolds", Make: members(33, 31<<20)},
		{Name: "zip-one-member", Slow: true, Status: 1, Says: "unfolds", Make: members(1, 600<<20)},
		{Name: "zip-overlap", Status: 1, Says: "overlap", Make: overlapping},
		// What is not a sheet.
		{Name: "sparse-20-GB", Status: 1, Says: "--limit file", Make: sparse("sheet.csv", 20<<30)},
		{Name: "sparse-shop", Status: 1, Says: "--limit settings", Make: with(sparse("shop.toml", 20<<30), "--shop")},
		{Name: "sparse-map", Status: 1, Says: "--limit settings", Make: with(sparse("map.toml", 20<<30), "--map")},
		{Name: "sparse-words", Status: 1, Says: "--limit settings", Make: chart(sparse("words.toml", 20<<30), "--words")},
		{Name: "shop-300000-keys", Status: 1, Says: "--limit settings", Make: with(text("shop.toml", keys(300_000)), "--shop")},
		{Name: "shop-33000-keys", Slow: true, Status: 1, Says: "there is no such setting", Make: with(text("shop.toml", keys(33_000)), "--shop")},
		{Name: "map-100000-tables", Status: 1, Says: "--limit settings", Make: with(text("map.toml", tables(100_000)), "--map")},
		{Name: "map-8000-tables", Slow: true, Make: with(text("map.toml", tables(8_000)), "--map")},
		{Name: "map-33000-keys", Status: 1, Says: "there is no such key", Make: with(text("map.toml", keys(33_000)), "--map")},
		{Name: "folder", Status: 1, Says: "is a folder", Make: func(dir string) ([]string, error) { return []string{"read", dir}, nil }},
		// What is large and still has to be taken.
		{Name: "good-200000-rows", Slow: true, Make: csv(func(w io.Writer) { goodRows(w, 199_999) })},
		{Name: "good-1000-columns", Slow: true, Make: csv(func(w io.Writer) { wideRows(w, 1_000, 100) })},
		{Name: "full-1000-columns", Slow: true, Make: csv(func(w io.Writer) { repeatRow(w, 2_000, 999, "13.6") })},
	}
	return slices.Concat(cases, pages(), archives(), marked(), oldBooks())
}

func keys(n int) func(io.Writer) {
	return func(w io.Writer) {
		for i := range n {
			fmt.Fprintf(w, "k%d = 1\n", i)
		}
	}
}

func tables(n int) func(io.Writer) {
	return func(w io.Writer) {
		for i := range n {
			fmt.Fprintf(w, "[sheets.\"irons.xlsx, sheet %d\"]\nkind = \"heads\"\n", i)
		}
	}
}

// goodRows writes rows of heads that can be read.
func goodRows(w io.Writer, n int) {
	io.WriteString(w, heading)
	for i := range n {
		fmt.Fprintf(w, "HX-%d,%d.%02d,mm,9.4\n", i, 12+i%3, i%100)
	}
}

func repeatRow(w io.Writer, rows, columns int, cell string) {
	line := strings.Repeat(cell+",", columns) + cell + "\n"
	for range rows {
		io.WriteString(w, line)
	}
}

func wideRows(w io.Writer, columns, rows int) {
	for row := range rows + 1 {
		for col := range columns {
			switch {
			case row == 0:
				fmt.Fprintf(w, "Hosel OD %d mm", col)
			default:
				fmt.Fprintf(w, "%d.%d", 12+(row+col)%3, col)
			}
			io.WriteString(w, string(",\n"[min(1, (col+1)/columns)]))
		}
	}
}

// text makes a file and returns its path as the only argument.
func text(name string, write func(io.Writer)) func(string) ([]string, error) {
	return func(dir string) ([]string, error) {
		path := filepath.Join(dir, name)
		file, err := os.Create(path)
		if err != nil {
			return nil, err
		}
		out := bufio.NewWriter(file)
		write(out)
		if err := out.Flush(); err != nil {
			return nil, err
		}
		return []string{path}, file.Close()
	}
}

func read(of func(string) ([]string, error)) func(string) ([]string, error) {
	return func(dir string) ([]string, error) {
		args, err := of(dir)
		return append([]string{"read"}, args...), err
	}
}

func csv(write func(io.Writer)) func(string) ([]string, error) {
	return read(text("sheet.csv", write))
}

// with gives the file to an option of read, beside a good sheet.
func with(of func(string) ([]string, error), option string) func(string) ([]string, error) {
	return func(dir string) ([]string, error) {
		args, err := of(dir)
		if err != nil {
			return nil, err
		}
		good, err := text("good.csv", func(w io.Writer) { goodRows(w, 3) })(dir)
		return append([]string{"read", good[0], option}, args...), err
	}
}

// chart gives the file to an option of chart.
func chart(of func(string) ([]string, error), option string) func(string) ([]string, error) {
	return func(dir string) ([]string, error) {
		args, err := with(of, option)(dir)
		if err != nil {
			return nil, err
		}
		good := args[1]
		trim, err := text("trim.csv", says("Ferrule,Ferrule bore,Base OD,Unit,Ferrule length\nT-1,9.3,13.6,mm,25\nT-2,9.3,13.8,mm,25\n"))(dir)
		if err != nil {
			return nil, err
		}
		return append([]string{"chart", "--heads", good, "--ferrules", trim[0], "--out", filepath.Join(dir, "chart.html")}, args[2:]...), nil
	}
}

func sparse(name string, size int64) func(string) ([]string, error) {
	return func(dir string) ([]string, error) {
		path := filepath.Join(dir, name)
		file, err := os.Create(path)
		if err != nil {
			return nil, err
		}
		if err := file.Truncate(size); err != nil {
			return nil, err
		}
		args := []string{path}
		if strings.HasSuffix(name, ".csv") {
			args = []string{"read", path}
		}
		return args, file.Close()
	}
}

type member struct {
	name  string
	write func(io.Writer)
}

func archive(name string, members ...member) func(string) ([]string, error) {
	return read(text(name, func(w io.Writer) {
		pack(w, members)
	}))
}

func says(text string) func(io.Writer) {
	return func(w io.Writer) { io.WriteString(w, text) }
}

func odsRow(times int, cells string) string {
	return fmt.Sprintf(`<table:table-row table:number-rows-repeated="%d">%s</table:table-row>`, times, cells)
}

func ods(rows string) func(string) ([]string, error) {
	const head = `<?xml version="1.0"?><office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" ` +
		`xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">` +
		`<office:body><office:spreadsheet><table:table table:name="S">`
	const tail = `</table:table></office:spreadsheet></office:body></office:document-content>`
	return archive("sheet.ods", member{"mimetype", says("application/vnd.oasis.opendocument.spreadsheet")}, member{"content.xml", says(head + rows + tail)})
}

const (
	mainSpace = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
)

// xlsx makes a workbook of one sheet, with one shared text.
func xlsx(shared string, rows func(io.Writer)) func(string) ([]string, error) {
	return archive("sheet.xlsx", workbookOf(1, shared, rows)...)
}

func manySheets(n int, row string) func(string) ([]string, error) {
	return archive("sheet.xlsx", workbookOf(n, "", says(row))...)
}

func workbookOf(sheets int, shared string, rows func(io.Writer)) []member {
	var list, links strings.Builder
	fmt.Fprintf(&links, `<Relationship Id="s" Type="%s/sharedStrings" Target="sharedStrings.xml"/>`, relations)
	members := []member{
		{"[Content_Types].xml", says(`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`)},
		{"_rels/.rels", says(`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r" Type="` + relations + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`)},
		{"xl/sharedStrings.xml", says(`<sst ` + mainSpace + `><si><t>` + shared + `</t></si></sst>`)},
	}
	for i := range sheets {
		fmt.Fprintf(&list, `<sheet name="S%d" sheetId="%d" r:id="r%d"/>`, i+1, i+1, i+1)
		fmt.Fprintf(&links, `<Relationship Id="r%d" Type="%s/worksheet" Target="sheet%d.xml"/>`, i+1, relations, i+1)
		members = append(members, member{fmt.Sprintf("xl/sheet%d.xml", i+1), func(w io.Writer) {
			io.WriteString(w, `<worksheet `+mainSpace+`><sheetData>`)
			rows(w)
			io.WriteString(w, `</sheetData></worksheet>`)
		}})
	}
	return append(members,
		member{"xl/workbook.xml", says(`<workbook ` + mainSpace + ` xmlns:r="` + relations + `"><sheets>` + list.String() + `</sheets></workbook>`)},
		member{"xl/_rels/workbook.xml.rels", says(`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` + links.String() + `</Relationships>`)})
}

// merged makes a workbook with so many merged ranges.
func merged(n int) []member {
	all := workbookOf(1, "", nil)
	for i := range all {
		if all[i].name == "xl/sheet1.xml" {
			all[i].write = func(w io.Writer) {
				io.WriteString(w, `<worksheet `+mainSpace+`><sheetData>`)
				for row := range 2_000 {
					fmt.Fprintf(w, `<row r="%d"><c t="inlineStr"><is><t>Hosel OD</t></is></c><c><v>13.6</v></c></row>`, row+1)
				}
				io.WriteString(w, `</sheetData><mergeCells>`)
				for row := range n {
					fmt.Fprintf(w, `<mergeCell ref="A%d:B%d"/>`, row+1, row+1)
				}
				io.WriteString(w, `</mergeCells></worksheet>`)
			}
		}
	}
	return all
}

// members makes an archive whose members unfold to a size each.
func members(n, size int) func(string) ([]string, error) {
	all := []member{{"[Content_Types].xml", says("<Types/>")}}
	for i := range n {
		all = append(all, member{fmt.Sprintf("xl/part%d.xml", i), func(w io.Writer) {
			block := []byte(strings.Repeat("<a>hosel</a>    ", 4096))
			for left := size; left > 0; left -= len(block) {
				w.Write(block)
			}
		}})
	}
	return archive("sheet.xlsx", all...)
}

// overlapping makes an archive of 500 members whose entries in its table of contents all name the same place.
func overlapping(dir string) ([]string, error) {
	var whole bytes.Buffer
	out := zip.NewWriter(&whole)
	in, err := out.Create("xl/workbook.xml")
	if err != nil {
		return nil, err
	}
	if _, err := io.WriteString(in, strings.Repeat("<a/>", 200_000)); err != nil {
		return nil, err
	}
	if err := out.Close(); err != nil {
		return nil, err
	}
	content := whole.Bytes()
	end := bytes.LastIndex(content, []byte("PK\x05\x06"))
	start := int(binary.LittleEndian.Uint32(content[end+16:]))
	entry := content[start:end]
	made := append([]byte(nil), content[:start]...)
	const times = 500
	for i := range times {
		if i > 0 {
			entry = bytes.Replace(entry, entry[len(entry)-len("workbook.xml"):], fmt.Appendf(nil, "part%04d.xml", i), 1)
		}
		made = append(made, entry...)
	}
	tail := append([]byte(nil), content[end:]...)
	binary.LittleEndian.PutUint16(tail[8:], times)
	binary.LittleEndian.PutUint16(tail[10:], times)
	binary.LittleEndian.PutUint32(tail[12:], uint32(times*len(entry)))
	return read(text("sheet.xlsx", func(w io.Writer) { w.Write(append(made, tail...)) }))(dir)
}
