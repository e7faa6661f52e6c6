package reader_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// ferruleOf returns a ferrule of a catalogue.
func ferruleOf(t *testing.T, c *catalog.Catalogue, part string) *catalog.Ferrule {
	t.Helper()
	for i := range c.Ferrules {
		if c.Ferrules[i].Part == part {
			return &c.Ferrules[i]
		}
	}
	t.Fatalf("no ferrule %s", part)
	return nil
}

// known says by what a ferrule is known: its bore in mm, its tip, or both.
func known(f *catalog.Ferrule) string {
	var says []string
	if f.Ferrule.Bore.Given() {
		says = append(says, f.Ferrule.Bore.Nominal().String())
	}
	if f.Ferrule.ForTip.Known() {
		says = append(says, "for "+f.Ferrule.ForTip.String())
	}
	return strings.Join(says, ", ")
}

// asksForBores returns the severity of the question whether bores are tips, empty where there is none.
func asksForBores(t *testing.T, c *catalog.Catalogue) string {
	t.Helper()
	severity := ""
	for _, f := range c.Findings {
		if f.Code != "data.tip-name" {
			continue
		}
		if severity != "" || f.Settle != `sheets."Ferrules".ferrule_bores` || f.Place.Cell == "" {
			t.Errorf("asked as %+v", f)
		}
		severity = f.Severity.String()
	}
	return severity
}

// What a column of bores gives is decided for all of it: the names of tips where nearly all its cells are, and none is what only a
// bore measures.
func TestBoresThatAreTips(t *testing.T) {
	for name, test := range map[string]struct{ heading, cells, want, asks string }{
		"names in inches":            {"Bore (in)", ".370 .355 .335", "for .370 parallel; for .355 taper; for .335 parallel", "warning"},
		"names in mm":                {"Bore (mm)", "9.4 9.0 8.5", "for .370 parallel; for .355 taper; for .335 parallel", "warning"},
		"names to a hundredth of mm": {"Bore (mm)", "9.40 9.02 8.51", "for .370 parallel; for .355 taper; for .335 parallel", "warning"},
		"one name":                   {"Bore (in)", ".370", "for .370 parallel", "warning"},
		"the form said":              {"Bore (in)", ".355_parallel .370_parallel", "for .355 parallel; for .370 parallel", "warning"},
		"letters":                    {"Bore", "370P 355T", "for .370 parallel; for .355 taper", "warning"},
		"true bores":                 {"Bore (in)", ".368 .353 .333", "9.3472 mm; 8.9662 mm; 8.4582 mm", ""},
		"true bores in mm":           {"Bore (mm)", "9.35 8.97 8.46", "9.35 mm; 8.97 mm; 8.46 mm", ""},
		"both":                       {"Bore (in)", ".370 .368 .355", "9.398 mm; 9.3472 mm; 9.017 mm", "warning"},
		"many names and a true bore": {"Bore (in)", ".370 .370 .370 .370 .355 .355 .355 .355 .335 .335 .368", "9.398 mm", "warning"},
		"many names and an odd size": {"Bore (in)", ".370 .370 .370 .370 .355 .355 .355 .355 .335 .335 .400", "for .370 parallel", "warning"},
		"too many odd sizes":         {"Bore (in)", ".370 .400 .355", "9.398 mm", "warning"},
		"with limits of their own":   {"Bore (in)", ".370±.001 .355±.001", "9.398 mm; 9.017 mm", ""},
		"with a tolerance above":     {"Bore (mm) ±0.02", "9.4 9.0", "9.4 mm; 9 mm", "warning"},
	} {
		t.Run(name, func(t *testing.T) {
			text := "Part | " + test.heading + " | Base OD (in)"
			cells := strings.Fields(test.cells)
			for i, cell := range cells {
				text += "\nXF-" + string(rune('A'+i)) + " | " + strings.ReplaceAll(cell, "_", " ") + " | .540"
			}
			c := read(t, grid("Ferrules", text))
			defer show(t, c)
			var got []string
			for i := range c.Ferrules {
				got = append(got, known(&c.Ferrules[i]))
			}
			if all := strings.Join(got, "; "); len(got) != len(cells) || !strings.HasPrefix(all, test.want) {
				t.Errorf("%s, want %s", all, test.want)
			}
			if got := asksForBores(t, c); got != test.asks {
				t.Errorf("asked with %q, want %q", got, test.asks)
			}
		})
	}
}

