package reader_test

import (
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
)

// The headings are what a supplier who writes the language may put there; the sizes are the same in all of them.
func TestLanguages(t *testing.T) {
	for language, text := range map[string]string{
		"de": `
Schlägerköpfe Katalog (alle Maße in mm)
Artikel-Nr. | Bezeichnung | Hosel Außendurchmesser | Bohrung | Bohrungstiefe | Preis
KR-20 | Eisen geschmiedet | 13,6 | 9,5 | 32 | 12,50
KR-21 | Eisen gegossen | 13,4 | 9,5 | 30 | 12,50`,
		"fr": `
Têtes de club (toutes les cotes en mm)
Référence | Désignation | Diamètre extérieur hosel | Alésage | Profondeur d'alésage | Prix
KR-20 | Fer forgé | 13,6 | 9,5 | 32 | 12,50
KR-21 | Fer coulé | 13,4 | 9,5 | 30 | 12,50`,
		"es": `
Cabezas (medidas en mm)
Referencia | Descripción | Diámetro exterior del hosel | Diámetro interior | Profundidad del agujero | Precio
KR-20 | Hierro forjado | 13,6 | 9,5 | 32 | 12,50
KR-21 | Hierro fundido | 13,4 | 9,5 | 30 | 12,50`,
		"it": `
Teste (misure in mm)
Codice | Descrizione | Diametro esterno hosel | Foro | Profondità foro | Prezzo
KR-20 | Ferro forgiato | 13,6 | 9,5 | 32 | 12,50
KR-21 | Ferro fuso | 13,4 | 9,5 | 30 | 12,50`,
		"ja": `
ヘッド一覧（単位：mm）
品番 | 品名 | ホーゼル外径 | ホーゼル内径 | 挿入深さ | 価格
KR-20 | 鍛造アイアン | 13.6 | 9.5 | 32 | 1250
KR-21 | 鋳造アイアン | 13.4 | 9.5 | 30 | 1250`,
		"ko": `
헤드 목록 (단위: mm)
품번 | 품명 | 호젤 외경 | 호젤 내경 | 삽입 깊이 | 가격
KR-20 | 단조 아이언 | 13.6 | 9.5 | 32 | 1250
KR-21 | 주조 아이언 | 13.4 | 9.5 | 30 | 1250`,
		"zh-Hans": `
球头目录（单位：毫米）
货号 | 名称 | 颈部外径 | 颈部内径 | 孔深 | 价格
KR-20 | 锻造铁杆 | 13.6 | 9.5 | 32 | 125
KR-21 | 铸造铁杆 | 13.4 | 9.5 | 30 | 125`,
		"zh-Hant": `
桿頭目錄（單位：公釐）
料號 | 品名 | 頸部外徑 | 頸部內徑 | 孔深 | 價格
KR-20 | 鍛造鐵桿 | 13.6 | 9.5 | 32 | 125
KR-21 | 鑄造鐵桿 | 13.4 | 9.5 | 30 | 125`,
		"two at once": `
Heads 球头
Part No. 货号 | Description 名称 | Hosel O.D. 颈部外径 (mm) | Bore 内径 (mm) | Bore depth 孔深 (mm) | Price 价格
KR-20 | Iron 铁杆 | 13.6 | 9.5 | 32 | 125
KR-21 | Iron 铁杆 | 13.4 | 9.5 | 30 | 125`,
	} {
		t.Run(language, func(t *testing.T) {
			c := read(t, grid("Sheet1", text))
			defer show(t, c)
			wantNoErrors(t, c)
			wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5, catalog.BoreDepth: 32})
			wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.4, catalog.Bore: 9.5, catalog.BoreDepth: 30})
			if len(c.Heads) != 2 || c.Heads[0].Category != fitcalc.Iron {
				t.Errorf("%d heads", len(c.Heads))
			}
		})
	}
}

func TestFerrulesInLanguages(t *testing.T) {
	for language, text := range map[string]string{
		"de": `
Ferrulen / Zierringe
Art.-Nr. | Innen-Ø mm | Außen-Ø unten mm | Länge mm | Farbe
F-1 | 9,35 | 13,7 | 19 | schwarz
F-2 | 9,35 | 13,9 | 25 | schwarz`,
		"fr": `
Ferrules
Réf. | Ø intérieur (mm) | Ø extérieur base (mm) | Longueur (mm) | Couleur
F-1 | 9,35 | 13,7 | 19 | noir
F-2 | 9,35 | 13,9 | 25 | noir`,
		"es": `
Casquillos
Código | Ø interior (mm) | Ø exterior base (mm) | Longitud (mm) | Color
F-1 | 9,35 | 13,7 | 19 | negro
F-2 | 9,35 | 13,9 | 25 | negro`,
		"it": `
Ghiere
Codice articolo | Ø interno (mm) | Ø esterno base (mm) | Lunghezza (mm) | Colore
F-1 | 9,35 | 13,7 | 19 | nero
F-2 | 9,35 | 13,9 | 25 | nero`,
		"ja": `
ソケット（フェルール）
品番 | 内径(mm) | 外径(mm) | 長さ(mm) | 色
F-1 | 9.35 | 13.7 | 19 | 黒
F-2 | 9.35 | 13.9 | 25 | 黒`,
		"ko": `
페럴
품번 | 내경(mm) | 외경(mm) | 길이(mm) | 색상
F-1 | 9.35 | 13.7 | 19 | 검정
F-2 | 9.35 | 13.9 | 25 | 검정`,
		"zh-Hans": `
胶圈
货号 | 内径(mm) | 外径(mm) | 长度(mm) | 颜色
F-1 | 9.35 | 13.7 | 19 | 黑
F-2 | 9.35 | 13.9 | 25 | 黑`,
		"zh-Hant": `
膠圈
料號 | 內徑(mm) | 外徑(mm) | 長度(mm) | 顏色
F-1 | 9.35 | 13.7 | 19 | 黑
F-2 | 9.35 | 13.9 | 25 | 黑`,
	} {
		t.Run(language, func(t *testing.T) {
			c := read(t, grid("Sheet1", text))
			defer show(t, c)
			wantNoErrors(t, c)
			wantRow(t, c, "F-2", catalog.Used, sizes{catalog.Bore: 9.35, catalog.BaseOD: 13.9, catalog.Length: 25})
			if len(c.Ferrules) != 2 {
				t.Errorf("%d ferrules", len(c.Ferrules))
			}
		})
	}
}
