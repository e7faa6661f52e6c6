package layout

import (
	"fmt"
	"slices"
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

// TestTalksWithDays reads talks in which somebody types out a list message by message: what others ask, doubt and reserve is none of it, and a part
// that shares only its letters with the others is of it.
func TestTalksWithDays(t *testing.T) {
	for day, lines := range map[string][5]string{
		"[Tue 09:%d]":  {"hosel od 13.5 bore 9.5, 32 deep, R410 each, 14 left", "13.5 on the KR-32? you sure?", "then the KR-D9 drivers,", "keep me 5 of the KR-31 and all the KR-32", "hosel od 12.4 bore 8.7, 38 deep, R410 each, 14 left"},
		"[Di., 09:%d]": {"Hosel außen 13,5 Bohrung 9,5, 32 tief, 41 € pro Stück, 14 übrig", "13,5 beim KR-32? sicher?", "dann die KR-D9 Driver,", "leg mir 5 von den KR-31 zurück und alle KR-32", "Hosel außen 12,4 Bohrung 8,7, 38 tief, 41 € pro Stück, 14 übrig"},
		"[mar. 09:%d]": {"col 13,5 perçage 9,5, profondeur 32, 41 € pièce, il en reste 14", "13,5 pour la KR-32 ? sûr ?", "puis les drivers KR-D9,", "gardez-moi 5 KR-31 et toutes les KR-32", "col 12,4 perçage 8,7, profondeur 38, 41 € pièce, il en reste 14"},
		"[gio 09:%d]":  {"collo 13,5 foro 9,5, profondo 32, 41 € l'uno, ne restano 14", "13,5 per la KR-32? sicuro?", "poi i driver KR-D9,", "tienimi 5 KR-31 e tutte le KR-32", "collo 12,4 foro 8,7, profondo 38, 41 € l'uno, ne restano 14"},
		"[jue 09:%d]":  {"por fuera 13,5 agujero 9,5, 32 de hondo, 41 € cada uno, quedan 14", "¿13,5 la KR-32? ¿seguro?", "luego los drivers KR-D9,", "guárdame 5 de la KR-31 y todas las KR-32", "por fuera 12,4 agujero 8,7, 38 de hondo, 41 € cada uno, quedan 14"},
		"[wo 09:%d]":   {"buiten 13,5 gat 9,5, 32 diep, 41 € per stuk, nog 14 over", "13,5 bij de KR-32? zeker?", "dan de KR-D9 drivers,", "hou 5 van de KR-31 vast en alle KR-32", "buiten 12,4 gat 8,7, 38 diep, 41 € per stuk, nog 14 over"},
		"[fre 09:%d]":  {"hals 13,5 hål 9,5, 32 djup, 41 kr per styck, 14 kvar", "13,5 på KR-32? säker?", "sedan KR-D9 drivers,", "spara 5 av KR-31 och alla KR-32", "hals 12,4 hål 8,7, 38 djup, 41 kr per styck, 14 kvar"},
		"[śr. 09:%d]":  {"hosel 13,5 otwór 9,5, głębokość 32, 41 zł za sztukę, zostało 14", "13,5 w KR-32? na pewno?", "potem drivery KR-D9,", "odłóż mi 5 sztuk KR-31 i wszystkie KR-32", "hosel 12,4 otwór 8,7, głębokość 38, 41 zł za sztukę, zostało 14"},
	} {
		said := func(minute int, name, text string) string {
			return fmt.Sprintf(day, minute) + " " + name + ": " + strings.ReplaceAll(text, ", ", "|")
		}
		got := spokenParts(said(11, "Ria", "?"), said(15, "Umgeni Forge", "KR-31 "+lines[0]), said(16, "Umgeni Forge", "KR-32 "+lines[0]), said(17, "Umgeni Forge", "KR-W40 "+lines[0]),
			said(21, "Ria", lines[1]), said(25, "Umgeni Forge", lines[2]+" "+lines[4]), said(31, "Ria", lines[3]))
		for part, sizes := range map[string]string{"KR-31": "13,5 9,5 32 41 14", "KR-32": "13,5 9,5 32 41 14", "KR-W40": "13,5 9,5 32 41 14", "KR-D9": "12,4 8,7 38 41 14"} {
			if !saysAll(got, part, strings.Fields(sizes)) {
				t.Errorf("%s: %s, want %s with %s", day, got, part, sizes)
			}
		}
		if strings.Count(got, ";") != 3 {
			t.Errorf("%s: %s, want four parts", day, got)
		}
	}
}

// saysAll reports whether of some parts one has values that begin so, whatever sign its decimals have.
func saysAll(parts, part string, values []string) bool {
	for one := range strings.SplitSeq(strings.ReplaceAll(parts, ".", ","), "; ") {
		if strings.HasPrefix(one, part+": ") {
			return !slices.ContainsFunc(values, func(value string) bool {
				return !strings.Contains(one, "="+value) && !strings.Contains(one, "=R"+value)
			})
		}
	}
	return false
}
