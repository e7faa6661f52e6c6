package reader_test

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestWhoseNumbers takes of two columns of part numbers those of the firm that the list is of, in all languages and whichever stands first, and
// says of the others that they are not used. Who has a number of his own only now and then is not asked for it.
func TestWhoseNumbers(t *testing.T) {
	for _, one := range []struct{ makers, ours string }{
		{"Maker's", "Ours"}, {"Maker's no.", "Our No."}, {"Mfr part", "Item"}, {"Mfr part no.", "SKU"}, {"Manufacturer code", "Our code"}, {"Vendor part #", "Item #"},
		{"Customer ref", "Our ref"}, {"Your ref", "Item no."}, {"OEM no.", "Part no."}, {"Customer no.", "Supplier no."},
		{"Hersteller-Nr.", "Unsere Nr."}, {"Herstellernummer", "Artikelnummer"}, {"Hersteller Art.-Nr.", "Unsere Art.-Nr."}, {"Ihre Nr.", "Unsere"},
		{"Réf. fabricant", "Notre réf."}, {"N° fabricant", "Référence"}, {"Cod. fornitore", "Ns. codice"}, {"Codice produttore", "Codice interno"},
		{"Ref. fabricante", "Nuestra ref."}, {"Cód. proveedor", "Código interno"}, {"Ref. fornecedor", "Nossa ref."}, {"Fabrikantnr.", "Ons nr."}, {"Uw nr.", "Onze nr."},
		{"Producentnr.", "Vores nr."}, {"Tillverkarens nr", "Vårt nr"}, {"Valmistajan koodi", "Oma koodi"}, {"Nr producenta", "Nasz nr"}, {"Číslo výrobce", "Naše číslo"},
		{"Üretici kodu", "Bizim kod"}, {"Mã nhà sản xuất", "Mã nội bộ"}, {"รหัสผู้ผลิต", "รหัสของเรา"}, {"メーカー品番", "自社品番"}, {"メーカー型番", "商品コード"}, {"제조사품번", "자사코드"},
		{"厂家编号", "我司编号"}, {"供应商货号", "货号"}, {"廠商料號", "本公司編號"}, {"原廠編號", "料號"},
	} {
		for _, text := range []string{
			one.makers + " | " + one.ours + " | Ferrule base OD mm | Bore mm | Length mm\nTP-531 | D1 | 13.5 | 9.3 | 20\nTP-532 | D2 | 13.6 | 9.3 | 22\nTP-540 | D5 | 13.8 | 9.3 | 25",
			one.ours + " | " + one.makers + " | Ferrule base OD mm | Bore mm | Length mm\nD1 | TP-531 | 13.5 | 9.3 | 20\nD2 | TP-532 | 13.6 | 9.3 | 22\nD5 | TP-540 | 13.8 | 9.3 | 25",
		} {
			t.Run(one.ours+" beside "+one.makers, func(t *testing.T) {
				c := read(t, grid("Ferrules", text))
				defer show(t, c)
				if got, want := partsOf(c), []string{"D1", "D2", "D5"}; !slices.Equal(got, want) {
					t.Errorf("parts %v, want %v", got, want)
				}
				at := "A1"
				if text[:len(one.ours)] == one.ours {
					at = "B1"
				}
				wantFinding(t, c, "layout.column", at, one.makers)
			})
		}
	}
	for name, one := range map[string]struct {
		text string
		want []string
	}{
		"our own for some": {"Mfr part | Our no. | Ferrule base OD mm | Bore mm\nTP-531 | D1 | 13.5 | 9.3\nTP-532 | | 13.6 | 9.3\nTP-540 | D5 | 13.8 | 9.3", []string{"TP-531", "TP-532", "TP-540"}},
		"lines counted":    {"Item | Mfr part | Ferrule base OD mm | Bore mm\n1 | TP-531 | 13.5 | 9.3\n2 | TP-532 | 13.6 | 9.3\n3 | TP-540 | 13.8 | 9.3", []string{"TP-531", "TP-532", "TP-540"}},
		"things":           {"Item | Mfr part | Ferrule base OD mm | Bore mm\nplain ring | TP-531 | 13.5 | 9.3\nlong ring | TP-532 | 13.6 | 9.3\nwide ring | TP-540 | 13.8 | 9.3", []string{"TP-531", "TP-532", "TP-540"}},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", one.text))
			defer show(t, c)
			if got := partsOf(c); !slices.Equal(got, one.want) {
				t.Errorf("parts %v, want %v", got, one.want)
			}
		})
	}
}

// partsOf returns the part numbers of the ferrules that were read, in order.
func partsOf(c *catalog.Catalogue) []string {
	var parts []string
	for _, f := range c.Ferrules {
		parts = append(parts, f.Part)
	}
	return parts
}

// TestOldNumbers takes of two columns of part numbers those that hold now, in whichever order they stand, and leaves out parts that have none.
func TestOldNumbers(t *testing.T) {
	for _, one := range []struct{ old, now string }{
		{"Old no.", "No."}, {"Former part no.", "Part no."}, {"Alte Nr.", "Nr."}, {"Ancienne réf.", "Réf."}, {"Código anterior", "Código"}, {"Vecchio codice", "Codice"},
		{"oud nr", "nr"}, {"Gammalt nr", "Nr"}, {"Stary symbol", "Symbol"}, {"旧品番", "品番"}, {"旧编号", "编号"}, {"구 품번", "품번"},
	} {
		for _, text := range []string{
			one.old + " | " + one.now + " | Ferrule base OD mm | Bore mm | Length mm\n | ZR-01 | 13.5 | 9.3 | 20\nF-11 | ZR-11 | 13.6 | 9.3 | 22\nF-12 | ZR-12 | 13.8 | 9.3 | 25\nF-13 | | 13.8 | 9.3 | 25",
			one.now + " | " + one.old + " | Ferrule base OD mm | Bore mm | Length mm\nZR-01 | | 13.5 | 9.3 | 20\nZR-11 | F-11 | 13.6 | 9.3 | 22\nZR-12 | F-12 | 13.8 | 9.3 | 25\n | F-13 | 13.8 | 9.3 | 25",
		} {
			t.Run(one.now+" beside "+one.old, func(t *testing.T) {
				c := read(t, grid("Ferrules", text))
				defer show(t, c)
				if got, want := partsOf(c), []string{"ZR-01", "ZR-11", "ZR-12"}; !slices.Equal(got, want) {
					t.Errorf("parts %v, want %v", got, want)
				}
			})
		}
	}
}