// A row whose bore is taken as a tip's name says so; the bore is open and the tip has the cell.
func TestBoreAsTipIsAssumed(t *testing.T) {
	c := read(t, grid("Ferrules", "Part | Bore (in) | Base OD (in)\nXF-A | .370 | .540"))
	defer show(t, c)
	row := c.Tables[0].Rows[1]
	if row.Outcome != catalog.Assumed || !strings.Contains(strings.Join(row.Assumptions, "; "), "bore .370") {
		t.Errorf("%v, %q", row.Outcome, row.Assumptions)
	}
	if f := row.Fields.Get(catalog.TipTaken); f.Cell != "B2" || f.ForTip.String() != ".370 parallel" || row.Fields.Get(catalog.Bore).Dim.Given() {
		t.Errorf("tip %+v, bore %+v", f, row.Fields.Get(catalog.Bore))
	}
	doc := catalog.JSON(c).Sheets[0].Rows[1].Fields[catalog.TipTaken]
	if doc.ForTip != ".370 parallel" || doc.Text != ".370" || doc.MM == nil || *doc.MM != 9.398 {
		t.Errorf("as JSON %+v", doc)
	}
}

// The mapping file and the shop's settings decide, the mapping first; then nothing is asked or assumed.
func TestBoresAreSaidToBe(t *testing.T) {
	const names = "Part | Bore (in) | Base OD (in)\nXF-A | .370 | .540"
	const tips = "Part | Fits | Base OD (in)\nXF-A | .370 | .540"
	for name, test := range map[string]struct {
		sheet, mapped, house string
		want                 string
		outcome              catalog.Outcome
	}{
		"by the mapping, tips":                  {names, "tip", "", "for .370 parallel", catalog.Used},
		"by the mapping, true":                  {names, "bore", "", "9.398 mm", catalog.Used},
		"by the shop, tips":                     {names, "", "tip", "for .370 parallel", catalog.Used},
		"by the shop, true":                     {names, "", "bore", "9.398 mm", catalog.Used},
		"the mapping knows the sheet better":    {names, "bore", "tip", "9.398 mm", catalog.Used},
		"a column of tips":                      {tips, "tip", "", "for .370 parallel", catalog.Used},
		"a column of tips that are true bores":  {tips, "bore", "", "9.398 mm", catalog.Used},
		"true bores that the mapping calls so":  {strings.Replace(names, ".370", ".368", 1), "bore", "", "9.3472 mm", catalog.Used},
		"a bore that no tip is called by: tips": {strings.Replace(names, ".370", ".365", 1), "tip", "", "for .365", catalog.Used},
	} {
		t.Run(name, func(t *testing.T) {
			opts := reader.Options{FerruleBores: map[string]string{}}
			if test.mapped != "" {
				opts.Map.Sheets = map[string]catalog.SheetRules{"Ferrules": {FerruleBores: test.mapped}}
			}
			if test.house != "" {
				opts.FerruleBores["Orrin Vale"] = test.house
			}
			c := readInputs(t, opts, reader.Input{Book: book("orrin.xlsx", grid("Ferrules", test.sheet)), Supplier: "ORRIN vale", Kind: catalog.Ferrules})
			defer show(t, c)
			if got := known(ferruleOf(t, c, "XF-A")); got != test.want {
				t.Errorf("%s, want %s", got, test.want)
			}
			if row := c.Tables[0].Rows[1]; row.Outcome != test.outcome {
				if !strings.Contains(strings.Join(row.Assumptions, "; "), "unit of") { // of the bare number under "Fits"
					t.Errorf("%v %q, want %v", row.Outcome, row.Assumptions, test.outcome)
				}
			}
			if asked := asksForBores(t, c); asked != "" {
				t.Errorf("asked with %q", asked)
			}
		})
	}
}

// A supplier of the settings of whom there is no ferrule may be misspelt.
func TestSupplierOfSettingsWithoutFerrules(t *testing.T) {
	opts := reader.Options{FerruleBores: map[string]string{"Orin": catalog.BoresAreTips}}
	c := readInputs(t, opts, reader.Input{Book: book("orrin.xlsx", grid("Ferrules", "Part | Bore (in) | Base OD (in)\nXF-A | .368 | .540")), Supplier: "Orrin"})
	if len(c.Findings) != 1 || c.Findings[0].Severity != finding.Note || !strings.Contains(c.Findings[0].Message, `"Orin"`) {
		t.Errorf("findings %+v", c.Findings)
	}
}

