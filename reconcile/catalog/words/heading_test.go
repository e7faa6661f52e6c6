package words

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// rowsOf reads a table of headings in testdata, whose lines have so many fields.
func rowsOf(t testing.TB, file string, width int) [][]string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		fields := strings.Split(line, "|")
		if len(fields) != width {
			t.Fatalf("%q does not have %d fields", line, width)
		}
		rows = append(rows, fields)
	}
	return rows
}

func TestMatchInKnownTables(t *testing.T) {
	v := Load()
	rows := rowsOf(t, "headings.txt", 4)
	if len(rows) < 300 {
		t.Fatalf("only %d headings", len(rows))
	}
	for _, row := range rows {
		kind, heading, want, unit := row[0], row[1], row[2], row[3]
		parts := strings.Split(heading, " > ")
		matches := v.MatchIn(kind, parts...)
		got := ""
		if len(matches) > 0 {
			got = matches[0].Role
		}
		if got != want {
			t.Errorf("%s: %q is taken for %q, want %q: %+v", kind, heading, got, want, matches)
		}
		found := ""
		for _, part := range parts {
			if _, u, _ := v.SplitUnit(part); u != "" {
				found = u
			}
		}
		if found != unit {
			t.Errorf("%q: unit %q, want %q", heading, found, unit)
		}
	}
}

// The roles that a table of headings by another hand gives, of which each would be honest.
func testAnotherHand(t *testing.T, file string) {
	v := Load()
	for _, row := range rowsOf(t, file, 3) {
		got := ""
		if matches := v.MatchIn(row[0], row[1]); len(matches) > 0 {
			got = matches[0].Role
		}
		if !slices.Contains(strings.Split(row[2], "/"), got) {
			t.Errorf("%s: %q is taken for %q, want %q", row[0], row[1], got, row[2])
		}
	}
}

func TestMatchInAnotherHand(t *testing.T) { testAnotherHand(t, "headings2.txt") }

func TestMatchInTheShop(t *testing.T) { testAnotherHand(t, "headings3.txt") }

func TestMatchKnowsShortForms(t *testing.T) {
	v := Load()
	for heading, want := range map[string]string{
		"INN_DIA_MM":   "bore",
		"INN_DEPTH_MM": "bore_depth",
		"EXTER_DIA":    "hosel_od",
		"Categ.":       "category",
		"Suppl.":       "",
		"Xyl":          "",
		"HSL_DMTR":     "hosel_od",
		"Bâton":        "club",
		"No de bâton":  "club",

		"Who's it for / notes": "note",
		"Für wen":              "note",
		"Pour qui / remarques": "note",
		"Voor wie":             "note",
	} {
		got := ""
		if matches := v.MatchIn("heads", heading); len(matches) > 0 {
			got = matches[0].Role
		}
		if got != want {
			t.Errorf("%q is taken for %q, want %q", heading, got, want)
		}
	}
	for heading, want := range map[string]string{"OD_LWR_MM": "base_od", "OD_UPR_MM": "top_od"} {
		if got := v.MatchIn("ferrules", heading); len(got) == 0 || got[0].Role != want {
			t.Errorf("%q of ferrules: %+v, want %s", heading, got, want)
		}
	}
}

// "AD" is a German outer diameter; a language in which it is short for pieces must not take the unit from it.
func TestNoCountIsASize(t *testing.T) {
	v := Load()
	for word, entries := range v.classes[classUnit].words {
		if entries[0].value != "pcs" && !IsCurrency(entries[0].value) {
			continue
		}
		for _, e := range v.classes[classConcept].words[word] {
			for _, size := range []string{"outer diameter", "inner diameter", "diameter", "length", "depth", "bore"} {
				if e.concepts.meets(v.concepts[size]) {
					t.Errorf("%q is a unit in %s (%s) and says %q in %s", word, entries[0].language, entries[0].value, size, e.language)
				}
			}
		}
	}
}

