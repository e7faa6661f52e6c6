package value

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/currency"

	"example.com/seatline/fitcalc/measure"
)

// brief writes a reading in one line: the value, what the cell says of it, and the code of the problem.
func brief(r Reading) string {
	var b strings.Builder
	switch r.Kind {
	case Length:
		b.WriteString(r.Dim.String())
	case Angle:
		b.WriteString(r.Angle.String())
	case Number, Taper:
		fmt.Fprintf(&b, "%v %v", r.Kind, r.Number)
	case List:
		var items []string
		for _, item := range r.List {
			items = append(items, brief(item))
		}
		return strings.Join(items, " | ")
	default:
		b.WriteString(r.Kind.String())
	}
	for _, flag := range []struct {
		set  bool
		name string
	}{
		{r.Diameter, "diameter"}, {r.Radius, "radius"}, {r.PerSide, "per-side"}, {r.Form == FormTaper, "taper"}, {r.Form == FormParallel, "parallel"},
		{r.Qualifier == Approximate, "approximate"}, {r.Qualifier == AtMost, "at-most"}, {r.Qualifier == AtLeast, "at-least"}, {r.Qualifier == Reference, "reference"},
		{r.HalfAngle, "half"}, {r.Included, "included"}, {r.Problem.Code != "", "!" + strings.TrimPrefix(r.Problem.Code, "data.")},
	} {
		if flag.set {
			b.WriteString(" " + flag.name)
		}
	}
	return b.String()
}

// group is cells that are read in the same context. The values are worked out by hand from 1 in = 25.4 mm.
type group struct {
	ctx   Context
	cells map[string]string
}

func run(t *testing.T, groups map[string]group) {
	t.Helper()
	for name, g := range groups {
		for text, want := range g.cells {
			if got := brief(Read(text, g.ctx)); got != want {
				t.Errorf("%s: %q reads as %q, want %q", name, text, got, want)
			}
		}
	}
}