// A value that the mapping file gives for a bore is a true bore.
func TestAnswerForABoreIsTrue(t *testing.T) {
	opts := reader.Options{Map: catalog.Mapping{Sheets: map[string]catalog.SheetRules{
		"Ferrules": {Rows: map[string]catalog.RowRule{"2": {Values: map[catalog.Role]string{catalog.Bore: ".367 in"}}}},
	}}}
	for _, text := range []string{
		"Part | Bore (in) | Base OD (in)\nXF-A | .370 | .540\nXF-B | .370 | .540",
		"Part | Fits | Base OD (in)\nXF-A | .370 | .540\nXF-B | .370 | .540",
	} {
		c := readInputs(t, opts, reader.Input{Book: book("orrin.xlsx", grid("Ferrules", text))})
		if got := ferruleOf(t, c, "XF-A").Ferrule.Bore.Nominal(); got != measure.Thou(367) {
			t.Errorf("the bore is %v", got)
			t.Log(explain(c))
		}
		if got := known(ferruleOf(t, c, "XF-B")); got != "for .370 parallel" {
			t.Errorf("the other is known as %s", got)
		}
	}
}

// Where a row gives both, the bore counts, and one that contradicts the tip is reported at its cell. A bore for a taper tip may be as
// large as the taper grows.
func TestTipAgainstBore(t *testing.T) {
	for cells, told := range map[string]bool{
		".370 | .368": false, ".370 | .366": false, ".370 | .371": true, ".370 | .359": true, ".370 | .361": false,
		".355 taper | .353": false, ".355 taper | .368": false, ".355 taper | .371": true, ".355 taper | .344": true, ".355 parallel | .368": true,
	} {
		c := read(t, grid("Ferrules", "Part | Tip size | Ferrule bore (in) | Base OD (in)\nXF-A | "+cells+" | .540\nXF-B | .370 | .368 | .540"))
		conflict := false
		for _, f := range c.Findings {
			conflict = conflict || f.Code == "data.conflict" && f.Place.Cell == "C2" && f.Severity == finding.Warning
		}
		f := ferruleOf(t, c, "XF-A")
		if conflict != told || !f.Ferrule.Bore.Given() || !f.Ferrule.ForTip.Known() {
			t.Errorf("%s: told %v, known as %s", cells, conflict, known(f))
			t.Log(explain(c))
		}
	}
}

