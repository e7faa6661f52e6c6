package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestBoreByValues looks for bores under a word that nobody knows: only where nothing else can look like that.
func TestBoreByValues(t *testing.T) {
	for _, test := range []struct {
		name, title, sheet string
		taken              bool
	}{
		{"heads", "Heads", "Part | Hosel OD (mm) | Zork | Price\nQ-1 | 13.6 | 9.45 | 18\nQ-2 | 13.5 | 9.1 | 19\nQ-3 | 13.6 | 9.52 | 21", true},
		{"ferrules, whose thin ends are known", "Ferrules", "Part | Base OD | Zork | Top OD | Price\nQ-1 | 13.6 | 9.3 | 10.2 | 1.8\nQ-2 | 13.5 | 8.95 | 10.2 | 1.9\nQ-3 | 13.6 | 9.3 | 10.4 | 2.1", true},
		{"inches are finer than prices", "Heads", "Part | Hosel OD (in) | Zork\nQ-1 | .535 | .372\nQ-2 | .540 | .358\nQ-3 | .535 | .373", true},
		{"lofts", "Heads", "Part | Hosel OD (mm) | Zork | Price\nQ-1 | 12.1 | 9.5 | 18\nQ-2 | 12.1 | 8.5 | 19\nQ-3 | 12.1 | 9.5 | 21", false},
		{"prices perhaps", "Heads", "Part | Hosel OD (mm) | Zork\nQ-1 | 13.6 | 9.45\nQ-2 | 13.5 | 9.10\nQ-3 | 13.6 | 9.52", false},
		{"thin ends perhaps", "Ferrules", "Part | Base OD | Zork | Price\nQ-1 | 13.6 | 9.8 | 1.8\nQ-2 | 13.5 | 9.75 | 1.9\nQ-3 | 13.6 | 9.8 | 2.1", false},
		{"another could be it", "Heads", "Part | Hosel OD (mm) | Zork | Blip | Price\nQ-1 | 13.6 | 9.45 | 9.12 | 18\nQ-2 | 13.5 | 9.1 | 9.12 | 19\nQ-3 | 13.6 | 9.52 | 9.15 | 21", false},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := read(t, grid(test.title, "\n"+test.sheet+"\n"))
			defer show(t, c)
			given := 0
			for _, h := range c.Heads {
				if h.Head.Bore.Given() {
					given++
				}
			}
			for _, f := range c.Ferrules {
				if f.Ferrule.Bore.Given() {
					given++
				}
			}
			if want := map[bool]int{true: 3}[test.taken]; given != want {
				t.Errorf("%d bores, want %d", given, want)
			}
			if test.taken {
				wantFinding(t, c, "layout.role", "C1", "by its values")
			}
		})
	}
}

// The least and the greatest outer diameter of ferrules are those of their ends where no row could mean limits of one.
func TestLeastAndGreatestOfTwoEnds(t *testing.T) {
	for name, headings := range map[string]string{
		"both":           "Part no | OD max | OD min | ID | L",
		"the least only": "Part no | Base OD | OD min | ID | L",
		"German":         "Teilenummer | max. Außendurchmesser | min. Außendurchmesser | Innendurchmesser | Länge",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", "\n"+headings+"\nF-1 | 13.6 | 10.4 | 9.35 | 25.4\nF-2 | 13.4 | 10.2 | 9.35 | 20\nF-3 | 13.6 | 10.4 | 8.95 | 20\n"))
			defer show(t, c)
			wantFinding(t, c, "layout.role", "C1", "too far apart in every row")
			wantRow(t, c, "F-1", catalog.Assumed, sizes{catalog.BaseOD: 13.6, catalog.TopOD: 10.4})
		})
	}
}

// Currencies are no units of sizes, even where the word above them is unknown.
func TestCurrenciesAreNoUnits(t *testing.T) {
	c := read(t, grid("Ferrules", "\nPart | Zork | Bore | Base OD | Price\nF-1 | EUR | 9.3 | 13.6 | 1.5\nF-2 | EUR | 9.3 | 13.5 | 1.6\nF-3 | USD | 8.9 | 13.6 | 1.5\n"))
	defer show(t, c)
	for _, column := range c.Tables[0].Columns {
		if column.Role == catalog.UnitRole {
			t.Errorf("column %s is one of units", column.Column)
		}
	}
}

