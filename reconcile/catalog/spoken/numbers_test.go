package spoken

import (
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestItemNumber(t *testing.T) {
	for text, want := range map[string]string{
		"- HX-4: OD 13.6, bore 9.5":       "HX-4|OD 13.6, bore 9.5",
		"• VM 101 – noire, alésage 9,35":  "VM 101|noire, alésage 9,35",
		"* TF-05 Ø esterno 13,4":          "TF-05|Ø esterno 13,4",
		"LQ-15 is black, bore .370":       "LQ-15|is black, bore .370",
		"1. ZB-201: schwarz, innen 9,35":  "ZB-201|schwarz, innen 9,35",
		"(12) ZB-201 innen 9,35":          "ZB-201|innen 9,35",
		"TQ-8  Iron 5: OD 13.6, bore 9.5": "TQ-8|Iron 5: OD 13.6, bore 9.5",
		"TQ-8  PW: OD 13.6":               "TQ-8|PW: OD 13.6",
		"TQ-8 B  long: OD 13.6":           "TQ-8 B|long: OD 13.6",
		"TQ-8 Iron 5: OD 13.6":            "TQ-8|Iron 5: OD 13.6",
		"TQ-8 SW: OD 13.6":                "TQ-8|SW: OD 13.6",
		"TQ-8 B: OD 13.6":                 "TQ-8 B|OD 13.6", // B may be part of it
		"TQ8\u3000黑色：外径13.6mm":            "TQ8|黑色：外径13.6mm",
		"TQ8 黑色：外径13.6mm":                 "TQ8|黑色: 外径13.6mm",
		"X-3 and X-4: OD 13.8":            "X-3 and X-4|OD 13.8",
		"- X-5 und X-6 folgen, OD 14":     "X-5 und X-6|folgen, OD 14",
		"X-1, X-2 et X-3 – OD 13.8":       "X-1, X-2 et X-3|OD 13.8",
		"X-1 to X-3 OD 13.8":              "X-1 to X-3|OD 13.8",
		"Schaft .370: X-1, unten 13,6":    "|", // a size before a colon
		"X-1 and Y-2: OD 13.8":            "X-1|and Y-2: OD 13.8",
		"09:43 J. Orr: HX-4 OD 13.6":      "HX-4|OD 13.6",
		"[5/11/2027, 9:43 PM] HX-4: 13.6": "HX-4|13.6",
		"12:30 lunch, bore 9.5":           "|",
		"HX-4":                            "|", // a cell of a column of part numbers
		"13.6mm OD, bore 9.5":             "|", // a size
		"- bore 9.5, OD 13.6":             "|",
		"Part no.: HX-4":                  "|", // a label of a card
		"We can ship 12 by Friday, OD ok": "|",
	} {
		number, rest := ItemNumber(lexicon.New(nil), text)
		if got := number + "|" + rest; got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestParted(t *testing.T) {
	for text, want := range map[string]string{
		"ソケットKB-204は外径13.55mm、内径9.3mm": "ソケット KB-204 は外径13.55mm、内径9.3mm",
		"套圈SZ-9，外径13.1毫米":              "套圈 SZ-9 ，外径13.1毫米",
		"TQ8：外径13.6mm":                 "TQ8：外径13.6mm",
		"외경 13.4 GY-5페럴":               "외경 13.4 GY-5 페럴",
		"外径OD13 内径ID9":                 "外径OD13 内径ID9",
		"FOB深圳USD0.12":                 "FOB深圳USD0.12",
		"The KT-5, base 13.5":          "The KT-5, base 13.5",
	} {
		if got := Parted(lexicon.New(nil), text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
