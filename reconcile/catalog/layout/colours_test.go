package layout

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet"
)

// TestNamesOfColours names the colours that spreadsheet programs offer first, as a person would call them.
func TestNamesOfColours(t *testing.T) {
	for digits, want := range map[string]string{
		"FFFF00": "yellow", "FFFFCC": "yellow", "FFF2CC": "yellow", "FFC000": "yellow", "ED7D31": "orange", "F8CBAD": "orange", "FCE4D6": "orange",
		"FF0000": "red", "C00000": "red", "9C0006": "red", "FFC7CE": "pink", "FF99CC": "pink", "92D050": "green", "00B050": "green", "C6EFCE": "green",
		"E2EFDA": "green", "0070C0": "blue", "BDD7EE": "blue", "DDEBF7": "blue", "002060": "blue", "7030A0": "purple", "D9D9D9": "grey",
		"F2F2F2": "grey", "808080": "grey", "00FFFF": "cyan", "833C0B": "brown", "FFFFFF": "", "000000": "", "FEFEFE": "",
	} {
		colour, _ := sheet.ParseColour(digits)
		got := ""
		if names := namesOf(colour); len(names) > 0 {
			got = names[0]
		}
		if got != want {
			t.Errorf("%s is %q, want %q", digits, got, want)
		}
	}
}

// TestColoursIn reads what legends say, in every language of sheets. The sentences are from memory.
func TestColoursIn(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string][]ColourLegend{
		"Yellow = discontinued":                   {{Shade: "yellow", Meaning: "discontinued", Plain: true}},
		"Items in red are no longer available.":   {{Shade: "red", Meaning: "discontinued"}},
		"Rows shaded grey: out of stock":          {{Shade: "grey", Meaning: "unavailable", Plain: true}},
		"Green cells are inches":                  {{Shade: "green", Unit: "in", Plain: true}},
		"All sizes in mm; blue figures in inches": {{Shade: "blue", Unit: "in", Plain: true}},
		"yellow: new size; orange: to be confirmed, red: discontinued": {{Shade: "yellow", Meaning: "new", Plain: true},
			{Shade: "orange", Meaning: "provisional", Plain: true}, {Shade: "red", Meaning: "discontinued", Plain: true}},
		"Blue = our own make":                        {{Shade: "blue", Plain: true}},
		"Colours: black, red, blue":                  nil,
		"Red ferrules 13.6 mm":                       nil,
		"Ferrules with a blue ring, in mm":           nil,
		"Prices in pounds sterling":                  nil,
		"Rot: läuft aus":                             {{Shade: "red", Meaning: "discontinued", Plain: true}},
		"gelb markierte Maße sind vorläufig":         {{Shade: "yellow", Meaning: "provisional", Plain: true}},
		"Les lignes en gris ne sont plus fabriquées": {{Shade: "grey", Meaning: "discontinued", Plain: true}},
		"Cases jaunes : cotes modifiées":             {{Shade: "yellow", Meaning: "changed", Plain: true}},
		"Celdas amarillas: por confirmar":            {{Shade: "yellow", Meaning: "provisional", Plain: true}},
		"In giallo le misure nuove":                  {{Shade: "yellow", Meaning: "new"}},
		"Linhas a cinza: descontinuado":              {{Shade: "grey", Meaning: "discontinued", Plain: true}},
		"Rode cijfers: nog te bevestigen":            {{Shade: "red", Meaning: "provisional", Plain: true}},
		"Gulmarkerade rader har utgått":              {{Shade: "yellow", Meaning: "discontinued", Plain: true}},
		"Grå rader: utgått":                          {{Shade: "grey", Meaning: "discontinued", Plain: true}},
		"Żółte komórki: do potwierdzenia":            {{Shade: "yellow", Meaning: "provisional", Plain: true}},
		"Šedé řádky: výroba ukončena":                {{Shade: "grey", Meaning: "discontinued", Plain: true}},
		"Màu vàng: ngừng sản xuất":                   {{Shade: "yellow", Meaning: "discontinued", Plain: true}},
		"สีเหลือง = เลิกผลิต":                        {{Shade: "yellow", Meaning: "discontinued", Plain: true}},
		"黄色のセルは暫定値":                                  {{Shade: "yellow", Meaning: "provisional", Plain: true}},
		"赤字：インチ":                                     {{Shade: "red", Unit: "in", Plain: true}},
		"노란색: 단종":                                    {{Shade: "yellow", Meaning: "discontinued", Plain: true}},
		"黄色底色为停产型号":                                  {{Shade: "yellow", Meaning: "discontinued", Plain: true}},
		"紅色字體為新尺寸":                                   {{Shade: "red", Meaning: "new", Plain: true}},
	} {
		got := coloursIn(lex, text)
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(ColourLegend{}), cmpopts.IgnoreFields(ColourLegend{}, "Text", "fill", "characters")); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
	}
}

// TestClaimColours gives each colour to the legend that names it, the nearer name first, and leaves others alone.
func TestClaimColours(t *testing.T) {
	amber, yellow, red := sheet.RGB(255, 192, 0), sheet.RGB(255, 255, 0), sheet.RGB(192, 0, 0)
	inUse := []sheet.Paint{{Fill: amber}, {Fill: yellow}, {Ink: red}, {Fill: sheet.RGB(0, 112, 192)}}
	both := ClaimColours([]ColourLegend{{Shade: "orange"}, {Shade: "yellow"}}, inUse)
	alone := ClaimColours([]ColourLegend{{Shade: "orange"}}, inUse)
	own := ClaimColours([]ColourLegend{{own: sheet.Paint{Fill: amber}}, {Shade: "yellow", own: sheet.Paint{Fill: sheet.RGB(0, 112, 192)}}}, inUse)
	ink := ClaimColours([]ColourLegend{{Shade: "red", fill: true}}, inUse)
	for name, one := range map[string]struct{ got, want int }{
		"amber beside a legend of yellow":                {both.Of(inUse[0], nil), 1},
		"amber where only orange is named":               {alone.Of(inUse[0], nil), 0},
		"yellow where only orange is named":              {alone.Of(inUse[1], nil), -1},
		"the legend's own colour":                        {own.Of(inUse[0], nil), 0},
		"a colour that the legend has and does not name": {own.Of(inUse[3], nil), -1},
		"the colour that it names":                       {own.Of(inUse[1], nil), 1},
		"characters where no cell is filled so":          {ink.Of(inUse[2], nil), 0},
		"some of the characters":                         {ink.Of(sheet.Paint{}, []sheet.Colour{red}), 0},
		"another colour":                                 {both.Of(inUse[3], nil), -1},
	} {
		if one.got != one.want {
			t.Errorf("%s: legend %d, want %d", name, one.got, one.want)
		}
	}
}