// What parts are called and what lies between two other sizes tell what a column is, and texts before other columns are descriptions.
func TestByValues(t *testing.T) {
	for _, test := range []struct {
		name, sheet string
		role        catalog.Role
	}{
		{"tips", "Part | Zork | Bore (mm) | Base OD (mm)\nF-1 | .370 | 9.3 | 13.6\nF-2 | .355 | 8.9 | 13.6\nF-3 | .335 | 8.4 | 12", catalog.TipTaken},
		{"no tips", "Part | Zork | Bore (mm) | Base OD (mm)\nF-1 | .370 | 9.3 | 13.6\nF-2 | .355 | 8.9 | 13.6\nF-3 | .45 | 8.4 | 12", catalog.NoRole},
		{"thin ends", "Part | Zork Ø mm | Bore (mm) | Base OD (mm)\nF-1 | 10.4 | 9.3 | 13.6\nF-2 | 10.2 | 8.9 | 13.6\nF-3 | 9.7 | 8.4 | 12", catalog.TopOD},
		{"the far end in a word that tips have too", "Codice | Ø punta mm | Ø foro mm | Ø base mm\nF-1 | 10.5 | 9.3 | 13.5\nF-2 | 10 | 8.9 | 13\nF-3 | 9.8 | 8.4 | 11.8", catalog.TopOD},
		{"the collar perhaps", "Ref. | Ø cuello mm | Ø interior mm | Ø exterior mm | Alto collarín mm\nF-1 | 10.4 | 9.3 | 13.6 | 1.5\nF-2 | 10.2 | 8.9 | 13.6 | 1.2\nF-3 | 9.7 | 8.4 | 12 | 1.5", catalog.NoRole},
		{"tips in mm in that word", "Codice | Ø punta mm | Ø foro mm | Ø base mm\nF-1 | 9.4 | 9.3 | 13.5\nF-2 | 9.02 | 8.9 | 13\nF-3 | 8.5 | 8.4 | 11.8", catalog.TipTaken},
		{"prices perhaps", "Part | Zork | Bore (mm) | Base OD (mm)\nF-1 | 10.45 | 9.3 | 13.6\nF-2 | 10.25 | 8.9 | 13.6\nF-3 | 9.75 | 8.4 | 12", catalog.NoRole},
		{"wider than the base", "Part | Zork Ø mm | Bore (mm) | Base OD (mm)\nF-1 | 14.4 | 9.3 | 13.6\nF-2 | 14.2 | 8.9 | 13.6\nF-3 | 13.7 | 8.4 | 12", catalog.NoRole},
		{"texts", "Part | | Bore (mm) | Base OD (mm)\nF-1 | black plain | 9.3 | 13.6\nF-2 | navy | 8.9 | 13.6\nF-3 | red, ringed | 8.4 | 12", catalog.Description},
		{"texts behind the part numbers", "Part | Zork | Bore (mm) | Base OD (mm)\nF-1 | black plain | 9.3 | 13.6\nF-2 | navy | 8.9 | 13.6\nF-3 | red, ringed | 8.4 | 12", catalog.Description},
		{"texts under a word for what is counted", "Part | Ring | Bore (mm) | Base OD (mm)\nF-1 | black plain | 9.3 | 13.6\nF-2 | navy | 8.9 | 13.6\nF-3 | red, long | 8.4 | 12", catalog.Description},
		{"texts under a word for a form", "Art. | Ausführung | Bohrung (mm) | Ø unten (mm)\nF-1 | schwarz poliert | 9.3 | 13.6\nF-2 | weiß | 8.9 | 13.6\nF-3 | schwarz, lang | 8.4 | 12", catalog.Description},
		{"forms", "Part | Style | Bore (mm) | Base OD (mm)\nF-1 | tapered | 9.3 | 13.6\nF-2 | straight | 8.9 | 13.6\nF-3 | tapered | 8.4 | 12", catalog.Style},
		{"rings", "Part | Rings | Bore (mm) | Base OD (mm)\nF-1 | 2 | 9.3 | 13.6\nF-2 | 1 | 8.9 | 13.6\nF-3 | 0 | 8.4 | 12", catalog.Rings},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := read(t, grid("Ferrules", "\n"+test.sheet+"\n"))
			defer show(t, c)
			got := catalog.Role("")
			for _, column := range c.Tables[0].Columns {
				if column.Column == "B" {
					got = column.Role
				}
			}
			if test.role == catalog.NoRole {
				test.role = ""
			}
			if got != test.role {
				t.Errorf("%q, want %q", got, test.role)
			}
		})
	}
}

