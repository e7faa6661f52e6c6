package mapping_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

const everything = `
[categories]
"Bladework" = "iron"

[sheets."Heads"]
kind = "heads"
supplier = "Orrin"
ferrule_bores = "tip"
heading_rows = [3, 4]
unit = "mm"
tolerance = "±0.05 mm"

[sheets."Heads".columns.C]
heading = "Hosel"
role = "hosel_od"
unit = "in"
tolerance = "±.003 in"
radius = true

[sheets."Heads".columns.D]
role = "none"

[sheets."Heads".rows.17]
for = "KR-20"
hosel_od = "13.6 mm"

[sheets."Heads".rows.18]
set_aside = true
`

func TestParse(t *testing.T) {
	got, err := mapping.Parse([]byte(everything))
	if err != nil {
		t.Fatal(err)
	}
	want := catalog.Mapping{
		Categories: map[string]string{"Bladework": "iron"},
		Sheets: map[string]catalog.SheetRules{"Heads": {
			Kind: "heads", Supplier: "Orrin", FerruleBores: "tip", HeadingRows: []int{3, 4}, Unit: "mm", Tolerance: "±0.05 mm",
			Columns: map[string]catalog.ColumnRule{
				"C": {Heading: "Hosel", Role: "hosel_od", Unit: "in", Tolerance: "±.003 in", Radius: true},
				"D": {Role: "none"},
			},
			Rows: map[string]catalog.RowRule{
				"17": {For: "KR-20", Values: map[catalog.Role]string{catalog.HoselOD: "13.6 mm"}},
				"18": {SetAside: true, Values: map[catalog.Role]string{}},
			},
		}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestParseRefuses(t *testing.T) {
	for name, test := range map[string]struct{ text, key string }{
		"no TOML":       {"[sheets", ""},
		"unknown key":   {"[sheets.H]\nkinds = \"heads\"", "sheets.H.kinds"},
		"unknown table": {"[sheet.H]", "sheet"},
		"dotted":        {"sheets.H.kind = \"heads\"\nsheets.H.size = 1", "sheets.H.size"},
		"inline":        {"[sheets]\nH = {kind = \"heads\", columns = {C = {rolle = \"part\"}}}", "sheets.H.columns.C.rolle"},
		"unknown kind":  {"[sheets.H]\nkind = \"grips\"", `sheets."H".kind`},
		"unknown role":  {"[sheets.H]\nkind = \"heads\"\n[sheets.H.columns.C]\nrole = \"base_od\"", `sheets."H".columns.C.role`},
		"unknown unit":  {"[sheets.H.columns.C]\nunit = \"parsec\"", `sheets."H".columns.C.unit`},
		"no bores":      {"[sheets.H]\nferrule_bores = \"tips\"", `sheets."H".ferrule_bores`},
		"bare number":   {"[sheets.H.rows.17]\nhosel_od = 13.6", `sheets."H".rows.17.hosel_od`},
		"no category":   {"[categories]\nx = \"spoon\"", "categories.x"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := mapping.Parse([]byte(test.text))
			var format *mapping.FormatError
			if !errors.As(err, &format) || format.Key != test.key {
				t.Errorf("error %v, want one at %q", err, test.key)
			}
		})
	}
}

func heads(lines ...string) *sheet.Book {
	s := &sheet.Sheet{Name: "Heads"}
	for _, line := range lines {
		var row []*sheet.Cell
		for text := range strings.SplitSeq(line, "|") {
			cell := &sheet.Cell{Kind: sheet.Text, Raw: strings.TrimSpace(text), Shown: strings.TrimSpace(text)}
			if cell.Raw == "" {
				cell = sheet.BlankCell
			}
			row = append(row, cell)
		}
		s.Rows = append(s.Rows, row)
	}
	return &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{s}}
}

func read(t *testing.T, b *sheet.Book, text string) *catalog.Catalogue {
	t.Helper()
	m, err := mapping.Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return reader.Read([]reader.Input{{Book: b}}, reader.Options{Map: m})
}

func hasCode(c *catalog.Catalogue, code string) bool {
	for _, f := range c.Findings {
		if f.Code == code {
			return true
		}
	}
	return false
}

func TestAnswersSettleFindings(t *testing.T) {
	b := heads("Part No | Hosel OD | Countersink depth", "KR-20 | 13.6 | 0.3", "KR-21 | 345 | 0.4")
	before := read(t, b, "")
	if !hasCode(before, "data.unit") || !hasCode(before, "data.implausible") {
		t.Fatalf("findings %+v", before.Findings)
	}
	after := read(t, b, `
[sheets."Heads".columns.B]
unit = "mm"
[sheets."Heads".columns.C]
unit = "mm"
[sheets."Heads".rows.3]
for = "KR-21"
hosel_od = "13.58 mm"
`)
	if len(after.Findings) != 0 || after.Tables[0].Ledger.Held != 0 {
		t.Errorf("findings %+v, ledger %+v", after.Findings, after.Tables[0].Ledger)
	}
	if got := after.Heads[1].Head.HoselOD.Nominal().Millimetres(); got != 13.58 {
		t.Errorf("hosel OD %v", got)
	}
}

func TestWordsOfTheUser(t *testing.T) {
	b := heads("Part No | Line | Hosel OD (mm) | Bore (mm)", "KR-20 | Bladework | 13.6 | 9.5", "KR-21 | Bladework | 13.4 | 9.5")
	c := read(t, b, `
[categories]
"Bladework" = "iron"
[sheets."Heads"]
supplier = "Orrin Vale"
[sheets."Heads".columns.B]
heading = "Line"
role = "category"
`)
	if h := c.Heads[1]; h.Category.String() != "iron" || h.Supplier != "Orrin Vale" {
		t.Errorf("category %v, supplier %q", h.Category, h.Supplier)
	}
	c = read(t, b, `sheets."o*.xl*!H*ds".supplier = "Orrin Vale"`)
	if h := c.Heads[1]; h.Supplier != "Orrin Vale" {
		t.Errorf("supplier %q", h.Supplier)
	}
	c = read(t, b, `sheets."o*.csv!*".supplier = "Orrin Vale"`)
	if h := c.Heads[1]; h.Supplier == "Orrin Vale" || !hasCode(c, "map.stale") {
		t.Errorf("supplier %q, findings %+v", h.Supplier, c.Findings)
	}
	c = read(t, b, `sheets."Heads".kind = "none"`)
	if len(c.Heads) != 0 || c.Tables[0].Ledger.SetAside != 3 {
		t.Errorf("%d heads, ledger %+v", len(c.Heads), c.Tables[0].Ledger)
	}
	c = read(t, b, `sheets."orrin.xlsx!Heads".tolerance = "±0.1 mm"`)
	if od := c.Heads[0].Head.HoselOD; od.Width().Millimetres() != 0.2 {
		t.Errorf("hosel OD %v", od)
	}
}

func TestStaleRulesAreReported(t *testing.T) {
	b := heads("Part No | Hosel OD (mm) | Bore (mm)", "KR-20 | 13.6 | 9.5")
	for name, text := range map[string]string{
		"sheet":   `[sheets."Hoods"]` + "\nkind = \"heads\"",
		"column":  `[sheets."Heads".columns.H]` + "\nrole = \"bore\"",
		"heading": `[sheets."Heads".columns.C]` + "\nheading = \"Hole\"\nunit = \"in\"",
		"row":     `[sheets."Heads".rows.9]` + "\nset_aside = true",
		"part":    `[sheets."Heads".rows.2]` + "\nfor = \"KR-99\"\nset_aside = true",
		"heads":   `[sheets."Heads"]` + "\nheading_rows = [7]",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, b, text)
			if !hasCode(c, "map.stale") {
				t.Errorf("findings %+v", c.Findings)
			}
			if len(c.Heads) != 1 || c.Heads[0].Head.Bore.Nominal().Millimetres() != 9.5 {
				t.Errorf("heads %+v", c.Heads)
			}
		})
	}
}

