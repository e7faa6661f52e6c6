package layout

import (
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestLikeness compares headings of one column, the first and one further down, as a buyer would.
func TestLikeness(t *testing.T) {
	lex := lexicon.New(nil)
	heading := func(unit string, parts ...string) Heading {
		h := Heading{Parts: parts, Unit: unit}
		for i, part := range parts {
			if i > 0 {
				h.Text += " "
			}
			h.Text += part
		}
		return h
	}
	for _, c := range []struct {
		first, later Heading
		want         likeness
	}{
		{heading("", "Hosel OD"), heading("", "hosel od"), alike},
		{heading("mm", "Hosel", "OD"), heading("", "Hosel OD"), alike},
		{heading("mm", "Hosel", "OD"), heading("", "OD"), alike},
		{heading("", "Hosel length (mm)"), heading("", "Length"), alike},
		{heading("", "Innendurchmesser"), heading("", "Bohrung"), alike},
		{heading("", "Model"), heading("", "Description"), alike},
		{heading("", "Price"), heading("", "Price EUR"), alike},
		{heading("", "Price per 100"), heading("", "Price"), alike},
		{heading("mm", "Bore"), heading(""), missing},
		{heading("mm", "Bore"), heading("", "Zorblat"), unlike},
		{heading("", "Zorblat"), heading("", "Remarks"), unlike},
		{heading("", "Zorblat"), heading("", "Bore"), contrary},
		{heading("mm", "Bore"), heading("in", "Bore"), contrary},
		{heading("", "Bore"), heading("mm", "Bore"), contrary},
		{heading("mm", "Bore"), heading("in"), contrary},
		{heading("", "Bore", "Depth"), heading("", "Bore"), contrary},
		{heading("", "Bore"), heading("", "Bore depth"), contrary},
		{heading("", "OD"), heading("", "Base OD"), contrary},
		{heading("", "Hosel OD"), heading("", "Base OD"), contrary},
		{heading("", "Base OD"), heading("", "Hosel OD"), contrary},
		{heading("", "Stock"), heading("", "Price"), contrary},
		{heading("", "Price EUR"), heading("", "Price USD"), contrary},
		{heading("", "Price"), heading("", "Price per 100"), contrary},
		{heading("", "Price per 100"), heading("", "Price each"), contrary},
		{heading("", "Price"), heading("", "Set price"), contrary},
		{heading("", "Hosel OD ±0.05"), heading("", "Hosel OD ±0.10"), contrary},
		{heading("", "Hosel OD"), heading("", "Hosel OD max"), contrary},
	} {
		if got := c.first.likenessOf(lex, c.later); got != c.want {
			t.Errorf("%q (%s), then %q (%s): %d, want %d", c.first.Text, c.first.Unit, c.later.Text, c.later.Unit, got, c.want)
		}
	}
}
