package layout

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestApartFromLabels: what a card says before a label is a description where it is another on other cards; names of several words stay whole.
func TestApartFromLabels(t *testing.T) {
	lex := lexicon.New(nil)
	for name, c := range map[string]struct {
		labels []string // of one card each, or of several with "|"
		want   string
	}{
		"English":                 {[]string{"Black. In drawer", "Dark red. In drawer"}, "In drawer: stock, Black; In drawer: stock, Dark red"},
		"several things":          {[]string{"Black, one silver ring. In stock", "Black, for woods. In stock"}, "In stock: stock, Black, one silver ring; In stock: stock, Black, for woods"},
		"Dutch":                   {[]string{"Zwart. Op voorraad", "Rood - Op voorraad"}, "Op voorraad: stock, Zwart; Op voorraad: stock, Rood"},
		"German":                  {[]string{"Schwarz, Lagerbestand", "Weiß, Lagerbestand"}, "Lagerbestand: stock, Schwarz; Lagerbestand: stock, Weiß"},
		"the same on all":         {[]string{"Black. In drawer", "Black. In drawer"}, "Black. In drawer: stock; Black. In drawer: stock"},
		"names of sizes":          {[]string{"Hosel. OD", "Ferrule. OD"}, "Hosel. OD: ; Ferrule. OD: "},
		"limits":                  {[]string{"Max. bore", "Min. bore"}, "Max. bore: ; Min. bore: "},
		"two of a card":           {[]string{"Ours. Price|Theirs. Price", "Ours. Price|Theirs. Price"}, "Ours. Price: , Theirs. Price: ; Ours. Price: , Theirs. Price: "},
		"a count of what is sold": {[]string{"Best. Menge", "Mind. Menge"}, "Best. Menge: ; Mind. Menge: "},
	} {
		var all []card
		for _, labels := range c.labels {
			var one card
			for _, label := range strings.Split(labels, "|") {
				one = append(one, entry{label: label, value: "46", role: stockOnly(lex, label)})
			}
			all = append(all, one)
		}
		apartFromLabels(lex, all)
		var got []string
		for _, one := range all {
			var said []string
			for _, e := range one {
				if e.role == catalog.Description {
					said = append(said, e.value)
				} else {
					said = append(said, fmt.Sprintf("%s: %s", e.label, e.role))
				}
			}
			got = append(got, strings.Join(said, ", "))
		}
		if text := strings.Join(got, "; "); text != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, text, c.want)
		}
	}
}

// stockOnly is the role of a label that is one for a stock, none for any other.
func stockOnly(lex *lexicon.Lexicon, label string) catalog.Role {
	if role, _ := lex.RoleOfLabel(label); role == catalog.Stock {
		return role
	}
	return ""
}