func TestMatchKnowsTheKindMatters(t *testing.T) {
	v := Load()
	for heading, want := range map[string]map[string]string{
		"OD":       {"heads": "hosel_od", "ferrules": "base_od", "tips": "tip_od"},
		"Top OD":   {"heads": "hosel_od", "ferrules": "top_od"},
		"Tip size": {"heads": "tip", "ferrules": "bore", "tips": "tip_od"},
		"外径":       {"heads": "hosel_od", "ferrules": "base_od", "tips": "tip_od"},
	} {
		for kind, role := range want {
			if got := v.MatchIn(kind, heading); len(got) == 0 || got[0].Role != role {
				t.Errorf("%s in %s: %+v, want %s first", heading, kind, got, role)
			}
		}
	}
	clear, vague := v.Match("Hosel OD"), v.Match("OD")
	if clear[0].Score < 0.85 || vague[0].Score > 0.7 {
		t.Errorf("Hosel OD scores %v and OD %v; the first must be clear and the second not", clear[0].Score, vague[0].Score)
	}
}

func TestMatchCountsLeftoverWordsAgainst(t *testing.T) {
	v := Load()
	bare := v.Match("Hosel OD")[0]
	more := v.Match("Hosel OD zwubble")[0]
	if more.Role != "hosel_od" || more.Score >= bare.Score || more.Leftover != "zwubble" {
		t.Errorf("got %+v after %+v", more, bare)
	}
	if got := v.Match("zwubble"); len(got) != 0 {
		t.Errorf("an unknown word gives %+v", got)
	}
}

func TestMatchForgivesASlip(t *testing.T) {
	v := Load()
	for _, heading := range []string{"Hosel diamter", "Hosel diameterr", "Hosel daimeter", "Insertoin depth", "Counterbroe depth"} {
		got := v.Match(heading)
		if len(got) == 0 || got[0].Score >= 0.95 || got[0].Score < 0.5 {
			t.Errorf("%q: %+v", heading, got)
		}
	}
}

func TestSplitUnit(t *testing.T) {
	type result struct{ Rest, Unit, Place string }
	for heading, want := range map[string]result{
		"Inc. angle":           {"Inc. angle", "", ""},
		"Hosel OD (mm)":        {"Hosel OD", "mm", "(mm)"},
		"Bore [in]":            {"Bore", "in", "[in]"},
		"外径 (mm)":              {"外径", "mm", "(mm)"},
		"OD, inch":             {"OD", "in", "inch"},
		"Hosel Ø mm":           {"Hosel Ø", "mm", "mm"},
		`Bore "`:               {"Bore", "in", `"`},
		"外径mm":                 {"外径", "mm", "mm"},
		"外径毫米":                 {"外径", "mm", "毫米"},
		"ODmm":                 {"OD", "mm", "mm"},
		"深度":                   {"深度", "", ""},
		"尺寸":                   {"尺寸", "", ""},
		"角度":                   {"角度", "", ""},
		"角度(度)":                {"角度", "deg", "(度)"},
		"OD (in/mm)":           {"OD", "", "(in/mm)"},
		"OD in/mm":             {"OD", "", "in/mm"},
		"OD in mm":             {"OD", "mm", "in mm"},
		"OD (in mm)":           {"OD", "mm", "(in mm)"},
		"Bore in":              {"Bore", "in", "in"},
		"Qty in stock":         {"Qty in stock", "", ""},
		"Hosel OD (at top)":    {"Hosel OD (at top)", "", ""},
		"OD (mm, ±0.05)":       {"OD", "mm", "(mm, ±0.05)"},
		"Größe in Zoll":        {"Größe", "in", "in Zoll"},
		"Ø (Zoll)":             {"Ø", "in", "(Zoll)"},
		"Precio (€)":           {"Precio", "EUR", "(€)"},
		"bore_dia_in":          {"bore_dia", "in", "in"},
		"Diamètre (pouces)":    {"Diamètre", "in", "(pouces)"},
		"内径（公厘）":               {"内径", "mm", "（公厘）"},
		"Length, thou":         {"Length", "thou", "thou"},
		"Angle °":              {"Angle", "deg", "°"},
		"OD (millimetres)":     {"OD", "mm", "(millimetres)"},
		"直径【インチ】":              {"直径", "in", "【インチ】"},
		"Price each":           {"Price each", "", ""},
		"OD (inches, nominal)": {"OD", "in", "(inches, nominal)"},
		"Big dia m.m.":         {"Big dia", "mm", "m.m."},
		"Bore M. M.":           {"Bore", "mm", "M. M."},
		"Ø trou m/m":           {"Ø trou", "mm", "m/m"},
		"Long. (m. m.)":        {"Long.", "mm", "(m. m.)"},
		"Largo c.m.":           {"Largo", "cm", "c.m."},
	} {
		rest, unit, place := Load().SplitUnit(heading)
		if diff := cmp.Diff(want, result{rest, unit, place}); diff != "" {
			t.Errorf("%q (-want +got):\n%s", heading, diff)
		}
	}
}

