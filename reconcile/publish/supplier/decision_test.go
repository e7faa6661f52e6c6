package supplier

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/internal/schematest"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/compare"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
	"example.com/seatline/reconcile/settings"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

func book(t testing.TB, file, text string) *sheet.Book {
	t.Helper()
	b, err := open.Bytes(file, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

const (
	ownHeads    = "Part,Description,Hosel OD (mm),Bore (mm),Bore depth (mm),Top,Category\nA-1,seven,12.90 ±0.05,9.51,32,flat,iron\nA-2,eight,14.20 ±0.05,9.51,32,flat,iron\nA-3,nine,,9.51,32,flat,iron\nA-4,blade,13.0 ±0.05,9.51,32,rounded,putter\n"
	ownFerrules = "Part,Bore (mm),Base OD (mm),Length (mm),Style,Pack,Price (EUR)\nF-1,9.35 ±0.02,13.20 ±0.03,16,plain,10,0.42\nF-2,9.35 ±0.02,13.60 ±0.03,16,plain,10,0.42\n"
	newFerrules = "Part,Bore (mm),Base OD (mm),Length (mm),Style,Pack,Price (EUR)\nN-1,9.35 ±0.02,12.92 ±0.05,16,plain,10,0.50\nN-2,9.35 ±0.02,14.25 ±0.05,16,plain,10,0.50\nN-3,9.35 ±0.02,13.21 ±0.05,16,plain,10,0.40\nN-4,9.35 ±0.02,,16,plain,10,0.40\n"
	newHeads    = "Part,Description,Hosel OD (mm),Bore (mm),Bore depth (mm),Top,Category\nB-1,seven,13.10 ±0.05,9.51,32,flat,iron\nB-2,eight,14.60 ±0.05,9.51,32,flat,iron\nB-3,nine,14.50 ±0.05,9.51,32,flat,iron\nB-4,wedge,,9.51,32,flat,wedge\nB-5,blade,13.0 ±0.05,9.51,32,rounded,putter\n"
	readings    = "Readings in mm\nPart,1,2,3,4,5,6\nN-1,12.80,12.81,12.79,12.82,12.80,12.81\nN-3,13.20,13.22,13.21,13.21,13.20,13.21\n"
	ownSizes    = "[house.ferrule]\nlength = \"16 mm ±1\"\n[house.iron]\nhosel_od = \"13.0 mm ±0.2\"\n"
)

func read(t testing.TB, kind catalog.Kind, file, text string) reader.Input {
	return reader.Input{Book: book(t, file, text), Kind: kind}
}

// reports are reports of every kind: ferrules, heads, both, and texts that mean harm.
func reports(t testing.TB) map[string]*vet.Report {
	t.Helper()
	own, err := settings.Parse("shop.toml", []byte(ownSizes))
	if err != nil {
		t.Fatal(err)
	}
	against := func(in vet.Input, fresh ...reader.Input) *vet.Report {
		in.Shop, in.Standards = fitcalc.DefaultShop(), own.House
		in.House = reader.Read([]reader.Input{read(t, catalog.Heads, "heads.csv", ownHeads), read(t, catalog.Ferrules, "trim.csv", ownFerrules)}, reader.Options{})
		in.New = reader.Read(fresh, reader.Options{})
		r, err := vet.Against(in)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	all := map[string]*vet.Report{
		"ferrules": against(vet.Input{Measured: []*sheet.Book{book(t, "samples.csv", readings)}}, read(t, catalog.Ferrules, "new.csv", newFerrules)),
		"heads":    against(vet.Input{}, read(t, catalog.Heads, "newheads.csv", newHeads)),
		"both":     against(vet.Input{}, read(t, catalog.Ferrules, "new.csv", newFerrules), read(t, catalog.Heads, "newheads.csv", newHeads)),
	}
	hostile := against(vet.Input{}, read(t, catalog.Ferrules, "new.csv", newFerrules), read(t, catalog.Heads, "newheads.csv", newHeads))
	for i, text := range append(telltest.Hostile(), `<script>alert("x")</script>`, `"><img src=x onerror=alert(1)>`) {
		c := hostile.FerruleFits.Catalogue
		c.Ferrules[i%len(c.Ferrules)].Part = text
		c.Ferrules[i%len(c.Ferrules)].Description = text
		hostile.Supplier = text
		hostile.Changes = append(hostile.Changes, text)
		hostile.Questions.Questions = append(hostile.Questions.Questions, questions.Question{Key: fmt.Sprint("k", i), Kind: questions.Missing, Part: text, Says: text, Asks: text, Why: text, Supplier: text})
	}
	all["hostile"] = hostile
	return all
}

func validate(t *testing.T, schema, text []byte) {
	t.Helper()
	described, value := schematest.Parse(t, schema).(map[string]any), schematest.Parse(t, text)
	if err := schematest.CompileValue(t, described).Validate(value); err != nil {
		t.Errorf("%v", err)
	}
	closed(t, "", described, described, value)
}

// closed demands that the schema describes every key that is there.
func closed(t *testing.T, path string, root, schema map[string]any, value any) {
	t.Helper()
	if ref, is := schema["$ref"].(string); is {
		schema = root["$defs"].(map[string]any)[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any)
	}
	if either, is := schema["anyOf"].([]any); is {
		if value == nil {
			return
		}
		closed(t, path, root, either[0].(map[string]any), value)
		return
	}
	switch value := value.(type) {
	case map[string]any:
		properties, _ := schema["properties"].(map[string]any)
		for key, inner := range value {
			described, known := properties[key].(map[string]any)
			if !known {
				t.Errorf("%s.%s is not in the schema", path, key)
				continue
			}
			closed(t, path+"."+key, root, described, inner)
		}
	case []any:
		items, _ := schema["items"].(map[string]any)
		for _, inner := range value {
			closed(t, path+"[]", root, items, inner)
		}
	}
}

func TestVetJSONIsAsTheSchemaSays(t *testing.T) {
	for name, r := range reports(t) {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			if err := WriteVetJSON(&out, r, []tell.Input{{Name: "new.csv", Kind: "new"}}); err != nil {
				t.Fatal(err)
			}
			validate(t, VetSchema(), out.Bytes())
		})
	}
}

// TestEveryNumberHasItsRow: whatever the document says of a part, it says where the part stands.
func TestEveryNumberHasItsRow(t *testing.T) {
	for name, r := range reports(t) {
		if name == "hostile" {
			continue
		}
		var out bytes.Buffer
		if err := WriteVetJSON(&out, r, nil); err != nil {
			t.Fatal(err)
		}
		var doc any
		if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		count := 0
		var walk func(any)
		walk = func(v any) {
			switch v := v.(type) {
			case map[string]any:
				if source, is := v["source"].(map[string]any); is {
					count++
					if source["file"] == "" || source["row"].(float64) < 2 {
						t.Errorf("%s: %v has no row", name, v)
					}
				}
				for _, inner := range v {
					walk(inner)
				}
			case []any:
				for _, inner := range v {
					walk(inner)
				}
			}
		}
		walk(doc)
		if count == 0 {
			t.Errorf("%s: no part has a row", name)
		}
	}
}

var idOf = regexp.MustCompile(`id="([^"]+)"`)

func TestPage(t *testing.T) {
	for name, r := range reports(t) {
		t.Run(name, func(t *testing.T) {
			var out, again bytes.Buffer
			opts := Options{Units: fitcalc.Imperial, ShopName: "Harrow <Lane>", Inputs: []tell.Input{{Name: "new.csv"}}}
			if err := WriteVetHTML(&out, r, opts); err != nil {
				t.Fatal(err)
			}
			if err := WriteVetHTML(&again, r, opts); err != nil {
				t.Fatal(err)
			}
			page := out.String()
			if page != again.String() {
				t.Error("the same report gives another page")
			}
			for _, bad := range []string{"<script", "<img", "Harrow <Lane>", "http://", "https://"} {
				if strings.Contains(strings.ReplaceAll(page, "=HYPERLINK(&#34;http://", ""), bad) {
					t.Errorf("the page holds %q", bad)
				}
			}
			ids := map[string]bool{}
			for _, m := range idOf.FindAllStringSubmatch(page, -1) {
				if ids[m[1]] {
					t.Errorf("the id %s stands twice", m[1])
				}
				ids[m[1]] = true
			}
			for _, f := range r.Facts {
				if !ids[anchor(f.Sheet)] {
					t.Errorf("the fact %q leads nowhere", f.Title)
				}
			}
			rows := 0
			for _, s := range Sections(r) {
				rows += len(s.Rows)
				for _, row := range s.Rows {
					if len(row) != len(s.Columns) {
						t.Errorf("%s: %d cells in a row of %d columns", s.Title, len(row), len(s.Columns))
					}
				}
			}
			if got := strings.Count(page, "<tr><td"); got != rows {
				t.Errorf("%d rows in the page, %d in the report", got, rows)
			}
		})
	}
}

func TestQuestionsCSVComesBack(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"small": telltest.Small(t), "awkward": telltest.Awkward(t)} {
		list := questions.Ask(r)
		var out bytes.Buffer
		if err := WriteQuestionsCSV(&out, list); err != nil {
			t.Fatal(err)
		}
		records, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, record := range records[1:] {
			for _, field := range record {
				if field != "" && strings.ContainsRune("=+-@\t\r", rune(field[0])) {
					t.Errorf("%s: the field %q may be taken for a formula", name, field)
				}
			}
		}
		back := questions.Answers(book(t, "questions.csv", out.String()))
		if back.Ledger.Open != len(list.Questions) || len(back.Findings) > 0 {
			t.Errorf("%s: %d questions, came back as %+v %+v", name, len(list.Questions), back.Ledger, back.Findings)
		}
	}
}

