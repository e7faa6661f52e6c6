package lexicon

import "testing"

// TestTipForAll tells notes that say for which tip all parts are from those that name a tip in passing.
func TestTipForAll(t *testing.T) {
	lex := New(nil)
	for text, want := range map[string]bool{
		"For .355 taper tip":                              true,
		"Tip: .370 parallel":                              true,
		"Passend für Schäfte .370 parallel":               true,
		"Toutes pour shafts coniques .355 (taper)":        true,
		"todas para punta .370":                           true,
		"Todas para ponta .370":                           true,
		"tutte per punta .355 conica":                     true,
		"Wszystkie do tipu .370":                          true,
		"Alle passen auf .370er Schäfte":                  true,
		"wszystkie na trzon .370":                         true,
		"wszystkie pasują na .355":                        true,
		"Sopivat varsille: .370":                          false,
		"全て370パラレルシャフト用":                                  false, // the word behind is not enough in a note
		"Adapter sleeves for .335 tips":                   false,
		"For .355 taper or .370 parallel":                 false,
		"We ream .355 to .370":                            false,
		"Kindly revert if .370 parallel is also required": false,
	} {
		if got := lex.TipForAll(text); (got != "") != want {
			t.Errorf("%q is for all parts by %q, want %v", text, got, want)
		}
	}
}

// TestTipsWithoutPoints finds tips by their thousandths alone where a form or a word for tips stands behind them.
func TestTipsWithoutPoints(t *testing.T) {
	lex := New(nil)
	for text, want := range map[string]string{
		"370 parallel ferrules": "370 parallel", "355テーパー専用": "355テーパー専用", "370平行杆身用": "370平行杆身用", "Ferrules .355T, black": ".355T", "335 shafts": "335 shafts",
		"Price list 370": "", "Tel. 35 53 70": "", "370 pieces": "", "AB-370 parallel": "",
	} {
		if _, got := lex.TipsIn(text, true); got != want {
			t.Errorf("%q names tips by %q, want %q", text, got, want)
		}
	}
}
