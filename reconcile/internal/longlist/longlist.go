// Package longlist makes long lists of heads and ferrules such as suppliers send, for tests and benchmarks: fourteen columns, sizes in
// both units, as numbers and as texts, tolerances in a column of their own. All numbers are made up. A row depends on its number alone,
// so that a shorter list is the beginning of a longer one, and the same list has the same bytes every time.
package longlist

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
)

// List is a list with its headings. A cell is a string or a number (int or float64).
type List struct {
	Name string
	Rows [][]any
}

// Heads makes a list of n heads, nearly each of a geometry of its own.
func Heads(n int) List {
	return list("Heads", n, []any{"Part No", "Description", "Series", "Category", "Hand", "Loft", "Hosel OD", "OD Unit", "Bore (in)", "Bore Depth (mm)",
		"Hosel Top", "OD Tol", "Price USD", "Stock"}, func(i int) []any { return head(i, i) })
}

// Sets makes a list of n heads in sets of seven that share their geometry, as irons do.
func Sets(n int) List {
	l := Heads(0)
	for i := range n {
		row := head(i, i/7)
		row[0] = fmt.Sprintf("H-%06d-%d", 100000+i/7, 4+i%7)
		l.Rows = append(l.Rows, row)
	}
	return l
}

// Ferrules makes a list of n ferrules.
func Ferrules(n int) List {
	return list("Ferrules", n, []any{"Part No", "Description", "Category", "Colour", "Material", "Unit", "Bore ID", "Base OD", "Top OD (in)", "Length (in)",
		"Base Form", "Tol", "Price USD", "Stock"}, ferrule)
}

func list(name string, n int, headings []any, row func(int) []any) List {
	l := List{Name: name, Rows: make([][]any, 0, n+1)}
	l.Rows = append(l.Rows, headings)
	for i := range n {
		l.Rows = append(l.Rows, row(i))
	}
	return l
}

// source is the chance that a row is made of.
type source struct{ *rand.Rand }

func sourceOf(list, row int) source { return source{rand.New(rand.NewPCG(uint64(list), uint64(row)))} }

// pick returns one of several.
func pick[T any](s source, from ...T) T { return from[s.IntN(len(from))] }

// bore is the bore of a head or ferrule in ten-thousandths of an inch, and as it is written.
type bore struct {
	size int
	text string
}

var bores = []bore{{3350, ".335"}, {3500, ".350"}, {3550, ".355 taper"}, {3700, "0.370"}, {3700, ".370 parallel"}}

// head makes a head that has the geometry of a number.
func head(i, geometry int) []any {
	s := sourceOf(1, geometry)
	isIron := s.Float64() < 0.7
	od, taken := 4700+5*s.IntN(160), pick(s, bores[:3]...)
	category := pick(s, "Driver", "Fairway", "Hybrid")
	if isIron {
		od, taken, category = 4900+5*s.IntN(160), pick(s, bores[2:]...), "Iron"
	}
	size, unit := written(s, od)
	depth := float64(280+s.IntN(140)) / 10
	top, tolerance := pick(s, "flat", "chamfered", "radiused", "Flat", "recessed"), tolerance(s, 10, 20, 20, 30)
	own := sourceOf(2, i)
	series := own.IntN(40)
	return []any{
		fmt.Sprintf("H-%06d", 100000+i), fmt.Sprintf("%s head series %d %d deg, %s", category, series, 18+i%40, taken.text), fmt.Sprintf("Series %02d", series), category,
		pick(own, "RH", "RH", "RH", "RH", "RH", "RH", "RH", "LH"), 8 + float64(own.IntN(112))/2, size, unit, taken.text, depth, top, tolerance,
		float64(800+own.IntN(8200)) / 100, own.IntN(500),
	}
}

func ferrule(i int) []any {
	s := sourceOf(3, i)
	fits := pick(s, bores...)
	inner := fits.size - 60 + 5*s.IntN(21)
	outer, unit := written(s, 4800+10*s.IntN(120))
	var id any = float64(inner) / 10000
	if unit == "mm" {
		id = hundredths(inner)
	}
	form, length := pick(s, "flat", "chamfer", "universal", "radius", "Flat"), pick(s, 0.5, 0.625, 0.75, 0.875, 1, 1.25)
	return []any{
		fmt.Sprintf("F-%05d", 10000+i), fmt.Sprintf("Ferrule .%03d %g in, %s", fits.size/10, length, form), pick(s, "Iron", "Wood", "Hybrid"),
		pick(s, "Black", "White", "Black/Red", "Black/Silver", "Blue"), pick(s, "CAB", "Acetate", "ABS"), unit, id, outer, float64(fits.size+300) / 10000, length, form,
		tolerance(s, 10, 20, 30), float64(30+s.IntN(370)) / 100, s.IntN(5000),
	}
}