func TestReadLengths(t *testing.T) {
	run(t, map[string]group{
		"the unit in the cell": {Context{Want: WantDiameter}, map[string]string{
			"13.6 mm": "13.6 mm", "13.6mm": "13.6 mm", "13.6MM": "13.6 mm", "13.6mm.": "13.6 mm", "1.36 cm": "13.6 mm", `.535"`: "13.589 mm", `0.535"`: "13.589 mm", "0.535 in": "13.589 mm",
			"0.535in": "13.589 mm", "0.535 in.": "13.589 mm", "0.535 inch": "13.589 mm", ".535 inches": "13.589 mm", ".535″": "13.589 mm", ".535”": "13.589 mm", ".535''": "13.589 mm", ".535′′": "13.589 mm", "370 thou": "9.398 mm", "370 mil": "9.398 mm",
			`1/2"`: "12.7 mm", `1/2""`: "12.7 mm", `1-1/4" in`: "31.75 mm", "1/2 in": "12.7 mm", "1-1/4 in": "31.75 mm", `1 1/4"`: "31.75 mm", `½"`: "12.7 mm", `1½"`: "38.1 mm", `7/16"`: "11.1125 mm", "17/32 in": "13.49375 mm", `1/2 ″`: "12.7 mm", `3⁄8"`: "9.525 mm",
			"Ø13.6 mm": "13.6 mm diameter", "φ 13.6 mm": "13.6 mm diameter", "⌀13.6mm": "13.6 mm diameter", "∅ 13.6 mm": "13.6 mm diameter", "dia 13.6 mm": "13.6 mm diameter", "13.6 mm dia.": "13.6 mm diameter", "OD 13.6 mm": "13.6 mm diameter", "D=13.6mm": "13.6 mm diameter",
			"diam. 13,6 mm": "13.6 mm diameter", "Durchmesser 13,6 mm": "13.6 mm diameter", "外径13.6mm": "13.6 mm diameter", "直径 13.6 mm": "13.6 mm diameter", "외경 13.6mm": "13.6 mm diameter",
			"R6.8 mm": "6.8 mm radius", "R 6.8mm": "6.8 mm radius", "6.8 mm radius": "6.8 mm radius", "Radius 6,8 mm": "6.8 mm radius", "rayon 6,8 mm": "6.8 mm radius", "raggio 6,8 mm": "6.8 mm radius", "radio 6,8 mm": "6.8 mm radius", "半径6.8mm": "6.8 mm radius", "반경 6.8 mm": "6.8 mm radius", "半徑 6.8 mm": "6.8 mm radius",
			"0.5 mm per side": "0.5 mm per-side", "0,5 mm je Seite": "0.5 mm per-side", "0,5 mm par côté": "0.5 mm per-side", "0,5 mm por lado": "0.5 mm per-side", "0,5 mm per lato": "0.5 mm per-side", "片側0.5mm": "0.5 mm per-side", "单边0.5mm": "0.5 mm per-side", "單邊0.5mm": "0.5 mm per-side",
			"１３．６ｍｍ": "13.6 mm", "１３，６㎜": "13.6 mm", "13,6 mm": "13.6 mm", "13·6 mm": "13.6 mm", "٣٫٥ mm": "3.5 mm", "१३.६ mm": "13.6 mm", "0,535 Zoll": "13.589 mm", "0.535 pouces": "13.589 mm", ".535 po": "13.589 mm", "0,535 pulgadas": "13.589 mm", "0,535 pulg.": "13.589 mm", "0,535 pollici": "13.589 mm",
			"13.6毫米": "13.6 mm", "13.6 公厘": "13.6 mm", "13.6ミリ": "13.6 mm", "0.535インチ": "13.589 mm", ".535 인치": "13.589 mm", "13.6밀리미터": "13.6 mm", "0.535英寸": "13.589 mm", "0.535 英吋": "13.589 mm", "0.535吋": "13.589 mm", "13,6 Millimeter": "13.6 mm", "13,6 millimètres": "13.6 mm",
			"13.6\u00a0mm": "13.6 mm", "  13.6 mm  ": "13.6 mm", "\u200b13.6 mm": "13.6 mm", "'13.6 mm": "13.6 mm", `="13.6 mm"`: "13.6 mm", "13.60 mm": "13.6 mm", "+13.6 mm": "13.6 mm",
			"hosel 13.6 mm": "13.6 mm", "Hosel: 13.6 mm": "13.6 mm", "13.6 mm polished": "13.6 mm", "(13.6 mm)": "13.6 mm reference", "13.6 mm (ref)": "13.6 mm reference", "[13.6 mm]": "13.6 mm reference",
		}},
		"millimetres elsewhere": {Context{Want: WantDiameter, Unit: "mm"}, map[string]string{
			"13.6": "13.6 mm", "13,6": "13.6 mm", "Ø13.6": "13.6 mm diameter", "13.6*": "13.6 mm", "13.6 **": "13.6 mm", "13.6¹": "13.6 mm", "13.6¹⁾": "13.6 mm", "13.6 (a)": "13.6 mm", "13.6 (1)": "13.6 mm", "13.6†": "13.6 mm", "13.6 [2]": "13.6 mm", `.535"`: "13.589 mm",
			"13.6 ±0.05": "13.6 ±0.05 mm", "13.6±0.05": "13.6 ±0.05 mm", "13.6 +/- 0.05": "13.6 ±0.05 mm", "13.6 +/-.05": "13.6 ±0.05 mm", "13.6 (±0.05)": "13.6 ±0.05 mm", "13,6 ±0,05": "13.6 ±0.05 mm", "13.6＋/－0.05": "13.6 ±0.05 mm", "13.6 ±50 µm": "13.6 ±0.05 mm", `.535 ±.002"`: "13.589 ±0.0508 mm",
			"13.60 +0.00/-0.10": "13.6 +0/-0.1 mm", "13.6 +0/-0.1": "13.6 +0/-0.1 mm", "13.6+0.1/0": "13.6 +0.1/+0 mm", "13.6 -0.1/0": "13.6 +0/-0.1 mm", "13.6 +0.05 / 0": "13.6 +0.05/+0 mm", "13.6 0/-0.1": "13.6 +0/-0.1 mm", "13.6 +0.1 -0": "13.6 +0.1/+0 mm", "13.6 +0.10, -0.05": "13.6 +0.1/-0.05 mm", "13.6 -0.1": "13.6 +0/-0.1 mm", "13.6 +0.05": "13.6 +0.05/+0 mm", "13.6 −0.02/−0.05": "13.6 -0.02/-0.05 mm",
			"13.5~13.7": "13.6 ±0.1 mm", "13.5～13.7": "13.6 ±0.1 mm", "13.5 – 13.7": "13.6 ±0.1 mm", "13.5-13.7": "13.6 ±0.1 mm", "13.5 to 13.7": "13.6 ±0.1 mm", "13,5 bis 13,7": "13.6 ±0.1 mm", "13,5 à 13,7": "13.6 ±0.1 mm", "13,5 a 13,7": "13.6 ±0.1 mm", "13.5...13.7": "13.6 ±0.1 mm", "13.5至13.7": "13.6 ±0.1 mm",
			"from 13.5 to 13.7": "13.6 ±0.1 mm", "de 13,5 à 13,7": "13.6 ±0.1 mm", "13.5/13.7": "13.5 mm | 13.7 mm",
			"approx. 13.6": "13.6 mm approximate", "ca. 13,6": "13.6 mm approximate", "env. 13,6": "13.6 mm approximate", "aprox. 13,6": "13.6 mm approximate", "circa 13,6": "13.6 mm approximate", "約13.6": "13.6 mm approximate", "약 13.6": "13.6 mm approximate", "约13.6": "13.6 mm approximate", "13.6左右": "13.6 mm approximate", "13.6程度": "13.6 mm approximate", "~13.6": "13.6 mm approximate", "≈13.6": "13.6 mm approximate", "13.6 approx": "13.6 mm approximate", "13.6 typ.": "13.6 mm approximate",
			"max 13.6": "13.6 mm at-most", "13.6 max.": "13.6 mm at-most", "≤13.6": "13.6 mm at-most", "<= 13.6": "13.6 mm at-most", "bis 13,6": "13.6 mm at-most", "up to 13.6": "13.6 mm at-most", "máx. 13,6": "13.6 mm at-most", "13.6以下": "13.6 mm at-most", "13.6 이하": "13.6 mm at-most",
			"min 13.6": "13.6 mm at-least", "min. 13.6": "13.6 mm at-least", "≥ 13.6": "13.6 mm at-least", ">13.6": "13.6 mm at-least", "ab 13,6": "13.6 mm at-least", "13.6以上": "13.6 mm at-least", "13.6 이상": "13.6 mm at-least", "mind. 13,6": "13.6 mm at-least", "à partir de 13,6": "13.6 mm at-least",
			"ref. 13.6": "13.6 mm reference", "13.6 nom.": "13.6 mm reference", "(13.6)": "13.6 mm reference", "参考13.6": "13.6 mm reference",
			// ISO 286-1:2010, tables 1 to 3: h9 over 10 up to 18 mm is 0/-43 µm, H7 +18/0, IT11 110 µm, f7 -16/-34.
			"12 h9": "12 +0/-0.043 mm", "12h9": "12 +0/-0.043 mm", "12 mm h9": "12 +0/-0.043 mm", "12 h9 mm": "12 +0/-0.043 mm", "12 H7": "12 +0.018/+0 mm", "12 f7": "12 -0.016/-0.034 mm", "13.6 IT11": "13.6 ±0.055 mm",
			// ISO 2768-1:1989, table 1: m over 6 up to 30 mm is ±0.2.
			"13.6 ISO 2768-m": "13.6 ±0.2 mm", "13.6 DIN ISO 2768-mK": "13.6 ±0.2 mm",
			"0": "0 mm", "0.335000000000000020": "0.335 mm", "13.599999999999999": "13.6 mm", "1.250,50": "1250.5 mm", "1,250.50": "1250.5 mm",
		}},
		"money in brackets": {Context{Want: WantDiameter, Unit: "mm"}, map[string]string{
			"13,7 (poliert +0,20 €)": "13.7 mm", "13.7 (+$0.20)": "13.7 mm", "13,7 (+ 0,35 EUR)": "13.7 mm", "13.7 [polished +£0.20]": "13.7 mm", "13.7（研磨 +30円）": "13.7 mm", "13,7 ±0,05 (+0,20 €)": "13.7 ±0.05 mm",
			"13,7 (+0,20)": "13.7 +0.2/+0 mm", "13,7 (+0,20 mm)": "13.7 +0.2/+0 mm", "13,7 +0,20 €": "unreadable !unreadable", "(0,20 €) 13,7": "unreadable !unreadable", "0,20 € (13,7)": "unreadable !unreadable", "13,7 (0,20 €": "unreadable !unreadable",
			"13,7 (13,9 mm +0,20 €)": "unreadable !unreadable", "13,7 (13,9: +0,20 €)": "unreadable !unreadable", "13,7 (+0,20 €/Stk.)": "13.7 mm", "13,7 (+20%)": "unreadable !unreadable",
		}},
		"pairs are limits": {Context{Want: WantDiameter, Unit: "mm", Limits: true}, map[string]string{
			"13.5/13.7": "13.6 ±0.1 mm", "13.50 / 13.70": "13.6 ±0.1 mm", `.370/.372"`: "9.4234 ±0.0254 mm", "8.5/9.4": "8.5 mm | 9.4 mm", "13.6": "13.6 mm",
		}},
		"inches elsewhere": {Context{Want: WantDiameter, Unit: "in"}, map[string]string{
			".535": "13.589 mm", "0.535": "13.589 mm", "0,535": "13.589 mm", "1/2": "12.7 mm", "1-1/4": "31.75 mm", "3/8": "9.525 mm", "½": "12.7 mm", "13.6 mm": "13.6 mm", ".535 +.000 -.002": "13.589 +0/-0.0508 mm", ".535 ±.002": "13.589 ±0.0508 mm", ".534-.536": "13.589 ±0.0254 mm",
			".370/.372": "9.398 mm | 9.4488 mm", "0.33500000000000002": "8.509 mm", "370 thou": "9.398 mm",
			".355 taper": "9.017 mm taper", ".355T": "9.017 mm taper", ".355 T": "9.017 mm taper", ".355 tapered": "9.017 mm taper", ".355 taper tip": "9.017 mm taper", "taper .355": "9.017 mm taper", ".355 konisch": "9.017 mm taper", ".355 conique": "9.017 mm taper", ".355 cónico": "9.017 mm taper", ".355 conico": "9.017 mm taper", ".355テーパー": "9.017 mm taper", ".355 테이퍼": "9.017 mm taper", ".355锥形": "9.017 mm taper", ".355錐形": "9.017 mm taper",
			".370P": "9.398 mm parallel", ".370 parallel": "9.398 mm parallel", ".370 tip parallel": "9.398 mm parallel", ".370 par.": "9.398 mm parallel", ".370パラレル": "9.398 mm parallel", ".370 평행": "9.398 mm parallel", ".370平行": "9.398 mm parallel", ".370 parallèle": "9.398 mm parallel",
			"fits .370": "9.398 mm", "for .370": "9.398 mm", "für .370": "9.398 mm", "pour .370": "9.398 mm", "para .370": "9.398 mm", "per .370": "9.398 mm", ".370用": "9.398 mm", ".370 対応": "9.398 mm",
			"370": "9398 mm !implausible", "370 tip parallel": "9398 mm parallel !implausible",
		}},
		"a form before the name of a tip": {Context{Want: WantDiameter, Unit: "thou"}, map[string]string{
			"P370": "9.398 mm parallel", "T355": "9.017 mm taper", "P-370": "9.398 mm parallel", "T 355": "9.017 mm taper", "p/335": "8.509 mm parallel", "370/P": "9.398 mm parallel", "TAP355": "9.017 mm taper", "PAR370": "9.398 mm parallel", "370PAR": "9.398 mm parallel", "テーパー355": "9.017 mm taper",
			"P335/P350": "8.509 mm parallel | 8.89 mm parallel", "P335 / T355": "8.509 mm parallel | 9.017 mm taper",
			"K370": "text", "P37": "text", "P3705": "text", "P370-18": "text", "P420": "text", "X P370": "unreadable !unreadable", "PX370": "text",
		}},
		"a form before a tip in inches": {Context{Want: WantDiameter, Unit: "in"}, map[string]string{"P.370": "9.398 mm parallel", "T0.355": "9.017 mm taper", "T-.355": "9.017 mm taper"}},
		"two units": {Context{Want: WantDiameter}, map[string]string{
			".370 (9.398mm)": "9.398 mm", `.370" (9.398 mm)`: "9.398 mm", `.370" (9.4 mm)`: "9.398 mm", ".370 in / 9.40 mm": "9.398 mm", "9.4mm / .370in": "9.4 mm", `9.40mm(0.370")`: "9.4 mm", ".370 in = 9.398 mm": "9.398 mm", `.370" [9.40]`: "9.398 mm", ".370 (9.398)": "9.398 mm", "9.398 (.370)": "9.398 mm", `17/32" (13.5mm)`: "13.49375 mm", `13.5 mm (17/32")`: "13.49375 mm", "13.6 mm .535 in": "13.6 mm", `.54" (13.60 mm)`: "13.6 mm",
			".370 ±.001 (9.398 ±0.025) mm": "9.398 ±0.025 mm", `.370" ±.001 (9.398 mm)`: "9.398 ±0.0254 mm", `Ø.370" (9.398 mm)`: "9.398 mm diameter",
			".370 (9.5mm)": "unreadable !conflict", `.370" (9.45 mm)`: "unreadable !conflict", "9.4 mm = .380 in": "unreadable !conflict", `.535" (13.6 mm) (14 mm)`: "unreadable !unreadable",
		}},
		"lists": {Context{Want: WantDiameter, Unit: "in"}, map[string]string{
			"fits .335/.350": "8.509 mm | 8.89 mm", ".355 or .370": "9.017 mm | 9.398 mm", ".335/.350/.370": "8.509 mm | 8.89 mm | 9.398 mm", ".335, .350, .370": "8.509 mm | 8.89 mm | 9.398 mm", ".335; .350": "8.509 mm | 8.89 mm", ".355 & .370": "9.017 mm | 9.398 mm", ".355 oder .370": "9.017 mm | 9.398 mm", ".355 ou .370": "9.017 mm | 9.398 mm", ".355 o .370": "9.017 mm | 9.398 mm", ".355または.370": "9.017 mm | 9.398 mm", ".355 또는 .370": "9.017 mm | 9.398 mm", ".355或.370": "9.017 mm | 9.398 mm", ".355、.370": "9.017 mm | 9.398 mm", ".335\n.350": "8.509 mm | 8.89 mm",
			"0,355 / 0,370": "9.017 mm | 9.398 mm", ".355 taper/.370 parallel": "9.017 mm taper | 9.398 mm parallel", ".370 parallel or .355 taper": "9.398 mm parallel | 9.017 mm taper", ".355T/.370P": "9.017 mm taper | 9.398 mm parallel", ".335 (8.51mm) / .350 (8.89mm)": "8.509 mm | 8.89 mm", "8.5/9.4 mm": "8.5 mm | 9.4 mm", "335/350": "8509 mm !implausible | 8890 mm !implausible",
			".335 .350": "unreadable !unreadable", "1.9/16": "unreadable !unreadable",
		}},
		"no unit anywhere": {Context{Want: WantDiameter}, map[string]string{
			"13.6": "number 13.6 !unit", ".370": "number 0.37 !unit", "370": "number 370 !unit", "3/8": "number 0.375 !unit", "13.6 ±0.05": "number 13.6 !unit", "Ø13.6": "number 13.6 diameter !unit", ".335/.350": "number 0.335 !unit | number 0.35 !unit", ".355 taper": "number 0.355 taper !unit",
		}},
		"stated twice": {Context{Want: WantDiameter, Unit: "mm"}, map[string]string{
			"7/16 (.4375)": "11.1125 mm", ".4375 (7/16)": "11.1125 mm", `7/16" (0.438)`: "11.1125 mm", `7/16" (.4375")`: "11.1125 mm", `.4375" / 7/16"`: "11.1125 mm", "9.4 (0.370)": "9.4 mm", ".500/12.7": "12.7 mm", `1" (25 mm)`: "25.4 mm",
			"12.7 note 1": "12.7 mm", "12.7 (note 2)": "12.7 mm", "12.7 注1": "12.7 mm", "12.7 a)": "12.7 mm", "1 000": "unreadable !unreadable", "12.7 1": "unreadable !unreadable", "12.7 (1.5)": "unreadable !unreadable", `1" (40 mm)`: "unreadable !conflict",
			"13.6 (13.5 - 13.7)": "13.6 ±0.1 mm", "13.6 [13.5-13.8]": "13.6 +0.2/-0.1 mm", "13.6 mm (13.5-13.7)": "13.6 ±0.1 mm", "13.6 (14.5 - 14.7)": "unreadable !unreadable",
			"min 13.5 max 13.7": "13.6 ±0.1 mm", "13.5 min 13.7 max": "13.6 ±0.1 mm", "min. 13,5 / max. 13,7": "13.6 ±0.1 mm", "mind. 13,5, höchstens 13,7": "13.6 ±0.1 mm",
			`"12.7"`: "12.7 mm", `"12.7`: "unreadable !unreadable", "12。7": "12.7 mm", "12.7*9.4": "unreadable !unreadable",
			".370-P": "0.37 mm parallel", ".355-taper": "0.355 mm taper", ".370 PAR": "0.37 mm parallel", "8.5-9.4": "8.95 ±0.45 mm !implausible",
		}},
		"nothing wanted": {Context{}, map[string]string{"13.6": "number 13.6", "13.6 mm": "13.6 mm", "90°": "90°", "$1.25": "number 1.25", "flat": "text", "X100": "text", "A-12": "text", "13.6 x 20": "unreadable !unreadable"}},
		"no lengths": {Context{Want: WantDiameter, Unit: "mm"}, map[string]string{
			"": "empty", "  \u00a0\u200b ": "empty", "n/a": "not applicable", "–": "not applicable", "--": "not applicable", "none": "not applicable", "entfällt": "not applicable", "néant": "not applicable", "ninguno": "not applicable", "nessuno": "not applicable", "なし": "not applicable", "해당 없음": "not applicable", "无": "not applicable", "無": "not applicable",
			"TBD": "missing !missing", "k.A.": "missing !missing", "auf Anfrage": "missing !missing", "見積": "text", "未定": "missing !missing", "?": "missing !missing", "ditto": "ditto !missing", "同上": "ditto !missing", "s.o.": "missing !missing",
			"taper": "text taper", "parallel": "text parallel", "flat": "text", "see 2nd sheet": "unreadable !unreadable", "3/8": "0.375 mm !unit",
			"8-Mar": "unreadable !damaged", "3-Aug": "unreadable !damaged", "Mar-8": "unreadable !damaged", "8. März": "unreadable !damaged", "3月8日": "unreadable !damaged", "3월 8일": "unreadable !damaged", "2027-03-08": "unreadable !damaged", "3/8/2027": "unreadable !damaged", "Sep-32": "unreadable !damaged",
			"5.35E-1": "unreadable !unreadable", "1,36E+01": "unreadable !unreadable", "50%": "unreadable !unreadable", "13.6 x 20": "unreadable !unreadable", "2x13.6": "unreadable !unreadable", "13.6 × 20 mm": "unreadable !unreadable", "-13.6": "unreadable !unreadable", "13.6.2": "unreadable !unreadable", "1/3": "unreadable !unreadable", "13/14": "unreadable !unreadable", "1´": "unreadable !unreadable", "5 pcs": "unreadable !unreadable", "45°": "unreadable !unreadable", "$5": "unreadable !unreadable",
			"1,250": "unreadable !unreadable", "13 . 6": "unreadable !unreadable", "13.6 mm 5": "unreadable !unreadable", "±0.05": "unreadable !unreadable", "#DIV/0!": "unreadable !damaged", "#N/A": "unreadable !damaged", "####": "unreadable !unreadable", "13.6 ±": "unreadable !unreadable", "12 h99": "unreadable !unreadable", "12 ±1%": "unreadable !unreadable",
		}},
	})
}

