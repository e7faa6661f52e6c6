package reader_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
)

// The grids of this file imitate the habits of suppliers; all names in them are invented.

func TestFoundryList(t *testing.T) {
	c := read(t, grid("Iron heads", `
ORRIN VALE FOUNDRY | | | | | | |
All dimensions in inches unless otherwise noted | | |
 | | |
Item | Model | Set | Hosel | < | < | < | Weight
 | | | O.D. | Bore | Depth | Length | (g)
OV-101 | Tarrowby CB | 4-PW | .535 ±.003 | .370 | 1.250 | 2.5 | 265
OV-102 | Tarrowby MB | 3-9,PW | .530 +.002/-.000 | .355T | 1 1/4 | 2 1/2 | 268
OV-103 | Tarrowby Wedge | 52/56/60 | .540 | .370 | 1.25 | 2.5 | 295
 | | | | | | |
Woods | < | < | < | < | < | < | <
OV-201 | Gulvane Driver | 10.5° | .500 | .335 | 1.5 | 2 | 200
OV-202 | Gulvane FW | 3W,5W | .510 | .335/.350 | 1.5 | 2 | 210
* Weights are approximate
Total items: 5
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if got, want := c.Tables[0].Ledger, (catalog.Ledger{Rows: 14, Assumed: 5, SetAside: 9}); got != want {
		t.Errorf("ledger %+v, want %+v", got, want)
	}
	wantRow(t, c, "OV-102 PW", catalog.Assumed, sizes{catalog.HoselOD: 13.462, catalog.BoreDepth: 31.75, catalog.HoselLength: 63.5})
	heads := map[string]catalog.Head{}
	for _, h := range c.Heads {
		heads[h.Part] = h
	}
	if len(heads) != 7+8+3+1+2 {
		t.Errorf("%d heads", len(heads))
	}
	if h := heads["OV-102 5"]; !h.BoreIsDesignation || len(h.TipTaken) != 1 || h.TipTaken[0].Form() != fitcalc.TipTapered {
		t.Errorf("OV-102 5: %+v", h)
	}
	if h := heads["OV-202 3W"]; len(h.TipTaken) != 2 || h.Category != fitcalc.Fairway {
		t.Errorf("OV-202 3W: %d tips, %v", len(h.TipTaken), h.Category)
	}
	if h := heads["OV-201"]; h.Category != fitcalc.Driver {
		t.Errorf("OV-201: %v", h.Category)
	}
	if h := heads["OV-103 56"]; h.Category != fitcalc.Wedge {
		t.Errorf("OV-103 56: %v", h.Category)
	}
}

func TestUnitsSideBySide(t *testing.T) {
	c := read(t, grid("Heads", `
Part | Hosel OD | | Bore | | Ins. depth | | Top | Countersink | <
 | in | mm | in | mm | in | mm | | dia | angle
H1 | .535 | 13.59 | .373 | 9.47 | 1.25 | 31.75 | flat | |
H2 | .540 | 13.72 | .373 | 9.47 | 1.25 | 31.75 | c'sink | .450" | 82
H3 | .530 | 13.64 | .373 | 9.47 | 1.25 | 31.75 | flat | |
`))
	defer show(t, c)
	wantRow(t, c, "H2", catalog.Used, sizes{catalog.HoselOD: 13.716, catalog.Bore: 9.4742, catalog.CountersinkMouth: 11.43})
	wantRow(t, c, "H3", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 9.4742})
	wantFinding(t, c, "data.conflict", "B5", "13.64")
}

func TestTransposedWithUnitColumnAndBlankCorner(t *testing.T) {
	for name, text := range map[string]string{
		"unit column": `
Property | Unit | KR-20 | KR-21 | KR-22
Part number | | KR-20 | KR-21 | KR-22
Hosel OD | mm | 13.6 | 13.4 | 13.5
Bore ID | mm | 9.5 | 9.5 | 9.5
Insertion depth | in | 1.25 | 1.25 | 1 1/4`,
		"blank corner": `
Orrin spec sheet | | |
 | KR-20 | KR-21 | KR-22
Hosel OD (mm) | 13.6 | 13.4 | 13.5
Bore ID (mm) | 9.5 | 9.5 | 9.5
Insertion depth (mm) | 31.75 | 32 | 31.75`,
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("T", text))
			defer show(t, c)
			wantNoErrors(t, c)
			if len(c.Heads) != 3 || c.Heads[2].Part != "KR-22" || c.Heads[2].Head.BoreDepth.Nominal().Millimetres() != 31.75 {
				t.Errorf("heads %+v", c.Heads)
			}
		})
	}
}

func TestPages(t *testing.T) {
	c := read(t, grid("Pages", `
Page 1
Part No | Hosel OD (mm) | Bore (mm)
KR-30 | 13.6 | 9.5
KR-31 | 13.6 | 9.5
continued on next page

Page 2
Part No | Hosel OD (mm) | Bore (mm)
KR-32 | 13.6 | 9.5
KR-33 | 13.6 | 9.5
End of list
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if got, want := c.Tables[0].Ledger, (catalog.Ledger{Rows: 11, Used: 4, SetAside: 7}); len(c.Tables) != 1 || got != want {
		t.Errorf("%d tables, ledger %+v, want %+v", len(c.Tables), got, want)
	}
}

func TestTitledTables(t *testing.T) {
	c := read(t, grid("Multi", `
IRON HEADS
Model | Hosel dia. | Bore dia. | Depth
M1 | 13.5 mm | 9.45 mm | 32 mm
M2 | 13.5 mm | 9.45 mm | 32 mm
Note: bores reamed.

WOOD HEADS
Model | Loft | Hosel dia. | Bore dia. | Depth
W1 | 10.5 | 12.7 mm | 8.6 mm | 38 mm
W2 | 9 | 12.7 mm | 8.6 mm | 38 mm

FERRULES
Model | OD | ID | Length | Fits
F1 | 13.7 mm | 9.35 mm | 19 mm | .370
F2 | 12.9 mm | 8.45 mm | 19 mm | .335
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Tables) != 3 || len(c.Heads) != 4 || len(c.Ferrules) != 2 {
		t.Fatalf("%d tables, %d heads, %d ferrules", len(c.Tables), len(c.Heads), len(c.Ferrules))
	}
	if c.Heads[0].Category != fitcalc.Iron || c.Heads[2].Category != fitcalc.Fairway {
		t.Errorf("categories %v %v", c.Heads[0].Category, c.Heads[2].Category)
	}
}

func TestUnitColumn(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | UoM | Hosel OD | Bore | Qty
KR-20 | mm | 13.6 | 9.5 | 5
KR-21 | in | .535 | .373 | 5
KR-22 | | 13.4 | 9.5 | 5
`))
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.589})
	wantRow(t, c, "KR-22", catalog.Held, sizes{catalog.HoselOD: 0})
}