// Sets of clubs are clubs under whatever words, and the names beside them under a word for heads are the descriptions.
func TestClubsByValues(t *testing.T) {
	for _, test := range []struct {
		name, headings, last, description string
	}{
		{"English", "Ref | Heads | What's in it | Hosel OD | Bore | Each", "60", "Rowan wedge"},
		{"a word that nobody knows", "Ref | Head | Zork | Hosel OD | Bore | Each", "60°", "Rowan wedge"},
		{"German", "Nr. | Köpfe | Drin ist | Hosel außen | Bohrung | Stück EUR", "7W", "Rowan wedge"},
		{"French, a word for the stock", "Réf | Têtes | Ce qu'il y a | Hosel ext. | Perçage | Pièce EUR", "SW", "Rowan wedge"},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := read(t, grid("Heads", "All sizes mm\n"+test.headings+"\nH-1 | Alder blades | 3-9, PW | 13.4 | 9.5 | 24\nH-2 | Alder CB | 4-PW | 13.5 | 9.5 | 19\nH-3 | Rowan wedge | 52 | 13.8 | 9.5 | 22\n"+
				"H-4 | Rowan wedge | "+test.last+" | 13.8 | 9.5 | 22\n"))
			defer show(t, c)
			if got := fieldOf(t, c, "H-3", catalog.Description).Text; got != test.description {
				t.Errorf("the description of H-3 is %q, want %q", got, test.description)
			}
			wantRow(t, c, "H-2 7", catalog.Used, sizes{catalog.HoselOD: 13.5, catalog.Bore: 9.5})
		})
	}
}

// Where a column counts the clubs of the sets beside it, a set that has others is doubtful, whatever stands above the two.
func TestCountsOfSets(t *testing.T) {
	for _, test := range []struct {
		name, headings, counts string
		asked                  bool
	}{
		{"English", "Ref | Set | Heads", "7 6 7 6", true},
		{"words beside numbers", "Ref | Set | Heads", "7_heads 6_heads 7_heads 6_heads", true},
		{"German", "Nr. | Satz | Köpfe im Satz", "7 6 7 6", true},
		{"a word for pieces", "Ref | Clubs | Pcs", "7 6 7 6", true},
		{"a word that nobody knows", "Ref | Clubs | Zork", "7 6 7 6", true},
		{"all agree", "Ref | Set | Heads", "7 6 5 6", false},
		{"the stock", "Ref | Set | Stock", "4 1 2 5", false},
		{"half of them by chance", "Ref | Set | Stock", "7 6 2 5", false},
	} {
		t.Run(test.name, func(t *testing.T) {
			text := "All sizes mm\n" + test.headings + " | Hosel OD | Bore\n"
			counts := strings.Fields(test.counts)
			for i, set := range []string{"4-PW", "5-PW", "5-9", "6-PW, SW"} {
				text += fmt.Sprintf("H-%d | %s | %s | 13.5 | 9.5\n", i+1, set, strings.ReplaceAll(counts[i], "_", " "))
			}
			c := read(t, grid("Heads", text))
			defer show(t, c)
			if test.asked {
				wantFinding(t, c, "data.conflict", "B5", "names 5 clubs")
			} else if slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Code == "data.conflict" }) {
				t.Error("a set is doubted")
			}
		})
	}
}

