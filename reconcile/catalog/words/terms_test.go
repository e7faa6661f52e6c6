package words

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

type question struct {
	ask     func(string) (Hit, bool)
	answers map[string]string
}

func TestTerms(t *testing.T) {
	v := Load()
	for name, q := range map[string]question{
		"category": {v.Category, map[string]string{
			"Driver": "driver", "1 wood": "driver", "Holz 1": "driver", "bois 1": "driver", "ドライバー": "driver", "드라이버": "driver", "一号木": "driver", "一號木桿": "driver",
			"Fairway wood": "fairway", "Fairwayholz": "fairway", "bois de parcours": "fairway", "madera de calle": "fairway", "legno da fairway": "fairway",
			"フェアウェイウッド": "fairway", "페어웨이 우드": "fairway", "球道木": "fairway", "球道木桿": "fairway",
			"hybrid": "hybrid", "utility": "hybrid", "hybride": "hybrid", "Híbrido": "hybrid", "ibrido": "hybrid", "ユーティリティ": "hybrid", "하이브리드": "hybrid", "铁木杆": "hybrid", "鐵木桿": "hybrid",
			"iron": "iron", "Irons": "iron", "forged iron head": "iron", "Eisen": "iron", "Eisensatz": "iron", "fer": "iron", "fers forgés": "iron", "hierro": "iron", "ferro": "iron", "ferri": "iron",
			"アイアン": "iron", "アイアンヘッド 軟鉄": "iron", "아이언": "iron", "铁杆": "iron", "鐵桿": "iron", "鐵桿頭": "iron",
			"wedge": "wedge", "Sand wedge": "wedge", "ウェッジ": "wedge", "웨지": "wedge", "挖起杆": "wedge", "沙坑桿": "wedge", "cocheur": "wedge",
			"putter": "putter", "パター": "putter", "퍼터": "putter", "推杆": "putter", "推桿": "putter",
			"chipper": "chipper", "チッパー": "chipper", "치퍼": "chipper",
			"zwubble": "", "": "", "0.370": "",
		}},
		"top": {v.TopForm, map[string]string{
			"flat": "flat", "Flat / square cut": "flat", "flach": "flat", "plan gedreht": "flat", "plat": "flat", "plano": "flat", "piatto": "flat", "フラット": "flat", "平ら": "flat", "평면": "flat", "平口": "flat",
			"rounded": "rounded", "full radius": "rounded", "verrundet": "rounded", "arrondi": "rounded", "redondeado": "rounded", "arrotondato": "rounded", "丸み": "rounded", "라운드": "rounded", "圆角": "rounded", "圓角": "rounded",
			"countersunk": "countersunk", "C'sink 90°": "countersunk", "gesenkt": "countersunk", "fraisé": "countersunk", "avellanado": "countersunk", "svasato": "countersunk", "皿もみ": "countersunk", "카운터싱크": "countersunk", "沉头": "countersunk", "沉頭孔": "countersunk",
			"chamfered": "countersunk", "Fase": "countersunk", "倒角": "countersunk",
			"counterbored": "counterbored", "c'bore": "counterbored", "Flachsenkung": "counterbored", "lamé": "counterbored", "abocardado": "counterbored", "lamatura": "counterbored", "座ぐり": "counterbored", "카운터보어": "counterbored", "沉孔": "counterbored", "階梯孔": "counterbored",
			"zwubble": "",
		}},
		"style": {v.Style, map[string]string{
			"plain": "plain", "Standard": "plain", "glatt": "plain", "lisse": "plain", "liso": "plain", "liscio": "plain", "プレーン": "plain", "일반": "plain", "普通": "plain", "without collar": "plain", "ohne Bund": "plain", "sans collerette": "plain", "つばなし": "plain", "无凸缘": "plain", "無台階": "plain",
			"collared": "collared", "with collar": "collared", "mit Bund": "collared", "à collerette": "collared", "con collarín": "collared", "con collare": "collared", "つば付き": "collared", "칼라형": "collared", "带凸缘": "collared", "帶凸緣": "collared",
			"stepped": "stepped", "mit Absatz": "stepped", "épaulé": "stepped", "escalonado": "stepped", "a gradino": "stepped", "段付き": "stepped", "단차형": "stepped", "台阶": "stepped", "台階": "stepped",
		}},
		"material": {v.Material, map[string]string{
			"Cellulose acetate": "cellulose_acetate", "Zelluloseacetat": "cellulose_acetate", "acétate de cellulose": "cellulose_acetate", "acetato de celulosa": "cellulose_acetate", "アセテート": "cellulose_acetate", "醋酸纤维素": "cellulose_acetate",
			"CAB": "cellulose_acetate_butyrate", "Cellulose acetate butyrate": "cellulose_acetate_butyrate", "acétate-butyrate de cellulose": "cellulose_acetate_butyrate", "醋酸丁酸纖維素": "cellulose_acetate_butyrate",
			"ABS": "abs", "Nylon 6": "nylon", "Polyamid": "nylon", "ナイロン": "nylon", "尼龙": "nylon", "POM": "acetal", "acetal": "acetal", "聚甲醛": "acetal", "Messing": "other", "aluminium": "other", "celluloid": "other",
		}},
		"bore form": {v.BoreForm, map[string]string{
			"parallel": "parallel", "taper": "taper", "Tapered": "taper", "konisch": "taper", "conique": "taper", "cónico": "taper", "conico": "taper", "テーパー": "taper", "테이퍼": "taper", "锥形": "taper", "錐形": "taper",
			"zylindrisch": "parallel", "parallèle": "parallel", "paralelo": "parallel", "parallelo": "parallel", "パラレル": "parallel", "평행": "parallel", "平行": "parallel",
		}},
		"kind": {v.Kind, map[string]string{
			"Heads": "heads", "Iron heads 2027": "heads", "Köpfe": "heads", "têtes": "heads", "cabezas": "heads", "teste": "heads", "ヘッド": "heads", "헤드": "heads", "杆头": "heads", "桿頭": "heads",
			"Ferrules": "ferrules", "ferrule price list": "ferrules", "Zierringe": "ferrules", "viroles": "ferrules", "férulas": "ferrules", "ghiere": "ferrules", "フェルール": "ferrules", "페룰": "ferrules", "套环": "ferrules", "套環": "ferrules", "Ferrules for iron heads": "ferrules",
			"Shafts": "tips", "Schäfte": "tips", "シャフト": "tips", "杆身": "tips", "Sheet1": "",
		}},
	} {
		for text, want := range q.answers {
			if hit, _ := q.ask(text); hit.Value != want {
				t.Errorf("%s of %q is %+v, want %q", name, text, hit, want)
			}
		}
	}
}