func TestNotesBesideTheTable(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm) | | Notes
KR-40 | 13.6 | 9.5 | | All heads raw finish
KR-41 | 13.6 | 9.5 | | Lead time 30 days
 | | | | Tolerance ±0.1 mm
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-41", catalog.Used, sizes{catalog.HoselOD: 13.6})
	if od := c.Heads[0].Head.HoselOD; !od.HasLimits() || od.Width().Millimetres() != 0.2 {
		t.Errorf("hosel OD %v", od)
	}
}

func TestCodesUnderStockNumber(t *testing.T) {
	c := read(t, grid("Ferrules", `
Stock no. | Item | Bore | Base O.D.
=== iron ferrules ===
FM-01 | Classic iron | .368" | .500"
FM-02 | Classic iron | .368" | .512"
FM-03 | Classic iron | .368" | .525"
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Ferrules) != 3 || c.Ferrules[2].Part != "FM-03" || c.Ferrules[2].Description != "Classic iron" {
		t.Errorf("ferrules %+v", c.Ferrules)
	}
}

func TestNumberedLinesAndColumns(t *testing.T) {
	c := read(t, grid("Heads", `
Item | Model | Hosel OD (mm) | Bore (mm)
(1) | (2) | (3) | (4)
1 | KR-20 | 13.6 | 9.5
2 | KR-21 | 13.6 | 9.5
3 | KR-22 | 13.6 | 9.5
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Heads) != 3 || c.Heads[0].Part != "KR-20" || c.Heads[0].Description != "" {
		t.Errorf("heads %+v", c.Heads)
	}
}

func TestValuesNameTheirRole(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm) | Zzyx
KR-20 | 13.6 | 9.5 | flat
KR-21 | 13.6 | 9.5 | rounded
KR-22 | 13.6 | 9.5 | countersunk 90°
`))
	defer show(t, c)
	wantRow(t, c, "KR-21", catalog.Assumed, nil)
	if c.Heads[1].Head.Top != fitcalc.TopRounded || c.Heads[2].Head.Countersink.Angle.Degrees() != 90 {
		t.Errorf("tops %v, %v", c.Heads[1].Head.Top, c.Heads[2].Head.Countersink)
	}
}

// TestDocument checks the words and shapes that the machine-readable output promises.
func TestDocument(t *testing.T) {
	s := grid("Heads", `
Part No | Hosel OD (mm) | Bore | Countersink angle | Price (EUR)
KR-20 | 13.6 ±0.05 | .370" | 90° | 12.50
KR-21 | 345 | 9.5 mm | | 12.50
`)
	c := read(t, s)
	text, err := json.Marshal(catalog.JSON(c))
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Sheets []struct {
			File, Sheet, Kind string
			Columns           []map[string]string
			Ledger            map[string]int
			Rows              []struct {
				Row           int
				Outcome, Part string
				Fields        map[string]map[string]any
				Assumptions   []string
			}
			Findings []map[string]any
		}
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	got := doc.Sheets[0]
	if got.File != "orrin.xlsx" || got.Sheet != "Heads" || got.Kind != "heads" {
		t.Errorf("%s %s %s", got.File, got.Sheet, got.Kind)
	}
	if diff := cmp.Diff(map[string]int{"rows": 3, "used": 0, "assumed": 1, "held": 1, "set_aside": 1}, got.Ledger); diff != "" {
		t.Errorf("ledger (-want +got):\n%s", diff)
	}
	for _, key := range []string{"column", "heading", "role", "unit", "evidence", "runner_up"} {
		if _, found := got.Columns[1][key]; !found {
			t.Errorf("column without %s: %v", key, got.Columns[1])
		}
	}
	want := map[string]any{"mm": 13.6, "least_mm": 13.55, "most_mm": 13.65, "text": "13.6 ±0.05", "cell": "B2", "assumptions": []any{}}
	if sure, given := got.Rows[1].Fields["hosel_od"]["confidence"].(float64); !given || sure <= 0 || sure >= 1 {
		t.Errorf("hosel_od is sure to %v", got.Rows[1].Fields["hosel_od"]["confidence"])
	}
	delete(got.Rows[1].Fields["hosel_od"], "confidence")
	if diff := cmp.Diff(want, got.Rows[1].Fields["hosel_od"]); diff != "" {
		t.Errorf("hosel_od (-want +got):\n%s", diff)
	}
	if got.Rows[1].Fields["countersink_angle"]["deg"] != 90.0 || got.Rows[1].Fields["bore"]["mm"] != 9.398 || got.Rows[1].Fields["price"]["number"] != 12.5 {
		t.Errorf("fields %v", got.Rows[1].Fields)
	}
	if _, given := got.Rows[2].Fields["hosel_od"]["mm"]; given || got.Rows[2].Outcome != "held" {
		t.Errorf("row 3: %+v", got.Rows[2])
	}
	for _, key := range []string{"severity", "code", "cell", "message", "settle"} {
		if _, found := got.Findings[0][key]; !found {
			t.Errorf("finding without %s: %v", key, got.Findings[0])
		}
	}
	if settle := got.Findings[0]["settle"]; settle != `sheets."Heads".rows.3.hosel_od` {
		t.Errorf("settle %v", settle)
	}
}

func TestHugeEmptySheet(t *testing.T) {
	s := grid("Heads", plainHeads)
	s.Rows = append(s.Rows, make([][]*sheet.Cell, 50_000)...)
	s.Merges = append(s.Merges, sheet.Range{From: sheet.Ref{Row: 4, Col: 1}, To: sheet.Ref{Row: 1 << 20, Col: 1 << 14}})
	c := read(t, s)
	defer show(t, c)
	wantNoErrors(t, c)
	if got, want := c.Tables[0].Ledger.Rows, 3; got != want {
		t.Errorf("%d rows, want %d", got, want)
	}
}

func TestTextThatBeginsLikeAFormula(t *testing.T) {
	s := grid("Heads", plainHeads)
	s.Rows[1][1] = &sheet.Cell{Kind: sheet.Text, Raw: "=HYPERLINK(\"x\")", Shown: "=HYPERLINK(\"x\")"}
	s.Rows[1][0] = &sheet.Cell{Kind: sheet.Text, Raw: `="KR-20"`, Shown: `="KR-20"`}
	s.Rows[2][0] = &sheet.Cell{Kind: sheet.Text, Raw: "'KR-21", Shown: "'KR-21"}
	c := read(t, s)
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.4})
	if !strings.HasPrefix(c.Heads[0].Description, "=") {
		t.Errorf("description %q", c.Heads[0].Description)
	}
}

func TestPartsWithoutNumbers(t *testing.T) {
	c := read(t, grid("Irons", `
KR-60 irons
Club | 4 | 5 | 6 | PW
Hosel OD (mm) | 13.4 | 13.4 | 13.5 | 13.8
Bore (mm) | 9.5 | 9.5 | 9.5 | 9.5
`), grid("Tips", `
Shaft | Tip dia | Taper | Parallel tip section
Osier 90 | .370" | - | 7"
Osier 95 | .355" | .0075"/in |
Withy | 9.4 mm | 0 | 180 mm
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-60 PW", catalog.Assumed, sizes{catalog.HoselOD: 13.8})
	if len(c.Heads) != 4 || len(c.Tips) != 3 || c.Tips[2].Part != "Withy" {
		t.Fatalf("%d heads, tips %+v", len(c.Heads), c.Tips)
	}
	for i, want := range []fitcalc.TipForm{fitcalc.TipParallel, fitcalc.TipTapered, fitcalc.TipParallel} {
		if got := c.Tips[i].Tip.Form(); got != want {
			t.Errorf("%s: form %v, want %v", c.Tips[i].Part, got, want)
		}
	}
}

