package words

import "testing"

// Columns of what is wrong with seconds are notes, and those of samples that were sent say nothing of the parts.
func TestDefectsAndSamples(t *testing.T) {
	v := Load()
	for heading, want := range map[string]string{
		"What is wrong with it": "note", "Mängel": "note", "Défaut": "note", "Gebreken": "note", "Difetti": "note",
		"Monsters": "", "Samples": "", "Échantillons": "", "Muestras": "", "Campioni": "",
	} {
		got := ""
		if found := v.Match(heading); len(found) > 0 {
			got = found[0].Role
		}
		if got != want {
			t.Errorf("%q: %q, want %q", heading, got, want)
		}
	}
}
