// Package newlanguage holds that a language is one file: it adds one that nobody speaks, and reads a sheet in it.
package newlanguage

import (
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/encoding/charmap"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/catalog/words/data"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/sheet/text"
)

// invented is a language of which no word is one of another.
const invented = `language = "xx"
transcribed = "ş=sz"

[concept]
"hosel" = ["grondul"]
"outer diameter" = ["mukta"]
"bore" = ["pilşo"]
"depth" = ["sarnu"]
"part" = ["vekno"]
"price" = ["dubrik"]
"tolerance" = ["wemsal"]

[unit]
mm = ["milubo"]

[mark]
ditto = ["zubzub"]
left = ["lefzu"]
total = ["ohtalu"]

[kind]
heads = ["drumeli"]

[supplier]
label = ["zulifra"]
form = ["Gzmb"]

[deviation]
upper = ["hocha"]
lower = ["tifa"]
beside = ["wemsal"]

[fraction]
of = ["milubo"]
tenth = ["zehnu milubo"]

[month]
3 = ["trzu", "trzubar"]

[run]
to = ["biz"]

[grammar]
endings = ["oq"]

[demand]
year = ["jaru*"]
count = ["mengu"]

[encoding]
names = ["Windows-1254"]
script = "latin"
letters = "şŞ"
words = ["pilşo"]
`

// TestALanguageIsOneFile reads a sheet in the invented language, in an encoding that no other language uses: its headings, the unit in its
// title, a word for the value above, deviations, the name of the supplier, an inflected word, and a line of sums.
func TestALanguageIsOneFile(t *testing.T) {
	if err := data.Add(fstest.MapFS{"xx.toml": {Data: []byte(invented)}}); err != nil {
		t.Fatal(err)
	}
	encoded, err := charmap.Windows1254.NewEncoder().String(`Drumeli (milubo);;;;
Zulifra: Quxo Werk;;;;
Vekno;Mukta grondul;Hocha;Tifa;Pilşooq;Sarnu pilşo;Dubrik
AA-1;13,6;0,05;-0,10;9,5;32;4
AA-2;zubzub;0,05;-0,10;9,5;30;4
Ohtalu;;;;;;8
`)
	if err != nil {
		t.Fatal(err)
	}
	book, err := text.Read("xx.csv", []byte(encoded))
	if err != nil {
		t.Fatal(err)
	}
	cat := reader.Read([]reader.Input{{Book: book}}, reader.Options{})
	if len(cat.Tables) != 1 || cat.Tables[0].Kind != catalog.Heads || cat.Tables[0].Supplier.Name != "Quxo Werk" {
		t.Fatalf("read as %+v", cat.Tables)
	}
	got := map[string][]string{}
	for _, row := range cat.Tables[0].Rows {
		if row.Outcome != catalog.Used && row.Outcome != catalog.Assumed {
			continue
		}
		for _, role := range []catalog.Role{catalog.HoselOD, catalog.Bore, catalog.BoreDepth} {
			got[row.Part] = append(got[row.Part], row.Fields.Get(role).Dim.String())
		}
	}
	want := map[string][]string{
		"AA-1": {"13.6 +0.05/-0.1 mm", "9.5 mm", "32 mm"},
		"AA-2": {"13.6 +0.05/-0.1 mm", "9.5 mm", "30 mm"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	if book.Format != "text, semicolons, Windows-1254" {
		t.Errorf("the encoding: %s", book.Format)
	}
	if !demand.Counts("Mengu") {
		t.Error("a heading of yearly numbers is not recognised")
	}
	if err := data.Add(fstest.MapFS{}); err == nil {
		t.Error("a language was added when all had been read")
	}
}