// A sheet that names a taper tip without its rate leaves the rate to the shop, and one that gives it does not.
func TestTaperOfATip(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore | Tip
KR-61 | 13.6 | .358" | .355 taper
KR-62 | 13.6 | .358" | .355
`), grid("Tips", `
Shaft | Tip dia | Taper
Osier 95 | .355" | .0085"/in
Osier 96 | .355" taper |
Osier 97 | .355" |
`))
	defer show(t, c)
	if len(c.Heads) != 2 || len(c.Tips) != 3 {
		t.Fatalf("%d heads, %d tips", len(c.Heads), len(c.Tips))
	}
	stated := []bool{true, false, false}
	for i := range c.Tips {
		if tip := c.Tips[i].Tip; tip.Form() != fitcalc.TipTapered || tip.StatesTaper() != stated[i] {
			t.Errorf("%s: %v by %v, stated %v", c.Tips[i].Part, tip.Form(), tip.Taper(), tip.StatesTaper())
		}
	}
	for _, h := range c.Heads {
		if len(h.TipTaken) != 1 || h.TipTaken[0].Form() != fitcalc.TipTapered || h.TipTaken[0].StatesTaper() {
			t.Errorf("%s takes %+v", h.Part, h.TipTaken)
		}
	}
}

func TestSizesInOneCell(t *testing.T) {
	for name, text := range map[string]string{
		"letters": `
Code | Size (ID x OD x L) mm | Colour
Z-1 | 9.35 x 13.7 x 19 | black
Z-2 | 9.35×13.9×25 | black
Z-3 | see drawing | black`,
		"stars": `
编号 | 规格(内径*外径*长度) | 颜色
Z-1 | 9.35*13.7*19mm | 黑
Z-2 | 9.35*13.9*25mm | 黑
Z-3 | 待定 | 黑`,
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules 胶圈", text))
			defer show(t, c)
			wantRow(t, c, "Z-2", catalog.Used, sizes{catalog.Bore: 9.35, catalog.BaseOD: 13.9, catalog.Length: 25})
			wantRow(t, c, "Z-3", catalog.Held, sizes{catalog.Bore: 0, catalog.BaseOD: 0})
			if cell := c.Ferrules[0].Fields.Cell(catalog.BaseOD); cell != "B2" {
				t.Errorf("base OD from %s", cell)
			}
		})
	}
}