func TestGoldens(t *testing.T) {
	all := reports(t)
	var page, doc bytes.Buffer
	if err := WriteVetHTML(&page, all["both"], Options{Units: fitcalc.Metric, ShopName: "Harrow Lane Clubworks"}); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "vet.html", page.Bytes())
	if err := WriteVetJSON(&doc, all["ferrules"], nil); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "vet.json", doc.Bytes())
}

func TestComparison(t *testing.T) {
	const heading = "Part,Hosel OD,Bore (mm),Price\n"
	old := reader.Read([]reader.Input{read(t, catalog.Heads, "2026.csv", heading+"K-20,12.7 mm,9.5,20\nK-21,13.2 mm,9.5,20\nK-22,13.2 mm,9.5,20\nK-O5,13.0 mm,9.5,20\nK-31,345 mm,9.5,20\n")}, reader.Options{})
	now := reader.Read([]reader.Input{read(t, catalog.Heads, "2027.csv", heading+"K-20,1/2 in,9.5,20\nK-21,13.3 mm,9.5,22\nK-05,13.0 mm,9.5,20\nK-40,13.0 mm,9.5,20\nK-31,13.45 mm,9.5,20\n")}, reader.Options{})
	result := compare.Catalogues(old, now)
	var text, doc bytes.Buffer
	if err := WriteComparison(&text, result); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "comparison.txt", text.Bytes())
	if err := WriteComparisonJSON(&doc, result); err != nil {
		t.Fatal(err)
	}
	validate(t, ComparisonSchema(), doc.Bytes())
	golden.Check(t, "comparison.json", doc.Bytes())
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, os.ErrInvalid }

func TestWritersReportErrors(t *testing.T) {
	r := reports(t)["both"]
	for name, write := range map[string]func() error{
		"html": func() error { return WriteVetHTML(fullDisk{}, r, Options{}) },
		"json": func() error { return WriteVetJSON(fullDisk{}, r, nil) },
		"csv":  func() error { return WriteQuestionsCSV(fullDisk{}, r.Questions) },
		"text": func() error { return WriteComparison(fullDisk{}, compare.Result{}) },
	} {
		if write() == nil {
			t.Errorf("%s: a disk that is full is no error", name)
		}
	}
}
