package settings_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/settings"
)

func TestParsePage(t *testing.T) {
	for name, content := range map[string]string{
		"table": `
turn_limit = "1.2 mm"
[page]
contact = "counter 3"
accent = "#7A3b2e"
logo = "pictures/logo.png"
language = "de"
columns = ["length", # the axis
  "minutes"]
prices = true
currency = "EUR"
margin = "40%"
price_per_pack = true
caliper = "0.03 mm"
`,
		"dotted keys": `
page.contact = "counter 3"
page.accent = "#7A3b2e"
page.logo = "pictures/logo.png"
page.language = "de"
page.columns = ["length", "minutes"]
page.prices = true
page.currency = "EUR"
page.margin = "40 %"
page.price_per_pack = true
page.caliper = "0.03 mm"
turn_limit = "1.2 mm"
`,
	} {
		s, err := settings.Parse("shop.toml", []byte(content))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want := settings.Page{
			Contact: "counter 3", Accent: "#7A3b2e", Logo: "pictures/logo.png", Language: "de", Columns: []string{"length", "minutes"}, Prices: true,
			Currency: "EUR", Margin: 0.4, PricePerPack: true,
			Caliper: measure.Micrometres(30),
		}
		if diff := cmp.Diff(want, s.Page, cmp.Comparer(func(a, b measure.Length) bool { return a == b })); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
		if s.Shop.TurnLimit != measure.Micrometres(1200) {
			t.Errorf("%s: turn_limit %v", name, s.Shop.TurnLimit)
		}
	}
	s, err := settings.Parse("shop.toml", []byte("[page]\ncolumns = []\n"))
	if err != nil || s.Page.Columns == nil {
		t.Errorf("no columns: %v, %v", s.Page.Columns, err)
	}
}

func TestParsePageErrors(t *testing.T) {
	tests := []struct {
		name, content string
		line          int
		key, says     string
	}{
		{"unknown key", "[page]\ncontakt = \"x\"\n", 2, "page.contakt", "did you mean contact?"},
		{"unknown key, nothing near", "[page]\n\nwallpaper = \"x\"\n", 3, "page.wallpaper", "the keys of the page are contact"},
		{"unknown dotted key", "page.acent = \"#000000\"\n", 1, "page.acent", "did you mean accent?"},
		{"setting in the table", "[page]\nturn_limit = \"1 mm\"\n", 2, "page.turn_limit", "no such key"},
		{"not a colour", "[page]\naccent = \"red\"\n", 2, "page.accent", "like \"#7a3b2e\""},
		{"a number for a colour", "[page]\naccent = 123456\n", 2, "page.accent", "in quotes"},
		{"absolute logo", "[page]\nlogo = \"/srv/logo.png\"\n", 2, "page.logo", "below the folder"},
		{"a currency by name", "[page]\ncurrency = \"euro\"\n", 2, "page.currency", "three capitals"},
		{"a margin without its sign", "[page]\nmargin = \"0.4\"\n", 2, "page.margin", "like \"40%\""},
		{"a margin below nothing", "[page]\nmargin = \"-4%\"\n", 2, "page.margin", "like \"40%\""},
		{"logo outside", "[page]\nlogo = \"a/../../logo.png\"\n", 2, "page.logo", "below the folder"},
		{"logo from elsewhere", "[page]\nlogo = \"https://example.com/l.png\"\n", 2, "page.logo", "below the folder"},
		{"language", "[page]\nlanguage = \"german!\"\n", 2, "page.language", "write its tag"},
		{"column", "[page]\ncolumns = [\"weight\"]\n", 2, "page.columns", "no column \"weight\""},
		{"column twice", "[page]\ncolumns = [\"bore\", \"bore\"]\n", 2, "page.columns", "twice"},
		{"columns as text", "[page]\ncolumns = \"bore\"\n", 2, "page.columns", "not a list"},
		{"column of another kind", "[page]\ncolumns = [1]\n", 2, "page.columns", "no column \"1\""},
		{"prices as text", "[page]\nprices = \"yes\"\n", 2, "page.prices", "neither true nor false"},
		{"caliper without unit", "[page]\ncaliper = \"0.03\"\n", 2, "page.caliper", "with its unit"},
		{"caliper of nothing", "[page]\ncaliper = \"0 mm\"\n", 2, "page.caliper", "more than nothing"},
		{"caliper of an inch", "[page]\ncaliper = \"1 in\"\n", 2, "page.caliper", "at most 1 mm"},
		{"inner table", "[page.logo]\nfile = \"x\"\n", 1, "page.logo", "no table"},
		{"tables in a row", "[[page]]\ncontact = \"x\"\n", 1, "page", "no table"},
		{"inline table", "page = {contact = \"x\"}\n", 1, "page", "a text or a number"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			refused(t, tt.content, tt.line, tt.key, tt.says)
		})
	}
}