// A ferrule for several tips is one for the tip that a taper grows to, or a question.
func TestFerruleForSeveralTips(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | Shaft tip | Base OD (in)
XF-A | .355 / .370 | .540
XF-B | .370, .355 taper | .540
XF-C | .335 / .350 | .500
XF-D | .370 / .370 | .540
`))
	defer show(t, c)
	for part, want := range map[string]string{"XF-A": "for .370 parallel", "XF-B": "for .370 parallel", "XF-C": "", "XF-D": "for .370 parallel"} {
		if got := known(ferruleOf(t, c, part)); got != want {
			t.Errorf("%s is known as %q, want %q", part, got, want)
		}
	}
	asked := 0
	for _, f := range c.Findings {
		if f.Code == "data.missing" {
			asked++
			if f.Place.Cell != "B4" || f.Settle != `sheets."Ferrules".rows.4.bore` {
				t.Errorf("asked as %+v", f)
			}
		}
	}
	if asked != 1 {
		t.Errorf("asked %d times", asked)
	}
}

// Without a bore and a column of tips, a tip is read in words: with a word that says it fits, or its form; a title among the rows needs
// neither.
func TestTipInWords(t *testing.T) {
	for description, want := range map[string]string{
		"Black ferrule fits .370":      ".370 parallel",
		"Wood ferrule .335":            ".335 parallel",
		"Zierring .370 schwarz":        ".370 parallel",
		"Fits .370, black":             ".370 parallel",
		"black, for .355":              ".355 taper",
		".355 taper ferrule":           ".355 taper",
		".355 parallel ferrule":        ".355 parallel",
		`for .370" tips`:               ".370 parallel",
		"for .370 in tips":             ".370 parallel",
		"passend für .370, schwarz":    ".370 parallel",
		"für 9,4 mm Schaft":            ".370 parallel",
		".370用 ショート":                   ".370 parallel",
		".355テーパー用":                    ".355 taper",
		"适用.370":                       ".370 parallel",
		"pour .335":                    ".335 parallel",
		"fits .355 taper and .370":     ".370 parallel",
		"black, taper .355":            ".355 taper",
		"conique .355, noire":          ".355 taper",
		"Parallel tip .370, green":     ".370 parallel",
		"slip-on, .370P":               ".370 parallel",
		"Pro Sport .355T":              ".355 taper",
		"std iron, 370 parallel":       ".370 parallel",
		"黒 355テーパー":                    ".355 taper",
		"taper .355 or parallel .370":  ".370 parallel",
		"hybrid .370, black":           ".370 parallel",
		"Model 370, black":             "",
		"hole .350, black":             "",
		"fits .335 and .370":           "", // no one bore suits both
		"Black, .370":                  "", // of what?
		"Base .350 high":               "",
		"fits .540 hosels":             "",
		"model XF.370 for woods":       "",
		"fits .3705 shafts":            "",
		"Two rings, for 1.370 in long": "",
	} {
		c := read(t, grid("Ferrules", "Part | Description | Base OD (in) | Length (in)\nXF-A | "+description+" | .540 | .50\nXF-B | white | .540 | .75"))
		f := ferruleOf(t, c, "XF-A")
		if got := f.Ferrule.ForTip.String(); got != want {
			t.Errorf("%q is for %q, want %q", description, got, want)
		}
		if assumed := strings.Contains(strings.Join(f.Assumptions, "; "), "description"); assumed != (want != "") && description != "fits .335 and .370" {
			t.Errorf("%q: assumptions %q", description, f.Assumptions)
		}
		if other := ferruleOf(t, c, "XF-B"); other.Ferrule.ForTip.Known() {
			t.Errorf("the other is for %v", other.Ferrule.ForTip)
		}
	}
	titled := read(t, grid("Ferrules", "Trim rings for .370 parallel tips\nPart | Base OD (in) | Length (in)\nXF-A | .540 | .50\n.335 wood\nXF-B | .480 | .75"))
	for part, want := range map[string]string{"XF-A": ".370 parallel", "XF-B": ".335 parallel"} {
		if got := ferruleOf(t, titled, part).Ferrule.ForTip.String(); got != want {
			t.Errorf("%s is for %q, want %q", part, got, want)
			t.Log(explain(titled))
		}
	}
}

// A heading that may mean the tip as well as the bore is told by its sizes, in whichever unit tips are called by.
func TestHeadingOfTipOrBore(t *testing.T) {
	for _, heading := range []string{
		"Fits", "To fit", "For tip", "Tip", "Tip size", "Shaft", "Shaft size", "Shaft dia.", "for shaft", "Suits shaft", "Shaft tip", "für Schaft", "Schaftspitze", "Schaftdurchmesser",
		"適合シャフト", "対応シャフト", "Pour shaft", "Pour pointe", "Para punta", "Per punta", "适用杆尖", "適用桿尖", "적용 샤프트 팁",
	} {
		for cell, want := range map[string]string{".370": "for .370 parallel", "370": "for .370 parallel", "9.4": "for .370 parallel", "370P": "for .370 parallel"} {
			c := readInputs(t, reader.Options{}, reader.Input{Kind: catalog.Ferrules,
				Book: book("orrin.xlsx", grid("Ferrules", "Part | "+heading+" | Base OD (in)\nXF-A | "+cell+" | .540\nXF-B | "+cell+" | .560"))})
			for _, f := range c.Findings {
				if f.Severity > finding.Note {
					t.Errorf("%s over %s: %+v", heading, cell, f)
				}
			}
			if got := known(ferruleOf(t, c, "XF-A")); got != want {
				t.Errorf("%s over %s: known as %q", heading, cell, got)
				t.Log(explain(c))
			}
		}
		c := readInputs(t, reader.Options{}, reader.Input{Kind: catalog.Ferrules,
			Book: book("orrin.xlsx", grid("Ferrules", "Part | "+heading+" | Base OD (in)\nXF-A | .368 | .540\nXF-B | .353 | .520"))})
		if got := known(ferruleOf(t, c, "XF-A")); strings.HasPrefix(got, "for .370") {
			t.Errorf("%s over true bores: known as %q", heading, got)
		}
	}
}