// TestWriteIsRead writes a mapping file and reads it back: it parses, and reading with it understands the same.
func TestWriteIsRead(t *testing.T) {
	b := heads("Part \"No\" | Hosel OD | Countersink depth | Loft", "KR-20 | 13.6 | 0.3 | 27", "KR-21 | 345 | 0.4 | 31")
	before := reader.Read([]reader.Input{{Book: b}}, reader.Options{})
	var out strings.Builder
	if err := mapping.Write(&out, before); err != nil {
		t.Fatal(err)
	}
	after := read(t, b, out.String())
	if diff := cmp.Diff(before.Tables[0].Ledger, after.Tables[0].Ledger); diff != "" {
		t.Errorf("(-before +after):\n%s\n%s", diff, out.String())
	}
	for i, column := range after.Tables[0].Columns {
		if column.Role != before.Tables[0].Columns[i].Role {
			t.Errorf("column %s: %s, was %s", column.Column, column.Role, before.Tables[0].Columns[i].Role)
		}
	}
	for _, want := range []string{`# unit = "mm"`, `# [sheets."Heads".rows.3]`, `# hosel_od = ""`, `heading = "Part \"No\""`} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %s in\n%s", want, out.String())
		}
	}
}

// TestBoresAreAsked writes the question whether bores are tips, and reads the answer.
func TestBoresAreAsked(t *testing.T) {
	b := heads("Ferrule | Bore (in) | Base OD (in)", "KR-20 | .370 | .540", "KR-21 | .355 | .520")
	b.Sheets[0].Name = "Ferrules"
	before := reader.Read([]reader.Input{{Book: b}}, reader.Options{})
	var out strings.Builder
	if err := mapping.Write(&out, before); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "\n# ferrule_bores = \"tip\"\n") {
		t.Errorf("nothing is asked in\n%s", out.String())
	}
	answered := strings.Replace(out.String(), "# ferrule_bores = \"tip\"", "ferrule_bores = \"bore\"", 1)
	after := read(t, b, answered)
	if hasCode(after, "data.tip-name") || !after.Ferrules[0].Ferrule.Bore.Given() || before.Ferrules[0].Ferrule.Bore.Given() {
		t.Errorf("findings %+v, bores %v and %v", after.Findings, before.Ferrules[0].Ferrule.Bore, after.Ferrules[0].Ferrule.Bore)
	}
}

