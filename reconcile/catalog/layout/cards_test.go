package layout

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
	"github.com/google/go-cmp/cmp"
)

// TestCards looks at which rows account for the cards of a sheet, and that other sheets have none.
func TestCards(t *testing.T) {
	for name, c := range map[string]struct {
		rows [][]string
		want map[int]string
	}{
		"side by side": {
			[][]string{{"Part", "A-1", "", "Part", "A-2"}, {"Hosel OD", "13.4 mm", "", "Hosel OD", "13.6 mm"}, {"Bore", "9.5 mm", "", "Bore", "9.5 mm"}},
			map[int]string{1: "A-1", 2: "A-2"},
		},
		"a list": {
			[][]string{{"Part", "Hosel OD", "Bore"}, {"A-1", "13.4 mm", "9.5 mm"}, {"A-2", "13.6 mm", "9.5 mm"}},
			nil,
		},
		"a list on its side": {
			[][]string{{"Part", "A-1", "A-2"}, {"Hosel OD", "13.4 mm", "13.6 mm"}, {"Bore", "9.5 mm", "9.5 mm"}},
			nil,
		},
		"cards that begin in several ways": {
			[][]string{{"Club", "iron"}, {"Part", "A-1"}, {"Hosel OD", "13.4 mm"}, {"Part", "A-2"}, {"Club", "iron"}, {"Hosel OD", "13.6 mm"}},
			nil,
		},
		"part numbers that could be labels": {
			[][]string{{"Part:", "N2594"}, {"Bore:", "9.1"}, {"Hosel OD:", "12.2"}, nil, {"Part:", "N2603"}, {"Bore:", "9.5"}, {"Hosel OD:", "12.7"}},
			map[int]string{1: "N2594", 5: "N2603"},
		},
		"part numbers that begin like a label, side by side": {
			[][]string{{"Part", "HT-1", "", "Part", "HT-2"}, {"Base OD", "13.4 mm", "", "Base OD", "13.6 mm"}, {"Bore", "9.5 mm", "", "Bore", "9.5 mm"}},
			map[int]string{1: "HT-1", 2: "HT-2"},
		},
		"a name beside the number": {
			[][]string{{"Part", "A-1", "Name", "Iron 7"}, {"Hosel OD", "13.4 mm", "Bore", "9.5 mm"}, {"Length", "66 mm", "Depth", "30 mm"}},
			map[int]string{1: "A-1"},
		},
		"a title, a weight and a price among the labels": {
			[][]string{{"Data"}, {"Part", "A-1", "Name", "Iron 7"}, {"Hosel OD", "13.4 mm", "Bore", "9.5 mm"}, {"Length", "66 mm", "Depth", "30 mm"},
				{"Weight", "270", "Alloy", "1025"}, {"Price", "12.4", "Lead time", "40 days"}, {"Made: Ann", "", "Checked: Bob"}},
			map[int]string{2: "A-1"},
		},
		"a picture between the number and its label": {
			[][]string{{"Part", "[photo]", "A-1", "", "Part", "[photo]", "A-2"}, {"Hosel OD", "", "13.4", "", "Hosel OD", "", "13.6"}, {"Bore", "", "9.5", "", "Bore", "", "9.5"}},
			map[int]string{1: "A-1", 2: "A-2"},
		},
		"units between labels and values": {
			[][]string{{"Part", "", "A-1", "", "Part", "", "A-2"}, {"Hosel OD", "mm", "13.4", "", "Hosel OD", "mm", "13.6"}, {"Bore", "mm", "9.5", "", "Bore", "mm", "9.5"}, {"Price", "EUR", "12.00", "", "Price", "EUR", "12.00"}},
			map[int]string{1: "A-1", 2: "A-2"},
		},
		"a card with nothing on it at the end": {
			[][]string{{"Part", "A-1", "", "Part", "A-2"}, {"Hosel OD", "13.4 mm", "", "Hosel OD", "13.6 mm"}, {"Bore", "9.5 mm", "", "Bore", "9.5 mm"}, nil,
				{"Part", "A-3", "", "Part", ""}, {"Hosel OD", "13.4 mm", "", "Hosel OD", ""}, {"Bore", "9.5 mm", "", "Bore", ""}},
			map[int]string{1: "A-1", 2: "A-2", 5: "A-3"},
		},
		"more cards beside each other than each has lines": {
			[][]string{{"Part: A-1", "Part: A-2", "Part: A-3", "Part: A-4"}, {"Hosel OD: 13.4 mm", "Hosel OD: 13.4 mm", "Hosel OD: 13.4 mm", "Hosel OD: 13.4 mm"},
				{"Bore: 9.5 mm", "Bore: 9.5 mm", "Bore: 9.5 mm", "Bore: 9.5 mm"}},
			map[int]string{1: "A-1 A-4", 2: "A-2", 3: "A-3"},
		},
	} {
		g := grid.New(sheettest.Texts("cards", c.rows, false))
		var parts map[int]string
		for _, r := range cards(g, lexicon.New(nil)) {
			if parts == nil {
				parts = map[int]string{}
			}
			for line := r.Body; line <= r.To; line++ {
				if text := r.Grid.At(line, 1); text != "" {
					parts[line] = strings.TrimSpace(parts[line] + " " + text)
				}
			}
		}
		if diff := cmp.Diff(c.want, parts); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// TestCardsOfManyLabels holds that a sheet in which each card has labels of its own is no table of as many columns.
func TestCardsOfManyLabels(t *testing.T) {
	var rows [][]string
	for i := range 20_000 {
		rows = append(rows, []string{"Part", fmt.Sprint("A-", i)}, []string{"Hosel OD", "13.4 mm"}, []string{fmt.Sprint("Label ", i), "x"}, nil)
	}
	if found := cards(grid.New(sheettest.Texts("cards", rows, false)), lexicon.New(nil)); found != nil {
		t.Errorf("%d tables, want none", len(found))
	}
}

// TestGoesOn: what stands beside cards is said of them where it has no part numbers and no label of theirs.
func TestGoesOn(t *testing.T) {
	label := func(role catalog.Role, text string) entry { return entry{label: text, value: "x", role: role} }
	left := []card{{label(catalog.Part, "Part no."), label(catalog.HoselOD, "Hosel OD")}}
	for name, c := range map[string]struct {
		left    []card
		entries []entry
		want    bool
	}{
		"a name and a size":         {left, []entry{label(catalog.Description, "Name"), label(catalog.Bore, "Bore")}, true},
		"the name of a model":       {left, []entry{label(catalog.Part, "Model"), label(catalog.Bore, "Bore")}, true},
		"part numbers":              {left, []entry{label(catalog.Part, "Item no."), label(catalog.Bore, "Bore")}, false},
		"a size that is there":      {left, []entry{label(catalog.Description, "Name"), label(catalog.HoselOD, "Hosel OD")}, false},
		"cards that names begin":    {[]card{{label(catalog.Description, "Name")}}, []entry{label(catalog.Description, "Model"), label(catalog.Bore, "Bore")}, false},
		"an unknown label as there": {[]card{append(left[0], label("", "Note"))}, []entry{label("", "Note"), label(catalog.Bore, "Bore")}, true},
	} {
		if got := goesOn(lexicon.New(nil), c.left, c.entries); got != c.want {
			t.Errorf("%s: %t, want %t", name, got, c.want)
		}
	}
}

// TestLabelsOfItems looks at labels that may be of part numbers beside such, and at names behind these.
func TestLabelsOfItems(t *testing.T) {
	for name, c := range map[string]struct {
		rows [][]string
		want string
	}{
		"two pairs in a line": {
			[][]string{{"Bin item", "A-1", "Kind", "iron"}, {"Base OD (mm)", "13.5", "Top OD (mm)", "10.6"}, {"Bore (mm)", "9.3", "Length (mm)", "25"}, nil,
				{"Bin item", "A-2", "Kind", "wood"}, {"Base OD (mm)", "11.8", "Top OD (mm)", "9.6"}, {"Bore (mm)", "8.4", "Length (mm)", "25"}},
			"A-1 A-2",
		},
		"a name behind the number, Chinese": {
			[][]string{{"型號:KT-6 鐵桿頭"}, {"桿頸外徑:13.4 mm"}, {"頸孔:9.5 mm"}, {"孔深:31 mm"}, nil, {"型號:KT-7 鐵桿頭"}, {"桿頸外徑:13.4 mm"}, {"頸孔:9.5 mm"}, {"孔深:31 mm"}},
			"KT-6 KT-7",
		},
	} {
		var parts []string
		for _, r := range cards(grid.New(sheettest.Texts("cards", c.rows, false)), lexicon.New(nil)) {
			for line := r.Body; line <= r.To; line++ {
				if text := r.Grid.At(line, 1); text != "" {
					parts = append(parts, text)
				}
			}
		}
		if got := strings.Join(parts, " "); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// TestTitleOfAllCards looks at whether a title above several cards is kept apart from the sizes of the first.
func TestTitleOfAllCards(t *testing.T) {
	g := grid.New(sheettest.Texts("cards", [][]string{{"Heads"}, {"Part", "A-1", "", "Part", "A-2"}, {"OD", "13.4 mm", "", "OD", "13.6 mm"}, {"Bore", "9.5 mm", "", "Bore", "9.5 mm"}}, false))
	var headings []string
	for _, r := range cards(g, lexicon.New(nil)) {
		for _, h := range r.Columns {
			headings = append(headings, h.Text)
		}
	}
	if diff := cmp.Diff([]string{"Part", "OD", "Bore"}, headings); diff != "" {
		t.Error(diff)
	}
}
