package spoken

import "testing"

// TestTimeOfDay looks at how talks are written down.
func TestTimeOfDay(t *testing.T) {
	for text, want := range map[string]string{
		"[5/11/2027, 09:43] J. Orr: X-1 has 13.6": "[5/11/2027, 09:43] J. Orr:",
		"[오전 9:12] 김도현: HB-301 내경 9.3":            "[오전 9:12] 김도현:",
		"[午後3:05] 佐藤：ML-2":                        "[午後3:05] 佐藤：",
		"[Tue 09:43] J. Orr: X-1":                 "[Tue 09:43] J. Orr:",
		"[Di., 09:43] Anna: X-1":                  "[Di., 09:43] Anna:",
		"[mar. 09:43] Luc : X-1":                  "[mar. 09:43] Luc :",
		"[śr 14.03.2025, 09:43] Ola: X-1":         "[śr 14.03.2025, 09:43] Ola:",
		"[김도현 과장] [오후 2:12] HB-101 외경 12.0":       "[김도현 과장] [오후 2:12]",
		"[J. Orr] [2:12 PM] X-1":                  "[J. Orr] [2:12 PM]",
		"Tue 09:43":                               "",
		"09:43 yes":                               "09:43",
		"X-1 at 9:43":                             "",
		"오전에 보내요":                                 "",
	} {
		if got := TimeOfDay(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