func TestTermsOfTwoMindsAreLessCertain(t *testing.T) {
	v := Load()
	sure, _ := v.TopForm("flat")
	torn, _ := v.TopForm("flat or countersunk")
	if torn.Score >= 0.7 || sure.Score < 0.9 {
		t.Errorf("flat scores %v, flat or countersunk %v", sure.Score, torn.Score)
	}
}

func TestSmallWords(t *testing.T) {
	v := Load()
	for name, q := range map[string]question{
		"not applicable": {v.IsNotApplicable, map[string]string{
			"n/a": "not_applicable", "N.A.": "not_applicable", "–": "not_applicable", "--": "not_applicable", "—": "not_applicable", "-": "not_applicable", "none": "not_applicable", "(none)": "not_applicable",
			"k.A.": "not_applicable", "entfällt": "not_applicable", "Entf.": "not_applicable", "s.o.": "not_applicable", "néant": "not_applicable", "sans objet": "not_applicable", "ninguno": "not_applicable", "no aplica": "not_applicable", "nessuno": "not_applicable",
			"なし": "not_applicable", "該当なし": "not_applicable", "해당 없음": "not_applicable", "없음": "not_applicable", "无": "not_applicable", "無": "not_applicable", "不适用": "not_applicable", "不適用": "not_applicable",
			"0": "", "13.6": "", "nonesuch": "", "": "",
		}},
		"not made": {v.IsNotMade, map[string]string{
			"not made": "not_made", "(Not made)": "not_made", "nicht im Programm": "not_made", "n'existe pas": "not_made", "no se fabrica": "not_made", "non prodotto": "not_made", "tillverkas ej": "not_made", "nie produkujemy": "not_made",
			"設定なし": "not_made", "미제작": "not_made", "不生产": "not_made", "無此規格": "not_made", "ไม่ผลิต": "not_made", "PT-101": "", "made": "", "13.6": "", "": "",
		}},
		"missing": {v.IsMissing, map[string]string{
			"TBD": "missing", "tba": "missing", "?": "missing", "auf Anfrage": "missing", "à confirmer": "missing", "por confirmar": "missing", "da definire": "missing", "未定": "missing", "미정": "missing", "待定": "missing", "13.6": "",
		}},
		"ditto": {v.IsDitto, map[string]string{"ditto": "ditto", "dto.": "ditto", "s. o.": "ditto", "idem": "ditto", "同上": "ditto", "상동": "ditto", "13.6": ""}},
		"total": {v.IsTotal, map[string]string{
			"Total": "total", "TOTAL:": "total", "Subtotal": "total", "Grand total": "total", "Summe": "total", "Zwischensumme": "total", "Total général": "total", "suma": "total", "totale": "total", "合計": "total", "小計": "total", "합계": "total", "总计": "total", "總計": "total", "Total 12": "total",
			"Total length": "", "Totally forged head": "", "X-100": "", "Gesamtlänge": "",
		}},
		"note": {v.IsNote, map[string]string{
			"Note: all sizes before polishing": "note", "* measured before polishing": "note", "¹ nominal size only": "note", "All dimensions in mm": "note", "Alle Maße in mm": "note", "Toutes les cotes en mm": "note", "Todas las medidas en mm": "note", "Tutte le quote in mm": "note",
			"※寸法は参考値です": "note", "単位：mm": "note", "단위: mm": "note", "单位：mm": "note", "備註：尺寸僅供參考": "note", "Prices subject to change without notice.": "note",
			"X-100": "", "Forged iron head": "", "Hosel OD": "", "13.6": "",
		}},
	} {
		for text, want := range q.answers {
			if hit, _ := q.ask(text); hit.Value != want {
				t.Errorf("%s of %q is %+v, want %q", name, text, hit, want)
			}
		}
	}
}