func TestHints(t *testing.T) {
	v := Load()
	for text, want := range map[string]Hints{
		"Hosel OD (mm)":              {Diameter: true, Outer: true, Unit: "mm"},
		"Hosel radius":               {Radius: true},
		"Rayon du col":               {Radius: true},
		"半径":                         {Radius: true},
		"Turn-down per side (in)":    {PerSide: true, HalfAngle: true, Unit: "in"},
		"片側":                         {PerSide: true, HalfAngle: true},
		"Countersink included angle": {Included: true},
		"Demi-angle":                 {HalfAngle: true},
		"Innen-Ø":                    {Diameter: true, Inner: true},
		"Max OD":                     {Diameter: true, Outer: true, Max: true},
		"OD approx.":                 {Diameter: true, Outer: true, Approx: true},
	} {
		if diff := cmp.Diff(want, v.Hints(text)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}

// Headings that say that their values were read off, in every language, and some that do not.
func TestHintsOfReadings(t *testing.T) {
	v := Load()
	for _, text := range []string{
		"Hosel OD measured (mm)", "Measured", "Reading 1 (mm)", "caliper readings", "Hosel-Ø gemessen", "Messwert 1 (mm)", "Istmaß Hosel",
		"Ø hosel mesuré (mm)", "Diámetro medido", "diametro misurato", "外径実測", "ホーゼル外径（実測値）", "측정값 (mm)", "外径实测", "外徑實測值",
	} {
		if !v.Hints(text).Measured {
			t.Errorf("%q says nothing of readings", text)
		}
	}
	for _, text := range []string{"Hosel OD (mm)", "Base OD", "Medidas (mm)", "misure", "外径", "Dimension", "Maß", "Taille"} {
		if v.Hints(text).Measured {
			t.Errorf("%q is taken for readings", text)
		}
	}
	for _, text := range []string{"Sample 1", "Piece 2 (mm)", "Stück 3", "样品1"} {
		if h := v.Hints(text); !h.Sample || h.Measured {
			t.Errorf("%q: %+v", text, h)
		}
	}
}

func TestRolesHaveKinds(t *testing.T) {
	v := Load()
	for _, role := range v.Roles() {
		if len(v.RoleKinds(role)) == 0 {
			t.Errorf("%s occurs in no kind of table", role)
		}
	}
	if v.RoleKinds("no such role") != nil {
		t.Error("an unknown role has kinds")
	}
}

func BenchmarkMatch(b *testing.B) {
	v := Load()
	for b.Loop() {
		v.Match("Hosel outside diameter at top (mm)")
	}
}

// TestWordsOfALetterOrTwo: beside words of other languages they are none.
func TestWordsOfALetterOrTwo(t *testing.T) {
	v := Load()
	for heading, want := range map[string]string{"to go on": "", "Gờ Ø": "collar_od", "Ø AD": "base_od", "AD unten": "base_od"} {
		got := ""
		if all := v.MatchIn("ferrules", heading); len(all) > 0 {
			got = all[0].Role
		}
		if got != want {
			t.Errorf("%q is %q, want %q", heading, got, want)
		}
	}
}
