package layout

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestCodesIn reads what notes say that letters stand for, and takes no unit, time or size for a letter.
func TestCodesIn(t *testing.T) {
	for text, want := range map[string]struct {
		name    string
		entries []legendEntry
	}{
		"Tip: A = .370 parallel, B = .335 parallel":         {"Tip", []legendEntry{{"A", ".370 parallel"}, {"B", ".335 parallel"}}},
		"Tip: A: .370, B: .335":                             {"Tip", []legendEntry{{"A", ".370"}, {"B", ".335"}}},
		"A = .370, A = .335":                                {"", nil},
		"Tip code: 1 = .370 parallel. 2 = .355 taper.":      {"Tip code", []legendEntry{{"1", ".370 parallel"}, {"2", ".355 taper"}}},
		"Finish: C = chrome, S = satin. Prices on request.": {"Finish", []legendEntry{{"C", "chrome"}, {"S", "satin"}}},
		"チップ：A＝.370パラレル、B＝.355テーパー":                         {"チップ", []legendEntry{{"A", ".370パラレル"}, {"B", ".355テーパー"}}},
		"MS = brass / AL = aluminium":                       {"", []legendEntry{{"MS", "brass"}, {"AL", "aluminium"}}},
		"N: nylon":                                          {"", []legendEntry{{"N", "nylon"}}},
		"All sizes in mm, prices per piece":                 {"", nil},
		"Note: bores are measured before plating":           {"", nil},
		"Tip: A =, B = .335":                                {"", nil},
	} {
		name, entries := codesIn(lexicon.New(nil), text)
		if name != want.name || !slices.Equal(entries, want.entries) {
			t.Errorf("%q: %q %q, want %q %q", text, name, entries, want.name, want.entries)
		}
	}
}

// TestCodeNotes tells the letters of one column from those of another, in one cell and over several.
func TestCodeNotes(t *testing.T) {
	g := grid.New(sheettest.Sheet("Notes", "Tip: A = .370, B = .335; Finish: A = chrome; B = satin", "Material", "N: nylon", "M: brass", "M: 5"))
	var got []string
	for _, c := range codeNotes(lexicon.New(nil), g) {
		got = append(got, c.name+" "+c.words["a"]+c.words["n"]+" "+c.words["b"]+c.words["m"])
	}
	if want := []string{"Tip .370 .335", "Finish chrome satin", "Material nylon brass"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestCodeNotesBeside takes the name of their column from the cell to the left of what letters stand for, where that is a word.
func TestCodeNotesBeside(t *testing.T) {
	for _, test := range []struct {
		rows, want []string
	}{
		{[]string{"CAT_CD | IR = iron, WG = wedge", "TIP_CD | P = .370, T = .355"}, []string{"CAT_CD iron wedge", "TIP_CD .370 .355"}},
		{[]string{"Spitze | P = .370", " | T = .355", "Typ | IR = Eisen; WG = Wedge"}, []string{"Spitze .370 .355", "Typ Eisen Wedge"}},
		{[]string{"先端 | P＝.370", "先端 | T＝.355"}, []string{"先端 .370 .355"}},
		{[]string{"1 | P = .370", "2 | T = .355"}, []string{" .370 .355"}},
	} {
		g := grid.New(sheettest.Sheet("Codes", test.rows...))
		var got []string
		for _, c := range codeNotes(lexicon.New(nil), g) {
			got = append(got, c.beside+" "+c.words["ir"]+c.words["p"]+" "+c.words["wg"]+c.words["t"])
		}
		if !slices.Equal(got, test.want) {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}

// TestMarkedCodes cuts marks off the notes that explain letters, whatever form they have, and knows the headings that bear them.
func TestMarkedCodes(t *testing.T) {
	for _, test := range []struct{ note, name, heading, other string }{
		{"(*1) T = .355 taper tip,  P = .370 parallel tip", "", "Shaft Type (*1)", "Finish (*2)"},
		{"*1) T = .355, P = .370", "", "Shaft (*1)", "Finish *2"},
		{"※1 T＝.355、P＝.370", "", "シャフト※1", "仕上※2"},
		{"（※1）シャフト：T＝.355、P＝.370", "シャフト", "シャフト（※1）", "仕上（※2）"},
		{"注1：T＝.355、P＝.370", "", "シャフト（注1）", "仕上（注2）"},
		{"Anm. 1: T = .355, P = .370", "", "Skafttyp (Anm. 1)", "Yta (Anm. 2)"},
		{"Note 2: T = .355, P = .370", "", "Shaft [note 2]", "Finish [note 1]"},
		{"a) Spitze: T = .355, P = .370", "Spitze", "Schaft a)", "Farbe b)"},
		{"(1) T = .355; P = .370", "", "Shaft (1)", "Finish (2)"},
		{"¹⁾ T = .355, P = .370", "", "Schaft¹⁾", "Farbe²⁾"},
		{"† T = .355, P = .370", "", "Tip†", "Finish‡"},
		{"* T: .355, P: .370", "", "Tip*", "Finish**"},
	} {
		all := codeNotes(lexicon.New(nil), grid.New(sheettest.Sheet("Notes", "X-9", test.note)))
		if len(all) != 1 || all[0].name != test.name || all[0].words["t"] != ".355 taper tip" && all[0].words["t"] != ".355" {
			t.Errorf("%q: %+v", test.note, all)
			continue
		}
		if !refersTo(test.heading, all[0].mark) || refersTo(test.other, all[0].mark) {
			t.Errorf("%q: %q, %v, %v", test.note, all[0].mark, refersTo(test.heading, all[0].mark), refersTo(test.other, all[0].mark))
		}
	}
	for _, text := range []string{"*1.5 mm", "1 = .370, 2 = .355", "Tip 1: .370", "(1) = .370, (2) = .355", "a = .370, b = .355"} {
		if mark, rest := cutNoteMark(lexicon.New(nil), text); mark != "" && mark != "*" {
			t.Errorf("%q: %q, %q", text, mark, rest)
		}
	}
}