// A bore of a table of true bores is not merged with the name of a tip in another: they are two things.
func TestTipsAndBoresOfOnePart(t *testing.T) {
	c := read(t, grid("Ferrules", "Part | Bore (in) | Base OD (in)\nXF-A | .370 | .540\nXF-B | .355 | .540"),
		grid("Drawings", "Ferrule | Ferrule bore (in) | Length (in)\nXF-A | .368 | .50\nXF-B | .353 | .75"))
	defer show(t, c)
	if got := known(ferruleOf(t, c, "XF-A")); len(c.Ferrules) != 2 || got != "9.3472 mm, for .370 parallel" {
		t.Errorf("%d ferrules, known as %s", len(c.Ferrules), got)
	}
	for _, f := range c.Findings {
		if f.Code == "data.conflict" {
			t.Errorf("%+v", f)
		}
	}
}

// Heads are read as before: a bore that is a tip's name is one, whatever the ferrules' are.
func TestHeadsKeepTheirNames(t *testing.T) {
	c := read(t, grid("Heads", "Part | Hosel OD (in) | Bore (in)\nXH-A | .530 | .370"))
	if h := c.Heads[0]; !h.BoreIsDesignation || len(h.TipTaken) != 1 || h.TipTaken[0].Form() != fitcalc.TipParallel {
		t.Errorf("%+v", h)
	}
}

// A bore beside which its cell names the tip is one, where it is such as bores for that tip are.
func TestBoreWithItsTip(t *testing.T) {
	c := read(t, grid("Irons", `
Head | Hosel OD | Bore | Depth
A-5 | 13.6 mm | 9.1 mm (.355 taper) | 32 mm
A-6 | 13.6 mm | 9.5 mm [.370] | 32 mm
A-7 | 13.6 mm | .370 (9.5 mm) | 32 mm
A-8 | 13.6 mm | 9.5 mm (.335) | 32 mm
`))
	defer show(t, c)
	want := map[string][2]string{"A-5": {"9.1", ".355 taper"}, "A-6": {"9.5", ".370"}, "A-7": {"9.5", ".370"}, "A-8": {"", ""}}
	for _, h := range c.Heads {
		bore, tip := "", h.Fields.Text(catalog.TipTaken)
		if h.Head.Bore.Given() {
			bore = h.Head.Bore.Nominal().String()
		}
		if got := [2]string{strings.TrimSuffix(bore, " mm"), tip}; got != want[h.Part] {
			t.Errorf("%s has %q, want %q", h.Part, got, want[h.Part])
		}
	}
	wantFinding(t, c, "data.conflict", "C5", "not the same size")
}

// A title that says for which tip all ferrules are tells that their bores are bores, where these are a little under it and another tip goes by that name.
func TestBoresUnderTheTipOfATitle(t *testing.T) {
	for _, c := range []struct{ title, bore, want string }{
		{"All for .355 taper tips", "8.9", "8.9 mm, for .355 taper"},
		{"Alle für .355 konisch", "8,9", "8.9 mm, for .355 taper"},
		{"Rings for .350 tips", "8.89", "for .350 parallel"},
		{"Rings in black", "8.9", "for .350 parallel"},
	} {
		got := readInputs(t, reader.Options{}, reader.Input{Book: book("orrin.xlsx", grid("Ferrules", c.title+"\n\nPart | Base OD (mm) | Bore (mm)\nXF-A | 13.0 | "+c.bore+"\nXF-B | 13.4 | "+c.bore))})
		if says := known(ferruleOf(t, got, "XF-A")); says != c.want {
			t.Errorf("%s, %s: %s, want %s", c.title, c.bore, says, c.want)
		}
	}
}

