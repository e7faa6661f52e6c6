package layout

import (
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestFlatPriceWithin finds the price of each piece in a sentence that says more of all pieces, and none where it is of some of them.
func TestFlatPriceWithin(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]float64{
		"Pris 3,40 kr. pr. stk. ekskl. moms, uanset mål.":        3.4,
		"Pris 3,40 kr per stk. ekskl. mva, uansett mål.":         3.4,
		"Pris 3,40 kr/st exkl. moms, oavsett storlek.":           3.4,
		"Preis 0,45 € pro Stück zzgl. MwSt., egal welche Größe.": 0.45,
		"0,45 € je Stück, unabhängig von der Länge":              0.45,
		"0,42 € HT la pièce, quelle que soit la taille.":         0.42,
		"0,50 € sea cual sea la medida.":                         0.5,
		"0,40 €, a prescindere dalla misura":                     0.4,
		"0,48 EUR per stuk excl. btw, ongeacht de maat.":         0.48,
		"0,50 € por peça, seja qual for a medida":                0.5,
		"1,80 zł za szt. netto, niezależnie od rozmiaru.":        1.8,
		"12,50 Kč za kus bez DPH, bez ohledu na rozměr.":         12.5,
		"14,50 TL, boyuttan bağımsız olarak":                     14.5,
		"$0.38 apiece, whatever the size.":                       0.38,
		"どのサイズも1個45円(税別)":                                        45,
		"サイズを問わず45円":                                             45,
		"不论尺寸，每只2.5元":                                            2.5,
		"크기 상관없이 개당 500원":                                        500,
		"ราคา 18 บาทต่อชิ้น ไม่ว่าขนาดใด":                        18,
		"ทุกรหัสรูใน 9.3 มม. ราคาชิ้นละ 18 บาท ขนาดในตารางเป็น มม.": 18,
		"所有货号内孔9.3mm，单价2.5元":                                                  2.5,
		"모든 품번 내경 9.3mm, 개당 500원":                                             500,
		"Alla ferruler är 22 mm långa och kostar 4,80 kr/st.":                 4.8,
		"Alle Ferrules sind 22 mm lang und kosten 0,48 €":                     0.48,
		"Hinta 0,65 €/kpl, alv 0 %.":                                          0.65,
		"Engraving, 0.45 EUR per piece":                                       0,
		"0.45 EUR per piece, gift box":                                        0,
		"10 % discount, 0.65 EUR per piece":                                   0,
		"perçage 9,3 mm (tip .370 parallèle), 0,62 € HT la pièce":             0.62,
		"内孔一律9.3，配.370杆梢，单价1.20元/只。":                                          1.2,
		"Wood ferrules .335, 0.45 EUR per piece":                              0,
		"for .370 tips, 0.45 EUR per piece":                                   0.45,
		"Shipping 9.50 EUR regardless of size":                                0,
		"Versand 6,90 EUR, egal welche Größe":                                 0,
		"Fragt 49 kr. pr. ordre, uanset mål.":                                 0,
		"Price per length $3.00":                                              0,
		"ค่าส่ง 50 บาท ไม่ว่าขนาดใด":                                          0,
		"All items 25.4 mm long, Rs. 42 per piece, packed in polybags of 50.": 42,
		"All ferrules 25 mm long, 0.42 EUR per piece, in bags of 50":          0.42,
		"Alle Zierringe 25 mm lang, 0,42 € pro Stück, in Beuteln zu 50":       0.42,
		"Toutes les viroles 25 mm de long, 0,42 € la pièce, en sachets de 50": 0.42,
		"0.42 EUR per piece for any size, bags of 50":                         0.42,
		"0,42 € pièce pour toutes les tailles, en sachets de 50":              0.42,
		"0.42 EUR per piece for any size, 0.36 for 100":                       0,
		"All black ferrules 25 mm long, 0.42 EUR per piece":                   0,
		"All items 25 mm long, shipping 9.50 EUR per piece":                   0,
		"All items 25 mm long, 0.42 EUR per piece, 0.38 EUR per piece":        0,
		"All items 25 mm long, in bags of 50":                                 0,
		"Price US$0.24 per pc, 200 pcs per polybag.":                          0.24,
		"All 20 mm long and S$0.55 per piece":                                 0.55,
		"S$0.55 per piece, all lengths 20 mm":                                 0.55,
		"$0.55 each, length 25 mm":                                            0.55,
		"Alle mit 20 mm Länge und 0,55 € pro Stück":                           0.55,
		"Alle Größen 20 mm lang, 1 Stück 0,55 €":                              0.55,
		"0,55 € la pièce, toutes de 20 mm de long":                            0.55,
		"Todas de 20 mm de largo y 0,55 € la pieza":                           0.55,
		"Tutte lunghe 20 mm e 0,55 € al pezzo":                                0.55,
		"Todas com 20 mm de comprimento e 0,55 € a peça":                      0.55,
		"Alle 20 mm lang en 0,55 € per stuk":                                  0.55,
		"Alla 20 mm långa och 5,50 SEK per st":                                5.5,
		"Wszystkie długość 20 mm i 1,80 zł za sztukę":                         1.8,
		"全品20mm、1個55円、10個入":                                                   55,
		"全部20mm,每个0.55元":                                                      0.55,
		"All 20 mm long and S$5.50 per bag":                                   0,
		"全品20mm、1袋550円、10個入":                                                  0,
		"全品20mm、10個550円":                                                      0,
		"All black ones 20 mm long and S$0.55 per piece":                      0,
		"$0.55 each, black ones 20 mm":                                        0,
		"$0.55 each and $0.40 each from 100":                                  0,
		"All 20 mm long and shipping $5.50 each":                              0,
		"All items 25 mm long, 0.42 EUR per piece, 0.36 for 100":              0,
	} {
		got := 0.0
		for _, c := range clausesOf(lex, text) {
			if flat, said := flatPriceIn(lex, c.Text); said {
				got = flat.Price
			}
		}
		if got != want {
			t.Errorf("%q: %g, want %g", text, got, want)
		}
	}
}

// TestFlatPriceBeside takes the price of a piece for that of each where another sentence speaks of all.
func TestFlatPriceBeside(t *testing.T) {
	for text, want := range map[string]float64{
		"Unit mm. Bore is 9.3 mm for all. 55 JPY per piece.":                 55,
		"Maße in mm. Bohrung 9,3 mm für alle. 0,55 € pro Stück.":             0.55,
		"Perçage 9,3 mm pour toutes. 0,62 € HT la pièce.":                    0.62,
		"Unit mm. 55 JPY per piece.":                                         0,
		"Bore is 9.3 mm for all. Engraving 55 JPY per piece.":                0,
		"Bore is 9.3 mm for the black ones. 55 JPY per piece.":               0,
		"Bore is 9.3 mm for all. 0.55 EUR per piece, 0.48 EUR from 100 pcs.": 0,
	} {
		g := grid.New(sheettest.Texts("list", [][]string{{text}, {"No", "Base"}, {"X-1", "13.5"}}, true))
		got := 0.0
		for _, note := range FlatNotes(lexicon.New(nil), g, []sheet.Ref{{Row: 1, Col: 1}}) {
			got = note.Price
		}
		if got != want {
			t.Errorf("%q: %g, want %g", text, got, want)
		}
	}
}