func FuzzParse(f *testing.F) {
	f.Add(everything)
	f.Add("[sheets.H.rows.1]\npart = 3")
	f.Fuzz(func(t *testing.T, text string) {
		_, err := mapping.Parse([]byte(text))
		var format *mapping.FormatError
		if err != nil && !errors.As(err, &format) {
			t.Errorf("error %T", err)
		}
	})
}

// TestCardsSideBySide: cards that begin in one row are all told to stand there, each can be answered on its own by what its findings propose,
// and every row of the sheet is accounted for once.
func TestCardsSideBySide(t *testing.T) {
	for name, test := range map[string]struct {
		lines []string
		// rows are the rows of the parts, key is what settles the finding upon the bore of the second, and not what is stale.
		rows map[string]int
		key  string
		not  []string
	}{
		"German": {
			[]string{"Nr. | ST-1 | | Nr. | ST-2 | | Nr. | ST-3", "Hosel außen mm | 13.5 | | Hosel außen mm | 13.6 | | Hosel außen mm | 13.5",
				"Bohrung mm | 9.5 | | Bohrung mm | 95 | | Bohrung mm | 9.5", "Bohrtiefe mm | 32 | | Bohrtiefe mm | 32 | | Bohrtiefe mm | 33"},
			map[string]int{"ST-1": 1, "ST-2": 1, "ST-3": 1}, `sheets."Heads".rows.E1.bore`, []string{"1", "2", "E2"},
		},
		"Italian, two bands": {
			[]string{"Articolo: LB-1 | Articolo: LB-2", "Esterno mm: 13.5 | Esterno mm: 13.6", "Foro mm: 9.5 | Foro mm: 95", "",
				"Articolo: LB-3 | ", "Esterno mm: 13.5 | ", "Foro mm: 9.5"},
			map[string]int{"LB-1": 1, "LB-2": 1, "LB-3": 5}, `sheets."Heads".rows.B1.bore`, []string{"1", "2"},
		},
		"one begins below": {
			[]string{"Item | HR-1 | | Item | HR-2 | | | ", "Hosel OD mm | 13.5 | | Hosel OD mm | 13.6 | | Item | HR-3", "Bore mm | 9.5 | | Bore mm | 95 | | Hosel OD mm | 13.5",
				"Depth mm | 32 | | Depth mm | 32 | | Bore mm | 9.5"},
			map[string]int{"HR-1": 1, "HR-2": 1, "HR-3": 2}, `sheets."Heads".rows.E1.bore`, []string{"1", "3"},
		},
		"one below the other": {
			[]string{"Item | HR-1", "Hosel OD mm | 13.5", "Bore mm | 9.5", "", "Item | HR-2", "Hosel OD mm | 13.6", "Bore mm | 95", "", "Item | HR-3", "Hosel OD mm | 13.5", "Bore mm | 9.5"},
			map[string]int{"HR-1": 1, "HR-2": 5, "HR-3": 9}, `sheets."Heads".rows.5.bore`, []string{"B5"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			b := heads(test.lines...)
			before := read(t, b, "")
			table := before.Tables[0]
			rows, seen := map[string]int{}, map[int]bool{}
			second := ""
			for _, row := range table.Rows {
				if seen[row.Row] = true; row.Part != "" {
					rows[row.Part] = row.Row
				}
				if slices.Contains(row.Open, catalog.Bore) || row.Outcome == catalog.Held {
					second = row.Part
				}
			}
			if diff := cmp.Diff(test.rows, rows); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			if len(seen) != len(test.lines) || table.Ledger.Rows != len(test.lines) {
				t.Errorf("%d rows, %+v of %d", len(seen), table.Ledger, len(test.lines))
			}
			if !slices.ContainsFunc(before.Findings, func(f finding.Finding) bool { return f.Settle == test.key }) {
				t.Fatalf("nothing is settled by %s: %+v", test.key, before.Findings)
			}
			rule, _ := strings.CutSuffix(test.key, ".bore")
			after := read(t, b, fmt.Sprintf("[%s]\nfor = %q\nbore = \"9.6 mm\"", rule, second))
			if len(after.Findings) > 0 || len(after.Heads) != 3 {
				t.Errorf("%d heads, findings %+v", len(after.Heads), after.Findings)
			}
			for _, h := range after.Heads {
				if want, got := map[bool]float64{true: 9.6, false: 9.5}[h.Part == second], h.Head.Bore.Nominal().Millimetres(); got != want {
					t.Errorf("%s has a bore of %v, want %v", h.Part, got, want)
				}
			}
			if c := read(t, b, fmt.Sprintf("[%s]\nset_aside = true", rule)); len(c.Heads) != 2 || c.Tables[0].Ledger.Rows != len(test.lines) {
				t.Errorf("%d heads, %+v", len(c.Heads), c.Tables[0].Ledger)
			}
			for _, name := range test.not {
				if c := read(t, b, fmt.Sprintf("[sheets.\"Heads\".rows.%s]\nset_aside = true", name)); len(c.Heads) != 3 || !hasCode(c, "map.stale") {
					t.Errorf("%s: %d heads, findings %+v", name, len(c.Heads), c.Findings)
				}
			}
			var out strings.Builder
			if err := mapping.Write(&out, before); err != nil || !strings.Contains(out.String(), fmt.Sprintf("# [%s]\n# for = %q\n", rule, second)) {
				t.Errorf("%v\n%s", err, out.String())
			}
		})
	}
}
