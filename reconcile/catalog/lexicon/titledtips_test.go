package lexicon

import "testing"

// TestTipsOfFerrules tells titles that name the tip of all ferrules below them from those that name one in passing.
func TestTipsOfFerrules(t *testing.T) {
	lex := New(nil)
	for title, want := range map[string]string{
		"FERRULES, .370 - will go straight on the above": ".370, sure",
		"Ferrules .355 taper (new!)":                     ".355 taper, sure",
		"Zierringe, .370 - passend zu obigen":            ".370, sure",
		"Viroles - .370, vont sur les têtes ci-dessus":   ".370, sure",
		"Ghiere nere, .355 - nuove":                      ".355, sure",
		"フェラル、.370（上記ヘッド用）":                              ".370, sure",
		"Ferrules (.370)":                                ".370, sure",
		"Ferrules, black, .370":                          ".370, sure",
		".370 - ferrules":                                ".370, sure",
		"Heads in spring; ferrules, .335":                ".335, sure",
		"Ferrules - heads for .370 shafts: see below":    "for .370 shafts",
		"Zierringe. Köpfe für .370: siehe unten":         "für .370",
		"Viroles - têtes pour .370: voir plus bas":       "pour .370",
		"Ferrules below, heads, .370":                    ".370",
		"Wood ferrules, .335 / .350 see column":          ".335 / .350",
		"Ferrules, .350 high":                            ".350",
		"Ferrules, no .370":                              ".370",
		"Ferrules, 0.370":                                "0.370",
		"Ferrules, 370":                                  "",
		"Price list, .370":                               ".370",
		"Ferrules in black":                              "",
	} {
		named := lex.TipsOfFerrules(title)
		got := named.Saying
		if named.Sure {
			got += ", sure"
		}
		if got != want {
			t.Errorf("%q names %q, want %q", title, got, want)
		}
	}
}
