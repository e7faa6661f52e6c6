package layout

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestPutRightLater looks at messages that put right what was said before them, of the part before or of one that they name.
func TestPutRightLater(t *testing.T) {
	const first = "[09:41] Bo: QX-1 base 13.5, hole 9.3, length 25"
	lines := func(more ...string) []string {
		return append([]string{first, "[09:42] Bo: QX-2 base 13.5, hole 9.3, length 19", "[09:43] Bo: QX-3 base 13.8, hole 9.3, length 25"}, more...)
	}
	for name, c := range map[string]struct {
		lines  []string
		want   string // the third part
		unsaid string
	}{
		"the part before":        {lines("[09:44] Al: hole 9.3 for .335 shafts?", "[09:45] Bo: sorry, typing mistake, hole is 8.9 only"), "base_od=13.8 bore=9.3, sorry, 8.9 length=25", ""},
		"with what it was":       {lines("[09:45] Bo: Sorry, base of this last one is 13.6 not 13.8"), "base_od=13.8, Sorry, 13.6 bore=9.3 length=25", ""},
		"German":                 {lines("[09:45] Bo: ach nein, Bohrung ist 8,9"), "base_od=13.8 bore=9.3, ach nein, 8,9 length=25", ""},
		"French":                 {lines("[09:45] Bo: pardon, alésage 8,9"), "base_od=13.8 bore=9.3, pardon, 8,9 length=25", ""},
		"Italian":                {lines("[09:45] Bo: scusa, foro 8,9"), "base_od=13.8 bore=9.3, scusa, 8,9 length=25", ""},
		"Spanish":                {lines("[09:45] Bo: perdón, agujero 8,9"), "base_od=13.8 bore=9.3, perdón, 8,9 length=25", ""},
		"a part that is named":   {lines("[09:45] Bo: QX-4 base 13, hole 8.9", "[09:46] Bo: typo, QX-3 hole 8.9"), "base_od=13.8 bore=9.3, typo, 8.9 length=25", ""},
		"named at the beginning": {lines("[09:45] Bo: QX-4 base 13, hole 8.9", "[09:46] Bo: QX-3 hole is 8.9, sorry"), "base_od=13.8 bore=9.3, sorry, 8.9 length=25", ""},
		"several parts":          {lines("[09:45] Bo: sorry, hole is 8.9 for both"), "base_od=13.8 bore=9.3 | 8.9 length=25", ""},
		"another part":           {lines("[09:45] Bo: sorry, hole of the first one is 8.9"), "base_od=13.8 bore=9.3 | 8.9 length=25", ""},
		"said by another":        {lines("[09:45] Al: sorry, hole is 8.9"), "base_od=13.8 bore=9.3 | 8.9 length=25", ""},
		"a question":             {lines("[09:45] Bo: sorry, hole is 8.9?"), "base_od=13.8 bore=9.3 | 8.9 length=25", ""},
		"the same again":         {lines("[09:45] Bo: sorry, hole is 9.3"), "base_od=13.8 bore=9.3 length=25", ""},
		"a size that it has not": {lines("[09:45] Bo: sorry, depth 30"), "base_od=13.8 bore=9.3 length=25", "30"},
		"no correction":          {lines("[09:45] Al: ok noted hole 8.9"), "base_od=13.8 bore=9.3 length=25", ""},
	} {
		var rows [][]string
		for _, line := range c.lines {
			rows = append(rows, []string{line})
		}
		found := items(grid.New(sheettest.Texts("talk", rows, false)), lexicon.New(nil))
		if len(found) != 1 {
			t.Fatalf("%s: %d tables, want one", name, len(found))
		}
		var unsaid []string
		for _, u := range found[0].Unsaid() {
			unsaid = append(unsaid, u.Text)
		}
		if got := strings.TrimPrefix(said(&found[0], 3), "QX-3: "); got != c.want || fmt.Sprint(strings.Join(unsaid, " ")) != c.unsaid {
			t.Errorf("%s: %s (unsaid %v), want %s (%s)", name, got, unsaid, c.want, c.unsaid)
		}
	}
}

// TestTalkWithNamesAbove: who speaks and when may stand in lines of their own, which say nothing against a list.
func TestTalkWithNamesAbove(t *testing.T) {
	const want = "QX-1: base_od=13.5 bore=9.3; QX-2: base_od=13.6 bore=9.3; QX-3: base_od=13.7 bore=9.3"
	for _, c := range [][]string{
		{"Bo", "09:41", "QX-1 base 13.5, hole 9.3", "Bo", "09:42", "QX-2 base 13.6, hole 9.3", "Al", "09:43", "ok", "Bo", "09:43", "QX-3 base 13.7, hole 9.3"},
		{"Bo, 09:41", "QX-1 base 13.5, hole 9.3", "Bo, 09:42", "QX-2 base 13.6, hole 9.3", "Al, 09:43", "ok", "Bo, 09:43", "QX-3 base 13.7, hole 9.3"},
		{"Bo [5/11/2027, 09:41]", "QX-1 base 13.5, hole 9.3", "Bo [5/11/2027, 09:42]", "QX-2 base 13.6, hole 9.3", "Bo [5/11/2027, 09:43]", "QX-3 base 13.7, hole 9.3"},
	} {
		if got := spokenParts(c...); got != want {
			t.Errorf("%s: %s", c[0], got)
		}
	}
}
