package words_test

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog/words"
)

func TestBlanks(t *testing.T) {
	v := words.Load()
	all := words.Blanks{}
	for text, want := range map[string]words.Blanks{
		"Blank cells: same as row above":                  all,
		"Fields left blank are as in the line above":      all,
		"Leere Felder: wie in der Zeile darüber":          all,
		"Nicht ausgefüllte Felder wie oben":               all,
		"Case vide = idem ci-dessus":                      all,
		"Les cases vides reprennent la ligne précédente":  all,
		"Celdas en blanco: igual que la fila anterior":    all,
		"Caselle vuote: come riga precedente":             all,
		"Campos em branco: igual à linha de cima":         all,
		"Tomma rutor: som raden ovan":                     all,
		"Tomme felter: som rækken ovenfor":                all,
		"Tyhjät kentät: kuten ylempi rivi":                all,
		"Puste pola: jak w wierszu powyżej":               all,
		"Prázdná pole: jako v řádku výše":                 all,
		"Boş hücreler: üst satırla aynı":                  all,
		"Ô trống: như dòng trên":                          all,
		"ช่องว่าง = เหมือนแถวบน":                          all,
		"※空欄は上の行と同じです":                                    all,
		"빈칸은 위 행과 동일":                                     all,
		"空白处同上一行":                                         all,
		"空白處同上一列":                                         all,
		"Blank price: as above":                           {Roles: []string{"price"}},
		"Lege vakken: maat en prijs als de regel erboven": {Sizes: true, Roles: []string{"price"}},
		"Where blank, bore depth is as above":             {Roles: []string{"bore_depth"}},
		"Blank diameters as in the line above":            {Class: "diameter"},
		"Colour blank: as above":                          {Roles: []string{"colour"}},
	} {
		got, said := v.Blanks("heads", text)
		if !said || !slices.Equal(got.Roles, want.Roles) || got.Class != want.Class || got.Sizes != want.Sizes {
			t.Errorf("%q: %+v %v, want %+v", text, got, said, want)
		}
	}
	for _, text := range []string{"Blank cells: on request", "Leere Felder: auf Anfrage", "Bores as in the line above", "See the note above", "", "Empty boxes are not taken back",
		"Blank = not available"} {
		if got, said := v.Blanks("heads", text); said {
			t.Errorf("%q says of blank cells that they are as above: %+v", text, got)
		}
	}
}