// Codes below technical names are what a legend below the table says beside the same names.
func TestLegendBesideNames(t *testing.T) {
	for headings, legend := range map[string]string{
		"ITM_NO | CAT_CD | CLB_NO | TIP_CD | HSL_OD_MM":  "CAT_CD | IR = iron, WG = wedge\nTIP_CD | P = .370 parallel, T = .355 taper",
		"Teilenr | Typ | Schläger | Spitze | Hosel Ø mm": "Typ | IR = Eisen, WG = Wedge\nSpitze | P = .370 parallel, T = .355 konisch",
		"Réf | Catégorie | Club | Pointe | Ø hosel mm":   "Catégorie | IR = fer, WG = wedge\nPointe | P = .370 parallèle, T = .355 conique",
	} {
		c := read(t, grid("Heads", headings+"\nH-1 | IR | 4 | P | 13.5\nH-2 | IR | 5 | P | 13.5\nH-3 | WG | 52 | T | 13.8\n\n"+legend))
		var roles []catalog.Role
		for _, column := range c.Tables[0].Columns {
			roles = append(roles, column.Role)
		}
		if diff := cmp.Diff([]catalog.Role{catalog.Part, catalog.Category, catalog.Club, catalog.TipTaken, catalog.HoselOD}, roles); diff != "" {
			t.Errorf("%s (-want +got):\n%s", headings, diff)
			show(t, c)
			continue
		}
		for part, tip := range map[string]string{"H-1": ".370", "H-3": ".355"} {
			if got := fieldOf(t, c, part, catalog.TipTaken).Text; !strings.HasPrefix(got, tip) {
				t.Errorf("%s: the tip of %s is %q, want %s", headings, part, got, tip)
			}
		}
	}
}

// How deep bores are is told by their sizes where the heading says nothing else that is known, beside the column of their diameters.
func TestDepthByValues(t *testing.T) {
	for heading, want := range map[string]float64{"Bohrung runter": 32, "Perçage jusqu'en bas": 32, "Bore zork": 32} {
		c := read(t, grid("Heads", "All sizes mm\nPart | Hosel OD | Hosel bore | "+heading+"\nH-1 | 13.6 | 9.5 | 32\nH-2 | 13.5 | 9.5 | 32\nH-3 | 13.6 | 32 | 9.5\nH-4 | 13.6 | 9.5 | 34"))
		defer show(t, c)
		wantRow(t, c, "H-1", catalog.Assumed, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5, catalog.BoreDepth: want})
		wantFinding(t, c, "data.implausible", "C5", "beyond")
	}
	c := read(t, grid("Heads", "All sizes mm\nPart | Hosel OD | Hosel bore | Bore zork\nH-1 | 13.6 | 9.5 | 9.1\nH-2 | 13.5 | 9.5 | 9.1\nH-3 | 13.6 | 9.5 | 9.2"))
	defer show(t, c)
	if dim := fieldOf(t, c, "H-1", catalog.BoreDepth).Dim; dim.Given() {
		t.Errorf("a second bore is the depth %v", dim)
	}
}