func TestReadOther(t *testing.T) {
	run(t, map[string]group{
		"angles": {Context{Want: WantAngle, Unit: "deg"}, map[string]string{
			"90°": "90°", "90": "90°", "82 deg": "82°", "82,5°": "82.5°", "90 Grad": "90°", "60度": "60°", "60도": "60°", "90 degrés": "90°", "90 grados": "90°", "90 gradi": "90°", "９０°": "90°", "90º": "90°",
			"45° per side": "45° half", "45°/side": "45° half", "45° je Seite": "45° half", "90° incl.": "90° included", "90° included": "90° included", "120° incluido": "120° included", "0.5 x 45°": "45° half", "0.5×45°": "45° half", "90°±1°": "90°", "ca. 90°": "90° approximate", "max 90°": "90° at-most",
			"n/a": "not applicable", "30–45°": "unreadable !unreadable", "60°/90°": "unreadable !unreadable", "9 mm": "unreadable !unreadable", "flat": "text",
		}},
		"counts": {Context{Want: WantCount}, map[string]string{
			"12": "number 12", "12 pcs": "number 12", "1,250": "number 1250", "1.250": "number 1250", "12,500": "number 12500", "1,05,000": "number 105000", "12,05,000 nos": "number 1.205e+06", "1,05,00": "unreadable !unreadable", "1,5,000": "unreadable !unreadable", ">500": "number 500 at-least", "10+": "number 10 at-least", "12個": "number 12", "12 Stück": "number 12", "12 uds": "number 12", "2 rings": "number 2", "１２": "number 12",
			"1.5": "unreadable !unreadable", "-3": "unreadable !unreadable", "in stock": "text", "none": "not applicable", "3 of 4": "unreadable !unreadable", "5%": "unreadable !unreadable",
		}},
		"prices": {Context{Want: WantPrice}, map[string]string{
			"1.25": "number 1.25", "$1.25": "number 1.25", "USD 1.25": "number 1.25", "1,25 €": "number 1.25", "1.250,00 €": "number 1250", "$1,250.00": "number 1250", "3,– €": "number 3", "¥1,250": "number 1250", "1250円": "number 1250", "NT$35": "number 35", "35元": "number 35", "₩1,500": "number 1500", "£0.85": "number 0.85", "1.25/ea": "number 1.25", "1.25 per 12": "number 1.25",
			"3.500 đ": "number 3500", "₫3,500": "number 3500", "1.250.000 đ": "number 1.25e+06", "1.250.000": "number 1.25e+06", "₹1,45,000.00": "number 145000", "Rs. 1,45,000": "number 145000", "R$ 12,50": "number 12.5", "S$4.50": "number 4.5", "RM4.50": "number 4.5", "12,50 TL": "number 12.5", "¥3.500": "number 3500", "3.500 €": "number 3.5", "1.25.000": "unreadable !unreadable",
			"1,250": "unreadable !unreadable", "call": "missing !missing", "-1.25": "unreadable !unreadable",
		}},
		"prices with a decimal comma": {Context{Want: WantPrice, Mark: MarkComma}, map[string]string{"1,250": "number 1.25", "1.250": "number 1250", "1,25": "number 1.25", "-,40": "number 0.4", "–,40 €": "number 0.4", "-.60": "number 0.6", "--.95": "number 0.95", "CHF -.60": "number 0.6", "-.60 CHF": "number 0.6"}},
		"prices with a decimal point": {Context{Want: WantPrice, Mark: MarkPoint}, map[string]string{"1,250": "number 1250", "1.250": "number 1.25"}},
		"tapers": {Context{Want: WantTaper}, map[string]string{
			".0075 in/in": "taper 0.0075", `.0075"/in`: "taper 0.0075", ".0075 per inch": "taper 0.0075", ".0075/in": "taper 0.0075", ".0075 in per inch": "taper 0.0075", "0.0075": "taper 0.0075", "0,0075 mm/mm": "taper 0.0075", "7.5 thou/in": "taper 0.0075", "1:125": "taper 0.008", "0.75%": "taper 0.0075", "0,0075 Zoll pro Zoll": "taper 0.0075", "0.0075 インチ/インチ": "taper 0.0075", "0.1 mm per 12.5 mm": "taper 0.008",
			"0.1": "number 0.1 !unit", "7.5": "number 7.5 !unit", "parallel": "text parallel", "none": "not applicable", ".007~.008": "unreadable !unreadable", ".007 .008": "unreadable !unreadable",
		}},
		"commas known to part thousands":  {Context{Want: WantLength, Unit: "mm", Mark: MarkPoint}, map[string]string{"1,250": "1250 mm", "13,6": "13.6 mm"}},
		"commas known to be decimal":      {Context{Want: WantLength, Unit: "mm", Mark: MarkComma}, map[string]string{"1,250": "1.25 mm", "13,600": "13.6 mm", "13.6": "13.6 mm"}},
		"commas that bounds settle":       {Context{Want: WantLength, Unit: "mm", Least: measure.Millimetres(1), Most: measure.Millimetres(50)}, map[string]string{"1,250": "1.25 mm", "13,600": "13.6 mm"}},
		"bounds":                          {Context{Want: WantDiameter, Unit: "in", Least: measure.Millimetres(5), Most: measure.Millimetres(20)}, map[string]string{".370": "9.398 mm", "370": "9398 mm !implausible", "13.6": "345.44 mm !implausible"}},
		"a French sheet":                  {Context{Want: WantLength, Unit: "mm", Language: "fr"}, map[string]string{"s.o.": "not applicable"}},
		"a German sheet":                  {Context{Want: WantLength, Unit: "mm", Language: "de"}, map[string]string{"s.o.": "ditto !missing"}},
		"numbers as files store them":     {Context{Want: WantLength, Unit: "in", Stored: true}, map[string]string{"5.0000000000000001E-3": "0.127 mm", "0.53500000000000003": "13.589 mm", "0.535": "13.589 mm", "1E-2": "0.254 mm"}},
		"micrometres on a tolerance only": {Context{Want: WantDiameter}, map[string]string{"13.6 ±50 µm": "unreadable !unreadable", "13.6 mm ±50 µm": "13.6 ±0.05 mm"}},
	})
}

