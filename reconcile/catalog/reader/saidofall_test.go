package reader_test

import (
	"strings"
	"testing"
)

// TestSaidOfAll takes the one bore that a letter gives to all parts in a sentence before or behind their lines, and says where it is not known what a
// size of all is.
func TestSaidOfAll(t *testing.T) {
	const parts = "\nHK-1: hosel OD 13.4 mm, bore depth 32 mm\nHK-2: hosel OD 13.4 mm, bore depth 33 mm\nHK-3: hosel OD 13.6 mm, bore depth 33 mm\n"
	for name, test := range map[string]struct{ letter, want, asks string }{
		"before":        {"Grand to hear from you. Every one of the irons is bored 9.5 mm." + parts, "bore=9.5", ""},
		"behind, en":    {"What I have:" + parts + "All of them are bored 9.5 mm.", "bore=9.5", ""},
		"behind, de":    {"Noch da:" + parts + "Alle sind 9,5 mm gebohrt.", "bore=9.5", ""},
		"behind, fr":    {"Il me reste :" + parts + "Ils sont tous percés à 9,5 mm.", "bore=9.5", ""},
		"of some":       {"What I have:" + parts + "The next ones will be bored 9.5 mm.", "", ""},
		"of the parcel": {"What I have:" + parts + "The parcel is 300 mm long.", "", ""},
		"slipped":       {"What I have:" + parts + "All of them are bored 95 mm.", "", "95 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Letter", test.letter))
			defer show(t, c)
			got := rowOf(t, c, "HK-2")
			if strings.Contains(got, "bore=") != (test.want != "") || !strings.Contains(got, test.want) {
				t.Errorf("%s, want %q", got, test.want)
			}
			asked := false
			for _, f := range c.Findings {
				asked = asked || f.Code == "layout.unread" && test.asks != "" && strings.Contains(f.Message, test.asks)
			}
			if asked != (test.asks != "") {
				t.Errorf("asked %v, want %q", asked, test.asks)
			}
		})
	}
}
