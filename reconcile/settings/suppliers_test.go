package settings_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/settings"
)

func TestSuppliers(t *testing.T) {
	s, err := settings.Parse("shop.toml", []byte(`
name = "Harrow Lane Clubworks"
suppliers."Vale, D. & Co.".ferrule_bores = "bore"
turn_limit = "1.2 mm"

[suppliers."Harrow Mouldings"]
ferrule_bores = "tip"
name = "Harrow"

[page]
prices = true
`))
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"Harrow Mouldings": "tip", "Vale, D. & Co.": "bore"}
	if diff := cmp.Diff(want, s.Suppliers.FerruleBores()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(map[string]string{"Harrow Mouldings": "Harrow"}, s.Suppliers.Names()); diff != "" {
		t.Errorf("names (-want +got):\n%s", diff)
	}
	if s.Lines["turn_limit"] != 4 || !s.Page.Prices {
		t.Errorf("the rest was not read: %+v", s)
	}
	if got := settings.Default().Suppliers.FerruleBores(); len(got) != 0 {
		t.Errorf("without a file %v", got)
	}
}

func TestSuppliersErrors(t *testing.T) {
	for _, tt := range []struct {
		name, content string
		line          int
		key, says     string
	}{
		{"another word", "[suppliers.\"A\"]\nferrule_bores = \"tips\"\n", 2, "ferrule_bores", `write "tip"`},
		{"no text", "[suppliers.\"A\"]\nferrule_bores = true\n", 2, "ferrule_bores", `write "tip"`},
		{"another key", "[suppliers.\"A\"]\nbores = \"tip\"\n", 2, "bores", "ferrule_bores"},
		{"a name that is none", "[suppliers.\"A\"]\nname = \" \"\n", 2, "name", "is not a text"},
		{"no currency", "[suppliers.\"A\"]\ncurrency = \"euro\"\n", 2, "currency", "three capitals"},
		{"prices of nothing", "[suppliers.\"A\"]\nprices = \"gross\"\n", 2, "prices", "dozen"},
		{"no language", "[suppliers.\"A\"]\nlanguage = \"German!\"\n", 2, "language", "its tag"},
		{"no name", "[suppliers]\nferrule_bores = \"tip\"\n", 1, "suppliers", "no table"},
		{"too deep", "[suppliers.A.B]\nferrule_bores = \"tip\"\n", 1, "suppliers.A.B", "no table"},
		{"at the top", "suppliers.A = \"tip\"\n", 1, "suppliers.A", "no such key"},
	} {
		t.Run(tt.name, func(t *testing.T) { refused(t, tt.content, tt.line, tt.key, tt.says) })
	}
}

func TestKnownSuppliers(t *testing.T) {
	s, err := settings.Parse("shop.toml", []byte("[suppliers.trim_2026]\nname = \"Hollin\"\ncurrency = \"EUR\"\nprices = \"dozen\"\nlanguage = \"de\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]catalog.Supplier{"trim_2026": {Name: "Hollin", Currency: "EUR", PricedBy: 12, Language: "de"}}
	if diff := cmp.Diff(want, s.Suppliers.Known()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