func TestReadRecordsEveryLeniency(t *testing.T) {
	for text, want := range map[string][]string{
		"13.6 mm":             nil,
		"13,6 mm":             {ForgaveDecimalComma},
		"１３．６ mm":             {ForgaveWidth},
		`½"`:                  {ForgaveFractionSign},
		"Ø13.6 mm":            {ForgaveDiameterSign},
		"R6.8 mm":             {ForgaveRadiusSign},
		"13.6 mm*":            {ForgaveFootnote},
		"ca. 13.6 mm":         {ForgaveApproximation},
		".370 (9.398mm)":      {ForgaveBothUnits},
		"13.6 mm polished":    {ForgaveTrailingText},
		"hosel 13.6 mm":       {ForgaveNaming},
		"13.6 mm (+0.20 €)":   {ForgaveMoney},
		"0.535 Zoll":          {ForgaveShiftedUnit},
		"13.5-13.7 mm":        {ForgaveRange},
		"'13.6 mm":            {ForgaveApostrophe},
		"13.6 mm -0.1":        {ForgaveOneDeviation},
		"1,250.5 mm":          {ForgaveThousands},
		"1.250,5 mm":          {ForgaveDecimalComma, ForgaveThousands},
		"Ø １３，６ mm*":          {ForgaveWidth, ForgaveDecimalComma, ForgaveDiameterSign, ForgaveFootnote},
		"0.53500000000000003": {ForgaveNoise, ForgaveUnitElsewhere},
		"13.6":                {ForgaveUnitElsewhere},
		".335/.350":           {ForgaveUnitElsewhere},
	} {
		var got []string
		r := Read(text, Context{Want: WantDiameter, Unit: "in"})
		for _, l := range r.Leniencies {
			got = append(got, l.Code)
			if l.Message == "" {
				t.Errorf("%q: %s says nothing", text, l.Code)
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
		if r.Text != text {
			t.Errorf("%q came back as %q", text, r.Text)
		}
	}
}

func TestReadDoubtsAPointAmongCommas(t *testing.T) {
	r := Read("13.600", Context{Want: WantLength, Unit: "mm", Mark: MarkComma})
	if brief(r) != "13.6 mm" || r.Leniencies[1].Code != ForgaveDecimalPoint {
		t.Errorf("got %s with %+v", brief(r), r.Leniencies)
	}
}

func TestReadNamesAlternatives(t *testing.T) {
	for _, test := range []struct {
		text string
		ctx  Context
		want []string
	}{
		{"370", Context{Want: WantDiameter}, []string{"0.370 in"}},
		{"370", Context{Want: WantDiameter, Unit: "in"}, []string{"0.370 in"}},
		{"13.6", Context{Want: WantDiameter, Unit: "in", Least: measure.Millimetres(5), Most: measure.Millimetres(20)}, []string{"13.6 mm"}},
		{"8-Mar", Context{Want: WantDiameter, Unit: "in"}, []string{"3/8 in"}},
		{"3-Aug", Context{Want: WantDiameter, Unit: "in"}, []string{"3/8 in"}},
		{"1-Feb", Context{Want: WantDiameter, Unit: "in"}, []string{"1/2 in"}},
		{"Sep-32", Context{Want: WantDiameter, Unit: "in"}, []string{"9/32 in"}},
		{"5.35E-1", Context{Want: WantDiameter, Unit: "in"}, []string{"0.535 in"}},
		{"1,250", Context{Want: WantLength, Unit: "mm"}, []string{"1.25 mm", "1250 mm"}},
		{".370 (9.5mm)", Context{Want: WantDiameter}, []string{"0.370 in", "9.5 mm"}},
		{"3/8", Context{Want: WantDiameter, Unit: "mm"}, []string{"3/8 in"}},
		{"13.6 mm", Context{Want: WantDiameter}, nil},
	} {
		var got []string
		for _, a := range Read(test.text, test.ctx).Alternatives {
			got = append(got, a.Text)
			if a.Dim.Given() {
				if dim, err := measure.ParseDim(a.Text); err != nil || dim != a.Dim {
					t.Errorf("%q: alternative %q is %v, not %v (%v)", test.text, a.Text, dim, a.Dim, err)
				}
			}
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.text, diff)
		}
	}
}

func TestReadKeepsUnitsAndDecimals(t *testing.T) {
	for _, test := range []struct {
		text     string
		unit     string
		stated   bool
		decimals int
	}{
		{"13.60 mm", "mm", true, 2}, {".535\"", "in", true, 3}, {"13.6", "mm", false, 1}, {"370 thou", "thou", true, 0}, {"1/2 in", "in", true, -1}, {"0.535 Zoll", "in", true, 3},
	} {
		r := Read(test.text, Context{Want: WantDiameter, Unit: "mm"})
		if r.Unit != test.unit || r.UnitStated != test.stated || r.Decimals != test.decimals {
			t.Errorf("%q: unit %q stated %v, %d decimals; want %+v", test.text, r.Unit, r.UnitStated, r.Decimals, test)
		}
	}
}

func ExampleRead() {
	for _, text := range []string{".370 (9.398mm)", "fits .355 taper/.370 parallel", "370"} {
		r := Read(text, Context{Want: WantDiameter, Unit: "in"})
		fmt.Println(text, "->", r.Kind, r.Dim)
		for _, one := range r.List {
			fmt.Println("  ", one.Dim, one.Form == FormTaper)
		}
		for _, a := range r.Alternatives {
			fmt.Println("   perhaps", a.Text, a.Why)
		}
	}
	// Output:
	// .370 (9.398mm) -> length 9.398 mm
	// fits .355 taper/.370 parallel -> list not given
	//    9.017 mm true
	//    9.398 mm false
	// 370 -> length 9398 mm
	//    perhaps 0.370 in (trade shorthand for thousandths of an inch)
}

func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		Read("Ø13,60 ±0,05 mm*", Context{Want: WantDiameter, Unit: "mm"})
	}
}