// Letters of diameters have the roles that the order of their sizes gives them, whichever letter is the greater.
func TestLettersOfDiameters(t *testing.T) {
	for _, test := range []struct {
		name, title, sheet string
		want               sizes
	}{
		{"D and d, as of bearings in ISO 15", "Ferrules", "Part | D | d | L\nF-1 | 13.6 | 9.25 | 25.4\nF-2 | 13.5 | 9.3 | 19\nF-3 | 13.9 | 8.95 | 25.4", sizes{catalog.BaseOD: 13.6, catalog.Bore: 9.25, catalog.Length: 25.4}},
		{"d1 and d2, as of bushes in ISO 4379", "Ferrules", "Part | d1 | d2 | L | Price | Stock\nF-1 | 9.25 | 13.6 | 25.4 | 1.8 | 20\nF-2 | 9.3 | 13.5 | 19 | 1.8 | 0\nF-3 | 8.95 | 13.9 | 25.4 | 2.1 | 15", sizes{catalog.BaseOD: 13.6, catalog.Bore: 9.25}},
		{"three", "Ferrules", "Part | D1 (mm) | D2 (mm) | d (mm) | Price | Stock\nF-1 | 13.6 | 10.2 | 9.25 | 1.8 | 20\nF-2 | 13.5 | 10.2 | 9.3 | 1.8 | 0\nF-3 | 13.9 | 10.4 | 8.95 | 2.1 | 15", sizes{catalog.BaseOD: 13.6, catalog.TopOD: 10.2, catalog.Bore: 9.25}},
		{"the bore has a word", "Ferrules", "Part | D1 | D2 | Bore | Price\nF-1 | 13.6 | 10.2 | 9.25 | 1.8\nF-2 | 13.5 | 10.2 | 9.3 | 1.8\nF-3 | 13.9 | 10.4 | 8.95 | 2.1", sizes{catalog.BaseOD: 13.6, catalog.TopOD: 10.2, catalog.Bore: 9.25}},
		{"heads", "Heads", "Part | ØD | Ød | Hosel length\nF-1 | 13.6 | 9.45 | 66\nF-2 | 13.5 | 9.5 | 66\nF-3 | 13.9 | 9.06 | 70", sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.45}},
		{"numbers behind words", "Ferrules", "Part | OD 2 | OD 1 | ID\nF-1 | 10.2 | 13.6 | 9.25\nF-2 | 10.2 | 13.5 | 9.3\nF-3 | 10.4 | 13.9 | 8.95", sizes{catalog.BaseOD: 13.6, catalog.TopOD: 10.2, catalog.Bore: 9.25}},
		{"no order", "Ferrules", "Part | D | d | L\nF-1 | 13.6 | 9.25 | 25.4\nF-2 | 9.5 | 13.3 | 19\nF-3 | 8.9 | 13.95 | 25.4", nil},
		{"thin ends under a letter, and no bore", "Ferrules", "Part | D | d | L\nF-1 | 13.6 | 10.25 | 25.4\nF-2 | 13.5 | 10.3 | 19\nF-3 | 13.9 | 10.95 | 25.4", nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := read(t, grid(test.title, "\n"+test.sheet+"\n"))
			defer show(t, c)
			if test.want != nil {
				wantRow(t, c, "F-1", catalog.Assumed, test.want)
				return
			}
			for _, f := range c.Ferrules {
				if f.Ferrule.Bore.Given() {
					t.Errorf("%s has the bore %v", f.Part, f.Ferrule.Bore)
				}
			}
		})
	}
}

// Tips have no limits: a plus between two of them is an "and".
func TestTipsWithPlus(t *testing.T) {
	c := read(t, grid("Heads", "\nPart | Hosel OD (mm) | Bore (mm) | Tip\nH-1 | 13.6 | 9.45 | .335+.350\nH-2 | 13.6 | 9.45 | .350 + .370\nH-3 | 13.6 | 9.45 | .370\n"))
	defer show(t, c)
	for part, given := range map[string]bool{"H-1": false, "H-2": false, "H-3": true} {
		if f := fieldOf(t, c, part, catalog.TipTaken); f.Dim.Given() != given || f.Dim.HasLimits() {
			t.Errorf("%s: %v", part, f.Dim)
		}
	}
}

// Words for before and after above groups of the same headings tell which sizes count.
func TestBeforeAndAfterAboveGroups(t *testing.T) {
	for _, words := range [][2]string{{"Before", "After"}, {"vorher", "nachher"}, {"avant", "après"}, {"変更前", "変更後"}} {
		c := read(t, grid("Heads", "\n | "+words[0]+" | | "+words[1]+" |\nPart | Hosel OD (mm) | Bore (mm) | Hosel OD (mm) | Bore (mm)\nH-1 | 14.1 | 9.07 | 13.6 | 9.5\nH-2 | 14.0 | 9.06 | 13.5 | 9.51\nH-3 | 13.9 | 9.07 | 13.5 | 9.5\n"))
		defer show(t, c)
		wantRow(t, c, "H-1", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5})
	}
}