// hundredths is a size in ten-thousandths of an inch in mm, rounded to a hundredth.
func hundredths(size int) float64 { return float64((size*254+500)/1000) / 100 }

// written writes a size given in ten-thousandths of an inch: a number in mm or inches, or a text with its unit.
func written(s source, size int) (cell any, unit string) {
	switch k := s.Float64(); {
	case k < 0.40:
		return hundredths(size), "mm"
	case k < 0.70:
		return float64(size) / 10000, "in"
	case k < 0.85:
		return fmt.Sprintf(`%g"`, float64(size)/10000), "in"
	case k < 0.95:
		return fmt.Sprintf("%.2f mm", hundredths(size)), "mm"
	}
	return fmt.Sprintf(".%04d in", size), "in"
}

// tolerance writes one of several tolerances given in ten-thousandths of an inch.
func tolerance(s source, from ...int) string {
	size := pick(s, from...)
	switch k := s.Float64(); {
	case k < 0.5:
		return fmt.Sprintf("±%.4f in", float64(size)/10000)
	case k < 0.8:
		return fmt.Sprintf("±%.3f mm", float64(size)*0.00254)
	}
	return fmt.Sprintf(`+/- .%04d"`, size)
}

// text is a cell as a text file has it.
func text(cell any) string {
	switch cell := cell.(type) {
	case float64:
		return strconv.FormatFloat(cell, 'f', -1, 64)
	case int:
		return strconv.Itoa(cell)
	}
	return fmt.Sprint(cell)
}

// CSV returns the list as a text file with commas.
func (l List) CSV() ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	for _, row := range l.Rows {
		record := make([]string, len(row))
		for i, cell := range row {
			record[i] = text(cell)
		}
		if err := w.Write(record); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

const (
	declaration = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`
	spaceMain   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	spaceOffice = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packaged    = "http://schemas.openxmlformats.org/package/2006/"
	kinds       = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

// Workbook returns the list as an xlsx workbook of one sheet, its texts in the table that all cells share, as spreadsheet programs
// write them (ECMA-376, part 1, 18.4.9).
func (l List) Workbook() ([]byte, error) {
	var body, shared strings.Builder
	index := map[string]int{}
	for i, row := range l.Rows {
		fmt.Fprintf(&body, `<row r="%d">`, i+1)
		for j, cell := range row {
			at := fmt.Sprintf("%c%d", 'A'+j, i+1)
			words, isText := cell.(string)
			if !isText {
				fmt.Fprintf(&body, `<c r="%s"><v>%s</v></c>`, at, text(cell))
				continue
			}
			known, found := index[words]
			if !found {
				known = len(index)
				index[words] = known
				shared.WriteString("<si><t>")
				if err := xml.EscapeText(&shared, []byte(words)); err != nil {
					return nil, err
				}
				shared.WriteString("</t></si>")
			}
			fmt.Fprintf(&body, `<c r="%s" t="s"><v>%d</v></c>`, at, known)
		}
		body.WriteString("</row>")
	}
	return pack([][2]string{
		{"[Content_Types].xml", `<Types xmlns="` + packaged + `content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="` + kinds + `sheet.main+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + kinds + `worksheet+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="` + kinds + `sharedStrings+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + packaged + `relationships"><Relationship Id="rId1" Type="` + spaceOffice + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + spaceMain + `" xmlns:r="` + spaceOffice + `"><sheets><sheet name="` + l.Name + `" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + packaged + `relationships"><Relationship Id="rId1" Type="` + spaceOffice + `/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rId2" Type="` + spaceOffice + `/sharedStrings" Target="sharedStrings.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", `<worksheet xmlns="` + spaceMain + `"><sheetData>` + body.String() + `</sheetData></worksheet>`},
		{"xl/sharedStrings.xml", fmt.Sprintf(`<sst xmlns="%s" uniqueCount="%d">%s</sst>`, spaceMain, len(index), shared.String())},
	})
}

// pack makes the archive of a workbook.
func pack(parts [][2]string) ([]byte, error) {
	var out bytes.Buffer
	archive := zip.NewWriter(&out)
	for _, part := range parts {
		w, err := archive.Create(part[0])
		if err != nil {
			return nil, err
		}
		if _, err := w.Write([]byte(declaration + part[1])); err != nil {
			return nil, err
		}
	}
	err := archive.Close()
	return out.Bytes(), err
}