func TestUnits(t *testing.T) {
	v := Load()
	for text, want := range map[string][]string{
		"All dimensions in mm":            {"mm"},
		"All dimensions in inches":        {"in"},
		"All sizes in m. m.":              {"mm"},
		"Medidas en m/m":                  {"mm"},
		"Alle maten in c.m.":              {"cm"},
		"Unit: in":                        {"in"},
		"単位：mm":                           {"mm"},
		"单位：毫米":                           {"mm"},
		"단위: 인치":                          {"in"},
		"Alle Maße in Zoll":               {"in"},
		"Toutes les cotes en pouces":      {"in"},
		"Medidas en milímetros":           {"mm"},
		"Misure in pollici":               {"in"},
		"Hosel list (in)":                 {"in"},
		"OD in inches, length in mm":      {"in", "mm"},
		"Heads in stock":                  nil,
		"Bore (plug)":                     nil,
		"Ø (plg)":                         {"in"},
		"深度 and 尺寸":                       nil,
		"Spring price list, valid in May": nil,
		"All sizes mm, prices inc GST":    {"mm"},
		"Sizes in mm. EUR, inc. VAT":      {"mm", "EUR"},
		"ölçüler inç":                     {"in"},
		"olculer inc":                     {"in"},
	} {
		var got []string
		for _, h := range v.Units(text) {
			got = append(got, h.Value)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
	for text, want := range map[string]string{
		"mm": "mm", "MM": "mm", "mm.": "mm", "[mm]": "mm", "毫米": "mm", "公厘": "mm", "ミリ": "mm", "밀리미터": "mm", "millimètres": "mm", "Millimeter": "mm", "㎜": "mm",
		"in": "in", "in.": "in", `"`: "in", "″": "in", "''": "in", "inch": "in", "inches": "in", "Zoll": "in", "pouces": "in", "po": "in", "po.": "in", "pulgadas": "in", "pulg.": "in", "pollici": "in", "インチ": "in", "인치": "in", "英寸": "in", "英吋": "in", "吋": "in",
		"thou": "thou", "mil": "thou", "mils": "thou", "°": "deg", "Grad": "deg", "度": "deg", "도": "deg", "µm": "um", "μm": "um", "cm": "cm", "stone": "",
	} {
		if h, _ := v.Unit(text); h.Value != want {
			t.Errorf("unit of %q is %+v, want %q", text, h, want)
		}
	}
}

func TestLeadingMark(t *testing.T) {
	v := Load()
	for text, want := range map[string]struct {
		Mark   string
		Length int
	}{
		"approx. 13.6": {"approximate", 7},
		"ca 13,6":      {"approximate", 2},
		"約13.6":        {"approximate", 3},
		"max.535":      {"at_most", 3},
		"max .535":     {"at_most", 3},
		"maximum 13.6": {"at_most", 7},
		"≤13.6":        {"at_most", 3},
		"mind. 13.6":   {"at_least", 5},
		"13.6":         {"", 0},
		"cable 13.6":   {"", 0},
	} {
		h, n := v.LeadingMark(text, "approximate", "at_most", "at_least")
		if h.Value != want.Mark || n != want.Length {
			t.Errorf("%q begins with %+v of %d bytes, want %+v", text, h, n, want)
		}
	}
}