// TestTipBesideRefusedBore takes the tip that a section, a title or the description says where the bore of the row cannot be one, as an assumption.
func TestTipBesideRefusedBore(t *testing.T) {
	for name, text := range map[string]string{
		"a section":     "Part | Description | Bore mm | Base OD mm\nF-1 | plain | 9.3 | 13.5\n.355 taper:\nF-2 | plain | 13.9 | 13.2\nF-3 | plain | 8.9 | 13.2",
		"a German one":  "Art.-Nr. | Bezeichnung | Bohrung mm | Basis-Ø mm\nF-1 | glatt | 9.3 | 13.5\nkonisch .355:\nF-2 | glatt | 89 | 13.2\nF-3 | glatt | 8.9 | 13.2",
		"a description": "Part | Description | Bore mm | Base OD mm\nF-1 | plain, .370 tip | 9.3 | 13.5\nF-2 | plain, .355 taper tip | 13.9 | 13.2\nF-3 | plain, .355 taper tip | 8.9 | 13.2",
		"a title":       "Ferrules for .355 taper tips\n\nPart | Description | Bore mm | Base OD mm\nF-1 | plain | 8.8 | 13.5\nF-2 | plain | 13.9 | 13.2\nF-3 | plain | 8.8 | 13.2",
	} {
		got := read(t, grid("Ferrules", text))
		if len(got.Ferrules) != 3 || got.Ferrules[1].Ferrule.Bore.Given() || got.Ferrules[1].Ferrule.ForTip != got.Ferrules[2].Ferrule.ForTip || !got.Ferrules[1].Ferrule.ForTip.Known() || len(got.Ferrules[1].Assumptions) == 0 {
			defer show(t, got)
			t.Errorf("%s: %d ferrules, the second for %v by %q", name, len(got.Ferrules), got.Ferrules[1].Ferrule.ForTip, got.Ferrules[1].Assumptions)
		}
	}
}

// A form and the thousandths of an inch name the tip in a column of tips, whatever stands first and whether a legend explains it.
func TestFormsBeforeTips(t *testing.T) {
	for name, test := range map[string]struct{ heading, cells, legend string }{
		"bare":                 {"Tip", "P370 T355 P335", ""},
		"behind":               {"Schaftspitze", "370P 355T 335P", ""},
		"with a joint":         {"適合チップ", "P-370 T-355 P-335", ""},
		"words":                {"SPITZE_CD", "PAR370 TAP355 PAR335", ""},
		"in inches":            {"Tip", "P.370 T.355 P.335", ""},
		"a legend":             {"TIP_CD", "P370 T355 P335", "TIP_CD: P = parallel, T = taper, then the tip in thousandths of an inch."},
		"a legend in Japanese": {"チップコード", "P370 T355 P335", "P=パラレル T=テーパー、数字はチップ径(1/1000インチ)"},
	} {
		t.Run(name, func(t *testing.T) {
			text := "Item no. | " + test.heading + " | Base OD mm | Bore mm\n"
			for i, cell := range strings.Fields(test.cells) {
				text += fmt.Sprintf("FX-%d | %s | 13.5 | %s\n", i, cell, []string{"9.3", "8.9", "8.4"}[i])
			}
			c := read(t, grid("Ferrules", text+"\n"+test.legend))
			var got []string
			for i := range c.Ferrules {
				got = append(got, c.Ferrules[i].Ferrule.ForTip.String())
			}
			if diff := cmp.Diff([]string{".370 parallel", ".355 taper", ".335 parallel"}, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A title that is not surely about the ferrules below it gives them no tip, and is asked about where nothing else gives one.
func TestTipsOfTitles(t *testing.T) {
	const rows = "\nPart | Base OD (mm) | Length (mm)\nXF-A | 13.7 | 25\nXF-B | 13.8 | 25"
	for title, want := range map[string]string{
		"Ferrules, .370 - will go on the above":       ".370 parallel",
		"Zierringe, .335 - passend zu obigen":         ".335 parallel",
		"Ferrules - heads for .370 shafts: see below": "asked",
		"Zierringe. Köpfe für .370: siehe unten":      "asked",
		"Ferrules, .350 high":                         "asked",
		"Ferrules in black":                           "",
	} {
		c := read(t, grid("Ferrules", title+rows))
		got := ferruleOf(t, c, "XF-A").Ferrule.ForTip.String()
		for _, f := range c.Findings {
			if f.Code == "data.missing" {
				got += "asked"
			}
		}
		if got != want {
			t.Errorf("%q gives %q, want %q", title, got, want)
		}
	}
}