// TestMinusBehind reads numbers with their minus behind them, as business software writes it; a size, an angle and a price are never below
// nought, and a dash behind a comma or between two sizes is no minus.
func TestMinusBehind(t *testing.T) {
	for _, c := range []struct {
		text string
		ctx  Context
		want string
	}{
		{"13.600-", Context{Want: WantDiameter, Unit: "mm"}, "a size cannot be negative"},
		{"13,6-", Context{Want: WantLength, Unit: "mm"}, "a size cannot be negative"},
		{"13.6 0.05-", Context{Want: WantDiameter, Unit: "mm"}, "13.6 +0/-0.05 mm"},
		{"13.6 +0.05/0.05-", Context{Want: WantDiameter, Unit: "mm"}, "13.6 ±0.05 mm"},
		{"13.5-13.7", Context{Want: WantDiameter, Unit: "mm"}, "13.5 to 13.7 mm"},
		{"13.5- 13.7", Context{Want: WantDiameter, Unit: "mm"}, "13.5 to 13.7 mm"},
		{"1-1/4", Context{Want: WantLength, Unit: "in"}, "1-1/4 in"},
		{"2.10-", Context{Want: WantPrice}, "a count or a price cannot be negative"},
		{"1.234,50-", Context{Want: WantPrice, Mark: MarkComma}, "a count or a price cannot be negative"},
		{"3,-", Context{Want: WantPrice}, "3"},
		{"18.-", Context{Want: WantPrice}, "18"},
		{"12-", Context{Want: WantCount}, "a count or a price cannot be negative"},
		{"12-", Context{Want: WantCount, Signed: true}, "-12"},
		{"-12", Context{Want: WantCount, Signed: true}, "-12"},
		{"12.000-", Context{Want: WantCount, Signed: true, Mark: MarkPoint}, "-12"},
		{"1.250", Context{Want: WantCount, Mark: MarkPoint}, "1.250 is no whole number"},
		{"1.250", Context{Want: WantCount}, "1250"},
	} {
		got := ""
		switch r := Read(c.text, c.ctx); {
		case r.Problem.Code != "":
			got = r.Problem.Message
		case r.Kind == Number:
			got = strconv.FormatFloat(r.Number, 'f', -1, 64)
		default:
			want, err := measure.ParseDim(c.want)
			if got = r.Dim.String(); err == nil && want.WithOrigin(r.Dim.Origin()) == r.Dim {
				got = c.want
			}
		}
		if got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

// What a cell says that its size was before is not its size.
func TestReadWithoutOld(t *testing.T) {
	for text, want := range map[string]string{
		"13.4 (was 13.3)": "13.4 mm", "13,4 mm (alt 13,3)": "13.4 mm", "13.4（旧13.3）": "13.4 mm", "13.4, previously 13.3": "13.4 mm", "13.4 (13.3 old)": "13.4 mm", "13.4, no, sorry, 13.3": "13.3 mm", "13,4 anzi no scusa 13,3": "13.3 mm", "13,4 mm, ach nein, 13,3 mm": "13.3 mm", "13,4 - perdón - 13,3": "13.3 mm",
		"13,6 (et non 13,4 !)": "13.6 mm", "13.6 (not 13.4)": "13.6 mm", "13,6 mm (nicht 13,4 mm!)": "13.6 mm", "13,6 (statt 13,4)": "13.6 mm", "13,6 (a nie 13,4)": "13.6 mm", "13.6, not 13.4": "13.6 mm",
		"13,6 (y no 13,4)": "13.6 mm", "13,6 (e non 13,4)": "13.6 mm", "13,6 (non 13,4)": "13.6 mm", "13,6, non 13,4": "unreadable !unreadable", "13,6 (en niet 13,4)": "13.6 mm", "13,6 (inte 13,4)": "13.6 mm", "13.6（不是13.4）": "13.6 mm", "13.6（13.4ではない）": "13.6 mm", "13,6 (13,4 değil)": "13.6 mm",
		"13.6 (not yet 13.4)": "unreadable !unreadable", "13.6 (hole 13.4)": "unreadable !unreadable",
		"13.6 mm no. 3": "unreadable !unreadable", "13.6 hmm 13.8": "unreadable !unreadable", "13.6 no 13.8": "unreadable !unreadable",
		"13,4 rettet til 13,6": "13.6 mm", "13.4 corrected to 13.6": "13.6 mm", "13,4 korrigiert auf 13,6": "13.6 mm", "13,4 corrigé en 13,6": "13.6 mm", "13,4 (rettet til 13,6)": "13.6 mm",
		"13,4 mm, rettet til 13,6 mm": "13.6 mm", "13,4 ändrat till 13,6": "13.6 mm", "13,4 gecorrigeerd naar 13,6": "13.6 mm", "13,4 corretto in 13,6": "13.6 mm", "13,4 corregido a 13,6": "13.6 mm",
		"13,4 opraveno na 13,6": "13.6 mm", "13,4 zmieniono na 13,6": "13.6 mm", "13.4改为13.6": "13.6 mm", "13.4 改為 13.6": "13.6 mm", "13.4から13.6に訂正": "13.6 mm", "13.4에서 13.6으로 수정": "13.6 mm",
		"13,4 til 13,6": "13.5 ±0.1 mm", "13.4 to 13.6": "13.5 ±0.1 mm", "13.6 corrected from 13.4": "unreadable !unreadable", "13.6 checked 13.4": "unreadable !unreadable",
		"13.4 (vorher 13.3)": "13.4 mm", "13.4 (9.35)": "unreadable !unreadable",
	} {
		if got := brief(Read(text, Context{Want: WantLength, Unit: "mm"})); got != want {
			t.Errorf("%q reads as %q, want %q", text, got, want)
		}
	}
}

// The currencies without a smaller unit are those of the Unicode CLDR, as golang.org/x/text has them, but for those whose smaller unit is
// only out of use.
func TestWholeCurrencies(t *testing.T) {
	for code := range wholeCurrency {
		unit, err := currency.ParseISO(code)
		if err != nil {
			t.Fatal(err)
		}
		if scale, _ := currency.Standard.Rounding(unit); scale != 0 && !slices.Contains([]string{"TWD", "IDR", "HUF", "COP"}, code) {
			t.Errorf("%s has %d decimals", code, scale)
		}
	}
	for _, code := range []string{"EUR", "USD", "GBP", "CNY", "THB", "PLN"} {
		if wholeCurrency[code] {
			t.Errorf("%s has a smaller unit", code)
		}
	}
}

// The currency that a cell names is the one that it writes, not the one whose sign ends it.
func TestCurrencyOfPrice(t *testing.T) {
	for text, want := range map[string]string{
		"R$ 12,50": "BRL", "NT$ 120": "TWD", "S$4.50": "SGD", "A$4.50": "AUD", "$4.50": "USD", "3.500 đ": "VND", "12,50 TL": "TRY", "RM 4.50": "MYR", "₱45": "PHP",
	} {
		if got := Read(text, Context{Want: WantPrice}); got.Unit != want {
			t.Errorf("%q is in %q, want %q", text, got.Unit, want)
		}
	}
}
