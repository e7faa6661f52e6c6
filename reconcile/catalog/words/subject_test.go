package words_test

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog/words"
)

func TestSubject(t *testing.T) {
	v := words.Load()
	for text, want := range map[string]struct {
		kind    string
		roles   []string
		classes []string
		general bool
	}{
		"Hosel OD measured after polishing":                     {kind: "heads", roles: []string{"hosel_od"}},
		"bore and hosel OD":                                     {kind: "heads", roles: []string{"bore", "hosel_od"}},
		"Bohrung und Hals-Außendurchmesser":                     {kind: "heads", roles: []string{"bore", "hosel_od"}},
		"tolérance sur Ø extérieur col":                         {kind: "heads", roles: []string{"hosel_od"}, general: true},
		"비고: 외경 공차":                                             {kind: "heads", roles: []string{"hosel_od"}, general: true},
		"Hosel OD by club (mm)":                                 {kind: "heads", roles: []string{"hosel_od"}},
		"Step length in mm or in inches as ordered, please ask": {kind: "ferrules", roles: []string{"step_length"}},
		"diameters":                         {kind: "ferrules", classes: []string{"diameter"}},
		"all lengths":                       {kind: "heads", classes: []string{"length"}, general: true},
		"Dia. & length: mm":                 {kind: "ferrules", classes: []string{"diameter", "length"}},
		"alle Durchmesser und Längen in mm": {kind: "heads", classes: []string{"diameter", "length"}},
		"Tiefen":                            {kind: "heads", classes: []string{"depth"}},
		"unless otherwise stated":           {kind: "heads", general: true},
		"Liquidation d'hiver – cotes en mm": {kind: "heads"},
		"profondeur d'alésage":              {kind: "heads", roles: []string{"bore_depth"}},
		"swing weight":                      {kind: "heads"},
		"terms of delivery: 14 days":        {kind: "heads"},
		"":                                  {kind: "heads"},
	} {
		got := v.Subject(want.kind, "", text)
		var roles []string
		for _, m := range got.Roles {
			roles = append(roles, m.Role)
		}
		if !slices.Equal(roles, want.roles) || !slices.Equal(got.Classes, want.classes) || got.General != want.general {
			t.Errorf("%q: %+v, want %+v", text, got, want)
		}
	}
}

func TestIrrelevant(t *testing.T) {
	v := words.Load()
	for text, want := range map[string]bool{
		"Weight (g)": true, "Loft °": true, "Schwunggewicht": true, "Poids g": true, "重量(g)": true, "Barcode": true, "Min. order": true,
		"Hosel OD": false, "Bore": false, "Xyz": false, "": false,
	} {
		if got := v.Irrelevant(text); got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
